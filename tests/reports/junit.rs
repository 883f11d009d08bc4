//! JUnit, read by `junit-parser`.

use junit_parser::{TestCase, TestSuite};

use super::FOUR_KINDS;
use super::seen::{check, suites};
use super::support::{GOOD, folder_with, run};

fn named<'s>(suite: &'s TestSuite, name: &str) -> &'s TestCase {
    let found = suite.cases.iter().find(|case| case.original_name == name);
    found.unwrap_or_else(|| panic!("no case {name} in {:#?}", names(suite)))
}

fn names(suite: &TestSuite) -> Vec<&str> {
    suite.cases.iter().map(|case| case.original_name.as_str()).collect()
}

/// The one suite of a check of one file.
fn suite(text: &str, words: &[&str]) -> TestSuite {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let mut suites = suites(&check(folder.path(), words).junit);
    assert_eq!(suites.suites.len(), 1);
    suites.suites.remove(0)
}

#[test]
fn a_suite_a_manuscript_and_a_case_a_stated_number() {
    let suite = suite(GOOD, &[]);
    assert_eq!(suite.name, "x.pattern.yaml");
    let expected = [
        ("all sizes: usable_width", 5),
        ("all sizes: seam", 6),
        ("all sizes: sold_by", 7),
        ("all sizes: binding strip_width", 13),
        ("all sizes: binding seam", 15),
        ("all sizes: binding loft", 16),
        ("all sizes: binding tails", 21),
        ("all sizes: binding opening", 22),
        ("crib: finished", 9),
        ("crib: binding strips", 24),
        ("crib: binding fabric", 24),
        ("throw: finished", 10),
        ("throw: binding strips", 25),
        ("throw: binding fabric", 25),
        ("queen: finished", 11),
        ("queen: binding strips", 26),
        ("queen: binding fabric", 26),
    ];
    let cases = suite.cases.iter().map(|case| (case.original_name.as_str(), case.line.unwrap()));
    assert_eq!(cases.collect::<Vec<_>>(), expected);
    assert_eq!((suite.tests, suite.failures, suite.errors, suite.skipped), (17, 0, 0, 8));
    for case in &suite.cases {
        assert!(case.status.is_success() || case.status.is_skipped(), "{case:?}");
        assert_eq!((case.file.as_deref(), case.classname.as_deref()), (Some("x.pattern.yaml"), Some("x")));
    }
}

#[test]
fn a_failure_is_in_the_case_of_the_number_with_its_place_and_working() {
    let suite = suite(&GOOD.replace("strips: 12", "strips: 11"), &[]);
    let case = named(&suite, "queen: binding strips");
    let failure = case.status.failure_as_ref();
    assert_eq!(failure.failure_type, "spare-strip");
    assert!(failure.message.starts_with("11 strips stated; 12 needed"), "{failure:?}");
    let head = "x.pattern.yaml:26:22: error[spare-strip] (queen)\n  11 strips stated; 12 needed";
    assert!(failure.text.starts_with(head), "{failure:?}");
    assert!(failure.text.contains("\n  Print 12 strips"), "{failure:?}");
    assert!(failure.text.contains("\n  See line 11, column 22: the perimeter is 372 in."), "{failure:?}");
    assert_eq!((suite.tests, suite.failures), (17, 1));
    assert_eq!(suite.cases.iter().filter(|case| case.status.is_failure()).count(), 1);
}

#[test]
fn what_is_no_failure_is_said_in_the_case() {
    let suite = suite(FOUR_KINDS, &[]);
    let accepted = named(&suite, "queen: binding strips");
    assert_eq!(accepted.status.skipped_as_ref().message, "accepted");
    let said = accepted.system_out.as_deref().unwrap();
    let head = "x.pattern.yaml:13:22: error[spare-strip] (queen), accepted: the kit packs one more\n";
    assert!(said.starts_with(head), "{said}");
    let query = named(&suite, "throw, binding: size-not-stated");
    assert!(query.status.is_success());
    assert!(query.system_out.as_deref().unwrap().contains(": query[size-not-stated] (throw, binding)\n"), "{query:?}");
    let unchecked = named(&suite, "crib: reed requires");
    assert!(unchecked.status.is_skipped(), "{unchecked:?}");
    assert!(!unchecked.status.skipped_as_ref().message.is_empty());
    assert_eq!((suite.failures, suite.skipped), (1, 7));
}

#[test]
fn a_number_taken_as_given_is_skipped_with_the_word_and_fails_where_something_is_wrong_with_it() {
    let seam = "all sizes: binding seam";
    assert_eq!(named(&suite(GOOD, &[]), seam).status.skipped_as_ref().message, "as given");
    // A seam of 1/64 in is out of the range that anybody sews.
    let wide = suite(&GOOD.replace("loft: low", "loft: 1/4").replace("tails: 10", "tails: 1"), &[]);
    assert_eq!(named(&wide, "all sizes: binding tails").status.failure_as_ref().failure_type, "tails-too-short");
}

