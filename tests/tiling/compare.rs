//! The program's own drawing, as it stands in the JSON, against the geometry of the tests.

#![allow(clippy::float_arithmetic, clippy::cast_possible_truncation)] // Places on a drawing, and this is not the program.

use serde_json::Value;
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;

use super::design::Design;
use super::geometry::{Shape, pieces};

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

/// A shape by its corners in thousandths of an inch, from the least on, so that shapes can be compared.
fn key(shape: &Shape) -> Vec<(i64, i64)> {
    let mut corners: Vec<(i64, i64)> =
        shape.iter().map(|(x, y)| ((x * 500.0).round() as i64, (y * 500.0).round() as i64)).collect();
    corners.sort_unstable();
    corners.dedup();
    corners
}

fn same(drawn: impl Iterator<Item = Shape>, own: &[Shape], what: &str) {
    let sorted = |mut keys: Vec<Vec<(i64, i64)>>| {
        keys.sort();
        keys
    };
    let drawn = sorted(drawn.map(|shape| key(&shape)).collect());
    let own = sorted(own.iter().map(key).collect());
    // A rounding may differ by the last place.
    let near = |one: &(i64, i64), other: &(i64, i64)| (one.0 - other.0).abs() <= 1 && (one.1 - other.1).abs() <= 1;
    let alike = drawn.len() == own.len()
        && drawn
            .iter()
            .zip(&own)
            .all(|(one, other)| one.len() == other.len() && one.iter().zip(other).all(|(one, other)| near(one, other)));
    assert!(alike, "{what} (drawn, then by the tests):\n{drawn:?}\n{own:?}");
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
