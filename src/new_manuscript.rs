//! The text of a new manuscript: what was answered, every number that can be computed, and remarks where the writer goes
//! on.
//!
//! No number is computed here. The text is written with numbers that are too small, and its corrections are made as in
//! any manuscript (`fix`), so that what stands in it is what the rules ask for, and the smallest that they are content
//! with.

use std::collections::BTreeSet;

use crate::caution::CRIB;
use crate::check::{Corrections, check_with};
use crate::finding::{Finding, Level};
use crate::fix::fix;
use crate::manuscript::tree::{Kind, Node};
use crate::manuscript::{Source, name_in_place, with_tree};
use crate::quantity::Measure;
use crate::rule_book::Settings;

/// What a new manuscript is to state.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Answers {
    /// The pattern's name.
    pub name: String,
    /// What a bare number means.
    pub measure: Measure,
    /// The sizes: a name, and its finished width and length as they are typed.
    pub sizes: Vec<(String, String)>,
    /// How wide the strips of the binding are cut, as it is typed, where the pattern has one.
    pub binding: Option<String>,
    /// Whether it has a backing.
    pub backing: bool,
    /// Whether it has batting.
    pub batting: bool,
    /// The names of its fabrics, as far as they are known.
    pub fabrics: Vec<String>,
}

/// The methods of another manuscript, by section: its entries as they are written on one line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Methods {
    sections: Vec<(String, Vec<(String, String)>)>,
    /// What a bare number means in it, as its text says.
    pub measure: Option<String>,
}

/// The sections whose methods are taken from another manuscript.
const SECTIONS: [&str; 4] = ["assumes", "binding", "backing", "batting"];

/// What is no method: the numbers of each size, and what names something that the new manuscript has not.
const NO_METHOD: [&str; 2] = ["requires", "from"];

/// How wide remarks are.
const WIDTH: usize = 98;

/// How often what is left after the corrections is looked at: an opening that has no room in a small size, and so on.
const MOST_ROUNDS: usize = 50;

/// The text of a new manuscript. Where its numbers cannot be computed, what stands in the way.
///
/// # Errors
/// The findings that are left, with the text that they are in.
pub fn new_manuscript(
    answers: &Answers,
    like: &Methods,
    settings: &Settings,
) -> Result<String, Box<(Source, Vec<Finding>)>> {
    // Sizes first: what is wrong with them would be found again in every section.
    let head = Source::from_text("new.pattern.yaml", head(answers));
    is_clean(&head, settings)?;
    let mut by_hand = BTreeSet::new();
    loop {
        let source = computed(&Source::from_text("new.pattern.yaml", draft(answers, like, &by_hand)), settings);
        let Err(left) = is_clean(&source, settings) else { return Ok(with_caution(source, settings)) };
        // A binding on the bias can be cut in several ways, and so on: what the program cannot choose is left to the writer.
        let sections = left.1.iter().filter_map(|finding| section_at(&left.0.text, finding.at.at.start));
        let more: Vec<&'static str> = sections.filter(|section| !by_hand.contains(section)).collect();
        if more.is_empty() {
            return Err(left);
        }
        by_hand.extend(more);
    }
}

/// The text, and behind it what readers are to be warned of where a size fits a crib.
fn with_caution(source: Source, settings: &Settings) -> String {
    if check_with(&source, settings, Corrections::LeftOut).cribs.is_none() {
        return source.text;
    }
    let caution = textwrap::indent(&textwrap::fill(CRIB, WIDTH), "# ");
    format!("{}\n# To be printed with the pattern:\n{caution}\n", source.text)
}

/// The text with its numbers as the rules ask for them.
fn computed(draft: &Source, settings: &Settings) -> Source {
    let mut source = fix(draft, settings).source;
    for _ in 0..MOST_ROUNDS {
        let findings = check_with(&source, settings, Corrections::Tried).findings;
        // Nobody has chosen these numbers, so they may be lowered too.
        let mut grave = findings.iter().filter(|finding| finding.level > Level::Note);
        let Some(correction) = grave.find_map(|finding| finding.correction.as_ref()) else { break };
        source = fix(&Source::from_text(&source.path, correction.apply(&source.text)), settings).source;
    }
    source
}

/// The section with numbers that a byte of the text stands in.
fn section_at(text: &str, byte: usize) -> Option<&'static str> {
    let before = text.get(..byte)?;
    let starts = ["binding", "backing", "batting"]
        .into_iter()
        .filter_map(|word| Some((before.rfind(&format!("\n{word}:\n"))?, word)));
    starts.max().map(|(_, word)| word)
}

