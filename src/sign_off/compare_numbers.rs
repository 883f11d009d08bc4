//! Which numbers a printed text says otherwise than when its manuscript was signed.
//!
//! Words and layout are no change. What was matched is compared by what it was matched to, and what was not by the words
//! round it where these stayed, and by its value alone where they did not; a number that is matched now and was not, or the
//! other way round, is the same as long as its value is.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::texts::{SignedNumber, SignedText};
use crate::quantity::Unit;
use crate::text::{SaidNumber, TextOutcome};

/// A number that a text says otherwise: as it was, as it is, or both.
#[derive(Clone, Debug)]
pub(super) struct NumberChange<'t> {
    /// The words that lead to what it is in the manuscript, where it was matched.
    pub(super) path: Option<String>,
    /// What was said.
    pub(super) was: Option<String>,
    /// The words round what was said, where it was not matched.
    pub(super) within: Option<String>,
    /// What is said, where something is.
    pub(super) is: Option<&'t SaidNumber>,
}

/// The numbers of a text on both sides, with those that are still to be settled.
struct Both<'t> {
    was: &'t [SignedNumber],
    now: Vec<(&'t SaidNumber, Vec<String>)>,
    was_left: Vec<bool>,
    now_left: Vec<bool>,
    changes: Vec<NumberChange<'t>>,
}

/// What a text says otherwise than a record, whose words lead to the places of the manuscript as it is now.
pub(super) fn changed_numbers<'t>(
    signed: &'t SignedText,
    text: &'t TextOutcome,
    paths: &dyn Fn(&SaidNumber) -> Vec<String>,
) -> Vec<NumberChange<'t>> {
    let now: Vec<(&SaidNumber, Vec<String>)> = text.said().iter().map(|said| (said, paths(said))).collect();
    let now_left = now.iter().map(|(said, _)| said.is_required).collect();
    let was_left = vec![true; signed.numbers.len()];
    let mut both = Both { was: &signed.numbers, now, was_left, now_left, changes: Vec::new() };
    both.settle_matched();
    both.settle_by_words();
    both.settle_by_value();
    both.settle_changed();
    let place = |change: &NumberChange<'_>| change.is.map(|said| said.at);
    both.changes.sort_by_key(|change| (place(change).is_none(), place(change)));
    both.changes
}

