//! Accepted findings and house levels: what is silenced, what is not, and what is counted.

use rstest::rstest;
use sparestrip::check::{Outcome, Tally};
use sparestrip::finding::{Finding, Level};
use sparestrip::rule_book::Settings;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, one_by, outcome, outcome_by, rules_of};
use crate::subjects::{HOW_IT_IS_WRITTEN, manuscripts};

/// Two sizes, each with the strips that are needed and none to spare.
fn lanterns(accepted: &str) -> String {
    format!(
        "pattern: Quay Lanterns\nmeasure: inch\n\
         sizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 }}\n\
         binding:\n  strip_width: 2 1/2\n  requires:\n    crib: {{ strips: 5 }}\n    lap: {{ strips: 8 }}\n{accepted}"
    )
}

fn silenced(outcome: &Outcome) -> Vec<(&str, Option<&str>)> {
    outcome.accepted.iter().map(|accepted| (accepted.finding.rule, accepted.finding.size.as_deref())).collect()
}

#[test]
fn an_acceptance_silences_one_size_and_is_counted() {
    let text = lanterns(
        "accepted:\n  - { rule: spare-strip, size: crib, stated: 5, because: the kit packs an extra strip }\n",
    );
    let outcome = outcome(&text);
    assert_eq!(silenced(&outcome), [("spare-strip", Some("crib"))]);
    assert_eq!(outcome.accepted[0].because, "the kit packs an extra strip");
    let left = one(&text, "spare-strip");
    assert_eq!(left.size.as_deref(), Some("lap"));
    assert_eq!(Tally::of(&outcome), Tally { errors: 1, queries: 0, notes: 0, accepted: 1 });
}

#[rstest]
#[case::finds_nothing(
    "{ rule: fold-short, because: the sample was sewn so }",
    "\"fold-short\" is accepted for the pattern as a whole, and it finds nothing there."
)]
#[case::finds_nothing_for_the_size(
    "{ rule: binding-short, size: lap, because: it was tried }",
    "\"binding-short\" is accepted for lap, and it finds nothing there."
)]
#[case::size_left_out(
    "{ rule: spare-strip, because: both kits pack an extra strip }",
    "\"spare-strip\" is accepted for the pattern as a whole"
)]
fn an_acceptance_without_use_is_told(#[case] accepted: &str, #[case] says: &str) {
    let text = lanterns(&format!("accepted:\n  - {accepted}\n"));
    assert_says(&one(&text, "accepted-unused"), &[says]);
    assert!(outcome(&text).accepted.is_empty());
    assert_eq!(rules_of(&text).iter().filter(|rule| **rule == "spare-strip").count(), 2);
}

#[test]
fn an_acceptance_without_a_reason_silences_nothing() {
    let text = lanterns("accepted:\n  - { rule: spare-strip, size: crib }\n");
    assert_eq!(rules_of(&text), ["spare-strip", "spare-strip", "missing-entry"]);
    assert_says(&one(&text, "missing-entry"), &["\"because\" is missing from accepted."]);
    assert!(outcome(&text).accepted.is_empty());
}

#[rstest]
#[case::rule(
    "{ rule: spare-stripe, size: crib, stated: 5, because: extra }",
    "unknown-word",
    "spare-stripe",
    "spare-strip"
)]
#[case::size("{ rule: spare-strip, size: cribb, stated: 5, because: extra }", "unknown-size", "cribb", "crib")]
fn a_misspelt_acceptance_is_told_once_and_can_be_mended(
    #[case] accepted: &str,
    #[case] rule: &str,
    #[case] at: &str,
    #[case] meant: &str,
) {
    let text = lanterns(&format!("accepted:\n  - {accepted}\n"));
    assert_eq!(rules_of(&text), ["spare-strip", "spare-strip", rule]);
    let finding = one(&text, rule);
    assert_eq!(finding.at.at.text(&text), at);
    let mended = finding.correction.expect("a correction").apply(&text);
    assert_eq!(mended, text.replace(at, meant));
    assert_eq!(silenced(&outcome(&mended)), [("spare-strip", Some("crib"))]);
}

