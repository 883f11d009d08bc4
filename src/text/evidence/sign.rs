//! Signs: a few words each, of which the program itself only makes a digest.

use super::super::keys::What;
use super::super::lexicon::{Cue, Section};
use super::digest::with_word;

/// What signs are made as.
pub(super) trait Sign: Sized + Clone {
    /// A sign of one word.
    fn new(word: &str) -> Self;
    /// The same with another word.
    fn and(self, word: &str) -> Self;
}

/// A sign by its digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Mark(pub(super) u64);

impl Sign for Mark {
    fn new(word: &str) -> Mark {
        Mark(with_word(0, word))
    }

    fn and(self, word: &str) -> Mark {
        Mark(with_word(self.0, word))
    }
}

impl Sign for String {
    fn new(word: &str) -> String {
        word.into()
    }

    fn and(self, word: &str) -> String {
        self + " " + word
    }
}

/// A sign of several words.
pub(super) fn sign<S: Sign>(words: &[&str]) -> S {
    words[1..].iter().fold(S::new(words[0]), |sign, word| sign.and(word))
}

pub(super) const fn yes(is: bool) -> &'static str {
    if is { "yes" } else { "no" }
}

impl What {
    /// How many kinds of numbers there are.
    pub(super) const COUNT: usize = What::Count as usize + 1;

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
    pub(super) const fn word(self) -> &'static str {
        match self {
            What::Amount => "amount",
            What::Bought => "bought",
            What::Strips => "strips",
            What::Pieces => "pieces",
            What::CutSize => "cut-size",
            What::StripWidth => "strip-width",
            What::Finished => "finished",
            What::Unfinished => "unfinished",
            What::Layer => "layer",
            What::Makes => "makes",
            What::Panels => "panels",
            What::Laid => "laid",
            What::FromEach => "from-each",
            What::Seam => "seam",
            What::UsableWidth => "usable-width",
            What::Length => "length",
            What::LeftOver => "left-over",
            What::Count => "count",
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

    pub(super) const fn word(self) -> &'static str {
        match self {
            Kind::Piece => "piece",
            Kind::Unit => "unit",
            Kind::Block => "block",
            Kind::Border => "border",
            Kind::Section => "section",
            Kind::Quilt => "quilt",
            Kind::Fabric => "fabric",
        }
    }
}
