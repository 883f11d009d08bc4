//! What should be said about a manuscript: every finding, its level, size, place and two numbers.

use std::ops::Range;

use crate::independent::amounts::{Round, Stated, pair_can_be_meant, printed_like};
use crate::independent::bench_of_strips::{SPARES, SQUARING};
use crate::independent::manuscript::{Manuscript, Places, Size, SizePlaces};

/// A finding as it should be. A number that is `None` is not looked at.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Expected {
    pub(crate) rule: &'static str,
    pub(crate) size: Option<&'static str>,
    pub(crate) level: &'static str,
    pub(crate) at: (usize, usize),
    pub(crate) stated: Option<String>,
    pub(crate) needed: Option<String>,
}

impl Expected {
    pub(crate) fn new(rule: &'static str, level: &'static str, at: &Range<usize>) -> Expected {
        Expected { rule, size: None, level, at: (at.start, at.end), stated: None, needed: None }
    }

    fn of(self, size: &Size) -> Expected {
        self.named(size.name)
    }

    pub(crate) fn named(mut self, size: &'static str) -> Expected {
        self.size = Some(size);
        self
    }

    pub(crate) fn numbers(mut self, stated: String, needed: String) -> Expected {
        (self.stated, self.needed) = (Some(stated), Some(needed));
        self
    }
}

/// All that should be said.
pub(crate) fn verdict(manuscript: &Manuscript, places: &Places) -> Vec<Expected> {
    let mut expected = Vec::new();
    fold(manuscript, places, &mut expected);
    tails(manuscript, places, &mut expected);
    for (size, at) in manuscript.sizes.iter().zip(&places.sizes) {
        strips(manuscript, size, at, &mut expected);
        fabric(manuscript, size, at, &mut expected);
        if !manuscript.opening_fits(size) {
            let level = if places.opening.is_some() { "error" } else { "query" };
            let at = places.opening.as_ref().unwrap_or(&at.finished);
            expected.push(Expected::new("opening-too-long", level, at).of(size));
        }
        if manuscript.join_near_corner(size) {
            expected.push(Expected::new("join-near-corner", "note", &at.finished).of(size));
        }
    }
    order(manuscript, places, &mut expected);
    expected.sort();
    expected
}

/// One number of a requirement: what is stated, what should be printed, and where it stands.
struct Ordered<'m> {
    size: &'m Size,
    stated: i64,
    needed: i64,
    at: Range<usize>,
}

/// Numbers that shrink where the quilt grows, or that are the same where they should not be.
fn order(manuscript: &Manuscript, places: &Places, expected: &mut Vec<Expected>) {
    let sizes = || manuscript.sizes.iter().zip(&places.sizes);
    let strips: Vec<Ordered<'_>> = sizes()
        .filter_map(|(size, at)| {
            let needed = manuscript.needed(size) + SPARES;
            Some(Ordered { size, stated: size.strips?, needed, at: at.strips.clone() })
        })
        .collect();
    let fabric: Vec<Ordered<'_>> = sizes()
        .filter_map(|(size, at)| {
            let fabric = size.fabric.as_ref()?;
            let first = &fabric.first;
            let all = manuscript.strips_to_cut(size).max(manuscript.needed(size) + SPARES);
            let all = manuscript.cut(size, all);
            let least = fabric.second.as_ref().map_or(first.value, |second| second.value.min(first.value));
            // Enough for strips that are too few: it is for their finding to say what to buy.
            if size.strips.is_some_and(|strips| (manuscript.cut(size, strips)..all).contains(&least)) {
                return None;
            }
            let needed = manuscript.buy(all, first.mark);
            Some(Ordered { size, stated: first.value, needed, at: at.fabric.clone() })
        })
        .collect();
    let told: Vec<(usize, usize)> = expected.iter().filter(|told| told.level != "note").map(|told| told.at).collect();
    let found: Vec<(usize, usize)> = expected.iter().map(|told| told.at).collect();
    // Two sizes may take the same amount of fabric, unless something is said of the smaller one's, such as that it is
    // generous.
    let is_told = |at: &Range<usize>| told.iter().any(|(start, end)| *start < at.end && at.start < *end);
    let is_said = |at: &Range<usize>| found.iter().any(|(start, end)| *start < at.end && at.start < *end);
    for (series, is_bought) in [(strips, false), (fabric, true)] {
        for one in &series {
            if is_told(&one.at) {
                continue;
            }
            let odd = series.iter().filter(|other| !is_told(&other.at)).any(|other| {
                let grows = one.size.width >= other.size.width
                    && one.size.length >= other.size.length
                    && (one.size.width, one.size.length) != (other.size.width, other.size.length);
                let shrinks = grows && one.stated < other.stated && one.needed >= other.needed;
                let copied = one.stated == other.stated && one.needed > other.needed;
                shrinks || copied && (!is_bought || is_said(&other.at))
            });
            if odd {
                expected.push(Expected::new("sizes-out-of-order", "query", &one.at).of(one.size));
            }
        }
    }
}

