//! A random quilt and what it takes, counted the way a maker counts: by drawing rows of blocks, laying pieces into strips
//! and sewing strips end to end.

use crate::independent::amounts::{CM, INCH, MM, Mark, Stated, YARD};
use crate::independent::backing_manuscript::{self, Sheet};
use crate::independent::manuscript::{self, Ends, Size};
use crate::support::rng::Rng;

pub(crate) const NAMES: [&str; 5] = ["mat", "crib", "throw", "twin", "queen"];
const SQUARING: i64 = INCH / 2;

/// What lengths are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Units {
    /// The manuscript's own unit.
    Own,
    /// The units of the other measure, each with its mark.
    Other,
    /// The units of the other measure, and the seam in those of the manuscript's own.
    Mixed,
}

/// A quilt of sashed blocks with borders, bound, backed and filled.
#[allow(clippy::struct_excessive_bools)] // Each is a choice of the pattern's own.
#[derive(Clone, Debug)]
pub(crate) struct Quilt {
    /// Whether its lengths are metric.
    pub(crate) metric: bool,
    pub(crate) units: Units,
    pub(crate) seam: i64,
    pub(crate) usable: i64,
    /// The step in which fabric is sold by the manuscript's own measure.
    pub(crate) step: i64,
    /// The finished side of a unit; a block is three by three of them.
    pub(crate) unit: i64,
    pub(crate) eight_at_a_time: bool,
    pub(crate) sashing: i64,
    pub(crate) round: bool,
    /// The width of the inner border, whose strips the text tells.
    pub(crate) inner: i64,
    pub(crate) diagonal: bool,
    /// The width of the outer border, and whether each of its sides is listed as a piece.
    pub(crate) outer: i64,
    pub(crate) listed: bool,
    pub(crate) fats: bool,
    /// The side of the squares that the middles are bought as.
    pub(crate) precut: Option<i64>,
    pub(crate) paired: bool,
    pub(crate) from: bool,
    pub(crate) sizes: Vec<Top>,
    binding: manuscript::Manuscript,
    backing: backing_manuscript::Manuscript,
}

/// The top of one size.
#[derive(Clone, Debug)]
pub(crate) struct Top {
    pub(crate) name: &'static str,
    pub(crate) across: i64,
    pub(crate) down: i64,
    pub(crate) stars: i64,
    pub(crate) along: bool,
}

/// How many strips it takes to lay so many pieces one at a time.
pub(crate) fn strips_for(pieces: i64, across: i64, run: i64) -> i64 {
    let (mut strips, mut room) = (0, 0);
    for _ in 0..pieces {
        if room < across {
            (strips, room) = (strips + 1, run);
        }
        room -= across;
    }
    strips
}

fn up_to(value: i64, step: i64) -> i64 {
    let mut amount = value / step * step;
    while amount < value {
        amount += step;
    }
    amount
}

impl Quilt {
    pub(crate) fn random(rng: &mut Rng, sizes: usize, units: Units) -> Quilt {
        let metric = rng.one_in(2);
        let grid = if metric { CM / 2 } else { INCH / 4 };
        let seam = if metric { rng.pick(&[6, 7, 10]) * MM } else { rng.pick(&[2, 2, 3]) * INCH / 8 };
        let seam = match units {
            Units::Mixed if metric => rng.pick(&[INCH / 4, 3 * INCH / 8]),
            Units::Mixed => rng.pick(&[6, 7, 10]) * MM,
            Units::Own | Units::Other => seam,
        };
        let usable = if metric { rng.between(200, 220) * CM / 2 } else { rng.between(80, 88) * INCH / 2 };
        let step = if metric { rng.pick(&[10 * CM, 25 * CM]) } else { rng.pick(&[YARD / 8, YARD / 4]) };
        let mut quilt = Quilt {
            metric,
            units,
            seam,
            usable,
            step,
            unit: 2 * rng.between(4, 11) * grid,
            eight_at_a_time: rng.one_in(2),
            sashing: if rng.one_in(3) { 0 } else { rng.between(4, 10) * grid },
            round: rng.one_in(2),
            inner: rng.between(4, 10) * grid,
            diagonal: rng.one_in(2),
            outer: if rng.one_in(3) { 0 } else { rng.between(10, 24) * grid },
            listed: false,
            // How large a fat quarter is goes by the manuscript's measure.
            fats: rng.one_in(3) && units == Units::Own,
            precut: None,
            paired: !metric && rng.one_in(3),
            from: rng.one_in(2),
            sizes: Vec::new(),
            binding: binding(metric, seam, usable, step),
            backing: backing(metric, usable, step),
        };
        let (mut across, mut down) = (rng.between(2, 3), rng.between(3, 4));
        for name in NAMES.into_iter().take(sizes) {
            let stars = rng.between(1, across * down - 1);
            quilt.sizes.push(Top { name, across, down, stars, along: rng.one_in(2) });
            (across, down) = (across + rng.between(0, 1), down + 1);
        }
        let squares = if metric { [25 * CM / 2, 25 * CM] } else { [5 * INCH, 10 * INCH] };
        quilt.precut = squares.into_iter().find(|side| *side >= quilt.patch(1)).filter(|_| rng.one_in(3));
        let all_long = quilt.sizes.iter().all(|top| {
            let (wide, high) = quilt.within_outer(top);
            wide.min(high) > quilt.usable
        });
        quilt.listed = quilt.outer > 0 && all_long;
        quilt
    }

