//! Where a name is given, and where it is used.

use gen_lsp_types::Location;

use super::client::Client;
use super::document::{Asked, Document};
use super::names::{Name, NameKind, Named, Names, Part};
use super::outline::with_outline;
use crate::manuscript::Span;

/// What comes of the names of a text.
pub(super) fn with_names<T>(document: &Document, work: impl FnOnce(&Names) -> T) -> Option<T> {
    with_outline(&document.source, document.kind.format(), |outline| work(&Names::of(outline)))
}

/// Where the name at a place is given.
pub(super) fn definition(asked: Asked<'_>, client: Client) -> Vec<Location> {
    let found = with_names(asked.document, |names| {
        let (name, _, named) = names.at(asked.byte)?;
        let fabric = fabric_beside(named, name);
        let is_meant = |given: &Named| {
            let of = given.gives.as_ref().and_then(|gives| gives.fabric.as_deref());
            given.gives.is_some() && (fabric.is_none() || of == fabric)
        };
        Some(places(names, name, is_meant))
    });
    located(asked.document, found.flatten().unwrap_or_default(), client)
}

/// Where the name at a place is used, and where it is given too, if so.
pub(super) fn references(asked: Asked<'_>, with_own: bool, client: Client) -> Vec<Location> {
    let found = with_names(asked.document, |names| {
        let (name, ..) = names.at(asked.byte)?;
        Some(places(names, name, |named| with_own || named.gives.is_none()))
    });
    located(asked.document, found.flatten().unwrap_or_default(), client)
}

/// The fabric that a piece is named with: `ink A`.
fn fabric_beside<'n>(named: &'n Named, name: &Name) -> Option<&'n str> {
    let fabric = |part: &'n Part| match part {
        Part::Name(Name { kind: NameKind::Fabric, name }) => Some(name.as_str()),
        _ => None,
    };
    named.parts.iter().find_map(fabric).filter(|_| name.kind == NameKind::Piece)
}

/// Where a name stands, in those of the values that are wanted.
fn places(names: &Names, name: &Name, is_wanted: impl Fn(&Named) -> bool) -> Vec<Span> {
    let wanted = names.all.iter().filter(|named| is_wanted(named)).flat_map(Named::names);
    wanted.filter(|(other, _)| *other == name).map(|(_, at)| at).collect()
}

fn located(document: &Document, places: Vec<Span>, client: Client) -> Vec<Location> {
    let locate = |at| Location { uri: document.uri.clone(), range: document.range(at, client.encoding) };
    places.into_iter().map(locate).collect()
}
