//! Starting and ending the service, and messages that are none.

use std::path::Path;

use serde_json::{Value, json};

use super::support::lsp::{Editor, Units, able};
use super::support::{GOOD, run_with_input};

const NAME: &str = "file:///nowhere/lanterns.pattern.yaml";

fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn started() -> Editor {
    Editor::of_program(here(), able(Units::Utf16), Value::Null)
}

fn code(answer: Result<Value, Value>) -> i64 {
    answer.expect_err("a refusal")["code"].as_i64().expect("a number")
}

#[test]
fn the_service_says_what_it_can_do_and_ends_as_it_is_told() {
    let editor = started();
    let can = &editor.started["capabilities"];
    assert_eq!(editor.started["serverInfo"]["name"], "sparestrip");
    assert_eq!((&can["positionEncoding"], &can["textDocumentSync"]["change"]), (&json!("utf-16"), &json!(2)));
    for able in ["hover", "completion", "definition", "references", "documentSymbol", "foldingRange", "rename"] {
        assert!(can[format!("{able}Provider")] != Value::Null, "{able}");
    }
    assert_eq!(can["codeActionProvider"]["codeActionKinds"], json!(["quickfix", "source.fixAll"]));
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn positions_are_counted_in_what_both_know() {
    let utf_8 = Editor::of_program(here(), able(Units::Utf8), Value::Null);
    assert_eq!(utf_8.units, Units::Utf8);
    assert_eq!(Editor::of_program(here(), json!({}), Value::Null).units, Units::Utf16);
}

#[test]
fn an_end_without_a_shutdown_is_an_error() {
    let mut exits = started();
    exits.tell("exit", Value::Null);
    assert_eq!(exits.status(), Some(1));
    assert_eq!(started().status(), Some(1), "the input ends");
    let mut shut_down = started();
    assert_eq!(shut_down.ask("shutdown", Value::Null), Ok(Value::Null));
    assert_eq!(shut_down.status(), Some(0), "the input ends after a shutdown");
    let mut new = Editor::waiting(here(), Units::Utf16);
    new.tell("exit", Value::Null);
    assert_eq!(new.status(), Some(1), "it was never started");
}

#[test]
fn requests_out_of_order_are_refused() {
    let mut editor = Editor::waiting(here(), Units::Utf16);
    assert_eq!(code(editor.ask("textDocument/hover", json!({}))), -32002);
    editor.tell("textDocument/didOpen", json!({}));
    editor.start(able(Units::Utf16), Value::Null);
    assert_eq!(code(editor.ask("initialize", json!({ "capabilities": {} }))), -32600);
    assert_eq!(editor.ask("shutdown", Value::Null), Ok(Value::Null));
    assert_eq!(code(editor.ask("textDocument/hover", json!({}))), -32600);
    editor.tell("exit", Value::Null);
    assert_eq!(editor.status(), Some(0));
}

#[test]
fn what_nobody_knows_is_refused_or_passed_over() {
    let mut editor = started();
    assert_eq!(code(editor.ask("textDocument/semanticTokens/full", json!({}))), -32601);
    assert_eq!(code(editor.ask("$/anything", json!({}))), -32601);
    assert_eq!(code(editor.ask("textDocument/hover", json!({ "position": 5 }))), -32602);
    editor.tell("$/setTrace", json!({ "value": "off" }));
    editor.tell("textDocument/didChange", json!({ "nothing": "of it" }));
    let logged = editor.next();
    assert_eq!(logged["method"], "window/logMessage", "{logged}");
    editor.tell("workspace/didChangeConfiguration", json!({ "settings": [1, 2] }));
    let hover = json!({ "textDocument": { "uri": NAME }, "position": { "line": 0, "character": 0 } });
    assert_eq!(editor.ask("textDocument/hover", hover), Ok(Value::Null), "it is not open");
    assert_eq!(editor.end(), Some(0));
}

/// The answer to something that is no request is named by nothing.
fn refusal(editor: &mut Editor) -> i64 {
    loop {
        let message = editor.next();
        if message["id"].is_null() && message.get("error").is_some() {
            return message["error"]["code"].as_i64().expect("a number");
        }
    }
}

#[test]
fn malformed_messages_are_answered_and_the_next_is_heard() {
    let mut editor = started();
    let framed = |body: &str| format!("Content-Length: {}\r\n\r\n{body}", body.len()).into_bytes();
    let malformed: [(Vec<u8>, i64); 10] = [
        (framed("{"), -32700),
        (framed(""), -32700),
        (framed("\u{feff}{}"), -32700),
        (framed("[]"), -32600),
        (framed("{\"jsonrpc\": \"1.0\", \"method\": \"exit\"}"), -32600),
        (framed("{\"jsonrpc\": \"2.0\", \"method\": 5}"), -32600),
        (framed("{\"jsonrpc\": \"2.0\", \"id\": [1], \"method\": \"shutdown\"}"), -32600),
        (b"Content-Length: many\r\n\r\n".to_vec(), -32700),
        (b"Content-Length: 18446744073709551615\r\n\r\n".to_vec(), -32700),
        (b"Content-Length: 2\r\n\r\n\xff\xfe".to_vec(), -32700),
    ];
    for (bytes, expected) in malformed {
        editor.send_bytes(&bytes);
        assert_eq!(refusal(&mut editor), expected, "{}", String::from_utf8_lossy(&bytes));
    }
    editor.send_bytes(b"no header at all\r\n");
    editor.open(NAME, GOOD);
    assert_eq!(editor.found(NAME), Vec::<Value>::new());
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn a_header_may_have_more_than_the_length() {
    let body = json!({ "jsonrpc": "2.0", "id": "a", "method": "shutdown" }).to_string();
    let header = "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:";
    let mut editor = started();
    editor.send_bytes(format!("{header}{}\r\n\r\n{body}", body.len()).as_bytes());
    assert_eq!(editor.answer_to(&json!("a")), Ok(Value::Null));
}

#[test]
fn a_request_that_is_canceled_before_it_is_looked_at_is_not_answered() {
    let mut editor = started();
    let message = |value: Value| {
        let body = value.to_string();
        format!("Content-Length: {}\r\n\r\n{body}", body.len())
    };
    let asked = json!({ "jsonrpc": "2.0", "id": 77, "method": "textDocument/foldingRange",
        "params": { "textDocument": { "uri": NAME } } });
    let canceled = json!({ "jsonrpc": "2.0", "method": "$/cancelRequest", "params": { "id": 77 } });
    // Together, so that both have come before either is looked at; on a busy machine the first may be answered alone.
    editor.send_bytes((message(asked) + &message(canceled)).as_bytes());
    match editor.answer_to(&json!(77)) {
        Ok(answer) => assert_eq!(answer, Value::Null),
        Err(error) => assert_eq!(error["code"], -32800),
    }
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn an_input_that_is_no_protocol_ends_the_service_without_a_word_of_its_own() {
    let ran = run_with_input(here(), &["lsp"], b"\x00\x01\x02\n\n\nGET / HTTP/1.1\r\n\r\n");
    assert_eq!((ran.status, ran.err.as_str()), (Some(1), ""));
    assert!(ran.out.starts_with("Content-Length: "), "{}", ran.out);
    let empty = run_with_input(here(), &["lsp"], b"");
    assert_eq!((empty.status, empty.out.as_str()), (Some(1), ""));
}
