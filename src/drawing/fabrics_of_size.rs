//! What is cut from all fabrics of a size, the binding's own among them.

use super::binding_fabric::binding_of;
use super::strips::{FabricDrawing, drawing};
use crate::manuscript::model::Size;
use crate::requirement::Needs;
use crate::requirement::fabrics::FabricNeeds;

/// How many fabrics of one size are drawn.
const MAX_FABRICS: usize = 40;

/// What is cut from each fabric of a size, the binding's own fabric first, and how many fabrics more are not drawn; each
/// of so many rows at most.
pub(super) fn fabrics_of(needs: &Needs<'_>, index: usize, size: &Size, rows: usize) -> (Vec<FabricDrawing>, usize) {
    let all = &needs.fabrics;
    let binding = needs.binding.as_ref().and_then(|binding| binding_of(binding, size, rows));
    let has_plan = |fabric: &&FabricNeeds<'_>| fabric.sizes.get(index).is_some_and(|size| size.taken.is_some());
    let listed = all.fabrics.iter().filter(has_plan);
    let shown = listed.clone().take(MAX_FABRICS);
    let drawn = shown.filter_map(|fabric| drawing(all, fabric, fabric.sizes.get(index)?, rows));
    (binding.into_iter().chain(drawn).collect(), listed.count().saturating_sub(MAX_FABRICS))
}
