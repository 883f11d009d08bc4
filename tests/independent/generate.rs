//! Random manuscripts: first a method and sizes, then numbers that are exactly what is needed, then spoilt ones.

use crate::independent::amounts::{
    CM, INCH, METRE, MM, Mark, SIXTY_FOURTH, Stated, TENTH_OF_MM, YARD, mixed, number, suffix,
};
use crate::independent::bench_of_strips::{CLEAR_OF_CORNER, SPARES};
use crate::independent::manuscript::{Ends, Fabric, Loft, Manuscript, Size};
use crate::support::rng::Rng;

const NAMES: [&str; 5] = ["mat", "crib", "throw", "lit double", "größte"];

/// A manuscript whose numbers are exactly what is needed.
pub(crate) fn exact(rng: &mut Rng) -> Manuscript {
    let mut manuscript = method(rng);
    state_exactly(rng, &mut manuscript);
    manuscript
}

/// A manuscript without strips and fabric; its fold covers, its opening fits and its tails close.
pub(crate) fn method(rng: &mut Rng) -> Manuscript {
    let metric = rng.one_in(3);
    let width = Stated::new(rng, 0, Mark::bare(metric), metric);
    let usable = |rng: &mut Rng| rng.one_in(2).then(|| length(rng, metric, 15, 60));
    let mut manuscript = Manuscript {
        metric,
        usable_in_assumes: usable(rng),
        usable_in_binding: usable(rng),
        sold_by: rng.one_in(2).then(|| sold_by(rng, metric)),
        width,
        fold: rng.pick(&[None, Some("double"), Some("single")]),
        join: rng.pick(&[None, Some("diagonal"), Some("straight")]),
        grain: rng.pick(&[None, Some("crosswise"), Some("lengthwise")]),
        finish: rng.pick(&[None, Some("machine"), Some("hand"), Some("ditch")]),
        seam: rng.one_in(2).then(|| seam(rng, metric)),
        loft: loft(rng, metric),
        ends: Ends::Unstated,
        opening: None,
        strip_length: None,
        sizes: Vec::new(),
    };
    manuscript.width = covering_width(rng, &manuscript);
    let count = rng.between(1, 5);
    manuscript.sizes =
        NAMES.into_iter().take(usize::try_from(count).unwrap()).map(|name| size(rng, metric, name)).collect();
    strip_lengths(rng, &mut manuscript);
    manuscript.opening = opening(rng, &manuscript);
    manuscript.ends = ends(rng, &manuscript, true);
    manuscript
}

/// A length between two numbers of inches, on the grid of the measure, as often as not on a coarse mark.
fn length(rng: &mut Rng, metric: bool, least: i64, most: i64) -> Stated {
    let mark = match metric {
        true if rng.one_in(4) => Mark::Mm,
        metric => Mark::bare(metric),
    };
    let step =
        if metric { rng.pick(&[CM, CM, MM, TENTH_OF_MM]) } else { rng.pick(&[INCH, INCH / 2, INCH / 8, SIXTY_FOURTH]) };
    let value = rng.between(least * INCH / step + 1, most * INCH / step) * step;
    Stated::new(rng, value, mark, metric)
}

fn sold_by(rng: &mut Rng, metric: bool) -> Stated {
    // A pattern may state its step in the other measure: it then holds for the other half of a pair.
    let (value, mark) = if metric == rng.one_in(5) {
        rng.pick(&[
            (YARD / 8, Mark::Yard),
            (YARD / 4, Mark::Yard),
            (YARD / 3, Mark::Yard),
            (YARD / 16, Mark::Yard),
            (9 * INCH, Mark::Inch),
            (YARD, Mark::Yard),
        ])
    } else {
        rng.pick(&[
            (10 * CM, Mark::Cm),
            (25 * CM, Mark::Cm),
            (5 * CM, Mark::Cm),
            (METRE / 10, Mark::Metre),
            (50 * MM, Mark::Mm),
            (METRE, Mark::Metre),
        ])
    };
    Stated::new(rng, value, mark, metric)
}

fn seam(rng: &mut Rng, metric: bool) -> Stated {
    let (value, mark) = if metric {
        (rng.between(40, 190) * TENTH_OF_MM, rng.pick(&[Mark::Mm, Mark::Cm]))
    } else {
        (rng.between(8, 48) * SIXTY_FOURTH, Mark::Inch)
    };
    Stated::new(rng, value, mark, metric)
}

