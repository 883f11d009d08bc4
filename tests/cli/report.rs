//! The text report: what it says, and that it says what JSON says.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use sparestrip::manuscript::Source;
use sparestrip::report::{Json, Order, Report, Text};
use sparestrip::run::run_on;

use super::support::{GOOD, folder_with, run};
use super::with_an_error;

#[test]
fn the_words_of_a_report() {
    let (folder, _) = folder_with("harbour.pattern.yaml", with_an_error());
    let ran = run(folder.path(), &["check"]);
    // The working by hand: 2 x (90 + 96) = 372; with 4 x 1/2 at the corners, 10 + 10 tails, less the opening of 12,
    // 382. 10 strips of 40 with 9 joins of 2 1/2 are 377 1/2, 11 with 10 are 415: 11 reach, and 12 have a spare.
    let report = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "spare-strip (queen)",
        "11 strips stated; 12 needed",
        "harbour.pattern.yaml:26:22",
        "382 in",
        "415 in",
        "33 in left over",
    ] {
        assert!(report.contains(words), "{words:?} in\n{}", ran.out);
    }
    assert!(ran.out.ends_with("\n1 manuscript: 1 error\n"), "{}", ran.out);
    // The line is shown and the number underlined, to the character.
    let lines: Vec<&str> = ran.out.lines().collect();
    let shown = lines.iter().position(|line| line.contains("queen: { strips: 11")).expect("the line is shown");
    let column = |line: &str, part: char| line.chars().position(|c| c == part);
    let number = lines[shown].chars().collect::<Vec<_>>().windows(2).position(|pair| pair == ['1', '1']);
    assert_eq!(
        column(lines[shown + 1], '─').or(column(lines[shown + 1], '┬')).min(column(lines[shown + 1], '┬')),
        number
    );
}

#[test]
fn summaries_in_words() {
    let accepted =
        "accepted:\n  - { rule: spare-strip, size: queen, stated: 11, because: the kit packs an extra strip }\n";
    for (text, words) in [
        (GOOD.to_string(), "1 manuscript: no problems\n"),
        (with_an_error() + accepted, "1 manuscript: no problems, 1 accepted\n"),
        (GOOD.to_string() + accepted, "1 manuscript: 1 query\n"),
        (with_an_error().replace("strips: 9", "strips: 7"), "1 manuscript: 2 errors, 1 note\n"),
    ] {
        let (folder, _) = folder_with("x.pattern.yaml", text);
        let out = run(folder.path(), &["check"]).out;
        assert!(out.ends_with(words), "{words:?} in {out}");
    }
}

fn told(text: &str, report: &dyn Report) -> String {
    let run =
        run_on(Source::from_text("x.pattern.yaml", text), std::path::Path::new("/"), sparestrip::run::Asked::default());
    let mut out = Vec::new();
    report.write(&run, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

/// The places that a text report gives, finding by finding.
fn places_in_text(report: &str) -> Vec<Vec<(u64, u64)>> {
    let mut findings = Vec::new();
    for line in report.lines() {
        if ["error: ", "query: ", "note: "].iter().any(|level| line.starts_with(level)) {
            findings.push(Vec::new());
        }
        if let (Some((_, place)), Some(places)) = (line.split_once("x.pattern.yaml:"), findings.last_mut()) {
            let numbers = place.split(|c: char| !c.is_ascii_digit()).take(2).filter_map(|part| part.parse().ok());
            if let [line, column] = numbers.collect::<Vec<u64>>()[..] {
                places.push((line, column));
            }
        }
    }
    findings
}

fn formats_agree(text: &str) {
    let (json, report) = (told(text, &Json), told(text, &Text { all: true, order: Order::Place, ..Text::default() }));
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let (findings, places) = (json["findings"].as_array().unwrap(), places_in_text(&report));
    assert_eq!(places.len(), findings.len(), "in {text:?}\n{report}");
    for (found, places) in findings.iter().zip(places) {
        let place = (found["at"]["line"].as_u64().unwrap(), found["at"]["column"].as_u64().unwrap());
        assert!(places.contains(&place), "{place:?} in {places:?} in {text:?}\n{report}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, rng_seed: RngSeed::Fixed(8), ..ProptestConfig::default() })]

    #[test]
    fn text_and_json_tell_the_same_findings_at_the_same_places(
        at in 0..GOOD.len(),
        scrap in prop_oneof!["[\\[\\]{}:,\"'#&*! \t\r\n-]{1,4}", "\\PC{1,3}", "[a-z]{1,4}", "[0-9]{1,6}"],
        cut in 0..12_usize,
        line_end in prop_oneof![Just("\n"), Just("\r\n"), Just("\r")],
    ) {
        let mut text = GOOD.replace("crib", "größe").replace('\n', line_end);
        let at = (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap();
        let end = (at..=at + cut).rev().find(|end| text.is_char_boundary(*end)).unwrap_or(at);
        text.replace_range(at..end, &scrap);
        formats_agree(&text);
        prop_assert_eq!(told(&text, &Json), told(&text, &Json));
        prop_assert_eq!(told(&text, &Text::default()), told(&text, &Text::default()));
    }
}
