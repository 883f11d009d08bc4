//! The words that lead to a number: those of the trade, from `rules/words/text-words.yaml`, and the manuscript's own.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::tokens::{Token, TokenKind, stem, tokens};
use crate::manuscript::model::{Fabric, SoldAs};
use crate::manuscript::{Keyword, Manuscript};
use crate::rule_book::Settings;

include!(concat!(env!("OUT_DIR"), "/text_words.rs"));

/// The names by which house rules add words: `text_strip`.
pub(crate) const fn text_values() -> &'static [&'static str] {
    TEXT_VALUES
}

macro_rules! meanings {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[allow(missing_docs)] // Each is named by its word in the table of words.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub(crate) enum $name { $($variant),+ }

        #[allow(dead_code)] // Not each of them is asked for both.
        impl $name {
            fn from_word(word: &str) -> Option<$name> {
                match word { $($word => Some($name::$variant),)+ _ => None }
            }

            /// The word for it.
            pub(crate) const fn word(self) -> &'static str {
                match self { $($name::$variant => $word),+ }
            }

            /// A set that holds it alone.
            pub(crate) const fn bit(self) -> u32 {
                1 << self as u32
            }

            /// Those that a set holds.
            pub(crate) fn in_bits(bits: u32) -> impl Iterator<Item = $name> {
                [$($name::$variant),+].into_iter().filter(move |one| bits & one.bit() != 0)
            }
        }
    };
}

meanings!(
    /// What is counted or measured.
    Noun {
        Strip = "strip", Square = "square", Rectangle = "rectangle", Triangle = "triangle", Piece = "piece",
        Unit = "unit", Block = "block", Row = "row", Column = "column", Panel = "panel", Segment = "segment",
        Set = "set", Quarter = "quarter", Eighth = "eighth", Pack = "pack", Sash = "sash", Cornerstone = "cornerstone",
        Point = "point", Log = "log", Fabric = "fabric", Seam = "seam", Tail = "tail", Opening = "opening",
        Edge = "edge", Side = "side", Width = "width", Usable = "usable",
        Hem = "hem", Overlap = "overlap", Multiple = "multiple",
    }
);

impl Noun {
    /// Whether it is of anything.
    pub(crate) fn is_vague(self) -> bool {
        matches!(self, Noun::Side | Noun::Edge)
    }

    /// Those that are of one thing only.
    pub(crate) fn specific() -> u32 {
        let own = [
            Noun::Tail,
            Noun::Opening,
            Noun::Seam,
            Noun::Pack,
            Noun::Quarter,
            Noun::Eighth,
            Noun::Panel,
            Noun::Usable,
            Noun::Hem,
            Noun::Overlap,
            Noun::Multiple,
        ];
        own.iter().fold(0, |bits, noun| bits | noun.bit())
    }

    /// Whether pieces are called so.
    pub(crate) const fn is_of_pieces(self) -> bool {
        matches!(self, Noun::Strip | Noun::Square | Noun::Rectangle | Noun::Triangle | Noun::Piece)
    }
}

meanings!(
    /// A part of the quilt that is spoken of.
    Section {
        Binding = "binding", Backing = "backing", Batting = "batting", Sleeve = "sleeve", Points = "points",
        Pillow = "pillow", Border = "border", Sashing = "sashing", Flange = "flange", Quilt = "quilt", Top = "top",
        Label = "label",
    }
);

meanings!(
    /// What is done, or said of a measure.
    Act {
        Cut = "cut", Make = "make", Sew = "sew", Finished = "finished", Measured = "measured", Trimmed = "trimmed", Bought = "bought",
        Around = "around", Beyond = "beyond",
    }
);

/// What a word or a term in a text leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Cue {
    /// A fabric, by its place.
    Fabric(usize),
    /// A piece, by the places of its fabric and of its entry.
    Piece(usize, usize),
    /// A unit, by its place.
    Unit(usize),
    /// A block, by its place.
    Block(usize),
    /// A border, counted from the inside.
    Border(usize),
    /// A part of the quilt.
    Section(Section),
    /// What is counted or measured.
    Noun(Noun),
    /// What is done.
    Act(Act),
    /// A size, by its place.
    Size(usize),
    /// A word after which a whole number is a label.
    Label,
    /// A word that makes a number before it no requirement.
    Other,
}

impl Cue {
    /// The size that it names, by its place in the manuscript.
    pub(crate) const fn size(self) -> Option<usize> {
        if let Cue::Size(size) = self { Some(size) } else { None }
    }

