//! How long what is joined becomes: binding strips, the panels of a backing; and how large layers must be.

use super::{KeyValue, Keys, What};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Count, Length};
use crate::requirement::Needs;
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
        let of = [Cue::Section(Section::Backing)];
        let Some(backing) = &needs.backing else { return };
        for size in &backing.sizes {
            let panels = size.stated.panels.value().unwrap_or(size.panels.count);
            let mut each = vec![size.panels.each];
            if let Some(fabric) = size.stated.fabric.stated()
                && let Ok(panels) = i128::try_from(panels.0)
                && panels > 0
            {
                let share = |length: Length| Length::from_ticks(length.ticks() / panels);
                each.extend(fabric.value.halves().map(|half| share(half.length)));
            }
            let width = size.cloth.usable_width;
            let sides = each.iter().map(|each| (width, *each)).collect();
            self.add(What::Length, KeyValue::Length(each), &of, size.stated.at)
                .for_size(Some(size.index))
                .nouns(&[Noun::Panel, Noun::Piece])
                .slack(ROUNDED.half())
                .derived("the length of a panel");
            self.add(What::Layer, KeyValue::Sides(sides), &of, size.stated.at)
                .for_size(Some(size.index))
                .slack(ROUNDED.half())
                .derived("a panel");
            if size.stated.panels.is_absent() {
                self.panels_needed(size.panels.count, size.index, size.stated.at);
            }
        }
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
        for size in needs.backing.iter().flat_map(|backing| &backing.sizes) {
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
