//! Which number of the manuscript each number of a text is, line by line.
//!
//! The value alone proves nothing: in most manuscripts it stands at several places. What stands around a number leaves
//! some keys; where a line of cutting does not name its piece, the piece is the one that most numbers of the line fit.

use std::collections::{BTreeMap, BTreeSet};

use super::candidates::{Candidates, candidates};
use super::compare::{Fit, compare, halves_apart, is_across_fabric, sides_off, states_both_measures};
use super::context::{ReadPassage, ReadPassages};
use super::elements::{Element, Form, Role};
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Noun, Section};
use super::lines::{fit_lines, fit_runs};
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

/// Assigns the numbers of a text.
pub(crate) fn assign(read: &ReadPassages<'_>, keys: &Keys<'_>, bare: Unit) -> Vec<Assigned> {
    let mut assigned = Vec::new();
    let mut open = Vec::new();
    for (passage, here) in read.list.iter().enumerate() {
        for element in 0..here.elements.len() {
            if let Some(why) = here.not_required[element] {
                assigned.push(Assigned { passage, element, came_to: CameTo::NotRequired(why) });
            } else {
                open.push(candidates(read, keys, (passage, element), bare));
            }
        }
    }
    fit_lines(read, keys, &mut open, bare);
    fit_runs(read, keys, &mut open, bare);
    for candidates in &open {
        let came_to = judge(read, keys, candidates, bare);
        assigned.push(Assigned { passage: candidates.passage, element: candidates.element, came_to });
    }
    assigned.sort_by_key(|assigned| (assigned.passage, assigned.element));
    follow(read, keys, &mut assigned, bare);
    assigned
}

/// Says of a number whether it is right, from the keys that are left.
fn judge(read: &ReadPassages<'_>, keys: &Keys<'_>, candidates: &Candidates, bare: Unit) -> CameTo {
    let here = &read.list[candidates.passage];
    let own = &here.elements[candidates.element];
    let is_count = |key: &usize| matches!(keys.list[*key].value, KeyValue::Count(_));
    let number = &here.tokens.numbers[own.numbers[0]];
    let counts = own.form == Form::Scalar && number.unit.is_none() && candidates.keys.iter().any(is_count);
    let left: Vec<usize> = candidates.keys.iter().copied().filter(|key| !counts || is_count(key)).collect();
    let fit = |key: &usize| compare(&keys.list[*key], own, here, bare);
    let right: Vec<usize> = left.iter().copied().filter(|key| fit(key) == Fit::Same).collect();
    if !right.is_empty() {
        let stated: Vec<usize> = right.iter().copied().filter(|key| keys.list[*key].is_stated()).collect();
        let anything = candidates.is_named || candidates.around.nouns != 0 && !candidates.conflicts;
        return match (anything, stated.is_empty()) {
            (false, _) => CameTo::Unclear("nothing beside it says what it is"),
            (true, false) => CameTo::Right(stated),
            (true, true) => CameTo::Right(right),
        };
    }
    let one_side: Vec<usize> = left.iter().copied().filter(|key| fit(key) == Fit::OneSide).collect();
    if !one_side.is_empty() && (candidates.is_named || candidates.around.nouns != 0 && !candidates.conflicts) {
        return CameTo::Right(one_side);
    }
    if let Some(quilt) = finished_quilt(keys, candidates, own, here, bare) {
        return CameTo::Right(vec![quilt]);
    }
    if candidates.conflicts {
        return CameTo::Unclear("what stands beside it is nothing that the manuscript states");
    }
    if candidates.around.of_each && counts {
        return CameTo::Unclear("it is so many of or from each");
    }
    let stated: Vec<usize> = left
        .iter()
        .copied()
        .filter(|key| is_claimed(&keys.list[*key], candidates, own, is_across_fabric(own, here, bare)))
        .collect();
    let named_by_noun = |key: &usize| {
        let own =
            [Noun::Tail, Noun::Opening, Noun::Seam, Noun::Point, Noun::Pack, Noun::Quarter, Noun::Eighth, Noun::Panel];
        let mut own = own.iter().fold(0, |bits, noun| bits | noun.bit());
        if candidates.around.of_rows && candidates.in_run {
            own |= Noun::Row.bit() | Noun::Column.bit() | Noun::Block.bit();
        }
        candidates.around.noun_is_near && keys.list[*key].nouns & candidates.around.nouns & own != 0
    };
    if stated.is_empty() || !candidates.is_named && !stated.iter().all(named_by_noun) {
        return CameTo::Unclear("several numbers of the manuscript could be meant");
    }
    if candidates.around.about {
        return CameTo::Unclear("it is about so much");
    }
    if own.may_be_count_and_size {
        return CameTo::Unclear("it may be a count and a size");
    }
    // Without a size the numbers of every size would have to be the same.
    let for_sizes: BTreeSet<Option<usize>> = stated.iter().map(|key| keys.list[*key].size).collect();
    let alike = stated.windows(2).all(|pair| keys.list[pair[0]].value == keys.list[pair[1]].value);
    let says_size = alike
        || !candidates.around.sizes.is_empty()
        || keys.manuscript.sizes.len() < 2
        || !for_sizes.iter().any(Option::is_some);
    if !says_size {
        return CameTo::Unclear("nothing says which size it is for");
    }
    let whats: BTreeSet<What> = stated.iter().map(|key| keys.list[*key].what).collect();
    if whats.len() > 1 && !candidates.around.noun_is_near && candidates.around.acts == 0 {
        return CameTo::Unclear("several numbers of the manuscript could be meant");
    }
    let numbers = differing(&stated, keys, own, here, bare);
    CameTo::Differs(stated, numbers)
}

