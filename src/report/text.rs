//! Text for people: each finding with the line it is on, drawn by miette, and a summary at the end.

use std::borrow::Cow;
use std::fmt;
use std::io::{self, Write};

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents, Severity,
    SourceCode, SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};

use textwrap::{WordSeparator, WordSplitter};

use super::glue::{glued, unglued};
use super::words::summary;
use super::{Report, tame, tame_line};
use crate::finding::{Finding, Label, Level};
use crate::manuscript::{Source, Span};
use crate::run::{Checked, Run};

/// How the text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Whether it is coloured.
    pub colour: bool,
    /// Whether only ASCII is drawn.
    pub ascii: bool,
    /// How many characters fit on a line.
    pub width: usize,
}

impl Default for Look {
    fn default() -> Look {
        Look { colour: false, ascii: false, width: 100 }
    }
}

/// The text format.
#[derive(Clone, Copy, Debug, Default)]
pub struct Text {
    /// How it looks.
    pub look: Look,
}

impl Report for Text {
    fn write(&self, run: &Run, out: &mut dyn Write) -> io::Result<()> {
        for file in &run.files {
            self.findings(file, file.outcome.findings.iter(), out)?;
            self.unaccounted(file, out)?;
        }
        writeln!(out, "{}", self.look.plain(&summary(run)))
    }
}

impl Text {
    /// A line for each stated number that nothing checks.
    fn unaccounted(&self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        let path = tame_line(&file.path.to_string_lossy());
        for line in &file.unaccounted {
            let place = file.source.place(line.at.start);
            let size = line.size.as_ref().map(|size| format!(" ({})", tame_line(size))).unwrap_or_default();
            let (number, why) = (tame_line(&line.number), tame_line(&line.working));
            let words = format!("not checked: {number}{size} at {path}:{}:{}\n  {why}\n", place.line, place.column);
            writeln!(out, "{}", self.look.plain(&words))?;
        }
        Ok(())
    }

    /// Writes some of the findings of a file.
    ///
    /// # Errors
    /// Where the output cannot be written.
    pub fn findings<'f>(
        &self,
        file: &Checked,
        findings: impl Iterator<Item = &'f Finding>,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        let handler = self.look.handler();
        let mut excerpt = None;
        for finding in findings {
            let excerpt = excerpt.get_or_insert_with(|| Excerpt::new(&file.source));
            let drawn = Drawn::new(finding, excerpt);
            let mut text = String::new();
            handler.render_report(&mut text, &drawn).map_err(io::Error::other)?;
            writeln!(out, "{}", self.look.plain(&unglued(text.trim_end())))?;
            writeln!(out)?;
        }
        Ok(())
    }
}

impl Look {
    fn handler(self) -> GraphicalReportHandler {
        let characters = if self.ascii { ThemeCharacters::ascii() } else { ThemeCharacters::unicode() };
        let styles = if self.colour { ThemeStyles::ansi() } else { ThemeStyles::none() };
        GraphicalReportHandler::new_themed(GraphicalTheme { characters, styles })
            .with_width(self.width.clamp(60, 120))
            .with_links(false)
            .with_context_lines(0)
            // Only at spaces, so that the path of a file can be copied whole.
            .with_word_separator(WordSeparator::AsciiSpace)
            .with_word_splitter(WordSplitter::NoHyphenation)
    }

    /// The text in ASCII where only that is wanted: fractions are ASCII anyway, names from a file may not be.
    pub fn plain(self, text: &str) -> String {
        if !self.ascii || text.is_ascii() {
            return text.to_string();
        }
        text.chars().map(|c| if c.is_ascii() { c } else { '?' }).collect()
    }
}

/// A finding as miette wants it.
#[derive(Debug)]
struct Drawn<'a> {
    finding: &'a Finding,
    message: String,
    help: String,
    excerpt: &'a Excerpt<'a>,
}

