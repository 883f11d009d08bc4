//! Which side of a piece is the width of the strips that the text tells to cut it from, where it says so nowhere.

use std::cmp::Reverse;

use super::fabric::Shop;
pub use super::fabric_size::OtherWidth;
use super::shares::{How, Sharing};
use crate::manuscript::model::Bought;
use crate::quantity::{Count, Length, Percent, Yardage};
use crate::quilt_math::cutting::{Cloth, Cut, Shape};
use crate::quilt_math::each_share::share;
use crate::quilt_math::known_list::known_list;

/// What is told of a fabric for one size.
#[derive(Clone, Debug)]
pub(super) struct StatedSizeStrips<'m> {
    /// How much to buy.
    pub(super) required: Option<&'m Bought>,
    /// The cutting list; `None` for an entry that could not be read.
    pub(super) cuts: Vec<Option<Cut>>,
    /// The binding's strips where they are cut from this fabric: those told, and those to print.
    pub(super) binding: Option<(Cut, Cut)>,
    /// How several fabrics share the list.
    pub(super) sharing: Option<Sharing>,
    /// How much shorter the fabric is after washing.
    pub(super) shrinks: Percent,
    /// What the strips are cut from where something else may be bought instead.
    pub(super) instead_of: Option<Cloth>,
    /// The other strip widths by which a strip may be missing.
    pub(super) other_widths: Vec<OtherWidth>,
}

