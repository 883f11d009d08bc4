//! Going to where a name is given, to its uses, and giving it another.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use serde_yaml::Value as Yaml;
use sparestrip::{Settings, Source, check};

use super::support::examples;
use super::support::lsp::{Editor, byte};
use super::{about, editor_at, editor_with, place, references};

/// The names that a manuscript gives, with the kind of each, as YAML says.
fn given(text: &str) -> Vec<(&'static str, String)> {
    // In a file with a slip in it a name may be hidden.
    let Ok(yaml) = serde_yaml::from_str::<Yaml>(text) else { return Vec::new() };
    let mut names = Vec::new();
    for (section, kind) in [("sizes", "size"), ("fabrics", "fabric"), ("units", "unit"), ("blocks", "block")] {
        let entries = yaml.get(section).and_then(Yaml::as_mapping).into_iter().flatten();
        names.extend(entries.map(|(name, _)| (kind, in_text(name))));
    }
    let fabrics = yaml.get("fabrics").and_then(Yaml::as_mapping).into_iter().flatten();
    for entry in fabrics.flat_map(|(_, fabric)| items(fabric, "cut")) {
        let within = items(&entry, "subcut");
        let pieces = std::iter::once(&entry).chain(&within).filter_map(|entry| entry.get("piece"));
        names.extend(pieces.map(|name| ("piece", in_text(name))));
    }
    names.sort();
    names.dedup();
    names
}

fn items(table: &Yaml, word: &str) -> Vec<Yaml> {
    table.get(word).and_then(Yaml::as_sequence).cloned().unwrap_or_default()
}

fn in_text(value: &Yaml) -> String {
    match value {
        Yaml::String(text) => text.clone(),
        other => serde_yaml::to_string(other).expect("a value").trim().to_string(),
    }
}

/// Where a name is given in the text: after its section, before a colon, or after `piece:`.
fn given_at(text: &str, kind: &str, name: &str) -> usize {
    if kind == "piece" {
        let after = |end: &str| text.find(&format!("piece: {name}{end}")).map(|at| at + "piece: ".len());
        return ["\n", ",", " "].into_iter().find_map(after).unwrap_or_else(|| panic!("no piece {name}"));
    }
    let section = text.find(&format!("\n{kind}s:")).unwrap_or_else(|| panic!("no {kind}s"));
    section + text[section..].find(&format!("\n  {name}:")).unwrap_or_else(|| panic!("no {kind} {name}")) + 3
}

/// How many findings there are of each rule.
fn found(text: &str) -> BTreeMap<&'static str, usize> {
    let outcome = check(&Source::from_text("a.pattern.yaml", text), &Settings::default());
    let mut counts = BTreeMap::new();
    for finding in outcome.findings {
        *counts.entry(finding.rule).or_default() += 1;
    }
    counts
}

/// The text with a name that is another; why not, where it cannot be given.
fn renamed(editor: &mut Editor, (uri, text): (&str, &str), at: usize, new: &str) -> Result<String, String> {
    let place = editor.position(text, at);
    let params = json!({ "textDocument": { "uri": uri }, "position": place, "newName": new });
    match editor.ask("textDocument/rename", params) {
        Ok(edit) => Ok(editor.edited(uri, text, &edit)),
        Err(error) => {
            assert_eq!(error["code"], -32803, "{error}");
            Err(error["message"].as_str().unwrap().to_string())
        }
    }
}

/// All scalars of a text, keys among them.
fn scalars(value: &Yaml) -> Vec<String> {
    match value {
        Yaml::Mapping(entries) => {
            entries.iter().flat_map(|(key, value)| [scalars(key), scalars(value)].concat()).collect()
        }
        Yaml::Sequence(items) => items.iter().flat_map(scalars).collect(),
        other => vec![in_text(other)],
    }
}

/// How often a name stands in a text as a whole value, or as a part of one that the format makes of it.
fn uses(text: &str, name: &str) -> usize {
    let yaml: Yaml = serde_yaml::from_str(text).expect("YAML");
    let is_use = |scalar: &&String| {
        let turned = scalar.strip_suffix(" turned").unwrap_or(scalar);
        let bare = turned.trim_start_matches(|c: char| c.is_ascii_digit()).trim_start();
        bare == name || scalar.as_str() == name
    };
    scalars(&yaml).iter().filter(is_use).count()
}

