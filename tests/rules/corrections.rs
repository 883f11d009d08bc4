//! Corrections: each clears its finding and brings no other, whatever else is wrong, and none is left out unsaid.

use std::collections::BTreeMap;

use sparestrip::check::check;
use sparestrip::finding::{Finding, Subject};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::{Settings, book};

use crate::desk::{outcome, told};

/// What a finding is about.
type About = (&'static str, Option<String>, Subject);

fn counted(findings: &[Finding]) -> BTreeMap<About, usize> {
    let mut counted = BTreeMap::new();
    for finding in findings {
        *counted.entry((finding.rule, finding.size.clone(), finding.subject.clone())).or_default() += 1;
    }
    counted
}

/// Makes each correction that is offered by itself. How many there were.
fn make_each(text: &str) -> usize {
    let before = outcome(text);
    let mut made = 0;
    for finding in &before.findings {
        let Some(correction) = &finding.correction else { continue };
        made += 1;
        let corrected = correction.apply(text);
        let after = outcome(&corrected);
        let (known, left) = (counted(&before.findings), counted(&after.findings));
        let own = (finding.rule, finding.size.clone(), finding.subject.clone());
        let fails =
            || format!("{:?} for {}\n{:#?}\nin:\n{text}", correction, finding.message, told(&corrected, &after));
        assert!(left.get(&own).copied().unwrap_or_default() < known[&own], "it stays: {}", fails());
        for (about, count) in &left {
            assert!(count <= known.get(about).unwrap_or(&0), "it brings {about:?}: {}", fails());
        }
    }
    made
}

#[test]
fn every_correction_of_the_rule_book_and_the_examples_brings_nothing() {
    let of_pages: usize = book().iter().map(|page| make_each(&page.fails.text())).sum();
    let texts =
        crate::support::examples().into_iter().map(|path| Source::open(&path).expect("an example").text.clone());
    let of_examples: usize = texts.map(|text| make_each(&text)).sum();
    assert!(of_pages > 25 && of_examples > 15, "{of_pages} and {of_examples}");
}

/// Digits that are changed at random, two in a manuscript, so that one is corrected while the other is still wrong.
#[test]
fn every_correction_of_a_faulty_manuscript_brings_nothing() {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut random = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).expect("31 bits") % below
    };
    let mut made = 0;
    for path in crate::support::examples() {
        let text = Source::open(&path).expect("an example").text.clone();
        let start = text.find("\nsizes:").expect("sizes");
        let digits: Vec<usize> =
            (start..text.len()).filter(|at| text.as_bytes()[*at].is_ascii_digit() && !in_remark(&text, *at)).collect();
        for _ in 0..12 {
            let mut faulty = text.clone();
            for _ in 0..2 {
                let at = digits[random(digits.len())];
                faulty.replace_range(at..=at, &(1 + random(9)).to_string());
            }
            made += make_each(&faulty);
        }
    }
    assert!(made > 100, "{made}");
}

fn in_remark(text: &str, at: usize) -> bool {
    let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
    text[line..at].contains('#')
}

/// A name that is near and wrong is no correction: the piece that was meant is not cut.
#[test]
fn a_near_name_that_is_the_wrong_one_is_not_offered() {
    let text = "pattern: Test Harbour\nmeasure: inch\nassumes: { usable_width: 40 }\nsizes:\n  lap: { finished: 12 x 24 }\n\
                fabrics:\n  ink:\n    requires: { lap: 1/4 yd }\n    cut:\n      \
                - { piece: big1, size: 6 1/2 x 6 1/2, pieces: { lap: 4 } }\n\
                units:\n  a: { make: patch, finished: 6, cut: { patch: big1 } }\n  \
                b: { make: patch, finished: 6, cut: { patch: big2 } }\n\
                blocks:\n  star: { finished: 12, rows: [[a, b], [b, a]] }\n\
                layout:\n  lap: { across: 1, down: 2, blocks: star }\n";
    let found = outcome(text).findings;
    let finding = found.iter().find(|finding| finding.rule == "piece-not-cut").expect("a piece that is not cut");
    assert!(finding.help.contains("Did you mean big1?"), "{}", finding.help);
    assert!(finding.correction.is_none(), "{:?}", finding.correction);
    let why = finding.withheld.as_deref().unwrap_or_default();
    assert!(why.starts_with("it would bring another finding: pieces-short"), "{why}");
}

