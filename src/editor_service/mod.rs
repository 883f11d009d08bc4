//! The editor service: findings while somebody types, and what else the program knows of the text.
//!
//! It speaks the Language Server Protocol 3.17 on standard input and output (`stdio`, `framing`, `message`). [`Service`]
//! takes messages and gives messages; it reads house rules and sign-offs from disk, and writes nothing. The text of an
//! open file is the editor's (`document`). What is asked about a place in it is answered from its entries with the words
//! of the format that lead to them (`outline`) and from the names in it (`names`).
//!
//! A failure of the program itself ends one request and not the service.

mod actions;
mod capabilities;
mod client;
mod completion;
mod completion_place;
mod document;
mod edits;
mod findings;
mod folding;
mod framing;
mod hints;
mod hover;
mod markup;
mod message;
mod names;
mod navigation;
mod outline;
mod rename;
mod requests;
pub mod setup;
mod stdio;
mod surroundings;
mod symbols;

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use gen_lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams, InitializeParams,
    PublishDiagnosticsParams, Uri,
};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use capabilities::initialize_result;
use client::{Client, Options, SECTION};
use document::Document;
use framing::Frame;
use message::{Incoming, Refusal, answer, notification, read, request};
use surroundings::Surroundings;

use crate::check::Corrections;
use crate::rule_book::HOUSE_RULES_FILE;
use crate::sign_off::SIGN_OFFS_FILE;

pub use stdio::serve;

/// The service of one editor.
#[derive(Debug, Default)]
pub struct Service {
    stage: Stage,
    client: Client,
    options: Options,
    surroundings: Surroundings,
    /// The open texts, by what the editor calls them.
    documents: BTreeMap<String, Document>,
    /// Whether the editor tells of changed house rules and sign-offs.
    is_told_of_files: bool,
}

/// How far the service is, as the protocol has it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Stage {
    /// It waits for `initialize`.
    #[default]
    New,
    /// It answers.
    Running,
    /// It was told to stop, and waits for `exit`.
    Stopped,
    /// It is over, with this exit status.
    Over(u8),
}

/// What our own requests to the client are named.
const ASKED_FOR_FILES: &str = "files";
const ASKED_FOR_OPTIONS: &str = "options";
const ASKED_FOR_HINTS: &str = "hints";

impl Service {
    /// Answers one message; what is found is told by [`Service::settle`].
    pub fn receive(&mut self, message: &str) -> Vec<String> {
        self.receive_all(vec![Frame::Message(message.to_string())])
    }

    /// Answers messages that came together. A request that is canceled by one of them is not looked at.
    fn receive_all(&mut self, frames: Vec<Frame>) -> Vec<String> {
        let messages: Vec<Result<Incoming, Value>> = frames.into_iter().map(read_one).collect();
        let canceled: Vec<Value> = messages.iter().filter_map(canceled).cloned().collect();
        let mut answers = Vec::new();
        for message in messages {
            if self.exit_status().is_some() {
                break;
            }
            match message {
                Err(refusal) => answers.push(refusal),
                Ok(Incoming::Request { id, .. }) if canceled.contains(&id) => {
                    answers.push(answer(&id, Err(Refusal::canceled())));
                }
                Ok(message) => answers.extend(self.handle(message)),
            }
        }
        answers.iter().map(Value::to_string).collect()
    }

    fn handle(&mut self, message: Incoming) -> Vec<Value> {
        match message {
            Incoming::Request { id, method, params } => {
                let result = spared(|| self.answer(&method, params)).unwrap_or_else(|| Err(Refusal::failed()));
                vec![answer(&id, result)]
            }
            Incoming::Notification { method, params } => {
                spared(|| self.hear(&method, params)).unwrap_or_else(|| vec![failed_at(&method)])
            }
            Incoming::Answer { id, result } => self.hear_answer(&id, &result),
        }
    }

