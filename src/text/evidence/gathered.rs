//! What the numbers of a text say of each other: which keys each fits by its value, and what stands together.

use std::collections::{BTreeMap, HashMap};
use std::hash::Hash;

use super::super::assign::{BeforeWeights, CameTo};
use super::super::candidates::Candidates;
use super::super::context::ReadPassages;
use super::super::key_groups::Groups;
use super::super::keys::{Keys, What};
use super::super::lexicon::{Cue, Section};
use super::super::passage::PassageKind;
use super::constants::Constants;
use super::kinship::Kinship;
use super::tally::Counts;
use crate::quantity::Unit;

/// What was found for the numbers of a text.
pub(in super::super) struct Gathered<'a, 'm> {
    pub(super) read: &'a ReadPassages<'a>,
    pub(super) keys: &'a Keys<'m>,
    pub(super) open: &'a [Candidates],
    pub(super) families: &'a [Vec<usize>],
    pub(super) bare: Unit,
    /// The sums of signs that are the same for all numbers.
    pub(super) constants: Constants,
    /// The keys that each number is by its value, for its size.
    pub(super) same: Vec<Vec<usize>>,
    /// What these are of, without fabrics, by the places of the cues.
    pub(super) owners: Vec<Vec<usize>>,
    /// The fabrics that these are of.
    pub(super) fabrics: Vec<Vec<usize>>,
    /// The lines of these.
    pub(super) lines: Vec<Vec<usize>>,
    /// The kinds of those that its names leave.
    whats: Vec<[bool; What::COUNT]>,
    /// Those of them that it is by name as well.
    pub(super) told: Vec<Vec<usize>>,
    /// How many numbers are each key by value and by name.
    pub(super) times_told: Vec<usize>,
    /// What each thing is of, without fabrics.
    pub(super) owners_of: Vec<Vec<usize>>,
    /// The fabrics of each thing.
    pub(super) fabrics_of: Vec<Vec<usize>>,
    /// How near the things are to each other.
    pub(super) kin: Kinship,
    /// The keys of each line.
    pub(super) keys_of: Vec<Vec<usize>>,
    /// The families of each number.
    pub(super) families_of: Vec<Vec<usize>>,
    /// The lines of cutting, and that of each number.
    pub(super) groups: Vec<Together>,
    pub(super) group_of: Vec<usize>,
    /// The passages, and that of each number.
    pub(super) passages: Vec<Together>,
    pub(super) passage_of: Vec<usize>,
    /// The numbers at the same place of each cell of a column, or of each item of a list.
    siblings: BTreeMap<(usize, usize, usize), Siblings>,
    /// What each number came to before the weights.
    came: &'a [CameTo],
    /// The numbers at the place before and after each in its column or list.
    columns: BTreeMap<usize, [Option<usize>; 2]>,
}

/// Numbers that stand together.
#[derive(Default)]
pub(super) struct Together {
    /// Which.
    pub(super) members: Vec<usize>,
    /// What they are of by their values.
    pub(super) owners: Counts,
    pub(super) fabrics: Counts,
    /// The keys that they are by value and by name.
    pub(super) told: Counts,
}

/// Numbers of a column or of a list.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Siblings {
    /// How many there are.
    pub(super) all: usize,
    /// How many of them can be a number of each kind, by their values and names.
    pub(super) of: [usize; What::COUNT],
}

impl<'a, 'm> Gathered<'a, 'm> {
    pub(in super::super) fn new(
        read: &'a ReadPassages<'a>,
        keys: &'a Keys<'m>,
        before: &'a BeforeWeights,
        bare: Unit,
    ) -> Gathered<'a, 'm> {
        let BeforeWeights { open, families, came } = before;
        let mut places: HashMap<Cue, usize> = HashMap::new();
        let owners_of: Vec<Vec<usize>> = of_things(keys, &mut places, owners);
        let fabrics_of: Vec<Vec<usize>> = of_things(keys, &mut places, fabrics);
        let same: Vec<Vec<usize>> = open.iter().map(|own| same(keys, own)).collect();
        let told: Vec<Vec<usize>> = open.iter().zip(&same).map(|(own, same)| told(keys, own, same)).collect();
        let thing_of = &keys.groups.things.of;
        let of = |list: &[Vec<usize>], same: &[usize]| set(same.iter().flat_map(|key| &list[thing_of[*key]]).copied());
        let group = |own: &Candidates| own.group;
        let ((groups, group_of), (passages, passage_of)) = (part(open, group), part(open, |own| own.passage));
        let mut gathered = Gathered {
            read,
            keys,
            open,
            families,
            bare,
            constants: Constants::new(keys),
            owners: same.iter().map(|same| of(&owners_of, same)).collect(),
            fabrics: same.iter().map(|same| of(&fabrics_of, same)).collect(),
            lines: open.iter().zip(&same).map(|(own, same)| lines(keys, own, same)).collect(),
            whats: open.iter().zip(&same).map(|(own, same)| whats(keys, own, same)).collect(),
            times_told: vec![0; keys.list.len()],
            keys_of: vec![Vec::new(); keys.groups.lines.count()],
            families_of: vec![Vec::new(); open.len()],
            same,
            told,
            kin: Kinship::new(places.len(), &owners_of, &fabrics_of),
            owners_of,
            fabrics_of,
            groups,
            group_of,
            passages,
            passage_of,
            siblings: BTreeMap::new(),
            came,
            columns: BTreeMap::new(),
        };
        gathered.place();
        gathered
    }

