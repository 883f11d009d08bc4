//! What must hold of any cutting plan: it is laid out piece by piece and looked at.

use proptest::prelude::*;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::plan::{Piece, Plan, StatedStrips, Strips, plan, plan_on_small};

/// A piece where it lies in its strip: from and to along the strip, and from and to across it.
type Place = [i128; 4];

fn eighths(count: i64) -> Length {
    Length::inch_fraction(count, 8)
}

fn a_piece(longest: i64) -> impl Strategy<Value = Piece> {
    (1..=longest, 1..=longest, 0_u64..40, any::<bool>()).prop_map(|(across, along, count, turns)| Piece {
        across: eighths(across),
        along: eighths(along),
        count: Count(count),
        turns,
        stated: None,
    })
}

/// Pieces of which one in four has strips that the text tells: enough of them, or some more.
fn a_list() -> impl Strategy<Value = Vec<Piece>> {
    let stated = (a_piece(320), 0_u64..3, 0_u8..4).prop_map(|(mut piece, spare, kind)| {
        if kind == 0 {
            let strips = piece.count.in_groups_of(eighths(320).pieces_of(piece.across)).unwrap() + Count(spare);
            (piece.stated, piece.turns) = (Some(StatedStrips { strips, width: piece.along, along: false }), false);
        }
        piece
    });
    proptest::collection::vec(stated, 0..8)
}

/// Where every piece of one of some strips lies, with the number of its kind.
fn laid_out(strips: &Strips) -> Vec<(usize, Place)> {
    let mut places = Vec::new();
    for laid in &strips.cuts {
        for nth in 0..laid.count.0 {
            let (column, row) = (Count(nth / laid.stacked.0), Count(nth % laid.stacked.0));
            let (x, y) = (laid.from + laid.across * column, laid.above + laid.along * row);
            places.push((laid.piece, [x, x + laid.across, y, y + laid.along].map(Length::ticks)));
        }
    }
    places
}

fn overlap(one: &Place, other: &Place) -> bool {
    one[0] < other[1] && other[0] < one[1] && one[2] < other[3] && other[2] < one[3]
}

/// Every piece lies once, in a way that it may, inside its strip and clear of the others.
fn holds(pieces: &[Piece], plan: &Plan, run: Length) -> Result<(), TestCaseError> {
    prop_assert!(plan.left_over.is_empty());
    let mut count_of = vec![0; pieces.len()];
    for strips in &plan.strips {
        let places = laid_out(strips);
        for (index, (kind, place)) in places.iter().enumerate() {
            count_of[*kind] += strips.count.0;
            let piece = &pieces[*kind];
            let size = (place[1] - place[0], place[3] - place[2]);
            let given = (piece.across.ticks(), piece.along.ticks());
            prop_assert!(size == given || piece.turns && (size.1, size.0) == given, "{kind} is cut as {size:?}");
            prop_assert!(place[0] >= 0 && place[1] <= run.ticks() && place[2] >= 0);
            prop_assert!(place[3] <= strips.width.ticks(), "{kind} is wider than its strip");
            for (_, other) in &places[..index] {
                prop_assert!(!overlap(place, other), "{place:?} lies on {other:?}");
            }
        }
        let end = places.iter().map(|(_, place)| place[1]).max().unwrap_or(0);
        prop_assert!(end <= (run - strips.rest).ticks(), "what is left at the end is not free");
    }
    for (piece, placed) in pieces.iter().zip(count_of) {
        prop_assert_eq!(piece.count.0, placed);
    }
    for piece in pieces {
        let Some(stated) = piece.stated else { continue };
        let same = plan.strips.iter().filter(|strips| strips.width == stated.width).map(|strips| strips.count.0);
        prop_assert!(same.sum::<u64>() >= stated.strips.0, "strips that the text tells are missing");
    }
    Ok(())
}

fn area(pieces: &[Piece]) -> i128 {
    pieces.iter().map(|piece| piece.across.ticks() * piece.along.ticks() * i128::from(piece.count.0)).sum()
}

