//! The signs of a number for one number of the manuscript.

use std::collections::BTreeSet;

use super::super::keys::{Key, KeyValue, What};
use super::super::lexicon::{Act, Cue};
use super::number::Number;
use super::sign::{Kind, Sign, sign, yes};

/// The signs of a number for a key, besides those of its kind.
pub(super) fn of_key<S: Sign>(number: &Number<'_, '_>, place: usize, sink: &mut impl FnMut(S)) {
    let key = &number.gathered.keys.list[place];
    let mut add = |words: &[&str]| sink(sign::<S>(words));
    of_kind(number, place, &mut add);
    of_size(number, key, &mut add);
    of_words(number, key, &mut add);
    of_levels(number, key, &mut add);
    of_sources(number, key, &mut add);
    of_sentence(number, key, &mut add);
    of_pieces(number, key, &mut add);
    of_others(number, place, &mut add);
    of_neighbors(number, place, &mut add);
    of_near(number, place, &mut add);
    let candidates = number.candidates;
    let kept = (candidates.keys.contains(&place), candidates.wide.contains(&place));
    add(&["kept", yes(kept.0), yes(kept.1)]);
    add(&["kept", yes(kept.0), yes(candidates.is_fitted), yes(candidates.is_named)]);
}

fn of_kind(number: &Number<'_, '_>, place: usize, add: &mut impl FnMut(&[&str])) {
    let key = &number.gathered.keys.list[place];
    if let Some(like) = number.likeness(place) {
        add(&["of-kind", yes(like.is_kind), yes(like.is_form)]);
    }
    add(&["stated", yes(key.is_stated()), yes(key.is_sure)]);
    add(&["stated", yes(key.is_stated()), key.what.word()]);
    add(&["count", yes(matches!(key.value, KeyValue::Count(_))), yes(number.candidates.has_unit)]);
}

fn of_size(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    let sizes = &number.candidates.around.sizes;
    let word = match key.size {
        None if sizes.is_empty() => "of-all-unsaid",
        None => "of-all",
        Some(_) if sizes.is_empty() => "unsaid",
        Some(size) if !sizes.contains(&size) => "other",
        Some(_) if sizes.len() == 1 => "said",
        Some(_) => "one-of-those-said",
    };
    add(&["size", word]);
}

fn of_words(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    let around = &number.candidates.around;
    let kind = key.what.word();
    if around.nouns == 0 {
        add(&["noun", "-"]);
    } else {
        let is = yes(key.nouns & around.nouns != 0);
        add(&["noun", number.noun_place(), is]);
        add(&["noun", number.noun_place(), is, kind]);
    }
    let said = around.sentence_nouns;
    add(&["sentence", if said == 0 { "-" } else { yes(said & key.nouns != 0) }]);
    if around.acts != 0 {
        let near = if around.act_is_near { "near" } else { "far" };
        add(&["act", near, yes(key.acts & around.acts != 0)]);
        for act in Act::in_bits(around.acts) {
            add(&["act", act.word(), near, yes(key.acts & act.bit() != 0)]);
        }
    }
}

const DISTANCES: [&str; 4] = ["0", "1", "2", "3"];

/// By what is named at each distance.
fn of_levels(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    let what = key.what.word();
    let mut is_first = [true; Kind::ALL.len()];
    let mut is_said = [false; Kind::ALL.len()];
    for (distance, level) in number.candidates.around.subjects.iter().enumerate().take(5) {
        let at = DISTANCES[distance.min(3)];
        for kind in Kind::ALL {
            for (cues, name) in [(&level.cues, "level"), (&level.weak, "weak")] {
                let Some(is) = is_of(key, kind, cues.iter()) else { continue };
                is_said[kind as usize] |= is;
                add(&[name, kind.word(), at, yes(is)]);
                if name == "level" && std::mem::take(&mut is_first[kind as usize]) {
                    add(&["first", kind.word(), yes(is)]);
                    if distance == 0 {
                        add(&["named-here", kind.word(), yes(is), what]);
                    }
                }
            }
        }
    }
    for kind in Kind::ALL {
        if key.of.iter().any(|cue| Kind::of(*cue) == Some(kind)) {
            let is = yes(is_said[kind as usize]);
            add(&["said", kind.word(), is]);
            add(&["said", kind.word(), is, what]);
        }
    }
    let is_thing = |kind: &Kind| !matches!(kind, Kind::Quilt | Kind::Fabric);
    add(&["said", yes(Kind::ALL.into_iter().filter(is_thing).any(|kind| is_said[kind as usize]))]);
}

/// Whether a key is of one of the cues of a kind; nothing where there are none.
fn is_of<'c>(key: &Key, kind: Kind, cues: impl Iterator<Item = &'c Cue>) -> Option<bool> {
    let mut is = None;
    for cue in cues.filter(|cue| Kind::of(**cue) == Some(kind)) {
        is = Some(is.unwrap_or(false) || key.is_of(*cue));
    }
    is
}

/// By what its passage names, and by each head and heading.
fn of_sources(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    for kind in Kind::ALL {
        if let Some(is) = is_of(key, kind, number.named.iter()) {
            add(&["passage", kind.word(), yes(is)]);
        }
        let has = key.of.iter().any(|cue| Kind::of(*cue) == Some(kind));
        let mut is_first = true;
        for (name, cues) in &number.above {
            let Some(is) = is_of(key, kind, cues.iter()) else { continue };
            add(&[name, kind.word(), yes(is)]);
            if std::mem::take(&mut is_first) {
                add(&["first-above", kind.word(), yes(is), yes(has)]);
            }
        }
    }
}

