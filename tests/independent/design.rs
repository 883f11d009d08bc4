//! The design of a quilt top: each block, sash, triangle and border is drawn as a rectangle of whole 64ths of an inch, or
//! as a diamond on a grid, and what is drawn is counted and measured. A thousand random layouts.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::cast_possible_truncation)] // A drawing on point has diagonals, and this is not the program.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::{checked, rng};
use crate::independent::amounts::mixed;
use crate::support::rng::Rng;

const LAYOUTS: u64 = 1_000;

/// A 64th of an inch is one.
const INCH: i64 = 64;

/// The rules about layouts and their pieces.
const RULES: [&str; 8] = [
    "finished-size-wrong",
    "block-count-wrong",
    "border-short",
    "sash-short",
    "pieces-short",
    "pieces-generous",
    "piece-unused",
    "piece-not-cut",
];

/// What lies on the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Block,
    Sash,
    LongSash,
    Cornerstone,
    SideTriangle,
    CornerTriangle,
    Border(usize),
    BorderSquare(usize),
}

/// One rectangle: from left and top, so wide and high.
#[derive(Clone, Copy, Debug)]
struct Drawn {
    kind: Kind,
    x: i64,
    y: i64,
    wide: i64,
    high: i64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Corners {
    Butted,
    Mitred,
    Cornerstones,
}

#[derive(Clone, Copy, Debug)]
struct Border {
    width: i64,
    corners: Corners,
    pieced: bool,
    diagonal: bool,
    ease: i64,
}

/// A random layout.
#[derive(Clone, Debug)]
struct Layout {
    on_point: bool,
    across: i64,
    down: i64,
    block: (i64, i64),
    sashing: i64,
    round: bool,
    cornerstones: bool,
    borders: Vec<Border>,
    seam: i64,
    usable: i64,
    fours: i64,
}

fn random(rng: &mut Rng) -> Layout {
    let on_point = rng.one_in(3);
    let side = rng.between(8, 160) * INCH / 8;
    let other = if on_point || rng.one_in(2) { side } else { rng.between(8, 160) * INCH / 8 };
    let sashing = if on_point || rng.one_in(3) { 0 } else { rng.between(4, 40) * INCH / 8 };
    let border = |rng: &mut Rng| Border {
        width: rng.between(4, 64) * INCH / 8,
        corners: rng.pick(&[Corners::Butted, Corners::Mitred, Corners::Cornerstones]),
        pieced: rng.one_in(2),
        diagonal: rng.one_in(2),
        ease: rng.between(8, 24) * INCH / 8,
    };
    let borders = (0..rng.below(4)).map(|_| border(rng)).collect();
    let (across, down) = (rng.between(1, 9), rng.between(1, 9));
    Layout {
        on_point,
        across,
        down,
        block: (side, other),
        sashing,
        round: sashing > 0 && rng.one_in(2),
        cornerstones: sashing > 0 && rng.one_in(2),
        borders,
        seam: rng.pick(&[16, 16, 24]),
        usable: rng.between(38, 44) * INCH,
        fours: rng.between(0, across * down),
    }
}

/// What is drawn inside the borders, for a straight set.
fn draw_straight(layout: &Layout) -> Vec<Drawn> {
    let mut drawn = Vec::new();
    let (wide, high) = layout.block;
    let q = layout.sashing;
    let edge = if layout.round { q } else { 0 };
    let row_width = layout.across * wide + (layout.across - 1) * q + 2 * edge;
    let mut y = 0;
    let level = |drawn: &mut Vec<Drawn>, y: i64| {
        if !layout.cornerstones {
            drawn.push(Drawn { kind: Kind::LongSash, x: 0, y, wide: row_width, high: q });
            return;
        }
        let mut x = 0;
        for column in 0..layout.across {
            if column > 0 || layout.round {
                drawn.push(Drawn { kind: Kind::Cornerstone, x, y, wide: q, high: q });
                x += q;
            }
            drawn.push(Drawn { kind: Kind::Sash, x, y, wide, high: q });
            x += wide;
        }
        if layout.round {
            drawn.push(Drawn { kind: Kind::Cornerstone, x, y, wide: q, high: q });
        }
    };
    for row in 0..layout.down {
        if q > 0 && (row > 0 || layout.round) {
            level(&mut drawn, y);
            y += q;
        }
        let mut x = 0;
        for column in 0..layout.across {
            if q > 0 && (column > 0 || layout.round) {
                drawn.push(Drawn { kind: Kind::Sash, x, y, wide: q, high });
                x += q;
            }
            drawn.push(Drawn { kind: Kind::Block, x, y, wide, high });
            x += wide;
        }
        if layout.round {
            drawn.push(Drawn { kind: Kind::Sash, x, y, wide: q, high });
        }
        y += high;
    }
    if layout.round {
        level(&mut drawn, y);
    }
    drawn
}

/// What is drawn on point, in half diagonals: a diamond at every place whose column and row are both odd or both even,
/// whole inside, half of it at the edge and a quarter at the corner.
fn draw_on_point(layout: &Layout) -> (Vec<Kind>, f64, f64) {
    let (right, bottom) = (2 * layout.across, 2 * layout.down);
    let mut drawn = Vec::new();
    for x in 0..=right {
        for y in 0..=bottom {
            if (x - y) % 2 != 0 {
                continue;
            }
            drawn.push(match ([0, right].contains(&x), [0, bottom].contains(&y)) {
                (true, true) => Kind::CornerTriangle,
                (true, false) | (false, true) => Kind::SideTriangle,
                (false, false) => Kind::Block,
            });
        }
    }
    let half_diagonal = layout.block.0 as f64 / f64::sqrt(2.0);
    (drawn, right as f64 * half_diagonal, bottom as f64 * half_diagonal)
}

/// The bounding box of rectangles, which leave no gap in it.
fn bounds(drawn: &[Drawn]) -> (i64, i64) {
    let wide = drawn.iter().map(|drawn| drawn.x + drawn.wide).max().unwrap();
    let high = drawn.iter().map(|drawn| drawn.y + drawn.high).max().unwrap();
    assert!(drawn.iter().all(|drawn| drawn.x >= 0 && drawn.y >= 0));
    assert_eq!(drawn.iter().map(|drawn| drawn.wide * drawn.high).sum::<i64>(), wide * high, "{drawn:?}");
    (wide, high)
}

/// Everything about a layout that was drawn.
struct Plan {
    counts: BTreeMap<Kind, i64>,
    /// Finished, in 64ths.
    width: f64,
    length: f64,
    /// How long each border's strips are cut: at the sides, and across.
    strips: Vec<(f64, f64)>,
}

fn plan(layout: &Layout) -> Plan {
    let mut counts = BTreeMap::new();
    let (mut width, mut length) = if layout.on_point {
        let (drawn, width, length) = draw_on_point(layout);
        for kind in drawn {
            *counts.entry(kind).or_insert(0) += 1;
        }
        (width, length)
    } else {
        let drawn = draw_straight(layout);
        for drawn in &drawn {
            *counts.entry(drawn.kind).or_insert(0) += 1;
        }
        let (wide, high) = bounds(&drawn);
        (wide as f64, high as f64)
    };
    let mut strips = Vec::new();
    for (index, border) in layout.borders.iter().enumerate() {
        let (around, seams) = (2.0 * border.width as f64, 2.0 * layout.seam as f64);
        strips.push(match border.corners {
            Corners::Butted => (length + seams, width + around + seams),
            Corners::Cornerstones => (length + seams, width + seams),
            Corners::Mitred => {
                let more = around + (border.ease as f64).max(seams);
                (length + more, width + more)
            }
        });
        *counts.entry(Kind::Border(index)).or_insert(0) += 4;
        if border.corners == Corners::Cornerstones {
            *counts.entry(Kind::BorderSquare(index)).or_insert(0) += 4;
        }
        // Drawn round what is inside: left, right, top and bottom.
        width += around;
        length += around;
    }
    Plan { counts, width, length, strips }
}

/// How many strips it takes to sew these lengths in this order: a strip is joined on while the length is not reached, and
/// what is left is kept for the next where a join leaves something of it.
fn sewn(order: &[f64], strip: i64, loss: i64) -> i64 {
    let (mut strips, mut rest) = (0, 0.0);
    for run in order {
        if rest + 1e-6 < *run {
            let mut have = if rest > loss as f64 + 1e-6 { rest } else { 0.0 };
            while have + 1e-6 < *run {
                have += if have > 0.0 { strip - loss } else { strip } as f64;
                strips += 1;
            }
            rest = have;
        }
        rest -= run;
    }
    strips
}

/// How many strips of a usable width make four border strips, in the order that takes the fewest.
fn border_strips(layout: &Layout, plan: &Plan, index: usize) -> i64 {
    let border = layout.borders[index];
    let cut = border.width + 2 * layout.seam;
    let (s, e) = plan.strips[index];
    let loss = if border.diagonal { cut } else { 2 * layout.seam };
    let orders = [[s, s, e, e], [s, e, s, e], [s, e, e, s], [e, s, s, e], [e, s, e, s], [e, e, s, s]];
    orders.iter().map(|order| sewn(order, layout.usable, loss)).min().unwrap()
}

/// A text that remembers where its numbers are.
#[derive(Default)]
struct Text {
    text: String,
    places: BTreeMap<String, Range<usize>>,
}

impl Text {
    fn plain(&mut self, text: &str) {
        self.text += text;
    }

