//! An editor, as far as its service can tell: it speaks the protocol, keeps the text and hears of findings. It shares no
//! code with the service.

#![allow(clippy::needless_pass_by_value)] // What is sent is made where it is sent.

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use sparestrip::editor_service::Service;

/// How long an answer may take before the service is taken to hang, on a busy machine too.
const PATIENCE: Duration = Duration::from_secs(60);

/// What positions count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    Utf8,
    Utf16,
}

/// The service that is spoken to.
enum Link {
    /// The program.
    Program { child: Child, input: Option<ChildStdin>, output: Receiver<Value> },
    /// The service itself, without a process.
    Inside { service: Box<Service>, waiting: Vec<Value> },
}

/// An editor.
pub struct Editor {
    link: Link,
    next_id: i64,
    version: i64,
    pub units: Units,
    /// What the service said without being asked.
    pub heard: Vec<Value>,
    /// The last findings of each file.
    pub findings: BTreeMap<String, Value>,
    /// The answer to `initialize`.
    pub started: Value,
}

/// What an editor can do that can do everything.
pub fn able(units: Units) -> Value {
    let encodings = match units {
        Units::Utf8 => json!(["utf-8", "utf-16"]),
        Units::Utf16 => json!(["utf-16"]),
    };
    json!({
        "general": { "positionEncodings": encodings },
        "textDocument": {
            "publishDiagnostics": { "relatedInformation": true },
            "hover": { "contentFormat": ["markdown", "plaintext"] },
            "codeAction": { "dataSupport": true, "resolveSupport": { "properties": ["edit"] } },
            "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
        },
        "workspace": { "workspaceEdit": { "documentChanges": true } },
    })
}

impl Editor {
    /// An editor that has started the program in a folder.
    pub fn of_program(folder: &Path, capabilities: Value, options: Value) -> Editor {
        let mut editor = Editor::waiting(folder, Units::Utf16);
        editor.start(capabilities, options);
        editor
    }

    /// The same before it has said anything.
    pub fn waiting(folder: &Path, units: Units) -> Editor {
        let mut command = Command::new(env!("CARGO_BIN_EXE_sparestrip"));
        command.arg("lsp").current_dir(folder);
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("the program starts");
        let output = BufReader::new(child.stdout.take().expect("its output"));
        let (sender, receiver) = channel();
        thread::spawn(move || {
            let mut output = output;
            while let Some(message) = read_message(&mut output) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        let input = child.stdin.take();
        Editor::new(Link::Program { child, input, output: receiver }, units)
    }

    /// An editor that speaks to the service itself.
    pub fn inside(units: Units, options: Value) -> Editor {
        let link = Link::Inside { service: Box::default(), waiting: Vec::new() };
        let mut editor = Editor::new(link, units);
        editor.start(able(units), options);
        editor
    }

    fn new(link: Link, units: Units) -> Editor {
        let (heard, findings) = (Vec::new(), BTreeMap::new());
        Editor { link, next_id: 0, version: 0, units, heard, findings, started: Value::Null }
    }

    /// The first words of the protocol.
    pub fn start(&mut self, capabilities: Value, options: Value) {
        let params = json!({
            "processId": null, "rootUri": null, "capabilities": capabilities, "initializationOptions": options,
        });
        self.started = self.ask("initialize", params).expect("an answer");
        let encoding = self.started["capabilities"]["positionEncoding"].as_str();
        self.units = if encoding == Some("utf-8") { Units::Utf8 } else { Units::Utf16 };
        self.tell("initialized", json!({}));
    }

    /// Sends bytes as they are.
    pub fn send_bytes(&mut self, bytes: &[u8]) {
        let Link::Program { input: Some(input), .. } = &mut self.link else { panic!("no program listens") };
        input.write_all(bytes).expect("the program listens");
        input.flush().expect("the program listens");
    }

    /// Sends a message.
    pub fn send(&mut self, message: &Value) {
        let message = message.to_string();
        if let Link::Inside { service, waiting } = &mut self.link {
            let said = service.receive(&message).into_iter().chain(service.settle());
            waiting.extend(said.map(|said| serde_json::from_str::<Value>(&said).expect("JSON")));
            return;
        }
        self.send_bytes(format!("Content-Length: {}\r\n\r\n{message}", message.len()).as_bytes());
    }

    /// The next message, noted where it is a notification.
    pub fn next(&mut self) -> Value {
        let message = match &mut self.link {
            Link::Program { output, .. } => output.recv_timeout(PATIENCE).expect("a message"),
            Link::Inside { waiting, .. } => {
                assert!(!waiting.is_empty(), "the service says nothing");
                waiting.remove(0)
            }
        };
        if message["method"] == "textDocument/publishDiagnostics" {
            let uri = message["params"]["uri"].as_str().expect("a URI").to_string();
            self.findings.insert(uri, message["params"].clone());
        }
        if message.get("method").is_some() {
            self.heard.push(message.clone());
        }
        message
    }

    /// Hears what the service has said already, of one without a process.
    pub fn hear(&mut self) {
        while matches!(&self.link, Link::Inside { waiting, .. } if !waiting.is_empty()) {
            self.next();
        }
    }

    /// Tells something.
    pub fn tell(&mut self, method: &str, params: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    /// Asks something: the answer, or the error.
    pub fn ask(&mut self, method: &str, params: Value) -> Result<Value, Value> {
        self.next_id += 1;
        let id = self.next_id;
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }));
        self.answer_to(&json!(id))
    }

