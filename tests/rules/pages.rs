//! The pages of the rule book: each example does what the page says, and each page belongs to a rule.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use rstest::rstest;
use sparestrip::finding::{Finding, Level};
use sparestrip::rule_book::{Example, Page, book, page};
use sparestrip::rules::{RULES, SIGN_OFF_RULES, TEXT_RULES};

use crate::desk::{assert_silent, mended, outcome_by, printed_outcome, signed_outcome, told};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn text_of(path: &Path) -> String {
    String::from_utf8(fs::read(path).expect("a file that can be read")).expect("text")
}

/// The names of the files in a folder that end as given, without their endings.
fn names_in(folder: &Path, ending: &str) -> BTreeSet<String> {
    let files = fs::read_dir(folder).expect("a folder").map(|file| file.expect("a file").path());
    let named = files.filter(|path| path.extension().is_some_and(|found| found == ending));
    named.map(|path| path.file_stem().expect("a name").to_string_lossy().into_owned()).collect()
}

/// All the text of the program's own source.
fn program() -> String {
    let mut text = String::new();
    let mut folders = vec![folder("src")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                text.push_str(&text_of(&path));
            }
        }
    }
    text
}

/// The one finding of a page's failing example, with the text that it is in.
#[track_caller]
fn only_finding(page: &Page) -> (String, Finding) {
    let text = page.fails.text();
    if TEXT_RULES.contains(&page.name) {
        let printed = page.fails_text.as_ref().map(Example::text);
        let outcome = printed_outcome(&text, printed.as_deref());
        let of_manuscript = outcome.findings.iter().map(|finding| (text.clone(), finding.clone()));
        let of_texts = outcome.texts.iter().flat_map(|printed| {
            printed.findings.iter().map(|finding| (printed.source().text.clone(), finding.clone()))
        });
        let mut found: Vec<(String, Finding)> = of_manuscript.chain(of_texts).collect();
        assert_eq!(found.len(), 1, "{}: {found:#?}\nin:\n{text}", page.name);
        return found.remove(0);
    }
    let mut outcome = match &page.signed {
        // What that rule finds is that there is no sign-off.
        Some(_) if page.name == "not-signed" => signed_outcome(&text, None),
        Some(signed) => signed_outcome(&text, Some(&signed.text())),
        None => outcome_by(&text, &page.settings()),
    };
    assert_eq!(outcome.findings.len(), 1, "{}: {:#?}\nin:\n{text}", page.name, told(&text, &outcome));
    (text, outcome.findings.remove(0))
}

#[test]
fn the_failing_example_gives_one_finding_at_the_marked_place() {
    for page in book() {
        let (text, finding) = only_finding(page);
        assert_eq!(finding.rule, page.name, "{}", finding.message);
        assert_eq!(finding.level, page.level, "{}", page.name);
        let printed = page.fails_text.as_ref().map(Example::marked).unwrap_or_default();
        let both = [page.fails.marked(), printed].concat();
        let [marked] = both[..] else { panic!("{} marks one place", page.name) };
        let (at, wanted) = (finding.at.at.text(&text), marked.text(&text));
        assert_eq!(finding.at.at, marked, "{} points at {at:?}, and {wanted:?} is marked", page.name);
        assert!(!marked.is_empty(), "{} marks nothing that can be seen", page.name);
    }
}

#[test]
fn the_passing_example_is_silent() {
    for page in book() {
        assert!(page.passes.marked().is_empty(), "{}", page.name);
        if let Some(printed) = &page.passes_text {
            let outcome = printed_outcome(&page.passes.text(), Some(&printed.text()));
            let in_texts: Vec<&Finding> = outcome.texts.iter().flat_map(|printed| &printed.findings).collect();
            assert!(outcome.findings.is_empty() && in_texts.is_empty(), "{}: {outcome:#?}", page.name);
            assert!(outcome.texts.iter().all(|printed| printed.share.right > 0), "{}", page.name);
            continue;
        }
        let text = page.passes.text();
        let outcome = outcome_by(&text, &page.settings());
        assert!(outcome.findings.is_empty(), "{}: {:#?}", page.name, told(&text, &outcome));
        if let Some(signed) = &page.signed {
            let (text, signed) = (page.passes.text(), signed.text());
            assert_silent(&signed);
            let outcome = signed_outcome(&text, Some(&signed));
            assert!(outcome.findings.is_empty(), "{}: {:#?}", page.name, told(&text, &outcome));
        }
    }
}

#[test]
fn only_the_rules_about_sign_offs_show_what_was_signed() {
    let showing: Vec<&str> = book().iter().filter(|page| page.signed.is_some()).map(|page| page.name).collect();
    assert_eq!(showing, SIGN_OFF_RULES);
}

