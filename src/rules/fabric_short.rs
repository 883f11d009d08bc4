//! The stated fabric is less than what is cut from it takes.

use super::Context;
use super::wording::bound::bound_words;
use super::wording::fabric::{Purchase, share_words};
use super::wording::pair::Halves;
use super::wording::plan::{plan_words, small_plan_words};
use super::wording::subject::fabric as of_fabric;
use crate::finding::{Correction, Finding, Label, SubjectKind};
use crate::quantity::Count;
use crate::quilt_math::planner::{DecidedSmall, Verdict};
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds, FromBolt};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.fabrics;
    for (fabric, size) in needs.each() {
        // What is not proved to be short is for `fabric-tight`.
        if size.tight.is_none() {
            let is_short = |bolt: FromBolt<'_>| bolt.stated.value.most() < bolt.cut;
            if size.from_bolt().is_some_and(is_short)
                && let Some(finding) = amount(needs, fabric, size)
            {
                findings.push(finding.help(bound(needs, fabric, size)));
            }
        }
        if size.small().is_some() {
            findings.extend(small(needs, fabric, size));
        }
        if size.instead.is_some() {
            findings.extend(instead(needs, fabric, size));
        }
    }
}

/// What may be bought instead, and is not enough.
fn instead(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let other = size.instead.as_ref().filter(|other| other.verdict == Verdict::Short)?;
    let (stated, needed) = other.words(size, &needs.shop);
    let at = other.stated.bought.at();
    if let Some(entry) = other.misfit {
        let message = format!(
            "{stated} of {} may be bought instead; {} does not come out of one either way. Each choice must be enough.",
            fabric.stated.name,
            fabric.name(entry),
        );
        let cut = fabric.stated.cut.get(entry);
        let size_at = cut.and_then(|cut| cut.size.of(size.index).at().or(cut.strip_width.of(size.index).at()));
        return Some(
            Finding::new(Label::new(at, "too small"), message)
                .for_size(&size.size.name)
                .about(of_fabric(fabric.stated).and(SubjectKind::Number, "instead"))
                .see(size_at, "how it is cut"),
        );
    }
    let message = format!(
        "{stated} of {} may be bought instead; {needed} needed for the same pieces. Each choice must be enough.",
        fabric.stated.name,
    );
    Some(
        Finding::new(Label::new(at, "short"), message)
            .for_size(&size.size.name)
            .about(of_fabric(fabric.stated).and(SubjectKind::Number, "instead"))
            .help(share_words(fabric, size))
            .help(plan_words(needs, fabric, &other.taken))
            .numbers(stated, needed)
            .corrected(Some(Correction::new(at, other.written(size, &needs.shop)))),
    )
}

/// How few small fabrics no way of cutting takes less than.
fn fewest(fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> String {
    let least = |decided: &DecidedSmall| {
        format!("No way of cutting takes fewer than {}.", decided.least.of(&fabric.sold_as_words()))
    };
    size.small_proof.as_ref().map(least).unwrap_or_default()
}

/// Why no way of cutting fits, where other plans were looked for.
fn bound(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> String {
    let (Some(proof), Some(taken)) = (&size.proof, &size.taken) else { return String::new() };
    bound_words(needs, fabric, taken.strip_length, &proof.least())
}

/// Less from the bolt than is cut. Where one half of a pair is enough, the other is for `pair-disagrees`.
fn amount(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let purchase = Purchase::of_fabric(needs, fabric, size)?;
    let halves = Halves::new(purchase.shop, &purchase.stated.value);
    let (stated, needed) = (halves.stated(), purchase.needed());
    let told = purchase.words();
    let message = format!(
        "{}: {}, so {}.{}",
        purchase.stated_and_needed(&stated, &told.of),
        told.working,
        halves.short_of(purchase.cut),
        purchase.missing(),
    );
    let finding = Finding::new(Label::new(purchase.stated.at, halves.short_label(purchase.cut)), message);
    Some(purchase.explain(told, finding.numbers(stated, needed)))
}

fn small(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> Option<Finding> {
    let (small, taken) = (size.small()?, size.taken.as_ref()?);
    let least = size.small_proof.as_ref().map_or(small.taken, |decided| decided.least);
    if small.stated.value >= small.taken.min(least) {
        return None;
    }
    let word = fabric.sold_as_words();
    let (stated, needed) = (small.words(small.stated.value, &word), small.words(small.taken, &word));
    let short = small.taken.less(small.stated.value);
    let message = format!(
        "{stated} of {} stated; {} needed for the pieces that are cut from them: {short} short.",
        fabric.stated.name,
        small.pack.map_or_else(|| small.taken.to_string(), |_| small.taken.of(&word)),
    );
    let correction =
        (small.to_print <= Count::MAX).then(|| Correction::new(small.stated.at, small.written(small.to_print)));
    Some(
        Finding::new(Label::new(small.stated.at, format!("{short} short")), message)
            .for_size(&size.size.name)
            .about(of_fabric(fabric.stated))
            .see(fabric.binding_from, "the binding is cut from it too")
            .see(fabric.backing_from, "the backing is cut from it too")
            .help(fabric.small_words(needs))
            .help(share_words(fabric, size))
            .help(small_plan_words(needs, fabric, size, taken))
            .help(fewest(fabric, size))
            .numbers(stated, needed)
            .corrected(correction),
    )
}
