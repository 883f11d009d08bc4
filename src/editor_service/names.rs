//! The names that a writer gives, where each is given, and where it is used.
//!
//! A name may be a part of a value: `geese turned`, `6 star`, `ink A`. What it is a part of is read as the reader of
//! manuscripts reads it.

use std::collections::BTreeSet;

use super::outline::{Lead, Outline, Spot, Word};
use crate::manuscript::section::{Shape, Step};
use crate::manuscript::tree::Kind;
use crate::manuscript::{EVERY_SIZE, Span};

/// What a name is given to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum NameKind {
    Size,
    Fabric,
    Piece,
    Unit,
    Block,
}

impl NameKind {
    /// The word for it.
    pub(super) const fn word(self) -> &'static str {
        match self {
            NameKind::Size => "size",
            NameKind::Fabric => "fabric",
            NameKind::Piece => "piece",
            NameKind::Unit => "unit",
            NameKind::Block => "block",
        }
    }
}

/// A name in a text.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Name {
    pub(super) kind: NameKind,
    pub(super) name: String,
}

/// A part of a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// A name.
    Name(Name),
    /// What stands before or after one.
    Other(String),
}

impl Part {
    fn text(&self) -> &str {
        match self {
            Part::Name(name) => &name.name,
            Part::Other(text) => text,
        }
    }
}

/// A value, or what stands before a colon, with names in it.
#[derive(Clone, Debug)]
pub(super) struct Named {
    /// Where all of it stands, with its quotation marks.
    pub(super) at: Span,
    /// Where its own text starts, where it stands in the file to the letter.
    verbatim: Option<usize>,
    /// Its parts, which are all of it.
    pub(super) parts: Vec<Part>,
    /// Whether the name is given here, and to a piece of which fabric.
    pub(super) gives: Option<Given>,
}

/// Where a name is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Given {
    /// The fabric of a piece.
    pub(super) fabric: Option<String>,
}

impl Named {
    /// The names in it, each with its place.
    pub(super) fn names(&self) -> Vec<(&Name, Span)> {
        let (mut names, mut before) = (Vec::new(), 0);
        for part in &self.parts {
            let length = part.text().len();
            if let Part::Name(name) = part {
                let within = |start: usize| Span::new(start + before, start + before + length);
                names.push((name, self.verbatim.map_or(self.at, within)));
            }
            before += length;
        }
        names
    }

    /// Its text, with another name in place of one.
    pub(super) fn with(&self, name: &Name, other: &str) -> String {
        let part = |part: &Part| match part {
            Part::Name(known) if known == name => other.to_string(),
            part => part.text().to_string(),
        };
        self.parts.iter().map(part).collect()
    }
}

/// All names of a text.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Those that are given.
    pub(super) given: BTreeSet<Name>,
    /// The pieces, each after the fabric that it is cut from.
    pub(super) pieces: BTreeSet<(String, String)>,
    /// Where they stand, in the order of the text.
    pub(super) all: Vec<Named>,
}

impl Names {
    pub(super) fn of(outline: &Outline<'_>) -> Names {
        let mut names = Names::default();
        for spot in &outline.spots {
            names.add_given(outline, spot);
        }
        for spot in &outline.spots {
            names.add(outline, spot);
        }
        names
    }

    /// The name at a byte, with its place and all that it stands in. At a quotation mark it is the only one within them.
    pub(super) fn at(&self, byte: usize) -> Option<(&Name, Span, &Named)> {
        let holds = |at: Span| at.start <= byte && byte <= at.end;
        let here = self.all.iter().filter(|named| holds(named.at));
        let names: Vec<(&Name, Span, &Named)> =
            here.flat_map(|named| named.names().into_iter().map(move |(name, at)| (name, at, named))).collect();
        let only = || names.first().filter(|_| names.len() == 1);
        names.iter().find(|(_, at, _)| holds(*at)).or_else(only).copied()
    }

    /// The names of one kind.
    pub(super) fn of_kind(&self, kind: NameKind) -> impl Iterator<Item = &str> {
        self.given.iter().filter(move |name| name.kind == kind).map(|name| name.name.as_str())
    }

    fn is_given(&self, kind: NameKind, name: &str) -> bool {
        self.given.contains(&Name { kind, name: name.to_string() })
    }

    fn is_cut_from(&self, fabric: &str, piece: &str) -> bool {
        self.pieces.contains(&(fabric.to_string(), piece.to_string()))
    }

