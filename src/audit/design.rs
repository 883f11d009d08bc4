//! The numbers of the design: the layout of each size, and the chain from it to every piece.

use super::{Lines, Status, UNREAD};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Blocks, Set, Size, SizeLayout};
use crate::quantity::{Count, Round};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::Needs;
use crate::requirement::batting::show;
use crate::requirement::counts::{CountsNeeds, PieceNeeds, SizeCounts, supply};
use crate::requirement::design_gaps::DesignGaps;
use crate::requirement::fabrics::FabricsNeeds;
use crate::requirement::layout::{LayoutNeeds, LayoutsNeeds};
use crate::requirement::made::MadeOf;
use crate::requirement::measured::MeasuredOf;
use crate::requirement::rows::RowsNeeds;
use crate::rules::sentence;
use crate::rules::words::{
    border_working, made_working, measured_needed, measured_working, piece_working, places_working, size_working,
};

/// What the design says of other numbers.
pub(super) struct Design<'d, 'm> {
    pub(super) fabrics: &'d FabricsNeeds<'m>,
    pub(super) layouts: &'d LayoutsNeeds<'m>,
    pub(super) counts: &'d CountsNeeds<'m>,
    pub(super) gaps: &'d DesignGaps<'m>,
}

/// What the design says of a number.
pub(super) enum FromDesign<T> {
    /// What is needed, and the chain that says so.
    Needed(T, String),
    /// So much is needed of several entries together, which state so many of it, and the chain that says so.
    Together(T, T, String),
    /// At least so much is needed: not all that uses it is known.
    AtLeast(T, String),
    /// Nothing, and why.
    NotChecked(String),
    /// The number is none of the design's.
    AsGiven,
}

impl<'m> Design<'_, 'm> {
    fn layout(&self, size: usize) -> Option<&LayoutNeeds<'m>> {
        self.layouts.sizes.iter().find(|laid| laid.index == size)
    }

    /// Why nothing is known of a size that has no layout to go by, where others have one.
    fn without_layout(&self, size: &Size) -> Option<String> {
        let like = self.gaps.like?;
        Some(if self.gaps.lacks_layout(&size.name) {
            format!("Not checked: {} has no layout, and {} has one.", size.name, like.name)
        } else {
            UNREAD.to_string()
        })
    }

    /// How many of a piece a size uses.
    pub(super) fn piece(&self, index: usize, size: &Size, piece: PieceRef, name: &str) -> FromDesign<Count> {
        let of =
            |counts: &&SizeCounts<'m>| self.layouts.sizes.get(counts.index).is_some_and(|laid| laid.index == index);
        let Some(counts) = self.counts.sizes.iter().find(of) else {
            let told_elsewhere =
                self.counts.sizes.iter().any(|counts| counts.whole || counts.pieces.contains_key(&piece));
            let why = self.without_layout(size).filter(|_| told_elsewhere);
            return why.map_or(FromDesign::AsGiven, FromDesign::NotChecked);
        };
        if let Some(shared) = counts.shared_with(self.fabrics, piece) {
            return self.shared(counts, index, shared, name);
        }
        match counts.pieces.get(&piece) {
            Some(needs) => {
                let (count, chain) = (PieceNeeds::count(needs), piece_working(self.layouts, counts, name, needs));
                if counts.whole { FromDesign::Needed(count, chain) } else { FromDesign::AtLeast(count, chain) }
            }
            None if counts.whole => FromDesign::Needed(Count(0), "Nothing in the layout uses it.".to_string()),
            None => FromDesign::NotChecked("Not checked: not all that the layout uses is known.".to_string()),
        }
    }

    /// How many of pieces of one name that several entries give are used.
    fn shared(&self, counts: &SizeCounts<'m>, index: usize, piece: PieceRef, name: &str) -> FromDesign<Count> {
        let needs = counts.needs_of(self.fabrics, piece);
        let chain = piece_working(self.layouts, counts, name, &needs);
        match supply(self.fabrics, piece, index) {
            Some(supply) if counts.whole => FromDesign::Together(needs.count(), supply.count, chain),
            Some(_) => FromDesign::AtLeast(needs.count(), chain),
            None => FromDesign::NotChecked(UNREAD.to_string()),
        }
    }

    /// How large the layout of a size makes it.
    pub(super) fn finished(&self, index: usize, size: &Size) -> FromDesign<String> {
        let Some(laid) = self.layout(index) else {
            return self.without_layout(size).map_or(FromDesign::AsGiven, FromDesign::NotChecked);
        };
        let Some(top) = laid.top.as_ref().filter(|_| laid.borders_whole) else {
            return FromDesign::NotChecked(why_unchecked(laid));
        };
        let (width, length) = self.layouts.finished(top);
        let made = Rectangle::new(self.layouts.printed(width), self.layouts.printed(length));
        FromDesign::Needed(show(made, self.layouts.measure, Round::Up), size_working(self.layouts, top))
    }
}

