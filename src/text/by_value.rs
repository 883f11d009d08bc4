//! Numbers that are told by their value: nothing beside them says for sure what they are, and what is said fits a number
//! of the manuscript that is the same.
//!
//! Nothing is ever said against such a number; so what is asked here may be wider than where a number is judged.

use std::collections::BTreeSet;

use super::assign::CameTo;
use super::candidates::Candidates;
use super::compare::Fit;
use super::context::{ReadPassage, ReadPassages};
use super::elements::{Element, Form, unit_at};
use super::keys::{Key, KeyValue, Keys, Line, What};
use super::levels::class;
use super::lexicon::{Act, Cue, Noun, PlacedCue, Section};
use super::sentences::Tokened;
use super::tokens::stem;
use crate::quantity::Unit;

/// Finds what numbers say of which nothing is said yet.
pub(super) fn by_value(read: &ReadPassages<'_>, keys: &Keys<'_>, open: &[Candidates], came: &mut [CameTo]) {
    for index in 0..open.len() {
        if !matches!(came[index], CameTo::Unclear(_)) {
            continue;
        }
        let candidates = &open[index];
        let here = &read.list[candidates.passage];
        let own = &here.elements[candidates.element];
        let sentence = here.sentence(candidates.element);
        let by = ByValue { read, keys, candidates, here, own, sentence };
        let ways: [&dyn Fn() -> Vec<usize>; 17] = [
            &|| by.of_line(open, came),
            &|| by.seam(),
            &|| by.usable_width(),
            &|| by.named_measure(),
            &|| by.said_before(open, came),
            &|| by.panels(),
            &|| by.marked_lines(),
            &|| by.in_all(),
            &|| by.in_each(),
            &|| by.named_count(),
            &|| by.called_measure(),
            &|| by.named_amount(),
            &|| by.width_or_length(),
            &|| by.in_row(),
            &|| by.rows(),
            &|| by.side(),
            &|| by.ends_of_binding(),
        ];
        let said = ways.into_iter().map(|way| way()).find(|said| !said.is_empty());
        came[index] = said.map_or(came[index].clone(), CameTo::Right);
    }
}

struct ByValue<'a, 'm> {
    read: &'a ReadPassages<'a>,
    keys: &'a Keys<'m>,
    candidates: &'a Candidates,
    here: &'a ReadPassage<'a>,
    own: &'a Element,
    sentence: Tokened,
}

