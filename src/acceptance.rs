//! Findings that the editor has accepted: which they are, and which acceptances no finding used.

use std::collections::BTreeMap;

use crate::finding::Finding;
use crate::manuscript::model::{Accepted, Blocks, Border, PerSize};
use crate::manuscript::{Field, Manuscript};
use crate::quantity::Count;
use crate::rules::{RULES, Unused};

/// A finding that the editor has accepted, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AcceptedFinding {
    /// The finding.
    pub finding: Finding,
    /// Why it was accepted.
    pub because: String,
}

/// Findings with the acceptances laid over them.
#[derive(Debug, Default)]
pub(crate) struct Laid {
    /// The findings that nobody has accepted.
    pub(crate) findings: Vec<Finding>,
    /// Those that are accepted.
    pub(crate) accepted: Vec<AcceptedFinding>,
    /// The acceptances that were of no use.
    pub(crate) unused: Vec<Unused>,
}

/// Takes out the findings that are accepted, and tells which acceptances were of no use.
pub(crate) fn lay(manuscript: &Manuscript, findings: Vec<Finding>) -> Laid {
    let stated = &manuscript.accepted;
    let mut used = vec![false; stated.len()];
    let accepting = acceptances(stated);
    let mut laid = Laid::default();
    for finding in findings {
        let accepting = accepting.get(&(finding.rule, finding.size.as_deref())).copied();
        match accepting.and_then(|index| stated[index].because.stated().map(|because| (index, because))) {
            Some((index, because)) => {
                used[index] = true;
                laid.accepted.push(AcceptedFinding { finding, because: because.value.clone() });
            }
            None => laid.findings.push(finding),
        }
    }
    let unused: Vec<&Accepted> = stated.iter().zip(used).filter(|(_, used)| !used).map(|(stated, _)| stated).collect();
    // Looked through once, and only where an acceptance is left over.
    if !unused.is_empty() && pattern_was_read(manuscript) {
        let unused = unused.into_iter().filter(|accepted| could_be_used(manuscript, accepted));
        laid.unused = unused.filter_map(as_unused).collect();
    }
    laid
}

/// The rule and the size that each acceptance is for. Where two are for the same, the first counts.
fn acceptances(accepted: &[Accepted]) -> BTreeMap<(&str, Option<&str>), usize> {
    let mut first = BTreeMap::new();
    for (index, accepted) in accepted.iter().enumerate().filter(|(_, accepted)| !accepted.size.is_unread()) {
        if let Some(rule) = accepted.rule.stated() {
            let size = accepted.size.stated().map(|size| size.value.as_str());
            first.entry((rule.value.as_str(), size)).or_insert(index);
        }
    }
    first
}

/// Whether everything that the rule looks at was read. A slip elsewhere in the entry is no reason to call an
/// acceptance unused.
fn could_be_used(manuscript: &Manuscript, accepted: &Accepted) -> bool {
    let complete = accepted.because.stated().is_some() && !accepted.size.is_unread();
    let known = accepted.rule.stated().is_some_and(|rule| RULES.iter().any(|known| known.name == rule.value));
    complete && known && size_was_read(manuscript, accepted)
}

/// Whether everything was read that is stated for the pattern as a whole.
fn pattern_was_read(manuscript: &Manuscript) -> bool {
    method_was_read(manuscript)
        && fabrics_were_read(manuscript)
        && design_was_read(manuscript)
        && layouts_were_read(manuscript)
}

fn method_was_read(manuscript: &Manuscript) -> bool {
    let backing = manuscript.backing.as_ref().is_none_or(|backing| {
        let lengths = [&backing.overhang, &backing.seam, &backing.usable_width];
        !lengths.into_iter().any(Field::is_unread) && !backing.directional.is_unread()
    });
    let batting = manuscript.batting.as_ref().is_none_or(|batting| !batting.overhang.is_unread());
    backing && batting && binding_was_read(manuscript)
}

fn binding_was_read(manuscript: &Manuscript) -> bool {
    manuscript.binding.as_ref().is_none_or(|binding| {
        let lengths = [&binding.strip_width, &binding.seam, &binding.opening, &binding.extra_length];
        !lengths.into_iter().any(Field::is_unread)
            && !binding.fold.is_unread()
            && !binding.join.is_unread()
            && !binding.grain.is_unread()
            && !binding.loft.is_unread()
            && !binding.tails.start.is_unread()
    })
}

