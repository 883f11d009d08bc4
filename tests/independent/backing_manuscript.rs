//! Manuscripts of a backing and a batting, and what they take: every arrangement of panels is tried, one to forty of
//! them, both ways.

use std::fmt::Write as _;
use std::ops::Range;

use crate::independent::amounts::{CM, INCH, Mark, Stated, YARD, number};
use crate::support::rng::Rng;

const MAX_PANELS: i64 = 40;
/// From the rule book: name, width and length in inches.
pub(crate) const PACKAGES: [(&str, i64, i64); 5] = [
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
            for panels in 1..=MAX_PANELS {
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
    pub(crate) fn carries(&self, size: &Size, batting: Sheet) -> bool {
        let least =
            size.fabric.as_ref().map(|(one, other)| other.as_ref().map_or(one.value, |two| two.value.min(one.value)));
        let lying = self.lying(size, batting);
        let mut ways = vec![lying];
        if size.quilt.0 == size.quilt.1 {
            ways.push((lying.1, lying.0));
        }
        ways.into_iter().any(|batting| {
            self.arrangements(batting, self.way(size)).iter().any(|laid| {
                // Panels of which no fabric is stated are as long as a stated overhang makes the backing.
                let (width, length) = self.sheet(size);
                let longest = if laid.along { length } else { width };
                let by_overhang = least.is_some() || self.overhang.is_none() || laid.fabric <= laid.panels * longest;
                size.panels.is_none_or(|panels| panels == laid.panels)
                    && least.is_none_or(|least| laid.fabric <= least)
                    && by_overhang
            })
        })
    }

    /// The batting that is cut to a stated size and is larger than the overhang asks the backing to be.
    pub(crate) fn larger_batting<'b>(&self, size: &'b Size) -> Option<&'b Batting> {
        let cut = size.batting.as_ref().filter(|batting| batting.package.is_none())?;
        (!holds(self.sheet(size), cut.sheet)).then_some(cut)
    }

    /// What should be printed: enough for the batting too.
    pub(crate) fn fabric_to_print(&self, size: &Size) -> i64 {
        let sheet = self.sheet(size);
        let Some(batting) = self.larger_batting(size) else {
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

/// The smallest package that holds a sheet.
pub(crate) fn smallest_package(sheet: Sheet) -> Option<(&'static str, Sheet)> {
    let packages = PACKAGES.iter().map(|(name, width, length)| (*name, (width * INCH, length * INCH)));
    packages.filter(|(_, package)| holds(*package, sheet)).min_by_key(|(_, package)| *package)
}
