//! A publisher's own settings: `house-rules.yaml`, the nearest one up the folders from a manuscript.

use super::book::book;
use super::list::SIGN_OFF_RULES;
use super::settings::{PACKAGED, Settings, TEXT_WORDS};
use super::value::{Value, WordList};
use crate::finding::Level;
use crate::keywords::keywords;
use crate::manuscript::declared_names::DeclaredNames;
use crate::manuscript::kinds::OneOf;
use crate::manuscript::model::MeasureWord;
use crate::manuscript::reader::{Bound, Reader};
use crate::manuscript::section::LeftOut::{Said, Standard};
use crate::manuscript::section::{Section, Shape};
use crate::manuscript::section_words::{SectionWords, section};
use crate::manuscript::table::Table;
use crate::manuscript::tree::{Entry, Node};
use crate::manuscript::{Field, Mistake, MistakeKind, Source, Spanned, with_tree};
use crate::quantity::Measure;
use crate::quilt_math::rectangle::Rectangle;
use crate::text::text_values;

/// The file's name.
pub const HOUSE_RULES_FILE: &str = "house-rules.yaml";

/// What a house-rules file says.
#[derive(Debug)]
pub struct HouseRules {
    /// The rule book with the house's own levels and values in it.
    pub settings: Settings,
    /// What is wrong with the file. The entries that could be read are in force all the same.
    pub mistakes: Vec<Mistake>,
}

keywords!(
    /// A level as house rules write it.
    HouseLevel {
        /// A reader would run short, has nothing to spare, or cannot sew it.
        Error = "error",
        /// Ask the writer.
        Query = "query",
        /// Worth knowing.
        Note = "note",
        /// The house does without the rule.
        Off = "off",
    }
);

section!(
    /// What house rules may say.
    struct HouseWords, "house rules", "The file `house-rules.yaml`", "";
    words {
        measure: Field<MeasureWord> = OneOf<MeasureWord>, Standard("inch"),
            "what a number without a unit is in: `inch` or `cm`", "inch";
    }
    by_hand {
        levels = Shape::Levels, Said("those of the rule book"),
            "for a rule by its name its level: `error`, `query`, `note`, or `off` for a house that does without it",
            "{ join-near-corner: off, no-squaring-room: error }";
        values = Shape::BookValues, Said("those of the rule book"), "for a value by its name what it is for this house; a name that begins with `packaged_` may be added, such as \
             `packaged_throw: 60 x 60` for `packaged throw`; one that begins with `text_` adds words by which printed texts \
             are read, such as `text_strip: [ribbon]` for what are strips", "{ usable_width: 42, spare_strips: 2 }";
    }
    besides {}
);

/// The words of house rules.
pub const HOUSE_RULES: &Section = HouseWords::SECTION;

/// Reads house rules over the rule book.
pub fn read_house_rules(source: &Source) -> HouseRules {
    with_tree(source, read_file)
}

fn read_file(mut reader: Reader, tree: Option<&Node<'_>>, whole: bool) -> HouseRules {
    let mut settings = Settings::default();
    let table = tree
        .and_then(|tree| Table::new(&mut reader, "the house rules", tree.at, tree, "levels: { hollow-edge: query }"));
    if let Some(mut table) = table {
        let words = HouseWords::read_words(&mut table, &mut reader, &DeclaredNames::default());
        if words.measure.value() == Some(MeasureWord::Cm) {
            reader.measure = Measure::Cm;
        }
        if let Some(entry) = table.entry(HouseWords::levels) {
            read_levels(&mut reader, &mut settings, entry);
        }
        if let Some(entry) = table.entry(HouseWords::values) {
            read_values(&mut reader, &mut settings, entry);
        }
        table.finish(&mut reader, whole);
    }
    HouseRules { settings, mistakes: reader.into_mistakes() }
}

fn read_levels(reader: &mut Reader, settings: &mut Settings, entry: &Entry<'_>) {
    let Some(mut table) = Table::new(reader, "levels", entry.key_at, &entry.value, "hollow-edge: query") else {
        return;
    };
    for rule in book() {
        let level = table.optional(rule.name, |node| reader.word::<HouseLevel>(node, rule.name));
        if let Some(Spanned { value: level, at }) = level.stated() {
            if SIGN_OFF_RULES.contains(&rule.name) && *level != HouseLevel::Error {
                let why =
                    format!("\"{}\" is always an error: only a check that asks for sign-offs finds it", rule.name);
                reader.report(*at, MistakeKind::CannotBe { why, mend: "Take this line out of the house rules" });
                continue;
            }
            let level = match level {
                HouseLevel::Error => Some(Level::Error),
                HouseLevel::Query => Some(Level::Query),
                HouseLevel::Note => Some(Level::Note),
                HouseLevel::Off => None,
            };
            settings.set_level(rule.name, level);
        }
    }
    table.finish(reader, true);
}

fn read_values(reader: &mut Reader, settings: &mut Settings, entry: &Entry<'_>) {
    let Some(mut table) = Table::new(reader, "values", entry.key_at, &entry.value, "usable_width: 42 in") else {
        return;
    };
    for known in book().iter().flat_map(|page| page.values) {
        let name = known.name;
        let value = table.optional(name, |node| match known.value {
            Value::Length(_) => reader.length(node, Bound::NonNegative).map(|written| Value::Length(written.length)),
            Value::Count(_) => reader.count(node).map(Value::Count),
            Value::Dimensions(_) => reader
                .dimensions(node)
                .map(|(width, length)| Value::Dimensions(Rectangle::new(width.length, length.length))),
            Value::Words(_) => reader.words(node).map(|words| Value::Words(WordList::of_house(words))),
        });
        if let Some(value) = value.stated() {
            settings.set_value(name, value.value.clone());
        }
    }
    for entry in table.beginning_with(PACKAGED) {
        let sheet = reader.dimensions(&entry.value);
        let name = entry.key.trim_start_matches(PACKAGED).replace('_', " ");
        if let Some((width, length)) = sheet.value() {
            settings.set_package(&name, Rectangle::new(width.length, length.length));
        }
    }
    if table.has_beginning_with(TEXT_WORDS) {
        for name in text_values() {
            let words = table.optional(name, |node| reader.words(node));
            if let Some(words) = words.stated() {
                settings.set_text_words(name.trim_start_matches(TEXT_WORDS), words.value.clone());
            }
        }
    }
    table.finish(reader, true);
}
