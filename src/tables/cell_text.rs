//! What is stated, as its writer put it: only white space is made plain, and a bare number is given its unit.
//!
//! The words are compared with the value that was read, so that a cell cannot say another number.

use std::collections::BTreeMap;

use crate::manuscript::design::{Entries, PieceRef};
use crate::manuscript::model::{Colorway, Manuscript, PerSize, Size};
use crate::manuscript::tree::{Arena, Entry, Kind, Node, build};
use crate::manuscript::{BySize, Field, Keyword, Mistakes, Source, Span, Spanned};
use crate::quantity::{
    Amount, Count, Measure, Written, first_half, read_amount, read_count, read_dimensions, read_length, rewrite_sides,
};

use super::language::Language;
use super::typographic::typographic;
use super::{Cell, Wanted};

/// Copies what is stated out of a manuscript.
pub(super) struct CellText<'m> {
    source: &'m Source,
    manuscript: &'m Manuscript,
    language: &'m Language,
    typographic: bool,
    colorway: Option<usize>,
}

impl<'m> CellText<'m> {
    pub(super) fn new(source: &'m Source, manuscript: &'m Manuscript, wanted: &'m Wanted) -> CellText<'m> {
        let is_wanted = |colorway: &Colorway| wanted.colorway.as_ref() == Some(&colorway.name);
        CellText {
            source,
            manuscript,
            language: &wanted.language,
            typographic: wanted.typographic,
            colorway: manuscript.colorways.iter().position(is_wanted),
        }
    }

    /// Words of the program in the language of the tables.
    pub(super) fn say(&self, words: &str) -> String {
        self.language.say(words).to_string()
    }

    /// The same with a name or a number in the place of the braces.
    pub(super) fn say_of(&self, words: &str, name: &str) -> String {
        self.say_of_all(words, &[name])
    }

    /// The same with several names or numbers, one after another.
    pub(super) fn say_of_all(&self, words: &str, names: &[&str]) -> String {
        // A name may have braces in it: each stands where the next of these are.
        let mut parts = self.language.say(words).split("{}");
        let first = parts.next().unwrap_or_default().to_string();
        parts.zip(names).fold(first, |text, (part, name)| text + name + part)
    }

    /// Whether one colorway was chosen.
    pub(super) const fn has_colorway(&self) -> bool {
        self.colorway.is_some()
    }

    /// The color of a fabric, in the colorway that was chosen where it is another there.
    pub(super) fn color(&self, fabric: usize) -> Cell {
        let colorway = self.colorway.and_then(|place| self.manuscript.colorways.get(place));
        let other = colorway.and_then(|colorway| colorway.fabrics.iter().find(|(of, _)| *of == fabric));
        match (other, self.manuscript.fabrics.get(fabric)) {
            (Some((_, color)), _) => text(color),
            (None, Some(fabric)) => text(&fabric.color),
            (None, None) => Cell::Nothing,
        }
    }

    /// A quantity as it is printed: with real fractions and the sign for times, where these are wanted.
    pub(super) fn set(&self, quantity: String) -> String {
        if self.typographic { typographic(&quantity) } else { quantity }
    }

    /// The sign between a width and what it is cut across.
    pub(super) const fn times(&self) -> &'static str {
        if self.typographic { "\u{d7}" } else { "x" }
    }

    const fn measure(&self) -> Measure {
        self.manuscript.measure
    }

    /// A number; without a mark of its own, with that of the measure, unless the measure could not be read.
    fn marked(&self, number: String, bare: bool) -> String {
        let number = self.set(number);
        if bare && self.manuscript.measure_read {
            return format!("{number} {}", self.measure().bare_unit().mark());
        }
        number
    }

    /// The words at a place, out of their quotation marks.
    pub(super) fn words(&self, at: Span) -> String {
        let text = at.text(&self.source.text);
        let arena = Arena::new();
        match build(text, &arena, &[], &mut Mistakes::default()).map(|built| built.tree.kind) {
            Ok(Kind::Scalar { value, .. }) => on_one_line(value),
            _ => on_one_line(text),
        }
    }

