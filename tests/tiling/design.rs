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
    pub(super) width: i64,
    pub(super) corners: Corners,
    /// The unit that it is sewn from.
    pub(super) of: Option<usize>,
}

#[derive(Clone, Debug)]
pub(super) struct Top {
    pub(super) on_point: bool,
    pub(super) across: i64,
    pub(super) down: i64,
    /// The first block is everywhere; the second, where there is one, is the one of the inner rows.
    pub(super) block: usize,
    pub(super) sashing: i64,
    pub(super) round: bool,
    pub(super) cornerstones: bool,
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
        design.lay(rng);
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

    fn lay(&mut self, rng: &mut Rng) {
        let block = self.blocks.len() - 1;
        let (wide, high) = (self.blocks[block].width, self.blocks[block].height);
        let on_point = wide == high && rng.one_in(3);
        let sashing = if on_point || rng.one_in(2) { 0 } else { rng.between(4, 24) };
        let mut top = Top {
            on_point,
            across: rng.between(1, 4),
            down: rng.between(1, 4),
            block,
            sashing,
            round: sashing > 0 && rng.one_in(2),
            cornerstones: sashing > 0 && rng.one_in(2),
            ..Top::plain()
        };
        for _ in 0..rng.between(0, 3) {
            let corners = rng.pick(&[Corners::Butted, Corners::Mitered, Corners::Cornerstones]);
            let mut border = Border { width: rng.between(8, 40), corners, of: None };
            if !on_point && corners != Corners::Mitered && rng.one_in(2) {
                border.of = self.border_unit(rng, &top, &border);
            }
            top.borders.push(border);
        }
        (top.width, top.height) = top.plain_size(&self.blocks);
        self.top = top;
    }

    /// A unit of which a whole number lie along each side.
    fn border_unit(&mut self, rng: &mut Rng, top: &Top, border: &Border) -> Option<usize> {
        let (width, height) = top.plain_size(&self.blocks);
        let ends = if border.corners == Corners::Butted { width + 2 * border.width } else { width };
        let fits: Vec<i64> = (8..=80).filter(|each| ends % each == 0 && height % each == 0).collect();
        let each = (!fits.is_empty()).then(|| rng.pick(&fits))?;
        let (wide, high) = if rng.one_in(2) { (each, border.width) } else { (border.width, each) };
        let unit = random_unit(rng, wide, high);
        // One side alone is as wide as the border, or both are.
        self.units.push(unit);
        Some(self.units.len() - 1)
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
        let borders = Vec::new();
        let (on_point, round, cornerstones) = (false, false, false);
        Top { on_point, across: 1, down: 1, block: 0, sashing: 0, round, cornerstones, borders, width: 0, height: 0 }
    }

    /// How large it is; on point to the nearest eighth.
    pub(super) fn plain_size(&self, blocks: &[Block]) -> (i64, i64) {
        let around: i64 = self.borders.iter().map(|border| 2 * border.width).sum();
        let block = &blocks[self.block];
        let side = |count: i64, block: i64| {
            if self.on_point {
                // The root of two times so much: the eighth that is nearest.
                let square = 2 * (count * block) * (count * block);
                let mut root = 0;
                while (2 * root + 1) * (2 * root + 1) <= 4 * square {
                    root += 1;
                }
                return root + around;
            }
            let sashes = if self.round { count + 1 } else { count - 1 };
            count * block + sashes * self.sashing + around
        };
        (side(self.across, block.width), side(self.down, block.height))
    }
}
