//! The stated fabric is less than a plain plan of strips takes, and no proof says that it is too little.

use super::Context;
use super::wording::beside::{finding as of_beside, is_there};
use super::wording::fabric::{Purchase, share_words};
use super::wording::group::{Strips, group_words};
use super::wording::pair::Halves;
use super::wording::plan::{left_over_words, plan_to_follow, plan_words, small_plan_words};
use super::wording::subject::fabric as of_fabric;
use crate::finding::{Finding, Label, SubjectKind};
use crate::quantity::Count;
use crate::quilt_math::beside::Beside;
use crate::quilt_math::planner::Verdict;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds, Tight};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        if size.small_is_undecided() {
            findings.extend(small(needs, fabric, size));
        }
        if let Some(tight) = &size.tight {
            findings.extend(amount(needs, fabric, size, tight));
        }
        if size.instead.is_some() {
            findings.extend(instead(needs, fabric, size));
        }
        for beside in size.beside.iter().filter(|beside| beside.decided == Beside::Undecided) {
            let there = is_there(needs, fabric, beside);
            let message = format!("{there} no plan was found for that, and no proof that there is none.");
            findings.extend(of_beside(fabric, size, beside, message, "may be too many"));
        }
        for strips in Strips::of_groups(fabric, size) {
            findings.extend(group(needs, fabric, size, &strips));
        }
    }
}

/// What may be bought instead, and is less than the best plan takes with no proof that it is too little.
fn instead(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let tight = |verdict: Verdict| matches!(verdict, Verdict::OnlyClever | Verdict::Undecided);
    let other = size.instead.as_ref().filter(|other| tight(other.verdict))?;
    let (stated, needed) = other.words(size, &needs.shop);
    let message = format!(
        "{stated} of {} may be bought instead; the best plain plan takes {needed}, and no proof says that less is too little.",
        fabric.stated.name,
    );
    let finding = Finding::new(Label::new(other.stated.bought.at(), "may be short"), message);
    let finding = finding.for_size(&size.size.name).about(of_fabric(fabric.stated).and(SubjectKind::Number, "instead"));
    Some(finding.help(plan_words(needs, fabric, &other.taken)).numbers(stated, needed))
}

/// Strips for pieces of several kinds of which the best plan takes more, and no proof says that they are too few.
fn group(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    strips: &Strips<'_>,
) -> Option<Finding> {
    let Strips { stated, group } = *strips;
    if stated.value < group.least || stated.value >= group.needed {
        return None;
    }
    let message = format!(
        "{} stated for {}: the best plan that was found takes {}, and no way of cutting takes fewer than {}.",
        stated.value.of("strip"),
        strips.pieces(fabric),
        group.needed,
        group.least,
    );
    let finding = Finding::new(Label::new(stated.at, "may be short"), message);
    let finding = strips.explain(fabric, size, finding).help(group_words(needs, fabric, group));
    Some(finding.numbers(stated.value.of("strip"), group.needed.of("strip")))
}

fn amount(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>, tight: &Tight) -> Option<Finding> {
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
            if tight.least.is_positive() {
                format!(
                    "The shortest plan that was found takes {takes}, and no way of cutting takes less than {}.",
                    needs.down(tight.least)
                )
            } else {
                format!("The shortest plan that was found takes {takes}; how little will do is not known.")
            },
        ),
    };
    let message = format!("{stated}{} stated; plain strips take {needed}: {}. {says}", words.of, words.working);
    let lines = plan_to_follow(needs, fabric, &tight.plan);
    let lines = lines.into_iter().chain(Some(left_over_words(needs, &tight.plan)).filter(|left| !left.is_empty()));
    let finding = Finding::new(Label::new(purchase.stated.at, label), message).numbers(stated, needed);
    let finding = lines.fold(finding, Finding::help);
    let is_another = size.taken.as_ref().is_some_and(|plain| plain.plan != tight.plan.plan);
    words.plan = words.plan.filter(|_| is_another).map(|plan| format!("Or in plain strips: {plan}"));
    Some(purchase.explain(words, finding))
}

/// Small fabrics of which the best plan takes more than are stated, and no proof says that they are too few.
fn small(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let (small, decided) = (size.small()?, size.small_proof.as_ref()?);
    let word = fabric.sold_as_words();
    let (stated, needed) = (small.words(small.stated.value, &word), small.words(decided.count, &word));
    let message = format!(
        "{stated} of {} stated; the best plan that was found takes {}{}.",
        fabric.stated.name,
        decided.count,
        match decided.least {
            Count(0) => "; how few will do is not known".to_string(),
            least => format!(", and no way of cutting takes fewer than {least}"),
        },
    );
    let finding = Finding::new(Label::new(small.stated.at, "may be short"), message);
    let finding = finding.for_size(&size.size.name).about(of_fabric(fabric.stated)).help(fabric.small_words(needs));
    let finding = finding.help(share_words(fabric, size));
    Some(finding.help(small_plan_words(needs, fabric, size, size.taken.as_ref()?)).numbers(stated, needed))
}
