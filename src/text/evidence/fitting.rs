//! The signs in words, for fitting their weights.

use std::ops::Range;

use super::super::assign::{CameTo, before_weights};
use super::super::compare::Fit;
use super::super::context::ReadPassages;
use super::super::files::TextFile;
use super::super::keys::{KeyValue, Keys};
use super::super::lexicon::Lexicon;
use super::gathered::Gathered;
use super::number::Number;
use super::sign::Word;
use super::slips::Slip;
use super::verdict::{Facts, signs, state_of};
use super::{Score, of_key, of_number};
use crate::manuscript::{ReadText, Source, Span, arena_for};
use crate::requirement::Needs;
use crate::requirement::about::go_by_design;
use crate::rule_book::Settings;

/// A number of a text with its signs.
#[derive(Clone, Debug)]
pub struct NumberSigns {
    /// Its passage.
    pub passage: usize,
    /// Its bytes there.
    pub at: Range<usize>,
    /// The signs of its being none of the keys.
    pub none: Vec<String>,
    /// The keys that it can be.
    pub keys: Vec<KeySigns>,
    /// What it came to without them.
    pub state: &'static str,
    is_unsized: bool,
    size_from: Word<'static>,
}

/// A key with the signs for it.
#[derive(Clone, Debug)]
pub struct KeySigns {
    /// Where it is stated in the manuscript.
    pub at: Span,
    /// Whether it is stated itself.
    pub is_stated: bool,
    /// Whether it is as sure as what is stated.
    pub is_sure: bool,
    /// 2 where the number says the same, 1 where it is one side of it, 0 where it says something else.
    pub fit: u8,
    /// The signs.
    pub signs: Vec<String>,
    /// Which slips of it the number is.
    slips: [bool; Slip::ALL.len()],
    /// What it is of, and for which size.
    of: (usize, Option<usize>),
    line: usize,
    value: KeyValue,
}

impl Facts for NumberSigns {
    fn fit(&self, key: usize) -> Fit {
        [Fit::Other, Fit::OneSide, Fit::Same][usize::from(self.keys[key].fit)]
    }

    fn say_the_same(&self, one: usize, other: usize) -> bool {
        self.keys[one].value == self.keys[other].value
    }

    fn are_kin(&self, one: usize, other: usize) -> (bool, bool) {
        let ((thing, size), (other_thing, other_size)) = (self.keys[one].of, self.keys[other].of);
        (thing == other_thing, size == other_size)
    }

    fn is_slip(&self, slip: Slip, key: usize) -> bool {
        self.keys[key].slips[slip as usize]
    }

    fn are_of_one_line(&self, one: usize, other: usize) -> bool {
        self.keys[one].line == self.keys[other].line
    }

    fn is_unsized(&self) -> bool {
        self.is_unsized
    }

    fn size_from(&self) -> Word<'static> {
        self.size_from
    }
}

impl NumberSigns {
    /// The signs of its differing, by the score of its being none of the keys and that of each key; `None` where there
    /// is no key that it differs from.
    pub fn verdict_signs(&self, none: i32, scores: &[i32]) -> Option<Vec<String>> {
        let scores: Vec<Score> = scores.iter().enumerate().map(|(key, sum)| Score { key, sum: *sum }).collect();
        let mut found = Vec::new();
        let some = signs(self, self.state, none, &scores, &mut |sign: String| found.push(sign));
        some.then_some(found)
    }
}

/// The numbers of a text that may be those of a manuscript, each with its signs; only those that touch some bytes of a
/// passage, where these are given.
pub fn signs_of(
    file: &TextFile,
    source: &Source,
    settings: &Settings,
    only: Option<&(usize, Range<usize>)>,
) -> Vec<NumberSigns> {
    let arena = arena_for(&source.text);
    let mut manuscript = ReadText::of(source, &arena);
    go_by_design(&mut manuscript.manuscript, settings);
    let needs = Needs::new(&manuscript.manuscript, settings);
    let lexicon = Lexicon::new(&manuscript.manuscript, settings);
    let keys = Keys::new(&manuscript.manuscript, &needs);
    let read = ReadPassages::of(&file.printed.passages, &lexicon, &keys);
    let bare = manuscript.manuscript.measure.bare_unit();
    let before = before_weights(&read, &keys, bare);
    let gathered = Gathered::new(&read, &keys, &before, bare);
    let numbers = (0..before.open.len()).map(|index| (index, Number::new(&gathered, index)));
    let is_asked = |number: &Number<'_, '_>| {
        let at = bytes(number);
        only.is_none_or(|(passage, asked)| {
            *passage == number.candidates.passage && asked.start < at.end && at.start < asked.end
        })
    };
    let asked = numbers.filter(|(_, number)| is_asked(number));
    asked.map(|(index, number)| number_signs(&number, &before.came[index])).collect()
}

/// Where a number stands in its passage, with its unit.
fn bytes(number: &Number<'_, '_>) -> Range<usize> {
    let text = &number.here.tokens.numbers;
    let (first, last) = (number.own.numbers[0], number.own.numbers[number.own.numbers.len() - 1]);
    text[first].with_unit.start..text[last].with_unit.end
}

fn number_signs(number: &Number<'_, '_>, came: &CameTo) -> NumberSigns {
    let mut none = Vec::new();
    of_number::of_none(number, &mut |sign: String| none.push(sign));
    let list = &number.gathered.keys.list;
    let all: Vec<String> = of_number::of_each_what(number);
    let keys = number.candidates.fits.like().iter().copied().filter(|key| number.can_be(*key)).map(|place| {
        let key = &list[place];
        let mut signs = Vec::new();
        of_number::of_what(number, key.what, &all, &mut |sign: String| signs.push(sign));
        of_key::of_key(number, place, &mut |sign: String| signs.push(sign));
        let fit = match number.fit(place) {
            Fit::Same => 2,
            Fit::OneSide => 1,
            Fit::Other => 0,
        };
        let slips = Slip::ALL.map(|slip| slip.is(number, place));
        let (is_stated, is_sure) = (key.is_stated(), key.is_sure);
        let of = (number.gathered.keys.groups.things.of[place], key.size);
        let line = number.gathered.keys.groups.lines.of[place];
        KeySigns { at: key.at, is_stated, is_sure, fit, signs, slips, of, line, value: key.value.clone() }
    });
    NumberSigns {
        passage: number.candidates.passage,
        at: bytes(number),
        none,
        keys: keys.collect(),
        state: state_of(came),
        is_unsized: number.is_unsized(),
        size_from: number.size_from,
    }
}
