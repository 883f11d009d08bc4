//! The numbers of the fabrics and of their cutting lists.

use super::{KeyValue, Keys, What, both_sides};
use crate::manuscript::design::{Block, CutFrom, PieceRef, Sewn};
use crate::manuscript::model::{Bought, BoughtAs, Cut, CutAgain, Fabric, SoldAs};
use crate::manuscript::{Field, Spanned};
use crate::quantity::{Count, Length, Written};
use crate::requirement::Needs;
use crate::text::lexicon::{Act, Cue, Noun, Section};

/// From which length a piece is called a strip as well.
const STRIP_FROM: Length = Length::inches(10);

impl<'m> Keys<'m> {
    pub(super) fn fabrics(&mut self, needs: &Needs<'m>) {
        for (place, fabric) in self.manuscript.fabrics.iter().enumerate() {
            self.bought(place, fabric);
            for (cut, stated) in fabric.cut.iter().enumerate() {
                let of = self.uses(place, cut);
                self.piece(place, (cut, stated), &of, needs);
            }
        }
    }

    /// What is bought of a fabric.
    fn bought(&mut self, place: usize, fabric: &Fabric) {
        let of = [Cue::Fabric(place)];
        for (size, bought) in fabric.requires.iter().enumerate() {
            match bought.stated() {
                Some(Bought::Amount(amount)) => {
                    self.amount(amount, &of).for_size(Some(size));
                }
                Some(Bought::Count(count)) => {
                    let nouns = noun_sold(fabric.sold_as.value());
                    let mut count = count.clone();
                    // Packs are counted by what is in them.
                    let pack = fabric.pack.value().filter(|pack| pack.0 > 0);
                    if let Some(pack) = pack.filter(|_| fabric.bought_as(size) == Some(BoughtAs::Packs)) {
                        count.value = Count(count.value.0 / pack.0);
                    }
                    self.count(What::Bought, &count, &of).for_size(Some(size)).nouns(nouns);
                }
                None => {}
            }
        }
        let sizes =
            |at| fabric.requires.iter().position(|bought| bought.stated().is_some_and(|bought| bought.at() == at));
        for (at, instead) in &fabric.choices {
            let size = sizes(*at);
            match &instead.bought {
                Bought::Amount(amount) => self.amount(amount, &of).for_size(size),
                Bought::Count(count) => {
                    self.count(What::Bought, count, &of).for_size(size).nouns(noun_sold(Some(instead.sold_as)))
                }
            };
        }
        if let Some(pack) = fabric.pack.stated() {
            self.count(What::Count, pack, &of)
                .nouns(&[Noun::Pack, Noun::Square, Noun::Strip, Noun::Piece])
                .derived("in a pack");
        }
        if let Some(precut) = fabric.precut.stated() {
            self.length(What::Length, precut, &of)
                .nouns(&[Noun::Square, Noun::Strip])
                .acts(&[Act::Bought])
                .derived("as it is bought");
        }
        if let Some(width) = fabric.usable_width.stated() {
            self.length(What::UsableWidth, width, &of);
        }
        for (size, different) in fabric.different.iter().enumerate() {
            if let Some(different) = different.stated().filter(|different| different.value > Count(1)) {
                self.count(What::Count, different, &of)
                    .for_size(Some(size))
                    .nouns(&[Noun::Fabric])
                    .derived("different fabrics");
            }
        }
    }

