//! What a finding is about besides its size, so that two findings of one rule and size can be told apart.

use std::collections::BTreeMap;

/// The kinds of things that a finding can be about, in the order in which they are named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SubjectKind {
    /// One of the numbers of the binding, the backing, the batting or the layout, where a rule looks at several.
    Number,
    /// A fabric.
    Fabric,
    /// A piece of a fabric's cutting list.
    Piece,
    /// A unit.
    Unit,
    /// A part of a unit, such as `first` or `segment`.
    Part,
    /// A block.
    Block,
    /// A row of a block, from 1.
    Row,
    /// A border, from 1 on the inside.
    Border,
    /// Words of a printed text.
    Quote,
}

impl SubjectKind {
    /// All of them, each with the word that an acceptance names it by.
    pub const WORDS: [(SubjectKind, &'static str); 9] = [
        (SubjectKind::Number, "number"),
        (SubjectKind::Fabric, "fabric"),
        (SubjectKind::Piece, "piece"),
        (SubjectKind::Unit, "unit"),
        (SubjectKind::Part, "part"),
        (SubjectKind::Block, "block"),
        (SubjectKind::Row, "row"),
        (SubjectKind::Border, "border"),
        (SubjectKind::Quote, "quote"),
    ];

    /// The word for it.
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(kind, _)| *kind == self).map_or("", |(_, word)| word)
    }
}

/// The things that a finding is about, one of each kind at most; none where the rule and the size say all.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Subject(BTreeMap<SubjectKind, String>);

impl Subject {
    /// One thing.
    pub fn of(kind: SubjectKind, name: impl Into<String>) -> Subject {
        Subject::default().and(kind, name)
    }

    /// One of the numbers of the binding, the backing, the batting or the layout: `binding fabric`.
    pub fn number(name: &str) -> Subject {
        Subject::of(SubjectKind::Number, name)
    }

    /// With one more thing.
    #[must_use]
    pub fn and(mut self, kind: SubjectKind, name: impl Into<String>) -> Subject {
        self.0.insert(kind, name.into());
        self
    }

    /// Without the thing of a kind.
    #[must_use]
    pub fn without(mut self, kind: SubjectKind) -> Subject {
        self.0.remove(&kind);
        self
    }

    /// Each thing by its word and its name: `("fabric", "ink")`.
    pub fn words(&self) -> impl Iterator<Item = (&'static str, &str)> {
        self.0.iter().map(|(kind, name)| (kind.word(), name.as_str()))
    }

    /// The name of the thing of a kind.
    pub fn get(&self, kind: SubjectKind) -> Option<&str> {
        self.0.get(&kind).map(String::as_str)
    }

    /// Whether it names nothing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Each thing as the head of a finding names it: `fabric ink`, `binding strips`.
    pub fn names(&self) -> impl Iterator<Item = String> {
        self.0.iter().map(|(kind, name)| match kind {
            SubjectKind::Number => name.clone(),
            SubjectKind::Quote => format!("\"{name}\""),
            kind => format!("{} {name}", kind.word()),
        })
    }
}
