//! Where it is doubtful which number is meant, nothing is computed into the file.

use rstest::rstest;

use super::support::fixed::holds;
use super::support::folder_with;
use super::{NAME, fix};

/// 96 flying geese cut for sewing corners on and flipping them, one at a time: 4 1/2 x 2 1/2 in and two squares of 2 1/2 in
/// (common practice). Only the method is not stated.
const GEESE: &str = "
sizes: { lap: { finished: 48 x 16 } }
units: { g: { make: flying_geese, finished: 4 x 2, cut: { goose: G, sky: K } } }
blocks: { c: { finished: 8 x 2, rows: [[g, g]] } }
layout: { lap: { across: 6, down: 8, blocks: c } }
fabrics:
  ink:
    requires: { lap: 1 yd }
    cut:
      - { piece: G, size: 4 1/2 x 2 1/2, pieces: { lap: 96 } }
      - { piece: K, size: 2 1/2 x 2 1/2, pieces: { lap: 192 } }
";

/// With 2 1/2 and 4 1/2 meant, every number is right.
const RUN_TOGETHER: &str = "
sizes: { lap: { finished: 54 x 72 } }
binding: { strip_width: 21/2, requires: { lap: { strips: 8, fabric: 5/8 yd } } }
fabrics:
  ink:
    requires: { lap: 1 yd }
    cut: [{ piece: A, size: 41/2 x 41/2, pieces: { lap: 30 } }]
";

/// Five rows of five blocks of 12 in by every number but `times`.
const ROWS: &str = "
sizes: { lap: { finished: 60 x 60 } }
units: { p: { make: patch, finished: 12, cut: { patch: A } } }
blocks: { star: { finished: 12, makes: 25, rows: [[p]] } }
layout: { lap: { rows: [[5 star]], times: 6, measures: 60 1/2 x 60 1/2 } }
fabrics:
  ink:
    requires: { lap: 3 1/4 yd }
    cut: [{ piece: A, size: 12 1/2 x 12 1/2, strips: { lap: 9 }, pieces: { lap: 25 } }]
";

/// 960 for 96: six strips hold 48 squares of 4 7/8 in, and 96 triangles take no more.
const TEN_TIMES: &str = "
sizes: { lap: { finished: 48 x 64 } }
units: { h: { make: half_square_triangle, finished: 4, cut: { first: A, second: B } } }
blocks: { b: { finished: 8, rows: [[h, h], [h, h]] } }
layout: { lap: { across: 6, down: 8, blocks: b } }
fabrics:
  ink:
    requires: { lap: 2 1/4 yd }
    cut: [{ piece: A, size: 4 7/8 x 4 7/8, strips: { lap: 12 }, pieces: { lap: 960 } }]
  sea:
    requires: { lap: 2 1/4 yd }
    cut: [{ piece: B, size: 4 7/8 x 4 7/8, strips: { lap: 12 }, pieces: { lap: 96 } }]
";

/// Right for the small size, too few for the large one.
const EVERY_SIZE: &str = "
sizes: { wall: { finished: 36 x 45 }, lap: { finished: 54 x 72 } }
binding: { strip_width: 2 1/2, requires: { every_size: { strips: 6, fabric: 1/2 yd } } }
backing: { requires: { every_size: 3 yd } }
batting: { requires: { every_size: 50 x 60 } }
";

/// At 60 in five strips go around 54 x 72 in; `assumed` is not a word that is known.
const UNKNOWN: &str = "
assumed: { usable_width: 60 }
sizes: { lap: { finished: 54 x 72 } }
binding: { strip_width: 2 1/2, requires: { lap: { strips: 5, fabric: 3/8 yd } } }
";

/// 540 for 54: the binding would take ten times as many strips as are stated.
const TYPED_TWICE: &str = "
sizes: { lap: { finished: 540 x 72 } }
binding: { strip_width: 2 1/2, requires: { lap: { strips: 8, fabric: 5/8 yd } } }
batting: { requires: { lap: 62 x 80 } }
";

#[rstest]
#[case::another_method(GEESE, "the unit's method is not stated")]
#[case::fraction_run_together(RUN_TOGETHER, "something in the file is not understood")]
#[case::rows(ROWS, "3 findings that follow from these")]
#[case::every_size(EVERY_SIZE, "it stands for every size")]
#[case::unknown_word(UNKNOWN, "something in the file is not understood")]
#[case::ten_times_too_many(TEN_TIMES, "that much more hints at another number")]
#[case::ten_times_too_long(TYPED_TWICE, "that much more hints at another number")]
fn what_is_doubtful_is_left(#[case] text: &str, #[case] why: &str) {
    let text = format!("pattern: Test Harbour\nmeasure: inch{text}");
    let fixed = holds(&text);
    assert_eq!(fixed.source.text, text, "{:#?}", fixed.changes);
    let (folder, _) = folder_with(NAME, &text);
    let ran = fix(folder.path(), &[NAME]);
    assert!(ran.out.contains(why), "{}", ran.out);
}

/// What is a slip by an eighth is put right, though the method is not stated.
#[test]
fn a_piece_that_is_a_little_too_small_is_put_right() {
    let text = format!("pattern: Test Harbour\nmeasure: inch{TEN_TIMES}").replace("960", "96");
    let small = text.replacen("size: 4 7/8 x 4 7/8", "size: 4 3/4 x 4 3/4", 1);
    assert_eq!(holds(&small).source.text, text);
}
