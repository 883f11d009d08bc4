//! What SARIF says beyond its schema.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::{Value, json};
use sparestrip::rule_book::book;

use super::FOUR_KINDS;
use super::seen::check;
use super::support::{GOOD, folder_with, write};

fn results(sarif: &Value) -> &Vec<Value> {
    sarif["runs"][0]["results"].as_array().unwrap()
}

/// A message as a viewer shows it: the standard writes a brace as two.
fn shown(message: &Value) -> String {
    message["text"].as_str().unwrap().replace("{{", "{").replace("}}", "}").replace("\\](", "](")
}

/// The finding in JSON that a result in SARIF is.
fn finding_of<'j>(json: &'j Value, result: &Value) -> &'j Value {
    let at = &result["locations"][0]["physicalLocation"]["region"];
    let all = ["findings", "accepted"].into_iter().flat_map(|kind| json[kind].as_array().unwrap());
    let mut found = all.filter(|finding| {
        finding["rule"] == result["ruleId"]
            && finding["at"]["byte"] == at["byteOffset"]
            && finding["size"] == result["properties"]["size"]
    });
    found.next().unwrap_or_else(|| panic!("{result:#}"))
}

fn is_region(region: &Value, at: &Value) {
    let expected = json!({
        "startLine": at["line"], "startColumn": at["column"], "endLine": at["end_line"],
        "endColumn": at["end_column"], "byteOffset": at["byte"], "byteLength": at["bytes"],
    });
    assert_eq!(region, &expected);
}

#[test]
fn the_driver_has_every_rule_of_the_book_in_its_order() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let reports = check(folder.path(), &[]);
    let driver = &reports.sarif["runs"][0]["tool"]["driver"];
    assert_eq!((&driver["name"], &driver["version"]), (&"sparestrip".into(), &env!("CARGO_PKG_VERSION").into()));
    assert!(driver.get("informationUri").is_none(), "there is no page to point at");
    let rules = driver["rules"].as_array().unwrap();
    assert_eq!(rules.len(), book().len());
    for (rule, page) in rules.iter().zip(book()) {
        assert_eq!(rule["id"], page.name);
        assert_eq!(shown(&rule["shortDescription"]), page.headline.trim());
        let level = match page.level.word() {
            "query" => "warning",
            word => word,
        };
        assert_eq!(rule["defaultConfiguration"]["level"], level);
        let (text, markdown) = (shown(&rule["help"]), rule["help"]["markdown"].as_str().unwrap());
        for words in [page.why.trim(), page.working.trim()] {
            assert!(text.contains(words), "{}", page.name);
        }
        for value in page.values {
            assert!(text.contains(&format!("{} = {}", value.name, value.text)), "{}", page.name);
            assert!(markdown.contains(&format!("\n| `{}` | {} |", value.name, value.text)), "{}", page.name);
        }
    }
}

#[test]
fn a_result_says_all_that_json_says() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let reports = check(root, &["example-patterns"]);
    let run = &reports.sarif["runs"][0];
    assert_eq!((&run["columnKind"], &run["defaultEncoding"]), (&"unicodeCodePoints".into(), &"UTF-8".into()));
    let rules = &run["tool"]["driver"]["rules"];
    for result in results(&reports.sarif) {
        let finding = finding_of(&reports.json, result);
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"]);
        let message = shown(&result["message"]);
        let (first, help) = message.split_once("\n\n").unwrap_or((&message, ""));
        assert_eq!((first, help), (finding["message"].as_str().unwrap(), finding["help"].as_str().unwrap()));
        let place = &result["locations"][0]["physicalLocation"];
        is_region(&place["region"], &finding["at"]);
        let artifact = usize::try_from(place["artifactLocation"]["index"].as_u64().unwrap()).unwrap();
        assert_eq!(run["artifacts"][artifact]["location"], place["artifactLocation"]);
        assert_eq!(place["artifactLocation"]["uri"], finding["file"], "a name without strange characters");
        assert_eq!(place["artifactLocation"]["uriBaseId"], "%SRCROOT%");
        let empty = Vec::new();
        let related = result["relatedLocations"].as_array().unwrap_or(&empty);
        assert_eq!(related.len(), finding["related"].as_array().unwrap().len());
        for (location, related) in related.iter().zip(finding["related"].as_array().unwrap()) {
            is_region(&location["physicalLocation"]["region"], &related["at"]);
            assert_eq!(shown(&location["message"]), related["message"].as_str().unwrap());
        }
        for word in ["size", "stated", "needed"] {
            assert_eq!(result["properties"].get(word), finding.get(word).filter(|value| !value.is_null()), "{word}");
        }
    }
    let manuscripts = reports.json["summary"]["manuscripts"].as_u64().unwrap();
    let files = run["artifacts"].as_array().unwrap();
    let uri = |file: &Value| file["location"]["uri"].as_str().unwrap().to_string();
    let named = files.iter().filter(|file| uri(file).ends_with(".pattern.yaml")).count();
    assert_eq!(manuscripts, named as u64, "every one is named, right or not");
    assert!(files.iter().any(|file| uri(file).ends_with("sea-lavender.md")), "and the texts that they name");
    assert_eq!(run["invocations"], json!([{ "executionSuccessful": true }]));
}

