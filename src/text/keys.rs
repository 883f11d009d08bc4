//! What a manuscript states, as what a text may say of it: each number with the words that lead to it.
//!
//! The numbers that are stated, and those that follow from them: sizes with their seams, shares, totals, triangles from
//! squares, the top after each border. What follows proves a number right, and only what is stated proves one wrong.

mod covers;
mod design;
mod fabrics;
mod joined;
mod of_each;
mod parts;
mod sewn;
mod totals;
mod unit_steps;

use std::sync::Arc;

use super::key_groups::{KeyForm, KeyGroups};
use super::key_sets::KeySets;
use super::lexicon::{Act, Cue, Noun};
use crate::manuscript::model::Manuscript;
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Count, Length, Measure, Unit, Written};
use crate::requirement::Needs;

/// What a number of a manuscript is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum What {
    /// How much fabric to buy.
    Amount,
    /// How many fat quarters, precuts or packs.
    Bought,
    /// How many strips.
    Strips,
    /// How many pieces.
    Pieces,
    /// How large a piece is cut.
    CutSize,
    /// How wide strips are cut.
    StripWidth,
    /// How large a quilt, a unit or a block finishes.
    Finished,
    /// How large something measures with its seams.
    Unfinished,
    /// How large a backing, a batting, a sleeve or a pillow back is.
    Layer,
    /// How many of a unit or a block are made.
    Makes,
    /// How many panels.
    Panels,
    /// How many blocks or rows there are.
    Laid,
    /// How many pieces come from each strip, or of each fabric.
    FromEach,
    /// How many are left over.
    LeftOver,
    /// A seam.
    Seam,
    /// The usable width of fabric.
    UsableWidth,
    /// Another length.
    Length,
    /// Another count.
    Count,
}

/// A value, in each way in which it may be printed.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) enum KeyValue {
    /// So many.
    Count(u64),
    /// A length.
    Length(Vec<Length>),
    /// So many across, and so many down.
    Grid(u64, u64),
    /// A width and a length.
    Sides(Vec<(Length, Length)>),
    /// An amount of fabric.
    Amount(Vec<Length>),
}

/// How a value is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum ValueKind {
    /// So many.
    Count,
    /// So many across, and so many down.
    Grid,
    /// A length.
    Length,
    /// A width and a length.
    Sides,
    /// An amount of fabric.
    Amount,
}

impl KeyValue {
    /// How it is printed.
    pub(crate) const fn kind(&self) -> ValueKind {
        match self {
            KeyValue::Count(_) => ValueKind::Count,
            KeyValue::Grid(..) => ValueKind::Grid,
            KeyValue::Length(_) => ValueKind::Length,
            KeyValue::Sides(_) => ValueKind::Sides,
            KeyValue::Amount(_) => ValueKind::Amount,
        }
    }
}

/// A number of a manuscript, with what leads to it.
#[derive(Clone, Debug)]
pub(crate) struct Key {
    /// What it is.
    pub what: What,
    /// Its value.
    pub value: KeyValue,
    /// The size it is for; `None` where it holds for all.
    pub size: Option<usize>,
    /// What it is of.
    pub of: Vec<Cue>,
    /// What it counts or measures, as bits of [`Noun`].
    pub nouns: u32,
    /// What is done, as bits of [`Act`].
    pub acts: u32,
    /// Where it is stated, or what it follows from is.
    pub at: Span,
    /// How it follows from what is stated; `None` where it is stated itself.
    pub derived: Option<&'static str>,
    /// Whether it is as sure as what is stated, though it follows from that.
    pub is_sure: bool,
    /// By how much a length may be off that is no fraction.
    pub slack: Length,
}

/// What numbers for different sizes have in common: a kind of number, of a thing, counted as what.
pub(crate) type Line<'k> = (What, &'k [Cue], u32);

impl Key {
    /// What it has in common with the same number for other sizes.
    pub(crate) fn line(&self) -> Line<'_> {
        (self.what, &self.of, self.nouns)
    }

    /// Whether it is so many.
    pub(crate) const fn is_count(&self) -> bool {
        matches!(self.value, KeyValue::Count(_))
    }

    /// What it is and how it is printed.
    pub(crate) const fn form(&self) -> KeyForm {
        (self.what, self.value.kind())
    }

    /// Whether it is stated in the manuscript.
    pub(crate) const fn is_stated(&self) -> bool {
        self.derived.is_none()
    }

    /// Whether it is for one of these sizes; of none that are said it may be for any.
    pub(crate) fn is_for(&self, sizes: &[usize]) -> bool {
        self.size.is_none_or(|size| sizes.is_empty() || sizes.contains(&size))
    }

    /// Whether it is of this.
    pub(crate) fn is_of(&self, cue: Cue) -> bool {
        self.of.contains(&cue)
    }
}

/// All keys of a manuscript.
#[derive(Debug)]
pub(crate) struct Keys<'m> {
    /// The manuscript.
    pub manuscript: &'m Manuscript,
    /// The keys, which what comes of each text has as well.
    pub list: Arc<Vec<Key>>,
    /// What many of them have in common.
    pub groups: KeyGroups,
    /// The keys by what is asked of them.
    pub sets: KeySets,
}

