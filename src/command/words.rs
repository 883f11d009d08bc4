//! `sparestrip words`

use std::process::ExitCode;

use sparestrip::report::{unknown_section, word_list, words_of};

use super::output::{print, print_error};
use super::{EXIT_FAILURE, WordsArgs};

pub(super) fn words(args: &WordsArgs) -> ExitCode {
    let look = args.look.look();
    let name = args.section.join(" ");
    let text = if name.is_empty() { Ok(word_list(look)) } else { words_of(&name, look) };
    match text {
        Ok(text) => print(|out| out.write_all(look.plain(&text).as_bytes()), ExitCode::SUCCESS),
        Err(near) => {
            print_error(&unknown_section(&name, near));
            ExitCode::from(EXIT_FAILURE)
        }
    }
}
