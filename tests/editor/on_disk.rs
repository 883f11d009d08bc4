//! House rules and sign-offs: as they are on disk, and read again when they are written.

use std::path::Path;

use serde_json::{Value, json};

use super::rules;
use super::support::lsp::{Editor, Units, able, uri};
use super::support::{GOOD, folder_with, run, write};

/// One strip too many for the book, one too few for a house that prints three spare ones.
const THREE_SPARE: &str = "values: { spare_strips: 3 }\nlevels: { spare-strip: error }\n";

fn spoken_to(folder: &Path, watches: bool, options: Value) -> Editor {
    let mut able = able(Units::Utf16);
    if watches {
        able["workspace"]["didChangeWatchedFiles"] = json!({ "dynamicRegistration": true });
    }
    Editor::of_program(folder, able, options)
}

/// Waits until other findings are told than before.
fn found_next(editor: &mut Editor, uri: &str) -> Vec<String> {
    editor.findings.clear();
    rules(&editor.found(uri))
}

#[test]
fn house_rules_above_the_file_are_in_force() {
    let (folder, file) = folder_with("drafts/lanterns.pattern.yaml", GOOD);
    write(&folder.path().join("house-rules.yaml"), "levels: { join-near-corner: off }\nvalues: { spare_strips: 3 }\n");
    let mut editor = spoken_to(folder.path(), false, Value::Null);
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    assert!(rules(&editor.found(&uri)).contains(&"spare-strip".to_string()));
}

#[test]
fn an_editor_that_watches_files_is_asked_to() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let mut editor = spoken_to(folder.path(), true, Value::Null);
    let asked = editor.next();
    assert_eq!(asked["method"], "client/registerCapability");
    let registered = &asked["params"]["registrations"][0];
    assert_eq!(registered["method"], "workspace/didChangeWatchedFiles");
    let patterns = &registered["registerOptions"]["watchers"];
    let names = [
        "house-rules.yaml",
        "sign-offs.yaml",
        "*.pattern.{yaml,yml}",
        "*.{md,markdown,mdown,mkd,html,htm,xhtml,txt,docx,docm,odt,pdf}",
    ];
    assert_eq!(patterns, &json!(names.map(|name| json!({ "globPattern": format!("**/{name}") }))));
    editor.send(&json!({ "jsonrpc": "2.0", "id": asked["id"], "result": null }));
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    assert_eq!(rules(&editor.found(&uri)), Vec::<String>::new());
    write(&folder.path().join("house-rules.yaml"), THREE_SPARE);
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": [] }));
    assert_eq!(found_next(&mut editor, &uri), ["spare-strip", "spare-strip", "spare-strip"]);
    std::fs::remove_file(folder.path().join("house-rules.yaml")).unwrap();
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": [] }));
    assert_eq!(found_next(&mut editor, &uri), Vec::<String>::new());
    assert_eq!(editor.end(), Some(0));
}

#[test]
fn an_editor_is_asked_for_the_options_of_its_user() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let mut able = able(Units::Utf16);
    able["workspace"]["configuration"] = json!(true);
    let mut editor = Editor::of_program(folder.path(), able, Value::Null);
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    let asked = editor.next();
    assert_eq!(
        (&asked["method"], &asked["params"]["items"][0]["section"]),
        (&json!("workspace/configuration"), &json!("sparestrip"))
    );
    assert_eq!(rules(&editor.found(&uri)), Vec::<String>::new());
    editor.send(&json!({ "jsonrpc": "2.0", "id": asked["id"], "result": [{ "signed": true }] }));
    assert_eq!(found_next(&mut editor, &uri), ["not-signed"]);
}

#[test]
fn house_rules_are_looked_at_where_the_editor_does_not_tell_of_them() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let mut editor = spoken_to(folder.path(), false, Value::Null);
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    assert_eq!(rules(&editor.found(&uri)), Vec::<String>::new());
    write(&folder.path().join("house-rules.yaml"), THREE_SPARE);
    assert_eq!(found_next(&mut editor, &uri).len(), 3);
}

#[test]
fn what_changed_since_it_was_signed_is_told_where_that_is_wanted() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let uri = uri(&file);
    let mut editor = spoken_to(folder.path(), false, json!({ "signed": true }));
    editor.open(&uri, GOOD);
    assert_eq!(rules(&editor.found(&uri)), ["not-signed"]);
    let signed = run(folder.path(), &["sign", "lanterns.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(signed.status, Some(0), "{signed:?}");
    assert_eq!(found_next(&mut editor, &uri), Vec::<String>::new(), "the sign-off is read from disk");
    editor.replace(&uri, &GOOD.replace("edition: 1", "edition: 2"));
    assert_eq!(rules(&editor.found(&uri)), ["changed-since-signed"]);
    let mut other = spoken_to(folder.path(), false, Value::Null);
    other.open(&uri, &GOOD.replace("edition: 1", "edition: 2"));
    assert_eq!(rules(&other.found(&uri)), Vec::<String>::new(), "nobody asked");
}

#[test]
fn sign_offs_that_cannot_be_read_are_told_of_once() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    write(&folder.path().join("sign-offs.yaml"), "- { torn\n");
    let uri = uri(&file);
    let mut editor = spoken_to(folder.path(), false, json!({ "signed": true }));
    editor.open(&uri, GOOD);
    assert_eq!(rules(&editor.found(&uri)), Vec::<String>::new());
    for _ in 0..3 {
        editor.replace(&uri, GOOD);
        editor.found(&uri);
    }
    let told: Vec<&Value> = editor.heard.iter().filter(|said| said["method"] == "window/showMessage").collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0]["params"]["message"].as_str().unwrap().contains("sign-offs.yaml"), "{told:?}");
}