#[test]
fn strict_makes_queries_failures() {
    let suite = suite(FOUR_KINDS, &["--strict"]);
    let query = named(&suite, "throw, binding: size-not-stated");
    assert_eq!(query.status.failure_as_ref().failure_type, "size-not-stated");
    assert_eq!(query.system_out, None, "it is told once");
    assert_eq!((suite.failures, suite.skipped), (2, 7));
}

#[test]
fn an_account_makes_failures_of_what_nothing_checks() {
    let suite = suite(FOUR_KINDS, &["--account"]);
    for size in ["crib", "throw", "queen"] {
        let case = named(&suite, &format!("{size}: reed requires"));
        let failure = case.status.failure_as_ref();
        assert_eq!(failure.failure_type, "number-not-checked");
        assert!(failure.text.starts_with("x.pattern.yaml:15:"), "{failure:?}");
        assert!(failure.text.contains(&format!(": not checked: reed requires ({size})\n")), "{failure:?}");
    }
    assert_eq!((suite.failures, suite.skipped), (4, 4));
}

/// The account for JUnit changes nothing that other formats tell, nor the exit status.
#[test]
fn without_an_account_no_other_format_tells_one() {
    let text = FOUR_KINDS.replace("crib:  { strips: 5", "crib:  { strips: 6");
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let reports = check(folder.path(), &[]);
    assert_eq!(reports.status, Some(0), "{}", reports.text);
    assert!(reports.json.get("unaccounted").is_none());
    for format in ["text", "json"] {
        let alone = run(folder.path(), &["check", "--format", format]);
        let written = if format == "text" { reports.text.clone() } else { alone.out.clone() };
        assert_eq!(alone.out, written);
    }
    let alone = run(folder.path(), &["check", "--format", "sarif"]).out;
    assert_eq!(serde_json::from_str::<serde_json::Value>(&alone).unwrap(), reports.sarif);
    let alone = run(folder.path(), &["check", "--format", "junit"]);
    assert_eq!((alone.status, alone.out), (Some(0), reports.junit));
}

#[test]
fn what_cannot_be_read_is_an_error() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let reports = check(folder.path(), &["x.pattern.yaml", "gone.pattern.yaml"]);
    assert_eq!(reports.status, Some(2));
    let suites = suites(&reports.junit);
    assert_eq!((suites.tests, suites.failures, suites.errors), (18, 0, 1));
    let gone = suites.suites.iter().find(|suite| suite.name == "gone.pattern.yaml").unwrap();
    assert_eq!((gone.tests, gone.errors), (1, 1));
    let error = gone.cases[0].status.error_as_ref();
    assert!(error.message.contains("No such file"), "{error:?}");
}

/// Systems take two cases of one name for the same, and show one of them.
#[test]
fn no_two_cases_of_a_suite_have_one_name_and_the_totals_are_right() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    for words in [vec![], vec!["--strict"], vec!["--account"]] {
        let suites = suites(&check(root, &[vec!["example-patterns"], words].concat()).junit);
        let (mut tests, mut failures, mut skipped) = (0, 0, 0);
        for suite in &suites.suites {
            let mut names = names(suite);
            names.sort_unstable();
            let all = names.len();
            names.dedup();
            assert_eq!(names.len(), all, "{}", suite.name);
            assert_eq!(suite.tests, all as u64);
            assert_eq!(suite.failures, suite.cases.iter().filter(|case| case.status.is_failure()).count() as u64);
            assert_eq!(suite.skipped, suite.cases.iter().filter(|case| case.status.is_skipped()).count() as u64);
            tests += suite.tests;
            failures += suite.failures;
            skipped += suite.skipped;
        }
        assert_eq!((suites.tests, suites.failures, suites.skipped), (tests, failures, skipped));
    }
}

/// Two words of one name that are both misspelt, and both misspelt in one size: each has a case.
#[test]
fn findings_of_one_rule_have_cases_of_their_own() {
    let text = GOOD.replace("edition: 1", "editoin: 1\nmeasrue: cm").replace("fold: double", "flod: double");
    let suite = suite(&text, &[]);
    let cases = suite.cases.iter().filter(|case| case.original_name.starts_with("unknown-word"));
    let failing: Vec<&str> = cases.map(|case| case.original_name.as_str()).collect();
    assert_eq!(failing, ["unknown-word", "unknown-word (2)", "unknown-word (3)"]);
}
