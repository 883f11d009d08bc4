//! What a file holds shows as text, whatever it is.

use std::collections::BTreeSet;

use super::support::{GOOD, is_wild};
use super::{Page, pages, words};

/// Names that would be markup, close what they stand in, or steer a reader.
const MEAN: [&str; 8] = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "\" onmouseover=\"alert(1)",
    "' autofocus onfocus='alert(1)",
    "</style><b>bold</b>",
    "]]> --> {{ version }} {% if x %} &lt;i&gt; &amp; &",
    "a\u{202e}b\u{200f}c\u{2066}d",
    "</title></svg></table></textarea>",
];

/// The good manuscript with a name in every place that takes one.
fn with_name(name: &str) -> String {
    let quoted = format!("\"{}\"", name.replace('\\', "\\\\").replace('"', "\\\""));
    let fabrics = format!(
        "fabrics:\n  {quoted}:\n    role: {quoted}\n    requires: {{ crib: 1 in, throw: 2 yd, queen: 2 yd }}\n    cut:\n      \
         - {{ piece: {quoted}, size: 6 1/2 x 6 1/2, pieces: {{ crib: 36, throw: 36, {quoted}: 36 }} }}\n"
    );
    let text = GOOD.replace("Harbour Lanterns", &quoted).replace("edition: 1", &format!("edition: {quoted}"));
    let text = text.replace("queen", &quoted).replace("strips: 12", "strips: 11");
    let accepted = format!("accepted:\n  - {{ rule: spare-strip, size: {quoted}, stated: 11, because: {quoted} }}\n");
    text + &fabrics.replace("queen", &quoted) + &accepted + &format!("{quoted}: {quoted} # {name}\n")
}

/// Everything that our own pages are made of.
fn known() -> (BTreeSet<String>, BTreeSet<String>) {
    let (mut elements, mut attributes) = (BTreeSet::new(), BTreeSet::new());
    for page in pages() {
        for element in page.all("*") {
            elements.insert(element.value().name().to_string());
            attributes.extend(element.value().attrs().map(|(name, _)| name.to_string()));
        }
    }
    (elements, attributes)
}

fn is_harmless(page: &Page, known: &(BTreeSet<String>, BTreeSet<String>), what: &str) {
    assert_eq!(page.html.errors, Vec::<String>::new(), "{what}");
    for element in page.all("*") {
        assert!(known.0.contains(element.value().name()), "{what}: an element {}", element.value().name());
        for (name, value) in element.value().attrs() {
            assert!(known.1.contains(name) && !name.starts_with("on"), "{what}: an attribute {name}");
            assert!(name != "href" || value.starts_with('#'), "{what}: a link to {value}");
        }
    }
    let wild = page.text.chars().find(|c| *c != '\n' && is_wild(*c));
    assert_eq!(wild, None, "{what}");
}

#[test]
fn names_from_a_file_show_as_text() {
    let known = known();
    for name in MEAN {
        let page = Page::of(&with_name(name));
        is_harmless(&page, &known, name);
        let shown: String = name.chars().map(|c| if is_wild(c) { '\u{fffd}' } else { c }).collect();
        let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(page.words("h1"), format!("{shown}, edition {shown}"));
        assert_eq!(page.words("head > title"), format!("{shown}, edition {shown}: worksheet"));
        let headings: Vec<String> = page.all("table.matrix thead th").into_iter().map(words).collect();
        assert!(headings.contains(&shown), "{headings:?}");
        let numbers: Vec<String> = page.all("tbody th").into_iter().map(words).collect();
        assert!(numbers.iter().any(|number| number.contains(&shown)), "{numbers:?}");
        assert!(page.words("section[aria-labelledby=accepted] .because").ends_with(&shown));
    }
}

#[test]
fn control_characters_do_not_reach_the_page() {
    let known = known();
    let wild = (0..0x2100).chain([0xfeff]).filter_map(char::from_u32).filter(|c| is_wild(*c));
    let named = |name: &str| GOOD.replace("Harbour Lanterns", name).replace("crib", name);
    let mut escapes = String::new();
    for c in wild {
        escapes.push_str(&format!("\\u{:04x}.", u32::from(c)));
        is_harmless(&Page::of(&named(&format!("\"a{c}b\""))), &known, &format!("{c:?}"));
    }
    // As escapes, which YAML turns into the characters: for the pattern, whose name may hold anything.
    let page = Page::of(&GOOD.replace("Harbour Lanterns", &format!("\"{escapes}\"")));
    is_harmless(&page, &known, "escapes");
    assert!(page.words("h1").contains("?.?.?"), "{}", page.words("h1"));
}

#[test]
fn a_torn_file_has_a_page_too() {
    let known = known();
    for text in ["", "pattern: [", "\u{0}\u{1}", "a: &x *x", "sizes: { a: { finished: 3 x"] {
        is_harmless(&Page::of(text), &known, text);
    }
    for end in (0..GOOD.len()).step_by(37) {
        is_harmless(&Page::of(&GOOD[..end]), &known, &GOOD[..end]);
    }
}
