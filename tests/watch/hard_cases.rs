//! Files that cannot be read, systems that do not tell, and the end.

use std::fs;
use std::io::Read;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::watch::watching::{LIMIT, Watching, in_time, manuscript};

/// A look every 50 ms comes on top.
const POLL_LIMIT: Duration = Duration::from_millis(400);

fn two() -> Watching {
    Watching::new(&[], |folder| {
        fs::write(folder.join("a.pattern.yaml"), manuscript(6)).unwrap();
        fs::write(folder.join("bad.pattern.yaml"), manuscript(6)).unwrap();
    })
}

/// The good manuscript is still followed.
#[track_caller]
fn goes_on(watching: &mut Watching, total: &str) {
    fs::write(watching.path("a.pattern.yaml"), manuscript(4)).unwrap();
    watching.report().says("binding-short").ends(&["a.pattern.yaml: 1 new", total]);
    assert!(watching.runs());
}

#[test]
fn bytes_that_are_no_text() {
    let mut watching = two();
    let bytes: Vec<u8> = (0..20_000_u32).map(|n| n.wrapping_mul(2_654_435_761).to_be_bytes()[0]).collect();
    fs::write(watching.path("bad.pattern.yaml"), bytes).unwrap();
    let report = watching.report();
    report.says("not-yaml").says("bad.pattern.yaml: ");
    assert!(report.lines.iter().all(|line| !line.contains(|c: char| c.is_control())), "{report:#?}");
    fs::write(watching.path("bad.pattern.yaml"), manuscript(6)).unwrap();
    watching.report().ends(&["2 manuscripts: no problems"]);
    goes_on(&mut watching, "2 manuscripts: 1 error");
}

#[test]
fn a_file_of_100_mb() {
    let mut watching = two();
    let file = fs::File::create(watching.path("bad.pattern.yaml")).unwrap();
    file.set_len(100_000_000).unwrap();
    watching.report().says("out-of-range").ends(&["bad.pattern.yaml: 1 new", "2 manuscripts: 1 error"]);
    goes_on(&mut watching, "2 manuscripts: 2 errors");
}

#[cfg(unix)]
#[test]
fn a_manuscript_that_becomes_something_else() {
    let mut watching = two();
    let bad = watching.path("bad.pattern.yaml");
    fs::remove_file(&bad).unwrap();
    assert!(Command::new("mkfifo").arg(&bad).status().unwrap().success());
    watching
        .report()
        .ends(&["bad.pattern.yaml cannot be read: it is not a file", "1 manuscript: no problems; 1 cannot be read"]);
    goes_on(&mut watching, "1 manuscript: 1 error; 1 cannot be read");
    fs::remove_file(&bad).unwrap();
    watching.report().ends(&["bad.pattern.yaml is gone", "1 manuscript: 1 error"]);
    fs::create_dir(&bad).unwrap();
    fs::write(bad.join("in.pattern.yaml"), manuscript(6)).unwrap();
    watching.report().ends(&["bad.pattern.yaml/in.pattern.yaml, new here: no problems", "2 manuscripts: 1 error"]);
}

#[cfg(unix)]
#[test]
fn a_link_to_nowhere_that_leads_somewhere_later() {
    use std::os::unix::fs::symlink;
    let mut watching = two();
    symlink("later.yaml", watching.path("c.pattern.yaml")).unwrap();
    let report = watching.report();
    report.says("c.pattern.yaml cannot be read: ").ends(&["2 manuscripts: no problems; 1 cannot be read"]);
    watching.says_no_more();
    fs::write(watching.path("later.yaml"), manuscript(6)).unwrap();
    watching.report().ends(&["c.pattern.yaml, new here: no problems", "4 manuscripts: no problems"]);
}

#[cfg(unix)]
#[test]
fn a_name_that_would_turn_the_terminal_blue() {
    let mut watching = two();
    fs::write(watching.path("\u{1b}[34m\n.pattern.yaml"), manuscript(4)).unwrap();
    watching.report().ends(&["?[34m .pattern.yaml, new here: 1 found", "3 manuscripts: 1 error"]);
}