    fn add_given(&mut self, outline: &Outline<'_>, spot: &Spot<'_>) {
        let key = spot.key().and_then(|(key, _)| Some((given_by_key(outline, spot)?, key)));
        if let Some((kind, key)) = key.filter(|(kind, key)| *kind != NameKind::Size || *key != EVERY_SIZE) {
            self.given.insert(Name { kind, name: key.to_string() });
        }
        if let Some(piece) = spot.text().filter(|_| gives_piece(spot)) {
            self.given.insert(Name { kind: NameKind::Piece, name: piece.to_string() });
            let fabric = fabric_of(outline, spot).unwrap_or_default();
            self.pieces.insert((fabric.to_string(), piece.to_string()));
        }
    }

    fn add(&mut self, outline: &Outline<'_>, spot: &Spot<'_>) {
        if let Some((key, at)) = spot.key()
            && let Some(parts) = self.in_key(outline, spot, key)
        {
            let gives = given_by_key(outline, spot).map(|_| Given { fabric: None });
            self.all.push(Named { at, verbatim: verbatim_key(key, at), parts, gives });
        }
        if let Kind::Scalar { value, verbatim } = &spot.node.kind
            && let Some(parts) = self.in_value(outline, spot, value)
        {
            let fabric = || fabric_of(outline, spot).map(str::to_string);
            let gives = gives_piece(spot).then(|| Given { fabric: fabric() });
            self.all.push(Named { at: spot.node.at, verbatim: *verbatim, parts, gives });
        }
    }

    /// The names in what stands before a colon.
    fn in_key(&self, outline: &Outline<'_>, spot: &Spot<'_>, key: &str) -> Option<Vec<Part>> {
        let Lead::Key { step, .. } = spot.lead else { return None };
        let one = |kind| self.is_given(kind, key).then(|| vec![name(kind, key)]);
        match (step?, spot.word?) {
            (Step::Size, _) => one(NameKind::Size),
            (Step::Name, word) if word.is("units", "takes") => self.piece(key),
            (Step::Name, word) if word.is("layout", "blocks") => one(NameKind::Block),
            (Step::Name, word) if word.is("blocks", "with") => one(NameKind::Fabric),
            (Step::Name, word) if word.is("file", "colorways") => {
                let is_fabric = outline.parent(spot).is_some_and(|above| above.own_word().is_none());
                one(NameKind::Fabric).filter(|_| is_fabric)
            }
            (Step::Name, _) => one(given_by_key(outline, spot)?),
            (Step::Keyword | Step::Item, _) => None,
        }
    }

    /// The names in a value.
    fn in_value(&self, outline: &Outline<'_>, spot: &Spot<'_>, value: &str) -> Option<Vec<Part>> {
        let shape = spot.shape?;
        if gives_piece(spot) {
            return Some(vec![name(NameKind::Piece, value)]);
        }
        if let Some(kind) = spot.word.and_then(kind_of_text).filter(|_| matches!(shape, Shape::Text)) {
            let trimmed = value.trim();
            // What is cut beside a piece is of the same fabric.
            let known = match spot.word {
                Some(word) if word.is("cut", "beside") => {
                    fabric_of(outline, spot).is_some_and(|fabric| self.is_cut_from(fabric, value))
                }
                _ => self.is_given(kind, trimmed),
            };
            return known.then(|| around(value, indent(value), trimmed, kind));
        }
        self.of_shape(shape, value)
    }

    /// The names in a value of a shape.
    fn of_shape(&self, shape: Shape, value: &str) -> Option<Vec<Part>> {
        let one = |kind| self.is_given(kind, value).then(|| vec![name(kind, value)]);
        match shape {
            Shape::Either(shapes) => shapes.iter().find_map(|shape| self.of_shape(*shape, value)),
            Shape::Parts | Shape::Name("piece") => self.piece(value),
            Shape::Name("fabric") => one(NameKind::Fabric),
            Shape::Name("unit") => one(NameKind::Unit),
            Shape::Name("size") => one(NameKind::Size),
            Shape::Name("block") => one(NameKind::Block),
            // As `read_blocks` and `read_rows` read them.
            Shape::Name(in_rows) if in_rows.starts_with("unit or block") => self.unit_or_block(value),
            Shape::Name(in_rows) if in_rows.starts_with("block, with") => self.blocks_of_row(value),
            _ => None,
        }
    }

