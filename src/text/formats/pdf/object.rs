//! The objects of a PDF, and reading them from bytes.

use std::cell::Cell;
use std::collections::BTreeMap;
use std::ops::Range;
use std::rc::Rc;

use super::fixed;

/// How deep objects may hold objects.
const MAX_DEPTH: usize = 48;
/// The longest string or name that is read.
const MAX_STRING: usize = 1_000_000;

/// An object. Numbers are in 1/65536.
#[derive(Clone, Debug)]
pub(super) enum Object {
    Null,
    Number(i64),
    Name(Rc<[u8]>),
    String(Rc<[u8]>),
    Array(Rc<Vec<Object>>),
    Dictionary(Rc<Dictionary>),
    Stream(Rc<Stream>),
    Reference(u32),
    /// An operator of a drawing, or a word of the file's frame.
    Word(Rc<[u8]>),
}

/// The entries of a dictionary.
pub(super) type Dictionary = BTreeMap<Rc<[u8]>, Object>;

/// A dictionary with bytes, which may be packed.
#[derive(Debug)]
pub(super) struct Stream {
    pub(super) dictionary: Rc<Dictionary>,
    /// Where its bytes begin in the file.
    pub(super) start: usize,
}

impl Object {
    pub(super) fn name(&self) -> Option<&[u8]> {
        if let Object::Name(name) = self { Some(name) } else { None }
    }

    pub(super) fn array(&self) -> Option<&[Object]> {
        if let Object::Array(array) = self { Some(array) } else { None }
    }

    /// The whole number that it is.
    pub(super) fn whole(&self) -> Option<usize> {
        let number = fixed::number(self)?;
        usize::try_from(number / fixed::ONE).ok().filter(|_| number % fixed::ONE == 0)
    }

    /// Its dictionary, that of a stream as well.
    pub(super) fn dictionary(&self) -> Option<&Rc<Dictionary>> {
        match self {
            Object::Dictionary(dictionary) => Some(dictionary),
            Object::Stream(stream) => Some(&stream.dictionary),
            _ => None,
        }
    }
}

/// Reads objects one after the other.
pub(super) struct Parser<'a> {
    bytes: &'a [u8],
    pub(super) at: usize,
    /// How many more objects are read of the whole file.
    left: &'a Cell<usize>,
}

impl<'a> Parser<'a> {
    pub(super) const fn new(bytes: &'a [u8], at: usize, left: &'a Cell<usize>) -> Parser<'a> {
        Parser { bytes, at, left }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    pub(super) fn skip_space(&mut self) {
        while let Some(byte) = self.peek() {
            match byte {
                b'%' => {
                    self.skip_while(|byte| byte != b'\n' && byte != b'\r');
                }
                _ if is_space(byte) => self.at += 1,
                _ => return,
            }
        }
    }

    fn skip_while(&mut self, more: impl Fn(u8) -> bool) -> Range<usize> {
        let start = self.at;
        while self.peek().is_some_and(&more) {
            self.at += 1;
        }
        start..self.at
    }

    /// Whether this word comes next; if it does, it is passed.
    pub(super) fn takes(&mut self, word: &[u8]) -> bool {
        self.skip_space();
        let found = self.bytes.get(self.at..).is_some_and(|rest| rest.starts_with(word));
        if found {
            self.at += word.len();
        }
        found
    }

    /// The next object, or nothing at the end of the bytes or of what one file may take.
    pub(super) fn object(&mut self) -> Option<Object> {
        self.nested(0)
    }

    /// The next object, where two numbers and an `R` refer to one.
    pub(super) fn object_or_reference(&mut self, depth: usize) -> Option<Object> {
        let object = self.nested(depth)?;
        let Some(number) = object.whole() else { return Some(object) };
        let back = self.at;
        self.skip_space();
        let generation = self.skip_while(|byte| byte.is_ascii_digit());
        self.skip_space();
        let ends = self.bytes.get(self.at + 1).is_none_or(|byte| !is_regular(*byte));
        if !generation.is_empty() && self.peek() == Some(b'R') && ends {
            self.at += 1;
            return Some(u32::try_from(number).map_or(Object::Null, Object::Reference));
        }
        self.at = back;
        Some(object)
    }

    fn nested(&mut self, depth: usize) -> Option<Object> {
        self.left.set(self.left.get().checked_sub(1)?);
        if depth > MAX_DEPTH {
            return None;
        }
        self.skip_space();
        let byte = self.peek()?;
        match byte {
            b'/' => {
                self.at += 1;
                Some(Object::Name(self.name()))
            }
            b'(' => Some(Object::String(self.string())),
            b'<' if self.bytes.get(self.at + 1) == Some(&b'<') => {
                self.at += 2;
                Some(Object::Dictionary(Rc::new(self.entries(depth)?)))
            }
            b'<' => Some(Object::String(self.hex())),
            b'[' => {
                self.at += 1;
                self.elements(depth)
            }
            b']' | b'>' | b')' | b'{' | b'}' => {
                self.at += 1;
                Some(Object::Word(Rc::from([byte].as_slice())))
            }
            _ => {
                let word = self.skip_while(is_regular);
                if word.is_empty() {
                    self.at += 1;
                }
                Some(word_of(&self.bytes[word]))
            }
        }
    }

