//! A cutting list that leaves the cutting to the reader, decided by proof where a first plan is longer than the fabric.

use std::sync::{Arc, OnceLock};

use super::cutting::{Cloth, Cut, Shape};
use super::cutting_list::List;
use super::filled_strips::{FilledStrips, cut_strips, is_stated};
use super::nesting::Nesting;
use super::plan::{Piece, Plan, plan_strips};
use super::planner::{CutStrips, Cutting, Decision, Item, Reason, Remnant, Verdict, decision};
use super::taken::Taken;
use crate::quantity::Length;

/// The decision about a cutting list on the bolt.
#[derive(Debug)]
pub struct Proof {
    /// The plan that was made before.
    before: Arc<Plan>,
    usable: Length,
    stated: FilledStrips,
    /// The pieces that the text leaves open.
    open: Vec<Item>,
    /// The entry of each of them.
    entries: Vec<usize>,
    /// Whether something is stated along the bolt that would lie in what the stated strips leave.
    stated_along: bool,
    /// About the open pieces, with what the stated strips leave at their ends.
    plain: OnceLock<Arc<Decision>>,
    /// About the open pieces, with everything that the stated strips leave.
    clever: OnceLock<Arc<Decision>>,
    /// About the open pieces that no stated strip holds.
    beyond: Numbered,
    /// About all pieces, as though the text left all of them open; `None` where the stated strips hold no open piece.
    all: Option<Numbered>,
    /// About the shapes that are no rectangles; `None` where there are none.
    nesting: Option<Nesting>,
}

/// A decision with the entry of each of its items.
#[derive(Debug)]
struct Numbered {
    entries: Vec<usize>,
    decision: Arc<Decision>,
}

impl Numbered {
    fn new(items: impl Iterator<Item = (Item, usize)>, width: Length) -> Numbered {
        let (items, entries): (Vec<Item>, Vec<usize>) = items.unzip();
        Numbered { entries, decision: decision(&items, width, &[]) }
    }

    fn least(&self) -> (Length, Reason) {
        let (least, reason) = self.decision.least();
        (least, reason.numbered(|item| self.entries[item]))
    }
}

/// Why no way of cutting takes less.
#[derive(Debug)]
pub struct Least {
    /// No way of cutting takes less than this.
    pub length: Length,
    /// What the strips take of it that the text tells.
    pub stated: Length,
    /// Why the other pieces take the rest, by the numbers of the cutting list.
    pub reason: Reason,
}

