//! Something is stated that this edition of the tool does not check.

use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::manuscript::model::Grain;

pub(super) const RULE: Rule = Rule { name: "not-checked", page: include_str!("../../rules/not-checked.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (section, at) in &context.manuscript.unchecked {
        let (are, their) = if section.ends_with('s') { ("are", "their") } else { ("is", "its") };
        let message = format!("The {section} {are} not checked yet: {their} numbers still have to be checked by hand.");
        findings.push(
            Finding::new(Label::new(*at, "not checked yet"), message).help("Everything else in the file is checked."),
        );
    }
    let Some(grain) = context.manuscript.binding.as_ref().and_then(|binding| binding.grain.stated()) else { return };
    if grain.value == Grain::Bias {
        let message = "Bias binding is not checked yet: the strips and the fabric still have to be checked by hand.";
        let help =
            "The strip width is checked against the seam, and the tails against the opening, as for any binding.";
        findings.push(Finding::new(Label::new(grain.at, "strips and fabric not checked yet"), message).help(help));
    }
}
