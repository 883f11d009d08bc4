//! How a number of a text stands to the numbers of a manuscript by its form and its value, found once.

use std::collections::HashMap;
use std::rc::Rc;

use super::compare::{Fit, Printed};
use super::context::ReadPassage;
use super::elements::Element;
use super::families::is_of_form;
use super::keys::Keys;
use super::kinds::is_of_kind;
use crate::quantity::Unit;

/// How an element stands to all keys.
#[derive(Debug)]
pub(super) struct Fits {
    /// Whether it is of the kind of each form of keys, and whether of the form, whatever unit it has.
    forms: Vec<(bool, bool)>,
    /// How it stands to each value.
    values: Rc<[Fit]>,
}

impl Fits {
    /// Whether it is of the kind of a key by form and unit.
    pub(super) fn is_kind(&self, keys: &Keys<'_>, key: usize) -> bool {
        self.forms[keys.groups.forms.of[key]].0
    }

    /// Whether it is of the form of a key, whatever unit it has.
    pub(super) fn is_form(&self, keys: &Keys<'_>, key: usize) -> bool {
        self.forms[keys.groups.forms.of[key]].1
    }

    /// Both.
    pub(super) fn likeness(&self, keys: &Keys<'_>, key: usize) -> (bool, bool) {
        self.forms[keys.groups.forms.of[key]]
    }

    /// Whether it is anything like a key.
    pub(super) fn is_like(&self, keys: &Keys<'_>, key: usize) -> bool {
        let (is_kind, is_form) = self.likeness(keys, key);
        is_kind || is_form
    }

    /// How it stands to a key by its value.
    pub(super) fn fit(&self, keys: &Keys<'_>, key: usize) -> Fit {
        self.values[keys.groups.values.of[key]]
    }
}

/// Finds how elements stand to keys. What is printed alike is compared once.
pub(super) struct Comparing<'k, 'm> {
    pub(super) keys: &'k Keys<'m>,
    pub(super) bare: Unit,
    known: HashMap<Printed, Rc<[Fit]>>,
}

impl<'k, 'm> Comparing<'k, 'm> {
    pub(super) fn new(keys: &'k Keys<'m>, bare: Unit) -> Comparing<'k, 'm> {
        Comparing { keys, bare, known: HashMap::new() }
    }

    pub(super) fn fits(&mut self, own: &Element, here: &ReadPassage<'_>) -> Fits {
        let keys = self.keys;
        let first = |groups: &[usize]| groups.iter().map(|key| &keys.list[*key]).collect::<Vec<_>>();
        let kinds = |form| (is_of_kind(form, own, here, self.bare), is_of_form(form, own, here));
        let forms = first(&keys.groups.forms.first).into_iter().map(|key| kinds(key.form())).collect();
        let values = match self.known.entry(here.printed(own, self.bare)) {
            std::collections::hash_map::Entry::Occupied(known) => known.get().clone(),
            std::collections::hash_map::Entry::Vacant(free) => {
                let values = first(&keys.groups.values.first);
                let fits: Rc<[Fit]> = values.into_iter().map(|key| free.key().compare(key)).collect();
                free.insert(fits).clone()
            }
        };
        Fits { forms, values }
    }
}
