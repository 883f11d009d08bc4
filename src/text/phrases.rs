//! Ways of speaking that say more of a number: a total, so many of each, about so much, an amount of fabric.

use super::context::ReadPassage;
use super::elements::{Element, Form, unit_at};
use super::levels::class;
use super::lexicon::{Cue, Noun, PlacedCue};
use super::passage::PassageKind;
use super::sentences::Tokened;
use super::tokens::Token;
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
            || self.says_a_or_the(at)
    }

    /// Whether a token stands before `a strip` or `the row` as one of those that something is counted for: `six to the
    /// strip`, `two strips a block`.
    fn says_a_or_the(&self, at: usize) -> bool {
        let list = &self.tokens.list;
        let is_many = |at: usize| {
            let whole = list.get(at).map_or("", |token| token.stem.as_str());
            matches!(whole, "strip" | "row" | "block" | "column" | "set" | "pack" | "quarter" | "square")
        };
        let before = at.checked_sub(1).map(|before| &list[before]);
        match list[at].stem.as_str() {
            "to" => {
                let article = list.get(at + 1).is_some_and(|next| matches!(next.stem.as_str(), "a" | "the"));
                article && is_many(at + 2) && before.is_some_and(|before| before.number().is_some())
            }
            // `Seven come from a strip`
            "a" | "one" if before.is_some_and(|before| before.stem == "from") => {
                let before = self.tokens.list[..at - 1].iter().rev().take(3);
                let comes = before.take_while(|token| token.is_word() || token.number().is_some());
                let is = |token: &Token| matches!(token.stem.as_str(), "come" | "get" | "fit");
                is_many(at + 1) && comes.into_iter().any(is)
            }
            "a" => {
                let counts = |cue: &PlacedCue| cue.tokens.end == at && matches!(cue.cue, Cue::Noun(_));
                // `14 a strip`, but not `4 A squares`.
                let is_counted = before.is_some_and(|before| before.number().is_some())
                    && &self.passage.text[list[at].at.clone()] == "a";
                is_many(at + 1) && (is_counted || self.cues.iter().any(counts))
            }
            _ => false,
        }
    }

    /// Whether it is for the sizes that its sentence does not name: `two for a mat and four for either of the others`, `join
    /// two panels for both larger sizes`.
    pub(super) fn is_for_the_others(&self, element: usize) -> bool {
        let end = self.elements[element].tokens.end;
        let word = |at: usize| self.tokens.list.get(at).map_or("", |token| token.stem.as_str());
        let is_joint = |token: &Token| token.is_word() && token.number().is_none();
        let ahead = self.tokens.list.iter().skip(end).take(4).take_while(|token| is_joint(token)).count();
        let Some(at) = (end..end + ahead).find(|at| word(*at) == "for") else { return false };
        let is_all = |at: usize| matches!(word(at), "either" | "both" | "all" | "any" | "each" | "the" | "of");
        let others = (at + 1..self.tokens.list.len()).take_while(|at| is_all(*at)).count();
        let is_size = |at: usize| matches!(word(at), "size" | "one" | "quilt" | "two" | "three");
        let rest = word(at + 1 + others);
        let ends = || self.tokens.list.get(at + 2 + others).is_none_or(Token::ends_clause);
        others > 0
            && (matches!(rest, "other" | "larger" | "bigger" | "smaller") && is_size(at + 2 + others)
                || matches!(rest, "other" | "rest") && ends())
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

    /// Whether it is what something may turn out to be, and need not: `if yours came out at 11.3 cm`, `smaller than 8"`.
    pub(super) fn is_supposed(&self, sentence: &Tokened, element: usize) -> bool {
        let start = self.elements[element].tokens.start;
        let word = |at: usize| self.tokens.list[at].stem.as_str();
        let from =
            (sentence.start..start).rev().find(|at| self.tokens.list[*at].is_sign(',')).unwrap_or(sentence.start);
        // `We shall instead cut 59 squares` says what to do; `instead of 5` and `or instead, 5` do not.
        let is_other_way =
            |at: usize| word(at) == "instead" && (at <= from + 1 || at + 1 < start && word(at + 1) == "of");
        let supposes = (from..start).any(|at| matches!(word(at), "if" | "unless" | "whether") || is_other_way(at));
        let before = |back: usize| start.checked_sub(back).filter(|at| *at >= sentence.start).map_or("", &word);
        // `No smaller than` is what it must be at least.
        let is_least = before(1) == "than" && matches!(before(3), "no" | "not" | "never");
        let compares = matches!(before(1), "than" | "under" | "over" | "below" | "above") && !is_least
            || matches!(before(1), "a" | "the") && before(2) == "than";
        let is_apart =
            self.tokens.list.get(self.elements[element].tokens.end).is_some_and(|token| token.stem == "apart");
        // How many are added to those of another size are nobody's number.
        let after = |ahead: usize| {
            let end = self.elements[element].tokens.end;
            self.tokens.list.get(end + ahead).map_or("", |token| token.stem.as_str())
        };
        let adds = after(0) == "more"
            || matches!(before(1), "another" | "additional" | "further")
                && unit_at(&self.tokens, &self.elements[element]).is_none();
        supposes || compares || is_apart || adds || before(1) == "not"
    }

    /// Whether a run over the sizes is said to be widths or lengths: `width 46/54/70`, `40 [56] {88} inches long`.
    pub(super) fn is_side_of_run(&self, element: usize) -> bool {
        let own = &self.elements[element];
        let Some((run, _)) = own.in_run else { return false };
        let of_run = |other: &&Element| other.in_run.is_some_and(|(other, _)| other == run);
        let start = self.elements.iter().find(of_run).map_or(own.tokens.start, |first| first.tokens.start);
        let end = self.elements.iter().rfind(of_run).map_or(own.tokens.end, |last| last.tokens.end);
        let is_side = |at: usize| {
            let stem = self.tokens.list.get(at).map_or("", |token| token.stem.as_str());
            matches!(stem, "width" | "length" | "wide" | "long" | "height" | "tall")
        };
        let before = start.saturating_sub(4)..start;
        let after = end..(end + 3).min(self.clause_end(end));
        own.form == Form::Scalar && (before.into_iter().any(is_side) || after.into_iter().any(is_side))
    }

    /// Whether a sentence tells of what is left over.
    pub(super) fn is_left_over(&self, sentence: &Tokened) -> bool {
        let list = &self.tokens.list[sentence.clone()];
        let next = |at: usize| list.get(at + 1);
        list.iter().enumerate().any(|(at, token)| match token.stem.as_str() {
            "leftover" | "spare" | "surplus" | "remain" | "remaining" | "extra" | "more" | "unused" => true,
            "left" => next(at).is_none_or(|token| !token.is_word() || matches!(token.stem.as_str(), "over" | "for")),
            "over" => next(at).is_none_or(|token| !token.is_word() || token.stem == "for"),
            _ => false,
        })
    }

    /// Whether what is counted there is called by a word that leads to nothing of a manuscript: `2 dots`; or nothing is
    /// counted: `it finishes at 5`.
    pub(super) fn counts_unknown(&self, element: usize) -> bool {
        let own = &self.elements[element];
        let is_word_at = |at: usize| self.tokens.list.get(at).is_some_and(Token::is_word);
        if self.is_count(own) && !is_word_at(own.tokens.end) && self.ends_in_measure(own.tokens.start) {
            return true;
        }
        let is_known = |at: usize| self.cues.iter().any(|cue| cue.tokens.contains(&at));
        let word = |at: usize| self.tokens.list.get(at).filter(|token| token.is_word() && !is_known(at));
        let is_plural =
            |token: &Token| self.passage.text[token.at.clone()].ends_with('s') && token.stem.len() < token.at.len();
        let Some(next) = word(own.tokens.end) else { return false };
        // A word may stand between: `2 labeled boxes`, but not `12 pretty stars`.
        let after = self.tokens.list.get(own.tokens.end + 1).filter(|token| token.is_word());
        let leads_on = after.is_some() && is_known(own.tokens.end + 1);
        let is_said = is_plural(next) || word(own.tokens.end + 1).is_some_and(is_plural);
        self.is_count(own) && is_said && !leads_on
    }

    /// Whether what stands before a place says that a measure follows: `finishes at`.
    fn ends_in_measure(&self, end: usize) -> bool {
        let stem =
            |at: Option<usize>| at.and_then(|at| self.tokens.list.get(at)).map_or("", |token| token.stem.as_str());
        let is_verb = |stem: &str| matches!(stem, "finish" | "finishes" | "measure" | "measures");
        let last = stem(end.checked_sub(1));
        is_verb(last) || matches!(last, "at" | "to") && is_verb(stem(end.checked_sub(2)))
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
        let unit = unit_at(&self.tokens, own);
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

    /// The pieces, units or blocks that a number stands directly before; a word may stand between a count and these.
    pub(super) fn direct_name(&self, element: usize) -> Vec<&PlacedCue> {
        let own = &self.elements[element];
        let counts = self.is_count(own);
        let is = |cue: &&PlacedCue| {
            let first = cue.tokens.start;
            let one_word = counts && first == own.tokens.end + 1 && self.tokens.list[own.tokens.end].is_word();
            class(cue.cue) < 3 && !(cue.weak && counts) && (first == own.tokens.end || one_word)
        };
        self.cues.iter().filter(is).collect()
    }
}
