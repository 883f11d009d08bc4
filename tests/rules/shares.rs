//! Fabrics that share a cutting list: so much of each, or of all together; small fabrics that each give the same; packs.

use rstest::rstest;

use crate::desk::{assert_says, assert_silent, mended, of_rule, one, outcome, rules_of, told};

/// A manuscript of one size, `lap`, with one fabric, `prints`, whose words and pieces stand one to a line.
fn prints(fabric: &str, cuts: &str) -> String {
    let fabric: String = fabric.lines().map(|line| format!("    {}\n", line.trim())).collect();
    let cuts: String = cuts.lines().map(|line| format!("      - {{ {} }}\n", line.trim())).collect();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 57 }}\nfabrics:\n  prints:\n{fabric}    \
         cut:\n{cuts}"
    )
}

fn squares(size: &str, count: u64) -> String {
    format!("piece: A, size: {size} x {size}, pieces: {{ lap: {count} }}")
}

#[track_caller]
fn assert_rules(text: &str, rules: &[&str]) {
    assert_eq!(rules_of(text), rules, "{:#?}\n{text}", told(text, &outcome(text)));
}

/// Twelve fabrics give 144 squares of 4 1/2 in: 12 from each, which are two strips of 8: 9 in and 1/2 in for squaring up.
#[rstest]
#[case::enough("3/8 yd each", &[])]
#[case::no_squaring("1/4 yd each", &["no-squaring-room"])]
#[case::short("1/8 yd each", &["fabric-short"])]
#[case::generous("1/2 yd each", &["fabric-generous"])]
fn an_amount_of_each_holds_the_share_of_each(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = prints(&format!("different: 12\nrequires: {{ lap: {amount} }}"), &squares("4 1/2", 144));
    assert_rules(&text, rules);
}

#[test]
fn an_amount_of_each_that_is_short_is_told_and_corrected_in_place() {
    let text = prints("different: 12\nrequires: { lap: 1/8 yd each }", &squares("4 1/2", 144));
    let finding = one(&text, "fabric-short");
    assert_eq!(finding.at.at.text(&text), "1/8 yd");
    assert_says(&finding, &["of each of 12 fabrics (prints) stated; 3/8 yd (13 1/2 in) needed"]);
    assert!(finding.help.contains("Each of 12 gives 12 A."), "{}", finding.help);
    assert!(mended(&text, &finding).contains("lap: 3/8 yd each"));
}

/// 25 pieces of 12 fabrics: one gives 3 and the others 2. Where 3 squares of 15 in do not come out of a fabric, but 2 do,
/// the one that gives a third square is short: 15 in hold two at 40 in.
#[rstest]
#[case::as_many(24, &["no-squaring-room"])]
#[case::one_more(25, &["fabric-short"])]
fn one_fabric_gives_the_odd_piece(#[case] pieces: u64, #[case] rules: &[&str]) {
    assert_rules(&prints("different: 12\nrequires: { lap: 15 in each }", &squares("15", pieces)), rules);
}

/// With two kinds of odd pieces no one fabric need give both: it is asked about, and not called short. Each gives an A and
/// a B, and one of them another A, one another B: a strip holds three, and the rounded share of two and two takes two.
#[test]
fn shares_that_do_not_come_out_even_are_asked_about() {
    let cuts = "piece: A, size: 13 x 10, pieces: { lap: 13 }\npiece: B, size: 13 x 10, pieces: { lap: 13 }";
    let text = prints("different: 12\nrequires: { lap: 12 in each }", cuts);
    assert_rules(&text, &["fabric-tight"]);
    assert_says(&one(&text, "fabric-tight"), &["no way of cutting takes less than"]);
}

/// In all, 24 squares of 2 1/2 in are two strips; twelve fabrics give at least a strip each: 12 x 2 1/2 = 30 in.
#[rstest]
#[case::enough("30 1/2 in in all", &[])]
#[case::short("29 7/8 in in all", &["fabric-short"])]
#[case::of_two("5 1/2 in in all", &["fabric-short"])]
fn a_strip_at_least_comes_from_each(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = prints(&format!("different: 12\nrequires: {{ lap: {amount} }}"), &squares("2 1/2", 24));
    assert_rules(&text, rules);
}

