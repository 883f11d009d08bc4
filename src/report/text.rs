//! Text for people: each finding with the line it is on, drawn by miette, and a summary at the end.
//!
//! The place stands in the head of each finding and not in the frame: people and editors find `file:line:column` at one
//! spot, and each finding names its file once.

use std::collections::BTreeMap;
use std::fmt;
use std::io::{self, Write};

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, Severity, SourceCode, SourceSpan, ThemeCharacters,
    ThemeStyles,
};

use rayon::prelude::*;
use textwrap::{WordSeparator, WordSplitter};

use super::caution::Caution;
use super::snippet::Snippet;
use super::words::{summary, text_in_words};
use super::wrap::wrap;
use super::{Report, ReportInParts, Spool, sanitize, sanitize_line};
use crate::audit::Line;
use crate::caution::CRIB;
use crate::finding::{Cause, Finding, Label, Level};
use crate::manuscript::Source;
use crate::run::{Checked, Total};
use crate::text::{TextPlace, place_words};

/// How the text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RenderStyle {
    /// Whether it is coloured.
    pub colour: bool,
    /// Whether only ASCII is drawn.
    pub ascii: bool,
    /// How many characters fit on a line.
    pub width: usize,
}

impl Default for RenderStyle {
    fn default() -> RenderStyle {
        RenderStyle { colour: false, ascii: false, width: 100 }
    }
}

/// The order in which findings are listed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// Notes first and errors last, where the eye is when the list has run by.
    #[default]
    Level,
    /// As they stand in the manuscript.
    Place,
}

/// The text format.
#[derive(Clone, Copy, Debug, Default)]
pub struct Text {
    /// How it looks.
    pub look: RenderStyle,
    /// Whether findings that follow from another are listed too, and not only counted.
    pub all: bool,
    /// In which order.
    pub order: Order,
}

/// How many findings are drawn before they are written: what is drawn of these is in memory at once.
const DRAWN_AT_ONCE: usize = 256;

/// How many findings are worth sharing among the processor's cores: starting the threads takes as long as drawing many.
const WORTH_SHARING: usize = 200;

/// The columns that the library draws before each line of a message: `  x `.
const BEFORE_MESSAGE: usize = 4;

/// The columns before each line of a help: `  help: `.
const BEFORE_HELP: usize = 8;

/// The columns that are left free at the end of a line.
const AFTER: usize = 2;

/// How many findings of a file are shown with their lines and their working: whoever has more corrects some of them
/// first, the gravest before the others.
const SHOWN_WHOLE: usize = 100;

/// A finding that is listed, how many follow from it that are not, and whether only its message is shown.
#[derive(Clone, Copy)]
struct Listed<'f> {
    file: &'f Checked,
    finding: &'f Finding,
    following: usize,
    is_short: bool,
}

impl Report for Text {
    fn begin(&self) -> Box<dyn ReportInParts> {
        Box::new(TextInParts { text: *self, ..TextInParts::default() })
    }
}

/// The text that is being written. What is to be corrected comes last, nearest to the prompt, so all of it is written at
/// the end.
#[derive(Default)]
struct TextInParts {
    text: Text,
    cautions: Spool,
    has_cautions: bool,
    /// The findings of each level; all in the first where they are listed by place.
    findings: [Spool; 3],
    unaccounted: Spool,
    /// A line for each file of which not all is shown.
    left_out: Vec<String>,
    /// A line for each printed text.
    texts: Vec<String>,
}

impl ReportInParts for TextInParts {
    fn file(&mut self, file: &Checked, _: &mut dyn Write) -> io::Result<()> {
        let text = self.text;
        self.texts.extend(text_in_words(file));
        if let Some(caution) = Caution::of(file) {
            self.has_cautions = true;
            text.caution(&caution, &mut self.cautions)?;
        }
        let mut parts = [Vec::new(), Vec::new(), Vec::new()];
        let listed = text.listed(file, file.outcome.findings.iter());
        self.left_out.extend(left_out_words(&listed));
        for listed in listed {
            let part = match text.order {
                Order::Level => listed.finding.level as usize,
                Order::Place => 0,
            };
            parts[part].push(listed);
        }
        for (part, spool) in parts.into_iter().zip(&mut self.findings) {
            text.list(part, spool)?;
        }
        text.unaccounted(file, &mut self.unaccounted)
    }

