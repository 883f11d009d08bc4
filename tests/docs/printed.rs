//! What README.md shows of the program's output.

use std::io::Write;

use sparestrip::rule_book::book;
use sparestrip::rules::SIGN_OFF_RULES;

use super::{paper, printed, project, sparestrip};

/// The rules whose findings README.md shows: errors in three sections, a query, and one about the file itself.
const SHOWN: [&str; 5] = ["unknown-word", "binding-short", "no-squaring-room", "backing-short", "pieces-short"];

/// The blocks by name, and what each should hold.
fn blocks() -> [(&'static str, String); 5] {
    let worksheet = ["worksheet", "example-patterns/gull-mat.pattern.yaml", "--color", "never"];
    [
        ("report", report()),
        ("rules", printed(&["rules", "--color", "never"])),
        ("values", values()),
        ("worksheet", printed(&worksheet)),
        ("tables", printed(&["tables", "example-patterns/gull-mat.pattern.yaml"])),
    ]
}

/// The findings that are shown out of the report on the examples, and its last line.
fn report() -> String {
    let whole = printed(&["check", "example-patterns"]);
    let mut findings: Vec<String> = Vec::new();
    for line in whole.split_inclusive('\n') {
        let is_head = ["error: ", "query: ", "note: "].iter().any(|level| line.starts_with(level));
        if is_head || findings.is_empty() {
            findings.push(String::new());
        }
        findings.last_mut().expect("one was pushed").push_str(line);
    }
    let head_names =
        |finding: &str, rule: &str| finding.lines().next().is_some_and(|head| head.contains(&format!(" {rule} ")));
    let shown = findings.iter().filter(|finding| SHOWN.iter().any(|rule| head_names(finding, rule)));
    let mut text: String = shown.map(|finding| format!("{}\n\n", finding.trim_end())).collect();
    text.push_str(whole.lines().last().unwrap_or_default());
    text.push('\n');
    text
}

/// The values of the rule book in three columns.
fn values() -> String {
    let rows: Vec<[&str; 3]> =
        book().iter().flat_map(|page| page.values.iter().map(|value| [value.name, value.text, page.name])).collect();
    let heading = ["value", "standard", "explained by"];
    let widest = |column: usize| rows.iter().chain([&heading]).map(|row| row[column].len()).max().unwrap_or(0);
    let (first, second) = (widest(0), widest(1));
    let line = |row: &[&str; 3]| {
        let [name, value, rule] = row;
        let shown = if *rule == heading[2] { (*rule).to_string() } else { format!("sparestrip rules {rule}") };
        format!("{name:first$}   {value:second$}   {shown}\n")
    };
    [heading].iter().chain(&rows).map(line).collect()
}

/// A paper with the text of a block put in.
fn with_block(paper: &str, name: &str, text: &str) -> String {
    let mark = format!("<!-- printed: {name} -->\n");
    let (before, rest) = paper.split_once(&mark).unwrap_or_else(|| panic!("README.md has no mark {mark}"));
    let (_, after) = rest.split_once("<!-- end -->").unwrap_or_else(|| panic!("{mark} has no end"));
    format!("{before}{mark}```text\n{text}```\n<!-- end -->{after}")
}

#[test]
fn readme_shows_what_the_program_prints() {
    let readme = paper("README.md");
    let should_be = blocks().iter().fold(readme.clone(), |paper, (name, text)| with_block(&paper, name, text));
    if std::env::var_os("REFRESH_DOCS").is_some() {
        let mut file = tempfile::NamedTempFile::new_in(project()).expect("a temporary file");
        file.write_all(should_be.as_bytes()).expect("written");
        file.persist(project().join("README.md")).expect("renamed over README.md");
        return;
    }
    let differs = readme.lines().zip(should_be.lines()).position(|(is, should)| is != should);
    assert!(
        readme == should_be,
        "README.md does not show what the program prints, from line {} on.\n\
         Print it anew with: REFRESH_DOCS=1 cargo test --test docs",
        differs.map_or(0, |line| line + 1)
    );
}

#[test]
fn each_shown_rule_is_in_the_report() {
    let report = report();
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
    assert_eq!(findings, book().len() - SIGN_OFF_RULES.len(), "{text}");
    let readme = paper("README.md").replace('\n', " ");
    let told = format!(
        "a fault for each of the {findings} rules that look at the manuscript alone: so it reports {findings} findings \
         and ends with status 1"
    );
    assert!(readme.contains(&told), "{told}");
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
