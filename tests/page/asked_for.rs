//! How the page is asked for, and what is said where it is asked for wrongly.

use super::support::{GOOD, folder_with, run, run_with_input};

#[test]
fn it_is_printed_or_written_and_that_is_said() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let printed = run(folder.path(), &["worksheet", "x.pattern.yaml", "--html"]);
    assert_eq!((printed.status, printed.err.as_str()), (Some(0), ""));
    assert!(printed.out.starts_with("<!DOCTYPE html>"));
    assert_eq!(folder.path().read_dir().unwrap().count(), 1, "nothing is written without being asked");
    let written = run(folder.path(), &["worksheet", "x.pattern.yaml", "--html=sheet.html"]);
    assert_eq!((written.status, written.out.as_str()), (Some(0), ""));
    assert_eq!(written.err, "sparestrip: wrote sheet.html\n");
    let there = sparestrip::manuscript::Source::open(&folder.path().join("sheet.html")).unwrap();
    assert_eq!(there.text, printed.out);
}

#[test]
fn standard_input_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let ran = run_with_input(folder.path(), &["worksheet", "-", "--html"], GOOD.as_bytes());
    assert_eq!(ran.status, Some(0));
    assert!(
        ran.out.contains("<h1 id=\"title\">Harbour Lanterns, edition 1</h1>")
            && ran.out.contains("<b>standard input</b>")
    );
}

#[test]
fn a_file_name_without_an_equals_sign_is_told() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    for words in [["x.pattern.yaml", "--html", "sheet.html"], ["--html", "sheet.html", "x.pattern.yaml"]] {
        let ran = run(folder.path(), &[&["worksheet"], &words[..]].concat());
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
        assert_eq!(
            ran.err,
            "sparestrip: to write the page to sheet.html, put = before its name: \
             sparestrip worksheet x.pattern.yaml --html=sheet.html\n"
        );
    }
    for words in [vec!["x.pattern.yaml", "y.pattern.yaml"], vec!["x.pattern.yaml", "y.pattern.yaml", "--html"]] {
        let ran = run(folder.path(), &[vec!["worksheet"], words].concat());
        assert_eq!(ran.status, Some(2));
        assert_eq!(
            ran.err,
            "sparestrip: a worksheet is of one manuscript, or of those in one folder; name one at a time\n"
        );
    }
}

#[test]
fn a_manuscript_is_never_written_over() {
    let (folder, file) = folder_with("x.pattern.yaml", GOOD);
    super::support::write(&folder.path().join("y.pattern.yaml"), GOOD);
    for (to, told) in [("x", "x.pattern.yaml is the manuscript itself"), ("y", "y.pattern.yaml is a manuscript")] {
        let ran = run(folder.path(), &["worksheet", "x.pattern.yaml", &format!("--html={to}.pattern.yaml")]);
        assert_eq!(ran.status, Some(2));
        assert_eq!(ran.err, format!("sparestrip: {told}: nothing is written over it\n"));
    }
    assert_eq!(sparestrip::manuscript::Source::open(&file).unwrap().text, GOOD);
    super::support::write(&folder.path().join("draft.txt"), GOOD);
    let ran = run(folder.path(), &["worksheet", "draft.txt", "--html=./draft.txt"]);
    assert_eq!(ran.status, Some(2));
    assert_eq!(ran.err, "sparestrip: ./draft.txt is the manuscript itself: nothing is written over it\n");
    let ran = run(folder.path(), &["worksheet", "x.pattern.yaml", "--html=no/such/sheet.html"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.starts_with("sparestrip: no/such/sheet.html cannot be written: "), "{}", ran.err);
}
