//! What is found, as the editor is told it.

use std::path::Path;

use serde_json::{Value, json};
use sparestrip::run::settings_for;
use sparestrip::{Finding, Level, Source, check};

use super::support::lsp::{Editor, Units, able, uri};
use super::support::{GOOD, examples, folder_with};
use super::{editor_at, editor_with, place, rules, text_of};

/// What GOOD states for its crib, and a number too low in its place.
const FAULTY: (&str, &str) = ("{ strips: 6, fabric: 1/2 yd }", "{ strips: 4, fabric: 1/2 yd }");

/// What GOOD states for its throw, and an amount of which nothing is left to square up: a question.
const ASKED: (&str, &str) = ("{ strips: 9, fabric: 3/4 yd }", "{ strips: 9, fabric: 5/8 yd }");

/// A finding in full, from a check.
fn expected(editor: &Editor, text: &str, uri: &str, finding: &Finding) -> Value {
    let severity = match finding.level {
        Level::Error => 1,
        Level::Query => 2,
        Level::Note => 3,
    };
    let about: Vec<String> = finding.size.iter().cloned().chain(finding.subject.names()).collect();
    let about = if about.is_empty() { String::new() } else { format!(" ({})", about.join(", ")) };
    let mut expected = json!({
        "range": editor.range(text, finding.at.at.start, finding.at.at.end),
        "severity": severity,
        "code": finding.rule,
        "source": "sparestrip",
        "message": format!("{}{about}", finding.message),
    });
    let related: Vec<Value> = finding
        .related
        .iter()
        .map(|label| {
            let range = editor.range(text, label.at.start, label.at.end);
            json!({ "location": { "uri": uri, "range": range }, "message": label.text })
        })
        .collect();
    if !related.is_empty() {
        expected["relatedInformation"] = json!(related);
    }
    expected
}

#[test]
fn the_findings_of_every_example_are_those_of_a_check() {
    let mut found_at_all = 0;
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        let settings = settings_for(path.parent().unwrap());
        let outcome = check(&Source::open(&path).unwrap(), &settings);
        let expected: Vec<Value> =
            outcome.findings.iter().map(|finding| expected(&editor, &text, &uri, finding)).collect();
        // What a printed text says otherwise is told at the number as well, with the place in the text before it.
        let texts: Vec<_> =
            outcome.texts.iter().map(|text| text.path().file_name().unwrap().to_string_lossy()).collect();
        let is_in_text = |found: &Value| {
            texts.iter().any(|text| found["message"].as_str().unwrap().starts_with(&format!("{text}:")))
        };
        let (in_texts, own): (Vec<Value>, Vec<Value>) = editor.found(&uri).into_iter().partition(is_in_text);
        assert_eq!(own, expected, "{}", path.display());
        assert_eq!(in_texts.len(), outcome.texts.iter().map(|text| text.findings.len()).sum::<usize>());
        found_at_all += expected.len();
    }
    assert!(found_at_all >= 66, "{found_at_all}");
}

#[test]
fn a_finding_comes_with_what_is_typed_and_goes_with_it() {
    let (mut editor, uri) = editor_with(GOOD);
    assert_eq!(editor.found(&uri), Vec::<Value>::new());
    let six = place(GOOD, "strips: 6") + "strips: ".len();
    let range = editor.range(GOOD, six, six + 1);
    editor.change(&uri, json!([{ "range": range, "text": "4" }]));
    let found = editor.found(&uri);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0]["range"], range);
    assert_eq!((&found[0]["code"], &found[0]["severity"]), (&json!("binding-short"), &json!(1)));
    assert!(found[0]["message"].as_str().unwrap().starts_with("4 strips stated; 6 needed"), "{found:?}");
    editor.change(&uri, json!([{ "range": range, "text": "6" }]));
    assert_eq!(editor.found(&uri), Vec::<Value>::new());
}

#[test]
fn messages_are_about_the_last_text_even_where_several_changes_come_at_once() {
    let (mut editor, uri) = editor_with(GOOD);
    let text = GOOD.replace(FAULTY.0, FAULTY.1);
    let line = |number: u32, from: u32, to: u32| json!({ "start": { "line": number, "character": from }, "end": { "line": number, "character": to } });
    // The second place is in the text that the first change leaves.
    let lines = u32::try_from(GOOD.lines().count()).unwrap();
    let changes = json!([
        { "range": line(0, 0, 0), "text": "# a line before\r\n" },
        { "range": line(lines - 2, 21, 22), "text": "4" },
        { "range": line(0, 0, 15), "text": "" },
    ]);
    editor.change(&uri, changes);
    assert_eq!(editor.text(&uri), format!("\r\n{text}"));
    assert_eq!(rules(&editor.found(&uri)), ["binding-short"]);
}

#[test]
fn an_editor_that_shows_no_related_places_is_not_told_of_them() {
    let folder = tempfile::tempdir().unwrap();
    let uri = uri(&folder.path().join("lanterns.pattern.yaml"));
    let mut editor = Editor::of_program(folder.path(), json!({}), Value::Null);
    editor.open(&uri, &GOOD.replace(FAULTY.0, FAULTY.1));
    let found = editor.found(&uri);
    assert_eq!(rules(&found), ["binding-short"]);
    assert!(found[0].get("relatedInformation").is_none());
}

