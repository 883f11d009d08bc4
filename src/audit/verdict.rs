//! The verdict on each stated number: its status and its working, from what is found about it.
//!
//! The working is that of the rule that found it. The margin decides between short and wrong where there is one. Of
//! several lines about one number, a finding belongs to those that need what it says is needed.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::{FoundHere, Line, Margin, Sign, Status};
use crate::check::Outcome;
use crate::finding::{Finding, Level};
use crate::manuscript::{Span, SpanIndex};

/// The rules beside those named `-short` that say that the number at their place is less than is needed.
const SAY_SHORT: [&str; 9] = [
    "bed-not-covered",
    "fold-barely-covers",
    "no-squaring-room",
    "piece-longer-than-strip",
    "seam-left-out",
    "sleeve-wrong",
    "spare-strip",
    "square-too-small",
    "tails-too-short",
];

fn says_short(rule: &str) -> bool {
    rule.ends_with("-short") || SAY_SHORT.contains(&rule)
}

/// A finding, and the reason where the editor has accepted it.
#[derive(Clone, Copy, Debug)]
struct FindingHere<'o> {
    finding: &'o Finding,
    because: Option<&'o str>,
}

impl FindingHere<'_> {
    fn here(self) -> FoundHere {
        let Finding { rule, level, .. } = *self.finding;
        FoundHere { rule, level, accepted: self.because.is_some() }
    }

    /// The rule's own working, and the reason for which the finding was accepted.
    fn working(self) -> String {
        let Finding { help, message, .. } = self.finding;
        let working = if help.is_empty() { message.clone() } else { help.lines().collect::<Vec<_>>().join(" ") };
        match self.because {
            Some(because) => format!("{working} Accepted: {because}"),
            None => working,
        }
    }
}

/// What is found in a manuscript, to be looked up by the numbers that it is about.
pub(super) struct Verdicts<'o> {
    found: Vec<FindingHere<'o>>,
    by_place: SpanIndex,
}

impl Verdicts<'_> {
    pub(super) fn new(outcome: &Outcome) -> Verdicts<'_> {
        let standing = outcome.findings.iter().map(|finding| FindingHere { finding, because: None });
        let accepted = outcome.accepted.iter();
        let accepted = accepted.map(|found| FindingHere { finding: &found.finding, because: Some(&found.because) });
        let found: Vec<FindingHere<'_>> = standing.chain(accepted).collect();
        let by_place = SpanIndex::new(found.iter().map(|found| found.finding.at.at));
        Verdicts { found, by_place }
    }

    /// Gives each number its verdict. A line that only takes a number as given is left out where another line checks
    /// the same number.
    pub(super) fn judge(&self, lines: Vec<Line>) -> Vec<Line> {
        let mut needed_there: BTreeMap<Span, Vec<String>> = BTreeMap::new();
        for line in lines.iter().filter(|line| line.status != Status::AsGiven) {
            needed_there.entry(line.at).or_default().push(line.needed.clone());
        }
        let is_checked_elsewhere = |line: &Line| line.status == Status::AsGiven && needed_there.contains_key(&line.at);
        let lines = lines.into_iter().filter(|line| !is_checked_elsewhere(line));
        lines.map(|line| self.line(&needed_there, line)).collect()
    }

    /// The findings about a line, the one that decides its status first.
    fn about(&self, needed_there: &BTreeMap<Span, Vec<String>>, line: &Line) -> Vec<FindingHere<'_>> {
        let others: &[String] = needed_there.get(&line.at).map_or(&[], Vec::as_slice);
        let is_about = |found: &FindingHere<'_>| {
            let Finding { size, needed, .. } = found.finding;
            let same_size = line.size.is_none() || size.is_none() || line.size == *size;
            // Of several lines about one number, a finding belongs to those that need what it says is needed.
            let says = |wanted: &String| needed.as_ref() == Some(wanted);
            same_size && (says(&line.needed) || !others.iter().any(says))
        };
        let here = self.by_place.overlapping(line.at).map(|index| self.found[index]);
        let mut about: Vec<FindingHere<'_>> = here.filter(is_about).collect();
        about.sort_by_key(|found| {
            let Finding { rule, level, needed, at, .. } = found.finding;
            let fits = says_short(rule) == (line.margin.sign() == Some(Sign::Short));
            let decides = (found.because.is_none(), *level, needed.as_ref() == Some(&line.needed), fits);
            (Reverse(decides), at.at)
        });
        about
    }

    fn line(&self, needed_there: &BTreeMap<Span, Vec<String>>, line: Line) -> Line {
        let about = self.about(needed_there, &line);
        let found = about.iter().map(|found| found.here()).collect();
        match about.first() {
            Some(first) => Line { found, ..judged(line, *first) },
            // The rule about it is off: the numbers speak for themselves.
            None if line.margin.sign() == Some(Sign::Short) => Line { status: Status::Short, ..line },
            None => line,
        }
    }
}

/// A line with the verdict of the finding that decides it.
fn judged(line: Line, found: FindingHere<'_>) -> Line {
    let Finding { rule, level, needed, .. } = found.finding;
    let short = says_short(rule);
    if *level != Level::Error && !short {
        // What no computation decides, an editor may.
        let is_decided = line.status != Status::NotChecked || *rule == "fabric-tight";
        let accepted = found.because.is_some() && is_decided;
        return match line.margin.sign() {
            _ if accepted => Line { status: Status::Accepted, working: found.working(), ..line },
            Some(Sign::Short) => Line { status: Status::Short, ..line },
            _ => line,
        };
    }
    if found.because.is_some() && line.status == Status::NotChecked {
        return line;
    }
    // The finding is about more than the line compares: its own numbers stand instead.
    let other_number = needed.as_ref().is_some_and(|needed| *needed != line.needed);
    let contradicts = (short || other_number) && line.margin.sign().is_some_and(|sign| sign != Sign::Short);
    let margin = if contradicts { Margin::default() } else { line.margin };
    let needed = match needed {
        Some(needed) if contradicts || line.needed.is_empty() => needed.clone(),
        _ => line.needed,
    };
    let status = match (found.because, margin.sign()) {
        (Some(_), _) => Status::Accepted,
        (None, Some(Sign::Short)) => Status::Short,
        (None, _) if short => Status::Short,
        (None, _) => Status::Wrong,
    };
    Line { status, margin, needed, working: found.working(), ..line }
}

#[cfg(test)]
mod tests {
    use super::SAY_SHORT;
    use crate::rules::RULES;

    #[test]
    fn every_rule_that_says_short_is_a_rule() {
        for name in SAY_SHORT {
            assert!(RULES.iter().any(|rule| rule.name == name), "{name}");
        }
    }
}
