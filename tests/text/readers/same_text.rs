//! The same text in every format gives the same passages.

use super::document::{Part, docx, html, markdown, odt, pdf, pdf_set};
use super::pdf_file::Setting;
use super::{lines, read};
use crate::support::rng::Rng;

fn heading(level: u8, text: &str) -> Part {
    Part::Heading(level, text.to_owned())
}

fn paragraph(text: &str) -> Part {
    Part::Paragraph(text.to_owned())
}

fn list(numbered: bool, items: &[(u8, &str)]) -> Part {
    Part::List(numbered, items.iter().map(|(depth, text)| (*depth, (*text).to_owned())).collect())
}

fn table(rows: &[&[&str]]) -> Part {
    Part::Table(rows.iter().map(|row| row.iter().map(|cell| (*cell).to_owned()).collect()).collect())
}

fn lantern_mat() -> Vec<Part> {
    vec![
        heading(1, "Lantern Mat"),
        paragraph(
            "A mat in three sizes, from the smallest of 13\" x 18\" to the largest of 20 1/2\" x 30\". Every seam is 1/4\", and \
             the strips are cut across the fabric, which is taken to be 40\" wide where it can be used.",
        ),
        heading(2, "Fabric"),
        paragraph("Yardage for every size:"),
        table(&[
            &["Fabric", "Small", "Medium", "Large"],
            &["Ink", "3/8 yd", "5/8 yd", "1 1/4 yd"],
            &["Sand", "1/4 yd", "½ yd", "7⁄8 yd"],
            &["Binding", "2 1/2\" strips", "3", "4"],
        ]),
        heading(2, "Cutting"),
        paragraph("From the ink fabric, cut:"),
        list(
            false,
            &[
                (0, "(8) 2 1/2\" x WOF strips; subcut"),
                (1, "64 squares, 2 1/2\" x 2 1/2\""),
                (1, "12 rectangles, 2 1/2” × 4 1⁄2”"),
                (0, "four squares 3½″"),
            ],
        ),
        heading(2, "Sewing"),
        list(true, &[(0, "Sew 32 pairs. Press to the dark."), (0, "Make 16 four-patches, each 4 1/2\" unfinished.")]),
        paragraph("The mat should now measure 13 1/2\" x 18 1/2\" & lie flat (if it is < 13\", press again)."),
    ]
}

fn in_every_format(parts: &[Part]) -> Vec<(&'static str, Vec<u8>)> {
    vec![
        ("text.md", markdown(parts).into_bytes()),
        ("text.html", html(parts).into_bytes()),
        ("text.docx", docx(parts)),
        ("text.odt", odt(parts)),
        ("text.pdf", pdf(parts)),
        ("kerned.pdf", pdf_set(parts, Setting { is_kerned: true, has_lines: true, height: 0 })),
        ("pages.pdf", pdf_set(parts, Setting { height: 230, ..Setting::default() })),
        ("lines.pdf", pdf_set(parts, Setting { height: 250, has_lines: true, ..Setting::default() })),
    ]
}

