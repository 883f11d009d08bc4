//! Large files, and files that are large in one respect. The bound on memory is in [`super::survives`].

use std::fmt::Write as _;

use rstest::rstest;

use super::support::{GOOD, folder_with};
use super::{is_refused, rules_in};

const MIB: usize = 1024 * 1024;
/// Just below the largest file that is read.
const FULL: usize = 4 * MIB - 64;

fn filled(before: &str, part: &str, after: &str) -> String {
    let room = FULL - before.len() - after.len();
    format!("{before}{}{after}", part.repeat(room / part.len()))
}

fn numbered(count: usize, line: impl Fn(usize) -> String) -> String {
    (0..count).fold(String::new(), |mut text, index| {
        let _ = writeln!(text, "{}", line(index));
        text
    })
}

#[test]
fn a_file_of_a_hundred_megabytes_is_out_of_range() {
    let (folder, file) = folder_with("huge.pattern.yaml", "");
    std::fs::File::options().write(true).open(file).unwrap().set_len(100 * MIB as u64).unwrap();
    let ran = is_refused(folder.path(), "huge.pattern.yaml");
    assert_eq!(rules_in(&ran), ["out-of-range"]);
}

#[test]
fn a_file_one_byte_too_large_is_out_of_range_and_one_just_small_enough_is_read() {
    let padding = |bytes: usize| format!("{GOOD}#{}", "c".repeat(bytes - GOOD.len() - 1));
    let (folder, _) = folder_with("over.pattern.yaml", padding(4 * MIB + 1));
    assert_eq!(rules_in(&is_refused(folder.path(), "over.pattern.yaml")), ["out-of-range"]);
    let (folder, _) = folder_with("full.pattern.yaml", padding(4 * MIB));
    assert_eq!(super::survives(folder.path(), "full.pattern.yaml").status, Some(0));
}

