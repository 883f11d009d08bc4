//! The numbers of the units and the blocks, which are the same for all sizes.

use super::{Lines, Status, margin};
use crate::manuscript::Manuscript;
use crate::quantity::{Count, Length, Round, Written};
use crate::requirement::batting::show;
use crate::requirement::blocks::{BlockNeeds, BlocksNeeds, RowNeeds};
use crate::requirement::design_gaps::DesignGaps;
use crate::requirement::units::{UnitNeeds, UnitsNeeds};
use crate::rule_book::Settings;
use crate::rules::words::{judge_units, log_cabin_working, strip_sums, unfinished_words};

const UNREAD: &str = super::UNREAD_OR_NOT_STATED;

impl Lines<'_> {
    /// What each unit states.
    pub(super) fn units(&mut self, needs: &UnitsNeeds<'_>, manuscript: &Manuscript, settings: &Settings) {
        let cuts = judge_units(needs, manuscript, settings);
        let sums = strip_sums(needs, settings);
        for unit in &needs.units {
            let name = &unit.stated.name;
            self.finished(needs, unit);
            self.shape(unit);
            self.given(&format!("{name} seam"), &unit.stated.seam, "It is pieced with this seam.");
            for cut in cuts.iter().filter(|cut| cut.unit.stated.at == unit.stated.at) {
                let number = cut.piece.as_ref().map_or(cut.what.clone(), |piece| format!("{} ({piece})", cut.what));
                self.add(None, &number, cut.at, cut.needed(), Status::Ok, cut.working());
                // Of the two sides, the one that is the nearer to being short.
                let tightest = cut.sides.iter().min_by_key(|side| side.stated.length - side.needed());
                if let Some(side) = tightest {
                    // What is within the tolerance is enough.
                    let stated =
                        if side.is_short() { side.stated.length } else { side.stated.length.max(side.needed()) };
                    self.margin(margin::of_lengths(stated, side.needed(), needs.measure));
                }
            }
            for sum in sums.iter().filter(|sum| sum.unit.stated.at == unit.stated.at) {
                let number = format!("{name} strips");
                self.add(None, &number, sum.at, needs.up(sum.finished), Status::Ok, sum.working());
                let comes_to = if sum.is_short() { sum.comes_to } else { sum.comes_to.max(sum.finished) };
                self.margin(margin::of_lengths(comes_to, sum.finished, needs.measure));
            }
            self.unchecked_parts(unit);
            self.trim(needs, unit);
            self.yields(unit);
        }
    }

    /// The finished size of a unit: of a log cabin, what its logs make.
    fn finished(&mut self, needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>) {
        let number = format!("{} finished", unit.stated.name);
        let Some((made, working)) = unit.logs_make.zip(log_cabin_working(needs.measure, unit)) else {
            let is_other = unit.stated.make.value().is_some_and(|make| make.row().is_other());
            let working = if is_other {
                "How its pieces are cut for this size is not checked: it is another make than those that are known."
            } else {
                "Its pieces are cut for this size."
            };
            return self.given(&number, &unit.stated.finished, working);
        };
        if let Some(stated) = unit.stated.finished.stated() {
            let needed = show(made, needs.measure, Round::Up);
            self.add(None, &number, stated.at, needed, Status::Ok, working);
        }
    }

    /// What else a unit says of its shape, and what it takes.
    fn shape(&mut self, unit: &UnitNeeds<'_>) {
        let (stated, name) = (unit.stated, &unit.stated.name);
        for (what, list) in [("corner", &stated.corner), ("logs", &stated.logs)] {
            for length in list.stated().iter().flat_map(|list| &list.value) {
                let working = "Its pieces are cut for this.".to_string();
                self.add(None, &format!("{name} {what}"), length.at, String::new(), Status::AsGiven, working);
            }
        }
        self.given(&format!("{name} corners"), &stated.corners, "This many of its corners are flipped.");
        self.given(&format!("{name} center"), &stated.center, "Its logs go around this.");
        for taken in &stated.takes {
            let working = "Each unit takes this many; how they are cut is not checked.";
            self.given(&format!("{name} takes {}", taken.name), &taken.count, working);
        }
    }

    /// The parts whose cut size nothing is known of.
    fn unchecked_parts(&mut self, unit: &UnitNeeds<'_>) {
        let name = &unit.stated.name;
        let parts =
            unit.parts.iter().filter(|part| part.size.is_none() && part.strip.is_none()).map(|part| part.stated);
        let strips = unit.strips.iter().filter(|strip| strip.width.is_none()).map(|strip| strip.stated);
        for part in parts.chain(strips) {
            if let Some(at) = part.from.at() {
                let number = format!("{} of unit {name}", part.part);
                self.add(None, &number, at, String::new(), Status::NotChecked, UNREAD.to_string());
            }
        }
    }

    fn trim(&mut self, needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>) {
        let Some(trim) = unit.stated.trim.stated() else { return };
        let number = format!("{} trim", unit.stated.name);
        match unfinished_words(needs, unit) {
            Some(needed) => {
                let working = "The finished size and a seam at each side.".to_string();
                self.add(None, &number, trim.at, needed, Status::Ok, working);
            }
            None => self.add(None, &number, trim.at, String::new(), Status::NotChecked, UNREAD.to_string()),
        }
    }

    fn yields(&mut self, unit: &UnitNeeds<'_>) {
        let Some(yields) = unit.stated.yields.stated() else { return };
        let number = format!("{} yields", unit.stated.name);
        match unit.gives {
            Some(Count(gives)) => {
                let working = "What one set of its pieces gives.".to_string();
                self.add(None, &number, yields.at, gives.to_string(), Status::Ok, working);
            }
            None => self.add(None, &number, yields.at, String::new(), Status::NotChecked, UNREAD.to_string()),
        }
    }

    /// The units and blocks that nothing uses.
    pub(super) fn unused(&mut self, gaps: &DesignGaps<'_>) {
        for unit in &gaps.units {
            let why = "Not checked: how many are needed, for it is in no block and sets none.";
            self.add(None, "unit", unit.at, String::new(), Status::NotChecked, why.to_string());
        }
        for block in &gaps.blocks {
            let why = "Not checked: how many are needed, for no layout has it.";
            self.add(None, "block", block.at, String::new(), Status::NotChecked, why.to_string());
        }
    }

    /// What each block states.
    pub(super) fn blocks(&mut self, needs: &BlocksNeeds<'_>, tolerance: Length) {
        for block in needs.blocks.iter().filter(|block| block.stated.like.is_absent()) {
            let Some(finished) = block.stated.finished.stated() else { continue };
            let number = format!("{} finished", block.stated.name);
            match comes_to(block) {
                Some(_) if !fits_together(block, finished.value, tolerance) => {
                    let why = "Not checked: its rows do not make this size, and which of the two is meant is open.";
                    self.add(None, &number, finished.at, String::new(), Status::NotChecked, why.to_string());
                }
                Some((width, height)) => {
                    let needed = format!("{} x {}", needs.up(width), needs.up(height));
                    let working = "The units of its rows, side by side and one below the other.".to_string();
                    self.add(None, &number, finished.at, needed, Status::Ok, working);
                }
                None => {
                    self.add(None, &number, finished.at, String::new(), Status::NotChecked, UNREAD.to_string());
                }
            }
        }
    }
}

/// Whether each row of a block is as wide as it finishes, and all rows as high.
fn fits_together(block: &BlockNeeds<'_>, (width, height): (Written, Written), tolerance: Length) -> bool {
    let near = |made: Length, stated: Written| (made - stated.length).abs() <= tolerance;
    let down: Option<Length> = block.rows.iter().map(RowNeeds::height).sum();
    block.rows.iter().all(|row| row.width().is_none_or(|made| near(made, width)))
        && down.is_none_or(|down| near(down, height))
}

/// What the first row comes to across, and all rows down.
fn comes_to(block: &BlockNeeds<'_>) -> Option<(Length, Length)> {
    let height: Option<Length> = block.rows.iter().map(RowNeeds::height).sum();
    let width = block.rows.first()?.width()?;
    block.stated.whole.then_some((width, height?))
}
