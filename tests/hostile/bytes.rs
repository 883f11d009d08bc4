//! Bytes that are no text, and text that would steer a terminal.

use std::ffi::OsStr;
use std::os::unix::ffi::OsStrExt;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use rstest::rstest;

use super::support::{GOOD, folder_with, is_wild, run_with_input, write};
use super::{is_refused, rules_in, survives};

/// Everything that could steer a terminal or deceive an eye: clear the screen, set the title, C1 control, turned
/// writing, delete, nought, a lone carriage return, a zero-width space, a line separator.
const WILD: &str = "a\u{1b}[2J\u{1b}]0;t\u{7}b\u{9b}1mc\u{202e}d\u{7f}e\u{0}f\rg\u{200b}h\u{2028}i\u{85}j\u{feff}k";

/// The same as YAML can say it in a quoted value, so that it reaches messages and not only the line that is shown.
const ESCAPED: &str = r"a\e[2J\e]0;t\ab\x9b1mc\u202ed\x7fe\0f\rg\u200bh\u2028i\u0085j\ufeffk\r\nl\n\tm";

#[rstest]
#[case::raw(WILD)]
#[case::escaped(ESCAPED)]
fn names_and_values_that_would_steer_the_terminal(#[case] wild: &str) {
    let quoted = format!("\"{wild}\"");
    let places = [
        ("Harbour Lanterns", GOOD.replace("Harbour Lanterns", &quoted)),
        ("a word", format!("{GOOD}{quoted}: 1\n")),
        ("a size", GOOD.replace("throw:", &format!("{quoted}:")).replace("strips: 9", "strips: 2")),
        ("a size that is not stated", GOOD.replacen("throw:", &format!("{quoted}:"), 1)),
        ("an unknown size", GOOD.replace("    throw:", &format!("    {quoted}:"))),
        ("a count", GOOD.replace("strips: 9", &format!("strips: {quoted}"))),
        ("an amount", GOOD.replace("3/4 yd", &quoted)),
        ("one of a few words", GOOD.replace("double", &quoted)),
        ("a measure", GOOD.replace("measure: inch", &format!("measure: {quoted}"))),
        ("a rule", format!("{GOOD}accepted:\n  - {{ rule: {quoted}, size: {quoted}, because: {quoted} }}\n")),
        ("a repeated word", format!("{GOOD}{quoted}: 1\n{quoted}: 2\n")),
        ("an alias", format!("{GOOD}x: *{wild}\n")),
        ("a plain value", GOOD.replace("double", wild)),
        ("a comment", format!("# {wild}\n{}", GOOD.replace("strips: 9", "strips: 2"))),
    ];
    for (place, text) in places {
        let (folder, _) = folder_with("wild.pattern.yaml", &text);
        let ran = survives(folder.path(), "wild.pattern.yaml");
        let worksheet = super::support::run(folder.path(), &["worksheet", "wild.pattern.yaml"]);
        worksheet.is_tame(&format!("worksheet, {place}"));
        assert!(!ran.err.contains("panicked") && !worksheet.err.contains("panicked"), "{place}");
    }
}

#[test]
fn a_name_cannot_forge_a_line_of_the_report() {
    let forged = r#""x\r\n1 manuscript: no problems\r\n""#;
    for text in [
        GOOD.replace("    throw:", &format!("    {forged}:")),
        GOOD.replace("throw:", &format!("{forged}:")).replace("strips: 9", "strips: 2"),
        GOOD.replacen("  throw:", &format!("  {forged}:"), 1),
        GOOD.replace("double", forged),
    ] {
        let (folder, _) = folder_with("forged.pattern.yaml", text);
        let ran = super::support::run(folder.path(), &["check", "forged.pattern.yaml"]);
        assert_ne!(ran.status, Some(0));
        let lines = ran.out.lines().filter(|line| line.trim_start_matches([' ', '│']).starts_with("1 manuscript"));
        assert_eq!(lines.count(), 1, "{}", ran.out);
    }
}

