//! The layout of a quilt top: how large blocks, sashing and borders make it, and how many of each there are.
//!
//! Everything here is plain geometry. Diagonals are held as the length that is to be multiplied by the root of two,
//! so that nothing is rounded before it is compared.
//!
//! A side on point is a plain length and one that is multiplied by the root of two (`Side`), compared by squares,
//! exactly. The finished size on point may differ by 1/16 in, since patterns print an eighth; any other by 1/64 in.

use super::fixed_point::{Side as Rounded, diagonal};
use super::rectangle::Rectangle;
use crate::choices::{Corners, Set};
use crate::quantity::{Count, Length};

/// A side of a layout: a plain length, and one that is to be multiplied by the root of two.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Side {
    /// The plain length.
    pub straight: Length,
    /// What counts times the root of two.
    pub diagonal: Length,
}

impl Side {
    /// A plain length.
    pub const fn straight(length: Length) -> Side {
        Side { straight: length, diagonal: Length::ZERO }
    }

    /// The diagonal of a square of this side.
    pub const fn diagonal(length: Length) -> Side {
        Side { straight: Length::ZERO, diagonal: length }
    }

    /// Longer by a plain length.
    #[must_use]
    pub fn plus(self, length: Length) -> Side {
        Side { straight: self.straight + length, ..self }
    }

    /// In whole ticks, never less than the true length.
    pub fn above(self) -> Length {
        self.straight + diagonal(self.diagonal, Rounded::Above)
    }

    /// In whole ticks, never more than the true length.
    pub fn below(self) -> Length {
        self.straight + diagonal(self.diagonal, Rounded::Below)
    }

    /// The multiple of a step that is nearest.
    pub fn nearest(self, step: Length) -> Length {
        (self.below() + step.half()).down_to(step)
    }

    /// Whether it is this long or longer, exactly.
    pub fn reaches(self, length: Length) -> bool {
        let rest = (length - self.straight).ticks();
        rest <= 0 || rest * rest <= 2 * self.diagonal.ticks() * self.diagonal.ticks()
    }

    /// Whether it is no longer than this, exactly.
    pub fn fits(self, length: Length) -> bool {
        let rest = (length - self.straight).ticks();
        rest >= 0 && rest * rest >= 2 * self.diagonal.ticks() * self.diagonal.ticks()
    }

    /// Whether it differs from a length by no more than so much, exactly.
    pub fn is_within(self, slack: Length, length: Length) -> bool {
        self.reaches(length - slack) && self.fits(length + slack)
    }
}

/// Strips of fabric between the blocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sashing {
    /// How wide it finishes.
    pub width: Length,
    /// Whether it goes round the blocks too.
    pub round: bool,
    /// Whether there are squares where sashes cross.
    pub cornerstones: bool,
    /// Whether the squares at the edge of blocks on point stay whole, or are cut in half by it.
    pub whole_at_edge: bool,
}

impl Sashing {
    /// How many sashes lie beside so many blocks in a row, or rows in a top.
    pub fn beside(&self, blocks: Count) -> Count {
        if self.round { blocks + Count(1) } else { blocks.less(Count(1)) }
    }
}

/// A border round everything inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Border {
    /// How wide it finishes at the left and at the right.
    pub sides: Length,
    /// How wide it finishes at the top.
    pub top: Length,
    /// How wide it finishes at the bottom.
    pub bottom: Length,
    /// How its corners are made.
    pub corners: Corners,
    /// How much longer than the quilt with this border a mitred strip is cut.
    pub ease: Length,
}

impl Border {
    /// A border of one width all round.
    pub const fn even(width: Length, corners: Corners, ease: Length) -> Border {
        Border { sides: width, top: width, bottom: width, corners, ease }
    }

    /// How much wider the quilt is with it.
    pub fn across(&self) -> Length {
        self.sides * 2
    }

    /// How much longer the quilt is with it.
    pub fn down(&self) -> Length {
        self.top + self.bottom
    }

    /// The one width, where it is the same all round.
    pub fn all_round(&self) -> Option<Length> {
        (self.sides == self.top && self.sides == self.bottom).then_some(self.sides)
    }
}

/// A quilt top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Top {
    /// How the blocks stand.
    pub set: Set,
    /// How many there are from side to side.
    pub across: Count,
    /// How many there are from top to bottom.
    pub down: Count,
    /// How large each finishes.
    pub block: Rectangle,
    /// What lies between them.
    pub sashing: Option<Sashing>,
    /// The borders, from the inside.
    pub borders: Vec<Border>,
    /// How rows of blocks that need not be alike come to the block, where the top is sewn in rows: it is then one, and the
    /// sashing is within it.
    pub rows: Option<RowSums>,
}

