//! Reading the three formats with the readers that others use.

use std::collections::BTreeSet;

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use scraper::{ElementRef, Html, Selector};

use super::Fact;

/// A table as rows of cells, the first of them the heads.
struct Grid {
    caption: String,
    rows: Vec<Vec<String>>,
}

impl Grid {
    /// What stands in it. The sizes are its last columns, if it has any; before them may stand a column of words that
    /// say which number a row is; the others are the same for all sizes.
    fn facts(&self, sizes: &[String]) -> BTreeSet<Fact> {
        let heads = &self.rows[0];
        let by_size = heads.len() > sizes.len() && heads.ends_with(sizes);
        let first_size = if by_size { heads.len() - sizes.len() } else { heads.len() };
        let words = heads[..first_size].iter().position(|head| head == "how many");
        let mut facts = BTreeSet::new();
        for row in &self.rows[1..] {
            assert_eq!(row.len(), heads.len(), "{}: {row:?}", self.caption);
            let number = words.map(|column| row[column].clone()).unwrap_or_default();
            for (column, cell) in row.iter().enumerate().skip(1).filter(|(_, cell)| *cell != "–") {
                let (number, size) = match column {
                    _ if Some(column) == words => continue,
                    _ if column < first_size => (heads[column].clone(), String::new()),
                    _ => (number.clone(), heads[column].clone()),
                };
                facts.insert([self.caption.clone(), row[0].clone(), number, size, cell.clone()]);
            }
        }
        facts
    }
}

pub(crate) fn of_markdown(text: &str, sizes: &[String]) -> BTreeSet<Fact> {
    markdown_grids(text).iter().flat_map(|grid| grid.facts(sizes)).collect()
}

fn markdown_grids(text: &str) -> Vec<Grid> {
    let more =
        Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH | Options::ENABLE_MATH | Options::ENABLE_FOOTNOTES;
    let (mut grids, mut caption, mut here) = (Vec::<Grid>::new(), String::new(), String::new());
    for event in Parser::new_ext(text, more) {
        match event {
            Event::Text(text) => here.push_str(&text),
            Event::Start(Tag::Heading { .. } | Tag::TableCell | Tag::Paragraph) => here.clear(),
            Event::End(TagEnd::Heading(_)) => caption.clone_from(&here),
            Event::Start(Tag::Table(_)) => grids.push(Grid { caption: caption.clone(), rows: Vec::new() }),
            Event::Start(Tag::TableHead | Tag::TableRow) => grids.last_mut().unwrap().rows.push(Vec::new()),
            Event::End(TagEnd::TableCell) => grids.last_mut().unwrap().rows.last_mut().unwrap().push(here.clone()),
            Event::End(_) | Event::Start(Tag::Strong) => {}
            other => panic!("markup that was not meant, {other:?}, in:\n{text}"),
        }
    }
    grids
}

/// The headings and paragraphs of a Markdown text, without its tables.
pub(crate) fn prose_of_markdown(text: &str) -> Vec<String> {
    let (mut prose, mut here) = (Vec::new(), String::new());
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        match event {
            Event::Text(text) => here.push_str(&text),
            Event::Start(Tag::Heading { .. } | Tag::Paragraph) => here.clear(),
            Event::End(TagEnd::Heading(_) | TagEnd::Paragraph) => prose.push(here.clone()),
            _ => {}
        }
    }
    prose
}

pub(crate) fn of_html(text: &str, sizes: &[String]) -> BTreeSet<Fact> {
    let page = Html::parse_document(text);
    // Names that look like elements or attributes make none.
    let elements = "html head meta title style body main h1 h2 p strong table caption thead tbody tr th td";
    for element in page.select(&selector("*")) {
        let name = element.value().name();
        assert!(
            elements.split(' ').any(|known| known == name),
            "<{name}> in:
{text}"
        );
        for (attribute, _) in element.value().attrs() {
            assert!(
                ["lang", "charset", "name", "content", "scope", "rowspan", "class"].contains(&attribute),
                "{attribute} in:
{text}"
            );
        }
    }
    page.select(&selector("table")).flat_map(|table| html_grid(table).facts(sizes)).collect()
}