/// With `measure` read, the piece is too large instead of too small: the correction of its size must not hide that.
#[test]
fn what_a_word_of_the_whole_pattern_brings_is_not_hidden_by_another_correction() {
    let text = "Measure: cm\nassumes:\n  seam: 7.5 mm\n\
                units:\n  wing: { make: half_square_triangle, finished: 10, cut: { first: A, second: B } }\n\
                fabrics:\n  foam:\n    color: white\n    requires: { wall: 40 cm (1/2 yd), throw: 80 cm (7/8 yd) }\n    \
                cut:\n      - { piece: A, size: 40.6 x 12.6 cm (5 x 5 in), pieces: { wall: 20, throw: 48 } }\n";
    let found = outcome(text).findings;
    assert!(found.iter().any(|finding| finding.rule == "unit-cut-short"), "{found:#?}");
    make_each(text);
}

/// With `finished` read, the fabric is more than is needed: that it is not with `strips` read too must not hide it.
#[test]
fn what_a_word_of_a_size_brings_is_not_hidden_by_another_correction() {
    const SIZES: &str = "sizes:\n twin: {finied: 1x104}\n";
    const SIZES_ON_ONE_LINE: &str = "sizes: { twin: {finied: 1x104} }\n";
    const BINDING: &str = "binding:\n  strip_width: 2 1/2\n  requires:\n\n    twin: {stips: 12,fabric: 32in}\n";
    for text in [[SIZES, BINDING], [BINDING, SIZES], [SIZES_ON_ONE_LINE, BINDING], [BINDING, SIZES_ON_ONE_LINE]] {
        let text = text.concat();
        let found = outcome(&text).findings;
        let withheld = found.iter().find(|finding| finding.message.contains("\"finied\"")).expect("a slip");
        let why = withheld.withheld.as_deref().unwrap_or_default();
        assert!(why.contains("binding-fabric-generous"), "{text}: {withheld:?}");
        make_each(&text);
    }
}

/// With its finished size right a size is the larger one, and should take more: that the amounts, or the other size, are
/// corrected too must not hide it. Found by random damage.
#[test]
fn what_a_finished_size_brings_is_not_hidden_by_another_correction() {
    for text in [
        include_str!("../fuzz/corpus/check/a-finished-size-hides-the-order"),
        include_str!("../fuzz/corpus/check/two-finished-sizes-hide-the-order"),
    ] {
        let found = outcome(text).findings;
        assert!(found.iter().any(|finding| finding.rule == "finished-size-wrong"), "{found:#?}");
        make_each(text);
    }
}

/// With its name right a piece is needed more often: that fewer blocks are made must not hide it. Found by random damage.
#[test]
fn what_the_name_of_a_piece_brings_is_not_hidden_by_another_correction() {
    let text = include_str!("../fuzz/corpus/check/a-count-hides-a-piece");
    let found = outcome(text).findings;
    let finding = found.iter().find(|finding| finding.rule == "piece-not-cut").expect("a piece that is not cut");
    let why = finding.withheld.as_deref().unwrap_or_default();
    assert!(why.starts_with("it would bring another finding: pieces-short"), "{finding:?}");
    make_each(text);
}

/// A batting for the same size makes the backing larger: that its size is read too must not hide how generous the backing
/// is. Found by random damage.
#[test]
fn what_the_name_of_a_size_brings_is_not_hidden_by_another_correction() {
    let text = include_str!("../fuzz/corpus/check/a-batting-hides-a-backing");
    assert!(outcome(text).findings.iter().any(|finding| finding.rule == "unknown-size"));
    make_each(text);
}

