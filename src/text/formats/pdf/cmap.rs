//! The maps of fonts from codes to text, and to the codes of their shapes.

use std::collections::BTreeMap;

/// The most codes that one map is read for: a font has at most 65,536 shapes.
const MAX_CODES: usize = 70_000;

/// A map of codes.
#[derive(Clone, Debug, Default)]
pub(super) struct CMap {
    /// How long codes are, and between which bytes they lie: the length, the lowest, the highest.
    spaces: Vec<(usize, u32, u32)>,
    texts: BTreeMap<(usize, u32), String>,
    /// Codes in a row whose texts are in a row too: by their length and the first, the last and the first's text.
    ranges: BTreeMap<(usize, u32), (u32, u32)>,
}

enum Token<'a> {
    Hex(usize, Vec<u8>),
    Open,
    Close,
    Word(&'a [u8]),
}

impl CMap {
    /// Reads the map that a font brings with it; what cannot be read of it is left out.
    pub(super) fn parse(bytes: &[u8]) -> CMap {
        let mut map = CMap::default();
        let mut tokens = Tokens { bytes, at: 0 };
        let mut codes: Vec<Token> = Vec::new();
        while let Some(token) = tokens.next() {
            match token {
                Token::Word(b"begincodespacerange" | b"beginbfchar" | b"beginbfrange") => codes.clear(),
                Token::Word(b"endcodespacerange") => map.add_spaces(&codes),
                Token::Word(b"endbfchar") => map.add_chars(&codes),
                Token::Word(b"endbfrange") => map.add_ranges(&codes),
                Token::Word(_) => {}
                token if codes.len() < MAX_CODES => codes.push(token),
                _ => {}
            }
        }
        map
    }

    /// The text of a code.
    pub(super) fn text(&self, length: usize, code: u32) -> Option<String> {
        if let Some(text) = self.texts.get(&(length, code)) {
            return Some(text.clone());
        }
        let ((of, first), (last, text)) = self.ranges.range(..=(length, code)).next_back()?;
        let within = *of == length && code <= *last;
        char::from_u32(text.checked_add(code - first)?).filter(|_| within).map(String::from)
    }

    /// How long the code is that these bytes begin with, if the map says so.
    pub(super) fn code_length(&self, bytes: &[u8]) -> Option<usize> {
        let fits = |(length, low, high): &&(usize, u32, u32)| {
            bytes.len() >= *length
                && (0..*length).all(|at| {
                    let shift = 8 * (*length - 1 - at);
                    let byte = u32::from(bytes[at]);
                    (low >> shift) & 0xff <= byte && byte <= (high >> shift) & 0xff
                })
        };
        self.spaces.iter().filter(fits).map(|(length, ..)| *length).min()
    }

    pub(super) const fn has_spaces(&self) -> bool {
        !self.spaces.is_empty()
    }

    fn add_spaces(&mut self, tokens: &[Token]) {
        for pair in tokens.chunks(2) {
            if let [Token::Hex(length, low), Token::Hex(_, high)] = pair
                && (1..=4).contains(length)
                && self.spaces.len() < 256
            {
                self.spaces.push((*length, value(low), value(high)));
            }
        }
    }

    fn add_chars(&mut self, tokens: &[Token]) {
        for pair in tokens.chunks(2) {
            if let [Token::Hex(length, code), Token::Hex(_, text)] = pair {
                self.add(*length, value(code), text_of(text));
            }
        }
    }

    fn add(&mut self, length: usize, code: u32, text: String) {
        if self.texts.len() < MAX_CODES {
            self.texts.insert((length, code), text);
        }
    }

    fn add_ranges(&mut self, tokens: &[Token]) {
        let mut rest = tokens;
        while let [Token::Hex(length, first), Token::Hex(_, last), target, after @ ..] = rest {
            let (length, first, last) = (*length, value(first), value(last));
            rest = after;
            match target {
                Token::Hex(_, text) => self.add_range(length, first, last, text),
                Token::Open => {
                    let end = rest.iter().position(|token| matches!(token, Token::Close)).unwrap_or(rest.len());
                    for (code, token) in (first..=last).zip(&rest[..end]) {
                        if let Token::Hex(_, text) = token {
                            self.add(length, code, text_of(text));
                        }
                    }
                    rest = rest.get(end + 1..).unwrap_or_default();
                }
                Token::Close | Token::Word(_) => return,
            }
        }
    }

    fn add_range(&mut self, length: usize, first: u32, last: u32, text: &[u8]) {
        let text = text_of(text);
        let mut chars = text.chars();
        match (chars.next(), chars.next()) {
            (Some(only), None) if first < last && self.ranges.len() < 4096 => {
                self.ranges.insert((length, first), (last, u32::from(only)));
            }
            _ => self.add(length, first, text),
        }
    }
}

fn value(bytes: &[u8]) -> u32 {
    bytes.iter().take(4).fold(0, |value, byte| value << 8 | u32::from(*byte))
}

/// UTF-16 with the high byte first, as the files have it.
fn text_of(bytes: &[u8]) -> String {
    if let [only] = bytes {
        return char::from(*only).to_string();
    }
    let units = bytes.as_chunks::<2>().0.iter().map(|pair| u16::from_be_bytes(*pair));
    char::decode_utf16(units).map(|ch| ch.unwrap_or('\u{fffd}')).take(16).collect()
}

struct Tokens<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Tokens<'a> {
    fn next(&mut self) -> Option<Token<'a>> {
        loop {
            let byte = *self.bytes.get(self.at)?;
            self.at += 1;
            match byte {
                b'<' if self.bytes.get(self.at) != Some(&b'<') => return Some(self.hex()),
                b'[' => return Some(Token::Open),
                b']' => return Some(Token::Close),
                b'%' => self.skip_while(|byte| byte != b'\n' && byte != b'\r'),
                _ if is_word(byte) => {
                    let start = self.at - 1;
                    self.skip_while(is_word);
                    return Some(Token::Word(&self.bytes[start..self.at]));
                }
                _ => {}
            }
        }
    }

    fn hex(&mut self) -> Token<'a> {
        let start = self.at;
        self.skip_while(|byte| byte != b'>');
        let digits = self.bytes[start..self.at].iter().filter_map(|byte| char::from(*byte).to_digit(16)).take(64);
        let digits: Vec<u8> = digits.filter_map(|digit| u8::try_from(digit).ok()).collect();
        self.at += 1;
        let bytes: Vec<u8> = digits.chunks(2).map(|pair| pair[0] << 4 | pair.get(1).copied().unwrap_or(0)).collect();
        Token::Hex(bytes.len(), bytes)
    }

    fn skip_while(&mut self, more: impl Fn(u8) -> bool) {
        while self.bytes.get(self.at).is_some_and(|byte| more(*byte)) {
            self.at += 1;
        }
    }
}

const fn is_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'/' | b'-' | b'.' | b'_' | b'*')
}
