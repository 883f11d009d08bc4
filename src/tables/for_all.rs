//! What is the same for all sizes: what the pattern assumes, and how binding, backing and batting are made.

use super::cell::{Cell, Table, of_words};
use super::cell_text::{CellText, cell, on_one_line};
use crate::manuscript::Manuscript;
use crate::manuscript::model::{Backing, Binding, Loft, LoftWord, StatedOverhang};
use crate::manuscript::{Field, Spanned};
use crate::quantity::Percent;

pub(super) fn for_all_sizes(manuscript: &Manuscript, pen: &CellText<'_>) -> Table {
    let assumes = &manuscript.assumes;
    let mut rows = vec![
        ("usable width of fabric", pen.length(&assumes.usable_width)),
        ("piecing seam", pen.length(&assumes.seam)),
        ("finished sizes are measured", pen.word(&assumes.measured)),
        ("fabric is sold in steps of", pen.length(&assumes.sold_by)),
        ("fabric from the bolt shrinks by", percent(&assumes.shrinks)),
    ];
    if let Some(binding) = &manuscript.binding {
        rows.extend(of_binding(binding, manuscript, pen));
    }
    if let Some(backing) = &manuscript.backing {
        rows.extend(of_backing(backing, manuscript, pen));
    }
    if let Some(batting) = &manuscript.batting {
        rows.push((
            "batting: beyond the quilt at each side",
            CellText::for_all(&batting.overhang, |by| overhang(by, pen)),
        ));
        rows.push(("batting: shrinks by", percent(&batting.shrinks)));
    }
    if let Some(sleeve) = &manuscript.sleeve {
        rows.push(("sleeve: depth", pen.length(&sleeve.depth)));
        rows.push(("sleeve: hem at each end", pen.length(&sleeve.hem)));
    }
    if let Some(points) = &manuscript.prairie_points {
        rows.push(("prairie points: square", pen.length(&points.square)));
        rows.push(("prairie points: overlap", pen.length(&points.overlap)));
    }
    if let Some(back) = &manuscript.pillow_back {
        rows.push(("pillow back: hem of each piece", pen.length(&back.hem)));
        rows.push(("pillow back: overlap", pen.length(&back.overlap)));
    }
    of_words(pen, ("for-all-sizes", "For all sizes"), rows)
}

fn of_binding(binding: &Binding, manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<(&'static str, Cell)> {
    let from = fabric_name(&binding.from, manuscript);
    vec![
        ("binding: cut from", from),
        ("binding: usable width of its fabric", pen.length(&binding.usable_width)),
        ("binding: strip width", CellText::for_all(&binding.strip_width, |width| pen.length(width))),
        ("binding: width of the flange's strips", pen.length(&binding.flange)),
        ("binding: strip length", pen.length(&binding.strip_length)),
        ("binding: grain", pen.word(&binding.grain)),
        ("binding: fold", pen.word(&binding.fold)),
        ("binding: joins", pen.word(&binding.join)),
        ("binding: seam", pen.length(&binding.seam)),
        ("binding: sewn first to the", pen.word(&binding.sewn_first_to)),
        ("binding: stitched down by", pen.word(&binding.finish)),
        ("binding: how the ends meet", pen.word(&binding.ends)),
        ("binding: tail at the start", pen.length(&binding.tails.start)),
        ("binding: tail at the end", pen.length(&binding.tails.end)),
        ("binding: opening", pen.length(&binding.opening)),
        ("binding: longer than the edge by", pen.length(&binding.extra_length)),
        ("binding: thickness of the edge", loft(&binding.loft, pen)),
    ]
}

/// How far a layer reaches, in the words for it: `2 in, 3 in at top and bottom`.
pub(super) fn overhang(field: &Field<StatedOverhang>, pen: &CellText<'_>) -> Cell {
    cell(field, |stated| {
        let StatedOverhang { across, down } = stated.value;
        let inside = pen.inside(stated.at);
        let alone = vec![pen.words(stated.at)];
        let side = |word: &str, written| pen.length_of(inside.get(word).or(Some(&alone)), written);
        let (across, down) = (side("across", across), side("down", down));
        if across == down {
            return across;
        }
        pen.say_of_all("{}, {} at top and bottom", &[&across, &down])
    })
}

/// How much smaller something is after washing.
fn percent(field: &Field<Percent>) -> Cell {
    cell(field, |stated| stated.value.to_string())
}

/// The name of the fabric that something is cut from.
fn fabric_name(from: &Field<usize>, manuscript: &Manuscript) -> Cell {
    cell(from, |from| manuscript.fabrics.get(from.value).map_or(String::new(), |fabric| on_one_line(&fabric.name)))
}

fn loft(field: &Field<Loft>, pen: &CellText<'_>) -> Cell {
    match field {
        Field::Stated(Spanned { value: Loft::Measured(written), at }) => {
            pen.length(&Field::Stated(Spanned { value: *written, at: *at }))
        }
        Field::Stated(Spanned { value: Loft::Keyword(word), at }) => {
            pen.word::<LoftWord>(&Field::Stated(Spanned { value: *word, at: *at }))
        }
        Field::Absent => Cell::Nothing,
        Field::Unread => Cell::Unread,
    }
}

fn of_backing(backing: &Backing, manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<(&'static str, Cell)> {
    let from = fabric_name(&backing.from, manuscript);
    vec![
        ("backing: cut from", from),
        ("backing: beyond the quilt at each side", CellText::for_all(&backing.overhang, |by| overhang(by, pen))),
        ("backing: strip sewn in between the panels", CellText::for_all(&backing.insert, |width| pen.length(width))),
        ("backing: seam between panels", pen.length(&backing.seam)),
        ("backing: shrinks by", percent(&backing.shrinks)),
    ]
}
