//! What may be bought instead: `1/4 yd or 1 fat quarter`. Each must be enough by itself.

use std::sync::Arc;

use super::fabric::Shop;
pub use super::fabric_size::InsteadNeeds;
use super::fabric_size::{FabricNeeds, FabricSize, planned, sold_as_word};
use super::shares::{How, Sharing, from_each};
use crate::manuscript::model::{Bought, BoughtAs, Instead, SoldAs};
use crate::quantity::{Count, Round};
use crate::quilt_math::cutting::{Cloth, Cut, Shape};
use crate::quilt_math::each_share::share;
use crate::quilt_math::planner::Verdict;
use crate::quilt_math::small_fabrics::fewest;
use crate::quilt_math::strip_group::strip_groups;
use crate::quilt_math::taken::Taken;

/// What is decided about it; `None` where nothing is stated, or a piece does not come out of it.
pub(super) fn instead<'m>(
    fabric: &FabricNeeds<'m>,
    size: &FabricSize<'m>,
    cuts: &[Cut],
    cloth: Option<Cloth>,
    shop: Shop,
) -> Option<InsteadNeeds<'m>> {
    let stated = fabric.stated.instead(size.index)?;
    let cloth = cloth?;
    let shared = size.sharing.filter(|sharing| is_of_each(*sharing, stated));
    let cuts = match shared {
        Some(Sharing { different, .. }) => share(cuts, different, &from_each(fabric.stated, size.index)),
        None => cuts.to_vec(),
    };
    let bought = size.washed(&stated.bought);
    let cloth = washed(cloth, size);
    let (cuts, is_counted) = match fabric.cloth.filter(|own| *own != cloth) {
        Some(own) => of_other_strips(fabric, size, &cuts, (own, cloth)),
        None => (cuts, true),
    };
    let (taken, proof) = planned(&cuts, cloth, Some(&bought), shop);
    let misfit = cuts.iter().position(|cut| cut.within.is_none() && !cut.fits(cloth));
    let none = || Taken { plan: Arc::default(), strip_length: cloth.strip_length(), small: None, joined: Vec::new() };
    if let (None, Some(_)) = (&taken, misfit) {
        return Some(InsteadNeeds { stated, taken: none(), fabrics: Count(1), verdict: Verdict::Short, misfit });
    }
    let mut taken = taken?;
    let mut fabrics = Count(1);
    // Each of several fabrics is among those that are counted in all.
    let different = size.sharing.filter(|_| stated.says != Some(BoughtAs::Each)).map_or(Count(0), |of| of.different);
    let verdict = match &bought {
        Bought::Amount(amount) => {
            let there = amount.value.most().0;
            let enough = taken.plan.length() <= there;
            if enough { Verdict::Enough } else { proof.map_or(Verdict::Short, |proof| proof.verdict(there)) }
        }
        Bought::Count(count) => {
            // A number of all of them together is as many from each.
            let in_all = shared.filter(|_| stated.says.is_none() && count.value > Count(1));
            fabrics = in_all.map_or(Count(1), |sharing| sharing.different);
            let there = Count(count.value.0 / fabrics.0.max(1));
            let known = taken.small?;
            let decided = if there < known { fewest(&cuts, cloth, known) } else { None };
            let (needed, least) = decided.map_or((known, known), |decided| (decided.count, decided.least));
            let is_in_all = shared.is_none();
            let (needed, least) =
                if is_in_all { (needed.max(different), least.max(different)) } else { (needed, least) };
            taken.small = Some(needed);
            match there {
                there if there >= needed => Verdict::Enough,
                there if there < least => Verdict::Short,
                _ => Verdict::Undecided,
            }
        }
    };
    // How many whole strips another fabric must give is not known where nothing says what comes of them.
    let verdict = if verdict == Verdict::Short && !is_counted { Verdict::Undecided } else { verdict };
    Some(InsteadNeeds { stated, taken, fabrics, verdict, misfit: None })
}

/// A small fabric after washing, which takes as much off its length as off fabric from the bolt.
fn washed(cloth: Cloth, size: &FabricSize<'_>) -> Cloth {
    match cloth {
        Cloth::Bolt { .. } => cloth,
        Cloth::Small { across, along, turns } => Cloth::Small { across, along: size.shrinks.left_of(along), turns },
    }
}

/// A cutting list on fabric whose strips are of another length than those that it is stated for: the same pieces, and of
/// strips that are left whole as many as are as long together. Whether it is known that no fewer will do.
fn of_other_strips(
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    cuts: &[Cut],
    (own, other): (Cloth, Cloth),
) -> (Vec<Cut>, bool) {
    let mut is_counted = true;
    let is_group = |entry: usize| cuts.iter().any(|cut| cut.within == Some(entry));
    let of_other = |(entry, cut): (usize, &Cut)| {
        if cut.within.is_some() || is_group(entry) {
            return *cut;
        }
        let cut = Cut { shape: fabric.shape(entry, size.index).unwrap_or(cut.shape), ..*cut };
        let Some(strips) = cut.strips else { return cut };
        if cut.pieces.is_some() {
            let joined = cut.is_joined_from(other).then(|| cut.needed(other)).flatten();
            return Cut { strips: joined.map(|(_, needed)| needed), ..cut };
        }
        is_counted = false;
        let pieces = cut.way(own).filter(|_| !matches!(cut.shape, Shape::WholeStrip { .. }));
        match pieces {
            Some(way) => Cut { strips: None, pieces: Some(way.gives(strips)), ..cut },
            None => {
                let long = own.strip_length() * strips;
                Cut { strips: long.covered_by(other.strip_length()), ..cut }
            }
        }
    };
    let mut cuts: Vec<Cut> = cuts.iter().enumerate().map(of_other).collect();
    for group in strip_groups(&cuts, other) {
        cuts[group.entry].strips = Some(group.needed);
    }
    (cuts, is_counted)
}

/// Whether what may be bought instead is of each of several fabrics. Where nothing says so, it is as the other choice is.
fn is_of_each(sharing: Sharing, stated: &Instead) -> bool {
    match stated.says {
        Some(BoughtAs::Each) => true,
        Some(BoughtAs::InAll | BoughtAs::Packs) => false,
        None => sharing.how == How::Each,
    }
}

impl InsteadNeeds<'_> {
    /// What is stated and what is needed, in words: `1 fat quarter` and `2 fat quarters`.
    pub fn words(&self, size: &FabricSize<'_>, shop: &Shop) -> (String, String) {
        match &self.stated.bought {
            Bought::Count(count) => {
                let word = sold_as_word(Some(self.stated.sold_as));
                (count.value.of(word), (self.taken.small.unwrap_or_default() * self.fabrics).of(word))
            }
            Bought::Amount(amount) => {
                let stated = amount.value.yardage().show_both(shop.measure, Round::Down);
                let unit = amount.value.first.unit;
                (stated, shop.to_buy(size.unwashed(&self.taken), unit).show_both(shop.measure, Round::Up))
            }
        }
    }

    /// What to write for what is needed.
    pub fn written(&self, size: &FabricSize<'_>, shop: &Shop) -> String {
        match &self.stated.bought {
            // Precut strips and squares are counted by the number alone.
            Bought::Count(_) if matches!(self.stated.sold_as, SoldAs::Strips | SoldAs::Squares) => {
                (self.taken.small.unwrap_or_default() * self.fabrics).to_string()
            }
            Bought::Count(_) => self.words(size, shop).1,
            Bought::Amount(amount) => shop.rewrite(&amount.value, size.unwashed(&self.taken)),
        }
    }
}
