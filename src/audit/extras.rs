//! The numbers of a hanging sleeve, of prairie points and of pillow backs.

use super::{Lines, Status, UNREAD, margin};
use crate::manuscript::Span;
use crate::manuscript::model::{Manuscript, PerSize, Size};
use crate::quantity::{Measure, Round};
use crate::requirement::batting::show;
use crate::requirement::extras::{ExtrasNeeds, PillowNeeds, PointsNeeds, SleeveNeeds};
use crate::rules::words::{overlap_working, points_working};

impl Lines<'_> {
    /// How they are made.
    pub(super) fn extras(&mut self, manuscript: &Manuscript) {
        if let Some(sleeve) = &manuscript.sleeve {
            self.given("sleeve depth", &sleeve.depth, "The strip of the sleeve is measured against it.");
            self.given("sleeve seam", &sleeve.seam, "It makes a tube of the sleeve.");
            self.given("sleeve hem", &sleeve.hem, "Each end of the sleeve loses it.");
        }
        if let Some(points) = &manuscript.prairie_points {
            self.given("prairie_points square", &points.square, "Each point is folded from it.");
            self.given("prairie_points seam", &points.seam, "A point loses it at each side.");
            self.given("prairie_points overlap", &points.overlap, "This much of a point lies in the next.");
        }
        if let Some(back) = &manuscript.pillow_back {
            self.given("pillow_back seam", &back.seam, "It sews the back to the front.");
            self.given("pillow_back hem", &back.hem, "Each piece of the back loses it at the opening.");
            self.given("pillow_back overlap", &back.overlap, "The pieces are measured against it.");
        }
    }

    /// What one size takes.
    pub(super) fn extras_of(&mut self, index: usize, size: &Size, needs: &ExtrasNeeds<'_>, manuscript: &Manuscript) {
        let is_here = |other: &Size| other.name == size.name;
        match needs.sleeves.iter().find(|sleeve| is_here(sleeve.size)) {
            Some(sleeve) => self.sleeve(needs.measure, sleeve),
            None => {
                let stated = manuscript.sleeve.as_ref().map(|sleeve| &sleeve.requires);
                self.unread(size, "sleeve", at(stated, index, |cut| cut.at));
            }
        }
        match needs.points.iter().find(|points| is_here(points.size)) {
            Some(points) => self.points(needs.measure, points),
            None => {
                let stated = manuscript.prairie_points.as_ref().map(|points| &points.requires);
                self.unread(size, "prairie points", at(stated, index, |count| count.at));
            }
        }
        match needs.pillows.iter().find(|pillow| is_here(pillow.size)) {
            Some(pillow) => self.pillow(needs.measure, pillow),
            None => {
                let stated = manuscript.pillow_back.as_ref().and_then(|back| back.requires.get(index)?.stated());
                self.unread(size, "pillow back first", stated.and_then(|pieces| pieces.first.at()));
                self.unread(size, "pillow back second", stated.and_then(|pieces| pieces.second.at()));
            }
        }
    }

    fn unread(&mut self, size: &Size, number: &str, at: Option<Span>) {
        if let Some(at) = at {
            self.add(Some(&size.name), number, at, String::new(), Status::NotChecked, UNREAD.to_string());
        }
    }

    fn sleeve(&mut self, measure: Measure, sleeve: &SleeveNeeds<'_>) {
        let up = |length: crate::quantity::Length| length.show(measure, Round::Up);
        let working = format!(
            "2 x {} + 2 seams x {} = {}; hemmed it is {} long, on a quilt {} wide.",
            up(sleeve.depth),
            up(sleeve.seam),
            up(sleeve.width),
            up(sleeve.long),
            up(sleeve.quilt)
        );
        let open =
            if sleeve.size.outline.is_absent() { "" } else { " How long it may be on this outline is not checked." };
        let working = format!("{working}{open}");
        let needed = format!("{} wide", up(sleeve.width));
        self.add(Some(&sleeve.size.name), "sleeve", sleeve.cut.at, needed, Status::Ok, working);
    }

    fn points(&mut self, measure: Measure, points: &PointsNeeds<'_>) {
        let name = Some(points.size.name.as_str());
        let Some((needed, working)) = points.needed().zip(points_working(measure, points)) else {
            let why = "A point adds nothing beyond the last: the square is too small, or the overlap too large.";
            let number = "prairie points";
            self.add(name, number, points.count.at, String::new(), Status::NotChecked, why.to_string());
            return;
        };
        self.add(name, "prairie points", points.count.at, needed.to_string(), Status::Ok, working);
        self.margin(margin::of_counts(points.count.value, needed));
    }

    fn pillow(&mut self, measure: Measure, pillow: &PillowNeeds<'_>) {
        let name = Some(pillow.size.name.as_str());
        let working = overlap_working(measure, pillow);
        let front = show(pillow.front, measure, Round::Up);
        for (number, piece) in [("first", &pillow.pieces.first), ("second", &pillow.pieces.second)] {
            let Some(at) = piece.at() else { continue };
            let needed = format!("both to cover {front}");
            self.add(name, &format!("pillow back {number}"), at, needed, Status::Ok, working.clone());
        }
    }
}

/// Where something is stated for a size.
fn at<T>(requires: Option<&Vec<PerSize<T>>>, index: usize, at: impl Fn(&T) -> Span) -> Option<Span> {
    Some(at(requires?.get(index)?.stated()?))
}
