//! The entries of a text with the words of the format that lead to them.
//!
//! A text that is being typed is seldom whole: it is read as a check reads it, so that what stands before and after a
//! broken place is there.

use crate::keywords::is_word;
use crate::manuscript::section::{Row, Section, Shape, Step};
use crate::manuscript::tree::{Entry, Kind, Node};
use crate::manuscript::{EVERY_SIZE, Keyword, Source, Span, with_tree};
use crate::rule_book::HouseLevel;

/// A word of the format, and the section that it stands in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Word {
    pub(super) section: &'static Section,
    pub(super) row: &'static Row,
}

impl Word {
    /// Whether it is this word of this section.
    pub(super) fn is(self, section: &str, word: &str) -> bool {
        self.section.name == section && self.row.word == word
    }
}

/// How a value is reached from the one that it stands in.
#[derive(Clone, Copy, Debug)]
pub(super) enum Lead<'n> {
    /// It is the whole.
    Whole,
    /// By what stands before its colon.
    Key {
        /// That.
        key: &'n str,
        /// Where it stands.
        at: Span,
        /// What that is; `None` where the format has no such word.
        step: Option<Step>,
    },
    /// It is an item of a list.
    Item,
}

/// A value.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot<'n> {
    /// The one that it stands in, by its place in the outline.
    pub(super) parent: Option<usize>,
    /// How it is reached from there.
    pub(super) lead: Lead<'n>,
    /// The value.
    pub(super) node: &'n Node<'n>,
    /// What may stand there; `None` where the format has nothing there.
    pub(super) shape: Option<Shape>,
    /// The last word of the format that leads to it.
    pub(super) word: Option<Word>,
    /// The place in the outline after those that stand in it.
    end: usize,
}

impl<'n> Spot<'n> {
    /// What stands before its colon, and where.
    pub(super) const fn key(&self) -> Option<(&'n str, Span)> {
        match self.lead {
            Lead::Key { key, at, .. } => Some((key, at)),
            Lead::Whole | Lead::Item => None,
        }
    }

    /// The word of the format before its colon, where one stands there.
    pub(super) fn own_word(&self) -> Option<Word> {
        match self.lead {
            Lead::Key { step: Some(Step::Keyword), .. } => self.word,
            _ => None,
        }
    }

    /// Where all of it stands, with what leads to it.
    pub(super) fn whole(&self) -> Span {
        self.key().map_or(self.node.at, |(_, at)| at.to(self.node.at))
    }

    /// Its text, where it is one value.
    pub(super) fn text(&self) -> Option<&'n str> {
        match &self.node.kind {
            Kind::Scalar { value, .. } => Some(value),
            _ => None,
        }
    }
}

/// The values of a text, each after the one that it stands in.
#[derive(Debug)]
pub(super) struct Outline<'n> {
    pub(super) spots: Vec<Spot<'n>>,
    /// Whether all of the text was read.
    pub(super) whole: bool,
    /// The names of the sizes, by which a value for all sizes is told from one for each.
    sizes: Vec<&'n str>,
}