    fn finish(&mut self, total: &Total<'_>, out: &mut dyn Write) -> io::Result<()> {
        let look = self.text.look;
        self.cautions.copy_to(out)?;
        if self.has_cautions {
            let caution = textwrap::indent(&textwrap::fill(CRIB, look.width.clamp(60, 120) - 2), "  ");
            writeln!(out, "{}\n", look.plain(&caution))?;
        }
        self.findings.iter_mut().try_for_each(|findings| findings.copy_to(out))?;
        self.left_out.iter().try_for_each(|words| look.line(words, out))?;
        self.unaccounted.copy_to(out)?;
        self.texts.iter().try_for_each(|text| writeln!(out, "{}", look.plain(text)))?;
        writeln!(out, "{}", look.plain(&summary(total)))
    }
}

impl Text {
    /// Text that leaves nothing out.
    pub fn of_all(look: RenderStyle) -> Text {
        Text { look, all: true, ..Text::default() }
    }

    /// A line for each stated number that nothing checks.
    fn unaccounted(&self, file: &Checked, out: &mut dyn Write) -> io::Result<()> {
        let path = sanitize_line(&file.path.to_string_lossy());
        let follows = |line: &&Line| line.may_follow_from_unread();
        let following = file.unaccounted.iter().filter(follows).count();
        let unread: Vec<&Finding> = file.unread().collect();
        let folds = !self.all && following > 1 && !unread.is_empty();
        for line in file.unaccounted.iter().filter(|line| !(folds && follows(line))) {
            let place = file.source.place(line.at.start);
            let size = line.size.as_ref().map(|size| format!(" ({})", sanitize_line(size))).unwrap_or_default();
            let (number, why) = (sanitize_line(&line.number), sanitize_line(&line.working));
            let words = format!("not checked: {number}{size} at {path}:{}:{}\n  {why}\n", place.line, place.column);
            writeln!(out, "{}", self.look.plain(&words))?;
        }
        if folds {
            let place = file.source.place(unread[0].at.at.start);
            let more = if unread.len() > 1 { " and below it" } else { "" };
            let words = format!(
                "not checked: {following} numbers that depend on what cannot be read at {path}:{}:{}{more}; --all shows them\n",
                place.line, place.column
            );
            writeln!(out, "{}", self.look.plain(&words))?;
        }
        Ok(())
    }

    /// Which quilts of a manuscript are for a crib; the caution itself stands once, below all of them.
    fn caution(&self, caution: &Caution<'_>, out: &mut dyn Write) -> io::Result<()> {
        let (head, path) = (sanitize_line(&caution.head()), sanitize_line(&caution.file));
        let words = format!("caution: {head} at {path}:{}:{}", caution.line, caution.column);
        writeln!(out, "{}", self.look.plain(&words))
    }