    /// The answer to a request.
    pub fn answer_to(&mut self, id: &Value) -> Result<Value, Value> {
        loop {
            let message = self.next();
            if message.get("method").is_none() && message["id"] == *id {
                return message.get("error").map_or_else(|| Ok(message["result"].clone()), |error| Err(error.clone()));
            }
        }
    }

    /// Asks about a place in a text.
    pub fn ask_at(&mut self, method: &str, uri: &str, text: &str, byte: usize) -> Result<Value, Value> {
        let params = json!({ "textDocument": { "uri": uri }, "position": self.position(text, byte) });
        self.ask(&format!("textDocument/{method}"), params)
    }

    /// Opens a text.
    pub fn open(&mut self, uri: &str, text: &str) {
        self.version += 1;
        let opened = json!({ "uri": uri, "languageId": "yaml", "version": self.version, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": opened }));
    }

    /// Tells of changes, as the protocol has them. The number of the new text.
    pub fn change(&mut self, uri: &str, changes: Value) -> i64 {
        self.version += 1;
        let document = json!({ "uri": uri, "version": self.version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
        self.version
    }

    /// Replaces a whole text.
    pub fn replace(&mut self, uri: &str, text: &str) -> i64 {
        self.change(uri, json!([{ "text": text }]))
    }

    /// The findings of a file in its newest text.
    pub fn found(&mut self, uri: &str) -> Vec<Value> {
        self.hear();
        while self.findings.get(uri).is_none_or(|found| found["version"] != self.version) {
            self.next();
        }
        self.findings[uri]["diagnostics"].as_array().expect("a list").clone()
    }

    /// A text as the service has it, of one without a process.
    pub fn text(&self, uri: &str) -> &str {
        let Link::Inside { service, .. } = &self.link else { panic!("the text is in another process") };
        service.text(uri).expect("an open text")
    }

    /// A byte as the service counts.
    pub fn position(&self, text: &str, byte: usize) -> Value {
        let (line, character) = position(text, byte, self.units);
        json!({ "line": line, "character": character })
    }

    /// A place as the service counts.
    pub fn range(&self, text: &str, start: usize, end: usize) -> Value {
        json!({ "start": self.position(text, start), "end": self.position(text, end) })
    }

    /// A text with an edit of the whole workspace made in it.
    pub fn edited(&self, uri: &str, text: &str, edit: &Value) -> String {
        let edits = match edit.get("documentChanges") {
            Some(changes) => {
                assert_eq!((&changes[0]["textDocument"]["uri"], changes.as_array().unwrap().len()), (&json!(uri), 1));
                assert_eq!(changes[0]["textDocument"]["version"], self.version);
                changes[0]["edits"].clone()
            }
            None => edit["changes"][uri].clone(),
        };
        with_edits(text, edits.as_array().expect("a list"), self.units)
    }

    /// Shuts the service down and waits for its end: the exit status.
    pub fn end(mut self) -> Option<i32> {
        assert_eq!(self.ask("shutdown", Value::Null), Ok(Value::Null));
        self.tell("exit", Value::Null);
        self.status()
    }

    /// Closes the input and waits for the end of the program.
    pub fn status(self) -> Option<i32> {
        let Link::Program { mut child, input, .. } = self.link else { panic!("no program runs") };
        drop(input);
        wait(&mut child).code()
    }

    /// The program's number, for a look at what it uses.
    pub fn process(&self) -> u32 {
        match &self.link {
            Link::Program { child, .. } => child.id(),
            Link::Inside { .. } => panic!("no program runs"),
        }
    }
}

fn wait(child: &mut Child) -> ExitStatus {
    let started = Instant::now();
    loop {
        if let Some(status) = child.try_wait().expect("the program can be waited for") {
            return status;
        }
        if started.elapsed() > PATIENCE {
            child.kill().expect("the program can be stopped");
            panic!("still running after {PATIENCE:?}");
        }
        thread::sleep(Duration::from_millis(2));
    }
}

/// Reads a message; fails where anything else stands on standard output.
fn read_message(from: &mut impl BufRead) -> Option<Value> {
    let mut header = String::new();
    if from.read_line(&mut header).expect("output that can be read") == 0 {
        return None;
    }
    let length = header.strip_prefix("Content-Length: ").and_then(|rest| rest.strip_suffix("\r\n"));
    let length: usize = length.unwrap_or_else(|| panic!("no header: {header:?}")).parse().expect("a length");
    let mut empty = [0; 2];
    from.read_exact(&mut empty).expect("the end of the header");
    assert_eq!(&empty, b"\r\n");
    let mut message = vec![0; length];
    from.read_exact(&mut message).expect("the whole message");
    let message = String::from_utf8(message).expect("UTF-8");
    assert!(!message.chars().any(super::is_wild), "{message:?}");
    Some(serde_json::from_str(&message).expect("JSON"))
}

/// The lines of a text, each with what ends it.
fn lines(text: &str) -> Vec<&str> {
    let (mut lines, mut start) = (Vec::new(), 0);
    let bytes = text.as_bytes();
    for (index, byte) in bytes.iter().enumerate() {
        if *byte == b'\n' || (*byte == b'\r' && bytes.get(index + 1) != Some(&b'\n')) {
            lines.push(&text[start..=index]);
            start = index + 1;
        }
    }
    lines.push(&text[start..]);
    lines
}

/// The line of a byte and what stands before it there, in the units.
pub fn position(text: &str, byte: usize, units: Units) -> (usize, usize) {
    let before = lines(&text[..byte]);
    // A CR before the byte ends its line only where no LF follows.
    let cut = before.last() == Some(&"") && text[..byte].ends_with('\r') && text[byte..].starts_with('\n');
    let line = if cut { before[before.len() - 2].to_string() } else { (*before.last().unwrap()).to_string() };
    let number = before.len() - 1 - usize::from(cut);
    match units {
        Units::Utf8 => (number, line.len()),
        Units::Utf16 => (number, line.encode_utf16().count()),
    }
}

/// The byte of a position.
pub fn byte(text: &str, position: &Value, units: Units) -> usize {
    let number = |name: &str| usize::try_from(position[name].as_u64().expect("a number")).unwrap();
    let (line, character) = (number("line"), number("character"));
    let lines = lines(text);
    let before: usize = lines[..line].iter().map(|line| line.len()).sum();
    let within = match units {
        Units::Utf8 => character,
        Units::Utf16 => {
            let units: Vec<u16> = lines[line].encode_utf16().take(character).collect();
            assert_eq!(units.len(), character, "a position beyond its line");
            String::from_utf16(&units).expect("a position between characters").len()
        }
    };
    before + within
}

/// A text with edits made in it, of which none may touch the place of another.
pub fn with_edits(text: &str, edits: &[Value], units: Units) -> String {
    let place = |edit: &Value| (byte(text, &edit["range"]["start"], units), byte(text, &edit["range"]["end"], units));
    let mut places: Vec<((usize, usize), &str)> =
        edits.iter().map(|edit| (place(edit), edit["newText"].as_str().expect("a text"))).collect();
    places.sort_unstable();
    for pair in places.windows(2) {
        assert!(pair[0].0.1 <= pair[1].0.0, "edits that overlap: {pair:?}");
    }
    let mut edited = text.to_string();
    for ((start, end), new) in places.into_iter().rev() {
        edited.replace_range(start..end, new);
    }
    edited
}

/// The URI of a path.
pub fn uri(path: &Path) -> String {
    let mut uri = "file://".to_string();
    for byte in path.to_str().expect("a path of text").bytes() {
        if byte.is_ascii_alphanumeric() || b"/._-".contains(&byte) {
            uri.push(char::from(byte));
        } else {
            uri.push_str(&format!("%{byte:02x}"));
        }
    }
    uri
}
