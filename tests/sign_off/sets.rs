//! Signing a folder at once: all of its manuscripts, or none.

use std::process::Stdio;
use std::thread;
use std::time::Instant;

use super::{record_file, records, run, text_of, write};
use crate::support::rng::Rng;
use crate::support::{GOOD, program};

const NAMES: [&str; 3] = ["a.pattern.yaml", "b.pattern.yaml", "c.pattern.yaml"];

fn set() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for name in NAMES {
        write(&folder.path().join(name), GOOD.replace("Harbour Lanterns", &format!("Lanterns {name}")));
    }
    folder
}

#[test]
fn a_folder_is_signed_at_once() {
    let folder = set();
    let ran = run(folder.path(), &["sign", ".", "--by", "Ada Finch", "--note", "the spring set"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(ran.err.matches("Ada Finch signed off 25 values").count(), 3, "{}", ran.err);
    assert_eq!(ran.err.matches("wrote sign-offs.yaml").count(), 1, "{}", ran.err);
    let signed: Vec<String> = records(folder.path())
        .iter()
        .map(|record| record["manuscript"].as_str().expect("a name").to_string())
        .collect();
    assert_eq!(signed, NAMES);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}

#[test]
fn some_of_a_folder_are_signed_by_their_names() {
    let folder = set();
    let ran = run(folder.path(), &["sign", NAMES[2], NAMES[0], "--by", "Ada Finch"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(records(folder.path()).len(), 2);
    assert_eq!(run(folder.path(), &["check", "--signed", NAMES[0], NAMES[2]]).status, Some(0));
    assert_eq!(run(folder.path(), &["check", "--signed", NAMES[1]]).status, Some(1));
}

#[test]
fn where_one_cannot_be_signed_none_is() {
    let folder = set();
    write(&folder.path().join(NAMES[1]), GOOD.replace("strips: 9", "strips: 6"));
    let ran = run(folder.path(), &["sign", ".", "--by", "Ada Finch"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("b.pattern.yaml: one error stands"), "{}", ran.err);
    assert!(ran.err.ends_with("not signed: none of the 3 manuscripts, since all are signed at once\n"), "{}", ran.err);
    assert!(ran.out.contains("error: binding-short (throw) at b.pattern.yaml"), "{}", ran.out);
    let ran = run(folder.path(), &["sign", NAMES[0], "no-such.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("no-such.pattern.yaml: "), "{}", ran.err);
    assert!(!record_file(folder.path()).exists());
}

/// Each folder has a record of its own, and two files cannot be written at once.
#[test]
fn a_set_over_several_folders_is_refused() {
    let folder = set();
    write(&folder.path().join("more/d.pattern.yaml"), GOOD);
    let ran = run(folder.path(), &["sign", ".", "--by", "Ada Finch"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains("these manuscripts are in 2 folders") && ran.err.contains("more"), "{}", ran.err);
    assert!(!record_file(folder.path()).exists() && !folder.path().join("more/sign-offs.yaml").exists());
    assert_eq!(run(folder.path(), &["sign", "more", "--by", "Ada Finch"]).status, Some(0));
}

/// Killed 200 times, at a random moment of the time that it takes: all three are signed, or none.
#[test]
fn killed_while_it_signs_a_set_all_are_signed_or_none() {
    let folder = set();
    let started = Instant::now();
    assert_eq!(run(folder.path(), &["sign", ".", "--by", "First"]).status, Some(0));
    // It takes longer beside other tests, and less without them: so that about half of the runs end, the time is adapted.
    let mut longest = started.elapsed() * 2;
    let mut rng = Rng::new(200);
    let (mut killed, mut added) = (0, 0);
    for turn in 0..200_u32 {
        let before = text_of(&record_file(folder.path()));
        let mut child = program(folder.path())
            .args(["sign", ".", "--by", &format!("Turn {turn}")])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        thread::sleep(longest * u32::try_from(rng.below(100)).expect("a small number") / 100);
        child.kill().expect("it is killed, or has ended");
        killed += usize::from(!child.wait().expect("it has ended").success());
        let after = text_of(&record_file(folder.path()));
        let more = after.strip_prefix(&before).unwrap_or_else(|| panic!("turn {turn}: what was there is gone"));
        let signed = more.matches("\n- {").count();
        assert!(
            signed == 0 && more.is_empty() || signed == NAMES.len() && more.ends_with("}\n"),
            "turn {turn}: {more}"
        );
        added += usize::from(signed > 0);
        longest = if signed > 0 { longest * 19 / 20 } else { longest * 21 / 20 };
    }
    assert_eq!(records(folder.path()).len(), NAMES.len() * (1 + added));
    assert!(killed > 20 && added > 20, "of 200 runs {killed} were killed and {added} recorded: try other times");
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}
