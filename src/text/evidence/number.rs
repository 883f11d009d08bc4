//! A number of a text with what stands around it, as signs go by it.

use std::collections::BTreeMap;

use super::super::candidates::Candidates;
use super::super::compare::Fit;
use super::super::context::ReadPassage;
use super::super::elements::{Element, Form, unit_at};
use super::super::keys::What;
use super::super::lexicon::Cue;
use super::super::tokens::TokenKind;
use super::gathered::{Gathered, Likeness, Siblings};
use super::sign::Kind;
use crate::quantity::Unit;

/// A number of a text.
pub(super) struct Number<'g, 'm> {
    pub(super) gathered: &'g Gathered<'g, 'm>,
    pub(super) index: usize,
    pub(super) candidates: &'g Candidates,
    pub(super) here: &'g ReadPassage<'g>,
    pub(super) own: &'g Element,
    /// The words before and after it, the nearest first.
    pub(super) before: [String; 2],
    pub(super) after: [String; 2],
    /// What its sentence names, the nearest first.
    pub(super) beside: Vec<Beside>,
    /// What stands above it, source by source, the nearest first.
    pub(super) above: Vec<(&'static str, Vec<Cue>)>,
    /// What its passage names.
    pub(super) named: Vec<Cue>,
    /// How often each thing is what the other numbers of its line are of by their values, and of how many.
    pub(super) line: Tally,
    /// The same for fabrics.
    pub(super) line_fabrics: Tally,
    /// The same for the other numbers of its passage.
    pub(super) passage: Tally,
    /// The families that it is of, each with how many of the others are of each line.
    pub(super) families: Vec<Family>,
    pub(super) previous: Option<usize>,
    pub(super) next: Option<usize>,
    /// What the numbers beside it came to before the weights: in its line, in its passage, in its column or list.
    pub(super) near: Vec<(&'static str, &'g [usize])>,
    /// The other numbers of its column or list.
    pub(super) siblings: Siblings,
    /// Of how many of these the kind is that most are of.
    pub(super) siblings_most: usize,
}

/// What a sentence names, seen from a number.
pub(super) struct Beside {
    pub(super) side: &'static str,
    pub(super) kind: Kind,
    pub(super) cue: Cue,
    /// How many tokens lie between.
    pub(super) distance: usize,
    /// Whether another number lies between.
    pub(super) is_parted: bool,
}

/// How often each thing is meant by other numbers.
#[derive(Default)]
pub(super) struct Tally {
    counts: BTreeMap<Cue, usize>,
    pub(super) most: usize,
    pub(super) of: usize,
}

impl Tally {
    fn new<'s>(sets: impl Iterator<Item = &'s std::collections::BTreeSet<Cue>>) -> Tally {
        let mut tally = Tally::default();
        for set in sets {
            tally.of += 1;
            for cue in set {
                *tally.counts.entry(*cue).or_default() += 1;
            }
        }
        tally.most = tally.counts.values().copied().max().unwrap_or(0);
        tally
    }

    /// How what a key is of stands among what the others are of.
    pub(super) fn rank(&self, of: &[Cue]) -> &'static str {
        let own = of.iter().filter_map(|cue| self.counts.get(cue)).copied().max().unwrap_or(0);
        match own {
            0 if self.most == 0 => "nobody",
            0 => "none",
            _ if own < self.most => "less",
            _ if own == self.of => "all",
            1 => "best",
            _ => "best-of-more",
        }
    }
}

/// A family that a number is of.
pub(super) struct Family {
    lines: BTreeMap<usize, usize>,
    pub(super) most: usize,
    /// How many others there are.
    pub(super) others: usize,
    do_differ: bool,
}

