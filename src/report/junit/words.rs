//! What stands in a case, in characters that XML allows.

use std::iter::once;

use crate::audit::AuditedNumber;
use crate::discover::Problem;
use crate::finding::Finding;
use crate::report::caution::Caution;
use crate::report::listed_findings::ListedFinding;
use crate::report::{sanitize, sanitize_line};
use crate::run::Checked;
use crate::sanitize::defused;
use crate::text::place_words;

/// Text of several lines as XML can hold it: control characters are replaced, and two marks that are no characters.
fn fit(text: &str) -> String {
    let text = without_marks(&sanitize(text)).replace("\r\n", "\n");
    text.split('\n').map(defused).collect::<Vec<_>>().join("\n")
}

/// The same on one line.
pub(super) fn fit_line(text: &str) -> String {
    defused(&without_marks(&sanitize_line(text)))
}

fn without_marks(text: &str) -> String {
    text.replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}

/// `patterns/x.pattern.yaml:40:21: error[spare-strip] (queen)`, and that it was accepted, where it was.
fn head(file: &Checked, told: ListedFinding<'_>) -> String {
    let ListedFinding { finding, because } = told;
    let place = file.source.place(finding.at.at.start);
    let about = finding.about_words().map(|about| format!(" ({about})")).unwrap_or_default();
    let accepted = because.map(|because| format!(", accepted: {because}")).unwrap_or_default();
    let path = file.path.to_string_lossy();
    let (line, column, level, rule) = (place.line, place.column, finding.level.word(), finding.rule);
    let at = place_words(&path, file.page_of(finding.at.at), || format!("{line}:{column}"));
    fit_line(&format!("{at}: {level}[{rule}]{about}{accepted}"))
}

/// What is wrong, the working and what mends it, then the places.
fn text(file: &Checked, finding: &Finding) -> String {
    let mut text = sanitize_line(&finding.message);
    if !finding.help.is_empty() {
        text.push_str(&format!("\n{}", finding.help));
    }
    for (word, label) in once(("At", &finding.at)).chain(finding.related.iter().map(|label| ("See", label))) {
        let place = file.source.place(label.at.start);
        if !label.text.is_empty() {
            text.push_str(&format!(
                "\n{word} line {}, column {}: {}.",
                place.line,
                place.column,
                sanitize_line(&label.text)
            ));
        }
    }
    text
}

/// A finding in full: its head, and below it all the rest, set in, so that nothing in it can be taken for another head.
pub(super) fn said(file: &Checked, told: ListedFinding<'_>) -> String {
    let rest = fit(&text(file, told.finding));
    let rest: String = rest.lines().map(|line| format!("\n  {line}")).collect();
    head(file, told) + &rest
}

/// What is said of a number that nothing checks, in short and with its place.
pub(super) fn not_checked(file: &Checked, number: &AuditedNumber) -> (String, String) {
    let place = format!("{}:{}:{}", file.path.to_string_lossy(), number.place.line, number.place.column);
    let size = number.size.as_ref().map(|size| format!(" ({size})")).unwrap_or_default();
    let head = fit_line(&format!("{place}: not checked: {}{size}", number.number));
    (fit_line(&number.why), format!("{head}\n  {}", fit_line(&number.why)))
}

/// What could not be read, and why.
pub(super) fn problem_text(problem: &Problem) -> String {
    fit_line(&format!("{}: {}", problem.path.to_string_lossy(), problem.why))
}

/// The caution about cribs, with the sizes that it is due to.
pub(super) fn caution(file: &Checked) -> Option<String> {
    let caution = Caution::of(file)?;
    let Caution { words, file, line, column, .. } = &caution;
    Some(fit_line(&format!("{file}:{line}:{column}: {}. {words}", caution.head())))
}
