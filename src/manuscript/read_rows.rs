//! Reading a layout that is sewn in rows or columns of blocks, which need not be alike: `[[6 star], [half, 5 star, half]]`.

use super::declared_names::{DeclaredNames, NameList, block_named};
use super::reader::Reader;
use super::section::{Row, Shape, ValueKind};
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, Spanned};
use crate::quantity::Count;

/// How many rows a layout may have, and how many different blocks a row.
const MAX_ROWS: usize = 200;

/// How many of one block may lie side by side.
const MAX_BESIDE: Count = Count(200);

/// The word after a block that is turned a quarter.
const TURNED: &str = " turned";

const EXAMPLE: &str = "rows: [[6 star], [half, 5 star, half]]";

/// A row or a column of blocks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaidRow {
    /// Where it stands.
    pub at: Span,
    /// Its blocks, in the order in which they are sewn.
    pub blocks: Vec<Spanned<BlocksOfRow>>,
}

/// Blocks that lie side by side in a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BlocksOfRow {
    /// The block, by its place among the blocks.
    pub block: usize,
    /// How many.
    pub count: Count,
    /// Whether they are turned a quarter.
    pub turned: bool,
}

/// Rows of blocks, each a list in brackets.
pub(super) struct RowsOfBlocks;

impl ValueKind for RowsOfBlocks {
    type Field = Field<Vec<LaidRow>>;
    const SHAPE: Shape =
        Shape::List(&Shape::List(&Shape::Name("block, with how many before it,"), 1, MAX_ROWS), 1, MAX_ROWS);

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> Self::Field {
        let Some(nodes) = list(reader, row.word, entry.key_at, &entry.value) else { return Field::Unread };
        let torn = reader.is_torn(&entry.value);
        let rows: Vec<Option<LaidRow>> =
            nodes.iter().map(|node| read_row(reader, known.blocks, row.word, node)).collect();
        match rows.into_iter().collect::<Option<Vec<LaidRow>>>().filter(|_| !torn) {
            Some(value) => Field::Stated(Spanned { value, at: entry.key_at }),
            None => Field::Unread,
        }
    }

    fn unread() -> Self::Field {
        Field::Unread
    }
}

/// The items of a list that has some and not too many.
fn list<'n, 't>(reader: &mut Reader, word: &str, at: Span, node: &'n Node<'t>) -> Option<&'n [Node<'t>]> {
    match &node.kind {
        Kind::List(nodes) if nodes.len() > MAX_ROWS => {
            let why = format!("{word} may have {MAX_ROWS} items at most; they are not read");
            reader.report(node.start(), MistakeKind::TooMany { why });
            None
        }
        Kind::List(nodes) if !nodes.is_empty() => Some(nodes),
        Kind::Unread => None,
        Kind::List(_) | Kind::Empty | Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list of rows, each a list of blocks in brackets";
            reader.report(at, MistakeKind::WrongShape { word: word.to_string(), expected, example: EXAMPLE });
            None
        }
    }
}

fn read_row(reader: &mut Reader, blocks: &NameList<'_>, word: &str, node: &Node<'_>) -> Option<LaidRow> {
    let nodes = list(reader, word, node.start(), node)?;
    let torn = reader.is_torn(node);
    let items: Vec<Option<Spanned<BlocksOfRow>>> = nodes.iter().map(|node| read_item(reader, blocks, node)).collect();
    let blocks: Vec<Spanned<BlocksOfRow>> = items.into_iter().collect::<Option<_>>()?;
    (!torn).then(|| LaidRow { at: node.start(), blocks })
}

/// `star`, `6 star`, or `6 star turned`.
fn read_item(reader: &mut Reader, blocks: &NameList<'_>, node: &Node<'_>) -> Option<Spanned<BlocksOfRow>> {
    let Kind::Scalar { value, .. } = &node.kind else {
        if !matches!(node.kind, Kind::Unread) {
            let expected = "a block, with how many of it before its name";
            let word = "a row of blocks".to_string();
            reader.report(node.start(), MistakeKind::WrongShape { word, expected, example: EXAMPLE });
        }
        return None;
    };
    let whole = value.trim();
    // A block whose own name is like a count and a name, or ends in the word, is meant by its whole name.
    if blocks.place(whole).is_some() {
        return named(reader, blocks, whole, (Count(1), false), node.at);
    }
    let (rest, turned) = whole.strip_suffix(TURNED).map_or((whole, false), |rest| (rest.trim_end(), true));
    let (count, name) = match rest.split_once(' ') {
        Some((number, name)) if number.bytes().all(|byte| byte.is_ascii_digit()) => (Some(number), name.trim_start()),
        _ => (None, rest),
    };
    let count = match count.map(str::parse) {
        None => Count(1),
        Some(Ok(count)) if (1..=MAX_BESIDE.0).contains(&count) => Count(count),
        Some(_) => {
            let why = format!("a row may have 1 to {MAX_BESIDE} of a block side by side");
            reader.report(node.at, MistakeKind::OutOfRange { why, help: "State how many lie side by side: 6 star." });
            return None;
        }
    };
    named(reader, blocks, name, (count, turned), node.at)
}

fn named(
    reader: &mut Reader,
    blocks: &NameList<'_>,
    name: &str,
    (count, turned): (Count, bool),
    at: Span,
) -> Option<Spanned<BlocksOfRow>> {
    let block = block_named(reader, blocks, name, at).value()?;
    Some(Spanned { value: BlocksOfRow { block, count, turned }, at })
}
