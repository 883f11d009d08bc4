//! The pieces of one fabric as whole numbers of their common measure.

use crate::quantity::{Count, Length, common_divisor};

/// Pieces that are cut alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Item {
    /// How long each is across the fabric.
    pub across: Length,
    /// How long each is along the bolt.
    pub along: Length,
    /// How many.
    pub count: Count,
    /// Whether it may be turned.
    pub turns: bool,
}

/// Fabric that is there anyway, such as the ends of strips that the text tells to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Remnant {
    /// How long each is across the fabric.
    pub across: Length,
    /// How long each is along the bolt.
    pub along: Length,
    /// How many.
    pub count: Count,
}

/// A piece one way round, in units of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Way {
    pub(super) across: i64,
    pub(super) along: i64,
}

/// Pieces of one kind with the ways round in which they fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Kind {
    pub(super) ways: Vec<Way>,
    pub(super) count: i64,
}

/// A remnant in units of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Offcut {
    pub(super) across: i64,
    pub(super) along: i64,
    pub(super) count: i64,
}

/// A list of pieces in units that divide each of their sides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct List {
    /// The unit.
    pub(super) unit: Length,
    /// The usable width of fabric, rounded down to whole units: pieces side by side never need the rest.
    pub(super) width: i64,
    /// The kinds, in the order of the items that are cut at all.
    pub(super) kinds: Vec<Kind>,
    /// Which item each kind is.
    pub(super) items: Vec<usize>,
    /// Fabric that is there anyway.
    pub(super) offcuts: Vec<Offcut>,
    /// Which remnant each offcut is.
    pub(super) remnants: Vec<usize>,
}

/// The most units that the usable width may have, for tables of every width to be made.
const MAX_WIDTH_UNITS: i64 = 12_000;

/// The most units that a piece may be long.
const MAX_ALONG_UNITS: i64 = 1 << 16;

/// The most kinds that are planned together: with the limits above, sums of prices stay within whole numbers of 64 bits.
const MAX_KINDS: usize = 60;

impl List {
    /// The list in its own units; `None` where a piece fits no way round, or the units are too fine for tables.
    pub(super) fn new(items: &[Item], width: Length, remnants: &[Remnant]) -> Option<List> {
        let cut = |item: &&Item| item.count.0 > 0;
        let unit = items.iter().filter(cut).flat_map(|item| [item.across.ticks(), item.along.ticks()]);
        let unit = unit.fold(0, common_divisor);
        if unit <= 0 {
            return items.iter().all(|item| item.count.0 == 0).then(|| List::empty(width));
        }
        let units = |length: Length| i64::try_from(length.ticks() / unit).ok();
        let across = units(width).filter(|across| *across <= MAX_WIDTH_UNITS)?;
        let mut list = List { unit: Length::from_ticks(unit), width: across, ..List::empty(width) };
        for (index, item) in items.iter().enumerate().filter(|(_, item)| item.count.0 > 0) {
            let given = Way { across: units(item.across)?, along: units(item.along)? };
            let turned = Way { across: given.along, along: given.across };
            let mut ways = vec![given];
            if item.turns && turned != given {
                ways.push(turned);
            }
            ways.retain(|way| way.across <= across && way.across > 0 && (1..=MAX_ALONG_UNITS).contains(&way.along));
            if ways.is_empty() {
                return None;
            }
            list.kinds.push(Kind { ways, count: i64::try_from(item.count.0).ok()? });
            list.items.push(index);
        }
        for (index, remnant) in remnants.iter().enumerate() {
            let (across, along) = (units(remnant.across)?, units(remnant.along)?);
            let count = i64::try_from(remnant.count.0).ok()?;
            if count > 0 && list.kinds.iter().any(|kind| kind.fits(across, along)) {
                list.offcuts.push(Offcut { across, along, count });
                list.remnants.push(index);
            }
        }
        (list.kinds.len() <= MAX_KINDS).then_some(list)
    }

    fn empty(width: Length) -> List {
        // Of no width nothing is cut either, and a unit is never nothing.
        let unit = width.max(Length::from_ticks(1));
        List { unit, width: 1, kinds: Vec::new(), items: Vec::new(), offcuts: Vec::new(), remnants: Vec::new() }
    }

    /// So many units as a length.
    pub(super) fn length(&self, units: i64) -> Length {
        self.unit * units
    }

    /// How many of each kind are wanted.
    pub(super) fn demand(&self) -> Vec<i64> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    /// The widths that a strip may have: each side that may lie along the bolt, the narrowest first.
    pub(super) fn heights(&self) -> Vec<i64> {
        let mut heights: Vec<i64> = self.kinds.iter().flat_map(|kind| &kind.ways).map(|way| way.along).collect();
        heights.sort_unstable();
        heights.dedup();
        heights
    }

    /// The same pieces with the sides of the fabric changed for one another, in fabric so wide.
    pub(super) fn transposed(&self, width: i64) -> Option<List> {
        let mut list = self.clone();
        list.width = width;
        list.offcuts.clear();
        list.remnants.clear();
        for kind in &mut list.kinds {
            kind.ways = kind.ways.iter().map(|way| Way { across: way.along, along: way.across }).collect();
            kind.ways.retain(|way| way.across <= width);
            if kind.ways.is_empty() {
                return None;
            }
        }
        Some(list)
    }
}

impl Kind {
    /// Whether it fits into a rectangle some way round.
    pub(super) fn fits(&self, across: i64, along: i64) -> bool {
        self.ways.iter().any(|way| way.across <= across && way.along <= along)
    }
}
