//! What stands around a number: in its clause, in the heads of its row and column, in what introduces it, above it.

use std::collections::{BTreeMap, BTreeSet};

use super::elements::{Element, repeats_words};
use super::heads::{
    SizeAlias, amounts_before, amounts_that_follow, are_of_several, bare_amounts, named_by, size_aliases, unit_said,
};
use super::keys::Keys;
use super::levels::{Level, last_of_each, level_of, nouns_of, sizes_in_order};
use super::lexicon::{Act, Cue, Lexicon, Noun, PlacedCue};
use super::not_required::{LABEL, not_required};
use super::nouns::BY_NAME;
use super::passage::{Passage, PassageKind};
use super::runs::{OrderedRun, elements, order_runs, part_lists_of_one_size};
use super::runs_by_fit;
use super::slashes::{SURE_PAIRS, join_dots, part_pairs, sure_pairs};
use super::tokens::{Tokens, tokens};
use crate::quantity::Unit;

/// A passage with what was found in it.
#[derive(Debug)]
pub(crate) struct ReadPassage<'t> {
    /// The passage.
    pub(crate) passage: &'t Passage,
    /// Its tokens.
    pub(crate) tokens: Tokens,
    /// The words in it that lead to numbers.
    pub(crate) cues: Vec<PlacedCue>,
    /// Its numbers, as they belong together.
    pub(crate) elements: Vec<Element>,
    /// Why each of them is no number that a manuscript states, where it is none.
    pub(crate) not_required: Vec<Option<&'static str>>,
}

/// A text with what was found in it.
#[derive(Debug)]
pub(crate) struct ReadPassages<'t> {
    /// The passages.
    pub(crate) list: Vec<ReadPassage<'t>>,
    /// The cells of each row of each table, and of each column.
    rows: BTreeMap<(u32, u32), Vec<usize>>,
    /// How many sizes the manuscript has.
    sizes: usize,
    /// The sizes that a text names, where it leaves some out.
    of_text: Vec<usize>,
    columns: BTreeMap<(u32, u32), Vec<usize>>,
}

/// What stands around one element.
#[derive(Clone, Debug, Default)]
#[allow(clippy::struct_excessive_bools)] // Each is asked for by itself.
pub(crate) struct Around {
    /// What the number may be of, the nearest first; each level with what is named there.
    pub(crate) subjects: Vec<Level>,
    /// What is counted or measured, as bits of [`Noun`]; none where nothing says.
    pub(crate) nouns: u32,
    /// Whether what is counted is called by its name.
    pub(crate) noun_is_name: bool,
    /// Whether the noun stands at the number itself.
    pub(crate) noun_is_near: bool,
    /// What is done, as bits of [`Act`], in the clause or else above it.
    pub(crate) acts: u32,
    /// Whether that is in the sentence itself.
    pub(crate) act_is_near: bool,
    /// Whether it stands in a cell of a table.
    pub(crate) in_table: bool,
    /// The sizes that it is for; empty where nothing says.
    pub(crate) sizes: Vec<usize>,
    /// Whether these are merely all that the text names.
    pub(crate) sizes_are_of_text: bool,
    /// Whether it is so many of, from or for each.
    pub(crate) of_each: bool,
    /// Whether the noun, or a name, follows the number directly.
    pub(crate) noun_follows: bool,
    /// Whether a head says that it is a width or a length.
    pub(crate) is_measure: bool,
    /// Whether its sentence tells of rows of blocks.
    pub(crate) of_rows: bool,
    /// Whether the noun, or a name, stands directly before or after the number.
    pub(crate) noun_is_adjacent: bool,
    /// The nouns of its sentence, as bits of [`Noun`].
    pub(crate) sentence_nouns: u32,
    /// Whether it is said to be a total.
    pub(crate) is_total: bool,
    /// Whether its sentence, or the one before, tells of several that are sewn together.
    pub(crate) says_together: bool,
    /// Whether it is said to be so long at each side.
    pub(crate) is_square: bool,
    /// Whether it counts blocks across or down.
    pub(crate) is_grid: bool,
    /// Whether its sentence tells of basting, a hem or the like, whose seams are others.
    pub(crate) other_seam: bool,
    /// Whether a word before it says that it is about so much.
    pub(crate) about: bool,
    /// Whether it is what something may turn out to be, and need not.
    pub(crate) is_supposed: bool,
    /// Whether the size was named in a sentence before, and not in its own.
    pub(crate) size_is_carried: bool,
    /// Whether its sentence names the size.
    pub(crate) size_is_near: bool,
    /// Whether it is said to be left over.
    pub(crate) is_left_over: bool,
    /// Whether what it counts is called by a word that leads to nothing.
    pub(crate) counts_unknown: bool,
}

