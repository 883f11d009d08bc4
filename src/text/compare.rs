//! Whether a number of a text is a number of the manuscript, in any reading that its spelling allows.

use super::context::ReadPassage;
use super::elements::{Element, Form};
use super::keys::{Key, KeyValue};
use super::numbers::{Ratio, TextNumber};
use super::passage::PassageKind;
use crate::quantity::{Length, Unit};

/// How an element stands to a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fit {
    /// They say the same.
    Same,
    /// It is one side of a size.
    OneSide,
    /// They say different things.
    Other,
}

/// The widths that strips across a fabric are said to have.
fn is_fabric_width(length: Length) -> bool {
    let between = |low: i64, high: i64| length >= Length::inches(low) && length <= Length::inches(high);
    between(39, 46) || between(20, 22) || between(106, 118)
}

impl ReadPassage<'_> {
    /// Whether it is a cell of a table.
    pub(crate) fn is_cell(&self) -> bool {
        matches!(self.passage.kind, PassageKind::Cell { .. })
    }

    /// The lengths that a number of an element can be, each with how far it may be rounded.
    fn lengths(&self, own: &Element, number: usize, bare: Unit) -> Vec<(Length, Unit, Ratio)> {
        let text = &self.tokens.numbers[number];
        let others = own.numbers.iter().rev().find_map(|number| self.tokens.numbers[*number].unit);
        let unit = text.unit.or(others).or(own.run_unit).unwrap_or(bare);
        text.readings.iter().map(|reading| (reading.of(unit), unit, *reading)).collect()
    }
}

/// How far a number in metric units may be from one in inches that it stands for: half of the step it is printed to,
/// and more for amounts, which shops cut by the 10 cm. In inches what is large is rounded to halves and to whole ones.
fn rounding(length: Length, unit: Unit, reading: Ratio, is_amount: bool) -> Length {
    match unit {
        Unit::Mm => Unit::Mm.one(),
        Unit::Cm if is_amount => Unit::Cm.one() * 10,
        Unit::Cm if reading.over == 1 => Length::millimetres(5),
        Unit::Cm => Length::millimetres(3),
        Unit::Metre => Unit::Cm.one() * 10,
        Unit::Inch if length >= Length::inches(20) && reading.over == 1 => Length::inch_fraction(1, 2),
        Unit::Inch if length >= Length::inches(20) && reading.over == 2 => Length::inch_fraction(1, 4),
        Unit::Inch if length >= Length::inches(6) && reading.over == 1 => Length::inch_fraction(1, 4),
        Unit::Inch => Length::inch_fraction(1, 8),
        Unit::Foot | Unit::Yard => Length::inches(5),
    }
}

/// A length that a number can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct PrintedLength {
    length: Length,
    is_metric: bool,
    /// How far it may be rounded, and how far where it is an amount.
    rounding: (Length, Length),
}

impl PrintedLength {
    fn new((length, unit, reading): (Length, Unit, Ratio)) -> PrintedLength {
        let rounding = |is_amount: bool| rounding(length, unit, reading, is_amount);
        PrintedLength { length, is_metric: unit.is_metric(), rounding: (rounding(false), rounding(true)) }
    }

    /// Whether it is one of the manuscript's: the same, or rounded from the other measure where the manuscript does not
    /// state it in both.
    fn is(&self, own: StatedLength, slack: Length, (is_amount, is_only): (bool, bool)) -> bool {
        let off = (self.length - own.length).abs();
        let rounding = if is_amount { self.rounding.1 } else { self.rounding.0 };
        off == Length::ZERO || off <= slack || off <= rounding && is_only && self.is_metric == own.is_inches
    }
}

/// What is whole in one measure is no fraction of the other, so it was stated in the first.
fn is_inches(length: Length) -> bool {
    length.is_multiple_of(Length::inch_fraction(1, 64)) || length.is_multiple_of(Length::inch_fraction(1, 3))
}

/// A length of the manuscript.
#[derive(Clone, Copy, Debug)]
struct StatedLength {
    length: Length,
    is_inches: bool,
}

