//! A cutting list that leaves the cutting to the reader, decided by proof where a first plan is longer than the fabric.

use std::sync::Arc;

use super::cutting::{Cloth, Cut, List, Shape, Taken};
use super::filled_strips::{FilledStrips, cut_strips};
use super::plan::{Piece, Plan, StripCut, Strips};
use super::planner::{
    CutGrid, CutStrips, Cutting, DecidedSmall, Decision, Item, Reason, Remnant, Verdict, decide_small, decision,
};
use crate::quantity::Length;

/// The decision about a cutting list on the bolt.
#[derive(Debug)]
pub struct Proof {
    /// The plan that was made before.
    before: Cutting,
    stated: FilledStrips,
    /// The entry of each piece that the text leaves open.
    entries: Vec<usize>,
    /// About the open pieces, with what the stated strips leave at their ends.
    plain: Arc<Decision>,
    /// About the open pieces, with everything that the stated strips leave.
    clever: Arc<Decision>,
    /// About the open pieces that no stated strip holds.
    beyond: Arc<Decision>,
    /// About all pieces, as though the text left all of them open; `None` where the stated strips hold no open piece.
    all: Option<Arc<Decision>>,
}

impl Proof {
    /// The decision about a list for which a plan was made; `None` where the fabric is not from the bolt, the text tells
    /// all strips, or a piece fits no way round.
    pub fn new(cuts: &[Cut], cloth: Cloth, before: &Taken) -> Option<Proof> {
        let Cloth::Bolt { width: usable } = cloth else { return None };
        let list = List::new(cuts, cloth)?;
        let whole = |cut: &Cut| matches!(cut.shape, Shape::WholeStrip { .. });
        // Where the text tells all strips, they take what they take.
        if list.pieces.iter().all(|piece| piece.stated.is_some()) && !cuts.iter().all(whole) {
            return None;
        }
        let is_stated = |piece: &Piece| piece.stated.is_some_and(|stated| !stated.along);
        let pieces = || list.pieces.iter().copied().zip(list.entries.iter().copied());
        let (stated, stated_entries): (Vec<Piece>, Vec<usize>) = pieces().filter(|(piece, _)| is_stated(piece)).unzip();
        let (open, entries): (Vec<Piece>, Vec<usize>) = pieces().filter(|(piece, _)| !is_stated(piece)).unzip();
        let strips = FilledStrips::new(&stated, &stated_entries, usable)?;
        let items: Vec<Item> = open.iter().map(item).collect();
        // What is stated along the bolt lies in no stated strip.
        let held = |piece: &Piece| piece.stated.is_none() && held(&item(piece), strips.widest());
        let beyond: Vec<Item> = open.iter().filter(|piece| !held(piece)).map(item).collect();
        let stated_along =
            open.iter().any(|piece| piece.stated.is_some() && lies_in_any(&item(piece), &strips.remnants()));
        let remnants = |of: Vec<Remnant>| if stated_along { Vec::new() } else { of };
        let all = || {
            let stated = pieces().filter(|(piece, _)| is_stated(piece)).filter_map(|(piece, entry)| {
                // How the rest of joined strips falls is not looked at, so it may hold anything.
                let partly = list.joined.contains(&entry) && piece.across < usable;
                let turns = matches!(cuts[entry].shape, Shape::Piece { turns: true, .. });
                (!partly).then(|| stated_item(&piece, turns, &items))
            });
            decision(&stated.chain(items.iter().copied()).collect::<Vec<Item>>(), usable, &[])
        };
        Some(Proof {
            before: Cutting { strips: before.plan.strips.iter().map(|strips| cut_strips(strips, None)).collect() },
            plain: decision(&items, usable, &remnants(strips.ends())),
            clever: decision(&items, usable, &remnants(strips.remnants())),
            beyond: decision(&beyond, usable, &[]),
            all: (beyond.len() < items.len()).then(all),
            stated: strips,
            entries,
        })
    }

    /// Whether so much of the fabric's length is enough. No more is worked out than it takes to say so.
    pub fn verdict(&self, there: Length) -> Verdict {
        let fits = |cutting: Cutting| cutting.length() <= there;
        if fits(self.before.clone()) || self.plain_cutting().is_some_and(fits) {
            Verdict::Enough
        } else if self.least().0 > there {
            Verdict::Short
        } else if fits(self.best()) {
            Verdict::OnlyClever
        } else {
            Verdict::Undecided
        }
    }

