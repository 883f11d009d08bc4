//! The worksheet as a page, as far as it can be looked at without a browser. `in-a-browser.mjs` opens it in one.

use crate::support;

mod asked_for;
mod at_a_glance;
mod contents;
mod markup;
mod several;
mod signed;
mod structure;

use std::path::Path;

use scraper::{ElementRef, Html, Selector};
use sparestrip::manuscript::Source;

/// A page, and the manuscript that it is of.
struct Page {
    name: String,
    source: Source,
    text: String,
    html: Html,
}

impl Page {
    /// The page of a manuscript in a file of its own.
    fn of(manuscript: &str) -> Page {
        let (_folder, file) = support::folder_with("test.pattern.yaml", manuscript);
        Page::of_file(&file)
    }

    fn of_file(file: &Path) -> Page {
        let ran = support::run(file.parent().unwrap(), &[Path::new("worksheet"), file, Path::new("--html")]);
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{}", file.display());
        let html = Html::parse_document(&ran.out);
        let name = file.file_name().unwrap().to_string_lossy().into_owned();
        Page { name, source: Source::open(file).unwrap(), text: ran.out, html }
    }

    fn all(&self, selector: &str) -> Vec<ElementRef<'_>> {
        self.html.select(&Selector::parse(selector).unwrap()).collect()
    }

    /// The words of the one element that the selector means.
    fn words(&self, selector: &str) -> String {
        let found = self.all(selector);
        assert_eq!(found.len(), 1, "{selector} in {}", self.name);
        words(found[0])
    }
}

/// The words of an element, without the spaces of its layout.
fn words(element: ElementRef<'_>) -> String {
    let text: String = element.text().collect();
    text.split(|c: char| c.is_whitespace()).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// The element in another that the selector means, where there is one.
fn inside<'p>(element: ElementRef<'p>, selector: &str) -> Option<ElementRef<'p>> {
    element.select(&Selector::parse(selector).unwrap()).next()
}

/// The pages of all examples.
fn pages() -> impl Iterator<Item = Page> {
    support::examples().into_iter().map(|file| Page::of_file(&file))
}