    /// Whether it names the thing that a number is of.
    pub(crate) const fn is_subject(self) -> bool {
        matches!(
            self,
            Cue::Fabric(_) | Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_) | Cue::Border(_) | Cue::Section(_)
        )
    }
}

/// A cue at its place in a passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct PlacedCue {
    /// What it leads to.
    pub cue: Cue,
    /// The tokens that it takes.
    pub tokens: Range<usize>,
    /// Whether the word means this only among others: a piece that is called `side`.
    pub weak: bool,
}

/// A term.
#[derive(Clone, Debug)]
struct Term {
    /// Its words without their endings.
    stems: Vec<String>,
    /// How a short name is spelled, which is a name only so.
    exact: Option<String>,
    cue: Cue,
    weak: bool,
}

/// All terms by their first words.
#[derive(Clone, Debug, Default)]
pub(crate) struct Lexicon {
    terms: BTreeMap<String, Vec<Term>>,
    /// Names of pieces that are a letter, or a letter and a number.
    pub letters: Vec<String>,
}

/// Words that say much besides the name that a writer has given with them.
const COMMON: [&str; 26] = [
    "side", "top", "end", "center", "corner", "row", "block", "unit", "piece", "strip", "square", "foot", "middle",
    "step", "edge", "border", "light", "dark", "one", "two", "left", "right", "patch", "half", "back", "bottom",
];

impl Lexicon {
    /// The trade's words and those of a manuscript.
    pub(crate) fn new(manuscript: &Manuscript, settings: &Settings) -> Lexicon {
        let mut lexicon = Lexicon::default();
        let of_house = settings.text_words().flat_map(|(meaning, term)| {
            let known = TERMS.iter().filter(|(_, known, _)| *known == meaning).map(|(group, ..)| *group);
            let groups: BTreeSet<&str> = known.collect();
            groups.into_iter().map(move |group| (group, meaning, term))
        });
        for (group, meaning, term) in TERMS.iter().copied().chain(of_house) {
            let cue = match group {
                "nouns" => Noun::from_word(meaning).map(Cue::Noun),
                "sections" => Section::from_word(meaning).map(Cue::Section),
                "acts" => Act::from_word(meaning).map(Cue::Act),
                "labels" => Some(Cue::Label),
                "others" => Some(Cue::Other),
                _ => None,
            };
            if let Some(cue) = cue {
                // `At top and bottom` says nothing of the quilt top.
                lexicon.add(term, cue, None, matches!(term, "top" | "center" | "back"));
            }
        }
        lexicon.names(manuscript);
        lexicon.makes(manuscript, settings);
        lexicon.borders();
        lexicon
    }

    fn add(&mut self, term: &str, cue: Cue, exact: Option<&str>, weak: bool) {
        let stems = stems(term);
        let Some(first) = stems.first() else { return };
        let terms = self.terms.entry(first.clone()).or_default();
        if !terms.iter().any(|known| known.stems == stems && known.cue == cue) {
            terms.push(Term { stems: stems.clone(), exact: exact.map(str::to_string), cue, weak });
        }
    }

    /// A name that a writer has given.
    fn name(&mut self, name: &str, cue: Cue) {
        let spoken = name.replace('_', " ");
        let is_short = spoken.chars().count() <= 2;
        let weak = COMMON.contains(&stem(&spoken).as_str());
        self.add(&spoken, cue, is_short.then_some(name), weak);
    }

    fn names(&mut self, manuscript: &Manuscript) {
        // What the pattern is called names nothing in it.
        if let Some(pattern) = manuscript.pattern.stated() {
            self.add(&pattern.value, Cue::Label, None, false);
        }
        for (place, size) in manuscript.sizes.iter().enumerate() {
            self.name(&size.name, Cue::Size(place));
            let short = size.name.to_lowercase();
            for (word, other) in [("crib", "baby"), ("twin", "single"), ("full", "double"), ("throw", "lap")] {
                let taken = manuscript.sizes.iter().any(|size| size.name.eq_ignore_ascii_case(other));
                if short == word && !taken && word != "throw" {
                    self.name(other, Cue::Size(place));
                }
            }
        }
        self.initials_of_sizes(manuscript);
        for (fabric, stated) in manuscript.fabrics.iter().enumerate() {
            self.name(&stated.name, Cue::Fabric(fabric));
            self.sold(fabric, manuscript);
            for words in [&stated.role, &stated.color].into_iter().filter_map(|words| words.stated()) {
                self.alias(&words.value, Cue::Fabric(fabric), manuscript);
            }
            for (cut, entry) in stated.cut.iter().enumerate() {
                if let Some(piece) = entry.piece.stated() {
                    self.name(&piece.value, Cue::Piece(fabric, cut));
                    if is_letter(&piece.value) {
                        self.letters.push(piece.value.clone());
                    }
                }
            }
        }
        self.numbered(manuscript);
        for (place, unit) in manuscript.units.iter().enumerate() {
            self.name(&unit.name, Cue::Unit(place));
        }
        for (place, block) in manuscript.blocks.iter().enumerate() {
            self.name(&block.name, Cue::Block(place));
            if manuscript.blocks.len() == 1 {
                self.add("block", Cue::Block(place), None, true);
            }
        }
    }

