//! Every number that a manuscript states, beside the number that is needed, with the working and its status.
//!
//! The status of a number is read off the findings about it, so that the account and the report cannot differ.
//!
//! What cannot be checked is never silent: there is a line for each stated number, and `check --account` fails on any
//! that nothing checks.

mod backing;
mod binding;
mod design;
mod extras;
mod fabrics;
mod margin;
mod number;
mod status;
mod units;
mod verdict;

use crate::check::{Corrections, Outcome, check_needs};
use crate::finding::Level;
use crate::manuscript::model::Manuscript;
use crate::manuscript::{BySize, Field, ReadText, Source, Span, arena_for};
use crate::quantity::{Amount, Measure, Round, Written, Yardage};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::requirement::fabric::Shop;
use crate::rule_book::Settings;
use crate::rules::words::tolerance;
use crate::text::{Load, beside};
use design::Design;
use verdict::Verdicts;

pub use margin::{Margin, Sign};
pub use number::AuditedNumber;
pub(crate) use number::{counted_once, numbers};
pub use status::Status;

/// The account of one manuscript.
#[derive(Clone, Debug)]
pub struct Audit {
    /// The pattern's name and edition, as far as they are stated.
    pub title: String,
    /// The numbers, those of the pattern as a whole first, then size by size.
    pub lines: Vec<Line>,
    /// What was found.
    pub outcome: Outcome,
}

/// One stated number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The size it is for, with its measurements; `None` for the pattern as a whole.
    pub size: Option<String>,
    /// What it is, in the manuscript's words.
    pub number: String,
    /// What is stated.
    pub stated: String,
    /// What is needed, where that is computed.
    pub needed: String,
    /// How much more is stated than is needed, or how much less: of lengths, counts and amounts.
    pub margin: Margin,
    /// Its status.
    pub status: Status,
    /// The working: where something is found about the number, that of the rule that found it.
    pub working: String,
    /// What is found about it, the gravest first.
    pub found: Vec<FoundHere>,
    /// Where it is stated.
    pub at: Span,
}

/// A finding about a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FoundHere {
    /// The rule that found it.
    pub rule: &'static str,
    /// How grave it is.
    pub level: Level,
    /// Whether the editor has accepted it.
    pub accepted: bool,
}

/// Why a number is not checked, where something that it is computed from was not read.
const UNREAD: &str = "Something that it depends on could not be read.";
const UNREAD_OR_NOT_STATED: &str = "Something that it depends on is not stated, or could not be read.";
const UNREAD_OR_TOO_LARGE: &str = "Something that it depends on could not be read, or does not fit the fabric.";

impl Line {
    /// Whether it is not checked because something that it depends on may not have been read.
    pub fn may_follow_from_unread(&self) -> bool {
        let reasons = [UNREAD, UNREAD_OR_NOT_STATED, UNREAD_OR_TOO_LARGE];
        self.status == Status::NotChecked && reasons.contains(&self.working.as_str())
    }

    /// The gravest level of what is found about it and not accepted.
    pub fn level(&self) -> Option<Level> {
        self.found.iter().filter(|found| !found.accepted).map(|found| found.level).max()
    }

    /// Its status in a word, and the level of what is found about it where the status alone does not say that
    /// something is: `OK, query`.
    pub fn result(&self) -> String {
        match self.level() {
            Some(level) if !matches!(self.status, Status::Short | Status::Wrong) => {
                format!("{}, {}", self.status.word(), level.word())
            }
            _ => self.status.word().to_string(),
        }
    }
}

/// Makes the account of a manuscript; its findings come without corrections.
pub fn account(source: &Source, settings: &Settings) -> Audit {
    account_loading(source, settings, Corrections::LeftOut, &beside(&source.path))
}

/// The same with the corrections or without them, and with what gives the printed texts.
pub(crate) fn account_loading(
    source: &Source,
    settings: &Settings,
    corrections: Corrections,
    load: &Load<'_>,
) -> Audit {
    let arena = arena_for(&source.text);
    let mut read = ReadText::of(source, &arena);
    go_by_design(&mut read.manuscript, settings);
    let needs = Needs::new(&read.manuscript, settings);
    let outcome = check_needs(source, &read, &needs, settings, corrections, load);
    account_of(source, &read.manuscript, &needs, settings, outcome)
}

