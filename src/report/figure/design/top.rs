//! The figure of the quilt top of a size: every block, sash, triangle and border where it lies.
//!
//! A block is drawn once, as a symbol, and used wherever it stands, so that a quilt of many blocks makes a small page.

use super::fabrics::{FabricNumbers, remarks};
use super::pieces::{Lying, draw, finest, of_block, of_unit};
use super::{AIR, NARROW};
use crate::drawing::design::DesignDrawing;
use crate::drawing::places::Outline;
use crate::drawing::top_parts::{PartKind, ShownSide, TopDrawing, TopPart};
use crate::quantity::Length;
use crate::quilt_math::outline::Point;
use crate::report::figure::Figure;
use crate::report::figure::label_placement::{LabelPlacement, Taken, foot};
use crate::report::figure::scale::{PlacedScale, Scale};
use crate::report::figure::scene::{Anchor, At, LETTER, Scene, UNIT};
use crate::report::figure::words::{by_words, clean, wide};

/// How high a top is drawn at most.
const HIGH: i64 = 960 * UNIT;

/// How many pieces all blocks of a top show together; of more, the outlines of the blocks alone are drawn.
const MAX_SHOWN: usize = 40_000;

/// Pieces that are drawn smaller than this are left out, and have thin lines where they are a little larger.
const FINEST: i64 = 5 * UNIT;
const FINE: i64 = 16 * UNIT;

/// The figure of a top.
pub(super) fn figure(
    id: String,
    size: &str,
    top: &TopDrawing,
    design: Option<&DesignDrawing>,
    fabrics: &FabricNumbers,
) -> Figure {
    let scene = Scene::narrow(id, "fig-middle", NARROW);
    let (caption, words) = (caption(size, top), alternative(size, top));
    let title = format!("The quilt top for {}", clean(size));
    let mut picture = Picture { scene, top, design, fabrics, used: Vec::new(), notes: Vec::new() };
    let bottom = picture.draw();
    let Picture { mut scene, used, notes, .. } = picture;
    let legend = fabrics.legend(&mut scene, &used, bottom + 24 * UNIT);
    let ends = remarks(&mut scene, &notes, legend);
    let svg = scene.svg(ends, &title, &words);
    Figure {
        id: scene.id,
        size: Some(size.to_string()),
        section: "layout".to_string(),
        narrow: true,
        caption,
        alternative: words,
        svg,
    }
}

struct Picture<'d> {
    scene: Scene,
    top: &'d TopDrawing,
    design: Option<&'d DesignDrawing>,
    fabrics: &'d FabricNumbers,
    /// The fabrics that are seen.
    used: Vec<Option<String>>,
    /// What stands beneath the legend.
    notes: Vec<String>,
}

/// What a block or a unit of a border is drawn as.
struct Symbol {
    kind: PartKind,
    number: usize,
    id: String,
}

impl<'d> Picture<'d> {
    /// Draws everything. Where it ends.
    fn draw(&mut self) -> i64 {
        self.scene.data("drawing", "top");
        self.notes = self.top.empty.iter().map(|why| format!("Not drawn: {why}.")).collect();
        let (Some(width), Some(length)) = (&self.top.width, &self.top.length) else {
            let (wide, high) = (NARROW - 2 * AIR, 200 * UNIT);
            self.scene.rectangle("fig-empty", At { x: AIR, y: AIR }, wide, high);
            return AIR + high;
        };
        let placed = Self::placed(width, length);
        for (name, value) in [("width", &width.shown), ("length", &length.shown)] {
            self.scene.data(name, value);
        }
        self.scene.data("unit", placed.scale.label());
        self.scene.data("parts", self.top.parts.len());
        let symbols = self.symbols(&placed);
        for part in &self.top.parts {
            self.part(part, &placed, &symbols);
        }
        let (wide, high) = (placed.scale.of(width.side.below()), placed.scale.of(length.side.below()));
        self.scene.rectangle("fig-finished", At { x: AIR, y: AIR }, wide, high).data("finished", "all");
        self.labels(&placed, AIR + high);
        AIR + high
    }

    fn placed(width: &ShownSide, length: &ShownSide) -> PlacedScale {
        let scale = Scale::fit((width.side.below(), length.side.below()), (NARROW - 2 * AIR, HIGH));
        let from = Point { across: Length::ZERO, down: Length::ZERO };
        PlacedScale { scale, corner: At { x: AIR, y: AIR }, from }
    }

