//! Lists that mean harm: counts and sizes at the limits, measures too fine for tables, and very many kinds. They are
//! answered, and what is not proved is not called short.

use super::lists::eighths;
use super::rng::Rng;
use rstest::rstest;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::cutting::{Cloth, Cut, Shape};
use sparestrip::quilt_math::planner::{Decision, Item, Remnant, Verdict, decide_small, most_from};
use sparestrip::quilt_math::small_fabrics::fewest;

fn item(across: Length, along: Length, count: u64) -> Item {
    Item { across, along, count: Count(count), turns: true }
}

/// Whatever is asked, no plan is shorter than the bound, and no amount is called both enough and short.
fn is_answered(items: &[Item], width: Length, remnants: &[Remnant]) {
    let decision = Decision::new(items, width, remnants);
    let least = decision.least().0;
    assert!(decision.quick_least() <= least);
    if let Some(best) = decision.best() {
        assert!(least <= best.length(), "{least:?} and {:?}", best.length());
        assert_ne!(decision.verdict(best.length()), Verdict::Short);
        assert_ne!(decision.verdict(best.length()), Verdict::Undecided);
    }
    if least.is_positive() {
        assert_eq!(decision.verdict(least - Length::from_ticks(1)), Verdict::Short);
    }
    let between = decision.verdict(least);
    assert_ne!(between, Verdict::Short);
}

#[rstest]
#[case::a_million_squares(eighths(20), eighths(20), 1_000_000)]
#[case::more_than_there_are_ticks(eighths(20), eighths(28), u64::MAX)]
#[case::the_longest_piece(eighths(20), Length::LONGEST, 3)]
#[case::the_longest_pieces_without_end(Length::inches(40), Length::LONGEST, u64::MAX)]
#[case::the_smallest_piece(Length::from_ticks(1), Length::from_ticks(1), 1_000)]
#[case::the_smallest_pieces_without_end(Length::from_ticks(1), Length::from_ticks(1), u64::MAX)]
#[case::too_wide(Length::inches(41), Length::inches(41), 2)]
#[case::no_piece(eighths(20), eighths(20), 0)]
#[case::no_width(Length::ZERO, eighths(20), 4)]
fn one_kind_at_the_limits_is_answered(#[case] across: Length, #[case] along: Length, #[case] count: u64) {
    for other in [None, Some(item(eighths(52), eighths(36), 12)), Some(item(eighths(20), eighths(28), u64::MAX))] {
        let items: Vec<Item> = std::iter::once(item(across, along, count)).chain(other).collect();
        is_answered(&items, Length::inches(40), &[]);
        let remnant = Remnant { across: eighths(160), along: eighths(60), count: Count(u64::MAX) };
        let decision = Decision::new(&items, Length::inches(40), &[remnant]);
        let _ = (decision.least(), decision.best());
    }
}

#[test]
fn nothing_on_fabric_of_no_width_is_answered() {
    is_answered(&[], Length::ZERO, &[]);
    is_answered(&[item(eighths(20), eighths(28), 0)], Length::ZERO, &[]);
}

/// The bound by tables is less here than the one that is found at once: the greater of the two is told.
#[test]
fn the_bound_is_never_below_the_one_that_is_found_at_once() {
    let items = [
        item(Length::inches(4), eighths(38), 11),
        item(eighths(116), eighths(18), 127),
        item(Length::inch_fraction(393, 16), Length::inch_fraction(235, 3), 256),
    ];
    is_answered(&items, Length::inches(108), &[]);
}

#[test]
fn measures_too_fine_for_tables_are_not_called_short_without_a_proof() {
    // Sevenths, elevenths and thirteenths of an inch have no measure in common that tables are made for.
    let items = [
        item(Length::inch_fraction(50, 7), Length::inch_fraction(60, 11), 20),
        item(Length::inch_fraction(70, 13), Length::inch_fraction(90, 11), 14),
    ];
    let decision = Decision::new(&items, Length::inches(40), &[]);
    assert!(decision.best().is_none());
    let (least, _) = decision.least();
    assert!(least.is_positive());
    assert_eq!(decision.verdict(least), Verdict::Undecided);
    is_answered(&items, Length::inches(40), &[]);
}

#[rstest]
#[case::as_many_kinds_as_are_planned(60)]
#[case::one_more(61)]
#[case::many_more(400)]
fn very_many_kinds_are_answered(#[case] kinds: i64) {
    let mut rng = Rng::new(5);
    let kind = |number: i64| {
        let (across, along) = (eighths(12 + number * 4 % 124), eighths(20 + number * 28 % 132));
        item(across, along, u64::try_from(rng.between(1, 40)).unwrap())
    };
    let items: Vec<Item> = (0..kinds).map(kind).collect();
    is_answered(&items, Length::inches(40), &[]);
}

#[test]
fn small_fabrics_at_the_limits_are_answered() {
    let cloth = Cloth::Small { across: Length::inches(20), along: Length::inches(18), turns: true };
    let piece = |width, height, count, strips| Cut {
        shape: Shape::Piece { width, height, turns: true, strip_width: None },
        strips,
        pieces: Some(Count(count)),
        joins: None,
        within: None,
    };
    let fine = Length::inch_fraction(50, 7);
    for (width, count) in [(eighths(28), 10_000_000), (eighths(28), u64::MAX), (fine, 40), (eighths(28), 0)] {
        for strips in [None, Some(Count(4)), Some(Count(u64::MAX))] {
            let cuts = [piece(width, eighths(44), count, strips), piece(eighths(36), eighths(36), 7, None)];
            let known = Count(u64::MAX);
            if let Some(decided) = fewest(&cuts, cloth, known) {
                assert!(decided.least <= decided.count, "{decided:?}");
            }
        }
    }
    let most =
        most_from(&item(Length::from_ticks(1), Length::from_ticks(1), 1), Length::inches(18), Length::inches(20));
    assert_eq!(most, None);
    assert!(
        decide_small(&[item(fine, Length::inch_fraction(40, 11), 3)], Length::inches(18), Length::inches(20)).is_none()
    );
}
