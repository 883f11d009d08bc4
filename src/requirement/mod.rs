//! What each size needs: the manuscript's own numbers, the rule book's where it states none, and the trade's
//! computation on both.

pub mod binding;
pub mod fabric;
pub mod layout;
