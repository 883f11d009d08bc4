//! Printed texts that change while the manuscripts that name them are watched.

use std::fs;
use std::path::Path;
use std::time::Instant;

use super::watching::{LIMIT, SPOILT, Watching, by_halves, in_time, manuscript};
use crate::text::readers::document::{Part, docx};

const NAME: &str = "harbour.pattern.yaml";

fn naming(texts: &str) -> String {
    format!("{}texts: [{texts}]\n", manuscript(6))
}

/// Four of its numbers are those of the manuscript, and so are the strips where there are six of them.
fn printed(strips: u32) -> String {
    format!(
        "# Harbour Lights\n\nThe quilt finishes 36\" x 48\".\n\nCut {strips} binding strips, 2 1/2\" x WOF.\n\n\
         Sew with a seam of 1/4\".\n"
    )
}

/// A watch of a manuscript and its text, with nothing wrong in them.
fn watching(name: &str) -> Watching {
    let watching = Watching::new(&[], |folder| {
        fs::write(folder.join(NAME), naming(name)).unwrap();
        write(&folder.join(name), &printed(6));
    });
    watching.first.ends(&["1 manuscript: no problems", "Watching 1 manuscript. Press Ctrl-C to end."]);
    watching
}

fn write(path: &Path, text: &str) {
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn by_rename(file: &Path, text: &str) {
    let beside = file.with_extension("tmp");
    fs::write(&beside, text).unwrap();
    fs::rename(&beside, file).unwrap();
}

/// Saves four strips in some way, which tells whether it went as meant, then six again.
fn saved_by(name: &str, save: impl Fn(&Path, &str) -> bool) {
    in_time(LIMIT, || {
        let mut watching = watching(name);
        let file = watching.path(name);
        if !save(&file, &printed(4)) {
            return SPOILT;
        }
        let saved = Instant::now();
        let report = watching.report();
        report.says("error: text-differs (crib, \"Cut 4 binding strips").says(&format!("at {name}:5:5"));
        report.ends(&[&format!("{name}: 1 new; 4 of 5 numbers matched, 1 differs"), "1 manuscript: 1 error"]);
        watching.says_no_more();
        if !save(&file, &printed(6)) {
            return SPOILT;
        }
        watching.report().ends(&[
            &format!("{name}: 1 fixed, no problems left; 5 of 5 numbers matched"),
            "2 manuscripts: no problems",
        ]);
        watching.says_no_more();
        report.at.saturating_duration_since(saved)
    });
}

/// A fault is quoted with the words round it, in which another number may change.
#[test]
fn a_fault_is_still_there_when_a_number_beside_it_changes() {
    in_time(LIMIT, || {
        let mut watching = watching("harbour.md");
        let file = watching.path("harbour.md");
        write(&file, &printed(4));
        watching.report().ends(&["harbour.md: 1 new; 4 of 5 numbers matched, 1 differs", "1 manuscript: 1 error"]);
        let saved = Instant::now();
        write(&file, &printed(4).replace("2 1/2\"", "2.5\""));
        let report = watching.report();
        report.ends(&["harbour.md: 1 still there; 4 of 5 numbers matched, 1 differs", "1 manuscript: 1 error"]);
        report.at.saturating_duration_since(saved)
    });
}

#[test]
fn saved_in_place() {
    saved_by("harbour.md", |file, text| fs::write(file, text).is_ok());
}

#[test]
fn renamed_over_in_a_folder_below() {
    saved_by("layout/en/harbour.md", |file, text| {
        by_rename(file, text);
        true
    });
}

#[test]
fn written_by_halves_or_taken_away_for_a_moment() {
    saved_by("harbour.md", |file, text| {
        by_halves(100, || fs::write(file, "").unwrap(), || fs::write(file, text).unwrap())
    });
    saved_by("harbour.md", |file, text| {
        by_halves(100, || fs::remove_file(file).unwrap(), || fs::write(file, text).unwrap())
    });
    let first = "# Harbour Lights\n\nThe quilt fin";
    saved_by("harbour.md", |file, text| {
        by_halves(100, || fs::write(file, first).unwrap(), || fs::write(file, text).unwrap())
    });
}

#[test]
fn a_text_comes_into_being_and_goes() {
    let mut watching = Watching::new(&[], |folder| {
        fs::write(folder.join(NAME), naming("layout/harbour.md")).unwrap();
    });
    watching.first.says("error: text-not-read").says("1 manuscript: 1 error");
    write(&watching.path("layout/harbour.md"), &printed(6));
    watching.report().ends(&[
        "fixed: text-not-read (\"layout/harbour.md\")",
        "harbour.pattern.yaml, by its text: 1 fixed, no problems left",
        "layout/harbour.md, new here: no problems; 5 of 5 numbers matched",
        "1 manuscript: no problems",
    ]);
    fs::remove_dir_all(watching.path("layout")).unwrap();
    watching.report().says("error: text-not-read").ends(&[
        "harbour.pattern.yaml, by its text: 1 new",
        "layout/harbour.md is gone",
        "1 manuscript: 1 error",
    ]);
    watching.says_no_more();
}

#[test]
fn a_word_file_that_is_written_by_halves_is_read_when_it_is_whole() {
    let paragraph = |text: &str| docx(&[Part::Paragraph(text.to_string())]);
    let (right, wrong) =
        (paragraph("Cut 6 binding strips, 2 1/2\" x WOF."), paragraph("Cut 4 binding strips, 2 1/2\" x WOF."));
    in_time(LIMIT, || {
        let mut watching = Watching::new(&[], |folder| {
            fs::write(folder.join(NAME), naming("harbour.docx")).unwrap();
            fs::write(folder.join("harbour.docx"), &right).unwrap();
        });
        let file = watching.path("harbour.docx");
        let half = &wrong[..wrong.len() / 2];
        if !by_halves(100, || fs::write(&file, half).unwrap(), || fs::write(&file, &wrong).unwrap()) {
            return SPOILT;
        }
        let saved = Instant::now();
        let report = watching.report();
        report.says("harbour.docx, paragraph 1").is_silent_on("text-not-read");
        report.ends(&["harbour.docx: 1 new; 1 of 2 numbers matched, 1 differs", "1 manuscript: 1 error"]);
        watching.says_no_more();
        // One that stays damaged is a finding, and the watch goes on.
        fs::write(&file, half).unwrap();
        watching
            .report()
            .says("error: text-not-read")
            .ends(&["harbour.pattern.yaml, by its text: 1 new", "2 manuscripts: 1 error"]);
        fs::write(&file, &right).unwrap();
        watching
            .report()
            .says("fixed: text-not-read")
            .ends(&["harbour.docx: no problems; 2 of 2 numbers matched", "2 manuscripts: no problems"]);
        assert!(watching.runs());
        report.at.saturating_duration_since(saved)
    });
}

#[test]
fn a_text_of_two_manuscripts_is_told_for_each_and_one_no_longer_named_is_left() {
    let mut watching = Watching::new(&[], |folder| {
        for name in ["a.pattern.yaml", "b.pattern.yaml"] {
            fs::write(folder.join(name), naming("harbour.md")).unwrap();
        }
        write(&folder.join("harbour.md"), &printed(6));
    });
    fs::write(watching.path("harbour.md"), printed(4)).unwrap();
    let report = watching.report();
    report.says("harbour.md, for a.pattern.yaml: 1 new; 4 of 5 numbers matched, 1 differs");
    report
        .ends(&["harbour.md, for b.pattern.yaml: 1 new; 4 of 5 numbers matched, 1 differs", "2 manuscripts: 2 errors"]);
    fs::write(watching.path("b.pattern.yaml"), manuscript(6)).unwrap();
    watching.report().ends(&[
        "b.pattern.yaml: no problems",
        "harbour.md is not checked any more",
        "2 manuscripts: 1 error",
    ]);
    // What the manuscript says of it changes what is found in the text.
    fs::write(watching.path("a.pattern.yaml"), naming("harbour.md").replace("strips: 6", "strips: 7")).unwrap();
    watching.report().says("harbour.md, by its manuscript: 1 still there").ends(&["2 manuscripts: 1 error"]);
    watching.says_no_more();
}

#[test]
fn a_text_is_followed_where_the_system_does_not_tell() {
    let mut watching = Watching::new(&["--poll"], |folder| {
        fs::write(folder.join(NAME), naming("harbour.md")).unwrap();
        write(&folder.join("harbour.md"), &printed(6));
    });
    fs::write(watching.path("harbour.md"), printed(4)).unwrap();
    watching.report().ends(&["harbour.md: 1 new; 4 of 5 numbers matched, 1 differs", "1 manuscript: 1 error"]);
}

#[cfg(unix)]
#[test]
fn a_linked_text_is_followed_to_its_file() {
    let mut watching = Watching::new(&[], |folder| {
        fs::write(folder.join(NAME), naming("harbour.md")).unwrap();
        write(&folder.join("drafts/7.md"), &printed(6));
        std::os::unix::fs::symlink("drafts/7.md", folder.join("harbour.md")).unwrap();
    });
    fs::write(watching.path("drafts/7.md"), printed(4)).unwrap();
    watching.report().ends(&["harbour.md: 1 new; 4 of 5 numbers matched, 1 differs", "1 manuscript: 1 error"]);
}

#[test]
fn a_line_for_each_finding_in_a_text() {
    let mut watching = Watching::new(&["--format", "lines"], |folder| {
        fs::write(folder.join(NAME), naming("harbour.md")).unwrap();
        write(&folder.join("harbour.md"), &printed(6));
    });
    write(&watching.path("harbour.md"), &printed(4));
    let report = watching.report();
    report.says("harbour.md:5:5: error: text-differs (crib, ").ends(&["1 manuscript: 1 error"]);
}
