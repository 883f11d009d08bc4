//! The units of a block do not come to its finished size.

use std::collections::BTreeSet;

use super::Context;
use super::wording::subject;
use super::wording::unit::tolerance;
use crate::finding::{Correction, Finding, Label, Level, Subject, SubjectKind};
use crate::manuscript::model::Set;
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Length, Measure, Round, Scale, Written, rewrite_sides, rewrite_square_or_sides};
use crate::quilt_math::log_cabin::LogOrder;
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::blocks::{BlockNeeds, BlocksNeeds, PlacedUnit, RowNeeds};
use crate::requirement::layout::LayoutNeeds;
use crate::requirement::units::UnitNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    // What is like another block is sewn from the same rows.
    for block in context.needs.blocks.blocks.iter().filter(|block| block.stated.like.is_absent()) {
        let (needs, text) = (&context.needs.blocks, &context.source.text);
        Sums { needs, block, tolerance: tolerance(context.settings), text }.check(findings);
    }
    findings.extend(context.needs.units.units.iter().filter_map(|unit| log_cabin(context, unit)));
    setting_triangles(context, findings);
}

/// A log cabin whose center and logs do not come to its finished size.
fn log_cabin(context: &Context<'_>, unit: &UnitNeeds<'_>) -> Option<Finding> {
    let (made, stated) = (unit.logs_make?, unit.stated.finished.stated()?);
    let (finished, slack) = (unit.finished?, tolerance(context.settings));
    let about =
        |one: Rectangle| (one.width - finished.width).abs() <= slack && (one.length - finished.length).abs() <= slack;
    if about(made) {
        return None;
    }
    let needs = &context.needs.units;
    let (stated_words, made_words) = (show(finished, needs.measure, Round::Down), show(made, needs.measure, Round::Up));
    let message = format!(
        "Log cabin {} does not add up: {stated_words} finished stated; its center and its logs make {made_words}.",
        unit.stated.name
    );
    let (width, height) = stated.value;
    let text = stated.at.text(&context.source.text);
    let text = rewrite_square_or_sides(text, (&width, &height), (made.width, made.length));
    Some(
        Finding::new(Label::new(stated.at, format!("its logs make {made_words}")), message)
            .about(subject::unit(unit.stated))
            .see(unit.stated.center.at(), "its center")
            .see(unit.stated.logs.at(), "how wide its logs finish")
            .help(log_cabin_working(needs.measure, unit)?)
            .numbers(stated_words, made_words)
            .corrected(Some(Correction::new(stated.at, text)))
            .or_corrected(logs_that_fit(unit, made, finished)),
    )
}

/// The widths of single logs, and of the center, with which they come to the finished size.
fn logs_that_fit(unit: &UnitNeeds<'_>, made: Rectangle, finished: Rectangle) -> Vec<Correction> {
    let (wide, high) = (finished.width - made.width, finished.length - made.length);
    let zero = Length::ZERO;
    let Some((order, logs)) = unit.stated.order.or(LogOrder::Round).zip(unit.stated.logs.stated()) else {
        return Vec::new();
    };
    let log = |(number, log): (usize, &Spanned<Written>)| {
        let lacks = if order.is_at_side(number) { wide } else { high };
        let other = if order.is_at_side(number) { high } else { wide };
        let width = log.value.length + lacks;
        let fits = other == zero && lacks != zero && width.is_positive();
        fits.then(|| Correction::new(log.at, log.value.rewrite(width)))
    };
    let center = unit.stated.center.stated().and_then(|center| {
        let (width, height) = center.value;
        let to = (width.length + wide, height.length + high);
        let is_square = width.length == height.length && wide != high;
        let text = rewrite_sides((&width, &height), to);
        let text = if wide == high && width.length == height.length { width.rewrite(to.0) } else { text };
        (!is_square && to.0.is_positive() && to.1.is_positive()).then(|| Correction::new(center.at, text))
    });
    let logs = logs.value.iter().enumerate().filter_map(log);
    distinct(center.into_iter().chain(logs))
}

/// How many corrections of one finding are tried.
const MAX_TRIED: usize = 8;

/// Corrections, each once.
fn distinct(corrections: impl Iterator<Item = Correction>) -> Vec<Correction> {
    let mut all: Vec<Correction> = Vec::new();
    for correction in corrections {
        if !all.contains(&correction) {
            all.push(correction);
        }
        if all.len() == MAX_TRIED {
            break;
        }
    }
    all
}