/// More strips than fabrics are shared as they come: 192 squares of 2 1/2 in are 12 strips.
#[rstest]
#[case::enough("7/8 yd in all", &[])]
#[case::short("29 7/8 in in all", &["fabric-short"])]
fn an_amount_in_all_is_that_of_the_whole_list(#[case] amount: &str, #[case] rules: &[&str]) {
    let text = prints(&format!("different: 6\nrequires: {{ lap: {amount} }}"), &squares("2 1/2", 192));
    assert_rules(&text, rules);
}

/// Nine squares of 4 1/2 in from each are two strips of each, as eight come out of a strip: of twelve fabrics 24 strips,
/// 108 in. Together the 108 squares would come out of 14.
#[rstest]
#[case::enough("3 1/8 yd in all", &[])]
#[case::short("2 7/8 yd in all", &["fabric-short"])]
#[case::pooled("1 7/8 yd in all", &["fabric-short"])]
fn what_each_gives_comes_out_of_each(#[case] amount: &str, #[case] rules: &[&str]) {
    let cut = "piece: A, size: 4 1/2 x 4 1/2, pieces_from_each: { lap: 9 }";
    let text = prints(&format!("different: 12\nrequires: {{ lap: {amount} }}"), cut);
    assert_rules(&text, rules);
}

/// `different` may be one number for each size, and one size may say each and another in all.
#[test]
fn each_size_has_its_own_number_of_fabrics() {
    let text = |queen: &str| {
        format!(
            "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 57 }}\n  queen: {{ finished: 90 x 96 }}\n\
             fabrics:\n  prints:\n    different: {{ lap: 12, queen: 20 }}\n    requires: {{ lap: 3/8 yd each, queen: {queen} }}\n    \
             cut:\n      - {{ piece: A, size: 4 1/2 x 4 1/2, pieces: {{ lap: 144, queen: 320 }} }}\n"
        )
    };
    // 320 squares, 8 from a strip: 40 strips, 180 in.
    assert_silent(&text("5 1/8 yd in all"));
    assert_rules(&text("4 7/8 yd in all"), &["fabric-short"]);
    // 16 from each of twenty: two strips.
    assert_silent(&text("3/8 yd each"));
}

/// What is bought of several fabrics says whether it is of each or of all.
#[rstest]
#[case::nothing_said("different: 12\nrequires: { lap: 3 yd }", "out-of-range")]
#[case::not_different("requires: { lap: 1/4 yd each }", "missing-entry")]
#[case::none_different("different: 0\nrequires: { lap: 1/4 yd each }", "out-of-range")]
#[case::fat_quarters_each("sold_as: fat_quarters\ndifferent: 12\nrequires: { lap: 1 each }", "out-of-range")]
#[case::from_each_of_yardage("from_each: yes\nrequires: { lap: 3 yd }", "out-of-range")]
#[case::packs_of_yardage("requires: { lap: 3 packs }", "out-of-range")]
#[case::pack_of_fat_quarters("sold_as: fat_quarters\npack: 4\nrequires: { lap: 3 }", "out-of-range")]
#[case::packs_without_pack("sold_as: squares\nprecut: 5\nrequires: { lap: 3 packs }", "missing-entry")]
fn what_does_not_go_together_is_reported(#[case] fabric: &str, #[case] rule: &str) {
    let text = prints(fabric, &squares("2 1/2", 24));
    assert_eq!(of_rule(&text, rule).len(), 1, "{:#?}", told(&text, &outcome(&text)));
}

