//! The names that are declared in the manuscript, section after section, and reading one where it is mentioned.

use super::design::Sewn;
use super::piece_names::Pieces;
use super::reader::Reader;
use super::tree::Node;
use super::unknown_name::{unknown, unknown_within};
use super::{Field, MistakeKind, Span, Spanned, nearest, quoted};
use crate::sanitize::is_wild;

/// How long the name of a size may be, in characters.
pub(super) const LONGEST_NAME: usize = 60;

/// How many of the sizes a message names.
const MAX_NAMED: usize = 20;

/// A name, and where it is declared.
#[derive(Clone, Copy, Debug)]
pub(crate) struct DeclaredName<'m> {
    /// The name.
    pub(super) name: &'m str,
    /// Where it stands.
    pub(super) at: Span,
}

/// The names of one section, in their order.
#[derive(Debug, Default)]
pub(crate) struct NameList<'m> {
    /// Each of them.
    pub(super) list: Vec<DeclaredName<'m>>,
    /// False where part of the section is broken, so that no name can be called unknown.
    pub(super) whole: bool,
    /// Whether there is such a section at all.
    pub(super) stated: bool,
}

impl<'m> NameList<'m> {
    /// The names of a section: each with its place, whether the section was read whole, whether it is stated at all.
    pub(super) fn new(names: impl Iterator<Item = (&'m str, Span)>, whole: bool, stated: bool) -> Self {
        NameList { list: names.map(|(name, at)| DeclaredName { name, at }).collect(), whole, stated }
    }

    /// The names alone.
    pub(super) fn each(&self) -> impl Iterator<Item = &'m str> + Clone {
        self.list.iter().map(|declared| declared.name)
    }

    /// Which of the names a name is.
    pub(super) fn place(&self, name: &str) -> Option<usize> {
        self.each().position(|known| known == name)
    }
}

/// What was read before, by whose names something may be mentioned.
#[derive(Clone, Copy)]
pub(crate) struct DeclaredNames<'m> {
    /// The sizes.
    pub(super) sizes: &'m NameList<'m>,
    /// The fabrics.
    pub(super) fabrics: &'m NameList<'m>,
    /// The pieces of their cutting lists.
    pub(super) pieces: &'m Pieces<'m>,
    /// The units.
    pub(super) units: &'m NameList<'m>,
    /// The blocks.
    pub(super) blocks: &'m NameList<'m>,
}

static NO_NAMES: NameList<'static> = NameList { list: Vec::new(), whole: false, stated: false };
static NO_PIECES: Pieces<'static> = Pieces { list: Vec::new(), whole: false };

impl Default for DeclaredNames<'_> {
    /// No names.
    fn default() -> Self {
        DeclaredNames { sizes: &NO_NAMES, fabrics: &NO_NAMES, pieces: &NO_PIECES, units: &NO_NAMES, blocks: &NO_NAMES }
    }
}

/// Whether a name can be shown wherever the size, the fabric or the piece is spoken of.
pub(crate) fn is_fit_name(name: &str) -> bool {
    let is_seen = |c: char| !c.is_whitespace() && !is_wild(c);
    name.chars().count() <= LONGEST_NAME && !name.chars().any(char::is_control) && name.chars().any(is_seen)
}

pub(super) fn unfit_name(what: &str) -> MistakeKind {
    let why = format!("The name of a {what} takes 1 to {LONGEST_NAME} characters, all of them visible");
    MistakeKind::CannotBe { why, mend: "Give it a short name of letters, numbers and spaces" }
}

/// The mistake that a name is no size.
pub(super) fn unknown_size(name: &str, sizes: &NameList<'_>, nearest: Option<String>) -> MistakeKind {
    let mut names: Vec<String> = sizes.each().take(MAX_NAMED).map(quoted).collect();
    match sizes.list.len().saturating_sub(MAX_NAMED) {
        0 => {}
        more => names.push(format!("and {more} more")),
    }
    MistakeKind::UnknownSize { name: quoted(name), sizes: names, nearest }
}

