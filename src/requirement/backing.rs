//! What the backing of each size needs.

use super::assumed::USABLE_WIDTH;
use super::batting::{BattingNeeds, finished};
use super::fabric::Shop;
use crate::manuscript::Span;
use crate::manuscript::model::{Backing, BackingRequires, BattingSize, Manuscript, PanelsRun, PerSize, Size, YesNo};
use crate::quantity::{Count, Length, Measure, Round, Yardage};
use crate::quilt_math::backing::{Cloth, Panels, panels, sewn};
use crate::quilt_math::rectangle::Rectangle;
use crate::rule_book::{LengthValue, Settings};

/// How far the backing reaches beyond the top at each side where the pattern does not state it.
pub const BACKING_OVERHANG: LengthValue = LengthValue::named("backing_overhang");
/// The seam that joins panels where the pattern does not state it.
pub const BACKING_SEAM: LengthValue = LengthValue::named("backing_seam");

const WAYS: [PanelsRun; 2] = [PanelsRun::Along, PanelsRun::Across];

/// The backing of a manuscript: how it is made, and what each size needs.
#[derive(Debug)]
pub struct BackingNeeds<'m> {
    /// What is stated.
    pub stated: &'m Backing,
    /// The measure to print in.
    pub measure: Measure,
    /// How fabric is sold. The overhang is the allowance: nothing more is lost in squaring up.
    pub shop: Shop,
    /// The fabric and the seam, where both were read.
    pub cloth: Option<Cloth>,
    /// What each size needs, for the sizes of which enough was read.
    pub sizes: Vec<SizeBacking<'m>>,
}

/// What the backing of one size needs.
#[derive(Debug)]
pub struct SizeBacking<'m> {
    /// The size.
    pub size: &'m Size,
    /// What is stated for it.
    pub stated: &'m BackingRequires,
    /// The width and the length of the quilt.
    pub top: Rectangle,
    /// How far the backing reaches beyond it at each side.
    pub overhang: Length,
    /// How large the backing must be.
    pub sheet: Rectangle,
    /// The fabric and the seam.
    pub cloth: Cloth,
    /// The way that panels must run, where it is stated or the print fixes it.
    pub way: Option<PanelsRun>,
    /// The panels to go by: those stated, and what is not stated so that the least fabric is needed.
    pub panels: Panels,
    /// The panels that need the least fabric of all, whatever is stated.
    pub least: Panels,
    /// The panels to print: for a batting that is larger than the backing needs to be, these carry the batting too.
    pub print: Panels,
    /// The stated batting and where it stands, where it is cut to a stated size.
    pub batting: Option<(Rectangle, Span)>,
}

impl<'m> BackingNeeds<'m> {
    /// What a manuscript's backing needs; `None` where it states no backing.
    pub fn new(
        manuscript: &'m Manuscript,
        settings: &Settings,
        batting: Option<&BattingNeeds<'m>>,
    ) -> Option<BackingNeeds<'m>> {
        let stated = manuscript.backing.as_ref()?;
        let shop = Shop::new(manuscript, settings).without_squaring();
        let usable_width = if stated.usable_width.is_absent() {
            manuscript.assumes.usable_width.or_length(|| settings.length(USABLE_WIDTH))
        } else {
            stated.usable_width.length()
        };
        let seam = stated.seam.or_length(|| settings.length(BACKING_SEAM));
        let overhang = stated.overhang.or_length(|| settings.length(BACKING_OVERHANG));
        let cloth = usable_width.zip(seam).map(|(usable_width, seam)| Cloth { usable_width, seam });
        let mut needs = BackingNeeds { stated, measure: manuscript.measure, shop, cloth, sizes: Vec::new() };
        if let Some((cloth, overhang)) = cloth.zip(overhang) {
            let each = manuscript.sizes.iter().zip(stated.requires.iter().map(PerSize::stated));
            let of = |size: &'m Size| {
                let batting = batting.and_then(|needs| needs.sizes.iter().find(|known| known.size.name == size.name));
                // A packaged size is trimmed to the backing: it may be larger.
                let cut = batting.filter(|batting| matches!(batting.stated.value, BattingSize::Measured(..)));
                cut.map(|batting| (batting.sheet, batting.stated.at))
            };
            needs.sizes =
                each.filter_map(|(size, stated)| needs.size(size, stated?, overhang, cloth, of(size))).collect();
        }
        Some(needs)
    }

    fn size(
        &self,
        size: &'m Size,
        stated: &'m BackingRequires,
        overhang: Length,
        cloth: Cloth,
        batting: Option<(Rectangle, Span)>,
    ) -> Option<SizeBacking<'m>> {
        let top = finished(size)?;
        if stated.panels.is_unread() || stated.panels_run.is_unread() {
            return None;
        }
        let way = match stated.panels_run.value() {
            Some(way) => Some(way),
            None => (self.stated.directional.or(YesNo::No)? == YesNo::Yes).then_some(PanelsRun::Along),
        };
        let sheet = top.with_overhang(overhang);
        let count = stated.panels.value();
        let panels = arrange_panels(sheet, cloth, way, count)?;
        let least = arrange_panels(sheet, cloth, None, None)?;
        let larger = batting.filter(|(batting, _)| !sheet.holds(*batting));
        let print =
            larger.and_then(|(batting, _)| arrange_panels(sheet.and(batting.lying_as(sheet)), cloth, way, count));
        let print = print.unwrap_or(panels);
        Some(SizeBacking { size, stated, top, overhang, sheet, cloth, way, panels, least, print, batting })
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }

    /// A length as the manuscript prints it, rounded down.
    pub fn down(&self, length: Length) -> String {
        length.show(self.measure, Round::Down)
    }
}

