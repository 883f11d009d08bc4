//! Which corrections can be tried in one check, because none of them touches what another is about.
//!
//! Corrections share a check where no finding depends on two of them and none of their findings depends on another of
//! them: what is gone then is gone by one of them alone. Sizes are compared with each other, so a number hangs on those of
//! its requirement that are said to be generous. What is accepted hangs on all that is found, and is tried apart.

use std::collections::{BTreeMap, BTreeSet};

use super::proposals;
use crate::finding::{Correction, Finding, Level};
use crate::manuscript::{Manuscript, Span, SpanIndex};
use crate::quantity::{Length, Measure, Written, read_dimensions};
use crate::requirement::Needs;
use crate::requirement::dependencies::Dependencies;
use crate::requirement::scale::SizeNumbers;
use crate::requirement::series::AllSeries;
use crate::rules::TELL_WHAT_IS_UNREAD;

/// A correction of a finding.
#[derive(Clone, Debug)]
pub(super) struct Proposal<'f> {
    /// The finding, by its place in the list.
    pub(super) index: usize,
    /// Which of its corrections this is; the rule's own is the first.
    pub(super) place: usize,
    pub(super) correction: &'f Correction,
    /// The other findings that may be gone with it.
    pub(super) dependents: BTreeSet<usize>,
    /// The places of the numbers that it may change what is needed of, its finding's among them.
    numbers: BTreeSet<Span>,
    /// The requirements with generous numbers that it changes a number of, or what is needed of a generous one.
    compared: BTreeSet<usize>,
    /// Whether it is in what the editor has accepted.
    of_acceptance: bool,
    /// The rule, where it is about what cannot be read, or a piece that nobody cuts: with that any number may hang on
    /// others than before.
    slip: Option<&'static str>,
    /// The size that it names, where nobody knew for which a requirement is: one may hang on another of the same size.
    named_size: Option<&'f str>,
    /// Whether others that are made at once might hide what it brings: a size would look scaled from another with it, or
    /// it corrects a word on which any number may hang, such as `measure`, or `finished` of a size.
    alone: bool,
}

/// The corrections of all findings, with what depends on each.
pub(super) fn with_dependents<'f>(text: &str, manuscript: &Manuscript, findings: &'f [Finding]) -> Vec<Proposal<'f>> {
    let dependencies = Dependencies::of(manuscript, findings.iter().map(|finding| finding.at.at));
    let entries = (0..findings.len()).flat_map(|index| dependencies.entries(index).iter().map(move |at| (index, *at)));
    let (owners, places): (Vec<usize>, Vec<Span>) = entries.unzip();
    let by_place = SpanIndex::new(places);
    let sections = Sections::of(text);
    let accepted = SpanIndex::new(manuscript.accepted.iter().map(|accepted| accepted.at));
    let of_correction = |index: usize, place: usize, correction: &'f Correction| {
        let changed = [correction.at, findings[index].at.at];
        let entries = changed.into_iter().flat_map(|at| by_place.overlapping(at)).map(|entry| owners[entry]);
        let mut dependents: BTreeSet<usize> = entries.collect();
        dependents.remove(&index);
        let of_acceptance = accepted.overlapping(correction.at).next().is_some();
        let numbers = BTreeSet::from(changed);
        let rule = findings[index].rule;
        let slip = (TELL_WHAT_IS_UNREAD.contains(&rule) || rule == NAMES_A_PIECE).then_some(rule);
        let named_size = (rule == "unknown-size").then_some(correction.replacement.as_str());
        let alone = rule == "unknown-word" && !sections.are_requirements_at(text, correction.at);
        Proposal {
            index,
            place,
            correction,
            dependents,
            numbers,
            compared: BTreeSet::new(),
            of_acceptance,
            slip,
            named_size,
            alone,
        }
    };
    let of_finding = |index: usize| {
        let each = proposals(&findings[index]).enumerate();
        each.map(move |(place, correction)| (index, place, correction))
    };
    let all = (0..findings.len()).flat_map(of_finding);
    all.map(|(index, place, correction)| of_correction(index, place, correction)).collect()
}

/// The rule whose correction is another piece: the numbers of that piece hang then on what they did not.
const NAMES_A_PIECE: &str = "piece-not-cut";

/// The sections of which each states one requirement, or those of each fabric: no other hangs on what they say within.
const REQUIREMENTS: [&str; 4] = ["binding", "backing", "batting", "fabrics"];

