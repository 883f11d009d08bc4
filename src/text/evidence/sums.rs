//! How much speaks for each key being what a number says: what keys have in common is weighed once for all of them.

use super::super::keys::{Key, What};
use super::constants::sum;
use super::number::Number;
use super::of_key::{
    Named, Relation, Side, near_to, nearest_of, of_families, of_named, of_size, of_thing, of_words, same_things,
    whats_of,
};
use super::sign::Mark;
use super::{of_number, weights};

/// The sums of a number, as far as they were asked for.
pub(super) struct Sums<'n, 'g, 'm> {
    number: &'n Number<'g, 'm>,
    of_each_what: Vec<Mark>,
    whats: [Option<i32>; What::COUNT],
    words: Vec<Option<i32>>,
    things: Vec<Option<Thing>>,
    alike: Vec<Alike>,
    manners: Vec<Option<i32>>,
    /// For what holds for all sizes, and for each.
    sizes: Vec<Option<i32>>,
    /// What the numbers beside it say of a thing that none of them is of, by size and kind.
    near: Vec<[Option<i32>; What::COUNT]>,
}

/// What speaks for things that stand alike to what is round a number.
struct Alike {
    relation: Option<Relation>,
    sum: i32,
    named: Named,
    /// For a kind of number of them.
    whats: [Option<i32>; What::COUNT],
}

/// What speaks for a thing.
struct Thing {
    /// Its place among those that stand alike.
    alike: usize,
    /// What the numbers before and after are of it by their values.
    beside: [Vec<(Option<usize>, What)>; Side::ALL.len()],
    /// How near to it the keys are that the numbers beside came to; nothing where none is.
    near: Option<Vec<u8>>,
}

impl<'n, 'g, 'm> Sums<'n, 'g, 'm> {
    pub(super) fn new(number: &'n Number<'g, 'm>) -> Sums<'n, 'g, 'm> {
        let keys = number.gathered.keys;
        let none = |count: usize| std::iter::repeat_with(|| None).take(count);
        Sums {
            number,
            of_each_what: of_number::of_each_what(number),
            whats: [None; What::COUNT],
            words: vec![None; keys.groups.words.count()],
            things: none(keys.groups.things.count()).collect(),
            alike: Vec::new(),
            manners: vec![None; keys.groups.manners.count()],
            sizes: vec![None; keys.manuscript.sizes.len() + 1],
            near: vec![[None; What::COUNT]; keys.manuscript.sizes.len() + 1],
        }
    }

    /// How much speaks for a key.
    pub(super) fn of(&mut self, place: usize) -> i32 {
        let number = self.number;
        let gathered = number.gathered;
        let key = &gathered.keys.list[place];
        let constants = &gathered.constants;
        let candidates = number.candidates;
        let of_line = self.manner(place) + self.what(key.what);
        let (is_kind, is_form) = candidates.fits.likeness(gathered.keys, place);
        let is_in_line = number.is_told_in_line(place);
        let (is_kept, is_wide) = (number.is_kept(place), number.is_wide(place));
        let kept = &constants.kept[usize::from(is_kept)][usize::from(is_wide)];
        of_line
            + self.size(key.size)
            + self.neighbors(gathered.keys.groups.things.of[place], key)
            + self.near(place, key)
            + constants.stated[place]
            + constants.likeness[usize::from(is_kind)][usize::from(is_form)]
            + constants.count[usize::from(key.is_count())][usize::from(candidates.has_unit)]
            + constants.told[number.times_told(place)][usize::from(key.is_stated())]
            + constants.told_in_line[key.what as usize][usize::from(is_in_line)]
            + kept[usize::from(candidates.is_fitted)][usize::from(candidates.is_named)]
    }

    fn what(&mut self, what: What) -> i32 {
        let (number, all) = (self.number, &self.of_each_what);
        *self.whats[what as usize].get_or_insert_with(|| {
            let mut sum = 0;
            of_number::of_what(number, what, all, &mut |sign: Mark| sum += weights::of(sign));
            sum
        })
    }

    fn size(&mut self, size: Option<usize>) -> i32 {
        let number = self.number;
        let known = &mut self.sizes[size.map_or(0, |size| size + 1)];
        *known.get_or_insert_with(|| sum(|mut add| of_size(number, size, &mut add)))
    }

    /// What speaks for all keys of a line for which the same is done.
    fn manner(&mut self, place: usize) -> i32 {
        let number = self.number;
        let groups = &number.gathered.keys.groups;
        let manner = groups.manners.of[place];
        if let Some(known) = self.manners[manner] {
            return known;
        }
        let key = &number.gathered.keys.list[place];
        let words = &mut self.words[groups.words.of[place]];
        let of_words = *words.get_or_insert_with(|| sum(|mut add| of_words(number, key, &mut add)));
        let alike = self.thing(groups.things.of[place]).alike;
        let Alike { sum: of_thing, named, whats, .. } = &mut self.alike[alike];
        let of_named =
            *whats[key.what as usize].get_or_insert_with(|| sum(|mut add| of_named(named, key.what, &mut add)));
        let of_families = sum(|mut add| of_families(number, groups.lines.of[place], &mut add));
        *self.manners[manner].insert(of_words + *of_thing + of_named + of_families)
    }

    fn thing(&mut self, thing: usize) -> &Thing {
        if self.things[thing].is_none() {
            let number = self.number;
            let alike = self.alike(thing);
            let beside = [number.previous, number.next]
                .map(|other| other.map_or_else(Vec::new, |other| same_things(number, other, thing)));
            let near = near_to(number, thing);
            let near = near.iter().any(|kin| *kin > 0).then_some(near);
            self.things[thing] = Some(Thing { alike, beside, near });
        }
        self.things[thing].as_ref().expect("found")
    }

    fn alike(&mut self, thing: usize) -> usize {
        let number = self.number;
        let relation = Relation::new(number, thing);
        let known = self.alike.iter().position(|alike| alike.relation == relation && relation.is_some());
        known.unwrap_or_else(|| {
            let mut named = Named::default();
            let sum = sum(|mut add| named = of_thing(number, thing, &mut add));
            self.alike.push(Alike { relation, sum, named, whats: [None; What::COUNT] });
            self.alike.len() - 1
        })
    }

    fn near(&mut self, place: usize, key: &Key) -> i32 {
        let number = self.number;
        let asked = (key.size, key.what);
        let of_near = |near: &[u8], place: Option<usize>| {
            let mut sum = 0;
            nearest_of(number, near, asked, place, |nearest| {
                sum += number.gathered.constants.near(nearest, key.what);
            });
            sum
        };
        if let Some(near) = &self.thing(number.gathered.keys.groups.things.of[place]).near {
            return of_near(near, Some(place));
        }
        let known = &mut self.near[key.size.map_or(0, |size| size + 1)][key.what as usize];
        *known.get_or_insert_with(|| of_near(&vec![0; number.near.iter().map(|(_, keys)| keys.len()).sum()], None))
    }

    fn neighbors(&mut self, thing: usize, key: &Key) -> i32 {
        let number = self.number;
        let thing = self.thing(thing);
        let sides =
            [number.previous, number.next].into_iter().zip(&thing.beside).zip(&number.gathered.constants.neighbors);
        let there = sides.filter(|((other, _), _)| other.is_some());
        there.map(|((_, beside), neighbor)| neighbor.sum(whats_of(beside, key.size), key.what)).sum()
    }
}
