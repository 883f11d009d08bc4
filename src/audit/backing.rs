//! The numbers of the layers and of the sizes themselves: backing, batting, and the bed that a size is for.

use super::design::FromDesign;
use super::{Lines, Status, UNREAD, amount_needed, margin};
use crate::manuscript::model::{Manuscript, PerSize, Size};
use crate::quantity::{Measure, Round};
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::batting::{BattingNeeds, sheet_sum, show};
use crate::requirement::bed::bed;
use crate::rule_book::Settings;
use crate::rules::words::{fabric_working, needed_working, seams_working, sheet_working};

impl Lines<'_> {
    /// How the backing and the batting are made.
    pub(super) fn layers(&mut self, manuscript: &Manuscript) {
        if let Some(backing) = &manuscript.backing {
            let overhang = "The backing reaches this far beyond the top at each side.";
            self.given_for_each(manuscript, "backing overhang", &backing.overhang, overhang);
            self.given("backing shrinks", &backing.shrinks, "Its fabric is this much shorter after washing.");
            let insert = "It is sewn in between the panels; its own fabric is checked where a cutting list has it.";
            self.given_for_each(manuscript, "backing insert", &backing.insert, insert);
            self.given("backing seam", &backing.seam, "Two panels lose two of these.");
            self.given("backing usable_width", &backing.usable_width, "Panels are as wide as this.");
        }
        if let Some(batting) = &manuscript.batting {
            let overhang = "The batting reaches this far beyond the top at each side.";
            self.given_for_each(manuscript, "batting overhang", &batting.overhang, overhang);
            self.given("batting shrinks", &batting.shrinks, "It is this much smaller after washing.");
        }
    }

    /// The size itself, and the bed that it is for.
    pub(super) fn size(&mut self, size: &Size, made: FromDesign<String>, settings: &Settings) {
        let Some(finished) = size.finished.stated() else { return };
        let measure = if finished.value.0.unit.is_metric() { Measure::Cm } else { Measure::Inch };
        let name = Some(size.name.as_str());
        let (needed, status, working) = match bed(size, settings) {
            Some(bed) => {
                let needed = show(bed.needed, measure, Round::Up);
                (needed, Status::Ok, "It covers the bed that it is for.".to_string())
            }
            None => (String::new(), Status::AsGiven, "Everything else goes by it.".to_string()),
        };
        let (needed, status, working) = match made {
            FromDesign::Needed(made, chain)
            | FromDesign::Together(made, _, chain)
            | FromDesign::AtLeast(made, chain) => (made, Status::Ok, chain),
            FromDesign::NotChecked(why) => (String::new(), Status::NotChecked, why),
            FromDesign::AsGiven => (needed, status, working),
        };
        self.add(name, "finished", finished.at, needed, status, working);
        if let Some(tuck) = size.tuck.stated() {
            let why = "What is tucked under the pillows.".to_string();
            self.add(name, "tuck", tuck.at, String::new(), Status::AsGiven, why);
        }
        if let Some(drop) = size.drop.stated() {
            let why = "The drop at both sides and at the foot.".to_string();
            self.add(name, "drop", drop.at, String::new(), Status::AsGiven, why);
        }
    }

    /// The backing of one size.
    pub(super) fn backing_of(&mut self, index: usize, size: &Size, needs: Option<&BackingNeeds<'_>>) {
        let Some(needs) = needs else { return };
        let Some(stated) = needs.stated.requires.get(index).and_then(PerSize::stated) else { return };
        match needs.sizes.iter().find(|known| known.size.name == size.name) {
            Some(known) => self.backing(needs, known),
            None => {
                let numbers = [
                    ("backing size", stated.size.at()),
                    ("backing fabric", stated.fabric.at()),
                    ("backing panels", stated.panels.at()),
                ];
                for (number, at) in numbers {
                    if let Some(at) = at {
                        self.add(Some(&size.name), number, at, String::new(), Status::NotChecked, UNREAD.into());
                    }
                }
            }
        }
    }

    fn backing(&mut self, needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) {
        let name = Some(size.size.name.as_str());
        if let Some(told) = size.stated.size.stated() {
            let working = needed_working(needs, size);
            self.add(name, "backing size", told.at, show(size.needed, needs.measure, Round::Up), Status::Ok, working);
        }
        if let Some(fabric) = size.stated.fabric.stated() {
            let enough = margin::is_enough(&needs.shop, &fabric.value, size.print.fabric);
            let panels = if enough { &size.print } else { &size.panels };
            let needed = amount_needed(&needs.shop, &fabric.value, panels.fabric);
            let working = format!("{} {}.", sheet_working(needs, size), fabric_working(needs, panels));
            self.add(name, "backing fabric", fabric.at, needed, Status::Ok, working);
            self.margin(margin::of_purchase(&needs.shop, &fabric.value, panels.fabric));
        }
        if let Some(panels) = size.stated.panels.stated() {
            let working = format!("{} {}", sheet_working(needs, size), seams_working(needs, size, &size.panels));
            self.add(name, "backing panels", panels.at, size.fewest().to_string(), Status::Ok, working);
            self.margin(margin::of_counts(panels.value, size.fewest()));
        }
    }

    /// The batting of one size.
    pub(super) fn batting_of(&mut self, index: usize, size: &Size, needs: Option<&BattingNeeds<'_>>) {
        let Some(needs) = needs else { return };
        let Some(stated) = needs.stated.requires.get(index).and_then(PerSize::stated) else { return };
        let known = needs.sizes.iter().find(|known| known.size.name == size.name);
        let name = Some(size.name.as_str());
        match known.and_then(|known| Some((known.top, known.needed?, known.overhang?))) {
            Some((top, needed, overhang)) => {
                let washed = needs.before_washing_words(needed);
                let working = format!("Batting: {}{washed}.", sheet_sum(top, overhang, needed, needs.measure));
                let needed = needs.before_washing(needed);
                let needed = show(needed, needs.measure, Round::Up);
                self.add(name, "batting", stated.at, needed, Status::Ok, working);
            }
            None => self.add(name, "batting", stated.at, String::new(), Status::NotChecked, UNREAD.into()),
        }
    }
}
