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
mod notifications;
mod outline;
mod printed;
mod rename;
mod requests;
pub mod setup;
mod stdio;
mod surroundings;
mod symbols;

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use gen_lsp_types::{InitializeParams, PublishDiagnosticsParams};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use capabilities::initialize_result;
use client::{Client, Options};
use document::Document;
use framing::Frame;
use message::{Incoming, Refusal, answer, notification, read};
use notifications::Wanted;
use printed::OpenTexts;
use surroundings::Surroundings;

use crate::check::Corrections;

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
    /// The printed texts that are open.
    printed: OpenTexts,
    /// Whether the editor tells of changed house rules and sign-offs.
    is_told_of_files: bool,
    /// How many requests of our own were made.
    requests: u64,
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
            Incoming::Answer { id, result } => {
                self.hear_answer(&id, result.as_ref());
                Vec::new()
            }
        }
    }

    /// What is found in the texts that changed, and in those whose house rules or sign-offs did.
    pub fn settle(&mut self) -> Vec<String> {
        if self.stage != Stage::Running || self.has_nothing_open() {
            return Vec::new();
        }
        let mut messages = spared(|| self.look()).unwrap_or_default();
        let mut told = false;
        for document in self.documents.values_mut().filter(|document| !document.is_told) {
            document.is_told = true;
            told = true;
            let found = spared(|| {
                let outcome = findings::outcome(document, &self.surroundings, &self.printed, Corrections::LeftOut);
                findings::published(document, &outcome, &self.printed, self.client, self.options)
            });
            messages.push(found.map_or_else(|| failed_at("checking a file"), |found| publish(&found)));
        }
        let printed = spared(|| self.printed_findings());
        match printed {
            Some(printed) => messages.extend(printed.iter().map(publish)),
            None => messages.push(failed_at("checking a printed text")),
        }
        if told && self.options.hints && self.client.refreshes_hints {
            messages.push(self.ask(Wanted::Hints, &Value::Null));
        }
        messages.iter().map(Value::to_string).collect()
    }

    /// Looks at house rules and sign-offs. What is wrong with them themselves is told once.
    fn look(&mut self) -> Vec<Value> {
        self.look_at_printed();
        let folders = self.documents.values().map(|document| document.folder().into());
        let folders: BTreeSet<PathBuf> = folders.chain(self.printed.folders()).collect();
        let look = self.surroundings.look(&folders);
        for document in self.documents.values_mut().filter(|document| look.changed.contains(document.folder())) {
            document.forget();
        }
        if !look.changed.is_empty() {
            self.tell_printed_again();
        }
        // 2 is a warning.
        let warning = |words: &String| notification("window/showMessage", &json!({ "type": 2, "message": words }));
        look.unreadable.iter().map(warning).collect()
    }

    /// Whether files on disk are to be looked at from time to time, because nobody tells of their changes.
    pub fn looks_at_files(&self) -> bool {
        self.stage == Stage::Running && !self.has_nothing_open() && !self.is_told_of_files
    }

    fn has_nothing_open(&self) -> bool {
        self.documents.is_empty() && self.printed.is_empty()
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
                self.printed = OpenTexts::default();
                Ok(Value::Null)
            }
            #[cfg(test)]
            (Stage::Running, tests::FAILS) => panic!("meant to be seen in the output of a test"),
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
    logged(&format!("sparestrip itself failed at {what}, please report that"))
}

/// An error in the log of the editor.
fn logged(words: &str) -> Value {
    // 1 is an error.
    notification("window/logMessage", &json!({ "type": 1, "message": words }))
}

fn publish(found: &PublishDiagnosticsParams) -> Value {
    notification("textDocument/publishDiagnostics", &serde_json::to_value(found).unwrap_or_default())
}

fn parsed<P: DeserializeOwned>(params: Value) -> Result<P, Refusal> {
    serde_json::from_value(params).map_err(|error| Refusal::wrong_params(error.to_string()))
}

fn as_json(result: impl serde::Serialize) -> Result<Value, Refusal> {
    serde_json::to_value(result).map_err(|_| Refusal::failed())
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::Service;

    /// A request at which the program fails.
    pub(super) const FAILS: &str = "sparestrip/fails";

    #[test]
    fn a_failure_ends_one_request_and_not_the_service() {
        let mut service = Service::default();
        let mut ask = |method: &str, params: Value| -> Value {
            let message = json!({ "jsonrpc": "2.0", "id": 1, "method": method, "params": params });
            let answers = service.receive(&message.to_string());
            answers.first().and_then(|answer| serde_json::from_str(answer).ok()).unwrap_or_default()
        };
        ask("initialize", json!({ "capabilities": {} }));
        assert_eq!(ask(FAILS, Value::Null)["error"]["code"], -32603);
        let uri = "file:///nowhere/a.pattern.yaml";
        let opened = json!({ "uri": uri, "languageId": "yaml", "version": 1, "text": "pattern: [" });
        let opened =
            json!({ "jsonrpc": "2.0", "method": "textDocument/didOpen", "params": { "textDocument": opened } });
        assert!(service.receive(&opened.to_string()).is_empty());
        let found = service.settle();
        assert!(found.len() == 1 && found[0].contains("not-yaml"), "{found:?}");
    }
}
