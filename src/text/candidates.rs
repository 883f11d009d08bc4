//! Which numbers of the manuscript a number of a text may be: those that what stands around it leaves.

use super::context::{Around, ReadPassages};
use super::elements::{Element, Form, has_unit};
use super::fits::{Comparing, Fits};
use super::grids::{block_in_rows, counted};
use super::key_sets::KeySet;
use super::keys::{Key, Keys, What};
use super::kinds::is_yards;
use super::levels::Level;
use super::lexicon::{Act, Cue, Noun, Section};
use super::not_required::doubt;

/// A number with the keys that it may be.
#[allow(clippy::struct_excessive_bools)] // Each is asked for by itself.
pub(super) struct Candidates {
    /// Its passage.
    pub(super) passage: usize,
    /// Its place among the elements of the passage.
    pub(super) element: usize,
    /// What stands around it.
    pub(super) around: Around,
    /// How it stands to all keys.
    pub(super) fits: Fits,
    /// The keys that this leaves.
    pub(super) keys: Vec<usize>,
    /// The keys that the size and the names around it leave, whatever is counted, done or measured.
    pub(super) wide: Vec<usize>,
    /// Whether what is named around it is what these are of.
    pub(super) wide_named: bool,
    /// How many numbers it has.
    pub(super) numbers: usize,
    /// Whether the others of its line say that it is of the same.
    pub(super) is_lined: bool,
    /// Whether the numbers that say the same of other sizes say what it is.
    pub(super) is_fitted: bool,
    /// Whether something around it names what it is of.
    pub(super) is_named: bool,
    /// Whether its own part of the sentence does.
    pub(super) named_near: bool,
    /// Whether it is one of a run over the sizes.
    pub(super) in_run: bool,
    /// Whether something around it names what no key is of.
    pub(super) conflicts: bool,
    /// Whether a unit stands at it.
    pub(super) has_unit: bool,
    /// Whether its first number is whole.
    pub(super) is_whole: bool,
    /// The line of cutting that it belongs to.
    pub(super) group: (usize, usize),
    /// Why it may be no requirement, in a word.
    pub(super) doubt: Option<&'static str>,
}

impl Candidates {
    /// Whether nothing is said against it, whatever stands beside it.
    pub(super) const fn is_spared(&self) -> bool {
        let is_listed = self.in_run || self.around.in_table;
        self.around.about || !is_listed && (self.around.is_supposed || self.around.counts_unknown)
    }

    /// Whether a piece, a unit or a block is named around it.
    pub(super) fn names_thing(&self) -> bool {
        let is_thing = |cue: &Cue| matches!(cue, Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_));
        self.around.subjects.iter().any(|level| level.cues.iter().chain(&level.weak).any(is_thing))
    }
}

/// What is done with a measure, and says nothing of how many there are.
const OF_MEASURES: u32 = Act::Finished.bit() | Act::Measured.bit() | Act::Trimmed.bit() | Act::Around.bit();

/// The candidates of an element, narrowed down from all keys of its kind.
pub(super) fn candidates(read: &ReadPassages<'_>, comparing: &mut Comparing<'_, '_>, at: (usize, usize)) -> Candidates {
    candidates_for(read, comparing, at, None)
}

