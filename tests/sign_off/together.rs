//! Several people at once, and a process that is killed while it signs.

use std::process::Stdio;
use std::thread;
use std::time::Duration;

use super::{NAME, folder_of, record_file, records, run, sign, text_of, write};
use crate::support::{GOOD, program};

/// How many sign-offs there are before the first that is killed.
const SIGNED_BEFORE: usize = 5;

#[test]
fn of_people_who_sign_at_once_none_loses_a_record() {
    const PEOPLE: usize = 12;
    let folder = folder_of(GOOD);
    thread::scope(|scope| {
        let signing: Vec<_> = (0..PEOPLE)
            .map(|person| {
                let folder = folder.path();
                scope.spawn(move || sign(folder, &format!("Person {person}")))
            })
            .collect();
        for signing in signing {
            let ran = signing.join().expect("a run");
            assert_eq!(ran.status, Some(0), "{ran:?}");
        }
    });
    let mut by: Vec<String> =
        records(folder.path()).iter().map(|record| record["by"].as_str().unwrap_or_default().to_string()).collect();
    by.sort();
    let mut expected: Vec<String> = (0..PEOPLE).map(|person| format!("Person {person}")).collect();
    expected.sort();
    assert_eq!(by, expected);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
    assert!(!folder.path().join(".sign-offs.yaml.writing").exists());
}

/// Killed after a different time in each of 200 runs, from before it has begun to after it is done. The record is
/// always whole: what it was before, with one sign-off more or none.
#[test]
fn killed_while_it_signs_the_record_is_always_whole() {
    let folder = folder_of(GOOD);
    let whole_run = measured(folder.path());
    let (mut killed, mut added) = (0, 0);
    for turn in 0..200_u32 {
        let before = text_of(&record_file(folder.path()));
        let mut child = program(folder.path())
            .args(["sign", NAME, "--by", &format!("Turn {turn}")])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        thread::sleep(whole_run * turn / 140);
        child.kill().expect("it is killed, or has ended");
        killed += usize::from(!child.wait().expect("it has ended").success());
        let after = text_of(&record_file(folder.path()));
        assert!(after.starts_with(&before), "turn {turn}: what was there is there no longer");
        let more = &after[before.len()..];
        let whole = more.is_empty() || (more.starts_with("# Turn ") && more.ends_with("}\n"));
        assert!(whole && more.matches("\n- {").count() <= 1, "turn {turn}: {more:?}");
        added += usize::from(!more.is_empty());
        let ran = run(folder.path(), &["check", "--signed"]);
        assert_eq!(ran.status, Some(0), "turn {turn}: {ran:?}");
    }
    assert_eq!(records(folder.path()).len(), SIGNED_BEFORE + added);
    assert!(killed > 5 && added > 5, "of 200 runs {killed} were killed and {added} recorded: try other times");
    // The next one to sign is not held up by what the killed ones left.
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    assert!(!folder.path().join(".sign-offs.yaml.writing").exists());
}

/// Two people sign on branches of their own: the same manuscript, and others. Version control merges line by line, by
/// what the manual says to tell it.
#[test]
fn records_of_two_branches_are_merged_whole() {
    let Ok(version) = std::process::Command::new("git").arg("--version").output() else {
        eprintln!("there is no git here: merging is not tried");
        assert!(std::env::var_os("CI").is_none(), "git is needed to test merging");
        return;
    };
    assert!(version.status.success());
    let folder = folder_of(GOOD);
    let path = folder.path();
    let git = |words: &[&str]| {
        let who = ["-c", "user.name=Test", "-c", "user.email=test@example.org", "-c", "init.defaultBranch=main"];
        let ran = std::process::Command::new("git").args(who).args(words).current_dir(path).output().expect("git runs");
        assert!(ran.status.success(), "git {words:?}: {ran:?}");
    };
    let commit = |message: &str| {
        git(&["add", "--all"]);
        git(&["commit", "--quiet", "--message", message]);
    };
    write(&path.join(".gitattributes"), "sign-offs.yaml merge=union\n");
    write(&path.join("second.pattern.yaml"), GOOD.replace("Harbour Lanterns", "Harbour Lights"));
    git(&["init", "--quiet"]);
    commit("Two manuscripts");
    git(&["checkout", "--quiet", "-b", "of-ada"]);
    assert_eq!(sign(path, "Ada Finch").status, Some(0));
    commit("Ada signs");
    git(&["checkout", "--quiet", "main"]);
    assert_eq!(sign(path, "Bea Marsh").status, Some(0));
    assert_eq!(run(path, &["sign", "second.pattern.yaml", "--by", "Bea Marsh"]).status, Some(0));
    commit("Bea signs both");
    git(&["merge", "--quiet", "--no-edit", "of-ada"]);
    let mut signed: Vec<String> = records(path)
        .iter()
        .map(|record| ["manuscript", "by"].map(|key| record[key].as_str().unwrap_or_default()).join(" by "))
        .collect();
    signed.sort();
    let expected =
        [format!("{NAME} by Ada Finch"), format!("{NAME} by Bea Marsh"), "second.pattern.yaml by Bea Marsh".into()];
    assert_eq!(signed, expected);
    assert_eq!(run(path, &["check", "--signed"]).status, Some(0));
}

/// How long a signing takes here: the middle one of a few.
fn measured(folder: &std::path::Path) -> Duration {
    let signing = |person: usize| {
        let started = std::time::Instant::now();
        assert_eq!(sign(folder, &format!("Person {person}")).status, Some(0));
        started.elapsed()
    };
    let mut times: Vec<Duration> = (0..SIGNED_BEFORE).map(signing).collect();
    times.sort();
    times[SIGNED_BEFORE / 2]
}
