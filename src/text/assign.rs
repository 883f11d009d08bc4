//! Which number of the manuscript each number of a text is, line by line.
//!
//! The value alone proves nothing: in most manuscripts it stands at several places. What stands around a number leaves
//! some keys; where a line of cutting does not name its piece, the piece is the one that most numbers of the line fit.

use std::collections::{BTreeMap, BTreeSet};

use super::compare::{Fit, compare};
use super::context::{Around, ReadPassages};
use super::elements::{Element, Form, Role};
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Noun, Section};
use super::not_required::not_required;
use crate::quantity::Unit;

/// What came of one element.
#[derive(Clone, Debug)]
pub struct Assigned {
    /// Its passage.
    pub passage: usize,
    /// Its place among the elements of the passage.
    pub element: usize,
    /// What came of it.
    pub came_to: CameTo,
}

/// What came of an element.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CameTo {
    /// It is no number that a manuscript states.
    NotRequired(&'static str),
    /// These keys say the same.
    Right(Vec<usize>),
    /// These keys are what it must be, and say something else; and which of its numbers differ.
    Differs(Vec<usize>, Vec<usize>),
    /// Nothing is said of it, for this reason.
    Unclear(&'static str),
}

/// A number with the keys that it may be.
struct Candidates {
    passage: usize,
    element: usize,
    around: Around,
    /// Those that what stands around it leaves.
    keys: Vec<usize>,
    /// Whether something around it names what it is of.
    is_named: bool,
    /// Whether something around it names what no key is of.
    conflicts: bool,
    group: (usize, usize),
}

/// Assigns the numbers of a text.
pub fn assign(read: &ReadPassages<'_>, keys: &Keys<'_>, bare: Unit) -> Vec<Assigned> {
    let mut assigned = Vec::new();
    let mut open = Vec::new();
    for (passage, here) in read.list.iter().enumerate() {
        for (element, own) in here.elements.iter().enumerate() {
            if let Some(why) = not_required(&here.passage.text, &here.tokens, &here.cues, own) {
                assigned.push(Assigned { passage, element, came_to: CameTo::NotRequired(why) });
            } else {
                open.push(candidates(read, keys, (passage, element), bare));
            }
        }
    }
    fit_lines(read, keys, &mut open, bare);
    for candidates in &open {
        let came_to = judge(read, keys, candidates, bare);
        assigned.push(Assigned { passage: candidates.passage, element: candidates.element, came_to });
    }
    assigned.sort_by_key(|assigned| (assigned.passage, assigned.element));
    follow(read, &mut assigned);
    assigned
}

fn candidates(read: &ReadPassages<'_>, keys: &Keys<'_>, (passage, element): (usize, usize), bare: Unit) -> Candidates {
    let here = &read.list[passage];
    let own = &here.elements[element];
    let around = read.around(passage, element);
    let mut left: Vec<usize> = (0..keys.list.len()).filter(|key| is_of_kind(&keys.list[*key], own, here, bare)).collect();
    let keep = |left: &mut Vec<usize>, is: &dyn Fn(&Key) -> bool| -> bool {
        let kept: Vec<usize> = left.iter().copied().filter(|key| is(&keys.list[*key])).collect();
        let some = !kept.is_empty();
        if some {
            *left = kept;
        }
        some
    };
    let mut conflicts = false;
    if !around.sizes.is_empty() {
        conflicts |= !keep(&mut left, &|key| key.size.is_none_or(|size| around.sizes.contains(&size)));
    }
    let mut nouns = around.nouns;
    if own.form == Form::Strip {
        nouns |= Noun::Strip.bit();
    }
    if nouns != 0 && around.noun_is_near {
        conflicts |= !keep(&mut left, &|key| key.nouns & nouns != 0) && !is_amount(&left, keys);
    }
    let mut is_named = false;
    for level in &around.subjects {
        for kind in [SubjectKind::Piece, SubjectKind::Sewn, SubjectKind::Border, SubjectKind::Section, SubjectKind::Fabric] {
            let named: Vec<Cue> = level.cues.iter().copied().filter(|cue| SubjectKind::of(*cue) == Some(kind)).collect();
            if !named.is_empty() {
                if keep(&mut left, &|key| named.iter().any(|cue| key.is_of(*cue))) {
                    is_named = true;
                } else if !is_named && is_thing(&named) {
                    conflicts = true;
                }
            }
            let weak: Vec<Cue> = level.weak.iter().copied().filter(|cue| SubjectKind::of(*cue) == Some(kind)).collect();
            if !weak.is_empty() && keep(&mut left, &|key| weak.iter().any(|cue| key.is_of(*cue))) {
                is_named |= !around.noun_is_near || kind == SubjectKind::Piece;
            }
        }
    }
    if nouns != 0 && !around.noun_is_near {
        keep(&mut left, &|key| key.nouns & nouns != 0);
    }
    if around.acts != 0 {
        keep(&mut left, &|key| key.acts & around.acts != 0);
    }
    let group = read.group(passage, element);
    Candidates { passage, element, around, keys: left, is_named, conflicts, group }
}

/// The kinds of subjects, in the order in which they are asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum SubjectKind {
    Piece,
    Sewn,
    Border,
    Section,
    Fabric,
}

