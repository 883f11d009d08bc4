//! What follows from a finding names it as its cause, and nothing else does.

use sparestrip::check::{Corrections, Outcome, check_with};
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::{Source, Span, read};
use sparestrip::requirement::dependencies::Dependencies;
use sparestrip::rule_book::Settings;

use crate::desk::{assert_silent, outcome, outcome_by, told};

/// A right quilt of one block, 5 across and 7 down, with eight pieces that are counted by its layout.
fn quilt(measure: &str, usable: &str, block: &str, unit: &str, cut: &str, finished: &str, rest: &str) -> String {
    let names = ["a", "b", "c", "d", "e", "f", "g", "h"];
    let pieces: Vec<String> = names
        .iter()
        .map(|name| format!("      - {{ piece: {}, size: {cut}, pieces: {{ lap: 35 }} }}\n", name.to_uppercase()))
        .collect();
    let units: Vec<String> = names
        .iter()
        .map(|name| {
            format!("  {name}: {{ make: patch, finished: {unit}, cut: {{ patch: {} }} }}\n", name.to_uppercase())
        })
        .collect();
    format!(
        "pattern: Test Harbour\nmeasure: {measure}\nassumes: {{ usable_width: {usable} }}\n\
         sizes:\n  lap: {{ finished: {finished} }}\n{rest}\
         fabrics:\n  ink:\n    requires: {{ lap: 0 yd }}\n    cut:\n{}\
         units:\n{}blocks:\n  star: {{ finished: {block}, rows: [[a, b], [c, d], [e, f], [g, h]] }}\n\
         layout:\n  lap: {{ across: 5, down: 7, blocks: star }}\n",
        pieces.concat(),
        units.concat(),
    )
}

fn inch_quilt() -> String {
    let rest = "batting: { overhang: 4, requires: { lap: 68 x 92 } }\n";
    with_fabric(&quilt("inch", "40", "12", "6 x 3", "6 1/2 x 3 1/2", "60 x 84", rest))
}

fn cm_quilt() -> String {
    let rest = "batting: { overhang: 10, requires: { lap: 170 x 230 } }\n";
    let text = quilt("cm", "102", "30", "15 x 7.5", "16.5 x 9", "150 x 210", rest);
    with_fabric(&text.replace("0 yd", "0 m").replace("usable_width: 102", "usable_width: 102, seam: 0.75"))
}

/// The fabric of what is cut, as the finding that it is short says it.
fn with_fabric(text: &str) -> String {
    let short = outcome(text).findings.into_iter().find(|finding| finding.rule == "fabric-short");
    short.and_then(|short| short.correction).expect("the amount to print").apply(text)
}

fn causes(outcome: &Outcome) -> Vec<(&'static str, Option<&'static str>)> {
    outcome.findings.iter().map(|finding| (finding.rule, finding.cause.as_ref().map(|cause| cause.rule))).collect()
}

fn free(outcome: &Outcome) -> Vec<&'static str> {
    outcome.findings.iter().filter(|finding| finding.cause.is_none()).map(|finding| finding.rule).collect()
}

fn by_house(rule: &str, level: Option<Level>) -> Settings {
    let mut settings = Settings::default();
    settings.set_level(rule, level);
    settings
}

#[test]
fn one_wrong_number_of_a_layout_is_one_cause() {
    for text in [inch_quilt(), cm_quilt()] {
        assert_silent(&text);
        for (wrong, short) in [("down: 8", "pieces-short"), ("across: 6", "pieces-short")] {
            let right = if wrong.starts_with('d') { "down: 7" } else { "across: 5" };
            let wrong_text = text.replace(right, wrong);
            let outcome = outcome(&wrong_text);
            let expected: Vec<_> =
                [("finished-size-wrong", None)].into_iter().chain([(short, Some("finished-size-wrong")); 8]).collect();
            assert_eq!(causes(&outcome), expected, "{:#?}", told(&wrong_text, &outcome));
            // The one number that sets all nine right is the one that is wrong.
            let corrected = outcome.findings[0].correction.as_ref().expect("a correction").apply(&wrong_text);
            assert_eq!(corrected, text);
        }
        // Too few blocks leave pieces over, which is a note.
        let wrong_text = text.replace("down: 7", "down: 6");
        let outcome = outcome(&wrong_text);
        assert_eq!(free(&outcome), ["finished-size-wrong"], "{:#?}", told(&wrong_text, &outcome));
        assert_eq!(outcome.findings.len(), 9);
    }
}

#[test]
fn one_wrong_finished_size_is_one_cause() {
    let text = inch_quilt().replace("finished: 60 x 84", "finished: 64 x 84");
    let outcome = outcome(&text);
    let expected = [("finished-size-wrong", None), ("batting-short", Some("finished-size-wrong"))];
    assert_eq!(causes(&outcome), expected, "{:#?}", told(&text, &outcome));
}

