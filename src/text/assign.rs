//! Which number of the manuscript each number of a text is, line by line.
//!
//! The value alone proves nothing: in most manuscripts it stands at several places. What stands around a number leaves
//! some keys; where a line of cutting does not name its piece, the piece is the one that most numbers of the line fit.

use std::collections::{BTreeMap, BTreeSet};

use super::compare::{Fit, compare, halves_apart, is_across_fabric, states_both_measures};
use super::context::{Around, ReadPassages};
use super::elements::{Element, Form, Role};
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Noun, Section};
use crate::quantity::Unit;

/// What came of one element.
#[derive(Clone, Debug)]
pub(crate) struct Assigned {
    /// Its passage.
    pub passage: usize,
    /// Its place among the elements of the passage.
    pub element: usize,
    /// What came of it.
    pub came_to: CameTo,
}

/// What came of an element.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum CameTo {
    /// It is no number that a manuscript states.
    NotRequired(&'static str),
    /// These keys say the same.
    Right(Vec<usize>),
    /// These keys are what it must be, and say something else; and which of its numbers differ.
    Differs(Vec<usize>, Vec<usize>),
    /// It is no rounding of the same in the other measure, which is right or of which nothing is said.
    OtherHalf(Vec<usize>, Vec<usize>),
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
    /// Whether its own part of the sentence does.
    named_near: bool,
    /// Whether it is one of a run over the sizes.
    in_run: bool,
    /// Whether something around it names what no key is of.
    conflicts: bool,
    group: (usize, usize),
}

/// Assigns the numbers of a text.
pub(crate) fn assign(read: &ReadPassages<'_>, keys: &Keys<'_>, bare: Unit) -> Vec<Assigned> {
    let mut assigned = Vec::new();
    let mut open = Vec::new();
    for (passage, here) in read.list.iter().enumerate() {
        for element in 0..here.elements.len() {
            if let Some(why) = here.not_required[element] {
                assigned.push(Assigned { passage, element, came_to: CameTo::NotRequired(why) });
            } else {
                open.push(candidates(read, keys, (passage, element), bare));
            }
        }
    }
    fit_lines(read, keys, &mut open, bare);
    fit_runs(read, keys, &mut open, bare);
    for candidates in &open {
        let came_to = judge(read, keys, candidates, bare);
        assigned.push(Assigned { passage: candidates.passage, element: candidates.element, came_to });
    }
    assigned.sort_by_key(|assigned| (assigned.passage, assigned.element));
    follow(read, keys, &mut assigned, bare);
    assigned
}