impl SubjectKind {
    fn of(cue: Cue) -> Option<SubjectKind> {
        Some(match cue {
            Cue::Piece(..) => SubjectKind::Piece,
            Cue::Unit(_) | Cue::Block(_) => SubjectKind::Sewn,
            Cue::Border(_) => SubjectKind::Border,
            Cue::Section(_) => SubjectKind::Section,
            Cue::Fabric(_) => SubjectKind::Fabric,
            _ => return None,
        })
    }
}

/// Whether what is named is a thing of its own and no word that stands beside any number.
fn is_thing(named: &[Cue]) -> bool {
    !named.iter().all(|cue| matches!(cue, Cue::Section(Section::Top | Section::Quilt)))
}

fn is_amount(left: &[usize], keys: &Keys<'_>) -> bool {
    left.iter().all(|key| matches!(keys.list[*key].what, What::Amount | What::Bought))
}

/// Whether a key is of the kind that an element is.
fn is_of_kind(key: &Key, own: &Element, here: &super::context::ReadPassage<'_>, bare: Unit) -> bool {
    let number = &here.tokens.numbers[own.numbers[0]];
    let unit = own.numbers.iter().find_map(|number| here.tokens.numbers[*number].unit).or(unit_of_run(here, own));
    let is_yards = matches!(unit, Some(Unit::Yard | Unit::Metre));
    match (&key.value, own.form) {
        (KeyValue::Count(_), Form::Scalar) => unit.is_none() && number.count().is_some() || number.unit_is_doubtful,
        (KeyValue::Count(_), _) => own.may_be_count_and_size,
        (KeyValue::Amount(_), Form::Scalar) => match unit {
            Some(Unit::Inch | Unit::Foot | Unit::Mm) => false,
            Some(_) => true,
            None => here.is_cell() && bare.is_metric(),
        },
        (KeyValue::Amount(_), _) => false,
        (KeyValue::Length(_), Form::Sides) => key.what == What::StripWidth,
        (KeyValue::Length(_), Form::Scalar) if is_yards => key.what == What::Length,
        (KeyValue::Length(_), _) => unit.is_some() || number.first().over != 1 || here.is_cell() || bare.is_metric() || own.form == Form::Strip,
        (KeyValue::Sides(_), Form::Scalar) => !is_yards && (unit.is_some() || number.first().over != 1 || here.is_cell()),
        (KeyValue::Sides(_), _) => !is_yards,
    }
}

/// The unit that stands after the last number of a run, for all of it.
pub(super) fn unit_of_run(here: &super::context::ReadPassage<'_>, own: &Element) -> Option<Unit> {
    let (run, _) = own.in_run?;
    let of_run = here.elements.iter().filter(|element| element.in_run.is_some_and(|(other, _)| other == run));
    let after = of_run.filter(|element| element.tokens.start >= own.tokens.start && !matches!(element.role, Role::PairOf(_)));
    after.flat_map(|element| &element.numbers).find_map(|number| here.tokens.numbers[*number].unit)
}