#[cfg(unix)]
#[test]
fn what_the_system_lost_count_of_is_found_all_the_same() {
    let mut watching = two();
    watching.signal("-STOP");
    // More events than the system keeps for a program that does not take them: 16,384 on Linux.
    for number in 0..6000 {
        let name = watching.path(&format!("{number}.txt"));
        fs::write(&name, "x").unwrap();
        fs::remove_file(&name).unwrap();
    }
    fs::write(watching.path("a.pattern.yaml"), manuscript(4)).unwrap();
    fs::create_dir(watching.path("new")).unwrap();
    fs::write(watching.path("new/b.pattern.yaml"), manuscript(4)).unwrap();
    fs::remove_file(watching.path("bad.pattern.yaml")).unwrap();
    watching.signal("-CONT");
    let mut lines = Vec::new();
    while !lines.iter().any(|line| line == "2 manuscripts: 2 errors") || lines.len() < 4 {
        lines.extend(watching.report().lines);
    }
    for line in ["a.pattern.yaml: 1 new", "new/b.pattern.yaml, new here: 1 found", "bad.pattern.yaml is gone"] {
        assert_eq!(lines.iter().filter(|known| *known == line).count(), 1, "{line} in {lines:#?}");
    }
    watching.says_no_more();
}

#[test]
fn looking_all_the_time_finds_the_same() {
    in_time(POLL_LIMIT, || {
        let mut watching = Watching::new(&["--poll", "here"], |folder| {
            fs::create_dir_all(folder.join("here")).unwrap();
            fs::write(folder.join("here/a.pattern.yaml"), manuscript(6)).unwrap();
        });
        fs::write(watching.path("here/a.pattern.yaml"), manuscript(4)).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("binding-short").ends(&["here/a.pattern.yaml: 1 new", "1 manuscript: 1 error"]);
        let took = report.at.saturating_duration_since(saved);
        fs::create_dir_all(watching.path("here/x/y")).unwrap();
        fs::write(watching.path("here/x/y/b.pattern.yaml"), manuscript(6)).unwrap();
        watching.report().ends(&["here/x/y/b.pattern.yaml, new here: no problems", "2 manuscripts: 1 error"]);
        // As long as before, and within the same tick of many a clock.
        fs::write(watching.path("here/a.pattern.yaml"), manuscript(5)).unwrap();
        watching.report().ends(&["here/a.pattern.yaml: 1 new, 1 fixed", "2 manuscripts: 1 error"]);
        fs::write(watching.path("house-rules.yaml"), "values: { spare_strips: 0 }\n").unwrap();
        watching.report().says("checked again").ends(&["2 manuscripts: no problems"]);
        fs::remove_dir_all(watching.path("here/x")).unwrap();
        watching.report().ends(&["here/x/y/b.pattern.yaml is gone", "1 manuscript: no problems"]);
        took
    });
}

#[cfg(unix)]
#[test]
fn ctrl_c_and_the_request_to_end_are_no_failure() {
    for signal in ["-INT", "-TERM"] {
        in_time(LIMIT, || {
            let mut watching = two();
            let sent = Instant::now();
            assert_eq!(watching.end_by(signal).code(), Some(0), "{signal}");
            sent.elapsed()
        });
    }
}

#[cfg(unix)]
#[test]
fn ctrl_c_works_while_the_output_is_held_up() {
    let folder = tempfile::tempdir().unwrap();
    // More than a pipe takes that nobody reads.
    for number in 0..200 {
        fs::write(folder.path().join(format!("{number}.pattern.yaml")), manuscript(4)).unwrap();
    }
    let mut program = Command::new(env!("CARGO_BIN_EXE_sparestrip"));
    let mut child = program.arg("watch").current_dir(folder.path()).stdout(Stdio::piped()).spawn().unwrap();
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut [0; 1000]).unwrap();
    assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
    assert_eq!(child.wait().unwrap().code(), Some(0));
}

#[test]
fn it_ends_quietly_when_nobody_reads_on() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.pattern.yaml"), manuscript(6)).unwrap();
    let mut program = Command::new(env!("CARGO_BIN_EXE_sparestrip"));
    program.arg("watch").current_dir(folder.path()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = program.spawn().unwrap();
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut [0; 20]).unwrap();
    drop(out);
    // The start may be in the pipe already: the next report finds it closed.
    fs::write(folder.path().join("a.pattern.yaml"), manuscript(4)).unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), String::from_utf8_lossy(&output.stderr).as_ref()), (Some(0), ""));
}

#[test]
fn nothing_to_watch_is_a_failure_with_a_reason() {
    let folder = tempfile::tempdir().unwrap();
    let output = assert_cmd::Command::cargo_bin("sparestrip").unwrap();
    let output =
        { output }.args(["watch", "nowhere", "never.pattern.yaml"]).current_dir(folder.path()).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, "sparestrip: nothing to watch: there is no file or folder nowhere, never.pattern.yaml\n");
}
