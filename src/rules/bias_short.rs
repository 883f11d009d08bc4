//! Bias strips that cannot reach, or fabric that does not give them.

use super::binding_words::{asked_for, edge_working};
use super::{Context, Rule};
use crate::finding::{Correction, Finding, Label};
use crate::manuscript::Spanned;
use crate::quantity::{Amount, Count, Length, Round, Yardage};
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::BindingNeeds;

pub(super) const RULE: Rule = Rule { name: "bias-short", page: include_str!("../../rules/bias-short.yaml"), check };

fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.binding else { return };
    for size in &needs.bias {
        findings.extend(strips_short(needs, size));
        findings.extend(fabric_short(needs, size));
    }
}

/// The stated strips do not reach.
fn strips_short(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.strips.stated()?;
    let run = size.strip_run()?;
    let joined = size.joined(stated.value, run);
    if joined >= size.lengths.asked {
        return None;
    }
    let ends = needs.method.as_ref().map_or("the ends", |method| asked_for(&method.ends));
    let needed = size.strips_of(run);
    let needed_words = needed.map_or("longer strips".to_string(), |needed| needed.of("bias strip"));
    let message = format!(
        "{} stated; {needed_words} needed to go round with {ends}: {} short.",
        stated.value.of("bias strip"),
        needs.up(size.lengths.asked - joined),
    );
    Some(
        Finding::new(Label::new(stated.at, format!("joined, {} long", needs.down(joined))), message)
            .for_size(&size.size.name)
            .see(size.size.finished.at(), format!("the edge is {} round", needs.up(size.lengths.perimeter)))
            .see(size.stated.fabric.at(), "the strips are cut from this")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(joining(needs, size, stated.value, run))
            .numbers(stated.value.of("strip"), needed_words)
            .corrected(needed.map(|needed| Correction::new(stated.at, needed.to_string()).if_harmless())),
    )
}

/// The stated fabric does not give the square, or the strips, or enough of them.
fn fabric_short(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.fabric.stated()?;
    let amount = stated.value.least();
    if let Some(square) = size.stated.square.stated() {
        return square_does_not_fit(needs, size, stated, square.value.length);
    }
    let strips = size.strips_from(amount);
    let wanted = match (size.stated.strips.stated(), size.strip_run()) {
        (Some(wanted), _) => wanted.value,
        (None, run) => run.and_then(|run| size.strips_of(run)).unwrap_or(Count(u64::MAX)),
    };
    let too_long = size.stated.strip_length.length().is_some_and(|length| length > strips.run);
    if wanted <= strips.available && !too_long {
        return None;
    }
    let buy = size.fabric(needs.shop.sold_by(stated.value.first.unit));
    let show = |amount: Yardage, round| amount.show_both(needs.measure, round);
    let needed = buy.map_or("more than 2000 in".to_string(), |buy| show(buy, Round::Up));
    let message = format!(
        "{} stated; {needed} needed: cut at 45 degrees, it gives {} of {} at most.",
        show(amount, Round::Down),
        strips.available.of("bias strip"),
        needs.down(strips.run),
    );
    Some(
        Finding::new(Label::new(stated.at, format!("gives {}", strips.available.of("bias strip"))), message)
            .for_size(&size.size.name)
            .see(size.stated.strips.at(), "the strips that are cut from it")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(format!(
                "A strip {} wide takes {} of the edge that it is measured along, for it lies at 45 degrees.",
                needs.up(size.strip_width),
                needs.up(strips.pitch)
            ))
            .numbers(show(amount, Round::Down), needed)
            .corrected(buy.and_then(|buy| correction(stated, buy))),
    )
}

fn square_does_not_fit(
    needs: &BindingNeeds<'_>,
    size: &BiasNeeds<'_>,
    stated: &Spanned<Amount>,
    square: Length,
) -> Option<Finding> {
    let amount = stated.value.least();
    if amount.0 >= square && size.usable_width >= square {
        return None;
    }
    let show = |amount: Yardage, round| amount.show_both(needs.measure, round);
    let buy = Yardage(square).up_to(needs.shop.sold_by(stated.value.first.unit));
    let (message, needed) = if size.usable_width < square {
        let message = format!(
            "A square of {} stated: it does not come out of fabric with {} usable.",
            needs.down(square),
            needs.down(size.usable_width)
        );
        (message, "a smaller square".to_string())
    } else {
        let message = format!(
            "{} stated; {} needed: a square of {} does not come out of it, {} short.",
            show(amount, Round::Down),
            show(buy, Round::Up),
            needs.up(square),
            needs.up(square - amount.0),
        );
        (message, show(buy, Round::Up))
    };
    Some(
        Finding::new(Label::new(stated.at, "the square does not fit"), message)
            .for_size(&size.size.name)
            .see(size.stated.square.at(), "the square that is cut from it")
            .help("The square is as long and as wide as it is stated; the fabric must be as long, and the usable width as wide.")
            .numbers(show(amount, Round::Down), needed)
            .corrected(if size.usable_width >= square { correction(stated, buy) } else { None }),
    )
}

/// Another amount, where one number says it.
fn correction(stated: &Spanned<Amount>, buy: Yardage) -> Option<Correction> {
    let single = stated.value.second.is_none();
    single.then(|| Correction::new(stated.at, stated.value.first.rewrite(buy.0)).if_harmless())
}

/// How long so many strips are when joined.
fn joining(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, strips: Count, run: Length) -> String {
    let joins = strips.less(Count(1));
    format!(
        "Strips: {strips} x {} - {} x {} = {}.",
        needs.down(run),
        joins.of("join"),
        needs.up(size.join_loss()),
        needs.down(size.joined(strips, run))
    )
}