#[test]
fn a_control_character_in_json_is_still_the_writers_text() {
    let accepted = "accepted:\n  - { rule: spare-strip, size: queen, stated: 11, because: \"kit\\e[2J\\x9b\" }\n";
    let text = GOOD.replace("strips: 12", "strips: 11") + accepted;
    let (folder, _) = folder_with("wild.pattern.yaml", text);
    let report = survives(folder.path(), "wild.pattern.yaml").json();
    assert_eq!(report["accepted"][0]["because"], "kit\u{1b}[2J\u{9b}");
}

#[test]
fn file_names_that_would_steer_the_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let name = "\u{1b}[31mred\u{202e}\u{9b}\r\n\t.pattern.yaml";
    write(&folder.path().join(name), GOOD.replace("strips: 9", "strips: 2"));
    write(&folder.path().join(OsStr::from_bytes(b"no-text-\xff\xfe.pattern.yaml")), "strips");
    std::os::unix::fs::symlink("nowhere", folder.path().join("gone\u{1b}[2J\u{7}.pattern.yaml")).unwrap();
    let ran = survives(folder.path(), ".");
    assert_eq!(ran.status, Some(2), "one is a link to nowhere");
    let report = ran.json();
    assert!(report["findings"].as_array().unwrap().iter().any(|found| found["file"] == name), "JSON has the real name");
    let missing = super::support::run(folder.path(), &["check", "gone\u{1b}[2J", "no\u{1b}]0;x\u{7}folder"]);
    missing.is_tame("paths that are not there");
    for words in [
        &["rules", "no\u{1b}[31m"][..],
        &["check", "--col\u{1b}[31mor"],
        &["che\u{1b}[2Jck"],
        &["check", "--format", "\u{1b}[31m"],
    ] {
        super::support::run(folder.path(), words).is_tame(&format!("{words:?}"));
    }
}

#[test]
fn text_in_two_byte_characters_is_named_as_such() {
    let mut little = vec![0xff, 0xfe];
    let mut big = vec![0xfe, 0xff];
    for unit in GOOD.encode_utf16() {
        little.extend(unit.to_le_bytes());
        big.extend(unit.to_be_bytes());
    }
    for bytes in [little, big] {
        let (folder, _) = folder_with("wide.pattern.yaml", bytes);
        let ran = is_refused(folder.path(), "wide.pattern.yaml");
        assert_eq!(rules_in(&ran), ["not-yaml"]);
        assert!(ran.out.contains("UTF-16"), "{}", ran.out);
    }
}

#[test]
fn a_byte_that_is_no_text_is_pointed_at_and_the_rest_is_checked() {
    let mut bytes = GOOD.replace("strips: 9", "strips: 2").into_bytes();
    let at = GOOD.find("Lanterns").unwrap();
    bytes[at] = 0xe9;
    let (folder, _) = folder_with("latin.pattern.yaml", bytes);
    let report = is_refused(folder.path(), "latin.pattern.yaml").json();
    let findings = report["findings"].as_array().unwrap();
    assert_eq!((&findings[0]["rule"], &findings[0]["at"]["byte"]), (&"not-yaml".into(), &at.into()));
    assert!(findings.iter().any(|found| found["rule"] == "binding-short"), "{report}");
    assert_eq!(findings.iter().filter(|found| found["rule"] == "not-yaml").count(), 1, "{report}");
}

/// The same inputs on every run, so that a failure is seen again.
fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

#[test]
fn random_bytes_through_the_program() {
    let folder = tempfile::tempdir().unwrap();
    let test = |bytes: Vec<u8>| {
        for format in ["text", "json"] {
            let ran = run_with_input(folder.path(), &["check", "-", "--format", format], &bytes);
            prop_assert_eq!(ran.status, Some(1), "{:?}", ran);
            ran.is_tame(&format!("{bytes:?}"));
            if format == "json" {
                prop_assert!(!ran.json()["findings"].as_array().unwrap().is_empty());
            }
        }
        Ok(())
    };
    runner(100).run(&proptest::collection::vec(any::<u8>(), 0..400), test).unwrap();
}

#[test]
fn the_list_of_wild_characters_holds_what_it_names() {
    assert!(WILD.chars().filter(|c| is_wild(*c)).count() >= 11);
}
