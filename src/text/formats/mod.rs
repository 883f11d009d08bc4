//! The formats that texts are read from, a file each.

mod assembly;
mod builder;
mod columns;
mod decode;
mod docx;
mod fractions;
mod grid;
mod heads;
mod html;
mod html_elements;
mod html_layout;
mod lines;
mod markdown;
mod odt;
mod office;
mod package;
mod pdf;
mod plain;
mod xml;

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use super::number_words::is_number_word;
use super::passage::{MAX_TEXT_BYTES, Passage, PrintedText, TextFormat, TextPlace, TextProblem};
use builder::Builder;
use package::Package;

/// The largest HTML that is read, which may have pictures in it: 8 MB.
const MAX_HTML_BYTES: u64 = 8_000_000;
/// The largest plain text that is read: 2 MB.
const MAX_PLAIN_BYTES: u64 = 2_000_000;
/// The largest Markdown that is read: 1 MB. Signs that are nested without end take 150 times as much memory.
const MAX_MARKDOWN_BYTES: u64 = 1_000_000;

/// The most numbers of a text that are read, and of one of its passages, and the longest passage, in bytes: what a number is
/// is found among all that stands beside it, and in more than these nobody prints a pattern.
pub(super) const MAX_NUMBERS: usize = 3_000;
const MAX_NUMBERS_OF_PASSAGE: usize = 600;
const MAX_PASSAGE: usize = 10_000;

/// How many of its first bytes tell what a file is.
const HEAD: u64 = 1024;

/// What can be read, for a file that is nothing of it.
const READABLE: &str =
    "texts are read from Markdown, plain text, HTML, Word (.docx), OpenDocument (.odt) and PDF files";

/// Reads a text. What it is, its bytes tell, and where they do not, the ending of its name.
pub fn read_text(path: &Path, bytes: &[u8]) -> PrintedText {
    let ending = ending_of(path);
    let format = format_of(&ending, bytes);
    let most = most_bytes(format);
    if bytes.len() as u64 > most {
        return unread(format, format!("it is larger than {} MB: nothing of it was read", most / 1_000_000));
    }
    if bytes.is_empty() {
        return unread(format, "the file is empty");
    }
    let mut printed = match format {
        TextFormat::Word | TextFormat::OpenDocument => read_package(&ending, bytes),
        TextFormat::Pdf => pdf::read(bytes),
        _ if looks_binary(bytes) => unread(format, format!("this is no text: {READABLE}")),
        TextFormat::Markdown => markdown::read(bytes),
        TextFormat::Html => html::read(bytes),
        TextFormat::Plain => plain::read(bytes),
    };
    bound_numbers(&mut printed);
    if printed.passages.is_empty() && printed.problems.is_empty() {
        printed.problems.push(TextProblem { says: "no text was found in it".to_owned(), at: TextPlace::Whole });
    }
    printed
}

const fn most_bytes(format: TextFormat) -> u64 {
    match format {
        TextFormat::Plain => MAX_PLAIN_BYTES,
        TextFormat::Markdown => MAX_MARKDOWN_BYTES,
        TextFormat::Html => MAX_HTML_BYTES,
        TextFormat::Word | TextFormat::OpenDocument | TextFormat::Pdf => MAX_TEXT_BYTES,
    }
}

/// The bytes of a text, one more at most than are read of what it is: a file that is too large is not held in memory.
///
/// # Errors
/// Where it cannot be read.
pub fn text_bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut file = File::open(path)?;
    let length = file.metadata()?.len();
    let mut bytes = Vec::new();
    file.by_ref().take(HEAD).read_to_end(&mut bytes)?;
    let most = most_bytes(format_of(&ending_of(path), &bytes)) + 1;
    bytes.reserve_exact(usize::try_from(length.min(most)).unwrap_or_default().saturating_sub(bytes.len()));
    file.take(most.saturating_sub(bytes.len() as u64)).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Leaves out passages that are too long to be read, and what comes after too many numbers.
fn bound_numbers(printed: &mut PrintedText) {
    let (mut all, mut long, mut read) = (0, false, printed.passages.len());
    for (index, passage) in printed.passages.iter_mut().enumerate() {
        let numbers = numbers_in(&passage.text);
        if numbers > MAX_NUMBERS_OF_PASSAGE || passage.text.len() > MAX_PASSAGE {
            // It keeps its place: others go by that.
            (passage.text, passage.places, long) = (String::new(), Vec::new(), true);
            continue;
        }
        all += numbers;
        if all > MAX_NUMBERS {
            read = index;
            break;
        }
    }
    let mut say = |says: String| printed.problems.push(TextProblem { says, at: TextPlace::Whole });
    if long {
        say(format!(
            "a paragraph has more than {MAX_NUMBERS_OF_PASSAGE} numbers or {MAX_PASSAGE} letters: it is not read; part it with \
             empty lines"
        ));
    }
    if read < printed.passages.len() {
        say(format!("it has more than {MAX_NUMBERS} numbers: what comes after these is not read"));
        printed.passages.truncate(read);
    }
}

