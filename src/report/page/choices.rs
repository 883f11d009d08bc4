//! The rules of the style for what a reader chooses to see: a size, a section. They are made for as many as there are.

use std::fmt::Write;

/// For so many sizes and sections: what is of another than the chosen one is not shown.
pub(super) fn choice_rules(sizes: usize, parts: usize) -> String {
    let mut rules = String::new();
    let mut rule = |chosen: String, kind: &str, place: usize| {
        // A string takes all that is written to it.
        let _ = writeln!(
            rules,
            ".sheet:has(.pick-{chosen}:checked) .{kind}:not(.{kind}{place}, .{kind}0) {{ display: none; }}"
        );
    };
    for size in 1..=sizes {
        rule(format!("size-{size}"), "s", size);
    }
    for part in 1..=parts {
        rule(format!("part-{part}"), "k", part);
    }
    rules
}

#[cfg(test)]
mod tests {
    use super::choice_rules;

    #[test]
    fn there_is_a_rule_for_each_size_and_section() {
        assert_eq!(
            choice_rules(1, 1),
            ".sheet:has(.pick-size-1:checked) .s:not(.s1, .s0) { display: none; }\n\
             .sheet:has(.pick-part-1:checked) .k:not(.k1, .k0) { display: none; }\n"
        );
    }
}
