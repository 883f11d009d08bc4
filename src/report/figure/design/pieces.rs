//! The pieces of a unit or a block one by one, where they lie, and the labels on them.

use super::fabrics::FabricNumbers;
use crate::drawing::design::{BlockDrawing, DesignDrawing, PartDrawing, UnitDrawing};
use crate::drawing::places::Outline;
use crate::manuscript::design::Sewn;
use crate::quantity::Length;
use crate::quilt_math::outline::Point;
use crate::quilt_math::piecing::rectangle;
use crate::quilt_math::rectangle::Rectangle;
use crate::report::figure::label_placement::{LabelPlacement, Taken, foot};
use crate::report::figure::scale::PlacedScale;
use crate::report::figure::scene::{Anchor, At, LETTER, Scene, UNIT};
use crate::report::figure::words::{name, wide};

/// A piece where it lies, or a unit of which no pieces are known.
pub(super) struct Lying<'d> {
    pub(super) points: Vec<Point>,
    pub(super) fabric: Option<&'d str>,
    /// The unit that it is of, and what it is called there.
    pub(super) of: (&'d str, &'d str),
    /// Whether nothing more is known of it.
    pub(super) is_empty: bool,
}

/// How a part lies: so far from there, and turned by quarters.
#[derive(Clone, Copy)]
struct Lie {
    from: Point,
    /// How many quarters it is turned, clockwise.
    quarters: u8,
}

impl Lie {
    const PLAIN: Lie = Lie { from: Point { across: Length::ZERO, down: Length::ZERO }, quarters: 0 };

    fn turn(self, point: Point) -> Point {
        let (across, down) = (point.across, point.down);
        match self.quarters % 4 {
            0 => point,
            1 => Point { across: -down, down: across },
            2 => Point { across: -across, down: -down },
            _ => Point { across: down, down: -across },
        }
    }

    fn place(self, point: Point) -> Point {
        let turned = self.turn(point);
        Point { across: self.from.across + turned.across, down: self.from.down + turned.down }
    }

    /// A part within it, from the part's own corner.
    fn within(self, part: &PartDrawing) -> Lie {
        let corner = points(&part.outline).first().copied().unwrap_or(Lie::PLAIN.from);
        Lie { from: self.place(corner), quarters: self.quarters + u8::from(part.turned) }
    }
}

/// The plain lengths of an outline; units and blocks have no others.
pub(super) fn points(outline: &Outline) -> Vec<Point> {
    let Outline(places) = outline;
    places.iter().map(|place| Point { across: place.across.below(), down: place.down.below() }).collect()
}

/// The pieces of a unit.
pub(super) fn of_unit(unit: &UnitDrawing) -> Vec<Lying<'_>> {
    let mut pieces = Vec::new();
    add_unit(unit, Lie::PLAIN, &mut pieces);
    pieces
}

/// The pieces of a block, those of the blocks within it among them.
pub(super) fn of_block<'d>(design: &'d DesignDrawing, block: &'d BlockDrawing) -> Vec<Lying<'d>> {
    let mut pieces = Vec::new();
    add_block(design, block, Lie::PLAIN, &mut pieces);
    pieces
}

fn add_unit<'d>(unit: &'d UnitDrawing, lie: Lie, pieces: &mut Vec<Lying<'d>>) {
    let lying = unit.pieces.iter().map(|piece| Lying {
        points: points(&piece.outline).into_iter().map(|point| lie.place(point)).collect(),
        fabric: piece.fabric.as_deref(),
        of: (&unit.unit, &piece.part),
        is_empty: false,
    });
    pieces.extend(lying);
    if let (Some(width), Some(length), true) = (&unit.width, &unit.length, unit.pieces.is_empty()) {
        let corners = rectangle(Length::ZERO, Length::ZERO, Rectangle::new(width.length, length.length));
        let points = corners.into_iter().map(|point| lie.place(point)).collect();
        pieces.push(Lying { points, fabric: None, of: (&unit.unit, ""), is_empty: true });
    }
}

