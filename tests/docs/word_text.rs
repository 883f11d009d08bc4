//! The Word text of an example manuscript, made from the same text in Markdown. After a change of that, make it anew with
//! `REFRESH_DOCS=1 cargo test --test program docs`, and sign its manuscript again.

use std::fs;

use sparestrip::text::{PrintedText, read_text};

use super::{paper, project};
use crate::text::readers::lines;
use crate::text::readers::package::stored;

const MARKDOWN: &str = "tests/text/printed/tern-colony.md";
const WORD: &str = "example-patterns/tern-colony.docx";

/// How the paragraphs of the text are called in the Word file, with what makes them what they are: name, outline level,
/// size in half points, and whether they are bold.
const STYLES: [(&str, &str, Option<u8>, u8, bool); 4] = [
    ("Normal", "Normal", None, 22, false),
    ("Heading1", "heading 1", Some(0), 40, true),
    ("Heading2", "heading 2", Some(1), 28, true),
    ("ListParagraph", "List Paragraph", None, 22, false),
];

/// The kinds of lists, by the number that their items go by: what their marks are.
const LISTS: [(&str, &str); 2] = [("bullet", "\u{2022}"), ("decimal", "%1.")];

const NAMESPACE: &str = "http://schemas.openxmlformats.org/wordprocessingml/2006/main";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
const RELATIONS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const CONTENT: &str = "application/vnd.openxmlformats-officedocument.wordprocessingml";

fn paragraph(style: &str, list: Option<usize>, text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    let list = list.map_or_else(String::new, |kind| {
        format!("<w:numPr><w:ilvl w:val=\"0\"/><w:numId w:val=\"{}\"/></w:numPr>", kind + 1)
    });
    format!(
        "<w:p><w:pPr><w:pStyle w:val=\"{style}\"/>{list}</w:pPr><w:r><w:t xml:space=\"preserve\">{text}</w:t></w:r></w:p>"
    )
}

/// A table of Word from the rows of one in Markdown.
fn table(rows: &[&str]) -> String {
    let cells = |row: &str| -> Vec<String> {
        row.trim_matches('|').split('|').map(|cell| paragraph("Normal", None, cell.trim())).collect()
    };
    let sides: String = ["top", "left", "bottom", "right", "insideH", "insideV"]
        .map(|side| format!("<w:{side} w:val=\"single\" w:sz=\"4\" w:space=\"0\" w:color=\"auto\"/>"))
        .concat();
    let columns = cells(rows[0]).len();
    let mut out = format!(
        "<w:tbl><w:tblPr><w:tblW w:w=\"0\" w:type=\"auto\"/><w:tblBorders>{sides}</w:tblBorders></w:tblPr><w:tblGrid>{}</w:tblGrid>",
        "<w:gridCol w:w=\"3000\"/>".repeat(columns)
    );
    // The second row of Markdown only rules off the first.
    for (at, row) in rows.iter().enumerate().filter(|(at, _)| *at != 1) {
        let head = if at == 0 { "<w:trPr><w:tblHeader/></w:trPr>" } else { "" };
        let cells = cells(row)
            .into_iter()
            .map(|cell| format!("<w:tc><w:tcPr><w:tcW w:w=\"3000\" w:type=\"dxa\"/></w:tcPr>{cell}</w:tc>"));
        out += &format!("<w:tr>{head}{}</w:tr>", cells.collect::<String>());
    }
    // Word wants a paragraph after a table.
    out + "</w:tbl><w:p/>"
}

/// The body of the Word text: a block of Markdown is a heading, a table, items, or a paragraph.
fn body(markdown: &str) -> String {
    let mut out = String::new();
    for block in markdown.trim().split("\n\n") {
        let rows: Vec<&str> = block.lines().collect();
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        if let Some(text) = block.strip_prefix("## ") {
            out += &paragraph("Heading2", None, text);
        } else if let Some(text) = block.strip_prefix("# ") {
            out += &paragraph("Heading1", None, text);
        } else if block.starts_with('|') {
            out += &table(&rows);
        } else if block.starts_with("- ") || block.starts_with("1. ") {
            let kind = usize::from(block.starts_with('1'));
            let mut items: Vec<String> = Vec::new();
            for row in rows {
                match row.strip_prefix("  ") {
                    Some(more) => items.last_mut().expect("an item").push_str(&format!(" {}", more.trim_start())),
                    None => items.push(row.split_once(' ').expect("a mark").1.to_string()),
                }
            }
            out.extend(items.iter().map(|item| paragraph("ListParagraph", Some(kind), item)));
        } else {
            out += &paragraph("Normal", None, &words(block));
        }
    }
    out
}

