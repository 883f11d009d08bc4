//! What is printed after a save.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::compare::Comparison;
use super::snapshot::spared;
use crate::check::Tally;
use crate::finding::Finding;
use crate::quantity::Count;
use crate::report::{Lines, RenderStyle, Text, sanitize_line, total_in_words};
use crate::run::Checked;
use crate::text::page_words;

/// How many findings that are still there are told in a line each.
const MOST_STILL: usize = 10;

/// What became of a file.
#[derive(Debug)]
pub(super) struct Change {
    /// The file.
    pub(super) path: PathBuf,
    /// What happened to it.
    pub(super) how: How,
    /// What that changed.
    pub(super) comparison: Comparison,
    /// For a printed text: whose.
    pub(super) text: Option<TextChange>,
}

/// Of which manuscript a printed text was checked.
#[derive(Debug)]
pub(super) struct TextChange {
    /// The manuscript.
    pub(super) manuscript: PathBuf,
    /// Whether others name it too.
    pub(super) several: bool,
}

impl Change {
    /// What became of a manuscript or of house rules.
    pub(super) fn of(path: &Path, how: How, comparison: Comparison) -> Change {
        Change { path: path.to_path_buf(), how, comparison, text: None }
    }
}

/// What happened to a file.
#[derive(Debug)]
pub(super) enum How {
    /// It was not there before.
    Came,
    /// It has another text.
    Saved,
    /// House rules were saved, with so many manuscripts under them.
    Ruled(usize),
    /// Its text is as it was, and what it is checked by is not.
    CheckedAnew {
        /// Whether that may be the sign-offs.
        signed: bool,
    },
    /// Its text is as it was, and a printed text that it names is not.
    ByText,
    /// A printed text is as it was, and its manuscript is not.
    ByManuscript,
    /// No manuscript names the printed text any more.
    NotNamed,
    /// It is not there any more.
    Went,
    /// It cannot be read.
    Unreadable(String),
}

/// How many there are of everything.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Total {
    /// The manuscripts that were read.
    pub(super) manuscripts: usize,
    /// Files and folders that cannot be read.
    pub(super) unreadable: usize,
    /// The findings.
    pub(super) tally: Tally,
    /// How many of them follow from another.
    pub(super) following: usize,
}

/// Prints lines.
pub(super) struct Printer<'o> {
    text: Text,
    out: &'o mut dyn Write,
    /// How many lines a report may have, and what of it was printed so far.
    most: Option<usize>,
    held: Vec<u8>,
}

impl<'o> Printer<'o> {
    /// Prints to an output, of each report at most so many lines.
    pub(super) fn new(text: Text, most: Option<usize>, out: &'o mut dyn Write) -> Printer<'o> {
        Printer { text, out, most, held: Vec::new() }
    }

    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        if self.most.is_some() {
            self.held.extend_from_slice(bytes);
            return Ok(());
        }
        self.out.write_all(bytes)
    }

    /// Prints a line, and anything from a file in it made harmless. One that is too wide goes on below, set in.
    pub(super) fn line(&mut self, line: &str) -> io::Result<()> {
        let look = self.text.look;
        self.write(format!("{}\n", RenderStyle::wrapped(&look.plain(&sanitize_line(line)), look.width)).as_bytes())
    }

    /// Ends what belongs together, so that it is seen at once.
    pub(super) fn end(&mut self) -> io::Result<()> {
        self.write(b"\n")?;
        self.flush()
    }

    /// Prints all the findings of files, what is gravest last.
    pub(super) fn findings(&mut self, files: &[&Checked]) -> io::Result<()> {
        let text = self.text;
        let drawn = spared(|| {
            let mut drawn = Vec::new();
            text.findings_of(files, &mut drawn).map(|()| drawn)
        });
        match drawn {
            Ok(drawn) => self.write(&drawn?),
            // One of them is at fault: the others are told.
            Err(_) => files.iter().try_for_each(|file| self.draw(file, file.outcome.findings.iter())),
        }
    }

    /// Prints everything that was found in a file, a line each.
    pub(super) fn lines(&mut self, file: &Checked) -> io::Result<()> {
        match spared(|| {
            let mut lines = Vec::new();
            Lines::of_file(file, &mut lines).map(|()| lines)
        }) {
            Ok(lines) => self.write(&lines?),
            Err(why) => self.line(&format!("{}: {why}", name(&file.path))),
        }
    }

    /// Has what was printed seen at once.
    pub(super) fn flush(&mut self) -> io::Result<()> {
        let held = std::mem::take(&mut self.held);
        match self.most {
            Some(most) => self.out.write_all(last_lines(&String::from_utf8_lossy(&held), most).as_bytes())?,
            None => self.out.write_all(&held)?,
        }
        self.out.flush()
    }