fn add_block<'d>(design: &'d DesignDrawing, block: &'d BlockDrawing, lie: Lie, pieces: &mut Vec<Lying<'d>>) {
    let first = pieces.len();
    for part in &block.parts {
        let lie = lie.within(part);
        match part.sewn {
            Sewn::Unit(unit) => {
                if let Some(unit) = design.units.get(unit) {
                    add_unit(unit, lie, pieces);
                }
            }
            Sewn::Block(inner) => {
                if let Some(inner) = design.blocks.get(inner) {
                    add_block(design, inner, lie, pieces);
                }
            }
        }
    }
    // In place of a fabric, the one that the block takes for it.
    for piece in pieces.iter_mut().skip(first) {
        piece.fabric = piece.fabric.map(|fabric| block.with.get(fabric).map_or(fabric, String::as_str));
    }
}

/// Draws pieces by their tints.
pub(super) fn draw(
    scene: &mut Scene,
    pieces: &[Lying<'_>],
    placed: &PlacedScale,
    fabrics: &FabricNumbers,
    class: &str,
) {
    let id = scene.id.clone();
    for piece in pieces {
        let corners: Vec<At> = piece.points.iter().map(|point| placed.at(*point)).collect();
        if piece.is_empty {
            scene.path("fig-empty", &corners, true).data("unit", piece.of.0);
            continue;
        }
        let shape = scene.path(class, &corners, true);
        fabrics.tint(shape, &id, piece.fabric);
        shape.data("piece", piece.of.1);
    }
}

/// How large the smallest piece is drawn.
pub(super) fn finest(pieces: &[Lying<'_>], placed: &PlacedScale) -> i64 {
    let side = |piece: &Lying<'_>| {
        let bounds = bounds(&piece.points);
        placed.scale.of(bounds.1.across - bounds.0.across).min(placed.scale.of(bounds.1.down - bounds.0.down))
    };
    pieces.iter().map(side).min().unwrap_or_default()
}

/// The corners of the smallest upright rectangle that holds places.
pub(super) fn bounds(points: &[Point]) -> (Point, Point) {
    let mut points = points.iter().copied();
    let first = points.next().unwrap_or(Lie::PLAIN.from);
    points.fold((first, first), |(from, to), point| {
        let from = Point { across: from.across.min(point.across), down: from.down.min(point.down) };
        (from, Point { across: to.across.max(point.across), down: to.down.max(point.down) })
    })
}

/// Writes the number of its fabric on each piece that has room for it. The kinds of pieces that none has room for.
pub(super) fn label<'d>(
    scene: &mut Scene,
    pieces: &[Lying<'d>],
    placed: &PlacedScale,
    fabrics: &FabricNumbers,
    room: &mut LabelPlacement,
) -> Vec<(&'d str, &'d str)> {
    let mut labelled: Vec<(&str, &str)> = Vec::new();
    for piece in pieces {
        let corners: Vec<At> = piece.points.iter().map(|point| placed.at(*point)).collect();
        let text = if piece.is_empty { name(piece.of.0) } else { fabrics.label(piece.fabric) };
        let class = if piece.is_empty { "fig-text fig-halo" } else { "fig-text fig-bold fig-halo" };
        let middle = middle(&corners);
        if holds(&corners, middle, &text) && room.try_take(Taken::of_text(&text, middle)) {
            scene.text(class, foot(middle), Anchor::Middle, &text);
            labelled.push(piece.of);
        }
    }
    let mut without: Vec<(&str, &str)> = Vec::new();
    for piece in pieces {
        if !labelled.contains(&piece.of) && !without.contains(&piece.of) {
            without.push(piece.of);
        }
    }
    without
}

/// The middle of the corners of a piece.
fn middle(corners: &[At]) -> At {
    let count = i64::try_from(corners.len().max(1)).unwrap_or(1);
    let sum = |of: fn(&At) -> i64| corners.iter().map(of).sum::<i64>() / count;
    At { x: sum(|at| at.x), y: sum(|at| at.y) }
}

/// Whether a piece, whose corners go around clockwise, holds a text about a place.
fn holds(corners: &[At], middle: At, text: &str) -> bool {
    let (wide, high) = (wide(text) / 2 + 4 * UNIT, LETTER / 2);
    let inside = |x: i64, y: i64| {
        corners.iter().enumerate().all(|(index, from)| {
            let to = corners[(index + 1) % corners.len()];
            let (along, beside) = ((to.x - from.x, to.y - from.y), (x - from.x, y - from.y));
            i128::from(along.0) * i128::from(beside.1) - i128::from(along.1) * i128::from(beside.0) >= 0
        })
    };
    [(-1, -1), (1, -1), (1, 1), (-1, 1)].iter().all(|(x, y)| inside(middle.x + x * wide, middle.y + y * high))
}
