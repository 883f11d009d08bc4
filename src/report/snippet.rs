//! The lines that a finding is drawn on, each cut to the width of the terminal round what is pointed at.

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use unicode_width::UnicodeWidthChar;

use super::sanitize;
use crate::manuscript::{Source, Span};

/// What stands where part of a line is left out.
const LEFT_OUT: &str = "...";

/// What a tab is taken to be wide.
const TAB: usize = 4;

/// What is drawn before a line, beside its number.
const MARGIN: usize = 4;

/// The least that is shown of a line.
const NARROWEST: usize = 20;

/// Some lines of a text, as they are drawn.
#[derive(Debug, Default)]
pub(super) struct Snippet {
    /// In the order of the text.
    lines: Vec<Line>,
    /// What is drawn, line after line.
    text: String,
}

/// One line, or the part of it that is drawn.
#[derive(Clone, Copy, Debug)]
struct Line {
    /// Its number, from 1.
    number: usize,
    /// The part that is drawn, in the source.
    shown: Span,
    /// The column at which that part starts, from 0.
    column: usize,
    /// Where that part stands in the snippet.
    at: usize,
    /// Where its line in the snippet starts and ends.
    drawn: Span,
}

impl Snippet {
    /// The lines on which these places start, in so many columns; the first place is never cut off.
    pub(super) fn new(source: &Source, places: &[Span], width: usize) -> Snippet {
        let mut starts: Vec<(usize, Span)> = Vec::new();
        for place in places {
            let number = source.place(place.start).line;
            if starts.iter().all(|(known, _)| *known != number) {
                starts.push((number, *place));
            }
        }
        starts.sort_unstable_by_key(|(number, _)| *number);
        let digits = starts.last().map_or(1, |(number, _)| number.to_string().len());
        let room = width.saturating_sub(digits + MARGIN).max(NARROWEST);
        let mut snippet = Snippet::default();
        for (number, place) in starts {
            snippet.add(source, number, place, room);
        }
        snippet
    }

    fn add(&mut self, source: &Source, number: usize, place: Span, room: usize) {
        let (start, next) = (source.line_start(number), source.line_start(number + 1));
        let words = Span::new(start, next).text(&source.text).trim_end_matches(['\n', '\r']);
        let shown = window(words, place.start.saturating_sub(start).min(words.len()), room);
        let begin = self.text.len();
        if shown.start > 0 {
            self.text.push_str(LEFT_OUT);
        }
        let at = self.text.len();
        // Every character is replaced by one that takes as many bytes.
        self.text.push_str(&sanitize(shown.text(words)));
        if shown.end < words.len() {
            self.text.push_str(LEFT_OUT);
        }
        let drawn = Span::new(begin, self.text.len());
        self.text.push('\n');
        let column = source.place(start + shown.start).column - 1;
        self.lines.push(Line { number, shown: Span::new(start + shown.start, start + shown.end), column, at, drawn });
    }

    /// Where a place of the source is in the snippet, as far as it is drawn; `None` where its start is not.
    pub(super) fn place(&self, at: Span) -> Option<Span> {
        let line = self.lines.iter().find(|line| line.shown.start <= at.start && at.start <= line.shown.end)?;
        let moved = |byte: usize| byte.min(line.shown.end) - line.shown.start + line.at;
        Some(Span::new(moved(at.start), moved(at.end)))
    }
}

/// The part of a line that is drawn: all of it where it fits, or what is round a place in it.
fn window(line: &str, place: usize, room: usize) -> Span {
    let whole = ahead(line, 0, room);
    if whole == line.len() {
        return Span::new(0, line.len());
    }
    let room = room.saturating_sub(2 * LEFT_OUT.len());
    // More is to be seen after the place than before it: the words below it need room too.
    let start = behind(line, place, room / 3);
    let end = ahead(line, start, room);
    if end == line.len() { Span::new(behind(line, end, room), end) } else { Span::new(start, end) }
}

/// How far so many columns reach.
fn ahead(line: &str, from: usize, columns: usize) -> usize {
    let mut left = columns;
    for (at, c) in line[from..].char_indices() {
        match left.checked_sub(columns_of(c)) {
            Some(rest) => left = rest,
            None => return from + at,
        }
    }
    line.len()
}

/// How far so many columns reach back.
fn behind(line: &str, from: usize, columns: usize) -> usize {
    let (mut left, mut start) = (columns, from);
    for (at, c) in line[..from].char_indices().rev() {
        match left.checked_sub(columns_of(c)) {
            Some(rest) => (left, start) = (rest, at),
            None => break,
        }
    }
    start
}

fn columns_of(c: char) -> usize {
    if c == '\t' { TAB } else { c.width().unwrap_or(1) }
}

impl SourceCode for Snippet {
    fn read_span<'b>(
        &'b self,
        span: &SourceSpan,
        _lines_before: usize,
        _lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'b> + 'b>, MietteError> {
        let holds = |line: &Line, byte: usize| line.drawn.start <= byte && byte <= line.drawn.end;
        let (start, end) = (span.offset(), span.offset() + span.len());
        let first = self.lines.iter().position(|line| holds(line, start)).ok_or(MietteError::OutOfBounds)?;
        let last = self.lines.iter().rposition(|line| holds(line, end)).unwrap_or(first).max(first);
        // With the line end, so that an empty line is a line too.
        let drawn = Span::new(self.lines[first].drawn.start, self.lines[last].drawn.end + 1);
        let before = Span::new(self.lines[first].at.min(start), start);
        let column = self.lines[first].column + before.text(&self.text).chars().count();
        // The file's name and the place stand in the head of the finding, once.
        Ok(Box::new(MietteSpanContents::new(
            drawn.text(&self.text).as_bytes(),
            SourceSpan::from(drawn.start..drawn.end),
            self.lines[first].number - 1,
            column,
            last - first + 1,
        )))
    }
}