/// The finished size of the quilt for the size that is named, where an element says the same, though it stands beside
/// other things: `For the lap quilt, 54" x 66", make 10 cabins`.
fn finished_quilt(
    keys: &Keys<'_>,
    candidates: &Candidates,
    own: &Element,
    here: &ReadPassage<'_>,
    bare: Unit,
) -> Option<usize> {
    let [size] = candidates.around.sizes[..] else { return None };
    let is_quilt =
        |key: &Key| key.what == What::Finished && key.size == Some(size) && key.is_of(Cue::Section(Section::Quilt));
    let wanted = if own.form == Form::Sides { Fit::Same } else { Fit::OneSide };
    let is_side = own.form == Form::Sides || candidates.around.in_table && candidates.around.is_measure;
    let mut quilts = (0..keys.list.len()).filter(|key| is_side && is_quilt(&keys.list[*key]));
    quilts.find(|key| compare(&keys.list[*key], own, here, bare) == wanted)
}

/// Whether a text that says a number like this claims that it is the key's.
fn is_claimed(key: &Key, candidates: &Candidates, own: &Element, across_fabric: bool) -> bool {
    let is_count = matches!(key.value, KeyValue::Count(_));
    let is_bare = own.form == Form::Scalar && !candidates.has_unit && !candidates.in_run && !candidates.around.in_table;
    if !key.is_sure || is_bare && candidates.is_whole && !is_count {
        return false;
    }
    if matches!(key.value, KeyValue::Sides(_)) && own.form == Form::Scalar && !is_square(key) {
        return false;
    }
    if matches!(key.value, KeyValue::Length(_)) && own.form == Form::Sides && !across_fabric {
        return false;
    }
    match key.what {
        What::Amount => true,
        What::Seam => {
            !candidates.around.other_seam
                && candidates.around.noun_is_near
                && candidates.around.nouns & Noun::Seam.bit() != 0
        }
        What::CutSize
            if candidates.around.noun_follows
                && candidates.around.noun_is_near
                && key.nouns & candidates.around.nouns != 0
                && candidates
                    .around
                    .subjects
                    .first()
                    .is_some_and(|level| level.cues.iter().any(|cue| matches!(cue, Cue::Piece(..)))) =>
        {
            true
        }
        What::Length => key.nouns & candidates.around.nouns != 0 && candidates.around.noun_is_near && key.nouns != 0,
        What::Laid => {
            candidates.in_run
                && candidates.around.of_rows
                && candidates.around.noun_is_near
                && !candidates.around.in_table
        }
        What::UsableWidth | What::Count => false,
        What::Makes => candidates.around.acts & Act::Make.bit() != 0 || candidates.around.in_table,
        What::Finished if key.is_of(Cue::Section(Section::Quilt)) => own.form == Form::Sides,
        _ => {
            let acts = key.acts & candidates.around.acts != 0;
            let around = &candidates.around;
            // A bare number in a table of which only the fabric is named may be an amount as well.
            let has_unit = candidates.has_unit || around.nouns != 0 || candidates.names_thing();
            let in_table =
                around.acts == 0 && (around.in_table && has_unit || candidates.named_near && !around.in_table);
            (acts || in_table)
                && (key.nouns & candidates.around.nouns != 0 || !candidates.around.noun_is_near)
                && !(own.form == Form::Scalar
                    && candidates.around.acts & Act::Around.bit() != 0
                    && key.what == What::CutSize)
        }
    }
}

fn is_square(key: &Key) -> bool {
    match &key.value {
        KeyValue::Sides(sides) => sides.iter().all(|(width, length)| width == length),
        _ => true,
    }
}

/// Which numbers of an element differ from all of the keys.
fn differing(stated: &[usize], keys: &Keys<'_>, own: &Element, here: &ReadPassage<'_>, bare: Unit) -> Vec<usize> {
    if own.numbers.len() < 2 {
        return own.numbers.clone();
    }
    let best = stated.iter().map(|key| sides_off(&keys.list[*key], own, here, bare)).min_by_key(Vec::len);
    best.filter(|numbers| !numbers.is_empty()).unwrap_or_else(|| own.numbers.clone())
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
