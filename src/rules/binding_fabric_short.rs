//! The stated fabric is less than the strips take.

use super::binding_words::{buying_for, cut_working, fabric_correction};
use super::half_words::Half;
use super::{Context, Rule};
use crate::finding::{Finding, Label};
use crate::quantity::{Measure, Round, Unit, Written};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) const RULE: Rule =
    Rule { name: "binding-fabric-short", page: include_str!("../../rules/binding-fabric-short.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(needs, size)));
}

fn finding(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let plan = size.cut?;
    // Where one half of a pair is enough, the other is for `pair-disagrees`.
    let half = Half::most(&stated.value);
    if half.amount() >= plan.fabric {
        return None;
    }
    let short = half.up((plan.fabric - half.amount()).0);
    let needed = half.show(half.to_buy(&needs.shop, plan.fabric), Round::Up);
    let message = format!(
        "{} stated; {needed} needed: {}, so what is stated is {short} short.",
        half.stated(),
        cut_working(needs, &plan),
    );
    let label = format!("{short} short");
    Some(
        Finding::new(Label::new(stated.at, label), message)
            .for_size(&size.size.name)
            .see(size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip")))
            .see(needs.stated.strip_width.at(), "how wide each is cut")
            .help(format!("{}; {}.", cut_working(needs, &plan), buying_for(needs, stated, plan.fabric)))
            .help(bare_number(needs, &stated.value.first))
            .numbers(half.stated(), needed)
            .corrected(fabric_correction(needs, size)),
    )
}

/// A number without a mark is in inches or centimetres; a writer who meant yards or metres may wonder.
fn bare_number(needs: &BindingNeeds<'_>, written: &Written) -> String {
    let meant = match needs.measure {
        Measure::Inch => "yd",
        Measure::Cm => "m",
    };
    if written.bare && written.length < Unit::Yard.one().half().half() {
        let number = written.rewrite(written.length);
        return format!("A number without a unit is in {} here. Did you mean {number} {meant}?", written.unit.mark());
    }
    String::new()
}
