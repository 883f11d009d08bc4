//! README.md names every word of the format, with the value that holds where it is left out.

use std::collections::BTreeSet;

use sparestrip::check::check;
use sparestrip::manuscript::{Mistake, Source, What, read};
use sparestrip::quantity::{Measure, read_amount, read_count, read_dimensions, read_length};
use sparestrip::rule_book::{Settings, book, read_house_rules};

use super::{fenced, in_backticks, paper, section, sparestrip, support};

/// A manuscript with a word in every table, and for every choice, that the format cannot know.
const UNKNOWN_EVERYWHERE: &str = "
pattern: Tide Pool
measure: inch
qqq: 1
assumes: { qqq: 1 }
sizes: { throw: { finished: 54 x 72, for: qqq, qqq: 1, outline: { clipped: 6, qqq: 1 } }, mat: { finished: 9 x 9, outline: qqq } }
binding:
  strip_width: 2 1/2
  qqq: 1
  fold: qqq
  loft: qqq
  join: qqq
  grain: qqq
  finish: qqq
  sewn_first_to: qqq
  tails: { start: 10, end: 10, qqq: 1 }
  requires: { throw: { strips: 8, qqq: 1 }, mat: { strips: 2 } }
backing:
  directional: qqq
  qqq: 1
  requires: { throw: { fabric: 4 1/2 yd, panels_run: qqq, qqq: 1 }, mat: 1 yd }
batting:
  qqq: 1
  requires: { throw: qqq, mat: 17 x 17 }
fabrics:
  ink:
    directional: qqq
    sold_as: qqq
    qqq: 1
    requires: { throw: 1 yd, mat: 1 yd }
    cut: [ { piece: A, size: 3 x 3, grain: qqq, qqq: 1, pieces: { throw: 1, mat: 1 } } ]
units:
  any: { make: qqq, method: qqq, finished: 3 }
  half: { make: half_square_triangle, method: qqq, finished: 3, qqq: 1, cut: { first: A, second: A, qqq: A } }
  geese: { make: flying_geese, method: qqq, finished: 4 x 2, cut: { goose: A, sky: A, qqq: A } }
  lamp: { make: square_in_a_square, method: qqq, finished: 6, cut: { centre: A, corner: A, qqq: A } }
  plain: { make: patch, finished: 6, cut: { patch: A, qqq: A } }
  side: { make: side_triangle, finished: 6, cut: { square: A, qqq: A } }
  rail: { make: strip_set, finished: 6, qqq: 1 }
blocks:
  star: { finished: 6, qqq: 1, rows: [[plain]] }
layout:
  throw:
    set: qqq
    across: 9
    down: 12
    blocks: star
    qqq: 1
    sashing: 1
    sashing_round: qqq
    cornerstones: qqq
    borders: [ { width: 1, corners: qqq, pieced: qqq, join: qqq, qqq: 1 } ]
accepted: [ { rule: spare-strip, because: the kit, qqq: 1 } ]
";

/// The same for what only binding on the bias has.
const UNKNOWN_ON_THE_BIAS: &str = "
pattern: Tide Pool
measure: inch
sizes: { throw: { finished: 54 x 72 } }
binding: { strip_width: 2 1/2, grain: bias, requires: { throw: { square: 30, qqq: 1 } } }
";

fn known_words(mistakes: &[Mistake]) -> BTreeSet<&'static str> {
    let known = mistakes.iter().filter_map(|mistake| match &mistake.what {
        What::UnknownWord { known, .. } => Some(known),
        _ => None,
    });
    known.flatten().copied().collect()
}

/// The rows of the tables of a text, cell by cell, without the heads.
fn rows(text: &str) -> Vec<Vec<&str>> {
    let lines = text.lines().filter(|line| line.starts_with("| `"));
    lines.map(|line| line.trim_matches('|').split('|').map(str::trim).collect()).collect()
}

