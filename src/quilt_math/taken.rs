//! What a cutting list takes of a fabric, with the plan of its pieces.

use std::sync::Arc;

use super::plan::{Plan, Strips};
use crate::quantity::{Count, Length};

/// What a cutting list takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// How the pieces lie; their numbers are those of the cutting list. It is kept with the list and told of each size.
    pub plan: Arc<Plan>,
    /// How long each strip is.
    pub strip_length: Length,
    /// How many small fabrics it takes; `None` on the bolt.
    pub small: Option<Count>,
    /// The entries whose strips are joined end to end, since their pieces are longer than a strip.
    pub joined: Vec<usize>,
}

impl Taken {
    /// How much of the fabric's length its pieces would take if they covered it without a gap: no plan takes less. Zero
    /// where that is too large to say.
    pub fn covered(&self) -> Length {
        let area = |strips: &Strips| {
            let of_one = strips.cuts.iter().try_fold(0i128, |sum, cut| {
                let area = cut.across.ticks().checked_mul(cut.along.ticks())?;
                area.checked_mul(i128::from(cut.count.0))?.checked_add(sum)
            });
            of_one?.checked_mul(i128::from(strips.count.0))
        };
        let all = self.plan.strips.iter().try_fold(0i128, |sum, strips| sum.checked_add(area(strips)?));
        Length::from_ticks(all.and_then(|all| all.checked_div(self.strip_length.ticks())).unwrap_or(0))
    }
}