/// Two fabrics, each with five strips 3 1/2 in wide to cut: 17 1/2 in, and 1/2 yd with squaring up.
fn coves(ink: &str, sand: &str, accepted: &str) -> String {
    let squares = "cut: [ { piece: A, size: 3 1/2 x 3 1/2, pieces: { lap: 48 } } ]";
    format!(
        "pattern: Cove\nmeasure: inch\nassumes: {{ usable_width: 40 }}\nsizes: {{ lap: {{ finished: 60 x 76 }} }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: {ink} }}\n    {squares}\n  sand:\n    requires: {{ lap: {sand} }}\n    \
         {squares}\naccepted:\n{accepted}"
    )
}

#[test]
fn an_acceptance_for_one_fabric_leaves_every_other() {
    let accepted = "  - { rule: fabric-short, size: lap, fabric: ink, stated: 3/8 yd, because: it is scraps }\n";
    let text = coves("3/8 yd", "3/8 yd", accepted);
    assert_eq!(outcome(&text).accepted.len(), 1);
    assert_eq!(one(&text, "fabric-short").about_words().as_deref(), Some("lap, fabric sand"));
    assert_eq!(rules_of(&text), ["fabric-short"]);
}

#[rstest]
#[case::a_worse_number("1/4 yd")]
#[case::a_better_number_that_is_still_short("13.6 in")]
fn an_acceptance_holds_for_its_number_only(#[case] ink: &str) {
    let accepted = "  - { rule: fabric-short, size: lap, fabric: ink, stated: 3/8 yd, because: it is scraps }\n";
    let text = coves(ink, "1/2 yd", accepted);
    let finding = one(&text, "fabric-short");
    assert!(finding.help.contains("It was accepted with 3/8 yd, and "), "{}", finding.help);
    assert!(finding.help.contains(&format!("write \"stated: {ink}\" in the acceptance")), "{}", finding.help);
    assert_eq!(finding.related.last().map(|label| label.at.text(&text)), Some("3/8 yd"));
    assert!(outcome(&text).accepted.is_empty());
    assert!(!rules_of(&text).contains(&"accepted-unused"), "it is told once");
}

/// A quilt that grows takes more: what was accepted for less does not silence that.
#[test]
fn an_acceptance_that_says_what_is_needed_ends_where_that_changes() {
    let accepted = |needed: &str| {
        format!("  - {{ rule: fabric-short, size: lap, fabric: ink, stated: 3/8 yd, {needed}because: scraps }}\n")
    };
    assert_silent(&coves("3/8 yd", "1/2 yd", &accepted("needed: 1/2 yd, ")));
    assert_silent(&coves("3/8 yd", "1/2 yd", &accepted("needed: 18 in, ")));
    let larger = |needed: &str| {
        let text = coves("3/8 yd", "1/2 yd", &accepted(needed));
        text.replacen("pieces: { lap: 48 }", "pieces: { lap: 480 }", 1)
    };
    let text = larger("needed: 1/2 yd, ");
    let finding = one(&text, "fabric-short");
    // 44 strips of 3 1/2 in are 154 in.
    let says = "It was accepted where 1/2 yd was needed, and 4 3/8 yd is needed now.";
    assert!(finding.help.contains(says), "{}", finding.help);
    assert_eq!(finding.related.last().map(|label| label.at.text(&text)), Some("1/2 yd"));
    assert!(outcome(&text).accepted.is_empty() && !rules_of(&text).contains(&"accepted-unused"));
    // One that says no more than the stated number holds for that alone.
    assert_silent(&larger(""));
}

#[rstest]
#[case::inches("13 1/2 in")]
#[case::bare("13.5")]
#[case::the_very_words("3/8 yd")]
#[case::another_spelling("\"3/8 yards\"")]
fn a_number_is_accepted_however_it_is_written(#[case] stated: &str) {
    let accepted = format!("  - {{ rule: fabric-short, size: lap, fabric: ink, stated: {stated}, because: scraps }}\n");
    assert_silent(&coves("3/8 yd", "1/2 yd", &accepted));
}

