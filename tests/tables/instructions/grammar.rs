//! A grammar of the steps of cutting instructions, which knows nothing of the program.
//!
//! ```text
//! step    = strips ["; subcut " pieces {(", " | " and ") pieces}] | pieces [", from " strips] | other
//! strips  = [counts] "strips" (measure ["x" (quantity | "WOF")] | sizes) ["(" name ")"]
//! sizes   = quantity "x" quantity "[" quantity "x" quantity {"; " quantity "x" quantity} "]"
//! pieces  = [counts] noun measure ["from each"] {", " detail} ["(" name ")"] [", for " words]
//! counts  = number ["(" number {", " number} ")"]
//! measure = quantity ["[" quantity {"; " quantity} "]"]
//! ```

use std::sync::LazyLock;

use regex::{Captures, Regex};

use super::super::Fact;

/// What the numbers of a step stand for.
#[derive(Clone, Copy)]
pub(crate) enum Numbers<'s> {
    /// All sizes, in this order.
    Run(&'s [String]),
    /// One size.
    Of(&'s str),
}

const COUNTS: &str = r"[\d–?]+(?: \([\d–?, ]+\))?";
/// A quantity, with the other measure in a parenthesis, and those of the other sizes in brackets.
const MEASURE: &str =
    r#"(?:[-–?\d.½¾][-–?\d/. ½¾x×Xincmyds"]*?|WOF)(?: ?\([-\d/. ½¾x×Xincmyds"]+\))?(?: square)?(?: \[[^\]]*\])?"#;
const NOUNS: &str = "square|rectangle|piece|half 60-degree triangle|60-degree triangle|half hexagon|hexagon|60-degree \
                     diamond|45-degree diamond|parallelogram|trapezoid";

fn regex(text: &str) -> Regex {
    let text = text.replace("COUNTS", COUNTS).replace("MEASURE", MEASURE).replace("NOUNS", NOUNS);
    Regex::new(&format!("^(?:{text})$")).unwrap()
}

static STRIPS: LazyLock<Regex> = LazyLock::new(|| {
    regex(
        r"(?:(?<counts>COUNTS) )?strips?(?: (?<width>MEASURE))?(?: x (?<length>MEASURE))?(?<how>, cut lengthwise|, cut on the bias)?(?: \((?<name>.*?)\))?(?:, for (?<use>.*))?",
    )
});
/// Strips whose width and length are both told size by size.
static STRIP_SIZES: LazyLock<Regex> = LazyLock::new(|| {
    regex(
        r"(?:(?<counts>COUNTS) )?strips? (?<sizes>[^\[\]]+ \[[^\]]* x [^\]]*\])(?<rest>(?:, cut lengthwise|, cut on the bias)? \(.*\))",
    )
});
static PIECES: LazyLock<Regex> = LazyLock::new(|| {
    regex(
        r"(?:(?<counts>COUNTS) )?(?<noun>NOUNS)s?(?<before> by template, each from a rectangle|, finished base x height|, finished height|, finished side)? (?<size>MEASURE)(?<each> from each)?(?<rest>(?:,| \().*)?",
    )
});
static MEMBER: LazyLock<Regex> = LazyLock::new(|| {
    let text = r"(?:, | and )(?:(?:COUNTS )?(?:NOUNS)s? )".replace("COUNTS", COUNTS).replace("NOUNS", NOUNS);
    Regex::new(&text).unwrap()
});
static EACH: LazyLock<Regex> = LazyLock::new(|| regex(r"(?<all>.*), (?<counts>COUNTS) from each"));
static FROM: LazyLock<Regex> = LazyLock::new(|| regex(r"(?<piece>.*), from (?<strips>COUNTS strips?(?: x WOF)?)"));
static OTHERS: LazyLock<Vec<(&str, &str, Regex)>> = LazyLock::new(|| {
    let all = [
        (
            "binding",
            "square",
            r"a piece (?<value>MEASURE) for continuous bias \(binding\)(?:, in strips (?<width>MEASURE))?",
        ),
        ("binding", "bias", r"(?<value>MEASURE) of bias \(binding\)(?:, in strips (?<width>MEASURE))?"),
        ("binding", "in strips", r"in strips (?<value>.*)"),
        ("backing", "panels", r"(?<counts>COUNTS) panels? \(backing\)(?:, to run (?<run>.*))?"),
        ("backing", "run", r"to run (?<value>.*?)(?: \(panels of the backing\))?"),
        ("backing", "size", r"backing, in all: (?<value>.*)"),
        ("backing", "insert", r"a strip of another fabric, (?<value>MEASURE) wide, to sew in between the panels"),
        ("backing", "overhang", r"backing, beyond the quilt at each side: (?<value>.*)"),
        ("batting", "overhang", r"batting, beyond the quilt at each side: (?<value>.*)"),
        ("batting", "size", r"batting: (?<value>.*)"),
        (
            "",
            "made",
            r"a piece (?<value>MEASURE) \((?<name>hanging sleeve|pillow back, first piece|pillow back, second piece)\)",
        ),
        ("", "segments", r"segments (?<value>MEASURE) wide \((?<name>.*)\)"),
        ("", "trim", r"trim to (?<value>MEASURE) \((?<name>.*)\)"),
        ("", "part", r"(?<part>[a-z_0-9 ]+): (?<value>MEASURE) \((?<name>.*)\)"),
    ];
    all.map(|(row, what, text)| (row, what, regex(text))).into_iter().collect()
});

/// The words in the name of a row after which a measurement goes that stands in the cells.
static BEFORE_SIZE: LazyLock<Regex> = LazyLock::new(|| {
    let text = "^(strips|panels|(?:NOUNS)s?(?: by template, each from a rectangle|, finished base x height|, finished height|, \
                finished side)?|a piece|a strip of another fabric,|backing, in all|backing, beyond the quilt at each side|\
                batting, beyond the quilt at each side|batting|segments|trim to|to run|in strips|)";
    Regex::new(&text.replace("NOUNS", NOUNS)).unwrap()
});

/// What a step says.
pub(crate) fn step(section: &str, text: &str, numbers: Numbers<'_>) -> Vec<Fact> {
    let mut facts = Facts { section, numbers, found: Vec::new() };
    facts.step(text).unwrap_or_else(|| panic!("no step of the grammar: {text}"));
    facts.found
}

/// What a cell of a table says, with the name of its row. The count, and a measurement that differs from size to size,
/// stand in the cell; with them in their place the name is a step.
pub(crate) fn row_of_table(section: &str, row: &str, size: &str, cell: &str) -> Vec<Fact> {
    let is_count = |text: &str| text.chars().all(|c| c.is_ascii_digit() || c == '?');
    let (count, measure) = match cell.split_once(" of ") {
        Some((count, measure)) if is_count(count) => (Some(count), Some(measure)),
        _ if is_count(cell) => (Some(cell), None),
        _ => (None, Some(cell)),
    };
    let row = row.strip_prefix("subcut ").or(row.strip_prefix("from ")).unwrap_or(row);
    let found = BEFORE_SIZE.find(row).unwrap();
    let (words, rest) = row.split_at(found.end());
    let measure = measure.map(|measure| format!(" {measure}")).unwrap_or_default();
    let words = match words {
        "" if row.ends_with("of bias (binding)") || row.starts_with("of bias") => String::new(),
        "" => row.split(':').next().unwrap().to_string() + ":",
        "backing, in all"
        | "backing, beyond the quilt at each side"
        | "batting, beyond the quilt at each side"
        | "batting" => format!("{words}:"),
        other => other.to_string(),
    };
    let rest = if found.is_empty() { rest.split_once(':').map_or(rest, |(_, rest)| rest) } else { rest };
    let space = if rest.is_empty() || rest.starts_with([',', ' ']) { "" } else { " " };
    let count = count.map(|count| format!("{count} ")).unwrap_or_default();
    let text = format!("{count}{words}{measure}{space}{rest}");
    step(section, text.trim(), Numbers::Of(size))
}

struct Facts<'s> {
    section: &'s str,
    numbers: Numbers<'s>,
    found: Vec<Fact>,
}

