//! The stated fabric is less than a plain plan of strips takes, and no proof says that it is too little.

use super::wording::fabric::{Purchase, fabric_cutting_words, small_plan_words};
use super::wording::pair::Halves;
use super::wording::subject::fabric as of_fabric;
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::quilt_math::planner::{Reason, Verdict};
use crate::quilt_math::proof::Proof;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

pub(super) const RULE: Rule = Rule { name: "fabric-tight", page: include_str!("../../rules/fabric-tight.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        findings.extend(small(needs, fabric, size));
        let Some((proof, verdict)) = size.tight() else { continue };
        let Some(purchase) = Purchase::of_fabric(needs, fabric, size) else { continue };
        let best = proof.best();
        let halves = Halves::new(purchase.shop, &purchase.stated.value);
        let (stated, needed) = (halves.stated(), halves.to_buy(purchase.cut));
        let words = purchase.words();
        let (label, says) = match verdict {
            Verdict::OnlyClever => (
                "enough only by one plan",
                format!(
                    "it is enough only if the pieces are cut by the plan below, which takes {}",
                    needs.up(best.length())
                ),
            ),
            _ => (
                "may be short",
                format!(
                    "the best plan that was found takes {}, and no way of cutting takes less than {}",
                    needs.up(best.length()),
                    needs.down(proof.least().0)
                ),
            ),
        };
        let says = super::sentence(&says);
        let message = format!("{stated}{} stated; plain strips take {needed}: {}. {says}.", words.of, words.working);
        let finding = Finding::new(Label::new(purchase.stated.at, label), message)
            .help(fabric_cutting_words(needs, fabric, &best))
            .numbers(stated, needed);
        findings.push(purchase.explain(words, finding));
    }
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

/// `No way of cutting takes less than 62 in: the pieces alone cover as much of the width of fabric.`
pub(super) fn bound_words(needs: &FabricsNeeds<'_>, proof: &Proof) -> String {
    let (least, reason) = proof.least();
    let why = match reason {
        Reason::Nothing => "nothing else is cut from it",
        Reason::Area => "the pieces alone cover as much of the usable width of fabric",
        Reason::LongestPiece => "one piece alone is as long",
        Reason::SideBySide => "no more pieces lie side by side across the fabric, however they are cut",
        Reason::OneBehindAnother => "no more pieces lie one behind another along the fabric, however they are cut",
    };
    format!("No way of cutting takes less than {}: {why}.", needs.down(least))
}
