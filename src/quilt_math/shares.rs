//! A cutting list that several fabrics share: what each of them gives.
//!
//! Each gives its share in whole pieces, so that the shares are rounded up: 162 squares from 25 fabrics are 7 from each
//! (common practice). What no fabric can do without, however the pieces are shared: each gives its share rounded down, and
//! one of them the share of a kind rounded up.

use super::cutting::{Cloth, Cut};
use super::cutting_list::taken;
use super::proof::Proof;
use super::small_fabrics::fewest;
use crate::quantity::{Count, Length};

/// What each of several fabrics gives, rounded up; `from_each` is what the text states of each entry.
pub fn share(cuts: &[Cut], among: Count, from_each: &[Option<Count>]) -> Vec<Cut> {
    let part = |count: Count| count.in_groups_of(among).unwrap_or(count);
    shared(cuts, from_each, part, part)
}

/// Lists of which each must come out of one of the fabrics at least, however the pieces are shared.
pub fn least_shares(cuts: &[Cut], among: Count, from_each: &[Option<Count>]) -> Vec<Vec<Cut>> {
    let down = |count: Count| Count(count.0.checked_div(among.0).unwrap_or(count.0));
    let least = shared(cuts, from_each, down, down);
    let most = share(cuts, among, from_each);
    let uneven = (0..cuts.len()).filter(|entry| least[*entry] != most[*entry]);
    let raised = uneven.map(|entry| {
        let mut list = least.clone();
        list[entry] = most[entry];
        list
    });
    let lists: Vec<Vec<Cut>> = raised.collect();
    if lists.is_empty() { vec![least] } else { lists }
}

fn shared(
    cuts: &[Cut],
    from_each: &[Option<Count>],
    pieces: impl Fn(Count) -> Count,
    strips: impl Fn(Count) -> Count,
) -> Vec<Cut> {
    let each = |(entry, cut): (usize, &Cut)| {
        let stated = from_each.get(entry).copied().flatten();
        Cut { pieces: stated.or_else(|| cut.pieces.map(&pieces)), strips: cut.strips.map(&strips), ..*cut }
    };
    cuts.iter().enumerate().map(each).collect()
}

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
