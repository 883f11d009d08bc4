//! The numbers of the binding, the backing and the batting, of what is sewn on besides, and of what all goes by.

use super::{KeyValue, Keys, What, printed_slack};
use crate::manuscript::model::{BattingSize, PerSize, StatedOverhang as Overhang};
use crate::manuscript::{BySize, Field, Spanned};
use crate::quantity::Length;
use crate::requirement::Needs;
use crate::text::lexicon::{Act, Cue, Noun, Section};

/// What a tail, an opening and an overhang follow from, in words.
const LARGER: &str = "larger by an overhang at each side";

impl<'m> Keys<'m> {
    pub(super) fn covers(&mut self, needs: &Needs<'m>) {
        self.assumes();
        self.binding(needs);
        self.backing();
        self.batting();
        self.extras();
    }

    fn assumes(&mut self) {
        let assumes = &self.manuscript.assumes;
        if let Some(width) = assumes.usable_width.stated() {
            self.length(What::UsableWidth, width, &[]);
        }
        if let Some(step) = assumes.sold_by.stated() {
            self.length(What::Length, step, &[]).nouns(&[Noun::Multiple]).only_acts(&[]);
        }
        if let Some(seam) = assumes.seam.stated() {
            self.length(What::Seam, seam, &[]);
        }
        for notion in &self.manuscript.notions {
            for (size, count) in notion.count.stated() {
                self.count(What::Count, count, &[]).for_size(size).derived("a notion");
            }
        }
    }

    fn binding(&mut self, needs: &Needs<'m>) {
        let Some(binding) = &self.manuscript.binding else { return };
        let mut of = vec![Cue::Section(Section::Binding)];
        of.extend(binding.from.value().map(Cue::Fabric));
        for (size, width) in binding.strip_width.stated() {
            self.length(What::StripWidth, width, &of).for_size(size);
        }
        if let Some(flange) = binding.flange.stated() {
            self.length(What::StripWidth, flange, &[Cue::Section(Section::Flange)]);
        }
        if let Some(seam) = binding.seam.stated() {
            self.length(What::Seam, seam, &of);
        }
        if let Some(at) = binding.tails.at {
            for tail in [&binding.tails.start, &binding.tails.end].into_iter().filter_map(Field::value) {
                self.length(What::Length, &Spanned { value: tail, at }, &of).nouns(&[Noun::Tail]);
            }
        }
        for (stated, nouns) in [
            (&binding.opening, &[Noun::Opening][..]),
            (&binding.extra_length, &[]),
            (&binding.strip_length, &[Noun::Strip]),
            (&binding.usable_width, &[Noun::Width]),
        ] {
            if let Some(stated) = stated.stated() {
                self.length(What::Length, stated, &of).nouns(nouns);
            }
        }
        for (size, requires) in binding.requires.iter().enumerate() {
            let Some(requires) = requires.stated() else { continue };
            if let Some(strips) = requires.strips.stated() {
                self.count(What::Strips, strips, &of).for_size(Some(size)).acts(&[Act::Sew]);
            }
            if let Some(fabric) = requires.fabric.stated() {
                self.amount(fabric, &of).for_size(Some(size));
            }
            if let Some(flange) = requires.flange.stated() {
                self.amount(flange, &[Cue::Section(Section::Flange)]).for_size(Some(size));
            }
            if let Some(square) = requires.square.stated() {
                self.sides(What::Layer, square, &of).for_size(Some(size)).nouns(&[Noun::Square]);
            }
            for length in [&requires.length, &requires.strip_length].into_iter().filter_map(|length| length.stated()) {
                self.length(What::Length, length, &of).for_size(Some(size));
            }
        }
        for size in needs.binding.iter().flat_map(|binding| &binding.sizes) {
            let lengths = vec![size.lengths.perimeter, size.lengths.asked, size.lengths.bare];
            self.add(What::Length, KeyValue::Length(lengths), &of, binding.at)
                .for_size(Some(size.index))
                .derived("the length of the binding")
                .slack(Length::inches(1))
                .acts(&[Act::Around]);
        }
    }

