//! What the program calls right tiles its rectangle, without gap or overlap, and what it calls wrong does not: a thousand
//! random designs of units of every make, blocks within blocks, straight, on point and in rows or columns, with sashing and
//! borders of strips, units and blocks, and the same with one number changed. The geometry is the tests' own; the program's drawing is compared with it.

#![allow(clippy::indexing_slicing)] // All of this is a test: what cannot be is a failure.

mod compare;
mod design;
mod geometry;
mod mutate;
mod text;

use std::collections::BTreeSet;

use design::{Border, Design, Edge, Make, Sewn};
use geometry::tile;
use sparestrip::check::{Outcome, check};
use sparestrip::finding::{Level, SubjectKind};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use text::{block_name, unit_name};

use crate::support::rng::Rng;

const DESIGNS: u64 = 1_000;

fn rng(index: u64) -> Rng {
    Rng::new(8_501_u64.wrapping_mul(1_000_003).wrapping_add(index))
}

fn checked(text: &str) -> Outcome {
    check(&Source::from_text("drift-line.pattern.yaml", text), &Settings::default())
}

/// What the program calls wrong: units, blocks, and whether the top is among it.
#[derive(Debug, PartialEq, Eq)]
struct Wrong {
    units: BTreeSet<String>,
    blocks: BTreeSet<String>,
    top: bool,
}

fn called_wrong(outcome: &Outcome) -> Wrong {
    let by_rule = |rules: &'static [&'static str]| {
        // Strips that come out wider are told to be trimmed, and sizes on point that are rounded, at a lower level.
        let is_said = |rule: &str, level: Level| {
            level == Level::Error || ["unit-cut-generous", "finished-size-wrong"].contains(&rule)
        };
        outcome.findings.iter().filter(move |one| rules.contains(&one.rule) && is_said(one.rule, one.level))
    };
    let subject = |kind: SubjectKind| {
        // What follows from another finding is wrong all the same.
        by_rule(&["block-does-not-sum", "unit-cut-short", "seam-left-out", "unit-cut-generous"])
            .filter_map(move |finding| finding.subject.get(kind))
            .map(str::to_string)
            .collect()
    };
    Wrong {
        units: subject(SubjectKind::Unit),
        blocks: subject(SubjectKind::Block),
        top: by_rule(&["finished-size-wrong", "border-does-not-fit", "rows-do-not-fit", "sash-short"]).next().is_some(),
    }
}

fn is_wrong(design: &Design) -> Wrong {
    let units = (0..design.units.len()).filter(|unit| !design.unit_tiles(*unit)).map(unit_name).collect();
    let blocks = (0..design.blocks.len()).filter(|block| !design.block_tiles(*block)).map(block_name).collect();
    Wrong { units, blocks, top: !design.top_tiles() }
}

#[test]
fn a_thousand_right_designs_tile_their_rectangles_and_are_called_right() {
    let (mut makes, mut tops) = (BTreeSet::new(), BTreeSet::new());
    for index in 0..DESIGNS {
        let design = Design::random(&mut rng(index));
        let text = design.text();
        let outcome = checked(&text);
        let none = Wrong { units: BTreeSet::new(), blocks: BTreeSet::new(), top: false };
        assert_eq!(is_wrong(&design), none, "design {index} does not tile:\n{text}");
        let errors: Vec<_> = outcome.findings.iter().filter(|finding| finding.level == Level::Error).collect();
        assert!(errors.is_empty(), "design {index}: {errors:?}\n{text}");
        // Down to the last piece, of some of them.
        if index % 4 == 0 {
            let (pieces, wide, high) = design.top_pieces();
            assert!(tile(&pieces, wide, high), "design {index}: its pieces do not tile\n{text}");
        }
        makes.extend(design.units.iter().map(|unit| make_word(&unit.make)));
        tops.extend(kinds_of_top(&design));
        compare::drawing(&design, &text, index);
    }
    assert_eq!(makes.len(), 13, "every make, and every order of logs: {makes:?}");
    assert_eq!(tops.len(), 14, "every kind of top: {tops:?}");
}

/// What a top has.
fn kinds_of_top(design: &Design) -> impl Iterator<Item = &'static str> {
    let top = &design.top;
    let rows = |are_columns: bool| top.rows.as_ref().is_some_and(|rows| rows.are_columns == are_columns);
    let border = |has: fn(&Border) -> bool| top.borders.iter().any(has);
    let has_sashing = top.sashing > 0;
    let kinds = [
        ("rows", rows(false)),
        ("columns", rows(true)),
        ("rows several times over", top.rows.as_ref().is_some_and(|rows| rows.times > 1)),
        ("sashing between rows", top.rows.is_some() && has_sashing && !top.cornerstones),
        ("cornerstones between rows", top.rows.is_some() && top.cornerstones),
        ("sashing", top.rows.is_none() && !top.on_point && has_sashing),
        ("sashing on point, halves at the edge", top.on_point && has_sashing && top.edge == Edge::Halves),
        ("sashing on point, whole at the edge", top.edge == Edge::Whole),
        ("sashes of a unit", top.sash_of.is_some()),
        ("a border of units", border(|border| matches!(border.of, Some(Sewn::Unit(_))))),
        ("a border of blocks", border(|border| matches!(border.of, Some(Sewn::Block(_))))),
        ("units in the corners", border(|border| matches!(border.corner_of, Some(Sewn::Unit(_))))),
        ("blocks in the corners", border(|border| matches!(border.corner_of, Some(Sewn::Block(_))))),
        ("a border whose sides differ", border(|border| border.top != border.bottom)),
    ];
    kinds.into_iter().filter(|(_, has)| *has).map(|(kind, _)| kind)
}

fn make_word(make: &Make) -> String {
    match make {
        Make::LogCabin { order, .. } => format!("log cabin {order}"),
        other => format!("{other:?}").chars().take_while(|c| c.is_alphabetic()).collect(),
    }
}

#[test]
fn a_design_with_one_number_changed_is_called_wrong_where_it_does_not_tile() {
    let (mut wrong, mut right) = ([0; 3], 0);
    for index in 0..DESIGNS {
        let mut rng = rng(index);
        let design = Design::random(&mut rng);
        let Some((changed, what)) = mutate::one_number(&mut rng, &design) else { continue };
        let text = changed.text();
        let (called, truly) = (called_wrong(&checked(&text)), is_wrong(&changed));
        assert_eq!(called, truly, "design {index}, {what} (called, then truly)\n{text}");
        let is = [!truly.units.is_empty(), !truly.blocks.is_empty(), truly.top];
        is.iter().zip(&mut wrong).for_each(|(is, count)| *count += usize::from(*is));
        right += usize::from(is == [false; 3]);
        if is[0] || is[1] {
            compare::drawing_of_units(&changed, &text, index);
        }
    }
    assert!(wrong.iter().all(|count| *count > 50) && right > 5, "every kind came up: {wrong:?} and {right} right");
}
