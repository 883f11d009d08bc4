//! A mistake in a page of the rule book fails the build, with the file's name and the line.

use rstest::rstest;

use crate::page_in_build::{Page, read, values_named_twice};

const NAME: &str = "thread-short";
const PATH: &str = "rules/thread-short.yaml";

const PAGE: &str = "\
name: thread-short
level: error
headline: The thread does not reach.
why: The seam stays open.
working: The seams, and a tail at each end.
values:
  - name: thread_tail
    value: 4 in
    meaning: How much thread is left at each end.
    source: common practice
fails: |
  pattern: Tide Pool
  thread: «10»
passes: |
  pattern: Tide Pool
  thread: 20
";

fn page(text: &str) -> Result<Page, String> {
    read(PATH, NAME, text.to_string())
}

#[test]
fn a_right_page_is_read() {
    let page = page(PAGE).unwrap_or_else(|mistake| panic!("{mistake}"));
    assert_eq!((page.identifier().as_str(), page.values.len()), ("thread_short", 1));
}

#[rstest]
#[case::a_level_that_is_none("level: error", "level: grave", 2, "unknown variant `grave`")]
#[case::a_word_that_is_none("why:", "because:", 4, "unknown field `because`")]
#[case::a_word_that_is_missing("why: The seam stays open.\n", "", 1, "missing field `why`")]
#[case::nothing_said("why: The seam stays open.", "why: ' '", 4, "nothing is said here")]
#[case::a_length_that_cannot_be_read("value: 4 in", "value: 4O in", 8, "\"4O in\" cannot be read")]
#[case::a_count_that_is_too_large("value: 4 in", "value: 100001", 8, "\"100001\" cannot be read")]
#[case::one_side_that_cannot_be_read("value: 4 in", "value: 4 in x wide", 8, "\"4 in x wide\" cannot be read")]
#[case::a_value_without_a_source("    source: common practice\n", "", 7, "missing field `source`")]
#[case::a_mark_that_is_not_closed("«10»", "«10", 11, "a mark « without its other half")]
#[case::a_mark_that_is_not_opened("«10»", "10»", 11, "a mark » without its other half")]
#[case::a_mark_within_marks("«10»", "««10»»", 11, "a mark « without its other half")]
#[case::the_name_of_another_rule("name: thread-short", "name: thread-long", 1, "thread-long")]
#[case::not_yaml("working: The", "working: 'The", 17, "at line 5 column 10")]
fn a_mistake_has_the_name_of_the_file_and_the_line(
    #[case] from: &str,
    #[case] to: &str,
    #[case] line: usize,
    #[case] said: &str,
) {
    assert!(PAGE.contains(from), "{from}");
    let mistake = page(&PAGE.replacen(from, to, 1)).err().expect("a mistake");
    assert!(mistake.starts_with(&format!("{PATH}:{line}:")), "{mistake}");
    assert!(mistake.contains(said), "{mistake}");
}

#[test]
fn a_value_of_two_pages_is_told_at_the_second() {
    let other = PAGE.replace("thread-short", "thread-long");
    let other = read("rules/thread-long.yaml", "thread-long", other).unwrap_or_else(|mistake| panic!("{mistake}"));
    let pages = [other, page(PAGE).unwrap_or_else(|mistake| panic!("{mistake}"))];
    assert_eq!(
        values_named_twice("rules", &pages),
        ["rules/thread-short.yaml:7: thread_tail is a value of thread-long already"]
    );
}
