//! The figure of an edge: the binding as a band along it, strip by strip, with its joins, its start, its opening and its
//! tails. The band is wider than the binding, so that it can be seen; all along the edge is to scale.

use super::Figure;
use super::callouts::{Callout, column, rows};
use super::edge_frame::{Beside, END_TAIL, Frame, START_TAIL};
use super::edge_labels::{key, labels};
use super::edge_words::{alternative, caption, title};
use super::label_placement::Taken;
use super::scale::toward;
use super::scene::{At, Scene, Shape, UNIT, WIDTH};
use crate::drawing::binding_layout::{BindingLayout, On, PlacedStrip};
use crate::drawing::edge::EdgeDrawing;
use crate::drawing::outline::Spot;
use crate::quantity::Length;

/// The figure of an edge.
pub(super) fn figure(id: String, size: &str, drawing: &EdgeDrawing) -> Figure {
    let mut scene = Scene::new(id);
    let words = drawing.laid.as_ref().map(callout_words).unwrap_or_default();
    let mut frame = Frame::new(drawing, &words);
    facts(&mut scene, drawing, &frame);
    outline(&mut scene, &frame);
    let mut bottom = frame.bottom(words.len());
    if let Some(laid) = &drawing.laid {
        band(&mut scene, &frame, laid);
        opening(&mut scene, &frame, laid);
        let mut callouts = tails(&mut scene, &frame, laid, &words);
        bottom = bottom.max(beside(&mut scene, &mut frame, &mut callouts));
    } else {
        let round: Vec<At> = frame.outline.points().map(|point| frame.placed.at(point)).collect();
        scene.path("fig-bare", &round, true);
    }
    labels(&mut scene, &mut frame, drawing);
    let height = key(&mut scene, drawing, bottom);
    let (caption, alternative) = (caption(size, drawing), alternative(size, drawing));
    let svg = scene.svg(height, &title(size), &alternative);
    Figure {
        id: scene.id,
        size: Some(size.to_string()),
        section: "binding".to_string(),
        narrow: false,
        caption,
        alternative,
        svg,
    }
}

/// What holds of the whole binding.
fn facts(scene: &mut Scene, drawing: &EdgeDrawing, frame: &Frame<'_>) {
    scene.data("drawing", "edge");
    scene.data("unit", frame.placed.scale.label());
    scene.data("width", &drawing.width.shown);
    scene.data("length", &drawing.length.shown);
    scene.data("round", &drawing.round.shown);
    scene.data("needed", &drawing.needed.shown);
    for (name, told) in [("had", &drawing.had), ("over", &drawing.over), ("short", &drawing.short)] {
        if let Some(told) = told {
            scene.data(name, &told.shown);
        }
    }
    if let Some(strips) = &drawing.strips {
        scene.data("strips", strips.count);
        scene.data("left-over", strips.left_over);
    }
}

fn outline(scene: &mut Scene, frame: &Frame<'_>) {
    let round: Vec<At> = frame.outline.points().map(|point| frame.placed.at(point)).collect();
    scene.path("fig-quilt", &round, true);
}

/// The line along the edge between two places on the binding; all the way round where it is that long.
fn stretch(frame: &Frame<'_>, laid: &BindingLayout, from: Length, to: Length) -> Vec<At> {
    // In two halves: from a place to itself could be nothing or all the way round.
    let middle = from + (to - from).half();
    let mut line = frame.outline.between(laid.spot(from), laid.spot(middle));
    line.extend(frame.outline.between(laid.spot(middle), laid.spot(to)).into_iter().skip(1));
    line.dedup();
    line.into_iter().map(|point| frame.placed.at(point)).collect()
}

fn on_edge(laid: &BindingLayout, strip: &PlacedStrip) -> Option<(Length, Length)> {
    let (from, to) = (strip.begins.length.max(Length::ZERO), strip.ends.length.min(laid.sewn.length));
    (from < to).then_some((from, to))
}