impl Family {
    fn new(gathered: &Gathered<'_, '_>, family: &[usize], own: usize) -> Family {
        let others = || family.iter().filter(|other| **other != own);
        let mut lines: BTreeMap<usize, usize> = BTreeMap::new();
        for line in others().flat_map(|other| &gathered.lines[*other]) {
            *lines.entry(*line).or_default() += 1;
        }
        let written = |other: &usize| {
            let other = &gathered.open[*other];
            gathered.read.written(other.passage, other.element)
        };
        let first = others().next().map(written);
        let do_differ = others().any(|other| Some(written(other)) != first);
        Family { most: lines.values().copied().max().unwrap_or(0), lines, others: others().count(), do_differ }
    }

    /// How the line of a key stands among those of the others: the higher the better.
    pub(super) fn rank(&self, line: usize) -> (u8, &'static str) {
        let own = self.lines.get(&line).copied().unwrap_or(0);
        match own {
            0 if self.most == 0 => (0, "nobody"),
            0 => (0, "no"),
            _ if own == self.others && self.do_differ => (6, "all-differ"),
            _ if own == self.others && own > 1 => (5, "all-alike"),
            _ if own == self.others => (4, "all-of-one"),
            _ if own < self.most => (1, "some"),
            _ if own + 1 == self.others => (3, "all-but-one"),
            _ => (2, "most"),
        }
    }
}

impl<'g, 'm> Number<'g, 'm> {
    pub(super) fn new(gathered: &'g Gathered<'g, 'm>, index: usize) -> Number<'g, 'm> {
        let candidates = &gathered.open[index];
        let here = &gathered.read.list[candidates.passage];
        let own = &here.elements[candidates.element];
        let group = &gathered.groups[&candidates.group];
        let place = group.iter().position(|other| *other == index).unwrap_or(0);
        let others = |of: &'g [usize]| of.iter().copied().filter(move |other| *other != index);
        let near = &gathered.passages[&candidates.passage];
        let (previous, next) = (place.checked_sub(1).map(|place| group[place]), group.get(place + 1).copied());
        let siblings = gathered.siblings_of(index);
        let is_asked = |what: &&What| !matches!(what, What::Seam | What::UsableWidth | What::Count);
        let siblings_most =
            What::ALL.iter().filter(is_asked).map(|what| siblings.of[*what as usize]).max().unwrap_or(0);
        let families = gathered.families.iter().filter(|family| family.contains(&index));
        let word = |at: Option<usize>| word(here, at);
        Number {
            gathered,
            index,
            candidates,
            here,
            own,
            before: [word(own.tokens.start.checked_sub(1)), word(own.tokens.start.checked_sub(2))],
            after: [word(Some(own.tokens.end)), word(Some(own.tokens.end + 1))],
            beside: beside(here, candidates.element),
            above: above(gathered, candidates.passage),
            named: here.cues.iter().map(|cue| cue.cue).filter(|cue| cue.is_subject()).collect(),
            line: Tally::new(others(group).map(|other| &gathered.owners[other])),
            line_fabrics: Tally::new(others(group).map(|other| &gathered.fabrics[other])),
            passage: Tally::new(others(near).map(|other| &gathered.owners[other])),
            families: families.map(|family| Family::new(gathered, family, index)).collect(),
            previous,
            next,
            near: near_keys(gathered, [previous, next], index),
            siblings,
            siblings_most,
        }
    }

    /// How it stands to a key; `None` where it is nothing like it.
    pub(super) fn likeness(&self, key: usize) -> Option<Likeness> {
        self.gathered.likeness[self.index][key]
    }

    /// How it stands to a key by its value.
    pub(super) fn fit(&self, key: usize) -> Fit {
        self.likeness(key).map_or(Fit::Other, |like| like.fit)
    }

    /// Whether it can be a key: one that it fits, or one by which it can be wrong. What merely follows, and what is for
    /// another size than the one that is said, proves none wrong.
    pub(super) fn can_be(&self, key: usize) -> bool {
        let of = &self.gathered.keys.list[key];
        self.likeness(key)
            .is_some_and(|like| like.fit != Fit::Other || of.is_sure && of.is_for(&self.candidates.around.sizes))
    }

    pub(super) fn is_whole(&self) -> bool {
        self.here.tokens.numbers[self.own.numbers[0]].first().over == 1
    }

