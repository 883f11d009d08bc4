//! The rule book: the pages of all rules, in their order.

use super::list::for_each_rule;
use super::page::Page;
use super::pages;

macro_rules! pages_of {
    ($($file:ident),+ $(,)?) => {
        static BOOK: &[Page] = &[$(pages::$file),+];
    };
}

for_each_rule!(pages_of);

/// All pages, in the order of the rules.
pub fn book() -> &'static [Page] {
    BOOK
}

/// The page of a rule.
pub fn page(name: &str) -> Option<&'static Page> {
    book().iter().find(|page| page.name == name)
}
