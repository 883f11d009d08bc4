//! How long what is joined becomes: binding strips, the panels of a backing; and how large layers must be.

use super::{KeyValue, Keys, What};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Count, Length};
use crate::requirement::Needs;
use crate::requirement::backing::SizeBacking;
use crate::text::lexicon::{Act, Cue, Noun, Section};

/// By how much the length of a panel or of a binding may be rounded where it is printed.
const ROUNDED: Length = Length::inches(1);

impl<'m> Keys<'m> {
    pub(super) fn joined(&mut self, needs: &Needs<'m>) {
        self.binding_strips(needs);
        self.panels(needs);
        self.layers(needs);
        self.seams(needs);
    }

    /// The seams of the backing and the binding where the rule book's hold.
    fn seams(&mut self, needs: &Needs<'m>) {
        let backing = needs.backing.as_ref().filter(|backing| backing.stated.seam.is_absent());
        let backing = backing.and_then(|backing| backing.cloth).map(|cloth| (Section::Backing, cloth.seam));
        let binding = needs.binding.as_ref().filter(|binding| binding.stated.seam.is_absent());
        let binding = binding.and_then(|binding| binding.seam).map(|seam| (Section::Binding, seam));
        let places =
            [self.manuscript.backing.as_ref().map(|of| of.at), self.manuscript.binding.as_ref().map(|of| of.at)];
        for ((section, seam), at) in [backing, binding].into_iter().zip(places).filter_map(|(of, at)| of.zip(at)) {
            self.add(What::Seam, KeyValue::Length(vec![seam]), &[Cue::Section(section)], at)
                .derived("where the manuscript says no other");
        }
    }

    /// What the strips of the binding come to, end to end and side by side.
    fn binding_strips(&mut self, needs: &Needs<'m>) {
        let of = [Cue::Section(Section::Binding)];
        let Some(binding) = &needs.binding else { return };
        for size in &binding.sizes {
            let Some(strips) = size.stated.strips.value().or(size.strips) else { continue };
            let at = size.stated.strips.at().unwrap_or(size.stated.at);
            let long = vec![size.joined(strips), size.strip_length * strips];
            self.add(What::Length, KeyValue::Length(long), &of, at)
                .for_size(Some(size.index))
                .derived("the strips end to end")
                .nouns(&[Noun::Strip])
                .slack(ROUNDED)
                .acts(&[Act::Around]);
            let wide = vec![size.method.strip_width * strips];
            self.add(What::Length, KeyValue::Length(wide), &of, at)
                .for_size(Some(size.index))
                .derived("the strips side by side")
                .nouns(&[Noun::Fabric]);
        }
    }

    /// How long each panel of the backing is cut, and how large.
    fn panels(&mut self, needs: &Needs<'m>) {
        let Some(backing) = &needs.backing else { return };
        for size in &backing.sizes {
            let panels = size.stated.panels.value().unwrap_or(size.panels.count);
            let share =
                |length: Length| (panels.0 > 0).then(|| Length::from_ticks(length.ticks() / i128::from(panels.0)));
            let fabric = size.stated.fabric.stated().map(|fabric| fabric.value.halves());
            let shares: Vec<Length> = fabric.into_iter().flatten().filter_map(|half| share(half.length)).collect();
            for (each, how) in
                [(shares, "the fabric over the panels"), (vec![size.panels.each], "as long as it must be")]
            {
                self.panel(each, size, how);
            }
            if size.stated.panels.is_absent() {
                self.panels_needed(size.panels.count, size.index, size.stated.at);
            }
        }
    }

    /// A panel: how long it is cut, and how large.
    fn panel(&mut self, each: Vec<Length>, size: &SizeBacking<'m>, how: &'static str) {
        let of = [Cue::Section(Section::Backing)];
        let width = size.cloth.usable_width;
        let sides: Vec<(Length, Length)> = each.iter().map(|each| (width, *each)).collect();
        if sides.is_empty() {
            return;
        }
        self.add(What::Length, KeyValue::Length(each), &of, size.stated.at)
            .for_size(Some(size.index))
            .nouns(&[Noun::Panel, Noun::Piece])
            .slack(ROUNDED.half())
            .derived(how);
        self.add(What::Layer, KeyValue::Sides(sides), &of, size.stated.at)
            .for_size(Some(size.index))
            .slack(ROUNDED.half())
            .derived("a panel");
    }

    fn panels_needed(&mut self, panels: Count, size: usize, at: Span) {
        self.count(What::Panels, &Spanned { value: panels, at }, &[Cue::Section(Section::Backing)])
            .for_size(Some(size))
            .derived("as many as the backing takes");
    }

    /// How large the backing, the batting, a sleeve and the back of a pillow must be, where that is not stated.
    fn layers(&mut self, needs: &Needs<'m>) {
        let mut layers: Vec<(Section, usize, (Length, Length), Span)> = Vec::new();
        let place = |name: &str| self.manuscript.sizes.iter().position(|size| size.name == name);
        let backings = needs.backing.iter().flat_map(|backing| {
            let has_none = |size: &&SizeBacking<'m>| backing.stated.overhang.of(size.index).is_absent();
            backing.sizes.iter().filter(has_none)
        });
        for size in backings {
            layers.push((Section::Backing, size.index, (size.needed.width, size.needed.length), size.stated.at));
        }
        for sleeve in &needs.extras.sleeves {
            if let Some(size) = place(&sleeve.size.name) {
                layers.push((Section::Sleeve, size, (sleeve.deep, sleeve.long), sleeve.cut.at));
            }
        }
        for pillow in &needs.extras.pillows {
            let at = pillow.pieces.first.at().or(pillow.pieces.second.at());
            if let Some((size, at)) = place(&pillow.size.name).zip(at) {
                layers.extend(pillow.cut.map(|piece| (Section::Pillow, size, (piece.width, piece.length), at)));
            }
        }
        for (section, size, sides, at) in layers {
            self.add(What::Layer, KeyValue::Sides(vec![sides]), &[Cue::Section(section)], at)
                .for_size(Some(size))
                .derived("as large as it must be");
        }
    }
}