    fn backing(&mut self) {
        let Some(backing) = &self.manuscript.backing else { return };
        let mut of = vec![Cue::Section(Section::Backing)];
        of.extend(backing.from.value().map(Cue::Fabric));
        if let Some(seam) = backing.seam.stated() {
            self.length(What::Seam, seam, &of);
        }
        if let Some(width) = backing.usable_width.stated() {
            self.length(What::UsableWidth, width, &of);
        }
        self.overhang(&backing.overhang, &of);
        for (size, requires) in backing.requires.iter().enumerate() {
            let PerSize::Stated(requires) = requires else { continue };
            if let Some(fabric) = requires.fabric.stated() {
                self.amount(fabric, &of).for_size(Some(size));
            }
            if let Some(sides) = requires.size.stated() {
                self.sides(What::Layer, sides, &of).for_size(Some(size));
            }
            if let Some(panels) = requires.panels.stated() {
                self.count(What::Panels, panels, &of).for_size(Some(size));
            }
        }
    }

    /// How far a layer reaches beyond the quilt at each side, and how much larger that makes it.
    fn overhang(&mut self, overhang: &BySize<Overhang>, of: &[Cue]) {
        for (size, stated) in overhang.stated() {
            for by in [stated.value.across.length, stated.value.down.length] {
                let by = vec![by];
                self.add(What::Length, KeyValue::Length(by.clone()), of, stated.at)
                    .for_size(size)
                    .acts(&[Act::Beyond])
                    .nouns(&[Noun::Side, Noun::Edge]);
                let twice = by.iter().map(|by| *by * 2).collect();
                self.add(What::Length, KeyValue::Length(twice), of, stated.at).for_size(size).derived(LARGER);
            }
            let finished: Vec<(usize, (Length, Length))> = self
                .manuscript
                .sizes
                .iter()
                .enumerate()
                .filter(|(index, _)| size.is_none_or(|size| size == *index))
                .filter_map(|(index, size)| {
                    size.finished.value().map(|(width, length)| (index, (width.length, length.length)))
                })
                .collect();
            for (index, (width, length)) in finished {
                let sides = (width + stated.value.across.length * 2, length + stated.value.down.length * 2);
                self.add(What::Layer, KeyValue::Sides(vec![sides]), of, stated.at)
                    .for_size(Some(index))
                    .derived(LARGER);
            }
        }
    }

    fn batting(&mut self) {
        let Some(batting) = &self.manuscript.batting else { return };
        let of = [Cue::Section(Section::Batting)];
        self.overhang(&batting.overhang, &of);
        for (size, stated) in batting.requires.iter().enumerate() {
            if let Some(Spanned { value: BattingSize::Measured(width, length), at }) = stated.stated() {
                let sides = Spanned { value: (*width, *length), at: *at };
                self.sides(What::Layer, &sides, &of).for_size(Some(size));
            }
        }
    }

    fn extras(&mut self) {
        if let Some(sleeve) = &self.manuscript.sleeve {
            let of = [Cue::Section(Section::Sleeve)];
            if let Some(depth) = sleeve.depth.stated() {
                self.length(What::Length, depth, &of);
            }
            for (size, stated) in sleeve.requires.iter().enumerate() {
                if let Some(stated) = stated.stated() {
                    self.sides(What::Layer, stated, &of).for_size(Some(size));
                }
            }
        }
        if let Some(points) = &self.manuscript.prairie_points {
            let of = [Cue::Section(Section::Points)];
            if let Some(square) = points.square.stated() {
                self.length(What::Length, square, &of).nouns(&[Noun::Square, Noun::Point]);
            }
            for (size, stated) in points.requires.iter().enumerate() {
                if let Some(stated) = stated.stated() {
                    self.count(What::Pieces, stated, &of).for_size(Some(size)).nouns(&[Noun::Square, Noun::Point]);
                }
            }
        }
        if let Some(pillow) = &self.manuscript.pillow_back {
            let of = [Cue::Section(Section::Pillow)];
            for (stated, noun) in [(&pillow.hem, Noun::Hem), (&pillow.overlap, Noun::Overlap)] {
                if let Some(stated) = stated.stated() {
                    self.length(What::Length, stated, &of).nouns(&[noun]);
                }
            }
            for (size, stated) in pillow.requires.iter().enumerate() {
                let Some(stated) = stated.stated() else { continue };
                for piece in [&stated.first, &stated.second].into_iter().filter_map(|piece| piece.stated()) {
                    self.sides(What::Layer, piece, &of).for_size(Some(size));
                }
            }
        }
        for (index, size) in self.manuscript.sizes.iter().enumerate() {
            let of = [Cue::Section(Section::Quilt), Cue::Section(Section::Top)];
            if let Some(finished) = size.finished.stated() {
                let slack = if size.about { printed_slack(self.manuscript.measure) } else { Length::ZERO };
                self.sides(What::Finished, finished, &of).for_size(Some(index)).slack(slack);
            }
        }
    }
}