impl<'a> Drawn<'a> {
    fn new(finding: &'a Finding, excerpt: &'a Excerpt<'a>) -> Drawn<'a> {
        let mut help = tame(&finding.help).into_owned();
        for label in finding.related.iter().filter(|label| !excerpt.shows(finding.at.at, label.at)) {
            let place = excerpt.source.place(label.at.start);
            help.push_str(&format!("\nSee line {}, column {}: {}.", place.line, place.column, tame_line(&label.text)));
        }
        Drawn { finding, message: glued(&tame_line(&finding.message)), help: glued(&help), excerpt }
    }

    fn label(&self, label: &Label, primary: bool) -> LabeledSpan {
        let at = self.excerpt.drawable(label.at);
        let (text, span) = (Some(tame_line(&label.text)), SourceSpan::from(at.start..at.end));
        if primary { LabeledSpan::new_primary_with_span(text, span) } else { LabeledSpan::new_with_span(text, span) }
    }
}

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Drawn<'_> {}

impl Diagnostic for Drawn<'_> {
    fn code<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        let (level, rule) = (self.finding.level.word(), self.finding.rule);
        let about = self.finding.about_words().map(|about| format!(" ({})", tame_line(&about))).unwrap_or_default();
        let place = self.excerpt.source.place(self.finding.at.at.start);
        let file = tame_line(&self.excerpt.source.path.to_string_lossy());
        Some(Box::new(format!("{level}: {rule}{about} at {file}:{}:{}", place.line, place.column)))
    }

    fn severity(&self) -> Option<Severity> {
        Some(match self.finding.level {
            Level::Error => Severity::Error,
            Level::Query => Severity::Warning,
            Level::Note => Severity::Advice,
        })
    }

    fn help<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        if self.help.is_empty() { None } else { Some(Box::new(&self.help)) }
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self.excerpt)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let primary = self.finding.at.at;
        let related = self.finding.related.iter().filter(move |label| self.excerpt.shows(primary, label.at));
        let related = related.map(|label| self.label(label, false));
        Some(Box::new(std::iter::once(self.label(&self.finding.at, true)).chain(related)))
    }
}

/// A source text of which lines are shown. The tamed text has every character at the place of the original.
struct Excerpt<'a> {
    source: &'a Source,
    text: Cow<'a, str>,
}

impl fmt::Debug for Excerpt<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Excerpt").field("path", &self.source.path).finish_non_exhaustive()
    }
}

impl<'a> Excerpt<'a> {
    /// Of a longer line only the neighbourhood of the finding is shown.
    const LONG_LINE: usize = 400;
    const NEIGHBOURHOOD: usize = 80;

    fn new(source: &'a Source) -> Excerpt<'a> {
        Excerpt { source, text: tame(&source.text) }
    }

    /// The bounds of the lines that a place touches, and the number of the first, from 1.
    fn lines(&self, at: Span) -> (Span, usize) {
        let (first, last) = (self.source.place(at.start).line, self.source.place(at.end).line);
        (Span::new(self.source.line_start(first), self.source.line_start(last + 1)), first)
    }

    /// Whether a second place can be shown beside the first: not where either is on a very long line.
    fn shows(&self, primary: Span, at: Span) -> bool {
        [primary, at].iter().all(|at| self.lines(*at).0.len() <= Self::LONG_LINE)
    }

    /// A place that can be underlined: on its first line, and no more of it than is readable.
    fn drawable(&self, at: Span) -> Span {
        let line = self.lines(Span::new(at.start, at.start)).0;
        let words = Span::new(line.start, line.end).text(&self.text).trim_end_matches(['\n', '\r']);
        let line_end = line.start + words.len();
        let mut end = at.end.min(line_end.max(at.start)).min(at.start + Self::NEIGHBOURHOOD);
        while !self.text.is_char_boundary(end) {
            end -= 1;
        }
        Span::new(at.start, end.max(at.start))
    }

    /// The neighbourhood of a place on a very long line.
    fn neighbourhood(&self, at: Span, lines: Span) -> Span {
        let mut start = at.start.saturating_sub(Self::NEIGHBOURHOOD).max(lines.start);
        let mut end = (at.end + Self::NEIGHBOURHOOD).min(lines.end);
        while !self.text.is_char_boundary(start) {
            start -= 1;
        }
        while !self.text.is_char_boundary(end) {
            end -= 1;
        }
        Span::new(start, end.max(start))
    }
}

impl SourceCode for Excerpt<'_> {
    fn read_span<'b>(
        &'b self,
        span: &SourceSpan,
        _lines_before: usize,
        _lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'b> + 'b>, MietteError> {
        let at = Span::new(span.offset(), span.offset() + span.len());
        let (lines, first) = self.lines(at);
        let shown = if lines.len() > Self::LONG_LINE { self.neighbourhood(at, lines) } else { lines };
        let column = self.source.place(at.start).column - 1;
        // The file's name and the place stand in the head of the finding, once.
        Ok(Box::new(MietteSpanContents::new(
            shown.text(&self.text).as_bytes(),
            SourceSpan::from(shown.start..shown.end),
            first - 1,
            column,
            1,
        )))
    }
}
