//! The words of the format, all of them: what stands in the table is what the reader asks for, what the reference
//! prints and what the schema allows.

use std::collections::BTreeSet;

use serde_yaml::Value;
use sparestrip::check::check;
use sparestrip::manuscript::section::{GoesWith, LeftOut, Row, Section, Shape};
use sparestrip::manuscript::{FORMAT, Mistake, MistakeKind, Source, read};
use sparestrip::quantity::{Measure, read_amount, read_count, read_dimensions, read_length, read_percent};
use sparestrip::quilt_math::makes::{MAX_LOGS, Make, PartOf, PartRow};
use sparestrip::report::{WRITTEN, house_rules_schema, manuscript_schema, sections};
use sparestrip::rule_book::{HOUSE_RULES, Settings, book, read_house_rules};
use sparestrip::rules::{RULES, SIGN_OFF_RULES};
use sparestrip::sign_off::stated;

use super::{chapter, fenced, manuscripts, paper, printed, sparestrip};

/// A manuscript with every section in it, whose words are left out where they may be.
const EVERY_SECTION: &str = "
pattern: Tide Pool
measure: inch
assumes: { usable_width: 40 }
sizes: { crib: { finished: 36 x 48, outline: { clipped: 6 } } }
binding: { strip_width: 2 1/2, tails: { start: 10, end: 8 }, requires: { crib: { strips: 6 } } }
backing: { requires: { crib: { fabric: 2 3/4 yd } } }
batting: { overhang: { across: 4, down: 4 }, requires: { crib: 44 x 56 } }
fabrics:
  ink:
    requires: { crib: 5 yd }
    cut:
      - { piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }
      - { piece: B, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }
      - { piece: C, strip_width: 4 1/2, strips: { crib: 5 } }
      - { piece: D, strip_width: 4 1/2, strips: { crib: 5 } }
      - { piece: E, strip_width: 6 1/2, strips: { crib: 5 } }
      - { piece: K, size: 2 1/2 x 2 1/2, pieces: { crib: 6 } }
      - { piece: L, strip_width: 2 1/2, strips: { crib: 5 } }
      - { piece: S, size: 2 1/2 x 12 1/2, pieces: { crib: 17 } }
      - { piece: side, size: 4 1/2 x 40 1/2, grain: lengthwise, pieces: { crib: 2 } }
      - strips: { crib: 2 }
        strip_width: 4 1/2
        subcut: [{ piece: G, size: 4 1/2 x 4 1/2, pieces: { crib: 9 } }]
  gold:
    requires: { crib: 1 yd }
    cut:
      - { piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }
      - { piece: B, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }
units:
  corner: { make: half_square_triangle, finished: 3, cut: { first: ink A, second: gold B } }
  geese: { make: flying_geese, finished: 6 x 3 }
  center: { make: patch, finished: 6 }
  side: { make: side_triangle, finished: 12 }
  tip: { make: corner_triangle, finished: 12 }
blocks: { star: { finished: 12, rows: [[corner, geese, corner], [geese turned, center, geese turned]] }, half: { finished: 6 x 12, rows: [[corner], [geese]] } }
layout: { crib: { across: 3, down: 4, blocks: star, sashing: 2, borders: [{ width: { sides: 3, top: 4, bottom: 6 } }] } }
sleeve: { depth: 4, requires: { crib: 8 1/2 x 36 } }
prairie_points: { square: 4, requires: { crib: 60 } }
pillow_back: { requires: { crib: { first: 36 1/2 x 26, second: 36 1/2 x 29 } } }
notions: [a ruler, { notion: buttons, count: 4 }]
accepted: [{ rule: spare-strip, because: the kit packs an extra strip }]
";

fn yaml(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error} in {text}"))
}

/// The section of a table that a value may be.
fn table_of(shape: &Shape) -> Option<&'static Section> {
    match shape {
        Shape::Table(section) => Some(*section),
        Shape::Either(shapes) => shapes.iter().find_map(table_of),
        _ => None,
    }
}

