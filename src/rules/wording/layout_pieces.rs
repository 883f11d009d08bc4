//! The pieces that a layout takes beside its blocks: what each is for, how large it is cut, and how many there are.

use crate::manuscript::Field;
use crate::manuscript::design::PieceRef;
use crate::quantity::{Count, Length};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};

/// A piece that a layout takes.
pub(in crate::rules) struct LayoutPiece<'m> {
    /// The word of the format that names it.
    pub(in crate::rules) word: &'static str,
    /// What is cut from it, in words: `cornerstones`.
    pub(in crate::rules) what: String,
    /// What is stated.
    pub(in crate::rules) stated: &'m Field<PieceRef>,
    /// How large each is cut.
    pub(in crate::rules) size: Rectangle,
    /// How many.
    pub(in crate::rules) count: Count,
}

/// The sashes, the squares where they cross, and the squares at the corners of borders; those that there are.
pub(in crate::rules) fn layout_pieces<'m>(needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'m>) -> Vec<LayoutPiece<'m>> {
    let Some((top, seam)) = laid.top.as_ref().zip(needs.seam) else { return Vec::new() };
    let stated = laid.stated;
    let mut pieces = Vec::new();
    let mut add = |word, what: String, field, (width, length): (Length, Length), count: Count| {
        let size = Rectangle::new(width + seam * 2, length + seam * 2);
        if count.0 > 0 {
            pieces.push(LayoutPiece { word, what, stated: field, size, count });
        }
    };
    if let Some(sashing) = top.sashing {
        let is_one_piece = !stated.sash.is_absent() && laid.has_one_piece_for_sashes();
        let short = if is_one_piece { laid.sashes_of_short_piece() } else { top.short_sashes() };
        let longest = short.iter().map(|sashes| sashes.length).max().unwrap_or_default();
        let count = short.iter().fold(Count(0), |sum, sashes| sum + sashes.count);
        let (width, long) = (sashing.width, top.long_sashes());
        if stated.sash_of.is_absent() {
            add("sash", "sashes".to_string(), &stated.sash, (width, longest), count);
        }
        let between = if is_one_piece { Count(0) } else { long.count };
        add("long_sash", "sashes between rows".to_string(), &stated.long_sash, (width, long.length), between);
        add("cornerstone", "cornerstones".to_string(), &stated.cornerstone, (width, width), top.cornerstones());
    }
    for (index, border) in stated.borders.iter().enumerate() {
        let Some(strips) = top.border_strips(index, seam).filter(|_| border.corner_of.is_absent()) else { continue };
        let (what, size) = (format!("corners of border {}", index + 1), strips.widest() - seam * 2);
        add("cornerstone", what, &border.cornerstone, (size, size), strips.cornerstones);
    }
    pieces
}

impl LayoutPiece<'_> {
    /// The entry of a cutting list that gives it: `{ piece: K, size: 2 1/2 x 2 1/2, pieces: { lap: 20 } }`.
    pub(in crate::rules) fn entry(&self, needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, name: &str) -> String {
        let bare = |length: Length| needs.up(length).trim_end_matches(" in").trim_end_matches(" cm").to_string();
        let (width, length) = (bare(self.size.width), bare(self.size.length));
        format!("{{ piece: {name}, size: {width} x {length}, pieces: {{ {}: {} }} }}", laid.size.name, self.count)
    }

    /// Whether a piece of this size may be it.
    pub(in crate::rules) fn is_cut(&self, size: Rectangle, slack: Length) -> bool {
        let ((short, long), (own_short, own_long)) = (size.sides(), self.size.sides());
        (short - own_short).abs() <= slack && (long - own_long).abs() <= slack
    }
}
