//! The words, the numbers and the signs of a passage.

use std::ops::Range;

use super::number_words::number_of_words;
use super::numbers::{TextNumber, begins_number, number_at, unit_at};

/// A part of a passage's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Token {
    /// What it is.
    pub kind: TokenKind,
    /// Its bytes in the passage.
    pub at: Range<usize>,
    /// A word without its ending, in lower case and US spelling; nothing for numbers and signs.
    pub stem: String,
}

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TokenKind {
    /// A word.
    Word,
    /// A number, by its place among those of the passage.
    Number(usize),
    /// A sign.
    Sign(char),
}

impl Token {
    /// Whether it is this sign.
    pub(crate) fn is_sign(&self, sign: char) -> bool {
        self.kind == TokenKind::Sign(sign)
    }

    /// Whether it ends a sentence.
    pub(crate) fn ends_sentence(&self) -> bool {
        matches!(self.kind, TokenKind::Sign('.' | '!' | '?' | '•' | '\n'))
    }

    /// Whether it ends a sentence or a part of one.
    pub(crate) fn ends_clause(&self) -> bool {
        self.ends_sentence() || self.is_sign(';')
    }

    /// The number that it is.
    pub(crate) fn number(&self) -> Option<usize> {
        match self.kind {
            TokenKind::Number(number) => Some(number),
            TokenKind::Word | TokenKind::Sign(_) => None,
        }
    }

    /// Whether it is a word.
    pub(crate) fn is_word(&self) -> bool {
        self.kind == TokenKind::Word
    }
}

/// A passage as tokens.
#[derive(Clone, Debug, Default)]
pub(crate) struct Tokens {
    /// The tokens.
    pub list: Vec<Token>,
    /// The numbers.
    pub numbers: Vec<TextNumber>,
}

/// Parts a text into tokens.
pub(crate) fn tokens(text: &str) -> Tokens {
    let mut tokens = Tokens::default();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let after_x = tokens.list.last().is_some_and(|last| last.stem == "x" && last.at.end == at);
        let after_word = !after_x && text[..at].chars().next_back().is_some_and(char::is_alphanumeric);
        let number = if is_number_start(text, at, c) && !after_word { figure(text, at) } else { None };
        let end = if let Some(number) = number {
            let end = number.with_unit.end;
            tokens.push_number(number);
            let next = text[end..].chars().find(|c| !c.is_whitespace());
            if text[..end].ends_with('.') && next.is_none_or(char::is_uppercase) {
                // The dot of `in.` ends a sentence as well.
                let stem = String::new();
                tokens.list.push(Token { kind: TokenKind::Sign('.'), at: end..end, stem });
            }
            end
        } else if c.is_alphanumeric() {
            tokens.push_word(text, at)
        } else {
            if c == '\n' || !c.is_whitespace() {
                tokens.list.push(sign(c, at));
            }
            at + c.len_utf8()
        };
        at = end;
    }
    number_of_words(text, &mut tokens);
    take_units_behind_brackets(text, &mut tokens);
    part_lines(text, &mut tokens);
    tokens
}

/// Gives a figure in brackets after its word the unit that stands behind the brackets: `three (3) inches`.
fn take_units_behind_brackets(text: &str, tokens: &mut Tokens) {
    for at in 0..tokens.list.len().saturating_sub(4) {
        let [word, open, figure, close, ..] = &tokens.list[at..] else { break };
        let (Some(word), Some(figure)) = (word.number(), figure.number()) else { continue };
        if !open.is_sign('(') || !close.is_sign(')') || !tokens.numbers[word].in_words {
            continue;
        }
        if let Some((unit, _, false)) = unit_at(text, close.at.end) {
            for number in [word, figure] {
                tokens.numbers[number].unit = tokens.numbers[number].unit.or(Some(unit));
            }
        }
    }
}

/// What is cut and sewn, and counted.
pub(super) const THINGS: [&str; 6] = ["strip", "square", "rectangle", "triangle", "piece", "block"];

/// Parts lines of cutting that were joined to one paragraph: each begins with its count in brackets, `(8) 2 1/2" strips`.
fn part_lines(text: &str, tokens: &mut Tokens) {
    let begins = |at: usize| {
        let list = &tokens.list;
        let is = |at: usize, sign: char| list.get(at).is_some_and(|token| token.is_sign(sign));
        let before = at.checked_sub(1).and_then(|before| list.get(before));
        let goes_on = before.is_none_or(|token| {
            token.number().is_some()
                || token.ends_clause()
                || matches!(token.kind, TokenKind::Sign(',' | ':' | '('))
                || matches!(token.stem.as_str(), "and" | "cut" | "subcut" | "into" | "x")
        });
        let counts =
            list.get(at + 1).and_then(Token::number).is_some_and(|number| tokens.numbers[number].unit.is_none());
        let counted =
            is(at, '(') && counts && is(at + 2, ')') && list.get(at + 3).is_some_and(|token| token.number().is_some());
        // `squares (A) 8 strips`: a line after one that ends with the name of its piece.
        let labeled =
            at >= 3 && is(at - 1, ')') && list[at - 2].is_word() && is(at - 3, '(') && list[at].number().is_some();
        // `pieces Ten strips`: a number in words with a capital letter begins a line.
        let capital = list[at].number().is_some_and(|number| tokens.numbers[number].in_words)
            && text[list[at].at.clone()].starts_with(char::is_uppercase)
            && before.is_some_and(|token| text[token.at.clone()].chars().next().is_some_and(char::is_lowercase));
        // `2 (3, 5) strips 6 (9, 16) strips`: a run after one that ends with what it counts.
        let counts_on = at >= 2
            && is(at - 2, ')')
            && THINGS.contains(&list[at - 1].stem.as_str())
            && list[at].number().is_some_and(|number| tokens.numbers[number].unit.is_none())
            && is(at + 1, '(');
        !goes_on && (counted || labeled || capital || counts_on)
    };
    let starts: Vec<usize> = (0..tokens.list.len()).filter(|at| begins(*at)).collect();
    for at in starts.into_iter().rev() {
        let start = tokens.list[at].at.start;
        tokens.list.insert(at, Token { kind: TokenKind::Sign('\n'), at: start..start, stem: String::new() });
    }
}

