//! Where the printed texts of a manuscript say its numbers.

use std::collections::BTreeSet;

use crate::audit::Line;
use crate::manuscript::{Manuscript, Place, Span};
use crate::text::{Share, State, TextOutcome, TextPlace, place_words};

/// The texts that were read, and which numbers of the manuscript stand where in them.
#[derive(Clone, Debug, Default)]
pub struct WorksheetTexts {
    /// The texts, in the order in which the manuscript names them.
    pub list: Vec<WorksheetText>,
    /// The numbers, in the order of reading.
    said: Vec<SaidInText>,
    /// Where the manuscript states the numbers that were looked for.
    sought: BTreeSet<Span>,
}

/// A text that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorksheetText {
    /// The file, as the manuscript names it.
    pub name: String,
    /// How many of its numbers were matched.
    pub share: Share,
}

/// A number of the manuscript in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaidInText {
    /// The file, as the manuscript names it.
    pub name: String,
    /// The line and the column, where the file is a text.
    pub place: Option<Place>,
    /// The page or the paragraph, where it is none.
    pub page: Option<TextPlace>,
    /// As it is written there.
    pub quoted: String,
    /// Whether the text says something else than the manuscript.
    pub differs: bool,
    /// The size that it is for, where it is for one.
    size: Option<String>,
    /// Where the manuscript states it.
    at: Span,
    /// Whether it is stated so in the manuscript, and does not only follow.
    is_stated: bool,
}

impl SaidInText {
    /// `tide-pool.md:14`, or `tide-pool.pdf, page 3`; of one that differs, with what it says.
    pub fn words(&self) -> String {
        let line = || self.place.map_or(1, |place| place.line).to_string();
        let place = place_words(&self.name, self.page, line);
        if self.differs { format!("{place} says {}", self.quoted) } else { place }
    }
}

/// How many places in texts are told of one number.
const MAX_TOLD: usize = 3;

impl WorksheetTexts {
    /// What the texts of a manuscript say of its numbers; nothing where it names none.
    pub(super) fn new(manuscript: &Manuscript, read: &[TextOutcome]) -> WorksheetTexts {
        let mut texts = WorksheetTexts::default();
        for text in read {
            texts.add(manuscript, text);
        }
        texts
    }

    fn add(&mut self, manuscript: &Manuscript, text: &TextOutcome) {
        let TextOutcome { name, file, keys, .. } = text;
        self.sought.extend(keys.iter().filter(|key| key.is_stated()).map(|key| key.at));
        for number in &text.numbers {
            let differs = number.state == State::Differs;
            let of = || number.keys.iter().map(|key| &keys[*key]);
            let several = of().map(|key| key.at).collect::<BTreeSet<_>>().len() > 1;
            // Which of several numbers one should be that is none of them, nobody knows.
            if !(number.state == State::Right || differs && !several) {
                continue;
            }
            let at = file.span(number.passage, number.at.clone());
            let page = file.place(at);
            self.said.extend(of().map(|key| SaidInText {
                name: name.clone(),
                place: page.is_none().then(|| file.source.place(at.start)),
                page,
                quoted: file.printed.passages[number.passage].text[number.at.clone()].trim().to_string(),
                differs,
                size: key.size.map(|size| manuscript.sizes[size].name.clone()),
                at: key.at,
                is_stated: key.is_stated(),
            }));
        }
        self.list.push(WorksheetText { name: name.clone(), share: text.share });
    }

    /// Where texts say a number; `None` where it is none that they are searched for.
    pub fn of(&self, line: &Line) -> Option<Vec<&SaidInText>> {
        if !self.sought.contains(&line.at) {
            return None;
        }
        let is_size = |size: &Option<String>| size.is_none() || line.size.is_none() || *size == line.size;
        let mut said: Vec<&SaidInText> =
            self.said.iter().filter(|said| said.at == line.at && is_size(&said.size)).collect();
        // What follows from a number tells it too: a total instead of each part.
        if said.iter().any(|said| said.is_stated) {
            said.retain(|said| said.is_stated);
        }
        said.dedup_by(|one, other| (&one.name, one.place, one.page) == (&other.name, other.place, other.page));
        Some(said)
    }

    /// The same in words; `None` as well where no text was read.
    pub fn words(&self, line: &Line) -> Option<String> {
        let said = self.of(line)?;
        let (text, texts) = if self.list.len() == 1 { ("the text", "the text") } else { ("the texts", "any text") };
        if said.is_empty() {
            return Some(format!("Not found in {texts}."));
        }
        let mut places: Vec<String> = Vec::new();
        for words in said.iter().map(|said| said.words()) {
            if !places.contains(&words) {
                places.push(words);
            }
        }
        let more = places.len().saturating_sub(MAX_TOLD);
        places.truncate(MAX_TOLD);
        let more = if more == 0 { String::new() } else { format!(", and {more} more") };
        Some(format!("In {text}: {}{more}.", places.join("; ")))
    }

    /// How many of some numbers were looked for and are in no text.
    pub fn not_said(&self, lines: &[Line]) -> usize {
        let is_not_said = |line: &&Line| self.of(line).is_some_and(|said| said.is_empty());
        lines.iter().filter(is_not_said).map(|line| (line.at, &line.size)).collect::<BTreeSet<_>>().len()
    }
}
