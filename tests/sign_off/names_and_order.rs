//! Names that look like numbers, things that were renamed, and which of several sign-offs counts.

use std::collections::BTreeSet;

use jiff::Timestamp;
use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::sign_off::{Record, Recorded, SignOff, Signer, read_records};

use super::{NAME, found, found_in, record_file, run, signed, text_of, write};
use crate::support::GOOD;

fn record(text: &str, by: &str, when: &str) -> Record {
    let when: Timestamp = when.parse().expect("a time");
    let signer = Signer { by: by.to_string(), note: None };
    Record::new(&Source::from_text(NAME, text), (&Settings::default(), &BTreeSet::new()), (&[], &[]), signer, when)
}

/// Who is named as the signer, and what is told as changed.
fn changes(records: &[Record], text: &str) -> (String, Vec<String>) {
    let recorded = Recorded { signed: records.to_vec(), ..Recorded::default() };
    match SignOff::of(&Source::from_text(NAME, text), &Settings::default(), &recorded) {
        SignOff::Signed { by, changes, .. } => {
            let told = |change: &sparestrip::sign_off::Change| {
                let or_nothing = |value: &Option<String>| value.clone().unwrap_or_else(|| "nothing".to_string());
                format!("{}: {}, {}", change.what, or_nothing(&change.was), or_nothing(&change.is))
            };
            (by, changes.iter().map(told).collect())
        }
        other => panic!("not signed: {other:?}"),
    }
}

const FIRST: &str = "2026-03-01T10:00:00Z";
const SECOND: &str = "2026-03-02T10:00:00Z";

#[rstest]
#[case::block("layout: { lap: { across: 2, down: 2, blocks: NAME } }")]
#[case::side_triangles("layout: { lap: { across: 2, down: 2, side_triangles: NAME } }")]
#[case::corner_triangles("layout: { lap: { across: 2, down: 2, corner_triangles: NAME } }")]
#[case::sash("layout: { lap: { sash: NAME } }")]
#[case::long_sash("layout: { lap: { long_sash: NAME } }")]
#[case::cornerstone("layout: { lap: { cornerstone: NAME } }")]
#[case::border("layout: { lap: { borders: [ { width: 4, piece: NAME } ] } }")]
#[case::top_of_a_border("layout: { lap: { borders: [ { width: 4, piece_across: NAME } ] } }")]
#[case::corner_of_a_border("layout: { lap: { borders: [ { width: 4, cornerstone: NAME } ] } }")]
#[case::binding("binding: { from: NAME }")]
#[case::part_of_a_unit("units: { star: { make: patch, finished: 3, cut: { patch: NAME } } }")]
#[case::unit_of_a_block("blocks: { star: { finished: 6, rows: [ [ NAME, plain ] ] } }")]
#[case::edition("edition: NAME")]
#[case::role("fabrics: { ink: { role: NAME } }")]
#[case::reason("accepted: [ { rule: fold-short, because: NAME } ]")]
#[case::accepted_number("accepted: [ { rule: fold-short, stated: NAME, because: it is so } ]")]
fn a_name_that_looks_like_a_number_is_a_change_where_another_takes_its_place(#[case] line: &str) {
    let text = |name: &str| {
        format!(
            "pattern: Inlet\nmeasure: inch\nsizes: {{ lap: {{ finished: 18 x 18 }} }}\n{}\n",
            line.replace("NAME", name)
        )
    };
    let (_, told) = changes(&[record(&text("1/2"), "Ada Finch", FIRST)], &text("2/4"));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].ends_with(": 1/2, 2/4"), "{told:?}");
    assert_ne!(
        record(&text("1/2"), "Ada Finch", FIRST).fingerprint,
        record(&text("2/4"), "Ada Finch", FIRST).fingerprint
    );
}

#[rstest]
#[case::sashing("layout: { lap: { sashing: 1/2 } }")]
#[case::border("layout: { lap: { borders: [ { width: 1/2 } ] } }")]
#[case::seam("assumes: { seam: 1/2 }")]
#[case::unit("units: { star: { make: patch, finished: 1/2 } }")]
#[case::fabric("fabrics: { ink: { requires: { lap: 1/2 yd } } }")]
fn a_quantity_that_is_written_another_way_is_no_change(#[case] line: &str) {
    let text = format!("pattern: Inlet\nmeasure: inch\nsizes: {{ lap: {{ finished: 18 x 18 }} }}\n{line}\n");
    let (_, told) = changes(&[record(&text, "Ada Finch", FIRST)], &text.replace("1/2", "2/4"));
    assert_eq!(told, Vec::<String>::new());
}

