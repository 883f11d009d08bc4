//! `--report FORMAT=PATH`: reports in files, beside what is printed.

use std::path::Path;

use rstest::rstest;

use super::FOUR_KINDS;
use super::support::{GOOD, finish, folder_with, program, run};

fn read(folder: &Path, name: &str) -> String {
    String::from_utf8(std::fs::read(folder.join(name)).unwrap()).unwrap()
}

#[test]
fn each_is_what_the_format_prints_and_the_files_are_named() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let all =
        ["--report", "text=a.txt", "--report", "json=a.json", "--report", "sarif=a.sarif", "--report", "junit=a.xml"];
    let ran = run(folder.path(), &[&["check", "--color", "always"], all.as_slice()].concat());
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("\u{1b}["), "what is printed is as it was asked for");
    let told: Vec<&str> = ran.err.lines().collect();
    assert_eq!(told, ["a.txt", "a.json", "a.sarif", "a.xml"].map(|name| format!("sparestrip: wrote {name}")));
    for (format, name) in [("text", "a.txt"), ("json", "a.json"), ("sarif", "a.sarif"), ("junit", "a.xml")] {
        let printed = run(folder.path(), &["check", "--format", format]).out;
        assert_eq!(read(folder.path(), name), printed, "{format}");
    }
}

#[test]
fn standard_input_too() {
    let folder = tempfile::tempdir().unwrap();
    let words = ["check", "-", "--report=sarif=a.sarif", "--report=junit=a.xml"];
    let ran = super::support::run_with_input(folder.path(), &words, FOUR_KINDS.as_bytes());
    assert_eq!(ran.status, Some(1));
    assert!(read(folder.path(), "a.sarif").contains("\"standard%20input\""));
    assert!(read(folder.path(), "a.xml").contains("<testsuite name=\"standard input\""));
}

#[rstest]
#[case("xml=a.xml", "the formats are text, json, sarif, junit, lines, github, gitlab and checkstyle")]
#[case("a.xml", "such as junit=report.xml")]
#[case("junit=", "stands the file to write")]
#[case("=a.xml", "the formats are text, json, sarif, junit, lines, github, gitlab and checkstyle")]
#[case("", "such as junit=report.xml")]
fn what_is_no_report_is_refused_in_plain_words(#[case] word: &str, #[case] says: &str) {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run(folder.path(), &["check", "--report", word]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains(says), "{}", ran.err);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing was written");
}

#[rstest]
#[case(&["--report=json=a", "--report=sarif=a"])]
#[case(&["--report=json=a", "--report=sarif=./a"])]
#[case(&["--report=json=a", "--report=sarif=sub/../a"])]
fn one_file_for_two_reports_is_refused(#[case] words: &[&str]) {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    std::fs::create_dir(folder.path().join("sub")).unwrap();
    let ran = run(folder.path(), &[&["check"], words].concat());
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("for two reports"), "{}", ran.err);
    assert!(!folder.path().join("a").exists());
}

#[test]
fn a_manuscript_is_never_written_over() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run(folder.path(), &["check", "--report=json=x.pattern.yaml", "--report=sarif=a.sarif"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("x.pattern.yaml is a manuscript"), "{}", ran.err);
    assert!(folder.path().join("a.sarif").exists(), "the others are written");
    assert_eq!(read(folder.path(), "x.pattern.yaml"), GOOD);
}

/// A file that is given by its name is a manuscript, whatever the name.
#[test]
fn a_file_that_is_checked_is_never_written_over() {
    let (folder, _) = folder_with("notes.txt", GOOD);
    std::fs::hard_link(folder.path().join("notes.txt"), folder.path().join("other.txt")).unwrap();
    for name in ["notes.txt", "./notes.txt", "other.txt"] {
        let ran = run(folder.path(), &["check", "notes.txt", &format!("--report=json={name}")]);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
        assert!(ran.err.contains("is to be checked"), "{}", ran.err);
        assert_eq!(read(folder.path(), "notes.txt"), GOOD);
    }
}

#[test]
fn a_report_that_cannot_be_written_is_2_and_the_others_are_written() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run(folder.path(), &["check", "--report=json=gone/a.json", "--report=junit=a.xml"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("gone/a.json cannot be written: No such file"), "{}", ran.err);
    assert!(ran.err.contains("wrote a.xml"), "{}", ran.err);
    assert_eq!(ran.out.lines().last(), Some("1 manuscript: no problems"), "what was found is told all the same");
    assert!(read(folder.path(), "a.xml").ends_with("</testsuites>\n"));
}

/// `--report text=/dev/stderr` and the like.
#[test]
fn a_pipe_or_a_device_is_written_to_as_it_is() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = finish(program(folder.path()).args(["check", "--report=text=/dev/null"]), b"");
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(
        std::fs::metadata("/dev/null").unwrap().file_type() != std::fs::metadata(folder.path()).unwrap().file_type()
    );
}

/// `-` is standard output, and no file of that name is written.
#[test]
fn a_dash_is_standard_output() {
    let (folder, _) = folder_with("x.pattern.yaml", FOUR_KINDS);
    let printed = |words: &[&str]| run(folder.path(), words);
    for format in ["json", "sarif", "junit"] {
        let asked = printed(&["check", "--report", &format!("{format}=-")]);
        let expected = printed(&["check", "--format", format]);
        assert_eq!((asked.status, asked.out, asked.err), (expected.status, expected.out, String::new()), "{format}");
    }
    for format in ["markdown", "csv", "html"] {
        let asked = printed(&["tables", "x.pattern.yaml", "--format", format, "--output", "-"]);
        let expected = printed(&["tables", "x.pattern.yaml", "--format", format]);
        assert_eq!((asked.status, asked.out, asked.err), (expected.status, expected.out, expected.err), "{format}");
    }
    let asked = printed(&["worksheet", "x.pattern.yaml", "--html=-"]);
    assert_eq!(asked.out, printed(&["worksheet", "x.pattern.yaml", "--html"]).out);
    for words in [["--report=json=-", "--report=sarif=-"], ["--report=json=-", "--format=sarif"]] {
        let ran = printed(&[&["check"], words.as_slice()].concat());
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
        assert!(ran.err.contains("standard output is named for two reports"), "{}", ran.err);
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing was written");
}

/// A killed process may leave the file that it was writing to; the next one that writes there takes it away, and leaves
/// what is not so old or is called otherwise.
#[test]
fn what_a_killed_process_left_is_removed_at_the_next_write() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let long_ago = std::time::SystemTime::now() - std::time::Duration::from_secs(7200);
    let left = |name: &str, old: bool| {
        let file = std::fs::File::create(folder.path().join(name)).unwrap();
        if old {
            file.set_modified(long_ago).unwrap();
        }
    };
    left(".sparestrip-aB3dE9", true);
    left(".sparestrip-young1", false);
    left(".sparestrip-notes.txt", true);
    left("sparestrip-aB3dE9", true);
    assert_eq!(run(folder.path(), &["check", "--report", "json=a.json"]).status, Some(0));
    let mut names: Vec<String> = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    let kept = [".sparestrip-notes.txt", ".sparestrip-young1", "a.json", "sparestrip-aB3dE9", "x.pattern.yaml"];
    assert_eq!(names, kept);
}
