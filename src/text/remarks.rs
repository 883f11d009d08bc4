//! What is wrong in a text by itself: a word and a figure that disagree, a sum, a total, a piece that is nowhere.

use std::ops::Range;

use super::context::{ReadPassage, ReadPassages};
use super::elements::Role;
use super::lexicon::{Cue, Lexicon, is_letter};
use super::numbers::{Ratio, TextNumber};
use super::passage::PassageKind;
use super::tokens::{Token, TokenKind};
use crate::manuscript::Manuscript;

/// Something that is wrong in a text by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The passage.
    pub passage: usize,
    /// Its bytes there.
    pub at: Range<usize>,
    /// The bytes of the words round it.
    pub sentence: Range<usize>,
    /// What is wrong.
    pub kind: RemarkKind,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RemarkKind {
    /// A number in words, and another in the figure after it.
    WordAndFigure {
        /// The number in words.
        word: String,
        /// The figure.
        figure: String,
    },
    /// A sum that makes another number than is said.
    Sum {
        /// What is said.
        says: String,
        /// What it makes.
        makes: String,
        /// Of what.
        of: String,
    },
    /// A piece that the manuscript does not have.
    UnknownPiece {
        /// Its name.
        name: String,
        /// The pieces that there are.
        known: Vec<String>,
    },
}

/// Looks for what is wrong in a text by itself.
pub(super) fn remarks(read: &ReadPassages<'_>, lexicon: &Lexicon, manuscript: &Manuscript) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let letters = letters(lexicon, manuscript);
    for (passage, here) in read.list.iter().enumerate() {
        words_and_figures(passage, here, &mut remarks);
        sums(passage, here, &mut remarks);
        if letters.len() >= 2 {
            unknown_pieces(passage, here, &letters, &mut remarks);
        }
    }
    totals(read, &mut remarks);
    remarks
}

fn words_and_figures(passage: usize, here: &ReadPassage<'_>, remarks: &mut Vec<Remark>) {
    for (index, element) in here.elements.iter().enumerate() {
        let Role::WordOf(figure) = element.role else { continue };
        let (word, figure) =
            (&here.tokens.numbers[element.numbers[0]], &here.tokens.numbers[here.elements[figure].numbers[0]]);
        if word.first() != figure.first() && figure.unit.is_none() {
            let text = |at: &Range<usize>| here.passage.text[at.clone()].to_string();
            let kind = RemarkKind::WordAndFigure { word: text(&word.at), figure: text(&figure.at) };
            let at = word.at.start..figure.at.end;
            remarks.push(Remark { passage, at, sentence: here.words_of(index), kind });
        }
    }
}

/// Sums that are written out: `7 x 2 + 1 = 15`.
fn sums(passage: usize, here: &ReadPassage<'_>, remarks: &mut Vec<Remark>) {
    let list = &here.tokens.list;
    for at in 0..list.len() {
        if !list[at].is_sign('=') {
            continue;
        }
        let Some(result) = list.get(at + 1).and_then(Token::number) else { continue };
        let mut start = at;
        let mut terms: Vec<(char, Ratio)> = Vec::new();
        // From the right: a number, and what stands before it.
        while let Some(number) = start.checked_sub(1).and_then(|before| list[before].number()) {
            let operator = start.checked_sub(2).map_or('+', |before| operator(&list[before]));
            terms.push((operator, here.tokens.numbers[number].first()));
            start -= 1;
            if operator == ' ' || start == 0 {
                break;
            }
            start -= 1;
        }
        terms.reverse();
        if terms.len() < 2 {
            continue;
        }
        terms[0].0 = '+';
        let Some(makes) = sum_of(&terms) else { continue };
        let others = here.tokens.numbers[result].readings.iter();
        if others.clone().any(|reading| is_same(*reading, makes)) || here.tokens.numbers[result].is_other {
            continue;
        }
        let number = &here.tokens.numbers[result];
        let text = &here.passage.text;
        let kind = RemarkKind::Sum {
            says: text[number.at.clone()].to_string(),
            makes: shown(makes),
            of: text[list[start].at.start..list[at - 1].at.end].to_string(),
        };
        let from = list[start].at.start;
        remarks.push(Remark { passage, at: number.at.clone(), sentence: from..number.with_unit.end, kind });
    }
}

/// What a token does with the numbers beside it; a space for nothing.
fn operator(token: &Token) -> char {
    match token.kind {
        TokenKind::Sign(sign @ ('+' | '×')) => sign,
        TokenKind::Sign('–' | '—' | '-') => '-',
        TokenKind::Sign('÷') => '÷',
        TokenKind::Word if matches!(token.stem.as_str(), "x" | "time") => '×',
        TokenKind::Word if token.stem == "plus" => '+',
        TokenKind::Word if token.stem == "minus" => '-',
        _ => ' ',
    }
}

