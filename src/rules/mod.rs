//! The rules, one file each: what is stated against what is needed.
//!
//! To add a rule: write `rules/<name>.yaml`, write `src/rules/<name>.rs` beside it, and add the name to
//! the list in `src/rule_book/list.rs`.

use crate::finding::{Correction, Finding, Label, Subject};
use crate::manuscript::{Manuscript, Mistake, Source, Span, Spanned};
use crate::requirement::Needs;
pub use crate::rule_book::{SIGN_OFF_RULES, TEXT_RULES};
use crate::rule_book::{Settings, for_each_rule, pages};
use crate::sign_off::SignOff;
use crate::text::NamedText;

/// A rule.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Its name.
    pub name: &'static str,
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
    /// The printed texts that it names, for the rules about them, which are asked after the others.
    pub texts: &'a [NamedText<'a>],
    /// Whether what is found is worded.
    pub wording: Wording,
}

/// Whether findings are to be read, or only told from each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wording {
    /// With their messages, working and corrections.
    Whole,
    /// With what tells them from each other, where a rule can leave out the rest: of a correction that is tried.
    LeftOut,
}

impl Context<'_> {
    /// A finding for a size that is not worded, where none is to be: wording takes most of the time of a finding.
    fn unworded(&self, at: Span, size: &str) -> Option<Finding> {
        (self.wording == Wording::LeftOut).then(|| Finding::new(Label::new(at, ""), "").for_size(size))
    }
}

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

/// Whether nobody can accept what a rule finds: what was not read must be corrected, for an acceptance would hide what
/// else is not read; and what a sign-off says is for who signs.
pub fn is_never_accepted(rule: &str) -> bool {
    rule == "accepted-unused" || TELL_WHAT_IS_UNREAD.contains(&rule) || SIGN_OFF_RULES.contains(&rule)
}

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
        pub const RULES: &[Rule] = &[$(Rule { name: pages::$file.name, check: $file::check }),+];
    };
}

mod look_alikes;
mod wording;

/// The working in words, for reports that show it beside a number.
pub(crate) mod words {
    pub(crate) use super::block_does_not_sum::log_cabin_working;
    pub(crate) use super::border_short::length_working as border_working;
    pub(crate) use super::make_count_wrong::made_working;
    pub(crate) use super::pillow_back_short::overlap_working;
    pub(crate) use super::prairie_points_short::points_working;
    pub(crate) use super::strips_short::{from_each_words, joined_working};
    pub(crate) use super::unfinished_size_wrong::{needed as measured_needed, working as measured_working};
    pub(crate) use super::wording::backing::{fabric_working, needed_working, seams_working, sheet_working};
    pub(crate) use super::wording::beside::left_words;
    pub(crate) use super::wording::binding::{buying, cut_working, edge_working, fabric_buying, strips_working};
    pub(crate) use super::wording::count::piece_working;
    pub(crate) use super::wording::fabric::share_words;
    pub(crate) use super::wording::fold::{cover, fold_working, width_for};
    pub(crate) use super::wording::group::group_words;
    pub(crate) use super::wording::layout::{places_working, size_working};
    pub(crate) use super::wording::plan::{left_over_words, plan_to_follow, small_plan_words, sum};
    pub(crate) use super::wording::shape::{gives_words, shape_name, strip_width as shape_strip_width};
    pub(crate) use super::wording::unit::{judge_units, strip_sums, tolerance, unfinished_words};
}

for_each_rule!(rules);