impl ByValue<'_, '_> {
    /// The right numbers of its passage, each with its keys.
    fn right<'c>(&self, open: &'c [Candidates], came: &'c [CameTo]) -> Vec<(&'c Candidates, &'c [usize])> {
        let own = self.candidates.passage;
        let here = open.iter().zip(came).filter(|(other, _)| other.passage == own);
        here.filter_map(|(other, came)| if let CameTo::Right(keys) = came { Some((other, &keys[..])) } else { None })
            .collect()
    }

    /// What another number of its passage says for another size.
    fn of_line(&self, open: &[Candidates], came: &[CameTo]) -> Vec<usize> {
        let [size] = self.candidates.around.sizes[..] else { return Vec::new() };
        let right = self.right(open, came);
        let lines: BTreeSet<Line<'_>> =
            right.iter().flat_map(|(_, keys)| *keys).map(|key| self.keys.list[*key].line()).collect();
        self.same(|key| key.size == Some(size) && lines.contains(&key.line()))
    }

    /// A measure that was said before in its passage.
    fn said_before(&self, open: &[Candidates], came: &[CameTo]) -> Vec<usize> {
        if !self.is_length() {
            return Vec::new();
        }
        let right = self.right(open, came);
        let before = right.iter().filter(|(other, _)| other.element < self.candidates.element);
        let said: BTreeSet<usize> = before.flat_map(|(_, keys)| *keys).copied().collect();
        let is = |key: &usize| {
            let of = &self.keys.list[*key];
            !matches!(of.what, What::Seam | What::UsableWidth)
                && self.candidates.fits.is_form(self.keys, *key)
                && self.candidates.fits.fit(self.keys, *key) == Fit::Same
        };
        said.into_iter().filter(is).collect()
    }

    /// Panels of the backing, whatever they are called.
    fn panels(&self) -> Vec<usize> {
        const PIECES: [&str; 8] = ["length", "piece", "panel", "half", "drop", "width", "cut", "part"];
        let is_back = self.names().contains(&Cue::Section(Section::Backing));
        let above = self.candidates.around.subjects.iter().flat_map(|level| &level.cues);
        let is_of_back = is_back || above.copied().any(|cue| cue == Cue::Section(Section::Backing));
        if self.is_yards() && is_of_back && self.says(&PIECES) {
            return self.same(|key| key.what == What::Length && key.nouns & Noun::Panel.bit() != 0);
        }
        if !self.counts() || !is_back || !self.says(&PIECES) {
            return Vec::new();
        }
        self.same(|key| key.what == What::Panels)
    }

    /// How many are left over, and how much fabric is bought in all.
    fn in_all(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        let is_sum = around.is_total || self.says(&["total", "altogether"]);
        self.same(|key| match key.what {
            What::LeftOver => around.is_left_over && self.counts(),
            What::Amount => is_sum && !key.is_stated(),
            _ => false,
        })
    }

    /// How far apart the lines of a bias binding are marked.
    fn marked_lines(&self) -> Vec<usize> {
        if !self.is_length() || !self.says(&["apart"]) || !self.says(&["mark", "draw", "rule"]) {
            return Vec::new();
        }
        self.same(|key| key.what == What::StripWidth && key.is_of(Cue::Section(Section::Binding)))
    }

    /// An amount of what is named.
    fn named_amount(&self) -> Vec<usize> {
        if !self.is_yards() {
            return Vec::new();
        }
        let names = self.names();
        let words = self.words();
        self.same(|key| {
            let is_named = |key: &Key| names.iter().any(|name| key.is_of(*name)) || self.is_described(key, &words);
            key.what == What::Amount && key.is_stated() && is_named(key)
        })
    }

    /// The words of the sentence, and of the heads of the row.
    fn words(&self) -> BTreeSet<&str> {
        let own = &self.here.tokens.list[self.sentence.clone()];
        let heads = self.read.above(self.candidates.passage).into_iter().filter(|(_, is_own)| *is_own);
        let heads = heads.flat_map(|(head, _)| &self.read.list[head].tokens.list);
        let all = own.iter().chain(heads);
        all.map(|token| token.stem.as_str()).filter(|stem| stem.len() > 2).collect()
    }

    /// Whether words say what a fabric is used for, or its color.
    fn is_described(&self, key: &Key, words: &BTreeSet<&str>) -> bool {
        const COMMON: [&str; 16] = [
            "and", "the", "for", "binding", "border", "fabric", "block", "backing", "print", "square", "strip",
            "triangle", "all", "with", "piece", "light",
        ];
        key.of.iter().any(|cue| {
            let Cue::Fabric(fabric) = cue else { return false };
            let Some(fabric) = self.keys.manuscript.fabrics.get(*fabric) else { return false };
            let said = [&fabric.role, &fabric.color].into_iter().filter_map(|said| said.stated());
            let said = said.flat_map(|said| said.value.split(|ch: char| !ch.is_alphanumeric())).map(stem);
            let own = fabric.name.split([' ', '_', '-']).map(stem);
            said.chain(own).any(|word| !COMMON.contains(&word.as_str()) && words.contains(word.as_str()))
        })
    }

    /// A width or a length in a run over the sizes, or beside the name of a size: of the quilt, the top or a layer.
    fn width_or_length(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        let is_said = around.is_measure || self.is_length() && self.says(&["wide", "long", "width", "length"]);
        if self.own.form != Form::Scalar || !is_said || around.sizes.len() != 1 {
            return Vec::new();
        }
        let names = self.names();
        let layers: Vec<Cue> =
            names.into_iter().filter(|cue| matches!(cue, Cue::Section(Section::Batting | Section::Backing))).collect();
        self.fitting(self.candidates.fits.sides(), |key| {
            let is_top = key.is_of(Cue::Section(Section::Top)) || key.is_of(Cue::Section(Section::Quilt));
            let is_sized = key.size.is_some();
            match key.what {
                What::Layer => layers.iter().any(|layer| key.is_of(*layer)),
                What::Finished | What::Unfinished => layers.is_empty() && is_top && is_sized,
                _ => false,
            }
        })
    }

    /// How many blocks there are in a row or in a column.
    fn in_row(&self) -> Vec<usize> {
        if !self.counts() {
            return Vec::new();
        }
        let (row, column) = (self.says(&["row", "across"]), self.says(&["column", "down"]));
        let is_each = self.says(&["each", "every", "a", "per", "has", "have", "of"]);
        self.same(|key| {
            let is_other = key.nouns & Noun::Row.bit() != 0;
            is_each && key.what == What::Laid && (column && is_other || row && key.nouns & Noun::Column.bit() != 0)
        })
    }

    /// How many rows there are, or columns.
    fn rows(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        let laid = Noun::Row.bit() | Noun::Column.bit();
        if !self.counts() || !around.noun_is_near || around.nouns & laid == 0 {
            return Vec::new();
        }
        self.same(|key| key.what == What::Laid && key.nouns & around.nouns != 0)
    }

    /// One side of the top, or of a row, where the sentence tells how long or how wide that is.
    fn side(&self) -> Vec<usize> {
        const SAYS: [&str; 9] = ["row", "long", "wide", "across", "width", "length", "side", "square", "way"];
        if self.own.form != Form::Scalar || !self.is_length() || !self.says(&SAYS) || self.candidates.is_whole {
            return Vec::new();
        }
        let is_of = |key: &Key| {
            let is_top = key.is_of(Cue::Section(Section::Top)) || key.is_of(Cue::Section(Section::Border));
            is_top && matches!(key.what, What::Unfinished | What::Finished)
        };
        self.fitting(self.candidates.fits.sides(), is_of)
    }

    /// Tails and openings of the binding.
    fn ends_of_binding(&self) -> Vec<usize> {
        const SAYS: [&str; 16] = [
            "leave", "left", "start", "stop", "begin", "end", "tail", "free", "go", "loose", "dangling", "unsewn",
            "hang", "hanging", "join", "finish",
        ];
        let binds =
            |passage: &ReadPassage<'_>| passage.cues.iter().any(|cue| cue.cue == Cue::Section(Section::Binding));
        let headings = self.here.passage.headings.iter().filter_map(|heading| self.read.list.get(*heading));
        let is_bound = binds(self.here) || headings.into_iter().any(binds);
        if self.own.form != Form::Scalar || !self.is_length() || !is_bound || !self.says(&SAYS) {
            return Vec::new();
        }
        self.same(|key| {
            let is_end = key.nouns & (Noun::Tail.bit() | Noun::Opening.bit()) != 0;
            is_end && key.is_of(Cue::Section(Section::Binding))
        })
    }

    /// A measure of what is called by its shape: a block of 8 1/2 in, squares, strips.
    fn called_measure(&self) -> Vec<usize> {
        let around = &self.candidates.around;
        let sewn = Noun::Block.bit() | Noun::Unit.bit();
        let is_special = self.own.form == Form::Sides || !self.candidates.is_whole || around.is_square;
        let does = |act: Act| around.acts & act.bit() != 0;
        if !self.is_length() || around.about {
            return Vec::new();
        }
        self.same(|key| {
            let said = key.nouns & around.sentence_nouns;
            let is_top = key.is_of(Cue::Section(Section::Top)) && key.is_sure && !self.candidates.is_whole;
            match key.what {
                What::Unfinished if is_top => is_special,
                What::Unfinished => said & sewn != 0 && is_special && key.is_sure,
                What::Finished => said & sewn != 0 && (is_special || does(Act::Finished)) && key.is_sure,
                What::CutSize | What::StripWidth => {
                    let is_strip = key.what == What::StripWidth && self.says(&["strip"]) && self.says(&["wide"]);
                    is_special && key.is_stated() && said & !Noun::Width.bit() != 0 && (does(Act::Cut) || is_strip)
                }
                _ => false,
            }
        })
    }

    fn says(&self, words: &[&str]) -> bool {
        self.here.tokens.list[self.sentence.clone()].iter().any(|token| words.contains(&token.stem.as_str()))
    }

    /// The keys of its size and its form that say the same, of those that are asked for.
    fn same(&self, is: impl Fn(&Key) -> bool) -> Vec<usize> {
        self.fitting(&[], is)
    }

    /// The same, and such of others.
    fn fitting(&self, others: &[usize], is: impl Fn(&Key) -> bool) -> Vec<usize> {
        let around = &self.candidates.around;
        // A size that was named sentences ago may not be the one that is meant.
        let sizes = if around.size_is_carried { &[][..] } else { &around.sizes[..] };
        let names = self.here.direct_name(self.candidates.element);
        // So many geese are no strips for them.
        let counts = |cue: &Cue, key: &Key| {
            matches!(cue, Cue::Piece(..))
                || matches!(key.what, What::Makes | What::FromEach | What::Laid | What::LeftOver)
        };
        let is_count = self.counts();
        let is_direct = |key: &Key| {
            names.is_empty() || names.iter().any(|cue| key.is_of(cue.cue) && (!is_count || counts(&cue.cue, key)))
        };
        let fits = |index: &usize| {
            let key = &self.keys.list[*index];
            self.candidates.fits.is_form(self.keys, *index) && key.is_for(sizes) && is(key) && is_direct(key)
        };
        let mut keys: Vec<usize> = self.candidates.fits.same().iter().chain(others).copied().filter(fits).collect();
        keys.sort_unstable();
        keys
    }

    fn is_yards(&self) -> bool {
        matches!(unit_at(&self.here.tokens, self.own), Some(Unit::Yard | Unit::Metre))
    }

    fn is_length(&self) -> bool {
        unit_at(&self.here.tokens, self.own).is_some() && !self.is_yards()
    }

    fn counts(&self) -> bool {
        self.here.is_count(self.own)
    }

    /// A seam by where it is sewn: so far from an edge, a line, an end, all round.
    fn seam(&self) -> Vec<usize> {
        const WHERE: [&str; 16] = [
            "edge",
            "side",
            "line",
            "around",
            "round",
            "end",
            "corner",
            "point",
            "tip",
            "seam",
            "allowance",
            "foot",
            "raw",
            "flip",
            "diagonal",
            "outside",
        ];
        const OTHERS: [&str; 9] =
            ["bast", "stay", "topstitch", "hem", "zigzag", "edgestitch", "understitch", "label", "quilting"];
        const SEWN: [&str; 20] = [
            "sew",
            "stitch",
            "sewing",
            "stitching",
            "seam",
            "trim",
            "stop",
            "lose",
            "add",
            "allowance",
            "start",
            "backstitch",
            "beyond",
            "from",
            "leave",
            "before",
            "pivot",
            "turn",
            "trimmed",
            "outside",
        ];
        let list = &self.here.tokens.list[self.sentence.clone()];
        let is_other = list.iter().any(|token| OTHERS.iter().any(|start| token.stem.starts_with(start)));
        if self.own.form != Form::Scalar || !self.is_length() || is_other || !self.says(&WHERE) || !self.says(&SEWN) {
            return Vec::new();
        }
        self.same(|key| key.what == What::Seam)
    }

    /// The usable width, where the sentence tells of fabric and how wide it is.
    fn usable_width(&self) -> Vec<usize> {
        const FABRIC: [&str; 13] = [
            "across", "fabric", "cloth", "wof", "bolt", "width", "wide", "long", "strip", "selvage", "selvedge",
            "cotton", "usable",
        ];
        if self.own.form != Form::Scalar || !self.is_length() || !self.says(&FABRIC) {
            return Vec::new();
        }
        let is_strip = self.says(&["strip"]) && self.says(&["long", "all", "each"]);
        let is_back = self.names().contains(&Cue::Section(Section::Backing));
        let is_said = is_strip
            || is_back
            || self.says(&["wof", "selvage", "selvedge", "usable", "useful", "fabric", "cloth", "cotton"]);
        self.same(|key| is_said && key.what == What::UsableWidth)
    }

    /// What is named here, or was just named, by words that say much else too.
    fn names(&self) -> Vec<Cue> {
        let near = self.candidates.around.subjects.iter().take(2);
        let near = near.flat_map(|level| level.cues.iter().chain(&level.weak)).copied();
        let here = self.here.in_sentence(&self.sentence).map(|cue| cue.cue).filter(|cue| cue.is_subject());
        near.chain(here).filter(|cue| !matches!(cue, Cue::Section(Section::Top | Section::Quilt))).collect()
    }

    /// A measure of what is named.
    fn named_measure(&self) -> Vec<usize> {
        if !self.is_length() {
            return Vec::new();
        }
        let names = self.names();
        let around = &self.candidates.around;
        let does = |act: Act| around.acts & act.bit() != 0;
        self.same(|key| {
            let is_measure = matches!(key.value, KeyValue::Length(_) | KeyValue::Sides(_));
            let is_named = names.iter().any(|name| key.is_of(*name));
            let fits = match key.what {
                What::Seam | What::UsableWidth => false,
                What::Length if key.acts & Act::Beyond.bit() != 0 => does(Act::Beyond),
                What::Finished if !key.is_sure => does(Act::Finished) || does(Act::Sew),
                _ => true,
            };
            is_measure && is_named && fits
        })
    }

    /// How many go into each: `sew two blue squares to a white one`, `9 from a strip`.
    fn in_each(&self) -> Vec<usize> {
        if !self.counts() || self.candidates.in_run {
            return Vec::new();
        }
        let around = &self.candidates.around;
        let says_one = self.says(&["a", "an", "one", "each", "every", "per", "apiece", "single"]);
        let of_strip = self.says(&["strip", "length", "width"]) && says_one;
        let is_sewn = around.acts & (Act::Sew.bit() | Act::Make.bit()) != 0
            || self.says(&[
                "make", "take", "use", "need", "into", "form", "become", "have", "side", "together", "open", "get",
                "result", "unfold", "fall", "to",
            ])
            || around.acts == 0;
        let names = self.names();
        self.same(|key| {
            let is_noun = key.nouns & around.nouns & !Noun::Strip.bit() != 0 && around.noun_is_near;
            let is_named = key.of.iter().any(|cue| {
                names.contains(cue) && matches!(cue, Cue::Piece(..) | Cue::Unit(_) | Cue::Block(_) | Cue::Fabric(_))
            });
            let is_there = match key.derived {
                Some("from each strip") => of_strip,
                _ => is_sewn,
            };
            key.what == What::FromEach && is_there && (is_named || is_noun && says_one)
        })
    }

    /// A count of what is named here.
    fn named_count(&self) -> Vec<usize> {
        if !self.counts() {
            return Vec::new();
        }
        let around = &self.candidates.around;
        let names = self.names();
        let is_large = self.here.tokens.numbers[self.own.numbers[0]].count().is_some_and(|count| count > 4);
        let before = self.own.tokens.start.checked_sub(1).map_or("", |at| self.here.tokens.list[at].stem.as_str());
        let is_all =
            is_large && matches!(before, "all" | "these" | "those" | "your") && around.acts & Act::Sew.bit() != 0;
        // What is counted may be called by a word that says much else too: `80 corners`.
        let follows = |cue: &&PlacedCue| class(cue.cue) < 3 && cue.tokens.start == self.own.tokens.end;
        let called: Vec<Cue> = self.here.cues.iter().filter(follows).map(|cue| cue.cue).collect();
        let repeats = is_large && self.says(&["repeat", "until", "continue", "again"]);
        let of_each = around.of_each || self.says(&["each", "every", "per", "apiece"]);
        self.same(|key| {
            if of_each || key.what == What::Strips && around.nouns & Noun::Strip.bit() == 0 {
                return false;
            }
            let is_called = called.iter().any(|name| {
                key.is_of(*name) && (matches!(name, Cue::Piece(..)) || matches!(key.what, What::Makes | What::Laid))
            });
            let is_named = called.is_empty() && names.iter().any(|name| key.is_of(*name)) || is_called;
            let counts = matches!(key.what, What::Makes | What::Pieces | What::Strips | What::Panels | What::Laid);
            let fits = around.nouns == 0 || key.nouns & around.nouns != 0 || is_called;
            let is_made = matches!(key.what, What::Makes | What::Laid) && (is_all || repeats);
            counts && fits && !around.counts_unknown && (is_named && is_large || around.is_total || is_made)
        })
    }
}
