//! The names by which the code asks for values, each looked up when the program is compiled.

use super::pages::VALUES;
use super::value::Value;

/// Declares a value of one kind, by its place among all values. The place is looked up when the program is compiled,
/// which fails where the rule book has no value of that name and kind: no check looks for a name.
macro_rules! value_by_name {
    ($(#[$doc:meta])* $name:ident, $kind:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug)]
        pub struct $name(pub(super) usize);

        impl $name {
            /// The value of a name, for a constant.
            ///
            /// # Panics
            /// Where the rule book has no such value.
            pub const fn named(name: &str) -> $name {
                let place = place_of(name);
                assert!(matches!(VALUES[place].1, Value::$kind(_)), "the value is of another kind");
                $name(place)
            }
        }
    };
}

value_by_name!(
    /// A length in the rule book.
    LengthValue, Length
);
value_by_name!(
    /// A count in the rule book.
    CountValue, Count
);
value_by_name!(
    /// A width and a length in the rule book.
    DimensionsValue, Dimensions
);
value_by_name!(
    /// A list of words in the rule book.
    WordsValue, Words
);

/// Where a value stands among all values.
const fn place_of(name: &str) -> usize {
    let mut place = 0;
    while place < VALUES.len() {
        if is_same(VALUES[place].0.as_bytes(), name.as_bytes()) {
            return place;
        }
        place += 1;
    }
    panic!("the rule book has no value of this name")
}

/// Whether two names are the same; constants cannot compare them otherwise.
const fn is_same(one: &[u8], other: &[u8]) -> bool {
    let mut place = 0;
    while place < one.len() && place < other.len() && one[place] == other[place] {
        place += 1;
    }
    place == one.len() && place == other.len()
}
