//! `sparestrip new`

use std::io::{self, BufRead, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;

use sparestrip::atomic_write::create_whole;
use sparestrip::discover::{folder_of, is_manuscript, reason};
use sparestrip::manuscript::Source;
use sparestrip::new_manuscript::{Answers, Methods, new_manuscript};
use sparestrip::quantity::{Measure, read_length};
use sparestrip::report::sanitize_line;
use sparestrip::run::settings_for_fixing;

use super::manuscript::{is_dash, source};
use super::output::{print_error, print_problem, print_with, show, write_stderr};
use super::{EXIT_FAILURE, MeasureArg, NewArgs, words_of_a_person};

/// Why no manuscript is made.
enum Refusal {
    /// In words, to be said.
    Words(String),
    /// It was said.
    Said,
}

impl From<String> for Refusal {
    fn from(words: String) -> Refusal {
        Refusal::Words(words)
    }
}

pub(super) fn new(args: NewArgs) -> ExitCode {
    match make(args) {
        Ok(()) => ExitCode::SUCCESS,
        Err(refusal) => {
            if let Refusal::Words(words) = refusal {
                print_error(&words);
            }
            ExitCode::from(EXIT_FAILURE)
        }
    }
}

fn make(mut args: NewArgs) -> Result<(), Refusal> {
    let path = std::mem::take(&mut args.path);
    if !is_dash(&path) {
        can_be_made(&path)?;
    }
    let said = |problem| {
        print_problem(&problem);
        Refusal::Said
    };
    let like = match &args.like {
        Some(file) => Methods::of_manuscript(&source(file).map_err(said)?),
        None => Methods::default(),
    };
    let settings = settings_for_fixing(if is_dash(&path) { Path::new(".") } else { folder_of(&path) }).map_err(said)?;
    let answers = answers(args, &like)?;
    let text = new_manuscript(&answers, &like, &settings).map_err(|left| not_computed(&left.0, &left.1))?;
    if is_dash(&path) {
        return if print_with(false, |out| out.write_all(text.as_bytes())) { Ok(()) } else { Err(Refusal::Said) };
    }
    create_whole(&path, text.as_bytes())
        .map_err(|error| format!("{} cannot be made: {}", show(&path), reason(&error)))?;
    print_error(&format!("wrote {}", show(&path)));
    Ok(())
}

/// Says before anything is asked whether the file may be made.
fn can_be_made(path: &Path) -> Result<(), String> {
    if path.symlink_metadata().is_ok() {
        return Err(format!("{} is there already: nothing is written over it", show(path)));
    }
    if !is_manuscript(path) {
        return Err(format!("{} would not be found as a manuscript: its name must end in .pattern.yaml", show(path)));
    }
    if !folder_of(path).is_dir() {
        return Err(format!("there is no folder {}", show(folder_of(path))));
    }
    Ok(())
}

/// What stands in the way of a clean manuscript.
fn not_computed(source: &Source, findings: &[sparestrip::Finding]) -> Refusal {
    for finding in findings {
        let stated = sanitize_line(finding.at.at.text(&source.text));
        print_error(&format!("{stated}: {}", sanitize_line(&finding.message)));
    }
    Refusal::Words("nothing was written".to_string())
}

/// What the options say, and on a terminal what is asked.
fn answers(args: NewArgs, like: &Methods) -> Result<Answers, Refusal> {
    let asks = io::stdin().is_terminal() && io::stderr().is_terminal();
    let measure = measure(&args, like)?;
    let name = match args.name {
        Some(name) => name,
        None if asks => ask("What is the pattern called?", words_of_a_person)?,
        None => return Err("--name is missing: what the pattern is called".to_string().into()),
    };
    let measure = match measure {
        Some(measure) => measure,
        None if asks => ask("Inches or centimeters?", read_measure)?,
        None => return Err("--measure is missing: inches or cm".to_string().into()),
    };
    let sizes = match args.sizes {
        sizes if !sizes.is_empty() => sizes,
        _ if asks => ask_sizes(measure)?,
        _ => return Err("--size is missing: a size, such as --size \"throw=54 x 72\"".to_string().into()),
    };
    let none_said = args.binding.is_none() && !args.backing && !args.batting;
    let unlike = |section: &str| none_said && asks && !like.has(section);
    let binding = match args.binding.or_else(|| like.method("binding", "strip_width").map(str::to_string)) {
        None if unlike("binding") => ask_width(measure)?,
        width => width,
    };
    let backing =
        args.backing || like.has("backing") || (unlike("backing") && ask_yes("Is there a backing (yes or no)?")?);
    let batting =
        args.batting || like.has("batting") || (unlike("batting") && ask_yes("Is there batting (yes or no)?")?);
    Ok(Answers { name, measure, sizes, binding, backing, batting, fabrics: args.fabrics })
}

/// The measure that is asked for, or that of the other manuscript.
fn measure(args: &NewArgs, like: &Methods) -> Result<Option<Measure>, String> {
    let asked = args.measure.map(|measure| match measure {
        MeasureArg::Inches => Measure::Inch,
        MeasureArg::Cm => Measure::Cm,
    });
    let others = like.measure.as_deref().map(read_measure).transpose()?;
    match (asked, others, &args.like) {
        (Some(asked), Some(other), Some(file)) if asked != other => {
            Err(format!("{} is in the other measure: its methods cannot be taken", show(file)))
        }
        (asked, other, _) => Ok(asked.or(other)),
    }
}

fn read_measure(typed: &str) -> Result<Measure, String> {
    let typed = typed.trim().trim_matches(['"', '\'']).to_lowercase();
    match typed.as_str() {
        "in" | "inch" | "inches" => Ok(Measure::Inch),
        "cm" | "centimeter" | "centimeters" | "centimetre" | "centimetres" => Ok(Measure::Cm),
        _ => Err("type inches or cm".to_string()),
    }
}

/// Reads `throw=54 x 72`.
pub(super) fn size(typed: &str) -> Result<(String, String), String> {
    let parts =
        typed.split_once('=').ok_or("it takes a name, an equals sign and two lengths, such as throw = 54 x 72")?;
    Ok((words_of_a_person(parts.0)?, words_of_a_person(parts.1)?))
}

/// Asks until the answer can be read. The end of the input ends it all.
fn ask<T>(question: &str, read: impl Fn(&str) -> Result<T, String>) -> Result<T, Refusal> {
    loop {
        match read(&answer(question)?) {
            Ok(answer) => return Ok(answer),
            Err(why) => write_stderr(&format!("  {why}\n")),
        }
    }
}

fn answer(question: &str) -> Result<String, Refusal> {
    write_stderr(&format!("{question} "));
    let _ = io::stderr().flush();
    let mut line = String::new();
    let read = io::stdin().lock().read_line(&mut line);
    match read {
        Ok(bytes) if bytes > 0 => Ok(line.trim().to_string()),
        Ok(_) => {
            write_stderr("\n");
            Err("nothing was written".to_string().into())
        }
        Err(error) => Err(format!("the answer cannot be read: {}", reason(&error)).into()),
    }
}

fn ask_sizes(measure: Measure) -> Result<Vec<(String, String)>, Refusal> {
    let example = if measure == Measure::Inch { "throw = 54 x 72" } else { "throw = 137 x 183" };
    let mut sizes = Vec::new();
    loop {
        let question = if sizes.is_empty() {
            format!("A size, finished, such as {example}:")
        } else {
            "Another size (or only Enter):".to_string()
        };
        let typed = answer(&question)?;
        if typed.is_empty() && !sizes.is_empty() {
            return Ok(sizes);
        }
        match size(&typed) {
            Ok(size) => sizes.push(size),
            Err(why) => write_stderr(&format!("  {why}\n")),
        }
    }
}

/// How wide the strips of the binding are; none for only Enter.
fn ask_width(measure: Measure) -> Result<Option<String>, Refusal> {
    let example = if measure == Measure::Inch { "2 1/2" } else { "6.5" };
    let question = format!("How wide are the binding strips cut, such as {example} (only Enter for no binding)?");
    ask(&question, |typed| {
        if typed.is_empty() {
            return Ok(None);
        }
        let is_length = read_length(typed, measure).is_ok();
        if is_length { Ok(Some(typed.to_string())) } else { Err(format!("type a length, such as {example}")) }
    })
}

fn ask_yes(question: &str) -> Result<bool, Refusal> {
    ask(question, |typed| match typed.to_lowercase().as_str() {
        "y" | "yes" => Ok(true),
        "n" | "no" | "" => Ok(false),
        _ => Err("type yes or no".to_string()),
    })
}