/// The narrowest and the widest strip that a piece can be cut from.
fn strip_widths(piece: &Piece, run: Length) -> (Length, Length) {
    let turned = (piece.turns && piece.along <= run).then_some(piece.across);
    (
        turned.map_or(piece.along, |turned| turned.min(piece.along)),
        turned.map_or(piece.along, |turned| turned.max(piece.along)),
    )
}

/// Strips one at a time, the widest first, each into the first small fabric with room.
fn packed(plan: &Plan, side: Length) -> u64 {
    let mut strips: Vec<Length> =
        plan.strips.iter().flat_map(|strips| (0..strips.count.0).map(|_| strips.width)).collect();
    strips.sort();
    let mut rooms: Vec<Length> = Vec::new();
    for strip in strips.into_iter().rev() {
        match rooms.iter_mut().find(|room| **room >= strip) {
            Some(room) => *room = *room - strip,
            None => rooms.push(side - strip),
        }
    }
    rooms.len() as u64
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn every_piece_is_placed_once_and_nothing_overlaps(pieces in a_list()) {
        let run = eighths(320);
        let plan = plan(&pieces, run);
        holds(&pieces, &plan, run)?;
        // Never shorter than the area or the widest strip, and never longer than one strip a piece.
        let length = plan.length();
        prop_assert!(length.ticks() * run.ticks() >= area(&pieces));
        let (mut tallest, mut most) = (Length::ZERO, Length::ZERO);
        for piece in &pieces {
            let (narrowest, widest) = strip_widths(piece, run);
            let strips = piece.stated.map_or(piece.count, |stated| stated.strips.max(piece.count));
            tallest = tallest.max(if strips.0 > 0 { narrowest } else { Length::ZERO });
            most = most + widest * strips;
        }
        prop_assert!(length >= tallest && length <= most, "{length:?} is not within {tallest:?} and {most:?}");
    }

    #[test]
    fn strips_of_small_fabrics_fit_into_as_many_as_are_counted(pieces in proptest::collection::vec(a_piece(144), 0..8)) {
        let (run, side) = (eighths(160), eighths(144));
        let (plan, count) = plan_on_small(&pieces, run, side);
        holds(&pieces, &plan, run)?;
        prop_assert!(plan.strips.iter().all(|strips| strips.width <= side));
        prop_assert_eq!(count.0, packed(&plan, side));
        prop_assert!(i128::from(count.0) * run.ticks() * side.ticks() >= area(&pieces));
    }

    #[test]
    fn a_piece_that_fits_no_way_round_is_left_over(across in 321_i64..400, along in 1_i64..400, turns: bool) {
        let piece = Piece { across: eighths(across), along: eighths(along), count: Count(3), turns, stated: None };
        let fits = turns && along <= 320;
        let plan = plan(&[piece], eighths(320));
        prop_assert_eq!(plan.left_over.is_empty(), fits);
        prop_assert_eq!(plan.strips.is_empty(), !fits);
    }

    #[test]
    fn a_list_makes_the_same_plan_every_time(pieces in a_list()) {
        prop_assert_eq!(plan(&pieces, eighths(320)), plan(&pieces, eighths(320)));
    }
}

/// A list as long as may be, with counts as large as may be, is no more work than its kinds are.
#[test]
fn the_longest_list_with_the_largest_counts_is_planned() {
    let kinds = 500_i64;
    let pieces: Vec<Piece> = (0..kinds)
        .map(|kind| Piece {
            across: eighths(9 + kind * 37 % 300),
            along: eighths(9 + kind * 53 % 290),
            count: Count::MAX,
            turns: kind % 3 != 0,
            stated: None,
        })
        .collect();
    let plan = plan(&pieces, eighths(320));
    assert!(plan.left_over.is_empty());
    let area_of = |strips: &Strips| strips.cuts.iter().map(|laid| laid.count.0).sum::<u64>() * strips.count.0;
    assert_eq!(plan.strips.iter().map(area_of).sum::<u64>(), Count::MAX.0 * u64::try_from(kinds).unwrap());
    assert!(plan.strips.len() < 4 * pieces.len(), "{} different strips", plan.strips.len());
}
