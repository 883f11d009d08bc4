//! In the XML of JUnit a finding stands in the case of the number that it is about.

use std::collections::BTreeMap;
use std::path::Path;

use junit_parser::TestStatus;
use serde_json::Value;
use sparestrip::audit::{Line, Status, account};
use sparestrip::finding::Level;
use sparestrip::manuscript::Source;
use sparestrip::manuscript::Span;
use sparestrip::run::settings_for;

use super::all_formats::damaged_folder;
use super::seen::{check, suites};

/// Wherever a case is at the line of a finding, and its size is the finding's, the finding is in the case of a number;
/// and every number that fails is named for the size of its finding.
#[test]
fn a_finding_about_a_size_is_at_a_number_of_that_size_or_of_all() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let reports = check(root, &["example-patterns", "--strict"]);
    let suites = suites(&reports.junit);
    let mut at_numbers = 0;
    for case in suites.suites.iter().flat_map(|suite| &suite.cases).filter(|case| case.status.is_failure()) {
        let failure = case.status.failure_as_ref();
        let finding = finding_of(&reports.json, failure.text.lines().next().unwrap());
        let (size, number) = case.original_name.split_once(": ").unwrap_or(("", &case.original_name));
        if number.starts_with(&failure.failure_type) {
            continue;
        }
        at_numbers += 1;
        assert!(
            size == "all sizes" || finding["size"].is_null() || finding["size"] == size,
            "{} of {finding:#}",
            case.original_name
        );
        assert_eq!(case.line, finding["at"]["line"].as_u64(), "{}", case.original_name);
    }
    assert!(at_numbers > 20, "{at_numbers}");
}

/// The finding of the place in a head.
fn finding_of<'j>(json: &'j Value, head: &str) -> &'j Value {
    let is_it = |finding: &&Value| {
        let (at, file) = (&finding["at"], finding["file"].as_str().unwrap());
        let (level, rule) = (finding["level"].as_str().unwrap(), finding["rule"].as_str().unwrap());
        head.starts_with(&format!("{file}:{}:{}: {level}[{rule}]", at["line"], at["column"]))
    };
    json["findings"].as_array().unwrap().iter().find(is_it).unwrap_or_else(|| panic!("{head}"))
}

/// The worksheet and the cases agree, number by number: what the worksheet calls short has failed, what it asks about
/// says so, and what it calls held has passed. Lines of the worksheet about one number, such as the size of a piece and
/// the cut of the unit that takes it, have one case.
#[test]
fn each_number_stands_as_on_the_worksheet() {
    stands_as_on_the_worksheet(Path::new(env!("CARGO_MANIFEST_DIR")), "example-patterns");
    let (damaged, _) = damaged_folder();
    stands_as_on_the_worksheet(damaged.path(), ".");
}

fn stands_as_on_the_worksheet(root: &Path, folder: &str) {
    let suites = suites(&check(root, &[folder]).junit);
    for suite in &suites.suites {
        let file = root.join(&suite.name);
        let lines = account(&Source::open(&file).unwrap(), &settings_for(file.parent().unwrap())).lines;
        let mut numbers: BTreeMap<(Span, Option<&str>), Vec<&Line>> = BTreeMap::new();
        for line in &lines {
            numbers.entry((line.at, line.size.as_deref())).or_default().push(line);
        }
        let is_worst = |line: &&Line| {
            let lines = &numbers[&(line.at, line.size.as_deref())];
            let worst = lines.iter().map(|line| line.status).max().unwrap();
            lines.iter().find(|other| other.status == worst).is_some_and(|first| std::ptr::eq(*first, *line))
        };
        let lines: Vec<&Line> = lines.iter().filter(is_worst).collect();
        assert!(lines.len() <= suite.cases.len(), "{}", suite.name);
        for (line, case) in lines.into_iter().zip(&suite.cases) {
            let name = format!("{}: {}", line.size.as_deref().unwrap_or("all sizes"), line.number);
            assert!(case.original_name.starts_with(&name), "{name} {}", case.original_name);
            let says = case.system_out.is_some();
            let (passed, failed) = (case.status.is_success(), case.status.is_failure());
            let skipped = |why: &str| match &case.status {
                TestStatus::Skipped(skipped) => skipped.message == why,
                _ => false,
            };
            let agrees = match line.status {
                // A query fails nothing without --strict.
                Status::Short | Status::Wrong if line.level() != Some(Level::Error) => passed && says,
                Status::Short | Status::Wrong => failed,
                Status::Accepted => skipped("accepted") && says,
                Status::Ok => passed && says == line.level().is_some(),
                Status::AsGiven => skipped("as given"),
                Status::NotChecked => case.status.is_skipped(),
            };
            assert!(agrees, "{}: {name} is {line:#?}, and its case {case:#?}", suite.name);
        }
    }
}
