//! House rules that change while their manuscripts are watched.

use std::fs;
use std::time::{Duration, Instant};

use crate::watch::watching::{LIMIT, SPOILT, Watching, by_halves, in_time, manuscript};

const NO_SPARES: &str = "values:\n  spare_strips: 0\n";

/// A watch of `press/quilts`, with five strips in one manuscript, where the rule book asks for six, and the house
/// rules given in `press`.
fn watching(rules: Option<&str>) -> Watching {
    Watching::new(&["press/quilts"], |folder| {
        fs::create_dir_all(folder.join("press/quilts/inner")).unwrap();
        fs::write(folder.join("press/quilts/a.pattern.yaml"), manuscript(5)).unwrap();
        fs::write(folder.join("press/quilts/b.pattern.yaml"), manuscript(8)).unwrap();
        if let Some(rules) = rules {
            fs::write(folder.join("press/house-rules.yaml"), rules).unwrap();
        }
    })
}

/// The house rules are told by their path from the folder that the program runs in.
fn told(words: &str) -> String {
    format!("press/house-rules.yaml: {words}")
}

#[test]
fn made_in_a_folder_above() {
    in_time(LIMIT, || {
        let mut watching = watching(None);
        watching
            .first
            .says("spare-strip")
            .ends(&["2 manuscripts: 1 error", "Watching 2 manuscripts. Press Ctrl-C to end."]);
        fs::write(watching.path("press/house-rules.yaml"), NO_SPARES).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        assert_eq!(
            report.lines,
            [
                &told("2 manuscripts checked again"),
                "fixed: spare-strip (crib)",
                "press/quilts/a.pattern.yaml, by the house rules: 1 fixed, no problems left",
                "2 manuscripts: no problems",
            ]
        );
        watching.says_no_more();
        report.at.saturating_duration_since(saved)
    });
}

#[test]
fn changed_and_deleted() {
    in_time(LIMIT, || {
        let mut watching = watching(Some(NO_SPARES));
        watching.first.ends(&["2 manuscripts: no problems", "Watching 2 manuscripts. Press Ctrl-C to end."]);
        let rules = watching.path("press/house-rules.yaml");
        // Eight strips are five and three to spare; five are not.
        fs::write(&rules, "values:\n  spare_strips: 3\nlevels:\n  spare-strip: query\n").unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("query: spare-strip (crib)");
        report.ends(&["press/quilts/a.pattern.yaml, by the house rules: 1 new", "2 manuscripts: 1 query"]);
        let changed = report.at.saturating_duration_since(saved);
        fs::remove_file(&rules).unwrap();
        let deleted = Instant::now();
        let report = watching.report();
        report.says("still there, now an error: spare-strip (crib), line 16").says("house-rules.yaml is gone");
        report.ends(&["2 manuscripts: 1 error"]);
        watching.says_no_more();
        changed.max(report.at.saturating_duration_since(deleted))
    });
}

#[test]
fn half_written_ones_are_not_believed() {
    in_time(LIMIT, || {
        let mut watching = watching(Some(NO_SPARES));
        let rules = watching.path("press/house-rules.yaml");
        let write = |text: &str| fs::write(&rules, text).unwrap();
        for gap in [40, 140] {
            if !by_halves(gap, || write(""), || write(NO_SPARES))
                || !by_halves(gap, || fs::remove_file(&rules).unwrap(), || write(NO_SPARES))
            {
                return SPOILT;
            }
        }
        watching.says_no_more();
        Duration::ZERO
    });
}

#[test]
fn mistakes_in_them_are_findings() {
    let mut watching = watching(Some(NO_SPARES));
    let rules = watching.path("press/house-rules.yaml");
    fs::write(&rules, format!("{NO_SPARES}  spare_stripes: 0\n")).unwrap();
    let report = watching.report();
    report.says("error: unknown-word").says("house-rules.yaml:3:3");
    report.ends(&[&told("1 new; 2 manuscripts checked again"), "2 manuscripts: 1 error"]);
    fs::write(&rules, NO_SPARES).unwrap();
    let words = "1 fixed, no problems left; 2 manuscripts checked again";
    watching.report().ends(&["fixed: unknown-word", &told(words), "2 manuscripts: no problems"]);
    watching.says_no_more();
}

#[test]
fn nearer_ones_govern_only_what_is_below_them() {
    let mut watching = watching(Some(NO_SPARES));
    fs::write(watching.path("press/quilts/inner/c.pattern.yaml"), manuscript(5)).unwrap();
    watching.report().ends(&["press/quilts/inner/c.pattern.yaml, new here: no problems", "3 manuscripts: no problems"]);
    fs::write(watching.path("press/quilts/inner/house-rules.yaml"), "values:\n  spare_strips: 1\n").unwrap();
    let report = watching.report();
    report.is_silent_on("a.pattern.yaml").says("spare-strip (crib)");
    report.says("press/quilts/inner/house-rules.yaml: 1 manuscript checked again");
    report.ends(&["press/quilts/inner/c.pattern.yaml, by the house rules: 1 new", "3 manuscripts: 1 error"]);
    // What changes above them is no matter below.
    fs::write(watching.path("press/house-rules.yaml"), "values:\n  spare_strips: 9\n").unwrap();
    let report = watching.report();
    report.is_silent_on("c.pattern.yaml").ends(&["3 manuscripts: 3 errors"]);
    fs::remove_file(watching.path("press/quilts/inner/house-rules.yaml")).unwrap();
    watching.report().says("inner/house-rules.yaml is gone").says("still there: spare-strip (crib), line 16:");
}