#[rstest]
#[case::metres("0.3 m", true)]
#[case::bare("30", true)]
#[case::millimetres("300 mm", true)]
#[case::a_little_more("30.1 cm", false)]
#[case::a_little_less("29.9 cm", false)]
fn a_number_in_centimetres_is_accepted_however_it_is_written(#[case] stated: &str, #[case] holds: bool) {
    let accepted = format!("  - {{ rule: fabric-short, size: lap, fabric: ink, stated: {stated}, because: scraps }}\n");
    let text = coves("30 cm", "50 cm", &accepted).replace("measure: inch", "measure: cm");
    let text = text.replace("usable_width: 40", "usable_width: 100").replace("3 1/2 x 3 1/2", "9 x 9");
    let text = text.replace("finished: 60 x 76", "finished: 150 x 190");
    assert_eq!(outcome(&text).accepted.len(), usize::from(holds));
    assert_eq!(rules_of(&text).contains(&"fabric-short"), !holds);
}

#[rstest]
#[case::no_fabric("stated: 3/8 yd, ", "fabric: ink")]
#[case::no_number("fabric: ink, ", "stated: 3/8 yd, needed: 1/2 yd")]
#[case::neither("", "fabric: ink, stated: 3/8 yd, needed: 1/2 yd")]
fn an_acceptance_that_says_too_little_accepts_nothing_and_is_corrected(#[case] says: &str, #[case] lacks: &str) {
    let accepted = format!("  - {{ rule: fabric-short, size: lap, {says}because: scraps }}\n");
    let text = coves("3/8 yd", "1/2 yd", &accepted);
    assert_eq!(rules_of(&text), ["fabric-short", "accepted-unused"]);
    let unused = one(&text, "accepted-unused");
    assert_says(&unused, &["that does not say what is accepted"]);
    assert_eq!(unused.help, format!("Write beside the rule: {lacks}"));
    assert_silent(&mended(&text, &unused));
}

#[test]
fn the_lines_of_an_acceptance_are_added_to_as_they_stand() {
    let accepted = "  - rule: fabric-short   # scraps\n    size: lap\n    because: scraps\n";
    for end in ["\n", "\r\n"] {
        let text = coves("3/8 yd", "1/2 yd", accepted).replace('\n', end);
        let mended = mended(&text, &one(&text, "accepted-unused"));
        let wanted = "  - rule: fabric-short   # scraps\n    fabric: ink\n    stated: 3/8 yd\n    needed: 1/2 yd\n    size: lap\n";
        assert!(mended.contains(&wanted.replace('\n', end)), "{mended:?}");
        assert_silent(&mended);
    }
}

#[test]
fn an_acceptance_that_may_mean_several_findings_names_each_and_corrects_none() {
    let text = coves("3/8 yd", "1/4 yd", "  - { rule: fabric-short, size: lap, because: scraps }\n");
    assert_eq!(rules_of(&text), ["fabric-short", "fabric-short", "accepted-unused"]);
    let unused = one(&text, "accepted-unused");
    assert!(
        unused
            .help
            .ends_with("\nfabric: ink, stated: 3/8 yd, needed: 1/2 yd\nfabric: sand, stated: 1/4 yd, needed: 1/2 yd"),
        "{}",
        unused.help
    );
    assert_eq!(unused.correction, None);
}

#[test]
fn a_piece_is_named_with_its_fabric_where_two_fabrics_have_it() {
    let strips = |text: &str| text.replace("pieces:", "strips: { lap: 1 }, pieces:");
    let accepted = "  - { rule: strips-short, size: lap, piece: A, stated: 1, because: scraps }\n";
    let two = strips(&coves("2 yd", "2 yd", accepted));
    assert_eq!(rules_of(&two).iter().filter(|rule| **rule == "strips-short").count(), 2);
    assert!(one(&two, "accepted-unused").help.ends_with("\nfabric: ink\nfabric: sand"));
    let own = two.replacen("piece: A, size", "piece: B, size", 1);
    assert_eq!(rules_of(&own).iter().filter(|rule| **rule == "strips-short").count(), 1);
    assert_eq!(silenced(&outcome(&own)), [("strips-short", Some("lap"))]);
}

