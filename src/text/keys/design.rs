//! The numbers of units, blocks and layouts.

use super::{KeyValue, Keys, What, both_sides, lengths, printed_slack, with_seams};
use crate::manuscript::design::CutFrom;
use crate::manuscript::model::{Blocks, SizeLayout};
use crate::manuscript::{BySize, Span, Spanned};
use crate::quantity::{Count, Length, Written};
use crate::quilt_math::layout::Side;
use crate::requirement::Needs;
use crate::requirement::layout::LayoutNeeds;
use crate::text::lexicon::{Act, Cue, Noun, Section};

const WITH_SEAMS: &str = "the finished size with its seams";

impl<'m> Keys<'m> {
    pub(super) fn design(&mut self, needs: &Needs<'m>) {
        let seam = needs.layouts.seam;
        for (place, unit) in self.manuscript.units.iter().enumerate() {
            let of = [Cue::Unit(place)];
            if let Some(finished) = unit.finished.stated() {
                self.sides(What::Finished, finished, &of).nouns(&[
                    Noun::Unit,
                    Noun::Square,
                    Noun::Rectangle,
                    Noun::Block,
                ]);
            }
            self.unfinished(
                unit.trim.stated(),
                unit.finished.stated(),
                seam,
                &of,
                &[Noun::Unit, Noun::Square, Noun::Rectangle],
            );
            self.makes(&unit.makes, &of, &[Noun::Unit, Noun::Triangle, Noun::Square, Noun::Segment, Noun::Log]);
            if let Some(yields) = unit.yields.stated() {
                self.count(What::Count, yields, &of)
                    .nouns(&[Noun::Unit, Noun::Segment, Noun::Triangle])
                    .derived("from one set");
            }
            for part in &unit.cut {
                if let Some(Spanned { value: CutFrom::Size(width, height), at }) = part.from.stated() {
                    let sides = Spanned { value: (*width, *height), at: *at };
                    self.sides(What::CutSize, &sides, &of).nouns(&[
                        Noun::Square,
                        Noun::Rectangle,
                        Noun::Strip,
                        Noun::Triangle,
                    ]);
                }
            }
            if let Some(segment) = unit.segment.stated() {
                self.length(What::CutSize, segment, &of).nouns(&[Noun::Segment]);
            }
        }
        for (place, block) in self.manuscript.blocks.iter().enumerate() {
            let of = [Cue::Block(place)];
            if let Some(finished) = block.finished.stated() {
                self.sides(What::Finished, finished, &of).nouns(&[Noun::Block, Noun::Square]);
            }
            self.unfinished(
                block.unfinished.stated(),
                block.finished.stated(),
                seam,
                &of,
                &[Noun::Block, Noun::Square],
            );
            self.makes(&block.makes, &of, &[Noun::Block]);
        }
        self.counted(needs);
        self.triangles_used(needs);
        for laid in &needs.layouts.sizes {
            self.layout(laid, needs);
        }
    }

    /// How large something measures with its seams: as stated, or as it follows.
    fn unfinished(
        &mut self,
        stated: Option<&Spanned<(Written, Written)>>,
        finished: Option<&Spanned<(Written, Written)>>,
        seam: Option<Length>,
        of: &[Cue],
        nouns: &[Noun],
    ) {
        match (stated, finished, seam) {
            (Some(stated), ..) => {
                self.sides(What::Unfinished, stated, of).nouns(nouns);
            }
            (None, Some(finished), Some(seam)) => {
                let sides = with_seams(&both_sides(finished.value), seam);
                self.add(What::Unfinished, KeyValue::Sides(sides), of, finished.at)
                    .nouns(nouns)
                    .derived(WITH_SEAMS)
                    .sure();
            }
            _ => {}
        }
    }

    fn makes(&mut self, makes: &BySize<Count>, of: &[Cue], nouns: &[Noun]) {
        for (size, makes) in makes.stated() {
            self.count(What::Makes, makes, of).for_size(size).nouns(nouns);
        }
    }

    /// How many of the triangles that squares are cut into the layouts take.
    fn triangles_used(&mut self, needs: &Needs<'m>) {
        for counts in &needs.counts.sizes {
            for place in 0..self.manuscript.units.len() {
                let Some(count) = counts.of_unit(place).filter(|count| count.0 > 0) else { continue };
                for used in needs.units.pieces_per_unit(place).unwrap_or_default() {
                    let entry = self.manuscript.fabrics[used.piece.fabric].cut.get(used.piece.cut);
                    if entry.is_none_or(|entry| entry.cut_again.is_absent()) {
                        continue;
                    }
                    let mut of = self.cues_of(used.piece);
                    of.push(Cue::Unit(place));
                    let stated = Spanned { value: count, at: self.manuscript.units[place].at };
                    let key = self.count(What::Pieces, &stated, &of).for_size(Some(counts.size));
                    key.derived("as many as the layout takes").nouns = Noun::Triangle.bit();
                }
            }
        }
    }

