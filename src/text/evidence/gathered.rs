//! What the numbers of a text say of each other: which keys each fits by its value, and what stands together.

use std::collections::{BTreeMap, BTreeSet};

use super::super::assign::{BeforeWeights, CameTo};
use super::super::candidates::Candidates;
use super::super::compare::{Fit, compare};
use super::super::context::ReadPassages;
use super::super::families::is_of_form;
use super::super::keys::{Key, Keys, Line, What};
use super::super::kinds::is_of_kind;
use super::super::lexicon::{Cue, Section};
use super::super::passage::PassageKind;
use crate::quantity::Unit;

/// What was found for the numbers of a text.
pub(in super::super) struct Gathered<'a, 'm> {
    pub(super) read: &'a ReadPassages<'a>,
    pub(super) keys: &'a Keys<'m>,
    pub(super) open: &'a [Candidates],
    pub(super) families: &'a [Vec<usize>],
    pub(super) bare: Unit,
    /// How each number stands to each key; `None` where it is nothing like it.
    pub(super) likeness: Vec<Vec<Option<Likeness>>>,
    /// The keys that it is by its value, for its size.
    pub(super) same: Vec<Vec<usize>>,
    /// What these are of, without fabrics.
    pub(super) owners: Vec<BTreeSet<Cue>>,
    /// The fabrics that these are of.
    pub(super) fabrics: Vec<BTreeSet<Cue>>,
    /// The lines of these.
    pub(super) lines: Vec<BTreeSet<usize>>,
    /// The kinds of those that its names leave.
    whats: Vec<[bool; What::COUNT]>,
    /// What each key is of, without fabrics.
    pub(super) owners_of: Vec<Vec<Cue>>,
    /// The fabrics of each key.
    pub(super) fabrics_of: Vec<Vec<Cue>>,
    /// The line of each key.
    pub(super) line_of: Vec<usize>,
    /// The numbers of each line of cutting.
    pub(super) groups: BTreeMap<(usize, usize), Vec<usize>>,
    /// The numbers of each passage.
    pub(super) passages: BTreeMap<usize, Vec<usize>>,
    /// The numbers at the same place of each cell of a column, or of each item of a list.
    siblings: BTreeMap<(usize, usize, usize), Siblings>,
    /// What each number came to before the weights.
    came: &'a [CameTo],
    /// The numbers at the place before and after each in its column or list.
    columns: BTreeMap<usize, [Option<usize>; 2]>,
    /// The numbers that are a key by value and by name.
    pub(super) told: BTreeMap<usize, Vec<usize>>,
}

/// Numbers of a column or of a list.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Siblings {
    /// How many there are.
    pub(super) all: usize,
    /// How many of them can be a number of each kind, by their values and names.
    pub(super) of: [usize; What::COUNT],
}

/// How a number stands to a key that it is like.
#[derive(Clone, Copy, Debug)]
pub(super) struct Likeness {
    /// Whether it is of its kind by form and unit.
    pub(super) is_kind: bool,
    /// Whether it is by its form, whatever unit it has.
    pub(super) is_form: bool,
    /// How it stands to it by its value.
    pub(super) fit: Fit,
}

impl<'a, 'm> Gathered<'a, 'm> {
    pub(in super::super) fn new(
        read: &'a ReadPassages<'a>,
        keys: &'a Keys<'m>,
        before: &'a BeforeWeights,
        bare: Unit,
    ) -> Gathered<'a, 'm> {
        let BeforeWeights { open, families, came } = before;
        let owners_of: Vec<Vec<Cue>> = keys.list.iter().map(owners).collect();
        let fabrics_of: Vec<Vec<Cue>> = keys.list.iter().map(fabrics).collect();
        let mut known: BTreeMap<Line<'_>, usize> = BTreeMap::new();
        let line_of: Vec<usize> = keys
            .list
            .iter()
            .map(|key| {
                let next = known.len();
                *known.entry(key.line()).or_insert(next)
            })
            .collect();
        let likeness: Vec<Vec<Option<Likeness>>> = open.iter().map(|own| likeness(read, keys, own, bare)).collect();
        let same: Vec<Vec<usize>> = open.iter().zip(&likeness).map(|(own, like)| same(keys, own, like)).collect();
        let of = |list: &[Vec<Cue>], same: &[usize]| same.iter().flat_map(|key| list[*key].iter().copied()).collect();
        let mut gathered = Gathered {
            read,
            keys,
            open,
            families,
            bare,
            owners: same.iter().map(|same| of(&owners_of, same)).collect(),
            fabrics: same.iter().map(|same| of(&fabrics_of, same)).collect(),
            lines: open
                .iter()
                .enumerate()
                .map(|(at, own)| lines(keys, &line_of, own, &same[at], &likeness[at]))
                .collect(),
            whats: open.iter().zip(&same).map(|(own, same)| whats(keys, own, same)).collect(),
            likeness,
            same,
            owners_of,
            fabrics_of,
            line_of,
            groups: BTreeMap::new(),
            passages: BTreeMap::new(),
            siblings: BTreeMap::new(),
            came,
            columns: BTreeMap::new(),
            told: BTreeMap::new(),
        };
        gathered.place();
        gathered
    }

