//! Strips from which pieces of several kinds are cut, in words.

use super::fabric::listed;
use super::plan::plan_words;
use super::subject::piece;
use crate::finding::Finding;
use crate::manuscript::{Field, Spanned};
use crate::quantity::Count;
use crate::quilt_math::strip_group::StripGroup;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

/// Stated strips beside the pieces that are cut from them.
#[derive(Clone, Copy)]
pub(in crate::rules) struct Strips<'a> {
    pub(in crate::rules) stated: &'a Spanned<Count>,
    pub(in crate::rules) group: &'a StripGroup,
}

impl<'a> Strips<'a> {
    /// Those of a size that are stated.
    pub(in crate::rules) fn of_groups(
        fabric: &'a FabricNeeds<'a>,
        size: &'a FabricSize<'a>,
    ) -> impl Iterator<Item = Strips<'a>> {
        size.groups.iter().filter_map(|group| {
            let cut = fabric.stated.cut.get(group.entry)?;
            let stated = cut.strips.get(size.index).and_then(Field::stated)?;
            Some(Strips { stated, group })
        })
    }

    /// `24 A and 10 B`.
    pub(in crate::rules) fn pieces(&self, fabric: &FabricNeeds<'_>) -> String {
        let pieces = self.group.pieces.iter().filter(|(_, item)| item.count.0 > 0);
        let pieces: Vec<String> =
            pieces.map(|(entry, item)| format!("{} {}", item.count, fabric.name(*entry))).collect();
        listed(&pieces.iter().map(String::as_str).collect::<Vec<_>>())
    }

    /// The finding with its size, its subject and where the pieces are stated.
    pub(in crate::rules) fn explain(
        &self,
        fabric: &FabricNeeds<'_>,
        size: &FabricSize<'_>,
        finding: Finding,
    ) -> Finding {
        let cut = fabric.stated.cut.get(self.group.entry);
        let width = cut.and_then(|cut| cut.strip_width.at());
        let finding = finding.for_size(&size.size.name).about(piece(fabric.stated, self.group.entry));
        let finding = finding.see(width, "how wide each is cut");
        self.group.pieces.iter().fold(finding, |finding, (entry, _)| {
            let cut = fabric.stated.cut.get(*entry);
            let pieces = cut.and_then(|cut| cut.pieces.get(size.index)).and_then(Field::at);
            finding.see(pieces, format!("{} is cut from them", fabric.name(*entry)))
        })
    }
}

/// How the pieces come out of as many strips as are needed.
pub(crate) fn group_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, group: &StripGroup) -> String {
    group.plan().map(|taken| plan_words(needs, fabric, &taken)).unwrap_or_default()
}