impl<'m> Keys<'m> {
    /// The keys of a manuscript.
    pub(crate) fn new(manuscript: &'m Manuscript, needs: &Needs<'m>) -> Keys<'m> {
        let mut keys =
            Keys { manuscript, list: Arc::default(), groups: KeyGroups::default(), sets: KeySets::default() };
        keys.fabrics(needs);
        keys.covers(needs);
        keys.design(needs);
        keys.of_each(needs);
        keys.totals(needs);
        keys.sewn(needs);
        keys.joined(needs);
        keys.unit_steps(needs);
        keys.parts(needs);
        keys.groups = KeyGroups::new(&keys.list);
        keys.sets = KeySets::new(&keys.list, &keys.groups, manuscript.sizes.len());
        keys
    }

    fn add(&mut self, what: What, value: KeyValue, of: &[Cue], at: Span) -> &mut Key {
        let (nouns, acts) = words_of(what);
        let derived = None;
        let of = of.to_vec();
        let (size, slack, is_sure) = (None, Length::ZERO, true);
        let list = Arc::make_mut(&mut self.list);
        let index = list.len();
        list.push(Key { what, value, size, of, nouns, acts, at, derived, is_sure, slack });
        &mut list[index]
    }

    /// A count; nothing of none.
    fn count(&mut self, what: What, count: &Spanned<Count>, of: &[Cue]) -> &mut Key {
        self.add(what, KeyValue::Count(count.value.0), of, count.at)
    }

    fn length(&mut self, what: What, stated: &Spanned<Written>, of: &[Cue]) -> &mut Key {
        self.add(what, KeyValue::Length(lengths(&stated.value)), of, stated.at)
    }

    fn sides(&mut self, what: What, stated: &Spanned<(Written, Written)>, of: &[Cue]) -> &mut Key {
        self.add(what, KeyValue::Sides(both_sides(stated.value)), of, stated.at)
    }

    fn amount(&mut self, stated: &Spanned<Amount>, of: &[Cue]) -> &mut Key {
        let halves = stated.value.halves().map(|half| half.length).collect();
        self.add(What::Amount, KeyValue::Amount(halves), of, stated.at)
    }
}

impl Key {
    fn for_size(&mut self, size: Option<usize>) -> &mut Key {
        self.size = size;
        self
    }

    fn nouns(&mut self, nouns: &[Noun]) -> &mut Key {
        self.nouns |= nouns.iter().fold(0, |bits, noun| bits | noun.bit());
        self
    }

    fn acts(&mut self, acts: &[Act]) -> &mut Key {
        self.acts |= acts.iter().fold(0, |bits, act| bits | act.bit());
        self
    }

    fn only_acts(&mut self, acts: &[Act]) -> &mut Key {
        self.acts = 0;
        self.acts(acts)
    }

    fn derived(&mut self, how: &'static str) -> &mut Key {
        self.derived = Some(how);
        self.is_sure = false;
        self
    }

    fn sure(&mut self) -> &mut Key {
        self.is_sure = true;
        self
    }

    fn slack(&mut self, slack: Length) -> &mut Key {
        self.slack = slack;
        self
    }
}

/// The words that go with each kind of number.
fn words_of(what: What) -> (u32, u32) {
    let bits = |nouns: &[Noun]| nouns.iter().fold(0, |bits, noun| bits | noun.bit());
    let (cut, make, sew, finished, measured, trimmed, bought, around) = (
        Act::Cut.bit(),
        Act::Make.bit(),
        Act::Sew.bit(),
        Act::Finished.bit(),
        Act::Measured.bit(),
        Act::Trimmed.bit(),
        Act::Bought.bit(),
        Act::Around.bit(),
    );
    match what {
        What::Amount => (bits(&[Noun::Fabric]), bought | make | cut),
        What::Bought => (bits(&[Noun::Fabric]), bought | make),
        What::Strips => (bits(&[Noun::Strip, Noun::Width]), cut | make),
        What::Pieces | What::FromEach => (bits(&[Noun::Piece]), cut | make),
        What::CutSize => (bits(&[Noun::Piece, Noun::Segment]), cut | sew | trimmed),
        What::StripWidth => (bits(&[Noun::Strip, Noun::Width]), cut),
        What::Finished => (bits(&[Noun::Side]), finished | measured | sew | make),
        What::Unfinished => (bits(&[Noun::Side]), measured | trimmed | sew | make),
        What::Layer => {
            (bits(&[Noun::Piece, Noun::Rectangle, Noun::Panel, Noun::Strip]), cut | measured | make | sew | bought)
        }
        What::Makes => (bits(&[Noun::Piece, Noun::Unit]), make | sew),
        What::Panels => (bits(&[Noun::Panel, Noun::Piece]), cut | make | sew),
        What::Laid => (0, make | sew),
        What::Seam => (bits(&[Noun::Seam]), make | sew),
        What::UsableWidth => (bits(&[Noun::Width, Noun::Usable, Noun::Strip, Noun::Fabric]), cut | make | bought),
        What::Length => (0, cut | make | sew | measured | finished | around),
        What::Count => (0, cut | make | bought),
        What::LeftOver => (0, cut | make | sew),
    }
}

/// A length in each measure that it is stated in.
fn lengths(written: &Written) -> Vec<Length> {
    std::iter::once(written.length).chain(written.other.map(super::super::quantity::OtherHalf::length)).collect()
}

/// Two sides in each measure that they are stated in.
fn both_sides((width, length): (Written, Written)) -> Vec<(Length, Length)> {
    let own = (width.length, length.length);
    let other = width.other.zip(length.other).map(|(width, length)| (width.length(), length.length()));
    std::iter::once(own).chain(other).collect()
}

/// How large something is with a seam at each side.
fn with_seams(sides: &[(Length, Length)], seam: Length) -> Vec<(Length, Length)> {
    sides.iter().map(|(width, length)| (*width + seam * 2, *length + seam * 2)).collect()
}

/// By how much a computed length may be off where it is printed.
fn printed_slack(measure: Measure) -> Length {
    match measure {
        Measure::Inch => Length::inch_fraction(1, 8),
        Measure::Cm => Unit::Mm.one() * 5,
    }
}
