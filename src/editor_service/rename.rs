//! Giving a size, a fabric, a piece, a unit or a block another name, wherever it stands in the file.
//!
//! The text with the new name is read again: every name must be what it was, but for the one that is another, and nothing
//! may be found that was not found before. So nothing is renamed into what means something else.

use std::collections::BTreeMap;

use gen_lsp_types::{PrepareRenamePlaceholder, WorkspaceEdit};

use super::client::Client;
use super::document::{Asked, Document};
use super::edits::workspace_edit;
use super::message::Refusal;
use super::names::{Name, NameKind, Named, Names, Part};
use super::navigation::with_names;
use super::outline::with_outline;
use super::{Service, findings};
use crate::check::{Corrections, Outcome, check_with};
use crate::finding::Correction;
use crate::manuscript::declared_names::is_fit_name;
use crate::manuscript::{EVERY_SIZE, Source, is_plain, name_in_place};
use crate::report::sanitize_line;
use crate::rules::TEXT_RULES;

/// The name at a place, where it can be renamed.
pub(super) fn prepare(asked: Asked<'_>, client: Client) -> Option<PrepareRenamePlaceholder> {
    let found = with_names(asked.document, |names| {
        let (name, at, _) = names.at(asked.byte)?;
        let range = asked.document.range(at, client.encoding);
        Some(PrepareRenamePlaceholder { range, placeholder: name.name.clone() })
    });
    found.flatten()
}

/// The edit that gives the name at a place another.
///
/// # Errors
/// Where the new name is none, is taken, or would mean something else somewhere; and where part of the file cannot be
/// read, so that the old name may stand there.
pub(super) fn rename(service: &Service, asked: Asked<'_>, new: &str) -> Result<WorkspaceEdit, Refusal> {
    let Asked { document, byte } = asked;
    let corrections = with_outline(&document.source, document.kind.format(), |outline| {
        let names = Names::of(outline);
        let Some((name, ..)) = names.at(byte) else {
            return Err(Refusal::cannot("there is no name of a size, fabric, piece, unit or block here"));
        };
        if !outline.whole {
            return Err(Refusal::cannot("part of the file cannot be read: put that right first"));
        }
        is_free(&names, name, new)?;
        let corrections = renaming(&document.source.text, &names, name, new);
        means_the_same(document, &names, name, new, &corrections)?;
        Ok(corrections)
    });
    let corrections = corrections.unwrap_or_else(|| Err(Refusal::cannot("there is nothing in the file")))?;
    finds_nothing_new(service, document, &corrections)?;
    Ok(workspace_edit(document, &corrections, service.client))
}

/// Says why a new name cannot be given, where it cannot.
fn is_free(names: &Names, name: &Name, new: &str) -> Result<(), Refusal> {
    let kind = name.kind.word();
    if !is_fit_name(new) || new.trim() != new {
        let words =
            format!("the name of a {kind} takes 1 to 60 characters, all of them visible, and no space at its ends");
        return Err(Refusal::cannot(words));
    }
    if name.kind == NameKind::Size && new == EVERY_SIZE {
        return Err(Refusal::cannot(format!("{EVERY_SIZE} stands for all sizes, and cannot be the name of one")));
    }
    // The rows of a block may name either of these.
    let kinds: &[NameKind] = match name.kind {
        NameKind::Unit | NameKind::Block => &[NameKind::Unit, NameKind::Block],
        _ => std::slice::from_ref(&name.kind),
    };
    let taken = |kind: &&NameKind| names.of_kind(**kind).any(|other| other == new);
    match kinds.iter().find(taken).filter(|_| new != name.name) {
        Some(kind) => Err(Refusal::cannot(format!("there is a {} {} already", kind.word(), sanitize_line(new)))),
        None => Ok(()),
    }
}

/// The changes that give a name another wherever it stands.
fn renaming(text: &str, names: &Names, name: &Name, new: &str) -> Vec<Correction> {
    let with_it = names.all.iter().filter(|named| named.names().iter().any(|(other, _)| *other == name));
    with_it.map(|named| Correction::new(named.at, written(text, named, name, new))).collect()
}

/// A value with another name in place of one, in quotation marks where YAML needs them.
fn written(text: &str, named: &Named, name: &Name, new: &str) -> String {
    let (old, value) = (named.at.text(text), named.with(name, new));
    let is_quoted = old.starts_with(['"', '\'']);
    if named.parts.len() == 1 {
        return name_in_place(&value, old);
    }
    // What stands beside the name was read without quotation marks, and is read so again.
    if !is_quoted && is_plain(new) { value } else { name_in_place(&value, "\"") }
}

/// Says where a text would not be the same but for the name.
fn means_the_same(
    document: &Document,
    names: &Names,
    name: &Name,
    new: &str,
    corrections: &[Correction],
) -> Result<(), Refusal> {
    let renamed = Name { kind: name.kind, name: new.to_string() };
    let expected = names.all.iter().map(|named| parts_with(&named.parts, name, &renamed));
    let text = Source::from_text(&document.source.path, applied(&document.source.text, corrections));
    let same = with_outline(&text, document.kind.format(), |outline| {
        let now = Names::of(outline);
        outline.whole && now.all.iter().map(|named| named.parts.clone()).eq(expected)
    });
    if same == Some(true) {
        return Ok(());
    }
    Err(Refusal::cannot(format!("{} would mean something else in some place", sanitize_line(new))))
}

fn parts_with(parts: &[Part], name: &Name, renamed: &Name) -> Vec<Part> {
    let part = |part: &Part| match part {
        Part::Name(known) if known == name => Part::Name(renamed.clone()),
        part => part.clone(),
    };
    parts.iter().map(part).collect()
}

/// Says which finding a change would bring.
fn finds_nothing_new(service: &Service, document: &Document, corrections: &[Correction]) -> Result<(), Refusal> {
    let settings = service.surroundings.settings(document.folder());
    let text = Source::from_text(&document.source.path, applied(&document.source.text, corrections));
    let before = by_rule(&findings::outcome(document, &service.surroundings, &service.printed, Corrections::LeftOut));
    let after = by_rule(&check_with(&text, &settings, Corrections::LeftOut));
    let is_new = |(rule, count): &(&&'static str, &usize)| **count > before.get(**rule).copied().unwrap_or_default();
    match after.iter().find(is_new) {
        Some((rule, _)) => Err(Refusal::cannot(format!("it would bring another finding: {rule}"))),
        None => Ok(()),
    }
}

/// How many findings there are of each rule. How they are worded depends on names, and a printed text has the old name
/// until it is changed too.
fn by_rule(outcome: &Outcome) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    for finding in outcome.findings.iter().filter(|finding| !TEXT_RULES.contains(&finding.rule)) {
        *counts.entry(finding.rule).or_default() += 1;
    }
    counts
}

/// The text with changes made, each in a place of its own, in the order of the text.
fn applied(text: &str, corrections: &[Correction]) -> String {
    corrections.iter().rev().fold(text.to_string(), |text, correction| correction.apply(&text))
}
