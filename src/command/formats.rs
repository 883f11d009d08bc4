//! The formats of a report, and the files that reports are written to.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use same_file::is_same_file;
use sparestrip::check::Corrections;
use sparestrip::discover::folder_of;
use sparestrip::report::{
    Checkstyle, Github, Gitlab, Json, Junit, Lines, RenderStyle, Report, ReportInParts, Sarif, Spool, Text,
};
use sparestrip::run::{Asked, AuditScope, Checked, Total};
use sparestrip::sign_off::CheckOptions;

use super::CheckArgs;
use super::manuscript::is_dash;
use super::output::{print_error, show, write_report};

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people
    Text,
    /// For programs
    Json,
    /// For systems that show findings beside the text
    Sarif,
    /// For systems that show the results of tests
    Junit,
    /// One line for each finding, for editors and problem matchers
    Lines,
    /// For GitHub's workflows: commands that show findings beside a change
    Github,
    /// For GitLab's pipelines: a report on code quality
    Gitlab,
    /// For systems and editors that read the XML of Checkstyle
    Checkstyle,
}

impl Format {
    /// Whether it is made of commands for a workflow.
    pub(super) fn is_of_commands(self) -> bool {
        self == Format::Github
    }

    /// The names of all, in words.
    fn names() -> String {
        let names = Format::value_variants().iter().filter_map(Format::to_possible_value);
        let names: Vec<String> = names.map(|name| name.get_name().to_string()).collect();
        let (last, others) = names.split_last().map_or(("", &[][..]), |(last, others)| (last.as_str(), others));
        format!("{} and {last}", others.join(", "))
    }
}

/// A report that is to be written to a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct ReportTo {
    format: Format,
    path: PathBuf,
}

impl ReportTo {
    /// What it is written as.
    pub(super) fn format(&self) -> Format {
        self.format
    }

    /// Whether it goes to standard output.
    pub(super) fn is_printed(&self) -> bool {
        is_dash(&self.path)
    }
}

/// Reads `junit=report.xml`.
pub(super) fn report_to(words: &str) -> Result<ReportTo, String> {
    let formats = Format::names();
    let Some((format, path)) = words.split_once('=') else {
        return Err(format!("it takes a format and a file, such as junit=report.xml; the formats are {formats}"));
    };
    let Ok(format) = Format::from_str(format, false) else {
        return Err(format!("there is no such format; the formats are {formats}"));
    };
    if path.is_empty() {
        return Err("after the equals sign stands the file to write, such as junit=report.xml".to_string());
    }
    Ok(ReportTo { format, path: PathBuf::from(path) })
}

/// Why the reports that are asked for cannot all be written, where that is plain before anything is checked.
pub(super) fn refused(args: &CheckArgs) -> Option<String> {
    let (reports, manuscripts) = (&args.report, &args.paths);
    let printed = reports.iter().filter(|report| report.is_printed()).count();
    if printed > 1 || (printed == 1 && args.format != Format::Text) {
        return Some("standard output is named for two reports: it takes one".to_string());
    }
    for (index, report) in reports.iter().enumerate().filter(|(_, report)| !report.is_printed()) {
        let twice = reports[..index].iter().any(|other| real(&other.path) == real(&report.path));
        if twice {
            return Some(format!("{} is named for two reports: each takes a file of its own", show(&report.path)));
        }
        let read = manuscripts.iter().any(|path| path.is_file() && is_same_file(path, &report.path).unwrap_or(false));
        if read {
            return Some(format!("{} is to be checked: no report is written over it", show(&report.path)));
        }
    }
    None
}

/// The file that a path leads to, also where it is not there yet.
fn real(path: &Path) -> PathBuf {
    let whole = |path: &Path| fs::canonicalize(path).ok();
    let in_folder = || Some(whole(folder_of(path))?.join(path.file_name()?));
    whole(path).or_else(in_folder).unwrap_or_else(|| path.to_path_buf())
}

