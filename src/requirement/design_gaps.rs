//! What the design leaves open: sizes without a layout where others have one, and units and blocks that nothing uses.

use std::collections::BTreeSet;

use crate::manuscript::Field;
use crate::manuscript::design::{Block, BlockPart, Sewn, Unit};
use crate::manuscript::model::{Border, Manuscript, PerSize, Size, SizeLayout};

/// What the design of a manuscript leaves open.
#[derive(Debug, Default)]
pub struct DesignGaps<'m> {
    /// The sizes without a layout, where others have one.
    pub sizes: Vec<&'m Size>,
    /// The first size that has a layout.
    pub like: Option<&'m Size>,
    /// What the layouts of other sizes have, that nothing can be said of for these.
    pub other: OtherLayouts,
    /// The units that are in no block and set none.
    pub units: Vec<&'m Unit>,
    /// The blocks that no layout has.
    pub blocks: Vec<&'m Block>,
}

/// What the layouts that are stated have.
#[derive(Clone, Copy, Debug, Default)]
pub struct OtherLayouts {
    /// Whether any has sashing.
    pub sashing: bool,
    /// Whether any has borders.
    pub borders: bool,
}

impl<'m> DesignGaps<'m> {
    /// What a manuscript leaves open.
    pub fn new(manuscript: &'m Manuscript) -> DesignGaps<'m> {
        let layouts = Layouts::new(manuscript);
        let stated = || layouts.each.iter().filter_map(|layout| layout.stated());
        let like = manuscript.sizes.iter().zip(layouts.each).find(|(_, layout)| layout.stated().is_some());
        let without = |(size, layout): (&'m Size, &PerSize<SizeLayout>)| {
            (like.is_some() && matches!(layout, PerSize::Nothing)).then_some(size)
        };
        DesignGaps {
            sizes: manuscript.sizes.iter().zip(layouts.each).filter_map(without).collect(),
            like: like.map(|(size, _)| size),
            other: OtherLayouts {
                sashing: stated().any(|layout| !layout.sashing.is_absent()),
                borders: stated().any(|layout| !layout.borders.is_empty()),
            },
            // Without any layout no design is stated, and counts are taken as given.
            units: if like.is_some() { unused_units(manuscript, &layouts) } else { Vec::new() },
            blocks: if like.is_some() { unused_blocks(manuscript, &layouts) } else { Vec::new() },
        }
    }

    /// Whether a size is without a layout, where others have one.
    pub fn lacks_layout(&self, size: &str) -> bool {
        self.sizes.iter().any(|without| without.name == size)
    }
}

/// The layouts of all sizes.
struct Layouts<'m> {
    each: &'m [PerSize<SizeLayout>],
    /// Whether all that they name was read.
    whole: bool,
}

impl<'m> Layouts<'m> {
    fn new(manuscript: &'m Manuscript) -> Layouts<'m> {
        let each: &[_] = manuscript.layout.as_ref().map_or(&[], |layout| &layout.sizes);
        let was_read = |layout: &PerSize<SizeLayout>| match layout {
            PerSize::Nothing => true,
            PerSize::Unread => false,
            PerSize::Stated(layout) => {
                let blocks = layout.blocks_were_read();
                let is_unread = |border: &Border| border.of.is_unread() || border.corner_of.is_unread();
                let borders = layout.borders_whole && !layout.borders.iter().any(is_unread);
                let others = [&layout.side_triangles, &layout.corner_triangles, &layout.sash_of];
                blocks && borders && !others.into_iter().any(Field::is_unread)
            }
        };
        Layouts { each, whole: each.iter().all(was_read) }
    }

    fn blocks(&self) -> BTreeSet<usize> {
        self.each.iter().filter_map(PerSize::stated).flat_map(SizeLayout::named_blocks).collect()
    }

    fn units(&self) -> impl Iterator<Item = usize> {
        let stated = self.each.iter().filter_map(PerSize::stated);
        stated.flat_map(|layout| {
            let borders = layout.sewn_in_borders().filter_map(|sewn| match sewn {
                Sewn::Unit(unit) => Some(unit),
                Sewn::Block(_) => None,
            });
            let others = [&layout.side_triangles, &layout.corner_triangles, &layout.sash_of];
            others.into_iter().filter_map(Field::value).chain(borders)
        })
    }
}

fn unused_units<'m>(manuscript: &'m Manuscript, layouts: &Layouts<'m>) -> Vec<&'m Unit> {
    let is_known = manuscript.units_whole && manuscript.blocks_whole && layouts.whole;
    let placed = manuscript.blocks.iter().flat_map(|block| &block.rows).flat_map(|row| &row.places);
    let blocks_read = manuscript.blocks.iter().all(|block| block.whole) && !placed.clone().any(Field::is_unread);
    if !is_known || !blocks_read {
        return Vec::new();
    }
    let unit = |place: &Field<BlockPart>| match place.value()?.sewn {
        Sewn::Unit(unit) => Some(unit),
        Sewn::Block(_) => None,
    };
    let used: BTreeSet<usize> = placed.filter_map(unit).chain(layouts.units()).collect();
    manuscript.units.iter().enumerate().filter(|(unit, _)| !used.contains(unit)).map(|(_, unit)| unit).collect()
}

fn unused_blocks<'m>(manuscript: &'m Manuscript, layouts: &Layouts<'m>) -> Vec<&'m Block> {
    if !manuscript.blocks_whole || !layouts.whole {
        return Vec::new();
    }
    let placed = manuscript.blocks.iter().flat_map(|block| &block.rows).flat_map(|row| &row.places);
    if placed.clone().any(Field::is_unread) {
        return Vec::new();
    }
    let block = |place: &Field<BlockPart>| match place.value()?.sewn {
        Sewn::Block(block) => Some(block),
        Sewn::Unit(_) => None,
    };
    let originals = manuscript.blocks.iter().filter_map(|block| block.like.value());
    let used: BTreeSet<usize> = placed.filter_map(block).chain(layouts.blocks()).chain(originals).collect();
    manuscript.blocks.iter().enumerate().filter(|(block, _)| !used.contains(block)).map(|(_, block)| block).collect()
}