impl<'t> ReadPassages<'t> {
    /// Reads the numbers and the words of passages by the key of a manuscript.
    pub(super) fn of(passages: &'t [Passage], lexicon: &Lexicon, keys: &Keys<'_>) -> ReadPassages<'t> {
        let mut read = ReadPassages::new(passages, lexicon, keys.manuscript.sizes.len());
        runs_by_fit::order_runs(&mut read, keys);
        read
    }

    /// Reads them by their words alone; `sizes` is how many sizes the manuscript has.
    fn new(passages: &'t [Passage], lexicon: &Lexicon, sizes: usize) -> ReadPassages<'t> {
        let mut read = ReadPassages {
            list: Vec::new(),
            rows: BTreeMap::new(),
            columns: BTreeMap::new(),
            sizes,
            of_text: Vec::new(),
        };
        let (mut order, mut has_runs) = ((0..sizes).collect::<Vec<usize>>(), false);
        let mut aliases: Vec<SizeAlias> = Vec::new();
        let all: Vec<Tokens> = passages.iter().map(|passage| tokens(&passage.text)).collect();
        let repeats = all.iter().any(repeats_words);
        let sure_pairs = |(passage, tokens): (&Passage, &Tokens)| sure_pairs(&passage.text, tokens);
        let pairs = if sizes == 2 { passages.iter().zip(&all).map(sure_pairs).sum() } else { 0 };
        for ((index, passage), mut tokens) in passages.iter().enumerate().zip(all) {
            if order.len() == 2 {
                part_pairs(&passage.text, &mut tokens, pairs >= SURE_PAIRS);
            }
            join_dots(&mut tokens, sizes);
            let mut cues = lexicon.cues(&passage.text, &tokens.list);
            aliases.extend(size_aliases(passage, &tokens, &cues, &lexicon.letters));
            if are_of_several(&aliases) {
                cues.extend(named_by(&aliases, passage, &tokens, &cues));
                cues.sort_by_key(|cue| cue.tokens.start);
            }
            let named = sizes_in_order(&tokens, &cues);
            let is_cell = matches!(passage.kind, PassageKind::Cell { .. });
            // The order that a text declares once holds from there on; one of fewer sizes holds beside it.
            let is_order = !is_cell && named.len() >= 2;
            if is_order && named.len() >= order.len() {
                order.clone_from(&named);
            }
            let mut elements = elements(&tokens, [&order, if is_order { &named } else { &[] }], repeats);
            let runs = |length: usize| elements.iter().filter(|own| own.in_run.is_some()).count() >= length;
            if is_order && named.len() < order.len() && !has_runs && !runs(order.len()) {
                order = named;
            }
            has_runs |= order.len() == sizes && runs(sizes);
            part_lists_of_one_size(&tokens, &cues, &mut elements);
            if let PassageKind::Cell { table, row, column, rows, columns, .. } = passage.kind {
                for row in row..row + rows.clamp(1, 1000) {
                    read.rows.entry((table, row)).or_default().push(index);
                }
                for column in column..column + columns.clamp(1, 1000) {
                    read.columns.entry((table, column)).or_default().push(index);
                }
            }
            let why = |element| not_required(&passage.text, &tokens, &cues, element);
            let not_required = elements.iter().map(why).collect();
            read.list.push(ReadPassage { passage, tokens, cues, elements, not_required });
        }
        read.drop_letters();
        read.part_runs_of_sized_cells();
        read.number_rows();
        read.take_units();
        let named = read.list.iter().flat_map(|passage| &passage.cues);
        let mut named: Vec<usize> = named.filter_map(|cue| cue.cue.size()).collect();
        named.sort_unstable();
        named.dedup();
        read.of_text = if named.len() < sizes { named } else { Vec::new() };
        read
    }

    /// The sizes that the text names, where it leaves some out.
    pub(crate) fn of_text(&self) -> &[usize] {
        &self.of_text
    }

    /// Makes numbers of a passage runs over sizes in an order.
    pub(super) fn order_runs(&mut self, passage: usize, runs: &[OrderedRun]) {
        let here = &mut self.list[passage];
        order_runs(&here.tokens, &mut here.elements, runs);
        let why = |element| not_required(&here.passage.text, &here.tokens, &here.cues, element);
        here.not_required = here.elements.iter().map(why).collect();
    }

    /// How many sizes the manuscript has.
    pub(crate) const fn sizes(&self) -> usize {
        self.sizes
    }

    /// Takes apart what looks like a run over the sizes in cells whose heads name their size: `7 / 90` strips and pieces.
    fn part_runs_of_sized_cells(&mut self) {
        let has_run = |here: &ReadPassage<'_>| here.is_cell() && here.elements.iter().any(|own| own.in_run.is_some());
        let cells: Vec<usize> = (0..self.list.len()).filter(|passage| has_run(&self.list[*passage])).collect();
        for cell in cells {
            let heads = self.above(cell).into_iter().filter(|(_, is_own)| *is_own);
            let sizes: BTreeSet<Cue> = heads
                .flat_map(|(head, _)| &self.list[head].cues)
                .map(|cue| cue.cue)
                .filter(|cue| matches!(cue, Cue::Size(_)))
                .collect();
            if sizes.len() == 1 {
                self.list[cell].elements.iter_mut().for_each(|own| own.in_run = None);
            }
        }
    }

    /// Takes the numbers that number the rows of a table for labels: 1, 2, 3 down its first column, or `1 (snow)`.
    fn number_rows(&mut self) {
        for (_, cells) in self.columns.iter().filter(|((_, column), _)| *column == 0) {
            let count = |cell: &usize| {
                let tokens = &self.list[*cell].tokens;
                let [number] = &tokens.numbers[..] else { return None };
                let is_alone = || tokens.list.len() <= 2 || !tokens.list[1].is_word();
                number.count().filter(|_| tokens.list[0].number().is_some() && is_alone())
            };
            let numbered: Vec<usize> = cells
                .windows(2)
                .filter(|pair| count(&pair[0]).is_some_and(|first| count(&pair[1]) == Some(first + 1)))
                .flatten()
                .copied()
                .collect();
            if numbered.len() >= 4 {
                for cell in numbered {
                    self.list[cell].not_required.iter_mut().for_each(|why| *why = Some(LABEL));
                }
            }
        }
    }

    /// Gives cells without a unit the one of the table, where its heads or what stands over it are in yards or meters.
    fn take_units(&mut self) {
        let unit = |passage: usize| {
            let list = &self.list[passage].tokens.list;
            // `Lengths are in centimeters, yardage in meters` says it of none by itself.
            if list.iter().any(|token| matches!(token.stem.as_str(), "centimeter" | "cm" | "inch")) {
                return None;
            }
            unit_said(&self.list[passage].passage.text, list).map(|(_, unit)| unit)
        };
        let is_cell = |passage: usize| matches!(self.list[passage].passage.kind, PassageKind::Cell { .. });
        let bare = |passage: usize| {
            let numbers = &self.list[passage].tokens.numbers;
            is_cell(passage)
                && numbers.len() == 1
                && numbers[0].unit.is_none()
                && self.list[passage].tokens.list.len() == 1
        };
        let cells: Vec<usize> = (0..self.list.len()).filter(|passage| bare(*passage)).collect();
        let units: Vec<(usize, Unit)> = cells
            .into_iter()
            .filter_map(|passage| {
                let counts = |above: usize| {
                    self.list[above].cues.iter().any(|cue| matches!(cue.cue, Cue::Noun(noun) if noun != Noun::Fabric))
                };
                let above = self.above(passage);
                let heads: Vec<usize> = above.into_iter().map(|(above, _)| above).collect();
                let at = heads.iter().position(|above| unit(*above).is_some())?;
                // A head that is nearer and counts something is not in yards.
                let is_other = heads[..at].iter().any(|above| counts(*above));
                (!is_other).then(|| unit(heads[at]).map(|unit| (passage, unit))).flatten()
            })
            .collect();
        for (passage, unit) in units {
            self.list[passage].tokens.numbers[0].unit = Some(unit);
        }
        self.take_units_of_heads();
    }

    /// Gives amounts in lists and paragraphs the unit that is said before them, or over them.
    fn take_units_of_heads(&mut self) {
        for passage in 0..self.list.len() {
            let here = &self.list[passage];
            if here.is_cell() {
                continue;
            }
            let said = amounts_that_follow(&here.tokens, &here.cues)
                .into_iter()
                .chain(amounts_before(&here.tokens, &here.cues));
            for (number, unit) in said.collect::<Vec<_>>() {
                self.list[passage].tokens.numbers[number].unit = Some(unit);
            }
            let here = &self.list[passage];
            let own = unit_said(&here.passage.text, &here.tokens.list).map(|(at, unit)| (at + 1, unit));
            let mut heads = here.passage.headings.last().into_iter().chain(here.passage.list_head.as_ref());
            let over = heads.find_map(|head| {
                let over = self.list.get(*head)?;
                unit_said(&over.passage.text, &over.tokens.list)
            });
            let said = own.or(over.map(|(_, unit)| (0, unit)));
            let Some((from, unit)) = said else { continue };
            for number in bare_amounts(&here.tokens, &here.cues, from) {
                self.list[passage].tokens.numbers[number].unit = Some(unit);
            }
        }
    }

    /// Letters are sizes where a text calls at least two so; of 40 °C none is.
    fn drop_letters(&mut self) {
        let is_letter = |here: &ReadPassage<'_>, cue: &PlacedCue| {
            let token = &here.tokens.list[cue.tokens.start];
            matches!(cue.cue, Cue::Size(_)) && token.is_word() && token.at.len() == 1
        };
        let is_degree = |here: &ReadPassage<'_>, cue: &PlacedCue| {
            let before = cue.tokens.start.checked_sub(1).map(|before| &here.tokens.list[before]);
            before.is_some_and(|before| before.is_sign('°') || before.is_sign('º'))
        };
        let is_lettered = |here: &ReadPassage<'_>, cue: &PlacedCue| is_letter(here, cue) && !is_degree(here, cue);
        let mut sizes: Vec<Cue> = self
            .list
            .iter()
            .flat_map(|here| here.cues.iter().filter(|cue| is_lettered(here, cue)).map(|cue| cue.cue))
            .collect();
        sizes.sort_unstable();
        sizes.dedup();
        let are_sizes = sizes.len() > 1;
        for here in &mut self.list {
            let cues = std::mem::take(&mut here.cues);
            let stays = |cue: &PlacedCue| !is_letter(here, cue) || are_sizes && !is_degree(here, cue);
            here.cues = cues.into_iter().filter(stays).collect();
        }
    }

    /// What stands around an element of a passage.
    pub(crate) fn around(&self, passage: usize, element: usize) -> Around {
        let here = &self.list[passage];
        let mut around = Around::default();
        let sentence = here.sentence(element);
        around.subjects.push(here.subjects_in(&sentence, element));
        let (own, others) = here.size_of(&sentence, element);
        around.sizes = own;
        let is_of_text = |size: &usize| self.of_text.len() < 2 || self.of_text.contains(size);
        let left = |named: &[usize]| -> Vec<usize> {
            (0..self.sizes).filter(|size| is_of_text(size) && !named.contains(size)).collect()
        };
        if here.is_for_the_others(element) {
            around.sizes = left(&here.sizes_of(&sentence));
        } else if around.sizes.is_empty() && !others.is_empty() {
            // Of `3 strips (5 for the throw)` the first is for the size that is left.
            around.sizes = Some(left(&others)).filter(|left| left.len() == 1).unwrap_or_default();
        }
        around.size_is_near = !around.sizes.is_empty();
        let (nouns, near) = here.nouns(&sentence, element);
        (around.nouns, around.noun_is_near) = (nouns & !BY_NAME, near);
        around.noun_is_name = nouns & BY_NAME != 0;
        around.acts = here.acts(&sentence, element);
        around.act_is_near = around.acts != 0;
        around.in_table = matches!(here.passage.kind, PassageKind::Cell { .. });
        around.of_each = here.of_each(&sentence, element);
        around.is_total = here.is_total(element);
        around.says_together = here.says_together(&sentence);
        around.noun_is_adjacent = here.noun_is_adjacent(&sentence, element);
        around.sentence_nouns = nouns_of(&here.in_sentence(&sentence).collect::<Vec<_>>());
        around.about = here.about(element);
        around.is_supposed = here.is_supposed(&sentence, element);
        around.is_left_over = here.is_left_over(&sentence);
        around.counts_unknown = here.counts_unknown(element);
        let in_sentence = |is: &dyn Fn(Cue) -> bool| here.in_sentence(&sentence).any(|cue| is(cue.cue));
        around.of_rows = in_sentence(&|cue| cue == Cue::Noun(Noun::Row) || cue == Cue::Noun(Noun::Column))
            && in_sentence(&|cue| cue == Cue::Noun(Noun::Block) || matches!(cue, Cue::Block(_)));
        around.other_seam = here.tokens.list[sentence.clone()].iter().any(|token| {
            ["bast", "stay", "topstitch", "hem", "scant", "zigzag", "edge"]
                .iter()
                .any(|start| token.stem.starts_with(start))
        });
        around.noun_follows = here.noun_follows(element);
        // What was named before in the passage carries on.
        let before = here.carried(element, &sentence);
        around.add_level(last_of_each(&before));
        around.take_sizes(&before);
        around.take_acts(&before);
        if around.sizes.is_empty() {
            around.sizes = here.size_before(&sentence);
        }
        around.size_is_carried = !around.size_is_near && !around.sizes.is_empty();
        if nouns == 0 {
            around.nouns = nouns_of(&before);
        }
        around.is_measure |= here.is_side_of_run(element);
        let mut own_noun = false;
        for (context, is_own) in self.above(passage) {
            let list = &self.list[context].tokens.list;
            around.is_measure |=
                is_own && list.iter().any(|token| matches!(token.stem.as_str(), "width" | "length" | "wide" | "long"));
            let cues: Vec<&PlacedCue> = self.list[context].cues.iter().collect();
            around.add_level(level_of(&cues));
            around.take_sizes(&cues);
            around.take_acts(&cues);
            around.of_each |= self.list[context].says_of_each();
            if around.nouns == 0 || is_own && !around.noun_is_near && !own_noun {
                // How wide a fabric is says nothing of what is counted below.
                let vague = if is_own { 0 } else { Noun::Width.bit() | Noun::Usable.bit() };
                let nouns = nouns_of(&cues) & !vague;
                own_noun |= is_own && nouns != 0;
                around.nouns = if nouns == 0 { around.nouns } else { nouns };
            }
        }
        if let Some((_, size)) = here.elements[element].in_run {
            around.sizes = vec![size];
        } else if around.sizes.is_empty() {
            around.sizes.extend((self.sizes == 1).then_some(0));
        }
        around
    }

    /// The passages that a passage stands under, the nearest first, and whether each is a head of its row or column.
    pub(crate) fn above(&self, passage: usize) -> Vec<(usize, bool)> {
        let here = self.list[passage].passage;
        let mut above = Vec::new();
        if let PassageKind::Cell { table, row, column, is_head, .. } = here.kind {
            let is_top = is_head && column > 0;
            let mut row_heads = if is_top { Vec::new() } else { self.heads_of_row(table, row, passage) };
            // An empty first cell carries the one above.
            if !self.has_first_cell(table, row) {
                let carried = (row.saturating_sub(12)..row).rev().find(|up| self.has_first_cell(table, *up));
                row_heads.extend(carried.into_iter().flat_map(|up| self.first_cells(table, up)));
            }
            above.extend(row_heads.into_iter().map(|cell| (cell, true)));
            above.extend(self.heads_of_column(table, column, row).into_iter().map(|cell| (cell, true)));
        }
        let mut head = here.list_head;
        let mut seen = 0;
        while let Some(list_head) = head.filter(|head| *head < self.list.len() && seen < 8) {
            above.push((list_head, false));
            head = self.list[list_head].passage.list_head;
            seen += 1;
        }
        above.extend(
            here.headings.iter().rev().filter(|heading| **heading < self.list.len()).map(|heading| (*heading, false)),
        );
        above
    }

    /// The cells of a row that name something and state no number, or stand first.
    fn heads_of_row(&self, table: u32, row: u32, except: usize) -> Vec<usize> {
        let cells = self.rows.get(&(table, row)).map_or(&[][..], Vec::as_slice);
        let is_head = |cell: &&usize| {
            let read = &self.list[**cell];
            let first = matches!(read.passage.kind, PassageKind::Cell { column: 0, .. });
            **cell != except && (first || read.elements.is_empty() && !read.cues.is_empty())
        };
        cells.iter().filter(is_head).copied().collect()
    }

    fn first_cells(&self, table: u32, row: u32) -> Vec<usize> {
        let cells = self.rows.get(&(table, row)).map_or(&[][..], Vec::as_slice);
        let is_first = |cell: &&usize| matches!(self.list[**cell].passage.kind, PassageKind::Cell { column: 0, .. });
        cells.iter().filter(is_first).copied().collect()
    }

    fn has_first_cell(&self, table: u32, row: u32) -> bool {
        !self.first_cells(table, row).is_empty()
    }

    /// The heads of a column: cells above that are marked so, stand in the first row or state no number.
    fn heads_of_column(&self, table: u32, column: u32, row: u32) -> Vec<usize> {
        let cells = self.columns.get(&(table, column)).map_or(&[][..], Vec::as_slice);
        let is_head = |cell: &&usize| {
            let PassageKind::Cell { row: at, is_head, .. } = self.list[**cell].passage.kind else { return false };
            let states_none = || {
                let cells = self.rows.get(&(table, at)).map_or(&[][..], Vec::as_slice);
                cells.iter().all(|cell| self.list[*cell].elements.is_empty())
            };
            at < row && (is_head || at == 0 || states_none())
        };
        let mut heads: Vec<usize> = cells.iter().filter(is_head).copied().collect();
        heads.reverse();
        heads
    }

    /// An element as it is written.
    pub(crate) fn written(&self, passage: usize, element: usize) -> &str {
        let here = &self.list[passage];
        let at = &here.elements[element].tokens;
        &here.passage.text[here.tokens.list[at.start].at.start..here.tokens.list[at.end - 1].at.end]
    }

    /// What belongs to one line of cutting: the sentence of an element, or the row of its table.
    pub(crate) fn group(&self, passage: usize, element: usize) -> (usize, usize) {
        let here = &self.list[passage];
        if let PassageKind::Cell { table, row, .. } = here.passage.kind {
            return (usize::MAX - table as usize, row as usize);
        }
        let starts_with_subcut =
            here.cues.first().is_some_and(|cue| cue.cue == Cue::Act(Act::Cut) && cue.tokens.start == 0)
                && here
                    .tokens
                    .list
                    .first()
                    .is_some_and(|token| matches!(token.stem.as_str(), "subcut" | "crosscut" | "cross" | "sub"));
        let nested = matches!(here.passage.kind, PassageKind::ListItem { depth } if depth > 0);
        match here.passage.list_head.filter(|_| starts_with_subcut || nested && self.is_item(here.passage.list_head)) {
            Some(head) if !self.list[head].elements.is_empty() => (head, self.list[head].line_of(0)),
            _ => (passage, here.line_of(element)),
        }
    }

    fn is_item(&self, passage: Option<usize>) -> bool {
        let kind = passage.and_then(|passage| self.list.get(passage)).map(|passage| passage.passage.kind);
        matches!(kind, Some(PassageKind::ListItem { .. }))
    }
}

