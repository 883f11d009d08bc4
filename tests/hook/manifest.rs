//! `.pre-commit-hooks.yaml`, by what the framework's papers ask of it ("Creating new hooks": `id`, `name`, `entry` and
//! `language` must be there), and the files that it is for.

use std::path::Path;

use regex::Regex;
use sparestrip::discover::is_manuscript;

#[test]
fn the_hook_has_what_the_framework_asks_for_and_is_for_manuscripts() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(".pre-commit-hooks.yaml");
    let hooks: Vec<serde_yaml::Mapping> = serde_yaml::from_slice(&std::fs::read(file).unwrap()).unwrap();
    let [hook] = &hooks[..] else { panic!("one hook") };
    let word = |key: &str| hook.get(key).and_then(serde_yaml::Value::as_str).unwrap_or_else(|| panic!("no {key}"));
    assert_eq!((word("id"), word("language"), word("entry")), ("sparestrip", "rust", "sparestrip check"));
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
        "x.pattern.yaml.txt",
    ];
    for path in paths {
        assert_eq!(files.is_match(path), is_manuscript(Path::new(path)), "{path}");
    }
}
