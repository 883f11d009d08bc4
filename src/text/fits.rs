//! How a number of a text stands to the numbers of a manuscript by its form and its value, found once.

use std::collections::HashMap;
use std::rc::Rc;

use super::compare::{Fit, Printed, Stated};
use super::context::ReadPassage;
use super::elements::Element;
use super::families::is_of_form;
use super::key_sets::KeySet;
use super::keys::Keys;
use super::kinds::is_of_kind;
use crate::quantity::Unit;

/// How an element stands to all keys.
#[derive(Debug)]
pub(super) struct Fits {
    forms: Rc<Forms>,
    values: Rc<Values>,
}

/// How elements of a form stand to the forms of keys.
#[derive(Debug)]
struct Forms {
    /// Whether they are of the kind of each form of keys, and whether of the form, whatever unit they have.
    are: Vec<(bool, bool)>,
    of_kind: KeySet,
    of_form: KeySet,
    like: Vec<usize>,
}

impl Forms {
    fn new(keys: &Keys<'_>, are: Vec<(bool, bool)>) -> Forms {
        let of = |is: fn((bool, bool)) -> bool| KeySet::new(keys.list.len(), |key| is(are[keys.groups.forms.of[key]]));
        let like = of(|(kind, form)| kind || form).keys().collect();
        Forms { of_kind: of(|(kind, _)| kind), of_form: of(|(_, form)| form), like, are }
    }
}

/// How what is printed alike stands to the values of keys.
#[derive(Debug)]
struct Values {
    /// To each value.
    fits: Vec<Fit>,
    /// The keys that say the same.
    same: Vec<usize>,
    /// Those of which it is one side.
    sides: Vec<usize>,
}

impl Values {
    fn new(keys: &Keys<'_>, fits: Vec<Fit>) -> Values {
        let of = |fit: Fit| {
            let values = keys.groups.values.of.iter().enumerate();
            values.filter(|(_, value)| fits[**value] == fit).map(|(key, _)| key).collect()
        };
        Values { same: of(Fit::Same), sides: of(Fit::OneSide), fits }
    }
}

impl Fits {
    /// Whether it is of the form of a key, whatever unit it has.
    pub(super) fn is_form(&self, keys: &Keys<'_>, key: usize) -> bool {
        self.forms.are[keys.groups.forms.of[key]].1
    }

    /// Both.
    pub(super) fn likeness(&self, keys: &Keys<'_>, key: usize) -> (bool, bool) {
        self.forms.are[keys.groups.forms.of[key]]
    }

    /// Whether it is anything like a key.
    pub(super) fn is_like(&self, keys: &Keys<'_>, key: usize) -> bool {
        let (is_kind, is_form) = self.likeness(keys, key);
        is_kind || is_form
    }

    /// How it stands to a key by its value.
    pub(super) fn fit(&self, keys: &Keys<'_>, key: usize) -> Fit {
        self.values.fits[keys.groups.values.of[key]]
    }

    /// The keys of its kind.
    pub(super) fn of_kind(&self) -> &KeySet {
        &self.forms.of_kind
    }

    /// The keys of its form.
    pub(super) fn of_form(&self) -> &KeySet {
        &self.forms.of_form
    }

    /// The keys that it is anything like, in order.
    pub(super) fn like(&self) -> &[usize] {
        &self.forms.like
    }

    /// The keys that say the same, in order, whatever their form.
    pub(super) fn same(&self) -> &[usize] {
        &self.values.same
    }

    /// The keys of which it is one side, in order, whatever their form.
    pub(super) fn sides(&self) -> &[usize] {
        &self.values.sides
    }
}

/// Finds how elements stand to keys. What is printed alike is compared once.
pub(super) struct Comparing<'k, 'm> {
    pub(super) keys: &'k Keys<'m>,
    pub(super) bare: Unit,
    /// Each value.
    values: Vec<Stated>,
    known: HashMap<Printed, Rc<Values>>,
    forms: Vec<Rc<Forms>>,
}

impl<'k, 'm> Comparing<'k, 'm> {
    pub(super) fn new(keys: &'k Keys<'m>, bare: Unit) -> Comparing<'k, 'm> {
        let values = keys.groups.values.first.iter().map(|key| Stated::new(&keys.list[*key])).collect();
        Comparing { keys, bare, values, known: HashMap::new(), forms: Vec::new() }
    }

    pub(super) fn fits(&mut self, own: &Element, here: &ReadPassage<'_>) -> Fits {
        let keys = self.keys;
        let kinds = |form| (is_of_kind(form, own, here, self.bare), is_of_form(form, own, here));
        let are: Vec<_> = keys.groups.forms.first.iter().map(|key| kinds(keys.list[*key].form())).collect();
        let known = self.forms.iter().position(|known| known.are == are).unwrap_or_else(|| {
            self.forms.push(Rc::new(Forms::new(keys, are)));
            self.forms.len() - 1
        });
        let forms = Rc::clone(&self.forms[known]);
        let values = match self.known.entry(here.printed(own, self.bare)) {
            std::collections::hash_map::Entry::Occupied(known) => known.get().clone(),
            std::collections::hash_map::Entry::Vacant(free) => {
                let fits = self.values.iter().map(|value| free.key().compare(value)).collect();
                free.insert(Rc::new(Values::new(keys, fits))).clone()
            }
        };
        Fits { forms, values }
    }
}
