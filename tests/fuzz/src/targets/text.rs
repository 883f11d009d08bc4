//! Printed texts of every format: what is read is bounded, has its places, and stands under what came before it.

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use sparestrip::rule_book::Settings;
use sparestrip::text::{Passage, PrintedText, TextFile, TextPlace, match_text, read_text};

use super::text_files::{document, pdf_file};
use super::{Fault, Kind, Target, hold, in_text, source};
use crate::corpus;
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "text",
    about: "a printed text is read from any format and matched with a manuscript; passages and numbers have their places",
    kind: Kind::Text,
    share: 80,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let Some((format, bytes)) = input.split_first() else { return Ok(()) };
    let mut rng = Rng::of(input);
    let text = || String::from_utf8_lossy(bytes).into_owned();
    // A damaged archive is seldom opened, so that what is in one is damaged before it is packed.
    let (name, file) = match format {
        b'w' => ("a.docx", document::word_file(&text())),
        b'o' => ("a.odt", document::open_document_file("", &text())),
        b'd' => ("a.pdf", pdf_file::file_of_pages(&[text()])),
        b'h' => ("a.html", bytes.to_vec()),
        b'm' => ("a.md", bytes.to_vec()),
        b'W' => ("a.docx", bytes.to_vec()),
        b'O' => ("a.odt", bytes.to_vec()),
        b'P' => ("a.pdf", bytes.to_vec()),
        _ => ("a.txt", bytes.to_vec()),
    };
    let printed = read_text(Path::new(name), &file);
    let is_told = !printed.passages.is_empty() || !printed.problems.is_empty();
    hold(is_told, "nothing was read, and nothing says why", || name.to_string())?;
    for problem in &printed.problems {
        hold(!problem.says.is_empty(), "a problem without words", || name.to_string())?;
        lies(&file, problem.at, &problem.says)?;
        seen.note(&[name, problem.says.split(|c: char| c.is_ascii_digit() || c == ':').next().unwrap_or_default()]);
    }
    for number in 0..printed.passages.len() {
        passage(&file, &printed, number)?;
        let kind = format!("{:?}", printed.passages[number].kind);
        seen.note(&[name, &kind]);
    }
    // A match takes longer than the reading.
    if rng.one_in(4) { matched(&mut rng, name, file) } else { Ok(()) }
}

/// The numbers of a text, matched with those of a manuscript, have their places.
fn matched(rng: &mut Rng, name: &str, file: Vec<u8>) -> Result<(), Fault> {
    let manuscripts = MANUSCRIPTS.get_or_init(corpus::manuscripts);
    let manuscript: &Vec<u8> = rng.pick(manuscripts);
    let source = source(manuscript);
    let text = TextFile::new(PathBuf::from(name), file);
    let matched = match_text(&text, &source, &Settings::default());
    for number in &matched.numbers {
        in_text(&text.source.text, number.at, &number.quoted)?;
        hold(!number.place.is_empty() && !number.quoted.is_empty(), "a number of a text without a place", || {
            format!("{number:?}")
        })?;
    }
    Ok(())
}

/// The manuscripts that texts are matched with.
static MANUSCRIPTS: OnceLock<Vec<Vec<u8>>> = OnceLock::new();

/// What holds of one passage.
fn passage(file: &[u8], printed: &PrintedText, number: usize) -> Result<(), Fault> {
    let passage = &printed.passages[number];
    let told = || format!("{passage:?}");
    let text = &passage.text;
    hold(!text.is_empty(), "an empty passage", told)?;
    hold(!text.contains(|c: char| c.is_control() && c != '\n'), "controls in a passage", told)?;
    let after = passage.headings.iter().chain(&passage.list_head).find(|head| **head >= number);
    hold(after.is_none(), "a passage that stands under a later one", told)?;
    let mut end = 0;
    for run in &passage.places {
        let in_order = run.bytes.start == end && run.bytes.start < run.bytes.end;
        let on_characters = text.is_char_boundary(run.bytes.start) && text.is_char_boundary(run.bytes.end);
        hold(in_order && on_characters, "places that do not follow each other", told)?;
        end = run.bytes.end;
        lies(file, run.place, text)?;
    }
    hold(end == text.len(), "a passage without places at its end", told)?;
    letters(file, passage)
}

/// Whether a place lies in the file.
fn lies(file: &[u8], place: TextPlace, what: &str) -> Result<(), Fault> {
    let TextPlace::Span(span) = place else { return Ok(()) };
    let lies = span.start <= span.end && span.end <= file.len();
    hold(lies, "a place that is none of the text", || format!("{span:?} of {what:?} in {} bytes", file.len()))
}

