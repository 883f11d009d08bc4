//! What is cut for the binding, the backing, the batting, and what is made besides the quilt.

use super::super::Cell;
use super::super::buying::batting_size;
use super::super::cell_text::CellText;
use super::super::for_all::overhang;
use super::WOF;
use super::measures::{measure, takes};
use super::parts::{Clause, Link, Part, Section, Step};
use crate::manuscript::model::{Backing, Batting, Binding, Grain, PanelsRun, PerSize, StatedOverhang};
use crate::manuscript::{BySize, Field, Manuscript, Spanned};
use crate::quantity::Count;

/// The sections after those of the fabrics: what is cut from no fabric that the manuscript lists.
pub(super) fn sections(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Section> {
    let section = |heading: &str, steps: Vec<Step>| {
        let of = heading.trim_start_matches("From ").trim_start_matches("For ").trim_start_matches("the ");
        let of = of.split(", cut").next().unwrap_or(of).to_string();
        Section { of, heading: heading.to_string(), steps }
    };
    let mut sections = Vec::new();
    if let Some(binding) = &manuscript.binding {
        if binding.from.value().is_none() {
            sections.push(section("From the binding fabric, cut", of_binding(binding, pen)));
        }
        sections.push(section("From the fabric of the flange, cut", of_flange(binding, pen)));
    }
    if let Some(backing) = manuscript.backing.as_ref().filter(|backing| backing.from.value().is_none()) {
        sections.push(section("From the backing fabric, cut", of_backing(backing, pen)));
    }
    let batting = manuscript.batting.as_ref().map(|batting| of_batting(batting, pen));
    sections.push(section("For the batting, cut", batting.unwrap_or_default()));
    sections.push(section("Besides the quilt, cut", besides(manuscript, pen)));
    sections
}

/// A step that counts nothing, where some size states a value for it.
fn stated(before: &str, values: Vec<Cell>, after: &str) -> Option<Step> {
    let clause = Clause::uncounted(Link::Start, before, values).words(after);
    clause.is_stated().then(|| Step::of(clause))
}

/// A count for each size, and which sizes take some.
fn counts<T>(
    requires: &[PerSize<T>],
    pen: &CellText<'_>,
    count: impl Fn(&T) -> &Field<Count>,
) -> (Vec<Cell>, Vec<bool>) {
    let cells = pen.also_per_size(requires, |size| pen.count(count(size)));
    let takes = requires.iter().map(|size| match size {
        PerSize::Stated(size) => takes(std::slice::from_ref(count(size)))[0],
        PerSize::Nothing => false,
        PerSize::Unread => true,
    });
    (cells, takes.collect())
}

/// The binding's strips, the square or the rectangle for continuous bias, and the length of bias.
pub(super) fn of_binding(binding: &Binding, pen: &CellText<'_>) -> Vec<Step> {
    let sizes = pen.sizes().len();
    let (strips, takes) = counts(&binding.requires, pen, |size| &size.strips);
    let square = pen.also_per_size(&binding.requires, |size| pen.dimensions(&size.square));
    let bias = pen.also_per_size(&binding.requires, |size| pen.length(&size.length));
    let is_stated = |cells: &[Cell]| cells.iter().any(|cell| !cell.is_nothing());
    let mut steps = Vec::new();
    if is_stated(&strips) {
        let clause = Clause::counting(Link::Start, strips, takes).noun("strip");
        steps.push(Step::of(strip_size(clause, " ", binding, pen).words(" (binding)")));
    } else if !binding.strip_width.is_absent() && !is_stated(&square) && !is_stated(&bias) {
        let clause = strip_size(Clause::of_all(Link::Start, sizes), "strips ", binding, pen);
        steps.push(Step::of(clause.words(" (binding)")));
    }
    for (values, before, after) in [(square, "a piece ", " for continuous bias"), (bias, "", " of bias")] {
        let clause = Clause::uncounted(Link::Start, before, values).words(after).words(" (binding)");
        if clause.is_stated() {
            let widths = each(&binding.strip_width, pen, |width| pen.length(width)).into_iter().zip(&clause.takes);
            let widths = widths.map(|(width, takes)| if *takes { width } else { Cell::Nothing });
            let width = Clause::uncounted(Link::Aside, "in strips ", widths.collect());
            let with_width = width.is_stated().then_some(width);
            steps.push(Step { clauses: std::iter::once(clause).chain(with_width).collect() });
        }
    }
    steps
}

/// How wide and how long the strips of the binding are, and how they are cut.
fn strip_size(clause: Clause, before: &str, binding: &Binding, pen: &CellText<'_>) -> Clause {
    let length = pen.length(&binding.strip_length);
    let otherwise = match (binding.grain.or(Grain::Crosswise), &length) {
        (Some(Grain::Crosswise), Cell::Nothing) => Cell::Stated(WOF.to_string()),
        _ => length,
    };
    let is_counted = !clause.parts.is_empty();
    let times = format!(" {} ", pen.times());
    let own = pen.also_per_size(&binding.requires, |size| pen.length(&size.strip_length));
    let clause = if own.iter().all(Cell::is_nothing) {
        let width = measure(&binding.strip_width, own.len(), is_counted, |width| pen.length(width));
        let length = (!otherwise.is_nothing()).then(|| Part::Words(otherwise.text().to_string()));
        clause.maybe(before, width).maybe(&times, length)
    } else {
        let lengths = own.into_iter().map(|cell| if cell.is_nothing() { otherwise.clone() } else { cell });
        let width = |size: usize| pen.length(binding.strip_width.of(size));
        let sizes = lengths
            .enumerate()
            .map(|(size, length)| Cell::Stated(format!("{}{times}{}", width(size).text(), length.text())));
        clause.maybe(before, Some(Part::Values(sizes.collect())))
    };
    clause.words(match binding.grain.value() {
        Some(Grain::Lengthwise) => ", cut lengthwise",
        Some(Grain::Bias) => ", cut on the bias",
        Some(Grain::Crosswise) | None => "",
    })
}

/// The strips of a flange, of which only the width is stated.
fn of_flange(binding: &Binding, pen: &CellText<'_>) -> Vec<Step> {
    let width = match pen.length(&binding.flange) {
        Cell::Nothing => return Vec::new(),
        width => vec![width; pen.sizes().len()],
    };
    stated("strips ", width, &format!(" {} {WOF} (flange)", pen.times())).into_iter().collect()
}

/// The panels of the backing, its size, and how far it reaches.
pub(super) fn of_backing(backing: &Backing, pen: &CellText<'_>) -> Vec<Step> {
    let (panels, takes) = counts(&backing.requires, pen, |size| &size.panels);
    let size = pen.also_per_size(&backing.requires, |size| pen.dimensions(&size.size));
    let run = pen.also_per_size(&backing.requires, |size| match &size.panels_run {
        Field::Stated(Spanned { value: PanelsRun::Along, .. }) => {
            Cell::Stated("along the length of the quilt".to_string())
        }
        Field::Stated(Spanned { value: PanelsRun::Across, .. }) => {
            Cell::Stated("across the width of the quilt".to_string())
        }
        Field::Absent => Cell::Nothing,
        Field::Unread => Cell::Unread,
    });
    let panels = Clause::counting(Link::Start, panels, takes).noun("panel").words(" (backing)");
    let run = Clause::uncounted(Link::Aside, "to run ", run);
    let mut steps = Vec::new();
    if panels.is_stated() {
        let clauses = std::iter::once(panels).chain(run.is_stated().then_some(run));
        steps.push(Step { clauses: clauses.collect() });
    } else if run.is_stated() {
        steps.push(Step::of(Clause { link: Link::Start, ..run }.words(" (panels of the backing)")));
    }
    steps.extend(stated("backing, in all: ", size, ""));
    let insert = each(&backing.insert, pen, |width| pen.length(width));
    steps.extend(stated("a strip of another fabric, ", insert, " wide, to sew in between the panels"));
    steps.extend(reaches("backing", &backing.overhang, pen));
    steps
}

fn of_batting(batting: &Batting, pen: &CellText<'_>) -> Vec<Step> {
    let size = pen.per_size(&batting.requires, |size| batting_size(size, pen));
    let reaches = reaches("batting", &batting.overhang, pen);
    stated("batting: ", size, "").into_iter().chain(reaches).collect()
}

/// How far a layer reaches beyond the quilt.
fn reaches(layer: &str, by: &BySize<StatedOverhang>, pen: &CellText<'_>) -> Option<Step> {
    let by = each(by, pen, |by| overhang(by, pen));
    stated(&format!("{layer}, beyond the quilt at each side: "), by, "")
}

fn each<T>(by_size: &BySize<T>, pen: &CellText<'_>, show: impl Fn(&Field<T>) -> Cell) -> Vec<Cell> {
    (0..pen.sizes().len()).map(|size| show(by_size.of(size))).collect()
}

/// A hanging sleeve, prairie points and pillow backs.
fn besides(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Step> {
    let mut steps = Vec::new();
    if let Some(sleeve) = &manuscript.sleeve {
        let size = pen.per_size(&sleeve.requires, |cut| pen.dimensions(&Field::Stated(cut.clone())));
        steps.extend(stated("a piece ", size, " (hanging sleeve)"));
    }
    if let Some(points) = &manuscript.prairie_points {
        let count = pen.per_size(&points.requires, |count| pen.count(&Field::Stated(count.clone())));
        let takes = points.requires.iter().map(|count| match count {
            PerSize::Stated(count) => count.value != Count(0),
            PerSize::Nothing => false,
            PerSize::Unread => true,
        });
        let side = pen.length(&points.square);
        let clause = Clause::counting(Link::Start, count, takes.collect()).noun("square");
        let clause = clause.words(&format!(" {} (prairie points)", side.text()));
        steps.extend(clause.is_stated().then(|| Step::of(clause)));
    }
    if let Some(back) = &manuscript.pillow_back {
        let first = pen.per_size(&back.requires, |pieces| pen.dimensions(&pieces.first));
        let second = pen.per_size(&back.requires, |pieces| pen.dimensions(&pieces.second));
        steps.extend(stated("a piece ", first, " (pillow back, first piece)"));
        steps.extend(stated("a piece ", second, " (pillow back, second piece)"));
    }
    steps
}
