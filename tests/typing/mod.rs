//! Random typing in an open text: the service's text and what it finds are never out of step with a check of the text that
//! the editor has.

use serde_json::{Value, json};
use sparestrip::{Finding, Level, Settings, Source, check};

use crate::support::lsp::{Editor, Units, byte, position};
use crate::support::rng::Rng;
use crate::support::{GOOD, examples};

const URI: &str = "file:///nowhere/lanterns.pattern.yaml";

/// What is typed: numbers, words, marks of YAML, line ends of all kinds, and characters of two, three and four bytes.
const TYPED: &[&str] = &[
    "5",
    "6",
    "12",
    "1/2",
    " ",
    "  ",
    "\n",
    "\r\n",
    "\r",
    "\t",
    "-",
    ": ",
    "{",
    "}",
    "[",
    "]",
    ",",
    "'",
    "\"",
    "#",
    "&a",
    "*a",
    "|",
    "crib",
    "throw",
    "every_size",
    "strips",
    "fabric: 1/2 yd",
    "\u{e9}",
    "\u{bd}",
    "\u{2014}",
    "\u{1f9f5}",
    "\u{1f9f5}\u{1f9f6}",
    "\u{10ffff}",
    "\u{202e}",
    "\u{feff}",
    "\u{0}",
    "\n  queen: { strips: 12 }\n",
    "",
    "",
];

/// The text of the editor, and where something is typed in it.
struct Typist {
    rng: Rng,
    text: String,
}

impl Typist {
    /// A place between two characters, and not within a line end.
    fn place(&mut self) -> usize {
        let places: Vec<usize> = self.text.char_indices().map(|(at, _)| at).chain([self.text.len()]).collect();
        loop {
            let at = self.rng.pick(&places);
            if !(self.text[..at].ends_with('\r') && self.text[at..].starts_with('\n')) {
                return at;
            }
        }
    }

    /// A change, which is made, as the protocol has it.
    fn change(&mut self, units: Units) -> Value {
        let start = self.place();
        let near = start + usize::try_from(self.rng.below(12)).unwrap();
        let end = if self.rng.one_in(2) { start } else { self.place().clamp(start, near.max(start)) };
        // A place within a character or a line end is none.
        let end = (start..=end).rev().find(|end| self.is_place(*end)).unwrap_or(start);
        let typed = self.rng.pick(TYPED);
        let at = |byte: usize| {
            let (line, character) = position(&self.text, byte, units);
            json!({ "line": line, "character": character })
        };
        let change = json!({ "range": { "start": at(start), "end": at(end) }, "text": typed });
        self.text.replace_range(start..end, typed);
        change
    }

    fn is_place(&self, at: usize) -> bool {
        self.text.is_char_boundary(at) && !(self.text[..at].ends_with('\r') && self.text[at..].starts_with('\n'))
    }
}

/// A finding as a check of the text tells it.
fn told(text: &str, finding: &Finding, units: Units) -> Value {
    let at = |byte: usize| {
        let (line, character) = position(text, byte, units);
        json!({ "line": line, "character": character })
    };
    let severity = match finding.level {
        Level::Error => 1,
        Level::Query => 2,
        Level::Note => 3,
    };
    let place = finding.at.at;
    json!([finding.rule, severity, at(place.start), at(place.end)])
}

/// The same as the editor was told it.
fn heard(finding: &Value) -> Value {
    json!([finding["code"], finding["severity"], finding["range"]["start"], finding["range"]["end"]])
}

