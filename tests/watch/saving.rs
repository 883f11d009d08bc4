//! The ways in which editors save.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::time::Instant;

use crate::watch::watching::{LIMIT, Report, SPOILT, Watching, by_halves, in_time, manuscript, with_width};

const NAME: &str = "harbour.pattern.yaml";

/// A watch of one manuscript with nothing wrong in it.
fn good() -> Watching {
    let watching = Watching::new(&[], |folder| fs::write(folder.join(NAME), manuscript(6)).unwrap());
    watching.first.ends(&["1 manuscript: no problems", "Watching 1 manuscript. Press Ctrl-C to end."]);
    watching
}

fn by_rename(file: &Path, text: &str) {
    let beside = file.with_extension("tmp");
    fs::write(&beside, text).unwrap();
    fs::rename(&beside, file).unwrap();
}

#[track_caller]
fn is_short(report: &Report) {
    report.says("error: binding-short (crib)").says("4 strips stated; 6 needed");
    report.ends(&["harbour.pattern.yaml: 1 new", "1 manuscript: 1 error"]);
}

/// Saves four strips in some way, which tells whether it went as meant; the report has to be the one, in time.
fn saved_by(save: impl Fn(&Path) -> bool) {
    in_time(LIMIT, || {
        let mut watching = good();
        if !save(&watching.path(NAME)) {
            return SPOILT;
        }
        let saved = Instant::now();
        let report = watching.report();
        is_short(&report);
        watching.says_no_more();
        report.at.saturating_duration_since(saved)
    });
}

/// One row of blocks too many in the layout: eight pieces are too few for it.
#[test]
fn the_total_says_how_many_findings_follow_from_another() {
    let names = ["a", "b", "c", "d", "e", "f", "g", "h"];
    let each = |line: &dyn Fn(&str, String) -> String| {
        names.iter().map(|name| line(name, name.to_uppercase())).collect::<String>()
    };
    let pieces =
        each(&|_, piece| format!("      - {{ piece: {piece}, size: 6 1/2 x 3 1/2, pieces: {{ lap: 35 }} }}\n"));
    let units =
        each(&|unit, piece| format!("  {unit}: {{ make: patch, finished: 6 x 3, cut: {{ patch: {piece} }} }}\n"));
    let text = format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 60 x 84 }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: 4 5/8 yd }}\n    cut:\n{pieces}units:\n{units}\
         blocks:\n  star: {{ finished: 12, rows: [[a, b], [c, d], [e, f], [g, h]] }}\n\
         layout:\n  lap: {{ across: 5, down: 8, blocks: star }}\n"
    );
    let watching = Watching::new(&[], |folder| fs::write(folder.join(NAME), text).unwrap());
    watching.first.says("1 manuscript: 9 errors").says("8 of them follow from another");
}

#[test]
fn in_place() {
    saved_by(|file| fs::write(file, manuscript(4)).is_ok());
}

#[test]
fn by_renaming_a_temporary_over_it() {
    saved_by(|file| {
        by_rename(file, &manuscript(4));
        true
    });
}

#[test]
fn by_moving_the_old_one_aside() {
    saved_by(|file| {
        let aside = file.with_extension("yaml~");
        by_halves(0, || fs::rename(file, &aside).unwrap(), || fs::write(file, manuscript(4)).unwrap())
            && fs::remove_file(&aside).is_ok()
    });
}

#[test]
fn by_truncating_and_writing_a_moment_later() {
    for gap in [60, 140] {
        let write = |file: &Path, text: &str| fs::write(file, text).unwrap();
        saved_by(|file| by_halves(gap, || write(file, ""), || write(file, &manuscript(4))));
    }
}

#[test]
fn in_two_halves() {
    // The first half ends in the middle of a word, or of a bracket.
    for end in ["tai", "crib: {"] {
        saved_by(|file| {
            let text = manuscript(4);
            let (first, second) = text.split_at(text.rfind(end).unwrap() + end.len());
            let file = fs::File::create(file).unwrap();
            let write = |text: &str| (&file).write_all(text.as_bytes()).unwrap();
            by_halves(140, || write(first), || write(second))
        });
    }
}

#[test]
fn by_deleting_and_restoring() {
    for gap in [0, 60, 140] {
        saved_by(|file| by_halves(gap, || fs::remove_file(file).unwrap(), || fs::write(file, manuscript(4)).unwrap()));
    }
}

#[test]
fn the_same_text_again_is_not_worth_a_word() {
    let mut watching = good();
    let file = watching.path(NAME);
    fs::write(&file, manuscript(6)).unwrap();
    watching.says_no_more();
    by_rename(&file, &manuscript(6));
    watching.says_no_more();
    if by_halves(100, || fs::remove_file(&file).unwrap(), || fs::write(&file, manuscript(6)).unwrap()) {
        watching.says_no_more();
    }
}

#[test]
fn an_emptied_file_is_reported_when_it_stays_empty() {
    in_time(LIMIT, || {
        let mut watching = good();
        fs::write(watching.path(NAME), "").unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("error: missing-entry").ends(&["harbour.pattern.yaml: 1 new", "1 manuscript: 1 error"]);
        watching.says_no_more();
        report.at.saturating_duration_since(saved)
    });
}