fn styles() -> String {
    STYLES
        .map(|(id, name, level, size, bold)| {
            let level = level.map_or_else(String::new, |level| format!("<w:outlineLvl w:val=\"{level}\"/>"));
            let standard = if id == "Normal" { " w:default=\"1\"" } else { "" };
            let bold = if bold { "<w:b/>" } else { "" };
            format!(
                "<w:style w:type=\"paragraph\" w:styleId=\"{id}\"{standard}><w:name w:val=\"{name}\"/><w:pPr><w:spacing \
                 w:after=\"120\"/>{level}</w:pPr><w:rPr>{bold}<w:sz w:val=\"{size}\"/></w:rPr></w:style>"
            )
        })
        .concat()
}

fn numbering() -> String {
    let kinds = LISTS.iter().enumerate();
    let marks: String = kinds
        .clone()
        .map(|(kind, (format, mark))| {
            format!(
                "<w:abstractNum w:abstractNumId=\"{kind}\"><w:lvl w:ilvl=\"0\"><w:start w:val=\"1\"/><w:numFmt \
                 w:val=\"{format}\"/><w:lvlText w:val=\"{mark}\"/><w:lvlJc w:val=\"left\"/><w:pPr><w:ind w:left=\"720\" \
                 w:hanging=\"360\"/></w:pPr></w:lvl></w:abstractNum>"
            )
        })
        .collect();
    let lists =
        kinds.map(|(kind, _)| format!("<w:num w:numId=\"{}\"><w:abstractNumId w:val=\"{kind}\"/></w:num>", kind + 1));
    marks + &lists.collect::<String>()
}

/// The Word file of a text in Markdown, not compressed, so that its bytes are the same wherever it is made.
fn word_file(markdown: &str) -> Vec<u8> {
    let head = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>";
    let own = |part: &str, inside: &str| format!("{head}<w:{part} xmlns:w=\"{NAMESPACE}\">{inside}</w:{part}>");
    let kind =
        |part: &str, of: &str| format!("<Override PartName=\"/word/{part}.xml\" ContentType=\"{CONTENT}.{of}+xml\"/>");
    let types = format!(
        "{head}<Types xmlns=\"{PACKAGE}/content-types\"><Default Extension=\"rels\" \
         ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>{}{}{}</Types>",
        kind("document", "document.main"),
        kind("styles", "styles"),
        kind("numbering", "numbering")
    );
    let relations = |to: &[(&str, &str)]| {
        let to = to.iter().enumerate().map(|(at, (kind, target))| {
            format!("<Relationship Id=\"rId{}\" Type=\"{RELATIONS}/{kind}\" Target=\"{target}\"/>", at + 1)
        });
        format!("{head}<Relationships xmlns=\"{PACKAGE}/relationships\">{}</Relationships>", to.collect::<String>())
    };
    stored(&[
        ("[Content_Types].xml", &types),
        ("_rels/.rels", &relations(&[("officeDocument", "word/document.xml")])),
        ("word/_rels/document.xml.rels", &relations(&[("styles", "styles.xml"), ("numbering", "numbering.xml")])),
        ("word/document.xml", &own("document", &format!("<w:body>{}</w:body>", body(markdown)))),
        ("word/styles.xml", &own("styles", &styles())),
        ("word/numbering.xml", &own("numbering", &numbering())),
    ])
}

#[test]
#[allow(clippy::disallowed_methods)] // Nobody reads the project's papers while they are written.
fn the_word_text_of_an_example_says_what_its_markdown_says() {
    let (markdown, path) = (paper(MARKDOWN), project().join(WORD));
    let made = word_file(&markdown);
    if std::env::var_os("REFRESH_DOCS").is_some() {
        fs::write(&path, &made).expect("the example");
    }
    let kept = fs::read(&path).expect("the example");
    assert!(kept == made, "{WORD} is not what is made of {MARKDOWN}: REFRESH_DOCS=1 cargo test --test program docs");
    let read = |name: &str, bytes: &[u8]| -> PrintedText { read_text(name.as_ref(), bytes) };
    let (word, text) = (read(WORD, &kept), read(MARKDOWN, markdown.as_bytes()));
    assert_eq!(word.problems, []);
    assert_eq!(lines(&word), lines(&text));
}
