//! What is needed, beside each number that is stated; for those who ask for it.

use gen_lsp_types::{InlayHint, Range};

use super::Service;
use super::document::{Document, FileKind};
use crate::audit::{Status, account, counted_once};
use crate::manuscript::Span;
use crate::report::sanitize_line;

/// The hints in a part of a text.
pub(super) fn hints(service: &Service, document: &Document, range: Range) -> Vec<InlayHint> {
    if !service.options.hints || document.kind != FileKind::Manuscript {
        return Vec::new();
    }
    let encoding = service.client.encoding;
    let wanted = document.span(range, encoding);
    let account = account(&document.source, &service.surroundings.settings(document.folder()));
    let lines = counted_once(&account.lines).into_iter();
    let lines = lines.filter(|line| !line.needed.is_empty() && line.status != Status::AsGiven);
    let lines = lines.filter(|line| wanted.start <= line.at.end && line.at.end <= wanted.end);
    let hint = |line: &crate::audit::Line| InlayHint {
        position: document.range(Span::new(line.at.end, line.at.end), encoding).start,
        label: format!("needed: {}", sanitize_line(&line.needed)).into(),
        kind: None,
        text_edits: None,
        tooltip: Some(sanitize_line(&line.working).into()),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    lines.map(hint).collect()
}
