//! The figures of blocks, and of units whose pieces are too small to be labelled in a block.

use std::collections::BTreeMap;

use super::fabrics::{FabricNumbers, remarks};
use super::pieces::{Lying, bounds, draw, label, of_block, of_unit, points};
use super::{AIR, NARROW};
use crate::drawing::ShownLength;
use crate::drawing::design::{BlockDrawing, DesignDrawing, UnitDrawing};
use crate::manuscript::design::Sewn;
use crate::quantity::Length;
use crate::quilt_math::outline::Point;
use crate::report::figure::Figure;
use crate::report::figure::label_placement::{LabelPlacement, Taken};
use crate::report::figure::scale::{PlacedScale, Scale};
use crate::report::figure::scene::{At, Scene, UNIT};
use crate::report::figure::words::{by, clean};

/// How many figures of blocks and units a page has at most.
const MAX_FIGURES: usize = 60;

/// How high a block is drawn at most, and a unit.
const HIGH: i64 = 760 * UNIT;
const UNIT_HIGH: i64 = 420 * UNIT;

/// The figures of all blocks, each with those of its units that must be seen larger after it.
pub(super) fn figures(design: &DesignDrawing, fabrics: &FabricNumbers, page: &str) -> Vec<Figure> {
    let mut figures = Vec::new();
    let mut shown: Vec<usize> = Vec::new();
    for (number, block) in (1..).zip(&design.blocks) {
        if figures.len() >= MAX_FIGURES {
            break;
        }
        let (figure, small) = block_figure(format!("fig-{page}block-{number}"), design, block, fabrics);
        figures.push(figure);
        for unit in small {
            if !shown.contains(&unit) && figures.len() < MAX_FIGURES {
                shown.push(unit);
                let id = format!("fig-{page}unit-{}", unit + 1);
                figures.extend(design.units.get(unit).map(|unit| unit_figure(id, unit, fabrics)));
            }
        }
    }
    figures
}

/// The figure of a block, and the units of it that must be seen larger.
fn block_figure(
    id: String,
    design: &DesignDrawing,
    block: &BlockDrawing,
    fabrics: &FabricNumbers,
) -> (Figure, Vec<usize>) {
    let pieces = of_block(design, block);
    let sheet = Sheet { id, kind: "block", name: &block.block, pieces: &pieces, high: HIGH };
    let size = block.width.as_ref().zip(block.length.as_ref());
    let mut notes: Vec<String> = block.empty.iter().map(|why| format!("Not drawn: {why}.")).collect();
    notes.extend(unknown_units(design, &pieces));
    let outlines: Vec<Vec<Point>> = block.parts.iter().map(|part| points(&part.outline)).collect();
    let points_somewhere =
        pieces.iter().any(|piece| design.units.iter().any(|unit| unit.unit == piece.of.0 && unit.points));
    let turning = if points_somewhere { WAY } else { "" };
    let (svg, small) = sheet.svg(size, &outlines, &notes, fabrics, &alternative(design, block));
    let sized = size.map_or_else(String::new, |(width, length)| format!(", {} finished", by(width, length)));
    let colors = clean(&colors(block));
    let caption = format!("Block {}{sized}: {}.{colors}{turning}", clean(&block.block), clean(&contents(block)));
    let units = design.units.iter().enumerate();
    let is_small = |unit: &UnitDrawing| small.iter().any(|(name, _)| *name == unit.unit);
    let small = units.filter(|(_, unit)| is_small(unit)).map(|(number, _)| number).collect();
    (
        Figure {
            id: sheet.id,
            size: None,
            section: "blocks".to_string(),
            narrow: true,
            caption,
            alternative: alternative(design, block),
            svg,
        },
        small,
    )
}

/// What no number says.
const WAY: &str = " Which way a unit points is not stated; each is drawn one way, and turned where the rows say so.";