    /// What kinds of manuscript this is one of.
    pub(crate) fn features(&self) -> Vec<&'static str> {
        let all = [
            (self.metric, "centimeters"),
            (!self.metric, "inches"),
            (self.from, "binding from a fabric"),
            (!self.from, "binding alone"),
            (self.fats, "fat quarters"),
            (self.precut.is_some(), "precut squares"),
            (self.listed, "border pieces from joined strips"),
            (self.paired, "amounts in yards and metric"),
            (self.sashing > 0 && self.round, "sashing round"),
            (self.sashing > 0 && !self.round, "sashing between"),
            (self.sashing == 0, "no sashing"),
            (self.sizes.len() == 1, "one size"),
            (self.sizes.len() == 2, "two sizes"),
            (self.sizes.len() == 5, "five sizes"),
        ];
        all.into_iter().filter(|(is, _)| *is).map(|(_, name)| name).collect()
    }

    pub(crate) fn ruler(&self) -> i64 {
        if self.metric { MM } else { INCH / 8 }
    }

    /// A square of so many units, with its seams.
    pub(crate) fn patch(&self, units: i64) -> i64 {
        units * self.unit + 2 * self.seam
    }

    /// What the square of a half-square triangle lacks of its true size, doubled and squared: none if it is enough.
    fn is_enough_for_triangle(&self, side: i64) -> bool {
        let sets = if self.eight_at_a_time { 2 } else { 1 };
        let beyond = side - sets * (self.unit + 2 * self.seam);
        // The root of two times the seam, for each set.
        beyond >= 0 && beyond * beyond >= 2 * sets * sets * self.seam * self.seam
    }

    pub(crate) fn triangle_square(&self) -> i64 {
        let mut side = 0;
        while !self.is_enough_for_triangle(side) {
            side += self.ruler();
        }
        side
    }

    /// Whether a mark less on the ruler is still within the 64th that printed sizes are off by.
    pub(crate) fn triangle_has_room(&self) -> bool {
        self.is_enough_for_triangle(self.triangle_square() - self.ruler() + INCH / 64)
    }

    pub(crate) fn triangle_squares(&self, top: &Top) -> i64 {
        strips_for(4 * top.stars, 1, if self.eight_at_a_time { 8 } else { 2 })
    }

    /// How many segments one strip gives.
    pub(crate) fn segments(&self) -> i64 {
        let (mut count, mut long) = (0, self.patch(1));
        while long <= self.usable {
            (count, long) = (count + 1, long + self.patch(1));
        }
        count
    }

    pub(crate) fn rail_strips(&self, top: &Top) -> i64 {
        strips_for(4 * top.stars, 1, self.segments())
    }

    pub(crate) fn plain(top: &Top) -> i64 {
        top.across * top.down - top.stars
    }

    /// How many sashes and cornerstones, drawn line by line.
    pub(crate) fn sashes(&self, top: &Top) -> (i64, i64) {
        let (mut sashes, mut stones) = (0, 0);
        let drawn = |place: i64, most: i64| self.round || (place > 0 && place < most);
        for row in 0..=top.down {
            for column in 0..=top.across {
                let (above, left) = (drawn(row, top.down), drawn(column, top.across));
                sashes += i64::from(above && column < top.across) + i64::from(left && row < top.down);
                stones += i64::from(above && left);
            }
        }
        (sashes, stones)
    }

    /// The top inside its borders.
    fn inside(&self, top: &Top) -> Sheet {
        let side = |blocks: i64| {
            let lines = if self.round { blocks + 1 } else { blocks - 1 };
            (0..blocks).map(|_| 3 * self.unit).sum::<i64>() + (0..lines).map(|_| self.sashing).sum::<i64>()
        };
        (side(top.across), side(top.down))
    }

    pub(crate) fn within_outer(&self, top: &Top) -> Sheet {
        let (wide, high) = self.inside(top);
        (self.inner + wide + self.inner, self.inner + high + self.inner)
    }

    pub(crate) fn finished(&self, top: &Top) -> Sheet {
        let (wide, high) = self.within_outer(top);
        (self.outer + wide + self.outer, self.outer + high + self.outer)
    }

    /// The fewest strips for these lengths, sewn one after another in any order of sides and ends.
    fn joined(&self, side: i64, end: i64, loss: i64) -> i64 {
        let (s, e) = (side, end);
        [[s, s, e, e], [s, e, s, e], [s, e, e, s], [e, s, s, e], [e, s, e, s], [e, e, s, s]]
            .iter()
            .map(|order| self.sewn(order, loss))
            .min()
            .unwrap()
    }

    pub(crate) fn sewn(&self, order: &[i64], loss: i64) -> i64 {
        let (mut strips, mut rest) = (0, 0);
        for run in order {
            if rest < *run {
                let mut have = if rest > loss { rest } else { 0 };
                while have < *run {
                    have += if have > 0 { self.usable - loss } else { self.usable };
                    strips += 1;
                }
                rest = have;
            }
            rest -= run;
        }
        strips
    }

    pub(crate) fn inner_strips(&self, top: &Top) -> i64 {
        let (wide, high) = self.inside(top);
        let s = 2 * self.seam;
        let loss = if self.diagonal { self.inner + s } else { s };
        self.joined(high + s, wide + 2 * self.inner + s, loss)
    }

    pub(crate) fn outer_strips(&self, top: &Top) -> i64 {
        let (wide, high) = self.within_outer(top);
        self.joined(high + 2 * self.seam, wide + 2 * self.seam, 2 * self.seam)
    }

    pub(crate) fn mark(&self) -> Mark {
        if self.metric { Mark::Cm } else { Mark::Yard }
    }

    /// What to buy of a fabric of which so much is cut.
    pub(crate) fn buy(&self, cut: i64) -> i64 {
        up_to(cut + SQUARING, self.step)
    }

    /// The other half of a pair, by the step that metric shops use.
    pub(crate) fn buy_metric(cut: i64) -> i64 {
        up_to(cut + SQUARING, 10 * CM)
    }

    /// The narrowest binding that covers the seam.
    pub(crate) fn binding_width(&self) -> i64 {
        self.binding.width.value
    }

    fn bound(&self, top: &Top) -> Size {
        let (width, length) = self.finished(top);
        let finished = String::new();
        Size { name: top.name, width, length, finished, strips: None, fabric: None, strip_length: None }
    }

    /// Strips that go around, and a spare.
    pub(crate) fn binding_strips(&self, top: &Top) -> i64 {
        self.binding.needed(&self.bound(top)) + 1
    }

    /// Panels and fabric of the backing.
    pub(crate) fn backing(&self, top: &Top) -> (i64, i64) {
        let quilt = self.finished(top);
        let along = Some(top.along);
        let size = backing_manuscript::Size { name: top.name, quilt, fabric: None, panels: None, along, batting: None };
        let laid = self.backing.laid(&size, self.backing.sheet(&size));
        (laid.panels, self.backing.buy(laid.fabric, self.mark()))
    }

    /// A measure of the method: 4 in or 10 cm for 4.
    pub(crate) fn inches(&self, inches: i64) -> i64 {
        if self.metric { inches * 5 * CM / 2 } else { inches * INCH }
    }
}

