//! sparestrip reads quilt pattern manuscripts and points at the number that is short.
//!
//! A caller reads a text as a [`Source`], checks it under [`Settings`], and gets an [`Outcome`] with its [`Finding`]s:
//!
//! ```
//! use sparestrip::{Settings, Source, check};
//!
//! let text = "\
//! pattern: Ostwick Mat
//! measure: inch
//! sizes:
//!   mat: { finished: 13 x 18 }
//! binding:
//!   strip_width: 2 1/2
//!   requires:
//!     mat: { strips: 2 }
//! ";
//! let outcome = check(&Source::from_text("mat.pattern.yaml", text), &Settings::default());
//! let finding = &outcome.findings[0];
//! assert_eq!((finding.rule, finding.size.as_deref()), ("spare-strip", Some("mat")));
//! assert_eq!(finding.at.at.text(text), "2");
//! ```
//!
//! The other modules are public for the program and its tests, and change with them.
//!
//! One direction, no way back: a text is read (`manuscript`), its quantities are exact (`quantity`), quilt math says
//! what each size needs (`quilt_math`, with the rule book's values in `requirement`), the rules compare (`rules`), and
//! the findings (`finding`, `check`) are printed (`report`). `rule_book` holds what a person may read and a publisher may
//! change; `discover` finds the files and `watch` reads them again on save.

mod acceptance;
#[doc(hidden)]
pub mod atomic_write;
#[doc(hidden)]
pub mod audit;
#[doc(hidden)]
pub mod caution;
#[doc(hidden)]
pub mod check;
#[doc(hidden)]
pub mod choices;
#[doc(hidden)]
pub mod discover;
#[doc(hidden)]
pub mod drawing;
#[doc(hidden)]
pub mod editor_service;
#[doc(hidden)]
pub mod finding;
#[doc(hidden)]
pub mod fix;
mod house_rules;
#[doc(hidden)]
pub mod keywords;
#[doc(hidden)]
pub mod manuscript;
#[doc(hidden)]
pub mod new_manuscript;
#[doc(hidden)]
pub mod place_links;
mod plain_words;
#[doc(hidden)]
pub mod quantity;
#[doc(hidden)]
pub mod quilt_math;
#[doc(hidden)]
pub mod report;
#[doc(hidden)]
pub mod requirement;
#[doc(hidden)]
pub mod rule_book;
#[doc(hidden)]
pub mod rules;
#[doc(hidden)]
pub mod run;
mod run_rules;
#[doc(hidden)]
pub mod safe_output;
mod sanitize;
#[doc(hidden)]
pub mod sign_off;
mod subject;
#[doc(hidden)]
pub mod tables;
#[doc(hidden)]
pub mod text;
mod trial;
mod uri;
#[doc(hidden)]
pub mod watch;
#[doc(hidden)]
pub mod worksheet;

pub use check::{Outcome, check};
pub use finding::{Correction, Finding, Label, Level, Subject};
pub use manuscript::{Source, Span};
pub use rule_book::Settings;
