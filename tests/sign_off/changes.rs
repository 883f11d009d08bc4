//! What counts as a change since the sign-off, and what does not.

use rstest::rstest;

use super::{NAME, changed, folder_of, found, found_in, records, run, sign, signed, text_of, write};
use crate::support::GOOD;

fn after(text: &str) -> Vec<(String, String, String, String)> {
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), text);
    found(folder.path())
}

/// The fingerprint that a manuscript is signed with, as the record has it.
fn fingerprint(text: &str) -> String {
    let folder = signed(text);
    records(folder.path())[0]["fingerprint"].as_str().expect("a fingerprint").to_string()
}

#[test]
fn a_signed_manuscript_is_silent() {
    let folder = signed(GOOD);
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!((ran.status, ran.out.lines().last()), (Some(0), Some("1 manuscript: no problems")), "{ran:?}");
    assert!(!ran.out.contains("not-signed") && !ran.out.contains("since-signed"), "{ran:?}");
}

#[test]
fn a_manuscript_that_was_never_signed_fails() {
    let folder = folder_of(GOOD);
    let found = found(folder.path());
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].0.as_str(), found[0].3.as_str()), ("not-signed", "Harbour Lanterns"));
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1));
    assert_eq!(run(folder.path(), &["check"]).status, Some(0), "nobody asked");
}

#[rstest]
#[case("strips: 9, fabric: 3/4", "strips: 10, fabric: 3/4", "throw", "Binding strips: signed as 9, now 10.", "10")]
#[case(
    "crib:  { strips: 6, fabric: 1/2 yd",
    "crib:  { strips: 6, fabric: 5/8 yd",
    "crib",
    "Binding fabric: signed as 1/2 yd, now 5/8 yd.",
    "5/8 yd"
)]
#[case(
    "throw: { finished: 54 x 72 }",
    "throw: { finished: 54 x 71 }",
    "throw",
    "Finished: signed as 54 x 72, now 54 x 71.",
    "54 x 71"
)]
#[case("  tails: 10", "  tails: 11", "", "Binding tails: signed as 10, now 11.", "11")]
#[case("edition: 1", "edition: 2", "", "Edition: signed as 1, now 2.", "2")]
#[case("edition: 1\n", "", "", "Edition: signed as 1, now not stated.", "Harbour Lanterns")]
#[case("  loft: low\n", "", "", "Binding loft: signed as low, now not stated.", "binding")]
#[case(
    "  finish: machine\n",
    "  finish: machine\n  strip_length: 40\n",
    "",
    "Binding strip_length: signed as not stated, now 40.",
    "40"
)]
#[case(
    "Harbour Lanterns",
    "Harbour Lights",
    "",
    "Pattern: signed as Harbour Lanterns, now Harbour Lights.",
    "Harbour Lights"
)]
fn a_changed_value_is_named_with_what_it_was(
    #[case] from: &str,
    #[case] to: &str,
    #[case] size: &str,
    #[case] message: &str,
    #[case] at: &str,
) {
    let text = changed(from, to);
    assert_ne!(fingerprint(&text), fingerprint(GOOD));
    let found = after(&text);
    let expected = ("changed-since-signed".to_string(), size.to_string(), message.to_string(), at.to_string());
    assert_eq!(found, [expected]);
}

/// Every scalar of the manuscript, one at a time, becomes something else: each must be named at its place.
#[test]
fn no_value_can_be_changed_unnoticed() {
    let folder = signed(GOOD);
    let mut tried = 0;
    for value in sparestrip::sign_off::stated(&sparestrip::manuscript::Source::from_text(NAME, GOOD)).into_values() {
        let mut text = GOOD.to_string();
        text.replace_range(value.at.start..value.at.end, "77");
        write(&folder.path().join(NAME), &text);
        let named = found(folder.path()).into_iter().filter(|found| found.0 == "changed-since-signed");
        let named: Vec<_> = named.map(|found| (found.2, found.3)).collect();
        assert_eq!(named.len(), 1, "{value:?}: {named:?}");
        assert!(named[0].0.ends_with(&format!(": signed as {}, now 77.", value.text)), "{named:?}");
        assert_eq!(named[0].1, "77");
        tried += 1;
    }
    // Counted in the manuscript by hand: 3 + 3 + 3 at the top, 10 for the method, 2 for each size.
    assert_eq!(tried, 25);
}

#[test]
fn several_changes_are_all_named_in_the_order_of_their_places() {
    let text =
        changed("edition: 1", "edition: 2").replace("strips: 12", "strips: 13").replace("9, fabric", "10, fabric");
    let messages: Vec<String> = after(&text).into_iter().map(|found| found.2).collect();
    let expected = [
        "Edition: signed as 1, now 2.",
        "Binding strips: signed as 9, now 10.",
        "Binding strips: signed as 12, now 13.",
    ];
    assert_eq!(messages, expected);
}

