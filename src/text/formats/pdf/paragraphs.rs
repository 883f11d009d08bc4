//! Lines of a page as headings, paragraphs and items.

use std::collections::{BTreeMap, BTreeSet};

use super::fixed::{ONE, percent};
use super::region::Block;
use super::rows::{Segment, is_mark};
use super::wrapped::fits_above;
use crate::quantity::Unit;
use crate::text::formats::assembly::is_titled;
use crate::text::formats::builder::{Builder, Script};
use crate::text::formats::lines::{list_mark, may_follow, step_mark};
use crate::text::passage::{PassageKind, TextPlace};

/// Lines further apart than this part of what is usual begin a paragraph.
const PARAGRAPH_GAP: i64 = 118;
/// With raised or lowered letters in them, this part.
const SCRIPT_GAP: i64 = 145;
/// Lines of one paragraph are seldom further apart than this part of their size.
const FAR_LEADING: i64 = 150;
/// Where nothing is known of how far lines are apart, this part of their size is usual.
const USUAL_LEADING: i64 = 125;
/// Letters that are larger than those of the text by this part are a heading's.
const HEADING: i64 = 112;
/// The longest heading, in characters.
const LONGEST_HEADING: usize = 120;
/// A line of at least so many characters is text, and no heading.
const LONG_LINE: usize = 40;
/// How many sizes of headings are told apart.
const LEVELS: usize = 6;

/// What is known of a whole file's letters.
pub(super) struct Sizes {
    body: i64,
    /// The sizes of headings, the largest first.
    headings: Vec<i64>,
    /// How far apart lines of a size are, by the size in points.
    leading: BTreeMap<i64, i64>,
    /// All words, by which words that are parted at the end of a line are put together.
    words: BTreeSet<String>,
}

impl Sizes {
    /// Learns from all blocks.
    pub(super) fn of(blocks: &[Block]) -> Sizes {
        let mut words = BTreeSet::new();
        let (mut in_lines, mut in_tables) = (BTreeMap::new(), BTreeMap::new());
        let mut has_text = false;
        for block in blocks {
            let (letters, lines): (_, Vec<&Segment>) = match block {
                Block::Lines(lines) => (&mut in_lines, lines.iter().collect()),
                Block::Table(table) => (&mut in_tables, table.rows.iter().flatten().flatten().collect()),
                Block::ColumnEnd => continue,
            };
            for line in lines {
                *letters.entry(rounded(line.size)).or_default() += line.chars.len();
                has_text |= matches!(block, Block::Lines(_)) && line.chars.len() >= LONG_LINE;
                learn_words(&line.text(), &mut words);
            }
        }
        let mut letters: BTreeMap<i64, usize> = in_lines;
        // Tables are often set smaller than text, and the text is no heading by that, however little there is of it.
        let body = if has_text { most_used(&letters) } else { None };
        for (size, count) in in_tables {
            *letters.entry(size).or_default() += count;
        }
        let body = body.or_else(|| most_used(&letters)).unwrap_or(0);
        let mut headings: Vec<i64> = letters.into_keys().filter(|size| *size > percent(body, HEADING)).collect();
        headings.reverse();
        headings.truncate(LEVELS);
        Sizes { body, headings, leading: BTreeMap::new(), words }
    }

    /// Learns how far lines are apart, from those that fill their width.
    pub(super) fn learn_leading(&mut self, lines: &[Segment]) {
        let right = lines.iter().map(|line| line.x1).max().unwrap_or(0);
        let mut counts: BTreeMap<(i64, i64), usize> = BTreeMap::new();
        for pair in lines.windows(2) {
            let gap = pair[0].base - pair[1].base;
            // Paragraphs of one line that fill the width are as far apart as paragraphs are.
            let is_wrapped = gap <= percent(pair[0].size, FAR_LEADING)
                || pair[1].chars.first().is_some_and(|(first, _)| first.is_lowercase());
            if is_wrapped
                && pair[0].x1 > right - 6 * pair[0].size
                && gap > percent(pair[0].size, 90)
                && gap < 3 * pair[0].size
            {
                *counts.entry((rounded(pair[0].size), gap / (ONE / 2))).or_default() += 1;
            }
        }
        for ((size, gap), count) in counts {
            let known = self.leading.get(&size).copied();
            // Lines that are far apart are so by chance, unless it is the rule.
            let far = gap * (ONE / 2) > percent(size, FAR_LEADING);
            if !far && (count > 1 || known.is_none()) || count > 3 {
                let gap = gap * (ONE / 2) + ONE / 2;
                let least = known.map_or(gap, |known| known.min(gap));
                self.leading.insert(size, least);
            }
        }
    }

    fn leading_of(&self, size: i64) -> i64 {
        self.leading.get(&rounded(size)).copied().unwrap_or_else(|| percent(size, USUAL_LEADING))
    }