fn is_number_start(text: &str, at: usize, c: char) -> bool {
    begins_number(c)
        || matches!(c, '¹' | '³' | '⁵' | '⁷') && number_at(text, at).is_some()
        || c == '.' && text[at + 1..].starts_with(|c: char| c.is_ascii_digit())
}

/// Whether a sign stands before the items of lists, and says nothing else.
pub(super) const fn is_bullet(c: char) -> bool {
    matches!(c, '•' | '◦' | '▪' | '‣' | '●' | '○' | '■' | '□' | '☐')
}

/// A sign at a byte. Arrows along a side say what the words for it do.
fn sign(c: char, at: usize) -> Token {
    let (kind, stem) = match c {
        '↔' => (TokenKind::Word, "wide"),
        '↕' => (TokenKind::Word, "long"),
        other => (TokenKind::Sign(plain_sign(other)), ""),
    };
    Token { kind, at: at..at + c.len_utf8(), stem: stem.to_string() }
}

/// Signs that look alike as one of them.
const fn plain_sign(c: char) -> char {
    match c {
        '×' | '✕' | '✖' | '*' => '×',
        '–' | '‒' | '−' => '–',
        '—' | '―' => '—',
        '‐' | '‑' => '-',
        '“' | '”' | '″' | '＂' => '"',
        '·' | '▢' | '◆' | '◇' | '☑' | '☒' | '❏' | '✓' | '✔' => '•',
        bullet if is_bullet(bullet) => '•',
        other => other,
    }
}

/// A number in figures with its unit; nothing where letters go on with it: `2A`, `1st`.
fn figure(text: &str, start: usize) -> Option<TextNumber> {
    let (end, readings) = number_at(text, start)?;
    let unit = unit_at(text, end);
    let with_unit = start..unit.map_or(end, |(_, end, _)| end);
    let mut after = text[with_unit.end..].chars();
    let next = after.next();
    let is_times = matches!(next, Some('x' | 'X')) && after.next().is_none_or(|c| !c.is_alphabetic());
    if unit.is_none() && next.is_some_and(char::is_alphabetic) && !is_times && !text[end..].starts_with("WOF") {
        return None;
    }
    let is_other = text[end..].trim_start().starts_with(['°', '%', 'º']);
    let (unit, unit_is_doubtful) = unit.map_or((None, false), |(unit, _, doubtful)| (Some(unit), doubtful));
    Some(TextNumber { at: start..end, with_unit, readings, unit, unit_is_doubtful, in_words: false, is_other })
}

impl Tokens {
    pub(super) fn push_number(&mut self, number: TextNumber) {
        let at = number.with_unit.clone();
        self.list.push(Token { kind: TokenKind::Number(self.numbers.len()), at, stem: String::new() });
        self.numbers.push(number);
    }

    /// A word, and where it ends: letters and digits, and an apostrophe between letters.
    fn push_word(&mut self, text: &str, start: usize) -> usize {
        let rest = &text[start..];
        let is_x = |c: char| matches!(c, 'x' | 'X');
        // `2x42`: the x is a word of its own.
        if rest.starts_with(is_x) && rest[1..].starts_with(begins_number) {
            self.list.push(Token { kind: TokenKind::Word, at: start..start + 1, stem: "x".into() });
            return start + 1;
        }
        let mut end = start;
        let mut letters = rest.char_indices().peekable();
        while let Some((at, c)) = letters.next() {
            let next_is_letter = letters.peek().is_some_and(|(_, next)| next.is_alphabetic());
            if !(c.is_alphanumeric() && (vulgar_free(c)) || matches!(c, '\'' | '’') && next_is_letter) {
                break;
            }
            end = start + at + c.len_utf8();
        }
        let end = end.max(start + rest.chars().next().map_or(1, char::len_utf8));
        self.list.push(Token { kind: TokenKind::Word, at: start..end, stem: stem(&text[start..end]) });
        end
    }
}

fn vulgar_free(c: char) -> bool {
    super::numbers::vulgar(c).is_none()
}

/// A word in lower case, in the singular and in US spelling.
pub(crate) fn stem(word: &str) -> String {
    let lower = word.to_lowercase().replace('’', "'");
    let singular = singular(&lower);
    match singular {
        "centre" => "center".into(),
        "centimetre" => "centimeter".into(),
        "metre" => "meter".into(),
        "colour" => "color".into(),
        "grey" => "gray".into(),
        "mitre" => "miter".into(),
        "mitred" => "mitered".into(),
        "labelled" => "labeled".into(),
        other => other.to_string(),
    }
}

/// A word without the ending of the plural or of a possessive.
fn singular(word: &str) -> &str {
    let word = word.strip_suffix("'s").unwrap_or(word);
    if word.len() < 4 && word != "hsts" && word != "fqs" {
        return word;
    }
    if word.ends_with("ss") || word.ends_with("us") || word.ends_with("is") {
        return word;
    }
    if let Some(stem) = word
        .strip_suffix("es")
        .filter(|stem| stem.ends_with('x') || stem.ends_with("ch") || stem.ends_with("sh") || stem.ends_with("ss"))
    {
        return stem;
    }
    word.strip_suffix('s').unwrap_or(word)
}
