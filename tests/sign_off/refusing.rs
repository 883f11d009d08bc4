//! What is not signed, and why; and that nothing is written then.

use rstest::rstest;

use super::{NAME, changed, folder_of, record_file, run, sign, signed, text_of, write};
use crate::support::{GOOD, run_with_input};

#[test]
fn a_manuscript_with_an_error_is_not_signed() {
    let folder = folder_of(&changed("strips: 9", "strips: 6"));
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("error: binding-short (throw)"), "{}", ran.out);
    assert_eq!(ran.err, "sparestrip: not signed: one error stands\n");
    assert!(!record_file(folder.path()).exists());
}

#[test]
fn a_query_is_told_and_only_strict_refuses_it() {
    // 30 in is three quarters of a yard and more: 27 in are cut, and nothing is left for squaring up.
    let text = changed("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 30 in");
    let folder = folder_of(&text);
    let ran = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--strict"]);
    assert_eq!(ran.status, Some(1));
    assert_eq!(ran.err, "sparestrip: not signed: one query stands\n");
    assert!(!record_file(folder.path()).exists());
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(0));
    assert!(ran.out.contains("query: no-squaring-room (queen, binding fabric)"), "{}", ran.out);
}

#[test]
fn a_number_that_nothing_checks_refuses_with_account() {
    let text = format!("{GOOD}fabrics:\n  flax:\n    requires: {{ crib: 1 yd, throw: 2 yd, queen: 3 yd }}\n");
    let folder = folder_of(&text);
    let ran = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--account"]);
    assert_eq!(ran.status, Some(1));
    assert_eq!(ran.err, "sparestrip: not signed: nothing checks 3 stated numbers\n");
    assert!(!record_file(folder.path()).exists());
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
}

#[test]
fn house_rules_with_a_mistake_refuse() {
    let folder = folder_of(GOOD);
    write(&folder.path().join("house-rules.yaml"), "values:\n  tial: 10\n");
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("house-rules.yaml"), "{}", ran.out);
    assert!(!record_file(folder.path()).exists());
}

#[rstest]
#[case(&["sign", "-", "--by", "Ada"], "standard input has no name to be signed under")]
#[case(&["sign", "nothing-here", "--by", "Ada"], "nothing-here: ")]
#[case(&["sign", "no-such.pattern.yaml", "--by", "Ada"], "no-such.pattern.yaml: ")]
#[case(&["sign", NAME, "--by", "  "], "there is nothing in it")]
#[case(&["sign", NAME, "--by", "A\u{1b}[31mda"], "characters in it that cannot be seen")]
#[case(&["sign", NAME, "--by", "Ada\nby: Bea"], "characters in it that cannot be seen")]
#[case(&["sign", NAME], "--by <NAME>")]
fn what_cannot_be_signed_is_said(#[case] words: &[&str], #[case] said: &str) {
    let folder = folder_of(GOOD);
    let ran = run_with_input(folder.path(), words, GOOD.as_bytes());
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains(said), "{}", ran.err);
    ran.is_tame("a refusal");
    assert!(!record_file(folder.path()).exists());
}

#[test]
fn standard_input_cannot_be_asked_for_its_sign_off() {
    let folder = folder_of(GOOD);
    let ran = run_with_input(folder.path(), &["check", "--signed", "-"], GOOD.as_bytes());
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("give --signed the manuscript's file"), "{}", ran.err);
}

/// Each of these is something that can befall a file.
#[rstest]
#[case::cut_off(|text: &str| text[..text.len() / 2].to_string(), "")]
#[case::cut_off_within_a_line(|text: &str| text[..text.len() - 3].to_string(), "")]
#[case::a_number_changed(|text: &str| text.replace("queen / strips\":\"12\"", "queen / strips\":\"11\""), "sign-off 1, of lanterns.pattern.yaml by Ada Finch")]
#[case::an_assumed_value_changed(|text: &str| text.replace("take_up_per_corner\":\"1/2 in", "take_up_per_corner\":\"1/4 in"), "has other values than those that were signed")]
#[case::a_merge(|text: &str| format!("<<<<<<< ours\n{text}=======\n{text}>>>>>>> theirs\n"), "two versions were merged in it")]
#[case::another_file(|_: &str| "pattern: Harbour Lanterns\n".to_string(), "cannot be read")]
#[case::a_word_too_many(|text: &str| text.replace("\"by\":", "\"for\":\"me\",\"by\":"), "line 5 cannot be read: \"for\" does not belong there")]
#[case::tabs(|text: &str| text.replace("- {", "\t- {"), "line 5 cannot be read: it does not begin as a sign-off does, with \"- {\"")]
#[case::the_end_of_a_line_gone(|text: &str| text.replace("}}\n", "}\n"), "line 5 cannot be read: its end is missing")]
#[case::a_comma_gone(|text: &str| text.replace("- {\"manuscript\":", "- {\"manuscript\""), "line 5 cannot be read: character 16 is not as it was written")]
#[case::a_word_gone(|text: &str| text.replace("\"by\":\"Ada Finch\",", ""), "line 5 cannot be read: \"by\" is missing")]
#[case::a_word_twice(|text: &str| text.replace("\"by\":", "\"by\":\"Bea Marsh\",\"by\":"), "line 5 cannot be read: \"by\" stands there twice")]
#[case::a_text_that_became_a_number(|text: &str| text.replace("\"edition\":\"1\"", "\"edition\":1"), "line 5 cannot be read: a value in it is not as it was written")]
fn a_damaged_record_is_refused_and_left_as_it_is(#[case] damage: fn(&str) -> String, #[case] said: &str) {
    let folder = signed(GOOD);
    let file = record_file(folder.path());
    let damaged = damage(&text_of(&file));
    assert_ne!(damaged, text_of(&file));
    write(&file, &damaged);
    for words in [&["sign", NAME, "--by", "Bea Marsh"][..], &["check", "--signed", NAME]] {
        let ran = run(folder.path(), words);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.contains("sign-offs.yaml: it is damaged: ") && ran.err.contains(said), "{}", ran.err);
        assert_eq!(text_of(&file), damaged);
    }
    let left: Vec<_> = std::fs::read_dir(folder.path()).expect("the folder").collect();
    assert_eq!(left.len(), 2, "something was left behind: {left:?}");
}

