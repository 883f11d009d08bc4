//! What a sign-off records.

use super::{NAME, folder_of, record_file, records, run, sign, signed, text_of, write};
use crate::support::GOOD;

#[test]
fn a_record_says_who_signed_what_and_with_which_numbers() {
    let folder = folder_of(GOOD);
    let ran = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--note", "beside the sample: \"all sizes\""]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(
        ran.err,
        "sparestrip: Harbour Lanterns, edition 1: Ada Finch signed off 25 values\nsparestrip: wrote sign-offs.yaml\n"
    );
    let records = records(folder.path());
    assert_eq!(records.len(), 1);
    let record = &records[0];
    let word = |key: &str| record[key].as_str().unwrap_or_else(|| panic!("no {key} in {record:?}"));
    assert_eq!(word("manuscript"), NAME);
    assert_eq!(word("pattern"), "Harbour Lanterns");
    assert_eq!(word("edition"), "1");
    assert_eq!(word("by"), "Ada Finch");
    assert_eq!(word("note"), "beside the sample: \"all sizes\"");
    assert_eq!(word("sparestrip"), env!("CARGO_PKG_VERSION"));
    for fingerprint in ["rule_book", "fingerprint"] {
        let digits = word(fingerprint).strip_prefix("sha256:").expect("what it is made with");
        assert!(digits.len() == 64 && digits.bytes().all(|byte| byte.is_ascii_hexdigit()), "{digits}");
    }
    // RFC 3339, to the second, in UTC.
    let when = word("when");
    assert_eq!((when.len(), &when[10..11], &when[19..]), (20, "T", "Z"), "{when}");
    let stated = &record["stated"];
    assert_eq!(stated["binding / requires / queen / strips"].as_str(), Some("12"));
    assert_eq!(stated["sizes / throw / finished"].as_str(), Some("54 x 72"));
    assert_eq!(stated["assumes / sold_by"].as_str(), Some("1/8 yd"));
    let assumed = &record["assumed"];
    assert_eq!(assumed["take_up_per_corner"].as_str(), Some("1/2 in"));
    assert_eq!(assumed["spare_strips"].as_str(), Some("1"));
    for not_assumed in ["tail", "opening", "usable_width", "binding_seam", "packaged_queen"] {
        assert!(assumed.get(not_assumed).is_none(), "{not_assumed} is stated, or nothing goes by it");
    }
    assert!(record.get("house_rules").is_none());
}

#[test]
fn accepted_findings_are_recorded_with_their_reasons() {
    let accepted =
        "accepted:\n  - { rule: spare-strip, size: crib, stated: 5, because: the kit packs an extra strip }\n";
    let folder = signed(&format!("{}{accepted}", GOOD.replace("crib:  { strips: 6", "crib:  { strips: 5")));
    let record = &records(folder.path())[0];
    let accepted = record["accepted"].as_sequence().expect("a list");
    assert_eq!(accepted.len(), 1);
    assert_eq!(accepted[0]["rule"].as_str(), Some("spare-strip"));
    assert_eq!(accepted[0]["size"].as_str(), Some("crib"));
    assert_eq!(accepted[0]["because"].as_str(), Some("the kit packs an extra strip"));
    assert!(accepted[0]["message"].as_str().expect("a message").contains("5 strips stated; 6 needed"));
}

#[test]
fn records_are_added_at_the_end_and_what_was_there_is_left_as_it_was() {
    let folder = signed(GOOD);
    let file = record_file(folder.path());
    let before = format!("{}# A remark of our own, without an end of line", text_of(&file));
    write(&file, &before);
    assert_eq!(sign(folder.path(), "Bea Marsh").status, Some(0));
    let after = text_of(&file);
    let more = after.strip_prefix(&before).expect("what was there");
    let lines: Vec<&str> = more.split('\n').collect();
    assert!(lines[1].starts_with("# Bea Marsh signed off Harbour Lanterns, edition 1, on "), "{more}");
    assert!(lines[2].starts_with(&format!("- {{\"manuscript\":\"{NAME}\",")), "{more}");
    assert_eq!((lines[0], &lines[3..]), ("", &[""][..]), "{more}");
    let by: Vec<String> =
        records(folder.path()).iter().map(|record| record["by"].as_str().unwrap_or_default().to_string()).collect();
    assert_eq!(by, ["Ada Finch", "Bea Marsh"]);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}

#[test]
fn each_folder_has_its_own_record() {
    let folder = folder_of(GOOD);
    write(&folder.path().join("more/other.pattern.yaml"), GOOD);
    let ran = run(folder.path(), &["sign", "more/other.pattern.yaml", "--by", "Ada Finch"]);
    assert!(ran.err.ends_with("sparestrip: wrote more/sign-offs.yaml\n"), "{ran:?}");
    assert!(!record_file(folder.path()).exists());
    let ran = run(folder.path(), &["check", "--signed"]);
    let heads: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("error: not-signed at ")).collect();
    assert!(matches!(heads[..], [head] if head.contains(NAME)), "{}", ran.out);
}

#[test]
fn house_rules_are_recorded() {
    let folder = folder_of(GOOD);
    write(&folder.path().join("house-rules.yaml"), "values:\n  squaring: 3/4\n");
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    let record = &records(folder.path())[0];
    assert!(record["house_rules"].as_str().is_some_and(|digits| digits.starts_with("sha256:")));
    assert_eq!(record["assumed"]["squaring"].as_str(), Some("3/4 in"));
}

#[test]
fn names_of_every_kind_are_recorded_and_read_back() {
    for name in ["Zoë Ødegård", "yes", "- [x]", "# O'Neil: \"B\"", "null", "12", "山田花子", "& *"] {
        let folder = folder_of(&GOOD.replace("Harbour Lanterns", "'yes: no # \"x\"'"));
        let ran = sign(folder.path(), name);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        assert_eq!(records(folder.path())[0]["by"].as_str(), Some(name));
        assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0), "{name}");
    }
}

#[test]
fn a_link_to_a_record_stays_a_link() {
    let folder = folder_of(GOOD);
    write(&folder.path().join("kept/all.yaml"), "");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("kept/all.yaml", record_file(folder.path())).expect("a link");
        assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
        assert!(record_file(folder.path()).is_symlink());
        assert!(text_of(&folder.path().join("kept/all.yaml")).contains("Ada Finch"));
    }
}

/// An editor for Windows saves a file with other ends of lines, and a mark at its start.
#[test]
fn a_record_that_an_editor_saved_another_way_holds() {
    for (start, end) in [("", "\r\n"), ("\u{feff}", "\n"), ("\u{feff}", "\r\n"), ("\n  \n   # a remark\n", "\n\n")] {
        let folder = signed(GOOD);
        let file = record_file(folder.path());
        write(&file, format!("{start}{}", text_of(&file).replace('\n', end)));
        let ran = run(folder.path(), &["check", "--signed", NAME]);
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{start:?} {end:?}: {ran:?}");
        assert_eq!(sign(folder.path(), "Bea Marsh").status, Some(0), "{start:?} {end:?}");
        assert_eq!(run(folder.path(), &["check", "--signed", NAME]).status, Some(0), "{start:?} {end:?}");
    }
}