/// The candidates of an element for some sizes, where these are given, and else for those that words say.
pub(super) fn candidates_for(
    read: &ReadPassages<'_>,
    comparing: &mut Comparing<'_, '_>,
    (passage, element): (usize, usize),
    sizes: Option<&[usize]>,
) -> Candidates {
    let (keys, bare) = (comparing.keys, comparing.bare);
    let here = &read.list[passage];
    let own = &here.elements[element];
    let mut around = read.around(passage, element);
    if let Some(sizes) = sizes {
        around.sizes = sizes.to_vec();
        around.sizes_are_of_text = sizes.len() > 1;
    }
    let is_amount = bare.is_metric() && around.acts & Act::Cut.bit() == 0 && here.is_of_fabric(element);
    let is_yards = is_yards(own, here) || is_amount;
    let number = &here.tokens.numbers[own.numbers[0]];
    if own.form == Form::Scalar && number.unit.is_none() && number.count().is_some() {
        around.acts &= !OF_MEASURES;
        around.act_is_near &= around.acts != 0;
        around.nouns &= !(Noun::Side.bit() | Noun::Edge.bit());
    } else if !is_yards {
        // Who makes 12 of 4 1/2", or needs them, makes and needs no inches.
        around.acts &= !(Act::Make.bit() | Act::Bought.bit());
        around.act_is_near &= around.acts != 0;
    }
    let is_laid = |key: &Key| key.what == What::Laid;
    if around.nouns == Noun::Square.bit() && here.is_said_square(element) && number.count().is_none() {
        (around.nouns, around.noun_is_near) = (0, false);
        around.is_square = true;
    }
    if let Some(block) = block_in_rows(keys, here, element) {
        around.of_each = true;
        around.subjects = vec![Level { cues: vec![block], weak: Vec::new() }];
    } else if let Some(noun) = counted(here, element).filter(|_| keys.list.iter().any(is_laid)) {
        around.nouns = noun.bit();
        (around.noun_is_near, around.noun_is_name, around.of_each) = (true, false, false);
        around.acts = 0;
        around.act_is_near = false;
        around.is_grid = true;
        around.subjects = vec![Level { cues: vec![Cue::Section(Section::Top)], weak: Vec::new() }];
    }
    let laid = Noun::Row.bit() | Noun::Column.bit();
    if around.nouns & laid != 0 {
        // `Blocks across` are counted by the row.
        around.nouns &= laid;
    }
    let fits = comparing.fits(own, here);
    let (wide, wide_named) = wide(keys, &fits, &around);
    let is_subcut = own.form == Form::Scalar && !around.noun_is_near && here.is_subcut(element);
    let not_asked =
        [(What::FromEach, !around.of_each), (What::LeftOver, !around.is_left_over), (What::Strips, is_subcut)];
    let not_asked = not_asked.iter().filter(|(_, is)| *is);
    let left = not_asked.fold(fits.of_kind().clone(), |left, (what, _)| left.without(keys.sets.of_what(*what)));
    let mut narrowing = Narrowing {
        keys,
        own,
        around: &around,
        nouns: around.nouns | if own.form == Form::Strip { Noun::Strip.bit() } else { 0 },
        is_yards,
        left,
        is_named: false,
        is_alone: false,
        named_near: false,
        thing_is_near: false,
        conflicts: false,
    };
    narrowing.by_what_is_near();
    narrowing.by_names();
    // What is named and not this thing is another.
    narrowing.is_named |= narrowing.is_alone && !narrowing.conflicts;
    narrowing.by_common_words();
    narrowing.by_the_rest();
    let Narrowing { left, is_named, named_near, conflicts, .. } = narrowing;
    let (group, in_run) = (read.group(passage, element), own.in_run.is_some());
    let is_whole = number.first().over == 1;
    let has_unit = has_unit(&here.tokens, own);
    Candidates {
        passage,
        element,
        around,
        fits,
        keys: left.keys().collect(),
        wide,
        wide_named,
        numbers: own.numbers.len(),
        is_lined: false,
        is_fitted: false,
        is_named,
        named_near,
        in_run,
        conflicts,
        has_unit,
        is_whole,
        group,
        doubt: here.not_required[element].and_then(doubt),
    }
}

/// The keys that the size and the names around an element leave.
fn wide(keys: &Keys<'_>, fits: &Fits, around: &Around) -> (Vec<usize>, bool) {
    let mut left = fits.of_form().and(&keys.sets.for_sizes(&around.sizes));
    let mut is_named = false;
    for level in &around.subjects {
        for kind in Subject::ALL {
            let named: Vec<Cue> = level.cues.iter().copied().filter(|cue| Subject::of(*cue) == Some(kind)).collect();
            if named.is_empty() {
                continue;
            }
            if left.keep(&keys.sets.of_any(&named)) {
                is_named |= !matches!(named[..], [Cue::Section(Section::Top | Section::Quilt)]);
            }
        }
    }
    (left.keys().collect(), is_named)
}