fn fabrics_were_read(manuscript: &Manuscript) -> bool {
    let counts_read = |counts: &[Field<Count>]| !counts.iter().any(Field::is_unread);
    manuscript.fabrics.iter().all(|fabric| {
        let cuts_read = fabric.cut.iter().all(|cut| {
            let read = !cut.size.is_unread() && !cut.strip_width.is_unread() && !cut.grain.is_unread();
            read && counts_read(&cut.strips) && counts_read(&cut.pieces)
        });
        let lengths_read = !fabric.usable_width.is_unread() && !fabric.precut.is_unread();
        let words_read = !fabric.directional.is_unread() && !fabric.sold_as.is_unread();
        let required = fabric.requires.iter().all(|requires| requires.stated().is_some());
        fabric.cut_whole && cuts_read && lengths_read && words_read && required
    })
}

fn layouts_were_read(manuscript: &Manuscript) -> bool {
    let layouts = manuscript.layout.iter().flat_map(|layout| &layout.sizes).filter_map(PerSize::stated);
    layouts.into_iter().all(|layout| {
        let sides_read = !layout.across.is_unread() && !layout.down.is_unread() && !layout.set.is_unread();
        let blocks_read = match layout.blocks.stated().map(|blocks| &blocks.value) {
            Some(Blocks::Each(each)) => each.iter().all(|(block, count)| !block.is_unread() && !count.is_unread()),
            Some(Blocks::All(_)) => true,
            None => !layout.blocks.is_unread(),
        };
        let sashing = [&layout.sash, &layout.long_sash, &layout.cornerstone];
        let words_read = !layout.sashing_round.is_unread() && !layout.cornerstones.is_unread();
        let sashing_read = !layout.sashing.is_unread() && words_read && !sashing.into_iter().any(Field::is_unread);
        let triangles_read = !layout.side_triangles.is_unread() && !layout.corner_triangles.is_unread();
        let borders_read = layout.borders_whole && layout.borders.iter().all(border_was_read);
        sides_read && blocks_read && sashing_read && triangles_read && borders_read
    })
}

fn border_was_read(border: &Border) -> bool {
    let pieces = [&border.piece, &border.piece_across, &border.cornerstone];
    let words_read = !border.corners.is_unread() && !border.pieced.is_unread() && !border.join.is_unread();
    !border.width.is_unread() && !border.ease.is_unread() && words_read && !pieces.into_iter().any(Field::is_unread)
}

fn design_was_read(manuscript: &Manuscript) -> bool {
    let units = manuscript.units.iter().all(|unit| {
        let sizes = [&unit.finished, &unit.trim];
        let lengths = [&unit.seam, &unit.segment];
        let parts = unit.cut.iter().all(|part| !part.from.is_unread());
        !unit.make.is_unread()
            && !unit.method.is_unread()
            && !unit.yields.is_unread()
            && !sizes.into_iter().any(Field::is_unread)
            && !lengths.into_iter().any(Field::is_unread)
            && (unit.cut_whole && parts)
    });
    let blocks = manuscript.blocks.iter().all(|block| {
        let places = block.rows.iter().flat_map(|row| &row.places);
        block.whole && !block.finished.is_unread() && !places.into_iter().any(Field::is_unread)
    });
    manuscript.units_whole && manuscript.blocks_whole && units && blocks
}

fn size_was_read(manuscript: &Manuscript, accepted: &Accepted) -> bool {
    let Some(name) = accepted.size.stated() else { return true };
    let Some(index) = manuscript.sizes.iter().position(|size| size.name == name.value) else { return false };
    let stated = manuscript.binding.as_ref().and_then(|binding| binding.requires.get(index)).and_then(PerSize::stated);
    let size = &manuscript.sizes[index];
    let backing = manuscript.backing.as_ref().and_then(|backing| backing.requires.get(index)).and_then(PerSize::stated);
    let backing_read = backing.is_none_or(|stated| {
        !stated.fabric.is_unread() && !stated.panels.is_unread() && !stated.panels_run.is_unread()
    });
    let binding_read = stated.is_none_or(|stated| {
        let lengths = [&stated.square, &stated.strip_length];
        !stated.strips.is_unread() && !stated.fabric.is_unread() && !lengths.into_iter().any(Field::is_unread)
    });
    let size_read =
        !size.finished.is_unread() && !size.outline.is_unread() && !size.bed.is_unread() && !size.drop.is_unread();
    let batting = manuscript.batting.as_ref().and_then(|batting| batting.requires.get(index));
    let batting_read = batting.is_none_or(|batting| batting.stated().is_some());
    size_read && backing_read && batting_read && binding_read
}

fn as_unused(accepted: &Accepted) -> Option<Unused> {
    let rule = accepted.rule.stated()?.clone();
    Some(Unused { rule, size: accepted.size.stated().cloned() })
}
