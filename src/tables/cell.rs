//! What a table is made of.

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
    /// What it is about.
    pub caption: String,
    /// What its items are.
    pub items_are: &'static str,
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
    pub what: &'static str,
    /// The numbers, in the order of the sizes.
    pub cells: Vec<Cell>,
}

/// A table of what is the same for all sizes: each row a word and what it is, without those that are not stated.
pub(super) fn of_words(caption: &'static str, rows: impl IntoIterator<Item = (&'static str, Cell)>) -> Table {
    let stated = rows.into_iter().filter(|(_, cell)| !cell.is_nothing());
    let item = |(name, cell): (&str, Cell)| Item { name: name.into(), attributes: vec![cell], lines: Vec::new() };
    Table {
        caption: caption.into(),
        items_are: "what",
        attributes: heads(&["it is"]),
        sizes: Vec::new(),
        items: stated.map(item).collect(),
    }
}

/// The words over what is told of each item for all sizes alike.
pub(super) fn heads(heads: &[&str]) -> Vec<String> {
    heads.iter().map(ToString::to_string).collect()
}

impl Line {
    /// A line, unless nothing is stated in it.
    pub(super) fn stated(what: &'static str, cells: Vec<Cell>) -> Option<Line> {
        let stated = cells.iter().any(|cell| !cell.is_nothing());
        stated.then_some(Line { what, cells })
    }
}

impl Item {
    /// An item with one line, unless nothing is stated in it.
    pub(super) fn of_sizes(name: impl Into<String>, cells: Vec<Cell>) -> Option<Item> {
        let line = Line::stated("", cells)?;
        Some(Item { name: name.into(), attributes: Vec::new(), lines: vec![line] })
    }
}

impl Table {
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