/// The fingerprint was computed apart from the program, as it was made when the name of a block in a layout was still
/// taken for a length: SHA-256 of each word row and its value, `ff` after each, `fe` after each of the two lists.
const OLD_RECORD: &str = r#"- {"manuscript":"lanterns.pattern.yaml","pattern":"Inlet","by":"Ada Finch","when":"2026-03-01T10:00:00Z","sparestrip":"0.1.0","rule_book":"sha256:00","fingerprint":"sha256:f09f03db48930e1a1693bf9f0df0007db218057b5610d4a34f112a898ee65bc9","stated":{"layout / lap / blocks":"1/2","measure":"inch","pattern":"Inlet","sizes / lap / finished":"18 x 18"},"assumed":{}}
"#;

#[test]
fn a_record_of_before_is_read_and_compared() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    write(&record_file(folder.path()), OLD_RECORD);
    let records = read_records(folder.path()).expect("whole");
    let text =
        "pattern: Inlet\nmeasure: inch\nsizes: { lap: { finished: 18 x 18 } }\nlayout: { lap: { blocks: 1/2 } }\n";
    assert_eq!(changes(&records.signed, text), ("Ada Finch".to_string(), Vec::new()));
    assert_eq!(changes(&records.signed, &text.replace("1/2", "2/4")).1, ["layout blocks: 1/2, 2/4"]);
}

#[test]
fn a_name_in_a_record_that_was_edited_by_hand_is_found_out() {
    let text =
        "pattern: Inlet\nmeasure: inch\nsizes: { lap: { finished: 18 x 18 } }\nlayout: { lap: { blocks: 1/2 } }\n";
    let mut edited = record(text, "Ada Finch", FIRST);
    assert!(edited.is_whole());
    edited.stated.insert("layout / lap / blocks".to_string(), "2/4".to_string());
    assert!(!edited.is_whole());
}

#[test]
fn of_several_sign_offs_the_one_counts_whose_values_match_and_else_the_latest() {
    let other = GOOD.replace("edition: 1", "edition: 2");
    let (old, new) = (record(GOOD, "Ada Finch", FIRST), record(&other, "Bea Marsh", SECOND));
    for records in [[old.clone(), new.clone()], [new.clone(), old.clone()]] {
        assert_eq!(changes(&records, GOOD), ("Ada Finch".to_string(), Vec::new()));
        assert_eq!(changes(&records, &other), ("Bea Marsh".to_string(), Vec::new()));
        let third = GOOD.replace("edition: 1", "edition: 3");
        assert_eq!(changes(&records, &third), ("Bea Marsh".to_string(), vec!["edition: 2, 3".to_string()]));
    }
}

/// Two branches, each with a sign-off, merged line by line: the older stands last.
#[test]
fn after_a_merge_the_newer_sign_off_of_the_very_values_counts() {
    let other = GOOD.replace("edition: 1", "edition: 2");
    let folder = signed(GOOD);
    let old = text_of(&record_file(folder.path())).replace("\"when\":\"2", "\"when\":\"1");
    write(&folder.path().join(NAME), &other);
    std::fs::remove_file(record_file(folder.path())).expect("removed");
    assert_eq!(super::sign(folder.path(), "Bea Marsh").status, Some(0));
    write(&record_file(folder.path()), text_of(&record_file(folder.path())) + &old);
    assert_eq!(found(folder.path()), []);
}

#[test]
fn a_renamed_size_is_one_change() {
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), GOOD.replace("throw:", "sofa:"));
    let told = found(folder.path());
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0].2, "Name of a size: signed as throw, now sofa.");
    assert_eq!((told[0].1.as_str(), told[0].3.as_str()), ("sofa", "sofa"));
    // What changed besides is told by itself.
    write(
        &folder.path().join(NAME),
        GOOD.replace("throw:", "sofa:").replace("strips: 9, fabric: 3/4", "strips: 10, fabric: 3/4"),
    );
    let told: Vec<String> = found(folder.path()).into_iter().map(|found| found.2).collect();
    assert_eq!(told, ["Name of a size: signed as throw, now sofa.", "Binding strips: signed as 9, now 10."]);
}