fn unit_figure(id: String, unit: &UnitDrawing, fabrics: &FabricNumbers) -> Figure {
    let pieces = of_unit(unit);
    let sheet = Sheet { id, kind: "unit", name: &unit.unit, pieces: &pieces, high: UNIT_HIGH };
    let size = unit.width.as_ref().zip(unit.length.as_ref());
    let notes: Vec<String> = unit.empty.iter().map(|why| format!("Not drawn: {why}.")).collect();
    let words = unit_words(unit, &BTreeMap::new());
    let (svg, _) = sheet.svg(size, &[], &notes, fabrics, &words);
    let sized = size.map_or_else(String::new, |(width, length)| format!(", {} finished", by(width, length)));
    let caption = format!("Unit {}{sized}, larger.", clean(&unit.unit));
    Figure { id: sheet.id, size: None, section: "units".to_string(), narrow: true, caption, alternative: words, svg }
}

/// What is drawn of one block or unit.
struct Sheet<'d> {
    id: String,
    kind: &'static str,
    name: &'d str,
    pieces: &'d [Lying<'d>],
    high: i64,
}

type Kinds<'d> = Vec<(&'d str, &'d str)>;

impl<'d> Sheet<'d> {
    /// The drawing, and the kinds of pieces that are too small for a number.
    fn svg(
        &self,
        size: Option<(&ShownLength, &ShownLength)>,
        parts: &[Vec<Point>],
        notes: &[String],
        fabrics: &FabricNumbers,
        words: &str,
    ) -> (String, Kinds<'d>) {
        let mut scene = Scene::narrow(self.id.clone(), "fig-narrow", NARROW);
        let finished = size.map(|(width, length)| Point { across: width.length, down: length.length });
        let all = self.pieces.iter().flat_map(|piece| piece.points.iter().copied()).chain(finished);
        let zero = Point { across: Length::ZERO, down: Length::ZERO };
        let (from, to) = bounds(&all.chain([zero]).collect::<Vec<_>>());
        let extent = (to.across - from.across, to.down - from.down);
        let room = NARROW - 2 * AIR;
        let placed = PlacedScale { scale: Scale::fit(extent, (room, self.high)), corner: At { x: AIR, y: AIR }, from };
        scene.data("drawing", self.kind);
        scene.data("name", self.name);
        scene.data("unit", placed.scale.label());
        scene.data("pieces", self.pieces.len());
        if let Some((width, length)) = size {
            scene.data("width", &width.shown);
            scene.data("length", &length.shown);
        }
        let lines = parts.iter().map(|part| part.iter().map(|point| placed.at(*point)).collect::<Vec<At>>());
        draw(&mut scene, self.pieces, &placed, fabrics, "fig-piece");
        for corners in lines {
            scene.path("fig-part", &corners, true);
        }
        let bottom = AIR + placed.scale.of(extent.1);
        if let Some(finished) = finished {
            let (wide, high) = (placed.scale.of(finished.across), placed.scale.of(finished.down));
            let class = if self.pieces.is_empty() { "fig-empty" } else { "fig-finished" };
            scene.rectangle(class, placed.at(zero), wide, high).data("finished", "all");
        }
        let mut labels = LabelPlacement::new(Taken { left: 0, top: 0, right: NARROW, bottom: bottom + AIR });
        let small = label(&mut scene, self.pieces, &placed, fabrics, &mut labels);
        let with_fabric = self.pieces.iter().filter(|piece| !piece.is_empty);
        let used: Vec<Option<String>> = with_fabric.map(|piece| piece.fabric.map(str::to_string)).collect();
        let mut notes = notes.to_vec();
        if self.kind == "unit" && !small.is_empty() {
            notes.push(format!("Too small for a number: {}.", told_small(self.pieces, &small, fabrics)));
        }
        let legend = fabrics.legend(&mut scene, &used, bottom + 24 * UNIT);
        let ends = remarks(&mut scene, &notes, legend);
        let title = format!("The {} {}", self.kind, clean(self.name));
        (scene.svg(ends, &title, words), small)
    }
}