/// The place of each section in a manuscript: the words, names and numbers that lead to it.
fn places(shape: Shape, value: &Value, path: &[String], found: &mut Vec<(&'static Section, Vec<String>)>) {
    let entries: Vec<(String, &Value)> = match value {
        Value::Mapping(entries) => {
            entries.iter().map(|(key, value)| (key.as_str().expect("a word").to_string(), value)).collect()
        }
        Value::Sequence(items) => items.iter().enumerate().map(|(index, item)| (index.to_string(), item)).collect(),
        _ => return,
    };
    if let Some(section) = table_of(&shape).filter(|section| found.iter().all(|(other, _)| other.name != section.name))
    {
        found.push((section, path.to_vec()));
    }
    for (word, value) in entries {
        if let Some((_, under)) = shape.step(&word) {
            places(under, value, &[path, &[word]].concat(), found);
        }
    }
}

/// The table at a place.
fn at<'v>(value: &'v mut Value, path: &[String]) -> &'v mut serde_yaml::Mapping {
    let mut value = value;
    for step in path {
        value = match value {
            Value::Sequence(items) => &mut items[step.parse::<usize>().expect("a place in a list")],
            other => other.get_mut(step.as_str()).expect("an entry"),
        };
    }
    value.as_mapping_mut().expect("a table")
}

/// A word of a section, and a manuscript in which everything stands that it goes with, but not the word itself.
struct Place {
    section: &'static Section,
    row: &'static Row,
    path: Vec<String>,
    around: Value,
}

impl Place {
    fn new(section: &'static Section, row: &'static Row, path: &[String]) -> Place {
        let mut around = yaml(EVERY_SECTION);
        let table = at(&mut around, path);
        match row.goes_with {
            GoesWith::Values(word, values) => _ = table.insert(word.into(), values[0].into()),
            GoesWith::Makes(goes) => {
                let make = Make::all().find(|make| goes(make)).expect("a make");
                *table = yaml(make.example).as_mapping().expect("a table").clone();
            }
            GoesWith::Group(words) => {
                table.clear();
                for word in words {
                    table.insert((*word).into(), yaml(section.row(word).expect("a word").example));
                }
            }
            GoesWith::Anything => {}
        }
        if let Some(other) = row.needs {
            table.insert(other.into(), yaml(section.row(other).expect("a word").example));
        }
        for other in row.not_beside {
            table.remove(*other);
        }
        // What it needs in another table, and what stands beside it only with another value.
        match (section.name, row.word) {
            ("binding requires", "square" | "length") => {
                _ = at(&mut around, &["binding".into()]).insert("grain".into(), "bias".into());
            }
            // What names units or pieces that the example leaves out.
            ("file", "units" | "fabrics") | ("fabrics", "cut") => {
                for word in ["units", "blocks", "layout", "colorways"] {
                    at(&mut around, &[]).remove(word);
                }
            }
            ("binding requires", "flange") => {
                _ = at(&mut around, &["binding".into()]).insert("flange".into(), "2 3/4".into());
            }
            ("backing", "from") => {
                _ = at(&mut around, &["backing".into()]).insert("requires".into(), yaml("{ crib: { panels: 2 } }"));
            }
            ("fabrics", "precut" | "panel_size") => _ = table.insert("requires".into(), yaml("{ crib: 8 }")),
            ("fabrics", "pack" | "from_each") => {
                for (word, value) in [("sold_as", "squares"), ("precut", "5"), ("requires", "{ crib: 8 }")] {
                    table.insert(word.into(), yaml(value));
                }
            }
            ("fabrics", "different") => _ = table.insert("requires".into(), yaml("{ crib: 5 yd in all }")),
            ("cut" | "subcut", "pieces_from_each") => {
                let ink = at(&mut around, &["fabrics".into(), "ink".into()]);
                ink.insert("requires".into(), yaml("{ crib: 5 yd in all }"));
                ink.insert("different".into(), 12.into());
            }
            ("layout", "times") => {
                for word in ["across", "down", "blocks"] {
                    table.remove(word);
                }
                table.insert("rows".into(), yaml("[[6 star], [half, 5 star, half]]"));
            }
            ("blocks", "with") => ["finished", "rows"].into_iter().for_each(|word| _ = table.remove(word)),
            // The side of a shape, or its base and height.
            ("cut", "shape" | "tips") => _ = table.insert("size".into(), yaml("3")),
            ("cut", "height") => _ = table.remove("size"),
            ("cut", "subcut") => {
                table.clear();
                table.insert("strips".into(), yaml("{ crib: 5 }"));
                table.insert("strip_width".into(), yaml("6 1/2"));
                for word in ["units", "blocks", "layout"] {
                    at(&mut around, &[]).remove(word);
                }
            }
            _ => {}
        }
        at(&mut around, path).remove(row.word);
        Place { section, row, path: path.to_vec(), around }
    }

