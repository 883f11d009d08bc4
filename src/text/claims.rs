//! Whether a text that says a number claims that it is a certain one of the manuscript.

use super::candidates::Candidates;
use super::elements::{Element, Form};
use super::keys::{Key, KeyValue, What};
use super::lexicon::{Act, Cue, Noun, Section};

/// Whether a text that says a number like this claims that it is the key's.
pub(super) fn is_claimed(key: &Key, candidates: &Candidates, own: &Element, across_fabric: bool) -> bool {
    let is_count = matches!(key.value, KeyValue::Count(_));
    let is_bare = own.form == Form::Scalar && !candidates.has_unit && !candidates.in_run && !candidates.around.in_table;
    // The weights alone say that.
    if matches!(key.value, KeyValue::Grid(..)) {
        return false;
    }
    if !key.is_sure || is_bare && candidates.is_whole && !is_count {
        return false;
    }
    let is_side = candidates.around.is_measure && (candidates.around.in_table || candidates.in_run);
    if matches!(key.value, KeyValue::Sides(_)) && own.form == Form::Scalar && !is_square(key) && !is_side {
        return false;
    }
    if matches!(key.value, KeyValue::Length(_)) && own.form == Form::Sides && !across_fabric {
        return false;
    }
    match key.what {
        What::Amount => true,
        What::Seam => {
            !candidates.around.other_seam
                && candidates.around.noun_is_adjacent
                && candidates.around.nouns & Noun::Seam.bit() != 0
        }
        What::CutSize
            if candidates.around.noun_follows
                && candidates.around.noun_is_near
                && key.nouns & candidates.around.nouns != 0
                && candidates
                    .around
                    .subjects
                    .first()
                    .is_some_and(|level| level.cues.iter().any(|cue| matches!(cue, Cue::Piece(..)))) =>
        {
            true
        }
        What::Length if key.acts & Act::Beyond.bit() != 0 => {
            candidates.around.acts & Act::Beyond.bit() != 0 && candidates.named_near
        }
        What::Length if key.acts == Act::Finished.bit() => {
            candidates.around.acts & Act::Finished.bit() != 0 && candidates.around.act_is_near && candidates.named_near
        }
        What::Length => key.nouns & candidates.around.nouns != 0 && candidates.around.noun_is_near && key.nouns != 0,
        What::Laid => candidates.around.is_grid || candidates.around.in_table && candidates.around.noun_is_near,
        What::FromEach => candidates.around.of_each && key.is_stated(),
        What::UsableWidth => {
            candidates.has_unit && candidates.around.noun_is_near && candidates.around.nouns & Noun::Usable.bit() != 0
        }
        What::Count => false,
        What::Makes => candidates.around.acts & Act::Make.bit() != 0 || candidates.around.in_table,
        What::Finished if key.is_of(Cue::Section(Section::Quilt)) => own.form == Form::Sides || is_side,
        _ => {
            let acts = key.acts & candidates.around.acts != 0;
            let around = &candidates.around;
            // A bare number in a table of which only the fabric is named may be an amount as well.
            let has_unit = candidates.has_unit || around.nouns != 0 || candidates.names_thing();
            let in_line = candidates.named_near && !around.in_table && (candidates.is_lined || around.noun_is_adjacent);
            let in_table = around.acts == 0 && (around.in_table && has_unit || in_line);
            (acts || in_table)
                && (key.nouns & candidates.around.nouns != 0 || !candidates.around.noun_is_near)
                && !(own.form == Form::Scalar
                    && candidates.around.acts & Act::Around.bit() != 0
                    && key.what == What::CutSize)
        }
    }
}

fn is_square(key: &Key) -> bool {
    match &key.value {
        KeyValue::Sides(sides) => sides.iter().all(|(width, length)| width == length),
        _ => true,
    }
}
