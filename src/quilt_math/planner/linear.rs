//! A linear programme solved with columns that are made as they are needed (Gilmore and Gomory, 1961).
//!
//! It proposes prices for pieces and how often to cut a strip. Nothing is decided by it: plans are counted, and bounds
//! are checked again, in whole numbers.
//!
//! It is our own because columns are made as they are needed, from the prices of the rows, which `microlp` does not
//! hand out.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::cast_possible_truncation)] // It only proposes.

/// What one unit of a column costs and gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Column {
    pub(super) cost: i64,
    /// Rows with what is added to each.
    pub(super) entries: Vec<(usize, i64)>,
}

/// A row asks for at least its right side; one that limits a resource has a negative right side and negative entries.
pub(super) struct Programme {
    sides: Vec<f64>,
    pub(super) columns: Vec<Column>,
    basis: Vec<Basic>,
    /// The inverse of the basis, row by row.
    inverse: Vec<f64>,
    /// How much of each basic column.
    amounts: Vec<f64>,
    /// What a unit costs that no column gives.
    penalty: f64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Basic {
    Column(usize),
    /// More than is asked for, or less than the limit.
    Surplus(usize),
    /// What no column gives yet.
    Missing(usize),
}

/// The fixed point in which prices are handed out.
pub(super) const PRICE: i64 = 1 << 20;

const EPSILON: f64 = 1e-7;

impl Programme {
    pub(super) fn new(sides: &[i64], columns: Vec<Column>, penalty: i64) -> Programme {
        let rows = sides.len();
        // Sides that differ a little from one another keep the steps from going round in a circle.
        let side = |(row, side): (usize, &i64)| *side as f64 + 1e-6 * (1.0 + row as f64);
        let sides: Vec<f64> = sides.iter().enumerate().map(side).collect();
        let mut inverse = vec![0.0; rows * rows];
        let mut basis = Vec::new();
        for (row, side) in sides.iter().enumerate() {
            inverse[row * rows + row] = if *side < 0.0 { -1.0 } else { 1.0 };
            basis.push(if *side < 0.0 { Basic::Surplus(row) } else { Basic::Missing(row) });
        }
        let amounts = sides.iter().map(|side| side.abs()).collect();
        Programme { sides, columns, basis, inverse, amounts, penalty: penalty as f64 }
    }

    /// Takes in columns, its own and those that `price` makes from the prices of the rows, until none is worth it or
    /// so many steps are taken.
    pub(super) fn solve(&mut self, max_steps: usize, mut price: impl FnMut(&[i64]) -> Vec<Column>) {
        for _ in 0..max_steps {
            let prices = self.prices();
            if let Some(entering) = self.entering(&prices) {
                if !self.enter(entering) {
                    return;
                }
                continue;
            }
            let made = price(&in_fixed_point(&prices));
            let first = self.columns.len();
            for column in made {
                if !self.columns.contains(&column) {
                    self.columns.push(column);
                }
            }
            if self.columns.len() == first {
                return;
            }
        }
    }

    fn prices(&self) -> Vec<f64> {
        let rows = self.sides.len();
        let cost = |basic: &Basic| match *basic {
            Basic::Column(column) => self.columns[column].cost as f64,
            Basic::Surplus(_) => 0.0,
            Basic::Missing(_) => self.penalty,
        };
        let mut prices = vec![0.0; rows];
        for (row, basic) in self.basis.iter().enumerate() {
            let cost = cost(basic);
            if cost != 0.0 {
                for (price, inverse) in prices.iter_mut().zip(&self.inverse[row * rows..]) {
                    *price += cost * inverse;
                }
            }
        }
        prices
    }

    /// The prices in fixed point: what one piece more of each kind costs, and what one more of each resource saves.
    pub(super) fn fixed_prices(&self) -> Vec<i64> {
        in_fixed_point(&self.prices())
    }

    fn entering(&self, prices: &[f64]) -> Option<Basic> {
        let mut best = (-EPSILON, None);
        for (index, column) in self.columns.iter().enumerate() {
            let gives: f64 = column.entries.iter().map(|(row, entry)| prices[*row] * *entry as f64).sum();
            let reduced = column.cost as f64 - gives;
            // A relative margin: large columns are known less exactly.
            if reduced < best.0 - EPSILON * gives.abs() {
                best = (reduced, Some(Basic::Column(index)));
            }
        }
        for (row, price) in prices.iter().enumerate() {
            if *price < best.0 - EPSILON {
                best = (*price, Some(Basic::Surplus(row)));
            }
        }
        best.1
    }

    fn enter(&mut self, entering: Basic) -> bool {
        let rows = self.sides.len();
        let mut direction = vec![0.0; rows];
        let mut add = |row: usize, entry: f64| {
            for (step, inverse) in direction.iter_mut().zip(self.inverse.chunks_exact(rows)) {
                *step += inverse[row] * entry;
            }
        };
        match entering {
            Basic::Column(column) => {
                for (row, entry) in &self.columns[column].entries {
                    add(*row, *entry as f64);
                }
            }
            Basic::Surplus(row) => add(row, -1.0),
            Basic::Missing(row) => add(row, 1.0),
        }
        let mut leaving: Option<(f64, usize)> = None;
        for (row, (step, amount)) in direction.iter().zip(&self.amounts).enumerate() {
            if *step > 1e-9 {
                let ratio = amount / step;
                if leaving.is_none_or(|(least, _)| ratio < least - 1e-12) {
                    leaving = Some((ratio, row));
                }
            }
        }
        let Some((ratio, leaving)) = leaving else { return false };
        self.pivot(&direction, leaving, ratio.max(0.0));
        self.basis[leaving] = entering;
        true
    }

    fn pivot(&mut self, direction: &[f64], leaving: usize, ratio: f64) {
        let rows = self.sides.len();
        let pivot = direction[leaving];
        let new: Vec<f64> = self.inverse[leaving * rows..][..rows].iter().map(|entry| entry / pivot).collect();
        for (row, step) in direction.iter().enumerate() {
            if row == leaving {
                self.amounts[row] = ratio;
                self.inverse[row * rows..][..rows].copy_from_slice(&new);
            } else if *step != 0.0 {
                self.amounts[row] = (self.amounts[row] - step * ratio).max(0.0);
                for (entry, new) in self.inverse[row * rows..][..rows].iter_mut().zip(&new) {
                    *entry -= step * new;
                }
            }
        }
    }

    /// The columns that are used, each with how much of it in thousandths, the first column first.
    pub(super) fn used(&self) -> Vec<(usize, i64)> {
        let mut used = Vec::new();
        for (basic, amount) in self.basis.iter().zip(&self.amounts) {
            if let Basic::Column(column) = *basic {
                used.push((column, (amount * 1000.0 + 0.01) as i64));
            }
        }
        used.sort_unstable();
        used
    }
}

fn in_fixed_point(prices: &[f64]) -> Vec<i64> {
    prices.iter().map(|price| (price * PRICE as f64) as i64).collect()
}
