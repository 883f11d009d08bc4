//! What cutting instructions are made of: steps of clauses, whose numbers differ from size to size.

use super::super::Cell;

/// What is cut from one fabric, or for one layer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// The fabric that is cut, or what the steps are for.
    pub of: String,
    /// What stands over the steps: `From ink, cut`.
    pub heading: String,
    /// The steps, in the order of cutting; at least one.
    pub steps: Vec<Step>,
}

/// One step: `6 strips 6 1/2 in x WOF; subcut 36 squares 6 1/2 x 6 1/2 in (A)`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Its clauses; at least one.
    pub clauses: Vec<Clause>,
}

/// How a clause goes on from the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Link {
    /// It begins the step.
    Start,
    /// It is cut from the strips of the clause before it.
    Subcut,
    /// It says what the piece before it is cut from.
    From,
    /// It says more of the clause before it.
    Aside,
}

/// A part of a step that has a number of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clause {
    /// How it goes on from the one before it.
    pub link: Link,
    /// What it says; at least one part has a value for each size.
    pub parts: Vec<Part>,
    /// Which sizes it is for: those that take some of it.
    pub takes: Vec<bool>,
    /// What the pattern calls the pieces that it is about.
    pub piece: Option<String>,
}

/// A part of a clause.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// Words that are the same for all sizes.
    Words(String),
    /// A count for each size.
    Counts(Vec<Cell>),
    /// A measurement, or words, for each size.
    Values(Vec<Cell>),
    /// What is counted, by its words for one and for several.
    Noun(String, String),
}

impl Section {
    /// Keeps what is for one size.
    pub(super) fn keep_size(&mut self, size: usize) {
        for clause in self.steps.iter_mut().flat_map(|step| &mut step.clauses) {
            clause.takes = clause.takes.iter().copied().skip(size).take(1).collect();
            for part in &mut clause.parts {
                if let Part::Counts(cells) | Part::Values(cells) = part {
                    *cells = cells.iter().skip(size).take(1).cloned().collect();
                }
            }
        }
        for step in &mut self.steps {
            step.clauses.retain(|clause| clause.takes.first().copied().unwrap_or(true) && clause.is_stated());
        }
        self.steps.retain(|step| !step.clauses.is_empty());
    }
}

impl Step {
    /// A step of one clause.
    pub(super) fn of(clause: Clause) -> Step {
        Step { clauses: vec![clause] }
    }
}

impl Clause {
    /// A clause that counts something.
    pub(super) fn counting(link: Link, counts: Vec<Cell>, takes: Vec<bool>) -> Clause {
        Clause { link, parts: vec![Part::Counts(counts)], takes, piece: None }
    }

    /// A clause without a count, for the sizes that state something of it.
    pub(super) fn uncounted(link: Link, words: &str, values: Vec<Cell>) -> Clause {
        let takes = values.iter().map(|cell| !cell.is_nothing()).collect();
        Clause { link, parts: Vec::new(), takes, piece: None }.words(words).part(Part::Values(values))
    }

    /// A clause for all sizes, which says nothing yet.
    pub(super) fn of_all(link: Link, sizes: usize) -> Clause {
        Clause { link, parts: Vec::new(), takes: vec![true; sizes], piece: None }
    }

    /// The clause with more words.
    pub(super) fn words(mut self, words: &str) -> Clause {
        if !words.is_empty() {
            self.parts.push(Part::Words(words.to_string()));
        }
        self
    }

    /// The clause with what is counted, in the plural with an s.
    pub(super) fn noun(self, one: &str) -> Clause {
        self.part(Part::Noun(format!(" {one}"), format!(" {one}s")))
    }

    /// The clause with another part.
    pub(super) fn part(mut self, part: Part) -> Clause {
        self.parts.push(part);
        self
    }

    /// The clause with another part, if there is one.
    pub(super) fn maybe(self, before: &str, part: Option<Part>) -> Clause {
        match part {
            Some(part) => self.words(before).part(part),
            None => self,
        }
    }

    /// Whether some size takes some of it.
    pub(super) fn is_stated(&self) -> bool {
        let is_said = |cell: &Cell| !cell.is_nothing();
        self.parts.iter().any(|part| match part {
            Part::Counts(cells) | Part::Values(cells) => cells.iter().any(is_said),
            Part::Words(_) | Part::Noun(..) => false,
        })
    }
}
