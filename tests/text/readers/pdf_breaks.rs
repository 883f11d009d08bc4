//! PDFs: tables and paragraphs that the end of a page or a column parts, and cells of several lines.

use super::pdf_file::file_of_pages;
use super::{lines, read, read_lines};
use sparestrip::text::TextPlace;

/// A line of a page; its letters are half as wide as high.
fn at(x: i64, y: i64, text: &str) -> String {
    let codes: String = text.chars().map(|ch| format!("{:04x}", u32::from(ch))).collect();
    format!("BT /F1 10 Tf 1 0 0 1 {x} {y} Tm <{codes}> Tj ET\n")
}

/// A row of a table whose columns begin at these places.
fn row(y: i64, xs: &[i64], cells: &[&str]) -> String {
    xs.iter().zip(cells).filter(|(_, cell)| !cell.is_empty()).map(|(x, cell)| at(*x, y, cell)).collect()
}

/// Lines round cells between these places, from the left to the right and from the top down.
fn boxes(xs: &[i64], ys: &[i64]) -> String {
    let (left, right) = (xs[0], xs[xs.len() - 1]);
    let (top, bottom) = (ys[0], ys[ys.len() - 1]);
    let level: String = ys.iter().map(|y| format!("{left} {y} m {right} {y} l S\n")).collect();
    level + &xs.iter().map(|x| format!("{x} {bottom} m {x} {top} l S\n")).collect::<String>()
}

const COLUMNS: &[i64] = &[60, 200, 300];

#[test]
fn a_table_goes_on_on_the_next_page() {
    let first = row(100, COLUMNS, &["Fabric", "Crib", "Throw"]) + &row(80, COLUMNS, &["Ink", "5/8 yd", "1 yd"]);
    let rest = |top: i64| {
        row(top, COLUMNS, &["Sand", "1/2 yd", "7/8 yd"]) + &at(60, top - 60, "Sew the rows together, and press them.")
    };
    let expected = [
        "[0,0]* Fabric",
        "[0,1]* Crib",
        "[0,2]* Throw",
        "[1,0] Ink",
        "[1,1] 5/8 yd",
        "[1,2] 1 yd",
        "[2,0] Sand",
        "[2,1] 1/2 yd",
        "[2,2] 7/8 yd",
        "Sew the rows together, and press them.",
    ];
    assert_eq!(read_lines("a.pdf", file_of_pages(&[first.clone(), rest(700)])), expected, "without its heads");
    let again = row(720, COLUMNS, &["Fabric", "Crib", "Throw"]) + &rest(700);
    let printed = read("a.pdf", file_of_pages(&[first, again]));
    assert_eq!(lines(&printed), expected, "with its heads");
    assert_eq!(printed.passages[5].place(0..1), TextPlace::Page(1));
    assert_eq!(printed.passages[6].place(0..1), TextPlace::Page(2));
}

#[test]
fn other_tables_on_the_next_page_are_other_tables() {
    let first = row(100, COLUMNS, &["Fabric", "Crib", "Throw"]) + &row(80, COLUMNS, &["Ink", "5/8 yd", "1 yd"]);
    let three = at(60, 700, "Fabric for it")
        + &row(680, COLUMNS, &["Fabric", "Crib", "Throw"])
        + &row(660, COLUMNS, &["Sand", "4", "6"]);
    let printed = read("a.pdf", file_of_pages(&[first, three]));
    assert_eq!(
        lines(&printed)[6..],
        ["Fabric for it", "[0,0]* Fabric", "[0,1]* Crib", "[0,2]* Throw", "[1,0] Sand", "[1,1] 4", "[1,2] 6"]
    );
}

#[test]
fn a_row_that_a_page_break_parts_is_one_row() {
    let xs = &[56, 196, 296, 400];
    // The last row on the page has no line under it.
    let open = "56 100 m 400 100 l S 56 80 m 400 80 l S 56 60 m 400 60 l S 56 40 m 56 100 l S 196 40 m 196 100 l S \
                296 40 m 296 100 l S 400 40 m 400 100 l S\n";
    let first = open.to_owned()
        + &row(85, COLUMNS, &["Fabric", "Crib", "Throw"])
        + &row(65, COLUMNS, &["Sand", "1/2 yd", "7/8 yd"])
        + &row(45, COLUMNS, &["Ink for the stars and", "5/8 yd", "1 yd"]);
    let second = boxes(xs, &[740, 720, 700])
        + &row(725, COLUMNS, &["the binding", "", ""])
        + &row(705, COLUMNS, &["Batting", "40 x 50", "60 x 70"]);
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[first, second])),
        [
            "[0,0]* Fabric",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Sand",
            "[1,1] 1/2 yd",
            "[1,2] 7/8 yd",
            "[2,0] Ink for the stars and the binding",
            "[2,1] 5/8 yd",
            "[2,2] 1 yd",
            "[3,0] Batting",
            "[3,1] 40 x 50",
            "[3,2] 60 x 70",
        ]
    );
}

