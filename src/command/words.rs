//! `sparestrip words`

use std::process::ExitCode;

use sparestrip::report::{unknown_section, word_list, words_of};

use super::output::{complain, print};
use super::{COULD_NOT, WordsArgs};

pub(super) fn words(args: &WordsArgs) -> ExitCode {
    let look = args.look.look();
    let name = args.section.join(" ");
    let text = if name.is_empty() { Ok(word_list(look)) } else { words_of(&name, look) };
    match text {
        Ok(text) => print(|out| out.write_all(look.plain(&text).as_bytes()), ExitCode::SUCCESS),
        Err(near) => {
            complain(&unknown_section(&name, near));
            ExitCode::from(COULD_NOT)
        }
    }
}