#[test]
fn every_name_of_every_example_is_renamed_and_back() {
    let new = "new 1's \u{1f9f5}: {name}";
    let mut renamed_at_all = 0;
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        let before = found(&text);
        for (kind, name) in given(&text) {
            let at = given_at(&text, kind, &name);
            let why = || format!("{kind} {name} of {}", path.display());
            let changed =
                renamed(&mut editor, (&uri, &text), at, new).unwrap_or_else(|error| panic!("{error}: {}", why()));
            assert_eq!(found(&changed), before, "{}", why());
            assert!(uses(&changed, &name) < uses(&text, &name), "{}", why());
            assert_eq!(given(&changed).len(), given(&text).len());
            assert!(given(&changed).contains(&(kind, new.to_string())), "{}", why());
            editor.replace(&uri, &changed);
            let at = given_at(&changed, kind, &format!("\"{new}\""));
            let back = renamed(&mut editor, (&uri, &changed), at, &name);
            let back = back.unwrap_or_else(|error| panic!("{error}: {}", why()));
            let as_yaml = |text: &str| serde_yaml::from_str::<Yaml>(text).expect("YAML");
            assert_eq!(as_yaml(&back), as_yaml(&text), "{}", why());
            editor.replace(&uri, &text);
            renamed_at_all += 1;
        }
    }
    assert!(renamed_at_all > 150, "{renamed_at_all}");
}

#[test]
fn a_plain_name_changes_nothing_but_the_name() {
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        for (kind, name) in given(&text).into_iter().step_by(3) {
            let at = given_at(&text, kind, &name);
            let Ok(changed) = renamed(&mut editor, (&uri, &text), at, "Quite new") else { continue };
            editor.replace(&uri, &changed);
            let at = given_at(&changed, kind, "Quite new");
            let back = renamed(&mut editor, (&uri, &changed), at, &name).expect("the old name");
            // What was in quotation marks without need is so still.
            assert_eq!(back, text, "{kind} {name} of {}", path.display());
            editor.replace(&uri, &text);
        }
    }
}

#[test]
fn each_use_of_a_name_leads_to_where_it_is_given() {
    let mut followed = 0;
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        for (kind, name) in given(&text) {
            let at = given_at(&text, kind, &name);
            let places = references(&mut editor, (&uri, &text), at);
            let why = || format!("{kind} {name} of {}", path.display());
            assert!(!places.is_empty(), "{}", why());
            for place in &places {
                let [start, end] = ["start", "end"].map(|end| byte(&text, &place["range"][end], editor.units));
                assert_eq!(&text[start..end].trim_matches(['"', '\'']), &name.as_str(), "{}", why());
                let given = about(&mut editor, "definition", (&uri, &text), start);
                let starts: Vec<usize> = given
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(|at| byte(&text, &at["range"]["start"], editor.units))
                    .collect();
                assert!(starts.contains(&at) || (kind == "piece" && !starts.is_empty()), "{}", why());
                followed += 1;
            }
        }
    }
    assert!(followed > 900, "{followed}");
}

const SHARED: &str = "\
pattern: Shared Names
measure: inch
sizes:
  lap: { finished: 12 x 24 }
fabrics:
  ink: { requires: { lap: 1 yd }, cut: [{ piece: A, size: 6 1/2 x 6 1/2, pieces: { lap: 4 } }] }
  sky: { requires: { lap: 1 yd }, cut: [{ piece: A, size: 6 1/2 x 3 1/2, pieces: { lap: 8 } }] }
units:
  plain: { make: patch, finished: 6, cut: { patch: ink A } }
  half: { make: patch, finished: 6 x 3, cut: { patch: sky A } }
  half turned: { make: patch, finished: 6, cut: { patch: ink A } }
blocks:
  star: { finished: 12, rows: [[plain, half turned], [half turned, plain]] }
layout:
  lap: { rows: [[1 star], [star]] }
";

#[test]
fn a_fabric_before_the_name_of_a_piece_is_a_name_too() {
    let (mut editor, uri) = editor_with(SHARED);
    let at = place(SHARED, "ink: {");
    let changed = renamed(&mut editor, (&uri, SHARED), at, "midnight").unwrap();
    assert_eq!(changed, SHARED.replace("ink", "midnight"));
    let within = place(SHARED, "sky A") + "sky ".len();
    let changed = renamed(&mut editor, (&uri, SHARED), within, "B").unwrap();
    assert_eq!(changed, SHARED.replace("piece: A", "piece: B").replace("ink A", "ink B").replace("sky A", "sky B"));
    let given = about(&mut editor, "definition", (&uri, SHARED), within);
    let line = SHARED[..place(SHARED, "sky: {")].matches('\n').count();
    assert_eq!((given.as_array().unwrap().len(), &given[0]["range"]["start"]["line"]), (1, &json!(line)));
}

