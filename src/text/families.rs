//! Numbers that say the same of each size: runs, rows and columns of tables, parts of a text that repeat for each size.
//!
//! What most of them are, all of them are: so a cell without a word or a unit is known by those beside it, and one that
//! differs is known to be wrong.

use std::collections::{BTreeMap, BTreeSet};

use super::candidates::Candidates;
use super::compare::Fit;
use super::context::{ReadPassage, ReadPassages};
use super::elements::{Element, Form, has_unit, unit_at};
use super::key_groups::KeyForm;
use super::keys::{Keys, ValueKind, What};
use super::kinds::is_grid;
use super::passage::PassageKind;
use crate::quantity::Unit;

/// Fits all families, those that stand closest together first, and says which there are.
pub(super) fn fit_families(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &mut [Candidates]) -> Vec<Vec<usize>> {
    let fit = Families { read, keys };
    let mut families = runs(read, open);
    families.extend(lines_of_tables(read, open, true));
    families.extend(lines_of_tables(read, open, false));
    families.extend(repeated(read, open));
    for family in &families {
        fit.fit(open, family);
    }
    fit.amounts_of_columns(open);
    families
}

struct Families<'a, 'm> {
    read: &'a ReadPassages<'a>,
    keys: &'a Keys<'m>,
}

impl Families<'_, '_> {
    fn is(&self, candidates: &Candidates, key: usize) -> bool {
        match candidates.fits.fit(self.keys, key) {
            Fit::Same => true,
            Fit::OneSide => candidates.around.is_measure,
            Fit::Other => false,
        }
    }

    /// The keys of its size, whatever is named.
    fn all(&self, candidates: &Candidates) -> Vec<usize> {
        let size = only_size(candidates);
        let keys = candidates.fits.of_form().and(self.keys.sets.of_size(size));
        keys.keys().filter(|key| self.keys.list[*key].is_sure).collect()
    }

    /// Which lines the members are of, by the keys that are asked.
    fn lines(
        &self,
        open: &[Candidates],
        family: &[usize],
        asked: impl Fn(&Candidates) -> Vec<usize>,
    ) -> BTreeMap<usize, BTreeSet<usize>> {
        let mut lines: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for index in family {
            let candidates = &open[*index];
            for key in asked(candidates) {
                if self.is(candidates, key) {
                    lines.entry(self.keys.groups.lines.of[key]).or_default().insert(*index);
                }
            }
        }
        lines
    }

    /// How many different numbers some of a family are.
    fn values(&self, open: &[Candidates], members: &BTreeSet<usize>) -> usize {
        let written = members.iter().map(|index| self.read.written(open[*index].passage, open[*index].element));
        written.collect::<BTreeSet<_>>().len()
    }

