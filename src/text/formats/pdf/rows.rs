//! Letters as lines: what stands at one height, with the spaces between words, and raised and lowered digits.

use super::content::Glyph;
use super::fixed::percent;
use super::lines::{Dot, Upright};
use crate::text::formats::builder::Script;
use crate::text::formats::lines;

/// Letters that are smaller than this part of those beside them can be raised or lowered.
const SMALLER: i64 = 90;
/// A gap between letters that is wider than this part of their size is a space.
const WORD_GAP: i64 = 18;
/// One that is wider than this parts columns.
const COLUMN_GAP: i64 = 75;
/// A space that is wider than this part of their size may part columns.
const WIDE_SPACE: i64 = 42;
/// How far the text of an item stands from its mark, at most.
const MARK_GAP: i64 = 450;
/// How many letters a raised or lowered group has, at most.
const MAX_SCRIPT: usize = 5;

/// Letters of one line that stand together.
#[derive(Clone, Debug)]
pub(super) struct Segment {
    pub(super) x0: i64,
    pub(super) x1: i64,
    pub(super) base: i64,
    pub(super) size: i64,
    pub(super) is_bold: bool,
    pub(super) chars: Vec<(char, Script)>,
    pub(super) gaps: Vec<Gap>,
    /// The number of its page.
    pub(super) page: u32,
}

/// A space within a segment.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap {
    /// After how many characters it comes.
    at: usize,
    pub(super) from: i64,
    pub(super) to: i64,
    /// Whether it is wider than spaces are.
    is_wide: bool,
}

impl Segment {
    /// Its parts where spaces stand in gutters, all of them or those that are wider than is usual.
    pub(super) fn parted(self, gutters: &[(i64, i64)], all: bool) -> Vec<Segment> {
        let in_gutter = |gap: &&Gap| {
            let within = |(from, to): &(i64, i64)| {
                let shared = gap.to.min(*to) - gap.from.max(*from);
                shared >= 0 && shared >= (gap.to - gap.from).min(to - from) / 2
            };
            (all || gap.is_wide) && gutters.iter().any(within)
        };
        let cuts: Vec<Gap> = self.gaps.iter().filter(in_gutter).copied().collect();
        let mut parts = Vec::new();
        let mut rest = self;
        for Gap { at, from, to, .. } in cuts.into_iter().rev() {
            let chars = rest.chars.split_off(at + 1);
            rest.chars.truncate(at);
            parts.push(Segment { x0: to, chars, gaps: Vec::new(), ..rest });
            rest.x1 = from;
        }
        rest.gaps.clear();
        parts.push(rest);
        parts.reverse();
        parts
    }

    pub(super) fn text(&self) -> String {
        self.chars.iter().map(|(ch, _)| *ch).collect()
    }

    /// Adds another that stands to the right of it, so that it can be parted there again.
    pub(super) fn join_apart(&mut self, next: Segment) {
        self.gaps.push(Gap { at: self.chars.len(), from: self.x1, to: next.x0, is_wide: true });
        self.join(next);
    }

    /// Adds another that stands to the right of it, after a space.
    pub(super) fn join(&mut self, next: Segment) {
        self.chars.push((' ', Script::Normal));
        let before = self.chars.len();
        self.gaps.extend(next.gaps.into_iter().map(|gap| Gap { at: gap.at + before, ..gap }));
        self.chars.extend(next.chars);
        self.x1 = self.x1.max(next.x1);
        self.size = self.size.max(next.size);
        self.is_bold &= next.is_bold;
    }
}

/// Puts a bullet before each segment that a dot is drawn before.
pub(super) fn mark_dots(segments: &mut [Segment], dots: &[Dot], tries: &mut usize) {
    for dot in dots {
        let Some(left) = tries.checked_sub(segments.len()) else { return };
        *tries = left;
        let beside = segments.iter_mut().filter(|segment| {
            segment.x0 >= dot.x1
                && segment.x0 - dot.x1 <= percent(segment.size, 300)
                && segment.base <= dot.middle
                && dot.middle <= segment.base + percent(segment.size, 90)
        });
        if let Some(segment) = beside.min_by_key(|segment| segment.x0) {
            segment.chars.splice(0..0, [('•', Script::Normal), (' ', Script::Normal)]);
            segment.gaps.iter_mut().for_each(|gap| gap.at += 2);
            segment.x0 = dot.x0;
        }
    }
}

