//! What a text has in it, for an editor to list and to fold; and what is needed, beside each number.

use serde_json::{Value, json};

use super::editor_with;
use super::support::GOOD;
use super::support::folder_with;
use super::support::lsp::{Editor, Units, able, byte, uri};

const TEXT: &str = "\
# A small pattern
# to list.
pattern: Listed
measure: inch
sizes:
  lap: { finished: 12 x 12 }
fabrics:
  ink:
    role: all of it
    requires: { lap: 1/4 yd }
    cut:
      - piece: A
        size: 6 1/2 x 6 1/2
        pieces: { lap: 4 }
units:
  plain: { make: patch, finished: 6, cut: { patch: A } }
blocks:
  star:
    finished: 12
    rows:
      - [plain, plain]
      - [plain, plain]
layout:
  lap: { across: 1, down: 1, blocks: star }
";

fn asked(editor: &mut Editor, method: &str, uri: &str) -> Vec<Value> {
    let params = json!({ "textDocument": { "uri": uri } });
    editor.ask(&format!("textDocument/{method}"), params).unwrap().as_array().unwrap().clone()
}

/// A symbol and those in it, indented, with what stands at its place.
fn drawn(symbol: &Value, depth: usize, lines: &mut Vec<String>) {
    let at = |range: &Value| {
        let [start, end] = ["start", "end"].map(|end| byte(TEXT, &range[end], Units::Utf16));
        TEXT[start..end].to_string()
    };
    assert_eq!(at(&symbol["selectionRange"]), symbol["name"].as_str().unwrap());
    assert!(at(&symbol["range"]).contains(symbol["name"].as_str().unwrap()));
    let detail = symbol["detail"].as_str().map(|detail| format!(": {detail}")).unwrap_or_default();
    lines.push(format!("{}{}{detail}", "  ".repeat(depth), symbol["name"].as_str().unwrap()));
    for child in symbol["children"].as_array().into_iter().flatten() {
        drawn(child, depth + 1, lines);
    }
}

#[test]
fn sizes_fabrics_pieces_units_and_blocks_are_listed() {
    let (mut editor, uri) = editor_with(TEXT);
    let mut lines = Vec::new();
    for symbol in asked(&mut editor, "documentSymbol", &uri) {
        drawn(&symbol, 0, &mut lines);
    }
    let expected = [
        "sizes",
        "  lap: 12 x 12",
        "fabrics",
        "  ink: all of it",
        "    A: 6 1/2 x 6 1/2",
        "units",
        "  plain: patch",
        "blocks",
        "  star: 12",
    ];
    assert_eq!(lines, expected);
}

#[test]
fn an_editor_without_trees_gets_a_list() {
    let (folder, file) = folder_with("listed.pattern.yaml", TEXT);
    let mut editor = Editor::of_program(folder.path(), json!({}), Value::Null);
    let uri = uri(&file);
    editor.open(&uri, TEXT);
    let symbols = asked(&mut editor, "documentSymbol", &uri);
    let names: Vec<(&str, &str)> = symbols
        .iter()
        .map(|symbol| (symbol["name"].as_str().unwrap(), symbol["containerName"].as_str().unwrap()))
        .collect();
    assert_eq!(names, [("lap", "sizes"), ("ink", "fabrics"), ("A", "ink"), ("plain", "units"), ("star", "blocks")]);
}

#[test]
fn sections_entries_and_comments_can_be_folded() {
    for text in [TEXT.to_string(), TEXT.replace('\n', "\r\n")] {
        let (mut editor, uri) = editor_with(&text);
        let ranges = asked(&mut editor, "foldingRange", &uri);
        let folded: Vec<(u64, u64)> = ranges
            .iter()
            .map(|range| (range["startLine"].as_u64().unwrap(), range["endLine"].as_u64().unwrap()))
            .collect();
        // Lines from 0: the comment; sizes; fabrics, ink, its list and its piece; units; blocks, star, its rows; layout.
        let expected =
            [(0, 1), (4, 5), (6, 13), (7, 13), (10, 13), (11, 13), (14, 15), (16, 21), (17, 21), (19, 21), (22, 23)];
        assert_eq!(folded, expected);
        assert_eq!(ranges[0]["kind"], "comment");
    }
}

/// The hints of a text: what stands before each, and the hint.
fn hints(editor: &mut Editor, uri: &str, text: &str) -> Vec<(String, String)> {
    let range = editor.range(text, 0, text.len());
    let params = json!({ "textDocument": { "uri": uri }, "range": range });
    let hints = editor.ask("textDocument/inlayHint", params).unwrap();
    let told = hints.as_array().unwrap().iter().map(|hint| {
        let at = byte(text, &hint["position"], editor.units);
        let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
        (text[line..at].trim().to_string(), hint["label"].as_str().unwrap().to_string())
    });
    told.collect()
}

#[test]
fn what_is_needed_stands_beside_each_number_where_that_is_wanted() {
    let text = GOOD.replace("crib:  { strips: 6", "crib:  { strips: 5");
    let (mut editor, uri) = editor_with(&text);
    assert_eq!(hints(&mut editor, &uri, &text), []);
    editor.tell("workspace/didChangeConfiguration", json!({ "settings": { "hints": true } }));
    let told = hints(&mut editor, &uri, &text);
    // 2 x (36 + 48) + 2 + 10 + 10 - 12 = 178 in, of strips 40 in long that lose 2 1/2 in at each join: 5, and a spare one.
    assert!(told.contains(&("crib:  { strips: 5".into(), "needed: 6".into())), "{told:?}");
    assert!(told.iter().any(|(before, _)| before.starts_with("queen: { strips: 12, fabric: 7/8 yd")), "{told:?}");
}

#[test]
fn an_editor_is_told_that_hints_are_out_of_date() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let mut able = able(Units::Utf16);
    able["workspace"]["inlayHint"] = json!({ "refreshSupport": true });
    let mut editor = Editor::of_program(folder.path(), able, json!({ "hints": true }));
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    while editor.next()["method"] != "workspace/inlayHint/refresh" {}
}
