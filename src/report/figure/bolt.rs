//! The figure of fabric from the bolt: its strips one below the other, the pieces in them, and what is left.

use super::Figure;
use super::bolt_words::{alternative, caption, row_words};
use super::callouts::{Callout, column};
use super::scale::Scale;
use super::scene::{Anchor, At, LETTER, LINE, Scene, UNIT, WIDTH};
use super::words::{clean, name, of, wide};
use crate::drawing::strips::{BoltDrawing, Row};
use crate::quantity::{Count, Length};

/// Where the fabric begins, left of it the numbers of the strips.
const LEFT: i64 = 112 * UNIT;
/// How wide and how high it is drawn at most.
const WIDE: i64 = 470 * UNIT;
const HIGH: i64 = 470 * UNIT;
/// How far below its measure it begins.
const TOP: i64 = 74 * UNIT;
/// How many rows are told beside it.
const MAX_TOLD: usize = 24;
/// A strip that is drawn lower than this is drawn as one with those like it.
const LOWEST: i64 = 5 * UNIT;
/// How many strips and cuts are drawn one by one.
const MAX_DRAWN: u64 = 300;

/// The fabric as it is drawn: how much of it, and at which scale.
struct Cloth {
    scale: Scale,
    width: i64,
    /// How much of the bolt is drawn.
    drawn: Length,
    /// Whether more is stated than is drawn.
    cut_short: bool,
    /// Whether there are more strips than are drawn one by one.
    many: bool,
}

/// The figure of fabric from the bolt.
pub(super) fn figure(id: String, size: &str, fabric: &str, bolt: &BoltDrawing) -> Figure {
    let mut scene = Scene::new(id);
    let cloth = cloth(bolt);
    facts(&mut scene, fabric, bolt, &cloth);
    width_line(&mut scene, bolt, &cloth);
    let foot = TOP + cloth.scale.of(cloth.drawn);
    leftover(&mut scene, bolt, &cloth);
    let mut callouts = Vec::new();
    let mut numbered = 0;
    for row in &bolt.rows {
        strips(&mut scene, row, &cloth, &mut numbered);
        if callouts.len() < MAX_TOLD {
            callouts.push(row_callout(row, &cloth));
        }
    }
    let untold = bolt.rows.len() - callouts.len();
    if untold > 0 {
        let at = At { x: LEFT + cloth.width, y: callouts.last().map_or(TOP, |last| last.at.y) + UNIT };
        callouts.push(Callout { at, text: format!("and {} more", of(untold as u64, "kind of strip")) });
    }
    callouts.extend(end_words(bolt, &cloth));
    outline(&mut scene, &cloth);
    let right = LEFT + cloth.width + 60 * UNIT;
    let ends = column(&mut scene, &mut callouts, (right, WIDTH), TOP - LINE / 2, false).bottom;
    let (caption, alternative) = (caption(size, fabric, bolt), alternative(size, fabric, bolt));
    let title = format!("What is cut from {} for {}", clean(fabric), clean(size));
    let svg = scene.svg(ends.max(foot + 24 * UNIT), &title, &alternative);
    Figure {
        id: scene.id,
        size: Some(size.to_string()),
        section: fabric.to_string(),
        narrow: false,
        caption,
        alternative,
        svg,
    }
}

/// The used fabric, and of what is left as much as the used at most.
fn cloth(bolt: &BoltDrawing) -> Cloth {
    let used = bolt.extent.used.length;
    let stated = bolt.stated.as_ref().map_or(used, |stated| stated.length);
    let most = used + used.max(bolt.usable_width.length.half());
    let drawn = used.max(stated).min(most);
    let scale = Scale::fit((bolt.usable_width.length, drawn), (WIDE, HIGH));
    Cloth {
        scale,
        width: scale.of(bolt.usable_width.length),
        drawn,
        cut_short: stated > drawn,
        many: bolt.strips > MAX_DRAWN,
    }
}

fn facts(scene: &mut Scene, fabric: &str, bolt: &BoltDrawing, cloth: &Cloth) {
    scene.data("drawing", "bolt");
    scene.data("unit", cloth.scale.label());
    scene.data("fabric", fabric);
    scene.data("usable-width", &bolt.usable_width.shown);
    scene.data("used", &bolt.extent.used.shown);
    let told = [("stated", &bolt.stated), ("left", &bolt.extent.left), ("short", &bolt.extent.short)];
    for (name, told) in told.into_iter().filter_map(|(name, told)| Some((name, told.as_ref()?))) {
        scene.data(name, &told.shown);
    }
    scene.data("strips", bolt.strips);
}

