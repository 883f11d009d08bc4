//! The map in DEVELOPERS.md is true to the tree.

use std::collections::BTreeSet;

use sparestrip::report::manual::CHAPTERS;

use super::{chapter, fenced, in_backticks, paper, project, section};

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
    let elsewhere =
        ["house-rules.yaml", "sign-offs.yaml", ".pattern.yaml", "dune-path.pattern.yaml", "tide-pool.tables.md"];
    let papers = ["DEVELOPERS.md", "CHANGELOG.md", "README.md"].map(|name| (name, paper(name)));
    let chapters = CHAPTERS.iter().map(|each| (each.name, chapter(each.name)));
    for (name, text) in papers.into_iter().chain(chapters) {
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

/// The libraries of the manifest.
fn libraries() -> BTreeSet<String> {
    let manifest = paper("Cargo.toml");
    let mut section = "";
    let mut libraries = BTreeSet::new();
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line;
            continue;
        }
        // Those of one platform stand in a section of their own.
        let is_of_platform = section.starts_with("[target.") && section.ends_with(".dependencies]");
        if (is_of_platform || ["[dependencies]", "[build-dependencies]", "[dev-dependencies]"].contains(&section))
            && let Some((name, _)) = line.split_once(" = ")
        {
            libraries.insert(name.to_string());
        }
    }
    libraries
}

#[test]
fn the_list_of_libraries_has_those_of_the_manifest_and_no_other() {
    let developers = paper("DEVELOPERS.md");
    let list = developers.split("## Libraries").nth(1).expect("a list of libraries");
    let rows = list.lines().filter_map(|line| line.strip_prefix("| `")?.split(" | ").next());
    let named: Vec<String> = rows.flat_map(|row| row.split(", ").map(|name| name.replace('`', ""))).collect();
    assert_eq!(named.len(), named.iter().collect::<BTreeSet<_>>().len(), "a library stands twice in {named:?}");
    assert_eq!(named.into_iter().collect::<BTreeSet<_>>(), libraries());
}

#[test]
fn every_library_of_the_manifest_is_used() {
    let files = [sources("src"), sources("tests")].concat();
    let texts: Vec<String> =
        files.iter().map(|path| paper(path.strip_prefix(project()).unwrap().to_str().unwrap())).collect();
    for library in libraries() {
        let path = format!("{}::", library.replace('-', "_"));
        let uses = |text: &String| {
            text.lines().any(|line| !line.trim_start().starts_with("//") && line.contains(path.as_str()))
        };
        assert!(texts.iter().any(uses), "nothing uses {library}");
    }
}

/// The lines of a file that name something as a word of their own, comments aside.
fn lines_with(path: &std::path::Path, word: &str) -> usize {
    let text = paper(path.strip_prefix(project()).expect("a file of the project").to_str().expect("a name"));
    let part_of_word = |c: char| c.is_alphanumeric() || c == '_';
    let names = |line: &str| line.split(|c| !part_of_word(c)).any(|part| part == word);
    text.lines().filter(|line| !line.trim_start().starts_with("//") && names(line)).count()
}

fn sources(folder: &str) -> Vec<std::path::PathBuf> {
    let walk = walkdir::WalkDir::new(project().join(folder)).sort_by_file_name();
    let files = walk.into_iter().map(|entry| entry.expect("an entry").into_path());
    files.filter(|path| path.extension().is_some_and(|ending| ending == "rs")).collect()
}

#[test]
fn a_word_of_the_format_stands_in_its_row_and_in_the_code_that_means_it() {
    let developers = paper("DEVELOPERS.md");
    let text = section(&developers, "## Adding a word to the format", "## Adding a make");
    let row = fenced(text, "rust")[0];
    let place = in_backticks(text).into_iter().find(|word| word.starts_with("src/manuscript/read_")).expect("a file");
    assert!(paper(place).contains(row), "{place} has no such row:\n{row}");
    let word = row.trim().split(':').next().expect("a word");
    // Reading, mistakes, sign-offs, acceptances, house rules, the reference and the schema go by the row.
    let mut named = Vec::new();
    for folder in ["src/manuscript", "src/sign_off", "src/rule_book", "src/acceptance", "src/command"] {
        named.extend(sources(folder).into_iter().filter(|path| lines_with(path, word) > 0));
    }
    assert_eq!(named, [project().join(place)]);
    assert_eq!(lines_with(&project().join(place), word), 1);
    for path in ["src/report/word_list.rs", "src/report/schema.rs", "src/rules/missing_entry.rs"] {
        assert_eq!(lines_with(&project().join(path), word), 0, "{path} names {word}");
    }
    let means = in_backticks(text).into_iter().find(|word| word.starts_with("src/requirement/")).expect("a file");
    assert!(lines_with(&project().join(means), word) > 0, "{means} does not mean {word}");
}

#[test]
fn a_make_stands_in_one_file() {
    let developers = paper("DEVELOPERS.md");
    let row = fenced(section(&developers, "## Adding a make of unit", "## Adding a value"), "rust")[0];
    assert!(paper("src/quilt_math/makes.rs").contains(row), "there is no such row:\n{row}");
    for path in sources("src") {
        let text = paper(path.strip_prefix(project()).expect("a file").to_str().expect("a name"));
        let names_one = text.split("Make::").skip(1).any(|rest| {
            rest.starts_with(|c: char| c.is_uppercase()) && !rest.starts_with("WORDS") && !rest.starts_with("NAMES")
        });
        assert!(!names_one || path.ends_with("src/quilt_math/makes.rs"), "{} names a make", path.display());
    }
}
