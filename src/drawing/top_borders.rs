//! The borders of a top, from the inside: strips with the corners that are stated, or units or blocks side by side.

use super::design::fabric_of;
use super::places::{Outline, Place, sum};
use super::top_parts::{PartKind, TopDrawing, TopPart, TopSource};
use crate::manuscript::Field;
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Border as StatedBorder, Corners};
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::{Border, Side};
use crate::requirement::unit_borders::{SewnFrom, UnitFit};

/// Draws the borders that were read.
pub(super) fn borders_of(source: &TopSource<'_, '_>, drawing: &mut TopDrawing) {
    for index in 0..source.top.borders.len() {
        let Some((stated, border)) = source.laid.border(index) else { continue };
        Frame { source, stated, border, index }.draw(drawing);
    }
    if !source.laid.borders_whole {
        let number = source.top.borders.len() + 1;
        drawing.empty.push(format!("border {number} and what is outside of it, which could not be read"));
    }
}

/// One border, and what it goes around.
struct Frame<'a, 'm> {
    source: &'a TopSource<'a, 'm>,
    stated: &'m StatedBorder,
    border: Border,
    index: usize,
}

/// A side of a border.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    Left,
    Right,
    Top,
    Bottom,
}

const EDGES: [Edge; 4] = [Edge::Left, Edge::Right, Edge::Top, Edge::Bottom];

impl Edge {
    const fn is_level(self) -> bool {
        matches!(self, Edge::Top | Edge::Bottom)
    }
}

