//! The worksheet of a manuscript: the account of its numbers and its drawings, from one reading.

use std::path::PathBuf;

use crate::audit::{Audit, account_of};
use crate::caution::cautions;
use crate::check::Corrections;
use crate::drawing::Drawings;
use crate::manuscript::{ReadText, Source};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;

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
    /// What is drawn of each size.
    pub drawings: Drawings,
    /// What whoever sews it should be warned of.
    pub cautions: Vec<&'static str>,
}

impl Worksheet {
    /// Reads a manuscript and computes its needs, once for the account and the drawings.
    pub fn new(source: &Source, settings: &Settings) -> Worksheet {
        let mut read = ReadText::of(source);
        go_by_design(&mut read.manuscript, settings);
        let manuscript = &read.manuscript;
        let needs = Needs::new(manuscript, settings);
        Worksheet {
            pattern: manuscript.pattern.stated().map(|pattern| pattern.value.clone()),
            edition: manuscript.edition.stated().map(|edition| edition.value.clone()),
            path: source.path.clone(),
            account: account_of(source, &read, &needs, settings, Corrections::LeftOut),
            drawings: Drawings::new(manuscript, &needs, settings),
            cautions: cautions(manuscript, settings),
        }
    }
}
