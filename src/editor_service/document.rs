//! A text that is open in the editor, as it is there and not as it is on disk.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use gen_lsp_types::{Position as ClientPosition, Range, TextDocumentContentChangeEvent as ContentChange, Uri};

use crate::check::Outcome;
use crate::discover::{folder_of, is_manuscript};
use crate::manuscript::section::Shape;
use crate::manuscript::{FORMAT, Position, PositionEncoding, Source, Span, byte_at};
use crate::rule_book::{HOUSE_RULES, HOUSE_RULES_FILE};

/// What a file is, by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum FileKind {
    /// A manuscript.
    Manuscript,
    /// House rules.
    HouseRules,
}

impl FileKind {
    /// What a file is; `None` where it is nothing that is checked.
    pub(super) fn of(path: &Path) -> Option<FileKind> {
        if is_manuscript(path) {
            return Some(FileKind::Manuscript);
        }
        (path.file_name() == Some(OsStr::new(HOUSE_RULES_FILE))).then_some(FileKind::HouseRules)
    }

    /// What may stand in it.
    pub(super) const fn format(self) -> Shape {
        match self {
            FileKind::Manuscript => FORMAT,
            FileKind::HouseRules => Shape::Table(HOUSE_RULES),
        }
    }
}

/// An open text.
#[derive(Debug)]
pub(super) struct Document {
    /// What the editor calls it.
    pub(super) uri: Uri,
    /// What it is.
    pub(super) kind: FileKind,
    /// The editor's number for the text as it is now.
    pub(super) version: i32,
    /// The text.
    text: String,
    /// The same, to be checked: nothing of it is kept there where it is too large.
    pub(super) source: Source,
    /// Whether the editor was told what is found in it.
    pub(super) is_told: bool,
    /// What is found in it, with corrections, once somebody asked for these.
    pub(super) corrected: Option<Outcome>,
    /// The text with every correction made that `sparestrip fix` would make, once somebody asked for it.
    pub(super) fixed: Option<String>,
}

/// A text, and the byte in it that something is asked about.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asked<'d> {
    /// The text.
    pub(super) document: &'d Document,
    /// The byte.
    pub(super) byte: usize,
}

impl Document {
    /// A text that was opened; `None` where the file is nothing that is checked.
    pub(super) fn open(uri: Uri, version: i32, text: String) -> Option<Document> {
        let path = path_of(&uri.0);
        let kind = FileKind::of(&path)?;
        let source = Source::from_bytes(path, text.clone().into_bytes());
        Some(Document { uri, kind, version, text, source, is_told: false, corrected: None, fixed: None })
    }

    /// The text.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// The folder whose house rules and sign-offs govern it.
    pub(super) fn folder(&self) -> &Path {
        folder_of(&self.source.path)
    }

    /// Makes the changes of one message, one after another.
    pub(super) fn change(&mut self, version: i32, changes: Vec<ContentChange>, encoding: PositionEncoding) {
        for change in changes {
            match change {
                ContentChange::TextDocumentContentChangePartial(part) => {
                    let at = span_in(&self.text, part.range, encoding);
                    self.text.replace_range(at.start..at.end, &part.text);
                }
                ContentChange::TextDocumentContentChangeWholeDocument(whole) => self.text = whole.text,
            }
        }
        self.version = version;
        self.source = Source::from_bytes(std::mem::take(&mut self.source.path), self.text.clone().into_bytes());
        self.forget();
    }

    /// Forgets what was found: the text, or what it is checked by, is another.
    pub(super) fn forget(&mut self) {
        (self.is_told, self.corrected, self.fixed) = (false, None, None);
    }

    /// The byte offset of a position.
    pub(super) fn byte(&self, position: ClientPosition, encoding: PositionEncoding) -> usize {
        byte_at(&self.source.text, own(position), encoding)
    }

    /// The place of a range.
    pub(super) fn span(&self, range: Range, encoding: PositionEncoding) -> Span {
        span_in(&self.source.text, range, encoding)
    }

    /// The range of a place.
    pub(super) fn range(&self, at: Span, encoding: PositionEncoding) -> Range {
        range_in(&self.source, at, encoding)
    }
}

/// The range of a place in a text.
pub(super) fn range_in(source: &Source, at: Span, encoding: PositionEncoding) -> Range {
    let position = |byte| {
        let Position { line, character } = source.position(byte, encoding);
        ClientPosition { line, character }
    };
    Range { start: position(at.start), end: position(at.end) }
}

const fn own(position: ClientPosition) -> Position {
    Position { line: position.line, character: position.character }
}

/// The place of a range. One that ends before it starts is taken the other way round.
fn span_in(text: &str, range: Range, encoding: PositionEncoding) -> Span {
    let [start, end] = [range.start, range.end].map(|position| byte_at(text, own(position), encoding));
    Span::new(start.min(end), start.max(end))
}

/// The path that a URI of a file names (RFC 8089); of any other, what stands after its scheme.
fn path_of(uri: &str) -> PathBuf {
    let rest = match uri.strip_prefix("file://") {
        // The name of a computer stands before the path: this one's, or none.
        Some(rest) => &rest[rest.find('/').unwrap_or(rest.len())..],
        None => uri.split_once(':').map_or(uri, |(_, rest)| rest),
    };
    let path = String::from_utf8_lossy(&decoded(rest)).into_owned();
    // `/c:/patterns` is a path of Windows with a slash before it.
    let has_drive = cfg!(windows) && path.as_bytes().get(2) == Some(&b':');
    PathBuf::from(if has_drive { &path[1..] } else { &path })
}

/// A text with `%` and two digits read as the byte that they stand for.
fn decoded(text: &str) -> Vec<u8> {
    let bytes = text.as_bytes();
    let (mut decoded, mut at) = (Vec::with_capacity(bytes.len()), 0);
    while let Some(byte) = bytes.get(at) {
        let digits =
            bytes.get(at + 1..at + 3).filter(|digits| *byte == b'%' && digits.iter().all(u8::is_ascii_hexdigit));
        let digits = digits.and_then(|digits| std::str::from_utf8(digits).ok());
        match digits.and_then(|digits| u8::from_str_radix(digits, 16).ok()) {
            Some(value) => {
                decoded.push(value);
                at += 3;
            }
            None => {
                decoded.push(*byte);
                at += 1;
            }
        }
    }
    decoded
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::path_of;

    #[test]
    fn uris_name_paths() {
        let paths = [
            ("file:///my%20patterns/caf%C3%A9.pattern.yaml", "/my patterns/caf\u{e9}.pattern.yaml"),
            ("file://localhost/a%23b.pattern.yaml", "/a#b.pattern.yaml"),
            ("file:///100%.pattern.yaml", "/100%.pattern.yaml"),
            ("untitled:dune.pattern.yaml", "dune.pattern.yaml"),
            ("file://", ""),
        ];
        for (uri, path) in paths {
            assert_eq!(path_of(uri), PathBuf::from(path), "{uri}");
        }
    }
}
