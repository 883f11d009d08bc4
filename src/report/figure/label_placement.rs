//! What is taken on a figure already, so that no label lies on another.
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

    const fn holds(&self, other: &Taken) -> bool {
        self.left <= other.left && self.right >= other.right && self.top <= other.top && self.bottom >= other.bottom
    }
}

/// The room on a figure for labels: inside a box, and round it.
#[derive(Clone, Debug)]
pub(super) struct LabelPlacement {
    bounds: Taken,
    page: Taken,
    taken: Vec<Taken>,
}

impl LabelPlacement {
    pub(super) const fn new(bounds: Taken) -> LabelPlacement {
        LabelPlacement { bounds, page: bounds, taken: Vec::new() }
    }

    /// With room round the box, as far as a page reaches.
    pub(super) const fn on_page(bounds: Taken, page: Taken) -> LabelPlacement {
        LabelPlacement { bounds, page, taken: Vec::new() }
    }

    pub(super) fn take(&mut self, taken: Taken) {
        self.taken.push(taken);
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
        let free = !self.taken.iter().any(|taken| taken.touches(&wanted));
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
