//! The manuscripts and the house rules that the papers show are right.

use std::collections::BTreeSet;

use sparestrip::check::check;
use sparestrip::manuscript::{Mistake, MistakeKind, Source};
use sparestrip::rule_book::{Settings, read_house_rules};

use super::{chapter, fenced, paper, section, sparestrip, support};

fn known_words(mistakes: &[Mistake]) -> BTreeSet<&'static str> {
    let known = mistakes.iter().filter_map(|mistake| match &mistake.what {
        MistakeKind::UnknownWord { known, .. } => Some(known),
        _ => None,
    });
    known.flatten().copied().collect()
}

#[test]
fn every_word_of_house_rules_is_named() {
    let house = read_house_rules(&Source::from_text("house-rules.yaml", "qqq: 1\nlevels: { hollow-edge: qqq }\n"));
    let known = known_words(&house.mistakes);
    assert!(known.contains("levels") && known.contains("off"), "{known:?}");
    let text = chapter("house-rules");
    for word in known {
        assert!(
            text.contains(&format!("{word}:")) || text.contains(&format!("`{word}`")),
            "the chapter of house rules does not name {word}"
        );
    }
}

#[test]
fn the_manuscript_in_the_manual_is_right() {
    let chapter = chapter("manuscript");
    let text = fenced(&chapter, "yaml")[0];
    let outcome = check(&Source::from_text("tide-pool.pattern.yaml", text), &Settings::default());
    assert!(outcome.findings.is_empty(), "{:#?}", outcome.findings);
    assert_eq!(outcome.accepted.len(), 1);
}

#[test]
fn the_acceptance_in_the_manual_is_that_of_the_manuscript_in_it() {
    let (manuscript, acceptance) = (chapter("manuscript"), chapter("acceptance"));
    assert!(fenced(&manuscript, "yaml")[0].ends_with(fenced(&acceptance, "yaml")[0]));
}

#[test]
fn the_design_in_the_manual_is_right_and_all_of_it_is_checked() {
    let chapter = chapter("design");
    let text = fenced(&chapter, "yaml")[0];
    let (_file, path) = support::folder_with("sand-star.pattern.yaml", text);
    let ran = sparestrip(&["check", "--strict", "--account", &path.to_string_lossy()]);
    assert_eq!(ran.status.code(), Some(0));
    assert!(String::from_utf8_lossy(&ran.stdout).ends_with("\n1 manuscript: no problems\n"));
}

#[test]
fn the_house_rules_in_the_papers_are_right() {
    let readme = paper("README.md");
    let in_readme = fenced(section(&readme, "## House rules", "## In continuous"), "yaml");
    let chapter = chapter("house-rules");
    let texts = [in_readme, fenced(&chapter, "yaml")].concat();
    assert_eq!(texts.len(), 2);
    for text in texts {
        let house = read_house_rules(&Source::from_text("house-rules.yaml", text));
        assert!(house.mistakes.is_empty(), "{:#?}", house.mistakes);
        assert_ne!(house.settings, Settings::default());
    }
}
