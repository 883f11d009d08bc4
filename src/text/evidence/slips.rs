//! Whether a printed number is a usual slip of what it should be: a step, two digits swapped, another size's, the unit.

use super::super::compare::{Fit, grid_of, has_digits, off_grid, sides_off};
use super::super::elements::Form;
use super::super::keys::{Key, KeyValue};
use super::number::Number;
use super::sign::{Word, word};
use crate::quantity::{Length, Unit};

/// The usual slips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slip {
    Step,
    Swap,
    OtherSize,
    Unit,
}

impl Slip {
    pub(super) const ALL: [Slip; 4] = [Slip::Step, Slip::Swap, Slip::OtherSize, Slip::Unit];

    pub(super) const fn word(self) -> Word<'static> {
        match self {
            Slip::Step => word!("step"),
            Slip::Swap => word!("swap"),
            Slip::OtherSize => word!("other-size"),
            Slip::Unit => word!("unit"),
        }
    }

    /// Whether a number is this slip of a key.
    pub(super) fn is(self, number: &Number<'_, '_>, place: usize) -> bool {
        let key = &number.gathered.keys.list[place];
        match self {
            Slip::Step => is_step(number, key),
            Slip::Swap => is_swap(number, key),
            Slip::OtherSize => is_of_other_size(number, place),
            Slip::Unit => {
                units_of(key, number.gathered.bare).iter().any(|unit| has_digits(key, number.own, number.here, *unit))
            }
        }
    }
}

/// The units that a number is printed in: fabric by the yard or the meter, all else in inches or centimeters.
const fn units_of(key: &Key, bare: Unit) -> &'static [Unit] {
    match (&key.value, bare.is_metric()) {
        (KeyValue::Count(_) | KeyValue::Grid(..), _) => &[],
        (KeyValue::Amount(_), true) => &[Unit::Cm, Unit::Metre],
        (KeyValue::Amount(_), false) => &[Unit::Yard],
        (_, true) => &[Unit::Cm],
        (_, false) => &[Unit::Inch],
    }
}

fn is_step(number: &Number<'_, '_>, key: &Key) -> bool {
    let first = &number.here.tokens.numbers[number.own.numbers[0]];
    let bare = number.gathered.bare;
    let off = |own: Length, bare: Unit| {
        let unit = first.unit.or(number.own.run_unit).unwrap_or(bare);
        first.readings.iter().any(|reading| is_one_step((reading.of(unit) - own).abs(), unit))
    };
    let sold = if bare.is_metric() { Unit::Cm } else { Unit::Yard };
    match &key.value {
        KeyValue::Count(count) => first.count().is_some_and(|own| own.abs_diff(*count) == 1),
        KeyValue::Grid(across, down) => {
            let grid = grid_of(number.own, number.here);
            grid.is_some_and(|grid| off_grid(grid, [*across, *down]).iter().sum::<u64>() == 1)
        }
        KeyValue::Length(lengths) => lengths.iter().any(|length| off(*length, bare)),
        KeyValue::Amount(lengths) => lengths.iter().any(|length| off(*length, sold)),
        KeyValue::Sides(_) if number.own.form == Form::Sides => {
            sides_off(key, number.own, number.here, bare).len() == 1
        }
        KeyValue::Sides(sides) => sides.iter().any(|(one, other)| off(*one, bare) || off(*other, bare)),
    }
}

/// An eighth or a whole one; in the metric measure half a centimeter or a whole one.
fn is_one_step(off: Length, unit: Unit) -> bool {
    match unit {
        Unit::Inch => off == Length::inch_fraction(1, 8) || off == Length::inches(1),
        Unit::Yard => off == Length::inch_fraction(36, 8) || off == Length::inches(36),
        Unit::Cm => off == Length::millimetres(5) || off == Length::millimetres(10),
        _ => false,
    }
}

fn is_swap(number: &Number<'_, '_>, key: &Key) -> bool {
    let KeyValue::Count(count) = key.value else { return false };
    let mut digits: Vec<u8> = count.to_string().into_bytes();
    if digits.len() < 2 || digits[0] == digits[1] {
        return false;
    }
    digits.swap(0, 1);
    let own = number.here.tokens.numbers[number.own.numbers[0]].count();
    own.is_some_and(|own| own.to_string().into_bytes() == digits)
}

fn is_of_other_size(number: &Number<'_, '_>, place: usize) -> bool {
    let gathered = number.gathered;
    let own = gathered.keys.list[place].size;
    let line = gathered.keys.groups.lines.of[place];
    let is = |other: &usize| gathered.keys.list[*other].size != own && number.fit(*other) == Fit::Same;
    own.is_some() && gathered.keys_of[line].iter().any(is)
}
