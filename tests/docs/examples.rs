//! The example manuscripts are as they say.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;
use sparestrip::rule_book::book;

use super::{manuscripts, printed, sparestrip};

const FAULTY: &str = "example-patterns/with-faults";
const SIGNED_OFF: &str = "example-patterns/signed-off";

/// The right manuscripts that have a printed text, with what is told of it.
const TEXTS: [(&str, &str); 2] = [
    ("tern-colony", "tern-colony.docx: 140 of 140 numbers matched"),
    ("tide-pools", "tide-pools.md: 138 of 138 numbers matched"),
];

#[test]
fn the_right_manuscripts_are_silent() {
    let files = manuscripts("example-patterns");
    assert_eq!(files.len(), 11, "{files:?}");
    for file in files {
        let output = sparestrip(&["check", "--strict", "--account", "--signed", &file.to_string_lossy()]);
        let text = String::from_utf8(output.stdout).expect("text");
        let told: Vec<&str> = without_caution(&text).lines().collect();
        let (last, matched) = told.split_last().expect("a line");
        assert_eq!(*last, "1 manuscript: no problems");
        let matched: Vec<&str> = matched.iter().filter_map(|line| line.split("example-patterns/").nth(1)).collect();
        let of_file = |(name, _): &&(&str, &str)| file.ends_with(format!("{name}.pattern.yaml"));
        let expected: Vec<&str> = TEXTS.iter().filter(of_file).map(|(_, matched)| *matched).collect();
        assert_eq!(matched, expected, "{}", file.display());
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

/// The ending of the file, the line that a rule finds something on, and the rule.
type Fault = (String, u64, String);

/// The lines that `FAULT` comments stand on, with the rules that they name, in a manuscript and in its printed text.
fn seeded(file: &Path) -> BTreeSet<Fault> {
    let text = file.to_string_lossy().replace(".pattern.yaml", ".md");
    let printed = if super::project().join(&text).is_file() { Some(Path::new(&text)) } else { None };
    let files = std::iter::once(file).chain(printed);
    files.flat_map(faults_of).collect()
}

fn faults_of(file: &Path) -> Vec<Fault> {
    let text = super::paper(&file.to_string_lossy());
    let mut faults = Vec::new();
    for (number, line) in (1..).zip(text.lines()) {
        for mark in ["# FAULT ", "<!-- FAULT "] {
            let rules = line.split(mark).skip(1).map(|comment| comment.split_once(':').expect("a rule and a colon").0);
            faults.extend(rules.map(|rule| (ending(file), number, rule.to_string())));
        }
    }
    faults
}

fn ending(file: &Path) -> String {
    file.extension().expect("an ending").to_string_lossy().into_owned()
}

#[test]
fn each_seeded_fault_is_found_on_its_line_and_nothing_else() {
    let files = manuscripts(FAULTY);
    assert_eq!(files.len(), 8, "{files:?}");
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
            let file = Path::new(finding["file"].as_str().expect("a file"));
            let line = finding["at"]["line"].as_u64().expect("a line");
            (ending(file), line, finding["rule"].as_str().expect("a rule").into())
        })
        .collect();
    assert_eq!(found, seeded(file));
    assert_eq!(findings.len(), found.len(), "a rule found twice on one line of {}", file.display());
}

#[test]
fn each_rule_has_one_seeded_fault() {
    let files = [FAULTY, SIGNED_OFF].map(manuscripts).concat();
    let mut seeded: Vec<String> = files.iter().flat_map(|file| seeded(file)).map(|(_, _, rule)| rule).collect();
    // What only a house asks for is not seeded: the examples go by no house's rules.
    let standard = book().iter().filter(|page| page.house.is_none());
    let mut rules: Vec<String> = standard.map(|page| page.name.to_string()).collect();
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
