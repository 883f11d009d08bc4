//! Choices among options with signs, and the weights of the signs under which the right options are the likeliest.
//!
//! How likely an option is grows with the exponential of the sum of its signs' weights. Where several options are right,
//! it is asked that one of them is chosen.

use std::collections::{BTreeMap, HashMap};

use rayon::prelude::*;

use super::descent::least;
use super::folds::FOLDS;

/// What a weight of one is in a file, where all are whole numbers.
const UNIT: f64 = 32.0;

/// A sign that was seen in fewer choices says nothing.
const SEEN: u32 = 4;

/// The steps of a descent.
const STEPS: usize = 80;

/// Signs by their numbers, in the order in which they were first seen.
#[derive(Default)]
pub(super) struct Signs {
    numbers: HashMap<String, u32>,
    list: Vec<String>,
}

impl Signs {
    fn number(&mut self, sign: &str) -> u32 {
        if let Some(number) = self.numbers.get(sign) {
            return *number;
        }
        let number = u32::try_from(self.list.len()).unwrap();
        self.numbers.insert(sign.to_owned(), number);
        self.list.push(sign.to_owned());
        number
    }

    /// What the weights say of an option.
    pub(super) fn sum<'s>(&self, signs: impl IntoIterator<Item = &'s String>, weights: &Weights) -> i32 {
        signs.into_iter().filter_map(|sign| self.numbers.get(sign)).map(|number| weights[*number as usize]).sum()
    }

    /// The weights that are not nought, by their signs.
    pub(super) fn named(&self, weights: &Weights) -> BTreeMap<String, i32> {
        let named = self.list.iter().cloned().zip(weights.iter().copied());
        named.filter(|(_, weight)| *weight != 0).collect()
    }
}

/// The weight of each sign by its number.
pub(super) type Weights = Vec<i32>;

/// Choices, in flat lists: there are tens of millions of signs.
#[derive(Default)]
pub(super) struct Choices {
    pub(super) signs: Signs,
    /// The signs of all options, one option after another, and where each option's end.
    of_options: Vec<u32>,
    option_ends: Vec<usize>,
    is_right: Vec<bool>,
    /// Where each choice's options end, and which fold it is of.
    choice_ends: Vec<usize>,
    folds: Vec<usize>,
}