/// For each line of cutting the pieces that most of its numbers fit; the numbers of the line are of these.
fn fit_lines(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates], bare: Unit) {
    let mut groups: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        groups.entry(candidates.group).or_default().push(index);
    }
    for members in groups.values() {
        let mut fits: BTreeMap<Cue, BTreeSet<usize>> = BTreeMap::new();
        let mut owners_of: BTreeSet<Cue> = BTreeSet::new();
        for index in members {
            let candidates = &open[*index];
            let own = &read.list[candidates.passage].elements[candidates.element];
            for key in candidates.keys.iter().map(|key| &keys.list[*key]) {
                for owner in owners(key) {
                    owners_of.insert(owner);
                    let same = !candidates.around.of_each && compare(key, own, &read.list[candidates.passage], bare) == Fit::Same;
                    if same && key.is_stated() {
                        fits.entry(owner).or_default().insert(*index);
                    }
                }
            }
        }
        let most = fits.values().map(BTreeSet::len).max().unwrap_or(0);
        if owners_of.len() < 2 || most == 0 {
            continue;
        }
        let best: Vec<Cue> = fits.iter().filter(|(_, fit)| fit.len() == most).map(|(owner, _)| *owner).collect();
        for index in members {
            let candidates = &mut open[*index];
            let of_best = |key: &usize| owners(&keys.list[*key]).any(|owner| best.contains(&owner));
            let has_owner = candidates.keys.iter().any(of_best);
            let others = fits.iter().filter(|(owner, _)| best.contains(owner)).any(|(_, fit)| fit.iter().any(|other| other != index));
            if has_owner && (others || most > 1) {
                candidates.keys.retain(of_best);
                candidates.is_named = true;
            }
        }
    }
}

/// What a line of cutting is about: a piece, or the binding, the backing and so on.
fn owners(key: &Key) -> impl Iterator<Item = Cue> + '_ {
    let has_piece = key.of.iter().any(|cue| matches!(cue, Cue::Piece(..)));
    key.of.iter().copied().filter(move |cue| match cue {
        Cue::Piece(..) => true,
        Cue::Section(Section::Binding | Section::Backing | Section::Flange | Section::Sleeve) => !has_piece,
        Cue::Unit(_) | Cue::Block(_) => !has_piece,
        _ => false,
    })
}

/// Says of a number whether it is right, from the keys that are left.
fn judge(read: &ReadPassages<'_>, keys: &Keys<'_>, candidates: &Candidates, bare: Unit) -> CameTo {
    let here = &read.list[candidates.passage];
    let own = &here.elements[candidates.element];
    let fit = |key: &usize| compare(&keys.list[*key], own, here, bare);
    let right: Vec<usize> = candidates.keys.iter().copied().filter(|key| fit(key) == Fit::Same).collect();
    if !right.is_empty() {
        let stated: Vec<usize> = right.iter().copied().filter(|key| keys.list[*key].is_stated()).collect();
        let anything = candidates.is_named || candidates.around.nouns != 0 || candidates.around.acts != 0;
        return match (anything, stated.is_empty()) {
            (false, _) => CameTo::Unclear("nothing beside it says what it is"),
            (true, false) => CameTo::Right(stated),
            (true, true) => CameTo::Right(right),
        };
    }
    if candidates.keys.iter().any(|key| fit(key) == Fit::OneSide) {
        return CameTo::Right(candidates.keys.iter().copied().filter(|key| fit(key) == Fit::OneSide).collect());
    }
    if candidates.conflicts {
        return CameTo::Unclear("what stands beside it is nothing that the manuscript states");
    }
    if candidates.around.of_each {
        return CameTo::Unclear("it is so many of or from each");
    }
    let stated: Vec<usize> = candidates.keys.iter().copied().filter(|key| is_claimed(&keys.list[*key], candidates, own, keys)).collect();
    if stated.is_empty() || !candidates.is_named {
        return CameTo::Unclear("several numbers of the manuscript could be meant");
    }
    if candidates.around.about {
        return CameTo::Unclear("it is about so much");
    }
    if own.may_be_count_and_size {
        return CameTo::Unclear("it may be a count and a size");
    }
    // Without a size the numbers of every size would have to be the same.
    let for_sizes: BTreeSet<Option<usize>> = stated.iter().map(|key| keys.list[*key].size).collect();
    let says_size = !candidates.around.sizes.is_empty() || keys.manuscript.sizes.len() < 2 || !for_sizes.iter().any(Option::is_some);
    if !says_size {
        return CameTo::Unclear("nothing says which size it is for");
    }
    let whats: BTreeSet<What> = stated.iter().map(|key| keys.list[*key].what).collect();
    if whats.len() > 1 && !candidates.around.noun_is_near && candidates.around.acts == 0 {
        return CameTo::Unclear("several numbers of the manuscript could be meant");
    }
    let numbers = differing(&stated, keys, own, here, bare);
    CameTo::Differs(stated, numbers)
}

