//! The numbers of the design: the layout of each size, and the chain from it to every piece.

use super::{Lines, Status};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Blocks, SizeLayout};
use crate::quantity::{Count, Round};
use crate::requirement::batting::show;
use crate::requirement::counts::{CountsNeeds, PieceNeeds};
use crate::requirement::layout_of_size::{LaidOut, LayoutsNeeds};
use crate::rules::words::{border_working, piece_working, places_working, size_working};
use crate::trade::rectangle::Rectangle;

const UNREAD: &str = "Something that it depends on could not be read.";

/// What the design says of other numbers.
pub(super) struct Design<'d, 'm> {
    pub(super) layouts: &'d LayoutsNeeds<'m>,
    pub(super) counts: &'d CountsNeeds<'m>,
}

impl<'m> Design<'_, 'm> {
    fn laid(&self, size: usize) -> Option<&LaidOut<'m>> {
        self.layouts.sizes.iter().find(|laid| laid.index == size)
    }

    /// How many of a piece a size uses, and the chain that says so.
    pub(super) fn piece(&self, size: usize, piece: PieceRef, name: &str) -> Option<(Count, String)> {
        let counts = self
            .counts
            .sizes
            .iter()
            .find(|counts| self.layouts.sizes.get(counts.index).is_some_and(|laid| laid.index == size))?;
        match counts.pieces.get(&piece) {
            Some(needs) => Some((PieceNeeds::count(needs), piece_working(self.layouts, counts, name, needs))),
            None => counts.whole.then(|| (Count(0), "Nothing in the layout uses it.".to_string())),
        }
    }

    /// How large the layout of a size makes it, and the working.
    pub(super) fn finished(&self, size: usize) -> Option<(String, String)> {
        let laid = self.laid(size)?;
        let top = laid.top.as_ref().filter(|_| laid.borders_whole)?;
        let (width, length) = top.finished();
        let made = Rectangle::new(self.layouts.printed(width), self.layouts.printed(length));
        Some((show(made, self.layouts.measure, Round::Up), size_working(self.layouts, top)))
    }
}

impl Lines<'_> {
    /// The layout of one size.
    pub(super) fn layout_of(&mut self, heading: &str, design: &Design<'_, '_>, size: usize) {
        let Some(laid) = design.laid(size) else { return };
        let stated = laid.stated;
        let working = places_working(laid).map(|working| format!("{working}."));
        for (number, field) in [("layout across", &stated.across), ("layout down", &stated.down)] {
            if let Some(at) = field.at() {
                let working = working.clone().unwrap_or_default();
                self.add(Some(heading), number, at, String::new(), Status::AsGiven, working);
            }
        }
        self.block_counts(heading, laid, working);
        if let Some(sashing) = stated.sashing.stated() {
            self.add(Some(heading), "layout sashing", sashing.at, String::new(), Status::AsGiven, sashes(laid));
        }
        self.borders(heading, design.layouts, laid, stated);
    }

    fn block_counts(&mut self, heading: &str, laid: &LaidOut<'_>, working: Option<String>) {
        let Some(blocks) = laid.stated.blocks.stated() else { return };
        if !matches!(blocks.value, Blocks::Each(_)) {
            return;
        }
        let (needed, status, working) = match (laid.places, laid.blocks_whole) {
            (Some(places), true) => (places.of("block"), Status::Ok, working.unwrap_or_default()),
            _ => (String::new(), Status::NotChecked, UNREAD.to_string()),
        };
        self.add(Some(heading), "layout blocks", blocks.at, needed, status, working);
    }

    fn borders(&mut self, heading: &str, layouts: &LayoutsNeeds<'_>, laid: &LaidOut<'_>, stated: &SizeLayout) {
        for (index, border) in stated.borders.iter().enumerate() {
            let number = format!("layout border {}", index + 1);
            let working = border_working(layouts, laid, index).unwrap_or_default();
            if let Some(width) = border.width.stated() {
                self.add(Some(heading), &number, width.at, String::new(), Status::AsGiven, working);
            }
            if let Some(ease) = border.ease.stated() {
                let working = "A mitred border is cut so much longer than the quilt with it.".to_string();
                self.add(Some(heading), &format!("{number} ease"), ease.at, String::new(), Status::AsGiven, working);
            }
        }
    }
}

/// How many sashes and cornerstones there are.
fn sashes(laid: &LaidOut<'_>) -> String {
    let Some(top) = &laid.top else { return UNREAD.to_string() };
    let (upright, level, squares) = (top.upright_sashes().count, top.level_sashes().count, top.cornerstones());
    format!("{upright} upright and {level} level, and {} where they cross.", squares.of("cornerstone"))
}
