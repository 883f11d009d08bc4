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

use super::caution::Caution;
use super::spool::{SpooledArray, laid_out};
use super::{Report, ReportInParts};
use crate::discover::Problem;
use crate::run::{Checked, Total};
use location::{artifact, of_the_path};
use log::{Artifact, ArtifactLocation, Component, Invocation, Location, Message, Notification, PhysicalLocation, Tool};

/// The SARIF format.
#[derive(Clone, Copy, Debug)]
pub struct Sarif;

/// Where the schema of this version is published.
const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";

/// What relative paths are relative to. The name is the customary one, which systems know.
const ROOT: &str = "%SRCROOT%";

impl Report for Sarif {
    fn begin(&self) -> Box<dyn ReportInParts> {
        let items = SpooledArray::at_depth;
        Box::new(SarifInParts { files: 0, artifacts: items(4), results: items(4), cautions: items(5) })
    }
}

/// The run that is being written: what stands before the files and the results hangs on all of them.
struct SarifInParts {
    files: usize,
    /// Every file that was checked, whether anything was found in it or not.
    artifacts: SpooledArray,
    results: SpooledArray,
    /// No results, since nothing in the manuscript is wrong, and none of the tool's own troubles.
    cautions: SpooledArray,
}

impl ReportInParts for SarifInParts {
    fn file(&mut self, file: &Checked, _: &mut dyn Write) -> io::Result<()> {
        let index = self.files;
        self.files += 1;
        self.artifacts.push(&Artifact { location: artifact(file, index), roles: ["analysisTarget"] })?;
        results::results(file, index).iter().try_for_each(|result| self.results.push(result))?;
        Caution::of(file).iter().try_for_each(|caution| self.cautions.push(caution))
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        write!(out, "{{\n  \"$schema\": {},\n  \"version\": \"2.1.0\",\n  \"runs\": [\n    {{", laid_out(&SCHEMA, 0)?)?;
        write!(out, "\n      \"tool\": {},", laid_out(&tool(total.unaccounted > 0), 3)?)?;
        write!(out, "\n      \"invocations\": {},", laid_out(&[invocation(total.problems)], 3)?)?;
        write!(out, "\n      \"originalUriBaseIds\": {},", laid_out(&BTreeMap::from([(ROOT, root())]), 3)?)?;
        write!(out, "\n      \"artifacts\": ")?;
        self.artifacts.write(out)?;
        write!(out, ",\n      \"results\": ")?;
        self.results.write(out)?;
        write!(out, ",\n      \"defaultEncoding\": \"UTF-8\",\n      \"columnKind\": \"unicodeCodePoints\"")?;
        // As YAML has it, a carriage return alone ends a line too.
        write!(out, ",\n      \"newlineSequences\": {}", laid_out(&["\r\n", "\n", "\r"], 3)?)?;
        if !self.cautions.is_empty() {
            write!(out, ",\n      \"properties\": {{\n        \"cautions\": ")?;
            self.cautions.write(out)?;
            write!(out, "\n      }}")?;
        }
        writeln!(out, "\n    }}\n  ]\n}}")
    }
}

fn tool(unaccounted: bool) -> Tool {
    let driver = Component {
        name: env!("CARGO_PKG_NAME"),
        version: env!("CARGO_PKG_VERSION"),
        semantic_version: env!("CARGO_PKG_VERSION"),
        rules: rules::rules(unaccounted),
    };
    Tool { driver }
}

fn root() -> ArtifactLocation {
    let description = Message::new("The folder in which the check was started.");
    ArtifactLocation { uri: None, uri_base_id: None, index: None, description: Some(description) }
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