fn stated(value: i64) -> Stated {
    Stated { value, mark: Mark::Inch, text: String::new() }
}

fn binding(metric: bool, seam: i64, usable: i64, step: i64) -> manuscript::Manuscript {
    let (tail, opening) = if metric { (20 * CM, 20 * CM) } else { (8 * INCH, 8 * INCH) };
    let mark = if metric { Mark::Cm } else { Mark::Yard };
    let mut binding = manuscript::Manuscript {
        metric,
        usable_in_assumes: Some(stated(usable)),
        usable_in_binding: None,
        sold_by: Some(Stated { value: step, mark, text: String::new() }),
        width: stated(0),
        fold: None,
        join: None,
        grain: None,
        finish: None,
        seam: Some(stated(seam)),
        loft: None,
        ends: Ends::Both(stated(tail)),
        opening: Some(stated(opening)),
        strip_length: None,
        sizes: Vec::new(),
    };
    binding.width.value = binding.narrowest(Mark::bare(metric));
    binding
}

fn backing(metric: bool, usable: i64, step: i64) -> backing_manuscript::Manuscript {
    backing_manuscript::Manuscript {
        metric,
        sold_by: Some(step),
        usable_in_assumes: Some(stated(usable)),
        usable: None,
        overhang: Some(stated(if metric { 10 * CM } else { 4 * INCH })),
        seam: None,
        directional: None,
        batting_overhang: None,
        sizes: Vec::new(),
    }
}
