//! Says of a number whether it is right: by the keys that what stands around it leaves.

use std::collections::BTreeSet;

use super::assign::CameTo;
use super::candidates::Candidates;
use super::claims::is_claimed;
use super::compare::{Fit, has_digits, is_across_fabric, sides_off};
use super::context::{ReadPassage, ReadPassages};
use super::elements::{Element, Form};
use super::grids::across_and_down;
use super::keys::{Key, KeyValue, Keys, What};
use super::lexicon::{Act, Cue, Noun, Section};
use crate::quantity::Unit;

/// Why nothing is said of a number that may be several.
pub(super) const SEVERAL: &str = "several numbers of the manuscript could be meant";

/// Says of a number whether it is right, from the keys that are left.
pub(super) fn judge(read: &ReadPassages<'_>, keys: &Keys<'_>, candidates: &Candidates, bare: Unit) -> CameTo {
    let here = &read.list[candidates.passage];
    let own = &here.elements[candidates.element];
    let judge = Judge { keys, candidates, here, own, bare };
    if let Some(right) = judge.right() {
        return right;
    }
    if let Some(slip) = judge.unit_slip() {
        return slip;
    }
    judge.wrong().unwrap_or_else(CameTo::Unclear)
}

struct Judge<'a, 'm> {
    keys: &'a Keys<'m>,
    candidates: &'a Candidates,
    here: &'a ReadPassage<'a>,
    own: &'a Element,
    bare: Unit,
}

impl Judge<'_, '_> {
    fn key(&self, key: usize) -> &Key {
        &self.keys.list[key]
    }

    fn fit(&self, key: usize) -> Fit {
        self.candidates.fits.fit(self.keys, key)
    }

    fn is_form(&self, key: usize) -> bool {
        self.candidates.fits.is_form(self.keys, key)
    }

    fn is_count(&self, key: usize) -> bool {
        matches!(self.key(key).value, KeyValue::Count(_))
    }

    /// Whether it is a number of things.
    fn counts(&self) -> bool {
        let number = &self.here.tokens.numbers[self.own.numbers[0]];
        let keys = &self.candidates.keys;
        self.own.form == Form::Scalar && number.unit.is_none() && keys.iter().any(|key| self.is_count(*key))
    }

