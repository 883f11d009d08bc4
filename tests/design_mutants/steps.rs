//! The example that tells each step of the sewing: each number of a step, changed either way, is found out.

use std::collections::BTreeMap;
use std::path::Path;

use sparestrip::finding::Level;

use super::findings;
use super::kinds::is_of;
use super::manuscript::{changed, numbers};

const ONE: i64 = 64;
const EIGHTH: i64 = 8;

/// The numbers of a step, and by how many sixty-fourths each is changed.
const STEPS: &[(&str, &[i64])] = &[
    ("sizes/*/finished/*", &[-ONE, ONE]),
    ("units/*/finished/*", &[-32, 32]),
    ("units/*/center/*", &[-32, 32]),
    ("units/*/logs/*", &[-16, 16]),
    // A smaller corner is a smaller square, which is more than is needed.
    ("units/*/corner/0", &[16]),
    ("units/*/makes/*/0", &[-ONE, ONE]),
    ("blocks/*/finished/0", &[-ONE, ONE]),
    ("blocks/*/unfinished/0", &[-EIGHTH, EIGHTH, -32]),
    ("blocks/*/makes/*/0", &[-ONE, ONE]),
    ("layout/*/across/0", &[-ONE, ONE]),
    ("layout/*/down/0", &[-ONE, ONE]),
    ("layout/*/blocks/*/0", &[-ONE, ONE]),
    ("layout/*/measures/*", &[-EIGHTH, EIGHTH, -32]),
    ("layout/*/borders/width/0", &[-32, 32]),
    ("layout/*/borders/measures/*", &[-EIGHTH, EIGHTH, -32]),
    ("fabrics/*/cut/size/*", &[-EIGHTH]),
    ("fabrics/*/cut/pieces/*/0", &[-ONE]),
];

#[allow(clippy::disallowed_methods)] // The project's own example is small and is text.
fn example() -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns/osprey-landing.pattern.yaml");
    std::fs::read_to_string(file).expect("the example")
}

#[test]
fn each_number_of_a_step_is_caught_and_shown() {
    let text = example();
    assert_eq!(findings(&text), Vec::new());
    let mut caught: BTreeMap<&str, usize> = BTreeMap::new();
    let mut missed = Vec::new();
    for number in numbers(&text) {
        let Some((path, steps)) = STEPS.iter().find(|(path, _)| is_of(path, &number.path)) else { continue };
        let was = &text[number.at.clone()];
        for is in steps.iter().filter_map(|by| changed(was, *by)) {
            let mut mutant = text.clone();
            mutant.replace_range(number.at.clone(), &is);
            let at = number.at.start..number.at.start + is.len();
            let touches = |start: usize, end: usize| start < at.end && at.start < end;
            let is_shown = findings(&mutant).iter().filter(|found| found.level >= Level::Query).any(|found| {
                touches(found.at.at.start, found.at.at.end)
                    || found.related.iter().any(|label| touches(label.at.start, label.at.end))
            });
            if is_shown {
                *caught.entry(path).or_default() += 1;
            } else {
                missed.push(format!("{}: {is} in place of {was}", number.path));
            }
        }
    }
    assert!(missed.is_empty(), "{} missed:\n{}", missed.len(), missed.join("\n"));
    assert_eq!(caught.len(), STEPS.len(), "{caught:?}");
    assert!(caught.values().sum::<usize>() > 300, "{caught:?}");
}
