//! Fonts: which text the codes of a string stand for, and how wide they are.

use std::collections::BTreeMap;

use super::cmap::CMap;
use super::encodings::{letter, named};
use super::file::File;
use super::fixed::{ONE, number, times};
use super::object::{Dictionary, Object};

/// The most widths that are read of one font.
const MAX_WIDTHS: usize = 70_000;
/// What stands for a shape whose letter the file does not say.
pub(super) const UNMAPPED: char = '\u{fffd}';

/// A font, as far as text needs it.
pub(super) struct Font {
    /// Whether codes are of two bytes, or as long as a map says.
    composite: bool,
    codes: Option<CMap>,
    to_unicode: Option<CMap>,
    /// What single bytes stand for.
    simple: Vec<String>,
    widths: BTreeMap<u32, i64>,
    default_width: i64,
    pub(super) is_bold: bool,
}

/// One code of a string.
pub(super) struct Code {
    pub(super) text: String,
    /// Its width for a size of one.
    pub(super) width: i64,
    /// Whether it is the single byte that word spacing is for.
    pub(super) is_space: bool,
}

impl Font {
    pub(super) fn read(file: &File, font: &Dictionary) -> Font {
        let subtype = file.name(font, b"Subtype");
        let composite = &*subtype == b"Type0";
        let base = String::from_utf8_lossy(&file.name(font, b"BaseFont")).to_lowercase();
        let mut read = Font {
            composite,
            codes: None,
            to_unicode: map(file, font, b"ToUnicode"),
            simple: Vec::new(),
            widths: BTreeMap::new(),
            default_width: ONE / 2,
            is_bold: ["bold", "black", "heavy", "demi"].iter().any(|weight| base.contains(weight)),
        };
        if composite {
            read.codes = map(file, font, b"Encoding");
            read.read_descendant(file, font);
        } else {
            read.simple = simple_encoding(file, font, &base, &subtype);
            read.read_widths(file, font, &base, &subtype);
        }
        read
    }

    fn read_descendant(&mut self, file: &File, font: &Dictionary) {
        let descendants = file.get(font, b"DescendantFonts");
        let descendant = descendants.as_ref().and_then(Object::array).and_then(<[Object]>::first);
        let Some(descendant) = descendant.map(|font| file.resolve(font)) else { return };
        let Some(descendant) = descendant.dictionary() else { return };
        self.default_width = file.get(descendant, b"DW").as_ref().and_then(number).map_or(ONE, |width| width / 1000);
        let widths = file.get(descendant, b"W");
        let mut rest = widths.as_ref().and_then(Object::array).unwrap_or_default();
        while let [first, second, after @ ..] = rest {
            let Some(start) = code(&file.resolve(first)) else { return };
            let second = file.resolve(second);
            if let Some(list) = second.array() {
                for (code, width) in (start..).zip(list) {
                    self.add_width(code, &file.resolve(width));
                }
                rest = after;
            } else {
                let (Some(last), [width, after @ ..]) = (code(&second), after) else { return };
                let width = file.resolve(width);
                for code in start..=last.min(start.saturating_add(65_535)) {
                    self.add_width(code, &width);
                }
                rest = after;
            }
        }
    }

    fn add_width(&mut self, code: u32, width: &Object) {
        if self.widths.len() < MAX_WIDTHS
            && let Some(width) = number(width)
        {
            self.widths.insert(code, width / 1000);
        }
    }

    fn read_widths(&mut self, file: &File, font: &Dictionary, base: &str, subtype: &[u8]) {
        let matrix = file.get(font, b"FontMatrix").filter(|_| subtype == b"Type3");
        let unit = matrix.as_ref().and_then(Object::array).and_then(<[Object]>::first).and_then(number).map(i64::abs);
        let first = file.get(font, b"FirstChar").as_ref().and_then(code).unwrap_or(0);
        let widths = file.get(font, b"Widths");
        let Some(widths) = widths.as_ref().and_then(Object::array) else {
            self.widths = (32..).zip(HELVETICA).map(|(code, width)| (code, usual_width(base, width))).collect();
            return;
        };
        for (code, width) in (first..256).zip(widths) {
            let width = number(&file.resolve(width)).unwrap_or(0);
            self.widths.insert(code, unit.map_or(width / 1000, |unit| times(width, unit)));
        }
    }

    /// The codes of a string.
    pub(super) fn decode(&self, bytes: &[u8]) -> Vec<Code> {
        let mut codes = Vec::new();
        let mut rest = bytes;
        while !rest.is_empty() {
            let length = self.code_length(rest).clamp(1, rest.len().min(4));
            let (code, after) = rest.split_at(length);
            rest = after;
            let value = code.iter().fold(0, |value, byte| value << 8 | u32::from(*byte));
            codes.push(Code {
                text: self.text(length, value),
                width: self.widths.get(&value).copied().unwrap_or(self.default_width),
                is_space: length == 1 && value == 32,
            });
        }
        codes
    }

