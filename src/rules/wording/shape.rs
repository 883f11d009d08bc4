//! Shapes that are cut from strips, in words.

use crate::choices::{CutShape, Tips};
use crate::finding::{Finding, Label};
use crate::manuscript::model::Cut as StatedCut;
use crate::quantity::{Count, Length};
use crate::quilt_math::cutting::{Cloth, FromStrips, slanted_ways};
use crate::quilt_math::shapes::{ShapeWay, StripShape};
use crate::requirement::fabrics::FabricsNeeds;

/// What a shape is called: `60-degree triangle`.
pub(crate) const fn shape_name(shape: CutShape) -> &'static str {
    match shape {
        CutShape::Triangle60 => "60-degree triangle",
        CutShape::HalfTriangle60 => "half 60-degree triangle",
        CutShape::Hexagon => "hexagon",
        CutShape::HalfHexagon => "half hexagon",
        CutShape::Diamond60 => "60-degree diamond",
        CutShape::Diamond45 => "45-degree diamond",
        CutShape::Parallelogram => "parallelogram",
        CutShape::Trapezoid => "trapezoid",
        CutShape::Template => "template",
    }
}

/// How large a shape finishes: `3 in on a side`, `3 1/4 in high`, `6 in x 3 in`.
pub(crate) fn finished_words(needs: &FabricsNeeds<'_>, shape: &StripShape) -> String {
    let side = needs.up(shape.side);
    match shape.shape {
        CutShape::Parallelogram | CutShape::Trapezoid => {
            format!("base {side}, height {} finished", needs.up(shape.height))
        }
        _ if shape.by_height => format!("{side} high finished"),
        _ => format!("{side} on a side finished"),
    }
}

/// Several of a shape: `15 hexagons`.
pub(crate) fn shapes(count: Count, shape: CutShape) -> String {
    count.of(shape_name(shape))
}

/// `a strip 40 in long and 4 7/32 in wide gives 15 60-degree triangles 4 in on a side finished, each cut 4 7/8 in along its
/// longest edge, turned alternately`.
pub(crate) fn gives_words(needs: &FabricsNeeds<'_>, cloth: Cloth, shape: &StripShape, way: &FromStrips) -> String {
    let lies = slanted_ways(*shape, cloth).find(|(_, other)| other == way).map(|(lies, _)| lies);
    let edge = lies.map_or_else(String::new, |lies| {
        let edge = if shape.shape == CutShape::Hexagon { "each side" } else { "its longest edge" };
        format!(", cut {} along {edge} with the seams", needs.up(lies.edge()))
    });
    let turned = match shape.shape {
        CutShape::Triangle60 | CutShape::HalfTriangle60 | CutShape::HalfHexagon | CutShape::Trapezoid
            if shape.turns =>
        {
            ", turned alternately"
        }
        _ => "",
    };
    format!(
        "a strip {} long and {} wide gives {}, {}{edge}{turned}",
        needs.down(cloth.strip_length()),
        needs.up(way.strip_width),
        shapes(way.per_strip, shape.shape),
        finished_words(needs, shape),
    )
}

/// A shape that does not come out of strips of its fabric.
pub(in crate::rules) fn does_not_fit(
    needs: &FabricsNeeds<'_>,
    cloth: Cloth,
    (name, cut, size): (&str, &StatedCut, usize),
    shape: &StripShape,
) -> Option<Finding> {
    let mark = shape.mark();
    let narrowest = shape.ways().min_by_key(ShapeWay::width)?;
    let width = narrowest.width().up_to(mark);
    let what = format!("{name} is a {}, {}", shape_name(shape.shape), finished_words(needs, shape));
    let widest = match cloth {
        Cloth::Small { along, .. } => Some(along),
        Cloth::Bolt { .. } => None,
    };
    let told = shape.strip_width;
    let room = if told.is_positive() { Some(told) } else { widest };
    let too_narrow = room.filter(|room| narrowest.rows(*room).0 == 0);
    let at = cut.strip_width.of(size).at().filter(|_| too_narrow.is_some()).or(cut.cut_at(size))?;
    let seams = match (shape.shape, shape.tips) {
        (CutShape::Triangle60 | CutShape::HalfTriangle60, Tips::Sharp) => "three seams (two, and the tip)",
        _ => "two seams",
    };
    let Some(room) = too_narrow else {
        let run = cloth.strip_length();
        let reach = narrowest.reach(Count(1));
        if reach <= run {
            let message =
                format!("{what}, from strips {} wide, and the fabric is not as wide.", needs.up(told.max(width)));
            return Some(Finding::new(Label::new(at, "does not fit"), message));
        }
        let message = format!(
            "{what}: with its seams it reaches {} along a strip, and a strip is {} long.",
            needs.up(reach),
            needs.down(run)
        );
        let shown = (needs.up(reach), format!("at most {}", needs.down(run)));
        return Some(Finding::new(Label::new(at, "does not fit"), message).numbers(shown.0, shown.1));
    };
    let message = format!(
        "{what}: with {seams} it is cut from strips {} wide, and these are {} wide.",
        needs.up(width),
        needs.down(room),
    );
    let blunt = StripShape { tips: Tips::Blunt, ..*shape };
    let if_blunt = blunt.ways().next().filter(|way| shape.tips == Tips::Sharp && way.rows(room).0 > 0);
    let help = if_blunt.map(|way| {
        format!(
            "With the tips cut off at the seam (tips: blunt), strips {} wide are enough.",
            needs.up(way.width().up_to(mark))
        )
    });
    let finding = Finding::new(Label::new(at, "too narrow"), message).numbers(needs.down(room), needs.up(width));
    Some(finding.help(help.unwrap_or_default()))
}

/// How wide strips for a shape are cut, rounded up to what a ruler shows finest: of a parallelogram on its base.
pub(crate) fn strip_width(shape: &StripShape) -> Length {
    if shape.strip_width.is_positive() {
        return shape.strip_width;
    }
    shape.ways().next().map_or(Length::ZERO, |way| way.width().up_to(shape.mark()))
}
