//! One value for all sizes, or one for each; and what is the same for every size, stated once.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, one, rules_of};

/// Two sizes with a binding whose strips are cut by size. 60 x 76 in: 2 x 136 + 10 + 2 = 284 in takes 8 strips of 40 in
/// less a width at each of 7 joins, 302 1/2 in of 2 1/2 in strips, and one is to spare. 36 x 48 in: 180 in takes 5.
fn binding(widths: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 }}\n\
         binding:\n  strip_width: {widths}\n  requires:\n    crib: {{ strips: 6, fabric: 1/2 yd }}\n    lap: {{ strips: 9, \
         fabric: 3/4 yd }}\n"
    )
}

#[rstest]
#[case("2 1/2")]
#[case("{ crib: 2 1/2, lap: 2 1/2 }")]
#[case("{ every_size: 2 1/2 }")]
#[case("{ every_size: 2 1/4, lap: 2 1/2 }")]
#[case("{ crib: 2 1/4 in (5.7 cm), lap: 2 1/2 in (6.4 cm) }")]
fn strip_widths_that_are_right_by_size(#[case] widths: &str) {
    assert_silent(&binding(widths));
}

/// 1 1/2 in folds to 3/4 in, which three seams of 1/4 in take up.
#[test]
fn a_fold_is_short_at_the_strip_width_of_its_size() {
    let text = binding("{ crib: 2 1/2, lap: 1 1/2 }");
    let found = one(&text, "fold-short");
    assert_eq!((found.at.at.text(&text), found.size.as_deref()), ("1 1/2", Some("lap")));
    assert_says(&found, &["Strips 1 1/2 in wide stated"]);
}

/// 9 strips x 3 in = 27 in, all of 3/4 yd, and 6 x 3 in all of 1/2 yd; in 2 1/2 in both have room to square up.
#[rstest]
#[case("{ crib: 2 1/2, lap: 3 }", "lap", "3/4 yd")]
#[case("{ crib: 3, lap: 2 1/2 }", "crib", "1/2 yd")]
fn fabric_goes_by_the_strip_width_of_its_size(#[case] widths: &str, #[case] size: &str, #[case] place: &str) {
    let text = binding(widths);
    let found = one(&text, "no-squaring-room");
    assert_eq!((found.at.at.text(&text), found.size.as_deref()), (place, Some(size)));
}

#[test]
fn a_size_that_is_left_out_is_asked_for_at_the_word() {
    let text = binding("{ crib: 2 1/2 }");
    let found = one(&text, "size-not-stated");
    assert_eq!(found.at.at.text(&text), "strip_width");
    assert_says(&found, &["lap"]);
    let misspelt = binding("{ crib: 2 1/2, lpa: 2 1/2 }");
    assert_eq!(one(&misspelt, "unknown-size").at.at.text(&misspelt), "lpa");
}

/// Borders cut along the fabric, as long as each quilt is: 48 1/2 in and 1/2 in for squaring up are 1 3/8 yd (49 1/2 in),
/// 76 1/2 in and 1/2 in are 2 1/4 yd (81 in).
fn borders(sizes: &str, lap: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 }}\n\
         fabrics:\n  ink:\n    requires: {{ crib: 1 3/8 yd, lap: {lap} }}\n    cut:\n      - {{ piece: side, size: {sizes}, \
         grain: lengthwise, pieces: {{ every_size: 2 }} }}\n"
    )
}

#[test]
fn a_cut_size_by_size_is_what_its_size_takes() {
    let sizes = "{ crib: 4 1/2 x 48 1/2, lap: 4 1/2 x 76 1/2 }";
    assert_silent(&borders(sizes, "2 1/4 yd"));
    let text = borders(sizes, "2 yd");
    let found = one(&text, "fabric-short");
    assert_eq!((found.at.at.text(&text), found.size.as_deref()), ("2 yd", Some("lap")));
    // The fabric of the one size stays what it takes.
    let text = borders("{ crib: 4 1/2 x 60 1/2, lap: 4 1/2 x 76 1/2 }", "2 1/4 yd");
    assert_eq!(one(&text, "fabric-short").size.as_deref(), Some("crib"));
}

/// 120 pieces of 3 1/2 in, 11 to a strip, are 11 strips, 38 1/2 in: 1 1/8 yd. A size that takes none needs no cut size.
#[test]
fn a_size_that_takes_none_of_a_piece_needs_no_cut_size() {
    let text = |crib: u64| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 \
             }}\nfabrics:\n  ink:\n    requires: {{ crib: 0, lap: 1 1/8 yd }}\n    cut:\n      - {{ piece: A, size: {{ lap: 3 \
             1/2 x 3 1/2 }}, pieces: {{ crib: {crib}, lap: 120 }} }}\n"
        )
    };
    assert_silent(&text(0));
    let found = one(&text(4), "size-not-stated");
    assert_says(&found, &["crib"]);
}

