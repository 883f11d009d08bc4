//! The values of a manuscript by their places, which printed texts are matched to.

use std::collections::BTreeMap;

use super::stated::{BETWEEN, Stated};
use crate::manuscript::Span;

/// The word under which a manuscript names its printed texts.
const TEXTS: &str = "texts";

/// The values of a manuscript, and which of them stands where.
#[derive(Debug)]
pub(super) struct Places {
    /// The values by the words that lead to each.
    pub(super) values: BTreeMap<String, Stated>,
    /// The words by the place of the value.
    paths: BTreeMap<Span, String>,
}

impl Places {
    pub(super) fn new(values: BTreeMap<String, Stated>) -> Places {
        let paths = values.iter().map(|(path, stated)| (stated.at, path.clone())).collect();
        Places { values, paths }
    }

    /// The words that lead to the value at a place, or to the first of several there: tails are stated as one number or two.
    pub(super) fn path(&self, at: Span) -> Option<String> {
        let within = self.paths.range(Span::new(at.start, 0)..).next().filter(|(own, _)| own.end <= at.end);
        let around = || self.paths.range(..=at).next_back().filter(|(own, _)| own.end >= at.end);
        self.paths.get_key_value(&at).or(within).or_else(around).map(|(_, path)| path.clone())
    }

    /// The names of the printed texts.
    pub(super) fn texts(&self) -> Vec<String> {
        self.values.iter().filter(|(path, _)| is_text(path)).map(|(_, stated)| stated.text.clone()).collect()
    }
}

/// Whether words lead to the name of a printed text.
pub(super) fn is_text(path: &str) -> bool {
    path.strip_prefix(TEXTS).is_some_and(|rest| rest.starts_with(BETWEEN))
}

/// The words that lead to the name of a printed text.
pub(super) fn text_path(name: &str) -> String {
    format!("{TEXTS}{BETWEEN}{}", name.replace(BETWEEN, "/"))
}