    fn with(&self, word: &str, value: Value) -> Value {
        let mut with = self.around.clone();
        at(&mut with, &self.path).insert(word.into(), value);
        with
    }

    fn with_example(&self) -> Value {
        self.with(self.row.word, yaml(self.row.example))
    }

    fn name(&self) -> String {
        format!("{} of {}", self.row.word, self.section.name)
    }
}

fn every_word() -> Vec<Place> {
    let mut found = Vec::new();
    places(FORMAT, &yaml(EVERY_SECTION), &[], &mut found);
    let names: Vec<&str> = found.iter().map(|(section, _)| section.name).collect();
    for section in FORMAT.sections() {
        assert!(names.contains(&section.name), "the manuscript of this test has no {}", section.name);
    }
    let words = |(section, path): &(&'static Section, Vec<String>)| {
        section.rows.iter().map(|row| Place::new(section, row, path)).collect::<Vec<_>>()
    };
    found.iter().flat_map(words).collect()
}

fn mistakes(value: &Value) -> (String, Vec<Mistake>) {
    let text = serde_yaml::to_string(value).expect("YAML");
    let mistakes = read(&Source::from_text("tide-pool.pattern.yaml", text.clone())).mistakes;
    (text, mistakes)
}

fn json(value: &Value) -> serde_json::Value {
    serde_json::to_value(value).expect("JSON")
}

fn validator() -> jsonschema::Validator {
    jsonschema::validator_for(&manuscript_schema()).expect("a schema")
}

#[track_caller]
fn validates(validator: &jsonschema::Validator, value: &Value, what: &str) {
    let errors: Vec<String> =
        validator.iter_errors(&json(value)).map(|error| format!("{} at {}", error, error.instance_path())).collect();
    assert!(errors.is_empty(), "{what}: {errors:#?}");
}

#[test]
fn every_word_is_read_with_its_example_and_the_schema_allows_it() {
    let validator = validator();
    let words = every_word();
    assert!(words.len() > 80, "only {} words", words.len());
    for place in words {
        let value = place.with_example();
        let (text, mistakes) = mistakes(&value);
        assert!(mistakes.is_empty(), "{}: {mistakes:#?}\n{text}", place.name());
        validates(&validator, &value, &place.name());
    }
}

#[test]
fn every_word_is_asked_for_where_it_may_stand_and_no_other_is() {
    let validator = validator();
    for place in every_word() {
        let value = place.with("qqq", 1.into());
        let (text, mistakes) = mistakes(&value);
        let known = mistakes.iter().find_map(|mistake| match &mistake.what {
            MistakeKind::UnknownWord { word, known, .. } if word == "qqq" => Some(known),
            _ => None,
        });
        let known = known.unwrap_or_else(|| panic!("{}: {mistakes:#?}\n{text}", place.name()));
        assert!(known.contains(&place.row.word), "{} is in the table and is not read: {known:?}", place.name());
        for word in known {
            assert!(place.section.row(word).is_some(), "{word} is read in {} and has no row", place.section.name);
        }
        assert!(!validator.is_valid(&json(&value)), "{}", place.name());
    }
}