/// How much each of several takes of what lacks, where that is something.
fn share(lacks: Length, among: usize) -> Option<Length> {
    let among = i128::try_from(among).ok()?;
    let ticks = lacks.ticks().checked_div(among)?;
    (ticks != 0 && ticks * among == lacks.ticks()).then(|| Length::from_ticks(ticks))
}

/// `Across: center 3 in + logs 1 in + 1 in = 5 in.`, and the same down.
pub(crate) fn log_cabin_working(measure: Measure, unit: &UnitNeeds<'_>) -> Option<String> {
    let (made, (width, height)) = (unit.logs_make?, unit.stated.center.value()?);
    let order = unit.stated.order.or(LogOrder::Round)?;
    let widths: Vec<Length> = unit.stated.logs.stated()?.value.iter().map(|log| log.value.length).collect();
    let scale =
        Scale::of(measure, &[widths.as_slice(), &[width.length, height.length, made.width, made.length]].concat());
    let sum = |at_side: bool, center: Length, total: Length| {
        let logs = widths.iter().enumerate().filter(|(number, _)| order.is_at_side(*number) == at_side);
        let logs: Vec<String> = logs.map(|(_, width)| scale.up(*width)).collect();
        let logs = if logs.is_empty() { String::new() } else { format!(" + {}", logs.join(" + ")) };
        format!("center {}{logs} = {}", scale.up(center), scale.up(total))
    };
    Some(format!("Across: {}. Down: {}.", sum(true, width.length, made.width), sum(false, height.length, made.length)))
}

/// Triangles that set blocks on point and are made for blocks of another size: once for each unit and size of block.
fn setting_triangles(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<(usize, Length)> = BTreeSet::new();
    for laid in &context.needs.layouts.sizes {
        let Some(top) = laid.top.as_ref().filter(|top| top.set == Set::OnPoint) else { continue };
        let (at_sides, at_corners) = top.triangles_for();
        let triangles = [(&laid.stated.side_triangles, at_sides), (&laid.stated.corner_triangles, at_corners)];
        for (field, block) in triangles {
            let Some((unit, stated)) = field
                .stated()
                .and_then(|unit| Some((unit, context.manuscript.units.get(unit.value)?.finished.stated()?)))
            else {
                continue;
            };
            let made_for = stated.value.0.length;
            if (made_for - block).abs() > tolerance(context.settings) && told.insert((unit.value, block)) {
                findings.extend(for_another_block(context, laid, unit, (made_for, block)));
            }
        }
    }
}

fn for_another_block(
    context: &Context<'_>,
    laid: &LayoutNeeds<'_>,
    unit: &Spanned<usize>,
    (made_for, block): (Length, Length),
) -> Option<Finding> {
    let stated = context.manuscript.units.get(unit.value)?;
    let needs = &context.needs.blocks;
    let scale = Scale::of(needs.measure, &[made_for, block, (made_for - block).abs()]);
    let (made_for_words, block_words) = (scale.down(made_for), scale.up(block));
    let way = if made_for < block { "small" } else { "large" };
    let with_sashing = laid.top.as_ref().is_some_and(|top| top.block.width != block);
    let finish = if with_sashing { "come with their sashing to" } else { "finish" };
    let message = format!(
        "Unit {} is made for blocks of {made_for_words}; the blocks that it sets for {} {finish} {block_words}: {} too \
         {way}.",
        stated.name,
        laid.size.name,
        scale.up((scale.rounded(made_for, Round::Down) - scale.rounded(block, Round::Up)).abs()),
    );
    let at = stated.finished.at()?;
    let correction = stated.finished.value().map(|(width, _)| Correction::new(at, width.rewrite(block)));
    Some(
        Finding::new(Label::new(at, format!("too {way} for the blocks")), message)
            .for_size(&laid.size.name)
            .about(subject::unit(stated))
            .see(Some(unit.at), "sets the blocks here")
            .see(laid.blocks.first().and_then(|block| block.stated.finished.at()), "the finished block")
            .see(laid.stated.sashing.at(), "the sashing, at each side of a block")
            .help("The finished size of triangles that set blocks is that of the blocks.")
            .help(if with_sashing {
                "Where squares stay whole at the edge, side triangles are made for the block and one sash, corner \
                 triangles for the block and two."
            } else {
                ""
            })
            .numbers(made_for_words, block_words)
            .corrected(correction),
    )
}

