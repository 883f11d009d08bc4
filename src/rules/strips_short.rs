//! The strips that the text tells to cut give too few pieces.

use super::subject_words::piece;
use super::{Context, Rule};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::model::Cut as StatedCut;
use crate::quantity::Count;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};
use crate::trade::cutting::{Cloth, FromStrips, Shape};

pub(super) const RULE: Rule = Rule { name: "strips-short", page: include_str!("../../rules/strips-short.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (fabric, size) in context.fabrics.each() {
        let Some(cloth) = fabric.cloth else { continue };
        let cuts = fabric.stated.cut.iter().enumerate();
        findings.extend(cuts.filter_map(|(index, cut)| finding(context.fabrics, fabric, size, cloth, (index, cut))));
    }
}

fn finding(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    cloth: Cloth,
    (index, cut): (usize, &StatedCut),
) -> Option<Finding> {
    let strips = cut.strips.get(size.index)?.stated()?;
    let pieces = cut.pieces.get(size.index)?.stated()?;
    let (way, needed) = size.needed(index, cloth)?;
    if strips.value >= needed {
        return None;
    }
    let name = fabric.name(index);
    let gives = strips.value * way.per_strip;
    let message = format!(
        "{} stated for {} ({name}); {needed} needed: each strip gives {}, so what is stated gives {}, {} short.",
        strips.value.of("strip"),
        pieces.value.of("piece"),
        way.per_strip,
        gives,
        pieces.value.less(gives),
    );
    let at = cut.size.at().or(cut.strip_width.at());
    let correction = (needed <= Count::MOST).then(|| Correction::new(strips.at, needed.to_string()).if_harmless());
    Some(
        Finding::new(Label::new(strips.at, format!("give {gives}")), message)
            .for_size(&size.size.name)
            .about(piece(fabric.stated, index))
            .see(
                Some(pieces.at),
                match pieces.value {
                    Count(1) => "1 piece is needed".to_string(),
                    many => format!("{} are needed", many.of("piece")),
                },
            )
            .see(at, "how it is cut")
            .help(working(needs, cloth, fabric.shapes.get(index).copied().flatten(), &way, pieces.value, needed))
            .numbers(strips.value.of("strip"), needed.of("strip"))
            .corrected(correction),
    )
}

/// `Strips: a strip 40 in long gives 11 pieces 3 1/2 in long; 48 pieces / 11 = 5 strips.`
fn working(
    needs: &FabricsNeeds<'_>,
    cloth: Cloth,
    shape: Option<Shape>,
    way: &FromStrips,
    pieces: Count,
    needed: Count,
) -> String {
    let gives = match shape {
        Some(Shape::WholeStrip { .. }) => "a whole strip is one piece".to_string(),
        Some(Shape::Lengthwise { .. }) => {
            format!("along the fabric, each strip is one piece {} long", needs.up(way.strip_width))
        }
        Some(Shape::Piece { .. }) | None => format!(
            "a strip {} long and {} wide gives {} {} long",
            needs.down(cloth.strip_length()),
            needs.up(way.strip_width),
            way.per_strip.of("piece"),
            needs.up(way.across),
        ),
    };
    format!("Strips: {gives}; {} / {} make {}.", pieces.of("piece"), way.per_strip, needed.of("strip"))
}
