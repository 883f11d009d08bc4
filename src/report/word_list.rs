//! The words of the format in text: a table for each section, the makes of units, and how numbers are written.

use super::rule_pages::{table, trimmed};
use super::{RenderStyle, sanitize_line};
use crate::manuscript::section::{GoesWith, LeftOut, Row, Section};
use crate::manuscript::{FORMAT, Keyword, nearest};
use crate::quilt_math::makes::{Diagonally, Make, PartOf, PartRow, Way};
use crate::rule_book::{HOUSE_RULES, Settings, book, shown};

/// What a part of the reference is about.
#[derive(Clone, Copy, Debug)]
enum Part {
    Section(&'static Section),
    Makes,
    Numbers,
}

const MAKES: &str = "make";
const NUMBERS: &str = "numbers";

/// How numbers are written, by their kind.
pub const WRITTEN: [(&str, &[&str]); 5] = [
    (
        "length",
        &[
            "2 1/2",
            "2-1/2",
            "2½",
            "2 ½",
            "½",
            "2.5",
            ".5",
            "2 1/2 in",
            "2 1/2\"",
            "2 1/2 inches",
            "6.5 cm",
            "65 mm",
            "1.2 m",
            "1/4 yd",
            "2 ft",
            "4 1/2 in (11.5 cm)",
        ],
    ),
    (
        "amount of fabric",
        &["5/8 yd", "1 1/4 yards", "60 cm", "0.6 m", "5/8 yd (60 cm)", "5/8 yd / 60 cm", "5/8 yd, 60 cm"],
    ),
    (
        "size",
        &[
            "54 x 72",
            "54 × 72",
            "54 by 72",
            "54\" x 72\"",
            "140 x 180 cm",
            "4 1/2 x 64 1/2",
            "54 x 72 in (137 x 183 cm)",
        ],
    ),
    ("count", &["8"]),
    ("percentage", &["3 %", "3%", "2.5 %", "2 1/2 %"]),
];

const ABOUT_WORDS: &str = "Where an entry is left out, its standard value holds. A name in parentheses is a value of the \
    rule book, which can be changed for all patterns of a house. Wherever something is stated for each size, what is the \
    same for all of them may stand once, under `every_size`; a size that is named states what differs.";

const ABOUT_MAKES: &str = "With s for the seam and f for the finished side. A cut size within cut_tolerance of the \
    exact one is right, a smaller one is an error and a larger one a note. A part is cut from a piece of a cutting list, \
    by its name, or from a cut size that stands in the unit.";

const ABOUT_NUMBERS: &str = "A number without a unit is in the manuscript's measure; an amount of fabric in yards \
    needs its yd. Decimals have a point, not a comma. A fraction needs a space or a hyphen before it: 41/2 is read \
    as 20 1/2, and asked about. What is typed with other signs is read where it can mean one thing only: en dashes, \
    two apostrophes for an inch mark, full-width digits, raised and lowered digits, any fraction bar. Words are read \
    in American and in British spelling (center, centre). Both halves of an amount in yards and centimeters must be \
    enough on their own. Of a length or a size in both measures the half in the manuscript's measure is computed with, \
    and the other must be the same, rounded. Lengths go up to 2000 in (5080 cm), counts to 100,000, fractions to 1/64, decimals to four \
    places, and a file to 4 MiB. 1 in is 25.4 mm and 1 yd is 0.9144 m exactly; nothing is rounded in the working.";

/// All sections of the format, each after the one that it stands in.
pub fn sections() -> Vec<&'static Section> {
    let mut sections = FORMAT.sections();
    sections.push(HOUSE_RULES);
    sections
}

/// The whole reference.
pub fn word_list(look: RenderStyle) -> String {
    let mut text = format!("{}\n", filled(ABOUT_WORDS, look));
    for part in parts() {
        text.push_str(&format!("\n{}", part.text(look)));
    }
    text
}