fn is_clean(source: &Source, settings: &Settings) -> Result<(), Box<(Source, Vec<Finding>)>> {
    let mut findings = check_with(source, settings, Corrections::LeftOut).findings;
    findings.retain(|finding| finding.level > Level::Note);
    if findings.is_empty() { Ok(()) } else { Err(Box::new((source.clone(), findings))) }
}

/// The pattern and its sizes.
fn head(answers: &Answers) -> String {
    let mut text = format!("pattern: {}\nmeasure: {}\nsizes:\n", name(&answers.name), word(answers.measure));
    for (size, finished) in &answers.sizes {
        text.push_str(&format!("  {}: {{ finished: {} }}\n", name(size), value(finished)));
    }
    text
}

/// The format's word for a measure.
fn word(measure: Measure) -> &'static str {
    match measure {
        Measure::Inch => "inch",
        Measure::Cm => "cm",
    }
}

/// A name as it is written, in quotes where YAML needs them.
fn name(name: &str) -> String {
    name_in_place(name, "")
}

/// What was typed as a value, so that nothing in it is taken for another entry.
fn value(typed: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '/' | '.' | '"' | '\'' | '-');
    if typed.chars().all(plain) && typed.starts_with(char::is_alphanumeric) { typed.to_string() } else { name(typed) }
}

/// The whole text, with numbers that are too small.
fn draft(answers: &Answers, like: &Methods, by_hand: &BTreeSet<&str>) -> String {
    let mut text = String::from(
        "# sparestrip watch checks this file each time you save it; sparestrip words lists what can be stated.\n",
    );
    text.push_str(&head(answers));
    let assumes = like.of("assumes");
    if !assumes.is_empty() {
        text.push_str(&format!("\nassumes:\n{}", lines(assumes)));
    }
    let least = if answers.measure == Measure::Inch { "1/8 yd" } else { "1 cm" };
    if let Some(width) = &answers.binding {
        let methods = binding_methods(answers.measure, width, like.of("binding"));
        section(&mut text, answers, by_hand, "binding", &methods, &format!("{{ strips: 1, fabric: {least} }}"));
    }
    if answers.backing {
        let methods = with_overhang(answers.measure, like.of("backing"));
        section(&mut text, answers, by_hand, "backing", &methods, &format!("{{ fabric: {least} }}"));
    }
    if answers.batting {
        let methods = like.of("batting").to_vec();
        let methods = if answers.backing { methods } else { with_overhang(answers.measure, &methods) };
        section(&mut text, answers, by_hand, "batting", &methods, "1 x 1");
    }
    text.push_str(&to_be_filled_in(answers));
    text
}

/// The methods of a binding. An opening and tails that a printed pattern would tell: the rule book's in inches, and as a
/// metric pattern rounds them. Common practice.
fn binding_methods(measure: Measure, width: &str, like: &[(String, String)]) -> Vec<(String, String)> {
    let mut methods = vec![("strip_width".to_string(), value(width))];
    methods.extend(like.iter().filter(|(word, _)| word != "strip_width").cloned());
    let (tails, opening) = if measure == Measure::Inch { ("10", "12") } else { ("25", "30") };
    let states = |word: &str| like.iter().any(|(known, _)| known == word);
    // A facing has a strip for each side, and nothing is left loose.
    let is_facing = like.iter().any(|(word, value)| word == "fold" && value == "facing");
    if !states("extra_length") && !is_facing {
        for (word, length) in [("tails", tails), ("opening", opening)].into_iter().filter(|(word, _)| !states(word)) {
            methods.push((word.to_string(), length.to_string()));
        }
    }
    methods
}

/// The methods with how far it reaches beyond the quilt. Common practice.
fn with_overhang(measure: Measure, like: &[(String, String)]) -> Vec<(String, String)> {
    let overhang = if measure == Measure::Inch { "4" } else { "10" };
    let stated = like.iter().any(|(word, _)| word == "overhang");
    let own = (!stated).then(|| ("overhang".to_string(), overhang.to_string()));
    own.into_iter().chain(like.iter().cloned()).collect()
}

/// A section with its methods and its numbers; as remarks, where the numbers are left to the writer.
fn section(
    text: &mut String,
    answers: &Answers,
    by_hand: &BTreeSet<&str>,
    word: &str,
    methods: &[(String, String)],
    least: &str,
) {
    let is_by_hand = by_hand.contains(word);
    let each = if is_by_hand { "{ ... }" } else { least };
    let mut section = format!("{word}:\n{}  requires:\n", lines(methods));
    for (size, _) in &answers.sizes {
        section.push_str(&format!("    {}: {each}\n", name(size)));
    }
    if is_by_hand {
        let remarks: String = section.lines().map(|line| format!("# {line}\n")).collect();
        text.push_str(&format!(
            "\n# To be filled in: its numbers can be chosen in several ways (sparestrip words {word}).\n{remarks}"
        ));
    } else {
        text.push_str(&format!("\n{section}"));
    }
}

