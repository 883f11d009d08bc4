//! Every number that a manuscript states, beside the number that is needed, with the working and how it stands.
//!
//! How a number stands is read off the findings at its place, so that the account and the report cannot differ.

mod backing;
mod binding;
mod design;
mod fabrics;
mod margin;
mod number;
mod units;

use crate::check::{Outcome, check_needs};
use crate::finding::Level;
use crate::manuscript::model::Manuscript;
use crate::manuscript::{ByPlace, Field, Source, Span, read};
use crate::quantity::{Amount, Measure, Round, Written, Yardage};
use crate::requirement::Needs;
use crate::requirement::fabric::Shop;
use crate::rule_book::Settings;
use design::Design;

pub use number::Number;
pub(crate) use number::numbers;

/// The account of one manuscript.
#[derive(Clone, Debug)]
pub struct Account {
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
    /// How much more is stated than is needed, less than nothing where it is short: of lengths, counts and amounts.
    pub margin: String,
    /// How it stands.
    pub standing: Standing,
    /// The working.
    pub working: String,
    /// Where it is stated.
    pub at: Span,
}

/// How a stated number stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is enough.
    Held,
    /// It is not enough, or contradicts something.
    Short,
    /// It is more than is needed.
    Generous,
    /// There is a question about it.
    Query,
    /// The editor has accepted a finding about it.
    Accepted,
    /// The computation goes by it.
    Given,
    /// Nothing checks it.
    NotChecked,
}

impl Standing {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Standing::Held => "held",
            Standing::Short => "SHORT",
            Standing::Generous => "generous",
            Standing::Query => "query",
            Standing::Accepted => "accepted",
            Standing::Given => "taken as given",
            Standing::NotChecked => "not checked",
        }
    }
}

/// Makes the account of a manuscript.
pub fn account(source: &Source, settings: &Settings) -> Account {
    let manuscript = read(source);
    account_of(source, &manuscript, &Needs::new(&manuscript, settings), settings)
}

/// Makes the account of a manuscript that was read, and whose needs were computed.
pub(crate) fn account_of(source: &Source, manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Account {
    let mut lines = Lines { source, lines: Vec::new() };
    let Needs { binding, backing, batting, fabrics, units, blocks, layouts, counts, .. } = needs;
    let design = Design { layouts, counts };
    lines.assumptions(manuscript);
    if let Some(needs) = binding {
        lines.method(needs, settings);
    }
    lines.layers(manuscript);
    lines.fabric_methods(fabrics);
    lines.units(units, manuscript, settings);
    lines.blocks(blocks);
    for (index, size) in manuscript.sizes.iter().enumerate() {
        lines.size(size, design.finished(index), settings);
        lines.layout_of(&size.name, &design, index);
        lines.binding_of(index, size, binding.as_ref());
        lines.backing_of(index, size, backing.as_ref());
        lines.batting_of(index, size, batting.as_ref());
        lines.fabrics(&size.name, fabrics, &design, index);
    }
    let outcome = check_needs(source, manuscript, needs, settings);
    let told = Told::new(&outcome);
    let lines = lines.lines.into_iter().map(|line| told.stand(line)).collect();
    Account { title: title(manuscript), lines, outcome }
}

fn title(manuscript: &Manuscript) -> String {
    let name = manuscript.pattern.stated().map_or("(no name)", |name| name.value.as_str());
    match manuscript.edition.stated() {
        Some(edition) => format!("{name}, edition {}", edition.value),
        None => name.to_string(),
    }
}

/// The findings of an outcome, to be looked up by their places.
struct Told<'o> {
    outcome: &'o Outcome,
    findings: ByPlace,
    accepted: ByPlace,
}

impl Told<'_> {
    fn new(outcome: &Outcome) -> Told<'_> {
        let findings = ByPlace::new(outcome.findings.iter().map(|finding| finding.at.at));
        let accepted = ByPlace::new(outcome.accepted.iter().map(|accepted| accepted.finding.at.at));
        Told { outcome, findings, accepted }
    }

    /// Sets a number's standing from the findings at its place.
    fn stand(&self, line: Line) -> Line {
        if matches!(line.standing, Standing::NotChecked) {
            return line;
        }
        let here = || self.findings.overlapping(line.at).map(|index| &self.outcome.findings[index]);
        let standing = match here().map(|finding| finding.level).max() {
            Some(Level::Error) => Standing::Short,
            Some(Level::Query) => Standing::Query,
            Some(Level::Note) if here().any(|finding| finding.rule.ends_with("-generous")) => Standing::Generous,
            _ if self.accepted.overlapping(line.at).next().is_some() => Standing::Accepted,
            _ => line.standing,
        };
        Line { standing, ..line }
    }
}

struct Lines<'s> {
    source: &'s Source,
    lines: Vec<Line>,
}

impl Lines<'_> {
    fn add(&mut self, size: Option<&str>, number: &str, at: Span, needed: String, standing: Standing, working: String) {
        let stated = at.text(&self.source.text).to_string();
        let (size, margin) = (size.map(str::to_string), String::new());
        self.lines.push(Line { size, number: number.to_string(), stated, needed, margin, standing, working, at });
    }

    /// Says of the number that was added last how much more is stated than is needed.
    fn margin(&mut self, margin: String) {
        if let Some(line) = self.lines.last_mut() {
            line.margin = margin;
        }
    }

    fn given<T>(&mut self, number: &str, field: &Field<T>, working: &str) {
        if let Some(stated) = field.stated() {
            self.add(None, number, stated.at, String::new(), Standing::Given, working.to_string());
        }
    }

    fn assumptions(&mut self, manuscript: &Manuscript) {
        let assumes = &manuscript.assumes;
        self.given("usable_width", &assumes.usable_width, "Strips are cut across this width.");
        if let Some(seam) = assumes.seam.stated() {
            let why = "The piecing seam: units are pieced with it.";
            self.add(None, "seam", seam.at, String::new(), Standing::Given, why.to_string());
        }
        self.given("sold_by", &assumes.sold_by, "Fabric is rounded up to this.");
    }
}

/// What to buy, in the unit of each half.
fn amount_needed(shop: &Shop, stated: &Amount, cut: Yardage) -> String {
    let half = |written: &Written| {
        let measure = if written.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        shop.to_buy(cut, written.unit).show(measure, Round::Up)
    };
    match &stated.second {
        Some((second, _)) => format!("{} ({})", half(&stated.first), half(second)),
        None => half(&stated.first),
    }
}
