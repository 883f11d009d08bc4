//! What several rules say in the same words.

pub(super) mod backing;
pub(super) mod beside;
pub(super) mod binding;
pub(super) mod bound;
pub(super) mod count;
pub(super) mod fabric;
pub(super) mod fold;
pub(super) mod group;
pub(super) mod layout;
pub(super) mod layout_pieces;
pub(super) mod pair;
pub(super) mod pair_of_lengths;
pub(super) mod plan;
pub(super) mod seam;
pub(super) mod shape;
pub(super) mod sign_off;
pub(super) mod subject;
pub(super) mod text;
pub(super) mod unit;
