//! A cutting list as it is planned: the pieces of all its entries, in strips on the bolt or on small fabrics.

use std::sync::Arc;

use super::cutting::{Cloth, Cut, Shape};
use super::plan::{Piece, Plan, Strips, plan, plan_on_small};
use super::strip_group::{StripGroup, strip_groups};
use super::taken::Taken;
use crate::quantity::{Count, Length};

/// Plans a cutting list on a fabric; `None` where a piece fits no way round, or nothing says how many.
pub fn taken(cuts: &[Cut], cloth: Cloth) -> Option<Taken> {
    match cloth {
        Cloth::Bolt { width } => {
            let list = List::new(cuts, cloth)?;
            let plan = plan(&list.pieces, width);
            list.taken(plan, width, None)
        }
        Cloth::Small { .. } => {
            let plans = ways_round(cuts, cloth).into_iter().filter_map(|way| Some((!way.serves, on_small(&way)?)));
            plans.min_by_key(|(short, taken)| (*short, taken.small)).map(|(_, taken)| taken)
        }
    }
}

/// A cutting list on small fabrics with strips along one side of them.
pub(super) struct WayRound {
    pub(super) cloth: Cloth,
    pub(super) cuts: Vec<Cut>,
    /// Whether the strips that the text tells are enough this way round.
    pub(super) serves: bool,
}

/// The ways round in which small fabrics are cut in strips.
pub(super) fn ways_round(cuts: &[Cut], cloth: Cloth) -> Vec<WayRound> {
    let turned = || cuts.iter().map(|cut| Cut { shape: cut.shape.the_other_way(), ..*cut }).collect();
    // Strips that are left whole are counted by the longer side.
    let is_left_whole = |(entry, cut): (usize, &Cut)| {
        let is_group = || cuts.iter().any(|other| other.within == Some(entry));
        matches!(cut.shape, Shape::WholeStrip { .. }) && cut.strips.is_some_and(|strips| strips.0 > 0) && !is_group()
    };
    let other = cloth.the_other_way().filter(|_| !cuts.iter().enumerate().any(is_left_whole));
    let ways = [Some((cloth, cuts.to_vec())), other.map(|cloth| (cloth, turned()))];
    let way = |(cloth, cuts): (Cloth, Vec<Cut>)| {
        let serves = |cut: &Cut| cut.strips.zip(cut.needed(cloth)).is_none_or(|(strips, (_, needed))| strips >= needed);
        let groups = strip_groups(&cuts, cloth);
        let serves_group = |group: &StripGroup| cuts[group.entry].strips.is_none_or(|strips| strips >= group.needed);
        WayRound { cloth, serves: cuts.iter().all(serves) && groups.iter().all(serves_group), cuts }
    };
    ways.into_iter().flatten().map(way).collect()
}

/// A cutting list as the plan takes it.
pub(super) struct List {
    pub(super) pieces: Vec<Piece>,
    /// The entry of each piece.
    pub(super) entries: Vec<usize>,
    /// The entries whose strips are joined end to end.
    pub(super) joined: Vec<usize>,
    /// The strips from which pieces of several kinds are cut.
    pub(super) groups: Vec<StripGroup>,
}

impl List {
    pub(super) fn new(cuts: &[Cut], cloth: Cloth) -> Option<List> {
        let groups = strip_groups(cuts, cloth);
        let mut list = List { pieces: Vec::new(), entries: Vec::new(), joined: Vec::new(), groups };
        for (entry, cut) in cuts.iter().enumerate() {
            for piece in cut.in_plan(cloth)? {
                list.pieces.push(piece);
                list.entries.push(entry);
            }
            if cut.is_joined_from(cloth) && cut.way(cloth).is_some_and(|way| way.joined.is_some()) {
                list.joined.push(entry);
            }
        }
        Some(list)
    }

    /// What a plan of its pieces takes, by the numbers of the cutting list; `None` where some fit no way round.
    fn taken(self, mut plan: Plan, strip_length: Length, small: Option<Count>) -> Option<Taken> {
        for laid in plan.strips.iter_mut().flat_map(|strips| &mut strips.cuts) {
            laid.piece = self.entries[laid.piece];
        }
        if !self.groups.is_empty() {
            plan.strips = plan.strips.into_iter().flat_map(|strips| self.with_its_pieces(strips)).collect();
        }
        plan.left_over.is_empty().then_some(Taken { plan: Arc::new(plan), strip_length, small, joined: self.joined })
    }

    /// Strips with the pieces of several kinds that are cut from them, where they are told for such.
    fn with_its_pieces(&self, strips: Strips) -> Vec<Strips> {
        let group = match strips.cuts.as_slice() {
            [laid] => self.groups.iter().find(|group| group.entry == laid.piece),
            _ => None,
        };
        group.and_then(|group| group.planned(strips.count)).unwrap_or_else(|| vec![strips])
    }

    /// The strips from which pieces of several kinds are cut that a piece of the list is.
    pub(super) fn group_of(&self, entry: usize) -> Option<&StripGroup> {
        self.groups.iter().find(|group| group.entry == entry)
    }
}

fn on_small(way: &WayRound) -> Option<Taken> {
    let Cloth::Small { across, along, .. } = way.cloth else { return None };
    let list = List::new(&way.cuts, way.cloth)?;
    let (plan, small) = plan_on_small(&list.pieces, across, along);
    list.taken(plan, across, Some(small))
}
