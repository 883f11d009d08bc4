//! New manuscripts from random answers: each is what was asked, and nothing in it is blamed: no number short, and none
//! more than is needed. The text is read back as YAML by a reader that others wrote.

use std::collections::BTreeSet;

use serde_yaml::Value;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::new_manuscript::{Answers, Methods, new_manuscript};
use sparestrip::quantity::Measure;
use sparestrip::rule_book::Settings;

use super::rng;
use crate::support::rng::Rng;

const MANUSCRIPTS: u64 = 500;

/// Notes on a quilt as it is, which no number of strips or yards would silence.
const ABOUT_THE_QUILT: [&str; 3] = ["hollow-edge", "join-near-corner", "not-on-ruler"];

const NAMES: [&str; 8] =
    ["Heron Steps", "Größte Decke", "No", "it's: a #1 [quilt]", "1984", "- dash", "\"quoted\" \\ back", "格子"];
const SIZES: [&str; 8] = ["throw", "crib", "twin bed", "größte", "1", "no", "a: b", "queen, long"];

/// A length as it is typed: in the manuscript's unit, whole or with a half.
fn length(rng: &mut Rng, metric: bool) -> String {
    let (least, most) = if metric { (25, 280) } else { (10, 110) };
    let whole = rng.between(least, most);
    match (rng.below(4), metric) {
        (0, false) => format!("{whole} 1/2"),
        (0, true) => format!("{whole}.5"),
        _ => whole.to_string(),
    }
}

fn answers(index: u64) -> Answers {
    let mut rng = rng(61, index);
    let metric = rng.one_in(2);
    let mut sizes: Vec<(String, String)> = Vec::new();
    for _ in 0..rng.between(1, 5) {
        let name = rng.pick(&SIZES).to_string();
        if sizes.iter().all(|(known, _)| *known != name) {
            let finished = format!("{} x {}", length(&mut rng, metric), length(&mut rng, metric));
            sizes.push((name, finished));
        }
    }
    let widths: &[&str] = if metric { &["6", "6.5", "7"] } else { &["2 1/4", "2 1/2", "2.5", "2 3/4"] };
    let binding = rng.pick(widths).to_string();
    Answers {
        name: rng.pick(&NAMES).to_string(),
        measure: if metric { Measure::Cm } else { Measure::Inch },
        sizes,
        binding: rng.one_in(2).then_some(binding),
        backing: rng.one_in(2),
        batting: rng.one_in(2),
        fabrics: (0..rng.below(3)).map(|fabric| format!("fabric {fabric}")).collect(),
    }
}

/// A name as a reader of YAML has it.
fn text(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => panic!("{other:?} is no text"),
    }
}

/// Whether each size stands in a section, in the order in which they were given.
fn has_sizes(section: &Value, answers: &Answers) {
    let sizes: Vec<String> = section.as_mapping().unwrap().keys().map(text).collect();
    let asked: Vec<String> = answers.sizes.iter().map(|(size, _)| size.clone()).collect();
    assert_eq!(sizes, asked);
}

fn is_what_was_asked(written: &str, answers: &Answers) {
    let yaml: Value = serde_yaml::from_str(written).unwrap_or_else(|error| panic!("{error} in\n{written}"));
    assert_eq!(text(&yaml["pattern"]), answers.name);
    let measure = if answers.measure == Measure::Inch { "inch" } else { "cm" };
    assert_eq!(yaml["measure"], measure);
    has_sizes(&yaml["sizes"], answers);
    for (size, finished) in &answers.sizes {
        assert_eq!(yaml["sizes"][size.as_str()]["finished"], finished.as_str());
    }
    let sections = [("binding", answers.binding.is_some()), ("backing", answers.backing), ("batting", answers.batting)];
    for (word, asked) in sections {
        assert_eq!(yaml.get(word).is_some(), asked, "{word}");
        if asked {
            has_sizes(&yaml[word]["requires"], answers);
        }
        let told = written.lines().filter(|line| line.starts_with("# To be filled in, where the pattern has it"));
        assert_eq!(told.into_iter().any(|line| line.contains(word)), !asked, "{word}:\n{written}");
    }
    if let Some(width) = &answers.binding {
        let stated = &yaml["binding"]["strip_width"];
        let shown =
            stated.as_str().map_or_else(|| serde_yaml::to_string(stated).unwrap().trim().to_string(), String::from);
        assert_eq!(shown, *width);
    }
    assert!(answers.fabrics.iter().all(|fabric| written.contains(&format!("#   {fabric}:"))));
}

#[test]
fn a_new_manuscript_is_what_was_asked_and_checks_clean() {
    let mut kinds = BTreeSet::new();
    for index in 0..MANUSCRIPTS {
        let answers = answers(index);
        let written = new_manuscript(&answers, &Methods::default(), &Settings::default());
        let written =
            written.unwrap_or_else(|left| panic!("manuscript {index}: {answers:#?}\n{}\n{:#?}", left.0.text, left.1));
        is_what_was_asked(&written, &answers);
        let outcome = check(&Source::from_text("new.pattern.yaml", &written), &Settings::default());
        let blamed = outcome.findings.iter().filter(|finding| !ABOUT_THE_QUILT.contains(&finding.rule));
        let blamed: Vec<_> = blamed.map(|finding| (finding.rule, &finding.message)).collect();
        assert!(blamed.is_empty(), "manuscript {index}: {blamed:#?}\n{written}");
        kinds.insert((answers.measure == Measure::Inch, answers.binding.is_some(), answers.backing, answers.batting));
    }
    assert_eq!(kinds.len(), 16, "every kind came up");
}
