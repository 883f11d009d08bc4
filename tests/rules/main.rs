//! The rules, as a writer meets them: the examples of the rule book, and the boundaries of each rule.

mod acceptance;
mod any_outline;
mod backing;
mod batting;
mod beds;
mod bias;
mod blocks;
mod cutting;
mod desk;
mod ends;
mod fabric;
mod fold;
mod layout;
mod layout_of_size;
mod order;
mod outlines;
mod pages;
mod strips;
mod subjects;
mod units;
mod worksheet;
