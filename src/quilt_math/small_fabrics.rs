//! How many small fabrics, such as fat quarters and precut squares, a cutting list takes, decided by proof.
//!
//! What the text leaves open is cut any way round. Strips that it tells are cut whole, all of them along one side of the
//! fabric, and open pieces may lie in what they leave.

use std::collections::BTreeMap;

use super::cutting::{Cloth, Cut, Shape};
use super::cutting_list::{List, WayRound, taken, ways_round};
use super::each_share::share;
use super::filled_strips::{FilledStrips, cut_strips, is_stated};
use super::nesting::{Nesting, fewest_for_shapes};
use super::plan::Piece;
use super::planner::{
    CutGrid, CutStrips, Cutting, DecidedSmall, Item, Remnant, alike, decide_small, decision, fewest_by_area,
};
use super::proof::{held, item, stated_item};
use crate::quantity::{Count, Length};

/// The fewest small fabrics for a list, by the numbers of its entries, where a plan is known that takes `known`; `None`
/// for fabric from the bolt, and where a piece fits no way round.
pub fn fewest(cuts: &[Cut], cloth: Cloth, known: Count) -> Option<DecidedSmall> {
    let ways = ways_round(cuts, cloth);
    // A way round in which the told strips are too few is another rule's, unless there is no other.
    let serves = ways.iter().any(|way| way.serves);
    let mut ways: Vec<WayRound> = ways.into_iter().filter(|way| way.serves == serves).collect();
    if ways.iter().all(|way| is_open(&way.cuts)) {
        // The other way round is the same problem seen from the side.
        ways.truncate(1);
    }
    let decided: Vec<DecidedSmall> = ways.iter().filter_map(|way| of_way(way, known)).collect();
    let least = decided.iter().map(|decided| decided.least).min()?;
    let best = decided.into_iter().min_by_key(|decided| decided.count)?;
    let best = DecidedSmall { least, ..best };
    let tried = if is_open(cuts) { least.0.max(2)..best.count.0 } else { 0..0 };
    let even = tried.take(DEALT_OUT).find_map(|number| dealt_out(cuts, cloth, Count(number)));
    Some(match even {
        Some((fabrics, count)) => DecidedSmall { fabrics, count, ..best },
        None => best,
    })
}

/// How many numbers of fabrics are tried between the least and what was found, each fabric with its share of each kind.
const DEALT_OUT: usize = 3;

/// So many fabrics that are cut alike by a plan that one of them holds; `None` where it takes more than one.
fn dealt_out(cuts: &[Cut], cloth: Cloth, number: Count) -> Option<(Vec<CutStrips>, Count)> {
    let shares = share(cuts, number, &[]);
    let one = taken(&shares, cloth).filter(|one| one.small == Some(Count(1)))?;
    let mut fabric = CutStrips { count: Count(1), width: Length::ZERO, remnant: None, grids: Vec::new() };
    for strips in &one.plan.strips {
        for _ in 0..strips.count.0 {
            let of_strip = cut_strips(strips, None).grids.into_iter();
            fabric.grids.extend(of_strip.map(|grid| CutGrid { above: grid.above + fabric.width, ..grid }));
            fabric.width = fabric.width + strips.width;
        }
    }
    let over = |(cut, share): (&Cut, &Cut)| match (cut.pieces, share.pieces) {
        (Some(all), Some(each)) => (each * number).less(all).0,
        _ => 0,
    };
    let over = cuts.iter().zip(&shares).map(over).collect();
    Some((alike(&fabric, number, over), number))
}

fn is_open(cuts: &[Cut]) -> bool {
    cuts.iter().all(|cut| {
        let open = matches!(
            cut.shape,
            Shape::Piece { strip_width: None, .. }
                | Shape::Lengthwise { .. }
                | Shape::Template { strip_width: None, .. }
        );
        open && cut.strips.is_none()
    })
}

/// The list as the text tells it, on fabric one way round.
struct StatedList {
    across: Length,
    along: Length,
    strips: FilledStrips,
    open: Vec<Item>,
    /// The entry of each open item.
    entries: Vec<usize>,
    /// The open pieces that no told strip holds.
    beyond: Vec<Item>,
    /// All pieces, as though the text left them open.
    all: Vec<Item>,
    /// About the shapes that are no rectangles.
    nesting: Option<(Nesting, Count)>,
}