/// With a cornerstone more a shorter plan was found than without, so that a right amount was asked about as long as the
/// piece was missing. Found by random damage.
#[test]
fn an_amount_that_is_enough_for_a_piece_more_is_enough() {
    let text = include_str!("../fuzz/corpus/check/a-piece-more-takes-less");
    let found = outcome(text).findings;
    assert!(found.iter().any(|finding| finding.rule == "pieces-short"), "{found:#?}");
    // 27 strips of 2 1/2 in, 5 of 4 1/2 and 5 of 3 1/2 are 107 1/2 in, and 1/2 in is left of 3 yd.
    assert!(!found.iter().any(|finding| finding.rule == "no-squaring-room"), "{found:#?}");
    make_each(text);
}

/// So many sizes, each with one binding strip too few.
fn short_of_a_strip(sizes: usize) -> String {
    let each = |line: &dyn Fn(usize) -> String| (0..sizes).map(line).collect::<String>();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n{}binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  requires:\n{}",
        each(&|size| format!("  s{size}: {{ finished: 40 x 50 }}\n")),
        each(&|size| format!("    s{size}: {{ strips: 4, fabric: 1/2 yd }}\n")),
    )
}

/// So many sizes, each stated 1 in wider than its layout makes it: each of their corrections is tried first.
fn wider_than_laid_out(sizes: usize) -> String {
    let each = |line: &dyn Fn(usize) -> String| (0..sizes).map(line).collect::<String>();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n{}units: {{ u: {{ make: patch, finished: 12 }} }}\n\
         blocks: {{ b: {{ finished: 12, rows: [[u]] }} }}\nlayout:\n{}",
        each(&|size| format!("  s{size}: {{ finished: 13 x 12 }}\n")),
        each(&|size| format!("  s{size}: {{ across: 1, down: 1, blocks: b }}\n")),
    )
}

#[test]
fn as_many_corrections_are_offered_at_two_hundred_sizes_as_at_ten() {
    let texts = [1, 10, 200].map(|sizes| [(sizes, short_of_a_strip(sizes)), (sizes, wider_than_laid_out(sizes))]);
    for (sizes, text) in texts.into_iter().flatten() {
        let findings = outcome(&text).findings;
        let corrected = findings.iter().filter(|finding| finding.correction.is_some()).count();
        assert_eq!((findings.len(), corrected), (sizes, sizes), "{:#?}", told(&text, &outcome(&text)).first());
    }
}

/// A manuscript with too many corrections to try each says so at each finding that has none for it.
#[test]
fn a_correction_that_is_not_tried_is_said_to_be() {
    let filler = format!("# {}\n", "-".repeat(98)).repeat(40_000);
    // What is generous is compared with the other sizes, and so is tried one at a time.
    let text = short_of_a_strip(60).replace("1/2 yd", "5 yd") + &filler;
    let findings = check(&Source::from_text("x.pattern.yaml", &text), &Settings::default()).findings;
    let offered = findings.iter().filter(|finding| finding.correction.is_some()).count();
    let said = findings.iter().filter(|finding| finding.help.contains("No correction is offered")).count();
    assert!(offered > 0 && said > 0, "{offered} offered, {said} said");
    assert_eq!(offered + said, findings.len());
}

/// A comma before one or two decimals is a point; before three it may stand for thousands, and two of them for anything.
#[test]
fn a_decimal_comma_is_corrected_where_nothing_else_can_be_meant() {
    let text = |usable: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: cm\nassumes:\n  usable_width: {usable}\nsizes:\n  lap: {{ finished: 90 x 120 }}\n"
        )
    };
    for (typed, corrected) in [("106,5", Some("106.5")), ("106,25", Some("106.25")), ("1,065", None), ("1,0,6", None)] {
        let text_typed = text(typed);
        let findings = outcome(&text_typed).findings;
        let finding = findings.iter().find(|finding| finding.rule == "unreadable-quantity").expect("it cannot be read");
        let made = finding.correction.as_ref().map(|correction| correction.apply(&text_typed));
        assert_eq!(made, corrected.map(text), "{typed}");
    }
}
