//! Random designs: units of every make, blocks of them, and a top. Lengths are whole eighths of an inch.

use crate::support::rng::Rng;

/// What a unit is, with the numbers that its pieces are drawn by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Make {
    Patch,
    HalfSquare,
    QuarterSquare { four_fabrics: bool },
    Split,
    Geese,
    SquareInSquare,
    HalfRectangle,
    Snowball { corners: Vec<i64>, alike: Option<i64> },
    LogCabin { center: (i64, i64), logs: Vec<i64>, order: &'static str },
    Strips(Vec<i64>),
    Other,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Unit {
    pub(super) make: Make,
    pub(super) width: i64,
    pub(super) height: i64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sewn {
    Unit(usize),
    Block(usize),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Part {
    pub(super) sewn: Sewn,
    pub(super) turned: bool,
}

#[derive(Clone, Debug)]
pub(super) struct Block {
    pub(super) width: i64,
    pub(super) height: i64,
    pub(super) rows: Vec<Vec<Part>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Corners {
    Butted,
    Mitered,
    Cornerstones,
}

#[derive(Clone, Debug)]
pub(super) struct Border {
    pub(super) sides: i64,
    pub(super) top: i64,
    pub(super) bottom: i64,
    pub(super) corners: Corners,
    /// What it is sewn from.
    pub(super) of: Option<Sewn>,
    /// What stands in its corners.
    pub(super) corner_of: Option<Sewn>,
}

/// What becomes of squares at the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Edge {
    Halves,
    Whole,
}

/// So many of a block side by side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Beside {
    pub(super) block: usize,
    pub(super) count: i64,
    pub(super) turned: bool,
}

/// Rows or columns of blocks, which need not be alike.
#[derive(Clone, Debug)]
pub(super) struct Rows {
    pub(super) are_columns: bool,
    pub(super) times: i64,
    pub(super) each: Vec<Vec<Beside>>,
}

#[derive(Clone, Debug)]
pub(super) struct Top {
    pub(super) on_point: bool,
    pub(super) across: i64,
    pub(super) down: i64,
    /// The block that is everywhere, where it is not sewn in rows.
    pub(super) block: usize,
    pub(super) rows: Option<Rows>,
    pub(super) sashing: i64,
    pub(super) round: bool,
    pub(super) cornerstones: bool,
    /// What becomes of the squares at the edge of blocks on point.
    pub(super) edge: Edge,
    /// The unit that sashes are sewn from.
    pub(super) sash_of: Option<usize>,
    pub(super) borders: Vec<Border>,
    /// The finished size that is stated.
    pub(super) width: i64,
    pub(super) height: i64,
}

/// A whole design.
#[derive(Clone, Debug)]
pub(super) struct Design {
    pub(super) units: Vec<Unit>,
    pub(super) blocks: Vec<Block>,
    pub(super) top: Top,
}

pub(super) const INCH: i64 = 8;

/// A length in parts that sum to it.
fn split(rng: &mut Rng, length: i64, parts: usize) -> Vec<i64> {
    let parts = i64::try_from(parts).unwrap();
    let mut left = length;
    let mut split = Vec::new();
    for part in (1..parts).rev() {
        let most = (left - part).min(2 * left / (part + 1)).max(1);
        let one = rng.between(1, most);
        split.push(one);
        left -= one;
    }
    split.push(left);
    split
}

impl Design {
    pub(super) fn random(rng: &mut Rng) -> Design {
        let cell = rng.between(4, 12) * 4;
        let mut design = Design { units: Vec::new(), blocks: Vec::new(), top: Top::plain() };
        if rng.one_in(2) {
            design.add_block(rng, cell, (2, 2), None);
        }
        let inner = (!design.blocks.is_empty()).then_some(0);
        let square = rng.between(2, 4);
        let size = if rng.one_in(3) { (square, rng.between(2, 4)) } else { (square, square) };
        design.add_block(rng, cell, size, inner);
        if rng.one_in(3) {
            design.lay_in_rows(rng, cell);
        } else {
            design.lay_in_grid(rng);
        }
        design.add_borders(rng);
        design
    }

    fn add_block(&mut self, rng: &mut Rng, cell: i64, (across, down): (i64, i64), inner: Option<usize>) {
        let mut rows = Vec::new();
        let mut left = down;
        while left > 0 {
            let height = if left >= 2 && rng.one_in(2) { 2 } else { 1 };
            left -= height;
            let mut row = Vec::new();
            let mut room = across;
            while room > 0 {
                let width = if room >= 2 && rng.one_in(2) { 2 } else { 1 };
                room -= width;
                let sewn = match inner {
                    Some(inner) if (width, height) == (2, 2) && rng.one_in(3) => Sewn::Block(inner),
                    _ => Sewn::Unit(0),
                };
                row.push(match sewn {
                    Sewn::Block(_) => Part { sewn, turned: rng.one_in(2) },
                    Sewn::Unit(_) => self.unit_for(rng, width * cell, height * cell),
                });
            }
            rows.push(row);
        }
        self.blocks.push(Block { width: across * cell, height: down * cell, rows });
    }

    /// A unit that fills a place so large, as it lies or turned a quarter.
    fn unit_for(&mut self, rng: &mut Rng, width: i64, height: i64) -> Part {
        let known: Vec<usize> = (0..self.units.len())
            .filter(|unit| {
                let unit = &self.units[*unit];
                [(width, height), (height, width)].contains(&(unit.width, unit.height))
            })
            .collect();
        let number = if !known.is_empty() && rng.one_in(2) {
            rng.pick(&known)
        } else {
            let turned = rng.one_in(2);
            let unit = if turned { random_unit(rng, height, width) } else { random_unit(rng, width, height) };
            self.units.push(unit);
            self.units.len() - 1
        };
        let unit = &self.units[number];
        let turned = (unit.width, unit.height) != (width, height) || width == height && rng.one_in(2);
        Part { sewn: Sewn::Unit(number), turned }
    }

    fn lay_in_grid(&mut self, rng: &mut Rng) {
        let block = self.blocks.len() - 1;
        let (wide, high) = (self.blocks[block].width, self.blocks[block].height);
        let on_point = wide == high && rng.one_in(3);
        let sashing = if rng.one_in(2) { 0 } else { rng.between(4, 24) };
        // On point there are always squares where sashes cross, and sashes around the blocks.
        let has_sashing_on_point = sashing > 0 && on_point;
        self.top = Top {
            on_point,
            across: rng.between(1, 4),
            down: rng.between(1, 4),
            block,
            sashing,
            round: has_sashing_on_point || sashing > 0 && rng.one_in(2),
            cornerstones: has_sashing_on_point || sashing > 0 && rng.one_in(2),
            edge: if has_sashing_on_point && rng.one_in(2) { Edge::Whole } else { Edge::Halves },
            ..Top::plain()
        };
        let has_sashes = self.top.round || self.top.across > 1;
        if sashing > 0 && has_sashes && (wide == high || !self.top.cornerstones) && rng.one_in(2) {
            let unit = if rng.one_in(2) { random_unit(rng, sashing, high) } else { random_unit(rng, high, sashing) };
            self.units.push(unit);
            self.top.sash_of = Some(self.units.len() - 1);
        }
    }

    /// A block of one unit.
    fn one_unit_block(&mut self, rng: &mut Rng, width: i64, height: i64) -> usize {
        let part = self.unit_for(rng, width, height);
        self.blocks.push(Block { width, height, rows: vec![vec![part]] });
        self.blocks.len() - 1
    }

    /// Rows of bricks that begin and end with halves, or rows of unlike height, or of blocks of any size.
    fn lay_in_rows(&mut self, rng: &mut Rng, cell: i64) {
        let block = self.blocks.len() - 1;
        let (wide, high) = (self.blocks[block].width, self.blocks[block].height);
        let beside = |block: usize, count: i64, turned: bool| Beside { block, count, turned };
        let count = rng.between(1, 4);
        let mut sashing = if rng.one_in(2) { 0 } else { 2 * rng.between(2, 6) };
        let mut cornerstones = false;
        let rows = match rng.below(3) {
            0 => {
                // Two halves and the sash between them are as long as a whole.
                let half = self.one_unit_block(rng, (wide - sashing) / 2, high);
                let mut second = vec![beside(half, 1, false), beside(block, count, false), beside(half, 1, false)];
                if rng.one_in(4) {
                    second = vec![beside(block, count + 1, false)];
                }
                vec![vec![beside(block, count + 1, false)], second]
            }
            1 => {
                let (low, turned) = (rng.between(8, 80), rng.one_in(2));
                let other = if turned { (low, wide) } else { (wide, low) };
                let other = self.one_unit_block(rng, other.0, other.1);
                cornerstones = sashing > 0 && rng.one_in(2);
                let mut rows = vec![vec![beside(block, count, false)], vec![beside(other, count, turned)]];
                rows.extend(rng.one_in(2).then(|| vec![beside(block, count, false)]));
                rows
            }
            _ => {
                sashing = 0;
                let length = wide + rng.between(1, 3) * cell;
                let rows = rng.between(2, 3);
                let mut row = || {
                    let across = rng.between(1, 3) * cell;
                    self.any_row(rng, length, across)
                };
                (0..rows).map(|_| row()).collect()
            }
        };
        let are_columns = rng.one_in(2);
        let turn = |rows: Vec<Beside>| -> Vec<Beside> {
            rows.into_iter().map(|one| Beside { turned: one.turned != are_columns, ..one }).collect()
        };
        let rows = Rows { are_columns, times: rng.between(1, 3), each: rows.into_iter().map(turn).collect() };
        self.top =
            Top { block, rows: Some(rows), sashing, round: sashing > 0 && rng.one_in(2), cornerstones, ..Top::plain() };
    }

    /// A row so long and so wide, of blocks that are new or known.
    fn any_row(&mut self, rng: &mut Rng, length: i64, wide: i64) -> Vec<Beside> {
        let mut row: Vec<Beside> = Vec::new();
        let mut left = length;
        while left > 0 {
            let lies = |block: &Block, turned: bool| {
                if turned { (block.height, block.width) } else { (block.width, block.height) }
            };
            let known: Vec<(usize, bool)> = (0..self.blocks.len())
                .flat_map(|block| [(block, false), (block, true)])
                .filter(|(block, turned)| {
                    let (along, across) = lies(&self.blocks[*block], *turned);
                    across == wide && (along == left || along + 8 <= left)
                })
                .collect();
            let (block, turned) = if known.is_empty() || rng.one_in(3) {
                let along = if left < 16 || rng.one_in(2) { left } else { rng.between(8, left - 8) };
                (self.one_unit_block(rng, along, wide), false)
            } else {
                rng.pick(&known)
            };
            left -= lies(&self.blocks[block], turned).0;
            match row.last_mut() {
                Some(last) if (last.block, last.turned) == (block, turned) => last.count += 1,
                _ => row.push(Beside { block, count: 1, turned }),
            }
        }
        row
    }

    fn add_borders(&mut self, rng: &mut Rng) {
        for _ in 0..rng.between(0, 3) {
            let corners = rng.pick(&[Corners::Butted, Corners::Mitered, Corners::Cornerstones]);
            let width = rng.between(8, 40);
            let (top, bottom) = if rng.one_in(3) { (rng.between(8, 40), rng.between(8, 40)) } else { (width, width) };
            let mut border = Border { sides: width, top, bottom, corners, of: None, corner_of: None };
            let is_even = (top, bottom) == (width, width);
            if !self.top.on_point && is_even && corners != Corners::Mitered && rng.one_in(2) {
                border.of = self.border_unit(rng, &border);
            }
            if corners == Corners::Cornerstones && top == bottom && rng.one_in(2) {
                border.corner_of = Some(self.sewn(rng, width, top));
            }
            self.top.borders.push(border);
        }
        (self.top.width, self.top.height) = self.plain_size();
    }

    /// A unit or a block so large, or turned a quarter.
    fn sewn(&mut self, rng: &mut Rng, width: i64, height: i64) -> Sewn {
        let (width, height) = if rng.one_in(2) { (width, height) } else { (height, width) };
        if rng.one_in(2) {
            return Sewn::Block(self.one_unit_block(rng, width, height));
        }
        self.units.push(random_unit(rng, width, height));
        Sewn::Unit(self.units.len() - 1)
    }

    /// A unit or a block of which a whole number lie along each side.
    fn border_unit(&mut self, rng: &mut Rng, border: &Border) -> Option<Sewn> {
        let (width, height) = self.plain_size();
        let ends = if border.corners == Corners::Butted { width + 2 * border.sides } else { width };
        let fits: Vec<i64> = (8..=80).filter(|each| ends % each == 0 && height % each == 0).collect();
        let each = (!fits.is_empty()).then(|| rng.pick(&fits))?;
        // One side alone is as wide as the border, or both are.
        Some(self.sewn(rng, each, border.sides))
    }

    /// How large the top is; on point to the nearest eighth.
    pub(super) fn plain_size(&self) -> (i64, i64) {
        let (wide, high) = self.plain_center();
        let sides: i64 = self.top.borders.iter().map(|border| 2 * border.sides).sum();
        let ends: i64 = self.top.borders.iter().map(|border| border.top + border.bottom).sum();
        (wide + sides, high + ends)
    }

    /// The same without borders.
    fn plain_center(&self) -> (i64, i64) {
        let top = &self.top;
        let sashes = |count: i64| if top.round { count + 1 } else { count - 1 } * top.sashing;
        if let Some(rows) = &top.rows {
            let first = &rows.each[0];
            let blocks: i64 = first.iter().map(|beside| beside.count).sum();
            let along: i64 = first.iter().map(|beside| beside.count * self.lies(rows, *beside).0).sum();
            let across: i64 = rows.each.iter().map(|row| self.lies(rows, row[0]).1).sum();
            let many = i64::try_from(rows.each.len()).unwrap() * rows.times;
            let (along, across) = (along + sashes(blocks), across * rows.times + sashes(many));
            return if rows.are_columns { (across, along) } else { (along, across) };
        }
        let block = &self.blocks[top.block];
        let side = |count: i64, block: i64| {
            if !top.on_point {
                return count * block + sashes(count);
            }
            let edge = if top.edge == Edge::Whole { top.sashing } else { 0 };
            let across = count * (block + top.sashing) + edge;
            // The root of two times so much: the eighth that is nearest.
            let square = 2 * across * across;
            let mut root = 0;
            while (2 * root + 1) * (2 * root + 1) <= 4 * square {
                root += 1;
            }
            root
        };
        (side(top.across, block.width), side(top.down, block.height))
    }

    /// How long a block is along its row, and how much of the row's width it takes.
    pub(super) fn lies(&self, rows: &Rows, beside: Beside) -> (i64, i64) {
        let block = &self.blocks[beside.block];
        if beside.turned == rows.are_columns { (block.width, block.height) } else { (block.height, block.width) }
    }
}

fn random_unit(rng: &mut Rng, width: i64, height: i64) -> Unit {
    let short = width.min(height);
    let corners = |rng: &mut Rng, count: usize| (0..count).map(|_| rng.between(1, short)).collect::<Vec<_>>();
    let mut makes = vec![Make::Patch, Make::HalfRectangle, Make::Other];
    let alike = rng.between(1, 4);
    makes.push(Make::Snowball { corners: corners(rng, 1), alike: (alike < 4).then_some(alike) });
    makes.push(Make::Snowball {
        corners: {
            let count = rng.between(2, 4);
            corners(rng, usize::try_from(count).unwrap())
        },
        alike: None,
    });
    let strips = rng.between(2, 4);
    makes.push(Make::Strips(split(rng, width, usize::try_from(strips).unwrap())));
    if short >= 16 {
        makes.push(random_log_cabin(rng, width, height));
        makes.push(random_log_cabin(rng, width, height));
    }
    if width == height {
        let four_fabrics = rng.one_in(2);
        makes.extend([Make::HalfSquare, Make::QuarterSquare { four_fabrics }, Make::Split, Make::SquareInSquare]);
    }
    if width == 2 * height {
        makes.extend([Make::Geese, Make::Geese]);
    }
    let pick = usize::try_from(rng.below(i64::try_from(makes.len()).unwrap())).unwrap();
    Unit { make: makes.swap_remove(pick), width, height }
}

fn random_log_cabin(rng: &mut Rng, width: i64, height: i64) -> Make {
    let order = rng.pick(&["round", "opposite", "two_sides"]);
    let rounds = rng.between(1, 2);
    let per_way = usize::try_from(2 * rounds).unwrap();
    let center = (rng.between(2, width - 8), rng.between(2, height - 8));
    let beside = split(rng, width - center.0, per_way);
    let below = split(rng, height - center.1, per_way);
    let (mut beside, mut below) = (beside.into_iter(), below.into_iter());
    let at_side = |number: usize| if order == "opposite" { number % 4 < 2 } else { number.is_multiple_of(2) };
    let logs = (0..2 * per_way).map(|number| if at_side(number) { beside.next() } else { below.next() }.unwrap());
    Make::LogCabin { center, logs: logs.collect(), order }
}

impl Top {
    fn plain() -> Top {
        Top {
            on_point: false,
            across: 1,
            down: 1,
            block: 0,
            rows: None,
            sashing: 0,
            round: false,
            cornerstones: false,
            edge: Edge::Halves,
            sash_of: None,
            borders: Vec::new(),
            width: 0,
            height: 0,
        }
    }
}