    /// Sizes by their first letters, as tables head their columns: S and L, where each has its own and no piece is
    /// called so.
    fn initials_of_sizes(&mut self, manuscript: &Manuscript) {
        let initial = |name: &str| name.chars().next().map(|letter| letter.to_uppercase().to_string());
        let initials: Vec<Option<String>> = manuscript.sizes.iter().map(|size| initial(&size.name)).collect();
        let all: BTreeSet<&Option<String>> = initials.iter().collect();
        let pieces = manuscript.fabrics.iter().flat_map(|fabric| &fabric.cut).filter_map(|cut| cut.piece.stated());
        let is_lettered = pieces.into_iter().any(|piece| piece.value.chars().count() <= 2);
        if initials.len() < 2 || all.len() < initials.len() || is_lettered {
            return;
        }
        for (place, initial) in initials.iter().enumerate() {
            if let Some(initial) = initial.as_deref().filter(|initial| !matches!(*initial, "A" | "I")) {
                self.name(initial, Cue::Size(place));
            }
        }
    }

    /// What pieces with numbers are called together: `log 1`, `log 2` are logs.
    fn numbered(&mut self, manuscript: &Manuscript) {
        let mut known: BTreeMap<String, Vec<Cue>> = BTreeMap::new();
        for (fabric, stated) in manuscript.fabrics.iter().enumerate() {
            for (cut, entry) in stated.cut.iter().enumerate() {
                let name = entry.piece.stated().and_then(|piece| piece.value.rsplit_once(' '));
                if let Some((word, number)) = name
                    && number.bytes().all(|byte| byte.is_ascii_digit())
                {
                    known.entry(word.to_string()).or_default().push(Cue::Piece(fabric, cut));
                }
            }
        }
        for (word, cues) in known.iter().filter(|(_, cues)| cues.len() > 1) {
            for cue in cues {
                self.name(word, *cue);
            }
        }
    }

    /// What a fabric is for or its color, where that is a word or two that no other fabric has.
    fn alias(&mut self, words: &str, cue: Cue, manuscript: &Manuscript) {
        const SECTIONS: [&str; 6] = ["binding", "border", "backing", "block", "sashing", "batting"];
        let words = words.split(|c: char| !(c.is_alphanumeric() || c == ' ' || c == '-')).next().unwrap_or("");
        let is_said = SECTIONS.iter().any(|section| words.contains(section));
        let others = manuscript.fabrics.iter().filter(|fabric| {
            let has = [&fabric.role, &fabric.color];
            has.into_iter().filter_map(|field| field.stated()).any(|said| said.value.contains(words))
                || fabric.name == words
        });
        if !words.trim().is_empty() && words.split_whitespace().count() <= 2 && !is_said && others.count() == 1 {
            self.name(words.trim(), cue);
        }
    }

    /// What a fabric is called by how it is bought, where no other is bought so.
    fn sold(&mut self, fabric: usize, manuscript: &Manuscript) {
        let sold = |fabric: &Fabric| fabric.sold_as.value();
        let Some(own) = manuscript.fabrics.get(fabric).and_then(sold) else { return };
        let terms: &[&str] = match own {
            SoldAs::FatQuarters => &["fat quarter", "fq"],
            SoldAs::FatEighths => &["fat eighth"],
            SoldAs::Squares | SoldAs::Strips => &["pack", "packet", "bundle"],
            _ => &[],
        };
        if manuscript.fabrics.iter().filter(|fabric| sold(fabric) == Some(own)).count() == 1 {
            for term in terms {
                self.add(term, Cue::Fabric(fabric), None, true);
            }
        }
    }

    /// What units are called by how they are made.
    fn makes(&mut self, manuscript: &Manuscript, settings: &Settings) {
        for (place, unit) in manuscript.units.iter().enumerate() {
            let Some(make) = unit.make.value().map(Keyword::word) else { continue };
            for (_, _, term) in TERMS.iter().filter(|(group, meaning, _)| *group == "makes" && *meaning == make) {
                self.add(term, Cue::Unit(place), None, false);
            }
            for (_, term) in settings.text_words().filter(|(meaning, _)| *meaning == make) {
                self.add(term, Cue::Unit(place), None, false);
            }
        }
    }

