//! Eight mistakes of eight kinds in one file that is as awkward as files are.

use super::support::{folder_with, run};
use super::{line_and_column, marked, number};

/// The places between « and » are where a finding is expected, the rules of them in order below.
const MANUSCRIPT: &str = "\u{feff}# Vorlage für Kissen \t— Größen in Zoll
pattern: Grüne Höfe
measure: inch
assumes:
  usable_width: «2001»\t# zu breit
sizes:
  «kissen»: {}\t#\tohne Maß
  größe:   { finished: 36 x 48 }
  毛布:    { finished: 54 x 72 }
  königin: { finished: 90 x 96 }
binding:
  «opning»: 1 # ½
  strip_width: 2 1/2
  seam: 1«w»4
  tails: 10
  «tails»: 8
  «requires»:
    größe: { strips: 6, fabric: 1/2 yd }
    毛布: { strips: 9 }
    «décor»: { strips: 9 }
    kissen: «{» strips: 3] }
";

const RULES: [&str; 8] = [
    "out-of-range",
    "missing-entry",
    "unknown-word",
    "unreadable-quantity",
    "repeated-key",
    "size-not-stated",
    "unknown-size",
    "not-yaml",
];

#[test]
fn eight_mistakes_in_one_run_each_at_its_character() {
    for line_end in ["\n", "\r\n", "\r"] {
        let marked = marked(&MANUSCRIPT.replace('\n', line_end));
        let (folder, _) = folder_with("acht.pattern.yaml", &marked.text);
        let json = run(folder.path(), &["check", "--format", "json", "acht.pattern.yaml"]);
        let report = json.json();
        let findings = report["findings"].as_array().unwrap();
        let rules: Vec<&str> = findings.iter().map(|found| found["rule"].as_str().unwrap()).collect();
        assert_eq!(rules, RULES, "{findings:#?}");
        let text = run(folder.path(), &["check", "acht.pattern.yaml"]).out;
        for (finding, (start, end)) in findings.iter().zip(&marked.places) {
            let at = &finding["at"];
            let rule = &finding["rule"];
            assert_eq!((number(&at["byte"]), number(&at["bytes"])), (*start, end - start), "{rule}");
            let (line, column) = line_and_column(&marked.text, *start);
            assert_eq!((at["line"].as_u64(), at["column"].as_u64()), (Some(line), Some(column)), "{rule}");
            let (line, column) = line_and_column(&marked.text, *end);
            assert_eq!((at["end_line"].as_u64(), at["end_column"].as_u64()), (Some(line), Some(column)), "{rule}");
            // The same place in the text, in the head of the finding, wherever its level puts that.
            let (line, column) = line_and_column(&marked.text, *start);
            let (rule, place) = (rule.as_str().unwrap(), format!("acht.pattern.yaml:{line}:{column}"));
            assert!(
                text.lines().any(|line| line.contains(rule) && line.ends_with(&place)),
                "{rule} at {place} in {text}"
            );
        }
        assert_eq!(json.status, Some(1));
    }
}
