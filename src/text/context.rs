//! What stands around a number: in its clause, in the heads of its row and column, in what introduces it, above it.

use std::collections::BTreeMap;

use super::elements::{Element, elements};
use super::lexicon::{Act, Cue, Lexicon, Noun, PlacedCue};
use super::not_required::not_required;
use super::passage::{Passage, PassageKind};
use super::tokens::{Token, TokenKind, Tokens, tokens};

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
    /// The size that a text is for, where it names one alone.
    only_size: Option<usize>,
    columns: BTreeMap<(u32, u32), Vec<usize>>,
}

/// What stands around one element.
#[derive(Clone, Debug, Default)]
pub(crate) struct Around {
    /// What the number may be of, the nearest first; each level with what is named there.
    pub(crate) subjects: Vec<Level>,
    /// What is counted or measured, as bits of [`Noun`]; none where nothing says.
    pub(crate) nouns: u32,
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
    /// Whether it is so many of, from or for each.
    pub(crate) of_each: bool,
    /// Whether the noun, or a name, follows the number directly.
    pub(crate) noun_follows: bool,
    /// Whether its sentence tells of rows of blocks.
    pub(crate) of_rows: bool,
    /// Whether its sentence tells of basting, a hem or the like, whose seams are others.
    pub(crate) other_seam: bool,
    /// Whether a word before it says that it is about so much.
    pub(crate) about: bool,
}

/// What is named at one distance.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Level {
    /// What is named.
    pub(crate) cues: Vec<Cue>,
    /// What is named by words that say much else besides.
    pub(crate) weak: Vec<Cue>,
}

