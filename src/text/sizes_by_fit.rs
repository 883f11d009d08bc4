//! The size that numbers are for where no word says it, or where a word names another to compare with: the one whose
//! numbers they are.

use std::collections::BTreeMap;

use super::candidates::{Candidates, candidates_for};
use super::context::ReadPassages;
use super::fits::Comparing;
use super::keys::Keys;
use super::lexicon::Cue;
use super::passage::PassageKind;

/// How many numbers must be those of one size alone.
const ENOUGH: usize = 3;

/// How many times as many they must be as those of any other size.
const TIMES: usize = 4;

/// What numbers stand in together, and may be for one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    Passage(usize),
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
    /// How many numbers of each place are for each size.
    votes: BTreeMap<Place, Votes>,
    /// The passages that are for another size than the one that they name.
    compared: BTreeMap<(usize, usize), Vec<usize>>,
    /// The sizes that the text names, where it leaves some out.
    of_text: Vec<usize>,
}

impl SizesByFit {
    /// Finds them for the numbers of a text.
    pub(super) fn new(read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, open: &[Candidates]) -> SizesByFit {
        if read.sizes() < 2 {
            return SizesByFit::default();
        }
        SizesByFit {
            votes: of_places(read, comparing.keys, open),
            compared: of_compared(read, comparing, open),
            of_text: read.of_text().to_vec(),
        }
    }

    /// Gives a number the size that it fits, or those that the text names.
    pub(super) fn apply(&self, read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, own: &mut Candidates) {
        let sizes = match own.around.sizes[..] {
            [] => self.unsaid(read, own.passage),
            [said] => self.compared.get(&(own.passage, said)).cloned(),
            _ => None,
        };
        if let Some(sizes) = sizes {
            *own = candidates_for(read, comparing, (own.passage, own.element), Some(&sizes));
        }
    }

    /// The size of the nearest place whose numbers are nearly all for one, or those that the text names.
    fn unsaid(&self, read: &ReadPassages<'_>, passage: usize) -> Option<Vec<usize>> {
        let own = self.votes.get(&Place::Passage(passage));
        let found = places(read, passage).iter().find_map(|place| self.votes.get(place)?.winner());
        // A cell is a whole by itself; of a sentence or two one number may be wrong.
        let least = if read.list[passage].is_cell() { 1 } else { 2 };
        let found = found.filter(|size| own.is_none_or(|own| !own.contradict(*size, least)));
        found.map(|size| vec![size]).or_else(|| Some(self.of_text.clone()).filter(|sizes| !sizes.is_empty()))
    }
}

/// How many numbers of each place are for each size: by words, or by what they are where no word says it.
fn of_places(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &[Candidates]) -> BTreeMap<Place, Votes> {
    let mut votes: BTreeMap<Place, Votes> = BTreeMap::new();
    for own in open {
        let vote = match own.around.sizes[..] {
            [] => only_size(keys, own),
            [said] => Some(said),
            _ => None,
        };
        for place in places(read, own.passage) {
            votes.entry(place).or_default().add(vote);
        }
    }
    votes
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
        let mut sizes =
            read.list[head].cues.iter().filter_map(|cue| if let Cue::Size(size) = cue.cue { Some(size) } else { None });
        let first = sizes.next()?;
        sizes.all(|size| size == first).then_some(first)
    })
}

/// What a passage is and stands in, the nearest first.
fn places(read: &ReadPassages<'_>, passage: usize) -> Vec<Place> {
    let mut places = vec![Place::Passage(passage)];
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