/// The strips along the edge, and where they are missing.
fn band(scene: &mut Scene, frame: &Frame<'_>, laid: &BindingLayout) {
    let sewn = laid.sewn.length;
    let shown = laid.strips.last().map_or(Length::ZERO, |strip| strip.ends.length.min(sewn));
    if shown.is_positive() {
        scene.path("fig-case", &stretch(frame, laid, Length::ZERO, shown), false);
    }
    for strip in &laid.strips {
        let Some((from, to)) = on_edge(laid, strip) else { continue };
        let line = stretch(frame, laid, from, to);
        let id = scene.id.clone();
        let shape = if strip.strip % 2 == 0 {
            scene.path("fig-even", &line, false).patterned("stroke", &id, "hatch")
        } else {
            scene.path("fig-odd", &line, false)
        };
        shape.data("strip", strip.strip).data("begins", &strip.begins.shown).data("ends", &strip.ends.shown);
    }
    let ends = laid.ends.as_ref().map(|ends| ends.length.max(Length::ZERO)).filter(|ends| *ends < sewn);
    if let Some(ends) = ends.filter(|_| laid.more == 0) {
        scene.path("fig-missing", &stretch(frame, laid, ends, sewn), false);
    }
    for join in &laid.joins {
        let (inner, outer) = match join.on {
            On::Side | On::Corner => {
                let spot = laid.spot(join.at.length);
                (frame.moved(spot, -46 * UNIT), frame.moved(spot, 20 * UNIT))
            }
            // Its mark is on the loose tail.
            On::StartTail | On::EndTail => continue,
        };
        scene.path("fig-join", &[inner, outer], false);
    }
}

/// A bracket inside the edge that is left open.
fn opening(scene: &mut Scene, frame: &Frame<'_>, laid: &BindingLayout) {
    let Some(open) = laid.opening.as_ref().filter(|open| open.length.is_positive()) else { return };
    let (from, to) = (laid.spot_before(open.length), laid.spot(Length::ZERO));
    let mut line = vec![frame.moved(from, -18 * UNIT)];
    line.extend(frame.moved_line(from, to, -34 * UNIT));
    line.push(frame.moved(to, -18 * UNIT));
    scene.path("fig-tick", &line, false).data("opening", &open.shown);
}

/// The words beside the start, in the order in which they are drawn.
fn callout_words(laid: &BindingLayout) -> Vec<String> {
    let taken = if laid.assumed { " (assumed)" } else { "" };
    vec![
        format!("end tail {}{taken}", laid.end_tail.shown),
        format!("start tail {}{taken}", laid.start_tail.shown),
        "start".to_string(),
    ]
}

/// The two tails, loose outside the edge, and the arrow at the start. The places that the words are about.
fn tails(scene: &mut Scene, frame: &Frame<'_>, laid: &BindingLayout, words: &[String]) -> Vec<Callout> {
    let open = laid.opening.as_ref().map_or(Length::ZERO, |open| open.length);
    let start = laid.spot(Length::ZERO);
    let last = laid.spot_before(open);
    let start_from = before(frame, start, laid.start_tail.length);
    let end_to = after(frame, last, laid.end_tail.length);
    for (spot, far) in [(start, END_TAIL + 14 * UNIT), (last, END_TAIL + 14 * UNIT)] {
        scene.path("fig-tick", &[frame.moved(spot, 14 * UNIT), frame.moved(spot, far)], false);
    }
    let (line, cut) = (frame.moved_line(start_from.0, start, START_TAIL), start_from.1);
    tail(scene, &line, cut).data("tail", "start").data("length", &laid.start_tail.shown);
    let start_tail_at = near_the_end(&line, true);
    let (line, cut) = (frame.moved_line(last, end_to.0, END_TAIL), end_to.1);
    tail(scene, &line, cut).data("tail", "end").data("length", &laid.end_tail.shown);
    let end_tail_at = near_the_end(&line, false);
    let arrow = arrow(scene, frame, start, laid);
    let places = [end_tail_at, start_tail_at, arrow];
    places.into_iter().zip(words).map(|(at, text)| Callout { at, text: text.clone() }).collect()
}

/// A tail, no farther than the page: of a quilt as narrow as a line it could run on.
fn tail<'s>(scene: &'s mut Scene, line: &[At], cut: bool) -> &'s mut Shape {
    let line: Vec<At> =
        line.iter().map(|at| At { x: at.x.clamp(8 * UNIT, WIDTH - 8 * UNIT), y: at.y.max(8 * UNIT) }).collect();
    let line = line.as_slice();
    scene.path(if cut { "fig-tail-more" } else { "fig-tail" }, line, false)
}

