//! The words of the format: a row for each, from which everything else that is known of a word comes.
//!
//! `section!` declares the words of one table of the manuscript: their rows, the fields that hold them, and the
//! reading of those that need no more than the node itself. The reader asks for words by their rows, so that a word
//! without a row cannot be asked for; missing and unknown words, sign-offs, the reference and the schema read the rows.

use super::declared_names::DeclaredNames;
use super::reader::Reader;
use super::table::beginning;
use super::tree::Entry;
use crate::quilt_math::makes::{Make, MakeRow};

/// The words of one table of the manuscript.
#[derive(Debug)]
pub struct Section {
    /// What it is called in the reference, such as `binding requires`.
    pub name: &'static str,
    /// Where its words stand, as a heading: `In each of the sizes`.
    pub heading: &'static str,
    /// What else is to be said of it, in whole sentences.
    pub about: &'static str,
    /// Its words, in the order in which they are printed.
    pub rows: &'static [&'static Row],
    /// Whether any of them needs another.
    pub any_needs: bool,
}

/// One word of the format.
#[derive(Debug)]
pub struct Row {
    /// The word.
    pub word: &'static str,
    /// What may stand after it.
    pub shape: Shape,
    /// What holds where it is left out.
    pub left_out: LeftOut,
    /// What it says, as a clause.
    pub says: &'static str,
    /// A value of it.
    pub example: &'static str,
    /// What else to say where it is missing.
    pub hint: &'static str,
    /// What it goes with: it is unknown beside anything else.
    pub goes_with: GoesWith,
    /// The word that must be there where this one is.
    pub needs: Option<&'static str>,
    /// The words beside which it would be a second answer.
    pub not_beside: &'static [&'static str],
    /// Whether its value is the name of the list's item that it stands in.
    pub names_item: bool,
    /// A bit for how it begins, by which most words are seen not to be in a table.
    pub(super) begins: u64,
}

