//! The words of the command line.

mod check;
mod output;
mod rules;
mod watch;
mod worksheet;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Checks quilt pattern manuscripts and points at the number that is short.
#[derive(Debug, Parser)]
#[command(
    version,
    about,
    after_help = "Exit status: 0 nothing at error level, 1 at least one error, 2 something could not be read or done."
)]
pub(crate) struct CommandLine {
    #[command(subcommand)]
    word: Word,
}

#[derive(Debug, Subcommand)]
enum Word {
    /// Read manuscripts once and report what is short
    Check(CheckArgs),
    /// Report on every save
    Watch(WatchArgs),
    /// List the rules, or show one with its working and examples
    Rules(RulesArgs),
    /// Show every number of a manuscript, stated beside computed
    Worksheet(WorksheetArgs),
}

#[derive(Debug, Args)]
struct CheckArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in; - reads standard input
    #[arg(default_value = ".")]
    paths: Vec<PathBuf>,
    /// How to report
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Count queries as errors in the exit status
    #[arg(long)]
    strict: bool,
    /// Tell the stated numbers that nothing checks, and count them as errors in the exit status
    #[arg(long)]
    account: bool,
    #[command(flatten)]
    look: LookArgs,
}

#[derive(Debug, Args)]
struct WatchArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in
    #[arg(default_value = ".")]
    paths: Vec<PathBuf>,
    /// Keep looking at the files instead of waiting to be told of a save: for folders on another computer
    #[arg(long)]
    poll: bool,
    #[command(flatten)]
    look: LookArgs,
}

#[derive(Debug, Args)]
struct RulesArgs {
    /// The rule to show
    name: Option<String>,
    #[command(flatten)]
    look: LookArgs,
}

#[derive(Debug, Args)]
struct WorksheetArgs {
    /// The manuscript; - reads standard input
    path: PathBuf,
    /// How to show it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Make a page of it, to read in a browser, to print and to sign: on standard output, or in FILE
    #[arg(long, value_name = "FILE", num_args = 0..=1, require_equals = true, conflicts_with = "format")]
    #[allow(clippy::option_option)] // The page may be asked for with a file or without one.
    html: Option<Option<PathBuf>>,
    /// A second file, which only a slip gives
    #[arg(hide = true)]
    more: Vec<PathBuf>,
    #[command(flatten)]
    look: LookArgs,
}

#[derive(Debug, Args)]
pub(crate) struct LookArgs {
    /// Whether to colour the report
    #[arg(long, value_enum, default_value_t = Colour::Auto)]
    color: Colour,
    /// Draw with ASCII characters only
    #[arg(long)]
    ascii: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people
    Text,
    /// For programs
    Json,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Colour {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// The tool could not do its work.
pub(crate) const COULD_NOT: u8 = 2;

impl CommandLine {
    pub(crate) fn run(self) -> ExitCode {
        match self.word {
            Word::Check(args) => check::check(&args),
            Word::Watch(args) => watch::watch(&args),
            Word::Rules(args) => rules::rules(&args),
            Word::Worksheet(args) => worksheet::worksheet(&args),
        }
    }
}