    /// How many units and blocks the layouts take, where the manuscript does not say how many are made.
    fn counted(&mut self, needs: &Needs<'m>) {
        for counts in &needs.counts.sizes {
            for place in 0..self.manuscript.units.len() {
                let unit = &self.manuscript.units[place];
                if let Some(count) = counts.of_unit(place).filter(|count| count.0 > 0 && unit.makes.is_absent()) {
                    self.count(What::Makes, &Spanned { value: count, at: unit.at }, &[Cue::Unit(place)])
                        .for_size(Some(counts.size))
                        .nouns(&[Noun::Unit, Noun::Triangle, Noun::Square, Noun::Segment])
                        .derived("as many as the layout takes")
                        .sure();
                }
            }
            for place in 0..self.manuscript.blocks.len() {
                let block = &self.manuscript.blocks[place];
                if let Some(count) = counts.of_block(place).filter(|count| count.0 > 0 && block.makes.is_absent()) {
                    self.count(What::Makes, &Spanned { value: count, at: block.at }, &[Cue::Block(place)])
                        .for_size(Some(counts.size))
                        .nouns(&[Noun::Block])
                        .derived("as many as the layout takes")
                        .sure();
                }
            }
        }
    }

    fn layout(&mut self, laid: &LayoutNeeds<'m>, needs: &Needs<'m>) {
        let (stated, size) = (laid.stated, Some(laid.index));
        let top = [Cue::Section(Section::Top)];
        if let Some(across) = stated.across.stated() {
            self.count(What::Laid, across, &top).for_size(size).nouns(&[Noun::Column]);
        }
        if let Some(down) = stated.down.stated() {
            self.count(What::Laid, down, &top).for_size(size).nouns(&[Noun::Row]);
        }
        if let Some(Spanned { value: Blocks::Each(each), .. }) = stated.blocks.stated() {
            for (block, count) in each {
                if let (Some(block), Some(count)) = (block.value(), count.stated()) {
                    self.count(What::Makes, count, &[Cue::Block(block)]).for_size(size).nouns(&[Noun::Block]);
                }
            }
        }
        if let (Some(across), Some(down)) = (stated.across.stated(), stated.down.stated()) {
            self.add(What::Laid, KeyValue::Grid(across.value.0, down.value.0), &top, across.at)
                .for_size(size)
                .nouns(&[Noun::Block, Noun::Row, Noun::Column])
                .derived("across and down")
                .sure();
        }
        if stated.sashing.is_absent() {
            self.seams_between(stated, size);
        }
        if let Some(places) = laid.places {
            self.count(What::Makes, &Spanned { value: places, at: stated.at }, &top)
                .for_size(size)
                .derived("all blocks of the layout")
                .sure()
                .nouns(&[Noun::Block]);
        }
        self.sashing(stated, size, needs);
        self.borders(laid, needs);
        self.tops(laid, needs);
    }

    /// How many seams a row has between its blocks, and how many lie between the rows.
    fn seams_between(&mut self, stated: &SizeLayout, size: Option<usize>) {
        let top = [Cue::Section(Section::Top)];
        for count in [&stated.across, &stated.down].into_iter().filter_map(|count| count.stated()) {
            if let Some(seams) = count.value.0.checked_sub(1).filter(|seams| *seams > 0) {
                let key = self.count(What::FromEach, &Spanned { value: Count(seams), at: count.at }, &top);
                key.for_size(size).derived("the seams between them").acts(&[Act::Sew]).nouns = Noun::Seam.bit();
            }
        }
    }

    fn sashing(&mut self, stated: &SizeLayout, size: Option<usize>, needs: &Needs<'m>) {
        let of = [Cue::Section(Section::Sashing)];
        if let Some(sashing) = stated.sashing.stated() {
            self.length(What::Length, sashing, &of)
                .for_size(size)
                .nouns(&[Noun::Sash, Noun::Strip])
                .only_acts(&[Act::Finished]);
            self.width_with_seams(sashing.value, sashing.at, size, &of, needs);
        }
    }

    fn width_with_seams(&mut self, width: Written, at: Span, size: Option<usize>, of: &[Cue], needs: &Needs<'m>) {
        if let Some(seam) = needs.layouts.seam {
            let cut = lengths(&width).into_iter().map(|width| width + seam * 2).collect();
            self.add(What::Length, KeyValue::Length(cut), of, at)
                .for_size(size)
                .nouns(&[Noun::Strip])
                .only_acts(&[Act::Cut, Act::Measured])
                .derived("the finished width with its seams");
        }
    }

