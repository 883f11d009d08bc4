//! A curved edge is bound with strips on the straight grain.

use super::Context;
use crate::finding::{Finding, Label};
use crate::manuscript::model::Grain;
use crate::requirement::edge::edge;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    let Some(grain) = needs.grain.filter(|grain| *grain != Grain::Bias) else { return };
    let cut = match grain {
        Grain::Lengthwise => "along the fabric",
        Grain::Crosswise | Grain::Bias => "across the fabric",
    };
    let stated = needs.stated.grain.at();
    for size in &context.manuscript.sizes {
        // A rectangle, which nobody states, has no curve.
        let Some(outline) = size.outline.at().filter(|_| edge(size).is_some_and(|edge| edge.curved)) else { continue };
        let how = if stated.is_some() {
            format!("Binding strips that are cut {cut} are stated")
        } else {
            format!("No grain stated, so binding strips that are cut {cut} are taken")
        };
        let message = format!(
            "{how}; strips on the bias are needed: the edge of {} is curved, and a strip on the straight grain does not bend around it.",
            size.name
        );
        findings.push(
            Finding::new(Label::new(stated.unwrap_or(outline), "does not bend around a curve"), message)
                .for_size(&size.name)
                .see(Some(outline).filter(|_| stated.is_some()), "the curved edge")
                .help("Cut the strips on the bias (grain: bias) and state the square or the strips for each size."),
        );
    }
}
