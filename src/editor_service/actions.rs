//! Corrections, to be chosen: one of a finding, or every one that `sparestrip fix` would make.

use std::borrow::Cow;

use gen_lsp_types::{CodeAction, CodeActionKind, CodeActionParams, Uri};
use serde_json::{Value, json};

use super::Service;
use super::capabilities::FIX_ALL;
use super::document::FileKind;
use super::edits::{difference, workspace_edit};
use super::findings::{diagnostic, outcome};
use crate::check::Corrections;
use crate::finding::{Correction, Finding, Level};
use crate::fix::fix;
use crate::manuscript::Span;
use crate::report::{sanitize_line, shown_short};
use crate::run::settings_for_fixing;

/// What the action that makes every correction is called.
const FIX_ALL_TITLE: &str = "Make every correction that sparestrip fix would make";

/// What the action that makes every correction bears until it is chosen.
const OF_FILE: &str = "file";

/// The corrections that may be chosen in a part of a text.
pub(super) fn actions(service: &mut Service, params: &CodeActionParams) -> Vec<CodeAction> {
    let (client, options) = (service.client, service.options);
    let wanted = |kind: &CodeActionKind| is_wanted(params.context.only.as_deref(), kind);
    if !with_corrections(service, &params.text_document.uri) {
        return Vec::new();
    }
    let Some(document) = service.document(&params.text_document.uri) else { return Vec::new() };
    let found = document.corrected.as_ref().map_or(&[][..], |outcome| &outcome.findings);
    let at = document.span(params.range, client.encoding);
    // Some editors ask about the place of the cursor, with what they show on its line.
    let shown: Vec<Span> =
        params.context.diagnostics.iter().map(|shown| document.span(shown.range, client.encoding)).collect();
    let here = || found.iter().filter(|finding| touches(finding.at.at, at) || shown.contains(&finding.at.at));
    let mut actions = Vec::new();
    if wanted(&CodeActionKind::QuickFix) {
        actions.extend(here().filter_map(|finding| {
            let correction = finding.correction.as_ref()?;
            Some(CodeAction {
                title: title(&document.source.text, finding, correction),
                kind: Some(CodeActionKind::QuickFix),
                diagnostics: Some(vec![diagnostic(document, finding, client, options)]),
                // A question may be meant as it stands.
                is_preferred: Some(finding.level == Level::Error),
                edit: Some(workspace_edit(document, std::slice::from_ref(correction), client)),
                ..CodeAction::default()
            })
        }));
    }
    // Where corrections are asked for as such it is one for the file; at a finding it is one more way to put that right.
    let kind = if params.context.only.is_some() && wanted(&FIX_ALL) { FIX_ALL } else { CodeActionKind::QuickFix };
    let asks_here = here().next().is_some() && wanted(&CodeActionKind::QuickFix);
    let is_manuscript = document.kind == FileKind::Manuscript;
    if is_manuscript && (kind == FIX_ALL || asks_here) && may_be_fixed(found) {
        let action = CodeAction {
            title: FIX_ALL_TITLE.to_string(),
            kind: Some(kind),
            data: Some(json!({ OF_FILE: document.uri })),
            ..CodeAction::default()
        };
        let action = if client.resolves_actions { Some(action) } else { with_edit(service, action) };
        actions.extend(action);
    }
    actions
}

/// An action that was chosen, with its edit.
pub(super) fn resolve(service: &mut Service, action: CodeAction) -> CodeAction {
    let of_file = action.data.as_ref().is_some_and(|data| data.get(OF_FILE).is_some());
    if !of_file || action.edit.is_some() {
        return action;
    }
    with_edit(service, action.clone()).unwrap_or(action)
}

/// The action with the edit that makes every correction; `None` where there is none to make.
fn with_edit(service: &mut Service, action: CodeAction) -> Option<CodeAction> {
    let uri = action.data.as_ref()?.get(OF_FILE).and_then(Value::as_str).map(Uri::from)?;
    let client = service.client;
    let document = service.documents.get_mut(&uri.0).filter(|document| document.kind == FileKind::Manuscript)?;
    // Under house rules that have errors nothing is corrected, as by the command.
    let settings = settings_for_fixing(document.folder()).ok()?;
    let text = document.fixed.get_or_insert_with(|| fix(&document.source, &settings).source.text).clone();
    let changes = difference(&document.source.text, &text);
    if changes.is_empty() {
        return None;
    }
    Some(CodeAction { edit: Some(workspace_edit(document, &changes, client)), ..action })
}

/// Whether `fix` may find something to correct: it corrects errors.
fn may_be_fixed(found: &[Finding]) -> bool {
    let is_error = |finding: &&Finding| finding.level == Level::Error;
    found.iter().filter(is_error).any(|finding| finding.correction.is_some() || finding.withheld.is_some())
}

/// Tries the corrections of a text, once until it changes. Whether it is open.
fn with_corrections(service: &mut Service, uri: &Uri) -> bool {
    let Some(document) = service.documents.get_mut(&uri.0) else { return false };
    if document.corrected.is_none() {
        let found = outcome(document, &service.surroundings, &service.printed, Corrections::Tried);
        document.corrected = Some(found);
    }
    true
}

/// Whether a kind of action is wanted: any is, or that one, or one that it is a part of (`source` of `source.fixAll`).
fn is_wanted(only: Option<&[CodeActionKind]>, kind: &CodeActionKind) -> bool {
    let Some(only) = only else { return true };
    let name =
        |kind: &CodeActionKind| serde_json::to_value(kind).ok().and_then(|name| Some(name.as_str()?.to_string()));
    let own = name(kind).unwrap_or_default();
    let holds = |wider: &str| wider.is_empty() || own == wider || own.starts_with(&format!("{wider}."));
    only.iter().filter_map(name).any(|wider| holds(&wider) || wider == format!("{own}.sparestrip"))
}

const fn touches(one: Span, other: Span) -> bool {
    one.start <= other.end && other.start <= one.end
}

/// `Change 68 to 70 (twin, fabric sky, piece B)`.
fn title(text: &str, finding: &Finding, correction: &Correction) -> String {
    let (old, new) = (correction.at.text(text), correction.replacement.as_str());
    let does: Cow<'_, str> = match (old.trim().is_empty(), new.trim().is_empty()) {
        (_, true) => format!("Take out {}", shown_short(old)).into(),
        (true, false) => format!("Add {}", shown_short(new)).into(),
        (false, false) => format!("Change {} to {}", shown_short(old), shown_short(new)).into(),
    };
    let about = finding.about_words().map(|about| format!(" ({about})")).unwrap_or_default();
    sanitize_line(&format!("{does}{about}"))
}

#[cfg(test)]
mod tests {
    use gen_lsp_types::CodeActionKind;

    use super::{FIX_ALL, is_wanted};

    #[test]
    fn a_kind_is_wanted_by_its_own_name_and_by_wider_ones() {
        let custom = |name: &'static str| CodeActionKind::from(name.to_string());
        assert!(is_wanted(None, &FIX_ALL));
        for wider in ["source", "source.fixAll", "source.fixAll.sparestrip", ""] {
            assert!(is_wanted(Some(&[custom(wider)]), &FIX_ALL), "{wider}");
        }
        for other in ["quickfix", "refactor", "sour", "source.organizeImports"] {
            assert!(!is_wanted(Some(&[custom(other)]), &FIX_ALL), "{other}");
        }
    }
}
