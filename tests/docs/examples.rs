//! The example manuscripts are as they say.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;
use sparestrip::rule_book::book;

use super::{manuscripts, printed, sparestrip};

const FAULTY: &str = "example-patterns/with-faults";
const SIGNED_OFF: &str = "example-patterns/signed-off";

#[test]
fn the_right_manuscripts_are_silent() {
    let files = manuscripts("example-patterns");
    assert_eq!(files.len(), 11, "{files:?}");
    for file in files {
        let output = sparestrip(&["check", "--strict", "--account", "--signed", &file.to_string_lossy()]);
        let text = String::from_utf8(output.stdout).expect("text");
        assert_eq!(without_caution(&text), "1 manuscript: no problems\n");
        assert_eq!(output.status.code(), Some(0));
    }
}

/// A report without the caution about a crib quilt.
fn without_caution(report: &str) -> &str {
    match report.strip_prefix("caution: crib size ") {
        Some(rest) => rest.split_once("\n\n").map_or(rest, |(_, rest)| rest),
        None => report,
    }
}

/// A rule, and the line that it finds something on.
type Fault = (u64, String);

/// The lines that `FAULT` comments stand on, with the rules that they name.
fn seeded(file: &Path) -> BTreeSet<Fault> {
    let text = super::paper(&file.to_string_lossy());
    let lines = (1..).zip(text.lines());
    let comments =
        lines.flat_map(|(number, line)| line.split("# FAULT ").skip(1).map(move |comment| (number, comment)));
    comments
        .map(|(number, comment)| (number, comment.split_once(':').expect("a rule and a colon").0.to_string()))
        .collect()
}

#[test]
fn each_seeded_fault_is_found_on_its_line_and_nothing_else() {
    let files = manuscripts(FAULTY);
    assert_eq!(files.len(), 7, "{files:?}");
    for file in files {
        has_its_faults(&file, &[]);
    }
}

#[test]
fn what_shows_signing_off_is_right_and_its_sign_offs_are_not() {
    let files = manuscripts(SIGNED_OFF);
    assert_eq!(files.len(), 2, "{files:?}");
    for file in files {
        let output = sparestrip(&["check", "--strict", "--account", &file.to_string_lossy()]);
        let text = String::from_utf8(output.stdout).expect("text");
        // A cushion would fit a crib, which is told and counts as nothing.
        assert_eq!(text.lines().last(), Some("1 manuscript: no problems"), "{text}");
        has_its_faults(&file, &["--signed"]);
    }
}

/// Says that what is found in a manuscript is what its comments tell.
fn has_its_faults(file: &Path, options: &[&str]) {
    let file_name = file.to_string_lossy();
    let words = ["check", "--format", "json", &file_name];
    let json: Value = serde_json::from_str(&printed(&[&words, options].concat())).expect("JSON");
    let findings = json["findings"].as_array().expect("a list");
    let found: BTreeSet<Fault> = findings
        .iter()
        .map(|finding| {
            (finding["at"]["line"].as_u64().expect("a line"), finding["rule"].as_str().expect("a rule").into())
        })
        .collect();
    assert_eq!(found, seeded(file));
    assert_eq!(findings.len(), found.len(), "a rule found twice on one line of {}", file.display());
}

#[test]
fn each_rule_has_one_seeded_fault() {
    let files = [FAULTY, SIGNED_OFF].map(manuscripts).concat();
    let mut seeded: Vec<String> = files.iter().flat_map(|file| seeded(file)).map(|(_, rule)| rule).collect();
    let mut rules: Vec<String> = book().iter().map(|page| page.name.to_string()).collect();
    seeded.sort();
    rules.sort();
    assert_eq!(seeded, rules);
}

/// National safe-sleep guidance concerns every quilt of a size that fits a crib.
#[test]
fn a_size_for_a_crib_comes_with_a_caution() {
    let mut files = manuscripts("example-patterns");
    files.extend([FAULTY, SIGNED_OFF].map(manuscripts).concat());
    for file in files {
        let text = super::paper(&file.to_string_lossy());
        let for_a_crib = ["crib:", "baby:", "cot:", "for: crib"].iter().any(|size| text.contains(size));
        assert!(!for_a_crib || text.contains("safe-sleep guidance"), "{}", file.display());
    }
}
