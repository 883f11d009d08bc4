//! A fix in SARIF is the correction of JSON, and it mends the finding.

use serde_json::Value;
use sparestrip::rule_book::book;

use super::seen::{about, check, in_sarif};
use super::support::{folder_with, write};

/// The offset of a line and column, counted here by the standard's words: lines end at the sequences that the log
/// names, columns are characters.
fn offset(text: &str, line: u64, column: u64) -> usize {
    let mut starts = vec![0];
    for (at, c) in text.char_indices() {
        if c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n')) {
            starts.push(at + c.len_utf8());
        }
    }
    let start = starts[usize::try_from(line).unwrap() - 1];
    let letters: Vec<usize> = text[start..].char_indices().map(|(at, _)| at).collect();
    let column = usize::try_from(column).unwrap() - 1;
    start + letters.get(column).copied().unwrap_or(text.len() - start)
}

/// The text with a fix made, as a viewer makes it: by lines and columns.
fn fixed(text: &str, fix: &Value) -> String {
    let replacement = &fix["artifactChanges"][0]["replacements"][0];
    let region = &replacement["deletedRegion"];
    let number = |name: &str| region[name].as_u64().unwrap();
    let start = offset(text, number("startLine"), number("startColumn"));
    let end = offset(text, number("endLine"), number("endColumn"));
    let inserted = replacement["insertedContent"]["text"].as_str().unwrap();
    format!("{}{inserted}{}", &text[..start], &text[end..])
}

/// The text with a correction of JSON made, by bytes.
fn corrected(text: &str, correction: &Value) -> String {
    let number = |name: &str| usize::try_from(correction["at"][name].as_u64().unwrap()).unwrap();
    let (start, end) = (number("byte"), number("byte") + number("bytes"));
    format!("{}{}{}", &text[..start], correction["replacement"].as_str().unwrap(), &text[end..])
}

fn corrections(json: &Value) -> Vec<&Value> {
    let findings = json["findings"].as_array().unwrap().iter();
    findings.map(|finding| &finding["correction"]).filter(|correction| !correction.is_null()).collect()
}

/// Makes each fix of a manuscript by itself; returns how many there were.
fn try_all(text: &str) -> usize {
    let (folder, file) = folder_with("x.pattern.yaml", text);
    let reports = check(folder.path(), &[]);
    let before = in_sarif(&reports.sarif);
    let results = reports.sarif["runs"][0]["results"].as_array().unwrap();
    let fixes: Vec<(&Value, &Value)> =
        results.iter().filter_map(|result| Some((result, result.get("fixes")?))).collect();
    let corrections = corrections(&reports.json);
    assert_eq!(fixes.len(), corrections.len());
    for ((result, fixes), correction) in fixes.iter().zip(corrections) {
        assert_eq!(fixes.as_array().unwrap().len(), 1);
        assert_eq!(
            fixes[0]["artifactChanges"][0]["artifactLocation"],
            result["locations"][0]["physicalLocation"]["artifactLocation"]
        );
        let mended = fixed(text, &fixes[0]);
        assert_eq!(mended, corrected(text, correction), "{result:#}");
        write(&file, &mended);
        let after = in_sarif(&check(folder.path(), &[]).sarif);
        let same = |seen: &&super::seen::Seen| {
            seen.rule == result["ruleId"].as_str().unwrap()
                && seen.size == about(&result["properties"]["size"], &result["properties"]["subject"])
        };
        let count = |all: &[super::seen::Seen]| all.iter().filter(same).count();
        assert_eq!(count(&after) + 1, count(&before), "{result:#}\n{mended}");
    }
    fixes.len()
}

#[test]
fn each_fix_of_the_rule_book_mends_what_it_is_for() {
    let made: usize = book().iter().map(|page| try_all(&page.fails.text())).sum();
    assert!(made > 25, "{made}");
}

#[test]
fn fixes_fit_where_lines_end_in_other_ways_and_letters_are_wide() {
    for end in ["\n", "\r\n", "\r"] {
        let page = book().iter().find(|page| page.name == "spare-strip").unwrap();
        let text = page.fails.text().replace("table", "t\u{1f9f5}\u{e9}").replace('\n', end);
        assert_eq!(try_all(&text), 1, "{end:?}");
    }
}
