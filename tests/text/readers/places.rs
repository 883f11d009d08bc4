//! Places in text formats: each character of a passage stands in the file where its place says.

use sparestrip::text::{Passage, PrintedText, TextPlace};

use super::read;

/// The bytes of the file at the place of what a passage says.
fn at_place<'a>(file: &'a [u8], passage: &Passage, what: &str) -> &'a [u8] {
    let start = passage.text.find(what).unwrap_or_else(|| panic!("{what:?} is not in {:?}", passage.text));
    let TextPlace::Span(span) = passage.place(start..start + what.len()) else {
        panic!("{what:?} has no span: {:?}", passage.place(start..start + what.len()));
    };
    &file[span.start..span.end]
}

/// Which passage says this.
fn passage<'a>(printed: &'a PrintedText, what: &str) -> &'a Passage {
    printed
        .passages
        .iter()
        .find(|passage| passage.text.contains(what))
        .unwrap_or_else(|| panic!("{what:?}: {printed:?}"))
}

/// Asserts that each character but spaces and fraction slashes stands in the file as itself.
fn letters_are_at_their_places(name: &str, file: &str) {
    let printed = read(name, file);
    assert!(printed.passages.len() > 3, "{name}: {printed:?}");
    for passage in &printed.passages {
        for (start, ch) in passage.text.char_indices() {
            if ch.is_whitespace() || ch == '\u{2044}' {
                continue;
            }
            let TextPlace::Span(span) = passage.place(start..start + ch.len_utf8()) else {
                panic!("{name}: no span in {:?}", passage.text)
            };
            assert_eq!(&file[span.start..span.end], ch.to_string(), "{name}: {:?}", passage.text);
        }
    }
}

#[test]
fn letters_of_markdown_stand_at_their_places() {
    letters_are_at_their_places(
        "a.md",
        "# Mat\n\nCut **2** *1/2*\" strips, 3<sup>1</sup>/<sub>2</sub> in,\nand `4 x 4`.\n\n> - (8) strips\n>   of ink\n\n| A | B |\n|--|--|\n| 5 | \
         6 ½ |\n\n    size   strips\n    crib   6\n\n<p>7 <b>in</b></p>\n",
    );
}

#[test]
fn letters_of_html_stand_at_their_places() {
    letters_are_at_their_places(
        "a.html",
        "<!doctype html><body><h1>Mat</h1><p>Cut <b>2</b> ½&nbsp;in<br>and 3<sup>1</sup>/<sub>2</sub><ul><li>8 strips\n of \
         ink</ul><table><tr><td>5<td>6</table><p>« 7 »",
    );
}

#[test]
fn letters_of_plain_text_stand_at_their_places() {
    letters_are_at_their_places(
        "a.txt",
        "\u{feff}MAT\r\n\r\nCut 2 ½\u{a0}in strips for the crib, as many as there are in the longer of the two rows, and\r\n8 of them.\r\n\r\n- 3 of ink\r\n\r\n\
         Size    Crib\r\nStrips  6\r\n\r\nA|B\r\n5|6\r\n",
    );
}

#[test]
fn what_is_written_otherwise_in_the_file_has_the_place_of_that() {
    let file = "Cut 3&frac12;&Prime; or 4<sup>1</sup>/<sub>2</sub> in,\nthen 5\\* of them.\n";
    for (name, escaped) in [("a.md", true), ("a.html", false)] {
        let printed = read(name, file);
        let first = passage(&printed, "3½");
        assert_eq!(at_place(file.as_bytes(), first, "3½″"), b"3&frac12;&Prime;", "{name}");
        assert_eq!(at_place(file.as_bytes(), first, "½"), b"&frac12;", "{name}");
        assert_eq!(at_place(file.as_bytes(), first, "4 1⁄2 in"), b"4<sup>1</sup>/<sub>2</sub> in", "{name}");
        assert_eq!(at_place(file.as_bytes(), first, "in, then 5"), b"in,\nthen 5", "{name}");
        if escaped {
            assert_eq!(at_place(file.as_bytes(), first, "5* of"), b"5\\* of");
        }
    }
}

#[test]
fn bytes_of_old_editors_are_text_and_keep_places() {
    let file = b"Cut 2\xbd\x94 strips of ink, and 3 \xd7 4\x94 squares, 12 of them in all.";
    let printed = read("a.txt", file);
    assert_eq!(printed.passages[0].text, "Cut 2½” strips of ink, and 3 × 4” squares, 12 of them in all.");
    assert_eq!(at_place(file, &printed.passages[0], "2½”"), b"2\xbd\x94");
    assert_eq!(at_place(file, &printed.passages[0], "12 of"), b"12 of");
}

#[test]
fn two_byte_text_is_read_and_has_places_by_passages() {
    let mut file = vec![0xff, 0xfe];
    file.extend("MAT\r\n\r\nCut 2½ in strips.".encode_utf16().flat_map(u16::to_le_bytes));
    let printed = read("a.txt", &file);
    assert_eq!(printed.problems, []);
    assert_eq!(printed.passages[1].text, "Cut 2½ in strips.");
    assert_eq!(printed.passages[1].place(4..5), TextPlace::Paragraph(2));
}
