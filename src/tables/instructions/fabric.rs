//! What is cut from each fabric, in the order of cutting: along the fabric first, since that cannot be done once strips
//! are cut across it; then as it is listed; the binding; and last what is cut from remnants.

use super::super::Cell;
use super::super::cell_text::{CellText, on_one_line, text};
use super::super::cutting::{stated_counts, stated_pieces};
use super::measures::{is_square, measure, noun, shape_details, side, size_of, takes};
use super::parts::{Clause, Link, Section, Step};
use super::{WOF, edges};
use crate::manuscript::model::{Cut, CutAgain, CutGrain, Fabric, SoldAs};
use crate::manuscript::{Field, Keyword, Manuscript};

/// A section for each fabric.
pub(super) fn sections(manuscript: &Manuscript, pen: &CellText<'_>) -> Vec<Section> {
    let fabrics = manuscript.fabrics.iter().enumerate();
    fabrics.map(|(place, fabric)| of_fabric(manuscript, place, fabric, pen)).collect()
}

/// When a step is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Turn {
    Along,
    Beside,
    Across,
    Binding,
    Remnants,
}

fn of_fabric(manuscript: &Manuscript, place: usize, fabric: &Fabric, pen: &CellText<'_>) -> Section {
    let mut steps: Vec<(Turn, Step)> = Vec::new();
    let from_here = |from: &Field<usize>| from.value() == Some(place);
    if let Some(backing) = manuscript.backing.as_ref().filter(|backing| from_here(&backing.from)) {
        steps.extend(edges::of_backing(backing, pen).into_iter().map(|step| (Turn::Along, step)));
    }
    for (index, cut) in fabric.cut.iter().enumerate().filter(|(_, cut)| cut.within.is_none()) {
        let members: Vec<&Cut> = fabric.cut.iter().filter(|member| member.within == Some(index)).collect();
        steps.push((turn(cut), of_entry(fabric, cut, &members, pen)));
    }
    if let Some(binding) = manuscript.binding.as_ref().filter(|binding| from_here(&binding.from)) {
        steps.extend(edges::of_binding(binding, pen).into_iter().map(|step| (Turn::Binding, step)));
    }
    steps.sort_by_key(|(turn, _)| *turn);
    let mut steps: Vec<Step> = steps.into_iter().map(|(_, step)| step).collect();
    if !fabric.cut_whole {
        let unread = pen.sizes().iter().map(|_| Cell::Unread).collect();
        steps.push(Step::of(Clause::uncounted(Link::Start, "", unread)));
    }
    let of = on_one_line(&fabric.name);
    Section { heading: format!("From {of}{}, cut", as_sold(place, fabric, pen)), of, steps }
}

fn turn(cut: &Cut) -> Turn {
    match (cut.grain.value(), cut.beside.is_absent(), cut.from.is_absent()) {
        (Some(CutGrain::Lengthwise), ..) => Turn::Along,
        (_, false, _) => Turn::Beside,
        (_, _, false) => Turn::Remnants,
        _ => Turn::Across,
    }
}

/// How a fabric is sold and how wide it is, where the cutting goes by it: ` (precut squares, 5 in)`.
fn as_sold(place: usize, fabric: &Fabric, pen: &CellText<'_>) -> String {
    let sold_as = match fabric.sold_as.value() {
        None | Some(SoldAs::Yardage) => None,
        Some(SoldAs::FatQuarters) => Some("fat quarters"),
        Some(SoldAs::FatEighths) => Some("fat eighths"),
        Some(SoldAs::Strips) => Some("precut strips"),
        Some(SoldAs::Squares) => Some("precut squares"),
        Some(SoldAs::Scraps) => Some("scraps"),
        Some(SoldAs::Panel) => Some("printed panels"),
    };
    let stated = |cell: Cell, before: &str| match cell {
        Cell::Nothing => None,
        cell => Some(format!("{before}{}", cell.text())),
    };
    let color = if pen.has_colorway() { stated(pen.color(place), "") } else { None };
    let words = [
        color,
        sold_as.map(str::to_string),
        stated(pen.length(&fabric.precut), ""),
        stated(pen.length(&fabric.usable_width), "usable width "),
    ];
    let words: Vec<String> = words.into_iter().flatten().collect();
    if words.is_empty() { String::new() } else { format!(" ({})", words.join(", ")) }
}

/// Strips from the bolt reach from selvedge to selvedge.
fn is_from_bolt(fabric: &Fabric) -> bool {
    matches!(fabric.sold_as.or(SoldAs::Yardage), Some(SoldAs::Yardage))
}

/// A piece, or strips for several pieces.
fn of_entry(fabric: &Fabric, cut: &Cut, members: &[&Cut], pen: &CellText<'_>) -> Step {
    let strips = strips_of(fabric, cut, pen);
    if cut.is_group {
        let pieces = members.iter().flat_map(|member| pieces_of(member, Link::Subcut, pen));
        return Step { clauses: strips.into_iter().chain(pieces).collect() };
    }
    let is_whole = cut.size.is_absent() && !cut.is_slanted() && stated_pieces(cut, pen).iter().all(Cell::is_nothing);
    match strips {
        Some(strips) if is_whole => Step::of(strips.words(&label(cut))),
        Some(strips) => Step { clauses: std::iter::once(strips).chain(pieces_of(cut, Link::Subcut, pen)).collect() },
        None => {
            let mut clauses = pieces_of(cut, Link::Start, pen);
            clauses.extend(strips_without_width(fabric, cut, pen));
            Step { clauses }
        }
    }
}

