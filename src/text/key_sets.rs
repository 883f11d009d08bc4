//! Sets of the numbers of a manuscript, as bits: what is asked of all of them is asked of many at once.

use std::collections::HashMap;

use super::key_groups::KeyGroups;
use super::keys::{Key, What};
use super::lexicon::Cue;

/// Some keys.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct KeySet(Vec<u64>);

impl KeySet {
    /// None of so many keys.
    fn none(keys: usize) -> KeySet {
        KeySet(vec![0; keys.div_ceil(64)])
    }

    /// Those of so many that are something.
    pub(crate) fn new(keys: usize, is: impl Fn(usize) -> bool) -> KeySet {
        let mut set = KeySet::none(keys);
        (0..keys).filter(|key| is(*key)).for_each(|key| set.add(key));
        set
    }

    fn add(&mut self, key: usize) {
        self.0[key / 64] |= 1 << (key % 64);
    }

    fn join(&mut self, other: &KeySet) {
        self.0.iter_mut().zip(&other.0).for_each(|(own, other)| *own |= other);
    }

    /// Those that are in both.
    pub(crate) fn and(&self, other: &KeySet) -> KeySet {
        KeySet(self.0.iter().zip(&other.0).map(|(own, other)| own & other).collect())
    }

    /// Those that are in it and not in another.
    pub(crate) fn without(&self, other: &KeySet) -> KeySet {
        KeySet(self.0.iter().zip(&other.0).map(|(own, other)| own & !other).collect())
    }

    /// Keeps those that are in another, where there are any; whether there are.
    pub(crate) fn keep(&mut self, other: &KeySet) -> bool {
        let some = self.0.iter().zip(&other.0).any(|(own, other)| own & other != 0);
        if some {
            self.0.iter_mut().zip(&other.0).for_each(|(own, other)| *own &= other);
        }
        some
    }

    /// The keys, in order.
    pub(crate) fn keys(&self) -> impl Iterator<Item = usize> {
        self.0.iter().enumerate().flat_map(|(at, own)| bits(*own).map(move |bit| at * 64 + bit))
    }
}

/// The keys of a manuscript by what is asked of them.
#[derive(Debug, Default)]
pub(crate) struct KeySets {
    all: KeySet,
    /// Those that hold for all sizes, and those of each size.
    sizes: Vec<KeySet>,
    /// Those that are of each cue.
    of: HashMap<Cue, KeySet>,
    /// Those of each kind.
    whats: Vec<KeySet>,
    /// Those that have each bit of their nouns, and of their acts.
    nouns: Vec<KeySet>,
    acts: Vec<KeySet>,
}

impl KeySets {
    pub(crate) fn new(keys: &[Key], groups: &KeyGroups, sizes: usize) -> KeySets {
        let none = |count: usize| vec![KeySet::none(keys.len()); count];
        let mut sets = KeySets {
            all: KeySet::new(keys.len(), |_| true),
            sizes: none(sizes + 1),
            of: HashMap::new(),
            whats: none(What::COUNT),
            nouns: none(BITS),
            acts: none(BITS),
        };
        let mut things = none(groups.things.count());
        for (place, key) in keys.iter().enumerate() {
            sets.sizes[key.size.map_or(0, |size| size + 1)].add(place);
            sets.whats[key.what as usize].add(place);
            things[groups.things.of[place]].add(place);
            bits(key.nouns.into()).for_each(|bit| sets.nouns[bit].add(place));
            bits(key.acts.into()).for_each(|bit| sets.acts[bit].add(place));
        }
        for (thing, first) in things.iter().zip(&groups.things.first) {
            for cue in &keys[*first].of {
                sets.of.entry(*cue).or_insert_with(|| KeySet::none(keys.len())).join(thing);
            }
        }
        sets
    }

    /// Those that are for a size, or for all.
    pub(crate) fn of_size(&self, size: Option<usize>) -> &KeySet {
        &self.sizes[size.map_or(0, |size| size + 1)]
    }

    /// Those that are for one of these sizes; of none that are said they may be for any.
    pub(crate) fn for_sizes(&self, sizes: &[usize]) -> KeySet {
        if sizes.is_empty() {
            return self.all.clone();
        }
        let mut set = self.sizes[0].clone();
        for size in sizes {
            set.join(self.of_size(Some(*size)));
        }
        set
    }

    /// Those that are of one of these.
    pub(crate) fn of_any(&self, cues: &[Cue]) -> KeySet {
        self.joined(cues.iter().filter_map(|cue| self.of.get(cue)))
    }

    /// Those of a kind.
    pub(crate) fn of_what(&self, what: What) -> &KeySet {
        &self.whats[what as usize]
    }

    /// Those that count or measure one of these, as bits.
    pub(crate) fn with_nouns(&self, nouns: u32) -> KeySet {
        self.joined(bits(nouns.into()).map(|bit| &self.nouns[bit]))
    }

    /// Those with which one of these is done, as bits.
    pub(crate) fn with_acts(&self, acts: u32) -> KeySet {
        self.joined(bits(acts.into()).map(|bit| &self.acts[bit]))
    }

    fn joined<'s>(&self, sets: impl Iterator<Item = &'s KeySet>) -> KeySet {
        let mut set = KeySet(vec![0; self.all.0.len()]);
        sets.for_each(|other| set.join(other));
        set
    }
}

const BITS: usize = u32::BITS as usize;

/// The places of the bits that are set.
fn bits(mut bits: u64) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let bit = (bits != 0).then(|| bits.trailing_zeros() as usize);
        bits &= bits.wrapping_sub(1);
        bit
    })
}
