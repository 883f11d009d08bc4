//! The scripts in README.md and in the manual: what a reader pastes must run.

use std::process::{Command, Stdio};

use super::support::{GOOD, Ran, finish, folder_with, write};
use super::{all_papers, chapter, fenced, paper, section};

/// Runs a script by `sh` in a folder, with the program where the script looks for it.
fn run(script: &str, folder: &std::path::Path) -> Ran {
    let bin = std::path::Path::new(env!("CARGO_BIN_EXE_sparestrip")).parent().expect("a folder");
    let path = std::env::var_os("PATH").expect("a path");
    let path = std::env::join_paths([bin.to_path_buf()].into_iter().chain(std::env::split_paths(&path)));
    let mut sh = Command::new("sh");
    sh.args(["-c", script]).current_dir(folder).env("PATH", path.expect("a path")).env("HOME", folder);
    for name in ["GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE"] {
        sh.env_remove(name);
    }
    finish(sh.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()), b"")
}

#[test]
fn every_script_can_be_read_by_sh() {
    let papers = all_papers();
    let scripts = fenced(&papers, "sh");
    assert!(scripts.len() > 7, "{scripts:?}");
    for script in scripts {
        let ran =
            finish(Command::new("sh").args(["-n", "-c", script]).stdout(Stdio::piped()).stderr(Stdio::piped()), b"");
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{script}");
    }
}

/// The scripts of a text, without the line that installs the program, which the tests have built.
fn scripts_of(text: &str) -> Vec<String> {
    let without_install = |script: &str| {
        let lines: Vec<&str> = script.lines().filter(|line| !line.starts_with("cargo install ")).collect();
        lines.join("\n")
    };
    fenced(text, "sh").into_iter().map(without_install).collect()
}

#[test]
fn the_short_step_ends_with_the_status_of_the_check() {
    let readme = paper("README.md");
    let chapter = chapter("continuous-integration");
    let of_readme = scripts_of(section(&readme, "## In continuous integration", "## Signing off"));
    let of_chapter = scripts_of(section(&chapter, "# In continuous integration", "## A whole script"));
    for script in [&of_readme[0], &of_chapter[0]] {
        let (folder, _) = folder_with("my-patterns/x.pattern.yaml", GOOD);
        assert_eq!(run(script, folder.path()).status, Some(0), "{script}");
        write(&folder.path().join("my-patterns/x.pattern.yaml"), GOOD.replace("strips: 12", "strips: 11"));
        assert_eq!(run(script, folder.path()).status, Some(1), "{script}");
    }
}

#[test]
fn the_whole_script_checks_reports_and_asks_for_a_sign_off() {
    let chapter = chapter("continuous-integration");
    let scripts = scripts_of(chapter.split("## A whole script").nth(1).expect("a heading"));
    assert_eq!(scripts.len(), 1);
    let (folder, _) = folder_with("my-patterns/x.pattern.yaml", GOOD);
    let reports = ["reports/sparestrip.sarif", "reports/sparestrip.xml"];
    let told = |status: i32, words: &str| {
        let ran = run(&scripts[0], folder.path());
        assert_eq!(ran.status, Some(status), "{ran:?}");
        assert!(ran.out.trim_end().ends_with(words), "{ran:?}");
        for report in reports {
            std::fs::remove_file(folder.path().join(report)).expect("a report was written");
        }
    };
    told(1, "Something is to be fixed or signed off: see above.");
    let signed = run("sparestrip sign my-patterns/x.pattern.yaml --by 'Ada Finch'", folder.path());
    assert_eq!(signed.status, Some(0), "{signed:?}");
    told(0, "Every number is OK or accepted, and signed off.");
    write(&folder.path().join("my-patterns/x.pattern.yaml"), GOOD.replace("strips: 12", "strips: 13"));
    told(1, "Something is to be fixed or signed off: see above.");
    std::os::unix::fs::symlink("nowhere", folder.path().join("my-patterns/y.pattern.yaml")).expect("a link");
    told(2, "Something could not be read or done: see above.");
}

#[test]
fn the_lines_that_install_completions_and_the_manual_put_them_in_their_places() {
    let scripts = scripts_of(&chapter("completions"));
    assert_eq!(scripts.len(), 4);
    let folder = tempfile::tempdir().expect("a temporary folder");
    for script in &scripts {
        let ran = run(&script.replace("man sparestrip", ":"), folder.path());
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{script}");
    }
    let places = [
        ".local/share/bash-completion/completions/sparestrip",
        ".zfunc/_sparestrip",
        ".zshrc",
        ".config/fish/completions/sparestrip.fish",
        ".local/share/man/man1/sparestrip.1",
    ];
    for place in places {
        let there = folder.path().join(place).metadata().expect("a file");
        assert!(there.len() > 0, "{place}");
    }
}

#[test]
fn the_lines_for_git_put_a_script_that_can_be_run_in_its_place() {
    if Command::new("git").arg("--version").output().is_err() {
        eprintln!("skipped: git is not installed");
        return;
    }
    let scripts = scripts_of(&chapter("git-hook"));
    let readme = paper("README.md");
    assert!(scripts_of(&readme).contains(&scripts[0]), "README.md has other lines for git");
    let (folder, _) = folder_with("x.pattern.yaml", GOOD.replace("strips: 12", "strips: 11"));
    let lines = format!(
        "set -e; git init -q; {}\n{}\ngit add x.pattern.yaml; git config user.name x; git config user.email x@example.org",
        scripts[0], scripts[1]
    );
    let ran = run(&lines, folder.path());
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{lines}");
    let ran = run("git commit -m x", folder.path());
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("1 manuscript: 1 error"), "{ran:?}");
}
