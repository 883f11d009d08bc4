//! The exit status: 0 nothing at error level, 1 at least one error, 2 something could not be read or done.

use rstest::rstest;

use super::support::{GOOD, Ran, finish, folder_with, program, run, run_with_input, write};
use super::{with_a_query, with_an_error};

fn checked(text: &str, words: &[&str]) -> Ran {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    run(folder.path(), &[&["check"], words].concat())
}

#[test]
fn by_what_is_found() {
    assert_eq!(checked(GOOD, &[]).status, Some(0));
    assert_eq!(checked(GOOD, &["--strict"]).status, Some(0));
    assert_eq!(checked(&with_an_error(), &[]).status, Some(1));
    assert_eq!(checked(&with_a_query(), &[]).status, Some(0));
    assert_eq!(checked(&with_a_query(), &["--strict"]).status, Some(1));
    assert_eq!(checked(&with_a_query(), &["--strict", "--format", "json"]).status, Some(1));
}

#[test]
fn a_file_that_is_not_there_is_2_and_the_others_are_checked() {
    let (folder, _) = folder_with("x.pattern.yaml", with_an_error());
    let ran = run(folder.path(), &["check", "x.pattern.yaml", "gone.pattern.yaml"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.out.contains("spare-strip"), "{}", ran.out);
    assert_eq!(ran.err.lines().count(), 1);
    assert!(ran.err.contains("gone.pattern.yaml"), "{}", ran.err);
}

#[test]
fn nothing_found_is_2_and_says_so() {
    let (folder, _) = folder_with("notes.yaml", GOOD);
    let ran = run(folder.path(), &["check"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("no manuscripts") && ran.err.contains(".pattern.yaml"), "{}", ran.err);
}

#[rstest]
#[case(&[])]
#[case(&["chek"])]
#[case(&["check", "--formt", "json"])]
#[case(&["check", "--format", "xml"])]
#[case(&["check", "--color", "blue"])]
#[case(&["worksheet"])]
#[case(&["check", "-", "x.pattern.yaml"])]
#[case(&["rules", "spare-strap"])]
#[case(&["worksheet", "gone.pattern.yaml"])]
fn what_cannot_be_done_is_2_with_words_on_standard_error(#[case] words: &[&str]) {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run(folder.path(), words);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(!ran.err.is_empty());
}

#[test]
fn an_unknown_rule_is_answered_with_the_nearest() {
    let ran = run(&std::env::temp_dir(), &["rules", "spare-strap"]);
    assert!(ran.err.contains("Did you mean spare-strip?"), "{}", ran.err);
}

#[test]
fn standard_input_is_checked_like_a_file() {
    let folder = tempfile::tempdir().unwrap();
    for (text, status) in [(GOOD.to_string(), 0), (with_an_error(), 1), (String::new(), 1)] {
        let ran = run_with_input(folder.path(), &["check", "-"], text.as_bytes());
        assert_eq!(ran.status, Some(status), "{ran:?}");
        assert!(ran.out.contains("1 manuscript"), "{}", ran.out);
    }
    let ran = run_with_input(folder.path(), &["check", "-", "--format", "json"], with_an_error().as_bytes());
    assert_eq!(ran.json()["findings"][0]["file"], "standard input");
    let ran = run_with_input(folder.path(), &["worksheet", "-"], GOOD.as_bytes());
    assert_eq!(ran.status, Some(0));
    assert!(ran.out.contains("Harbour Lanterns"), "{}", ran.out);
}

#[test]
fn standard_input_is_under_the_house_rules_of_this_folder() {
    let (folder, _) = folder_with("house-rules.yaml", "values: { spare_strips: 0 }\n");
    assert_eq!(run_with_input(folder.path(), &["check", "-"], with_an_error().as_bytes()).status, Some(0));
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let (folder, _) = folder_with("x.pattern.yaml", "word: 1\n".repeat(3000));
    write(&folder.path().join("y.pattern.yaml"), (0..900).map(|index| format!("w{index}: 1\n")).collect::<String>());
    for more in ["check", "check --format json", "rules"] {
        let mut shell = std::process::Command::new("bash");
        let line = format!(
            "set -o pipefail; {} {more} | head -1; echo \"${{PIPESTATUS[0]}}\"",
            env!("CARGO_BIN_EXE_sparestrip")
        );
        shell.args(["-c", &line]).current_dir(folder.path());
        shell.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::piped());
        let ran = finish(&mut shell, b"");
        assert_eq!(ran.err, "", "{more}");
        let status = ran.out.lines().last().unwrap();
        assert_eq!(status, if more == "rules" { "0" } else { "1" }, "{more}: {}", ran.out);
    }
}

#[test]
fn a_report_that_cannot_be_written_is_2() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let full = std::fs::File::options().write(true).open("/dev/full").unwrap();
    let ran = finish(program(folder.path()).arg("check").stdout(full), b"");
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("cannot be written"), "{}", ran.err);
}

/// Of what nobody looked at, nothing is said to be right.
#[test]
fn what_is_not_there_is_counted_and_nothing_is_called_right() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run(folder.path(), &["check", "nowhere"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), "no manuscripts; 1 cannot be read\n"));
    let ran = run(folder.path(), &["check", "nowhere", "x.pattern.yaml", "gone.pattern.yaml"]);
    let summary = ran.out.lines().last();
    assert_eq!((ran.status, summary), (Some(2), Some("1 manuscript: no problems; 2 cannot be read")));
    let json = run(folder.path(), &["check", "nowhere", "--format", "json"]).json();
    assert_eq!(json["problems"][0]["file"], "nowhere");
    assert!(json["problems"][0]["why"].as_str().unwrap().contains("No such file"), "{json}");
}
