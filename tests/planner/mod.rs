//! The planner that decides fabric amounts by proof, against computations that share nothing with it.

#![allow(clippy::unwrap_used, clippy::print_stdout)] // All of this crate is a test: what cannot be is a failure.

mod cut_again;
mod exact;
mod hostile;
mod instances;
mod lists;
mod printed;
mod realistic;
mod restarts;
use crate::support::rng;
mod small_fabrics;
mod stated_strips;

use cut_again::cut_again;
use lists::{eighths, few, items};
use rng::Rng;
use sparestrip::quilt_math::planner::Decision;

/// How often the plans of small lists are as short as can be.
#[derive(Debug, Default)]
struct Tally {
    cases: u32,
    clever_exact: u32,
    plain_exact: u32,
    bound_exact: u32,
}

fn against_exact(cases: u64, seed: u64) -> Tally {
    let mut tally = Tally::default();
    for case in 0..cases {
        let mut rng = Rng::new(seed + case);
        let (pieces, width) = few(&mut rng);
        let decision = Decision::new(&items(&pieces), eighths(width), &[]);
        let Some(exact) = exact::least_length(&pieces, width).map(eighths) else {
            assert!(decision.plain().is_none(), "case {case}: {pieces:?} in {width}");
            continue;
        };
        let (plain, best) = (decision.plain().unwrap(), decision.best().unwrap());
        let least = decision.least().0;
        assert!(decision.quick_least() <= exact, "case {case}: {pieces:?} in {width}");
        assert!(
            least <= exact && exact <= best.length() && best.length() <= plain.length(),
            "case {case}: {pieces:?} in {width}: {least:?}, exactly {exact:?}, {best:?}, {plain:?}"
        );
        cut_again(&items(&pieces), eighths(width), &plain);
        cut_again(&items(&pieces), eighths(width), &best);
        tally.cases += 1;
        tally.clever_exact += u32::from(best.length() == exact);
        tally.plain_exact += u32::from(plain.length() == exact);
        tally.bound_exact += u32::from(least == exact);
    }
    tally
}

#[test]
fn on_a_few_pieces_the_bound_is_below_the_exact_length_and_the_plans_are_not() {
    let tally = against_exact(400, 7_000);
    println!("{tally:?}");
    assert!(tally.clever_exact * 100 >= tally.cases * 95, "{tally:?}");
}

#[test]
#[cfg_attr(not(feature = "long_tests"), ignore = "a longer run of the same")]
fn on_two_thousand_lists_of_a_few_pieces_the_best_plan_is_nearly_always_exact() {
    let tally = against_exact(2_000, 70_000);
    println!("{tally:?}");
    assert!(tally.clever_exact * 100 >= tally.cases * 95, "{tally:?}");
}