/// How rows or columns of blocks come to a top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowSums {
    /// Whether they are columns.
    pub are_columns: bool,
    /// The blocks of the first of them: how many, and how long each is along the row.
    pub first: Vec<(Count, Length)>,
    /// How many sashes stand in the first of them.
    pub sashes_of_first: Count,
    /// How many of them finish how wide.
    pub widths: Vec<(Count, Length)>,
    /// The sashes beside blocks, and with cornerstones those between rows.
    pub sashes: Vec<Sashes>,
    /// The sashes between rows that are as long as a row, none with cornerstones.
    pub long_sashes: Sashes,
    /// How many sashes there are from the first row to the last, long or in one line.
    pub between: Count,
    /// The squares where sashes cross.
    pub cornerstones: Count,
}

/// Strips that finish alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sashes {
    /// How many.
    pub count: Count,
    /// How long each finishes.
    pub length: Length,
}

/// How wide and how long the strips of a border are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BorderStrips {
    /// How wide at the sides.
    pub width: Length,
    /// How wide at the top.
    pub top_width: Length,
    /// How wide at the bottom.
    pub bottom_width: Length,
    /// At the sides.
    pub sides: Side,
    /// At the top and the bottom.
    pub ends: Side,
    /// The squares at the corners.
    pub cornerstones: Count,
}

impl BorderStrips {
    /// How wide the wider of the top and the bottom is cut.
    pub fn ends_width(&self) -> Length {
        self.top_width.max(self.bottom_width)
    }

    /// How wide the widest of them is cut.
    pub fn widest(&self) -> Length {
        self.width.max(self.ends_width())
    }
}

impl Top {
    /// How many blocks: where they stand on point, those in the gaps between four others as well.
    pub fn blocks(&self) -> Count {
        let rows = self.across * self.down;
        match self.set {
            Set::Straight => rows,
            Set::OnPoint => rows + self.across.less(Count(1)) * self.down.less(Count(1)),
        }
    }

    /// The triangles that set blocks on point at the sides: one for each gap between two blocks.
    pub fn side_triangles(&self) -> Count {
        match self.set {
            Set::Straight => Count(0),
            Set::OnPoint => Count(2) * (self.across + self.down).less(Count(2)),
        }
    }

    /// The triangles at the four corners.
    pub fn corner_triangles(&self) -> Count {
        Count(if self.set == Set::OnPoint { 4 } else { 0 })
    }

    /// How many sashes lie beside so many blocks.
    fn beside(&self, blocks: Count) -> Count {
        self.sashing.map_or(Count(0), |sashing| sashing.beside(blocks))
    }

    /// The sashes beside the blocks of a row, as long as a block is high; of blocks in a grid.
    pub fn upright_sashes(&self) -> Sashes {
        if self.set == Set::OnPoint && self.sashing.is_some() {
            // Each block has four, and each block in a gap shares all of its own.
            return Sashes { count: self.across * self.down * Count(4), length: self.block.length };
        }
        Sashes { count: self.beside(self.across) * self.down, length: self.block.length }
    }

    /// The sashes between rows of a grid, none where all are counted beside the blocks of a setting on point: with
    /// cornerstones as long as a block is wide, without them as long as a row.
    pub fn level_sashes(&self) -> Sashes {
        if self.set == Set::OnPoint {
            return Sashes { count: Count(0), length: self.block.width };
        }
        let rows = self.beside(self.down);
        match self.sashing {
            Some(Sashing { cornerstones: true, .. }) => Sashes { count: rows * self.across, length: self.block.width },
            _ => Sashes { count: rows, length: self.inner().0.above() },
        }
    }

    /// The sashes that are as long as a side of a block: those beside blocks, and with cornerstones those between rows;
    /// those that are needed, each length with its count.
    pub fn short_sashes(&self) -> Vec<Sashes> {
        let Some(sashing) = self.sashing else { return Vec::new() };
        if let Some(rows) = &self.rows {
            return rows.sashes.clone();
        }
        let mut sashes = vec![self.upright_sashes()];
        sashes.extend(sashing.cornerstones.then(|| self.level_sashes()));
        sashes.retain(|sashes| sashes.count.0 > 0);
        sashes
    }

