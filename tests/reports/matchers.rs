//! The formats for lines and matchers, read as their readers' papers say, against JSON.

use serde_json::Value;

use super::seen::{Reports, about, sanitize};

/// What these formats tell of a finding.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Told {
    file: String,
    line: u64,
    /// Where the format has columns.
    column: Option<u64>,
    /// error, query or note.
    level: String,
    rule: String,
    /// All words but the rule.
    words: String,
}

/// What JSON tells of everything that these formats tell: the findings that nobody accepted, and the numbers that
/// nothing checks. `words` puts together what it is about, the message and the help.
fn expected(json: &Value, columns: bool, words: impl Fn(Option<String>, &str, &str) -> String) -> Vec<Told> {
    let text = |value: &Value| sanitize(value.as_str().unwrap_or_default());
    let told = |value: &Value, level: String, rule: String, words: String| Told {
        file: text(&value["file"]),
        line: value["at"]["line"].as_u64().unwrap(),
        column: value["at"]["column"].as_u64().filter(|_| columns),
        level,
        rule,
        words,
    };
    let findings = json["findings"].as_array().unwrap().iter().map(|finding| {
        let about = about(&finding["size"], &finding["subject"]);
        let words = words(about, &text(&finding["message"]), &text(&finding["help"]));
        told(finding, text(&finding["level"]), text(&finding["rule"]), words)
    });
    let numbers = json["unaccounted"].as_array().into_iter().flatten().map(|number| {
        let message = format!("not checked: {}", text(&number["number"]));
        let words = words(number["size"].as_str().map(sanitize), &message, &text(&number["why"]));
        told(number, "error".into(), "number-not-checked".into(), words)
    });
    let mut all: Vec<Told> = findings.chain(numbers).collect();
    all.sort();
    all
}

/// `(throw): 6 strips stated`, with the working or without it.
fn titled(about: Option<String>, message: &str) -> String {
    about.map_or_else(|| format!(": {message}"), |about| format!(" ({about}): {message}"))
}

fn in_full(message: &str, help: &str) -> String {
    if help.is_empty() { message.to_string() } else { format!("{message} {help}") }
}

/// Fails where one of the formats tells other findings than JSON does.
pub(super) fn agree(reports: &Reports) {
    let json = &reports.json;
    let problems = json["problems"].as_array().map_or(0, Vec::len);
    assert_eq!(in_lines(&reports.lines), expected(json, true, |about, message, _| titled(about, message)));
    let full = |about, message: &str, help: &str| titled(about, &in_full(message, help));
    let mut commands = in_github(&reports.github);
    let unread = commands.iter().filter(|told| told.rule == "not-read").count();
    commands.retain(|told| told.rule != "not-read");
    assert_eq!((commands, unread), (expected(json, true, full), problems));
    let mut violations = in_gitlab(&reports.gitlab);
    let unread = violations.iter().filter(|told| told.rule == "not-read").count();
    violations.retain(|told| told.rule != "not-read");
    assert_eq!((violations, unread), (expected(json, false, full), problems));
    let mut errors = in_checkstyle(&reports.checkstyle);
    let unread = errors.iter().filter(|told| told.rule == "not-read").count();
    errors.retain(|told| told.rule != "not-read");
    let plain = |about: Option<String>, message: &str, help: &str| {
        let about = about.map(|about| format!("{about}: ")).unwrap_or_default();
        format!("{about}{}", in_full(message, help))
    };
    assert_eq!((errors, unread), (fit_for_xml(expected(json, true, plain)), problems));
}

fn sorted(mut told: Vec<Told>) -> Vec<Told> {
    told.sort();
    told
}

/// `file:line:column: level: rule (size): message`, and nothing else.
fn in_lines(lines: &str) -> Vec<Told> {
    sorted(lines.lines().map(|line| in_line(line).unwrap_or_else(|| panic!("no finding: {line:?}"))).collect())
}

fn in_line(line: &str) -> Option<Told> {
    let levels = [("error", "error"), ("warning", "query"), ("note", "note")];
    // What a file or a size is named may itself look like the end of a place: the first such is the place.
    let found = levels.into_iter().filter_map(|(word, level)| {
        let (place, rest) = line.split_once(&format!(": {word}: "))?;
        Some((place, level, rest))
    });
    let (place, level, rest) = found.min_by_key(|(place, ..)| place.len())?;
    let mut parts = place.rsplitn(3, ':');
    let (column, line) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    let file = parts.next()?.to_string();
    let end = rest.find(|c: char| !(c.is_ascii_lowercase() || c == '-'))?;
    let (rule, words) = rest.split_at(end);
    Some(Told { file, line, column: Some(column), level: level.into(), rule: rule.into(), words: words.into() })
}

/// The word, the properties and the text of a command.
type Command = (String, Vec<(String, String)>, String);

