//! Numbers of what a manuscript does not state: none of its numbers says that they are wrong.

use super::super::keys::{KeyValue, What};
use super::super::lexicon::{Cue, Section};
use super::number::Number;
use crate::quantity::{Length, Unit};

/// What is bought or made by itself, of which a manuscript may state some numbers and not others.
const PARTS: [Section; 6] =
    [Section::Binding, Section::Backing, Section::Batting, Section::Sleeve, Section::Flange, Section::Label];

/// How many times narrower than a quilt something is, for its length, that is no quilt.
const NARROWER: i128 = 3;

/// Whether what stands at a number is something else than a key is of, of which the manuscript states no such number:
/// `5 1/2 yd backing`, where it has no backing; `each row should measure 12 1/2" x 96 1/2"`; rows set on point.
pub(super) fn is_of_unstated(number: &Number<'_, '_>, key: usize) -> bool {
    is_of_part(number, key) || is_narrower_than_quilt(number, key) || is_of_diagonal_row(number, key)
}

/// Whether a part is named there, and neither what the key is of nor any number of its kind of that part is known.
fn is_of_part(number: &Number<'_, '_>, key: usize) -> bool {
    let keys = number.gathered.keys;
    let Some(level) = number.levels().find(|level| !level.cues.is_empty()) else { return false };
    let fits = &number.candidates.fits;
    let is_stated = |cue: Cue| {
        let mut likes = fits.like().iter().filter(|key| fits.likeness(keys, **key) == (true, true));
        likes.any(|key| keys.list[*key].is_of(cue))
    };
    let is_amount = keys.list[key].what == What::Amount;
    let is_part = |cue: &&Cue| match cue {
        Cue::Section(Section::Border | Section::Sashing) | Cue::Border(_) => is_amount,
        Cue::Section(section) => PARTS.contains(section),
        _ => false,
    };
    !level.cues.iter().any(|cue| keys.list[key].is_of(*cue))
        && level.cues.iter().filter(is_part).any(|cue| !is_stated(*cue))
}

/// Whether two sides are far longer and narrower than the quilt that the key is the size of: a row, a strip, a border.
fn is_narrower_than_quilt(number: &Number<'_, '_>, key: usize) -> bool {
    let key = &number.gathered.keys.list[key];
    let is_quilt = |cue: &Cue| matches!(cue, Cue::Section(Section::Quilt | Section::Top));
    let ([one, other], KeyValue::Sides(sides)) = (&number.own.numbers[..], &key.value) else { return false };
    let side = |at: usize| number.here.tokens.numbers[at].first().of(Unit::Inch).ticks();
    let is_narrower = |(width, length): &(Length, Length)| {
        let (narrow, long) = (side(*one).min(side(*other)), side(*one).max(side(*other)));
        let (width, length) = (width.ticks().min(length.ticks()), width.ticks().max(length.ticks()));
        let by_length = narrow.checked_mul(length).and_then(|by| by.checked_mul(NARROWER));
        by_length.zip(long.checked_mul(width)).is_some_and(|(one, other)| one < other)
    };
    key.of.iter().any(is_quilt) && !sides.is_empty() && sides.iter().all(is_narrower)
}

/// Whether rows on the diagonal are told there, which are longer and shorter than the quilt has blocks across and down.
fn is_of_diagonal_row(number: &Number<'_, '_>, key: usize) -> bool {
    let here = number.here;
    let sentence = here.sentence(number.candidates.element);
    let is_laid = number.gathered.keys.list[key].what == What::Laid;
    is_laid && here.tokens.list[sentence].iter().any(|token| matches!(token.stem.as_str(), "diagonal" | "diagonally"))
}
