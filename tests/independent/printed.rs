//! The cutting instructions that the program prints of whole manuscripts, read as a printed text: each of their numbers is
//! matched with the manuscript, in every style and format.

use std::collections::BTreeMap;
use std::path::PathBuf;

use sparestrip::manuscript::Source;
use sparestrip::report::{SizesStyle, instructions_as_html, instructions_as_markdown};
use sparestrip::rule_book::Settings;
use sparestrip::tables::instructions_under;
use sparestrip::text::{State, TextFile, match_text};

use super::LONG_RUN;
use super::whole::in_units;
use super::whole_quilt::Units;

/// How many manuscripts.
const READ_BACK: u64 = if LONG_RUN { 300 } else { 20 };

const STYLES: [SizesStyle; 3] = [SizesStyle::Run, SizesStyle::Lists, SizesStyle::Table];

/// The instructions in every style and format, with the name of a file for each. What is Markdown is plain text as well.
fn printed(source: &Source, settings: &Settings) -> Vec<(&'static str, String)> {
    let made = instructions_under(source, settings);
    assert!(made.head.missing.is_empty(), "{:?}", made.head.missing);
    let each = STYLES.into_iter().flat_map(|style| {
        let markdown = instructions_as_markdown(&made, style);
        [("made.txt", markdown.clone()), ("made.md", markdown), ("made.html", instructions_as_html(&made, style))]
    });
    each.collect()
}

#[test]
fn the_instructions_of_a_random_manuscript_are_matched_number_by_number() {
    let (mut numbers, mut failures) = (0, BTreeMap::new());
    for index in 0..READ_BACK {
        let units = if index % 4 == 3 { Units::Other } else { Units::Own };
        let manuscript = in_units(index, units, None).text;
        let (source, settings) =
            (Source::from_text("quarry-path.pattern.yaml", manuscript.as_str()), Settings::default());
        for (name, text) in printed(&source, &settings) {
            let file = TextFile::new(PathBuf::from(name), text.clone().into_bytes());
            for number in match_text(&file, &source, &settings).numbers {
                numbers += usize::from(number.state == State::Right);
                if !matches!(number.state, State::Right | State::NotRequired(_)) {
                    let line = text.lines().nth(number.place.split(':').next().unwrap().parse::<usize>().unwrap() - 1);
                    let first = || (0, format!("{index} {name} {}: {}", number.quoted, line.unwrap_or_default()));
                    failures.entry(format!("{:?}", number.state)).or_insert_with(first).0 += 1;
                }
            }
        }
    }
    assert!(failures.is_empty(), "{failures:#?}");
    assert!(numbers > 500 * usize::try_from(READ_BACK).unwrap(), "{numbers}");
}