    fn number(&mut self, key: &str, text: &str) {
        self.places.insert(key.to_string(), self.text.len()..self.text.len() + text.len());
        self.text += text;
    }
}

fn inches(sixty_fourths: i64) -> String {
    mixed(sixty_fourths, INCH).unwrap()
}

fn up(sixty_fourths: f64) -> i64 {
    (sixty_fourths - 1e-6).ceil() as i64
}

/// The numbers of a manuscript, each by the key of its place.
type Numbers = BTreeMap<String, i64>;

/// What must be stated for a layout.
fn right(layout: &Layout, plan: &Plan) -> Numbers {
    let mut numbers = Numbers::new();
    let mut put = |key: &str, value: i64| {
        numbers.insert(key.to_string(), value);
    };
    // On point a pattern prints eighths.
    let printed = |side: f64| if layout.on_point { (side / 8.0).round() as i64 * 8 } else { up(side) };
    put("finished width", printed(plan.width));
    put("finished length", printed(plan.length));
    let count = |kind: Kind| plan.counts.get(&kind).copied().unwrap_or(0);
    let blocks = count(Kind::Block);
    put("four", layout.fours);
    put("plain", blocks - layout.fours);
    put("P", blocks - layout.fours);
    put("Q", 4 * layout.fours);
    let s = 2 * layout.seam;
    if layout.sashing > 0 {
        put("S", count(Kind::Sash));
        put("S wide", layout.sashing + s);
        let longer = if layout.cornerstones { layout.block.0.max(layout.block.1) } else { layout.block.1 };
        put("S long", longer + s);
        put("K", count(Kind::Cornerstone));
        put("K side", layout.sashing + s);
        let row = layout.across * layout.block.0
            + (layout.across - 1 + if layout.round { 2 } else { 0 }) * layout.sashing
            + s;
        let rows = usize::try_from(count(Kind::LongSash)).unwrap();
        put("L", sewn(&vec![row as f64; rows], layout.usable, s));
    }
    if layout.on_point {
        put("T", (count(Kind::SideTriangle) + 3) / 4);
        put("U", 2);
    }
    for (index, border) in layout.borders.iter().enumerate() {
        let (sides, ends) = plan.strips[index];
        put(&format!("C{index} wide"), border.width + s);
        if border.pieced {
            put(&format!("C{index}"), border_strips(layout, plan, index));
        } else {
            put(&format!("C{index} long"), up(sides));
            put(&format!("C{index}"), 2);
            put(&format!("D{index} wide"), border.width + s);
            put(&format!("D{index} long"), up(ends));
            put(&format!("D{index}"), 2);
        }
        if border.corners == Corners::Cornerstones {
            put(&format!("E{index}"), 4);
            put(&format!("E{index} side"), border.width + s);
        }
    }
    numbers
}

/// The manuscript of a layout with these numbers.
fn write(layout: &Layout, numbers: &Numbers) -> Text {
    let mut text = Text::default();
    let of = |key: &str| numbers[key];
    let s = 2 * layout.seam;
    let (seam, usable) = (inches(layout.seam), inches(layout.usable));
    text.plain(&format!(
        "pattern: Quarry Path\nmeasure: inch\nassumes: {{ seam: {seam}, usable_width: {usable} }}\nsizes:\n  bench: {{ finished: "
    ));
    let finished = format!("{} x {}", inches(of("finished width")), inches(of("finished length")));
    text.number("finished", &finished);
    text.plain(" }\nfabrics:\n  ink:\n    requires: { bench: 40 yd }\n    cut:\n");
    let (wide, high) = layout.block;
    sized(&mut text, numbers, "P", &format!("{} x {}", inches(wide + s), inches(high + s)), "");
    sized(&mut text, numbers, "Q", &format!("{} x {}", inches(wide / 2 + s), inches(high / 2 + s)), "");
    if layout.sashing > 0 {
        let (long, side) = (inches(of("S long")), inches(of("K side")));
        sized(&mut text, numbers, "S", &format!("{} x {long}", inches(of("S wide"))), "");
        if layout.cornerstones {
            sized(&mut text, numbers, "K", &format!("{side} x {side}"), "");
        } else {
            strips(&mut text, numbers, "L", &inches(layout.sashing + s));
        }
    }
    if layout.on_point {
        // Large enough for any block here: what the triangles are cut from is another test's.
        for piece in ["T", "U"] {
            sized(&mut text, numbers, piece, "38 x 38", "");
        }
    }
    for (index, border) in layout.borders.iter().enumerate() {
        let (c, d, e) = (format!("C{index}"), format!("D{index}"), format!("E{index}"));
        let width = |piece: &str| inches(of(&format!("{piece} wide")));
        if border.pieced {
            strips(&mut text, numbers, &c, &width(&c));
        } else {
            for piece in [&c, &d] {
                let long = inches(of(&format!("{piece} long")));
                sized(&mut text, numbers, piece, &format!("{} x {long}", width(piece)), ", grain: lengthwise");
            }
        }
        if border.corners == Corners::Cornerstones {
            let side = inches(of(&format!("{e} side")));
            sized(&mut text, numbers, &e, &format!("{side} x {side}"), "");
        }
    }
    design(&mut text, layout, numbers);
    text
}

fn sized(text: &mut Text, numbers: &Numbers, piece: &str, size: &str, grain: &str) {
    text.plain(&format!("      - {{ piece: {piece}, size: "));
    text.number(&format!("{piece} size"), size);
    text.plain(&format!("{grain}, pieces: {{ bench: "));
    text.number(piece, &numbers[piece].to_string());
    text.plain(" } }\n");
}

fn strips(text: &mut Text, numbers: &Numbers, piece: &str, width: &str) {
    text.plain(&format!("      - {{ piece: {piece}, strip_width: "));
    text.number(&format!("{piece} size"), width);
    text.plain(", strips: { bench: ");
    text.number(piece, &numbers[piece].to_string());
    text.plain(" } }\n");
}

fn design(text: &mut Text, layout: &Layout, numbers: &Numbers) {
    let (wide, high) = layout.block;
    let (block, quarter) =
        (format!("{} x {}", inches(wide), inches(high)), format!("{} x {}", inches(wide / 2), inches(high / 2)));
    text.plain(&format!(
        "units:\n  plain: {{ make: patch, finished: {block}, cut: {{ patch: P }} }}\n  \
         quarter: {{ make: patch, finished: {quarter}, cut: {{ patch: Q }} }}\n"
    ));
    if layout.on_point {
        let side = inches(wide);
        text.plain(&format!(
            "  side: {{ make: side_triangle, finished: {side}, cut: {{ square: T }} }}\n  \
             corner: {{ make: corner_triangle, finished: {side}, cut: {{ square: U }} }}\n"
        ));
    }
    text.plain(&format!(
        "blocks:\n  one: {{ finished: {block}, rows: [[plain]] }}\n  \
         four: {{ finished: {block}, rows: [[quarter, quarter], [quarter, quarter]] }}\nlayout:\n  bench:\n"
    ));
    if layout.on_point {
        text.plain("    set: on_point\n    side_triangles: side\n    corner_triangles: corner\n");
    }
    text.plain(&format!("    across: {}\n    down: {}\n    blocks: ", layout.across, layout.down));
    text.number("blocks", &format!("{{ one: {}, four: {} }}", numbers["plain"], numbers["four"]));
    text.plain("\n");
    if layout.sashing > 0 {
        text.plain(&format!("    sashing: {}\n    sash: S\n", inches(layout.sashing)));
        text.plain(if layout.round { "    sashing_round: yes\n" } else { "" });
        text.plain(if layout.cornerstones {
            "    cornerstones: yes\n    cornerstone: K\n"
        } else {
            "    long_sash: L\n"
        });
    }
    if !layout.borders.is_empty() {
        text.plain("    borders:\n");
    }
    for (index, border) in layout.borders.iter().enumerate() {
        let corners = match border.corners {
            Corners::Butted => "butted".to_string(),
            Corners::Mitred => format!("mitred, ease: {}", inches(border.ease)),
            Corners::Cornerstones => format!("cornerstones, cornerstone: E{index}"),
        };
        let width = inches(border.width);
        let join = if border.diagonal { ", join: diagonal" } else { "" };
        let how = if border.pieced { join.to_string() } else { format!(", piece_across: D{index}, pieced: no") };
        text.plain(&format!("      - {{ width: {width}, corners: {corners}, piece: C{index}{how} }}\n"));
    }
}

/// The findings about the layout, as rule and place.
fn told(text: &Text) -> Vec<(&'static str, Range<usize>)> {
    let outcome = checked(&text.text);
    let about = outcome.findings.iter().filter(|finding| RULES.contains(&finding.rule));
    about.map(|finding| (finding.rule, finding.at.at.start..finding.at.at.end)).collect()
}

/// The text of a right manuscript with a layout.
pub(crate) fn right_text(index: u64) -> String {
    let layout = random(&mut rng(31, index));
    write(&layout, &right(&layout, &plan(&layout))).text
}

#[test]
fn a_layout_that_is_drawn_right_is_never_blamed() {
    let (mut on_point, mut sashed, mut bordered) = (0, 0, 0);
    for index in 0..LAYOUTS {
        let layout = random(&mut rng(31, index));
        let plan = plan(&layout);
        let numbers = right(&layout, &plan);
        let text = write(&layout, &numbers);
        assert_eq!(told(&text), [], "layout {index}: {layout:?}\n{}", text.text);
        on_point += i64::from(layout.on_point);
        sashed += i64::from(layout.sashing > 0);
        bordered += i64::from(!layout.borders.is_empty());
    }
    assert!(on_point > 200 && sashed > 200 && bordered > 500, "{on_point}, {sashed}, {bordered}");
}

/// The rule that must tell a number that is too low, and the place.
fn blamed(key: &str) -> (&'static str, String) {
    match key.split_once(' ') {
        Some(("finished", _)) => ("finished-size-wrong", "finished".into()),
        Some((piece, _)) => {
            let rule = if piece.starts_with(['S', 'K']) { "sash-short" } else { "border-short" };
            (rule, format!("{piece} size"))
        }
        None if ["plain", "four"].contains(&key) => ("block-count-wrong", "blocks".into()),
        None => ("pieces-short", key.into()),
    }
}

#[test]
fn one_number_too_low_is_caught_at_its_place() {
    let (mut rules, mut keys, mut lowered) = (BTreeSet::new(), BTreeSet::new(), 0);
    for index in 0..LAYOUTS {
        let rng = &mut rng(32, index);
        let layout = random(rng);
        let plan = plan(&layout);
        let mut numbers = right(&layout, &plan);
        let low: Vec<String> = numbers.iter().filter(|(_, value)| **value > 0).map(|(key, _)| key.clone()).collect();
        let key = &low[usize::try_from(rng.below(i64::try_from(low.len()).unwrap())).unwrap()];
        let text = write(&layout, &numbers);
        let (rule, place) = blamed(key);
        // A piece that this layout does not list, such as long sashes beside cornerstones, cannot be lowered.
        if !text.places.contains_key(&place) {
            continue;
        }
        // Of what the layout has none of, no size is needed.
        if key.split_once(' ').is_some_and(|(piece, _)| numbers.get(piece) == Some(&0)) {
            continue;
        }
        let is_length = key.contains(' ');
        // Of a length, an eighth is the least that a ruler shows, and a size on point is printed to the next of them.
        let by = if is_length { rng.between(1, 8) * INCH / 8 } else { 1 };
        let value = numbers.get_mut(key).unwrap();
        if *value <= by {
            continue;
        }
        *value -= by;
        let text = write(&layout, &numbers);
        let expected = vec![(rule, text.places[&place].clone())];
        assert_eq!(told(&text), expected, "layout {index}, {key}: {layout:?}\n{}", text.text);
        rules.insert(rule);
        keys.insert(key.trim_end_matches(char::is_numeric).to_string());
        lowered += 1;
    }
    assert!(rules.len() == 5 && lowered > 900 && keys.len() > 20, "{lowered} of {keys:?}, told by {rules:?}");
}