fn of_way(way: &WayRound, known: Count) -> Option<DecidedSmall> {
    let list = StatedList::new(way)?;
    let whole = list.whole_strips(&list.strips.with(Cutting::default()).strips);
    let least = list.least(&whole);
    let unplanned = DecidedSmall { fabrics: Vec::new(), across: list.across, count: known, least: least.min(known) };
    let plans = [list.beside(), list.with_ends_used()].into_iter().flatten();
    let best = plans.min_by_key(|(_, count)| *count).filter(|(_, count)| *count <= known);
    Some(match best {
        Some((fabrics, count)) => DecidedSmall { fabrics, count, ..unplanned },
        None => unplanned,
    })
}

impl StatedList {
    fn new(way: &WayRound) -> Option<StatedList> {
        let Cloth::Small { across, along, .. } = way.cloth else { return None };
        let list = List::new(&way.cuts, way.cloth)?;
        let pieces = || list.pieces.iter().copied().zip(list.entries.iter().copied());
        let (open, entries): (Vec<Piece>, Vec<usize>) = pieces().filter(|(piece, _)| !is_stated(piece)).unzip();
        let strips = FilledStrips::new(&list, across)?;
        let items: Vec<Item> = open.iter().map(item).collect();
        let nesting = Nesting::new(&way.cuts, way.cloth);
        let nests = |entry: usize| nesting.is_some() && way.cuts[entry].shape.nests();
        let widest = nesting.as_ref().map_or(strips.widest(), |nesting| strips.widest().max(nesting.widest));
        let is_held = |piece: &Piece| piece.stated.is_none() && held(&item(piece), widest);
        let beyond = open.iter().zip(&entries).filter(|(piece, entry)| !is_held(piece) && !nests(**entry));
        let beyond = beyond.map(|(piece, _)| item(piece)).collect();
        let of_told = |(piece, entry): (Piece, usize)| {
            let partly = list.joined.contains(&entry) && piece.across < across;
            let turns = matches!(way.cuts[entry].shape, Shape::Piece { turns: true, .. });
            let is_group = list.group_of(entry).is_some();
            (is_stated(&piece) && !partly && !is_group && !nests(entry)).then(|| stated_item(&piece, turns, &items))
        };
        let of_groups = list.groups.iter().flat_map(|group| &group.pieces).map(|(_, item)| *item);
        let open = items.iter().zip(&entries).filter(|(_, entry)| !nests(**entry)).map(|(item, _)| *item);
        let all = pieces().filter_map(of_told).chain(of_groups).chain(open).collect();
        let nesting = nesting.map(|nesting| (nesting, fewest_for_shapes(&way.cuts, way.cloth)));
        Some(StatedList { across, along, strips, open: items, entries, beyond, all, nesting })
    }

    /// Strips as items that are as long as the fabric, those of one width together.
    fn whole_strips(&self, strips: &[CutStrips]) -> Vec<Item> {
        let mut widths: BTreeMap<Length, Count> = BTreeMap::new();
        for strips in strips {
            let count = widths.entry(strips.width).or_default();
            *count = *count + strips.count;
        }
        let whole = |(along, count): (Length, Count)| Item { across: self.across, along, count, turns: false };
        widths.into_iter().filter(|(_, count)| count.0 > 0).rev().map(whole).collect()
    }

    /// No way of cutting takes fewer: the told strips with the open pieces that cannot lie in them, or all pieces as
    /// though the text told nothing.
    fn least(&self, whole: &[Item]) -> Count {
        // Some of the strips that are planned for shapes may not be needed where the text does not tell them.
        let is_open = self.nesting.as_ref().is_some_and(|(nesting, _)| nesting.is_open);
        let whole = if is_open { &[] } else { whole };
        let told: Vec<Item> = whole.iter().chain(&self.beyond).copied().collect();
        let least = |items: &[Item]| {
            let by_area = fewest_by_area(items, self.across, self.along);
            decide_small(items, self.across, self.along).map_or(by_area, |decided| decided.least.max(by_area))
        };
        let for_shapes = self.nesting.as_ref().map_or(Count(0), |(_, fewest)| *fewest);
        least(&told).max(least(&self.all)).max(for_shapes)
    }