    /// The single values and the lists of single values in the table at a place, by their words.
    pub(super) fn inside(&self, at: Span) -> BTreeMap<String, Vec<String>> {
        // With its own indentation before it, so that the first line of the table fits those that follow.
        let column = self.source.place(at.start).column.saturating_sub(1);
        let text = " ".repeat(column) + at.text(&self.source.text);
        let scalar = |node: &Node<'_>| match &node.kind {
            Kind::Scalar { value, .. } => Some(on_one_line(value)),
            _ => None,
        };
        let arena = Arena::new();
        let built = build(&text, &arena, &[], &mut Mistakes::default());
        let Ok(Kind::Table(entries)) = built.map(|built| built.tree.kind) else { return BTreeMap::new() };
        let values = |entry: &Entry<'_>| match &entry.value.kind {
            Kind::List(nodes) => nodes.iter().filter_map(scalar).collect(),
            _ => scalar(&entry.value).into_iter().collect(),
        };
        entries.iter().map(|entry| (entry.key.to_string(), values(entry))).collect()
    }

    pub(super) fn word<W: Keyword>(&self, field: &Field<W>) -> Cell {
        cell(field, |stated| self.keyword(&self.words(stated.at).replace('_', " ")))
    }

    /// A word of the format, in the language of the tables where that has a word for it.
    pub(super) fn keyword(&self, word: &str) -> String {
        self.language.keyword(word).to_string()
    }

    /// What is written at a place.
    pub(super) fn words_at(&self, at: Span) -> String {
        self.words(at)
    }

    pub(super) fn count(&self, field: &Field<Count>) -> Cell {
        cell(field, |stated| self.count_in_words(stated))
    }

    pub(super) fn count_in_words(&self, stated: &Spanned<Count>) -> String {
        let words = self.words(stated.at);
        if read_count(&words) == Ok(stated.value) { words } else { stated.value.to_string() }
    }

    pub(super) fn length(&self, field: &Field<Written>) -> Cell {
        cell(field, |stated| self.length_of(Some(&vec![self.words(stated.at)]), stated.value))
    }

    /// A length in the words for it. Should they not say that length, it is put in words anew.
    pub(super) fn length_of(&self, words: Option<&Vec<String>>, written: Written) -> String {
        let says_it = |words: &&String| read_length(words, self.measure()) == Ok(written);
        let words = words.and_then(|words| words.first()).filter(says_it);
        self.marked(words.cloned().unwrap_or_else(|| written.rewrite(written.length)), written.bare)
    }

    pub(super) fn dimensions(&self, field: &Field<(Written, Written)>) -> Cell {
        cell(field, |stated| self.dimensions_in_words(stated.value, stated.at))
    }

    /// The side of a square, or the two of a rectangle.
    pub(super) fn square(&self, field: &Field<(Written, Written)>) -> Cell {
        match field.value() {
            Some((width, length)) if width == length => self.length(&field.clone().map(|(side, _)| side)),
            _ => self.dimensions(field),
        }
    }

    pub(super) fn dimensions_in_words(&self, sides: (Written, Written), at: Span) -> String {
        let words = self.words(at);
        // Where the two are alike one of them may stand for both.
        if sides.0 == sides.1 && read_length(&words, self.measure()) == Ok(sides.0) {
            return self.say_of("{} square", &self.marked(words, sides.0.bare));
        }
        self.dimensions_of(Some(&words), sides)
    }

    /// A width and a length in the words for them.
    pub(super) fn dimensions_of(&self, words: Option<&String>, (width, length): (Written, Written)) -> String {
        let says_it = |words: &&String| read_dimensions(words, self.measure()) == Ok((width, length));
        let anew = || rewrite_sides((&width, &length), (width.length, length.length));
        self.marked(words.filter(says_it).cloned().unwrap_or_else(anew), width.bare && length.bare)
    }

    pub(super) fn amount(&self, field: &Field<Amount>) -> Cell {
        cell(field, |stated| self.amount_in_words(stated))
    }

    pub(super) fn amount_in_words(&self, stated: &Spanned<Amount>) -> String {
        let (amount, words) = (&stated.value, self.words(stated.at));
        let read = read_amount(&words, self.measure()).ok().filter(|read| read.halves().eq(amount.halves()));
        let anew = |written: &Written| written.rewrite(written.length);
        let first = match &read {
            Some(Amount { second: None, .. }) => words.clone(),
            Some(Amount { second: Some((_, at)), .. }) => first_half(&words, at).unwrap_or_default().to_string(),
            None => anew(&amount.first),
        };
        let first = self.marked(first, amount.first.bare);
        let Some((second, _)) = &amount.second else { return first };
        let in_brackets = read.and_then(|read| Some(words.get(read.second?.1)?.to_string()));
        format!("{first} ({})", self.marked(in_brackets.unwrap_or_else(|| anew(second)), second.bare))
    }

    /// A piece of a cutting list, with its fabric.
    pub(super) fn piece(&self, piece: PieceRef) -> String {
        let Some(fabric) = self.manuscript.fabrics.get(piece.fabric) else { return Cell::Unread.text().to_string() };
        let cut = fabric.cut.get(piece.cut).and_then(|cut| cut.piece.stated());
        let name = cut.map_or(Cell::Unread.text().to_string(), |piece| on_one_line(&piece.value));
        if piece.of == Entries::OfAll {
            return name;
        }
        self.say_of_all("{}, of {}", &[&name, &on_one_line(&fabric.name)])
    }

    /// A cell for each of the sizes, out of what is stated size by size.
    pub(super) fn per_size<T>(&self, stated: &[PerSize<T>], show: impl Fn(&T) -> Cell) -> Vec<Cell> {
        let show = |index| match stated.get(index) {
            Some(PerSize::Stated(value)) => show(value),
            Some(PerSize::Unread) => Cell::Unread,
            Some(PerSize::Nothing) | None => Cell::Nothing,
        };
        (0..self.manuscript.sizes.len()).map(show).collect()
    }

    /// The same for what is seldom stated and stands beside what always is: a size that could not be read at all is
    /// nothing here, unless another size states it.
    pub(super) fn also_per_size<T>(&self, stated: &[PerSize<T>], show: impl Fn(&T) -> Cell) -> Vec<Cell> {
        let known = stated.iter().filter_map(PerSize::stated).any(|value| !show(value).is_nothing());
        if known { self.per_size(stated, show) } else { self.manuscript.sizes.iter().map(|_| Cell::Nothing).collect() }
    }

    /// What is stated once for all sizes.
    pub(super) fn for_all<T>(stated: &BySize<T>, show: impl Fn(&Field<T>) -> Cell) -> Cell {
        match stated {
            BySize::All(field) => show(field),
            BySize::Each(..) => Cell::Nothing,
        }
    }

    /// A cell for each of the sizes, where each has its own.
    pub(super) fn for_each<T>(&self, stated: &BySize<T>, show: impl Fn(&Field<T>) -> Cell) -> Vec<Cell> {
        let sizes = 0..self.manuscript.sizes.len();
        sizes.map(|size| if stated.is_by_size() { show(stated.of(size)) } else { Cell::Nothing }).collect()
    }

    /// The names of the sizes.
    pub(super) fn sizes(&self) -> Vec<String> {
        self.manuscript.sizes.iter().map(|size: &Size| on_one_line(&size.name)).collect()
    }
}

/// A cell for an entry, with the words that `show` puts a stated one in.
pub(super) fn cell<T>(field: &Field<T>, show: impl FnOnce(&Spanned<T>) -> String) -> Cell {
    match field {
        Field::Stated(stated) => Cell::Stated(show(stated)),
        Field::Absent => Cell::Nothing,
        Field::Unread => Cell::Unread,
    }
}

/// A cell for a text.
pub(super) fn text(field: &Field<String>) -> Cell {
    cell(field, |stated| on_one_line(&stated.value))
}

/// The text on one line, with single spaces.
pub(super) fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
