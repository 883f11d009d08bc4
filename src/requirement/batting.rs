//! What the batting of each size needs.

use crate::manuscript::model::{Batting, BattingSize, Manuscript, Packaged, PerSize, Size, StatedOverhang};
use crate::manuscript::{Field, Keyword, Spanned};
use crate::quantity::{Length, Measure, Percent, Round, Scale};
use crate::quilt_math::rectangle::{Overhang, Rectangle};
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
    /// The packaged sizes by their names, the smallest first; none where no size states one.
    pub packages: Vec<(String, Rectangle)>,
    /// What each size needs, for the sizes of which enough was read.
    pub sizes: Vec<SizeBatting<'m>>,
}

/// What the batting of one size needs.
#[derive(Debug)]
pub struct SizeBatting<'m> {
    /// The size.
    pub size: &'m Size,
    /// Its place among the sizes.
    pub index: usize,
    /// What is stated for it.
    pub stated: &'m Spanned<BattingSize>,
    /// What is stated, as a width and a length, after washing where it is washed first.
    pub sheet: Rectangle,
    /// The width and the length of the quilt.
    pub top: Rectangle,
    /// How far it reaches beyond the top; `None` where that could not be read.
    pub overhang: Option<Overhang>,
    /// What is needed; `None` where the overhang could not be read.
    pub needed: Option<Rectangle>,
}

impl<'m> BattingNeeds<'m> {
    /// What a manuscript's batting needs; `None` where it states no batting.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> Option<BattingNeeds<'m>> {
        let stated = manuscript.batting.as_ref()?;
        let backing = manuscript.backing.as_ref().map(|backing| &backing.overhang);
        // Batting is cut as large as the backing, so the backing's overhang serves where no other is stated.
        let backing = backing.filter(|backing| stated.overhang.is_absent() && !backing.is_absent());
        let sides = backing.unwrap_or(&stated.overhang);
        let overhang = |index: usize| overhang(sides.of(index), || settings.length(BATTING_OVERHANG));
        let by_name = |stated: &Spanned<BattingSize>| !matches!(stated.value, BattingSize::Measured(..));
        // Asked for only where they count: a sign-off holds every value that was asked for.
        let known: &[_] = if stated.requires.iter().filter_map(PerSize::stated).any(by_name) { &PACKAGED } else { &[] };
        let of_book = known.iter().map(|(name, value)| (name.word().to_string(), settings.dimensions(*value)));
        let mut packages: Vec<_> = of_book.collect();
        if !packages.is_empty() {
            packages.extend(settings.packages_of_house().map(|(name, sheet)| (package_words(name), sheet)));
        }
        packages.sort_by_key(|(_, sheet)| sheet.sides());
        let mut needs = BattingNeeds { stated, measure: manuscript.measure, packages, sizes: Vec::new() };
        let each = manuscript.sizes.iter().zip(stated.requires.iter().map(PerSize::stated)).enumerate();
        let of = |(index, (size, stated)): (usize, (&'m Size, Option<_>))| {
            needs.size((index, size), overhang(index), stated?)
        };
        let mut known = Vec::with_capacity(each.len());
        known.extend(each.filter_map(of));
        needs.sizes = known;
        Some(needs)
    }