/// 162 squares from 25 fabrics are 7 from each, 6.48 rounded up (S295, I have a plan, Quilt On, June 2011).
#[rstest]
#[case::published(7, &[])]
#[case::one_less(6, &["share-short"])]
fn a_published_share_from_each(#[case] each: u64, #[case] rules: &[&str]) {
    let cut = format!("{}, pieces_from_each: {{ lap: {each} }}", squares("2 1/2", 162));
    let text = prints("different: 25\nrequires: { lap: 1/8 yd each }", &cut);
    assert_rules(&text, rules);
    if let Some(finding) = of_rule(&text, "share-short").first() {
        assert_says(
            finding,
            &["6 A from each of 25 fabrics stated: 6 x 25 = 150, and 162 pieces stated in all: 12 short."],
        );
        assert_eq!(
            finding.correction.as_ref().map(|correction| correction.apply(&text).contains("lap: 7 }")),
            Some(true)
        );
    }
}

/// The pieces from each are counted for all of them, and the design uses as many.
#[rstest]
#[case::enough(4, &[])]
#[case::one_less(3, &["pieces-short"])]
#[case::one_more(5, &["pieces-generous"])]
fn pieces_from_each_are_counted_in_all(#[case] each: u64, #[case] rules: &[&str]) {
    let design = "units:\n  p: { make: patch, finished: 3, cut: { patch: A } }\nblocks:\n  four: { finished: 6, rows: [[p, p], [p, p]] }\n\
                  layout:\n  lap: { across: 3, down: 4, blocks: four }\n";
    let cut = format!("piece: A, size: 3 1/2 x 3 1/2, pieces_from_each: {{ lap: {each} }}");
    let text = prints("different: 12\nrequires: { lap: 1/8 yd each }", &cut).replace("48 x 57", "18 x 24") + design;
    assert_rules(&text, rules);
    if let Some(finding) = outcome(&text).findings.first() {
        assert_eq!(finding.correction.as_ref().map(|correction| correction.replacement.as_str()), Some("4"));
        let words = format!("{} pieces of A stated, {each} from each of 12", each * 12);
        assert_says(finding, &[&words]);
    }
}

/// A fat quarter of 18 x 20 in gives two squares of 10 in and twenty-four of 2 1/2 in (S306, Sparkle, Australian
/// Homespun): of twelve, each gives as many, and not one square more of 10 in.
#[rstest]
#[case::published(24, 288, &[])]
#[case::a_large_one_more(25, 288, &["fabric-short"])]
#[case::eleven_are_enough(22, 264, &["fabric-generous"])]
fn each_fat_quarter_gives_the_same(#[case] large: u64, #[case] small: u64, #[case] rules: &[&str]) {
    let cuts = format!("piece: L, size: 10 x 10, pieces: {{ lap: {large} }}\n{}", squares("2 1/2", small));
    let text = prints("sold_as: fat_quarters\nfrom_each: yes\nrequires: { lap: 12 }", &cuts);
    assert_rules(&text, rules);
}

/// Together the pieces come out of six fat quarters; ten that give the same each give one more than ten would need.
#[test]
fn each_fat_quarter_gives_whole_pieces() {
    let text = |count: u64| {
        prints(&format!("sold_as: fat_quarters\nfrom_each: yes\nrequires: {{ lap: {count} }}"), &squares("8", 20))
    };
    // 8 in squares: 2 x 2 from each: five would do, each giving four.
    assert_rules(&text(4), &["fabric-short"]);
    assert_silent(&text(5));
    let finding = one(&text(4), "fabric-short");
    assert!(finding.help.contains("Each of 5 gives 4 A."), "{}", finding.help);
}

/// Twelve different fat quarters are twelve, however few would do.
#[rstest]
#[case::enough(12, &[])]
#[case::eight(8, &["fabric-short"])]
fn different_fat_quarters_are_bought_one_of_each(#[case] count: u64, #[case] rules: &[&str]) {
    let text =
        prints(&format!("sold_as: fat_quarters\ndifferent: 12\nrequires: {{ lap: {count} }}"), &squares("4 1/2", 48));
    assert_rules(&text, rules);
}

