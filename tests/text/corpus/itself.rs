//! The corpus itself: its manuscripts are right, and each text is the same in every format.

use sparestrip::{Level, Settings, Source, check};

use super::super::readers::document::{docx, html, markdown, odt, pdf};
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
    assert!(tuned.len() + aside.len() >= 30 && aside.len() * 5 >= tuned.len() + aside.len());
    assert!(traps().len() >= 200);
    let numbers: usize = tuned.iter().chain(&aside).map(|text| text.numbers.len()).sum();
    assert!(numbers > 800, "{numbers}");
    let derived =
        tuned.iter().chain(&aside).flat_map(|text| &text.numbers).filter(|number| number.truth == Truth::Derived);
    assert!(derived.count() >= 15);
}

/// Texts whose PDF is parted into other passages than they have: long cells and lines that look like cells.
const UNLIKE_AS_PDF: [&str; 14] = [
    "n02-clover-class",
    "n06-frost-sections",
    "n07-lake-class",
    "n08-noon-quick",
    "n14-dory-step",
    "q18-tally-designer",
    "q20-brook-designer",
    "s04-otter-down",
    "s05-otter-codes",
    "s08-kiln-brackets",
    "s10-hedge-sections",
    "s16-dapple-british",
    "s19-cormorant-fabric",
    "s20-brook-mixed",
];

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
        let expected = lines(&expected);
        for (file, bytes) in [
            ("a.html", html(&parts).into_bytes()),
            ("a.docx", docx(&parts)),
            ("a.odt", odt(&parts)),
            ("a.pdf", pdf(&parts)),
        ] {
            let is_known = file == "a.pdf" && UNLIKE_AS_PDF.contains(&name.as_str());
            if (lines(&read(file, bytes)) != expected) != is_known {
                unlike.push(format!("{name} as {file}"));
            }
        }
    }
    assert!(unlike.is_empty(), "{unlike:#?}");
}