    fn draw<'f>(&mut self, file: &'f Checked, findings: impl Iterator<Item = &'f Finding>) -> io::Result<()> {
        let text = self.text;
        let drawn = spared(|| {
            let mut drawn = Vec::new();
            text.findings(file, findings, &mut drawn).map(|()| drawn)
        });
        match drawn {
            Ok(drawn) => self.write(&drawn?),
            Err(why) => self.line(&format!("{}: {why}", name(&file.path))),
        }
    }

    /// Prints the total.
    pub(super) fn total(&mut self, total: Total) -> io::Result<()> {
        let mut line = total_in_words(total.manuscripts, total.tally, total.following);
        if total.unreadable > 0 {
            line.push_str(&format!("; {} cannot be read", total.unreadable));
        }
        self.line(&line)
    }

    /// Prints what became of a file: what is new in full, the rest in a line each, its name last, where the eye is.
    pub(super) fn change(&mut self, change: &Change, file: Option<&Checked>) -> io::Result<()> {
        let comparison = &change.comparison;
        if let Some(file) = file {
            let fresh = comparison.fresh.iter().filter_map(|index| file.outcome.findings.get(*index));
            self.draw(file, fresh)?;
        }
        if !matches!(change.how, How::Went | How::NotNamed | How::Unreadable(_)) {
            for finding in &comparison.mended {
                self.line(&format!("fixed: {}", subject(finding)))?;
            }
        }
        let mut told: Vec<_> = comparison.still.iter().collect();
        // Of many some are told, those that say something new first: what is new must not run out of sight.
        if told.len() > MOST_STILL {
            told.sort_by_key(|still| !(still.relevelled || still.reworded));
        }
        for still in told.iter().take(MOST_STILL) {
            let Some((file, finding)) = file.and_then(|file| Some((file, file.outcome.findings.get(still.index)?)))
            else {
                continue;
            };
            let line = || format!("line {}", file.source.place(finding.at.at.start).line);
            let place = file.page_of(finding.at.at).and_then(page_words).unwrap_or_else(line);
            let level = if still.relevelled { format!(", now {}", level(finding)) } else { String::new() };
            let message = if still.reworded { format!(": {}", finding.message) } else { String::new() };
            self.line(&format!("still there{level}: {}, {place}{message}", subject(finding)))?;
        }
        if told.len() > MOST_STILL {
            self.line(&format!("still there: {} more", told.len() - MOST_STILL))?;
        }
        let share = file.and_then(|file| file.text.as_ref()).map(|text| text.share.words());
        self.line(&headline(change, share.as_deref()))
    }
}

/// The end of a report, in so many lines at most: it begins with a line that says how many were left out, then with a
/// whole finding where that has room.
fn last_lines(report: &str, most: usize) -> String {
    let lines: Vec<&str> = report.split_inclusive('\n').collect();
    if lines.len() <= most {
        return report.to_string();
    }
    // The line that says so is one of them.
    let first = lines.len() - most.saturating_sub(1);
    let begins =
        |line: usize| lines[line - 1].trim().is_empty() && lines[line].starts_with(|c: char| !c.is_whitespace());
    let first = (first..lines.len()).find(|line| begins(*line)).unwrap_or(first);
    format!("({first} lines left out)\n{}", lines[first..].concat())
}

/// What became of a file in a line; of a printed text, how many of its numbers were matched.
fn headline(change: &Change, share: Option<&str>) -> String {
    let mut name = name(&change.path);
    if let Some(text) = change.text.as_ref().filter(|text| text.several) {
        name.push_str(&format!(", for {}", self::name(&text.manuscript)));
    }
    let line = happened(change, &name);
    match share {
        Some(share) => format!("{line}; {share}"),
        None => line,
    }
}

fn happened(change: &Change, name: &str) -> String {
    match &change.how {
        How::Came => format!("{name}, new here: {}", counts(change)),
        How::Saved => format!("{name}: {}", counts(change)),
        How::Ruled(governed) => {
            let counts = if is_empty(&change.comparison) { String::new() } else { format!("{}; ", counts(change)) };
            format!("{name}: {counts}{} checked again", Count(*governed as u64).of("manuscript"))
        }
        How::CheckedAnew { signed: false } => format!("{name}, by the house rules: {}", counts(change)),
        How::CheckedAnew { signed: true } => format!("{name}, by the house rules and sign-offs: {}", counts(change)),
        How::ByText => format!("{name}, by its text: {}", counts(change)),
        How::ByManuscript => format!("{name}, by its manuscript: {}", counts(change)),
        How::NotNamed => format!("{name} is not checked any more"),
        How::Went => format!("{name} is gone"),
        How::Unreadable(why) => format!("{name} cannot be read: {why}"),
    }
}

fn is_empty(comparison: &Comparison) -> bool {
    comparison.fresh.is_empty() && comparison.mended.is_empty() && comparison.still.is_empty()
}

/// `1 new, 2 mended, 1 still there`.
fn counts(change: &Change) -> String {
    let Comparison { fresh, still, mended } = &change.comparison;
    let found = if matches!(change.how, How::Came) { "found" } else { "new" };
    let parts = [(fresh.len(), found), (mended.len(), "fixed"), (still.len(), "still there")];
    let mut parts: Vec<String> =
        parts.iter().filter(|(number, _)| *number > 0).map(|(number, word)| format!("{number} {word}")).collect();
    if fresh.is_empty() && still.is_empty() {
        parts.push(if mended.is_empty() { "no problems" } else { "no problems left" }.to_string());
    }
    parts.join(", ")
}

/// `spare-strip (crib)`.
fn subject(finding: &Finding) -> String {
    match finding.about_words() {
        Some(about) => format!("{} ({about})", finding.rule),
        None => finding.rule.to_string(),
    }
}

fn level(finding: &Finding) -> String {
    let word = finding.level.word();
    format!("{} {word}", if word.starts_with('e') { "an" } else { "a" })
}

/// A path in words.
pub(super) fn name(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}
