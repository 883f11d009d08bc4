//! How large rows and the quilt measure while they are sewn, and what sashing a layout takes.

use super::{KeyValue, Keys, What, both_sides, with_seams};
use crate::choices::Set;
use crate::manuscript::design::{PieceRef, Sewn};
use crate::manuscript::{Field, Span, Spanned};
use crate::quantity::{Count, Length};
use crate::quilt_math::layout::{Sashes, Sashing, Top};
use crate::requirement::Needs;
use crate::requirement::layout::LayoutNeeds;
use crate::requirement::rows::RowsNeeds;
use crate::text::lexicon::{Act, Cue, Noun, Section};

const OF_ROWS: &str = "one row with its seams";
const OF_LAYOUT: &str = "as many as the layout takes";

impl<'m> Keys<'m> {
    pub(super) fn sewn(&mut self, needs: &Needs<'m>) {
        self.before_binding(needs);
        let Some(seam) = needs.layouts.seam else { return };
        for laid in &needs.layouts.sizes {
            match (&laid.rows, &laid.top) {
                (Some(rows), _) => self.rows_stated(laid, rows, needs, seam),
                (None, Some(top)) if top.set == Set::Straight => self.rows_of_grid(laid, top, seam),
                _ => {}
            }
            if let Some((top, sashing)) = laid.top.as_ref().and_then(|top| Some((top, top.sashing?))) {
                self.sashes(laid, top, sashing, seam);
            }
        }
    }

    /// How large the quilt measures before it is bound: finished, and a seam at each side.
    fn before_binding(&mut self, needs: &Needs<'m>) {
        let of = [Cue::Section(Section::Quilt), Cue::Section(Section::Top)];
        let Some(seam) = needs.layouts.seam.filter(|_| !needs.layouts.is_raw) else { return };
        for (index, size) in self.manuscript.sizes.iter().enumerate() {
            if let Some(finished) = size.finished.stated() {
                let sides = with_seams(&both_sides(finished.value), seam);
                self.add(What::Unfinished, KeyValue::Sides(sides), &of, finished.at)
                    .for_size(Some(index))
                    .derived("the finished size with its seams");
            }
        }
    }

    fn row(&mut self, sides: (Length, Length), noun: Noun, laid: &LayoutNeeds<'m>, of: &[Cue], how: &'static str) {
        self.add(What::Unfinished, KeyValue::Sides(vec![sides]), of, laid.stated.at)
            .for_size(Some(laid.index))
            .nouns(&[noun])
            .derived(how);
    }

    /// The rows and the columns of a grid of blocks, and of the sashing between them.
    fn rows_of_grid(&mut self, laid: &LayoutNeeds<'m>, top: &Top, seam: Length) {
        let of = [Cue::Section(Section::Top)];
        let (width, length) = top.inner();
        let (width, length, seams) = (width.straight, length.straight, seam * 2);
        self.row((width + seams, top.block.length + seams), Noun::Row, laid, &of, OF_ROWS);
        self.row((top.block.width + seams, length + seams), Noun::Column, laid, &of, "one column with its seams");
        if let Some(sashing) = top.sashing {
            for sashes in [1, 2] {
                let with_sashes = top.block.length + sashing.width * sashes + seams;
                self.row((width + seams, with_sashes), Noun::Row, laid, &of, "one row with its sashing");
            }
            let of = [Cue::Section(Section::Sashing)];
            self.row((width + seams, sashing.width + seams), Noun::Row, laid, &of, OF_ROWS);
        }
    }

    /// The rows or columns that are stated block by block.
    fn rows_stated(&mut self, laid: &LayoutNeeds<'m>, rows: &RowsNeeds<'m>, needs: &Needs<'m>, seam: Length) {
        let of = [Cue::Section(Section::Top)];
        let seams = seam * 2;
        for row in &rows.rows {
            let (long, wide) = (row.length() + seams, row.width() + seams);
            let (sides, noun) = if rows.are_columns { ((wide, long), Noun::Column) } else { ((long, wide), Noun::Row) };
            self.row(sides, noun, laid, &of, OF_ROWS);
        }
        let count = Count(rows.rows.len() as u64) * rows.times;
        let noun = if rows.are_columns { Noun::Column } else { Noun::Row };
        self.laid_out(What::Laid, count, laid, &of, &[noun], "the rows that are listed");
        for row in &rows.rows {
            let blocks = row.blocks.iter().fold(Count(0), |sum, blocks| sum + blocks.count);
            self.laid_out(What::FromEach, blocks, laid, &of, &[Noun::Block], "blocks in a row");
            for blocks in &row.blocks {
                let mut of = vec![Cue::Section(Section::Top), Cue::Block(blocks.block)];
                of.extend(self.only_part(blocks.block, needs));
                self.laid_out(What::FromEach, blocks.count, laid, &of, &[Noun::Block], "blocks in a row");
            }
        }
    }

