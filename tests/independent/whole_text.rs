//! The text of a whole manuscript, with the place of each number, what must tell it when it is one step lower, and what
//! the finding must name.

use std::ops::Range;

use super::rng as rng_of;
use crate::independent::amounts::{CM, INCH, METRE, MM, Mark, SIXTY_FOURTH, decimal, number};
use crate::independent::whole_quilt::{Quilt, Top, Units, strips_for};
use crate::support::rng::Rng;

/// Where the finding shows a number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Shown {
    /// At its place.
    #[default]
    At,
    /// At its place or beside it: what is short is a sum, and any of its parts may be meant to be longer.
    Beside,
}

/// What must tell a number that is one step lower.
#[derive(Clone, Debug, Default)]
pub(crate) struct Caught {
    pub(crate) rules: &'static [&'static str],
    pub(crate) size: Option<&'static str>,
    pub(crate) subject: Vec<(&'static str, String)>,
    pub(crate) shown: Shown,
}

impl Caught {
    fn by(rules: &'static [&'static str]) -> Caught {
        Caught { rules, ..Caught::default() }
    }

    fn of(mut self, size: &'static str) -> Caught {
        self.size = Some(size);
        self
    }

    fn shown(mut self, shown: Shown) -> Caught {
        self.shown = shown;
        self
    }

    fn naming(mut self, kind: &'static str, name: &str) -> Caught {
        self.subject.push((kind, name.to_string()));
        self
    }
}

/// A number that can be lowered.
#[derive(Clone, Debug)]
pub(crate) struct Number {
    pub(crate) kind: &'static str,
    pub(crate) place: Range<usize>,
    pub(crate) caught: Caught,
}

/// A manuscript as text. Of the numbers that it states these are not lowered, for a lower one is no mistake that anybody
/// could see: what the reader is told to assume (usable width, seam, step of the shop), the method (tails, opening,
/// overhang, join), the design (units, sashing, borders, across, down), which all else follows from, the segments
/// that a strip set gives, of which whoever squares up its ends has one less.
#[derive(Debug)]
pub(crate) struct Manuscript {
    pub(crate) text: String,
    pub(crate) numbers: Vec<Number>,
}

struct Writer<'q> {
    quilt: &'q Quilt,
    rng: Rng,
    lowered: Option<usize>,
    text: String,
    numbers: Vec<Number>,
}

const SHORT: &[&str] = &["fabric-short", "no-squaring-room"];
const PAIR_SHORT: &[&str] = &["pair-disagrees", "no-squaring-room"];

/// The manuscript, with one of its numbers a step lower.
pub(crate) fn write(quilt: &Quilt, index: u64, lowered: Option<usize>) -> Manuscript {
    let mut writer = Writer { quilt, rng: rng_of(42, index), lowered, text: String::new(), numbers: Vec::new() };
    writer.head();
    writer.design();
    for top in &quilt.sizes {
        writer.layout(top);
    }
    writer.fabrics();
    writer.binding();
    writer.backing();
    Manuscript { text: writer.text, numbers: writer.numbers }
}

