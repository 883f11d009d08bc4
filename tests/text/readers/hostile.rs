//! Files that mean harm: each ends in a clear line, and none of it is unpacked, followed or drawn without end.

use super::document::{open_document_file, word_file};
use super::package::{zipped, zipped_bytes};
use super::pdf_file::{deflated, file, file_of_pages, stream};
use super::{problems, read};

/// The first thing that is said to be wrong.
fn says(name: &str, bytes: impl AsRef<[u8]>) -> String {
    problems(&read(name, bytes)).first().map_or_else(|| panic!("{name}: nothing is said"), |says| (*says).to_owned())
}

#[test]
fn archives_that_unpack_without_end_are_refused() {
    let bomb = "<w:p><w:r><w:t>8 strips</w:t></w:r></w:p>".repeat(1_000_000);
    assert_eq!(says("a.docx", word_file(&bomb)), "unpacked, it is larger than 20 MB of text: nothing of it was read");
    assert_eq!(
        says("a.odt", open_document_file("", &"<text:p>8 strips</text:p>".repeat(1_000_000))),
        "unpacked, it is larger than 20 MB of text: nothing of it was read"
    );
    let zeros = vec![0; 30_000_000];
    let notes = zipped_bytes(&[
        ("[Content_Types].xml", b"<Types/>"),
        ("word/document.xml", b"<w:document><w:body><w:p><w:r><w:t>8 strips</w:t></w:r></w:p></w:body></w:document>"),
        ("word/footnotes.xml", &zeros),
    ]);
    let printed = read("a.docx", notes);
    assert_eq!(problems(&printed), ["unpacked, it is larger than 20 MB of text: nothing of it was read"]);
    assert_eq!(super::lines(&printed), ["8 strips"], "the text itself is read");
}

#[test]
fn archives_of_countless_parts_are_refused() {
    let names: Vec<String> = (0..30_000).map(|number| format!("p{number}")).collect();
    let parts: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), "")).collect();
    assert!(says("a.docx", zipped(&parts)).starts_with("this is an archive and no text"));
}

#[test]
fn elements_that_are_nested_without_end_are_refused() {
    assert_eq!(
        says("a.docx", word_file(&"<w:tbl><w:tr><w:tc>".repeat(100_000))),
        "from here on it is nested too deep to be read"
    );
    assert_eq!(
        says("a.odt", open_document_file("", &"<text:list><text:list-item>".repeat(100_000))),
        "from here on it is nested too deep to be read"
    );
}

#[test]
fn entities_are_not_read_and_nothing_is_fetched() {
    let secret = std::env::temp_dir().join(format!("readers-secret-{}", std::process::id()));
    std::fs::File::create(&secret).and_then(|mut file| std::io::Write::write_all(&mut file, b"42 secrets")).unwrap();
    let text = format!(
        "<?xml version=\"1.0\"?><!DOCTYPE d [<!ENTITY a \"9 9 9 9\"><!ENTITY b \"&a;&a;&a;&a;\"><!ENTITY f SYSTEM \"file://{}\">]>\
         <w:document><w:body><w:p><w:r><w:t>&b;|&f;|8 strips</w:t></w:r></w:p></w:body></w:document>",
        secret.display()
    );
    let printed = read("a.docx", zipped(&[("[Content_Types].xml", ""), ("word/document.xml", &text)]));
    std::fs::remove_file(&secret).unwrap();
    assert_eq!(problems(&printed), ["it declares entities of its own, which are not read"]);
    assert_eq!(super::lines(&printed), ["\u{fffd}|\u{fffd}|8 strips"]);
}

#[test]
fn macros_are_no_text() {
    let parts = [
        ("[Content_Types].xml", "<Types/>"),
        ("word/document.xml", "<w:document><w:body><w:p><w:r><w:t>8 strips</w:t></w:r></w:p></w:body></w:document>"),
        ("word/vbaProject.bin", "Sub AutoOpen()"),
    ];
    assert_eq!(super::read_lines("a.docm", zipped(&parts)), ["8 strips"]);
}

#[test]
fn cells_over_countless_columns_and_rows_are_bounded() {
    let cell = "<w:tr><w:tc><w:tcPr><w:gridSpan w:val=\"4000000000\"/></w:tcPr><w:p><w:r><w:t>8</w:t></w:r></w:p></w:tc></w:tr>";
    let printed = read("a.docx", word_file(&format!("<w:tbl>{}</w:tbl>", cell.repeat(500))));
    assert_eq!(printed.passages.len(), 500);
    let row = "<table:table-row table:number-rows-repeated=\"4000000000\"><table:table-cell table:number-columns-repeated=\"4000000000\"><text:p>8</text:p></table:table-cell></table:table-row>";
    assert_eq!(read("a.odt", open_document_file("", &format!("<table:table>{row}</table:table>"))).passages.len(), 1);
    let html = "<table><tr><td rowspan=4000000000 colspan=4000000000>8".repeat(500);
    assert_eq!(read("a.html", html).passages.len(), 500);
}

