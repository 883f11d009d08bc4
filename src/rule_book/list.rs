//! The list of the rules, by the names of their files.

/// Calls a macro with the files of all rules, in the order in which the rules are listed and run.
macro_rules! for_each_rule {
    ($then:ident) => {
        $then![
            binding_short,
            spare_strip,
            fold_short,
            fold_barely_covers,
            hollow_edge,
            binding_fabric_short,
            no_squaring_room,
            binding_fabric_generous,
            pair_disagrees,
            tails_too_short,
            opening_too_long,
            join_near_corner,
            not_on_ruler,
            bias_short,
            square_too_small,
            curved_edge_needs_bias,
            backing_short,
            backing_panels,
            backing_generous,
            backing_smaller_than_batting,
            batting_short,
            bed_not_covered,
            strips_short,
            strip_width_unclear,
            piece_longer_than_strip,
            fabric_short,
            fabric_tight,
            fabric_generous,
            sizes_out_of_order,
            unit_cut_short,
            seam_left_out,
            unit_cut_generous,
            trim_size_wrong,
            yield_wrong,
            block_does_not_sum,
            finished_size_wrong,
            block_count_wrong,
            border_short,
            sash_short,
            pieces_short,
            pieces_generous,
            piece_not_cut,
            piece_unused,
            scaled_size,
            not_checked,
            not_yaml,
            unknown_word,
            missing_entry,
            wrong_shape,
            unreadable_quantity,
            fraction_run_together,
            out_of_range,
            size_not_stated,
            unknown_size,
            repeated_key,
            accepted_unused,
            not_signed,
            changed_since_signed,
        ];
    };
}

pub(crate) use for_each_rule;

/// The rules about sign-offs, which find something only where that was asked for. No house rule lowers their level.
pub const SIGN_OFF_RULES: [&str; 2] = ["not-signed", "changed-since-signed"];
