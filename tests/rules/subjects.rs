//! What findings are about: enough in the head of each to tell it from every other of its rule.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use sparestrip::check::Outcome;
use sparestrip::discover::discover;
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::book;

use crate::desk::outcome;

/// Rules about how a manuscript is written down. What they find is corrected and cannot be accepted, so that two
/// findings of one of them need not be told apart.
pub(crate) const HOW_IT_IS_WRITTEN: [&str; 8] = [
    "not-yaml",
    "unknown-word",
    "missing-entry",
    "wrong-shape",
    "unreadable-quantity",
    "out-of-range",
    "unknown-size",
    "repeated-key",
];

/// The text of every example, and of both examples of every page.
pub(crate) fn manuscripts() -> Vec<(String, String)> {
    let examples = discover(&[Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns")]).files;
    assert!(examples.len() >= 13, "{examples:?}");
    let read = |path: &PathBuf| (path.display().to_string(), Source::open(path).expect("an example").text.clone());
    let pages = book()
        .iter()
        .flat_map(|page| [&page.fails, &page.passes].map(|page_text| (page.name.to_string(), page_text.text())));
    examples.iter().map(read).chain(pages).collect()
}

fn all(outcome: &Outcome) -> impl Iterator<Item = &Finding> {
    outcome.findings.iter().chain(outcome.accepted.iter().map(|accepted| &accepted.finding))
}

#[test]
fn no_two_findings_of_a_manuscript_have_the_same_rule_size_and_subject() {
    for (name, text) in manuscripts() {
        let outcome = outcome(&text);
        let mut seen: BTreeMap<_, &Finding> = BTreeMap::new();
        for finding in all(&outcome).filter(|finding| !HOW_IT_IS_WRITTEN.contains(&finding.rule)) {
            let other = seen.insert((finding.rule, &finding.size, &finding.subject), finding);
            assert!(other.is_none(), "{name}: {other:#?} and {finding:#?}");
        }
    }
}

/// A pattern in one size with a binding, a backing and two fabrics that have a piece of one name.
const PAIRS: &str = "\
pattern: Mooring
measure: inch
sizes: { lap: { finished: 60 x 76 } }
binding: { strip_width: 2 1/2, requires: { lap: { strips: 9, fabric: 3/4 yd (85 cm) } } }
backing: { requires: { lap: { fabric: 5 yd (5 m) } } }
fabrics:
  ink:
    requires: { lap: 1/8 yd }
    cut:
      - { piece: A, size: 6 1/2 x 6 1/2, strips: { lap: 1 }, pieces: { lap: 20 } }
      - { piece: A, size: 4 1/2 x 4 1/2, strips: { lap: 1 }, pieces: { lap: 20 } }
  sand:
    requires: { lap: 1/8 yd }
    cut: [ { piece: A, size: 6 1/2 x 6 1/2, strips: { lap: 1 }, pieces: { lap: 20 } } ]
";

fn heads(text: &str, rule: &str) -> Vec<String> {
    let outcome = outcome(text);
    let found = outcome.findings.iter().filter(|finding| finding.rule == rule);
    found.map(|finding| finding.about_words().unwrap_or_default()).collect()
}

#[test]
fn a_head_names_the_fabric_and_the_piece() {
    assert_eq!(heads(PAIRS, "fabric-short"), ["lap, fabric ink", "lap, fabric sand"]);
    let pieces = ["lap, fabric ink, piece A", "lap, fabric ink, piece A (2)", "lap, fabric sand, piece A"];
    assert_eq!(heads(PAIRS, "strips-short"), pieces);
}

#[test]
fn a_head_names_the_number_where_a_rule_looks_at_several() {
    assert_eq!(heads(PAIRS, "pair-disagrees"), ["lap, binding fabric", "lap, backing fabric"]);
}
