//! House rules and sign-offs: those that are staged govern, in their places.

use super::repository::{Repository, faulty};
use crate::support::{GOOD, run, write};

/// The error of the faulty manuscript is none to a house that needs no spare strip.
const LENIENT: &str = "values: { spare_strips: 0 }\n";
/// One strip to spare is not enough for this house.
const STRICT: &str = "values: { spare_strips: 2 }\n";

#[test]
fn house_rules_in_a_folder_above_govern() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("house-rules.yaml", LENIENT);
    repository.stage("season one/quilts/x.pattern.yaml", faulty());
    repository.passes();
    repository.stage("season two/house-rules.yaml", "levels: { }\n");
    repository.stage("season two/x.pattern.yaml", faulty());
    assert!(repository.is_stopped().contains("at season two/x.pattern.yaml:26:22"));
}

#[test]
fn house_rules_that_are_not_staged_do_not_govern() {
    let Some(repository) = Repository::new() else { return };
    repository.write("house-rules.yaml", LENIENT);
    repository.stage("x.pattern.yaml", faulty());
    repository.is_stopped();
    repository.git(&["add", "house-rules.yaml"]);
    repository.passes();
    // Changed since in the folder only.
    repository.write("house-rules.yaml", STRICT);
    repository.stage("x.pattern.yaml", format!("{}# more\n", faulty()));
    repository.passes();
}

#[test]
fn staged_house_rules_have_all_that_they_govern_checked() {
    for folder in ["", "[1] * what?/", "two\nlines\\ "] {
        let Some(repository) = Repository::new() else { return };
        let folder = if folder.is_empty() || folder.ends_with('/') { folder.to_string() } else { format!("{folder}/") };
        repository.stage(&format!("{folder}deep/x.pattern.yaml"), GOOD);
        repository.stage("elsewhere/y.pattern.yaml", faulty());
        repository.commit(&["--no-verify"]);
        repository.stage(&format!("{folder}house-rules.yaml"), LENIENT);
        let told = repository.passes();
        let many = if folder.is_empty() { "2 manuscripts: " } else { "1 manuscript: " };
        assert!(told.contains(many), "{folder:?}: {told}");
        repository.stage(&format!("{folder}house-rules.yaml"), STRICT);
        assert!(repository.is_stopped().contains("error: spare-strip (crib)"));
        // Taken away, they change as much.
        repository.stage(&format!("{folder}deep/x.pattern.yaml"), faulty());
        repository.commit(&["--no-verify"]);
        repository.git(&["rm", "-q", "-f", &format!("{folder}house-rules.yaml")]);
        assert!(repository.is_stopped().contains("error: spare-strip (queen)"));
    }
}

#[test]
fn house_rules_above_the_whole_repository_govern_too() {
    let Some(repository) = Repository::new() else { return };
    write(&repository.above().join("house-rules.yaml"), LENIENT);
    repository.stage("sub/x.pattern.yaml", faulty());
    repository.passes();
}

#[test]
fn faulty_house_rules_stop_the_commit() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("x.pattern.yaml", GOOD);
    repository.stage("house-rules.yaml", "values: { spare_strips: many }\n");
    assert!(repository.is_stopped().contains("at house-rules.yaml:1:"));
}

/// A manuscript's sign-off stands beside it: when the record changes, what it is about is looked at.
#[test]
fn a_staged_record_of_sign_offs_has_the_manuscripts_beside_it_checked() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("a/x.pattern.yaml", faulty());
    repository.stage("b/x.pattern.yaml", GOOD);
    repository.commit(&["--no-verify"]);
    repository.stage("b/sign-offs.yaml", "");
    assert!(repository.passes().contains("1 manuscript: "));
    repository.stage("a/sign-offs.yaml", "");
    repository.is_stopped();
}

/// The sign-off that counts is the one that is staged with the manuscript.
#[test]
fn a_manuscript_must_be_committed_with_its_sign_off_where_the_settings_say_so() {
    let Some(repository) = Repository::new() else { return };
    let sign = || run(repository.top(), &["sign", "a b/x.pattern.yaml", "--by", "Ada Finch"]).status;
    repository.git(&["config", "sparestrip.options", "--signed"]);
    repository.stage("a b/x.pattern.yaml", GOOD);
    assert!(repository.is_stopped().contains("not-signed"));
    assert_eq!(sign(), Some(0));
    repository.is_stopped();
    repository.git(&["add", "a b/sign-offs.yaml"]);
    repository.passes();
    repository.stage("a b/x.pattern.yaml", GOOD.replace("strips: 12", "strips: 13"));
    assert!(repository.is_stopped().contains("changed-since-signed"));
}