/// The corner is sewn 3 in finished, so its patch is cut 3 1/2 in, whatever the size.
#[test]
fn a_piece_of_a_unit_is_judged_at_the_cut_size_of_each_size() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: { finished: 36 x 48 }\n  lap: { finished: 60 x 76 }\n\
                units:\n  corner: { make: patch, finished: 3, cut: { patch: A } }\nfabrics:\n  ink:\n    requires: { crib: 1/2 \
                yd, lap: 1/2 yd }\n    cut:\n      - { piece: A, size: { crib: 3 1/2 x 3 1/2, lap: 3 1/4 x 3 1/2 }, pieces: { \
                every_size: 40 } }\n";
    let found = one(text, "seam-left-out");
    assert_eq!(found.at.at.text(text), "3 1/4 x 3 1/2");
}

/// A side border is as long as the quilt inside it: 48 in and two seams.
#[test]
fn a_border_is_short_at_the_cut_size_of_its_size() {
    let text = |lap: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 44 x 56 }}\n  lap: {{ finished: 68 x 80 \
             }}\nlayout:\n  every_size: {{ blocks: plain, borders: [{{ width: 4, pieced: no, piece: side, piece_across: end }}] \
             }}\n  crib: {{ across: 3, down: 4 }}\n  lap: {{ across: 5, down: 6 }}\nunits:\n  square: {{ make: patch, finished: \
             12, cut: {{ patch: A }} }}\nblocks:\n  plain: {{ finished: 12, rows: [[square]] }}\nfabrics:\n  ink:\n    requires: \
             {{ crib: 4 yd, lap: 7 yd }}\n    cut:\n      - {{ piece: A, size: 12 1/2 x 12 1/2, pieces: {{ crib: 12, lap: 30 }} \
             }}\n      - {{ piece: side, size: {{ crib: 4 1/2 x 48 1/2, lap: {lap} }}, grain: lengthwise, pieces: {{ every_size: 2 \
             }} }}\n      - {{ piece: end, size: {{ crib: 4 1/2 x 44 1/2, lap: 4 1/2 x 68 1/2 }}, grain: lengthwise, pieces: {{ \
             every_size: 2 }} }}\n"
        )
    };
    let right = text("4 1/2 x 72 1/2");
    assert!(rules_of(&right).iter().all(|rule| rule.starts_with("fabric-")), "{:?}", rules_of(&right));
    let short = text("4 1/2 x 72");
    let found = one(&short, "border-short");
    assert_eq!((found.at.at.text(&short), found.size.as_deref()), ("4 1/2 x 72", Some("lap")));
}

/// A size states what differs from what stands under `every_size`.
#[test]
fn what_is_the_same_for_every_size_is_stated_once() {
    let text = |lap: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: {{ finished: 36 x 48 }}\n  lap: {{ finished: 60 x 76 \
             }}\nbinding:\n  strip_width: 2 1/2\n  requires:\n    every_size: {{ strips: 6, fabric: 1/2 yd }}\n    lap: {lap}\n"
        )
    };
    assert_silent(&text("{ strips: 9, fabric: 3/4 yd }"));
    // 6 strips are what stands for every size, and the lap needs 9.
    let found = one(&text("{ fabric: 3/4 yd }"), "binding-short");
    assert_eq!(found.size.as_deref(), Some("lap"));
    assert_eq!(found.at.at.text(&text("{ fabric: 3/4 yd }")), "6");
}

/// A mistake in what stands once is told once, and what stands under it is read for a size that is not named.
#[test]
fn a_mistake_in_what_is_stated_once_is_told_once() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  crib: { finished: 36 x 48 }\n  lap: { finished: 60 x 76 }\n\
                batting: { requires: { every_size: 44 by }, overhang: 4 }\nbacking:\n  requires: { every_size: { fabric: 3 yd, \
                panel: 2 } }\n";
    assert_eq!(rules_of(text).iter().filter(|rule| **rule == "unreadable-quantity").count(), 1);
    assert_eq!(one(text, "unknown-word").at.at.text(text), "panel");
}

#[test]
fn no_size_is_named_every_size() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  every_size: { finished: 36 x 48 }\n";
    assert_eq!(one(text, "out-of-range").at.at.text(text), "every_size");
}
