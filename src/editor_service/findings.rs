//! What is found in an open text, as the editor shows it.

use gen_lsp_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, PublishDiagnosticsParams, Range, Uri,
};

use super::client::{Client, Options};
use super::document::{Document, FileKind, range_in};
use super::printed::OpenTexts;
use super::surroundings::Surroundings;
use crate::check::{Corrections, Outcome, add_sign_off, check_loading, house_findings};
use crate::finding::{Elsewhere, Finding, Level};
use crate::manuscript::{Source, Span};
use crate::report::sanitize_line;
use crate::rule_book::read_house_rules;
use crate::text::{TextOutcome, place_words};

/// What is found in a text.
pub(super) fn outcome(
    document: &Document,
    surroundings: &Surroundings,
    printed: &OpenTexts,
    corrections: Corrections,
) -> Outcome {
    let source = &document.source;
    match document.kind {
        FileKind::Manuscript => {
            let settings = surroundings.settings(document.folder());
            let mut outcome = check_loading(source, &settings, corrections, &printed.load(&source.path));
            let sign_off = surroundings.sign_off(source, document.folder(), &settings, &outcome);
            add_sign_off(source, &settings, &sign_off, &mut outcome);
            outcome
        }
        FileKind::HouseRules => {
            let house = read_house_rules(source);
            let findings = house_findings(source, house.mistakes, &house.settings);
            Outcome { findings, ..Outcome::default() }
        }
    }
}

/// All that is found in a text, for the editor.
pub(super) fn published(
    document: &Document,
    outcome: &Outcome,
    printed: &OpenTexts,
    client: Client,
    options: Options,
) -> PublishDiagnosticsParams {
    let own = outcome.findings.iter().map(|finding| diagnostic(document, finding, client, options));
    let in_texts = outcome.texts.iter().filter(|text| !text.findings.is_empty()).flat_map(|text| {
        let uri = printed.uri(text.path());
        let named = document.texts().iter().find(|(path, _)| path == text.path()).map(|(_, at)| *at);
        let at_number = move |finding| at_number(document, (&uri, text, named), finding, client, options);
        text.findings.iter().filter_map(at_number)
    });
    let mut diagnostics: Vec<Diagnostic> = own.chain(in_texts).collect();
    diagnostics.sort_by_key(|diagnostic| (diagnostic.range.start.line, diagnostic.range.start.character));
    PublishDiagnosticsParams { uri: document.uri.clone(), version: Some(document.version), diagnostics }
}

/// A finding for the editor. There is no address that tells more of its rule: `sparestrip rules NAME` does.
pub(super) fn diagnostic(document: &Document, finding: &Finding, client: Client, options: Options) -> Diagnostic {
    let shown = Shown { uri: document.uri.clone(), source: &document.source };
    diagnostic_in(&shown, finding, client, options, Vec::new())
}

/// A finding in a printed text, at the number of the manuscript that the text says otherwise.
fn at_number(
    document: &Document,
    (uri, text, named): (&Uri, &TextOutcome, Option<Span>),
    finding: &Finding,
    client: Client,
    options: Options,
) -> Option<Diagnostic> {
    // What the text says wrong by itself stands at its name.
    let stated = finding.elsewhere.first().map(|stated| stated.at).or(named)?;
    let shown = Shown { uri: uri.clone(), source: text.source() };
    let mut diagnostic = diagnostic_in(&shown, finding, client, options, Vec::new());
    let name = text.path().file_name().unwrap_or(text.path().as_os_str()).to_string_lossy();
    let page = text.file.place(finding.at.at);
    let place = place_words(&name, page, || text.source().place(finding.at.at.start).line.to_string());
    // A file that is no text has no lines to go to.
    let range = if page.is_some() { Range::default() } else { diagnostic.range };
    let there = DiagnosticRelatedInformation {
        location: Location { uri: uri.clone(), range },
        message: sanitize_line(&finding.message),
    };
    diagnostic.message = sanitize_line(&format!("{place}: {}", words(finding))).into();
    diagnostic.range = document.range(stated, client.encoding);
    diagnostic.related_information = client.related.then(|| vec![there]);
    Some(diagnostic)
}

/// A place that a finding of a printed text points at, in its manuscript.
pub(super) fn other_place(
    uri: Uri,
    source: &Source,
    other: &Elsewhere,
    client: Client,
) -> DiagnosticRelatedInformation {
    let range = range_in(source, other.at, client.encoding);
    DiagnosticRelatedInformation { location: Location { uri, range }, message: sanitize_line(&other.text) }
}

/// A text that the editor shows, and what it calls it.
pub(super) struct Shown<'s> {
    pub(super) uri: Uri,
    pub(super) source: &'s Source,
}

/// A finding in a text, with the places in other files that it points at.
pub(super) fn diagnostic_in(
    shown: &Shown<'_>,
    finding: &Finding,
    client: Client,
    options: Options,
    others: Vec<DiagnosticRelatedInformation>,
) -> Diagnostic {
    let severity = match finding.level {
        Level::Error => DiagnosticSeverity::Error,
        Level::Query if options.strict => DiagnosticSeverity::Error,
        Level::Query => DiagnosticSeverity::Warning,
        Level::Note => DiagnosticSeverity::Information,
    };
    let related = finding.related.iter().map(|label| DiagnosticRelatedInformation {
        location: Location { uri: shown.uri.clone(), range: range_in(shown.source, label.at, client.encoding) },
        message: sanitize_line(&label.text),
    });
    let related: Vec<DiagnosticRelatedInformation> = related.chain(others).collect();
    Diagnostic {
        range: range_in(shown.source, finding.at.at, client.encoding),
        severity: Some(severity),
        code: Some(finding.rule.into()),
        source: Some(env!("CARGO_PKG_NAME").to_string()),
        message: words(finding).into(),
        related_information: (client.related && !related.is_empty()).then_some(related),
        ..Diagnostic::default()
    }
}

/// What is wrong, and then what it is about, for many editors cut a line off at the edge of the window:
/// `68 pieces of B stated; 70 needed: 2 short. (twin, fabric sky, piece B)`.
fn words(finding: &Finding) -> String {
    let about = finding.about_words().map(|about| format!(" ({about})")).unwrap_or_default();
    sanitize_line(&format!("{}{about}", finding.message))
}
