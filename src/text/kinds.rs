//! Which kinds of numbers an element can be, by its form and its unit.

use super::context::ReadPassage;
use super::elements::{Element, Form, unit_at};
use super::key_groups::KeyForm;
use super::keys::{ValueKind, What};
use crate::quantity::Unit;

/// Whether a key is of the kind that an element is.
pub(super) fn is_of_kind((what, value): KeyForm, own: &Element, here: &ReadPassage<'_>, bare: Unit) -> bool {
    let number = &here.tokens.numbers[own.numbers[0]];
    let unit = unit_at(&here.tokens, own).or(own.run_unit);
    let is_yards = matches!(unit, Some(Unit::Yard | Unit::Metre));
    match (value, own.form) {
        (ValueKind::Count, Form::Scalar) => unit.is_none() && number.count().is_some() || number.unit_is_doubtful,
        (ValueKind::Count, _) => own.may_be_count_and_size,
        (ValueKind::Grid, form) => form == Form::Sides && is_grid(own, here),
        (ValueKind::Amount, Form::Scalar) => match unit {
            Some(Unit::Inch | Unit::Foot | Unit::Mm) => false,
            Some(_) => true,
            None => here.is_cell() && bare.is_metric(),
        },
        (ValueKind::Amount, _) => false,
        (ValueKind::Length, Form::Sides) => what == What::StripWidth,
        (ValueKind::Length, Form::Scalar) if is_yards => what == What::Length,
        (ValueKind::Length, _) => {
            unit.is_some()
                || number.first().over != 1
                || here.is_cell()
                || bare.is_metric()
                || own.form == Form::Strip
                || here.is_length_by_name(own) && what != What::StripWidth
        }
        (ValueKind::Sides, Form::Scalar) => !is_yards && (unit.is_some() || number.first().over != 1 || here.is_cell()),
        (ValueKind::Sides, _) => !is_yards,
    }
}

/// Up to how many blocks are laid side by side.
const MOST_LAID: u64 = 40;

/// Whether an element can be so many across and so many down: two whole numbers without a unit.
pub(super) fn is_grid(own: &Element, here: &ReadPassage<'_>) -> bool {
    let count = |number: &usize| here.tokens.numbers[*number].count().is_some_and(|count| count <= MOST_LAID);
    own.run_unit.is_none() && unit_at(&here.tokens, own).is_none() && own.numbers.iter().all(count)
}

/// Whether an element is in yards or meters.
pub(super) fn is_yards(own: &Element, here: &ReadPassage<'_>) -> bool {
    let is = |unit: Option<Unit>| matches!(unit, Some(Unit::Yard | Unit::Metre));
    own.numbers.iter().any(|number| is(here.tokens.numbers[*number].unit)) || is(own.run_unit)
}