/// The ways in which panels cover a backing, each with its fewest panels.
fn ways(sheet: Rectangle, cloth: Cloth, way: Option<PanelsRun>) -> impl Iterator<Item = Panels> {
    let open = WAYS.into_iter().filter(move |run| way.is_none_or(|way| way == *run));
    open.filter_map(move |run| panels(run, sheet, cloth))
}

/// The panels of the way that needs the least fabric, of those in which the stated number of panels covers the
/// backing, or of all where it covers in none.
fn arrange_panels(sheet: Rectangle, cloth: Cloth, way: Option<PanelsRun>, count: Option<Count>) -> Option<Panels> {
    let covering = ways(sheet, cloth, way).filter(|fewest| count.is_none_or(|count| count >= fewest.count));
    let covering = covering.map(|fewest| fewest.with_count(count.unwrap_or(fewest.count)));
    let least = covering.min_by_key(|panels| panels.fabric);
    least.or_else(|| ways(sheet, cloth, way).min_by_key(|panels| panels.fabric))
}

/// How long each panel is that runs one way across a backing.
const fn length_of_panels(run: PanelsRun, sheet: Rectangle) -> Length {
    match run {
        PanelsRun::Along => sheet.length,
        PanelsRun::Across => sheet.width,
    }
}

impl SizeBacking<'_> {
    /// The fewest panels that cover the backing, the way that the panels run.
    pub fn fewest(&self) -> Count {
        panels(self.panels.run, self.sheet, self.cloth).map_or(self.panels.count, |fewest| fewest.count)
    }

    /// The stated panels, where they do not cover the backing in any way that is open to them.
    pub fn too_few(&self) -> Option<Count> {
        self.stated.panels.value().filter(|stated| *stated < self.fewest())
    }

    /// How wide so many panels are when sewn together.
    pub fn sewn(&self, count: Count) -> Length {
        sewn(count, self.cloth)
    }

    /// The panels when they run the other way than those to go by.
    pub fn other_way(&self) -> Option<Panels> {
        ways(self.sheet, self.cloth, None).find(|panels| panels.run != self.panels.run)
    }

    /// Whether the panels to go by are what is stated, or what the print asks for, and so no choice is left.
    pub fn is_fixed(&self) -> bool {
        self.way.is_some() || self.stated.panels.stated().is_some()
    }

    /// Whether the backing that is stated covers a batting that lies as the quilt does: the stated fabric, sewn in the
    /// stated panels the stated way. Where no fabric is stated, each panel is as long as a stated overhang asks for, or
    /// without one as long as it must be. On a square quilt the batting may lie either way.
    pub fn covers(&self, batting: Rectangle, fabric: Option<Yardage>, overhang_is_stated: bool) -> bool {
        let count = self.stated.panels.value();
        let lying = batting.lying_as(self.sheet);
        let other = (self.top.width == self.top.length).then(|| lying.turned());
        std::iter::once(lying).chain(other).any(|batting| {
            let fits = |fewest: Panels| {
                let laid = fewest.with_count(count.unwrap_or(fewest.count));
                let is_long_enough = match fabric {
                    Some(fabric) => laid.fabric <= fabric,
                    None => !overhang_is_stated || laid.each <= length_of_panels(laid.run, self.sheet),
                };
                laid.count >= fewest.count && is_long_enough
            };
            ways(batting, self.cloth, self.way).any(fits)
        })
    }

    /// How large an amount of the fabric makes the backing in the panels to go by, as it lies under the quilt; `None`
    /// for less than a panel.
    pub fn made_of(&self, fabric: Yardage) -> Option<Rectangle> {
        let Panels { run, count, .. } = self.panels;
        let each = Length::from_ticks(fabric.0.ticks() / i128::from(count.0.max(1)));
        let across = self.sewn(count);
        let made = match run {
            PanelsRun::Along => Rectangle::new(across, each),
            PanelsRun::Across => Rectangle::new(each, across),
        };
        each.is_positive().then_some(made)
    }

    /// The batting that the panels to print carry beyond what the overhang asks for.
    pub fn larger_batting(&self) -> Option<Rectangle> {
        let (batting, _) = self.batting?;
        (self.print != self.panels).then_some(batting)
    }
}
