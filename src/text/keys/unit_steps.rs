//! What units measure on the way: before they are trimmed, after each log, and how high shapes are.

use std::collections::BTreeSet;

use super::{KeyValue, Keys, What, printed_slack};
use crate::choices::{CutShape, Tips};
use crate::manuscript::design::Unit;
use crate::quantity::Length;
use crate::quilt_math::cutting::Shape;
use crate::quilt_math::log_cabin::{LogOrder, log_cabin};
use crate::quilt_math::rectangle::Rectangle;
use crate::quilt_math::shapes::StripShape;
use crate::quilt_math::units::Share;
use crate::requirement::Needs;
use crate::requirement::units::UnitNeeds;
use crate::text::lexicon::{Act, Cue, Noun};

const OF_UNITS: [Noun; 4] = [Noun::Unit, Noun::Square, Noun::Rectangle, Noun::Block];

impl<'m> Keys<'m> {
    pub(super) fn unit_steps(&mut self, needs: &Needs<'m>) {
        for (place, unit) in needs.units.units.iter().enumerate() {
            self.before_trimming(place, unit);
            if let Some((seam, _)) = unit.seam {
                self.after_each_log(place, unit.stated, seam);
            }
        }
        self.heights(needs);
    }

    /// How large a square unit is before it is trimmed, where its pieces are cut larger than they must be.
    fn before_trimming(&mut self, place: usize, unit: &UnitNeeds<'m>) {
        let step = printed_slack(self.manuscript.measure);
        let Some(made) = unit.unfinished().filter(|made| made.width == made.length) else { return };
        let mut seen = BTreeSet::new();
        for part in unit.parts.iter().filter(|part| part.part.share != Share::SeamMoves) {
            let Some(size) = part.size else { continue };
            let larger = size.width.length - part.part.width.cut.above;
            let before = (made.width + part.part.share.of(larger) + step.half()).down_to(step);
            if larger.is_positive() && before > made.width && seen.insert(before) {
                self.add(What::Unfinished, KeyValue::Sides(vec![(before, before)]), &[Cue::Unit(place)], size.at)
                    .nouns(&OF_UNITS)
                    .slack(step.half())
                    .derived("before it is trimmed");
            }
        }
    }

    /// How large a log cabin is after each of its logs, with its seams.
    fn after_each_log(&mut self, place: usize, unit: &'m Unit, seam: Length) {
        let (Some((width, length)), Some(logs)) = (unit.center.value(), unit.logs.stated()) else { return };
        let center = Rectangle::new(width.length, length.length);
        let Some(order) = unit.order.or(LogOrder::Round) else { return };
        let widths: Vec<Length> = logs.value.iter().map(|log| log.value.length).collect();
        for sewn in 1..widths.len() {
            let (_, made) = log_cabin(center, &widths[..sewn], order);
            let made = made.with_overhang(seam);
            self.add(What::Unfinished, KeyValue::Sides(vec![(made.width, made.length)]), &[Cue::Unit(place)], logs.at)
                .nouns(&OF_UNITS)
                .derived("after some of its logs");
        }
    }

    /// How high a shape with slanted sides finishes, and how wide its strips are, where that is not stated.
    fn heights(&mut self, needs: &Needs<'m>) {
        let slack = printed_slack(self.manuscript.measure).half();
        for (fabric, stated) in self.manuscript.fabrics.iter().enumerate() {
            for (cut, entry) in stated.cut.iter().enumerate().filter(|(_, entry)| entry.is_slanted()) {
                let of = self.uses(fabric, cut);
                for size in 0..self.manuscript.sizes.len() {
                    let shape = needs.fabrics.fabrics.get(fabric).and_then(|fabric| fabric.shape(cut, size));
                    let Some(Shape::Slanted(shape)) = shape else { continue };
                    let Some(strip) = shape.ways().next().map(|way| way.width()) else { continue };
                    let seams = if has_sharp_tip(&shape) { 3 } else { 2 };
                    for (what, length, how) in [
                        (What::Finished, shape.side, "its side"),
                        (What::Finished, strip - shape.seam * seams, "the height of the shape"),
                        (What::StripWidth, strip, "the height with its seams"),
                    ] {
                        let key = self.add(what, KeyValue::Length(vec![length]), &of, entry.at).for_size(Some(size));
                        key.nouns(&[Noun::Triangle, Noun::Side, Noun::Piece]).acts(&[Act::Cut]);
                        key.slack(slack).derived(how);
                    }
                }
            }
        }
    }
}

/// Whether its strips reach to the tip of a triangle, which takes a third seam.
fn has_sharp_tip(shape: &StripShape) -> bool {
    matches!(shape.shape, CutShape::Triangle60 | CutShape::HalfTriangle60) && shape.tips == Tips::Sharp
}
