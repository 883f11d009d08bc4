//! The strips that the text tells are enough by one strip width and one too few by another, and it does not say which.

use super::wording::subject::piece;
use super::{Context, strips_short};
use crate::finding::{Finding, Label};
use crate::quilt_math::cutting::Cloth;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};
use crate::requirement::strip_width_choice::OtherWidth;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (fabric, size) in context.needs.fabrics.each() {
        let Some(cloth) = fabric.cloth else { continue };
        let others = size.other_widths.iter();
        findings.extend(others.filter_map(|other| finding(&context.needs.fabrics, fabric, size, cloth, other)));
    }
}

fn finding(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    cloth: Cloth,
    other: &OtherWidth,
) -> Option<Finding> {
    let cut = fabric.stated.cut.get(other.entry)?;
    let strips = cut.strips.get(size.index)?.stated()?;
    let pieces = cut.pieces.get(size.index)?.stated()?;
    let (way, enough) = size.needed(other.entry, cloth)?;
    let shape = fabric.shape(other.entry, size.index);
    let (read, rival) = (needs.up(way.strip_width), needs.up(other.way.strip_width));
    let message = format!(
        "{} stated for {} ({}): enough if the strips are cut {read} wide; cut {rival} wide, {} would be needed. Nothing \
         says which is meant.",
        strips.value.of("strip"),
        pieces.value.of("piece"),
        fabric.name(other.entry),
        other.needed,
    );
    let working = |way, strips| strips_short::working(needs, cloth, shape, way, pieces.value, strips);
    Some(
        Finding::new(Label::new(strips.at, "how wide are these?"), message)
            .for_size(&size.size.name)
            .about(piece(fabric.stated, other.entry))
            .see(cut.cut_at(size.index), "cut either way")
            .help(working(&way, enough))
            .help(working(&other.way, other.needed))
            .help(format!(
                "State the width: strip_width: {read} with {}, or strip_width: {rival} with {}.",
                enough.of("strip"),
                other.needed.of("strip"),
            ))
            .numbers(strips.value.of("strip"), other.needed.of("strip")),
    )
}