#[rstest]
#[case::unknown_word("quilt: large\n", "unknown-word")]
#[case::unreadable("", "unreadable-quantity")]
fn what_cannot_be_read_cannot_be_accepted(#[case] more: &str, #[case] rule: &str) {
    let text = coves(if more.is_empty() { "3/8 yrd" } else { "1/2 yd" }, "1/2 yd", "");
    let text = format!("{more}{text}  - {{ rule: {rule}, because: we know }}\n");
    assert_eq!(rules_of(&text).iter().filter(|found| **found == rule).count(), 1);
    assert_says(&one(&text, "accepted-unused"), &[&format!("What \"{rule}\" finds cannot be accepted")]);
}

/// What to write beside the rule, as the finding about an acceptance says it.
fn to_write(unused: &Finding) -> Vec<String> {
    let (_, words) = unused.help.split_once("beside the rule:").expect("what to write");
    words.trim().lines().map(str::to_string).collect()
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    (one.rule, &one.size, &one.subject, &one.message) == (other.rule, &other.size, &other.subject, &other.message)
}

/// Each finding is accepted by what its acceptance says to write, and no other is.
#[test]
fn every_finding_of_the_examples_is_accepted_by_itself_as_it_says() {
    let mut accepted = 0;
    for (name, text) in manuscripts().iter().filter(|(_, text)| !text.contains("accepted:")) {
        for finding in &outcome(text).findings {
            if HOW_IT_IS_WRITTEN.contains(&finding.rule) {
                continue;
            }
            let size = finding.size.as_ref().map(|size| format!("size: {size}, ")).unwrap_or_default();
            let with = |words: &str| {
                let words = if words.is_empty() { String::new() } else { format!("{words}, ") };
                format!("{text}\naccepted: [ {{ rule: {}, {size}{words}because: we know }} ]\n", finding.rule)
            };
            let bare = with("");
            let says = of_rule(&bare, "accepted-unused");
            let ways = says.first().map_or_else(|| vec![String::new()], to_write);
            let accepts =
                |words: &&String| outcome(&with(words)).accepted.iter().any(|one| is_same(&one.finding, finding));
            let ways: Vec<&String> = ways.iter().filter(accepts).collect();
            assert_eq!(ways.len(), 1, "{name}: {}: {says:#?}", finding.message);
            let whole = outcome(&with(ways[0]));
            assert_eq!(whole.accepted.len(), 1, "{name}: {}", finding.message);
            let has_number = finding.stated.is_some();
            assert_eq!(ways[0].contains("stated: "), has_number, "{name}: {}: {ways:?}", finding.message);
            accepted += 1;
        }
    }
    assert!(accepted > 60, "{accepted}");
}

/// A border piece that is too narrow, and too short as well: two numbers of one piece, each accepted by itself.
#[test]
fn of_two_sides_of_a_piece_one_may_be_accepted() {
    let text = |accepted: &str| {
        format!(
            "pattern: Cove\nmeasure: inch\nsizes: {{ lap: {{ finished: 20 x 20 }} }}\n\
             units: {{ plain: {{ make: patch, finished: 6, cut: {{ patch: A }} }} }}\n\
             blocks: {{ star: {{ finished: 12, rows: [ [ plain, plain ], [ plain, plain ] ] }} }}\n\
             layout: {{ lap: {{ across: 1, down: 1, blocks: star, borders: [ {{ width: 4, pieced: no, piece: B }} ] }} }}\n\
             fabrics:\n  ink:\n    requires: {{ lap: 1 yd }}\n    cut:\n      - {{ piece: A, size: 6 1/2 x 6 1/2, pieces: \
             {{ lap: 4 }} }}\n      - {{ piece: B, size: 4 x 18 1/3, pieces: {{ lap: 4 }} }}\n{accepted}"
        )
    };
    assert_eq!(of_rule(&text(""), "border-short").len(), 2);
    let words = "rule: border-short, size: lap, piece: B, border: 1, because: we know";
    for (stated, left) in [("4", "too short"), ("18 1/3", "too narrow")] {
        let text = text(&format!("accepted: [ {{ {words}, stated: {stated} }} ]\n"));
        assert!(one(&text, "border-short").message.contains(left), "{stated}");
    }
    // Their sum is not one number.
    let both = text(&format!("accepted: [ {{ {words}, stated: 4 x 18 1/3 }} ]\n"));
    assert_eq!(of_rule(&both, "border-short").len(), 2);
}

