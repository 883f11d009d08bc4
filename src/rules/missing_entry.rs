//! A table lacks an entry that it must have.

use super::{Context, Rule, mistakes};
use crate::finding::{Finding, Label};
use crate::manuscript::What;

pub(super) const RULE: Rule =
    Rule { name: "missing-entry", page: include_str!("../../rules/missing-entry.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        What::MissingEntry { word, place } => Some(
            Finding::new(
                Label::new(mistake.at, format!("{word} is missing here")),
                format!("\"{word}\" is missing from {place}."),
            )
            .help(format!("Add, for example: {}", example(word))),
        ),
        _ => None,
    });
}

fn example(word: &str) -> &'static str {
    match word {
        "pattern" => "pattern: Harbour Lights",
        "measure" => "measure: inch   (or cm: it says what a number without a unit means)",
        "sizes" => "sizes: { crib: { finished: 36 x 48 } }",
        "finished" => "finished: 36 x 48",
        "strip_width" => "strip_width: 2 1/2",
        "requires" => "requires: { crib: { strips: 6, fabric: 1/2 yd } }",
        "strips" => "strips: 6   (or fabric: 1/2 yd, or both)",
        "strip_length" => "strip_length: 65   (strips cut along the fabric can have any length, so it must be stated)",
        "fabric" => "fabric: 2 1/2 yd   (or panels: 2, or both)",
        "for" => "for: queen bed   (a drop is measured from the top of a mattress)",
        "start" => "start: 10",
        "end" => "end: 8",
        "sides" => "sides: 6",
        "side" => "side: 20   (how long each of the equal sides is)",
        "scallops_across" => "scallops_across: 5   (how many along the width)",
        "scallops_down" => "scallops_down: 6   (how many along the length)",
        "depth" => "depth: 2   (how far a scallop rises)",
        "make" => "make: half_square_triangle",
        "rows" => "rows: [[corner, geese, corner], [geese turned, centre, geese turned]]",
        "row" => "- [corner, geese, corner]",
        "strip" => "dark: A   (a name for the strip, and the piece it is cut from)",
        "patch" => "patch: A   (the piece it is cut from, or a cut size such as 3 1/2)",
        "first" => "first: A   (the piece it is cut from, or a cut size such as 3 7/8)",
        "second" => "second: B   (the piece it is cut from, or a cut size such as 3 7/8)",
        "goose" => "goose: A   (the piece it is cut from, or a cut size such as 5 1/4)",
        "sky" => "sky: B   (the piece it is cut from, or a cut size such as 2 7/8)",
        "centre" => "centre: A   (the piece it is cut from, or a cut size such as 4 1/2)",
        "corner" => "corner: B   (the piece it is cut from, or a cut size such as 2 1/2)",
        "square" => "square: A   (the piece it is cut from, or a cut size such as 18 1/4)",
        "rule" => "rule: spare-strip",
        "because" => "because: the kit packs an extra strip",
        "binding" => "binding: { strip_width: 2 1/2, requires: { crib: { strips: 6 } } }",
        _ => "the entry, a colon and its value",
    }
}
