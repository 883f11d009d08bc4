//! Which tables of HTML only lay the page out, as older pages and letters have them.

use html5gum::Tokenizer;
use html5gum::emitters::default::Token;

use super::html_elements::{heading_level, is_block, name};

/// How deep tables are told apart.
const MAX_DEPTH: usize = 64;

/// A table that is open.
#[derive(Default)]
struct Open {
    number: usize,
    cells: usize,
    has_heads: bool,
    /// Whether a heading stands in the cell that is open.
    after_heading: bool,
    lays_out: bool,
}

/// For each table in the order of their beginnings, whether it lays the page out: it says so, holds other tables or one
/// cell only, or a heading stands over other text in a cell of it; and no cell is marked as a head.
pub(super) fn layout_tables(text: &str) -> Vec<bool> {
    let mut tables = Vec::new();
    let mut open: Vec<Open> = Vec::new();
    for token in Tokenizer::new(text) {
        let Ok(token) = token;
        match token {
            Token::StartTag(tag) => {
                let name = name(&tag.name);
                if name == "table" {
                    let role = tag.attributes.get(b"role".as_slice()).map(|role| self::name(role)).unwrap_or_default();
                    if let Some(outer) = open.last_mut() {
                        outer.lays_out = true;
                    }
                    if open.len() < MAX_DEPTH {
                        let lays_out = matches!(role.as_str(), "presentation" | "none");
                        open.push(Open { number: tables.len(), lays_out, ..Open::default() });
                    }
                    tables.push(false);
                } else if let Some(table) = open.last_mut() {
                    table.start(&name);
                }
            }
            Token::EndTag(tag) if *tag.name == b"table"[..] => close(open.pop(), &mut tables),
            _ => {}
        }
    }
    while let Some(table) = open.pop() {
        close(Some(table), &mut tables);
    }
    tables
}

impl Open {
    fn start(&mut self, name: &str) {
        match name {
            "td" | "th" => {
                self.cells += 1;
                self.after_heading = false;
                self.has_heads |= name == "th";
            }
            "thead" => self.has_heads = true,
            _ if heading_level(name).is_some() => self.after_heading = true,
            _ => self.lays_out |= self.after_heading && is_block(name) && !matches!(name, "tr" | "tbody" | "tfoot"),
        }
    }
}

fn close(table: Option<Open>, tables: &mut [bool]) {
    let Some(table) = table else { return };
    tables[table.number] = !table.has_heads && (table.lays_out || table.cells == 1);
}
