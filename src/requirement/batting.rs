//! What the batting of each size needs.

use crate::manuscript::model::{Batting, BattingSize, Manuscript, Packaged, PerSize, Size};
use crate::manuscript::{Keyword, Spanned};
use crate::quantity::{Length, Measure, Round, Scale};
use crate::quilt_math::rectangle::Rectangle;
use crate::rule_book::{DimensionsValue, LengthValue, Settings};

/// How far the batting reaches beyond the top where the pattern states it neither for the batting nor the backing.
pub const BATTING_OVERHANG: LengthValue = LengthValue::named("batting_overhang");

const PACKAGED: [(Packaged, DimensionsValue); 5] = [
    (Packaged::Crib, DimensionsValue::named("packaged_crib")),
    (Packaged::Twin, DimensionsValue::named("packaged_twin")),
    (Packaged::Full, DimensionsValue::named("packaged_full")),
    (Packaged::Queen, DimensionsValue::named("packaged_queen")),
    (Packaged::King, DimensionsValue::named("packaged_king")),
];

/// The batting of a manuscript.
#[derive(Debug)]
pub struct BattingNeeds<'m> {
    /// What is stated.
    pub stated: &'m Batting,
    /// The measure to print in.
    pub measure: Measure,
    /// How far it reaches beyond the top at each side.
    pub overhang: Option<Length>,
    /// The packaged sizes, the smallest first; none where no size states one.
    pub packages: Vec<(Packaged, Rectangle)>,
    /// What each size needs, for the sizes of which enough was read.
    pub sizes: Vec<SizeBatting<'m>>,
}

/// What the batting of one size needs.
#[derive(Debug)]
pub struct SizeBatting<'m> {
    /// The size.
    pub size: &'m Size,
    /// What is stated for it.
    pub stated: &'m Spanned<BattingSize>,
    /// What is stated, as a width and a length.
    pub sheet: Rectangle,
    /// The width and the length of the quilt.
    pub top: Rectangle,
    /// What is needed; `None` where the overhang could not be read.
    pub needed: Option<Rectangle>,
}

impl<'m> BattingNeeds<'m> {
    /// What a manuscript's batting needs; `None` where it states no batting.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> Option<BattingNeeds<'m>> {
        let stated = manuscript.batting.as_ref()?;
        let backing = manuscript.backing.as_ref().map(|backing| &backing.overhang);
        // Batting is cut as large as the backing, so the backing's overhang serves where no other is stated.
        let overhang = match backing.filter(|backing| stated.overhang.is_absent() && !backing.is_absent()) {
            Some(backing) => backing.length(),
            None => stated.overhang.or_length(|| settings.length(BATTING_OVERHANG)),
        };
        let by_name = |stated: &Spanned<BattingSize>| matches!(stated.value, BattingSize::Packaged(_));
        // Asked for only where they count: a sign-off holds every value that was asked for.
        let known: &[_] = if stated.requires.iter().filter_map(PerSize::stated).any(by_name) { &PACKAGED } else { &[] };
        let mut packages: Vec<_> = known.iter().map(|(name, value)| (*name, settings.dimensions(*value))).collect();
        packages.sort_by_key(|(_, sheet)| sheet.sides());
        let mut needs = BattingNeeds { stated, measure: manuscript.measure, overhang, packages, sizes: Vec::new() };
        let each = manuscript.sizes.iter().zip(stated.requires.iter().map(PerSize::stated));
        needs.sizes = each.filter_map(|(size, stated)| needs.size(size, stated?)).collect();
        Some(needs)
    }

    fn size(&self, size: &'m Size, stated: &'m Spanned<BattingSize>) -> Option<SizeBatting<'m>> {
        let top = finished(size)?;
        let sheet = self.sheet(stated.value)?;
        Some(SizeBatting { size, stated, sheet, top, needed: self.overhang.map(|by| top.with_overhang(by)) })
    }

    fn sheet(&self, size: BattingSize) -> Option<Rectangle> {
        match size {
            BattingSize::Measured(width, length) => Some(Rectangle::new(width.length, length.length)),
            BattingSize::Packaged(name) => {
                self.packages.iter().find(|(known, _)| *known == name).map(|(_, sheet)| *sheet)
            }
        }
    }

    /// The smallest packaged size that holds a sheet.
    pub fn package_for(&self, sheet: Rectangle) -> Option<(Packaged, Rectangle)> {
        self.packages.iter().copied().find(|(_, package)| package.holds(sheet))
    }

    /// The sheet as it is stated: `44 x 56 in`, `a packaged twin, 72 x 90 in`.
    pub fn stated_words(&self, size: &SizeBatting<'_>) -> String {
        let sheet = show(size.sheet, self.measure, Round::Down);
        match size.stated.value {
            BattingSize::Measured(..) => sheet,
            BattingSize::Packaged(name) => format!("a {}, {sheet},", name.word()),
        }
    }
}

/// The width and the length of a size.
pub fn finished(size: &Size) -> Option<Rectangle> {
    size.finished.value().map(|(width, length)| Rectangle::new(width.length, length.length))
}

/// A width and a length in a manuscript's measure: `44 x 56 in`.
pub fn show(sheet: Rectangle, measure: Measure, round: Round) -> String {
    show_in(Scale::of(measure, &[sheet.width, sheet.length]), sheet, round)
}

/// The same beside other lengths of a working.
pub fn show_in(scale: Scale, sheet: Rectangle, round: Round) -> String {
    format!("{} x {}", scale.number(sheet.width, round), scale.show(sheet.length, round))
}

/// How large a layer must be: `36 x 48 in and 4 in more at each side = 44 x 56 in`.
pub fn sheet_sum(top: Rectangle, overhang: Length, sheet: Rectangle, measure: Measure) -> String {
    let scale = Scale::of(measure, &[top.width, top.length, overhang, sheet.width, sheet.length]);
    let show = |sheet| show_in(scale, sheet, Round::Up);
    format!("{} and {} more at each side = {}", show(top), scale.up(overhang), show(sheet))
}
