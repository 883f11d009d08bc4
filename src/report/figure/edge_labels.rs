//! The labels inside an edge, each where nothing else lies, and the table of the joins beneath it.

use super::edge_frame::Frame;
use super::label_placement::{Taken, foot};
use super::scale::toward;
use super::scene::{Anchor, At, LINE, Scene, UNIT, WIDTH};
use super::words::{by, wide};
use crate::drawing::binding_layout::{BindingLayout, On, PlacedJoin};
use crate::drawing::edge::EdgeDrawing;
use crate::drawing::outline::Spot;
use crate::quantity::Length;

/// How many joins the table beneath an edge lists.
const MAX_LISTED: usize = 60;

/// With more corners than this, they are numbered and not named.
const FEW_CORNERS: usize = 5;

/// Everything that is written inside the edge, what matters most first.
pub(super) fn labels(scene: &mut Scene, frame: &mut Frame<'_>, drawing: &EdgeDrawing) {
    measures(scene, frame, drawing);
    let Some(laid) = &drawing.laid else { return };
    for join in laid.joins.iter().filter(|join| matches!(join.on, On::Side | On::Corner)) {
        let spot = laid.spot(join.at.length);
        frame.room.take_line((frame.moved(spot, -41 * UNIT), frame.moved(spot, 24 * UNIT)));
    }
    let discs: Vec<Disc> = laid.joins.iter().filter_map(|join| disc(frame, laid, join)).collect();
    // All lines first, so that none lies over a number.
    for disc in &discs {
        let (x, y) = toward(disc.middle, disc.mark, DISC / 2);
        scene.path("fig-leader", &[disc.mark, At { x: disc.middle.x + x, y: disc.middle.y + y }], false);
        frame.room.take_line((disc.mark, disc.middle));
    }
    for disc in &discs {
        scene.pill("fig-disc", disc.middle, disc.across, DISC);
        scene.text("fig-text", foot(disc.middle), Anchor::Middle, &disc.number);
    }
    if let Some(open) = laid.opening.as_ref().filter(|open| open.length.is_positive()) {
        let middle = laid.spot_before(open.length.half());
        let label = Label { gap: 42 * UNIT, tries: 8, pointing: true, aside: true };
        label.write(scene, frame, middle, &format!("opening {}", open.shown));
    }
    missing(scene, frame, drawing, laid);
    corners(scene, frame, laid);
    for strip in &laid.strips {
        let (from, to) = (strip.begins.length.max(Length::ZERO), strip.ends.length.min(laid.sewn.length));
        if from < to {
            let spot = laid.spot(widest(laid, from, to));
            let label = Label { gap: 30 * UNIT, tries: 4, pointing: false, aside: false };
            label.write(scene, frame, spot, &format!("strip {}", strip.strip));
        }
    }
}

/// The middle of the longest straight part of a strip.
fn widest(laid: &BindingLayout, from: Length, to: Length) -> Length {
    let corners = laid.corners.iter().map(|corner| corner.at.length).filter(|at| *at > from && *at < to);
    let mut places = vec![from];
    places.extend(corners);
    places.push(to);
    let longest = places.windows(2).max_by_key(|pair| pair[1] - pair[0]);
    longest.map_or(from, |pair| pair[0] + (pair[1] - pair[0]).half())
}

/// The measures of the quilt, in its middle.
fn measures(scene: &mut Scene, frame: &mut Frame<'_>, drawing: &EdgeDrawing) {
    let box_of = frame.box_of;
    let middle = At { x: i64::midpoint(box_of.left, box_of.right), y: i64::midpoint(box_of.top, box_of.bottom) };
    let lines = [by(&drawing.width, &drawing.length), format!("perimeter {}", drawing.round.shown)];
    for (line, up) in lines.iter().zip([-LINE / 2, LINE / 2]) {
        let at = At { y: middle.y + up, ..middle };
        if frame.room.try_take(Taken::of_text(line, at)) {
            let class = if up < 0 { "fig-text fig-bold" } else { "fig-text" };
            scene.text(class, foot(at), Anchor::Middle, line);
        }
    }
}

fn missing(scene: &mut Scene, frame: &mut Frame<'_>, drawing: &EdgeDrawing, laid: &BindingLayout) {
    let (Some(ends), Some(short)) = (&laid.ends, &drawing.short) else { return };
    let from = ends.length.max(Length::ZERO).min(laid.sewn.length);
    let middle = from + (laid.sewn.length - from).half();
    let label = Label { gap: 34 * UNIT, tries: 8, pointing: true, aside: true };
    label.write(scene, frame, laid.spot(middle), &format!("{} missing", short.shown));
}