/// How many passages from the first on have no more numbers than these.
pub(super) fn passages_with(passages: &[Passage], most: usize) -> usize {
    let mut all = 0;
    let is_over = |passage: &Passage| {
        all += numbers_in(&passage.text);
        all > most
    };
    passages.iter().position(is_over).unwrap_or(passages.len())
}

/// How many numbers a text may have, in figures and in words; a fraction is one, and `6/9/12` are three.
fn numbers_in(text: &str) -> usize {
    let is_slash = |c: char| matches!(c, '/' | '\u{2044}');
    let numbers = |part: &str| {
        let figures = part.split(|c: char| !c.is_numeric()).filter(|figures| !figures.is_empty()).count();
        match (part.starts_with(char::is_numeric), part.matches(is_slash).count()) {
            (true, 1) => figures.saturating_sub(1).max(1),
            (true, _) => figures,
            (false, _) => usize::from(is_number_word(part)),
        }
    };
    text.split(|c: char| !c.is_alphanumeric() && !is_slash(c)).map(numbers).sum()
}

fn format_of(ending: &str, bytes: &[u8]) -> TextFormat {
    if bytes.starts_with(b"PK") || bytes.starts_with(COMPOUND_FILE) {
        return if ending == "odt" { TextFormat::OpenDocument } else { TextFormat::Word };
    }
    let start = &bytes[..bytes.len().min(usize::try_from(HEAD).unwrap_or_default())];
    if start.windows(5).any(|five| five == b"%PDF-") {
        return TextFormat::Pdf;
    }
    format_by_ending(ending)
}

/// The ending of a file's name in lower case, without its dot.
fn ending_of(path: &Path) -> String {
    path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_ascii_lowercase()
}

/// What the names of texts end in. Another file may be plain text as well.
pub(crate) const ENDINGS: [(&str, TextFormat); 12] = [
    ("md", TextFormat::Markdown),
    ("markdown", TextFormat::Markdown),
    ("mdown", TextFormat::Markdown),
    ("mkd", TextFormat::Markdown),
    ("html", TextFormat::Html),
    ("htm", TextFormat::Html),
    ("xhtml", TextFormat::Html),
    ("txt", TextFormat::Plain),
    ("docx", TextFormat::Word),
    ("docm", TextFormat::Word),
    ("odt", TextFormat::OpenDocument),
    ("pdf", TextFormat::Pdf),
];

fn format_by_ending(ending: &str) -> TextFormat {
    let own = ENDINGS.iter().find(|(own, _)| *own == ending);
    own.map_or(TextFormat::Plain, |(_, format)| *format)
}

/// Whether a file is named as a printed text. One that may be plain text may be a manuscript as well.
pub fn is_named_as_text(path: &Path) -> bool {
    format_by_ending(&ending_of(path)) != TextFormat::Plain
}

/// How the files begin that Word wrote before .docx, and those that it protects by a password.
const COMPOUND_FILE: &[u8] = b"\xd0\xcf\x11\xe0";

fn read_package(ending: &str, bytes: &[u8]) -> PrintedText {
    let format = if ending == "odt" { TextFormat::OpenDocument } else { TextFormat::Word };
    if bytes.starts_with(COMPOUND_FILE) {
        let says = "it is protected by a password, or is a .doc file of old: save it as .docx without a password";
        return unread(format, says);
    }
    let Some(mut package) = Package::open(bytes) else {
        return unread(format, "it is damaged or cut off: open it in the program that wrote it and save it again");
    };
    if package.has("content.xml") || package.has("encrypted-package") {
        return match package.read("mimetype") {
            Ok(kind) if !kind.trim().starts_with("application/vnd.oasis.opendocument.text") => {
                unread(format, format!("this is another kind of OpenDocument file: {READABLE}"))
            }
            _ => odt::read(package),
        };
    }
    if package.has("[Content_Types].xml") || package.has("word/document.xml") {
        return docx::read(package);
    }
    unread(format, format!("this is an archive and no text: {READABLE}"))
}

/// Whether there are bytes that no text has: two-byte text says so by its mark.
fn looks_binary(bytes: &[u8]) -> bool {
    let start = &bytes[..bytes.len().min(8192)];
    !bytes.starts_with(b"\xff\xfe") && !bytes.starts_with(b"\xfe\xff") && start.contains(&0)
}

/// A text of which nothing could be read, and why.
fn unread(format: TextFormat, says: impl Into<String>) -> PrintedText {
    let mut builder = Builder::new(format);
    builder.problem(says, TextPlace::Whole);
    builder.finish()
}