/// Each place of a manuscript from which a rule reads, and the same place as it cannot be read.
#[rstest]
#[case::width_of_fabric("usable_width: 40", "usable_width: 4O")]
#[case::width_of_fabric_misspelt("usable_width: 40", "usable_widht: 40")]
#[case::piecing_seam("usable_width: 40", "usable_width: 40, seam: 1/4 inn")]
#[case::step_of_the_shop("usable_width: 40", "usable_width: 40, sold_by: 1/8 yrd")]
#[case::finished_size("finished: 60 x 76", "finished: 60 by by 76")]
#[case::measure("measure: inch", "measure: ell")]
#[case::a_piece("size: 3 1/2 x 3 1/2", "size: 3 1/2 y 3 1/2")]
#[case::a_count("lap: 48", "lap: 4B")]
#[case::an_amount("lap: 1/2 yd", "lap: 5/8 yrd")]
#[case::a_section("fabrics:", "fabrisc:")]
fn nothing_is_called_unused_while_something_is_unread(#[case] read: &str, #[case] unread: &str) {
    let accepted = "  - { rule: fabric-generous, size: lap, fabric: ink, stated: 1 yd, because: scraps }\n";
    let text = coves("1/2 yd", "1/2 yd", accepted);
    assert_eq!(rules_of(&text), ["accepted-unused"]);
    let torn = text.replacen(read, unread, 1);
    assert_ne!(torn, text);
    assert!(!rules_of(&torn).contains(&"accepted-unused"), "{:?}", rules_of(&torn));
}

#[test]
fn a_house_may_set_a_level_or_do_without_a_rule() {
    let text = lanterns("");
    let mut settings = Settings::default();
    assert!(settings.set_level("spare-strip", None));
    assert!(outcome_by(&text, &settings).findings.is_empty());
    assert!(settings.set_level("spare-strip", Some(Level::Note)));
    let levels: Vec<Level> = outcome_by(&text, &settings).findings.iter().map(|finding| finding.level).collect();
    assert_eq!(levels, [Level::Note, Level::Note]);
}

#[test]
fn a_house_cannot_make_the_softer_half_of_a_rule_graver() {
    // 85 cm and 3/4 yd are both enough, which only asks, whatever the level of the rule.
    let text = lanterns("").replace("lap: { strips: 8 }", "lap: { strips: 9, fabric: 3/4 yd (85 cm) }");
    let mut settings = Settings::default();
    assert!(settings.set_level("pair-disagrees", Some(Level::Error)));
    assert_eq!(one_by(&text, "pair-disagrees", &settings).level, Level::Query);
    assert!(settings.set_level("pair-disagrees", Some(Level::Note)));
    assert_eq!(one_by(&text, "pair-disagrees", &settings).level, Level::Note);
}

/// A message has the manuscript's own measure first, and what is copied from it is the same pair.
#[test]
fn a_pair_is_accepted_whichever_half_comes_first() {
    for stated in ["5/8 yd (50 cm)", "50 cm (5/8 yd)"] {
        for accepted in ["5/8 yd (50 cm)", "50 cm (5/8 yd)"] {
            let line =
                format!("  - {{ rule: fabric-short, size: lap, fabric: ink, stated: {accepted}, because: scraps }}\n");
            let text = coves(stated, "1 yd", "").replace("pieces: { lap: 48 }", "pieces: { lap: 96 }");
            assert!(rules_of(&text).contains(&"fabric-short"), "{:?}", rules_of(&text));
            let accepted = coves(stated, "1 yd", &line).replace("pieces: { lap: 48 }", "pieces: { lap: 96 }");
            assert!(!rules_of(&accepted).contains(&"fabric-short"), "{:?}", rules_of(&accepted));
        }
    }
}
