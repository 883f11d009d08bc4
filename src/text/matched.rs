//! A text with what each of its numbers was matched to, in words: what `sparestrip read` shows.

use super::files::TextFile;
use super::passage::TextPlace;
use super::reading::{Reading, Reference, Share, State};
use crate::manuscript::{ReadText, Source, Span, arena_for};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;

/// A text with its numbers.
#[derive(Clone, Debug)]
pub struct MatchedText {
    /// The numbers, in the order of reading.
    pub numbers: Vec<MatchedNumber>,
    /// How many were matched.
    pub share: Share,
}

/// A number with what it was matched to.
#[derive(Clone, Debug)]
pub struct MatchedNumber {
    /// Where it stands: a line and a column, or a page or a paragraph.
    pub place: String,
    /// Its bytes in the file, where the format has such.
    pub at: Span,
    /// As it is written.
    pub quoted: String,
    /// What came of it.
    pub state: State,
    /// The numbers of the manuscript that it was matched to, or that it differs from.
    pub matched: Vec<String>,
}

/// Matches the numbers of a text with those of a manuscript.
pub fn match_text(file: &TextFile, source: &Source, settings: &Settings) -> MatchedText {
    let arena = arena_for(&source.text);
    let mut read = ReadText::of(source, &arena);
    go_by_design(&mut read.manuscript, settings);
    let needs = Needs::new(&read.manuscript, settings);
    let reading = Reading::new(&file.printed, &Reference::new(&read.manuscript, &needs, settings));
    let numbers = reading.numbers.iter().map(|number| {
        let matched = number.keys.iter().map(|key| {
            let key = &reading.keys.list[*key];
            let size = reading.keys.size(key).map(|size| format!(", {size}")).unwrap_or_default();
            format!("{}{size}: {}", reading.keys.name(key), reading.keys.value(key, source))
        });
        let at = file.span(number.passage, number.at.clone());
        let line = || {
            let place = file.source.place(at.start);
            format!("{}:{}", place.line, place.column)
        };
        let place = file.place(at).and_then(page_words).unwrap_or_else(line);
        let quoted = file.printed.passages[number.passage].text[number.at.clone()].to_string();
        MatchedNumber { place, at, quoted, state: number.state, matched: matched.collect() }
    });
    MatchedText { numbers: numbers.collect(), share: reading.share() }
}

/// A place in a file in words: `a.pdf, page 3`, and where it has no pages, as a line is told: `a.md:14`.
pub fn place_words(file: &str, page: Option<TextPlace>, line: impl FnOnce() -> String) -> String {
    match page.and_then(page_words) {
        Some(page) => format!("{file}, {page}"),
        None => format!("{file}:{}", line()),
    }
}

/// A page or a paragraph in words.
pub fn page_words(place: TextPlace) -> Option<String> {
    match place {
        TextPlace::Page(page) => Some(format!("page {page}")),
        TextPlace::Paragraph(paragraph) => Some(format!("paragraph {paragraph}")),
        TextPlace::Span(_) | TextPlace::Whole => None,
    }
}