#[test]
fn texts_that_go_on_without_end_are_read_up_to_a_bound() {
    let much =
        "it is too long: what comes after the first million characters, or the first 50,000 paragraphs, is not read";
    assert_eq!(says("a.md", "8\n\n".repeat(100_000)), much);
    assert_eq!(says("a.txt", "8 strips\n\n".repeat(100_000)), much);
    assert_eq!(says("a.html", "<p>8".repeat(100_000)), much);
    assert_eq!(says("a.txt", "8 strips\n".repeat(300_000)), "it is larger than 2 MB: nothing of it was read");
    assert_eq!(says("a.md", "8 strips\n".repeat(120_000)), "it is larger than 1 MB: nothing of it was read");
    assert_eq!(says("a.html", "<p>8 strips\n".repeat(700_000)), "it is larger than 8 MB: nothing of it was read");
    let mut pdf = b"%PDF-1.4\n".to_vec();
    pdf.resize(100_000_001, b'0');
    assert_eq!(says("a.pdf", pdf), "it is larger than 100 MB: nothing of it was read");
}

/// Of each number all that stands beside it is asked, so that a text of nothing but numbers would take for ever.
#[test]
fn more_numbers_than_a_pattern_has_are_not_read() {
    let line = "Cut 8 strips, 2 1/2\" x WOF.";
    let long = "a paragraph has more than 600 numbers or 10000 letters: it is not read; part it with empty lines";
    for much in [
        "6, ".repeat(1_000),
        "six and ".repeat(1_000),
        "and then ".repeat(2_000),
        format!("{}2", "3/".repeat(700)),
        format!("{}2", "3x".repeat(700)),
    ] {
        let printed = read("a.md", format!("{line}\n\n{much}\n\n{line}"));
        assert_eq!(
            (problems(&printed), super::lines(&printed)),
            (vec![long], vec![line.to_string(), String::new(), line.to_string()])
        );
    }
    let printed = read("a.md", format!("{line}\n\n").repeat(2_000));
    assert_eq!(problems(&printed), ["it has more than 3000 numbers: what comes after these is not read"]);
    assert_eq!(printed.passages.len(), 1_000);
}

#[test]
fn markup_that_is_nested_without_end_is_read() {
    for (name, text) in [
        ("a.md", "> ".repeat(200_000) + "8 strips"),
        ("a.md", "*a **".repeat(100_000)),
        ("a.md", "[".repeat(300_000)),
        ("a.md", "[a](".repeat(100_000)),
        ("a.html", "<div><table><tr><td>".repeat(50_000) + "8 strips"),
        ("a.html", "<sup>1".repeat(100_000)),
        ("a.html", "<div hidden>".repeat(100_000)),
        ("a.txt", "a\n".repeat(200_000)),
        ("a.txt", "\t|".repeat(200_000)),
        ("a.txt", ("a  ".repeat(400) + "\n").repeat(400)),
    ] {
        let printed = read(name, &text);
        assert!(!printed.passages.is_empty() || !printed.problems.is_empty(), "{name}: {}", &text[..20]);
    }
}

const MORE: &str = "it holds more than is read of one file: what comes after this page is not read";