impl ReadPassages<'_> {
    /// For a cell of the first column, the cells beside it, each with those above it that stand below the heads.
    pub(crate) fn columns_above(&self, passage: usize) -> Vec<(usize, Vec<usize>)> {
        let PassageKind::Cell { table, row, .. } = self.list[passage].passage.kind else { return Vec::new() };
        let beside =
            self.rows.get(&(table, row)).map_or(&[][..], Vec::as_slice).iter().filter(|cell| **cell != passage);
        let above = beside.map(|cell| {
            let PassageKind::Cell { column, .. } = self.list[*cell].passage.kind else { return (*cell, Vec::new()) };
            let cells = self.columns.get(&(table, column)).map_or(&[][..], Vec::as_slice);
            let is_part = |cell: &&usize| {
                matches!(self.list[**cell].passage.kind, PassageKind::Cell { row: at, is_head, .. } if at < row && at > 0 && !is_head)
            };
            (*cell, cells.iter().filter(is_part).copied().collect())
        });
        above.collect()
    }
}

impl Around {
    /// Whether nothing says for which size it is.
    pub(crate) const fn is_unsized(&self) -> bool {
        self.sizes.is_empty() || self.sizes_are_of_text
    }

    fn add_level(&mut self, level: Level) {
        if !level.cues.is_empty() || !level.weak.is_empty() {
            self.subjects.push(level);
        }
    }

    fn take_sizes(&mut self, cues: &[&PlacedCue]) {
        if self.sizes.is_empty() {
            self.sizes = cues.iter().filter_map(|cue| cue.cue.size()).collect();
            self.sizes.sort_unstable();
            self.sizes.dedup();
        }
    }

    fn take_acts(&mut self, cues: &[&PlacedCue]) {
        if self.acts == 0 {
            self.acts =
                cues.iter().fold(0, |bits, cue| if let Cue::Act(act) = cue.cue { bits | act.bit() } else { bits });
        }
    }
}