impl Proof {
    /// The decision about a list for which a plan was made; `None` where the fabric is not from the bolt, the text tells
    /// all strips, or a piece fits no way round.
    pub fn new(cuts: &[Cut], cloth: Cloth, before: &Taken) -> Option<Proof> {
        let Cloth::Bolt { width: usable } = cloth else { return None };
        let list = List::new(cuts, cloth)?;
        let whole = |cut: &Cut| matches!(cut.shape, Shape::WholeStrip { .. });
        let nesting = Nesting::new(cuts, cloth);
        let nests = |entry: usize| nesting.is_some() && cuts[entry].shape.nests();
        // Where the text tells all strips across the fabric, they take what they take.
        let is_open = nesting.as_ref().is_some_and(|nesting| nesting.is_open);
        if !is_open
            && list.pieces.iter().all(|piece| piece.stated.is_some_and(|stated| !stated.along))
            && !cuts.iter().all(whole)
        {
            return None;
        }
        let pieces = || list.pieces.iter().copied().zip(list.entries.iter().copied());
        let (open, entries): (Vec<Piece>, Vec<usize>) = pieces().filter(|(piece, _)| !is_stated(piece)).unzip();
        let strips = FilledStrips::new(&list, usable)?;
        let items: Vec<Item> = open.iter().map(item).collect();
        // What is stated along the bolt lies in no stated strip.
        let widest = nesting.as_ref().map_or(strips.widest(), |nesting| strips.widest().max(nesting.widest));
        let held = |piece: &Piece| piece.stated.is_none() && held(&item(piece), widest);
        let beyond = open.iter().zip(&entries).filter(|(piece, entry)| !held(piece) && !nests(**entry));
        let beyond = Numbered::new(beyond.map(|(piece, entry)| (item(piece), *entry)), usable);
        let stated_along =
            open.iter().any(|piece| piece.stated.is_some() && lies_in_any(&item(piece), &strips.remnants()));
        let all = || {
            let by_themselves = |(_, entry): &(Piece, usize)| list.group_of(*entry).is_none();
            let stated = pieces().filter(|(piece, _)| is_stated(piece)).filter(by_themselves);
            let stated = stated.filter_map(|(piece, entry)| {
                // How the rest of joined strips falls is not looked at, so it may hold anything.
                let partly = list.joined.contains(&entry) && piece.across < usable;
                let turns = matches!(cuts[entry].shape, Shape::Piece { turns: true, .. });
                (!partly && !nests(entry)).then(|| (stated_item(&piece, turns, &items), entry))
            });
            let of_groups = list.groups.iter().flat_map(|group| &group.pieces).map(|(entry, item)| (*item, *entry));
            let open = items.iter().copied().zip(entries.iter().copied()).filter(|(_, entry)| !nests(*entry));
            Numbered::new(stated.chain(of_groups).chain(open), usable)
        };
        Some(Proof {
            before: Arc::clone(&before.plan),
            usable,
            all: (beyond.entries.len() < items.len()).then(all),
            beyond,
            stated: strips,
            open: items,
            entries,
            stated_along,
            plain: OnceLock::new(),
            clever: OnceLock::new(),
            nesting,
        })
    }

    fn plain_decision(&self) -> &Decision {
        self.plain.get_or_init(|| self.decision_with(self.stated.ends()))
    }

    fn clever_decision(&self) -> &Decision {
        self.clever.get_or_init(|| self.decision_with(self.stated.remnants()))
    }

    /// The decision about the open pieces with what the stated strips leave.
    fn decision_with(&self, remnants: Vec<Remnant>) -> Arc<Decision> {
        let remnants = if self.stated_along { Vec::new() } else { remnants };
        decision(&self.open, self.usable, &remnants)
    }

    /// How much of the fabric's length the plain plan takes with the stated strips.
    fn plain_length(&self) -> Option<Length> {
        Some(self.stated.length() + self.plain_decision().plain_length()?)
    }

    /// Whether so much of the fabric's length is enough. No more is worked out than it takes to say so.
    pub fn verdict(&self, there: Length) -> Verdict {
        if self.before.length() <= there || self.plain_length().is_some_and(|length| length <= there) {
            Verdict::Enough
        } else if self.least().length > there {
            Verdict::Short
        } else if self.best_cutting().length() <= there {
            Verdict::OnlyClever
        } else {
            Verdict::Undecided
        }
    }

    /// No way of cutting takes less than this: found at once, and often less than what `least` finds.
    pub fn quick_least(&self) -> Length {
        let stated = self.stated_length() + self.beyond.decision.quick_least();
        let least = self.all.as_ref().map_or(stated, |all| stated.max(all.decision.quick_least()));
        self.nesting.as_ref().map_or(least, |nesting| least.max(nesting.least.0).min(self.before.length()))
    }

    /// What the strips take that the text tells.
    fn stated_length(&self) -> Length {
        let untold = self.nesting.as_ref().map_or(Length::ZERO, |nesting| nesting.untold);
        (self.stated.length() - untold).max(Length::ZERO)
    }

    /// No way of cutting takes less than this, and why.
    pub fn least(&self) -> Least {
        let (stated, (beyond, reason)) = (self.stated_length(), self.beyond.least());
        if let Some(nesting) = &self.nesting {
            return self.least_of_shapes(nesting, Least { length: stated + beyond, stated, reason });
        }
        match self.all.as_ref().map(Numbered::least).filter(|(all, _)| *all > stated + beyond) {
            Some((length, reason)) => Least { length, stated: Length::ZERO, reason },
            None => Least { length: stated + beyond, stated, reason },
        }
    }

