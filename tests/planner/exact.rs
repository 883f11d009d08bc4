//! The least length of a few pieces, exactly, by looking at every cut from edge to edge: a second computation that
//! shares nothing with the planner.

use super::lists::Piece;

const NEVER: i64 = i64::MAX / 4;

/// The least length of fabric so wide that single pieces take; `None` where one fits no way round.
pub(crate) fn least_length(pieces: &[Piece], width: i64) -> Option<i64> {
    least_lengths(pieces, width).last().and_then(|row| row.last().copied()).filter(|length| *length < NEVER)
}

/// For every choice of single pieces (a bit each) and every width: the least length.
fn least_lengths(pieces: &[Piece], width: i64) -> Vec<Vec<i64>> {
    let single: Vec<Piece> = pieces.iter().flat_map(|piece| (0..piece.count).map(|_| *piece)).collect();
    let widths = usize::try_from(width).unwrap() + 1;
    let mut least = vec![vec![NEVER; widths]; 1 << single.len()];
    least[0] = vec![0; widths];
    for choice in 1..least.len() {
        let mut row = vec![NEVER; widths];
        if choice.is_power_of_two() {
            let piece = single[choice.trailing_zeros() as usize];
            for (across, along) in piece.ways() {
                for least in row.iter_mut().skip(usize::try_from(across).unwrap()) {
                    *least = (*least).min(along);
                }
            }
        }
        let mut part = (choice - 1) & choice;
        while part > choice ^ part {
            let (one, other) = (&least[part], &least[choice ^ part]);
            for across in 0..widths {
                let mut best = row[across].min(one[across] + other[across]);
                for left in 1..across {
                    best = best.min(one[left].max(other[across - left]));
                }
                row[across] = best;
            }
            part = (part - 1) & choice;
        }
        least[choice] = row;
    }
    least
}

/// The fewest rectangles of one size that hold all pieces; `None` where one fits no way round.
pub(crate) fn fewest_fabrics(pieces: &[Piece], width: i64, length: i64) -> Option<u64> {
    let lengths = least_lengths(pieces, width);
    let fits: Vec<bool> = lengths.iter().map(|row| row.last().is_some_and(|least| *least <= length)).collect();
    let choices = lengths.len();
    let mut fewest = vec![0_u64; choices];
    for choice in 1..choices {
        let mut best = u64::MAX;
        let mut part = choice;
        while part > 0 {
            if fits[part] {
                best = best.min(fewest[choice ^ part].saturating_add(1));
            }
            part = (part - 1) & choice;
        }
        fewest[choice] = best;
    }
    fewest.last().copied().filter(|fewest| *fewest < u64::MAX)
}

/// Strips of one width that are told for the first of the single pieces, so many of them.
pub(crate) struct FilledStrips {
    pub(crate) strips: i64,
    pub(crate) width: i64,
}

/// The least length that single pieces take where strips are told for the first kind of them: those come out of the
/// told strips, and others may lie in these too; `None` where one fits no way round, or the strips are too few.
pub(crate) fn least_length_with_told(pieces: &[Piece], told: &FilledStrips, width: i64) -> Option<i64> {
    let lengths: Vec<i64> = least_lengths(pieces, width).iter().filter_map(|row| row.last().copied()).collect();
    let mut reached = vec![false; lengths.len()];
    reached[0] = true;
    for _ in 0..told.strips {
        let before = reached.clone();
        for placed in (0..lengths.len()).filter(|placed| before[*placed]) {
            for more in (1..lengths.len()).filter(|more| placed & more == 0 && lengths[*more] <= told.width) {
                reached[placed | more] = true;
            }
        }
    }
    let own = (1_usize << pieces[0].count) - 1;
    let all = lengths.len() - 1;
    let ways = (0..lengths.len()).filter(|placed| reached[*placed] && placed & own == own);
    let beside = ways.map(|placed| lengths[all ^ placed]).min().filter(|length| *length < NEVER)?;
    Some(told.strips * told.width + beside)
}

/// The fewest rectangles of one size that hold single pieces where strips as long as the rectangle are told for the
/// first kind of them: those come out of the told strips, and others may lie in these too.
pub(crate) fn fewest_fabrics_with_told(pieces: &[Piece], told: &FilledStrips, across: i64, along: i64) -> Option<u64> {
    let single: Vec<Piece> =
        pieces.iter().flat_map(|piece| (0..piece.count).map(|_| Piece { count: 1, ..*piece })).collect();
    let lengths: Vec<i64> = least_lengths(pieces, across).iter().filter_map(|row| row.last().copied()).collect();
    let mut reached = vec![false; lengths.len()];
    reached[0] = true;
    for _ in 0..told.strips {
        let before = reached.clone();
        for placed in (0..lengths.len()).filter(|placed| before[*placed]) {
            for more in (1..lengths.len()).filter(|more| placed & more == 0 && lengths[*more] <= told.width) {
                reached[placed | more] = true;
            }
        }
    }
    let own = (1_usize << pieces[0].count) - 1;
    let strips = Piece { across, along: told.width, count: told.strips, turns: false };
    let ways = (0..lengths.len()).filter(|placed| reached[*placed] && placed & own == own);
    let fabrics = ways.filter_map(|placed| {
        let others = single.iter().enumerate().filter(|(number, _)| placed & (1 << number) == 0);
        let list: Vec<Piece> = std::iter::once(strips).chain(others.map(|(_, piece)| *piece)).collect();
        fewest_fabrics(&list, across, along)
    });
    fabrics.min()
}
