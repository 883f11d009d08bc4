//! Where a smooth function of many weights is least, by L-BFGS (Nocedal and Wright, "Numerical Optimization", 2006,
//! algorithms 7.4 and 7.5, with a line search that only steps back).

use std::collections::VecDeque;

/// How many of the last steps say how the function bends.
const MEMORY: usize = 10;

/// A step that was taken, and how the slope changed on it.
struct Step {
    by: Vec<f64>,
    bend: Vec<f64>,
    /// One over the product of the two.
    scale: f64,
}

/// The weights, from nought on and after so many steps at most. `slope_at` says what the function is at weights, and
/// writes its slope there.
pub(super) fn least(length: usize, steps: usize, mut slope_at: impl FnMut(&[f64], &mut Vec<f64>) -> f64) -> Vec<f64> {
    let mut at = vec![0.0; length];
    let mut slope = Vec::new();
    let mut value = slope_at(&at, &mut slope);
    let mut last: VecDeque<Step> = VecDeque::new();
    for _ in 0..steps {
        let way = downhill(&slope, &last);
        let steepness = product(&way, &slope);
        let mut share = if last.is_empty() { 1.0 / product(&slope, &slope).sqrt().max(1.0) } else { 1.0 };
        let mut next_slope = Vec::new();
        let (next, next_value) = loop {
            let next: Vec<f64> = at.iter().zip(&way).map(|(at, way)| at + share * way).collect();
            let there = slope_at(&next, &mut next_slope);
            if there <= value + 1e-4 * share * steepness {
                break (next, there);
            }
            share /= 2.0;
            if share < 1e-10 {
                return at;
            }
        };
        let step = Step::new(minus(&next, &at), minus(&next_slope, &slope));
        last.extend(step);
        if last.len() > MEMORY {
            last.pop_front();
        }
        let is_flat = value - next_value < 1e-7 * value.abs();
        (at, slope, value) = (next, next_slope, next_value);
        if is_flat {
            break;
        }
    }
    at
}

impl Step {
    /// `None` where the function does not bend upwards on the way, which says nothing of where it is least.
    fn new(by: Vec<f64>, bend: Vec<f64>) -> Option<Step> {
        let product = product(&by, &bend);
        (product > 1e-12).then(|| Step { by, bend, scale: 1.0 / product })
    }
}

/// The way down, by the slope and by how it changed on the last steps.
fn downhill(slope: &[f64], last: &VecDeque<Step>) -> Vec<f64> {
    let mut way: Vec<f64> = slope.iter().map(|slope| -slope).collect();
    let mut shares = Vec::new();
    for step in last.iter().rev() {
        let share = step.scale * product(&step.by, &way);
        add(&mut way, -share, &step.bend);
        shares.push(share);
    }
    if let Some(newest) = last.back() {
        let scale = 1.0 / (newest.scale * product(&newest.bend, &newest.bend));
        for way in &mut way {
            *way *= scale;
        }
    }
    for (step, share) in last.iter().zip(shares.into_iter().rev()) {
        let back = step.scale * product(&step.bend, &way);
        add(&mut way, share - back, &step.by);
    }
    way
}

fn product(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(one, other)| one * other).sum()
}

fn minus(one: &[f64], other: &[f64]) -> Vec<f64> {
    one.iter().zip(other).map(|(one, other)| one - other).collect()
}

fn add(to: &mut [f64], share: f64, other: &[f64]) {
    to.iter_mut().zip(other).for_each(|(to, other)| *to += share * other);
}

#[test]
fn the_least_of_a_narrow_bent_valley_is_found() {
    // Rosenbrock (1960): nought at 1, 1.
    let found = least(2, 200, |at, slope| {
        let (x, y) = (at[0], at[1]);
        *slope = vec![-2.0 * (1.0 - x) - 400.0 * x * (y - x * x), 200.0 * (y - x * x)];
        (1.0 - x).powi(2) + 100.0 * (y - x * x).powi(2)
    });
    assert!((found[0] - 1.0).abs() < 1e-2 && (found[1] - 1.0).abs() < 2e-2, "{found:?}");
}