/// Makes the account of a manuscript that was read and checked, and whose needs were computed.
pub(crate) fn account_of(
    source: &Source,
    manuscript: &Manuscript,
    needs: &Needs<'_>,
    settings: &Settings,
    outcome: Outcome,
) -> Audit {
    let mut lines = Lines { source, lines: Vec::new() };
    let Needs { binding, backing, batting, extras, fabrics, units, blocks, layouts, counts, gaps, .. } = needs;
    let design = Design { fabrics, layouts, counts, gaps };
    lines.assumptions(manuscript);
    if let Some(needs) = binding {
        lines.method(needs, &manuscript.sizes, settings);
    }
    lines.layers(manuscript);
    lines.extras(manuscript);
    lines.fabric_methods(fabrics, manuscript);
    lines.units(units, manuscript, settings);
    lines.blocks(blocks, tolerance(settings));
    lines.measured(needs, None);
    lines.unused(gaps);
    for (index, size) in manuscript.sizes.iter().enumerate() {
        lines.size(size, design.finished(index, size), settings);
        lines.layout_of(&size.name, &design, index);
        lines.measured(needs, Some(size));
        lines.made(needs, size);
        lines.binding_of(index, size, binding.as_ref(), settings);
        lines.backing_of(index, size, backing.as_ref());
        lines.batting_of(index, size, batting.as_ref());
        lines.extras_of(index, size, extras, manuscript);
        lines.fabrics(size, fabrics, &design, index);
    }
    // What a method states for one size stands with that size.
    let place =
        |line: &Line| line.size.as_ref().map(|name| manuscript.sizes.iter().position(|size| size.name == *name));
    lines.lines.sort_by_key(place);
    let lines = Verdicts::new(&outcome).judge(lines.lines);
    Audit { title: title(manuscript), lines, outcome }
}

fn title(manuscript: &Manuscript) -> String {
    let name = manuscript.pattern.stated().map_or("(no name)", |name| name.value.as_str());
    match manuscript.edition.stated() {
        Some(edition) => format!("{name}, edition {}", edition.value),
        None => name.to_string(),
    }
}

struct Lines<'s> {
    source: &'s Source,
    lines: Vec<Line>,
}

impl Lines<'_> {
    fn add(&mut self, size: Option<&str>, number: &str, at: Span, needed: String, status: Status, working: String) {
        let stated = at.text(&self.source.text).to_string();
        let (size, number) = (size.map(str::to_string), number.to_string());
        let (margin, found) = (Margin::default(), Vec::new());
        self.lines.push(Line { size, number, stated, needed, margin, status, working, found, at });
    }

    /// Says of the number that was added last how much more is stated than is needed.
    fn margin(&mut self, margin: Margin) {
        if let Some(line) = self.lines.last_mut() {
            line.margin = margin;
        }
    }

    fn given<T>(&mut self, number: &str, field: &Field<T>, working: &str) {
        if let Some(stated) = field.stated() {
            self.add(None, number, stated.at, String::new(), Status::AsGiven, working.to_string());
        }
    }

    /// What is taken as given, for one size or for all.
    fn given_for_each<T>(&mut self, manuscript: &Manuscript, number: &str, stated: &BySize<T>, working: &str) {
        for (size, stated) in stated.stated() {
            let size = size.and_then(|size| Some(manuscript.sizes.get(size)?.name.as_str()));
            self.add(size, number, stated.at, String::new(), Status::AsGiven, working.to_string());
        }
    }

    fn assumptions(&mut self, manuscript: &Manuscript) {
        let assumes = &manuscript.assumes;
        self.given("usable_width", &assumes.usable_width, "Strips are cut across this width.");
        if let Some(seam) = assumes.seam.stated() {
            let why = "The piecing seam: units are pieced with it.";
            self.add(None, "seam", seam.at, String::new(), Status::AsGiven, why.to_string());
        }
        self.given("shrinks", &assumes.shrinks, "Fabric from the bolt is this much shorter after washing.");
        self.given("sold_by", &assumes.sold_by, "Fabric is rounded up to this.");
        for notion in &manuscript.notions {
            let name = notion.notion.stated().map_or("notion", |notion| notion.value.as_str());
            let working = "Printed as it is: nothing says how many a quilt takes.";
            self.given_for_each(manuscript, &format!("count of {name}"), &notion.count, working);
        }
    }
}

/// What is needed for fabric that is cut, in the unit of each half.
fn amount_needed(shop: &Shop, stated: &Amount, cut: Yardage) -> String {
    let half = |written: &Written| {
        let measure = if written.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        margin::needed_half(shop, written, cut).show(measure, Round::Up)
    };
    match &stated.second {
        Some((second, _)) => format!("{} ({})", half(&stated.first), half(second)),
        None => half(&stated.first),
    }
}
