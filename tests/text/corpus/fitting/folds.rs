//! The writers of the corpus in groups: the first letter of a text's name says who wrote it, and what is fitted to a
//! writer's texts says little of how well other writers' are read.

/// How many groups there are.
pub(super) const FOLDS: usize = 4;

/// The letters of each.
const LETTERS: [&str; FOLDS] = ["01234ab", "knr", "mpu", "qs"];

/// The group of a letter; new ones are dealt out.
pub(super) fn fold(letter: char) -> usize {
    let known = LETTERS.iter().position(|letters| letters.contains(letter));
    known.unwrap_or(letter as usize % FOLDS)
}

/// The letter of a text.
pub(super) fn letter(name: &str) -> char {
    name.chars().next().unwrap()
}