/// The finished size of one of eight units, mistyped: its row is uneven, its piece is too small, and the row of the block is
/// told with the number that makes all of it right.
#[test]
fn one_wrong_finished_size_of_a_unit_is_one_cause() {
    let text = inch_quilt();
    for (wrong, also) in [("6 x 4", "unit-cut-short"), ("6 x 2", "unit-cut-generous"), ("7 x 3", "unit-cut-short")] {
        let wrong_text = text.replacen("finished: 6 x 3", &format!("finished: {wrong}"), 1);
        let outcome = outcome(&wrong_text);
        let mut found = causes(&outcome);
        found.sort_unstable();
        let expected = [("block-does-not-sum", None), (also, Some("block-does-not-sum"))];
        assert_eq!(found, expected, "{wrong}: {:#?}", told(&wrong_text, &outcome));
        let cause = outcome.findings.iter().find(|one| one.cause.is_none()).expect("a cause");
        assert_eq!(cause.correction.as_ref().expect("a correction").apply(&wrong_text), text);
        let says = cause.related.iter().any(|label| label.text == "6 x 3 here would make it right");
        assert!(says, "{:?}", cause.related);
    }
}

/// The finished size of a block, mistyped, in rows of blocks: the rows follow from it.
#[test]
fn one_wrong_finished_size_of_a_block_is_one_cause() {
    let text = |half: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 24 }}\nunits:\n  brick: {{ make: patch, \
             finished: 8 x 4 }}\n  half: {{ make: patch, finished: 4 }}\nblocks:\n  brick: {{ finished: 8 x 4, rows: [[brick]] \
             }}\n  half: {{ finished: {half}, unfinished: 4 1/2, rows: [[half]] }}\nlayout:\n  lap: {{ rows: [[6 brick], [half, \
             5 brick, half]], times: 3 }}\n"
        )
    };
    assert_silent(&text("4"));
    let outcome = outcome(&text("5"));
    let cause = Some("block-does-not-sum");
    assert_eq!(
        causes(&outcome),
        [("block-does-not-sum", None), ("unfinished-size-wrong", cause), ("rows-do-not-fit", cause)]
    );
}

/// A seam by which the blocks and the top would measure as stated is the cause of all of them.
#[test]
fn one_wrong_seam_is_one_cause() {
    let text = inch_quilt().replace("12, rows", "12, unfinished: 12 1/2, rows");
    let text = text.replace("blocks: star }", "blocks: star, measures: 60 1/2 x 84 1/2 }");
    let text = text.replace("usable_width: 40 }", "usable_width: 40, seam: 1/4 }");
    let text =
        text.replace("finished: 6 x 3, cut: { patch: A }", "finished: 6 x 3, trim: 6 1/2 x 3 1/2, cut: { patch: A }");
    let star = "  star: { finished: 12, unfinished: 12 1/2,";
    let second = "  moon: { finished: 12, unfinished: 12 1/2, rows: [[star]] }\n";
    let text = text.replace(star, &format!("{second}{star}")).replace("blocks: star,", "blocks: moon,");
    assert_silent(&text);
    let wrong = text.replace("seam: 1/4", "seam: 1/8");
    let outcome = outcome(&wrong);
    assert_eq!(free(&outcome), ["trim-size-wrong"], "{:#?}", told(&wrong, &outcome));
    let cause = outcome.findings.iter().find(|one| one.cause.is_none()).expect("a cause");
    assert_eq!(cause.correction.as_ref().expect("a correction").apply(&wrong), text);
}

/// Of two counts of blocks either may be the wrong one: which of them the pieces say, and where nothing says it, none.
#[test]
fn one_of_two_counts_is_the_cause_where_something_says_which() {
    let text = |blocks: &str, pieces: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 36 x 48 }}\nunits:\n  plain: {{ make: patch, \
             finished: 12{pieces} }}\n  other: {{ make: patch, finished: 12 }}\nblocks:\n  star: {{ finished: 12, rows: \
             [[plain]] }}\n  moon: {{ finished: 12, rows: [[other]] }}\nlayout:\n  lap: {{ across: 3, down: 4, blocks: {{ \
             {blocks} }} }}\nfabrics:\n  ink:\n    requires: {{ lap: 3/4 yd }}\n    cut: [{{ piece: A, size: 12 1/2 x 12 1/2, \
             pieces: {{ lap: 6 }} }}]\n"
        )
    };
    let with_pieces = ", cut: { patch: A }";
    assert_silent(&text("star: 6, moon: 6", with_pieces));
    let wrong = text("star: 7, moon: 6", with_pieces);
    let found = outcome(&wrong);
    assert_eq!(causes(&found), [("block-count-wrong", None), ("pieces-short", Some("block-count-wrong"))]);
    let corrected = found.findings[0].correction.as_ref().expect("a correction").apply(&wrong);
    assert_eq!(corrected, text("star: 6, moon: 6", with_pieces));
    let found = outcome(&text("star: 7, moon: 6", ""));
    let finding = found.findings.iter().find(|one| one.rule == "block-count-wrong").expect("the finding");
    assert_eq!(finding.correction, None);
    assert_eq!(finding.withheld.as_deref(), Some("several numbers could be meant, and each would clear it"));
}