impl<'t> ReadPassages<'t> {
    /// Reads the numbers and the words of passages; `sizes` is how many sizes the manuscript has.
    pub(crate) fn new(passages: &'t [Passage], lexicon: &Lexicon, sizes: usize) -> ReadPassages<'t> {
        let mut read =
            ReadPassages { list: Vec::new(), rows: BTreeMap::new(), columns: BTreeMap::new(), only_size: None };
        let mut order: Vec<usize> = (0..sizes).collect();
        for (index, passage) in passages.iter().enumerate() {
            let tokens = tokens(&passage.text);
            let cues = lexicon.cues(&passage.text, &tokens.list);
            let named = sizes_in_order(&tokens, &cues);
            let is_cell = matches!(passage.kind, PassageKind::Cell { .. });
            // The order that a text declares once holds from there on.
            if !is_cell && named.len() >= 2 {
                order.clone_from(&named);
            }
            let elements = elements(&tokens, &order);
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
        let named = read.list.iter().flat_map(|passage| &passage.cues);
        let mut named: Vec<usize> =
            named.filter_map(|cue| if let Cue::Size(size) = cue.cue { Some(size) } else { None }).collect();
        named.sort_unstable();
        named.dedup();
        read.only_size = if let [only] = named[..] { Some(only) } else { None };
        read
    }

    /// What stands around an element of a passage.
    pub(crate) fn around(&self, passage: usize, element: usize) -> Around {
        let here = &self.list[passage];
        let mut around = Around::default();
        let sentence = here.sentence(element);
        around.subjects.push(here.subjects_in(&sentence, element));
        around.sizes = here.size_of(&sentence, element);
        let (nouns, near) = here.nouns(&sentence, element);
        (around.nouns, around.noun_is_near) = (nouns, near);
        around.acts = here.acts(&sentence, element);
        around.act_is_near = around.acts != 0;
        around.in_table = matches!(here.passage.kind, PassageKind::Cell { .. });
        around.of_each = here.of_each(&sentence, element);
        around.about = here.about(element);
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
        if nouns == 0 {
            around.nouns = nouns_of(&before);
        }
        let mut own_noun = false;
        for (context, is_own) in self.above(passage) {
            let cues: Vec<&PlacedCue> = self.list[context].cues.iter().collect();
            around.add_level(level_of(&cues));
            around.take_sizes(&cues);
            around.take_acts(&cues);
            around.of_each |= self.list[context].says_of_each();
            if around.nouns == 0 || is_own && !around.noun_is_near && !own_noun {
                let nouns = nouns_of(&cues);
                own_noun |= is_own && nouns != 0;
                around.nouns = if nouns == 0 { around.nouns } else { nouns };
            }
        }
        if let Some((_, size)) = here.elements[element].in_run {
            around.sizes = vec![size];
        } else if around.sizes.is_empty() {
            around.sizes.extend(self.only_size);
        }
        around
    }

    /// The passages that a passage stands under, the nearest first, and whether each is a head of its row or column.
    fn above(&self, passage: usize) -> Vec<(usize, bool)> {
        let here = self.list[passage].passage;
        let mut above = Vec::new();
        if let PassageKind::Cell { table, row, column, .. } = here.kind {
            let mut row_heads = self.heads_of_row(table, row, passage);
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
            **cell != except && (first || read.elements.is_empty()) && !read.cues.is_empty()
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
    /// The table and the row of a cell, as a name for it.
    pub(crate) fn row_of(&self, passage: usize) -> Option<(usize, usize)> {
        let PassageKind::Cell { table, row, .. } = self.list[passage].passage.kind else { return None };
        Some((usize::MAX - table as usize, row as usize))
    }

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
    fn add_level(&mut self, level: Level) {
        if !level.cues.is_empty() || !level.weak.is_empty() {
            self.subjects.push(level);
        }
    }

    fn take_sizes(&mut self, cues: &[&PlacedCue]) {
        if self.sizes.is_empty() {
            self.sizes =
                cues.iter().filter_map(|cue| if let Cue::Size(size) = cue.cue { Some(size) } else { None }).collect();
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

/// The nouns among cues.
fn nouns_of(cues: &[&PlacedCue]) -> u32 {
    cues.iter().fold(0, |bits, cue| if let Cue::Noun(noun) = cue.cue { bits | noun.bit() } else { bits })
}

/// The subjects among cues.
fn level_of(cues: &[&PlacedCue]) -> Level {
    let of =
        |weak: bool| cues.iter().filter(|cue| cue.cue.is_subject() && cue.weak == weak).map(|cue| cue.cue).collect();
    Level { cues: of(false), weak: of(true) }
}

/// The kinds of subjects, which are looked for one by one.
fn class(cue: Cue) -> u8 {
    match cue {
        Cue::Piece(..) => 0,
        Cue::Unit(_) => 1,
        Cue::Block(_) => 2,
        Cue::Border(_) => 3,
        Cue::Section(_) => 4,
        Cue::Fabric(_) => 5,
        _ => 6,
    }
}

/// The last subject of each kind among cues that stand before.
fn last_of_each(cues: &[&PlacedCue]) -> Level {
    let mut kept: Vec<&PlacedCue> = Vec::new();
    for kind in 0..6 {
        let of_kind = |cue: &&&PlacedCue| class(cue.cue) == kind;
        if let Some(last) = cues.iter().filter(of_kind).next_back() {
            kept.extend(cues.iter().filter(of_kind).filter(|cue| cue.tokens == last.tokens));
        }
    }
    level_of(&kept)
}

/// The sizes of a passage, where it names at least two one after another and no number between.
fn sizes_in_order(tokens: &Tokens, cues: &[PlacedCue]) -> Vec<usize> {
    let sizes: Vec<(usize, &PlacedCue)> =
        cues.iter().filter_map(|cue| if let Cue::Size(size) = cue.cue { Some((size, cue)) } else { None }).collect();
    let mut order: Vec<usize> = Vec::new();
    for (index, (size, cue)) in sizes.iter().enumerate() {
        if let Some((_, last)) = index.checked_sub(1).map(|index| &sizes[index]) {
            let between = &tokens.list[last.tokens.end..cue.tokens.start];
            if between.iter().any(|token| token.number().is_some()) || between.len() > 4 {
                return Vec::new();
            }
        }
        if order.contains(size) {
            return Vec::new();
        }
        order.push(*size);
    }
    order
}

type Tokened = std::ops::Range<usize>;

impl ReadPassage<'_> {
    /// The bytes of the sentence that an element stands in.
    pub(crate) fn words_of(&self, element: usize) -> std::ops::Range<usize> {
        let tokens = self.sentence(element);
        let from = self.tokens.list.get(tokens.start).map_or(0, |token| token.at.start);
        let to =
            tokens.end.checked_sub(1).and_then(|last| self.tokens.list.get(last)).map_or(from, |token| token.at.end);
        from..to
    }

    /// The tokens of the sentence that an element stands in.
    pub(crate) fn sentence(&self, element: usize) -> Tokened {
        let at = self.elements[element].tokens.start;
        let ends =
            |token: &usize| matches!(self.tokens.list[*token].kind, TokenKind::Sign('.' | '!' | '?' | '•' | '\n'));
        let start = (0..at).rev().find(ends).map_or(0, |token| token + 1);
        let end = (at..self.tokens.list.len()).find(ends).unwrap_or(self.tokens.list.len());
        start..end
    }

    /// Which line of cutting an element belongs to: parts after a semicolon are lines of their own unless they say what
    /// becomes of the one before.
    fn line_of(&self, element: usize) -> usize {
        let at = self.elements[element].tokens.start;
        let mut line = 0;
        for (token, is) in self.tokens.list.iter().enumerate().take(at) {
            if !is.ends_clause() {
                continue;
            }
            let next = self.tokens.list.get(token + 1).map_or("", |token| token.stem.as_str());
            let goes_on =
                matches!(next, "subcut" | "crosscut" | "cross" | "sub" | "then" | "into" | "from" | "cut" | "trim")
                    && !is.is_sign('•')
                    && (next != "cut" || self.says_each(token + 1));
            if !goes_on {
                line = token + 1;
            }
        }
        line
    }

    /// Whether a clause goes on with the strips of the one before: `cut each into`, `cut these into`.
    fn says_each(&self, from: usize) -> bool {
        self.tokens.list[from..]
            .iter()
            .take(4)
            .any(|token| matches!(token.stem.as_str(), "each" | "these" | "them" | "into"))
    }

    /// The cues before the sentence of an element that carry on: those of its line, and those of sentences without numbers.
    fn carried(&self, element: usize, sentence: &Tokened) -> Vec<&PlacedCue> {
        let line = self.line_of(element);
        let mut carried = Vec::new();
        for cue in self.cues.iter().filter(|cue| cue.tokens.end <= sentence.start) {
            let from = (0..cue.tokens.start).rev().find(|at| self.ends_sentence(*at)).map_or(0, |at| at + 1);
            let to = (cue.tokens.start..sentence.start).find(|at| self.ends_sentence(*at)).unwrap_or(sentence.start);
            let counts = self.elements.iter().any(|element| element.tokens.start >= from && element.tokens.start < to);
            let leads = matches!(cue.cue, Cue::Fabric(_))
                && !self
                    .elements
                    .iter()
                    .any(|element| element.tokens.start >= from && element.tokens.start < cue.tokens.start)
                && !self.tokens.list[cue.tokens.end..sentence.start].iter().any(|token| token.is_sign('\n'));
            if cue.tokens.start >= line || !counts || leads || self.goes_back(sentence) && to + 1 >= sentence.start {
                carried.push(cue);
            }
        }
        carried
    }

    /// Whether a sentence speaks of what the one before it was about.
    fn goes_back(&self, sentence: &Tokened) -> bool {
        let first = self.tokens.list.get(sentence.start).map_or("", |token| token.stem.as_str());
        let says = |is: fn(Cue) -> bool| self.in_sentence(sentence).any(|cue| is(cue.cue));
        let makes = first == "make" && !says(Cue::is_subject) && !says(|cue| matches!(cue, Cue::Noun(_)));
        makes || matches!(first, "each" | "it" | "they" | "these" | "this" | "trim" | "square" | "unfinished" | "all")
    }

    /// Whether a noun or a name stands directly after an element.
    fn noun_follows(&self, element: usize) -> bool {
        let end = self.elements[element].tokens.end;
        let starts =
            |cue: &PlacedCue| cue.tokens.start == end || cue.tokens.start == end + 1 && self.tokens.list[end].is_word();
        self.cues.iter().any(|cue| starts(cue) && (matches!(cue.cue, Cue::Noun(_)) || cue.cue.is_subject()))
    }

    fn ends_sentence(&self, token: usize) -> bool {
        matches!(self.tokens.list[token].kind, TokenKind::Sign('.' | '!' | '?' | '•' | '\n'))
    }

    fn in_sentence<'s>(&'s self, sentence: &Tokened) -> impl Iterator<Item = &'s PlacedCue> + use<'s> {
        let Tokened { start, end } = *sentence;
        self.cues.iter().filter(move |cue| cue.tokens.start >= start && cue.tokens.end <= end)
    }

    /// The cues of one kind that an element goes by: those before it where the sentence names one before its first
    /// number, and else those after it.
    fn of_kind<'s>(&'s self, sentence: &Tokened, element: usize, is: impl Fn(Cue) -> bool) -> Vec<&'s PlacedCue> {
        self.of_kind_where(sentence, element, |cue| is(cue.cue))
    }

    fn of_kind_where<'s>(
        &'s self,
        sentence: &Tokened,
        element: usize,
        is: impl Fn(&PlacedCue) -> bool,
    ) -> Vec<&'s PlacedCue> {
        let cues: Vec<&PlacedCue> = self.in_sentence(sentence).filter(|cue| is(cue)).collect();
        let segment = self.segment(sentence, element);
        let nearest = self.nearest(&cues, &segment, element).or_else(|| self.nearest(&cues, sentence, element));
        nearest.map_or(Vec::new(), |nearest| self.joined(&cues, nearest))
    }

    /// The nearest of the cues in a range.
    fn nearest(&self, cues: &[&PlacedCue], range: &Tokened, element: usize) -> Option<usize> {
        let own = &self.elements[element].tokens;
        let is_in = |cue: &&PlacedCue| cue.tokens.start >= range.start && cue.tokens.end <= range.end;
        let first_cue = cues.iter().find(|cue| is_in(cue))?;
        let required = self.elements.iter().zip(&self.not_required).filter(|(_, why)| why.is_none());
        let first_number = required.map(|(element, _)| element.tokens.start).find(|start| *start >= range.start);
        let precedes = first_number.is_none_or(|number| first_cue.tokens.start < number);
        let before = || cues.iter().rposition(|cue| is_in(cue) && cue.tokens.end <= own.start);
        let after = || cues.iter().position(|cue| is_in(cue) && cue.tokens.start >= own.end);
        if precedes { before().or_else(after) } else { after().or_else(before) }
    }

    /// The part of a sentence that an element stands in: from the comma or the `and` before it to the one after it.
    fn segment(&self, sentence: &Tokened, element: usize) -> Tokened {
        self.segment_at(sentence, self.elements[element].tokens.clone())
    }

    fn segment_at(&self, sentence: &Tokened, own: Tokened) -> Tokened {
        let parts = |at: &usize| {
            let token = &self.tokens.list[*at];
            let is = token.is_sign(',') || token.is_sign(';') || matches!(token.stem.as_str(), "and" | "or" | "plus");
            // Not the commas of a run over the sizes.
            is && !self.elements.windows(2).any(|pair| {
                pair[0].tokens.end <= *at
                    && *at < pair[1].tokens.start
                    && pair[0].in_run.is_some()
                    && pair[0].in_run.map(|run| run.0) == pair[1].in_run.map(|run| run.0)
            })
        };
        let start = (sentence.start..own.start).rev().find(parts).map_or(sentence.start, |at| at + 1);
        let end = (own.end..sentence.end).find(parts).unwrap_or(sentence.end);
        start..end
    }

    /// A cue with those that are joined to it by `and` or a comma, or are of the same words.
    fn joined<'c>(&self, cues: &[&'c PlacedCue], at: usize) -> Vec<&'c PlacedCue> {
        let joins = |one: &PlacedCue, other: &PlacedCue| {
            one.tokens == other.tokens
                || self.tokens.list.get(one.tokens.end..other.tokens.start).is_some_and(|between| {
                    !between.is_empty()
                        && between.iter().all(|token| {
                            matches!(token.stem.as_str(), "and" | "or" | "the")
                                || matches!(token.kind, TokenKind::Sign('&' | ',' | '/'))
                        })
                })
        };
        let (mut first, mut last) = (at, at);
        while first > 0 && joins(cues[first - 1], cues[first]) {
            first -= 1;
        }
        while last + 1 < cues.len() && joins(cues[last], cues[last + 1]) {
            last += 1;
        }
        cues[first..=last].to_vec()
    }

    fn subjects_in(&self, sentence: &Tokened, element: usize) -> Level {
        let segment = self.segment(sentence, element);
        let is_in = |cue: &&PlacedCue| cue.tokens.start >= segment.start && cue.tokens.end <= segment.end;
        // A part of the sentence that counts things anew is not about what another part counts.
        let counts = |range: &Tokened| {
            self.elements.iter().any(|element| range.contains(&element.tokens.start) && self.is_count(element))
        };
        let own =
            self.in_sentence(sentence).filter(is_in).any(|cue| cue.cue.is_subject() && class(cue.cue) < 5 && !cue.weak);
        let mut kept: Vec<&PlacedCue> = Vec::new();
        for kind in 0..6 {
            let named = |cue: &&PlacedCue| class(cue.cue) == kind;
            let strong = |cue: &&PlacedCue| named(cue) && !cue.weak;
            let is_here = self.in_sentence(sentence).filter(named).any(|cue| is_in(&cue));
            let only_strong = self.in_sentence(sentence).filter(strong).any(|cue| is_in(&cue) || !is_here);
            let of_kind =
                self.of_kind_where(sentence, element, |cue| class(cue.cue) == kind && !(only_strong && cue.weak));
            let elsewhere = of_kind.first().filter(|cue| !is_in(cue));
            let is_other = elsewhere.is_some_and(|cue| {
                let other = self.segment_at(sentence, cue.tokens.clone());
                let has_number = self.elements.iter().any(|element| other.contains(&element.tokens.start));
                let own_fabric = self.in_sentence(sentence).filter(is_in).any(|cue| class(cue.cue) == 5);
                kind < 5 && (own || kind == 4 && own_fabric && has_number || counts(&segment) && counts(&other))
            });
            if !is_other {
                kept.extend(of_kind);
            }
        }
        level_of(&kept)
    }

    fn size_of(&self, sentence: &Tokened, element: usize) -> Vec<usize> {
        let cues = self.of_kind(sentence, element, |cue| matches!(cue, Cue::Size(_)));
        cues.iter().filter_map(|cue| if let Cue::Size(size) = cue.cue { Some(size) } else { None }).collect()
    }

    /// The nouns of an element, and whether they stand at it: those after it, those after the next number where that
    /// follows directly, or those before it.
    fn nouns(&self, sentence: &Tokened, element: usize) -> (u32, bool) {
        // A side and an edge are of anything: they count where nothing else is named.
        match self.nouns_where(sentence, element, |noun| !noun.is_vague()) {
            (0, _) => self.nouns_where(sentence, element, Noun::is_vague),
            found => found,
        }
    }

    fn nouns_where(&self, sentence: &Tokened, element: usize, is: fn(Noun) -> bool) -> (u32, bool) {
        let mut at = element;
        loop {
            let from = self.elements[at].tokens.end;
            let next = self.elements.get(at + 1).map_or(usize::MAX, |next| next.tokens.start);
            let to = next.min(self.clause_end(from)).min(sentence.end);
            if let Some(bits) = self.noun_in(from..to, true, is) {
                return (bits, true);
            }
            let between = self.tokens.list.get(from..next).unwrap_or(&[]);
            let (one, other) = (&self.elements[at], self.elements.get(at + 1));
            let is_count = self.is_count(one);
            let goes_on = other.is_some_and(|other| {
                is_count && !self.is_count(other)
                    || one.in_run.is_some() && one.in_run.map(|run| run.0) == other.in_run.map(|run| run.0)
            }) || other.is_some_and(|other| matches!(other.role, super::elements::Role::PairOf(_)))
                || matches!(one.role, super::elements::Role::WordOf(_));
            let adjacent = next < sentence.end
                && goes_on
                && between
                    .iter()
                    .filter(|token| token.is_word() && !matches!(token.stem.as_str(), "x" | "and" | "or"))
                    .count()
                    <= 1
                && !between.iter().any(Token::ends_clause);
            if !adjacent {
                break;
            }
            at += 1;
        }
        let from = self.clause_start(self.elements[element].tokens.start).max(sentence.start);
        match self.noun_in(from..self.elements[element].tokens.start, false, is) {
            Some(bits) => (bits, true),
            None => (0, false),
        }
    }

    /// Whether an element is a number of things.
    fn is_count(&self, element: &Element) -> bool {
        element.numbers.len() == 1
            && self.tokens.numbers[element.numbers[0]].count().is_some()
            && element.form == super::elements::Form::Scalar
    }

    fn clause_end(&self, from: usize) -> usize {
        (from..self.tokens.list.len()).find(|at| self.tokens.list[*at].ends_clause()).unwrap_or(self.tokens.list.len())
    }

    fn clause_start(&self, to: usize) -> usize {
        (0..to).rev().find(|at| self.tokens.list[*at].ends_clause()).map_or(0, |at| at + 1)
    }

    /// The nouns among tokens: the first phrase of them, or the last.
    fn noun_in(&self, tokens: Tokened, first: bool, is: fn(Noun) -> bool) -> Option<u32> {
        if tokens.start >= tokens.end {
            return None;
        }
        let mut nouns: Vec<(&PlacedCue, Noun)> = self
            .cues
            .iter()
            .filter(|cue| cue.tokens.start >= tokens.start && cue.tokens.end <= tokens.end)
            .filter_map(|cue| if let Cue::Noun(noun) = cue.cue { Some((cue, noun)) } else { None })
            .filter(|(_, noun)| is(*noun))
            // `Cut along the fabric` counts nothing.
            .filter(|(cue, noun)| {
                let before = cue.tokens.start.checked_sub(1).and_then(|before| self.tokens.list.get(before));
                *noun != Noun::Fabric
                    || !before.is_some_and(|token| matches!(token.stem.as_str(), "the" | "along" | "across"))
            })
            .collect();
        if !first {
            nouns.reverse();
        }
        let (start, _) = nouns.first()?;
        let start = start.tokens.start;
        let near = nouns.iter().take_while(|(cue, _)| cue.tokens.start.abs_diff(start) <= 2);
        Some(near.fold(0, |bits, (_, noun)| bits | noun.bit()))
    }

    fn acts(&self, sentence: &Tokened, element: usize) -> u32 {
        let own = &self.elements[element].tokens;
        let (from, to) = (self.clause_start(own.start).max(sentence.start), self.clause_end(own.end).min(sentence.end));
        let bits = |range: Tokened| {
            self.cues.iter().filter(|cue| cue.tokens.start >= range.start && cue.tokens.end <= range.end).fold(
                0,
                |bits, cue| {
                    if let Cue::Act(act) = cue.cue { bits | act.bit() } else { bits }
                },
            )
        };
        let segment = bits(self.segment(sentence, element));
        let before = self.cues.iter().rev().find(|cue| {
            matches!(cue.cue, Cue::Act(_)) && cue.tokens.end <= own.start && cue.tokens.start >= sentence.start
        });
        let clause = match (segment, before) {
            (0, Some(before)) => bits(self.segment_at(sentence, before.tokens.clone())),
            (0, None) => bits(from..to),
            (segment, _) => segment,
        };
        if clause != 0 { clause } else { bits(sentence.clone()) }
    }

    /// Whether the number is of, from or for each of several things: `6 from each strip`, `4 per block`.
    fn of_each(&self, sentence: &Tokened, element: usize) -> bool {
        let own = &self.elements[element].tokens;
        let from = self.clause_start(own.start).max(sentence.start);
        let to = self.clause_end(own.end).min(sentence.end);
        (from..to).any(|at| {
            let token = &self.tokens.list[at];
            let next = self.tokens.list.get(at + 1);
            let is_each = matches!(token.stem.as_str(), "each" | "per" | "every" | "apiece");
            is_each
                && next.is_none_or(|next| {
                    next.number().is_none() && !matches!(next.stem.as_str(), "measuring" | "in" | "for")
                })
                || token.stem == "one" && next.is_some_and(|next| matches!(next.stem.as_str(), "block" | "unit"))
        })
    }

    /// Whether it introduces what is so many of or from each: `From each fat quarter, cut:`.
    fn says_of_each(&self) -> bool {
        let list = &self.tokens.list;
        matches!(self.passage.kind, PassageKind::Paragraph | PassageKind::ListItem { .. })
            && list.iter().any(|token| matches!(token.stem.as_str(), "each" | "every" | "per"))
            && list.last().is_some_and(|token| token.is_sign(':'))
    }

    fn about(&self, element: usize) -> bool {
        let start = self.elements[element].tokens.start;
        let word = |back: usize| {
            start.checked_sub(back).and_then(|at| self.tokens.list.get(at)).map_or("", |token| token.stem.as_str())
        };
        (1..4).any(|back| {
            matches!(
                word(back),
                "about" | "approximately" | "approx" | "roughly" | "least" | "nearly" | "almost" | "up"
            )
        })
    }
}
