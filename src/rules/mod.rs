//! The rules, one file each: what is stated against what is needed.
//!
//! To add a rule: write `rules/<name>.yaml`, write `src/rules/<name>.rs` beside it, and add the name below.

use crate::finding::{Correction, Finding, Subject};
use crate::manuscript::{Manuscript, Mistake, Source, Spanned};
use crate::requirement::Needs;
use crate::rule_book::{Page, Settings, pages};
use crate::sign_off::SignOff;

/// A rule.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Its name.
    pub name: &'static str,
    /// Its page of the rule book.
    pub page: &'static str,
    /// Compares, and adds what it finds.
    pub check: fn(&Context<'_>, &mut Vec<Finding>),
}

/// What a rule may look at.
pub struct Context<'a> {
    /// The text.
    pub source: &'a Source,
    /// What it states.
    pub manuscript: &'a Manuscript,
    /// The levels and values in force.
    pub settings: &'a Settings,
    /// What all its sections need.
    pub needs: &'a Needs<'a>,
    /// The acceptances that no finding used, for the one rule that runs after the others.
    pub unused_acceptances: &'a [Unused],
    /// How it stands to the sign-offs, for the rules about them.
    pub sign_off: &'a SignOff,
}

/// The rules about sign-offs, which find something only where that was asked for. No house rule lowers their level.
pub const SIGN_OFF_RULES: [&str; 2] = ["not-signed", "changed-since-signed"];

/// An acceptance that no finding used.
#[derive(Clone, Debug)]
pub struct Unused {
    /// The rule it names, where it stands.
    pub rule: Spanned<String>,
    /// The size it names.
    pub size: Option<String>,
    /// What else it names.
    pub subject: Subject,
    /// Why no finding used it.
    pub why: WhyUnused,
    /// The text that makes it right, where one text does.
    pub correction: Option<Correction>,
}

/// Why no finding used an acceptance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyUnused {
    /// The rule finds nothing there.
    NothingIsFound,
    /// What the rule finds cannot be accepted.
    CannotBeAccepted,
    /// It does not say enough: the words that it lacks, with their values, for each finding that may be meant.
    Lacks(Vec<String>),
}

/// The rules whose findings nobody can accept: what was not read must be corrected, for an acceptance would hide what
/// else is not read; and what a sign-off says is for who signs.
pub const NEVER_ACCEPTED: [&str; 11] = [
    "not-yaml",
    "unknown-word",
    "missing-entry",
    "wrong-shape",
    "unreadable-quantity",
    "out-of-range",
    "unknown-size",
    "repeated-key",
    "accepted-unused",
    "not-signed",
    "changed-since-signed",
];

/// The rules that tell what could not be read.
pub const TELL_WHAT_IS_UNREAD: [&str; 8] = [
    "not-yaml",
    "unknown-word",
    "missing-entry",
    "wrong-shape",
    "unreadable-quantity",
    "out-of-range",
    "unknown-size",
    "repeated-key",
];

/// Turns the mistakes of one kind into findings, with the other place that each points at.
fn mistakes(context: &Context<'_>, findings: &mut Vec<Finding>, finding: impl Fn(&Mistake) -> Option<Finding>) {
    for mistake in &context.manuscript.mistakes {
        if let Some(finding) = finding(mistake) {
            let (at, words) = mistake.related.clone().unzip();
            findings.push(finding.see(at, words.unwrap_or_default()));
        }
    }
}

/// A clause with the capital letter that begins a sentence.
pub(crate) fn sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    first + letters.as_str()
}

macro_rules! rules {
    ($($file:ident),+ $(,)?) => {
        $(mod $file;)+
        /// All rules, in the order in which they are listed and run.
        pub const RULES: &[Rule] = &[$($file::RULE),+];
        /// Their pages, in the same order.
        pub(crate) static BOOK: &[Page] = &[$(pages::$file),+];
    };
}

mod look_alikes;
mod wording;

/// The working in words, for reports that show it beside a number.
pub(crate) mod words {
    pub(crate) use super::border_short::length_working as border_working;
    pub(crate) use super::strips_short::joined_working;
    pub(crate) use super::wording::backing::{fabric_working, seams_working, sheet_working};
    pub(crate) use super::wording::binding::{buying, cut_working, edge_working, strips_working};
    pub(crate) use super::wording::count::piece_working;
    pub(crate) use super::wording::fabric::fabric_buying;
    pub(crate) use super::wording::fold::{cover, fold_working, width_for};
    pub(crate) use super::wording::layout::{places_working, size_working};
    pub(crate) use super::wording::plan::{left_over_words, plan_to_follow, small_plan_words, sum};
    pub(crate) use super::wording::unit::{judge_units, strip_sums, unfinished_words};
}

rules![
    binding_short,
    spare_strip,
    fold_short,
    fold_barely_covers,
    hollow_edge,
    binding_fabric_short,
    no_squaring_room,
    binding_fabric_generous,
    pair_disagrees,
    tails_too_short,
    opening_too_long,
    join_near_corner,
    not_on_ruler,
    bias_short,
    square_too_small,
    curved_edge_needs_bias,
    backing_short,
    backing_panels,
    backing_generous,
    backing_smaller_than_batting,
    batting_short,
    bed_not_covered,
    strips_short,
    strip_width_unclear,
    piece_longer_than_strip,
    fabric_short,
    fabric_tight,
    fabric_generous,
    sizes_out_of_order,
    unit_cut_short,
    seam_left_out,
    unit_cut_generous,
    trim_size_wrong,
    yield_wrong,
    block_does_not_sum,
    finished_size_wrong,
    block_count_wrong,
    border_short,
    sash_short,
    pieces_short,
    pieces_generous,
    piece_not_cut,
    piece_unused,
    scaled_size,
    not_checked,
    not_yaml,
    unknown_word,
    missing_entry,
    wrong_shape,
    unreadable_quantity,
    fraction_run_together,
    out_of_range,
    size_not_stated,
    unknown_size,
    repeated_key,
    accepted_unused,
    not_signed,
    changed_since_signed,
];