    fn heading_level(&self, size: i64) -> Option<u8> {
        if self.body == 0 || size <= percent(self.body, HEADING) {
            return None;
        }
        let at = self.headings.iter().position(|heading| *heading <= size + ONE / 4).unwrap_or(LEVELS - 1);
        u8::try_from(at + 1).ok()
    }
}

/// The size that most letters have.
fn most_used(letters: &BTreeMap<i64, usize>) -> Option<i64> {
    letters.iter().max_by_key(|(_, count)| **count).map(|(size, _)| *size)
}

/// Learns the words of a line.
fn learn_words(text: &str, words: &mut BTreeSet<String>) {
    let mut parts: Vec<&str> = text.split(|ch: char| !ch.is_alphabetic()).collect();
    // What a line ends or begins with may be half a word.
    if text.ends_with(['-', '\u{2010}']) {
        parts.truncate(parts.len().saturating_sub(2));
    }
    let begins_small = usize::from(text.starts_with(char::is_lowercase));
    let parts = parts.into_iter().skip(begins_small).filter(|word| word.len() > 3);
    words.extend(parts.map(str::to_lowercase));
}

/// A size to a quarter of a point.
const fn rounded(size: i64) -> i64 {
    (size + ONE / 8) / (ONE / 4) * (ONE / 4)
}

/// Numbers that are written with a hyphen before the next word: `twenty-six`.
const TENS: &[&str] = &["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
/// How many lines back the bracket is looked for that a line closes.
const BRACKET_LINES: usize = 3;
/// The most blocks of a page by which the width of a column is found.
const MAX_EXTENTS: usize = 64;

/// Lines on their way into passages. The last paragraph of a block is held until it is known whether the next column or
/// page goes on with it.
pub(super) struct Flow<'a> {
    sizes: &'a Sizes,
    state: State,
    open: Vec<Segment>,
    /// From where to where the blocks of the last page reach.
    extents: Vec<(i64, i64)>,
}

/// What is known between the blocks of a file.
#[derive(Default)]
struct State {
    /// Where the marks of the lists that are open stand.
    indents: Vec<i64>,
    /// The number of the last step.
    step: Option<u32>,
}

