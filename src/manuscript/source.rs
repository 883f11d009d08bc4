//! A source text with its name, and the one place where byte offsets become lines and columns.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use super::Span;

/// The largest file that is read: 4 MiB.
pub const LARGEST_FILE: u64 = 4 * 1024 * 1024;

const BYTE_ORDER_MARK: &str = "\u{feff}";

/// The text of one file.
#[derive(Clone, Debug)]
pub struct Source {
    /// The path as the user gave it, or a name for standard input.
    pub path: PathBuf,
    /// The text. Bytes that are no text stand in it as question marks, one for each, so that offsets stay true.
    pub text: String,
    /// What was wrong with the bytes, if anything was.
    pub flaw: Option<Flaw>,
    /// Made when a place is first asked for: a text without findings needs none.
    index: OnceLock<Index>,
}

/// What places are found by.
#[derive(Clone, Debug)]
struct Index {
    line_starts: Vec<usize>,
    /// Whether each byte is a character, so that nothing need be counted.
    ascii: bool,
    /// How many characters stand before every [`STRIDE`]th byte, so that a column on a line of megabytes is soon told.
    characters: Vec<usize>,
}

/// How far apart the places are before which the characters are counted.
const STRIDE: usize = 256;

/// Why a file's bytes are not plain text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// It is larger than [`LARGEST_FILE`]; nothing of it was kept.
    TooLarge,
    /// It is text in another encoding, two bytes a character.
    Utf16,
    /// There is a byte that is no UTF-8, the first of them here.
    NotText(Span),
}

/// A position as people count: from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The line, the first being 1.
    pub line: usize,
    /// The character in the line, the first being 1. A byte-order mark is not counted.
    pub column: usize,
}

impl Source {
    /// A source from text that is at hand.
    pub fn from_text(path: impl Into<PathBuf>, text: impl Into<String>) -> Source {
        Source { path: path.into(), text: text.into(), flaw: None, index: OnceLock::new() }
    }

    fn index(&self) -> &Index {
        self.index.get_or_init(|| Index {
            line_starts: line_starts(&self.text).collect(),
            ascii: self.text.is_ascii(),
            characters: characters(&self.text),
        })
    }

    /// Reads a file, at most [`LARGEST_FILE`] of it.
    ///
    /// # Errors
    /// Only where the file cannot be opened or read; strange content is a flaw of the text.
    pub fn open(path: &Path) -> io::Result<Source> {
        let there = path.metadata()?;
        if !there.is_file() {
            return Err(io::Error::other("it is not a file"));
        }
        // One byte more than it has, so that its end is met without asking for more room.
        Source::read(path, File::open(path)?, there.len() + 1)
    }

    /// Reads from anything, at most [`LARGEST_FILE`] of it.
    ///
    /// # Errors
    /// Where reading fails.
    pub fn from_reader(path: impl Into<PathBuf>, reader: impl Read) -> io::Result<Source> {
        Source::read(path, reader, 0)
    }

    /// Reads what has about so many bytes.
    fn read(path: impl Into<PathBuf>, reader: impl Read, about: u64) -> io::Result<Source> {
        let room = about.min(LARGEST_FILE + 1);
        let mut bytes = Vec::with_capacity(usize::try_from(room).unwrap_or_default());
        reader.take(LARGEST_FILE + 1).read_to_end(&mut bytes)?;
        Ok(Source::from_bytes(path, bytes))
    }

