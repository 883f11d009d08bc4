//! A strip as it is cut: in sections across it, each section in rows, and so on in turn until each part is one piece.
//!
//! Every cut goes from edge to edge of the part that it is made in. Parts that are cut alike are told together, the
//! widest first, so that a plan can be followed and drawn from the same parts.

use super::cutting::{CutGrid, CutStrips};
use crate::quantity::{Count, Length};

/// A part of a strip with what is cut from it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Part {
    /// How much of the fabric's width it takes.
    pub across: Length,
    /// How much of the fabric's length it takes.
    pub along: Length,
    /// What is cut from it.
    pub made: Made,
    /// How many such parts there are beside one another.
    pub count: Count,
}

/// What is cut from a part.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Made {
    /// It is a piece: the number of its entry.
    Piece(usize),
    /// Parts side by side, cut across it.
    Sections(Vec<Part>),
    /// Parts one above another, cut along it.
    Rows(Vec<Part>),
}

/// A rectangle that no piece is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeftOver {
    /// How far from the strip's end it begins.
    pub from: Length,
    /// How far from the strip's edge it begins.
    pub above: Length,
    /// How much of the fabric's width it takes.
    pub across: Length,
    /// How much of the fabric's length it takes.
    pub along: Length,
}

/// Which way cuts go.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Cuts {
    Sections,
    Rows,
}

impl Cuts {
    const fn others(self) -> Cuts {
        match self {
            Cuts::Sections => Cuts::Rows,
            Cuts::Rows => Cuts::Sections,
        }
    }
}

/// A full rectangle of alike pieces.
#[derive(Clone, Copy)]
struct Block {
    piece: CutGrid,
    from: Length,
    above: Length,
    columns: Count,
    rows: Count,
}

impl Block {
    fn across(&self) -> Length {
        self.piece.across * self.columns
    }

    fn along(&self) -> Length {
        self.piece.along * self.rows
    }

    /// Where it begins and ends in the direction that cuts part.
    fn extent(&self, cuts: Cuts) -> (Length, Length) {
        match cuts {
            Cuts::Sections => (self.from, self.from + self.across()),
            Cuts::Rows => (self.above, self.above + self.along()),
        }
    }
}

/// The parts of grids of pieces in a strip; `None` where there are none, or cuts from edge to edge do not part them.
pub fn parts(grids: &[CutGrid]) -> Option<Part> {
    let blocks: Vec<Block> = grids.iter().flat_map(blocks).collect();
    match blocks.as_slice() {
        [block] => Some(of_block(block, Cuts::Sections)),
        blocks => part(blocks, Cuts::Sections),
    }
}

/// The full rectangles of a grid, of which the last column may have fewer pieces.
fn blocks(grid: &CutGrid) -> impl Iterator<Item = Block> {
    let stacked = grid.stacked.0.max(1);
    let (full, last) = (grid.count.0 / stacked, grid.count.0 % stacked);
    let block = |column: u64, columns: u64, rows: u64| Block {
        piece: *grid,
        from: grid.from + grid.across * Count(column),
        above: grid.above,
        columns: Count(columns),
        rows: Count(rows),
    };
    let whole = (full > 0).then(|| block(0, full, stacked));
    let rest = (last > 0).then(|| block(full, 1, last));
    [whole, rest].into_iter().flatten()
}

fn part(blocks: &[Block], cuts: Cuts) -> Option<Part> {
    if let [block] = blocks {
        return Some(of_block(block, cuts.others()));
    }
    [cuts, cuts.others()].into_iter().find_map(|cuts| {
        let groups = parted(blocks, cuts);
        if groups.len() < 2 {
            return None;
        }
        let parts = groups.iter().map(|group| part(group, cuts.others())).collect::<Option<Vec<Part>>>()?;
        Some(together(parts, cuts))
    })
}

