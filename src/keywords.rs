//! The words that the format knows, and the known word that is nearest to a misspelt one.

/// The spellings in which the format's own words are written, and the British ones that are read as the same.
const SPELLINGS: [(&str, &str); 6] = [
    ("center", "centre"),
    ("mitered", "mitred"),
    ("color", "colour"),
    ("gray", "grey"),
    ("centimeters", "centimetres"),
    ("meters", "metres"),
];

/// Whether a written word is a word of the format, in either spelling of each of its parts.
pub(crate) fn is_word(written: &str, word: &str) -> bool {
    // Spellings begin alike and differ by a letter at most, and the British ones have these letters, which rules out
    // most words at once.
    written == word
        || (written.as_bytes().first() == word.as_bytes().first()
            && written.len().abs_diff(word.len()) <= 1
            && written.as_bytes().windows(2).any(|letters| matches!(letters, b"re" | b"ou"))
            && is_spelled_otherwise(written, word))
}

fn is_spelled_otherwise(written: &str, word: &str) -> bool {
    let same = |(written, word): (&str, &str)| written == word || SPELLINGS.contains(&(word, written));
    let mut parts = written.split('_');
    word.split('_').all(|word| parts.next().is_some_and(|written| same((written, word)))) && parts.next().is_none()
}

/// A word of the format in each spelling that is read, the format's own first.
pub fn spellings(word: &str) -> Vec<String> {
    let mut written = vec![word.to_string()];
    written.extend(SPELLINGS.iter().filter(|(own, _)| word.split('_').any(|part| part == *own)).map(|(own, other)| {
        let parts: Vec<&str> = word.split('_').map(|part| if part == *own { other } else { part }).collect();
        parts.join("_")
    }));
    written
}

/// A choice that is written as one of a few words.
pub trait Keyword: Copy + 'static {
    /// Each word with what it stands for, in the order in which help lists them.
    const WORDS: &'static [(&'static str, Self)];

    /// The words alone, in the same order.
    const NAMES: &'static [&'static str];

    /// What a word stands for.
    fn from_word(word: &str) -> Option<Self> {
        Self::WORDS.iter().find(|(known, _)| is_word(word, known)).map(|(_, value)| *value)
    }

    /// The word for it.
    fn word(self) -> &'static str
    where
        Self: PartialEq,
    {
        Self::WORDS.iter().find(|(_, known)| *known == self).map_or("", |(word, _)| word)
    }
}

/// The known word that was probably meant, if one is near enough.
pub fn nearest<'k, K: AsRef<str> + ?Sized + 'k>(word: &str, known: impl IntoIterator<Item = &'k K>) -> Option<&'k K> {
    const LONGEST: usize = 40;
    if word.len() > LONGEST {
        return None;
    }
    let word = plain(word);
    let allowed = (word.chars().count() / 3).max(1);
    let own = Letters::of(&word);
    known
        .into_iter()
        .filter_map(|candidate| {
            let is_near = own.least_distance(Letters::of(candidate.as_ref())) <= allowed;
            is_near.then(|| (strsim::damerau_levenshtein(&word, &plain(candidate.as_ref())), candidate))
        })
        .filter(|(distance, candidate)| {
            let shortest = word.chars().count().min(candidate.as_ref().chars().count());
            *distance <= allowed && (*distance < shortest || *distance == 0)
        })
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// A word without what a slip is rarely about: capitals, and what joins its parts.
fn plain(word: &str) -> String {
    word.to_lowercase().replace(['-', ' '], "_")
}

/// How many characters a plain word has, and which: words that have few in common need not be compared in full.
#[derive(Clone, Copy)]
struct Letters {
    length: usize,
    /// A bit for each character, several of which may share one.
    which: u64,
}

impl Letters {
    /// Those of a word once it is made plain.
    fn of(word: &str) -> Letters {
        let add = |letters: Letters, c: char| Letters {
            length: letters.length + 1,
            which: letters.which | 1 << (u32::from(c) % 64),
        };
        let none = Letters { length: 0, which: 0 };
        if !word.is_ascii() {
            return plain(word).chars().fold(none, add);
        }
        // Nearly all words, and nothing is copied for them.
        let plain = word.chars().map(|c| if c == '-' || c == ' ' { '_' } else { c.to_ascii_lowercase() });
        plain.fold(none, add)
    }

    /// The fewest edits by which one word becomes another: an edit brings one character at most.
    fn least_distance(self, other: Letters) -> usize {
        let missing = [self.which & !other.which, other.which & !self.which].map(u64::count_ones);
        self.length.abs_diff(other.length).max(missing[0].max(missing[1]) as usize)
    }
}

/// A writer's text as messages quote it: on one line, and of a long one the beginning.
pub fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut letters = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    let quoted: String = letters.by_ref().take(LONGEST).collect();
    if letters.next().is_some() { quoted + "..." } else { quoted }
}

/// A choice that is written as one of a few words, and the words.
macro_rules! keywords {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[allow(unreachable_pub)] // Private to the module that uses the macro, public in the model.
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $crate::keywords::Keyword for $name {
            const WORDS: &'static [(&'static str, $name)] = &[$(($word, $name::$variant)),+];
            const NAMES: &'static [&'static str] = &[$($word),+];
        }
    };
}

pub(crate) use keywords;
