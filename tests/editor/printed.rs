//! Printed texts that are open beside their manuscript, or without it.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use tempfile::TempDir;

use super::rules;
use super::support::lsp::{Editor, Units, able, uri};
use super::support::write;

const MANUSCRIPT: &str = "\
pattern: Tern Rock
measure: inch
sizes:
  lap: { finished: 60 x 76 }
binding:
  strip_width: 2 1/2
  requires:
    lap: { strips: 9, fabric: 3/4 yd }
texts: [print/rock.md]
";

const RIGHT: &str = "\
# Tern Rock – “Möwe” 𝄞

The quilt finishes 60\" x 76\".

“Möwe” 𝄞: cut 9 binding strips, 2 1/2\" x WOF, from 3/4 yd of fabric.
";

fn folder() -> (TempDir, PathBuf, PathBuf) {
    let folder = TempDir::new().unwrap();
    let (manuscript, text) = (folder.path().join("rock.pattern.yaml"), folder.path().join("print/rock.md"));
    write(&manuscript, MANUSCRIPT);
    std::fs::create_dir(folder.path().join("print")).unwrap();
    write(&text, RIGHT);
    (folder, manuscript, text)
}

fn wrong() -> String {
    RIGHT.replace("cut 9", "cut 8")
}

/// The diagnostics of a file as the editor has them now.
fn shown(editor: &mut Editor, uri: &str) -> Vec<Value> {
    editor.hear();
    editor.findings.get(uri).map(|found| found["diagnostics"].as_array().unwrap().clone()).unwrap_or_default()
}

fn line_and_character(at: &Value) -> (u64, u64) {
    (at["line"].as_u64().unwrap(), at["character"].as_u64().unwrap())
}

#[test]
fn an_open_text_is_checked_with_every_key_against_the_manuscript_on_disk() {
    let (_folder, manuscript, text) = folder();
    for units in [Units::Utf16, Units::Utf8] {
        let mut editor = Editor::inside(units, Value::Null);
        let of_text = uri(&text);
        editor.open(&of_text, RIGHT);
        assert_eq!(editor.found(&of_text), Vec::<Value>::new());
        // One key: the 9 becomes an 8, which is not saved.
        let at = RIGHT.find("cut 9").unwrap() + 4;
        let range = editor.range(RIGHT, at, at + 1);
        editor.change(&of_text, json!([{ "range": range, "text": "8" }]));
        let found = editor.found(&of_text);
        assert_eq!(rules(&found), ["text-differs"]);
        assert_eq!(found[0]["range"], range, "in the units of the editor");
        assert!(found[0]["message"].as_str().unwrap().starts_with("The text says 8; the manuscript states 9."));
        let related = &found[0]["relatedInformation"][0];
        assert_eq!(related["location"]["uri"], uri(&manuscript));
        assert_eq!(line_and_character(&related["location"]["range"]["start"]), (7, 19));
        editor.replace(&of_text, RIGHT);
        assert_eq!(editor.found(&of_text), Vec::<Value>::new());
    }
}

#[test]
fn the_manuscript_points_at_the_text_and_each_follows_the_other() {
    let (_folder, manuscript, text) = folder();
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let (of_manuscript, of_text) = (uri(&manuscript), uri(&text));
    editor.open(&of_manuscript, MANUSCRIPT);
    assert_eq!(editor.found(&of_manuscript), Vec::<Value>::new());
    editor.open(&of_text, &wrong());
    assert_eq!(rules(&editor.found(&of_text)), ["text-differs"]);
    let found = shown(&mut editor, &of_manuscript);
    assert_eq!(rules(&found), ["text-differs"]);
    assert_eq!(line_and_character(&found[0]["range"]["start"]), (7, 19));
    assert!(found[0]["message"].as_str().unwrap().starts_with("rock.md:5: The text says 8;"), "{found:#?}");
    assert_eq!(found[0]["relatedInformation"][0]["location"]["uri"], of_text.as_str());
    assert_eq!(found[0]["relatedInformation"][0]["location"]["range"]["start"]["line"], 4);
    // The manuscript is changed, and not saved: the text is right now, the manuscript is not.
    editor.replace(&of_manuscript, &MANUSCRIPT.replace("strips: 9", "strips: 8"));
    assert_eq!(rules(&editor.found(&of_manuscript)), ["spare-strip"]);
    assert_eq!(shown(&mut editor, &of_text), Vec::<Value>::new());
    // A closed text counts as it is on disk, where it says 9.
    editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": of_text } }));
    assert_eq!(shown(&mut editor, &of_text), Vec::<Value>::new());
    assert_eq!(rules(&shown(&mut editor, &of_manuscript)), ["spare-strip", "text-differs"]);
}

