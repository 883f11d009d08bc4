//! Manuscripts of a backing and a batting, and what should be said about them: every arrangement of panels is tried,
//! one to forty of them, both ways.

use std::fmt::Write as _;
use std::ops::Range;

use crate::amounts::{CM, INCH, MM, Mark, Round, Stated, YARD, number, printed_fabric, printed_fabric_both};
use crate::generate::amount_in;
use crate::rng::Rng;
use crate::verdict::Expected;

const NAMES: [&str; 4] = ["crib", "throw", "lit double", "queen"];
const MOST_PANELS: i64 = 40;
/// From the rule book: name, width and length in inches.
const PACKAGES: [(&str, i64, i64); 5] = [
    ("packaged crib", 45, 60),
    ("packaged twin", 72, 90),
    ("packaged full", 81, 96),
    ("packaged queen", 90, 108),
    ("packaged king", 120, 120),
];

/// A width and a length.
pub(crate) type Sheet = (i64, i64);

#[derive(Clone, Debug)]
pub(crate) struct Batting {
    pub(crate) sheet: Sheet,
    pub(crate) package: Option<&'static str>,
    pub(crate) text: String,
}

#[derive(Clone, Debug)]
pub(crate) struct Size {
    pub(crate) name: &'static str,
    pub(crate) quilt: Sheet,
    pub(crate) fabric: Option<(Stated, Option<Stated>)>,
    pub(crate) panels: Option<i64>,
    pub(crate) along: Option<bool>,
    pub(crate) batting: Option<Batting>,
}

#[derive(Clone, Debug)]
pub(crate) struct Manuscript {
    pub(crate) metric: bool,
    pub(crate) sold_by: Option<i64>,
    pub(crate) usable_in_assumes: Option<Stated>,
    pub(crate) usable: Option<Stated>,
    pub(crate) overhang: Option<Stated>,
    pub(crate) seam: Option<Stated>,
    pub(crate) directional: Option<bool>,
    pub(crate) batting_overhang: Option<Stated>,
    pub(crate) sizes: Vec<Size>,
}

/// Where the numbers of one size stand.
#[derive(Clone, Debug, Default)]
pub(crate) struct Places {
    pub(crate) fabric: Range<usize>,
    pub(crate) halves: [Range<usize>; 2],
    pub(crate) panels: Range<usize>,
    pub(crate) batting: Range<usize>,
}

/// Panels laid one way.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Laid {
    pub(crate) along: bool,
    pub(crate) panels: i64,
    pub(crate) fabric: i64,
}

pub(crate) fn holds(one: Sheet, other: Sheet) -> bool {
    let fits = |other: Sheet| one.0 >= other.0 && one.1 >= other.1;
    fits(other) || fits((other.1, other.0))
}

impl Manuscript {
    pub(crate) fn usable(&self) -> i64 {
        self.usable.as_ref().or(self.usable_in_assumes.as_ref()).map_or(40 * INCH, |usable| usable.value)
    }

    pub(crate) fn overhang(&self) -> i64 {
        self.overhang.as_ref().map_or(4 * INCH, |overhang| overhang.value)
    }

    pub(crate) fn batting_overhang(&self) -> i64 {
        self.batting_overhang.as_ref().map_or(self.overhang(), |overhang| overhang.value)
    }

    pub(crate) fn step(&self, mark: Mark) -> i64 {
        let own = mark.metric() == self.metric;
        let usual = if mark.metric() { 10 * CM } else { YARD / 8 };
        self.sold_by.filter(|_| own).unwrap_or(usual)
    }

    /// An amount as it is sold.
    pub(crate) fn buy(&self, fabric: i64, mark: Mark) -> i64 {
        let step = self.step(mark);
        (fabric + step - 1) / step * step
    }

    pub(crate) fn sheet(&self, size: &Size) -> Sheet {
        (size.quilt.0 + 2 * self.overhang(), size.quilt.1 + 2 * self.overhang())
    }

    pub(crate) fn batting(&self, size: &Size) -> Sheet {
        (size.quilt.0 + 2 * self.batting_overhang(), size.quilt.1 + 2 * self.batting_overhang())
    }

    /// Every arrangement that covers a sheet, the way that is asked for.
    fn arrangements(&self, sheet: Sheet, along: Option<bool>) -> Vec<Laid> {
        let (usable, seam) = (self.usable(), self.seam.as_ref().map_or(INCH / 2, |seam| seam.value));
        let mut all = Vec::new();
        for way in [true, false] {
            if along.is_some_and(|along| along != way) {
                continue;
            }
            let (across, each) = if way { sheet } else { (sheet.1, sheet.0) };
            for panels in 1..=MOST_PANELS {
                let mut wide = usable;
                for _ in 1..panels {
                    wide += usable - 2 * seam;
                }
                if wide >= across {
                    all.push(Laid { along: way, panels, fabric: panels * each });
                }
            }
        }
        assert!(!all.is_empty(), "forty panels cover any quilt that is made up here");
        all
    }

