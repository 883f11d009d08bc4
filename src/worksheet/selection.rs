//! A part of a worksheet: what is not OK, or what is of some sizes or sections.

use std::fmt;

use super::Worksheet;
use super::sections::Section;
use crate::audit::{Line, Status};
use crate::drawing::SizeDrawings;
use crate::finding::Finding;
use crate::keywords::nearest;
use crate::manuscript::Span;

/// The word for what is not OK.
const WRONG: &str = "wrong";

/// What begins a word that can only mean a size, or a section.
const SIZE: &str = "size=";
const SECTION: &str = "section=";

/// A part of a worksheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Selection {
    /// The words that asked for it.
    pub words: Vec<String>,
    sizes: Vec<String>,
    /// Names of sections: words at the top, or fabrics.
    sections: Vec<String>,
    wrong: bool,
    /// What was decided of a word that could mean two things.
    pub remarks: Vec<String>,
    /// How many numbers the whole has.
    pub of_numbers: usize,
}

/// A word that names nothing in a manuscript.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SelectionError {
    /// The word.
    pub word: String,
    /// What it could name.
    pub known: String,
    /// The name that was probably meant.
    pub nearest: Option<String>,
}

impl fmt::Display for SelectionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is no size and no section of this manuscript", self.word)?;
        if let Some(nearest) = &self.nearest {
            write!(f, "; did you mean {nearest}?")?;
        }
        write!(f, "\n  {}", self.known)
    }
}

/// What a word names.
enum Named {
    Wrong,
    Size(String),
    Section(String),
}

impl Selection {
    /// Reads the words after `--only` by the sizes and the sections of a manuscript.
    ///
    /// # Errors
    /// Where a word names neither.
    pub fn read(words: &[String], worksheet: &Worksheet) -> Result<Selection, SelectionError> {
        let mut selection = Selection { words: words.to_vec(), ..Selection::default() };
        for word in words {
            match selection.named(word, worksheet)? {
                Named::Wrong => selection.wrong = true,
                Named::Size(size) => selection.sizes.push(size),
                Named::Section(section) => selection.sections.push(section),
            }
        }
        Ok(selection)
    }

    fn named(&mut self, word: &str, worksheet: &Worksheet) -> Result<Named, SelectionError> {
        let (sizes, sections) = (sizes(worksheet), section_names(worksheet));
        let size = |name: &str| find(&sizes, name);
        let section = |name: &str| find(&sections, name);
        let unknown = |name: &str| SelectionError {
            word: word.to_string(),
            known: format!("Sizes: {}. Sections: {}.", sizes.join(", "), sections.join(", ")),
            nearest: nearest(name, sizes.iter().chain(&sections)).cloned(),
        };
        if let Some(name) = word.strip_prefix(SIZE) {
            return size(name).map(Named::Size).ok_or_else(|| unknown(name));
        }
        if let Some(name) = word.strip_prefix(SECTION) {
            return section(name).map(Named::Section).ok_or_else(|| unknown(name));
        }
        match (word == WRONG, size(word), section(word)) {
            (true, size, section) => {
                if size.is_some() {
                    self.remarks.push(format!("wrong stands for what is not OK; for the size, write {SIZE}{word}"));
                } else if section.is_some() {
                    self.remarks
                        .push(format!("wrong stands for what is not OK; for the section, write {SECTION}{word}"));
                }
                Ok(Named::Wrong)
            }
            (false, Some(size), section) => {
                if section.is_some() {
                    self.remarks.push(format!(
                        "{word} is a size and a section: the size is shown; for the section, write {SECTION}{word}"
                    ));
                }
                Ok(Named::Size(size))
            }
            (false, None, Some(section)) => Ok(Named::Section(section)),
            (false, None, None) => Err(unknown(word)),
        }
    }

    fn has_size(&self, size: Option<&str>) -> bool {
        // What is stated for all sizes is stated for each of them.
        self.sizes.is_empty() || size.is_none_or(|size| self.sizes.iter().any(|known| known == size))
    }

    fn has_section(&self, section: Option<&Section>) -> bool {
        let is_of = |section: &Section| {
            self.sections.iter().any(|name| *name == section.word || Some(name) == section.fabric.as_ref())
        };
        self.sections.is_empty() || section.is_some_and(is_of)
    }
}

/// The sizes of a manuscript that have numbers or drawings.
fn sizes(worksheet: &Worksheet) -> Vec<String> {
    let mut sizes: Vec<String> = Vec::new();
    let drawn = worksheet.drawings.sizes.iter().map(|size| &size.size);
    for size in worksheet.account.lines.iter().filter_map(|line| line.size.as_ref()).chain(drawn) {
        if !sizes.contains(size) {
            sizes.push(size.clone());
        }
    }
    sizes
}

/// The words at the top that numbers stand under, and the fabrics.
fn section_names(worksheet: &Worksheet) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let has_numbers = |section: &&Section| {
        worksheet.account.lines.iter().any(|line| section.at.start <= line.at.start && line.at.start < section.at.end)
    };
    for section in worksheet.sections.iter().filter(has_numbers) {
        for name in std::iter::once(&section.word).chain(&section.fabric) {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
    }
    names
}