fn candidates(read: &ReadPassages<'_>, keys: &Keys<'_>, (passage, element): (usize, usize), bare: Unit) -> Candidates {
    let here = &read.list[passage];
    let own = &here.elements[element];
    let mut around = read.around(passage, element);
    if own.form == Form::Scalar
        && here.tokens.numbers[own.numbers[0]].unit.is_none()
        && here.tokens.numbers[own.numbers[0]].count().is_some()
    {
        // How large something finishes says nothing of how many there are.
        around.acts &= !(Act::Finished.bit() | Act::Measured.bit() | Act::Trimmed.bit() | Act::Around.bit());
        around.act_is_near &= around.acts != 0;
        around.nouns &= !(Noun::Side.bit() | Noun::Edge.bit());
    }
    let mut left: Vec<usize> =
        (0..keys.list.len()).filter(|key| is_of_kind(&keys.list[*key], own, here, bare)).collect();
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
    if around.act_is_near && around.acts & !Act::Around.bit() == Act::Sew.bit() {
        // What is sewn, placed or pressed are no pieces that are counted once more.
        left.retain(|key| keys.list[*key].acts & Act::Sew.bit() != 0);
    } else if around.act_is_near {
        // What is trimmed is not finished yet, whatever else is said.
        let acts = if around.acts & Act::Trimmed.bit() == 0 { around.acts } else { Act::Trimmed.bit() };
        keep(&mut left, &|key| key.acts & acts != 0);
        if around.acts & (Act::Make.bit() | Act::Cut.bit()) == Act::Make.bit() {
            keep(&mut left, &|key| key.what == What::Makes);
        }
    }
    let mut nouns = around.nouns;
    if own.form == Form::Strip {
        nouns |= Noun::Strip.bit();
    }
    let is_yards =
        own.numbers.iter().any(|number| matches!(here.tokens.numbers[*number].unit, Some(Unit::Yard | Unit::Metre)))
            || matches!(unit_of_run(here, own), Some(Unit::Yard | Unit::Metre));
    if is_yards {
        nouns = 0;
    }
    if nouns != 0 && around.noun_is_near {
        let vague = Noun::Fabric.bit() | Noun::Width.bit() | Noun::Edge.bit() | Noun::Side.bit();
        let kept = keep(&mut left, &|key| key.nouns & nouns != 0);
        conflicts |= !kept && nouns & !vague != 0 && !is_amount(&left, keys);
    }
    let mut is_named = false;
    let mut named_near = false;
    if around.noun_is_near && (around.act_is_near || around.acts != 0) && !conflicts {
        // Where there is one thing of this kind, it need not be named.
        let sure: BTreeSet<&[Cue]> = left
            .iter()
            .map(|key| &keys.list[*key])
            .filter(|key| key.is_sure && !matches!(key.what, What::UsableWidth | What::Seam))
            .map(|key| key.of.as_slice())
            .collect();
        is_named = sure.len() == 1;
    }
    let is_seam = nouns & Noun::Seam.bit() != 0 && around.noun_is_near;
    if around.subjects.iter().take(1).all(|level| level.cues.is_empty())
        && !around.sizes.is_empty()
        && own.form == Form::Sides
        && !around.noun_is_near
    {
        // A size with its measurements: `Throw, 54" x 72"`.
        let finished = |key: &Key| key.what == What::Finished && key.is_of(Cue::Section(Section::Quilt));
        let above = around.subjects.iter().any(|level| !level.cues.is_empty());
        is_named = !above && keep(&mut left, &finished);
    }
    for (distance, level) in around.subjects.iter().enumerate() {
        if is_seam {
            let sections: Vec<Cue> = level.cues.iter().copied().filter(|cue| matches!(cue, Cue::Section(_))).collect();
            keep(&mut left, &|key| sections.iter().any(|cue| key.is_of(*cue)));
            continue;
        }
        if is_yards {
            // What a fabric is for stands beside its name: `Ink (border and binding)`.
            let named = |cue: &&Cue| matches!(SubjectKind::of(**cue), Some(SubjectKind::Fabric | SubjectKind::Section));
            let cues: Vec<Cue> = level.cues.iter().filter(named).copied().collect();
            if !is_named && keep(&mut left, &|key| cues.iter().any(|cue| key.is_of(*cue))) {
                is_named = true;
            }
            continue;
        }
        for kind in KINDS {
            let named: Vec<Cue> =
                level.cues.iter().copied().filter(|cue| SubjectKind::of(*cue) == Some(kind)).collect();
            if !named.is_empty() {
                if keep(&mut left, &|key| named.iter().any(|cue| key.is_of(*cue))) {
                    is_named = true;
                    named_near |= distance == 0;
                } else if !is_named && is_thing(&named) {
                    conflicts = true;
                }
            }
        }
    }
    // Words that say much else besides come after what is named for sure.
    for level in around.subjects.iter().filter(|_| !is_seam && !is_yards) {
        for kind in KINDS {
            let is_said =
                |cue: &Cue| SubjectKind::of(*cue) == Some(kind) && !(around.of_rows && matches!(cue, Cue::Block(_)));
            let weak: Vec<Cue> = level.weak.iter().copied().filter(is_said).collect();
            if !weak.is_empty() && keep(&mut left, &|key| weak.iter().any(|cue| key.is_of(*cue))) {
                let acts = Act::Cut.bit() | Act::Measured.bit() | Act::Trimmed.bit() | Act::Make.bit();
                is_named |= around.in_table || around.acts & acts != 0;
            }
        }
    }
    let names_piece = around
        .subjects
        .iter()
        .any(|level| level.cues.iter().chain(&level.weak).any(|cue| matches!(cue, Cue::Piece(..))));
    let only_fabric = around.nouns & !Noun::Fabric.bit() == 0;
    if is_named && own.form == Form::Scalar && only_fabric && !names_piece && around.acts & Act::Cut.bit() == 0 {
        // `Sand: 75 cm` says how much to buy.
        keep(&mut left, &|key| key.what == What::Amount);
    }
    if nouns != 0 && !around.noun_is_near {
        keep(&mut left, &|key| key.nouns & nouns != 0);
    }
    if around.acts != 0 && !is_yards {
        keep(&mut left, &|key| key.acts & around.acts != 0);
    }
    let group = read.group(passage, element);
    Candidates {
        passage,
        element,
        around,
        keys: left,
        is_named,
        named_near,
        in_run: own.in_run.is_some(),
        conflicts,
        group,
    }
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

/// All kinds of subjects.
const KINDS: [SubjectKind; 5] =
    [SubjectKind::Piece, SubjectKind::Sewn, SubjectKind::Border, SubjectKind::Section, SubjectKind::Fabric];

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
        (KeyValue::Length(_), _) => {
            unit.is_some() || number.first().over != 1 || here.is_cell() || bare.is_metric() || own.form == Form::Strip
        }
        (KeyValue::Sides(_), Form::Scalar) => {
            !is_yards && (unit.is_some() || number.first().over != 1 || here.is_cell())
        }
        (KeyValue::Sides(_), _) => !is_yards,
    }
}