impl Choices {
    /// Adds an option to the choice that [`Choices::close`] ends.
    pub(super) fn option<'s>(&mut self, signs: impl IntoIterator<Item = &'s String>, is_right: bool) {
        for sign in signs {
            let number = self.signs.number(sign);
            self.of_options.push(number);
        }
        self.option_ends.push(self.of_options.len());
        self.is_right.push(is_right);
    }

    /// Ends a choice.
    pub(super) fn close(&mut self, fold: usize) {
        self.choice_ends.push(self.option_ends.len());
        self.folds.push(fold);
    }

    /// Adds choices after these.
    pub(super) fn append(&mut self, more: &Choices) {
        let numbers: Vec<u32> = more.signs.list.iter().map(|sign| self.signs.number(sign)).collect();
        let (signs, options) = (self.of_options.len(), self.option_ends.len());
        self.of_options.extend(more.of_options.iter().map(|sign| numbers[*sign as usize]));
        self.option_ends.extend(more.option_ends.iter().map(|end| signs + end));
        self.is_right.extend(&more.is_right);
        self.choice_ends.extend(more.choice_ends.iter().map(|end| options + end));
        self.folds.extend(&more.folds);
    }

    /// For each fold the weights by the choices of the others, and those by all choices. `pull` is how strongly each
    /// weight is drawn to nought, and those below `least` are left out.
    pub(super) fn fit_each(&self, pull: f64, least: u32) -> (Vec<Weights>, Weights) {
        let by_others = || (0..FOLDS).into_par_iter().map(|fold| self.fit(Some(fold), pull, least)).collect();
        rayon::join(by_others, || self.fit(None, pull, least))
    }

    /// The weights by the choices of every fold but one, or of all.
    fn fit(&self, without: Option<usize>, pull: f64, least_kept: u32) -> Weights {
        let picked: Vec<usize> = (0..self.folds.len()).filter(|choice| Some(self.folds[*choice]) != without).collect();
        let counts = self.counts(&picked);
        let weights = least(counts.len(), STEPS, |weights, slope| {
            *slope = weights.iter().map(|weight| pull * weight).collect();
            let mut value = weights.iter().map(|weight| pull / 2.0 * weight * weight).sum::<f64>();
            let mut likely = Vec::new();
            for choice in &picked {
                value += self.unlikeliness(*choice, weights, slope, &mut likely);
            }
            slope.iter_mut().zip(&counts).filter(|(_, count)| **count < SEEN).for_each(|(slope, _)| *slope = 0.0);
            value
        });
        let whole = weights.into_iter().map(|weight| (weight * UNIT).round() as i32);
        whole.map(|weight| if weight.unsigned_abs() < least_kept { 0 } else { weight }).collect()
    }

    /// In how many choices each sign was seen.
    fn counts(&self, picked: &[usize]) -> Vec<u32> {
        let mut counts = vec![0; self.signs.list.len()];
        let mut last = vec![usize::MAX; counts.len()];
        for choice in picked {
            for sign in self.options(*choice).flat_map(|option| self.signs_of(option)) {
                let sign = *sign as usize;
                if last[sign] != *choice {
                    last[sign] = *choice;
                    counts[sign] += 1;
                }
            }
        }
        counts
    }

    /// How unlikely it is that a right option is chosen, as a logarithm; its slope is added to `slope`.
    fn unlikeliness(&self, choice: usize, weights: &[f64], slope: &mut [f64], likely: &mut Vec<f64>) -> f64 {
        likely.clear();
        let sum = |option: usize| self.signs_of(option).iter().map(|sign| weights[*sign as usize]).sum::<f64>();
        likely.extend(self.options(choice).map(sum));
        let highest = likely.iter().copied().fold(f64::MIN, f64::max);
        for own in likely.iter_mut() {
            *own = (*own - highest).exp();
        }
        let all: f64 = likely.iter().sum();
        let is_right = &self.is_right[self.options(choice)];
        let right: f64 = likely.iter().zip(is_right).filter(|(_, is)| **is).map(|(own, _)| own).sum();
        let right = right.max(1e-300);
        for ((option, own), is_right) in self.options(choice).zip(&*likely).zip(is_right) {
            let part = own / all - if *is_right { own / right } else { 0.0 };
            if part.abs() > 1e-9 {
                self.signs_of(option).iter().for_each(|sign| slope[*sign as usize] += part);
            }
        }
        (all / right).ln()
    }

    /// Whether the option of the highest sum is right; of several, the first.
    pub(super) fn is_best_right(&self, choice: usize, weights: &Weights) -> bool {
        let sum = |option: &usize| self.signs_of(*option).iter().map(|sign| weights[*sign as usize]).sum::<i32>();
        let best = self.options(choice).rev().max_by_key(sum);
        best.is_some_and(|best| self.is_right[best])
    }

    /// Whether the first option of a choice is right.
    pub(super) fn is_first_right(&self, choice: usize) -> bool {
        self.is_right[self.options(choice).start]
    }

    /// The fold of a choice.
    pub(super) fn fold(&self, choice: usize) -> usize {
        self.folds[choice]
    }

    fn options(&self, choice: usize) -> std::ops::Range<usize> {
        let start = choice.checked_sub(1).map_or(0, |before| self.choice_ends[before]);
        start..self.choice_ends[choice]
    }

    fn signs_of(&self, option: usize) -> &[u32] {
        let start = option.checked_sub(1).map_or(0, |before| self.option_ends[before]);
        &self.of_options[start..self.option_ends[option]]
    }
}

#[test]
fn a_sign_of_what_is_right_in_three_of_four_weighs_as_much_as_that_is_likely() {
    let mut choices = Choices::default();
    let own = ["seldom wrong".to_owned()];
    for turn in 0..400 {
        choices.option(&own, turn % 4 > 0);
        choices.option(&[], turn % 4 == 0);
        choices.close(turn % 2);
    }
    // The logarithm of 3, in thirty-seconds: 35.16.
    let named = choices.signs.named(&choices.fit(None, 1e-6, 1));
    assert_eq!(named, BTreeMap::from([("seldom wrong".to_owned(), 35)]));
    // Without every second choice, it is right in all or in half of the rest.
    let halves: Vec<i32> = [0, 1].into_iter().map(|fold| choices.fit(Some(fold), 0.01, 1)[0]).collect();
    assert!(halves[0] > 100 && halves[1] == 0, "{halves:?}");
}