impl StatedLength {
    fn new(length: Length) -> StatedLength {
        StatedLength { length, is_inches: is_inches(length) }
    }
}

/// Lengths of the manuscript, each of which may be printed.
#[derive(Debug)]
struct StatedLengths {
    list: Vec<StatedLength>,
    /// Whether they are all of one measure.
    is_only: bool,
}

impl StatedLengths {
    fn new(lengths: impl IntoIterator<Item = Length>) -> StatedLengths {
        let list: Vec<StatedLength> = lengths.into_iter().map(StatedLength::new).collect();
        let is_only = list.windows(2).all(|pair| pair[0].is_inches == pair[1].is_inches);
        StatedLengths { list, is_only }
    }
}

/// What a key says, as what is printed is compared with it.
#[derive(Debug)]
pub(super) struct Stated {
    value: StatedValue,
    slack: Length,
}

#[derive(Debug)]
enum StatedValue {
    Count(u64),
    Grid([u64; 2]),
    Length(StatedLengths),
    Amount(StatedLengths),
    Sides {
        /// Both sides in each measure, and whether there is one measure only.
        both: Vec<[StatedLength; 2]>,
        is_only: bool,
        /// The sides of those that are squares.
        squares: StatedLengths,
        all: StatedLengths,
    },
}

impl Stated {
    pub(super) fn new(key: &Key) -> Stated {
        let lengths = |lengths: &[Length]| StatedLengths::new(lengths.iter().copied());
        let value = match &key.value {
            KeyValue::Count(count) => StatedValue::Count(*count),
            KeyValue::Grid(across, down) => StatedValue::Grid([*across, *down]),
            KeyValue::Length(own) => StatedValue::Length(lengths(own)),
            KeyValue::Amount(own) => StatedValue::Amount(lengths(own)),
            KeyValue::Sides(sides) => {
                let squares = sides.iter().filter(|(one, other)| one == other).map(|(one, _)| *one);
                let both: Vec<[StatedLength; 2]> =
                    sides.iter().map(|(one, other)| [*one, *other].map(StatedLength::new)).collect();
                StatedValue::Sides {
                    is_only: both.windows(2).all(|pair| pair[0][0].is_inches == pair[1][0].is_inches),
                    both,
                    squares: StatedLengths::new(squares),
                    all: StatedLengths::new(sides.iter().flat_map(|(one, other)| [*one, *other])),
                }
            }
        };
        Stated { value, slack: key.slack }
    }
}

/// What an element says, in all readings.
#[derive(Debug, PartialEq, Eq, Hash)]
pub(super) struct Printed {
    form: Form,
    /// Its two numbers as counts.
    grid: Option<[u64; 2]>,
    /// Its first number as a count.
    count: Option<u64>,
    first: Vec<PrintedLength>,
    /// Its first number as an amount: without a unit it is in the one in which fabric is sold.
    amounts: Vec<PrintedLength>,
    second: Vec<PrintedLength>,
    /// Whether its first number is in yards, as fabric is and no side of anything.
    is_in_yards: bool,
    /// Whether the second number can be the width of the fabric.
    is_across: bool,
}

impl ReadPassage<'_> {
    /// What an element says.
    pub(super) fn printed(&self, own: &Element, bare: Unit) -> Printed {
        let first = own.numbers[0];
        let lengths = |number: usize, bare: Unit| self.lengths(own, number, bare).into_iter().map(PrintedLength::new);
        let second: Vec<PrintedLength> = match own.form {
            Form::Sides => lengths(own.numbers[1], bare).collect(),
            Form::Scalar | Form::Strip => Vec::new(),
        };
        Printed {
            form: own.form,
            grid: grid_of(own, self),
            count: count_of(&self.tokens.numbers[first]),
            first: lengths(first, bare).collect(),
            is_in_yards: self.tokens.numbers[first].unit == Some(Unit::Yard),
            amounts: sold_in(bare).iter().flat_map(|unit| lengths(first, *unit)).collect(),
            is_across: second.iter().any(|second| is_fabric_width(second.length)),
            second,
        }
    }
}

