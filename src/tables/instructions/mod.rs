//! Cutting instructions to put into the printed pattern, in the trade's own form, fabric by fabric.
//!
//! They say what is stated and nothing else: where a manuscript gives the strips of a rectangle without their width, so
//! do they. [`crate::report`] writes them with the numbers of all sizes in a run, with a list for each size, or in tables.

mod edges;
mod fabric;
mod measures;
mod parts;
mod units;

use super::cell_text::CellText;
use super::{Head, Tables, Wanted, is_same};
use crate::manuscript::{Manuscript, Source, read};
use crate::rule_book::Settings;

pub use parts::{Clause, Link, Part, Section, Step};

/// The cutting instructions of one pattern.
#[derive(Clone, Debug)]
pub struct Instructions {
    /// What stands above them and below them.
    pub head: Head,
    /// The names of the sizes.
    pub sizes: Vec<String>,
    /// What the short words in them stand for.
    pub notes: Vec<String>,
    /// What is cut, fabric by fabric.
    pub sections: Vec<Section>,
}

/// Strips from selvedge to selvedge.
pub(super) const WOF: &str = "WOF";

/// Makes the cutting instructions of a manuscript under the settings in force, by which its cautions are chosen.
pub fn instructions_under(source: &Source, settings: &Settings) -> Instructions {
    made(source, &read(source), settings, &Wanted::default())
}

/// Makes those cutting instructions that are wanted, as they are wanted.
///
/// # Errors
/// In words, where something is wanted that the manuscript does not have.
pub fn instructions_wanted(source: &Source, settings: &Settings, wanted: &Wanted) -> Result<Instructions, String> {
    let manuscript = read(source);
    let size = wanted.place_of_size(&manuscript)?;
    let mut made = made(source, &manuscript, settings, wanted);
    if let Some(size) = size {
        made.sizes = made.sizes.into_iter().skip(size).take(1).collect();
        made.sections.iter_mut().for_each(|section| section.keep_size(size));
        made.sections.retain(|section| !section.steps.is_empty());
    }
    let named = |section: &Section, name: &str| is_same(&section.of, name) || is_same(&section.heading, name);
    made.sections = wanted.chosen(made.sections, named, |section| &section.of)?;
    Ok(made)
}

fn made(source: &Source, manuscript: &Manuscript, settings: &Settings, wanted: &Wanted) -> Instructions {
    let pen = CellText::new(source, manuscript, wanted);
    let mut sections: Vec<Section> = fabric::sections(manuscript, &pen);
    sections.extend(edges::sections(manuscript, &pen));
    sections.extend(units::section(manuscript, &pen));
    sections.retain(|section| !section.steps.is_empty());
    Instructions {
        head: Head::new(source, manuscript, settings, wanted),
        sizes: pen.sizes(),
        notes: notes(manuscript, &pen, &sections),
        sections,
    }
}

/// What the short words stand for, where they are used.
fn notes(manuscript: &Manuscript, pen: &CellText<'_>, sections: &[Section]) -> Vec<String> {
    let has_wof = |part: &Part| match part {
        Part::Words(words) => words.contains(WOF),
        Part::Values(cells) => cells.iter().any(|cell| cell.text().ends_with(WOF)),
        Part::Counts(_) | Part::Noun(..) => false,
    };
    let clauses = sections.iter().flat_map(|section| &section.steps).flat_map(|step| &step.clauses);
    if !clauses.flat_map(|clause| &clause.parts).any(has_wof) {
        return Vec::new();
    }
    let usable = match pen.length(&manuscript.assumes.usable_width) {
        super::Cell::Stated(width) => format!(", with a usable width of {width} unless another is given"),
        _ => String::new(),
    };
    vec![format!("WOF: the width of fabric, from selvedge to selvedge{usable}.")]
}

impl Instructions {
    /// Tables with the same head and notes.
    pub fn as_tables(&self, tables: Vec<super::Table>) -> Tables {
        Tables { head: self.head.clone(), notes: self.notes.clone(), tables }
    }
}
