//! Random backings and battings that are exactly what is needed.

use crate::independent::amounts::{CM, INCH, MM, Mark, Stated, YARD, number};
use crate::independent::backing_manuscript::{Batting, Manuscript, PACKAGES, Sheet, Size, smallest_package};
use crate::independent::generate::amount_in;
use crate::support::rng::Rng;

const NAMES: [&str; 4] = ["crib", "throw", "lit double", "queen"];

pub(crate) fn a_package(rng: &mut Rng) -> Batting {
    let (name, width, length) = rng.pick(&PACKAGES);
    Batting { sheet: (width * INCH, length * INCH), package: Some(name), text: name.to_string() }
}

/// A batting of a width and a length, either way.
pub(crate) fn cut_batting(rng: &mut Rng, sheet: Sheet, metric: bool) -> Batting {
    let sheet = if rng.one_in(3) { (sheet.1, sheet.0) } else { sheet };
    let bare = Mark::bare(metric);
    let text = format!("{} x {}", number(rng, sheet.0, bare), number(rng, sheet.1, bare));
    Batting { sheet, package: None, text }
}

/// The method and the sizes, with nothing stated for them.
pub(crate) fn method(rng: &mut Rng) -> Manuscript {
    let metric = rng.one_in(3);
    let maybe = |rng: &mut Rng, least: i64, most: i64, parts: i64| {
        rng.one_in(2).then(|| length(rng, metric, least, most, parts))
    };
    let mut manuscript = Manuscript {
        metric,
        sold_by: rng.one_in(3).then_some(if metric { 25 * CM } else { YARD / 4 }),
        usable_in_assumes: maybe(rng, 30, 46, 2),
        usable: maybe(rng, 36, 60, 2),
        overhang: maybe(rng, 2, 6, 8),
        seam: maybe(rng, 1, 3, 8).filter(|seam| seam.value <= 2 * INCH),
        directional: rng.pick(&[None, None, Some(false), Some(true)]),
        batting_overhang: None,
        sizes: Vec::new(),
    };
    if rng.one_in(5) {
        manuscript.usable = Some(length(rng, metric, 104, 110, 1));
    }
    let count = usize::try_from(rng.between(1, 4)).unwrap();
    for name in NAMES.into_iter().take(count) {
        let (width, depth) = (length(rng, metric, 20, 110, 4).value, length(rng, metric, 20, 110, 4).value);
        let quilt = (width, if rng.one_in(6) { width } else { depth });
        let along = rng.pick(&[None, None, Some(true), Some(false)]);
        manuscript.sizes.push(Size { name, quilt, fabric: None, panels: None, along, batting: None });
    }
    manuscript
}

/// A length between two numbers of inches, in parts of an inch or whole millimetres.
fn length(rng: &mut Rng, metric: bool, least: i64, most: i64, parts: i64) -> Stated {
    let step = if metric { 5 * MM } else { INCH / parts };
    let value = rng.between(least * INCH / step + 1, most * INCH / step) * step;
    Stated::new(rng, value, Mark::bare(metric), metric)
}

/// Everything that is needed and no more.
pub(crate) fn exact(rng: &mut Rng) -> Manuscript {
    let mut manuscript = method(rng);
    let metric = manuscript.metric;
    // A batting that reaches farther than the backing would be blamed.
    manuscript.batting_overhang = rng.one_in(2).then(|| {
        let grid = Mark::bare(metric).grid();
        let value = rng.between(INCH / grid, manuscript.overhang() / grid) * grid;
        Stated::new(rng, value, Mark::bare(metric), metric)
    });
    let with_batting = rng.one_in(2);
    for index in 0..manuscript.sizes.len() {
        let size = &manuscript.sizes[index];
        let sheet = manuscript.sheet(size);
        let panels = rng.one_in(2).then(|| manuscript.laid(size, sheet).panels);
        let fabric = (panels.is_none() || !rng.one_in(4)).then(|| purchase(rng, &manuscript, size));
        let needed = manuscript.batting(size);
        let batting = with_batting.then(|| match smallest_package(needed).filter(|_| rng.one_in(4)) {
            Some((name, sheet)) => Batting { sheet, package: Some(name), text: name.to_string() },
            None => cut_batting(rng, needed, metric),
        });
        let size = &mut manuscript.sizes[index];
        (size.panels, size.fabric, size.batting) = (panels, fabric, batting);
        if size.fabric.is_none() && size.panels.is_none() {
            size.panels = Some(1);
        }
    }
    manuscript
}

fn purchase(rng: &mut Rng, manuscript: &Manuscript, size: &Size) -> (Stated, Option<Stated>) {
    let needed = manuscript.laid(size, manuscript.sheet(size)).fabric;
    let half = |rng: &mut Rng, metric: bool| {
        let mark =
            rng.pick(if metric { &[Mark::Cm, Mark::Metre, Mark::Mm] } else { &[Mark::Yard, Mark::Yard, Mark::Inch] });
        amount_in(rng, manuscript.buy(needed, mark), mark, manuscript.metric)
    };
    let metric = manuscript.metric != rng.one_in(6);
    let one = half(rng, metric);
    (one, rng.one_in(2).then(|| half(rng, !metric)))
}
