//! How near what one number of a manuscript is of is to what another is of.

use std::cell::OnceCell;

/// How near things are to each other: 3 to themselves, 2 to those that they share an owner with, 1 a fabric, 0 nothing.
pub(super) struct Kinship {
    rows: Vec<OnceCell<Vec<u8>>>,
    owners_of: Shared,
    fabrics_of: Shared,
}

/// The cues of things, and the things of cues.
struct Shared {
    of: Vec<Vec<usize>>,
    things: Vec<Vec<usize>>,
}

impl Shared {
    fn new(cues: usize, of: &[Vec<usize>]) -> Shared {
        let mut things = vec![Vec::new(); cues];
        for (thing, own) in of.iter().enumerate() {
            for cue in own {
                things[*cue].push(thing);
            }
        }
        Shared { of: of.to_vec(), things }
    }

    /// The things that share a cue with one.
    fn with(&self, thing: usize) -> impl Iterator<Item = usize> {
        self.of[thing].iter().flat_map(|cue| &self.things[*cue]).copied()
    }
}

impl Kinship {
    /// Of the cues of each thing, by their places.
    pub(super) fn new(cues: usize, owners_of: &[Vec<usize>], fabrics_of: &[Vec<usize>]) -> Kinship {
        Kinship {
            rows: vec![OnceCell::new(); owners_of.len()],
            owners_of: Shared::new(cues, owners_of),
            fabrics_of: Shared::new(cues, fabrics_of),
        }
    }

    /// How near each thing is to one.
    pub(super) fn of(&self, thing: usize) -> &[u8] {
        self.rows[thing].get_or_init(|| {
            let mut row = vec![0; self.rows.len()];
            self.fabrics_of.with(thing).for_each(|other| row[other] = 1);
            self.owners_of.with(thing).for_each(|other| row[other] = 2);
            row[thing] = 3;
            row
        })
    }
}
