//! The cautions that stand wherever cutting and pressing are described, or a quilt is listed that would fit a crib.

use std::cell::OnceCell;

use crate::manuscript::model::{BattingSize, Bed, Packaged, PerSize, Size};
use crate::manuscript::{Manuscript, Place, Source};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::finished;
use crate::rule_book::{DimensionsValue, LengthValue, Settings, WordList, WordsValue};

const MATTRESS: DimensionsValue = DimensionsValue::named("mattress_crib");
const DROP: LengthValue = LengthValue::named("crib_drop");
const WORDS: WordsValue = WordsValue::named("crib_words");
const OTHER_USES: WordsValue = WordsValue::named("other_use_words");

/// For whoever makes a quilt that would fit a crib.
pub const CRIB: &str = "For an infant, a quilt of crib (cot) size is a play mat or a wall hanging, and not bedding. Loose \
     bedding in a crib is a hazard to a child under one year: follow your national safe-sleep guidance and the \
     makers' instructions.";

/// For whoever cuts, presses and sews.
pub const WORK: &str = "Rotary blades, irons and sewing needles hurt people. Cut away from yourself, close the blade \
     after every cut, keep children and pets clear, and follow the makers' instructions and the safety codes of the \
     place where you work.";

/// The sizes of a manuscript that would fit a crib, or are called or used as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CribQuilts {
    /// Their names; at least one.
    pub sizes: Vec<String>,
    /// Where the first of them stands.
    pub place: Place,
}

/// The cautions for what a manuscript lists.
pub(crate) fn cautions(manuscript: &Manuscript, settings: &Settings) -> Vec<&'static str> {
    let for_a_crib = crib_sizes(manuscript, settings).next().is_some();
    let something_is_cut =
        manuscript.binding.is_some() || manuscript.fabrics.iter().any(|fabric| !fabric.cut.is_empty());
    let cautions = [for_a_crib.then_some(CRIB), something_is_cut.then_some(WORK)];
    cautions.into_iter().flatten().collect()
}

/// The sizes of a manuscript that are for a crib; `None` where there are none.
pub(crate) fn crib_quilts(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Option<CribQuilts> {
    let sizes: Vec<&Size> = crib_sizes(manuscript, settings).collect();
    let place = source.only_place(sizes.first()?.at.start);
    Some(CribQuilts { sizes: sizes.iter().map(|size| size.name.clone()).collect(), place })
}

/// The sizes that would fit a crib by their measurements, or are for one by their bed, their batting, their name or the
/// pattern's. What is for another bed, or is called a cushion or the like, is not judged by its measurements. No number
/// goes by this, so what it asks of the rule book is not kept for a sign-off.
fn crib_sizes<'m>(manuscript: &'m Manuscript, settings: &Settings) -> impl Iterator<Item = &'m Size> {
    let mattress = settings.unrecorded_dimensions(MATTRESS);
    let drop = settings.unrecorded_length(DROP);
    let largest = Rectangle::new(mattress.width + drop * 2, mattress.length + drop);
    let is_called_so = |name: &str| has_a_word(name, &words_for(name, settings.unrecorded_words(WORDS)));
    let is_something_else = move |size: &Size| {
        let words = || words_for(&size.name, settings.unrecorded_words(OTHER_USES));
        size.bed.value().is_some() || has_a_whole_word(&size.name, &words())
    };
    let pattern = manuscript.pattern.stated().map_or("", |name| name.value.as_str());
    // Asked for only where the measurements do not say it already.
    let pattern_is_called_so = OnceCell::new();
    let is_for_a_crib = move |size: &&Size| {
        size.bed.value() == Some(Bed::Crib)
            || (finished(size).is_some_and(|quilt| largest.holds(quilt)) && !is_something_else(size))
            || batting(manuscript, size) == Some(BattingSize::Packaged(Packaged::Crib))
            || *pattern_is_called_so.get_or_init(|| is_called_so(pattern))
            || is_called_so(&size.name)
    };
    manuscript.sizes.iter().filter(is_for_a_crib)
}

