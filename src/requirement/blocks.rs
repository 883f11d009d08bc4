//! What each block is sewn from, and what its rows and columns come to.

use crate::manuscript::design::Block;
use crate::quantity::Count;

/// How many of each unit a block takes, by the unit's place among the units; `None` where part of the block could not
/// be read.
pub fn units_per_block(block: &Block) -> Option<Vec<(usize, Count)>> {
    if !block.whole {
        return None;
    }
    let mut units: Vec<(usize, Count)> = Vec::new();
    for place in block.rows.iter().flat_map(|row| &row.places) {
        let unit = place.value()?.unit;
        match units.iter_mut().find(|(known, _)| *known == unit) {
            Some((_, count)) => *count = *count + Count(1),
            None => units.push((unit, Count(1))),
        }
    }
    Some(units)
}