    /// What is found in the texts that changed, and in those whose house rules or sign-offs did.
    pub fn settle(&mut self) -> Vec<String> {
        if self.stage != Stage::Running || self.documents.is_empty() {
            return Vec::new();
        }
        let mut messages = spared(|| self.look()).unwrap_or_default();
        let mut told = false;
        for document in self.documents.values_mut().filter(|document| !document.is_told) {
            document.is_told = true;
            told = true;
            let found = spared(|| {
                let outcome = findings::outcome(document, &self.surroundings, Corrections::LeftOut);
                findings::published(document, &outcome, self.client, self.options)
            });
            messages.push(found.map_or_else(|| failed_at("checking a file"), |found| publish(&found)));
        }
        if told && self.options.hints && self.client.refreshes_hints {
            messages.push(request(ASKED_FOR_HINTS, "workspace/inlayHint/refresh", &Value::Null));
        }
        messages.iter().map(Value::to_string).collect()
    }

    /// Looks at house rules and sign-offs. What is wrong with them themselves is told once.
    fn look(&mut self) -> Vec<Value> {
        let folders: BTreeSet<PathBuf> = self.documents.values().map(|document| document.folder().into()).collect();
        let look = self.surroundings.look(&folders);
        for document in self.documents.values_mut().filter(|document| look.changed.contains(document.folder())) {
            document.forget();
        }
        // 2 is a warning.
        let warning = |words: &String| notification("window/showMessage", &json!({ "type": 2, "message": words }));
        look.unreadable.iter().map(warning).collect()
    }

    /// Whether files on disk are to be looked at from time to time, because nobody tells of their changes.
    pub fn looks_at_files(&self) -> bool {
        self.stage == Stage::Running && !self.documents.is_empty() && !self.is_told_of_files
    }

    /// An open text, as the service has it.
    pub fn text(&self, uri: &str) -> Option<&str> {
        self.documents.get(uri).map(Document::text)
    }

    /// The exit status, once the editor has ended the service.
    pub fn exit_status(&self) -> Option<u8> {
        match self.stage {
            Stage::Over(status) => Some(status),
            Stage::New | Stage::Running | Stage::Stopped => None,
        }
    }

    /// The exit status where the editor is gone without a word.
    pub fn status_at_end(&self) -> u8 {
        self.exit_status().unwrap_or(u8::from(self.stage != Stage::Stopped))
    }

    fn answer(&mut self, method: &str, params: Value) -> Result<Value, Refusal> {
        match (self.stage, method) {
            (Stage::New, "initialize") => self.initialize(params),
            (Stage::New, _) => Err(Refusal::not_initialized()),
            (_, "initialize") => Err(Refusal::not_a_request("the service runs already")),
            (Stage::Running, "shutdown") => {
                self.stage = Stage::Stopped;
                self.documents.clear();
                Ok(Value::Null)
            }
            (Stage::Running, _) => self.answer_about_text(method, params),
            (Stage::Stopped | Stage::Over(_), _) => Err(Refusal::not_a_request("the service was shut down")),
        }
    }

    fn initialize(&mut self, params: Value) -> Result<Value, Refusal> {
        let params: InitializeParams = parsed(params)?;
        self.client = Client::new(&params);
        self.options = Options::default().with(&params.initialization_options.unwrap_or_default());
        self.surroundings = Surroundings::new(self.options.signed);
        self.stage = Stage::Running;
        as_json(initialize_result(self.client))
    }

    fn hear(&mut self, method: &str, params: Value) -> Vec<Value> {
        if method == "exit" {
            self.stage = Stage::Over(u8::from(self.stage != Stage::Stopped));
            return Vec::new();
        }
        if self.stage != Stage::Running {
            return Vec::new();
        }
        match method {
            "initialized" => self.asked_at_start(),
            "textDocument/didOpen" => heard(params, |params| self.open(params)),
            "textDocument/didChange" => heard(params, |params| self.change(params)),
            "textDocument/didClose" => {
                heard(params, |params: DidCloseTextDocumentParams| self.close(&params.text_document.uri))
            }
            "workspace/didChangeConfiguration" => self.hear_configuration(&params),
            // What changed on disk is seen by the look that follows every message.
            _ => Vec::new(),
        }
    }

    /// What the client is asked for once it is ready.
    fn asked_at_start(&self) -> Vec<Value> {
        let mut requests = Vec::new();
        if self.client.watches {
            let watchers =
                [HOUSE_RULES_FILE, SIGN_OFFS_FILE].map(|name| json!({ "globPattern": format!("**/{name}") }));
            let method = "workspace/didChangeWatchedFiles";
            let options = json!({ "watchers": watchers });
            let registration = json!({ "id": ASKED_FOR_FILES, "method": method, "registerOptions": options });
            let params = json!({ "registrations": [registration] });
            requests.push(request(ASKED_FOR_FILES, "client/registerCapability", &params));
        }
        requests.extend(self.ask_for_options());
        requests
    }

