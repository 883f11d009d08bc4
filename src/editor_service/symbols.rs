//! The sizes, fabrics, pieces, units and blocks of a manuscript, as a list to go to.

use gen_lsp_types::{
    BaseSymbolInformation, DocumentSymbol, DocumentSymbolResponse, Location, SymbolInformation, SymbolKind,
};

use super::client::Client;
use super::document::Document;
use super::outline::{Outline, Spot, Word, with_outline};
use crate::manuscript::Span;
use crate::report::sanitize_line;

/// The sections whose entries are listed, with the word of each entry that tells most of it.
const LISTED: [(&str, SymbolKind, &str); 4] = [
    ("sizes", SymbolKind::Number, "finished"),
    ("fabrics", SymbolKind::Class, "role"),
    ("units", SymbolKind::Struct, "make"),
    ("blocks", SymbolKind::Array, "finished"),
];

/// All of them; in one another where the editor draws that.
pub(super) fn symbols(document: &Document, client: Client) -> DocumentSymbolResponse {
    let tree = with_outline(&document.source, document.kind.format(), |outline| sections(document, outline, client));
    let tree = tree.unwrap_or_default();
    if client.symbol_tree {
        return tree.into();
    }
    let mut list = Vec::new();
    for symbol in &tree {
        flatten(document, symbol, None, &mut list);
    }
    list.into()
}

fn sections(document: &Document, outline: &Outline<'_>, client: Client) -> Vec<DocumentSymbol> {
    let mut symbols = Vec::new();
    for (place, spot) in outline.within(0) {
        let listed = |(word, ..): &&(&str, SymbolKind, &str)| spot.own_word().is_some_and(|own| own.is("file", word));
        let Some((word, kind, tells)) = LISTED.iter().find(listed) else { continue };
        let entries = outline.within(place).filter_map(|(place, entry)| {
            let pieces = if *word == "fabrics" { pieces(document, outline, place, client) } else { Vec::new() };
            let (key, at) = entry.key()?;
            let detail = value_of(outline, place, tells).map(sanitize_line);
            Some(symbol(document, (key, at, entry.whole()), *kind, detail, pieces, client))
        });
        let entries: Vec<DocumentSymbol> = entries.collect();
        if let Some((key, at)) = spot.key() {
            symbols.push(symbol(document, (key, at, spot.whole()), SymbolKind::Namespace, None, entries, client));
        }
    }
    symbols
}

/// The pieces of a fabric, in the order of its cutting list.
fn pieces(document: &Document, outline: &Outline<'_>, fabric: usize, client: Client) -> Vec<DocumentSymbol> {
    let is_name = |word: Word| word.is("cut", "piece") || word.is("subcut", "piece");
    let names = outline.all_within(fabric).iter().filter(|spot| spot.own_word().is_some_and(is_name));
    let piece = |spot: &Spot<'_>| {
        let entry = spot.parent?;
        let whole = outline.spots.get(entry)?.whole();
        let detail = value_of(outline, entry, "size").map(sanitize_line);
        Some(symbol(document, (spot.text()?, spot.node.at, whole), SymbolKind::Field, detail, Vec::new(), client))
    };
    names.filter_map(piece).collect()
}

/// The value of a word in a table.
fn value_of<'n>(outline: &Outline<'n>, table: usize, word: &str) -> Option<&'n str> {
    let mut entries = outline.within(table).map(|(_, spot)| spot);
    entries.find(|spot| spot.own_word().is_some_and(|own| own.row.word == word))?.text()
}

#[allow(deprecated)] // The type has a field that takes no part, and no value without it.
fn symbol(
    document: &Document,
    (name, own, whole): (&str, Span, Span),
    kind: SymbolKind,
    detail: Option<String>,
    children: Vec<DocumentSymbol>,
    client: Client,
) -> DocumentSymbol {
    DocumentSymbol {
        name: sanitize_line(name),
        detail,
        kind,
        tags: None,
        deprecated: None,
        range: document.range(whole, client.encoding),
        selection_range: document.range(own, client.encoding),
        children: (!children.is_empty()).then_some(children),
    }
}

/// The symbols one after another, for an editor that draws no tree. A section is no symbol there.
#[allow(deprecated)] // As above.
fn flatten(document: &Document, symbol: &DocumentSymbol, within: Option<&str>, list: &mut Vec<SymbolInformation>) {
    if symbol.kind != SymbolKind::Namespace {
        list.push(SymbolInformation {
            deprecated: None,
            location: Location { uri: document.uri.clone(), range: symbol.range },
            base_symbol_information: BaseSymbolInformation {
                name: symbol.name.clone(),
                kind: symbol.kind,
                tags: None,
                container_name: within.map(str::to_string),
            },
        });
    }
    for child in symbol.children.iter().flatten() {
        flatten(document, child, Some(&symbol.name), list);
    }
}
