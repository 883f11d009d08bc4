//! The format as JSON Schema 2020-12, for editors and other programs that read YAML. A schema cannot follow a name to
//! what it names and cannot compare numbers: `sparestrip check` does.

use std::collections::BTreeSet;

use serde_json::{Map, Value, json};

use super::word_list::{left_out, sections};
use crate::manuscript::section::{FOR_THOSE, GoesWith, LeftOut, Row, Section, Shape};
use crate::manuscript::{AFTER, EVERY_SIZE, FORMAT, Keyword, spellings};
use crate::quilt_math::makes::{Make, MakeRow, PartOf, PartRow, Way};
use crate::rule_book::{HOUSE_RULES, HouseLevel, PACKAGED, SIGN_OFF_RULES, Value as BookValue, book};
use crate::rules::sentence;
use crate::text::text_values;

const DIALECT: &str = "https://json-schema.org/draft/2020-12/schema";

/// A number as people write it: digits, a point, a fraction.
const NUMBER: &str = r"[0-9０-９.．⁰¹²³⁴-⁹¼-¾⅐-⅞][0-9０-９.．⁰¹²³⁴-⁹₀-₉/⁄∕／¼-¾⅐-⅞‐‑–\s-]*";

/// The unit after it.
const UNIT: &str = r#"(?:[A-Za-z]+\.?|["″”“＂]|['’‘′]{2})?"#;

/// The longest length, in centimetres, which are the smaller of the two units of a bare number.
const LONGEST: u64 = 5080;

/// The longest name of a size, a fabric and so on.
const LONGEST_NAME: usize = 60;

/// The schema of manuscripts.
pub fn manuscript_schema() -> Value {
    schema("Quilt pattern manuscript", FORMAT, FORMAT.sections())
}

/// The schema of house rules.
pub fn house_rules_schema() -> Value {
    let own = sections().into_iter().filter(|section| section.name == HOUSE_RULES.name);
    schema("House rules", Shape::Table(HOUSE_RULES), own.collect())
}

fn schema(title: &str, root: Shape, sections: Vec<&'static Section>) -> Value {
    let in_part = sections.iter().flat_map(|section| section.rows).flat_map(|row| stated_by_size(row.shape));
    let in_part: Map<String, Value> =
        in_part.map(|section| (definition(section) + IN_PART, section_in_part(section))).collect();
    let mut definitions: Map<String, Value> =
        sections.into_iter().map(|section| (definition(section), section_schema(section))).collect();
    definitions.extend(in_part);
    json!({
        "$schema": DIALECT,
        "title": title,
        "$defs": definitions,
        "allOf": [shape_schema(root)],
    })
}

fn definition(section: &Section) -> String {
    section.name.replace(' ', "_")
}

/// What a size states where the rest stands under `every_size`.
const IN_PART: &str = "_in_part";

/// The sections that may be stated size by size, with what is the same for every size stated once.
fn stated_by_size(shape: Shape) -> Vec<&'static Section> {
    let tables = |shape: &Shape| match shape {
        Shape::Table(section) => Some(*section),
        _ => None,
    };
    match shape {
        Shape::BySize(Shape::Either(shapes)) => shapes.iter().filter_map(tables).collect(),
        Shape::BySize(each) => tables(each).into_iter().collect(),
        Shape::Either(shapes) => shapes.iter().flat_map(|shape| stated_by_size(*shape)).collect(),
        _ => Vec::new(),
    }
}

/// The words of a section, none of which must be there.
fn section_in_part(section: &'static Section) -> Value {
    let properties: Map<String, Value> =
        section.rows.iter().map(|row| (row.word.to_string(), row_schema(row))).collect();
    json!({
        "title": format!("{}, with what stands under every_size", section.heading.replace('`', "")),
        "type": "object",
        "properties": properties,
        "additionalProperties": false,
    })
}

/// The same shape where the rest stands under `every_size`.
fn in_part(shape: Shape) -> Value {
    match shape {
        Shape::Table(section) => json!({ "$ref": format!("#/$defs/{}{IN_PART}", definition(section)) }),
        Shape::Either(shapes) => json!({ "anyOf": shapes.iter().copied().map(in_part).collect::<Vec<_>>() }),
        shape => shape_schema(shape),
    }
}

