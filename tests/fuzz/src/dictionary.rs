//! The words of the format, and what may stand after each, for inputs that come near to a manuscript.

use std::collections::{BTreeMap, BTreeSet};

use sparestrip::manuscript::FORMAT;
use sparestrip::manuscript::section::{Section, Shape};

/// Numbers and quantities at the bounds of what is read, and others that are typed.
pub const NUMBERS: &[&str] = &[
    "0",
    "1",
    "2",
    "3",
    "7",
    "12",
    "40",
    "64",
    "65",
    "100",
    "999",
    "1000",
    "1999",
    "2000",
    "2001",
    "99999",
    "100000",
    "100001",
    "4294967296",
    "18446744073709551615",
    "99999999999999999999999999",
    "-1",
    "-0",
    "1/2",
    "1/3",
    "1/5",
    "1/7",
    "1/64",
    "1/65",
    "1/0",
    "0/1",
    "3/2",
    "2 1/2",
    "2-1/2",
    "41/2",
    "2½",
    "½",
    ".5",
    "0.0001",
    "0.00001",
    "1.",
    "1e9",
    "0x1f",
    "1_000",
    "1,5",
    "5/8 yd",
    "5/8 yd (60 cm)",
    "1/2 yd / 45 cm",
    "60 cm",
    "0.6 m",
    "65 mm",
    "2 ft",
    "1\"",
    "2000 in",
    "5080 cm",
    "54 x 72",
    "54 by 72",
    "54 x 72 in (137 x 183 cm)",
    "0 x 0",
    "1/64 x 1/64",
    "2000 x 2000",
    "1 x",
    "x 1",
    "3 %",
    "50 %",
    "51 %",
    ".inf",
    "nan",
];

/// Values that YAML, or a reader of it, takes for something else.
pub const ODD: &[&str] = &[
    "",
    "~",
    "null",
    "true",
    "no",
    "[]",
    "{}",
    "[",
    "{",
    "]",
    "}",
    "'",
    "\"",
    "''",
    "\"\"",
    "|",
    ">",
    "|2",
    "&a",
    "*a",
    "&a 1",
    "!!str 1",
    "! 1",
    "# 1",
    "?",
    "-",
    "---",
    "...",
    "%",
    "@",
    "`",
    ": ",
    ",",
    "<<: *a",
    "é",
    "½",
    "\u{1f9f5}",
    "\u{202e}",
    "\u{feff}",
    "\u{0}",
    "\u{7f}",
    "\u{85}",
    "\u{2028}",
    "\u{a0}",
    "\t",
    "\r",
    "\u{10ffff}",
    "毛布",
    "crib ",
    "\"a\\u0007b\"",
    "\"a\\nb\"",
    "every_size",
    "lap #2",
];

/// What inputs are made of besides other inputs.
#[derive(Debug, Default)]
pub struct Dictionary {
    /// Words of the format, and words that stand for a choice.
    pub words: Vec<String>,
    /// Entries of the format as its reference shows them: `ease: 1`.
    pub entries: Vec<String>,
}

impl Dictionary {
    /// All that the format has.
    pub fn of_format() -> Dictionary {
        let mut gathered = Gathered::default();
        gathered.shape(&FORMAT);
        Dictionary {
            words: gathered.words.into_iter().collect(),
            entries: gathered.entries.into_iter().map(|(word, example)| format!("{word}: {example}")).collect(),
        }
    }
}

#[derive(Default)]
struct Gathered {
    words: BTreeSet<String>,
    entries: BTreeMap<String, String>,
    sections: BTreeSet<&'static str>,
}

impl Gathered {
    fn shape(&mut self, shape: &Shape) {
        match shape {
            Shape::Choice(words) => self.words.extend(words.iter().map(ToString::to_string)),
            Shape::Table(section) => self.section(section),
            Shape::BySize(shape) | Shape::Named(shape) | Shape::List(shape, ..) => self.shape(shape),
            Shape::Either(shapes) => shapes.iter().for_each(|shape| self.shape(shape)),
            _ => {}
        }
    }

    fn section(&mut self, section: &'static Section) {
        if !self.sections.insert(section.name) {
            return;
        }
        for row in section.rows {
            self.words.insert(row.word.to_string());
            self.entries.insert(row.word.to_string(), row.example.to_string());
            self.shape(&row.shape);
        }
    }
}
