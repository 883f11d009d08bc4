//! A cutting list that several fabrics share: what each of them gives.
//!
//! Each gives its share in whole pieces, so that the shares are rounded up: 162 squares from 25 fabrics are 7 from each
//! (common practice). What no fabric can do without, however the pieces are shared: each gives its share rounded down, and
//! one of them the share of a kind rounded up.

use super::cutting::{Cloth, Cut};
use super::cutting_list::taken;
use super::each_share::share;
use super::proof::Proof;
use super::small_fabrics::fewest;
use crate::quantity::{Count, Length};

/// No way of sharing and cutting takes less of each fabric than this; `None` where a piece fits no way round.
pub fn least_of_each(lists: &[Vec<Cut>], cloth: Cloth) -> Option<Length> {
    let least = |list: &Vec<Cut>| {
        let first = taken(list, cloth)?;
        Some(Proof::new(list, cloth, &first).map_or_else(|| first.plan.length(), |proof| proof.least().length))
    };
    lists.iter().filter_map(least).max()
}

/// Whether one small fabric gives a list: `None` where that is not decided.
pub fn comes_of_one(list: &[Cut], cloth: Cloth) -> Option<bool> {
    let known = taken(list, cloth)?.small?;
    if known.0 <= 1 {
        return Some(true);
    }
    let decided = fewest(list, cloth, known)?;
    match (decided.count.0, decided.least.0) {
        (0 | 1, _) => Some(true),
        (_, 2..) => Some(false),
        _ => None,
    }
}

/// The fewest small fabrics of which each gives its share, as far as plans were found; `None` where even one piece of each
/// kind does not come out of one.
pub fn fewest_alike(cuts: &[Cut], cloth: Cloth, from_each: &[Option<Count>]) -> Option<Count> {
    let enough = |among: u64| comes_of_one(&share(cuts, Count(among), from_each), cloth) == Some(true);
    let most = cuts.iter().filter_map(|cut| cut.pieces.max(cut.strips)).max()?.0.max(1);
    // As many as give all pieces by what the text states of each.
    let stated = cuts.iter().zip(from_each).filter_map(|(cut, each)| cut.pieces?.in_groups_of((*each)?));
    let stated = stated.max().unwrap_or(Count(1)).0.max(1);
    if stated > 1 && enough(stated) {
        return Some(Count(stated));
    }
    let mut high = stated;
    while !enough(high) {
        if high >= most {
            return None;
        }
        high = (high * 2).min(most);
    }
    let mut low = (high / 2).max(stated - 1);
    while high - low > 1 {
        let middle = u64::midpoint(low, high);
        if enough(middle) { high = middle } else { low = middle }
    }
    Some(Count(high))
}