/// As the runner of GitHub reads a line (`actions/runner`, `ActionCommand.TryParseV2`): two colons, a word, properties
/// divided by commas, two colons, the text; `%25`, `%0D`, `%0A`, and in properties `%3A` and `%2C`, stand for signs.
fn command(line: &str) -> Option<Command> {
    let (head, data) = line.trim_start().strip_prefix("::")?.split_once("::")?;
    let (word, properties) = head.split_once(' ')?;
    let undone = |text: &str, property: bool| {
        let text = text.replace("%0D", "\r").replace("%0A", "\n");
        let text = if property { text.replace("%3A", ":").replace("%2C", ",") } else { text };
        text.replace("%25", "%")
    };
    let pairs = properties.split(',').map(|pair| {
        let (name, value) = pair.split_once('=').unwrap_or_else(|| panic!("no property: {line:?}"));
        (name.to_string(), undone(value, true))
    });
    Some((word.to_string(), pairs.collect(), undone(data, false)))
}

fn in_github(text: &str) -> Vec<Told> {
    let told = |line: &str| {
        let (word, properties, data) = command(line).unwrap_or_else(|| panic!("no command: {line:?}"));
        let known = ["file", "line", "endLine", "col", "endColumn", "title"];
        assert!(properties.iter().all(|(name, _)| known.contains(&name.as_str())), "{line}");
        let property = |name: &str| properties.iter().find(|(known, _)| known == name).map(|(_, value)| value.clone());
        let number = |name: &str| property(name).map(|value| value.parse::<u64>().unwrap());
        let level = match word.as_str() {
            "error" => "error",
            "warning" => "query",
            "notice" => "note",
            other => panic!("a command {other}"),
        };
        let title = property("title").unwrap();
        let (rule, about) = title.split_once(" (").map_or((title.as_str(), ""), |(rule, about)| (rule, about));
        let about = if about.is_empty() { String::new() } else { format!(" ({about}") };
        Told {
            file: property("file").unwrap(),
            line: number("line").unwrap_or(1),
            column: number("col"),
            level: level.to_string(),
            rule: rule.to_string(),
            words: format!("{about}: {data}"),
        }
    };
    sorted(text.lines().map(told).collect())
}

/// By GitLab's documentation ("Code Quality report format"): an array, each with a description, a name, a fingerprint
/// of its own, one of five severities, a path and a line.
fn in_gitlab(report: &Value) -> Vec<Told> {
    let violations = report.as_array().expect("one array");
    let mut fingerprints: Vec<&str> =
        violations.iter().map(|violation| violation["fingerprint"].as_str().unwrap()).collect();
    fingerprints.sort_unstable();
    fingerprints.dedup();
    assert_eq!(fingerprints.len(), violations.len(), "a fingerprint is given twice");
    let told = |violation: &Value| {
        let word = |value: &Value| value.as_str().expect("a required field").to_string();
        let (rule, description) = (word(&violation["check_name"]), word(&violation["description"]));
        let file = word(&violation["location"]["path"]);
        assert!(!file.starts_with("./"), "{file}");
        let level = match word(&violation["severity"]).as_str() {
            "major" => "error",
            "minor" => "query",
            "info" => "note",
            other => panic!("a severity {other}"),
        };
        let words = description.strip_prefix(&rule).unwrap_or_else(|| panic!("{description}")).to_string();
        let line = violation["location"]["lines"]["begin"].as_u64().expect("a line");
        Told { file, line, column: None, level: level.into(), rule, words }
    };
    sorted(violations.iter().map(told).collect())
}

/// Files with their errors, as a reader of XML has them that shares nothing with the writer.
fn in_checkstyle(xml: &str) -> Vec<Told> {
    let document = roxmltree::Document::parse(xml).unwrap_or_else(|error| panic!("{error} in\n{xml}"));
    let root = document.root_element();
    assert!(root.has_tag_name("checkstyle") && root.attribute("version").is_some());
    let mut told = Vec::new();
    for file in root.children().filter(roxmltree::Node::is_element) {
        assert!(file.has_tag_name("file"), "{file:?}");
        for error in file.children().filter(roxmltree::Node::is_element) {
            assert!(error.has_tag_name("error"), "{error:?}");
            let attribute = |name: &str| error.attribute(name).unwrap_or_else(|| panic!("no {name}: {error:?}"));
            told.push(Told {
                file: file.attribute("name").unwrap().to_string(),
                line: attribute("line").parse().unwrap(),
                column: error.attribute("column").map(|column| column.parse().unwrap()),
                level: match attribute("severity") {
                    "error" => "error".to_string(),
                    "warning" => "query".to_string(),
                    "info" => "note".to_string(),
                    other => panic!("a severity {other}"),
                },
                rule: attribute("source").strip_prefix("sparestrip.").unwrap().to_string(),
                words: attribute("message").to_string(),
            });
        }
    }
    sorted(told)
}

/// XML has no sign for two marks (XML 1.0, section 2.2).
fn fit_for_xml(mut told: Vec<Told>) -> Vec<Told> {
    for each in &mut told {
        each.words = each.words.replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}");
    }
    sorted(told)
}

#[test]
fn a_command_is_read_as_it_was_meant() {
    let read = command("::error file=a%2Cb%3Ac,line=3::100%25 of%0Ait::x");
    let pairs = vec![("file".to_string(), "a,b:c".to_string()), ("line".to_string(), "3".to_string())];
    assert_eq!(read, Some(("error".to_string(), pairs, "100% of\nit::x".to_string())));
    assert_eq!(command("error: it"), None);
}
