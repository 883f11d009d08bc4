//! Changes of a text, as the editor makes them.

use std::collections::HashMap;

use gen_lsp_types::{
    Edit, OptionalVersionedTextDocumentIdentifier, TextDocumentEdit, TextDocumentIdentifier, TextEdit, WorkspaceEdit,
};
use similar::{DiffOp, TextDiff};

use super::client::Client;
use super::document::{Document, range_in};
use crate::finding::Correction;
use crate::manuscript::{PositionEncoding, Source, Span};

/// Changes of an open text, each in a place of its own.
pub(super) fn workspace_edit(document: &Document, corrections: &[Correction], client: Client) -> WorkspaceEdit {
    let edits = corrections.iter().map(|correction| text_edit(&document.source, correction, client.encoding));
    if !client.versioned_edits {
        let changes = HashMap::from([(document.uri.clone(), edits.collect())]);
        return WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() };
    }
    let text_document_identifier = TextDocumentIdentifier { uri: document.uri.clone() };
    let version = Some(document.version);
    let edit = TextDocumentEdit {
        text_document: OptionalVersionedTextDocumentIdentifier { version, text_document_identifier },
        edits: edits.map(Edit::TextEdit).collect(),
    };
    WorkspaceEdit { document_changes: Some(vec![edit.into()]), ..WorkspaceEdit::default() }
}

/// One change.
pub(super) fn text_edit(source: &Source, correction: &Correction, encoding: PositionEncoding) -> TextEdit {
    TextEdit { range: range_in(source, correction.at, encoding), new_text: correction.replacement.clone() }
}

/// What makes one text of another: of the lines that differ, the words that do.
pub(super) fn difference(before: &str, after: &str) -> Vec<Correction> {
    let lines = TextDiff::from_lines(before, after);
    let changed = changes(&lines).into_iter().flat_map(|(from, to)| {
        let (old, new) = (from.text(before), to.text(after));
        let words = TextDiff::from_words(old, new);
        let of_words = changes(&words).into_iter().map(move |(part, to)| {
            Correction::new(Span::new(from.start + part.start, from.start + part.end), to.text(new))
        });
        of_words.collect::<Vec<Correction>>()
    });
    changed.collect()
}

/// The places that differ, in the old text and in the new one.
fn changes(diff: &TextDiff<'_, '_, str>) -> Vec<(Span, Span)> {
    let (old, new) = (starts(diff.iter_old_slices()), starts(diff.iter_new_slices()));
    let ops = diff.ops().iter().filter(|op| !matches!(op, DiffOp::Equal { .. }));
    let places = ops.map(|op| {
        let (from, to) = (op.old_range(), op.new_range());
        (Span::new(old[from.start], old[from.end]), Span::new(new[to.start], new[to.end]))
    });
    places.collect()
}

/// Where each part of a text starts, and where the last one ends.
fn starts<'t>(parts: impl Iterator<Item = &'t str>) -> Vec<usize> {
    let mut starts = vec![0];
    for part in parts {
        starts.push(starts[starts.len() - 1] + part.len());
    }
    starts
}

#[cfg(test)]
mod tests {
    use super::difference;
    use crate::finding::Correction;
    use crate::manuscript::Span;

    fn made(before: &str, after: &str) -> String {
        let changes = difference(before, after);
        changes.iter().rev().fold(before.to_string(), |text, change| change.apply(&text))
    }

    #[test]
    fn the_difference_makes_one_text_of_the_other() {
        let texts = ["", "a\n", "a\r\nb: 6\r\nc", "a\r\nb: 16\r\nc\r\n", "\u{1f9f5} 6\n\u{1f9f6} 6\n", "b: 6\na\n"];
        for before in texts {
            for after in texts {
                assert_eq!(made(before, after), after, "{before:?}");
            }
        }
    }

    #[test]
    fn no_more_is_changed_than_differs() {
        let changed = difference("a\nb: { strips: 6 }\nc\n", "a\nb: { strips: 8 }\nc\n");
        assert_eq!(changed, [Correction::new(Span::new(15, 16), "8")]);
    }
}