/// Reads the name of a size where one is mentioned.
pub(super) fn read_size_name(reader: &mut Reader, sizes: &NameList<'_>, node: &Node<'_>) -> Field<String> {
    let field = reader.text(node);
    if let Some(name) = field.stated()
        && sizes.whole
        && sizes.each().all(|size| size != name.value)
    {
        let nearest = nearest(&name.value, sizes.each()).map(str::to_string);
        let (at, what): (Span, MistakeKind) = (name.at, unknown_size(&name.value, sizes, nearest));
        reader.report(at, what);
        return Field::Unread;
    }
    field
}

/// Reads the name of a fabric where one is mentioned: its place among the fabrics.
pub(super) fn read_fabric_name(reader: &mut Reader, fabrics: &NameList<'_>, node: &Node<'_>) -> Field<usize> {
    let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
    if let Some(index) = fabrics.place(&name) {
        return Field::Stated(Spanned { value: index, at });
    }
    if fabrics.whole || !fabrics.stated {
        let names: Vec<String> = fabrics.each().map(str::to_string).collect();
        let nearest = nearest(&name, &names).cloned();
        reader.report(at, MistakeKind::UnknownFabric { name, fabrics: names, nearest });
    }
    Field::Unread
}

pub(super) fn read_piece_name(reader: &mut Reader, node: &Node<'_>) -> Field<String> {
    let name = reader.text(node);
    match name.stated() {
        Some(stated) if !is_fit_name(&stated.value) => {
            reader.report(stated.at, unfit_name("piece"));
            Field::Unread
        }
        _ => name,
    }
}

/// Reads the name of a unit where one is mentioned: its place among the units.
pub(super) fn read_unit_name(reader: &mut Reader, units: &NameList<'_>, node: &Node<'_>) -> Field<usize> {
    let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
    match units.place(&name) {
        Some(index) => Field::Stated(Spanned { value: index, at }),
        None => unknown_unit(reader, units, at, &name, None),
    }
}

/// Reads the name of a unit, or else of a block, where either may stand.
pub(super) fn read_sewn_name(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Field<Sewn> {
    let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
    let unit = known.units.place(&name).map(Sewn::Unit);
    if let Some(value) = unit.or_else(|| known.blocks.place(&name).map(Sewn::Block)) {
        return Field::Stated(Spanned { value, at });
    }
    let (units, blocks) = (known.units, known.blocks);
    let could_be_read = |names: &NameList<'_>| names.whole || !names.stated;
    if could_be_read(units) && could_be_read(blocks) {
        unknown(reader, at, &name, "the pattern's units and blocks", units.each().chain(blocks.each()));
    }
    Field::Unread
}

/// Reports a name that no unit has, where all units could be read. `within` is the value that the name is a part of,
/// and what follows it there.
pub(super) fn unknown_unit<T>(
    reader: &mut Reader,
    units: &NameList<'_>,
    at: Span,
    name: &str,
    within: Option<(Span, &'static str)>,
) -> Field<T> {
    if units.whole || !units.stated {
        unknown_within(reader, at, name, "the pattern's units", units.each(), within);
    }
    Field::Unread
}

/// Reads the name of a block where one is mentioned: its place among the blocks.
pub(super) fn read_block_name(reader: &mut Reader, blocks: &NameList<'_>, node: &Node<'_>) -> Field<usize> {
    let Field::Stated(Spanned { value: name, at }) = reader.text(node) else { return Field::Unread };
    block_named(reader, blocks, &name, at)
}

/// The place of a block among the blocks, by its name.
pub(super) fn block_named(reader: &mut Reader, blocks: &NameList<'_>, name: &str, at: Span) -> Field<usize> {
    if let Some(index) = blocks.place(name) {
        return Field::Stated(Spanned { value: index, at });
    }
    if blocks.whole || !blocks.stated {
        unknown(reader, at, name, "the pattern's blocks", blocks.each());
    }
    Field::Unread
}