/// What holds where a word is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// It must be there.
    Required,
    /// It must be there unless one of these words is; what holds then.
    Unless(&'static [&'static str], &'static str),
    /// A value that is written the same way.
    Standard(&'static str),
    /// The value of the rule book that has this name.
    BookValue(&'static str),
    /// In words; a name in braces stands for a value of the rule book.
    Said(&'static str),
}

/// What is said of a word that must be there beside the values that it goes with.
pub const FOR_THOSE: &str = "must be there for those";

/// What a word goes with.
#[derive(Clone, Copy, Debug)]
pub enum GoesWith {
    /// Anything.
    Anything,
    /// A word of the same table that has one of these values.
    Values(&'static str, &'static [&'static str]),
    /// These words, itself among them: all of them must be there where one is, and no word of another such group.
    Group(&'static [&'static str]),
    /// Units of these makes.
    Makes(fn(&MakeRow) -> bool),
}

/// What may stand after a word.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// Any text.
    Text,
    /// A length.
    Length {
        /// Whether it may be 0.
        zero: bool,
    },
    /// An amount of fabric.
    Amount {
        /// Whether it may be 0.
        zero: bool,
    },
    /// An amount of fabric or a count, with the words that may stand after either.
    Bought,
    /// A percentage.
    Percent,
    /// A whole number from one to another.
    Count(u64, u64),
    /// A width and a length.
    Dimensions,
    /// A width and a length, or about that.
    AboutDimensions,
    /// A width and a height, or the one side of a square.
    SquareOrSides,
    /// A place across and down, either of which may be 0.
    Point,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// The name of something that stands elsewhere: a fabric, a unit.
    Name(&'static str),
    /// A table with the words of a section.
    Table(&'static Section),
    /// An entry for each size, or for some.
    BySize(&'static Shape),
    /// Entries whose names the writer chooses.
    Named(&'static Shape),
    /// A list of at least and at most so many items.
    List(&'static Shape, usize, usize),
    /// One of several.
    Either(&'static [Shape]),
    /// What the parts of a unit are cut from, by the names that its make gives them.
    Parts,
    /// A level for each rule.
    Levels,
    /// A value for each name of the rule book.
    BookValues,
    /// A packaged batting by a name that a house gives it.
    PackageOfHouse,
}

impl Row {
    /// A row with what every word has.
    pub(crate) const fn new(
        word: &'static str,
        shape: Shape,
        left_out: LeftOut,
        says: &'static str,
        example: &'static str,
    ) -> Row {
        Row {
            word,
            shape,
            left_out,
            says,
            example,
            hint: "",
            goes_with: GoesWith::Anything,
            needs: None,
            not_beside: &[],
            names_item: false,
            begins: beginning(word),
        }
    }

    /// What else to say where it is missing.
    pub(crate) const fn hint(mut self, hint: &'static str) -> Row {
        self.hint = hint;
        self
    }

    /// It is known only beside a word of the same table, where that has one of these values.
    pub(crate) const fn goes_with(mut self, word: &'static str, values: &'static [&'static str]) -> Row {
        self.goes_with = GoesWith::Values(word, values);
        self
    }

    /// It stands with these words, itself among them, and without those of another such group.
    pub(crate) const fn group(mut self, words: &'static [&'static str]) -> Row {
        self.goes_with = GoesWith::Group(words);
        self
    }

    /// Where it is there, another word must be.
    pub(crate) const fn needs(mut self, word: &'static str) -> Row {
        self.needs = Some(word);
        self
    }

    /// It says in another way what these words say.
    pub(crate) const fn not_beside(mut self, words: &'static [&'static str]) -> Row {
        self.not_beside = words;
        self
    }

    /// It is known only in units of these makes.
    pub(crate) const fn makes(mut self, makes: fn(&MakeRow) -> bool) -> Row {
        self.goes_with = GoesWith::Makes(makes);
        self
    }

    /// Its value is the name of the list's item that it stands in, or a part of that name.
    pub(crate) const fn names_item(mut self) -> Row {
        self.names_item = true;
        self
    }

    /// Whether it is known in a unit of a make; of what could not be read, it may be.
    pub fn is_known_in(&self, make: Option<Make>) -> bool {
        match (self.goes_with, make) {
            (GoesWith::Makes(goes), Some(make)) => goes(make.row()),
            _ => true,
        }
    }

    /// The whole entry as an example, such as `for: queen bed   # a drop is measured from the top of a mattress`.
    pub fn entry(&self) -> String {
        let hint = if self.hint.is_empty() { String::new() } else { format!("   # {}", self.hint) };
        format!("{}: {}{hint}", self.word, self.example)
    }
}

/// What a step further down a manuscript leads through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// A word of the format.
    Keyword,
    /// The name of a size.
    Size,
    /// Another name that the writer chose.
    Name,
    /// An item of a list.
    Item,
}

impl Shape {
    /// What may stand under a word, a name or an item in it; `None` where the format has no such word.
    pub fn step(self, word: &str) -> Option<(Step, Shape)> {
        match self {
            Shape::Table(section) => Some((Step::Keyword, section.row(word)?.shape)),
            Shape::BySize(each) => Some((Step::Size, *each)),
            Shape::Named(each) => Some((Step::Name, *each)),
            Shape::List(each, ..) => Some((Step::Item, *each)),
            Shape::Parts => Some((Step::Name, Shape::Text)),
            Shape::Either(shapes) => shapes.iter().find_map(|shape| shape.step(word)),
            _ => None,
        }
    }

    /// The sections that may stand in it, each before those that stand in it.
    pub fn sections(self) -> Vec<&'static Section> {
        match self {
            Shape::Table(section) => section.all(),
            Shape::BySize(each) | Shape::Named(each) | Shape::List(each, ..) => each.sections(),
            Shape::Either(shapes) => shapes.iter().flat_map(|shape| shape.sections()).collect(),
            _ => Vec::new(),
        }
    }

    /// The words whose values, one after another, are the name of such an item of a list.
    pub fn item_names(self) -> impl Iterator<Item = &'static str> {
        let table = |shape: &Shape| match shape {
            Shape::Table(section) => Some(section.rows),
            _ => None,
        };
        let rows = match &self {
            Shape::Either(shapes) => shapes.iter().find_map(table),
            shape => table(shape),
        };
        rows.unwrap_or_default().iter().filter(|row| row.names_item).map(|row| row.word)
    }
}

impl Section {
    /// The section and those that may stand in it, each before those that stand in it.
    pub fn all(&'static self) -> Vec<&'static Section> {
        let mut all = vec![self];
        for section in self.rows.iter().flat_map(|row| row.shape.sections()) {
            if all.iter().all(|known: &&Section| known.name != section.name) {
                all.push(section);
            }
        }
        all
    }

    /// The groups of words of which only one may be there.
    pub fn groups(&self) -> Vec<&'static [&'static str]> {
        let mut groups: Vec<&'static [&'static str]> = Vec::new();
        for row in self.rows {
            if let GoesWith::Group(words) = row.goes_with
                && !groups.contains(&words)
            {
                groups.push(words);
            }
        }
        groups
    }

    /// The row of a word.
    pub fn row(&self, word: &str) -> Option<&'static Row> {
        self.rows.iter().copied().find(|row| row.word == word)
    }
}

/// Whether a row needs another.
pub(crate) const fn any_needs(rows: &[&Row]) -> bool {
    let mut index = 0;
    while index < rows.len() {
        if rows[index].needs.is_some() {
            return true;
        }
        index += 1;
    }
    false
}

/// A kind of value: what may be written, and how it is read.
pub(crate) trait ValueKind {
    /// What the reader makes of it.
    type Field: Default;

    /// What may be written.
    const SHAPE: Shape;

    /// Whether a table may be written.
    const TAKES_TABLE: bool = false;

    /// Reads what stands after a word.
    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> Self::Field;

    /// Something that could not be read.
    fn unread() -> Self::Field;
}
