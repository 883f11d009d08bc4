//! SARIF 2.1.0, the OASIS standard: what systems that show findings beside the text read.
//!
//! A brace in a message is doubled, as the standard asks (section 3.11.5), and a bracket that would end a link is
//! escaped. A fingerprint is rule, size and a running number, so that it stays when lines move.

mod location;
mod log;
mod results;
mod rules;

use std::collections::BTreeMap;
use std::io::{self, Write};

use super::Report;
use super::caution::Caution;
use super::sanitize::escape_json;
use crate::discover::Problem;
use crate::run::Run;
use location::{artifact, of_the_path};
use log::{
    Artifact, ArtifactLocation, Component, Invocation, Location, Log, Message, Notification, PhysicalLocation, RunLog,
    RunProperties, Tool,
};

/// The SARIF format.
#[derive(Clone, Copy, Debug)]
pub struct Sarif;

/// Where the schema of this version is published.
const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";

/// What relative paths are relative to. The name is the customary one, which systems know.
const ROOT: &str = "%SRCROOT%";

impl Report for Sarif {
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        let log = Log { schema: SCHEMA, version: "2.1.0", runs: [run_log(run)] };
        let text = serde_json::to_string_pretty(&log)?;
        writeln!(out, "{}", escape_json(&text))
    }
}

fn run_log(run: &Run) -> RunLog<'_> {
    let unaccounted = run.unaccounted() > 0;
    let driver = Component {
        name: env!("CARGO_PKG_NAME"),
        version: env!("CARGO_PKG_VERSION"),
        semantic_version: env!("CARGO_PKG_VERSION"),
        rules: rules::rules(unaccounted),
    };
    let root = ArtifactLocation {
        uri: None,
        uri_base_id: None,
        index: None,
        description: Some(Message::new("The folder in which the check was started.")),
    };
    RunLog {
        tool: Tool { driver },
        invocations: [invocation(&run.problems)],
        original_uri_base_ids: BTreeMap::from([(ROOT, root)]),
        artifacts: artifacts(run),
        results: results::results(run),
        default_encoding: "UTF-8",
        column_kind: "unicodeCodePoints",
        // As YAML has it, a carriage return alone ends a line too.
        newline_sequences: ["\r\n", "\n", "\r"],
        properties: properties(run),
    }
}

/// Every file that was checked, whether anything was found in it or not.
fn artifacts(run: &Run) -> Vec<Artifact> {
    let files = run.files.iter().enumerate();
    files.map(|(index, file)| Artifact { location: artifact(file, index), roles: ["analysisTarget"] }).collect()
}

/// The cautions: no results, since nothing in the manuscript is wrong, and none of the tool's own troubles.
fn properties(run: &Run) -> Option<RunProperties<'_>> {
    let cautions: Vec<Caution<'_>> = run.files.iter().filter_map(Caution::of).collect();
    (!cautions.is_empty()).then_some(RunProperties { cautions })
}

/// What could not be read is told here: there is no place in it to point at.
fn invocation(problems: &[Problem]) -> Invocation {
    let notifications = problems.iter().map(|problem| {
        let artifact_location = of_the_path(&problem.path, None);
        let at = PhysicalLocation { artifact_location, region: None };
        Notification {
            level: "error",
            message: Message::new(&format!("{}: {}", problem.path.to_string_lossy(), problem.why)),
            locations: [Location { physical_location: at, message: None }],
        }
    });
    Invocation { execution_successful: problems.is_empty(), tool_execution_notifications: notifications.collect() }
}
