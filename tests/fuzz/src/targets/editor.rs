//! The editor service: whatever is typed and asked, its text is the editor's, it finds what a check finds, and every
//! place that it names is one.

use serde_json::{Value, json};
use sparestrip::check::{Corrections, check_with};
use sparestrip::finding::Level;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

use super::editor_client::{Editor, URI, Units};
use super::{Fault, Kind, Target, hold};
use crate::dictionary::{NUMBERS, ODD};
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "editor",
    about: "a text is opened, typed in and asked about; text and findings stay in step with a check",
    kind: Kind::Manuscript,
    share: 8,
    run,
};

/// What the service may be asked at any moment.
const REQUESTS: [&str; 11] = [
    "hover",
    "completion",
    "definition",
    "references",
    "prepareRename",
    "rename",
    "documentSymbol",
    "foldingRange",
    "inlayHint",
    "codeAction",
    "codeAction",
];

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let Ok(text) = std::str::from_utf8(input) else { return Ok(()) };
    let mut rng = Rng::of(input);
    let mut text = text.to_string();
    let units = if rng.one_in(2) { Units::Utf8 } else { Units::Utf16 };
    let mut editor = Editor::open(units, &text)?;
    for _ in 0..rng.between(1, 4) {
        let changes: Vec<Value> = (0..rng.between(1, 3)).map(|_| change(&mut rng, &editor, &mut text)).collect();
        editor.change(&changes)?;
        hold(editor.text() == Some(text.as_str()), "the text is not the editor's", || format!("{changes:?}"))?;
        for _ in 0..2 {
            ask(&mut rng, &mut editor, &text, seen)?;
        }
    }
    in_step(&editor, &text)
}

/// A place between two characters, and not within a line end.
fn place(rng: &mut Rng, text: &str) -> usize {
    let mut at = rng.below(text.len() + 1);
    while !is_place(text, at) {
        at -= 1;
    }
    at
}

fn is_place(text: &str, at: usize) -> bool {
    text.is_char_boundary(at) && !(text[..at].ends_with('\r') && text[at..].starts_with('\n'))
}

/// A change, which is made, as the protocol has it.
fn change(rng: &mut Rng, editor: &Editor, text: &mut String) -> Value {
    let start = place(rng, text);
    let mut end = if rng.one_in(2) { start } else { (start + rng.below(12)).min(text.len()) };
    while !is_place(text, end) {
        end -= 1;
    }
    let end = end.max(start);
    let typed = match rng.below(4) {
        0 => NUMBERS,
        1 => ODD,
        2 => &["\n", "\r\n", "\r", " ", "  ", "\n  ", ": ", "- "],
        _ => &["", "1", "fabric", "lap", "strips: 4", "\u{1f9f5}", "\n  queen: { strips: 12 }\n"],
    };
    let typed = *rng.pick(typed);
    let change = json!({ "range": editor.range(text, start, end), "text": typed });
    text.replace_range(start..end, typed);
    change
}

/// Asks something; every range in the answer lies in the text.
fn ask(rng: &mut Rng, editor: &mut Editor, text: &str, seen: &mut Seen) -> Result<(), Fault> {
    let at = place(rng, text);
    let whole = editor.range(text, 0, text.len());
    let mut params = json!({ "textDocument": { "uri": URI }, "position": editor.position(text, at) });
    let request = *rng.pick(&REQUESTS);
    if matches!(request, "references" | "codeAction") {
        params["context"] = json!({ "includeDeclaration": true, "diagnostics": [] });
    }
    params["newName"] = json!(format!("new {}", rng.pick(ODD)));
    params["range"] = if rng.one_in(2) { whole } else { editor.range(text, at, at) };
    let answer = editor.ask(&format!("textDocument/{request}"), &params)?;
    match answer {
        Ok(answer) => {
            seen.note(&[request, if answer.is_null() || answer == json!([]) { "nothing" } else { "something" }]);
            ranges(editor, text, &answer, request)?;
            let file = answer.as_array().and_then(|all| all.iter().find(|action| action.get("data").is_some()));
            if let Some(action) = file
                && request == "codeAction"
                && let Ok(action) = editor.ask("codeAction/resolve", action)?
            {
                ranges(editor, text, &action, "codeAction/resolve")?;
            }
            Ok(())
        }
        // A name that cannot be given, and nothing else.
        Err(error) => hold(error["code"] == -32803, "a request is refused", || format!("{request}: {error}")),
    }
}

/// Whether all ranges in an answer lie in the text.
fn ranges(editor: &Editor, text: &str, answer: &Value, request: &str) -> Result<(), Fault> {
    match answer {
        Value::Object(fields) => {
            if let (Some(start), Some(end)) = (fields.get("start"), fields.get("end")) {
                let order = |at: &Value| (at["line"].as_u64(), at["character"].as_u64());
                let lies = [start, end].iter().all(|at| editor.is_position(text, at)) && order(start) <= order(end);
                hold(lies, "a range that is none of the text", || format!("{answer} for {request}"))?;
            }
            fields.values().try_for_each(|field| ranges(editor, text, field, request))
        }
        Value::Array(items) => items.iter().try_for_each(|item| ranges(editor, text, item, request)),
        _ => Ok(()),
    }
}

/// What the editor was told is what a check finds.
fn in_step(editor: &Editor, text: &str) -> Result<(), Fault> {
    let source = Source::from_bytes("/nowhere/fuzzed.pattern.yaml", text.as_bytes().to_vec());
    let outcome = check_with(&source, &Settings::default(), Corrections::LeftOut);
    let severity = |level: Level| match level {
        Level::Error => 1,
        Level::Query => 2,
        Level::Note => 3,
    };
    let expected: Vec<Value> = outcome
        .findings
        .iter()
        .map(|finding| {
            json!([finding.rule, severity(finding.level), editor.range(text, finding.at.at.start, finding.at.at.end)])
        })
        .collect();
    let heard = |found: &Value| json!([found["code"], found["severity"], found["range"]]);
    let found: Vec<Value> = editor.found()?.iter().map(heard).collect();
    hold(found == expected, "the editor was told otherwise than a check finds", || {
        format!("{found:?} for {expected:?}")
    })
}
