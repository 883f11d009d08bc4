//! What a reader of each format sees of the findings.

use std::path::Path;

use serde_json::Value;

use super::support::{is_wild, program};

/// A finding, as far as every format tells it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Seen {
    pub(super) file: String,
    pub(super) line: u64,
    pub(super) column: u64,
    pub(super) rule: String,
    pub(super) level: String,
    pub(super) size: Option<String>,
    pub(super) accepted: bool,
}

/// The reports of one check.
#[derive(Debug)]
pub(super) struct Reports {
    pub(super) text: String,
    pub(super) json: Value,
    pub(super) sarif: Value,
    pub(super) junit: String,
    pub(super) lines: String,
    pub(super) github: String,
    pub(super) gitlab: Value,
    pub(super) checkstyle: String,
    pub(super) status: Option<i32>,
    pub(super) err: String,
}

/// Checks once, with every report in a file of its own.
pub(super) fn check(folder: &Path, words: &[&str]) -> Reports {
    let out = tempfile::tempdir().unwrap();
    let file = |format: &str| out.path().join(format);
    let mut command = program(folder);
    command.args(["check", "--all"]).args(words);
    for format in ["text", "json", "sarif", "junit", "lines", "github", "gitlab", "checkstyle"] {
        command.arg(format!("--report={format}={}", file(format).display()));
    }
    let ran = super::support::finish(&mut command, b"");
    let text = |format: &str| String::from_utf8(std::fs::read(file(format)).unwrap()).unwrap();
    let value = |format: &str| serde_json::from_str(&text(format)).unwrap();
    Reports {
        text: text("text"),
        json: value("json"),
        sarif: value("sarif"),
        junit: text("junit"),
        lines: text("lines"),
        github: text("github"),
        gitlab: value("gitlab"),
        checkstyle: text("checkstyle"),
        status: ran.status,
        err: ran.err,
    }
}

/// A path or a name as the formats for people show it.
pub(super) fn sanitize(text: &str) -> String {
    let stand_in = |c: char| match c.len_utf8() {
        1 => '?',
        2 => '¿',
        _ => '\u{fffd}',
    };
    let sanitize_char = |c| {
        if c == '\n' || c == '\t' {
            ' '
        } else if is_wild(c) {
            stand_in(c)
        } else {
            c
        }
    };
    text.chars().map(sanitize_char).collect()
}

/// In order, and with the two marks that XML cannot hold as every format can show them.
fn sorted(mut seen: Vec<Seen>) -> Vec<Seen> {
    for size in seen.iter_mut().filter_map(|seen| seen.size.as_mut()) {
        *size = size.replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}");
    }
    seen.sort();
    seen
}

/// From the heads in the text. What was accepted is only counted there.
pub(super) fn in_text(text: &str) -> Vec<Seen> {
    let heads = text.lines().filter_map(|line| {
        let (level, rest) = line.split_once(": ").filter(|(level, _)| ["error", "query", "note"].contains(level))?;
        let (what, place) = rest.rsplit_once(" at ")?;
        let (rule, size) = ruled(what);
        let (file, line, column) = placed(place)?;
        Some(Seen { file, line, column, rule, level: level.to_string(), size, accepted: false })
    });
    sorted(heads.collect())
}

/// `spare-strip (queen)`
fn ruled(what: &str) -> (String, Option<String>) {
    match what.split_once(" (").and_then(|(rule, size)| Some((rule, size.strip_suffix(')')?))) {
        Some((rule, size)) => (rule.to_string(), Some(size.to_string())),
        None => (what.to_string(), None),
    }
}

/// `x.pattern.yaml:40:21`
fn placed(place: &str) -> Option<(String, u64, u64)> {
    let mut parts = place.rsplitn(3, ':');
    let (column, line) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    Some((parts.next()?.to_string(), line, column))
}

/// The size, then everything else that it is about, in the order of the heads: `queen, fabric ink, piece A`.
pub(super) fn about(size: &Value, subject: &Value) -> Option<String> {
    let part = |word: &&str| subject[*word].as_str().map(|name| format!("{word} {name}").replace("number ", ""));
    let words = ["number", "fabric", "piece", "unit", "part", "block", "row", "border"];
    // Of a printed text its own words, in quotation marks.
    let quote = subject["quote"].as_str().map(|quote| format!("\"{quote}\""));
    let names: Vec<String> =
        size.as_str().map(str::to_string).into_iter().chain(words.iter().filter_map(part)).chain(quote).collect();
    (!names.is_empty()).then(|| sanitize(&names.join(", ")))
}

