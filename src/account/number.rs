//! A stated number as little as a format needs that tells each of them: the text that it stands in is not kept for it.

use std::collections::BTreeSet;

use super::{Line, Standing};
use crate::manuscript::{Place, Source, Span};

/// A stated number, with its place told already.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Number {
    /// The size it is for; `None` for the pattern as a whole.
    pub size: Option<String>,
    /// What it is, in the manuscript's words.
    pub number: String,
    /// How it stands.
    pub standing: Standing,
    /// Why nothing checks it, where nothing does.
    pub why: String,
    /// Where it is stated.
    pub at: Span,
    /// The line and column of that.
    pub place: Place,
}

/// The numbers of an account. What several of its lines tell of one number, such as the size of a piece and the cut of
/// each unit that takes it, is one here; a line that nothing checks stays by itself.
pub(crate) fn numbers(lines: &[Line], source: &Source) -> Vec<Number> {
    let mut seen = BTreeSet::new();
    let mut is_first = |at, size| seen.insert((at, size));
    let told = lines.iter().filter(|line| line.standing == Standing::NotChecked || is_first(line.at, &line.size));
    told.map(|line| number(line, source)).collect()
}

fn number(line: &Line, source: &Source) -> Number {
    let why = if line.standing == Standing::NotChecked { line.working.clone() } else { String::new() };
    let (size, number) = (line.size.clone(), line.number.clone());
    Number { size, number, standing: line.standing, why, at: line.at, place: source.place(line.at.start) }
}
