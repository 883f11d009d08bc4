//! The drawings of a worksheet: their numbers against a second computation and against values worked by hand, the JSON
//! and the figures against each other, and files that mean harm.

#![allow(clippy::unwrap_used, clippy::indexing_slicing)] // All of this crate is a test: what cannot be is a failure.

use crate::support;

mod binding_layout;
mod by_hand;
mod design;
mod figures_as_xml;
mod hostile;
mod json_and_figures;
mod margins;
mod places;
mod sheets;

use std::path::Path;

use serde_json::Value;
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;
use support::examples;

/// The worksheet of a text, and its JSON.
fn worksheet(text: &str) -> (Worksheet, Value) {
    let source = Source::from_text("test.pattern.yaml", text);
    let worksheet = Worksheet::new(&source, &Settings::default());
    let json = serde_json::from_str(&worksheet_json(&source, &worksheet)).unwrap();
    (worksheet, json)
}

fn worksheet_of(path: &Path) -> (Worksheet, Value) {
    worksheet(&Source::open(path).unwrap().text)
}

/// The first size's edge in the JSON.
fn edge(json: &Value) -> &Value {
    &json["drawings"]["sizes"][0]["edge"]
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// A length that the JSON tells, in 64ths of an inch; it must be whole in these.
fn sixty_fourths(told: &Value) -> i64 {
    let text = told["inches"].as_str().unwrap_or_else(|| panic!("no length: {told}"));
    let (top, over) = text.split_once('/').unwrap_or((text, "1"));
    let (top, over): (i64, i64) = (top.parse().unwrap(), over.parse().unwrap());
    assert_eq!(top * 64 % over, 0, "{text}");
    top * 64 / over
}