    /// The keys that are left, of which those of things where it is a number of things.
    fn left(&self) -> impl Iterator<Item = usize> + '_ {
        let counts = self.counts();
        self.candidates.keys.iter().copied().filter(move |key| !counts || self.is_count(*key))
    }

    fn says_what(&self) -> bool {
        self.candidates.is_named || self.candidates.around.nouns != 0 && !self.candidates.conflicts
    }

    fn right(&self) -> Option<CameTo> {
        let right: Vec<usize> = self.left().filter(|key| self.fit(*key) == Fit::Same).collect();
        if !right.is_empty() && self.says_what() {
            let stated: Vec<usize> = right.iter().copied().filter(|key| self.key(*key).is_stated()).collect();
            return Some(CameTo::Right(if stated.is_empty() { right } else { stated }));
        }
        let sides = || self.left().filter(|key| self.fit(*key) == Fit::OneSide).collect::<Vec<_>>();
        let sides = if self.says_what() { sides() } else { Vec::new() };
        let others = [
            &|| sides.clone(),
            &|| self.finished_quilt().into_iter().collect(),
            &|| across_and_down(self.keys, self.own, self.here, &self.candidates.around.sizes),
            &|| self.of_what_is_named(),
            &|| self.by_its_noun(),
            &|| self.both_sides(),
            &|| self.by_what_is_done(),
        ] as [&dyn Fn() -> Vec<usize>; 7];
        let found = others.into_iter().map(|keys| keys()).find(|keys| !keys.is_empty()).map(CameTo::Right);
        let unsaid = || (!right.is_empty()).then_some(CameTo::Unclear("nothing beside it says what it is"));
        found.or_else(unsaid)
    }

    /// Keys that say the same of what is named, though another word stands beside the number.
    fn of_what_is_named(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        if !self.candidates.wide_named || self.candidates.is_fitted {
            return Vec::new();
        }
        let is = |key: &usize| {
            let of = self.key(*key);
            let is_sure = of.is_stated() || of.is_sure || of.what == What::FromEach;
            let fits_noun = around.nouns == 0 || of.nouns & around.nouns != 0;
            let fits_each = (of.what == What::FromEach) == around.of_each;
            is_sure
                && (!self.is_count(*key) || fits_noun && fits_each)
                && (of.what != What::Amount || self.is_bought() && of.is_stated())
                && self.fit(*key) == Fit::Same
        };
        self.candidates.wide.iter().copied().filter(is).collect()
    }

    /// Whether an amount of fabric may be meant: nothing is cut, sewn or measured there.
    fn is_bought(&self) -> bool {
        let acts = self.candidates.around.acts;
        let of_measure = Act::Cut.bit() | Act::Sew.bit() | Act::Measured.bit() | Act::Trimmed.bit();
        acts & Act::Bought.bit() != 0 || acts & of_measure == 0
    }

    /// Keys of a noun that is of one thing only, which stands in the same sentence: a seam, a tail, a pack.
    fn by_its_noun(&self) -> Vec<usize> {
        let said = self.candidates.around.sentence_nouns & Noun::specific();
        let is = |key: &usize| {
            let of = self.key(*key);
            of.nouns & said != 0
                && (of.is_sure || of.nouns & Noun::Pack.bit() != 0)
                && self.is_for(*key)
                && self.is_form(*key)
        };
        self.candidates.fits.same().iter().copied().filter(is).collect()
    }

    /// Keys by what is done, where nothing beside it is named: what units measure and finish at, and how many are made.
    fn by_what_is_done(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        let is_thing = |cue: &Cue| matches!(cue, Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_) | Cue::Fabric(_));
        let names = around.subjects.first().is_some_and(|level| level.cues.iter().any(is_thing));
        let does = |act: Act| around.acts & act.bit() != 0;
        let is_whole_count = self.own.form == Form::Scalar && !self.candidates.has_unit && self.candidates.is_whole;
        let is = |key: &usize| {
            let of = self.key(*key);
            let is_done = match of.what {
                What::Unfinished => does(Act::Trimmed) || does(Act::Measured),
                What::Finished => does(Act::Finished),
                What::Makes => is_whole_count && (does(Act::Make) || does(Act::Bought) || around.is_total),
                _ => false,
            };
            is_done && of.is_sure && self.is_for(*key) && self.is_form(*key)
        };
        if names || !(around.act_is_near || around.is_total) {
            return Vec::new();
        }
        self.candidates.fits.same().iter().copied().filter(is).collect()
    }

    /// A size of which one side is right, and what it is of is named.
    fn half_right(&self) -> Option<CameTo> {
        let around = &self.candidates.around;
        let across = is_across_fabric(self.own, self.here, self.bare);
        if self.own.form != Form::Sides || self.own.may_be_count_and_size || !self.candidates.has_unit {
            return None;
        }
        let near = around.subjects.first()?;
        let is_whole = |cue: &&Cue| matches!(cue, Cue::Section(_) | Cue::Border(_) | Cue::Piece(..));
        let named: Vec<Cue> = near.cues.iter().chain(&near.weak).filter(is_whole).copied().collect();
        let does = |acts: u32| around.act_is_near && around.acts & acts != 0;
        let is_alone = near.cues.is_empty() && near.weak.is_empty() && around.sizes.len() == 1;
        let named = if is_alone { vec![Cue::Section(Section::Top), Cue::Section(Section::Quilt)] } else { named };
        let is_cut = does(Act::Cut.bit());
        let is_measured = does(Act::Measured.bit() | Act::Finished.bit() | Act::Trimmed.bit());
        let is = |key: &usize| {
            let of = self.key(*key);
            let fits_act = match of.what {
                What::CutSize => !is_measured && !across,
                What::Layer => true,
                _ => !is_cut,
            };
            fits_act
                && of.is_sure
                && matches!(of.value, KeyValue::Sides(_))
                && named.iter().any(|cue| of.is_of(*cue))
                && self.is_for(*key)
                && (around.sizes.len() == 1 || of.size.is_none())
                && sides_off(of, self.own, self.here, self.bare).len() == 1
        };
        let keys: Vec<usize> = (0..self.keys.list.len()).filter(is).collect();
        let numbers = differing(&keys, self.keys, self.own, self.here, self.bare);
        (!keys.is_empty()).then_some(CameTo::Differs(keys, numbers))
    }

    /// Keys of which both sides are these, where nothing named beside it is of another size.
    fn both_sides(&self) -> Vec<usize> {
        let is_sides = |key: &&usize| matches!(self.key(**key).value, KeyValue::Sides(_)) && self.key(**key).is_sure;
        let near = self.candidates.around.subjects.first();
        let is_of = |key: usize| {
            near.is_some_and(|level| {
                let is_thing =
                    |cue: &&Cue| !matches!(cue, Cue::Fabric(_) | Cue::Section(Section::Quilt | Section::Top));
                level.cues.iter().filter(is_thing).any(|cue| self.key(key).is_of(*cue))
            })
        };
        let is_other = self.candidates.wide.iter().filter(is_sides).any(|key| is_of(*key));
        if self.own.form != Form::Sides || is_other || self.own.may_be_count_and_size {
            return Vec::new();
        }
        let same = self.candidates.fits.same().iter();
        same.filter(|key| is_sides(key) && self.is_for(**key)).copied().collect()
    }

    fn is_for(&self, key: usize) -> bool {
        self.key(key).is_for(&self.candidates.around.sizes)
    }

    /// Whether the manuscript says the same of something else for the same size.
    fn is_elsewhere(&self) -> bool {
        let fits = &self.candidates.fits;
        let sides = if self.candidates.has_unit { fits.sides() } else { &[] };
        fits.same().iter().chain(sides).any(|key| {
            let of = self.key(*key);
            (of.is_sure || of.what == What::FromEach && self.candidates.around.of_each)
                && self.is_for(*key)
                && self.is_form(*key)
        })
    }

    /// The same digits as those of a number that is named, and another unit.
    fn unit_slip(&self) -> Option<CameTo> {
        let unit = |number: &usize| self.here.tokens.numbers[*number].unit;
        let units: Vec<Unit> = self.own.numbers.iter().filter_map(unit).collect();
        let around = &self.candidates.around;
        let is_known = self.candidates.wide_named || self.candidates.is_fitted || self.own.form == Form::Sides;
        if units.is_empty() || !is_known || around.about || around.is_supposed {
            return None;
        }
        let is_quilt = |key: &Key| {
            let is_size = self.own.form == Form::Sides && key.size.is_some() && around.sizes.len() == 1;
            is_size && key.what == What::Finished && key.is_of(Cue::Section(Section::Quilt))
        };
        // Under a heading of the binding stand other lengths too: quilted lines, tails.
        let named_here = around.subjects.first().is_some_and(|level| !level.cues.is_empty());
        let is_listed = around.in_table || self.candidates.is_fitted || around.acts & Act::Bought.bit() != 0;
        let is_bought = self.is_bought() && (is_listed || named_here);
        let meant = |key: &Key| -> &[Unit] {
            match key.value {
                KeyValue::Amount(_) if !is_bought => &[],
                KeyValue::Amount(_) if self.bare.is_metric() => &[Unit::Cm, Unit::Metre],
                KeyValue::Amount(_) => &[Unit::Yard],
                KeyValue::Count(_) | KeyValue::Grid(..) => &[],
                KeyValue::Length(_) | KeyValue::Sides(_) if self.bare.is_metric() => &[Unit::Cm],
                KeyValue::Length(_) | KeyValue::Sides(_) => &[Unit::Inch],
            }
        };
        let near: Vec<Cue> = around.subjects.iter().take(2).flat_map(|level| level.cues.iter().copied()).collect();
        let is = |key: &usize, unit: Unit| {
            let of = self.key(*key);
            let is_named = near.iter().any(|cue| of.is_of(*cue)) || self.candidates.is_fitted || is_quilt(of);
            is_named && of.is_stated() && has_digits(of, self.own, self.here, unit)
        };
        let quilts = (0..self.keys.list.len()).filter(|key| self.is_for(*key) && is_quilt(self.key(*key)));
        let slips = self.candidates.wide.iter().copied().chain(quilts).find_map(|key| {
            let unit = *meant(self.key(key)).iter().find(|unit| is(&key, **unit))?;
            units.iter().any(|other| *other != unit).then_some((key, unit))
        });
        let (key, meant) = slips?;
        let wrong = |number: &&usize| unit(number).is_some_and(|unit| unit != meant);
        Some(CameTo::Differs(vec![key], self.own.numbers.iter().filter(wrong).copied().collect()))
    }

    /// What it must be and is not, or why nothing is said of it.
    fn wrong(&self) -> Result<CameTo, &'static str> {
        let candidates = self.candidates;
        let around = &candidates.around;
        if around.about {
            return Err("it is about so much");
        }
        if around.is_supposed && !candidates.in_run {
            return Err("it is what may be, and need not");
        }
        if around.counts_unknown && !candidates.in_run && !around.in_table {
            return Err("it counts something that the manuscript has no word for");
        }
        let is_counted = self.counts() && around.noun_is_near && around.noun_follows && around.nouns != 0;
        let differs = |stated: Vec<usize>| {
            // So many blocks are not as many strips, whatever else was named.
            let is_same = |key: &usize| self.key(*key).nouns & around.nouns != 0;
            if is_counted && !around.in_table && !stated.iter().any(is_same) {
                return Err("what stands beside it is nothing that the manuscript states");
            }
            let numbers = differing(&stated, self.keys, self.own, self.here, self.bare);
            Ok(CameTo::Differs(stated, numbers))
        };
        if candidates.is_fitted {
            let stated: Vec<usize> = candidates.keys.iter().copied().filter(|key| self.key(*key).is_sure).collect();
            if !stated.is_empty() && (candidates.wide_named || candidates.is_named) {
                return differs(stated);
            }
        }
        if let Some(half) = self.half_right() {
            return Ok(half);
        }
        if candidates.conflicts {
            return Err("what stands beside it is nothing that the manuscript states");
        }
        if self.counts() && around.of_each && !self.left().all(|key| self.key(key).what == What::FromEach) {
            return Err("it is so many of or from each");
        }
        let across = is_across_fabric(self.own, self.here, self.bare);
        let stated: Vec<usize> =
            self.left().filter(|key| is_claimed(self.key(*key), candidates, self.own, across)).collect();
        if stated.is_empty() || !candidates.is_named && !stated.iter().all(|key| self.is_named_by_noun(*key)) {
            return Err(SEVERAL);
        }
        if self.counts() && !candidates.wide_named && !around.noun_is_adjacent && !around.in_table {
            return Err(SEVERAL);
        }
        if self.own.may_be_count_and_size {
            return Err("it may be a count and a size");
        }
        // Without a size the numbers of every size would have to be the same.
        let is_of_size = stated.iter().any(|key| self.key(*key).size.is_some());
        let alike = stated.windows(2).all(|pair| self.key(pair[0]).value == self.key(pair[1]).value);
        if !alike && around.is_unsized() && self.keys.manuscript.sizes.len() > 1 && is_of_size {
            return Err("nothing says which size it is for");
        }
        let whats: BTreeSet<What> = stated.iter().map(|key| self.key(*key).what).collect();
        if whats.len() > 1 && !around.noun_is_near && around.acts == 0 {
            return Err(SEVERAL);
        }
        let is_sewn = |key: &usize| matches!(self.key(*key).what, What::Unfinished | What::Finished);
        if around.says_together && stated.iter().all(is_sewn) && self.own.form == Form::Sides {
            return Err("several are sewn together there");
        }
        let before = self.own.tokens.start.checked_sub(1).map_or("", |at| self.here.tokens.list[at].stem.as_str());
        let is_sewn_by_now =
            around.acts & (Act::Sew.bit() | Act::Cut.bit()) == Act::Sew.bit() && matches!(before, "is" | "are");
        if is_sewn_by_now && stated.iter().all(|key| self.key(*key).what == What::CutSize) {
            return Err("what is sewn has lost its seams");
        }
        if around.size_is_carried && !candidates.is_fitted && self.is_of_another_size(&stated) {
            return Err("the manuscript says the same of another size");
        }
        if !candidates.is_lined && !self.is_called_so(&stated) && self.is_elsewhere() {
            return Err("the manuscript says the same of something else");
        }
        differs(stated)
    }

    /// Whether the manuscript says the same of these for another size.
    fn is_of_another_size(&self, stated: &[usize]) -> bool {
        let line_of = &self.keys.groups.lines.of;
        let lines: BTreeSet<usize> = stated.iter().map(|key| line_of[*key]).collect();
        self.candidates.fits.same().iter().any(|key| lines.contains(&line_of[*key]))
    }

    /// Whether what these are of is called by its own name, and what is said to be done with it fits.
    fn is_called_so(&self, stated: &[usize]) -> bool {
        let around = &self.candidates.around;
        let near = if around.in_table { 2 } else { 1 };
        let is_thing = |cue: &&Cue| matches!(cue, Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_));
        let names: Vec<Cue> =
            around.subjects.iter().take(near).flat_map(|level| level.cues.iter().filter(is_thing).copied()).collect();
        let acts = Act::Cut.bit() | Act::Trimmed.bit() | Act::Measured.bit() | Act::Finished.bit() | Act::Make.bit();
        let is_done = around.in_table || around.acts & acts != 0 && (around.act_is_near || around.noun_is_adjacent);
        let is_of = |key: &usize| {
            let key = self.key(*key);
            let is_whole = self.own.form == Form::Sides && matches!(key.what, What::Unfinished | What::Finished);
            !is_whole && names.iter().any(|name| key.is_of(*name))
        };
        let is_beyond = stated.iter().all(|key| self.key(*key).acts & Act::Beyond.bit() != 0);
        if around.is_grid || is_beyond && self.candidates.named_near {
            return true;
        }
        let is_noun = around.noun_is_adjacent && stated.iter().all(|key| self.is_named_by_noun(*key));
        is_noun || is_done && !names.is_empty() && stated.iter().all(is_of)
    }

    /// Whether the noun beside it is of one thing only.
    fn is_named_by_noun(&self, key: usize) -> bool {
        let own = Noun::specific() | Noun::Point.bit();
        let around = &self.candidates.around;
        around.noun_is_near && self.key(key).nouns & around.nouns & own != 0
    }

    /// The finished size of the quilt for the size that is named, where an element says the same, though it stands
    /// beside other things: `For the lap quilt, 54" x 66", make 10 cabins`.
    fn finished_quilt(&self) -> Option<usize> {
        let around = &self.candidates.around;
        let [size] = around.sizes[..] else { return None };
        let wanted = if self.own.form == Form::Sides { Fit::Same } else { Fit::OneSide };
        let is_square = around.is_square;
        let is_side = self.own.form == Form::Sides || around.in_table && around.is_measure || is_square;
        let is_quilt = |key: &usize| {
            let key = self.key(*key);
            key.what == What::Finished && key.size == Some(size) && key.is_of(Cue::Section(Section::Quilt))
        };
        let fits = |key: &usize| self.fit(*key) == wanted || is_square && self.fit(*key) == Fit::Same;
        (0..self.keys.list.len()).filter(|key| is_side && is_quilt(key)).find(fits)
    }
}

/// Which numbers of an element differ from all of the keys.
pub(super) fn differing(
    stated: &[usize],
    keys: &Keys<'_>,
    own: &Element,
    here: &ReadPassage<'_>,
    bare: Unit,
) -> Vec<usize> {
    if own.numbers.len() < 2 {
        return own.numbers.clone();
    }
    let best = stated.iter().map(|key| sides_off(&keys.list[*key], own, here, bare)).min_by_key(Vec::len);
    best.filter(|numbers| !numbers.is_empty()).unwrap_or_else(|| own.numbers.clone())
}
