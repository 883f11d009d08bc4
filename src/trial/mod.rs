//! Trying corrections on a copy of the text: whether the finding is gone, whether another comes, and which others go.
//!
//! Nothing here computes what a correction does: the corrected text is read and checked like any other, so that a
//! correction that is offered is right, and what is said to follow from a finding does. Only YAML is not parsed again
//! where numbers take the places of others ([`ReadText::with_numbers`]), which is most of the time that a trial takes.
//!
//! A trial takes a check of the corrected text, so corrections are tried only for reports that show them. A finding
//! follows from another if the number at its place is computed from the one that is corrected
//! (`requirement/dependencies.rs`) and if it is gone once the other is corrected, with nothing new; one that stays or
//! changes stands by itself. None is put under an accepted finding, which will not be corrected, nor under one of a
//! lower level, which might be overlooked. A finished size that is not what the layout makes has several corrections,
//! the size or one number of the layout, and so have rows of a block or of a layout, counts of blocks, log cabins and what
//! is measured with its seams: of those that bring nothing new, the one is offered with which the most other findings are
//! gone.

mod causes;
mod rounds;
mod tries;

use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::finding::{Correction, Finding};
use crate::manuscript::{ReadText, Source};
use crate::requirement::Needs;
use crate::rule_book::Settings;
use causes::{links, relate};
use rounds::{Proposal, add_numbers, rounds, with_dependents};
use tries::{Bench, Brings, Trial, Tried, best};

/// How many bytes are checked again, in all, to try corrections: beyond a thousand tries of a long manuscript.
const MAX_BYTES_TRIED: usize = 16 * 1024 * 1024;

/// What looking for the word that was meant costs, in bytes that are checked in the same time.
const BYTES_PER_MISTAKE: usize = 128;

/// How many findings are held against each other: nobody reads more of one file.
const MAX_FINDINGS: usize = 5_000;

/// Whether the findings come with their corrections, each of which takes another check to try.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corrections {
    /// Each is tried, and offered where it brings no other finding.
    Tried,
    /// None is offered: for reports that do not show them.
    #[default]
    LeftOut,
}

/// Settles which corrections are offered and which findings follow from another.
///
/// A correction is offered where it brings no other finding. Where none are asked for, only those are tried on which
/// another finding may depend, and none is kept.
pub(crate) fn settle(
    source: &Source,
    (read, needs): (&ReadText<'_>, &Needs<'_>),
    settings: &Settings,
    corrections: Corrections,
    findings: &mut [Finding],
) {
    let manuscript = &read.manuscript;
    if findings.iter().all(|finding| proposals(finding).next().is_none()) {
        return;
    }
    let asked = corrections == Corrections::Tried;
    if let ([only], false) = (&mut *findings, asked) {
        // Nothing follows from it.
        take_out(only);
        return;
    }
    if findings.len() > MAX_FINDINGS {
        for finding in findings.iter_mut() {
            if take_out(finding) && asked {
                say_untried(finding);
            }
        }
        return;
    }
    let mut proposals = with_dependents(&source.text, manuscript, findings);
    let linked = links(findings, &proposals);
    proposals.retain(|proposal| asked || !linked[proposal.index].is_empty());
    if proposals.is_empty() {
        drop(proposals);
        for finding in findings.iter_mut() {
            take_out(finding);
        }
        return;
    }
    add_numbers(manuscript, needs, findings, &mut proposals);
    let mistakes = manuscript.mistakes.len() + manuscript.accepted.len();
    let checks = MAX_BYTES_TRIED / (source.text.len() + mistakes * BYTES_PER_MISTAKE).max(1);
    let (mut trials, mut withheld, mut untried) = (BTreeMap::new(), Vec::new(), Vec::new());
    for (index, tried) in try_all(&Bench::new(source, read, settings, findings), proposals, checks) {
        match tried {
            Some(Ok(trial)) => drop(trials.insert(index, trial)),
            // What a rule does not say itself is not missed.
            Some(Err(brings)) if findings[index].correction.is_some() || brings.is_doubt() => {
                withheld.push((index, brings.words()));
            }
            Some(Err(_)) => {}
            None => untried.push(index),
        }
    }
    relate(findings, &linked, &trials);
    for finding in findings.iter_mut() {
        take_out(finding);
    }
    if asked {
        for (index, trial) in trials {
            findings[index].correction = Some(trial.correction);
        }
        for (index, why) in withheld {
            findings[index].withheld = Some(why);
        }
        for index in untried {
            say_untried(&mut findings[index]);
        }
    }
}

/// Takes the corrections out of a finding. Whether it had any.
fn take_out(finding: &mut Finding) -> bool {
    let others = !std::mem::take(&mut finding.other_corrections).is_empty();
    finding.correction.take().is_some() || others
}

/// Says that the corrections of a finding were not tried.
fn say_untried(finding: &mut Finding) {
    *finding = finding.clone().help("No correction is offered: there are too many to try each.");
    finding.withheld = Some("there are too many to try each".to_string());
}

/// Tries the corrections of some findings, in so many checks at most. `None` where one was not tried.
fn try_all(
    bench: &Bench<'_>,
    proposals: Vec<Proposal<'_>>,
    checks: usize,
) -> Vec<(usize, Option<Result<Trial, Brings>>)> {
    let (rounds, left_out) = rounds(proposals, checks);
    // Each round has its share beforehand, so that nothing hangs on which of them is done first.
    let all: usize = rounds.iter().map(|round| round.proposals.len()).sum();
    let (mut left, mut shares) = (checks, Vec::new());
    for round in &rounds {
        let share = (checks * round.proposals.len()).div_ceil(all.max(1)).max(2).min(left);
        left -= share;
        shares.push(share);
    }
    let in_round = |(round, share)| bench.round(round, share);
    let tried: Vec<(usize, usize, Tried)> = if bench.is_shared(rounds.len()) {
        rounds.par_iter().zip(shares).flat_map_iter(in_round).collect()
    } else {
        rounds.iter().zip(shares).flat_map(in_round).collect()
    };
    let mut by_finding: BTreeMap<usize, Vec<(usize, Tried)>> = BTreeMap::new();
    for (index, place, tried) in tried {
        by_finding.entry(index).or_default().push((place, tried));
    }
    for proposal in left_out {
        by_finding.entry(proposal.index).or_default().push((proposal.place, None));
    }
    let in_order = |mut tried: Vec<(usize, Tried)>| {
        tried.sort_by_key(|(place, _)| *place);
        tried.into_iter().map(|(_, tried)| tried).collect()
    };
    by_finding.into_iter().map(|(index, tried)| (index, best(&bench.findings[index], in_order(tried)))).collect()
}

/// The corrections of a finding, the one that the rule prefers first.
fn proposals(finding: &Finding) -> impl Iterator<Item = &Correction> {
    finding.correction.iter().chain(&finding.other_corrections)
}
