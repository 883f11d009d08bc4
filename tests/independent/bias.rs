//! Bias binding by a second computation: whole numbers and their squares only, strips laid one at a time.
//!
//! Lengths are whole in 1/640 mm, as everywhere in this crate, and a million times finer where a slope is taken.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::ops::Range;

use super::{MANUSCRIPTS, checked, rng};
use crate::independent::amounts::{CM, INCH, Mark, SIXTY_FOURTH, Stated, TENTH_OF_MM, YARD, mixed, number};
use crate::support::rng::Rng;
use sparestrip::check::Outcome;

/// How much finer slopes are.
const FINE: i128 = 1_000_000;
/// The seam that joins strips, and what a corner takes up.
const SEAM: i128 = INCH as i128 / 4 * FINE;
const TAKE_UP: i128 = INCH as i128 / 2 * FINE;
/// Tails of 10 in each, less 12 in of opening.
const TAILS: i128 = 8 * INCH as i128 * FINE;
/// What is lost when the cut edge is squared up.
const SQUARING: i64 = INCH / 2;
const LONGEST: i64 = 2000 * INCH;

fn fine(value: i64) -> i128 {
    i128::from(value) * FINE
}

/// The least whole number whose square is no less, by halving.
fn root_above(square: i128) -> i128 {
    let (mut below, mut above) = (-1, 1);
    while above * above < square {
        above *= 2;
    }
    while above - below > 1 {
        let middle = i128::midpoint(below, above);
        if middle * middle < square { below = middle } else { above = middle }
    }
    above
}

#[derive(Clone, Debug)]
enum Shape {
    Rectangle,
    Ell,
    Circle,
    Clipped(i64),
    Regular { sides: i64, side: i64 },
}

/// A manuscript of one size that is bound on the bias.
#[derive(Clone, Debug)]
struct Case {
    metric: bool,
    shape: Shape,
    finished: (i64, i64),
    width: Stated,
    extra: Option<Stated>,
    usable: Stated,
    strip_length: Option<Stated>,
    /// Whether the strip length is stated for the size, or else for all sizes.
    for_size: bool,
    square: Option<Stated>,
    strips: Option<i64>,
    fabric: Vec<Stated>,
}

#[derive(Debug, Default)]
struct Places {
    square: Range<usize>,
    strips: Range<usize>,
    fabric: Range<usize>,
}

impl Case {
    fn asked(&self) -> i128 {
        let (w, l) = (fine(self.finished.0), fine(self.finished.1));
        let (perimeter, corners) = match self.shape {
            Shape::Rectangle => (2 * (w + l), 4),
            Shape::Ell => (2 * (w + l), 6),
            // The rule book's way of saying pi; whether it is near enough is another test's matter.
            Shape::Circle => ((w * 355 + 112) / 113, 0),
            Shape::Clipped(clip) => (2 * (w + l) - 8 * fine(clip) + 4 * root_above(2 * fine(clip) * fine(clip)), 8),
            Shape::Regular { sides, side } => (i128::from(sides) * fine(side), i128::from(sides)),
        };
        let bare = perimeter + corners * TAKE_UP + fine(self.width.value);
        let asked = match &self.extra {
            Some(extra) => perimeter + fine(extra.value),
            None => perimeter + corners * TAKE_UP + TAILS,
        };
        asked.max(bare)
    }

    /// Whether a square gives enough: its area without the seams, against the area of the strip.
    fn square_does(&self, square: i64) -> bool {
        let side = fine(square) - 2 * SEAM;
        side >= 0 && side * side >= self.asked() * fine(self.width.value)
    }

    fn short_way(&self, fabric: i64) -> i64 {
        self.usable.value.min(fabric)
    }

    /// Whether so many strips reach, joined: of the stated length, or of the bias of the fabric's shorter way.
    fn strips_reach(&self, strips: i64, fabric: i64, asked: i128) -> bool {
        let strips = i128::from(strips);
        let seams = (strips - 1) * 2 * SEAM;
        match &self.strip_length {
            // n l - (n - 1) 2 s root(2) >= asked
            Some(length) => {
                let beyond = strips * fine(length.value) - asked;
                beyond >= 0 && beyond * beyond >= 2 * seams * seams
            }
            // (n h - (n - 1) 2 s) root(2) >= asked
            None => {
                let ways = strips * fine(self.short_way(fabric)) - seams;
                ways >= 0 && 2 * ways * ways >= asked * asked
            }
        }
    }

