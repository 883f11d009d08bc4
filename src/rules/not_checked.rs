//! Something is stated that cannot be checked, and why.

use super::{Context, Rule};
use crate::finding::{Finding, Label};

pub(super) const RULE: Rule = Rule { name: "not-checked", page: include_str!("../../rules/not-checked.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (fabric, size) in context.fabrics.each() {
        let (Some(required), Some(why)) = (size.required, size.unchecked) else { continue };
        let message = format!("The amount of {} that is stated cannot be checked: {why}.", fabric.stated.name);
        let help = "State what is cut from it under `cut`, each piece with its size and how many; otherwise work it out by hand.";
        let at = Label::new(required.at(), "cannot be checked");
        findings.push(Finding::new(at, message).for_size(&size.size.name).see(fabric.binding_from, why).help(help));
    }
    for laid in &context.layouts.sizes {
        let Some(why) = laid.unchecked else { continue };
        let message = format!("The layout of {} cannot be checked: {why}.", laid.size.name);
        let help = "The finished size and the pieces of this size have to be worked out by hand.";
        let at = Label::new(laid.stated.at, "cannot be checked");
        findings.push(Finding::new(at, message).for_size(&laid.size.name).help(help));
    }
    for size in context.binding.iter().flat_map(|needs| &needs.bias) {
        let Some(strips) = size.stated.strips.stated().filter(|_| size.no_run_stated()) else { continue };
        let message = format!(
            "{} on the bias stated, and nothing says how long each is: they cannot be checked.",
            strips.value.of("strip")
        );
        let help = "State the fabric that they are cut from (fabric: 3/4 yd), or how long each is (strip_length: 40).";
        findings.push(
            Finding::new(Label::new(strips.at, "cannot be checked"), message).for_size(&size.size.name).help(help),
        );
    }
}
