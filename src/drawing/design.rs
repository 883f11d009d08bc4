//! The units and the blocks of a design, as they are sewn: each piece to scale, with the fabric that it is cut from.

use std::collections::BTreeMap;

use serde::Serialize;

use super::ShownLength;
use super::places::{Outline, Place};
use crate::manuscript::design::{Block, BlockPart, CutFrom, PieceRef, Sewn, Unit};
use crate::manuscript::model::Manuscript;
use crate::quantity::{Length, Measure};
use crate::quilt_math::layout::Side;
use crate::quilt_math::log_cabin::LogOrder;
use crate::quilt_math::makes::{Laid, Method};
use crate::quilt_math::piecing::{LaidPiece, pieces, side_by_side};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::Needs;
use crate::requirement::blocks::BlockNeeds;
use crate::requirement::units::UnitNeeds;

/// How many pieces a block is drawn with at most, those of the blocks within it counted.
pub const MAX_PIECES: usize = 1_000;

/// How many pieces all blocks together are drawn with at most.
const MAX_ALL_PIECES: usize = 5_000;

/// The units and the blocks of a manuscript.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct DesignDrawing {
    /// The fabrics that pieces of it are cut from, in the order in which the units name them.
    pub fabrics: Vec<String>,
    /// Its units.
    pub units: Vec<UnitDrawing>,
    /// Its blocks.
    pub blocks: Vec<BlockDrawing>,
}

/// A unit with its pieces.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct UnitDrawing {
    /// What the pattern calls it.
    pub unit: String,
    /// How wide it finishes.
    pub width: Option<ShownLength>,
    /// How high it finishes.
    pub length: Option<ShownLength>,
    /// Whether it looks another way when it is turned, so that which way it points is the pattern's drawing.
    pub points: bool,
    /// Its pieces as they lie in it.
    pub pieces: Vec<PieceDrawing>,
    /// Why nothing is drawn in it, where that is so.
    pub empty: Option<String>,
}

/// A piece of a unit, a sash, a border or a triangle that sets blocks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PieceDrawing {
    /// What the format calls the part.
    pub part: String,
    /// The fabric that it is cut from; nothing where that is not stated.
    pub fabric: Option<String>,
    /// Its outline within the unit.
    pub outline: Outline,
}

/// A block with what lies in it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BlockDrawing {
    /// What the pattern calls it.
    pub block: String,
    /// How wide it finishes.
    pub width: Option<ShownLength>,
    /// How high it finishes.
    pub length: Option<ShownLength>,
    /// The block that it is like, where it is sewn as that is from other fabrics.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub like: Option<String>,
    /// The fabrics that take the place of others, by their names.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub with: BTreeMap<String, String>,
    /// How many pieces it is sewn from, as far as they are drawn.
    pub pieces: usize,
    /// What lies in it, row by row.
    pub parts: Vec<PartDrawing>,
    /// Why part of it, or all, is left empty.
    pub empty: Option<String>,
}

/// A unit or a block as it lies in a block.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PartDrawing {
    /// The unit, where it is one.
    pub unit: Option<String>,
    /// The block, where it is one.
    pub block: Option<String>,
    /// Whether it is turned a quarter, clockwise.
    pub turned: bool,
    /// Its outline within the block, from its own corner at the top left.
    pub outline: Outline,
    /// What it is, by its place among the units or the blocks.
    #[serde(skip)]
    pub sewn: Sewn,
}

impl DesignDrawing {
    /// The units and blocks of a manuscript; `None` where none is stated.
    pub fn of(manuscript: &Manuscript, needs: &Needs<'_>) -> Option<DesignDrawing> {
        if manuscript.units.is_empty() && manuscript.blocks.is_empty() {
            return None;
        }
        let units: Vec<UnitDrawing> = needs.units.units.iter().map(|unit| unit_drawing(manuscript, unit)).collect();
        let counts = piece_counts(needs, &units);
        let mut left = MAX_ALL_PIECES;
        let block = |(place, block): (usize, &BlockNeeds<'_>)| {
            let pieces = counts.get(place).copied().unwrap_or_default();
            let parts: usize = block.stated.rows.iter().map(|row| row.places.len()).sum();
            if pieces > MAX_PIECES || pieces.max(parts) > left {
                return block_drawing(needs, block, (0, Some(too_many(pieces))));
            }
            left -= pieces.max(parts);
            block_drawing(needs, block, (pieces, None))
        };
        let blocks: Vec<BlockDrawing> = needs.blocks.blocks.iter().enumerate().map(block).collect();
        let blocks =
            blocks.into_iter().zip(&manuscript.blocks).map(|(drawn, block)| in_colors(manuscript, block, drawn));
        let blocks: Vec<BlockDrawing> = blocks.collect();
        let mut fabrics: Vec<String> = Vec::new();
        let of_units = units.iter().flat_map(|unit| &unit.pieces).filter_map(|piece| piece.fabric.as_ref());
        for fabric in of_units.chain(blocks.iter().flat_map(|block| block.with.values())) {
            if !fabrics.contains(fabric) {
                fabrics.push(fabric.clone());
            }
        }
        Some(DesignDrawing { fabrics, units, blocks })
    }
}

