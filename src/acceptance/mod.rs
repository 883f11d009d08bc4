//! Findings that the editor has accepted: which they are, and which acceptances accept nothing.
//!
//! An acceptance holds for one thing and one number: its rule, its size, its subject and what is stated there must all
//! be those of the finding.

mod number;
mod written;

use std::collections::BTreeMap;

use crate::finding::{Finding, Subject, SubjectKind};
use crate::manuscript::model::Accepted;
use crate::manuscript::{Manuscript, Source, Span};
use crate::rules::{RULES, Unused, WhyUnused, is_never_accepted};

use number::AcceptedNumber;

/// A finding that the editor has accepted, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AcceptedFinding {
    /// The finding.
    pub finding: Finding,
    /// Why it was accepted.
    pub because: String,
}

/// Findings with the acceptances laid over them.
#[derive(Debug, Default)]
pub(crate) struct Applied {
    /// The findings that nobody has accepted.
    pub(crate) findings: Vec<Finding>,
    /// Those that are accepted.
    pub(crate) accepted: Vec<AcceptedFinding>,
    /// The acceptances that accept nothing.
    pub(crate) unused: Vec<Unused>,
}

/// Takes out the findings that are accepted, and tells which acceptances of the rules that were asked accept nothing.
/// `text_of` gives the text that a finding's place is in.
pub(crate) fn apply<'t>(
    source: &Source,
    manuscript: &Manuscript,
    findings: Vec<Finding>,
    text_of: &dyn Fn(&Finding) -> &'t str,
    is_asked: &dyn Fn(&str) -> bool,
) -> Applied {
    let stated = &manuscript.accepted;
    if stated.is_empty() {
        return Applied { findings, ..Applied::default() };
    }
    let mut uses = vec![Used::default(); stated.len()];
    let named = by_rule_and_size(stated);
    let mut laid = Applied::default();
    for finding in findings {
        let known = !is_never_accepted(finding.rule);
        let candidates = named.get(&(finding.rule, finding.size.as_deref())).filter(|_| known);
        match candidates
            .and_then(|candidates| accepting(text_of(&finding), manuscript, &finding, candidates, &mut uses))
        {
            Some(Accepting::This(because)) => laid.accepted.push(AcceptedFinding { finding, because }),
            Some(Accepting::Other { at, word, number, now }) => {
                laid.findings.push(with_other_number(finding, at, word, (&number, &now)));
            }
            None => laid.findings.push(finding),
        }
    }
    laid.unused = unused(source, manuscript, &uses);
    laid.unused.retain(|unused| is_asked(&unused.rule.value));
    laid
}

