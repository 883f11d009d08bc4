//! A join of the binding lands on a corner.
//!
//! Joins are measured from a start in the middle of the longest side, which is where patterns tell readers to begin.
//! Where a plain `extra_length` is stated nobody knows the tail at the start, and nothing is judged.

use super::Context;
use crate::finding::{Finding, Label};
use crate::quantity::{Count, Length, Measure};
use crate::quilt_math::joins::{Course, NearCorner};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::binding_course::{JOIN_CLEAR_OF_CORNER, course};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let clear = context.settings.length(JOIN_CLEAR_OF_CORNER);
    let course = course(needs, size, context.settings)?;
    let near = course.near_corners(clear);
    let first = near.first()?;
    let at = size.size.finished.at()?;
    if let Some(unworded) = context.unworded(at, &size.size.name) {
        return Some(unworded);
    }
    let step = match needs.measure {
        Measure::Inch => Length::inch_fraction(1, 2),
        Measure::Cm => Length::millimetres(10),
    };
    let message = format!(
        "{} That makes a lump at the corner.",
        near.iter().map(|near| landing(needs, near)).collect::<Vec<_>>().join(" ")
    );
    let advice = match course.shift(clear, step) {
        Some(shift) if shift.is_negative() => {
            format!(
                "Move the start {} back, against the way you sew, and every join clears the corners.",
                needs.up(-shift)
            )
        }
        Some(shift) => {
            format!("Move the start {} onward, the way you sew, and every join clears the corners.", needs.up(shift))
        }
        None => "No start on this side keeps every join clear: trim one strip shorter before it is joined.".to_string(),
    };
    let label = format!("join {} lands at corner {}", first.join, first.corner);
    Some(
        Finding::new(Label::new(at, label), message)
            .for_size(&size.size.name)
            .see(needs.stated.tails.at, "the joins are counted from the start of this tail")
            .help(format!(
                "Strips of {} joined, with a tail of {} before the first stitch, which is {}.",
                needs.up(size.strip_length),
                needs.up(course.start_tail),
                start_words(needs, &course),
            ))
            .help(advice)
            .numbers(distance(needs, first, "the corner"), format!("more than {} from it", needs.up(clear))),
    )
}

/// Where the first stitch is: a short side has no room for the opening behind its middle.
fn start_words(needs: &BindingNeeds<'_>, course: &Course<'_>) -> String {
    let (start, side) = (course.start(), course.edge.longest_side());
    if start == side.half() {
        return "in the middle of the longest side".to_string();
    }
    format!("on the longest side, {} past its corner so that the opening fits behind it", needs.up(start))
}

fn landing(needs: &BindingNeeds<'_>, near: &NearCorner) -> String {
    let corner = format!("the {} corner after the start", ordinal(near.corner));
    format!("The {} join lands {}.", ordinal(near.join), distance(needs, near, &corner))
}

fn distance(needs: &BindingNeeds<'_>, near: &NearCorner, corner: &str) -> String {
    if near.distance.is_positive() {
        format!("{} from {corner}", needs.up(near.distance))
    } else {
        format!("in {corner}")
    }
}

fn ordinal(count: Count) -> String {
    const WORDS: [&str; 9] = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"];
    let word = usize::try_from(count.0).ok().and_then(|place| WORDS.get(place.checked_sub(1)?));
    match (word, count.0) {
        (Some(word), _) => (*word).to_string(),
        (None, many) => {
            let ending = match (many % 10, many % 100) {
                (_, 11..=13) => "th",
                (1, _) => "st",
                (2, _) => "nd",
                (3, _) => "rd",
                _ => "th",
            };
            format!("{many}{ending}")
        }
    }
}
