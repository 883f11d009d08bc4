//! A number that is printed in one measure alone, where a house prints both.

use std::collections::BTreeSet;

use super::Context;
use crate::finding::{Finding, Label, Subject, SubjectKind};
use crate::manuscript::model::{BattingSize, Bought, Fabric, PerSize};
use crate::manuscript::{BySize, Field, Manuscript, Span, Spanned};
use crate::quantity::{Amount, Count, Written};
use crate::rule_book::CountValue;

const BOTH_MEASURES: CountValue = CountValue::named("both_measures");

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let asked = context.settings.unrecorded_count(BOTH_MEASURES);
    if asked == Count(0) {
        return;
    }
    let mut printed = Printed { found: Vec::new(), seen: BTreeSet::new() };
    amounts(context.manuscript, &mut printed);
    if asked > Count(1) {
        sizes(context.manuscript, &mut printed);
    }
    findings.extend(printed.found.into_iter().map(|alone| finding(context, alone)));
}

/// A number that lacks its other half.
struct Alone {
    at: Span,
    is_metric: bool,
    is_amount: bool,
    size: Option<usize>,
    subject: Subject,
}

/// The numbers that lack their other halves. What sizes share stands once.
struct Printed {
    found: Vec<Alone>,
    seen: BTreeSet<Span>,
}

impl Printed {
    fn amount(&mut self, stated: &Spanned<Amount>, size: usize, subject: Subject) {
        let Amount { first, second } = &stated.value;
        let is_metric = first.unit.is_metric();
        let has_other = second.as_ref().is_some_and(|(second, _)| second.unit.is_metric() != is_metric);
        if !has_other && first.length.is_positive() {
            self.add(Alone { at: stated.at, is_metric, is_amount: true, size: Some(size), subject });
        }
    }

    fn length(&mut self, (written, at): (&Written, Span), size: Option<usize>, subject: Subject) {
        if written.other.is_none() && written.length.is_positive() {
            self.add(Alone { at, is_metric: written.unit.is_metric(), is_amount: false, size, subject });
        }
    }

    fn lengths(&mut self, stated: &BySize<Written>, subject: &Subject) {
        for (size, written) in stated.stated() {
            self.length((&written.value, written.at), size, subject.clone());
        }
    }

    fn sides(&mut self, stated: &Spanned<(Written, Written)>, size: Option<usize>, subject: Subject) {
        self.length((&stated.value.0, stated.at), size, subject);
    }

    fn add(&mut self, alone: Alone) {
        if self.seen.insert(alone.at) {
            self.found.push(alone);
        }
    }
}

/// Each amount of fabric.
fn amounts(manuscript: &Manuscript, printed: &mut Printed) {
    for fabric in &manuscript.fabrics {
        let subject = Subject::of(SubjectKind::Fabric, &fabric.name);
        for (size, bought) in stated(&fabric.requires) {
            if let Bought::Amount(amount) = bought {
                printed.amount(amount, size, subject.clone());
            }
            let instead = fabric.choices.iter().find(|(of, _)| *of == bought.at());
            if let Some(Bought::Amount(amount)) = instead.map(|(_, instead)| &instead.bought) {
                printed.amount(amount, size, subject.clone());
            }
        }
    }
    let mut add = |field: &Field<Amount>, size: usize, name: &str| {
        if let Some(amount) = field.stated() {
            printed.amount(amount, size, Subject::number(name));
        }
    };
    for (size, requires) in manuscript.binding.iter().flat_map(|binding| stated(&binding.requires)) {
        add(&requires.fabric, size, "binding fabric");
        add(&requires.flange, size, "flange fabric");
    }
    for (size, requires) in manuscript.backing.iter().flat_map(|backing| stated(&backing.requires)) {
        add(&requires.fabric, size, "backing fabric");
    }
}

/// Each size, and each width of strips.
fn sizes(manuscript: &Manuscript, printed: &mut Printed) {
    for (place, size) in manuscript.sizes.iter().enumerate() {
        if let Some(finished) = size.finished.stated() {
            printed.sides(finished, Some(place), Subject::number("finished size"));
        }
    }
    manuscript.fabrics.iter().for_each(|fabric| cut_sizes(fabric, printed));
    if let Some(binding) = &manuscript.binding {
        printed.lengths(&binding.strip_width, &Subject::number("binding strip width"));
    }
    for (size, requires) in manuscript.backing.iter().flat_map(|backing| stated(&backing.requires)) {
        if let Some(sides) = requires.size.stated() {
            printed.sides(sides, Some(size), Subject::number("backing size"));
        }
    }
    for (size, requires) in manuscript.batting.iter().flat_map(|batting| stated(&batting.requires)) {
        if let BattingSize::Measured(width, _) = &requires.value {
            printed.length((width, requires.at), Some(size), Subject::number("batting"));
        }
    }
    for (size, cut) in manuscript.sleeve.iter().flat_map(|sleeve| stated(&sleeve.requires)) {
        printed.sides(cut, Some(size), Subject::number("sleeve"));
    }
    for (size, pieces) in manuscript.pillow_back.iter().flat_map(|back| stated(&back.requires)) {
        for (piece, name) in [(&pieces.first, "first piece of the back"), (&pieces.second, "second piece of the back")]
        {
            if let Some(sides) = piece.stated() {
                printed.sides(sides, Some(size), Subject::number(name));
            }
        }
    }
}

/// How large each piece of a fabric is cut, or finishes, and how wide its strips are.
fn cut_sizes(fabric: &Fabric, printed: &mut Printed) {
    for cut in &fabric.cut {
        let mut subject = Subject::of(SubjectKind::Fabric, &fabric.name);
        if let Some(piece) = cut.piece.stated() {
            subject = subject.and(SubjectKind::Piece, &piece.value);
        }
        let sizes = cut.slanted().map_or(&cut.size, |shaped| &shaped.size);
        for (size, sides) in sizes.stated() {
            printed.sides(sides, size, subject.clone());
        }
        if let Some(shaped) = cut.slanted() {
            printed.lengths(&shaped.height, &subject);
        }
        printed.lengths(&cut.strip_width, &subject.and(SubjectKind::Number, "strip width"));
    }
}

fn stated<T>(requires: &[PerSize<T>]) -> impl Iterator<Item = (usize, &T)> {
    requires.iter().enumerate().filter_map(|(size, requires)| Some((size, requires.stated()?)))
}

fn finding(context: &Context<'_>, alone: Alone) -> Finding {
    let text = alone.at.text(&context.source.text).trim_matches(['"', '\'']).trim();
    let (lacks, example) = match (alone.is_amount, alone.is_metric) {
        (true, false) => ("no metric amount", "5/8 yd (60 cm)"),
        (true, true) => ("no amount in yards", "60 cm (5/8 yd)"),
        (false, false) => ("no metric measure", "4 1/2 in (11.5 cm)"),
        (false, true) => ("no measure in inches", "11.5 cm (4 1/2 in)"),
    };
    let message = format!("{text} stated, and {lacks} beside it: this house prints both.");
    let help = format!("Write the other in a parenthesis, as in {example}.");
    let mut finding = Finding::new(Label::new(alone.at, "in one measure alone"), message).help(help);
    finding.size = alone.size.and_then(|size| context.manuscript.sizes.get(size)).map(|size| size.name.clone());
    finding.subject = alone.subject;
    finding
}
