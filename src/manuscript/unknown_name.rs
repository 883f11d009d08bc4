//! Reporting a name that nothing declared has, with the one that was probably meant.

use super::reader::Reader;
use super::{MistakeKind, Span, nearest, quoted};

/// Reports a name that is not among others.
pub(super) fn unknown<'k>(
    reader: &mut Reader,
    at: Span,
    name: &str,
    among: &'static str,
    known: impl Iterator<Item = &'k str> + Clone,
) {
    unknown_within(reader, at, name, among, known, None);
}

/// The same for a name that is a part of a value, and what follows it there.
pub(super) fn unknown_within<'k>(
    reader: &mut Reader,
    at: Span,
    name: &str,
    among: &'static str,
    known: impl Iterator<Item = &'k str> + Clone,
    within: Option<(Span, &'static str)>,
) {
    let nearest = if reader.is_full() { None } else { nearest(name, known.clone()).map(str::to_string) };
    // Where the mistakes are only counted, nobody reads the names.
    let known = if reader.is_full() { Vec::new() } else { known.map(quoted).collect() };
    reader.report(at, MistakeKind::UnknownName { name: quoted(name), among, known, nearest, within });
}
