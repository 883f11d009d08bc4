//! Ways of speaking that say more of a number: a total, so many of each, about so much, an amount of fabric.

use super::context::ReadPassage;
use super::elements::Element;
use super::levels::class;
use super::lexicon::{Cue, Noun, PlacedCue};
use super::passage::PassageKind;
use super::sentences::Tokened;
use crate::quantity::Unit;

impl ReadPassage<'_> {
    /// Whether the number is of, from or for each of several things: `6 from each strip`, `4 per block`; a total is not.
    pub(super) fn of_each(&self, sentence: &Tokened, element: usize) -> bool {
        let own = &self.elements[element].tokens;
        if self.is_total(element) {
            return false;
        }
        let from = self.clause_start(own.start).max(sentence.start);
        let segment = self.segment(sentence, element);
        let is_before = |at: usize| {
            let first =
                at == sentence.start || self.tokens.list[at - 1].is_sign(',') || self.tokens.list[at - 1].ends_clause();
            let after =
                at > 0 && matches!(self.tokens.list[at - 1].stem.as_str(), "from" | "for" | "of" | "per" | "in");
            self.is_each(at) && (at >= segment.start || first || after)
        };
        (from..own.start).any(is_before) || (own.end..segment.end).any(|at| self.is_each(at))
    }

    /// Whether a token says `each` of the things that something is counted for.
    pub(super) fn is_each(&self, at: usize) -> bool {
        let token = &self.tokens.list[at];
        let next = self.tokens.list.get(at + 1);
        let is_each = matches!(token.stem.as_str(), "each" | "per" | "every" | "apiece");
        is_each
            && next.is_none_or(|next| {
                let is_side = matches!(next.stem.as_str(), "side" | "end" | "edge" | "corner" | "other");
                next.number().is_none() && !is_side && !matches!(next.stem.as_str(), "measuring" | "in" | "for" | "of")
            })
            || token.stem == "one" && next.is_some_and(|next| matches!(next.stem.as_str(), "block" | "unit"))
    }

    /// Whether it is said to be a total: `48 in all`, `for a total of 92`.
    pub(super) fn is_total(&self, element: usize) -> bool {
        let own = &self.elements[element].tokens;
        let word = |at: usize| self.tokens.list.get(at).map_or("", |token| token.stem.as_str());
        let after = |at: usize| {
            let in_all = word(at) == "in" && matches!(word(at + 1), "total" | "all");
            matches!(word(at), "total" | "altogether") || in_all
        };
        let before = |back: usize| own.start.checked_sub(back).is_some_and(|at| word(at) == "total");
        (own.end..own.end + 3).any(after) || (1..3).any(before)
    }

    /// Whether what is cut there is cut from strips: `Sub-cut 21 @ 6 7/8"`, `from these 48`, `into 24`.
    pub(super) fn is_subcut(&self, element: usize) -> bool {
        let start = self.elements[element].tokens.start;
        let from = self.clause_start(start);
        self.tokens.list[from..start].iter().any(|token| {
            matches!(token.stem.as_str(), "subcut" | "crosscut" | "cross" | "sub" | "into" | "these" | "them")
        })
    }

    /// Whether it introduces what is so many of or from each: `From each fat quarter, cut:`.
    pub(super) fn says_of_each(&self) -> bool {
        let list = &self.tokens.list;
        matches!(self.passage.kind, PassageKind::Paragraph | PassageKind::ListItem { .. })
            && list.iter().any(|token| matches!(token.stem.as_str(), "each" | "every" | "per"))
            && list.last().is_some_and(|token| token.is_sign(':'))
    }

    /// Whether a number stands directly after the name of a length, as on a card: `WOF 40`, `Tails 10, opening: 12`.
    pub(super) fn is_length_by_name(&self, own: &Element) -> bool {
        let start = own.tokens.start;
        let joint = |at: usize| ['=', ':'].iter().any(|sign| self.tokens.list[at].is_sign(*sign));
        let end = start.checked_sub(1).filter(|at| joint(*at)).unwrap_or(start);
        let is = |cue: &PlacedCue| {
            matches!(
                cue.cue,
                Cue::Noun(Noun::Width | Noun::Usable | Noun::Tail | Noun::Opening | Noun::Hem | Noun::Overlap)
            )
        };
        let ends = self.tokens.list.get(own.tokens.end).is_none_or(|next| !next.is_word());
        own.numbers.len() == 1 && ends && self.cues.iter().any(|cue| cue.tokens.end == end && is(cue))
    }

    pub(super) fn about(&self, element: usize) -> bool {
        let start = self.elements[element].tokens.start;
        let word = |back: usize| {
            start.checked_sub(back).and_then(|at| self.tokens.list.get(at)).map_or("", |token| token.stem.as_str())
        };
        (1..4).any(|back| {
            // `Up to 40 in` says no length; `end up with 60` and `open up 4` do.
            let is_up_to = word(back) == "up" && back > 1 && word(back - 1) == "to";
            is_up_to || matches!(word(back), "about" | "approximately" | "approx" | "roughly" | "nearly" | "almost")
        })
    }

    /// Whether a sentence, or the one before it, tells of several that are sewn together.
    pub(super) fn says_together(&self, sentence: &Tokened) -> bool {
        let end = sentence.start.saturating_sub(1);
        let from = (0..end).rev().find(|at| self.ends_sentence(*at)).map_or(0, |at| at + 1);
        self.tokens.list[from..sentence.end].iter().any(|token| {
            matches!(token.stem.as_str(), "together" | "pair" | "row" | "column" | "half" | "halve" | "joined" | "join")
        })
    }

    /// Whether an element is an amount of fabric, or a number of packs or of quarters of a yard.
    pub(super) fn is_bought_by(&self, element: usize) -> bool {
        let own = &self.elements[element];
        let unit = own.numbers.iter().find_map(|number| self.tokens.numbers[*number].unit);
        let sold = |cue: &PlacedCue| matches!(cue.cue, Cue::Noun(Noun::Quarter | Noun::Eighth | Noun::Pack));
        let near = |cue: &PlacedCue| (own.tokens.end..own.tokens.end + 2).contains(&cue.tokens.start);
        matches!(unit, Some(Unit::Yard | Unit::Metre)) || self.cues.iter().any(|cue| sold(cue) && near(cue))
    }

    /// Whether a metric length stands directly before a fabric, as an amount does: `70 cm of cedar`.
    pub(super) fn is_of_fabric(&self, element: usize) -> bool {
        let own = &self.elements[element];
        let end = own.tokens.end;
        let starts = end + usize::from(self.tokens.list.get(end).is_some_and(|token| token.stem == "of"));
        let is_metric = own.numbers.iter().any(|number| self.tokens.numbers[*number].unit == Some(Unit::Cm));
        let is = |cue: &PlacedCue| matches!(cue.cue, Cue::Fabric(_)) && cue.tokens.start == starts;
        is_metric && own.numbers.len() == 1 && self.cues.iter().any(is)
    }

    /// Whether the word `square` stands directly after a measure, and says of what shape something is.
    pub(super) fn is_said_square(&self, element: usize) -> bool {
        let end = self.elements[element].tokens.end;
        let word = self.tokens.list.get(end).filter(|token| token.is_word());
        word.is_some_and(|token| self.passage.text[token.at.clone()].eq_ignore_ascii_case("square"))
    }

    /// The pieces, units or blocks that a count stands directly before.
    pub(super) fn direct_name(&self, element: usize) -> Vec<&PlacedCue> {
        let own = &self.elements[element];
        if !self.is_count(own) {
            return Vec::new();
        }
        let is = |cue: &&PlacedCue| {
            let first = cue.tokens.start;
            let one_word = first == own.tokens.end + 1 && self.tokens.list[own.tokens.end].is_word();
            class(cue.cue) < 3 && !cue.weak && (first == own.tokens.end || one_word)
        };
        self.cues.iter().filter(is).collect()
    }
}
