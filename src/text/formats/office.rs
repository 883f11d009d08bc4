//! What Word's texts and OpenDocument's have in common: styles, tables, and what is told of a part that cannot be read.

use std::collections::BTreeMap;

use super::builder::{Builder, Script};
use super::grid::Grid;
use super::package::PartFault;
use super::xml::XmlFault;
use crate::text::passage::{PassageKind, TextPlace};

/// How many styles are asked in turn for what one of them leaves to another.
const MAX_PARENTS: usize = 16;

/// What a style says; what it leaves open, the style it is based on says.
#[derive(Clone, Debug, Default)]
pub(super) struct Style {
    pub(super) based_on: Option<String>,
    pub(super) heading: Option<u8>,
    pub(super) list: Option<u8>,
    pub(super) script: Option<Script>,
    pub(super) hidden: Option<bool>,
    pub(super) bold: Option<bool>,
    /// Whether it is that of a table of contents.
    pub(super) contents: bool,
}

/// The styles of a text, by their names.
#[derive(Default)]
pub(super) struct Styles(pub(super) BTreeMap<String, Style>);

impl Styles {
    /// What a style says, with all that it is based on.
    pub(super) fn resolved(&self, name: &str) -> Style {
        let mut style = Style::default();
        let mut next = Some(name.to_owned());
        for _ in 0..MAX_PARENTS {
            let Some(found) = next.as_ref().and_then(|name| self.0.get(name)) else { break };
            style.heading = style.heading.or(found.heading);
            style.list = style.list.or(found.list);
            style.script = style.script.or(found.script);
            style.hidden = style.hidden.or(found.hidden);
            style.bold = style.bold.or(found.bold);
            style.contents |= found.contents;
            next.clone_from(&found.based_on);
        }
        style
    }
}

/// A table that is being read.
pub(super) struct OpenTable {
    pub(super) grid: Grid,
    first: usize,
    /// Whether cells of this row are heads.
    pub(super) is_head: bool,
    /// The cell that is open.
    pub(super) cell: Option<PassageKind>,
    /// The last cell of each column, for those that go on downwards.
    last_in_column: BTreeMap<u32, (Option<usize>, u32)>,
}

impl OpenTable {
    pub(super) fn new(builder: &mut Builder) -> OpenTable {
        OpenTable {
            grid: Grid::new(builder.next_table()),
            first: builder.len(),
            is_head: false,
            cell: None,
            last_in_column: BTreeMap::new(),
        }
    }

    /// Ends the passage of the cell that is open.
    pub(super) fn end_cell(&mut self, builder: &mut Builder) {
        let Some(cell @ PassageKind::Cell { column, rows, .. }) = self.cell.take() else { return };
        let index = builder.end(cell);
        self.last_in_column.insert(column, (index, rows));
    }

    /// Goes on with the cell above for another row.
    pub(super) fn continue_cell(&mut self, columns: u32, builder: &mut Builder) {
        let column = self.grid.column();
        self.grid.skip(columns.max(1));
        if let Some((cell, rows)) = self.last_in_column.get_mut(&column) {
            *rows += 1;
            if let Some(cell) = *cell {
                builder.set_rows(cell, *rows);
            }
        }
    }

    /// Ends the table.
    pub(super) fn end(mut self, builder: &mut Builder) {
        self.end_cell(builder);
        super::heads::mark_first_row(builder, self.first, self.grid.table());
        builder.end_group();
    }
}

/// Tells that a part could not be read; `what` names the file, `program` what can repair it.
pub(super) fn tell_part(builder: &mut Builder, fault: PartFault, what: &str, program: &str) {
    let says = match fault {
        PartFault::Missing => format!("this is no {what}: the part that holds its text is missing"),
        PartFault::Encrypted => format!("it is protected by a password: save it in {program} without one"),
        PartFault::UnknownPacking => {
            format!("its text is packed in a way that {what}s are not: open it in {program} and save it again")
        }
        PartFault::Damaged => format!("it is damaged: open it in {program} and save it again"),
        PartFault::TooLarge => "unpacked, it is larger than 20 MB of text: nothing of it was read".to_owned(),
    };
    builder.problem(says, TextPlace::Whole);
}

/// Tells that a part could not be read to its end.
pub(super) fn tell_xml(builder: &mut Builder, fault: XmlFault, program: &str) {
    let at = builder.next_paragraph();
    match fault {
        XmlFault::Damaged => {
            builder.problem(format!("it is damaged from here on: open it in {program} and save it again"), at);
        }
        XmlFault::TooDeep => builder.problem("from here on it is nested too deep to be read", at),
        XmlFault::Entities => {
            builder.problem("it declares entities of its own, which are not read", TextPlace::Whole);
        }
    }
}
