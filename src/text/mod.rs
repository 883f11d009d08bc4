//! The printed text of a pattern, checked against its manuscript.
//!
//! A text is read into passages (`passage`, `formats`), these into words and numbers (`tokens`, `numbers`, `elements`); the
//! manuscript gives the keys (`keys`, `lexicon`); what stands around a number leaves some of them (`context`), and each
//! line goes to what fits it as a whole (`assign`).

mod assign;
mod by_value;
mod candidates;
mod check;
mod claims;
mod compare;
mod context;
mod elements;
mod evidence;
mod families;
mod files;
mod fits;
pub mod formats;
mod grids;
mod heads;
mod judge;
mod key_groups;
mod key_sets;
mod key_words;
mod keys;
mod kinds;
mod levels;
mod lexicon;
mod lines;
mod matched;
mod naming;
mod not_required;
mod nouns;
mod number_words;
mod numbers;
mod outcomes;
pub mod passage;
mod phrases;
mod reading;
mod remarks;
mod runs;
mod runs_by_fit;
mod said;
mod sentences;
mod sizes_by_fit;
mod slashes;
mod tokens;
mod untold;

pub use check::{NamedText, ReadExtent, TextOutcome, named_texts};
#[doc(hidden)]
pub use evidence::{KeySigns, NumberSigns, signs_of};
pub use files::{Load, TextFile, beside};
pub(crate) use files::{bytes_beside, path_of};
pub(crate) use formats::ENDINGS;
pub use formats::{is_named_as_text, read_text, text_bytes};
pub(crate) use keys::Key;
pub(crate) use lexicon::{Cue, text_values};
pub use matched::{MatchedNumber, MatchedText, match_text, page_words, place_words};
pub use naming::manuscripts_naming;
pub use passage::{Passage, PassageKind, PlacedRun, PrintedText, TextFormat, TextPlace, TextProblem};
pub use reading::{ReadNumber, Reading, Reference, Share, State};
pub use remarks::{Remark, RemarkKind};
pub use said::SaidNumber;
pub(crate) use untold::untold;
