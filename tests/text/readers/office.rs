//! Word and OpenDocument: tracked changes, merged cells, notes, boxes, and what is not printed.

use super::document::{open_document_file, word_file};
use super::package::zipped;
use super::{problems, read, read_lines};

fn run(text: &str) -> String {
    format!("<w:r><w:t xml:space=\"preserve\">{text}</w:t></w:r>")
}

fn styled(properties: &str, text: &str) -> String {
    format!("<w:r><w:rPr>{properties}</w:rPr><w:t>{text}</w:t></w:r>")
}

fn cell(properties: &str, text: &str) -> String {
    format!("<w:tc><w:tcPr>{properties}</w:tcPr><w:p>{}</w:p></w:tc>", run(text))
}

#[test]
fn deleted_text_of_word_is_not_read_and_inserted_is() {
    let body = format!(
        "<w:p>{}<w:del>{}<w:r><w:delText>6</w:delText></w:r></w:del><w:ins>{}</w:ins>{}</w:p>\
         <w:p><w:moveFrom>{}</w:moveFrom><w:moveTo>{}</w:moveTo>{}</w:p>\
         <w:tbl><w:tr>{}</w:tr><w:tr><w:trPr><w:del/></w:trPr>{}</w:tr></w:tbl>",
        run("Cut "),
        run("7"),
        run("8"),
        run(" strips."),
        run("9"),
        run("10"),
        styled("<w:strike/>", "11"),
        cell("", "12") + &cell("", "13"),
        cell("", "14") + &cell("", "15"),
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["Cut 8 strips.", "10", "[0,0] 12", "[0,1] 13"]);
}

#[test]
fn fractions_of_word_are_put_together() {
    let raised = "<w:vertAlign w:val=\"superscript\"/>";
    let lowered = "<w:vertAlign w:val=\"subscript\"/>";
    let equation =
        "<m:oMath><m:f><m:num><m:r><m:t>5</m:t></m:r></m:num><m:den><m:r><m:t>8</m:t></m:r></m:den></m:f></m:oMath>";
    let body = format!(
        "<w:p>{}{}{}{}{} yd</w:p><w:p>{}{equation}{}{}</w:p>",
        run("2"),
        run(" "),
        styled(raised, "1"),
        run("/"),
        styled(lowered, "2"),
        run("1"),
        run(" yd"),
        styled(raised, "3"),
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["2 1⁄2", "1 5⁄8 yd³"]);
}

#[test]
fn merged_cells_of_word_keep_their_columns() {
    let body = format!(
        "<w:tbl><w:tr>{}{}</w:tr><w:tr>{}{}{}</w:tr><w:tr>{}{}{}</w:tr></w:tbl>",
        cell("<w:vMerge w:val=\"restart\"/>", "Fabric"),
        cell("<w:gridSpan w:val=\"2\"/>", "Crib"),
        cell("<w:vMerge/>", ""),
        cell("", "strips"),
        cell("", "squares"),
        cell("", "Ink"),
        cell("", "1"),
        cell("", "2"),
    );
    assert_eq!(
        read_lines("a.docx", word_file(&body)),
        ["[0,0 2x1]* Fabric", "[0,1 1x2]* Crib", "[1,1] strips", "[1,2] squares", "[2,0] Ink", "[2,1] 1", "[2,2] 2"]
    );
}

#[test]
fn what_word_does_not_print_is_not_read() {
    let body = format!(
        "<w:p>{}{}{}<w:r><w:instrText>PAGE 7</w:instrText></w:r><w:r><w:fldChar w:fldCharType=\"separate\"/><w:t>3</w:t></w:r></w:p>",
        run("See page "),
        styled("<w:vanish/>", "hidden 9"),
        "<w:pPr><w:pPrChange><w:pPr><w:pStyle w:val=\"H1\"/></w:pPr></w:pPrChange></w:pPr>",
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["See page 3"]);
}

#[test]
fn text_boxes_and_notes_come_after_the_text() {
    let inner = |text: &str| format!("<w:txbxContent><w:p>{}</w:p></w:txbxContent>", run(text));
    let body = format!(
        "<w:p>{}<w:r><mc:AlternateContent><mc:Choice>{}</mc:Choice><mc:Fallback>{}</mc:Fallback></mc:AlternateContent></w:r>{}</w:p><w:p>{}</w:p>",
        run("Cut "),
        inner("In a box: 4."),
        inner("In a box: 4."),
        run("8."),
        run("Sew."),
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["Cut 8.", "Sew.", "In a box: 4."]);
    let notes = "<w:footnotes><w:footnote w:type=\"separator\"><w:p><w:r><w:t>x</w:t></w:r></w:p></w:footnote><w:footnote><w:p><w:r><w:footnoteRef/><w:t> Of 42 in.</w:t></w:r></w:p></w:footnote></w:footnotes>";
    let file = zipped(&[
        ("[Content_Types].xml", "<Types/>"),
        (
            "word/document.xml",
            &format!(
                "<w:document><w:body><w:p>{}<w:r><w:footnoteReference w:id=\"2\"/></w:r></w:p></w:body></w:document>",
                run("Cut 8")
            ),
        ),
        ("word/footnotes.xml", notes),
    ]);
    assert_eq!(read_lines("a.docx", file), ["Cut 8", "Of 42 in."]);
}

#[test]
fn columns_of_tabs_are_tables_and_typed_marks_are_marks() {
    let tabbed = |cells: &[&str]| {
        format!("<w:p>{}</w:p>", cells.iter().map(|cell| run(cell)).collect::<Vec<_>>().join("<w:r><w:tab/></w:r>"))
    };
    let body = tabbed(&["Fabric", "Crib", "Throw"])
        + &tabbed(&["Ink", "5/8 yd", "1 yd"])
        + &tabbed(&["1.", "Sew the rows."])
        + &tabbed(&["\u{2022}", "8 strips"]);
    assert_eq!(
        read_lines("a.docx", word_file(&body)),
        [
            "[0,0]* Fabric",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Ink",
            "[1,1] 5/8 yd",
            "[1,2] 1 yd",
            "- Sew the rows.",
            "- 8 strips"
        ]
    );
}