/// The unit that stands after the last number of a run, for all of it.
pub(super) fn unit_of_run(here: &super::context::ReadPassage<'_>, own: &Element) -> Option<Unit> {
    let (run, _) = own.in_run?;
    let of_run = here.elements.iter().filter(|element| element.in_run.is_some_and(|(other, _)| other == run));
    let after =
        of_run.filter(|element| element.tokens.start >= own.tokens.start && !matches!(element.role, Role::PairOf(_)));
    let own = after.clone().flat_map(|element| &element.numbers).find_map(|number| here.tokens.numbers[*number].unit);
    // Behind the bracket of the run: `1 (1 7/8) yards`.
    own.or_else(|| {
        let end = after.map(|element| element.tokens.end).max()?;
        let word = here.tokens.list[end..].iter().take(2).find(|token| token.is_word())?;
        let closed = here.tokens.list[end].is_sign(')')
            || here.tokens.list[end].is_sign(']')
            || here.tokens.list[end].is_sign('}');
        (closed && word.stem != "in").then(|| Unit::from_word(&word.stem)).flatten()
    })
}

/// For each line of cutting the pieces that most of its numbers fit; the numbers of the line are of these.
fn fit_lines(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates], bare: Unit) {
    let mut groups: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        groups.entry(candidates.group).or_default().push(index);
    }
    for members in groups.values() {
        let cuts = |index: &usize| {
            let around = &open[*index].around;
            let says =
                open[*index].is_named || around.noun_is_near || around.in_table || around.acts & Act::Cut.bit() != 0;
            says && (around.acts & Act::Cut.bit() != 0
                || around.acts & (Act::Make.bit() | Act::Sew.bit() | Act::Measured.bit() | Act::Trimmed.bit()) == 0)
        };
        let members: Vec<usize> = members.iter().copied().filter(cuts).collect();
        let members = &members;
        let mut fits: BTreeMap<Cue, BTreeSet<usize>> = BTreeMap::new();
        let mut owners_of: BTreeSet<Cue> = BTreeSet::new();
        for index in members {
            let candidates = &open[*index];
            let own = &read.list[candidates.passage].elements[candidates.element];
            for key in candidates.keys.iter().map(|key| &keys.list[*key]) {
                for owner in owners(key) {
                    owners_of.insert(owner);
                    let same = !(candidates.around.of_each && matches!(key.value, KeyValue::Count(_)))
                        && compare(key, own, &read.list[candidates.passage], bare) == Fit::Same;
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
            let others = fits
                .iter()
                .filter(|(owner, _)| best.contains(owner))
                .any(|(_, fit)| fit.iter().any(|other| other != index));
            if has_owner && (others || most > 1) {
                candidates.keys.retain(of_best);
                candidates.is_named = true;
            }
        }
    }
}

/// For each run over the sizes, and each row of a table, what most of its numbers are; the others are the same.
fn fit_runs(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates], bare: Unit) {
    let mut runs: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        let here = &read.list[candidates.passage];
        let run = here.elements[candidates.element].in_run.map(|(run, _)| (candidates.passage, run));
        let of_row = here.is_cell() && here.elements.len() == 1 && candidates.around.sizes.len() == 1;
        if let Some(run) = run.or_else(|| of_row.then(|| read.row_of(candidates.passage)).flatten()) {
            runs.entry(run).or_default().push(index);
        }
    }
    for members in runs.values().filter(|members| members.len() > 1) {
        let mut fits: BTreeMap<(What, &[Cue]), BTreeSet<usize>> = BTreeMap::new();
        for index in members {
            let candidates = &open[*index];
            let here = &read.list[candidates.passage];
            for key in candidates.keys.iter().map(|key| &keys.list[*key]) {
                if compare(key, &here.elements[candidates.element], here, bare) == Fit::Same {
                    fits.entry((key.what, key.of.as_slice())).or_default().insert(*index);
                }
            }
        }
        let most = fits.values().map(BTreeSet::len).max().unwrap_or(0);
        if most * 2 < members.len() {
            continue;
        }
        let best: Vec<(What, &[Cue])> = fits.iter().filter(|(_, fit)| fit.len() == most).map(|(of, _)| *of).collect();
        for index in members {
            let of_best = |key: &usize| best.contains(&(keys.list[*key].what, keys.list[*key].of.as_slice()));
            if open[*index].keys.iter().any(of_best) {
                open[*index].keys.retain(of_best);
                open[*index].is_named |= most > 1;
            }
        }
    }
}

