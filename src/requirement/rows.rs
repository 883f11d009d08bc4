//! A layout that is sewn in rows or columns of blocks: how long each row is, and how wide.

use crate::manuscript::Span;
use crate::manuscript::model::{BlocksOfRow, LaidRow, Manuscript, SizeLayout};
use crate::quantity::{Count, Length};
use crate::quilt_math::rectangle::Rectangle;

/// The rows of a layout.
#[derive(Debug)]
pub struct RowsNeeds<'m> {
    /// Whether they are columns.
    pub are_columns: bool,
    /// How many times over they are sewn.
    pub times: Count,
    /// Each of them.
    pub rows: Vec<RowNeeds<'m>>,
}

/// One row.
#[derive(Debug)]
pub struct RowNeeds<'m> {
    /// What is stated.
    pub stated: &'m LaidRow,
    /// How many of its blocks finish alike, and how long each is along the row, and how much of its width it takes; in
    /// the order of sewing.
    pub blocks: Vec<BlocksLaid>,
}

/// Blocks of a row that lie side by side.
#[derive(Clone, Copy, Debug)]
pub struct BlocksLaid {
    /// Where they are stated.
    pub at: Span,
    /// Which block.
    pub block: usize,
    /// How many.
    pub count: Count,
    /// How long each finishes along the row.
    pub along: Length,
    /// How much of the row's width each takes, finished.
    pub across: Length,
}

impl RowNeeds<'_> {
    /// How long it finishes.
    pub fn length(&self) -> Length {
        self.blocks.iter().map(|blocks| blocks.along * blocks.count).sum()
    }

    /// How wide it finishes: as wide as most of its blocks, the first of them where as many are otherwise.
    pub fn width(&self) -> Length {
        let widths = self.blocks.iter().map(|blocks| blocks.across);
        let counted = widths.map(|width| {
            let alike = self.blocks.iter().filter(|blocks| blocks.across == width);
            (alike.fold(Count(0), |sum, blocks| sum + blocks.count), width)
        });
        first_of_most(counted).unwrap_or_default()
    }

    /// The blocks that are not as wide as the row.
    pub fn odd(&self, slack: Length) -> impl Iterator<Item = &BlocksLaid> {
        let width = self.width();
        self.blocks.iter().filter(move |blocks| (blocks.across - width).abs() > slack)
    }
}

/// The value with the largest count, the first of several.
fn first_of_most(counted: impl Iterator<Item = (Count, Length)>) -> Option<Length> {
    let most = counted.fold(None, |most: Option<(Count, Length)>, one| match most {
        Some(known) if known.0 >= one.0 => Some(known),
        _ => Some(one),
    });
    most.map(|(_, length)| length)
}

impl<'m> RowsNeeds<'m> {
    /// The rows of a layout; `None` where it has none, or something of them could not be read.
    pub fn new(manuscript: &'m Manuscript, stated: &'m SizeLayout) -> Option<RowsNeeds<'m>> {
        let are_columns = stated.rows.is_absent();
        let rows = if are_columns { &stated.columns } else { &stated.rows };
        let times = if stated.times.is_absent() { Count(1) } else { stated.times.value()? };
        let row = |stated: &'m LaidRow| {
            let laid = |blocks: &crate::manuscript::Spanned<BlocksOfRow>| {
                let BlocksOfRow { block, count, turned } = blocks.value;
                let (width, height) = manuscript.blocks.get(block)?.finished.value()?;
                let (wide, high) = if turned { (height.length, width.length) } else { (width.length, height.length) };
                let (along, across) = if are_columns { (high, wide) } else { (wide, high) };
                Some(BlocksLaid { at: blocks.at, block, count, along, across })
            };
            Some(RowNeeds { stated, blocks: stated.blocks.iter().map(laid).collect::<Option<_>>()? })
        };
        let rows = rows.stated()?.value.iter().map(row).collect::<Option<Vec<_>>>()?;
        Some(RowsNeeds { are_columns, times, rows })
    }

    /// The length that most rows finish, the first of several.
    pub fn length(&self) -> Length {
        let lengths = self.rows.iter().map(RowNeeds::length);
        let counted = lengths.map(|length| {
            let alike = self.rows.iter().filter(|row| row.length() == length).count();
            (Count(u64::try_from(alike).unwrap_or(u64::MAX)), length)
        });
        first_of_most(counted).unwrap_or_default()
    }

    /// How large they make the top; `None` where they do not fit one another.
    pub fn size(&self, slack: Length) -> Option<Rectangle> {
        let length = self.length();
        let fits = |row: &RowNeeds<'_>| (row.length() - length).abs() <= slack && row.odd(slack).next().is_none();
        let width = self.rows.iter().map(RowNeeds::width).sum::<Length>() * self.times;
        let (across, down) = if self.are_columns { (width, length) } else { (length, width) };
        self.rows.iter().all(fits).then(|| Rectangle::new(across, down))
    }

    /// How many blocks they have.
    pub fn count(&self) -> Count {
        let blocks = self.rows.iter().flat_map(|row| &row.blocks);
        blocks.fold(Count(0), |sum, blocks| sum + blocks.count) * self.times
    }

    /// Rows that follow one another and finish equally wide, how many of each.
    pub fn widths(&self) -> Vec<(Count, Length)> {
        let mut runs: Vec<(Count, Length)> = Vec::new();
        for width in self.rows.iter().map(RowNeeds::width) {
            match runs.iter_mut().find(|(_, known)| *known == width) {
                Some((count, _)) => *count = *count + self.times,
                None => runs.push((self.times, width)),
            }
        }
        runs
    }
}