/// What comes of the outline of a text, where there is anything in it.
pub(super) fn with_outline<T>(source: &Source, format: Shape, work: impl FnOnce(&Outline<'_>) -> T) -> Option<T> {
    with_tree(source, |reader, tree, whole| {
        let outline = Outline::new(tree?, format, whole && reader.mistakes() == 0);
        Some(work(&outline))
    })
}

impl<'n> Outline<'n> {
    fn new(tree: &'n Node<'n>, format: Shape, whole: bool) -> Outline<'n> {
        let mut outline = Outline { spots: Vec::new(), whole, sizes: sizes(tree) };
        outline.add(Spot { parent: None, lead: Lead::Whole, node: tree, shape: Some(format), word: None, end: 0 });
        outline
    }

    fn add(&mut self, spot: Spot<'n>) {
        let (place, Spot { node, word, .. }) = (self.spots.len(), spot);
        self.spots.push(spot);
        match node.kind {
            Kind::Table(entries) => {
                let shape = spot.shape.map(|shape| self.table_shape(shape, entries.iter().map(|entry| entry.key)));
                for entry in entries {
                    self.add_entry(place, shape, word, entry);
                }
            }
            Kind::List(items) => {
                let shape = spot.shape.and_then(item_shape);
                for node in items {
                    self.add(Spot { parent: Some(place), lead: Lead::Item, node, shape, word, end: 0 });
                }
            }
            Kind::Scalar { .. } | Kind::Empty | Kind::Unread => {}
        }
        self.spots[place].end = self.spots.len();
    }

    fn add_entry(&mut self, place: usize, shape: Option<Shape>, word: Option<Word>, entry: &'n Entry<'n>) {
        let under = shape.and_then(|shape| under(shape, entry.key));
        let own = match shape {
            Some(Shape::Table(section)) => row_of(section, entry.key).map(|row| Word { section, row }),
            _ => word,
        };
        let lead = Lead::Key { key: entry.key, at: entry.key_at, step: under.map(|(step, _)| step) };
        let shape = under.map(|(_, shape)| shape);
        self.add(Spot { parent: Some(place), lead, node: &entry.value, shape, word: own, end: 0 });
    }

    /// What a table with these words is, of several things that a value may be.
    pub(super) fn table_shape<'k>(&self, shape: Shape, mut keys: impl Iterator<Item = &'k str>) -> Shape {
        let shapes = alternatives(shape);
        let by_size = shapes.iter().find(|shape| matches!(shape, Shape::BySize(_)));
        let table = shapes.iter().find(|shape| matches!(shape, Shape::Table(_) | Shape::Named(_) | Shape::Parts));
        let names_size = keys.any(|key| key == EVERY_SIZE || self.sizes.contains(&key));
        let found = if names_size { by_size.or(table) } else { table.or(by_size) };
        found.copied().unwrap_or(shape)
    }

    /// What a spot stands in, and what that stands in, and so on.
    pub(super) fn above(&self, spot: &Spot<'n>) -> impl Iterator<Item = &Spot<'n>> {
        std::iter::successors(self.parent(spot), |spot| self.parent(spot))
    }

    /// What a spot stands in.
    pub(super) fn parent(&self, spot: &Spot<'n>) -> Option<&Spot<'n>> {
        self.spots.get(spot.parent?)
    }

    /// What stands in a spot.
    pub(super) fn within(&self, place: usize) -> impl Iterator<Item = (usize, &Spot<'n>)> {
        let next = move |place: &usize| self.spots.get(*place).map(|spot| spot.end);
        let all = std::iter::successors(Some(place + 1), next);
        let end = self.spots.get(place).map_or(0, |spot| spot.end);
        all.take_while(move |place| *place < end).map(|place| (place, &self.spots[place]))
    }

    /// What stands in a spot, and in that, and so on.
    pub(super) fn all_within(&self, place: usize) -> &[Spot<'n>] {
        self.spots.get(place).and_then(|spot| self.spots.get(place..spot.end)).unwrap_or_default()
    }

    /// The innermost spot that holds a byte, in what stands before its colon or in its value.
    pub(super) fn at(&self, byte: usize) -> Option<&Spot<'n>> {
        let holds = |at: Span| at.start <= byte && byte <= at.end;
        let by_key = self.spots.iter().rev().find(|spot| spot.key().is_some_and(|(_, at)| holds(at)));
        by_key.or_else(|| self.spots.iter().rev().find(|spot| spot.text().is_some() && holds(spot.node.at)))
    }
}

/// The names of the sizes of a manuscript.
fn sizes<'n>(tree: &'n Node<'n>) -> Vec<&'n str> {
    let Kind::Table(entries) = &tree.kind else { return Vec::new() };
    let sizes = entries.iter().find(|entry| entry.key == "sizes").map(|entry| &entry.value.kind);
    match sizes {
        Some(Kind::Table(entries)) => entries.iter().map(|entry| entry.key).collect(),
        _ => Vec::new(),
    }
}

/// The row of a word, in any of its spellings.
pub(super) fn row_of(section: &'static Section, written: &str) -> Option<&'static Row> {
    section.row(written).or_else(|| section.rows.iter().copied().find(|row| is_word(written, row.word)))
}

/// What may stand under a word or a name, and which of these it is.
pub(super) fn under(shape: Shape, key: &str) -> Option<(Step, Shape)> {
    match shape {
        Shape::Table(section) => row_of(section, key).map(|row| (Step::Keyword, row.shape)),
        // What a part is cut from: a piece or a size.
        Shape::Parts => Some((Step::Name, Shape::Parts)),
        Shape::Levels => Some((Step::Name, Shape::Choice(HouseLevel::NAMES))),
        Shape::BookValues => Some((Step::Name, Shape::Text)),
        _ => shape.step(key),
    }
}

/// What a value may be, one by one.
fn alternatives(shape: Shape) -> Vec<Shape> {
    match shape {
        Shape::Either(shapes) => shapes.iter().copied().flat_map(alternatives).collect(),
        shape => vec![shape],
    }
}

/// What an item of a list may be.
fn item_shape(shape: Shape) -> Option<Shape> {
    match shape {
        Shape::List(each, ..) => Some(*each),
        Shape::Either(shapes) => shapes.iter().copied().find_map(item_shape),
        _ => None,
    }
}
