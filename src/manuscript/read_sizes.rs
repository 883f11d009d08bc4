//! Reading the sizes, and the requirements that are stated size by size.

use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::kinds::{OneOf, Positive};
use super::model::{Bed, Outline};
use super::read_outline::{OUTLINE, read_outline};
use super::read_per_size::EVERY_SIZE;
use super::reader::Reader;
use super::section::LeftOut::{Required, Said, Standard};
use super::section::{Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span};
use crate::quantity::Written;

/// How many sizes a pattern may list.
const MAX_SIZES: usize = 200;

const SIZE_EXAMPLE: &str = "crib: { finished: 36 x 48 }";

section!(
    /// A size that the pattern is published in.
    pub struct Size, "sizes", "In each of the `sizes`", "";
    words {
        finished: Field<(Written, Written)> = AboutDimensions, Required,
            "the finished quilt, width x length, where it is widest and longest; `about 36 x 48` where it is rounded in \
             print, and everything is computed with what the layout makes", "36 x 48";
        bed as "for": Field<Bed> = OneOf<Bed>, Said("no bed is asked about"),
            "the bed that it is for: `crib`, `twin bed`, `long twin bed`, `full bed`, `queen bed`, `king bed` or \
             `california king bed`", "queen bed",
            hint("a drop is measured from the top of a mattress");
        drop: Field<Written> = Positive, Said("only the top of the mattress must be covered"),
            "how far it drops at both sides of the bed and at the foot", "14", needs("for");
        tuck: Field<Written> = Positive, Said("nothing is tucked in"),
            "how much of its length is tucked under the pillows", "12", needs("for");
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
        /// Whether the finished size is printed as about so large.
        about: bool,
    }
);

/// A width and a length, or about that.
struct AboutDimensions;

impl ValueKind for AboutDimensions {
    type Field = Field<(Written, Written)>;
    const SHAPE: Shape = Shape::AboutDimensions;

    fn read(reader: &mut Reader, _: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Self::Field {
        let node = &entry.value;
        let Some((value, verbatim)) = after_about(node) else { return reader.dimensions(node) };
        let kind = Kind::Scalar { value, verbatim };
        reader.dimensions(&Node { at: node.at, kind })
    }

    fn unread() -> Self::Field {
        Field::Unread
    }
}

/// What stands after the word `about`, and where in the text, where it does.
fn after_about<'n>(node: &Node<'n>) -> Option<(&'n str, Option<usize>)> {
    let Kind::Scalar { value, verbatim } = node.kind else { return None };
    let rest = value.strip_prefix("about ")?;
    Some((rest, verbatim.map(|start| start + value.len() - rest.len())))
}

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
            let (why, mend) =
                ("`every_size` stands for all sizes, and cannot be the name of one", "give the size another name");
            reader.report(entry.key_at, MistakeKind::CannotBe { why: why.into(), mend });
        } else if is_fit_name(entry.key) {
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
    let Some(mut table) = Table::new(reader, ["size", entry.key], at, &entry.value, "{ finished: 36 x 48 }") else {
        return Size { name, at, outline: Field::Unread, ..Size::unread() };
    };
    let mut size = Size { name, at, ..Size::read_words(&mut table, reader, &DeclaredNames::default()) };
    size.about = table.entry(Size::finished).is_some_and(|entry| after_about(&entry.value).is_some());
    let outline = table.entry(Size::outline);
    size.outline = outline.map_or(Field::Absent, |entry| read_outline(reader, &size.finished, entry));
    table.finish(reader, true);
    size
}
