//! The cautions that stand wherever cutting and pressing are described, or a quilt is listed that would fit a crib.

use crate::manuscript::model::{BattingSize, Bed, Packaged, PerSize, Size};
use crate::manuscript::{Manuscript, Place, Source};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::finished;
use crate::rule_book::{DimensionsValue, LengthValue, Settings, WordsValue};

const MATTRESS: DimensionsValue = DimensionsValue("mattress_crib");
const DROP: LengthValue = LengthValue("crib_drop");
const WORDS: WordsValue = WordsValue("crib_words");

/// For whoever makes a quilt that would fit a crib.
pub const CRIB: &str = "For an infant, a quilt of crib (cot) size is a play mat or a wall hanging, and not bedding. Loose \
     bedding in a crib is a hazard to a child under one year: follow your national safe-sleep guidance and the \
     makers' instructions.";

/// For whoever cuts, presses and sews.
pub const WORK: &str = "Rotary blades, irons and sewing needles hurt people. Cut away from yourself, close the blade \
     after every cut, keep children and pets clear, and follow the makers' instructions and the safety codes of the \
     place where you work.";

/// A size that would fit a crib, or is called or used as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CribQuilt {
    /// Its name.
    pub size: String,
    /// Where that stands.
    pub place: Place,
}

/// The cautions for what a manuscript lists.
pub(crate) fn cautions(manuscript: &Manuscript, settings: &Settings) -> Vec<&'static str> {
    let for_a_crib = manuscript.sizes.iter().any(|size| is_for_a_crib(manuscript, size, settings));
    let something_is_cut =
        manuscript.binding.is_some() || manuscript.fabrics.iter().any(|fabric| !fabric.cut.is_empty());
    let cautions = [for_a_crib.then_some(CRIB), something_is_cut.then_some(WORK)];
    cautions.into_iter().flatten().collect()
}

/// The first size of a manuscript that is for a crib.
pub(crate) fn first_crib_quilt(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Option<CribQuilt> {
    let size = manuscript.sizes.iter().find(|size| is_for_a_crib(manuscript, size, settings))?;
    Some(CribQuilt { size: size.name.clone(), place: source.place(size.at.start) })
}

/// Whether a size would fit a crib by its measurements, or is for one by its bed, its batting, its name or the
/// pattern's. No number goes by this, so what it asks of the rule book is not kept for a sign-off.
fn is_for_a_crib(manuscript: &Manuscript, size: &Size, settings: &Settings) -> bool {
    let mattress = settings.unrecorded_dimensions(MATTRESS);
    let drop = settings.unrecorded_length(DROP);
    let largest = Rectangle::new(mattress.width + drop * 2, mattress.length + drop);
    let by_measure = finished(size).is_some_and(|quilt| largest.holds(quilt));
    let by_batting = batting(manuscript, size) == Some(BattingSize::Packaged(Packaged::Crib));
    let words: Vec<&str> = settings.unrecorded_words(WORDS).words().collect();
    let pattern = manuscript.pattern.stated().map_or("", |name| name.value.as_str());
    let by_name = [size.name.as_str(), pattern].iter().any(|name| has_a_word(name, &words));
    by_measure || by_batting || by_name || size.bed.value() == Some(Bed::Crib)
}

fn batting(manuscript: &Manuscript, size: &Size) -> Option<BattingSize> {
    let index = manuscript.sizes.iter().position(|known| known.name == size.name)?;
    let stated = manuscript.batting.as_ref()?.requires.get(index).and_then(PerSize::stated)?;
    Some(stated.value)
}

/// Fewer bytes than this must be a whole word of a name: `cot` is not in `cottage`.
const LEAST_BYTES_TO_BEGIN: usize = 4;

/// Whether a name has one of these words, or a word that begins with one, as compounds of many languages do.
fn has_a_word(name: &str, words: &[&str]) -> bool {
    let name = format!("{} ", plain(name));
    let begins = |at: usize, word: &str| {
        let rest = &name[at..];
        rest.starts_with(word) && (word.len() >= LEAST_BYTES_TO_BEGIN || rest[word.len()..].starts_with(' '))
    };
    let starts = || name.char_indices().filter(|(at, _)| *at == 0 || name[..*at].ends_with(' ')).map(|(at, _)| at);
    words
        .iter()
        .map(|word| plain(word))
        .filter(|word| !word.is_empty())
        .any(|word| starts().any(|at| begins(at, &word)))
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
    let without = |c: char| MARKED.iter().find(|(marked, _)| marked.contains(c)).map_or(c, |(_, plain)| *plain);
    let lower: String = text.to_lowercase().chars().filter(|c| !is_mark(c)).map(without).collect();
    lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::has_a_word;

    #[test]
    fn a_word_is_found_whole_or_at_the_beginning_of_a_compound() {
        let words = ["cot", "baby", "moses basket", "bébé", "säugling"];
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
