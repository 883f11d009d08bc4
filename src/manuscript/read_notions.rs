//! Reading what is printed and not computed with: notions, and the fabrics of other color schemes.

use super::by_size::{BySize, OneOrEach};
use super::declared_names::{DeclaredNames, NameList, is_fit_name, unfit_name};
use super::kinds::{Text, Whole};
use super::reader::Reader;
use super::section::LeftOut::{Required, Said};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, nearest};
use crate::quantity::Count;

/// How many notions a pattern may list.
pub(super) const MAX_NOTIONS: usize = 200;

/// How many color schemes a pattern may list.
const MAX_COLORWAYS: usize = 50;

const NOTIONS_EXAMPLE: &str = "[60-degree ruler, { notion: buttons, count: 4 }]";
const COLORWAYS_EXAMPLE: &str = "{ dusk: { ink: midnight } }";

section!(
    /// Something to have at hand besides fabric.
    pub struct Notion, "notions", "In each of the `notions`, its name alone, or", "";
    words {
        notion: Field<String> = Text, Required, "what it is, in your words", "buttons", names_item();
        count: BySize<Count> = OneOrEach<Whole>, Said("no count is printed"),
            "how many a reader needs, one number or one for each size", "{ crib: 4 }";
    }
    by_hand {}
    besides {}
);

/// A color scheme: what each fabric is in it.
#[derive(Debug)]
pub struct Colorway {
    /// What the pattern calls it.
    pub name: String,
    /// Where its name stands.
    pub at: Span,
    /// The fabrics, by their places, each with what it is.
    pub fabrics: Vec<(usize, Field<String>)>,
}

pub(super) fn read_notions(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Vec<Notion> {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Empty | Kind::Unread => return Vec::new(),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each notion after a dash";
            let what = MistakeKind::WrongShape { word: "notions".into(), expected, example: NOTIONS_EXAMPLE };
            reader.report(entry.key_at, what);
            return Vec::new();
        }
    };
    if let Some(beyond) = nodes.get(MAX_NOTIONS) {
        let why = format!("a pattern may list {MAX_NOTIONS} notions at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
    }
    nodes.iter().take(MAX_NOTIONS).filter_map(|node| read_notion(reader, known, node)).collect()
}

/// A name alone, or a table.
fn read_notion(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Option<Notion> {
    if !matches!(node.kind, Kind::Table(_)) {
        return Some(Notion { notion: reader.text(node), count: BySize::default() });
    }
    let mut table = Table::new(reader, "notions", node.start(), node, "{ notion: buttons, count: 4 }")?;
    let notion = Notion::read_words(&mut table, reader, known);
    table.finish(reader, true);
    Some(notion)
}

pub(super) fn read_colorways(reader: &mut Reader, fabrics: &NameList<'_>, entry: &Entry<'_>) -> Vec<Colorway> {
    let Some(table) = Table::new(reader, "colorways", entry.key_at, &entry.value, COLORWAYS_EXAMPLE) else {
        return Vec::new();
    };
    if let Some(beyond) = table.entries().get(MAX_COLORWAYS) {
        let why =
            format!("a pattern may list {MAX_COLORWAYS} colorways at most; this one and what follows are not read");
        reader.report(beyond.key_at, MistakeKind::TooMany { why });
    }
    let colorways = table.entries().iter().take(MAX_COLORWAYS);
    colorways.filter_map(|entry| read_colorway(reader, fabrics, entry)).collect()
}

fn read_colorway(reader: &mut Reader, fabrics: &NameList<'_>, entry: &Entry<'_>) -> Option<Colorway> {
    if !is_fit_name(entry.key) {
        reader.report(entry.key_at, unfit_name("colorway"));
        return None;
    }
    let name = ["colorway", entry.key];
    let table = Table::new(reader, name, entry.key_at, &entry.value, "{ ink: midnight }")?;
    let mut named = Vec::new();
    for fabric in table.entries() {
        if let Some(place) = fabrics.place(fabric.key) {
            named.push((place, reader.text(&fabric.value)));
        } else if fabrics.whole || !fabrics.stated {
            let known: Vec<String> = fabrics.each().map(str::to_string).collect();
            let near = nearest(fabric.key, &known).cloned();
            let what = MistakeKind::UnknownFabric { name: fabric.key.to_string(), fabrics: known, nearest: near };
            reader.report(fabric.key_at, what);
        }
    }
    Some(Colorway { name: entry.key.to_string(), at: entry.key_at, fabrics: named })
}
