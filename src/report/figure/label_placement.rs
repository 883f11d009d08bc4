//! What is taken on a figure already, so that no label lies on another, and no line crosses one.
//!
//! Every label asks for room before it is placed. Of what lies too near one another, only the table beneath the figure
//! has the numbers.

use super::scene::{At, LETTER, UNIT};
use super::words::wide;

/// A box on the figure.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taken {
    pub(super) left: i64,
    pub(super) top: i64,
    pub(super) right: i64,
    pub(super) bottom: i64,
}

impl Taken {
    /// A box about its middle.
    pub(super) const fn about(middle: At, width: i64, height: i64) -> Taken {
        Taken {
            left: middle.x - width / 2,
            right: middle.x + width / 2,
            top: middle.y - height / 2,
            bottom: middle.y + height / 2,
        }
    }

    /// The box of a text about its middle.
    pub(super) fn of_text(text: &str, middle: At) -> Taken {
        Taken::about(middle, wide(text) + 8 * UNIT, LETTER + 6 * UNIT)
    }

    const fn touches(&self, other: &Taken) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether a line goes through it: it reaches the box, and has corners of it on both sides.
    fn is_crossed(&self, (from, to): Line) -> bool {
        let reaches = from.x.min(to.x) < self.right
            && from.x.max(to.x) > self.left
            && from.y.min(to.y) < self.bottom
            && from.y.max(to.y) > self.top;
        let side = |x: i64, y: i64| {
            let (along, beside) = ((to.x - from.x, to.y - from.y), (x - from.x, y - from.y));
            (i128::from(along.0) * i128::from(beside.1) - i128::from(along.1) * i128::from(beside.0)).signum()
        };
        let corners =
            [(self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)];
        let sides = corners.map(|(x, y)| side(x, y));
        reaches && !(sides.iter().all(|side| *side > 0) || sides.iter().all(|side| *side < 0))
    }

    const fn holds(&self, other: &Taken) -> bool {
        self.left <= other.left && self.right >= other.right && self.top <= other.top && self.bottom >= other.bottom
    }
}

/// A straight line on the figure, from one place to another.
pub(super) type Line = (At, At);

/// The room on a figure for labels: inside a box, and round it.
#[derive(Clone, Debug)]
pub(super) struct LabelPlacement {
    bounds: Taken,
    page: Taken,
    taken: Vec<Taken>,
    lines: Vec<Line>,
}

impl LabelPlacement {
    pub(super) const fn new(bounds: Taken) -> LabelPlacement {
        LabelPlacement { bounds, page: bounds, taken: Vec::new(), lines: Vec::new() }
    }

    /// With room round the box, as far as a page reaches.
    pub(super) const fn on_page(bounds: Taken, page: Taken) -> LabelPlacement {
        LabelPlacement { bounds, page, taken: Vec::new(), lines: Vec::new() }
    }

    pub(super) fn take(&mut self, taken: Taken) {
        self.taken.push(taken);
    }

    /// Takes what a line goes through.
    pub(super) fn take_line(&mut self, line: Line) {
        self.lines.push(line);
    }

    /// Whether a line crosses nothing that is taken.
    pub(super) fn is_clear(&self, line: Line) -> bool {
        !self.taken.iter().any(|taken| taken.is_crossed(line))
    }

    /// Takes a box within the bounds if nothing is in it.
    pub(super) fn try_take(&mut self, wanted: Taken) -> bool {
        self.bounds.holds(&wanted) && self.take_free(wanted)
    }

    /// Takes a box on the page outside of the bounds if nothing is in it.
    pub(super) fn try_take_outside(&mut self, wanted: Taken) -> bool {
        self.page.holds(&wanted) && !self.bounds.touches(&wanted) && self.take_free(wanted)
    }

    fn take_free(&mut self, wanted: Taken) -> bool {
        let free = !self.taken.iter().any(|taken| taken.touches(&wanted))
            && !self.lines.iter().any(|line| wanted.is_crossed(*line));
        if free {
            self.taken.push(wanted);
        }
        free
    }
}

/// The foot of a text whose middle is at a place.
pub(super) const fn foot(middle: At) -> At {
    At { x: middle.x, y: middle.y + LETTER * 7 / 20 }
}

#[cfg(test)]
mod tests {
    use super::{At, LabelPlacement, Taken};

    const fn at(x: i64, y: i64) -> At {
        At { x, y }
    }

    #[test]
    fn no_label_is_put_where_a_line_goes_and_no_line_is_clear_that_crosses_a_label() {
        let mut room = LabelPlacement::new(Taken { left: 0, top: 0, right: 100, bottom: 100 });
        room.take_line((at(0, 0), at(100, 100)));
        assert!(!room.try_take(Taken::about(at(50, 50), 10, 10)));
        assert!(!room.try_take(Taken::about(at(50, 58), 10, 10)), "its corner is on the line");
        assert!(room.try_take(Taken::about(at(70, 30), 20, 20)));
        assert!(!room.is_clear((at(50, 10), at(90, 50))));
        assert!(room.is_clear((at(10, 90), at(55, 45))), "it ends before the label");
    }
}