/// 1440 squares of 2 1/2 in from packs of 40 strips 2 1/2 x 40 in: 16 from a strip, 90 strips, three packs (S294,
/// Positively scrappy, Scrappy Camper, February 2016).
#[rstest]
#[case::published("3 packs", &[])]
#[case::one_less("2 packs", &["fabric-short"])]
#[case::one_more("4 packs", &["fabric-generous"])]
fn published_packs_of_strips(#[case] packs: &str, #[case] rules: &[&str]) {
    let fabric = format!("sold_as: strips\nprecut: 2 1/2\npack: 40\nrequires: {{ lap: {packs} }}");
    let text = prints(&fabric, &squares("2 1/2", 1440));
    assert_rules(&text, rules);
    if let Some(finding) = outcome(&text).findings.first() {
        assert_eq!(finding.at.at.text(&text), packs);
        mended(&text, finding);
    }
}

/// 84 squares of 5 in are two packs of 42, and one square more is a third.
#[rstest]
#[case::two(84, "2 packs", &[])]
#[case::a_square_more(85, "2 packs", &["fabric-short"])]
#[case::three(85, "3 packs", &[])]
#[case::one_pack(42, "1 pack", &[])]
#[case::singly(85, "85", &[])]
fn packs_of_squares_hold_what_they_hold(#[case] pieces: u64, #[case] bought: &str, #[case] rules: &[&str]) {
    let fabric = format!("sold_as: squares\nprecut: 5\npack: 42\nrequires: {{ lap: {bought} }}");
    let text = prints(&fabric, &squares("5", pieces));
    assert_rules(&text, rules);
    if let Some(finding) = outcome(&text).findings.first() {
        assert_says(finding, &["2 packs of 42 (84 precut squares) of prints stated; 85 precut squares needed"]);
        assert!(mended(&text, finding).contains("lap: 3 packs"));
    }
}

/// Published yields of small fabrics: the count that was published is right, and one piece more takes another fabric.
/// S294: Scrappy Camper, 2016. S297: Quilting Board t222332. S248: New Quilters, Cutting up 10 in squares. S285: Red, white and
/// blue bricks, Meredith. S381: Patchwork Posse, which prints 25 where 30 come of 18 x 21.
#[rstest]
#[case::s294("sold_as: fat_quarters\nusable_width: 21", "2 1/2 x 2 1/2", 56)]
#[case::s297("sold_as: fat_quarters", "5 x 5", 12)]
#[case::s248_fives("sold_as: squares\nprecut: 10", "5 x 5", 4)]
#[case::s248_threes("sold_as: squares\nprecut: 10", "3 x 3", 9)]
#[case::s248_strips("sold_as: squares\nprecut: 10", "2 x 10", 5)]
#[case::s248_two_and_a_half("sold_as: squares\nprecut: 10", "2 1/2 x 2 1/2", 16)]
#[case::s285("sold_as: fat_quarters\nusable_width: 21", "5 x 8 1/2", 8)]
#[case::s285_directional("sold_as: fat_quarters\nusable_width: 21\ndirectional: yes", "5 x 8 1/2", 8)]
#[case::s381("sold_as: fat_quarters\nusable_width: 21", "3 1/2 x 3 1/2", 30)]
fn published_yields_of_one(#[case] fabric: &str, #[case] size: &str, #[case] yields: u64) {
    let text = |count: u64, bought: u64| {
        prints(
            &format!("{fabric}\nrequires: {{ lap: {bought} }}"),
            &format!("piece: A, size: {size}, pieces: {{ lap: {count} }}"),
        )
    };
    assert_silent(&text(yields, 1));
    assert_eq!(of_rule(&text(yields + 1, 1), "fabric-short").len(), 1);
    assert_silent(&text(yields + 1, 2));
}

/// 1440 squares of 2 1/2 in from fat quarters of 18 x 21 in are 26 (S294), and 42 squares of 5 in are four (S297).
#[rstest]
#[case::s294("usable_width: 21\n", "2 1/2", 1440, 26)]
#[case::s297("", "5", 42, 4)]
fn published_numbers_of_fat_quarters(
    #[case] width: &str,
    #[case] side: &str,
    #[case] pieces: u64,
    #[case] bought: u64,
) {
    let text = |bought: u64| {
        prints(&format!("sold_as: fat_quarters\n{width}requires: {{ lap: {bought} }}"), &squares(side, pieces))
    };
    assert_silent(&text(bought));
    assert_rules(&text(bought - 1), &["fabric-short"]);
}

