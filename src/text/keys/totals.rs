//! Sums: the strips of a fabric, the pieces of one name or one size of several fabrics, what all pieces give.

use std::collections::BTreeSet;

use super::{KeyValue, Keys, What};
use crate::manuscript::model::{Bought, BoughtAs, Cut};
use crate::manuscript::{Field, Spanned};
use crate::quantity::{Count, Length};
use crate::requirement::Needs;
use crate::text::lexicon::{Cue, Noun};

/// An entry of a cutting list: the place of its fabric, and its own.
type Entry = (usize, usize);

impl<'m> Keys<'m> {
    pub(super) fn totals(&mut self, needs: &Needs<'m>) {
        self.strips_of_fabrics();
        self.pieces_of_several_entries();
        self.units_of_all_pieces(needs);
        self.strips_of_sets(needs);
        self.strips_side_by_side();
        self.in_all_packs();
    }

    /// How many strips the strip sets of a unit take, those of all its fabrics together.
    fn strips_of_sets(&mut self, needs: &Needs<'m>) {
        for place in 0..self.manuscript.units.len() {
            let used = needs.units.pieces_per_unit(place).unwrap_or_default();
            let entries: BTreeSet<Entry> = used
                .iter()
                .flat_map(|used| used.piece.entries(self.manuscript.fabrics.iter()))
                .map(|entry| (entry.fabric, entry.cut))
                .filter(|entry| self.entry(*entry).size.is_absent())
                .collect();
            let of: Vec<Cue> = entries.iter().map(|(fabric, cut)| Cue::Piece(*fabric, *cut)).collect();
            for size in 0..self.manuscript.sizes.len() {
                let strips = entries.iter().map(|entry| self.entry(*entry).strips.get(size).and_then(Field::stated));
                let Some(strips) = strips.collect::<Option<Vec<_>>>().filter(|strips| strips.len() > 1) else {
                    continue;
                };
                let sum = strips.iter().fold(Count(0), |sum, strips| sum + strips.value);
                let of = of.iter().copied().chain([Cue::Unit(place)]).collect::<Vec<Cue>>();
                self.count(What::Strips, &Spanned { value: sum, at: strips[0].at }, &of)
                    .for_size(Some(size))
                    .derived("the strips of all fabrics");
            }
        }
    }

    /// How much fabric the strips of each entry take.
    fn strips_side_by_side(&mut self) {
        for (fabric, stated) in self.manuscript.fabrics.iter().enumerate() {
            for (cut, entry) in stated.cut.iter().enumerate() {
                for (size, strips) in entry.strips.iter().enumerate() {
                    let width = entry.strip_width.of(size).length();
                    let side = entry.size.of(size).value().map(|(one, other)| one.length.min(other.length));
                    let Some((strips, width)) = strips.stated().zip(width.or(side)) else { continue };
                    let of = self.uses(fabric, cut);
                    self.add(What::Length, KeyValue::Length(vec![width * strips.value]), &of, strips.at)
                        .for_size(Some(size))
                        .derived("the strips side by side")
                        .acts = 0;
                }
            }
        }
    }

    /// How many precuts all packs hold.
    fn in_all_packs(&mut self) {
        for (place, fabric) in self.manuscript.fabrics.iter().enumerate() {
            for (size, bought) in fabric.requires.iter().enumerate() {
                let Some(Bought::Count(count)) = bought.stated() else { continue };
                if fabric.bought_as(size) == Some(BoughtAs::Packs) {
                    self.count(What::Count, count, &[Cue::Fabric(place)])
                        .for_size(Some(size))
                        .nouns(&[Noun::Square, Noun::Strip, Noun::Piece])
                        .derived("in all packs");
                }
            }
        }
    }

