//! Whether a number differs from what it should be: the numbers of the corpus are right, and those of its changes wrong.

use std::collections::BTreeMap;
use std::fmt;

use rayon::prelude::*;

use super::choices::{Choices, Signs, Weights};
use super::folds::{fold, letter};
use super::keys::{Fitted, Kind, Truths};
use super::{NumberSigns, Source, Text, signs};
use crate::text::corpus::changes::{Change, Slip, changes};

/// How strongly each weight is drawn to nought.
const PULL: f64 = 1.0;

/// Of ten thousand right numbers, how many the written threshold may blame.
const BLAMED: usize = 15;

/// Of which the table tells.
const BOUNDS: [usize; 5] = [10, BLAMED, 20, 30, 50];

/// Stands among the signs of every number, and goes into the threshold.
const ALWAYS: &str = "always";

/// What a number is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum What {
    Right(Kind),
    Wrong(Slip),
}

/// A number that is to be judged; one that was changed may have become several, or none.
pub(super) struct Judged {
    letter: char,
    what: What,
    /// Whether it was blamed before there were weights.
    before: bool,
    /// Whether it is blamed whatever the weights say.
    settled: bool,
    signs: Vec<Vec<String>>,
}

/// The numbers of all texts and of every `step`th of their changes, by the weights of the other folds.
pub(super) fn judged(texts: &[Text], step: usize, keys: &Fitted) -> Vec<Judged> {
    let of_texts: Vec<Vec<Judged>> =
        texts.par_iter().enumerate().map(|(at, text)| of_text(text, at % step, step, keys)).collect();
    of_texts.into_iter().flatten().collect()
}

fn of_text(text: &Text, first: usize, step: usize, keys: &Fitted) -> Vec<Judged> {
    let (letter, truths) = (letter(&text.name), Truths::of(text));
    let (all, weights) = (&keys.choices.signs, &keys.by_others[fold(letter)]);
    let source = Source::open(&text.manuscript).unwrap();
    let mut found: Vec<Judged> = Vec::new();
    for number in signs(&source, &text.parts, None) {
        let what = What::Right(truths.of_number(&number).0);
        found.push(Judged::new(letter, what, &[number], all, weights));
    }
    for Change { slip, number, parts, .. } in changes(text).into_iter().skip(first).step_by(step) {
        let after = signs(&source, &parts, Some(&(number.passage, number.at)));
        found.push(Judged::new(letter, What::Wrong(slip), &after, all, weights));
    }
    found
}

impl Judged {
    /// By the scores of the keys with some weights.
    pub(super) fn new(letter: char, what: What, numbers: &[NumberSigns], all: &Signs, weights: &Weights) -> Judged {
        let any = |states: &[&str]| numbers.iter().any(|number| states.contains(&number.state));
        // The weights decide nothing of these.
        let open = numbers.iter().filter(|own| !["other-half", "not-required", "about"].contains(&own.state));
        let signs = open.filter_map(|number| {
            let scores: Vec<i32> = number.keys.iter().map(|key| all.sum(&key.signs, weights)).collect();
            number.verdict_signs(all.sum(&number.none, weights), &scores)
        });
        let (before, settled) = (any(&["differs", "other-half"]), any(&["other-half"]));
        Judged { letter, what, before, settled, signs: signs.collect() }
    }

    const fn is_right(&self) -> bool {
        matches!(self.what, What::Right(_))
    }

    fn is_of_traps(&self) -> bool {
        self.what == What::Right(Kind::Trap)
    }
}

/// The weights of the signs of verdicts, and how they do.
pub(super) struct Verdicts {
    judged: Vec<Judged>,
    /// By the weights of the other folds, the highest sum of the signs of each.
    sums: Vec<Option<i32>>,
    /// The weights by all texts.
    named: BTreeMap<String, i32>,
    /// The traps, and the sums of their signs by these weights, the highest first.
    traps: Vec<(i32, String)>,
}

impl Verdicts {
    /// From the numbers of the texts, and those of the traps by the scores with the weights of all texts.
    pub(super) fn new(judged: Vec<Judged>, traps: Vec<(String, Judged)>) -> Verdicts {
        let always = [ALWAYS.to_owned()];
        let mut choices = Choices::default();
        for one in &judged {
            for signs in &one.signs {
                choices.option(&[], one.is_right());
                choices.option(signs.iter().chain(&always), !one.is_right());
                choices.close(fold(one.letter));
            }
        }
        let (by_others, by_all) = choices.fit_each(PULL, 1);
        let sum = |one: &Judged| {
            let weights = &by_others[fold(one.letter)];
            one.signs.iter().map(|signs| choices.signs.sum(signs.iter().chain(&always), weights)).max()
        };
        let sums = judged.iter().map(sum).collect();
        let sum = |signs: &Vec<String>| choices.signs.sum(signs.iter().chain(&always), &by_all);
        let traps = traps.into_iter().filter_map(|(says, trap)| Some((trap.signs.iter().map(sum).max()?, says)));
        let mut traps: Vec<(i32, String)> = traps.collect();
        traps.sort_by(|one, other| other.cmp(one));
        Verdicts { sums, named: choices.signs.named(&by_all), judged, traps }
    }

