//! Reading the sizes, and the requirements that are stated size by size.

use std::collections::BTreeSet;

use super::declared_names::DeclaredNames;
use super::kinds::{Dimensions, OneOf, Positive};
use super::model::{Bed, Outline, PerSize};
use super::read_fabrics::unfit_name;
use super::read_outline::{OUTLINE, read_outline};
use super::reader::Reader;
use super::section::LeftOut::{Required, Said, Standard};
use super::section::{SectionWords, section};
use super::table::{Table, TableName};
use super::tree::{Entry, Node};
use super::{Field, MistakeKind, Span, nearest, quoted};
use crate::quantity::{Count, Written};
use crate::sanitize::is_wild;

/// How many sizes a pattern may list.
const MAX_SIZES: usize = 200;

/// How long the name of a size may be, in characters.
pub(super) const LONGEST_NAME: usize = 60;

/// How many of the sizes a message names.
const MAX_NAMED: usize = 20;

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
            "how far it hangs down at both sides of the bed and at the foot", "14", needs("for");
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
        if is_fit_name(&entry.key) {
            list.push(read_size(reader, entry));
        } else {
            whole = false;
            reader.report(entry.key_at, unfit_name("size"));
        }
    }
    Sizes { list, whole }
}

/// Whether a name can be shown wherever the size, the fabric or the piece is spoken of.
pub(super) fn is_fit_name(name: &str) -> bool {
    let is_seen = |c: char| !c.is_whitespace() && !is_wild(c);
    name.chars().count() <= LONGEST_NAME && !name.chars().any(char::is_control) && name.chars().any(is_seen)
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

/// Reads counts for some of the sizes, in the order of the sizes. Names that are no size are reported; a size that
/// is not named is left out, and is unread where nothing can be said about it.
pub(super) fn read_some_sizes(
    reader: &mut Reader,
    sizes: &Sizes,
    place: &str,
    entry: &Entry<'_>,
    example: &'static str,
) -> Vec<Field<Count>> {
    let Some(table) = Table::new(reader, place, entry.key_at, &entry.value, example) else {
        return sizes.list.iter().map(|_| Field::Unread).collect();
    };
    let whole = !table.is_torn();
    let mut named = Vec::with_capacity(sizes.list.len());
    let read = |size: &Size| {
        let entry = table.entries().iter().find(|entry| entry.key == size.name);
        named.push(entry.is_some());
        match entry {
            Some(entry) => reader.count(&entry.value),
            None if whole => Field::Absent,
            None => Field::Unread,
        }
    };
    let mut counts: Vec<Field<Count>> = sizes.list.iter().map(read).collect();
    if sizes.whole {
        // A size whose name was probably misspelt is stated, though not read.
        for misspelt in report_unknown_sizes(reader, sizes, table.entries(), &mut named) {
            counts[misspelt] = Field::Unread;
        }
    }
    counts
}

/// Reads what is stated for some of the sizes, in the order of the sizes. Names that are no size are reported; a size
/// that is not named has nothing.
pub(super) fn read_for_some<T>(
    reader: &mut Reader,
    sizes: &Sizes,
    place: &str,
    entry: &Entry<'_>,
    example: &'static str,
    mut read: impl FnMut(&mut Reader, &Entry<'_>) -> Option<T>,
) -> Vec<PerSize<T>> {
    read_named(reader, sizes, place.into(), entry, example, &mut read).0
}

/// What is stated for each size, and the sizes that are not named where all could be.
fn read_named<'s, T>(
    reader: &mut Reader,
    sizes: &'s Sizes,
    place: TableName<'_>,
    entry: &Entry<'_>,
    example: &'static str,
    read: &mut impl FnMut(&mut Reader, &Entry<'_>) -> Option<T>,
) -> (Vec<PerSize<T>>, Vec<&'s Size>) {
    let Some(table) = Table::new(reader, place, entry.key_at, &entry.value, example) else {
        return (sizes.list.iter().map(|_| PerSize::Unread).collect(), Vec::new());
    };
    let many = sizes.list.len();
    let (mut stated, mut named) = (Vec::with_capacity(many), Vec::with_capacity(many));
    for size in &sizes.list {
        let entry = table.entries().iter().find(|entry| entry.key == size.name);
        named.push(entry.is_some());
        stated.push(match entry {
            Some(entry) => read(reader, entry).map_or(PerSize::Unread, PerSize::Stated),
            None if table.is_torn() => PerSize::Unread,
            None => PerSize::Nothing,
        });
    }
    if !sizes.whole {
        return (stated, Vec::new());
    }
    // A size whose name was probably misspelt is stated, though not read.
    for misspelt in report_unknown_sizes(reader, sizes, table.entries(), &mut named) {
        stated[misspelt] = PerSize::Unread;
    }
    let unnamed = sizes.list.iter().zip(&named).filter(|(_, named)| !**named && !table.is_torn());
    (stated, unnamed.map(|(size, _)| size).collect())
}

/// Reads what is stated for each size under `requires`, in the order of the sizes. Names that are no size and
/// sizes that are not named are reported; a pair that is probably one slip is reported once.
pub(super) fn read_per_size<'n, T>(
    reader: &mut Reader,
    sizes: &Sizes,
    requirement: impl Into<TableName<'n>>,
    entry: &Entry<'_>,
    example: &'static str,
    mut read: impl FnMut(&mut Reader, &Entry<'_>) -> Option<T>,
) -> Vec<PerSize<T>> {
    let requirement = requirement.into();
    let (stated, unnamed) = read_named(reader, sizes, requirement.and("requires"), entry, example, &mut read);
    for size in unnamed {
        let what = MistakeKind::SizeNotStated { size: size.name.clone(), place: requirement.to_string() };
        reader.report_with(entry.key_at, what, size.at, "the size is listed here");
    }
    stated
}

/// Reports the names that are no size, and marks the sizes that were probably meant by them: which those are.
fn report_unknown_sizes(reader: &mut Reader, sizes: &Sizes, entries: &[Entry<'_>], named: &mut [bool]) -> Vec<usize> {
    let mut misspelt = Vec::new();
    if named.iter().filter(|named| **named).count() == entries.len() {
        return misspelt;
    }
    let known: BTreeSet<&str> = sizes.list.iter().map(|size| size.name.as_str()).collect();
    for entry in entries.iter().filter(|entry| !known.contains(&*entry.key)) {
        if reader.is_full() {
            reader.report(entry.key_at, unknown_size(&entry.key, &Sizes::default(), None));
            continue;
        }
        let free =
            sizes.list.iter().zip(named.iter()).filter(|(_, named)| !**named).map(|(size, _)| size.name.as_str());
        let nearest = nearest(&entry.key, free).map(str::to_string);
        if let Some(index) = sizes.list.iter().position(|size| Some(&size.name) == nearest.as_ref()) {
            named[index] = true;
            misspelt.push(index);
        }
        reader.report(entry.key_at, unknown_size(&entry.key, sizes, nearest));
    }
    misspelt
}

/// The mistake that a name is no size.
fn unknown_size(name: &str, sizes: &Sizes, nearest: Option<String>) -> MistakeKind {
    let mut names: Vec<String> = sizes.list.iter().take(MAX_NAMED).map(|size| quoted(&size.name)).collect();
    match sizes.list.len().saturating_sub(MAX_NAMED) {
        0 => {}
        more => names.push(format!("and {more} more")),
    }
    MistakeKind::UnknownSize { name: quoted(name), sizes: names, nearest }
}

/// Reads the name of a size where one is mentioned.
pub(super) fn read_size_name(reader: &mut Reader, sizes: &Sizes, node: &Node<'_>) -> Field<String> {
    let field = reader.text(node);
    if let Some(name) = field.stated()
        && sizes.whole
        && sizes.list.iter().all(|size| size.name != name.value)
    {
        let nearest = nearest(&name.value, sizes.list.iter().map(|size| size.name.as_str())).map(str::to_string);
        let (at, what): (Span, MistakeKind) = (name.at, unknown_size(&name.value, sizes, nearest));
        reader.report(at, what);
        return Field::Unread;
    }
    field
}
