//! Numbers whose size no word beside them says: they go by what the numbers around them are.

use sparestrip::text::State;

use super::matched_with;

/// Windmills in four sizes.
const MILLS: &str = "\
pattern: Kestrel Yard
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes:
  crib: { finished: 36 x 44 }
  throw: { finished: 52 x 60 }
  twin: { finished: 68 x 84 }
  king: { finished: 100 x 100 }
fabrics:
  kelp:
    requires: { crib: 1 1/8 yd, throw: 2 yd, twin: 3 1/4 yd, king: 5 1/8 yd }
    cut:
      - { piece: mill square, size: 4 7/8 x 4 7/8, strips: { crib: 5, throw: 9, twin: 15, king: 25 }, pieces: { crib: 40, throw: 72, twin: 120, king: 200 } }
  spray:
    requires: { crib: 7/8 yd, throw: 1 1/2 yd, twin: 2 1/4 yd, king: 3 5/8 yd }
    cut:
      - { piece: plain square, size: 8 1/2 x 8 1/2, strips: { crib: 3, throw: 6, twin: 10, king: 17 }, pieces: { crib: 10, throw: 22, twin: 38, king: 66 } }
  dusk:
    requires: { crib: 3/4 yd, throw: 1 yd, twin: 1 3/8 yd, king: 1 7/8 yd }
    cut:
      - { piece: border, strip_width: 3 1/2, strips: { crib: 4, throw: 6, twin: 8, king: 11 } }
binding:
  strip_width: 2 1/2
  requires: { crib: { strips: 5 }, throw: { strips: 7 }, twin: { strips: 9 }, king: { strips: 11 } }
backing:
  overhang: 4
  requires: { crib: { fabric: 2 1/2 yd, panels: 2 }, throw: { fabric: 3 1/2 yd, panels: 2 }, twin: { fabric: 5 1/4 yd, panels: 2 }, king: { fabric: 9 yd, panels: 3 } }
";

/// What the numbers of a text came to, as they are written, with what each was matched to.
fn read(text: &str) -> Vec<(String, State, String)> {
    let numbers = matched_with(MILLS, "kestrel-yard.md", text).numbers;
    numbers.into_iter().map(|number| (number.quoted, number.state, number.matched.join("; "))).collect()
}

fn differing(text: &str) -> Vec<(String, String)> {
    let differs = read(text).into_iter().filter(|(_, state, _)| *state == State::Differs);
    differs.map(|(quoted, _, matched)| (quoted, matched)).collect()
}

/// Two sizes, each in a section of its own, of which neither has its name over it.
const NICKNAMES: &str = "\
# Kestrel Yard

## The little one, for a pram

- kelp: 5 strips 4 7/8\" wide, into 40 squares
- spray: 3 strips 8 1/2\" wide, into 10 squares
- dusk: 4 border strips 3 1/2\" wide

## The huge one, for the big bed

- kelp: 25 strips 4 7/8\" wide, into 200 squares
- spray: 17 strips 8 1/2\" wide, into 66 squares
- dusk: 11 border strips 3 1/2\" wide
";

#[test]
fn a_section_without_a_name_of_a_size_is_for_the_one_that_its_numbers_are_of() {
    let numbers = read(NICKNAMES);
    assert_eq!(numbers.iter().filter(|(_, state, _)| *state == State::Right).count(), 16, "{numbers:#?}");
    let of_section = |quoted: &str| {
        let found = numbers.iter().find(|(own, _, _)| own == quoted).expect("the number");
        found.2.clone()
    };
    assert!(of_section("40").contains("crib"), "{}", of_section("40"));
    assert!(of_section("200").contains("king"), "{}", of_section("200"));
    // 120 squares are those of the twin.
    let changed = NICKNAMES.replace("into 200 squares", "into 120 squares");
    assert_eq!(differing(&changed), [("120".to_string(), "pieces of mill square, kelp, king: 200".to_string())]);
}

#[test]
fn a_size_that_is_named_to_compare_with_is_not_that_of_the_numbers() {
    let text = "\
## Throw

Cut 9 strips of kelp 4 7/8\" wide into 72 mill squares, and 6 strips of spray 8 1/2\" wide into 22 plain squares.

## Twin

As for the throw: 120 mill squares from 15 strips of kelp, 38 plain squares from 10 strips of spray, 8 border strips.
";
    assert_eq!(differing(text), []);
    let changed = text.replace("38 plain squares", "39 plain squares");
    assert_eq!(differing(&changed), [("39".to_string(), "pieces of plain square, spray, twin: 38".to_string())]);
}

#[test]
fn runs_are_read_in_the_order_in_which_they_are_numbers_of_the_manuscript() {
    // No word says that the bed with the crown comes first, and the sofa in brackets.
    let text = "\
Get 5 1/8 yd [2 yd] of kelp, 3 5/8 yd [1 1/2 yd] of spray and 1 7/8 yd [1 yd] of dusk.

Cut 200 [72] mill squares and 66 [22] plain squares. The back takes 9 yd [3 1/2 yd].
";
    let numbers = read(text);
    assert!(numbers.iter().all(|(_, state, _)| *state == State::Right), "{numbers:#?}");
    let changed = text.replace("66 [22]", "66 [23]");
    assert_eq!(differing(&changed), [("23".to_string(), "pieces of plain square, spray, throw: 22".to_string())]);
    // Words may stand before the bracket.
    let words = "\
Get 5 1/8 yd of kelp green (2 yd), 3 5/8 yd of pale spray (1 1/2 yd) and 1 7/8 yd of dusk (1 yd). For the back it is
9 yd of anything (3 1/2 yd).
";
    assert_eq!(
        differing(&words.replace("(1 yd)", "(1 1/8 yd)")),
        [("1 1/8 yd".to_string(), "fabric of dusk, throw: 1 yd".to_string())]
    );
}

