//! Lists of pieces for the tests, in eighths of an inch.

use super::rng::Rng;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::Item;

/// Pieces of one kind, measured in eighths of an inch.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece {
    pub(crate) across: i64,
    pub(crate) along: i64,
    pub(crate) count: i64,
    pub(crate) turns: bool,
}

impl Piece {
    pub(crate) fn ways(&self) -> Vec<(i64, i64)> {
        let given = (self.across, self.along);
        if self.turns { vec![given, (self.along, self.across)] } else { vec![given] }
    }

    pub(crate) fn item(&self) -> Item {
        Item {
            across: eighths(self.across),
            along: eighths(self.along),
            count: Count(u64::try_from(self.count).unwrap()),
            turns: self.turns,
        }
    }
}

pub(crate) fn eighths(count: i64) -> Length {
    Length::inch_fraction(count, 8)
}

pub(crate) fn items(pieces: &[Piece]) -> Vec<Item> {
    pieces.iter().map(Piece::item).collect()
}

/// Up to seven pieces in all on narrow fabric; measured in eighths, though as few of them as an inch has quarters.
pub(crate) fn few(rng: &mut Rng) -> (Vec<Piece>, i64) {
    let width = rng.between(8, 36);
    let (mut pieces, mut left) = (Vec::new(), rng.between(1, 7));
    let directional = rng.one_in(3);
    while left > 0 {
        let count = rng.between(1, left);
        let longest = if rng.one_in(4) { 40 } else { width };
        let (across, along) = (rng.between(2, width), rng.between(2, longest));
        pieces.push(Piece { across, along, count, turns: !directional });
        left -= count;
    }
    (pieces, width)
}

/// What kind of quilt a list is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Family {
    Blocks,
    LengthwiseBorders,
    WholeStrips,
    LongPieces,
}

/// One fabric as a pattern may list it: the pieces, and whole strips in eighths of an inch of their widths together.
pub(crate) struct Fabric {
    pub(crate) family: Family,
    pub(crate) pieces: Vec<Piece>,
    pub(crate) whole_strips: i64,
    pub(crate) width: i64,
}

/// Sides of patches: finished size and a seam on both sides, now and then with an eighth for triangles.
fn side(rng: &mut Rng, most: i64) -> i64 {
    let finished = rng.between(1, most) * 8 + if rng.one_in(4) { 4 } else { 0 };
    finished + if rng.one_in(5) { 7 } else { 4 }
}

fn patch(rng: &mut Rng, most: i64, counts: i64, turns: bool) -> Piece {
    let one = side(rng, most);
    let other = if rng.one_in(2) { one } else { side(rng, most) };
    let count = if rng.one_in(3) { rng.between(2, 12) } else { rng.between(1, counts) * 4 };
    Piece { across: one, along: other, count, turns }
}

/// A list as patterns print them, of one of four families; the measures and counts are our own choice.
pub(crate) fn realistic(rng: &mut Rng) -> Fabric {
    let family = match rng.below(320) {
        0..168 => Family::Blocks,
        168..244 => Family::LengthwiseBorders,
        244..296 => Family::WholeStrips,
        _ => Family::LongPieces,
    };
    let width = rng.pick(&[320, 320, 336]);
    let turns = !rng.one_in(5);
    let kinds = rng.between(1, 5);
    let mut pieces: Vec<Piece> = (0..kinds).map(|_| patch(rng, 9, 30, turns)).collect();
    let mut whole_strips = 0;
    match family {
        Family::Blocks => {}
        Family::LengthwiseBorders => {
            pieces.truncate(usize::try_from(rng.between(1, 3)).unwrap());
            let wide = side(rng, 9);
            let (long, other) = (rng.between(36, 96) * 8 + 4, rng.between(36, 96) * 8 + 4);
            let both = rng.one_in(2);
            let border = |along, count| Piece { across: wide, along, count, turns: false };
            pieces.push(border(long, if both { 2 } else { 4 }));
            if both {
                pieces.push(border(other, 2));
            }
        }
        Family::WholeStrips => {
            pieces.truncate(3);
            whole_strips = rng.between(2, 10) * side(rng, 5);
        }
        Family::LongPieces => {
            pieces.truncate(3);
            let (across, along) = (rng.between(14, 36) * 8 + 4, side(rng, 6));
            pieces.push(Piece { across, along, count: rng.between(2, 12), turns });
        }
    }
    Fabric { family, pieces, whole_strips, width }
}
