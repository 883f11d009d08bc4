//! Which files are found, how often, and in what order.

use std::os::unix::fs::symlink;
use std::path::Path;

use super::support::{GOOD, run, write};

/// The manuscripts that are checked, by the findings in them, in the order in which they are told.
fn files(folder: &Path, paths: &[&str]) -> Vec<String> {
    let ran = run(folder, &[&["check", "--format", "json"], paths].concat());
    assert_eq!(ran.err, "");
    let report = ran.json();
    let findings = report["findings"].as_array().unwrap();
    let files: Vec<String> = findings.iter().map(|found| found["file"].as_str().unwrap().to_string()).collect();
    assert_eq!(report["summary"]["manuscripts"].as_u64(), Some(files.len() as u64), "one finding in each");
    files
}

fn faulty() -> String {
    GOOD.replace("strips: 12", "strips: 11")
}

#[test]
fn folders_are_walked_and_what_is_hidden_or_built_is_left_out() {
    let folder = tempfile::tempdir().unwrap();
    for name in [
        "b.pattern.yaml",
        "a.pattern.yml",
        "deep/er/c.pattern.yaml",
        "LOUD.PATTERN.YAML",
        ".hidden/no.pattern.yaml",
        "target/no.pattern.yaml",
        "deep/target/no.pattern.yaml",
        ".no.pattern.yaml",
        "notes.yaml",
        "pattern.yaml",
        "x.pattern.yaml.bak",
        "x.pattern.yaml~",
    ] {
        write(&folder.path().join(name), faulty());
    }
    let expected = ["LOUD.PATTERN.YAML", "a.pattern.yml", "b.pattern.yaml", "deep/er/c.pattern.yaml"];
    assert_eq!(files(folder.path(), &[]), expected);
    assert_eq!(files(folder.path(), &["."]), expected);
    // A folder that is named is searched, whatever its name.
    assert_eq!(files(folder.path(), &[".hidden"]), [".hidden/no.pattern.yaml"]);
    assert_eq!(files(folder.path(), &["target"]), ["target/no.pattern.yaml"]);
    // And so is a file.
    assert_eq!(files(folder.path(), &["notes.yaml"]), ["notes.yaml"]);
    assert_eq!(files(folder.path(), &["x.pattern.yaml.bak"]), ["x.pattern.yaml.bak"]);
}

#[test]
fn a_file_is_checked_once_however_often_it_is_named() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder.path().join("in/a.pattern.yaml"), faulty());
    symlink("in/a.pattern.yaml", folder.path().join("link.pattern.yaml")).unwrap();
    symlink(".", folder.path().join("in/loop")).unwrap();
    assert_eq!(files(folder.path(), &["."]), ["in/a.pattern.yaml"]);
    let whole = folder.path().join("in/a.pattern.yaml");
    let named = ["in", "in/a.pattern.yaml", "./in/a.pattern.yaml", "in/../in/a.pattern.yaml", whole.to_str().unwrap()];
    assert_eq!(files(folder.path(), &named).len(), 1);
}

#[test]
fn linked_folders_are_searched() {
    let (folder, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    write(&elsewhere.path().join("a.pattern.yaml"), faulty());
    symlink(elsewhere.path(), folder.path().join("shared")).unwrap();
    assert_eq!(files(folder.path(), &["."]), ["shared/a.pattern.yaml"]);
}

#[test]
fn many_manuscripts_are_told_in_order_on_any_number_of_threads() {
    let folder = tempfile::tempdir().unwrap();
    let names: Vec<String> = (0..40).map(|index| format!("{:02}/m{index}.pattern.yaml", index % 7)).collect();
    for (index, name) in names.iter().enumerate() {
        let padding = "# padding\n".repeat(index * 37 % 900);
        write(&folder.path().join(name), format!("{}{padding}word{index}: 1\n", faulty()));
    }
    let mut sorted = names.clone();
    sorted.sort();
    for format in ["text", "json"] {
        let on = |threads: &str| {
            let mut command = super::support::program(folder.path());
            command.args(["check", "--format", format]).env("RAYON_NUM_THREADS", threads);
            super::support::finish(&mut command, b"").out
        };
        let first = on("1");
        let places: Vec<usize> = sorted.iter().map(|name| first.find(name.as_str()).unwrap()).collect();
        assert!(places.is_sorted(), "{format}");
        for threads in ["1", "8", "8", "2"] {
            assert_eq!(on(threads), first, "{format} on {threads} threads");
        }
    }
}