#[test]
fn every_word_of_the_format_is_named() {
    let mut known = BTreeSet::new();
    for text in [UNKNOWN_EVERYWHERE, UNKNOWN_ON_THE_BIAS] {
        let mistakes = read(&Source::from_text("tide-pool.pattern.yaml", text)).mistakes;
        let unknown = mistakes.iter().filter(|mistake| matches!(mistake.what, What::UnknownWord { .. }));
        assert_eq!(unknown.count(), text.matches("qqq").count(), "{mistakes:#?}");
        known.extend(known_words(&mistakes));
    }
    let readme = paper("README.md");
    let text = section(&readme, "### Every word", "## The rules");
    let named: BTreeSet<&str> = in_backticks(text).into_iter().collect();
    let missing: Vec<_> = known.iter().filter(|word| !named.contains(*word)).collect();
    assert!(missing.is_empty(), "README.md does not name {missing:?}");
    for row in rows(text).iter().filter(|row| row.len() == 3) {
        for word in in_backticks(row[0]) {
            assert!(known.contains(word), "README.md names {word}, which the format has not");
        }
    }
}

#[test]
fn every_word_of_house_rules_is_named() {
    let house = read_house_rules(&Source::from_text("house-rules.yaml", "qqq: 1\nlevels: { hollow-edge: qqq }\n"));
    let known = known_words(&house.mistakes);
    assert!(known.contains("levels") && known.contains("off"), "{known:?}");
    let readme = paper("README.md");
    let text = section(&readme, "## House rules", "## The worksheet");
    for word in known {
        assert!(
            text.contains(&format!("{word}:")) || text.contains(&format!("`{word}`")),
            "README.md does not name {word}"
        );
    }
}

/// The value that README.md gives a word that is left out, where it gives one: `double`, or that of *opening*.
fn standard(cell: &str) -> Option<String> {
    if cell.starts_with('`') {
        return in_backticks(cell).first().map(ToString::to_string);
    }
    let name = cell.strip_prefix('*')?.split('*').next()?;
    let value = book().iter().flat_map(|page| &page.values).find(|value| value.name == name);
    Some(value.unwrap_or_else(|| panic!("the rule book has no value {name}")).value.clone())
}

#[test]
fn the_values_that_readme_gives_are_those_of_the_rule_book() {
    let readme = paper("README.md");
    let text = section(&readme, "### Every word", "### Numbers");
    let values = book().iter().flat_map(|page| &page.values);
    let mut told = 0;
    for value in values {
        for (_, after) in
            text.match_indices(&format!("*{}*, ", value.name)).map(|(at, found)| (at, &text[at + found.len()..]))
        {
            told += 1;
            assert!(after.starts_with(&value.value), "{} is {}, not {}", value.name, value.value, &after[..10]);
        }
    }
    assert_eq!(told, text.matches("*, ").count(), "README.md names a value that the rule book has not");
}

/// Short of everything, so that the findings' working goes through every value that could be left out. Each mark
/// stands where a word of one table of README.md can be put in.
const SHORT: &str = "
pattern: Tide Pool
measure: inch
assumes: { <assumes> }
sizes: { throw: { finished: 54 x 72, <sizes> } }
binding: { strip_width: 1 5/8, <binding> requires: { throw: { strips: 1, fabric: 1 in } } }
backing: { <backing> requires: { throw: { fabric: 1 in } } }
batting: { <batting> requires: { throw: 9 x 9 } }
fabrics:
  ink: { <fabrics> requires: { throw: 1 in }, cut: [ { piece: A, size: 3 x 9, <cut> pieces: { throw: 9 } } ] }
units: { half: { make: half_square_triangle, finished: 3, <units> cut: { first: 3, second: 3 } } }
blocks: { star: { finished: 3, rows: [[half]] } }
layout: { throw: { across: 9, down: 9, blocks: star, sashing: 1, <layout> borders: [ { width: 1, <borders> } ] } }
";

/// The tables of README.md that give standard values, each from its heading to what follows it.
const TABLES: [(&str, &str, &str); 10] = [
    ("assumes", "In `assumes`:", "In each of"),
    ("sizes", "In each of the `sizes`:", "An `outline`"),
    ("binding", "In `binding`:", "In `tails`"),
    ("backing", "In `backing`:", "For each size"),
    ("batting", "In `batting`:", "In each of"),
    ("fabrics", "In each of the `fabrics`:", "In each piece"),
    ("cut", "In each piece of `cut`:", "In each of the `units`:"),
    ("units", "In each of the `units`:", "Each `make`"),
    ("layout", "In `layout`, for each size", "In each of the `borders`:"),
    ("borders", "In each of the `borders`:", "### Numbers"),
];

