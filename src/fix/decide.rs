//! Which corrections may be made, and which an editor must decide.
//!
//! Made is what is an error, has one correction that is offered, and lowers no number: a reader who buys more than was
//! printed loses little, one who buys less may run short. Left are questions; what follows from another finding; what
//! could be put right at several places; and what is the design or the method, which the writer chose.

use std::collections::BTreeMap;

use super::doubts::{Doubt, Doubts, MOST_GROWTH, NOT_UNDERSTOOD};
use super::numbers::{grows_beyond, lowers, raised};
use super::{Key, accept_the_same, counted, found, found_and_accepted, key};
use crate::check::Outcome;
use crate::finding::{Correction, Finding, Level};
use crate::manuscript::{Source, Span, read};
use crate::rule_book::Settings;

/// What becomes of a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Verdict {
    /// This correction is made.
    Fix(Correction),
    /// It is left to an editor.
    Leave(Why, Vec<Choice>),
    /// It is a note: there is nothing to decide.
    Pass,
}

/// Why a finding is left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// It is a question for the writer.
    Question,
    /// It can be put right at more places than one, or it is the design or the method.
    Design,
    /// What would put it right lowers a number.
    Lowers,
    /// What would put it right brings another finding, in words.
    Brings(String),
    /// It would become more than twice as much, or more pieces are stated than are used.
    Large,
    /// It stands for every size.
    EverySize,
    /// The unit's method is not stated.
    Method,
    /// It follows from another, which is decided first.
    Follows {
        /// Where that one is.
        at: Span,
    },
    /// Something in the file is stated twice or cannot be read, so that nobody knows what is meant.
    Unread,
    /// It would accept a finding, or accept one no longer.
    Acceptance,
    /// No one text puts it right.
    NoOneText,
}

impl Why {
    /// The reason, for people.
    pub fn words(&self) -> String {
        match self {
            Why::Question => "a question for the writer".to_string(),
            Why::Design => "the design or the method may be meant otherwise".to_string(),
            Why::Lowers => "it would lower a number".to_string(),
            Why::Large => "that much more hints at another number: look for the cause first".to_string(),
            Why::EverySize => "it stands for every size: state it for each".to_string(),
            Why::Method => "the unit's method is not stated: these may be the sizes of another".to_string(),
            Why::Brings(what) => what.clone(),
            Why::Follows { .. } => "it follows from another".to_string(),
            Why::Unread => "something in the file is not understood: correct that first".to_string(),
            Why::Acceptance => "it decides what is accepted: that is for an editor".to_string(),
            Why::NoOneText => "no single correction will do".to_string(),
        }
    }
}

/// Something that could be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choice {
    /// This text in that place.
    Text(Correction),
    /// In words.
    Words(&'static str),
}

/// The rules whose correction changes the design or the method, and what else could be changed instead.
const DESIGN: &[(&str, &str)] = &[
    ("block-count-wrong", "change the blocks across or down instead"),
    ("block-does-not-sum", "change the sizes of its units or rows instead"),
    ("border-does-not-fit", "change the size of its units instead"),
    ("finished-size-wrong", "change the layout, the blocks or the borders instead"),
    ("flange-hidden", "change the width of the other strip instead"),
    ("fold-short", "state a lower loft, another fold or another finish"),
    ("pair-disagrees", "change the other half instead"),
    ("rows-do-not-fit", "change the blocks of a row, or the sashing, instead"),
    ("tails-too-short", "shorten the opening instead"),
];

/// The rules whose correction is a name or a word: a number in it is no amount.
const NAMES: &[&str] = &["piece-not-cut", "unknown-size", "unknown-word"];

/// The words that no number depends on: stated twice, they keep nothing from being corrected.
const WITHOUT_NUMBERS: &[&str] = &["colorways", "designer", "edition", "notes", "notions", "pattern", "skill"];

/// What is to become of each finding, in their order.
pub(super) fn decide(source: &Source, settings: &Settings, outcome: &Outcome) -> Vec<Verdict> {
    let found = |rule: &'static str| outcome.findings.iter().filter(move |finding| finding.rule == rule);
    let is_of_numbers = |finding: &Finding| !WITHOUT_NUMBERS.contains(&finding.at.at.text(&source.text));
    let manuscript = read(source);
    let bench = Bench {
        source,
        settings,
        outcome,
        before: counted(&outcome.findings),
        accepts: !manuscript.accepted.is_empty(),
        stated_twice: found("repeated-key").any(is_of_numbers),
        // What was meant by a name may stand where nothing was read.
        broken: found("not-yaml").next().is_some(),
        doubts: Doubts::new(outcome, &manuscript, &source.text),
    };
    let others = Others::new(&bench, outcome);
    let findings = outcome.findings.iter().enumerate();
    findings.map(|(index, finding)| verdict(&bench, finding, &others.of(index))).collect()
}