/// What a run says that is said to stand in the file as it is, stands there; but white space is spaces.
fn letters(file: &[u8], passage: &Passage) -> Result<(), Fault> {
    for run in passage.places.iter().filter(|run| run.verbatim) {
        let TextPlace::Span(span) = run.place else { continue };
        let spaced = |bytes: &[u8]| -> String {
            let space = |letter: char| if letter.is_whitespace() { ' ' } else { letter };
            String::from_utf8_lossy(bytes).chars().map(space).collect()
        };
        let there = spaced(&file[span.start..span.end]);
        let said = spaced(&passage.text.as_bytes()[run.bytes.clone()]);
        let told = || format!("{there:?} for {said:?}");
        hold(there == said, "what is said to stand there does not", told)?;
    }
    Ok(())
}

/// Texts of every format, with the letter of it before each.
pub(crate) fn seeds() -> Vec<Vec<u8>> {
    use document::Part;
    let rows = [["Fabric", "Crib", "Throw"], ["Ink", "5/8 yd", "1 yd"], ["Sand", "\u{bd} yd", "7\u{2044}8 yd"]];
    let parts = [
        Part::Heading(1, "Lantern Mat".to_owned()),
        Part::Paragraph("A mat of 13\" x 18\", with a binding of 2 1/2\" strips & a seam of 1/4\".".to_owned()),
        Part::Heading(2, "Fabric".to_owned()),
        Part::Table(rows.iter().map(|row| row.iter().map(|cell| (*cell).to_owned()).collect()).collect()),
        Part::List(false, vec![(0, "8 strips".to_owned()), (1, "64 squares".to_owned()), (0, "4 strips".to_owned())]),
        Part::List(true, vec![(0, "Sew 32 pairs.".to_owned()), (0, "Press.".to_owned())]),
    ];
    let word = "<w:p><w:pPr><w:pStyle w:val=\"H1\"/></w:pPr><w:r><w:t xml:space=\"preserve\">Cut </w:t></w:r></w:p><w:p>\
        <w:pPr><w:numPr><w:ilvl w:val=\"1\"/><w:numId w:val=\"2\"/></w:numPr></w:pPr><w:r><w:rPr><w:vertAlign \
        w:val=\"superscript\"/></w:rPr><w:t>8 strips</w:t></w:r><w:del><w:r><w:delText>6</w:delText></w:r></w:del></w:p>\
        <w:tbl><w:tr><w:trPr><w:tblHeader/></w:trPr><w:tc><w:tcPr><w:gridSpan w:val=\"2\"/><w:vMerge/></w:tcPr><w:p>\
        <w:r><w:t>5</w:t></w:r></w:p></w:tc></w:tr></w:tbl>";
    let open = "<text:h text:outline-level=\"1\">Cut</text:h><text:list><text:list-item><text:p>8<text:s text:c=\"3\"/>\
        strips</text:p></text:list-item></text:list><table:table><table:table-header-rows><table:table-row>\
        <table:table-cell table:number-columns-spanned=\"2\" table:number-columns-repeated=\"3\"><text:p>5</text:p>\
        </table:table-cell></table:table-row></table:table-header-rows></table:table><text:p><text:note><text:note-body>\
        <text:p>a note</text:p></text:note-body></text:note></text:p>";
    let drawn = "q 1 0 0 1 5 5 cm /P <</ActualText (x)>> BDC BT /F1 12 Tf 14 TL 60 700 Td <0043007500740020> Tj T* [<0038> \
        -300 <0020>] TJ (a) ' EMC ET 5 5 100 1 re f 0 0 m 100 0 l S Q";
    let plain = "MAT\n\n- 8 strips\n  1. 3 of them\n\nSize   Crib  Lap\nInk    1     2\n\nCut 2 \u{bd} in.\n";
    vec![
        [b"t", plain.as_bytes()].concat(),
        [b"m", document::markdown(&parts).as_bytes()].concat(),
        [b"h", document::html(&parts).as_bytes()].concat(),
        [b"w", word.as_bytes()].concat(),
        [b"o", open.as_bytes()].concat(),
        [b"d", drawn.as_bytes()].concat(),
        [b"W".to_vec(), document::docx(&parts)].concat(),
        [b"O".to_vec(), document::odt(&parts)].concat(),
        [b"P".to_vec(), document::pdf(&parts)].concat(),
    ]
}
