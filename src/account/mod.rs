//! Every number that a manuscript states, beside the number that is needed, with the working and how it stands.
//!
//! How a number stands is read off the findings at its place, so that the account and the report cannot differ.

mod backing;
mod design;
mod fabrics;
mod margin;
mod number;
mod units;

use crate::check::{Outcome, check_needs};
use crate::finding::{Finding, Level};
use crate::manuscript::model::{Manuscript, PerSize, Size};
use crate::manuscript::{Field, Source, Span, read};
use crate::quantity::{Amount, Measure, Round, Written, Yardage};
use crate::requirement::Needs;
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::fabric::Shop;
use crate::rule_book::Settings;
use crate::rules::words::{buying, cover, cut_working, edge_working, fold_working, strips_working, width_for};
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
    let lines = lines.lines.into_iter().map(|line| stand(line, &outcome)).collect();
    Account { title: title(manuscript), lines, outcome }
}

fn title(manuscript: &Manuscript) -> String {
    let name = manuscript.pattern.stated().map_or("(no name)", |name| name.value.as_str());
    match manuscript.edition.stated() {
        Some(edition) => format!("{name}, edition {}", edition.value),
        None => name.to_string(),
    }
}

/// Sets a number's standing from the findings at its place.
fn stand(line: Line, outcome: &Outcome) -> Line {
    if matches!(line.standing, Standing::NotChecked) {
        return line;
    }
    let here: Vec<&Finding> = outcome.findings.iter().filter(|finding| overlaps(finding.at.at, line.at)).collect();
    let worst = here.iter().map(|finding| finding.level).max();
    let standing = match worst {
        Some(Level::Error) => Standing::Short,
        Some(Level::Query) => Standing::Query,
        Some(Level::Note) if here.iter().any(|finding| finding.rule.ends_with("-generous")) => Standing::Generous,
        _ if outcome.accepted.iter().any(|accepted| overlaps(accepted.finding.at.at, line.at)) => Standing::Accepted,
        _ => line.standing,
    };
    Line { standing, ..line }
}

