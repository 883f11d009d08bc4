//! What the backing of each size needs.

use super::assumed::USABLE_WIDTH;
use super::batting::{BattingNeeds, finished, overhang};
use super::cloth::cloth;
use super::fabric::Shop;
use crate::manuscript::Span;
use crate::manuscript::model::{Backing, BackingRequires, BattingSize, Manuscript, PanelsRun, PerSize, Size, YesNo};
use crate::quantity::{Count, Length, Measure, Percent, Round, Yardage};
use crate::quilt_math::backing::{Cloth, Panels, panels, sewn};
use crate::quilt_math::cutting::{Cloth as FabricCloth, Cut, Shape};
use crate::quilt_math::rectangle::{Overhang, Rectangle};
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
    /// Whether the print has a way up: as stated here, or of the fabric that it is cut from.
    directional: Option<YesNo>,
    /// What each size needs, for the sizes of which enough was read.
    pub sizes: Vec<SizeBacking<'m>>,
}

/// What the backing of one size needs.
#[derive(Debug)]
pub struct SizeBacking<'m> {
    /// The size.
    pub size: &'m Size,
    /// Its place among the sizes.
    pub index: usize,
    /// What is stated for it.
    pub stated: &'m BackingRequires,
    /// The width and the length of the quilt.
    pub top: Rectangle,
    /// How far the backing reaches beyond it.
    pub overhang: Overhang,
    /// How large the backing must be by that.
    pub needed: Rectangle,
    /// How large it is made: as large as it must be, or as is stated where that is more.
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
        let usable_width = usable_width(stated, manuscript, settings);
        let seam = stated.seam.or_length(|| settings.length(BACKING_SEAM));
        let overhang = |index| overhang(stated.overhang.of(index), || settings.length(BACKING_OVERHANG));
        let insert = Length::ZERO;
        let cloth = usable_width.zip(seam).map(|(usable_width, seam)| Cloth { usable_width, seam, insert });
        let fabric = stated.from.value().and_then(|from| manuscript.fabrics.get(from));
        let own = if stated.directional.is_absent() { fabric.map(|fabric| &fabric.directional) } else { None };
        let directional = own.unwrap_or(&stated.directional).or(YesNo::No);
        let sizes = Vec::new();
        // What is cut from a listed fabric shrinks as that does.
        let shrinks = if !stated.from.is_absent() {
            Some(Percent::default())
        } else if stated.shrinks.is_absent() {
            manuscript.assumes.shrinks.or(Percent::default())
        } else {
            stated.shrinks.value()
        };
        let mut needs = BackingNeeds { stated, measure: manuscript.measure, shop, cloth, directional, sizes };
        if let Some(cloth) = cloth {
            let each = manuscript.sizes.iter().zip(stated.requires.iter().map(PerSize::stated)).enumerate();
            let with_insert = |index| {
                let insert = stated.insert.of(index).or_length(|| Length::ZERO)?;
                Some(Cloth { insert, ..cloth })
            };
            let of = |index: usize| {
                let batting = batting.and_then(|needs| needs.of_size(index));
                // A packaged size is trimmed to the backing: it may be larger.
                let cut = batting.filter(|batting| matches!(batting.stated.value, BattingSize::Measured(..)));
                cut.map(|batting| (batting.sheet, batting.stated.at))
            };
            let sizes = each.filter_map(|(index, (size, stated))| {
                let (overhang, cloth) = (overhang(index)?, with_insert(index)?);
                let made = Made { overhang, cloth, batting: of(index), shrinks: shrinks? };
                needs.size((index, size), stated?, made)
            });
            let mut known = Vec::with_capacity(manuscript.sizes.len());
            known.extend(sizes);
            needs.sizes = known;
        }
        Some(needs)
    }

    fn size(
        &self,
        (index, size): (usize, &'m Size),
        stated: &'m BackingRequires,
        Made { overhang, cloth, batting, shrinks }: Made,
    ) -> Option<SizeBacking<'m>> {
        let top = finished(size)?;
        if stated.panels.is_unread() || stated.panels_run.is_unread() || stated.size.is_unread() {
            return None;
        }
        let way = match stated.panels_run.value() {
            Some(way) => Some(way),
            None => (self.directional? == YesNo::Yes).then_some(PanelsRun::Along),
        };
        let needed = top.with(overhang);
        let told = stated.size.value().map(|(width, length)| Rectangle::new(width.length, length.length));
        let sheet = told.map_or(needed, |told| needed.and(told.lying_as(needed)));
        let count = stated.panels.value();
        let panels = arrange_panels(sheet, cloth, way, count)?.shrinking(shrinks);
        let least = arrange_panels(sheet, cloth, None, None)?.shrinking(shrinks);
        let larger = batting.filter(|(batting, _)| !sheet.holds(*batting));
        let print =
            larger.and_then(|(batting, _)| arrange_panels(sheet.and(batting.lying_as(sheet)), cloth, way, count));
        let print = print.map_or(panels, |print| print.shrinking(shrinks));
        Some(SizeBacking {
            size,
            index,
            stated,
            top,
            overhang,
            needed,
            sheet,
            cloth,
            way,
            panels,
            least,
            print,
            batting,
        })
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

/// The backing's own usable width, that of the fabric it is cut from, the pattern's, or the rule book's.
fn usable_width(stated: &Backing, manuscript: &Manuscript, settings: &Settings) -> Option<Length> {
    if !stated.usable_width.is_absent() {
        return stated.usable_width.length();
    }
    if stated.from.is_absent() {
        return manuscript.assumes.usable_width.or_length(|| settings.length(USABLE_WIDTH));
    }
    let fabric = manuscript.fabrics.get(stated.from.value()?)?;
    cloth(fabric, manuscript, settings).map(FabricCloth::strip_length)
}

/// How the backing of a size is made.
struct Made {
    overhang: Overhang,
    cloth: Cloth,
    /// The stated batting and where it stands, where it is cut to a stated size.
    batting: Option<(Rectangle, Span)>,
    /// How much shorter its fabric is after washing.
    shrinks: Percent,
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
    /// The stated size as it lies under the quilt.
    pub fn told(&self) -> Option<Rectangle> {
        let (width, length) = self.stated.size.value()?;
        Some(Rectangle::new(width.length, length.length).lying_as(self.needed))
    }

    /// What the panels take of a fabric: all but the last as wide as the fabric, and the last as wide as it must be.
    pub fn panel_cuts(&self) -> Vec<Cut> {
        let Panels { count, each, across, .. } = self.print;
        let whole = count.less(Count(1));
        let told = |shape, pieces| Cut { shape, strips: None, pieces: Some(pieces), joins: None, within: None };
        // What the other panels cover, and the seam that joins the last to them.
        let covered = if whole == Count(0) { Length::ZERO } else { self.sewn(whole) - self.cloth.seam * 2 };
        let rest = (across - covered - if whole == Count(0) { self.cloth.inserted() } else { Length::ZERO })
            .min(self.cloth.usable_width);
        let whole = if rest.is_positive() { whole } else { count };
        let full = Shape::WholeStrip { width: each };
        let full = Cut { shape: full, strips: Some(whole), pieces: None, joins: None, within: None };
        let last = told(Shape::Lengthwise { width: rest, length: each }, Count(1));
        let fulls = (whole > Count(0)).then_some(full);
        fulls.into_iter().chain((rest.is_positive()).then_some(last)).collect()
    }

    /// What the panels take of several fabrics, each panel as wide as the fabric.
    pub fn whole_panel_cuts(&self) -> Vec<Cut> {
        let shape = Shape::WholeStrip { width: self.print.each };
        vec![Cut { shape, strips: Some(self.print.count), pieces: None, joins: None, within: None }]
    }

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
        let other = ways(self.sheet, self.cloth, None).find(|panels| panels.run != self.panels.run);
        other.map(|panels| panels.shrinking(self.panels.shrinks))
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
        let fabric = fabric.map(|fabric| Yardage(self.panels.shrinks.left_of(fabric.0)));
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
        let Panels { run, count, shrinks, .. } = self.panels;
        let fabric = Yardage(shrinks.left_of(fabric.0));
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
