//! A piece of a unit is cut too small.

use super::{Context, Rule};
use crate::finding::Finding;

pub(super) const RULE: Rule =
    Rule { name: "unit-cut-short", page: include_str!("../../rules/unit-cut-short.yaml"), check };

fn check(_: &Context<'_>, _: &mut Vec<Finding>) {}
