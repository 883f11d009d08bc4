//! Lines of cutting and runs over the sizes, which go to what fits them as a whole.

use std::collections::{BTreeMap, BTreeSet};

use super::candidates::Candidates;
use super::compare::{Fit, compare};
use super::context::ReadPassages;
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Section};
use crate::quantity::Unit;

/// For each line of cutting the pieces that most of its numbers fit; the numbers of the line are of these.
pub(super) fn fit_lines(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates], bare: Unit) {
    let mut groups: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        groups.entry(candidates.group).or_default().push(index);
    }
    for members in groups.values() {
        let cuts = |index: &usize| {
            let around = &open[*index].around;
            let says =
                open[*index].is_named || around.noun_is_near || around.in_table || around.acts & Act::Cut.bit() != 0;
            says && (around.acts & Act::Cut.bit() != 0
                || around.acts & (Act::Make.bit() | Act::Sew.bit() | Act::Measured.bit() | Act::Trimmed.bit()) == 0)
        };
        let members: Vec<usize> = members.iter().copied().filter(cuts).collect();
        let members = &members;
        let mut fits: BTreeMap<Cue, BTreeSet<usize>> = BTreeMap::new();
        let mut owners_of: BTreeSet<Cue> = BTreeSet::new();
        for index in members {
            let candidates = &open[*index];
            let own = &read.list[candidates.passage].elements[candidates.element];
            for key in candidates.keys.iter().map(|key| &keys.list[*key]) {
                for owner in owners(key) {
                    owners_of.insert(owner);
                    let same = !(candidates.around.of_each && matches!(key.value, KeyValue::Count(_)))
                        && compare(key, own, &read.list[candidates.passage], bare) == Fit::Same;
                    if same && key.is_stated() {
                        fits.entry(owner).or_default().insert(*index);
                    }
                }
            }
        }
        let most = fits.values().map(BTreeSet::len).max().unwrap_or(0);
        if owners_of.len() < 2 || most == 0 {
            continue;
        }
        let best: Vec<Cue> = fits.iter().filter(|(_, fit)| fit.len() == most).map(|(owner, _)| *owner).collect();
        for index in members {
            let candidates = &mut open[*index];
            let of_best = |key: &usize| owners(&keys.list[*key]).any(|owner| best.contains(&owner));
            let has_owner = candidates.keys.iter().any(of_best);
            let others = fits
                .iter()
                .filter(|(owner, _)| best.contains(owner))
                .any(|(_, fit)| fit.iter().any(|other| other != index));
            // What its own part of the sentence names needs no other to say what it is.
            if has_owner && !candidates.named_near && (others || most > 1) {
                candidates.keys.retain(of_best);
                candidates.is_named = true;
            }
        }
    }
}

/// For each run over the sizes, and each row of a table, what most of its numbers are; the others are the same.
pub(super) fn fit_runs(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates], bare: Unit) {
    let mut runs: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        let here = &read.list[candidates.passage];
        let run = here.elements[candidates.element].in_run.map(|(run, _)| (candidates.passage, run));
        let of_row = here.is_cell() && here.elements.len() == 1 && candidates.around.sizes.len() == 1;
        if let Some(run) = run.or_else(|| of_row.then(|| read.row_of(candidates.passage)).flatten()) {
            runs.entry(run).or_default().push(index);
        }
    }
    for members in runs.values().filter(|members| members.len() > 1) {
        let mut fits: BTreeMap<(What, &[Cue]), BTreeSet<usize>> = BTreeMap::new();
        for index in members {
            let candidates = &open[*index];
            let here = &read.list[candidates.passage];
            for key in candidates.keys.iter().map(|key| &keys.list[*key]) {
                if compare(key, &here.elements[candidates.element], here, bare) == Fit::Same {
                    fits.entry((key.what, key.of.as_slice())).or_default().insert(*index);
                }
            }
        }
        let most = fits.values().map(BTreeSet::len).max().unwrap_or(0);
        if most * 2 < members.len() {
            continue;
        }
        let best: Vec<(What, &[Cue])> = fits.iter().filter(|(_, fit)| fit.len() == most).map(|(of, _)| *of).collect();
        for index in members {
            let of_best = |key: &usize| best.contains(&(keys.list[*key].what, keys.list[*key].of.as_slice()));
            if open[*index].keys.iter().any(of_best) {
                open[*index].keys.retain(of_best);
                open[*index].is_named |= most > 1;
            }
        }
    }
}

/// What a line of cutting is about: a piece, or the binding, the backing and so on.
fn owners(key: &Key) -> impl Iterator<Item = Cue> + '_ {
    let is_bought = matches!(key.what, What::Amount | What::Bought);
    let has_piece = key.of.iter().any(|cue| matches!(cue, Cue::Piece(..)));
    key.of.iter().copied().filter(move |cue| match cue {
        _ if is_bought => false,
        Cue::Piece(..) => true,
        Cue::Section(Section::Binding | Section::Backing | Section::Flange | Section::Sleeve)
        | Cue::Unit(_)
        | Cue::Block(_) => !has_piece,
        _ => false,
    })
}
