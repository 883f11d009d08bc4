//! The rule book: a page for each rule, its level and its values, and a publisher's own settings laid over them.

mod house;
mod page;
mod values;

pub use house::{HOUSE_RULES, HOUSE_RULES_FILE, HouseLevel, HouseRules, read_house_rules};
pub use page::{Example, Page, PageValue, book, page};
pub use values::{CountValue, DimensionsValue, LengthValue, Settings, Value, shown};
