//! What stands at a place: what is found there, what is needed and how that is worked out, and what the word means.

use gen_lsp_types::Hover;

use super::Service;
use super::document::Asked;
use super::document::FileKind;
use super::markup::Markup;
use super::names::{NameKind, Names};
use super::outline::{Lead, Outline, Spot, Word, with_outline};
use crate::audit::{Audit, Line, account};
use crate::caution::{CRIB, CribQuilts};
use crate::finding::Finding;
use crate::manuscript::Span;
use crate::manuscript::section::{LeftOut, Shape};
use crate::report::{goes_with, left_out_in_force};
use crate::rule_book::{Settings, book, page};

/// How many of the numbers at one place are explained: a size for each of several borders, say.
const MAX_NUMBERS: usize = 6;

/// What there is to say of a place.
pub(super) fn hover(service: &Service, asked: Asked<'_>) -> Option<Hover> {
    let Asked { document, byte } = asked;
    let settings = service.surroundings.settings(document.folder());
    let mut markup = Markup::new(service.client);
    let found = with_outline(&document.source, document.kind.format(), |outline| {
        let spot = outline.at(byte)?;
        let at = spot.key().map(|(_, at)| at).filter(|at| holds(*at, byte)).unwrap_or(spot.node.at);
        if document.kind == FileKind::Manuscript {
            let account = account(&document.source, &settings);
            numbers(&account, byte, &mut markup);
            names(outline, &account, byte, &mut markup);
        }
        words(outline, spot, byte, &settings, &mut markup);
        Some(at)
    });
    let at = found.flatten().filter(|_| !markup.is_empty())?;
    Some(Hover { contents: markup.content().into(), range: Some(document.range(at, service.client.encoding)) })
}

const fn holds(at: Span, byte: usize) -> bool {
    at.start <= byte && byte <= at.end
}

/// What is found here, and the numbers with what is needed.
fn numbers(account: &Audit, byte: usize, markup: &mut Markup) {
    let found = account.outcome.findings.iter().filter(|finding| holds(finding.at.at, byte));
    for Finding { rule, level, message, help, .. } in found {
        markup.about(&format!("{}: {rule}", level.word()), message);
        markup.say(help);
    }
    let mut lines: Vec<&Line> = account.lines.iter().filter(|line| holds(line.at, byte)).collect();
    lines.dedup_by_key(|line| (&line.size, &line.number, &line.needed));
    for line in lines.iter().take(MAX_NUMBERS) {
        let size = line.size.as_ref().map(|size| format!(" ({size})")).unwrap_or_default();
        let needed = if line.needed.is_empty() { String::new() } else { format!("; {} needed", line.needed) };
        markup.about(&format!("{}{size}", line.number), &format!("{} stated{needed}: {}", line.stated, line.result()));
        // A finding has its working with it.
        if line.found.iter().all(|found| found.accepted) {
            markup.say(&line.working);
        }
    }
}

/// What a name is given to, and how often it is used. The name of a size for a crib comes with the caution.
fn names(outline: &Outline<'_>, account: &Audit, byte: usize, markup: &mut Markup) {
    let names = Names::of(outline);
    let Some((name, ..)) = names.at(byte) else { return };
    let is_this = |named: &&super::names::Named| named.names().iter().any(|(other, _)| *other == name);
    let used = names.all.iter().filter(is_this).filter(|named| named.gives.is_none()).count();
    let times = match used {
        0 => "not used elsewhere in this file".to_string(),
        1 => "used in 1 other place".to_string(),
        many => format!("used in {many} other places"),
    };
    let of = names.pieces.iter().filter(|(_, piece)| name.kind == NameKind::Piece && *piece == name.name);
    let of: Vec<&str> = of.map(|(fabric, _)| fabric.as_str()).collect();
    let of = if of.is_empty() { String::new() } else { format!(" of {}", of.join(", ")) };
    markup.about(&format!("{} {}{of}", name.kind.word(), name.name), &times);
    let is_crib = |cribs: &CribQuilts| name.kind == NameKind::Size && cribs.sizes.contains(&name.name);
    if account.outcome.cribs.as_ref().is_some_and(is_crib) {
        markup.about("caution", CRIB);
    }
}

/// What a word means, and what holds where it is left out.
fn words(outline: &Outline<'_>, spot: &Spot<'_>, byte: usize, settings: &Settings, markup: &mut Markup) {
    let Some(word) = spot.word else { return };
    let Word { row, .. } = word;
    if let Lead::Key { key, .. } = spot.lead
        && spot.own_word().is_none()
    {
        match row.shape {
            Shape::Levels => rule(key, markup),
            Shape::BookValues => book_value(key, markup),
            _ => {}
        }
    }
    let needs = row.needs.map(|other| format!("; needs `{other}`")).unwrap_or_default();
    markup.about(row.word, &format!("{}{}{needs}.", row.says, goes_with(row)));
    let left_out = left_out_in_force(row, settings);
    let left_out = match row.left_out {
        LeftOut::Required => "It must be there".to_string(),
        LeftOut::Unless(..) => format!("It is {left_out}"),
        LeftOut::Standard(_) | LeftOut::BookValue(_) | LeftOut::Said(_) => format!("Where it is left out: {left_out}"),
    };
    markup.say(&format!("{left_out}. Example: {}", row.entry()));
    let is_on_key = spot.key().is_some_and(|(_, at)| holds(at, byte));
    if is_on_key && spot.own_word().is_some() {
        in_force(outline, spot, settings, markup);
    }
}

/// What holds in a table for the words that it leaves out, where that is a value.
fn in_force(outline: &Outline<'_>, spot: &Spot<'_>, settings: &Settings, markup: &mut Markup) {
    let Some(Shape::Table(section)) = spot.shape else { return };
    let Some(place) = outline.spots.iter().position(|other| std::ptr::eq(other.node, spot.node)) else { return };
    let stated: Vec<&str> = outline.within(place).filter_map(|(_, spot)| Some(spot.own_word()?.row.word)).collect();
    let has_value = |left_out: LeftOut| matches!(left_out, LeftOut::Standard(_) | LeftOut::BookValue(_));
    let rows = section.rows.iter().filter(|row| has_value(row.left_out) && !stated.contains(&row.word));
    let values: Vec<String> = rows.map(|row| format!("{}: {}", row.word, left_out_in_force(row, settings))).collect();
    if !values.is_empty() {
        markup.about("Left out here", &values.join("; "));
    }
}

/// What a rule says.
fn rule(name: &str, markup: &mut Markup) {
    if let Some(page) = page(name) {
        markup.about(page.name, &format!("{} Without house rules: {}.", page.headline, page.level.word()));
        markup.say(page.why);
    }
}

/// What a value of the rule book is.
fn book_value(name: &str, markup: &mut Markup) {
    if let Some(value) = book().iter().flat_map(|page| page.values).find(|value| value.name == name) {
        markup.about(value.name, value.meaning);
        markup.say(&format!("Without house rules: {}. Source: {}.", value.text, value.source.trim_end_matches('.')));
    }
}
