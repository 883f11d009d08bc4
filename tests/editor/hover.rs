//! What is said of a word, a number or a name.

use serde_json::{Value, json};
use sparestrip::report::sections;

use super::support::lsp::{Editor, Units, able, byte, uri};
use super::support::{GOOD, examples, folder_with, write};
use super::{about, editor_at, editor_with, example, place};

/// The hover at a byte, without the marks of Markdown.
fn hover(editor: &mut Editor, (uri, text): (&str, &str), at: usize) -> String {
    let hover = about(editor, "hover", (uri, text), at);
    if hover.is_null() {
        return String::new();
    }
    let [start, end] = ["start", "end"].map(|end| byte(text, &hover["range"][end], editor.units));
    assert!(start <= at && at <= end, "{hover}");
    assert_eq!(hover["contents"]["kind"], "markdown");
    plain(hover["contents"]["value"].as_str().unwrap())
}

fn plain(markdown: &str) -> String {
    let (mut plain, mut escaped) = (String::new(), false);
    for c in markdown.replace("**", "").chars() {
        if c == '\\' && !escaped {
            escaped = true;
        } else {
            plain.push(c);
            escaped = false;
        }
    }
    plain
}

/// The words before a colon in a text, outside comments, with their places.
fn keys(text: &str) -> Vec<(usize, &str)> {
    let mut keys = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let code = line.split(" #").next().filter(|code| !code.trim_start().starts_with('#')).unwrap_or_default();
        for (colon, _) in code.match_indices(':') {
            let from = code[..colon].rfind(|c: char| !c.is_ascii_lowercase() && c != '_').map_or(0, |at| at + 1);
            let starts = code[..from].trim_end().is_empty() || code[..from].trim_end().ends_with(['{', ',', '-', '[']);
            if starts
                && from < colon
                && (code[colon + 1..].starts_with([' ', '\n', '\r']) || code[colon + 1..].is_empty())
            {
                keys.push((start + from, &code[from..colon]));
            }
        }
        start += line.len();
    }
    keys
}

#[test]
fn each_word_of_every_example_is_explained_by_the_table_of_words() {
    let says = |word: &str| -> Vec<&str> {
        sections().iter().filter_map(|section| section.row(word)).map(|row| row.says).collect()
    };
    let (mut explained, mut words) = (0, std::collections::BTreeSet::new());
    for path in examples() {
        let (mut editor, uri, text) = editor_at(&path);
        let mut seen = std::collections::BTreeSet::new();
        for (at, word) in keys(&text) {
            // Once in each kind of place: by the word and how far in it stands.
            let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
            if says(word).is_empty() || !seen.insert((word, at - line)) {
                continue;
            }
            let hover = hover(&mut editor, (&uri, &text), at);
            // What a writer calls a size or a unit may be a word of the format elsewhere.
            let names = ["size", "fabric", "unit", "block"].map(|kind| format!("{kind} {word}: "));
            let is_name = names.iter().any(|name| hover.starts_with(name));
            let is_part = hover.starts_with("cut: for each part of it");
            let plain = hover.replace('`', "");
            let is_explained =
                says(word).iter().any(|says| plain.contains(&format!("{word}: {}", says.replace('`', ""))));
            assert!(is_explained || is_name || is_part, "{word} at {at} of {}: {hover}", path.display());
            explained += usize::from(is_explained);
            if is_explained {
                words.insert(word.to_string());
            }
        }
    }
    assert!(explained > 400 && words.len() > 60, "{explained} {words:?}");
}

#[test]
fn one_word_in_two_sections_is_explained_by_its_own() {
    let (mut editor, uri, text) = editor_at(&example("cormorant-stair"));
    let first = |part: &str| text.find(part).unwrap_or_else(|| panic!("{part}"));
    let of_fabric = hover(&mut editor, (&uri, &text), first("    requires:\n      wall: 7/8 yd") + 4);
    assert!(of_fabric.contains("for each size how much to buy"), "{of_fabric}");
    let of_size = hover(&mut editor, (&uri, &text), first("finished: 50 x 50"));
    assert!(of_size.contains("the finished quilt, width x length"), "{of_size}");
    let of_unit = hover(&mut editor, (&uri, &text), first("finished: 3  "));
    assert!(of_unit.contains("its finished width x height; one length stands for a square"), "{of_unit}");
}

