//! What the layout of each size makes: how large the top is, and how many blocks it has.

use super::assumed::PIECING_SEAM;
use super::rows::RowsNeeds;
use crate::manuscript::design::{Block, PieceRef};
use crate::manuscript::model::{
    Blocks, Border as StatedBorder, Corners, EdgeSquares, Join, Manuscript, Measured, PerSize, Set, Size, SizeLayout,
    YesNo,
};
use crate::manuscript::{Field, Span};
use crate::quantity::{Count, Length, Measure, Round, Unit};
use crate::quilt_math::binding::join_loss;
use crate::quilt_math::layout::{Border, Sashes, Sashing, Side, Top};
use crate::quilt_math::rectangle::Rectangle;
use crate::rule_book::{LengthValue, Settings};

/// By how much a finished size may differ from a layout on point, since patterns print fractions of it.
pub const ON_POINT_SLACK: LengthValue = LengthValue::named("on_point_slack");
/// By how much any other stated size may differ from the exact one.
pub const SIZE_SLACK: LengthValue = LengthValue::named("size_slack");
/// How much longer a mitred border is cut than the quilt with it, at least.
pub const MITRE_EASE: LengthValue = LengthValue::named("mitre_ease");

/// What all layouts of a manuscript make.
#[derive(Debug)]
pub struct LayoutsNeeds<'m> {
    /// The manuscript.
    pub manuscript: &'m Manuscript,
    /// The measure to print in.
    pub measure: Measure,
    /// The piecing seam; `None` where it could not be read.
    pub seam: Option<Length>,
    /// How far a size on point may be from the exact one.
    pub on_point_slack: Length,
    /// How far any other may be.
    pub size_slack: Length,
    /// Whether finished sizes are of the top with the seam allowances at its edges.
    pub is_raw: bool,
    /// The sizes that have a layout.
    pub sizes: Vec<LayoutNeeds<'m>>,
}

/// What the layout of one size makes.
#[derive(Debug)]
pub struct LayoutNeeds<'m> {
    /// The size.
    pub size: &'m Size,
    /// Its place among the sizes.
    pub index: usize,
    /// What is stated.
    pub stated: &'m SizeLayout,
    /// The blocks that are named, each with its count and where that is stated; a block may be named twice.
    pub blocks: Vec<BlockCount<'m>>,
    /// Whether every block and its count was read.
    pub blocks_whole: bool,
    /// How many blocks the layout has; `None` where that could not be read.
    pub places: Option<Count>,
    /// The top without what could not be read; `None` where too little is known.
    pub top: Option<Top>,
    /// Whether all borders are in the top.
    pub borders_whole: bool,
    /// The rows or the columns that it is sewn in, where it is.
    pub rows: Option<RowsNeeds<'m>>,
    /// Why nothing is computed, where the layout is one that is not known here.
    pub unchecked: Option<&'static str>,
}

/// So many of one block.
#[derive(Clone, Copy, Debug)]
pub struct BlockCount<'m> {
    /// The block, by its place among the blocks.
    pub block: usize,
    /// What is stated of it.
    pub stated: &'m Block,
    /// How many.
    pub count: Count,
    /// Where that is stated.
    pub at: Span,
}

