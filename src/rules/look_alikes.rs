//! Names that look the same and are not.

use std::collections::BTreeMap;

use unicode_security::skeleton;

use super::Context;
use crate::finding::{Finding, Label};
use crate::manuscript::{Span, quoted};
use crate::sanitize::is_wild;

/// The second of two names of one kind that nobody can tell apart on paper.
pub(super) fn look_alikes(context: &Context<'_>) -> Vec<Finding> {
    let manuscript = context.manuscript;
    let pieces = manuscript.fabrics.iter().flat_map(|fabric| &fabric.cut).filter_map(|cut| cut.piece.stated());
    let mut findings = Vec::new();
    let sizes = manuscript.sizes.iter().map(|size| Name { name: &size.name, at: size.at });
    among("size", sizes, &mut findings);
    let fabrics = manuscript.fabrics.iter().map(|fabric| Name { name: &fabric.name, at: fabric.at });
    among("fabric", fabrics, &mut findings);
    among("piece", pieces.map(|piece| Name { name: &piece.value, at: piece.at }), &mut findings);
    among("unit", manuscript.units.iter().map(|unit| Name { name: &unit.name, at: unit.at }), &mut findings);
    among("block", manuscript.blocks.iter().map(|block| Name { name: &block.name, at: block.at }), &mut findings);
    findings
}

/// A name, and where it is given.
#[derive(Clone, Copy, Debug)]
struct Name<'m> {
    name: &'m str,
    at: Span,
}

fn among<'m>(kind: &str, names: impl Iterator<Item = Name<'m>> + Clone, findings: &mut Vec<Finding>) {
    if names.clone().all(|name| is_plain(name.name)) {
        return;
    }
    let mut by_look: BTreeMap<String, Vec<Name<'_>>> = BTreeMap::new();
    for name in names {
        let alike = by_look.entry(skeleton(&seen(name.name)).collect()).or_default();
        if let Some(other) = alike.iter().find(|other| is_confused(name.name, other.name)) {
            findings.push(finding(kind, name, *other));
        }
        alike.push(name);
    }
}

/// Whether a name is what it looks like: letters, digits and signs of the plain alphabet, and no two spaces together.
/// Of two such names only letters and digits can look alike, which `is_confused` takes for different.
fn is_plain(name: &str) -> bool {
    let mut after_space = true;
    let is_plain = name.bytes().all(|byte| {
        let fits = byte.is_ascii_graphic() || byte == b' ' && !after_space;
        after_space = byte == b' ';
        fits
    });
    is_plain && !after_space
}

/// What is seen of a name on paper: no characters that have no width, and no more than one space between two words.
fn seen(name: &str) -> String {
    let visible: String = name.chars().filter(|c| !is_wild(*c)).collect();
    visible.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether two names of one look are taken for one another. A letter and a digit of the plain alphabet, such as O and
/// 0, look alike in some typefaces only, and people do name pieces so.
fn is_confused(name: &str, other: &str) -> bool {
    let (one, two) = (seen(name), seen(other));
    name != other && (one == two || !one.is_ascii() || !two.is_ascii())
}

fn finding(kind: &str, name: Name<'_>, other: Name<'_>) -> Finding {
    let shown = quoted(&seen(name.name));
    let message = format!(
        "The {kind} \"{shown}\" looks the same as another {kind}, and is written with other characters: a reader cannot tell them apart."
    );
    Finding::new(Label::new(name.at, format!("looks the same as another {kind}")), message)
        .see(Some(other.at), "the other one")
        .help("Give one of them another name; or, where one is meant, copy its name from here to there. Letters of other alphabets, accents and spaces can look the same.")
}