    fn borders(&mut self) {
        for (words, border) in [
            ("inner border", 0),
            ("first border", 0),
            ("border 1", 0),
            ("second border", 1),
            ("border 2", 1),
            ("third border", 2),
        ] {
            self.add(words, Cue::Border(border), None, false);
        }
        self.add("outer border", Cue::Border(usize::MAX), None, false);
    }

    /// The cues of a passage, in the order of its tokens: at each place those of the longest terms.
    pub(crate) fn cues(&self, text: &str, tokens: &[Token]) -> Vec<PlacedCue> {
        let mut cues = Vec::new();
        let mut at = 0;
        while at < tokens.len() {
            let found = self.terms_at(text, tokens, at);
            let longest = found.iter().map(|(_, end)| *end).max();
            for (term, end) in found {
                if term.cue.size().is_some() && is_of_a_side(&tokens[at..], end - at) {
                    continue;
                }
                // A sashing strip is a strip, and of the sashing.
                if Some(end) == longest || matches!(term.cue, Cue::Section(_)) {
                    // A name that stands in brackets by itself is that name.
                    let sign = |at: usize, sign| tokens.get(at).is_some_and(|token| token.is_sign(sign));
                    let is_label = at > 0 && sign(at - 1, '(') && sign(end, ')');
                    cues.push(PlacedCue { cue: term.cue, tokens: at..end, weak: term.weak && !is_label });
                }
            }
            at = longest.unwrap_or(at + 1);
        }
        cues
    }

    fn terms_at(&self, text: &str, tokens: &[Token], start: usize) -> Vec<(&Term, usize)> {
        let Some(terms) = self.terms.get(word_of(text, &tokens[start]).as_str()) else { return Vec::new() };
        let ends = |term: &Term| {
            let mut at = start;
            for (index, stem) in term.stems.iter().enumerate() {
                if index > 0 && tokens.get(at).is_some_and(|token| token.is_sign('-')) {
                    at += 1;
                }
                if tokens.get(at).map(|token| word_of(text, token)).as_ref() != Some(stem) {
                    return None;
                }
                at += 1;
            }
            let spelled = &text[tokens[start].at.start..tokens[at - 1].at.end];
            let fits = term.exact.as_ref().is_none_or(|name| spelled == name && is_name_here(text, tokens, start));
            fits.then_some(at)
        };
        terms.iter().filter_map(|term| Some((term, ends(term)?))).collect()
    }
}

/// Whether a name is a letter, or a letter and a number.
pub(super) fn is_letter(name: &str) -> bool {
    let mut letters = name.chars();
    letters.next().is_some_and(|c| c.is_ascii_uppercase()) && letters.all(|c| c.is_ascii_digit()) && name.len() <= 3
}

/// A word's stem, or a number as it is written.
fn word_of(text: &str, token: &Token) -> String {
    match token.kind {
        TokenKind::Word => token.stem.clone(),
        TokenKind::Number(_) => text[token.at.clone()].to_string(),
        TokenKind::Sign('#') => "#".into(),
        TokenKind::Sign(_) => String::new(),
    }
}

/// The words of a term without their endings.
fn stems(term: &str) -> Vec<String> {
    let parts = tokens(term);
    let words = parts.list.iter().map(|token| word_of(term, token)).filter(|word| !word.is_empty());
    words.collect()
}

/// Whether a word says which side is meant and no size: `the long sides first`, where a size is named `long`.
fn is_of_a_side(tokens: &[Token], length: usize) -> bool {
    let is_shape = length == 1 && matches!(tokens[0].stem.as_str(), "long" | "short" | "wide" | "narrow");
    let next = tokens.get(length).map_or("", |token| token.stem.as_str());
    is_shape && matches!(next, "side" | "edge" | "end" | "way")
}

/// Whether a letter stands for a piece: `A square is` begins a sentence, and `(A)` does not.
fn is_name_here(text: &str, tokens: &[Token], at: usize) -> bool {
    let word = &text[tokens[at].at.clone()];
    if !matches!(word, "A" | "I") {
        return true;
    }
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    let begins = before.is_none_or(|token| token.ends_clause() || token.is_sign(':'));
    let next = tokens.get(at + 1);
    let next_is_plural = next.is_some_and(|token| token.is_word() && text[token.at.clone()].ends_with('s'));
    // `A 6 1/2" square is` begins a sentence as well.
    !begins
        || next.is_none()
        || next_is_plural
        || next.is_some_and(|token| !token.is_word() && token.number().is_none())
}
