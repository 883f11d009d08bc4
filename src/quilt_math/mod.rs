//! The trade's computations, pure: lengths and counts in, lengths and counts out. No places, no files, no rules.
//!
//! One file a requirement. Each formula names its source, or says that it is plain geometry or common practice. Of what a
//! writer wrote only the words of the method (fold, join, grain) come here, from `manuscript/model.rs`.

pub mod backing;
pub mod beside;
pub mod bias;
pub mod binding;
pub mod cutting;
pub mod cutting_list;
pub mod each_share;
pub mod extras;
mod filled_strips;
pub mod fixed_point;
pub mod joined;
pub mod joins;
mod kept;
pub mod known_list;
pub mod layout;
pub mod log_cabin;
pub mod makes;
mod nesting;
pub mod outline;
pub mod piecing;
pub mod plan;
pub mod planner;
pub mod proof;
pub mod rectangle;
pub mod shapes;
pub mod shares;
pub mod small_fabrics;
pub mod strip_group;
pub mod taken;
pub mod units;
