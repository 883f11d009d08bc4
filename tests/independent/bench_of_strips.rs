//! The computation again, done the way a maker does it: lay strips end to end, lay them on the bolt, ask the shop
//! for one step more, walk the fold around the edge. Nothing here divides where it can count, and nothing is shared
//! with the program's own formulas.

use crate::independent::amounts::{INCH, Mark, Round, TENTH_OF_MM, YARD, printed};
use crate::independent::manuscript::{Ends, Loft, Manuscript, Size};

/// The values that hold where a manuscript states none, restated from the trade's reference.
const USABLE_WIDTH: i64 = 40 * INCH;
const TAKE_UP: i64 = INCH / 2;
const TAIL: i64 = 10 * INCH;
const OPENING: i64 = 12 * INCH;
const STRAIGHT_JOIN_SEAM: i64 = INCH / 4;
const SEAM: i64 = INCH / 4;
pub(crate) const SQUARING: i64 = INCH / 2;
pub(crate) const CLEAR_OF_CORNER: i64 = 3 * INCH;
const JOIN_CLEAR: i64 = INCH;
const MAX_REACH: i64 = INCH / 2;
pub(crate) const SPARES: i64 = 1;

impl Manuscript {
    pub(crate) fn usable(&self) -> i64 {
        self.usable_in_binding.as_ref().or(self.usable_in_assumes.as_ref()).map_or(USABLE_WIDTH, |stated| stated.value)
    }

    pub(crate) fn lengthwise(&self) -> bool {
        self.grain == Some("lengthwise")
    }

    pub(crate) fn seam(&self) -> i64 {
        self.seam.as_ref().map_or(SEAM, |seam| seam.value)
    }

    pub(crate) fn loft(&self) -> i64 {
        match &self.loft {
            None | Some(Loft::Low) => INCH / 16,
            Some(Loft::Medium) => INCH / 8,
            Some(Loft::High) => INCH / 4,
            Some(Loft::Measured(loft)) => loft.value,
        }
    }

    /// What one join takes from the two strips that it joins.
    pub(crate) fn join(&self) -> i64 {
        if self.join == Some("straight") { STRAIGHT_JOIN_SEAM + STRAIGHT_JOIN_SEAM } else { self.width.value }
    }

    /// The opening, where the method has one.
    pub(crate) fn opening(&self) -> Option<i64> {
        match (&self.opening, &self.ends) {
            (Some(opening), _) => Some(opening.value),
            (None, Ends::Extra(_)) => None,
            (None, _) => Some(OPENING),
        }
    }

    /// The two tails, where the method has tails.
    pub(crate) fn tails(&self) -> Option<(i64, i64)> {
        match &self.ends {
            Ends::Unstated => Some((TAIL, TAIL)),
            Ends::Both(tail) => Some((tail.value, tail.value)),
            Ends::Each(start, end) => Some((start.value, end.value)),
            Ends::Extra(_) => None,
        }
    }

    pub(crate) fn strip_length(&self, size: &Size) -> i64 {
        let stated = size.strip_length.as_ref().or(self.strip_length.as_ref());
        stated.map_or_else(|| self.usable(), |stated| stated.value)
    }

    /// The least that goes around, corners and all, and can be closed: one join more.
    pub(crate) fn bare(&self, size: &Size) -> i64 {
        let round: i64 = [size.width, size.length, size.width, size.length].iter().map(|side| side + TAKE_UP).sum();
        round + self.join()
    }

    /// What the pattern asks for.
    pub(crate) fn asked(&self, size: &Size) -> i64 {
        let bare = self.bare(size);
        let asked = match (&self.ends, self.tails(), self.opening()) {
            (Ends::Extra(extra), ..) => size.width + size.length + size.width + size.length + extra.value,
            (_, Some((start, end)), Some(opening)) => start + (bare - self.join() - opening) + end,
            _ => unreachable!("a method has tails and an opening, or an extra length"),
        };
        if asked < bare { bare } else { asked }
    }

    /// So many strips joined end to end, one after another.
    pub(crate) fn laid(&self, size: &Size, strips: i64) -> i64 {
        let mut laid = 0;
        for strip in 0..strips {
            laid += self.strip_length(size);
            if strip > 0 {
                laid -= self.join();
            }
        }
        laid
    }

    /// How many strips reach: one more until they do.
    pub(crate) fn needed(&self, size: &Size) -> i64 {
        let asked = self.asked(size);
        let (mut strips, mut laid) = (1, self.strip_length(size));
        while laid < asked {
            strips += 1;
            laid += self.strip_length(size) - self.join();
        }
        strips
    }