#[test]
fn a_hundred_thousand_unknown_words_are_told_up_to_a_bound_and_counted() {
    let words = numbered(15_000, |index| format!("strip_wid{index}: 1"));
    let (folder, _) = folder_with("words.pattern.yaml", format!("{GOOD}{words}"));
    let ran = is_refused(folder.path(), "words.pattern.yaml");
    let report = ran.json();
    let findings = report["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 1001, "a thousand of them, and one that counts the rest");
    let last = findings.last().unwrap()["message"].as_str().unwrap();
    assert!(last.contains("14000 more"), "{last}");
    // More words than a manuscript may hold: that is said, and not that something is missing.
    let words = numbered(100_000, |index| format!("word{index}: 1"));
    let (folder, _) = folder_with("words.pattern.yaml", words);
    let rules = rules_in(&is_refused(folder.path(), "words.pattern.yaml"));
    assert_eq!(rules, ["not-yaml", "out-of-range", "unknown-word"]);
}

#[test]
fn three_hundred_thousand_acceptances_do_not_hide_a_finding_of_the_file() {
    let short = GOOD.replace("strips: 9", "strips: 5");
    let items = "  - a\n".repeat(300_000);
    let (folder, _) = folder_with("items.pattern.yaml", format!("{short}accepted:\n{items}"));
    let rules = rules_in(&is_refused(folder.path(), "items.pattern.yaml"));
    assert!(rules.contains(&"out-of-range".to_string()), "{rules:?}");
    assert!(rules.contains(&"binding-short".to_string()), "{rules:?}");
}

#[test]
fn a_thousand_acceptances_are_read_and_the_next_is_out_of_range() {
    let count = |items: usize, rule: &str| {
        let text = format!("{GOOD}accepted:\n{}", "  - { rule: spare-strap, because: kept }\n".repeat(items));
        let (folder, _) = folder_with("items.pattern.yaml", text);
        let report = is_refused(folder.path(), "items.pattern.yaml").json();
        report["findings"].as_array().unwrap().iter().filter(|found| found["rule"] == rule).count()
    };
    assert_eq!(count(1000, "out-of-range"), 0);
    assert_eq!(count(1000, "unknown-word"), 1000);
    assert_eq!(count(1001, "out-of-range"), 1);
}

#[test]
fn two_hundred_sizes_are_read_and_the_next_is_out_of_range() {
    let pattern = |sizes: usize| {
        let names = |line: &str| numbered(sizes, |index| line.replace('#', &index.to_string()));
        format!(
            "pattern: Many\nmeasure: inch\nsizes:\n{}binding:\n  strip_width: 2 1/2\n  requires:\n{}",
            names("  s#: { finished: 36 x 48 }"),
            names("    s#: { strips: 6, fabric: 1/2 yd }"),
        )
    };
    let (folder, _) = folder_with("sizes.pattern.yaml", pattern(200));
    assert_eq!(super::survives(folder.path(), "sizes.pattern.yaml").status, Some(0));
    for many in [201, 20_000] {
        let (folder, _) = folder_with("sizes.pattern.yaml", pattern(many));
        let rules = rules_in(&is_refused(folder.path(), "sizes.pattern.yaml"));
        assert_eq!(rules, ["out-of-range"], "{many}: what follows is not read, and nothing is made of it");
    }
}

#[rstest]
#[case::sizes(numbered(100_000, |index| format!("  s{index}: {{ finished: 36 x 48 }}")), "pattern: A\nmeasure: inch\nsizes:\n")]
#[case::requirements(numbered(60_000, |index| format!("    t{index}: {{}}")), GOOD)]
#[case::long_names(numbered(190, |index| format!("  {}{index}: {{}}", "n".repeat(20_000))), "sizes:\n")]
#[case::quoted_long_names(numbered(190, |index| format!("  \"{}{index}\": {{}}", "n".repeat(20_000))), "sizes:\n")]
#[case::anchors(numbered(100_000, |index| format!("k{index}: &a{index} 1")), "")]
#[case::broken_lines("  x: [a: b: c\n".repeat(100_000), GOOD)]
#[case::broken_quotes("a: \"b\n".repeat(400_000), "")]
#[case::second_colons("k: b: c\n".repeat(300_000), GOOD)]
#[case::tabs("\tx: 1\n".repeat(300_000), GOOD)]
#[case::merges("<<: *x\n".repeat(300_000), GOOD)]
#[case::repeated("pattern: b\n".repeat(300_000), GOOD)]
fn many_of_one_mistake(#[case] lines: String, #[case] before: &str) {
    let (folder, _) = folder_with("many.pattern.yaml", format!("{before}{lines}"));
    is_refused(folder.path(), "many.pattern.yaml");
}

#[rstest]
#[case::one_value("pattern: ", "x", "")]
#[case::one_word("", "x", ": 1\n")]
#[case::one_value_of_few_words("binding:\n  fold: ", "y", "\n")]
#[case::one_line_of_words("{", "strip_widht: 1, ", "}")]
#[case::one_line_of_wide_words("{", "縫い代: 1, ", "}")]
#[case::list("accepted: [", "a,", "]")]
#[case::list_never_closed("[", "a,", "")]
#[case::table_of_nothing("{", "a,", "}")]
#[case::dashes("", "- ", "x")]
#[case::lines_of_dashes("", "-\n", "")]
#[case::open_brackets("", "[", "")]
#[case::open_tables("", "{a: ", "")]
#[case::close_brackets("", "]\n", "")]
#[case::quotes("", "\"", "")]
#[case::colons("", ": ", "")]
#[case::questions("", "? ", "")]
#[case::anchors("", "&a ", "")]
#[case::exclamations("", "!", "")]
#[case::percents("", "%", "")]
#[case::documents("", "---\n", "")]
#[case::block_scalar("a: |\n", " x\n", "")]
#[case::comment("#", "c", "")]
#[case::comments("", "#\n", "")]
#[case::line_feeds("", "\n", "")]
#[case::carriage_returns("", "\r", "")]
#[case::spaces("", " ", "")]
#[case::tabs("", "\t", "")]
#[case::noughts("", "\0", "")]
#[case::escapes("", "\u{1b}", "")]
#[case::aliases("a: &a [x]\nb: [", "*a,", "]")]
fn four_mebibytes_of_one_thing(#[case] before: &str, #[case] part: &str, #[case] after: &str) {
    let (folder, _) = folder_with("full.pattern.yaml", filled(before, part, after));
    is_refused(folder.path(), "full.pattern.yaml");
}

#[test]
fn four_mebibytes_that_are_no_text() {
    let (folder, _) = folder_with("full.pattern.yaml", vec![0xff; FULL]);
    is_refused(folder.path(), "full.pattern.yaml");
    let (folder, _) = folder_with("full.pattern.yaml", [0xc3, 0x28].repeat(FULL / 2));
    assert!(rules_in(&is_refused(folder.path(), "full.pattern.yaml")).contains(&"not-yaml".to_string()));
}

#[rstest]
#[case::lists("[".repeat(10_000))]
#[case::closed_lists(format!("{}{}", "[".repeat(10_000), "]".repeat(10_000)))]
#[case::tables("{a: ".repeat(10_000))]
#[case::closed_tables(format!("{}1{}", "{a: ".repeat(10_000), "}".repeat(10_000)))]
#[case::blocks(numbered(2_800, |depth| format!("{}a:", " ".repeat(depth))))]
#[case::dashes(format!("{}x", "- ".repeat(10_000)))]
#[case::in_a_size(GOOD.replace("strips: 9", &format!("strips: {}", "[".repeat(10_000))))]
fn deep_nesting(#[case] text: String) {
    let (folder, _) = folder_with("deep.pattern.yaml", text);
    is_refused(folder.path(), "deep.pattern.yaml");
}

#[test]
fn nesting_to_64_is_read_and_to_65_is_out_of_range() {
    // The table of the whole file is the first level.
    let deep = |levels: usize| format!("{GOOD}fabrics: {}x{}\n", "[".repeat(levels - 1), "]".repeat(levels - 1));
    let (folder, _) = folder_with("deep.pattern.yaml", deep(64));
    assert_eq!(rules_in(&super::survives(folder.path(), "deep.pattern.yaml")), ["wrong-shape"]);
    let (folder, _) = folder_with("deep.pattern.yaml", deep(65));
    assert_eq!(rules_in(&is_refused(folder.path(), "deep.pattern.yaml")), ["out-of-range"]);
}

#[test]
fn an_alias_bomb_goes_off_once() {
    let step = |index: usize| format!("a{index}: &a{index} [{}]", vec![format!("*a{}", index - 1); 9].join(", "));
    let bomb = format!("a0: &a0 [x, x, x]\n{}", numbered(19, |index| step(index + 1)));
    let (folder, _) = folder_with("bomb.pattern.yaml", bomb);
    let report = is_refused(folder.path(), "bomb.pattern.yaml").json();
    let aliases = report["findings"].as_array().unwrap().iter().filter(|found| found["rule"] == "not-yaml").count();
    assert_eq!(aliases, 19 * 9, "each alias is told where it stands, and none is followed");
}

#[rstest]
#[case("strips: 9", format!("strips: 1{}", "0".repeat(10_000)))]
#[case("strips: 9", "strips: 1e400".into())]
#[case("strips: 9", "strips: 18446744073709551616".into())]
#[case("strips: 9", "strips: -9".into())]
#[case("strip_width: 2 1/2", format!("strip_width: {}", "9".repeat(10_000)))]
#[case("strip_width: 2 1/2", format!("strip_width: 2.{}", "1".repeat(10_000)))]
#[case("strip_width: 2 1/2", format!("strip_width: 2 1/{}", "9".repeat(10_000)))]
#[case("strip_width: 2 1/2", "strip_width: 1e400".into())]
#[case("strip_width: 2 1/2", "strip_width: .inf".into())]
#[case("strip_width: 2 1/2", "strip_width: 0".into())]
#[case("strip_width: 2 1/2", "strip_width: 2 1/0".into())]
#[case("strip_width: 2 1/2", "strip_width: 999999999 63/64".into())]
#[case("54 x 72", format!("{} x {}", "5".repeat(300), "7".repeat(300)))]
#[case("3/4 yd", "999999999 yd".into())]
#[case("opening: 12", "opening: 99999999999999999999 km".into())]
fn huge_and_impossible_numbers(#[case] good: &str, #[case] bad: String) {
    assert!(GOOD.contains(good));
    let (folder, _) = folder_with("numbers.pattern.yaml", GOOD.replace(good, &bad));
    let ran = is_refused(folder.path(), "numbers.pattern.yaml");
    let rules = rules_in(&ran);
    assert!(rules.iter().all(|rule| rule == "out-of-range" || rule == "unreadable-quantity"), "{rules:?}");
    assert_eq!(rules.len(), 1, "{rules:?}");
}
