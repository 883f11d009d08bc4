//! Findings that the editor has accepted: which they are, and which acceptances no finding used.

use std::collections::BTreeMap;

use crate::finding::Finding;
use crate::manuscript::Manuscript;
use crate::manuscript::model::Accepted;
use crate::rules::{RULES, Unused};

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
pub(crate) struct Laid {
    /// The findings that nobody has accepted.
    pub(crate) findings: Vec<Finding>,
    /// Those that are accepted.
    pub(crate) accepted: Vec<AcceptedFinding>,
    /// The acceptances that were of no use.
    pub(crate) unused: Vec<Unused>,
}

/// Takes out the findings that are accepted, and tells which acceptances were of no use.
pub(crate) fn lay(manuscript: &Manuscript, findings: Vec<Finding>) -> Laid {
    let stated = &manuscript.accepted;
    let mut used = vec![false; stated.len()];
    let accepting = acceptances(stated);
    let mut laid = Laid::default();
    for finding in findings {
        let accepting = accepting.get(&(finding.rule, finding.size.as_deref())).copied();
        match accepting.and_then(|index| stated[index].because.stated().map(|because| (index, because))) {
            Some((index, because)) => {
                used[index] = true;
                laid.accepted.push(AcceptedFinding { finding, because: because.value.clone() });
            }
            None => laid.findings.push(finding),
        }
    }
    // What could not be read might be what the acceptance is for.
    if manuscript.whole {
        let unused = stated.iter().zip(used).filter(|(accepted, used)| !used && could_be_used(accepted));
        laid.unused = unused.filter_map(|(accepted, _)| as_unused(accepted)).collect();
    }
    laid
}

/// The rule and the size that each acceptance is for. Where two are for the same, the first counts.
fn acceptances(accepted: &[Accepted]) -> BTreeMap<(&str, Option<&str>), usize> {
    let mut first = BTreeMap::new();
    for (index, accepted) in accepted.iter().enumerate().filter(|(_, accepted)| !accepted.size.is_unread()) {
        if let Some(rule) = accepted.rule.stated() {
            let size = accepted.size.stated().map(|size| size.value.as_str());
            first.entry((rule.value.as_str(), size)).or_insert(index);
        }
    }
    first
}

/// Whether the entry itself was read. Of a finding that no rule can make there is another finding.
fn could_be_used(accepted: &Accepted) -> bool {
    let complete = accepted.because.stated().is_some() && !accepted.size.is_unread();
    complete && accepted.rule.stated().is_some_and(|rule| RULES.iter().any(|known| known.name == rule.value))
}

fn as_unused(accepted: &Accepted) -> Option<Unused> {
    let rule = accepted.rule.stated()?.clone();
    Some(Unused { rule, size: accepted.size.stated().cloned() })
}
