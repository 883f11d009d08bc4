//! PDFs: letters by their places, columns, raised digits, and files that cannot be read as text.

use super::pdf_file::{Face, Pdf, deflated, file, file_of_pages, stream};
use super::{problems, read, read_lines};
use sparestrip::text::TextPlace;

/// A line of a page in its plain font, whose letters are half as wide as high.
fn at(x: i64, y: i64, size: i64, text: &str) -> String {
    let codes: String = text.chars().map(|ch| format!("{:04x}", u32::from(ch))).collect();
    format!("BT /F1 {size} Tf 1 0 0 1 {x} {y} Tm <{codes}> Tj ET\n")
}

fn page(lines: &[(i64, i64, i64, &str)]) -> Vec<u8> {
    file_of_pages(&[lines.iter().map(|(x, y, size, text)| at(*x, *y, *size, text)).collect::<String>()])
}

#[test]
fn raised_and_stacked_fractions_are_put_together() {
    let sloping = page(&[
        (60, 700, 12, "Cut 2"),
        (90, 704, 7, "1"),
        (94, 700, 12, "/"),
        (100, 698, 7, "2"),
        (104, 700, 12, "\" strips of ink."),
    ]);
    assert_eq!(read_lines("a.pdf", sloping), ["Cut 2 1⁄2\" strips of ink."]);
    let stacked =
        page(&[(60, 700, 12, "Cut 2"), (91, 705, 7, "1"), (90, 696, 7, "16"), (99, 700, 12, "\" strips of ink.")]);
    assert_eq!(read_lines("a.pdf", stacked), ["Cut 2 1⁄16\" strips of ink."]);
    let note = page(&[(60, 700, 12, "Fabric of 42"), (132, 705, 7, "2"), (139, 700, 12, "in.")]);
    assert_eq!(read_lines("a.pdf", note), ["Fabric of 42² in."]);
}

#[test]
fn letters_are_put_together_in_whatever_order_they_are_drawn() {
    let drawn = page(&[
        (96, 700, 12, "strips"),
        (60, 700, 12, "C"),
        (66, 700, 12, "ut"),
        (84, 700, 12, "8"),
        (60, 686, 12, "of ink."),
    ]);
    assert_eq!(read_lines("a.pdf", drawn), ["Cut 8 strips of ink."]);
}

#[test]
fn columns_of_text_are_read_one_after_the_other() {
    let left = [
        "The left column is read first, and",
        "all its lines are one paragraph of",
        "text that says 12 squares, before",
        "the right one is begun at its top.",
    ];
    let right = [
        "The right column comes after it, and",
        "says 16 triangles. Its lines stand",
        "a little lower than the others, as",
        "they do where spaces differ by some.",
    ];
    let mut lines = Vec::new();
    for (at, (left, right)) in (0..).zip(left.iter().zip(right)) {
        lines.push((60, 700 - 14 * at, 11, *left));
        lines.push((320, 696 - 14 * at, 11, right));
    }
    assert_eq!(read_lines("a.pdf", page(&lines)), [left.join(" "), right.join(" ")]);
}

#[test]
fn cells_with_lines_round_them_may_hold_several_lines() {
    let mut drawn = String::new();
    for y in [720, 700, 660, 640] {
        drawn += &format!("60 {y} m 300 {y} l S\n");
    }
    for x in [60, 160, 230, 300] {
        drawn += &format!("{x} 640 m {x} 720 l S\n");
    }
    for (x, y, text) in [
        (64, 705, "Fabric"),
        (164, 705, "Crib"),
        (234, 705, "Throw"),
        (64, 685, "Ink, for the"),
        (64, 671, "background"),
        (164, 678, "5/8 yd"),
        (234, 678, "1 yd"),
        (64, 645, "Sand"),
        (164, 645, "1/2 yd"),
        (234, 645, "7/8 yd"),
    ] {
        drawn += &at(x, y, 10, text);
    }
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[drawn])),
        [
            "[0,0]* Fabric",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Ink, for the background",
            "[1,1] 5/8 yd",
            "[1,2] 1 yd",
            "[2,0] Sand",
            "[2,1] 1/2 yd",
            "[2,2] 7/8 yd"
        ]
    );
}

#[test]
fn heads_and_numbers_of_pages_are_no_text() {
    let body = ["Cut 8 strips of ink for the crib.", "Sew 64 pairs of squares.", "Press each of the 16 rows."];
    let pages: Vec<String> = (1..)
        .zip(body)
        .map(|(number, text)| {
            at(60, 780, 9, "Lantern Mat") + &at(60, 700, 12, text) + &at(300, 30, 9, &format!("{number}"))
        })
        .collect();
    let printed = read("a.pdf", file_of_pages(&pages));
    assert_eq!(super::lines(&printed), body);
    assert_eq!(printed.passages[2].place(0..4), TextPlace::Page(3));
}