    fn borders(&mut self, laid: &LayoutNeeds<'m>, needs: &Needs<'m>) {
        let size = Some(laid.index);
        for (index, border) in laid.stated.borders.iter().enumerate() {
            let mut of = border_cues(index, laid.stated.borders.len());
            of.extend(border.piece.value().into_iter().flat_map(|piece| self.cues_of(piece)));
            if let Some(width) = border.width.stated() {
                for each in [width.value.sides, width.value.top, width.value.bottom] {
                    let each = Spanned { value: each, at: width.at };
                    self.length(What::Length, &each, &of)
                        .for_size(size)
                        .nouns(&[Noun::Side])
                        .only_acts(&[Act::Finished]);
                    self.width_with_seams(each.value, each.at, size, &of, needs);
                }
            }
            self.border_strips(laid, index, needs);
        }
    }

    /// How long the strips of a border are cut, two of each length.
    fn border_strips(&mut self, laid: &LayoutNeeds<'m>, index: usize, needs: &Needs<'m>) {
        let border = &laid.stated.borders[index];
        let strips = needs.layouts.seam.and_then(|seam| laid.top.as_ref()?.border_strips(index, seam));
        let (Some(strips), Some(at)) = (strips, border.width.at()) else { return };
        let ends = if border.piece_across.is_absent() { &border.piece } else { &border.piece_across };
        let mut both = Vec::new();
        for (width, long, piece) in
            [(strips.width, strips.sides, &border.piece), (strips.ends_width(), strips.ends, ends)]
        {
            let mut of = border_cues(index, laid.stated.borders.len());
            of.extend(piece.value().into_iter().flat_map(|piece| self.cues_of(piece)));
            // What is no fraction is rounded where it is printed.
            let is_slanted = long.diagonal.is_positive();
            let slack = if is_slanted { printed_slack(self.manuscript.measure) } else { Length::ZERO };
            let long = long.above();
            let cut = KeyValue::Sides(vec![(width, long)]);
            for (what, value) in [(What::CutSize, cut), (What::Length, KeyValue::Length(vec![long]))] {
                self.add(what, value, &of, at)
                    .for_size(Some(laid.index))
                    .nouns(&[Noun::Strip, Noun::Side])
                    .slack(slack)
                    .derived("as long as the border is there");
            }
            let of_piece: Vec<Cue> = of.into_iter().filter(|cue| !both.contains(cue)).collect();
            both.extend(of_piece);
        }
        self.count(What::Pieces, &Spanned { value: Count(2), at }, &both)
            .for_size(Some(laid.index))
            .nouns(&[Noun::Strip])
            .derived("of each length");
    }

    /// How large the top measures, step by step.
    fn tops(&mut self, laid: &LayoutNeeds<'m>, needs: &Needs<'m>) {
        let size = Some(laid.index);
        let Some(seam) = needs.layouts.seam else { return };
        // What a row measures is told in the same breath.
        let rows = [Noun::Row, Noun::Column];
        for (borders, stated) in laid.stated.steps_measured() {
            let mut of = vec![Cue::Section(Section::Top)];
            if let Some(last) = borders.checked_sub(1) {
                of.extend(border_cues(last, laid.stated.borders.len()));
            }
            if let Some(stated) = stated.stated() {
                self.sides(What::Unfinished, stated, &of).for_size(size).nouns(&rows);
                let without = |(width, length): (Length, Length)| (width - seam * 2, length - seam * 2);
                let finished = both_sides(stated.value).into_iter().map(without).collect();
                self.add(What::Finished, KeyValue::Sides(finished), &of, stated.at)
                    .for_size(size)
                    .nouns(&rows)
                    .derived("without its seams");
                continue;
            }
            let Some(top) = laid.top.as_ref().filter(|top| borders <= top.borders.len()) else { continue };
            let (width, length) = top.inside(borders);
            let slack =
                if width.diagonal.is_positive() { printed_slack(self.manuscript.measure) } else { Length::ZERO };
            let printed = |side: Side| needs.layouts.printed(side);
            let finished = (printed(width), printed(length));
            let sewn = (finished.0 + seam * 2, finished.1 + seam * 2);
            for (what, sides) in [(What::Unfinished, sewn), (What::Finished, finished)] {
                let key = self.add(what, KeyValue::Sides(vec![sides]), &of, laid.stated.at);
                key.for_size(size).nouns(&rows).derived("what the layout makes").slack(slack).is_sure =
                    what == What::Unfinished;
            }
        }
    }
}

/// What a border is spoken of as.
fn border_cues(index: usize, of: usize) -> Vec<Cue> {
    let mut cues = vec![Cue::Section(Section::Border), Cue::Border(index)];
    cues.extend((index + 1 == of).then_some(Cue::Border(usize::MAX)));
    cues
}