fn loft(rng: &mut Rng, metric: bool) -> Option<Loft> {
    Some(match rng.below(5) {
        0 => Loft::Low,
        1 => Loft::Medium,
        2 => Loft::High,
        3 => {
            let grid = Mark::bare(metric).grid();
            let value = rng.between(0, INCH / 2 / grid) * grid;
            // A mark keeps it from being taken for a word.
            Loft::Measured(Stated::new(rng, value, Mark::bare(metric), metric))
        }
        _ => return None,
    })
}

/// A width that covers, from the narrowest such one up to an inch wider; now and then between two marks.
fn covering_width(rng: &mut Rng, manuscript: &Manuscript) -> Stated {
    let own = Mark::bare(manuscript.metric);
    let mark = match rng.below(10) {
        0 if manuscript.metric => Mark::Inch,
        0 => Mark::Mm,
        _ => own,
    };
    let ruler = Manuscript::ruler(mark);
    let mut value = manuscript.narrowest(mark) + rng.between(0, INCH / ruler) * ruler;
    if rng.one_in(10) {
        value += rng.between(1, ruler / mark.grid() - 1) * mark.grid();
    }
    Stated::new(rng, value, mark, manuscript.metric)
}

fn size(rng: &mut Rng, metric: bool, name: &'static str) -> Size {
    let most = rng.pick(&[20, 60, 120]);
    let (width, length) = (length(rng, metric, 8, most).value, length(rng, metric, 8, most).value);
    let mark = Mark::bare(metric);
    let (mut first, mut second) = (number(rng, width, mark), number(rng, length, mark));
    // A mark on one of the two serves for both.
    match rng.below(4) {
        0 => first += suffix(rng, mark),
        1 => second += suffix(rng, mark),
        2 => {
            first += suffix(rng, mark);
            second += suffix(rng, mark);
        }
        _ => {}
    }
    let cross = rng.pick(&[" x ", " × ", " X "]);
    let finished = format!("{first}{cross}{second}");
    Size { name, width, length, finished, strips: None, fabric: None, strip_length: None }
}

fn strip_lengths(rng: &mut Rng, manuscript: &mut Manuscript) {
    let metric = manuscript.metric;
    let usable = manuscript.usable() / INCH;
    let lengthwise = manuscript.lengthwise();
    let strip = |rng: &mut Rng| if lengthwise { length(rng, metric, 12, 120) } else { length(rng, metric, 10, usable) };
    let of_pattern = rng.one_in(3) || (lengthwise && rng.one_in(2));
    manuscript.strip_length = of_pattern.then(|| strip(rng));
    for size in &mut manuscript.sizes {
        let of_size = rng.one_in(4) || (lengthwise && !of_pattern);
        size.strip_length = of_size.then(|| strip(rng));
    }
}

/// An opening that fits every size, or none stated where the usual one does.
fn opening(rng: &mut Rng, manuscript: &Manuscript) -> Option<Stated> {
    let longest = manuscript.sizes.iter().map(|size| size.width.max(size.length)).min().unwrap();
    let room = longest - 2 * CLEAR_OF_CORNER;
    if room >= 12 * INCH && rng.one_in(2) {
        return None;
    }
    let mark = Mark::bare(manuscript.metric);
    // Often all the room there is.
    let steps = if rng.one_in(4) { room / mark.grid() } else { rng.between(1, (room / mark.grid()).min(30 * 64)) };
    Some(Stated::new(rng, steps * mark.grid(), mark, manuscript.metric))
}

/// Tails that close, or that are a little too short; or an extra length.
fn ends(rng: &mut Rng, manuscript: &Manuscript, close: bool) -> Ends {
    let (metric, mark) = (manuscript.metric, Mark::bare(manuscript.metric));
    if close && rng.one_in(5) {
        return Ends::Extra(match rng.below(6) {
            0 => Stated::new(rng, 0, mark, metric),
            _ => length(rng, metric, 0, 24),
        });
    }
    let closing = manuscript.opening().unwrap_or(12 * INCH) + manuscript.join();
    let grid = mark.grid();
    if close && closing <= 20 * INCH && rng.one_in(3) {
        return Ends::Unstated;
    }
    let fewest = (closing + grid - 1) / grid;
    let steps = match (close, rng.below(3)) {
        (true, 0) => fewest,
        (true, _) => rng.between(fewest, fewest + 12 * INCH / grid),
        (false, 0) => fewest - 1,
        (false, _) => rng.between(0, fewest - 1),
    };
    if rng.one_in(2) {
        let each = if close { steps + 1 } else { steps } / 2;
        Ends::Both(Stated::new(rng, each * grid, mark, metric))
    } else {
        let start = rng.between(0, steps);
        let start_tail = Stated::new(rng, start * grid, mark, metric);
        Ends::Each(start_tail, Stated::new(rng, (steps - start) * grid, mark, metric))
    }
}

