//! Corrections: one of a finding, and all that `sparestrip fix` makes.

use std::path::Path;

use serde_json::{Value, json};
use sparestrip::run::settings_for;
use sparestrip::{Source, check};

use super::support::lsp::{Editor, Units, able, uri};
use super::support::{GOOD, examples, folder_with, run_with_input, write};
use super::{editor_at, editor_with, place, rules};

const ALL: &str = "Make every correction that sparestrip fix would make";

/// Two numbers too low.
fn faulty() -> String {
    let text = GOOD.replace("strips: 6, fabric: 1/2 yd", "strips: 4, fabric: 1/2 yd");
    text.replace("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 5/8 yd")
}

/// The actions in a part of a text.
fn actions(editor: &mut Editor, (uri, text): (&str, &str), at: (usize, usize), only: Option<&str>) -> Vec<Value> {
    let mut context = json!({ "diagnostics": [] });
    if let Some(kind) = only {
        context["only"] = json!([kind]);
    }
    let range = editor.range(text, at.0, at.1);
    let params = json!({ "textDocument": { "uri": uri }, "range": range, "context": context });
    editor.ask("textDocument/codeAction", params).unwrap().as_array().unwrap().clone()
}

fn titles(actions: &[Value]) -> Vec<&str> {
    actions.iter().map(|action| action["title"].as_str().unwrap()).collect()
}

/// What `sparestrip fix` makes of a text that stands in a folder.
fn fixed(folder: &Path, text: &str) -> String {
    run_with_input(folder, &["fix", "-"], text.as_bytes()).out
}

#[test]
fn one_correction_or_all_may_be_chosen_at_a_finding() {
    let text = faulty();
    let (mut editor, uri) = editor_with(&text);
    let four = place(&text, "strips: 4") + "strips: ".len();
    let here = actions(&mut editor, (&uri, &text), (four, four), None);
    assert_eq!(titles(&here), ["Change 4 to 6 (crib)", ALL]);
    assert_eq!((&here[0]["kind"], &here[0]["isPreferred"]), (&json!("quickfix"), &json!(true)));
    assert_eq!(rules(here[0]["diagnostics"].as_array().unwrap()), ["binding-short"]);
    let one = editor.edited(&uri, &text, &here[0]["edit"]);
    assert_eq!(one, text.replace("strips: 4", "strips: 6"));
    assert!(here[1].get("edit").is_none(), "it is worked out once it is chosen");
    let all = editor.ask("codeAction/resolve", here[1].clone()).unwrap();
    assert_eq!(editor.edited(&uri, &text, &all["edit"]), GOOD);
    editor.replace(&uri, GOOD);
    assert_eq!(editor.found(&uri), Vec::<Value>::new());
    assert_eq!(actions(&mut editor, (&uri, GOOD), (0, GOOD.len()), None), Vec::<Value>::new());
}

#[test]
fn what_the_editor_shows_on_the_line_can_be_corrected_from_anywhere_in_it() {
    let text = faulty();
    let (mut editor, uri) = editor_with(&text);
    let found = editor.found(&uri);
    let line = editor.range(&text, place(&text, "crib:  { strips: 4"), place(&text, "crib:  { strips: 4"));
    let params = json!({ "textDocument": { "uri": uri }, "range": line, "context": { "diagnostics": [found[0]] } });
    let offered = editor.ask("textDocument/codeAction", params).unwrap();
    assert_eq!(titles(offered.as_array().unwrap()), ["Change 4 to 6 (crib)", ALL]);
}

#[test]
fn elsewhere_there_is_nothing_to_choose() {
    let text = faulty();
    let (mut editor, uri) = editor_with(&text);
    assert_eq!(actions(&mut editor, (&uri, &text), (0, 5), None), Vec::<Value>::new());
}