/// The blocks between cuts from edge to edge.
fn parted(blocks: &[Block], cuts: Cuts) -> Vec<Vec<Block>> {
    let mut sorted = blocks.to_vec();
    sorted.sort_by_key(|block| block.extent(cuts));
    let mut groups: Vec<Vec<Block>> = Vec::new();
    let mut reach = Length::ZERO;
    for block in sorted {
        let (begins, ends) = block.extent(cuts);
        match groups.last_mut().filter(|_| begins < reach) {
            Some(group) => group.push(block),
            None => groups.push(vec![block]),
        }
        reach = reach.max(ends);
    }
    groups
}

/// A block as it is cut: first as the part is that it lies in, so that both are cut in one go.
fn of_block(block: &Block, first: Cuts) -> Part {
    let CutGrid { across, along, item, .. } = block.piece;
    let count = |cuts: Cuts| if cuts == Cuts::Sections { block.columns } else { block.rows };
    let piece = Part { across, along, made: Made::Piece(item), count: count(first.others()) };
    let inner = together(vec![piece], first.others());
    together(vec![Part { count: count(first), ..inner }], first)
}

/// Parts beside one another as one, those that are alike together, the widest first.
fn together(parts: Vec<Part>, cuts: Cuts) -> Part {
    let mut flat = Vec::new();
    for part in parts {
        match (part.made, cuts) {
            (Made::Sections(inner), Cuts::Sections) | (Made::Rows(inner), Cuts::Rows) => {
                flat.extend(inner.into_iter().map(|inner| Part { count: inner.count * part.count, ..inner }));
            }
            (made, _) => flat.push(Part { made, ..part }),
        }
    }
    flat.sort_by(|one, other| (other.along, other.across, &one.made).cmp(&(one.along, one.across, &other.made)));
    let mut alike: Vec<Part> = Vec::new();
    for part in flat {
        match alike.last_mut() {
            Some(last) if (last.across, last.along, &last.made) == (part.across, part.along, &part.made) => {
                last.count = last.count + part.count;
            }
            _ => alike.push(part),
        }
    }
    if let [Part { count: Count(1), .. }] = alike.as_slice() {
        return alike.remove(0);
    }
    let sum = |side: fn(&Part) -> Length| alike.iter().map(|part| side(part) * part.count).sum();
    let most = |side: fn(&Part) -> Length| alike.iter().map(side).max().unwrap_or_default();
    let (across, along): (Length, Length) = match cuts {
        Cuts::Sections => (sum(|part| part.across), most(|part| part.along)),
        Cuts::Rows => (most(|part| part.across), sum(|part| part.along)),
    };
    let made = if cuts == Cuts::Sections { Made::Sections(alike) } else { Made::Rows(alike) };
    Part { across, along, made, count: Count(1) }
}

impl Part {
    /// The pieces as grids, each part right beside the one before it.
    pub fn grids(&self) -> Vec<CutGrid> {
        let mut grids = Vec::new();
        self.place(Length::ZERO, Length::ZERO, &mut grids);
        grids
    }

    fn place(&self, mut from: Length, mut above: Length, grids: &mut Vec<CutGrid>) {
        let piece = |part: &Part, item, from, above, stacked, count| CutGrid {
            item,
            from,
            above,
            across: part.across,
            along: part.along,
            stacked,
            count,
        };
        match &self.made {
            Made::Piece(item) => grids.push(piece(self, *item, from, above, Count(1), Count(1))),
            Made::Sections(parts) => {
                for part in parts {
                    if let Made::Piece(item) = part.made {
                        grids.push(piece(part, item, from, above, Count(1), part.count));
                    } else if let Some((column, item)) = part.only_piece(|made| matches!(made, Made::Rows(_))) {
                        grids.push(piece(column, item, from, above, column.count, column.count * part.count));
                    } else {
                        for nth in 0..part.count.0 {
                            part.place(from + part.across * Count(nth), above, grids);
                        }
                    }
                    from = from + part.across * part.count;
                }
            }
            Made::Rows(parts) => {
                for part in parts {
                    if let Made::Piece(item) = part.made {
                        grids.push(piece(part, item, from, above, part.count, part.count));
                    } else if let Some((row, item)) = part.only_piece(|made| matches!(made, Made::Sections(_))) {
                        grids.push(piece(row, item, from, above, part.count, row.count * part.count));
                    } else {
                        for nth in 0..part.count.0 {
                            part.place(from, above + part.along * Count(nth), grids);
                        }
                    }
                    above = above + part.along * part.count;
                }
            }
        }
    }

