//! `--diff`: what would be changed, as a program that others wrote reads it, and nothing is written.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::SystemTime;

use super::support::{finish, folder_with, run_with_input, write};
use super::{NAME, faulty, fix, right, text_of};

/// Every file of a folder with its text and the time at which it was written.
fn state(folder: &Path) -> Vec<(String, Vec<u8>, SystemTime)> {
    let entries = std::fs::read_dir(folder).unwrap().map(Result::unwrap);
    let mut files: Vec<_> = entries
        .map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            (name, std::fs::read(entry.path()).unwrap(), entry.metadata().unwrap().modified().unwrap())
        })
        .collect();
    files.sort();
    files
}

#[test]
fn nothing_is_written_and_the_status_says_that_something_would_be() {
    let (folder, file) = folder_with(NAME, faulty());
    write(&folder.path().join("good.pattern.yaml"), right());
    let before = state(folder.path());
    let ran = fix(folder.path(), &["--diff", "."]);
    assert_eq!(ran.status, Some(1));
    assert_eq!(state(folder.path()), before);
    assert!(ran.err.contains("2 manuscripts: 2 fixed"), "{}", ran.err);
    let changed = |sign: &str| -> Vec<String> {
        let lines = ran.out.lines().filter(|line| line.starts_with(sign));
        lines.map(|line| line[1..].trim().to_string()).collect()
    };
    let (old, new) = (changed("-"), changed("+"));
    assert_eq!(
        old,
        ["-- lanterns.pattern.yaml", "crib:  { strips: 4, fabric: 1/2 yd }", "queen: { strips: 12, fabric: 5/8 yd }"]
    );
    assert_eq!(
        new,
        ["++ lanterns.pattern.yaml", "crib:  { strips: 6, fabric: 1/2 yd }", "queen: { strips: 12, fabric: 7/8 yd }"]
    );
    write(&file, right());
    let ran = fix(folder.path(), &["--diff", "."]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""));
}

/// What `patch` makes of the diff is what the command makes by itself.
#[test]
fn patch_makes_the_same_of_it() {
    if !crate::hook::is_there("patch") {
        return;
    }
    let long = faulty().replace("binding:\n", &format!("{}binding:\n", "# filler\n".repeat(200)));
    for text in [faulty(), faulty().trim_end().to_string(), faulty().replace('\n', "\r\n"), long] {
        let (folder, file) = folder_with(NAME, &text);
        let diff = fix(folder.path(), &["--diff", NAME]).out;
        let mut patch = Command::new("patch");
        patch.args(["-p0", "--binary"]).current_dir(folder.path());
        patch.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let ran = finish(&mut patch, diff.as_bytes());
        assert_eq!(ran.status, Some(0), "{ran:?}\n{diff}");
        let patched = text_of(&file);
        write(&file, &text);
        fix(folder.path(), &[NAME]);
        assert_eq!(patched, text_of(&file));
        assert_ne!(patched, text);
    }
}

#[test]
fn of_standard_input_too() {
    let folder = tempfile::tempdir().unwrap();
    let ran = run_with_input(folder.path(), &["fix", "--diff", "-"], faulty().as_bytes());
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.starts_with("--- standard input\n+++ standard input\n@@"), "{}", ran.out);
}