    fn ask_for_options(&self) -> Option<Value> {
        let params = json!({ "items": [{ "section": SECTION }] });
        self.client.configuration.then(|| request(ASKED_FOR_OPTIONS, "workspace/configuration", &params))
    }

    fn hear_configuration(&mut self, params: &Value) -> Vec<Value> {
        match &params["settings"] {
            Value::Object(_) => {
                self.set_options(self.options.with(&params["settings"]));
                Vec::new()
            }
            _ => self.ask_for_options().into_iter().collect(),
        }
    }

    fn hear_answer(&mut self, id: &Value, result: &Value) -> Vec<Value> {
        match id.as_str() {
            // The answer to a registration is nothing; where it is an error, this is told nothing either.
            Some(ASKED_FOR_FILES) => self.is_told_of_files = true,
            Some(ASKED_FOR_OPTIONS) => self.set_options(self.options.with(&result[0])),
            _ => {}
        }
        Vec::new()
    }

    fn set_options(&mut self, options: Options) {
        if options.signed != self.options.signed {
            self.surroundings = Surroundings::new(options.signed);
        }
        if options != self.options {
            self.options = options;
            self.documents.values_mut().for_each(Document::forget);
        }
    }

    fn open(&mut self, params: DidOpenTextDocumentParams) -> Vec<Value> {
        let opened = params.text_document;
        let name = opened.uri.0.clone();
        match Document::open(opened.uri, opened.version, opened.text) {
            Some(document) => drop(self.documents.insert(name, document)),
            None => drop(self.documents.remove(&name)),
        }
        Vec::new()
    }

    fn change(&mut self, params: DidChangeTextDocumentParams) -> Vec<Value> {
        let changed = params.text_document;
        let encoding = self.client.encoding;
        if let Some(document) = self.documents.get_mut(&changed.text_document_identifier.uri.0) {
            document.change(changed.version, params.content_changes, encoding);
        }
        Vec::new()
    }

    fn close(&mut self, uri: &Uri) -> Vec<Value> {
        let closed = self.documents.remove(&uri.0);
        let nothing =
            |document: Document| PublishDiagnosticsParams { uri: document.uri, version: None, diagnostics: Vec::new() };
        closed.map(|document| publish(&nothing(document))).into_iter().collect()
    }
}

fn read_one(frame: Frame) -> Result<Incoming, Value> {
    match frame {
        Frame::Message(text) => read(&text),
        Frame::Malformed(why) => Err(answer(&Value::Null, Err(Refusal::not_json(why)))),
    }
}

/// The request that a message cancels.
fn canceled(message: &Result<Incoming, Value>) -> Option<&Value> {
    match message {
        Ok(Incoming::Notification { method, params }) if method == "$/cancelRequest" => params.get("id"),
        _ => None,
    }
}

/// What work comes to; `None` where the program itself failed at it.
fn spared<T>(work: impl FnOnce() -> T) -> Option<T> {
    // What the work was at is replaced by the next text of the editor.
    catch_unwind(AssertUnwindSafe(work)).ok()
}

fn failed_at(what: &str) -> Value {
    let words = format!("sparestrip itself failed at {what}, please report that");
    // 1 is an error.
    notification("window/logMessage", &json!({ "type": 1, "message": words }))
}

fn publish(found: &PublishDiagnosticsParams) -> Value {
    notification("textDocument/publishDiagnostics", &serde_json::to_value(found).unwrap_or_default())
}

/// Hears a notification; one that does not say what it must is passed over, for nobody waits for an answer.
fn heard<P: DeserializeOwned>(params: Value, hear: impl FnOnce(P) -> Vec<Value>) -> Vec<Value> {
    parsed(params).map(hear).unwrap_or_default()
}

fn parsed<P: DeserializeOwned>(params: Value) -> Result<P, Refusal> {
    serde_json::from_value(params).map_err(|error| Refusal::wrong_params(error.to_string()))
}

fn as_json(result: impl serde::Serialize) -> Result<Value, Refusal> {
    serde_json::to_value(result).map_err(|_| Refusal::failed())
}
