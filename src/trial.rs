//! Trying corrections on a copy of the text: whether the finding is gone, whether another comes, and which others go.
//!
//! Nothing here computes what a correction does: the corrected text is read and checked like any other, so that a
//! correction that is offered is right, and what is said to follow from a finding does. Only YAML is not parsed again
//! where one number takes the place of another ([`ReadText::with_value`]), which is most of the time that a trial takes.
//!
//! A trial takes a check of the corrected text, so corrections are tried only for reports that show them. A finding
//! follows from another if the number at its place is computed from the one that is corrected
//! (`requirement/dependencies.rs`) and if it is gone once the other is corrected, with nothing new; one that stays or
//! changes stands by itself. None is put under an accepted finding, which will not be corrected, nor under one of a
//! lower level, which might be overlooked. A finished size that is not what the layout makes has several corrections,
//! the size or one number of the layout, and so have rows of a block or of a layout, counts of blocks, log cabins and what
//! is measured with its seams: of those that bring nothing new, the one is offered with which the most other findings are
//! gone.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use crate::finding::{Cause, Correction, Finding, Subject};
use crate::manuscript::{Manuscript, ReadText, Source, Span, read};
use crate::requirement::about::go_by_design;
use crate::requirement::dependencies::Dependencies;
use crate::rule_book::Settings;
use crate::run_rules::find_in;

/// How many bytes are checked again, in all, to try corrections: beyond a thousand tries of a long manuscript.
const MAX_BYTES_TRIED: usize = 64 * 1024 * 1024;

/// What looking for the word that was meant costs, in bytes that are checked in the same time.
const BYTES_PER_MISTAKE: usize = 1024;

/// Whether the findings come with their corrections, each of which takes another check to try.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corrections {
    /// Each is tried, and offered where it brings no other finding.
    Tried,
    /// None is offered: for reports that do not show them.
    #[default]
    LeftOut,
}

/// A correction that clears its finding and brings no other.
#[derive(Debug)]
struct Trial {
    correction: Correction,
    /// The other findings that are gone with it, by their places in the list.
    gone: Vec<usize>,
}

/// Settles which corrections are offered and which findings follow from another.
///
/// A correction is offered where it brings no other finding. Where none are asked for, only those are tried on which
/// another finding may depend, and none is kept.
pub(crate) fn settle(
    source: &Source,
    read: &ReadText<'_>,
    settings: &Settings,
    corrections: Corrections,
    findings: &mut [Finding],
) {
    let manuscript = &read.manuscript;
    if findings.iter().all(|finding| proposals(finding).next().is_none()) {
        return;
    }
    let linked = links(manuscript, findings);
    let asked = corrections == Corrections::Tried;
    let mut wanted: Vec<usize> = (0..findings.len())
        .filter(|index| proposals(&findings[*index]).next().is_some() && (asked || !linked[*index].is_empty()))
        .collect();
    let mistakes = manuscript.mistakes.len() + manuscript.accepted.len();
    let mut left = MAX_BYTES_TRIED / (source.text.len() + mistakes * BYTES_PER_MISTAKE).max(1);
    let untried = wanted.iter().position(|index| {
        let tries = proposals(&findings[*index]).count();
        let enough = tries <= left;
        left = left.saturating_sub(tries);
        !enough
    });
    let untried = wanted.split_off(untried.unwrap_or(wanted.len()));
    let bench = Bench::new(source, read, settings, findings);
    let tried: Vec<(usize, Result<Trial, Brings>)> =
        wanted.par_iter().map(|index| (*index, bench.best(*index))).collect();
    let (mut trials, mut withheld) = (BTreeMap::new(), Vec::new());
    for (index, trial) in tried {
        match trial {
            Ok(trial) => drop(trials.insert(index, trial)),
            // What a rule does not say itself is not missed.
            Err(brings) if findings[index].correction.is_some() || matches!(brings, Brings::OneOfSeveral) => {
                withheld.push((index, brings.words()));
            }
            Err(_) => {}
        }
    }
    relate(findings, &linked, &trials);
    for finding in findings.iter_mut() {
        finding.correction = None;
        finding.other_corrections.clear();
    }
    if asked {
        for (index, trial) in trials {
            findings[index].correction = Some(trial.correction);
        }
        for (index, why) in withheld {
            findings[index].withheld = Some(why);
        }
        for index in untried {
            let finding = findings[index].clone();
            findings[index] =
                finding.help("No correction is offered: the file is too long to try one for each finding.");
            findings[index].withheld = Some("the file is too long to try one for each finding".to_string());
        }
    }
}