#[test]
fn corrections_may_be_asked_for_by_kind() {
    let text = faulty();
    let (mut editor, uri) = editor_with(&text);
    for only in ["source.fixAll", "source", "source.fixAll.sparestrip"] {
        let all = actions(&mut editor, (&uri, &text), (0, 0), Some(only));
        assert_eq!((titles(&all), &all[0]["kind"]), (vec![ALL], &json!("source.fixAll")), "{only}");
    }
    let four = place(&text, "strips: 4") + "strips: ".len();
    assert_eq!(titles(&actions(&mut editor, (&uri, &text), (four, four), Some("quickfix"))).len(), 2);
    assert_eq!(actions(&mut editor, (&uri, &text), (0, text.len()), Some("refactor")), Vec::<Value>::new());
}

#[test]
fn an_editor_that_cannot_ask_again_gets_the_edits_at_once() {
    let text = faulty();
    let (folder, file) = folder_with("lanterns.pattern.yaml", &text);
    let mut editor = Editor::of_program(folder.path(), json!({}), Value::Null);
    let uri = uri(&file);
    editor.open(&uri, &text);
    let all = actions(&mut editor, (&uri, &text), (0, text.len()), None);
    assert_eq!(titles(&all), ["Change 4 to 6 (crib)", "Change 5/8 yd to 7/8 yd (queen)", ALL]);
    assert_eq!(editor.edited(&uri, &text, &all[2]["edit"]), GOOD);
}

#[test]
fn every_correction_of_every_example_clears_its_finding_and_brings_none() {
    let mut made = 0;
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        let settings = settings_for(path.parent().unwrap());
        let counted = |text: &str| check(&Source::from_text(&path, text), &settings).findings.len();
        let offered = actions(&mut editor, (&uri, &text), (0, text.len()), Some("quickfix"));
        for action in offered.iter().filter(|action| action.get("edit").is_some()) {
            let changed = editor.edited(&uri, &text, &action["edit"]);
            assert!(counted(&changed) < counted(&text), "{} in {}", action["title"], path.display());
            made += 1;
        }
    }
    assert!(made > 20, "{made}");
}

#[test]
fn all_corrections_are_those_of_the_command() {
    let mut changed = 0;
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        let expected = fixed(path.parent().unwrap(), &text);
        let all = actions(&mut editor, (&uri, &text), (0, 0), Some("source.fixAll"));
        let made = match all.first() {
            Some(action) => {
                let resolved = editor.ask("codeAction/resolve", action.clone()).unwrap();
                match resolved.get("edit") {
                    Some(edit) => editor.edited(&uri, &text, edit),
                    None => text.clone(),
                }
            }
            None => text.clone(),
        };
        assert_eq!(made, expected, "{}", path.display());
        changed += usize::from(made != text);
    }
    assert!(changed >= 3, "{changed}");
}

#[test]
fn line_ends_and_characters_beyond_the_first_plane_stay() {
    let text = faulty().replace("crib:", "\u{1f9f5} crib:").replace('\n', "\r\n");
    for units in [Units::Utf8, Units::Utf16] {
        let mut editor = Editor::inside(units, Value::Null);
        let uri = "file:///nowhere/lanterns.pattern.yaml";
        editor.open(uri, &text);
        let all = actions(&mut editor, (uri, &text), (0, 0), Some("source.fixAll"));
        let resolved = editor.ask("codeAction/resolve", all[0].clone()).unwrap();
        let expected = GOOD.replace("crib:", "\u{1f9f5} crib:").replace('\n', "\r\n");
        assert_eq!(editor.edited(uri, &text, &resolved["edit"]), expected);
    }
}

#[test]
fn under_house_rules_with_errors_not_everything_is_corrected_at_once() {
    let text = faulty();
    let (folder, file) = folder_with("lanterns.pattern.yaml", &text);
    write(&folder.path().join("house-rules.yaml"), "values: { usable_width: wide }\n");
    let mut editor = Editor::of_program(folder.path(), able(Units::Utf16), Value::Null);
    let uri = uri(&file);
    editor.open(&uri, &text);
    let all = actions(&mut editor, (&uri, &text), (0, 0), Some("source.fixAll"));
    let resolved = editor.ask("codeAction/resolve", all[0].clone()).unwrap();
    assert!(resolved.get("edit").is_none(), "the command does nothing either: {resolved}");
    assert_eq!(fixed(folder.path(), &text), text);
}
