//! Text without markup: headings, lists, tables and wrapped lines by how they are set.

use super::read_lines;

#[test]
fn headings_are_known_by_how_they_are_set() {
    let text = "TIDE POOL\n\nA quilt.\n\nCutting\n=======\nCut 8 strips.\n\nThe Binding\n\nCut 6 strips.\n\n4 strips 2 in\n\nCUT 4 STRIPS.\n";
    assert_eq!(
        read_lines("a.txt", text),
        [
            "h1 TIDE POOL",
            "A quilt.",
            "h1 Cutting",
            "Cut 8 strips.",
            "h2 The Binding",
            "Cut 6 strips.",
            "4 strips 2 in",
            "CUT 4 STRIPS."
        ]
    );
}

#[test]
fn wrapped_lines_are_one_paragraph_and_set_lines_are_several() {
    let text = "Sew the strips together along their long sides with a seam of 1/4 in, and press them so that\nall seams lie to the dark side; the set should be 8\n1/2 in \
                wide.\n\nFrom ink, cut:\n  8 strips 2 1/2 in x WOF\n    Subcut 64 squares\n  4 strips 3 in x WOF\n";
    assert_eq!(
        read_lines("a.txt", text),
        [
            "Sew the strips together along their long sides with a seam of 1/4 in, and press them so that all seams lie to the \
             dark side; the set should be 8 1/2 in wide.",
            "From ink, cut:",
            "- 8 strips 2 1/2 in x WOF",
            "  - Subcut 64 squares",
            "- 4 strips 3 in x WOF",
        ]
    );
}

#[test]
fn items_have_their_depth_and_not_their_marks() {
    let text = "Cut:\n\n- 8 strips\n  of ink\n    * 4 squares\n- 2 strips\n\n1. Sew 4 rows.\n2. 8 of them are long.\n3) Press.\n\n8) 2 1/2 in strips and more\n";
    assert_eq!(
        read_lines("a.txt", text),
        [
            "Cut:",
            "- 8 strips of ink",
            "  - 4 squares",
            "- 2 strips",
            "- Sew 4 rows.",
            "- 8 of them are long.",
            "- Press.",
            "8) 2 1/2 in strips and more"
        ]
    );
}

#[test]
fn tables_are_known_by_columns_tabs_and_bars() {
    let expected = [
        "[0,0]* Fabric",
        "[0,1]* Crib",
        "[0,2]* Throw",
        "[1,0] Ink",
        "[1,1] 5/8 yd",
        "[1,2] 1 yd",
        "[2,0] Sand",
        "[2,2] 2 yd",
    ];
    for text in [
        "Fabric    Crib      Throw\n-------   ------    -----\nInk       5/8 yd    1 yd\nSand                2 yd\n",
        "Fabric\tCrib\tThrow\nInk\t5/8 yd\t1 yd\nSand\t\t2 yd\n",
        "| Fabric | Crib | Throw |\n+--------+------+-------+\n| Ink | 5/8 yd | 1 yd |\n| Sand | | 2 yd |\n",
        "Fabric|Crib|Throw\nInk|5/8 yd|1 yd\nSand||2 yd\n",
    ] {
        assert_eq!(read_lines("a.txt", text), expected, "{text}");
    }
}

#[test]
fn line_ends_of_every_system_are_line_ends() {
    for end in ["\n", "\r\n", "\r"] {
        let text = ["MAT", "", "Cut 8 strips.", "", "- 4 of ink", "- 4 of sand", ""].join(end);
        assert_eq!(read_lines("a.txt", text), ["h1 MAT", "Cut 8 strips.", "- 4 of ink", "- 4 of sand"]);
    }
}

#[test]
fn marks_of_items_are_no_cells_and_brackets_that_close_are_no_marks() {
    let text = "Cut:\n\n-   8 strips of ink\n-   4 strips of sand\n\n1.  Sew the strips.\n2.  Press.\n\nThe backing takes 3 5/8 yd (3.4\nm) and the \
                batting is larger than that, which is\nB. Each of them is trimmed.\n\nA. Sew.\nB. Trim.\n";
    assert_eq!(
        read_lines("a.txt", text),
        [
            "Cut:",
            "- 8 strips of ink",
            "- 4 strips of sand",
            "- Sew the strips.",
            "- Press.",
            "The backing takes 3 5/8 yd (3.4 m) and the batting is larger than that, which is B. Each of them is trimmed.",
            "- Sew.",
            "- Trim."
        ]
    );
}

#[test]
fn steps_are_counted_on_under_another_heading() {
    let text = "Cutting\n=======\n1. Cut 8 strips.\n2. Cut 4 squares.\n\nSewing\n======\n3. Sew 4 rows.\n4. 8 of them are long.\n";
    assert_eq!(
        read_lines("a.txt", text),
        ["h1 Cutting", "- Cut 8 strips.", "- Cut 4 squares.", "h1 Sewing", "- Sew 4 rows.", "- 8 of them are long."]
    );
}
