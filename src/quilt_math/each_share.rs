//! What each of several fabrics gives of a cutting list, in whole pieces.

use super::cutting::Cut;
use crate::quantity::Count;

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
