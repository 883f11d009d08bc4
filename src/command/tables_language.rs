//! The language of the tables that `sparestrip tables` makes.

use std::path::Path;
use std::process::ExitCode;

use sparestrip::discover::reason;
use sparestrip::manuscript::Source;
use sparestrip::report::sanitize_line;
use sparestrip::tables::Language;

use super::output::{print, print_error, show};

/// How many slips in a file of words, and headings that it lacks, are told one by one.
const MAX_TOLD: usize = 20;

/// The language that is asked for, by its tag or by its file of words; nothing where it cannot be had, which is said.
pub(super) fn language(asked: Option<&Path>) -> Option<Language> {
    let Some(asked) = asked else { return Some(Language::default()) };
    if let Some(shipped) = asked.to_str().and_then(Language::of_tag) {
        return Some(shipped.clone());
    }
    let source = match Source::open(asked) {
        Ok(source) => source,
        Err(error) => {
            let shipped = Language::shipped().collect::<Vec<_>>().join(", ");
            let (asked, why) = (show(asked), reason(&error));
            print_error(&format!(
                "{asked}: {why}. The languages are {shipped}; of another, name a file of words, which \
                 `sparestrip tables --headings` begins"
            ));
            return None;
        }
    };
    let (language, slips) = Language::read(&source);
    for (place, why) in slips.iter().take(MAX_TOLD) {
        print_error(&format!("{}:{}:{}: {}", show(asked), place.line, place.column, sanitize_line(why)));
    }
    let lacking = language.lacks();
    for heading in lacking.iter().take(MAX_TOLD) {
        print_error(&format!("{}: there is no word for \"{heading}\", which stays English", show(asked)));
    }
    match (slips.len() + lacking.len()).saturating_sub(MAX_TOLD) {
        0 => {}
        _ if lacking.len() <= MAX_TOLD && slips.len() <= MAX_TOLD => {}
        _ => print_error(&format!("{}: {} headings have no word in it", show(asked), lacking.len())),
    }
    slips.is_empty().then_some(language)
}

/// Prints the headings as a file of words.
pub(super) fn print_headings(language: &Language) -> ExitCode {
    print(|out| out.write_all(language.file().as_bytes()), ExitCode::SUCCESS)
}