    /// A source from bytes that may or may not be text.
    pub fn from_bytes(path: impl Into<PathBuf>, bytes: Vec<u8>) -> Source {
        if bytes.len() as u64 > LARGEST_FILE {
            return Source::flawed(path, String::new(), Flaw::TooLarge);
        }
        if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
            return Source::flawed(path, String::new(), Flaw::Utf16);
        }
        match String::from_utf8(bytes) {
            Ok(text) => Source::from_text(path, text),
            Err(error) => {
                let start = error.utf8_error().valid_up_to();
                let text = with_question_marks(&error.into_bytes());
                Source::flawed(path, text, Flaw::NotText(Span::new(start, start + 1)))
            }
        }
    }

    fn flawed(path: impl Into<PathBuf>, text: String, flaw: Flaw) -> Source {
        Source { flaw: Some(flaw), ..Source::from_text(path, text) }
    }

    /// The line and column of a byte offset. An offset beyond the end is taken as the end.
    pub fn place(&self, byte: usize) -> Place {
        let byte = byte.min(self.text.len());
        let line_starts = &self.index().line_starts;
        let line = line_starts.partition_point(|start| *start <= byte);
        let start = line_starts[line - 1];
        self.place_in_line(byte, line, start, self.characters_before(byte) - self.characters_before(start))
    }

    /// The same of the only byte of a text whose place is asked for: what stands after it is not looked through.
    pub fn only_place(&self, byte: usize) -> Place {
        let byte = byte.min(self.text.len());
        let before = &self.text.as_bytes()[..byte];
        if !before.contains(&b'\r') {
            let line = count(before, |byte| byte == b'\n') + 1;
            let start = before.iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1);
            return self.place_in_line(byte, line, start, count_characters(&before[start..]));
        }
        let starts = line_starts(&self.text).take_while(|start| *start <= byte);
        let (line, start) = starts.fold((0, 0), |(line, _), start| (line + 1, start));
        self.place_in_line(byte, line, start, count_characters(&self.text.as_bytes()[start..byte]))
    }

    /// The place of a byte in a line, given where the line starts and how many characters stand between the two.
    fn place_in_line(&self, byte: usize, line: usize, start: usize, before: usize) -> Place {
        let mark = usize::from(start == 0 && byte > 0 && self.text.starts_with(BYTE_ORDER_MARK));
        Place { line, column: before - mark + 1 }
    }

    fn characters_before(&self, byte: usize) -> usize {
        if self.index().ascii {
            return byte;
        }
        let counted = byte / STRIDE;
        self.index().characters[counted] + count_characters(&self.text.as_bytes()[counted * STRIDE..byte])
    }

    /// The offset at which a line starts, counted from 1; the end of the text for a line beyond the last.
    pub fn line_start(&self, line: usize) -> usize {
        self.index().line_starts.get(line.saturating_sub(1)).copied().unwrap_or(self.text.len())
    }

    /// How many lines there are.
    pub fn lines(&self) -> usize {
        self.index().line_starts.len()
    }
}

/// How many characters start before every [`STRIDE`]th byte.
fn characters(text: &str) -> Vec<usize> {
    let mut counts = vec![0];
    let mut count = 0;
    for stride in text.as_bytes().chunks_exact(STRIDE) {
        count += count_characters(stride);
        counts.push(count);
    }
    counts
}

/// How many characters start in these bytes: all but the bytes that go on with one, which are 10xxxxxx in UTF-8.
fn count_characters(bytes: &[u8]) -> usize {
    count(bytes, |byte| byte & 0b1100_0000 != 0b1000_0000)
}

/// How many bytes are such: many at a time, since no sum of so few is checked.
fn count(bytes: &[u8], is_such: impl Fn(u8) -> bool) -> usize {
    let of_part = |part: &[u8]| part.iter().fold(0_u8, |sum, byte| sum.wrapping_add(u8::from(is_such(*byte))));
    bytes.chunks(usize::from(u8::MAX)).map(|part| usize::from(of_part(part))).sum()
}

/// Where each line starts. A line ends at LF, CR LF, or a CR alone, as in YAML 1.2 section 5.4.
pub(super) fn line_starts(text: &str) -> impl Iterator<Item = usize> + '_ {
    let bytes = text.as_bytes();
    let ends_at = |index: usize, byte: u8| byte == b'\n' || (byte == b'\r' && bytes.get(index + 1) != Some(&b'\n'));
    let ends = bytes.iter().enumerate().filter(move |(index, byte)| ends_at(*index, **byte));
    std::iter::once(0).chain(ends.map(|(index, _)| index + 1))
}

/// The bytes as text, a question mark for each that does not belong to a character.
fn with_question_marks(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len());
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        text.extend(chunk.invalid().iter().map(|_| '?'));
    }
    text
}