/// A text inside the edge.
struct Label {
    /// How far off the edge it may stand.
    gap: i64,
    /// How many places are tried, each farther in.
    tries: i64,
    /// Whether a line leads to it where it stands far in.
    pointing: bool,
    /// Whether places beside the straight way are tried too.
    aside: bool,
}

impl Label {
    /// Writes it at a spot, as near to it as there is room, or else outside.
    fn write(&self, scene: &mut Scene, frame: &mut Frame<'_>, spot: Spot, text: &str) {
        let at = frame.at(spot);
        let (wide, high) = (wide(text) + 8 * UNIT, 40 * UNIT);
        let (x, y) = frame.out(spot, FAR);
        // So far off that the nearest edge of the text is just clear of the band.
        let half = (x.abs() * (wide / 2) + y.abs() * (high / 2)) / FAR;
        let inward = (0..self.tries).map(|step| (step, -(self.gap + half + step * 30 * UNIT)));
        let asides: &[i64] = if self.aside { &[0, 1, -1] } else { &[0] };
        for (step, far) in inward.chain([(-1, 24 * UNIT + half)]) {
            let place = |far: i64, aside: i64| At {
                x: at.x + (x * far - y * aside) / FAR,
                y: at.y + (y * far + x * aside) / FAR,
            };
            // A line leads to it where it stands far in.
            let leader = |middle: At| {
                let from = place(-36 * UNIT, 0);
                let near = beside_text(from, middle, wide / 2 + 4 * UNIT);
                (self.pointing && (step > 1 || middle != place(far, 0))).then_some((from, near))
            };
            let free = asides.iter().map(|aside| place(far, aside * wide * 7 / 10)).find(|middle| {
                let taken = Taken::of_text(text, *middle);
                let is_clear = leader(*middle).is_none_or(|line| frame.room.is_clear(line));
                is_clear && if step < 0 { frame.room.try_take_outside(taken) } else { frame.room.try_take(taken) }
            });
            if let Some(middle) = free {
                if let Some(line) = leader(middle) {
                    scene.path("fig-leader", &[line.0, line.1], false);
                    frame.room.take_line(line);
                }
                scene.text("fig-text fig-halo", foot(middle), Anchor::Middle, text);
                return;
            }
        }
    }
}

/// Where a line from a place to the middle of a text comes to the text, which is so wide to each side.
fn beside_text(from: At, middle: At, half: i64) -> At {
    const HIGH: i64 = 24 * UNIT;
    let (dx, dy) = (from.x - middle.x, from.y - middle.y);
    let share = |way: i64, part: i64, whole: i64| {
        let share = i128::from(way) * i128::from(part) / i128::from(whole.max(1));
        i64::try_from(share).unwrap_or_default()
    };
    if i128::from(dx.abs()) * i128::from(HIGH) > i128::from(dy.abs()) * i128::from(half) {
        At { x: middle.x + half * dx.signum(), y: middle.y + share(dy, half, dx.abs()) }
    } else {
        At { x: middle.x + share(dx, HIGH, dy.abs()), y: middle.y + HIGH * dy.signum() }
    }
}

/// A direction is held this long, so that little of it is lost.
const FAR: i64 = 1000 * UNIT;

/// The number of a join in a disc, and the end of its mark.
struct Disc {
    number: String,
    mark: At,
    middle: At,
    across: i64,
}

/// How high a disc is.
const DISC: i64 = 46 * UNIT;

/// The disc of a join, where there is room; the table has its number in any case.
fn disc(frame: &mut Frame<'_>, laid: &BindingLayout, join: &PlacedJoin) -> Option<Disc> {
    if matches!(join.on, On::StartTail | On::EndTail) {
        return None;
    }
    let number = join.join.to_string();
    let spot = laid.spot(join.at.length);
    let across = wide(&number).max(26 * UNIT) + 22 * UNIT;
    let way = frame.out(spot, UNIT);
    let mark = frame.moved(spot, -40 * UNIT);
    let tries = (0..5).flat_map(|step| [0, 44, -44, 84, -84].map(|aside| (step, aside)));
    let places = tries.map(|(step, aside)| {
        let straight = frame.moved(spot, -(68 + step * 52) * UNIT);
        At { x: straight.x - way.1 * aside, y: straight.y + way.0 * aside }
    });
    let places: Vec<At> = places.collect();
    // Better a line over a text than a join without its number.
    let clear: Vec<At> = places.iter().copied().filter(|middle| frame.room.is_clear((mark, *middle))).collect();
    let mut take = |middle: At| frame.room.try_take(Taken::about(middle, across + 6 * UNIT, DISC + 6 * UNIT));
    let middle = clear.into_iter().chain(places).find(|middle| take(*middle))?;
    Some(Disc { number, mark, middle, across })
}