#[test]
fn every_word_that_must_be_there_is_missed() {
    let validator = validator();
    let mut missed = 0;
    for place in every_word() {
        let mut value = place.around.clone();
        let others = match place.row.left_out {
            LeftOut::Required => &[],
            LeftOut::Unless(others, _) => others,
            _ => continue,
        };
        for other in others {
            at(&mut value, &place.path).remove(*other);
        }
        missed += 1;
        let (text, mistakes) = mistakes(&value);
        let told = mistakes.iter().any(|mistake| match &mistake.what {
            MistakeKind::MissingEntry { word, example, .. } => {
                let one_of = *word == place.row.word || others.contains(word);
                one_of && example.starts_with(&format!("{word}: "))
            }
            _ => false,
        });
        assert!(told, "{}: {mistakes:#?}\n{text}", place.name());
        assert!(!validator.is_valid(&json(&value)), "{}", place.name());
    }
    assert!(missed > 20, "only {missed} words must be there");
}

#[test]
fn every_word_is_recorded_when_a_manuscript_is_signed_off() {
    let recorded = |value: &Value| stated(&Source::from_text("tide-pool.pattern.yaml", mistakes(value).0));
    for place in every_word() {
        let (before, after) = (recorded(&place.around), recorded(&place.with_example()));
        let new: Vec<&String> = after.keys().filter(|key| !before.contains_key(*key)).collect();
        // What names a list's item is in the words that lead to all of it.
        let word = if place.row.names_item { place.row.example } else { place.row.word };
        let named = new.iter().any(|key| key.contains(word));
        assert!(named, "{}: {new:?}", place.name());
    }
}

#[test]
fn a_word_that_needs_another_or_goes_with_another_is_told_without_it() {
    let validator = validator();
    for place in every_word() {
        let mut value = place.with_example();
        if let Some(other) = place.row.needs {
            at(&mut value, &place.path).remove(other);
        } else {
            match place.row.goes_with {
                GoesWith::Anything => continue,
                GoesWith::Values(word, _) => _ = at(&mut value, &place.path).remove(word),
                GoesWith::Group(words) if words.len() == 1 => continue,
                GoesWith::Group(words) => {
                    let other = words.iter().find(|word| **word != place.row.word).expect("another word");
                    at(&mut value, &place.path).remove(*other);
                }
                GoesWith::Makes(goes) => {
                    let make = Make::all().find(|make| !goes(make)).expect("another make");
                    let table = at(&mut value, &place.path);
                    *table = yaml(make.example).as_mapping().expect("a table").clone();
                    table.insert(place.row.word.into(), yaml(place.row.example));
                }
            }
        }
        let (text, mistakes) = mistakes(&value);
        assert!(!mistakes.is_empty(), "{}\n{text}", place.name());
        assert!(!validator.is_valid(&json(&value)), "{}", place.name());
    }
}

#[test]
fn a_word_beside_another_that_says_the_same_is_told() {
    let validator = validator();
    let mut told = 0;
    for place in every_word() {
        for other in place.row.not_beside {
            let mut value = place.with_example();
            let row = place.section.row(other).expect("a word of the section");
            at(&mut value, &place.path).insert((*other).into(), yaml(row.example));
            let (text, mistakes) = mistakes(&value);
            assert!(!mistakes.is_empty(), "{} beside {other}\n{text}", place.name());
            assert!(!validator.is_valid(&json(&value)), "{} beside {other}", place.name());
            told += 1;
        }
    }
    assert!(told > 15, "only {told} words say what another says");
}

#[test]
fn a_value_of_the_wrong_shape_is_told_and_the_schema_refuses_it() {
    let validator = validator();
    for place in every_word().iter().filter(|place| !matches!(place.row.shape, Shape::Text)) {
        let wrong = match place.row.shape {
            Shape::List(..) => yaml("a word"),
            _ => yaml("[[a, list]]"),
        };
        let value = place.with(place.row.word, wrong);
        let (text, mistakes) = mistakes(&value);
        assert!(!mistakes.is_empty(), "{}\n{text}", place.name());
        assert!(!validator.is_valid(&json(&value)), "{}", place.name());
    }
}