    /// The open pieces beside the told strips, none of them in a told strip.
    fn beside(&self) -> Option<(Vec<CutStrips>, Count)> {
        self.planned(&self.strips.with(Cutting::default()).strips, &self.open)
    }

    /// As many open pieces in the told strips as a plan on the bolt lays there, and the others beside them.
    fn with_ends_used(&self) -> Option<(Vec<CutStrips>, Count)> {
        let remnants: Vec<Remnant> = self.strips.remnants();
        if remnants.is_empty() || self.open.is_empty() {
            return None;
        }
        let mut cutting = decision(&self.open, self.across, &remnants).plain()?;
        cutting.strips.retain(|strips| strips.remnant.is_some());
        let mut left = self.open.clone();
        for strips in &cutting.strips {
            for grid in &strips.grids {
                left[grid.item].count = left[grid.item].count.less(grid.count * strips.count);
            }
        }
        for grid in cutting.strips.iter_mut().flat_map(|strips| &mut strips.grids) {
            grid.item = self.entries[grid.item];
        }
        self.planned(&self.strips.with(cutting).strips, &left)
    }

    /// The fewest fabrics that are found for whole strips and open pieces, with what is cut from each.
    fn planned(&self, strips: &[CutStrips], open: &[Item]) -> Option<(Vec<CutStrips>, Count)> {
        let whole = self.whole_strips(strips);
        let items: Vec<Item> = whole.iter().chain(open).copied().collect();
        let decided = decide_small(&items, self.across, self.along)?;
        let mut stock = Stock { strips: strips.to_vec(), whole: &whole, entries: &self.entries };
        let fabrics = decided.fabrics.iter().flat_map(|fabrics| stock.fill(fabrics)).collect();
        Some((fabrics, decided.count))
    }
}

/// Strips with their pieces, handed out to the fabrics that they are cut from.
struct Stock<'a> {
    strips: Vec<CutStrips>,
    whole: &'a [Item],
    entries: &'a [usize],
}

impl Stock<'_> {
    /// Fabrics that are cut alike with the pieces of their strips, which may differ from fabric to fabric.
    fn fill(&mut self, fabrics: &CutStrips) -> Vec<CutStrips> {
        let (whole, open): (Vec<CutGrid>, Vec<CutGrid>) =
            fabrics.grids.iter().partition(|grid| grid.item < self.whole.len());
        let open: Vec<CutGrid> =
            open.into_iter().map(|grid| CutGrid { item: self.entries[grid.item - self.whole.len()], ..grid }).collect();
        let (mut all, mut left) = (Vec::new(), fabrics.count);
        while left.0 > 0 {
            let (grids, used) = self.of_one(&whole);
            let often = used.iter().map(|(strips, used)| self.strips[*strips].count.0 / used.0).min();
            let count = Count(often.unwrap_or(left.0).clamp(1, left.0));
            for (strips, used) in used {
                self.strips[strips].count = self.strips[strips].count.less(used * count);
            }
            let grids = grids.into_iter().chain(open.iter().copied()).collect();
            all.push(CutStrips { count, grids, ..fabrics.clone() });
            left = left.less(count);
        }
        all
    }

    /// The pieces of the strips of one fabric, and how many of which strips they are.
    fn of_one(&self, whole: &[CutGrid]) -> (Vec<CutGrid>, BTreeMap<usize, Count>) {
        let (mut grids, mut used) = (Vec::new(), BTreeMap::new());
        for grid in whole {
            for row in 0..grid.count.0 {
                let above = grid.above + grid.along * Count(row);
                let is_free = |(number, strips): &(usize, &CutStrips)| {
                    let used = used.get(number).copied().unwrap_or_default();
                    strips.width == grid.along && strips.count > used
                };
                let Some((number, strips)) = self.strips.iter().enumerate().find(is_free) else { continue };
                let count = used.entry(number).or_insert(Count(0));
                *count = *count + Count(1);
                grids.extend(strips.grids.iter().map(|piece| CutGrid { above: piece.above + above, ..*piece }));
            }
        }
        (grids, used)
    }
}