    /// No way of cutting takes less than this, and why.
    pub fn least(&self) -> (Length, Reason) {
        let (beyond, reason) = self.beyond.least();
        let stated = (self.stated.length() + beyond, reason);
        let all = self.all.as_ref().map(|all| all.least()).filter(|all| all.0 > stated.0);
        all.unwrap_or(stated)
    }

    /// The shortest plan of any kind, by the numbers of the cutting list.
    pub fn best(&self) -> Cutting {
        let clever = [&self.plain, &self.clever].into_iter().filter_map(|decision| decision.best());
        let plans = clever.map(|cutting| self.numbered(cutting)).chain([self.before.clone()]);
        plans.min_by_key(Cutting::length).unwrap_or_default()
    }

    /// The plain plan, where it is shorter than what was planned before.
    pub fn plain(&self, before: &Taken) -> Option<Taken> {
        let cutting = self.plain_cutting().filter(|cutting| cutting.length() < before.plan.length())?;
        let run = before.strip_length;
        let strips = cutting.strips.iter().map(|strips| plan_strips(strips, run)).collect();
        Some(Taken { plan: Plan { strips, left_over: Vec::new() }, ..before.clone() })
    }

    fn plain_cutting(&self) -> Option<Cutting> {
        self.plain.plain().map(|cutting| self.numbered(cutting))
    }

    /// A plan of the open pieces with the numbers of the cutting list, the stated strips first.
    fn numbered(&self, mut cutting: Cutting) -> Cutting {
        for grid in cutting.strips.iter_mut().flat_map(|strips| &mut strips.grids) {
            grid.item = self.entries[grid.item];
        }
        self.stated.with(cutting)
    }
}

fn item(piece: &Piece) -> Item {
    Item { across: piece.across, along: piece.along, count: piece.count, turns: piece.turns }
}

/// Whether strips so wide may hold a piece some way round.
fn held(item: &Item, widest: Length) -> bool {
    item.along <= widest || item.turns && item.across <= widest
}

/// Whether one of the remnants may hold a piece some way round.
fn lies_in_any(item: &Item, remnants: &[Remnant]) -> bool {
    remnants.iter().any(|remnant| item.across <= remnant.across && item.along <= remnant.along)
}

/// A piece that is stated strips, as though it were cut from the fabric by itself. Where nothing else goes beside it in
/// the strip's width, it takes all of that.
fn stated_item(piece: &Piece, turns: bool, open: &[Item]) -> Item {
    let width = piece.stated.map_or(piece.along, |stated| stated.width);
    let turns = turns && piece.across <= width;
    let room = width - piece.along;
    let takes_all = !turns && room < piece.along && open.iter().all(|item| !held(item, room));
    let along = if takes_all { width } else { piece.along };
    Item { across: piece.across, along, count: piece.count, turns }
}

fn plan_strips(strips: &CutStrips, run: Length) -> Strips {
    let laid = |grid: &CutGrid| StripCut {
        piece: grid.item,
        count: grid.count,
        from: grid.from,
        across: grid.across,
        along: grid.along,
        stacked: grid.stacked,
    };
    let columns = |grid: &CutGrid| grid.count.in_groups_of(grid.stacked).unwrap_or_default();
    let end = strips.grids.iter().map(|grid| grid.from + grid.across * columns(grid)).max().unwrap_or_default();
    Strips { count: strips.count, width: strips.width, cuts: strips.grids.iter().map(laid).collect(), rest: run - end }
}

/// The fewest small fabrics for a list that leaves the cutting to the reader, by the numbers of the cutting list;
/// `None` for other lists and for fabric from the bolt.
pub fn small(cuts: &[Cut], cloth: Cloth) -> Option<DecidedSmall> {
    let Cloth::Small { across, along, .. } = cloth else { return None };
    let item = |cut: &Cut| match cut.shape {
        Shape::Piece { width, height, turns, strip_width: None } if cut.strips.is_none() && cut.joins.is_none() => {
            Some(Item { across: width, along: height, count: cut.pieces?, turns })
        }
        _ => None,
    };
    let items = cuts.iter().map(item).collect::<Option<Vec<Item>>>()?;
    decide_small(&items, across, along)
}
