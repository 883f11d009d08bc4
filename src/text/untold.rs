//! What a manuscript states and none of its texts says.

use std::collections::{BTreeMap, BTreeSet};

use super::check::NamedText;
use super::keys::{Key, Keys, What};
use super::lexicon::{Cue, Section};
use super::reading::State;
use crate::manuscript::Span;

/// Something that is stated, and that no text says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Untold {
    /// What: `pieces of A, foam`.
    pub what: String,
    /// For which size, where it is for one.
    pub size: Option<String>,
    /// What it is of, in a finding's words.
    pub of: Vec<Cue>,
    /// Where it is stated.
    pub at: Span,
}

/// What no text says: sizes of which no number is told, things of which none is, and numbers of things that are told
/// for other sizes.
pub(crate) fn untold(texts: &[NamedText<'_>]) -> Vec<Untold> {
    let read: Vec<_> = texts.iter().filter_map(|text| text.read.as_ref().ok()).collect();
    let Some((_, first)) = read.first() else { return Vec::new() };
    let keys = &first.keys;
    let mut told = vec![false; keys.list.len()];
    for number in read.iter().flat_map(|(_, reading)| &reading.numbers) {
        if matches!(number.state, State::Right | State::Differs | State::OtherHalf | State::ByItself) {
            number.keys.iter().for_each(|key| told[*key] = true);
        }
    }
    // What follows from a number tells it: the sum of two cuts, triangles instead of squares.
    let places: BTreeSet<Span> =
        keys.list.iter().zip(&told).filter(|(_, told)| **told).map(|(key, _)| key.at).collect();
    // A text of which nothing was matched is of another pattern, or says nothing in numbers.
    if places.len() < 3 {
        return Vec::new();
    }
    let is_told = |key: &Key| places.contains(&key.at);
    let wanted: Vec<&Key> = keys.list.iter().filter(|key| is_wanted(key)).collect();
    let silent: BTreeSet<usize> = (0..keys.manuscript.sizes.len())
        .filter(|size| {
            wanted.iter().any(|key| key.size == Some(*size))
                && !wanted.iter().any(|key| key.size == Some(*size) && is_told(key))
        })
        .collect();
    let mut untold: Vec<Untold> = silent.iter().map(|size| of_size(keys, *size)).collect();
    let mut things: BTreeMap<(&[Cue], What), Vec<&Key>> = BTreeMap::new();
    for key in wanted.iter().filter(|key| key.size.is_none_or(|size| !silent.contains(&size))) {
        things.entry((key.of.as_slice(), key.what)).or_default().push(key);
    }
    let of_thing = |of: &[Cue]| wanted.iter().filter(|key| key.of == of).any(|key| is_told(key));
    let mut whole: BTreeSet<&[Cue]> = BTreeSet::new();
    for ((of, what), keys_of) in &things {
        if !of_thing(of) {
            if whole.insert(of) {
                untold.push(Untold { what: keys.thing(keys_of[0]), size: None, of: of.to_vec(), at: keys_of[0].at });
            }
        } else if keys_of.iter().any(|key| is_told(key)) {
            let lacking = keys_of.iter().filter(|key| !is_told(key));
            untold.extend(lacking.map(|key| Untold {
                what: keys.name(key),
                size: keys.size(key).map(str::to_string),
                of: of.to_vec(),
                at: key.at,
            }));
        } else if matches!(what, What::Amount | What::Bought) {
            untold.push(Untold { what: keys.name(keys_of[0]), size: None, of: of.to_vec(), at: keys_of[0].at });
        }
    }
    untold.sort_by_key(|untold| untold.at);
    untold
}

fn of_size(keys: &Keys<'_>, size: usize) -> Untold {
    let stated = &keys.manuscript.sizes[size];
    Untold { what: format!("size {}", stated.name), size: Some(stated.name.clone()), of: Vec::new(), at: stated.at }
}

/// Whether a reader needs a number.
fn is_wanted(key: &Key) -> bool {
    let is_needed = match key.what {
        What::Amount | What::Bought | What::Strips | What::Pieces | What::Panels => true,
        What::Finished => key.is_of(Cue::Section(Section::Quilt)),
        What::Layer => key.is_of(Cue::Section(Section::Batting)),
        _ => false,
    };
    key.is_stated() && is_needed
}
