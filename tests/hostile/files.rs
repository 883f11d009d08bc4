//! Things that are no files, or that no one may read, under the name of a manuscript.

use std::os::unix::fs::symlink;
use std::process::Command;

use super::support::{GOOD, folder_with, run, write};
use super::{is_refused, rules_in};

#[test]
fn a_folder_named_as_a_manuscript_is_searched() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("x.pattern.yaml")).unwrap();
    assert_eq!(is_refused_with_a_line(folder.path(), "x.pattern.yaml"), Some(2));
    write(&folder.path().join("x.pattern.yaml/inside.pattern.yaml"), GOOD);
    assert_eq!(run(folder.path(), &["check", "x.pattern.yaml"]).status, Some(0));
}

#[test]
fn a_link_to_nowhere_is_told_by_its_name() {
    let (folder, _) = folder_with("good.pattern.yaml", GOOD);
    symlink("nowhere", folder.path().join("x.pattern.yaml")).unwrap();
    assert_eq!(is_refused_with_a_line(folder.path(), "x.pattern.yaml"), Some(2));
    assert_eq!(is_refused_with_a_line(folder.path(), "."), Some(2), "found in a folder too");
    let ran = run(folder.path(), &["check", "."]);
    assert!(ran.err.contains("x.pattern.yaml"), "{}", ran.err);
    assert!(ran.out.contains("1 manuscript: no problems"), "the other one is still checked: {}", ran.out);
}

#[test]
fn a_link_that_leads_to_itself() {
    let folder = tempfile::tempdir().unwrap();
    symlink("x.pattern.yaml", folder.path().join("x.pattern.yaml")).unwrap();
    assert_eq!(is_refused_with_a_line(folder.path(), "x.pattern.yaml"), Some(2));
    assert_eq!(is_refused_with_a_line(folder.path(), "."), Some(2));
}

#[test]
fn folders_that_link_to_one_another() {
    let (folder, _) = folder_with("a/good.pattern.yaml", GOOD);
    std::fs::create_dir(folder.path().join("b")).unwrap();
    symlink("../b", folder.path().join("a/to-b")).unwrap();
    symlink("../a", folder.path().join("b/to-a")).unwrap();
    symlink(".", folder.path().join("a/here")).unwrap();
    let ran = run(folder.path(), &["check"]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
    assert_eq!(ran.out.lines().last(), Some("1 manuscript: no problems"), "{}", ran.out);
}

#[test]
fn a_pipe_without_a_writer_does_not_hold_the_program_up() {
    let folder = tempfile::tempdir().unwrap();
    let made = Command::new("mkfifo").arg(folder.path().join("x.pattern.yaml")).status().unwrap();
    assert!(made.success());
    assert_eq!(is_refused_with_a_line(folder.path(), "x.pattern.yaml"), Some(2));
    assert_eq!(is_refused_with_a_line(folder.path(), "."), Some(2));
}

#[test]
fn an_endless_device_does_not_hold_the_program_up() {
    let folder = tempfile::tempdir().unwrap();
    symlink("/dev/zero", folder.path().join("x.pattern.yaml")).unwrap();
    assert_eq!(is_refused_with_a_line(folder.path(), "x.pattern.yaml"), Some(2));
    assert_eq!(is_refused_with_a_line(folder.path(), "/dev/zero"), Some(2));
}

#[test]
fn endless_standard_input_is_read_to_the_bound() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = super::bounded_program(folder.path());
    command.args(["check", "-", "--format", "json"]).stdin(std::fs::File::open("/dev/zero").unwrap());
    let ran = super::finish(&mut command, b"");
    assert_eq!(ran.status, Some(1));
    assert_eq!(rules_in(&ran), ["out-of-range"]);
}

#[test]
fn house_rules_that_cannot_be_read_are_told_and_not_passed_over() {
    for broken in ["link", "folder", "pipe"] {
        let (folder, _) = folder_with("good.pattern.yaml", GOOD);
        let house = folder.path().join("house-rules.yaml");
        match broken {
            "link" => symlink("nowhere", &house).unwrap(),
            "folder" => std::fs::create_dir(&house).unwrap(),
            _ => assert!(Command::new("mkfifo").arg(&house).status().unwrap().success()),
        }
        let ran = run(folder.path(), &["check"]);
        assert_eq!(ran.status, Some(2), "{broken}: {ran:?}");
        assert!(ran.err.contains("house-rules.yaml"), "{broken}: {}", ran.err);
    }
}

#[test]
fn hostile_house_rules() {
    let zeros = "values: { sold_by: 0, sold_by_metric: 0, ruler_step: 0, ruler_step_metric: 0, usable_width: 0, \
                 spare_strips: 0, take_up_per_corner: 0, tail: 0, opening: 0, join_seam: 0, binding_seam: 0 }\n";
    let large = "values: { sold_by: 2000, slack: 2000, usable_width: 2000, spare_strips: 100000, tail: 2000, \
                 take_up_per_corner: 2000, opening: 2000, join_seam: 2000, most_reach: 2000, squaring: 2000 }\n";
    let deep = "[".repeat(10_000);
    let words = "levels:\n".to_string() + &(0..20_000).map(|index| format!("  l{index}: off\n")).collect::<String>();
    for house in [zeros, large, &deep, &words, "\u{0}", "levels: 1\nvalues: []\n", "- a\n"] {
        let (folder, _) = folder_with("house-rules.yaml", house);
        for (measure, text) in [("inch", GOOD.to_string()), ("cm", GOOD.replace("measure: inch", "measure: cm"))] {
            let name = format!("{measure}.pattern.yaml");
            write(
                &folder.path().join(&name),
                text.replace("usable_width: 40\n", "").replace("  sold_by: 1/8 yd\n", ""),
            );
            super::survives(folder.path(), &name);
        }
    }
}

/// A path that is refused: one line on standard error that names it. The status comes back.
fn is_refused_with_a_line(folder: &std::path::Path, path: &str) -> Option<i32> {
    let ran = is_refused_quietly(folder, path);
    assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    let name = if path == "." { "pattern.yaml" } else { path };
    assert!(ran.err.contains(name), "{}", ran.err);
    ran.status
}

fn is_refused_quietly(folder: &std::path::Path, path: &str) -> super::Ran {
    // Where nothing was found there is no report either.
    let ran = super::finish(super::bounded_program(folder).args(["check", path]), b"");
    ran.is_tame(path);
    if !ran.out.is_empty() {
        is_refused(folder, path);
    }
    ran
}
