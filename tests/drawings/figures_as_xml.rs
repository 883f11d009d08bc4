//! Every figure is well-formed XML, keeps to its page, and brings nothing from elsewhere.

use std::collections::BTreeSet;

use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;
use sparestrip::report::figure::{FIGURE_STYLE, Figure, figures};

use super::{examples, worksheet_of};

/// An element with its attributes and the text in it.
#[derive(Debug, Default)]
pub(crate) struct Element {
    pub(crate) name: String,
    attributes: Vec<(String, String)>,
    pub(crate) text: String,
}

impl Element {
    pub(crate) fn attribute(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }

    fn number(&self, name: &str) -> Option<f64> {
        self.attribute(name).map(|value| value.parse().unwrap())
    }
}

fn element(start: &BytesStart<'_>) -> Element {
    let name = start.name().as_ref().to_string();
    let attributes = start.attributes().map(|attribute| {
        let attribute = attribute.expect("an attribute");
        let raw = attribute.value.to_string();
        let value = quick_xml::escape::unescape(&raw).expect("entities that are known").into_owned();
        (attribute.key.as_ref().to_string(), value)
    });
    Element { name, attributes: attributes.collect(), text: String::new() }
}

/// The elements of an SVG in turn; fails where it is not well-formed.
pub(crate) fn elements(svg: &str) -> Vec<Element> {
    let mut reader = Reader::from_str(svg);
    reader.config_mut().check_end_names = true;
    let mut elements: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    loop {
        match reader.read_event().unwrap_or_else(|error| panic!("{error} in {svg}")) {
            Event::Start(start) => {
                open.push(elements.len());
                elements.push(element(&start));
            }
            Event::Empty(start) => elements.push(element(&start)),
            Event::End(_) => drop(open.pop().expect("an element that is open")),
            Event::Text(text) => {
                let text: &str = text.as_ref();
                if let Some(index) = open.last() {
                    elements[*index].text.push_str(text);
                }
            }
            Event::GeneralRef(reference) => {
                let raw = format!("&{};", AsRef::<str>::as_ref(&reference));
                let text = quick_xml::escape::unescape(&raw).expect("an entity that is known").into_owned();
                elements[*open.last().unwrap()].text.push_str(&text);
            }
            Event::Eof => break,
            other => panic!("an event that has no place in a figure: {other:?}"),
        }
    }
    assert!(open.is_empty(), "elements left open");
    elements
}

/// The numbers of a path, across and down in turn.
fn numbers(path: &str) -> Vec<f64> {
    let words = path.split(['M', 'L', 'Z', 'V', ' ']).filter(|word| !word.is_empty());
    words.map(|word| word.parse().unwrap_or_else(|_| panic!("{word:?} in {path}"))).collect()
}

/// Everything within the page, text reckoned at half of its height a letter.
#[allow(clippy::float_arithmetic, clippy::cast_precision_loss)] // Places on a page, no lengths of a quilt.
fn within_the_page(figure: &Figure, elements: &[Element]) {
    let page: Vec<f64> =
        elements[0].attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    let inside = |x: f64, y: f64, what: &Element| {
        let fits = (0.0..=page[2]).contains(&x) && (0.0..=page[3]).contains(&y);
        assert!(fits, "{x} {y} is beyond {page:?} in {}: {what:?}", figure.id);
    };
    let drawn = elements.iter().skip_while(|element| element.name != "defs");
    let drawn = drawn.filter(|element| element.attribute("class").is_some_and(|class| !is_of_a_pattern(class)));
    for element in drawn {
        if let Some(path) = element.attribute("d") {
            for pair in numbers(path).chunks(2) {
                inside(pair[0], pair[1], element);
            }
        }
        if let (Some(x), Some(y)) = (element.number("x"), element.number("y")) {
            let (wide, high) = (element.number("width").unwrap_or(0.0), element.number("height").unwrap_or(0.0));
            inside(x, y, element);
            inside(x + wide, y + high, element);
            let text = element.text.chars().count() as f64 * 16.5;
            match element.attribute("text-anchor") {
                Some("start") => inside(x + text, y - 24.0, element),
                Some("end") => inside(x - text, y - 24.0, element),
                Some("middle") => {
                    inside(x + text / 2.0, y - 24.0, element);
                    inside(x - text / 2.0, y - 24.0, element);
                }
                _ => {}
            }
        }
    }
    assert!(page[3] < 4200.0, "{page:?} in {}", figure.id);
}

fn is_of_a_pattern(class: &str) -> bool {
    class.starts_with("fig-hatch") || class.starts_with("fig-dots")
}

/// What holds of any figure.
pub(crate) fn is_sound(figure: &Figure) {
    let elements = elements(&figure.svg);
    let root = &elements[0];
    assert_eq!((root.name.as_str(), root.attribute("role")), ("svg", Some("img")), "{}", figure.id);
    assert!(figure.svg.starts_with("<svg ") && figure.svg.trim_end().ends_with("</svg>"));
    let ids: Vec<&str> = elements.iter().filter_map(|element| element.attribute("id")).collect();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "{ids:?}");
    assert!(ids.iter().all(|id| id.starts_with(&figure.id)), "{ids:?}");
    for labelled in root.attribute("aria-labelledby").unwrap().split(' ') {
        let named = elements.iter().find(|element| element.attribute("id") == Some(labelled)).unwrap();
        assert!(!named.text.is_empty() && ["title", "desc"].contains(&named.name.as_str()), "{named:?}");
    }
    let known = ["svg", "title", "desc", "defs", "pattern", "rect", "path", "circle", "text", "g", "use"];
    for element in &elements {
        assert!(known.contains(&element.name.as_str()), "{element:?}");
        for (name, value) in &element.attributes {
            assert!(!name.starts_with("on") && name != "style", "{element:?}");
            // A symbol of the figure's own may be used, and nothing else.
            let own = |id: &str| element.name == "use" && ids.contains(&id);
            assert!(!name.contains("href") || value.strip_prefix('#').is_some_and(own), "{element:?}");
            let elsewhere = value.contains("url(") && !value.starts_with(&format!("url(#{}-", figure.id));
            assert!(!elsewhere, "{element:?}");
        }
        let classes = element.attribute("class").unwrap_or_default();
        // The page has the style of the narrow ones.
        let plain = ["", "fig-text", "fig-narrow", "fig-middle"];
        for class in classes.split(' ').filter(|class| !plain.contains(class)) {
            assert!(FIGURE_STYLE.contains(&format!(".{class}")), "{class} has no style");
        }
    }
    within_the_page(figure, &elements);
    assert!(!figure.caption.is_empty() && !figure.alternative.is_empty());
}

#[test]
fn every_figure_of_every_example_is_sound() {
    let mut count = 0;
    for path in examples() {
        let (worksheet, _) = worksheet_of(&path);
        let figures = figures(&worksheet.drawings);
        let ids: BTreeSet<&str> = figures.iter().map(|figure| figure.id.as_str()).collect();
        assert_eq!(ids.len(), figures.len(), "an id twice in {path:?}");
        figures.iter().for_each(is_sound);
        count += figures.len();
    }
    assert!(count > 60, "{count}");
}

#[test]
fn every_class_of_the_style_begins_with_its_own_prefix() {
    for word in FIGURE_STYLE.split(|c: char| c.is_whitespace() || c == ',') {
        if let Some(class) = word.strip_prefix('.').filter(|class| class.starts_with(char::is_alphabetic)) {
            assert!(class.starts_with("fig-"), "{class}");
        }
    }
    assert!(!FIGURE_STYLE.contains("url(") && !FIGURE_STYLE.contains("@import"));
}
