//! A text that is open in the editor, as it is there and not as it is on disk.

use std::cell::OnceCell;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use gen_lsp_types::{Position as ClientPosition, Range, TextDocumentContentChangeEvent as ContentChange, Uri};

use crate::check::Outcome;
use crate::discover::{folder_of, is_manuscript};
use crate::manuscript::section::Shape;
use crate::manuscript::{FORMAT, Position, PositionEncoding, Source, Span, byte_at, read};
use crate::rule_book::{HOUSE_RULES, HOUSE_RULES_FILE};
use crate::text::path_of as text_path;
use crate::uri::path_of;

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
    /// The printed texts that it names, once somebody asked for them.
    texts: OnceCell<Vec<(PathBuf, Span)>>,
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
        let texts = OnceCell::new();
        Some(Document { uri, kind, version, text, source, texts, is_told: false, corrected: None, fixed: None })
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
        change_text(&mut self.text, changes, encoding);
        self.version = version;
        self.source = Source::from_bytes(std::mem::take(&mut self.source.path), self.text.clone().into_bytes());
        self.texts = OnceCell::new();
        self.forget();
    }

    /// The printed texts that it names, by their paths, each with the place of its name.
    pub(super) fn texts(&self) -> &[(PathBuf, Span)] {
        self.texts.get_or_init(|| match self.kind {
            FileKind::Manuscript => {
                let named = read(&self.source).texts.into_iter();
                named.map(|text| (text_path(&self.source.path, &text.value), text.at)).collect()
            }
            FileKind::HouseRules => Vec::new(),
        })
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

/// Makes changes in a text, one after another.
pub(super) fn change_text(text: &mut String, changes: Vec<ContentChange>, encoding: PositionEncoding) {
    for change in changes {
        match change {
            ContentChange::TextDocumentContentChangePartial(part) => {
                let at = span_in(text, part.range, encoding);
                text.replace_range(at.start..at.end, &part.text);
            }
            ContentChange::TextDocumentContentChangeWholeDocument(whole) => *text = whole.text,
        }
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