impl Facts<'_> {
    fn step(&mut self, text: &str) -> Option<()> {
        if let Some((strips, pieces)) = text.split_once("; subcut ") {
            let names = self.members(pieces)?;
            return self.strips(strips, Some(&names.join(" and ")));
        }
        for (row, what, regex) in OTHERS.iter() {
            if let Some(found) = regex.captures(text) {
                return self.other(row, what, &found);
            }
        }
        if let Some(found) = FROM.captures(text) {
            let name = self.pieces(&found["piece"])?;
            return self.strips(&found["strips"], Some(&name));
        }
        if STRIPS.is_match(text) {
            return self.strips(text, None);
        }
        self.members(text).map(drop)
    }

    /// The pieces that are cut from the same strips; their names.
    fn members(&mut self, text: &str) -> Option<Vec<String>> {
        let mut starts: Vec<(usize, usize)> = vec![(0, 0)];
        for found in MEMBER.find_iter(text) {
            let link = if found.as_str().starts_with(", ") { 2 } else { 5 };
            starts.push((found.start(), found.start() + link));
        }
        let ends = starts.iter().skip(1).map(|(end, _)| *end).chain([text.len()]);
        let members: Vec<&str> = starts.iter().zip(ends).map(|((_, start), end)| &text[*start..end]).collect();
        members.into_iter().map(|member| self.pieces(member)).collect()
    }

    fn strips(&mut self, text: &str, of: Option<&str>) -> Option<()> {
        if let (Some(found), Numbers::Run(sizes)) = (STRIP_SIZES.captures(text), self.numbers) {
            let count = found.name("counts").map_or("", |found| found.as_str());
            let (counts, strips) = (expanded(count, sizes.len())?, expanded(&found["sizes"], sizes.len())?);
            for (place, size) in sizes.iter().enumerate() {
                let text = format!("{} strips {}{}", counts[place], strips[place], &found["rest"]);
                self.found.extend(step(self.section, text.trim(), Numbers::Of(size)));
            }
            return Some(());
        }
        let found = STRIPS.captures(text)?;
        let name = of.or(found.name("use").map(|found| found.as_str()).filter(|_| found.name("name").is_none()));
        let row = name.or(found.name("name").map(|found| found.as_str()))?.to_string();
        let counts = found.name("counts").map(|found| found.as_str());
        let mut values = vec![("strips", counts)];
        for (what, group) in [("strip width", "width"), ("strip length", "length")] {
            values.push((what, found.name(group).map(|found| found.as_str())));
        }
        let how = found.name("how").map(|found| found.as_str().trim_start_matches(", "));
        values.push(("how", how));
        values.push(("for", found.name("use").map(|found| found.as_str()).filter(|_| found.name("name").is_some())));
        self.clause(&row, &values)
    }

    fn pieces(&mut self, text: &str) -> Option<String> {
        let (text, each) = match EACH.captures(text) {
            Some(found) => (found.get(1)?.as_str(), Some(found["counts"].to_string())),
            None => (text, None),
        };
        let found = PIECES.captures(text)?;
        let (details, name, used_for) = after(found.name("rest").map_or("", |found| found.as_str()))?;
        let counts = found.name("counts").map(|found| found.as_str());
        let what = if found.name("each").is_some() { "from each" } else { "pieces" };
        let size = found.name("before").map_or("size", |found| found.as_str().trim_start_matches([',', ' ']));
        let mut values = vec![(what, counts), (size, Some(&found["size"])), ("noun", Some(&found["noun"]))];
        values.extend(details.iter().map(|detail| ("how", Some(detail.as_str()))));
        values.push(("for", used_for.as_deref()));
        self.clause(&name, &values)?;
        if let Some(each) = each {
            self.clause(&name, &[("from each", Some(&each))])?;
        }
        Some(name)
    }

    fn other(&mut self, row: &str, what: &str, found: &Captures<'_>) -> Option<()> {
        let group = |name: &str| found.name(name).map(|found| found.as_str());
        let row = group("name").unwrap_or(row);
        let what = group("part").unwrap_or(what);
        self.clause(row, &[(what, group("counts").or(group("value")))])?;
        for (what, group) in [("run", group("run")), ("in strips", group("width"))] {
            if group.is_some() {
                self.clause(row, &[(what, group)])?;
            }
        }
        Some(())
    }

    /// A clause for each size that states the first of its values.
    fn clause(&mut self, row: &str, values: &[(&str, Option<&str>)]) -> Option<()> {
        let sizes: Vec<String> = match self.numbers {
            Numbers::Run(sizes) => sizes.to_vec(),
            Numbers::Of(size) => vec![size.to_string()],
        };
        let mut each = Vec::new();
        for (what, value) in values.iter().filter_map(|(what, value)| Some((*what, (*value)?))) {
            each.push((what, expanded(value, sizes.len())?));
        }
        let (_, first) = each.first()?;
        for (place, size) in sizes.iter().enumerate().filter(|(place, _)| first[*place] != "–") {
            for (what, values) in each.iter().filter(|(_, values)| values[place] != "–") {
                self.found.push([self.section, row, what, size, &values[place]].map(String::from));
            }
        }
        Some(())
    }
}