/// What terms make, times before plus; nothing where that is too large.
fn sum_of(terms: &[(char, Ratio)]) -> Option<Ratio> {
    let mut products: Vec<(bool, Ratio)> = Vec::new();
    for (operator, term) in terms {
        match (operator, products.last_mut()) {
            ('×', Some((_, last))) => {
                *last = Ratio { top: last.top.checked_mul(term.top)?, over: last.over.checked_mul(term.over)? };
            }
            ('÷', Some((_, last))) if term.top != 0 => {
                *last = Ratio { top: last.top.checked_mul(term.over)?, over: last.over.checked_mul(term.top)? };
            }
            ('+', _) => products.push((true, *term)),
            ('-', _) => products.push((false, *term)),
            _ => return None,
        }
    }
    products.into_iter().try_fold(Ratio::whole(0), |sum, (plus, term)| {
        let (left, right) = (sum.top.checked_mul(term.over)?, term.top.checked_mul(sum.over)?);
        let top = if plus { left.checked_add(right)? } else { left.checked_sub(right)? };
        Some(Ratio { top, over: sum.over.checked_mul(term.over)? })
    })
}

fn is_same(one: Ratio, other: Ratio) -> bool {
    i128::from(one.top) * i128::from(other.over) == i128::from(other.top) * i128::from(one.over)
}

fn shown(ratio: Ratio) -> String {
    let (whole, rest) = (ratio.top / ratio.over, (ratio.top % ratio.over).abs());
    let divisor = (1..=rest.max(1)).rev().find(|by| rest % by == 0 && ratio.over % by == 0).unwrap_or(1);
    match (whole, rest) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{}/{}", rest / divisor, ratio.over / divisor),
        _ => format!("{whole} {}/{}", rest / divisor, ratio.over / divisor),
    }
}

/// Totals of columns of whole numbers.
fn totals(read: &ReadPassages<'_>, remarks: &mut Vec<Remark>) {
    for (passage, here) in read.list.iter().enumerate() {
        let PassageKind::Cell { column: 0, .. } = here.passage.kind else { continue };
        if !matches!(here.passage.text.trim().to_lowercase().trim_end_matches(':'), "total" | "totals" | "in all") {
            continue;
        }
        for (total, parts) in read.columns_above(passage) {
            let count = |cell: usize| {
                let here = &read.list[cell];
                let only = here.tokens.list.len() == 1 && here.tokens.numbers.len() == 1;
                here.tokens.numbers.first().filter(|number| only && number.unit.is_none()).and_then(TextNumber::count)
            };
            let counts: Option<Vec<u64>> = parts.iter().map(|cell| count(*cell)).collect();
            let (Some(says), Some(counts)) = (count(total), counts) else { continue };
            let makes: u64 = counts.iter().sum();
            if counts.len() >= 2 && makes != says {
                let whole = 0..read.list[total].passage.text.len();
                let of = counts.iter().map(u64::to_string).collect::<Vec<_>>().join(" + ");
                let kind = RemarkKind::Sum { says: says.to_string(), makes: makes.to_string(), of };
                remarks.push(Remark { passage: total, at: whole.clone(), sentence: whole, kind });
            }
        }
    }
}

/// The names of pieces that are a letter, where all pieces are called so.
fn letters(lexicon: &Lexicon, manuscript: &Manuscript) -> Vec<String> {
    let mut letters = lexicon.letters.clone();
    let names = manuscript.units.iter().map(|unit| &unit.name).chain(manuscript.blocks.iter().map(|block| &block.name));
    letters.extend(
        names.chain(manuscript.fabrics.iter().map(|fabric| &fabric.name)).filter(|name| is_letter(name)).cloned(),
    );
    letters.sort_unstable();
    letters.dedup();
    letters
}

/// A letter where a piece is named: `piece G`, `4 G squares`, `squares (G)`.
fn unknown_pieces(passage: usize, here: &ReadPassage<'_>, known: &[String], remarks: &mut Vec<Remark>) {
    let list = &here.tokens.list;
    for (at, token) in list.iter().enumerate() {
        let name = &here.passage.text[token.at.clone()];
        if !token.is_word() || !is_letter(name) || matches!(name, "A" | "I") || known.iter().any(|known| known == name)
        {
            continue;
        }
        let is_cut = |at: usize| {
            here.cues.iter().any(|cue| {
                matches!(cue.cue, Cue::Noun(noun) if noun.is_of_pieces())
                    && (cue.tokens.start == at || cue.tokens.end == at)
            })
        };
        let word = |at: usize| list.get(at).map_or("", |token| token.stem.as_str());
        let labeled = at > 0 && matches!(word(at - 1), "piece" | "patch" | "template");
        let counted = at > 0 && list[at - 1].number().is_some() && is_cut(at + 1);
        let bracketed = at > 1
            && list[at - 1].is_sign('(')
            && list.get(at + 1).is_some_and(|token| token.is_sign(')'))
            && is_cut(at - 1);
        if labeled || counted || bracketed {
            let kind = RemarkKind::UnknownPiece { name: name.to_string(), known: known.to_vec() };
            let from = list[at.saturating_sub(3)].at.start;
            let to = list[(at + 2).min(list.len() - 1)].at.end;
            remarks.push(Remark { passage, at: token.at.clone(), sentence: from..to, kind });
        }
    }
}