/// States for every size the strips and the fabric that are needed, and no more.
pub(crate) fn state_exactly(rng: &mut Rng, manuscript: &mut Manuscript) {
    for index in 0..manuscript.sizes.len() {
        let size = &manuscript.sizes[index];
        let strips = (!rng.one_in(6)).then(|| manuscript.needed(size) + SPARES);
        manuscript.sizes[index].strips = strips;
        if strips.is_none() || !rng.one_in(5) {
            let size = &manuscript.sizes[index];
            let cut = manuscript.cut(size, manuscript.strips_to_cut(size));
            manuscript.sizes[index].fabric = Some(fabric(rng, manuscript, cut));
        }
    }
}

fn fabric(rng: &mut Rng, manuscript: &Manuscript, cut: i64) -> Fabric {
    let metric = manuscript.metric;
    let own = if rng.one_in(8) { !metric } else { metric };
    let first = purchase(rng, manuscript, cut, own);
    let other = if rng.one_in(8) { own } else { !own };
    let second = rng.one_in(2).then(|| purchase(rng, manuscript, cut, other));
    Fabric { first, second, quoted: rng.one_in(6) }
}

/// What to buy, in one of the marks of a measure.
fn purchase(rng: &mut Rng, manuscript: &Manuscript, cut: i64, metric: bool) -> Stated {
    let mark =
        rng.pick(if metric { &[Mark::Cm, Mark::Metre, Mark::Mm] } else { &[Mark::Yard, Mark::Yard, Mark::Inch] });
    let amount = manuscript.buy(cut, mark);
    amount_in(rng, amount, mark, manuscript.metric)
}

/// An amount with a mark; yards only where they are a fraction that can be written.
pub(crate) fn amount_in(rng: &mut Rng, amount: i64, mark: Mark, metric: bool) -> Stated {
    let mark = if mark == Mark::Yard && mixed(amount, YARD).is_none() { Mark::Inch } else { mark };
    Stated::new(rng, amount, mark, metric)
}

/// A length between two bounds that can be written with a mark, if there is one.
fn written_between(rng: &mut Rng, least: i64, most: i64, mark: Mark) -> Option<i64> {
    let grid = mark.grid();
    let (from, to) = ((least + grid - 1) / grid, most / grid);
    (from <= to).then(|| rng.between(from, to) * grid)
}

/// An exact manuscript in which one number is too low. The rule that must say so, and the size where it is one's.
pub(crate) fn one_too_low(rng: &mut Rng) -> (Manuscript, &'static str, Option<&'static str>) {
    loop {
        let spoil = rng.pick(&[lower_strips, lower_fabric, lower_half, lower_width, lower_tails, lengthen_opening]);
        let mut manuscript = method(rng);
        if let Some((rule, size)) = spoil(rng, &mut manuscript) {
            return (manuscript, rule, size);
        }
    }
}

type Spoilt = Option<(&'static str, Option<&'static str>)>;

fn some_size(rng: &mut Rng, manuscript: &Manuscript) -> usize {
    usize::try_from(rng.below(i64::try_from(manuscript.sizes.len()).unwrap())).unwrap()
}

/// Strips by one or by more; the fabric is what the lower number takes.
fn lower_strips(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    state_exactly(rng, manuscript);
    let index = some_size(rng, manuscript);
    let needed = manuscript.needed(&manuscript.sizes[index]);
    let low = if rng.one_in(2) { needed } else { rng.between(0, needed - 1) };
    manuscript.sizes[index].strips.as_mut().map(|strips| *strips = low)?;
    let rule = if low == needed { "spare-strip" } else { "binding-short" };
    Some((rule, Some(manuscript.sizes[index].name)))
}

/// Fabric below what is cut, or below what is cut with squaring up; both halves of a pair alike.
fn lower_fabric(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    state_exactly(rng, manuscript);
    let index = some_size(rng, manuscript);
    let size = &manuscript.sizes[index];
    let cut = manuscript.cut(size, manuscript.strips_to_cut(size));
    let mark = size.fabric.as_ref()?.first.mark;
    let squared = rng.one_in(2);
    let (least, most) = if squared { (cut, cut + INCH / 2 - 1) } else { (cut / 2 + 1, cut - 1) };
    let low = written_between(rng, least, most, mark)?;
    let stated = amount_in(rng, low, mark, manuscript.metric);
    manuscript.sizes[index].fabric = Some(Fabric { first: stated, second: None, quoted: false });
    let rule = if squared { "no-squaring-room" } else { below(manuscript, index, low, "binding-fabric-short") };
    Some((rule, Some(manuscript.sizes[index].name)))
}

