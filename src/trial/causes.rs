//! Which findings follow from another: its number is computed from the one that is corrected, and it is gone with it.

use std::collections::{BTreeMap, BTreeSet};

use super::rounds::Proposal;
use super::tries::Trial;
use crate::finding::{Cause, Finding};
use crate::manuscript::Span;

/// For each finding the others that may follow from it: at a number that is computed from the one that it is about, or
/// from one that a correction changes.
pub(super) fn links(findings: &[Finding], proposals: &[Proposal<'_>]) -> Vec<Vec<usize>> {
    let mut linked = vec![BTreeSet::new(); findings.len()];
    for proposal in proposals {
        linked[proposal.index].extend(&proposal.dependents);
    }
    for (index, linked) in linked.iter_mut().enumerate().filter(|(_, linked)| !linked.is_empty()) {
        let cause = &findings[index];
        let changed: Vec<Span> = super::proposals(cause).map(|correction| correction.at).chain([cause.at.at]).collect();
        // An error is not folded under less than an error.
        linked.retain(|other: &usize| {
            let finding = &findings[*other];
            finding.level <= cause.level && !changed.iter().any(|at| at.overlaps(finding.at.at))
        });
    }
    linked.into_iter().map(|linked| linked.into_iter().collect()).collect()
}

/// Names the cause of each finding that is gone once another is corrected. What has a cause is no cause itself.
pub(super) fn relate(findings: &mut [Finding], linked: &[Vec<usize>], trials: &BTreeMap<usize, Trial>) {
    let following = |index: &usize, trial: &Trial| -> Vec<usize> {
        linked[*index].iter().copied().filter(|other| trial.gone.binary_search(other).is_ok()).collect()
    };
    let mut causes: Vec<(usize, Vec<usize>)> =
        trials.iter().map(|(index, trial)| (*index, following(index, trial))).collect();
    causes.retain(|(_, following)| !following.is_empty());
    // The one that explains most first.
    causes.sort_by_key(|(index, following)| (std::cmp::Reverse(following.len()), *index));
    let mut explained = BTreeSet::new();
    let mut explaining = BTreeSet::new();
    for (index, following) in causes {
        if explained.contains(&index) {
            continue;
        }
        let cause = Cause::of(&findings[index]);
        for other in following {
            if explaining.contains(&other) || !explained.insert(other) {
                continue;
            }
            explaining.insert(index);
            findings[other].follow_from(cause.clone());
        }
        let correction = &trials[&index].correction;
        if explaining.contains(&index) && !correction.at.overlaps(cause.at) {
            let words = format!("{} here would make it right", correction.replacement);
            let finding = findings[index].clone();
            findings[index] = finding.see(Some(correction.at), words);
        }
    }
}
