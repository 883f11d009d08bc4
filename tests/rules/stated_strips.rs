//! Strips that the text tells take their own width, whoever tells them; only what it leaves open lies in their ends.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, of_rule, one, outcome, rules_of, told};

/// A quilt of 86 x 92 in with the binding cut from `ink`, whose other entries stand one to a line. 356 in round, with the
/// corners and the tails 366: ten strips of 42 in, and one to spare.
fn from_ink(fabric: &str, binding: &str, strips: u64, cuts: &str) -> String {
    let binding: String = binding.lines().map(|line| format!("  {}\n", line.trim())).collect();
    let fabric: String = fabric.lines().map(|line| format!("    {}\n", line.trim())).collect();
    let cuts: String = cuts.lines().map(|line| format!("      - {{ {} }}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nassumes: {{ usable_width: 42 }}\nsizes:\n  q: {{ finished: 86 x 92 }}\n\
         binding:\n  from: ink\n{binding}  requires:\n    q: {{ strips: {strips} }}\nfabrics:\n  ink:\n{fabric}    cut:\n\
         {cuts}"
    )
}

fn inches(amount: &str, strips: u64, cuts: &str) -> String {
    from_ink(&format!("requires: {{ q: {amount} }}"), "strip_width: 2 1/2", strips, cuts)
}

const FRAMES: &str = "piece: frame, size: 3 1/2 x 3 1/2, strips: { q: 7 }, pieces: { q: 60 }";

/// 60 squares take 5 strips and a strip that is hardly begun, and 7 are told: two could hold binding strips. They are not
/// told to: 7 x 3 1/2 + 11 x 2 1/2 = 52 in, and 1/2 in for squaring up.
#[rstest]
#[case::a_strip_and_more_short("1 1/4 yd", &["fabric-short"])]
#[case::short("51 7/8 in", &["fabric-short"])]
#[case::to_the_thread("52 in", &["no-squaring-room"])]
#[case::enough("52 1/2 in", &[])]
fn told_binding_strips_take_no_room_in_strips_told_for_pieces(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = inches(amount, 11, FRAMES);
    assert_eq!(rules_of(&text), rules, "{:#?}", told(&text, &outcome(&text)));
    if let [rule] = rules {
        assert_says(&one(&text, rule), &["7 strips x 3 1/2 in + 11 strips x 2 1/2 in = 52 in"]);
    }
}

/// The same in centimetres: 7 x 9 + 11 x 6.5 = 134.5 cm, and 1/2 in for squaring up makes 135.77.
#[rstest]
#[case::short("134.4 cm", &["fabric-short"])]
#[case::enough("135.8 cm", &[])]
fn told_strips_take_their_width_in_centimetres(#[case] amount: &str, #[case] rules: &[&str]) {
    let cuts = "piece: frame, size: 9 x 9, strips: { q: 7 }, pieces: { q: 60 }";
    let text = from_ink(&format!("requires: {{ q: {amount} }}"), "strip_width: 6.5", 11, cuts)
        .replace("measure: inch", "measure: cm")
        .replace("usable_width: 42", "usable_width: 106")
        .replace("86 x 92", "215 x 230");
    assert_eq!(rules_of(&text), rules, "{:#?}", told(&text, &outcome(&text)));
}

/// Pieces whose strips nobody tells fill the ends of told strips, and no strip of their own is counted.
#[test]
fn pieces_left_open_fill_the_ends_of_told_strips() {
    // The seventh strip holds 12 squares of 3 1/2 in; 2 1/2 in squares lie in it just as well.
    let open = format!("{FRAMES}\npiece: B, size: 2 1/2 x 2 1/2, pieces: {{ q: 16 }}");
    assert_silent(&inches("52 1/2 in", 11, &open));
    // With strips told for them, they take a strip more: 54 1/2 in.
    let told = open.replace("pieces: { q: 16 }", "strips: { q: 1 }, pieces: { q: 16 }");
    assert_says(&one(&inches("52 1/2 in", 11, &told), "fabric-short"), &["= 54 1/2 in"]);
}

/// Whole strips, and strips whose width alone is told, are told too: 3 x 3 1/2 in each, and 11 x 2 1/2 in is 38 in.
#[rstest]
#[case::whole("piece: sashing, strip_width: 3 1/2, strips: { q: 3 }")]
#[case::whole_counted("piece: sashing, strip_width: 3 1/2, pieces: { q: 3 }")]
#[case::without_pieces("piece: A, size: 3 1/2 x 3 1/2, strips: { q: 3 }")]
#[case::a_told_width("piece: A, size: 3 1/2 x 3 1/2, strip_width: 3 1/2, pieces: { q: 25 }")]
fn binding_strips_lie_in_no_other_told_strips(#[case] cut: &str) {
    assert_silent(&inches("38 1/2 in", 11, cut));
    assert_says(&one(&inches("37 7/8 in", 11, cut), "fabric-short"), &["= 38 in"]);
}

/// Open pieces take strips of their own beside the binding's, and never the binding's: 11 x 2 1/2 + 3 1/2 in.
#[test]
fn told_binding_strips_are_whole() {
    let cuts = "piece: A, size: 3 1/2 x 3 1/2, pieces: { q: 12 }";
    assert_silent(&inches("31 1/2 in", 11, cuts));
    assert_eq!(rules_of(&inches("30 7/8 in", 11, cuts)), ["fabric-short"]);
    // A strip that is cut 20 in long leaves an end of 2 in, in which an open piece may lie.
    let short = |amount: &str, cuts: &str| {
        from_ink(&format!("requires: {{ q: {amount} }}"), "strip_width: 2 1/2\nstrip_length: 20", 23, cuts)
    };
    let small = "piece: C, size: 2 x 2, pieces: { q: 12 }";
    assert_silent(&short("30 1/2 in", small));
}

/// Strips along the fabric lie beside one another: four borders 6 1/2 x 72 1/2 in take 26 in of the width, and six binding
/// strips 2 1/2 x 66 in take 15 in more of the 42.
#[test]
fn lengthwise_binding_lies_beside_lengthwise_borders() {
    let binding = "strip_width: 2 1/2\ngrain: lengthwise\nstrip_length: 66";
    let borders = "piece: side, size: 6 1/2 x 72 1/2, grain: lengthwise, pieces: { q: 4 }";
    let text = |amount: &str, borders: &str| from_ink(&format!("requires: {{ q: {amount} }}"), binding, 6, borders);
    let found = |text: &str| of_rule(text, "fabric-short").len();
    assert_eq!(found(&text("72 1/2 in", borders)), 0);
    assert_eq!(found(&text("72 3/8 in", borders)), 1);
    let told = borders.replace("pieces: { q: 4 }", "strips: { q: 4 }, pieces: { q: 4 }");
    assert_eq!(found(&text("72 1/2 in", &told)), 0);
    assert_eq!(found(&text("72 3/8 in", &told)), 1);
}

/// A told strip 20 in wide has room for lengthwise binding of 20 in at its end, and is not told to hold it.
#[test]
fn lengthwise_binding_lies_in_no_told_strip_across() {
    let binding = "strip_width: 2 1/2\ngrain: lengthwise\nstrip_length: 20";
    let cuts = "piece: corner, size: 20 x 20, strips: { q: 1 }, pieces: { q: 1 }";
    let text = |amount: &str| from_ink(&format!("requires: {{ q: {amount} }}"), binding, 8, cuts);
    // The binding by itself takes a row of 20 in beside it: 40 in.
    assert_eq!(of_rule(&text("39 7/8 in"), "fabric-short").len(), 1);
    assert_eq!(of_rule(&text("40 in"), "fabric-short").len(), 0);
}

/// A fat quarter is 18 in along and 20 across: 19 binding strips 2 1/2 in wide, seven to each, and one strip of 3 1/2 in
/// for two squares, in whose end no binding strip may lie.
#[rstest]
#[case::one_short(2, true)]
#[case::enough(3, false)]
fn told_binding_strips_take_their_width_of_fat_quarters(#[case] quarters: u64, #[case] short: bool) {
    let cuts = "piece: A, size: 3 1/2 x 3 1/2, strips: { q: 1 }, pieces: { q: 2 }";
    let fabric = format!("sold_as: fat_quarters\nrequires: {{ q: {quarters} }}");
    let text = from_ink(&fabric, "strip_width: 2 1/2", 14, cuts);
    assert_eq!(!of_rule(&text, "fabric-short").is_empty(), short, "{:#?}", told(&text, &outcome(&text)));
}

/// What a binding that is cut from a fabric lacks is told with all that is cut from that fabric, and not as if the strips
/// were bought for themselves.
#[rstest]
#[case::short(9, "binding-short")]
#[case::no_spare(10, "spare-strip")]
fn binding_from_a_fabric_is_told_with_all_that_is_cut_from_it(#[case] strips: u64, #[case] rule: &str) {
    let finding = one(&inches("1 1/2 yd", strips, FRAMES), rule);
    let says = "Print 11 strips: 11 strips x 2 1/2 in = 27 1/2 in. From ink in all: 7 strips x 3 1/2 in + 11 strips x 2 1/2 in \
                = 52 in; with 1/2 in for squaring up, buy 1 1/2 yd (54 in).";
    assert!(finding.help.contains(says), "{}", finding.help);
    assert!(!finding.help.contains("buy 7/8 yd"), "{}", finding.help);
    let fabric = "sold_as: fat_quarters\nrequires: { q: 4 }";
    let quarters = from_ink(fabric, "strip_width: 2 1/2", 9, "piece: A, size: 3 1/2 x 3 1/2, strips: { q: 1 }");
    let help = one(&quarters, "binding-short").help;
    assert!(help.contains("From ink in all: 4 fat quarters."), "{help}");
    assert!(!help.contains("buy"), "{help}");
}
