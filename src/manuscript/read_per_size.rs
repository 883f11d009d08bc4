//! Reading what is stated size by size.
//!
//! What is the same for all sizes may stand once, under `every_size`; a size that is named states what differs. A mistake
//! in what stands once is told once.

use std::cell::Cell;
use std::collections::BTreeSet;

use super::declared_names::{DeclaredName, NameList, unknown_size};
use super::model::PerSize;
use super::reader::Reader;
use super::table::{Table, TableName};
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, nearest};
use crate::keywords::is_word;
use crate::quantity::Count;

/// The word under which stands what is the same for all sizes.
pub(crate) const EVERY_SIZE: &str = "every_size";

/// The entries of a table of sizes, with what is the same for all of them.
struct SizeEntries<'n, 't> {
    entries: &'n [Entry<'t>],
    every: Option<&'n Entry<'t>>,
    /// The entry after the one that was read last.
    next: Cell<usize>,
}

impl<'n, 't> SizeEntries<'n, 't> {
    fn of(table: &Table<'n, 't>) -> SizeEntries<'n, 't> {
        let entries = table.entries();
        let every = entries.iter().find(|entry| entry.key == EVERY_SIZE);
        SizeEntries { entries, every, next: Cell::new(0) }
    }

    /// Reads what is stated for a size, with what is stated for all where it does not state it itself. `None` where nothing
    /// is. Its words stand where they are stated.
    fn read<T>(&self, reader: &mut Reader, size: &str, read: impl FnOnce(&mut Reader, &Entry<'_>) -> T) -> Option<T> {
        let own = self.own(size);
        let value = match (own, self.every) {
            (Some(own), Some(every)) => match (own.value.kind, every.value.kind) {
                (Kind::Table(stated), Kind::Table(every)) => {
                    let words = with_every(stated, every);
                    let value = Node { kind: Kind::Table(&words), ..own.value };
                    read(reader, &Entry { value, ..*own })
                }
                _ => read(reader, own),
            },
            (own, every) => read(reader, own.or(every)?),
        };
        self.was_read(reader);
        Some(value)
    }

    /// What is stated for a size by its name. Most manuscripts state it in the order of the sizes.
    fn own(&self, size: &str) -> Option<&'n Entry<'t>> {
        let is_next = self.entries.get(self.next.get()).is_some_and(|entry| entry.key == size);
        let at = if is_next { self.next.get() } else { self.entries.iter().position(|entry| entry.key == size)? };
        self.next.set(at + 1);
        self.entries.get(at)
    }

    /// What was read for one size is not told again for the next.
    fn was_read(&self, reader: &mut Reader) {
        match self.every.map(|every| (&every.value, every.value.kind)) {
            Some((_, Kind::Table(entries))) => {
                for entry in entries {
                    reader.told_once(entry.key_at.to(entry.value.at));
                }
            }
            Some((node, _)) => reader.told_once(node.at),
            None => {}
        }
    }
}

/// The words of a size with those of all sizes that it does not state itself.
fn with_every<'t>(own: &[Entry<'t>], every: &[Entry<'t>]) -> Vec<Entry<'t>> {
    let is_left_out = |entry: &&Entry<'t>| own.iter().all(|stated| !is_word(stated.key, entry.key));
    own.iter().chain(every.iter().filter(is_left_out)).copied().collect()
}

/// Reads counts for some of the sizes, in the order of the sizes. Names that are no size are reported; a size that
/// is not named is left out, and is unread where nothing can be said about it.
pub(super) fn read_some_sizes(
    reader: &mut Reader,
    sizes: &NameList<'_>,
    place: &str,
    entry: &Entry<'_>,
    example: &'static str,
) -> Vec<Field<Count>> {
    let Some(table) = Table::new(reader, place, entry.key_at, &entry.value, example) else {
        return sizes.list.iter().map(|_| Field::Unread).collect();
    };
    let whole = !table.is_torn();
    let each = SizeEntries::of(&table);
    let mut named = Vec::with_capacity(sizes.list.len());
    let read = |size: &DeclaredName<'_>| {
        let count = each.read(reader, size.name, |reader, entry| reader.count(&entry.value));
        named.push(count.is_some());
        match count {
            Some(count) => count,
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
    sizes: &NameList<'_>,
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
    sizes: &'s NameList<'s>,
    place: TableName<'_>,
    entry: &Entry<'_>,
    example: &'static str,
    read: &mut impl FnMut(&mut Reader, &Entry<'_>) -> Option<T>,
) -> (Vec<PerSize<T>>, Vec<&'s DeclaredName<'s>>) {
    let Some(table) = Table::new(reader, place, entry.key_at, &entry.value, example) else {
        return (sizes.list.iter().map(|_| PerSize::Unread).collect(), Vec::new());
    };
    let many = sizes.list.len();
    let (mut stated, mut named) = (Vec::with_capacity(many), Vec::with_capacity(many));
    let each = SizeEntries::of(&table);
    for size in &sizes.list {
        let value = each.read(reader, size.name, &mut *read);
        named.push(value.is_some());
        stated.push(match value {
            Some(value) => value.map_or(PerSize::Unread, PerSize::Stated),
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
    sizes: &NameList<'_>,
    requirement: impl Into<TableName<'n>>,
    entry: &Entry<'_>,
    example: &'static str,
    mut read: impl FnMut(&mut Reader, &Entry<'_>) -> Option<T>,
) -> Vec<PerSize<T>> {
    let requirement = requirement.into();
    let (stated, unnamed) = read_named(reader, sizes, requirement.and("requires"), entry, example, &mut read);
    for size in unnamed {
        report_not_stated(reader, size, requirement.to_string(), entry.key_at);
    }
    stated
}

/// Reports that nothing is stated for a size where every size should have something.
pub(super) fn report_not_stated(reader: &mut Reader, size: &DeclaredName<'_>, place: String, at: Span) {
    let what = MistakeKind::SizeNotStated { size: size.name.to_string(), place };
    reader.report_with(at, what, size.at, "the size is listed here");
}

/// Reports the names that are no size, and marks the sizes that were probably meant by them: which those are.
fn report_unknown_sizes(
    reader: &mut Reader,
    sizes: &NameList<'_>,
    entries: &[Entry<'_>],
    named: &mut [bool],
) -> Vec<usize> {
    let mut misspelt = Vec::new();
    let has_every = entries.iter().any(|entry| entry.key == EVERY_SIZE);
    if !has_every && named.iter().filter(|named| **named).count() == entries.len() {
        return misspelt;
    }
    let known: BTreeSet<&str> = sizes.each().chain([EVERY_SIZE]).collect();
    for entry in entries.iter().filter(|entry| !known.contains(entry.key)) {
        if reader.is_full() {
            reader.report(entry.key_at, unknown_size(entry.key, &NameList::default(), None));
            continue;
        }
        let free = sizes.each().zip(named.iter()).filter(|(_, named)| !**named).map(|(size, _)| size);
        let nearest = nearest(entry.key, free).map(str::to_string);
        if let Some(index) = nearest.as_deref().and_then(|nearest| sizes.place(nearest)) {
            named[index] = true;
            misspelt.push(index);
        }
        reader.report(entry.key_at, unknown_size(entry.key, sizes, nearest));
    }
    misspelt
}
