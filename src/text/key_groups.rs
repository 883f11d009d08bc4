//! What many keys have in common, so that it is asked once: their values, their lines, what they are of.

use std::collections::HashMap;
use std::hash::Hash;

use super::keys::{Key, ValueKind, What};

/// The keys of a manuscript by what they have in common.
#[derive(Clone, Debug, Default)]
pub(crate) struct KeyGroups {
    /// By what they say, and how far that may be off.
    pub values: Groups,
    /// By what they say.
    pub said: Groups,
    /// By what they are of.
    pub things: Groups,
    /// The same number for different sizes.
    pub lines: Groups,
    /// The same number for different sizes, for which the same is done.
    pub manners: Groups,
    /// By what they are and what is counted and done.
    pub words: Groups,
    /// By what they are and how they are printed.
    pub forms: Groups,
}

impl KeyGroups {
    pub(crate) fn new(keys: &[Key]) -> KeyGroups {
        let said = Groups::new(keys.iter().map(|key| &key.value));
        let things = Groups::new(keys.iter().map(|key| key.of.as_slice()));
        let with = |groups: &Groups| keys.iter().zip(groups.of.clone());
        let lines = Groups::new(with(&things).map(|(key, thing)| (thing, key.what, key.nouns)));
        KeyGroups {
            values: Groups::new(with(&said).map(|(key, said)| (said, key.slack))),
            said,
            things,
            manners: Groups::new(with(&lines).map(|(key, line)| (line, key.acts))),
            lines,
            words: Groups::new(keys.iter().map(|key| (key.what, key.nouns, key.acts))),
            forms: Groups::new(keys.iter().map(Key::form)),
        }
    }
}

/// What a number is and how it is printed, by which it is told whether an element can be one.
pub(crate) type KeyForm = (What, ValueKind);

/// Keys, or numbers of a text, in groups that are numbered by their first ones.
#[derive(Clone, Debug, Default)]
pub(crate) struct Groups {
    /// The group of each.
    pub of: Vec<usize>,
    /// The first of each group.
    pub first: Vec<usize>,
}

impl Groups {
    /// By what each has in common with others.
    pub(crate) fn new<T: Eq + Hash>(each: impl Iterator<Item = T>) -> Groups {
        let mut groups = Groups::default();
        let mut known: HashMap<T, usize> = HashMap::new();
        for (index, by) in each.enumerate() {
            let group = *known.entry(by).or_insert_with(|| {
                groups.first.push(index);
                groups.first.len() - 1
            });
            groups.of.push(group);
        }
        groups
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.first.len()
    }
}