impl Writer<'_> {
    fn plain(&mut self, text: &str) {
        self.text += text;
    }

    fn shown(&mut self, value: i64) -> String {
        let own = Mark::bare(self.quilt.metric);
        if self.quilt.units == Units::Own {
            return number(&mut self.rng, value, own);
        }
        match own {
            Mark::Inch if value % SIXTY_FOURTH == 0 => number(&mut self.rng, value, own) + " in",
            Mark::Cm if value % (CM / 100) == 0 && self.rng.one_in(2) => number(&mut self.rng, value, own) + " cm",
            _ => decimal(value, MM, 4) + " mm",
        }
    }

    /// Whether the manuscript is metric.
    fn is_metric(&self) -> bool {
        self.quilt.metric == (self.quilt.units == Units::Own)
    }

    /// The value, or one step less where it is this number's turn.
    fn value(&mut self, kind: &'static str, value: i64, step: i64, caught: Caught) -> i64 {
        let lower = self.lowered == Some(self.numbers.len());
        self.numbers.push(Number { kind, place: 0..0, caught });
        if lower { value - step } else { value }
    }

    /// Adds a text, which is the place of so many numbers.
    fn put(&mut self, numbers: usize, text: &str) {
        let place = self.text.len()..self.text.len() + text.len();
        self.text += text;
        let from = self.numbers.len() - numbers;
        for number in &mut self.numbers[from..] {
            number.place = place.clone();
        }
    }

    fn length(&mut self, kind: &'static str, value: i64, caught: Caught) {
        let value = self.value(kind, value, self.quilt.ruler(), caught);
        let shown = self.shown(value);
        self.put(1, &shown);
    }

    fn count(&mut self, kind: &'static str, count: i64, caught: Caught) {
        let count = self.value(kind, count, 1, caught);
        self.put(1, &count.to_string());
    }

    /// Two lengths, `12 x 14`, each of which can be lowered.
    fn pair(&mut self, kind: &'static str, (one, other): (i64, i64), caught: &Caught) {
        let one = self.value(kind, one, self.quilt.ruler(), caught.clone());
        let other = self.value(kind, other, self.quilt.ruler(), caught.clone());
        let text = format!("{} x {}", self.shown(one), self.shown(other));
        self.put(2, &text);
    }

    /// An amount of fabric, lowered by what the shop sells or to a stated one.
    fn amount(&mut self, kind: &'static str, amount: i64, step: i64, caught: Caught) {
        // One step of the shop less than one step is nothing, which nobody tells to buy.
        let can_be_lowered = step < amount;
        let value = if can_be_lowered { self.value(kind, amount, step, caught) } else { amount };
        let mark = match self.quilt.mark() {
            Mark::Cm if value % (METRE / 10) == 0 && self.rng.one_in(2) => Mark::Metre,
            mark => mark,
        };
        let unit = match mark {
            Mark::Yard => "yd",
            Mark::Metre => "m",
            _ => "cm",
        };
        let text = format!("{} {unit}", number(&mut self.rng, value, mark));
        self.put(usize::from(can_be_lowered), &text);
    }

    fn head(&mut self) {
        let quilt = self.quilt;
        let (usable, seam) = (self.shown(quilt.usable), self.shown(quilt.seam));
        let measure = if self.is_metric() { "cm" } else { "inch" };
        let unit = if quilt.metric { "cm" } else { "yd" };
        let step = number(&mut self.rng, quilt.step, quilt.mark());
        self.plain(&format!(
            "pattern: Quarry Path\nmeasure: {measure}\n\
             assumes: {{ usable_width: {usable}, seam: {seam}, sold_by: {step} {unit} }}\nsizes:\n"
        ));
        for top in &quilt.sizes {
            self.plain(&format!("  {}: {{ finished: ", top.name));
            self.pair("finished", quilt.finished(top), &Caught::by(&["finished-size-wrong"]).of(top.name));
            self.plain(" }\n");
        }
    }

    fn design(&mut self) {
        let quilt = self.quilt;
        let (unit, block) = (self.shown(quilt.unit), self.shown(3 * quilt.unit));
        let (method, gives) = if quilt.eight_at_a_time { ("eight", 8) } else { ("two", 2) };
        self.plain(&format!(
            "units:\n  corner:\n    make: half_square_triangle\n    method: {method}_at_a_time\n    \
             finished: {unit}\n    cut: {{ first: A, second: B }}\n    yields: "
        ));
        self.count("yields", gives, Caught::by(&["yield-wrong"]).naming("unit", "corner"));
        self.plain("\n    trim: ");
        self.length("trim", quilt.patch(1), Caught::by(&["trim-size-wrong"]).naming("unit", "corner"));
        self.plain(&format!(
            "\n  rail:\n    make: strip_set\n    finished: {unit}\n    cut: {{ upper: dark, lower: light }}\n    \
             yields: {}\n    segment: ",
            quilt.segments()
        ));
        self.length("segment", quilt.patch(1), Caught::by(&["unit-cut-short"]).naming("unit", "rail"));
        self.plain(&format!(
            "\n  middle: {{ make: patch, finished: {unit}, cut: {{ patch: C }} }}\n  \
             plain: {{ make: patch, finished: {block}, cut: {{ patch: P }} }}\nblocks:\n  star:\n    finished: "
        ));
        self.length("block", 3 * quilt.unit, Caught::by(&["block-does-not-sum"]).naming("block", "star"));
        self.plain(&format!(
            "\n    rows: [[corner, rail, corner], [rail turned, middle, rail turned], [corner, rail, corner]]\n  \
             plain block: {{ finished: {block}, rows: [[plain]] }}\nlayout:\n"
        ));
    }

    fn layout(&mut self, top: &Top) {
        let quilt = self.quilt;
        let Top { name, across, down, .. } = top;
        self.plain(&format!("  {name}:\n    across: {across}\n    down: {down}\n    blocks: "));
        let caught = Caught::by(&["block-count-wrong"]).of(name);
        let stars = self.value("stars", top.stars, 1, caught.clone());
        let plain = self.value("plain blocks", Quilt::plain(top), 1, caught);
        self.put(2, &format!("{{ star: {stars}, plain block: {plain} }}"));
        if quilt.sashing > 0 {
            let (sashing, round) = (self.shown(quilt.sashing), if quilt.round { "yes" } else { "no" });
            self.plain(&format!(
                "\n    sashing: {sashing}\n    sashing_round: {round}\n    sash: S\n    cornerstones: yes\n    cornerstone: K"
            ));
        }
        let inner = self.shown(quilt.inner);
        let join = if quilt.diagonal { "diagonal" } else { "straight" };
        self.plain(&format!(
            "\n    borders:\n      - {{ width: {inner}, corners: butted, piece: inner border, join: {join} }}\n"
        ));
        if quilt.outer > 0 {
            let outer = self.shown(quilt.outer);
            let pieces = if quilt.listed {
                format!("piece: side {name}, piece_across: top {name}, pieced: no")
            } else {
                "piece: outer border".to_string()
            };
            self.plain(&format!("      - {{ width: {outer}, corners: cornerstones, cornerstone: E, {pieces} }}\n"));
        }
    }

    /// The start of a fabric, and what is bought of it where it is sold by length.
    fn fabric(&mut self, name: &'static str, told: bool, cut: impl Fn(&Top) -> i64, least: impl Fn(&Top) -> i64) {
        let quilt = self.quilt;
        self.plain(&format!("  {name}:\n    requires: {{ "));
        for (index, top) in quilt.sizes.iter().enumerate() {
            self.plain(if index > 0 { ", " } else { "" });
            self.plain(&format!("{}: ", top.name));
            let amount = quilt.buy(cut(top));
            // Without told strips only what is below the area of the pieces is short for certain.
            let step = if told { quilt.step } else { amount - (least(top) - 1) / quilt.step * quilt.step };
            let paired = quilt.paired && told;
            let caught = Caught::by(if paired { PAIR_SHORT } else { SHORT }).of(top.name).naming("fabric", name);
            self.amount("amount", amount, step, caught);
            if paired {
                self.plain(" (");
                let metric = Quilt::buy_metric(cut(top));
                let caught = Caught::by(PAIR_SHORT).of(top.name).naming("fabric", name);
                let metric = self.value("amount in metric", metric, 10 * CM, caught);
                let text = format!("{} cm", metric / CM);
                self.put(1, &text);
                self.plain(")");
            }
        }
        self.plain(" }\n    cut:\n");
    }

    /// What is bought in pieces of one size.
    fn small(&mut self, name: &'static str, sold: &str, needed: impl Fn(&Top) -> i64, least: impl Fn(&Top) -> i64) {
        self.plain(&format!("  {name}:\n    sold_as: {sold}\n    requires: {{ "));
        for (index, top) in self.quilt.sizes.iter().enumerate() {
            self.plain(&format!("{}{}: ", if index > 0 { ", " } else { "" }, top.name));
            let caught = Caught::by(&["fabric-short"]).of(top.name).naming("fabric", name);
            let count = self.value("small fabrics", needed(top), needed(top) - least(top) + 1, caught);
            self.put(1, &count.to_string());
        }
        self.plain(" }\n    cut:\n");
    }

    /// Counts of a piece by size.
    fn counts(
        &mut self,
        word: &'static str,
        fabric: &str,
        piece: &str,
        rules: &'static [&'static str],
        of: &dyn Fn(&Top) -> i64,
    ) {
        self.plain(&format!(", {word}: {{ "));
        for (index, top) in self.quilt.sizes.iter().enumerate() {
            self.plain(&format!("{}{}: ", if index > 0 { ", " } else { "" }, top.name));
            self.count(word, of(top), Caught::by(rules).of(top.name).naming("fabric", fabric).naming("piece", piece));
        }
        self.plain(" }");
    }

    /// A square that some units take.
    fn square(
        &mut self,
        fabric: &str,
        piece: &str,
        side: i64,
        caught: Option<Caught>,
        strips: bool,
        of: &dyn Fn(&Top) -> i64,
    ) {
        self.plain(&format!("      - {{ piece: {piece}, size: "));
        match caught {
            Some(caught) => self.pair("piece size", (side, side), &caught),
            None => {
                let side = self.shown(side);
                self.plain(&format!("{side} x {side}"));
            }
        }
        let usable = self.quilt.usable;
        if strips {
            self.counts("strips", fabric, piece, &["strips-short"], &|top| strips_for(of(top), side, usable));
        }
        self.counts("pieces", fabric, piece, &["pieces-short"], of);
        self.plain(" }\n");
    }

    fn strips(&mut self, fabric: &str, piece: &str, width: i64, caught: Caught, of: &dyn Fn(&Top) -> i64) {
        self.plain(&format!("      - {{ piece: {piece}, strip_width: "));
        self.length("strip width", width, caught);
        self.counts("strips", fabric, piece, &["pieces-short", "strips-short"], of);
        self.plain(" }\n");
    }

    fn fabrics(&mut self) {
        let quilt = self.quilt;
        let (usable, s) = (quilt.usable, 2 * quilt.seam);
        let side = quilt.triangle_square();
        let rail = quilt.unit / 2 + s;
        let corner = |part: &str| {
            let caught = Caught::by(&["unit-cut-short"]).naming("unit", "corner").naming("part", part);
            Some(caught).filter(|_| !quilt.triangle_has_room())
        };
        let triangles = |top: &Top| strips_for(quilt.triangle_squares(top), side, usable) * side;
        let bound = |top: &Top| if quilt.from { quilt.binding_strips(top) * quilt.binding_width() } else { 0 };
        let squares = |top: &Top| quilt.triangle_squares(top);
        let rails = |top: &Top| quilt.rail_strips(top);
        self.plain("fabrics:\n");
        self.fabric("ink", true, |top| triangles(top) + rails(top) * rail + bound(top), |_| 0);
        self.square("ink", "A", side, corner("first"), true, &squares);
        self.strips(
            "ink",
            "dark",
            rail,
            Caught::by(&["unit-cut-short"]).naming("unit", "rail").shown(Shown::Beside),
            &rails,
        );
        if quilt.fats {
            let (long, short) = if quilt.metric { (55 * CM, 50 * CM) } else { (20 * INCH, 18 * INCH) };
            let fats = |top: &Top| strips_for(strips_for(squares(top), side, long), side, short);
            let area = move |top: &Top| (squares(top) * side * side - 1) / (long * short) + 1;
            self.small("foam", "fat_quarters", fats, area);
            self.square("foam", "B", side, corner("second"), false, &squares);
        } else {
            self.fabric("foam", true, triangles, |_| 0);
            self.square("foam", "B", side, corner("second"), true, &squares);
        }
        self.fabric("mist", true, |top| rails(top) * rail, |_| 0);
        self.strips(
            "mist",
            "light",
            rail,
            Caught::by(&["unit-cut-short"]).naming("unit", "rail").shown(Shown::Beside),
            &rails,
        );
        self.middles();
        let block = quilt.patch(3);
        let rows = |top: &Top| strips_for(Quilt::plain(top), block, usable) * block;
        let area = |top: &Top| (Quilt::plain(top) * block * block - 1) / usable + 1;
        self.fabric("slate", false, rows, area);
        let patch = |unit: &str| Caught::by(&["unit-cut-short"]).naming("unit", unit);
        self.square("slate", "P", block, Some(patch("plain")), false, &|top| Quilt::plain(top));
        if quilt.sashing > 0 {
            self.sashing();
        }
        self.borders();
    }

    fn middles(&mut self) {
        let quilt = self.quilt;
        let (side, usable) = (quilt.patch(1), quilt.usable);
        let caught = Caught::by(&["unit-cut-short"]).naming("unit", "middle");
        let stars = |top: &Top| top.stars;
        match quilt.precut {
            Some(precut) => {
                let each = strips_for(1, side, precut).max((precut / side) * (precut / side));
                let needed = move |top: &Top| strips_for(top.stars, 1, each);
                let area = move |top: &Top| (top.stars * side * side - 1) / (precut * precut) + 1;
                let sold = format!("squares\n    precut: {}", self.shown(precut));
                self.small("lamp", &sold, needed, area);
            }
            None => self.fabric("lamp", true, |top| strips_for(top.stars, side, usable) * side, |_| 0),
        }
        self.square("lamp", "C", side, Some(caught), quilt.precut.is_none(), &stars);
    }

    fn sashing(&mut self) {
        let quilt = self.quilt;
        let (wide, long, usable) = (quilt.sashing + 2 * quilt.seam, quilt.patch(3), quilt.usable);
        let sashes = |top: &Top| quilt.sashes(top).0;
        let stones = |top: &Top| quilt.sashes(top).1;
        let strips = |top: &Top| strips_for(sashes(top), long, usable);
        let cut = |top: &Top| (strips(top) + strips_for(stones(top), wide, usable)) * wide;
        self.fabric("rope", true, cut, |_| 0);
        self.plain("      - { piece: S, size: ");
        let caught = |piece: &str| Caught::by(&["sash-short"]).naming("fabric", "rope").naming("piece", piece);
        self.pair("piece size", (wide, long), &caught("S"));
        self.sash_strips(&strips);
        self.counts("pieces", "rope", "S", &["pieces-short"], &sashes);
        self.plain(" }\n");
        self.square("rope", "K", wide, Some(caught("K")), true, &stones);
    }

    /// Strips as wide as a sash. Sashes can be cut cut strips they are long, too.
    fn sash_strips(&mut self, strips: &dyn Fn(&Top) -> i64) {
        self.plain(", strips: { ");
        for (index, top) in self.quilt.sizes.iter().enumerate() {
            self.plain(&format!("{}{}: ", if index > 0 { ", " } else { "" }, top.name));
            let rules = &["strips-short", "strip-width-unclear"];
            let caught = Caught::by(rules).of(top.name).naming("fabric", "rope").naming("piece", "S");
            self.count("strips", strips(top), caught);
        }
        self.plain(" }");
    }

    fn borders(&mut self) {
        let quilt = self.quilt;
        let (s, usable) = (2 * quilt.seam, quilt.usable);
        let (inner, outer) = (quilt.inner + s, quilt.outer + s);
        let caught = |piece: &str, border: &str| {
            Caught::by(&["border-short"]).naming("fabric", "tide").naming("piece", piece).naming("border", border)
        };
        let sides = |top: &Top| quilt.sewn(&[quilt.within_outer(top).1 + s; 2], s);
        let tops = |top: &Top| quilt.sewn(&[quilt.within_outer(top).0 + s; 2], s);
        let cut = |top: &Top| {
            let outer_strips = match (quilt.outer, quilt.listed) {
                (0, _) => 0,
                (_, true) => sides(top) + tops(top),
                (_, false) => quilt.outer_strips(top),
            };
            let stones = if quilt.outer > 0 { strips_for(4, outer, usable) } else { 0 };
            quilt.inner_strips(top) * inner + (outer_strips + stones) * outer
        };
        self.fabric("tide", true, cut, |_| 0);
        self.strips("tide", "inner border", inner, caught("inner border", "1"), &|top| quilt.inner_strips(top));
        if quilt.outer == 0 {
            return;
        }
        self.square("tide", "E", outer, Some(caught("E", "2")), true, &|_| 4);
        if !quilt.listed {
            self.strips("tide", "outer border", outer, caught("outer border", "2"), &|top| quilt.outer_strips(top));
            return;
        }
        for top in &quilt.sizes {
            let (wide, high) = quilt.within_outer(top);
            for (way, long, strips) in [("side", high, sides(top)), ("top", wide, tops(top))] {
                let piece = format!("{way} {}", top.name);
                self.plain(&format!("      - {{ piece: {piece}, size: "));
                self.pair("border piece", (outer, long + s), &caught(&piece, "2").of(top.name));
                self.one_size("strips", "joined strips", &piece, top, (strips, &["strips-short"]));
                self.one_size("pieces", "pieces", &piece, top, (2, &["pieces-short"]));
                self.plain(" }\n");
            }
        }
    }

    /// The counts of a border piece that one size alone has.
    fn one_size(
        &mut self,
        word: &str,
        kind: &'static str,
        piece: &str,
        top: &Top,
        (count, rules): (i64, &'static [&'static str]),
    ) {
        self.plain(&format!(", {word}: {{ "));
        for (index, other) in self.quilt.sizes.iter().enumerate() {
            self.plain(&format!("{}{}: ", if index > 0 { ", " } else { "" }, other.name));
            if other.name == top.name {
                let caught = Caught::by(rules).of(top.name).naming("fabric", "tide").naming("piece", piece);
                self.count(kind, count, caught);
            } else {
                self.plain("0");
            }
        }
        self.plain(" }");
    }

    fn binding(&mut self) {
        let quilt = self.quilt;
        let from = if quilt.from { "  from: ink\n" } else { "" };
        self.plain(&format!("binding:\n{from}  strip_width: "));
        self.length("binding width", quilt.binding_width(), Caught::by(&["fold-short", "fold-barely-covers"]));
        let (seam, tail) = (self.shown(quilt.seam), self.shown(if quilt.metric { 200 * MM } else { 8 * INCH }));
        self.plain(&format!("\n  seam: {seam}\n  tails: {tail}\n  opening: {tail}\n  requires:\n"));
        for top in &quilt.sizes {
            let strips = quilt.binding_strips(top);
            self.plain(&format!("    {}: {{ strips: ", top.name));
            self.count("binding strips", strips, Caught::by(&["spare-strip", "binding-short"]).of(top.name));
            if !quilt.from {
                self.plain(", fabric: ");
                let caught = Caught::by(&["binding-fabric-short", "no-squaring-room"]).of(top.name);
                self.amount("binding fabric", quilt.buy(strips * quilt.binding_width()), quilt.step, caught);
            }
            self.plain(" }\n");
        }
    }

    fn backing(&mut self) {
        let quilt = self.quilt;
        let overhang = self.shown(quilt.inches(4));
        self.plain(&format!("backing:\n  overhang: {overhang}\n  requires:\n"));
        for top in &quilt.sizes {
            let (panels, fabric) = quilt.backing(top);
            self.plain(&format!(
                "    {}: {{ panels_run: {}, panels: ",
                top.name,
                if top.along { "along" } else { "across" }
            ));
            if panels > 1 {
                self.count("panels", panels, Caught::by(&["backing-panels"]).of(top.name));
            } else {
                self.plain("1");
            }
            self.plain(", fabric: ");
            self.amount("backing fabric", fabric, quilt.step, Caught::by(&["backing-short"]).of(top.name));
            self.plain(" }\n");
        }
        self.plain(&format!("batting:\n  overhang: {overhang}\n  requires:\n"));
        for top in &quilt.sizes {
            let (wide, high) = quilt.finished(top);
            let sheet = (wide + 2 * quilt.inches(4), high + 2 * quilt.inches(4));
            self.plain(&format!("    {}: ", top.name));
            self.pair("batting", sheet, &Caught::by(&["batting-short"]).of(top.name));
            self.plain("\n");
        }
    }
}