/// Each of 12 fabrics gives 2 squares of 3 1/2 in, which take a strip of it: 12 strips, though 3 would hold the 24 squares.
#[rstest]
#[case::one_of_each(2, 12, &[])]
#[case::one_less(2, 11, &["strips-short"])]
#[case::pooled(2, 3, &["strips-short"])]
#[case::eleven_a_strip(11, 12, &[])]
#[case::two_of_each(12, 23, &["strips-short"])]
fn strips_are_cut_from_each_fabric(#[case] each: u64, #[case] strips: u64, #[case] rules: &[&str]) {
    let cut =
        format!("piece: A, size: 3 1/2 x 3 1/2, strips: {{ lap: {strips} }}, pieces_from_each: {{ lap: {each} }}");
    let text = prints("different: 12\nrequires: { lap: 1/4 yd each }", &cut);
    let found: Vec<String> =
        rules_of(&text).into_iter().filter(|rule| *rule == "strips-short").map(String::from).collect();
    assert_eq!(found, rules, "{:#?}", told(&text, &outcome(&text)));
    if let Some(finding) = outcome(&text).findings.iter().find(|finding| finding.rule == "strips-short") {
        let needed = 12 * each.div_ceil(11);
        assert_says(finding, &[&format!("{strips} strips stated for A; {needed} needed")]);
        assert_eq!(
            finding.correction.as_ref().map(|correction| correction.replacement.clone()),
            Some(needed.to_string())
        );
    }
}

/// A number of packs, or of what is in them, whichever comes first: both must be enough.
#[rstest]
#[case::enough("1 pack or 40", 40, &[])]
#[case::fewer("1 pack or 40", 41, &["fabric-short"])]
#[case::other_first("40 or 1 pack", 40, &[])]
#[case::other_first_fewer("40 or 1 pack", 41, &["fabric-short"])]
#[case::named("40 squares or 1 pack", 40, &[])]
#[case::neither("1 pack or 40 squares", 43, &["fabric-short", "fabric-short"])]
fn packs_or_a_number_of_squares(#[case] bought: &str, #[case] pieces: u64, #[case] rules: &[&str]) {
    let text = prints(
        &format!("sold_as: squares\nprecut: 5\npack: 42\nrequires: {{ lap: {bought} }}"),
        &squares("4 1/2", pieces),
    );
    assert_rules(&text, rules);
}

#[test]
fn a_word_between_the_halves_of_an_amount_is_told_where_it_belongs() {
    let text = prints("different: 2\nrequires: { lap: 1.2 m in all (1 3/8 yd) }", &squares("4 1/2", 16));
    let finding = outcome(&text).findings.into_iter().next().unwrap();
    assert_eq!(finding.at.at.text(&text), "in all");
    assert!(finding.help.contains("1.2 m (1 3/8 yd) in all"), "{}", finding.help);
}

#[test]
fn a_size_that_is_left_out_of_different_is_told_at_its_amount() {
    let text = prints("different: {}\nrequires: { lap: 1/4 yd each }", &squares("4 1/2", 16));
    let text = text
        .replace("{}", "{ wall: 6 }")
        .replace("  lap: { finished: 48 x 57 }", "  lap: { finished: 48 x 57 }\n  wall: { finished: 30 x 30 }");
    let text =
        text.replace("1/4 yd each }", "1/4 yd each, wall: 1/4 yd each }").replace("lap: 16 }", "lap: 16, wall: 6 }");
    let finding = outcome(&text).findings.into_iter().next().unwrap();
    assert_eq!(finding.at.at.text(&text), "1/4 yd");
    assert_says(&finding, &["Nothing says how many different fabrics this size has"]);
}
