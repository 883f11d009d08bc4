//! The files of the texts that a manuscript names.

use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use sha2::{Digest, Sha256};

use super::check::ReadExtent;
use super::formats::{MAX_NUMBERS, passages_with, read_text, text_bytes};
use super::passage::{PassageKind, PrintedText, TextPlace, TextProblem};
use crate::discover::{folder_of, reason};
use crate::manuscript::{Source, Span};

/// What gives a text by the path that a manuscript names, or says in a clause why it does not.
pub type Load<'l> = dyn Fn(&str) -> Result<Arc<TextFile>, String> + 'l;

/// The most numbers of a text times those of its manuscript: no pattern comes near it.
const MAX_COMPARED: usize = 6_000_000;

/// A text that was read.
#[derive(Clone, Debug)]
pub struct TextFile {
    /// Its path: that of the manuscript's folder and the one that the manuscript names.
    pub path: PathBuf,
    /// What it says.
    pub printed: PrintedText,
    /// What is shown of it: its own text, or a line for each passage where its file is no text.
    pub source: Source,
    /// Its file.
    bytes: Vec<u8>,
    /// The digest of that, once somebody asked for it.
    sha256: OnceLock<[u8; 32]>,
    /// Where each passage begins in what is shown; empty where that is the file's own text.
    starts: Vec<usize>,
}

impl TextFile {
    /// A text from its bytes.
    pub fn new(path: PathBuf, bytes: Vec<u8>) -> TextFile {
        let printed = read_text(&path, &bytes);
        let sha256 = OnceLock::new();
        if printed.format.has_spans() {
            let source = Source::from_bytes(&path, bytes.clone());
            return TextFile { path, printed, source, bytes, sha256, starts: Vec::new() };
        }
        let (mut text, mut starts) = (String::new(), Vec::new());
        for passage in &printed.passages {
            starts.push(text.len());
            text.push_str(&passage.text.replace('\n', " "));
            text.push('\n');
        }
        let source = Source::from_text(&path, text);
        TextFile { path, printed, source, bytes, sha256, starts }
    }

    /// What is read of it with a manuscript that states so many numbers: all of it, unless too many would be compared.
    pub(super) fn comparable(file: Arc<TextFile>, stated: usize) -> Arc<TextFile> {
        let most = MAX_COMPARED / stated.max(1);
        let passages = &file.printed.passages;
        let read = if most < MAX_NUMBERS { passages_with(passages, most) } else { passages.len() };
        if read == passages.len() {
            return file;
        }
        let mut part = TextFile::clone(&file);
        let says = format!(
            "it has more than {most} numbers, each of which would be compared with {stated} that the manuscript states or \
             that follow from it: what comes after these is not read; part the manuscript, or the text"
        );
        part.printed.problems.push(TextProblem { says, at: TextPlace::Whole });
        part.printed.passages.truncate(read);
        Arc::new(part)
    }

    /// Its file.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The SHA-256 (FIPS 180-4) of its file.
    pub fn sha256(&self) -> [u8; 32] {
        *self.sha256.get_or_init(|| Sha256::digest(&self.bytes).into())
    }

    /// How much of it could be read.
    pub fn extent(&self) -> ReadExtent {
        match (self.printed.problems.is_empty(), self.printed.passages.is_empty()) {
            (true, _) => ReadExtent::Whole,
            (false, false) => ReadExtent::Part,
            (false, true) => ReadExtent::Nothing,
        }
    }

    /// Where bytes of a passage stand in what is shown.
    pub fn span(&self, passage: usize, at: std::ops::Range<usize>) -> Span {
        match (self.starts.get(passage), self.printed.passages[passage].place(at.clone())) {
            (Some(start), _) => Span::new(start + at.start, start + at.end),
            (None, TextPlace::Span(span)) => span,
            (None, _) => Span::new(0, 0),
        }
    }

