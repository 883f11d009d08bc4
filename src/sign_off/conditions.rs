//! Under which conditions a manuscript was checked when it was signed, and what is otherwise now.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::record::in_hex;
use crate::finding::{Finding, Level};
use crate::manuscript::Span;
use crate::rule_book::{SIGN_OFF_RULES, Settings, book, shown};
use crate::text::TextOutcome;

/// What a house that does without a rule writes for its level.
const OFF: &str = "off";

/// What a check was asked for besides its findings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CheckOptions {
    /// That every stated number must be checked by something.
    pub account: bool,
    /// That no query may stand.
    pub strict: bool,
}

impl CheckOptions {
    /// The options as they are typed.
    pub fn words(self) -> impl Iterator<Item = &'static str> {
        [(self.account, "--account"), (self.strict, "--strict")].into_iter().filter(|(on, _)| *on).map(|(_, word)| word)
    }
}

/// The levels and values in force, the options that were used, and what stood when a manuscript was checked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conditions {
    /// The options that were used.
    pub options: CheckOptions,
    /// The level of each rule, by its name; `off` where the house does without it.
    pub levels: BTreeMap<String, String>,
    /// Each value of the rule book as it was in force, whether or not a number went by it.
    pub values: BTreeMap<String, String>,
    /// The queries and notes that stood.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub open: Vec<OpenFinding>,
    /// The fingerprint of all this.
    pub fingerprint: String,
    /// How many stated numbers nothing checks in the manuscript that was just checked, where that was asked.
    #[serde(skip)]
    pub unchecked: usize,
}

/// A query or a note that stood.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenFinding {
    /// The rule that found it.
    pub rule: String,
    /// Its level.
    pub level: String,
    /// The size it is about, where it is about one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub size: Option<String>,
    /// What it is about besides, by its words.
    #[serde(skip_serializing_if = "BTreeMap::is_empty", default)]
    pub subject: BTreeMap<String, String>,
    /// The printed text that it stands in, where it stands in one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub text: Option<String>,
    /// What was found.
    pub message: String,
    /// Where it stands in the manuscript that was just checked.
    #[serde(skip)]
    pub at: Option<Span>,
}

impl OpenFinding {
    fn new(finding: &Finding) -> OpenFinding {
        OpenFinding {
            rule: finding.rule.to_string(),
            level: finding.level.word().to_string(),
            size: finding.size.clone(),
            subject: finding.subject.words().map(|(word, name)| (word.to_string(), name.to_string())).collect(),
            text: None,
            message: finding.message.clone(),
            at: Some(finding.at.at),
        }
    }

    /// Whether it is a question to the writer.
    pub fn is_query(&self) -> bool {
        self.level == Level::Query.word()
    }

    /// What tells it from others, however its message is worded.
    fn key(&self) -> (&str, Option<&str>, Option<&str>, &BTreeMap<String, String>) {
        (&self.rule, self.text.as_deref(), self.size.as_deref(), &self.subject)
    }

    /// The rule, and what it is about: `no-squaring-room (queen, binding fabric)`.
    pub fn title(&self) -> String {
        let names = self.subject.iter().map(
            |(word, name)| {
                if word == "number" { name.clone() } else { format!("{word} {name}") }
            },
        );
        let about: Vec<String> = self.text.clone().into_iter().chain(self.size.clone()).chain(names).collect();
        if about.is_empty() { self.rule.clone() } else { format!("{} ({})", self.rule, about.join(", ")) }
    }
}

/// What is otherwise than it was when a manuscript was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum ConditionChange {
    /// A rule has another level.
    Level {
        /// The rule.
        rule: String,
        /// The level that it had.
        was: String,
        /// The level that it has.
        is: String,
    },
    /// A query stood that stands no longer.
    QueryGone(OpenFinding),
    /// A query stands that did not.
    QueryNew(OpenFinding),
    /// An option is used that was not.
    Option {
        /// The option as it is typed.
        option: &'static str,
        /// What it asks about, and stood when it was signed: `3 queries stood`.
        stood: String,
    },
}

