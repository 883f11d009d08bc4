//! Lists of which the text tells some strips, against every way of cutting a few pieces.

use super::cut_again;
use super::exact::{self, FilledStrips};
use super::lists::{Piece, eighths, items};
use super::rng::Rng;
use sparestrip::quantity::Count;
use sparestrip::quilt_math::cutting::{Cloth, Cut, Shape};
use sparestrip::quilt_math::cutting_list::taken;
use sparestrip::quilt_math::planner::{Cutting, Verdict};
use sparestrip::quilt_math::proof::Proof;
use sparestrip::quilt_math::small_fabrics::fewest;

/// Up to seven pieces; strips are told for the first kind, enough of them.
fn list(rng: &mut Rng) -> (Vec<Piece>, FilledStrips, i64) {
    let width = rng.between(8, 36);
    let turns = rng.one_in(2);
    let own = Piece { across: rng.between(2, width), along: rng.between(2, 20), count: rng.between(1, 4), turns };
    let strip = if rng.one_in(2) { own.along } else { own.along + rng.between(1, 12) };
    let per_strip = width / own.across * (strip / own.along);
    let strips = (own.count + per_strip - 1) / per_strip + i64::from(rng.one_in(4));
    let mut pieces = vec![own];
    let mut left = rng.between(1, 7 - own.count);
    while left > 0 {
        let count = rng.between(1, left);
        let along = if rng.one_in(2) { rng.between(2, 12) } else { rng.between(2, width) };
        pieces.push(Piece { across: rng.between(2, width), along, count, turns });
        left -= count;
    }
    (pieces, FilledStrips { strips, width: strip }, width)
}

fn cuts(pieces: &[Piece], told: &FilledStrips) -> Vec<Cut> {
    let count = |count: i64| Count(u64::try_from(count).unwrap());
    let cut = |(number, piece): (usize, &Piece)| {
        let is_told = number == 0;
        let strip_width = is_told.then(|| eighths(told.width));
        let (width, height) = (eighths(piece.across), eighths(piece.along));
        Cut {
            shape: Shape::Piece { width, height, turns: piece.turns, strip_width },
            strips: is_told.then(|| count(told.strips)),
            pieces: Some(count(piece.count)),
            joins: None,
            within: None,
        }
    };
    pieces.iter().enumerate().map(cut).collect()
}

#[test]
fn beside_told_strips_the_bound_is_below_the_exact_length_and_the_plans_are_not() {
    let (mut cases, mut plans_exact, mut bounds_exact, mut before_exact) = (0, 0, 0, 0);
    for case in 0..300 {
        let (pieces, told, width) = list(&mut Rng::new(80_000 + case));
        let cuts = cuts(&pieces, &told);
        let cloth = Cloth::Bolt { width: eighths(width) };
        let before = taken(&cuts, cloth).unwrap();
        let proof = Proof::new(&cuts, cloth, &before).unwrap();
        let exact = eighths(exact::least_length_with_told(&pieces, &told, width).unwrap());
        let (best, least) = (proof.best_cutting(), proof.least().length);
        let plain = proof.plain(&before).map_or(before.plan.length(), |plain| plain.plan.length());
        assert!(
            least <= exact && exact <= best.length() && best.length() <= plain,
            "case {case}: {pieces:?}, {} strips {} wide, in {width}: {least:?}, exactly {exact:?}, {best:?}",
            told.strips,
            told.width
        );
        cut_again(&items(&pieces), eighths(width), &best);
        assert_ne!(proof.verdict(exact), Verdict::Short, "case {case}");
        assert_ne!(proof.verdict(exact - eighths(1)), Verdict::OnlyClever, "case {case}");
        cases += 1;
        plans_exact += u32::from(best.length() == exact);
        before_exact += u32::from(before.plan.length() == exact);
        bounds_exact += u32::from(least == exact);
    }
    println!("of {cases}: {plans_exact} plans and {bounds_exact} bounds exact, {before_exact} by the simple plan");
    // How the told pieces are shared out among their strips, and turned in them, is not looked at by plans.
    assert!(plans_exact > before_exact && plans_exact * 100 >= cases * 85, "{plans_exact} of {cases}");
}

#[test]
fn small_fabrics_with_told_strips_are_as_few_as_an_exact_count_or_undecided() {
    let (mut cases, mut exact_cases, mut undecided) = (0, 0, 0);
    for case in 0..150 {
        let mut rng = Rng::new(90_000 + case);
        let (across, along) = (rng.between(16, 24), rng.between(14, 24));
        let own =
            Piece { across: rng.between(3, across), along: rng.between(2, 7), count: rng.between(1, 3), turns: false };
        let strip = own.along + if rng.one_in(2) { 0 } else { rng.between(1, 4) };
        let per_strip = across / own.across * (strip / own.along);
        let told = FilledStrips { strips: (own.count + per_strip - 1) / per_strip, width: strip };
        let mut pieces = vec![own];
        for _ in 0..rng.between(0, 3) {
            pieces.push(Piece {
                across: rng.between(3, 14),
                along: rng.between(2, 12),
                count: 1,
                turns: rng.one_in(2),
            });
        }
        let cloth = Cloth::Small { across: eighths(across), along: eighths(along), turns: false };
        let cuts = cuts(&pieces, &told);
        let known = taken(&cuts, cloth).unwrap().small.unwrap();
        let decided = fewest(&cuts, cloth, known).unwrap();
        let exact = exact::fewest_fabrics_with_told(&pieces, &told, across, along).unwrap();
        let words = format!("case {case}: {pieces:?}, {} strips {strip} wide, {across} x {along}", told.strips);
        assert!(decided.least.0 <= exact && exact <= decided.count.0, "{words}: {exact}, {decided:?}");
        assert!(decided.count <= known, "{words}");
        if !decided.fabrics.is_empty() {
            assert!(decided.fabrics.iter().all(|fabric| fabric.width <= eighths(along)));
            cut_again(&items(&pieces), eighths(across), &Cutting { strips: decided.fabrics.clone() });
        }
        cases += 1;
        exact_cases += u32::from(decided.count.0 == exact);
        undecided += u32::from(decided.least < decided.count);
    }
    println!("of {cases}: {exact_cases} exact, {undecided} undecided");
    assert!(exact_cases * 100 >= cases * 90 && undecided * 100 <= cases * 15, "{exact_cases}, {undecided} of {cases}");
}

#[test]
fn strips_alone_take_as_many_small_fabrics_as_their_widths_fill() {
    // Five strips of 9, three of 6 and six of 3 fill three fabrics of 27 without a rest; the widest first takes no more.
    let strips = |width: i64, count: u64| Cut {
        shape: Shape::WholeStrip { width: eighths(width) },
        strips: Some(Count(count)),
        pieces: None,
        joins: None,
        within: None,
    };
    let cloth = Cloth::Small { across: eighths(40), along: eighths(27), turns: false };
    // 14 + 13, 14 + 13, 10 + 10 + 7, 10 + 10 + 7: the widest first leaves a strip of 7 over.
    let cuts = [strips(14, 2), strips(13, 2), strips(10, 4), strips(7, 2)];
    let decided = fewest(&cuts, cloth, Count(9)).unwrap();
    assert_eq!((decided.count, decided.least), (Count(4), Count(4)));
    let cuts = [strips(9, 5), strips(6, 3), strips(3, 6)];
    let decided = fewest(&cuts, cloth, Count(9)).unwrap();
    assert_eq!((decided.count, decided.least), (Count(3), Count(3)));
}
