//! The words of the command line.

mod check;
mod completions;
mod fix;
mod formats;
mod lsp;
mod manual;
mod manuscript;
mod new;
mod output;
mod pre_commit;
mod read;
mod revoke;
mod rules;
mod schema;
mod sign;
mod signed;
mod signed_as;
mod tables;
mod tables_language;
mod tables_made;
mod watch;
mod words;
mod worksheet;

use std::env;
use std::io::{self, IsTerminal};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::builder::ValueParser;
use clap::error::ErrorKind;
use clap::{Args, Parser, Subcommand, ValueEnum};
use formats::{Format, ReportTo, report_to};
use sparestrip::report::{Order, RenderStyle, Text, sanitize_line};
use sparestrip::sign_off::Fingerprint;

/// Checks quilt pattern manuscripts and points at the number that is short.
#[derive(Debug, Parser)]
#[command(
    version,
    about,
    after_help = "Exit status: 0 nothing at error level, 1 at least one error, 2 something could not be read or done."
)]
pub(crate) struct CommandLine {
    #[command(subcommand)]
    word: Subcommands,
}

// Only the options of the command that is given are made ready.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
enum Subcommands {
    /// Read manuscripts once and report what is short
    Check(CheckArgs),
    /// Report on every save
    Watch(WatchArgs),
    /// Make the corrections that can only be meant one way, in the manuscripts themselves
    #[command(
        after_help = "An error is corrected where there is one way to do it and no number is lowered. Comments, order, spacing \
                      and line ends stay; accepted findings stay as they are. What an editor must decide is listed with \
                      the choices.\n\n\
                      Exit status: 0 no error is left, 1 at least one error is left, or with --diff something would be \
                      changed, 2 something could not be read or written."
    )]
    Fix(FixArgs),
    /// Begin a manuscript: with its sizes, and with every number that can be computed from them
    #[command(
        after_help = "On a terminal, what is left out is asked for, but for fabrics. Nothing is ever written over a file."
    )]
    New(NewArgs),
    /// Serve an editor: findings while you type, corrections to choose, and what each word means
    #[command(
        after_help = "An editor starts this and talks to it on standard input and output, by the Language Server \
                      Protocol 3.17. Nothing is written to disk.\n\n\
                      Exit status: 0 the editor ended it as it should, 1 it did not, 2 the editor could not be answered."
    )]
    Lsp(LspArgs),
    /// List the rules, or show one with its working and examples
    Rules(RulesArgs),
    /// List the words of the format, with what each says and what holds where it is left out
    #[command(after_help = "A section is named as its word is: binding, \"binding requires\", cut, make, numbers, \
                      \"house rules\". A word is shown in every section that has it.")]
    Words(WordsArgs),
    /// Print a JSON Schema of manuscripts or of house rules, for editors that complete and check YAML
    Schema(SchemaArgs),
    /// Show every number of a manuscript, stated beside computed
    Worksheet(WorksheetArgs),
    /// Sign manuscripts off: record their numbers in sign-offs.yaml beside them
    #[command(
        after_help = "Exit status: 0 all are signed, 1 one cannot be signed, so none is, 2 something could not be \
                      read or written."
    )]
    Sign(SignArgs),
    /// List who signed which manuscript, when and under which conditions, and what changed since
    Signed(SignedArgs),
    /// Make the requirements tables of the printed pattern from a manuscript
    #[command(after_help = "What is stated is printed, and nothing that is worked out: check first.\n\n\
                      Exit status: 0 nothing at error level, 1 at least one error, or something that is \
                      missing or could not be read, 2 nothing could be printed or written.")]
    Tables(TablesArgs),
    /// Show the numbers of a printed text, each with the number of its manuscript that it was matched to
    #[command(
        after_help = "Exit status: 0 no number differs, 1 at least one does, 2 the text or the manuscript could not \
                      be read."
    )]
    Read(ReadArgs),
    /// Print a script that checks what is staged before git commits it
    #[command(
        after_help = "Put it in its place with: sparestrip pre-commit > .git/hooks/pre-commit && chmod +x .git/hooks/pre-commit"
    )]
    PreCommit,
    /// Print a script that completes the words of sparestrip in a shell
    Completions(CompletionsArgs),
    /// Print the manual page, or one chapter of it as text
    #[command(after_help = "To read the page at once: sparestrip manual | man -l -")]
    Manual(ManualArgs),
}

// Which of the files that are given are looked at.
#[derive(Debug, Args)]
struct FilesArgs {
    /// Leave out files that are neither manuscripts nor the printed text of one, as before a commit
    #[arg(long)]
    only_named: bool,
}