/// The part of the reference with a name, and those within it; or else a word in all sections that have it. What was
/// probably meant, where there is neither.
///
/// # Errors
/// Where no section and no word has the name: the nearest that has, if one is near.
pub fn words_of(name: &str, look: RenderStyle) -> Result<String, Option<&'static str>> {
    let plain = |name: &str| name.to_lowercase().replace(['-', '_'], " ");
    let found = parts().into_iter().find(|part| plain(part.name()) == plain(name));
    if let Some(part) = found {
        let texts: Vec<String> = part.with_those_in_it().into_iter().map(|part| part.text(look)).collect();
        return Ok(texts.join("\n"));
    }
    let with_word = sections().into_iter().filter_map(|section| Some((section, section.row(name)?)));
    let texts: Vec<String> = with_word.map(|(section, row)| rows_text(section.heading, "", &[row], look)).collect();
    if texts.is_empty() {
        let words = sections().into_iter().flat_map(|section| section.rows.iter().map(|row| row.word));
        let known: Vec<&'static str> = parts().iter().map(Part::name).chain(words).collect();
        return Err(nearest(name, known));
    }
    Ok(texts.join("\n"))
}

fn parts() -> Vec<Part> {
    let mut parts = Vec::new();
    for section in sections() {
        if section.name == HOUSE_RULES.name {
            parts.push(Part::Numbers);
        }
        parts.push(Part::Section(section));
        if section.row(MAKES).is_some() {
            parts.push(Part::Makes);
        }
    }
    parts
}

impl Part {
    fn name(&self) -> &'static str {
        match self {
            Part::Section(section) => section.name,
            Part::Makes => MAKES,
            Part::Numbers => NUMBERS,
        }
    }

    /// A section and those that stand in it; of the file alone, its own words.
    fn with_those_in_it(self) -> Vec<Part> {
        let Part::Section(section) = self else { return vec![self] };
        if section.name == sections()[0].name {
            return vec![self];
        }
        let mut parts: Vec<Part> = section.all().into_iter().map(Part::Section).collect();
        if section.row(MAKES).is_some() {
            parts.push(Part::Makes);
        }
        parts
    }

    fn text(self, look: RenderStyle) -> String {
        match self {
            Part::Section(section) => rows_text(section.heading, section.about, section.rows, look),
            Part::Makes => makes_text(look),
            Part::Numbers => numbers_text(look),
        }
    }
}

fn filled(text: &str, look: RenderStyle) -> String {
    textwrap::fill(text, look.width.min(100))
}

fn heading(heading: &str, about: &str, look: RenderStyle) -> String {
    if about.is_empty() { format!("{heading}:\n") } else { format!("{heading}:\n{}\n", filled(about, look)) }
}

fn rows_text(title: &str, about: &str, rows: &[&Row], look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["word", "what it says", "where it is left out", "example"]);
    for row in rows {
        let needs = row.needs.map_or_else(String::new, |other| format!("; needs `{other}`"));
        let others: Vec<String> = row.not_beside.iter().map(|other| format!("`{other}`")).collect();
        let not = if others.is_empty() { String::new() } else { format!("; not beside {}", others.join(" or ")) };
        let says = format!("{}{}{needs}{not}", row.says, goes_with(row));
        table.add_row([row.word, &says, &left_out(row), row.example]);
    }
    format!("{}\n{}\n", heading(title, about, look), trimmed(&table))
}

/// What a word goes with, as an end of the clause that says what it is.
pub(crate) fn goes_with(row: &Row) -> String {
    match row.goes_with {
        GoesWith::Anything => String::new(),
        GoesWith::Values(word, values) => format!("; only with `{word}` {}", values.join(" or ")),
        GoesWith::Group(words) => {
            let others = words.iter().filter(|word| **word != row.word);
            let others: Vec<String> = others.map(|word| format!("`{word}`")).collect();
            if others.is_empty() { String::new() } else { format!("; only with {}", others.join(" and ")) }
        }
        GoesWith::Makes(goes) => {
            let words = |wanted: bool| -> Vec<&str> {
                Make::all().filter(|make| goes(make) == wanted).map(|make| make.make.word()).collect()
            };
            let (with, without) = (words(true), words(false));
            if with.len() <= without.len() {
                format!("; only for {}", with.join(", "))
            } else {
                format!("; not for {}", without.join(", "))
            }
        }
    }
}

/// What holds where a word is left out, in words.
pub(super) fn left_out(row: &Row) -> String {
    left_out_with(row, &book_value)
}

/// The same under house rules: with the values that are in force.
pub(crate) fn left_out_in_force(row: &Row, settings: &Settings) -> String {
    left_out_with(row, &|name| {
        let value = settings.values().iter().find(|(known, _)| *known == name);
        let value = value.map(|(_, value)| shown(value)).unwrap_or_default();
        let by_house = Settings::default().values().iter().any(|(known, book)| *known == name && shown(book) != value);
        if by_house { format!("{value} ({name}, by the house rules)") } else { book_value(name) }
    })
}