/// What a line of cutting is about: a piece, or the binding, the backing and so on.
fn owners(key: &Key) -> impl Iterator<Item = Cue> + '_ {
    let is_bought = matches!(key.what, What::Amount | What::Bought);
    let has_piece = key.of.iter().any(|cue| matches!(cue, Cue::Piece(..)));
    key.of.iter().copied().filter(move |cue| match cue {
        _ if is_bought => false,
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
    let is_count = |key: &usize| matches!(keys.list[*key].value, KeyValue::Count(_));
    let number = &here.tokens.numbers[own.numbers[0]];
    let counts = own.form == Form::Scalar && number.unit.is_none() && candidates.keys.iter().any(is_count);
    let left: Vec<usize> = candidates.keys.iter().copied().filter(|key| !counts || is_count(key)).collect();
    let fit = |key: &usize| compare(&keys.list[*key], own, here, bare);
    let right: Vec<usize> = left.iter().copied().filter(|key| fit(key) == Fit::Same).collect();
    if !right.is_empty() {
        let stated: Vec<usize> = right.iter().copied().filter(|key| keys.list[*key].is_stated()).collect();
        let anything = candidates.is_named || candidates.around.nouns != 0;
        return match (anything, stated.is_empty()) {
            (false, _) => CameTo::Unclear("nothing beside it says what it is"),
            (true, false) => CameTo::Right(stated),
            (true, true) => CameTo::Right(right),
        };
    }
    if left.iter().any(|key| fit(key) == Fit::OneSide) {
        return CameTo::Right(left.iter().copied().filter(|key| fit(key) == Fit::OneSide).collect());
    }
    if candidates.conflicts {
        return CameTo::Unclear("what stands beside it is nothing that the manuscript states");
    }
    if candidates.around.of_each && counts {
        return CameTo::Unclear("it is so many of or from each");
    }
    let stated: Vec<usize> = left
        .iter()
        .copied()
        .filter(|key| is_claimed(&keys.list[*key], candidates, own, is_across_fabric(own, here, bare)))
        .collect();
    let named_by_noun = |key: &usize| {
        let own =
            [Noun::Tail, Noun::Opening, Noun::Seam, Noun::Point, Noun::Pack, Noun::Quarter, Noun::Eighth, Noun::Panel];
        let mut own = own.iter().fold(0, |bits, noun| bits | noun.bit());
        if candidates.around.of_rows && candidates.in_run {
            own |= Noun::Row.bit() | Noun::Column.bit() | Noun::Block.bit();
        }
        candidates.around.noun_is_near && keys.list[*key].nouns & candidates.around.nouns & own != 0
    };
    if stated.is_empty() || !candidates.is_named && !stated.iter().all(named_by_noun) {
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
    let alike = stated.windows(2).all(|pair| keys.list[pair[0]].value == keys.list[pair[1]].value);
    let says_size = alike
        || !candidates.around.sizes.is_empty()
        || keys.manuscript.sizes.len() < 2
        || !for_sizes.iter().any(Option::is_some);
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
fn is_claimed(key: &Key, candidates: &Candidates, own: &Element, across_fabric: bool) -> bool {
    if !key.is_sure {
        return false;
    }
    if matches!(key.value, KeyValue::Sides(_)) && own.form == Form::Scalar && !is_square(key) {
        return false;
    }
    if matches!(key.value, KeyValue::Length(_)) && own.form == Form::Sides && !across_fabric {
        return false;
    }
    match key.what {
        What::Amount => true,
        What::Seam => {
            !candidates.around.other_seam
                && candidates.around.noun_is_near
                && candidates.around.nouns & Noun::Seam.bit() != 0
        }
        What::UsableWidth => false,
        What::CutSize
            if candidates.around.noun_follows
                && candidates.around.noun_is_near
                && key.nouns & candidates.around.nouns != 0
                && candidates
                    .around
                    .subjects
                    .first()
                    .is_some_and(|level| level.cues.iter().any(|cue| matches!(cue, Cue::Piece(..)))) =>
        {
            true
        }
        What::Length => key.nouns & candidates.around.nouns != 0 && candidates.around.noun_is_near && key.nouns != 0,
        What::Laid => {
            candidates.in_run
                && candidates.around.of_rows
                && candidates.around.noun_is_near
                && !candidates.around.in_table
        }
        What::Count => false,
        What::Makes => candidates.around.acts & Act::Make.bit() != 0 || candidates.around.in_table,
        What::Finished if key.is_of(Cue::Section(Section::Quilt)) => own.form == Form::Sides,
        _ => {
            let acts = key.acts & candidates.around.acts != 0;
            let in_table = candidates.around.acts == 0 && (candidates.around.in_table || candidates.named_near);
            (acts || in_table)
                && (key.nouns & candidates.around.nouns != 0 || !candidates.around.noun_is_near)
                && !(own.form == Form::Scalar
                    && candidates.around.acts & Act::Around.bit() != 0
                    && key.what == What::CutSize)
        }
    }
}

fn is_square(key: &Key) -> bool {
    match &key.value {
        KeyValue::Sides(sides) => sides.iter().all(|(width, length)| width == length),
        _ => true,
    }
}

/// Which numbers of an element differ from all of the keys.
fn differing(
    stated: &[usize],
    keys: &Keys<'_>,
    own: &Element,
    here: &super::context::ReadPassage<'_>,
    bare: Unit,
) -> Vec<usize> {
    if own.numbers.len() < 2 {
        return own.numbers.clone();
    }
    let best =
        stated.iter().map(|key| super::compare::sides_off(&keys.list[*key], own, here, bare)).min_by_key(Vec::len);
    best.filter(|numbers| !numbers.is_empty()).unwrap_or_else(|| own.numbers.clone())
}

/// What says the same as another number goes by that: the other measure of a pair, the word for a figure.
fn follow(read: &ReadPassages<'_>, keys: &Keys<'_>, assigned: &mut [Assigned], bare: Unit) {
    let came: BTreeMap<(usize, usize), CameTo> =
        assigned.iter().map(|assigned| ((assigned.passage, assigned.element), assigned.came_to.clone())).collect();
    for assigned in assigned {
        let here = &read.list[assigned.passage];
        let own = &here.elements[assigned.element];
        let (Role::PairOf(of) | Role::WordOf(of)) = own.role else { continue };
        let Some(other) = came.get(&(assigned.passage, of)) else { continue };
        assigned.came_to = match (other, &assigned.came_to) {
            (CameTo::Right(right), _) => {
                let same = right.iter().any(|key| compare(&keys.list[*key], own, here, bare) != Fit::Other);
                let numbers = || differing(right, keys, own, here, bare);
                let states_both = right.iter().any(|key| states_both_measures(&keys.list[*key]));
                match (same, own.role) {
                    (true, _) => other.clone(),
                    // What the word says is asked of it by itself.
                    (false, Role::WordOf(_)) => CameTo::Right(right.clone()),
                    (false, _) if states_both => CameTo::Differs(right.clone(), numbers()),
                    (false, _) => CameTo::OtherHalf(right.clone(), numbers()),
                }
            }
            (CameTo::Unclear(_), CameTo::Unclear(_) | CameTo::Differs(..)) if matches!(own.role, Role::PairOf(_)) => {
                match halves_apart(&here.elements[of], own, here, bare) {
                    numbers if numbers.is_empty() => other.clone(),
                    numbers => CameTo::OtherHalf(Vec::new(), numbers),
                }
            }
            (_, CameTo::Right(right)) => CameTo::Right(right.clone()),
            (CameTo::Differs(..), _) => CameTo::Unclear("it goes by the number beside it"),
            (other, _) => other.clone(),
        };
    }
}