/// Why nothing is computed of a layout.
fn why_unchecked(laid: &LayoutNeeds<'_>) -> String {
    if laid.unchecked.is_none() && laid.rows.is_some() {
        return "Not checked: its rows do not fit together.".to_string();
    }
    laid.unchecked.map_or_else(|| UNREAD.to_string(), |why| format!("Not checked: {why}."))
}

impl Lines<'_> {
    /// How many units and blocks the text says to make, for one size.
    pub(super) fn made(&mut self, needs: &Needs<'_>, size: &Size) {
        for made in needs.made.iter().filter(|made| made.size.name == size.name) {
            let name = match made.what {
                MadeOf::Unit(unit, _) => &unit.name,
                MadeOf::Block(block, _) => &block.name,
            };
            let working = made_working(&needs.layouts, &needs.counts, made).map(|working| sentence(&working) + ".");
            let (needed, status, working) = match (made.needed, made.layout) {
                (Some(needed), _) => (needed.to_string(), Status::Ok, working.unwrap_or_default()),
                (None, Some(_)) => (String::new(), Status::NotChecked, UNREAD.to_string()),
                (None, None) => {
                    (String::new(), Status::NotChecked, "Not checked: no layout says how many are needed.".to_string())
                }
            };
            self.add(Some(&size.name), &format!("make {name}"), made.stated.at, needed, status, working);
        }
    }

    /// How large the text says that blocks measure with their seams; of one size, how large its top does.
    pub(super) fn measured(&mut self, needs: &Needs<'_>, size: Option<&Size>) {
        for measured in &needs.measured {
            let (of, number) = match measured.what {
                MeasuredOf::Block(block) => (None, format!("{} unfinished", block.name)),
                MeasuredOf::Top(of, _, 0) => (Some(of), "layout measures".to_string()),
                MeasuredOf::Top(of, _, borders) => (Some(of), format!("layout border {borders} measures")),
            };
            if of.map(|of| &of.name) != size.map(|size| &size.name) {
                continue;
            }
            let heading = size.map(|size| size.name.as_str());
            let known = measured_needed(&needs.layouts, measured).zip(measured_working(&needs.layouts, measured));
            let (needed, status, working) = match known {
                Some((needed, working)) => (show(needed, needs.layouts.measure, Round::Up), Status::Ok, working),
                None => {
                    let why = measured.unchecked.map_or(UNREAD.to_string(), |why| format!("Not checked: {why}."));
                    (String::new(), Status::NotChecked, why)
                }
            };
            self.add(heading, &number, measured.stated.at, needed, status, working);
        }
    }

    /// The layout of one size.
    pub(super) fn layout_of(&mut self, heading: &str, design: &Design<'_, '_>, size: usize) {
        let Some(laid) = design.layout(size) else { return };
        let stated = laid.stated;
        let working = places_working(laid).filter(|_| laid.unchecked.is_none()).map(|working| format!("{working}."));
        for (number, field) in [("layout across", &stated.across), ("layout down", &stated.down)] {
            if let Some(at) = field.at() {
                let working = working.clone().unwrap_or_default();
                self.add(Some(heading), number, at, String::new(), Status::AsGiven, working);
            }
        }
        for (number, field) in [("layout rows", &stated.rows), ("layout columns", &stated.columns)] {
            if let Some(at) = field.at() {
                let fits = |rows: &RowsNeeds<'_>| rows.size(design.layouts.size_slack).is_some();
                let is_checked = laid.unchecked.is_none() && laid.rows.as_ref().is_some_and(fits);
                let status = if is_checked { Status::Ok } else { Status::NotChecked };
                let working = working.clone().filter(|_| is_checked).unwrap_or_else(|| why_unchecked(laid));
                self.add(Some(heading), number, at, String::new(), status, working);
            }
        }
        if let Some(at) = stated.times.at() {
            let working = "The rows or columns are sewn this many times over.".to_string();
            self.add(Some(heading), "layout times", at, String::new(), Status::AsGiven, working);
        }
        self.block_counts(heading, laid, working);
        if let Some(sashing) = stated.sashing.stated() {
            self.add(Some(heading), "layout sashing", sashing.at, String::new(), Status::AsGiven, sashes(laid));
        }
        self.borders(heading, design.layouts, laid, stated);
    }

    fn block_counts(&mut self, heading: &str, laid: &LayoutNeeds<'_>, working: Option<String>) {
        let Some(blocks) = laid.stated.blocks.stated() else { return };
        if !matches!(blocks.value, Blocks::Each(_)) {
            return;
        }
        let places = laid.places.filter(|_| laid.unchecked.is_none());
        let (needed, status, working) = match (places, laid.blocks_whole) {
            (Some(places), true) => (places.of("block"), Status::Ok, working.unwrap_or_default()),
            _ => (String::new(), Status::NotChecked, why_unchecked(laid)),
        };
        self.add(Some(heading), "layout blocks", blocks.at, needed, status, working);
    }

    fn borders(&mut self, heading: &str, layouts: &LayoutsNeeds<'_>, laid: &LayoutNeeds<'_>, stated: &SizeLayout) {
        for (index, border) in stated.borders.iter().enumerate() {
            let number = format!("layout border {}", index + 1);
            let working = border_working(layouts, laid, index).unwrap_or_default();
            if let Some(width) = border.width.stated() {
                self.add(Some(heading), &number, width.at, String::new(), Status::AsGiven, working);
            }
            if let Some(ease) = border.ease.stated() {
                let is_mitered = border.corners.value() == Some(crate::manuscript::model::Corners::Mitred);
                let working = if is_mitered {
                    "A mitered border is cut this much longer than the quilt with it."
                } else {
                    "Not used: only a mitered border is cut longer by it, and this one is not mitered."
                };
                let working = working.to_string();
                self.add(Some(heading), &format!("{number} ease"), ease.at, String::new(), Status::AsGiven, working);
            }
        }
    }
}

/// How many sashes and cornerstones there are.
fn sashes(laid: &LayoutNeeds<'_>) -> String {
    let Some(top) = &laid.top else { return why_unchecked(laid) };
    if top.set == Set::OnPoint {
        let (sashes, squares) = (top.upright_sashes().count, top.cornerstones());
        return format!("{sashes} sashing strips, and {} where they cross.", squares.of("cornerstone"));
    }
    if let Some(rows) = &top.rows {
        let beside = top.short_sashes().iter().fold(Count(0), |sum, sashes| sum + sashes.count);
        let (long, word) = (rows.long_sashes.count, if rows.are_columns { "column" } else { "row" });
        return match top.cornerstones() {
            Count(0) => format!("{beside} sashing strips beside the blocks, and {long} as long as a {word}."),
            squares => format!("{beside} sashing strips, and {} where they cross.", squares.of("cornerstone")),
        };
    }
    let (upright, level, squares) = (top.upright_sashes().count, top.level_sashes().count, top.cornerstones());
    format!(
        "{upright} vertical and {level} horizontal sashing strips, and {} where they cross.",
        squares.of("cornerstone")
    )
}