/// The drawing of a block with the fabrics that it takes in place of others.
fn in_colors(manuscript: &Manuscript, block: &Block, drawn: BlockDrawing) -> BlockDrawing {
    let fabric = |place: usize| manuscript.fabrics.get(place).map(|fabric| fabric.name.clone());
    let with = block.with.iter().filter_map(|other| Some((fabric(other.from)?, fabric(other.to.value()?)?)));
    let like = block.like.value().and_then(|block| manuscript.blocks.get(block)).map(|block| block.name.clone());
    BlockDrawing { like, with: with.collect(), ..drawn }
}

fn too_many(pieces: usize) -> String {
    let pieces = pieces.to_string();
    format!("{pieces} pieces, too many to draw one by one")
}

/// A unit with its pieces, or why there are none.
fn unit_drawing(manuscript: &Manuscript, unit: &UnitNeeds<'_>) -> UnitDrawing {
    let (laid, empty) = match laid_pieces(unit) {
        Ok(laid) => (laid, None),
        Err(why) => (Vec::new(), Some(why)),
    };
    let size = unit.finished;
    let piece = |(part, outline): PieceOutline| PieceDrawing {
        fabric: fabric_of_part(manuscript, unit.stated, &part),
        outline,
        part,
    };
    UnitDrawing {
        unit: unit.stated.name.clone(),
        width: size.map(|size| told(size.width, manuscript.measure)),
        length: size.map(|size| told(size.length, manuscript.measure)),
        points: points(unit.stated),
        pieces: laid.into_iter().map(piece).collect(),
        empty,
    }
}

fn told(length: Length, measure: Measure) -> ShownLength {
    ShownLength::up(length, measure)
}

/// The pieces of a unit as they lie in it, or why they are not known.
fn laid_pieces(unit: &UnitNeeds<'_>) -> Result<Vec<PieceOutline>, String> {
    let stated = unit.stated;
    let unread = |what: &str| format!("its {what} could not be read");
    let make = stated.make.value().ok_or_else(|| unread("make"))?;
    let finished = unit.finished.ok_or_else(|| unread("finished size"))?;
    let (seam, _) = unit.seam.ok_or_else(|| unread("seam"))?;
    match make.row().laid {
        Laid::Unknown => Err("how it is sewn is not stated".to_string()),
        laid @ (Laid::SideTriangle | Laid::CornerTriangle) => Ok(vec![setting_triangle(laid, finished.width)]),
        Laid::Strips => Ok(outlines(strips(unit, seam, finished)?)),
        _ => {
            let measures = stated.measures(seam).ok_or_else(|| unread("measures"))?;
            let order = stated.order.or(LogOrder::Round).ok_or_else(|| unread("order"))?;
            if stated.method.is_unread() {
                return Err(unread("method"));
            }
            Ok(outlines(pieces(make, stated.method.value(), &measures, order)))
        }
    }
}

/// What the format calls a piece, and its outline.
type PieceOutline = (String, Outline);

fn outlines(laid: Vec<LaidPiece>) -> Vec<PieceOutline> {
    laid.into_iter().map(|piece| (piece.part, Outline::of_points(&piece.outline))).collect()
}

/// A triangle that sets blocks, as it lies at the top of a quilt, or in its corner at the top left.
fn setting_triangle(laid: Laid, block: Length) -> PieceOutline {
    let (zero, half, whole) = (Side::default(), Side::diagonal(block.half()), Side::diagonal(block));
    let place = |across: Side, down: Side| Place { across, down };
    let outline = match laid {
        Laid::SideTriangle => [place(zero, zero), place(whole, zero), place(half, half)],
        _ => [place(zero, zero), place(half, zero), place(zero, half)],
    };
    ("square".to_string(), Outline(outline.to_vec()))
}

/// The strips of a strip set, each without its seams.
fn strips(unit: &UnitNeeds<'_>, seam: Length, finished: Rectangle) -> Result<Vec<LaidPiece>, String> {
    if unit.strips.is_empty() {
        return Err("its strips are not stated".to_string());
    }
    let width = |strip: &crate::requirement::units::StripNeeds<'_>| {
        strip.width.map(|(width, _)| (width.length - seam * 2).max(Length::ZERO))
    };
    let widths: Option<Vec<Length>> = unit.strips.iter().map(width).collect();
    let widths = widths.ok_or_else(|| "how wide its strips are cut is not known".to_string())?;
    let names = unit.strips.iter().map(|strip| strip.stated.part.as_str());
    Ok(side_by_side(names.zip(widths), finished.length))
}

/// Whether which way a unit points is not said by its numbers.
fn points(unit: &Unit) -> bool {
    let Some(make) = unit.make.value() else { return false };
    match make.row().laid {
        Laid::Halves | Laid::PlainHalf | Laid::Goose | Laid::Logs => true,
        Laid::Quarters => unit.method.value() == Some(Method::Pieced),
        Laid::Flipped => {
            unit.corners.value().is_some_and(|count| count.0 < 4)
                || unit.corner.stated().is_some_and(|list| list.value.len() > 1)
        }
        Laid::Strips => unit.cut.len() > 2,
        Laid::Whole | Laid::SquareOnPoint | Laid::SideTriangle | Laid::CornerTriangle | Laid::Unknown => false,
    }
}