/// The words that may be in a name, as [`plain`] writes them: of each name only those are looked for that begin as one of
/// its own words does.
fn words_for(name: &str, list: &WordList) -> Vec<String> {
    let firsts: Vec<u8> = plain(name).split(' ').filter_map(|own| own.bytes().next()).collect();
    let may_begin = |word: &&str| {
        let first = word.bytes().find(|byte| byte.is_ascii_alphanumeric() || !byte.is_ascii()).unwrap_or_default();
        !first.is_ascii() || firsts.contains(&first.to_ascii_lowercase())
    };
    plain_words(list.words().filter(may_begin))
}

fn batting(manuscript: &Manuscript, size: &Size) -> Option<BattingSize> {
    let index = manuscript.sizes.iter().position(|known| known.name == size.name)?;
    let stated = manuscript.batting.as_ref()?.requires.get(index).and_then(PerSize::stated)?;
    Some(stated.value)
}

/// Fewer bytes than this must be a whole word of a name: `cot` is not in `cottage`.
const LEAST_BYTES_TO_BEGIN: usize = 4;

/// Words as [`plain`] writes them, without those of which nothing is left.
fn plain_words<'w>(words: impl Iterator<Item = &'w str>) -> Vec<String> {
    words.map(plain).filter(|word| !word.is_empty()).collect()
}

/// Whether a name has one of these plain words, or a word that begins with one, as compounds of many languages do.
fn has_a_word(name: &str, words: &[String]) -> bool {
    let name = format!("{} ", plain(name));
    let begins = |at: usize, word: &str| {
        let rest = &name[at..];
        rest.starts_with(word) && (word.len() >= LEAST_BYTES_TO_BEGIN || rest[word.len()..].starts_with(' '))
    };
    let starts = || name.char_indices().filter(|(at, _)| *at == 0 || name[..*at].ends_with(' ')).map(|(at, _)| at);
    words.iter().any(|word| starts().any(|at| begins(at, word)))
}

/// Whether a name has one of these words whole, or with an s at its end: what only begins with one may be a quilt.
fn has_a_whole_word(name: &str, words: &[String]) -> bool {
    let name = format!(" {} ", plain(name));
    words.iter().any(|word| [" ", "s "].iter().any(|end| name.contains(&format!(" {word}{end}"))))
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

/// Lower case words with one space between them, without the marks of letters: people type names with and without.
fn plain(text: &str) -> String {
    let is_mark = |c: &char| ('\u{300}'..='\u{36f}').contains(c);
    let without = |c: char| {
        let marked = MARKED.iter().find(|(marked, _)| !c.is_ascii() && marked.contains(c));
        marked.map_or(c, |(_, plain)| *plain)
    };
    let lower: String = text.to_lowercase().chars().filter(|c| !is_mark(c)).map(without).collect();
    lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::{has_a_whole_word, has_a_word, plain_words};

    #[test]
    fn a_word_of_another_use_is_found_whole_or_in_the_plural() {
        let words = plain_words(["cushion", "sham", "table topper"].into_iter());
        for name in ["cushion", "Cushions 18", "pillow sham", "Table-Topper", "SHAMS"] {
            assert!(has_a_whole_word(name, &words), "{name}");
        }
        for name in ["shamrock", "cushioned", "table", "topper", ""] {
            assert!(!has_a_whole_word(name, &words), "{name}");
        }
    }

    #[test]
    fn a_word_is_found_whole_or_at_the_beginning_of_a_compound() {
        let words = plain_words(["cot", "baby", "moses basket", "bébé", "säugling"].into_iter());
        for name in ["cot", "Cot-size", "a COT quilt", "Babydecke", "BABY", "small (baby)", "Moses  basket", "BÉBÉ"] {
            assert!(has_a_word(name, &words), "{name}");
        }
        // With marks as characters by themselves, and without.
        assert!(
            has_a_word("be\u{301}be\u{301}", &words) && has_a_word("Bebe", &words) && has_a_word("Saugling", &words)
        );
        for name in ["cottage", "cotton", "apricot", "crybaby", "moses", "", "-"] {
            assert!(!has_a_word(name, &words), "{name}");
        }
    }
}
