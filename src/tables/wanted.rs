//! What is asked for of the tables: which of them, for which size and colorway, and how they are set.

use super::Language;
use super::cell_text::on_one_line;
use crate::manuscript::Manuscript;

/// What is asked for of the tables.
#[derive(Clone, Debug, Default)]
pub struct Wanted {
    /// The tables, by their headings or by the fabric that is cut; all of them where none is named.
    pub tables: Vec<String>,
    /// One size alone.
    pub size: Option<String>,
    /// One colorway, whose colors stand with the fabrics.
    pub colorway: Option<String>,
    /// Real fractions, and the sign × between the sides of a piece.
    pub typographic: bool,
    /// The language of the headings.
    pub language: Language,
}

impl Wanted {
    /// The place of the size that is wanted, if one is; the colorway is looked for as well.
    ///
    /// # Errors
    /// In words, where the manuscript has none of that name.
    pub(super) fn place_of_size(&self, manuscript: &Manuscript) -> Result<Option<usize>, String> {
        let colorways: Vec<&str> = manuscript.colorways.iter().map(|colorway| colorway.name.as_str()).collect();
        place(self.colorway.as_deref(), &colorways, "colorway")?;
        let sizes: Vec<&str> = manuscript.sizes.iter().map(|size| size.name.as_str()).collect();
        place(self.size.as_deref(), &sizes, "size")
    }

    /// What is wanted of some tables or sections.
    ///
    /// # Errors
    /// In words, where one is wanted that is not there.
    pub(super) fn chosen<T>(
        &self,
        all: Vec<T>,
        is_named: impl Fn(&T, &str) -> bool,
        caption: impl Fn(&T) -> &str,
    ) -> Result<Vec<T>, String> {
        if let Some(name) = self.tables.iter().find(|name| !all.iter().any(|one| is_named(one, name))) {
            let captions: Vec<&str> = all.iter().map(caption).collect();
            return Err(format!("there is no table \"{name}\"; the tables are: {}", captions.join("; ")));
        }
        let is_wanted = |one: &T| self.tables.is_empty() || self.tables.iter().any(|name| is_named(one, name));
        Ok(all.into_iter().filter(is_wanted).collect())
    }
}

fn place(wanted: Option<&str>, names: &[&str], what: &str) -> Result<Option<usize>, String> {
    let Some(wanted) = wanted else { return Ok(None) };
    if let Some(place) = names.iter().position(|name| on_one_line(name) == on_one_line(wanted)) {
        return Ok(Some(place));
    }
    Err(match names {
        [] => format!("the manuscript has no {what}s"),
        names => format!("there is no {what} \"{wanted}\"; the {what}s are: {}", names.join(", ")),
    })
}