/// A block of another coloring names fabrics on both sides of a colon, and the block that it is like; a border names blocks.
#[test]
fn names_in_other_colorings_and_in_borders_are_names() {
    let text = SHARED
        .replace("ink A", "ink P")
        .replace("piece: A, size: 6 1/2 x 6 1/2", "piece: P, size: 6 1/2 x 6 1/2")
        .replace(
            "cut: [{ piece: A, size: 6 1/2 x 3",
            "cut: [{ piece: P, size: 6 1/2 x 6 1/2, pieces: { lap: 4 } }, { piece: A, size: 6 1/2 x 3",
        )
        .replace("layout:", "  dusk: { like: star, with: { ink: sky } }\nlayout:")
        .replace("[star]] }", "[dusk]], borders: [{ width: 12, corners: cornerstones, of: star, corner_of: dusk }] }");
    let (mut editor, uri) = editor_with(&text);
    for (part, old, new) in [("ink: {", "ink", "midnight"), ("sky: {", "sky", "heaven"), ("dusk: {", "dusk", "night")] {
        let changed = renamed(&mut editor, (&uri, &text), place(&text, part), new).unwrap();
        assert_eq!(changed, text.replace(old, new));
    }
    let changed = renamed(&mut editor, (&uri, &text), place(&text, "star: {"), "sun").unwrap();
    // Not what begins alike.
    assert_eq!(changed, text.replace("star", "sun"));
}

#[test]
fn a_name_that_ends_like_a_word_of_the_format_is_that_name() {
    let (mut editor, uri) = editor_with(SHARED);
    let changed = renamed(&mut editor, (&uri, SHARED), place(SHARED, "half turned: {"), "whole").unwrap();
    assert_eq!(changed, SHARED.replace("half turned", "whole"));
    // The unit `half` is not used, for `half turned` is another.
    assert_eq!(references(&mut editor, (&uri, SHARED), place(SHARED, "half: {")).len(), 1);
}

#[test]
fn what_is_no_name_or_is_taken_is_refused_with_the_reason() {
    let (mut editor, uri) = editor_with(SHARED);
    let long = "x".repeat(61);
    let cases = [
        ("lap: { finished", "", "1 to 60 characters"),
        ("lap: { finished", "every_size", "stands for all sizes"),
        ("ink: {", "sky", "there is a fabric sky already"),
        ("plain: {", "half", "there is a unit half already"),
        ("ink: {", &long, "1 to 60 characters"),
        ("ink: {", " night", "no space at its ends"),
        ("ink: {", "a\u{202e}b\n", "1 to 60 characters"),
        ("plain: {", "star", "there is a block star already"),
        ("pattern: Shared", "Other", "no name of a size"),
        ("finished: 12, rows", "13", "no name of a size"),
    ];
    for (part, new, why) in cases {
        let refused = renamed(&mut editor, (&uri, SHARED), place(SHARED, part), new);
        assert!(refused.as_ref().is_err_and(|words| words.contains(why)), "{part} to {new}: {refused:?}");
    }
}

#[test]
fn nothing_is_renamed_in_a_text_that_cannot_be_read_whole() {
    let broken = SHARED.replace("blocks:\n", "blocks:\n\tx: 5\n");
    let (mut editor, uri) = editor_with(&broken);
    let refused = renamed(&mut editor, (&uri, &broken), place(&broken, "ink: {"), "night");
    assert_eq!(refused, Err("part of the file cannot be read: put that right first".to_string()));
}

#[test]
fn the_place_of_a_name_is_shown_before_it_is_renamed() {
    let (mut editor, uri) = editor_with(SHARED);
    let at = place(SHARED, "[1 star]") + 3;
    let prepared = about(&mut editor, "prepareRename", (&uri, SHARED), at + 2);
    assert_eq!(prepared, json!({ "range": editor.range(SHARED, at, at + 4), "placeholder": "star" }));
    let nothing = about(&mut editor, "prepareRename", (&uri, SHARED), place(SHARED, "measure"));
    assert_eq!(nothing, Value::Null);
}
