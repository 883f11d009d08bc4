//! The figure of precut pieces: how many are used of how many are bought.

use super::Figure;
use super::scale::Scale;
use super::scene::{Anchor, At, LINE, Scene, UNIT, WIDTH};
use super::words::{clean, of};
use crate::drawing::strips::PrecutDrawing;

/// How many are drawn.
const MAX_DRAWN: u64 = 120;

/// The figure of precut pieces.
pub(super) fn figure(id: String, size: &str, fabric: &str, precut: &PrecutDrawing) -> Figure {
    let mut scene = Scene::new(id);
    facts(&mut scene, fabric, precut);
    let height = pieces(&mut scene, precut);
    let words = words(precut);
    let each = format!("each {} x {}", precut.along.shown, precut.across.shown);
    let caption = format!(
        "{}: {} of the fabric {}, {each}: {words}. Used ones are hatched, those left over dotted.",
        clean(size),
        precut.called.clone() + "s",
        clean(fabric)
    );
    let alternative = format!("The {}s of {} for {}, {each}: {words}.", precut.called, clean(fabric), clean(size));
    let title = format!("How many {}s of {} for {}", precut.called, clean(fabric), clean(size));
    let svg = scene.svg(height, &title, &alternative);
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

fn facts(scene: &mut Scene, fabric: &str, precut: &PrecutDrawing) {
    scene.data("drawing", "precut");
    scene.data("fabric", fabric);
    scene.data("used", precut.used);
    if let Some(stated) = precut.stated {
        scene.data("stated", stated);
        scene.data("left", precut.left);
        scene.data("short", precut.short);
    }
}

/// `48 used of 50 stated, 2 left`.
fn words(precut: &PrecutDrawing) -> String {
    let used = format!("{} used", precut.used);
    match precut.stated {
        None => used,
        Some(stated) if precut.short > 0 => format!("{used}, {stated} stated, {} short", precut.short),
        Some(stated) if precut.left == 0 => format!("{used} of {stated} stated, none left"),
        Some(stated) => format!("{used} of {stated} stated, {} left", precut.left),
    }
}

/// The pieces in rows, and the words beneath. Where the figure ends.
fn pieces(scene: &mut Scene, precut: &PrecutDrawing) -> i64 {
    let all = precut.used.max(precut.stated.unwrap_or(0));
    let drawn = all.min(MAX_DRAWN);
    // The longer side lies across, so that rows stay low.
    let (long, short) = (precut.across.length.max(precut.along.length), precut.across.length.min(precut.along.length));
    let scale = Scale::fit((long, short), (150 * UNIT, 110 * UNIT));
    let (wide, high) = (scale.of(long).max(14 * UNIT), scale.of(short).max(14 * UNIT));
    let gap = 14 * UNIT;
    let per_row = ((WIDTH - 20 * UNIT) / (wide + gap)).max(1);
    let id = scene.id.clone();
    for number in 1..=drawn {
        let place = i64::try_from(number - 1).unwrap_or_default();
        let at = At { x: 10 * UNIT + place % per_row * (wide + gap), y: 10 * UNIT + place / per_row * (high + gap) };
        let bought = precut.stated.is_none_or(|stated| number <= stated);
        let (class, pattern, state) = match (number <= precut.used, bought) {
            (true, true) => ("fig-left", "hatch", "used"),
            (true, false) => ("fig-top", "", "short"),
            (false, _) => ("fig-left", "dots", "left"),
        };
        let shape = scene.rectangle(class, at, wide, high);
        shape.data("piece", number).data("state", state);
        if !pattern.is_empty() {
            shape.patterned("fill", &id, pattern);
        }
    }
    let rows = i64::try_from(drawn).unwrap_or_default();
    let foot = 10 * UNIT + (rows + per_row - 1) / per_row * (high + gap) + LINE;
    let more = if all > drawn { format!("and {} more: ", of(all - drawn, "piece")) } else { String::new() };
    scene.text("fig-text", At { x: 10 * UNIT, y: foot }, Anchor::Start, &format!("{more}{}", words(precut)));
    foot + 20 * UNIT
}