    fn code_length(&self, bytes: &[u8]) -> usize {
        if !self.composite {
            return 1;
        }
        let by_map =
            |map: &Option<CMap>| map.as_ref().filter(|map| map.has_spaces()).and_then(|map| map.code_length(bytes));
        by_map(&self.codes).unwrap_or(2)
    }

    fn text(&self, length: usize, code: u32) -> String {
        let mapped = self.to_unicode.as_ref().and_then(|map| {
            let other = if length == 1 { 2 } else { 1 };
            map.text(length, code).or_else(|| map.text(other, code))
        });
        let simple = || self.simple.get(usize::try_from(code).ok()?).filter(|text| !text.is_empty()).cloned();
        let text = mapped.filter(|text| !text.is_empty() && text != "\0").or_else(simple);
        text.map_or_else(|| UNMAPPED.to_string(), |text| known(&text))
    }
}

/// Text with the letters of ligatures, and without signs that only one font knows.
fn known(text: &str) -> String {
    let mut known = String::new();
    for ch in text.chars() {
        match ch {
            '\u{fb00}' => known.push_str("ff"),
            '\u{fb01}' => known.push_str("fi"),
            '\u{fb02}' => known.push_str("fl"),
            '\u{fb03}' => known.push_str("ffi"),
            '\u{fb04}' => known.push_str("ffl"),
            '\u{fb05}' | '\u{fb06}' => known.push_str("st"),
            // The bullets of the fonts of signs that office programs use.
            '\u{f0b7}' | '\u{f0a7}' | '\u{f0d8}' | '\u{f076}' => known.push('•'),
            '\u{e000}'..='\u{f8ff}' => known.push(UNMAPPED),
            ch => known.push(ch),
        }
    }
    known
}

/// What single bytes stand for: the base encoding, and what differs from it.
fn simple_encoding(file: &File, font: &Dictionary, base: &str, subtype: &[u8]) -> Vec<String> {
    let of_signs = base.contains("symbol") || base.contains("dingbats");
    let encoding = file.get(font, b"Encoding");
    let differing = encoding.as_ref().and_then(Object::dictionary).cloned().unwrap_or_default();
    let named = encoding.as_ref().and_then(Object::name).map(<[u8]>::to_vec);
    let base_name = named.unwrap_or_else(|| file.name(&differing, b"BaseEncoding").to_vec());
    let usual: &[u8] = if subtype == b"TrueType" { b"WinAnsiEncoding" } else { b"StandardEncoding" };
    let base_name = if base_name.is_empty() { usual } else { &base_name };
    let of_byte = |byte: u8| if of_signs { sign(byte) } else { letter(base_name, byte) };
    let mut simple: Vec<String> = (0..=255).map(|byte| of_byte(byte).map(String::from).unwrap_or_default()).collect();
    let differences = file.get(&differing, b"Differences");
    apply_differences(file, differences.as_ref().and_then(Object::array).unwrap_or_default(), &mut simple);
    simple
}

/// The only sign that the fonts of signs are read for, the bullet.
const fn sign(byte: u8) -> Option<char> {
    if matches!(byte, 0xb7 | 0x6c) { Some('•') } else { None }
}

fn apply_differences(file: &File, differences: &[Object], simple: &mut [String]) {
    let mut at = 0;
    for object in differences {
        let object = file.resolve(object);
        if let Some(name) = object.name() {
            if let Some(text) = simple.get_mut(at) {
                *text = named(&String::from_utf8_lossy(name)).map(String::from).unwrap_or_default();
            }
            at = at.saturating_add(1);
        } else if let Some(code) = object.whole() {
            at = code;
        }
    }
}

/// The map in a stream.
fn map(file: &File, font: &Dictionary, key: &[u8]) -> Option<CMap> {
    let Some(Object::Stream(stream)) = file.get(font, key) else { return None };
    file.unpacked(&stream).map(|bytes| CMap::parse(&bytes))
}

fn code(object: &Object) -> Option<u32> {
    object.whole().and_then(|code| u32::try_from(code).ok())
}

fn usual_width(base: &str, helvetica: i64) -> i64 {
    let thousandths = if base.contains("courier") {
        600
    } else if base.contains("times") {
        helvetica * 9 / 10
    } else {
        helvetica
    };
    thousandths * ONE / 1000
}

/// How wide the letters of the plainest font are that no file brings with it, from the space to the tilde.
const HELVETICA: [i64; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
];