impl Conditions {
    /// What holds for a manuscript that was checked under these settings with these options.
    pub fn new(
        settings: &Settings,
        options: CheckOptions,
        (findings, texts): (&[Finding], &[TextOutcome]),
    ) -> Conditions {
        let levels = book().iter().enumerate().map(|(index, rule)| {
            let level = settings.level(index).map_or(OFF, Level::word);
            (rule.name.to_string(), level.to_string())
        });
        let is_open = |finding: &&Finding| finding.level != Level::Error && !SIGN_OFF_RULES.contains(&finding.rule);
        let in_texts =
            texts.iter().flat_map(|text| text.findings.iter().filter(is_open).map(move |found| (text, found)));
        let in_texts = in_texts.map(|(text, found)| OpenFinding {
            text: Some(text.name.clone()),
            at: None,
            ..OpenFinding::new(found)
        });
        let mut conditions = Conditions {
            options,
            levels: levels.collect(),
            values: settings.values().iter().map(|(name, value)| (name.to_string(), shown(value))).collect(),
            open: findings.iter().filter(is_open).map(OpenFinding::new).chain(in_texts).collect(),
            fingerprint: String::new(),
            unchecked: 0,
        };
        conditions.fingerprint = conditions.hash();
        conditions
    }

    /// The same where nothing checks so many of the stated numbers.
    #[must_use]
    pub fn with_unchecked(self, unchecked: usize) -> Conditions {
        Conditions { unchecked, ..self }
    }

    /// Whether it is still what was recorded.
    pub(super) fn is_whole(&self) -> bool {
        self.fingerprint == self.hash()
    }

    fn hash(&self) -> String {
        let mut hash = Sha256::new();
        let mut add = |text: &str| {
            hash.update(text.as_bytes());
            hash.update([0xff]);
        };
        self.options.words().for_each(&mut add);
        for (name, word) in self.levels.iter().chain(&self.values) {
            add(name);
            add(word);
        }
        for open in &self.open {
            add(&open.title());
            add(&open.level);
            add(&open.message);
        }
        in_hex(hash)
    }

    /// How many queries stood.
    pub fn queries(&self) -> usize {
        self.open.iter().filter(|open| open.is_query()).count()
    }

    /// The rules that the house did without.
    pub fn levels_off(&self) -> impl Iterator<Item = &str> {
        self.levels.iter().filter(|(_, level)| *level == OFF).map(|(rule, _)| rule.as_str())
    }

    /// What is otherwise now than when this was signed. Queries are compared only where the numbers are the same: they
    /// follow from these. A rule that was not known then came with a later version of the program.
    pub(super) fn changes(&self, now: &Conditions, same_numbers: bool) -> Vec<ConditionChange> {
        let mut changes = Vec::new();
        let mut other_level = BTreeSet::new();
        for (rule, was) in &self.levels {
            let Some(is) = now.levels.get(rule).filter(|is| *is != was) else { continue };
            other_level.insert(rule.as_str());
            changes.push(ConditionChange::Level { rule: rule.clone(), was: was.clone(), is: is.clone() });
        }
        let is_comparable = |open: &&OpenFinding| {
            open.is_query() && self.levels.contains_key(&open.rule) && !other_level.contains(open.rule.as_str())
        };
        if same_numbers {
            let lacks = |of: &Conditions, open: &OpenFinding| {
                !of.open.iter().any(|other| other.is_query() && other.key() == open.key())
            };
            let gone = self.open.iter().filter(is_comparable).filter(|open| lacks(now, open));
            changes.extend(gone.cloned().map(ConditionChange::QueryGone));
            let new = now.open.iter().filter(is_comparable).filter(|open| lacks(self, open));
            changes.extend(new.cloned().map(ConditionChange::QueryNew));
        }
        // Signed where the option would have refused nothing, it is what it would be with the option.
        let counted = |count: usize, one: &str, many: &str| match count {
            1 => format!("one {one}"),
            count => format!("{count} {many}"),
        };
        if now.options.account && !self.options.account && now.unchecked > 0 {
            let numbers = counted(now.unchecked, "stated number", "stated numbers");
            changes.push(ConditionChange::Option { option: "--account", stood: format!("nothing checked {numbers}") });
        }
        if now.options.strict && !self.options.strict && self.queries() > 0 {
            let queries = counted(self.queries(), "query", "queries");
            changes.push(ConditionChange::Option { option: "--strict", stood: format!("{queries} stood") });
        }
        changes
    }
}
