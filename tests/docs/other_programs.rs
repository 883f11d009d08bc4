//! What the papers say to those who call the program: its words, its options, and the shape of its JSON.

use serde_json::{Map, Value};

use super::{chapter, fenced, paper, printed};

/// The commands that the program lists.
fn commands() -> Vec<String> {
    let help = printed(&["--help"]);
    let list = help.split("Commands:").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a list of commands");
    let commands = list.lines().filter_map(|line| line.split_whitespace().next()).filter(|command| *command != "help");
    commands.map(str::to_string).collect()
}

#[test]
fn every_command_is_named() {
    let (readme, chapter) = (paper("README.md"), chapter("commands"));
    let commands = commands();
    assert!(commands.len() > 3, "{commands:?}");
    for command in commands {
        assert!(readme.contains(&format!("`sparestrip {command}`")), "README.md does not name {command}");
        assert!(chapter.contains(&format!("`sparestrip {command}`")), "the chapter does not name {command}");
    }
}

#[test]
fn every_option_is_named() {
    let chapter = chapter("commands");
    for command in commands() {
        let help = printed(&[&command, "--help"]);
        let options = help.split_whitespace().filter(|word| word.starts_with("--") && *word != "--help");
        for option in options.map(|option| option.split('[').next().unwrap_or_default()) {
            assert!(chapter.contains(option), "the chapter of the commands does not name {option}");
        }
    }
}

fn keys(object: &Map<String, Value>) -> Vec<&String> {
    object.keys().collect()
}

/// The papers leave out what is long: there `...` and `{ }` stand for it.
fn agrees(shown: &Value, real: &Value, place: &str) {
    match (shown, real) {
        (Value::String(text), Value::String(_)) if text == "..." => {}
        (Value::Object(shown), Value::Object(_)) if shown.is_empty() => {}
        (Value::Object(shown), Value::Object(real)) => {
            assert_eq!(keys(shown), keys(real), "{place}");
            shown.iter().for_each(|(key, value)| agrees(value, &real[key], &format!("{place} {key}")));
        }
        (Value::Array(shown), Value::Array(real)) => {
            let pairs = shown.iter().zip(real);
            pairs.for_each(|(shown, real)| agrees(shown, real, place));
        }
        _ => assert_eq!(shown, real, "{place}"),
    }
}

#[test]
fn json_has_the_shape_that_the_manual_shows() {
    let chapter = chapter("check-json");
    let shown: Value = serde_json::from_str(fenced(&chapter, "json")[0]).expect("JSON in the chapter");
    let mut real: Value =
        serde_json::from_str(&printed(&["check", "--format", "json", "example-patterns"])).expect("JSON");
    let rule = shown["findings"][0]["rule"].clone();
    real["findings"].as_array_mut().expect("a list").retain(|finding| finding["rule"] == rule);
    let text = shown["texts"][0]["file"].clone();
    real["texts"].as_array_mut().expect("a list").retain(|own| own["file"] == text);
    agrees(&shown, &real, "");
}

#[test]
fn the_json_of_the_worksheet_has_the_shape_that_the_manual_shows() {
    let chapter = chapter("worksheet-json");
    let shown: Value = serde_json::from_str(fenced(&chapter, "json")[0]).expect("JSON in the chapter");
    let path = "example-patterns/gull-mat.pattern.yaml";
    let mut real: Value =
        serde_json::from_str(&printed(&["worksheet", "--format", "json", path])).expect("the worksheet as JSON");
    let (size, number) = (shown["lines"][0]["size"].clone(), shown["lines"][0]["number"].clone());
    real["lines"].as_array_mut().expect("a list").retain(|line| line["size"] == size && line["number"] == number);
    agrees(&shown, &real, "");
}
