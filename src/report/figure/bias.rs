//! The figures of fabric that is cut on the bias: a square for one strip, or strips one by one.

use super::Figure;
use super::callouts::{Callout, column};
use super::scale::Scale;
use super::scene::{At, LINE, Scene, UNIT, WIDTH};
use super::words::{clean, of};
use crate::drawing::bias::{BiasDrawing, SquareDrawing};
use crate::quantity::Length;

const LEFT: i64 = 20 * UNIT;
const TOP: i64 = 30 * UNIT;
const WIDE: i64 = 660 * UNIT;
const HIGH: i64 = 620 * UNIT;
/// Lines nearer to one another than this are not drawn one by one.
const NEAREST: i64 = 5 * UNIT;

/// The figure of a square for continuous bias.
pub(super) fn square_figure(id: String, name: &str, fabric: &str, square: &SquareDrawing) -> Figure {
    let mut scene = Scene::new(id);
    square_facts(&mut scene, fabric, square);
    let side = square.side.length;
    let along = square.stated.as_ref().map_or(side, |stated| stated.length).max(side).min(side * 3);
    let across = square.usable_width.length.max(side);
    let scale = Scale::fit((across, along), (WIDE, HIGH));
    scene.data("unit", scale.label());
    let corner = At { x: LEFT, y: TOP };
    let id = scene.id.clone();
    if square.stated.is_some() {
        let (wide, high) = (scale.of(square.usable_width.length), scale.of(along));
        scene.rectangle("fig-left", corner, wide, high).patterned("fill", &id, "dots");
    }
    let high = scale.of(side);
    scene.rectangle("fig-strip-odd", corner, high, high).data("side", &square.side.shown);
    slants(&mut scene, (corner, high), scale.of(square.strip_width.length) * 1414 / 1000);
    let wide = scale.of(across);
    let mut callouts = square_words(square, (LEFT + high, TOP + high));
    let ends = column(&mut scene, &mut callouts, (LEFT + wide + 70 * UNIT, WIDTH), TOP, false).bottom;
    let words = square_sentence(square);
    let caption = format!(
        "{}: the square for continuous bias binding. {words} The lines on it show how wide the strip is.",
        clean(name)
    );
    let alternative = format!("The square that the binding of {} is cut from on the bias. {words}", clean(name));
    let title = format!("The square for the binding of {}", clean(name));
    let svg = scene.svg(ends.max(TOP + scale.of(along) + 20 * UNIT), &title, &alternative);
    Figure {
        id: scene.id,
        size: Some(name.to_string()),
        section: fabric.to_string(),
        narrow: false,
        caption,
        alternative,
        svg,
    }
}

fn square_facts(scene: &mut Scene, fabric: &str, square: &SquareDrawing) {
    scene.data("drawing", "square");
    scene.data("fabric", fabric);
    for (name, told) in [
        ("usable-width", Some(&square.usable_width)),
        ("side", Some(&square.side)),
        ("gives", Some(&square.gives)),
        ("needed", Some(&square.needed)),
        ("stated", square.stated.as_ref()),
        ("left", square.left.as_ref()),
        ("short", square.short.as_ref()),
    ] {
        if let Some(told) = told {
            scene.data(name, &told.shown);
        }
    }
}

fn square_sentence(square: &SquareDrawing) -> String {
    let stated = if square.side_stated { "stated" } else { "needed" };
    let stands = match (&square.left, &square.short) {
        (_, Some(short)) => format!("{} short; a square of {} is needed", short.shown, square.side_needed.shown),
        (Some(left), _) => format!("{} left", left.shown),
        (None, None) => "enough".to_string(),
    };
    let fabric = square.stated.as_ref().map(|stated| format!(" It is cut from {}.", stated.shown)).unwrap_or_default();
    format!(
        "A square of {} ({stated}) gives {} of strip {} wide; {} is needed: {stands}.{fabric}",
        square.side.shown, square.gives.shown, square.strip_width.shown, square.needed.shown
    )
}

fn square_words(square: &SquareDrawing, (right, foot): (i64, i64)) -> Vec<Callout> {
    let at = |share: i64| At { x: right, y: TOP + (foot - TOP) * share / 8 };
    let mut words = vec![
        Callout { at: at(1), text: format!("square of {}", square.side.shown) },
        Callout {
            at: at(2),
            text: format!("gives {} of strip, {} wide", square.gives.shown, square.strip_width.shown),
        },
        Callout { at: at(3), text: format!("{} needed", square.needed.shown) },
    ];
    let stands = match (&square.left, &square.short) {
        (_, Some(short)) => format!("{} of strip short", short.shown),
        (Some(left), _) => format!("{} of strip left", left.shown),
        (None, None) => return words,
    };
    words.push(Callout { at: at(4), text: stands });
    words
}

