//! The rules, as a writer meets them: the examples of the rule book, and the boundaries of each rule.

mod acceptance;
mod backing;
mod batting;
mod beds;
mod desk;
mod ends;
mod fabric;
mod fold;
mod layout;
mod order;
mod pages;
mod strips;
mod worksheet;
