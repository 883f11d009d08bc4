//! A cut size that is the finished size, or that lacks one seam.

use super::wording::unit::{LeftOut, StatedCut, StripSum, Verdict, stated_cuts, strip_sums};
use super::{Context, sentence};
use crate::finding::{Finding, Label};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for cut in stated_cuts(context) {
        if let Verdict::LeftOut(left_out) = cut.verdict() {
            findings.push(of_piece(context, &cut, left_out));
        }
    }
    for sum in strip_sums(&context.needs.units, context.settings) {
        if let Verdict::LeftOut(left_out) = sum.verdict {
            findings.push(of_strips(&sum, left_out));
        }
    }
}

fn of_piece(context: &Context<'_>, cut: &StatedCut<'_>, left_out: LeftOut) -> Finding {
    let (words, label) = match left_out {
        LeftOut::AllSeams => (
            "What is stated is the finished size: the seam allowance is left out",
            "the finished size: the seams are left out",
        ),
        LeftOut::OneSeam => ("It lacks exactly one seam allowance", "one seam allowance is left out"),
        LeftOut::SeamAcross => (
            "It is the cut size of a plain patch: the allowance for the seam across is left out",
            "the seam across is left out",
        ),
    };
    let message =
        format!("{} stated for {}; {} needed. {words}.", sentence(&cut.stated()), cut.subject(), cut.needed());
    let finding = Finding::new(Label::new(cut.at, label), message);
    cut.explain(&context.source.text, finding).help(format!("Cut it {}.", cut.needed()))
}

fn of_strips(sum: &StripSum<'_>, left_out: LeftOut) -> Finding {
    let needs = sum.needs;
    let short = sum.finished - sum.comes_to;
    let words = match left_out {
        LeftOut::AllSeams => "The strips are as wide as they finish: the seam allowance is left out",
        LeftOut::OneSeam | LeftOut::SeamAcross if short > sum.seam + sum.seam.half() => {
            "One strip lacks its seam allowance"
        }
        LeftOut::OneSeam | LeftOut::SeamAcross => "They lack exactly one seam allowance",
    };
    let message = format!(
        "The strips of unit {} come to {} when they are sewn; {} needed. {words}.",
        sum.unit.stated.name,
        needs.down(sum.comes_to),
        needs.up(sum.finished),
    );
    let label = Label::new(sum.at, format!("{} short", needs.up(short)));
    sum.explain(Finding::new(label, message)).help(format!("Cut them {} wider in all.", needs.up(short)))
}
