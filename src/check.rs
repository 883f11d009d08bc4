//! Checking one manuscript: read it, compute what it needs, run the rules, lay the acceptances over the findings.

use std::collections::BTreeMap;

use crate::finding::{Finding, Label, Level};
use crate::manuscript::model::{Accepted, Blocks, Border, PerSize};
use crate::manuscript::{Field, Manuscript, Mistake, Source, Span, read};
use crate::quantity::Count;
use crate::requirement::Needs;
use crate::rule_book::Settings;
use crate::rules::{Context, RULES, Unused};

/// What was found in one file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The findings, by place.
    pub findings: Vec<Finding>,
    /// The findings that the editor has accepted, by place.
    pub accepted: Vec<AcceptedFinding>,
}

/// A finding that the editor has accepted, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AcceptedFinding {
    /// The finding.
    pub finding: Finding,
    /// Why it was accepted.
    pub because: String,
}

/// The rule that looks at acceptances and so runs after all others.
const AFTER_ACCEPTING: &str = "accepted-unused";

/// Reads and checks a manuscript.
pub fn check(source: &Source, settings: &Settings) -> Outcome {
    let mut outcome = check_manuscript(source, &read(source), settings);
    withhold_harmful(source, settings, &mut outcome);
    outcome
}

/// How many bytes are checked again, in all, to try corrections: a few hundred tries of an ordinary manuscript.
const MOST_BYTES_TRIED: usize = 1024 * 1024;

/// Takes back each correction that asked to be tried and would bring another finding.
fn withhold_harmful(source: &Source, settings: &Settings, outcome: &mut Outcome) {
    let before: Vec<Subject> = outcome.findings.iter().map(subject).collect();
    // A manuscript with hundreds of findings is not checked hundreds of times over.
    let mut tries = MOST_BYTES_TRIED / source.text.len().max(1);
    for finding in &mut outcome.findings {
        let Some(correction) = finding.correction.as_ref().filter(|correction| correction.if_harmless) else {
            continue;
        };
        if tries == 0 {
            finding.correction = None;
            continue;
        }
        tries -= 1;
        let text = Source::from_text(&source.path, correction.apply(&source.text));
        let after = check_manuscript(&text, &read(&text), settings);
        // Two pieces of one size may be about the same: of those, one less is left.
        let mut left = before.clone();
        let gone = subject(finding);
        left.remove(left.iter().position(|subject| *subject == gone).unwrap_or_default());
        let harmless = after.findings.iter().map(subject).all(|found| {
            let known = left.iter().position(|subject| *subject == found);
            known.map(|index| left.swap_remove(index)).is_some()
        });
        if !harmless {
            finding.correction = None;
        }
    }
}

