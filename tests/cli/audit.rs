//! `check --account`: every stated number is checked, or named with the reason.

use super::support::{GOOD, folder_with, run};

/// Bias strips of which nothing says how long they are.
const UNSAID: &str = "pattern: Spiral Stair\nmeasure: inch\nsizes:\n  round: { finished: 48 x 48 }\nbinding:\n  \
                      strip_width: 2 1/4\n  grain: bias\n  requires:\n    round: { strips: 7 }\n";

#[test]
fn where_all_is_checked_it_is_as_without() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let (ran, without) = (run(folder.path(), &["check", "--account"]), run(folder.path(), &["check"]));
    assert_eq!((ran.status, &ran.out), (Some(0), &without.out));
    assert!(ran.out.ends_with("\n1 manuscript: no problems\n"), "{}", ran.out);
}

#[test]
fn a_number_that_nothing_checks_is_told_with_its_place_and_why() {
    let (folder, _) = folder_with("x.pattern.yaml", UNSAID);
    assert_eq!(run(folder.path(), &["check"]).status, Some(0));
    let ran = run(folder.path(), &["check", "--account"]);
    assert_eq!(ran.status, Some(1), "{}", ran.out);
    assert!(ran.out.contains("not checked: binding strips (round) at x.pattern.yaml:9:22\n"), "{}", ran.out);
    assert!(ran.out.ends_with(", 1 number not checked\n"), "{}", ran.out);
}

#[test]
fn json_carries_it_too() {
    let (folder, _) = folder_with("x.pattern.yaml", UNSAID);
    let ran = run(folder.path(), &["check", "--account", "--format", "json"]);
    assert_eq!(ran.status, Some(1));
    let json = ran.json();
    let number = &json["unaccounted"][0];
    assert_eq!((&number["number"], &number["size"]), (&"binding strips".into(), &"round".into()));
    assert_eq!((&number["at"]["line"], &number["at"]["column"]), (&9.into(), &22.into()));
    let plain = run(folder.path(), &["check", "--format", "json"]).json();
    assert!(plain.get("unaccounted").is_none(), "only where it was asked for");
}

/// One width that cannot be read leaves nine numbers unchecked: they are counted below it, and listed with --all.
#[test]
fn what_is_not_checked_because_of_one_unread_entry_is_folded() {
    let text = GOOD.replace("usable_width: 40", "usable_width: 4O");
    assert!(text.contains("4O"), "{text}");
    let (folder, _) = folder_with("x.pattern.yaml", &text);
    let short = run(folder.path(), &["check", "--account"]);
    let all = run(folder.path(), &["check", "--account", "--all"]);
    let lines = |out: &str| out.lines().filter(|line| line.starts_with("not checked: ")).count();
    let count = lines(&all.out);
    assert!(count > 4, "{}", all.out);
    assert_eq!(lines(&short.out), 1, "{}", short.out);
    let line = text.lines().position(|line| line.contains("4O")).unwrap() + 1;
    let told = format!("not checked: {count} numbers that depend on what cannot be read at x.pattern.yaml:{line}:");
    assert!(short.out.contains(&told), "{told}: {}", short.out);
    assert!(short.out.ends_with(&format!(", {count} numbers not checked\n")), "{}", short.out);
    let json = run(folder.path(), &["check", "--account", "--format", "json"]).json();
    let numbers = json["unaccounted"].as_array().unwrap();
    assert_eq!(numbers.len(), count);
    assert!(numbers.iter().all(|number| number["caused_by"]["rule"] == "unreadable-quantity"), "{numbers:#?}");
    assert!(numbers.iter().all(|number| number["caused_by"]["at"]["line"] == line), "{numbers:#?}");
}