    fn fit(&self, open: &mut [Candidates], family: &[usize]) {
        let narrow = self.lines(open, family, |candidates| candidates.keys.clone());
        let wide = self.lines(open, family, |candidates| candidates.wide.clone());
        let all = self.lines(open, family, |candidates| self.all(candidates));
        let most = |lines: &BTreeMap<usize, BTreeSet<usize>>| lines.values().map(BTreeSet::len).max().unwrap_or(0);
        let fits = |lines: &BTreeMap<usize, BTreeSet<usize>>| most(lines) >= 2 && most(lines) + 1 >= family.len();
        // What is named and counted beside it is not something else because more of that fits.
        let is_said = |index: &usize| open[*index].is_named && open[*index].around.noun_is_near;
        let is_narrow = fits(&narrow) && family.iter().all(is_said);
        let is_wide = !is_narrow && most(&wide) > most(&narrow) && fits(&wide);
        // What nothing names is known by measures, by a whole family of counts, or by three of them that differ.
        let are_measures = family.iter().all(|index| open[*index].has_unit || open[*index].numbers > 1);
        let are_many = all.values().any(|fit| fit.len() + 1 >= family.len() && self.values(open, fit) >= 3);
        let is_any = !is_wide
            && !is_narrow
            && most(&all) > most(&narrow)
            && fits(&all)
            && (are_measures || are_many || most(&all) == family.len() && family.len() > 2);
        let lines = if is_wide {
            wide
        } else if is_any {
            all
        } else {
            narrow
        };
        let most = most(&lines);
        if most * 2 < family.len() {
            return;
        }
        let best: BTreeMap<usize, &BTreeSet<usize>> =
            lines.iter().filter(|(_, fit)| fit.len() == most).map(|(line, fit)| (*line, fit)).collect();
        // The same small number for each size may be many things.
        let differ = |fit: &BTreeSet<usize>| self.values(open, fit) > 1;
        let is_sure = most >= 2 && most + 1 >= family.len() && best.values().any(|fit| differ(fit));
        if (is_wide || is_any) && !is_sure {
            return;
        }
        for index in family {
            let candidates = &mut open[*index];
            let of_best = |key: &usize| best.contains_key(&self.keys.groups.lines.of[*key]);
            let from = match (is_sure, is_any) {
                (false, _) => candidates.keys.clone(),
                (true, false) => candidates.wide.clone(),
                (true, true) => self.all(candidates),
            };
            let kept: Vec<usize> = from.into_iter().filter(of_best).collect();
            if !kept.is_empty() {
                candidates.keys = kept;
                candidates.is_named |= most > 1;
                candidates.is_fitted |= is_sure && (!is_any || are_measures || are_many);
            }
        }
    }

    /// Columns of amounts without a unit, each of another thing: nearly all are what the manuscript states of it.
    fn amounts_of_columns(&self, open: &mut [Candidates]) {
        let mut columns: BTreeMap<(u32, u32), Vec<usize>> = BTreeMap::new();
        for (index, candidates) in open.iter().enumerate() {
            let here = &self.read.list[candidates.passage];
            let own = &here.elements[candidates.element];
            let is_bare = own.form == Form::Scalar && !candidates.has_unit && here.elements.len() == 1;
            let is_named = candidates.around.subjects.iter().any(|level| !level.cues.is_empty());
            if let PassageKind::Cell { table, column, .. } = here.passage.kind
                && is_bare
                && is_named
                && !candidates.is_fitted
            {
                columns.entry((table, column)).or_default().push(index);
            }
        }
        let is_amount = |key: &usize| self.keys.list[*key].what == What::Amount;
        for members in columns.values() {
            let fits = members.iter().filter(|index| {
                let candidates = &open[**index];
                candidates.wide.iter().filter(|key| is_amount(key)).any(|key| self.is(candidates, *key))
            });
            let fits = fits.count();
            if fits >= 2 && fits + 1 >= members.len() && members.iter().any(|index| !open[*index].is_whole) {
                for index in members {
                    let candidates = &mut open[*index];
                    let amounts: Vec<usize> = candidates.wide.iter().copied().filter(is_amount).collect();
                    if !amounts.is_empty() {
                        candidates.keys = amounts;
                        candidates.is_named = true;
                        candidates.is_fitted = fits >= 3;
                    }
                }
            }
        }
    }
}

fn only_size(candidates: &Candidates) -> Option<usize> {
    if let [size] = candidates.around.sizes[..] { Some(size) } else { None }
}

fn are_of_different_sizes(open: &[Candidates], members: &[usize]) -> bool {
    let sizes: BTreeSet<Option<usize>> = members.iter().map(|index| only_size(&open[*index])).collect();
    members.len() > 1 && sizes.len() == members.len() && !sizes.contains(&None)
}

/// The runs over the sizes.
fn runs(read: &ReadPassages<'_>, open: &[Candidates]) -> Vec<Vec<usize>> {
    let mut runs: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        if let Some((run, _)) = read.list[candidates.passage].elements[candidates.element].in_run {
            runs.entry((candidates.passage, run)).or_default().push(index);
        }
    }
    runs.into_values().filter(|members| members.len() > 1).collect()
}

