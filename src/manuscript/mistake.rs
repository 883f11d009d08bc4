//! What the reader can find wrong with the way a manuscript is written down.
//!
//! At most 1000 are reported, and the rest are counted: a file with more is no manuscript.

use super::Span;

/// One mistake, and where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mistake {
    /// The place to point at.
    pub at: Span,
    /// What is wrong there.
    pub what: MistakeKind,
    /// Another place that explains this one, with a few words on it.
    pub related: Option<(Span, String)>,
}

/// The mistakes of one text, told one by one up to a bound, and counted beyond it.
#[derive(Debug, Default)]
pub struct Mistakes {
    told: Vec<Mistake>,
    left_out: usize,
}

impl Mistakes {
    /// How many mistakes are told one by one; a text with more is no manuscript.
    const MAX: usize = 1000;

    /// Adds a mistake.
    pub fn add(&mut self, mistake: Mistake) {
        if self.is_full() {
            self.left_out += 1;
        } else {
            self.told.push(mistake);
        }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.told.len() + self.left_out
    }

    /// Whether a further mistake would only be counted, so that there is no use in looking for what mends it.
    pub fn is_full(&self) -> bool {
        self.told.len() >= Self::MAX
    }

    /// Moves each place that begins or ends within a character of a text back to where that character begins.
    pub(super) fn place_between_characters_of(&mut self, text: &str) {
        for mistake in &mut self.told {
            mistake.at = mistake.at.between_characters_of(text);
            if let Some((at, _)) = &mut mistake.related {
                *at = at.between_characters_of(text);
            }
        }
    }

    /// The mistakes, by place, with a last one that counts those that were too many to tell.
    pub fn into_list(mut self) -> Vec<Mistake> {
        self.told.sort_by_key(|mistake| mistake.at);
        if self.left_out > 0 {
            // After the last of them, so that it is told last.
            let end = self.told.iter().map(|mistake| mistake.at.end).max().unwrap_or_default();
            let at = Span::new(end, end);
            let why = format!("{} more mistakes like these are not listed one by one", self.left_out);
            let mend = "fix the ones that are listed and check again";
            self.told.push(Mistake { at, what: MistakeKind::NotYaml { why, mend }, related: None });
        }
        self.told
    }
}

/// What a name was taken for that should be a piece of a cutting list.
pub const AMONG_PIECES: &str = "the pieces of the cutting lists";

/// The kinds of mistake.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MistakeKind {
    /// The text is not laid out as plain YAML: what is wrong, and how to mend it.
    NotYaml {
        /// What is wrong, as a sentence without its full stop.
        why: String,
        /// What to do about it.
        mend: &'static str,
    },
    /// A word that the format does not have.
    UnknownWord {
        /// The word.
        word: String,
        /// Where it stands, as in "in `binding`".
        place: String,
        /// The words that are known there.
        known: Vec<&'static str>,
        /// The known word that is nearest, if one is near.
        nearest: Option<&'static str>,
    },
    /// A table lacks an entry that it must have.
    MissingEntry {
        /// The entry.
        word: &'static str,
        /// The entry with a value, as an example.
        example: String,
        /// The table that lacks it.
        place: String,
    },
    /// One value where a table is expected, or the other way round.
    WrongShape {
        /// The entry.
        word: String,
        /// What is expected there, such as "a whole number".
        expected: &'static str,
        /// What it looks like, such as `{ finished: 36 x 48 }`.
        example: &'static str,
    },
    /// A quantity that cannot be read.
    UnreadableQuantity {
        /// The whole text of the quantity.
        text: String,
        /// What was expected at the place.
        why: String,
    },
    /// A fraction above one that was read as it is written, and that a space would make another plausible number.
    RunTogether {
        /// What it was read as, such as `20 1/2`.
        read_as: String,
        /// What it would be with a space, such as `4 1/2`.
        meant: String,
    },
    /// Something that is in range by itself and cannot be beside what else is stated: why, as a sentence.
    CannotBe {
        /// Why, as a sentence without its full stop.
        why: String,
        /// What to do about it.
        mend: &'static str,
    },
    /// More entries than are read: how many are, as a clause.
    TooMany {
        /// How many may be.
        why: String,
    },
    /// A quantity beyond the bounds.
    OutOfRange {
        /// What is too large, too small or too fine.
        why: String,
        /// What to write instead, as sentences; empty where `why` says all.
        help: &'static str,
    },
    /// A size for which a requirement is not stated.
    SizeNotStated {
        /// The size.
        size: String,
        /// The requirement, such as `binding`.
        place: String,
    },
    /// A requirement for a size that the pattern does not list.
    UnknownSize {
        /// The name that is not a size.
        name: String,
        /// The sizes there are.
        sizes: Vec<String>,
        /// The size that is nearest, if one is near.
        nearest: Option<String>,
    },
    /// A fabric that the pattern does not list.
    UnknownFabric {
        /// The name that is not a fabric.
        name: String,
        /// The fabrics there are.
        fabrics: Vec<String>,
        /// The fabric that is nearest, if one is near.
        nearest: Option<String>,
    },
    /// A name that the manuscript does not give to anything of the kind that is meant.
    UnknownName {
        /// The name.
        name: String,
        /// What it was taken for, one of several: "the pattern's units".
        among: &'static str,
        /// The names there are.
        known: Vec<String>,
        /// The name that is nearest, if one is near.
        nearest: Option<String>,
        /// The value that the name is a part of, and what follows the name in it, such as ` turned`.
        within: Option<(Span, &'static str)>,
    },
    /// An entry that stands twice in one table.
    RepeatedKey {
        /// The entry.
        word: String,
        /// What to do about it, where that is more than taking one of them out.
        mend: Option<&'static str>,
    },
}
