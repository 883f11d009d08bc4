//! A number of a text with what stands around it, as signs go by it.

use std::borrow::Cow;

use super::super::candidates::Candidates;
use super::super::compare::Fit;
use super::super::context::ReadPassage;
use super::super::elements::{Element, Form, unit_at};
use super::super::keys::{ValueKind, What};
use super::super::levels::Level;
use super::super::lexicon::{Cue, Noun};
use super::super::sentences::Tokened;
use super::super::tokens::{Token, TokenKind};
use super::gathered::{Gathered, Siblings};
use super::of_key::{PLACES, TIMES};
use super::sign::{Kind, Word, word};
use super::tally::{Counts, Tally};
use crate::quantity::Unit;

/// A number of a text.
pub(super) struct Number<'g, 'm> {
    pub(super) gathered: &'g Gathered<'g, 'm>,
    pub(super) index: usize,
    pub(super) candidates: &'g Candidates,
    pub(super) here: &'g ReadPassage<'g>,
    pub(super) own: &'g Element,
    /// The words before and after it, the nearest first.
    pub(super) before: [Cow<'g, str>; 2],
    pub(super) after: [Cow<'g, str>; 2],
    /// What its sentence names nearest on each side, of each kind; the nearest first.
    pub(super) beside: Vec<Beside>,
    /// What stands above it, source by source, the nearest first.
    pub(super) above: Vec<(Word<'static>, Vec<Cue>)>,
    /// What its passage names.
    pub(super) named: Vec<Cue>,
    /// All that is named round it at any place, in order, each once.
    pub(super) cues: Vec<Cue>,
    /// How often each thing is what the other numbers of its line are of by their values, and of how many.
    pub(super) line: Tally<'g>,
    /// The same for fabrics.
    pub(super) line_fabrics: Tally<'g>,
    /// The same for the other numbers of its passage.
    pub(super) passage: Tally<'g>,
    /// The families that it is of, each with how many of the others are of each line.
    pub(super) families: Vec<Family>,
    pub(super) previous: Option<usize>,
    pub(super) next: Option<usize>,
    /// What the numbers beside it came to before the weights: in its line, in its passage, in its column or list.
    /// Each by its place among [`PLACES`].
    pub(super) near: Vec<(usize, &'g [usize])>,
    /// The pieces that its sentence names, each once.
    pub(super) pieces: Vec<Cue>,
    /// What says for which size it is.
    pub(super) size_from: Word<'static>,
    /// Whether it is a number of things and no measure: `20 side triangles`, `two by two`.
    counts_things: bool,
    /// Whether it is a measure and no number of things, though it has no unit: `18 square`, `11 deep`.
    is_measure: bool,
    /// The other numbers of its column or list.
    pub(super) siblings: Siblings,
    /// Of how many of these the kind is that most are of.
    pub(super) siblings_most: usize,
    /// For each key whether its names leave it, whether they do in the wide sense, and whether another number of its
    /// line is it by value and by name.
    flags: Vec<u8>,
}

const KEPT: u8 = 1;
const WIDE: u8 = 2;
const TOLD_IN_LINE: u8 = 4;

/// What a sentence names nearest to a number on one side, of a kind.
pub(super) struct Beside {
    pub(super) side: Word<'static>,
    pub(super) kind: Kind,
    pub(super) cues: Vec<Cue>,
    /// How many tokens lie between.
    pub(super) distance: usize,
    /// Whether another number lies between.
    pub(super) is_parted: bool,
}

/// A family that a number is of.
pub(super) struct Family {
    lines: Counts,
    pub(super) most: usize,
    /// How many others there are.
    pub(super) others: usize,
    do_differ: bool,
}

impl Family {
    fn new(gathered: &Gathered<'_, '_>, family: &[usize], own: usize) -> Family {
        let others: Vec<usize> = family.iter().copied().filter(|other| *other != own).collect();
        let lines = Counts::new(others.iter().map(|other| &gathered.lines[*other]));
        let written = |other: &usize| {
            let other = &gathered.open[*other];
            gathered.read.written(other.passage, other.element)
        };
        let first = others.first().map(written);
        let do_differ = others.iter().any(|other| Some(written(other)) != first);
        Family { most: lines.most(), lines, others: others.len(), do_differ }
    }

    /// How the line of a key stands among those of the others: the higher the better.
    pub(super) fn rank(&self, line: usize) -> (u8, Word<'static>) {
        let own = self.lines.of(line);
        match own {
            0 if self.most == 0 => (0, word!("nobody")),
            0 => (0, word!("no")),
            _ if own == self.others && self.do_differ => (6, word!("all-differ")),
            _ if own == self.others && own > 1 => (5, word!("all-alike")),
            _ if own == self.others => (4, word!("all-of-one")),
            _ if own < self.most => (1, word!("some")),
            _ if own + 1 == self.others => (3, word!("all-but-one")),
            _ => (2, word!("most")),
        }
    }
}

impl<'g, 'm> Number<'g, 'm> {
    pub(super) fn new(gathered: &'g Gathered<'g, 'm>, index: usize) -> Number<'g, 'm> {
        let candidates = &gathered.open[index];
        let here = &gathered.read.list[candidates.passage];
        let own = &here.elements[candidates.element];
        let sentence = here.sentence(candidates.element);
        let line = &gathered.groups[gathered.group_of[index]];
        let group = &line.members;
        let at = |other: &usize| (gathered.open[*other].passage, gathered.open[*other].element);
        let place = group.binary_search_by_key(&at(&index), at).unwrap_or(0);
        let near = &gathered.passages[gathered.passage_of[index]];
        let (previous, next) = (place.checked_sub(1).map(|place| group[place]), group.get(place + 1).copied());
        let siblings = gathered.siblings_of(index);
        let is_asked = |what: &&What| !matches!(what, What::Seam | What::UsableWidth | What::Count);
        let siblings_most =
            What::ALL.iter().filter(is_asked).map(|what| siblings.of[*what as usize]).max().unwrap_or(0);
        let families = gathered.families_of[index].iter().map(|family| &gathered.families[*family]);
        let word_at = |at: Option<usize>| word_at(here, at);
        let mut number = Number {
            gathered,
            index,
            candidates,
            here,
            own,
            before: [word_at(own.tokens.start.checked_sub(1)), word_at(own.tokens.start.checked_sub(2))],
            after: [word_at(Some(own.tokens.end)), word_at(Some(own.tokens.end + 1))],
            beside: beside(here, &sentence, own),
            above: above(gathered, candidates.passage),
            named: here.cues.iter().map(|cue| cue.cue).filter(|cue| cue.is_subject()).collect(),
            cues: Vec::new(),
            line: Tally::new(&line.owners, &gathered.owners[index]),
            line_fabrics: Tally::new(&line.fabrics, &gathered.fabrics[index]),
            passage: Tally::new(&near.owners, &gathered.owners[index]),
            families: families.map(|family| Family::new(gathered, family, index)).collect(),
            previous,
            next,
            near: near_keys(gathered, [previous, next], index),
            pieces: pieces(here, &sentence, own),
            size_from: size_from(here, &sentence, candidates),
            counts_things: counts_things(here, own, candidates),
            is_measure: is_measure(here, candidates.element),
            siblings,
            siblings_most,
            flags: flags(gathered, index),
        };
        number.cues = number.all_cues();
        number
    }

    /// What is named at each distance, the nearest first, as far as signs go by it.
    pub(super) fn levels(&self) -> impl Iterator<Item = &'g Level> + use<'g, 'm> {
        self.candidates.around.subjects.iter().take(5)
    }

    fn all_cues(&self) -> Vec<Cue> {
        let levels = self.levels().flat_map(|level| level.cues.iter().chain(&level.weak));
        let above = self.above.iter().flat_map(|(_, cues)| cues);
        let beside = self.beside.iter().flat_map(|beside| &beside.cues);
        let mut cues: Vec<Cue> =
            levels.chain(above).chain(beside).chain(&self.named).chain(&self.pieces).copied().collect();
        cues.sort_unstable();
        cues.dedup();
        cues
    }

    /// How it stands to a key by its value; one that it is nothing like it is not.
    pub(super) fn fit(&self, key: usize) -> Fit {
        let (keys, fits) = (self.gathered.keys, &self.candidates.fits);
        if fits.is_like(keys, key) { fits.fit(keys, key) } else { Fit::Other }
    }

    /// Whether it can be a key that it is like: one that it fits, or one by which it can be wrong. What merely follows, and what is for
    /// another size than the one that is said, proves none wrong.
    pub(super) fn can_be(&self, key: usize) -> bool {
        let of = &self.gathered.keys.list[key];
        let fit = self.candidates.fits.fit(self.gathered.keys, key);
        let is_measure = !matches!(of.value.kind(), ValueKind::Count | ValueKind::Grid);
        fit != Fit::Other
            || of.is_sure
                && of.is_for(&self.candidates.around.sizes)
                && !(is_measure && self.counts_things)
                && (is_measure || !self.is_measure)
    }

    /// Whether its names leave a key.
    pub(super) fn is_kept(&self, key: usize) -> bool {
        self.flags[key] & KEPT != 0
    }

    /// Whether they do in the wide sense.
    pub(super) fn is_wide(&self, key: usize) -> bool {
        self.flags[key] & WIDE != 0
    }

    /// Whether another number of its line is a key by value and by name.
    pub(super) fn is_told_in_line(&self, key: usize) -> bool {
        self.flags[key] & TOLD_IN_LINE != 0
    }

    /// How many others of the text are, as far as that is told apart.
    pub(super) fn times_told(&self, key: usize) -> usize {
        let own = usize::from(self.gathered.told[self.index].binary_search(&key).is_ok());
        (self.gathered.times_told[key] - own).min(TIMES.len() - 1)
    }

    pub(super) fn is_whole(&self) -> bool {
        self.here.tokens.numbers[self.own.numbers[0]].first().over == 1
    }

    pub(super) fn unit(&self) -> Word<'static> {
        match unit_at(&self.here.tokens, self.own).or(self.own.run_unit) {
            None => word!("none"),
            Some(Unit::Yard | Unit::Metre) => word!("yard"),
            Some(Unit::Inch) => word!("inch"),
            Some(_) => word!("cm"),
        }
    }

    pub(super) const fn form(&self) -> Word<'static> {
        match self.own.form {
            Form::Scalar => word!("one"),
            Form::Sides => word!("sides"),
            Form::Strip => word!("strip"),
        }
    }

    /// How near the noun stands.
    pub(super) const fn noun_place(&self) -> Word<'static> {
        let around = &self.candidates.around;
        match (around.noun_is_near, around.noun_is_adjacent) {
            (true, true) => word!("beside"),
            (true, false) => word!("near"),
            (false, _) => word!("far"),
        }
    }
}