impl<'m> LayoutsNeeds<'m> {
    /// What the layouts of a manuscript make.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> LayoutsNeeds<'m> {
        let stated = manuscript.layout.iter().flat_map(|layout| &layout.sizes).enumerate();
        let laid = stated.filter_map(|(index, stated)| {
            Some(LayoutNeeds::new(manuscript, manuscript.sizes.get(index)?, index, stated.stated()?, settings))
        });
        LayoutsNeeds {
            manuscript,
            measure: manuscript.measure,
            seam: manuscript.assumes.seam.or_length(|| settings.length(PIECING_SEAM)),
            on_point_slack: settings.length(ON_POINT_SLACK),
            size_slack: settings.length(SIZE_SLACK),
            is_raw: manuscript.assumes.measured.value() == Some(Measured::RawEdges),
            sizes: laid.collect(),
        }
    }

    /// How large a top is by the way that finished sizes are measured: sewn, or with the seam allowances at its edges.
    pub fn finished(&self, top: &Top) -> (Side, Side) {
        let (width, length) = top.finished();
        let edges = self.edges();
        (width.plus(edges), length.plus(edges))
    }

    /// What the seam allowances at two edges add to a finished size, where it is measured with them.
    pub fn edges(&self) -> Length {
        self.seam.filter(|_| self.is_raw).map_or(Length::ZERO, |seam| seam * 2)
    }

    /// Whether every size has a layout.
    pub fn is_complete(&self) -> bool {
        let layout = self.manuscript.layout.as_ref();
        layout.is_some_and(|layout| layout.sizes.iter().all(|size| matches!(size, PerSize::Stated(_))))
            && !self.sizes.is_empty()
    }

    /// How far a side may be from the exact one.
    pub fn slack(&self, side: Side) -> Length {
        if side.diagonal.is_positive() { self.on_point_slack } else { self.size_slack }
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }

    /// A side as a pattern prints it: to the nearest eighth or millimetre where it is no fraction.
    pub fn printed(&self, side: Side) -> Length {
        match (side.diagonal.is_positive(), self.measure) {
            (false, _) => side.straight,
            (true, Measure::Inch) => side.nearest(Length::inch_fraction(1, 8)),
            (true, Measure::Cm) => side.nearest(Unit::Mm.one()),
        }
    }

    /// A side in words.
    pub fn side(&self, side: Side) -> String {
        self.up(self.printed(side))
    }
}

impl<'m> LayoutNeeds<'m> {
    /// Whether the piece for short sashes is that for the sashes between rows too: of a single column, where none is named
    /// for these.
    pub fn has_one_piece_for_sashes(&self) -> bool {
        self.stated.long_sash.is_absent() && self.top.as_ref().is_some_and(Top::has_sashes_of_one_column)
    }

    /// The sashes that the piece for short ones is cut for, each length with its count.
    pub fn sashes_of_short_piece(&self) -> Vec<Sashes> {
        let Some(top) = &self.top else { return Vec::new() };
        if self.has_one_piece_for_sashes() { vec![top.long_sashes()] } else { top.short_sashes() }
    }

