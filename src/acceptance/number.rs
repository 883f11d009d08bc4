//! The number that a finding is about, as an acceptance names it after `stated`.

use crate::finding::Finding;
use crate::quantity::{Length, Measure, read_amount, read_count, read_dimensions};

/// The number that a finding is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct AcceptedNumber {
    /// As it is written after `stated`.
    pub(super) text: String,
    quantity: Quantity,
    /// What a bare number means.
    pub(super) measure: Measure,
}

/// A number, so that it is the same however it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Quantity {
    /// How many.
    Count(u64),
    /// A length, an amount of fabric in one unit or in two, or two sides.
    Lengths(Vec<Length>),
    /// Something else, in words.
    Words(String),
}

impl AcceptedNumber {
    /// The number that a finding states: as the manuscript has it where that is the very number, and else as the
    /// finding says it. `None` for a finding without a number.
    pub(super) fn of(text: &str, measure: Measure, finding: &Finding) -> Option<AcceptedNumber> {
        let shown = finding.stated.as_deref()?;
        let written = evened(finding.at.at.text(text).trim_matches(['"', '\'']));
        if let Some((text, quantity)) = same_number(&written, shown, measure) {
            return Some(AcceptedNumber { text, quantity, measure });
        }
        let quantity = count_of(shown).map(Quantity::Count).or_else(|| lengths(shown, measure).map(Quantity::Lengths));
        let text = evened(shown);
        let quantity = quantity.unwrap_or_else(|| Quantity::Words(text.clone()));
        Some(AcceptedNumber { text, quantity, measure })
    }

    /// What a finding says is needed; `None` for one that says nothing of the kind.
    pub(super) fn needed(measure: Measure, finding: &Finding) -> Option<AcceptedNumber> {
        let mut text = evened(finding.needed.as_deref()?);
        let quantity = count_of(&text).map(Quantity::Count).or_else(|| lengths(&text, measure).map(Quantity::Lengths));
        // The inches beside yards say the same again.
        if let (Some(Quantity::Lengths(one)), Some(end)) = (&quantity, text.find(" ("))
            && one.len() == 1
        {
            text.truncate(end);
        }
        let quantity = quantity.unwrap_or_else(|| Quantity::Words(text.clone()));
        Some(AcceptedNumber { text, quantity, measure })
    }

    /// Whether an acceptance that says this was for this number.
    pub(super) fn is(&self, stated: &str) -> bool {
        match &self.quantity {
            Quantity::Count(count) => count_of(stated) == Some(*count),
            Quantity::Lengths(own) => lengths(stated, self.measure).is_some_and(|stated| stated == *own),
            Quantity::Words(words) => *words == evened(stated),
        }
    }
}

/// The number that is written at a finding's place, or one side of a size there, if it is the one that the finding
/// shows: shown numbers are rounded.
fn same_number(written: &str, shown: &str, measure: Measure) -> Option<(String, Quantity)> {
    if let Ok(count) = read_count(written)
        && count_of(shown) == Some(count.0)
    {
        return Some((written.to_string(), Quantity::Count(count.0)));
    }
    let (own, shown) = (lengths(written, measure)?, lengths(shown, measure)?);
    let about = |one: &Length, other: &Length| (*one - *other).abs() <= Length::inch_fraction(1, 8);
    let is_shown = |length: &Length| shown.iter().any(|shown| about(length, shown));
    if let (Ok((width, length)), [one]) = (read_dimensions(written, measure), &shown[..])
        && own.len() == 2
    {
        let side = [width, length].into_iter().find(|side| about(&side.length, one))?;
        return Some((side.rewrite(side.length), Quantity::Lengths(vec![side.length])));
    }
    let all = shown.iter().all(|shown| own.iter().any(|own| about(own, shown)));
    (all && own.iter().any(is_shown)).then(|| (written.to_string(), Quantity::Lengths(own)))
}

/// A whole number that stands before a word, or alone: `8 strips`, `8`.
fn count_of(text: &str) -> Option<u64> {
    let text = text.trim();
    let (digits, rest) = text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()));
    let is_unit = lengths(text, Measure::Inch).is_some() && !rest.trim().is_empty();
    let in_words = rest.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-'));
    (in_words && !is_unit).then(|| read_count(digits).ok()).flatten().map(|count| count.0)
}

/// A length, the two halves of an amount, or two sides: one where they are equal. Words after them say what they are:
/// `3 1/2 in square`, `3 1/2 in wide`.
fn lengths(text: &str, measure: Measure) -> Option<Vec<Length>> {
    let text = text.trim();
    let bare = [" square", " wide"].iter().find_map(|end| text.strip_suffix(end)).unwrap_or(text);
    let mut lengths: Vec<Length> = match read_amount(bare, measure) {
        // Which half comes first says nothing: a message has the manuscript's measure first.
        Ok(amount) => {
            let mut halves: Vec<Length> = amount.halves().map(|half| half.length).collect();
            halves.sort_unstable();
            halves
        }
        Err(_) => read_dimensions(bare, measure).map(|(width, length)| vec![width.length, length.length]).ok()?,
    };
    lengths.dedup();
    Some(lengths)
}

fn evened(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