#[test]
fn what_is_accepted_is_suppressed_with_the_reason() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let reports = check(folder.path(), &[]);
    let suppressed: Vec<&Value> =
        results(&reports.sarif).iter().filter(|result| result.get("suppressions").is_some()).collect();
    let expected = json!([{ "kind": "inSource", "status": "accepted", "justification": "the kit packs one more" }]);
    assert_eq!(suppressed.len(), 1);
    assert_eq!((&suppressed[0]["ruleId"], &suppressed[0]["suppressions"]), (&"spare-strip".into(), &expected));
}

#[test]
fn what_nothing_checks_is_a_result_where_an_account_is_asked_for() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let of = |words: &[&str]| {
        let sarif = check(folder.path(), words).sarif;
        let numbers = results(&sarif).iter().filter(|result| result["ruleId"] == "number-not-checked");
        numbers.cloned().collect::<Vec<Value>>()
    };
    assert_eq!(of(&[]), Vec::<Value>::new());
    let numbers = of(&["--account"]);
    assert_eq!(numbers.len(), 3);
    for (number, size) in numbers.iter().zip(["crib", "throw", "queen"]) {
        assert_eq!((&number["level"], &number["properties"]["size"]), (&"error".into(), &size.into()));
        assert_eq!(number["ruleIndex"], book().len(), "it stands after the rules of the book");
        let region = &number["locations"][0]["physicalLocation"]["region"];
        assert_eq!(region["startLine"], 15);
        assert!(shown(&number["message"]).starts_with(&format!("not checked: reed requires ({size})")), "{number}");
    }
}

#[test]
fn what_cannot_be_read_is_a_notification() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let sarif = check(folder.path(), &["x.pattern.yaml", "gone away.pattern.yaml"]).sarif;
    let invocation = &sarif["runs"][0]["invocations"][0];
    assert_eq!(invocation["executionSuccessful"], false);
    let told = &invocation["toolExecutionNotifications"][0];
    assert_eq!(told["level"], "error");
    assert!(shown(&told["message"]).starts_with("gone away.pattern.yaml: No such file"), "{told}");
    let location = &told["locations"][0]["physicalLocation"]["artifactLocation"];
    assert_eq!(location["uri"], "gone%20away.pattern.yaml");
}

#[test]
fn a_brace_in_a_message_is_written_as_two() {
    let text = GOOD.replace("edition: 1", "edition: 1\n\"{0} [see](http://x.test)\": 1");
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let reports = check(folder.path(), &[]);
    let message = &results(&reports.sarif)[0]["message"];
    assert!(message["text"].as_str().unwrap().contains(r"{{0}} [see\](http://x.test)"), "{message}");
    let finding = &reports.json["findings"][0];
    assert!(shown(message).starts_with(finding["message"].as_str().unwrap()), "{message} {finding}");
}

fn fingerprints(folder: &Path) -> Vec<(String, String)> {
    let sarif = check(folder, &["--account"]).sarif;
    let of = |result: &Value| {
        let prints = result["partialFingerprints"].as_object().unwrap();
        assert_eq!(prints.keys().collect::<Vec<_>>(), ["ruleAndSize/v1", "ruleSizeAndSubject/v1"]);
        (result["ruleId"].to_string(), prints["ruleSizeAndSubject/v1"].as_str().unwrap().to_string())
    };
    let all: Vec<_> = results(&sarif).iter().map(of).collect();
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len(), "no two in one file are the same: {all:?}");
    all
}

#[test]
fn a_fingerprint_stays_when_lines_move_or_another_finding_is_mended() {
    let text = FOUR_KINDS.replace("tails: 10", "tail: 10").replace("opening: 12", "openning: 12");
    let (folder, file) = folder_with("x.pattern.yaml", &text);
    let before = fingerprints(folder.path());
    assert!(before.len() >= 7, "{before:?}");
    write(&file, format!("# One more line.\n\n{text}"));
    assert_eq!(fingerprints(folder.path()), before);
    write(&file, text.replace("crib:  { strips: 5", "crib:  { strips: 6"));
    let after = fingerprints(folder.path());
    let gone: Vec<_> = before.iter().filter(|print| !after.contains(print)).collect();
    assert_eq!((gone.len(), before.len() - after.len()), (1, 1), "{gone:?}");
    assert!(gone[0].0.contains("spare-strip"));
}

/// Columns are characters and not bytes or UTF-16: a letter of four bytes counts one.
#[test]
fn columns_count_characters() {
    let text =
        GOOD.replace("queen: { strips: 12", "\"q\u{1f9f5}\u{e9}\": { strips: 11").replace("queen", "q\u{1f9f5}\u{e9}");
    let (folder, _) = folder_with("x.pattern.yaml", &text);
    let sarif = check(folder.path(), &[]).sarif;
    let region = &results(&sarif)[0]["locations"][0]["physicalLocation"]["region"];
    let line = text.lines().nth(25).unwrap();
    let before = line.split("11").next().unwrap().chars().count();
    assert_eq!([&region["startLine"], &region["startColumn"], &region["endColumn"]], [26, before + 1, before + 3]);
    assert_eq!(region["byteOffset"], text.find("11").unwrap());
}