impl Printed {
    /// Compares it with what a key says.
    pub(super) fn compare(&self, stated: &Stated) -> Fit {
        let any = |printed: &[PrintedLength], own: &StatedLengths, is_amount: bool| {
            let by = (is_amount, own.is_only);
            own.list.iter().any(|own| printed.iter().any(|printed| printed.is(*own, stated.slack, by)))
        };
        let same = |is: bool| if is { Fit::Same } else { Fit::Other };
        match (&stated.value, self.form) {
            (StatedValue::Count(count), _) => same(self.count == Some(*count)),
            (StatedValue::Grid(own), _) => same(self.grid.is_some_and(|grid| off_grid(grid, *own) == [0, 0])),
            // The second number of a strip is the width of the fabric.
            (StatedValue::Length(own), Form::Sides) => same(self.is_across && any(&self.first, own, false)),
            (StatedValue::Length(own), _) => same(any(&self.first, own, false)),
            (StatedValue::Amount(own), _) => same(any(&self.amounts, own, true)),
            (StatedValue::Sides { both, is_only, .. }, Form::Sides) => {
                same(both.iter().any(|sides| self.are_sides(*sides, stated.slack, *is_only)))
            }
            (StatedValue::Sides { .. }, _) if self.is_in_yards => Fit::Other,
            (StatedValue::Sides { squares, .. }, _) if any(&self.first, squares, false) => Fit::Same,
            (StatedValue::Sides { squares, all, .. }, _) => {
                if squares.list.is_empty() && any(&self.first, all, false) {
                    Fit::OneSide
                } else {
                    Fit::Other
                }
            }
        }
    }

    /// Whether its numbers are both sides, in either order.
    fn are_sides(&self, [one, other]: [StatedLength; 2], slack: Length, is_only: bool) -> bool {
        let is = |printed: &[PrintedLength], side: StatedLength| {
            printed.iter().any(|printed| printed.is(side, slack, (false, is_only)))
        };
        is(&self.first, one) && is(&self.second, other) || is(&self.first, other) && is(&self.second, one)
    }
}

/// Compares an element with a key.
pub(crate) fn compare(key: &Key, own: &Element, here: &ReadPassage<'_>, bare: Unit) -> Fit {
    here.printed(own, bare).compare(&Stated::new(key))
}

const fn sold_in(bare: Unit) -> &'static [Unit] {
    if bare.is_metric() { &[Unit::Cm, Unit::Metre] } else { &[Unit::Yard] }
}

/// Whether an element has the digits of a key where each of its numbers is in a unit, exactly.
pub(crate) fn has_digits(key: &Key, own: &Element, here: &ReadPassage<'_>, unit: Unit) -> bool {
    let is = |number: usize, length: Length| {
        let readings = &here.tokens.numbers[own.numbers[number]].readings;
        readings.iter().any(|reading| reading.of(unit) == length)
    };
    match (&key.value, own.form) {
        (KeyValue::Count(_) | KeyValue::Grid(..), _) => false,
        (KeyValue::Length(lengths) | KeyValue::Amount(lengths), form) => {
            form != Form::Sides && lengths.iter().any(|length| is(0, *length))
        }
        (KeyValue::Sides(sides), Form::Sides) => {
            let both = |one: Length, other: Length| is(0, one) && is(1, other);
            sides.iter().any(|(one, other)| both(*one, *other) || both(*other, *one))
        }
        (KeyValue::Sides(sides), _) => sides.iter().any(|(one, other)| one == other && is(0, *one)),
    }
}

fn count_of(number: &TextNumber) -> Option<u64> {
    number.readings.iter().find_map(|reading| reading.count())
}

/// Whether an element is a width and the width of the fabric: `7 1/4" x 40"`.
pub(crate) fn is_across_fabric(own: &Element, here: &ReadPassage<'_>, bare: Unit) -> bool {
    own.form == Form::Sides
        && here.lengths(own, own.numbers[1], bare).iter().any(|(length, ..)| is_fabric_width(*length))
}