/// A word as signs say it.
fn word_at<'h>(here: &'h ReadPassage<'_>, at: Option<usize>) -> Cow<'h, str> {
    match at.and_then(|at| here.tokens.list.get(at)) {
        None => "-".into(),
        Some(token) => match token.kind {
            TokenKind::Number(_) => "#".into(),
            TokenKind::Sign('\n') => "/".into(),
            TokenKind::Sign(sign) => sign.to_string().into(),
            TokenKind::Word => Cow::Borrowed(&token.stem),
        },
    }
}

fn beside(here: &ReadPassage<'_>, sentence: &Tokened, own: &Element) -> Vec<Beside> {
    let own = &own.tokens;
    let parts = |from: usize, to: usize| here.tokens.list[from..to].iter().any(|token| token.number().is_some());
    let of = |placed: &super::super::lexicon::PlacedCue| {
        let (cue, kind) = (placed.cue, Kind::of(placed.cue)?);
        if placed.tokens.end <= own.start {
            Some((own.start - placed.tokens.end, word!("before"), kind, cue, placed.tokens.end..own.start))
        } else if placed.tokens.start >= own.end {
            Some((placed.tokens.start - own.end, word!("after"), kind, cue, own.end..placed.tokens.start))
        } else {
            None
        }
    };
    let mut placed: Vec<_> = here.in_sentence(sentence).filter_map(of).collect();
    placed.sort_by_key(|(distance, ..)| *distance);
    let mut nearest: Vec<Beside> = Vec::new();
    for (distance, side, kind, cue, between) in placed {
        match nearest.iter_mut().find(|known| known.side == side && known.kind == kind) {
            Some(known) if known.distance == distance => known.cues.push(cue),
            Some(_) => {}
            None => {
                let is_parted = parts(between.start, between.end);
                nearest.push(Beside { side, kind, cues: vec![cue], distance, is_parted });
            }
        }
    }
    nearest
}

