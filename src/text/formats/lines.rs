//! Text without markup: its lines, put together to blocks, and what a block is.

use super::builder::{Builder, Script};
use super::columns::table_rows;
use crate::text::passage::{PassageKind, TextPlace};
use crate::text::tokens::is_bullet;

/// The longest line that can be a heading, in characters.
const LONGEST_HEADING: usize = 60;
/// The most words that a heading has.
const MOST_HEADING_WORDS: usize = 9;
/// How deep lists are told apart.
const MAX_DEPTH: usize = 8;

/// A line, without the blanks at its end, and the byte that it begins at.
#[derive(Clone, Copy)]
pub(super) struct Line<'a> {
    pub(super) text: &'a str,
    pub(super) start: usize,
}

impl<'a> Line<'a> {
    /// How many characters it is indented by, a tab being four.
    pub(super) fn indent(&self) -> usize {
        self.text.chars().take_while(|ch| ch.is_whitespace()).map(|ch| if ch == '\t' { 4 } else { 1 }).sum()
    }

    fn words(&self) -> &'a str {
        self.text.trim_start()
    }

    fn is_blank(&self) -> bool {
        self.words().is_empty()
    }

    /// The part of it from this byte on, without the blanks before it.
    fn from(&self, byte: usize) -> Line<'a> {
        let rest = self.text.get(byte..).unwrap_or_default();
        let words = rest.trim_start();
        Line { text: words, start: self.start + byte + (rest.len() - words.len()) }
    }

    fn trimmed(&self) -> Line<'a> {
        self.from(0)
    }

    fn write(&self, builder: &mut Builder) {
        builder.push_verbatim(self.text, Script::Normal, self.start);
    }

    /// Where it ends.
    fn end(&self) -> TextPlace {
        let end = self.start + self.text.len();
        TextPlace::Span((end..end).into())
    }
}

/// The lines of a text that begins at this byte of its file.
pub(super) fn lines(text: &str, start: usize) -> Vec<Line<'_>> {
    let mut lines = Vec::new();
    let mut at = start;
    for whole in text.split_inclusive(['\n', '\u{c}']) {
        for part in whole.split_inclusive('\r') {
            lines.push(Line { text: part.trim_end(), start: at });
            at += part.len();
        }
    }
    lines
}

/// What is known while blocks are read.
pub(super) struct Blocks {
    /// How long lines are where they are wrapped.
    width: usize,
    /// The indents of the lists that the next item may belong to.
    indents: Vec<usize>,
    /// The number of the last step.
    step: Option<u32>,
    any: bool,
}

/// Reads lines into passages.
pub(super) fn read_lines(lines: &[Line], builder: &mut Builder) {
    let mut blocks = Blocks { width: usual_width(lines), indents: Vec::new(), step: None, any: false };
    for block in lines.split(Line::is_blank).filter(|block| !block.is_empty()) {
        if builder.is_full() {
            break;
        }
        blocks.read(block, builder);
        blocks.any = true;
    }
}

/// The length that few lines are longer than, if lines are wrapped at all.
fn usual_width(lines: &[Line]) -> usize {
    let mut lengths: Vec<usize> =
        lines.iter().filter(|line| !line.is_blank()).map(|line| line.text.chars().count()).collect();
    lengths.sort_unstable();
    lengths.get(lengths.len() * 19 / 20).or(lengths.last()).copied().unwrap_or(0).max(60)
}

impl Blocks {
    fn read(&mut self, block: &[Line], builder: &mut Builder) {
        let mut rest = block;
        while !rest.is_empty() && !builder.is_full() {
            if let Some(heading) = heading_length(rest, self.any) {
                rest[0].trimmed().from(heading.mark).write(builder);
                builder.end(PassageKind::Heading(heading.level));
                self.indents.clear();
                rest = &rest[heading.lines..];
                self.any = true;
                continue;
            }
            match table_rows(rest) {
                Some((before, rows, after)) => {
                    self.read_text(before, builder);
                    self.read_table(&rows, builder);
                    rest = after;
                }
                None => {
                    self.read_text(rest, builder);
                    return;
                }
            }
        }
    }

    fn read_table(&mut self, rows: &[Vec<Option<Line>>], builder: &mut Builder) {
        self.indents.clear();
        let first = builder.len();
        let table = builder.next_table();
        for (row, cells) in (0..).zip(rows) {
            for (column, cell) in (0..).zip(cells) {
                let Some(cell) = cell else { continue };
                cell.write(builder);
                builder.end(PassageKind::Cell { table, row, column, rows: 1, columns: 1, is_head: false });
            }
        }
        super::heads::mark_first_row(builder, first, table);
        builder.end_group();
    }

