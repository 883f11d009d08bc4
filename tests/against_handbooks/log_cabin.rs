//! Log cabins, courthouse steps, snowballs and three-piece quarter squares as they are printed.

use rstest::rstest;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

/// The rules that find something in a unit.
fn rules(unit: &str) -> Vec<&'static str> {
    let text = format!(
        "pattern: Print\nmeasure: inch\nsizes: {{ one: {{ finished: 60 x 72 }} }}\nunits:\n  unit: {{ {unit} }}\n"
    );
    let outcome = check(&Source::from_text("print.pattern.yaml", text), &Settings::default());
    outcome.findings.iter().map(|finding| finding.rule).collect()
}

/// A log cabin by what a pattern prints: its finished size, its center, how wide its strips finish, and how long each log
/// is cut.
fn cabin(finished: &str, center: (&str, &str), order: &str, logs: &[(&str, &str, &str)]) -> String {
    let widths: Vec<&str> = logs.iter().map(|(finished, ..)| *finished).collect();
    let cut =
        |(number, (_, width, length)): (usize, &(&str, &str, &str))| format!("log_{}: {width} x {length}", number + 1);
    let cuts: Vec<String> = logs.iter().enumerate().map(cut).collect();
    format!(
        "make: log_cabin, finished: {finished}, center: {}, order: {order}, logs: [{}], cut: {{ center: {}, {} }}",
        center.0,
        widths.join(", "),
        center.1,
        cuts.join(", ")
    )
}

/// Logs of one width, or of two in turn for each half round.
fn logs<'l>(lengths: &[&'l str], widths: &[(&'l str, &'l str)]) -> Vec<(&'l str, &'l str, &'l str)> {
    let width = |number: usize| widths[number / 2 % widths.len()];
    lengths.iter().enumerate().map(|(number, length)| (width(number).0, width(number).1, *length)).collect()
}

#[rstest]
// Brunswick Quilters, "Habitat log cabin block": center 3 in cut, logs 1 3/4 in, three rounds, 10 1/2 in unfinished.
#[case::one_width("10", ("2 1/2", "3"), "round",
    &["3", "4 1/4", "4 1/4", "5 1/2", "5 1/2", "6 3/4", "6 3/4", "8", "8", "9 1/4", "9 1/4", "10 1/2"],
    &[("1 1/4", "1 3/4")])]
// Julie K Quilts, "Log cabin, two widths" (2016): center 2 in, logs 1 1/4 and 2 in, finishes 8 1/4 in.
#[case::two_widths("8 1/4", ("1 1/2", "2"), "round",
    &["2", "2 3/4", "2 3/4", "4 1/4", "4 1/4", "5", "5", "6 1/2", "6 1/2", "7 1/4", "7 1/4", "8 3/4"],
    &[("3/4", "1 1/4"), ("1 1/2", "2")])]
// Scrapbusting, "Log cabin corners" (2011): a 2 in square and logs of 2 in on two sides, finishes 4 1/2 in.
#[case::two_sides("4 1/2", ("1 1/2", "2"), "two_sides", &["2", "3 1/2", "3 1/2", "5"], &[("1 1/2", "2")])]
// Block of the month, "Courthouse steps" (July 2003): strips and center 2 1/2 in, 10 in finished.
#[case::courthouse_steps("10", ("2", "2 1/2"), "opposite",
    &["2 1/2", "2 1/2", "6 1/2", "6 1/2", "6 1/2", "6 1/2", "10 1/2", "10 1/2"], &[("2", "2 1/2")])]
// Round the Blocks, "Courthouse steps" (2010): center 3 1/2 in, strips 2 in. It prints 12 for the last, 12 1/2 is right.
#[case::twelve_inches("12", ("3", "3 1/2"), "opposite",
    &["3 1/2", "3 1/2", "6 1/2", "6 1/2", "6 1/2", "6 1/2", "9 1/2", "9 1/2", "9 1/2", "9 1/2", "12 1/2", "12 1/2"],
    &[("1 1/2", "2")])]
fn printed_logs_are_right_and_each_is_short_by_a_quarter_inch_less(
    #[case] finished: &str,
    #[case] center: (&str, &str),
    #[case] order: &str,
    #[case] lengths: &[&str],
    #[case] widths: &[(&str, &str)],
) {
    let all = logs(lengths, widths);
    assert_eq!(rules(&cabin(finished, center, order, &all)), Vec::<&str>::new());
    for place in 0..all.len() {
        let mut short = all.clone();
        // The log before it, where that is shorter, is what a reader who loses count would cut.
        let Some(shorter) = lengths[..place].iter().rev().find(|length| *length != &lengths[place]) else { continue };
        short[place].2 = shorter;
        assert_eq!(rules(&cabin(finished, center, order, &short)), ["unit-cut-short"], "log {}", place + 1);
    }
}

/// Round the Blocks, "Courthouse steps" (2010): the misprint.
#[test]
fn the_last_log_that_is_printed_half_an_inch_short() {
    let lengths =
        ["3 1/2", "3 1/2", "6 1/2", "6 1/2", "6 1/2", "6 1/2", "9 1/2", "9 1/2", "9 1/2", "9 1/2", "12", "12"];
    let text = cabin("12", ("3", "3 1/2"), "opposite", &logs(&lengths, &[("1 1/2", "2")]));
    assert_eq!(rules(&text), ["seam-left-out", "seam-left-out"]);
}

#[rstest]
// Katie Mae Quilts, "Snowball fight, week two"; Talk Is Cheap Quilts, "Snowball blocks" (2013).
#[case("make: snowball, finished: 6, corner: 2, cut: { base: 6 1/2, corner: 2 1/2 }")]
// Card trick in 12 in, by three-piece units of 4 in, exact: 4 7/8 and 5 1/4 (handbooks print 5 and 5 1/2 to trim).
#[case("make: split_quarter_square_triangle, finished: 4, cut: { plain: 4 7/8, first: 5 1/4, second: 5 1/4 }")]
// Pamela Quilts, "Quilter's recipe box 5" (2017): an Ohio star of 9 in has quarter squares of 4 1/4.
#[case(
    "make: quarter_square_triangle, method: pieced, finished: 3, cut: { first: 4 1/4, second: 4 1/4, third: 4 1/4, fourth: 4 1/4 }"
)]
fn other_printed_units_are_right(#[case] unit: &str) {
    assert_eq!(rules(unit), Vec::<&str>::new());
    assert_eq!(
        rules(&unit.replace("2 1/2 }", "2 3/8 }").replace("4 7/8", "4 3/4").replace("fourth: 4 1/4", "fourth: 4 1/8")),
        ["unit-cut-short"]
    );
}
