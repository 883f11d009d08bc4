//! The map in DEVELOPERS.md is true to the tree.

use std::collections::BTreeSet;

use super::{in_backticks, paper, project};

/// What looks like a path of the project: a folder in it, or a file with a known ending.
fn is_path(word: &str) -> bool {
    let endings = [".rs", ".yaml", ".toml", ".md", ".lock"];
    let plain = word.chars().all(|c| c.is_ascii_alphanumeric() || "/._-".contains(c));
    let number = word.starts_with(|c: char| c.is_ascii_digit());
    plain && !number && (word.contains('/') || endings.iter().any(|ending| word.ends_with(ending)))
}

fn paths(paper: &str) -> BTreeSet<&str> {
    in_backticks(paper).into_iter().filter(|word| is_path(word)).collect()
}

#[test]
fn every_path_that_the_papers_name_is_there() {
    // A writer's own file, which the project has none of.
    let elsewhere = ["house-rules.yaml", "sign-offs.yaml", ".pattern.yaml"];
    for name in ["DEVELOPERS.md", "CHANGELOG.md", "README.md"] {
        let text = paper(name);
        for path in paths(&text).into_iter().filter(|path| !elsewhere.contains(path)) {
            assert!(project().join(path).exists(), "{name} names {path}, which is not there");
        }
    }
}

#[test]
fn the_map_names_everything_in_the_source_and_test_folders() {
    let text = paper("DEVELOPERS.md");
    let named = paths(&text);
    for folder in ["src", "tests"] {
        for entry in project().join(folder).read_dir().expect("a folder") {
            let entry = entry.expect("an entry");
            let end = if entry.path().is_dir() { "/" } else { "" };
            let path = format!("{folder}/{}{end}", entry.file_name().to_string_lossy());
            assert!(named.contains(path.as_str()), "the map in DEVELOPERS.md lacks `{path}`");
        }
    }
}

#[test]
fn every_library_is_named_with_its_role() {
    let manifest = paper("Cargo.toml");
    let developers = paper("DEVELOPERS.md");
    let named = in_backticks(&developers);
    let mut section = "";
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line;
        }
        if matches!(section, "[dependencies]" | "[dev-dependencies]")
            && let Some((name, _)) = line.split_once(" = ")
        {
            assert!(named.contains(&name), "DEVELOPERS.md does not say what {name} is for");
        }
    }
}