/// The width between the selvedges, above the fabric.
fn width_line(scene: &mut Scene, bolt: &BoltDrawing, cloth: &Cloth) {
    let text = format!("{} usable width", bolt.usable_width.shown);
    let y = TOP - 16 * UNIT;
    let ends = (At { x: LEFT, y }, At { x: LEFT + cloth.width, y });
    scene.lines(
        "fig-tick",
        &[
            ends,
            (At { y: y - 9 * UNIT, ..ends.0 }, At { y: y + 9 * UNIT, ..ends.0 }),
            (At { y: y - 9 * UNIT, ..ends.1 }, At { y: y + 9 * UNIT, ..ends.1 }),
        ],
    );
    scene.text("fig-text", At { x: LEFT, y: y - 16 * UNIT }, Anchor::Start, &text);
}

/// What is left of the stated fabric, below the strips.
fn leftover(scene: &mut Scene, bolt: &BoltDrawing, cloth: &Cloth) {
    let used = cloth.scale.of(bolt.extent.used.length);
    let high = cloth.scale.of(cloth.drawn) - used;
    if let Some(left) = bolt.extent.left.as_ref().filter(|left| left.length.is_positive()) {
        let id = scene.id.clone();
        let shape = scene.rectangle("fig-left", At { x: LEFT, y: TOP + used }, cloth.width, high);
        shape.patterned("fill", &id, "dots").data("left", &left.shown);
    }
}

fn outline(scene: &mut Scene, cloth: &Cloth) {
    let (right, foot) = (LEFT + cloth.width, TOP + cloth.scale.of(cloth.drawn));
    let corners = [At { x: LEFT, y: TOP }, At { x: right, y: TOP }, At { x: right, y: foot }, At { x: LEFT, y: foot }];
    if !cloth.cut_short {
        scene.path("fig-sheet", &corners, true);
        return;
    }
    scene.path("fig-sheet", &[corners[3], corners[0], corners[1], corners[2]], false);
    // A torn edge: the fabric goes on.
    let torn = (0..=16)
        .map(|step| At { x: LEFT + cloth.width * step / 16, y: foot + if step % 2 == 0 { 0 } else { 14 * UNIT } });
    scene.path("fig-tick", &torn.collect::<Vec<At>>(), false);
}

/// The strips of one row with their cuts; strips too low to be seen, or too many, as one.
fn strips(scene: &mut Scene, row: &Row, cloth: &Cloth, numbered: &mut i64) {
    let each = cloth.scale.of(row.width.length);
    let whole = each < LOWEST || cloth.many;
    let count = if whole { 1 } else { row.strips };
    let at = |index: u64| At { x: LEFT, y: TOP + cloth.scale.of(row.from.length + row.width.length * Count(index)) };
    let (top, foot) = (at(0), at(row.strips));
    for index in 0..count {
        let number = row.first + index;
        let high = if whole { foot.y - top.y } else { at(index + 1).y - at(index).y };
        let class = if number.is_multiple_of(2) { "fig-strip-even" } else { "fig-strip-odd" };
        let shape = scene.rectangle(class, at(index), cloth.width, high);
        shape.data("strip", number).data("strips", if whole { row.strips } else { 1 }).data("width", &row.width.shown);
        shape.data("rest", &row.rest.shown).data("from", &row.from.shown);
        let last = number + if whole { row.strips - 1 } else { 0 };
        number_of(scene, (number, last), at(index).y + high / 2, numbered);
    }
    let between: Vec<i64> = if whole { vec![top.y, foot.y] } else { (0..=count).map(|index| at(index).y).collect() };
    left_over(scene, row, cloth, &between);
    cuts(scene, row, cloth, &between);
}

/// The number of a strip left of it, or of several that are drawn as one, where the last one leaves room.
fn number_of(scene: &mut Scene, (first, last): (u64, u64), middle: i64, numbered: &mut i64) {
    let words = if first == last { first.to_string() } else { format!("{first}-{last}") };
    if middle - LETTER / 2 >= *numbered && wide(&words) <= LEFT - 24 * UNIT {
        let foot = At { x: LEFT - 18 * UNIT, y: middle + LETTER * 7 / 20 };
        scene.text("fig-text", foot, Anchor::End, &words);
        *numbered = middle + LETTER / 2 + 4 * UNIT;
    }
}

