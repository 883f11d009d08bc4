//! The sections of a manuscript: its words at the top, and each fabric by its name.

use crate::manuscript::tree::{Entry, Kind};
use crate::manuscript::{Source, Span, with_tree};

/// The word under which fabrics stand, each of which is a section of its own.
const FABRICS: &str = "fabrics";

/// One section of a manuscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// The word at the top that it stands under.
    pub word: String,
    /// The name of the fabric, where it is one.
    pub fabric: Option<String>,
    /// Where it stands, its word included.
    pub at: Span,
}

impl Section {
    /// What it is called: the fabric's name, or the word.
    pub fn name(&self) -> &str {
        self.fabric.as_deref().unwrap_or(&self.word)
    }

    /// The name as a heading: `Fabric ink`, `Prairie points`.
    pub fn heading(&self) -> String {
        if let Some(fabric) = &self.fabric {
            return format!("Fabric {fabric}");
        }
        let words = self.word.replace('_', " ");
        let mut letters = words.chars();
        letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
    }
}

/// The sections in the order of the manuscript.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sections(Vec<Section>);

impl Sections {
    /// The sections of a text; none where it is no table.
    pub fn of(source: &Source) -> Sections {
        with_tree(source, |_, tree, _| {
            let entries = match tree.map(|tree| tree.kind) {
                Some(Kind::Table(entries)) => entries,
                _ => &[],
            };
            Sections(entries.iter().flat_map(sections_of).collect())
        })
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &Section> {
        self.0.iter()
    }

    /// The number of the section that a place is in.
    pub fn index(&self, at: Span) -> Option<usize> {
        let after = self.0.partition_point(|section| section.at.start <= at.start);
        let index = after.checked_sub(1)?;
        (at.start < self.0[index].at.end.max(self.0[index].at.start + 1)).then_some(index)
    }

    /// The section of a number.
    pub fn get(&self, index: usize) -> Option<&Section> {
        self.0.get(index)
    }

    /// The section that a place is in.
    pub fn section(&self, at: Span) -> Option<&Section> {
        self.index(at).and_then(|index| self.0.get(index))
    }
}

/// An entry at the top as a section; where it is the fabrics, one for each of them.
fn sections_of(entry: &Entry<'_>) -> Vec<Section> {
    let whole = |entry: &Entry<'_>| Span::new(entry.key_at.start, entry.value.at.end.max(entry.key_at.end));
    match &entry.value.kind {
        Kind::Table(fabrics) if entry.key == FABRICS && !fabrics.is_empty() => fabrics
            .iter()
            .map(|fabric| Section {
                word: entry.key.to_string(),
                fabric: Some(fabric.key.to_string()),
                at: whole(fabric),
            })
            .collect(),
        _ => vec![Section { word: entry.key.to_string(), fabric: None, at: whole(entry) }],
    }
}

#[cfg(test)]
mod tests {
    use super::Sections;
    use crate::manuscript::{Source, Span};

    #[test]
    fn each_place_is_in_the_section_whose_words_stand_around_it() {
        let text = "pattern: P\nfabrics:\n  ink: { requires: 1 yd }\n  foam:\n    cut: []\nbinding: { fold: double }\n";
        let sections = Sections::of(&Source::from_text("x.pattern.yaml", text));
        let at = |words: &str| {
            let start = text.find(words).unwrap();
            sections.section(Span::new(start, start + words.len())).map(super::Section::heading)
        };
        assert_eq!(at("P\n").as_deref(), Some("Pattern"));
        assert_eq!(at("1 yd").as_deref(), Some("Fabric ink"));
        assert_eq!(at("[]").as_deref(), Some("Fabric foam"));
        assert_eq!(at("double").as_deref(), Some("Binding"));
    }

    #[test]
    fn a_text_that_is_no_table_has_none() {
        let sections = Sections::of(&Source::from_text("x.pattern.yaml", "- 1\n"));
        assert_eq!(sections.iter().count(), 0);
        assert_eq!(sections.index(Span::new(2, 3)), None);
    }
}