/// The rule that tells a number below what should be cut: where fabric alone is stated, and it is enough for the strips that
/// go around, only the spare is missing.
fn below(manuscript: &Manuscript, index: usize, low: i64, short: &'static str) -> &'static str {
    let size = &manuscript.sizes[index];
    let goes_round = low >= manuscript.cut(size, manuscript.needed(size));
    if size.strips.is_none() && goes_round { "spare-strip" } else { short }
}

/// One half of a pair below what is cut.
fn lower_half(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    state_exactly(rng, manuscript);
    let index = some_size(rng, manuscript);
    let size = &manuscript.sizes[index];
    let cut = manuscript.cut(size, manuscript.strips_to_cut(size));
    let mut fabric = size.fabric.clone()?;
    let half = match (&mut fabric.second, rng.one_in(2)) {
        (None, _) => return None,
        (Some(second), true) => second,
        (Some(_), false) => &mut fabric.first,
    };
    let low = written_between(rng, cut / 2 + 1, cut - 1, half.mark)?;
    *half = amount_in(rng, low, half.mark, manuscript.metric);
    manuscript.sizes[index].fabric = Some(fabric);
    Some((below(manuscript, index, low, "pair-disagrees"), Some(manuscript.sizes[index].name)))
}

/// A strip too narrow for its fold. All else is what the narrower strip takes.
fn lower_width(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    let mark = manuscript.width.mark;
    let low = written_between(rng, INCH / 4, manuscript.narrowest(mark) - 1, mark)?;
    manuscript.width = Stated::new(rng, low, mark, manuscript.metric);
    // A trial on the fold alone: a width between two marks may still cover.
    let rule = match manuscript.reach() {
        reach if reach < 0 => "fold-short",
        reach if reach < manuscript.cover() => "fold-barely-covers",
        _ => return None,
    };
    manuscript.ends = ends(rng, manuscript, true);
    state_exactly(rng, manuscript);
    Some((rule, None))
}

/// Tails that do not close. The strips are those that go around all the same.
#[allow(clippy::unnecessary_wraps)] // It stands in a list with those that may fail.
fn lower_tails(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    manuscript.ends = ends(rng, manuscript, false);
    state_exactly(rng, manuscript);
    Some(("tails-too-short", None))
}

/// A side too short for the opening, with tails that bridge it. Every size of which it is true is told.
fn lengthen_opening(rng: &mut Rng, manuscript: &mut Manuscript) -> Spoilt {
    let mark = Mark::bare(manuscript.metric);
    let index = some_size(rng, manuscript);
    let side = manuscript.sizes[index].width.max(manuscript.sizes[index].length);
    let room = side - 2 * CLEAR_OF_CORNER;
    let long = written_between(rng, room + 1, room + 5 * INCH, mark)?;
    manuscript.opening = Some(Stated::new(rng, long, mark, manuscript.metric));
    manuscript.ends = ends(rng, manuscript, true);
    let name = manuscript.sizes[index].name;
    manuscript.sizes.retain(|size| size.name == name || size.width.max(size.length) - 2 * CLEAR_OF_CORNER >= long);
    state_exactly(rng, manuscript);
    Some(("opening-too-long", Some(name)))
}

/// A manuscript in which any number may be too low or too high.
pub(crate) fn anything(rng: &mut Rng) -> Manuscript {
    let mut manuscript = method(rng);
    let mark = manuscript.width.mark;
    if rng.one_in(2) {
        let width = rng.between(INCH / 4 / mark.grid() + 1, 6 * INCH / mark.grid()) * mark.grid();
        manuscript.width = Stated::new(rng, width, mark, manuscript.metric);
    }
    if rng.one_in(3) {
        let grid = Mark::bare(manuscript.metric).grid();
        let opening = rng.between(1, 40 * INCH / grid) * grid;
        manuscript.opening = Some(Stated::new(rng, opening, Mark::bare(manuscript.metric), manuscript.metric));
    }
    let close = rng.one_in(2);
    manuscript.ends = ends(rng, &manuscript, close);
    state_exactly(rng, &mut manuscript);
    for index in 0..manuscript.sizes.len() {
        if let Some(strips) = &mut manuscript.sizes[index].strips {
            *strips = (*strips + rng.between(-4, 3)).max(0);
        }
        let Some(mut fabric) = manuscript.sizes[index].fabric.clone() else { continue };
        for half in [Some(&mut fabric.first), fabric.second.as_mut()].into_iter().flatten() {
            let amount = (half.value + rng.between(-20, 20) * INCH).max(INCH) / half.mark.grid() * half.mark.grid();
            *half = amount_in(rng, amount, half.mark, manuscript.metric);
        }
        manuscript.sizes[index].fabric = Some(fabric);
    }
    manuscript
}
