//! Texts that are large, or deep, or hardly YAML: every question has an answer.

use serde_json::{Value, json};

use super::support::lsp::Editor;
use super::{editor_with, place, references};

/// Asks everything about a place in a text. What cannot be done is refused; the program fails at nothing.
fn ask_everything(editor: &mut Editor, uri: &str, text: &str, at: usize) {
    let document = json!({ "uri": uri });
    let place = json!({ "textDocument": document, "position": editor.position(text, at) });
    let range = editor.range(text, 0, text.len());
    let with = |name: &str, value: Value| {
        let mut params = place.clone();
        params[name] = value;
        params
    };
    let mut actions = with("context", json!({ "diagnostics": [] }));
    actions["range"].clone_from(&range);
    let requests = [
        ("hover", place.clone()),
        ("completion", place.clone()),
        ("definition", place.clone()),
        ("prepareRename", place.clone()),
        ("documentSymbol", place.clone()),
        ("foldingRange", place.clone()),
        ("inlayHint", with("range", range)),
        ("rename", with("newName", json!("other"))),
        ("codeAction", actions),
    ];
    for (method, params) in requests {
        let answer = editor.ask(&format!("textDocument/{method}"), params);
        assert!(answer.as_ref().map_or_else(|error| error["code"] == -32803, |_| true), "{method}: {answer:?}");
    }
}

#[test]
fn a_pattern_with_many_names_is_answered() {
    let fabrics: String = (0..60)
        .map(|n| {
            format!(
                "  f{n}: {{ requires: {{ lap: 1 yd }}, cut: [{{ piece: A, size: {n} x 2, pieces: {{ lap: 1 }} }}] }}\n"
            )
        })
        .collect();
    let units: String =
        (0..60).map(|n| format!("  u{n}: {{ make: patch, finished: 2, cut: {{ patch: f{n} A }} }}\n")).collect();
    let head = "pattern: Many\nmeasure: inch\nsizes: { lap: { finished: 12 x 24 } }\n";
    let text = format!("{head}fabrics:\n{fabrics}units:\n{units}");
    let (mut editor, uri) = editor_with(&text);
    let at = place(&text, "f50 A") + "f50 ".len();
    ask_everything(&mut editor, &uri, &text, at);
    assert_eq!(references(&mut editor, (&uri, &text), at).len(), 120);
    assert_eq!(references(&mut editor, (&uri, &text), place(&text, "f50 A")).len(), 2);
}

#[test]
fn texts_that_are_hardly_yaml_are_answered() {
    let texts = [
        String::new(),
        "\n".repeat(5000),
        "[".repeat(3000),
        "a: ".repeat(2000),
        "- ".repeat(2000),
        "sizes: &a { lap: *a }\n<<: *a\n".to_string(),
        "pattern: A\n---\npattern: B\n".to_string(),
        "\u{feff}pattern: A\r\rmeasure: inch\r".to_string(),
        format!("pattern: {}\n", "\u{1f9f5}".repeat(20_000)),
        "? [a, b]\n: { ? c : d }\n".to_string(),
        "pattern: |\n  several\n  lines\nsizes: >-\n  folded\n".to_string(),
        "\"sizes\": { \"l\\u0061p\": { 'finished': \"12 x 12\" } }\n".to_string(),
    ];
    for text in texts {
        let (mut editor, uri) = editor_with(&text);
        editor.found(&uri);
        for at in [0, text.len() / 2, text.len()] {
            let at = (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap();
            let is_within = text[..at].ends_with('\r') && text[at..].starts_with('\n');
            ask_everything(&mut editor, &uri, &text, at - usize::from(is_within));
        }
    }
}

#[test]
fn a_position_that_is_none_is_taken_as_the_nearest() {
    let text = "pattern: A\nmeasure: inch\n";
    let (mut editor, uri) = editor_with(text);
    let far = json!({ "line": 4_000_000_000u32, "character": 4_000_000_000u32 });
    let params = json!({ "textDocument": { "uri": uri }, "position": far });
    assert_eq!(editor.ask("textDocument/hover", params), Ok(Value::Null));
    let backwards = json!({ "start": { "line": 9, "character": 9 }, "end": { "line": 1, "character": 0 } });
    editor.change(&uri, json!([{ "range": backwards, "text": "measure: cm\n" }]));
    assert_eq!(editor.text(&uri), "pattern: A\nmeasure: cm\n");
}