    pub(crate) fn way(&self, size: &Size) -> Option<bool> {
        size.along.or((self.directional == Some(true)).then_some(true))
    }

    /// What a sheet takes: of the arrangements with the stated panels, or of all where they never cover it.
    pub(crate) fn laid(&self, size: &Size, sheet: Sheet) -> Laid {
        let all = self.arrangements(sheet, self.way(size));
        let stated: Vec<Laid> =
            all.iter().copied().filter(|laid| size.panels.is_none_or(|panels| panels == laid.panels)).collect();
        let open = if stated.is_empty() { all } else { stated };
        *open.iter().min_by_key(|laid| laid.fabric).unwrap()
    }

    /// The fewest panels the way that they are laid.
    pub(crate) fn fewest(&self, size: &Size) -> i64 {
        let sheet = self.sheet(size);
        let along = self.laid(size, sheet).along;
        self.arrangements(sheet, Some(along)).iter().map(|laid| laid.panels).min().unwrap()
    }

    /// A batting as it lies on the quilt, its longer side along the quilt's.
    fn lying(&self, size: &Size, batting: Sheet) -> Sheet {
        let (short, long) = (batting.0.min(batting.1), batting.0.max(batting.1));
        let sheet = self.sheet(size);
        if sheet.0 <= sheet.1 { (short, long) } else { (long, short) }
    }

    /// Whether the stated backing can be made as large as a batting.
    fn carries(&self, size: &Size, batting: Sheet) -> bool {
        let least =
            size.fabric.as_ref().map(|(one, other)| other.as_ref().map_or(one.value, |two| two.value.min(one.value)));
        let lying = self.lying(size, batting);
        let mut ways = vec![lying];
        if size.quilt.0 == size.quilt.1 {
            ways.push((lying.1, lying.0));
        }
        ways.into_iter().any(|batting| {
            self.arrangements(batting, self.way(size)).iter().any(|laid| {
                size.panels.is_none_or(|panels| panels == laid.panels) && least.is_none_or(|least| laid.fabric <= least)
            })
        })
    }

    /// The batting that is cut to a stated size and is larger than the overhang asks the backing to be.
    fn larger_batting<'b>(&self, size: &'b Size) -> Option<&'b Batting> {
        let cut = size.batting.as_ref().filter(|batting| batting.package.is_none())?;
        (!holds(self.sheet(size), cut.sheet)).then_some(cut)
    }

    /// What should be printed: enough for the batting too, where no overhang says how large the backing is.
    pub(crate) fn fabric_to_print(&self, size: &Size) -> i64 {
        let sheet = self.sheet(size);
        let Some(batting) = self.larger_batting(size).filter(|_| self.overhang.is_none()) else {
            return self.laid(size, sheet).fabric;
        };
        let lying = self.lying(size, batting.sheet);
        self.laid(size, (sheet.0.max(lying.0), sheet.1.max(lying.1))).fabric
    }

    pub(crate) fn text(&self) -> (String, Vec<Places>) {
        let mut text = format!("pattern: Cormorant Rock\nmeasure: {}\n", if self.metric { "cm" } else { "inch" });
        if self.usable_in_assumes.is_some() || self.sold_by.is_some() {
            text += "assumes:\n";
            entry(&mut text, "usable_width", self.usable_in_assumes.as_ref());
            if let Some(step) = self.sold_by {
                let _ = if self.metric {
                    writeln!(text, "  sold_by: {} cm", step / CM)
                } else {
                    writeln!(text, "  sold_by: {}/8 yd", step * 8 / YARD)
                };
            }
        }
        text += "sizes:\n";
        let bare = Mark::bare(self.metric);
        let mut plain = Rng::new(0);
        for size in &self.sizes {
            let (width, length) = (number(&mut plain, size.quilt.0, bare), number(&mut plain, size.quilt.1, bare));
            let _ = writeln!(text, "  {}: {{ finished: {width} x {length} }}", size.name);
        }
        let mut places = vec![Places::default(); self.sizes.len()];
        text += "backing:\n";
        entry(&mut text, "overhang", self.overhang.as_ref());
        entry(&mut text, "seam", self.seam.as_ref());
        entry(&mut text, "usable_width", self.usable.as_ref());
        if let Some(directional) = self.directional {
            let _ = writeln!(text, "  directional: {}", if directional { "yes" } else { "no" });
        }
        text += "  requires:\n";
        for (size, places) in self.sizes.iter().zip(&mut places) {
            write_backing(&mut text, size, places);
        }
        if self.sizes.iter().all(|size| size.batting.is_some()) {
            text += "batting:\n";
            entry(&mut text, "overhang", self.batting_overhang.as_ref());
            text += "  requires:\n";
            for (size, places) in self.sizes.iter().zip(&mut places) {
                let _ = write!(text, "    {}: ", size.name);
                places.batting = put(&mut text, &size.batting.as_ref().unwrap().text);
                text.push('\n');
            }
        }
        (text, places)
    }
}

