//! The walk in README.md from an empty file to a checked manuscript: what a reader types gives what is shown.

use super::support::{Ran, folder_with, run, write};
use super::{fenced, paper, section};

/// The lines of the walk that a reader types: the manuscript, and the backing that is added to it.
fn typed() -> (String, String) {
    let readme = paper("README.md");
    let texts = fenced(section(&readme, "## Ten minutes", "## What is checked"), "yaml");
    assert_eq!(texts.len(), 2);
    (texts[0].to_string(), texts[1].to_string())
}

/// Checks a manuscript where the walk puts it.
fn checked(manuscript: &str) -> Ran {
    let (folder, _) = folder_with("my-patterns/dune-path.pattern.yaml", manuscript);
    run(folder.path(), &["check", "my-patterns"])
}

/// What the first check prints.
pub(super) fn first_check() -> String {
    checked(&typed().0).out
}

/// What the second one prints, after the change that README.md tells.
pub(super) fn second_check() -> String {
    checked(&typed().0.replace("strips: 6", "strips: 8")).out
}

#[test]
fn the_first_check_of_the_walk_finds_the_strips_and_nothing_else() {
    let ran = checked(&typed().0);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.starts_with("error: binding-short (throw) at my-patterns/dune-path.pattern.yaml:8:"), "{ran:?}");
    assert!(ran.out.contains("6 strips stated; 8 needed"), "{ran:?}");
    assert!(ran.out.ends_with("1 manuscript: 1 error\n"), "{ran:?}");
}

#[test]
fn the_walk_ends_with_nothing_to_fix() {
    let (manuscript, backing) = typed();
    let right = manuscript.replace("strips: 6", "strips: 8");
    assert_eq!(checked(&right).status, Some(0));
    let short = checked(&format!("{right}{backing}"));
    assert!(short.out.starts_with("error: backing-short (throw)"), "{short:?}");
    assert!(short.out.contains("Buy 4 1/2 yd") && short.out.ends_with("1 manuscript: 1 error\n"), "{short:?}");
    let (folder, path) = folder_with("x.pattern.yaml", "");
    write(&path, format!("{right}{}", backing.replace("4 yd", "4 1/2 yd")));
    let ran = run(folder.path(), &["check", "--strict", "--account", "x.pattern.yaml"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
}

/// The change that README.md tells is the one that the program makes by itself.
#[test]
fn the_first_finding_of_the_walk_is_fixed_by_the_program() {
    let (manuscript, _) = typed();
    let (folder, path) = folder_with("my-patterns/dune-path.pattern.yaml", &manuscript);
    assert_eq!(run(folder.path(), &["fix", "my-patterns"]).status, Some(0));
    let fixed = String::from_utf8(std::fs::read(&path).expect("a file")).expect("text");
    assert_eq!(fixed, manuscript.replace("strips: 6", "strips: 8"));
}
