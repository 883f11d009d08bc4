//! A length or a size that is stated in both measures: whether the one is the other rounded.

use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::reader::StatedPair;
use crate::quantity::{Length, Measure, OtherHalf, Round, Written, rewrite_sides};
use crate::rule_book::{LengthValue, Settings};

/// The steps to which a length is rounded in the other measure, by how long it is: metric, and in inches.
const SMALL: (LengthValue, LengthValue) =
    (LengthValue::named("pair_step_small"), LengthValue::named("pair_step_small_inch"));
const MIDDLE: (LengthValue, LengthValue) = (LengthValue::named("pair_step"), LengthValue::named("pair_step_inch"));
const LARGE: (LengthValue, LengthValue) =
    (LengthValue::named("pair_step_large"), LengthValue::named("pair_step_large_inch"));

/// From where on a length is rounded to the middle step, and from where on to the large one.
const MIDDLE_FROM: Length = Length::millimetres(100);
const LARGE_FROM: Length = Length::millimetres(500);

/// One side whose other half is no rounding of it.
struct Apart {
    own: Written,
    other: OtherHalf,
    by: Length,
    step: Length,
}

/// What is found of a pair in a text.
pub(in crate::rules) fn finding(settings: &Settings, text: &str, pair: &StatedPair) -> Option<Finding> {
    let apart = pair.sides.iter().filter_map(|side| apart(settings, side));
    let worst = apart.max_by_key(|side| side.by)?;
    let measure = |is_metric: bool| if is_metric { Measure::Cm } else { Measure::Inch };
    let (own_measure, other_measure) = (measure(worst.own.unit.is_metric()), measure(worst.other.unit.is_metric()));
    let own = worst.own.length.show_as(own_measure, Round::Down);
    let other = Written { length: worst.other.length(), unit: worst.other.unit, bare: false, other: None };
    let other = other.rewrite(worst.other.length());
    let exact = worst.own.length.show_fine(other_measure, Round::Down);
    let (more, step) = (worst.other.length() > worst.own.length, worst.step.show_as(other_measure, Round::Down));
    let by = worst.by.show_fine(other_measure, if more { Round::Up } else { Round::Down });
    let message = format!(
        "{own} and {other} stated for one length: {own} is about {exact}, so {other} is {by} too {}, more than \
         rounding to {step} explains.",
        if more { "large" } else { "small" },
    );
    let at = pair.other_at(text);
    let text = rewritten(pair);
    let level = match worst.by {
        // Short lengths are often printed to the next half centimeter as well.
        by if worst.other.unit.is_metric() && by * 2 <= settings.length(MIDDLE.0) => Level::Note,
        by if by < worst.step => Level::Query,
        _ => Level::Error,
    };
    Some(
        Finding::new(Label::new(at, format!("{own} is about {exact}")), message)
            .help(
                "Everything is computed with the half in the manuscript's own measure; a reader may cut by the other.",
            )
            .help(format!("Write {text}."))
            .numbers(other, exact)
            .at_most(level)
            .corrected(Some(Correction::new(pair.at, text))),
    )
}

/// The same in both measures, the other half rounded anew.
fn rewritten(pair: &StatedPair) -> String {
    match pair.sides.as_slice() {
        [width, length] => rewrite_sides((width, length), (width.length, length.length)),
        sides => sides.first().map(|side| side.rewrite(side.length)).unwrap_or_default(),
    }
}

fn apart(settings: &Settings, own: &Written) -> Option<Apart> {
    let other = own.other?;
    let steps = match own.length {
        length if length >= LARGE_FROM => LARGE,
        length if length >= MIDDLE_FROM => MIDDLE,
        _ => SMALL,
    };
    let step = settings.length(if other.unit.is_metric() { steps.0 } else { steps.1 });
    let by = (own.length - other.length()).abs();
    (by * 2 > step).then_some(Apart { own: *own, other, by, step })
}
