//! What joins take, and the tails and openings that teachers ask for.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::manuscript::model::Join;
use sparestrip::quantity::Count;
use sparestrip::quilt_math::binding::{join_loss, joined};
use sparestrip::rule_book::Settings;

use crate::against_handbooks::length;

#[rstest]
// Crayon Box Quilt Studio, "What is lost" (2012): two strips joined on the diagonal.
#[case::three_wide("10", "3", "17")]
#[case::five_wide("7", "5", "9")]
#[case::one_and_a_half_wide("20", "1 1/2", "38 1/2")]
// Quilting Board t109880: an 8 in wide border loses 8 in at a 45-degree seam (the lengths here are our own).
#[case::border("40", "8", "72")]
fn a_diagonal_join_takes_the_strip_width(#[case] strip: &str, #[case] width: &str, #[case] together: &str) {
    let loss = join_loss(Join::Diagonal, length(width), length("1/4"));
    assert_eq!(joined(Count(2), length(strip), loss), length(together));
}

/// Two seam allowances of 1/4 in (plain geometry).
#[test]
fn a_straight_join_takes_two_seams() {
    let loss = join_loss(Join::Straight, length("2 1/2"), length("1/4"));
    assert_eq!(joined(Count(3), length("40"), loss), length("119"));
}

fn finds(tails: &str, opening: &str, strip_width: &str) -> Vec<&'static str> {
    let text = format!(
        "pattern: Ferry Stripes\nmeasure: inch\nsizes: {{ throw: {{ finished: 54 x 72 }} }}\nbinding:\n  strip_width: {strip_width}\n  \
         tails: {tails}\n  opening: {opening}\n  requires: {{ throw: {{ strips: 9 }} }}\n"
    );
    let outcome = check(&Source::from_text("ferry.pattern.yaml", text), &Settings::default());
    outcome.findings.iter().map(|finding| finding.rule).filter(|rule| *rule != "join-near-corner").collect()
}

/// Valerie Raye, Maple Leaf Quilters, "Joining the Ends of your Binding": a 6 in tail, about 12 in open, and the
/// tails overlap by exactly the cut width. With strips of 2 1/2 in the other tail must then be 8 1/2 in.
#[test]
fn maple_leaf_tails_close() {
    assert_eq!(finds("{ start: 6, end: 8 1/2 }", "12", "2 1/2"), [] as [&str; 0]);
    assert_eq!(finds("{ start: 6, end: 8 31/64 }", "12", "2 1/2"), ["tails-too-short"]);
}

/// Angie Quilts, "Brilliant binding": tails of 5 to 8 in, which overlap by the strip width, 2 1/2, 2 1/4 or 3 in.
/// Two tails of 8 in then close up to 13 1/2, 13 3/4 or 13 in of open edge, and two of 5 in up to 7 1/2, 7 3/4 or 7.
#[rstest]
#[case("8", "13 1/2", "2 1/2")]
#[case("8", "13 3/4", "2 1/4")]
#[case("8", "13", "3")]
#[case("5", "7 1/2", "2 1/2")]
#[case("5", "7 3/4", "2 1/4")]
#[case("5", "7", "3")]
fn angie_quilts_tails_close(#[case] tails: &str, #[case] opening: &str, #[case] strip_width: &str) {
    let wide_fold = ["hollow-edge"];
    let rest =
        |found: Vec<&'static str>| found.into_iter().filter(|rule| !wide_fold.contains(rule)).collect::<Vec<_>>();
    assert_eq!(rest(finds(tails, opening, strip_width)), [] as [&str; 0]);
    let sixty_fourths = length(opening).pieces_of(length("1/64")).0 + 1;
    let wider = format!("{} {}/64", sixty_fourths / 64, sixty_fourths % 64);
    assert_eq!(rest(finds(tails, &wider, strip_width)), ["tails-too-short"]);
}

/// A Graceful Stitch (2010), "Binding your quilt, part three": 14 to 16 in open. Schnitzel & Boo (2017), "How to join
/// ends of quilt binding": 20 in open is ideal. Both fit a throw; the tails must be longer than the usual 10 in for 20.
#[test]
fn wider_openings_ask_for_longer_tails() {
    assert_eq!(finds("10", "14", "2 1/2"), [] as [&str; 0]);
    assert_eq!(finds("10", "16", "2 1/2"), [] as [&str; 0]);
    assert_eq!(finds("10", "20", "2 1/2"), ["tails-too-short"]);
    assert_eq!(finds("11 1/4", "20", "2 1/2"), [] as [&str; 0]);
}
