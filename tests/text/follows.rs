//! What follows from a manuscript, as a text may say it: `sparestrip read` shows each number as right and says why.

use std::fs;

use assert_cmd::Command;
use tempfile::TempDir;

/// Stars of geese, triangles and a patch, 3 across and 4 down, with sashing and a border; a log cabin besides.
///
/// Blocks 3 x 12 and two sashes of 2 are 40; 4 x 12 and three sashes are 54. With a border of 4 all round: 48 x 62.
const STARS: &str = "\
pattern: Curlew Bay
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes:
  lap: { finished: 48 x 62 }
units:
  goose: { make: flying_geese, method: four_at_a_time, finished: 6 x 3, cut: { goose: G, sky: K } }
  tri: { make: half_square_triangle, finished: 3, cut: { first: L, second: D } }
  heart: { make: patch, finished: 6, cut: { patch: H } }
  cabin: { make: log_cabin, finished: 6, center: 2, logs: [1, 1, 1, 1, 1, 1, 1, 1] }
blocks:
  star: { finished: 12, rows: [[tri, goose, tri], [goose turned, heart, goose turned], [tri, goose, tri]] }
layout:
  lap:
    across: 3
    down: 4
    blocks: star
    sashing: 2
    cornerstones: yes
    borders: [{ width: 4, piece: edge }]
fabrics:
  ink:
    requires: { lap: 1 1/2 yd }
    cut:
      - { piece: G, size: 7 1/4 x 7 1/4, strips: { lap: 3 }, pieces: { lap: 12 } }
      - { piece: H, size: 6 1/2 x 6 1/2, strips: { lap: 2 }, pieces: { lap: 12 } }
      - { piece: D, size: 4 x 4, strips: { lap: 3 }, pieces: { lap: 24 } }
  sand:
    requires: { lap: 1 1/4 yd }
    cut:
      - { piece: K, size: 3 7/8 x 3 7/8, strips: { lap: 5 }, pieces: { lap: 48 } }
      - { piece: L, size: 4 x 4, strips: { lap: 3 }, pieces: { lap: 24 } }
  moss:
    requires: { lap: 7/8 yd }
    cut:
      - { piece: edge, strip_width: 4 1/2, strips: { lap: 6 } }
binding:
  strip_width: 2 1/2
  requires: { lap: { strips: 6, fabric: 1/2 yd } }
backing:
  overhang: 4
  requires: { lap: { fabric: 4 yd, panels: 2 } }
";

/// Blocks on point, 3 across and 4 down: 3 x 4 and 2 x 3 of them, 2 x (3 + 4 - 2) triangles at the sides. Hexagons besides.
const POINT: &str = "\
pattern: Rook Field
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes:
  wall: { finished: 34 x 45 1/4 }
units:
  plain: { make: patch, finished: 8, cut: { patch: P } }
  side: { make: side_triangle, finished: 8, cut: { square: Q } }
  tip: { make: corner_triangle, finished: 8, cut: { square: R } }
blocks:
  square: { finished: 8, rows: [[plain]] }
layout:
  wall: { set: on_point, across: 3, down: 4, blocks: square, side_triangles: side, corner_triangles: tip }
fabrics:
  oat:
    requires: { wall: 1 1/2 yd }
    cut:
      - { piece: P, size: 8 1/2 x 8 1/2, pieces: { wall: 18 } }
      - { piece: Q, size: 12 5/8 x 12 5/8, pieces: { wall: 3 }, cut_again: twice }
      - { piece: R, size: 6 5/8 x 6 5/8, pieces: { wall: 2 }, cut_again: once }
  berry:
    requires: { wall: 1/2 yd }
    cut:
      - { piece: comb, shape: hexagon, size: 2, pieces: { wall: 20 } }
";

/// What `sparestrip read` prints of a text, its white space as single spaces.
#[allow(clippy::disallowed_methods)] // Nobody reads a test's files while they are written.
fn read(manuscript: &str, text: &str) -> String {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("a.pattern.yaml"), manuscript).unwrap();
    fs::write(folder.path().join("a.md"), text).unwrap();
    let words = ["read", "a.md", "--manuscript", "a.pattern.yaml"];
    let output = Command::cargo_bin("sparestrip").unwrap().current_dir(folder.path()).args(words).output().unwrap();
    let printed = String::from_utf8(output.stdout).unwrap();
    printed.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Asserts that a number of each text is right, and for which reason.
