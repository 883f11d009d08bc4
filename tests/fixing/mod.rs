//! Making corrections in place: what is changed is what was to be, the file is whole whatever happens, and what an editor
//! must decide is left.

use crate::support;

mod decisions;
mod diff;
mod doubts;
mod files;
mod killed;
mod texts;

use std::path::Path;

use support::{GOOD, Ran, run};

const NAME: &str = "lanterns.pattern.yaml";

/// The good manuscript with two numbers too low, each with one correction, and its text when they are right.
fn faulty() -> String {
    let text = GOOD.replace("strips: 6, fabric: 1/2 yd", "strips: 4, fabric: 1/2 yd");
    text.replace("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 5/8 yd")
}

/// The same as the program should leave it.
fn right() -> String {
    GOOD.to_string()
}

fn fix(folder: &Path, words: &[&str]) -> Ran {
    run(folder, &[&["fix"], words].concat())
}

fn text_of(file: &Path) -> String {
    String::from_utf8(std::fs::read(file).expect("a file that can be read")).expect("text")
}
