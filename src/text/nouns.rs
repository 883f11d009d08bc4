//! What a number counts or measures: the nouns at it.

use super::context::ReadPassage;
use super::elements::{Element, Form, Role};
use super::lexicon::{Cue, Noun, PlacedCue};
use super::sentences::Tokened;
use super::tokens::Token;

/// Beside the bits of nouns: that what is counted is called by its name.
pub(super) const BY_NAME: u32 = 1 << 31;

impl ReadPassage<'_> {
    /// The nouns of an element, and whether they stand at it: those after it, those after the next number where that
    /// follows directly, or those before it.
    pub(super) fn nouns(&self, sentence: &Tokened, element: usize) -> (u32, bool) {
        let end = self.elements[element].tokens.end;
        let after = |ahead: usize| self.tokens.list.get(end + ahead).map_or("", |token| token.stem.as_str());
        if after(0) == "total" || after(0) == "in" && matches!(after(1), "total" | "all") {
            let pieces = [Noun::Piece, Noun::Square, Noun::Rectangle, Noun::Triangle, Noun::Unit, Noun::Block];
            return (pieces.iter().fold(BY_NAME, |bits, noun| bits | noun.bit()), false);
        }
        // A side and an edge are of anything: they count where nothing else is named.
        match self.nouns_where(sentence, element, |noun| !noun.is_vague()) {
            (0, _) => self.nouns_where(sentence, element, Noun::is_vague),
            found => found,
        }
    }

    pub(super) fn nouns_where(&self, sentence: &Tokened, element: usize, is: fn(Noun) -> bool) -> (u32, bool) {
        let mut at = element;
        loop {
            let from = self.elements[at].tokens.end;
            let next = self.elements.get(at + 1).map_or(usize::MAX, |next| next.tokens.start);
            let to = next.min(self.clause_end(from)).min(sentence.end);
            // What it is from or for each of is not what is counted.
            let to = (from..to).find(|at| self.is_each(*at)).unwrap_or(to);
            if at == element && self.noun_is_closer_before(element, from..to, is) {
                break;
            }
            if let Some(bits) = self.noun_in(from..to, true, is) {
                return (bits, true);
            }
            let between = self.tokens.list.get(from..next).unwrap_or(&[]);
            let (one, other) = (&self.elements[at], self.elements.get(at + 1));
            let is_count = self.is_count(one);
            let goes_on = other.is_some_and(|other| {
                is_count && !self.is_count(other)
                    || one.in_run.is_some() && one.in_run.map(|run| run.0) == other.in_run.map(|run| run.0)
            }) || other.is_some_and(|other| matches!(other.role, Role::PairOf(_)))
                || matches!(one.role, Role::WordOf(_));
            let adjacent = next < sentence.end
                && goes_on
                && between
                    .iter()
                    .filter(|token| token.is_word() && !matches!(token.stem.as_str(), "x" | "and" | "or"))
                    .count()
                    <= 1
                && !between.iter().any(Token::ends_clause);
            if !adjacent {
                break;
            }
            at += 1;
        }
        let from = self.clause_start(self.elements[element].tokens.start).max(sentence.start);
        let start = self.elements[element].tokens.start;
        // `4 strips into 48` are no 48 strips.
        if start > 0 && self.tokens.list[start - 1].stem == "into" {
            return (0, false);
        }
        let is_near = (from..start).rev().take_while(|at| !self.is_noun_at(*at, is)).all(|at| {
            let token = &self.tokens.list[at];
            !token.is_sign(',') && token.number().is_none()
        });
        match self.noun_in(from..start, false, is) {
            Some(bits) => (bits, is_near || self.elements[element].in_run.is_some()),
            None => (0, false),
        }
    }

    /// Whether a noun stands directly before an element, and none directly after: `a hem of 1 inch along one edge`.
    fn noun_is_closer_before(&self, element: usize, after: Tokened, is: fn(Noun) -> bool) -> bool {
        let start = self.elements[element].tokens.start;
        let joint = |at: usize| {
            let token = &self.tokens.list[at];
            matches!(token.stem.as_str(), "of" | "by" | "at" | "measuring") || token.is_sign('@') || token.is_sign(':')
        };
        let joints = (0..start).rev().take_while(|at| joint(*at)).count();
        let before = start.checked_sub(joints + 1).is_some_and(|at| self.is_noun_at(at, is));
        let first = (after.start..after.end).position(|at| self.is_noun_at(at, is));
        before && first.is_none_or(|words| words > 2) && !self.is_count(&self.elements[element])
    }

    /// Whether the word `square` says of what shape something is, so many of a measure: `18 square, finished`.
    fn is_shape(&self, at: usize) -> bool {
        let list = &self.tokens.list;
        let is_square = self.passage.text[list[at].at.clone()].eq_ignore_ascii_case("square");
        let is_many =
            |number: usize| self.tokens.numbers[number].first().top > self.tokens.numbers[number].first().over;
        let counted = at.checked_sub(1).and_then(|before| list[before].number());
        let ends = list.get(at + 1).is_none_or(|next| !next.is_word() || matches!(next.stem.as_str(), "and" | "when"));
        is_square && ends && counted.is_some_and(is_many)
    }

    fn is_noun_at(&self, at: usize, is: fn(Noun) -> bool) -> bool {
        let at_end = self.cues.iter().filter(|cue| cue.tokens.end == at + 1);
        at_end.map(|cue| cue.cue).any(|cue| match cue {
            Cue::Noun(noun) => is(noun),
            Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_) => true,
            _ => false,
        })
    }

    /// The nouns among tokens: the first phrase of them, or the last.
    pub(super) fn noun_in(&self, tokens: Tokened, first: bool, is: fn(Noun) -> bool) -> Option<u32> {
        if tokens.start >= tokens.end {
            return None;
        }
        let of_fabric = |cue: &PlacedCue| {
            // `Cut along the fabric` counts nothing.
            let before = cue.tokens.start.checked_sub(1).and_then(|before| self.tokens.list.get(before));
            before.is_some_and(|token| matches!(token.stem.as_str(), "the" | "along" | "across"))
        };
        let bits_of = |cue: &PlacedCue| match cue.cue {
            Cue::Noun(Noun::Fabric) if of_fabric(cue) => 0,
            Cue::Noun(Noun::Square) if self.is_shape(cue.tokens.start) => 0,
            Cue::Noun(noun) if is(noun) => noun.bit(),
            // What has a name is called by that: `14 lamps`, `64 S`.
            Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_) if !cue.weak && is(Noun::Piece) => {
                let last = self.tokens.list.get(cue.tokens.end - 1).map_or("", |token| token.stem.as_str());
                let by_ending = match last {
                    "strip" | "border" => Noun::Strip.bit(),
                    "triangle" => Noun::Triangle.bit(),
                    "square" => Noun::Square.bit(),
                    _ => 0,
                };
                let is_piece = matches!(cue.cue, Cue::Piece(..));
                let own = if is_piece { Noun::Piece.bit() } else { Noun::Unit.bit() | Noun::Block.bit() };
                own | by_ending | BY_NAME
            }
            _ => 0,
        };
        let mut nouns: Vec<(&PlacedCue, u32)> = self
            .cues
            .iter()
            .filter(|cue| cue.tokens.start >= tokens.start && cue.tokens.end <= tokens.end)
            .map(|cue| (cue, bits_of(cue)))
            .filter(|(_, bits)| *bits != 0)
            .collect();
        if !first {
            nouns.reverse();
        }
        let (start, _) = nouns.first()?;
        let start = start.tokens.start;
        let near = nouns.iter().take_while(|(cue, _)| cue.tokens.start.abs_diff(start) <= 2);
        Some(near.fold(0, |bits, (_, more)| bits | more))
    }

    /// Whether a noun or a name stands directly after an element.
    pub(super) fn noun_follows(&self, element: usize) -> bool {
        let end = self.elements[element].tokens.end;
        let starts =
            |cue: &PlacedCue| cue.tokens.start == end || cue.tokens.start == end + 1 && self.tokens.list[end].is_word();
        self.cues.iter().any(|cue| starts(cue) && (matches!(cue.cue, Cue::Noun(_)) || cue.cue.is_subject()))
    }

    /// Whether a noun stands directly at an element, before or after it.
    pub(super) fn noun_is_adjacent(&self, sentence: &Tokened, element: usize) -> bool {
        let end = self.elements[element].tokens.end;
        self.noun_follows(element) || self.noun_is_closer_before(element, end..sentence.end, |_| true)
    }

    /// Whether an element is a number of things.
    pub(super) fn is_count(&self, element: &Element) -> bool {
        element.numbers.len() == 1
            && self.tokens.numbers[element.numbers[0]].count().is_some()
            && element.form == Form::Scalar
    }
}