pub(super) fn in_json(json: &Value) -> Vec<Seen> {
    let seen = |(finding, accepted): (&Value, bool)| Seen {
        file: sanitize(finding["file"].as_str().unwrap()),
        line: finding["at"]["line"].as_u64().unwrap(),
        column: finding["at"]["column"].as_u64().unwrap(),
        rule: finding["rule"].as_str().unwrap().to_string(),
        level: finding["level"].as_str().unwrap().to_string(),
        size: about(&finding["size"], &finding["subject"]),
        accepted,
    };
    let findings = json["findings"].as_array().unwrap().iter().map(|finding| (finding, false));
    let accepted = json["accepted"].as_array().unwrap().iter().map(|finding| (finding, true));
    sorted(findings.chain(accepted).map(seen).collect())
}

/// What a reader of SARIF shows as the path: the reference without the percent signs.
pub(super) fn path_of(uri: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = uri.strip_prefix("file://").unwrap_or(uri).as_bytes();
    while let Some((first, after)) = rest.split_first() {
        if *first == b'%' {
            let digits = std::str::from_utf8(&after[..2]).unwrap();
            bytes.push(u8::from_str_radix(digits, 16).unwrap());
            rest = &after[2..];
        } else {
            bytes.push(*first);
            rest = after;
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// The findings; numbers that nothing checks are results too, of a rule that no finding has.
pub(super) fn in_sarif(sarif: &Value) -> Vec<Seen> {
    let results = sarif["runs"][0]["results"].as_array().unwrap().iter();
    let findings = results.filter(|result| result["ruleId"] != "number-not-checked").map(|result| {
        let place = &result["locations"][0]["physicalLocation"];
        let level = match result["level"].as_str().unwrap() {
            "error" => "error",
            "warning" => "query",
            "note" => "note",
            other => panic!("a level {other}"),
        };
        Seen {
            file: sanitize(&path_of(place["artifactLocation"]["uri"].as_str().unwrap())),
            line: place["region"]["startLine"].as_u64().unwrap(),
            column: place["region"]["startColumn"].as_u64().unwrap(),
            rule: result["ruleId"].as_str().unwrap().to_string(),
            level: level.to_string(),
            size: about(&result["properties"]["size"], &result["properties"]["subject"]),
            accepted: result["suppressions"].is_array(),
        }
    });
    sorted(findings.collect())
}

/// The suites as a reader that others wrote understands them.
pub(super) fn suites(junit: &str) -> junit_parser::TestSuites {
    junit_parser::from_reader(std::io::Cursor::new(junit)).unwrap()
}

/// From the heads in the failures, and in what the cases say beside.
pub(super) fn in_junit(junit: &str) -> Vec<Seen> {
    let suites = suites(junit);
    let mut seen = Vec::new();
    for case in suites.suites.iter().flat_map(|suite| &suite.cases) {
        if case.status.is_failure() {
            let failure = case.status.failure_as_ref();
            // This reader puts a line end where CDATA was broken off, which it must be within these three signs.
            let text = failure.text.replace("]]\n>", "]]>");
            let found = text.lines().next().and_then(head);
            if failure.failure_type == "number-not-checked" {
                let place = failure.text.split_once(": not checked: ").and_then(|(place, _)| placed(place));
                assert!(place.is_some(), "{failure:?}");
            } else {
                let found = found.unwrap_or_else(|| panic!("no head in {failure:?}"));
                assert_eq!(found.rule, failure.failure_type);
                seen.push(found);
            }
        }
        let said = case.system_out.as_deref().unwrap_or_default();
        // All but the heads is set in.
        seen.extend(
            said.lines()
                .filter(|line| !line.is_empty() && !line.starts_with(' '))
                .map(|line| head(line).unwrap_or_else(|| panic!("no head: {line:?}"))),
        );
    }
    sorted(seen)
}

/// `x.pattern.yaml:40:21: error[spare-strip] (queen), accepted: a kit`
fn head(line: &str) -> Option<Seen> {
    let levels = ["error", "query", "note"];
    let found = levels.into_iter().filter_map(|level| {
        let (place, rest) = line.split_once(&format!(": {level}["))?;
        Some((place, level, rest))
    });
    // What a finding is about may itself look like a head.
    let (place, level, rest) = found.min_by_key(|(place, ..)| place.len())?;
    let (rule, rest) = rest.split_once(']')?;
    let (what, accepted) = rest.split_once(", accepted: ").map_or((rest, false), |(what, _)| (what, true));
    let (_, size) = ruled(what);
    let (file, line, column) = placed(place)?;
    Some(Seen { file, line, column, rule: rule.to_string(), level: level.to_string(), size, accepted })
}