    /// How much of the bolt so many strips take: each goes beside the last one, or starts a new row.
    pub(crate) fn cut(&self, size: &Size, strips: i64) -> i64 {
        let (across, along) = if self.lengthwise() {
            (self.width.value, self.strip_length(size))
        } else {
            (self.strip_length(size), self.width.value)
        };
        let (mut bolt, mut room) = (0, 0);
        for _ in 0..strips {
            if room < across {
                bolt += along;
                room = self.usable();
            }
            room -= across;
        }
        bolt
    }

    /// The strips that fabric is cut for: those stated, or those that should be.
    pub(crate) fn strips_to_cut(&self, size: &Size) -> i64 {
        size.strips.unwrap_or_else(|| self.needed(size) + SPARES)
    }

    /// The step in which a shop sells an amount with such a mark.
    pub(crate) fn step(&self, mark: Mark) -> i64 {
        match &self.sold_by {
            Some(sold_by) if sold_by.mark.metric() == mark.metric() => sold_by.value,
            _ if mark.metric() => 1000 * TENTH_OF_MM,
            _ => YARD / 8,
        }
    }

    /// What to buy: one step more until it is enough.
    pub(crate) fn buy(&self, cut: i64, mark: Mark) -> i64 {
        let mut amount = 0;
        while amount < cut + SQUARING {
            amount += self.step(mark);
        }
        amount
    }

    /// How much of the folded strip is left when it has gone over the edge to the stitching on the other side.
    pub(crate) fn reach(&self) -> i64 {
        let (seam, loft) = (self.seam(), self.loft());
        // Raw edge to stitching, stitching to edge, around the edge, edge to stitching.
        let walk = [seam, seam, loft, seam];
        let folded = match self.fold {
            Some("single") => self.width.value - seam,
            _ => self.width.value / 2,
        };
        walk.iter().fold(folded, |rest, step| rest - step)
    }

    pub(crate) fn cover(&self) -> i64 {
        if self.finish == Some("ditch") { INCH / 8 } else { INCH / 16 }
    }

    pub(crate) fn hollow(&self) -> bool {
        self.reach() > MAX_REACH
    }

    /// The step of the rulers that a width is cut with.
    pub(crate) fn ruler(mark: Mark) -> i64 {
        if mark.metric() { 10 * TENTH_OF_MM } else { INCH / 8 }
    }

    /// The narrowest width on the ruler that covers, found by trying one mark after another.
    pub(crate) fn narrowest(&self, mark: Mark) -> i64 {
        let mut trial = self.clone();
        trial.width.value = 0;
        while trial.reach() < self.cover() {
            trial.width.value += Manuscript::ruler(mark);
        }
        trial.width.value
    }

    /// Whether the opening fits on a side of the size.
    pub(crate) fn opening_fits(&self, size: &Size) -> bool {
        let longest = size.width.max(size.length);
        self.opening().is_none_or(|opening| CLEAR_OF_CORNER + opening + CLEAR_OF_CORNER <= longest)
    }

    /// Whether a join lands too near a corner: strips are laid along the edge from the first stitch on, which is in
    /// the middle of the longest side or as far on as the opening behind it needs.
    pub(crate) fn join_near_corner(&self, size: &Size) -> bool {
        let (Some((start, _)), Some(opening)) = (self.tails(), self.opening()) else { return false };
        if !self.opening_fits(size) {
            return false;
        }
        let (long, short) = (size.width.max(size.length), size.width.min(size.length));
        let behind = (long / 2).max(CLEAR_OF_CORNER + opening);
        // Twice every distance, so that the middle of a join is whole.
        let mut corners = Vec::new();
        let mut walked = 2 * (long - behind);
        for side in [short, long, short, behind - opening] {
            corners.push(walked..=walked + 2 * TAKE_UP);
            walked += 2 * TAKE_UP + 2 * side;
        }
        let last_stitch = walked;
        let mut strip_end = 2 * (self.strip_length(size) - start);
        loop {
            let middle = strip_end - self.join();
            if middle > last_stitch {
                return false;
            }
            let near = |corner: &std::ops::RangeInclusive<i64>| {
                middle >= corner.start() - 2 * JOIN_CLEAR && middle <= corner.end() + 2 * JOIN_CLEAR
            };
            if middle >= 0 && corners.iter().any(near) {
                return true;
            }
            strip_end += 2 * (self.strip_length(size) - self.join());
        }
    }

    pub(crate) fn print(&self, value: i64, round: Round) -> String {
        printed(value, self.metric, round)
    }
}
