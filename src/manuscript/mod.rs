//! What a writer wrote: the model of a manuscript, and the reader that keeps a place for every entry.
//!
//! [`Source`] is the text, [`tree`] its entries with their places, [`section`] the words of the format, [`table`] reads
//! them word by word, and [`read`] fills the [`Manuscript`]. Mistakes are gathered, never thrown: one run tells them all.

mod by_place;
pub mod design;
pub(crate) mod kinds;
mod mending;
pub mod mistake;
pub mod model;
mod read;
mod read_backing;
mod read_binding;
mod read_blocks;
mod read_fabrics;
pub(crate) mod read_known;
mod read_layout;
mod read_outline;
mod read_sizes;
mod read_units;
pub mod reader;
mod scalar;
pub mod section;
mod source;
mod span;
pub mod table;
pub mod tree;
mod words;

use section::{Shape, Words};

/// What a manuscript may hold.
pub const FORMAT: Shape = Shape::Table(Manuscript::SECTION);

pub(crate) use by_place::ByPlace;
pub use mistake::{Mistake, Mistakes, What};
pub use model::Manuscript;
pub use read::read;
pub(crate) use read::with_tree;
pub use reader::Reader;
pub(crate) use scalar::{is_plain, name_in_place, word_in_place};
pub use source::{LARGEST_FILE, Place, Source};
pub use span::{Field, Span, Spanned};
pub use table::WORDS_WITH_VALUES;
pub use words::{Word, nearest, quoted, spellings};
