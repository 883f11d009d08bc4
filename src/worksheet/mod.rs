//! The worksheet of a manuscript: the account of its numbers and its drawings, from one reading, with its fingerprint.

mod matrix;
mod sections;
mod selection;
mod signing;
mod texts;

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::audit::{Audit, account_of};
use crate::caution::cautions;
use crate::check::{Corrections, Tally, check_with};
use crate::drawing::Drawings;
use crate::manuscript::{Source, read};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;

pub use matrix::{Matrix, MatrixPart, MatrixRow, is_even, needed_beside};
pub use sections::{Section, Sections};
pub use selection::{Selection, SelectionError};
pub use signing::{SignState, Signing};
pub use texts::{SaidInText, WorksheetText, WorksheetTexts};

/// Everything that a worksheet shows.
#[derive(Clone, Debug)]
pub struct Worksheet {
    /// The pattern's name, where it is stated.
    pub pattern: Option<String>,
    /// Its edition, where it is stated.
    pub edition: Option<String>,
    /// The file.
    pub path: PathBuf,
    /// Every number beside what is needed.
    pub account: Audit,
    /// What is found in the whole manuscript and its printed texts, whatever part of it is shown.
    pub tally: Tally,
    /// Where its printed texts say its numbers.
    pub texts: WorksheetTexts,
    /// The sections of the manuscript.
    pub sections: Sections,
    /// What is drawn of each size.
    pub drawings: Drawings,
    /// What whoever sews it should be warned of.
    pub cautions: Vec<&'static str>,
    /// The fingerprint of what was checked, and who signed it, where that was looked up.
    pub signing: Option<Signing>,
    /// What is left of it, where a part was asked for.
    pub only: Option<Selection>,
    /// Whether the workings are shown.
    pub workings: bool,
    /// The names of the values of the rule book that the check asked for.
    asked: BTreeSet<Cow<'static, str>>,
}

impl Worksheet {
    /// Checks a manuscript with its printed texts, and computes its needs, once for the account and the drawings.
    pub fn new(source: &Source, settings: &Settings) -> Worksheet {
        let check = |settings: &Settings| check_with(source, settings, Corrections::LeftOut);
        let (outcome, asked) = settings.with_what_is_asked(check);
        let mut manuscript = read(source);
        go_by_design(&mut manuscript, settings);
        let manuscript = &manuscript;
        let needs = Needs::new(manuscript, settings);
        let account = account_of(source, manuscript, &needs, settings, outcome);
        Worksheet {
            pattern: manuscript.pattern.stated().map(|pattern| pattern.value.clone()),
            edition: manuscript.edition.stated().map(|edition| edition.value.clone()),
            path: source.path.clone(),
            tally: Tally::with_texts(&account.outcome),
            texts: WorksheetTexts::new(manuscript, &account.outcome.texts),
            account,
            sections: Sections::of(source),
            drawings: Drawings::new(manuscript, &needs, settings),
            cautions: cautions(manuscript, settings),
            signing: None,
            only: None,
            workings: true,
            asked,
        }
    }

    /// The numbers by section and number, sizes side by side.
    pub fn matrix(&self) -> Matrix<'_> {
        Matrix::new(&self.account.lines, &self.sections)
    }

    /// Leaves the drawings out.
    pub fn without_drawings(&mut self) {
        self.drawings = Drawings::default();
    }
}