    /// What a piece is of: its fabric, itself, and what it is used for.
    pub(super) fn uses(&self, fabric: usize, cut: usize) -> Vec<Cue> {
        let manuscript = self.manuscript;
        let stated = &manuscript.fabrics[fabric].cut[cut];
        let mut of = vec![Cue::Fabric(fabric), Cue::Piece(fabric, cut)];
        // Strips for several pieces are of each of these.
        let members = manuscript.fabrics[fabric].cut.iter().enumerate();
        if stated.is_group {
            of.extend(
                members.filter(|(_, member)| member.within == Some(cut)).map(|(member, _)| Cue::Piece(fabric, member)),
            );
        }
        let pieces: Vec<PieceRef> = of
            .iter()
            .filter_map(|cue| match cue {
                Cue::Piece(fabric, cut) => Some(PieceRef::entry(*fabric, *cut)),
                _ => None,
            })
            .collect();
        let is = |named: &Field<PieceRef>| {
            let named = named.value();
            named.is_some_and(|named| pieces.iter().any(|piece| named.means(*piece, manuscript.fabrics.iter())))
        };
        for (place, unit) in manuscript.units.iter().enumerate() {
            let from = |from: &Field<CutFrom>| match from.value() {
                Some(CutFrom::Piece(named)) => {
                    pieces.iter().any(|piece| named.means(*piece, manuscript.fabrics.iter()))
                }
                _ => false,
            };
            if unit.cut.iter().any(|part| from(&part.from)) || unit.takes.iter().any(|taken| is(&taken.piece)) {
                of.push(Cue::Unit(place));
                let has = |block: &Block| block.parts().any(|part| part.sewn == Sewn::Unit(place));
                let blocks = manuscript.blocks.iter().enumerate();
                of.extend(blocks.filter(|(_, block)| has(block)).map(|(block, _)| Cue::Block(block)));
            }
        }
        for laid in manuscript.layout.iter().flat_map(|layout| &layout.sizes).filter_map(|laid| laid.stated()) {
            if is(&laid.sash) || is(&laid.long_sash) || is(&laid.cornerstone) {
                of.push(Cue::Section(Section::Sashing));
            }
            for (index, border) in laid.borders.iter().enumerate() {
                if [&border.piece, &border.piece_across, &border.piece_bottom, &border.cornerstone].into_iter().any(is)
                {
                    of.extend([Cue::Border(index), Cue::Section(Section::Border)]);
                    of.extend((index + 1 == laid.borders.len()).then_some(Cue::Border(usize::MAX)));
                }
            }
        }
        let said = |words: &Field<String>, word: &str| words.stated().is_some_and(|said| said.value.contains(word));
        let of_border = |cut: &Cut| said(&cut.piece, "border") || said(&cut.used_for, "border");
        let cuts = &manuscript.fabrics[fabric].cut;
        // Of a fabric for borders, of which no piece says that it is one, each may be.
        let any = !cuts.iter().all(of_border)
            && said(&manuscript.fabrics[fabric].role, "border")
            && manuscript.layout.is_none();
        if of_border(stated) || any {
            of.push(Cue::Section(Section::Border));
        }
        if said(&stated.used_for, "label") || said(&stated.piece, "label") {
            of.push(Cue::Section(Section::Label));
        }
        of.sort_unstable();
        of.dedup();
        of
    }

