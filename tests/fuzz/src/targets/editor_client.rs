//! An editor, as far as its service can tell: it counts lines and units by itself, and shares no code with the service.

use serde_json::{Value, json};
use sparestrip::editor_service::Service;

use super::{Fault, hold};

/// The file that is open.
pub(super) const URI: &str = "file:///nowhere/fuzzed.pattern.yaml";

/// What positions count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Units {
    Utf8,
    Utf16,
}

/// An editor with one open text.
pub(super) struct Editor {
    service: Service,
    pub(super) units: Units,
    version: i64,
    requests: i64,
    /// What was found last, and in which version.
    published: Value,
}

impl Editor {
    /// An editor that has opened a text.
    pub(super) fn open(units: Units, text: &str) -> Result<Editor, Fault> {
        let encodings = if units == Units::Utf8 { json!(["utf-8"]) } else { json!(["utf-16"]) };
        let capabilities = json!({
            "general": { "positionEncodings": encodings },
            "textDocument": { "codeAction": { "dataSupport": true, "resolveSupport": { "properties": ["edit"] } } },
        });
        let mut editor = Editor { service: Service::default(), units, version: 1, requests: 0, published: Value::Null };
        let options = json!({ "hints": true });
        let started =
            editor.ask("initialize", &json!({ "capabilities": capabilities, "initializationOptions": options }))?;
        hold(started.is_ok(), "the service does not start", || format!("{started:?}"))?;
        let document = json!({ "uri": URI, "languageId": "yaml", "version": 1, "text": text });
        editor.tell("textDocument/didOpen", &json!({ "textDocument": document }))?;
        Ok(editor)
    }

    /// Tells of changes.
    pub(super) fn change(&mut self, changes: &[Value]) -> Result<(), Fault> {
        self.version += 1;
        let document = json!({ "uri": URI, "version": self.version });
        self.tell("textDocument/didChange", &json!({ "textDocument": document, "contentChanges": changes }))
    }

    /// What was found in the newest text.
    pub(super) fn found(&self) -> Result<&[Value], Fault> {
        let list = self.published["diagnostics"].as_array();
        match list {
            Some(list) if self.published["version"] == self.version => Ok(list),
            _ => Err(Fault::new("the editor was not told what is found", self.published.to_string())),
        }
    }

    /// The text as the service has it.
    pub(super) fn text(&self) -> Option<&str> {
        self.service.text(URI)
    }

    fn tell(&mut self, method: &str, params: &Value) -> Result<(), Fault> {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params })).map(drop)
    }

    /// Asks something: the answer, or the error.
    pub(super) fn ask(&mut self, method: &str, params: &Value) -> Result<Result<Value, Value>, Fault> {
        self.requests += 1;
        let id = self.requests;
        let said = self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }))?;
        let answers: Vec<&Value> =
            said.iter().filter(|said| said["id"] == id && said.get("method").is_none()).collect();
        match answers.as_slice() {
            [answer] => {
                Ok(answer.get("error").map_or_else(|| Ok(answer["result"].clone()), |error| Err(error.clone())))
            }
            _ => Err(Fault::new("a request has not one answer", format!("{method}: {answers:?}"))),
        }
    }

    /// Sends a message; what the service says.
    fn send(&mut self, message: &Value) -> Result<Vec<Value>, Fault> {
        let mut said = self.service.receive(&message.to_string());
        said.extend(self.service.settle());
        let mut read = Vec::new();
        for message in said {
            let message: Value = serde_json::from_str(&message)
                .map_err(|error| Fault::new("a message is no JSON", error.to_string()))?;
            if message["method"] == "textDocument/publishDiagnostics" {
                self.published = message["params"].clone();
            }
            if message["method"] == "window/logMessage" {
                return Err(Fault::new("the service says that it failed", message.to_string()));
            }
            read.push(message);
        }
        Ok(read)
    }

    /// A byte as the service counts.
    pub(super) fn position(&self, text: &str, byte: usize) -> Value {
        let (mut line, mut start) = (0, 0);
        for (at, c) in text[..byte].char_indices() {
            if c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n')) {
                (line, start) = (line + 1, at + 1);
            }
        }
        let before = &text[start..byte];
        let units = if self.units == Units::Utf8 { before.len() } else { before.encode_utf16().count() };
        json!({ "line": line, "character": units })
    }

    /// A place as the service counts.
    pub(super) fn range(&self, text: &str, start: usize, end: usize) -> Value {
        json!({ "start": self.position(text, start), "end": self.position(text, end) })
    }

    /// Whether a position is between two characters of a text.
    pub(super) fn is_position(&self, text: &str, position: &Value) -> bool {
        let number = |name: &str| position[name].as_u64().and_then(|number| usize::try_from(number).ok());
        let (Some(line), Some(character)) = (number("line"), number("character")) else { return false };
        let unified = text.replace("\r\n", "\n").replace('\r', "\n");
        let Some(text) = unified.split('\n').nth(line) else { return false };
        if self.units == Units::Utf8 {
            // What ends the line may belong to it.
            return text.is_char_boundary(character.min(text.len())) && character <= text.len() + 2;
        }
        let units: Vec<u16> = text.encode_utf16().take(character).collect();
        String::from_utf16(&units).is_ok() && character <= text.encode_utf16().count() + 2
    }
}