fn overlaps(one: Span, other: Span) -> bool {
    one.start < other.end && other.start < one.end
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

    fn method(&mut self, needs: &BindingNeeds<'_>, settings: &Settings) {
        let stated = needs.stated;
        if let Some(width) = stated.strip_width.stated() {
            let working = fold_working(needs).unwrap_or_default();
            let narrowest = cover(settings, needs).and_then(|cover| width_for(settings, needs, cover));
            let needed = narrowest.map(|width| format!("{} or more", needs.up(width))).unwrap_or_default();
            self.add(None, "binding strip_width", width.at, needed, Standing::Held, working);
            if let Some(narrowest) = narrowest {
                self.margin(margin::of_lengths(width.value.length, narrowest, needs.measure));
            }
        }
        self.given("binding seam", &stated.seam, "The fold is measured against it.");
        self.given("binding loft", &stated.loft, "The fold goes round it.");
        self.given("binding usable_width", &stated.usable_width, "Binding strips are cut across this width.");
        self.given("binding strip_length", &stated.strip_length, "Each strip is cut this long.");
        self.given("binding extra_length", &stated.extra_length, "Taken at its word, instead of tails.");
        self.tails(needs);
    }

    fn tails(&mut self, needs: &BindingNeeds<'_>) {
        let stated = needs.stated;
        let together = needs.method.as_ref().zip(needs.opening).map(|(method, opening)| opening + method.join_loss);
        let needed = together.map(|together| format!("{} together", needs.up(together))).unwrap_or_default();
        if let Some(at) = stated.tails.at {
            let working = "The tails bridge the opening and overlap for the join.".to_string();
            self.add(None, "binding tails", at, needed, Standing::Held, working);
            if let Some(((start, end), together)) = needs.tails.zip(together) {
                self.margin(margin::of_lengths(start + end, together, needs.measure));
            }
        }
        if let Some(opening) = stated.opening.stated() {
            let working = "It fits on the longest side of each size, clear of the corners.".to_string();
            self.add(None, "binding opening", opening.at, String::new(), Standing::Held, working);
        }
    }

    fn binding_of(&mut self, index: usize, size: &Size, needs: Option<&BindingNeeds<'_>>) {
        let Some(needs) = needs else { return };
        match needs.sizes.iter().find(|needed| needed.size.name == size.name) {
            Some(needed) => self.binding(&size.name, needs, needed),
            None => match needs.bias.iter().find(|needed| needed.size.name == size.name) {
                Some(needed) => self.bias(&size.name, needs, needed),
                None => self.binding_unchecked(&size.name, needs, index),
            },
        }
    }

    fn binding(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) {
        if let Some((strips, enough)) = size.stated.strips.stated().zip(size.strips) {
            let print = enough + needs.spares;
            let working =
                [edge_working(needs, size.size, &size.lengths), strips_working(needs, size, enough)].join(" ");
            self.add(Some(heading), "binding strips", strips.at, print.to_string(), Standing::Held, working);
            self.margin(margin::of_counts(strips.value, print));
        }
        if let Some(length) = size.stated.strip_length.stated() {
            self.add(
                Some(heading),
                "binding strip_length",
                length.at,
                String::new(),
                Standing::Given,
                "Each strip is cut this long.".into(),
            );
        }
        if let Some((fabric, plan)) = size.stated.fabric.stated().zip(size.cut_to_print(needs)) {
            let needed = amount_needed(&needs.shop, &fabric.value, plan.fabric);
            let working = format!("{}; {}.", cut_working(needs, &plan), buying(needs, plan.fabric));
            self.add(Some(heading), "binding fabric", fabric.at, needed, Standing::Held, working);
            self.margin(margin::of_purchase(&needs.shop, &fabric.value, plan.fabric));
        }
    }

    fn bias(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) {
        let heading = Some(heading);
        let length = edge_working(needs, size.size, &size.lengths);
        if let Some(square) = size.stated.square.stated() {
            self.add(heading, "binding square", square.at, needs.up(size.square()), Standing::Held, length.clone());
            self.margin(margin::of_lengths(square.value.length, size.square(), needs.measure));
        }
        if let Some(strips) = size.stated.strips.stated() {
            let needed = size.strip_run().and_then(|run| size.strips_of(run));
            // Strips of no known length are compared with nothing.
            let standing = if needed.is_some() { Standing::Held } else { Standing::NotChecked };
            let margin = needed.map_or_else(String::new, |needed| margin::of_counts(strips.value, needed));
            let needed = needed.map_or_else(String::new, |needed| needed.to_string());
            let working = if size.no_run_stated() { "Nothing says how long each strip is.".into() } else { length };
            self.add(heading, "binding strips", strips.at, needed, standing, working);
            self.margin(margin);
        }
        if let Some(length) = size.stated.strip_length.stated() {
            let working = "Each strip is cut this long.".to_string();
            self.add(heading, "binding strip_length", length.at, String::new(), Standing::Given, working);
        }
        if let Some(fabric) = size.stated.fabric.stated() {
            let least = |written: &Written| {
                let step = needs.shop.sold_by(written.unit);
                match size.stated.square.stated() {
                    Some(square) => Some(Yardage(square.value.length).up_to(step)),
                    // The stated strips are as long as this fabric makes them: less of it would take more of them.
                    None if size.strip_length.is_absent() && size.gives_strips(fabric.value.least()) => None,
                    None => size.fabric(step),
                }
            };
            let first = &fabric.value.first;
            let buy = least(first);
            let needed = buy.map(|buy| buy.show(needs.measure, Round::Up)).unwrap_or_default();
            let alone = Amount { first: *first, second: None };
            let margin = buy.map(|buy| margin::of_amounts(&alone, |_| buy)).unwrap_or_default();
            let working = match size.stated.square.stated() {
                Some(_) => "The square is cut from it.",
                None => "The bias strips are cut from it, from edge to edge of its shorter way.",
            };
            self.add(heading, "binding fabric", fabric.at, needed, Standing::Held, working.to_string());
            self.margin(margin);
        }
    }

    fn binding_unchecked(&mut self, heading: &str, needs: &BindingNeeds<'_>, index: usize) {
        let Some(stated) = needs.stated.requires.get(index).and_then(PerSize::stated) else { return };
        let why = "Something that it depends on could not be read.";
        let numbers = [
            ("binding square", stated.square.at()),
            ("binding strips", stated.strips.at()),
            ("binding fabric", stated.fabric.at()),
        ];
        for (number, at) in numbers {
            if let Some(at) = at {
                self.add(Some(heading), number, at, String::new(), Standing::NotChecked, why.to_string());
            }
        }
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