/// The short manuscript with an entry put in where a table's mark stands.
fn short_with(table: &str, entry: &str) -> String {
    let put_in = |text: String, (mark, _, _): &(&str, &str, &str)| {
        text.replace(&format!("<{mark}>"), if *mark == table { entry } else { "" })
    };
    TABLES.iter().fold(SHORT.to_string(), put_in)
}

/// The findings without their places, which another line in the file moves.
fn findings(text: &str) -> Vec<[String; 3]> {
    let outcome = check(&Source::from_text("tide-pool.pattern.yaml", text), &Settings::default());
    let mut told: Vec<_> =
        outcome.findings.into_iter().map(|found| [found.rule.to_string(), found.message, found.help]).collect();
    told.sort();
    told
}

#[test]
fn stating_what_readme_gives_as_standard_changes_nothing() {
    let readme = paper("README.md");
    let left_out = findings(&short_with("", ""));
    for rule in [
        "binding-short",
        "fold-barely-covers",
        "backing-short",
        "batting-short",
        "fabric-short",
        "seam-left-out",
        "finished-size-wrong",
    ] {
        assert!(left_out.iter().any(|found| found[0] == rule), "{rule} is not in {left_out:#?}");
    }
    let mut stated = 0;
    for (table, from, to) in TABLES {
        for row in rows(section(&readme, from, to)) {
            let word = row[0].trim_matches('`');
            let Some(standard) = standard(row[2]) else { continue };
            stated += 1;
            let text = short_with(table, &format!("{word}: {standard},"));
            assert_eq!(findings(&text), left_out, "{table} with {word}: {standard}");
        }
    }
    assert_eq!(stated, 27, "README.md gives a standard value for another number of words than it did");
}

#[test]
fn the_manuscript_in_readme_is_right() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "## The manuscript", "## The rules"), "yaml")[0];
    let outcome = check(&Source::from_text("tide-pool.pattern.yaml", text), &Settings::default());
    assert!(outcome.findings.is_empty(), "{:#?}", outcome.findings);
    assert_eq!(outcome.accepted.len(), 1);
}

#[test]
fn the_design_in_readme_is_right_and_all_of_it_is_checked() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "### From the design", "### Every word"), "yaml")[0];
    let (_file, path) = support::folder_with("sand-star.pattern.yaml", text);
    let ran = sparestrip(&["check", "--strict", "--account", &path.to_string_lossy()]);
    assert_eq!(String::from_utf8_lossy(&ran.stdout), "1 manuscript: nothing to mend\n");
}

#[test]
fn the_house_rules_in_readme_are_right() {
    let readme = paper("README.md");
    let text = fenced(section(&readme, "## House rules", "## The worksheet"), "yaml")[0];
    let house = read_house_rules(&Source::from_text("house-rules.yaml", text));
    assert!(house.mistakes.is_empty(), "{:#?}", house.mistakes);
    assert_ne!(house.settings, Settings::default());
}

#[test]
fn numbers_are_read_as_readme_writes_them() {
    let readme = paper("README.md");
    let text = section(&readme, "<!-- numbers -->", "<!-- end -->");
    let mut read = 0;
    for line in text.lines() {
        for number in in_backticks(line) {
            read += 1;
            let measure = Measure::Inch;
            let fault = match line.split('|').nth(1).map(str::trim) {
                Some("length") => read_length(number, measure).err(),
                Some("amount of fabric") => read_amount(number, measure).err(),
                Some("size") => read_dimensions(number, measure).err(),
                Some("count") => read_count(number).err(),
                other => panic!("README.md has a kind of number {other:?}"),
            };
            assert_eq!(fault, None, "{number}");
        }
    }
    assert!(read >= 20, "README.md shows only {read} numbers");
}
