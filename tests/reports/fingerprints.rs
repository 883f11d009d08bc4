//! The fingerprints in JSON: one for each finding, the same while it is the same finding.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;

use super::FOUR_KINDS;
use super::support::{folder_with, run, write};

/// The fingerprints of the findings and of those that were accepted, each with its rule and size.
fn fingerprints(folder: &Path, words: &[&str]) -> Vec<(String, String)> {
    let json = run(folder, &[&["check", "--format", "json"], words].concat()).json();
    let lists = [&json["findings"], &json["accepted"]];
    let one = |finding: &Value| {
        let word = |name: &str| finding[name].as_str().unwrap_or_default().to_string();
        (format!("{} {}", word("rule"), word("size")), word("fingerprint"))
    };
    lists.into_iter().flat_map(|list| list.as_array().unwrap()).map(one).collect()
}

#[test]
fn each_finding_of_all_examples_has_its_own() {
    let found = fingerprints(Path::new(env!("CARGO_MANIFEST_DIR")), &["example-patterns"]);
    let own: BTreeSet<&String> = found.iter().map(|(_, fingerprint)| fingerprint).collect();
    assert!(own.len() > 50 && own.len() == found.len(), "{} of {}", own.len(), found.len());
    assert!(own.iter().all(|one| one.len() == 32 && one.chars().all(|c| c.is_ascii_hexdigit())));
}

#[test]
fn it_stays_when_lines_move_and_numbers_change_and_another_finding_goes() {
    let (folder, file) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let before = fingerprints(folder.path(), &[]);
    assert_eq!(before.len(), 4, "{before:?}");
    let of = |found: &[(String, String)], rule: &str| found.iter().find(|(known, _)| known == rule).cloned();
    write(&file, format!("# one\n# two\n\n{FOUR_KINDS}"));
    assert_eq!(fingerprints(folder.path(), &[]), before, "lines moved");
    let short = ["strips: 3", "strips: 4"].map(|strips| {
        write(&file, FOUR_KINDS.replace("strips: 5", strips));
        of(&fingerprints(folder.path(), &[]), "binding-short crib").expect("it is short")
    });
    assert_eq!(short[0], short[1], "another number that is short as well");
    write(&file, FOUR_KINDS.replace("strips: 5, fabric: 1/2 yd", "strips: 6, fabric: 1/2 yd"));
    let fixed = fingerprints(folder.path(), &[]);
    assert_eq!(of(&fixed, "spare-strip crib"), None);
    for rule in ["size-not-stated throw", "spare-strip queen"] {
        assert!(of(&before, rule).is_some(), "{before:?}");
        assert_eq!(of(&fixed, rule), of(&before, rule), "{rule}");
    }
    write(&file, FOUR_KINDS.split("accepted:").next().expect("the text before it"));
    let open = fingerprints(folder.path(), &[]);
    assert_eq!(of(&open, "spare-strip queen"), of(&before, "spare-strip queen"), "accepted or not");
}

#[test]
fn it_stays_however_the_file_is_named() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let found = ["x.pattern.yaml", "./x.pattern.yaml", "."].map(|path| fingerprints(folder.path(), &[path]));
    assert!(!found[0].is_empty());
    assert_eq!((&found[0], &found[0]), (&found[1], &found[2]));
}

/// Two slips of the pen differ by the word, so that the second keeps its name when the first is put right.
#[test]
fn of_two_slips_the_one_that_is_left_keeps_its_own() {
    let both = FOUR_KINDS.replace("tails:", "tials:").replace("opening:", "openning:");
    let (folder, file) = folder_with("x.pattern.yaml", &both);
    let unknown = |found: Vec<(String, String)>| -> Vec<String> {
        found.into_iter().filter(|(what, _)| what.starts_with("unknown-word")).map(|(_, one)| one).collect()
    };
    let before = unknown(fingerprints(folder.path(), &[]));
    assert_eq!(before.len(), 2);
    write(&file, both.replace("tials:", "tails:"));
    assert_eq!(unknown(fingerprints(folder.path(), &[])), before[1..]);
}
