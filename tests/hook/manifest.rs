//! `.pre-commit-hooks.yaml`, by what the framework's papers ask of it ("Creating new hooks": `id`, `name`, `entry` and
//! `language` must be there), and the files that it is for.

use std::path::Path;

use regex::Regex;
use sparestrip::discover::is_manuscript;
use tempfile::TempDir;

use crate::support::{GOOD, run, write};

#[test]
fn the_hook_has_what_the_framework_asks_for_and_is_for_manuscripts() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(".pre-commit-hooks.yaml");
    let hooks: Vec<serde_yaml::Mapping> = serde_yaml::from_slice(&std::fs::read(file).unwrap()).unwrap();
    let [hook] = &hooks[..] else { panic!("one hook") };
    let word = |key: &str| hook.get(key).and_then(serde_yaml::Value::as_str).unwrap_or_else(|| panic!("no {key}"));
    assert_eq!((word("id"), word("language"), word("entry")), ("sparestrip", "rust", "sparestrip check --only-named"));
    assert!(!word("name").is_empty());
    let files = Regex::new(word("files")).unwrap();
    let paths = [
        "x.pattern.yaml",
        "a/b c.pattern.yml",
        "A.PATTERN.YAML",
        "x.yaml",
        ".x.pattern.yaml",
        "a/.x.pattern.yaml",
        "pattern.yaml",
        "x.pattern.yaml.bak",
    ];
    for path in paths {
        assert_eq!(files.is_match(path), is_manuscript(Path::new(path)), "{path}");
    }
    for text in ["a.md", "layout/a b.DOCX", "a.odt", "a.pdf", "a.html", "a.txt"] {
        assert!(files.is_match(text), "{text}");
    }
    assert!(!files.is_match("a.rs") && !files.is_match("md"));
}

/// The framework hands on every text of a commit, whether a manuscript names it or not.
#[test]
fn a_text_alone_has_the_manuscripts_checked_that_name_it() {
    let folder = TempDir::new().unwrap();
    write(&folder.path().join("lanterns.pattern.yaml"), format!("{GOOD}texts: [lanterns.txt]\n"));
    write(&folder.path().join("README.md"), "Nothing that a manuscript names.\n");
    write(&folder.path().join("lanterns.txt"), "The throw size takes 8 binding strips and 3/4 yd of fabric.\n");
    let check = |files: &[&str]| run(folder.path(), &[&["check", "--only-named"], files].concat());
    let ran = check(&["README.md"]);
    assert_eq!((ran.status, ran.out.as_str(), ran.err.as_str()), (Some(0), "", ""));
    let ran = check(&["README.md", "lanterns.txt"]);
    assert!(ran.status == Some(1) && ran.out.contains("error: text-differs (throw, "), "{ran:?}");
    let ran = check(&["README.md", "lanterns.txt", "lanterns.pattern.yaml"]);
    assert!(ran.out.contains("1 manuscript: 1 error"), "{ran:?}");
}
