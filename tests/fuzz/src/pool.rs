//! The inputs that others are made from: the seeds, and those at which something was seen for the first time.

use std::collections::HashSet;

use crate::rng::{Rng, hash};

/// What a target saw of one input, such as which rule found something: a number for each.
#[derive(Debug, Default)]
pub struct Seen(Vec<u64>);

impl Seen {
    /// Notes something by its words.
    pub fn note(&mut self, words: &[&str]) {
        let mut all = Vec::new();
        for word in words {
            all.extend_from_slice(word.as_bytes());
            all.push(0xff);
        }
        self.0.push(hash(&all));
    }
}

/// Inputs, the smaller of two that are alike in what was seen.
#[derive(Debug)]
pub struct Pool {
    inputs: Vec<Vec<u8>>,
    seeds: usize,
    seen: HashSet<u64>,
}

/// How many inputs are kept besides the seeds.
const MAX_KEPT: usize = 4000;

impl Pool {
    /// The seeds.
    pub fn new(seeds: Vec<Vec<u8>>) -> Pool {
        Pool { seeds: seeds.len(), inputs: seeds, seen: HashSet::new() }
    }

    /// One of the inputs: as often a seed as one that was kept.
    pub fn pick(&self, rng: &mut Rng) -> &[u8] {
        if self.inputs.len() == self.seeds || rng.one_in(2) {
            &self.inputs[rng.below(self.seeds)]
        } else {
            &self.inputs[rng.between(self.seeds, self.inputs.len() - 1)]
        }
    }

    /// Keeps an input at which something was seen for the first time.
    pub fn add(&mut self, input: &[u8], seen: Seen, rng: &mut Rng) {
        let before = self.seen.len();
        self.seen.extend(seen.0);
        if self.seen.len() == before {
            return;
        }
        if self.inputs.len() - self.seeds < MAX_KEPT {
            self.inputs.push(input.to_vec());
        } else {
            let place = rng.between(self.seeds, self.inputs.len() - 1);
            self.inputs[place] = input.to_vec();
        }
    }

    /// How many inputs there are.
    pub fn len(&self) -> usize {
        self.inputs.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.inputs.is_empty()
    }

    /// How many different things were seen.
    pub fn seen(&self) -> usize {
        self.seen.len()
    }
}