/// What an acceptance came to.
#[derive(Clone, Debug, Default)]
struct Used {
    /// Whether a finding was accepted by it, or is told of it.
    used: bool,
    /// What it lacks for each of the findings that it may mean.
    lacks: Vec<Vec<(&'static str, String)>>,
}

/// How a finding is accepted.
enum Accepting {
    /// It is, for this reason.
    This(String),
    /// It was, with another number, or where something else was needed.
    Other { at: Span, word: &'static str, number: String, now: String },
}

/// The acceptances for each rule and size.
fn by_rule_and_size(accepted: &[Accepted]) -> BTreeMap<(&str, Option<&str>), Vec<usize>> {
    let mut named: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (index, accepted) in accepted.iter().enumerate().filter(|(_, accepted)| is_complete(accepted)) {
        if let Some(rule) = accepted.rule.stated() {
            let size = accepted.size.stated().map(|size| size.value.as_str());
            named.entry((rule.value.as_str(), size)).or_default().push(index);
        }
    }
    named
}

/// Whether everything was read that it says, and it gives a reason.
fn is_complete(accepted: &Accepted) -> bool {
    let subject_read = accepted.subject().into_iter().all(|(_, name)| !name.is_unread());
    let numbers_read = !accepted.stated.is_unread() && !accepted.needed.is_unread();
    accepted.because.stated().is_some() && !accepted.size.is_unread() && numbers_read && subject_read
}

/// How a finding is accepted by those that name its rule and its size.
fn accepting(
    text: &str,
    manuscript: &Manuscript,
    finding: &Finding,
    candidates: &[usize],
    uses: &mut [Used],
) -> Option<Accepting> {
    let number = AcceptedNumber::of(text, manuscript.measure, finding);
    let mut other = None;
    for index in candidates {
        let accepted = &manuscript.accepted[*index];
        let subject = subject(accepted);
        let stated = accepted.stated.stated();
        if !names(manuscript, &subject, &finding.subject) {
            if may_mean(&subject, &finding.subject) {
                uses[*index].lacks.push(lacking(&subject, finding, stated.map_or(number.as_ref(), |_| None)));
            }
            continue;
        }
        match (&number, stated) {
            (Some(number), None) => {
                uses[*index].lacks.push(lacking(&finding.subject, finding, Some(number)));
                continue;
            }
            (Some(number), Some(stated)) if !number.is(&stated.value) => {
                uses[*index].used = true;
                let (at, now) = (stated.at, number.text.clone());
                other.get_or_insert(Accepting::Other { at, word: "stated", number: stated.value.clone(), now });
                continue;
            }
            (None, _) | (Some(_), Some(_)) => {}
        }
        let needed = AcceptedNumber::needed(manuscript.measure, finding);
        if let Some((needed, accepted)) = needed.zip(accepted.needed.stated())
            && !needed.is(&accepted.value)
        {
            uses[*index].used = true;
            let (at, number) = (accepted.at, accepted.value.clone());
            other.get_or_insert(Accepting::Other { at, word: "needed", number, now: needed.text });
            continue;
        }
        uses[*index].used = true;
        return accepted.because.stated().map(|because| Accepting::This(because.value.clone()));
    }
    other
}

/// What an acceptance names besides its rule and its size.
fn subject(accepted: &Accepted) -> Subject {
    let names = accepted.subject().into_iter().filter_map(|(kind, name)| Some((kind, name.stated()?)));
    names.fold(Subject::default(), |subject, (kind, name)| subject.and(kind, name.value.trim()))
}

/// Whether it names all that the finding is about. A piece that only one fabric has need not be named with its fabric.
fn names(manuscript: &Manuscript, named: &Subject, about: &Subject) -> bool {
    if named == about {
        return true;
    }
    let Some(piece) = named.get(SubjectKind::Piece).filter(|_| named.get(SubjectKind::Fabric).is_none()) else {
        return false;
    };
    let cuts = manuscript.fabrics.iter().flat_map(|fabric| &fabric.cut);
    let alike = cuts.filter(|cut| cut.piece.stated().is_some_and(|name| name.value == piece)).count();
    let with_fabric = about.get(SubjectKind::Fabric).map(|fabric| named.clone().and(SubjectKind::Fabric, fabric));
    alike == 1 && with_fabric.is_some_and(|named| named == *about)
}

/// Whether it names nothing that the finding is not about, though not all of it.
fn may_mean(named: &Subject, about: &Subject) -> bool {
    named.words().all(|word| about.words().any(|other| other == word))
}

/// The words that an acceptance lacks for a finding, each with its value.
fn lacking(named: &Subject, finding: &Finding, number: Option<&AcceptedNumber>) -> Vec<(&'static str, String)> {
    let lacks = finding.subject.words().filter(|(word, _)| named.words().all(|(other, _)| other != *word));
    let mut lacks: Vec<(&'static str, String)> = lacks.map(|(word, name)| (word, name.to_string())).collect();
    if let Some(number) = number {
        lacks.push(("stated", number.text.clone()));
        // With it the acceptance ends once something else is needed.
        lacks.extend(AcceptedNumber::needed(number.measure, finding).map(|needed| ("needed", needed.text)));
    }
    lacks
}

/// A finding that was accepted with another number than it has.
fn with_other_number(finding: Finding, at: Span, word: &str, (accepted, now): (&str, &str)) -> Finding {
    let (accepted, now) = (written::shown(accepted), written::shown(now));
    let (label, was) = match word {
        "needed" => {
            (format!("accepted where {accepted} was needed"), format!("It was accepted where {accepted} was needed"))
        }
        _ => (format!("accepted with {accepted}, and not with {now}"), format!("It was accepted with {accepted}")),
    };
    finding.see(Some(at), label).help(format!(
        "{was}, and {now} is {word} now. To accept that instead, write \"{word}: {now}\" in the acceptance."
    ))
}

/// The acceptances that accept nothing.
fn unused(source: &Source, manuscript: &Manuscript, uses: &[Used]) -> Vec<Unused> {
    let not_used = manuscript.accepted.iter().zip(uses).filter(|(accepted, used)| !used.used && is_complete(accepted));
    let unused = not_used.filter_map(|(accepted, used)| as_unused(source, accepted, used));
    // What could not be read might be what the acceptance is for.
    unused.filter(|unused| manuscript.whole || unused.why != WhyUnused::NothingIsFound).collect()
}

fn as_unused(source: &Source, accepted: &Accepted, used: &Used) -> Option<Unused> {
    let rule = accepted.rule.stated()?.clone();
    RULES.iter().find(|known| known.name == rule.value)?;
    let why = if is_never_accepted(&rule.value) {
        WhyUnused::CannotBeAccepted
    } else if used.lacks.is_empty() {
        WhyUnused::NothingIsFound
    } else {
        WhyUnused::Lacks(used.lacks.iter().map(|lacks| written::in_flow(lacks)).collect())
    };
    let correction = match &used.lacks[..] {
        [lacks] => written::add(source, rule.at, lacks),
        _ => None,
    };
    let size = accepted.size.stated().map(|size| size.value.clone());
    Some(Unused { rule, size, subject: subject(accepted), why, correction })
}
