//! The rules, as a writer meets them: the examples of the rule book, and the boundaries of each rule.

mod acceptance;
mod any_outline;
mod bias;
mod blocks;
mod desk;
mod ends;
mod fabric;
mod fold;
mod layout;
mod layout_of_size;
mod outlines;
mod pages;
mod strips;
mod units;