/// A number that only its writer knows cannot be corrected for her; every other example has its correction.
const NO_CORRECTION: &[&str] = &[
    "bed-not-covered",
    "sizes-out-of-order",
    "block-count-wrong",
    "piece-unused",
    "scaled-size",
    "curved-edge-needs-bias",
    "hollow-edge",
    "unit-cut-generous",
    "block-does-not-sum",
    "border-does-not-fit",
    "rows-do-not-fit",
    "join-near-corner",
    "other-measure-missing",
    "not-on-ruler",
    "piece-longer-than-strip",
    "strip-width-unclear",
    "beside-short",
    "not-checked",
    "not-yaml",
    "missing-entry",
    "wrong-shape",
    "fraction-run-together",
    "out-of-range",
    "size-not-stated",
    "repeated-key",
    "accepted-unused",
    "text-differs",
    "text-pair-disagrees",
    "word-and-figure-disagree",
    "text-sum-wrong",
    "text-piece-unknown",
    "text-silent",
    "text-not-read",
    "not-signed",
    "changed-since-signed",
];

#[test]
fn the_correction_clears_the_failing_example() {
    for page in book() {
        let (text, finding) = only_finding(page);
        let has_none = NO_CORRECTION.contains(&page.name);
        assert_eq!(finding.correction.is_none(), has_none, "{}", page.name);
        if !has_none {
            mended(&text, &finding);
        }
    }
}

#[test]
fn a_finding_of_every_rule_can_be_read() {
    for page in book() {
        let (_, finding) = only_finding(page);
        for words in [&finding.message, &finding.help] {
            assert!(words.len() > 15, "{}: {words:?}", page.name);
            assert!(!words.contains("  "), "{}: two spaces in {words:?}", page.name);
            assert!(
                words.starts_with(|c: char| c.is_uppercase() || c.is_numeric() || c == '"'),
                "{}: {words:?}",
                page.name
            );
        }
        assert!(finding.message.ends_with('.'), "{}: {}", page.name, finding.message);
        assert!(!finding.at.text.is_empty(), "{}", page.name);
    }
}

#[test]
fn every_rule_has_its_two_files_and_every_file_its_rule() {
    let names: BTreeSet<String> = RULES.iter().map(|rule| rule.name.to_string()).collect();
    assert_eq!(names.len(), RULES.len(), "two rules have one name");
    assert_eq!(names_in(&folder("rules"), "yaml"), names);
    // Beside the pages stand the words by which printed texts are read.
    assert_eq!(names_in(&folder("rules/words"), "yaml"), BTreeSet::from(["text-words".to_string()]));
    let pages = fs::read_dir(folder("rules")).expect("a folder").count() - 1;
    assert_eq!(pages, RULES.len(), "something else is in rules/");
    let sources: BTreeSet<String> = names.iter().map(|name| name.replace('-', "_")).collect();
    let shared = [
        "mod",
        "backing_words",
        "binding_words",
        "count_words",
        "fabric_words",
        "fold_words",
        "half_words",
        "layout_words",
        "sign_off_words",
        "look_alikes",
        "subject_words",
        "unit_words",
    ]
    .map(str::to_string);
    let files = &names_in(&folder("src/rules"), "rs") - &BTreeSet::from(shared);
    assert_eq!(files, sources);
}

#[test]
fn a_page_has_the_name_of_its_file_and_of_its_rule() {
    for (rule, page) in RULES.iter().zip(book()) {
        assert_eq!(rule.name, page.name);
        assert_eq!(text_of(&folder("rules").join(format!("{}.yaml", rule.name))), page.text);
    }
    assert!(page("no-such-rule").is_none());
}

#[test]
fn every_value_has_a_name_of_its_own_a_meaning_and_a_source() {
    let values: Vec<_> = book().iter().flat_map(|page| page.values).collect();
    let names: BTreeSet<&str> = values.iter().map(|value| value.name).collect();
    assert_eq!(names.len(), values.len(), "two values have one name");
    for value in &values {
        assert!(!value.source.trim().is_empty(), "{} has no source", value.name);
        assert!(value.meaning.ends_with('.'), "{}: {:?}", value.name, value.meaning);
    }
    assert!(values.len() >= 20, "{} values are left", values.len());
}

#[test]
fn every_value_is_used() {
    let program = program();
    for value in book().iter().flat_map(|page| page.values) {
        assert!(program.contains(&format!("\"{}\"", value.name)), "nothing goes by {}", value.name);
    }
}

#[test]
fn every_page_is_written() {
    for page in book() {
        assert!(!page.text.contains("TO BE WRITTEN"), "{}", page.name);
        for words in [&page.headline, &page.why, &page.working] {
            assert!(words.ends_with('.') && words.len() > 20, "{}: {words:?}", page.name);
        }
        let sentences = page.headline.matches(['.', '!', '?']).count();
        assert_eq!(sentences, 1, "{}: the headline is one sentence: {:?}", page.name, page.headline);
    }
}

#[rstest]
#[case("rules")]
#[case("rule-book")]
fn a_page_that_is_not_there_is_no_page(#[case] name: &str) {
    assert!(page(name).is_none());
}

#[test]
fn the_page_says_so_where_a_rule_has_two_levels() {
    let page = page("pair-disagrees").expect("its page");
    assert_eq!(page.level, Level::Error);
    assert!(page.working.contains("error") && page.working.contains("query"), "{}", page.working);
}
