//! The corpus itself: its manuscripts are right, and each text is the same in every format.

use sparestrip::text::{Passage, PrintedText};
use sparestrip::{Level, Settings, Source, check};

use super::super::readers::document::{Part, docx, html, markdown, odt, pdf};
use super::super::readers::{lines, read};
use super::fill::{CLOSE, OPEN, Truth};
use super::{Text, texts, traps};

fn all() -> Vec<Text> {
    let mut all = texts("texts");
    all.extend(texts("aside"));
    all
}

#[test]
fn the_manuscripts_are_right() {
    for text in all() {
        let source = Source::open(&text.manuscript).unwrap();
        let outcome = check(&source, &Settings::default());
        let wrong: Vec<&str> = outcome
            .findings
            .iter()
            .filter(|finding| finding.level != Level::Note)
            .map(|finding| finding.rule)
            .collect();
        assert!(wrong.is_empty(), "{}: {wrong:?}", text.manuscript.display());
    }
}

#[test]
fn there_is_enough_of_it_and_some_is_kept_aside() {
    let (tuned, aside) = (texts("texts"), texts("aside"));
    assert!(tuned.len() >= 200 && aside.len() >= 10);
    assert!(traps().len() >= 200);
    let numbers: usize = tuned.iter().chain(&aside).map(|text| text.numbers.len()).sum();
    assert!(numbers > 800, "{numbers}");
    let derived =
        tuned.iter().chain(&aside).flat_map(|text| &text.numbers).filter(|number| number.truth == Truth::Derived);
    assert!(derived.count() >= 15);
}

/// What was read, with what each passage stands under, and what introduces it.
fn structure(printed: &PrintedText) -> Vec<String> {
    let under = |passage: &Passage| format!("{:?} {:?}", passage.headings, passage.list_head);
    lines(printed)
        .into_iter()
        .zip(&printed.passages)
        .map(|(line, passage)| format!("{line} {}", under(passage)))
        .collect()
}

/// A line without the level of a heading: a PDF shows which heading is over which, and not how many levels are between.
fn without_level(line: &str) -> String {
    let level = line.strip_prefix('h').and_then(|rest| rest.strip_prefix(|ch: char| ch.is_ascii_digit()));
    level.filter(|rest| rest.starts_with(' ')).map_or_else(|| line.to_owned(), |rest| format!("h{rest}"))
}

/// Texts whose PDF is parted into other passages than they have.
pub(super) const UNLIKE_AS_PDF: [&str; 33] = [
    "x15-kiln-court",
    "c10-signal-columns",
    "c14-gable-slip",
    "c16-lintel-wall",
    "c17-gosling-four",
    "c19-slate-logs",
    "g06-ferry-runner",
    "h13-merrydown-tables",
    "l12-clover-magazine",
    "w13-almond-blog",
    "514-cribbage",
    "518-shale-peaks",
    "706-windfall-chat",
    "802-gooseberry-chart",
    "o10-card-thrift",
    "o17-card-tally",
    "o19-card-bramley",
    "t20-ferry-ladder",
    "B07-oddment",
    "C14-bunting-sheet",
    "D13-shieling-table",
    "F08-rhubarb-class",
    "L05-bilberry",
    "M20-otter",
    "N10-wickerstar",
    "P03-gridline",
    "P08-bell-rope",
    "P10-gridline",
    "P15-sanderling",
    "P18-peat-cutting",
    "P20-pebble-wall",
    "Q19-limekiln-cushion",
    "R12-haar-sheet",
];

/// Whether lines are broken within a paragraph, which a PDF does not tell from lines that are full.
pub(super) fn has_breaks(parts: &[Part]) -> bool {
    parts.iter().any(|part| match part {
        Part::Heading(_, text) | Part::Paragraph(text) => text.contains('\n'),
        Part::List(_, items) => items.iter().any(|(_, text)| text.contains('\n')),
        Part::Table(rows) => rows.iter().flatten().any(|cell| cell.contains('\n')),
    })
}

#[test]
fn each_text_is_the_same_in_every_format() {
    let mut unlike = Vec::new();
    for Text { name, parts, numbers, .. } in all() {
        let expected = read("a.md", markdown(&parts));
        for number in &numbers {
            let says = &expected.passages[number.passage].text;
            assert!(says.is_char_boundary(number.at.start) && !says[number.at.clone()].is_empty(), "{name}: {says}");
            assert!(!says.contains([OPEN, CLOSE]), "{name}: {says}");
        }
        let expected = structure(&expected);
        for (file, bytes) in [
            ("a.html", html(&parts).into_bytes()),
            ("a.docx", docx(&parts)),
            ("a.odt", odt(&parts)),
            ("a.pdf", pdf(&parts)),
        ] {
            let found = structure(&read(file, bytes));
            let is_pdf = file == "a.pdf";
            let seen = |line: &String| if is_pdf { without_level(line) } else { line.clone() };
            if is_pdf && has_breaks(&parts) {
                continue;
            }
            let is_known = is_pdf && UNLIKE_AS_PDF.contains(&name.as_str());
            if found.iter().map(seen).eq(expected.iter().map(seen)) == is_known {
                unlike.push(format!("{name} as {file}"));
            }
        }
    }
    assert!(unlike.is_empty(), "{unlike:#?}");
}