#[test]
fn words_parted_at_the_end_of_a_line_are_put_together() {
    let lines = page(&[
        (60, 700, 11, "The binding is sewn on by hand, and each half-"),
        (60, 686, 11, "square triangle is pressed before the bind-"),
        (60, 672, 11, "ing is cut. One half of each square is ink."),
    ]);
    assert_eq!(
        read_lines("a.pdf", lines),
        [
            "The binding is sewn on by hand, and each half-square triangle is pressed before the binding is cut. One half of each square is ink."
        ]
    );
}

#[test]
fn turned_pages_and_turned_lines_are_read() {
    let drawn = "BT /F1 11 Tf 0 1 -1 0 100 100 Tm <004300750074002000380020007300740072006900700073> Tj ET";
    assert_eq!(read_lines("a.pdf", file_of_pages(&[drawn.to_owned()])), ["Cut 8 strips"]);
}

/// A page with a font of this dictionary, drawing these bytes with it.
fn with_font(font: &str, shown: &str) -> Vec<u8> {
    file(
        &[
            (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
            (2, b"<< /Type /Pages /Kids [3 0 R] /Count 1 /MediaBox [0 0 600 800] >>".to_vec()),
            (3, b"<< /Type /Page /Parent 2 0 R /Resources << /Font << /F 4 0 R >> >> /Contents 5 0 R >>".to_vec()),
            (4, font.as_bytes().to_vec()),
            (5, stream("", format!("BT /F 12 Tf 60 700 Td {shown} Tj ET").as_bytes(), false)),
        ],
        "/Root 1 0 R",
    )
}

#[test]
fn the_encodings_of_fonts_are_heeded() {
    let windows = "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>";
    assert_eq!(read_lines("a.pdf", with_font(windows, "(Cut 2\\275\\224 \\327 4\\( strips)")), ["Cut 2½” × 4( strips"]);
    let named = "<< /Type /Font /Subtype /Type1 /BaseFont /Own /Encoding << /Differences [1 /onehalf /two.numr /fraction /eight.dnom /fi] >> >>";
    assert_eq!(
        read_lines("a.pdf", with_font(named, "(Cut 3\\001 and \\002\\003\\004 \\005t)")),
        ["Cut 3½ and 2⁄8 fit"]
    );
    let standard = "<< /Type /Font /Subtype /Type1 /BaseFont /Times-Roman >>";
    assert_eq!(read_lines("a.pdf", with_font(standard, "(the reader's 8\\2442 strips)")), ["the reader’s 8⁄2 strips"]);
}

#[test]
fn letters_that_are_not_mapped_are_told_of() {
    let font = "<< /Type /Font /Subtype /Type0 /BaseFont /Own /Encoding /Identity-H /DescendantFonts [<< /Type /Font /Subtype /CIDFontType2 /DW 500 >>] >>";
    let printed = read("a.pdf", with_font(font, "<00010002000300040005>"));
    assert_eq!(
        problems(&printed),
        [
            "5 of the 5 letters of this page are not mapped to text, so numbers among them cannot be read: export it with fonts \
          whose letters can be copied"
        ]
    );
    assert_eq!(printed.problems[0].at, TextPlace::Page(1));
    assert_eq!(super::lines(&printed), ["\u{fffd}\u{fffd}\u{fffd}\u{fffd}\u{fffd}"]);
}

#[test]
fn a_file_without_text_is_said_to_be_so() {
    let picture = "q 500 0 0 700 50 50 cm BI /W 1 /H 1 /BPC 8 /CS /G ID x EI Q";
    assert_eq!(
        problems(&read("a.pdf", file_of_pages(&[picture.to_owned()]))),
        ["it has no text, only pictures of it: export it from the layout program with text"]
    );
    assert_eq!(problems(&read("a.pdf", file_of_pages(&["0 0 m 9 9 l S".to_owned()]))), ["it has no text"]);
}

#[test]
fn an_encrypted_file_is_said_to_be_so() {
    let objects = [(1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()), (7, b"<< /Filter /Standard /V 2 >>".to_vec())];
    assert_eq!(
        problems(&read("a.pdf", file(&objects, "/Root 1 0 R /Encrypt 7 0 R"))),
        ["it is encrypted: export it anew without a password and without restrictions"]
    );
}

/// A file with its objects in a stream and its table in another, as newer programs write it.
fn packed_file(drawn: &str) -> Vec<u8> {
    let held = [
        (1, "<< /Type /Catalog /Pages 2 0 R >>".to_owned()),
        (2, "<< /Type /Pages /Kids [3 0 R] /Count 1 /MediaBox [0 0 600 800] >>".to_owned()),
        (3, "<< /Type /Page /Parent 2 0 R /Resources << /Font << /F1 4 0 R >> >> /Contents 6 0 R >>".to_owned()),
        (4, "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>".to_owned()),
    ];
    let (mut index, mut bodies) = (String::new(), String::new());
    for (number, body) in &held {
        index += &format!("{number} {} ", bodies.len());
        bodies += &format!("{body} ");
    }
    let mut out = b"%PDF-1.7\n".to_vec();
    let holder = out.len();
    let entries = format!("/Type /ObjStm /N {} /First {}", held.len(), index.len());
    out.extend(b"5 0 obj\n");
    out.extend(stream(&entries, (index + &bodies).as_bytes(), true));
    out.extend(b"\nendobj\n");
    let content = out.len();
    out.extend(b"6 0 obj\n");
    out.extend(stream("", drawn.as_bytes(), true));
    out.extend(b"\nendobj\n");
    let table_at = out.len();
    let entry = |kind: u8, value: usize, third: u8| {
        [vec![kind], u32::try_from(value).unwrap().to_be_bytes()[1..].to_vec(), vec![third]].concat()
    };
    let mut table = entry(0, 0, 0);
    for number in 1..=4_u8 {
        table.extend(entry(2, 5, number - 1));
    }
    table.extend(entry(1, holder, 0));
    table.extend(entry(1, content, 0));
    table.extend(entry(1, table_at, 0));
    // Rows as differences to the row above, which programs pack tables by.
    let mut above = vec![0; 5];
    let mut rows = Vec::new();
    for row in table.chunks(5) {
        rows.push(2);
        rows.extend(row.iter().zip(&above).map(|(byte, above)| byte.wrapping_sub(*above)));
        above = row.to_vec();
    }
    out.extend(b"7 0 obj\n");
    let packed = deflated(&rows);
    out.extend(
        format!(
            "<< /Type /XRef /Size 8 /W [1 3 1] /Root 1 0 R /Filter /FlateDecode /DecodeParms << /Predictor 12 /Columns 5 >> /Length {} >>\nstream\n",
            packed.len()
        )
        .into_bytes(),
    );
    out.extend(packed);
    out.extend(format!("\nendstream\nendobj\nstartxref\n{table_at}\n%%EOF\n").into_bytes());
    out
}

#[test]
fn objects_in_streams_are_read_with_and_without_their_table() {
    let drawn = "BT /F1 12 Tf 60 700 Td (Cut 8 strips of ink.) Tj ET";
    let whole = packed_file(drawn);
    assert_eq!(read_lines("a.pdf", &whole), ["Cut 8 strips of ink."]);
    let end = whole.windows(9).rposition(|nine| nine == b"startxref").unwrap();
    assert_eq!(read_lines("a.pdf", &whole[..end]), ["Cut 8 strips of ink."], "without the place of its table");
    let table = whole.windows(7).rposition(|seven| seven == b"7 0 obj").unwrap();
    assert_eq!(read_lines("a.pdf", &whole[..table]), ["Cut 8 strips of ink."], "without its table");
}

#[test]
fn filters_of_every_kind_are_undone() {
    let drawn = "BT /F 12 Tf 60 700 Td (Cut 8 strips) Tj ET";
    let hex: String = drawn.bytes().map(|byte| format!("{byte:02X}")).collect::<String>() + ">";
    let mut runs = vec![u8::try_from(drawn.len() - 1).unwrap()];
    runs.extend(drawn.bytes());
    runs.push(128);
    // Each letter as a code of nine bits, and the table begun anew before codes grow: LZW without its gain.
    let mut bits: Vec<bool> = Vec::new();
    let mut code = |value: u32| bits.extend((0..9).rev().map(|bit| value >> bit & 1 == 1));
    for chunk in drawn.as_bytes().chunks(100) {
        code(256);
        for byte in chunk {
            code(u32::from(*byte));
        }
    }
    code(257);
    let lzw: Vec<u8> = bits
        .chunks(8)
        .map(|byte| (0..8).fold(0, |value, bit| value << 1 | u8::from(byte.get(bit) == Some(&true))))
        .collect();
    let twice = deflated(hex.as_bytes());
    for (filter, bytes) in [
        ("/ASCIIHexDecode", hex.as_bytes()),
        ("/RunLengthDecode", &runs),
        ("/LZWDecode", &lzw),
        ("[/FlateDecode /ASCIIHexDecode]", &twice),
        ("/ASCII85Decode", b"6<#'\\7NaE@+B2qq2D?740JFVKA0<9fF`\\`c+EMXFBlJ,B+B3(u78s~>"),
    ] {
        let objects = [
            (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
            (2, b"<< /Type /Pages /Kids [3 0 R] /MediaBox [0 0 600 800] >>".to_vec()),
            (3, b"<< /Type /Page /Resources << /Font << /F << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >> >> /Contents 5 0 R >>".to_vec()),
            (5, stream(&format!("/Filter {filter}"), bytes, false)),
        ];
        let printed = read("a.pdf", file(&objects, "/Root 1 0 R"));
        assert_eq!(super::lines(&printed), ["Cut 8 strips"], "{filter}");
    }
}

#[test]
fn bold_lines_and_large_lines_are_headings() {
    let mut pdf = Pdf::new();
    pdf.paragraph("Lantern Mat", Face::Plain, 24, 0);
    pdf.paragraph("Cutting", Face::Bold, 11, 0);
    pdf.paragraph(
        "Cut 8 strips of ink, each of them 2 1/2\" x WOF, and 4 of sand, which are as wide as these.",
        Face::Plain,
        11,
        0,
    );
    assert_eq!(
        read_lines("a.pdf", pdf.finish()),
        [
            "h1 Lantern Mat",
            "h7 Cutting",
            "Cut 8 strips of ink, each of them 2 1/2\" x WOF, and 4 of sand, which are as wide as these."
        ]
    );
}

#[test]
fn a_heading_may_have_a_number_or_a_letter() {
    let mut pdf = Pdf::new();
    pdf.paragraph("B. Second evening", Face::Bold, 16, 0);
    pdf.item("1.", "Cut 8 strips of ink, each of them 2 1/2\" x WOF.", 0);
    pdf.item("2.", "Sew them in pairs.", 0);
    pdf.paragraph("1. The border", Face::Plain, 16, 0);
    pdf.item("1.", "Cut 4 strips of sand, each of them 3 1/2\" x WOF.", 0);
    assert_eq!(
        read_lines("a.pdf", pdf.finish()),
        [
            "h1 B. Second evening",
            "- Cut 8 strips of ink, each of them 2 1/2\" x WOF.",
            "- Sew them in pairs.",
            "h1 1. The border",
            "- Cut 4 strips of sand, each of them 3 1/2\" x WOF."
        ]
    );
}

#[test]
fn text_beside_large_tables_in_small_letters_is_no_heading() {
    let row = |at: i64| {
        [(60, "Ink for border"), (160, "5/8 yd, 4 strips"), (260, "7/8 yd, 6 strips")]
            .map(|(x, text)| (x, 650 - 12 * at, 7, text))
    };
    let mut drawn = vec![(60, 700, 11, "Cut first"), (60, 680, 11, "Strips are cut across the fabric, 40\" of it")];
    drawn.extend((0..9).flat_map(row));
    let read = read_lines("a.pdf", page(&drawn));
    assert_eq!(read[..2], ["Cut first", "Strips are cut across the fabric, 40\" of it"]);
    assert_eq!(read.len(), 2 + 27, "{read:?}");
}

#[test]
fn a_sign_that_parts_what_a_paragraph_tells_marks_no_item() {
    let lines = page(&[
        (60, 700, 11, "Strips of ink by size, the smallest first: 5 \u{b7} 7"),
        (60, 686, 11, "\u{b7} 9 \u{b7} 12. Sew them in pairs."),
        (60, 660, 11, "\u{2022} Cut the binding."),
    ]);
    assert_eq!(
        read_lines("a.pdf", lines),
        [
            "Strips of ink by size, the smallest first: 5 \u{b7} 7 \u{b7} 9 \u{b7} 12. Sew them in pairs.",
            "- Cut the binding."
        ]
    );
}

#[test]
fn rows_may_be_named_under_heads_that_have_none_over_the_first_column() {
    let lines = page(&[
        (160, 700, 11, "Crib"),
        (220, 700, 11, "Throw"),
        (60, 682, 11, "Ink"),
        (60, 664, 11, "2 1/2\" strips"),
        (160, 664, 11, "8"),
        (220, 664, 11, "12"),
        (60, 646, 11, "Sand"),
        (60, 628, 11, "3 1/2\" strips"),
        (160, 628, 11, "4"),
        (220, 628, 11, "6"),
    ]);
    assert_eq!(
        read_lines("a.pdf", lines),
        [
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Ink",
            "[2,0] 2 1/2\" strips",
            "[2,1] 8",
            "[2,2] 12",
            "[3,0] Sand",
            "[4,0] 3 1/2\" strips",
            "[4,1] 4",
            "[4,2] 6"
        ]
    );
}
