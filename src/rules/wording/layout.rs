//! The working of a layout in words.

use crate::finding::Correction;
use crate::manuscript::model::{Cut, Set};
use crate::quantity::{Count, Length, Round, Scale, Written, rewrite_sides};
use crate::quilt_math::layout::{Side, Top};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};

/// One of the two ways that a top is measured.
struct Way {
    name: &'static str,
    blocks: Count,
    block: Length,
    inner: Side,
    finished: Side,
}

/// How wide and how long a top is: `Width: 3 blocks x 12 in + 2 sashes x 1 1/2 in = 39 in, borders 2 x 4 in: 47 in.`
pub(crate) fn size_working(needs: &LayoutsNeeds<'_>, top: &Top) -> String {
    let ((width, length), (inner_width, inner_length)) = (top.finished(), top.inner());
    let ways = [
        Way { name: "Width", blocks: top.across, block: top.block.width, inner: inner_width, finished: width },
        Way { name: "Length", blocks: top.down, block: top.block.length, inner: inner_length, finished: length },
    ];
    let working = ways.map(|way| way_working(needs, top, &way)).join(" ");
    let edges = needs.edges();
    if !edges.is_positive() {
        return working;
    }
    let (width, length) = needs.finished(top);
    let with_edges = Rectangle::new(needs.printed(width), needs.printed(length));
    let (edges, with_edges) = (needs.up(edges), show(with_edges, needs.measure, Round::Up));
    format!("{working} With {edges} for the seam allowances at two edges: {with_edges}.")
}

/// The same of a top with its first borders alone.
pub(crate) fn size_inside(needs: &LayoutsNeeds<'_>, top: &Top, borders: usize) -> String {
    let inside = Top { borders: top.borders.iter().take(borders).copied().collect(), ..top.clone() };
    size_working(needs, &inside)
}

fn way_working(needs: &LayoutsNeeds<'_>, top: &Top, way: &Way) -> String {
    let (inner, finished) = (needs.printed(way.inner), needs.printed(way.finished));
    let mut shown = vec![way.block, inner, finished];
    shown.extend(top.sashing.map(|sashing| sashing.width));
    shown.extend(top.borders.iter().map(|border| border.width));
    let scale = Scale::of(needs.measure, &shown);
    let blocks = way.blocks.of("block");
    let sum = match top.set {
        Set::Straight => {
            let between = top.sashing.map(|sashing| {
                let sashes = if sashing.round { way.blocks + Count(1) } else { way.blocks.less(Count(1)) };
                format!(" + {} x {}", sashes_of(sashes), scale.up(sashing.width))
            });
            format!("{blocks} x {}{} = {}", scale.up(way.block), between.unwrap_or_default(), scale.up(inner))
        }
        // A root does not come out with the numbers that are shown.
        Set::OnPoint => {
            let each = if way.blocks == Count(1) { "" } else { " each" };
            format!("{blocks} of {} on point,{each} 1.4142 times as wide: {}", scale.up(way.block), scale.up(inner))
        }
    };
    if top.borders.is_empty() {
        return format!("{}: {sum}.", way.name);
    }
    // The borders are added to what is shown of the blocks.
    let finished = top.borders.iter().fold(inner, |sum, border| sum + border.width * 2);
    let borders: Vec<String> = top.borders.iter().map(|border| format!("2 x {}", scale.up(border.width))).collect();
    let word = if borders.len() == 1 { "border" } else { "borders" };
    format!("{}: {sum}, and with the {word} {} = {}.", way.name, borders.join(" + "), scale.up(finished))
}

fn sashes_of(count: Count) -> String {
    if count == Count(1) { "1 sash".to_string() } else { format!("{count} sashes") }
}

/// The cut size for a size with its shorter or its longer side mended, each where one is given.
pub(in crate::rules) fn resized(
    (cut, of): (&Cut, usize),
    short: Option<Length>,
    long: Option<Length>,
) -> Option<Correction> {
    let Some(size) = cut.size.of(of).stated() else {
        let (width, short) = (cut.strip_width.of(of).stated()?, short?);
        return Some(Correction::new(width.at, width.value.rewrite(short)));
    };
    let (width, height) = size.value;
    let (for_width, for_height) = if width.length <= height.length { (short, long) } else { (long, short) };
    let mended = |written: Written, mended: Option<Length>| mended.unwrap_or(written.length);
    let text = rewrite_sides((&width, &height), (mended(width, for_width), mended(height, for_height)));
    Some(Correction::new(size.at, text))
}

/// How many blocks there are: `Straight: 3 across x 4 down = 12 blocks.`
pub(crate) fn places_working(laid: &LayoutNeeds<'_>) -> Option<String> {
    let (across, down) = (laid.stated.across.value()?, laid.stated.down.value()?);
    let places = laid.places?.of("block");
    Some(match laid.stated.set.or(Set::Straight)? {
        Set::Straight => format!("{across} across x {down} down = {places}"),
        Set::OnPoint => format!(
            "On point, {across} across x {down} down, and {} x {} in the gaps between them = {places}",
            across.less(Count(1)),
            down.less(Count(1)),
        ),
    })
}