fn section_schema(section: &'static Section) -> Value {
    let properties: Map<String, Value> =
        section.rows.iter().map(|row| (row.word.to_string(), row_schema(row))).collect();
    let is_required = |row: &&&Row| row.left_out == LeftOut::Required && !matches!(row.goes_with, GoesWith::Makes(_));
    let required: Vec<&str> = section.rows.iter().filter(is_required).map(|row| row.word).collect();
    let mut schema = json!({
        "title": section.heading.replace('`', ""),
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    });
    let conditions = conditions(section);
    if !conditions.is_empty() {
        schema["allOf"] = Value::Array(conditions);
    }
    let needs: Map<String, Value> =
        section.rows.iter().filter_map(|row| Some((row.word.to_string(), json!([row.needs?])))).collect();
    if !needs.is_empty() {
        schema["dependentRequired"] = Value::Object(needs);
    }
    schema
}

fn row_schema(row: &Row) -> Value {
    let mut schema = match row.shape {
        // A list or a table of which nothing is said yet.
        Shape::List(_, 0, _) => json!({ "anyOf": [shape_schema(row.shape), { "type": "null" }] }),
        Shape::Table(section) if section.rows.iter().all(|row| row.left_out != LeftOut::Required) => {
            json!({ "anyOf": [shape_schema(row.shape), { "type": "null" }] })
        }
        shape => shape_schema(shape),
    };
    let left_out = match row.left_out {
        LeftOut::Required => "It must be there.".to_string(),
        _ => format!("Where it is left out: {}.", left_out(row)),
    };
    schema["description"] = json!(format!("{}. {left_out}", sentence(row.says)));
    if let LeftOut::Standard(value) = row.left_out {
        schema["default"] = json!(value);
    }
    schema
}

/// What a word asks of the others beside it.
fn conditions(section: &'static Section) -> Vec<Value> {
    let mut conditions = Vec::new();
    for row in section.rows {
        if let LeftOut::Unless(others, _) = row.left_out {
            let one_of: Vec<Value> =
                [row.word].iter().chain(others).map(|word| json!({ "required": [word] })).collect();
            conditions.push(json!({ "anyOf": one_of }));
        }
        if let GoesWith::Values(word, values) = row.goes_with {
            let then =
                if row.left_out == LeftOut::Said(FOR_THOSE) { json!({ "required": [row.word] }) } else { json!({}) };
            conditions.push(json!({
                "if": { "properties": { word: choice(values) }, "required": [word] },
                "then": then,
                "else": { "properties": { row.word: false } },
            }));
        }
    }
    for row in section.rows {
        let both = row.not_beside.iter().map(|other| json!({ "not": { "required": [row.word, other] } }));
        conditions.extend(both);
    }
    let groups: Vec<&[&str]> = section.groups();
    if !groups.is_empty() {
        let one_of: Vec<Value> = groups.iter().map(|group| group_schema(group, &groups)).collect();
        conditions.push(json!({ "oneOf": one_of }));
    }
    if section.rows.iter().any(|row| matches!(row.shape, Shape::Parts)) {
        conditions.extend(Make::all().map(|make| make_condition(section, make)));
    }
    conditions
}

/// All words of a group, and none of the others.
fn group_schema(group: &[&str], groups: &[&[&str]]) -> Value {
    let others: Map<String, Value> = groups
        .iter()
        .filter(|other| **other != group)
        .flat_map(|other| other.iter().map(|word| ((*word).to_string(), Value::Bool(false))))
        .collect();
    json!({ "required": group, "properties": others })
}

/// What a unit of one make may state, and how its parts are called.
fn make_condition(section: &Section, make: &MakeRow) -> Value {
    let mut properties = Map::new();
    for row in section.rows {
        match (row.goes_with, row.shape) {
            (GoesWith::Makes(goes), _) if !goes(make) => {
                properties.insert(row.word.to_string(), Value::Bool(false));
            }
            (_, Shape::Parts) if !make.is_strip_set() => {
                properties.insert(row.word.to_string(), parts_schema(make.ways));
            }
            (GoesWith::Makes(_), Shape::Choice(_)) if row.word == "method" => {
                let methods: Vec<&str> = make.ways.iter().filter_map(|way| way.method).map(Keyword::word).collect();
                properties.insert(row.word.to_string(), json!({ "enum": methods }));
            }
            _ => {}
        }
    }
    let is_required =
        |row: &&&Row| row.left_out == LeftOut::Required && matches!(row.goes_with, GoesWith::Makes(goes) if goes(make));
    let required: Vec<&str> = section.rows.iter().filter(is_required).map(|row| row.word).collect();
    json!({
        "if": { "properties": { "make": { "const": make.make.word() } }, "required": ["make"] },
        "then": { "properties": properties, "required": required },
    })
}