impl<'a> Flow<'a> {
    pub(super) fn new(sizes: &'a Sizes) -> Flow<'a> {
        Flow { sizes, state: State::default(), open: Vec::new(), extents: Vec::new() }
    }

    /// Reads lines into passages.
    pub(super) fn read_lines(&mut self, lines: &[Segment], builder: &mut Builder) {
        let Some(first) = lines.first() else { return };
        if !self.goes_on_with(first) {
            self.end_paragraph(builder);
        }
        if self.open.last().is_some_and(|last| last.page != first.page) || self.open.is_empty() {
            self.extents.clear();
        }
        let left = lines.iter().map(|line| line.x0).min().unwrap_or(0);
        let right = lines.iter().map(|line| line.x1).max().unwrap_or(0);
        if self.extents.len() < MAX_EXTENTS {
            self.extents.push((left, right));
        }
        for line in lines {
            let goes_on = self.open.last().is_none_or(|before| {
                // The first line was asked above.
                std::ptr::eq(line, first) || goes_on(before, line, &self.open, right, self.sizes, self.state.step)
            });
            if !goes_on {
                self.end_paragraph(builder);
            }
            self.open.push(line.clone());
        }
    }

    /// A table ends the paragraph and the lists that are open, and so does the end of the text.
    pub(super) fn end(&mut self, builder: &mut Builder) {
        self.end_paragraph(builder);
        self.state.indents.clear();
    }

    fn end_paragraph(&mut self, builder: &mut Builder) {
        let lines = std::mem::take(&mut self.open);
        read_paragraph(&lines, self.sizes, &mut self.state, builder);
    }

    /// Whether the first line of a column or a page goes on with the paragraph at the end of the one before.
    fn goes_on_with(&self, line: &Segment) -> bool {
        let (Some(start), Some(before)) = (self.open.first(), self.open.last()) else { return false };
        if !is_alike(before, line) || begins_item(line, &self.open, self.state.step) {
            return false;
        }
        let reach = |(left, right): &(i64, i64)| (*left < before.x1 && before.x0 < *right).then_some(*right);
        let right = self.extents.iter().filter_map(reach).max().unwrap_or(before.x1);
        let begins = line.chars.first().is_some_and(|(first, _)| !first.is_lowercase());
        let is_item = mark_length(start, self.state.step).is_some();
        // The further lines of an item stand under its text.
        let hangs = is_item && line.x0 > start.x0 + line.size / 2;
        let ends = before.text().ends_with(['.', '!', '?', ':', ';']);
        !fits_above(before, line, right) && (!begins || hangs || !is_item && !ends)
    }
}

/// Whether a line goes on with the paragraph of the line before it.
fn goes_on(
    before: &Segment,
    line: &Segment,
    paragraph: &[Segment],
    right: i64,
    sizes: &Sizes,
    step: Option<u32>,
) -> bool {
    let gap = before.base - line.base;
    // Raised and lowered letters push lines apart.
    let has_scripts = [before, line].iter().any(|line| line.chars.iter().any(|(_, script)| *script != Script::Normal));
    let most = if has_scripts { SCRIPT_GAP } else { PARAGRAPH_GAP };
    let close = gap > 0 && gap <= percent(sizes.leading_of(line.size), most);
    if !is_alike(before, line) || !close || begins_item(line, paragraph, step) {
        return false;
    }
    let text = line.text();
    let word = text.split_whitespace().next().unwrap_or_default();
    let fitted = fits_above(before, line, right);
    let begins = word.chars().next().is_some_and(|first| !first.is_lowercase());
    let parts_fraction = word.contains(['/', '\u{2044}', '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞'])
        && before.text().ends_with(|ch: char| ch.is_ascii_digit());
    let is_item = paragraph.first().is_some_and(|first| mark_length(first, step).is_some());
    let indented =
        !is_item && line.x0 > before.x0 + line.size && paragraph.first().is_some_and(|first| first.x0 <= before.x0);
    parts_fraction || !(indented || fitted && begins)
}

/// Whether two lines may be of one paragraph by their letters.
fn is_alike(before: &Segment, line: &Segment) -> bool {
    (line.size - before.size).abs() <= percent(before.size, 8) && line.is_bold == before.is_bold
}

/// Whether a line begins an item, and does not close a bracket of the paragraph: `(3.4` and `m) of backing`.
fn begins_item(line: &Segment, paragraph: &[Segment], step: Option<u32>) -> bool {
    let own_step = paragraph.first().and_then(step_of).map(|(_, number)| number);
    let Some(mark) = mark_length(line, step).or(mark_length(line, own_step)) else { return false };
    if separates(line, paragraph) {
        return false;
    }
    let start = |line: &Segment| line.chars.iter().take(2).map(|(ch, _)| *ch).collect::<String>();
    let end = |line: &Segment| line.chars.last().map(|(ch, _)| ch.to_string()).unwrap_or_default();
    if let (Some(first), Some(before)) = (paragraph.first(), paragraph.last())
        && !may_follow(&start(line), &start(first), &end(before))
    {
        return false;
    }
    let closes = line.chars.get(mark.saturating_sub(2)).is_some_and(|(last, _)| *last == ')');
    let near = paragraph.len().saturating_sub(BRACKET_LINES);
    let signs = || paragraph[near..].iter().flat_map(|line| &line.chars).map(|(ch, _)| *ch);
    !closes || signs().filter(|ch| *ch == '(').count() <= signs().filter(|ch| *ch == ')').count()
}

/// Whether a sign that a line begins with parts what the paragraph tells, and marks no item: `7 · 9` and `· 12`.
fn separates(line: &Segment, paragraph: &[Segment]) -> bool {
    let Some((sign, _)) = line.chars.first().filter(|(sign, _)| !sign.is_alphanumeric()) else { return false };
    let is_parted = |chars: &[(char, Script)]| chars[0].0 == ' ' && chars[1].0 == *sign && chars[2].0 == ' ';
    paragraph.iter().any(|line| line.chars.windows(3).any(is_parted))
}

fn read_paragraph(lines: &[Segment], sizes: &Sizes, state: &mut State, builder: &mut Builder) {
    let Some(first) = lines.first() else { return };
    let text = lines.iter().map(Segment::text).collect::<Vec<_>>().join(" ");
    let level =
        sizes.heading_level(first.size).filter(|_| text.chars().count() <= LONGEST_HEADING && is_heading(&text));
    // A heading may have a number or a letter of its own, which marks no item.
    let is_heading = level.is_some() && text.starts_with(char::is_alphanumeric);
    let mark = mark_length(first, state.step).filter(|_| !is_heading);
    if mark.is_some() {
        state.step = step_of(first).map(|(_, number)| number).or(state.step);
    }
    let is_bold = lines.iter().all(|line| line.is_bold);
    builder.set_bold(is_bold);
    for (at, line) in lines.iter().enumerate() {
        let chars = if at == 0 { line.chars.get(mark.unwrap_or(0)..).unwrap_or_default() } else { &line.chars };
        let joined = lines.get(at + 1).map_or(Joint::End, |next| joint(line, next, sizes));
        let end = if joined == Joint::WithoutHyphen { chars.len().saturating_sub(1) } else { chars.len() };
        let place = TextPlace::Page(line.page);
        for (ch, script) in &chars[..end] {
            builder.push(*ch, *script, place);
        }
        if joined == Joint::Space {
            builder.push(' ', Script::Normal, place);
        }
    }
    let kind = match (level, mark) {
        (Some(level), None) => PassageKind::Heading(level),
        (_, Some(_)) => PassageKind::ListItem { depth: state.depth(first) },
        (None, None) => PassageKind::Paragraph,
    };
    if mark.is_none() {
        state.indents.clear();
    }
    builder.end(kind);
    builder.set_bold(false);
}

/// Whether a short line that is larger than others reads as a heading: it is no sentence, but may end with a unit that
/// has a dot.
fn is_heading(text: &str) -> bool {
    let last = text.rsplit(char::is_whitespace).next().unwrap_or_default();
    let is_unit = last.strip_suffix('.').is_some_and(|word| Unit::from_word(word).is_some());
    is_titled(text) || text.chars().any(char::is_alphabetic) && (is_unit || !text.ends_with(['.', ';', ',']))
}

impl State {
    fn depth(&mut self, item: &Segment) -> u8 {
        let slack = item.size / 2;
        while self.indents.last().is_some_and(|last| *last > item.x0 + slack) {
            self.indents.pop();
        }
        if self.indents.last().is_none_or(|last| *last < item.x0 - slack) && self.indents.len() < 8 {
            self.indents.push(item.x0);
        }
        u8::try_from(self.indents.len().saturating_sub(1)).unwrap_or(0)
    }
}

/// The mark of a step by its number, if the line begins with one.
fn step_of(line: &Segment) -> Option<(usize, u32)> {
    step_mark(&line.chars.iter().take(12).map(|(ch, _)| *ch).collect::<String>())
}

/// How many characters are the mark of an item, or of the step after this one, with the space after it.
fn mark_length(line: &Segment, step: Option<u32>) -> Option<usize> {
    if let Some((mark, number)) = step_of(line) {
        let is_next = step.is_some_and(|step| step.checked_add(1) == Some(number));
        // A number that begins a line by chance is the mark of no step: steps are counted from 1.
        if is_next || number != 1 {
            return is_next.then_some(mark + 1);
        }
    }
    let start: String = line.chars.iter().take(12).map(|(ch, _)| *ch).collect();
    let word = start.split(' ').next().unwrap_or_default();
    let marks = word.len() < start.len() && (is_mark(word) && list_mark(&start).is_some() || word == "\u{fffd}");
    marks.then(|| word.chars().count() + 1)
}

/// How a line is joined to the next.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Joint {
    Space,
    /// A word is parted at a hyphen that is its own.
    Hyphen,
    /// A word is parted at a hyphen that only parts it.
    WithoutHyphen,
    End,
}