impl Both<'_> {
    /// What was matched and is said, though perhaps elsewhere or less often.
    fn settle_matched(&mut self) {
        let was = self.was;
        let required = || self.now.iter().filter(|(said, _)| said.is_required);
        let pairs =
            |of: &[String], says: &str| of.iter().map(|path| (path.clone(), says.to_string())).collect::<Vec<_>>();
        let said: BTreeSet<_> = required().flat_map(|(said, of)| pairs(of, &said.says)).collect();
        let signed: BTreeSet<_> = was.iter().flat_map(|number| pairs(&number.of, &number.says)).collect();
        for (left, number) in self.was_left.iter_mut().zip(was) {
            *left &= !pairs(&number.of, &number.says).iter().any(|pair| said.contains(pair));
        }
        for (left, (number, of)) in self.now_left.iter_mut().zip(&self.now) {
            *left &= !pairs(of, &number.says).iter().any(|pair| signed.contains(pair));
        }
    }

    /// What was not matched, and stands in the same words, in the order of reading: it is the same number, or another one.
    fn settle_by_words(&mut self) {
        let mut groups: BTreeMap<String, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
        for (index, number) in self.was.iter().enumerate().filter(|(index, _)| self.was_left[*index]) {
            if let Some(words) = number.within.as_deref().and_then(words) {
                groups.entry(words).or_default().0.push(index);
            }
        }
        for (index, (said, of)) in self.now.iter().enumerate().filter(|(index, _)| self.now_left[*index]) {
            if let Some(words) = words(&said.quote).filter(|_| of.is_empty()) {
                groups.entry(words).or_default().1.push(index);
            }
        }
        // Where the same words stand more often or less often than before, they do not tell which number is which.
        for (was, now) in groups.into_values().filter(|(was, now)| was.len() == now.len()) {
            for (was, now) in was.into_iter().zip(now) {
                self.settle(was, now);
            }
        }
    }

    /// What has the same value, where one of both was not matched.
    fn settle_by_value(&mut self) {
        let is_matched = |index: usize| !self.was[index].of.is_empty();
        let mut signed: BTreeMap<(bool, &str), VecDeque<usize>> = BTreeMap::new();
        for index in (0..self.was.len()).filter(|index| self.was_left[*index]) {
            signed.entry((is_matched(index), &self.was[index].says)).or_default().push_back(index);
        }
        let (mut numbers, others): (Vec<usize>, Vec<usize>) =
            (0..self.now.len()).partition(|index| self.now[*index].0.is_required);
        numbers.retain(|index| self.now_left[*index]);
        // What is no requirement now was one only by the words round it. It comes last.
        for index in numbers.into_iter().chain(others) {
            let (said, of) = &self.now[index];
            let mut take = |matched: bool| signed.get_mut(&(matched, said.says.as_str())).and_then(VecDeque::pop_front);
            let same = take(false).or_else(|| if of.is_empty() && said.is_required { take(true) } else { None });
            if let Some(was) = same {
                self.was_left[was] = false;
                self.now_left[index] = false;
            }
        }
    }

    /// What is left is otherwise: another number for the same thing, one that is gone, one that is new.
    fn settle_changed(&mut self) {
        let was = self.was;
        let mut left: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        let mut signed: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (index, number) in was.iter().enumerate() {
            for path in &number.of {
                signed.entry(path).or_default().push(&number.says);
                if self.was_left[index] {
                    left.entry(path).or_default().push(index);
                }
            }
        }
        for index in (0..self.now.len()).filter(|index| self.now_left[*index]) {
            let (said, of) = self.now[index].clone();
            let others = of.iter().filter_map(|path| left.get(path.as_str())).flatten();
            if let Some(other) = others.copied().find(|other| self.was_left[*other]) {
                self.was_left[other] = false;
                let path = was[other].of.iter().find(|path| of.contains(path)).cloned();
                self.changes.push(NumberChange {
                    path,
                    was: Some(was[other].says.clone()),
                    within: None,
                    is: Some(said),
                });
                continue;
            }
            // It was said, and is still said elsewhere in the text.
            let before = of.iter().find_map(|path| signed.get(path.as_str())).map(|says| says.join(" and "));
            self.changes.push(NumberChange { path: of.into_iter().next(), was: before, within: None, is: Some(said) });
        }
        for number in was.iter().enumerate().filter(|(index, _)| self.was_left[*index]).map(|(_, number)| number) {
            let (path, was) = (number.of.first().cloned(), Some(number.says.clone()));
            self.changes.push(NumberChange { path, was, within: number.within.clone(), is: None });
        }
    }

    /// Settles one number with another, which is a change where they are not the same.
    fn settle(&mut self, was: usize, now: usize) {
        self.was_left[was] = false;
        self.now_left[now] = false;
        let (signed, said) = (&self.was[was], self.now[now].0);
        if signed.says != said.says {
            let (was, within) = (Some(signed.says.clone()), signed.within.clone());
            self.changes.push(NumberChange { path: None, was, within, is: Some(said) });
        }
    }
}

/// Words without numbers and their units, signs and capitals; nothing where no word is left, as in a cell.
fn words(quote: &str) -> Option<String> {
    let letters = quote.to_lowercase();
    let words: Vec<&str> = letters
        .split(|c: char| !c.is_alphabetic())
        .filter(|word| !word.is_empty() && Unit::from_word(word).is_none())
        .collect();
    (!words.is_empty()).then(|| words.join(" "))
}
