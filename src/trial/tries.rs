//! Trying corrections: what a text is with them, and what the rules find in it.
//!
//! Corrections that do not touch each other ([`super::rounds`]) are tried in one check. Where that brings another finding,
//! what stands on its line is withheld and the others are tried again.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::rounds::{Proposal, Round};
use crate::finding::{Correction, Finding, Subject};
use crate::manuscript::{Manuscript, ReadText, Replacements, Source, Span, read};
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;
use crate::run_rules::find_unworded;

/// A correction that clears its finding and brings no other.
#[derive(Debug)]
pub(super) struct Trial {
    pub(super) correction: Correction,
    /// The other findings that are gone with it, by their places in the list.
    pub(super) gone: Vec<usize>,
}

/// How many bytes of text are worth sharing among the processor's cores: starting the threads takes as long as checking
/// several small manuscripts.
const WORTH_SHARING: usize = 256 * 1024;

/// What came of a correction: the other findings that are gone with it, or why it is not offered. `None` where there
/// were too many to try.
pub(super) type Tried = Option<Result<Vec<usize>, Brings>>;

/// What came of several corrections made at once.
#[derive(Debug, Default)]
struct Change {
    /// The findings that are gone.
    gone: BTreeSet<usize>,
    /// Those of the corrected findings that stay.
    staying: BTreeSet<usize>,
    /// Findings that were not there: their lines, their sizes, and what they are.
    new: Vec<(usize, Option<String>, Brings)>,
}

/// Why a correction is not offered.
#[derive(Debug)]
pub(super) enum Brings {
    /// Its own finding stays.
    NoChange,
    /// Another finding comes: its rule, and what it is about.
    Another(&'static str, Option<String>),
    /// Another would do as well, and the rule prefers none.
    OneOfSeveral,
}

impl Brings {
    /// Whether it is a finding that compares a size with another.
    fn compares_sizes(&self) -> bool {
        matches!(self, Brings::Another("sizes-out-of-order" | "scaled-size", _))
    }

    /// Whether it is doubtful which number is meant.
    pub(super) fn is_doubt(&self) -> bool {
        matches!(self, Brings::OneOfSeveral)
    }

    pub(super) fn words(&self) -> String {
        match self {
            Brings::NoChange => "it would not clear the finding by itself".to_string(),
            Brings::OneOfSeveral => "several numbers could be meant, and each would clear it".to_string(),
            Brings::Another(rule, None) => format!("it would bring another finding: {rule}"),
            Brings::Another(rule, Some(about)) => format!("it would bring another finding: {rule} ({about})"),
        }
    }
}

/// What tells a finding from another: its rule, its size and its subject.
type Key<'f> = (&'static str, Option<&'f str>, &'f Subject);

fn key(finding: &Finding) -> Key<'_> {
    (finding.rule, finding.size.as_deref(), &finding.subject)
}

/// A text with its findings, on which corrections are tried.
pub(super) struct Bench<'a> {
    source: &'a Source,
    read: &'a ReadText<'a>,
    settings: Cow<'a, Settings>,
    pub(super) findings: &'a [Finding],
    /// The findings by what they are about.
    known: HashMap<Key<'a>, Vec<usize>>,
}