#[test]
fn a_text_that_no_manuscript_names_is_left_alone() {
    let (folder, manuscript, _) = folder();
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let notes = uri(&folder.path().join("print/notes.md"));
    editor.open(&notes, &wrong());
    editor.replace(&notes, RIGHT);
    let hover = editor.ask_at("hover", &notes, RIGHT, 3).unwrap();
    assert_eq!((hover, editor.heard.len()), (Value::Null, 0), "{:?}", editor.heard);
    // Until one that is open does.
    let of_manuscript = uri(&manuscript);
    editor.replace(&notes, &wrong());
    editor.open(&of_manuscript, &MANUSCRIPT.replace("rock.md", "notes.md"));
    editor.hear();
    assert_eq!(rules(&shown(&mut editor, &notes)), ["text-differs"]);
    editor.replace(&of_manuscript, MANUSCRIPT);
    editor.found(&of_manuscript);
    assert_eq!(shown(&mut editor, &notes), Vec::<Value>::new());
}

#[test]
fn what_is_written_on_disk_is_noticed() {
    let (folder, manuscript, text) = folder();
    let mut editor = Editor::of_program(folder.path(), able(Units::Utf16), Value::Null);
    let (of_manuscript, of_text) = (uri(&manuscript), uri(&text));
    editor.open(&of_text, &wrong());
    assert_eq!(rules(&editor.found(&of_text)), ["text-differs"]);
    write(&manuscript, MANUSCRIPT.replace("strips: 9,", "strips: 8, "));
    next(&mut editor, &of_text, &[]);
    write(&manuscript, MANUSCRIPT);
    next(&mut editor, &of_text, &["text-differs"]);
    editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": of_text } }));
    editor.open(&of_manuscript, MANUSCRIPT);
    next(&mut editor, &of_manuscript, &[]);
    write(&text, format!("{}\n", wrong()));
    next(&mut editor, &of_manuscript, &["text-differs"]);
    std::fs::remove_file(&text).unwrap();
    next(&mut editor, &of_manuscript, &["text-not-read"]);
    assert_eq!(editor.end(), Some(0));
}

/// Waits until a file has these findings.
fn next(editor: &mut Editor, uri: &str, expected: &[&str]) {
    while editor.findings.get(uri).is_none_or(|found| rules(found["diagnostics"].as_array().unwrap()) != expected) {
        editor.next();
    }
}

#[test]
fn a_word_file_is_pointed_at_by_its_paragraph() {
    use crate::text::readers::document::{Part, docx};
    let (folder, manuscript, _) = folder();
    let part = Part::Paragraph("Cut 8 binding strips, 2 1/2\" x WOF.".to_string());
    write(&folder.path().join("rock.docx"), docx(&[part]));
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let of_manuscript = uri(&manuscript);
    editor.open(&of_manuscript, &MANUSCRIPT.replace("print/rock.md", "rock.docx"));
    let found = editor.found(&of_manuscript);
    let differs = found.iter().find(|found| found["code"] == "text-differs").unwrap();
    assert!(differs["message"].as_str().unwrap().starts_with("rock.docx, paragraph 1: The text says 8;"));
    let there = &differs["relatedInformation"][0]["location"];
    assert_eq!(there["uri"], uri(&Path::new(folder.path()).join("rock.docx")));
    assert_eq!(line_and_character(&there["range"]["start"]), (0, 0));
}