/// The parts of a make: those that it has in every way in which it is made must be there.
fn parts_schema(ways: &[Way]) -> Value {
    let all = || ways.iter().flat_map(|way| way.parts);
    let known: BTreeSet<String> = all().flat_map(|part| spellings(part.name)).collect();
    let is_always = |part: &&PartRow| part.of == PartOf::Make && ways.iter().all(|way| way.part(part.name).is_some());
    let first = ways.iter().take(1).flat_map(|way| way.parts);
    let names: Vec<&str> = first.filter(is_always).map(|part| part.name).collect();
    let required = |name: &&str| match spellings(name).as_slice() {
        [one] => json!({ "required": [one] }),
        several => {
            json!({ "oneOf": several.iter().map(|name| json!({ "required": [name] })).collect::<Vec<_>>() })
        }
    };
    if known.is_empty() {
        return Value::Bool(false);
    }
    let mut schema = json!({ "propertyNames": { "enum": known } });
    if !names.is_empty() {
        schema["allOf"] = names.iter().map(required).collect::<Vec<_>>().into();
    }
    schema
}

fn shape_schema(shape: Shape) -> Value {
    match shape {
        Shape::Text => json!({ "type": ["string", "number", "boolean", "null"] }),
        Shape::Name(_) => json!({ "type": ["string", "number", "boolean"] }),
        Shape::Length { zero } => number_or(zero, &length()),
        Shape::Amount { zero } => number_or(zero, &amount()),
        Shape::Percent => json!({ "anyOf": [
            { "type": "number", "minimum": 0, "maximum": 50 },
            { "type": "string", "pattern": format!(r"^\s*{NUMBER}\s*%?\s*$") },
        ] }),
        Shape::Bought => {
            let each = any_of(&[Shape::Amount { zero: true }, Shape::Count(0, crate::quantity::Count::MAX.0)]);
            json!({ "anyOf": [each, { "type": "string", "pattern": bought() }] })
        }
        Shape::Count(least, most) => json!({ "anyOf": [
            { "type": "integer", "minimum": least, "maximum": most },
            { "type": "string", "pattern": r"^\s*[0-9]+\s*$" },
        ] }),
        Shape::Dimensions | Shape::Point => json!({ "type": "string", "pattern": dimensions() }),
        Shape::AboutDimensions => {
            let about = dimensions().replacen(r"^\s*", r"^\s*(?:about\s+)?", 1);
            json!({ "type": "string", "pattern": about })
        }
        Shape::SquareOrSides => any_of(&[Shape::Length { zero: false }, Shape::Dimensions]),
        Shape::Choice(words) => choice(words),
        Shape::Table(section) => json!({ "$ref": format!("#/$defs/{}", definition(section)) }),
        Shape::BySize(each) if !stated_by_size(shape).is_empty() => json!({
            "type": "object",
            "propertyNames": { "maxLength": LONGEST_NAME },
            "if": { "required": [EVERY_SIZE] },
            "then": { "additionalProperties": in_part(*each) },
            "else": { "additionalProperties": shape_schema(*each) },
        }),
        Shape::BySize(each) | Shape::Named(each) => json!({
            "type": "object",
            "propertyNames": { "maxLength": LONGEST_NAME },
            "additionalProperties": shape_schema(*each),
        }),
        Shape::List(each, least, most) => json!({
            "type": "array", "items": shape_schema(*each), "minItems": least, "maxItems": most,
        }),
        Shape::Either(shapes) => any_of(shapes),
        Shape::Parts => json!({
            "type": "object",
            "minProperties": 1,
            "additionalProperties": any_of(&[Shape::Name("piece"), Shape::SquareOrSides]),
        }),
        Shape::Levels => levels(),
        Shape::BookValues => book_values(),
        Shape::PackageOfHouse => json!({ "type": "string", "pattern": "^packaged [^ ].*$" }),
    }
}

fn any_of(shapes: &[Shape]) -> Value {
    let words: Vec<&str> =
        shapes.iter().filter_map(table_of).flat_map(|section| section.rows).map(|row| row.word).collect();
    let one = |shape: &Shape| match shape {
        // A table with a word of the section is no table of sizes.
        Shape::BySize(_) if !words.is_empty() => {
            let word = words.iter().map(|word| json!({ "required": [word] })).collect::<Vec<_>>();
            json!({ "allOf": [shape_schema(*shape), { "not": { "anyOf": word } }] })
        }
        shape => shape_schema(*shape),
    };
    json!({ "anyOf": shapes.iter().map(one).collect::<Vec<_>>() })
}

