//! Declaring the words of a section, each as one row: `section!`.

use super::declared_names::DeclaredNames;
use super::reader::Reader;
use super::section::Section;
use super::table::Table;

/// What a table of the manuscript is made of.
pub(crate) trait SectionWords: Sized {
    /// Its words.
    const SECTION: &'static Section;

    /// Reads the words that need no more than their own node.
    fn read_words(table: &mut Table<'_, '_>, reader: &mut Reader, known: &DeclaredNames<'_>) -> Self;

    /// What is known where the table could not be read at all.
    fn unread() -> Self;
}

/// The word of a row: the field's own name, or another that Rust does not allow as one.
macro_rules! word {
    ($field:ident) => {
        stringify!($field)
    };
    ($field:ident $word:literal) => {
        $word
    };
}

/// Declares the words of one table: each with the kind of its value, what holds where it is left out, what it says and
/// an example. `words` are read by their kinds; those `by_hand` by the section's own reader, which asks for them by
/// their rows, and which fills what the struct has `besides`.
macro_rules! section {
    (
        $(#[$doc:meta])*
        $vis:vis struct $name:ident, $title:literal, $heading:literal, $about:literal;
        words { $(
            $word:ident $(as $spelled:literal)?: $type:ty = $kind:ty, $left:expr, $says:literal, $example:literal
                $(, $set:ident($($arg:expr),*))*;
        )* }
        by_hand { $(
            $hand:ident $(as $hand_spelled:literal)? $(: $hand_type:ty)? = $shape:expr, $hand_left:expr,
                $hand_says:literal, $hand_example:literal $(, $hand_set:ident($($hand_arg:expr),*))*;
        )* }
        besides { $( $(#[$other_doc:meta])* $other:ident: $other_type:ty ),* $(,)? }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Default)]
        $vis struct $name {
            $( #[doc = $says] pub $word: $type, )*
            $( $( #[doc = $hand_says] pub $hand: $hand_type, )? )*
            $( $(#[$other_doc])* pub $other: $other_type, )*
        }

        /// The rows of the words.
        #[allow(non_upper_case_globals)] // A row is called as its word is.
        impl $name {
            const ROWS: &'static [&'static $crate::manuscript::section::Row] = &[$(Self::$word,)* $(Self::$hand,)*];
            $(
                const $word: &'static $crate::manuscript::section::Row = &$crate::manuscript::section::Row::new(
                    $crate::manuscript::section_words::word!($word $($spelled)?),
                    <$kind as $crate::manuscript::section::ValueKind>::SHAPE,
                    $left,
                    $says,
                    $example,
                )$(.$set($($arg),*))*;
            )*
            $(
                const $hand: &'static $crate::manuscript::section::Row = &$crate::manuscript::section::Row::new(
                    $crate::manuscript::section_words::word!($hand $($hand_spelled)?),
                    $shape,
                    $hand_left,
                    $hand_says,
                    $hand_example,
                )$(.$hand_set($($hand_arg),*))*;
            )*
        }

        impl $crate::manuscript::section_words::SectionWords for $name {
            const SECTION: &'static $crate::manuscript::section::Section = &$crate::manuscript::section::Section {
                name: $title,
                heading: $heading,
                about: $about,
                rows: Self::ROWS,
                any_needs: $crate::manuscript::section::any_needs(Self::ROWS),
            };

            #[allow(unused_variables)] // A section may have no words of this kind.
            fn read_words(
                table: &mut $crate::manuscript::table::Table<'_, '_>,
                reader: &mut $crate::manuscript::reader::Reader,
                known: &$crate::manuscript::declared_names::DeclaredNames<'_>,
            ) -> Self {
                table.make_room(reader);
                let read = $name {
                    $( $word: table.read::<$kind>(reader, known, Self::$word), )*
                    $( $( $hand: <$hand_type>::default(), )? )*
                    $( $other: <$other_type>::default(), )*
                };
                if Self::SECTION.any_needs {
                    table.lacks_what_others_need(Self::SECTION);
                }
                read
            }

            fn unread() -> Self {
                $name {
                    $( $word: <$kind as $crate::manuscript::section::ValueKind>::unread(), )*
                    $( $( $hand: <$hand_type>::default(), )? )*
                    $( $other: <$other_type>::default(), )*
                }
            }
        }
    };
}

pub(crate) use {section, word};
