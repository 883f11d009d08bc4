//! How many of one thing are in, of or from each of another: units of a block, pieces of a unit, pieces from a strip.

use std::collections::BTreeMap;

use super::{Keys, What};
use crate::manuscript::design::{PieceRef, Sewn};
use crate::manuscript::model::Cut;
use crate::manuscript::{BySize, Field, Span, Spanned};
use crate::quantity::Count;
use crate::requirement::Needs;
use crate::requirement::units::UnitNeeds;
use crate::text::lexicon::{Act, Cue, Noun};

/// What a unit is called.
const OF_UNITS: [Noun; 5] = [Noun::Unit, Noun::Triangle, Noun::Square, Noun::Rectangle, Noun::Segment];

/// What a piece is called.
const OF_PIECES: [Noun; 4] = [Noun::Square, Noun::Rectangle, Noun::Strip, Noun::Triangle];

impl<'m> Keys<'m> {
    pub(super) fn of_each(&mut self, needs: &Needs<'m>) {
        for place in 0..self.manuscript.units.len() {
            self.in_each_unit(place, needs);
            self.sets(place, needs);
        }
        for place in 0..self.manuscript.blocks.len() {
            self.in_each_block(place, needs);
        }
    }

    /// Adds how many there are in each of a thing.
    fn each(&mut self, count: Count, of: &[Cue], at: Span, nouns: &[Noun], how: &'static str) -> &mut super::Key {
        self.count(What::FromEach, &Spanned { value: count, at }, of).nouns(nouns).derived(how)
    }

    /// A piece and its fabric, of each entry that is meant.
    pub(super) fn cues_of(&self, piece: PieceRef) -> Vec<Cue> {
        let entries = piece.entries(self.manuscript.fabrics.iter());
        entries.iter().flat_map(|entry| [Cue::Fabric(entry.fabric), Cue::Piece(entry.fabric, entry.cut)]).collect()
    }

    /// What a block is sewn from: each unit and block in its rows, with those of the blocks in it.
    fn parts_of_block(&self, place: usize) -> BTreeMap<Sewn, u64> {
        let direct = |place: usize| {
            let mut parts: BTreeMap<Sewn, u64> = BTreeMap::new();
            for part in self.manuscript.blocks[place].parts() {
                *parts.entry(part.sewn).or_default() += 1;
            }
            parts
        };
        let own = direct(place);
        let mut all = own.clone();
        for (sewn, times) in own {
            if let Sewn::Block(inner) = sewn {
                for (sewn, count) in direct(inner) {
                    *all.entry(sewn).or_default() += count * times;
                }
            }
        }
        all
    }

    /// The units, blocks and pieces that one block takes.
    fn in_each_block(&mut self, place: usize, needs: &Needs<'m>) {
        let block = &self.manuscript.blocks[place];
        let parts = if block.whole { self.parts_of_block(place) } else { BTreeMap::new() };
        let mut pieces: BTreeMap<PieceRef, Option<u64>> = BTreeMap::new();
        for (sewn, count) in &parts {
            let (of, nouns) = match sewn {
                Sewn::Unit(unit) => (Cue::Unit(*unit), &OF_UNITS[..]),
                Sewn::Block(inner) => (Cue::Block(*inner), &[Noun::Block, Noun::Unit][..]),
            };
            self.each(Count(*count), &[of, Cue::Block(place)], block.at, nouns, "in each block").acts(&[Act::Sew]);
            let Sewn::Unit(unit) = sewn else { continue };
            for used in needs.units.pieces_per_unit(*unit).unwrap_or_default() {
                let all = count.saturating_mul(used.pieces.0);
                let share = all.is_multiple_of(used.units.0).then(|| all / used.units.0);
                let known = pieces.entry(used.piece).or_insert(Some(0));
                *known = known.zip(share).map(|(known, share)| known + share);
            }
        }
        for (piece, count) in &pieces {
            let Some(count) = count.filter(|count| *count > 0) else { continue };
            let mut of = self.cues_of(*piece);
            of.push(Cue::Block(place));
            self.each(Count(count), &of, block.at, &OF_PIECES, "in each block").acts(&[Act::Sew]);
        }
        let all = pieces.values().copied().try_fold(0_u64, |sum, count| sum.checked_add(count?));
        if let Some(all) = all.filter(|all| *all > 1) {
            let nouns = [Noun::Piece];
            self.each(Count(all), &[Cue::Block(place)], block.at, &nouns, "pieces in each block").acts(&[Act::Sew]);
        }
        if parts.is_empty() {
            self.shared_by_blocks(place);
        }
    }

    /// The pieces and units of each block, where its rows are not stated: all of them over all blocks, where that is
    /// the same for each size.
    fn shared_by_blocks(&mut self, place: usize) {
        let manuscript = self.manuscript;
        let block = &manuscript.blocks[place];
        let blocks = |size: usize| block.makes.of(size).value();
        let sizes = manuscript.sizes.len();
        for (fabric, stated) in manuscript.fabrics.iter().enumerate() {
            for (cut, entry) in stated.cut.iter().enumerate() {
                let pieces = |size: usize| entry.pieces.get(size).and_then(Field::value);
                if let Some(share) = even_share(sizes, pieces, blocks) {
                    let of = [Cue::Fabric(fabric), Cue::Piece(fabric, cut), Cue::Block(place)];
                    self.each(share, &of, block.at, &OF_PIECES, "in each block").acts(&[Act::Sew]);
                }
            }
        }
        for (unit, stated) in manuscript.units.iter().enumerate() {
            if let Some(share) = even_share(sizes, |size| stated.makes.of(size).value(), blocks) {
                self.each(share, &[Cue::Unit(unit), Cue::Block(place)], block.at, &OF_UNITS, "in each block")
                    .acts(&[Act::Sew]);
            }
        }
    }