/// The values of a run, one for each of so many sizes: `6 (13, 18)`, or `2 in [3 in; 4 in]`.
fn expanded(run: &str, sizes: usize) -> Option<Vec<String>> {
    let is_count = |text: &str| text.chars().all(|c| c.is_ascii_digit() || "–?, ()".contains(c));
    let split = match run.strip_suffix(']').and_then(|run| run.split_once(" [")) {
        Some((first, others)) => Some((first, others.split("; ").collect::<Vec<_>>())),
        None if is_count(run) => run
            .strip_suffix(')')
            .and_then(|run| run.split_once(" ("))
            .map(|(first, others)| (first, others.split(", ").collect())),
        None => None,
    };
    let Some((first, others)) = split else { return Some(vec![run.trim().to_string(); sizes]) };
    let values: Vec<String> = std::iter::once(first).chain(others).map(|value| value.trim().to_string()).collect();
    (values.len() == sizes).then_some(values)
}

/// The details after a size, the name in its parenthesis, and what the piece is for.
fn after(rest: &str) -> Option<(Vec<String>, String, Option<String>)> {
    let (mut details, mut rest) = (Vec::new(), rest);
    while let Some(detail) = rest.strip_prefix(", ").filter(|rest| !rest.starts_with("for ")) {
        let repeat = " from each repeat)";
        let end = if detail.starts_with("each centered on the print (") && detail.contains(repeat) {
            detail.find(repeat)? + repeat.len()
        } else {
            detail.find(", ").into_iter().chain(detail.find(" (")).chain([detail.len()]).min()?
        };
        details.push(detail[..end].to_string());
        rest = &detail[end..];
    }
    let named = rest.strip_prefix(" (")?;
    match named.split_once("), for ") {
        Some((name, used_for)) => Some((details, name.to_string(), Some(used_for.to_string()))),
        None => Some((details, named.strip_suffix(')')?.to_string(), None)),
    }
}