    /// Notes which numbers stand together.
    fn place(&mut self) {
        for (key, line) in self.keys.groups.lines.of.iter().enumerate() {
            self.keys_of[*line].push(key);
        }
        for (family, members) in self.families.iter().enumerate() {
            for member in members {
                self.families_of[*member].push(family);
            }
        }
        for key in self.told.iter().flatten() {
            self.times_told[*key] += 1;
        }
        let mut last: BTreeMap<(usize, usize, usize), usize> = BTreeMap::new();
        for (index, own) in self.open.iter().enumerate() {
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
        }
        for together in self.groups.iter_mut().chain(&mut self.passages) {
            together.members.sort_by_key(|index| (self.open[*index].passage, self.open[*index].element));
            let count = |sets: &[Vec<usize>]| Counts::new(together.members.iter().map(|member| &sets[*member]));
            (together.owners, together.fabrics) = (count(&self.owners), count(&self.fabrics));
            together.told = count(&self.told);
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

/// In order, each once.
fn set(all: impl Iterator<Item = usize>) -> Vec<usize> {
    let mut set: Vec<usize> = all.collect();
    set.sort_unstable();
    set.dedup();
    set
}

/// The numbers by where they stand, and for each which of these that is.
fn part<T: Eq + Hash>(open: &[Candidates], by: impl Fn(&Candidates) -> T) -> (Vec<Together>, Vec<usize>) {
    let groups = Groups::new(open.iter().map(by));
    let mut parts: Vec<Together> = std::iter::repeat_with(Together::default).take(groups.count()).collect();
    for (index, part) in groups.of.iter().enumerate() {
        parts[*part].members.push(index);
    }
    (parts, groups.of)
}

/// Some of what each thing is of, by places that are given to the cues.
fn of_things(keys: &Keys<'_>, places: &mut HashMap<Cue, usize>, some: fn(&[Cue]) -> Vec<Cue>) -> Vec<Vec<usize>> {
    let mut place = |cue: Cue| {
        let next = places.len();
        *places.entry(cue).or_insert(next)
    };
    let firsts = keys.groups.things.first.iter();
    firsts.map(|key| set(some(&keys.list[*key].of).into_iter().map(&mut place))).collect()
}

/// What a key is of, without fabrics; where a piece is named, that alone.
fn owners(of: &[Cue]) -> Vec<Cue> {
    let has_piece = of.iter().any(|cue| matches!(cue, Cue::Piece(..)));
    let is = |cue: &Cue| match cue {
        Cue::Piece(..) => true,
        Cue::Fabric(_) | Cue::Section(Section::Quilt | Section::Top) => false,
        _ => !has_piece,
    };
    of.iter().copied().filter(is).collect()
}

fn fabrics(of: &[Cue]) -> Vec<Cue> {
    of.iter().copied().filter(|cue| matches!(cue, Cue::Fabric(_))).collect()
}

fn same(keys: &Keys<'_>, own: &Candidates) -> Vec<usize> {
    let is = |key: &usize| own.fits.likeness(keys, *key) == (true, true) && keys.list[*key].is_for(&own.around.sizes);
    own.fits.same().iter().copied().filter(is).collect()
}

fn told(keys: &Keys<'_>, own: &Candidates, same: &[usize]) -> Vec<usize> {
    let mut is_kept = vec![false; keys.list.len()];
    own.keys.iter().for_each(|key| is_kept[*key] = true);
    same.iter().copied().filter(|key| is_kept[*key]).collect()
}

fn lines(keys: &Keys<'_>, own: &Candidates, same: &[usize]) -> Vec<usize> {
    let line_of = &keys.groups.lines.of;
    let is_side = |key: &&usize| own.fits.is_like(keys, **key) && keys.list[**key].is_for(&own.around.sizes);
    let sides = if own.around.is_measure { own.fits.sides() } else { &[] };
    set(same.iter().chain(sides.iter().filter(is_side)).map(|key| line_of[*key]))
}

fn whats(keys: &Keys<'_>, own: &Candidates, same: &[usize]) -> [bool; What::COUNT] {
    let mut is_wide = vec![false; keys.list.len()];
    own.wide.iter().for_each(|key| is_wide[*key] = true);
    let mut whats = [false; What::COUNT];
    for key in same.iter().filter(|key| is_wide[**key]) {
        whats[keys.list[*key].what as usize] = true;
    }
    whats
}
