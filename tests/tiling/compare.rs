//! The program's own drawing, as it stands in the JSON, against the geometry of the tests.

#![allow(clippy::float_arithmetic)] // Places on a drawing, and this is not the program.

use serde_json::Value;
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;

use super::design::Design;
use super::geometry::{Corner, Shape, pieces};

fn drawings(text: &str) -> Value {
    let source = Source::from_text("drift-line.pattern.yaml", text);
    let worksheet = Worksheet::new(&source, &Settings::default());
    let json: Value = serde_json::from_str(&worksheet_json(&source, &worksheet)).unwrap();
    json["drawings"].clone()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// So many inches: `5/2`, `6√2` or `5/2+6√2`.
fn inches(text: &str) -> f64 {
    let fraction = |text: &str| {
        let (top, over) = text.split_once('/').unwrap_or((text, "1"));
        top.parse::<f64>().unwrap() / over.parse::<f64>().unwrap()
    };
    let part =
        |part: &str| part.strip_suffix("√2").map_or_else(|| fraction(part), |number| fraction(number) * 2.0_f64.sqrt());
    text.split('+').map(part).sum()
}

fn outline(part: &Value) -> Shape {
    let text = part["outline"].as_str().unwrap_or_else(|| panic!("no outline: {part}"));
    let place = |place: &str| {
        let (across, down) = place.split_once(',').unwrap();
        (inches(across), inches(down))
    };
    text.split(' ').map(place).collect()
}

/// What places may differ by, in inches.
const NEAR: f64 = 1e-6;

/// A shape by the sum of its corners, by which it is looked up, and its corners, each once.
fn key(shape: &Shape) -> ((f64, f64), Shape) {
    let near = |one: &Corner, other: &Corner| (one.0 - other.0).abs() < NEAR && (one.1 - other.1).abs() < NEAR;
    let mut corners: Shape = Vec::new();
    for corner in shape {
        if !corners.iter().any(|known| near(known, corner)) {
            corners.push(*corner);
        }
    }
    (corners.iter().fold((0.0, 0.0), |sum, corner| (sum.0 + corner.0, sum.1 + corner.1)), corners)
}

/// Each drawn shape is one of the tests' own, and each of these is drawn once.
fn same(drawn: impl Iterator<Item = Shape>, own: &[Shape], what: &str) {
    let mut left: Vec<_> = own.iter().map(key).collect();
    let drawn: Vec<_> = drawn.collect();
    for shape in &drawn {
        let (sum, corners) = key(shape);
        let near = |one: f64, other: f64| (one - other).abs() < NEAR * 8.0;
        let holds = |corners: &Shape, (x, y): &Corner| corners.iter().any(|(a, b)| near(*a, *x) && near(*b, *y));
        let found = left.iter().position(|(own, own_corners)| {
            near(own.0, sum.0)
                && near(own.1, sum.1)
                && own_corners.len() == corners.len()
                && own_corners.iter().all(|corner| holds(&corners, corner))
        });
        let found = found.unwrap_or_else(|| panic!("{what}: drawn, and not by the tests: {shape:?}\n{left:?}"));
        left.swap_remove(found);
    }
    assert!(left.is_empty(), "{what}: not drawn: {left:?}");
}

/// Units, blocks and the top.
pub(super) fn drawing(design: &Design, text: &str, index: u64) {
    let drawings = drawings(text);
    units(design, &drawings, text, index);
    for (block, own) in list(&drawings["design"]["blocks"]).iter().zip(&design.blocks) {
        let what = format!("design {index}, block {}\n{text}", block["block"]);
        same(list(&block["parts"]).iter().map(outline), &design.boxes(own), &what);
    }
    let top = &drawings["sizes"][0]["top"];
    assert_eq!((list(&top["empty"]).len(), &top["more"]), (0, &0.into()), "design {index}: {top}\n{text}");
    let what = format!("design {index}, top\n{text}");
    same(list(&top["parts"]).iter().map(outline), &design.top_parts(), &what);
}

/// The pieces of units alone, which are drawn as they are stated even where they are wrong.
pub(super) fn drawing_of_units(design: &Design, text: &str, index: u64) {
    units(design, &drawings(text), text, index);
}

fn units(design: &Design, drawings: &Value, text: &str, index: u64) {
    let drawn = list(&drawings["design"]["units"]);
    assert_eq!(drawn.len(), design.units.len());
    for (unit, own) in drawn.iter().zip(&design.units) {
        let what = format!("design {index}, unit {}\n{text}", unit["unit"]);
        same(list(&unit["pieces"]).iter().map(outline), &pieces(own), &what);
    }
}
