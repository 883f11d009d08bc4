//! Damaged files of every format: whatever was changed, the reading ends, without a panic, and what is read is bounded.

use super::document::{Part, docx, html, markdown, odt, pdf};
use super::read;
use crate::support::rng::Rng;

fn text() -> Vec<Part> {
    let rows = [["Fabric", "Crib", "Throw"], ["Ink", "5/8 yd", "1 yd"], ["Sand", "½ yd", "7⁄8 yd"]];
    vec![
        Part::Heading(1, "Lantern Mat".to_owned()),
        Part::Paragraph("A mat of 13\" x 18\", with a binding of 2 1/2\" strips and a seam of 1/4\".".to_owned()),
        Part::Table(rows.iter().map(|row| row.iter().map(|cell| (*cell).to_owned()).collect()).collect()),
        Part::List(false, vec![(0, "8 strips".to_owned()), (1, "64 squares".to_owned()), (0, "4 strips".to_owned())]),
    ]
}

fn files() -> Vec<(&'static str, Vec<u8>)> {
    let parts = text();
    vec![
        ("a.txt", "MAT\n\n- 8 strips\n\nA  B\n1  2\n\nCut 2 ½ in.\n".into()),
        ("a.md", markdown(&parts).into_bytes()),
        ("a.html", html(&parts).into_bytes()),
        ("a.docx", docx(&parts)),
        ("a.odt", odt(&parts)),
        ("a.pdf", pdf(&parts)),
    ]
}

/// Reads what may be anything, and asserts what holds for any file.
fn survives(name: &str, bytes: &[u8]) {
    let printed = read(name, bytes);
    assert!(!printed.passages.is_empty() || !printed.problems.is_empty(), "{name}: nothing, and nothing says why");
    for passage in &printed.passages {
        assert!(!passage.text.is_empty(), "{name}: an empty passage");
        assert!(!passage.text.contains(|ch: char| ch.is_control() && ch != '\n'), "{name}: {:?}", passage.text);
        assert_eq!(passage.places.last().map(|run| run.bytes.end), Some(passage.text.len()), "{name}: {passage:?}");
    }
}

/// Changes a few bytes, cuts off an end, or repeats or moves a stretch.
fn damaged(bytes: &[u8], rng: &mut Rng) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    let place =
        |rng: &mut Rng, bytes: &[u8]| usize::try_from(rng.below(i64::try_from(bytes.len().max(1)).unwrap())).unwrap();
    for _ in 0..rng.between(1, 4) {
        if bytes.is_empty() {
            break;
        }
        let (from, to) = (place(rng, &bytes), place(rng, &bytes));
        let (from, to) = (from.min(to), from.max(to));
        match rng.below(6) {
            0 => bytes.truncate(to),
            1 => {
                bytes.drain(from..to.min(from + 40));
            }
            2 => {
                let copy = bytes[from..to.min(from + 200)].to_vec();
                bytes.splice(to..to, copy);
            }
            3 => bytes[from] ^= 1 << rng.below(8),
            4 => bytes[from] = u8::try_from(rng.below(256)).unwrap(),
            _ => bytes[from] = rng.pick(b"<>[](){}/\\%&;#0129-.\"' \n\0"),
        }
    }
    bytes
}

#[test]
fn changed_files_never_end_the_program() {
    let rounds = if cfg!(feature = "long_tests") { 20_000 } else { 1_500 };
    for (name, bytes) in files() {
        for round in 0..rounds {
            let changed = damaged(&bytes, &mut Rng::new(round));
            survives(name, &changed);
        }
    }
}

#[test]
fn files_cut_off_anywhere_are_read_as_far_as_they_go() {
    for (name, bytes) in files() {
        let step = if bytes.len() > 2000 { 7 } else { 1 };
        for end in (0..bytes.len()).step_by(step) {
            survives(name, &bytes[..end]);
        }
    }
}

#[test]
fn what_is_packed_may_be_damaged_too() {
    let rounds = if cfg!(feature = "long_tests") { 20_000 } else { 1_500 };
    let word = |xml: &str| {
        super::package::zipped_bytes(&[("[Content_Types].xml", b"<Types/>"), ("word/document.xml", xml.as_bytes())])
    };
    let body = "<w:document><w:body><w:p><w:pPr><w:numPr><w:ilvl w:val=\"1\"/><w:numId w:val=\"2\"/></w:numPr></w:pPr><w:r><w:rPr><w:vertAlign w:val=\"superscript\"/></w:rPr><w:t>8 strips</w:t></w:r></w:p><w:tbl><w:tr><w:tc><w:tcPr><w:gridSpan w:val=\"2\"/><w:vMerge/></w:tcPr><w:p><w:r><w:t>5</w:t></w:r></w:p></w:tc></w:tr></w:tbl></w:body></w:document>";
    let drawing = "q 1 0 0 1 5 5 cm /P <</ActualText (x)>> BDC BT /F1 12 Tf 14 TL 60 700 Td <0043007500740020> Tj T* [<0038> -300 <0020>] TJ (a) ' EMC ET 5 5 100 1 re f 0 0 m 100 0 l S Q";
    for round in 0..rounds {
        let mut rng = Rng::new(round);
        let changed = String::from_utf8_lossy(&damaged(body.as_bytes(), &mut rng)).into_owned();
        survives("a.docx", &word(&changed));
        let changed = String::from_utf8_lossy(&damaged(drawing.as_bytes(), &mut rng)).into_owned();
        survives("a.pdf", &super::pdf_file::file_of_pages(&[changed]));
    }
}
