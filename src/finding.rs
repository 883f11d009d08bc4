//! What the rules find: the faulty number, where it is, why it is faulty and what mends it.

use std::path::PathBuf;

use crate::manuscript::{Place, Source, Span, name_in_place, word_in_place};
pub use crate::subject::{Subject, SubjectKind};

/// How grave a finding is, in an editor's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Ask the writer.
    Query,
    /// A reader would run short, has nothing to spare, or cannot sew it.
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

    /// What it says of a finding.
    pub const fn meaning(self) -> &'static str {
        match self {
            Level::Note => "worth knowing",
            Level::Query => "to ask the writer",
            Level::Error => "a reader would run short, has nothing to spare, or cannot sew it",
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

/// The exact text that mends a finding. It is offered only where it brings no other, which is tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    /// What to replace.
    pub at: Span,
    /// What to put there.
    pub replacement: String,
}

impl Correction {
    /// Replaces one place.
    pub fn new(at: Span, replacement: impl Into<String>) -> Correction {
        Correction { at, replacement: replacement.into() }
    }

    /// Puts a name of the writer's in a place, in quotes where YAML needs them.
    pub fn name(source: &str, at: Span, name: &str) -> Correction {
        Correction::new(at, name_in_place(name, at.text(source)))
    }

    /// Puts a word of the format in a place.
    pub fn word(source: &str, at: Span, word: &str) -> Correction {
        Correction::new(at, word_in_place(word, at.text(source)))
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
    /// Why no correction is offered although the rule has one: what the correction would bring.
    pub withheld: Option<String>,
    /// Other texts that would mend it, until they are tried: a layout is mended at the size or at a number of its own.
    pub other_corrections: Vec<Correction>,
    /// The finding that it follows from: once that is corrected, this one is gone.
    pub cause: Option<Box<Cause>>,
    /// The printed text that it is in, by its place among those that the manuscript names; its place is there. `None` for
    /// the manuscript itself.
    pub text: Option<usize>,
    /// Where the needed number comes from, where that is another file.
    pub elsewhere: Vec<Elsewhere>,
}

/// A place in another file than the finding's and a few words on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Elsewhere {
    /// The file.
    pub path: PathBuf,
    /// Its bytes.
    pub at: Span,
    /// Where they begin.
    pub start: Place,
    /// Where they end.
    pub end: Place,
    /// The words.
    pub text: String,
}

impl Elsewhere {
    /// A place in a source with words on it.
    pub fn new(source: &Source, at: Span, text: impl Into<String>) -> Elsewhere {
        let (start, end) = (source.place(at.start), source.place(at.end));
        Elsewhere { path: source.path.clone(), at, start, end, text: text.into() }
    }
}

/// A finding that others follow from, by what it is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cause {
    /// Its rule.
    pub rule: &'static str,
    /// Its size.
    pub size: Option<String>,
    /// What it is about besides.
    pub subject: Subject,
    /// Where it is.
    pub at: Span,
}

impl Cause {
    /// A finding as the cause of others.
    pub fn of(finding: &Finding) -> Cause {
        let Finding { rule, size, subject, at, .. } = finding;
        Cause { rule, size: size.clone(), subject: subject.clone(), at: at.at }
    }
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
            withheld: None,
            other_corrections: Vec::new(),
            cause: None,
            text: None,
            elsewhere: Vec::new(),
        }
    }

    /// Says which printed text it is in.
    #[must_use]
    pub fn in_text(mut self, text: usize) -> Finding {
        self.text = Some(text);
        self
    }

    /// Points at a place in another file.
    #[must_use]
    pub fn see_elsewhere(mut self, elsewhere: Elsewhere) -> Finding {
        self.elsewhere.push(elsewhere);
        self
    }

    /// Says which size it is about.
    #[must_use]
    pub fn for_size(mut self, size: &str) -> Finding {
        self.size = Some(size.to_string());
        self
    }

    /// Says which size it is about, where it is about one.
    #[must_use]
    pub fn for_some_size(self, size: Option<&str>) -> Finding {
        match size {
            Some(size) => self.for_size(size),
            None => self,
        }
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

    /// Adds other texts that would mend it.
    #[must_use]
    pub fn or_corrected(mut self, corrections: Vec<Correction>) -> Finding {
        self.other_corrections = corrections;
        self
    }

    /// Says that it follows from another.
    pub(crate) fn follow_from(&mut self, cause: Cause) {
        let label = Label::new(cause.at, format!("it follows from this: {}", cause.rule));
        self.related.push(label);
        self.cause = Some(Box::new(cause));
    }

    /// Keeps the level at or below this one.
    #[must_use]
    pub fn at_most(mut self, level: Level) -> Finding {
        self.level = self.level.min(level);
        self
    }
}