/// Keys that are narrowed down step by step. A step that would leave none leaves them as they are.
#[allow(clippy::struct_excessive_bools)] // As in [`Candidates`].
struct Narrowing<'a, 'm> {
    keys: &'a Keys<'m>,
    own: &'a Element,
    around: &'a Around,
    nouns: u32,
    is_yards: bool,
    left: KeySet,
    is_named: bool,
    is_alone: bool,
    named_near: bool,
    thing_is_near: bool,
    conflicts: bool,
}

impl Narrowing<'_, '_> {
    /// Keeps those that are of one of these.
    fn keep_of(&mut self, cues: &[Cue]) -> bool {
        !cues.is_empty() && self.left.keep(&self.keys.sets.of_any(cues))
    }

    /// By the size, by what is done in the sentence, and by the noun at the number.
    fn by_what_is_near(&mut self) {
        let around = self.around;
        if !around.sizes.is_empty() {
            self.conflicts |= !self.left.keep(&self.keys.sets.for_sizes(&around.sizes));
        }
        if self.is_yards {
            // Amounts are of fabric, whatever is done with it.
        } else if around.act_is_near && around.acts & !Act::Around.bit() == Act::Sew.bit() {
            // What is sewn, placed or pressed are no pieces that are counted once more.
            self.left = self.left.and(&self.keys.sets.with_acts(Act::Sew.bit()));
        } else if around.act_is_near {
            // What is trimmed is not finished yet, whatever else is said.
            let acts = if around.acts & Act::Trimmed.bit() == 0 { around.acts } else { Act::Trimmed.bit() };
            self.left.keep(&self.keys.sets.with_acts(acts));
            if around.acts & (Act::Make.bit() | Act::Cut.bit()) == Act::Make.bit() && !around.is_total {
                self.left.keep(self.keys.sets.of_what(What::Makes));
            }
        }
        if self.is_yards {
            self.nouns = 0;
        }
        let nouns = self.nouns;
        if nouns != 0 && around.noun_is_near {
            let vague = Noun::Fabric.bit() | Noun::Width.bit() | Noun::Edge.bit() | Noun::Side.bit();
            let kept = self.left.keep(&self.keys.sets.with_nouns(nouns));
            let is_bought = |key: usize| matches!(self.keys.list[key].what, What::Amount | What::Bought);
            self.conflicts |= !kept && !around.noun_is_name && nouns & !vague != 0 && !self.left.keys().all(is_bought);
        }
        self.by_being_alone();
    }

    /// Where there is one thing of a kind, it need not be named; nor need the quilt, where a size stands with its
    /// measurements: `Throw, 54" x 72"`.
    fn by_being_alone(&mut self) {
        let around = self.around;
        if around.noun_is_near && around.acts != 0 && !self.conflicts {
            let is_sure = |key: &usize| {
                let key = &self.keys.list[*key];
                key.is_sure && !matches!(key.what, What::UsableWidth | What::Seam)
            };
            let mut things = self.left.keys().filter(is_sure).map(|key| self.keys.groups.things.of[key]);
            self.is_alone = things.next().is_some_and(|first| things.all(|thing| thing == first));
        }
        let names = |level: &Level| !level.cues.is_empty();
        let tops = |level: &Level| level.weak.contains(&Cue::Section(Section::Top));
        let acts = around.acts & !(Act::Finished.bit() | Act::Measured.bit());
        let says_finished = (acts == 0 || !around.act_is_near) && !around.subjects.first().is_some_and(tops);
        let is_size = says_finished && !around.is_unsized() && self.own.form == Form::Sides && !around.noun_is_near;
        if is_size && !around.subjects.first().is_some_and(names) {
            let quilt = self.keys.sets.of_any(&[Cue::Section(Section::Quilt)]);
            let finished = quilt.and(self.keys.sets.of_what(What::Finished));
            self.is_named = !around.subjects.iter().any(names) && self.left.keep(&finished);
        }
    }

    fn is_seam(&self) -> bool {
        self.nouns & Noun::Seam.bit() != 0 && self.around.noun_is_near
    }

