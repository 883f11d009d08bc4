//! Places and outlines of a quilt top, exactly: plain lengths, and on point lengths that count times the root of two.

use std::fmt::{self, Display};

use serde::{Serialize, Serializer};

use crate::quantity::Length;
use crate::quilt_math::layout::Side;
use crate::quilt_math::outline::Point;

/// A place: how far from the left and from the top.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// Across, from the left.
    pub across: Side,
    /// Down, from the top.
    pub down: Side,
}

/// The corners of a part in turn. In the JSON they are one text: `0,0 12,0 12,12 0,12`, in inches, and on point with
/// lengths such as `6√2` and `3+6√2`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outline(pub Vec<Place>);

impl Place {
    /// A place by plain lengths.
    pub const fn plain(across: Length, down: Length) -> Place {
        Place { across: Side::straight(across), down: Side::straight(down) }
    }

    /// So far from another.
    #[must_use]
    pub fn plus(self, other: Place) -> Place {
        Place { across: sum(self.across, other.across), down: sum(self.down, other.down) }
    }
}

impl Outline {
    /// The outline of a piece in its unit.
    pub fn of_points(points: &[Point]) -> Outline {
        Outline(points.iter().map(|point| Place::plain(point.across, point.down)).collect())
    }

    /// A rectangle between two corners, clockwise from the top left.
    pub fn rectangle(from: Place, to: Place) -> Outline {
        Outline(vec![
            from,
            Place { across: to.across, down: from.down },
            to,
            Place { across: from.across, down: to.down },
        ])
    }

    /// The same, so far from there.
    #[must_use]
    pub fn moved(&self, by: Place) -> Outline {
        Outline(self.0.iter().map(|place| place.plus(by)).collect())
    }
}

/// Two lengths together.
pub fn sum(one: Side, other: Side) -> Side {
    Side { straight: one.straight + other.straight, diagonal: one.diagonal + other.diagonal }
}

/// So many inches, exactly: `5/2`, `6√2`, `5/2+6√2`.
pub fn exact_inches(side: Side) -> String {
    let number = |length: Length| {
        let (top, over) = length.in_inches();
        if over == 1 { top.to_string() } else { format!("{top}/{over}") }
    };
    match (side.straight == Length::ZERO, side.diagonal == Length::ZERO) {
        (_, true) => number(side.straight),
        (true, false) => format!("{}√2", number(side.diagonal)),
        (false, false) => {
            let sign = if side.diagonal.is_negative() { "" } else { "+" };
            format!("{}{sign}{}√2", number(side.straight), number(side.diagonal))
        }
    }
}

impl Display for Outline {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (number, place) in self.0.iter().enumerate() {
            let gap = if number == 0 { "" } else { " " };
            write!(f, "{gap}{},{}", exact_inches(place.across), exact_inches(place.down))?;
        }
        Ok(())
    }
}

impl Serialize for Outline {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
