//! The signs of a number for one number of the manuscript, in parts: each goes by as little as it needs, so that what
//! many keys share is asked once.

use super::super::key_groups::KeyForm;
use super::super::keys::{Key, ValueKind, What};
use super::super::lexicon::{Act, Cue};
use super::number::Number;
use super::sign::{Kind, Sign, Word, sign, word, words, yes};

/// The signs of a number for a key, besides those of its kind.
pub(super) fn of_key<S: Sign>(number: &Number<'_, '_>, place: usize, sink: &mut impl FnMut(S)) {
    let gathered = number.gathered;
    let key = &gathered.keys.list[place];
    let thing = gathered.keys.groups.things.of[place];
    let candidates = number.candidates;
    let mut add = |words: &[Word<'_>]| sink(sign::<S>(words));
    of_likeness(candidates.fits.likeness(gathered.keys, place), &mut add);
    of_stated(key, &mut add);
    of_count(key.form(), candidates.has_unit, &mut add);
    of_size(number, key.size, &mut add);
    of_words(number, key, &mut add);
    let named = of_thing(number, thing, &mut add);
    of_named(&named, key.what, &mut add);
    of_families(number, gathered.keys.groups.lines.of[place], &mut add);
    of_told(number.times_told(place), key.is_stated(), &mut add);
    of_told_in_line(number.is_told_in_line(place), key.what, &mut add);
    for (side, neighbor) in Side::ALL.into_iter().zip([number.previous, number.next]) {
        let Some(neighbor) = neighbor else { continue };
        let whats = whats_of(&same_things(number, neighbor, thing), key.size);
        of_neighbor(side, whats, key.what, &mut add);
    }
    let near = near_to(number, thing);
    nearest_of(number, &near, (key.size, key.what), Some(place), |nearest| of_near(nearest, key.what, &mut add));
    of_kept((number.is_kept(place), number.is_wide(place)), (candidates.is_fitted, candidates.is_named), &mut add);
}

/// By whether it is of its kind by form and unit, and whether by its form.
pub(super) fn of_likeness((is_kind, is_form): (bool, bool), add: &mut impl FnMut(&[Word<'_>])) {
    add(&[word!("of-kind"), yes(is_kind), yes(is_form)]);
}

pub(super) fn of_stated(key: &Key, add: &mut impl FnMut(&[Word<'_>])) {
    add(&[word!("stated"), yes(key.is_stated()), yes(key.is_sure)]);
    add(&[word!("stated"), yes(key.is_stated()), key.what.word()]);
}

pub(super) fn of_count((_, value): KeyForm, has_unit: bool, add: &mut impl FnMut(&[Word<'_>])) {
    add(&[word!("count"), yes(value == ValueKind::Count), yes(has_unit)]);
}

pub(super) fn of_kept(
    (is_kept, is_wide): (bool, bool),
    (is_fitted, is_named): (bool, bool),
    add: &mut impl FnMut(&[Word<'_>]),
) {
    add(&[word!("kept"), yes(is_kept), yes(is_wide)]);
    add(&[word!("kept"), yes(is_kept), yes(is_fitted), yes(is_named)]);
}

pub(super) fn of_size(number: &Number<'_, '_>, size: Option<usize>, add: &mut impl FnMut(&[Word<'_>])) {
    let around = &number.candidates.around;
    let sizes = &around.sizes;
    let word = match size {
        None if around.is_unsized() => word!("of-all-unsaid"),
        None => word!("of-all"),
        Some(size) if !sizes.is_empty() && !sizes.contains(&size) => word!("other"),
        Some(_) if around.is_unsized() => word!("unsaid"),
        Some(_) if sizes.len() == 1 => word!("said"),
        Some(_) => word!("one-of-those-said"),
    };
    add(&[word!("size"), word]);
    add(&[word!("size"), word, number.size_from]);
}

/// By what is counted and done.
pub(super) fn of_words(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[Word<'_>])) {
    let around = &number.candidates.around;
    let kind = key.what.word();
    if around.nouns == 0 {
        add(&[word!("noun"), word!("-")]);
    } else {
        let is = yes(key.nouns & around.nouns != 0);
        add(&[word!("noun"), number.noun_place(), is]);
        add(&[word!("noun"), number.noun_place(), is, kind]);
    }
    let said = around.sentence_nouns;
    add(&[word!("sentence"), if said == 0 { word!("-") } else { yes(said & key.nouns != 0) }]);
    if around.acts != 0 {
        let near = if around.act_is_near { word!("near") } else { word!("far") };
        add(&[word!("act"), near, yes(key.acts & around.acts != 0)]);
        for act in Act::in_bits(around.acts) {
            add(&[word!("act"), Word::new(act.word()), near, yes(key.acts & act.bit() != 0)]);
        }
    }
}

/// What is named around a number and is a thing, or is another of its kind.
#[derive(Default)]
pub(super) struct Named {
    /// Of the kinds that are named at the number itself.
    here: [Option<bool>; Kind::ALL.len()],
    /// Of the kinds of the thing, whether it is named at any distance.
    said: [Option<bool>; Kind::ALL.len()],
    /// Of the kinds that its sentence names on each side.
    beside: Vec<(Word<'static>, Kind, bool)>,
}

/// How a thing stands to what is named round a number and to what stands with it: all that its signs go by.
#[derive(PartialEq, Eq)]
pub(super) struct Relation {
    /// Which of the cues that are named it is of, as bits.
    named: u128,
    /// Of which kinds its cues are, as bits.
    kinds: u8,
    pieces: usize,
    line: Word<'static>,
    line_fabrics: Word<'static>,
    passage: Word<'static>,
}

impl Relation {
    /// Nothing where more is named than there are bits.
    pub(super) fn new(number: &Number<'_, '_>, thing: usize) -> Option<Relation> {
        let gathered = number.gathered;
        let of = &gathered.keys.list[gathered.keys.groups.things.first[thing]].of[..];
        let (mut named, mut kinds) = (0, 0);
        for cue in of {
            if let Ok(at) = number.cues.binary_search(cue) {
                named |= 1_u128.checked_shl(u32::try_from(at).ok()?)?;
            }
            kinds |= Kind::of(*cue).map_or(0, |kind| 1 << kind as u8);
        }
        Some(Relation {
            named,
            kinds,
            pieces: of.iter().filter(|cue| matches!(cue, Cue::Piece(..))).count(),
            line: number.line.rank(&gathered.owners_of[thing]),
            line_fabrics: number.line_fabrics.rank(&gathered.fabrics_of[thing]),
            passage: number.passage.rank(&gathered.owners_of[thing]),
        })
    }
}

/// By what is named around it and what stands with it, whatever kind of number of a thing is meant.
pub(super) fn of_thing(number: &Number<'_, '_>, thing: usize, add: &mut impl FnMut(&[Word<'_>])) -> Named {
    let gathered = number.gathered;
    let of = &gathered.keys.list[gathered.keys.groups.things.first[thing]].of[..];
    let mut named = Named::default();
    of_levels(number, of, &mut named, add);
    of_sources(number, of, add);
    of_sentence(number, of, &mut named, add);
    of_pieces(number, of, add);
    if number.line.of == 0 {
        add(&[word!("line"), word!("-")]);
    } else {
        add(&[word!("line"), number.line.rank(&gathered.owners_of[thing])]);
        add(&[word!("line-fabric"), number.line_fabrics.rank(&gathered.fabrics_of[thing])]);
    }
    if number.passage.of > 0 {
        add(&[word!("in-passage"), number.passage.rank(&gathered.owners_of[thing])]);
    }
    named
}

/// By what is named around it, for a kind of number of a thing.
pub(super) fn of_named(named: &Named, what: What, add: &mut impl FnMut(&[Word<'_>])) {
    for kind in Kind::ALL {
        if let Some(is) = named.here[kind as usize] {
            add(&[word!("named-here"), kind.word(), yes(is), what.word()]);
        }
        if let Some(is) = named.said[kind as usize] {
            add(&[word!("said"), kind.word(), yes(is), what.word()]);
        }
    }
    for (side, kind, is) in &named.beside {
        add(&[*side, kind.word(), yes(*is), what.word()]);
    }
}

const DISTANCES: [Word<'_>; 4] = words!["0", "1", "2", "3"];

/// By what is named at each distance.
fn of_levels(number: &Number<'_, '_>, of: &[Cue], named: &mut Named, add: &mut impl FnMut(&[Word<'_>])) {
    let mut is_first = [true; Kind::ALL.len()];
    let mut is_said = [false; Kind::ALL.len()];
    for (distance, level) in number.levels().enumerate() {
        let at = DISTANCES[distance.min(3)];
        for (cues, name) in [(&level.cues, word!("level")), (&level.weak, word!("weak"))] {
            let are = are_of(of, cues);
            for kind in Kind::ALL {
                let Some(is) = are[kind as usize] else { continue };
                is_said[kind as usize] |= is;
                add(&[name, kind.word(), at, yes(is)]);
                if name == word!("level") && std::mem::take(&mut is_first[kind as usize]) {
                    add(&[word!("first"), kind.word(), yes(is)]);
                    named.here[kind as usize] = (distance == 0).then_some(is);
                }
            }
        }
    }
    for kind in of.iter().filter_map(|cue| Kind::of(*cue)) {
        named.said[kind as usize] = Some(is_said[kind as usize]);
    }
    for kind in Kind::ALL {
        if let Some(is) = named.said[kind as usize] {
            add(&[word!("said"), kind.word(), yes(is)]);
        }
    }
    let is_thing = |kind: &Kind| !matches!(kind, Kind::Quilt | Kind::Fabric);
    add(&[word!("said"), yes(Kind::ALL.into_iter().filter(is_thing).any(|kind| is_said[kind as usize]))]);
}

/// Whether what something is of is one of the cues of each kind; nothing where there are none of the kind.
fn are_of(of: &[Cue], cues: &[Cue]) -> [Option<bool>; Kind::ALL.len()] {
    let mut are = [None; Kind::ALL.len()];
    for cue in cues {
        if let Some(kind) = Kind::of(*cue) {
            let is = &mut are[kind as usize];
            *is = Some(*is == Some(true) || of.contains(cue));
        }
    }
    are
}

/// By what its passage names, and by each head and heading.
fn of_sources(number: &Number<'_, '_>, of: &[Cue], add: &mut impl FnMut(&[Word<'_>])) {
    let passage = are_of(of, &number.named);
    for kind in Kind::ALL {
        if let Some(is) = passage[kind as usize] {
            add(&[word!("passage"), kind.word(), yes(is)]);
        }
    }
    let mut is_first = [true; Kind::ALL.len()];
    for (name, cues) in &number.above {
        let are = are_of(of, cues);
        for kind in Kind::ALL {
            let Some(is) = are[kind as usize] else { continue };
            add(&[*name, kind.word(), yes(is)]);
            if std::mem::take(&mut is_first[kind as usize]) {
                let has = of.iter().any(|cue| Kind::of(*cue) == Some(kind));
                add(&[word!("first-above"), kind.word(), yes(is), yes(has)]);
            }
        }
    }
}

/// By what its sentence names, and how far from it.
fn of_sentence(number: &Number<'_, '_>, of: &[Cue], named: &mut Named, add: &mut impl FnMut(&[Word<'_>])) {
    for beside in &number.beside {
        let is = beside.cues.iter().any(|cue| of.contains(cue));
        let far = match beside.distance {
            0 | 1 => word!("1"),
            2 | 3 => word!("3"),
            4..=7 => word!("7"),
            _ => word!("far"),
        };
        add(&[beside.side, beside.kind.word(), yes(is), far, yes(beside.is_parted)]);
        named.beside.push((beside.side, beside.kind, is));
    }
    if let Some(nearest) = number.beside.first() {
        let is_there =
            |beside: &&super::number::Beside| beside.side == nearest.side && beside.distance == nearest.distance;
        let mut there = number.beside.iter().filter(is_there).flat_map(|beside| &beside.cues);
        add(&[word!("nearest"), yes(there.any(|cue| of.contains(cue))), nearest.side, yes(nearest.is_parted)]);
    }
}

/// Whether it is of all pieces that its sentence names, and of no other: `48 squares of L and D`.
fn of_pieces(number: &Number<'_, '_>, of: &[Cue], add: &mut impl FnMut(&[Word<'_>])) {
    const MANY: [Word<'_>; 3] = words!["0", "1", "2"];
    let named = &number.pieces;
    let own = of.iter().filter(|cue| matches!(cue, Cue::Piece(..))).count();
    let both = named.iter().filter(|cue| of.contains(cue)).count();
    add(&[word!("pieces"), MANY[named.len().min(2)], MANY[own.min(2)], yes(both == named.len()), yes(both == own)]);
}

/// By what the other numbers of its families are by their values.
pub(super) fn of_families(number: &Number<'_, '_>, line: usize, add: &mut impl FnMut(&[Word<'_>])) {
    let ranks = number.families.iter().map(|family| family.rank(line));
    add(&[word!("family"), ranks.max_by_key(|(rank, _)| *rank).map_or(word!("-"), |(_, name)| name)]);
}

/// By how many others are it by value and by name, as far as that is told apart.
pub(super) fn of_told(times: usize, is_stated: bool, add: &mut impl FnMut(&[Word<'_>])) {
    add(&[word!("told"), TIMES[times], yes(is_stated)]);
}

/// The numbers of times that are told apart; the last is as many and more.
pub(super) const TIMES: [Word<'_>; 3] = words!["0", "1", "2"];

pub(super) fn of_told_in_line(is: bool, what: What, add: &mut impl FnMut(&[Word<'_>])) {
    add(&[word!("told-in-line"), yes(is), what.word()]);
}

/// The numbers before and after one in its line.
#[derive(Clone, Copy)]
pub(super) enum Side {
    Previous,
    Next,
}

impl Side {
    pub(super) const ALL: [Side; 2] = [Side::Previous, Side::Next];

    pub(super) const fn word(self) -> Word<'static> {
        match self {
            Side::Previous => word!("previous"),
            Side::Next => word!("next"),
        }
    }
}

/// What a neighbor is of a thing by its value, for which size.
pub(super) fn same_things(number: &Number<'_, '_>, neighbor: usize, thing: usize) -> Vec<(Option<usize>, What)> {
    let gathered = number.gathered;
    let mine = &gathered.owners_of[thing];
    if !mine.iter().any(|owner| gathered.owners[neighbor].binary_search(owner).is_ok()) {
        return Vec::new();
    }
    let is_mine = |key: &&usize| {
        let of = &gathered.owners_of[gathered.keys.groups.things.of[**key]];
        of.iter().any(|owner| mine.contains(owner))
    };
    let same = gathered.same[neighbor].iter().filter(is_mine).map(|key| &gathered.keys.list[*key]);
    same.map(|key| (key.size, key.what)).collect()
}

/// The kinds of those that are for a size, as bits.
pub(super) fn whats_of(same: &[(Option<usize>, What)], size: Option<usize>) -> u32 {
    let is_for = |of: Option<usize>| of.is_none() || size.is_none() || of == size;
    same.iter().filter(|(of, _)| is_for(*of)).fold(0, |whats, (_, what)| whats | 1 << *what as u32)
}

/// By what the number before or after it is of the same thing.
pub(super) fn of_neighbor(side: Side, whats: u32, own: What, add: &mut impl FnMut(&[Word<'_>])) {
    add(&[side.word(), word!("same"), yes(whats != 0)]);
    for what in What::ALL.into_iter().filter(|what| whats & 1 << *what as u32 != 0) {
        add(&[side.word(), what.word(), word!("of-it"), own.word()]);
    }
}

/// How near to a thing each key is that the numbers beside one came to before the weights, one number after another.
pub(super) fn near_to(number: &Number<'_, '_>, thing: usize) -> Vec<u8> {
    let gathered = number.gathered;
    let (things, kin) = (&gathered.keys.groups.things.of, gathered.kin.of(thing));
    number.near.iter().flat_map(|(_, keys)| keys.iter()).map(|key| kin[things[*key]]).collect()
}

/// Where a number stands beside another, and what it came to before the weights.
pub(super) const PLACES: [Word<'_>; 6] = words!["previous", "next", "earlier", "later", "above-it", "below-it"];

/// How near what two keys are of is: nothing, a fabric, another owner or all of it is the same.
pub(super) const KIN: [Word<'_>; 4] = words!["other", "fabric", "owner", "same"];

/// How the sizes of two keys stand to each other.
pub(super) const SIZES: [Word<'_>; 6] = words!["none", "same", "after", "before", "other", "one"];

/// What a number beside one came to before the weights, as it stands to a key: of several, the nearest to it.
#[derive(Clone, Copy)]
pub(super) struct Nearest {
    /// Among [`PLACES`].
    pub(super) place: usize,
    /// Whether it is the key itself.
    pub(super) is_key: bool,
    /// Among [`KIN`].
    pub(super) kin: usize,
    /// Among [`SIZES`].
    pub(super) size: usize,
    pub(super) what: What,
    pub(super) is_what: bool,
}

/// What the numbers beside it came to before the weights, for a key of a size and a kind; which key that is matters only
/// where one of them is of the same thing.
pub(super) fn nearest_of(
    number: &Number<'_, '_>,
    mut near: &[u8],
    (own_size, own_what): (Option<usize>, What),
    key: Option<usize>,
    mut each: impl FnMut(Nearest),
) {
    let list = &number.gathered.keys.list;
    for (place, keys) in &number.near {
        let (kins, rest) = near.split_at(keys.len());
        near = rest;
        let kin = |(other, kin): &(usize, u8)| (*kin, list[*other].size == own_size, list[*other].what == own_what);
        let Some((nearest, kin)) = keys.iter().copied().zip(kins.iter().copied()).max_by_key(kin) else { continue };
        let of = &list[nearest];
        let size = match (of.size, own_size) {
            (None, None) => 0,
            (Some(of), Some(own)) if of == own => 1,
            (Some(of), Some(own)) if of + 1 == own => 2,
            (Some(of), Some(own)) if of == own + 1 => 3,
            (Some(_), Some(_)) => 4,
            _ => 5,
        };
        let (is_key, is_what) = (Some(nearest) == key, of.what == own_what);
        each(Nearest { place: *place, is_key, kin: usize::from(kin), size, what: of.what, is_what });
    }
}

/// By what a number beside it came to, for a key of a kind.
pub(super) fn of_near(nearest: Nearest, own: What, add: &mut impl FnMut(&[Word<'_>])) {
    let Nearest { place, is_key, kin, size, what, is_what } = nearest;
    add(&near_key(place, is_key));
    add(&near_size(place, kin, size));
    add(&near_what(place, kin, what, own));
    add(&near_kind(place, size, is_what));
}

pub(super) const fn near_key(place: usize, is: bool) -> [Word<'static>; 3] {
    [PLACES[place], word!("is"), yes(is)]
}

pub(super) const fn near_size(place: usize, kin: usize, size: usize) -> [Word<'static>; 4] {
    [PLACES[place], word!("of"), KIN[kin], SIZES[size]]
}

pub(super) const fn near_what(place: usize, kin: usize, what: What, own: What) -> [Word<'static>; 5] {
    [PLACES[place], word!("of"), KIN[kin], what.word(), own.word()]
}

pub(super) const fn near_kind(place: usize, size: usize, is: bool) -> [Word<'static>; 4] {
    [PLACES[place], word!("size"), SIZES[size], yes(is)]
}
