//! A number of the manuscript in words: what it is, of what and for which size.

use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Noun, Section};
use crate::manuscript::Source;
use crate::quantity::{Round, Yardage};

impl Keys<'_> {
    /// What a number is: `strips of A, foam`.
    pub(crate) fn name(&self, key: &Key) -> String {
        let what = match key.what {
            What::Amount => "fabric",
            What::Bought => "number to buy",
            What::Strips => "strips",
            What::Pieces => "pieces",
            What::CutSize => "cut size",
            What::StripWidth => "strip width",
            What::Finished => "finished size",
            What::Unfinished => "size with seams",
            What::Layer => "size",
            What::Makes => "number made",
            What::Panels => "panels",
            What::Laid if matches!(key.value, KeyValue::Grid(..)) => "blocks",
            What::Laid => "number across or down",
            What::FromEach => "number from each",
            What::LeftOver => "number left over",
            What::Seam => "seam",
            What::UsableWidth => "usable width",
            What::Length => word_of_length(key),
            What::Count => "number",
        };
        let of = self.thing(key);
        let name = if of.is_empty() { what.to_string() } else { format!("{what} of {of}") };
        match key.derived {
            Some(how) => format!("{name} ({how})"),
            None => name,
        }
    }

    /// What it is of: `A, foam`.
    pub(crate) fn thing(&self, key: &Key) -> String {
        let manuscript = self.manuscript;
        let fabric = |place: &usize| manuscript.fabrics.get(*place).map_or("", |fabric| fabric.name.as_str());
        let piece = |cue: &Cue| {
            let Cue::Piece(place, cut) = cue else { return None };
            let cut = manuscript.fabrics.get(*place)?.cut.get(*cut)?;
            let name = cut.piece.stated().map(|piece| piece.value.clone())?;
            Some(format!("{name}, {}", fabric(place)))
        };
        let pieces: Vec<String> = key.of.iter().filter_map(piece).collect();
        if !pieces.is_empty() {
            return pieces.join(" and ");
        }
        let named = key.of.iter().find_map(|cue| {
            Some(match cue {
                Cue::Section(Section::Quilt) => "the quilt".to_string(),
                Cue::Section(Section::Top) => "the quilt top".to_string(),
                Cue::Section(Section::Border) => match key.of.iter().find(|cue| matches!(cue, Cue::Border(_))) {
                    Some(Cue::Border(border)) if *border < 100 => format!("border {}", border + 1),
                    _ => "the border".to_string(),
                },
                Cue::Section(section) => format!("the {}", section.word()),
                Cue::Unit(place) => format!("unit {}", manuscript.units.get(*place)?.name),
                Cue::Block(place) => format!("block {}", manuscript.blocks.get(*place)?.name),
                _ => return None,
            })
        });
        let fabric = key
            .of
            .iter()
            .find_map(|cue| if let Cue::Fabric(place) = cue { Some(fabric(place).to_string()) } else { None });
        named.or(fabric).unwrap_or_default()
    }

    /// What the manuscript says, as its writer put it, or as it follows.
    pub(crate) fn value(&self, key: &Key, source: &Source) -> String {
        let measure = self.manuscript.measure;
        let stated = key.at.text(&source.text);
        // Both tails stand in one value.
        if key.is_stated() && !stated.starts_with('{') && !stated.contains('\n') {
            return stated.to_string();
        }
        match &key.value {
            KeyValue::Count(count) => count.to_string(),
            KeyValue::Grid(across, down) => format!("{across} x {down}"),
            KeyValue::Length(lengths) => {
                lengths.first().map_or(String::new(), |length| length.show(measure, Round::Up))
            }
            KeyValue::Sides(sides) => sides.first().map_or(String::new(), |(width, length)| {
                format!("{} x {}", width.show(measure, Round::Up), length.show(measure, Round::Up))
            }),
            KeyValue::Amount(amounts) => {
                amounts.first().map_or(String::new(), |amount| Yardage(*amount).show(measure, Round::Up))
            }
        }
    }

    /// The name of the size that it is for.
    pub(crate) fn size(&self, key: &Key) -> Option<&str> {
        key.size.and_then(|size| self.manuscript.sizes.get(size)).map(|size| size.name.as_str())
    }
}

/// What a length is called: a tail, an opening, an overhang.
fn word_of_length(key: &Key) -> &'static str {
    let words = [
        (Noun::Tail, "tail"),
        (Noun::Opening, "opening"),
        (Noun::Hem, "hem"),
        (Noun::Overlap, "overlap"),
        (Noun::Multiple, "step of amounts"),
    ];
    let named = words.into_iter().find(|(noun, _)| key.nouns & noun.bit() != 0).map(|(_, word)| word);
    named.unwrap_or(match key.acts {
        acts if acts & Act::Beyond.bit() != 0 && key.is_stated() => "overhang",
        acts if acts == Act::Finished.bit() => "finished width",
        _ => "length",
    })
}
