//! What is named at one distance from a number.

use super::lexicon::{Cue, PlacedCue};
use super::tokens::Tokens;

/// What is named at one distance.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Level {
    /// What is named.
    pub(crate) cues: Vec<Cue>,
    /// What is named by words that say much else besides.
    pub(crate) weak: Vec<Cue>,
}

/// The nouns among cues.
pub(super) fn nouns_of(cues: &[&PlacedCue]) -> u32 {
    cues.iter().fold(0, |bits, cue| if let Cue::Noun(noun) = cue.cue { bits | noun.bit() } else { bits })
}

/// The subjects among cues.
pub(super) fn level_of(cues: &[&PlacedCue]) -> Level {
    let of =
        |weak: bool| cues.iter().filter(|cue| cue.cue.is_subject() && cue.weak == weak).map(|cue| cue.cue).collect();
    Level { cues: of(false), weak: of(true) }
}

/// The kinds of subjects, which are looked for one by one.
pub(super) fn class(cue: Cue) -> u8 {
    match cue {
        Cue::Piece(..) => 0,
        Cue::Unit(_) => 1,
        Cue::Block(_) => 2,
        Cue::Border(_) => 3,
        Cue::Section(_) => 4,
        Cue::Fabric(_) => 5,
        _ => 6,
    }
}

/// The last subject of each kind among cues that stand before.
pub(super) fn last_of_each(cues: &[&PlacedCue]) -> Level {
    let mut kept: Vec<&PlacedCue> = Vec::new();
    for kind in 0..6 {
        let of_kind = |cue: &&&PlacedCue| class(cue.cue) == kind;
        if let Some(last) = cues.iter().rfind(of_kind) {
            kept.extend(cues.iter().filter(of_kind).filter(|cue| cue.tokens == last.tokens));
        }
    }
    level_of(&kept)
}

/// The sizes of a passage, where it names at least two one after another and no number between.
pub(super) fn sizes_in_order(tokens: &Tokens, cues: &[PlacedCue]) -> Vec<usize> {
    let sizes: Vec<(usize, &PlacedCue)> = cues.iter().filter_map(|cue| Some((cue.cue.size()?, cue))).collect();
    let mut order: Vec<usize> = Vec::new();
    for (index, (size, cue)) in sizes.iter().enumerate() {
        if let Some((_, last)) = index.checked_sub(1).map(|index| &sizes[index]) {
            let between = &tokens.list[last.tokens.end..cue.tokens.start];
            if between.iter().any(|token| token.number().is_some()) || between.len() > 4 {
                return Vec::new();
            }
        }
        if order.contains(size) {
            return Vec::new();
        }
        order.push(*size);
    }
    // `Crib to king` are all between them.
    if let ([first, last], [(_, one), (_, other)]) = (&order[..], &sizes[..])
        && first < last
        && let [joint] = &tokens.list[one.tokens.end..other.tokens.start]
        && (matches!(joint.stem.as_str(), "to" | "through") || joint.is_sign('–'))
    {
        return (*first..=*last).collect();
    }
    order
}