/// The name that a word means: to the letter, or else whatever its capitals.
fn find(names: &[String], word: &str) -> Option<String> {
    let exact = names.iter().find(|name| *name == word);
    let plain = |text: &str| text.to_lowercase().replace([' ', '-'], "_");
    exact.or_else(|| names.iter().find(|name| plain(name) == plain(word))).cloned()
}

/// Whether something is still to be done about a number.
fn is_open(line: &Line) -> bool {
    matches!(line.status, Status::Short | Status::Wrong | Status::NotChecked) || line.level().is_some()
}

impl Worksheet {
    /// Leaves a part of it.
    pub fn select(&mut self, mut selection: Selection) {
        selection.of_numbers = self.account.lines.len();
        let Worksheet { account, sections, drawings, .. } = self;
        let has =
            |size: Option<&str>, at: Span| selection.has_size(size) && selection.has_section(sections.section(at));
        account.lines.retain(|line| has(line.size.as_deref(), line.at) && (!selection.wrong || is_open(line)));
        account.outcome.findings.retain(|finding| has(finding.size.as_deref(), finding.at.at));
        account.outcome.accepted.retain(|one| has(one.finding.size.as_deref(), one.finding.at.at));
        let stated_at = |finding: &Finding| finding.elsewhere.first().map_or(Span::new(0, 0), |other| other.at);
        for text in &mut account.outcome.texts {
            text.findings.retain(|finding| has(finding.size.as_deref(), stated_at(finding)));
            text.accepted.retain(|one| has(one.finding.size.as_deref(), stated_at(&one.finding)));
        }
        // A drawing is of a size and of a section; of what is wrong, where a number of both is.
        let is_shown = |size: Option<&str>, name: &str| {
            let of_name = |section: &Section| section.word == name || section.fabric.as_deref() == Some(name);
            let section = sections.iter().find(|section| of_name(section));
            let has_number = |line: &Line| {
                (size.is_none() || line.size.is_none() || line.size.as_deref() == size)
                    && sections.section(line.at).is_some_and(of_name)
            };
            selection.has_size(size)
                && (selection.sections.is_empty() || selection.has_section(section))
                && (!selection.wrong || account.lines.iter().any(has_number))
        };
        if !is_shown(None, "blocks") && !is_shown(None, "units") {
            drawings.design = None;
        }
        drawings.sizes.retain(|size| selection.has_size(Some(&size.size)));
        for SizeDrawings { size, top, edge, fabrics, backing, .. } in &mut drawings.sizes {
            let size = Some(size.as_str());
            *top = top.take().filter(|_| is_shown(size, "layout"));
            *edge = edge.take().filter(|_| is_shown(size, "binding"));
            *backing = backing.take().filter(|_| is_shown(size, "backing"));
            fabrics.retain(|fabric| is_shown(size, &fabric.fabric));
        }
        self.only = Some(selection);
    }
}

#[cfg(test)]
mod tests {
    use super::Selection;
    use crate::manuscript::Source;
    use crate::rule_book::Settings;
    use crate::worksheet::Worksheet;

    const TEXT: &str = "\
pattern: P
measure: inch
assumes: { usable_width: 40 }
sizes:
  small: { finished: 36 x 48 }
  binding: { finished: 54 x 72 }
binding:
  strip_width: 2 1/2
  requires:
    small: { strips: 5 }
    binding: { strips: 8 }
";

    fn worksheet() -> Worksheet {
        Worksheet::new(&Source::from_text("x.pattern.yaml", TEXT), &Settings::default())
    }

    /// What is left, as `size: number`, and what was decided.
    fn left(words: &[&str]) -> (Vec<String>, Vec<String>) {
        let mut worksheet = worksheet();
        let words: Vec<String> = words.iter().map(|word| (*word).to_string()).collect();
        let selection = Selection::read(&words, &worksheet).unwrap();
        let remarks = selection.remarks.clone();
        worksheet.select(selection);
        let name = |line: &crate::audit::Line| format!("{}: {}", line.size.as_deref().unwrap_or("all"), line.number);
        (worksheet.account.lines.iter().map(name).collect(), remarks)
    }

    #[test]
    fn sizes_keep_what_is_stated_for_all_and_sections_narrow_it() {
        assert_eq!(
            left(&["small"]).0,
            ["all: usable_width", "all: binding strip_width", "small: finished", "small: binding strips"]
        );
        assert_eq!(left(&["Small", "section=binding"]).0, ["all: binding strip_width", "small: binding strips"]);
        assert_eq!(left(&["wrong"]).0, ["small: binding strips"]);
        assert_eq!(left(&["wrong", "size=binding"]).0, Vec::<String>::new());
    }

    #[test]
    fn a_name_of_a_size_and_a_section_is_the_size_and_that_is_said() {
        let (lines, remarks) = left(&["binding"]);
        assert!(lines.contains(&"binding: finished".to_string()), "{lines:?}");
        assert_eq!(
            remarks,
            ["binding is a size and a section: the size is shown; for the section, write section=binding"]
        );
    }

    #[test]
    fn an_unknown_word_is_told_with_the_nearest() {
        let error = Selection::read(&["smal".to_string()], &worksheet()).unwrap_err();
        assert_eq!(
            error.to_string(),
            "smal is no size and no section of this manuscript; did you mean small?\n  \
             Sizes: small, binding. Sections: assumes, sizes, binding."
        );
    }
}
