//! Whole manuscripts: the published slip, and what lies just on either side of enough.

use rstest::rstest;
use sparestrip::check::{Outcome, check};
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// A manuscript of one size with an extra length, its strips joined straight (1/2 in a join) unless said.
fn checked(finished: &str, extra: &str, requires: &str) -> (String, Outcome) {
    let text = format!(
        "pattern: Two Piers\nmeasure: inch\nassumes: {{ usable_width: 40 }}\nsizes:\n  queen: {{ finished: {finished} }}\nbinding:\n  \
         strip_width: 2 1/2\n  join: straight\n  extra_length: {extra}\n  requires:\n    queen: {{ {requires} }}\n"
    );
    let outcome = check(&Source::from_text("two-piers.pattern.yaml", text.as_str()), &Settings::default());
    (text, outcome)
}

fn only<'o>(outcome: &'o Outcome, rule: &str) -> &'o Finding {
    let rules: Vec<&str> = outcome.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, [rule]);
    &outcome.findings[0]
}

/// Quilting Board, thread t189575: a 96 x 110 quilt, 12 in extra, 11 strips of 2 1/2 in "approx. 3/4 yd". Eleven
/// strips take 27 1/2 in and 3/4 yd is 27 in. With the joins, 424 in take 11 strips of 40 still.
#[test]
fn the_published_slip_is_caught() {
    let (text, outcome) = checked("96 x 110", "12", "strips: 12, fabric: 3/4 yd");
    let finding = only(&outcome, "binding-fabric-short");
    assert_eq!(finding.at.at.text(&text), "3/4 yd");
    // As it is published, without a strip to spare: both are told, and the fabric is 1/2 in short.
    let (text, outcome) = checked("96 x 110", "12", "strips: 11, fabric: 3/4 yd");
    let rules: Vec<&str> = outcome.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, ["spare-strip", "binding-fabric-short"]);
    let short = &outcome.findings[1];
    assert_eq!(short.at.at.text(&text), "3/4 yd");
    assert_eq!(short.size.as_deref(), Some("queen"));
    assert_eq!(short.stated.as_deref(), Some("3/4 yd (27 in)"));
    assert!(short.message.contains("11 strips x 2 1/2 in = 27 1/2 in"), "{}", short.message);
    assert!(short.message.contains("1/2 in short"), "{}", short.message);
    assert_eq!(short.needed.as_deref(), Some("7/8 yd (31 1/2 in)"));
}

/// Garden Gems pattern (Cotton + Joy): 75 x 90, 5/8 yd printed. Nine strips of 2 1/2 in are 22 1/2 in, 5/8 yd to the
/// thread: enough, and nothing for squaring up.
#[test]
fn a_printed_amount_without_margin_is_a_query() {
    let (text, outcome) = checked("75 x 90", "4", "strips: 9, fabric: 5/8 yd");
    let rules: Vec<&str> = outcome.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(rules, ["spare-strip", "no-squaring-room"]);
    let query = &outcome.findings[1];
    assert_eq!((query.level.word(), query.at.at.text(&text)), ("query", "5/8 yd"));
    assert!(query.message.contains("nothing is left for squaring up"), "{}", query.message);
}

/// At 2 1/4 in the same strips leave 2 1/4 in.
#[test]
fn the_same_amount_has_room_at_a_narrower_width() {
    let text = "pattern: Two Piers\nmeasure: inch\nsizes: { queen: { finished: 75 x 90 } }\nbinding:\n  strip_width: 2 1/4\n  \
                requires: { queen: { fabric: 5/8 yd, strips: 9 } }\n";
    let outcome = check(&Source::from_text("two-piers.pattern.yaml", text), &Settings::default());
    assert!(
        outcome.findings.iter().all(|finding| !finding.rule.contains("squaring") && !finding.rule.contains("fabric"))
    );
}

/// Strips joined straight give 40 n - (n - 1) / 2: four give 158 1/2, seven 277, ten 395 1/2. A perimeter and extra
/// of just that takes no more; 1/64 in over takes one more.
#[rstest]
#[case::four("30 x 40", "18 1/2", "18 33/64", 4)]
#[case::seven("60 x 70", "17", "17 1/64", 7)]
#[case::ten("90 x 100", "15 1/2", "15 33/64", 10)]
fn whole_strips_fall_on_the_right_side(
    #[case] finished: &str,
    #[case] just: &str,
    #[case] over: &str,
    #[case] strips: u64,
) {
    let with_spare = format!("strips: {}", strips + 1);
    let (text, outcome) = checked(finished, just, &with_spare);
    assert_eq!(outcome.findings, [], "{text}");

    let (text, outcome) = checked(finished, over, &with_spare);
    let finding = only(&outcome, "spare-strip");
    assert_eq!(finding.at.at.text(&text), (strips + 1).to_string());
    assert_eq!(finding.needed, Some(format!("{} strips", strips + 2)));

    let (_, outcome) = checked(finished, just, &format!("strips: {strips}"));
    assert_eq!(only(&outcome, "spare-strip").needed, Some(format!("{} strips", strips + 1)));

    let (_, outcome) = checked(finished, over, &format!("strips: {strips}"));
    let finding = only(&outcome, "binding-short");
    assert_eq!(finding.needed, Some(format!("{} strips", strips + 2)));
    assert!(
        finding.message.contains("can go around the quilt, but cannot leave the extra length: 1/64 in short"),
        "{}",
        finding.message
    );
}

/// The same on the diagonal, where a join takes the strip's 2 1/2 in: 40 n - 2 1/2 (n - 1) is 152 1/2, 265 and 377 1/2.
#[rstest]
#[case::four("30 x 40", "12 1/2", "12 33/64", 4)]
#[case::seven("60 x 66", "13", "13 1/64", 7)]
#[case::ten("80 x 100", "17 1/2", "17 33/64", 10)]
fn whole_strips_on_the_diagonal(#[case] finished: &str, #[case] just: &str, #[case] over: &str, #[case] strips: u64) {
    let finds = |extra: &str| {
        let (text, _) = checked(finished, extra, &format!("strips: {}", strips + 1));
        let text = text.replace("straight", "diagonal");
        let outcome = check(&Source::from_text("two-piers.pattern.yaml", text), &Settings::default());
        outcome.findings.iter().map(|finding| (finding.rule, finding.needed.clone())).collect::<Vec<_>>()
    };
    assert_eq!(finds(just), []);
    assert_eq!(finds(over), [("spare-strip", Some(format!("{} strips", strips + 2)))]);
}

/// 22 1/2 in is 5/8 yd: nine strips of 2 1/2 in come out of it, with squaring up they do not, and 1/64 in less is short.
#[rstest]
#[case("5/8 yd", "no-squaring-room")]
#[case("22 1/2 in", "no-squaring-room")]
#[case("57.15 cm", "no-squaring-room")]
#[case("22 31/64 in", "binding-fabric-short")]
#[case("57.1 cm", "binding-fabric-short")]
#[case("22 63/64 in", "no-squaring-room")]
#[case("", "")]
#[case("23 in", "")]
#[case("3/4 yd", "")]
fn fabric_falls_on_the_right_side(#[case] fabric: &str, #[case] rule: &str) {
    let stated = if fabric.is_empty() { String::new() } else { format!(", fabric: {fabric}") };
    let (_, outcome) = checked("60 x 75", "12", &format!("strips: 9{stated}"));
    let rules: Vec<&str> = outcome.findings.iter().map(|finding| finding.rule).collect();
    let expected: &[&str] = if rule.is_empty() { &[] } else { &[rule] };
    assert_eq!(rules, expected);
}
