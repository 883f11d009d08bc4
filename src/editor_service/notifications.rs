//! What the editor tells, and what it is asked.

use gen_lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams, PublishDiagnosticsParams, Uri,
};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::client::{Options, SECTION};
use super::document::{Document, FileKind};
use super::message::request;
use super::surroundings::Surroundings;
use super::{Service, Stage, logged, parsed, publish};
use crate::rule_book::HOUSE_RULES_FILE;
use crate::sign_off::SIGN_OFFS_FILE;
use crate::text::ENDINGS;
use crate::uri::path_of;

/// Manuscripts that are not open, by what their names end in.
const MANUSCRIPTS: &str = "*.pattern.{yaml,yml}";

/// What the editor is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// To tell of changed files.
    Files,
    /// What the user wants.
    Options,
    /// To ask for hints again.
    Hints,
}

impl Wanted {
    const fn method(self) -> &'static str {
        match self {
            Wanted::Files => "client/registerCapability",
            Wanted::Options => "workspace/configuration",
            Wanted::Hints => "workspace/inlayHint/refresh",
        }
    }
}

impl Service {
    /// Hears a notification.
    pub(super) fn hear(&mut self, method: &str, params: Value) -> Vec<Value> {
        if method == "exit" {
            self.stage = Stage::Over(u8::from(self.stage != Stage::Stopped));
            return Vec::new();
        }
        if self.stage != Stage::Running {
            return Vec::new();
        }
        match method {
            "initialized" => self.ask_at_start(),
            "textDocument/didOpen" => heard(method, params, |params| self.open(params)),
            "textDocument/didChange" => heard(method, params, |params| self.change(params)),
            "textDocument/didClose" => {
                heard(method, params, |params: DidCloseTextDocumentParams| self.close(&params.text_document.uri))
            }
            "workspace/didChangeConfiguration" => self.hear_configuration(&params),
            // What changed on disk is seen by the look that follows every message.
            _ => Vec::new(),
        }
    }

    /// A request of our own.
    pub(super) fn ask(&mut self, wanted: Wanted, params: &Value) -> Value {
        self.requests += 1;
        request(&format!("{}/{}", wanted.method(), self.requests), wanted.method(), params)
    }

    /// What the editor is asked once it is ready.
    fn ask_at_start(&mut self) -> Vec<Value> {
        let mut requests = Vec::new();
        if self.client.watches {
            let texts = format!("*.{{{}}}", ENDINGS.map(|(ending, _)| ending).join(","));
            let watchers = [HOUSE_RULES_FILE, SIGN_OFFS_FILE, MANUSCRIPTS, &texts]
                .map(|name| json!({ "globPattern": format!("**/{name}") }));
            let method = "workspace/didChangeWatchedFiles";
            let options = json!({ "watchers": watchers });
            let registration = json!({ "id": "files", "method": method, "registerOptions": options });
            requests.push(self.ask(Wanted::Files, &json!({ "registrations": [registration] })));
        }
        requests.extend(self.ask_for_options());
        requests
    }

    fn ask_for_options(&mut self) -> Vec<Value> {
        if !self.client.configuration {
            return Vec::new();
        }
        vec![self.ask(Wanted::Options, &json!({ "items": [{ "section": SECTION }] }))]
    }

    fn hear_configuration(&mut self, params: &Value) -> Vec<Value> {
        let settings = &params["settings"];
        if !settings.is_object() {
            return self.ask_for_options();
        }
        self.set_options(self.options.with(settings));
        Vec::new()
    }

    /// Hears the answer to a request of our own; `None` is an error.
    pub(super) fn hear_answer(&mut self, id: &Value, result: Option<&Value>) {
        let (Some(id), Some(result)) = (id.as_str(), result) else { return };
        let is_to = |wanted: Wanted| id.rsplit_once('/').is_some_and(|(method, _)| method == wanted.method());
        if is_to(Wanted::Files) {
            self.is_told_of_files = true;
        } else if is_to(Wanted::Options) {
            self.set_options(self.options.with(&result[0]));
        }
    }

    fn set_options(&mut self, options: Options) {
        if options.signed != self.options.signed {
            self.surroundings = Surroundings::new(options.signed);
        }
        if options != self.options {
            self.options = options;
            self.documents.values_mut().for_each(Document::forget);
            self.tell_printed_again();
        }
    }

    fn open(&mut self, params: DidOpenTextDocumentParams) -> Vec<Value> {
        let opened = params.text_document;
        let name = opened.uri.0.clone();
        if FileKind::of(&path_of(&opened.uri.0)).is_none() {
            self.open_printed(opened.uri, opened.version, opened.text);
            return Vec::new();
        }
        if let Some(document) = Document::open(opened.uri, opened.version, opened.text) {
            self.documents.insert(name, document);
        }
        self.tell_printed_again();
        Vec::new()
    }

    fn change(&mut self, params: DidChangeTextDocumentParams) -> Vec<Value> {
        let changed = params.text_document;
        let encoding = self.client.encoding;
        let uri = &changed.text_document_identifier.uri.0;
        match self.documents.get_mut(uri) {
            Some(document) => {
                document.change(changed.version, params.content_changes, encoding);
                self.tell_printed_again();
            }
            None => self.change_printed(uri, changed.version, params.content_changes, encoding),
        }
        Vec::new()
    }

    fn close(&mut self, uri: &Uri) -> Vec<Value> {
        if let Some(nothing) = self.close_printed(uri) {
            return vec![publish(&nothing)];
        }
        let closed = self.documents.remove(&uri.0);
        self.tell_printed_again();
        let nothing =
            |document: Document| PublishDiagnosticsParams { uri: document.uri, version: None, diagnostics: Vec::new() };
        closed.map(|document| publish(&nothing(document))).into_iter().collect()
    }
}

/// Hears a notification. Nobody waits for an answer to one that does not say what it must; the log tells of it.
fn heard<P: DeserializeOwned>(method: &str, params: Value, hear: impl FnOnce(P) -> Vec<Value>) -> Vec<Value> {
    let Ok(params) = parsed(params) else { return vec![logged(&format!("{method} cannot be read"))] };
    hear(params)
}