    /// Writes some of the findings of a file.
    ///
    /// # Errors
    /// Where the output cannot be written.
    pub fn findings<'f>(
        &self,
        file: &'f Checked,
        findings: impl Iterator<Item = &'f Finding>,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        self.list_files([self.listed(file, findings)], out)
    }

    /// Writes the findings of several files, in the order of the report as a whole.
    ///
    /// # Errors
    /// Where the output cannot be written.
    pub fn findings_of(&self, files: &[&Checked], out: &mut dyn Write) -> io::Result<()> {
        self.list_files(files.iter().map(|file| self.listed(file, file.outcome.findings.iter())), out)
    }

    /// Writes what is listed of files, and what is left out of each.
    fn list_files<'f>(&self, files: impl IntoIterator<Item = Vec<Listed<'f>>>, out: &mut dyn Write) -> io::Result<()> {
        let files: Vec<Vec<Listed<'f>>> = files.into_iter().collect();
        let left_out: Vec<String> = files.iter().filter_map(|listed| left_out_words(listed)).collect();
        self.list(files.into_iter().flatten().collect(), out)?;
        left_out.iter().try_for_each(|words| self.look.line(words, out))
    }

    /// The findings of a file that are listed. Where there are many, those of most weight are shown whole, unless all are
    /// asked for.
    fn listed<'f>(&self, file: &'f Checked, findings: impl Iterator<Item = &'f Finding>) -> Vec<Listed<'f>> {
        let mut listed = self.fold(file, findings);
        if !self.all && listed.len() > SHOWN_WHOLE {
            let mut by_level: Vec<usize> = (0..listed.len()).collect();
            by_level.sort_by_key(|at| std::cmp::Reverse(listed[*at].finding.level));
            by_level[SHOWN_WHOLE..].iter().for_each(|at| listed[*at].is_short = true);
        }
        listed
    }

    /// The findings that are listed: without those that follow from another of them, unless all are asked for.
    fn fold<'f>(&self, file: &'f Checked, findings: impl Iterator<Item = &'f Finding>) -> Vec<Listed<'f>> {
        let listed = findings.map(|finding| Listed { file, finding, following: 0, is_short: false });
        let mut listed: Vec<Listed<'f>> = listed.collect();
        if self.all || listed.iter().all(|listed| listed.finding.cause.is_none()) {
            return listed;
        }
        let mut following: BTreeMap<Cause, usize> =
            listed.iter().map(|listed| (Cause::of(listed.finding), 0)).collect();
        listed.retain(|listed| {
            let count = listed.finding.cause.as_ref().and_then(|cause| following.get_mut(&**cause));
            count.map(|count| *count += 1).is_none()
        });
        for listed in &mut listed {
            listed.following = following.get(&Cause::of(listed.finding)).copied().unwrap_or_default();
        }
        listed
    }

    fn list(&self, mut listed: Vec<Listed<'_>>, out: &mut dyn Write) -> io::Result<()> {
        if self.order == Order::Level {
            listed.sort_by_key(|listed| listed.finding.level);
        }
        let handler = self.look.handler();
        let draw = |listed: &Listed<'_>| -> Result<String, fmt::Error> {
            let drawn = Drawn::new(*listed, self.look);
            let mut text = String::new();
            handler.render_report(&mut text, &drawn)?;
            text.truncate(text.trim_end().len());
            text.push_str("\n\n");
            Ok(self.look.in_ascii(text))
        };
        for some in listed.chunks(DRAWN_AT_ONCE) {
            let whole = some.iter().filter(|listed| !listed.is_short).count();
            let drawn: Result<Vec<String>, fmt::Error> = if whole < WORTH_SHARING {
                some.iter().map(draw).collect()
            } else {
                some.par_iter().map(draw).collect()
            };
            for text in drawn.map_err(io::Error::other)? {
                out.write_all(text.as_bytes())?;
            }
        }
        Ok(())
    }
}

