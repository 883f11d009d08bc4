//! Something is stated that cannot be checked, and why.
//!
//! What is stated and not checked is said, so that silence always means "checked and right".

use super::fabric_words::listed;
use super::{Context, Rule, subject_words};
use crate::finding::{Finding, Label, Subject};
use crate::requirement::fabrics::FabricNeeds;

pub(super) const RULE: Rule = Rule { name: "not-checked", page: include_str!("../../rules/not-checked.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    findings.extend(context.fabrics.fabrics.iter().filter_map(fabric));
    for laid in &context.layouts.sizes {
        let Some(why) = laid.unchecked else { continue };
        let message = format!("The layout of {} cannot be checked: {why}.", laid.size.name);
        let help = "The finished size and the pieces of this size have to be worked out by hand.";
        let at = Label::new(laid.stated.at, "cannot be checked");
        let finding = Finding::new(at, message).for_size(&laid.size.name).about(Subject::number("layout"));
        findings.push(finding.help(help));
    }
    for size in context.binding.iter().flat_map(|needs| &needs.bias) {
        let Some(strips) = size.stated.strips.stated().filter(|_| size.no_run_stated()) else { continue };
        let message = format!(
            "{} on the bias stated, and nothing says how long each is: they cannot be checked.",
            strips.value.of("strip")
        );
        let help = "State the fabric that they are cut from (fabric: 3/4 yd), or how long each is (strip_length: 40).";
        findings.push(
            Finding::new(Label::new(strips.at, "cannot be checked"), message)
                .for_size(&size.size.name)
                .about(Subject::number("binding strips"))
                .help(help),
        );
    }
}

/// One note for a fabric, whatever the number of its sizes: why it cannot be checked is the same for all of them.
fn fabric(fabric: &FabricNeeds<'_>) -> Option<Finding> {
    let unchecked = fabric.sizes.iter().filter(|size| size.required.is_some());
    let sizes: Vec<(&str, &str)> =
        unchecked.filter_map(|size| Some((size.size.name.as_str(), size.unchecked?))).collect();
    let (_, why) = *sizes.first()?;
    let names: Vec<&str> = sizes.iter().map(|(name, _)| *name).collect();
    let amounts = if names.len() == 1 { "amount" } else { "amounts" };
    let message = format!("The {amounts} of {} for {} cannot be checked: {why}.", fabric.stated.name, listed(&names));
    let help = match fabric.binding_from {
        None => {
            "State what is cut from it under `cut`, each piece with its size and how many; otherwise work it out by hand."
        }
        Some(_) => "Work out by hand what the bias strips take beside everything else that is cut from it.",
    };
    let at = Label::new(fabric.stated.at, "cannot be checked");
    Some(Finding::new(at, message).about(subject_words::fabric(fabric.stated)).see(fabric.binding_from, why).help(help))
}
