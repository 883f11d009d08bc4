//! A layout that is sewn in rows or columns of blocks: how long each row is, and how wide, with the sashing between them.

use crate::manuscript::Span;
use crate::manuscript::model::{BlocksOfRow, LaidRow, Manuscript, SizeLayout};
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::{RowSums, Sashes, Sashing};
use crate::quilt_math::rectangle::Rectangle;

/// The rows of a layout.
#[derive(Debug)]
pub struct RowsNeeds<'m> {
    /// Whether they are columns.
    pub are_columns: bool,
    /// How many times over they are sewn.
    pub times: Count,
    /// What lies between the blocks of a row, and between the rows.
    pub sashing: Option<Sashing>,
    /// How long the finished size says that they are, where it does.
    pub expected: Option<Length>,
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
    /// How many sashes stand in it, and how wide each finishes.
    pub sashes: (Count, Length),
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
    /// How long it finishes, its sashes with it.
    pub fn length(&self) -> Length {
        let (sashes, width) = self.sashes;
        self.blocks.iter().map(|blocks| blocks.along * blocks.count).sum::<Length>() + width * sashes
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

    /// How many blocks of each length follow one another.
    pub fn lengths(&self) -> Vec<(Count, Length)> {
        let mut runs: Vec<(Count, Length)> = Vec::new();
        for blocks in &self.blocks {
            match runs.last_mut() {
                Some((count, along)) if *along == blocks.along => *count = *count + blocks.count,
                _ => runs.push((blocks.count, blocks.along)),
            }
        }
        runs
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
    pub fn new(manuscript: &'m Manuscript, stated: &'m SizeLayout, sashing: Option<Sashing>) -> Option<RowsNeeds<'m>> {
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
            let blocks: Vec<BlocksLaid> = stated.blocks.iter().map(laid).collect::<Option<_>>()?;
            let count = blocks.iter().fold(Count(0), |sum, blocks| sum + blocks.count);
            let sashes = sashing.map_or((Count(0), Length::ZERO), |sashing| (sashing.beside(count), sashing.width));
            Some(RowNeeds { stated, blocks, sashes })
        };
        let rows = rows.stated()?.value.iter().map(row).collect::<Option<Vec<_>>>()?;
        Some(RowsNeeds { are_columns, times, sashing, expected: None, rows })
    }

    /// The length that most rows finish; of several, the one that the finished size says, or else the first.
    pub fn length(&self) -> Length {
        let lengths = self.rows.iter().map(RowNeeds::length);
        let counted = lengths.map(|length| {
            let alike = self.rows.iter().filter(|row| row.length() == length).count();
            (Count(u64::try_from(alike).unwrap_or(u64::MAX)), length)
        });
        let counted: Vec<(Count, Length)> = counted.collect();
        let most = counted.iter().map(|(count, _)| *count).max();
        let expected = counted.iter().find(|(count, length)| Some(*count) == most && Some(*length) == self.expected);
        expected.map(|(_, length)| *length).or_else(|| first_of_most(counted.into_iter())).unwrap_or_default()
    }

    /// How many rows there are in all.
    pub fn rows_in_all(&self) -> Count {
        Count(u64::try_from(self.rows.len()).unwrap_or(u64::MAX)) * self.times
    }

    /// How many sashes there are between the rows, and around them where the sashing goes around.
    pub fn between(&self) -> Count {
        self.sashing.map_or(Count(0), |sashing| sashing.beside(self.rows_in_all()))
    }

    /// How wide all rows are together, with the sashes between them.
    pub fn width(&self) -> Length {
        let sashes = self.sashing.map_or(Length::ZERO, |sashing| sashing.width * self.between());
        self.rows.iter().map(RowNeeds::width).sum::<Length>() * self.times + sashes
    }

    /// How many times over they are sewn where they are so wide.
    pub fn times_for(&self, width: Length) -> Option<Count> {
        let (sash, is_round) = self.sashing.map_or((Length::ZERO, false), |sashing| (sashing.width, sashing.round));
        let rows = Count(u64::try_from(self.rows.len()).ok()?);
        let once = self.rows.iter().map(RowNeeds::width).sum::<Length>() + sash * rows;
        // A sash beside each row, and one more or one fewer.
        let all = if is_round { width - sash } else { width + sash };
        let times = all.ticks().checked_div(once.ticks())?;
        let fits = times > 0 && once.ticks() * times == all.ticks();
        fits.then(|| u64::try_from(times).ok().map(Count)).flatten()
    }

    /// How large they make the top; `None` where they do not fit one another.
    pub fn size(&self, slack: Length) -> Option<Rectangle> {
        let length = self.length();
        let fits = |row: &RowNeeds<'_>| (row.length() - length).abs() <= slack && row.odd(slack).next().is_none();
        let width = self.width();
        let (across, down) = if self.are_columns { (width, length) } else { (length, width) };
        self.rows.iter().all(fits).then(|| Rectangle::new(across, down))
    }

    /// How many blocks they have.
    pub fn count(&self) -> Count {
        let blocks = self.rows.iter().flat_map(|row| &row.blocks);
        blocks.fold(Count(0), |sum, blocks| sum + blocks.count) * self.times
    }

    /// Whether the seams between blocks meet from row to row, so that sashes can cross.
    pub fn are_alike(&self) -> bool {
        let mut lengths = self.rows.iter().map(RowNeeds::lengths);
        let first = lengths.next();
        lengths.all(|row| Some(row) == first)
    }

    /// What they come to.
    pub fn sums(&self) -> Option<RowSums> {
        let first = self.rows.first()?;
        let has_cornerstones = self.sashing.is_some_and(|sashing| sashing.cornerstones);
        let mut sashes: Vec<Sashes> = Vec::new();
        for row in &self.rows {
            add(&mut sashes, Sashes { count: row.sashes.0 * self.times, length: row.width() });
        }
        let mut long_sashes = Sashes::default();
        if has_cornerstones {
            for (count, length) in first.lengths() {
                add(&mut sashes, Sashes { count: count * self.between(), length });
            }
        } else {
            long_sashes = Sashes { count: self.between(), length: self.length() };
        }
        Some(RowSums {
            are_columns: self.are_columns,
            first: first.blocks.iter().map(|blocks| (blocks.count, blocks.along)).collect(),
            sashes_of_first: first.sashes.0,
            widths: self.widths(),
            sashes,
            long_sashes,
            between: self.between(),
            cornerstones: if has_cornerstones { first.sashes.0 * self.between() } else { Count(0) },
        })
    }

    /// How many rows finish how wide.
    fn widths(&self) -> Vec<(Count, Length)> {
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

/// Adds sashes to those of their length.
fn add(sashes: &mut Vec<Sashes>, more: Sashes) {
    match sashes.iter_mut().find(|known| known.length == more.length) {
        _ if more.count.0 == 0 => {}
        Some(known) => known.count = known.count + more.count,
        None => sashes.push(more),
    }
}