/// Letters at one height.
struct Band {
    base: i64,
    letters: Vec<Letter>,
}

#[derive(Clone, Debug)]
struct Letter {
    glyph: Glyph,
    script: Script,
    /// Where it comes in its line.
    order: i64,
}

impl Letter {
    fn is_blank(&self) -> bool {
        self.glyph.text.chars().all(char::is_whitespace)
    }
}

/// The segments of a page's letters whose lines are all turned alike, from the top down.
pub(super) fn segments(glyphs: Vec<Glyph>, walls: &[Upright], page: u32, tries: &mut usize) -> Vec<Segment> {
    let mut bands = bands(glyphs);
    attach_scripts(&mut bands, tries);
    let mut segments = Vec::new();
    for band in bands {
        segments.extend(split(band, walls, page));
    }
    segments
}

fn bands(mut glyphs: Vec<Glyph>) -> Vec<Band> {
    glyphs.sort_by_key(|glyph| (-glyph.base, glyph.x0));
    let mut bands: Vec<Band> = Vec::new();
    for glyph in glyphs {
        let letter = Letter { script: Script::Normal, order: glyph.x0, glyph };
        match bands.last_mut() {
            Some(band) if band.base - letter.glyph.base <= percent(letter.glyph.size, 10) => band.letters.push(letter),
            _ => bands.push(Band { base: letter.glyph.base, letters: vec![letter] }),
        }
    }
    bands
}

/// Moves small letters that stand beside larger ones of another height into their line. How often letters are set
/// beside each other for it is bounded by `tries`.
fn attach_scripts(bands: &mut Vec<Band>, tries: &mut usize) {
    for at in 0..bands.len() {
        let letters = std::mem::take(&mut bands[at].letters);
        let mut kept = Vec::new();
        for group in groups(letters) {
            match line_of(&group, at, bands, &kept, tries) {
                Some(line) => attach(group, &mut bands[line]),
                None => kept.extend(group),
            }
        }
        bands[at].letters.extend(kept);
    }
    bands.retain(|band| !band.letters.is_empty());
}

/// Letters that follow each other closely and are of one size.
fn groups(mut letters: Vec<Letter>) -> Vec<Vec<Letter>> {
    letters.sort_by_key(|letter| letter.order);
    let mut groups: Vec<Vec<Letter>> = Vec::new();
    for letter in letters {
        let joins = groups.last().and_then(|group| group.last()).is_some_and(|last| {
            let size = last.glyph.size.max(letter.glyph.size);
            let alike = last.glyph.size.min(letter.glyph.size) >= percent(size, 95);
            alike
                && letter.glyph.x0 - last.glyph.x1 <= percent(size, WORD_GAP)
                && !letter.is_blank()
                && !last.is_blank()
        });
        match groups.last_mut() {
            Some(group) if joins => group.push(letter),
            _ => groups.push(vec![letter]),
        }
    }
    groups
}

/// The band of a line whose letters are larger than this group and stand beside it, a little higher or lower.
fn line_of(group: &[Letter], own: usize, bands: &[Band], same: &[Letter], tries: &mut usize) -> Option<usize> {
    let first = group.first()?;
    let letters: usize = group.iter().map(|letter| letter.glyph.text.chars().count()).sum();
    if letters > MAX_SCRIPT || first.is_blank() {
        return None;
    }
    let (size, base) = (first.glyph.size, first.glyph.base);
    let (x0, x1) = (first.glyph.x0, group.last()?.glyph.x1);
    let beside = |letter: &Letter| {
        let large = letter.glyph.size;
        !letter.is_blank()
            && percent(large, SMALLER) > size
            && letter.glyph.x0 - x1 <= percent(large, 50)
            && x0 - letter.glyph.x1 <= percent(large, 50)
            && base - letter.glyph.base <= percent(large, 75)
            && letter.glyph.base - base <= percent(large, 60)
    };
    // Only lines of nearly this height are looked at.
    let reach = size * 2;
    let above = (0..own).rev().take_while(|at| bands[*at].base - base <= reach);
    let below = (own + 1..bands.len()).take_while(|at| base - bands[*at].base <= reach);
    let near: Vec<usize> = above.chain(below).collect();
    let work = same.len() + near.iter().map(|at| bands[*at].letters.len() + 1).sum::<usize>();
    *tries = tries.checked_sub(work)?;
    if same.iter().any(beside) {
        return None;
    }
    let lines = near.into_iter().filter(|at| bands[*at].letters.iter().any(beside));
    lines.min_by_key(|at| (bands[*at].base - base).abs())
}

