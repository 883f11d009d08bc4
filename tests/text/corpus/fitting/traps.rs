//! The sentences whose numbers are no requirements, as a text beside each of some manuscripts.

use super::keys::{Fitted, Kind};
use super::verdicts::{Judged, What};
use super::{Source, Text, signs};
use crate::text::corpus::{folder, traps};
use crate::text::readers::document::Part;

/// Quilts of one size and of several, in inches and in centimetres, of strips alone and of many units, a cushion, and a
/// curved edge.
const BESIDE: [&str; 8] = [
    "heron-steps",
    "sluice-gate",
    "tide-pools",
    "moor-checks",
    "osprey-landing",
    "q-almanac",
    "s-dapple-cushion",
    "shell-drive",
];

/// How the names of these texts begin: all are of one fold.
const NAME: &str = "traps beside ";

pub(super) fn is_of_traps(text: &Text) -> bool {
    text.name.starts_with(NAME)
}

/// A text of all of them for each manuscript.
pub(super) fn texts() -> Vec<Text> {
    let text = |manuscript: &str| Text {
        name: format!("{NAME}{manuscript}"),
        manuscript: folder().join(format!("manuscripts/{manuscript}.pattern.yaml")),
        parts: traps().into_iter().map(Part::Paragraph).collect(),
        numbers: Vec::new(),
    };
    BESIDE.into_iter().map(text).collect()
}

/// Their numbers by the weights of all texts, as the program has them: each with the sentence it stands in.
pub(super) fn judged(texts: &[Text], keys: &Fitted) -> Vec<(String, Judged)> {
    let mut found = Vec::new();
    for text in texts.iter().filter(|text| is_of_traps(text)) {
        for number in signs(&Source::open(&text.manuscript).unwrap(), &text.parts, None) {
            let Part::Paragraph(sentence) = &text.parts[number.passage] else { unreachable!() };
            let says = format!("{}: {sentence:?} at {:?}", text.name, number.at);
            let judged = Judged::new('-', What::Right(Kind::Trap), &[number], &keys.choices.signs, &keys.by_all);
            found.push((says, judged));
        }
    }
    found
}