/// How strips are cut of which it is known how wide they are.
fn strips_of(fabric: &Fabric, cut: &Cut, pen: &CellText<'_>) -> Option<Clause> {
    let counts = stated_counts(&cut.strips, pen);
    let is_counted = counts.iter().any(|cell| !cell.is_nothing());
    let sizes = pen.sizes().len();
    let is_along = cut.grain.value() == Some(CutGrain::Lengthwise);
    let width = match measure(&cut.strip_width, sizes, is_counted, |width| pen.length(width)) {
        // Strips for squares are as wide as they are, unless one may be stated that is not.
        None if is_counted && is_square(cut) && !cut.is_template() && !is_along => {
            measure(&cut.size, sizes, true, |size| side(pen, size))
        }
        width => width,
    }?;
    let clause = if is_counted {
        Clause::counting(Link::Start, counts, takes(&cut.strips)).noun("strip").words(" ").part(width)
    } else {
        let clause = Clause::of_all(Link::Start, sizes);
        clause.words("strips ").part(width)
    };
    Some(clause.words(&x_wof(fabric, pen)))
}

/// How many strips a piece takes whose strips have no stated width.
fn strips_without_width(fabric: &Fabric, cut: &Cut, pen: &CellText<'_>) -> Option<Clause> {
    let counts = stated_counts(&cut.strips, pen);
    let clause = Clause::counting(Link::From, counts, takes(&cut.strips)).noun("strip").words(&x_wof(fabric, pen));
    let piece = Some(text(&cut.piece).text().to_string());
    clause.is_stated().then_some(Clause { piece, ..clause })
}

fn x_wof(fabric: &Fabric, pen: &CellText<'_>) -> String {
    if is_from_bolt(fabric) { format!(" {} {WOF}", pen.times()) } else { String::new() }
}

/// The pieces of one kind, in all and from each fabric.
fn pieces_of(cut: &Cut, link: Link, pen: &CellText<'_>) -> Vec<Clause> {
    let counts = stated_pieces(cut, pen);
    let from_each = stated_counts(&cut.pieces_from_each, pen);
    let is_stated = |cells: &[Cell]| cells.iter().any(|cell| !cell.is_nothing());
    let after = after(cut);
    let named = |clauses: Vec<Clause>| {
        let piece = || text(&cut.piece).text().to_string();
        clauses.into_iter().map(|clause| Clause { piece: Some(piece()), ..clause }).collect()
    };
    match (is_stated(&counts), is_stated(&from_each)) {
        (true, both) => {
            let all = sized(cut, Clause::counting(link, counts, takes(&cut.pieces)), pen).words(&after);
            let each = Clause::counting(Link::Aside, from_each, takes(&cut.pieces_from_each)).words(" from each");
            named(std::iter::once(all).chain(both.then_some(each)).collect())
        }
        (false, true) => {
            let each = Clause::counting(link, from_each, takes(&cut.pieces_from_each));
            named(vec![sized(cut, each, pen).words(" from each").words(&after)])
        }
        (false, false) => {
            let (before, size) = size_of(cut, pen, false);
            let Some(size) = size else { return Vec::new() };
            let clause = Clause::of_all(link, pen.sizes().len());
            named(vec![clause.words(&format!("{}s{before}", noun(cut))).part(size).words(&after)])
        }
    }
}

/// A count with what is counted and how large it is.
fn sized(cut: &Cut, clause: Clause, pen: &CellText<'_>) -> Clause {
    let (before, size) = size_of(cut, pen, true);
    clause.noun(noun(cut)).maybe(before, size)
}

/// What stands after the size of a piece: how it is cut, and what the pattern calls it.
fn after(cut: &Cut) -> String {
    let mut words = cut.shaped.as_deref().map(shape_details).unwrap_or_default();
    if cut.grain.value() == Some(CutGrain::Lengthwise) {
        words.push_str(", cut lengthwise");
    }
    if let Some(join) = cut.joined.value() {
        words.push_str(&format!(", from strips joined with {} seams", join.word()));
    }
    if let Some(beside) = cut.beside.stated() {
        words.push_str(&format!(", beside {}", on_one_line(&beside.value)));
    }
    if cut.from.stated().is_some() {
        words.push_str(", from what is left");
    }
    if cut.is_centered() {
        words.push_str(", each centered on the print");
        if let Some(count) = cut.each_repeat().value() {
            words.push_str(&format!(" ({count} from each repeat)"));
        }
    }
    match cut.cut_again.value() {
        Some(CutAgain::Once) => words.push_str(", cut once diagonally"),
        Some(CutAgain::Twice) => words.push_str(", cut twice diagonally"),
        None => {}
    }
    words + &label(cut)
}

/// What the pattern calls a piece, and what it is for: ` (label), for the back`.
fn label(cut: &Cut) -> String {
    let name =
        if cut.is_group || cut.piece.is_absent() { String::new() } else { format!(" ({})", text(&cut.piece).text()) };
    let used_for = match text(&cut.used_for) {
        Cell::Nothing => String::new(),
        cell => format!(", for {}", cell.text()),
    };
    name + &used_for
}