/// The rows or the columns of tables whose cells are for different sizes; of cells with several numbers, each place.
fn lines_of_tables(read: &ReadPassages<'_>, open: &[Candidates], are_rows: bool) -> Vec<Vec<usize>> {
    let mut lines: BTreeMap<(u32, u32, usize), Vec<usize>> = BTreeMap::new();
    for (index, candidates) in open.iter().enumerate() {
        let here = &read.list[candidates.passage];
        if let PassageKind::Cell { table, row, column, .. } = here.passage.kind
            && only_size(candidates).is_some()
            && !candidates.in_run
        {
            let line = if are_rows { row } else { column };
            lines.entry((table, line, candidates.element)).or_default().push(index);
        }
    }
    lines.into_values().filter(|members| are_of_different_sizes(open, members)).collect()
}

/// Numbers of parts of a text that are alike, each for another size: `baby 3, throw 7`; items, sections.
fn repeated(read: &ReadPassages<'_>, open: &[Candidates]) -> Vec<Vec<usize>> {
    let mut parts: Vec<(usize, Vec<usize>)> = Vec::new();
    for (index, candidates) in open.iter().enumerate() {
        let Some(size) = only_size(candidates) else { continue };
        if read.list[candidates.passage].is_cell() || candidates.in_run {
            continue;
        }
        match parts.last_mut() {
            Some((last, members)) if *last == size => members.push(index),
            _ => parts.push((size, vec![index])),
        }
    }
    let form = |index: &usize| {
        let here = &read.list[open[*index].passage];
        form_of(&here.elements[open[*index].element], here)
    };
    let form: Vec<Vec<_>> = parts.iter().map(|(_, members)| members.iter().map(form).collect()).collect();
    let mut families = Vec::new();
    let mut start = 0;
    while start < parts.len() {
        let mut end = start + 1;
        // The first may begin with what holds for all: `strips 2 1/4 in wide: 5 for baby, 9 for throw`.
        let length = form.get(end).map_or(0, Vec::len);
        let ends = |at: usize| form[at].len() == length || at == start && form[at].len() > length;
        while end < parts.len()
            && ends(start)
            && form[end] == form[start][form[start].len() - length..]
            && parts[start..end].iter().all(|(size, _)| *size != parts[end].0)
        {
            end += 1;
        }
        if end - start > 1 {
            let member = |(_, members): &(usize, Vec<usize>), place: usize| members[members.len() - length + place];
            families
                .extend((0..length).map(|place| parts[start..end].iter().map(|part| member(part, place)).collect()));
        }
        start = end;
    }
    families
}

/// What an element looks like: its form, and whether it has a unit of lengths or of amounts.
fn form_of(own: &Element, here: &ReadPassage<'_>) -> (u8, u8) {
    let unit = match unit_at(&here.tokens, own) {
        None => 0,
        Some(Unit::Yard | Unit::Metre) => 2,
        Some(_) => 1,
    };
    (own.form as u8, unit)
}

/// Whether a key could be what an element says, whatever unit it has.
pub(super) fn is_of_form((_, value): KeyForm, own: &Element, here: &ReadPassage<'_>) -> bool {
    let number = &here.tokens.numbers[own.numbers[0]];
    let has_unit = has_unit(&here.tokens, own);
    match (value, own.form) {
        (ValueKind::Count, form) => form == Form::Scalar && number.count().is_some(),
        (ValueKind::Grid, form) => form == Form::Sides && is_grid(own, here),
        (ValueKind::Amount, form) => {
            form == Form::Scalar && (has_unit || here.is_cell() || own.in_run.is_some()) && !number.in_words
        }
        (ValueKind::Length, form) => form != Form::Sides && (has_unit || number.first().over != 1 || here.is_cell()),
        (ValueKind::Sides, Form::Scalar) => has_unit || here.is_cell() || own.in_run.is_some(),
        (ValueKind::Sides, form) => form == Form::Sides,
    }
}