/// What is left over of the strips of a row: one rectangle where it goes through all of them.
fn left_over(scene: &mut Scene, row: &Row, cloth: &Cloth, between: &[i64]) {
    let (Some(top), Some(foot)) = (between.first(), between.last()) else { return };
    if row.pieces.is_empty() {
        return;
    }
    let id = scene.id.clone();
    let mut drawn = 0;
    for left in &row.left_over {
        let x = LEFT + cloth.scale.of(left.from.length);
        let (wide, high) = (cloth.scale.of(left.across.length), cloth.scale.of(left.along.length));
        let through = left.along.length >= row.width.length;
        let is_one_strip = row.strips == 1 || between.len() > 2;
        let rooms: Vec<(i64, i64)> = match between {
            _ if through => vec![(*top, foot - top)],
            _ if is_one_strip => {
                between.windows(2).map(|pair| (pair[0] + cloth.scale.of(left.above.length), high)).collect()
            }
            _ => Vec::new(),
        };
        for (y, high) in rooms.into_iter().filter(|(_, high)| wide > 0 && *high > 0) {
            drawn += 1;
            if drawn <= MAX_LINES {
                let shape = scene.rectangle("fig-left", At { x, y }, wide, high);
                shape.patterned("fill", &id, "dots");
            }
        }
    }
}

/// The cuts between pieces and between the strips of a row, unless there are more than can be told apart.
fn cuts(scene: &mut Scene, row: &Row, cloth: &Cloth, between: &[i64]) {
    let right = LEFT + cloth.width;
    let mut lines: Vec<(At, At)> =
        between.iter().map(|y| (At { x: LEFT, y: *y }, At { x: right, y: *y })).take(MAX_LINES).collect();
    // Cuts across a strip go through it, unless pieces lie above others in it.
    let is_plain = row.pieces.iter().all(|pieces| !pieces.above.length.is_positive());
    for pieces in &row.pieces {
        let columns = pieces.count.div_ceil(pieces.stacked.max(1));
        if cloth.scale.of(pieces.across.length) < 4 * UNIT || columns > MAX_DRAWN {
            continue;
        }
        let x = |column: u64| LEFT + cloth.scale.of(pieces.from.length + pieces.across.length * Count(column));
        let along = cloth.scale.of(pieces.along.length);
        let above = cloth.scale.of(pieces.above.length);
        let rows = i64::try_from(pieces.stacked.min(pieces.count)).unwrap_or(1);
        let spans: Vec<(i64, i64)> = match between {
            [top, .., foot] if is_plain => vec![(*top, *foot)],
            _ => between.windows(2).map(|pair| (pair[0] + above, pair[0] + above + along * rows)).collect(),
        };
        let first = u64::from(is_plain);
        for (top, foot) in spans {
            let across = (first..=columns).map(x).filter(|x| *x < right && *x > LEFT);
            lines.extend(across.map(|x| (At { x, y: top }, At { x, y: foot })));
        }
        if along < 4 * UNIT {
            continue;
        }
        for pair in between.windows(2) {
            let first = i64::from(is_plain);
            let levels = (first..=rows).map(|level| pair[0] + above + along * level);
            let levels = levels.take_while(|y| *y < pair[1]);
            lines.extend(levels.map(|y| (At { x: x(0), y }, At { x: x(columns).min(right), y })));
        }
    }
    lines.truncate(MAX_LINES);
    scene.lines("fig-cut", &lines);
}

/// How many cuts of one row are drawn.
const MAX_LINES: usize = 1_000;

/// What one row is.
fn row_callout(row: &Row, cloth: &Cloth) -> Callout {
    let middle = row.from.length + (row.width.length * Count(row.strips)).half();
    Callout { at: At { x: LEFT + cloth.width, y: TOP + cloth.scale.of(middle) }, text: row_words(row, name) }
}

/// What is left or missing at the end.
fn end_words(bolt: &BoltDrawing, cloth: &Cloth) -> Option<Callout> {
    let x = LEFT + cloth.width;
    if let Some(left) = bolt.extent.left.as_ref().filter(|left| left.length.is_positive()) {
        let middle = bolt.extent.used.length + (cloth.drawn - bolt.extent.used.length).half();
        let at = At { x, y: TOP + cloth.scale.of(middle) };
        let more = if cloth.cut_short { ", drawn cut short" } else { "" };
        return Some(Callout { at, text: format!("{} left{more}", left.shown) });
    }
    let (short, stated) = (bolt.extent.short.as_ref()?, bolt.stated.as_ref()?);
    let at = At { x, y: TOP + cloth.scale.of(stated.length) };
    Some(Callout { at, text: format!("here the stated {} end: {} short", stated.shown, short.shown) })
}