    /// A symbol for each block and each unit of a border; none for those whose pieces are too many or too fine.
    fn symbols(&mut self, placed: &PlacedScale) -> Vec<Symbol> {
        let Some(design) = self.design else { return Vec::new() };
        let mut kinds: Vec<(PartKind, usize, usize)> = Vec::new();
        for part in &self.top.parts {
            let Some(number) = part.number.filter(|_| is_sewn(part.kind)) else { continue };
            match kinds.iter_mut().find(|(kind, known, _)| (*kind, *known) == (part.kind, number)) {
                Some((.., count)) => *count += 1,
                None => kinds.push((part.kind, number, 1)),
            }
        }
        let own = PlacedScale { corner: At::default(), ..*placed };
        let lying: Vec<(PartKind, usize, usize, Vec<Lying<'d>>)> =
            kinds.into_iter().map(|(kind, number, count)| (kind, number, count, lying(design, kind, number))).collect();
        let all: usize = lying.iter().map(|(_, _, count, pieces)| count * pieces.len()).sum();
        let finest =
            lying.iter().filter(|(.., pieces)| !pieces.is_empty()).map(|(.., pieces)| finest(pieces, &own)).min();
        let finest = finest.unwrap_or(FINEST);
        if all > MAX_SHOWN || finest < FINEST {
            self.notes.push("Too fine to show the pieces of the blocks: each is drawn by its outline.".to_string());
            return Vec::new();
        }
        let class = if finest < FINE { "fig-fine" } else { "fig-piece" };
        let mut symbols = Vec::new();
        for (kind, number, _, pieces) in lying {
            let word = match kind {
                PartKind::Block => "block",
                PartKind::BorderBlock => "border-block",
                _ => "unit",
            };
            let id = format!("{}-{word}-{}", self.scene.id, number + 1);
            let fabrics = self.fabrics;
            let size = size(design, kind, number);
            self.scene.symbol(&id, |scene| {
                draw(scene, &pieces, &own, fabrics, class);
                if let Some((width, length)) = size {
                    scene.rectangle("fig-part", At::default(), own.scale.of(width), own.scale.of(length));
                }
            });
            let with_fabric = pieces.iter().filter(|piece| !piece.is_empty);
            self.used.extend(with_fabric.map(|piece| piece.fabric.map(str::to_string)));
            self.used.sort();
            self.used.dedup();
            symbols.push(Symbol { kind, number, id });
        }
        symbols
    }

    fn part(&mut self, part: &TopPart, placed: &PlacedScale, symbols: &[Symbol]) {
        let corners = on_figure(&part.outline, placed);
        let symbol = symbols.iter().find(|symbol| symbol.kind == part.kind && Some(symbol.number) == part.number);
        if let (Some(symbol), Some(corner)) = (symbol, corners.first()) {
            let degrees = match (part.kind, self.top.set) {
                (PartKind::Block, Some("on_point")) => 45,
                _ if part.turned => 90,
                _ => 0,
            };
            self.scene.use_symbol(&symbol.id, *corner, degrees).data("kind", kind_word(part.kind));
            return;
        }
        let class = match part.kind {
            PartKind::Empty => "fig-empty",
            kind if is_sewn(kind) => "fig-part",
            _ => "fig-piece",
        };
        let id = self.scene.id.clone();
        let shape = self.scene.path(class, &corners, true);
        shape.data("kind", kind_word(part.kind));
        if part.kind != PartKind::Empty && !is_sewn(part.kind) {
            self.fabrics.tint(shape, &id, part.fabric.as_deref());
            if !self.used.contains(&part.fabric) {
                self.used.push(part.fabric.clone());
            }
        }
    }

    /// The numbers of the fabrics on borders and sashing that have room for them.
    fn labels(&mut self, placed: &PlacedScale, bottom: i64) {
        let mut room = LabelPlacement::new(Taken { left: 0, top: 0, right: NARROW, bottom });
        for part in self.top.parts.iter().filter(|part| !is_sewn(part.kind) && part.kind != PartKind::Empty) {
            let corners = on_figure(&part.outline, placed);
            let text = self.fabrics.label(part.fabric.as_deref());
            let (left, right) = (least(&corners, |at| at.x), most(&corners, |at| at.x));
            let (top, low) = (least(&corners, |at| at.y), most(&corners, |at| at.y));
            let fits = right - left > wide(&text) + 8 * UNIT && low - top > LETTER;
            // Upright, or mitered at its ends.
            let is_whole = matches!(corners[..], [from, to, _, _] if from.x == to.x || from.y == to.y);
            let middle = At { x: i64::midpoint(left, right), y: i64::midpoint(top, low) };
            if fits && is_whole && room.try_take(Taken::of_text(&text, middle)) {
                self.scene.text("fig-text fig-bold fig-halo", foot(middle), Anchor::Middle, &text);
            }
        }
    }
}

fn least(corners: &[At], of: fn(&At) -> i64) -> i64 {
    corners.iter().map(of).min().unwrap_or_default()
}

fn most(corners: &[At], of: fn(&At) -> i64) -> i64 {
    corners.iter().map(of).max().unwrap_or_default()
}

/// Whether a part is sewn from pieces of its own.
const fn is_sewn(kind: PartKind) -> bool {
    matches!(kind, PartKind::Block | PartKind::BorderUnit | PartKind::BorderBlock)
}

fn lying(design: &DesignDrawing, kind: PartKind, number: usize) -> Vec<Lying<'_>> {
    match kind {
        PartKind::Block | PartKind::BorderBlock => {
            design.blocks.get(number).map(|block| of_block(design, block)).unwrap_or_default()
        }
        _ => design.units.get(number).map(of_unit).unwrap_or_default(),
    }
}