    pub(super) fn unit(&self) -> &'static str {
        match unit_at(&self.here.tokens, self.own).or(self.own.run_unit) {
            None => "none",
            Some(Unit::Yard | Unit::Metre) => "yard",
            Some(Unit::Inch) => "inch",
            Some(_) => "cm",
        }
    }

    pub(super) const fn form(&self) -> &'static str {
        match self.own.form {
            Form::Scalar => "one",
            Form::Sides => "sides",
            Form::Strip => "strip",
        }
    }

    /// How near the noun stands.
    pub(super) const fn noun_place(&self) -> &'static str {
        let around = &self.candidates.around;
        match (around.noun_is_near, around.noun_is_adjacent) {
            (true, true) => "beside",
            (true, false) => "near",
            (false, _) => "far",
        }
    }
}

/// The keys that the numbers beside one came to before the weights.
fn near_keys<'g>(
    gathered: &'g Gathered<'g, '_>,
    [previous, next]: [Option<usize>; 2],
    index: usize,
) -> Vec<(&'static str, &'g [usize])> {
    let [above, below] = gathered.in_column(index);
    let passage = &gathered.passages[&gathered.open[index].passage];
    let place = passage.iter().position(|other| *other == index).unwrap_or(0);
    let earlier = || passage[..place].iter().rev().copied().find(|other| !gathered.came_to(*other).is_empty());
    let later = || passage[place + 1..].iter().copied().find(|other| !gathered.came_to(*other).is_empty());
    let near = [
        ("previous", previous),
        ("next", next),
        ("earlier", earlier()),
        ("later", later()),
        ("above-it", above),
        ("below-it", below),
    ];
    let keys = near.into_iter().filter_map(|(name, other)| Some((name, gathered.came_to(other?))));
    keys.filter(|(_, keys)| !keys.is_empty()).collect()
}

/// A word as signs say it.
fn word(here: &ReadPassage<'_>, at: Option<usize>) -> String {
    match at.and_then(|at| here.tokens.list.get(at)) {
        None => "-".into(),
        Some(token) => match token.kind {
            TokenKind::Number(_) => "#".into(),
            TokenKind::Sign('\n') => "/".into(),
            TokenKind::Sign(sign) => sign.to_string(),
            TokenKind::Word => token.stem.clone(),
        },
    }
}

fn beside(here: &ReadPassage<'_>, element: usize) -> Vec<Beside> {
    let own = &here.elements[element].tokens;
    let parts = |from: usize, to: usize| here.tokens.list[from..to].iter().any(|token| token.number().is_some());
    let of = |placed: &super::super::lexicon::PlacedCue| {
        let (cue, kind) = (placed.cue, Kind::of(placed.cue)?);
        if placed.tokens.end <= own.start {
            let distance = own.start - placed.tokens.end;
            Some(Beside { side: "before", kind, cue, distance, is_parted: parts(placed.tokens.end, own.start) })
        } else if placed.tokens.start >= own.end {
            let distance = placed.tokens.start - own.end;
            Some(Beside { side: "after", kind, cue, distance, is_parted: parts(own.end, placed.tokens.start) })
        } else {
            None
        }
    };
    let mut beside: Vec<Beside> = here.in_sentence(&here.sentence(element)).filter_map(of).collect();
    beside.sort_by_key(|beside| beside.distance);
    beside
}

fn above(gathered: &Gathered<'_, '_>, passage: usize) -> Vec<(&'static str, Vec<Cue>)> {
    let above = gathered.read.above(passage);
    let of = |(place, (context, is_own)): (usize, (usize, bool))| {
        let read = &gathered.read.list[context];
        let name = match (is_own, place) {
            (true, 0) => "head",
            (true, _) => "other-head",
            (false, 0 | 1) => "above",
            (false, _) if read.passage.headings.is_empty() => "title",
            (false, _) => "above",
        };
        (name, read.cues.iter().map(|cue| cue.cue).filter(|cue| cue.is_subject()).collect())
    };
    above.into_iter().enumerate().map(of).collect()
}