    /// Paragraphs and items.
    fn read_text(&mut self, block: &[Line], builder: &mut Builder) {
        let mut rest = block;
        while let Some((first, _)) = rest.split_first().filter(|_| !builder.is_full()) {
            let marked = Self::mark(first.words(), self.step);
            let step = step_mark(first.words()).filter(|_| marked.is_some()).map(|(_, number)| number);
            self.step = step.or(self.step);
            let wrapped = |pair: &&[Line]| {
                let line = pair[1].words();
                Self::mark(line, self.step).is_none() || !may_follow(line, first.words(), pair[0].text)
            };
            let length = 1 + rest.windows(2).take_while(wrapped).count();
            let (lines, after) = rest.split_at(length);
            match marked {
                Some(mark) => self.read_item(lines, mark, builder),
                None => self.read_paragraph(lines, builder),
            }
            rest = after;
        }
    }

    /// The mark of an item, or of the step after this one.
    fn mark(words: &str, step: Option<u32>) -> Option<usize> {
        match step_mark(words) {
            Some((mark, number)) if step.is_some_and(|step| step.checked_add(1) == Some(number)) => Some(mark),
            // A number that begins a line by chance is the mark of no step: steps are counted from 1.
            Some((_, number)) if number != 1 => None,
            _ => list_mark(words),
        }
    }

    fn read_item(&mut self, lines: &[Line], mark: usize, builder: &mut Builder) {
        let depth = self.depth(lines[0].indent());
        lines[0].trimmed().from(mark).write(builder);
        self.write_rest(lines, true, builder);
        builder.end(PassageKind::ListItem { depth });
    }

    fn depth(&mut self, indent: usize) -> u8 {
        while self.indents.last().is_some_and(|last| *last > indent) {
            self.indents.pop();
        }
        if self.indents.last() != Some(&indent) && self.indents.len() < MAX_DEPTH {
            self.indents.push(indent);
        }
        u8::try_from(self.indents.len().saturating_sub(1)).unwrap_or(0)
    }

    fn read_paragraph(&mut self, lines: &[Line], builder: &mut Builder) {
        let width = self.width_of(lines);
        let all_set = lines.len() > 1 && (1..lines.len()).all(|next| is_set_break(lines, next, width, false));
        if all_set {
            self.read_set_lines(lines, builder);
            return;
        }
        self.indents.clear();
        lines[0].trimmed().write(builder);
        self.write_rest(lines, false, builder);
        builder.end(PassageKind::Paragraph);
    }

    /// Lines that the writer broke each: what stands under `...:` is a list.
    fn read_set_lines(&mut self, lines: &[Line], builder: &mut Builder) {
        self.indents.clear();
        let mut listed = false;
        for line in lines {
            line.trimmed().write(builder);
            if line.text.ends_with(':') {
                builder.end(PassageKind::Paragraph);
                self.indents.clear();
                listed = true;
            } else if listed {
                let depth = self.depth(line.indent());
                builder.end(PassageKind::ListItem { depth });
            } else {
                builder.end(PassageKind::Paragraph);
            }
        }
    }

    /// The lines after the first, each after a space or after a break.
    fn write_rest(&self, lines: &[Line], is_item: bool, builder: &mut Builder) {
        let width = self.width_of(lines);
        for next in 1..lines.len() {
            let before = &lines[next - 1];
            if is_set_break(lines, next, width, is_item) {
                builder.line_break(before.end());
            } else {
                builder.push(' ', Script::Normal, before.end());
            }
            lines[next].trimmed().write(builder);
        }
    }

    /// How long the lines of a paragraph could be.
    fn width_of(&self, lines: &[Line]) -> usize {
        let longest = lines.iter().map(|line| line.text.chars().count()).max().unwrap_or(0);
        if lines.len() > 2 && longest > 40 { longest } else { self.width.max(longest) }
    }
}

/// Whether the next line's first word would have fitted into the line before it, and begins something. In an item the
/// lines after the first hang, and say nothing by it.
fn is_set_break(lines: &[Line], next: usize, width: usize, is_item: bool) -> bool {
    let (before, line) = (&lines[next - 1], &lines[next]);
    let word = line.words().split_whitespace().next().unwrap_or_default();
    let parts_fraction = before.text.ends_with(|ch: char| ch.is_ascii_digit()) && word.contains(['/', '\u{2044}']);
    let begins = word.chars().next().is_some_and(|first| !first.is_lowercase());
    let deeper = line.indent() > before.indent() && !(is_item && next == 1);
    let length = before.text.chars().count() + 1 + word.chars().count();
    !parts_fraction && (begins || deeper) && length <= width.saturating_sub(2)
}

struct HeadingLines {
    level: u8,
    /// How many lines it takes.
    lines: usize,
    /// How many bytes of its first line are its mark.
    mark: usize,
}