fn write_backing(text: &mut String, size: &Size, places: &mut Places) {
    let _ = write!(text, "    {}: ", size.name);
    let table = size.panels.is_some() || size.along.is_some();
    text.push_str(if table { "\n" } else { "" });
    if let Some((one, other)) = &size.fabric {
        text.push_str(if table { "      fabric: " } else { "" });
        let start = text.len();
        text.push('\'');
        places.halves[0] = put(text, &one.text);
        if let Some(other) = other {
            text.push_str(" (");
            places.halves[1] = put(text, &other.text);
            text.push(')');
        }
        text.push('\'');
        places.fabric = start..text.len();
        text.push('\n');
    }
    if let Some(panels) = size.panels {
        text.push_str("      panels: ");
        places.panels = put(text, &panels.to_string());
        text.push('\n');
    }
    if let Some(along) = size.along {
        let _ = writeln!(text, "      panels_run: {}", if along { "along" } else { "across" });
    }
}

fn put(text: &mut String, piece: &str) -> Range<usize> {
    let start = text.len();
    text.push_str(piece);
    start..text.len()
}

fn entry(text: &mut String, key: &str, stated: Option<&Stated>) {
    if let Some(stated) = stated {
        let _ = writeln!(text, "  {key}: {}", stated.text);
    }
}

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
            let number = if size.fabric.is_some() { &at.fabric } else { &at.panels };
            let carried = manuscript.carries(size, batting.sheet);
            if !carried || manuscript.overhang.is_some() {
                let at = if carried { &at.batting } else { number };
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
    let metric = manuscript.metric;
    let needed = manuscript.laid(size, manuscript.sheet(size)).fabric;
    let two = other.as_ref().unwrap_or(one);
    let (least, most) = (one.value.min(two.value), one.value.max(two.value));
    let told = |stated, fabric| {
        let buy = manuscript.buy(fabric, Mark::bare(metric));
        (printed_fabric_both(stated, metric, Round::Down), printed_fabric_both(buy, metric, Round::Up))
    };
    if most < needed {
        let (stated, needed) = told(most, needed);
        expected.push(Expected::new("backing-short", "error", &at.fabric).named(size.name).numbers(stated, needed));
    }
    let print = manuscript.fabric_to_print(size);
    if [one, two].iter().all(|half| half.value >= manuscript.buy(print, half.mark) + manuscript.step(half.mark)) {
        let (stated, needed) = told(least, print);
        expected.push(Expected::new("backing-generous", "note", &at.fabric).named(size.name).numbers(stated, needed));
    }
    let step = manuscript.step(one.mark).max(manuscript.step(two.mark));
    let level = match (least < needed, most < needed) {
        (true, false) => "error",
        (false, false) if most - least > step => "query",
        _ => return,
    };
    let (half, place) =
        if two.value <= one.value && other.is_some() { (two, &at.halves[1]) } else { (one, &at.halves[0]) };
    let stated = printed_fabric(half.value, half.mark.metric(), Round::Down);
    let needed = printed_fabric(manuscript.buy(needed, half.mark), half.mark.metric(), Round::Up);
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
    for series in &all {
        for one in series {
            if told.iter().any(|(start, end)| *start < one.at.end && one.at.start < *end) {
                continue;
            }
            let odd = series.iter().any(|other| {
                let grows = one.size.quilt.0 >= other.size.quilt.0
                    && one.size.quilt.1 >= other.size.quilt.1
                    && one.size.quilt != other.size.quilt;
                let shrinks = grows && less(one.stated, other.stated) && !less(one.needed, other.needed);
                let same = holds(one.stated, other.stated) && holds(other.stated, one.stated);
                shrinks || (same && less(other.needed, one.needed))
            });
            if odd {
                expected.push(Expected::new("sizes-out-of-order", "query", &one.at).named(one.size.name));
            }
        }
    }
}

pub(crate) fn smallest_package(sheet: Sheet) -> Option<(&'static str, Sheet)> {
    let packages = PACKAGES.iter().map(|(name, width, length)| (*name, (width * INCH, length * INCH)));
    packages.filter(|(_, package)| holds(*package, sheet)).min_by_key(|(_, package)| *package)
}

pub(crate) fn a_package(rng: &mut Rng) -> Batting {
    let (name, width, length) = rng.pick(&PACKAGES);
    Batting { sheet: (width * INCH, length * INCH), package: Some(name), text: name.to_string() }
}

/// A batting of a width and a length, either way round.
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
