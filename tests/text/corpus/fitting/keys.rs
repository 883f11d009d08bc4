//! Which number of the manuscript a number of a text is: the choices that the corpus has made.

use std::fmt;
use std::ops::Range;

use sparestrip::text::KeySigns;

use super::choices::{Choices, Weights};
use super::folds::{fold, letter};
use super::places::places;
use super::traps::is_of_traps;
use super::{NumberSigns, Source, Text, signs};
use crate::text::corpus::contents;
use crate::text::corpus::fill::Truth;

/// How strongly each weight is drawn to nought: signs that were seldom seen weigh little.
const PULL: f64 = 0.5;

/// The least weight that is kept: most signs say next to nothing.
const LEAST: u32 = 3;

/// What is known of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// It is an entry of the manuscript.
    Direct,
    /// It follows from entries.
    Derived,
    /// The manuscript says nothing of it.
    Unmarked,
    /// Nor of this, and its sentence tempts to take it for a number of the manuscript.
    Trap,
}

impl Kind {
    pub(super) const ALL: [Kind; 4] = [Kind::Direct, Kind::Derived, Kind::Unmarked, Kind::Trap];
}

impl fmt::Display for Kind {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(match self {
            Kind::Direct => "direct",
            Kind::Derived => "derived",
            Kind::Unmarked => "no requirement",
            Kind::Trap => "trap",
        })
    }
}

/// What is known of the numbers of a text.
pub(super) struct Truths {
    /// The passage and the bytes of each, and the byte of its entry in the manuscript.
    marked: Vec<(usize, Range<usize>, Option<usize>)>,
    /// What the others are.
    others: Kind,
}

impl Truths {
    pub(super) fn of(text: &Text) -> Truths {
        let path = |truth: &Truth| if let Truth::Direct { path, .. } = truth { Some(path.clone()) } else { None };
        let paths: Vec<String> = text.numbers.iter().filter_map(|number| path(&number.truth)).collect();
        let mut places = places(&contents(&text.manuscript), &paths).into_iter();
        let numbers = text.numbers.iter();
        let marked = numbers.map(|number| {
            let place = path(&number.truth).map(|_| places.next().unwrap());
            (number.passage, number.at.clone(), place)
        });
        Truths { marked: marked.collect(), others: if is_of_traps(text) { Kind::Trap } else { Kind::Unmarked } }
    }

    /// What is known of a number, and which of its keys it is; where none is, it is none of them.
    pub(super) fn of_number(&self, number: &NumberSigns) -> (Kind, Vec<bool>) {
        let touches = |at: &Range<usize>| at.start < number.at.end && number.at.start < at.end;
        let here: Vec<Option<usize>> = self
            .marked
            .iter()
            .filter(|(passage, at, _)| *passage == number.passage && touches(at))
            .map(|known| known.2)
            .collect();
        let all = |is: &dyn Fn(&KeySigns) -> bool| number.keys.iter().map(is).collect::<Vec<bool>>();
        let is_there = |key: &KeySigns| here.contains(&Some(key.at.start)) && key.fit > 0;
        match (here.iter().any(Option::is_some), here.is_empty()) {
            (true, _) => {
                let stated = all(&|key| is_there(key) && (key.is_stated || key.is_sure));
                (Kind::Direct, if stated.contains(&true) { stated } else { all(&is_there) })
            }
            (false, false) => (Kind::Derived, all(&|key| key.fit == 2)),
            (false, true) => (self.others, all(&|_| false)),
        }
    }
}

/// The choices of a text, and the kind of each.
pub(super) fn of_text(text: &Text) -> (Choices, Vec<Kind>) {
    let (mut choices, mut kinds) = (Choices::default(), Vec::new());
    let truths = Truths::of(text);
    for number in signs(&Source::open(&text.manuscript).unwrap(), &text.parts, None) {
        let (kind, is) = truths.of_number(&number);
        choices.option(&number.none, kind != Kind::Direct || !is.contains(&true));
        number.keys.iter().zip(is).for_each(|(key, is)| choices.option(&key.signs, is));
        choices.close(fold(letter(&text.name)));
        kinds.push(kind);
    }
    (choices, kinds)
}

/// The choices of all texts, with the weights that were fitted to them.
pub(super) struct Fitted {
    pub(super) choices: Choices,
    kinds: Vec<Kind>,
    /// For each fold the weights by the others.
    pub(super) by_others: Vec<Weights>,
    pub(super) by_all: Weights,
}

impl Fitted {
    pub(super) fn new(texts: Vec<(Choices, Vec<Kind>)>) -> Fitted {
        let (mut choices, mut kinds) = (Choices::default(), Vec::new());
        for (own, of_text) in texts {
            choices.append(&own);
            kinds.extend(of_text);
        }
        let (by_others, by_all) = choices.fit_each(PULL, LEAST);
        Fitted { choices, kinds, by_others, by_all }
    }
}

impl fmt::Display for Fitted {
    /// How many numbers go to what they are by the weights of the other folds.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "numbers whose highest score is what they are, out of fold:")?;
        for kind in Kind::ALL {
            let own: Vec<usize> = (0..self.kinds.len()).filter(|choice| self.kinds[*choice] == kind).collect();
            let is_right =
                |choice: &&usize| self.choices.is_best_right(**choice, &self.by_others[self.choices.fold(**choice)]);
            let right = own.iter().filter(is_right).count();
            let none = own.iter().filter(|choice| self.choices.is_first_right(**choice)).count();
            writeln!(out, "  {kind}: {right} of {}, of which {none} may be none of their keys", own.len())?;
        }
        let signs = self.by_all.iter().filter(|weight| **weight != 0).count();
        write!(out, "  {signs} of {} signs have a weight", self.by_all.len())
    }
}