/// How many units of a row are pointed at.
const MAX_SEEN: usize = 4;

/// One block and what its rows come to.
struct Sums<'a> {
    needs: &'a BlocksNeeds<'a>,
    block: &'a BlockNeeds<'a>,
    tolerance: Length,
    /// The text of the manuscript.
    text: &'a str,
}

impl Sums<'_> {
    fn check(&self, findings: &mut Vec<Finding>) {
        let rows = || self.block.rows.iter().enumerate();
        let uneven: Vec<Finding> = rows().filter_map(|(index, row)| self.uneven(index, row)).collect();
        // Where a row's units are not of one height, some unit is the wrong one: its width says nothing yet.
        if !uneven.is_empty() {
            findings.extend(uneven);
            return;
        }
        let Some(finished) = self.block.finished else { return };
        let Some(width) = self.agreed_width() else {
            findings.extend(rows().filter_map(|(index, row)| self.of_width(index, row, finished.width)));
            return;
        };
        let sum = Rectangle::new(width, self.height().unwrap_or(finished.length));
        if self.same(sum.width, finished.width) && self.same(sum.length, finished.length) {
            findings.extend(self.uneven_column());
        } else {
            findings.extend(self.not_finished(sum, finished));
        }
    }

    fn same(&self, one: Length, other: Length) -> bool {
        (one - other).abs() <= self.tolerance
    }

    fn finding(&self, at: Label, message: String) -> Finding {
        Finding::new(at, message).about(Subject::of(SubjectKind::Block, &self.block.stated.name))
    }

    fn row(&self, index: usize) -> Subject {
        Subject::of(SubjectKind::Block, &self.block.stated.name).and(SubjectKind::Row, (index + 1).to_string())
    }

    /// The width that all rows have.
    fn agreed_width(&self) -> Option<Length> {
        let widths: Option<Vec<Length>> = self.block.rows.iter().map(RowNeeds::width).collect();
        let widths = widths.filter(|_| self.block.stated.whole)?;
        let first = *widths.first()?;
        widths.iter().all(|width| self.same(*width, first)).then_some(first)
    }

    fn height(&self) -> Option<Length> {
        self.block.rows.iter().map(RowNeeds::height).sum()
    }

    fn see_finished(&self, finding: Finding) -> Finding {
        finding.see(self.block.stated.finished.at(), "the finished block")
    }

    /// A row whose units are not of one height.
    fn uneven(&self, index: usize, row: &RowNeeds<'_>) -> Option<Finding> {
        let odd = row.odd(self.tolerance);
        let (first, height) = (odd.first()?, row.height()?);
        let message = format!(
            "Row {} of block {} has units of different heights: {} is {} high, and the row {}.",
            index + 1,
            self.block.stated.name,
            called(first),
            self.needs.up(first.size.length),
            self.needs.up(height),
        );
        let mend = if self.same(first.size.width, height) {
            let other = PlacedUnit { turned: !first.turned, ..*first };
            format!("Turned a quarter, it fits: write {}.", called(&other))
        } else {
            "The units of a row must be of one height.".to_string()
        };
        let at = Label::new(row.at, "not of one height");
        let finding =
            see_units(self.finding(at, message).about(self.row(index)), row).help(self.row_working(row)).help(mend);
        let finding = finding.or_corrected(self.units_as_high(row));
        Some(finding.numbers(self.needs.up(first.size.length), self.needs.up(height)))
    }

    /// The finished sizes of units of a row with which they are as high as others of it.
    fn units_as_high(&self, row: &RowNeeds<'_>) -> Vec<Correction> {
        let Some(units) = &row.units else { return Vec::new() };
        let heights: BTreeSet<Length> = units.iter().map(|unit| unit.size.length).collect();
        let with = |unit: &PlacedUnit<'_>| {
            let others = heights.iter().filter(|height| **height != unit.size.length);
            let resized = others.filter_map(|height| self.resized(unit, Rectangle::new(unit.size.width, *height)));
            resized.collect::<Vec<_>>()
        };
        distinct(units.iter().flat_map(with))
    }

    /// The finished sizes of units with which the rows come to the finished size.
    fn units_that_fit(&self, finished: Rectangle) -> Vec<Correction> {
        let all = || self.block.rows.iter().filter_map(|row| row.units.as_ref());
        let across = all().flat_map(|units| {
            let lacks = finished.width - units.iter().map(|unit| unit.size.width).sum();
            units.iter().filter_map(move |unit| {
                let alike = units.iter().filter(|other| other.at == unit.at).count();
                let width = unit.size.width + share(lacks, alike)?;
                self.resized(unit, Rectangle::new(width, unit.size.length))
            })
        });
        let lacks = finished.length - self.height().unwrap_or(finished.length);
        let down = all().flatten().filter_map(|unit| {
            let alike = all().filter(|units| units.iter().any(|other| other.at == unit.at)).count();
            self.resized(unit, Rectangle::new(unit.size.width, unit.size.length + share(lacks, alike)?))
        });
        distinct(across.chain(down))
    }

    /// The finished size of a unit that lies so large in the block.
    fn resized(&self, unit: &PlacedUnit<'_>, size: Rectangle) -> Option<Correction> {
        let (width, height) = unit.written;
        let lies = if unit.turned { size.turned() } else { size };
        let (mut wide, mut high) = (lies.width, lies.length);
        // What is square stays so.
        if width.length == height.length {
            let one = if wide == width.length { high } else { wide };
            (wide, high) = (one, one);
        }
        let is_changed = (wide, high) != (width.length, height.length);
        let is_length = wide.is_positive() && high.is_positive() && wide.max(high) <= Length::LONGEST;
        let at = unit.at.filter(|_| is_changed && is_length)?;
        let text = rewrite_square_or_sides(at.text(self.text), (&width, &height), (wide, high));
        Some(Correction::new(at, text))
    }

    /// A row that is not as wide as the block.
    fn of_width(&self, index: usize, row: &RowNeeds<'_>, finished: Length) -> Option<Finding> {
        let width = row.width().filter(|width| !self.same(*width, finished))?;
        let message = format!(
            "Row {} of block {} comes to {}; {} needed: {}.",
            index + 1,
            self.block.stated.name,
            self.needs.up(width),
            self.needs.up(finished),
            self.off(width, finished),
        );
        let at = Label::new(row.at, format!("comes to {}", self.needs.up(width)));
        let finding = see_units(self.see_finished(self.finding(at, message).about(self.row(index))), row)
            .help(self.row_working(row));
        let all = Rectangle::new(finished, self.height().unwrap_or_default());
        let finding = finding.or_corrected(self.units_that_fit(all));
        Some(finding.numbers(self.needs.up(width), self.needs.up(finished)))
    }

    /// `1 in short` or `1 in too much`: the difference of the two as they are shown.
    fn off(&self, stated: Length, needed: Length) -> String {
        let shown = |length| Scale::of(self.needs.measure, &[length]).rounded(length, Round::Up);
        let off = self.needs.up((shown(needed) - shown(stated)).abs());
        if stated < needed { format!("{off} short") } else { format!("{off} too much") }
    }

    /// Rows that agree with one another and not with the finished size.
    fn not_finished(&self, sum: Rectangle, finished: Rectangle) -> Option<Finding> {
        let stated = self.block.stated.finished.stated()?;
        let show = |size: Rectangle| format!("{} x {}", self.needs.up(size.width), self.needs.up(size.length));
        let wide = (!self.same(sum.width, finished.width)).then(|| {
            let off = self.off(sum.width, finished.width);
            format!("its rows come to {} across, {off}", self.needs.up(sum.width))
        });
        let high = (!self.same(sum.length, finished.length)).then(|| {
            let off = self.off(sum.length, finished.length);
            format!("its rows come to {} down, {off}", self.needs.up(sum.length))
        });
        let why: Vec<String> = [wide, high].into_iter().flatten().collect();
        let message =
            format!("Block {}: {} finished stated; {}.", self.block.stated.name, show(finished), why.join(", and "));
        let (width, height) = stated.value;
        let square = sum.width == sum.length && finished.width == finished.length;
        let text =
            if square { width.rewrite(sum.width) } else { rewrite_sides((&width, &height), (sum.width, sum.length)) };
        let correction = self.height().map(|_| Correction::new(stated.at, text));
        let mut finding = self.finding(Label::new(stated.at, format!("the rows come to {}", show(sum))), message);
        for row in self.block.rows.iter().take(2) {
            finding = see_units(finding, row).help(self.row_working(row));
        }
        let finding = finding.help(self.heights_working()).numbers(show(finished), show(sum)).corrected(correction);
        Some(finding.or_corrected(self.units_that_fit(finished)))
    }

    /// A column whose units are not of one width, though the rows are: seams do not meet. That may be meant.
    fn uneven_column(&self) -> Option<Finding> {
        let rows: Option<Vec<&Vec<PlacedUnit<'_>>>> = self.block.rows.iter().map(|row| row.units.as_ref()).collect();
        let rows = rows?;
        let first = *rows.first()?;
        if rows.iter().any(|row| row.len() != first.len()) {
            return None;
        }
        let differs = |row: &[PlacedUnit<'_>]| {
            row.iter().zip(first).position(|(unit, above)| !self.same(unit.size.width, above.size.width))
        };
        let (index, column) = rows.iter().enumerate().find_map(|(index, row)| Some((index, differs(row)?)))?;
        let (unit, above) = (&rows[index][column], &first[column]);
        let message = format!(
            "Row {} of block {} is as wide as the first, and its seams do not meet: in column {}, {} is {} wide and {} {}.",
            index + 1,
            self.block.stated.name,
            column + 1,
            called(unit),
            self.needs.up(unit.size.width),
            called(above),
            self.needs.up(above.size.width),
        );
        let at: Span = self.block.rows[index].at;
        let finding = self
            .finding(Label::new(at, "its seams do not meet those of the first row"), message)
            .about(self.row(index))
            .see(Some(self.block.rows[0].at), "the first row")
            .help("If the block is meant so, accept this finding with the reason.");
        Some(finding.numbers(self.needs.up(unit.size.width), self.needs.up(above.size.width)).at_most(Level::Query))
    }

    /// `corner 4 in + geese turned 2 in = 6 in`.
    fn row_working(&self, row: &RowNeeds<'_>) -> String {
        const MAX_TOLD: usize = 12;
        let Some(units) = &row.units else { return String::new() };
        let shown = units.iter().flat_map(|unit| [unit.size.width, unit.size.length]).chain(row.width());
        let scale = Scale::of(self.needs.measure, &shown.collect::<Vec<_>>());
        let told: Vec<String> = units
            .iter()
            .take(MAX_TOLD)
            .map(|unit| format!("{} {} x {}", called(unit), scale.up(unit.size.width), scale.up(unit.size.length)))
            .collect();
        let more = if units.len() > MAX_TOLD { " + ..." } else { "" };
        let width = row.width().map(|width| scale.up(width)).unwrap_or_default();
        format!("Across: {}{more}, together {width}.", told.join(" + "))
    }

    /// `Down: 4 in + 4 in + 4 in = 12 in`.
    fn heights_working(&self) -> String {
        const MAX_TOLD: usize = 12;
        let Some(height) = self.height() else { return String::new() };
        let heights = self.block.rows.iter().filter_map(RowNeeds::height);
        let scale = Scale::of(self.needs.measure, &heights.clone().chain([height]).collect::<Vec<_>>());
        let told: Vec<String> = heights.take(MAX_TOLD).map(|height| scale.up(height)).collect();
        let more = if self.block.rows.len() > MAX_TOLD { " + ..." } else { "" };
        format!("Down: {}{more} = {}.", told.join(" + "), scale.up(height))
    }
}

fn called(unit: &PlacedUnit<'_>) -> String {
    if unit.turned { format!("{} turned", unit.name) } else { unit.name.to_string() }
}

/// The sizes of the units of a row, each once: one of them may be the wrong one.
fn see_units(mut finding: Finding, row: &RowNeeds<'_>) -> Finding {
    let mut seen: Vec<Span> = Vec::new();
    for unit in row.units.iter().flatten() {
        if let Some(at) = unit.at.filter(|at| !seen.contains(at) && seen.len() < MAX_SEEN) {
            seen.push(at);
            finding = finding.see(Some(at), format!("the finished size of {}", unit.name));
        }
    }
    finding
}
