//! Acceptances as they are written in a manuscript.

use crate::finding::Correction;
use crate::manuscript::{Source, Span};
use crate::sanitize::escape_json;

/// Words that YAML does not read as text.
const NOT_TEXT: [&str; 7] = ["null", "true", "false", "yes", "no", "on", "off"];

/// Words with their values as a list in braces has them: `fabric: ink, stated: 1/2 yd`.
pub(super) fn in_flow(words: &[(&str, String)]) -> String {
    words.iter().map(|(word, value)| format!("{word}: {}", value_text(value))).collect::<Vec<_>>().join(", ")
}

/// A number within a sentence.
pub(super) fn shown(value: &str) -> String {
    value_text(value)
}

/// Adds words to an acceptance, after the rule that it names.
pub(super) fn add(source: &Source, rule: Span, words: &[(&str, String)]) -> Option<Correction> {
    let text = &source.text;
    let line = text[..rule.start].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let before = &text[line..rule.start];
    let key = before.rfind("rule")?;
    let is_key = before[key + 4..].trim_matches(' ') == ":";
    let in_braces = before.contains('{');
    if !is_key || !in_braces && before[..key].chars().any(|c| !matches!(c, ' ' | '-')) {
        return None;
    }
    let own = rule.text(text);
    if in_braces {
        return Some(Correction::new(rule, format!("{own}, {}", in_flow(words))));
    }
    // What follows on the rule's own line, a comment, stays behind it.
    let rest = text[rule.end..].find(['\n', '\r']).map_or(text.len(), |end| rule.end + end);
    let end = if text[rest..].starts_with("\r\n") { "\r\n" } else { "\n" };
    let lines: String =
        words.iter().map(|(word, value)| format!("{end}{}{word}: {}", " ".repeat(key), value_text(value))).collect();
    let whole = Span::new(rule.start, rest);
    Some(Correction::new(whole, format!("{}{lines}", whole.text(text).trim_end())))
}

/// A value as YAML reads it back, in braces as well.
fn value_text(value: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '/' | '.' | '(' | ')' | '_' | '-');
    let starts = value.starts_with(char::is_alphanumeric) && !value.ends_with(' ');
    if starts && value.chars().all(plain) && !NOT_TEXT.contains(&value.to_lowercase().as_str()) {
        return value.to_string();
    }
    let quoted = serde_json::to_string(value).unwrap_or_default();
    escape_json(&quoted)
}
