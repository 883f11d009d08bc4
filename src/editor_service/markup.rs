//! Explanations in the form that the editor draws.

use gen_lsp_types::{MarkupContent, MarkupKind};

use super::client::Client;
use crate::report::sanitize_line;

/// Paragraphs that explain something.
#[derive(Debug, Default)]
pub(super) struct Markup {
    markdown: bool,
    paragraphs: Vec<String>,
}

impl Markup {
    pub(super) fn new(client: Client) -> Markup {
        Markup { markdown: client.markdown, paragraphs: Vec::new() }
    }

    /// Whether nothing was said.
    pub(super) const fn is_empty(&self) -> bool {
        self.paragraphs.is_empty()
    }

    /// Adds a paragraph: what it is about, which stands out, and its words.
    pub(super) fn about(&mut self, head: &str, words: &str) {
        let (head, words) = (self.plain(head), self.plain(words));
        let head = if self.markdown { format!("**{head}**") } else { head };
        self.paragraphs.push(if words.is_empty() { head } else { format!("{head}: {words}") });
    }

    /// Adds a paragraph; a text of several lines adds several.
    pub(super) fn say(&mut self, words: &str) {
        for line in words.lines().filter(|line| !line.trim().is_empty()) {
            let line = self.plain(line);
            self.paragraphs.push(line);
        }
    }

    /// Words that mean nothing to Markdown, and steer nothing. `x` in backticks stays a word of the format.
    fn plain(&self, words: &str) -> String {
        let words = sanitize_line(words);
        if !self.markdown {
            return words.replace('`', "");
        }
        let mut plain = String::with_capacity(words.len());
        let mut in_code = false;
        for c in words.chars() {
            in_code ^= c == '`';
            if !in_code && "\\*_{}[]<>#|~&!".contains(c) {
                plain.push('\\');
            }
            plain.push(c);
        }
        if in_code {
            plain = plain.replace('`', "\\`");
        }
        plain
    }

    /// All of it.
    pub(super) fn content(self) -> MarkupContent {
        let kind = if self.markdown { MarkupKind::Markdown } else { MarkupKind::PlainText };
        MarkupContent { kind, value: self.paragraphs.join("\n\n") }
    }
}
