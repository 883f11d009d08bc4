//! A size whose numbers are another size's, all multiplied by one scale.

use super::Context;
use crate::finding::{Finding, Label};
use crate::quantity::common_divisor;
use crate::requirement::scale::{Scaled, ScaledSize, scaled};

/// How many of the numbers are told one by one.
const MAX_TOLD: usize = 6;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let scaled = scaled(&context.manuscript.sizes, &context.needs.series, &context.needs.fabrics);
    findings.extend(scaled.iter().filter_map(|scaled| finding(context, scaled)));
}

fn finding(context: &Context<'_>, scaled: &ScaledSize<'_>) -> Option<Finding> {
    let (from, name) = (&scaled.from.name, &scaled.size.name);
    let (numbers, times) = (&scaled.numbers, scale(scaled.ratio));
    let first = numbers.first()?;
    let message = format!(
        "{} numbers of {name} are exactly {times} times those of {from}, as if the size had been scaled and not worked \
         out by itself.",
        numbers.len()
    );
    let mut finding = Finding::new(Label::new(first.at, format!("{times} times that of {from}")), message)
        .for_size(name)
        .see(Some(first.first_at), format!("stated for {from}"));
    for number in numbers.iter().skip(1).take(MAX_TOLD) {
        finding = finding.see(Some(number.at), format!("{times} times as well"));
    }
    Some(finding.help(list(&context.source.text, numbers)).help(
        "Seams, tails, overhang, squaring up and whole strips do not grow with the quilt: numbers that are right hardly \
         ever grow all alike. Work out each size by itself.",
    ))
}

/// `Binding strips 6 and 12; ink 3/4 yd and 1 1/2 yd.`
fn list(source: &str, numbers: &[Scaled]) -> String {
    let told =
        |number: &Scaled| format!("{} {} and {}", number.what, number.first_at.text(source), number.at.text(source));
    let mut told: Vec<String> = numbers.iter().take(MAX_TOLD).map(told).collect();
    if numbers.len() > MAX_TOLD {
        told.push(format!("{} more", numbers.len() - MAX_TOLD));
    }
    format!("{}.", super::sentence(&told.join("; ")))
}

/// `2`, `1 1/2`, `2/3`.
fn scale((from, to): (i128, i128)) -> String {
    let divisor = common_divisor(from, to).max(1);
    let (top, over) = (to / divisor, from / divisor);
    match (top / over, top % over) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{over}"),
        (whole, rest) => format!("{whole} {rest}/{over}"),
    }
}