#[test]
fn every_row_says_what_a_reader_needs() {
    let values: BTreeSet<&str> = book().iter().flat_map(|page| page.values).map(|value| value.name).collect();
    for section in sections() {
        let mut words = BTreeSet::new();
        for row in section.rows {
            let name = format!("{} of {}", row.word, section.name);
            assert!(words.insert(row.word), "{name} stands twice");
            assert!(!row.says.is_empty() && !row.example.is_empty() && !row.says.ends_with('.'), "{name}");
            let named = match row.left_out {
                LeftOut::BookValue(value) => vec![value],
                LeftOut::Said(text) => text.split('{').skip(1).map(|rest| rest.split('}').next().unwrap()).collect(),
                LeftOut::Standard(word) => {
                    assert!(allowed(row.shape, word), "{name}: {word}");
                    vec![]
                }
                _ => vec![],
            };
            assert!(named.iter().all(|value| values.contains(value)), "{name}: {named:?} is not in the rule book");
            if let Shape::Choice(words) = row.shape {
                let said = words.iter().filter(|word| row.says.contains(&format!("`{word}`"))).count();
                // Makes and their methods have a table of their own.
                let elsewhere = matches!(row.word, "make" | "method");
                assert_eq!(said, if elsewhere { 0 } else { words.len() }, "{name}: {words:?}");
            }
        }
    }
}

/// Whether a word is one of those that a value may be.
fn allowed(shape: Shape, word: &str) -> bool {
    match shape {
        Shape::Choice(words) => words.contains(&word),
        Shape::Either(shapes) => shapes.iter().any(|shape| allowed(*shape, word)),
        _ => false,
    }
}

#[test]
fn the_reference_prints_every_word_and_every_make() {
    let whole = printed(&["words"]);
    for section in sections() {
        let own = printed(&["words", section.name]);
        assert!(whole.contains(&format!("{}:\n", section.heading)), "{}", section.heading);
        for row in section.rows {
            let starts = format!("{} ", row.word);
            assert!(own.lines().any(|line| line.trim_start().starts_with(&starts)), "{} is not in\n{own}", row.word);
        }
    }
    let makes = printed(&["words", "make"]);
    for make in Make::all() {
        assert!(makes.contains(make.says.split(' ').next().unwrap()), "{make:?}");
        for way in make.ways {
            // Of corners and logs by number, the first and the last are named.
            let is_named = |part: &&PartRow| !matches!(part.of, PartOf::Corner(2 | 3) | PartOf::Log(2..MAX_LOGS));
            for part in way.parts.iter().filter(is_named) {
                assert!(makes.contains(&format!("`{}`", part.name)), "{} is not in\n{makes}", part.name);
            }
        }
    }
    assert!(printed(&["words", "seam"]).contains("In `backing`:"), "a word is found in each of its sections");
    let numbers = printed(&["words", "numbers"]);
    assert!(numbers.contains("2000 in (5080 cm)") && numbers.contains("5/8 yd (60 cm)"), "{numbers}");
}

#[test]
fn a_section_that_is_misspelt_is_told_with_the_nearest() {
    let output = sparestrip(&["words", "bindng"]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("no section and no word bindng. Did you mean binding?"), "{told}");
}

#[test]
fn numbers_are_read_as_the_reference_writes_them() {
    let mut read = 0;
    for (kind, examples) in WRITTEN {
        for number in examples {
            read += 1;
            let measure = Measure::Inch;
            let fault = match kind {
                "length" => read_length(number, measure).err(),
                "amount of fabric" => read_amount(number, measure).err(),
                "size" => read_dimensions(number, measure).err(),
                "count" => read_count(number).err(),
                "percentage" => read_percent(number).err(),
                other => panic!("the reference has a kind of number {other:?}"),
            };
            assert_eq!(fault, None, "{number}");
        }
    }
    assert!(read >= 20, "the reference shows only {read} numbers");
}

