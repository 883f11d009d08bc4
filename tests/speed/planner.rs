//! How long a fabric takes to decide, on lists as patterns print them: every part of the decision is worked out.

#![allow(clippy::unwrap_used, clippy::print_stdout, dead_code, missing_docs)] // A benchmark prints times.

#[path = "../planner/lists.rs"]
mod lists;
#[path = "../support/rng.rs"]
mod rng;

use std::hint::black_box;
use std::time::{Duration, Instant};

use sparestrip::quilt_math::planner::Decision;

const LISTS: u64 = 500;

fn main() {
    let mut times: Vec<(Duration, u64)> = Vec::new();
    for case in 0..LISTS {
        let fabric = lists::realistic(&mut rng::Rng::new(9_000 + case));
        let (items, width) = (lists::items(&fabric.pieces), lists::eighths(fabric.width));
        let start = Instant::now();
        let decision = Decision::new(&items, width, &[]);
        black_box((decision.least(), decision.best()));
        times.push((start.elapsed(), case));
    }
    times.sort();
    let at = |percent: usize| times[(times.len() - 1) * percent / 100];
    println!(
        "{LISTS} fabrics decided: median {:?}, 90th percentile {:?}, 99th percentile {:?}, worst {:?}",
        at(50).0,
        at(90).0,
        at(99).0,
        at(100)
    );
}
