//! Under which conditions a manuscript was signed, and what is told where they are others now.

use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::{Settings, book};
use sparestrip::sign_off::{ChangeKind, CheckOptions, Conditions, Record, Recorded, SignOff, Signer};

use super::{NAME, changed, folder_of, found, record_file, records, run, sign, signed, text_of, write};
use crate::support::GOOD;

/// 30 in is three quarters of a yard and more: 27 in are cut, and nothing is left for squaring up.
fn with_a_query() -> String {
    changed("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 30 in")
}

/// With a fabric of which nothing is cut, so that nothing checks how much of it is bought.
fn with_unchecked_numbers() -> String {
    format!("{GOOD}fabrics:\n  flax:\n    requires: {{ crib: 1 yd, throw: 2 yd, queen: 3 yd }}\n")
}

fn house(folder: &std::path::Path, text: &str) {
    write(&folder.join("house-rules.yaml"), text);
}

fn messages(folder: &std::path::Path) -> Vec<String> {
    found(folder).into_iter().map(|found| found.2).collect()
}

#[test]
fn a_record_holds_levels_values_options_and_what_stood() {
    let folder = folder_of(&with_a_query());
    house(folder.path(), "levels:\n  backing-generous: off\nvalues:\n  packaged_queen: 91 x 108\n");
    let ran = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--account"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let conditions = &records(folder.path())[0]["conditions"];
    assert_eq!(conditions["options"]["account"].as_bool(), Some(true));
    assert_eq!(conditions["options"]["strict"].as_bool(), Some(false));
    let levels = conditions["levels"].as_mapping().expect("levels");
    assert_eq!(levels.len(), book().len());
    assert_eq!(levels["backing-generous"].as_str(), Some("off"));
    assert_eq!(levels["spare-strip"].as_str(), Some("error"));
    // No number goes by it: it was in force all the same.
    assert_eq!(conditions["values"]["packaged_queen"].as_str(), Some("91 in x 108 in"));
    let open = conditions["open"].as_sequence().expect("a list");
    assert_eq!(open.len(), 1, "{open:?}");
    assert_eq!(open[0]["rule"].as_str(), Some("no-squaring-room"));
    assert_eq!((open[0]["level"].as_str(), open[0]["size"].as_str()), (Some("query"), Some("queen")));
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}

#[test]
fn a_level_that_was_switched_off_after_signing_is_told() {
    let folder = signed(GOOD);
    house(folder.path(), "levels:\n  spare-strip: off\n");
    assert_eq!(messages(folder.path()), ["The level of spare-strip: signed as error, now off."]);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1));
    // Signed as it is now, with a level off, it holds; and no longer where the level is on again.
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    assert_eq!(messages(folder.path()), [""; 0]);
    std::fs::remove_file(folder.path().join("house-rules.yaml")).expect("removed");
    // The first sign-off was made under these very levels, and counts again.
    assert_eq!(messages(folder.path()), [""; 0]);
    house(folder.path(), "levels:\n  spare-strip: query\n");
    let told = messages(folder.path());
    assert_eq!(told, ["The level of spare-strip: signed as off, now query."], "the last one is compared with");
}

#[test]
fn a_query_that_stood_is_told_where_none_may_stand() {
    let folder = signed(&with_a_query());
    assert_eq!(messages(folder.path()), [""; 0], "it stood when it was signed, and stands now");
    let ran = run(folder.path(), &["check", "--signed", "--strict"]);
    assert!(ran.out.contains("Signed without --strict, while one query stood."), "{}", ran.out);
    // Where no query stood, the option would have changed nothing.
    let folder = signed(GOOD);
    let ran = run(folder.path(), &["check", "--signed", "--strict"]);
    assert_eq!((ran.status, ran.out.contains("--strict")), (Some(0), false), "{ran:?}");
}

#[test]
fn an_option_that_was_not_used_is_told_where_it_matters() {
    let folder = signed(&with_unchecked_numbers());
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
    let ran = run(folder.path(), &["check", "--signed", "--account"]);
    assert!(ran.out.contains("Signed without --account, while nothing checked 3 stated numbers."), "{}", ran.out);
    let folder = signed(GOOD);
    assert_eq!(run(folder.path(), &["check", "--signed", "--account"]).status, Some(0));
}

/// How a text stands, with these findings, to a sign-off that was made when others stood.
fn changes(then: &str, now: &str) -> Vec<(ChangeKind, String)> {
    let settings = Settings::default();
    // The numbers are the same: only what the program finds in them differs, as between two versions of it.
    let source = Source::from_text(NAME, GOOD);
    let conditions = |text: &str| {
        let outcome = check(&Source::from_text(NAME, text), &settings);
        Conditions::new(&settings, CheckOptions::default(), (&outcome.findings, &outcome.texts))
    };
    let ada = Signer { by: "Ada Finch".to_string(), note: None };
    let (_, asked) = settings.with_what_is_asked(|settings| check(&source, settings));
    let record = Record::new(&source, (&settings, &asked), (&[], &[]), ada, jiff::Timestamp::UNIX_EPOCH);
    let recorded = Recorded { signed: vec![record.under(conditions(then))], ..Recorded::default() };
    match SignOff::under(&source, &settings, &recorded, (&conditions(now), &[])) {
        SignOff::Signed { changes, .. } => changes.iter().map(|change| (change.kind, change.sentence())).collect(),
        other => panic!("not signed: {other:?}"),
    }
}

#[test]
fn a_query_that_is_gone_or_new_is_told() {
    let query = &with_a_query();
    let title = "no-squaring-room (queen, binding fabric)";
    assert_eq!(changes(query, query), []);
    let gone = format!("the query {title} stood when it was signed, and is gone");
    assert_eq!(changes(query, GOOD), [(ChangeKind::Query, gone)]);
    let new = format!("the query {title} did not stand when it was signed");
    assert_eq!(changes(GOOD, query), [(ChangeKind::Query, new)]);
}

#[test]
fn changed_numbers_are_told_and_not_the_queries_that_follow_from_them() {
    let folder = signed(GOOD);
    write(&folder.path().join(NAME), with_a_query());
    assert_eq!(messages(folder.path()), ["Binding fabric: signed as 7/8 yd, now 30 in."]);
}

#[test]
fn conditions_that_were_edited_by_hand_are_refused() {
    for (from, to) in [
        ("\"strict\":false", "\"strict\":true"),
        ("\"spare-strip\":\"error\"", "\"spare-strip\":\"off\""),
        ("\"opening\":\"12 in\"", "\"opening\":\"11 in\""),
    ] {
        let folder = signed(GOOD);
        let file = record_file(folder.path());
        let edited = text_of(&file).replacen(from, to, 1);
        assert_ne!(edited, text_of(&file), "{from}");
        write(&file, &edited);
        let ran = run(folder.path(), &["check", "--signed"]);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.contains("has other conditions than those that were recorded"), "{}", ran.err);
    }
}

/// A record of before conditions were recorded says nothing of them.
#[test]
fn a_record_without_conditions_is_compared_by_its_numbers_alone() {
    let folder = signed(&with_a_query());
    let file = record_file(folder.path());
    let text = text_of(&file);
    let (start, rest) = text.split_once(",\"conditions\":{").expect("conditions");
    let (_, end) = rest.split_once("\"},\"stated\":").or(rest.split_once("\"},\"accepted\":")).expect("their end");
    write(&file, format!("{start},\"stated\":{end}"));
    house(folder.path(), "levels:\n  spare-strip: off\n");
    assert_eq!(messages(folder.path()), [""; 0]);
    assert!(run(folder.path(), &["signed"]).out.contains("did not record its conditions"));
}