#[test]
fn every_make_is_read_with_its_example_in_each_of_its_ways() {
    let validator = validator();
    for make in Make::all() {
        for way in make.ways {
            let mut manuscript = yaml(EVERY_SECTION);
            let mut unit = yaml(make.example);
            if let Some((word, _)) = way.method.and_then(|method| {
                use sparestrip::manuscript::Keyword;
                sparestrip::manuscript::design::Method::WORDS.iter().find(|(_, known)| *known == method)
            }) {
                unit["method"] = (*word).into();
            }
            // Those that not every unit has stand in the example.
            for part in way.parts.iter().filter(|part| part.of == PartOf::Make) {
                unit["cut"][part.name] = part.example.into();
            }
            at(&mut manuscript, &["units".into()]).insert("new".into(), unit);
            let (text, mistakes) = mistakes(&manuscript);
            assert!(mistakes.is_empty(), "{mistakes:#?}\n{text}");
            validates(&validator, &manuscript, make.says);
            // The cut sizes in the examples are right for a seam of 1/4 in.
            let found =
                check(&Source::from_text("tide-pool.pattern.yaml", text.clone()), &Settings::default()).findings;
            let wrong = found.iter().filter(|found| found.message.contains("unit new"));
            assert_eq!(wrong.map(|found| &found.message).collect::<Vec<_>>(), Vec::<&String>::new(), "{text}");
        }
    }
}

/// Short of everything, so that the findings' working goes through every value that could be left out. Each mark
/// stands where a word of one section can be put in.
const SHORT: &str = "
pattern: Tide Pool
measure: inch
assumes: { <assumes> }
sizes: { throw: { finished: 54 x 72, <sizes> } }
binding: { strip_width: 1 5/8, <binding> requires: { throw: { strips: 1, fabric: 1 in } } }
backing: { <backing> requires: { throw: { fabric: 1 in } } }
batting: { <batting> requires: { throw: 9 x 9 } }
sleeve: { depth: 4, <sleeve> requires: { throw: 9 x 9 } }
prairie_points: { square: 4, <prairie_points> requires: { throw: 9 } }
pillow_back: { <pillow_back> requires: { throw: { first: 54 1/2 x 9, second: 54 1/2 x 9 } } }
fabrics:
  ink: { <fabrics> requires: { throw: 1 in }, cut: [ { piece: A, size: 3 x 9, <cut> pieces: { throw: 9 } } ] }
units: { half: { make: half_square_triangle, finished: 3, <units> cut: { first: 3, second: 3 } } }
blocks: { star: { finished: 3, rows: [[half]] } }
layout: { throw: { across: 9, down: 9, blocks: star, sashing: 1, <layout> borders: [ { width: 1, <borders> } ] } }
";

/// The short manuscript with an entry put in where a section's mark stands.
fn short_with(section: &str, entry: &str) -> String {
    let mut text = SHORT.to_string();
    for name in sections().iter().map(|section| section.name) {
        text = text.replace(&format!("<{name}>"), if name == section { entry } else { "" });
    }
    text
}

/// The findings without their places, which another line in the file moves.
fn findings(text: &str) -> Vec<[String; 3]> {
    let outcome = check(&Source::from_text("tide-pool.pattern.yaml", text), &Settings::default());
    let mut told: Vec<_> =
        outcome.findings.into_iter().map(|found| [found.rule.to_string(), found.message, found.help]).collect();
    told.sort();
    told
}

