//! Printed texts: one that is staged has its manuscript checked, by the words that are staged.

use super::repository::{Repository, questionable};
use crate::support::GOOD;

const RIGHT: &str = "# Harbour Lanterns\n\n## Binding\n\n| | Crib | Throw | Queen |\n|---|---|---|---|\n\
    | Strips | 6 | 9 | 12 |\n| Fabric | 1/2 yd | 3/4 yd | 7/8 yd |\n";

fn wrong() -> String {
    RIGHT.replace("| 9 |", "| 8 |")
}

fn naming(text: &str) -> String {
    format!("{GOOD}texts: [{text}]\n")
}

#[test]
fn a_staged_text_has_its_manuscript_checked() {
    for (folder, below) in [("", ""), ("season one/", "layout/"), ("[1] * what?/", ""), ("two\nlines\\ /", "x y/")] {
        let Some(repository) = Repository::new() else { return };
        let text = format!("{folder}{below}lanterns.md");
        repository.stage(&format!("{folder}lanterns.pattern.yaml"), naming(&format!("{below}lanterns.md")));
        repository.stage(&text, RIGHT);
        assert!(repository.passes().contains("numbers matched"), "{folder:?}");
        repository.stage(&text, wrong());
        let told = repository.is_stopped();
        let of_text = "error: text-differs (throw, \"8\")";
        assert!(told.contains("1 manuscript: ") && told.contains(of_text), "{folder:?}: {told}");
        // What lies in the folder without being staged does not decide.
        repository.write(&text, RIGHT);
        repository.is_stopped();
        repository.stage(&text, RIGHT);
        repository.write(&text, wrong());
        repository.stage("more.md", "Nothing that a manuscript names.\n");
        repository.passes();
    }
}

#[test]
fn a_text_that_is_taken_away_is_missed() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("lanterns.pattern.yaml", naming("lanterns.md"));
    repository.stage("lanterns.md", RIGHT);
    repository.passes();
    repository.git(&["rm", "-q", "lanterns.md"]);
    assert!(repository.is_stopped().contains("error: text-not-read"));
}

#[test]
fn the_text_of_a_staged_manuscript_is_read_as_it_was_committed() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("lanterns.pattern.yaml", naming("lanterns.md"));
    repository.stage("lanterns.md", RIGHT);
    repository.passes();
    repository.stage("lanterns.pattern.yaml", naming("lanterns.md").replace("strips: 9", "strips: 10"));
    let told = repository.is_stopped();
    assert!(told.contains("text-differs (throw, \"9\") at lanterns.md:7"), "{told}");
}

#[cfg(unix)]
#[test]
fn a_text_that_is_a_link_is_read_from_its_file() {
    let Some(repository) = Repository::new() else { return };
    repository.stage("season/layout/print.md", wrong());
    std::os::unix::fs::symlink("layout/print.md", repository.top().join("season/lanterns.md")).unwrap();
    repository.git(&["add", "season/lanterns.md"]);
    repository.stage("season/lanterns.pattern.yaml", naming("lanterns.md"));
    assert!(repository.is_stopped().contains("error: text-differs (throw, \"8\")"));
    repository.stage("season/layout/print.md", RIGHT);
    repository.write("season/layout/print.md", wrong());
    assert!(repository.passes().contains("numbers matched"));
}

#[test]
fn a_text_has_no_other_manuscript_checked() {
    let Some(repository) = Repository::new() else { return };
    repository.git(&["config", "sparestrip.options", "--strict"]);
    repository.stage("lanterns.pattern.yaml", naming("lanterns.md"));
    repository.stage("lanterns.md", RIGHT);
    repository.stage("other.pattern.yaml", questionable());
    repository.stage("deep/lanterns.md", RIGHT);
    repository.commit(&["--no-verify"]);
    // Nobody names the one below, and the other manuscript names none.
    repository.stage("deep/lanterns.md", wrong());
    assert_eq!(repository.passes(), "");
    repository.stage("lanterns.md", format!("{RIGHT}\nBind it.\n"));
    assert!(repository.passes().contains("1 manuscript: "));
}