    /// By the names around it, the nearest first.
    fn by_names(&mut self) {
        let around = self.around;
        for (distance, level) in around.subjects.iter().enumerate() {
            if self.is_seam() {
                let sections = level.cues.iter().copied().filter(|cue| matches!(cue, Cue::Section(_)));
                self.keep_of(&sections.collect::<Vec<_>>());
            } else if self.is_yards {
                // What a fabric is for stands beside its name: `Ink (border and binding)`.
                let is = |cue: &Cue| matches!(Subject::of(*cue), Some(Subject::Fabric | Subject::Section));
                let named: Vec<Cue> = level.cues.iter().copied().filter(is).collect();
                let weak: Vec<Cue> = level.weak.iter().copied().filter(is).collect();
                self.is_named = self.is_named || self.keep_of(&named) || self.keep_of(&weak);
            } else {
                self.by_level(level, distance);
            }
        }
    }

    fn by_level(&mut self, level: &Level, distance: usize) {
        let (mut is_other, mut near) = (false, false);
        for kind in Subject::ALL {
            // What its own part of the sentence names is not of another piece that was named before.
            if self.thing_is_near && distance > 0 && matches!(kind, Subject::Piece | Subject::Sewn) {
                continue;
            }
            let named: Vec<Cue> = level.cues.iter().copied().filter(|cue| Subject::of(*cue) == Some(kind)).collect();
            if named.is_empty() {
                continue;
            }
            // The quilt and its top stand beside any number.
            let is_thing = !named.iter().all(|cue| matches!(cue, Cue::Section(Section::Top | Section::Quilt)));
            if self.keep_of(&named) {
                self.is_named = true;
                self.named_near |= distance == 0;
                near |= distance == 0 && matches!(kind, Subject::Piece | Subject::Sewn);
            } else {
                is_other |= is_thing;
            }
        }
        self.thing_is_near |= near;
        self.conflicts |= is_other && !self.is_named;
    }

    /// By words that say much else besides, which come after what is named for sure.
    fn by_common_words(&mut self) {
        let around = self.around;
        if self.is_seam() || self.is_yards {
            return;
        }
        let laid = Noun::Row.bit() | Noun::Column.bit();
        let names_acts =
            Act::Cut.bit() | Act::Measured.bit() | Act::Trimmed.bit() | Act::Make.bit() | Act::Finished.bit();
        for level in &around.subjects {
            for kind in Subject::ALL {
                let is_said = |cue: &Cue| {
                    Subject::of(*cue) == Some(kind)
                        && !((around.of_rows || around.nouns & laid != 0) && matches!(cue, Cue::Block(_)))
                };
                let weak: Vec<Cue> = level.weak.iter().copied().filter(is_said).collect();
                if !weak.is_empty() && self.keep_of(&weak) {
                    self.is_named |= around.in_table || around.acts & names_acts != 0;
                }
            }
        }
    }

    /// By what stands above it: what is bought, what is counted, what is done.
    fn by_the_rest(&mut self) {
        let around = self.around;
        let is_piece = |cue: &Cue| matches!(cue, Cue::Piece(..));
        let names_piece = around.subjects.iter().any(|level| level.cues.iter().chain(&level.weak).any(is_piece));
        let only_fabric = around.nouns & !Noun::Fabric.bit() == 0;
        let is_cut = around.acts & Act::Cut.bit() != 0;
        if self.is_named && self.own.form == Form::Scalar && only_fabric && !names_piece && !is_cut {
            // `Sand: 75 cm` says how much to buy.
            self.left.keep(self.keys.sets.of_what(What::Amount));
        }
        let nouns = self.nouns;
        if nouns != 0 && !around.noun_is_near {
            self.left.keep(&self.keys.sets.with_nouns(nouns));
        }
        if around.acts != 0 && !self.is_yards {
            self.left.keep(&self.keys.sets.with_acts(around.acts));
        }
    }
}

/// The kinds of subjects, in the order in which they are asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Subject {
    Piece,
    Sewn,
    Border,
    Section,
    Fabric,
}

impl Subject {
    const ALL: [Subject; 5] = [Subject::Piece, Subject::Sewn, Subject::Border, Subject::Section, Subject::Fabric];

    fn of(cue: Cue) -> Option<Subject> {
        Some(match cue {
            Cue::Piece(..) => Subject::Piece,
            Cue::Unit(_) | Cue::Block(_) => Subject::Sewn,
            Cue::Border(_) => Subject::Border,
            Cue::Section(_) => Subject::Section,
            Cue::Fabric(_) => Subject::Fabric,
            _ => return None,
        })
    }
}
