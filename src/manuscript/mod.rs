//! What a writer wrote: the model of a manuscript, and the reader that keeps a place for every entry.
//!
//! [`Source`] is the text, [`tree`] its entries with their places, [`section`] the words of the format, [`table`] reads
//! them word by word, and `read` fills the [`Manuscript`]. Mistakes are gathered, never thrown: one run tells them all.

mod by_size;
pub(crate) mod declared_names;
pub mod design;
pub(crate) mod kinds;
pub mod mistake;
pub mod model;
mod other_fabrics;
mod piece_names;
mod position;
mod read;
mod read_backing;
mod read_binding;
mod read_blocks;
mod read_bought;
mod read_counts;
mod read_extras;
mod read_fabrics;
mod read_layout;
mod read_notions;
mod read_outline;
mod read_per_size;
mod read_rows;
mod read_shape;
mod read_sizes;
mod read_subcut;
mod read_texts;
mod read_units;
pub mod reader;
mod recovery;
mod replacements;
mod scalar;
pub mod section;
pub(crate) mod section_words;
mod source;
mod span;
mod span_index;
pub mod table;
pub mod tree;
mod unknown_name;

use section::Shape;
use section_words::SectionWords;

/// What a manuscript may hold.
pub const FORMAT: Shape = Shape::Table(Manuscript::SECTION);

pub use crate::keywords::{Keyword, nearest, quoted, spellings};
pub use by_size::BySize;
pub use mistake::{Mistake, MistakeKind, Mistakes};
pub use model::Manuscript;
pub use position::{Position, PositionEncoding, byte_at};
pub use read::read;
pub(crate) use read::{ReadText, with_tree};
pub(crate) use read_bought::AFTER;
pub(crate) use read_per_size::EVERY_SIZE;
pub use reader::Reader;
pub(crate) use replacements::Replacements;
pub(crate) use scalar::{is_plain, name_in_place, word_in_place};
pub use source::{LARGEST_FILE, Place, Source};
pub use span::{Field, Span, Spanned};
pub(crate) use span_index::SpanIndex;
pub use table::WORDS_WITH_VALUES;
pub(crate) use tree::arena_for;
