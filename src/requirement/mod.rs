//! What each size needs: the manuscript's own numbers, the rule book's where it states none, and the trade's
//! computation on both.

pub mod backing;
pub mod batting;
pub mod bed;
pub mod bias;
pub mod binding;
pub mod blocks;
pub mod counts;
pub mod edge;
pub mod fabric;
pub mod fabrics;
pub mod layout;
pub mod layout_of_size;
pub mod scale;
pub mod series;
pub mod units;
