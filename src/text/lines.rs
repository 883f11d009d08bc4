//! Lines of cutting, which go to what fits them as a whole.

use std::collections::{BTreeMap, BTreeSet};

use super::candidates::Candidates;
use super::compare::Fit;
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Section};

/// For each line of cutting the pieces that most of its numbers fit; the numbers of the line are of these.
pub(super) fn fit_lines(keys: &Keys<'_>, open: &mut [Candidates]) {
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
            for (at, key) in candidates.keys.iter().map(|key| (*key, &keys.list[*key])) {
                for owner in owners(key) {
                    owners_of.insert(owner);
                    let same = !(candidates.around.of_each && matches!(key.value, KeyValue::Count(_)))
                        && candidates.fits.fit(keys, at) == Fit::Same;
                    if same && key.is_stated() {
                        fits.entry(owner).or_default().insert(*index);
                    }
                }
            }
        }
        let most = fits.values().map(BTreeSet::len).max().unwrap_or(0);
        if most == 0 {
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
            candidates.is_lined |= has_owner && others && best.len() == 1;
            // So does another number of the line that fits what is named here.
            let mut named = candidates.keys.iter().flat_map(|key| owners(&keys.list[*key])).collect::<Vec<_>>();
            named.sort_unstable();
            named.dedup();
            if let ([only], true) = (&named[..], candidates.is_named) {
                candidates.is_lined |= fits.get(only).is_some_and(|fit| fit.iter().any(|other| other != index));
            }
            // What its own part of the sentence names needs no other to say what it is.
            if has_owner && owners_of.len() > 1 && !candidates.named_near && (others || most > 1) {
                candidates.keys.retain(of_best);
                candidates.is_named = true;
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
