//! Files that come from other systems: line ends, letters of another case in names, and paths with marks of another
//! system in them.

use super::support::{GOOD, folder_with, run, write};
use super::{with_a_query, with_an_error};

/// What is found, without places in bytes, which line ends move.
fn found(folder: &std::path::Path) -> Vec<String> {
    let report = run(folder, &["check", "--signed", "--format", "json"]).json();
    let findings = report["findings"].as_array().unwrap().iter();
    let place =
        |finding: &serde_json::Value| [&finding["at"]["line"], &finding["at"]["column"]].map(ToString::to_string);
    findings.map(|finding| format!("{} {} {:?}", finding["rule"], finding["level"], place(finding))).collect()
}

#[test]
fn house_rules_manuscripts_and_sign_offs_are_read_alike_with_lines_of_windows() {
    let (folder, manuscript) = folder_with("x.pattern.yaml", GOOD);
    let signed = run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(signed.status, Some(0), "{signed:?}");
    let house = "levels:\n  size-not-stated: error\nvalues:\n  spare_strips: 0\n";
    let changed = with_a_query().replace("strips: 12", "strips: 11");
    write(&folder.path().join("house-rules.yaml"), house);
    write(&manuscript, &changed);
    let expected = found(folder.path());
    assert!(expected.iter().any(|found| found.contains("changed-since-signed")), "{expected:?}");
    assert!(expected.iter().any(|found| found.contains("size-not-stated\" \"error")), "{expected:?}");
    for name in ["house-rules.yaml", "x.pattern.yaml", "sign-offs.yaml"] {
        let path = folder.path().join(name);
        let text = String::from_utf8(std::fs::read(&path).unwrap()).unwrap();
        write(&path, text.replace('\n', "\r\n"));
        assert_eq!(found(folder.path()), expected, "{name}");
    }
    // What is added to a record with such lines leaves it whole.
    let signed = run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(signed.status, Some(1), "an error keeps it from being signed: {signed:?}");
    write(&manuscript, GOOD.replace('\n', "\r\n"));
    let signed = run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(signed.status, Some(0), "{signed:?}");
    assert_eq!(found(folder.path()), Vec::<String>::new());
}

#[test]
fn names_of_manuscripts_end_in_letters_of_any_case() {
    let (folder, _) = folder_with("DUNE.PATTERN.YAML", with_an_error());
    write(&folder.path().join("Lap.Pattern.Yml"), with_an_error());
    let report = run(folder.path(), &["check", "--format", "json"]).json();
    let files: Vec<_> = report["findings"].as_array().unwrap().iter().map(|finding| finding["file"].clone()).collect();
    assert_eq!(files, ["DUNE.PATTERN.YAML", "Lap.Pattern.Yml"]);
}

/// A colon and a backslash mean nothing here, and something where the report is read.
#[cfg(unix)]
#[test]
fn marks_of_other_systems_in_names_are_part_of_the_name() {
    let name = r"C:\lap 1\x.pattern.yaml";
    let (folder, _) = folder_with(name, with_an_error());
    let json = run(folder.path(), &["check", "--format", "json"]);
    assert_eq!(json.json()["findings"][0]["file"], name);
    let sarif = run(folder.path(), &["check", "--format", "sarif"]).json();
    let uri = &sarif["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
    assert_eq!(uri, "C%3A%5Clap%201%5Cx.pattern.yaml");
    let line = json.json()["findings"][0]["at"]["line"].clone();
    let text = run(folder.path(), &["check"]).out;
    assert!(text.contains(&format!(r" at C:\lap 1\x.pattern.yaml:{line}:")), "{text}");
    let signed = run(folder.path(), &["sign", name, "--by", "Ada Finch", "--strict"]);
    assert_eq!(signed.status, Some(1), "{signed:?}");
    write(&folder.path().join(name), GOOD);
    assert_eq!(run(folder.path(), &["sign", name, "--by", "Ada Finch"]).status, Some(0));
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}
