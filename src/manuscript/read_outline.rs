//! Reading the outline of a size that is not a rectangle.

use super::model::Outline;
use super::read_sizes::positive;
use super::reader::Reader;
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Spanned, What};
use crate::quantity::{Count, Length, Written};

type Finished = Field<(Written, Written)>;

const EXAMPLE: &str = "outline: circle, or outline: { clipped: 6 }";

/// Fewest and most sides of a regular outline, and most points of a drawn one.
const FEWEST_SIDES: Count = Count(3);
const MOST_SIDES: Count = Count(100);

/// Reads `circle`, or a table that says `clipped`, `sides` and `side`, `scallops_across` and so on, or `points`.
pub(super) fn read_outline(reader: &mut Reader, finished: &Finished, entry: &Entry<'_>) -> Field<Outline> {
    let node = &entry.value;
    let outline = match &node.kind {
        Kind::Scalar { .. } => read_word(reader, node),
        _ => read_table(reader, entry),
    };
    let Some(outline) = outline else { return Field::Unread };
    match impossible(&outline, finished) {
        Some(why) => {
            let at = if matches!(node.kind, Kind::Scalar { .. }) { node.at } else { entry.key_at };
            reader.report(at, What::OutOfRange { why });
            Field::Unread
        }
        None => Field::Stated(Spanned { value: outline, at: node.at }),
    }
}

fn read_word(reader: &mut Reader, node: &Node<'_>) -> Option<Outline> {
    super::model::words!(
        /// An outline that one word says.
        OutlineWord {
            /// A circle.
            Circle = "circle",
            /// Four square corners, which is the usual.
            Rectangle = "rectangle",
        }
    );
    match reader.word::<OutlineWord>(node, "outline").value()? {
        OutlineWord::Circle => Some(Outline::Circle),
        OutlineWord::Rectangle => None,
    }
}

fn read_table(reader: &mut Reader, entry: &Entry<'_>) -> Option<Outline> {
    let mut table = Table::new(reader, "outline", entry.key_at, &entry.value, EXAMPLE)?;
    let clipped = table.optional("clipped", |node| positive(reader, node));
    let sides = table.optional("sides", |node| reader.count(node));
    let side = table.optional("side", |node| positive(reader, node));
    let across = table.optional("scallops_across", |node| reader.count(node));
    let down = table.optional("scallops_down", |node| reader.count(node));
    let depth = table.optional("depth", |node| positive(reader, node));
    let points = table.entry("points").map(|entry| read_points(reader, entry));
    let scallops = [across.is_absent(), down.is_absent(), depth.is_absent()];
    let regular = [sides.is_absent(), side.is_absent()];
    let any_scallops = scallops.contains(&false);
    let any_regular = regular.contains(&false);
    for (word, lacks) in ["scallops_across", "scallops_down", "depth"].into_iter().zip(scallops) {
        if any_scallops && lacks {
            table.lacks(word);
        }
    }
    for (word, lacks) in ["sides", "side"].into_iter().zip(regular) {
        if any_regular && lacks {
            table.lacks(word);
        }
    }
    let kinds = [!clipped.is_absent(), any_regular, any_scallops, points.is_some()];
    // Unknown words are reported as such; only an empty table lacks something.
    if table.entries().is_empty() {
        table.lacks("clipped");
    }
    let one = kinds.iter().filter(|stated| **stated).count() == 1;
    if !one && kinds.contains(&true) {
        let mend = Some("keep one of clipped, sides, scallops and points");
        reader.report(entry.key_at, What::RepeatedKey { word: "outline".into(), mend });
    }
    table.finish(reader, true);
    if !one {
        return None;
    }
    let regular = || Some(Outline::Regular { sides: sides.value()?, side: side.value()? });
    let scalloped = || Some(Outline::Scalloped { across: across.value()?, down: down.value()?, depth: depth.value()? });
    clipped.value().map(Outline::Clipped).or_else(regular).or_else(scalloped).or(points.flatten().map(Outline::Points))
}

fn read_points(reader: &mut Reader, entry: &Entry<'_>) -> Option<Vec<(Written, Written)>> {
    let Kind::List(nodes) = &entry.value.kind else {
        let _: Field<()> = reader.wrong_shape(&entry.value, "a list of places", "[0 x 0, 40 x 0, 40 x 30]");
        return None;
    };
    let points: Vec<Field<(Written, Written)>> = nodes.iter().map(|node| reader.point(node)).collect();
    points.iter().map(Field::value).collect()
}

/// Why an outline cannot be, if it cannot.
fn impossible(outline: &Outline, finished: &Finished) -> Option<String> {
    let (width, length) = finished.value()?;
    let (width, length) = (width.length, length.length);
    let shortest = width.min(length);
    match outline {
        Outline::Circle => (width != length).then(|| "a circle is as wide as it is long; state finished so".into()),
        Outline::Regular { sides, .. } => (*sides < FEWEST_SIDES || *sides > MOST_SIDES)
            .then(|| format!("an outline has {FEWEST_SIDES} to {MOST_SIDES} equal sides")),
        Outline::Clipped(clip) => {
            (clip.length * 2 >= shortest).then(|| "nothing of the side is left between two clips this long".into())
        }
        Outline::Scalloped { across, down, depth } => scallops_impossible(width, length, *across, *down, depth.length),
        Outline::Points(points) => points_impossible(width, length, points),
    }
}

fn scallops_impossible(width: Length, length: Length, across: Count, down: Count, depth: Length) -> Option<String> {
    if across.0 == 0 || down.0 == 0 || across > MOST_SIDES || down > MOST_SIDES {
        return Some(format!("there may be 1 to {MOST_SIDES} scallops on a side"));
    }
    let too_deep = depth * 2 * across > width || depth * 2 * down > length;
    too_deep.then(|| "a scallop can be half as deep as it is wide, and no deeper".into())
}

fn points_impossible(width: Length, length: Length, points: &[(Written, Written)]) -> Option<String> {
    if points.len() < 3 || points.len() as u64 > MOST_SIDES.0 {
        return Some(format!("an outline has {FEWEST_SIDES} to {MOST_SIDES} points"));
    }
    let next = points.iter().cycle().skip(1);
    if points.iter().zip(next).any(|(one, other)| (one.0.length, one.1.length) == (other.0.length, other.1.length)) {
        return Some("two points in turn are the same place".into());
    }
    let span = |of: fn(&(Written, Written)) -> Length| {
        let (least, most) = (points.iter().map(of).min(), points.iter().map(of).max());
        most.unwrap_or_default() - least.unwrap_or_default()
    };
    let matches = span(|point| point.0.length) == width && span(|point| point.1.length) == length;
    (!matches).then(|| "the points do not reach as far across and down as finished says".into())
}
