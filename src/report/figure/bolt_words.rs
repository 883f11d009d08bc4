//! The words of fabric from the bolt.

use super::words::{clean, of};
use crate::drawing::strips::{BoltDrawing, Pieces, Row};

/// `strips 1 to 6, 8 1/2 in wide: 4 plain block each`.
pub(super) fn row_words(row: &Row, name: impl Fn(&str) -> String) -> String {
    let last = row.first + row.strips - 1;
    let numbers =
        if row.strips == 1 { format!("strip {}", row.first) } else { format!("strips {} to {last}", row.first) };
    // A piece as long as the strip is the strip itself.
    if let [Pieces { piece, count: 1, .. }] = row.pieces.as_slice()
        && !row.rest.length.is_positive()
    {
        let what =
            if piece == "binding" { "for the binding".to_string() } else { format!("whole, for {}", name(piece)) };
        return format!("{numbers}, {} wide, {what}", row.width.shown);
    }
    let each = if row.strips == 1 { "" } else { " in each" };
    let pieces: Vec<String> = row.pieces.iter().take(6).map(|pieces| pieces_words(pieces, &name)).collect();
    let more = if row.pieces.len() > 6 { " and more" } else { "" };
    if pieces.is_empty() {
        return format!("{numbers}, {} wide, to spare", row.width.shown);
    }
    format!("{numbers}, {} wide: {}{more}{each}", row.width.shown, pieces.join(", "))
}

fn pieces_words(pieces: &Pieces, name: &impl Fn(&str) -> String) -> String {
    match pieces.piece.as_str() {
        "binding" => of(pieces.count, "binding strip"),
        piece => format!("{} of {}", pieces.count, name(piece)),
    }
}

pub(super) fn caption(size: &str, fabric: &str, bolt: &BoltDrawing) -> String {
    let stated = match (&bolt.stated, &bolt.extent.left, &bolt.extent.short) {
        (Some(stated), Some(left), _) => {
            format!(" of the stated {}; {} left, before squaring up", stated.shown, left.shown)
        }
        (Some(stated), _, Some(short)) => format!(", and {} stated: {} short", stated.shown, short.shown),
        _ => String::new(),
    };
    let more = if bolt.more > 0 { format!(" {} more are not drawn.", of(bolt.more, "strip")) } else { String::new() };
    format!(
        "{}: what is cut from {}, {} used in {}{stated}.{more}",
        clean(size),
        from(fabric),
        bolt.extent.used.shown,
        of(bolt.strips, "strip"),
    )
}

fn from(fabric: &str) -> String {
    if fabric == "binding" { "the fabric for the binding".to_string() } else { format!("the fabric {}", clean(fabric)) }
}

pub(super) fn alternative(size: &str, fabric: &str, bolt: &BoltDrawing) -> String {
    let mut words = vec![format!(
        "What is cut from {} for {}: fabric with a usable width of {}, and {} of it used.",
        from(fabric),
        clean(size),
        bolt.usable_width.shown,
        bolt.extent.used.shown
    )];
    for row in bolt.rows.iter().take(60) {
        let rest = if row.rest.length.is_positive() && !row.pieces.is_empty() {
            format!(", {} left at the end", row.rest.shown)
        } else {
            String::new()
        };
        let told = row_words(row, clean);
        words.push(format!("{}{}{rest}.", told[..1].to_uppercase(), &told[1..]));
    }
    let more = bolt.more + bolt.rows.iter().skip(60).map(|row| row.strips).sum::<u64>();
    if more > 0 {
        words.push(format!("And {}.", of(more, "more strip")));
    }
    match (&bolt.stated, &bolt.extent.left, &bolt.extent.short) {
        (Some(stated), Some(left), _) => words.push(format!("{} stated, {} left.", stated.shown, left.shown)),
        (Some(stated), _, Some(short)) => words.push(format!("{} stated, {} short.", stated.shown, short.shown)),
        _ => {}
    }
    words.join(" ")
}