#[test]
fn open_document_is_read_as_it_is_printed() {
    let styles = "<style:style style:name=\"Up\"><style:text-properties style:text-position=\"super 58%\"/></style:style>\
                  <style:style style:name=\"Down\"><style:text-properties style:text-position=\"-33% 58%\"/></style:style>\
                  <style:style style:name=\"Gone\"><style:text-properties text:display=\"none\"/></style:style>";
    let body = "<text:tracked-changes><text:changed-region><text:deletion><text:p>deleted 9</text:p></text:deletion></text:changed-region></text:tracked-changes>\
                <text:h text:outline-level=\"2\">Cutting</text:h>\
                <text:p>Cut<text:s text:c=\"2\"/>2<text:span text:style-name=\"Up\">1</text:span>/<text:span text:style-name=\"Down\">2</text:span><text:line-break/>in\
                <text:note><text:note-citation>1</text:note-citation><text:note-body><text:p>Note 42.</text:p></text:note-body></text:note>, all.<text:span text:style-name=\"Gone\">8</text:span>\
                <office:annotation><text:p>comment 7</text:p></office:annotation></text:p>\
                <draw:frame><draw:text-box><text:p>Box 5.</text:p></draw:text-box></draw:frame>\
                <table:table><table:table-row><table:table-cell table:number-columns-spanned=\"2\"><text:p>A</text:p></table:table-cell><table:covered-table-cell/></table:table-row>\
                <table:table-row><table:table-cell table:number-rows-spanned=\"2\"><text:p>b</text:p></table:table-cell><table:table-cell><text:p>1</text:p><text:p>2</text:p></table:table-cell></table:table-row>\
                <table:table-row><table:covered-table-cell/><table:table-cell><text:p>3</text:p></table:table-cell></table:table-row></table:table>";
    assert_eq!(
        read_lines("a.odt", open_document_file(styles, body)),
        [
            "h2 Cutting",
            "Cut 2 1⁄2 / in, all.",
            "[0,0 1x2]* A",
            "[1,0 2x1] b",
            "[1,1] 1 / 2",
            "[2,1] 3",
            "Note 42.",
            "Box 5."
        ]
    );
}

#[test]
fn what_protects_a_file_is_said() {
    let compound = read("a.docx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 and more");
    assert_eq!(
        problems(&compound),
        ["it is protected by a password, or is a .doc file of old: save it as .docx without a password"]
    );
    let manifest =
        "<manifest:manifest><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>";
    let odt = zipped(&[
        ("mimetype", "application/vnd.oasis.opendocument.text"),
        ("META-INF/manifest.xml", manifest),
        ("content.xml", "\u{1}\u{2}"),
    ]);
    assert_eq!(
        problems(&read("a.odt", odt)),
        ["it is protected by a password: save it in the program that wrote it without one"]
    );
}

#[test]
fn the_kind_of_file_is_known_by_its_bytes() {
    let word = word_file(&format!("<w:p>{}</w:p>", run("Cut 8.")));
    assert_eq!(read_lines("a.odt", &word), ["Cut 8."], "a Word file that is named .odt");
    assert_eq!(read_lines("a", &word), ["Cut 8."], "a Word file without an ending");
    let sheet = zipped(&[("mimetype", "application/vnd.oasis.opendocument.spreadsheet"), ("content.xml", "<a/>")]);
    assert!(
        problems(&read("a.ods", sheet))[0]
            .starts_with("this is another kind of OpenDocument file: texts are read from")
    );
    let archive = zipped(&[("a.txt", "8 strips")]);
    assert!(problems(&read("a.zip", archive))[0].starts_with("this is an archive and no text"));
    assert!(problems(&read("a.txt", b"\0\x01\x02"))[0].starts_with("this is no text"));
    assert_eq!(problems(&read("a.md", b"")), ["the file is empty"]);
}

#[test]
fn a_paragraph_of_word_whose_end_is_deleted_goes_on_with_the_next() {
    let deleted_end = "<w:pPr><w:rPr><w:del/></w:rPr></w:pPr>";
    let body = format!(
        "<w:p>{deleted_end}{}</w:p><w:p>{}</w:p><w:p>{deleted_end}<w:del><w:r><w:delText>9</w:delText></w:r></w:del></w:p>\
         <w:p>{}</w:p><w:tbl><w:tr>{}{}</w:tr></w:tbl>",
        run("Cut 8 "),
        run("strips."),
        run("Press."),
        cell("<w:cellDel/>", "7"),
        cell("", "12"),
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["Cut 8 strips.", "Press.", "[0,1] 12"]);
}

#[test]
fn raised_letters_and_signs_of_word_are_read() {
    let body = format!(
        "<w:p>{}{}{}{} <w:r><w:sym w:font=\"Symbol\" w:char=\"F0B4\"/></w:r>{}</w:p><w:p>{}</w:p>",
        run("2"),
        styled("<w:position w:val=\"6\"/><w:sz w:val=\"14\"/>", "1"),
        run("/"),
        styled("<w:position w:val=\"-4\"/><w:sz w:val=\"14\"/>", "2"),
        run(" 40"),
        styled("<w:position w:val=\"6\"/>", "12 strips"),
    );
    assert_eq!(read_lines("a.docx", word_file(&body)), ["2 1⁄2× 40", "12 strips"]);
}