    /// How many strips reach, adding one at a time.
    fn needed(&self, fabric: i64) -> Option<i64> {
        let asked = self.asked();
        (1..1_000).find(|strips| self.strips_reach(*strips, fabric, asked))
    }

    /// How many strips an amount gives: one after another along the longer way, until one does not lie on it.
    fn laid(&self, fabric: i64) -> i64 {
        let long = fine(self.usable.value.max(fabric)) - 2 * SEAM;
        let lies = |lanes: i128| long >= 0 && long * long >= 2 * (lanes * fine(self.width.value)).pow(2);
        let lanes = (1..1_000_000).take_while(|lanes| lies(*lanes)).count();
        let each = match &self.strip_length {
            None => 1,
            Some(length) => {
                let run = 2 * fine(self.short_way(fabric)).pow(2);
                (1..1_000_000_i128).take_while(|pieces| (pieces * fine(length.value)).pow(2) <= run).count()
            }
        };
        i64::try_from(lanes * each).unwrap()
    }

    fn fabric_does(&self, fabric: i64) -> bool {
        let wanted = self.strips.or_else(|| self.needed(fabric));
        wanted.is_some_and(|wanted| wanted <= self.laid(fabric))
    }

    /// Whether an amount gives the stated strips, and enough to reach.
    fn fabric_is_enough(&self, fabric: i64) -> bool {
        let wanted = self.needed(fabric).map(|needed| self.strips.map_or(needed, |strips| strips.max(needed)));
        fabric > 0 && wanted.is_some_and(|wanted| wanted <= self.laid(fabric))
    }

    /// Whether an amount is enough, and is not once its edge is squared up.
    fn has_no_room(&self, fabric: i64) -> bool {
        match &self.square {
            Some(square) => {
                square.value <= self.usable.value && (square.value..square.value + SQUARING).contains(&fabric)
            }
            None => self.fabric_is_enough(fabric) && !self.fabric_is_enough(fabric - SQUARING),
        }
    }

    fn least_fabric(&self) -> Option<i64> {
        self.fabric.iter().map(|half| half.value).min()
    }

    /// What should be found, and where.
    fn verdict(&self, places: &Places) -> BTreeSet<(&'static str, usize, usize)> {
        let mut expected = BTreeSet::new();
        let mut blame = |rule, at: &Range<usize>| {
            expected.insert((rule, at.start, at.end));
        };
        let fabric = self.least_fabric();
        if fabric.is_some_and(|fabric| self.has_no_room(fabric)) {
            blame("no-squaring-room", &places.fabric);
        }
        if let Some(square) = &self.square {
            if !self.square_does(square.value) {
                blame("square-too-small", &places.square);
            }
            if square.value > self.usable.value {
                blame("bias-short", &places.square);
            } else if fabric.is_some_and(|fabric| fabric < square.value) {
                blame("bias-short", &places.fabric);
            }
            return expected;
        }
        if let Some(strips) = self.strips {
            if fabric.is_none() && self.strip_length.is_none() {
                blame("not-checked", &places.strips);
            } else if !self.strips_reach(strips, fabric.unwrap_or(0), self.asked()) {
                blame("bias-short", &places.strips);
            }
        }
        if fabric.is_some_and(|fabric| !self.fabric_does(fabric)) {
            blame("bias-short", &places.fabric);
        }
        expected
    }