    /// Whether all its sashes lie between the blocks of a single column: as long as a block is wide, they are as much short
    /// sashes as sashes between rows.
    pub fn has_sashes_of_one_column(&self) -> bool {
        let long = self.long_sashes();
        let is_one_column = self.set == Set::Straight && self.rows.is_none() && self.across == Count(1);
        is_one_column && self.short_sashes().is_empty() && long.count.0 > 0 && long.length == self.block.width
    }

    /// The sashes that are as long as a row, none with cornerstones.
    pub fn long_sashes(&self) -> Sashes {
        match (self.sashing, &self.rows) {
            (None, _) => Sashes::default(),
            (Some(_), Some(rows)) => rows.long_sashes,
            (Some(sashing), None) if sashing.cornerstones => Sashes::default(),
            (Some(_), None) => self.level_sashes(),
        }
    }

    /// How many sashes there are, long and short.
    pub fn all_sashes(&self) -> Count {
        self.short_sashes().iter().fold(self.long_sashes().count, |sum, sashes| sum + sashes.count)
    }

    /// The squares where sashes cross.
    pub fn cornerstones(&self) -> Count {
        if let Some(rows) = &self.rows {
            return rows.cornerstones;
        }
        match self.sashing {
            // The corners of all blocks, those that blocks share counted once.
            Some(Sashing { cornerstones: true, .. }) if self.set == Set::OnPoint => {
                self.across * self.down * Count(2) + self.across + self.down
            }
            Some(Sashing { cornerstones: true, .. }) => self.beside(self.across) * self.beside(self.down),
            _ => Count(0),
        }
    }

    /// What squares that stay whole at the edges of a setting on point add to its diagonal: the sashing once.
    fn at_edges(&self) -> Length {
        let sashing = self.sashing.filter(|sashing| sashing.whole_at_edge && self.set == Set::OnPoint);
        sashing.map_or(Length::ZERO, |sashing| sashing.width)
    }

    /// The size of block that the triangles at the sides are made for, and those at the corners: where squares stay
    /// whole at the edge, the block with one sash, and with two.
    pub fn triangles_for(&self) -> (Length, Length) {
        let more = self.at_edges();
        (self.block.width + more, self.block.width + more * 2)
    }

    /// Width and length without borders.
    pub fn inner(&self) -> (Side, Side) {
        if self.rows.is_some() {
            return (Side::straight(self.block.width), Side::straight(self.block.length));
        }
        let side = |blocks: Count, block: Length| match self.set {
            Set::Straight => {
                let sashing = self.sashing.map_or(Length::ZERO, |sashing| sashing.width * self.beside(blocks));
                Side::straight(block * blocks + sashing)
            }
            Set::OnPoint => {
                let pitch = block + self.sashing.map_or(Length::ZERO, |sashing| sashing.width);
                Side::diagonal(pitch * blocks + self.at_edges())
            }
        };
        (side(self.across, self.block.width), side(self.down, self.block.length))
    }

    /// Width and length inside a border.
    pub fn inside(&self, border: usize) -> (Side, Side) {
        let inside = || self.borders.iter().take(border);
        let (width, length) = self.inner();
        (width.plus(inside().map(Border::across).sum()), length.plus(inside().map(Border::down).sum()))
    }

    /// Width and length, finished.
    pub fn finished(&self) -> (Side, Side) {
        self.inside(self.borders.len())
    }

    /// The strips of a border as they are cut with a seam: butted, two as long as the quilt and two as wide as the
    /// quilt with them; mitred, each as long as the quilt with the border and the ease; with cornerstones, two as
    /// long and two as wide as the quilt (class notes, 4 B's, print the butted and cornered ones with seams; Marje
    /// Rhine, American Quilter's Society blog, the mitred ones).
    pub fn border_strips(&self, index: usize, seam: Length) -> Option<BorderStrips> {
        let border = self.borders.get(index)?;
        let ((width, length), seams) = (self.inside(index), seam * 2);
        let (sides, ends) = match border.corners {
            Corners::Butted => (length.plus(seams), width.plus(border.across() + seams)),
            Corners::Cornerstones => (length.plus(seams), width.plus(seams)),
            Corners::Mitred => {
                let ease = border.ease.max(seams);
                (length.plus(border.down() + ease), width.plus(border.across() + ease))
            }
        };
        let cornerstones = Count(if border.corners == Corners::Cornerstones { 4 } else { 0 });
        let [width, top_width, bottom_width] = [border.sides, border.top, border.bottom].map(|width| width + seams);
        Some(BorderStrips { width, top_width, bottom_width, sides, ends, cornerstones })
    }
}
