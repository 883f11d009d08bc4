//! What must hold of every row of a worksheet: nothing in it contradicts anything else in it, or what is found.

use sparestrip::audit::{Line, Sign, Status, account};
use sparestrip::check::Outcome;
use sparestrip::finding::{Finding, Level};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// Rules that are no errors and say all the same that a number is too small.
const QUERIES_THAT_SAY_SHORT: [&str; 5] =
    ["bed-not-covered", "fold-barely-covers", "no-squaring-room", "pillow-back-short", "sleeve-wrong"];

/// Fails where a row of the worksheet of a manuscript contradicts itself or the findings. How many rows were short or
/// wrong.
pub fn no_row_contradicts_itself(text: &str) -> usize {
    let source = Source::from_text("rows.pattern.yaml", text);
    let account = account(&source, &Settings::default());
    for line in &account.lines {
        row_agrees(line, &account.outcome, text);
    }
    for finding in account.outcome.findings.iter().filter(|finding| finding.level == Level::Error) {
        let mut here = account.lines.iter().filter(|line| is_at(finding, line)).peekable();
        if here.peek().is_some() {
            let blamed = here.any(|line| matches!(line.status, Status::Short | Status::Wrong));
            assert!(blamed, "no row is short or wrong for {finding:#?} in:\n{text}");
        }
    }
    account.lines.iter().filter(|line| matches!(line.status, Status::Short | Status::Wrong)).count()
}

fn is_at(finding: &Finding, line: &Line) -> bool {
    let (one, other) = (finding.at.at, line.at);
    let same_size = finding.size.is_none() || line.size.is_none() || finding.size == line.size;
    one.start < other.end && other.start < one.end && same_size
}

fn row_agrees(line: &Line, outcome: &Outcome, text: &str) {
    let here = || outcome.findings.iter().filter(|finding| is_at(finding, line));
    let errors = || here().filter(|finding| finding.level == Level::Error);
    let says_short = || here().any(|finding| QUERIES_THAT_SAY_SHORT.contains(&finding.rule));
    let shown = line.margin.signed();
    let ctx = format!("{line:#?}\nin:\n{text}");
    assert_eq!(line.margin.sign() == Some(Sign::Short), shown.contains('-'), "{ctx}");
    match line.status {
        Status::Short => assert!(shown.is_empty() || shown.contains('-'), "short, and not less than is needed: {ctx}"),
        Status::Wrong => assert!(!shown.contains('-'), "short, and called wrong: {ctx}"),
        Status::Ok => assert!(!shown.contains('-'), "OK, and less than is needed: {ctx}"),
        Status::AsGiven | Status::NotChecked => assert_eq!((shown.as_str(), line.needed.as_str()), ("", ""), "{ctx}"),
        Status::Accepted => {
            assert!(outcome.accepted.iter().any(|accepted| is_at(&accepted.finding, line)), "{ctx}");
            assert!(errors().next().is_none(), "accepted, and an error: {ctx}");
        }
    }
    if matches!(line.status, Status::Short | Status::Wrong) {
        assert!(errors().next().is_some() || says_short(), "blamed, and nothing is found: {ctx}");
        let tells = |finding: &Finding| {
            let help = finding.help.lines().collect::<Vec<_>>().join(" ");
            line.working == if help.is_empty() { finding.message.clone() } else { help }
        };
        assert!(here().any(tells), "the working is not that of what is found: {ctx}");
    }
}
