//! Reading the outline of a size that is not a rectangle.

use super::declared_names::DeclaredNames;
use super::kinds::{Positive, Whole};
use super::model::Outline;
use super::reader::Reader;
use super::section::LeftOut::Said;
use super::section::Shape;
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind};
use super::{Field, Keyword, MistakeKind, Span, Spanned};
use crate::quantity::{Count, Length, Measure, Round, Written};

type Finished = Field<(Written, Written)>;
type Points = Vec<(Written, Written)>;

const EXAMPLE: &str = "outline: circle, or outline: { clipped: 6 }";

/// Fewest and most sides of a regular outline, and most points of a drawn one.
const FEWEST_SIDES: Count = Count(3);
const MAX_SIDES: Count = Count(100);
const MAX_POINTS: usize = 100;

/// An outline, and the places of its numbers in the order in which it holds them.
type OutlineSpans = (Outline, [Span; 3]);

/// What is wrong with an outline beside the finished size: which of its numbers, why, and what mends it.
type Contradiction = (usize, String, &'static str);

crate::keywords::keywords!(
    /// An outline that one word says.
    OutlineWord {
        /// A circle.
        Circle = "circle",
        /// Four square corners, which is the usual.
        Rectangle = "rectangle",
    }
);

/// Reads a word, or a table that says `clipped`, `sides` and `side`, `scallops_across` and so on, or `points`.
pub(super) fn read_outline(reader: &mut Reader, finished: &Finished, entry: &Entry<'_>) -> Field<Outline> {
    let node = &entry.value;
    let read = match &node.kind {
        Kind::Scalar { .. } => match reader.word::<OutlineWord>(node, "outline").value() {
            // The usual outline, said in a word, is the same as none said.
            Some(OutlineWord::Rectangle) => return Field::Absent,
            Some(OutlineWord::Circle) => Some((Outline::Circle, [node.at; 3])),
            None => None,
        },
        Kind::Table(entries) if !entries.is_empty() => read_table(reader, entry),
        Kind::Unread => None,
        _ => {
            let expected = "a word or a list of entries";
            reader.report(entry.key_at, MistakeKind::WrongShape { word: "outline".into(), expected, example: EXAMPLE });
            None
        }
    };
    let Some((outline, places)) = read else { return Field::Unread };
    let Some(finished) = finished.stated() else { return Field::Stated(Spanned { value: outline, at: node.at }) };
    match impossible(&outline, (finished.value.0.length, finished.value.1.length), reader.measure) {
        Some((number, why, mend)) => {
            let what = MistakeKind::CannotBe { why, mend };
            reader.report_with(places[number], what, finished.at, "the finished size");
            Field::Unread
        }
        None => Field::Stated(Spanned { value: outline, at: node.at }),
    }
}

/// The words of an outline with equal sides, and of one with scallops.
const REGULAR: &[&str] = &["sides", "side"];
const SCALLOPS: &[&str] = &["scallops_across", "scallops_down", "depth"];

section!(
    /// The words of an outline; those of one kind of outline go together.
    struct OutlineWords, "outline", "An `outline` that is neither a rectangle nor a circle is one of these four",
        "It is written so: `outline: { clipped: 6 }`.";
    words {
        clipped: Field<Written> = Positive, Said("another outline"),
            "four corners cut off at 45 degrees: how much of each side goes", "6", group(&["clipped"]);
        sides: Field<Count> = Whole, Said("another outline"),
            "straight sides all alike, at the same angle to one another: how many", "6", group(REGULAR);
        side: Field<Written> = Positive, Said("another outline"), "how long each of the equal sides is", "20",
            hint("how long each of the equal sides is"), group(REGULAR);
        scallops_across: Field<Count> = Whole, Said("another outline"),
            "scallops on all four sides, each an arc: how many on the width", "5", hint("how many along the width"),
            group(SCALLOPS);
        scallops_down: Field<Count> = Whole, Said("another outline"), "how many scallops on the length", "6",
            hint("how many along the length"), group(SCALLOPS);
        depth: Field<Written> = Positive, Said("another outline"), "how far each scallop rises", "2",
            hint("how far a scallop rises"), group(SCALLOPS);
    }
    by_hand {
        points = Shape::List(&Shape::Point, 3, MAX_POINTS), Said("another outline"),
            "the corners in turn, each as its place across from the left x down from the top", "[0 x 0, 36 x 0, 36 x 48]",
            group(&["points"]);
    }
    besides {}
);

/// What may stand after `outline`.
pub(super) const OUTLINE: Shape =
    Shape::Either(&[Shape::Choice(OutlineWord::NAMES), Shape::Table(OutlineWords::SECTION)]);

fn read_table(reader: &mut Reader, entry: &Entry<'_>) -> Option<OutlineSpans> {
    let mut table = Table::new(reader, "outline", entry.key_at, &entry.value, EXAMPLE)?;
    let words = OutlineWords::read_words(&mut table, reader, &DeclaredNames::default());
    let points = table.entry(OutlineWords::points).map(|entry| (read_points(reader, entry), entry.key_at));
    // Of the words that go together, all are stated or none.
    let any = |group: &[&str], table: &Table<'_, '_>| group.iter().any(|word| table.states(word));
    let (any_regular, any_scallops) = (any(REGULAR, &table), any(SCALLOPS, &table));
    for group in [SCALLOPS, REGULAR].into_iter().filter(|group| any(group, &table)).collect::<Vec<_>>() {
        for row in OutlineWords::SECTION.rows.iter().filter(|row| group.contains(&row.word)) {
            if !table.states(row.word) {
                table.lacks(row);
            }
        }
    }
    let kinds = [!words.clipped.is_absent(), any_regular, any_scallops, points.is_some()];
    let one = kinds.iter().filter(|stated| **stated).count() == 1;
    if !one && kinds.contains(&true) {
        let mend = Some("keep one of clipped, sides, scallops and points");
        reader.report(entry.key_at, MistakeKind::RepeatedKey { word: "outline".into(), mend });
    }
    table.finish(reader, true);
    if one { placed(&words, points) } else { None }
}

/// The outline of which every number was read.
fn placed(words: &OutlineWords, points: Option<(Option<Points>, Span)>) -> Option<OutlineSpans> {
    if let Some(clip) = words.clipped.stated() {
        return Some((Outline::Clipped(clip.value), [clip.at; 3]));
    }
    if let Some((sides, side)) = words.sides.stated().zip(words.side.stated()) {
        let outline = Outline::Regular { sides: sides.value, side: side.value };
        return Some((outline, [sides.at, side.at, side.at]));
    }
    let scallops = words.scallops_across.stated().zip(words.scallops_down.stated());
    if let Some(((across, down), depth)) = scallops.zip(words.depth.stated()) {
        let outline = Outline::Scalloped { across: across.value, down: down.value, depth: depth.value };
        return Some((outline, [across.at, down.at, depth.at]));
    }
    let (points, at) = points?;
    Some((Outline::Points(points?), [at; 3]))
}

fn read_points(reader: &mut Reader, entry: &Entry<'_>) -> Option<Points> {
    let Kind::List(nodes) = &entry.value.kind else {
        let _: Field<()> = reader.wrong_shape(&entry.value, "a list of places", "[0 x 0, 40 x 0, 40 x 30]");
        return None;
    };
    let points: Vec<Field<(Written, Written)>> = nodes.iter().map(|node| reader.point(node)).collect();
    points.iter().map(Field::value).collect()
}

/// Why an outline cannot be, if it cannot.
fn impossible(outline: &Outline, finished: (Length, Length), measure: Measure) -> Option<Contradiction> {
    let (width, length) = finished;
    let show = |length: Length| length.show(measure, Round::Down);
    match outline {
        Outline::Circle => {
            let why = format!("A circle is as wide as it is long, and {} x {} is stated", show(width), show(length));
            (width != length).then_some((0, why, "State the same width and length in finished, or another outline"))
        }
        Outline::Regular { sides, side } => sides_impossible(finished, *sides, side.length, measure),
        Outline::Clipped(clip) => {
            let shortest = width.min(length);
            let why = format!(
                "Corners clipped by {} leave nothing of a side of {} between them",
                show(clip.length),
                show(shortest)
            );
            let mend = "Measure a clip along the side, from where the corner was; it is less than half of the side";
            (clip.length * 2 >= shortest).then_some((0, why, mend))
        }
        Outline::Scalloped { across, down, depth } => {
            scallops_impossible(finished, (*across, *down), depth.length, measure)
        }
        Outline::Points(points) => points_impossible(finished, points, measure),
    }
}

fn sides_impossible(finished: (Length, Length), sides: Count, side: Length, measure: Measure) -> Option<Contradiction> {
    if sides < FEWEST_SIDES || sides > MAX_SIDES {
        let why = format!("An outline has {FEWEST_SIDES} to {MAX_SIDES} equal sides, and {sides} are stated");
        return Some((0, why, "State how many sides the quilt has"));
    }
    // Whichever way it is turned: what bulges nowhere inward is no longer round than the rectangle round it, and no
    // shorter than there and back across it.
    let (width, length) = finished;
    let (round, least, most) = (side * sides, width.max(length) * 2, (width + length) * 2);
    if (least..=most).contains(&round) {
        return None;
    }
    let show = |length: Length| length.show(measure, Round::Down);
    let why = format!(
        "{sides} sides of {} have a perimeter of {}, and a quilt of {} x {} has one of {} to {}",
        show(side),
        show(round),
        show(width),
        show(length),
        show(least),
        show(most)
    );
    Some((1, why, "State in finished how wide and how long the whole quilt is, and in side how long one side is"))
}

fn scallops_impossible(
    (width, length): (Length, Length),
    (across, down): (Count, Count),
    depth: Length,
    measure: Measure,
) -> Option<Contradiction> {
    for (number, count) in [across, down].into_iter().enumerate() {
        if count.0 == 0 || count > MAX_SIDES {
            let why = format!("There may be 1 to {MAX_SIDES} scallops on a side, and {count} are stated");
            return Some((number, why, "State how many scallops there are along one side"));
        }
    }
    for (side, count, which) in [(width, across, "across"), (length, down, "down")] {
        if depth * 2 * count > side {
            let show = |length: Length| length.show(measure, Round::Down);
            let why = format!(
                "A scallop is at most half as deep as it is wide: {} of {count} {which} a side of {} can be {} deep",
                if count.0 == 1 { "the one" } else { "each" },
                show(side),
                show(Length::from_ticks(side.ticks() / i128::from(count.0) / 2)),
            );
            return Some((2, why, "Make the scallops less deep, or fewer"));
        }
    }
    None
}

fn points_impossible(
    (width, length): (Length, Length),
    points: &[(Written, Written)],
    measure: Measure,
) -> Option<Contradiction> {
    if points.len() < 3 || points.len() as u64 > MAX_SIDES.0 {
        let why = format!("An outline has {FEWEST_SIDES} to {MAX_SIDES} points, and {} are stated", points.len());
        return Some((0, why, "State each corner once, in turn"));
    }
    let next = points.iter().cycle().skip(1);
    if points.iter().zip(next).any(|(one, other)| (one.0.length, one.1.length) == (other.0.length, other.1.length)) {
        let why = "Two points in turn are the same place".to_string();
        return Some((0, why, "State each corner once; the last is joined to the first by itself"));
    }
    let span = |of: fn(&(Written, Written)) -> Length| {
        let (least, most) = (points.iter().map(of).min(), points.iter().map(of).max());
        most.unwrap_or_default() - least.unwrap_or_default()
    };
    let (across, down) = (span(|point| point.0.length), span(|point| point.1.length));
    let show = |length: Length| length.show(measure, Round::Down);
    let why = format!(
        "The points reach {} across and {} down, and {} x {} is stated",
        show(across),
        show(down),
        show(width),
        show(length)
    );
    let mend =
        "Correct the points or the finished size: a point is its place across from the left and down from the top";
    ((across, down) != (width, length)).then_some((0, why, mend))
}