#[test]
fn a_text_is_read_alike_from_every_format() {
    let expected = [
        "h1 Lantern Mat",
        "A mat in three sizes, from the smallest of 13\" x 18\" to the largest of 20 1/2\" x 30\". Every seam is 1/4\", and the \
         strips are cut across the fabric, which is taken to be 40\" wide where it can be used.",
        "h2 Fabric",
        "Yardage for every size:",
        "[0,0]* Fabric",
        "[0,1]* Small",
        "[0,2]* Medium",
        "[0,3]* Large",
        "[1,0] Ink",
        "[1,1] 3/8 yd",
        "[1,2] 5/8 yd",
        "[1,3] 1 1/4 yd",
        "[2,0] Sand",
        "[2,1] 1/4 yd",
        "[2,2] ½ yd",
        "[2,3] 7⁄8 yd",
        "[3,0] Binding",
        "[3,1] 2 1/2\" strips",
        "[3,2] 3",
        "[3,3] 4",
        "h2 Cutting",
        "From the ink fabric, cut:",
        "- (8) 2 1/2\" x WOF strips; subcut",
        "  - 64 squares, 2 1/2\" x 2 1/2\"",
        "  - 12 rectangles, 2 1/2” × 4 1⁄2”",
        "- four squares 3½″",
        "h2 Sewing",
        "- Sew 32 pairs. Press to the dark.",
        "- Make 16 four-patches, each 4 1/2\" unfinished.",
        "The mat should now measure 13 1/2\" x 18 1/2\" & lie flat (if it is < 13\", press again).",
    ];
    for (name, bytes) in in_every_format(&lantern_mat()) {
        let printed = read(name, bytes);
        assert_eq!(printed.problems, [], "{name}");
        assert_eq!(lines(&printed), expected, "{name}");
        let yardage = &printed.passages[9];
        let above: Vec<&str> =
            yardage.headings.iter().map(|heading| printed.passages[*heading].text.as_str()).collect();
        assert_eq!((above, yardage.list_head), (vec!["Lantern Mat", "Fabric"], Some(3)), "{name}");
        let squares = &printed.passages[23];
        assert_eq!((squares.list_head, printed.passages[22].list_head), (Some(22), Some(21)), "{name}");
    }
}

const WORDS: &[&str] = &[
    "cut",
    "strips",
    "squares",
    "2 1/2\"",
    "12",
    "from",
    "the",
    "ink",
    "sand",
    "of",
    "each",
    "sew",
    "3½\"",
    "press",
    "and",
    "make",
    "4 1/2\"",
    "blocks",
    "(6",
    "total)",
    "5/8 yd",
    "WOF",
    "x",
    "binding",
    "half-square",
    "triangles",
    "40\"",
    "&",
    "1⁄4\"",
];

fn sentence(rng: &mut Rng, least: i64, most: i64) -> String {
    let words: Vec<&str> = (0..rng.between(least, most)).map(|_| rng.pick(WORDS)).collect();
    let text = words.join(" ");
    let mut chars = text.chars();
    let first = chars.next().unwrap();
    format!("Then {}{}.", first, chars.as_str())
}

fn random_text(rng: &mut Rng) -> Vec<Part> {
    let mut parts = vec![heading(1, "Random Text")];
    for _ in 0..rng.between(3, 8) {
        match rng.below(4) {
            0 => parts
                .push(Part::Heading(2, rng.pick(&["Cutting", "Fabric Needed", "Border 2", "Throw Size"]).to_owned())),
            1 => parts.push(Part::Paragraph(sentence(rng, 5, 40))),
            2 => {
                let mut depth = 0;
                let items = (0..rng.between(1, 5))
                    .map(|at| {
                        depth = if at == 0 { 0 } else { rng.between(0, (depth + 1).min(2)) };
                        (u8::try_from(depth).unwrap(), sentence(rng, 2, 24))
                    })
                    .collect();
                parts.push(Part::Paragraph("Cut for this:".to_owned()));
                parts.push(Part::List(false, items));
                parts.push(Part::Paragraph(sentence(rng, 5, 20)));
            }
            _ => {
                let columns = rng.between(2, 4);
                let mut rows = vec![
                    (0..columns)
                        .map(|at| format!("Size {}", ["S", "M", "L", "XL"][usize::try_from(at).unwrap()]))
                        .collect::<Vec<_>>(),
                ];
                for _ in 0..rng.between(2, 5) {
                    rows.push(
                        (0..columns)
                            .map(|_| format!("{} {}", rng.between(1, 99), rng.pick(&["strips", "yd", "in"])))
                            .collect(),
                    );
                }
                parts.push(Part::Table(rows));
                parts.push(Part::Paragraph(sentence(rng, 5, 20)));
            }
        }
    }
    parts
}

#[test]
fn random_texts_are_read_alike_from_every_format() {
    for seed in 0..40 {
        let parts = random_text(&mut Rng::new(seed));
        let mut formats = in_every_format(&parts).into_iter();
        let (name, bytes) = formats.next().unwrap();
        let expected = lines(&read(name, &bytes));
        for (name, bytes) in formats {
            assert_eq!(lines(&read(name, bytes)), expected, "{name}, seed {seed}");
        }
    }
}
