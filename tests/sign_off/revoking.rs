//! Taking sign-offs back, and what holds where two branches of a history were merged.

use std::path::Path;

use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::sign_off::{SignOff, read_records};

use super::{NAME, changed, folder_of, found, record_file, records, run, sign, signed, text_of, write};
use crate::support::{GOOD, Ran};

const REASON: &str = "the queen takes 13 strips";

fn revoke(folder: &Path) -> Ran {
    run(folder, &["sign", NAME, "--by", "Bea Marsh", "--revoke", REASON])
}

/// How a text stands to the record in a folder: who signed, or who revoked.
fn standing(folder: &Path, text: &str) -> String {
    let recorded = read_records(folder).expect("whole");
    match SignOff::of(&Source::from_text(NAME, text), &Settings::default(), &recorded) {
        SignOff::Signed { by, changes, .. } if changes.is_empty() => format!("signed by {by}"),
        SignOff::Signed { by, changes, .. } => format!("{} changed since {by}", changes.len()),
        SignOff::Revoked { revocation, .. } => format!("revoked by {}", revocation.by),
        other => format!("{other:?}"),
    }
}

#[test]
fn a_revocation_is_a_further_line_and_the_sign_off_holds_no_longer() {
    let folder = signed(GOOD);
    let before = text_of(&record_file(folder.path()));
    let ran = revoke(folder.path());
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert!(ran.err.starts_with(&format!("sparestrip: {NAME}: revoked what Ada Finch signed on ")), "{}", ran.err);
    let after = text_of(&record_file(folder.path()));
    let more = after.strip_prefix(&before).expect("what was there");
    assert!(more.starts_with("# Bea Marsh revoked the sign-off of lanterns.pattern.yaml, on "), "{more}");
    assert_eq!(more.matches("\n- {\"revokes\":\"lanterns.pattern.yaml\",").count(), 1, "{more}");
    assert_eq!(records(folder.path()).len(), 2, "all of it is YAML");
    let found = found(folder.path());
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].0, "not-signed");
    assert!(found[0].2.contains(", and Bea Marsh revoked it on "), "{}", found[0].2);
    assert!(found[0].2.ends_with(": the queen takes 13 strips."), "{}", found[0].2);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1));
}

/// Whoever signs the same numbers again is told that they were revoked, and her sign-off holds.
#[test]
fn the_same_numbers_can_be_signed_again() {
    let folder = signed(GOOD);
    assert_eq!(revoke(folder.path()).status, Some(0));
    let again = sign(folder.path(), "Ada Finch");
    assert_eq!(again.status, Some(0), "{again:?}");
    assert!(again.err.contains("Bea Marsh revoked these very numbers on "), "{}", again.err);
    assert!(again.err.contains(": the queen takes 13 strips\n"), "{}", again.err);
    assert_eq!(standing(folder.path(), GOOD), "signed by Ada Finch");
    // It is told once.
    assert!(!sign(folder.path(), "Cleo Reed").err.contains("revoked"));
    assert_eq!(revoke(folder.path()).status, Some(0));
    assert_eq!(standing(folder.path(), GOOD), "revoked by Bea Marsh");
}

#[test]
fn what_stands_of_other_numbers_is_revoked_as_well() {
    let folder = signed(GOOD);
    let corrected = changed("queen: { strips: 12, fabric: 7/8 yd", "queen: { strips: 13, fabric: 1 yd");
    write(&folder.path().join(NAME), &corrected);
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    let ran = revoke(folder.path());
    assert_eq!(ran.err.matches("revoked what Ada Finch signed on").count(), 2, "{}", ran.err);
    for text in [GOOD, &corrected] {
        assert_eq!(standing(folder.path(), text), "revoked by Bea Marsh");
    }
}

