//! Measurements for clauses, once or for each size, and what the pieces that have them are called.

use super::super::Cell;
use super::super::cell_text::CellText;
use super::parts::Part;
use crate::manuscript::model::{Cut, CutShape, Shaped};
use crate::manuscript::{BySize, Field, Keyword};
use crate::quantity::{Count, Written};
use crate::rules::words::shape_name;

/// A measurement that is stated once, as words, or one for each size. Where a clause counts nothing it is one for each
/// size in any case, so that each clause has a value.
pub(super) fn measure<T>(
    stated: &BySize<T>,
    sizes: usize,
    is_counted: bool,
    show: impl Fn(&Field<T>) -> Cell,
) -> Option<Part> {
    match stated {
        BySize::All(Field::Absent) => None,
        BySize::All(field) if is_counted => Some(Part::Words(show(field).text().to_string())),
        BySize::All(_) | BySize::Each(..) => Some(Part::Values((0..sizes).map(|size| show(stated.of(size))).collect())),
    }
}

/// The two sides of a piece. A square whose side is stated alone is called a square by its noun.
pub(super) fn sides(pen: &CellText<'_>, size: &Field<(Written, Written)>) -> Cell {
    match pen.dimensions(size) {
        Cell::Stated(words) => Cell::Stated(words.strip_suffix(" square").unwrap_or(&words).to_string()),
        other => other,
    }
}

/// The side of a square, in the words for its second side: `11.5 cm (4 1/2 in)` for `11.5 x 11.5 cm (4 1/2 x 4 1/2 in)`.
pub(super) fn side(pen: &CellText<'_>, size: &Field<(Written, Written)>) -> Cell {
    let is_times = |c: char| matches!(c, 'x' | 'X' | '\u{d7}');
    let last = |words: &str| words.rsplit(is_times).next().unwrap_or(words).trim().to_string();
    match sides(pen, size) {
        Cell::Stated(words) => Cell::Stated(match words.split_once(" (") {
            Some((first, second)) => format!("{} ({}", last(first), last(second)),
            None => last(&words),
        }),
        other => other,
    }
}

/// The sizes that take some of what is counted, or of which the count could not be read.
pub(super) fn takes(counts: &[Field<Count>]) -> Vec<bool> {
    counts.iter().map(|count| !count.is_absent() && count.value() != Some(Count(0))).collect()
}

/// Whether a piece is a square in every size that states how it is cut.
pub(super) fn is_square(cut: &Cut) -> bool {
    let mut stated = cut.size.stated().peekable();
    stated.peek().is_some() && stated.all(|(_, size)| is_even(size.value))
}

fn is_even((width, length): (Written, Written)) -> bool {
    width.length == length.length
}

/// What a piece is called: `square`, `rectangle`, `hexagon`.
pub(super) fn noun(cut: &Cut) -> &'static str {
    if let Some(shape) = cut.slanted().and_then(|shaped| shaped.shape.value()) {
        return shape_name(shape);
    }
    let any_square = cut.size.stated().any(|(_, size)| is_even(size.value));
    match (cut.shaped.as_ref().is_some_and(|shaped| !shaped.shape.is_absent()), is_square(cut), any_square) {
        (false, true, _) => "square",
        (false, false, false) if cut.size.stated().next().is_some() => "rectangle",
        _ => "piece",
    }
}

/// How large a piece is, with the words before it.
pub(super) fn size_of(cut: &Cut, pen: &CellText<'_>, is_counted: bool) -> (&'static str, Option<Part>) {
    let sizes = pen.sizes().len();
    let Some(shaped) = cut.slanted() else {
        let before = if cut.is_template() { " by template, each from a rectangle " } else { " " };
        return (before, measure(&cut.size, sizes, is_counted, |size| sides(pen, size)));
    };
    match shaped.shape.value() {
        Some(CutShape::Parallelogram | CutShape::Trapezoid) => {
            let size = measure(&shaped.size, sizes, is_counted, |size| pen.dimensions(size));
            (", finished base x height ", size)
        }
        _ if shaped.size.is_absent() => {
            (", finished height ", measure(&shaped.height, sizes, is_counted, |height| pen.length(height)))
        }
        _ => (", finished side ", measure(&shaped.size, sizes, is_counted, |size| pen.square(size))),
    }
}

/// What else says which shape it is: its angle, and whether its tips are cut off.
pub(super) fn shape_details(shaped: &Shaped) -> String {
    let angle = shaped.angle.value().map(|angle| format!(", {} degrees at the base", angle.word()));
    let tips = shaped.tips.value().filter(|tips| *tips == crate::manuscript::model::Tips::Blunt);
    let tips = tips.map(|_| ", tips cut off at the seam".to_string());
    angle.into_iter().chain(tips).collect()
}