#[test]
fn a_paragraph_goes_on_on_the_next_page_and_sentences_that_end_there_do_not() {
    let first = at(60, 120, "Join the strips with diagonal seams, fold the strip in")
        + &at(60, 106, "half, and sew it to the front with a seam of 1/4 in and a");
    let foot = at(300, 40, "1");
    let second = at(60, 700, "tail of 10 in at the start. Stop before the corner.")
        + &at(60, 672, "Turn the binding to the back.");
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[first.clone() + &foot, second])),
        [
            "Join the strips with diagonal seams, fold the strip in half, and sew it to the front with a seam of 1/4 in and a \
             tail of 10 in at the start. Stop before the corner.",
            "Turn the binding to the back."
        ]
    );
    let done = first.replace("0061> Tj", "002e> Tj");
    let next = at(60, 700, "Turn the binding to the back, where it meets the seam.");
    assert_eq!(lines(&read("a.pdf", file_of_pages(&[done, next]))).len(), 2);
}

#[test]
fn an_item_goes_on_on_the_next_page_where_its_text_stands() {
    let item = at(60, 120, "•") + &at(78, 120, "Sew the sashes between the blocks of each row and press.");
    let rest = at(78, 700, "The row is now 71 1/2 in long.") + &at(60, 686, "•") + &at(78, 686, "Join the rows.");
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[item, rest])),
        [
            "- Sew the sashes between the blocks of each row and press. The row is now 71 1/2 in long.",
            "- Join the rows."
        ]
    );
}

#[test]
fn a_bracket_that_a_line_closes_is_no_mark() {
    let drawn = at(60, 700, "For the lap size, take 3 5/8 yd (3.4") + &at(60, 686, "m) of backing, and batting.");
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[drawn])),
        ["For the lap size, take 3 5/8 yd (3.4 m) of backing, and batting."]
    );
}

#[test]
fn cells_of_several_lines_without_lines_round_them_are_one_cell() {
    // All lines are equally far apart, and the last cell goes on below all others.
    let drawn = row(700, COLUMNS, &["Cut", "Crib", "Throw"])
        + &row(686, COLUMNS, &["Reed: 4 1/2\" x WOF", "4", "8"])
        + &row(672, COLUMNS, &["strips", "", ""])
        + &row(658, COLUMNS, &["Mist squares for the", "30", "63"])
        + &row(644, COLUMNS, &["corners", "", ""]);
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[drawn])),
        [
            "[0,0]* Cut",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Reed: 4 1/2\" x WOF strips",
            "[1,1] 4",
            "[1,2] 8",
            "[2,0] Mist squares for the corners",
            "[2,1] 30",
            "[2,2] 63",
        ]
    );
}

#[test]
fn heads_of_one_line_stand_beside_the_last_or_the_middle_of_others() {
    for (low, middle) in [(686, 686), (686, 693)] {
        let drawn = row(700, COLUMNS, &["", "Strips of", ""])
            + &row(middle, COLUMNS, &["Size", "", "Squares"])
            + &row(low, COLUMNS, &["", "sand", ""])
            + &row(666, COLUMNS, &["Crib", "6", "24"])
            + &row(646, COLUMNS, &["Throw", "8", "32"]);
        assert_eq!(
            read_lines("a.pdf", file_of_pages(&[drawn])),
            [
                "[0,0]* Size",
                "[0,1]* Strips of sand",
                "[0,2]* Squares",
                "[1,0] Crib",
                "[1,1] 6",
                "[1,2] 24",
                "[2,0] Throw",
                "[2,1] 8",
                "[2,2] 32",
            ],
            "{middle}"
        );
    }
}