#[test]
fn where_nothing_stands_nothing_is_revoked() {
    let folder = folder_of(GOOD);
    let ran = revoke(folder.path());
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert_eq!(ran.err, format!("sparestrip: not revoked: no sign-off stands of {NAME}\n"));
    assert!(!record_file(folder.path()).exists());
    let folder = signed(GOOD);
    assert_eq!(revoke(folder.path()).status, Some(0));
    assert_eq!(revoke(folder.path()).status, Some(1), "it is revoked already");
    for words in [&["--revoke", " "][..], &["--revoke", "why", "--note", "x"], &["--revoke", "why", "--strict"]] {
        let ran = run(folder.path(), &[&["sign", NAME, "--by", "Bea Marsh"], words].concat());
        assert_eq!(ran.status, Some(2), "{ran:?}");
    }
}

/// The lines of a file after its head, each with the remark before it.
fn entries(folder: &Path) -> Vec<String> {
    let text = text_of(&record_file(folder));
    let lines: Vec<&str> = text.lines().filter(|line| line.starts_with("- {")).collect();
    lines.into_iter().map(|line| format!("{line}\n")).collect()
}

/// Every order of a few lines.
fn orders(lines: &[String]) -> Vec<Vec<String>> {
    if lines.is_empty() {
        return vec![Vec::new()];
    }
    let first = |place: usize| {
        let mut rest = lines.to_vec();
        let line = rest.remove(place);
        orders(&rest).into_iter().map(move |order| [vec![line.clone()], order].concat())
    };
    (0..lines.len()).flat_map(first).collect()
}

/// What is merged stands in any order, and some lines twice. The verdict is the same.
fn merged(lines: &[String], text: &str, expected: &str) {
    let folder = folder_of(text);
    for mut order in orders(lines) {
        for doubled in 0..=order.len() {
            if doubled < order.len() {
                let line = order[doubled].clone();
                order.push(line);
            }
            write(&record_file(folder.path()), order.concat());
            assert_eq!(standing(folder.path(), text), expected, "{order:#?}");
        }
    }
}

/// One revokes on her branch; another signs the same numbers on his, and knows nothing of it: they are revoked.
#[test]
fn the_same_numbers_signed_on_another_branch_are_revoked_too() {
    let base = signed(GOOD);
    let first = entries(base.path());
    let other = folder_of(GOOD);
    write(&record_file(other.path()), text_of(&record_file(base.path())));
    assert_eq!(revoke(base.path()).status, Some(0));
    assert_eq!(sign(other.path(), "Cleo Reed").status, Some(0));
    let lines = [first, entries(base.path())[1..].to_vec(), entries(other.path())[1..].to_vec()].concat();
    assert_eq!(lines.len(), 3);
    merged(&lines, GOOD, "revoked by Bea Marsh");
    // Signed once more with both at hand, they hold.
    let folder = folder_of(GOOD);
    write(&record_file(folder.path()), lines.concat());
    assert_eq!(sign(folder.path(), "Dora Holm").status, Some(0));
    merged(&entries(folder.path()), GOOD, "signed by Dora Holm");
}

/// One revokes on her branch; another corrects the numbers on his, and signs them: these hold.
#[test]
fn corrected_numbers_signed_on_another_branch_hold() {
    let base = signed(GOOD);
    let other = folder_of(GOOD);
    write(&record_file(other.path()), text_of(&record_file(base.path())));
    assert_eq!(revoke(base.path()).status, Some(0));
    let corrected = changed("queen: { strips: 12, fabric: 7/8 yd", "queen: { strips: 13, fabric: 1 yd");
    write(&other.path().join(NAME), &corrected);
    assert_eq!(sign(other.path(), "Cleo Reed").status, Some(0));
    let lines = [entries(base.path()), entries(other.path())[1..].to_vec()].concat();
    merged(&lines, &corrected, "signed by Cleo Reed");
    merged(&lines, GOOD, "revoked by Bea Marsh");
}

/// Two branches sign other numbers: the one counts whose numbers the merged manuscript has.
#[test]
fn of_two_branches_the_one_counts_whose_numbers_were_kept() {
    let [ours, theirs] = [GOOD.to_string(), changed("edition: 1", "edition: 2")];
    let (one, other) = (signed(&ours), signed(&theirs));
    let mut lines = [entries(one.path()), entries(other.path())].concat();
    lines[1] = lines[1].replace("Ada Finch", "Cleo Reed");
    merged(&lines, &ours, "signed by Ada Finch");
    merged(&lines, &theirs, "signed by Cleo Reed");
}