    /// The piece that sashes between rows are cut from.
    pub fn piece_of_long_sashes(&self) -> &'m Field<PieceRef> {
        if self.has_one_piece_for_sashes() { &self.stated.sash } else { &self.stated.long_sash }
    }

    fn new(
        manuscript: &'m Manuscript,
        size: &'m Size,
        index: usize,
        stated: &'m SizeLayout,
        settings: &Settings,
    ) -> LayoutNeeds<'m> {
        let set = stated.set.or(Set::Straight);
        let in_rows = !stated.rows.is_absent() || !stated.columns.is_absent();
        let sashing = if stated.sashing.is_absent() { Some(None) } else { sashing(stated).map(Some) };
        let mut rows =
            if in_rows { sashing.and_then(|between| RowsNeeds::new(manuscript, stated, between)) } else { None };
        if let Some(rows) = &mut rows {
            rows.expected = length_inside(size, &borders(stated, settings), rows.are_columns);
        }
        let grid = set.zip(stated.across.value()).zip(stated.down.value());
        let top = |block: Rectangle| {
            let ((set, across), down) = grid?;
            Some(Top { set, across, down, block, sashing: sashing?, borders: borders(stated, settings), rows: None })
        };
        let places = grid.map(|((set, across), down)| {
            let block = Rectangle::new(Length::ZERO, Length::ZERO);
            Top { set, across, down, block, sashing: None, borders: Vec::new(), rows: None }.blocks()
        });
        let places = if in_rows { rows.as_ref().map(RowsNeeds::count) } else { places };
        let (blocks, blocks_whole) = match &rows {
            Some(rows) => blocks_of_rows(manuscript, rows),
            None => blocks(manuscript, stated, places),
        };
        let top_of_rows = |rows: &RowsNeeds<'_>| {
            let block = rows.size(settings.length(SIZE_SLACK))?;
            let (sums, borders, one) = (rows.sums()?, borders(stated, settings), Count(1));
            Some(Top { set: set?, across: one, down: one, block, sashing: rows.sashing, borders, rows: Some(sums) })
        };
        let mut laid = LayoutNeeds {
            size,
            index,
            stated,
            blocks,
            blocks_whole,
            places,
            top: None,
            borders_whole: false,
            rows,
            unchecked: None,
        };
        let rows_fit = |rows: &&RowsNeeds<'_>| rows.size(settings.length(SIZE_SLACK)).is_some();
        laid.unchecked =
            if in_rows { why_not_rows(laid.rows.as_ref().filter(rows_fit), set) } else { laid.why_not(set) };
        laid.top = match &laid.rows {
            _ if laid.unchecked.is_some() => None,
            Some(rows) => top_of_rows(rows),
            None => laid.block_size().and_then(top),
        };
        laid.borders_whole =
            stated.borders_whole && laid.top.as_ref().is_some_and(|top| top.borders.len() == stated.borders.len());
        laid
    }

    /// How large each block finishes, where all are alike.
    fn block_size(&self) -> Option<Rectangle> {
        let mut sizes = self.blocks.iter().map(|block| {
            block.stated.finished.value().map(|(width, height)| Rectangle::new(width.length, height.length))
        });
        let first = sizes.next().flatten()?;
        sizes.all(|size| size == Some(first)).then_some(first)
    }

    /// Whether one block is named for all places, so that the layout alone says how many there are.
    pub fn fills_with_one_block(&self) -> bool {
        self.stated.blocks.stated().is_some_and(|blocks| matches!(blocks.value, Blocks::All(_)))
    }

    /// Why a layout is not computed that is whole and yet none of those known here.
    fn why_not(&self, set: Option<Set>) -> Option<&'static str> {
        let finished: Option<Vec<_>> = self.blocks.iter().map(|block| block.stated.finished.value()).collect();
        let finished = finished?;
        let lengths =
            |(width, height): &(crate::quantity::Written, crate::quantity::Written)| (width.length, height.length);
        let first = finished.first().map(lengths)?;
        if finished.iter().any(|size| lengths(size) != first) {
            return Some("its blocks are not all of one finished size");
        }
        if set? == Set::Straight {
            return None;
        }
        if first.0 != first.1 {
            return Some("its blocks are set on point, and they are not square");
        }
        if self.stated.sashing.is_absent() {
            return None;
        }
        let is = |field: &Field<YesNo>| field.is_unread() || field.value() == Some(YesNo::Yes);
        if !is(&self.stated.sashing_round) || !is(&self.stated.cornerstones) {
            return Some(
                "its blocks are set on point with sashing that does not go around them with cornerstones \
                 (sashing_round: yes, cornerstones: yes)",
            );
        }
        self.stated.edge_squares.is_absent().then_some(
            "its blocks are set on point with sashing, and edge_squares does not say whether the squares at the edge \
             are whole or halves",
        )
    }

    /// A stated border, and the same as it is computed.
    pub fn border(&self, index: usize) -> Option<(&'m StatedBorder, Border)> {
        Some((self.stated.borders.get(index)?, *self.top.as_ref()?.borders.get(index)?))
    }
}

/// How long the finished size says that rows or columns are inside of borders.
fn length_inside(size: &Size, borders: &[Border], are_columns: bool) -> Option<Length> {
    let (width, length) = size.finished.value()?;
    let around = |of: fn(&Border) -> Length| borders.iter().map(of).sum::<Length>();
    let inside = if are_columns { length.length - around(Border::down) } else { width.length - around(Border::across) };
    Some(inside).filter(|inside| inside.is_positive())
}