/// What a finding is about: its rule and its size.
type Subject = (&'static str, Option<String>);

fn subject(finding: &Finding) -> Subject {
    (finding.rule, finding.size.clone())
}

/// Checks a manuscript that was read.
pub fn check_manuscript(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Outcome {
    let needs = Needs::new(manuscript, settings);
    let mut context = Context {
        source,
        manuscript,
        settings,
        binding: needs.binding.as_ref(),
        backing: needs.backing.as_ref(),
        batting: needs.batting.as_ref(),
        fabrics: &needs.fabrics,
        units: &needs.units,
        blocks: &needs.blocks,
        layouts: &needs.layouts,
        counts: &needs.counts,
        series: &needs.series,
        unused_acceptances: &[],
    };
    let findings = run(&context, |rule| rule != AFTER_ACCEPTING);
    let (mut outcome, unused) = lay_acceptances(manuscript, findings);
    context.unused_acceptances = &unused;
    outcome.findings.extend(run(&context, |rule| rule == AFTER_ACCEPTING));
    outcome.findings.sort_by(by_place);
    outcome.accepted.sort_by(|a, b| by_place(&a.finding, &b.finding));
    outcome
}

/// The mistakes of a house-rules file as findings.
pub fn house_findings(source: &Source, mistakes: Vec<Mistake>, settings: &Settings) -> Vec<Finding> {
    let manuscript = Manuscript { mistakes, ..Manuscript::default() };
    check_manuscript(source, &manuscript, settings).findings
}

fn run(context: &Context<'_>, wanted: impl Fn(&str) -> bool) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, rule) in RULES.iter().enumerate().filter(|(_, rule)| wanted(rule.name)) {
        let Some(level) = context.settings.level(index) else { continue };
        let first = findings.len();
        (rule.check)(context, &mut findings);
        for finding in &mut findings[first..] {
            finding.rule = rule.name;
            finding.level = finding.level.min(level);
            keep_inside(context.source, finding);
        }
    }
    findings
}

/// A finding in an empty file still has a place, and none points beyond the text or into the middle of a character.
fn keep_inside(source: &Source, finding: &mut Finding) {
    let text = &source.text;
    let clamp = |label: &mut Label| {
        let (mut start, mut end) = (label.at.start.min(text.len()), label.at.end.min(text.len()));
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        while !text.is_char_boundary(end) {
            end += 1;
        }
        label.at = Span::new(start, end);
    };
    clamp(&mut finding.at);
    finding.related.iter_mut().for_each(clamp);
}

fn by_place(a: &Finding, b: &Finding) -> std::cmp::Ordering {
    (a.at.at, RULES.iter().position(|rule| rule.name == a.rule), &a.size).cmp(&(
        b.at.at,
        RULES.iter().position(|rule| rule.name == b.rule),
        &b.size,
    ))
}

/// Takes out the findings that are accepted, and tells which acceptances were of no use.
fn lay_acceptances(manuscript: &Manuscript, findings: Vec<Finding>) -> (Outcome, Vec<Unused>) {
    let mut used = vec![false; manuscript.accepted.len()];
    let accepting = acceptances(&manuscript.accepted);
    let mut outcome = Outcome::default();
    for finding in findings {
        let accepting = accepting.get(&(finding.rule, finding.size.as_deref())).copied();
        match accepting.and_then(|index| manuscript.accepted[index].because.stated().map(|because| (index, because))) {
            Some((index, because)) => {
                used[index] = true;
                outcome.accepted.push(AcceptedFinding { finding, because: because.value.clone() });
            }
            None => outcome.findings.push(finding),
        }
    }
    let unused =
        manuscript.accepted.iter().zip(used).filter(|(accepted, used)| !used && could_be_used(manuscript, accepted));
    (outcome, unused.filter_map(|(accepted, _)| as_unused(accepted)).collect())
}

/// The rule and the size that each acceptance is for. Where two are for the same, the first counts.
fn acceptances(accepted: &[Accepted]) -> BTreeMap<(&str, Option<&str>), usize> {
    let mut first = BTreeMap::new();
    for (index, accepted) in accepted.iter().enumerate().filter(|(_, accepted)| !accepted.size.is_unread()) {
        if let Some(rule) = accepted.rule.stated() {
            let size = accepted.size.stated().map(|size| size.value.as_str());
            first.entry((rule.value.as_str(), size)).or_insert(index);
        }
    }
    first
}

/// Whether everything that the rule looks at was read. A slip elsewhere in the entry is no reason to call an
/// acceptance unused.
fn could_be_used(manuscript: &Manuscript, accepted: &Accepted) -> bool {
    let complete = accepted.because.stated().is_some() && !accepted.size.is_unread();
    let known = accepted.rule.stated().is_some_and(|rule| RULES.iter().any(|known| known.name == rule.value));
    complete
        && known
        && method_was_read(manuscript)
        && fabrics_were_read(manuscript)
        && design_was_read(manuscript)
        && layouts_were_read(manuscript)
        && size_was_read(manuscript, accepted)
}

fn method_was_read(manuscript: &Manuscript) -> bool {
    let backing = manuscript.backing.as_ref().is_none_or(|backing| {
        let lengths = [&backing.overhang, &backing.seam, &backing.usable_width];
        !lengths.into_iter().any(Field::is_unread) && !backing.directional.is_unread()
    });
    let batting = manuscript.batting.as_ref().is_none_or(|batting| !batting.overhang.is_unread());
    backing && batting && binding_was_read(manuscript)
}

fn binding_was_read(manuscript: &Manuscript) -> bool {
    manuscript.binding.as_ref().is_none_or(|binding| {
        let lengths = [&binding.strip_width, &binding.seam, &binding.opening, &binding.extra_length];
        !lengths.into_iter().any(Field::is_unread)
            && !binding.fold.is_unread()
            && !binding.join.is_unread()
            && !binding.grain.is_unread()
            && !binding.loft.is_unread()
            && !binding.tails.start.is_unread()
    })
}

fn fabrics_were_read(manuscript: &Manuscript) -> bool {
    let counts_read = |counts: &[Field<Count>]| !counts.iter().any(Field::is_unread);
    manuscript.fabrics.iter().all(|fabric| {
        let cuts_read = fabric.cut.iter().all(|cut| {
            let read = !cut.size.is_unread() && !cut.strip_width.is_unread() && !cut.grain.is_unread();
            read && counts_read(&cut.strips) && counts_read(&cut.pieces)
        });
        let lengths_read = !fabric.usable_width.is_unread() && !fabric.precut.is_unread();
        let words_read = !fabric.directional.is_unread() && !fabric.sold_as.is_unread();
        let required = fabric.requires.iter().all(|requires| requires.stated().is_some());
        fabric.cut_whole && cuts_read && lengths_read && words_read && required
    })
}

fn layouts_were_read(manuscript: &Manuscript) -> bool {
    let layouts = manuscript.layout.iter().flat_map(|layout| &layout.sizes).filter_map(PerSize::stated);
    layouts.into_iter().all(|layout| {
        let sides_read = !layout.across.is_unread() && !layout.down.is_unread() && !layout.set.is_unread();
        let blocks_read = match layout.blocks.stated().map(|blocks| &blocks.value) {
            Some(Blocks::Each(each)) => each.iter().all(|(block, count)| !block.is_unread() && !count.is_unread()),
            Some(Blocks::All(_)) => true,
            None => !layout.blocks.is_unread(),
        };
        let sashing = [&layout.sash, &layout.long_sash, &layout.cornerstone];
        let words_read = !layout.sashing_round.is_unread() && !layout.cornerstones.is_unread();
        let sashing_read = !layout.sashing.is_unread() && words_read && !sashing.into_iter().any(Field::is_unread);
        let triangles_read = !layout.side_triangles.is_unread() && !layout.corner_triangles.is_unread();
        let borders_read = layout.borders_whole && layout.borders.iter().all(border_was_read);
        sides_read && blocks_read && sashing_read && triangles_read && borders_read
    })
}

fn border_was_read(border: &Border) -> bool {
    let pieces = [&border.piece, &border.piece_across, &border.cornerstone];
    let words_read = !border.corners.is_unread() && !border.pieced.is_unread() && !border.join.is_unread();
    !border.width.is_unread() && !border.ease.is_unread() && words_read && !pieces.into_iter().any(Field::is_unread)
}

fn design_was_read(manuscript: &Manuscript) -> bool {
    let units = manuscript.units.iter().all(|unit| {
        let sizes = [&unit.finished, &unit.trim];
        let lengths = [&unit.seam, &unit.segment];
        let parts = unit.cut.iter().all(|part| !part.from.is_unread());
        !unit.make.is_unread()
            && !unit.method.is_unread()
            && !unit.yields.is_unread()
            && !sizes.into_iter().any(Field::is_unread)
            && !lengths.into_iter().any(Field::is_unread)
            && (unit.cut_whole && parts)
    });
    let blocks = manuscript.blocks.iter().all(|block| {
        let places = block.rows.iter().flat_map(|row| &row.places);
        block.whole && !block.finished.is_unread() && !places.into_iter().any(Field::is_unread)
    });
    manuscript.units_whole && manuscript.blocks_whole && units && blocks
}

fn size_was_read(manuscript: &Manuscript, accepted: &Accepted) -> bool {
    let Some(name) = accepted.size.stated() else { return true };
    let Some(index) = manuscript.sizes.iter().position(|size| size.name == name.value) else { return false };
    let stated = manuscript.binding.as_ref().and_then(|binding| binding.requires.get(index)).and_then(PerSize::stated);
    let size = &manuscript.sizes[index];
    let backing = manuscript.backing.as_ref().and_then(|backing| backing.requires.get(index)).and_then(PerSize::stated);
    let backing_read = backing.is_none_or(|stated| {
        !stated.fabric.is_unread() && !stated.panels.is_unread() && !stated.panels_run.is_unread()
    });
    let binding_read = stated.is_none_or(|stated| {
        let lengths = [&stated.square, &stated.strip_length];
        !stated.strips.is_unread() && !stated.fabric.is_unread() && !lengths.into_iter().any(Field::is_unread)
    });
    let size_read =
        !size.finished.is_unread() && !size.outline.is_unread() && !size.bed.is_unread() && !size.drop.is_unread();
    let batting = manuscript.batting.as_ref().and_then(|batting| batting.requires.get(index));
    let batting_read = batting.is_none_or(|batting| batting.stated().is_some());
    size_read && backing_read && batting_read && binding_read
}

fn as_unused(accepted: &Accepted) -> Option<Unused> {
    let rule = accepted.rule.stated()?.clone();
    Some(Unused { rule, size: accepted.size.stated().cloned() })
}

/// How many findings of each level there are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Errors.
    pub errors: usize,
    /// Queries.
    pub queries: usize,
    /// Notes.
    pub notes: usize,
    /// Accepted findings, of any level.
    pub accepted: usize,
}

impl Tally {
    /// Counts an outcome.
    pub fn of(outcome: &Outcome) -> Tally {
        let count = |level| outcome.findings.iter().filter(|finding| finding.level == level).count();
        Tally {
            errors: count(Level::Error),
            queries: count(Level::Query),
            notes: count(Level::Note),
            accepted: outcome.accepted.len(),
        }
    }

    /// Adds another tally.
    pub fn add(&mut self, other: Tally) {
        self.errors += other.errors;
        self.queries += other.queries;
        self.notes += other.notes;
        self.accepted += other.accepted;
    }
}