    /// The numbers of one entry of a cutting list.
    fn piece(&mut self, fabric: usize, (cut, stated): (usize, &'m Cut), of: &[Cue], needs: &Needs<'m>) {
        let nouns = piece_nouns(stated, of);
        let whole_strips = stated.size.is_absent() && !stated.is_slanted();
        for (size, count) in stated.strips.iter().enumerate() {
            if let Some(count) = count.stated() {
                let key = self.count(What::Strips, count, of).for_size(Some(size));
                if whole_strips && !stated.is_group {
                    key.nouns(&[Noun::Piece]);
                }
            }
        }
        for (size, count) in stated.pieces.iter().enumerate() {
            if let Some(count) = count.stated() {
                // What is counted from the pieces of each is not stated.
                let is_counted = stated.pieces_from_each.get(size).and_then(Field::at) == Some(count.at);
                let key = self.count(What::Pieces, count, of).for_size(Some(size)).nouns(&nouns);
                if is_counted {
                    key.derived("in all");
                }
                if count.value.0 > 0 {
                    self.triangles(stated, count, size, of);
                }
            }
        }
        for (size, count) in stated.pieces_from_each.iter().enumerate() {
            if let Some(count) = count.stated().filter(|count| count.value.0 > 0) {
                self.count(What::FromEach, count, of)
                    .for_size(Some(size))
                    .nouns(&nouns)
                    .nouns(&[Noun::Quarter, Noun::Eighth]);
            }
        }
        self.each_strip((fabric, cut), of, &nouns);
        for (size, sides) in stated.size.stated() {
            for size in sizes_taken(stated, size) {
                self.sides(What::CutSize, sides, of).for_size(size).nouns(&nouns);
                if stated.strip_width.of(size.unwrap_or(0)).is_absent() && stated.within.is_none() {
                    let widths =
                        both_sides(sides.value).into_iter().flat_map(|(width, length)| [width, length]).collect();
                    self.add(What::StripWidth, KeyValue::Length(widths), of, sides.at).for_size(size);
                }
            }
            self.derive_from_sides(sides, size, of, &nouns, needs);
        }
        for (size, width) in stated.strip_width.stated() {
            let key = self.length(What::StripWidth, width, of).for_size(size);
            if whole_strips {
                key.nouns(&nouns);
            }
        }
        if let Some(shaped) = stated.slanted() {
            for (size, side) in shaped.size.stated() {
                self.sides(What::Finished, side, of).for_size(size).nouns(&nouns).acts(&[Act::Cut]);
            }
            for (size, height) in shaped.height.stated() {
                self.length(What::Finished, height, of).for_size(size).nouns(&nouns).acts(&[Act::Cut]);
            }
        }
        self.strips_needed(fabric, cut, of, needs);
    }

    /// The triangles that squares are cut into.
    fn triangles(&mut self, stated: &Cut, count: &Spanned<Count>, size: usize, of: &[Cue]) {
        let into = |many: u64| Spanned { value: Count(count.value.0 * many), at: count.at };
        let times: &[u64] = match stated.cut_again.value() {
            Some(CutAgain::Once) => &[2],
            Some(CutAgain::Twice) => &[4],
            None => &[2, 4],
        };
        for many in times {
            let key = self.count(What::Pieces, &into(*many), of).for_size(Some(size)).derived("triangles from squares");
            key.nouns = Noun::Triangle.bit();
            key.is_sure = times.len() == 1;
        }
    }

    /// What follows from a cut size: how large it finishes.
    fn derive_from_sides(
        &mut self,
        sides: &Spanned<(Written, Written)>,
        size: Option<usize>,
        of: &[Cue],
        nouns: &[Noun],
        needs: &Needs<'m>,
    ) {
        if let Some(seam) = needs.layouts.seam {
            let finished =
                both_sides(sides.value).into_iter().map(|(width, length)| (width - seam * 2, length - seam * 2));
            let finished: Vec<(Length, Length)> =
                finished.filter(|(width, length)| width.is_positive() && length.is_positive()).collect();
            self.add(What::Finished, KeyValue::Sides(finished), of, sides.at)
                .for_size(size)
                .nouns(nouns)
                .only_acts(&[Act::Finished])
                .derived("the cut size without its seams");
        }
    }

    /// How many strips give the pieces, where no strips are stated.
    fn strips_needed(&mut self, fabric: usize, cut: usize, of: &[Cue], _: &Needs<'m>) {
        let stated = &self.manuscript.fabrics[fabric].cut[cut];
        if stated.within.is_some() {
            return;
        }
        if !stated.strips.is_empty() && stated.strips.iter().any(|strips| !strips.is_absent()) {
            return;
        }
        let width = self.manuscript.assumes.usable_width.length().unwrap_or(Length::inches(40));
        for (size, pieces) in stated.pieces.iter().enumerate() {
            let (Some(pieces), Some((one, other))) = (pieces.stated(), stated.size.of(size).value()) else { continue };
            for side in [one.length, other.length] {
                if let Some(strips) = pieces.value.in_groups_of(width.pieces_of(side)) {
                    let strips = Spanned { value: strips, at: pieces.at };
                    self.count(What::Strips, &strips, of)
                        .for_size(Some(size))
                        .derived("as many strips as give the pieces");
                }
            }
        }
    }
}

/// The sizes that a cut size holds for: those that take some of the piece, where others take none.
fn sizes_taken(stated: &Cut, size: Option<usize>) -> Vec<Option<usize>> {
    let takes_none = |count: &Field<Count>| count.value() == Some(Count(0));
    if size.is_some() || !stated.pieces.iter().any(takes_none) {
        return vec![size];
    }
    let sizes = stated.pieces.iter().enumerate();
    sizes.filter(|(_, count)| !takes_none(count)).map(|(size, _)| Some(size)).collect()
}

/// How what is bought is called.
const fn noun_sold(sold_as: Option<SoldAs>) -> &'static [Noun] {
    match sold_as {
        Some(SoldAs::FatQuarters) => &[Noun::Quarter],
        Some(SoldAs::FatEighths) => &[Noun::Eighth],
        Some(SoldAs::Strips) => &[Noun::Strip, Noun::Pack],
        Some(SoldAs::Squares) => &[Noun::Square, Noun::Pack],
        _ => &[Noun::Quarter, Noun::Eighth, Noun::Pack],
    }
}

/// How a piece is called by its shape and by what it is used for.
fn piece_nouns(stated: &Cut, of: &[Cue]) -> Vec<Noun> {
    let mut nouns = Vec::new();
    let mut sides = stated.size.stated().map(|(_, sides)| sides.value);
    match sides.next() {
        Some((one, other)) if one.length == other.length => nouns.push(Noun::Square),
        Some((one, other)) => {
            nouns.push(Noun::Rectangle);
            if one.length.max(other.length) >= STRIP_FROM {
                nouns.push(Noun::Strip);
            }
        }
        None => nouns.push(Noun::Strip),
    }
    if stated.shaped.is_some() || !stated.cut_again.is_absent() {
        nouns.push(Noun::Triangle);
    }
    for (cue, more) in [
        (Cue::Section(Section::Sashing), &[Noun::Sash, Noun::Cornerstone, Noun::Strip][..]),
        (Cue::Section(Section::Border), &[Noun::Side, Noun::Strip, Noun::Cornerstone]),
    ] {
        if of.contains(&cue) {
            let is_square = nouns.contains(&Noun::Square);
            nouns.extend(more.iter().filter(|noun| !(is_square && **noun == Noun::Strip)));
        }
    }
    if of.iter().any(|cue| matches!(cue, Cue::Unit(_))) {
        nouns.push(Noun::Log);
    }
    nouns
}
