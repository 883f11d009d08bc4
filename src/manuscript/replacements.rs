//! Texts that take the places of others, and where everything else stands afterwards.

use super::Span;

/// Texts for some places of a text, none of which overlaps another.
#[derive(Clone, Debug, Default)]
pub struct Replacements<'r> {
    /// In the order of the text, each with the bytes that are taken out and put in up to its end.
    list: Vec<Replacement<'r>>,
}

#[derive(Clone, Copy, Debug)]
struct Replacement<'r> {
    at: Span,
    text: &'r str,
    taken_out: usize,
    put_in: usize,
}

impl<'r> Replacements<'r> {
    /// Texts for their places, in any order. The same text for the same place counts once. `None` where two places
    /// overlap, or one place would take two texts.
    pub fn new(replacements: impl IntoIterator<Item = (Span, &'r str)>) -> Option<Replacements<'r>> {
        let mut sorted: Vec<(Span, &str)> = replacements.into_iter().collect();
        sorted.sort_unstable();
        sorted.dedup();
        if sorted.windows(2).any(|pair| pair[0].0.end > pair[1].0.start || pair[0].0 == pair[1].0) {
            return None;
        }
        let (mut taken_out, mut put_in) = (0, 0);
        let counted = sorted.into_iter().map(|(at, text)| {
            taken_out += at.len();
            put_in += text.len();
            Replacement { at, text, taken_out, put_in }
        });
        Some(Replacements { list: counted.collect() })
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.list.len()
    }

    /// The texts that are put in.
    pub fn texts(&self) -> impl Iterator<Item = &'r str> {
        self.list.iter().map(|replacement| replacement.text)
    }

    /// The text for a place, where there is one for exactly this place.
    pub fn at(&self, at: Span) -> Option<&'r str> {
        let index = self.list.binary_search_by_key(&at, |replacement| replacement.at).ok()?;
        Some(self.list[index].text)
    }

    /// The text with all of them made.
    pub fn apply(&self, text: &str) -> String {
        let mut out = String::with_capacity(text.len() + self.list.last().map_or(0, |last| last.put_in));
        let mut from = 0;
        for replacement in &self.list {
            out.push_str(text.get(from..replacement.at.start).unwrap_or_default());
            out.push_str(replacement.text);
            from = replacement.at.end;
        }
        out.push_str(text.get(from..).unwrap_or_default());
        out
    }

    /// Where a place is afterwards.
    pub fn moved(&self, at: Span) -> Span {
        let start = self.before(at.start);
        // Most places have none in them.
        let end =
            if self.list.get(start).is_none_or(|next| next.at.end > at.end) { start } else { self.before(at.end) };
        Span::new(self.byte_after(at.start, start), self.byte_after(at.end, end))
    }

    /// How many end before a byte.
    fn before(&self, byte: usize) -> usize {
        self.list.partition_point(|replacement| replacement.at.end <= byte)
    }

    fn byte_after(&self, byte: usize, before: usize) -> usize {
        let Some(last) = before.checked_sub(1).and_then(|index| self.list.get(index)) else { return byte };
        byte + last.put_in - last.taken_out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_where_the_text_says_that_they_are() {
        let text = "strips: 8, fabric: 1 yd, panels: 12";
        let place = |words: &str| {
            let start = text.find(words).expect(words);
            Span::new(start, start + words.len())
        };
        let replaced = [(place("12"), "3"), (place("8"), "100"), (place("8"), "100"), (place("1 yd"), "2 1/2 yd")];
        let all = Replacements::new(replaced).expect("none overlaps");
        let after = all.apply(text);
        assert_eq!(after, "strips: 100, fabric: 2 1/2 yd, panels: 3");
        for words in ["strips", "fabric", "panels", ", p"] {
            assert_eq!(all.moved(place(words)).text(&after), words);
        }
        assert_eq!((all.count(), all.at(place("8")), all.at(place("1"))), (3, Some("100"), None));
        assert_eq!(all.moved(place("8")).text(&after), "100");
    }

    #[test]
    fn places_that_overlap_are_refused() {
        let (one, other) = (Span::new(0, 3), Span::new(2, 4));
        assert!(Replacements::new([(one, "a"), (other, "b")]).is_none());
        assert!(Replacements::new([(one, "a"), (one, "b")]).is_none());
        assert!(Replacements::new([(one, "a"), (Span::new(3, 3), "b")]).is_some());
    }
}