    /// The page or the paragraph of a place in what is shown, in words; nothing where it is the file's own text.
    pub fn place(&self, at: Span) -> Option<TextPlace> {
        let passage = self.starts.partition_point(|start| *start <= at.start).checked_sub(1)?;
        let start = self.starts[passage];
        Some(self.printed.passages.get(passage)?.place(at.start - start..at.end - start))
    }

    /// The words round bytes of a passage, at most so many characters: a whole cell or item where that is short.
    pub fn quote(&self, passage: usize, at: &std::ops::Range<usize>, sentence: &std::ops::Range<usize>) -> String {
        const LONGEST: usize = 48;
        let text = &self.printed.passages[passage].text;
        let is_cell = matches!(self.printed.passages[passage].kind, PassageKind::Cell { .. });
        let (mut start, mut end) = if is_cell { (0, text.len()) } else { (sentence.start, sentence.end) };
        (start, end) = (start.min(at.start), end.max(at.end));
        let length = |start: usize, end: usize| text[start..end].chars().count();
        while length(start, end) > LONGEST {
            // Word by word from the side that is longer, as long as the number stays.
            let before = text[start..at.start].find(' ').map(|space| start + space + 1);
            let after = text[at.end..end].rfind(' ').map(|space| at.end + space);
            match (before, after) {
                (Some(next), Some(last)) if at.start - start < end - at.end || next > at.start => end = last,
                (Some(next), _) => start = next,
                (None, Some(last)) => end = last,
                (None, None) => break,
            }
        }
        text[start..end]
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
            .trim_matches(['.', ',', ';', ':', ' '])
            .to_string()
    }
}

/// What reads the texts in the folder of a manuscript and below; links that lead elsewhere are not followed.
pub fn beside(manuscript: &Path) -> impl Fn(&str) -> Result<Arc<TextFile>, String> + use<> {
    let (manuscript, bytes) = (manuscript.to_path_buf(), bytes_beside(manuscript));
    move |name| Ok(Arc::new(TextFile::new(path_of(&manuscript, name), bytes(name)?)))
}

/// What reads the same files, whatever they are.
pub(crate) fn bytes_beside(manuscript: &Path) -> impl Fn(&str) -> Result<Vec<u8>, String> + use<> {
    let folder = folder_of(manuscript).to_path_buf();
    move |name| {
        let path = folder.join(name);
        let real = path.canonicalize().map_err(|error| reason(&error))?;
        let is_below = folder.canonicalize().is_ok_and(|folder| real.starts_with(folder));
        if !is_below {
            return Err("it is a link to a file outside of this manuscript's folder".to_string());
        }
        if !real.is_file() {
            return Err("it is not a file".to_string());
        }
        text_bytes(&real).map_err(|error| reason(&error))
    }
}

/// The path of a text, as it is told: the manuscript's folder and the name.
pub(crate) fn path_of(manuscript: &Path, name: &str) -> PathBuf {
    match manuscript.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.join(name),
        _ => PathBuf::from(name),
    }
}

#[test]
fn a_text_is_read_up_to_where_too_many_numbers_would_be_compared() {
    let file = Arc::new(TextFile::new(PathBuf::from("a.md"), b"Cut 1.\n\nCut 2.\n\nCut 3.\n".to_vec()));
    let whole = TextFile::comparable(Arc::clone(&file), MAX_COMPARED / 3);
    assert_eq!((whole.printed.passages.len(), whole.printed.problems.len()), (3, 0));
    let part = TextFile::comparable(file, MAX_COMPARED / 3 + 1);
    assert_eq!(part.printed.passages.len(), 2);
    let says: Vec<&str> = part.printed.problems.iter().map(|problem| problem.says.as_str()).collect();
    let begin = "it has more than 2 numbers, each of which would be compared with 2000001 that the manuscript states";
    assert!(matches!(says[..], [says] if says.starts_with(begin)), "{says:?}");
}