    /// `A`, or `ink A`.
    fn piece(&self, value: &str) -> Option<Vec<Part>> {
        if self.is_given(NameKind::Piece, value) {
            return Some(vec![name(NameKind::Piece, value)]);
        }
        let mut spaces = value.match_indices(' ').map(|(at, _)| (&value[..at], &value[at + 1..]));
        let (fabric, piece) = spaces.find(|(fabric, piece)| self.is_cut_from(fabric, piece))?;
        Some(vec![name(NameKind::Fabric, fabric), Part::Other(" ".to_string()), name(NameKind::Piece, piece)])
    }

    /// `corner`, or `geese turned`.
    fn unit_or_block(&self, value: &str) -> Option<Vec<Part>> {
        let find = |part: &str| {
            let kinds = [NameKind::Unit, NameKind::Block];
            kinds.into_iter().find(|kind| self.is_given(*kind, part)).map(|kind| name(kind, part))
        };
        if let Some(part) = find(value) {
            return Some(vec![part]);
        }
        let turned = value.strip_suffix(TURNED)?.trim_end();
        Some(vec![find(turned)?, Part::Other(value[turned.len()..].to_string())])
    }

    /// `star`, `6 star`, or `6 star turned`.
    fn blocks_of_row(&self, value: &str) -> Option<Vec<Part>> {
        let whole = value.trim();
        if self.is_given(NameKind::Block, whole) {
            return Some(around(value, indent(value), whole, NameKind::Block));
        }
        let rest = whole.strip_suffix(TURNED).map_or(whole, str::trim_end);
        let block = match rest.split_once(' ') {
            Some((number, block)) if number.bytes().all(|byte| byte.is_ascii_digit()) => block.trim_start(),
            _ => rest,
        };
        let start = indent(value) + rest.len() - block.len();
        self.is_given(NameKind::Block, block).then(|| around(value, start, block, NameKind::Block))
    }
}

/// The word after a unit or a block that is turned a quarter.
const TURNED: &str = " turned";

fn name(kind: NameKind, name: &str) -> Part {
    Part::Name(Name { kind, name: name.to_string() })
}

/// A name that starts so many bytes into a value, with what stands before and after it there.
fn around(value: &str, start: usize, part: &str, kind: NameKind) -> Vec<Part> {
    let other = |text: &str| (!text.is_empty()).then(|| Part::Other(text.to_string()));
    let (before, after) = (&value[..start], &value[start + part.len()..]);
    [other(before), Some(name(kind, part)), other(after)].into_iter().flatten().collect()
}

/// How much white space a value starts with, in bytes.
fn indent(value: &str) -> usize {
    value.len() - value.trim_start().len()
}

/// What a name before a colon is given to, where it is given there.
fn given_by_key(outline: &Outline<'_>, spot: &Spot<'_>) -> Option<NameKind> {
    let above = outline.parent(spot)?;
    let word = above.own_word().filter(|word| word.section.name == "file")?;
    match word.row.word {
        "sizes" => Some(NameKind::Size),
        "fabrics" => Some(NameKind::Fabric),
        "units" => Some(NameKind::Unit),
        "blocks" => Some(NameKind::Block),
        _ => None,
    }
}

/// Whether a value is the name of a piece, given in a cutting list.
fn gives_piece(spot: &Spot<'_>) -> bool {
    spot.text().is_some() && spot.own_word().is_some_and(|word| word.is("cut", "piece") || word.is("subcut", "piece"))
}

/// What is named by a value that may be any text.
pub(super) fn kind_of_text(word: Word) -> Option<NameKind> {
    match (word.section.name, word.row.word) {
        ("cut", "beside") | ("accepted", "piece") => Some(NameKind::Piece),
        ("accepted", "fabric") => Some(NameKind::Fabric),
        ("accepted", "unit") => Some(NameKind::Unit),
        ("accepted", "block") => Some(NameKind::Block),
        _ => None,
    }
}

/// The fabric in whose cutting list something stands.
pub(super) fn fabric_of<'n>(outline: &Outline<'n>, spot: &Spot<'n>) -> Option<&'n str> {
    let mut above = outline.above(spot);
    let fabric = above.find(|spot| given_by_key(outline, spot) == Some(NameKind::Fabric))?;
    fabric.key().map(|(key, _)| key)
}

/// Where the text of what stands before a colon starts, where it is in the file to the letter.
fn verbatim_key(key: &str, at: Span) -> Option<usize> {
    // With quotation marks it is longer by these two, without by nothing.
    match at.len().checked_sub(key.len()) {
        Some(0) => Some(at.start),
        Some(2) => Some(at.start + 1),
        _ => None,
    }
}
