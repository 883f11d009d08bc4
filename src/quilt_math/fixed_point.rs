//! Lengths that are no fraction: diagonals and arcs, as whole ticks rounded to the side that is asked for.
//!
//! Integer arithmetic throughout. A tick is about 35 picometres, so the rounding is far below any ruler's mark.
//!
//! Circles, scallops, diagonals and bias need roots and pi, which no count of ticks is exactly. Each is computed as the
//! tick above the true length where it is needed and the tick below where it is had, so that rounding never calls a
//! short number enough.

use crate::quantity::Length;

/// The side to which a length that is no fraction is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Never more than the true length: for what there is.
    Below,
    /// Never less than the true length: for what is needed.
    Above,
}

/// The length whose square is `square` square ticks.
pub fn root(square: i128, side: Side) -> Length {
    let square = square.max(0).unsigned_abs();
    let below = square.isqrt();
    let exact = below * below == square;
    let ticks = if exact || side == Side::Below { below } else { below + 1 };
    Length::from_ticks(i128::try_from(ticks).unwrap_or(i128::MAX))
}

/// The diagonal of a square of this side: the length times the root of two.
pub fn diagonal(length: Length, side: Side) -> Length {
    hypotenuse(length, length, side)
}

/// The straight line between two points that are so far apart across and along.
pub fn hypotenuse(across: Length, along: Length, side: Side) -> Length {
    root(across.ticks() * across.ticks() + along.ticks() * along.ticks(), side)
}

/// All the way round a circle, never less than the true length.
pub fn circumference(diameter: Length) -> Length {
    // 355/113 is above pi by less than one part in ten million: a thousandth of an inch on the largest circle.
    let ticks = diameter.ticks() * 355;
    Length::from_ticks(ticks.div_euclid(113) + i128::from(ticks.rem_euclid(113) != 0))
}

/// One unit of the fixed-point numbers below.
pub(crate) const ONE: i128 = 1 << 56;

/// The arc over a chord that rises `depth` above it, never less than the true length; the depth may be half the
/// chord at most, which makes half a circle.
///
/// With x = 2 depth / chord, a quarter of the arc's angle has the tangent x, and so the arc is
/// (chord^2 + 4 depth^2) / (2 depth) x atan(x). Plain geometry of the circle.
pub fn arc(chord: Length, depth: Length) -> Length {
    let (c, h) = (chord.ticks(), depth.ticks().min(chord.ticks() / 2));
    if h <= 0 || c <= 0 {
        return chord;
    }
    let twice_diameter = (c * c + 4 * h * h) / (2 * h) + 1;
    let angle = arctangent((2 * h * ONE) / c + 1);
    // The product is the arc in fixed point: below 2^100 for every length that a manuscript may state.
    Length::from_ticks(twice_diameter * angle / ONE + 1)
}

/// The angle whose tangent is `x`, for x from 0 to 1, in fixed point and never less than the true one.
pub(crate) fn arctangent(x: i128) -> i128 {
    let half = ONE / 2;
    if x <= half {
        return series(x);
    }
    // atan(x) = atan(1/2) + atan((x - 1/2) / (1 + x/2)), which keeps the series short.
    let rest = (x - half) * ONE / (ONE + x / 2) + 1;
    series(half) + series(rest)
}

/// x - x^3/3 + x^5/5 - ..., ended after a term that is added, so that the sum is not below the true value.
fn series(x: i128) -> i128 {
    let square = x * x / ONE;
    let (mut power, mut sum, mut odd) = (x, x, 1);
    while power > 0 {
        power = power * square / ONE;
        sum -= power / (odd + 2);
        power = power * square / ONE;
        sum += power / (odd + 4) + 1;
        odd += 4;
    }
    sum
}
