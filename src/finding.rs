//! What the rules find: the faulty number, where it is, why it is faulty and what mends it.

use crate::manuscript::Span;
pub use crate::subject::{Subject, SubjectKind};

/// How grave a finding is, in an editor's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Ask the writer.
    Query,
    /// A reader would run short, or cannot sew it.
    Error,
}

impl Level {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Level::Note => "note",
            Level::Query => "query",
            Level::Error => "error",
        }
    }
}

/// A place in the manuscript and a few words on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub at: Span,
    /// The words.
    pub text: String,
}

impl Label {
    /// A place with words on it.
    pub fn new(at: Span, text: impl Into<String>) -> Label {
        Label { at, text: text.into() }
    }
}

/// The exact text that mends a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    /// What to replace.
    pub at: Span,
    /// What to put there.
    pub replacement: String,
    /// Whether it is offered only where it brings no other finding, which the engine finds out.
    pub if_harmless: bool,
}

impl Correction {
    /// Replaces one place.
    pub fn new(at: Span, replacement: impl Into<String>) -> Correction {
        Correction { at, replacement: replacement.into(), if_harmless: false }
    }

    /// Offers it only where it brings no other finding: for a number that several others depend on.
    #[must_use]
    pub fn if_harmless(mut self) -> Correction {
        self.if_harmless = true;
        self
    }

    /// Replaces two places at once, leaving what stands between them as it is.
    pub fn of_both(source: &str, one: (Span, String), other: (Span, String)) -> Correction {
        let (first, second) = if one.0.start <= other.0.start { (one, other) } else { (other, one) };
        let between = Span::new(first.0.end, second.0.start).text(source);
        Correction::new(first.0.to(second.0), format!("{}{between}{}", first.1, second.1))
    }

    /// The text with the correction made.
    pub fn apply(&self, text: &str) -> String {
        let mut text = text.to_string();
        text.replace_range(self.at.start..self.at.end, &self.replacement);
        text
    }
}

/// One thing that is wrong, or that somebody should know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule that found it. The engine fills it in.
    pub rule: &'static str,
    /// How grave it is. The engine fills it in from the rule book, never above what the rule asks for.
    pub level: Level,
    /// The size it is about, where it is about one.
    pub size: Option<String>,
    /// What it is about besides: the fabric, the piece, the unit and so on.
    pub subject: Subject,
    /// What is stated, what is needed, and by how much it falls short.
    pub message: String,
    /// Where it is.
    pub at: Label,
    /// Where the needed number comes from.
    pub related: Vec<Label>,
    /// The working, and what mends it.
    pub help: String,
    /// What is stated, in a few words.
    pub stated: Option<String>,
    /// What is needed, in a few words.
    pub needed: Option<String>,
    /// The text that mends it, where one text does.
    pub correction: Option<Correction>,
}

impl Finding {
    /// A finding at a place.
    pub fn new(at: Label, message: impl Into<String>) -> Finding {
        Finding {
            rule: "",
            level: Level::Error,
            size: None,
            subject: Subject::default(),
            message: message.into(),
            at,
            related: Vec::new(),
            help: String::new(),
            stated: None,
            needed: None,
            correction: None,
        }
    }

    /// Says which size it is about.
    #[must_use]
    pub fn for_size(mut self, size: &str) -> Finding {
        self.size = Some(size.to_string());
        self
    }

    /// Says what it is about besides its size.
    #[must_use]
    pub fn about(mut self, subject: Subject) -> Finding {
        self.subject = subject;
        self
    }

    /// What it is about, as its head says it: `lap, fabric ink`. Nothing where it is about the pattern as a whole.
    pub fn about_words(&self) -> Option<String> {
        let names: Vec<String> = self.size.iter().cloned().chain(self.subject.names()).collect();
        (!names.is_empty()).then(|| names.join(", "))
    }

    /// Points at another place, once for the same words.
    #[must_use]
    pub fn see(mut self, at: Option<Span>, text: impl Into<String>) -> Finding {
        let label = at.map(|at| Label::new(at, text));
        self.related.extend(label.filter(|label| !self.related.contains(label)));
        self
    }

    /// Adds a line of working or advice; an empty one adds nothing.
    #[must_use]
    pub fn help(mut self, help: impl AsRef<str>) -> Finding {
        if help.as_ref().is_empty() {
            return self;
        }
        if !self.help.is_empty() {
            self.help.push('\n');
        }
        self.help.push_str(help.as_ref());
        self
    }

    /// Says what is stated and what is needed.
    #[must_use]
    pub fn numbers(mut self, stated: impl Into<String>, needed: impl Into<String>) -> Finding {
        self.stated = Some(stated.into());
        self.needed = Some(needed.into());
        self
    }

    /// Adds the text that mends it.
    #[must_use]
    pub fn corrected(mut self, correction: Option<Correction>) -> Finding {
        self.correction = correction;
        self
    }

    /// Keeps the level at or below this one.
    #[must_use]
    pub fn at_most(mut self, level: Level) -> Finding {
        self.level = self.level.min(level);
        self
    }
}
