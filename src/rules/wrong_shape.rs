//! One value where words with values are expected, or the other way round.
//!
//! A rule of its own beside `unreadable-quantity`: a list where one value belongs is corrected in another way than a
//! number that cannot be read.

use super::{Context, mistakes, sentence};
use crate::finding::{Finding, Label};
use crate::manuscript::{MistakeKind, Span, WORDS_WITH_VALUES, quoted};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::WrongShape { word, expected, example } => {
            if *expected == WORDS_WITH_VALUES {
                // The word as the writer sees it, rather than the section that it stands in.
                let written = mistake.related.as_ref().map(|(at, _)| at.text(&context.source.text));
                return Some(needs_words(written.unwrap_or(word), mistake.at, example));
            }
            let place = if word.is_empty() { "here".to_string() } else { format!("for \"{word}\"") };
            // Where the example would only say again what is expected.
            let help = if example == expected {
                "Write one value after the colon.".to_string()
            } else {
                format!("For example: {example}")
            };
            Some(
                Finding::new(
                    Label::new(mistake.at, format!("{expected} is expected here")),
                    sentence(&format!("{expected} is expected {place}, and something else is written.")),
                )
                .help(help),
            )
        }
        _ => None,
    });
}

fn needs_words(word: &str, at: Span, example: &str) -> Finding {
    let subject = match quoted(word.trim_matches(['"', '\''])).as_str() {
        "the file" => "The file".to_string(),
        word => format!("\"{word}\""),
    };
    let message = format!("{subject} needs words with values, such as {example}.");
    Finding::new(Label::new(at, "not a word with a value"), message)
        .help("Write each word, a colon, a space and its value.")
}
