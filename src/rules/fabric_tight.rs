//! The stated fabric is less than a plain plan of strips takes, and no proof says that it is too little.

use super::Context;
use super::wording::fabric::Purchase;
use super::wording::pair::Halves;
use super::wording::plan::{left_over_words, plan_to_follow, small_plan_words};
use super::wording::subject::fabric as of_fabric;
use crate::finding::{Finding, Label};
use crate::quilt_math::planner::Verdict;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        findings.extend(small(needs, fabric, size));
        findings.extend(amount(needs, fabric, size));
    }
}

fn amount(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let tight = size.tight.as_ref()?;
    let purchase = Purchase::of_fabric(needs, fabric, size)?;
    let takes = needs.up(tight.plan.plan.length());
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let (stated, needed) = (halves.stated(), halves.to_buy(purchase.cut));
    let mut words = purchase.words();
    let (label, says) = match tight.verdict {
        Verdict::OnlyClever => {
            ("enough only by one plan", format!("It is enough only by the plan below, which takes {takes}."))
        }
        _ => (
            "may be short",
            format!(
                "The shortest plan that was found takes {takes}, and no way of cutting takes less than {}.",
                needs.down(tight.least)
            ),
        ),
    };
    let message = format!("{stated}{} stated; plain strips take {needed}: {}. {says}", words.of, words.working);
    let lines = plan_to_follow(needs, fabric, &tight.plan);
    let lines = lines.into_iter().chain(Some(left_over_words(needs, &tight.plan)).filter(|left| !left.is_empty()));
    let finding = Finding::new(Label::new(purchase.stated.at, label), message).numbers(stated, needed);
    let finding = lines.fold(finding, Finding::help);
    words.plan = words.plan.map(|plan| format!("Or in plain strips: {plan}"));
    Some(purchase.explain(words, finding))
}

/// Small fabrics of which the best plan takes more than are stated, and no proof says that they are too few.
fn small(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    if !size.small_is_undecided() {
        return None;
    }
    let (small, decided) = (size.small()?, size.small_proof.as_ref()?);
    let word = fabric.sold_as_words();
    let (stated, needed) = (small.stated.value.of(&word), decided.count.of(&word));
    let message = format!(
        "{stated} of {} stated; the best plan that was found takes {}, and no way of cutting takes fewer than {}.",
        fabric.stated.name, decided.count, decided.least
    );
    let finding = Finding::new(Label::new(small.stated.at, "may be short"), message);
    let finding = finding.for_size(&size.size.name).about(of_fabric(fabric.stated)).help(fabric.small_words(needs));
    Some(finding.help(small_plan_words(needs, fabric, size, size.taken.as_ref()?)).numbers(stated, needed))
}
