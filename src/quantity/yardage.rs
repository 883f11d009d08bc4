//! Fabric measured along the bolt.

use std::ops::{Add, Sub};

use super::Length;

/// An amount of fabric, as a length along the bolt at its full width.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Yardage(pub Length);

impl Yardage {
    /// The next multiple of what the shop sells by.
    #[must_use]
    pub fn up_to(self, sold_by: Yardage) -> Yardage {
        Yardage(self.0.up_to(sold_by.0))
    }
}

impl Add for Yardage {
    type Output = Yardage;
    fn add(self, other: Yardage) -> Yardage {
        Yardage(self.0 + other.0)
    }
}

impl Sub for Yardage {
    type Output = Yardage;
    fn sub(self, other: Yardage) -> Yardage {
        Yardage(self.0 - other.0)
    }
}