fn are_right(manuscript: &str, texts: &[(&str, &str, &str)]) {
    let mut wrong = Vec::new();
    for (text, number, why) in texts {
        let printed = read(manuscript, text);
        let found = printed.split(" 1:").any(|line| line.contains(&format!("OK {number} ")) && line.contains(why));
        if !found {
            wrong.push(format!("{text}\n  {number}: {why}\n  {printed}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn units_and_pieces_are_counted_in_each_block_unit_and_set() {
    are_right(
        STARS,
        &[
            // Four of the eight places round the heart.
            ("Each star block takes 4 geese.", "4", "unit goose (in each block): 4"),
            ("Each set gives 4 flying geese.", "4", "unit goose (from one set): 4"),
            // 4 x 12 geese, 4 from each set; 4 x 12 triangles, 2 from each pair.
            ("Make 12 sets of geese.", "12", "unit goose (sets that give them), lap: 12"),
            ("Make 24 pairs of half-square triangles.", "24", "unit tri (sets that give them), lap: 24"),
        ],
    );
}

#[test]
fn pieces_are_counted_from_each_strip() {
    are_right(
        STARS,
        &[
            // 12 from 3 strips; 40 over 3 7/8.
            ("Cut 4 G from each strip.", "4", "G, ink (from each strip), lap: 4"),
            ("Cut 10 K from each strip.", "10", "K, sand (from each strip): 10"),
        ],
    );
}

#[test]
fn strips_and_pieces_are_summed_up() {
    are_right(
        STARS,
        &[
            // 3, 2 and 3.
            ("Cut 8 strips of ink in all.", "8", "strips of ink (all strips of the fabric), lap: 8"),
            ("Cut 48 squares 4\" x 4\" of L and D.", "48", "D, ink and L, sand (the sum), lap: 48"),
        ],
    );
}

#[test]
fn triangles_that_the_layout_takes_are_counted() {
    are_right(
        POINT,
        &[
            ("The quilt takes 10 triangles of Q.", "10", "Q, oat (as many as the layout takes), wall: 10"),
            ("Cut the Q squares into 12 triangles.", "12", "Q, oat (triangles from squares), wall: 12"),
        ],
    );
}

#[test]
fn rows_columns_and_the_quilt_are_measured_with_their_seams() {
    are_right(
        STARS,
        &[
            (
                "Each row measures 40 1/2\" x 12 1/2\".",
                "40 1/2\"",
                "(one row with its seams), lap: 40 1/2 in x 12 1/2 in",
            ),
            ("Each column should measure 12 1/2\" x 54 1/2\".", "54 1/2\"", "(one column with its seams), lap"),
            (
                "The quilt top measures 40 1/2\" x 54 1/2\".",
                "54 1/2\"",
                "(what the layout makes), lap: 40 1/2 in x 54 1/2 in",
            ),
            (
                "The finished quilt measures 48 1/2\" x 62 1/2\" before it is bound.",
                "62 1/2\"",
                "the quilt (the finished size with its seams), lap: 48 1/2 in x 62 1/2 in",
            ),
        ],
    );
}

#[test]
fn sashes_and_cornerstones_are_counted_and_measured() {
    let text = "Cut 17 sashing strips, 2 1/2\" x 12 1/2\", and 6 cornerstones.";
    are_right(
        STARS,
        &[
            // 2 in each of 4 rows and 3 in each of 3 rows between them; 2 x 3 squares where they cross.
            (text, "17", "the sashing (as many as the layout takes), lap: 17"),
            (text, "12 1/2\"", "the sashing (the finished size with its seams), lap: 2 1/2 in x 12 1/2 in"),
            (text, "6", "the sashing (as many as the layout takes), lap: 6"),
            ("Each row has 2 sashes.", "2", "the sashing (sashes in a row of blocks), lap: 2"),
        ],
    );
}

#[test]
fn border_strips_are_two_of_each_length() {
    let text = "Cut 2 border strips 54 1/2\" long for the sides, and 2 border strips 48 1/2\" long.";
    are_right(
        STARS,
        &[
            (text, "2", "edge, moss (of each length), lap: 2"),
            (text, "54 1/2\"", "edge, moss (as long as the border is there), lap: 54 1/2 in"),
            // As wide as the quilt with both borders: 40 and twice 4, and the seams.
            (text, "48 1/2\"", "edge, moss (as long as the border is there), lap: 48 1/2 in"),
        ],
    );
}

#[test]
fn binding_strips_are_as_long_and_as_wide_as_all_of_them() {
    are_right(
        STARS,
        &[
            // 6 strips of 40.
            ("Join the binding strips: they are 240\" long.", "240\"", "the binding (the strips end to end)"),
            // 6 strips of 2 1/2.
            ("The binding strips take 15\" of fabric.", "15\"", "the binding (the strips side by side), lap: 15 in"),
            ("Perimeter of the binding: 220\".", "220\"", "the binding (the length of the binding), lap: 220 in"),
        ],
    );
}

#[test]
fn panels_are_as_long_as_their_share_and_sewn_with_the_seam_of_backings() {
    are_right(
        STARS,
        &[
            // 4 yd are 144 in.
            (
                "Cut the backing into 2 panels 72\" long.",
                "72\"",
                "the backing (the fabric over the panels), lap: 72 in",
            ),
            ("The backing measures 56\" x 70\".", "70\"", "the backing (larger by an overhang at each side), lap"),
            ("Sew the backing panels with a 1/2\" seam.", "1/2\"", "the backing (where the manuscript says no other)"),
        ],
    );
}

#[test]
fn units_are_measured_on_the_way() {
    are_right(
        STARS,
        &[
            // Squares of 4 lose 1/4 root 2 = 0.354 to the seam: 3.646 is 3 5/8 to the nearest eighth.
            (
                "The half-square triangles measure 3 5/8\" before you trim them.",
                "3 5/8\"",
                "unit tri (before it is trimmed): 3 5/8 in x 3 5/8 in",
            ),
            // Three logs of 1 round a center of 2: 4 x 3, and the seams.
            ("The cabin measures 3 1/2\" x 4 1/2\" unfinished.", "4 1/2\"", "unit cabin (after some of its logs)"),
        ],
    );
}

#[test]
fn strips_for_shapes_are_as_wide_as_these_are_high() {
    // A hexagon of side 2 is 2 root 3 = 3.464 high; with two seams 3.964.
    are_right(POINT, &[("Cut the comb strips 4\" wide.", "4\"", "comb, berry (the height with its seams), wall")]);
}

#[test]
fn what_is_folded_joined_or_bought_in_all_is_summed_up() {
    are_right(
        STARS,
        &[
            // 2 1/2 over 2; two panels of 40 less a seam of 1/2 on both; 1 1/2, 1 1/4 and 7/8.
            ("Fold the binding in half; it is 1 1/4\" wide.", "1 1/4\"", "the binding (folded in half)"),
            ("The backing panels sewn side by side are 79\" wide.", "79\"", "the backing (the panels side by side)"),
            ("Buy 3 5/8 yd altogether.", "3 5/8 yd", "(all fabrics of the top together), lap: 3 5/8 yd"),
        ],
    );
}

#[test]
fn a_block_is_measured_row_by_row() {
    are_right(
        STARS,
        &[
            // 3, 6 and 3 are 12 wide, and the first two 9.
            ("Each row of the star measures 12 1/2\" x 3 1/2\".", "3 1/2\"", "(a row of the block, or a part of one"),
            ("In the star, the pair measures 9 1/2\" x 3 1/2\".", "9 1/2\"", "(a row of the block, or a part of one"),
        ],
    );
}

#[test]
fn what_the_layout_does_not_take_is_left_over() {
    let more = STARS.replace("strips: { lap: 5 }, pieces: { lap: 48 }", "strips: { lap: 5 }, pieces: { lap: 50 }");
    are_right(&more, &[("2 K squares are left over.", "2", "K, sand (more than the layout takes), lap: 2")]);
}

#[test]
fn what_follows_does_not_make_another_number_right() {
    for (text, number) in [
        ("Each star block takes 5 geese.", "5"),
        ("Cut 6 G from each strip.", "6"),
        ("3 K squares are left over.", "3"),
        ("Buy 3 3/8 yd altogether.", "3 3/8 yd"),
        ("Each row measures 40 1/2\" x 12\".", "12\""),
        ("Cut the backing into 2 panels 80\" long.", "80\""),
        ("Cut 16 sashing strips.", "16"),
    ] {
        let printed = read(STARS, text);
        let is_right = printed.split(" 1:").any(|line| line.contains(&format!("OK {number} ")));
        assert!(!is_right, "{text}: {printed}");
    }
}
