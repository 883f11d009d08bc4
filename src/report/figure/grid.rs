//! The grid of a figure: its unit, its width, how high letters and lines are.

/// A place on the figure: thousandths of a unit from its left and its top.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct At {
    pub(super) x: i64,
    pub(super) y: i64,
}

/// One unit, in thousandths.
pub(super) const UNIT: i64 = 1000;

/// How wide a figure is: it is printed 86 mm wide, two beside one another, so a unit is a 14th of a millimeter.
pub(super) const WIDTH: i64 = 1240 * UNIT;

/// How high letters are, 6 1/2 pt in print; the style has it too.
pub(super) const LETTER: i64 = 33 * UNIT;

/// From one line of text to the next.
pub(super) const LINE: i64 = 44 * UNIT;