/// `log_7 (2), log_8 (3)`.
fn told_small(pieces: &[Lying<'_>], small: &[(&str, &str)], fabrics: &FabricNumbers) -> String {
    let fabric = |kind: &(&str, &str)| pieces.iter().find(|piece| piece.of == *kind).and_then(|piece| piece.fabric);
    let told = small.iter().map(|kind| format!("{} ({})", kind.1, fabrics.label(fabric(kind))));
    told.collect::<Vec<_>>().join(", ")
}

/// The units that are drawn as empty boxes, each with the reason.
fn unknown_units(design: &DesignDrawing, pieces: &[Lying<'_>]) -> Vec<String> {
    let is_here = |unit: &&UnitDrawing| pieces.iter().any(|piece| piece.is_empty && piece.of.0 == unit.unit);
    let units = design.units.iter().filter(is_here);
    let told = |unit: &UnitDrawing| {
        let why = unit.empty.clone().unwrap_or_else(|| "nothing is known of its pieces".to_string());
        format!("{}: an empty box, since {why}.", unit.unit)
    };
    units.map(told).collect()
}

/// `4 corner, 4 geese and 1 center`.
fn contents(block: &BlockDrawing) -> String {
    let mut counts: Vec<(&str, Sewn, usize)> = Vec::new();
    for part in &block.parts {
        let name = part.unit.as_deref().or(part.block.as_deref()).unwrap_or_default();
        match counts.iter_mut().find(|(_, known, _)| *known == part.sewn) {
            Some((.., count)) => *count += 1,
            None => counts.push((name, part.sewn, 1)),
        }
    }
    let told: Vec<String> = counts.iter().map(|(name, _, count)| format!("{count} {name}")).collect();
    match told.split_last() {
        None => block.empty.clone().unwrap_or_else(|| "nothing in it is known".to_string()),
        Some((only, [])) => only.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
    }
}

/// ` As star, with gold for ink.`
fn colors(block: &BlockDrawing) -> String {
    let with: Vec<String> = block.with.iter().map(|(from, to)| format!("{to} for {from}")).collect();
    block.like.as_ref().map_or_else(String::new, |like| format!(" As {like}, with {}.", with.join(", ")))
}

/// How many units are told one by one.
const MAX_TOLD: usize = 40;

/// Everything that the drawing of a block says.
fn alternative(design: &DesignDrawing, block: &BlockDrawing) -> String {
    let size = block.width.as_ref().zip(block.length.as_ref());
    let sized = size.map_or_else(String::new, |(width, length)| format!(", {} finished", by(width, length)));
    let mut words = format!("Block {}{sized}: {}.{}", block.block, contents(block), colors(block));
    let used = |number: usize| block.parts.iter().any(|part| part.sewn == Sewn::Unit(number));
    let units = design.units.iter().enumerate().filter(|(number, _)| used(*number));
    for (_, unit) in units.take(MAX_TOLD) {
        words.push(' ');
        words.push_str(&unit_words(unit, &block.with));
    }
    if let Some(why) = &block.empty {
        words.push_str(&format!(" Not drawn: {why}."));
    }
    clean(&words)
}

/// `Unit geese: goose of ink, sky of foam.`, each fabric with the one that takes its place.
fn unit_words(unit: &UnitDrawing, with: &BTreeMap<String, String>) -> String {
    let mut kinds: Vec<(&str, &str)> = Vec::new();
    for piece in &unit.pieces {
        let fabric = piece.fabric.as_ref().map(|fabric| with.get(fabric).unwrap_or(fabric).as_str());
        let kind = (piece.part.as_str(), fabric.unwrap_or("a fabric that is not stated"));
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    let told: Vec<String> = kinds.iter().map(|(part, fabric)| format!("{part} of {fabric}")).collect();
    let told = if told.is_empty() {
        format!("an empty box, since {}", unit.empty.as_deref().unwrap_or("nothing is known of its pieces"))
    } else {
        told.join(", ")
    };
    clean(&format!("Unit {}: {told}.", unit.unit))
}