    fn text(&self) -> (String, Places) {
        let (mut text, mut places) = (String::new(), Places::default());
        let plain = |value: i64| plain(value, self.metric);
        let (w, l) = (plain(self.finished.0), plain(self.finished.1));
        let outline = match &self.shape {
            Shape::Rectangle => String::new(),
            Shape::Circle => ", outline: circle".to_string(),
            Shape::Clipped(clip) => format!(", outline: {{ clipped: {} }}", plain(*clip)),
            Shape::Regular { sides, side } => format!(", outline: {{ sides: {sides}, side: {} }}", plain(*side)),
            Shape::Ell => {
                let (x, y) = (plain(self.finished.0 / 2 / self.grid() * self.grid()), plain(self.grid()));
                format!(", outline: {{ points: [0 x 0, {w} x 0, {w} x {y}, {x} x {y}, {x} x {l}, 0 x {l}] }}")
            }
        };
        let measure = if self.metric { "cm" } else { "inch" };
        let _ = write!(
            text,
            "pattern: Weir Cottage\nmeasure: {measure}\nsizes:\n  nook: {{ finished: {w} x {l}{outline} }}\n"
        );
        let _ = write!(
            text,
            "binding:\n  strip_width: {}\n  grain: bias\n  usable_width: {}\n",
            self.width.text, self.usable.text
        );
        if let Some(extra) = &self.extra {
            let _ = writeln!(text, "  extra_length: {}", extra.text);
        }
        if let Some(length) = self.strip_length.as_ref().filter(|_| !self.for_size) {
            let _ = writeln!(text, "  strip_length: {}", length.text);
        }
        text += "  requires:\n    nook:\n";
        let mut line = |word: &str, stated: &str| {
            let _ = write!(text, "      {word}: ");
            let start = text.len();
            text += stated;
            text.push('\n');
            start..start + stated.len()
        };
        if let Some(length) = self.strip_length.as_ref().filter(|_| self.for_size) {
            line("strip_length", &length.text);
        }
        if let Some(square) = &self.square {
            places.square = line("square", &square.text);
        }
        if let Some(strips) = self.strips {
            places.strips = line("strips", &strips.to_string());
        }
        match self.fabric.as_slice() {
            [] => {}
            [one] => places.fabric = line("fabric", &one.text),
            [one, other, ..] => places.fabric = line("fabric", &format!("{} ({})", one.text, other.text)),
        }
        (text, places)
    }

    fn grid(&self) -> i64 {
        if self.metric { TENTH_OF_MM } else { SIXTY_FOURTH }
    }
}

fn plain(value: i64, metric: bool) -> String {
    // The random numbers only choose between spellings, of which a centimetre has one.
    if metric { number(&mut Rng::new(0), value, Mark::Cm) } else { mixed(value, INCH).unwrap() }
}

/// A length without a unit, in the one way that a square or a fabric cannot be mistaken.
fn bare(value: i64, metric: bool) -> Stated {
    Stated { value, mark: Mark::bare(metric), text: plain(value, metric) }
}

fn amount(rng: &mut Rng, value: i64, metric: bool) -> Stated {
    let mark = if metric { Mark::Cm } else { Mark::Yard };
    let unit = if metric { " cm" } else { " yd" };
    Stated { value, mark, text: number(rng, value, mark) + unit }
}

/// A method, a shape and a size, without any requirement.
fn method(rng: &mut Rng) -> Case {
    let metric = rng.one_in(3);
    let step = if metric { CM } else { rng.pick(&[INCH, INCH / 2, INCH / 8]) };
    let inches = |rng: &mut Rng, least: i64, most: i64| rng.between(least * INCH / step + 1, most * INCH / step) * step;
    let (w, mut l) = (inches(rng, 9, 110), inches(rng, 9, 110));
    let shape = match rng.below(5) {
        0 => Shape::Rectangle,
        1 => Shape::Ell,
        2 => Shape::Circle,
        3 => Shape::Clipped(inches(rng, 1, 4)),
        _ => {
            let sides = rng.between(4, 100);
            // Some length between the least and the most that goes around such a size.
            let (least, most) = (2 * w.max(l), 2 * (w + l));
            Shape::Regular { sides, side: (i64::midpoint(least, most) / sides / SIXTY_FOURTH).max(1) * SIXTY_FOURTH }
        }
    };
    // A side in 64ths of an inch is no tenth of a millimetre.
    let metric = metric && !matches!(shape, Shape::Regular { .. });
    let (w, step) = if metric { (w / CM * CM, CM) } else { (w / SIXTY_FOURTH * SIXTY_FOURTH, SIXTY_FOURTH) };
    l = if matches!(shape, Shape::Circle) { w } else { l / step * step };
    let shape = match shape {
        Shape::Clipped(clip) => Shape::Clipped((clip / step).max(1) * step),
        shape => shape,
    };
    let widths: Vec<i64> = if metric {
        (40..=80).map(|mm| mm * 640).collect()
    } else {
        (12..=26).map(|eighth| eighth * INCH / 8).collect()
    };
    Case {
        metric,
        shape,
        finished: (w, l),
        width: bare(rng.pick(&widths), metric),
        extra: rng.one_in(2).then(|| bare(rng.between(0, 30) * if metric { CM } else { INCH }, metric)),
        usable: bare(rng.between(20, 60) * if metric { 2 * CM } else { INCH }, metric),
        strip_length: None,
        for_size: rng.one_in(2),
        square: None,
        strips: None,
        fabric: Vec::new(),
    }
}

