//! The working of a layout in words.

use crate::finding::Correction;
use crate::manuscript::model::{Cut, Set};
use crate::quantity::{Count, Length, Written};
use crate::requirement::layout_of_size::{LaidOut, LayoutsNeeds};
use crate::trade::layout::{Side, Top};

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
    ways.map(|way| way_working(needs, top, &way)).join(" ")
}

fn way_working(needs: &LayoutsNeeds<'_>, top: &Top, way: &Way) -> String {
    let blocks = way.blocks.of("block");
    let inner = match top.set {
        Set::Straight => {
            let between = top.sashing.map(|sashing| {
                let sashes = if sashing.round { way.blocks + Count(1) } else { way.blocks.less(Count(1)) };
                format!(" + {} x {}", sashes_of(sashes), needs.up(sashing.width))
            });
            format!("{blocks} x {}{}", needs.up(way.block), between.unwrap_or_default())
        }
        Set::OnPoint => {
            format!("{blocks} on point x {} x 1.4142", needs.up(way.block))
        }
    };
    let finished = needs.side(way.finished);
    if top.borders.is_empty() {
        return format!("{}: {inner} = {finished}.", way.name);
    }
    let borders: Vec<String> = top.borders.iter().map(|border| format!("2 x {}", needs.up(border.width))).collect();
    let word = if borders.len() == 1 { "border" } else { "borders" };
    format!(
        "{}: {inner} = {}, and with the {word} {} = {finished}.",
        way.name,
        needs.side(way.inner),
        borders.join(" + ")
    )
}

fn sashes_of(count: Count) -> String {
    if count == Count(1) { "1 sash".to_string() } else { format!("{count} sashes") }
}

/// A cut size with its shorter or its longer side mended, each where one is given.
pub(super) fn resized(cut: &Cut, short: Option<Length>, long: Option<Length>) -> Option<Correction> {
    let Some(size) = cut.size.stated() else {
        let (width, short) = (cut.strip_width.stated()?, short?);
        return Some(Correction::new(width.at, width.value.rewrite(short)));
    };
    let (width, height) = size.value;
    let (for_width, for_height) = if width.length <= height.length { (short, long) } else { (long, short) };
    let rewritten = |written: Written, mended: Option<Length>| written.rewrite(mended.unwrap_or(written.length));
    let text = format!("{} x {}", rewritten(width, for_width), rewritten(height, for_height));
    Some(Correction::new(size.at, text))
}

/// How many blocks there are: `Straight: 3 across x 4 down = 12 blocks.`
pub(crate) fn places_working(laid: &LaidOut<'_>) -> Option<String> {
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
