//! Which number of the manuscript each number of a text is, line by line.
//!
//! The value alone proves nothing: in most manuscripts it stands at several places. What stands around a number leaves
//! some keys; where a line of cutting does not name its piece, the piece is the one that most numbers of the line fit.

use std::collections::BTreeMap;

use super::by_value::by_value;
use super::candidates::{Candidates, candidates};
use super::compare::{Fit, compare, halves_apart, states_both_measures};
use super::context::ReadPassages;
use super::elements::Role;
use super::evidence::Gathered;
use super::families::fit_families;
use super::fits::Comparing;
use super::judge::{differing, judge};
use super::keys::Keys;
use super::lines::fit_lines;
use super::not_required::doubt;
use super::outcomes::Outcomes;
use super::passage::PassageKind;
use super::sizes_by_fit::SizesByFit;
use crate::quantity::Unit;

/// What came of one element.
#[derive(Clone, Debug)]
pub(crate) struct Assigned {
    /// Its passage.
    pub passage: usize,
    /// Its place among the elements of the passage.
    pub element: usize,
    /// What came of it.
    pub came_to: CameTo,
}

/// What came of an element.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum CameTo {
    /// It is no number that a manuscript states.
    NotRequired(&'static str),
    /// These keys say the same.
    Right(Vec<usize>),
    /// These keys are what it must be, and say something else; and which of its numbers differ.
    Differs(Vec<usize>, Vec<usize>),
    /// It is no rounding of the same in the other measure, which is right or of which nothing is said.
    OtherHalf(Vec<usize>, Vec<usize>),
    /// Nothing is said of it, for this reason.
    Unclear(&'static str),
}

/// The numbers of a text that may be the manuscript's, with what they came to before the weights.
pub(super) struct BeforeWeights {
    pub(super) open: Vec<Candidates>,
    pub(super) families: Vec<Vec<usize>>,
    pub(super) came: Vec<CameTo>,
}

/// Assigns the numbers of a text.
pub(crate) fn assign(read: &ReadPassages<'_>, keys: &Keys<'_>, bare: Unit) -> Vec<Assigned> {
    let before = before_weights(read, keys, bare);
    let evidence = Gathered::new(read, keys, &before, bare);
    let numbers = before.open.iter().zip(&before.came).enumerate();
    let mut assigned: Vec<Assigned> = numbers
        .map(|(index, (own, came))| {
            let came_to = evidence.judge(index, came);
            Assigned { passage: own.passage, element: own.element, came_to }
        })
        .collect();
    for (passage, here) in read.list.iter().enumerate() {
        let not_required = here.not_required.iter().enumerate();
        assigned.extend(not_required.filter_map(|(element, why)| {
            let why = why.filter(|why| doubt(why).is_none())?;
            Some(Assigned { passage, element, came_to: CameTo::NotRequired(why) })
        }));
    }
    assigned.sort_by_key(|assigned| (assigned.passage, assigned.element));
    follow(read, keys, &mut assigned, bare);
    go_by_rows(read, keys, &mut assigned);
    assigned
}

/// What says the same as another cell of its row is the same, where that is for every size.
fn go_by_rows(read: &ReadPassages<'_>, keys: &Keys<'_>, assigned: &mut [Assigned]) {
    let place = |own: &Assigned| {
        let passage = read.list[own.passage].passage;
        let PassageKind::Cell { table, row, .. } = passage.kind else { return None };
        Some((table, row, passage.text.as_str(), own.element))
    };
    let is_for_all = |of: &[usize]| of.iter().all(|key| keys.list[*key].size.is_none());
    let right: BTreeMap<_, Vec<usize>> = assigned
        .iter()
        .filter_map(|own| match &own.came_to {
            CameTo::Right(of) if is_for_all(of) => Some((place(own)?, of.clone())),
            _ => None,
        })
        .collect();
    for own in assigned.iter_mut().filter(|own| matches!(own.came_to, CameTo::Differs(..))) {
        if let Some(of) = place(own).and_then(|place| right.get(&place)) {
            own.came_to = CameTo::Right(of.clone());
        }
    }
}

/// Goes by what is named, by lines and by families.
pub(super) fn before_weights(read: &ReadPassages<'_>, keys: &Keys<'_>, bare: Unit) -> BeforeWeights {
    let mut open = Vec::new();
    let mut comparing = Comparing::new(keys, bare);
    for (passage, here) in read.list.iter().enumerate() {
        let elements = (0..here.elements.len()).filter(|element| here.not_required[*element].is_none());
        open.extend(elements.map(|element| candidates(read, &mut comparing, (passage, element))));
    }
    let sizes = SizesByFit::new(read, &mut comparing, &open);
    for own in &mut open {
        sizes.apply(read, &mut comparing, own);
    }
    fit_lines(keys, &mut open);
    let families = fit_families(read, keys, &mut open);
    let mut came: Vec<CameTo> = open.iter().map(|candidates| judge(read, keys, candidates, bare)).collect();
    let outcomes = Outcomes { read, keys, open: &open, bare };
    outcomes.complete(&families, &mut came);
    outcomes.spare_strangers(&families, &mut came);
    by_value(read, keys, &open, &mut came);
    let mut before = BeforeWeights { open, families, came };
    before.add_doubtful(read, &mut comparing, &sizes);
    before
}

impl BeforeWeights {
    /// Adds the numbers that are no requirements by all appearances: before the weights nothing goes by them.
    fn add_doubtful(&mut self, read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, sizes: &SizesByFit) {
        let known = self.open.len();
        for (passage, here) in read.list.iter().enumerate() {
            for (element, why) in here.not_required.iter().enumerate() {
                if let Some(why) = why.filter(|why| doubt(why).is_some()) {
                    let mut own = candidates(read, comparing, (passage, element));
                    sizes.apply(read, comparing, &mut own);
                    self.open.push(own);
                    self.came.push(CameTo::NotRequired(why));
                }
            }
        }
        if self.open.len() == known {
            return;
        }
        let (open, came) = (std::mem::take(&mut self.open), std::mem::take(&mut self.came));
        let mut all: Vec<(usize, (Candidates, CameTo))> = open.into_iter().zip(came).enumerate().collect();
        all.sort_by_key(|(_, (own, _))| (own.passage, own.element));
        let mut places = vec![0; all.len()];
        all.iter().enumerate().for_each(|(place, (before, _))| places[*before] = place);
        (self.open, self.came) = all.into_iter().map(|(_, own)| own).unzip();
        self.families.iter_mut().flatten().for_each(|member| *member = places[*member]);
    }
}

/// What says the same as another number goes by that: the other measure of a pair, the word for a figure.
fn follow(read: &ReadPassages<'_>, keys: &Keys<'_>, assigned: &mut [Assigned], bare: Unit) {
    let came: BTreeMap<(usize, usize), CameTo> =
        assigned.iter().map(|assigned| ((assigned.passage, assigned.element), assigned.came_to.clone())).collect();
    for assigned in assigned {
        let here = &read.list[assigned.passage];
        let own = &here.elements[assigned.element];
        let (Role::PairOf(of) | Role::WordOf(of)) = own.role else { continue };
        let Some(other) = came.get(&(assigned.passage, of)) else { continue };
        assigned.came_to = match (other, &assigned.came_to) {
            (CameTo::Right(right), _) => {
                let same = right.iter().any(|key| compare(&keys.list[*key], own, here, bare) != Fit::Other);
                let numbers = || differing(right, keys, own, here, bare);
                let states_both = right.iter().any(|key| states_both_measures(&keys.list[*key]));
                match (same, own.role) {
                    (true, _) => other.clone(),
                    // What the word says is asked of it by itself.
                    (false, Role::WordOf(_)) => CameTo::Right(right.clone()),
                    (false, _) if states_both => CameTo::Differs(right.clone(), numbers()),
                    (false, _) => CameTo::OtherHalf(right.clone(), numbers()),
                }
            }
            (CameTo::Unclear(_), CameTo::Unclear(_) | CameTo::Differs(..)) if matches!(own.role, Role::PairOf(_)) => {
                match halves_apart(&here.elements[of], own, here, bare) {
                    numbers if numbers.is_empty() => other.clone(),
                    numbers => CameTo::OtherHalf(Vec::new(), numbers),
                }
            }
            (_, CameTo::Right(right)) => CameTo::Right(right.clone()),
            (CameTo::Differs(..), _) => CameTo::Unclear("it goes by the number beside it"),
            (other, _) => other.clone(),
        };
    }
}
