//! What README.md and the chapters of the manual show of the program's output.

use std::io::Write;

use sparestrip::rule_book::book;
use sparestrip::rules::SIGN_OFF_RULES;

use super::{paper, printed, project, sparestrip, walk};

/// The rules whose findings the manual shows: errors in three sections, a query, and one about the file itself.
const SHOWN: [&str; 5] = ["unknown-word", "binding-short", "no-squaring-room", "backing-short", "pieces-short"];

const README: &str = "README.md";
const CHAPTERS: &str = "src/report/manual/chapters";

/// The papers that show output, the blocks in each by name, and what each block should hold.
fn shown() -> Vec<(String, Vec<(&'static str, String)>)> {
    let gull_mat = "example-patterns/gull-mat.pattern.yaml";
    let curlew_flat = "example-patterns/curlew-flat.pattern.yaml";
    let chapter = |name: &str| format!("{CHAPTERS}/{name}.md");
    vec![
        (
            README.to_string(),
            vec![
                ("finding", report(&["pieces-short"])),
                ("first-check", walk::first_check()),
                ("second-check", walk::second_check()),
            ],
        ),
        (chapter("findings"), vec![("findings", report(&SHOWN))]),
        (chapter("worksheet"), vec![("worksheet", printed(&["worksheet", gull_mat, "--color", "never"]))]),
        (
            chapter("tables"),
            vec![
                ("tables", printed(&["tables", gull_mat])),
                ("instructions", printed(&["tables", curlew_flat, "--form", "instructions"])),
            ],
        ),
    ]
}

/// The findings of some rules out of the report on the examples, and its last line.
fn report(rules: &[&str]) -> String {
    let whole = printed(&["check", "example-patterns"]);
    let mut findings: Vec<String> = Vec::new();
    for line in whole.split_inclusive('\n') {
        let is_head = ["error: ", "query: ", "note: ", "caution: "].iter().any(|level| line.starts_with(level));
        if is_head || findings.is_empty() {
            findings.push(String::new());
        }
        findings.last_mut().expect("one was pushed").push_str(line);
    }
    let head_names =
        |finding: &str, rule: &str| finding.lines().next().is_some_and(|head| head.contains(&format!(" {rule} ")));
    let shown = findings.iter().filter(|finding| rules.iter().any(|rule| head_names(finding, rule)));
    let mut text: String = shown.map(|finding| format!("{}\n\n", finding.trim_end())).collect();
    text.push_str(whole.lines().last().unwrap_or_default());
    text.push('\n');
    text
}

/// A paper with the text of a block put in.
fn with_block(paper: &str, name: &str, text: &str) -> String {
    let mark = format!("<!-- printed: {name} -->\n");
    let (before, rest) = paper.split_once(&mark).unwrap_or_else(|| panic!("there is no mark {mark}"));
    let (_, after) = rest.split_once("<!-- end -->").unwrap_or_else(|| panic!("{mark} has no end"));
    format!("{before}{mark}```text\n{text}```\n<!-- end -->{after}")
}

#[test]
fn the_papers_show_what_the_program_prints() {
    for (name, blocks) in shown() {
        let is = paper(&name);
        assert_eq!(is.matches("<!-- printed: ").count(), blocks.len(), "{name}");
        let should_be = blocks.iter().fold(is.clone(), |paper, (name, text)| with_block(&paper, name, text));
        if std::env::var_os("REFRESH_DOCS").is_some() {
            let mut file = tempfile::NamedTempFile::new_in(project()).expect("a temporary file");
            file.write_all(should_be.as_bytes()).expect("written");
            file.persist(project().join(&name)).expect("renamed over the paper");
            continue;
        }
        let differs = is.lines().zip(should_be.lines()).position(|(is, should)| is != should);
        assert!(
            is == should_be,
            "{name} does not show what the program prints, from line {} on.\n\
             Print it anew with: REFRESH_DOCS=1 cargo test --test program docs",
            differs.map_or(0, |line| line + 1)
        );
    }
}

/// What is shown nowhere else must be named in the test above.
#[test]
fn no_other_chapter_shows_output() {
    let named: Vec<String> = shown().into_iter().map(|(name, _)| name).collect();
    for entry in project().join(CHAPTERS).read_dir().expect("a folder") {
        let name = format!("{CHAPTERS}/{}", entry.expect("an entry").file_name().to_string_lossy());
        assert!(named.contains(&name) || !paper(&name).contains("<!-- printed: "), "{name}");
    }
}

#[test]
fn each_shown_rule_is_in_the_report() {
    let report = report(&SHOWN);
    for rule in SHOWN {
        assert!(report.lines().any(|line| line.contains(&format!(": {rule} "))), "{rule} is not in:\n{report}");
    }
}

/// README.md says so in numbers.
#[test]
fn the_first_command_reports_a_finding_for_each_rule_and_ends_with_status_one() {
    let output = sparestrip(&["check", "example-patterns"]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).expect("text");
    let heads = ["error: ", "query: ", "note: "];
    let findings = text.lines().filter(|line| heads.iter().any(|level| line.starts_with(level))).count();
    // One finds something only where house rules ask for it.
    let by_house = book().iter().filter(|page| page.house.is_some()).count();
    assert_eq!(findings, book().len() - SIGN_OFF_RULES.len() - by_house, "{text}");
    let readme = paper("README.md").replace('\n', " ");
    let told = format!(
        "a fault for each of the {findings} rules that look at the manuscript alone: so it reports {findings} findings \
         and ends with status 1"
    );
    assert!(readme.contains(&told), "{told}");
    let told = format!("Five of the {findings} findings");
    assert!(paper(&format!("{CHAPTERS}/findings.md")).contains(&told), "{told}");
}

#[test]
fn the_first_two_commands_are_where_readers_look() {
    let readme = paper("README.md");
    let commands: Vec<&str> = readme.lines().filter_map(|line| line.strip_prefix("    ")).take(2).collect();
    assert_eq!(commands, ["cargo run --release -- check example-patterns", "cargo test"]);
    for command in commands {
        assert!(paper(".ci/run").contains(&format!("\n{command}")), ".ci/run does not run {command}");
    }
}
