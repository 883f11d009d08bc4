//! The numbers of one requirement, size by size, so that they can be compared across the sizes.
//!
//! A section adds its numbers to [`AllSeries`] with one more function.
//!
//! Each requirement gives its numbers, stated and needed, and the rule knows nothing of bindings or backings. A number
//! with an error or a query of its own is left out, so that one slip is reported once.

use super::backing::BackingNeeds;
use super::batting::BattingNeeds;
use super::binding::BindingNeeds;
use super::fabric::Shop;
use super::fabrics::{FabricNeeds, FabricsNeeds};
use crate::manuscript::Span;
use crate::manuscript::model::{BattingSize, Size};
use crate::quantity::{Amount, Count, Measure, Round, Yardage};
use crate::quilt_math::rectangle::Rectangle;

/// One requirement, with its number for each size for which it is stated and known.
#[derive(Debug)]
pub struct Series<'m> {
    /// What it is, in the manuscript's words: `binding strips`.
    pub what: &'m str,
    /// How it is sold, where it is fabric.
    pub shop: Option<Shop>,
    /// The numbers, in the order of the sizes.
    pub numbers: Vec<SeriesNumber<'m>>,
}

/// What is stated for one size, and what is needed.
#[derive(Debug)]
pub struct SeriesNumber<'m> {
    /// The size.
    pub size: &'m Size,
    /// What is stated.
    pub stated: Quantity,
    /// What should be printed.
    pub needed: Quantity,
    /// Where it is stated.
    pub at: Span,
    /// The amount as it is stated, and what is cut from it, where it is fabric.
    pub bought: Option<Purchase<'m>>,
    /// Whether it is enough for the strips that are stated, and these are too few: that is said of the strips.
    pub is_for_too_few_strips: bool,
}

/// An amount of fabric with what is cut from it.
#[derive(Clone, Copy, Debug)]
pub struct Purchase<'m> {
    /// What is stated.
    pub stated: &'m Amount,
    /// What is cut from it.
    pub cut: Yardage,
}

impl<'m> SeriesNumber<'m> {
    /// A number that is no amount of fabric.
    const fn new(size: &'m Size, (stated, needed): (Quantity, Quantity), at: Span) -> SeriesNumber<'m> {
        SeriesNumber { size, stated, needed, at, bought: None, is_for_too_few_strips: false }
    }
}

impl<'m> Purchase<'m> {
    /// The number of it for a size: by its first half, as the other says the same.
    fn number(self, size: &'m Size, at: Span, shop: &Shop) -> SeriesNumber<'m> {
        let stated = Quantity::Fabric(self.stated.yardage());
        let needed = Quantity::Fabric(shop.to_buy(self.cut, self.stated.first.unit));
        SeriesNumber { bought: Some(self), ..SeriesNumber::new(size, (stated, needed), at) }
    }
}

/// Something that can be more or less than another of its kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A number of things.
    Count(Count),
    /// An amount of fabric.
    Fabric(Yardage),
    /// A sheet of batting, either way round.
    Sheet(Rectangle),
}

impl Quantity {
    /// Whether it is less than another of its kind: a sheet, if it is larger neither way and smaller in one.
    pub fn is_less_than(self, other: Quantity) -> bool {
        match (self, other) {
            (Quantity::Count(one), Quantity::Count(other)) => one < other,
            (Quantity::Fabric(one), Quantity::Fabric(other)) => one < other,
            (Quantity::Sheet(one), Quantity::Sheet(other)) => other.holds(one) && !one.holds(other),
            _ => false,
        }
    }

    /// Whether it is the same as another of its kind.
    pub fn is_same_as(self, other: Quantity) -> bool {
        match (self, other) {
            (Quantity::Sheet(one), Quantity::Sheet(other)) => one.sides() == other.sides(),
            _ => self == other,
        }
    }

    /// In a manuscript's measure.
    pub fn show(self, measure: Measure) -> String {
        match self {
            Quantity::Count(count) => count.to_string(),
            Quantity::Fabric(fabric) => fabric.show(measure, Round::Up),
            Quantity::Sheet(sheet) => super::batting::show(sheet, measure, Round::Up),
        }
    }
}

/// The numbers that are stated size by size.
#[derive(Debug, Default)]
pub struct AllSeries<'m> {
    /// Those of the binding, the backing and the batting.
    pub layers: Vec<Series<'m>>,
    /// Those of the fabrics.
    pub fabrics: Vec<Series<'m>>,
}