/// Gives each entry of a cutting list whose strips are told one strip width for all sizes, since it is one method.
///
/// It is the width by which most of what is told is right: the strips of each size, where exactly so many are needed, and
/// the amount of each size, where it is enough and not generous. Of two by which as much is right, strips joined end to
/// end: nobody tells two strips as wide as a piece is long to cut one from. Then the width by which more amounts are right:
/// a strip too few is likelier than fabric for other strips. Then the one whose strips are nearest in all, then the one by
/// which more sizes have too few strips, so that none is passed over, then the narrower. Where one strip more could be
/// joined, a strip as wide as a piece is long counts only if the amount is enough for it. Where all that is told is right
/// by one width, and by another but for one strip of one size, that size is given the other width, to be asked about.
pub(super) fn choose_strip_widths(sizes: &mut [StatedSizeStrips<'_>], cloth: Cloth, shop: Shop) {
    let entries = sizes.first().map_or(0, |size| size.cuts.len());
    for entry in 0..entries {
        let widths = widths(sizes, cloth, |size| size.stated_cut(entry));
        if widths.len() < 2 {
            continue;
        }
        let readings: Vec<Reading> =
            widths.into_iter().map(|width| Reading::new(sizes, entry, width, cloth, shop)).collect();
        let lacks_a_joined_strip = readings.iter().any(|reading| reading.joined && reading.lacks_one_strip());
        let Some(best) = readings.iter().max_by_key(|reading| reading.rank(lacks_a_joined_strip)) else { continue };
        let rival = readings.iter().filter(|rival| rival.lacks_one_strip_beside(best)).min_by_key(|rival| rival.width);
        if let Some((size, other)) = rival.and_then(|rival| rival.lacking) {
            sizes[size].other_widths.push(other);
        }
        for size in sizes.iter_mut() {
            size.read(entry, best.width, cloth);
        }
    }
    for entry in 0..entries {
        choose_for_strips_alone(sizes, entry, cloth, shop);
    }
}

/// Gives an entry of which strips alone are told the width for which the stated amounts are enough, where that is one: how
/// many pieces come of the strips is then counted by the strips that are bought.
fn choose_for_strips_alone(sizes: &mut [StatedSizeStrips<'_>], entry: usize, cloth: Cloth, shop: Shop) {
    let widths = widths(sizes, cloth, |size| size.strips_alone(entry));
    if widths.len() < 2 {
        return;
    }
    let enough = |width: &Length| {
        let of_size = |size: &&StatedSizeStrips<'_>| {
            let mut size = (*size).clone();
            size.read(entry, *width, cloth);
            size.required.is_none() || size.amount(cloth, shop).is_some()
        };
        sizes.iter().filter(|size| size.strips_alone(entry).is_some()).filter(of_size).count()
    };
    let counted: Vec<(Length, usize)> = widths.iter().map(|width| (*width, enough(width))).collect();
    let most = counted.iter().map(|(_, enough)| *enough).max().unwrap_or_default();
    let mut best = counted.iter().filter(|(_, enough)| *enough == most).map(|(width, _)| *width);
    // Where none is enough, the narrowest strips are what is said to be short.
    if let (Some(width), true) = (best.next(), most == 0 || best.next().is_none()) {
        for size in sizes.iter_mut().filter(|size| size.strips_alone(entry).is_some()) {
            size.read(entry, width, cloth);
        }
    }
}

/// The strip widths from which an entry comes in some size for which strips are told, narrowest first.
fn widths(
    sizes: &[StatedSizeStrips<'_>],
    cloth: Cloth,
    told: impl Fn(&StatedSizeStrips<'_>) -> Option<Cut>,
) -> Vec<Length> {
    let told = sizes.iter().filter_map(told);
    let mut widths: Vec<Length> = told.flat_map(|cut| cut.ways(cloth)).map(|way| way.strip_width).collect();
    widths.sort_unstable();
    widths.dedup();
    widths
}

/// How what is told agrees with one strip width for an entry.
struct Reading {
    width: Length,
    /// Whether the strips are joined end to end.
    joined: bool,
    /// The sizes for which exactly as many strips are needed as are told.
    exact: usize,
    /// Those of them whose amount is enough too, or not stated.
    exact_and_enough: usize,
    /// The sizes whose amount is enough and not generous.
    amounts: usize,
    /// The sizes for which fewer strips are told than are needed.
    short: usize,
    /// By how many strips all sizes are off.
    off: u64,
    /// A size for which one strip too few is told, by its place, and what is needed for it.
    lacking: Option<(usize, OtherWidth)>,
}

impl Reading {
    fn new(sizes: &[StatedSizeStrips<'_>], entry: usize, width: Length, cloth: Cloth, shop: Shop) -> Reading {
        let mut reading = Reading {
            width,
            joined: false,
            exact: 0,
            exact_and_enough: 0,
            amounts: 0,
            short: 0,
            off: 0,
            lacking: None,
        };
        for (place, size) in sizes.iter().enumerate().filter(|(_, size)| size.stated_cut(entry).is_some()) {
            let mut size = size.clone();
            size.read(entry, width, cloth);
            let told = size.stated_cut(entry).and_then(|cut| cut.strips.zip(cut.needed(cloth)));
            let Some((strips, (way, needed))) = told else { continue };
            reading.joined |= way.joined.is_some();
            reading.exact += usize::from(strips == needed);
            reading.short += usize::from(strips < needed);
            reading.off = reading.off.saturating_add(strips.0.abs_diff(needed.0));
            let amount = size.amount(cloth, shop);
            reading.amounts += usize::from(amount == Some(Enough::Exactly));
            let enough = amount.is_some() || size.required.is_none();
            reading.exact_and_enough += usize::from(strips == needed && enough);
            if strips < needed {
                reading.lacking = Some((place, OtherWidth { entry, way, needed }));
            }
        }
        reading
    }

    fn rank(&self, lacks_a_joined_strip: bool) -> impl Ord + use<> {
        let exact = if lacks_a_joined_strip && !self.joined { self.exact_and_enough } else { self.exact };
        (exact + self.amounts, self.joined, self.amounts, Reverse(self.off), self.short, Reverse(self.width))
    }

    /// Whether all that is told would be right by this width with one strip more, and is right by the best one.
    fn lacks_one_strip_beside(&self, best: &Reading) -> bool {
        self.lacks_one_strip() && best.off == 0 && self.amounts >= best.amounts && self.width != best.width
    }

    /// Whether one strip of one size is all that is missing.
    fn lacks_one_strip(&self) -> bool {
        self.short == 1 && self.off == 1
    }
}

/// An amount that is enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Enough {
    /// And not generous.
    Exactly,
    /// And more than that.
    Generously,
}

impl StatedSizeStrips<'_> {
    /// An entry whose strips and pieces are both told.
    fn stated_cut(&self, entry: usize) -> Option<Cut> {
        let some = |count: Option<Count>| count.is_some_and(|count| count.0 > 0);
        self.cuts.get(entry).copied().flatten().filter(|cut| some(cut.strips) && some(cut.pieces))
    }

    /// An entry whose strips are told, and not how many pieces come of them.
    fn strips_alone(&self, entry: usize) -> Option<Cut> {
        let cut = self.cuts.get(entry).copied().flatten()?;
        let is_alone = cut.pieces.is_none() && cut.strips.is_some_and(|strips| strips.0 > 0);
        (is_alone && matches!(cut.shape, Shape::Piece { .. })).then_some(cut)
    }

    /// Takes an entry whose strips are told from strips of a width.
    fn read(&mut self, entry: usize, width: Length, cloth: Cloth) {
        let Some(Some(cut)) = self.cuts.get_mut(entry).filter(|cut| cut.is_some_and(|cut| cut.strips.is_some())) else {
            return;
        };
        // Strips as wide as a piece is long are not joined.
        let is_joined = cut.ways(cloth).iter().any(|way| way.strip_width == width && way.joined.is_some());
        cut.joins = cut.joins.filter(|_| is_joined);
        match &mut cut.shape {
            Shape::Piece { strip_width, .. } | Shape::Template { strip_width, .. } => *strip_width = Some(width),
            // A slanted shape is as high as its strip whichever way.
            Shape::Slanted(_)
            | Shape::Centered { .. }
            | Shape::WholeStrip { .. }
            | Shape::Lengthwise { .. }
            | Shape::Strip { .. } => {}
        }
    }

    /// Whether the amount is enough for as many strips as are needed; `None` where it is not, or is unknown.
    fn amount(&self, cloth: Cloth, shop: Shop) -> Option<Enough> {
        let cuts = self.cuts.iter().map(|cut| Some((*cut)?.with_enough_strips(cloth)));
        let mut cuts = cuts.collect::<Option<Vec<Cut>>>()?;
        cuts.extend(self.binding.map(|(_, print)| print));
        if let Some(Sharing { among, how: How::Each, .. }) = self.sharing {
            cuts = share(&cuts, among, &[]);
        }
        let list = known_list(&cuts, cloth);
        let (required, taken) = self.required.zip(list.first())?;
        let (enough, exactly) = match (required, taken.small) {
            (Bought::Amount(stated), None) => {
                let cut = Yardage(self.shrinks.before(taken.plan.length()));
                let each = || stated.value.halves().map(|half| (Yardage(half.length), half.unit));
                let exactly = |(length, unit)| length < shop.generous_from(cut, unit);
                (each().all(|(length, _)| length >= cut), each().all(exactly))
            }
            (Bought::Count(stated), Some(small)) => (stated.value >= small, stated.value == small),
            _ => return None,
        };
        enough.then_some(if exactly { Enough::Exactly } else { Enough::Generously })
    }
}