    /// The lowest sum that blames at most so many of ten thousand right numbers, traps left aside.
    fn threshold(&self, bound: usize) -> i32 {
        let is_counted = |one: &Judged| one.is_right() && !one.is_of_traps();
        let right = || self.judged.iter().zip(&self.sums).filter(|(one, _)| is_counted(one));
        let settled = right().filter(|(one, _)| one.settled).count();
        let may = (right().count() * bound / 10_000).saturating_sub(settled);
        let mut sums: Vec<i32> = right().filter(|(one, _)| !one.settled).filter_map(|(_, sum)| *sum).collect();
        sums.sort_unstable_by(|one, other| other.cmp(one));
        sums.get(may).or(sums.last()).map_or(0, |sum| sum + 1)
    }

    /// The weight of what stands among the signs of every number.
    fn always(&self) -> i32 {
        self.named.get(ALWAYS).copied().unwrap_or(0)
    }

    /// The threshold that is written: it blames no trap.
    fn safe_threshold(&self) -> i32 {
        self.threshold(BLAMED).max(self.traps.first().map_or(i32::MIN, |(highest, _)| highest + 1))
    }

    /// The weights as they are written, with the threshold: from this sum on a number differs.
    pub(super) fn written(&self) -> BTreeMap<String, i32> {
        let mut written = self.named.clone();
        written.remove(ALWAYS);
        assert!(written.keys().all(|sign| sign.starts_with("verdict ")), "{written:?}");
        let before = written.insert("verdict threshold".to_owned(), self.safe_threshold() - self.always());
        assert!(before.is_none(), "the threshold is a sign too");
        written
    }

    /// A line of the table: how many right numbers are blamed, and how much of what is wrong.
    fn line(&self, name: &str, is_of: impl Fn(&Judged) -> bool) -> String {
        let own: Vec<(&Judged, &Option<i32>)> =
            self.judged.iter().zip(&self.sums).filter(|(one, _)| is_of(one)).collect();
        let count = |is_right: bool, is_blamed: &dyn Fn(&Judged, &Option<i32>) -> bool| {
            own.iter().filter(|(one, sum)| one.is_right() == is_right && is_blamed(one, sum)).count()
        };
        let (right, wrong) = (count(true, &|_, _| true), count(false, &|_, _| true));
        let cell = |is_blamed: &dyn Fn(&Judged, &Option<i32>) -> bool| {
            let blamed = if right == 0 { String::new() } else { count(true, is_blamed).to_string() };
            let caught =
                (count(false, is_blamed) * 100).checked_div(wrong).map_or(String::new(), |share| format!("{share}%"));
            format!("{blamed:>4}{caught:>5}")
        };
        let mut line = format!("{name:<14}{right:>6}{wrong:>6}{}", cell(&|one, _| one.before));
        for bound in BOUNDS {
            let threshold = self.threshold(bound);
            line += &cell(&|one, sum| one.settled || sum.is_some_and(|sum| sum >= threshold));
        }
        line.trim_end().to_owned()
    }
}

impl fmt::Display for Verdicts {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let cells = |says: &dyn Fn(usize) -> String| BOUNDS.map(|bound| format!("{:>9}", says(bound))).concat();
        writeln!(out, "right numbers blamed and wrong ones caught, out of fold:")?;
        writeln!(
            out,
            "{:<14}{:>6}{:>6}{:>9}{}",
            "of 10,000",
            "right",
            "wrong",
            "before",
            cells(&|bound| bound.to_string())
        )?;
        let threshold = |bound: usize| (self.threshold(bound) - self.always()).to_string();
        writeln!(out, "{:<35}{}", "threshold", cells(&threshold))?;
        writeln!(out, "{}", self.line("all", |one| !one.is_of_traps()))?;
        for kind in Kind::ALL {
            writeln!(out, "{}", self.line(&kind.to_string(), |one| one.what == What::Right(kind)))?;
        }
        for slip in [Slip::Step, Slip::DigitsSwapped, Slip::OtherSize, Slip::Unit] {
            writeln!(out, "{}", self.line(&slip.to_string(), |one| one.what == What::Wrong(slip)))?;
        }
        let of_texts = self.judged.iter().filter(|one| !one.is_of_traps());
        let mut letters: Vec<char> = of_texts.map(|one| one.letter).collect();
        letters.sort_unstable();
        letters.dedup();
        for letter in letters {
            writeln!(
                out,
                "{}",
                self.line(&format!("texts {letter}"), |one| one.letter == letter && !one.is_of_traps())
            )?;
        }
        for (sum, says) in self.traps.iter().take_while(|(sum, _)| *sum >= self.threshold(BLAMED)) {
            writeln!(out, "too high by {}: {says}", sum + 1 - self.threshold(BLAMED))?;
        }
        let threshold = self.safe_threshold() - self.always();
        write!(out, "{} signs have a weight; the threshold is {threshold}", self.named.len())
    }
}
