//! Where an entry stands in a manuscript, by the path that a text of the corpus has for it.

use sparestrip::manuscript::Mistakes;
use sparestrip::manuscript::tree::{Arena, Kind, Node, build};

/// The byte at which the entry of each path starts, in the order of the paths. They are found as what they say is (see
/// `fill::entry`).
pub(super) fn places(manuscript: &str, paths: &[impl AsRef<str>]) -> Vec<usize> {
    let arena = Arena::new();
    let built = build(manuscript, &arena, &[], &mut Mistakes::default()).unwrap();
    let place = |path: &str| {
        let steps: Vec<&str> = path.split('.').collect();
        let found = follow(&built.tree, &steps).or_else(|| follow(inner(&built.tree, "fabrics")?, &steps));
        found.unwrap_or_else(|| panic!("{path} is not in the manuscript")).at.start
    };
    paths.iter().map(|path| place(path.as_ref())).collect()
}

fn follow<'n, 't>(node: &'n Node<'t>, steps: &[&str]) -> Option<&'n Node<'t>> {
    let Some((step, rest)) = steps.split_first() else { return Some(node) };
    if let Kind::List(items) = &node.kind {
        if let Some(at) = step.strip_prefix('#') {
            return follow(items.get(at.parse::<usize>().ok()?)?, rest);
        }
        return items.iter().find_map(|item| {
            let is_named = inner(item, "piece").and_then(said) == Some(step);
            if is_named { follow(item, rest) } else { follow(inner(item, "subcut")?, steps) }
        });
    }
    if let Some(inner) = inner(node, step) {
        return follow(inner, rest);
    }
    ["requires", "cut"].iter().find_map(|through| follow(inner(node, through)?, steps))
}

fn inner<'n, 't>(node: &'n Node<'t>, word: &str) -> Option<&'n Node<'t>> {
    let Kind::Table(entries) = &node.kind else { return None };
    entries.iter().find(|entry| entry.key == word).map(|entry| &entry.value)
}

fn said<'n>(node: &'n Node<'_>) -> Option<&'n str> {
    match &node.kind {
        Kind::Scalar { value, .. } => Some(value),
        _ => None,
    }
}

#[test]
fn a_path_stands_where_its_entry_is() {
    let manuscript =
        "fabrics:\n  ink:\n    cut:\n      - { piece: a, size: 3 }\n      - subcut: [{ piece: b, size: 4 }]\n";
    let found = places(manuscript, &["fabrics.ink.a.size", "ink.b.size", "ink.#0.size"]);
    let says: Vec<&str> = found.iter().map(|at| &manuscript[*at..=*at]).collect();
    assert_eq!(says, ["3", "4", "3"]);
}