fn corners(scene: &mut Scene, frame: &mut Frame<'_>, laid: &BindingLayout) {
    let few = laid.corners.len() <= FEW_CORNERS;
    for corner in &laid.corners {
        let spot = laid.spot(corner.at.length);
        let spot = Spot { along: frame.outline.sides.get(spot.side).map_or(spot.along, |side| side.length), ..spot };
        let text = if few { format!("corner {}", corner.corner) } else { corner.corner.to_string() };
        let at = frame.at(spot);
        scene.pill("fig-arrow", at, 12 * UNIT, 12 * UNIT).data("corner", corner.corner).data("at", &corner.at.shown);
        Label { gap: 24 * UNIT, tries: 11, pointing: false, aside: true }.write(scene, frame, spot, &text);
    }
}

/// The joins in a table of two columns beneath the edge. Where the figure ends.
pub(super) fn key(scene: &mut Scene, drawing: &EdgeDrawing, top: i64) -> i64 {
    let Some(laid) = drawing.laid.as_ref().filter(|laid| !laid.joins.is_empty()) else { return top };
    let listed = &laid.joins[..laid.joins.len().min(MAX_LISTED)];
    let says_where = !laid.corners.is_empty();
    let columns = if listed.len() < 4 { 1 } else { 2 };
    let wide = WIDTH / i64::try_from(columns).unwrap_or(1);
    let left = 20 * UNIT;
    let places = [left, left + 92 * UNIT, left + 300 * UNIT];
    let heads = [("join", true), ("from start", true), ("past corner", says_where)];
    let mut y = top + LINE;
    for (column, joins) in (0..).zip(listed.chunks(listed.len().div_ceil(columns))) {
        let x = column * wide;
        let mut line = top + LINE;
        for (place, (word, _)) in places.iter().zip(heads).filter(|(_, (_, shown))| *shown) {
            scene.text("fig-text fig-bold", At { x: x + place, y: line }, Anchor::Start, word);
        }
        let rule = line + 14 * UNIT;
        scene.path("fig-rule", &[At { x: x + left, y: rule }, At { x: x + wide - 40 * UNIT, y: rule }], false);
        line += 8 * UNIT;
        for join in joins {
            line += LINE;
            row(scene, join, places.map(|place| At { x: x + place, y: line }));
        }
        y = y.max(line);
    }
    let more = laid.more + (laid.joins.len() - listed.len()) as u64;
    if more > 0 {
        y += LINE;
        scene.text("fig-text", At { x: left, y }, Anchor::Start, &format!("and {more} more joins"));
    }
    y + 20 * UNIT
}

fn row(scene: &mut Scene, join: &PlacedJoin, [number, from, place]: [At; 3]) {
    let shape = scene.text("fig-text", number, Anchor::Start, &join.join.to_string());
    shape.data("join", join.join).data("at", &join.at.shown);
    if let Some(side) = join.side {
        shape.data("side", side);
    }
    if let Some(corner) = join.corner {
        shape.data("corner-of-join", corner);
    }
    if let Some(past) = &join.past_corner {
        shape.data("past-corner", &past.shown);
    }
    scene.text("fig-text", from, Anchor::Start, &join.at.shown);
    let place_words = match (join.on, join.corner, &join.past_corner) {
        (On::Side, Some(corner), Some(past)) => format!("{corner}: {}", past.shown),
        _ => join_where(join),
    };
    if !place_words.is_empty() {
        scene.text("fig-text", place, Anchor::Start, &place_words);
    }
}

/// How far a join is from the start: `28 3/4 in from the start`, or `4 in before the start`.
pub(super) fn join_from(join: &PlacedJoin) -> String {
    match join.at.shown.strip_prefix('-') {
        Some(before) => format!("{before} before the start"),
        None => format!("{} from the start", join.at.shown),
    }
}

/// Where a join lies: `10 3/4 in past corner 1`, `in corner 2`, `in the start tail`.
pub(super) fn join_where(join: &PlacedJoin) -> String {
    match (join.on, join.corner, &join.past_corner) {
        (On::StartTail, ..) => "in the start tail".to_string(),
        (On::EndTail, ..) => "in the end tail".to_string(),
        (On::Corner, Some(corner), _) => format!("in corner {corner}"),
        (_, Some(corner), Some(past)) => format!("{} past corner {corner}", past.shown),
        _ => String::new(),
    }
}
