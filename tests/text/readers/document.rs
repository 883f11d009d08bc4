//! A text to write in every format.

use super::package::zipped;
use super::pdf_file::{Face, Pdf, Setting};

/// The level of a heading that is only bold.
const BOLD: u8 = 7;

/// A part of a text.
pub(crate) enum Part {
    Heading(u8, String),
    Paragraph(String),
    /// Items with their depths, numbered or not.
    List(bool, Vec<(u8, String)>),
    /// Rows of cells, the first of them heads.
    Table(Vec<Vec<String>>),
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// A new line in a paragraph of Word.
const WORD_BREAK: &str = "</w:t><w:br/><w:t xml:space=\"preserve\">";

/// As it stands in a page of the web, with its lines.
fn with_breaks(text: &str, line_break: &str) -> String {
    escaped(text).replace('\n', line_break)
}

/// A paragraph that begins as an item of a list would, as none.
fn guard_number(text: &str) -> String {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    if digits > 0 && text[digits..].starts_with(['.', ')']) {
        format!("{}\\{}", &text[..digits], &text[digits..])
    } else {
        text.to_owned()
    }
}

/// A text as Markdown.
pub(crate) fn markdown(parts: &[Part]) -> String {
    let mut out = String::new();
    let guard_cell =
        |text: &str| text.replace('<', "\\<").replace('*', "\\*").replace('|', "\\|").replace('\n', "<br>");
    let guard = |text: &str| guard_cell(text).replace("<br>", "  \n");
    for part in parts {
        match part {
            Part::Heading(BOLD, text) => out += &format!("**{}**\n\n", guard(text)),
            Part::Heading(level, text) => out += &format!("{} {}\n\n", "#".repeat(usize::from(*level)), guard(text)),
            Part::Paragraph(text) => out += &format!("{}\n\n", guard_number(&guard(text))),
            Part::List(numbered, items) => {
                for (depth, text) in items {
                    let mark = if *numbered { "1. " } else { "- " };
                    out += &format!("{}{mark}{}\n", "    ".repeat(usize::from(*depth)), guard(text));
                }
                out += "\n<!-- -->\n\n";
            }
            Part::Table(rows) => {
                for (at, row) in rows.iter().enumerate() {
                    let cells: Vec<String> = row.iter().map(|cell| guard_cell(cell)).collect();
                    out += &format!("| {} |\n", cells.join(" | "));
                    if at == 0 {
                        out += &format!("|{}\n", "---|".repeat(row.len()));
                    }
                }
                out += "\n";
            }
        }
    }
    out
}

/// A text as HTML.
pub(crate) fn html(parts: &[Part]) -> String {
    let mut out =
        String::from("<!doctype html>\n<html><head><meta charset=\"utf-8\"><title>no text</title></head><body>\n");
    for part in parts {
        match part {
            Part::Heading(BOLD, text) => out += &format!("<p><b>{}</b></p>\n", with_breaks(text, "<br>")),
            Part::Heading(level, text) => out += &format!("<h{level}>{}</h{level}>\n", with_breaks(text, "<br>")),
            Part::Paragraph(text) => out += &format!("<p>{}</p>\n", with_breaks(text, "<br>")),
            Part::List(numbered, items) => {
                let tag = if *numbered { "ol" } else { "ul" };
                let mut open = 0;
                for (depth, text) in items {
                    while open > u32::from(*depth) + 1 {
                        out += &format!("</{tag}>");
                        open -= 1;
                    }
                    while open < u32::from(*depth) + 1 {
                        out += &format!("<{tag}>");
                        open += 1;
                    }
                    out += &format!("<li>{}\n", with_breaks(text, "<br>"));
                }
                out += &format!("</{tag}>").repeat(usize::try_from(open).unwrap());
            }
            Part::Table(rows) => {
                out += "<table>";
                for (at, row) in rows.iter().enumerate() {
                    let tag = if at == 0 { "th" } else { "td" };
                    let cells: Vec<String> =
                        row.iter().map(|cell| format!("<{tag}>{}</{tag}>", with_breaks(cell, "<br>"))).collect();
                    out += &format!("<tr>{}</tr>\n", cells.concat());
                }
                out += "</table>\n";
            }
        }
    }
    out + "</body></html>\n"
}

const WORD: &str = "http://schemas.openxmlformats.org/wordprocessingml/2006/main";

/// The body of a Word text in its file.
pub(crate) fn word_file(body: &str) -> Vec<u8> {
    let relations = "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship \
        Id=\"rId1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" \
        Target=\"word/document.xml\"/></Relationships>";
    let styles = (1..=6)
        .map(|level| {
            format!(
                "<w:style w:type=\"paragraph\" w:styleId=\"H{level}\"><w:name w:val=\"heading {level}\"/><w:pPr>\
                 <w:outlineLvl w:val=\"{}\"/></w:pPr></w:style>",
                level - 1
            )
        })
        .collect::<String>();
    zipped(&[
        ("[Content_Types].xml", "<Types/>"),
        ("_rels/.rels", relations),
        (
            "word/document.xml",
            &format!("<?xml version=\"1.0\"?><w:document xmlns:w=\"{WORD}\"><w:body>{body}</w:body></w:document>"),
        ),
        ("word/styles.xml", &format!("<w:styles xmlns:w=\"{WORD}\">{styles}</w:styles>")),
    ])
}

/// Runs that split a text after every third character, as editing leaves them.
fn word_runs(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let runs = chars.chunks(3).map(|run| run.iter().collect::<String>());
    runs.map(|run| format!("<w:r><w:t xml:space=\"preserve\">{}</w:t></w:r>", with_breaks(&run, WORD_BREAK))).collect()
}

/// A text as a Word file.
pub(crate) fn docx(parts: &[Part]) -> Vec<u8> {
    let paragraph = |properties: &str, text: &str| format!("<w:p><w:pPr>{properties}</w:pPr>{}</w:p>", word_runs(text));
    let mut body = String::new();
    for part in parts {
        match part {
            Part::Heading(BOLD, text) => {
                let run = format!("<w:r><w:rPr><w:b/></w:rPr><w:t>{}</w:t></w:r>", with_breaks(text, WORD_BREAK));
                body += &format!("<w:p>{run}</w:p>");
            }
            Part::Heading(level, text) => body += &paragraph(&format!("<w:pStyle w:val=\"H{level}\"/>"), text),
            Part::Paragraph(text) => body += &paragraph("", text),
            Part::List(_, items) => {
                for (depth, text) in items {
                    let list = format!("<w:numPr><w:ilvl w:val=\"{depth}\"/><w:numId w:val=\"2\"/></w:numPr>");
                    body += &paragraph(&list, text);
                }
            }
            Part::Table(rows) => {
                body += "<w:tbl>";
                for (at, row) in rows.iter().enumerate() {
                    let head = if at == 0 { "<w:trPr><w:tblHeader/></w:trPr>" } else { "" };
                    let cells: Vec<String> =
                        row.iter().map(|cell| format!("<w:tc><w:tcPr/>{}</w:tc>", paragraph("", cell))).collect();
                    body += &format!("<w:tr>{head}{}</w:tr>", cells.concat());
                }
                body += "</w:tbl>";
            }
        }
    }
    word_file(&body)
}

/// The body of an OpenDocument text in its file, and what its styles are.
pub(crate) fn open_document_file(styles: &str, body: &str) -> Vec<u8> {
    let content = format!(
        "<?xml version=\"1.0\"?><office:document-content xmlns:office=\"o\" xmlns:text=\"t\" xmlns:table=\"b\" \
         xmlns:style=\"s\" xmlns:fo=\"f\" xmlns:draw=\"d\"><office:automatic-styles>{styles}</office:automatic-styles>\
         <office:body><office:text>{body}</office:text></office:body></office:document-content>"
    );
    zipped(&[("mimetype", "application/vnd.oasis.opendocument.text"), ("content.xml", &content)])
}

/// A text as an OpenDocument file.
pub(crate) fn odt(parts: &[Part]) -> Vec<u8> {
    let mut body = String::new();
    for part in parts {
        match part {
            Part::Heading(BOLD, text) => {
                body +=
                    &format!("<text:p text:style-name=\"Bold\">{}</text:p>", with_breaks(text, "<text:line-break/>"));
            }
            Part::Heading(level, text) => {
                body += &format!(
                    "<text:h text:outline-level=\"{level}\">{}</text:h>",
                    with_breaks(text, "<text:line-break/>")
                );
            }
            Part::Paragraph(text) => {
                body += &format!("<text:p><text:span>{}</text:span></text:p>", with_breaks(text, "<text:line-break/>"));
            }
            Part::List(_, items) => body += &open_document_list(items, 0),
            Part::Table(rows) => {
                let cell = |text: &String| {
                    format!(
                        "<table:table-cell><text:p>{}</text:p></table:table-cell>",
                        with_breaks(text, "<text:line-break/>")
                    )
                };
                body += "<table:table><table:table-header-rows>";
                for (at, row) in rows.iter().enumerate() {
                    let cells: String = row.iter().map(cell).collect();
                    body += &format!("<table:table-row>{cells}</table:table-row>");
                    if at == 0 {
                        body += "</table:table-header-rows>";
                    }
                }
                body += "</table:table>";
            }
        }
    }
    open_document_file(
        "<style:style style:name=\"Bold\"><style:text-properties fo:font-weight=\"bold\"/></style:style>",
        &body,
    )
}

fn open_document_list(items: &[(u8, String)], depth: u8) -> String {
    let mut out = String::from("<text:list>");
    let mut rest = items;
    while let Some(((_, text), after)) = rest.split_first() {
        let nested = after.iter().take_while(|(own, _)| *own > depth).count();
        let inner = if nested > 0 { open_document_list(&after[..nested], depth + 1) } else { String::new() };
        out += &format!(
            "<text:list-item><text:p>{}</text:p>{inner}</text:list-item>",
            with_breaks(text, "<text:line-break/>")
        );
        rest = &after[nested..];
    }
    out + "</text:list>"
}

/// A text as a PDF, laid out on pages.
pub(crate) fn pdf(parts: &[Part]) -> Vec<u8> {
    pdf_set(parts, Setting::default())
}

/// A text as a PDF, laid out on pages that are set so.
pub(crate) fn pdf_set(parts: &[Part], setting: Setting) -> Vec<u8> {
    let mut pdf = Pdf::set(setting);
    for part in parts {
        match part {
            Part::Heading(level, text) => {
                pdf.space(10);
                // Each level is larger than the next, and the last larger than text.
                pdf.paragraph(text, Face::Bold, 25 - 2 * i64::from(*level), 0);
            }
            Part::Paragraph(text) => pdf.paragraph(text, Face::Plain, 11, 0),
            Part::List(numbered, items) => {
                for (at, (depth, text)) in items.iter().enumerate() {
                    let mark = if *numbered { format!("{}.", at + 1) } else { "\u{2022}".to_owned() };
                    pdf.item(&mark, text, i64::from(*depth));
                }
            }
            Part::Table(rows) => pdf.table(rows),
        }
    }
    pdf.finish()
}