/// The value that holds where a word is left out, where it is one value: `double`, or that of {opening}.
fn standard(row: &Row) -> Option<String> {
    let value =
        |name: &str| book().iter().flat_map(|page| page.values).find(|value| value.name == name).expect("a value");
    match row.left_out {
        LeftOut::Standard(word) => Some(word.to_string()),
        LeftOut::BookValue(name) => Some(value(name).text.to_string()),
        LeftOut::Said(text) => match text.chars().next()? {
            '`' => text.split('`').nth(1).map(str::to_string),
            '{' => Some(value(text[1..].split('}').next()?).text.to_string()),
            _ => None,
        },
        _ => None,
    }
}

#[test]
fn stating_the_standard_value_changes_nothing() {
    let left_out = findings(&short_with("", ""));
    for rule in [
        "binding-short",
        "fold-barely-covers",
        "backing-short",
        "batting-short",
        "sleeve-wrong",
        "prairie-points-short",
        "pillow-back-short",
        "fabric-short",
        "seam-left-out",
        "finished-size-wrong",
    ] {
        assert!(left_out.iter().any(|found| found[0] == rule), "{rule} is not in {left_out:#?}");
    }
    let mut stated = 0;
    for section in FORMAT.sections() {
        for row in section.rows {
            let Some(standard) = standard(row) else { continue };
            assert!(SHORT.contains(&format!("<{}>", section.name)), "there is no mark for {}", section.name);
            stated += 1;
            let text = short_with(section.name, &format!("{}: {standard},", row.word));
            assert_eq!(findings(&text), left_out, "{} with {}: {standard}", section.name, row.word);
        }
    }
    assert!(stated >= 26, "only {stated} words have a standard value");
}

#[test]
fn right_manuscripts_validate() {
    let validator = validator();
    validates(&validator, &yaml(EVERY_SECTION), "every section");
    for page in book() {
        validates(&validator, &yaml(&page.passes.text()), page.name);
    }
    for name in ["manuscript", "design"] {
        validates(&validator, &yaml(fenced(&chapter(name), "yaml")[0]), name);
    }
    for path in ["example-patterns", "example-patterns/signed-off"].into_iter().flat_map(manuscripts) {
        let source =
            Source::from_text("example", paper(path.strip_prefix(super::project()).unwrap().to_str().unwrap()));
        validates(&validator, &yaml(&source.text), &path.to_string_lossy());
    }
}

/// In every way in which they may be typed.
#[test]
fn numbers_and_words_validate_as_they_are_read() {
    let validator = validator();
    let validates = |word: &str, from: &str, to: &str| {
        assert!(EVERY_SECTION.contains(from));
        let value = yaml(&EVERY_SECTION.replacen(from, to, 1));
        let (text, mistakes) = mistakes(&value);
        assert!(mistakes.is_empty(), "{to}: {mistakes:#?}\n{text}");
        validates(&validator, &value, word);
    };
    for width in ["2–1/2", "\"2 1/2''\"", "2½-inch", "２．５ in", "2 ¹⁄₂", "0.2 ft", "2 1/2”"] {
        validates(width, "strip_width: 2 1/2", &format!("strip_width: {width}"));
    }
    for amount in ["2 3/4 yd / 250 cm", "\"2 3/4 yd, 250 cm\"", "2 3/4 y （2.5 m）", "2¾yds/250cm"] {
        validates(amount, "fabric: 2 3/4 yd", &format!("fabric: {amount}"));
    }
    for size in ["36 by 48", "36 * 48", "\"36'' x 48''\"", "３６ｘ４８", "3 ft BY 4 ft"] {
        validates(size, "finished: 36 x 48", &format!("finished: {size}"));
    }
    for corners in ["mitered", "mitred"] {
        let borders = "borders: [{ width: { sides: 3, top: 4, bottom: 6 } }]";
        validates(corners, borders, &format!("borders: [{{ width: 4, corners: {corners} }}]"));
    }
    for part in ["center", "centre"] {
        let unit = format!(
            "lamp: {{ make: square_in_a_square, method: stitch_and_flip, finished: 4, cut: {{ {part}: 4 1/2, corner: 2 1/2 }} }}"
        );
        validates(part, "  side: {", &format!("  {unit}\n  side: {{"));
    }
}

