//! What the editor can do, and what its user wants.

use gen_lsp_types::{ClientCapabilities, InitializeParams, MarkupKind, PositionEncodingKind};
use serde_json::Value;

use crate::manuscript::PositionEncoding;

/// What the editor can do.
#[derive(Clone, Copy, Debug, Default)]
#[allow(clippy::struct_excessive_bools)] // Each is a thing of its own that an editor can do or not.
pub(super) struct Client {
    /// What its positions count.
    pub(super) encoding: PositionEncoding,
    /// Whether it draws Markdown where a word is explained.
    pub(super) markdown: bool,
    /// Whether it shows the places that a finding goes by.
    pub(super) related: bool,
    /// Whether an edit may say which version of the text it is for.
    pub(super) versioned_edits: bool,
    /// Whether it asks for the edit of an action only once that is chosen.
    pub(super) resolves_actions: bool,
    /// Whether symbols may stand in one another.
    pub(super) symbol_tree: bool,
    /// Whether it tells of changed files.
    pub(super) watches: bool,
    /// Whether it can be asked for its settings.
    pub(super) configuration: bool,
    /// Whether it can be told that hints are out of date.
    pub(super) refreshes_hints: bool,
}

impl Client {
    pub(super) fn new(params: &InitializeParams) -> Client {
        let ClientCapabilities { workspace, text_document: text, general, .. } = &params.capabilities;
        let (workspace, text, general) = (workspace.as_ref(), text.as_ref(), general.as_ref());
        let encodings = general.and_then(|general| general.position_encodings.as_deref()).unwrap_or_default();
        let edits = workspace.and_then(|workspace| workspace.workspace_edit.as_ref());
        let watched = workspace.and_then(|workspace| workspace.did_change_watched_files.as_ref());
        let hints = workspace.and_then(|workspace| workspace.inlay_hint.as_ref());
        let symbols = text.and_then(|text| text.document_symbol.as_ref());
        let findings = text.and_then(|text| text.publish_diagnostics.as_ref());
        let hover = text.and_then(|text| text.hover.as_ref()).and_then(|hover| hover.content_format.as_deref());
        let actions = text.and_then(|text| text.code_action.as_ref());
        let resolved = actions.and_then(|actions| actions.resolve_support.as_ref());
        let is = |flag: Option<bool>| flag == Some(true);
        Client {
            // UTF-8 costs us nothing to count; whoever does not offer it counts in UTF-16.
            encoding: if encodings.contains(&PositionEncodingKind::UTF8) {
                PositionEncoding::Utf8
            } else {
                PositionEncoding::Utf16
            },
            markdown: hover.is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            related: is(findings.and_then(|findings| findings.diagnostics_capabilities.related_information)),
            versioned_edits: is(edits.and_then(|edits| edits.document_changes)),
            resolves_actions: is(actions.and_then(|actions| actions.data_support))
                && resolved.is_some_and(|resolved| resolved.properties.iter().any(|name| name == "edit")),
            symbol_tree: is(symbols.and_then(|symbols| symbols.hierarchical_document_symbol_support)),
            watches: is(watched.and_then(|watched| watched.dynamic_registration)),
            configuration: is(workspace.and_then(|workspace| workspace.configuration)),
            refreshes_hints: is(hints.and_then(|hints| hints.refresh_support)),
        }
    }
}

/// What the user wants; each as the option of that name on the command line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Options {
    /// Queries count as errors.
    pub(super) strict: bool,
    /// Every manuscript must be signed off.
    pub(super) signed: bool,
    /// What is needed is shown beside each number.
    pub(super) hints: bool,
}

/// The name that settings of the service may stand under.
pub(super) const SECTION: &str = "sparestrip";

impl Options {
    /// The options with what a client says of them: at its top, or under the program's name. What it does not say stays.
    #[must_use]
    pub(super) fn with(self, said: &Value) -> Options {
        let said = said.get(SECTION).filter(|own| own.is_object()).unwrap_or(said);
        let flag = |name: &str, is: bool| said.get(name).and_then(Value::as_bool).unwrap_or(is);
        Options {
            strict: flag("strict", self.strict),
            signed: flag("signed", self.signed),
            hints: flag("hints", self.hints),
        }
    }
}
