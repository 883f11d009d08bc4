//! The editor service as an editor uses it: what it says of a text that is being typed, and that it goes on whatever it
//! is told.

use crate::support;

mod actions;
mod completion;
mod findings;
mod hover;
mod large;
mod lifecycle;
mod names;
mod neovim;
mod on_disk;
mod outline;
mod printed;
mod setup;

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use support::examples;
use support::lsp::{Editor, Units, uri};

/// The text of a file.
fn text_of(file: &Path) -> String {
    String::from_utf8(std::fs::read(file).expect("a file that can be read")).expect("text")
}

/// An example manuscript.
fn example(name: &str) -> PathBuf {
    let found = examples().into_iter().find(|path| path.ends_with(format!("{name}.pattern.yaml")));
    found.unwrap_or_else(|| panic!("no example {name}"))
}

/// An editor in which a text is open, of a file in a folder that nothing governs.
fn editor_with(text: &str) -> (Editor, String) {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let uri = "file:///nowhere/lanterns.pattern.yaml".to_string();
    editor.open(&uri, text);
    (editor, uri)
}

/// An editor in which a file is open.
fn editor_at(file: &Path) -> (Editor, String, String) {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let (uri, text) = (uri(file), text_of(file));
    editor.open(&uri, &text);
    (editor, uri, text)
}

/// Where a part of a text stands that stands there once.
fn place(text: &str, part: &str) -> usize {
    assert_eq!(text.matches(part).count(), 1, "{part:?} in {text}");
    text.find(part).unwrap()
}

/// The rules of findings.
fn rules(found: &[Value]) -> Vec<String> {
    found.iter().map(|finding| finding["code"].as_str().expect("a rule").to_string()).collect()
}

/// The answer to a question about a place.
fn about(editor: &mut Editor, method: &str, (uri, text): (&str, &str), byte: usize) -> Value {
    editor.ask_at(method, uri, text, byte).unwrap_or_else(|error| panic!("{method}: {error}"))
}

/// The answer to `textDocument/references`.
fn references(editor: &mut Editor, (uri, text): (&str, &str), byte: usize) -> Vec<Value> {
    let place = editor.position(text, byte);
    let context = json!({ "includeDeclaration": true });
    let params = json!({ "textDocument": { "uri": uri }, "position": place, "context": context });
    editor.ask("textDocument/references", params).expect("an answer").as_array().expect("a list").clone()
}