fn attach(group: Vec<Letter>, line: &mut Band) {
    let size = line.letters.iter().map(|letter| letter.glyph.size).max().unwrap_or(0);
    for mut letter in group {
        let raised = letter.glyph.base - line.base;
        letter.script = if raised > percent(size, 12) {
            Script::Super
        } else if raised < percent(size, -4) {
            Script::Sub
        } else {
            Script::Normal
        };
        line.letters.push(letter);
    }
}

/// Parts the letters of a line where gaps are wide or walls stand.
fn split(band: Band, walls: &[Upright], page: u32) -> Vec<Segment> {
    let base = band.base;
    let walls: Vec<&Upright> = walls.iter().filter(|wall| wall.reaches(base)).collect();
    let mut letters = band.letters;
    letters.sort_by_key(|letter| letter.order);
    unstack(&mut letters);
    letters.sort_by_key(|letter| letter.order);
    let mut segments: Vec<Segment> = Vec::new();
    // How many blanks stand before a letter, and how wide they are.
    let mut blank = (0, 0);
    for letter in letters {
        if letter.is_blank() {
            blank = (blank.0 + 1, blank.1 + letter.glyph.x1 - letter.glyph.x0);
            continue;
        }
        let Glyph { x0, x1, size, is_bold, .. } = letter.glyph;
        let joins = segments.last().is_some_and(|last| {
            let large = last.size.max(size);
            x0 - last.x1 <= percent(large, COLUMN_GAP) && !walls.iter().any(|wall| wall.is_between(last.x1, x0))
        });
        match segments.last_mut() {
            Some(last) if joins => {
                let large = last.size.max(size);
                if blank.0 > 0 || x0 - last.x1 > percent(large, WORD_GAP) {
                    let usual =
                        if blank.0 == 1 { blank.1 + percent(large, WORD_GAP) } else { percent(large, WIDE_SPACE) };
                    let (from, at) = (last.x1, last.chars.len());
                    last.gaps.push(Gap { at, from, to: x0, is_wide: x0 - from > usual });
                    last.chars.push((' ', Script::Normal));
                }
                last.chars.extend(letter.glyph.text.chars().map(|ch| (ch, letter.script)));
                last.x1 = last.x1.max(x1);
                last.size = last.size.max(size);
                last.is_bold &= is_bold;
            }
            _ => {
                let chars = letter.glyph.text.chars().map(|ch| (ch, letter.script)).collect();
                segments.push(Segment { x0, x1, base, size, is_bold, chars, gaps: Vec::new(), page });
            }
        }
        blank = (0, 0);
    }
    join_marks(segments)
}

/// Orders lowered letters after raised ones that stand above them.
fn unstack(letters: &mut [Letter]) {
    let raised: Vec<(i64, i64)> = letters
        .iter()
        .filter(|letter| letter.script == Script::Super)
        .map(|letter| (letter.glyph.x0, letter.glyph.x1))
        .collect();
    if raised.is_empty() {
        return;
    }
    let mut moved = 0;
    for letter in letters.iter_mut().filter(|letter| letter.script == Script::Sub) {
        let middle = letter.glyph.x0.midpoint(letter.glyph.x1);
        let reach = letter.glyph.size / 2;
        let above = raised.iter().filter(|(x0, x1)| x0 - reach <= middle && middle <= x1 + reach);
        if let Some(end) = above.map(|(_, x1)| *x1).max() {
            moved += 1;
            letter.order = letter.order.max(end + moved);
        }
    }
}

/// Joins the marks of items to their text.
fn join_marks(segments: Vec<Segment>) -> Vec<Segment> {
    let mut joined: Vec<Segment> = Vec::new();
    for segment in segments {
        match joined.last_mut() {
            Some(mark) if is_mark(&mark.text()) && segment.x0 - mark.x1 <= percent(segment.size, MARK_GAP) => {
                mark.join(segment);
            }
            _ => joined.push(segment),
        }
    }
    joined
}

/// Whether a text is only the mark of an item; a bullet whose letter is not mapped is one too.
pub(super) fn is_mark(text: &str) -> bool {
    text == "\u{fffd}" || lines::is_mark(text)
}
