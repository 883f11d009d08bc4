//! What blocks are sewn from row by row, what is left over, and what several things come to together.

use std::collections::{BTreeMap, BTreeSet};

use super::{KeyValue, Keys, What};
use crate::manuscript::design::PieceRef;
use crate::manuscript::{Field, Span, Spanned};
use crate::quantity::{Count, Length};
use crate::requirement::Needs;
use crate::requirement::blocks::{BlockNeeds, RowNeeds};
use crate::text::lexicon::{Act, Cue, Noun, Section};

const OF_ROWS: [Noun; 5] = [Noun::Row, Noun::Unit, Noun::Set, Noun::Rectangle, Noun::Square];

impl<'m> Keys<'m> {
    pub(super) fn parts(&mut self, needs: &Needs<'m>) {
        for (place, block) in needs.blocks.blocks.iter().enumerate() {
            self.rows_of_block(place, block, needs.layouts.seam);
        }
        self.left_over(needs);
        self.fabric_in_all();
        self.folded_binding();
        self.panels_sewn(needs);
    }

    /// How many rows a block has, how many units a row has, and how large a row and a part of one are with their seams.
    fn rows_of_block(&mut self, place: usize, block: &BlockNeeds<'m>, seam: Option<Length>) {
        let of = [Cue::Block(place)];
        let at = block.stated.at;
        if block.rows.len() < 2 || !block.stated.whole {
            return;
        }
        let lengths: BTreeSet<usize> =
            block.rows.iter().filter_map(|row| row.units.as_ref()).map(Vec::len).filter(|units| *units > 0).collect();
        self.each_of(block.rows.len(), &of, at, &[Noun::Row], "rows of each block");
        for units in lengths {
            self.each_of(
                units,
                &of,
                at,
                &[Noun::Unit, Noun::Square, Noun::Rectangle, Noun::Piece],
                "in each row of a block",
            );
        }
        let Some(seam) = seam else { return };
        let sides: BTreeSet<(Length, Length)> = block
            .rows
            .iter()
            .flat_map(parts_of_row)
            .map(|(width, height)| (width + seam * 2, height + seam * 2))
            .collect();
        for sides in sides {
            self.add(What::Unfinished, KeyValue::Sides(vec![sides]), &of, at)
                .nouns(&OF_ROWS)
                .derived("a row of the block, or a part of one, with its seams");
        }
    }

    fn each_of(&mut self, count: usize, of: &[Cue], at: Span, nouns: &[Noun], how: &'static str) {
        if count > 1 {
            let count = Count(count as u64);
            self.count(What::FromEach, &Spanned { value: count, at }, of).nouns(nouns).derived(how).acts(&[Act::Sew]);
        }
    }

    /// How many pieces are cut that the layout does not take.
    fn left_over(&mut self, needs: &Needs<'m>) {
        for counts in &needs.counts.sizes {
            for (fabric, stated) in self.manuscript.fabrics.iter().enumerate() {
                for (cut, entry) in stated.cut.iter().enumerate() {
                    let used = counts.needs_of(&needs.fabrics, PieceRef::entry(fabric, cut));
                    let taken = used.uses.iter().fold(0, |sum, used| sum + used.count.0);
                    let Some(pieces) = entry.pieces.get(counts.size).and_then(Field::stated) else { continue };
                    if let Some(left) = pieces.value.0.checked_sub(taken).filter(|left| *left > 0 && taken > 0) {
                        let mut of = self.uses(fabric, cut);
                        of.push(Cue::Fabric(fabric));
                        self.count(What::LeftOver, &Spanned { value: Count(left), at: pieces.at }, &of)
                            .for_size(Some(counts.size))
                            .nouns(&[
                                Noun::Piece,
                                Noun::Square,
                                Noun::Rectangle,
                                Noun::Triangle,
                                Noun::Unit,
                                Noun::Strip,
                            ])
                            .derived("more than the layout takes");
                    }
                }
            }
        }
    }

    /// How much fabric is bought for a size, all fabrics together.
    fn fabric_in_all(&mut self) {
        let of = [Cue::Section(Section::Quilt), Cue::Section(Section::Top)];
        for size in 0..self.manuscript.sizes.len() {
            let own: Vec<&super::Key> = self
                .list
                .iter()
                .filter(|key| key.what == What::Amount && key.size == Some(size) && key.is_stated())
                .filter(|key| matches!(key.of[..], [Cue::Fabric(_)]))
                .collect();
            let first = |key: &&super::Key| match &key.value {
                KeyValue::Amount(amounts) => amounts.first().copied(),
                _ => None,
            };
            if own.len() > 1
                && let Some(amounts) = own.iter().map(first).collect::<Option<Vec<Length>>>()
            {
                let at = own[0].at;
                self.add(What::Amount, KeyValue::Amount(vec![amounts.into_iter().sum()]), &of, at)
                    .for_size(Some(size))
                    .derived("all fabrics of the top together");
            }
        }
    }

    /// How wide the strips of a double binding are once they are folded.
    fn folded_binding(&mut self) {
        let Some(binding) = &self.manuscript.binding else { return };
        for (size, width) in binding.strip_width.stated() {
            let half = vec![width.value.length.half()];
            self.add(What::Length, KeyValue::Length(half), &[Cue::Section(Section::Binding)], width.at)
                .for_size(size)
                .nouns(&[Noun::Strip])
                .acts(&[Act::Finished])
                .derived("folded in half");
        }
    }

    /// How wide the panels of the backing are once they are sewn side by side.
    fn panels_sewn(&mut self, needs: &Needs<'m>) {
        let Some(backing) = &needs.backing else { return };
        for size in &backing.sizes {
            let panels = size.stated.panels.value().unwrap_or(size.panels.count);
            if panels.0 > 1 {
                let wide = size.cloth.usable_width * panels - size.cloth.seam * 2 * Count(panels.0 - 1);
                self.add(What::Length, KeyValue::Length(vec![wide]), &[Cue::Section(Section::Backing)], size.stated.at)
                    .for_size(Some(size.index))
                    .nouns(&[Noun::Panel, Noun::Piece])
                    .slack(Length::inches(1).half())
                    .derived("the panels side by side");
            }
        }
    }
}

/// The finished sizes of the first two, three and so on of the units of a row that are all equally high.
fn parts_of_row(row: &RowNeeds<'_>) -> BTreeSet<(Length, Length)> {
    let (Some(units), Some(height)) = (&row.units, row.height()) else { return BTreeSet::new() };
    let mut sides: BTreeMap<Length, Length> = BTreeMap::new();
    let mut width = Length::ZERO;
    for (index, unit) in units.iter().enumerate() {
        width = width + unit.size.width;
        if unit.size.length == height && index > 0 {
            sides.insert(width, height);
        }
    }
    sides.into_iter().collect()
}
