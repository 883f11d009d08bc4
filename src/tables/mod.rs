//! The requirements tables of the printed pattern, made from the manuscript, so that a number is typed once.
//!
//! Only what is stated stands in them, never what was computed: an editor looks at a finding first. The tables are
//! plain data here; [`crate::report`] writes them as Markdown, CSV or HTML.
//!
//! A correction is a proposal: an editor may change another number than the one that a finding points at, and a table
//! must not run ahead of the manuscript that it says to be made from.

mod about;
mod buying;
mod cell;
mod cell_text;
mod cutting;
mod design;
mod edges;
mod extras;
mod finished;
mod for_all;
mod headings;
pub mod instructions;
mod language;
mod missing;
mod typographic;
mod wanted;

use crate::caution::cautions;
use crate::manuscript::{Manuscript, Source, read};
use crate::rule_book::Settings;

pub use cell::{Cell, Item, Line, Table};
pub use instructions::{Instructions, instructions_under, instructions_wanted};
pub use language::Language;
pub use missing::Missing;
pub use wanted::Wanted;

/// The tables of one pattern.
#[derive(Clone, Debug)]
pub struct Tables {
    /// What stands above them and below them.
    pub head: Head,
    /// What the short words in them stand for.
    pub notes: Vec<String>,
    /// The tables, in the order in which a pattern prints them.
    pub tables: Vec<Table>,
}

/// What stands above and below all that is made of one pattern.
#[derive(Clone, Debug)]
pub struct Head {
    /// The pattern's name.
    pub pattern: Cell,
    /// Which edition it is.
    pub edition: Cell,
    /// What is printed above the tables: the pattern's name, its edition, and the colorway that was chosen.
    pub title: String,
    /// The language of the headings, as a web page names it.
    pub language: String,
    /// What stands over the cautions.
    pub take_care: String,
    /// What a reader of the pattern should be warned of.
    pub cautions: Vec<String>,
    /// What is missing from the manuscript or could not be read in it, so that it is not in the tables.
    pub missing: Vec<Missing>,
}

impl Head {
    fn new(source: &Source, manuscript: &Manuscript, settings: &Settings, wanted: &Wanted) -> Head {
        let (pattern, edition) = (cell_text::text(&manuscript.pattern), cell_text::text(&manuscript.edition));
        let say = |words: &'static str| wanted.language.say(words);
        let mut title = pattern.text().to_string();
        if !edition.is_nothing() {
            title.push_str(&say(", edition {}").replacen("{}", edition.text(), 1));
        }
        if let Some(colorway) = &wanted.colorway {
            title.push_str(&say(", colorway {}").replacen("{}", colorway, 1));
        }
        Head {
            pattern,
            edition,
            title,
            language: wanted.language.tag().to_string(),
            take_care: say("Take care").to_string(),
            cautions: cautions(manuscript, settings).into_iter().map(|words| say(words).to_string()).collect(),
            missing: missing::missing(source, manuscript),
        }
    }

    /// What a reader of incomplete tables must know.
    pub fn warning(&self) -> Option<String> {
        let absent = self.missing.iter().filter(|missing| missing.is_absent).count();
        let absent = match absent {
            0 => None,
            1 => Some("one entry is missing from the manuscript".to_string()),
            many => Some(format!("{many} entries are missing from the manuscript")),
        };
        let unread = match self.missing.iter().filter(|missing| !missing.is_absent).count() {
            0 => None,
            1 => Some("one place in the manuscript could not be read".to_string()),
            many => Some(format!("{many} places in the manuscript could not be read")),
        };
        let both: Vec<String> = absent.into_iter().chain(unread).collect();
        if both.is_empty() {
            return None;
        }
        Some(format!("Not complete: {}. A ? stands where something is missing.", both.join(", and ")))
    }
}

/// Makes the tables of a manuscript by the standard values.
pub fn tables(source: &Source) -> Tables {
    tables_under(source, &Settings::default())
}

/// Makes the tables of a manuscript under the settings in force, by which its cautions are chosen.
pub fn tables_under(source: &Source, settings: &Settings) -> Tables {
    let wanted = Wanted::default();
    made(source, &read(source), settings, &wanted)
}

/// Makes those tables of a manuscript that are wanted, as they are wanted.
///
/// # Errors
/// In words, where something is wanted that the manuscript does not have.
pub fn tables_wanted(source: &Source, settings: &Settings, wanted: &Wanted) -> Result<Tables, String> {
    let manuscript = read(source);
    let size = wanted.place_of_size(&manuscript)?;
    let mut made = made(source, &manuscript, settings, wanted);
    if let Some(size) = size {
        let tables = made.tables.into_iter().map(|table| table.of_size(size));
        made.tables = tables.filter_map(Table::with_something).collect();
    }
    let named = |table: &Table, name: &str| {
        let of_fabric = wanted.language.say("Cut from {}").replacen("{}", name, 1);
        is_same(&table.caption, name) || is_same(&table.caption, &of_fabric)
    };
    made.tables = wanted.chosen(made.tables, named, |table| &table.caption)?;
    Ok(made)
}

/// Whether two names are the same however they are capitalized.
fn is_same(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.trim().to_lowercase()
}

fn made(source: &Source, manuscript: &Manuscript, settings: &Settings, wanted: &Wanted) -> Tables {
    let pen = cell_text::CellText::new(source, manuscript, wanted);
    let mut tables = vec![
        about::about(manuscript, &pen),
        finished::finished(manuscript, &pen),
        buying::buying(manuscript, &pen),
        about::notions(manuscript, &pen),
        for_all::for_all_sizes(manuscript, &pen),
    ];
    tables.extend(about::colorways(manuscript, &pen));
    tables.extend(cutting::cutting(manuscript, &pen));
    tables.extend(design::design(manuscript, &pen));
    tables.extend(edges::edges(manuscript, &pen));
    tables.push(extras::extras(manuscript, &pen));
    let tables: Vec<Table> = tables.into_iter().filter_map(Table::with_something).collect();
    Tables { head: Head::new(source, manuscript, settings, wanted), notes: Vec::new(), tables }
}