    /// The same with shapes that are no rectangles: what they prove by themselves, and the others without them.
    fn least_of_shapes(&self, nesting: &Nesting, others: Least) -> Least {
        let all = self.all.as_ref().map(Numbered::least);
        let proved = all.into_iter().chain([nesting.least.clone()]);
        let (length, reason) = proved.max_by_key(|(length, _)| *length).unwrap_or((Length::ZERO, Reason::Nothing));
        // What is cut too little for is another rule's.
        let most = self.before.length();
        if length > others.length {
            return Least { length: length.min(most), stated: Length::ZERO, reason };
        }
        Least { length: others.length.min(most), stated: others.stated.min(most), ..others }
    }

    /// The shortest plan of any kind, with what else was planned before.
    pub fn best(&self, before: &Taken) -> Taken {
        as_plan(&self.best_cutting().strips, before)
    }

    /// The shortest plan of any kind, by the numbers of the cutting list.
    pub fn best_cutting(&self) -> Cutting {
        let decisions = [self.plain_decision(), self.clever_decision()];
        let found = decisions.into_iter().flat_map(|decision| [decision.best(), decision.shorter_plain()]).flatten();
        let before = Cutting { strips: self.before.strips.iter().map(|strips| cut_strips(strips, None)).collect() };
        let plans = found.map(|cutting| self.numbered(cutting)).chain([before]);
        plans.min_by_key(Cutting::length).unwrap_or_default()
    }

    /// The plain plan, where it is shorter than what was planned before.
    pub fn plain(&self, before: &Taken) -> Option<Taken> {
        self.plain_length().filter(|length| *length < before.plan.length())?;
        Some(as_plan(&self.numbered(self.plain_decision().plain()?).strips, before))
    }

    /// A plain plan that is shorter than that, where one is found with more work.
    pub fn shorter_plain(&self, before: &Taken) -> Option<Taken> {
        let shorter = self.numbered(self.plain_decision().shorter_plain()?);
        (shorter.length() < before.plan.length()).then(|| as_plan(&shorter.strips, before))
    }

    /// A plan of the open pieces with the numbers of the cutting list, the stated strips first.
    fn numbered(&self, mut cutting: Cutting) -> Cutting {
        for grid in cutting.strips.iter_mut().flat_map(|strips| &mut strips.grids) {
            grid.item = self.entries[grid.item];
        }
        self.stated.with(cutting)
    }
}

pub(super) fn item(piece: &Piece) -> Item {
    Item { across: piece.across, along: piece.along, count: piece.count, turns: piece.turns }
}

/// Whether strips so wide may hold a piece some way round.
pub(super) fn held(item: &Item, widest: Length) -> bool {
    item.along <= widest || item.turns && item.across <= widest
}

/// Whether one of the remnants may hold a piece some way round.
fn lies_in_any(item: &Item, remnants: &[Remnant]) -> bool {
    remnants.iter().any(|remnant| item.across <= remnant.across && item.along <= remnant.along)
}

/// A piece that is stated strips, as though it were cut from the fabric by itself. Where nothing else goes beside it in
/// the strip's width, it takes all of that.
pub(super) fn stated_item(piece: &Piece, turns: bool, open: &[Item]) -> Item {
    let width = piece.stated.map_or(piece.along, |stated| stated.width);
    let turns = turns && piece.across <= width;
    let room = width - piece.along;
    let takes_all = !turns && room < piece.along && open.iter().all(|item| !held(item, room));
    let along = if takes_all { width } else { piece.along };
    Item { across: piece.across, along, count: piece.count, turns }
}

/// Strips as a plan, with what else was planned before.
pub(crate) fn as_plan(strips: &[CutStrips], before: &Taken) -> Taken {
    let run = before.strip_length;
    let strips = strips.iter().map(|strips| plan_strips(strips, run)).collect();
    Taken { plan: Arc::new(Plan { strips, left_over: Vec::new() }), ..before.clone() }
}