#[derive(Debug, Args)]
struct CheckArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in; - reads standard input
    #[arg(default_value = ".")]
    paths: Vec<PathBuf>,
    #[command(flatten)]
    files: FilesArgs,
    /// How to report
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Write a report to a file as well, such as sarif=report.sarif or junit=report.xml; may be given several times. With
    /// - for a file, it is printed in place of the text
    #[arg(long, value_name = "FORMAT=PATH", value_parser = ValueParser::new(report_to))]
    report: Vec<ReportTo>,
    /// Count queries as errors in the exit status
    #[arg(long)]
    strict: bool,
    /// List the stated numbers that nothing checks, and count them as errors in the exit status
    #[arg(long)]
    account: bool,
    /// Require that every manuscript is signed off, and name each value that changed since
    #[arg(long)]
    signed: bool,
    /// The same, and say whose the numbers on a paper are, by the fingerprint that it has, such as "1a2b 3c4d 5e6f"
    #[arg(long, value_name = "FINGERPRINT", value_parser = ValueParser::new(Fingerprint::read))]
    signed_as: Option<Fingerprint>,
    #[command(flatten)]
    list: ListArgs,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Debug, Args)]
struct FixArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in; - reads standard input and prints the corrected text
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// Print what would be changed as a unified diff, and write nothing
    #[arg(long)]
    diff: bool,
}

#[derive(Debug, Args)]
struct NewArgs {
    /// The file to make; its name ends in .pattern.yaml. With -, the text is printed
    path: PathBuf,
    /// What the pattern is called
    #[arg(long, value_name = "NAME", value_parser = words_of_a_person)]
    name: Option<String>,
    /// What a number without a unit is in
    #[arg(long, value_enum)]
    measure: Option<MeasureArg>,
    /// A size with its finished width and length, such as "throw=54 x 72"; given once for each size
    #[arg(long = "size", value_name = "NAME=WIDTH x LENGTH", value_parser = ValueParser::new(new::size))]
    sizes: Vec<(String, String)>,
    /// The pattern has a binding from strips cut this wide, such as "2 1/2"
    #[arg(long, value_name = "WIDTH")]
    binding: Option<String>,
    /// The pattern has a backing
    #[arg(long)]
    backing: bool,
    /// The pattern has batting
    #[arg(long)]
    batting: bool,
    /// A fabric of the pattern, by its name; given once for each fabric
    #[arg(long = "fabric", value_name = "NAME", value_parser = words_of_a_person)]
    fabrics: Vec<String>,
    /// Take the measure and the methods of another manuscript: what it assumes, and how it binds, backs and fills
    #[arg(long, value_name = "FILE")]
    like: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum MeasureArg {
    /// Inches, and yards for fabric
    #[value(alias = "inch")]
    Inches,
    /// Centimeters, and meters for fabric
    Cm,
}

#[derive(Debug, Args)]
struct SignArgs {
    /// Manuscripts of one folder, or the folder: all of them are signed, or none
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// Who signs it off
    #[arg(long, value_name = "NAME", value_parser = words_of_a_person)]
    by: String,
    /// What else to record
    #[arg(long, value_name = "TEXT", value_parser = words_of_a_person)]
    note: Option<String>,
    /// Refuse while nothing checks some stated number
    #[arg(long)]
    account: bool,
    /// Refuse while a query stands
    #[arg(long)]
    strict: bool,
    /// Take the sign-offs back instead, and record why
    #[arg(long, value_name = "REASON", value_parser = words_of_a_person, conflicts_with_all = ["note", "account", "strict"])]
    revoke: Option<String>,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Debug, Args)]
struct SignedArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in
    #[arg(default_value = ".")]
    paths: Vec<PathBuf>,
    /// How to list them
    #[arg(long, value_enum, default_value_t = SignedFormat::Text)]
    format: SignedFormat,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum SignedFormat {
    /// For people
    Text,
    /// Comma-separated values, for spreadsheets
    Csv,
    /// For programs
    Json,
}

/// A name or a note: something that can be read, and no character that steers a terminal.
fn words_of_a_person(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err("there is nothing in it".to_string());
    }
    if sanitize_line(text) != text {
        return Err("it has characters in it that cannot be seen".to_string());
    }
    Ok(text.to_string())
}

