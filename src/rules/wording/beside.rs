//! What is left beside pieces along the fabric, in words.

use super::fabric::listed;
use super::subject::piece;
use crate::finding::{Finding, Label};
use crate::manuscript::Field;
use crate::requirement::beside::BesideNeeds;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

/// What is left beside pieces, and what is to be cut from it: `Beside 4 pieces of side, 6 in x 64 1/2 in is left; 8 A are cut from it:`.
pub(in crate::rules) fn is_there(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, beside: &BesideNeeds) -> String {
    let pieces = beside.entries.iter().filter(|(_, item)| item.count.0 > 0);
    let pieces: Vec<String> = pieces.map(|(entry, item)| format!("{} {}", item.count, fabric.name(*entry))).collect();
    let pieces = listed(&pieces.iter().map(String::as_str).collect::<Vec<_>>());
    format!("{}; {pieces} are cut from it:", left_words(needs, fabric, beside))
}

/// `Beside 4 pieces of side, 6 in x 64 1/2 in is left`.
pub(crate) fn left_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, beside: &BesideNeeds) -> String {
    let rooms: Vec<String> = beside
        .rows
        .left()
        .iter()
        .map(|room| {
            let size = format!("{} x {}", needs.down(room.across), needs.down(room.along));
            if room.count.0 == 1 { size } else { format!("{} times {size}", room.count) }
        })
        .collect();
    let of = format!("{} of {}", beside.rows.count.of("piece"), fabric.name(beside.of));
    if rooms.is_empty() {
        format!("Beside {of}, nothing of the width is left")
    } else {
        format!("Beside {of}, {} is left", listed(&rooms.iter().map(String::as_str).collect::<Vec<_>>()))
    }
}

/// A finding at the count of the first pieces that are cut beside others.
pub(in crate::rules) fn finding(
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    beside: &BesideNeeds,
    message: String,
    label: &str,
) -> Option<Finding> {
    let places = || beside.entries.iter().filter(|(_, item)| item.count.0 > 0);
    let counts = |entry: usize| fabric.stated.cut.get(entry)?.pieces.get(size.index).and_then(Field::at);
    let (first, _) = places().next()?;
    let along = fabric.stated.cut.get(beside.of)?;
    let finding = Finding::new(Label::new(counts(*first)?, label), message);
    let finding = finding.for_size(&size.size.name).about(piece(fabric.stated, *first));
    let finding = finding.see(along.size.at(), "cut along the fabric");
    let finding = places().skip(1).fold(finding, |finding, (entry, _)| {
        finding.see(counts(*entry), format!("{} is cut from it too", fabric.name(*entry)))
    });
    Some(finding.help(
        "Cut fewer of them beside it, or cut them from the fabric by themselves: take beside out, and the amount is checked \
         for them.",
    ))
}
