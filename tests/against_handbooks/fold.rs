//! How wide a strip must be cut for its fold.

use rstest::rstest;
use sparestrip::manuscript::model::Fold;
use sparestrip::quantity::Length;
use sparestrip::quilt_math::binding;

use crate::against_handbooks::length;

/// The thinnest sandwich of the rule book.
const LOW: &str = "1/16";

fn reach(fold: Fold, width: Length, seam: Length, loft: Length) -> Length {
    binding::reach(fold, width, seam, loft).expect("it folds over")
}

fn width_for_reach(fold: Fold, reach: Length, seam: Length, loft: Length) -> Length {
    binding::width_for_reach(fold, reach, seam, loft).expect("it folds over")
}

/// All-in-One Quilter's Reference Tool (C&T), chart: finished 1/4 in takes 1 5/8 in double and 1 1/8 in single. That
/// is six and four times the seam and 1/8 in of ease, which a loft of 1/16 in uses up on a double strip.
///
/// Each formula's own seam is used below: 1/4 in where the finished width is fixed by a 1/4 in seam.
#[test]
fn the_reference_tool_widths_just_reach() {
    assert_eq!(width_for_reach(Fold::Double, Length::ZERO, length("1/4"), length(LOW)), length("1 5/8"));
    assert_eq!(reach(Fold::Double, length("1 5/8"), length("1/4"), length(LOW)), Length::ZERO);
    assert!(reach(Fold::Double, length("1 39/64"), length("1/4"), length(LOW)).is_negative());
    // On a single strip the loft counts once and not twice: 1/16 in of the ease is left.
    assert_eq!(reach(Fold::Single, length("1 1/8"), length("1/4"), length(LOW)), length("1/16"));
    assert_eq!(width_for_reach(Fold::Single, length("1/16"), length("1/4"), length(LOW)), length("1 1/8"));
}

#[rstest]
// Slaney Quilting Studio: finished 1/4 in, strips of 2 in used; the rule gives 1 3/4 to 2.
#[case::slaney_used(Fold::Double, "2", "1/4", LOW, "3/16")]
#[case::slaney_narrowest(Fold::Double, "1 3/4", "1/4", LOW, "1/16")]
// learnhowtoquilt.com, "Binding: how wide": 3 in, sewn with 1/2 in. Six times the seam, so nothing is left for loft:
// it just meets the stitching only where the sandwich has no thickness.
#[case::learn_how_to_quilt(Fold::Double, "3", "1/2", "0", "0")]
// Suite101 binding article (2009), (2w + 1/4) x 2 with the seam at 1/4 in whatever the finished width. Its 1 1/2 in
// for a finished 1/4 in leaves nothing for loft either.
#[case::suite101_quarter(Fold::Double, "1 1/2", "1/4", "0", "0")]
#[case::suite101_half(Fold::Double, "2 1/2", "1/4", LOW, "7/16")]
#[case::suite101_three_quarters(Fold::Double, "3 1/2", "1/4", LOW, "15/16")]
// Marti Michell, "Perfect Patchwork Bindings": 4w + 1/2 + 1/8 to 1/4 for a finished 1/2 in, seam 1/4 in.
#[case::marti_michell_least(Fold::Double, "2 5/8", "1/4", LOW, "1/2")]
#[case::marti_michell_most(Fold::Double, "2 3/4", "1/4", LOW, "9/16")]
// Lookout Mountain Quilter, single-fold: 1 3/4 in for a finished 1/2 in; 2w + 1/2 + 1/4, the edge turned under 1/4 in.
#[case::lookout_mountain(Fold::Single, "1 3/4", "1/4", LOW, "11/16")]
fn published_widths_reach(
    #[case] fold: Fold,
    #[case] width: &str,
    #[case] seam: &str,
    #[case] loft: &str,
    #[case] past: &str,
) {
    let reach = reach(fold, length(width), length(seam), length(loft));
    assert_eq!(reach, length(past));
    assert!(!reach.is_negative());
}

/// The two published widths that leave nothing for loft fall short of even a thin sandwich.
#[rstest]
#[case::suite101_quarter("1 1/2", "1/4")]
#[case::learn_how_to_quilt("3", "1/2")]
fn six_times_the_seam_leaves_nothing_for_loft(#[case] width: &str, #[case] seam: &str) {
    assert_eq!(-reach(Fold::Double, length(width), length(seam), length(LOW)), length(LOW));
}
