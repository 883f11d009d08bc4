//! `fix`: what the project's own tests promise of it, of any text.

use sparestrip::fix::fix;
use sparestrip::manuscript::{Source, read};
use sparestrip::rule_book::Settings;

use super::{Fault, Kind, Target, hold, source};
use crate::pool::Seen;

#[path = "../../../support/fixed.rs"]
mod fixed;

pub(super) const TARGET: Target = Target {
    name: "fix",
    about: "the corrections of a manuscript are made together; nothing else changes, and a second run changes nothing",
    kind: Kind::Manuscript,
    share: 8,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = source(input);
    // Bytes that are no text are left as they are.
    if source.flaw.is_some() {
        let fixed = fix(&source, &Settings::default());
        return hold(fixed.changes.is_empty(), "a text with a flaw was changed", || format!("{:?}", fixed.changes));
    }
    let fixed = fixed::holds(&source.text);
    for change in &fixed.changes {
        seen.note(&["changed", change.rule, if change.beside { "beside" } else { "" }]);
    }
    for left in &fixed.left {
        let why = format!("{:?}", left.why);
        let rule = fixed.outcome.findings.get(left.finding).map_or("", |finding| finding.rule);
        seen.note(&["left", rule, why.split([' ', '(']).next().unwrap_or_default()]);
    }
    let unread = |text: &str| read(&Source::from_text("fuzzed.pattern.yaml", text)).mistakes.len();
    let (before, after) = (unread(&source.text), unread(&fixed.source.text));
    hold(after <= before, "more cannot be read than before", || format!("{before} and {after} mistakes"))
}