/// Slanted lines across a square, at the pitch of the strips along its edge.
fn slants(scene: &mut Scene, (corner, side): (At, i64), pitch: i64) {
    if pitch < NEAREST {
        return;
    }
    let mut lines = Vec::new();
    let mut step = pitch;
    while step < side * 2 {
        let (one, other) =
            if step <= side { ((step, 0), (0, step)) } else { ((side, step - side), (step - side, side)) };
        let at = |(x, y): (i64, i64)| At { x: corner.x + x, y: corner.y + y };
        lines.push((at(one), at(other)));
        step += pitch;
    }
    scene.lines("fig-cut", &lines);
}

/// The figure of strips on the bias, after the triangle at one end is sewn to the other.
pub(super) fn strips_figure(id: String, size: &str, fabric: &str, bias: &BiasDrawing) -> Figure {
    let mut scene = Scene::new(id);
    facts(&mut scene, fabric, bias);
    let (short, long) = sides(bias);
    let drawn = long.min(short * 6);
    let scale = Scale::fit((drawn + short, short), (WIDE, HIGH));
    scene.data("unit", scale.label());
    let high = scale.of(short);
    let at = |along: i64, down: i64| At { x: LEFT + along + down, y: TOP + down };
    let wide = scale.of(drawn);
    let id = scene.id.clone();
    let shape = scene.path("fig-left", &[at(0, 0), at(wide, 0), at(wide, high), at(0, high)], true);
    shape.patterned("fill", &id, "dots");
    let pitch = scale.of(bias.pitch.length);
    let needed_runs = runs_wanted(bias);
    let fitting = u64::try_from(wide / pitch.max(1)).unwrap_or_default();
    let drawn_strips = bias.runs.min(needed_runs).min(fitting).min(200);
    for number in 0..drawn_strips.min(if pitch < NEAREST { 0 } else { 200 }) {
        let from = pitch * i64::try_from(number).unwrap_or_default();
        let class = if number % 2 == 0 { "fig-strip-odd" } else { "fig-strip-even" };
        let places = [at(from, 0), at(from + pitch, 0), at(from + pitch, high), at(from, high)];
        scene.path(class, &places, true).data("strip", number + 1);
    }
    let right = LEFT + wide + high;
    let mut callouts = strips_words(bias, right, high);
    let ends = column(&mut scene, &mut callouts, (right + 60 * UNIT, WIDTH), TOP - LINE / 4, false).bottom;
    let words = strips_sentence(bias);
    let caption = format!("{}: strips on the bias for the binding. {words} What is dotted is left over.", clean(size));
    let alternative = format!("The fabric that the binding of {} is cut from on the bias. {words}", clean(size));
    let title = format!("The bias strips for the binding of {}", clean(size));
    let svg = scene.svg(ends.max(TOP + high + 20 * UNIT), &title, &alternative);
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

fn facts(scene: &mut Scene, fabric: &str, bias: &BiasDrawing) {
    scene.data("drawing", "bias");
    scene.data("fabric", fabric);
    scene.data("wanted", bias.wanted);
    scene.data("gives", bias.gives);
    for (name, told) in [
        ("amount", &bias.fabric_amount),
        ("usable-width", &bias.usable_width),
        ("edge-to-edge", &bias.edge_to_edge),
        ("strip-length", &bias.strip_length),
        ("pitch", &bias.pitch),
    ] {
        scene.data(name, &told.shown);
    }
}

/// The shorter way of the fabric and the longer.
fn sides(bias: &BiasDrawing) -> (Length, Length) {
    let (one, other) = (bias.usable_width.length, bias.fabric_amount.length);
    (one.min(other), one.max(other))
}

/// How many strips from edge to edge the wanted ones are cut from.
fn runs_wanted(bias: &BiasDrawing) -> u64 {
    let each = bias.edge_to_edge.length.pieces_of(bias.strip_length.length).0.max(1);
    bias.wanted.div_ceil(each)
}

fn strips_sentence(bias: &BiasDrawing) -> String {
    let from = if bias.stated { "stated" } else { "to buy" };
    let stands = if bias.wanted > bias.gives {
        format!("{} short", of(bias.wanted - bias.gives, "strip"))
    } else {
        format!("{} more could be cut", of(bias.gives - bias.wanted, "strip"))
    };
    format!(
        "{} ({from}) gives {} of {}, {} wide; {} wanted: {stands}. The triangle at one end is sewn to the other first, \
         and from edge to edge a strip is {} long.",
        bias.fabric_amount.shown,
        of(bias.gives, "strip"),
        bias.strip_length.shown,
        bias.strip_width.shown,
        bias.wanted,
        bias.edge_to_edge.shown
    )
}

fn strips_words(bias: &BiasDrawing, right: i64, high: i64) -> Vec<Callout> {
    // The right edge slants: its places lie farther left the higher they are.
    let at = |share: i64| At { x: right - high + high * share / 8, y: TOP + high * share / 8 };
    vec![
        Callout { at: at(2), text: format!("{} of fabric", bias.fabric_amount.shown) },
        Callout { at: at(4), text: format!("gives {} of {}", of(bias.gives, "strip"), bias.strip_length.shown) },
        Callout { at: at(6), text: format!("{} wanted", bias.wanted) },
    ]
}
