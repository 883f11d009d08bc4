//! Pieces from small fabrics: yields against counting every cut, and published tables.

use super::exact;
use super::lists::{Piece, eighths, items};
use super::rng::Rng;
use rstest::rstest;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::{CutStrips, Cutting, Item, decide_small, most_from};

/// In halves of an inch: the most pieces from every rectangle up to this one, by trying every cut at every half inch.
fn counted(across: usize, along: usize, piece: (usize, usize)) -> u64 {
    let mut most = vec![vec![0_u64; along + 1]; across + 1];
    for wide in 1..=across {
        for long in 1..=along {
            let fits = wide >= piece.0 && long >= piece.1 || wide >= piece.1 && long >= piece.0;
            let mut best = u64::from(fits);
            for cut in 1..=wide / 2 {
                best = best.max(most[cut][long] + most[wide - cut][long]);
            }
            for cut in 1..=long / 2 {
                best = best.max(most[wide][cut] + most[wide][long - cut]);
            }
            most[wide][long] = best;
        }
    }
    most[across][along]
}

fn halves(count: usize) -> Length {
    Length::inch_fraction(i64::try_from(count).unwrap(), 2)
}

#[rstest]
#[case::fat_quarter(40, 36)]
#[case::wide_fat_quarter(44, 36)]
#[case::fat_eighth(40, 18)]
#[case::ten_inch_square(20, 20)]
#[case::five_inch_square(10, 10)]
fn every_size_to_a_half_inch_yields_what_counting_every_cut_yields(#[case] across: usize, #[case] along: usize) {
    for one in 3..=25 {
        for other in one..=25 {
            let item = Item { across: halves(one), along: halves(other), count: Count(1), turns: true };
            let most = most_from(&item, halves(across), halves(along)).unwrap();
            assert_eq!(most.0, counted(across, along, (one, other)), "{one} x {other} halves");
        }
    }
}

/// Squares from a fat quarter of 18 x 22 in (a chart printed by Quilter's Cache and two quilt shops), and from a yard of
/// fabric with 44 in of usable width (the same); 7 in squares are printed as 35, a slip for 30.
#[rstest]
#[case(22, 18, &[(16, 99), (23, 42), (28, 30), (32, 20), (39, 12), (44, 12), (48, 9), (55, 6)])]
#[case(44, 36, &[
    (8, 1584), (15, 437), (20, 238), (24, 168), (31, 99), (36, 72), (40, 56), (47, 42), (52, 30), (56, 30), (63, 20),
    (68, 20), (72, 16), (79, 12), (84, 12), (88, 12), (95, 9), (100, 6),
])]
fn squares_come_out_as_published_charts_print_them(
    #[case] across: i64,
    #[case] along: i64,
    #[case] squares: &[(i64, u64)],
) {
    for (side, most) in squares {
        let item = Item { across: eighths(*side), along: eighths(*side), count: Count(1), turns: true };
        assert_eq!(
            most_from(&item, Length::inches(across), Length::inches(along)),
            Some(Count(*most)),
            "{side} eighths"
        );
    }
}

/// Each small fabric cut again: its pieces lie in it, and all pieces are there.
fn cut_again(items: &[Item], across: Length, along: Length, fabrics: &[CutStrips]) {
    assert!(fabrics.iter().all(|fabric| fabric.width <= along));
    super::cut_again(items, across, &Cutting { strips: fabrics.to_vec() });
}

#[test]
fn mixed_lists_take_as_many_small_fabrics_as_an_exact_count_or_seldom_one_more() {
    let (mut cases, mut exact_cases) = (0, 0);
    for case in 0..300 {
        let mut rng = Rng::new(31_000 + case);
        let (across, along) = (rng.between(20, 40), rng.between(16, 36));
        let (mut pieces, mut left) = (Vec::new(), rng.between(1, 7));
        while left > 0 {
            let count = rng.between(1, left);
            let piece = Piece { across: rng.between(4, 20), along: rng.between(4, 16), count, turns: rng.one_in(2) };
            pieces.push(piece);
            left -= count;
        }
        let exact = exact::fewest_fabrics(&pieces, across, along).unwrap();
        let decided = decide_small(&items(&pieces), eighths(across), eighths(along)).unwrap();
        let told = format!("case {case}: {pieces:?} from {across} x {along}: {exact}, {decided:?}");
        assert!(decided.least.0 <= exact && exact <= decided.count.0, "{told}");
        cut_again(&items(&pieces), eighths(across), eighths(along), &decided.fabrics);
        cases += 1;
        exact_cases += u32::from(decided.count.0 == exact);
    }
    println!("{exact_cases} of {cases} exact");
    assert!(exact_cases * 100 >= cases * 95, "{exact_cases} of {cases}");
}

#[test]
fn many_pieces_of_one_kind_take_as_many_fabrics_as_the_yield_says() {
    let item = |count| Item { across: eighths(28), along: eighths(44), count: Count(count), turns: true };
    for (count, fabrics) in [(17, 1), (18, 1), (19, 2), (36, 2), (37, 3), (1800, 100)] {
        let decided = decide_small(&[item(count)], Length::inches(20), Length::inches(18)).unwrap();
        assert_eq!((decided.count, decided.least), (Count(fabrics), Count(fabrics)), "{count} pieces");
        cut_again(&[item(count)], Length::inches(20), Length::inches(18), &decided.fabrics);
    }
}

#[test]
fn a_piece_that_does_not_fit_a_small_fabric_is_not_planned() {
    let item = Item { across: eighths(88), along: eighths(20), count: Count(1), turns: true };
    assert!(decide_small(&[item], Length::inches(10), Length::inches(10)).is_none());
    assert_eq!(most_from(&item, Length::inches(10), Length::inches(10)), Some(Count(0)));
}
