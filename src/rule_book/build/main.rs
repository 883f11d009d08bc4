//! Reads the rule book, `rules/*.yaml`, when the program is built, and writes it as Rust, so that no check reads a page.
//!
//! A mistake in a page fails the build with the file's name and the line.

mod code;
mod page;
mod text_weights;
mod text_words;

// The quantities of the rule book are read by the reader that reads those of manuscripts.
#[allow(dead_code, unreachable_pub, unused_imports)]
#[path = "../../quantity/mod.rs"]
mod quantity;
// So are the signs of printed texts known by the same digests.
#[path = "../../text/evidence/digest.rs"]
mod digest;

use std::env;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;

use page::Page;

/// The pages, a file each.
const PAGES: &str = "rules";

/// The code of the rules, a file each.
const RULES: &str = "src/rules";

fn main() -> ExitCode {
    // Cargo runs this with the package's folder as the current one.
    match build() {
        Ok(()) => ExitCode::SUCCESS,
        Err(mistakes) => {
            for mistake in mistakes {
                eprintln!("{mistake}");
            }
            ExitCode::FAILURE
        }
    }
}

/// The words by which printed texts are read.
const TEXT_WORDS: &str = "rules/words/text-words.yaml";

/// How much each sign says of what a number of a printed text is.
const TEXT_WEIGHTS: &str = "rules/words/text-weights.txt";

/// Reads all pages, the words of texts and the weights of signs, and writes them; else what is wrong, a line each.
fn build() -> Result<(), Vec<String>> {
    writeln!(io::stdout(), "cargo::rerun-if-changed={PAGES}\ncargo::rerun-if-changed={RULES}")
        .map_err(|error| vec![error.to_string()])?;
    let pages = pages()?;
    let folder = env::var("OUT_DIR").map_err(|error| vec![format!("OUT_DIR: {error}")])?;
    write(&folder, "pages.rs", &code::code(&pages))?;
    let words = fs::read(TEXT_WORDS).map_err(|error| vec![format!("{TEXT_WORDS}: {error}")])?;
    let words = text_words::code(&words).map_err(|error| vec![format!("{TEXT_WORDS}: {error}")])?;
    write(&folder, "text_words.rs", &words)?;
    let weights = fs::read(TEXT_WEIGHTS).map_err(|error| vec![format!("{TEXT_WEIGHTS}: {error}")])?;
    let weights = String::from_utf8(weights).map_err(|error| vec![format!("{TEXT_WEIGHTS}: {error}")])?;
    let weights = text_weights::code(&weights).map_err(|error| vec![format!("{TEXT_WEIGHTS}:{error}")])?;
    write(&folder, "text_weights.rs", &weights)
}

fn write(folder: &str, name: &str, code: &str) -> Result<(), Vec<String>> {
    let written = File::create(Path::new(folder).join(name)).and_then(|mut file| file.write_all(code.as_bytes()));
    written.map_err(|error| vec![format!("{folder}/{name}: {error}")])
}

/// The pages by name.
fn pages() -> Result<Vec<Page>, Vec<String>> {
    let files = fs::read_dir(PAGES).map_err(|error| vec![format!("{PAGES}: {error}")])?;
    let mut names: Vec<String> = files
        .flatten()
        .filter_map(|file| file.file_name().to_string_lossy().strip_suffix(".yaml").map(str::to_string))
        .collect();
    names.sort_unstable();
    let (mut pages, mut mistakes) = (Vec::new(), Vec::new());
    for name in names {
        let path = format!("{PAGES}/{name}.yaml");
        let page = fs::read(&path)
            .map_err(|error| format!("{path}: {error}"))
            .and_then(|bytes| String::from_utf8(bytes).map_err(|error| format!("{path}: {error}")))
            .and_then(|text| page::read(&path, &name, text))
            .and_then(|page| belongs(&path, page));
        match page {
            Ok(page) => pages.push(page),
            Err(mistake) => mistakes.push(mistake),
        }
    }
    mistakes.extend(page::values_named_twice(PAGES, &pages));
    if mistakes.is_empty() { Ok(pages) } else { Err(mistakes) }
}

/// A page whose rule is there.
fn belongs(path: &str, page: Page) -> Result<Page, String> {
    let rule = format!("{RULES}/{}.rs", page.identifier());
    if Path::new(&rule).is_file() { Ok(page) } else { Err(format!("{path}:1: there is no rule for it: {rule}")) }
}