#[test]
fn a_new_size_and_one_that_is_gone_are_named() {
    let twin = "  twin: { finished: 60 x 84 }\n  queen:";
    let text =
        changed("  queen:", twin).replacen("    queen:", "    twin: { strips: 10, fabric: 3/4 yd }\n    queen:", 1);
    let named: Vec<_> = after(&text).into_iter().map(|found| (found.1, found.2)).collect();
    let of_twin = |message: &str| ("twin".to_string(), message.to_string());
    let expected = [
        of_twin("Finished: signed as not stated, now 60 x 84."),
        of_twin("Binding strips: signed as not stated, now 10."),
        of_twin("Binding fabric: signed as not stated, now 3/4 yd."),
    ];
    assert_eq!(named, expected);
    let text =
        changed("  throw: { finished: 54 x 72 }\n", "").replace("    throw: { strips: 9, fabric: 3/4 yd }\n", "");
    let mut named: Vec<_> = after(&text).into_iter().map(|found| (found.1, found.2)).collect();
    named.sort();
    let of_throw = |message: &str| ("throw".to_string(), message.to_string());
    let expected = [
        of_throw("Binding fabric: signed as 3/4 yd, now not stated."),
        of_throw("Binding strips: signed as 9, now not stated."),
        of_throw("Finished: signed as 54 x 72, now not stated."),
    ];
    assert_eq!(named, expected);
}

#[rstest]
#[case::a_comment("edition: 1", "edition: 1     # as printed in spring")]
#[case::a_comment_on_its_own_line("binding:", "# The binding, for all sizes.\nbinding:")]
#[case::an_empty_line("binding:", "\n\nbinding:")]
#[case::spaces("54 x 72", "54   x   72")]
#[case::no_spaces("54 x 72", "54x72")]
#[case::quotes("fold: double", "fold: 'double'")]
#[case::another_way_to_write_a_fraction("strip_width: 2 1/2", "strip_width: 2.5")]
#[case::a_unit_that_was_meant("strip_width: 2 1/2", "strip_width: 2 1/2 in")]
#[case::brackets_opened("crib:  { finished: 36 x 48 }", "crib:\n    finished: 36 x 48")]
#[case::the_order_of_words("  seam: 1/4\n  loft: low", "  loft: low\n  seam: 1/4")]
#[case::the_order_within_brackets("{ strips: 6, fabric: 1/2 yd }", "{ fabric: 1/2 yd, strips: 6 }")]
#[case::the_order_of_sections(
    "measure: inch\nassumes:\n  usable_width: 40\n  seam: 1/4\n  sold_by: 1/8 yd",
    "assumes:\n  sold_by: 1/8 yd\n  usable_width: 40\n  seam: 1/4\nmeasure: inch"
)]
#[case::windows_lines("\n", "\r\n")]
fn what_is_no_value_may_change(#[case] from: &str, #[case] to: &str) {
    let text = changed(from, to);
    assert_eq!(after(&text), []);
    assert_eq!(fingerprint(&text), fingerprint(GOOD));
}

const LISTS: &str = "\
pattern: Rope Walk
measure: inch
sizes:
  lap: { finished: 42 x 42 }
fabrics:
  flax:
    requires: { lap: 3/4 yd }
    cut:
      - { piece: square, size: 6 1/2 x 6 1/2, pieces: { lap: 10 } }
      - { piece: strip, size: 2 1/2 x 6 1/2, pieces: { lap: 4 } }
      - { piece: strip, size: 3 1/2 x 6 1/2, pieces: { lap: 4 } }
";

#[rstest]
#[case::another_place_in_the_list(&[0, 1, 2], &[1, 0, 2])]
#[case::two_of_one_name(&[0, 1, 2], &[0, 2, 1])]
#[case::the_other_way_round(&[0, 1, 2], &[2, 1, 0])]
fn the_order_of_a_cutting_list_is_no_value(#[case] before: &[usize], #[case] after: &[usize]) {
    let (head, list) = LISTS.split_at(LISTS.find("      - ").expect("a list"));
    let lines: Vec<&str> = list.split_inclusive('\n').collect();
    let in_order = |order: &[usize]| order.iter().fold(head.to_string(), |text, line| text + lines[*line]);
    let folder = signed(&in_order(before));
    write(&folder.path().join(NAME), in_order(after));
    assert_eq!(found(folder.path()), []);
}