/// What is the same for every size may stand once, and one value may be one for each size.
#[test]
fn what_every_size_shares_validates_as_it_is_read() {
    let validator = validator();
    let validates = |from: &str, to: &str| {
        assert!(EVERY_SECTION.contains(from), "{from}");
        let value = yaml(&EVERY_SECTION.replacen(from, to, 1));
        let (text, mistakes) = mistakes(&value);
        assert!(mistakes.is_empty(), "{to}: {mistakes:#?}\n{text}");
        validates(&validator, &value, to);
    };
    validates(
        "layout: { crib: { across: 3, down: 4, blocks: star,",
        "layout: { crib: { across: 3 }, every_size: { down: 4, blocks: star,",
    );
    validates("strip_width: 2 1/2, tails", "strip_width: { crib: 2 1/2 in (6.4 cm) }, tails");
    validates("size: 3 1/2 x 3 1/2", "size: { every_size: 3 1/2 x 3 1/2 in (8.9 x 8.9 cm) }");
    validates("{ crib: { fabric: 2 3/4 yd } }", "{ every_size: { panels_run: along }, crib: { fabric: 2 3/4 yd } }");
    validates("pieces: { crib: 6 }", "pieces: { every_size: 6 }");
}

#[test]
fn faults_of_structure_do_not_validate() {
    let validator = validator();
    for rule in ["missing-entry", "unknown-word", "unreadable-quantity", "wrong-shape"] {
        let page = book().iter().find(|page| page.name == rule).expect("a rule");
        assert!(!validator.is_valid(&json(&yaml(&page.fails.text()))), "{rule}");
    }
}

#[test]
fn house_rules_validate_and_are_read() {
    let validator = jsonschema::validator_for(&house_rules_schema()).expect("a schema");
    let reads = |text: &str| read_house_rules(&Source::from_text("house-rules.yaml", text)).mistakes.is_empty();
    let agree = |text: &str, right: bool| {
        assert_eq!((validator.is_valid(&json(&yaml(text))), reads(text)), (right, right), "{text}");
    };
    agree(fenced(&chapter("house-rules"), "yaml")[0], true);
    agree("values: { packaged_throw: 60 x 60 }", true);
    agree("values: { packaged_throw: 60 }", false);
    agree("values: { packaged_: 60 x 60 }", false);
    for row in HOUSE_RULES.rows {
        agree(&format!("{}: {}", row.word, row.example), true);
        agree(&format!("{}: [[1]]", row.word), false);
    }
    for value in book().iter().flat_map(|page| page.values) {
        let (name, written) = (value.name, value.text);
        if written.contains(", ") {
            // A comma would end a value without quotes.
            agree(&format!("values: {{ {name}: \"{written}\" }}"), true);
            agree(&format!("values: {{ {name}: [{written}] }}"), true);
            agree(&format!("values: {{ {name}: {{ many: words }} }}"), false);
            continue;
        }
        agree(&format!("values: {{ {name}: {written} }}"), true);
        agree(&format!("values: {{ {name}: many }}"), false);
    }
    for rule in RULES {
        agree(&format!("levels: {{ {}: error }}", rule.name), true);
        agree(&format!("levels: {{ {}: query }}", rule.name), !SIGN_OFF_RULES.contains(&rule.name));
    }
    for wrong in ["qqq: 1", "levels: { qqq: off }", "values: { qqq: 1 }", "levels: { hollow-edge: qqq }"] {
        agree(wrong, false);
    }
}

#[test]
fn the_schema_is_printed_the_same_every_time_and_names_its_dialect() {
    let once = printed(&["schema"]);
    assert_eq!(once, printed(&["schema", "manuscript"]));
    let schema: serde_json::Value = serde_json::from_str(&once).expect("JSON");
    assert_eq!(schema, manuscript_schema());
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    let house: serde_json::Value = serde_json::from_str(&printed(&["schema", "house-rules"])).expect("JSON");
    assert_eq!(house, house_rules_schema());
}
