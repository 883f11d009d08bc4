//! sparestrip reads quilt pattern manuscripts and points at the number that is short.
//!
//! One direction, no way back: a text is read ([`manuscript`]), its quantities are exact ([`quantity`]), the trade
//! says what each size needs ([`trade`], with the rule book's values in [`requirement`]), the rules compare
//! ([`rules`]), and the findings ([`finding`], [`check`]) are printed ([`report`]). [`rule_book`] holds what a
//! person may read and a publisher may change; [`gather`] finds the files and [`watch`] reads them again on save.

mod acceptance;
pub mod atomic_write;
pub mod audit;
pub mod caution;
pub mod check;
pub mod choices;
pub mod discover;
pub mod drawing;
pub mod finding;
pub mod keywords;
pub mod manuscript;
pub mod quantity;
pub mod quilt_math;
pub mod report;
pub mod requirement;
pub mod rule_book;
pub mod rules;
pub mod run;
pub mod safe_output;
mod sanitize;
pub mod sign_off;
mod subject;
pub mod tables;
mod trial;
pub mod watch;
pub mod worksheet;
