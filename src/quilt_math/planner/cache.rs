//! Lists that were decided are kept.

use std::sync::Arc;

use super::decision::Decision;
use super::items::{Item, Remnant};
use crate::quantity::Length;
use crate::quilt_math::kept::Kept;

/// What a decision is about.
type Key = (Vec<Item>, Length, Vec<Remnant>);

static KEPT: Kept<Key, Decision> = Kept::new();

/// The decision about a list of pieces on fabric of a usable width, with what is there anyway; what was found for the
/// same list before is found again at once.
pub fn decision(items: &[Item], width: Length, remnants: &[Remnant]) -> Arc<Decision> {
    let key = (items.to_vec(), width, remnants.to_vec());
    KEPT.answer(key, items.len() + remnants.len(), |_| Decision::new(items, width, remnants))
}
