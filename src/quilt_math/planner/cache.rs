//! Lists that were decided are kept: the same list is asked about again on every save, for several sizes and in
//! several manuscripts.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::decision::Decision;
use super::items::{Item, Remnant};
use crate::quantity::Length;

/// The most lists that are kept; beyond them all are forgotten and begun again.
const MAX_KEPT: usize = 4096;

/// What a decision is about.
type Key = (Vec<Item>, Length, Vec<Remnant>);

static KEPT: OnceLock<Mutex<BTreeMap<Key, Arc<Decision>>>> = OnceLock::new();

/// The decision about a list of pieces on fabric of a usable width, with what is there anyway; what was found for the
/// same list before is found again at once.
pub fn decision(items: &[Item], width: Length, remnants: &[Remnant]) -> Arc<Decision> {
    let key = (items.to_vec(), width, remnants.to_vec());
    let kept = KEPT.get_or_init(|| Mutex::new(BTreeMap::new()));
    let mut kept = kept.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(decision) = kept.get(&key) {
        return Arc::clone(decision);
    }
    if kept.len() >= MAX_KEPT {
        kept.clear();
    }
    // Nothing is worked out before it is asked for, so the lock is not held for long.
    let decision = Arc::new(Decision::new(items, width, remnants));
    kept.insert(key, Arc::clone(&decision));
    decision
}
