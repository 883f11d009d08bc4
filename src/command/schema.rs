//! `sparestrip schema`

use std::process::ExitCode;

use sparestrip::report::{house_rules_schema, manuscript_schema};

use super::output::print;
use super::{Described, SchemaArgs};

pub(super) fn schema(args: &SchemaArgs) -> ExitCode {
    let schema = match args.of {
        Described::Manuscript => manuscript_schema(),
        Described::HouseRules => house_rules_schema(),
    };
    print(|out| writeln!(out, "{schema:#}"), ExitCode::SUCCESS)
}