/// What holds where a word is left out, with the values of the rule book as they are to be shown.
fn left_out_with(row: &Row, value: &dyn Fn(&str) -> String) -> String {
    match row.left_out {
        LeftOut::Required => "must be there".to_string(),
        LeftOut::Unless(others, then) => {
            let others: Vec<String> = others.iter().map(|word| format!("`{word}`")).collect();
            let then = if then.is_empty() { String::new() } else { format!("; {}", said(then, value)) };
            format!("needed unless {} is there{then}", others.join(" or "))
        }
        LeftOut::Standard(standard) => format!("`{standard}`"),
        LeftOut::BookValue(name) => value(name),
        LeftOut::Said(text) => said(text, value),
    }
}

/// A text with the values of the rule book put in for their names in braces.
fn said(text: &str, value: &dyn Fn(&str) -> String) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        let (name, after) = after.split_once('}').unwrap_or((after, ""));
        out.push_str(before);
        out.push_str(&value(name));
        rest = after;
    }
    out + rest
}

/// A value of the rule book with its name: `40 in (usable_width)`.
fn book_value(name: &str) -> String {
    let value = book().iter().flat_map(|page| page.values).find(|value| value.name == name);
    format!("{} ({name})", value.map_or("", |value| value.text))
}

fn makes_text(look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["make", "method", "parts, and how they are cut", "one set gives"]);
    for row in Make::all() {
        for (index, way) in row.ways.iter().enumerate() {
            let make = if index == 0 { format!("{}: {}", row.make.word(), row.says) } else { String::new() };
            let method = way.method.map(Keyword::word).unwrap_or_default();
            table.add_row([
                make,
                method.to_string(),
                way_text(way),
                way.gives.map_or_else(String::new, |gives| gives.to_string()),
            ]);
        }
    }
    let text = format!("{}\n{}\n", heading("Each `make` of a unit", ABOUT_MAKES, look), trimmed(&table));
    if look.ascii { text.replace('√', "root ") } else { text }
}

/// The parts of one way: `1 goose, width + s (2 + 2√2); 4 sky, height + s (2 + √2)`.
fn way_text(way: &Way) -> String {
    let mut texts: Vec<String> = Vec::new();
    let mut rest = way.parts;
    while let Some(first) = rest.first() {
        let same = |part: &&PartRow| (part.formula, part.pieces, part.cut) == (first.formula, first.pieces, first.cut);
        let alike: Vec<&PartRow> = rest.iter().take_while(same).collect();
        let mut names: Vec<String> = alike.iter().map(|part| format!("{} `{}`", part.pieces, part.name)).collect();
        if let Some(last) = alike.last().filter(|last| last.of != PartOf::Make && alike.len() > 1) {
            let numbered: Vec<_> =
                alike.iter().filter(|part| !matches!(part.of, PartOf::Make | PartOf::AlikeCorners)).collect();
            names.truncate(alike.len() - numbered.len());
            names.extend(
                numbered.first().map(|first| format!("{} each of `{}` to `{}`", first.pieces, first.name, last.name)),
            );
        }
        let each = if alike.len() > 1 || first.pieces.0 > 1 { "each " } else { "" };
        let cut = match first.cut {
            Diagonally::Whole => "",
            Diagonally::Once => ", cut once diagonally",
            Diagonally::Twice => ", cut twice diagonally",
        };
        texts.push(format!("{}, {each}{}{cut}", names.join(" and "), first.formula));
        rest = &rest[alike.len()..];
    }
    texts.extend(Some(way.note.to_string()).filter(|note| !note.is_empty()));
    texts.join("; ")
}

fn numbers_text(look: RenderStyle) -> String {
    let mut table = table(look);
    table.set_header(["kind", "written"]);
    for (kind, examples) in WRITTEN {
        table.add_row([kind, &examples.join(", ")]);
    }
    format!("{}\n{}\n", heading("How numbers are written", ABOUT_NUMBERS, look), trimmed(&table))
}

/// A name that nobody knows, in words.
pub fn unknown_section(name: &str, near: Option<&str>) -> String {
    let near = near.map(|near| format!(" Did you mean {near}?")).unwrap_or_default();
    format!("there is no section and no word {}.{near} `sparestrip words` lists them all.", sanitize_line(name))
}
