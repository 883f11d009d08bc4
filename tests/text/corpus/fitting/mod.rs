//! Fits the weights of the signs by which a number of a text is known to the numbers of the corpus:
//!
//! ```text
//! cargo test --release --test program fit_the_weights -- --ignored --nocapture
//! ```
//!
//! writes `rules/words/text-weights.txt`, or the file that `FIT_OUT` names, and prints how weights do on texts that they
//! were not fitted to. `FIT_STEP` takes every so manieth change of the texts, instead of every seventh.
//!
//! First the keys: which number of the manuscript a number is, or none (`keys`). Then the verdict: whether it is right or a
//! slip, by what the first weights say (`verdicts`). Both are choices among options with signs (`choices`), and the weights
//! are those by which what is right is the likeliest (`descent`). The writers of the corpus are parted into groups
//! (`folds`): what is learned of verdicts, and every figure, comes of weights that were fitted to the other groups.

#![allow(clippy::float_arithmetic, clippy::cast_possible_truncation)] // It proposes weights, and the program takes whole numbers.

mod choices;
mod descent;
mod file;
mod folds;
mod keys;
mod places;
mod traps;
mod verdicts;

use std::ops::Range;
use std::path::PathBuf;

use rayon::prelude::*;
use sparestrip::Source;
use sparestrip::rule_book::Settings;
use sparestrip::text::{NumberSigns, TextFile, signs_of};

use super::super::readers::document::{Part, markdown};
use super::{Text, texts};
use verdicts::Verdicts;

/// Every so manieth change is taken: no divisor of how many changes numbers commonly have.
const STEP: usize = 7;

/// The signs of the numbers of a text, or of those that touch bytes of a passage.
fn signs(source: &Source, parts: &[Part], only: Option<&(usize, Range<usize>)>) -> Vec<NumberSigns> {
    let file = TextFile::new(PathBuf::from("text.md"), markdown(parts).into_bytes());
    signs_of(&file, source, &Settings::default(), only)
}

#[test]
#[ignore = "takes minutes, and writes the weights"]
fn fit_the_weights() {
    let step = std::env::var("FIT_STEP").map_or(STEP, |step| step.parse().unwrap());
    let mut texts: Vec<Text> = texts("texts");
    texts.extend(traps::texts());
    let keys = keys::Fitted::new(texts.par_iter().map(keys::of_text).collect());
    println!("{keys}");
    let verdicts = Verdicts::new(verdicts::judged(&texts, step, &keys), traps::judged(&texts, &keys));
    println!("{verdicts}");
    let mut weights = keys.choices.signs.named(&keys.by_all);
    weights.extend(verdicts.written());
    println!("{}", file::write(&weights));
}