    /// The pieces that one unit takes, or one set of pieces, and how many units that set gives.
    fn in_each_unit(&mut self, place: usize, needs: &Needs<'m>) {
        const HOW: &str = "from one set";
        let unit = &self.manuscript.units[place];
        let gives = needs.units.units.get(place).and_then(|needs| needs.gives);
        if let Some(gives) = unit.yields.value().or(gives).filter(|gives| gives.0 > 1) {
            self.each(gives, &[Cue::Unit(place)], unit.at, &OF_UNITS, HOW).acts(&[Act::Sew]).nouns(&[Noun::Set]);
        }
        // `Makes 4 flying geese` says nothing of `each`.
        let made = unit.yields.stated().cloned().or(gives.map(|gives| Spanned { value: gives, at: unit.at }));
        if let Some(made) = made.filter(|made| made.value.0 > 1) {
            self.count(What::Makes, &made, &[Cue::Unit(place)]).nouns(&[Noun::Triangle, Noun::Segment]).derived(HOW);
        }
        for used in needs.units.pieces_per_unit(place).unwrap_or_default() {
            let mut of = self.cues_of(used.piece);
            of.push(Cue::Unit(place));
            let one = used.pieces.0.is_multiple_of(used.units.0).then(|| Count(used.pieces.0 / used.units.0));
            let set = (used.units.0 > 1).then_some(used.pieces);
            for (count, how) in [(one, "in each unit"), (set, "in one set")] {
                if let Some(count) = count.filter(|count| count.0 > 0) {
                    self.each(count, &of, unit.at, &OF_PIECES, how).acts(&[Act::Sew]);
                }
            }
        }
    }

    /// How many sets of pieces are sewn, where each gives several units: pairs of squares, strip sets.
    fn sets(&mut self, place: usize, needs: &Needs<'m>) {
        let unit = &self.manuscript.units[place];
        let counted = needs.units.units.get(place).and_then(UnitNeeds::counted);
        let Some(gives) = counted.filter(|gives| gives.0 > 1) else { return };
        let made = made_by_size(&unit.makes, unit.at, needs, |counts| counts.of_unit(place));
        for (size, made) in made {
            if let Some(sets) = made.value.in_groups_of(gives) {
                let key = self.count(What::Makes, &Spanned { value: sets, at: made.at }, &[Cue::Unit(place)]);
                key.for_size(size).derived("sets that give them").nouns = Noun::Set.bit();
            }
        }
    }

    /// How many pieces come of each strip: those stated over the strips, and what the width of the fabric gives.
    pub(super) fn each_strip(&mut self, (fabric, cut): (usize, usize), of: &[Cue], nouns: &[Noun]) {
        const HOW: &str = "from each strip";
        let cuts = &self.manuscript.fabrics[fabric].cut;
        let stated = &cuts[cut];
        // Pieces that share their strips with others come of the strips of all.
        let strips: &Cut = stated.within.and_then(|group| cuts.get(group)).unwrap_or(stated);
        for (size, (pieces, strips)) in stated.pieces.iter().zip(&strips.strips).enumerate() {
            let (Some(pieces), Some(strips)) = (pieces.stated(), strips.stated()) else { continue };
            let (all, by) = (pieces.value.0, strips.value.0);
            if by > 1 && all > 0 && all.is_multiple_of(by) {
                self.each(Count(all / by), of, pieces.at, nouns, HOW).for_size(Some(size));
            }
        }
        let assumed = self.manuscript.assumes.usable_width.length();
        let width = self.manuscript.fabrics[fabric].usable_width.length().or(assumed);
        let Some(width) = width else { return };
        for (size, sides) in stated.size.stated() {
            let (one, other) = (sides.value.0.length, sides.value.1.length);
            let mut counts = vec![width.pieces_of(one), width.pieces_of(other)];
            counts.dedup();
            for count in counts.into_iter().filter(|count| count.0 > 0) {
                self.each(count, of, sides.at, nouns, HOW).for_size(size);
            }
        }
    }
}

/// How many of a thing are made for each size: as stated, or as the layouts take.
fn made_by_size<'m>(
    stated: &BySize<Count>,
    at: Span,
    needs: &Needs<'m>,
    counted: impl Fn(&crate::requirement::counts::SizeCounts<'m>) -> Option<Count>,
) -> Vec<(Option<usize>, Spanned<Count>)> {
    if !stated.is_absent() {
        return stated.stated().map(|(size, count)| (size, count.clone())).collect();
    }
    let sizes = needs.counts.sizes.iter();
    sizes.filter_map(|counts| Some((Some(counts.size), Spanned { value: counted(counts)?, at }))).collect()
}

/// One number over another, where both are stated for a size and it is the same whole number for each such size.
fn even_share(
    sizes: usize,
    all: impl Fn(usize) -> Option<Count>,
    by: impl Fn(usize) -> Option<Count>,
) -> Option<Count> {
    let mut share = None;
    for (all, by) in (0..sizes).filter_map(|size| all(size).zip(by(size))) {
        if by.0 == 0 || all.0 == 0 || !all.0.is_multiple_of(by.0) || share.is_some_and(|share| share != all.0 / by.0) {
            return None;
        }
        share = Some(all.0 / by.0);
    }
    share.map(Count)
}