/// The fabric of a part of a unit.
fn fabric_of_part(manuscript: &Manuscript, unit: &Unit, part: &str) -> Option<String> {
    let from = unit.cut.iter().find(|cut| cut.part == part)?.from.value()?;
    match from {
        CutFrom::Piece(piece) => fabric_of(manuscript, piece),
        CutFrom::Size(..) => None,
    }
}

/// The fabric of a piece of the cutting lists: `ink`, or `ink or sky` where several give it.
pub(super) fn fabric_of(manuscript: &Manuscript, piece: PieceRef) -> Option<String> {
    const MAX_TOLD: usize = 3;
    let mut names: Vec<&str> = Vec::new();
    for entry in piece.entries(manuscript.fabrics.iter()) {
        let name = manuscript.fabrics.get(entry.fabric).map(|fabric| fabric.name.as_str());
        names.extend(name.filter(|name| !names.contains(name)));
    }
    let more = names.len().saturating_sub(MAX_TOLD);
    names.truncate(MAX_TOLD);
    let told = names.join(" or ");
    match (names.is_empty(), more) {
        (true, _) => None,
        (false, 0) => Some(told),
        (false, more) => Some(format!("{told} or {more} more")),
    }
}

/// How many pieces each block is drawn with, the blocks within it counted; at most a little above the bound.
fn piece_counts(needs: &Needs<'_>, units: &[UnitDrawing]) -> Vec<usize> {
    let blocks = &needs.blocks.blocks;
    let mut known = BTreeMap::new();
    (0..blocks.len()).map(|block| pieces_in(blocks, block, units, &mut known)).collect()
}

fn pieces_in(
    blocks: &[BlockNeeds<'_>],
    block: usize,
    units: &[UnitDrawing],
    known: &mut BTreeMap<usize, usize>,
) -> usize {
    if let Some(known) = known.get(&block) {
        return *known;
    }
    let mut count: usize = 0;
    for part in blocks.get(block).into_iter().flat_map(|block| block.stated.parts()) {
        count = count.saturating_add(match part.sewn {
            Sewn::Unit(unit) => units.get(unit).map_or(1, |unit| unit.pieces.len().max(1)),
            Sewn::Block(inner) => pieces_in(blocks, inner, units, known),
        });
    }
    known.insert(block, count);
    count
}

/// A block with what lies in it, as far as it is known; nothing where it says why not.
fn block_drawing(
    needs: &Needs<'_>,
    block: &BlockNeeds<'_>,
    (pieces, left_out): (usize, Option<String>),
) -> BlockDrawing {
    let measure = needs.blocks.measure;
    let (parts, end, unknown) = if left_out.is_none() { laid_rows(block) } else { Default::default() };
    // Where its size could not be read, it is as large as its rows.
    let size = block.finished.or_else(|| end.filter(|_| unknown.is_none()));
    BlockDrawing {
        block: block.stated.name.clone(),
        width: size.map(|size| told(size.width, measure)),
        length: size.map(|size| told(size.length, measure)),
        like: None,
        with: BTreeMap::new(),
        pieces,
        parts,
        empty: left_out.or(unknown),
    }
}

/// The rows one beneath another, how large they are together, and what of them is not known.
fn laid_rows(block: &BlockNeeds<'_>) -> (Vec<PartDrawing>, Option<Rectangle>, Option<String>) {
    let mut parts = Vec::new();
    let mut unknown = (!block.stated.whole).then(|| "not all of its rows could be read".to_string());
    let (mut wide, mut down) = (Length::ZERO, Length::ZERO);
    for (number, (row, stated)) in (1..).zip(block.rows.iter().zip(&block.stated.rows)) {
        let (Some(units), Some(height)) = (&row.units, row.height()) else {
            unknown = Some(format!("row {number} and what is below it is not drawn: not all of it could be read"));
            break;
        };
        let mut across = Length::ZERO;
        for (unit, place) in units.iter().zip(&stated.places) {
            let Some(part) = place.value() else { continue };
            let from = Place::plain(across, down);
            let to = Place::plain(across + unit.size.width, down + unit.size.length);
            parts.push(part_drawing(unit.name, part, Outline::rectangle(from, to)));
            across = across + unit.size.width;
        }
        (wide, down) = (wide.max(across), down + height);
    }
    let end = (!parts.is_empty()).then(|| Rectangle::new(wide, down));
    (parts, end, unknown)
}

fn part_drawing(name: &str, part: BlockPart, outline: Outline) -> PartDrawing {
    let name = Some(name.to_string());
    let (unit, block) = match part.sewn {
        Sewn::Unit(_) => (name, None),
        Sewn::Block(_) => (None, name),
    };
    let Outline(mut corners) = outline;
    // One that is turned a quarter, clockwise, has its own corner at the top right.
    if part.turned {
        corners.rotate_left(1);
    }
    PartDrawing { unit, block, turned: part.turned, outline: Outline(corners), sewn: part.sewn }
}
