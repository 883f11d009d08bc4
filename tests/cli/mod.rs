//! The command line, as a writer or a publisher's machine uses it.

use crate::support;

mod audit;
mod cautions;
mod house;
mod json;
mod listing;
mod new;
mod other_systems;
mod report;
mod status;
mod terminal;
mod unasked;
mod walking;

use support::GOOD;

/// The good manuscript with one strip too few to have a spare: an error.
fn with_an_error() -> String {
    GOOD.replace("strips: 12", "strips: 11")
}

/// The good manuscript with a size of which the binding says nothing: a query.
fn with_a_query() -> String {
    GOOD.replace("    throw: { strips: 9, fabric: 3/4 yd }\n", "")
}

#[test]
fn the_three_manuscripts_are_what_they_are_called() {
    for (text, errors, queries) in [(GOOD.to_string(), 0, 0), (with_an_error(), 1, 0), (with_a_query(), 0, 1)] {
        let (folder, _) = support::folder_with("x.pattern.yaml", text);
        let summary = &support::run(folder.path(), &["check", "--format", "json"]).json()["summary"];
        assert_eq!((&summary["errors"], &summary["queries"]), (&errors.into(), &queries.into()));
    }
}
