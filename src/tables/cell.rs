//! What a table is made of.

use super::cell_text::CellText;

/// What stands in one place of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// What the manuscript states, as its writer put it.
    Stated(String),
    /// The manuscript states nothing here.
    Nothing,
    /// The manuscript states something here that could not be read.
    Unread,
}

impl Cell {
    /// What is printed. A nought that is stated is printed as such: a dash says that nothing is stated.
    pub fn text(&self) -> &str {
        match self {
            Cell::Stated(text) => text,
            Cell::Nothing => "\u{2013}",
            Cell::Unread => "?",
        }
    }

    /// Whether nothing is stated.
    pub const fn is_nothing(&self) -> bool {
        matches!(self, Cell::Nothing)
    }
}

/// A table: items, each with what is the same for all sizes, and lines of numbers, one for each size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// What kind of table it is, by which a style sheet tells it from others.
    pub class: &'static str,
    /// What it is about.
    pub caption: String,
    /// What its items are.
    pub items_are: String,
    /// The head over the words that tell lines apart.
    pub how_many: String,
    /// What is told of each item for all sizes alike.
    pub attributes: Vec<String>,
    /// The sizes, where its items have lines.
    pub sizes: Vec<String>,
    /// The items.
    pub items: Vec<Item>,
}

/// One thing of which a table tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What it is called.
    pub name: String,
    /// What is the same for all sizes, in the order of the table's attributes.
    pub attributes: Vec<Cell>,
    /// The numbers that differ from size to size; at least one line in a table that has sizes.
    pub lines: Vec<Line>,
}

/// A number for each size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What is counted or measured, where the item's name does not say it.
    pub what: String,
    /// The numbers, in the order of the sizes.
    pub cells: Vec<Cell>,
}

/// A table of what is the same for all sizes: each row a word and what it is, without those that are not stated.
pub(super) fn of_words(
    pen: &CellText<'_>,
    (class, caption): (&'static str, &str),
    rows: impl IntoIterator<Item = (&'static str, Cell)>,
) -> Table {
    let stated = rows.into_iter().filter(|(_, cell)| !cell.is_nothing());
    let item = |(name, cell): (&str, Cell)| Item { name: pen.say(name), attributes: vec![cell], lines: Vec::new() };
    let items = stated.map(item).collect();
    Table { attributes: heads(pen, &["it is"]), items, ..Table::empty(pen, class, pen.say(caption), "what") }
}

/// The words over what is told of each item for all sizes alike.
pub(super) fn heads(pen: &CellText<'_>, heads: &[&str]) -> Vec<String> {
    heads.iter().map(|head| pen.say(head)).collect()
}

impl Line {
    /// A line, unless nothing is stated in it.
    pub(super) fn stated(what: String, cells: Vec<Cell>) -> Option<Line> {
        let stated = cells.iter().any(|cell| !cell.is_nothing());
        stated.then_some(Line { what, cells })
    }
}

impl Item {
    /// An item with one line, unless nothing is stated in it.
    pub(super) fn of_sizes(name: impl Into<String>, cells: Vec<Cell>) -> Option<Item> {
        let line = Line::stated(String::new(), cells)?;
        Some(Item { name: name.into(), attributes: Vec::new(), lines: vec![line] })
    }
}

impl Table {
    /// A table without columns and without items.
    pub(super) fn empty(pen: &CellText<'_>, class: &'static str, caption: String, items_are: &str) -> Table {
        Table {
            class,
            caption,
            items_are: pen.say(items_are),
            how_many: pen.say("how many"),
            attributes: Vec::new(),
            sizes: Vec::new(),
            items: Vec::new(),
        }
    }

    /// The table for one size alone, without what that size has nothing of.
    pub(super) fn of_size(mut self, size: usize) -> Table {
        if self.sizes.is_empty() {
            return self;
        }
        let only = |cells: Vec<Cell>| cells.into_iter().skip(size).take(1).collect();
        self.sizes = self.sizes.into_iter().skip(size).take(1).collect();
        for item in &mut self.items {
            let lines = std::mem::take(&mut item.lines).into_iter();
            item.lines = lines.filter_map(|line| Line::stated(line.what, only(line.cells))).collect();
        }
        self.items.retain(|item| !item.lines.is_empty());
        self
    }

    /// Whether the lines need words to be told apart.
    pub fn has_words_on_lines(&self) -> bool {
        self.items.iter().flat_map(|item| &item.lines).any(|line| !line.what.is_empty())
    }

    /// The table without attributes that none of its items has; nothing where it has no items.
    pub(super) fn with_something(mut self) -> Option<Table> {
        for column in (0..self.attributes.len()).rev() {
            if self.items.iter().all(|item| item.attributes[column].is_nothing()) {
                self.attributes.remove(column);
                self.items.iter_mut().for_each(|item| drop(item.attributes.remove(column)));
            }
        }
        (!self.items.is_empty()).then_some(self)
    }
}
