//! The edge of a size, from its outline.

use crate::manuscript::model::{Outline, Size};
use crate::quilt_math::outline::{Edge, Point};

/// The edge of a size; `None` where its measurements or its outline could not be read.
pub fn edge(size: &Size) -> Option<Edge> {
    let (width, length) = size.finished.value()?;
    let (width, length) = (width.length, length.length);
    if size.outline.is_unread() {
        return None;
    }
    Some(match size.outline.stated().map(|outline| &outline.value) {
        None => Edge::rectangle(width, length),
        Some(Outline::Circle) => Edge::circle(width),
        Some(Outline::Regular { sides, side }) => Edge::regular(*sides, side.length),
        Some(Outline::Clipped(clip)) => Edge::clipped(width, length, clip.length),
        Some(Outline::Scalloped { across, down, depth }) => {
            Edge::scalloped(width, length, *across, *down, depth.length)
        }
        Some(Outline::Points(points)) => {
            let points: Vec<Point> =
                points.iter().map(|(across, down)| Point { across: across.length, down: down.length }).collect();
            Edge::points(&points)
        }
    })
}