    fn entry(&self, (fabric, cut): Entry) -> &'m Cut {
        &self.manuscript.fabrics[fabric].cut[cut]
    }

    /// How many strips a fabric is cut into, all its pieces together.
    fn strips_of_fabrics(&mut self) {
        for (fabric, stated) in self.manuscript.fabrics.iter().enumerate() {
            for size in 0..self.manuscript.sizes.len() {
                let strips: Vec<&Spanned<Count>> =
                    stated.cut.iter().filter_map(|cut| cut.strips.get(size).and_then(Field::stated)).collect();
                let Some(first) = strips.first().filter(|_| strips.len() > 1) else { continue };
                let sum = strips.iter().fold(Count(0), |sum, strips| sum + strips.value);
                self.count(What::Strips, &Spanned { value: sum, at: first.at }, &[Cue::Fabric(fabric)])
                    .for_size(Some(size))
                    .derived("all strips of the fabric");
            }
        }
    }

    /// Which entries are counted together: those of one name, those of one fabric that are cut alike, and all that are.
    fn alike(&self) -> Vec<Vec<Entry>> {
        let lists = self.manuscript.fabrics.iter().enumerate();
        let entries: Vec<Entry> =
            lists.flat_map(|(fabric, stated)| (0..stated.cut.len()).map(move |cut| (fabric, cut))).collect();
        let mut groups: Vec<Vec<Entry>> = Vec::new();
        let mut add = |groups_by: Vec<(String, Entry)>| {
            let mut known: std::collections::BTreeMap<String, Vec<Entry>> = std::collections::BTreeMap::new();
            for (by, entry) in groups_by {
                known.entry(by).or_default().push(entry);
            }
            for group in known.into_values().filter(|group| group.len() > 1) {
                if !groups.contains(&group) {
                    groups.push(group);
                }
            }
        };
        let name = |entry: &Entry| self.entry(*entry).piece.stated().map(|piece| (piece.value.clone(), *entry));
        add(entries.iter().filter_map(name).collect());
        let sides = |entry: &Entry| {
            let (one, other) = self.entry(*entry).size.of(0).value()?;
            Some((one.length.min(other.length), one.length.max(other.length)))
        };
        let words = |(one, other): (Length, Length)| format!("{} {}", one.ticks(), other.ticks());
        add(entries
            .iter()
            .filter_map(|entry| Some((format!("{} {}", entry.0, words(sides(entry)?)), *entry)))
            .collect());
        add(entries.iter().filter_map(|entry| Some((words(sides(entry)?), *entry))).collect());
        groups
    }

    /// How many pieces and strips several entries of cutting lists give together.
    fn pieces_of_several_entries(&mut self) {
        for group in self.alike() {
            let of: Vec<Cue> = group.iter().map(|(fabric, cut)| Cue::Piece(*fabric, *cut)).collect();
            for size in 0..self.manuscript.sizes.len() {
                for (what, counts) in [
                    (What::Pieces, group.iter().map(|entry| self.entry(*entry).pieces.get(size)).collect::<Vec<_>>()),
                    (What::Strips, group.iter().map(|entry| self.entry(*entry).strips.get(size)).collect()),
                ] {
                    let stated: Vec<&Spanned<Count>> =
                        counts.into_iter().filter_map(|count| count.and_then(Field::stated)).collect();
                    let Some(first) = stated.first().filter(|_| stated.len() > 1) else { continue };
                    let sum = stated.iter().fold(Count(0), |sum, more| sum + more.value);
                    let key = self.count(what, &Spanned { value: sum, at: first.at }, &of).for_size(Some(size));
                    if what == What::Pieces {
                        key.nouns(&[Noun::Square, Noun::Rectangle, Noun::Triangle]);
                    }
                    key.derived("the sum");
                }
            }
        }
    }

    /// How many units all pieces give that are cut for them, where more are cut than are needed.
    fn units_of_all_pieces(&mut self, needs: &Needs<'m>) {
        for (place, unit) in self.manuscript.units.iter().enumerate() {
            let uses = needs.units.pieces_per_unit(place).unwrap_or_default();
            for size in 0..self.manuscript.sizes.len() {
                let gives = uses.iter().filter(|used| used.pieces.0 > 0).map(|used| {
                    let entries = used.piece.entries(self.manuscript.fabrics.iter());
                    let counts = entries
                        .iter()
                        .map(|entry| self.entry((entry.fabric, entry.cut)).pieces.get(size).and_then(Field::value));
                    let pieces =
                        counts.collect::<Option<Vec<Count>>>()?.into_iter().fold(Count(0), |sum, more| sum + more);
                    Some(Count(pieces.0 / used.pieces.0) * used.units)
                });
                let Some(least) = gives.collect::<Option<Vec<Count>>>().and_then(|gives| gives.into_iter().min())
                else {
                    continue;
                };
                let stated = unit.makes.of(size).value().or_else(|| {
                    needs
                        .counts
                        .sizes
                        .iter()
                        .find(|counts| counts.size == size)
                        .and_then(|counts| counts.of_unit(place))
                });
                if least.0 > 1 && stated != Some(least) {
                    self.count(What::Makes, &Spanned { value: least, at: unit.at }, &[Cue::Unit(place)])
                        .for_size(Some(size))
                        .nouns(&[Noun::Triangle, Noun::Square, Noun::Rectangle])
                        .derived("as many as the pieces give");
                }
            }
        }
    }
}
