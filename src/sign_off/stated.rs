//! Every value that a manuscript states, with the words that lead to it. Comments, order and spacing are no part of it.
//!
//! The values are the leaves of the manuscript's tree, so that a new word of the format is signed without further work;
//! lists whose items have names go by these, so that order says nothing.

use std::collections::{BTreeMap, BTreeSet};

use crate::manuscript::section::{Shape, Step};
use crate::manuscript::tree::{Entry, Kind, Node};
use crate::manuscript::{FORMAT, Source, Span, with_tree};

/// What stands between the words that lead to a value.
pub(super) const BETWEEN: &str = " / ";

/// A value that is stated.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stated {
    /// What is stated, its spacing evened out.
    pub text: String,
    /// Where it stands.
    pub at: Span,
}

/// The values of a manuscript by the words that lead to each, such as `binding / requires / queen / strips`.
pub fn stated(source: &Source) -> BTreeMap<String, Stated> {
    let leaves = with_tree(source, |_, tree, _| {
        let mut leaves = Vec::new();
        if let Some(tree) = tree {
            gather(tree, Some(FORMAT), &[], &mut leaves);
        }
        leaves
    });
    let mut values = BTreeMap::new();
    let mut repeated: BTreeMap<String, usize> = BTreeMap::new();
    // A file that is no table states nothing, and that is a mistake of its own.
    for Leaf { path, value } in leaves.into_iter().filter(|leaf| !leaf.path.is_empty()) {
        let key = path.join(BETWEEN);
        let mut free = key.clone();
        // Something that is there twice may be a mistake of its own; neither value is lost here.
        while values.contains_key(&free) {
            let number = repeated.entry(key.clone()).or_insert(1);
            *number += 1;
            free = format!("{key}{BETWEEN}{number}");
        }
        values.insert(free, value);
    }
    values
}

/// A value with the words that lead to it.
#[derive(Clone, Debug)]
struct Leaf {
    path: Vec<String>,
    value: Stated,
}

/// Gathers the values at and under a node. `shape` is what the format has there, if it has anything.
fn gather(node: &Node<'_>, shape: Option<Shape>, path: &[String], leaves: &mut Vec<Leaf>) {
    let mut leaf = |text: String| leaves.push(Leaf { path: path.to_vec(), value: Stated { text, at: node.at } });
    match node.kind {
        Kind::Scalar { value, .. } => leaf(evened(value)),
        Kind::Empty => leaf(String::new()),
        // Something that could not be read was reported; it is still not the same as nothing.
        Kind::Unread => leaf("?".to_string()),
        Kind::Table(entries) => {
            for entry in entries {
                let shape = shape.and_then(|shape| shape.step(entry.key)).map(|(_, shape)| shape);
                gather(&entry.value, shape, &with(path, &evened(entry.key)), leaves);
            }
        }
        Kind::List(items) => {
            let each = shape.and_then(|shape| shape.step("")).map(|(_, shape)| shape);
            discover_list(items, each, path, leaves);
        }
    }
}

