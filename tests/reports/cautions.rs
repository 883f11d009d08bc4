//! The caution about cribs in every format: told once for a manuscript, and counted in none.

use serde_json::json;
use sparestrip::caution::CRIB;

use super::schema::is_valid;
use super::seen::{check, suites};
use super::support::{GOOD, folder_with};

const CRIB_SIZE: &str = "crib:  { finished: 36 x 48 }";

#[test]
fn every_format_tells_it_once_and_counts_nothing() {
    let two = GOOD.replace(CRIB_SIZE, &format!("{CRIB_SIZE}\n  baby: {{ finished: 30 x 40 }}"));
    for (text, sizes, head) in
        [(GOOD, json!(["crib"]), "crib size (crib)"), (&two, json!(["crib", "baby"]), "crib sizes (crib, baby)")]
    {
        let (folder, _) = folder_with("x.pattern.yaml", text);
        let reports = check(folder.path(), &[]);
        let caution = json!({
            "caution": CRIB, "size": "crib", "sizes": sizes, "file": "x.pattern.yaml", "line": 9, "column": 3
        });
        assert_eq!(reports.json["cautions"], json!([caution]));
        let run = &reports.sarif["runs"][0];
        assert_eq!(run["properties"]["cautions"], json!([caution]));
        assert_eq!(run["results"].as_array().unwrap().len(), reports.json["findings"].as_array().unwrap().len());
        assert_eq!(run["invocations"], json!([{ "executionSuccessful": true }]), "the tool itself has no trouble");
        is_valid(&reports.sarif);
        let suite = suites(&reports.junit).suites.remove(0);
        let told = format!("x.pattern.yaml:9:3: {head}. {CRIB}");
        assert_eq!(suite.properties.vec, [("caution".to_string(), told)]);
        assert!(suite.cases.iter().all(|case| !case.original_name.contains("caution")));
        assert_eq!(reports.text.matches(&format!("caution: {head} at x.pattern.yaml:9:3")).count(), 1);
        assert_eq!((suite.failures, suite.errors, reports.status), (0, 0, Some(0)), "{}", reports.text);
    }
}

#[test]
fn no_format_tells_it_of_a_quilt_that_no_crib_would_hold() {
    let text = GOOD.replace(CRIB_SIZE, "wall:  { finished: 50 x 63 }").replace("crib: ", "wall: ");
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let reports = check(folder.path(), &[]);
    assert!(reports.json.get("cautions").is_none());
    assert!(reports.sarif["runs"][0].get("properties").is_none());
    assert!(!reports.junit.contains("<properties>") && !reports.text.contains("caution"), "{}", reports.text);
}

/// A size with a name that means something in XML, in SARIF and to a terminal.
#[test]
fn a_strange_name_harms_no_format() {
    let name = "crib <&> {0} \\u202E";
    let text = GOOD.replace("crib: ", &format!("\"{name}\": "));
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let reports = check(folder.path(), &[]);
    is_valid(&reports.sarif);
    assert_eq!(reports.sarif["runs"][0]["properties"]["cautions"], reports.json["cautions"]);
    let suite = suites(&reports.junit).suites.remove(0);
    let [(_, told)] = &suite.properties.vec[..] else { panic!("{:?}", suite.properties.vec) };
    assert!(told.contains("crib size (crib <&> {0} ") && !told.contains('\u{202e}'), "{told}");
    assert!(reports.text.contains("caution: crib size (crib <&> {0} ") && !reports.text.contains('\u{202e}'));
}
