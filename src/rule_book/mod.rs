//! The rule book: a page for each rule, its level and its values, and a publisher's own settings laid over them.

mod book;
mod house;
mod list;
mod named;
mod page;
// A constant has the name of its rule's file, which the list of rules has too.
#[allow(non_upper_case_globals, clippy::unreadable_literal)]
pub(crate) mod pages;
mod settings;
mod value;

pub use book::{book, page};
pub use house::{HOUSE_RULES, HOUSE_RULES_FILE, HouseLevel, HouseRules, read_house_rules};
pub(crate) use list::for_each_rule;
pub use list::{SIGN_OFF_RULES, TEXT_RULES};
pub use named::{CountValue, DimensionsValue, LengthValue, WordsValue};
pub use page::{Example, Page, PageValue};
pub use settings::{PACKAGED, Settings};
pub use value::{Value, WordList, shown};