#[test]
fn a_deleted_manuscript_is_gone_with_its_findings() {
    in_time(LIMIT, || {
        let mut watching = Watching::new(&[], |folder| {
            fs::write(folder.join(NAME), manuscript(4)).unwrap();
            fs::write(folder.join("other.pattern.yaml"), manuscript(6)).unwrap();
        });
        watching.first.ends(&["2 manuscripts: 1 error", "Watching 2 manuscripts. Press Ctrl-C to end."]);
        fs::remove_file(watching.path(NAME)).unwrap();
        let deleted = Instant::now();
        let report = watching.report();
        assert_eq!(report.lines, ["harbour.pattern.yaml is gone", "1 manuscript: no problems"]);
        let took = report.at.saturating_duration_since(deleted);
        watching.says_no_more();
        fs::write(watching.path(NAME), manuscript(4)).unwrap();
        watching.report().ends(&["harbour.pattern.yaml, new here: 1 found", "3 manuscripts: 1 error"]);
        took
    });
}

#[test]
fn what_is_new_is_drawn_and_the_rest_is_told_in_a_line() {
    let mut watching = Watching::new(&[], |folder| fs::write(folder.join(NAME), with_width("1", 5)).unwrap());
    watching.first.says("error: fold-short").says("error: spare-strip (crib)");
    // Line 5 is the size, line 14 `strip_width`, line 16 the strips.
    fs::write(watching.path(NAME), with_width("1", 4)).unwrap();
    let report = watching.report();
    report.says("error: binding-short (crib) at harbour.pattern.yaml:16:21").is_silent_on("error: fold-short");
    report.ends(&[
        "fixed: spare-strip (crib)",
        "still there: join-near-corner (crib), line 5",
        "still there: fold-short, line 14",
        "harbour.pattern.yaml: 1 new, 1 fixed, 2 still there",
        "1 manuscript: 2 errors, 1 note",
    ]);
    // Not there yet: the new numbers are said.
    fs::write(watching.path(NAME), with_width("1", 3)).unwrap();
    let report = watching.report();
    // What is too long for a line goes on in the next, between words.
    assert_eq!(report.lines.len(), 7, "{report:#?}");
    assert!(report.lines.iter().all(|line| line.len() <= 100), "{report:#?}");
    report
        .says("still there: binding-short (crib), line 16: 3 strips stated; 6 needed")
        .says("  tails, and 1 to spare.");
    report.says("still there: fold-short, line 14");
    fs::write(watching.path(NAME), manuscript(6)).unwrap();
    let report = watching.report();
    let mended = ["fold-short", "binding-short (crib)", "join-near-corner (crib)"];
    assert!(mended.iter().all(|subject| report.has(&format!("fixed: {subject}"))), "{report:#?}");
    report.ends(&["harbour.pattern.yaml: 3 fixed, no problems left", "1 manuscript: no problems"]);
    assert_eq!(report.lines.len(), 5, "{report:#?}");
    watching.says_no_more();
}

#[test]
fn two_manuscripts_saved_together_are_each_told_once() {
    in_time(LIMIT, || {
        let names = ["a.pattern.yaml", "b.pattern.yaml"];
        let mut watching = Watching::new(&[], |folder| {
            for name in names {
                fs::write(folder.join(name), manuscript(6)).unwrap();
            }
        });
        for name in names {
            fs::write(watching.path(name), manuscript(4)).unwrap();
        }
        let saved = Instant::now();
        let mut told = Vec::new();
        let mut last = saved;
        while told.len() < names.len() {
            let report = watching.report();
            told.extend(report.lines.into_iter().filter(|line| line.ends_with(": 1 new")));
            last = report.at;
        }
        assert_eq!(told, ["a.pattern.yaml: 1 new", "b.pattern.yaml: 1 new"]);
        watching.says_no_more();
        last.saturating_duration_since(saved)
    });
}

#[test]
fn of_a_thousand_saves_in_a_burst_the_last_is_reported() {
    in_time(LIMIT, || {
        let mut watching = good();
        let file = watching.path(NAME);
        // Every save has a slip of its own, so that no two reports could be taken for each other.
        let slip = |number: usize| format!("{}zigzag{number:04}: 1\n", manuscript(6));
        for number in 1..=1000 {
            if number % 2 == 0 { by_rename(&file, &slip(number)) } else { fs::write(&file, slip(number)).unwrap() }
        }
        let saved = Instant::now();
        let mut told: Vec<String> = Vec::new();
        let last = loop {
            let report = watching.report();
            let word = report.lines.iter().find_map(|line| line.find("zigzag").map(|at| line[at..at + 10].to_string()));
            let word = word.unwrap_or_else(|| panic!("a state that was never saved: {report:#?}"));
            assert!(!told.contains(&word), "{word} was told twice");
            told.push(word);
            if told.last().is_some_and(|word| word == "zigzag1000") {
                break report.at;
            }
        };
        watching.says_no_more();
        last.saturating_duration_since(saved)
    });
}

/// Of many findings that stand, only some are told: what is new would run out of sight above them.
#[test]
fn of_many_that_are_still_there_a_few_are_told() {
    let text = |strips: u32| {
        let sizes: String = (0..30).map(|size| format!("  s{size}: {{ finished: 50 x 60 }}\n")).collect();
        let short: String = (1..30).map(|size| format!("    s{size}: {{ strips: 5 }}\n")).collect();
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n{sizes}binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  \
             requires:\n    s0: {{ strips: {strips} }}\n{short}"
        )
    };
    let mut watching = Watching::new(&[], |folder| fs::write(folder.join(NAME), text(8)).unwrap());
    fs::write(watching.path(NAME), text(6)).unwrap();
    let report = watching.report();
    report.says("error: binding-short (s0)").says("still there: binding-short (s10), line").is_silent_on("(s11)");
    report.ends(&["still there: 19 more", "harbour.pattern.yaml: 1 new, 29 still there", "1 manuscript: 30 errors"]);
}