/// Whether a key is stated in both measures.
pub(crate) fn states_both_measures(key: &Key) -> bool {
    match &key.value {
        KeyValue::Count(_) | KeyValue::Grid(..) => false,
        KeyValue::Length(lengths) | KeyValue::Amount(lengths) => !StatedLengths::new(lengths.iter().copied()).is_only,
        KeyValue::Sides(sides) => !StatedLengths::new(sides.iter().map(|(one, _)| *one)).is_only,
    }
}

/// The numbers of the second half of a pair that are no rounding of those of the first.
pub(crate) fn halves_apart(one: &Element, other: &Element, here: &ReadPassage<'_>, bare: Unit) -> Vec<usize> {
    let pairs = one.numbers.iter().zip(&other.numbers);
    let apart = |(first, second): &(&usize, &usize)| {
        let (firsts, seconds) = (here.lengths(one, **first, bare), here.lengths(other, **second, bare));
        !firsts.iter().any(|(length, unit, reading)| {
            seconds.iter().any(|(second, other_unit, other_reading)| {
                let is_amount =
                    matches!(unit, Unit::Yard | Unit::Metre) || matches!(other_unit, Unit::Yard | Unit::Metre);
                let most = rounding(*length, *unit, *reading, is_amount).max(rounding(
                    *second,
                    *other_unit,
                    *other_reading,
                    is_amount,
                ));
                (*length - *second).abs() <= most
            })
        })
    };
    pairs.filter(apart).map(|(_, second)| *second).collect()
}

/// Which of the two numbers of an element are neither side of a key.
pub(crate) fn sides_off(key: &Key, own: &Element, here: &ReadPassage<'_>, bare: Unit) -> Vec<usize> {
    if let KeyValue::Grid(across, down) = key.value {
        let Some(grid) = grid_of(own, here) else { return own.numbers.clone() };
        let numbers = own.numbers.iter().zip(off_grid(grid, [across, down]));
        return numbers.filter(|(_, off)| *off > 0).map(|(number, _)| *number).collect();
    }
    let KeyValue::Sides(sides) = &key.value else { return own.numbers[..1].to_vec() };
    let metric = here.lengths(own, own.numbers[0], bare).first().is_some_and(|(_, unit, _)| unit.is_metric());
    let own_measure = sides.iter().find(|(one, _)| is_inches(*one) != metric);
    let Some((one, other)) = own_measure.or(sides.first()).copied() else { return own.numbers.clone() };
    let off = |order: [Length; 2]| -> Vec<usize> {
        let pairs = own.numbers.iter().zip(order);
        let differs = |(number, side): &(&usize, Length)| {
            let only = sides.len() == 1;
            let printed = here.lengths(own, **number, bare);
            let side = StatedLength::new(*side);
            !printed.into_iter().any(|printed| PrintedLength::new(printed).is(side, key.slack, (false, only)))
        };
        pairs.filter(differs).map(|(number, _)| *number).collect()
    };
    let (straight, turned) = (off([one, other]), off([other, one]));
    if turned.len() < straight.len() { turned } else { straight }
}

/// The two counts that an element is.
pub(super) fn grid_of(own: &Element, here: &ReadPassage<'_>) -> Option<[u64; 2]> {
    let [one, other] = own.numbers[..] else { return None };
    Some([count_of(&here.tokens.numbers[one])?, count_of(&here.tokens.numbers[other])?])
}

/// How far each of two counts is from as many across and down, in the order in which more of them are right.
pub(super) fn off_grid(counts: [u64; 2], [across, down]: [u64; 2]) -> [u64; 2] {
    let off = |order: [u64; 2]| [counts[0].abs_diff(order[0]), counts[1].abs_diff(order[1])];
    let wrong = |off: &[u64; 2]| off.iter().filter(|off| **off > 0).count();
    let (straight, turned) = (off([across, down]), off([down, across]));
    if wrong(&turned) < wrong(&straight) { turned } else { straight }
}
