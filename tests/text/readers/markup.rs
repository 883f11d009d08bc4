//! Markdown and HTML: what is text of them and what is not.

use super::{read, read_lines};
use sparestrip::text::TextPlace;

#[test]
fn markdown_is_read_as_it_is_shown() {
    let text = "---\ntitle: 9\n---\n# Mat\n\n**Cutting**\n\nWrapped 2\n1/2 in, hard\\\nbreak, ~~6~~ 8.[^n] ![a 5](b.png) [c 7](d)\n<!-- 99 -->\n\n- [ ] task 1\n\n  \
                more\n- b\n  1. c\n\n[^n]: Note 42.\n";
    assert_eq!(
        read_lines("a.md", text),
        [
            "h1 Mat",
            "h7 Cutting",
            "Wrapped 2 1/2 in, hard / break, 8. c 7",
            "- task 1",
            "- more",
            "- b",
            "  - c",
            "Note 42."
        ]
    );
}

/// What stands between two rules is printed; only at the very beginning may it be words about the text.
#[test]
fn what_stands_between_rules_is_printed() {
    let cards = "Cards\n\n---\nBaby: 6 strips\n\n---\nThrow: 9 strips\n\n---\n";
    assert_eq!(read_lines("a.md", cards), ["Cards", "Baby: 6 strips", "Throw: 9 strips"]);
    let begins_with_a_rule = "---\n**Baby** 6 strips\n\n---\n\nThrow\n";
    assert_eq!(read_lines("a.md", begins_with_a_rule), ["Baby 6 strips", "Throw"]);
    assert_eq!(read_lines("a.md", "---\ntitle: Mat\ntags:\n  - 7\n...\n\nCut 9.\n"), ["Cut 9."]);
    assert_eq!(read_lines("a.md", "---\n\nCut 9.\n"), ["Cut 9."]);
}

#[test]
fn what_introduces_a_list_is_known() {
    let printed = read("a.md", "Cut these:\n\n- a\n  - b\n- c\n\n1. d\n\nThen:\n\n| E | F |\n|---|---|\n| 1 | 2 |\n");
    let heads: Vec<(&str, Option<&str>)> = printed
        .passages
        .iter()
        .map(|passage| (passage.text.as_str(), passage.list_head.map(|head| printed.passages[head].text.as_str())))
        .collect();
    assert_eq!(
        heads,
        [
            ("Cut these:", None),
            ("a", Some("Cut these:")),
            ("b", Some("a")),
            ("c", Some("Cut these:")),
            ("d", None),
            ("Then:", None),
            ("E", Some("Then:")),
            ("F", Some("Then:")),
            ("1", Some("Then:")),
            ("2", Some("Then:")),
        ]
    );
}

#[test]
fn html_in_markdown_is_read_with_it() {
    let text = "Before\n\n<table>\n<tr><th>Size<th>Strips\n<tr><td>Crib<td>6 &frac12;\n</table>\n\nAfter 3<br>4\n\n<div style=\"display: none\">5</div>\n";
    assert_eq!(
        read_lines("a.md", text),
        ["Before", "[0,0]* Size", "[0,1]* Strips", "[1,0] Crib", "[1,1] 6 ½", "After 3 / 4"]
    );
}

#[test]
fn code_in_markdown_is_text_without_markup() {
    let text = "Text:\n\n```\nSize    Crib   Throw\nStrips  6      8\n```\n";
    assert_eq!(
        read_lines("a.md", text),
        ["Text:", "[0,0]* Size", "[0,1]* Crib", "[0,2]* Throw", "[1,0] Strips", "[1,1] 6", "[1,2] 8"]
    );
}