#[test]
fn pages_that_unpack_without_end_are_refused() {
    let drawn = "BT /F1 12 Tf 60 700 Td <0038> Tj ET ".repeat(1_100_000);
    assert_eq!(says("a.pdf", file_of_pages(&[drawn])), MORE);
    let twice = deflated(&deflated(&vec![b' '; 60_000_000]));
    let objects = [
        (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
        (2, b"<< /Type /Pages /Kids [3 0 R] >>".to_vec()),
        (3, b"<< /Type /Page /Contents 5 0 R >>".to_vec()),
        (5, stream("/Filter [/FlateDecode /FlateDecode]", &twice, false)),
    ];
    assert_eq!(says("a.pdf", file(&objects, "/Root 1 0 R")), MORE);
}

#[test]
fn drawings_that_hold_themselves_are_followed_a_while() {
    let objects = [
        (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
        (2, b"<< /Type /Pages /Kids [3 0 R] /MediaBox [0 0 600 800] >>".to_vec()),
        (3, b"<< /Type /Page /Resources << /XObject << /X 4 0 R >> >> /Contents 5 0 R >>".to_vec()),
        (4, stream("/Subtype /Form /Resources << /XObject << /X 4 0 R >> >>", "/X Do ".repeat(500).as_bytes(), true)),
        (5, stream("", b"/X Do", true)),
    ];
    assert_eq!(says("a.pdf", file(&objects, "/Root 1 0 R")), MORE);
}

#[test]
fn objects_that_lead_back_to_themselves_end() {
    let loops: [&[(usize, &str)]; 4] = [
        &[
            (1, "<< /Type /Catalog /Pages 2 0 R >>"),
            (2, "<< /Kids [2 0 R 3 0 R] >>"),
            (3, "<< /Kids [2 0 R 4 0 R] >>"),
            (4, "4 0 R"),
        ],
        &[(1, "<< /Type /Catalog /Pages 1 0 R /Kids 1 0 R >>")],
        &[(1, "2 0 R"), (2, "1 0 R")],
        &[
            (1, "<< /Type /Catalog /Pages 2 0 R >>"),
            (2, "<< /Kids [3 0 R] >>"),
            (3, "<< /Contents 4 0 R >>"),
            (4, "<< /Length 4 0 R /Filter 4 0 R /DecodeParms 4 0 R >>\nstream\nq Q\nendstream"),
        ],
    ];
    for objects in loops {
        let objects: Vec<(usize, Vec<u8>)> =
            objects.iter().map(|(number, body)| (*number, body.as_bytes().to_vec())).collect();
        let printed = read("a.pdf", file(&objects, "/Root 1 0 R /Prev 9"));
        assert!(!printed.problems.is_empty(), "{objects:?}");
    }
    let pages = "<< /Type /Pages /Kids [".to_owned() + &"<< /Type /Page >> ".repeat(400_000) + "] >>";
    let objects = [(1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()), (2, pages.into_bytes())];
    assert_eq!(
        says("a.pdf", file(&objects, "/Root 1 0 R")),
        "it holds more than is read of one file: nothing of it was read"
    );
}

#[test]
fn streams_that_hold_countless_objects_are_refused() {
    let head: String = (0..50_000).map(|held| format!("{} {} ", 1000 + held, held * 5)).collect();
    let entries = format!("/Type /ObjStm /N 50000 /First {}", head.len());
    let holder = stream(&entries, (head + &"null ".repeat(50_000)).as_bytes(), true);
    let objects: Vec<(usize, Vec<u8>)> = (1..150).map(|number| (number, holder.clone())).collect();
    let whole = file(&objects, "/Root 1000 0 R");
    assert_eq!(says("a.pdf", &whole), "it holds more than is read of one file: nothing of it was read");
}

#[test]
fn maps_of_fonts_that_span_all_codes_are_bounded() {
    let ranges = "<00000000> <ffffffff> <0041> ".repeat(50_000);
    let map =
        format!("1 begincodespacerange <00000000> <ffffffff> endcodespacerange 9 beginbfrange {ranges} endbfrange");
    let font = "<< /Type /Font /Subtype /Type0 /Encoding 7 0 R /ToUnicode 7 0 R /DescendantFonts [<< /W [0 4000000000 500] >>] >>";
    let objects = [
        (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
        (2, b"<< /Type /Pages /Kids [3 0 R] /MediaBox [0 0 600 800] >>".to_vec()),
        (3, b"<< /Type /Page /Resources << /Font << /F 4 0 R >> >> /Contents 5 0 R >>".to_vec()),
        (4, font.as_bytes().to_vec()),
        (5, stream("", b"BT /F 12 Tf 60 700 Td <00000000000000010000000f> Tj ET", true)),
        (7, stream("", map.as_bytes(), true)),
    ];
    assert_eq!(super::read_lines("a.pdf", file(&objects, "/Root 1 0 R")), ["ABP"]);
}

#[test]
fn what_is_no_pdf_but_its_first_line_is_refused() {
    for rest in [
        "",
        "0 0 obj ".repeat(500_000).as_str(),
        "obj".repeat(1_000_000).as_str(),
        "<<".repeat(1_000_000).as_str(),
        "(".repeat(1_000_000).as_str(),
    ] {
        assert_eq!(
            says("a.pdf", "%PDF-1.7\n".to_owned() + rest + "\ntrailer << /Root 1 0 R >>"),
            "no page of it can be read: it is damaged or cut off, so export it anew"
        );
    }
}