/// What the service may be asked at any moment. Whatever the text is, it has an answer.
fn ask_anything(editor: &mut Editor, typist: &mut Typist) {
    let at = typist.place();
    let place = json!({ "textDocument": { "uri": URI }, "position": editor.position(&typist.text, at) });
    let with = |name: &str, value: Value| {
        let mut params = place.clone();
        params[name] = value;
        params
    };
    let whole = editor.range(&typist.text, 0, typist.text.len());
    let requests = [
        ("hover", place.clone()),
        ("completion", place.clone()),
        ("definition", place.clone()),
        ("references", with("context", json!({ "includeDeclaration": true }))),
        ("prepareRename", place.clone()),
        ("rename", with("newName", json!("new \u{1f9f5}"))),
        ("documentSymbol", place.clone()),
        ("foldingRange", place.clone()),
        ("inlayHint", with("range", whole.clone())),
    ];
    let (method, params) = requests[usize::try_from(typist.rng.below(9)).unwrap()].clone();
    let answer = editor.ask(&format!("textDocument/{method}"), params);
    let why = || format!("{method} in {:?}", typist.text);
    match answer {
        // A range that is none would fail to be read.
        Ok(answer) => ranges(&answer).iter().for_each(|range| {
            let [start, end] = ["start", "end"].map(|end| byte(&typist.text, &range[end], editor.units));
            assert!(start <= end, "{}", why());
        }),
        // A name that cannot be given, and nothing else.
        Err(error) => assert_eq!(error["code"], -32803, "{error} for {}", why()),
    }
}

/// All ranges in an answer.
fn ranges(answer: &Value) -> Vec<Value> {
    match answer {
        Value::Object(fields) if fields.contains_key("start") && fields.contains_key("end") => vec![answer.clone()],
        Value::Object(fields) => fields.values().flat_map(ranges).collect(),
        Value::Array(items) => items.iter().flat_map(ranges).collect(),
        _ => Vec::new(),
    }
}

/// Types at random: the text and the findings are those of a check after each message.
fn type_at_random(seed: u64, start: &str, units: Units, messages: usize) {
    let mut editor = Editor::inside(units, json!({ "hints": true }));
    let mut typist = Typist { rng: Rng::new(seed), text: start.to_string() };
    editor.open(URI, start);
    for number in 0..messages {
        if typist.rng.one_in(25) {
            typist.text = start.to_string();
            editor.replace(URI, start);
        } else {
            let many = typist.rng.between(1, 3);
            let changes: Vec<Value> = (0..many).map(|_| typist.change(units)).collect();
            editor.change(URI, json!(changes));
        }
        let why = || format!("message {number} of seed {seed} in {units:?}");
        assert_eq!(editor.text(URI), typist.text, "{}", why());
        let source = Source::from_text("/nowhere/lanterns.pattern.yaml", typist.text.as_str());
        let outcome = check(&source, &Settings::default());
        let expected: Vec<Value> = outcome.findings.iter().map(|finding| told(&typist.text, finding, units)).collect();
        let found: Vec<Value> = editor.found(URI).iter().map(heard).collect();
        assert_eq!(found, expected, "{} in {:?}", why(), typist.text);
        if typist.rng.one_in(4) {
            ask_anything(&mut editor, &mut typist);
        }
        editor.heard.clear();
    }
}

/// A manuscript with line ends of another kind, and with characters beyond U+FFFF in its names and comments.
fn strange(text: &str) -> String {
    let named = text.replace("crib", "crib \u{1f9f5}").replace("binding:", "binding: # \u{1f9f6} \u{e9}");
    named.replace('\n', "\r\n")
}

fn starts() -> Vec<String> {
    let faulty = GOOD.replace("strips: 6", "strips: 4").replace("fold: double", "fold: dubble");
    vec![GOOD.to_string(), strange(GOOD), faulty.clone(), strange(&faulty)]
}

#[test]
fn a_few_hundred_messages_keep_text_and_findings_in_step() {
    for (seed, start) in (1..).zip(starts()) {
        for units in [Units::Utf8, Units::Utf16] {
            type_at_random(seed, &start, units, 40);
        }
    }
}

#[test]
#[cfg_attr(not(feature = "long_tests"), ignore = "ten thousand messages: with the feature long_tests")]
fn ten_thousand_messages_keep_text_and_findings_in_step() {
    let examples = examples();
    let examples = examples.iter().map(|path| String::from_utf8(std::fs::read(path).unwrap()).unwrap());
    for (seed, start) in (100..).zip(starts()) {
        for units in [Units::Utf8, Units::Utf16] {
            type_at_random(seed, &start, units, 1100);
        }
    }
    for (seed, start) in (200..).zip(examples) {
        type_at_random(seed, &start, Units::Utf16, 45);
        type_at_random(seed + 1000, &strange(&start), Units::Utf8, 45);
    }
}