/// The spot so far before another on its side, and whether the side ends before that.
fn before(frame: &Frame<'_>, spot: Spot, far: Length) -> (Spot, bool) {
    let whole = whole(frame, spot);
    if !frame.outline.cornered {
        let way = far.min(whole.half());
        let along = Length::from_ticks((spot.along - way).ticks().rem_euclid(whole.ticks().max(1)));
        return (Spot { along, ..spot }, way < far);
    }
    (Spot { along: (spot.along - far).max(Length::ZERO), ..spot }, far > spot.along)
}

fn after(frame: &Frame<'_>, spot: Spot, far: Length) -> (Spot, bool) {
    let whole = whole(frame, spot);
    if !frame.outline.cornered {
        let way = far.min(whole.half());
        let along = Length::from_ticks((spot.along + way).ticks().rem_euclid(whole.ticks().max(1)));
        return (Spot { along, ..spot }, way < far);
    }
    (Spot { along: (spot.along + far).min(whole), ..spot }, spot.along + far > whole)
}

fn whole(frame: &Frame<'_>, spot: Spot) -> Length {
    frame.outline.sides.get(spot.side).map_or(Length::ZERO, |side| side.length)
}

/// A place on a line an eighth of the way from one of its ends.
fn near_the_end(line: &[At], last: bool) -> At {
    let pair = match line {
        [] => return At::default(),
        [one] => return *one,
        [first, second, ..] if !last => (*first, *second),
        [.., second, first] => (*first, *second),
    };
    let ((from, to), share) = (pair, if line.len() > 2 { 2 } else { 8 });
    At { x: from.x + (to.x - from.x) / share, y: from.y + (to.y - from.y) / share }
}

/// The arrow at the first stitch, the way that the binding is sewn on.
fn arrow(scene: &mut Scene, frame: &Frame<'_>, start: Spot, laid: &BindingLayout) -> At {
    let from = frame.moved(start, START_TAIL);
    let way = frame.outline.way(start);
    let ahead = frame.placed.at(frame.outline.at(start));
    let scale = frame.placed.scale;
    let beyond = At { x: ahead.x + scale.of(way.across), y: ahead.y + scale.of(way.down) };
    let (x, y) = toward(ahead, beyond, 74 * UNIT);
    let tip = At { x: from.x + x, y: from.y + y };
    let back = At { x: tip.x - x / 5, y: tip.y - y / 5 };
    let begin = At { x: from.x + x / 5, y: from.y + y / 5 };
    let shape = scene.path("fig-tick", &[begin, back], false);
    shape.data("start", laid.start.as_ref().map_or("", |start| start.shown.as_str()));
    scene.arrowhead(begin, tip);
    tip
}

/// Writes the words beside the edge, where the start is. How far down they reach.
fn beside(scene: &mut Scene, frame: &mut Frame<'_>, callouts: &mut [Callout]) -> i64 {
    let box_of = frame.box_of;
    let far = END_TAIL + 60 * UNIT;
    let first = callouts.iter().map(|callout| callout.at.y).min().unwrap_or_default() - 60 * UNIT;
    let page = Taken { left: 0, top: 0, right: WIDTH, bottom: box_of.bottom + far };
    let (taken, bottom) = match frame.beside {
        Beside::Right => {
            let bottom = column(scene, callouts, (box_of.right + far, WIDTH), 0, false).bottom;
            (Taken { left: box_of.right, top: first, bottom, ..page }, bottom)
        }
        Beside::Left => {
            let bottom = column(scene, callouts, (0, box_of.left - far), 0, true).bottom;
            (Taken { right: box_of.left, top: first, bottom, ..page }, bottom)
        }
        Beside::Above => {
            rows(scene, callouts, box_of.top - END_TAIL - 10 * UNIT, WIDTH, true);
            (Taken { bottom: box_of.top, ..page }, 0)
        }
        Beside::Below => {
            rows(scene, callouts, box_of.bottom + END_TAIL + 10 * UNIT, WIDTH, false);
            (Taken { top: box_of.bottom, ..page }, 0)
        }
    };
    frame.room.take(taken);
    bottom
}
