//! What should be said about a backing and a batting: every finding, its level, size, place and two numbers.

use std::ops::Range;

use crate::independent::amounts::{Round, Stated, pair_can_be_meant, printed_like};
use crate::independent::backing_manuscript::{Manuscript, Places, Sheet, Size, holds, smallest_package};
use crate::independent::verdict::Expected;

/// All that should be said.
pub(crate) fn verdict(manuscript: &Manuscript, places: &[Places]) -> Vec<Expected> {
    let mut expected = Vec::new();
    for (size, at) in manuscript.sizes.iter().zip(places) {
        amounts(manuscript, size, at, &mut expected);
        if size.panels.is_some_and(|panels| panels < manuscript.fewest(size)) {
            expected.push(Expected::new("backing-panels", "error", &at.panels).named(size.name));
        }
        if let Some(batting) = &size.batting
            && !holds(batting.sheet, manuscript.batting(size))
        {
            expected.push(Expected::new("batting-short", "error", &at.batting).named(size.name));
        }
        if let Some(batting) = manuscript.larger_batting(size) {
            let at = match (&size.fabric, &manuscript.overhang) {
                (Some(_), _) => &at.fabric,
                (None, Some(_)) => &at.batting,
                (None, None) => &at.panels,
            };
            if !manuscript.carries(size, batting.sheet) {
                expected.push(Expected::new("backing-smaller-than-batting", "error", at).named(size.name));
            }
        }
    }
    order(manuscript, places, &mut expected);
    expected.sort();
    expected
}

fn amounts(manuscript: &Manuscript, size: &Size, at: &Places, expected: &mut Vec<Expected>) {
    let Some((one, other)) = &size.fabric else { return };
    let needed = manuscript.laid(size, manuscript.sheet(size)).fabric;
    let two = other.as_ref().unwrap_or(one);
    let (least, most) = (one.value.min(two.value), one.value.max(two.value));
    // Both halves of a pair, that of the manuscript's own measure first.
    let second_first = two.mark.metric() == manuscript.metric && one.mark.metric() != manuscript.metric;
    let ordered = if second_first { [two, one] } else { [one, two] };
    let both = |words: &dyn Fn(&Stated) -> String| match other {
        Some(_) => format!("{} ({})", words(ordered[0]), words(ordered[1])),
        None => words(one),
    };
    let told = |fabric| {
        let like = |half: &Stated, value, round| printed_like(half, other.is_some(), value, round);
        let stated = both(&|half| like(half, half.value, Round::Down));
        (stated, both(&|half| like(half, manuscript.buy(fabric, half.mark), Round::Up)))
    };
    if most < needed {
        let (stated, needed) = told(needed);
        expected.push(Expected::new("backing-short", "error", &at.fabric).named(size.name).numbers(stated, needed));
    }
    let print = manuscript.fabric_to_print(size);
    if [one, two].iter().all(|half| half.value >= manuscript.buy(print, half.mark) + manuscript.step(half.mark)) {
        let (stated, needed) = told(print);
        expected.push(Expected::new("backing-generous", "note", &at.fabric).named(size.name).numbers(stated, needed));
    }
    let halves = [one, two];
    let (buy, step) =
        (halves.map(|half| manuscript.buy(needed, half.mark)), halves.map(|half| manuscript.step(half.mark)));
    let level = match (least < needed, most < needed) {
        (true, false) => "error",
        (false, false) if !pair_can_be_meant(halves, buy, step) => "query",
        _ => return,
    };
    let place = if two.value <= one.value && other.is_some() { &at.halves[1] } else { &at.halves[0] };
    let (stated, needed) = told(print);
    expected.push(Expected::new("pair-disagrees", level, place).named(size.name).numbers(stated, needed));
}

/// A number that can be less than another: one length, one count, or the two sides of a sheet.
struct Number<'m> {
    size: &'m Size,
    stated: Sheet,
    needed: Sheet,
    at: Range<usize>,
}

fn order(manuscript: &Manuscript, places: &[Places], expected: &mut Vec<Expected>) {
    let mut all: [Vec<Number<'_>>; 3] = [Vec::new(), Vec::new(), Vec::new()];
    for (size, at) in manuscript.sizes.iter().zip(places) {
        if let Some((first, _)) = &size.fabric {
            let needed = manuscript.buy(manuscript.fabric_to_print(size), first.mark);
            all[0].push(Number { size, stated: (first.value, 0), needed: (needed, 0), at: at.fabric.clone() });
        }
        if let Some(panels) = size.panels {
            let needed = manuscript.fewest(size);
            all[1].push(Number { size, stated: (panels, 0), needed: (needed, 0), at: at.panels.clone() });
        }
        if let Some(batting) = &size.batting {
            let needed = manuscript.batting(size);
            let needed =
                if batting.package.is_some() { smallest_package(needed).map(|(_, sheet)| sheet) } else { Some(needed) };
            let number = needed.map(|needed| Number { size, stated: batting.sheet, needed, at: at.batting.clone() });
            all[2].extend(number);
        }
    }
    let told: Vec<(usize, usize)> = expected.iter().filter(|told| told.level != "note").map(|told| told.at).collect();
    let less = |one: Sheet, other: Sheet| holds(other, one) && !holds(one, other);
    let found: Vec<(usize, usize)> = expected.iter().map(|told| told.at).collect();
    // Two sizes may take the same amount of fabric, unless something is said of the smaller one's.
    let is_told = |at: &Range<usize>| told.iter().any(|(start, end)| *start < at.end && at.start < *end);
    let is_said = |at: &Range<usize>| found.iter().any(|(start, end)| *start < at.end && at.start < *end);
    for (place, series) in all.iter().enumerate() {
        for one in series {
            if is_told(&one.at) {
                continue;
            }
            let odd = series.iter().filter(|other| !is_told(&other.at)).any(|other| {
                let grows = one.size.quilt.0 >= other.size.quilt.0
                    && one.size.quilt.1 >= other.size.quilt.1
                    && one.size.quilt != other.size.quilt;
                let shrinks = grows && less(one.stated, other.stated) && !less(one.needed, other.needed);
                let same = holds(one.stated, other.stated) && holds(other.stated, one.stated);
                shrinks || same && less(other.needed, one.needed) && (place != 0 || is_said(&other.at))
            });
            if odd {
                expected.push(Expected::new("sizes-out-of-order", "query", &one.at).named(one.size.name));
            }
        }
    }
}
