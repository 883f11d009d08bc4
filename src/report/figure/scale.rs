//! From lengths to places on a figure, in whole numbers.

use super::grid::{At, UNIT};
use crate::quantity::Length;
use crate::quilt_math::outline::Point;

/// How large a figure is drawn: so many 1024ths of an inch to a unit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    parts: i128,
}

/// The ticks of a 1024th of an inch.
const PART: i128 = Length::TICKS_PER_INCH / 1024;

impl Scale {
    /// The largest scale at which a width and a height fit into the room that there is.
    pub(super) fn fit((width, height): (Length, Length), (room_wide, room_high): (i64, i64)) -> Scale {
        let parts = |length: Length, room: i64| {
            let ticks = length.ticks().max(0) * i128::from(UNIT);
            let room = (i128::from(room.max(UNIT))) * PART;
            (ticks + room - 1) / room
        };
        Scale { parts: parts(width, room_wide).max(parts(height, room_high)).max(1) }
    }

    /// A length on the figure.
    pub(super) fn of(self, length: Length) -> i64 {
        i64::try_from(length.ticks() * i128::from(UNIT) / (self.parts * PART)).unwrap_or_default()
    }

    /// What a unit stands for: `7/1024`.
    pub(super) fn label(self) -> String {
        format!("{}/1024", self.parts)
    }
}

/// A scale with the place at which a figure's own corner lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlacedScale {
    pub(super) scale: Scale,
    pub(super) corner: At,
    pub(super) from: Point,
}

impl PlacedScale {
    pub(super) fn at(&self, point: Point) -> At {
        At {
            x: self.corner.x + self.scale.of(point.across - self.from.across),
            y: self.corner.y + self.scale.of(point.down - self.from.down),
        }
    }
}

/// A number of thousandths as a decimal: `12.5`.
pub(super) fn decimal(thousandths: i64) -> String {
    let sign = if thousandths < 0 { "-" } else { "" };
    let (whole, rest) = (thousandths.abs() / UNIT, thousandths.abs() % UNIT);
    let rest = format!("{rest:03}");
    match rest.trim_end_matches('0') {
        "" => format!("{sign}{whole}"),
        rest => format!("{sign}{whole}.{rest}"),
    }
}

/// The way from one place to another, so long; nothing where both are one.
pub(super) fn toward(from: At, to: At, long: i64) -> (i64, i64) {
    along((to.x - from.x, to.y - from.y), long)
}

/// A direction made so long.
pub(super) fn along((x, y): (i64, i64), long: i64) -> (i64, i64) {
    let (x, y, long) = (i128::from(x), i128::from(y), i128::from(long));
    let whole = i128::try_from((x * x + y * y).unsigned_abs().isqrt()).unwrap_or(1).max(1);
    let part = |way: i128| i64::try_from(way * long / whole).unwrap_or_default();
    (part(x), part(y))
}
