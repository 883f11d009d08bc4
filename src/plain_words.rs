//! Names and words as they compare: people type names with and without capitals, marks of letters and hyphens.

use std::cell::OnceCell;
use std::collections::BTreeMap;

/// Fewer bytes than this must be a whole word of a name: `cot` is not in `cottage`.
const LEAST_BYTES_TO_BEGIN: usize = 4;

/// A name in lower case words with one space between them, without the marks of letters.
#[derive(Clone, Debug)]
pub struct PlainName<'n> {
    name: &'n str,
    /// The words, each with a space after it: made where one of them may be looked for.
    words: OnceCell<String>,
}

impl<'n> PlainName<'n> {
    /// A name as it compares.
    pub const fn new(name: &'n str) -> PlainName<'n> {
        PlainName { name, words: OnceCell::new() }
    }

    /// The name from each of its words on.
    fn starts(&self) -> impl Iterator<Item = &str> {
        let words = self.words.get_or_init(|| plain(self.name)).as_str();
        let ends = words.match_indices(' ').map(|(at, _)| at + 1);
        std::iter::once(0).chain(ends).map(|at| &words[at..]).filter(|rest| !rest.is_empty())
    }

    /// Whether a word of the name may begin as one of some words do: few do, and that is seen before any is made plain.
    fn may_begin(&self, beginnings: &Beginnings) -> bool {
        let mut rest = self.name.as_bytes();
        let mut in_a_word = false;
        while let Some((byte, after)) = rest.split_first() {
            if !byte.is_ascii() || !in_a_word && beginnings.has(rest) {
                return true;
            }
            (in_a_word, rest) = (byte.is_ascii_alphanumeric(), after);
        }
        false
    }
}

/// The two letters with which some words begin, in either case: for each first one, a bit for each second one. What is no
/// letter from a to z is all alike.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Beginnings([u32; 27]);

impl Beginnings {
    const fn place(byte: Option<&u8>) -> usize {
        match byte {
            Some(letter) if letter.is_ascii_alphabetic() => (letter.to_ascii_lowercase() - b'a') as usize,
            Some(_) | None => 26,
        }
    }

    fn add(&mut self, word: &[u8]) {
        self.0[Self::place(word.first())] |= 1 << Self::place(word.get(1));
    }

    /// Whether one of the words may begin as this text does.
    fn has(&self, text: &[u8]) -> bool {
        self.0[Self::place(text.first())] & 1 << Self::place(text.get(1)) != 0
    }
}

/// Words by which a name is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlainWords {
    /// Without spaces at their ends, by their first bytes.
    by_first_byte: BTreeMap<u8, Vec<String>>,
    /// How they begin, which few words of a name do.
    beginnings: Beginnings,
}

impl PlainWords {
    /// Words as they compare, without those of which nothing is left.
    pub fn new<'w>(words: impl Iterator<Item = &'w str>) -> PlainWords {
        let mut by_first_byte: BTreeMap<u8, Vec<String>> = BTreeMap::new();
        let mut beginnings = Beginnings::default();
        for word in words.map(|word| plain(word).trim_end().to_string()) {
            if let Some(first) = word.as_bytes().first() {
                beginnings.add(word.as_bytes());
                by_first_byte.entry(*first).or_default().push(word);
            }
        }
        PlainWords { by_first_byte, beginnings }
    }

    /// Whether a name has one of the words, or a word that begins with one, as compounds of many languages do.
    pub fn begin_in(&self, name: &PlainName) -> bool {
        self.any_in(name, |word, after| word.len() >= LEAST_BYTES_TO_BEGIN || after.starts_with(' '))
    }

    /// Whether a name has one of the words whole, or with an s at its end: what only begins with one may be a quilt.
    pub fn are_whole_in(&self, name: &PlainName) -> bool {
        self.any_in(name, |_, after| after.starts_with(' ') || after.starts_with("s "))
    }

    /// Whether one of the words begins where a word of the name does, with the rest of the name as it should be.
    fn any_in(&self, name: &PlainName, is_so: impl Fn(&str, &str) -> bool) -> bool {
        name.may_begin(&self.beginnings)
            && name.starts().any(|rest| {
                let alike = self.by_first_byte.get(&rest.as_bytes()[0]).map_or(&[][..], Vec::as_slice);
                alike.iter().any(|word| rest.strip_prefix(word.as_str()).is_some_and(|after| is_so(word, after)))
            })
    }
}

/// Letters with a mark, beside the letter that they are without it.
const MARKED: [(&str, char); 11] = [
    ("àáâãäåą", 'a'),
    ("çćč", 'c'),
    ("ďđ", 'd'),
    ("èéêëęě", 'e'),
    ("ìíîï", 'i'),
    ("łľ", 'l'),
    ("ñńň", 'n'),
    ("òóôõöø", 'o'),
    ("śš", 's'),
    ("ùúûüů", 'u'),
    ("źżž", 'z'),
];

/// Lower case words, each with a space after it, without the marks of letters.
fn plain(text: &str) -> String {
    if text.is_ascii() {
        spaced(text.len(), text.bytes().map(|byte| char::from(byte.to_ascii_lowercase())))
    } else {
        unmarked(text)
    }
}

fn unmarked(text: &str) -> String {
    let is_mark = |c: &char| ('\u{300}'..='\u{36f}').contains(c);
    let without = |c: char| {
        let marked = MARKED.iter().find(|(marked, _)| !c.is_ascii() && marked.contains(c));
        marked.map_or(c, |(_, plain)| *plain)
    };
    spaced(text.len(), text.to_lowercase().chars().filter(|c| !is_mark(c)).map(without))
}

/// Letters and digits, with one space for all that stands between, and one at the end: about so many bytes.
fn spaced(about: usize, letters: impl Iterator<Item = char>) -> String {
    let mut words = String::with_capacity(about + 1);
    for letter in letters.chain([' ']) {
        if letter.is_alphanumeric() {
            words.push(letter);
        } else if !words.is_empty() && !words.ends_with(' ') {
            words.push(' ');
        }
    }
    words
}

#[cfg(test)]
mod tests {
    use super::{PlainName, PlainWords};

    #[test]
    fn a_word_is_found_whole_or_in_the_plural() {
        let words = PlainWords::new(["cushion", "sham", "table topper"].into_iter());
        for name in ["cushion", "Cushions 18", "pillow sham", "Table-Topper", "SHAMS"] {
            assert!(words.are_whole_in(&PlainName::new(name)), "{name}");
        }
        for name in ["shamrock", "cushioned", "table", "topper", ""] {
            assert!(!words.are_whole_in(&PlainName::new(name)), "{name}");
        }
    }

    #[test]
    fn a_word_is_found_whole_or_at_the_beginning_of_a_compound() {
        let words = PlainWords::new(["cot", "baby", "moses basket", "bébé", "säugling", "детск", "--"].into_iter());
        let names = ["cot", "Cot-size", "a COT quilt", "Babydecke", "BABY", "small (baby)", "Moses  basket", "BÉBÉ"];
        // With marks as characters by themselves, and without.
        for name in names.into_iter().chain(["be\u{301}be\u{301}", "Bebe", "Saugling", "одеяло детское"]) {
            assert!(words.begin_in(&PlainName::new(name)), "{name}");
        }
        for name in ["cottage", "cotton", "apricot", "crybaby", "moses", "", "-", "одеяло"] {
            assert!(!words.begin_in(&PlainName::new(name)), "{name}");
        }
    }
}