#[test]
fn html_is_read_as_a_browser_shows_it() {
    let text = "<html><head><title>9</title><style>p{margin:8px}</style></head><body><nav>7</nav><h2>Cut<br>ting</h2>\n<p>one <i>2</i>3\n four&#8243;<p hidden>5\
                <p style='visibility:hidden'>6</p><script>var x = '<p>7</p>'</script><p>8 <del>9</del><s>9</s><ins>10</ins><!-- 11 --><noscript>12</noscript><dl><dt>a<dd>b</dl><pre>c  \
                d\ne</pre>";
    assert_eq!(read_lines("a.html", text), ["7", "h2 Cut / ting", "one 23 four″", "8 10", "a", "- b", "c d / e"]);
}

#[test]
fn tables_of_html_have_cells_over_rows_and_columns() {
    let text = "<table><thead><tr><td rowspan=2>Fabric<td colspan=2>Crib<tr><td>strips<td>squares<tbody><tr><td>Ink<td>1<td>2</table>";
    assert_eq!(
        read_lines("a.html", text),
        ["[0,0 2x1]* Fabric", "[0,1 1x2]* Crib", "[1,1]* strips", "[1,2]* squares", "[2,0] Ink", "[2,1] 1", "[2,2] 2"]
    );
}

#[test]
fn raised_digits_that_are_no_fraction_are_none_of_the_number() {
    let text = "<p>42<sup>2</sup> in, the 2<sup>nd</sup> row, 3<sup>1</sup>&frasl;<sub>2</sub>, <sup>5</sup>/8 yd, 1<sup>3</sup><sub>4</sub>";
    assert_eq!(read_lines("a.html", text), ["42² in, the 2nd row, 3 1⁄2, 5⁄8 yd, 1 3⁄4"]);
    assert_eq!(
        read_lines("a.txt", "Cut 3¹⁄₂ in, 42² in and 3¹/₂ in from each of the strips."),
        ["Cut 3 1⁄2 in, 42² in and 3 1⁄2 in from each of the strips."]
    );
}

#[test]
fn signs_without_width_and_soft_hyphens_are_left_out() {
    assert_eq!(
        read_lines("a.html", "<p>bind&shy;ing 2\u{200b}0 in&#8239;&thinsp;x&nbsp;&nbsp;4"),
        ["binding 20 in x 4"]
    );
}

#[test]
fn tables_that_lay_a_page_out_are_no_tables() {
    let text = "<table><tr><td><h1>Mat</h1><p>Cut:<ul><li>8 strips<li>4 squares</ul><td><p>A tip.</table>\
                <table role=presentation><tr><td>Press.<td>Trim.</table><table><tr><td>Boxed.</table>\
                <table><tr><td>Left<td><table><tr><td>Crib<td>6<tr><td>Lap<td>8</table></table>";
    assert_eq!(
        read_lines("a.html", text),
        [
            "h1 Mat",
            "Cut:",
            "- 8 strips",
            "- 4 squares",
            "A tip.",
            "Press.",
            "Trim.",
            "Boxed.",
            "Left",
            "[0,0] Crib",
            "[0,1] 6",
            "[1,0] Lap",
            "[1,1] 8"
        ]
    );
    let data = "<table><tr><th>Crib<td>6<ul><li>of ink</ul><tr><th>Lap<td><p>8</table>";
    assert_eq!(read_lines("a.html", data), ["[0,0]* Crib", "[0,1] 6 / of ink", "[1,0]* Lap", "[1,1] 8"]);
}

#[test]
fn text_that_is_set_as_it_was_typed_may_hold_tables() {
    let text = "<p>Strips:<pre>\nSize    Crib   Throw\nStrips  6      8\n</pre><p>Then 2.";
    let printed = read("a.html", text);
    assert_eq!(
        super::lines(&printed),
        ["Strips:", "[0,0]* Size", "[0,1]* Crib", "[0,2]* Throw", "[1,0] Strips", "[1,1] 6", "[1,2] 8", "Then 2."]
    );
    let TextPlace::Span(at) = printed.passages[6].place(0..1) else { panic!("no span") };
    assert_eq!(&text[at.start..at.end], "8");
}
