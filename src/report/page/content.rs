//! What the page says of one manuscript: the account made into words and rows. Everything from a file is sanitized
//! here; the engine escapes.

use minijinja::Value;
use serde::Serialize;

use super::found::{FoundByPlace, FoundIn, PageFinding};
use super::numbers::{Mark, MatrixTable, WorkingPart, mark, matrix_tables, working_parts};
use crate::audit::Status;
use crate::check::{Outcome, Tally};
use crate::finding::Level;
use crate::manuscript::Source;
use crate::report::figure::{Figure, figures_within};
use crate::report::nonbreaking::nonbreaking;
use crate::report::sanitize_line;
use crate::report::words::{StatusCounts, tally_in_words};
use crate::report::worksheet::{part_words, texts_in_words};
use crate::rule_book::Settings;
use crate::worksheet::{Matrix, Sections, Worksheet};

/// The worksheet of one manuscript.
#[derive(Serialize)]
pub(super) struct Sheet {
    /// What all its ids begin with: nothing where the page is of one manuscript.
    id: String,
    /// Its place among the manuscripts of the page.
    place: usize,
    pub(super) title: String,
    file: String,
    /// Whether a publisher's own levels or values hold.
    house: bool,
    version: &'static str,
    signing: Option<SigningWords>,
    /// Which part is shown, where it is not the whole.
    only: Option<String>,
    found: String,
    /// The mark for the worst finding.
    found_mark: Mark,
    ok: usize,
    /// Short and wrong ones together.
    bad: usize,
    accepted_numbers: usize,
    not_checked: usize,
    as_given: usize,
    checked: usize,
    /// A sentence for each printed text, and what is in none of them.
    texts: Vec<String>,
    findings: Vec<PageFinding>,
    accepted: Vec<PageFinding>,
    sizes: Vec<String>,
    tables: Vec<MatrixTable>,
    /// The numbers by section, with their workings.
    parts: Vec<WorkingPart>,
    workings: bool,
    drawings: Vec<DrawingGroup>,
    /// How many drawings there are.
    drawn: usize,
    /// How many sizes are too many to be drawn.
    not_drawn: usize,
    cautions: Vec<&'static str>,
}

/// The fingerprint of what was checked, and its state.
#[derive(Serialize)]
pub(super) struct SigningWords {
    /// As it stands on paper.
    pub(super) short: String,
    whole: String,
    state: &'static str,
    sentence: String,
}

/// The drawings of a section, those of the sizes one after another.
#[derive(Serialize)]
struct DrawingGroup {
    id: String,
    place: usize,
    heading: String,
    /// Whether three stand beside one another on paper, and not two.
    narrow: bool,
    figures: Vec<Drawing>,
}

/// One drawing.
#[derive(Serialize)]
struct Drawing {
    /// Its place among all drawings, from one.
    place: usize,
    caption: String,
    /// The size it is for, and where that stands among the sizes, from one; nothing and zero where it is for all.
    size: String,
    size_place: usize,
    svg: Value,
}