    /// What a block is sewn from that has one part alone: its unit, and the pieces of that.
    fn only_part(&self, block: usize, needs: &Needs<'m>) -> Vec<Cue> {
        let mut parts = self.manuscript.blocks[block].parts();
        let (Some(part), None) = (parts.next(), parts.next()) else { return Vec::new() };
        let Sewn::Unit(unit) = part.sewn else { return Vec::new() };
        let used = needs.units.pieces_per_unit(unit).unwrap_or_default();
        let pieces = used.iter().flat_map(|used| self.cues_of(used.piece));
        std::iter::once(Cue::Unit(unit)).chain(pieces).collect()
    }

    fn laid_out(
        &mut self,
        what: What,
        count: Count,
        laid: &LayoutNeeds<'m>,
        of: &[Cue],
        nouns: &[Noun],
        how: &'static str,
    ) -> &mut super::Key {
        let at: Span = laid.stated.at;
        self.count(what, &Spanned { value: count, at }, of)
            .for_size(Some(laid.index))
            .nouns(nouns)
            .acts(&[Act::Sew, Act::Cut])
            .derived(how)
    }

    /// The sashes and the squares between them: how many, how large, and how many in a row.
    fn sashes(&mut self, laid: &LayoutNeeds<'m>, top: &Top, sashing: Sashing, seam: Length) {
        const SASHES: [Noun; 3] = [Noun::Sash, Noun::Strip, Noun::Rectangle];
        const SQUARES: [Noun; 2] = [Noun::Cornerstone, Noun::Square];
        let stated = laid.stated;
        let of_piece = |piece: &Field<PieceRef>| {
            let named = piece.value().map(|piece| self.cues_of(piece));
            std::iter::once(Cue::Section(Section::Sashing)).chain(named.into_iter().flatten()).collect::<Vec<_>>()
        };
        let (of, of_long, of_squares) =
            (of_piece(&stated.sash), of_piece(laid.piece_of_long_sashes()), of_piece(&stated.cornerstone));
        let seams = seam * 2;
        let mut cut: Vec<(Sashes, &[Cue])> = top.short_sashes().into_iter().map(|sashes| (sashes, &of[..])).collect();
        cut.extend(Some((top.long_sashes(), &of_long[..])).filter(|(long, _)| long.count.0 > 0));
        for (index, (sashes, of)) in cut.iter().enumerate() {
            self.laid_out(What::Pieces, sashes.count, laid, of, &SASHES, OF_LAYOUT);
            // Those of both directions are often alike.
            if cut[..index].iter().any(|(other, _)| other.length == sashes.length) {
                continue;
            }
            let sides = (sashing.width + seams, sashes.length + seams);
            self.add(What::CutSize, KeyValue::Sides(vec![sides]), of, stated.at)
                .for_size(Some(laid.index))
                .nouns(&SASHES)
                .derived("the finished size with its seams");
        }
        if cut.len() > 1 {
            self.laid_out(What::Pieces, top.all_sashes(), laid, &of, &SASHES, OF_LAYOUT);
        }
        if top.cornerstones().0 > 0 {
            self.laid_out(What::Pieces, top.cornerstones(), laid, &of_squares, &SQUARES, OF_LAYOUT);
            let sides = (sashing.width + seams, sashing.width + seams);
            self.add(What::CutSize, KeyValue::Sides(vec![sides]), &of_squares, stated.at)
                .for_size(Some(laid.index))
                .nouns(&SQUARES)
                .derived("the finished size with its seams");
        }
        if top.set == Set::Straight && top.rows.is_none() {
            let (across, down) = (sashing.beside(top.across), sashing.beside(top.down));
            self.laid_out(What::FromEach, across, laid, &of, &SASHES, "sashes in a row of blocks");
            self.laid_out(What::Laid, down, laid, &of, &[Noun::Row], "rows of sashing");
            if sashing.cornerstones {
                self.laid_out(What::FromEach, top.across, laid, &of, &SASHES, "sashes in a row of sashing");
                self.laid_out(What::FromEach, across, laid, &of_squares, &SQUARES, "squares in a row of sashing");
            }
        }
    }
}