/// A damaged record is told once, and the findings of the manuscripts beside it still come.
#[test]
fn the_other_findings_still_come_where_a_record_is_damaged() {
    let folder = folder_of(&changed("strips: 9", "strips: 6"));
    write(&folder.path().join("second.pattern.yaml"), changed("strips: 12", "strips: 5"));
    write(&record_file(folder.path()), "nothing of use");
    write(&folder.path().join("below/third.pattern.yaml"), GOOD);
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!(ran.status, Some(2));
    assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    let found = |rule: &str| ran.out.matches(&format!("error: {rule} ")).count();
    assert_eq!((found("binding-short"), found("not-signed")), (2, 1), "{}", ran.out);
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    let folder = folder_of(GOOD);
    let bytes = b"- manuscript: \xff\xfe\n";
    write(&record_file(folder.path()), bytes);
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("it is no text in UTF-8"), "{}", ran.err);
    assert_eq!(std::fs::read(record_file(folder.path())).expect("the file"), bytes);
}

#[test]
fn a_record_that_is_a_folder_is_refused() {
    let folder = folder_of(GOOD);
    std::fs::create_dir(record_file(folder.path())).expect("a folder");
    for words in [&["sign", NAME, "--by", "Ada"][..], &["check", "--signed", NAME]] {
        let ran = run(folder.path(), words);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.contains("sign-offs.yaml: it is not a file"), "{}", ran.err);
    }
}

/// A link to a device, as a repository may bring along, could be read for ever.
#[cfg(unix)]
#[test]
fn a_record_that_is_a_device_is_refused() {
    let folder = folder_of(GOOD);
    std::os::unix::fs::symlink("/dev/null", record_file(folder.path())).expect("a link");
    // Only read: as root, a program that got this wrong would put a file in the place of the device.
    let ran = run(folder.path(), &["check", "--signed", NAME]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("sign-offs.yaml: it is not a file"), "{}", ran.err);
}

#[test]
fn a_report_is_never_written_over_a_record() {
    let path = std::path::Path::new("some/folder/sign-offs.yaml");
    assert_eq!(sparestrip::atomic_write::precious(path), Some("a record of sign-offs"));
}

/// A folder that somebody else made may hold a link under the name that is written to first.
#[cfg(unix)]
#[test]
fn a_link_in_the_way_is_not_followed() {
    let folder = folder_of(GOOD);
    let (kept, missing) = (folder.path().join("kept.txt"), folder.path().join("missing.txt"));
    write(&kept, "something else\n");
    for target in [&kept, &missing] {
        let link = folder.path().join(".sign-offs.yaml.writing");
        std::os::unix::fs::symlink(target, &link).expect("a link");
        let ran = sign(folder.path(), "Ada Finch");
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.contains(".sign-offs.yaml.writing beside it is no ordinary file"), "{}", ran.err);
        std::fs::remove_file(&link).expect("the link is still there");
    }
    assert_eq!(text_of(&kept), "something else\n");
    assert!(!missing.exists() && !record_file(folder.path()).exists());
}

/// What could not be read again afterwards must not be written.
#[test]
fn a_record_does_not_grow_beyond_what_is_read() {
    let folder = folder_of(GOOD);
    let line = format!("# {}\n", "x".repeat(1021));
    let full = line.repeat(16 * 1024);
    assert_eq!(full.len(), 16 * 1024 * 1024);
    write(&record_file(folder.path()), &full);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1), "it can be read, and nothing is signed");
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("with this sign-off it would be larger than 16 MiB"), "{}", ran.err);
    assert!(text_of(&record_file(folder.path())) == full, "something was written");
}

#[test]
fn a_record_that_may_not_be_written_is_refused() {
    let folder = signed(GOOD);
    let file = record_file(folder.path());
    let before = text_of(&file);
    let mut permissions = std::fs::metadata(&file).expect("the file").permissions();
    permissions.set_readonly(true);
    std::fs::set_permissions(&file, permissions).expect("made read-only");
    let ran = sign(folder.path(), "Bea Marsh");
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert_eq!(ran.err, "sparestrip: not signed: sign-offs.yaml: it may not be written\n");
    assert_eq!(text_of(&file), before);
}

/// What was found could not be read by the one who signs, as where the disk is full.
#[test]
#[cfg(target_os = "linux")]
fn what_cannot_be_shown_is_not_signed_and_that_is_said() {
    let folder = super::folder_of(super::GOOD);
    let full = std::fs::File::options().write(true).open("/dev/full").expect("a full disk");
    let mut command = super::support::program(folder.path());
    command.args(["sign", super::NAME, "--by=Ada Finch"]).stdout(full);
    let ran = super::support::finish(&mut command, b"");
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("not signed: what was found could not be shown"), "{}", ran.err);
    assert!(!super::record_file(folder.path()).exists());
}
