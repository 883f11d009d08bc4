//! The stated fabric is less than a plain plan of strips takes, and no proof says that it is too little.

use super::fabric_words::{Purchase, fabric_cutting_words};
use super::half_words::Halves;
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::requirement::fabrics::FabricsNeeds;
use crate::trade::planner::{Reason, Verdict};
use crate::trade::proof::Proof;

pub(super) const RULE: Rule = Rule { name: "fabric-tight", page: include_str!("../../rules/fabric-tight.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = context.fabrics;
    for (fabric, size) in needs.each() {
        let Some((proof, verdict)) = size.tight() else { continue };
        let Some(purchase) = Purchase::of_fabric(needs, fabric, size) else { continue };
        let Some(best) = proof.best() else { continue };
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
