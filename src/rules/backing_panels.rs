//! The stated panels, sewn together, do not cover the backing.

use super::Context;
use super::wording::backing::{panels_words, run_words, seams_working, see_size, sheet_working};
use crate::finding::{Correction, Finding, Label};
use crate::quantity::Count;
use crate::requirement::backing::{BackingNeeds, SizeBacking};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.backing.as_ref() else { return };
    findings.extend(needs.sizes.iter().filter_map(|size| finding(context, needs, size)));
}

fn finding(context: &Context<'_>, needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Finding> {
    let stated = size.stated.panels.stated()?;
    let count = size.too_few()?;
    if let Some(unworded) = context.unworded(stated.at, &size.size.name) {
        return Some(unworded);
    }
    let (panels, sewn) = (&size.panels, size.sewn(count));
    let message = format!(
        "{} stated; {} needed {}: {} {} wide, and the backing must be {}, so {} short.{}",
        count.of("panel"),
        panels.count,
        run_words(panels.run),
        if count.0 == 1 { "one is" } else { "sewn together, they are" },
        needs.down(sewn),
        needs.up(panels.across),
        needs.up(panels.across - sewn),
        other_way(size, count).unwrap_or_default(),
    );
    let joined = if count.0 == 1 { "" } else { "sewn together, " };
    let correction = (panels.count <= Count::MAX).then(|| Correction::new(stated.at, panels.count.to_string()));
    let finding = Finding::new(Label::new(stated.at, format!("{joined}{} wide", needs.down(sewn))), message);
    Some(
        see_size(finding.for_size(&size.size.name), needs, size)
            .see(size.stated.panels_run.at().or(needs.stated.directional.at()), "the way that the panels run")
            .see(needs.stated.usable_width.at(), "how wide each is")
            .help(sheet_working(needs, size))
            .help(seams_working(needs, size, panels))
            .numbers(count.of("panel"), panels.count.of("panel"))
            .corrected(correction),
    )
}

/// Whether the stated panels would cover the backing if they ran the other way.
fn other_way(size: &SizeBacking<'_>, count: Count) -> Option<String> {
    let other = size.other_way().filter(|other| other.count <= count)?;
    Some(format!(" {} would cover it.", panels_words(count, other.run)))
}