fn verdict(bench: &Bench<'_>, finding: &Finding, others: &[Correction]) -> Verdict {
    if finding.level == Level::Note {
        return Verdict::Pass;
    }
    if let Some(cause) = &finding.cause {
        return Verdict::Leave(Why::Follows { at: cause.at }, Vec::new());
    }
    let design = DESIGN.iter().find(|(rule, _)| *rule == finding.rule);
    let texts = || finding.correction.iter().chain(others).cloned().map(Choice::Text);
    let choices = || texts().chain(design.map(|(_, instead)| Choice::Words(instead))).collect::<Vec<_>>();
    if finding.level == Level::Query {
        return Verdict::Leave(Why::Question, choices());
    }
    let Some(correction) = &finding.correction else {
        if bench.stated_twice {
            return Verdict::Leave(Why::Unread, choices());
        }
        if let Some(doubt) = bench.doubts.of_finding(finding).filter(|_| finding.withheld.is_some()) {
            return Verdict::Leave(why(doubt), choices());
        }
        return match &finding.withheld {
            Some(why) => Verdict::Leave(Why::Brings(why.clone()), choices()),
            None => Verdict::Leave(Why::NoOneText, choices()),
        };
    };
    if design.is_some() || !others.is_empty() {
        return Verdict::Leave(Why::Design, choices());
    }
    let old = correction.at.text(&bench.source.text);
    let is_name = NAMES.contains(&finding.rule);
    if bench.stated_twice || (is_name && bench.broken) {
        return Verdict::Leave(Why::Unread, choices());
    }
    let is_of_text = is_name || NOT_UNDERSTOOD.contains(&finding.rule);
    if let Some(doubt) = bench.doubts.of(bench.source, finding, correction).filter(|_| !is_of_text) {
        return Verdict::Leave(why(doubt), choices());
    }
    if is_name && bench.changes_acceptances(correction) {
        return Verdict::Leave(Why::Acceptance, choices());
    }
    if is_name || !lowers(old, &correction.replacement) {
        return Verdict::Fix(correction.clone());
    }
    match without_lowering(&bench.source.text, correction).filter(|raised| bench.brings_nothing(finding, raised)) {
        Some(raised) => Verdict::Fix(raised),
        None => Verdict::Leave(Why::Lowers, choices()),
    }
}

fn why(doubt: Doubt) -> Why {
    match doubt {
        Doubt::Unread => Why::Unread,
        Doubt::Follows(at) => Why::Follows { at },
        Doubt::Method => Why::Method,
        Doubt::EverySize => Why::EverySize,
        Doubt::Growth => Why::Large,
    }
}

/// A correction without what it would lower: a number beside the one that is too low may be higher than it need be, and
/// stays so.
fn without_lowering(text: &str, correction: &Correction) -> Option<Correction> {
    raised(correction.at.text(text), &correction.replacement).map(|text| Correction::new(correction.at, text))
}

/// The correction of a number that an editor need not decide, without what it would lower; of a name or of the design
/// there is none.
pub(super) fn may_be_raised(
    source: &Source,
    doubts: &Doubts,
    finding: &Finding,
    correction: &Correction,
) -> Option<Correction> {
    let is_decided = NAMES.contains(&finding.rule) || DESIGN.iter().any(|(rule, _)| *rule == finding.rule);
    let old = correction.at.text(&source.text);
    match lowers(old, &correction.replacement) {
        _ if is_decided || grows_beyond(old, &correction.replacement, MOST_GROWTH) => None,
        _ if doubts.is_of_every_size(&source.text, correction.at) => None,
        false => Some(correction.clone()),
        true => without_lowering(&source.text, correction),
    }
}

/// A text with its findings, on which corrections are tried.
struct Bench<'a> {
    source: &'a Source,
    settings: &'a Settings,
    outcome: &'a Outcome,
    before: BTreeMap<Key, usize>,
    /// Whether anything stands where findings are accepted.
    accepts: bool,
    /// Whether a number, or what numbers depend on, is stated twice.
    stated_twice: bool,
    /// Whether some of the file could not be read.
    broken: bool,
    /// What else makes it doubtful which numbers are meant.
    doubts: Doubts,
}

impl Bench<'_> {
    /// Whether other findings are accepted with a correction than without it.
    fn changes_acceptances(&self, correction: &Correction) -> bool {
        let text = Source::from_text(&self.source.path, correction.apply(&self.source.text));
        self.accepts && !accept_the_same(self.outcome, &found_and_accepted(&text, self.settings))
    }

    /// Whether a correction clears its finding and brings no other.
    fn brings_nothing(&self, finding: &Finding, correction: &Correction) -> bool {
        let text = Source::from_text(&self.source.path, correction.apply(&self.source.text));
        let after = counted(&found(&text, self.settings));
        let own = key(finding);
        let most = |key: &Key| self.before.get(key).copied().unwrap_or_default() - usize::from(*key == own);
        after.iter().all(|(key, count)| self.before.contains_key(key) && *count <= most(key))
    }
}

/// The other corrections of findings that can be put right at more places than one, and those that bring another
/// finding. They are forgotten once the best was chosen (`trial`), so the rules are asked again.
struct Others {
    of_finding: BTreeMap<usize, Vec<Correction>>,
}

impl Others {
    fn new(bench: &Bench<'_>, outcome: &Outcome) -> Others {
        if outcome.findings.iter().all(|finding| finding.level == Level::Note) {
            return Others { of_finding: BTreeMap::new() };
        }
        let untried = found(bench.source, bench.settings);
        let withheld = |index: &usize| outcome.findings.get(*index).is_some_and(|finding| finding.withheld.is_some());
        let several = untried.iter().enumerate();
        let several = several.filter(|(index, finding)| !finding.other_corrections.is_empty() || withheld(index));
        let of = |(index, finding): (usize, &Finding)| {
            let all = finding.correction.iter().chain(&finding.other_corrections);
            let chosen = outcome.findings.get(index).and_then(|finding| finding.correction.as_ref());
            let others = all
                .filter(|other| Some(*other) != chosen && (withheld(&index) || bench.brings_nothing(finding, other)));
            (index, others.cloned().collect())
        };
        Others { of_finding: several.map(of).collect() }
    }

    fn of(&self, index: usize) -> Vec<Correction> {
        self.of_finding.get(&index).cloned().unwrap_or_default()
    }
}