/// Whether a number is one of things by how it is written: a word, or a figure before what is counted, without a unit.
fn counts_things(here: &ReadPassage<'_>, own: &Element, candidates: &Candidates) -> bool {
    const COUNTED: [Noun; 12] = [
        Noun::Strip,
        Noun::Square,
        Noun::Rectangle,
        Noun::Triangle,
        Noun::Piece,
        Noun::Unit,
        Noun::Block,
        Noun::Row,
        Noun::Panel,
        Noun::Segment,
        Noun::Sash,
        Noun::Cornerstone,
    ];
    let number = &here.tokens.numbers[own.numbers[0]];
    let around = &candidates.around;
    let is_before_things = || {
        own.form == Form::Scalar
            && around.noun_follows
            && (around.noun_is_adjacent || candidates.in_run && around.noun_is_near)
            && COUNTED.iter().any(|noun| around.nouns & noun.bit() != 0)
    };
    // `3 (4, 5) of each`
    let goes_on = |token: &&Token| !token.is_word() && !token.ends_clause();
    let after = own.tokens.end + here.tokens.list[own.tokens.end..].iter().take_while(goes_on).count();
    let word = |at: usize| here.tokens.list.get(at).map_or("", |token| token.stem.as_str());
    let is_of_each = word(after) == "of" && matches!(word(after + 1), "each" | "them" | "these" | "those" | "both");
    let has_unit = candidates.has_unit || own.run_unit.is_some();
    !has_unit && number.first().over == 1 && (number.in_words || is_of_each || is_before_things())
}

