//! A quantity beyond what can be sewn, or that contradicts another.

use super::{Context, mistakes};
use crate::finding::{Finding, Label, Subject};
use crate::manuscript::MistakeKind;
use crate::manuscript::model::Grain;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    mistakes(context, findings, |mistake| match &mistake.what {
        MistakeKind::OutOfRange { why, help } => Some(
            Finding::new(
                Label::new(mistake.at, "out of range"),
                format!("{} is out of range: {why}.", named(mistake.at.text(&context.source.text))),
            )
            .help(help),
        ),
        MistakeKind::TooMany { why } => {
            Some(Finding::new(Label::new(mistake.at, "too many"), format!("{}.", super::sentence(why))))
        }
        MistakeKind::CannotBe { why, mend } => {
            Some(Finding::new(Label::new(mistake.at, "not possible"), format!("{why}.")).help(format!("{mend}.")))
        }
        _ => None,
    });
    if let Some(needs) = context.needs.binding.as_ref() {
        // One size tells what is wrong with all of them.
        findings.extend(needs.sizes.iter().find_map(|size| strip_that_cannot_be_cut(needs, size)));
    }
    findings.extend(seams_that_use_up_the_panels(context));
}

/// A backing whose seams use up its panels.
fn seams_that_use_up_the_panels(context: &Context<'_>) -> Option<Finding> {
    let needs = context.needs.backing.as_ref()?;
    let cloth = needs.cloth.filter(|cloth| cloth.usable_width <= cloth.seam * 2)?;
    let (seam, width) = (needs.stated.seam.at(), needs.stated.usable_width.at());
    let at = seam.or(width).or(context.manuscript.assumes.usable_width.at()).unwrap_or(needs.stated.at);
    let message = format!(
        "Panels {} wide with a seam of {} stated: joining two of them takes as much width as one adds.",
        needs.down(cloth.usable_width),
        needs.up(cloth.seam),
    );
    Some(
        Finding::new(Label::new(at, "takes up the whole panel"), message)
            .about(Subject::number("backing panels"))
            .see(width.filter(|width| *width != at), "how wide each panel is")
            .help("State the seam that joins the panels, such as 1/2; the width of the fabric is usable_width."),
    )
}

/// A number by what is written, anything else as what is pointed at.
fn named(text: &str) -> String {
    if text.starts_with(|c: char| c.is_ascii_digit() || c == '.') && text.len() < 40 {
        format!("\"{text}\"")
    } else {
        "This".to_string()
    }
}

/// A strip that does not fit the fabric, or that its own joins use up.
fn strip_that_cannot_be_cut(needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<Finding> {
    let width = needs.stated.strip_width.of(size.index).stated()?;
    let usable = needs.usable_width?;
    let stated_length = size.stated.strip_length.at().or(needs.stated.strip_length.at());
    if size.strips.is_none() {
        let message = format!(
            "Strips {} wide and {} long stated: joining two of them takes as much length as one adds.",
            needs.down(width.value.length),
            needs.down(size.strip_length),
        );
        let help = "State how wide the strips are cut, such as 2 1/2; the width of the fabric is usable_width.";
        return Some(
            Finding::new(Label::new(width.at, "as wide as it is long"), message)
                .about(Subject::number("binding strips"))
                .see(stated_length, "how long each is")
                .help(help),
        );
    }
    let (across, at, what) = match needs.grain? {
        Grain::Lengthwise => (width.value.length, width.at, "wide"),
        Grain::Crosswise | Grain::Bias => (size.strip_length, stated_length?, "long"),
    };
    if across <= usable {
        return None;
    }
    let message = format!(
        "Strips {} {what} stated: they do not fit across fabric with {} usable.",
        needs.down(across),
        needs.down(usable),
    );
    Some(
        Finding::new(Label::new(at, "wider than the fabric"), message)
            .about(Subject::number("binding strips"))
            .help("Cut them along the fabric (grain: lengthwise), or make them shorter."),
    )
}
