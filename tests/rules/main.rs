//! The rules, as a writer meets them: the examples of the rule book, and the boundaries of each rule.

mod acceptance;
mod cutting;
mod desk;
mod ends;
mod fabric;
mod fold;
mod layout;
mod pages;
mod strips;