impl Sheet {
    pub(super) fn new(worksheet: &Worksheet, source: &Source, settings: &Settings, place: usize, id: String) -> Sheet {
        let account = &worksheet.account;
        let Outcome { findings, accepted, texts, .. } = &account.outcome;
        let in_texts =
            texts.iter().flat_map(|text| text.findings.iter().map(move |finding| (FoundIn::Text(text), finding)));
        let numbered = findings.iter().map(|finding| (FoundIn::Manuscript(source), finding)).chain(in_texts).zip(1..);
        let findings: Vec<PageFinding> =
            numbered.map(|((file, finding), number)| PageFinding::standing(file, &id, number, finding)).collect();
        let in_texts = texts.iter().flat_map(|text| text.accepted.iter().map(move |one| (FoundIn::Text(text), one)));
        let accepted = accepted.iter().map(|one| (FoundIn::Manuscript(source), one)).chain(in_texts).zip(1..);
        let accepted =
            accepted.map(|((file, one), number)| PageFinding::accepted(file, &id, number, &one.finding, &one.because));
        let accepted: Vec<PageFinding> = accepted.collect();
        let found = [FoundByPlace::new(&findings), FoundByPlace::new(&accepted)];
        let counts = StatusCounts::of(&account.lines);
        let matrix = worksheet.matrix();
        let figures = figures_within(&worksheet.drawings, &id);
        Sheet {
            title: sanitize_line(&account.title),
            place,
            file: file_name(source),
            house: *settings != Settings::default(),
            version: env!("CARGO_PKG_VERSION"),
            signing: worksheet.signing.as_ref().map(|signing| SigningWords {
                short: signing.short(),
                whole: signing.fingerprint.clone(),
                state: signing.word(),
                sentence: sanitize_line(&signing.sentence()),
            }),
            only: worksheet.only.as_ref().map(|only| part_words(only, account.lines.len())),
            found: tally_in_words(worksheet.tally),
            found_mark: found_mark(worksheet.tally),
            ok: counts.ok,
            bad: counts.short + counts.wrong,
            accepted_numbers: counts.accepted,
            not_checked: counts.not_checked,
            as_given: counts.as_given,
            checked: counts.checked(),
            sizes: matrix.sizes.iter().map(|size| sanitize_line(size)).collect(),
            tables: matrix_tables(&matrix, &worksheet.sections, &id),
            parts: working_parts(&matrix, &worksheet.sections, (source, &worksheet.texts), &found, &id),
            texts: texts_in_words(worksheet),
            workings: worksheet.workings,
            drawings: drawing_groups(&figures, &matrix, &worksheet.sections, &id),
            drawn: figures.len(),
            not_drawn: worksheet.drawings.more_sizes,
            cautions: worksheet.cautions.clone(),
            findings,
            accepted,
            id,
        }
    }

    /// What stands at the foot of each sheet of paper beside the title.
    pub(super) fn fingerprint(&self) -> &str {
        self.signing.as_ref().map_or("", |signing| &signing.short)
    }

    /// Whether printed texts were read.
    pub(super) fn has_texts(&self) -> bool {
        !self.texts.is_empty()
    }

    /// How many sizes and sections can be chosen.
    pub(super) fn choices(&self) -> (usize, usize) {
        (self.sizes.len(), self.parts.iter().map(|part| part.place).max().unwrap_or_default())
    }
}

fn found_mark(tally: Tally) -> Mark {
    match tally {
        Tally { errors: 1.., .. } => mark(Status::Wrong, None),
        Tally { queries: 1.., .. } => mark(Status::Ok, Some(Level::Query)),
        _ => mark(Status::AsGiven, None),
    }
}

/// The file's name alone: the folders that lead to it are nobody's business but the writer's.
fn file_name(source: &Source) -> String {
    sanitize_line(&source.path.file_name().unwrap_or(source.path.as_os_str()).to_string_lossy())
}

/// The drawings by section, in the order of the manuscript.
fn drawing_groups(figures: &[Figure], matrix: &Matrix<'_>, sections: &Sections, id: &str) -> Vec<DrawingGroup> {
    let place_of = |figure: &Figure| sections.iter().position(|section| section.name() == figure.section);
    let mut placed: Vec<(Option<usize>, &Figure)> = figures.iter().map(|figure| (place_of(figure), figure)).collect();
    placed.sort_by_key(|(place, figure)| (!figure.narrow, place.unwrap_or(usize::MAX)));
    let mut groups: Vec<DrawingGroup> = Vec::new();
    for ((place, figure), number) in placed.into_iter().zip(1..) {
        let section = place.map_or(0, |place| place + 1);
        if groups.last().is_none_or(|group| group.place != section || group.narrow != figure.narrow) {
            let heading = place.and_then(|place| sections.get(place));
            let heading = heading.map_or_else(|| "Other".to_string(), |section| sanitize_line(&section.heading()));
            let id = format!("{id}drawn-{}", groups.len() + 1);
            groups.push(DrawingGroup { id, place: section, heading, narrow: figure.narrow, figures: Vec::new() });
        }
        if let Some(group) = groups.last_mut() {
            group.figures.push(drawing(figure, number, matrix));
        }
    }
    groups
}

fn drawing(figure: &Figure, place: usize, matrix: &Matrix<'_>) -> Drawing {
    let size = figure.size.as_deref();
    Drawing {
        place,
        caption: nonbreaking(&sanitize_line(&figure.caption)),
        size: size.map_or_else(String::new, sanitize_line),
        size_place: matrix.sizes.iter().position(|known| Some(*known) == size).map_or(0, |place| place + 1),
        svg: Value::from_safe_string(figure.svg.clone()),
    }
}
