//! JSON version 1: its shape is a promise to other programs.

use serde_json::{Map, Value};

use super::support::{GOOD, folder_with, run};
use super::with_an_error;

fn keys(object: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = object.as_object().into_iter().flat_map(Map::keys).map(String::as_str).collect();
    keys.sort_unstable();
    keys
}

const FINDING: [&str; 13] = [
    "at",
    "correction",
    "file",
    "fingerprint",
    "help",
    "level",
    "message",
    "needed",
    "related",
    "rule",
    "size",
    "stated",
    "subject",
];
const PLACE: [&str; 6] = ["byte", "bytes", "column", "end_column", "end_line", "line"];

fn is_a_place(at: &Value) {
    assert_eq!(keys(at), PLACE);
    assert!(at.as_object().unwrap().values().all(Value::is_u64), "{at}");
}

fn is_a_finding(finding: &Value) {
    for word in ["rule", "level", "file", "message", "help"] {
        assert!(finding[word].is_string(), "{word} of {finding}");
    }
    for word in ["size", "stated", "needed"] {
        assert!(finding[word].is_string() || finding[word].is_null(), "{word} of {finding}");
    }
    is_a_place(&finding["at"]);
    for related in finding["related"].as_array().unwrap() {
        assert_eq!(keys(related), ["at", "message"]);
        is_a_place(&related["at"]);
    }
    if !finding["correction"].is_null() {
        assert_eq!(keys(&finding["correction"]), ["at", "replacement"]);
        is_a_place(&finding["correction"]["at"]);
    }
}

#[test]
fn the_shape_is_as_promised() {
    let accepted = "accepted:\n  - { rule: binding-fabric-generous, size: queen, stated: 1 1/2 yd, because: a kit }\n";
    let text = with_an_error().replace("7/8 yd", "1 1/2 yd").replace("edition:", "editoin:") + accepted;
    let (folder, _) = folder_with("x.pattern.yaml", &text);
    let ran = run(folder.path(), &["check", "--format", "json"]);
    let report = ran.json();
    assert_eq!(keys(&report), ["accepted", "cautions", "findings", "summary", "version"]);
    assert_eq!(report["version"], 1);
    let findings = report["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 2, "{report}");
    for finding in findings {
        assert_eq!(keys(finding), FINDING);
        is_a_finding(finding);
    }
    let (word, strips) = (&findings[0], &findings[1]);
    assert_eq!((&word["rule"], &word["size"], &word["stated"]), (&"unknown-word".into(), &Value::Null, &Value::Null));
    assert_eq!(word["correction"]["replacement"], "edition");
    assert_eq!(
        (&strips["rule"], &strips["level"], &strips["size"]),
        (&"spare-strip".into(), &"error".into(), &"queen".into())
    );
    assert_eq!((&strips["stated"], &strips["needed"]), (&"11 strips".into(), &"12 strips".into()));
    let byte = text.find("11").unwrap();
    let line = text[..byte].matches('\n').count() + 1;
    let column = byte - text[..byte].rfind('\n').unwrap();
    let at = &strips["at"];
    assert_eq!(
        [&at["byte"], &at["bytes"], &at["line"], &at["column"]],
        [byte, 2, line, column].map(Value::from).each_ref()
    );
    assert_eq!([&at["end_line"], &at["end_column"]], [line, column + 2].map(Value::from).each_ref());
    let accepted = report["accepted"].as_array().unwrap();
    assert_eq!(accepted.len(), 1);
    is_a_finding(&accepted[0]);
    assert_eq!(accepted[0]["because"], "a kit");
    assert_eq!(keys(&report["summary"]), ["accepted", "errors", "manuscripts", "notes", "queries"]);
    let summary = &report["summary"];
    let counts = ["manuscripts", "errors", "queries", "notes", "accepted"].map(|word| summary[word].as_u64().unwrap());
    assert_eq!(counts, [1, 2, 0, 0, 1]);
}

#[test]
fn nothing_to_mend_is_the_same_shape_with_nothing_in_it() {
    // No quilt of it would fit a crib.
    let (folder, _) = folder_with("x.pattern.yaml", GOOD.replace("36 x 48", "20 x 64").replace("crib", "wall"));
    let report = run(folder.path(), &["check", "--format", "json"]).json();
    let expected = serde_json::json!({
        "version": 1,
        "findings": [],
        "accepted": [],
        "summary": { "manuscripts": 1, "errors": 0, "queries": 0, "notes": 0, "accepted": 0 },
    });
    assert_eq!(report, expected);
}
