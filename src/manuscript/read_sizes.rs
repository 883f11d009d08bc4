//! Reading the sizes, and the requirements that are stated size by size.

use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::kinds::{Dimensions, OneOf, Positive};
use super::model::{Bed, Outline};
use super::read_outline::{OUTLINE, read_outline};
use super::read_per_size::EVERY_SIZE;
use super::reader::Reader;
use super::section::LeftOut::{Required, Said, Standard};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::Entry;
use super::{Field, MistakeKind, Span};
use crate::quantity::Written;

/// How many sizes a pattern may list.
const MAX_SIZES: usize = 200;

const SIZE_EXAMPLE: &str = "crib: { finished: 36 x 48 }";

section!(
    /// A size that the pattern is published in.
    pub struct Size, "sizes", "In each of the `sizes`", "";
    words {
        finished: Field<(Written, Written)> = Dimensions, Required,
            "the finished quilt, width x length, where it is widest and longest", "36 x 48";
        bed as "for": Field<Bed> = OneOf<Bed>, Said("no bed is asked about"),
            "the bed that it is for: `crib`, `twin bed`, `full bed`, `queen bed` or `king bed`", "queen bed",
            hint("a drop is measured from the top of a mattress");
        drop: Field<Written> = Positive, Said("only the top of the mattress must be covered"),
            "how far it drops at both sides of the bed and at the foot", "14", needs("for");
    }
    by_hand {
        outline: Field<Outline> = OUTLINE, Standard("rectangle"),
            "the shape of its edge: `rectangle`, `circle`, or one of those below", "{ clipped: 6 }";
    }
    besides {
        /// What the pattern calls it.
        name: String,
        /// Where its name stands.
        at: Span,
    }
);

/// The sizes and whether all of them could be read.
#[derive(Debug, Default)]
pub(super) struct Sizes {
    pub(super) list: Vec<Size>,
    /// False where the section is missing or broken, so that no name can be called unknown.
    pub(super) whole: bool,
}

impl Sizes {
    /// Their names.
    pub(super) fn names(&self) -> NameList<'_> {
        NameList::new(self.list.iter().map(|size| (size.name.as_str(), size.at)), self.whole, true)
    }
}

pub(super) fn read_sizes(reader: &mut Reader, entry: &Entry<'_>) -> Sizes {
    let Some(table) = Table::new(reader, "sizes", entry.key_at, &entry.value, SIZE_EXAMPLE) else {
        return Sizes::default();
    };
    if table.entries().is_empty() && !table.is_torn() {
        let (word, example) = (Size::finished.word, Size::finished.entry());
        reader.report(entry.key_at, MistakeKind::MissingEntry { word, example, place: "the sizes".into() });
        return Sizes::default();
    }
    let mut whole = !table.is_torn();
    if let Some(beyond) = table.entries().get(MAX_SIZES) {
        whole = false;
        let why = format!("a pattern may list {MAX_SIZES} sizes at most; this one and what follows are not read");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
    }
    let mut list = Vec::with_capacity(table.entries().len().min(MAX_SIZES));
    for entry in table.entries().iter().take(MAX_SIZES) {
        if entry.key == EVERY_SIZE {
            whole = false;
            let (why, mend) = ("`every_size` stands for all sizes, and cannot be the name of one", "give the size another name");
            reader.report(entry.key_at, MistakeKind::CannotBe { why: why.into(), mend });
        } else if is_fit_name(&entry.key) {
            list.push(read_size(reader, entry));
        } else {
            whole = false;
            reader.report(entry.key_at, unfit_name("size"));
        }
    }
    Sizes { list, whole }
}

fn read_size(reader: &mut Reader, entry: &Entry<'_>) -> Size {
    let (name, at) = (entry.key.to_string(), entry.key_at);
    let Some(mut table) = Table::new(reader, ["size", &entry.key], at, &entry.value, "{ finished: 36 x 48 }") else {
        return Size { name, at, outline: Field::Unread, ..Size::unread() };
    };
    let mut size = Size { name, at, ..Size::read_words(&mut table, reader, &DeclaredNames::default()) };
    let outline = table.entry(Size::outline);
    size.outline = outline.map_or(Field::Absent, |entry| read_outline(reader, &size.finished, entry));
    table.finish(reader, true);
    size
}