impl<'m> AllSeries<'m> {
    /// The series of all sections.
    pub fn new(
        binding: Option<&BindingNeeds<'m>>,
        backing: Option<&BackingNeeds<'m>>,
        batting: Option<&BattingNeeds<'m>>,
        fabrics: &FabricsNeeds<'m>,
    ) -> AllSeries<'m> {
        let mut layers = Vec::new();
        layers.extend(binding.into_iter().flat_map(of_binding));
        layers.extend(backing.into_iter().flat_map(of_backing));
        layers.extend(batting.map(of_batting));
        let fabrics = fabrics.fabrics.iter().map(|fabric| of_fabric(fabrics, fabric)).collect();
        AllSeries { layers, fabrics }
    }

    /// Each series.
    pub fn each(&self) -> impl Iterator<Item = &Series<'m>> {
        self.layers.iter().chain(&self.fabrics)
    }

    /// Whether every number is what should be printed.
    pub fn are_right(&self) -> bool {
        self.each().flat_map(|series| &series.numbers).all(|number| number.stated == number.needed)
    }
}

fn series<'m>(
    what: &'m str,
    shop: Option<Shop>,
    numbers: impl Iterator<Item = Option<SeriesNumber<'m>>>,
) -> Series<'m> {
    let mut known = Vec::with_capacity(numbers.size_hint().1.unwrap_or_default());
    known.extend(numbers.flatten());
    Series { what, shop, numbers: known }
}

fn of_binding<'m>(needs: &BindingNeeds<'m>) -> [Series<'m>; 2] {
    let strips = needs.sizes.iter().map(|size| {
        let (stated, print) = (size.stated.strips.stated()?, size.strips_to_print(needs)?);
        let (at, stated, needed) = (stated.at, Quantity::Count(stated.value), Quantity::Count(print));
        Some(SeriesNumber::new(size.size, (stated, needed), at))
    });
    let fabric = needs.sizes.iter().map(|size| {
        let (stated, print) = (size.stated.fabric.stated()?, size.print?);
        let bought = Purchase { stated: &stated.value, cut: print.fabric };
        let number = bought.number(size.size, stated.at, &needs.shop);
        let least = stated.value.least();
        let is_for_too_few_strips =
            size.stated.strips.stated().is_some() && size.cut?.fabric <= least && least < print.fabric;
        Some(SeriesNumber { is_for_too_few_strips, ..number })
    });
    [series("binding strips", None, strips), series("binding fabric", Some(needs.shop), fabric)]
}

fn of_backing<'m>(needs: &BackingNeeds<'m>) -> [Series<'m>; 2] {
    let fabric = needs.sizes.iter().map(|size| {
        let stated = size.stated.fabric.stated()?;
        let bought = Purchase { stated: &stated.value, cut: size.print.fabric };
        Some(bought.number(size.size, stated.at, &needs.shop))
    });
    let panels = needs.sizes.iter().map(|size| {
        let (stated, needed) = (size.stated.panels.stated()?, Quantity::Count(size.fewest()));
        let at = stated.at;
        let stated = Quantity::Count(stated.value);
        Some(SeriesNumber::new(size.size, (stated, needed), at))
    });
    [series("backing fabric", Some(needs.shop), fabric), series("backing panels", None, panels)]
}

fn of_fabric<'m>(needs: &FabricsNeeds<'m>, fabric: &FabricNeeds<'m>) -> Series<'m> {
    // An amount of each is no part of a series with amounts of all, or of another number of fabrics.
    let alike =
        |size: &super::fabrics::FabricSize<'_>| size.sharing == fabric.sizes.first().and_then(|first| first.sharing);
    let is_series =
        fabric.sizes.iter().all(|size| alike(size) || size.sharing.is_some_and(super::shares::Sharing::is_of_all));
    let numbers = fabric.sizes.iter().map(|size| {
        if !is_series {
            return None;
        }
        if let Some(bolt) = size.from_bolt() {
            let bought = Purchase { stated: &bolt.stated.value, cut: bolt.to_print };
            let number = bought.number(size.size, bolt.stated.at, &needs.shop);
            return Some(SeriesNumber { is_for_too_few_strips: bolt.is_for_too_few_strips(), ..number });
        }
        let small = size.small()?;
        let (stated, needed) = (Quantity::Count(small.stated.value), Quantity::Count(small.sold(small.to_print)));
        let is_for_too_few_strips = small.taken <= small.stated.value && small.stated.value < small.to_print;
        let number = SeriesNumber::new(size.size, (stated, needed), small.stated.at);
        Some(SeriesNumber { is_for_too_few_strips, ..number })
    });
    series(&fabric.stated.name, Some(needs.shop), numbers)
}

fn of_batting<'m>(needs: &BattingNeeds<'m>) -> Series<'m> {
    let numbers = needs.sizes.iter().map(|size| {
        let sheet = size.needed?;
        // Packages come in few sizes: the smallest that holds what is needed is the right one to print.
        let needed = match size.stated.value {
            BattingSize::Measured(..) => sheet,
            BattingSize::Packaged(_) | BattingSize::OfHouse(_) => needs.package_for(sheet)?.1,
        };
        let (stated, needed) = (Quantity::Sheet(size.sheet), Quantity::Sheet(needed));
        let at = size.stated.at;
        Some(SeriesNumber::new(size.size, (stated, needed), at))
    });
    series("batting", None, numbers)
}
