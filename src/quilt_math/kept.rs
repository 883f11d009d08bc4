//! Answers that are kept by what was asked: the same list is asked about again on every save, at every key in an editor,
//! when a correction is tried, for several sizes and in several manuscripts.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// The most answers that are kept; beyond them all are forgotten and begun again.
const MAX_KEPT: usize = 4096;

/// The most entries that the lists may have together whose answers are kept, so that long ones fill no memory.
const MAX_ENTRIES: usize = 4 * MAX_KEPT;

/// Answers by what was asked.
pub(super) struct Kept<K, A>(Mutex<Answers<K, A>>);

struct Answers<K, A> {
    by_question: BTreeMap<K, Arc<A>>,
    /// How many entries the lists have together.
    entries: usize,
}

impl<K: Ord, A> Kept<K, A> {
    pub(super) const fn new() -> Kept<K, A> {
        Kept(Mutex::new(Answers { by_question: BTreeMap::new(), entries: 0 }))
    }

    /// The answer about a list of so many entries. Others wait meanwhile: `make` shall put off what takes long until it
    /// is asked for.
    pub(super) fn answer(&self, question: K, entries: usize, make: impl FnOnce(&K) -> A) -> Arc<A> {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(answer) = kept.by_question.get(&question) {
            return Arc::clone(answer);
        }
        if kept.by_question.len() >= MAX_KEPT || kept.entries + entries > MAX_ENTRIES {
            kept.by_question.clear();
            kept.entries = 0;
        }
        let answer = Arc::new(make(&question));
        if entries <= MAX_ENTRIES {
            kept.entries += entries;
            kept.by_question.insert(question, Arc::clone(&answer));
        }
        answer
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{Kept, MAX_ENTRIES, MAX_KEPT};

    #[test]
    fn what_was_asked_before_is_not_worked_out_again() {
        let kept = Kept::new();
        let first = kept.answer("a", 1, |_| 1);
        assert!(Arc::ptr_eq(&first, &kept.answer("a", 1, |_| 2)));
        assert_eq!(*kept.answer("b", 1, |_| 2), 2);
    }

    #[test]
    fn neither_many_lists_nor_long_ones_fill_the_memory() {
        let kept = Kept::new();
        let count = || kept.0.lock().map(|kept| (kept.by_question.len(), kept.entries)).unwrap_or_default();
        for question in 0..2 * MAX_KEPT {
            kept.answer(question, 0, |_| ());
            assert!(count().0 <= MAX_KEPT);
        }
        for question in 0..6 {
            kept.answer(question, MAX_ENTRIES / 2, |_| ());
            assert!(count().1 <= MAX_ENTRIES);
        }
        kept.answer(7, MAX_ENTRIES + 1, |_| ());
        assert!(count().1 <= MAX_ENTRIES);
    }
}
