//! What stands around a number within its passage: its sentence, its part of the sentence, its clause.

use super::context::ReadPassage;
use super::elements::{Form, has_unit, is_close, is_open};
use super::levels::{Level, class, level_of};
use super::lexicon::{Cue, PlacedCue, Section};
use super::tokens::TokenKind;

/// Tokens of a passage, by their places.
pub(super) type Tokened = std::ops::Range<usize>;

impl ReadPassage<'_> {
    /// The bytes of the sentence that an element stands in.
    pub(crate) fn words_of(&self, element: usize) -> std::ops::Range<usize> {
        let tokens = self.sentence(element);
        let from = self.tokens.list.get(tokens.start).map_or(0, |token| token.at.start);
        let to =
            tokens.end.checked_sub(1).and_then(|last| self.tokens.list.get(last)).map_or(from, |token| token.at.end);
        from..to
    }

    /// The tokens of the sentence that an element stands in.
    pub(crate) fn sentence(&self, element: usize) -> Tokened {
        let at = self.elements[element].tokens.start;
        let ends = |token: &usize| self.ends_sentence(*token);
        let start = (0..at).rev().find(ends).map_or(0, |token| token + 1);
        let end = (at..self.tokens.list.len()).find(ends).unwrap_or(self.tokens.list.len());
        start..end
    }

    /// Which line of cutting an element belongs to: parts after a semicolon are lines of their own unless they say what
    /// becomes of the one before.
    pub(super) fn line_of(&self, element: usize) -> usize {
        let at = self.elements[element].tokens.start;
        let mut line = 0;
        for (token, is) in self.tokens.list.iter().enumerate().take(at) {
            if !is.ends_clause() {
                continue;
            }
            let next = self.tokens.list.get(token + 1).map_or("", |token| token.stem.as_str());
            let goes_on =
                matches!(next, "subcut" | "crosscut" | "cross" | "sub" | "then" | "into" | "from" | "cut" | "trim")
                    && !is.is_sign('•')
                    && (next != "cut" || self.says_each(token + 1))
                    && (next != "from" || !self.names_fabric(token + 2));
            if !goes_on {
                line = token + 1;
            }
        }
        line
    }

    /// Whether a fabric is named from a token on, or after an article.
    fn names_fabric(&self, at: usize) -> bool {
        let starts = at..at + 3;
        self.cues.iter().any(|cue| matches!(cue.cue, Cue::Fabric(_)) && starts.contains(&cue.tokens.start))
    }

    /// Whether a clause goes on with the strips of the one before: `cut each into`, `cut these into`.
    pub(super) fn says_each(&self, from: usize) -> bool {
        self.tokens.list[from..]
            .iter()
            .take(4)
            .any(|token| matches!(token.stem.as_str(), "each" | "these" | "them" | "into"))
    }

    /// The cues before the sentence of an element that carry on: those of its line, and those of sentences without numbers.
    pub(super) fn carried(&self, element: usize, sentence: &Tokened) -> Vec<&PlacedCue> {
        let line = self.line_of(element);
        let ends: Vec<usize> = (0..sentence.start).filter(|at| self.ends_sentence(*at)).collect();
        let last_break = (0..sentence.start).rfind(|at| self.tokens.list[*at].is_sign('\n'));
        let goes_back = self.goes_back(sentence);
        let is_carried = |cue: &&PlacedCue| {
            let next = ends.partition_point(|end| *end < cue.tokens.start);
            let from = next.checked_sub(1).map_or(0, |last| ends[last] + 1);
            let to = ends.get(next).copied().unwrap_or(sentence.start);
            let leads = matches!(cue.cue, Cue::Fabric(_))
                && !self.has_number(&(from..cue.tokens.start))
                && last_break.is_none_or(|at| at < cue.tokens.end);
            cue.tokens.start >= line || !self.has_number(&(from..to)) || leads || goes_back && to + 1 >= sentence.start
        };
        self.cues.iter().filter(|cue| cue.tokens.end <= sentence.start).filter(is_carried).collect()
    }

    /// Whether a number begins in a range; elements stand in the order of their tokens.
    fn has_number(&self, range: &Tokened) -> bool {
        let first = self.elements.partition_point(|element| element.tokens.start < range.start);
        self.elements.get(first).is_some_and(|element| element.tokens.start < range.end)
    }

    /// Whether a sentence speaks of what the one before it was about.
    pub(super) fn goes_back(&self, sentence: &Tokened) -> bool {
        let first = self.tokens.list.get(sentence.start).map_or("", |token| token.stem.as_str());
        let says = |is: fn(Cue) -> bool| self.in_sentence(sentence).any(|cue| is(cue.cue));
        let makes = first == "make" && !says(Cue::is_subject) && !says(|cue| matches!(cue, Cue::Noun(_)));
        makes || matches!(first, "each" | "it" | "they" | "these" | "this" | "trim" | "square" | "unfinished" | "all")
    }

    pub(super) fn ends_sentence(&self, token: usize) -> bool {
        self.tokens.list[token].ends_sentence()
    }

    pub(super) fn in_sentence<'s>(&'s self, sentence: &Tokened) -> impl Iterator<Item = &'s PlacedCue> + use<'s> {
        let Tokened { start, end } = *sentence;
        self.cues.iter().filter(move |cue| cue.tokens.start >= start && cue.tokens.end <= end)
    }

    /// The cues of one kind that an element goes by: those before it where the sentence names one before its first
    /// number, and else those after it.
    pub(super) fn of_kind_where<'s>(
        &'s self,
        sentence: &Tokened,
        element: usize,
        is: impl Fn(&PlacedCue) -> bool,
    ) -> Vec<&'s PlacedCue> {
        let cues: Vec<&PlacedCue> = self.in_sentence(sentence).filter(|cue| is(cue)).collect();
        let segment = self.segment(sentence, element);
        let nearest = self.nearest(&cues, &segment, element).or_else(|| self.nearest(&cues, sentence, element));
        nearest.map_or(Vec::new(), |nearest| self.joined(&cues, nearest))
    }

    /// The nearest of the cues in a range.
    pub(super) fn nearest(&self, cues: &[&PlacedCue], range: &Tokened, element: usize) -> Option<usize> {
        let own = &self.elements[element].tokens;
        let is_in = |cue: &&PlacedCue| cue.tokens.start >= range.start && cue.tokens.end <= range.end;
        let first_cue = cues.iter().find(|cue| is_in(cue))?;
        let required = self.elements.iter().zip(&self.not_required).filter(|(_, why)| why.is_none());
        let first_number = required.map(|(element, _)| element.tokens.start).find(|start| *start >= range.start);
        let precedes = first_number.is_none_or(|number| first_cue.tokens.start < number);
        let before = || cues.iter().rposition(|cue| is_in(cue) && cue.tokens.end <= own.start);
        let after = || cues.iter().position(|cue| is_in(cue) && cue.tokens.start >= own.end);
        if precedes { before().or_else(after) } else { after().or_else(before) }
    }

    /// The part of a sentence that an element stands in: from the comma or the `and` before it to the one after it.
    pub(super) fn segment(&self, sentence: &Tokened, element: usize) -> Tokened {
        self.segment_at(sentence, self.elements[element].tokens.clone())
    }

    pub(super) fn segment_at(&self, sentence: &Tokened, own: Tokened) -> Tokened {
        let parts = |at: &usize| {
            let token = &self.tokens.list[*at];
            let is = token.is_sign(',') || token.is_sign(';') || matches!(token.stem.as_str(), "and" | "or" | "plus");
            // Not the commas of a run over the sizes.
            is && !self.elements.windows(2).any(|pair| {
                pair[0].tokens.end <= *at
                    && *at < pair[1].tokens.start
                    && pair[0].in_run.is_some()
                    && pair[0].in_run.map(|run| run.0) == pair[1].in_run.map(|run| run.0)
            })
        };
        let start = (sentence.start..own.start).rev().find(parts).map_or(sentence.start, |at| at + 1);
        let end = (own.end..sentence.end).find(parts).unwrap_or(sentence.end);
        start..end
    }

    /// A cue with those that are joined to it by `and` or a comma, or are of the same words.
    pub(super) fn joined<'c>(&self, cues: &[&'c PlacedCue], at: usize) -> Vec<&'c PlacedCue> {
        let joins = |one: &PlacedCue, other: &PlacedCue| {
            one.tokens == other.tokens
                || self.tokens.list.get(one.tokens.end..other.tokens.start).is_some_and(|between| {
                    !between.is_empty()
                        && between.iter().all(|token| {
                            matches!(token.stem.as_str(), "and" | "or" | "the")
                                || matches!(token.kind, TokenKind::Sign('&' | ',' | '/'))
                        })
                })
        };
        let (mut first, mut last) = (at, at);
        while first > 0 && joins(cues[first - 1], cues[first]) {
            first -= 1;
        }
        while last + 1 < cues.len() && joins(cues[last], cues[last + 1]) {
            last += 1;
        }
        cues[first..=last].to_vec()
    }

    pub(super) fn subjects_in(&self, sentence: &Tokened, element: usize) -> Level {
        let segment = self.segment(sentence, element);
        let is_in = |cue: &&PlacedCue| cue.tokens.start >= segment.start && cue.tokens.end <= segment.end;
        // A part of the sentence that counts things anew is not about what another part counts.
        let counts = |range: &Tokened| {
            let required = self.elements.iter().zip(&self.not_required).filter(|(_, why)| why.is_none());
            required
                .map(|(element, _)| element)
                .any(|element| range.contains(&element.tokens.start) && self.is_count(element))
        };
        let own =
            self.in_sentence(sentence).filter(is_in).any(|cue| cue.cue.is_subject() && class(cue.cue) < 5 && !cue.weak);
        // `makes 4 flying geese` counts these, whatever they are made of.
        let direct = self.direct_name(element);
        if let Some(close) = self.said_of(sentence, element) {
            return level_of(&close);
        }
        let is_top = |cue: &PlacedCue| matches!(cue.cue, Cue::Section(Section::Top | Section::Quilt));
        let mut kept: Vec<&PlacedCue> = Vec::new();
        for kind in 0..6 {
            if kind < 3 && !direct.is_empty() {
                kept.extend(direct.iter().filter(|cue| class(cue.cue) == kind));
                continue;
            }
            let named = |cue: &&PlacedCue| class(cue.cue) == kind && !self.is_before_border(cue);
            let strong = |cue: &&PlacedCue| named(cue) && !cue.weak;
            let is_here = self.in_sentence(sentence).filter(named).any(|cue| is_in(&cue));
            let only_strong = self.in_sentence(sentence).filter(strong).any(|cue| is_in(&cue) || !is_here);
            let of_kind = self.of_kind_where(sentence, element, |cue| {
                class(cue.cue) == kind && !(only_strong && cue.weak) && !self.is_before_border(cue)
            });
            let elsewhere = of_kind.first().filter(|_| !of_kind.iter().any(is_in));
            let is_other = elsewhere.is_some_and(|cue| {
                let other = self.segment_at(sentence, cue.tokens.clone());
                let numbers = |range: &Tokened| {
                    self.elements.iter().filter(|element| range.contains(&element.tokens.start)).count()
                };
                let own_fabric = self.in_sentence(sentence).filter(is_in).any(|cue| class(cue.cue) == 5);
                let own_section =
                    self.in_sentence(sentence).filter(is_in).any(|cue| class(cue.cue) == 4 && !is_top(cue));
                // What another item of a shopping list is of: `1 yd of foam, 2 packs of squares`.
                let own_tokens = &self.elements[element].tokens;
                let is_whole = self.elements[element].form == Form::Sides && segment == *own_tokens;
                let is_item = (is_whole || self.is_bought_by(element)) && numbers(&(other.start..cue.tokens.start)) > 0;
                is_item
                    || kind == 5 && own_section && numbers(&other) > 0
                    || kind < 5
                        && (own || kind == 4 && own_fabric && numbers(&other) > 0 || counts(&segment) && counts(&other))
            });
            if !is_other {
                kept.extend(of_kind);
            }
        }
        level_of(&kept)
    }

    /// What a measure is said of directly: `a lattice that finishes 4 cm`, `a log is 7 cm long`.
    fn said_of(&self, sentence: &Tokened, element: usize) -> Option<Vec<&PlacedCue>> {
        let start = self.elements[element].tokens.start;
        let links = |at: &usize| {
            let stem = self.tokens.list[*at].stem.as_str();
            matches!(
                stem,
                "that"
                    | "which"
                    | "finish"
                    | "finishes"
                    | "finished"
                    | "measure"
                    | "is"
                    | "are"
                    | "at"
                    | "to"
                    | "measuring"
            )
        };
        let verbs =
            |at: usize| matches!(self.tokens.list[at].stem.as_str(), "finish" | "finishes" | "measure" | "is" | "are");
        let from = (sentence.start..start).rev().take_while(links).last()?;
        let last = self
            .in_sentence(sentence)
            .filter(|cue| cue.cue.is_subject() && !cue.weak)
            .find(|cue| cue.tokens.end == from)?;
        if self.is_count(&self.elements[element]) && self.elements[element].in_run.is_none()
            || !(from..start).any(verbs)
        {
            return None;
        }
        Some(self.in_sentence(sentence).filter(|cue| cue.cue.is_subject() && cue.tokens == last.tokens).collect())
    }

    /// Whether a border is named as one that is not there yet: `before the border is added`.
    fn is_before_border(&self, cue: &PlacedCue) -> bool {
        let is_border = matches!(cue.cue, Cue::Border(_) | Cue::Section(Section::Border));
        let from = cue.tokens.start.saturating_sub(3);
        let before = &self.tokens.list[from..cue.tokens.start];
        is_border && before.iter().any(|token| matches!(token.stem.as_str(), "before" | "without"))
    }

    /// The sizes that a number is for by its sentence, and those that others of the sentence are for instead.
    pub(super) fn size_of(&self, sentence: &Tokened, element: usize) -> (Vec<usize>, Vec<usize>) {
        let is_other = |cue: &PlacedCue| self.is_size_of_another(sentence, element, cue);
        let cues = self.of_kind_where(sentence, element, |cue| cue.cue.size().is_some() && !is_other(cue));
        let others = self.in_sentence(sentence).filter(|cue| is_other(cue));
        (cues.iter().filter_map(|cue| cue.cue.size()).collect(), others.filter_map(|cue| cue.cue.size()).collect())
    }

    /// The sizes that a sentence names.
    pub(super) fn sizes_of(&self, sentence: &Tokened) -> Vec<usize> {
        self.in_sentence(sentence).filter_map(|cue| cue.cue.size()).collect()
    }

    /// Whether a size is named with another number of the sentence: `three strips (ten for the twin)`, `now it is 60 cm,
    /// and the cot would be 40 cm`.
    fn is_size_of_another(&self, sentence: &Tokened, element: usize, cue: &PlacedCue) -> bool {
        let own = &self.elements[element];
        if !matches!(cue.cue, Cue::Size(_)) || own.in_run.is_some() {
            return false;
        }
        let numbers = |range: &Tokened| {
            let has = |element: &usize| range.contains(&self.elements[*element].tokens.start);
            (0..self.elements.len()).filter(has).filter(|other| self.not_required[*other].is_none()).collect::<Vec<_>>()
        };
        if let Some(bracket) = self.brackets(sentence, cue.tokens.start)
            && !bracket.contains(&own.tokens.start)
        {
            return !numbers(&bracket).is_empty();
        }
        if cue.tokens.start < own.tokens.end {
            return false;
        }
        let list = &self.tokens.list;
        let clause = self.clause_start(cue.tokens.start)..self.clause_end(cue.tokens.end);
        if clause.start > own.tokens.start {
            return !numbers(&clause).is_empty();
        }
        let segment = self.segment_at(sentence, cue.tokens.clone());
        if segment.start <= own.tokens.start {
            return false;
        }
        let alike = |other: &usize| {
            let other = &self.elements[*other];
            other.form == own.form && has_unit(&self.tokens, other) == has_unit(&self.tokens, own)
        };
        let there = numbers(&segment);
        let follows = there.iter().any(|other| self.elements[*other].tokens.start >= cue.tokens.end && alike(other));
        // `for the tray, set four by four, and 64 for the table`
        let has_size_before =
            self.in_sentence(sentence).any(|other| other.cue.size().is_some() && other.tokens.end <= own.tokens.start);
        let precedes = |other: &usize| {
            let end = self.elements[*other].tokens.end;
            (end + 1..=end + 2).contains(&cue.tokens.start) && list[end].stem == "for"
        };
        if has_size_before && there.iter().any(precedes) {
            return true;
        }
        let is_or = segment.start.checked_sub(1).is_some_and(|at| list[at].stem == "or");
        follows || is_or && there.iter().any(alike)
    }

    /// The tokens of the brackets that a token stands in.
    fn brackets(&self, sentence: &Tokened, at: usize) -> Option<Tokened> {
        let list = &self.tokens.list;
        let is = |at: usize, sign: fn(char) -> bool| matches!(list[at].kind, TokenKind::Sign(own) if sign(own));
        let open = (sentence.start..at).rev().find(|at| is(*at, is_open) || is(*at, is_close))?;
        if is(open, is_close) {
            return None;
        }
        let close = (at..sentence.end).find(|at| is(*at, is_close)).unwrap_or(sentence.end);
        Some(open + 1..close)
    }

    pub(super) fn clause_end(&self, from: usize) -> usize {
        (from..self.tokens.list.len()).find(|at| self.tokens.list[*at].ends_clause()).unwrap_or(self.tokens.list.len())
    }

    pub(super) fn clause_start(&self, to: usize) -> usize {
        (0..to).rev().find(|at| self.tokens.list[*at].ends_clause()).map_or(0, |at| at + 1)
    }

    pub(super) fn acts(&self, sentence: &Tokened, element: usize) -> u32 {
        let own = &self.elements[element].tokens;
        let (from, to) = (self.clause_start(own.start).max(sentence.start), self.clause_end(own.end).min(sentence.end));
        let bits = |range: Tokened| {
            self.cues.iter().filter(|cue| cue.tokens.start >= range.start && cue.tokens.end <= range.end).fold(
                0,
                |bits, cue| {
                    if let Cue::Act(act) = cue.cue { bits | act.bit() } else { bits }
                },
            )
        };
        let segment = bits(self.segment(sentence, element));
        let before = self.cues.iter().rev().find(|cue| {
            matches!(cue.cue, Cue::Act(_)) && cue.tokens.end <= own.start && cue.tokens.start >= sentence.start
        });
        let clause = match (segment, before) {
            (0, Some(before)) => bits(self.segment_at(sentence, before.tokens.clone())),
            (0, None) => bits(from..to),
            (segment, _) => segment,
        };
        if clause != 0 { clause } else { bits(sentence.clone()) }
    }

    /// The size of the last sentence before that names any, where it names one alone.
    pub(super) fn size_before(&self, sentence: &Tokened) -> Vec<usize> {
        let before = |cue: &&PlacedCue| cue.tokens.end <= sentence.start && cue.cue.size().is_some();
        let Some(last) = self.cues.iter().rfind(before) else { return Vec::new() };
        let from = (0..last.tokens.start).rev().find(|at| self.ends_sentence(*at)).map_or(0, |at| at + 1);
        let here = self.cues.iter().filter(|cue| cue.tokens.start >= from && cue.tokens.end <= sentence.start);
        let mut sizes: Vec<usize> = here.filter_map(|cue| cue.cue.size()).collect();
        sizes.sort_unstable();
        sizes.dedup();
        if sizes.len() == 1 { sizes } else { Vec::new() }
    }
}