/// A finding that stays when the cause is corrected stands by itself.
#[test]
fn an_error_of_its_own_has_no_cause() {
    let text = inch_quilt().replace("down: 7", "down: 8").replacen("lap: 35", "lap: 30", 1);
    let outcome = outcome(&text);
    let errors = || outcome.findings.iter().filter(|finding| finding.level == Level::Error);
    let free: Vec<&Finding> = errors().filter(|finding| finding.cause.is_none()).collect();
    assert_eq!(free.iter().map(|finding| finding.rule).collect::<Vec<_>>(), ["finished-size-wrong", "pieces-short"]);
    assert!(free[1].message.contains("30 pieces"), "{}", free[1].message);
    assert_eq!(errors().count(), 9);
}

/// An accepted finding stays as it is, so what follows from it stays too; and an error is not put under a note.
#[test]
fn nothing_is_folded_under_what_is_accepted_or_lowered() {
    let wrong = inch_quilt().replace("down: 7", "down: 8");
    for level in [Some(Level::Note), Some(Level::Query), None] {
        let outcome = outcome_by(&wrong, &by_house("finished-size-wrong", level));
        let errors = outcome.findings.iter().filter(|finding| finding.level == Level::Error);
        assert_eq!(errors.filter(|finding| finding.cause.is_none()).count(), 8, "{level:?}");
    }
    let finding = &outcome(&wrong).findings[0];
    let stated = finding.at.at.text(&wrong);
    for accepted in [
        "accepted:\n  - { rule: finished-size-wrong, size: lap, because: trimmed }\n".to_string(),
        format!("accepted:\n  - {{ rule: finished-size-wrong, size: lap, stated: {stated}, because: trimmed }}\n"),
    ] {
        let outcome = outcome(&format!("{wrong}{accepted}"));
        if outcome.accepted.len() == 1 {
            let short: Vec<&Finding> =
                outcome.findings.iter().filter(|finding| finding.rule == "pieces-short").collect();
            assert_eq!(short.len(), 8);
            assert!(short.iter().all(|finding| finding.cause.is_none()), "{:#?}", causes(&outcome));
        }
    }
}

/// The causes are the same whether corrections are asked for or not, and nothing else of a finding differs.
#[test]
fn findings_are_the_same_without_their_corrections() {
    for path in crate::support::examples() {
        let source = Source::open(&path).expect("an example");
        let settings = Settings::default();
        let tried = check_with(&source, &settings, Corrections::Tried);
        let left_out = check_with(&source, &settings, Corrections::LeftOut);
        assert!(left_out.findings.iter().all(|finding| finding.correction.is_none()));
        let without = |finding: &Finding| Finding { correction: None, withheld: None, ..finding.clone() };
        assert_eq!(left_out.findings, tried.findings.iter().map(without).collect::<Vec<_>>(), "{path:?}");
    }
}

/// The numbers of a text outside remarks.
fn numbers(text: &str) -> Vec<Span> {
    let mut numbers = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let words = &line[..line.find('#').unwrap_or(line.len())];
        let mut rest = 0;
        while let Some(at) = words[rest..].find(|c: char| c.is_ascii_digit()) {
            let end = words[rest + at..].find(|c: char| !c.is_ascii_digit()).map_or(words.len(), |end| rest + at + end);
            numbers.push(Span::new(start + rest + at, start + end));
            rest = end;
        }
        start += line.len();
    }
    numbers
}

/// Whatever changes the number that is needed at a place is among the entries that it is said to be computed from.
#[test]
fn every_entry_that_a_number_is_computed_from_is_known() {
    let settings = Settings::default();
    let lines = |text: &str| sparestrip::audit::account(&Source::from_text("x", text), &settings).lines;
    let mut compared = 0;
    for path in crate::support::examples() {
        let source = Source::open(&path).expect("an example");
        let text = source.text.clone();
        let manuscript = read(&source);
        let before = lines(&text);
        let dependencies = Dependencies::of(&manuscript, before.iter().map(|line| line.at));
        for at in numbers(&text) {
            let number: u64 = at.text(&text).parse().expect("a number");
            let mut changed = text.clone();
            changed.replace_range(at.start..at.end, &(number + 1).to_string());
            let after = lines(&changed);
            if after.len() != before.len() {
                continue;
            }
            for (index, (before, after)) in before.iter().zip(&after).enumerate() {
                let named = before.number == after.number;
                if !named || before.needed == after.needed || after.needed.is_empty() || before.at.overlaps(at) {
                    continue;
                }
                compared += 1;
                let known = dependencies.entries(index).iter().any(|entry| entry.overlaps(at));
                let what = (&before.size, &before.number, &before.needed, &after.needed);
                assert!(known, "{path:?}: {} at byte {} changes {what:?}", at.text(&text), at.start);
            }
        }
    }
    assert!(compared > 500, "{compared}");
}
