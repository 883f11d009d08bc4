//! The size that numbers are for where no word says it, or where a word names another to compare with: the one whose
//! numbers they are.

use std::collections::BTreeMap;

use super::candidates::{Candidates, candidates_for};
use super::context::ReadPassages;
use super::fits::Comparing;
use super::keys::Keys;
use super::passage::PassageKind;

/// How many numbers must be those of one size alone.
const ENOUGH: usize = 3;

/// How many times as many they must be as those of any other size.
const TIMES: usize = 4;

/// What passages stand in together, and may be for one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    Row(u32, u32),
    Column(u32, u32),
    /// Under a heading, or under what introduces a list.
    Under(usize),
    /// The whole text.
    Text,
}

/// The sizes of numbers by what they fit.
#[derive(Debug, Default)]
pub(super) struct SizesByFit {
    /// Those of the numbers of each passage for which no word says any.
    unsaid: Vec<Vec<usize>>,
    /// Those of passages that are for another size than the one that they name.
    compared: BTreeMap<(usize, usize), Vec<usize>>,
}

impl SizesByFit {
    /// Finds them for the numbers of a text.
    pub(super) fn new(read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, open: &[Candidates]) -> SizesByFit {
        if read.sizes() < 2 {
            return SizesByFit::default();
        }
        SizesByFit { unsaid: unsaid(read, comparing.keys, open), compared: of_compared(read, comparing, open) }
    }

    /// Gives a number the size that it fits, or those that the text names.
    pub(super) fn apply(&self, read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, own: &mut Candidates) {
        let sizes = match own.around.sizes[..] {
            [] => self.unsaid.get(own.passage),
            [said] => self.compared.get(&(own.passage, said)),
            _ => None,
        };
        if let Some(sizes) = sizes.filter(|sizes| !sizes.is_empty()) {
            *own = candidates_for(read, comparing, (own.passage, own.element), Some(sizes));
        }
    }
}

/// For each passage the size of the nearest place whose numbers are nearly all for one, or those that the text names.
fn unsaid(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &[Candidates]) -> Vec<Vec<usize>> {
    let mut own: Vec<Votes> = std::iter::repeat_with(Votes::default).take(read.list.len()).collect();
    for number in open {
        // By words, or by what it is where no word says it.
        own[number.passage].add(match number.around.sizes[..] {
            [] => only_size(keys, number),
            [said] => Some(said),
            _ => None,
        });
    }
    let places: Vec<Vec<Place>> = (0..read.list.len()).map(|passage| places(read, passage)).collect();
    let mut votes: BTreeMap<Place, Votes> = BTreeMap::new();
    for (own, places) in own.iter().zip(&places) {
        for place in places {
            votes.entry(*place).or_default().join(own);
        }
    }
    let of_passage = |(passage, (own, places)): (usize, (&Votes, &Vec<Place>))| {
        // A cell is a whole by itself; of a sentence or two one number may be wrong.
        let least = if read.list[passage].is_cell() { 1 } else { 2 };
        let found = own.winner().or_else(|| places.iter().find_map(|place| votes[place].winner()));
        found.filter(|size| !own.contradict(*size, least)).map_or_else(|| read.of_text().to_vec(), |size| vec![size])
    };
    own.iter().zip(&places).enumerate().map(of_passage).collect()
}

/// Passages that name a size and stand under the name of another whose numbers they state: `As for the throw: 144 sails`.
fn of_compared(
    read: &ReadPassages<'_>,
    comparing: &mut Comparing<'_, '_>,
    open: &[Candidates],
) -> BTreeMap<(usize, usize), Vec<usize>> {
    let mut votes: BTreeMap<(usize, usize), (usize, Votes)> = BTreeMap::new();
    for own in open.iter().filter(|own| !own.in_run) {
        let [said] = own.around.sizes[..] else { continue };
        let Some(over) = size_over(read, own.passage).filter(|over| *over != said) else { continue };
        let other = candidates_for(read, comparing, (own.passage, own.element), Some(&[over]));
        let (_, votes) = votes.entry((own.passage, said)).or_insert((over, Votes::default()));
        votes.add(only_size(comparing.keys, own));
        votes.add(only_size(comparing.keys, &other));
    }
    votes
        .into_iter()
        .filter(|(_, (over, votes))| votes.winner() == Some(*over))
        .map(|(at, (over, _))| (at, vec![over]))
        .collect()
}

/// The only size that what stands over a passage names.
fn size_over(read: &ReadPassages<'_>, passage: usize) -> Option<usize> {
    read.above(passage).into_iter().find_map(|(head, _)| {
        let mut sizes = read.list[head].cues.iter().filter_map(|cue| cue.cue.size());
        let first = sizes.next()?;
        sizes.all(|size| size == first).then_some(first)
    })
}

/// What a passage stands in, the nearest first.
fn places(read: &ReadPassages<'_>, passage: usize) -> Vec<Place> {
    let mut places = Vec::new();
    if let PassageKind::Cell { table, row, column, .. } = read.list[passage].passage.kind {
        // The first column names what the rows are of.
        places.extend((column > 0).then_some(Place::Column(table, column)));
        places.push(Place::Row(table, row));
    }
    places.extend(read.above(passage).into_iter().filter(|(_, is_own)| !is_own).map(|(head, _)| Place::Under(head)));
    places.push(Place::Text);
    places
}

/// How many numbers are those of each size alone.
#[derive(Debug, Default)]
struct Votes(BTreeMap<usize, usize>);

impl Votes {
    fn add(&mut self, vote: Option<usize>) {
        if let Some(size) = vote {
            *self.0.entry(size).or_default() += 1;
        }
    }

    fn join(&mut self, others: &Votes) {
        for (size, votes) in &others.0 {
            *self.0.entry(*size).or_default() += votes;
        }
    }

    /// Whether so many are for other sizes, and none is for this.
    fn contradict(&self, size: usize, least: usize) -> bool {
        !self.0.contains_key(&size) && self.0.values().sum::<usize>() >= least
    }

    fn winner(&self) -> Option<usize> {
        let (size, votes) = self.0.iter().max_by_key(|(_, votes)| **votes)?;
        let others = self.0.iter().filter(|(other, _)| *other != size).map(|(_, votes)| *votes).max().unwrap_or(0);
        (*votes >= ENOUGH && *votes >= others * TIMES).then_some(*size)
    }
}

/// The only size whose numbers one is by its value and by its names.
fn only_size(keys: &Keys<'_>, own: &Candidates) -> Option<usize> {
    let told = own.fits.same().iter().filter(|key| own.keys.binary_search(key).is_ok());
    let mut told = told.map(|key| keys.list[*key].size);
    let first = told.next()??;
    told.all(|size| size == Some(first)).then_some(first)
}
