//! House rules: the nearest up the folders, what they change, and what is wrong with them.

use super::support::{GOOD, Ran, folder_with, run, write};
use super::{with_a_query, with_an_error};

fn under(house: &str, manuscript: &str) -> Ran {
    let (folder, _) = folder_with("house-rules.yaml", house);
    write(&folder.path().join("x.pattern.yaml"), manuscript);
    run(folder.path(), &["check", "--format", "json"])
}

#[test]
fn the_nearest_up_the_folders_is_in_force() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder.path().join("house-rules.yaml"), "values: { spare_strips: 0 }\n");
    write(&folder.path().join("strict/house-rules.yaml"), "values: { spare_strips: 1 }\n");
    write(&folder.path().join("lax/deep/x.pattern.yaml"), with_an_error());
    write(&folder.path().join("strict/deep/x.pattern.yaml"), with_an_error());
    let report = run(folder.path(), &["check", "--format", "json"]).json();
    let findings = report["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 1);
    assert_eq!(findings[0]["file"], "strict/deep/x.pattern.yaml");
    // The same from within a folder, and for a path from elsewhere.
    assert_eq!(run(&folder.path().join("lax/deep"), &["check"]).status, Some(0));
    assert_eq!(run(&folder.path().join("lax"), &["check", "../strict/deep/x.pattern.yaml"]).status, Some(1));
}

#[test]
fn levels_take_effect() {
    for (level, status, counted) in [("error", 1, "errors"), ("query", 0, "queries"), ("note", 0, "notes")] {
        let ran = under(&format!("levels: {{ size-not-stated: {level} }}\n"), &with_a_query());
        assert_eq!(ran.status, Some(status), "{level}");
        assert_eq!(ran.json()["summary"][counted], 1, "{level}");
        assert_eq!(ran.json()["findings"][0]["level"], level);
    }
    for off in ["off", "\"off\""] {
        let ran = under(&format!("levels: {{ spare-strip: {off} }}\n"), &with_an_error());
        assert_eq!((ran.status, ran.json()["findings"].as_array().unwrap().len()), (Some(0), 0));
    }
}

#[test]
fn values_take_effect_in_the_measure_of_the_house() {
    let text = GOOD.replace("  usable_width: 40\n", "");
    assert_eq!(under("values: { usable_width: 30 }\n", &text).status, Some(1), "strips of 30 in are too few");
    assert_eq!(under("values: { usable_width: 30 in }\nmeasure: cm\n", &text).status, Some(1));
    let by_measure = under("measure: cm\nvalues: { usable_width: 76.2 }\n", &text);
    assert_eq!(by_measure.out, under("values: { usable_width: 30 }\n", &text).out, "76.2 cm is 30 in");
    // What the pattern states itself is not changed by the house.
    assert_eq!(under("values: { usable_width: 30 }\n", GOOD).status, Some(0));
    assert_eq!(under("values: { spare_strips: 0 }\n", &with_an_error()).status, Some(0));
}

#[test]
fn mistakes_in_house_rules_are_findings_in_that_file() {
    let house =
        "levels: { spare-strap: query, size-not-stated: loud }\nvalues: { tail: ten, spare_strips: 0 }\nlevel: {}\n";
    let ran = under(house, &with_an_error());
    assert_eq!(ran.status, Some(1));
    let report = ran.json();
    let findings = report["findings"].as_array().unwrap();
    let places: Vec<(&str, &str, usize)> = findings
        .iter()
        .map(|found| {
            let byte = usize::try_from(found["at"]["byte"].as_u64().unwrap()).unwrap();
            (found["file"].as_str().unwrap(), found["rule"].as_str().unwrap(), byte)
        })
        .collect();
    let at = |word: &str| house.find(word).unwrap();
    let file = "house-rules.yaml";
    assert_eq!(
        places,
        [
            (file, "unknown-word", at("spare-strap")),
            (file, "unknown-word", at("loud")),
            (file, "unreadable-quantity", at("ten")),
            (file, "unknown-word", at("level:")),
        ],
        "and spare_strips, which can be read, is in force"
    );
    assert_eq!((&report["summary"]["errors"], &report["summary"]["manuscripts"]), (&4.into(), &1.into()));
}

#[test]
fn house_rules_that_serve_many_folders_are_told_once() {
    let (folder, _) = folder_with("house-rules.yaml", "vals: {}\n");
    for name in ["a/x.pattern.yaml", "b/x.pattern.yaml", "x.pattern.yaml"] {
        write(&folder.path().join(name), GOOD);
    }
    let report = run(folder.path(), &["check", "--format", "json"]).json();
    assert_eq!(report["findings"].as_array().unwrap().len(), 1, "{report}");
    let ran = run(folder.path(), &["check"]);
    assert!(ran.out.ends_with("3 manuscripts: 1 error\n"), "{}", ran.out);
}
