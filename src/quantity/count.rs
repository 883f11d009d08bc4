//! How many of a thing there are: strips, joins, corners, panels.

use std::fmt;
use std::ops::{Add, Mul};

/// A whole number of things.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Count(pub u64);

impl Count {
    /// The largest count that a manuscript may state.
    pub const MAX: Count = Count(100_000);

    /// This count less another, and nothing where the other is larger.
    #[must_use]
    pub fn less(self, other: Count) -> Count {
        Count(self.0.saturating_sub(other.0))
    }

    /// The count with the word it counts, in the singular for one: `1 strip`, `9 strips`.
    pub fn of(self, word: &str) -> String {
        let mut text = String::with_capacity(word.len() + 8);
        push_digits(&mut text, self.0);
        text.push(' ');
        text.push_str(word);
        if self.0 != 1 {
            text.push('s');
        }
        text
    }

    /// How many groups of `size` hold this many: 7 in groups of 3 makes 3. A group of none holds nothing: `None`.
    pub fn in_groups_of(self, size: Count) -> Option<Count> {
        (size.0 > 0).then(|| Count(self.0.div_ceil(size.0)))
    }
}

/// Adds a number to a text: a message holds many, and the formatter takes longer for each than the digits do.
pub(super) fn push_digits(text: &mut String, number: u64) {
    if number > 9 {
        push_digits(text, number / 10);
    }
    text.push(u8::try_from(number % 10).map_or('0', |digit| char::from(b'0' + digit)));
}

impl Add for Count {
    type Output = Count;
    fn add(self, other: Count) -> Count {
        Count(self.0.saturating_add(other.0))
    }
}

impl Mul for Count {
    type Output = Count;
    fn mul(self, other: Count) -> Count {
        Count(self.0.saturating_mul(other.0))
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