pub(crate) fn selector(text: &str) -> Selector {
    Selector::parse(text).unwrap()
}

pub(crate) fn text_of_element(element: ElementRef<'_>) -> String {
    element.text().collect()
}

/// A table of the page, its cells over several rows put into each of them.
fn html_grid(table: ElementRef<'_>) -> Grid {
    let caption = text_of_element(table.select(&selector("caption")).next().unwrap());
    let mut rows = Vec::new();
    for row in table.select(&selector("tr")) {
        let cells: Vec<ElementRef<'_>> = row.select(&selector("th, td")).collect();
        rows.push(cells);
    }
    let mut grid: Vec<Vec<String>> = Vec::new();
    let mut reaching: Vec<(String, usize)> = Vec::new();
    for cells in rows {
        let mut line = Vec::new();
        if reaching.iter().any(|(_, left)| *left > 0) {
            line.extend(reaching.iter().map(|(text, _)| text.clone()));
            for (_, left) in &mut reaching {
                *left -= 1;
            }
        } else {
            let reach = |cell: &&ElementRef<'_>| cell.value().attr("rowspan").is_some();
            let rows_of = |cell: &ElementRef<'_>| cell.value().attr("rowspan").unwrap().parse::<usize>().unwrap();
            reaching = cells.iter().filter(reach).map(|cell| (text_of_element(*cell), rows_of(cell) - 1)).collect();
        }
        line.extend(cells.iter().map(|cell| text_of_element(*cell)));
        grid.push(line);
    }
    Grid { caption, rows: grid }
}

/// One table in wide columns, its heads first.
pub(crate) fn of_wide(text: &str, delimiter: u8, caption: &str, sizes: &[String]) -> BTreeSet<Fact> {
    let bare = text.strip_prefix('\u{feff}').expect("a byte-order mark, for spreadsheets");
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).has_headers(false).from_reader(bare.as_bytes());
    let as_it_was = |field: &str| field.strip_prefix('\'').unwrap_or(field).to_string();
    let rows = reader.records().map(|record| record.unwrap().iter().map(as_it_was).collect());
    Grid { caption: caption.to_string(), rows: rows.collect() }.facts(sizes)
}

/// The records of the CSV, without the pattern and the edition.
pub(crate) fn of_csv(text: &str) -> BTreeSet<Fact> {
    let notes = ["Not complete", "Take care"];
    csv_records(text)
        .into_iter()
        .map(|record| record[2..].to_vec().try_into().unwrap())
        .filter(|fact: &Fact| !notes.contains(&&*fact[0]))
        .collect()
}

/// The records of the CSV with the guard against formulas taken away.
pub(crate) fn csv_records(text: &str) -> Vec<Vec<String>> {
    let bare = text.strip_prefix('\u{feff}').expect("a byte-order mark, for spreadsheets");
    // RFC 4180 ends each record with CR LF.
    assert!(bare.ends_with("\r\n") && bare.matches('\n').count() == bare.matches("\r\n").count(), "{text}");
    let mut reader = csv::Reader::from_reader(bare.as_bytes());
    assert_eq!(
        reader.headers().unwrap(),
        ["pattern", "edition", "table", "row", "number", "size", "stated"].as_slice()
    );
    let as_it_was = |field: &str| field.strip_prefix('\'').unwrap_or(field).to_string();
    let records = reader.records().map(|record| record.unwrap());
    records
        .map(|record| {
            let runs = |field: &str| field.starts_with(['=', '+', '-', '@', '\t', '\r']);
            assert!(!record.iter().any(runs), "a spreadsheet would run {record:?}");
            record.iter().map(as_it_was).collect()
        })
        .collect()
}