/// `oxbow.pattern.yaml: 672 findings; the lines and working of 572 are left out, --all shows them.`
fn left_out_words(listed: &[Listed<'_>]) -> Option<String> {
    let file = listed.first()?.file;
    let short = listed.iter().filter(|listed| listed.is_short).count();
    let path = sanitize_line(&file.path.to_string_lossy());
    let all = listed.len();
    (short > 0)
        .then(|| format!("{path}: {all} findings; the lines and working of {short} are left out, --all shows them."))
}

/// `And 8 numbers that depend on it; --all shows them.`
fn following_words(following: usize) -> String {
    match following {
        0 => String::new(),
        1 => "\nAnd 1 number that depends on it; --all shows it.".to_string(),
        many => format!("\nAnd {many} numbers that depend on it; --all shows them."),
    }
}

impl RenderStyle {
    /// A line that goes on below, set in, where it is wider than the terminal.
    pub fn wrapped(line: &str, width: usize) -> String {
        let below = textwrap::Options::new(width)
            .subsequent_indent("  ")
            .word_separator(WordSeparator::AsciiSpace)
            .word_splitter(WordSplitter::NoHyphenation)
            .break_words(false);
        textwrap::fill(line, below)
    }

    fn handler(self) -> GraphicalReportHandler {
        let characters = if self.ascii { ThemeCharacters::ascii() } else { ThemeCharacters::unicode() };
        let styles = if self.colour { ThemeStyles::ansi() } else { ThemeStyles::none() };
        GraphicalReportHandler::new_themed(GraphicalTheme { characters, styles })
            .with_links(false)
            .with_context_lines(0)
            // The lines come as wide as they are to be: no quantity is broken, and the library takes ten times as long.
            .with_wrap_lines(false)
    }

    /// A text in lines, beside so many columns that something else is drawn in.
    fn lines(self, text: &str, before: usize) -> String {
        wrap(text, self.width.clamp(60, 120) - before - AFTER)
    }

    /// Writes a line that stands by itself, with an empty one after it.
    fn line(self, words: &str, out: &mut dyn Write) -> io::Result<()> {
        writeln!(out, "{}\n", self.plain(&RenderStyle::wrapped(words, self.width.clamp(60, 120))))
    }

    /// The text in ASCII where only that is wanted: fractions are ASCII anyway, names from a file may not be.
    pub fn plain(self, text: &str) -> String {
        self.in_ascii(text.to_string())
    }

    fn in_ascii(self, text: String) -> String {
        if !self.ascii || text.is_ascii() {
            return text;
        }
        text.chars().map(|c| if c.is_ascii() { c } else { '?' }).collect()
    }
}

/// A finding as miette wants it.
#[derive(Debug)]
struct Drawn<'a> {
    finding: &'a Finding,
    /// Which rule found it, and where: the library asks for it several times.
    head: String,
    message: String,
    help: String,
    snippet: Snippet,
}

impl<'a> Drawn<'a> {
    fn new(listed: Listed<'a>, look: RenderStyle) -> Drawn<'a> {
        let Listed { file, finding, following, is_short } = listed;
        let source = &file.source;
        let head = head(finding, source, file.page_of(finding.at.at));
        let message = look.lines(&sanitize_line(&finding.message), BEFORE_MESSAGE);
        if is_short {
            let (help, snippet) = (following_words(following), Snippet::default());
            return Drawn { finding, head, message, help: help.trim_start().to_string(), snippet };
        }
        let places: Vec<_> = std::iter::once(&finding.at).chain(&finding.related).map(|label| label.at).collect();
        let snippet = Snippet::new(source, &places, look.width);
        let mut help = sanitize(&finding.help).into_owned();
        for label in finding.related.iter().filter(|label| snippet.place(label.at).is_none()) {
            let place = source.place(label.at.start);
            help.push_str(&format!(
                "\nSee line {}, column {}: {}.",
                place.line,
                place.column,
                sanitize_line(&label.text)
            ));
        }
        help.push_str(&following_words(following));
        Drawn { finding, head, message, help: look.lines(help.trim_start_matches('\n'), BEFORE_HELP), snippet }
    }

    fn label(&self, label: &Label, primary: bool) -> Option<LabeledSpan> {
        let at = self.snippet.place(label.at)?;
        let (text, span) = (Some(sanitize_line(&label.text)), SourceSpan::from(at.start..at.end));
        let labelled = if primary { LabeledSpan::new_primary_with_span } else { LabeledSpan::new_with_span };
        Some(labelled(text, span))
    }
}

/// `error: binding-short (twin) at tide-pools.pattern.yaml:20:5`; in a text whose file is no text, at its page or paragraph.
fn head(finding: &Finding, source: &Source, page: Option<TextPlace>) -> String {
    let (level, rule) = (finding.level.word(), finding.rule);
    let about = finding.about_words().map(|about| format!(" ({})", sanitize_line(&about))).unwrap_or_default();
    let place = source.place(finding.at.at.start);
    let file = sanitize_line(&source.path.to_string_lossy());
    let place = place_words(&file, page, || format!("{}:{}", place.line, place.column));
    format!("{level}: {rule}{about} at {place}")
}

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Drawn<'_> {}

impl Diagnostic for Drawn<'_> {
    fn code<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        Some(Box::new(&self.head))
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
        Some(&self.snippet)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let related = self.finding.related.iter().filter_map(|label| self.label(label, false));
        Some(Box::new(self.label(&self.finding.at, true).into_iter().chain(related)))
    }
}
