//! Numbers across the sizes: `sizes-out-of-order`.

use rstest::rstest;
use sparestrip::finding::Level;

use crate::desk::{assert_says, assert_silent, of_rule, one, rules_of};

/// A throw of 54 x 72 and a queen of 90 x 96: 8 strips and 12 with the spare; backing of 160 in (4 1/2 yd) and 294 in
/// (8 1/4 yd); batting of 62 x 80 and 98 x 104.
fn two(section: &str, throw: &str, queen: &str) -> String {
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  throw: {{ finished: 54 x 72 }}\n  queen: {{ finished: 90 x 96 }}\n\
         {section}\n  requires:\n    throw: {throw}\n    queen: {queen}\n"
    )
}

const BINDING: &str = "binding:\n  strip_width: 2 1/2";
const BACKING: &str = "backing:\n  overhang: 4";
const BATTING: &str = "batting:\n  overhang: 4";

#[rstest]
#[case::right(BINDING, "{ strips: 8 }", "{ strips: 12 }", None)]
#[case::strips_shrink(BINDING, "{ strips: 14 }", "{ strips: 12 }", Some(("12", "Binding strips: 12 stated for queen (90 x 96 in), and 14 for throw (54 x 72 in), which is smaller: a larger quilt does not take less.")))]
#[case::strips_copied(BINDING, "{ strips: 12 }", "{ strips: 12 }", Some(("12", "Binding strips: 12 stated for queen (90 x 96 in) and for throw (54 x 72 in), and they do not need the same: was a number copied?")))]
#[case::fabric_copied(BINDING, "{ strips: 8, fabric: 7/8 yd }", "{ strips: 12, fabric: 7/8 yd }", Some(("7/8 yd", "Binding fabric: 7/8 yd stated for queen")))]
#[case::backing_shrinks(BACKING, "9 yd", "8 1/4 yd", Some(("8 1/4 yd", "8 1/4 yd stated for queen (90 x 96 in), and 9 yd for throw (54 x 72 in), which is smaller")))]
#[case::backing_copied(BACKING, "8 1/4 yd", "8 1/4 yd", Some(("8 1/4 yd", "Backing fabric: 8 1/4 yd stated for queen")))]
#[case::panels_copied(BACKING, "{ panels: 3 }", "{ panels: 3 }", None)] // three across would serve the throw as well
#[case::panels_copied_along(BACKING, "{ panels: 3, panels_run: along }", "{ panels: 3, panels_run: along }", Some(("3", "Backing panels: 3 stated for queen")))]
#[case::batting_shrinks(BATTING, "100 x 110", "98 x 104", Some(("98 x 104", "98 x 104 in stated for queen (90 x 96 in), and 100 x 110 in for throw (54 x 72 in)")))]
#[case::batting_copied(BATTING, "98 x 104", "104 x 98", Some(("104 x 98", "Batting: ")))]
#[case::batting_larger_one_way(BATTING, "62 x 110", "98 x 104", None)]
#[case::package_copied(BATTING, "packaged king", "packaged king", Some(("packaged king", "Batting: ")))]
fn sizes_are_compared(
    #[case] section: &str,
    #[case] throw: &str,
    #[case] queen: &str,
    #[case] told: Option<(&str, &str)>,
) {
    let text = two(section, throw, queen);
    let Some((at, says)) = told else {
        assert!(of_rule(&text, "sizes-out-of-order").is_empty());
        return;
    };
    let finding = one(&text, "sizes-out-of-order");
    assert_eq!((finding.level, finding.size.as_deref()), (Level::Query, Some("queen")));
    assert_eq!(finding.at.at.text(&text), at);
    assert_eq!(finding.related.len(), 1);
    assert!(finding.related[0].at.start < finding.at.at.start, "it points at the throw too");
    assert_says(&finding, &[says]);
}

/// What is enough for the strips that are stated hangs on these, and the finding at them says what to buy.
#[test]
fn fabric_that_is_enough_for_too_few_strips_is_not_compared() {
    let binding = two(BINDING, "{ strips: 8, fabric: 5/8 yd }", "{ strips: 3, fabric: 1/4 yd }");
    assert_eq!(rules_of(&binding), ["binding-short"]);
    // 44 pieces are 4 strips of 3 1/2 in and 110 are 10.
    let cut = "    cut: [{ piece: A, size: 3 1/2 x 3 1/2, pieces: { throw: 44, queen: 110 }, strips: { throw: 4, queen: 3 } }]";
    let fabrics = two("fabrics:\n  ink:", "1/2 yd", "3/8 yd").replace("\n  requires", "\n    requires");
    let fabrics =
        fabrics.replace("\n    throw: 1/2", "\n      throw: 1/2").replace("\n    queen: 3/8", "\n      queen: 3/8");
    assert_eq!(rules_of(&format!("{fabrics}{cut}\n")), ["strips-short"]);
}

/// Neither the one nor the other of two sizes with too few strips gets a finding more once the other is corrected.
#[test]
fn strips_of_two_sizes_are_corrected_one_by_one() {
    let text = two(BINDING, "{ strips: 5, fabric: 3/8 yd }", "{ strips: 4, fabric: 3/8 yd }");
    let findings = of_rule(&text, "binding-short");
    let replacements: Vec<&str> =
        findings.iter().map(|found| found.correction.as_ref().map_or("none", |it| it.replacement.as_str())).collect();
    assert_eq!(replacements, ["8, fabric: 5/8 yd", "12, fabric: 7/8 yd"]);
}

#[test]
fn a_number_that_is_wrong_anyway_is_not_compared() {
    assert_eq!(rules_of(&two(BINDING, "{ strips: 14 }", "{ strips: 9 }")), ["binding-short"]);
    assert_eq!(rules_of(&two(BATTING, "62 x 80", "62 x 80")), ["batting-short"]);
    assert_eq!(rules_of(&two(BACKING, "4 1/2 yd", "4 1/2 yd")), ["backing-short"]);
}

#[test]
fn sizes_of_which_neither_is_larger_are_not_compared() {
    let text =
        two(BINDING, "{ strips: 10 }", "{ strips: 9 }").replace("54 x 72", "40 x 96").replace("90 x 96", "60 x 70");
    assert_silent(&text);
}

/// A directional print takes more for the smaller size than the larger needs across: both are exactly right.
#[test]
fn a_larger_size_that_does_need_less_is_not_asked_about() {
    // 54 x 72: along, 2 x 80 = 160 in. 55 x 72 at 42 in, across: 2 x 63 = 126 in.
    let text = two(
        "backing:\n  overhang: 4\n  usable_width: 42",
        "{ fabric: 4 1/2 yd, panels_run: along }",
        "{ fabric: 3 1/2 yd, panels_run: across }",
    );
    assert_silent(&text.replace("90 x 96", "55 x 72"));
}

/// The same package serves two sizes where no smaller one would do for the smaller.
#[test]
fn one_package_may_serve_two_sizes() {
    let text = two(BATTING, "packaged twin", "packaged twin").replace("90 x 96", "60 x 72");
    assert_silent(&text);
}
