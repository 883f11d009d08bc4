//! How much of the corpus is matched, how much of what is wrong is caught, and that nothing right is blamed.

use std::path::PathBuf;

use sparestrip::text::{MatchedText, State, TextFile, match_text};
use sparestrip::{Settings, Source};

use super::super::readers::document::{Part, docx, html, markdown, odt, pdf};
use super::changes::{Change, changes};
use super::fill::Truth;
use super::{Number, Text, texts, traps};

/// The formats that a text is written in.
const FORMATS: [&str; 5] = ["md", "html", "docx", "odt", "pdf"];

fn written(parts: &[Part], format: &str) -> Vec<u8> {
    match format {
        "md" => markdown(parts).into_bytes(),
        "html" => html(parts).into_bytes(),
        "docx" => docx(parts),
        "odt" => odt(parts),
        _ => pdf(parts),
    }
}

/// What came of the numbers of a text.
struct Outcome {
    file: TextFile,
    matched: MatchedText,
}

fn outcome(source: &Source, parts: &[Part], format: &str) -> Outcome {
    let file = TextFile::new(PathBuf::from(format!("text.{format}")), written(parts, format));
    let matched = match_text(&file, source, &Settings::default());
    Outcome { file, matched }
}

impl Outcome {
    /// What came of a number, by where it stands.
    fn at(&self, number: &Number) -> Vec<(State, String)> {
        let at = self.file.span(number.passage, number.at.clone());
        let touches = |other: sparestrip::Span| other.start < at.end && at.start < other.end;
        let here = self.matched.numbers.iter().filter(|number| touches(number.at));
        here.map(|number| (number.state, number.matched.join("; "))).collect()
    }

    fn is_right(&self, number: &Number) -> bool {
        self.at(number).iter().any(|(state, _)| *state == State::Right)
    }

    fn is_blamed(&self, number: &Number) -> bool {
        self.at(number).iter().any(|(state, _)| is_blame(*state))
    }
}

const fn is_blame(state: State) -> bool {
    matches!(state, State::Differs | State::OtherHalf | State::ByItself)
}

/// Counts of what was asked for, and of that what was so.
#[derive(Clone, Copy, Default)]
struct Share {
    so: usize,
    of: usize,
}

impl Share {
    fn count(&mut self, so: bool) {
        self.so += usize::from(so);
        self.of += 1;
    }

    const fn percent(self) -> usize {
        if self.of == 0 { 100 } else { self.so * 100 / self.of }
    }
}

impl std::fmt::Display for Share {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{} of {} ({} %)", self.so, self.of, self.percent())
    }
}

/// The figures of one folder and one format.
#[derive(Default)]
struct Figures {
    direct: Share,
    derived: Share,
    /// Direct numbers of one size whose match names that size.
    sized: Share,
    caught: Share,
    blamed: Vec<String>,
    missed: Vec<String>,
    passed: Vec<String>,
}

/// Measures a folder in a format; of the changes, every `step`th is tried.
fn measure(folder: &str, format: &str, step: usize) -> Figures {
    let mut figures = Figures::default();
    let mut turn = 0;
    for text in texts(folder) {
        let source = Source::open(&text.manuscript).unwrap();
        let right = outcome(&source, &text.parts, format);
        for number in &text.numbers {
            let says = || format!("{}: {:?} {:?}", text.name, number.truth, right.at(number));
            let matched = right.is_right(number);
            match &number.truth {
                Truth::Derived => figures.derived.count(matched),
                Truth::Direct { size, .. } => {
                    figures.direct.count(matched);
                    if let (true, Some(size)) = (matched, size) {
                        figures.sized.count(right.at(number).iter().any(|(_, to)| to.contains(size.as_str())));
                    }
                }
            }
            if !matched {
                figures.missed.push(says());
            }
        }
        for number in right.matched.numbers.iter().filter(|number| is_blame(number.state)) {
            figures
                .blamed
                .push(format!("{} ({format}): {} at {}: {:?}", text.name, number.quoted, number.place, number.matched));
        }
        for Change { number, parts, says } in changes(&text) {
            turn += 1;
            if turn % step != 0 {
                continue;
            }
            let caught = outcome(&source, &parts, format).is_blamed(&number);
            figures.caught.count(caught);
            if !caught {
                figures.passed.push(format!("{}: {says}", text.name));
            }
        }
    }
    figures
}

fn tell(folder: &str, format: &str, figures: &Figures) {
    println!(
        "{folder:6} {format:5} direct {}, derived {}, of the right size {}, changes caught {}, blamed {}",
        figures.direct,
        figures.derived,
        figures.sized,
        figures.caught,
        figures.blamed.len()
    );
}

/// What is asked of the matching, in percent.
const DIRECT: usize = 95;
const DERIVED: usize = 80;
const CAUGHT: usize = 95;

#[test]
fn right_numbers_are_matched_none_is_blamed_and_changes_are_caught() {
    let mut short = Vec::new();
    for folder in ["texts", "aside"] {
        for format in FORMATS {
            // Every change in every format takes minutes.
            let step = match (cfg!(feature = "long_tests"), format) {
                (true, "md") => 1,
                (true, _) => 7,
                (false, "md") => 53,
                (false, _) => 211,
            };
            let figures = measure(folder, format, step);
            tell(folder, format, &figures);
            if std::env::var_os("SHOW_MISSES").is_some() {
                println!("blamed {:#?}\nmissed {:#?}\npassed {:#?}", figures.blamed, figures.missed, figures.passed);
            }
            let asked = [
                ("direct numbers matched", figures.direct, DIRECT),
                ("derived numbers matched", figures.derived, DERIVED),
                ("numbers matched with the right size", figures.sized, 99),
                ("changes caught", figures.caught, CAUGHT),
            ];
            for (what, share, least) in asked.into_iter().filter(|(_, share, least)| share.percent() < *least) {
                short.push(format!("{folder} {format}: {what}: {share}, of which {least} % are asked"));
            }
            short.extend(figures.blamed.into_iter().map(|blamed| format!("{folder}, blamed: {blamed}")));
        }
    }
    assert!(short.is_empty(), "{short:#?}");
}

#[test]
fn numbers_that_no_manuscript_states_are_neither_matched_nor_blamed() {
    let mut parts = vec![Part::Heading(1, "Notes".to_owned())];
    parts.extend(traps().into_iter().map(Part::Paragraph));
    let mut wrong = Vec::new();
    let mut before = PathBuf::new();
    for Text { manuscript, .. } in texts("texts") {
        if manuscript == before {
            continue;
        }
        before.clone_from(&manuscript);
        let source = Source::open(&manuscript).unwrap();
        let Outcome { file, matched } = outcome(&source, &parts, "md");
        for number in matched.numbers.iter().filter(|number| number.state == State::Right || is_blame(number.state)) {
            let line = file.source.text[..number.at.start].rfind('\n').map_or(0, |end| end + 1);
            let sentence = file.source.text[line..].lines().next().unwrap_or_default();
            wrong.push(format!("{:?} in {sentence:?}: {:?}", number.state, number.matched));
        }
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} {wrong:#?}", wrong.len());
}