/// What the reports of a check are made with.
#[derive(Clone, Copy, Debug)]
pub(super) struct Formats {
    /// The text for standard output.
    pub(super) text: Text,
    junit: Junit,
    asked: Asked,
}

impl Formats {
    pub(super) fn new(args: &CheckArgs) -> Formats {
        let formats = || args.report.iter().map(|to| to.format).chain([args.format]);
        let each_number = formats().any(|format| format == Format::Junit);
        let shown = formats().any(|format| matches!(format, Format::Json | Format::Sarif));
        let corrections = if shown { Corrections::Tried } else { Corrections::LeftOut };
        let accounting = match (each_number, args.account) {
            (true, unchecked) => AuditScope::Each { unchecked },
            (false, true) => AuditScope::On,
            (false, false) => AuditScope::Off,
        };
        let junit = Junit { strict: args.strict, account: args.account };
        let options = CheckOptions { account: args.account, strict: args.strict };
        let signed = args.signed || args.signed_as.is_some();
        let asked = Asked { accounting, signed, signed_as: args.signed_as, options, corrections };
        Formats { text: args.list.text(args.look.look()), junit, asked }
    }

    /// What the check must keep for them.
    pub(super) fn asked(self) -> Asked {
        self.asked
    }

    /// A report in a format.
    pub(super) fn report(self, format: Format) -> Box<dyn Report> {
        match format {
            Format::Text => Box::new(self.text),
            Format::Json => Box::new(Json),
            Format::Sarif => Box::new(Sarif),
            Format::Junit => Box::new(self.junit),
            Format::Lines => Box::new(Lines),
            Format::Github => Box::new(Github),
            Format::Gitlab => Box::new(Gitlab),
            Format::Checkstyle => Box::new(Checkstyle),
        }
    }

    /// The report for standard output; in place of the text it has no terminal's width.
    pub(super) fn printed(self, format: Format, in_place: bool) -> Box<dyn ReportInParts> {
        if in_place { self.in_files().report(format).begin() } else { self.report(format).begin() }
    }

    /// A file has no colours, and no terminal's width.
    fn in_files(self) -> Formats {
        let look = RenderStyle { ascii: self.text.look.ascii, ..RenderStyle::default() };
        Formats { text: Text { look, ..self.text }, ..self }
    }

    /// The reports that are written to files.
    pub(super) fn files(self, reports: &[ReportTo]) -> Vec<ReportFile> {
        let files = reports.iter().filter(|report| !report.is_printed());
        files
            .map(|to| ReportFile {
                to: to.clone(),
                report: self.in_files().report(to.format).begin(),
                so_far: Ok(Spool::default()),
            })
            .collect()
    }
}

/// A report that is being made for a file.
pub(super) struct ReportFile {
    to: ReportTo,
    report: Box<dyn ReportInParts>,
    /// What is to be written, or why nothing can be.
    so_far: io::Result<Spool>,
}

impl ReportFile {
    /// Takes the next file that was checked.
    pub(super) fn file(&mut self, file: &Checked) {
        self.add(|report, out| report.file(file, out));
    }

    fn add(&mut self, add: impl FnOnce(&mut dyn ReportInParts, &mut dyn Write) -> io::Result<()>) {
        let Ok(spool) = &mut self.so_far else { return };
        if let Err(error) = add(&mut *self.report, spool) {
            self.so_far = Err(error);
        }
    }

    /// Writes the report to its file, and says so. Whether it was written.
    pub(super) fn write(mut self, total: &Total<'_>) -> bool {
        self.add(|report, out| report.finish(total, out));
        let ReportTo { format, path } = &self.to;
        match self.so_far {
            Ok(mut spool) => write_report(path, format.is_of_commands(), |out| spool.copy_to(out)),
            Err(error) => {
                print_error(&format!("{} cannot be written: {error}", show(path)));
                false
            }
        }
    }
}
