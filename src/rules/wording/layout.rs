//! The working of a layout in words.

use crate::finding::Correction;
use crate::manuscript::model::{Cut, Set};
use crate::quantity::{Count, Length, Round, Scale, Written, rewrite_sides};
use crate::quilt_math::layout::{Border, Side, Top};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::show;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};

/// One of the two ways that a top is measured.
struct Way {
    name: &'static str,
    is_across: bool,
    blocks: Count,
    block: Length,
    inner: Side,
}

impl Way {
    /// How much a border adds this way, at the one end and at the other.
    fn of_border(&self, border: &Border) -> [Length; 2] {
        if self.is_across { [border.sides; 2] } else { [border.top, border.bottom] }
    }
}

/// How wide and how long a top is: `Width: 3 blocks x 12 in + 2 sashes x 1 1/2 in = 39 in, borders 2 x 4 in: 47 in.`
pub(crate) fn size_working(needs: &LayoutsNeeds<'_>, top: &Top) -> String {
    let (inner_width, inner_length) = top.inner();
    let ways = [
        Way { name: "Width", is_across: true, blocks: top.across, block: top.block.width, inner: inner_width },
        Way { name: "Length", is_across: false, blocks: top.down, block: top.block.length, inner: inner_length },
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
    // What a root comes to is shown fine, so that it adds up with the borders.
    let is_root = way.inner.diagonal.is_positive();
    let inner = if is_root { way.inner.below() } else { needs.printed(way.inner) };
    let mut shown = vec![way.block];
    shown.extend((!is_root).then_some(inner));
    shown.extend(top.sashing.map(|sashing| sashing.width));
    shown.extend(top.borders.iter().flat_map(|border| way.of_border(border)));
    let scale = Scale::of(needs.measure, &shown);
    let total = |length: Length| {
        if is_root { length.show_fine(needs.measure, Round::Down) } else { scale.up(length) }
    };
    let blocks = way.blocks.of("block");
    let long = if way.is_across { "wide" } else { "long" };
    let sum = match top.set {
        _ if top.rows.is_some() => format!("{} = {}", rows_sum(top, way, scale).unwrap_or_default(), total(inner)),
        Set::Straight => {
            let between = top.sashing.map(|sashing| {
                let sashes = if sashing.round { way.blocks + Count(1) } else { way.blocks.less(Count(1)) };
                format!(" + {} x {}", sashes_of(sashes), scale.up(sashing.width))
            });
            format!("{blocks} x {}{} = {}", scale.up(way.block), between.unwrap_or_default(), total(inner))
        }
        // A root does not come out with the numbers that are shown.
        Set::OnPoint if top.sashing.is_some() => {
            let sashing = top.sashing.map(|sashing| (sashing.width, sashing.whole_at_edge));
            let (width, whole) = sashing.unwrap_or_default();
            let more = if whole { format!(" + {}", scale.up(width)) } else { String::new() };
            let sum = (way.block + width) * way.blocks + if whole { width } else { Length::ZERO };
            format!(
                "{blocks} x ({} + {}){more} = {}; on point, 1.4142 times as {long}: {}",
                scale.up(way.block),
                scale.up(width),
                scale.up(sum),
                total(inner),
            )
        }
        Set::OnPoint => {
            let each = if way.blocks == Count(1) { "" } else { " each" };
            format!("{blocks} of {} on point,{each} 1.4142 times as {long}: {}", scale.up(way.block), total(inner))
        }
    };
    if top.borders.is_empty() {
        return format!("{}: {sum}.", way.name);
    }
    // The borders are added to what is shown of the blocks.
    let finished = top.borders.iter().flat_map(|border| way.of_border(border)).fold(inner, |sum, width| sum + width);
    let words = |border: &Border| match way.of_border(border) {
        [one, other] if one == other => format!("2 x {}", scale.up(one)),
        [one, other] => format!("{} + {}", scale.up(one), scale.up(other)),
    };
    let borders: Vec<String> = top.borders.iter().map(words).collect();
    let word = if borders.len() == 1 { "border" } else { "borders" };
    format!("{}: {sum}, and with the {word} {} = {}.", way.name, borders.join(" + "), total(finished))
}

/// What rows or columns add up to, one way, with their sashes: `6 x 12 in`, or `4 rows x 12 in + 3 sashes x 2 in`.
fn rows_sum(top: &Top, way: &Way, scale: Scale) -> Option<String> {
    let rows = top.rows.as_ref()?;
    let is_along = way.is_across != rows.are_columns;
    let word = if rows.are_columns { "column" } else { "row" };
    let along = |(count, length): &(Count, Length)| format!("{count} x {}", scale.up(*length));
    let across = |(count, width): &(Count, Length)| format!("{} x {}", count.of(word), scale.up(*width));
    let mut parts: Vec<String> =
        if is_along { rows.first.iter().map(along).collect() } else { rows.widths.iter().map(across).collect() };
    let sashes = if is_along { rows.sashes_of_first } else { rows.between };
    let sashes = top.sashing.map(|sashing| (sashes, sashing.width)).filter(|(sashes, _)| sashes.0 > 0);
    parts.extend(sashes.map(|(sashes, width)| format!("{} x {}", sashes_of(sashes), scale.up(width))));
    Some(parts.join(" + "))
}

pub(in crate::rules) fn sashes_of(count: Count) -> String {
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
    if let Some(rows) = &laid.rows {
        let word = if rows.are_columns { "column" } else { "row" };
        return Some(format!("In {}: {} in all", rows.rows_in_all().of(word), laid.places?.of("block")));
    }
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