/// Where each section of a text begins, and whether it states a requirement.
struct Sections(Vec<(usize, bool)>);

impl Sections {
    fn of(text: &str) -> Sections {
        let mut sections = Vec::new();
        let mut start = 0;
        for line in text.split_inclusive(['\n', '\r']) {
            if line.starts_with(|first: char| !first.is_whitespace() && first != '#') {
                let word = line.split_once(':').map(|(word, _)| word.trim_matches(['"', '\'', ' ']));
                sections.push((start, word.is_some_and(|word| REQUIREMENTS.contains(&word))));
            }
            start += line.len();
        }
        Sections(sections)
    }

    /// Whether a word stands within a requirement, set in by more than one step: any other, such as a word of the pattern
    /// as a whole or of its sizes, may let anything be computed that was not.
    fn are_requirements_at(&self, text: &str, at: Span) -> bool {
        let before = text.get(..at.start).unwrap_or_default();
        let above = before.trim_end_matches([' ', '\t']);
        let begins_line = above.is_empty() || above.ends_with(['\n', '\r']);
        if begins_line && before.len() - above.len() <= 2 {
            return false;
        }
        let sections = self.0.partition_point(|(start, _)| *start <= at.start);
        self.0[..sections].last().is_some_and(|(_, requires)| *requires)
    }
}

/// Adds to each correction which numbers are computed from what it changes, whether or not anything is found at them, and
/// with which they are compared. One correction alone needs none of it.
pub(super) fn add_numbers(
    manuscript: &Manuscript,
    needs: &Needs<'_>,
    findings: &[Finding],
    proposals: &mut [Proposal<'_>],
) {
    if proposals.len() < 2 {
        return;
    }
    let compared = Compared::new(&needs.series, findings);
    let numbers_of_sizes = SizeNumbers::of(&manuscript.sizes, &needs.series, &needs.fabrics);
    let places: Vec<Span> = proposals.iter().map(|proposal| proposal.correction.at).collect();
    let read = Dependencies::readers(manuscript, &places);
    for (proposal, numbers) in proposals.iter_mut().zip(read) {
        let generous = numbers.iter().flat_map(|number| compared.generous_at(*number));
        proposal.compared = compared.with(proposal.correction.at).chain(generous).collect();
        proposal.numbers.extend(numbers);
        proposal.alone |= numbers_of_sizes.are_scaled_with(proposal.correction.at);
    }
    let order = SizeOrder::of(manuscript);
    let changes: Vec<bool> = proposals.iter().map(|proposal| order.changes_with(proposal.correction)).collect();
    if changes.iter().filter(|changes| **changes).count() <= MOST_OF_ORDER {
        for (proposal, changes) in proposals.iter_mut().zip(changes) {
            proposal.alone |= changes;
        }
    }
}

/// Up to how many corrections that change the order of the sizes are tried each by itself: where nearly every size is
/// wrong in one way, all are.
const MOST_OF_ORDER: usize = 24;

/// The finished sizes, by which it goes in what order the numbers of the sizes are compared.
struct SizeOrder {
    measure: Measure,
    sizes: Vec<(Span, (Length, Length))>,
}

impl SizeOrder {
    fn of(manuscript: &Manuscript) -> SizeOrder {
        let finished = manuscript.sizes.iter().filter_map(|size| size.finished.at().zip(size.finished.value()));
        SizeOrder { measure: manuscript.measure, sizes: finished.map(|(at, sides)| (at, lengths(sides))).collect() }
    }

    /// Whether a size would stand otherwise to another, larger or smaller.
    fn changes_with(&self, correction: &Correction) -> bool {
        let Some((own_at, own)) = self.sizes.iter().find(|(at, _)| at.overlaps(correction.at)) else { return false };
        let Ok(new) = read_dimensions(&correction.replacement, self.measure).map(lengths) else { return true };
        let stands = |one: (Length, Length), other: (Length, Length)| (one.0.cmp(&other.0), one.1.cmp(&other.1));
        self.sizes.iter().any(|(at, other)| at != own_at && stands(*own, *other) != stands(new, *other))
    }
}

const fn lengths((width, length): (Written, Written)) -> (Length, Length) {
    (width.length, length.length)
}

/// The numbers that are compared across the sizes, of requirements of which one is said to be generous.
struct Compared {
    numbers: SpanIndex,
    /// The requirement of each number, and whether the number is said to be generous.
    requirement: Vec<(usize, bool)>,
}

impl Compared {
    fn new(series: &AllSeries<'_>, findings: &[Finding]) -> Compared {
        let notes = findings.iter().filter(|finding| finding.level == Level::Note);
        let by_place = SpanIndex::new(notes.map(|finding| finding.at.at));
        let (mut places, mut requirement) = (Vec::new(), Vec::new());
        for (at, series) in series.each().enumerate() {
            let generous = series.numbers.iter().map(|number| by_place.overlapping(number.at).next().is_some());
            let generous: Vec<bool> = generous.collect();
            if generous.contains(&true) {
                places.extend(series.numbers.iter().map(|number| number.at));
                requirement.extend(generous.into_iter().map(|generous| (at, generous)));
            }
        }
        Compared { numbers: SpanIndex::new(places), requirement }
    }

    /// The requirements of the numbers at a place.
    fn with(&self, at: Span) -> impl Iterator<Item = usize> {
        self.numbers.overlapping(at).map(|number| self.requirement[number].0)
    }

    /// The requirements of the generous numbers at a place.
    fn generous_at(&self, at: Span) -> impl Iterator<Item = usize> {
        let numbers = self.numbers.overlapping(at).map(|number| self.requirement[number]);
        numbers.filter(|(_, generous)| *generous).map(|(requirement, _)| requirement)
    }
}

/// Corrections that are tried together.
#[derive(Debug, Default)]
pub(super) struct Round<'f> {
    pub(super) proposals: Vec<Proposal<'f>>,
    members: BTreeSet<usize>,
    dependents: BTreeSet<usize>,
    numbers: BTreeSet<Span>,
    compared: BTreeSet<usize>,
    taken: BTreeMap<usize, Span>,
    of_acceptances: bool,
    slips: Option<&'static str>,
    named_sizes: BTreeSet<&'f str>,
    /// Whether it has one correction and takes no other.
    alone: bool,
}

