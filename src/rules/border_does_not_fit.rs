//! Units or blocks of a pieced border that do not fit its sides.

use super::Context;
use super::wording::count::border_name;
use super::wording::subject;
use crate::finding::{Finding, Label, Subject, SubjectKind};
use crate::quantity::{Count, Length, Round, Scale};
use crate::quilt_math::layout::Side;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::unit_borders::{SewnFrom, UnitBorder, UnitFit};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let needs = &context.needs.layouts;
    findings.extend(context.needs.counts.unit_borders.iter().filter_map(|border| {
        let laid = needs.sizes.get(border.layout)?;
        finding(needs, laid, border)
    }));
}

fn finding(needs: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, border: &UnitBorder<'_>) -> Option<Finding> {
    let (of, name) = (border.of, border_name(border.index));
    let (word, unit_name) = (of.word(), of.name());
    let stated = laid.stated.borders.get(border.index)?;
    let (label, message, help, numbers) = match border.fit {
        UnitFit::OtherWidth { unit: (width, height), border: wide } => {
            let scale = Scale::of(needs.measure, &[width, height, wide]);
            let size = format!("{} x {}", scale.up(width), scale.up(height));
            let message = format!(
                "{} is {} wide, and {word} {unit_name} finishes {size}: neither side is as wide as the border.",
                super::sentence(&name),
                scale.up(wide),
            );
            let help = format!("One side of the {word} must be as wide as the border finishes.");
            ("not as wide as the border".to_string(), message, vec![help], (size, scale.up(wide)))
        }
        UnitFit::Along { each, sides, ends } => {
            let wrong: Vec<(&str, Side)> = [("sides are", sides), ("top and bottom are", ends)]
                .into_iter()
                .filter(|(_, (_, count))| count.is_none())
                .map(|(what, (side, _))| (what, side))
                .collect();
            let (_, first) = *wrong.first()?;
            let length = |side: Side| needs.side(side);
            let told: Vec<String> = wrong.iter().map(|(what, side)| format!("its {what} {}", length(*side))).collect();
            let message = format!(
                "{} is sewn from {word}s of {unit_name}, each {} long: {}, and no whole number of them is that long.",
                super::sentence(&name),
                needs.up(each),
                told.join(", and ")
            );
            let help = wrong.iter().filter_map(|(what, side)| to_fit(needs, what, *side, each)).collect();
            ("does not fit its sides".to_string(), message, help, (length(first), needs.up(each)))
        }
        UnitFit::Corners { fits: true, .. } => return None,
        UnitFit::Corners { corner: (wide, high), .. } => {
            let (width, height) = of.size()?;
            let scale = Scale::of(needs.measure, &[wide, high, width, height]);
            let [size, corner] =
                [(width, height), (wide, high)].map(|(wide, high)| format!("{} x {}", scale.up(wide), scale.up(high)));
            let message = format!("The corners of {name} are {corner}, and {word} {unit_name} finishes {size}.");
            let help = format!("A {word} in a corner must be as wide and as high as the border finishes.");
            ("does not fit the corners".to_string(), message, vec![help], (size, corner))
        }
    };
    let about = match of {
        SewnFrom::Unit(unit, _) => subject::unit(unit),
        SewnFrom::Block(block, _) => Subject::of(SubjectKind::Block, &block.name),
    };
    let mut finding = Finding::new(Label::new(border.at, label), message)
        .for_size(&laid.size.name)
        .about(about.and(SubjectKind::Border, (border.index + 1).to_string()))
        .see(of.finished().at(), format!("the finished {word}"))
        .see(stated.width.at(), "how wide the border finishes");
    for help in help {
        finding = finding.help(help);
    }
    Some(finding.numbers(numbers.0, numbers.1))
}

/// `10 of them are 50 in: a border of strips inside, 2 in wide, makes the sides so long.`
fn to_fit(needs: &LayoutsNeeds<'_>, what: &str, side: Side, each: Length) -> Option<String> {
    if side.diagonal.is_positive() {
        return None;
    }
    let below = side.straight.pieces_of(each);
    let above = below + Count(1);
    let strip = (each * above - side.straight).half();
    let scale = Scale::of(needs.measure, &[each, each * below, each * above, strip, side.straight]);
    let sides = what.trim_end_matches(" are");
    Some(format!(
        "{below} of them are {}, and {above} are {}. A plain border inside this one, {} wide at each end of the {sides}, \
         makes room for {above}.",
        scale.up(each * below),
        scale.up(each * above),
        scale.show(strip, Round::Up),
    ))
}
