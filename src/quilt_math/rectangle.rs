//! Rectangles: a backing, a batting, the top of a mattress.

use crate::quantity::Length;

/// A width and a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rectangle {
    /// The width.
    pub width: Length,
    /// The length.
    pub length: Length,
}

/// How far a layer reaches beyond a quilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Overhang {
    /// At its left and its right.
    pub across: Length,
    /// At its top and its bottom.
    pub down: Length,
}

impl Overhang {
    /// The same at each of the four sides.
    pub const fn even(by: Length) -> Overhang {
        Overhang { across: by, down: by }
    }
}

impl Rectangle {
    /// A width and a length.
    pub const fn new(width: Length, length: Length) -> Rectangle {
        Rectangle { width, length }
    }

    /// Larger by so much at each of its four sides.
    #[must_use]
    pub fn with_overhang(self, overhang: Length) -> Rectangle {
        Rectangle { width: self.width + overhang * 2, length: self.length + overhang * 2 }
    }

    /// Larger by an overhang.
    #[must_use]
    pub fn with(self, overhang: Overhang) -> Rectangle {
        Rectangle { width: self.width + overhang.across * 2, length: self.length + overhang.down * 2 }
    }

    /// The same with its width for its length.
    #[must_use]
    pub const fn turned(self) -> Rectangle {
        Rectangle { width: self.length, length: self.width }
    }

    /// The shorter side and the longer.
    pub fn sides(self) -> (Length, Length) {
        (self.width.min(self.length), self.width.max(self.length))
    }

    /// Whether another lies on this one, the way round that suits it.
    pub fn holds(self, other: Rectangle) -> bool {
        let ((short, long), (other_short, other_long)) = (self.sides(), other.sides());
        short >= other_short && long >= other_long
    }

    /// The smallest that covers both, each as it lies.
    #[must_use]
    pub fn and(self, other: Rectangle) -> Rectangle {
        Rectangle { width: self.width.max(other.width), length: self.length.max(other.length) }
    }

    /// Turned so that its longer side lies the way that the other's does.
    #[must_use]
    pub fn lying_as(self, other: Rectangle) -> Rectangle {
        let upright = |rectangle: Rectangle| rectangle.width <= rectangle.length;
        if upright(self) == upright(other) { self } else { self.turned() }
    }
}
