//! The manuscripts and the house rules that README.md shows are right.

use std::collections::BTreeSet;

use sparestrip::check::check;
use sparestrip::manuscript::{Mistake, Source, What};
use sparestrip::rule_book::{Settings, read_house_rules};

use super::{fenced, paper, section, sparestrip, support};

fn known_words(mistakes: &[Mistake]) -> BTreeSet<&'static str> {
    let known = mistakes.iter().filter_map(|mistake| match &mistake.what {
        What::UnknownWord { known, .. } => Some(known),
        _ => None,
    });
    known.flatten().copied().collect()
}

#[test]
fn every_word_of_house_rules_is_named() {
    let house = read_house_rules(&Source::from_text("house-rules.yaml", "qqq: 1\nlevels: { hollow-edge: qqq }\n"));
    let known = known_words(&house.mistakes);
    assert!(known.contains("levels") && known.contains("off"), "{known:?}");
    let readme = paper("README.md");
    let text = section(&readme, "## House rules", "## The worksheet");
    for word in known {
        assert!(
            text.contains(&format!("{word}:")) || text.contains(&format!("`{word}`")),
            "README.md does not name {word}"
        );
    }
}

#[test]
fn the_manuscript_in_readme_is_right() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "## The manuscript", "## The rules"), "yaml")[0];
    let outcome = check(&Source::from_text("tide-pool.pattern.yaml", text), &Settings::default());
    assert!(outcome.findings.is_empty(), "{:#?}", outcome.findings);
    assert_eq!(outcome.accepted.len(), 1);
}

#[test]
fn the_design_in_readme_is_right_and_all_of_it_is_checked() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "### From the design", "### Every word"), "yaml")[0];
    let (_file, path) = support::folder_with("sand-star.pattern.yaml", text);
    let ran = sparestrip(&["check", "--strict", "--account", &path.to_string_lossy()]);
    assert_eq!(String::from_utf8_lossy(&ran.stdout), "1 manuscript: nothing to mend\n");
}

#[test]
fn the_house_rules_in_readme_are_right() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "## House rules", "## The worksheet"), "yaml")[0];
    let house = read_house_rules(&Source::from_text("house-rules.yaml", text));
    assert!(house.mistakes.is_empty(), "{:#?}", house.mistakes);
    assert_ne!(house.settings, Settings::default());
}