/// The first number that does, by halving: more never does less.
fn first(most: i64, does: impl Fn(i64) -> bool) -> Option<i64> {
    let (mut short, mut long) = (0, most);
    if !does(long) {
        return None;
    }
    while long - short > 1 {
        let middle = i64::midpoint(short, long);
        if does(middle) { long = middle } else { short = middle }
    }
    Some(long)
}

/// The least amounts, each in its own unit, that satisfy; a pair now and then.
fn least_fabric(rng: &mut Rng, case: &Case, does: impl Fn(i64) -> bool) -> Option<Vec<Stated>> {
    let least = |step: i64| first((LONGEST / step).min(400), |steps| does(steps * step)).map(|steps| steps * step);
    let mut halves = vec![case.metric];
    if rng.one_in(3) {
        halves.push(!case.metric);
    }
    halves
        .into_iter()
        .map(|metric| least(if metric { 10 * CM } else { YARD / 8 }).map(|value| amount(rng, value, metric)))
        .collect()
}

/// Requirements that are exactly enough.
fn exact(rng: &mut Rng) -> Case {
    loop {
        let mut case = method(rng);
        let grid = case.grid();
        match rng.below(4) {
            0 => {
                let marks = first(case.usable.value / grid, |marks| case.square_does(marks * grid));
                let Some(square) = marks.map(|marks| marks * grid) else { continue };
                case.square = Some(bare(square, case.metric));
                if rng.one_in(2) {
                    let Some(fabric) = least_fabric(rng, &case, |fabric| fabric >= square + SQUARING) else { continue };
                    case.fabric = fabric;
                }
            }
            1 => {
                let length = rng.between(8 * INCH / grid, 50 * INCH / grid) * grid;
                case.strip_length = Some(bare(length, case.metric));
                case.strips = case.needed(0);
                if case.strips.is_none() {
                    continue;
                }
                if rng.one_in(2) {
                    let Some(fabric) = least_fabric(rng, &case, |fabric| case.fabric_is_enough(fabric - SQUARING))
                    else {
                        continue;
                    };
                    case.fabric = fabric;
                }
            }
            kind => {
                let Some(fabric) = least_fabric(rng, &case, |fabric| case.fabric_is_enough(fabric - SQUARING)) else {
                    continue;
                };
                case.fabric = fabric;
                if kind == 2 {
                    case.strips = case.needed(case.least_fabric().unwrap());
                }
            }
        }
        return case;
    }
}

