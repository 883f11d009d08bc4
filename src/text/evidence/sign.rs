//! Signs: a few words each, of which the program itself only makes a digest.

use super::super::keys::What;
use super::super::lexicon::{Cue, Section};

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

impl Mark {
    const EMPTY: Mark = Mark(0);

    /// With a word more: eight bytes at a time are mixed in, and the word's length. `text_weights.rs` of the build does
    /// the same to a sign's words.
    fn with(self, word: &str) -> Mark {
        let mix = |digest: u64, part: u64| (digest.rotate_left(5) ^ part).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let (parts, rest) = word.as_bytes().as_chunks::<8>();
        let mut digest = parts.iter().fold(self.0, |digest, part| mix(digest, u64::from_le_bytes(*part)));
        if !rest.is_empty() {
            let mut part = [0; 8];
            part[..rest.len()].copy_from_slice(rest);
            digest = mix(digest, u64::from_le_bytes(part));
        }
        Mark(mix(digest, word.len() as u64))
    }
}

impl Sign for Mark {
    fn new(word: &str) -> Mark {
        Mark::EMPTY.with(word)
    }

    fn and(self, word: &str) -> Mark {
        self.with(word)
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

    /// All of them.
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
        What::Seam,
        What::UsableWidth,
        What::Length,
        What::LeftOver,
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
