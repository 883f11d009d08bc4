//! What a stated value says, however it is written.

use super::stated::{BETWEEN, shape};
use crate::manuscript::section::Shape;
use crate::quantity::{Measure, Written, read_amount, read_dimensions};

/// The measure that a manuscript is in, by its word.
pub(super) fn measure(word: Option<&str>) -> Measure {
    if word == Some("cm") { Measure::Cm } else { Measure::Inch }
}

/// The same for all ways to write one quantity in one unit, such as 2.5 and 2 1/2 in, or `36x48` and `36 x 48`; other
/// text as it is. `key` is the words that lead to the value.
pub(super) fn meaning(key: &str, text: &str, measure: Measure) -> String {
    if is_name(key) { text.to_string() } else { quantity(text, measure) }
}

/// The same as it was taken when some names passed for quantities: records of that time have it in their fingerprints.
pub(super) fn meaning_before(key: &str, text: &str, measure: Measure) -> String {
    if was_name(key) { text.to_string() } else { quantity(text, measure) }
}

fn quantity(text: &str, measure: Measure) -> String {
    if let Ok(amount) = read_amount(text, measure) {
        return amount.halves().map(exactly).collect::<Vec<_>>().join(" and ");
    }
    match read_dimensions(text, measure) {
        Ok((width, length)) => format!("{} by {}", exactly(&width), exactly(&length)),
        Err(_) => text.to_string(),
    }
}

/// Whether what stands under these words names something, as a writer may name a size or a piece `1/2`.
fn is_name(key: &str) -> bool {
    let path: Vec<&str> = key.split(BETWEEN).collect();
    was_name(key) || shape(&path).is_some_and(takes_names)
}

/// Whether a name may stand there.
fn takes_names(shape: Shape) -> bool {
    match shape {
        Shape::Text | Shape::Name(_) => true,
        Shape::Either(shapes) => shapes.iter().any(|shape| takes_names(*shape)),
        _ => false,
    }
}

fn was_name(key: &str) -> bool {
    const NAMES: [&str; 11] = [
        "pattern",
        "edition",
        "role",
        "because",
        "rule",
        "from",
        "piece",
        "piece_across",
        "sash",
        "long_sash",
        "cornerstone",
    ];
    let mut words = key.split(BETWEEN);
    let in_design = match (words.next(), words.nth(1)) {
        (Some("units"), Some(word)) => word == "cut",
        (Some("blocks"), Some(word)) => word == "rows",
        _ => false,
    };
    in_design || key.rsplit(BETWEEN).next().is_some_and(|last| NAMES.contains(&last))
}

/// A length as a reduced fraction of an inch, and the unit it is written in.
fn exactly(written: &Written) -> String {
    let (top, over) = written.length.in_inches();
    format!("{top}/{over} in, in {}", written.unit.mark())
}
