//! The rules, as a writer meets them: the examples of the rule book, and the boundaries of each rule.

#[path = "../support/mod.rs"]
mod support;

mod about;
mod acceptance;
mod any_outline;
mod as_typed;
mod backing;
mod backing_made;
mod batting;
mod beds;
mod beside;
mod bias;
mod blocks;
mod border_of_pieces;
mod both_halves;
mod both_measures;
mod build_mistakes;
mod by_size;
mod causes;
mod color_schemes;
mod corrections;
mod cut_words;
mod cutting;
mod design_gaps;
mod desk;
mod ends;
mod extras;
mod fabric;
mod fabric_alone;
mod fabric_tight;
mod facing;
mod fold;
mod joined_strips;
mod layout;
mod layout_per_size;
mod make_counts;
mod more_makes;
mod names;
mod on_point_sashing;
mod order;
mod outlines;
mod pages;
mod pieces_together;
mod print_and_washing;
mod printed_in_both;
mod row_sashing;
mod rows;
mod shapes;
mod shares;
mod stated_strips;
mod strip_groups;
mod strip_width_choice;
mod strips;
mod subjects;
mod told_strips;
mod unfinished_sizes;
mod unit_borders;
mod units;
mod worksheet;

// The part of the build that reads a page, and the quantities that it takes from the crate's root.
#[allow(dead_code, unreachable_pub)]
#[path = "../../src/rule_book/build/page.rs"]
mod page_in_build;
use sparestrip::quantity;
