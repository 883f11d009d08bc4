//! The rule book: a page for each rule, its level and its values, and a publisher's own settings laid over them.

mod house;
mod page;
// A constant has the name of its rule's file, which the list of rules has too.
#[allow(non_upper_case_globals, clippy::unreadable_literal)]
pub(crate) mod pages;
mod values;

pub use house::{HOUSE_RULES, HOUSE_RULES_FILE, HouseLevel, HouseRules, read_house_rules};
pub use page::{Example, Page, PageValue, book, page};
pub use values::{CountValue, DimensionsValue, LengthValue, Settings, Value, WordList, WordsValue, shown};
