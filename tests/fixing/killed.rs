//! A process that is killed while it writes.

use std::process::Stdio;
use std::time::{Duration, Instant};

use super::support::{folder_with, program, write};
use super::{NAME, faulty, fix, right, text_of};

/// Killed after a different time in each of 200 runs, from before it has begun to after it is done: the file is the old
/// one or the new one, whole.
#[test]
fn killed_at_any_time_the_file_is_the_old_one_or_the_new_one() {
    let (folder, file) = folder_with(NAME, faulty());
    let started = Instant::now();
    for _ in 0..3 {
        write(&file, faulty());
        assert_eq!(fix(folder.path(), &[NAME]).status, Some(0));
    }
    let whole_run: Duration = started.elapsed() / 3;
    let (mut old, mut new) = (0, 0);
    for turn in 0..200_u32 {
        write(&file, faulty());
        let mut child = program(folder.path())
            .args(["fix", NAME])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        std::thread::sleep(whole_run * turn / 140);
        child.kill().expect("it is killed, or has ended");
        child.wait().expect("it has ended");
        let text = text_of(&file);
        old += usize::from(text == faulty());
        new += usize::from(text == right());
        assert_eq!(old + new, usize::try_from(turn).unwrap() + 1, "neither the old text nor the new one:\n{text}");
    }
    assert!(old > 5 && new > 5, "{old} old and {new} new: try other times");
    // What was left of a killed one is in nobody's way.
    write(&file, faulty());
    assert_eq!(fix(folder.path(), &[NAME]).status, Some(0));
    assert_eq!(text_of(&file), right());
}