fn fold(manuscript: &Manuscript, places: &Places, expected: &mut Vec<Expected>) {
    let (width, reach) = (&manuscript.width, manuscript.reach());
    let narrowest = manuscript.print(manuscript.narrowest(width.mark), Round::Up);
    let numbers = (manuscript.print(width.value, Round::Down), narrowest);
    if reach < 0 {
        expected.push(Expected::new("fold-short", "error", &places.width).numbers(numbers.0, numbers.1));
    } else if reach < manuscript.cover() {
        expected.push(Expected::new("fold-barely-covers", "query", &places.width).numbers(numbers.0, numbers.1));
    }
    if manuscript.hollow() {
        expected.push(Expected::new("hollow-edge", "note", &places.width));
    }
    if width.value % Manuscript::ruler(width.mark) != 0 {
        expected.push(Expected::new("not-on-ruler", "note", &places.width));
    }
}

fn tails(manuscript: &Manuscript, places: &Places, expected: &mut Vec<Expected>) {
    let (Some((start, end)), Some(opening)) = (manuscript.tails(), manuscript.opening()) else { return };
    let closing = opening + manuscript.join();
    if start + end < closing {
        let at = places.tails.as_ref().or(places.opening.as_ref()).unwrap_or(&places.binding);
        let numbers = (manuscript.print(start + end, Round::Down), manuscript.print(closing, Round::Up));
        expected.push(Expected::new("tails-too-short", "error", at).numbers(numbers.0, numbers.1));
    }
}

fn strips(manuscript: &Manuscript, size: &Size, at: &SizePlaces, expected: &mut Vec<Expected>) {
    let Some(stated) = size.strips else { return };
    let needed = manuscript.needed(size);
    let rule = match stated {
        stated if stated < needed => "binding-short",
        stated if stated < needed + SPARES => "spare-strip",
        _ => return,
    };
    expected.push(Expected::new(rule, "error", &at.strips).of(size).numbers(count(stated), count(needed + SPARES)));
}

fn count(strips: i64) -> String {
    if strips == 1 { "1 strip".into() } else { format!("{strips} strips") }
}

fn fabric(manuscript: &Manuscript, size: &Size, at: &SizePlaces, expected: &mut Vec<Expected>) {
    let Some(fabric) = &size.fabric else { return };
    // Where fabric alone is stated, the strips that go around decide whether it is short, and the spare is told apart.
    let alone = size.strips.is_none();
    let print = manuscript.cut(size, manuscript.strips_to_cut(size));
    let cut = if alone { manuscript.cut(size, manuscript.needed(size)) } else { print };
    let first = &fabric.first;
    let second = fabric.second.as_ref().unwrap_or(first);
    let paired = fabric.second.is_some();
    let (less, more) = if second.value < first.value { (second, first) } else { (first, second) };
    let (least, most) = (less.value, more.value);
    let like = |half: &Stated, value, round| printed_like(half, paired, value, round);
    // Both halves, that of the manuscript's own measure first.
    let second_first = second.mark.metric() == manuscript.metric && first.mark.metric() != manuscript.metric;
    let ordered = if second_first { [second, first] } else { [first, second] };
    let both = |words: &dyn Fn(&Stated) -> String| {
        if paired { format!("{} ({})", words(ordered[0]), words(ordered[1])) } else { words(first) }
    };
    let numbers = |cut| {
        let stated = both(&|half| like(half, half.value, Round::Down));
        (stated, both(&|half| like(half, manuscript.buy(cut, half.mark), Round::Up)))
    };
    let mut whole = |rule, level, (stated, needed)| {
        expected.push(Expected::new(rule, level, &at.fabric).of(size).numbers(stated, needed));
    };
    // Strips that are missing take fabric too: what to buy is for all of them, and an amount is generous only beyond that.
    let all = manuscript.cut(size, manuscript.strips_to_cut(size).max(manuscript.needed(size) + SPARES));
    if most < cut {
        whole("binding-fabric-short", "error", numbers(all));
    }
    if alone && (cut..print).contains(&least) {
        whole("spare-strip", "error", numbers(print));
    }
    if least >= print && least < print + SQUARING {
        whole("no-squaring-room", "query", numbers(all));
    }
    let generous = |half: &Stated| half.value >= manuscript.buy(all, half.mark) + manuscript.step(half.mark);
    if generous(first) && generous(second) {
        whole("binding-fabric-generous", "note", numbers(all));
    }
    let halves = [first, second];
    let (buy, step) =
        (halves.map(|half| manuscript.buy(cut, half.mark)), halves.map(|half| manuscript.step(half.mark)));
    let lacks_spare = alone && least < print;
    let level = match (least < cut, most < cut) {
        (true, false) => "error",
        (false, false) if !pair_can_be_meant(halves, buy, step) && !lacks_spare => "query",
        _ => return,
    };
    let place = if second.value < first.value { &at.second } else { &at.first };
    let (stated, needed) = numbers(all);
    expected.push(Expected::new("pair-disagrees", level, place).of(size).numbers(stated, needed));
}
