//! What is staged is checked, and nothing else.

use super::repository::{Repository, faulty, questionable};
use crate::support::GOOD;

#[test]
fn a_faulty_staged_manuscript_stops_the_commit_and_a_mended_one_passes() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("tide pool.pattern.yaml", faulty());
    let told = repository.is_stopped();
    assert!(told.contains("error: spare-strip (queen) at tide pool.pattern.yaml:26:22"), "{told}");
    repository.stage("tide pool.pattern.yaml", GOOD);
    repository.passes();
}

#[test]
fn mended_in_the_folder_and_not_staged_is_not_mended() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("x.pattern.yaml", faulty());
    repository.write("x.pattern.yaml", GOOD);
    repository.is_stopped();
    // `git commit -a` stages it in the same breath.
    assert_eq!(repository.commit(&["-a"]).status, Some(0));
}

#[test]
fn staged_right_passes_whatever_the_folder_holds() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("x.pattern.yaml", GOOD);
    repository.write("x.pattern.yaml", faulty());
    repository.write("not staged.pattern.yaml", faulty());
    repository.passes();
    let ran = repository.commit(&["-a"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
}

#[test]
fn only_what_this_commit_changes_is_checked() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("old.pattern.yaml", faulty());
    assert_eq!(repository.commit(&["--no-verify"]).status, Some(0));
    repository.stage("notes.txt", "cut the strips");
    assert_eq!(repository.passes(), "");
    repository.stage("new.pattern.yaml", GOOD);
    let told = repository.passes();
    assert!(told.contains("1 manuscript: no problems"), "{told}");
}

#[test]
fn a_part_of_what_is_staged_can_be_committed() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("a.pattern.yaml", GOOD);
    repository.stage("b.pattern.yaml", GOOD);
    repository.passes();
    repository.write("a.pattern.yaml", format!("{GOOD}# more\n"));
    repository.stage("b.pattern.yaml", faulty());
    // git makes an index of its own for this commit, with one of the two in it.
    assert_eq!(repository.commit(&["--", "a.pattern.yaml"]).status, Some(0));
    assert_eq!(repository.commit(&["--", "b.pattern.yaml"]).status, Some(1));
}

#[test]
fn deleted_and_renamed_manuscripts() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("a.pattern.yaml", faulty());
    repository.stage("b.pattern.yaml", GOOD);
    repository.commit(&["--no-verify"]);
    repository.git(&["rm", "-q", "a.pattern.yaml"]);
    assert_eq!(repository.passes(), "");
    repository.git(&["mv", "b.pattern.yaml", "c d.pattern.yaml"]);
    repository.passes();
    repository.stage("c d.pattern.yaml", faulty());
    repository.git(&["mv", "c d.pattern.yaml", "e.pattern.yaml"]);
    assert!(repository.is_stopped().contains("at e.pattern.yaml:26:22"));
}

#[test]
fn names_with_anything_in_them() {
    let Some(repository) = Repository::new() else { return };
    let names = [
        "a b.pattern.yaml",
        "-c.pattern.yaml",
        "two\nlines.pattern.yaml",
        "q'uo\"te.pattern.yaml",
        "$(touch gone).pattern.yaml",
        "*.pattern.yaml",
        "[x].pattern.yaml",
        "back\\slash.pattern.yaml",
        "Straße/sub folder/ends .pattern.yml",
        "UPPER.Pattern.YAML",
    ];
    for name in names {
        repository.stage(name, GOOD);
    }
    let told = repository.passes();
    assert!(told.contains(&format!("{} manuscripts: no problems", names.len())), "{told}");
    for (index, name) in names.iter().enumerate() {
        repository.stage(name, faulty().replace("Harbour", &format!("Harbour {index}")));
        let told = repository.is_stopped();
        assert!(told.contains("1 manuscript: 1 error"), "{name}: {told}");
        repository.git(&["reset", "-q", "HEAD"]);
    }
    assert!(!repository.top().join("gone").exists());
}

/// The same folders as in a search by the program.
#[test]
fn hidden_folders_and_target_are_left_out() {
    let Some(repository) = Repository::new() else { return };
    for name in [
        ".hidden/x.pattern.yaml",
        "a/.b/x.pattern.yaml",
        "target/x.pattern.yaml",
        "a/target/b/x.pattern.yaml",
        ".x.pattern.yaml",
    ] {
        repository.stage(name, faulty());
    }
    assert_eq!(repository.passes(), "");
}

#[cfg(unix)]
#[test]
fn a_link_stands_for_another_file() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("a.pattern.yaml", GOOD);
    std::os::unix::fs::symlink("a.pattern.yaml", repository.top().join("b.pattern.yaml")).unwrap();
    repository.git(&["add", "b.pattern.yaml"]);
    let told = repository.passes();
    assert!(told.contains("1 manuscript: no problems"), "{told}");
}

#[test]
fn the_options_are_those_of_the_settings() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("x.pattern.yaml", questionable());
    repository.git(&["config", "sparestrip.options", "--strict --account"]);
    assert!(repository.is_stopped().contains("query: size-not-stated"));
    repository.git(&["config", "sparestrip.options", "--account"]);
    assert!(repository.passes().contains("1 query"));
    // Options that the program does not know stop it, instead of letting everything pass.
    repository.stage("x.pattern.yaml", GOOD);
    repository.git(&["config", "sparestrip.options", "--stric *"]);
    repository.is_stopped();
}

#[test]
fn from_a_folder_within_and_from_another_work_tree() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("sub folder/x.pattern.yaml", faulty());
    let ran = repository.commit(&["--", "sub folder"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("at sub folder/x.pattern.yaml:26:22"), "{ran:?}");
    repository.stage("sub folder/x.pattern.yaml", GOOD);
    repository.passes();
    repository.git(&["worktree", "add", "-q", "--detach", "../other tree"]);
    let (other, file) = ("../other tree", "../other tree/y.pattern.yaml");
    repository.write(file, faulty());
    repository.git(&["-C", other, "add", "y.pattern.yaml"]);
    let before = repository.git(&["rev-list", "--count", "--all"]);
    let ran = repository.try_git(&["-C", other, "commit", "-q", "-m", "x"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    assert!(ran.err.contains("at y.pattern.yaml:26:22"), "{ran:?}");
    assert_eq!(repository.git(&["rev-list", "--count", "--all"]), before);
}

#[test]
fn without_the_program_nothing_is_let_through_unchecked() {
    let Some(repository) = Repository::new() else { return };
    let ran = repository.script_alone();
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "nothing is staged");
    repository.stage("x.pattern.yaml", GOOD);
    let ran = repository.script_alone();
    assert_eq!(ran.status, Some(1));
    assert!(ran.err.contains("sparestrip is not found") && ran.err.contains("--no-verify"), "{}", ran.err);
}

/// git can be told to take names for names and not for patterns; the script asks by patterns all the same.
#[test]
fn no_way_of_reading_names_that_git_is_told_lets_a_fault_pass() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("x.pattern.yaml", faulty());
    for option in ["--literal-pathspecs", "--glob-pathspecs", "--noglob-pathspecs", "--icase-pathspecs"] {
        let ran = repository.try_git(&[option, "commit", "-q", "-m", "x"]);
        assert_eq!(ran.status, Some(1), "{option}: {ran:?}");
        assert!(ran.err.contains("spare-strip"), "{option}: {ran:?}");
    }
}