type Blame = BTreeSet<(&'static str, usize, usize)>;

fn found(outcome: &Outcome) -> Blame {
    let about = ["bias-short", "square-too-small", "not-checked", "no-squaring-room"];
    let about = outcome.findings.iter().filter(|finding| about.contains(&finding.rule));
    about.map(|finding| (finding.rule, finding.at.at.start, finding.at.at.end)).collect()
}

/// Checks a manuscript both ways.
fn agree(case: &Case, index: u64) -> (String, Places, Outcome, Blame) {
    let (text, places) = case.text();
    let outcome = checked(&text);
    let unreadable = outcome.findings.iter().find(|finding| {
        ["out-of-range", "unreadable-quantity", "unknown-word", "wrong-shape", "missing-entry"].contains(&finding.rule)
    });
    assert!(unreadable.is_none(), "manuscript {index}: {}\n{text}", unreadable.unwrap().message);
    let expected = case.verdict(&places);
    assert_eq!(found(&outcome), expected, "manuscript {index} (found, then expected):\n{text}");
    (text, places, outcome, expected)
}

/// The text of a right manuscript with bias binding.
pub(crate) fn right_text(index: u64) -> String {
    exact(&mut rng(11, index)).text().0
}

#[test]
fn bias_that_is_exactly_enough_is_never_blamed() {
    let mut kinds = [0_u64; 4];
    for index in 0..MANUSCRIPTS {
        let case = exact(&mut rng(11, index));
        let (text, _, _, expected) = agree(&case, index);
        assert_eq!(expected, BTreeSet::new(), "manuscript {index}:\n{text}");
        let kind = [case.square.is_some(), case.strip_length.is_some(), case.strips.is_some(), true];
        kinds[kind.iter().position(|kind| *kind).unwrap()] += 1;
    }
    assert!(kinds.iter().all(|times| *times > MANUSCRIPTS / 10), "every way of stating it came up: {kinds:?}");
}

#[test]
fn bias_with_one_number_lowered_is_caught_at_its_place() {
    let mut caught = [0_u64; 3];
    for index in 0..MANUSCRIPTS {
        let rng = &mut rng(12, index);
        let mut case = exact(rng);
        let kind = match (&case.square, case.strips, case.fabric.first().cloned()) {
            (_, _, Some(half)) if rng.one_in(2) => {
                // One step less of one half, which is less than any that does.
                let which = usize::try_from(rng.below(i64::try_from(case.fabric.len()).unwrap())).unwrap();
                let metric = if which == 0 { half.mark.metric() } else { !half.mark.metric() };
                let step = if metric { 10 * CM } else { YARD / 8 };
                let lower = case.fabric[which].value - step;
                if lower <= 0 {
                    continue;
                }
                // Strips that are counted for more fabric are fewer than this one needs, or more than it gives.
                case.fabric[which] = amount(rng, lower, metric);
                2
            }
            (Some(square), _, _) => {
                case.square = Some(bare(square.value - case.grid(), case.metric));
                0
            }
            (None, Some(strips), _) if strips > 1 => {
                case.strips = Some(strips - 1);
                1
            }
            _ => continue,
        };
        let (text, places, outcome, expected) = agree(&case, index);
        let at = [("square-too-small", &places.square), ("bias-short", &places.strips), ("bias-short", &places.fabric)];
        let (rule, place) = at[kind];
        let short_of_strips = ("bias-short", places.strips.start, places.strips.end);
        // One step less may still give what is cut, but not once the edge is squared up.
        let no_room = ("no-squaring-room", place.start, place.end);
        let blamed =
            [(rule, place.start, place.end), short_of_strips, no_room].iter().any(|told| expected.contains(told));
        assert!(blamed, "manuscript {index}: {rule} at {place:?} in {expected:?}\n{text}");
        caught[kind] += 1;
        mend(&text, &outcome, index);
    }
    assert!(caught.iter().all(|times| *times > MANUSCRIPTS / 10), "every number was lowered: {caught:?}");
}

/// Makes each correction that is offered: its finding is gone, and none is new. Strips and fabric can both be short
/// for one size; then one of the two is left.
fn mend(text: &str, outcome: &Outcome, index: u64) -> usize {
    let about = |outcome: &Outcome| outcome.findings.iter().map(|finding| finding.rule).collect::<Vec<_>>();
    let before = about(outcome);
    let mut made = 0;
    for finding in outcome.findings.iter().filter(|finding| ["bias-short", "square-too-small"].contains(&finding.rule))
    {
        let Some(correction) = &finding.correction else { continue };
        let mended = correction.apply(text);
        let mut left = before.clone();
        left.swap_remove(left.iter().position(|rule| *rule == finding.rule).unwrap());
        for rule in about(&checked(&mended)) {
            let known = left.iter().position(|known| *known == rule);
            assert!(known.is_some(), "manuscript {index}: {rule}\n{mended}\n{text}");
            left.swap_remove(known.unwrap());
        }
        made += 1;
    }
    made
}

#[test]
fn on_any_bias_both_computations_say_the_same() {
    let (mut made, mut rules) = (0, BTreeSet::new());
    for index in 0..MANUSCRIPTS * 4 {
        let rng = &mut rng(13, index);
        let mut case = method(rng);
        let metric = case.metric;
        let one = if metric { CM } else { INCH / 2 };
        case.square = rng.one_in(3).then(|| bare(rng.between(1, 100) * one, metric));
        case.strips = (case.square.is_none() && rng.one_in(2)).then(|| rng.between(1, 40));
        case.strip_length = rng.one_in(3).then(|| bare(rng.between(8, 120) * one, metric));
        if rng.one_in(2) || (case.square.is_none() && case.strips.is_none()) {
            let value = if metric { rng.between(1, 30) * 10 * CM } else { rng.between(1, 24) * YARD / 8 };
            case.fabric = vec![amount(rng, value, metric)];
        }
        let (text, _, outcome, expected) = agree(&case, index);
        rules.extend(expected.iter().map(|(rule, ..)| *rule));
        if index % 5 == 0 {
            made += mend(&text, &outcome, index);
        }
    }
    assert!(made > usize::try_from(MANUSCRIPTS / 50).unwrap(), "only {made} corrections were offered");
    assert_eq!(rules, BTreeSet::from(["bias-short", "no-squaring-room", "not-checked", "square-too-small"]));
}
