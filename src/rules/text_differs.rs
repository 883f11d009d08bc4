//! A number of a printed text that the manuscript states otherwise.

use super::Context;
use super::wording::text::{InText, stated_at, texts};
use crate::finding::Finding;
use crate::text::{ReadNumber, State};

/// How many places of the manuscript are told where several could be meant.
const MAX_TOLD: usize = 3;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in texts(context) {
        let differing = text.reading.numbers.iter().filter(|number| number.state == State::Differs);
        findings.extend(differing.filter_map(|number| finding(context, &text, number)));
    }
}

fn finding(context: &Context<'_>, text: &InText<'_>, number: &ReadNumber) -> Option<Finding> {
    let keys = &text.reading.keys;
    let named = number.keys.iter().map(|key| &keys.list[*key]);
    // Several places that say the same are told once.
    let mut told: Vec<_> = Vec::new();
    for key in named {
        if !told.iter().any(|(other, _): &(&crate::text::Key, String)| other.at == key.at) {
            told.push((key, keys.value(key, context.source)));
        }
    }
    let (first, value) = told.first()?;
    let written = text.written(number.passage, &number.at);
    let mut values: Vec<&str> = told.iter().map(|(_, value)| value.as_str()).collect();
    values.dedup();
    let needed = match values[..] {
        [one] => one.to_string(),
        _ => values.iter().take(MAX_TOLD).copied().collect::<Vec<_>>().join(" or "),
    };
    let verb = if first.is_stated() { "states" } else { "makes it" };
    let message = format!("The text says {}; the manuscript {verb} {needed}.", written.trim());
    let label = format!("{value} in the manuscript");
    let mut finding = text.finding(number.passage, &number.at, &number.sentence, &label, message);
    if let [(only, _)] = told[..] {
        finding = finding.for_some_size(keys.size(only));
    }
    let (words, elsewhere): (Vec<_>, Vec<_>) =
        told.iter().take(MAX_TOLD).map(|(key, _)| stated_at(context.source, text.reading, key)).unzip();
    finding = elsewhere.into_iter().fold(finding, Finding::see_elsewhere);
    finding = finding.help(format!("In the manuscript: {}.", words.join("; or ")));
    Some(finding.help("Correct the text, or the manuscript where the text is right.").numbers(written, needed))
}