#[test]
fn a_number_comes_with_what_is_needed_and_how_that_is_worked_out() {
    let (mut editor, uri) = editor_with(GOOD);
    let nine = place(GOOD, "strips: 9") + "strips: ".len();
    let right = hover(&mut editor, (&uri, GOOD), nine);
    assert!(right.contains("9 stated; 8 needed: OK") && right.contains("binding strips (throw"), "{right}");
    assert!(right.contains("perimeter 2 x (54 in + 72 in) = 252 in"), "{right}");
    assert!(right.contains("how many strips"), "{right}");
    let short = GOOD.replace("strips: 6", "strips: 4");
    editor.replace(&uri, &short);
    let wrong = hover(&mut editor, (&uri, &short), place(&short, "strips: 4") + "strips: ".len());
    assert!(wrong.starts_with("error: binding-short: 4 strips stated; 6 needed"), "{wrong}");
    assert!(wrong.contains("4 stated; 6 needed: short"), "{wrong}");
}

#[test]
fn what_is_left_out_is_said_with_the_value_in_force() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let uri = uri(&file);
    let text = GOOD.replace("  usable_width: 40\n", "");
    let mut by_the_book = Editor::of_program(folder.path(), able(Units::Utf16), Value::Null);
    by_the_book.open(&uri, &text);
    let said = hover(&mut by_the_book, (&uri, &text), place(&text, "assumes:"));
    assert!(said.contains("Left out here: usable_width: 40 in (usable_width)"), "{said}");
    write(&folder.path().join("house-rules.yaml"), "values: { usable_width: 42 }\n");
    by_the_book.replace(&uri, &text);
    by_the_book.found(&uri);
    let said = hover(&mut by_the_book, (&uri, &text), place(&text, "assumes:"));
    assert!(said.contains("Left out here: usable_width: 42 in (usable_width, by the house rules)"), "{said}");
    let whole = hover(&mut by_the_book, (&uri, &text), place(&text, "sold_by"));
    assert!(whole.contains("the smallest step in which a shop cuts fabric"), "{whole}");
}

#[test]
fn a_name_says_what_it_names_and_how_often_it_is_used() {
    let (mut editor, uri, text) = editor_at(&example("cormorant-stair"));
    let said = hover(&mut editor, (&uri, &text), place(&text, "first: H") + "first: ".len());
    assert!(said.starts_with("piece H of ink: used in 1 other place"), "{said}");
    let geese = text.find("[geese turned, lantern").unwrap() + 1;
    let said = hover(&mut editor, (&uri, &text), geese);
    assert!(said.starts_with("unit geese: used in 4 other places"), "{said}");
}

#[test]
fn the_name_of_a_size_for_a_crib_comes_with_the_caution() {
    let (mut editor, uri) = editor_with(GOOD);
    let said = hover(&mut editor, (&uri, GOOD), place(GOOD, "crib:  { finished"));
    assert!(said.contains("caution: For an infant, a quilt of crib (cot) size"), "{said}");
    let said = hover(&mut editor, (&uri, GOOD), place(GOOD, "queen: { finished"));
    assert!(!said.contains("caution"), "{said}");
}

#[test]
fn rules_and_values_of_house_rules_are_explained() {
    let mut editor = Editor::inside(Units::Utf16, Value::Null);
    let (uri, text) =
        ("file:///nowhere/house-rules.yaml", "levels: { hollow-edge: query }\nvalues: { usable_width: 42 }\n");
    editor.open(uri, text);
    let rule = hover(&mut editor, (uri, text), place(text, "hollow-edge"));
    assert!(rule.starts_with("hollow-edge: ") && rule.contains("Without house rules: "), "{rule}");
    let value = hover(&mut editor, (uri, text), place(text, "usable_width"));
    assert!(value.contains("Without house rules: 40 in. Source: "), "{value}");
}

#[test]
fn an_editor_that_draws_no_markdown_gets_plain_text() {
    let (folder, file) = folder_with("lanterns.pattern.yaml", GOOD);
    let mut editor = Editor::of_program(folder.path(), json!({}), Value::Null);
    let uri = uri(&file);
    editor.open(&uri, GOOD);
    let said = editor.ask_at("hover", &uri, GOOD, place(GOOD, "strip_width")).unwrap();
    assert_eq!(said["contents"]["kind"], "plaintext");
    let words = said["contents"]["value"].as_str().unwrap();
    assert!(words.starts_with("strip_width: ") && !words.contains(['*', '`', '\\']), "{words}");
}

#[test]
fn there_is_nothing_to_say_of_a_comment() {
    let (mut editor, uri, text) = editor_at(&example("cormorant-stair"));
    assert_eq!(about(&mut editor, "hover", (&uri, &text), 10), Value::Null);
}
