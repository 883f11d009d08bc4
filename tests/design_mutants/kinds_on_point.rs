//! What is done to each number of the example that stands on point with sashing.

use super::kinds::{
    AMOUNT, COUNT, EIGHTH, FINISHED, HALF, Kind, ONE, QUARTER, Reason, UP_OR_DOWN_ONE, caught, caught_at, undetectable,
};

/// Every kind of number that the example on point states.
pub(crate) const KINDS_ON_POINT: &[Kind] = &[
    Kind { path: "edition/0", steps: &[undetectable(ONE, Reason::NothingDependsOnIt)] },
    Kind { path: "assumes/usable_width/0", steps: &[caught_at(-4 * ONE, "fabrics/*/cut/strips/*/0")] },
    Kind { path: "assumes/seam/0", steps: &[caught(-EIGHTH), caught(EIGHTH)] },
    Kind { path: "assumes/sold_by/0", steps: &[undetectable(EIGHTH, Reason::Assumed)] },
    Kind { path: "sizes/*/finished/*", steps: FINISHED },
    Kind { path: "units/*/finished/0", steps: FINISHED },
    Kind { path: "blocks/*/finished/0", steps: FINISHED },
    Kind { path: "blocks/*/unfinished/0", steps: &[caught(-EIGHTH), caught(EIGHTH)] },
    Kind { path: "blocks/*/makes/*/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/across/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/down/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/sashing/0", steps: &[caught(-QUARTER), caught(QUARTER)] },
    Kind { path: "layout/*/borders/width/0", steps: &[caught(-HALF), caught(HALF)] },
    Kind { path: "fabrics/*/requires/*/0", steps: AMOUNT },
    // A larger square is trimmed.
    Kind { path: "fabrics/*/cut/size/*", steps: &[caught(-EIGHTH), undetectable(EIGHTH, Reason::Generous)] },
    Kind { path: "fabrics/*/cut/strip_width/0", steps: &[caught(-EIGHTH), caught(-HALF)] },
    Kind { path: "fabrics/*/cut/strips/*/0", steps: &[caught(-ONE)] },
    Kind { path: "fabrics/*/cut/pieces/*/0", steps: COUNT },
    Kind { path: "binding/strip_width/0", steps: &[caught(-ONE), undetectable(-QUARTER, Reason::WithinRounding)] },
    // The tails are 18 in together and 12 1/2 in are needed.
    Kind { path: "binding/tails/*/0", steps: &[caught(-7 * ONE), undetectable(-ONE, Reason::WithinRounding)] },
    Kind { path: "binding/requires/*/strips/0", steps: COUNT },
];