#[test]
fn the_order_of_borders_and_of_the_rows_of_a_block_is_a_value() {
    let example = concat!(env!("CARGO_MANIFEST_DIR"), "/example-patterns/cormorant-stair.pattern.yaml");
    let text = text_of(std::path::Path::new(example));
    let values = |text: &str| {
        let source = sparestrip::manuscript::Source::from_text("a.pattern.yaml", text);
        let values = sparestrip::sign_off::stated(&source).into_iter();
        values.map(|(key, value)| (key, value.text)).collect::<Vec<_>>()
    };
    let rows: Vec<&str> = text.lines().filter(|line| line.trim_start().starts_with("- [")).collect();
    let (first, other) = (rows[0], rows.iter().find(|row| row.trim() != rows[0].trim()).expect("two unlike rows"));
    let turned = text.replacen(first, "ROW", 1).replacen(other, first, 1).replacen("ROW", other, 1);
    assert_ne!(values(&text), values(&turned));
}

#[test]
fn a_value_of_the_house_that_was_assumed_is_named_and_others_are_not() {
    let text = GOOD.replace("  tails: 10\n", "");
    let folder = signed(&text);
    let house = folder.path().join("house-rules.yaml");
    // Nothing here is bound on the bias, nor set on point.
    write(&house, "values:\n  mitre_ease: 5\n  loft_high: 3/8\n");
    assert_eq!(found(folder.path()), []);
    write(&house, "values:\n  tail: 10 1/2\n");
    let found = found(folder.path());
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].2, "The rule book's tail: signed as 10 in, now 10 1/2 in.");
    // It is told at the measure, which is as it was.
    let printed = run(folder.path(), &["check", "--signed", "--format", "text", NAME]).out;
    assert!(printed.contains("not a change here: the rule book had 10 in when it was signed"), "{printed}");
}

#[test]
fn of_two_pieces_with_one_name_only_the_count_that_changed_is_named() {
    let bars = |few: &str| {
        format!(
            "{GOOD}fabrics:\n  ink:\n    requires: {{ crib: 1/2 yd, throw: 1/2 yd, queen: 1/2 yd }}\n    cut:\n      \
             - {{ piece: bar, size: 5 x 5, pieces: {{ crib: {few}, throw: 10, queen: 10 }} }}\n      \
             - {{ piece: bar, size: 9 x 2, pieces: {{ crib: 3, throw: 3, queen: 3 }} }}\n"
        )
    };
    let folder = signed(&bars("2"));
    write(&folder.path().join(NAME), bars("4"));
    let found = found(folder.path());
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].1.as_str(), found[0].3.as_str()), ("crib", "4"));
    assert!(found[0].2.ends_with(": signed as 2, now 4."), "{}", found[0].2);
}

#[test]
fn packages_of_batting_that_no_size_states_are_no_part_of_a_sign_off() {
    let batting = |stated: &str| {
        format!("{GOOD}batting: {{ overhang: 2, requires: {{ crib: {stated}, throw: {stated}, queen: {stated} }} }}\n")
    };
    let house = "values:\n  packaged_king: 121 x 121\n";
    let measured = signed(&batting("120 x 120"));
    write(&measured.path().join("house-rules.yaml"), house);
    assert_eq!(found(measured.path()), []);
    let packaged = signed(&batting("packaged king"));
    write(&packaged.path().join("house-rules.yaml"), house);
    let found = found(packaged.path());
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].2, "The rule book's packaged_king: signed as 120 in x 120 in, now 121 in x 121 in.");
}

#[test]
fn a_value_of_the_house_that_the_manuscript_states_itself_is_not_named() {
    let folder = signed(GOOD);
    write(&folder.path().join("house-rules.yaml"), "values:\n  tail: 9\n  usable_width: 42\n  opening: 10\n");
    assert_eq!(found(folder.path()), []);
}

#[test]
fn the_sign_off_counts_whose_values_the_manuscript_has_and_else_the_last() {
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), changed("edition: 1", "edition: 2"));
    assert_eq!(found(folder.path()).len(), 1);
    assert_eq!(sign(folder.path(), "Bea Marsh").status, Some(0));
    assert_eq!(found(folder.path()), []);
    write(&folder.path().join(NAME), GOOD);
    assert_eq!(found(folder.path()), []);
    write(&folder.path().join(NAME), changed("edition: 1", "edition: 3"));
    let found = found(folder.path());
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].2, "Edition: signed as 2, now 3.");
}

#[test]
fn a_renamed_manuscript_is_told_what_it_may_be() {
    let folder = signed(GOOD);
    let (old, new) = (folder.path().join(NAME), folder.path().join("harbour.pattern.yaml"));
    std::fs::rename(old, new).expect("renamed");
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!(ran.status, Some(1));
    let message = &found_in(folder.path(), "harbour.pattern.yaml")[0].2;
    assert!(message.contains(&format!("{NAME} was signed with the very same values")), "{message}");
}