#[test]
fn other_files_get_nothing() {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let broken = "pattern: [";
    for name in ["notes.yaml", "sign-offs.yaml", "a.pattern.txt", ".hidden.pattern.yaml", "pattern.yaml"] {
        let uri = format!("file:///nowhere/{name}");
        editor.open(&uri, broken);
        editor.replace(&uri, "pattern: {");
        editor.hear();
        assert!(!editor.findings.contains_key(&uri), "{name}");
        let hover = editor.ask_at("hover", &uri, broken, 2);
        assert_eq!(hover, Ok(Value::Null), "{name}");
    }
    for name in ["a.pattern.yaml", "A.PATTERN.YML", "caf%C3%A9%20b.pattern.yaml"] {
        let uri = format!("file:///nowhere/{name}");
        editor.open(&uri, broken);
        assert!(rules(&editor.found(&uri)).contains(&"not-yaml".to_string()), "{name}");
    }
}

#[test]
fn a_file_that_is_closed_has_no_findings_left() {
    let (mut editor, uri) = editor_with("pattern: [");
    assert!(!editor.found(&uri).is_empty());
    editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
    editor.hear();
    assert_eq!(editor.findings[&uri]["diagnostics"], json!([]));
}

#[test]
fn queries_are_errors_where_that_is_wanted() {
    for (options, severity) in [(Value::Null, 2), (json!({ "strict": true }), 1)] {
        let mut editor = Editor::inside(Units::Utf16, options);
        let uri = "file:///nowhere/lanterns.pattern.yaml";
        editor.open(uri, &GOOD.replace(ASKED.0, ASKED.1));
        let found = editor.found(uri);
        assert_eq!((rules(&found), &found[0]["severity"]), (vec!["no-squaring-room".into()], &json!(severity)));
    }
}

#[test]
fn options_may_come_later_and_under_the_name_of_the_program() {
    let (mut editor, uri) = editor_with(&GOOD.replace(ASKED.0, ASKED.1));
    assert_eq!(editor.found(&uri)[0]["severity"], 2);
    for (settings, severity) in [(json!({ "sparestrip": { "strict": true } }), 1), (json!({ "strict": false }), 2)] {
        editor.findings.clear();
        editor.tell("workspace/didChangeConfiguration", json!({ "settings": settings }));
        assert_eq!(editor.found(&uri)[0]["severity"], severity);
    }
}

#[test]
fn house_rules_that_are_open_are_checked_too() {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let uri = "file:///nowhere/house-rules.yaml";
    let text = "levels: { hollow-edge: quary }\nvalues: { usable_width: wide }\n";
    editor.open(uri, text);
    let mut found = rules(&editor.found(uri));
    found.sort();
    assert_eq!(found, ["unknown-word", "unreadable-quantity"]);
    editor.replace(uri, "levels: { hollow-edge: query }\nvalues: { usable_width: 42 }\n");
    assert_eq!(editor.found(uri), Vec::<Value>::new());
}

#[test]
fn a_file_that_is_too_large_is_said_to_be() {
    let (mut editor, uri) = editor_with(GOOD);
    editor.replace(&uri, &"# many words\n".repeat(400_000));
    let found = editor.found(&uri);
    assert_eq!((found.len(), &found[0]["range"]["start"]["line"]), (1, &json!(0)), "{found:?}");
    editor.replace(&uri, GOOD);
    assert_eq!(editor.found(&uri), Vec::<Value>::new());
}

#[test]
fn nothing_is_written_to_disk() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD.replace(FAULTY.0, FAULTY.1));
    let before = contents(folder.path());
    let mut editor = Editor::of_program(folder.path(), able(Units::Utf16), json!({ "signed": true, "hints": true }));
    let (uri, text) = (uri(&file), text_of(&file));
    editor.open(&uri, &text);
    assert_eq!(rules(&editor.found(&uri)), ["not-signed", "binding-short"]);
    let whole = editor.range(&text, 0, text.len());
    let asked = json!({ "textDocument": { "uri": uri }, "range": whole, "context": { "diagnostics": [] } });
    for action in editor.ask("textDocument/codeAction", asked).unwrap().as_array().unwrap() {
        editor.ask("codeAction/resolve", action.clone()).unwrap();
    }
    editor.replace(&uri, "pattern: Another\n");
    editor.found(&uri);
    assert_eq!(editor.end(), Some(0));
    assert_eq!(contents(folder.path()), before);
}

/// The files of a folder with what is in them.
fn contents(folder: &Path) -> Vec<(std::ffi::OsString, Vec<u8>)> {
    let entries = std::fs::read_dir(folder).unwrap().map(Result::unwrap);
    let mut contents: Vec<_> = entries.map(|entry| (entry.file_name(), std::fs::read(entry.path()).unwrap())).collect();
    contents.sort();
    contents
}
