//! What came of numbers, compared with what came of those beside them.

use std::collections::{BTreeMap, BTreeSet};

use super::assign::CameTo;
use super::candidates::Candidates;
use super::compare::{Fit, has_digits};
use super::context::ReadPassages;
use super::elements::Form;
use super::judge::differing;
use super::keys::{Key, KeyValue, Keys, Line, What};
use crate::quantity::Unit;

pub(super) struct Outcomes<'a, 'm> {
    pub(super) read: &'a ReadPassages<'a>,
    pub(super) keys: &'a Keys<'m>,
    pub(super) open: &'a [Candidates],
    pub(super) bare: Unit,
}

impl Outcomes<'_, '_> {
    /// Where all but one number of a family are right, the one that is not is wrong.
    pub(super) fn complete(&self, families: &[Vec<usize>], came: &mut [CameTo]) {
        for family in families {
            let is_right = |index: &&usize| matches!(came[**index], CameTo::Right(_));
            let right: Vec<usize> = family.iter().filter(is_right).copied().collect();
            let Some(odd) = family.iter().find(|index| matches!(came[**index], CameTo::Unclear(_))).copied() else {
                continue;
            };
            if right.len() + 1 != family.len() || self.open[odd].is_spared() || !self.is_proof(&right, came) {
                continue;
            }
            let keys = self.of_same_lines(&right, odd, came);
            let here = &self.read.list[self.open[odd].passage];
            let own = &here.elements[self.open[odd].element];
            let fits = |key: &usize| self.open[odd].fits.fit(self.keys, *key) != Fit::Other;
            if !keys.is_empty() && (own.form == Form::Sides || !keys.iter().any(fits)) {
                let numbers =
                    self.not_laid(&keys, odd).unwrap_or_else(|| differing(&keys, self.keys, own, here, self.bare));
                came[odd] = CameTo::Differs(keys, numbers);
            }
        }
    }

    /// Whether what is right of a family proves what its last number is.
    fn is_proof(&self, right: &[usize], came: &[CameTo]) -> bool {
        let of_all = |index: &usize| {
            let CameTo::Right(keys) = &came[*index] else { return false };
            keys.iter().all(|key| self.keys.list[*key].size.is_none())
        };
        let words = |index: &usize| self.read.written(self.open[*index].passage, self.open[*index].element);
        match right {
            [] => false,
            [one] => {
                let one = &self.open[*one];
                let is_special = one.numbers > 1 || one.has_unit && !one.is_whole;
                is_special || one.in_run || one.is_named && (one.around.noun_is_near || one.around.in_table)
            }
            _ => right.iter().all(of_all) || right.iter().map(words).collect::<BTreeSet<_>>().len() > 1,
        }
    }

    /// The keys that are for the odd number what those of the others are for these.
    fn of_same_lines(&self, right: &[usize], odd: usize, came: &[CameTo]) -> Vec<usize> {
        let line = |key: &usize| self.keys.list[*key].line();
        let lines_of = |index: &usize| -> BTreeSet<Line<'_>> {
            let CameTo::Right(keys) = &came[*index] else { return BTreeSet::new() };
            keys.iter().map(line).collect()
        };
        let mut lines = lines_of(&right[0]);
        for other in &right[1..] {
            let others = lines_of(other);
            lines.retain(|line| others.contains(line));
        }
        let around = &self.open[odd].around;
        let sizes = if around.is_unsized() { &[][..] } else { &around.sizes[..] };
        let is = |key: &usize| {
            let of = &self.keys.list[*key];
            of.is_sure && of.size.is_none_or(|size| sizes.contains(&size)) && lines.contains(&line(key))
        };
        let keys: Vec<usize> = (0..self.keys.list.len()).filter(is).collect();
        let covered: BTreeSet<Line<'_>> = keys.iter().map(line).collect();
        if covered.len() == lines.len() { keys } else { Vec::new() }
    }

    /// Of `4 x 5` blocks the numbers that are neither across nor down.
    fn not_laid(&self, keys: &[usize], odd: usize) -> Option<Vec<usize>> {
        let here = &self.read.list[self.open[odd].passage];
        let own = &here.elements[self.open[odd].element];
        let laid = keys.iter().map(|key| &self.keys.list[*key]).filter(|key| key.what == What::Laid);
        let counts: Vec<u64> = laid
            .filter_map(|key: &Key| if let KeyValue::Count(count) = key.value { Some(count) } else { None })
            .collect();
        if own.form != Form::Sides || counts.len() != 2 {
            return None;
        }
        let count = |number: usize| here.tokens.numbers[number].count();
        let wrong = |pair: [u64; 2]| -> Vec<usize> {
            let numbers = own.numbers.iter().zip(pair).filter(|(number, is)| count(**number) != Some(*is));
            numbers.map(|(number, _)| *number).collect()
        };
        let (one, other) = (wrong([counts[0], counts[1]]), wrong([counts[1], counts[0]]));
        Some(if other.len() < one.len() { other } else { one })
    }

    /// Whether a number has the digits of what it should be, and another unit.
    fn is_slip_of_unit(&self, index: usize, keys: &[usize]) -> bool {
        let here = &self.read.list[self.open[index].passage];
        let own = &here.elements[self.open[index].element];
        let units = [Unit::Inch, Unit::Yard, Unit::Cm, Unit::Metre];
        keys.iter().any(|key| units.iter().any(|unit| has_digits(&self.keys.list[*key], own, here, *unit)))
    }

    /// Says nothing against numbers of a line or a family in which nothing is right: it is about something else.
    pub(super) fn spare_strangers(&self, families: &[Vec<usize>], came: &mut [CameTo]) {
        let has_right = |index: usize, came: &[CameTo]| match &came[index] {
            CameTo::Right(_) | CameTo::OtherHalf(..) => true,
            CameTo::Differs(_, numbers) => numbers.len() < self.open[index].numbers,
            CameTo::NotRequired(_) | CameTo::Unclear(_) => false,
        };
        let mut lines: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
        for (index, candidates) in self.open.iter().enumerate() {
            lines.entry(candidates.group).or_default().push(index);
        }
        let is_alone = |line: &[usize]| matches!(line, [only] if self.open[*only].numbers == 1);
        let strange = |line: &&[usize]| !is_alone(line) && !line.iter().any(|index| has_right(*index, came));
        let all = lines.values().map(Vec::as_slice).chain(families.iter().map(Vec::as_slice));
        let strangers: BTreeSet<usize> = all.filter(strange).flatten().copied().collect();
        for index in strangers {
            let is_slip = matches!(&came[index], CameTo::Differs(keys, _) if self.is_slip_of_unit(index, keys));
            if matches!(came[index], CameTo::Differs(..)) && !self.open[index].is_fitted && !is_slip {
                came[index] = CameTo::Unclear("nothing beside it is a number of the manuscript either");
            }
        }
    }
}
