//! What an error, a query and a note are, in every place that says it, and the levels of the rules by it.

use sparestrip::finding::Level;
use sparestrip::rule_book::book;

use super::{paper, sparestrip};

const ERROR: &str = "a reader would run short, has nothing to spare, or cannot sew it";

fn on_one_line(text: &[u8]) -> String {
    String::from_utf8_lossy(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_place_says_the_same_of_an_error() {
    let printed = |words: &[&str]| on_one_line(&sparestrip(words).stdout);
    let faulty = "example-patterns/with-faults/salt-marsh.pattern.yaml";
    for (place, text) in [
        ("README.md", on_one_line(paper("README.md").as_bytes())),
        ("rules", printed(&["rules"])),
        ("the worksheet's page", printed(&["worksheet", faulty, "--html=-"])),
    ] {
        assert!(text.contains(ERROR), "{place}: {text}");
        assert!(!text.contains("leaves a reader short"), "{place}: {text}");
    }
}

/// A spare strip is asked for, so that a pattern without one is an error. What is more than enough stops no reader; what
/// depends on something that no manuscript states is asked.
#[test]
fn a_level_goes_by_what_becomes_of_the_reader() {
    let level_of = |name: &str| book().iter().find(|page| page.name == name).map(|page| page.level);
    assert_eq!(level_of("spare-strip"), Some(Level::Error));
    assert_eq!(level_of("no-squaring-room"), Some(Level::Query));
    for page in book() {
        if page.name.ends_with("-generous") {
            assert_eq!(page.level, Level::Note, "{}: there is more than enough", page.name);
        }
        if page.name.ends_with("-short") {
            assert_eq!(page.level, Level::Error, "{}: a reader runs short", page.name);
        }
    }
}
