//! The example manuscripts are as they say.

use std::collections::BTreeSet;

use serde_json::Value;

use super::{manuscripts, printed, project, sparestrip};

const FAULTY: &str = "example-patterns/with-faults/salt-marsh.pattern.yaml";

#[test]
fn the_right_manuscripts_are_silent() {
    let files = manuscripts("example-patterns");
    assert_eq!(files.len(), 3, "{files:?}");
    for file in files {
        let output = sparestrip(&["check", "--strict", &file.to_string_lossy()]);
        let text = String::from_utf8(output.stdout).expect("text");
        assert_eq!(text, "1 manuscript: nothing to mend\n");
        assert_eq!(output.status.code(), Some(0));
    }
}

/// The lines that a `FAULT` comment stands on, with the rule that it names.
fn seeded() -> BTreeSet<(u64, String)> {
    let text = super::paper(FAULTY);
    let lines = (1..).zip(text.lines());
    lines
        .filter_map(|(number, line)| line.split_once("# FAULT ").map(|(_, comment)| (number, comment)))
        .map(|(number, comment)| (number, comment.split_once(':').expect("a rule and a colon").0.to_string()))
        .collect()
}

#[test]
fn each_seeded_fault_is_found_on_its_line_and_nothing_else() {
    let json: Value = serde_json::from_str(&printed(&["check", "--format", "json", FAULTY])).expect("JSON");
    let findings = json["findings"].as_array().expect("a list");
    let found: BTreeSet<(u64, String)> = findings
        .iter()
        .map(|finding| {
            (finding["at"]["line"].as_u64().expect("a line"), finding["rule"].as_str().expect("a rule").into())
        })
        .collect();
    assert_eq!(found, seeded());
    assert_eq!(findings.len(), found.len(), "a rule found twice on one line");
}

#[test]
fn each_seeded_fault_is_of_another_rule() {
    let seeded = seeded();
    let rules: BTreeSet<&str> = seeded.iter().map(|(_, rule)| rule.as_str()).collect();
    assert_eq!(rules.len(), seeded.len());
    assert_eq!(rules.len(), 20);
}

/// National safe-sleep advice concerns every quilt of a size that fits a cot.
#[test]
fn a_size_for_a_cot_comes_with_a_caution() {
    let mut files = manuscripts("example-patterns");
    files.push(project().join(FAULTY));
    for file in files {
        let text = super::paper(&file.to_string_lossy());
        let for_a_cot = ["crib:", "baby:", "cot:"].iter().any(|size| text.contains(size));
        assert!(!for_a_cot || text.contains("safe-sleep advice"), "{}", file.display());
    }
}
