//! What was corrected in a manuscript, a line each, and what is left to an editor, with the choices.

use super::sanitize_line;
use crate::finding::{Correction, Level};
use crate::fix::{Change, Choice, Fixed, Left, MOST_ROUNDS, Why};
use crate::manuscript::{Place, Source};
use crate::quantity::Count;

/// The longest text that is shown of what stood there and what stands there now.
const LONGEST: usize = 60;

/// How much of a message is shown at least, in bytes, unless it has said what is needed before.
const ENOUGH: usize = 40;

/// The lines for one file: what was corrected, then what is left.
pub fn fix_lines(fixed: &Fixed) -> Vec<String> {
    let mut lines: Vec<String> = fixed.changes.iter().map(|change| changed(&fixed.source, change)).collect();
    let (following, left): (Vec<&Left>, Vec<&Left>) =
        fixed.left.iter().partition(|left| matches!(left.why, Why::Follows { .. }));
    for left in left {
        lines.push(left_line(fixed, left));
        lines.extend(left.choices.iter().map(|choice| choice_line(&fixed.source, choice)));
    }
    if !following.is_empty() {
        let (count, follow) = (Count(following.len() as u64), if following.len() == 1 { "follows" } else { "follow" });
        lines.push(format!("{}: {} that {follow} from these", name(&fixed.source), count.of("finding")));
    }
    if fixed.is_unfinished {
        lines.push(format!("{}: stopped after {MOST_ROUNDS} rounds: run it again", name(&fixed.source)));
    }
    lines
}

/// The total of several files, in words: `1 manuscript: 3 fixed, 2 left to you`.
pub fn fix_total<'f>(files: impl Iterator<Item = &'f Fixed>) -> String {
    let (mut manuscripts, mut changes, mut left) = (0, 0, 0);
    for fixed in files {
        manuscripts += 1;
        changes += fixed.changes.len();
        left += fixed.left.len();
    }
    let fixed = if changes == 0 { "nothing to fix".to_string() } else { format!("{changes} fixed") };
    let left = if left == 0 { String::new() } else { format!(", {left} left to you") };
    format!("{}: {fixed}{left}", Count(manuscripts).of("manuscript"))
}

fn name(source: &Source) -> String {
    sanitize_line(&source.path.to_string_lossy())
}

fn placed(source: &Source, place: Place) -> String {
    format!("{}:{}:{}", name(source), place.line, place.column)
}

/// `x.pattern.yaml:80:17: fixed (twin, piece B): 68 -> 70 (pieces-short: 68 pieces of B stated; 70 needed)`.
fn changed(source: &Source, change: &Change) -> String {
    let place = placed(source, source.place(change.at.start));
    let about = change.about.as_ref().map(|about| format!(" ({about})")).unwrap_or_default();
    let (old, new, why) = (shown_short(&change.old), shown_short(&change.new), first_part(&change.message));
    let fixed = if change.beside { "and with it" } else { "fixed" };
    sanitize_line(&format!("{place}: {fixed}{about}: {old} -> {new} ({}: {why})", change.rule))
}

/// `x.pattern.yaml:45:34: left to you: no-squaring-room (queen): 3/4 yd stated; 7/8 yd needed`.
fn left_line(fixed: &Fixed, left: &Left) -> String {
    let Some(finding) = fixed.outcome.findings.get(left.finding) else { return String::new() };
    let place = placed(&fixed.source, fixed.source.place(finding.at.at.start));
    let about = finding.about_words().map(|about| format!(" ({about})")).unwrap_or_default();
    let (why, message) = (left.why.words(), first_part(&finding.message));
    let level = if finding.level == Level::Error { "error, " } else { "" };
    sanitize_line(&format!("{place}: left to you ({level}{why}): {}{about}: {message}", finding.rule))
}

fn choice_line(source: &Source, choice: &Choice) -> String {
    match choice {
        Choice::Text(Correction { at, replacement }) => {
            let line = source.place(at.start).line;
            sanitize_line(&format!(
                "  choice, line {line}: {} -> {}",
                shown_short(at.text(&source.text)),
                shown_short(replacement)
            ))
        }
        Choice::Words(words) => format!("  or {words}"),
    }
}

/// A text on one line, and not too long a one.
pub(crate) fn shown_short(text: &str) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match line.char_indices().nth(LONGEST) {
        _ if line.is_empty() => "nothing".to_string(),
        Some((end, _)) => format!("{}...", &line[..end]),
        None => line,
    }
}

/// The beginning of a message, up to a colon, where that says enough: what is stated and what is needed.
fn first_part(message: &str) -> &str {
    // Not a colon within an example in braces.
    let is_outside = |at: &usize| message[..*at].matches('{').count() == message[..*at].matches('}').count();
    let ends = message.match_indices(": ").map(|(at, _)| at).filter(is_outside);
    let is_enough = |end: &usize| *end >= ENOUGH || message[..*end].contains("needed");
    let end = ends.chain([message.len()]).find(is_enough).unwrap_or(message.len());
    message[..end].trim_end_matches('.')
}

/// A sign-off that was true of the text as it was, and is not of the text as it is.
pub fn no_longer_signed(source: &Source, by: &str) -> String {
    sanitize_line(&format!(
        "{}: the sign-off by {by} no longer holds: sign it again when you have looked at the changes",
        name(source)
    ))
}