    /// Notes which numbers stand together.
    fn place(&mut self) {
        let mut last: BTreeMap<(usize, usize, usize), usize> = BTreeMap::new();
        for (index, own) in self.open.iter().enumerate() {
            self.groups.entry(own.group).or_default().push(index);
            self.passages.entry(own.passage).or_default().push(index);
            if let Some(place) = self.place_of(own) {
                if let Some(before) = last.insert(place, index) {
                    self.columns.entry(before).or_default()[1] = Some(index);
                    self.columns.entry(index).or_default()[0] = Some(before);
                }
                let siblings = self.siblings.entry(place).or_default();
                siblings.all += 1;
                for (of, is) in siblings.of.iter_mut().zip(self.whats[index]) {
                    *of += usize::from(is);
                }
            }
            for key in self.same[index].iter().filter(|key| own.keys.contains(key)) {
                self.told.entry(*key).or_default().push(index);
            }
        }
        for members in self.groups.values_mut() {
            members.sort_by_key(|index| (self.open[*index].passage, self.open[*index].element));
        }
    }

    /// The number before and the one after at the same place of its column or list.
    pub(super) fn in_column(&self, index: usize) -> [Option<usize>; 2] {
        self.columns.get(&index).copied().unwrap_or_default()
    }

    /// The keys that a number came to before the weights.
    pub(super) fn came_to(&self, index: usize) -> &'a [usize] {
        match &self.came[index] {
            CameTo::Right(keys) => keys,
            _ => &[],
        }
    }

    /// The other numbers of the column or the list of a number.
    pub(super) fn siblings_of(&self, index: usize) -> Siblings {
        let place = self.place_of(&self.open[index]);
        let Some(mut siblings) = place.and_then(|place| self.siblings.get(&place)).copied() else {
            return Siblings::default();
        };
        siblings.all -= 1;
        for (of, is) in siblings.of.iter_mut().zip(self.whats[index]) {
            *of -= usize::from(is);
        }
        siblings
    }

    /// The column of a cell, or the list of an item, and which of its numbers it is.
    fn place_of(&self, own: &Candidates) -> Option<(usize, usize, usize)> {
        let passage = self.read.list[own.passage].passage;
        match passage.kind {
            PassageKind::Cell { table, column, .. } => {
                Some((usize::MAX - table as usize, column as usize, own.element))
            }
            PassageKind::ListItem { .. } => {
                let after = |place: Option<usize>| place.map_or(0, |place| place + 1);
                Some((after(passage.list_head), after(passage.headings.last().copied()), own.element))
            }
            _ => None,
        }
    }
}

/// What a key is of, without fabrics; where a piece is named, that alone.
fn owners(key: &Key) -> Vec<Cue> {
    let has_piece = key.of.iter().any(|cue| matches!(cue, Cue::Piece(..)));
    let is = |cue: &Cue| match cue {
        Cue::Piece(..) => true,
        Cue::Fabric(_) | Cue::Section(Section::Quilt | Section::Top) => false,
        _ => !has_piece,
    };
    key.of.iter().copied().filter(is).collect()
}

fn fabrics(key: &Key) -> Vec<Cue> {
    key.of.iter().copied().filter(|cue| matches!(cue, Cue::Fabric(_))).collect()
}

fn likeness(read: &ReadPassages<'_>, keys: &Keys<'_>, own: &Candidates, bare: Unit) -> Vec<Option<Likeness>> {
    let here = &read.list[own.passage];
    let element = &here.elements[own.element];
    let of = |key: &Key| {
        let (is_kind, is_form) = (is_of_kind(key, element, here, bare), is_of_form(key, element, here));
        (is_kind || is_form).then(|| Likeness { is_kind, is_form, fit: compare(key, element, here, bare) })
    };
    keys.list.iter().map(of).collect()
}

fn same(keys: &Keys<'_>, own: &Candidates, likeness: &[Option<Likeness>]) -> Vec<usize> {
    let is = |key: &usize| {
        let is_it = |like: Likeness| like.fit == Fit::Same && like.is_form && like.is_kind;
        likeness[*key].is_some_and(is_it) && keys.list[*key].is_for(&own.around.sizes)
    };
    (0..keys.list.len()).filter(is).collect()
}

fn lines(
    keys: &Keys<'_>,
    line_of: &[usize],
    own: &Candidates,
    same: &[usize],
    likeness: &[Option<Likeness>],
) -> BTreeSet<usize> {
    let mut lines: BTreeSet<usize> = same.iter().map(|key| line_of[*key]).collect();
    if own.around.is_measure {
        let is_one = |like: Likeness| like.fit == Fit::OneSide;
        let is_side = |key: &usize| likeness[*key].is_some_and(is_one) && keys.list[*key].is_for(&own.around.sizes);
        lines.extend((0..likeness.len()).filter(is_side).map(|key| line_of[key]));
    }
    lines
}

fn whats(keys: &Keys<'_>, own: &Candidates, same: &[usize]) -> [bool; What::COUNT] {
    let mut whats = [false; What::COUNT];
    for key in same.iter().filter(|key| own.wide.contains(key)) {
        whats[keys.list[*key].what as usize] = true;
    }
    whats
}
