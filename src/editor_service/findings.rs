//! What is found in an open text, as the editor shows it.

use gen_lsp_types::{Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, PublishDiagnosticsParams};

use super::client::{Client, Options};
use super::document::{Document, FileKind};
use super::surroundings::Surroundings;
use crate::check::{Corrections, Outcome, add_sign_off, check_with, house_findings};
use crate::finding::{Finding, Level};
use crate::report::sanitize_line;
use crate::rule_book::read_house_rules;

/// What is found in a text.
pub(super) fn outcome(document: &Document, surroundings: &Surroundings, corrections: Corrections) -> Outcome {
    let source = &document.source;
    match document.kind {
        FileKind::Manuscript => {
            let settings = surroundings.settings(document.folder());
            let mut outcome = check_with(source, &settings, corrections);
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
    client: Client,
    options: Options,
) -> PublishDiagnosticsParams {
    let diagnostics = outcome.findings.iter().map(|finding| diagnostic(document, finding, client, options));
    PublishDiagnosticsParams {
        uri: document.uri.clone(),
        version: Some(document.version),
        diagnostics: diagnostics.collect(),
    }
}

/// A finding for the editor. There is no address that tells more of its rule: `sparestrip rules NAME` does.
pub(super) fn diagnostic(document: &Document, finding: &Finding, client: Client, options: Options) -> Diagnostic {
    let severity = match finding.level {
        Level::Error => DiagnosticSeverity::Error,
        Level::Query if options.strict => DiagnosticSeverity::Error,
        Level::Query => DiagnosticSeverity::Warning,
        Level::Note => DiagnosticSeverity::Information,
    };
    let related = finding.related.iter().map(|label| DiagnosticRelatedInformation {
        location: Location { uri: document.uri.clone(), range: document.range(label.at, client.encoding) },
        message: sanitize_line(&label.text),
    });
    let related: Vec<DiagnosticRelatedInformation> = related.collect();
    Diagnostic {
        range: document.range(finding.at.at, client.encoding),
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