    fn elements(&mut self, depth: usize) -> Option<Object> {
        let mut elements = Vec::new();
        loop {
            self.skip_space();
            match self.peek() {
                Some(b']') => {
                    self.at += 1;
                    break;
                }
                Some(_) => elements.push(self.object_or_reference(depth + 1)?),
                None => break,
            }
        }
        Some(Object::Array(Rc::new(elements)))
    }

    fn entries(&mut self, depth: usize) -> Option<Dictionary> {
        let mut entries = Dictionary::new();
        loop {
            if self.takes(b">>") {
                break;
            }
            match self.nested(depth + 1) {
                Some(Object::Name(key)) => {
                    let value = self.object_or_reference(depth + 1)?;
                    entries.entry(key).or_insert(value);
                }
                Some(Object::Word(word)) if matches!(&*word, b"endobj" | b"stream") => break,
                Some(_) => {}
                None => return (self.at >= self.bytes.len()).then_some(entries),
            }
        }
        Some(entries)
    }

    fn name(&mut self) -> Rc<[u8]> {
        let raw = self.skip_while(is_regular);
        let raw = &self.bytes[raw];
        if !raw.contains(&b'#') {
            return Rc::from(raw);
        }
        let mut name = Vec::with_capacity(raw.len());
        let mut rest = raw;
        while let [first, after @ ..] = rest {
            let digit = |at: usize| after.get(at).and_then(|byte| char::from(*byte).to_digit(16));
            rest = match (first, digit(0), digit(1)) {
                (b'#', Some(high), Some(low)) => {
                    name.push(u8::try_from(high << 4 | low).unwrap_or(0));
                    &after[2..]
                }
                _ => {
                    name.push(*first);
                    after
                }
            };
        }
        Rc::from(name)
    }

    fn hex(&mut self) -> Rc<[u8]> {
        self.at += 1;
        let raw = self.skip_while(|byte| byte != b'>');
        self.at += 1;
        let mut bytes = Vec::new();
        let mut high = None;
        for digit in self.bytes[raw].iter().filter_map(|byte| char::from(*byte).to_digit(16)).take(2 * MAX_STRING) {
            match high.take() {
                None => high = Some(digit),
                Some(high) => bytes.push(u8::try_from(high << 4 | digit).unwrap_or(0)),
            }
        }
        bytes.extend(high.and_then(|high| u8::try_from(high << 4).ok()));
        Rc::from(bytes)
    }

    fn string(&mut self) -> Rc<[u8]> {
        self.at += 1;
        let mut bytes = Vec::new();
        let mut open = 1;
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'\\' => bytes.extend(self.escaped()),
                b'(' => {
                    open += 1;
                    bytes.push(byte);
                }
                b')' => {
                    open -= 1;
                    if open == 0 {
                        break;
                    }
                    bytes.push(byte);
                }
                _ => bytes.push(byte),
            }
            if bytes.len() > MAX_STRING {
                break;
            }
        }
        Rc::from(bytes)
    }

    fn escaped(&mut self) -> Option<u8> {
        let byte = self.peek()?;
        self.at += 1;
        match byte {
            b'n' => Some(b'\n'),
            b'r' => Some(b'\r'),
            b't' => Some(b'\t'),
            b'b' => Some(8),
            b'f' => Some(12),
            b'\r' => {
                if self.peek() == Some(b'\n') {
                    self.at += 1;
                }
                None
            }
            b'\n' => None,
            b'0'..=b'7' => {
                let mut value = u32::from(byte - b'0');
                for _ in 0..2 {
                    let Some(digit @ b'0'..=b'7') = self.peek() else { break };
                    value = value * 8 + u32::from(digit - b'0');
                    self.at += 1;
                }
                u8::try_from(value & 0xff).ok()
            }
            _ => Some(byte),
        }
    }
}

fn word_of(word: &[u8]) -> Object {
    let is_number = word.first().is_some_and(|first| first.is_ascii_digit() || matches!(first, b'+' | b'-' | b'.'));
    if is_number {
        // "12-34" and the like are written by broken programs: the digits before the sign count.
        let end = word.iter().skip(1).position(|byte| *byte == b'-').map_or(word.len(), |at| at + 1);
        let end = if word.starts_with(b"--") { word.len() } else { end };
        if let Some(number) = fixed::parse(&word[..end]) {
            return Object::Number(number);
        }
    }
    match word {
        b"null" => Object::Null,
        _ => Object::Word(Rc::from(word)),
    }
}

pub(super) const fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | 9 | 10 | 12 | 13 | 32)
}

pub(super) const fn is_regular(byte: u8) -> bool {
    !is_space(byte) && !matches!(byte, b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%')
}