    /// What one size needs, by its place among the sizes.
    pub fn of_size(&self, index: usize) -> Option<&SizeBatting<'m>> {
        let at = self.sizes.binary_search_by_key(&index, |size| size.index).ok()?;
        self.sizes.get(at)
    }

    fn size(
        &self,
        (index, size): (usize, &'m Size),
        overhang: Option<Overhang>,
        stated: &'m Spanned<BattingSize>,
    ) -> Option<SizeBatting<'m>> {
        let top = finished(size)?;
        let sheet = self.sheet(&stated.value)?;
        let shrinks = self.stated.shrinks.or(Percent::default())?;
        let sheet = Rectangle::new(shrinks.left_of(sheet.width), shrinks.left_of(sheet.length));
        Some(SizeBatting { size, index, stated, sheet, top, overhang, needed: overhang.map(|by| top.with(by)) })
    }

    fn sheet(&self, size: &BattingSize) -> Option<Rectangle> {
        match size {
            BattingSize::Measured(width, length) => Some(Rectangle::new(width.length, length.length)),
            BattingSize::Packaged(name) => self.package(name.word()),
            BattingSize::OfHouse(name) => self.package(&package_words(name)),
        }
    }

    /// A packaged size by its name.
    pub fn package(&self, words: &str) -> Option<Rectangle> {
        self.packages.iter().find(|(known, _)| known == words).map(|(_, sheet)| *sheet)
    }

    /// The smallest packaged size that holds a sheet.
    pub fn package_for(&self, sheet: Rectangle) -> Option<(&str, Rectangle)> {
        let sheet = self.before_washing(sheet);
        self.packages.iter().map(|(name, package)| (name.as_str(), *package)).find(|(_, package)| package.holds(sheet))
    }

    /// A sheet of batting before it is washed, rounded up as it is printed.
    pub fn before_washing(&self, sheet: Rectangle) -> Rectangle {
        let Some(shrinks) = self.stated.shrinks.value().filter(|shrinks| !shrinks.is_nothing()) else { return sheet };
        let before = |side: Length| shrinks.before(side).as_shown(self.measure, Round::Up);
        Rectangle::new(before(sheet.width), before(sheet.length))
    }

    /// How much a sheet is before washing, where it shrinks, to a thousandth of an inch: `; before washing, / (1 - 3 %),
    /// 45.361 x 57.732 in`.
    pub fn before_washing_words(&self, sheet: Rectangle) -> String {
        match self.stated.shrinks.value().filter(|shrinks| !shrinks.is_nothing()) {
            Some(shrinks) => {
                let before = Rectangle::new(shrinks.before(sheet.width), shrinks.before(sheet.length));
                let before = show_in(Scale::fine(self.measure), before, Round::Up);
                format!("; before washing, / (1 - {shrinks}), {before}")
            }
            None => String::new(),
        }
    }

    /// What is stated before washing, as it is bought.
    pub fn bought(&self, size: &SizeBatting<'_>) -> Rectangle {
        self.sheet(&size.stated.value).unwrap_or(size.sheet)
    }

    /// The sheet as it is stated: `44 x 56 in`, `a packaged twin, 72 x 90 in`.
    pub fn stated_words(&self, size: &SizeBatting<'_>) -> String {
        let sheet = show(self.bought(size), self.measure, Round::Down);
        match &size.stated.value {
            BattingSize::Measured(..) => sheet,
            BattingSize::Packaged(name) => format!("a {}, {sheet},", name.word()),
            BattingSize::OfHouse(name) => format!("a {}, {sheet},", package_words(name)),
        }
    }
}

/// A packaged size of a house in words: `packaged throw`.
pub fn package_words(name: &str) -> String {
    format!("packaged {name}")
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

/// How large a layer must be: `36 x 48 in and 4 in more at each side = 44 x 56 in`, or where its overhang differs,
/// `width 54 in + 2 x 2 in = 58 in; length 72 in + 2 x 3 in = 78 in`.
pub fn sheet_sum(top: Rectangle, overhang: Overhang, sheet: Rectangle, measure: Measure) -> String {
    let Overhang { across, down } = overhang;
    let scale = Scale::of(measure, &[top.width, top.length, across, down, sheet.width, sheet.length]);
    let show = |sheet| show_in(scale, sheet, Round::Up);
    let up = |length| scale.up(length);
    if across != down {
        let wide = format!("width {} + 2 x {} = {}", up(top.width), up(across), up(sheet.width));
        return format!("{wide}; length {} + 2 x {} = {}", up(top.length), up(down), up(sheet.length));
    }
    format!("{} and {} more at each side = {}", show(top), up(across), show(sheet))
}

/// How much larger a layer must be than the quilt: `8 in larger both ways`, `4 in wider and 6 in longer`.
pub fn larger_words(overhang: Overhang, measure: Measure) -> String {
    let up = |length: Length| (length * 2).show(measure, Round::Up);
    let Overhang { across, down } = overhang;
    if across == down {
        format!("{} larger both ways", up(across))
    } else {
        format!("{} wider and {} longer", up(across), up(down))
    }
}

/// How far a layer reaches beyond a quilt at each side: `4 in at each side`.
pub fn overhang_words(overhang: Overhang, measure: Measure) -> String {
    let up = |length: Length| length.show(measure, Round::Up);
    let Overhang { across, down } = overhang;
    if across == down {
        format!("{} at each side", up(across))
    } else {
        format!("{} at each side and {} at top and bottom", up(across), up(down))
    }
}

/// A stated overhang, or the default where it is left out; `None` where it could not be read.
pub fn overhang(stated: &Field<StatedOverhang>, default: impl FnOnce() -> Length) -> Option<Overhang> {
    if stated.is_absent() {
        return Some(Overhang::even(default()));
    }
    let StatedOverhang { across, down } = stated.value()?;
    Some(Overhang { across: across.length, down: down.length })
}