#[derive(Debug, Args)]
struct WatchArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in
    #[arg(default_value = ".")]
    paths: Vec<PathBuf>,
    /// Keep looking at the files instead of waiting to be told of a save: for folders on another computer
    #[arg(long)]
    poll: bool,
    /// How to report
    #[arg(long, value_enum, default_value_t = WatchFormat::Text)]
    format: WatchFormat,
    /// Require that every manuscript is signed off, and name each value that changed since
    #[arg(long)]
    signed: bool,
    /// Print at most this many lines at a time, the last ones, so that they fit beside an editor
    #[arg(long, value_name = "N", conflicts_with = "format", value_parser = clap::value_parser!(u16).range(4..))]
    lines: Option<u16>,
    #[command(flatten)]
    list: ListArgs,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum WatchFormat {
    /// For people: what each save changed
    Text,
    /// For editors and problem matchers: after each save everything that stands, a line each
    Lines,
}

#[derive(Debug, Args)]
struct LspArgs {
    /// Print what to write into the settings of an editor, instead of serving one
    #[arg(long, value_name = "EDITOR", value_parser = lsp::known_editors())]
    setup: Option<String>,
    /// Talk on standard input and output, as it does in any case: some editors ask for it
    #[arg(long, hide = true, conflicts_with = "setup")]
    stdio: bool,
}

#[derive(Debug, Args)]
struct RulesArgs {
    /// The rule to show
    name: Option<String>,
    /// List the values that the rules go by, which house rules may set
    #[arg(long, conflicts_with = "name")]
    values: bool,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Debug, Args)]
struct WordsArgs {
    /// The section or the word to show
    section: Vec<String>,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Debug, Args)]
