//! What a stated value says, however it is written.

use crate::quantity::{Measure, Written, read_amount, read_dimensions};

/// Words of the manuscript whose values are names and no quantities, whatever they look like.
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

/// The measure that a manuscript is in, by its word.
pub(super) fn measure(word: Option<&str>) -> Measure {
    if word == Some("cm") { Measure::Cm } else { Measure::Inch }
}

/// The same for all ways to write one quantity in one unit, such as 2.5 and 2 1/2 in, or `36x48` and `36 x 48`; other
/// text as it is. `key` is the words that lead to the value.
pub(super) fn meaning(key: &str, text: &str, measure: Measure) -> String {
    if is_name(key) {
        return text.to_string();
    }
    if let Ok(amount) = read_amount(text, measure) {
        return amount.halves().map(exactly).collect::<Vec<_>>().join(" and ");
    }
    match read_dimensions(text, measure) {
        Ok((width, length)) => format!("{} by {}", exactly(&width), exactly(&length)),
        Err(_) => text.to_string(),
    }
}

/// Whether what stands under these words names something, as a writer may name a fabric or a piece `1/2`.
fn is_name(key: &str) -> bool {
    let mut words = key.split(" / ");
    let in_design = match (words.next(), words.nth(1)) {
        (Some("units"), Some(word)) => word == "cut",
        (Some("blocks"), Some(word)) => word == "rows",
        _ => false,
    };
    in_design || key.rsplit(" / ").next().is_some_and(|last| NAMES.contains(&last))
}

/// A length as a reduced fraction of an inch, and the unit it is written in.
fn exactly(written: &Written) -> String {
    let (top, over) = written.length.in_inches();
    format!("{top}/{over} in, in {}", written.unit.mark())
}
