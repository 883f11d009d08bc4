//! Pieces do not come out of what is left beside those that are cut along the fabric.

use super::Context;
use super::wording::beside::{finding, is_there};
use crate::finding::Finding;
use crate::quilt_math::beside::Beside;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        let short = size.beside.iter().filter(|beside| beside.decided == Beside::Short);
        findings.extend(short.filter_map(|beside| {
            let message = format!("{} no way of cutting gives them from that.", is_there(needs, fabric, beside));
            finding(fabric, size, beside, message, "not enough is left")
        }));
    }
}