#[test]
fn columns_of_a_page_may_hold_lists_and_tables() {
    let left = at(60, 700, "You need these for the crib size:")
        + &at(60, 680, "• 5/8 yd of ink for the squares")
        + &at(60, 666, "• 1/2 yd of sand for the binding")
        + &at(60, 640, "Cut the strips across the fabric,")
        + &at(60, 626, "and press them before you go on.")
        + &at(60, 600, "Put a label on every stack of them.");
    let xs = &[330, 420, 480];
    let right = row(693, xs, &["Cut", "Crib", "Throw"])
        + &row(673, xs, &["Ink strips", "6", "8"])
        + &row(653, xs, &["Sand strips", "4", "5"])
        + &at(330, 619, "Sew the strips into pairs, and cut")
        + &at(330, 605, "these into squares for the rows.")
        + &at(330, 585, "Lay them out as the drawing shows.");
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[left + &right])),
        [
            "You need these for the crib size:",
            "- 5/8 yd of ink for the squares",
            "- 1/2 yd of sand for the binding",
            "Cut the strips across the fabric, and press them before you go on.",
            "Put a label on every stack of them.",
            "[0,0]* Cut",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Ink strips",
            "[1,1] 6",
            "[1,2] 8",
            "[2,0] Sand strips",
            "[2,1] 4",
            "[2,2] 5",
            "Sew the strips into pairs, and cut these into squares for the rows.",
            "Lay them out as the drawing shows.",
        ]
    );
}

#[test]
fn tables_of_one_kind_that_follow_each_other_are_several() {
    let one = |top: i64, name: &str| {
        at(60, top, "From this fabric, which comes first, cut all of these:")
            + &row(top - 14, COLUMNS, &[name, "Crib", "Throw"])
            + &row(top - 28, COLUMNS, &["Strips", "4", "6"])
    };
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[one(700, "Ink") + &one(658, "Sand")])),
        [
            "From this fabric, which comes first, cut all of these:",
            "[0,0]* Ink",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Strips",
            "[1,1] 4",
            "[1,2] 6",
            "From this fabric, which comes first, cut all of these:",
            "[0,0]* Sand",
            "[0,1]* Crib",
            "[0,2]* Throw",
            "[1,0] Strips",
            "[1,1] 4",
            "[1,2] 6",
        ]
    );
}

#[test]
fn the_lines_of_tables_below_each_other_are_told_apart() {
    // The second table's lines stand half a point beside those of the first.
    let doubled = |tenths: i64| [560, 1960, 2960, 4000].map(|x| format!("{}.{}", (x + tenths) / 10, (x + tenths) % 10));
    let walls = |xs: [String; 4], top: i64| -> String {
        let level: String = [0, 20, 40].iter().map(|down| format!("56 {y} m 400 {y} l S\n", y = top - down)).collect();
        level + &xs.iter().map(|x| format!("{x} {} m {x} {top} l S\n", top - 40)).collect::<String>()
    };
    let drawn = walls(doubled(8), 700)
        + &row(685, COLUMNS, &["Ink", "Crib", "Throw"])
        + &row(665, COLUMNS, &["Strips", "4", "6"])
        + &at(60, 640, "From sand, cut these:")
        + &walls(doubled(13), 630)
        + &row(615, COLUMNS, &["Sand", "Crib", "Throw"])
        + &row(595, COLUMNS, &["Strips", "5", "7"]);
    assert_eq!(
        read_lines("a.pdf", file_of_pages(&[drawn]))[7..],
        ["[0,0]* Sand", "[0,1]* Crib", "[0,2]* Throw", "[1,0] Strips", "[1,1] 5", "[1,2] 7"]
    );
}

#[test]
fn the_number_of_a_page_may_stand_a_little_above_its_edge() {
    let page = |number: &str| at(60, 700, "Cut 8 strips of ink.") + &at(300, 110, number);
    assert_eq!(read_lines("a.pdf", file_of_pages(&[page("1")])), ["Cut 8 strips of ink."]);
    assert_eq!(read_lines("a.pdf", file_of_pages(&[page("12")])), ["Cut 8 strips of ink.", "12"]);
}

#[test]
fn numbers_under_each_other_are_of_two_rows() {
    // The rows of a fabric stand closer than the fabrics do, and its name stands once.
    let xs = &[60, 120, 240, 300];
    let drawn = row(700, xs, &["Fabric", "Cut", "Crib", "Throw"])
        + &row(678, xs, &["Sky", "strips 2 1/2\" x WOF", "14", "33"])
        + &row(664, xs, &["", "rungs 2 1/2\" x 10\"", "40", "98"])
        + &row(642, xs, &["Salt", "strips 4 1/2\" x WOF", "12", "30"])
        + &row(628, xs, &["", "gaps 4 1/2\" x 10\"", "36", "90"]);
    let read = read_lines("a.pdf", file_of_pages(&[drawn]));
    assert_eq!(read[8..11], ["[2,1] rungs 2 1/2\" x 10\"", "[2,2] 40", "[2,3] 98"]);
    assert_eq!(read.len(), 18);
}