/// By what its sentence names, and how far from it.
fn of_sentence(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    let mut seen: Vec<(&str, Kind)> = Vec::new();
    let at = |side: &'static str, kind: Option<Kind>, distance: usize| {
        let beside = number.beside.iter();
        let fits = move |beside: &&super::number::Beside| {
            beside.side == side && beside.distance == distance && kind.is_none_or(|kind| beside.kind == kind)
        };
        beside.filter(fits).any(|beside| key.is_of(beside.cue))
    };
    for beside in &number.beside {
        if seen.contains(&(beside.side, beside.kind)) {
            continue;
        }
        seen.push((beside.side, beside.kind));
        let is = yes(at(beside.side, Some(beside.kind), beside.distance));
        let far = match beside.distance {
            0 | 1 => "1",
            2 | 3 => "3",
            4..=7 => "7",
            _ => "far",
        };
        add(&[beside.side, beside.kind.word(), is, far, yes(beside.is_parted)]);
        add(&[beside.side, beside.kind.word(), is, key.what.word()]);
    }
    if let Some(nearest) = number.beside.first() {
        add(&["nearest", yes(at(nearest.side, None, nearest.distance)), nearest.side, yes(nearest.is_parted)]);
    }
}

/// Whether it is of all pieces that its sentence names, and of no other: `48 squares of L and D`.
fn of_pieces(number: &Number<'_, '_>, key: &Key, add: &mut impl FnMut(&[&str])) {
    const MANY: [&str; 3] = ["0", "1", "2"];
    let is_piece = |cue: &Cue| matches!(cue, Cue::Piece(..));
    let named: BTreeSet<Cue> = number.beside.iter().map(|beside| beside.cue).filter(is_piece).collect();
    let own = key.of.iter().filter(|cue| is_piece(cue)).count();
    let both = named.iter().filter(|cue| key.is_of(**cue)).count();
    add(&["pieces", MANY[named.len().min(2)], MANY[own.min(2)], yes(both == named.len()), yes(both == own)]);
}

/// By what the other numbers of its line, its passage, its families and its column are by their values.
fn of_others(number: &Number<'_, '_>, place: usize, add: &mut impl FnMut(&[&str])) {
    let gathered = number.gathered;
    let what = gathered.keys.list[place].what;
    if number.line.of == 0 {
        add(&["line", "-"]);
    } else {
        add(&["line", number.line.rank(&gathered.owners_of[place])]);
        add(&["line-fabric", number.line_fabrics.rank(&gathered.fabrics_of[place])]);
    }
    if number.passage.of > 0 {
        add(&["in-passage", number.passage.rank(&gathered.owners_of[place])]);
    }
    let ranks = number.families.iter().map(|family| family.rank(gathered.line_of[place]));
    add(&["family", ranks.max_by_key(|(rank, _)| *rank).map_or("-", |(_, name)| name)]);
    let told = gathered.told.get(&place).map_or(&[][..], Vec::as_slice);
    let others = || told.iter().filter(|other| **other != number.index);
    let times = ["0", "1", "2"][others().take(2).count()];
    add(&["told", times, yes(gathered.keys.list[place].is_stated())]);
    let in_line = others().any(|other| gathered.open[*other].group == number.candidates.group);
    add(&["told-in-line", yes(in_line), what.word()]);
}

/// By what the numbers before and after it in its line are of.
fn of_neighbors(number: &Number<'_, '_>, place: usize, add: &mut impl FnMut(&[&str])) {
    let gathered = number.gathered;
    let key = &gathered.keys.list[place];
    let is_mine = |cue: &Cue| gathered.owners_of[place].contains(cue) || gathered.fabrics_of[place].contains(cue);
    for (name, other) in [("previous", number.previous), ("next", number.next)] {
        let Some(other) = other else { continue };
        let is_same = |other: &&usize| {
            let of = &gathered.keys.list[**other];
            let is_for = of.size.is_none() || key.size.is_none() || of.size == key.size;
            is_for && gathered.owners_of[**other].iter().any(is_mine)
        };
        let same = gathered.same[other].iter().filter(is_same).map(|other| gathered.keys.list[*other].what);
        let whats: BTreeSet<What> = same.collect();
        add(&[name, "same", yes(!whats.is_empty())]);
        for what in whats {
            add(&[name, what.word(), "of-it", key.what.word()]);
        }
    }
}

/// By the keys that the numbers beside it came to before the weights.
fn of_near(number: &Number<'_, '_>, place: usize, add: &mut impl FnMut(&[&str])) {
    let gathered = number.gathered;
    let key = &gathered.keys.list[place];
    for (name, keys) in &number.near {
        let kin = |other: &usize| {
            let shares = |of: &[Vec<Cue>]| of[place].iter().any(|cue| of[*other].contains(cue));
            let of = &gathered.keys.list[*other];
            let kin = if of.of == key.of {
                3
            } else if shares(&gathered.owners_of) {
                2
            } else {
                u8::from(shares(&gathered.fabrics_of))
            };
            (kin, of.size == key.size, of.what == key.what)
        };
        let Some(nearest) = keys.iter().copied().max_by_key(kin) else { continue };
        let of = &gathered.keys.list[nearest];
        let size = match (of.size, key.size) {
            (None, None) => "none",
            (Some(of), Some(own)) if of == own => "same",
            (Some(of), Some(own)) if of + 1 == own => "after",
            (Some(of), Some(own)) if of == own + 1 => "before",
            (Some(_), Some(_)) => "other",
            _ => "one",
        };
        let kin = ["other", "fabric", "owner", "same"][usize::from(kin(&nearest).0)];
        add(&[name, "is", yes(nearest == place)]);
        add(&[name, "of", kin, size]);
        add(&[name, "of", kin, of.what.word(), key.what.word()]);
        add(&[name, "size", size, yes(of.what == key.what)]);
    }
}