    /// The one kind of piece that it is cut into in one go.
    fn only_piece(&self, is: impl Fn(&Made) -> bool) -> Option<(&Part, usize)> {
        let (Made::Sections(parts) | Made::Rows(parts)) = &self.made else { return None };
        match parts.as_slice() {
            [part] if is(&self.made) => {
                if let Made::Piece(item) = part.made {
                    Some((part, item))
                } else {
                    None
                }
            }
            _ => None,
        }
    }

    /// What is left over of a strip of which it is cut from the corner; nothing of it where it is as large.
    pub fn left_over(&self, across: Length, along: Length) -> Vec<LeftOver> {
        let mut left = Vec::new();
        let is = LeftOver { from: Length::ZERO, above: Length::ZERO, across, along };
        self.rest(is, &mut left);
        left.retain(|left| left.across.is_positive() && left.along.is_positive());
        left
    }

    /// What is left of the room that it is cut from.
    fn rest(&self, room: LeftOver, left: &mut Vec<LeftOver>) {
        let LeftOver { mut from, mut above, across, along } = room;
        let (ends, top) = (from + across, above + along);
        match &self.made {
            Made::Piece(_) => {
                left.push(LeftOver { from: from + self.across, across: across - self.across, ..room });
                let above = above + self.along;
                left.push(LeftOver { above, across: self.across, along: along - self.along, ..room });
            }
            Made::Sections(parts) => {
                for part in parts {
                    // Pieces that are trimmed leave one rectangle where they lie side by side.
                    if matches!(part.made, Made::Piece(_)) {
                        let across = part.across * part.count;
                        left.push(LeftOver { from, above: above + part.along, across, along: along - part.along });
                        from = from + across;
                        continue;
                    }
                    for _ in 0..part.count.0 {
                        part.rest(LeftOver { from, across: part.across, ..room }, left);
                        from = from + part.across;
                    }
                }
                left.push(LeftOver { from, across: ends - from, ..room });
            }
            Made::Rows(parts) => {
                for part in parts {
                    if matches!(part.made, Made::Piece(_)) {
                        let along = part.along * part.count;
                        left.push(LeftOver { from: from + part.across, above, across: across - part.across, along });
                        above = above + along;
                        continue;
                    }
                    for _ in 0..part.count.0 {
                        part.rest(LeftOver { above, along: part.along, ..room }, left);
                        above = above + part.along;
                    }
                }
                left.push(LeftOver { above, along: top - above, ..room });
            }
        }
    }
}

/// Strips with their pieces laid again as they are cut: alike pieces together, the widest first. A strip of the fabric
/// that is cut along its whole length is several strips.
pub(super) fn in_order(strips: CutStrips, is_of_fabric: bool) -> Vec<CutStrips> {
    let Some(part) = parts(&strips.grids) else { return vec![strips] };
    let is_piece = |row: &Part| matches!(row.made, Made::Piece(_));
    match &part.made {
        Made::Rows(rows) if is_of_fabric && !rows.iter().all(is_piece) => {
            let strip = |row: &Part| {
                let one = Part { count: Count(1), ..row.clone() };
                CutStrips { count: strips.count * row.count, width: row.along, grids: one.grids(), ..strips.clone() }
            };
            rows.iter().map(strip).collect()
        }
        _ => vec![CutStrips { grids: part.grids(), ..strips }],
    }
}
