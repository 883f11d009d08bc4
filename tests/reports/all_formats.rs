//! The same findings at the same places in every format.

use std::path::Path;

use super::FOUR_KINDS;
use super::matchers;
use super::schema::is_valid;
use super::seen::{Reports, Seen, check, in_json, in_junit, in_sarif, in_text};
use super::support::{examples, folder_with, write};

/// Fails where a format tells other findings than JSON does. Returns how many there are.
pub(super) fn agree(reports: &Reports) -> usize {
    let json = in_json(&reports.json);
    are_the_same("SARIF", in_sarif(&reports.sarif), &json);
    are_the_same("JUnit", in_junit(&reports.junit), &json);
    let open: Vec<_> = json.iter().filter(|seen| !seen.accepted).cloned().collect();
    are_the_same("text", in_text(&reports.text), &open);
    let accepted = json.len() - open.len();
    if accepted > 0 {
        assert!(reports.text.contains(&format!("{accepted} accepted")), "{}", reports.text);
    }
    is_valid(&reports.sarif);
    matchers::agree(reports);
    json.len()
}

/// Fails with those that only one of two formats tells, or that one tells more often.
fn are_the_same(format: &str, mut found: Vec<Seen>, json: &[Seen]) {
    let mut missing = Vec::new();
    for seen in json {
        match found.iter().position(|found| found == seen) {
            Some(at) => drop(found.swap_remove(at)),
            None => missing.push(seen),
        }
    }
    assert!(missing.is_empty() && found.is_empty(), "{format} does not tell {missing:#?}, and tells {found:#?}");
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn on_all_examples_and_all_faults() {
    for words in [vec![], vec!["--strict"], vec!["--account"], vec!["--strict", "--account"], vec!["--signed"]] {
        let words = [vec!["example-patterns"], words].concat();
        let reports = check(root(), &words);
        // A fault for every rule.
        assert!(agree(&reports) >= 53, "{words:?}");
        assert_eq!(reports.status, Some(1));
    }
}

#[test]
fn of_every_level_and_accepted() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let reports = check(folder.path(), &["--account"]);
    assert_eq!(agree(&reports), 3 + 1, "{}", reports.text);
    let accepted = in_json(&reports.json).into_iter().filter(|seen| seen.accepted).count();
    assert_eq!(accepted, 1);
    assert_eq!(reports.json["unaccounted"].as_array().unwrap().len(), 3, "{}", reports.text);
}

#[test]
fn on_manuscripts_with_any_line_damaged() {
    let (folder, files) = damaged_folder();
    assert!(files > 100, "{files}");
    let found = agree(&check(folder.path(), &["--account"]));
    assert!(found > 500, "{found} in {files}");
}

/// Every example with one line changed, again and again: taken out, written twice, without its colons, with other
/// digits, or torn off behind it. How many files there are.
pub(super) fn damaged_folder() -> (tempfile::TempDir, usize) {
    let folder = tempfile::tempdir().unwrap();
    let mut files = 0;
    for path in examples() {
        let text = String::from_utf8(std::fs::read(&path).unwrap()).unwrap();
        let name = path.file_name().unwrap().to_string_lossy();
        let name = name.strip_suffix(".pattern.yaml").unwrap();
        for (index, damaged) in damaged(&text).into_iter().enumerate() {
            write(&folder.path().join(format!("{name}-{index}.pattern.yaml")), damaged);
            files += 1;
        }
    }
    (folder, files)
}

fn damaged(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let with = |at: usize, line: &str| {
        let mut lines = lines.clone();
        lines[at] = line;
        lines.join("\n") + "\n"
    };
    let mut all = Vec::new();
    for (at, line) in lines.iter().enumerate().filter(|(at, line)| at % 7 == 0 && !line.trim().is_empty()) {
        all.push(match at / 7 % 5 {
            0 => with(at, ""),
            1 => with(at, &format!("{line}\n{line}")),
            2 => with(at, &line.replace(':', " ")),
            3 => with(at, &line.replace(['1', '2', '4'], "9")),
            _ => lines[..=at].join("\n"),
        });
    }
    all
}