impl<'m> Frame<'_, 'm> {
    /// The corners of what is inside of it, at the top left and at the bottom right.
    fn inside(&self) -> (Place, Place) {
        let from = self.source.corner_inside(self.index);
        let (width, length) = self.source.top.inside(self.index);
        (from, from.plus(Place { across: width, down: length }))
    }

    /// The corners of the border itself.
    fn outside(&self) -> (Place, Place) {
        let Border { sides, top, bottom, .. } = self.border;
        let (from, to) = self.inside();
        (from.plus(Place::plain(-sides, -top)), to.plus(Place::plain(sides, bottom)))
    }

    fn draw(&self, drawing: &mut TopDrawing) {
        let units = match self.units(drawing.parts.len()) {
            Ok(units) => units,
            Err(why) => {
                drawing.empty.push(format!("the units of border {}: {why}", self.index + 1));
                None
            }
        };
        for edge in EDGES {
            match units {
                Some(units) => drawing.parts.extend(self.units_along(edge, units)),
                None => drawing.parts.push(self.strip(edge)),
            }
        }
        if self.border.corners == Corners::Cornerstones {
            match self.corners() {
                Ok(corners) => drawing.parts.extend(corners),
                Err(why) => {
                    drawing.empty.push(format!("the corners of border {}: {why}", self.index + 1));
                    drawing.parts.extend(self.cornerstones(PartKind::Empty));
                }
            }
        }
    }

    fn part(&self, kind: PartKind, outline: Outline) -> TopPart {
        TopPart { border: Some(self.index + 1), ..TopPart::new(kind, outline) }
    }

    fn fabric(&self, piece: &Field<PieceRef>) -> Option<String> {
        fabric_of(self.source.manuscript, piece.value()?)
    }

    /// One side as a strip.
    fn strip(&self, edge: Edge) -> TopPart {
        let stated = |piece: &'_ Field<PieceRef>| !piece.is_absent();
        let piece = match edge {
            Edge::Bottom if stated(&self.stated.piece_bottom) => &self.stated.piece_bottom,
            Edge::Top | Edge::Bottom if stated(&self.stated.piece_across) => &self.stated.piece_across,
            _ => &self.stated.piece,
        };
        let kind = if self.stated.of.is_absent() { PartKind::Border } else { PartKind::Empty };
        self.part(kind, self.outline(edge)).of_fabric(self.fabric(piece))
    }

    /// The outline of a side: butted, the top and the bottom reach over the sides; mitered, all corners are shared.
    fn outline(&self, edge: Edge) -> Outline {
        let ((in_from, in_to), (out_from, out_to)) = (self.inside(), self.outside());
        let place = |across: Side, down: Side| Place { across, down };
        if self.border.corners == Corners::Mitred {
            let inner = [in_from, place(in_to.across, in_from.down), in_to, place(in_from.across, in_to.down)];
            let outer = [out_from, place(out_to.across, out_from.down), out_to, place(out_from.across, out_to.down)];
            let (first, second) = match edge {
                Edge::Top => (0, 1),
                Edge::Right => (1, 2),
                Edge::Bottom => (2, 3),
                Edge::Left => (3, 0),
            };
            return Outline(vec![outer[first], outer[second], inner[second], inner[first]]);
        }
        let (left, right) = match self.border.corners {
            Corners::Butted => (out_from.across, out_to.across),
            _ => (in_from.across, in_to.across),
        };
        let (from, to) = match edge {
            Edge::Left => (place(out_from.across, in_from.down), place(in_from.across, in_to.down)),
            Edge::Right => (place(in_to.across, in_from.down), place(out_to.across, in_to.down)),
            Edge::Top => (place(left, out_from.down), place(right, in_from.down)),
            Edge::Bottom => (place(left, in_to.down), place(right, out_to.down)),
        };
        Outline::rectangle(from, to)
    }

    /// The four corners: plain squares, or units or blocks; why they are not drawn where they cannot be.
    fn corners(&self) -> Result<Vec<TopPart>, String> {
        if self.stated.corner_of.is_absent() {
            return Ok(self.cornerstones(PartKind::BorderCornerstone));
        }
        let sewn = self.stated.corner_of.value().and_then(|sewn| SewnFrom::new(self.source.manuscript, sewn));
        let (sewn, fit) = sewn.zip(self.fit(true)).ok_or_else(|| "not all was read".to_string())?;
        let UnitFit::Corners { fits: true, corner: (wide, _) } = fit else {
            return Err(format!("{} {} is of another size", sewn.word(), sewn.name()));
        };
        let slack = self.source.layouts.size_slack;
        let turned = sewn.size().is_some_and(|(width, _)| (width - wide).abs() > slack);
        let part = |part: TopPart| sewn_part(TopPart { fabric: None, ..part }, sewn, turned);
        Ok(self.cornerstones(PartKind::Empty).into_iter().map(part).collect())
    }

    /// How what it is sewn from, or what its corners are, fits.
    fn fit(&self, in_corners: bool) -> Option<UnitFit> {
        let mut known = self.source.needs.counts.unit_borders.iter();
        let found = known.find(|border| {
            (border.layout, border.index) == (self.source.place, self.index)
                && matches!(border.fit, UnitFit::Corners { .. }) == in_corners
        });
        found.map(|border| border.fit)
    }

    fn cornerstones(&self, kind: PartKind) -> Vec<TopPart> {
        let ((in_from, in_to), (out_from, out_to)) = (self.inside(), self.outside());
        let fabric = self.fabric(&self.stated.cornerstone);
        let square = |left: (Side, Side), top: (Side, Side)| {
            let from = Place { across: left.0, down: top.0 };
            let to = Place { across: left.1, down: top.1 };
            self.part(kind, Outline::rectangle(from, to)).of_fabric(fabric.clone())
        };
        let (left, right) = ((out_from.across, in_from.across), (in_to.across, out_to.across));
        let (top, bottom) = ((out_from.down, in_from.down), (in_to.down, out_to.down));
        vec![square(left, top), square(right, top), square(right, bottom), square(left, bottom)]
    }

    /// The units that it is sewn from: none where it is of strips, and why they are not drawn where they cannot be.
    fn units(&self, drawn: usize) -> Result<Option<Units<'m>>, String> {
        if self.stated.of.is_absent() {
            return Ok(None);
        }
        let sewn = self.stated.of.value().and_then(|sewn| SewnFrom::new(self.source.manuscript, sewn));
        let Some((of, fit)) = sewn.zip(self.fit(false)) else {
            let why = match (self.border.corners, self.border.all_round()) {
                (Corners::Mitred, _) => "they are cut through at mitered corners",
                (_, None) => "its sides are not all of one width",
                _ => "not all was read",
            };
            return Err(why.to_string());
        };
        let UnitFit::Along { each, sides: (_, sides), ends: (_, ends) } = fit else {
            return Err(format!("neither side of the {} is as wide as the border", of.word()));
        };
        let Some((sides, ends)) = sides.zip(ends) else {
            return Err("they do not fit along its sides".to_string());
        };
        let count = usize::try_from(((sides + ends) * Count(2)).0).unwrap_or(usize::MAX);
        if count > self.source.room.saturating_sub(drawn.min(self.source.room / 2)) {
            return Err(format!("{count} of them, too many to draw one by one"));
        }
        let (_, height) = of.size().ok_or_else(|| "not all was read".to_string())?;
        // A unit as high as the border is wide lies upright along the top; along a side it is turned.
        let slack = self.source.layouts.size_slack;
        let upright = (height - self.border.sides).abs() <= slack;
        Ok(Some(Units { of, each, sides, ends, upright }))
    }

    fn units_along(&self, edge: Edge, units: Units<'_>) -> Vec<TopPart> {
        let Outline(corners) = self.outline(edge);
        let [from, _, to, _] = corners[..] else { return Vec::new() };
        let count = if edge.is_level() { units.ends } else { units.sides };
        let turned = edge.is_level() != units.upright;
        let along = |number: u64| units.each * Count(number);
        let outline = |number: u64| {
            let plus = |side: Side, number: u64| sum(side, Side::straight(along(number)));
            let (begins, ends) = if edge.is_level() {
                let begins = Place { across: plus(from.across, number), down: from.down };
                (begins, Place { across: plus(from.across, number + 1), down: to.down })
            } else {
                let begins = Place { across: from.across, down: plus(from.down, number) };
                (begins, Place { across: to.across, down: plus(from.down, number + 1) })
            };
            Outline::rectangle(begins, ends)
        };
        let part = |number: u64| sewn_part(self.part(PartKind::Empty, outline(number)), units.of, turned);
        (0..count.0).map(part).collect()
    }
}

/// A part that is a unit or a block.
fn sewn_part(part: TopPart, of: SewnFrom<'_>, turned: bool) -> TopPart {
    let Outline(mut corners) = part.outline;
    // What is turned a quarter, clockwise, has its own corner at the top right.
    if turned {
        corners.rotate_left(1);
    }
    let (kind, number) = match of {
        SewnFrom::Unit(_, number) => (PartKind::BorderUnit, number),
        SewnFrom::Block(_, number) => (PartKind::BorderBlock, number),
    };
    TopPart { kind, turned, outline: Outline(corners), ..part }.named(of.name(), number)
}

/// How units or blocks lie along a border.
#[derive(Clone, Copy, Debug)]
struct Units<'m> {
    of: SewnFrom<'m>,
    each: Length,
    sides: Count,
    ends: Count,
    /// Whether they lie upright along the top and the bottom.
    upright: bool,
}
