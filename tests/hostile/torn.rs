//! Good manuscripts that were cut, doubled and stirred, through the library: each is read to the end, and every
//! finding points into the file.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::report::{Json, Report, Text};
use sparestrip::rule_book::Settings;
use sparestrip::run::{Run, run_on};

use super::support::{GOOD, folder_with, is_wild};
use super::survives;

/// Metric, with tails apart, lists in lines, a pair, quotes, comments and names that are not ASCII.
const OTHER: &str = "\u{feff}# Ein Muster — naïve\r
pattern: \"Grüße \\u00e9\"\r
measure: cm\r
sizes:\r
  größe: { finished: 90 x 120 }   # ½\r
  毛布: { finished: '135 x 180' }\r
binding:\r
  strip_width: 6.5\r
  tails: { start: 25, end: 20 }\r
  opening: 30\r
  finish: hand\r
  requires:\r
    größe:\r
      strips: 6\r
      fabric: 50 cm (5/8 yd)\r
    毛布: { strips: 8, fabric: 60 cm }\r
accepted:\r
  - rule: spare-strip\r
    size: größe\r
    because: >\r
      the kit packs\r
      a strip\r
";

/// Checks a text, tells it in both formats and asserts what holds for any.
fn holds(text: &str) {
    let source = Source::from_text("torn.pattern.yaml", text);
    let outcome = check(&source, &Settings::default());
    for finding in &outcome.findings {
        let places = std::iter::once(finding.at.at)
            .chain(finding.related.iter().map(|label| label.at))
            .chain(finding.correction.iter().map(|correction| correction.at));
        for at in places {
            assert!(
                at.start <= at.end && text.get(at.start..at.end).is_some(),
                "{at:?} of {} in {text:?}",
                finding.rule
            );
        }
    }
    let run = run_on(source, std::path::Path::new("/"), sparestrip::run::Asked::default());
    for tame in [told(&run, &Text::default()), told(&run, &Json)] {
        assert_eq!(tame.chars().find(|c| *c != '\n' && is_wild(*c)), None, "{text:?}");
    }
}

fn told(run: &Run, report: &dyn Report) -> String {
    let mut out = Vec::new();
    report.write(run, &mut out).unwrap();
    String::from_utf8(out).unwrap()
}

#[test]
fn the_manuscripts_are_right_before_they_are_torn() {
    for text in [GOOD, OTHER] {
        let outcome = check(&Source::from_text("good.pattern.yaml", text), &Settings::default());
        let errors: Vec<_> = outcome.findings.iter().filter(|found| found.rule != "accepted-unused").collect();
        assert!(errors.is_empty(), "{errors:#?}");
    }
}

#[test]
fn cut_off_at_every_byte() {
    for whole in [GOOD, OTHER] {
        for end in 0..whole.len() {
            let source = Source::from_bytes("torn.pattern.yaml", whole.as_bytes()[..end].to_vec());
            let outcome = check(&source, &Settings::default());
            assert!(outcome.findings.iter().all(|found| source.text.get(found.at.at.start..found.at.at.end).is_some()));
            if whole.is_char_boundary(end) {
                holds(&whole[..end]);
            }
        }
    }
}

#[test]
fn cut_off_through_the_program() {
    for end in (0..GOOD.len()).step_by(61) {
        let (folder, _) = folder_with("torn.pattern.yaml", &GOOD[..end]);
        survives(folder.path(), "torn.pattern.yaml");
    }
}

/// One way of tearing a text.
#[derive(Clone, Debug)]
enum Tear {
    Cut(usize, usize),
    Insert(usize, String),
    DeleteLine(usize),
    DoubleLine(usize),
    Indent(usize, usize),
    MoveLine(usize, usize),
}

fn tears() -> impl Strategy<Value = Vec<Tear>> {
    let scrap = prop_oneof![
        "[\\[\\]{}:,\"'#&*!|>%@`?<~ \t\r\n-]{1,4}",
        "\\PC{1,3}",
        Just("<<: *a\n".to_string()),
        Just("&é ".to_string()),
        Just("*é".to_string()),
        Just("? é\n: ".to_string()),
        Just("\n---\n".to_string()),
        Just("\n...\n".to_string()),
        Just("\u{feff}".to_string()),
        Just("\u{1b}[31m".to_string()),
        Just("é: 1\n".to_string()),
        Just("null".to_string()),
        "[0-9]{1,12}",
    ];
    let tear = prop_oneof![
        (any::<usize>(), 1..30_usize).prop_map(|(at, length)| Tear::Cut(at, length)),
        (any::<usize>(), scrap).prop_map(|(at, scrap)| Tear::Insert(at, scrap)),
        any::<usize>().prop_map(Tear::DeleteLine),
        any::<usize>().prop_map(Tear::DoubleLine),
        (any::<usize>(), 0..9_usize).prop_map(|(line, by)| Tear::Indent(line, by)),
        (any::<usize>(), any::<usize>()).prop_map(|(from, to)| Tear::MoveLine(from, to)),
    ];
    proptest::collection::vec(tear, 1..6)
}

fn torn(text: &str, tears: &[Tear]) -> String {
    let mut text = text.to_string();
    for tear in tears {
        let boundary = |at: usize| (0..=at % (text.len() + 1)).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
        let mut lines: Vec<String> = text.split_inclusive('\n').map(str::to_string).collect();
        let line = |index: usize| index % lines.len().max(1);
        match tear {
            Tear::Cut(at, length) => {
                let (start, end) =
                    (boundary(*at), boundary((*at % (text.len() + 1)).saturating_add(*length).min(text.len())));
                text.replace_range(start..end.max(start), "");
                continue;
            }
            Tear::Insert(at, scrap) => {
                let at = boundary(*at);
                text.insert_str(at, scrap);
                continue;
            }
            _ if lines.is_empty() => continue,
            Tear::DeleteLine(index) => {
                let index = line(*index);
                lines.remove(index);
            }
            Tear::DoubleLine(index) => {
                let index = line(*index);
                lines.insert(index, lines[index].clone());
            }
            Tear::Indent(index, by) => {
                let index = line(*index);
                lines[index] = format!("{}{}", " ".repeat(*by), lines[index].trim_start_matches(' '));
            }
            Tear::MoveLine(from, to) => {
                let (from, to) = (line(*from), line(*to));
                let moved = lines.remove(from);
                lines.insert(to, moved);
            }
        }
        text = lines.concat();
    }
    text
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1000,
        failure_persistence: None,
        // The same on every run; change the number to look elsewhere.
        rng_seed: RngSeed::Fixed(64),
        ..ProptestConfig::default()
    })]

    #[test]
    fn random_edits(tears in tears(), other in any::<bool>()) {
        holds(&torn(if other { OTHER } else { GOOD }, &tears));
    }

    #[test]
    fn any_text(text in "\\PC{0,200}") {
        holds(&text);
    }

    #[test]
    fn any_signs_of_yaml(text in "[a\u{e9}1 \t\r\n:,\\-\\[\\]{}\"'#&*!|>%@`?<~=\u{feff}\u{85}\u{2028}\u{7f}]{0,60}") {
        holds(&text);
    }

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        let source = Source::from_bytes("torn.pattern.yaml", bytes);
        let text = source.text.clone();
        holds(&text);
        let outcome = check(&source, &Settings::default());
        prop_assert!(outcome.findings.iter().all(|found| text.get(found.at.at.start..found.at.at.end).is_some()));
        prop_assert!(!outcome.findings.is_empty());
    }
}
