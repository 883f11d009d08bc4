//! Sets of the numbers of a manuscript, as bits: what is asked of all of them is asked of many at once.

use std::collections::HashMap;

use super::key_groups::KeyGroups;
use super::keys::Key;
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
        self.0.iter().enumerate().flat_map(|(at, bits)| {
            let mut bits = *bits;
            std::iter::from_fn(move || {
                let key = (bits != 0).then(|| at * 64 + bits.trailing_zeros() as usize);
                bits &= bits.wrapping_sub(1);
                key
            })
        })
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
    /// Those of each group by what they are and what is counted and done.
    words: Vec<KeySet>,
}

impl KeySets {
    pub(crate) fn new(keys: &[Key], groups: &KeyGroups, sizes: usize) -> KeySets {
        let none = KeySet::none(keys.len());
        let mut sets = KeySets {
            all: KeySet::new(keys.len(), |_| true),
            sizes: vec![none.clone(); sizes + 1],
            of: HashMap::new(),
            words: vec![none.clone(); groups.words.count()],
        };
        for (place, key) in keys.iter().enumerate() {
            sets.sizes[key.size.map_or(0, |size| size + 1)].add(place);
            sets.words[groups.words.of[place]].add(place);
            for cue in &key.of {
                sets.of.entry(*cue).or_insert_with(|| none.clone()).add(place);
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
        sizes.iter().for_each(|size| set.join(self.of_size(Some(*size))));
        set
    }

    /// Those that are of one of these.
    pub(crate) fn of_any(&self, cues: &[Cue]) -> KeySet {
        let mut set = KeySet(vec![0; self.all.0.len()]);
        cues.iter().filter_map(|cue| self.of.get(cue)).for_each(|of| set.join(of));
        set
    }

    /// Those of which this is so by what they are and what is counted and done.
    pub(crate) fn by_words(&self, keys: &[Key], groups: &KeyGroups, is: impl Fn(&Key) -> bool) -> KeySet {
        let mut set = KeySet(vec![0; self.all.0.len()]);
        let words = groups.words.first.iter().zip(&self.words);
        words.filter(|(first, _)| is(&keys[**first])).for_each(|(_, of)| set.join(of));
        set
    }
}
