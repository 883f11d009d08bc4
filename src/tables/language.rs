//! The headings of the tables in another language, from a file of words.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::headings::{HEADINGS, is_keyword};
use crate::manuscript::tree::{Arena, Entry, Kind, build};
use crate::manuscript::{Mistakes, Place, Source};

/// The languages that are shipped, with their files of words.
const SHIPPED: [(&str, &str); 2] =
    [("de", include_str!("languages/de.yaml")), ("fr", include_str!("languages/fr.yaml"))];

/// The headings of the tables in a language; in English where nothing else is said.
#[derive(Clone, Debug, Default)]
pub struct Language {
    tag: Option<String>,
    words: BTreeMap<String, String>,
}

impl Language {
    /// The tags of the languages that are shipped.
    pub fn shipped() -> impl Iterator<Item = &'static str> {
        SHIPPED.iter().map(|(tag, _)| *tag)
    }

    /// A language that is shipped, by its tag.
    pub fn of_tag(tag: &str) -> Option<&'static Language> {
        static READ: OnceLock<Vec<(&'static str, Language)>> = OnceLock::new();
        let read = READ.get_or_init(|| {
            let read = |(tag, text): &(&'static str, &str)| {
                let language = Language::read(&Source::from_text(format!("{tag}.yaml"), *text)).0;
                (*tag, language)
            };
            SHIPPED.iter().map(read).collect()
        });
        read.iter().find(|(known, _)| *known == tag).map(|(_, language)| language)
    }

    /// Its file of words, with every heading: to translate, or to see what is called what.
    pub fn file(&self) -> String {
        let quoted = |text: &str| format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""));
        let lines = HEADINGS.iter().map(|heading| format!("{}: {}\n", quoted(heading), quoted(self.say(heading))));
        format!("language: {}\n{}", self.tag(), lines.collect::<String>())
    }

    /// Reads a file of words: `language`, the tag that web pages name it by, and after it each heading with what it is
    /// called. What is wrong in it is told; the headings that it lacks stay English.
    pub fn read(source: &Source) -> (Language, Vec<(Place, String)>) {
        let (mut language, mut slips) = (Language::default(), Vec::new());
        let mut slip = |at: usize, why: String| slips.push((source.place(at), why));
        let (mut mistakes, arena) = (Mistakes::default(), Arena::new());
        let Ok(Kind::Table(entries)) = build(&source.text, &arena, &[], &mut mistakes).map(|built| built.tree.kind)
        else {
            slip(0, "it is no list of words, each with a colon and what it is called".to_string());
            return (language, slips);
        };
        for Entry { key, key_at, value } in entries {
            let Kind::Scalar { value: words, .. } = &value.kind else {
                slip(key_at.start, format!("what \"{key}\" is called must stand after it"));
                continue;
            };
            if *key == "language" {
                language.tag = Some(words.to_string());
            } else if !HEADINGS.contains(key) && !is_keyword(key) {
                slip(key_at.start, format!("\"{key}\" is no heading of the tables"));
            } else if key.matches("{}").count() != words.matches("{}").count() {
                slip(value.at.start, format!("{{}} must stand in \"{words}\" where it stands in \"{key}\""));
            } else {
                language.words.insert(key.to_string(), words.to_string());
            }
        }
        (language, slips)
    }

    /// The headings that it has no word for.
    pub fn lacks(&self) -> Vec<&'static str> {
        let is_lacking = |heading: &&&str| !self.words.contains_key(**heading);
        HEADINGS.iter().filter(is_lacking).copied().collect()
    }

    /// The tag that web pages name it by.
    pub fn tag(&self) -> &str {
        self.tag.as_deref().unwrap_or("en")
    }

    /// Words of the program in this language.
    pub(super) fn say<'w>(&'w self, words: &'w str) -> &'w str {
        debug_assert!(words.is_empty() || HEADINGS.contains(&words), "{words} is not in the table of headings");
        self.words.get(words).map_or(words, String::as_str)
    }

    /// A word of the format in this language, or itself.
    pub(super) fn keyword<'w>(&'w self, word: &'w str) -> &'w str {
        self.words.get(word).map_or(word, String::as_str)
    }
}