/// The items of a list. Those that have a name go by it, so that their order says nothing; others, such as the rows
/// of a block, go by their place.
fn discover_list(items: &[Node<'_>], shape: Option<Shape>, path: &[String], leaves: &mut Vec<Leaf>) {
    let mut named: BTreeMap<String, Vec<Vec<Leaf>>> = BTreeMap::new();
    for (index, item) in (1..).zip(items) {
        let mut own = Vec::new();
        match name(item, shape) {
            Some(name) => {
                gather(item, shape, &with(path, &name), &mut own);
                named.entry(name).or_default().push(own);
            }
            None => gather(item, shape, &with(path, &format!("{index}")), leaves),
        }
    }
    for mut alike in named.into_values() {
        // Of items with one name the order must say nothing either, and what one of them states is not the other's.
        // Their sizes tell them apart first, so that another count in one of them is not told as a change of all.
        alike.sort_by_cached_key(|leaves| {
            let size = leaves.iter().find(|leaf| leaf.path.last().is_some_and(|word| word == "size"));
            let all = leaves.iter().map(|leaf| (leaf.path.clone(), leaf.value.text.clone())).collect::<BTreeSet<_>>();
            (size.map(|leaf| leaf.value.text.clone()), all)
        });
        for (number, mut own) in (1..).zip(alike) {
            if number > 1 {
                for leaf in &mut own {
                    leaf.path[path.len()].push_str(&format!(" ({number})"));
                }
            }
            leaves.extend(own);
        }
    }
}

/// The name of a list's item, where it has one: a piece of a cutting list by its own, an accepted finding by its rule
/// and size, a printed text by its file.
fn name(item: &Node<'_>, shape: Option<Shape>) -> Option<String> {
    if let (Kind::Scalar { value, .. }, Some(Shape::Text)) = (&item.kind, shape) {
        return Some(evened(value));
    }
    let Kind::Table(entries) = &item.kind else { return None };
    let mut words = shape?.item_names();
    // The first of them must be there; the others make it more exact.
    let first = word(entries, words.next()?)?;
    let others = words.filter_map(|other| word(entries, other));
    Some(std::iter::once(first).chain(others).collect::<Vec<_>>().join(" "))
}

fn word(entries: &[Entry<'_>], key: &str) -> Option<String> {
    let entry = entries.iter().find(|entry| entry.key == key)?;
    match &entry.value.kind {
        Kind::Scalar { value, .. } => Some(evened(value)),
        _ => None,
    }
}

fn with(path: &[String], word: &str) -> Vec<String> {
    // A name with the separator in it would read as two words.
    let word = word.replace(BETWEEN, "/");
    path.iter().cloned().chain([word]).collect()
}

/// A text with its spacing evened out.
pub(super) fn evened(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the format has at the end of the words that lead to a value.
pub(super) fn shape(path: &[&str]) -> Option<Shape> {
    let mut shape = Some(FORMAT);
    for word in path {
        step(&mut shape, word);
    }
    shape
}

/// The place of the size's name among the words that lead to a value.
pub(super) fn size_place(path: &[&str]) -> Option<usize> {
    let mut shape = Some(FORMAT);
    path.iter().position(|word| step(&mut shape, word) == Some(Step::Size))
}

/// The names of the sizes among the values.
pub(super) fn size_names<'k>(keys: impl Iterator<Item = &'k String>) -> BTreeSet<&'k str> {
    keys.filter_map(|key| key.strip_prefix("sizes / ")?.split(BETWEEN).next()).collect()
}

/// What a word leads through from where the format has `shape`, which becomes what it has there.
fn step(shape: &mut Option<Shape>, word: &str) -> Option<Step> {
    let (step, under) = shape.and_then(|shape| shape.step(word)).unzip();
    *shape = under;
    step
}

/// What a value is in words, and the size that it is for: `binding strips` for `queen`.
pub(super) fn in_words(key: &str, sizes: &BTreeSet<&str>) -> (String, Option<String>) {
    let path: Vec<&str> = key.split(BETWEEN).collect();
    let mut shape = Some(FORMAT);
    let steps: Vec<Option<Step>> = path.iter().map(|word| step(&mut shape, word)).collect();
    let size = (0..path.len()).find(|index| steps[*index] == Some(Step::Size) && sizes.contains(path[*index]));
    let told = path.iter().enumerate().filter(|(index, word)| {
        let structure = matches!(**word, "requires" | "sizes") && *index + 1 < path.len();
        Some(*index) != size && !structure
    });
    let told: Vec<&str> = told.map(|(_, word)| *word).collect();
    let words = match told.as_slice() {
        ["fabrics", name] => format!("fabric {name}, what to buy"),
        ["fabrics", name, "cut", rest @ ..] | ["fabrics", name, rest @ ..] => {
            format!("fabric {name}, {}", rest.join(" "))
        }
        ["units", name, rest @ ..] => format!("unit {name}, {}", rest.join(" ")),
        ["blocks", name, rest @ ..] => format!("block {name}, {}", rest.join(" ")),
        words => words.join(" "),
    };
    (words, size.map(|index| path[index].to_string()))
}
