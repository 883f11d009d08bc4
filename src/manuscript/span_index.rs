//! Finding what is at a place without looking at everything that is anywhere.

use super::Span;

/// Some places in a text, in the order of the text.
#[derive(Clone, Debug)]
pub(crate) struct SpanIndex(Vec<Entry>);

#[derive(Clone, Copy, Debug)]
struct Entry {
    at: Span,
    /// Where it stood among those that were given.
    index: usize,
    /// The furthest end of those up to it.
    furthest: usize,
}

impl SpanIndex {
    /// Places in any order.
    pub(crate) fn new(places: impl IntoIterator<Item = Span>) -> SpanIndex {
        let entries = places.into_iter().enumerate().map(|(index, at)| Entry { at, index, furthest: at.end });
        let mut entries: Vec<Entry> = entries.collect();
        entries.sort_by_key(|entry| entry.at);
        let mut furthest = 0;
        for entry in &mut entries {
            furthest = furthest.max(entry.at.end);
            entry.furthest = furthest;
        }
        SpanIndex(entries)
    }

    /// Which of those that were given overlap a place, the last in the text first.
    pub(crate) fn overlapping(&self, at: Span) -> impl Iterator<Item = usize> {
        let before = self.0.partition_point(|entry| entry.at.start < at.end);
        let near = self.0[..before].iter().rev().take_while(move |entry| entry.furthest > at.start);
        near.filter(move |entry| entry.at.overlaps(at)).map(|entry| entry.index)
    }
}

#[cfg(test)]
mod tests {
    use super::{Span, SpanIndex};

    #[test]
    fn the_same_are_found_as_by_looking_at_each() {
        let places: Vec<Span> =
            (0..9).flat_map(|start| (0..4).map(move |long| Span::new(start * 2, start * 2 + long * long))).collect();
        let by_place = SpanIndex::new(places.iter().rev().copied());
        for at in &places {
            let mut found: Vec<Span> =
                by_place.overlapping(*at).map(|index| places[places.len() - 1 - index]).collect();
            found.sort();
            let each: Vec<Span> =
                places.iter().copied().filter(|place| place.start < at.end && at.start < place.end).collect();
            assert_eq!(found, each, "{at:?}");
        }
    }
}
