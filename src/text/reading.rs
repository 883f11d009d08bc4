//! The numbers of a text, each with what it was matched to and why not.

use std::ops::Range;
use std::sync::Arc;

use super::assign::{Assigned, CameTo, assign};
use super::context::ReadPassages;
use super::keys::Keys;
use super::lexicon::Lexicon;
use super::numbers::Ratio;
use super::passage::PrintedText;
use super::remarks::{Remark, RemarkKind, remarks};
use crate::manuscript::Manuscript;
use crate::quantity::Unit;
use crate::requirement::Needs;
use crate::rule_book::Settings;

/// A text with its numbers, read by the key of its manuscript.
#[derive(Debug)]
pub struct Reading<'m> {
    /// The numbers of the manuscript.
    pub(crate) keys: Arc<Keys<'m>>,
    /// The numbers of the text, in the order of reading.
    pub numbers: Vec<ReadNumber>,
    /// What is wrong in the text by itself.
    pub remarks: Vec<Remark>,
}

/// A number of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadNumber {
    /// The passage that it stands in.
    pub passage: usize,
    /// Its bytes there, with its unit.
    pub at: Range<usize>,
    /// The bytes of the words that say what it is: its sentence, or its cell.
    pub sentence: Range<usize>,
    /// What it can be, the likeliest first; never empty.
    pub(crate) readings: Vec<Ratio>,
    /// Its unit, which may stand at another number of its size or its run.
    pub(crate) unit: Option<Unit>,
    /// What came of it.
    pub state: State,
    /// The keys that it was matched to, or that it differs from.
    pub keys: Vec<usize>,
}

/// What came of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// The manuscript says the same.
    Right,
    /// The manuscript says something else.
    Differs,
    /// It is no rounding of the same number in the other measure beside it.
    OtherHalf,
    /// It is wrong by itself: another number than the word before it, or than its parts make.
    ByItself,
    /// Nothing is said of it, for this reason.
    Unclear(&'static str),
    /// It is none that a manuscript states, for this reason.
    NotRequired(&'static str),
}

/// How many numbers of a text were matched.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Share {
    /// Those that the manuscript states the same.
    pub right: usize,
    /// Those that differ.
    pub differ: usize,
    /// Those of which nothing is said.
    pub unclear: usize,
}

impl Share {
    /// All numbers that a manuscript could state.
    pub const fn all(self) -> usize {
        self.right + self.differ + self.unclear
    }

    /// `93 of 97 numbers matched, 1 differs`.
    pub fn words(self) -> String {
        let differ = match self.differ {
            0 => String::new(),
            1 => ", 1 differs".to_string(),
            many => format!(", {many} differ"),
        };
        let numbers = if self.all() == 1 { "number" } else { "numbers" };
        format!("{} of {} {numbers} matched{differ}", self.right, self.all())
    }
}

/// The words and the numbers of a manuscript, by which its texts are read.
#[derive(Debug)]
pub struct Reference<'m> {
    lexicon: Lexicon,
    keys: Arc<Keys<'m>>,
}

impl<'m> Reference<'m> {
    /// The reference that a manuscript is.
    pub fn new(manuscript: &'m Manuscript, needs: &Needs<'m>, settings: &Settings) -> Reference<'m> {
        Reference { lexicon: Lexicon::new(manuscript, settings), keys: Arc::new(Keys::new(manuscript, needs)) }
    }

    /// How many numbers it has, with those that follow from what is stated.
    pub fn stated(&self) -> usize {
        self.keys.list.len()
    }
}

impl<'m> Reading<'m> {
    /// Reads the numbers of a text.
    pub fn new(printed: &PrintedText, reference: &Reference<'m>) -> Reading<'m> {
        let Reference { lexicon, keys } = reference;
        let manuscript = keys.manuscript;
        let read = ReadPassages::of(&printed.passages, lexicon, keys);
        let assigned = assign(&read, keys, manuscript.measure.bare_unit());
        let mut numbers: Vec<ReadNumber> = assigned.iter().flat_map(|assigned| read_number(&read, assigned)).collect();
        // A width that several lengths share is told once, and is right where it is for one of them.
        numbers.sort_by_key(|number| (number.passage, number.at.start, number.state != State::Right));
        numbers.dedup_by_key(|number| (number.passage, number.at.start));
        let remarks = remarks(&read, lexicon, manuscript);
        // What is wrong by itself is told once.
        for remark in &remarks {
            let is_in = |number: &&mut ReadNumber| {
                number.passage == remark.passage
                    && remark.at.start <= number.at.start
                    && number.at.start < remark.at.end
            };
            // Of a word and another figure nobody knows which is meant.
            let is_word = matches!(remark.kind, RemarkKind::WordAndFigure { .. });
            let is_wrong =
                |number: &&mut ReadNumber| number.state == State::Differs || number.state == State::Right && is_word;
            for number in numbers.iter_mut().filter(is_in).filter(is_wrong) {
                number.state = State::ByItself;
            }
        }
        Reading { keys: Arc::clone(keys), numbers, remarks }
    }

    /// How many numbers were matched.
    pub fn share(&self) -> Share {
        let count = |is: fn(&State) -> bool| self.numbers.iter().filter(|number| is(&number.state)).count();
        Share {
            right: count(|state| *state == State::Right),
            differ: count(|state| matches!(state, State::Differs | State::OtherHalf | State::ByItself)),
            unclear: count(|state| matches!(state, State::Unclear(_))),
        }
    }
}

/// Each number of an element with what came of it.
fn read_number(read: &ReadPassages<'_>, assigned: &Assigned) -> Vec<ReadNumber> {
    let here = &read.list[assigned.passage];
    let own = &here.elements[assigned.element];
    let sentence = here.words_of(assigned.element);
    let of = |number: &usize| {
        let (state, keys) = match &assigned.came_to {
            CameTo::NotRequired(why) => (State::NotRequired(why), Vec::new()),
            CameTo::Unclear(why) => (State::Unclear(why), Vec::new()),
            CameTo::Differs(keys, numbers) if numbers.contains(number) => (State::Differs, keys.clone()),
            CameTo::OtherHalf(keys, numbers) if numbers.contains(number) => (State::OtherHalf, keys.clone()),
            CameTo::Right(keys) | CameTo::OtherHalf(keys, _) | CameTo::Differs(keys, _) => (State::Right, keys.clone()),
        };
        let text = &here.tokens.numbers[*number];
        let beside = own.numbers.iter().rev().find_map(|number| here.tokens.numbers[*number].unit);
        ReadNumber {
            passage: assigned.passage,
            at: text.with_unit.clone(),
            sentence: sentence.clone(),
            readings: text.readings.clone(),
            unit: text.unit.or(beside).or(own.run_unit),
            state,
            keys,
        }
    };
    own.numbers.iter().map(of).collect()
}
