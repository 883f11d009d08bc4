//! What is known of shapes that are no rectangles where it is proved how much fabric a list takes.
//!
//! Slanted shapes are cut from strips as wide as they are high: so many strips are needed, and no fewer. Where other
//! pieces are cut from the fabric too, some of either may come from what the other's strips leave; that all pieces cover
//! so much holds whatever is cut from what. Of a template nothing is known but the box that holds it, and shapes nest: it
//! proves nothing.

use super::cutting::{Cloth, Cut, Shape};
use super::planner::Reason;
use crate::quantity::{Count, Length};

/// What is known of the shapes of one list that are no rectangles.
#[derive(Debug)]
pub(super) struct Nesting {
    /// What strips take that are planned for slanted shapes, and that the text does not tell.
    pub(super) untold: Length,
    /// How wide the widest strips are that the text tells for such shapes: small pieces may lie between them.
    pub(super) widest: Length,
    /// Whether there are shapes of which the text tells no strips.
    pub(super) is_open: bool,
    /// No way of cutting takes less of the bolt, and why.
    pub(super) least: (Length, Reason),
}

impl Nesting {
    /// What is known of the shapes of a list; `None` where all pieces are rectangles.
    pub(super) fn new(cuts: &[Cut], cloth: Cloth) -> Option<Nesting> {
        if !cuts.iter().any(|cut| cut.shape.nests()) {
            return None;
        }
        let run = cloth.strip_length();
        let area = Length::from_ticks(area(cuts, run).div_euclid(run.ticks().max(1)));
        let mut nesting = Nesting {
            untold: Length::ZERO,
            widest: Length::ZERO,
            is_open: false,
            least: (area, Reason::Area { covers: area, across: run }),
        };
        for (entry, cut) in cuts.iter().enumerate().filter(|(_, cut)| cut.shape.nests()) {
            nesting.is_open |= cut.strips.is_none();
            if cut.strips.is_some() {
                let widest = cut.way(cloth).map(|way| way.strip_width);
                nesting.widest = nesting.widest.max(widest.unwrap_or_default());
            } else if let Some((way, strips)) =
                cut.needed(cloth).filter(|_| !matches!(cut.shape, Shape::Template { .. }))
            {
                nesting.untold = nesting.untold + way.strip_width * strips;
                let (least, reason) = match cut.shape {
                    // Of the last repeat no more is there than the piece.
                    Shape::Centered { width, height, repeat, .. } if strips.0 > 0 => {
                        (repeat * strips.less(Count(1)) + width.min(height), Reason::Repeats(entry, strips))
                    }
                    _ => (least_strips(cut, cloth), Reason::Strips(entry, strips)),
                };
                if least > nesting.least.0 {
                    nesting.least = (least, reason);
                }
            }
        }
        Some(nesting)
    }
}

/// The least that the strips of one slanted shape take by themselves, whichever way they are cut.
fn least_strips(cut: &Cut, cloth: Cloth) -> Length {
    let (Shape::Slanted(shape), Some(pieces)) = (cut.shape, cut.pieces) else { return Length::ZERO };
    let of_way = |way: super::shapes::ShapeWay| {
        let told = shape.strip_width.is_positive();
        let width = if told { shape.strip_width } else { way.width_below() };
        let rows = if told { way.rows(width) } else { Count(1) };
        let strips = pieces.in_groups_of(rows * way.in_row(cloth.strip_length()))?;
        Some(width * strips)
    };
    shape.ways().filter_map(of_way).min().unwrap_or_default()
}

/// How much all pieces cover, never more than the truth, in square ticks. Of a template nothing is known.
fn area(cuts: &[Cut], run: Length) -> i128 {
    let of_one = |cut: &Cut| match cut.shape {
        Shape::WholeStrip { width } => width.ticks() * run.ticks(),
        Shape::Piece { width, height, .. } | Shape::Centered { width, height, .. } => width.ticks() * height.ticks(),
        Shape::Lengthwise { width, length } | Shape::Strip { length, width } => width.ticks() * length.ticks(),
        Shape::Slanted(shape) => shape.area_below(),
        Shape::Template { .. } => 0,
    };
    let count = |cut: &Cut| match cut.shape {
        // The strips that they are cut from are counted.
        _ if cut.within.is_some() => None,
        Shape::WholeStrip { .. } => cut.strips.or(cut.pieces),
        _ => cut.pieces,
    };
    let all = cuts.iter().map(|cut| of_one(cut).saturating_mul(i128::from(count(cut).unwrap_or_default().0)));
    all.fold(0, i128::saturating_add)
}

/// No fewer small fabrics hold the shapes of a list, whichever way the strips are cut.
pub(super) fn fewest_for_shapes(cuts: &[Cut], cloth: Cloth) -> Count {
    let Cloth::Small { across, along, turns } = cloth else { return Count(0) };
    let of_one = across.ticks() * along.ticks();
    let covered = (area(cuts, across) + of_one - 1).div_euclid(of_one.max(1));
    let by_area = Count(u64::try_from(covered).unwrap_or(u64::MAX));
    let sides = [Some((across, along)), Some((along, across)).filter(|_| turns)];
    let alone = cuts.iter().filter(|cut| cut.strips.is_none()).filter_map(|cut| {
        let (Shape::Slanted(shape), Some(pieces)) = (cut.shape, cut.pieces) else { return None };
        let in_one = |(across, along): (Length, Length)| {
            shape.ways().map(move |way| way.rows(along) * way.in_row(across)).max().unwrap_or_default()
        };
        pieces.in_groups_of(sides.iter().flatten().map(|sides| in_one(*sides)).max()?)
    });
    alone.fold(by_area, Count::max)
}