#[test]
fn an_acceptance_silences_neither_rule() {
    let accepted = "accepted:\n  - { rule: changed-since-signed, because: it is late }\n  - { rule: not-signed, because: it is late }\n";
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), format!("{}{accepted}", changed("edition: 1", "edition: 2")));
    let rules: Vec<String> = found(folder.path()).into_iter().map(|found| found.0).collect();
    assert!(rules.iter().any(|rule| rule == "changed-since-signed"), "{rules:?}");
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1));
}

#[test]
fn a_new_acceptance_is_a_change() {
    let text = GOOD.replace("crib:  { strips: 6", "crib:  { strips: 5");
    let accepted = "accepted:\n  - { rule: spare-strip, size: crib, stated: 5, because: the kit packs one }\n";
    let folder = signed(&format!("{text}{accepted}"));
    assert_eq!(found(folder.path()), []);
    write(&folder.path().join(NAME), format!("{text}{}", accepted.replace("the kit packs one", "so they say")));
    let found = found(folder.path());
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].2.ends_with("signed as the kit packs one, now so they say."), "{found:?}");
}

/// A manuscript may be turned into anything after it was signed: that takes no longer than to read it.
#[rstest]
#[case::a_hundred_thousand_values_of_one_name(
    "accepted:\n",
    "  - { rule: spare-strip, size: crib, because: no }\n",
    80_000,
    " more values are not what they were"
)]
#[case::nothing_of_what_was_signed(
    "",
    "# A remark that goes on and on, to fill the file with something.\n",
    60_000,
    "Pattern: signed as Cormorant Stair, now not stated."
)]
#[case::a_hundred_thousand_new_values("more:\n", "  - 12345\n", 90_000, " more values are not what they were")]
fn a_manuscript_that_was_blown_up_is_compared_all_the_same(
    #[case] before: &str,
    #[case] line: &str,
    #[case] times: usize,
    #[case] told: &str,
) {
    let example = concat!(env!("CARGO_MANIFEST_DIR"), "/example-patterns/cormorant-stair.pattern.yaml");
    let folder = signed(&text_of(std::path::Path::new(example)));
    write(&folder.path().join(NAME), format!("{before}{}", line.repeat(times)));
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains(told), "{} bytes without {told:?}", ran.out.len());
}

#[rstest]
#[case("off")]
#[case("note")]
#[case("query")]
fn house_rules_cannot_lower_it(#[case] level: &str) {
    let folder = signed(GOOD);
    let levels = format!("levels: {{ not-signed: {level}, changed-since-signed: {level} }}\n");
    write(&folder.path().join("house-rules.yaml"), levels);
    write(&folder.path().join(NAME), changed("edition: 1", "edition: 2"));
    assert_eq!(found(folder.path()).len(), 1);
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!(ran.status, Some(1));
    assert_eq!(ran.out.matches("is always an error").count(), 2, "{}", ran.out);
}

#[rstest]
#[case("harbour.pattern.yaml", "sparestrip sign harbour.pattern.yaml --by")]
#[case("my harbour.pattern.yaml", "sparestrip sign \"my harbour.pattern.yaml\" --by")]
#[case("Bea's.pattern.yaml", "sparestrip sign \"Bea's.pattern.yaml\" --by")]
#[case("$(rm x).pattern.yaml", "sparestrip sign '$(rm x).pattern.yaml' --by")]
#[case("`rm` Bea's.pattern.yaml", "sparestrip sign '`rm` Bea'\\''s.pattern.yaml' --by")]
fn the_command_to_sign_can_be_typed_as_it_is(#[case] name: &str, #[case] said: &str) {
    let folder = folder_of(GOOD);
    std::fs::rename(folder.path().join(NAME), folder.path().join(name)).expect("renamed");
    let json = run(folder.path(), &["check", "--signed", "--format", "json", name]).json();
    let help = json["findings"][0]["help"].as_str().expect("a help");
    assert!(help.contains(said), "{help}");
}

/// A mistake in what is read in place of what is no text stands where that begins.
#[test]
fn a_mistake_among_blanked_bytes_is_placed_before_their_character() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus/reader");
    let source = sparestrip::manuscript::Source::open(&folder.join("a-mistake-in-a-blanked-character")).unwrap();
    for mistake in sparestrip::manuscript::read(&source).mistakes {
        assert!(source.text.get(mistake.at.start..mistake.at.end).is_some(), "{mistake:?} is within a character");
    }
}

/// The value of `r` begins among the spaces that are read in place of a character of several bytes.
#[test]
fn what_a_blanked_character_leaves_is_placed_before_it() {
    let source = sparestrip::manuscript::Source::from_text(NAME, "          r: |2\n          \u{feff}");
    let values = sparestrip::sign_off::stated(&source);
    assert_eq!(values.keys().collect::<Vec<_>>(), ["r"]);
    for value in values.values() {
        assert!(source.text.get(value.at.start..value.at.end).is_some(), "{:?} is within a character", value.at);
    }
}
