//! Findings, and numbers that nothing checks, as SARIF's results.

use std::collections::BTreeMap;

use super::location::{artifact, in_other_file, location, region};
use super::log::{ArtifactChange, Content, Fix, Message, Properties, Replacement, ResultLog, Suppression};
use super::rules::{NUMBER_NOT_CHECKED, index as index_of, level};
use crate::audit::Line;
use crate::finding::Correction;
use crate::report::entry::on_page;
use crate::report::listed_findings::{ListedFinding, Names, listed_findings};
use crate::run::Checked;

/// The results in one of the files: the findings by place, then what nothing checks.
pub(super) fn results(file: &Checked, index: usize) -> Vec<ResultLog<'_>> {
    let mut names = Fingerprints::default();
    let found = listed_findings(file).into_iter();
    let mut results: Vec<ResultLog<'_>> = found.map(|told| finding(file, index, told, &mut names)).collect();
    results.extend(file.unaccounted.iter().map(|line| number(file, index, line, &mut names)));
    results
}

fn finding<'a>(file: &'a Checked, index: usize, told: ListedFinding<'a>, names: &mut Fingerprints) -> ResultLog<'a> {
    let ListedFinding { finding, because } = told;
    let suppression =
        because.map(|because| Suppression { kind: "inSource", status: "accepted", justification: because });
    let related = finding.related.iter().map(|label| location(file, index, label.at, &label.text));
    let related = related.chain(finding.elsewhere.iter().map(in_other_file));
    ResultLog {
        rule_id: finding.rule,
        rule_index: index_of(finding.rule),
        level: level(finding.level),
        message: message(&on_page(file, finding), &finding.help),
        locations: [location(file, index, finding.at.at, &finding.at.text)],
        related_locations: related.collect(),
        partial_fingerprints: names.of(finding.rule, finding.size.as_deref(), finding.about_words().as_deref()),
        fixes: finding.correction.iter().map(|correction| fix(file, index, correction)).collect(),
        suppressions: suppression.into_iter().collect(),
        properties: Properties {
            size: finding.size.as_deref(),
            subject: finding.subject.words().collect(),
            stated: finding.stated.as_deref(),
            needed: finding.needed.as_deref(),
        },
    }
}

/// What is wrong, then the working and what mends it, as a second paragraph.
fn message(message: &str, help: &str) -> Message {
    if help.is_empty() { Message::new(message) } else { Message::new(&format!("{message}\n\n{help}")) }
}

fn number<'a>(file: &'a Checked, index: usize, line: &'a Line, names: &mut Fingerprints) -> ResultLog<'a> {
    let size = line.size.as_ref().map(|size| format!(" ({size})")).unwrap_or_default();
    let words = format!("not checked: {}{size}\n\n{}", line.number, line.working);
    ResultLog {
        rule_id: NUMBER_NOT_CHECKED,
        rule_index: index_of(NUMBER_NOT_CHECKED),
        // It is told only where it counts as an error in the exit status.
        level: "error",
        message: Message::new(&words),
        locations: [location(file, index, line.at, "")],
        related_locations: Vec::new(),
        partial_fingerprints: names.of(NUMBER_NOT_CHECKED, line.size.as_deref(), line.size.as_deref()),
        fixes: Vec::new(),
        suppressions: Vec::new(),
        properties: Properties {
            size: line.size.as_deref(),
            subject: BTreeMap::new(),
            stated: Some(&line.stated),
            needed: None,
        },
    }
}

/// The fingerprints that were given in a file.
#[derive(Default)]
struct Fingerprints {
    by_size: Names,
    by_subject: Names,
}

impl Fingerprints {
    /// By rule, by size or all that it is about, and by a running number: the same when lines above are added or taken
    /// away.
    fn of(&mut self, rule: &str, size: Option<&str>, about: Option<&str>) -> BTreeMap<&'static str, String> {
        let named = |what: Option<&str>| what.map_or_else(|| rule.to_string(), |what| format!("{rule} {what}"));
        let numbered = |name: String, names: &mut Names| format!("{name} {}", names.count(&name));
        BTreeMap::from([
            ("ruleAndSize/v1", numbered(named(size), &mut self.by_size)),
            ("ruleSizeAndSubject/v1", numbered(named(about), &mut self.by_subject)),
        ])
    }
}

fn fix(file: &Checked, index: usize, correction: &Correction) -> Fix {
    let replacement = Replacement {
        deleted_region: region(&file.source, correction.at),
        inserted_content: Content { text: correction.replacement.clone() },
    };
    let description = if correction.replacement.is_empty() {
        "Take this out.".to_string()
    } else {
        format!("Put {} here.", correction.replacement)
    };
    Fix {
        description: Message::new(&description),
        artifact_changes: [ArtifactChange { artifact_location: artifact(file, index), replacements: [replacement] }],
    }
}