/// The section of a table that a value may be, but for one of sizes.
fn table_of(shape: &Shape) -> Option<&'static Section> {
    match shape {
        Shape::Table(section) => Some(section),
        Shape::Either(shapes) => shapes.iter().find_map(table_of),
        _ => None,
    }
}

fn length() -> String {
    in_both_measures(NUMBER)
}

fn amount() -> String {
    format!(r"^\s*{NUMBER}{UNIT}\s*(?:[(（]\s*{NUMBER}{UNIT}\s*[)）]\s*|[,/⁄∕／]\s*{NUMBER}{UNIT}\s*)?$")
}

/// An amount or a count with a word after it.
fn bought() -> String {
    let words: Vec<&str> = AFTER.iter().map(|(word, _)| *word).collect();
    let second = format!(r"(?:[(（]\s*{NUMBER}{UNIT}\s*[)）]\s*|[,/⁄∕／]\s*{NUMBER}{UNIT}\s*)?");
    let one = format!(r"{NUMBER}{UNIT}\s*{second}");
    let words = words.join("|");
    let named = format!(r"{one}\s*(?:fat (?:quarters?|eighths?)|squares?|strips?)?\s*(?:\s(?:{words}))?");
    format!(r"^\s*(?:{one}\s*(?:\s(?:{words}))?|{named}\s*\sor\s+{named})\s*$")
}

fn dimensions() -> String {
    in_both_measures(&format!(r"{NUMBER}{UNIT}\s*(?:[xX×*✕✖ｘＸ]|[bB][yY])\s*{NUMBER}"))
}

/// The same in one measure, or in both: in brackets, or set apart where each says what it is in.
fn in_both_measures(one: &str) -> String {
    let marked = UNIT.trim_end_matches('?');
    let brackets = format!(r"{one}{UNIT}\s*(?:[(（]\s*{one}{UNIT}\s*[)）]\s*)?");
    format!(r"^\s*(?:{brackets}|{one}{marked}\s*[,/⁄∕／]\s*{one}{marked}\s*)$")
}

fn number_or(zero: bool, pattern: &str) -> Value {
    let least = if zero { "minimum" } else { "exclusiveMinimum" };
    json!({ "anyOf": [{ "type": "number", least: 0, "maximum": LONGEST }, { "type": "string", "pattern": pattern }] })
}

/// One of a few words; some readers of YAML take yes, no and off for true and false.
fn choice(words: &[&str]) -> Value {
    let mut values: Vec<Value> = words.iter().flat_map(|word| spellings(word)).map(|word| json!(word)).collect();
    // And numbers for what they are.
    values.extend(words.iter().filter_map(|word| word.parse::<u64>().ok()).map(|number| json!(number)));
    values.extend(words.contains(&"yes").then_some(Value::Bool(true)));
    values.extend((words.contains(&"no") || words.contains(&"off")).then_some(Value::Bool(false)));
    json!({ "enum": values })
}

fn levels() -> Value {
    let level = |name: &str| {
        let words = if SIGN_OFF_RULES.contains(&name) { &["error"][..] } else { HouseLevel::NAMES };
        choice(words)
    };
    let properties: Map<String, Value> = book().iter().map(|rule| (rule.name.to_string(), level(rule.name))).collect();
    json!({ "type": ["object", "null"], "properties": properties, "additionalProperties": false })
}

fn book_values() -> Value {
    let values = book().iter().flat_map(|page| page.values);
    let schema = |value: &BookValue| match value {
        BookValue::Length(_) => shape_schema(Shape::Length { zero: true }),
        BookValue::Count(_) => shape_schema(Shape::Count(0, crate::quantity::Count::MAX.0)),
        BookValue::Dimensions(_) => shape_schema(Shape::Dimensions),
        BookValue::Words(_) => {
            json!({ "anyOf": [{ "type": "string" }, { "type": "array", "items": { "type": "string" } }] })
        }
    };
    let properties: Map<String, Value> = values
        .map(|value| {
            let mut schema = schema(&value.value);
            schema["description"] = json!(format!("{} Where it is left out: {}.", value.meaning.trim(), value.text));
            (value.name.to_string(), schema)
        })
        .collect();
    let words = json!({ "anyOf": [{ "type": "string" }, { "type": "array", "items": { "type": "string" } }] });
    let text_words = format!("^({})$", text_values().join("|"));
    let packages = json!({ (format!("^{PACKAGED}.+$")): shape_schema(Shape::Dimensions), (text_words): words });
    json!({
        "type": ["object", "null"],
        "properties": properties,
        "patternProperties": packages,
        "additionalProperties": false,
    })
}