fn joint(line: &Segment, next: &Segment, sizes: &Sizes) -> Joint {
    let mut ending = line.chars.iter().rev().map(|(ch, _)| *ch);
    let (last, before) = (ending.next().unwrap_or(' '), ending.next().unwrap_or(' '));
    let text = next.text();
    let begins_small = text.starts_with(char::is_lowercase);
    match last {
        '\u{ad}' => Joint::WithoutHyphen,
        '-' | '\u{2010}' if before.is_alphabetic() && begins_small => {
            let head: String = line.chars.iter().map(|(ch, _)| *ch).collect();
            let head = head
                .trim_end_matches(['-', '\u{2010}'])
                .rsplit(|ch: char| !ch.is_alphabetic())
                .next()
                .unwrap_or_default()
                .to_lowercase();
            let tail = text.split(|ch: char| !ch.is_alphabetic()).next().unwrap_or_default().to_lowercase();
            let whole = format!("{head}{tail}");
            let parts_are_words =
                TENS.contains(&head.as_str()) || sizes.words.contains(&head) && sizes.words.contains(&tail);
            if sizes.words.contains(&whole) || !parts_are_words { Joint::WithoutHyphen } else { Joint::Hyphen }
        }
        '-' | '\u{2010}' | '\u{2013}' | '/' if before.is_alphanumeric() => Joint::Hyphen,
        _ => Joint::Space,
    }
}

/// Writes the lines of a cell.
pub(super) fn write_cell(lines: &[Segment], sizes: &Sizes, builder: &mut Builder) {
    for (at, line) in lines.iter().enumerate() {
        let joined = lines.get(at + 1).map_or(Joint::End, |next| joint(line, next, sizes));
        let end = if joined == Joint::WithoutHyphen { line.chars.len().saturating_sub(1) } else { line.chars.len() };
        let place = TextPlace::Page(line.page);
        for (ch, script) in &line.chars[..end] {
            builder.push(*ch, *script, place);
        }
        if joined == Joint::Space {
            builder.push(' ', Script::Normal, place);
        }
    }
}