impl<'a> Bench<'a> {
    pub(super) fn new(
        source: &'a Source,
        read: &'a ReadText<'a>,
        settings: &'a Settings,
        findings: &'a [Finding],
    ) -> Bench<'a> {
        let mut known: HashMap<Key<'a>, Vec<usize>> = HashMap::with_capacity(findings.len());
        for (index, finding) in findings.iter().enumerate() {
            known.entry(key(finding)).or_default().push(index);
        }
        // What a trial asks of the rule book is no assumption of the manuscript.
        Bench { source, read, settings: settings.keeping_nothing(), findings, known }
    }

    /// Whether so many checks are shared among the processor's cores.
    pub(super) fn is_shared(&self, checks: usize) -> bool {
        checks > 1 && checks.saturating_mul(self.source.text.len()) >= WORTH_SHARING
    }

    /// Tries corrections that do not touch each other, in so many checks at most.
    pub(super) fn round(&self, round: &Round<'_>, checks: usize) -> Vec<(usize, usize, Tried)> {
        let all: Vec<&Proposal<'_>> = round.proposals.iter().collect();
        self.together(&all, checks)
    }

    fn together(&self, proposals: &[&Proposal<'_>], checks: usize) -> Vec<(usize, usize, Tried)> {
        let all = |tried: &dyn Fn(&Proposal<'_>) -> Tried| -> Vec<(usize, usize, Tried)> {
            proposals.iter().map(|proposal| (proposal.index, proposal.place, tried(proposal))).collect()
        };
        if checks == 0 || proposals.is_empty() {
            return all(&|_| None);
        }
        let change = self.change(proposals);
        if change.new.is_empty() && change.staying.is_empty() {
            let single = proposals.len() == 1;
            return all(&|proposal| {
                let of_it = |other: &&usize| single || proposal.dependents.contains(other);
                Some(Ok(change.gone.iter().filter(of_it).copied().collect()))
            });
        }
        if let [proposal] = proposals {
            return vec![(proposal.index, proposal.place, Some(Err(change.why())))];
        }
        let sorted = self.apart(proposals, change);
        let left = checks - 1;
        // Those that are not under suspicion go first, so that they do not wait behind what fails one by one.
        let for_first = (left * sorted.first.len()).div_ceil(proposals.len()).max(left.min(4));
        let first = || self.together(&sorted.first, for_first);
        let second = || self.together(&sorted.second, left - for_first);
        let both = sorted.first.len() + sorted.second.len();
        let (mut tried, second) = if self.is_shared(both) { rayon::join(first, second) } else { (first(), second()) };
        tried.extend(second);
        tried.extend(sorted.withheld);
        tried
    }

    /// The corrections sorted by where the new findings are. A correction that stands alone on the line of one is
    /// withheld for it; of several on a line the first is tried before the others. Where no line tells anything, those of
    /// the sizes of new findings are tried apart, or two halves.
    fn apart<'p, 'f>(&self, proposals: &[&'p Proposal<'f>], change: Change) -> Sorted<'p, 'f> {
        let mut by_line: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (at, proposal) in proposals.iter().enumerate() {
            by_line.entry(self.line(proposal.correction.at)).or_default().push(at);
        }
        let sizes: BTreeSet<Option<String>> = change.new.iter().map(|(_, size, _)| size.clone()).collect();
        let (mut withheld, mut second) = (BTreeMap::new(), BTreeSet::new());
        // What compares the sizes stands where one of several may have changed.
        for (line, _, brings) in change.new.into_iter().filter(|(.., brings)| !brings.compares_sizes()) {
            match by_line.get(&line).map_or(&[][..], Vec::as_slice) {
                [] => {}
                [alone] => drop(withheld.entry(*alone).or_insert(brings)),
                [_, others @ ..] => second.extend(others.iter().copied()),
            }
        }
        for (at, proposal) in proposals.iter().enumerate() {
            if change.staying.contains(&proposal.index) {
                withheld.entry(at).or_insert(Brings::NoChange);
            }
        }
        if withheld.is_empty() && second.is_empty() {
            let of_size = |at: &usize| {
                let size = &self.findings[proposals[*at].index].size;
                size.is_some() && sizes.contains(size)
            };
            second = (0..proposals.len()).filter(of_size).collect();
            if second.is_empty() || second.len() == proposals.len() {
                second = (proposals.len() / 2..proposals.len()).collect();
            }
        }
        let which = |wanted: bool| {
            let kept = (0..proposals.len()).filter(|at| !withheld.contains_key(at) && second.contains(at) == wanted);
            kept.map(|at| proposals[at]).collect()
        };
        let (first, second) = (which(false), which(true));
        let told = |(at, brings): (usize, Brings)| (proposals[at].index, proposals[at].place, Some(Err(brings)));
        Sorted { first, second, withheld: withheld.into_iter().map(told).collect() }
    }

    fn line(&self, at: Span) -> usize {
        self.source.place(at.start).line
    }

    /// What is found with some corrections that was not found before, and what is gone.
    fn change(&self, proposals: &[&Proposal<'_>]) -> Change {
        let made = proposals.iter().map(|proposal| (proposal.correction.at, proposal.correction.replacement.as_str()));
        let own: BTreeSet<usize> = proposals.iter().map(|proposal| proposal.index).collect();
        let Some(made) = Replacements::new(made) else {
            return Change { staying: own, ..Change::default() };
        };
        let text = Source::from_text(&self.source.path, made.apply(&self.source.text));
        let after = find_unworded(&text, &self.corrected(&text, &made), &self.settings).findings;
        let mut left: Vec<bool> = (0..self.findings.len()).map(|index| !own.contains(&index)).collect();
        let mut change = Change::default();
        let mut elsewhere = Vec::new();
        // The same at the same place first: of two alike, the other one is gone.
        for finding in &after {
            let alike = self.known.get(&key(finding)).map_or(&[][..], Vec::as_slice);
            let same = |index: &&usize| left[**index] && made.moved(self.findings[**index].at.at) == finding.at.at;
            match alike.iter().find(same) {
                Some(index) => left[*index] = false,
                None => elsewhere.push((finding, alike)),
            }
        }
        for (finding, alike) in elsewhere {
            // Of as many alike as before, it is the finding's own that stays.
            if let Some(index) = alike.iter().find(|index| left[**index]) {
                left[*index] = false;
            } else if let Some(index) = alike.iter().find(|index| own.contains(index)) {
                change.staying.insert(*index);
            } else {
                let brings = Brings::Another(finding.rule, finding.about_words());
                change.new.push((text.place(finding.at.at.start).line, finding.size.clone(), brings));
            }
        }
        change.gone = left.iter().enumerate().filter(|(_, left)| **left).map(|(index, _)| index).collect();
        change
    }

    /// The manuscript of the corrected text, parsed again only where more than numbers are put in.
    fn corrected(&self, text: &Source, made: &Replacements<'_>) -> Manuscript {
        let mut corrected = self.read.with_numbers(made).unwrap_or_else(|| read(text));
        go_by_design(&mut corrected, &self.settings);
        corrected
    }
}

/// Corrections that cannot all be made at once.
#[derive(Debug)]
struct Sorted<'p, 'f> {
    first: Vec<&'p Proposal<'f>>,
    second: Vec<&'p Proposal<'f>>,
    withheld: Vec<(usize, usize, Tried)>,
}

impl Change {
    /// Why a correction that made it is not offered.
    fn why(self) -> Brings {
        self.new.into_iter().next().map_or(Brings::NoChange, |(.., brings)| brings)
    }
}

/// The correction that brings no other finding; of several, the one with which most others are gone, and none where as
/// many are gone with another and the rule prefers neither. Where each brings one, what the rule's own does. `None` where
/// one of them was not tried.
pub(super) fn best(finding: &Finding, tried: Vec<Tried>) -> Option<Result<Trial, Brings>> {
    let mut best: Result<Trial, Brings> = Err(Brings::NoChange);
    let mut others_do = false;
    for ((place, correction), tried) in super::proposals(finding).enumerate().zip(tried) {
        match (tried?, &best) {
            (Ok(gone), Ok(best)) if best.gone.len() >= gone.len() => others_do |= best.gone.len() == gone.len(),
            (Ok(gone), _) => {
                others_do = false;
                best = Ok(Trial { correction: correction.clone(), gone });
            }
            (Err(brings), Err(_)) if place == 0 => best = Err(brings),
            (Err(_), _) => {}
        }
    }
    let doubtful = best.is_ok() && others_do && finding.correction.is_none();
    Some(if doubtful { Err(Brings::OneOfSeveral) } else { best })
}