/// Whether a block begins with a heading.
fn heading_length(block: &[Line], any_before: bool) -> Option<HeadingLines> {
    let (first, rest) = block.split_first()?;
    let words = first.words();
    let length = words.chars().count();
    let hashes = words.bytes().take_while(|byte| *byte == b'#').count();
    if (1..=6).contains(&hashes) && words[hashes..].starts_with(' ') {
        return Some(HeadingLines { level: u8::try_from(hashes).unwrap_or(6), lines: 1, mark: hashes });
    }
    if length > LONGEST_HEADING || list_mark(words).is_some() || words.contains(['\t', '|']) {
        return None;
    }
    if let Some(level) = rest.first().and_then(|line| underline(line.words())) {
        return Some(HeadingLines { level, lines: 2, mark: 0 });
    }
    let (first_letter, last) = (words.chars().next()?, words.chars().next_back()?);
    let in_capitals = words.chars().filter(|ch| ch.is_alphabetic()).count() > 2
        && !words.chars().any(char::is_lowercase)
        && first_letter.is_alphabetic();
    if in_capitals && !words.trim_end_matches(':').contains(['.', ';']) {
        return Some(HeadingLines { level: if any_before { 2 } else { 1 }, lines: 1, mark: 0 });
    }
    let is_title = rest.is_empty()
        && first_letter.is_uppercase()
        && !".!?:;,\"\u{201d}\u{2033}".contains(last)
        && words.split_whitespace().count() <= MOST_HEADING_WORDS
        && !words.contains("  ")
        && words.split_whitespace().rev().skip(1).all(|word| !word.contains(|ch: char| ch.is_ascii_digit()));
    is_title.then_some(HeadingLines { level: if any_before { 2 } else { 1 }, lines: 1, mark: 0 })
}

fn underline(words: &str) -> Option<u8> {
    let mark = words.chars().next()?;
    let all = words.len() >= 3 && words.chars().all(|ch| ch == mark);
    match mark {
        '=' | '*' | '#' if all => Some(1),
        '-' | '~' | '_' if all => Some(2),
        _ => None,
    }
}

/// How many bytes are the mark of a step by its number, and the number, whatever comes after.
pub(super) fn step_mark(words: &str) -> Option<(usize, u32)> {
    let digits = words.bytes().take_while(u8::is_ascii_digit).count();
    let number = words.get(..digits).filter(|digits| (1..=3).contains(&digits.len()))?.parse().ok()?;
    let rest = words[digits..].strip_prefix(['.', ')'])?;
    rest.starts_with([' ', '\t', '\u{a0}']).then_some((digits + 1, number))
}

/// Whether words are only the mark of an item.
pub(super) fn is_mark(words: &str) -> bool {
    list_mark(&format!("{words} x")).is_some_and(|mark| mark == words.len())
}

/// Whether a line that begins like an item with a letter can be one. `m) of backing` closes a bracket of the line
/// before, and `B. Each` ends its sentence, unless it comes after an item `A.` or the line before is done.
pub(super) fn may_follow(line: &str, first: &str, before: &str) -> bool {
    let letter = |words: &str| {
        let mut chars = words.chars();
        chars.next().filter(|first| first.is_ascii_alphabetic() && matches!(chars.next(), Some('.' | ')')))
    };
    let Some(own) = letter(line) else { return true };
    let is_next = letter(first).is_some_and(|above| u32::from(above) + 1 == u32::from(own));
    is_next || own.eq_ignore_ascii_case(&'a') && before.ends_with(['.', ':', ';', '!', '?'])
}

/// How many bytes are the mark of an item: a bullet, or its number.
pub(super) fn list_mark(words: &str) -> Option<usize> {
    let first = words.chars().next()?;
    let bullet = match first {
        '∙' | '-' | '*' | '+' | '–' | '·' => Some(first.len_utf8()),
        bullet if is_bullet(bullet) => Some(bullet.len_utf8()),
        'o' if words.starts_with("o  ") || words.starts_with("o\t") => Some(1),
        _ => None,
    };
    if let Some(length) = bullet {
        return words[length..].starts_with([' ', '\t', '\u{a0}']).then_some(length);
    }
    let digits = words.bytes().take_while(u8::is_ascii_digit).count();
    let label = if digits == 0 && first.is_ascii_alphabetic() { 1 } else { digits };
    if label == 0 || label > 3 || !words[label..].starts_with(['.', ')']) {
        return None;
    }
    // "8) 2 1/2 in strips" is a count in half a bracket, and so is none of these: a step begins with a word.
    let after = words[label + 1..].strip_prefix([' ', '\t', '\u{a0}'])?;
    after.trim_start().chars().next().filter(|ch| ch.is_alphabetic() || "\"\u{201c}*_".contains(*ch))?;
    Some(label + 1)
}