/// How many rounds are begun at most: each correction is held against all of them.
const MAX_ROUNDS: usize = 256;

/// Corrections laid into as few rounds as are soon found, and those for which no round is left, of so many at most.
pub(super) fn rounds(proposals: Vec<Proposal<'_>>, most: usize) -> (Vec<Round<'_>>, Vec<Proposal<'_>>) {
    let (mut rounds, mut left_out): (Vec<Round<'_>>, Vec<Proposal<'_>>) = (Vec::new(), Vec::new());
    for proposal in proposals {
        let index = rounds.iter().position(|round| round.takes(&proposal));
        match index {
            Some(index) => rounds[index].add(proposal),
            None if rounds.len() < most.min(MAX_ROUNDS) => {
                let Proposal { of_acceptance, slip, alone, .. } = proposal;
                let mut round = Round { of_acceptances: of_acceptance, slips: slip, alone, ..Round::default() };
                round.add(proposal);
                rounds.push(round);
            }
            None => left_out.push(proposal),
        }
    }
    (rounds, left_out)
}

impl<'f> Round<'f> {
    fn takes(&self, proposal: &Proposal<'f>) -> bool {
        let Proposal {
            index, correction, dependents, numbers, compared, of_acceptance, slip, named_size, alone, ..
        } = proposal;
        !alone
            && !self.alone
            && self.of_acceptances == *of_acceptance
            && self.slips == *slip
            && named_size.is_none_or(|size| !self.named_sizes.contains(size))
            && !self.members.contains(index)
            && !self.dependents.contains(index)
            && dependents.is_disjoint(&self.members)
            && dependents.is_disjoint(&self.dependents)
            && numbers.is_disjoint(&self.numbers)
            && compared.is_disjoint(&self.compared)
            && self.is_apart(correction.at)
    }

    /// Whether a place is none of those that are corrected already, nor beside one.
    fn is_apart(&self, at: Span) -> bool {
        let before = self.taken.range(..=at.start).next_back();
        let after = self.taken.range(at.start..).next();
        let apart = |other: Span| other.end < at.start || at.end < other.start;
        before.into_iter().chain(after).all(|(_, other)| apart(*other))
    }

    fn add(&mut self, proposal: Proposal<'f>) {
        self.members.insert(proposal.index);
        self.dependents.extend(&proposal.dependents);
        self.numbers.extend(&proposal.numbers);
        self.compared.extend(&proposal.compared);
        self.named_sizes.extend(proposal.named_size);
        self.taken.insert(proposal.correction.at.start, proposal.correction.at);
        self.proposals.push(proposal);
    }
}