/// Whether a text that says a number like this claims that it is the key's.
fn is_claimed(key: &Key, candidates: &Candidates, own: &Element, keys: &Keys<'_>) -> bool {
    if !key.is_stated() && !is_proof(key) {
        return false;
    }
    if matches!(key.value, KeyValue::Sides(_)) && own.form == Form::Scalar && !is_square(key) {
        return false;
    }
    if matches!(key.value, KeyValue::Length(_)) && own.form == Form::Sides {
        return false;
    }
    match key.what {
        What::Amount => true,
        What::Seam => candidates.around.noun_is_near && candidates.around.nouns & Noun::Seam.bit() != 0,
        What::UsableWidth => false,
        What::Length => key.nouns & candidates.around.nouns != 0 && candidates.around.noun_is_near && key.nouns != 0,
        What::Count | What::Laid => false,
        _ => {
            let acts = key.acts & candidates.around.acts != 0;
            let in_table = candidates.around.acts == 0 && candidates.group.0 > usize::MAX / 2;
            (acts || in_table) && (key.nouns & candidates.around.nouns != 0 || candidates.around.nouns == 0 || keys.list.is_empty())
                && !(own.form == Form::Scalar && candidates.around.acts & Act::Around.bit() != 0 && key.what == What::CutSize)
        }
    }
}

/// Whether a number that follows from others is as sure as one that is stated.
fn is_proof(key: &Key) -> bool {
    matches!(key.what, What::Unfinished | What::Makes) && !key.of.contains(&Cue::Section(Section::Top))
        || key.what == What::Unfinished
}

fn is_square(key: &Key) -> bool {
    match &key.value {
        KeyValue::Sides(sides) => sides.iter().all(|(width, length)| width == length),
        _ => true,
    }
}

/// Which numbers of an element differ from all of the keys.
fn differing(stated: &[usize], keys: &Keys<'_>, own: &Element, here: &super::context::ReadPassage<'_>, bare: Unit) -> Vec<usize> {
    if own.numbers.len() < 2 {
        return own.numbers.clone();
    }
    let best = stated.iter().map(|key| super::compare::sides_off(&keys.list[*key], own, here, bare)).min_by_key(Vec::len);
    best.filter(|numbers| !numbers.is_empty()).unwrap_or_else(|| own.numbers.clone())
}

/// What says the same as another number goes by that: the other measure of a pair, the word for a figure.
fn follow(read: &ReadPassages<'_>, assigned: &mut [Assigned]) {
    let came: BTreeMap<(usize, usize), CameTo> =
        assigned.iter().map(|assigned| ((assigned.passage, assigned.element), assigned.came_to.clone())).collect();
    for assigned in assigned {
        let own = &read.list[assigned.passage].elements[assigned.element];
        let of = match own.role {
            Role::PairOf(of) | Role::WordOf(of) => of,
            Role::Plain | Role::Range => continue,
        };
        let other = came.get(&(assigned.passage, of));
        if let Some(came_to) = other.filter(|_| !matches!(assigned.came_to, CameTo::Right(_))) {
            assigned.came_to = match came_to {
                CameTo::Differs(..) => CameTo::Unclear("it goes by the number beside it"),
                other => other.clone(),
            };
        }
    }
}
