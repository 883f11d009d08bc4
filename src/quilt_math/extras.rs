//! What is sewn on or made besides the quilt: a hanging sleeve, prairie points, the back of a pillow. Plain geometry.

use crate::quantity::{Count, Length};

/// How wide the strip of a sleeve is cut that is so deep when it is sewn to a tube: 2 D + 2 s. A sleeve 4 in deep is cut
/// 8 1/2 in wide (International Quilt Association, Instructions for making sleeves).
pub fn sleeve_width(depth: Length, seam: Length) -> Length {
    depth * 2 + seam * 2
}

/// How deep a sleeve is of which the strip is cut so wide: half of what a seam at each edge leaves.
pub fn sleeve_depth(width: Length, seam: Length) -> Length {
    (width - seam * 2).max(Length::ZERO).half()
}

/// How wide a prairie point is at the seam: the square less a seam at each side.
pub fn point_base(square: Length, seam: Length) -> Length {
    square - seam * 2
}

/// The fewest prairie points that cover a side without a gap: (n - 1) p + base is at least the side, with p the base
/// less the overlap; `None` where a point adds nothing.
pub fn points_for(side: Length, base: Length, overlap: Length) -> Option<Count> {
    let pitch = base - overlap;
    if !pitch.is_positive() || !base.is_positive() {
        return None;
    }
    Some((side - base).covered_by(pitch)? + Count(1))
}

/// The fewest prairie points that cover a round edge without a gap: n p is at least its length; `None` where a point adds
/// nothing.
pub fn points_around(length: Length, base: Length, overlap: Length) -> Option<Count> {
    length.covered_by(base - overlap).filter(|_| base.is_positive())
}

/// How far two pieces of a back overlap when they are hemmed: both together, less the hems and the pillow with its seams.
pub fn pillow_overlap((first, second): (Length, Length), hem: Length, pillow: Length) -> Length {
    first + second - hem * 2 - pillow
}
