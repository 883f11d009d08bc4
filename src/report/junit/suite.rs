//! The cases of a manuscript: one a stated number, and one for each finding that has no number's case to stand in.

use super::Junit;
use super::numbers::NumbersByPlace;
use super::words::{caution, fit_line, not_checked, problem_text, said};
use crate::audit::{AuditedNumber, Status};
use crate::discover::Problem;
use crate::finding::Level;
use crate::report::entry::on_page;
use crate::report::listed_findings::{ListedFinding, Names, listed_findings};
use crate::run::Checked;

/// A manuscript.
#[derive(Debug)]
pub(super) struct Suite {
    /// Its path.
    pub(super) file: String,
    /// The path without the ending, at whose dots readers would break it.
    pub(super) class: String,
    pub(super) cases: Vec<Case>,
    /// What readers of the pattern are to be warned of.
    pub(super) caution: Option<String>,
}

/// A stated number, or a finding.
#[derive(Debug)]
pub(super) struct Case {
    pub(super) name: String,
    pub(super) line: Option<usize>,
    pub(super) ending: Ending,
    /// What was found that is no failure.
    pub(super) told: String,
    /// Whether a failure may take the place of its ending: not where it was skipped since nothing checks it.
    is_open: bool,
}

impl Case {
    /// Whether the next failure is its ending. Readers keep one outcome a case.
    fn takes_a_failure(&self) -> bool {
        self.is_open && matches!(self.ending, Ending::Passed | Ending::Skipped { .. })
    }
}

/// What came of a case. Readers keep one outcome a case, so none has two.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Ending {
    Passed,
    Skipped { message: String },
    Failed { kind: String, message: String, text: String },
    Unread { message: String, text: String },
}

/// How many cases of each kind there are.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Totals {
    pub(super) tests: usize,
    pub(super) failures: usize,
    pub(super) errors: usize,
    pub(super) skipped: usize,
}

impl Totals {
    pub(super) fn add(&mut self, other: Totals) {
        self.tests += other.tests;
        self.failures += other.failures;
        self.errors += other.errors;
        self.skipped += other.skipped;
    }
}

impl Suite {
    fn new(path: &std::path::Path, cases: Vec<Case>) -> Suite {
        let file = fit_line(&path.to_string_lossy());
        let ending = [".pattern.yaml", ".pattern.yml"].iter().find_map(|ending| file.strip_suffix(ending));
        let class = ending.unwrap_or(&file).to_string();
        Suite { file, class, cases, caution: None }
    }

    pub(super) fn totals(&self) -> Totals {
        let count = |wanted: fn(&Ending) -> bool| self.cases.iter().filter(|case| wanted(&case.ending)).count();
        Totals {
            tests: self.cases.len(),
            failures: count(|ending| matches!(ending, Ending::Failed { .. })),
            errors: count(|ending| matches!(ending, Ending::Unread { .. })),
            skipped: count(|ending| matches!(ending, Ending::Skipped { .. })),
        }
    }
}

/// What could not be read: nothing of it was checked.
pub(super) fn of_problem(problem: &Problem) -> Suite {
    let ending = Ending::Unread { message: fit_line(&problem.why), text: problem_text(problem) };
    let name = "it can be read".to_string();
    Suite::new(&problem.path, vec![Case { name, line: None, ending, told: String::new(), is_open: false }])
}

/// A manuscript that was checked.
pub(super) fn of_file(file: &Checked, how: Junit) -> Suite {
    // Readers take two cases of one name for the same.
    let mut names = Names::default();
    let numbers = file.numbers.iter().map(|number| of_number(file, number, how, &mut names));
    let mut cases: Vec<Case> = numbers.collect();
    let by_place = NumbersByPlace::new(&file.numbers);
    for told in listed_findings(file) {
        let number = by_place.of(told.finding);
        let failed = fails(told, how);
        match number.map(|number| &mut cases[number]) {
            Some(case) if !failed => add(&mut case.told, &said(file, told)),
            Some(case) if case.takes_a_failure() => case.ending = failure(file, told),
            _ => {
                let case = of_finding(file, told, number.map(|number| &file.numbers[number]), failed, &mut names);
                cases.push(case);
            }
        }
    }
    Suite { caution: caution(file), ..Suite::new(&file.path, cases) }
}

/// Whether it counts in the exit status.
fn fails(told: ListedFinding<'_>, how: Junit) -> bool {
    let level = told.finding.level;
    told.because.is_none() && (level == Level::Error || how.strict && level == Level::Query)
}

fn of_number(file: &Checked, number: &AuditedNumber, how: Junit, names: &mut Names) -> Case {
    let ending = match number.status {
        Status::NotChecked if how.account => {
            let (message, text) = not_checked(file, number);
            Ending::Failed { kind: "number-not-checked".to_string(), message, text }
        }
        Status::NotChecked => Ending::Skipped { message: fit_line(&number.why) },
        // Nothing was compared with it, or an editor decided: neither has passed.
        Status::AsGiven | Status::Accepted => Ending::Skipped { message: number.status.word().to_string() },
        Status::Ok | Status::Short | Status::Wrong => Ending::Passed,
    };
    let is_open = number.status != Status::NotChecked;
    let (name, line) = (names.unique(&number_name(number)), Some(number.place.line));
    Case { name, line, ending, told: String::new(), is_open }
}

/// A finding at no stated number, or at one whose case has an outcome already.
fn of_finding(
    file: &Checked,
    told: ListedFinding<'_>,
    number: Option<&AuditedNumber>,
    failed: bool,
    names: &mut Names,
) -> Case {
    let finding = told.finding;
    let name = match (number, finding.about_words()) {
        (Some(number), _) => format!("{}, {}", number_name(number), finding.rule),
        (None, Some(about)) => format!("{}: {}", fit_line(&about), finding.rule),
        (None, None) => finding.rule.to_string(),
    };
    Case {
        name: names.unique(&name),
        line: file.page_of(finding.at.at).is_none().then(|| file.source.place(finding.at.at.start).line),
        ending: if failed { failure(file, told) } else { Ending::Passed },
        told: if failed { String::new() } else { said(file, told) },
        is_open: false,
    }
}

/// `queen: binding strips`
fn number_name(number: &AuditedNumber) -> String {
    let size = number.size.as_deref().unwrap_or("all sizes");
    fit_line(&format!("{size}: {}", number.number))
}

fn failure(file: &Checked, told: ListedFinding<'_>) -> Ending {
    let finding = told.finding;
    let message = fit_line(&on_page(file, finding));
    Ending::Failed { kind: finding.rule.to_string(), message, text: said(file, told) }
}

fn add(told: &mut String, more: &str) {
    if !told.is_empty() {
        told.push_str("\n\n");
    }
    told.push_str(more);
}