/// Why a layout in rows is not computed that fit one another.
fn why_not_rows(rows: Option<&RowsNeeds<'_>>, set: Option<Set>) -> Option<&'static str> {
    if set == Some(Set::OnPoint) {
        return Some("it is sewn in rows of blocks that are set on point");
    }
    let rows = rows.filter(|rows| rows.sashing.is_some_and(|sashing| sashing.cornerstones))?;
    (!rows.are_alike()).then_some(
        "it has cornerstones between rows that are not alike, and where sashes cross the blocks of all rows must end at the \
         same places",
    )
}

/// The blocks of all rows, each with how many there are.
fn blocks_of_rows<'m>(manuscript: &'m Manuscript, rows: &RowsNeeds<'m>) -> (Vec<BlockCount<'m>>, bool) {
    let mut counts: Vec<BlockCount<'m>> = Vec::new();
    for laid in rows.rows.iter().flat_map(|row| &row.blocks) {
        let count = laid.count * rows.times;
        match counts.iter_mut().find(|known| known.block == laid.block) {
            Some(known) => known.count = known.count + count,
            None => {
                let Some(stated) = manuscript.blocks.get(laid.block) else { continue };
                counts.push(BlockCount { block: laid.block, stated, count, at: laid.at });
            }
        }
    }
    (counts, true)
}

/// The sashing that is stated; `None` where something of it could not be read.
fn sashing(stated: &SizeLayout) -> Option<Sashing> {
    let yes = |field: &Field<YesNo>| Some(field.or(YesNo::No)? == YesNo::Yes);
    let width = stated.sashing.length()?;
    let (round, cornerstones) = (yes(&stated.sashing_round)?, yes(&stated.cornerstones)?);
    let whole_at_edge = stated.edge_squares.or(EdgeSquares::Halves)? == EdgeSquares::Whole;
    Some(Sashing { width, round, cornerstones, whole_at_edge })
}

/// The borders up to the first that could not be read.
fn borders(stated: &SizeLayout, settings: &Settings) -> Vec<Border> {
    let border = |border: &StatedBorder| {
        let width = border.width.value()?;
        Some(Border {
            sides: width.sides.length,
            top: width.top.length,
            bottom: width.bottom.length,
            corners: border.corners.or(Corners::Butted)?,
            ease: border.ease.or_length(|| settings.length(MITRE_EASE))?,
        })
    };
    stated.borders.iter().map_while(border).collect()
}

/// What a join between two strips of a border takes; `None` where something of it could not be read.
pub fn border_join_loss(border: &StatedBorder, cut_width: Length, seam: Length) -> Option<Length> {
    Some(join_loss(border.join.or(Join::Straight)?, cut_width, seam))
}

/// The blocks with their counts, and whether all of them were read.
fn blocks<'m>(
    manuscript: &'m Manuscript,
    stated: &'m SizeLayout,
    places: Option<Count>,
) -> (Vec<BlockCount<'m>>, bool) {
    let Some(blocks) = stated.blocks.stated() else { return (Vec::new(), false) };
    let find = |block: usize, count: Count, at: Span| {
        manuscript.blocks.get(block).map(|stated| BlockCount { block, stated, count, at })
    };
    match &blocks.value {
        Blocks::All(block) => {
            let found = places.and_then(|places| find(*block, places, blocks.at));
            (found.into_iter().collect(), found.is_some())
        }
        Blocks::Each(each) => {
            let read = |(block, count): &(Field<usize>, Field<Count>)| {
                let (block, count) = (block.value()?, count.stated()?);
                find(block, count.value, count.at)
            };
            let found: Vec<BlockCount<'m>> = each.iter().filter_map(read).collect();
            let whole = found.len() == each.len();
            (found, whole)
        }
    }
}
