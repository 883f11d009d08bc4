//! The pages of the rule book as Rust, for `src/rule_book/pages.rs` to take in.

use crate::PAGES;
use crate::page::{Exact, Marked, Page, PageValue, Value};
use crate::quantity::Length;

/// A constant for each page, by the name of the rule's file, and all values by name.
pub(crate) fn code(pages: &[Page]) -> String {
    let mut values: Vec<&PageValue> = pages.iter().flat_map(|page| &page.values).collect();
    values.sort_unstable_by_key(|value| &value.name);
    let pairs: String =
        values.iter().map(|value| format!("    ({:?}, {}),\n", value.name, exact(&value.value))).collect();
    let pages: String = pages.iter().map(page).collect();
    format!(
        "{pages}\n/// All values of the rule book by name.\npub(super) const VALUES: &[(&str, Value)] = &[\n{pairs}];\n"
    )
}

fn page(page: &Page) -> String {
    let values: String = page.values.iter().map(value).collect();
    format!(
        "pub(crate) const {}: Page = Page {{\n    name: {:?},\n    text: include_str!(concat!(env!(\"CARGO_MANIFEST_DIR\"), {:?})),\n    level: Level::{:?},\n    headline: {:?},\n    why: {:?},\n    \
         working: {:?},\n    values: &[{values}],\n    house: {:?},\n    fails: {},\n    passes: {},\n    signed: {},\n    fails_text: {},\n    passes_text: {},\n}};\n",
        page.identifier(),
        page.name,
        format!("/{PAGES}/{}.yaml", page.name),
        page.level,
        page.headline.0,
        page.why.0,
        page.working.0,
        page.house,
        example(&page.fails),
        example(&page.passes),
        some_example(page.signed.as_ref()),
        some_example(page.fails_text.as_ref()),
        some_example(page.passes_text.as_ref()),
    )
}

fn value(value: &PageValue) -> String {
    format!(
        "PageValue {{ name: {:?}, value: {}, text: {:?}, meaning: {:?}, source: {:?} }}, ",
        value.name,
        exact(&value.value),
        value.value.text,
        value.meaning.0,
        value.source.0,
    )
}

fn exact(value: &Value) -> String {
    match &value.exact {
        Exact::Length(length) => format!("Value::Length({})", ticks(*length)),
        Exact::Count(count) => format!("Value::Count(Count({}))", count.0),
        Exact::Dimensions(width, length) => {
            format!("Value::Dimensions(Rectangle::new({}, {}))", ticks(*width), ticks(*length))
        }
        Exact::Words(words) => format!("Value::Words(WordList::of_book(&{words:?}))"),
    }
}

fn ticks(length: Length) -> String {
    format!("Length::from_ticks({})", length.ticks())
}

fn some_example(marked: Option<&Marked>) -> String {
    marked.map_or("None".to_string(), |marked| format!("Some({})", example(marked)))
}

fn example(manuscript: &Marked) -> String {
    format!("Example({:?})", manuscript.0)
}
