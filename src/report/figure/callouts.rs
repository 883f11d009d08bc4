//! Words beside a figure, each with a thin line to what it is about. Those in a column are pushed apart until none lies
//! on another, in the order of their places, so that no two lines cross.

use super::label_placement::Line;
use super::scene::{Anchor, At, LETTER, LINE, Scene, UNIT};
use super::words::{wide, wrapped};

/// Words about a place.
#[derive(Clone, Debug)]
pub(super) struct Callout {
    pub(super) at: At,
    pub(super) text: String,
}

/// A column of callouts that was drawn.
pub(super) struct DrawnColumn {
    /// Where the last of them ends.
    pub(super) bottom: i64,
    /// The lines that lead to them.
    pub(super) leaders: Vec<Line>,
}

/// Between two callouts.
const GAP: i64 = 8 * UNIT;

/// Draws callouts in a column that begins so far from the left.
pub(super) fn column(
    scene: &mut Scene,
    callouts: &mut [Callout],
    (left, right): (i64, i64),
    top: i64,
    toward_left: bool,
) -> DrawnColumn {
    callouts.sort_by_key(|callout| callout.at.y);
    let mut leaders = Vec::with_capacity(callouts.len());
    let lines: Vec<Vec<String>> = callouts.iter().map(|callout| wrapped(&callout.text, right - left)).collect();
    let mut tops = Vec::with_capacity(lines.len());
    let mut free = top;
    for (callout, lines) in callouts.iter().zip(&lines) {
        let high = LINE * i64::try_from(lines.len()).unwrap_or(1);
        let begins = (callout.at.y - high / 2).max(free);
        tops.push(begins);
        free = begins + high + GAP;
    }
    for ((callout, lines), begins) in callouts.iter().zip(&lines).zip(tops) {
        let middle = begins + LINE * i64::try_from(lines.len()).unwrap_or(1) / 2;
        let (edge, anchor) = if toward_left { (right, Anchor::End) } else { (left, Anchor::Start) };
        let end = At { x: if toward_left { edge + 10 * UNIT } else { edge - 10 * UNIT }, y: middle };
        scene.path("fig-leader", &[callout.at, end], false);
        leaders.push((callout.at, end));
        for (number, line) in (0..).zip(lines) {
            let foot = begins + LINE * number + LINE / 2 + LETTER * 7 / 20;
            scene.text("fig-text", At { x: edge, y: foot }, anchor, line);
        }
    }
    DrawnColumn { bottom: free, leaders }
}

/// Draws callouts in rows above a figure, or below it: the one farthest right in the row next to the figure, so that no
/// line crosses words.
pub(super) fn rows(scene: &mut Scene, callouts: &mut [Callout], edge: i64, right: i64, above: bool) {
    callouts.sort_by_key(|callout| -callout.at.x);
    for (number, callout) in (0..).zip(callouts.iter()) {
        let away = 30 * UNIT + LINE * number;
        let (foot, end) =
            if above { (edge - away, edge - away + 8 * UNIT) } else { (edge + away + LETTER, edge + away + 4 * UNIT) };
        let x = callout.at.x.min(right - wide(&callout.text));
        scene.path("fig-leader", &[callout.at, At { x: callout.at.x, y: end }], false);
        scene.text("fig-text", At { x, y: foot }, Anchor::Start, &callout.text);
    }
}
