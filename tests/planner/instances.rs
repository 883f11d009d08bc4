//! Public instances with the best lengths known in two stages (`instances/SOURCE.txt`).

use std::time::Instant;

use super::cut_again;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::{Decision, Item};

/// Instance, width of the sheet, the best length known.
const KNOWN: [(&str, i64, i64, &str); 12] = [
    ("gcut1d", 250, 51604, include_str!("instances/gcut1d.txt_items.csv")),
    ("gcut2d", 250, 77436, include_str!("instances/gcut2d.txt_items.csv")),
    ("gcut3d", 250, 80121, include_str!("instances/gcut3d.txt_items.csv")),
    ("gcut4d", 250, 196_470, include_str!("instances/gcut4d.txt_items.csv")),
    ("gcut5d", 500, 91177, include_str!("instances/gcut5d.txt_items.csv")),
    ("gcut6d", 500, 168_011, include_str!("instances/gcut6d.txt_items.csv")),
    ("gcut7d", 500, 243_095, include_str!("instances/gcut7d.txt_items.csv")),
    ("gcut8d", 500, 332_703, include_str!("instances/gcut8d.txt_items.csv")),
    ("gcut9d", 1000, 122_611, include_str!("instances/gcut9d.txt_items.csv")),
    ("gcut10d", 1000, 272_780, include_str!("instances/gcut10d.txt_items.csv")),
    ("gcut11d", 1000, 314_932, include_str!("instances/gcut11d.txt_items.csv")),
    ("gcut12d", 1000, 573_679, include_str!("instances/gcut12d.txt_items.csv")),
];

/// Instance, the best lengths known by guillotine cuts of pieces that are not turned, and of pieces that may be.
const GUILLOTINE: [(&str, i64, i64, &str); 12] = [
    ("KR1", 111, 109, include_str!("instances/KR-01.txt_items.csv")),
    ("KR2", 107, 104, include_str!("instances/KR-02.txt_items.csv")),
    ("KR3", 106, 104, include_str!("instances/KR-03.txt_items.csv")),
    ("KR4", 155, 152, include_str!("instances/KR-04.txt_items.csv")),
    ("KR5", 125, 123, include_str!("instances/KR-05.txt_items.csv")),
    ("KR6", 128, 124, include_str!("instances/KR-06.txt_items.csv")),
    ("KR7", 198, 195, include_str!("instances/KR-07.txt_items.csv")),
    ("KR8", 168, 163, include_str!("instances/KR-08.txt_items.csv")),
    ("KR9", 137, 134, include_str!("instances/KR-09.txt_items.csv")),
    ("KR10", 255, 250, include_str!("instances/KR-10.txt_items.csv")),
    ("KR11", 281, 276, include_str!("instances/KR-11.txt_items.csv")),
    ("KR12", 286, 280, include_str!("instances/KR-12.txt_items.csv")),
];

/// Pieces of an instance in which each stands by itself; those of one size together.
fn single_pieces(text: &str, turns: bool) -> Vec<Item> {
    let mut pieces: Vec<Item> = Vec::new();
    for line in text.lines().skip(1) {
        let numbers: Vec<i64> = line.split(',').map(|number| number.trim().parse().unwrap()).collect();
        let (across, along) = (Length::inches(numbers[1]), Length::inches(numbers[2]));
        match pieces.iter_mut().find(|piece| (piece.across, piece.along) == (across, along)) {
            Some(piece) => piece.count = piece.count + Count(1),
            None => pieces.push(Item { across, along, count: Count(1), turns }),
        }
    }
    pieces
}

#[test]
#[ignore = "unlike pieces, none of them twice, are not what quilts are cut from, and take a second each"]
fn the_bound_of_unlike_pieces_is_never_above_a_plan_that_is_known() {
    for (name, fixed, turned, text) in GUILLOTINE {
        for (turns, known) in [(false, fixed), (true, turned)] {
            let items = single_pieces(text, turns);
            let width = Length::inches(100);
            let start = Instant::now();
            let decision = Decision::new(&items, width, &[]);
            let (best, (least, _)) = (decision.best().unwrap(), decision.least());
            let time = start.elapsed();
            cut_again(&items, width, &best);
            let units = |length: Length| length.ticks() / Length::TICKS_PER_INCH;
            let (length, least_units) = (units(best.length()), units(least));
            println!("{name}, turned {turns}: best known {known}, plan {length}, bound {least_units}, {time:?}");
            assert!(least <= Length::inches(known), "{name}: the bound is above a plan that is known");
        }
    }
}

fn pieces(text: &str) -> Vec<Item> {
    let mut pieces = Vec::new();
    for line in text.lines().skip(1) {
        let numbers: Vec<i64> = line.split(',').map(|number| number.trim().parse().unwrap()).collect();
        let count = Count(u64::try_from(numbers[3]).unwrap());
        let (across, along) = (Length::inches(numbers[1]), Length::inches(numbers[2]));
        pieces.push(Item { across, along, count, turns: false });
    }
    pieces
}

#[test]
fn plain_plans_of_public_instances_are_within_half_a_percent_of_the_best_known() {
    within_half_a_percent(&[KNOWN[0], KNOWN[1], KNOWN[4], KNOWN[8]]);
}

#[test]
#[cfg_attr(not(feature = "long_tests"), ignore = "the instances with more kinds take seconds")]
fn plain_plans_of_all_public_instances_are_within_half_a_percent_of_the_best_known() {
    within_half_a_percent(&KNOWN);
}

fn within_half_a_percent(instances: &[(&str, i64, i64, &str)]) {
    for (name, width, known, text) in instances.iter().copied() {
        let items = pieces(text);
        let start = Instant::now();
        let decision = Decision::new(&items, Length::inches(width), &[]);
        let plain = decision.plain().unwrap();
        println!("{name}: best known {known}, plan {:?}, {:?}", plain.length(), start.elapsed());
        cut_again(&items, Length::inches(width), &plain);
        let least = decision.least().0;
        assert!(least <= Length::inches(known), "{name}: the bound is above a plan that is known");
        assert!(least <= plain.length());
        assert!(plain.length() * 1000_i64 <= Length::inches(known) * 1005_i64, "{name}: {plain:?}");
    }
}