fn lines(entries: &[(String, String)]) -> String {
    entries.iter().map(|(word, value)| format!("  {word}: {value}\n")).collect()
}

/// What nobody but the writer knows, as remarks.
fn to_be_filled_in(answers: &Answers) -> String {
    let sizes = |each: &str| {
        let of_size = |(size, _): &(String, String)| format!("{}: {each}", name(size));
        answers.sizes.iter().map(of_size).collect::<Vec<_>>().join(", ")
    };
    let sections = [("binding", answers.binding.is_some()), ("backing", answers.backing), ("batting", answers.batting)];
    let missing: Vec<&str> = sections.into_iter().filter(|(_, there)| !there).map(|(word, _)| word).collect();
    let mut text = String::new();
    if !missing.is_empty() {
        text.push_str(&format!("\n# To be filled in, where the pattern has it: {}.\n", missing.join(", ")));
    }
    let amount = if answers.measure == Measure::Inch { "... yd" } else { "... cm" };
    let unnamed = ["background".to_string()];
    let fabrics = if answers.fabrics.is_empty() { &unnamed[..] } else { &answers.fabrics };
    text.push_str(
        "\n# To be filled in: each fabric with its amounts and its cutting list (take the # away).\n# fabrics:\n",
    );
    for fabric in fabrics {
        text.push_str(&format!("#   {}:\n#     requires: {{ {} }}\n", name(fabric), sizes(amount)));
        text.push_str(&format!(
            "#     cut:\n#       - {{ piece: A, size: ... x ..., pieces: {{ {} }} }}\n",
            sizes("...")
        ));
    }
    text.push_str("\n# To be filled in, where the pattern tells its design: units, blocks and layout (sparestrip manual design).\n");
    text
}

impl Methods {
    /// The methods of a manuscript.
    pub fn of_manuscript(source: &Source) -> Methods {
        with_tree(source, |_, tree, _| {
            let entries = tree.map(table).unwrap_or_default();
            let find = |word: &str| entries.iter().find(|entry| entry.key == word).map(|entry| &entry.value);
            let sizes: Vec<&str> = find("sizes").map(table).unwrap_or_default().iter().map(|size| size.key).collect();
            let sections = SECTIONS.into_iter().filter_map(|word| {
                let methods = table(find(word)?).iter().filter(|entry| !NO_METHOD.contains(&entry.key));
                let written = methods.filter_map(|entry| {
                    Some((entry.key.to_string(), on_one_line(&entry.value, &source.text, &sizes)?))
                });
                Some((word.to_string(), written.collect()))
            });
            let measure = find("measure").and_then(|value| on_one_line(value, &source.text, &[]));
            Methods { sections: sections.collect(), measure }
        })
    }

    /// Whether there is such a section.
    pub fn has(&self, section: &str) -> bool {
        self.sections.iter().any(|(word, _)| word == section)
    }

    /// A method of a section, as it is written.
    pub fn method(&self, section: &str, word: &str) -> Option<&str> {
        self.of(section).iter().find(|(known, _)| known == word).map(|(_, value)| value.as_str())
    }

    fn of(&self, section: &str) -> &[(String, String)] {
        self.sections.iter().find(|(word, _)| word == section).map_or(&[], |(_, entries)| entries)
    }
}

fn table<'n, 't>(node: &'n Node<'t>) -> &'n [crate::manuscript::tree::Entry<'t>] {
    match &node.kind {
        Kind::Table(entries) => entries,
        _ => &[],
    }
}

/// A value on one line, where it has nothing in it that goes by size.
fn on_one_line(node: &Node<'_>, text: &str, sizes: &[&str]) -> Option<String> {
    match &node.kind {
        Kind::Scalar { .. } => Some(node.at.text(text)).filter(|text| !text.contains(['\n', '\r'])).map(str::to_string),
        Kind::Table(entries) => {
            let each = entries.iter().map(|entry| {
                let value = on_one_line(&entry.value, text, sizes).filter(|_| !sizes.contains(&&*entry.key))?;
                Some(format!("{}: {value}", name(entry.key)))
            });
            Some(format!("{{ {} }}", each.collect::<Option<Vec<_>>>()?.join(", ")))
        }
        Kind::List(items) => {
            let each = items.iter().map(|item| on_one_line(item, text, sizes));
            Some(format!("[{}]", each.collect::<Option<Vec<_>>>()?.join(", ")))
        }
        _ => None,
    }
}
