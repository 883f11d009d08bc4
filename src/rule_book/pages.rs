//! The pages of the rule book, a constant each by the name of the rule's file: `src/rule_book/build/` wrote them from `rules/*.yaml`.

use super::page::{Example, Page, PageValue};
use super::value::{Value, WordList};
use crate::finding::Level;
use crate::quantity::{Count, Length};
use crate::quilt_math::rectangle::Rectangle;

include!(concat!(env!("OUT_DIR"), "/pages.rs"));