#[rstest]
#[case::fabric("ink", "tar", &["name of a fabric: ink, tar"])]
#[case::piece("A", "Q", &["name of a piece: A, Q"])]
#[case::unit("geese", "gulls", &["name of a unit: geese, gulls"])]
#[case::block("star", "lamp", &["name of a block: star, lamp"])]
#[case::size("lap", "sofa", &["name of a size: lap, sofa"])]
fn a_renamed_thing_is_one_change_however_often_it_is_named(#[case] was: &str, #[case] is: &str, #[case] told: &[&str]) {
    let text = |name: &str| {
        let text = "pattern: Inlet\nmeasure: inch\nsizes: { <lap>: { finished: 18 x 18 }, bed: { finished: 60 x 60 } }\n\
            binding: { from: <ink>, strip_width: 2 1/2, requires: { <lap>: { strips: 3 }, bed: { strips: 8 } } }\n\
            fabrics:\n  <ink>:\n    requires: { <lap>: 1 yd, bed: 2 yd }\n    cut:\n      - { piece: <A>, size: 3 x 3, \
            pieces: { <lap>: 12, bed: 40 } }\n  sea: { requires: { <lap>: 2 yd, bed: 3 yd } }\n\
            units: { <geese>: { make: patch, finished: 3, seam: 1/4, cut: { patch: <A> } }, plain: { make: patch, finished: 6 } }\n\
            blocks: { <star>: { finished: 6, rows: [ [ <geese>, <geese> turned ] ] } }\n\
            layout: { <lap>: { across: 3, down: 3, blocks: <star> }, bed: { across: 9, down: 9, blocks: { <star>: 81 } } }\n\
            accepted: [ { rule: fabric-short, size: <lap>, fabric: <ink>, piece: <A>, unit: <geese>, block: <star>, because: so } ]\n";
        text.replace(&format!("<{was}>"), name).replace(['<', '>'], "")
    };
    let (_, changed) = changes(&[record(&text(was), "Ada Finch", FIRST)], &text(is));
    assert_eq!(changed, told);
}

#[test]
fn the_hint_for_a_renamed_file_stays_when_a_number_is_written_another_way() {
    let folder = signed(GOOD);
    std::fs::remove_file(folder.path().join(NAME)).expect("removed");
    let again = GOOD.replace("strip_width: 2 1/2", "strip_width: 2.5");
    assert_ne!(again, GOOD);
    write(&folder.path().join("harbour.pattern.yaml"), again);
    let message = &found_in(folder.path(), "harbour.pattern.yaml")[0].2;
    assert!(message.contains(&format!("{NAME} was signed with the very same values")), "{message}");
}

/// The change is told where the name is given, and not where it is used.
#[rstest]
#[case::size("lap", "sofa", "sofa: { finished")]
#[case::fabric("ink", "tar", "tar:\n    requires")]
#[case::piece("A", "Q", "Q, size")]
fn a_renamed_thing_is_told_where_it_gets_its_name(#[case] was: &str, #[case] is: &str, #[case] place: &str) {
    let text = "pattern: Inlet\nmeasure: inch\nfabrics:\n  <ink>:\n    requires: { <lap>: 3/8 yd, bed: 1/2 yd }\n    cut:\n      \
        - { piece: <A>, size: 3 x 3, pieces: { <lap>: 32, bed: 56 } }\n\
        sizes:\n  <lap>: { finished: 18 x 18 }\n  bed: { finished: 60 x 60 }\n";
    let named = |name: &str| text.replace(&format!("<{was}>"), name).replace(['<', '>'], "");
    let (folder, now) = (signed(&named(was)), named(is));
    write(&folder.path().join(NAME), &now);
    let json = run(folder.path(), &["check", "--signed", "--format", "json", NAME]).json();
    let findings = json["findings"].as_array().expect("a list");
    let told: Vec<_> = findings.iter().filter(|finding| finding["rule"] == "changed-since-signed").collect();
    assert_eq!(told.len(), 1, "{told:?}");
    let at = now.find(place).expect("it is there") as u64;
    assert_eq!(told[0]["at"]["byte"], at, "{now}");
}