#[test]
fn brackets_of_any_kind_part_the_sizes_of_a_run() {
    let text = "Kelp: 5 [9] {15} <25> strips 4 7/8\" wide, into 40 [72] {120} <200> mill squares.\n";
    let numbers = read(&text.replace('<', "\\<"));
    assert!(numbers.iter().all(|(_, state, _)| *state == State::Right), "{numbers:#?}");
    let changed = text.replace('<', "\\<").replace("{15}", "{16}");
    assert_eq!(differing(&changed), [("16".to_string(), "strips of mill square, kelp, twin: 15".to_string())]);
}

#[test]
fn a_run_of_lengths_shares_the_width_before_it() {
    let long = MILLS
        .replace("finished: 52 x 60", "finished: 36 x 60")
        .replace("  twin: { finished: 68 x 84 }\n  king: { finished: 100 x 100 }\n", "");
    let long = long.replace(", twin: 3 1/4 yd, king: 5 1/8 yd", "");
    let matched = |text: &str| matched_with(&long, "kestrel-yard.md", text).numbers;
    for text in ["Finished: 36\" wide by 44 (60)\" long.\n", "The quilt finishes 36\" by 44 / 60\".\n"] {
        let numbers = matched(text);
        assert!(numbers.iter().all(|number| number.state == State::Right), "{text}: {numbers:#?}");
        let changed = matched(&text.replace("60", "61"));
        let differs = changed.iter().filter(|number| number.state == State::Differs);
        let wrong: Vec<&str> = differs.map(|number| number.quoted.trim_end_matches('"')).collect();
        assert_eq!(wrong, ["61"], "{text}: {changed:#?}");
    }
}

#[test]
fn a_number_for_both_is_asked_of_the_sizes_that_the_text_names() {
    // Three panels are the king's, and the text has none.
    let text = "\
| | Crib | Throw |
|---|---|---|
| Kelp | 1 1/8 yd | 2 yd |
| Spray | 7/8 yd | 1 1/2 yd |

Both backs are pieced from two panels and reach 4\" past the top on each side.
";
    assert_eq!(differing(text), []);
}

#[test]
fn a_unit_in_the_name_of_the_pattern_is_none() {
    let text = "\
# Kestrel Yard

| Pieces to cut | Twin | King |
|---|---|---|
| Kelp mill square | 120 | 200 |
| Spray plain square | 38 | 66 |
";
    let numbers = read(text);
    assert!(numbers.iter().all(|(_, state, _)| *state == State::Right), "{numbers:#?}");
}

#[test]
fn short_lines_are_lines_of_their_own_though_they_begin_small() {
    let text = "\
Buy:

kelp 1 1/8 yd for the crib, 2 yd for the throw
spray 7/8 yd for the crib, 1 1/2 yd for the throw
dusk 3/4 yd for the crib, 1 yd for the throw
";
    let numbers = read(text);
    assert!(numbers.iter().all(|(_, state, _)| *state == State::Right), "{numbers:#?}");
}

/// Runs over four sizes, in the order of the manuscript, as writers part them.
const RUNS: [(&str, [&str; 4]); 5] = [
    ("Kelp: 1 1/8 yd (2 yd: 3 1/4 yd: 5 1/8 yd)", ["1 1/8 yd", "2 yd", "3 1/4 yd", "5 1/8 yd"]),
    ("Kelp: 1 1/8 yd (2, 3 1/4, 5 1/8)", ["1 1/8 yd", "2", "3 1/4", "5 1/8"]),
    ("Kelp: 5–9–15–25 strips", ["5", "9", "15", "25"]),
    ("Kelp: 5 [9] {15} {{25}} strips", ["5", "9", "15", "25"]),
    ("Kelp: 5 · 9 · 15 · 25 strips", ["5", "9", "15", "25"]),
];

#[test]
fn runs_are_for_the_sizes_in_turn() {
    for (text, numbers) in RUNS {
        let text = format!("Numbers are for crib, throw, twin and king.\n\n{text}");
        let found: Vec<(String, State)> = read(&text).into_iter().map(|(quoted, state, _)| (quoted, state)).collect();
        assert_eq!(found, numbers.map(|number| (number.to_string(), State::Right)), "{text}");
        // The last for the first size: what is another size's is wrong where it stands.
        let (first, last) = (numbers[0].trim_end_matches(" yd"), numbers[3].trim_end_matches(" yd"));
        let wrong = text.replacen(first, last, 1);
        assert_eq!(differing(&wrong).len(), 1, "{wrong}: {:?}", read(&wrong));
    }
}

/// A word for a side is no size, where a size is named by it.
#[test]
fn the_long_side_is_no_size() {
    const RUNNERS: &str = "\
pattern: Sand
measure: cm
sizes:
  short: { finished: 42 x 96 }
  long: { finished: 42 x 156 }
layout:
  short: { across: 3, down: 15, measures: 37.5 x 91.5, borders: [{ width: 3, corners: butted, measures: 43.5 x 97.5 }] }
  long: { across: 3, down: 25, measures: 37.5 x 151.5, borders: [{ width: 3, corners: butted, measures: 43.5 x 157.5 }] }
";
    let text = "## The short runner\n\nAdd the border, long sides first. The top now measures 43.5 cm x 97.5 cm.\n";
    let numbers = matched_with(RUNNERS, "sand.md", text).numbers;
    assert!(numbers.iter().all(|number| number.state == State::Right), "{numbers:?}");
}