/// Why a correction is not offered.
#[derive(Debug)]
enum Brings {
    /// Its own finding stays.
    NoChange,
    /// Another finding comes: its rule, and what it is about.
    Another(&'static str, Option<String>),
    /// Another would do as well, and the rule prefers none.
    OneOfSeveral,
}

impl Brings {
    fn words(&self) -> String {
        match self {
            Brings::NoChange => "it would not clear the finding by itself".to_string(),
            Brings::OneOfSeveral => "several numbers could be meant, and each would clear it".to_string(),
            Brings::Another(rule, None) => format!("it would bring another finding: {rule}"),
            Brings::Another(rule, Some(about)) => format!("it would bring another finding: {rule} ({about})"),
        }
    }
}

/// The corrections of a finding, the one that the rule prefers first.
fn proposals(finding: &Finding) -> impl Iterator<Item = &Correction> {
    finding.correction.iter().chain(&finding.other_corrections)
}

/// For each finding with a correction the others that may follow from it: at a number that is computed from the one
/// that it is about, or from one that a correction changes.
fn links(manuscript: &Manuscript, findings: &[Finding]) -> Vec<Vec<usize>> {
    let dependencies = Dependencies::of(manuscript, findings.iter().map(|finding| finding.at.at));
    let links_of = |index: usize, cause: &Finding| -> Vec<usize> {
        if proposals(cause).next().is_none() {
            return Vec::new();
        }
        let changed: Vec<Span> = proposals(cause).map(|correction| correction.at).chain([cause.at.at]).collect();
        let follows = |other: usize| {
            let finding = &findings[other];
            let elsewhere = !changed.iter().any(|at| at.overlaps(finding.at.at));
            // An error is not folded under less than an error.
            let may_fold = other != index && finding.level <= cause.level && elsewhere;
            may_fold && dependencies.entries(other).iter().any(|read| changed.iter().any(|at| at.overlaps(*read)))
        };
        (0..findings.len()).filter(|other| follows(*other)).collect()
    };
    findings.iter().enumerate().map(|(index, finding)| links_of(index, finding)).collect()
}

/// Names the cause of each finding that is gone once another is corrected. What has a cause is no cause itself.
fn relate(findings: &mut [Finding], linked: &[Vec<usize>], trials: &BTreeMap<usize, Trial>) {
    let following = |index: &usize, trial: &Trial| -> Vec<usize> {
        linked[*index].iter().copied().filter(|other| trial.gone.contains(other)).collect()
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

/// What tells a finding from another: its rule, its size and its subject.
type Key<'f> = (&'static str, Option<&'f str>, &'f Subject);

fn key(finding: &Finding) -> Key<'_> {
    (finding.rule, finding.size.as_deref(), &finding.subject)
}

/// A text with its findings, on which corrections are tried one at a time.
struct Bench<'a> {
    source: &'a Source,
    read: &'a ReadText<'a>,
    settings: Settings,
    findings: &'a [Finding],
    /// The findings by what they are about.
    known: BTreeMap<Key<'a>, Vec<usize>>,
}

impl<'a> Bench<'a> {
    fn new(source: &'a Source, read: &'a ReadText<'a>, settings: &Settings, findings: &'a [Finding]) -> Bench<'a> {
        let mut known: BTreeMap<Key<'a>, Vec<usize>> = BTreeMap::new();
        for (index, finding) in findings.iter().enumerate() {
            known.entry(key(finding)).or_default().push(index);
        }
        // What a trial asks of the rule book is no assumption of the manuscript.
        Bench { source, read, settings: settings.keeping_nothing(), findings, known }
    }

    /// The correction that brings no other finding; of several, the one with which most others are gone, and none where
    /// as many are gone with another and the rule prefers neither. Where each brings one, what the rule's own does.
    fn best(&self, index: usize) -> Result<Trial, Brings> {
        let mut best: Result<Trial, Brings> = Err(Brings::NoChange);
        let mut others_do = false;
        for (place, correction) in proposals(&self.findings[index]).enumerate() {
            match (self.gone(index, correction), &best) {
                (Ok(gone), Ok(best)) if best.gone.len() >= gone.len() => others_do |= best.gone.len() == gone.len(),
                (Ok(gone), _) => {
                    others_do = false;
                    best = Ok(Trial { correction: correction.clone(), gone });
                }
                (Err(brings), Err(_)) if place == 0 => best = Err(brings),
                (Err(_), _) => {}
            }
        }
        if others_do && self.findings[index].correction.is_none() { Err(Brings::OneOfSeveral) } else { best }
    }

    /// The other findings that are gone with a correction, unless it brings one or its own stays.
    fn gone(&self, own: usize, correction: &Correction) -> Result<Vec<usize>, Brings> {
        let text = Source::from_text(&self.source.path, correction.apply(&self.source.text));
        let corrected = self.read.with_value(correction.at, &correction.replacement);
        let mut corrected = corrected.unwrap_or_else(|| read(&text));
        go_by_design(&mut corrected, &self.settings);
        let after = find_in(&text, &corrected, &self.settings).findings;
        let mut left = vec![true; self.findings.len()];
        left[own] = false;
        let mut elsewhere = Vec::new();
        // The same at the same place first: of two alike, the other one is gone.
        for finding in &after {
            let brings = || Brings::Another(finding.rule, finding.about_words());
            let alike = self.known.get(&key(finding)).ok_or_else(brings)?;
            let moved = |at: Span| at.after_replacing(correction.at, correction.replacement.len());
            let same = |index: &&usize| left[**index] && moved(self.findings[**index].at.at) == finding.at.at;
            match alike.iter().find(same) {
                Some(index) => left[*index] = false,
                None => elsewhere.push((finding, alike)),
            }
        }
        for (finding, alike) in elsewhere {
            // Of as many alike as before, it is the finding's own that stays.
            let index = alike.iter().find(|index| left[**index]).ok_or_else(|| {
                if alike.contains(&own) {
                    Brings::NoChange
                } else {
                    Brings::Another(finding.rule, finding.about_words())
                }
            })?;
            left[*index] = false;
        }
        Ok(left.iter().enumerate().filter(|(_, left)| **left).map(|(index, _)| index).collect())
    }
}
