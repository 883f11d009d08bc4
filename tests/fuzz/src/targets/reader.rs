//! The reader: whatever the bytes are, mistakes have places, lines are counted as by hand, and values are gathered.

use sparestrip::manuscript::{Source, read};
use sparestrip::new_manuscript::Methods;
use sparestrip::sign_off::stated;

use super::{Fault, Kind, Target, hold, in_text, source};
use crate::pool::Seen;

pub(super) const TARGET: Target = Target {
    name: "reader",
    about: "a manuscript is read; every mistake, value and line has its place",
    kind: Kind::Manuscript,
    share: 250,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = source(input);
    let text = &source.text;
    let manuscript = read(&source);
    for mistake in &manuscript.mistakes {
        in_text(text, mistake.at, "a mistake")?;
        if let Some((at, _)) = &mistake.related {
            in_text(text, *at, "what explains a mistake")?;
        }
        let kind = format!("{:?}", mistake.what);
        seen.note(&["mistake", kind.split([' ', '(', '{']).next().unwrap_or_default()]);
        counted(&source, mistake.at.start)?;
    }
    for (key, value) in stated(&source) {
        in_text(text, value.at, &key)?;
        let words: Vec<&str> = key
            .split(" / ")
            .filter(|word| word.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_'))
            .collect();
        seen.note(&words);
    }
    let _ = Methods::of_manuscript(&source);
    counted(&source, text.len())
}

/// Line and column are those that are counted character by character.
fn counted(source: &Source, byte: usize) -> Result<(), Fault> {
    let (mut line, mut column) = (1, 1);
    let text = &source.text;
    for (at, c) in text.char_indices().take_while(|(at, _)| *at < byte) {
        if c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n')) {
            (line, column) = (line + 1, 1);
        } else if (at, c) != (0, '\u{feff}') {
            column += 1;
        }
    }
    for place in [source.place(byte), source.only_place(byte)] {
        let same = (place.line, place.column) == (line, column);
        hold(same, "a place is counted otherwise", || format!("{place:?} for line {line}, column {column}"))?;
    }
    Ok(())
}
