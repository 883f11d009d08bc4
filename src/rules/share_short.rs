//! What each of several fabrics gives is less than all of them must give together.

use super::Context;
use super::wording::subject::piece;
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::Field;
use crate::manuscript::model::Cut as StatedCut;
use crate::quantity::Count;
use crate::requirement::fabrics::{FabricNeeds, FabricSize};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (fabric, size) in context.needs.fabrics.each() {
        for (place, cut) in fabric.stated.cut.iter().enumerate() {
            if let Some(finding) = finding(fabric, size, place, cut) {
                findings.push(finding);
            }
        }
    }
}

fn finding(fabric: &FabricNeeds<'_>, size: &FabricSize<'_>, place: usize, cut: &StatedCut) -> Option<Finding> {
    let each = cut.pieces_from_each.get(size.index).and_then(Field::stated)?;
    let pieces = cut.pieces.get(size.index).and_then(Field::stated).filter(|pieces| pieces.at != each.at)?;
    let among = fabric.stated.gives_from_each(size.index)?;
    let given = each.value * among;
    if given >= pieces.value {
        return None;
    }
    let (name, short) = (fabric.name(place), pieces.value.less(given));
    let needed = pieces.value.in_groups_of(among)?;
    let message = format!(
        "{} {name} from each of {among} fabrics stated: {} x {among} = {given}, and {} stated in all: {short} short.",
        each.value,
        each.value,
        pieces.value.of("piece"),
    );
    let correction = (needed <= Count::MAX).then(|| Correction::new(each.at, needed.to_string()));
    Some(
        Finding::new(Label::new(each.at, format!("{short} short in all")), message)
            .for_size(&size.size.name)
            .about(piece(fabric.stated, place))
            .see(Some(pieces.at), "needed in all")
            .help(format!("{} / {among}, rounded up to whole pieces: {needed} from each.", pieces.value.of("piece")))
            .numbers(each.value.to_string(), needed.to_string())
            .corrected(correction),
    )
}
