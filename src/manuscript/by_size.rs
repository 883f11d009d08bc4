//! A value that is the same for all sizes, or one for each: `4 1/2`, or `{ throw: 4 1/2, queen: 5 }`.
//!
//! One reader for every such word: a kind of value in [`OneOrEach`] takes either, and the sizes may share what stands
//! under `every_size`.

use std::marker::PhantomData;

use super::declared_names::{DeclaredNames, NameList};
use super::model::PerSize;
use super::read_per_size::{EVERY_SIZE, read_for_some, report_not_stated};
use super::reader::Reader;
use super::section::{Row, Shape, ValueKind};
use super::tree::{Entry, Kind, Node};
use super::{Field, Span, Spanned};

/// A value that is the same for all sizes, or one for each of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BySize<T> {
    /// The same for all, or nothing.
    All(Field<T>),
    /// One for each, in the order of the sizes, and where the word stands.
    Each(Vec<Field<T>>, Span),
}

impl<T> Default for BySize<T> {
    fn default() -> Self {
        BySize::All(Field::Absent)
    }
}

impl<T> BySize<T> {
    const ABSENT: Field<T> = Field::Absent;

    /// What holds for a size, by its place among the sizes.
    pub fn of(&self, size: usize) -> &Field<T> {
        match self {
            BySize::All(field) => field,
            BySize::Each(fields, _) => fields.get(size).unwrap_or(&Self::ABSENT),
        }
    }

    /// Each value that is stated once, with the size that it is for where it is not for all.
    pub fn each(&self) -> impl Iterator<Item = (Option<usize>, &Field<T>)> {
        let (all, each): (Option<&Field<T>>, &[Field<T>]) = match self {
            BySize::All(field) => (Some(field), &[]),
            BySize::Each(fields, _) => (None, fields),
        };
        let all = all.into_iter().map(|field| (None, field));
        all.chain(each.iter().enumerate().map(|(size, field)| (Some(size), field)))
    }

    /// Each value that was read, with the size that it is for where it is not for all. What stands under `every_size` is
    /// met once.
    pub fn stated(&self) -> impl Iterator<Item = (Option<usize>, &Spanned<T>)> {
        let mut last = None;
        self.each().filter_map(move |(size, field)| {
            let stated = field.stated().filter(|stated| last != Some(stated.at))?;
            last = Some(stated.at);
            Some((size, stated))
        })
    }

    /// Whether nothing is stated.
    pub const fn is_absent(&self) -> bool {
        matches!(self, BySize::All(Field::Absent))
    }

    /// Whether each size has its own.
    pub const fn is_by_size(&self) -> bool {
        matches!(self, BySize::Each(..))
    }

    /// Where it is stated, for one size or for all: the first place that is.
    pub fn at(&self) -> Option<Span> {
        self.each().find_map(|(_, field)| field.at())
    }
}

/// A kind whose value may be the same for all sizes, or one for each.
pub(super) struct OneOrEach<K>(PhantomData<K>);

/// The same, of which a size may be left out.
pub(super) struct OneOrSome<K>(PhantomData<K>);

impl<V, K: ValueKind<Field = Field<V>>> ValueKind for OneOrEach<K> {
    type Field = BySize<V>;
    const SHAPE: Shape = Shape::Either(&[K::SHAPE, Shape::BySize(&K::SHAPE)]);

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> BySize<V> {
        let read = OneOrSome::<K>::read(reader, known, row, entry);
        report_left_out(reader, known.sizes, &read, row.word, |_| true);
        read
    }

    fn unread() -> BySize<V> {
        BySize::All(Field::Unread)
    }
}

impl<V, K: ValueKind<Field = Field<V>>> ValueKind for OneOrSome<K> {
    type Field = BySize<V>;
    const SHAPE: Shape = Shape::Either(&[K::SHAPE, Shape::BySize(&K::SHAPE)]);

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> BySize<V> {
        if !names_sizes(known.sizes, &entry.value, K::TAKES_TABLE) {
            return BySize::All(K::read(reader, known, row, entry));
        }
        let each = read_for_some(reader, known.sizes, row.word, entry, row.example, |reader, entry| {
            Some(K::read(reader, known, row, entry))
        });
        let field = |stated| match stated {
            PerSize::Stated(field) => field,
            PerSize::Nothing => Field::Absent,
            PerSize::Unread => Field::Unread,
        };
        BySize::Each(each.into_iter().map(field).collect(), entry.key_at)
    }

    fn unread() -> BySize<V> {
        BySize::All(Field::Unread)
    }
}

/// Whether a value is a table of sizes; of a kind that may be a table itself, one that names a size.
fn names_sizes(sizes: &NameList<'_>, node: &Node<'_>, takes_table: bool) -> bool {
    let Kind::Table(entries) = &node.kind else { return false };
    let is_size = |key: &str| key == EVERY_SIZE || sizes.place(key).is_some();
    !takes_table || entries.iter().any(|entry| is_size(entry.key))
}

/// Reports the sizes that a value for each size leaves out, of those that it is wanted for.
pub(super) fn report_left_out<V>(
    reader: &mut Reader,
    sizes: &NameList<'_>,
    read: &BySize<V>,
    place: &str,
    is_wanted: impl Fn(usize) -> bool,
) {
    let BySize::Each(fields, at) = read else { return };
    if !sizes.whole {
        return;
    }
    for (index, (size, field)) in sizes.list.iter().zip(fields).enumerate() {
        if field.is_absent() && is_wanted(index) {
            report_not_stated(reader, size, place.to_string(), *at);
        }
    }
}
