//! Every row of the worksheet agrees with itself, in every manuscript at hand and in what becomes of them where a number
//! is changed.

use sparestrip::manuscript::Source;
use sparestrip::rule_book::book;

use super::support::rows::no_row_contradicts_itself;
use super::support::{GOOD, examples, folder_with, run};

/// The examples, right and faulty, and both manuscripts of each rule's page.
fn manuscripts() -> Vec<String> {
    let examples = examples().into_iter().map(|path| Source::open(&path).unwrap().text);
    let pages = book().iter().flat_map(|page| [page.fails.text(), page.passes.text()]);
    examples.chain(pages).collect()
}

#[test]
fn no_row_of_an_example_or_of_a_rule_s_page_contradicts_itself() {
    let blamed: usize = manuscripts().iter().map(|text| no_row_contradicts_itself(text)).sum();
    assert!(blamed > 40, "only {blamed} rows are short or wrong");
}

/// Each number of each manuscript in turn becomes another.
#[test]
fn no_row_contradicts_itself_where_a_number_is_changed() {
    let mut blamed = 0;
    for (index, text) in manuscripts().iter().enumerate() {
        for (number, (start, end)) in numbers(text).into_iter().enumerate() {
            // Each change would be a check: of long manuscripts some are made, others in each.
            if text.len() > 3000 && number % 7 != index % 7 {
                continue;
            }
            let stated: u32 = text[start..end].parse().unwrap_or(1);
            for other in [stated.saturating_sub(1), stated + 1, stated * 3 + 2] {
                blamed += no_row_contradicts_itself(&format!("{}{other}{}", &text[..start], &text[end..]));
            }
        }
    }
    assert!(blamed > 1000, "only {blamed} rows are short or wrong");
}

/// Where the digits of each number begin and end; those of names are among them, and do no harm.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (at, _) in text.char_indices().filter(|(_, c)| c.is_ascii_digit()) {
        match found.last_mut() {
            Some((_, end)) if *end == at => *end += 1,
            _ => found.push((at, at + 1)),
        }
    }
    found
}

/// 36 + 2 x 3 in is longer than the longest side of the crib size, 36 in.
#[test]
fn an_opening_that_is_too_long_is_wrong_with_the_working_that_says_so() {
    let text = GOOD.replace("opening: 12", "opening: 45").replace("tails: 10", "tails: 30");
    let (folder, _) = folder_with("x.pattern.yaml", &text);
    let sheet = run(folder.path(), &["worksheet", "x.pattern.yaml", "--format", "json"]).json();
    let lines = sheet["lines"].as_array().unwrap();
    let opening = lines.iter().find(|line| line["number"] == "binding opening").unwrap();
    assert_eq!(opening["standing"], "wrong", "{opening:#}");
    assert_eq!(opening["found"][0]["rule"], "opening-too-long");
    let working = opening["working"].as_str().unwrap();
    assert!(working.contains("and the side is 48 in") && !working.contains("It fits"), "{working}");
}

/// A patch that finishes 3 in is cut 3 1/2 in, with a seam of 1/4 in at each side, and one of 4 in is cut 4 1/2 in.
#[test]
fn a_number_that_two_units_take_is_counted_once_and_each_row_says_what_is_so_for_its_unit() {
    let text = "\
pattern: Two Steps
measure: inch
assumes: { seam: 1/4 }
sizes:
  lap: { finished: 48 x 48 }
units:
  step: { make: patch, finished: 3, cut: { patch: P } }
  stride: { make: patch, finished: 4, cut: { patch: P } }
fabrics:
  ink:
    requires: { lap: 1/2 yd }
    cut:
      - { piece: P, size: 4 x 4, pieces: { lap: 8 } }
";
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let sheet = run(folder.path(), &["worksheet", "x.pattern.yaml", "--format", "json"]).json();
    let at_the_size = |line: &&serde_json::Value| line["at"]["line"] == 13 && line["stated"] == "4 x 4";
    let rows = sheet["lines"].as_array().unwrap().iter().filter(at_the_size);
    let rows: Vec<[&str; 3]> =
        rows.map(|line| ["needed", "margin", "standing"].map(|key| line[key].as_str().unwrap())).collect();
    assert_eq!(rows, [["3 1/2 in square", "1/2 in", "ok"], ["4 1/2 in square", "-1/2 in", "short"]]);
    let text = run(folder.path(), &["worksheet", "x.pattern.yaml"]).out;
    assert!(text.contains("\n1 of 2 checked numbers OK, 1 short."), "{text}");
}
