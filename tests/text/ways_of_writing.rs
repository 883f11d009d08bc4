//! Ways in which numbers are written in sentences and on cards: each is read, matched, and found where it is wrong.

use std::path::PathBuf;

use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::text::{State, TextFile, match_text};

const MANUSCRIPT: &str = "\
pattern: Two Shelves
measure: inch
sizes:
  lap: { finished: 48 x 60 }
  bed: { finished: 72 x 84 }
fabrics:
  moss:
    requires: { lap: 1 3/4 yd, bed: 2 5/8 yd }
    cut:
      - { piece: plate, size: 7 1/4 x 7 1/4, strips: { lap: 2, bed: 4 }, pieces: { lap: 9, bed: 18 } }
  chalk:
    requires: { lap: 2 yd, bed: 3 1/2 yd }
    cut:
      - { piece: rim, size: 3 1/2 x 3 1/2, strips: { lap: 4, bed: 8 }, pieces: { lap: 36, bed: 72 } }
units:
  plate: { make: patch, finished: 6 3/4, cut: { patch: plate } }
  rim: { make: patch, finished: 3, cut: { patch: rim } }
blocks:
  shelf: { finished: 9, rows: [[rim, rim, rim], [rim, rim, rim], [rim, rim, rim]] }
layout:
  lap: { across: 5, down: 6 }
  bed: { across: 8, down: 9 }
binding:
  strip_width: 2 1/4
  requires:
    lap: { strips: 6, fabric: 1/2 yd }
    bed: { strips: 9, fabric: 5/8 yd }
";

/// The numbers of a sentence that are right, and those that are found wrong.
fn read(text: &str) -> (Vec<String>, Vec<String>) {
    let source = Source::from_text("shelves.pattern.yaml", MANUSCRIPT);
    let file = TextFile::new(PathBuf::from("shelves.md"), format!("{text}\n").into_bytes());
    let numbers = match_text(&file, &source, &Settings::default()).numbers;
    let of = |is: fn(State) -> bool| -> Vec<String> {
        let those = numbers.iter().filter(|number| is(number.state));
        those.map(|number| number.quoted.trim_end_matches('.').to_string()).collect()
    };
    (of(|state| state == State::Right), of(|state| matches!(state, State::Differs | State::ByItself)))
}

#[rstest]
#[case::a_part_of_a_yard("Bed: the binding takes 5/8 of a yard.", &["5/8 of a yard"])]
#[case::yards_said_once("For the bed you want 2 5/8 yards of moss and 3 1/2 of chalk.", &["2 5/8 yards", "3 1/2"])]
#[case::what_strips_give("Moss, lap: 2 strips @ 7 1/4 in. = 9 large squares.", &["2", "7 1/4 in", "9"])]
#[case::a_size_in_square_brackets("Moss: cut 2 [bed: 4] strips 7 1/4\" wide.", &["2", "4", "7 1/4\""])]
#[case::a_long_one("There is a lap quilt (48 x 60 in) and a bed one (72 x 84 in).", &["48", "60 in", "72", "84 in"])]
#[case::either_size("Cut chalk into 4 or 8 strips 3 1/2\" wide.", &["4", "8", "3 1/2\""])]
#[case::counts_of_a_measure("Lap, then bed. Chalk: 3 1/2 in strips (4, 8).", &["3 1/2 in", "4", "8"])]
#[case::a_preposition("For the bed cut 8 strips of chalk, and 4 in Lap.", &["8", "4"])]
#[case::counts_with_a_slash("Cut 6/9 binding strips 2 1/4\" wide.", &["6", "9", "2 1/4\""])]
#[case::a_choice_of_amounts("Of chalk buy 2 or 3 1/2 yards.", &["2", "3 1/2 yards"])]
#[case::widths_and_lengths("Finished: 48/72 in. by 60/84 in.", &["48", "72 in", "60", "84 in"])]
#[case::sides_with_a_slash("Finished size: 48 x 60 / 72 x 84 in", &["48", "60", "72", "84 in"])]
#[case::the_other_size("Cut binding strips: six for the lap and nine for the other size.", &["six", "nine"])]
#[case::a_word_and_a_figure("Cut nine (18) moss squares 7 1/4\".", &["nine", "18", "7 1/4\""])]
#[case::blocks_by("The bed quilt is 8 blocks by 9.", &["8", "9"])]
#[case::yards_said_last("Moss: lap 1 3/4, bed 2 5/8 yd", &["1 3/4", "2 5/8 yd"])]
#[case::arrows("Finished, in inches: ↔ 48 / 72, ↕ 60 / 84", &["48", "72", "60", "84"])]
#[case::two_things("Moss, lap: two strips, nine squares.", &["two", "nine"])]
#[case::colons_with_room("Chalk: cut 4 : 8 strips 3 1/2\" wide.", &["4", "8", "3 1/2\""])]
#[case::its_own_unit("### Fabric (meters at the counter)\n\nMoss: 1 3/4 / 2 5/8 yd", &["1 3/4", "2 5/8 yd"])]
#[case::so_many_a_strip("Chalk, lap: 36 squares from 4 strips (9 a strip).", &["36", "4", "9"])]
#[case::for_the_setting("Moss, for the setting: 1 3/4 (2 5/8) yards", &["1 3/4", "2 5/8"])]
#[case::so_much_square("The shelf block is 9 square, finished.", &["9"])]
#[case::instead("For the lap we shall instead cut 36 squares of chalk.", &["36"])]
fn it_is_read_as_it_is_meant(#[case] text: &str, #[case] right: &[&str]) {
    assert_eq!(read(text), (right.iter().map(ToString::to_string).collect(), Vec::new()), "{text}");
}

#[rstest]
#[case::yards_said_once("For the bed you want 2 5/8 yards of moss and 3 1/4 of chalk.", "3 1/4")]
#[case::what_strips_give("Moss, lap: 2 strips @ 7 1/4 in. = 8 large squares.", "8")]
#[case::at_least("For the lap, binding of no less than 5/8 yd.", "5/8 yd")]
#[case::instead("For the lap we shall instead cut 35 squares of chalk.", "35")]
#[case::yards_said_last("Moss: lap 1 1/2, bed 2 5/8 yd", "1 1/2")]
fn what_is_wrong_in_it_is_found(#[case] text: &str, #[case] wrong: &str) {
    assert_eq!(read(text).1, [wrong], "{text}");
}

/// Numbers of none of the sizes, of people, and of what something may turn out to be.
#[rstest]
#[case("Lap stands first and bed in brackets: 1 [2].")]
#[case("Twenty-three of you asked for the bed size.")]
#[case("The binding takes not 3/4 yd.")]
#[case("Sew three rows of three for the bed.")]
#[case("The backing takes 4 yards. Get a batting that is 56 by 68 for the lap.")]
#[case("Cut the plates nine (18) times.")]
#[case("| Strip | Lap |\n|---|---|\n| 1 (moss) | yes |\n| 2 (moss) | yes |\n| 3 (moss) | no |\n| 4 (moss) | no |")]
#[case("Sew the plates in pairs, one up and one down, for the bed.")]
#[case("Bed: sew the rims two by two.")]
#[case("Cut the plates twice corner to corner for 18 [36] side triangles.")]
fn nothing_is_said_against_it(#[case] text: &str) {
    assert_eq!(read(text).1, Vec::<String>::new(), "{text}");
}

/// Fabric in yards is no side of the quilt, though 2 yards are 72 inches.
#[test]
fn yards_are_no_side() {
    assert_eq!(read("The bed wants 2 yd of backing."), (Vec::new(), Vec::new()));
}
