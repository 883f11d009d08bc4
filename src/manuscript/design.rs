//! What a manuscript states of its design: the units that are sewn from pieces, and the blocks that are sewn from
//! units.

use super::model::Fabric;
use super::{Field, Span, Spanned};
use crate::quantity::{Count, Length, Written};
use crate::quilt_math::log_cabin::{Log, LogOrder, log_cabin};
use crate::quilt_math::makes::{PartRow, UnitMeasures, Way};
use crate::quilt_math::rectangle::Rectangle;

pub use super::other_fabrics::{OtherFabric, Recolored, in_place_of};
pub use super::read_blocks::Block;
pub use super::read_units::Unit;
pub use crate::quilt_math::makes::{Make, Method};

impl Unit {
    /// The way in which it is made, where its make and its method were read.
    pub fn way(&self) -> Option<&'static Way> {
        let make = self.make.value()?;
        if self.method.is_unread() {
            return None;
        }
        Some(make.way(self.method.value()))
    }

    /// What it says of itself by which its parts are cut, with a seam; `None` where something of it could not be read.
    pub fn measures(&self, seam: Length) -> Option<UnitMeasures> {
        let (width, height) = self.finished.value()?;
        let lengths = |stated: &Field<Vec<Spanned<Written>>>| -> Option<Vec<Length>> {
            let stated = if stated.is_absent() { &[][..] } else { &stated.stated()?.value };
            Some(stated.iter().map(|length| length.value.length).collect())
        };
        let center = if self.center.is_absent() { None } else { Some(self.center.value()?) };
        let center = center.map(|(width, height)| Rectangle::new(width.length, height.length));
        let order = self.order.or(LogOrder::Round)?;
        let logs = match center {
            Some(center) => Some(log_cabin(center, &lengths(&self.logs)?, order)),
            None => None,
        };
        let (logs, logs_make) = logs.map_or((Vec::new(), None), |(logs, size)| (logs, Some(size)));
        Some(UnitMeasures {
            corners: lengths(&self.corner)?,
            alike_corners: self.corners.or(Count(4))?,
            center,
            logs,
            logs_make,
            ..UnitMeasures::new(Rectangle::new(width.length, height.length), seam)
        })
    }

    /// The parts that it has, as far as it says how many; `None` where that could not be read.
    pub(crate) fn part_rows(&self) -> Option<Vec<&'static PartRow>> {
        let way = self.make.value()?.way(self.method.value());
        let length = |stated: &Field<Vec<Spanned<Written>>>| {
            (!stated.is_unread()).then(|| stated.stated().map_or(0, |list| list.value.len()))
        };
        let mut measures = UnitMeasures::new(Rectangle::new(Length::ZERO, Length::ZERO), Length::ZERO);
        measures.corners = vec![Length::ZERO; length(&self.corner)?];
        measures.logs = vec![Log::default(); length(&self.logs)?];
        Some(way.parts_of(&measures).collect())
    }
}

/// A piece that a unit takes, of which it is not known how it is cut.
#[derive(Debug)]
pub struct TakenPiece {
    /// The name as it is written.
    pub name: String,
    /// Where the name stands.
    pub at: Span,
    /// The piece.
    pub piece: Field<PieceRef>,
    /// How many one unit takes.
    pub count: Field<Count>,
}

impl Block {
    /// The units and blocks in its rows that were read.
    pub fn parts(&self) -> impl Iterator<Item = BlockPart> {
        self.rows.iter().flat_map(|row| &row.places).filter_map(Field::value)
    }
}

/// What one part of a unit is cut from.
#[derive(Debug)]
pub struct PartCut {
    /// The part.
    pub part: String,
    /// Where the part's name stands.
    pub at: Span,
    /// What it is cut from.
    pub from: Field<CutFrom>,
}

/// What a part is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFrom {
    /// A piece of a cutting list.
    Piece(PieceRef),
    /// A size that is written in the unit itself.
    Size(Written, Written),
}

/// A piece of a cutting list, by the places of both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PieceRef {
    /// The fabric, by its place among the fabrics.
    pub fabric: usize,
    /// The piece, by its place in the fabric's cutting list; the first of them where several entries are counted together.
    pub cut: usize,
    /// Which entries are meant.
    pub of: Entries,
}

/// Which entries of the cutting lists a name means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Entries {
    /// One alone.
    One,
    /// All of one name in the cutting list of a fabric, together.
    OfFabric,
    /// All of one name in any cutting list, together.
    OfAll,
}

impl PieceRef {
    /// One entry of a cutting list.
    pub const fn entry(fabric: usize, cut: usize) -> PieceRef {
        PieceRef { fabric, cut, of: Entries::One }
    }

    /// Whether several entries are counted together.
    pub fn is_shared(self) -> bool {
        self.of != Entries::One
    }

    /// The entries that are meant, in the order of the fabrics.
    pub fn entries<'f>(self, fabrics: impl Iterator<Item = &'f Fabric> + Clone) -> Vec<PieceRef> {
        let name = |cut: &'f super::model::Cut| cut.piece.stated().map(|piece| piece.value.as_str());
        let own = fabrics.clone().nth(self.fabric).and_then(|fabric| name(fabric.cut.get(self.cut)?));
        let Some(own) = own.filter(|_| self.is_shared()) else {
            return vec![PieceRef::entry(self.fabric, self.cut)];
        };
        let of = |fabric: usize| self.of == Entries::OfAll || fabric == self.fabric;
        let lists = fabrics.enumerate().filter(|(fabric, _)| of(*fabric));
        let entries = lists.flat_map(|(fabric, stated)| {
            let alike = stated.cut.iter().enumerate().filter(|(_, cut)| name(cut) == Some(own));
            alike.map(move |(cut, _)| PieceRef::entry(fabric, cut))
        });
        entries.collect()
    }

    /// Whether an entry is meant, perhaps with others.
    pub fn means<'f>(self, entry: PieceRef, fabrics: impl Iterator<Item = &'f Fabric> + Clone) -> bool {
        if self.is_shared() {
            self.entries(fabrics).iter().any(|own| (own.fabric, own.cut) == (entry.fabric, entry.cut))
        } else {
            (self.fabric, self.cut) == (entry.fabric, entry.cut)
        }
    }
}

/// A row of a block.
#[derive(Clone, Debug)]
pub struct Row {
    /// Where it stands.
    pub at: Span,
    /// Its units and blocks from the left.
    pub places: Vec<Field<BlockPart>>,
}

/// What lies in one place of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BlockPart {
    /// What it is.
    pub sewn: Sewn,
    /// Whether it is turned a quarter.
    pub turned: bool,
}

/// What a block or a border is sewn from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sewn {
    /// A unit, by its place among the units.
    Unit(usize),
    /// Another block, by its place among the blocks. No block is within itself.
    Block(usize),
}
