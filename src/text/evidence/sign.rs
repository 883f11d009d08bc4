//! Signs: a few words each, of which the program itself only makes a digest.

use super::super::keys::What;
use super::super::lexicon::{Cue, Section};
use super::digest::{mix, of_word};

/// A word of signs, with its digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Word<'w> {
    pub(super) text: &'w str,
    digest: u64,
}

impl<'w> Word<'w> {
    pub(super) const fn new(text: &'w str) -> Word<'w> {
        Word { text, digest: of_word(text) }
    }
}

/// A word that the program itself says, digested as it is compiled.
macro_rules! word {
    ($text:literal) => {
        const { $crate::text::evidence::sign::Word::new($text) }
    };
}

/// Several of them.
macro_rules! words {
    ($($text:literal),+ $(,)?) => {
        [$($crate::text::evidence::sign::Word::new($text)),+]
    };
}

pub(super) use {word, words};

/// What signs are made as.
pub(super) trait Sign: Sized + Clone {
    /// A sign of one word.
    fn new(word: Word<'_>) -> Self;
    /// The same with another word.
    fn and(self, word: Word<'_>) -> Self;
}

/// A sign by its digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Mark(pub(super) u64);

impl Sign for Mark {
    fn new(word: Word<'_>) -> Mark {
        Mark(mix(0, word.digest))
    }

    fn and(self, word: Word<'_>) -> Mark {
        Mark(mix(self.0, word.digest))
    }
}

impl Sign for String {
    fn new(word: Word<'_>) -> String {
        String::new().and(word)
    }

    /// The words of a sign are parted by spaces where the weights are written down.
    fn and(self, word: Word<'_>) -> String {
        debug_assert!(!word.text.contains(' '), "{:?} is no word", word.text);
        if self.is_empty() { word.text.into() } else { self + " " + word.text }
    }
}

/// A sign of several words.
pub(super) fn sign<S: Sign>(words: &[Word<'_>]) -> S {
    words[1..].iter().fold(S::new(words[0]), |sign, word| sign.and(*word))
}

pub(super) const fn yes(is: bool) -> Word<'static> {
    if is { word!("yes") } else { word!("no") }
}

impl What {
    /// How many kinds of numbers there are.
    pub(in super::super) const COUNT: usize = What::Count as usize + 1;

    /// All of them, in their order: tables go by it.
    pub(super) const ALL: [What; What::COUNT] = [
        What::Amount,
        What::Bought,
        What::Strips,
        What::Pieces,
        What::CutSize,
        What::StripWidth,
        What::Finished,
        What::Unfinished,
        What::Layer,
        What::Makes,
        What::Panels,
        What::Laid,
        What::FromEach,
        What::LeftOver,
        What::Seam,
        What::UsableWidth,
        What::Length,
        What::Count,
    ];

    /// The word for it in signs.
    pub(super) const fn word(self) -> Word<'static> {
        match self {
            What::Amount => word!("amount"),
            What::Bought => word!("bought"),
            What::Strips => word!("strips"),
            What::Pieces => word!("pieces"),
            What::CutSize => word!("cut-size"),
            What::StripWidth => word!("strip-width"),
            What::Finished => word!("finished"),
            What::Unfinished => word!("unfinished"),
            What::Layer => word!("layer"),
            What::Makes => word!("makes"),
            What::Panels => word!("panels"),
            What::Laid => word!("laid"),
            What::FromEach => word!("from-each"),
            What::Seam => word!("seam"),
            What::UsableWidth => word!("usable-width"),
            What::Length => word!("length"),
            What::LeftOver => word!("left-over"),
            What::Count => word!("count"),
        }
    }
}

/// The kinds of things that a number is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Piece,
    Unit,
    Block,
    Border,
    Section,
    Quilt,
    Fabric,
}

impl Kind {
    pub(super) const ALL: [Kind; 7] =
        [Kind::Piece, Kind::Unit, Kind::Block, Kind::Border, Kind::Section, Kind::Quilt, Kind::Fabric];

    pub(super) const fn of(cue: Cue) -> Option<Kind> {
        Some(match cue {
            Cue::Piece(..) => Kind::Piece,
            Cue::Unit(_) => Kind::Unit,
            Cue::Block(_) => Kind::Block,
            Cue::Border(_) => Kind::Border,
            Cue::Section(Section::Quilt | Section::Top) => Kind::Quilt,
            Cue::Section(_) => Kind::Section,
            Cue::Fabric(_) => Kind::Fabric,
            _ => return None,
        })
    }

    pub(super) const fn word(self) -> Word<'static> {
        match self {
            Kind::Piece => word!("piece"),
            Kind::Unit => word!("unit"),
            Kind::Block => word!("block"),
            Kind::Border => word!("border"),
            Kind::Section => word!("section"),
            Kind::Quilt => word!("quilt"),
            Kind::Fabric => word!("fabric"),
        }
    }
}
