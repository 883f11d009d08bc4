//! The fingerprint on a paper: which record it belongs to, and whether its numbers are those of the manuscript now.

use rstest::rstest;

use super::{NAME, changed, folder_of, record_file, records, run, sign, signed, text_of, write};
use crate::support::GOOD;

/// The first digits of the fingerprint in a record, as a paper has them.
fn digits(folder: &std::path::Path, record: usize, many: usize) -> String {
    let whole = records(folder)[record]["fingerprint"].as_str().expect("a fingerprint").to_string();
    whole["sha256:".len()..][..many].to_string()
}

fn asked(folder: &std::path::Path, fingerprint: &str) -> (Option<i32>, String, String) {
    let ran = run(folder, &["check", "--signed-as", fingerprint]);
    (ran.status, ran.out, ran.err)
}

#[test]
fn a_paper_that_is_current_is_said_to_be() {
    let folder = signed(GOOD);
    let short = digits(folder.path(), 0, 12);
    let spaced = format!("{} {} {}", &short[..4], &short[4..8], &short[8..]).to_uppercase();
    for typed in [&short, &spaced, &digits(folder.path(), 0, 8), &format!("sha256:{}", digits(folder.path(), 0, 64))] {
        let (status, _, err) = asked(folder.path(), typed);
        assert_eq!(status, Some(0), "{err}");
        assert!(
            err.contains(" is lanterns.pattern.yaml (Harbour Lanterns, edition 1), signed by Ada Finch on "),
            "{err}"
        );
        assert!(err.ends_with(": current, nothing changed since\n"), "{err}");
    }
}

/// The last sign-off holds, and the paper in hand is of the one before.
#[test]
fn a_paper_that_is_no_longer_current_tells_what_changed_since() {
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), changed("throw: { strips: 9, fabric: 3/4", "throw: { strips: 9, fabric: 7/8"));
    assert_eq!(sign(folder.path(), "Bea Marsh").status, Some(0));
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
    let (status, out, err) = asked(folder.path(), &digits(folder.path(), 0, 12));
    assert_eq!(status, Some(1));
    assert!(err.contains("signed by Ada Finch") && err.ends_with(": not current, one thing changed since\n"), "{err}");
    assert!(out.contains("Binding fabric: signed as 3/4 yd, now 7/8 yd."), "{out}");
    let (status, _, err) = asked(folder.path(), &digits(folder.path(), 1, 12));
    assert_eq!(status, Some(0), "{err}");
    assert!(err.contains("signed by Bea Marsh") && err.contains("current"), "{err}");
}

#[test]
fn a_paper_that_nobody_signed_is_said_to_be_unsigned() {
    let folder = signed(GOOD);
    let theirs = digits(folder.path(), 0, 12);
    let unsigned = folder_of(GOOD);
    let (status, _, err) = asked(unsigned.path(), &theirs);
    assert_eq!(status, Some(1));
    assert!(err.contains(" is what lanterns.pattern.yaml states now, and nobody has signed that"), "{err}");
    let (status, _, err) = asked(folder.path(), "0123 4567 89ab");
    assert_eq!(status, Some(1));
    assert!(err.contains("0123 4567 89ab is in no record here"), "{err}");
}

#[test]
fn a_paper_whose_sign_off_was_revoked_is_said_to_be() {
    let folder = signed(GOOD);
    assert_eq!(run(folder.path(), &["sign", NAME, "--by", "Bea Marsh", "--revoke", "wrong color"]).status, Some(0));
    let (status, _, err) = asked(folder.path(), &digits(folder.path(), 0, 12));
    assert_eq!(status, Some(1));
    assert!(err.contains("signed by Ada Finch on ") && err.contains(": revoked by Bea Marsh on "), "{err}");
    assert!(err.ends_with(": wrong color\n"), "{err}");
}

/// Two names whose numbers begin alike, d0b392bf 6 and d0b392bf d, found by computing fingerprints apart from the program.
/// Where a value of the rule book that they go by is another, two others must be found.
#[test]
fn digits_that_begin_two_fingerprints_are_told_with_both() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for number in ["3727", "65579"] {
        let text = format!("pattern: Lanterns {number}\nmeasure: inch\nsizes: {{ lap: {{ finished: 50 x 60 }} }}\n");
        write(&folder.path().join(format!("l{number}.pattern.yaml")), text);
    }
    assert_eq!(run(folder.path(), &["sign", ".", "--by", "Ada Finch"]).status, Some(0));
    let (first, second) = (digits(folder.path(), 0, 64), digits(folder.path(), 1, 64));
    assert_eq!((&first[..8], &second[..8]), ("d0b392bf", "d0b392bf"));
    let (status, out, err) = asked(folder.path(), "d0b3 92bf");
    assert_eq!(status, Some(2), "{out}");
    assert!(err.contains("d0b3 92bf is the beginning of 2 fingerprints; type more of its digits:"), "{err}");
    for (digits, name) in [(first.clone(), "l3727"), (second, "l65579")] {
        assert!(err.contains(&format!("{digits} is {name}.pattern.yaml (Lanterns ")), "{err}");
    }
    let (status, _, err) = asked(folder.path(), &first[..9]);
    assert_eq!((status, err.lines().count()), (Some(0), 1), "{err}");
}

#[test]
fn a_paper_of_two_manuscripts_with_the_same_numbers_names_both() {
    let folder = signed(GOOD);
    write(&folder.path().join("copy.pattern.yaml"), GOOD);
    assert_eq!(run(folder.path(), &["sign", "copy.pattern.yaml", "--by", "Ada Finch"]).status, Some(0));
    let (status, _, err) = asked(folder.path(), &digits(folder.path(), 0, 12));
    assert_eq!(status, Some(0), "{err}");
    assert_eq!(err.lines().count(), 2, "{err}");
    assert!(err.contains("is copy.pattern.yaml (") && err.contains("is lanterns.pattern.yaml ("), "{err}");
}

#[rstest]
#[case("1a2b3c4", "type at least the first 8")]
#[case("1a2b3c4z", "'z' is no digit of a fingerprint")]
#[case("", "these are 0 digits")]
fn what_is_no_fingerprint_is_refused(#[case] typed: &str, #[case] why: &str) {
    let folder = signed(GOOD);
    let before = text_of(&record_file(folder.path()));
    let (status, out, err) = asked(folder.path(), typed);
    assert_eq!((status, out.as_str()), (Some(2), ""));
    assert!(err.contains(why), "{err}");
    assert_eq!(text_of(&record_file(folder.path())), before);
}
