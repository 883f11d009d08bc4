//! What makes it doubtful which numbers are meant, so that those that are computed from them wait.
//!
//! A number that follows from a slip upstream looks wrong and is right. So nothing is computed into a file while a word or
//! a number of it is not understood, and nothing of a size whose layout does not make the size that is stated; nothing of a
//! fabric of which more pieces are stated than the design takes; and no number that would grow more than twofold.

use std::collections::BTreeSet;

use super::numbers::grows_beyond;
use crate::check::Outcome;
use crate::finding::{Correction, Finding, Level, SubjectKind};
use crate::manuscript::{Manuscript, Source, Span};
use crate::quilt_math::makes::Make;

/// How many times larger a number may become before somebody has to look for the cause.
pub(super) const MOST_GROWTH: (u128, u128) = (2, 1);

/// How many times larger a piece of a unit may become that states no method: more than a slip may be another method's size.
const MOST_OF_A_SLIP: (u128, u128) = (11, 10);

/// Rules by which something of the file is not understood: what depends on it is not known.
pub(super) const NOT_UNDERSTOOD: &[&str] = &[
    "fraction-run-together",
    "not-yaml",
    "out-of-range",
    "unknown-size",
    "unknown-word",
    "unreadable-quantity",
    "wrong-shape",
];

/// Rules about what is designed, which the numbers of a size follow, or of all sizes where the finding is about none.
const DESIGNED: &[&str] = &[
    "block-count-wrong",
    "block-does-not-sum",
    "border-does-not-fit",
    "finished-size-wrong",
    "rows-do-not-fit",
    "unit-cut-short",
    "yield-wrong",
];

/// What is doubtful in a manuscript.
#[derive(Debug, Default)]
pub(super) struct Doubts {
    /// Whether something is not understood.
    unread: bool,
    /// Where something of the design is left open, and for which size.
    designed: Vec<(Option<String>, Span)>,
    /// The fabrics of which more pieces are stated than are used, with the size.
    too_many: BTreeSet<(Option<String>, String)>,
    /// The units that state no method, of makes that have several.
    without_method: BTreeSet<String>,
    /// The names of the sizes.
    sizes: Vec<String>,
}

/// Why a correction waits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Doubt {
    /// Something is not understood.
    Unread,
    /// It follows from what stands there.
    Follows(Span),
    /// The unit's method is not stated.
    Method,
    /// It would stand for sizes that are right.
    EverySize,
    /// It would become more than twice as much.
    Growth,
}

impl Doubts {
    pub(super) fn new(outcome: &Outcome, manuscript: &Manuscript, text: &str) -> Doubts {
        let mut doubts = Doubts::default();
        let has_several = |make: Make| make.row().ways.len() > 1;
        let units = manuscript.units.iter().filter(|unit| unit.method.is_absent());
        let units = units.filter(|unit| unit.make.value().is_some_and(has_several));
        doubts.without_method = units.map(|unit| unit.name.clone()).collect();
        doubts.sizes = manuscript.sizes.iter().map(|size| size.name.clone()).collect();
        for finding in &outcome.findings {
            let (size, at) = (finding.size.clone(), finding.at.at);
            if NOT_UNDERSTOOD.contains(&finding.rule) && finding.level != Level::Note {
                doubts.unread = true;
            }
            if doubts.is_designed(finding, text) {
                doubts.designed.push((size, at));
            } else if finding.rule == "pieces-generous" {
                let fabric = finding.subject.get(SubjectKind::Fabric).unwrap_or_default();
                doubts.too_many.insert((size, fabric.to_string()));
            }
        }
        doubts
    }

    /// Whether a finding leaves the design open. A unit that is cut too small by a stated method is not.
    fn is_designed(&self, finding: &Finding, text: &str) -> bool {
        let of_cut = finding.rule == "unit-cut-short";
        finding.level != Level::Note
            && DESIGNED.contains(&finding.rule)
            && (!of_cut || self.is_of_open_method(finding, finding.correction.as_ref(), text))
    }

    /// Whether a piece of a unit that states no method is far from the size of the usual one.
    fn is_of_open_method(&self, finding: &Finding, correction: Option<&Correction>, text: &str) -> bool {
        let unit = finding.subject.get(SubjectKind::Unit);
        let is_open = finding.rule == "unit-cut-short" && unit.is_some_and(|unit| self.without_method.contains(unit));
        let is_slip = correction
            .is_some_and(|correction| !grows_beyond(correction.at.text(text), &correction.replacement, MOST_OF_A_SLIP));
        is_open && !is_slip
    }

    /// Why whatever would correct a finding waits, where it does.
    pub(super) fn of_finding(&self, finding: &Finding) -> Option<Doubt> {
        if self.unread {
            return Some(Doubt::Unread);
        }
        let concerns = |size: &Option<String>| size.is_none() || finding.size.is_none() || *size == finding.size;
        if let Some((_, at)) = self.designed.iter().find(|(size, at)| concerns(size) && *at != finding.at.at) {
            return Some(Doubt::Follows(*at));
        }
        let fabric = finding.subject.get(SubjectKind::Fabric).unwrap_or_default();
        let of_fabric = (finding.size.clone(), fabric.to_string());
        (!fabric.is_empty() && self.too_many.contains(&of_fabric)).then_some(Doubt::Growth)
    }

    /// Why the correction of a number waits, where it does.
    pub(super) fn of(&self, source: &Source, finding: &Finding, correction: &Correction) -> Option<Doubt> {
        if let Some(doubt) = self.of_finding(finding) {
            return Some(doubt);
        }
        if self.is_of_open_method(finding, Some(correction), &source.text) {
            return Some(Doubt::Method);
        }
        if self.is_of_every_size(&source.text, correction.at) {
            return Some(Doubt::EverySize);
        }
        let old = correction.at.text(&source.text);
        grows_beyond(old, &correction.replacement, MOST_GROWTH).then_some(Doubt::Growth)
    }

    /// Whether a place stands under `every_size`: no size's own entry begins between the two.
    pub(super) fn is_of_every_size(&self, text: &str, at: Span) -> bool {
        let before = &text[..at.start.min(text.len())];
        let Some(every) = before.rfind("every_size") else { return false };
        let between = &before[every..];
        !self.sizes.iter().any(|size| between.contains(&format!("{size}:")))
    }
}