/// How large a block or a unit finishes.
fn size(design: &DesignDrawing, kind: PartKind, number: usize) -> Option<(Length, Length)> {
    let (width, length) = match kind {
        PartKind::Block | PartKind::BorderBlock => {
            design.blocks.get(number).map(|block| (&block.width, &block.length))?
        }
        _ => design.units.get(number).map(|unit| (&unit.width, &unit.length))?,
    };
    Some((width.as_ref()?.length, length.as_ref()?.length))
}

fn on_figure(outline: &Outline, placed: &PlacedScale) -> Vec<At> {
    let Outline(corners) = outline;
    let point =
        |place: &crate::drawing::places::Place| Point { across: place.across.below(), down: place.down.below() };
    corners.iter().map(|place| placed.at(point(place))).collect()
}

const fn kind_word(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Block => "block",
        PartKind::Sash => "sash",
        PartKind::LongSash => "long sash",
        PartKind::Cornerstone => "cornerstone",
        PartKind::SideTriangle => "side triangle",
        PartKind::CornerTriangle => "corner triangle",
        PartKind::Border => "border",
        PartKind::BorderCornerstone => "border cornerstone",
        PartKind::BorderUnit => "border unit",
        PartKind::BorderBlock => "border block",
        PartKind::Empty => "empty",
    }
}

/// `throw: the quilt top, 59 x 75 in: 6 blocks across and 8 down.`
fn caption(size: &str, top: &TopDrawing) -> String {
    let sized = match (&top.width, &top.length) {
        (Some(width), Some(length)) => format!(", {}", clean(&by_words(&width.shown, &length.shown))),
        _ => String::new(),
    };
    let laid = top.blocks.map_or_else(String::new, |(across, down)| {
        let way = if top.set == Some("on_point") { "on point, " } else { "" };
        format!(": {way}{across} blocks across and {down} down")
    });
    let laid = if top.blocks.is_none() && top.width.is_some() { ": blocks in rows".to_string() } else { laid };
    let spread = if top.spread_evenly { SPREAD } else { "" };
    format!("{}: the quilt top by the design{sized}{laid}.{spread}", clean(size))
}

const SPREAD: &str = " Where each block stands is not stated; they are spread evenly.";

/// Everything that the drawing says.
fn alternative(size: &str, top: &TopDrawing) -> String {
    let mut words = caption(size, top);
    for kind in [
        PartKind::Block,
        PartKind::Sash,
        PartKind::LongSash,
        PartKind::Cornerstone,
        PartKind::SideTriangle,
        PartKind::CornerTriangle,
    ] {
        for (what, count) in counted(top, kind, None) {
            words.push_str(&format!(" {count} {what}."));
        }
    }
    let borders = top.parts.iter().filter_map(|part| part.border).max().unwrap_or_default();
    for border in 1..=borders {
        let kinds = [PartKind::Border, PartKind::BorderUnit, PartKind::BorderBlock, PartKind::BorderCornerstone];
        let told = kinds.into_iter().flat_map(|kind| counted(top, kind, Some(border)));
        let told: Vec<String> = told.map(|(what, count)| format!("{count} {what}")).collect();
        if !told.is_empty() {
            words.push_str(&format!(" Border {border} from the inside: {}.", told.join(", ")));
        }
    }
    for why in &top.empty {
        words.push_str(&format!(" Not drawn: {why}."));
    }
    clean(&words)
}

/// How many parts of a kind there are, by what they are.
fn counted(top: &TopDrawing, kind: PartKind, border: Option<usize>) -> Vec<(String, usize)> {
    let mut counts: Vec<(String, usize)> = Vec::new();
    for part in top.parts.iter().filter(|part| part.kind == kind && part.border == border) {
        let what = match (&part.name, &part.fabric) {
            (Some(name), _) if is_sewn(kind) => format!("{} {name}", kind_word(kind)),
            (_, Some(fabric)) => format!("{} of {fabric}", kind_word(kind)),
            _ => kind_word(kind).to_string(),
        };
        match counts.iter_mut().find(|(known, _)| *known == what) {
            Some((_, count)) => *count += 1,
            None => counts.push((what, 1)),
        }
    }
    counts
}