/// Whether a number without a unit is a measure by the word after it.
fn is_measure(here: &ReadPassage<'_>, element: usize) -> bool {
    let own = &here.elements[element];
    let number = here.tokens.numbers[own.numbers[0]].first();
    let says =
        |words: &[&str]| here.tokens.list.get(own.tokens.end).is_some_and(|token| words.contains(&token.stem.as_str()));
    let is_square = here.is_said_square(element) && number.top > number.over;
    own.form == Form::Scalar && (is_square || says(&["deep", "thick"]))
}

/// What says for which size a number is: its place in a run, the heads of its cell, its sentence, or what stands over it.
fn size_from(here: &ReadPassage<'_>, sentence: &Tokened, candidates: &Candidates) -> Word<'static> {
    let is_said = || here.in_sentence(sentence).any(|placed| placed.cue.size().is_some());
    match candidates.around.sizes.len() {
        0 => word!("nothing"),
        _ if candidates.in_run => word!("run"),
        _ if candidates.around.in_table => word!("table"),
        _ if is_said() => word!("sentence"),
        _ => word!("above"),
    }
}

/// The pieces that a sentence names beside an element, each once.
fn pieces(here: &ReadPassage<'_>, sentence: &Tokened, own: &Element) -> Vec<Cue> {
    let own = &own.tokens;
    let is_beside = |tokens: &std::ops::Range<usize>| tokens.end <= own.start || tokens.start >= own.end;
    let named = here.in_sentence(sentence).filter(|placed| is_beside(&placed.tokens));
    let mut pieces: Vec<Cue> = named.map(|placed| placed.cue).filter(|cue| matches!(cue, Cue::Piece(..))).collect();
    pieces.sort_unstable();
    pieces.dedup();
    pieces
}

/// The keys that the numbers beside one came to before the weights.
fn near_keys<'g>(
    gathered: &'g Gathered<'g, '_>,
    [previous, next]: [Option<usize>; 2],
    index: usize,
) -> Vec<(usize, &'g [usize])> {
    let [above, below] = gathered.in_column(index);
    let passage = &gathered.passages[gathered.passage_of[index]].members;
    let place = passage.binary_search(&index).unwrap_or(0);
    let earlier = || passage[..place].iter().rev().copied().find(|other| !gathered.came_to(*other).is_empty());
    let later = || passage[place + 1..].iter().copied().find(|other| !gathered.came_to(*other).is_empty());
    let near: [_; PLACES.len()] = [previous, next, earlier(), later(), above, below];
    let keys = near.into_iter().enumerate().filter_map(|(place, other)| Some((place, gathered.came_to(other?))));
    keys.filter(|(_, keys)| !keys.is_empty()).collect()
}

fn flags(gathered: &Gathered<'_, '_>, index: usize) -> Vec<u8> {
    let mut flags = vec![0; gathered.keys.list.len()];
    let candidates = &gathered.open[index];
    candidates.keys.iter().for_each(|key| flags[*key] |= KEPT);
    candidates.wide.iter().for_each(|key| flags[*key] |= WIDE);
    let told = gathered.groups[gathered.group_of[index]].told.without(&gathered.told[index]);
    told.filter(|(_, times)| *times > 0).for_each(|(key, _)| flags[key] |= TOLD_IN_LINE);
    flags
}

fn above(gathered: &Gathered<'_, '_>, passage: usize) -> Vec<(Word<'static>, Vec<Cue>)> {
    let above = gathered.read.above(passage);
    let of = |(place, (context, is_own)): (usize, (usize, bool))| {
        let read = &gathered.read.list[context];
        let name = match (is_own, place) {
            (true, 0) => word!("head"),
            (true, _) => word!("other-head"),
            (false, 0 | 1) => word!("above"),
            (false, _) if read.passage.headings.is_empty() => word!("title"),
            (false, _) => word!("above"),
        };
        (name, read.cues.iter().map(|cue| cue.cue).filter(|cue| cue.is_subject()).collect())
    };
    above.into_iter().enumerate().map(of).collect()
}