struct SchemaArgs {
    /// What the schema describes
    #[arg(value_enum, default_value_t = Described::Manuscript)]
    of: Described,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Described {
    /// A manuscript
    Manuscript,
    /// The file house-rules.yaml
    HouseRules,
}

#[derive(Debug, Args)]
struct WorksheetArgs {
    /// The manuscript, or a folder of manuscripts; - reads standard input
    path: PathBuf,
    /// Show a part: wrong for what is not OK, a size, or a section such as binding or a fabric; may be given several
    /// times. size=NAME and section=NAME can mean nothing else
    #[arg(long, value_name = "wrong|SIZE|SECTION", value_delimiter = ',')]
    only: Vec<String>,
    /// Leave out the drawings or the workings; may be given several times
    #[arg(long, value_enum)]
    without: Vec<WorksheetPart>,
    /// How to show it
    #[arg(long, value_enum, default_value_t = WorksheetFormat::Text)]
    format: WorksheetFormat,
    /// Make a page of it, to read in a browser, to print and to sign: on standard output, or in FILE
    #[arg(long, value_name = "FILE", num_args = 0..=1, require_equals = true, conflicts_with = "format")]
    #[allow(clippy::option_option)] // The page may be asked for with a file or without one.
    html: Option<Option<PathBuf>>,
    /// A second file, which only a slip gives
    #[arg(hide = true)]
    more: Vec<PathBuf>,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum WorksheetPart {
    /// The drawings
    Drawings,
    /// The workings
    Workings,
}

#[derive(Debug, Args)]
struct TablesArgs {
    /// Manuscripts, or folders to look for *.pattern.yaml in; - reads standard input
    #[arg(required_unless_present = "headings")]
    paths: Vec<PathBuf>,
    /// What to write the tables as
    #[arg(long, value_enum, default_value_t = TableFormat::Markdown)]
    format: TableFormat,
    /// What to make: the tables, or cutting instructions
    #[arg(long, value_enum, default_value_t = TablesForm::Tables)]
    form: TablesForm,
    /// How the numbers of several sizes stand in cutting instructions
    #[arg(long, value_enum, value_name = "STYLE")]
    sizes: Option<SizesArg>,
    /// One table alone, by its heading or by the fabric that is cut; may be given several times
    #[arg(long = "table", value_name = "HEADING")]
    tables: Vec<String>,
    /// One size alone
    #[arg(long, value_name = "NAME")]
    size: Option<String>,
    /// One colorway: its colors stand with the fabrics
    #[arg(long, value_name = "NAME")]
    colorway: Option<String>,
    /// Print real fractions, such as \u{bd} for 1/2, and \u{d7} for x
    #[arg(long)]
    typographic: bool,
    /// The language of the headings: de, fr, or a file of words
    #[arg(long, value_name = "LANGUAGE")]
    language: Option<PathBuf>,
    /// Print the headings as a file of words, to translate
    #[arg(long, conflicts_with_all = ["paths", "form", "format", "sizes", "signed"])]
    headings: bool,
    /// Refuse numbers that are not signed off as they are now
    #[arg(long)]
    signed: bool,
    /// Write to this file instead of standard output; - is standard output. Of several manuscripts, a folder for their files
    #[arg(long, value_name = "FILE")]
    output: Option<PathBuf>,
}

#[derive(Debug, Args)]
struct ReadArgs {
    /// The printed text: Markdown, plain text, HTML, Word (.docx), OpenDocument (.odt) or PDF
    text: PathBuf,
    /// The manuscript; left out, the one beside the text that names it under `texts`
    #[arg(long, value_name = "PATH")]
    manuscript: Option<PathBuf>,
}

#[derive(Debug, Args)]
struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    shell: clap_complete::Shell,
}

#[derive(Debug, Args)]
pub(crate) struct ListArgs {
    /// List every finding in the text, also those that follow from another, with the lines and working of all
    #[arg(long)]
    all: bool,
    /// The order of findings in the text
    #[arg(long, value_enum, default_value_t = ListOrder::Level)]
    order: ListOrder,
}

impl ListArgs {
    /// The text format with these choices.
    fn text(&self, look: RenderStyle) -> Text {
        let order = match self.order {
            ListOrder::Level => Order::Level,
            ListOrder::Place => Order::Place,
        };
        Text { look, all: self.all, order }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum ListOrder {
    /// Notes first and errors last
    Level,
    /// As they stand in the manuscript
    Place,
}

#[derive(Debug, Args)]
struct ManualArgs {
    /// The chapter to show
    #[arg(value_parser = manual::chapters())]
    chapter: Option<String>,
    /// List the chapters
    #[arg(long, conflicts_with = "chapter")]
    list: bool,
    #[command(flatten)]
    look: RenderArgs,
}

#[derive(Debug, Args)]
pub(crate) struct RenderArgs {
    /// Whether to color the report
    #[arg(long, value_enum, default_value_t = Colour::Auto)]
    color: Colour,
    /// Draw with ASCII characters only
    #[arg(long)]
    ascii: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum WorksheetFormat {
    /// For people
    Text,
    /// For programs
    Json,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum TablesForm {
    /// What to buy, what to cut and how it is laid out, in tables
    Tables,
    /// What to cut from each fabric, step by step, as a pattern tells it
    Instructions,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum SizesArg {
    /// One after another, in the order of the sizes: 6 (13, 18) strips
    Run,
    /// A list of its own for each size
    Lists,
    /// A table with a column for each size
    Table,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum TableFormat {
    /// Plain text with marks, which many editors and websites read
    Markdown,
    /// Comma-separated values, with a line for each number
    Csv,
    /// Comma-separated values of one table, with a column for each size
    WideCsv,
    /// The same with tabs between the columns
    Tsv,
    /// A web page
    Html,
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
pub(crate) const EXIT_FAILURE: u8 = 2;

/// Says what is wrong with the words of a command, or prints the help that was asked for, and gives the exit status.
pub(crate) fn refuse(error: &clap::Error) -> ExitCode {
    if matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion) {
        if !io::stdout().is_terminal() && env::var_os("CLICOLOR_FORCE").is_none() {
            // At once, where it would be written line by line.
            let text = error.render().to_string();
            return output::print(|out| out.write_all(text.as_bytes()), ExitCode::SUCCESS);
        }
        // Nothing in it comes from outside, and it keeps its colours.
        return if error.print().is_ok() { ExitCode::SUCCESS } else { ExitCode::from(EXIT_FAILURE) };
    }
    output::write_stderr(&error.render().to_string());
    ExitCode::from(EXIT_FAILURE)
}

impl CommandLine {
    pub(crate) fn run(self) -> ExitCode {
        match self.word {
            Subcommands::Check(args) => check::check(&args),
            Subcommands::Watch(args) => watch::watch(&args),
            Subcommands::Fix(args) => fix::fix(&args),
            Subcommands::New(args) => new::new(args),
            Subcommands::Lsp(args) => lsp::lsp(&args),
            Subcommands::Rules(args) => rules::rules(&args),
            Subcommands::Words(args) => words::words(&args),
            Subcommands::Schema(args) => schema::schema(&args),
            Subcommands::Worksheet(args) => worksheet::worksheet(&args),
            Subcommands::Sign(args) => sign::sign(&args),
            Subcommands::Signed(args) => signed::signed(&args),
            Subcommands::Tables(args) => tables::tables(&args),
            Subcommands::Read(args) => read::read(&args),
            Subcommands::PreCommit => pre_commit::pre_commit(),
            Subcommands::Completions(args) => completions::completions(&args),
            Subcommands::Manual(args) => manual::manual(&args),
        }
    }
}
