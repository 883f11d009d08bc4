//! What is done to each number of the example that is sewn in rows, step by step.

use super::kinds::{
    AMOUNT, COUNT, CUT, EIGHTH, FINISHED, HALF, Kind, ONE, QUARTER, Reason, Step, UP_OR_DOWN_ONE, caught, caught_at,
    undetectable,
};

const MEASURED: &[Step] = &[caught(-EIGHTH), caught(EIGHTH), caught(-HALF)];
const BY_HALF: &[Step] = &[caught(-HALF), caught(HALF)];

/// Every kind of number that the example of blocks in rows states.
pub(crate) const KINDS_OF_ROWS: &[Kind] = &[
    Kind { path: "edition/0", steps: &[undetectable(ONE, Reason::NothingDependsOnIt)] },
    Kind {
        path: "assumes/usable_width/0",
        // In a wider fabric one strip fewer goes around the smaller of two sizes that print as many.
        steps: &[caught_at(-4 * ONE, "fabrics/*/cut/strips/*/0"), caught_at(ONE, "binding/requires/*/strips/0")],
    },
    Kind { path: "assumes/seam/0", steps: &[caught(-EIGHTH), caught(EIGHTH)] },
    Kind { path: "assumes/sold_by/0", steps: &[undetectable(EIGHTH, Reason::Assumed)] },
    Kind { path: "sizes/*/finished/*", steps: FINISHED },
    Kind { path: "units/*/finished/*", steps: FINISHED },
    Kind { path: "units/*/yields/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "units/*/trim/0", steps: &[caught(-EIGHTH), caught(EIGHTH), caught(-HALF)] },
    // A smaller corner is flipped over from a larger square than it must be.
    Kind { path: "units/*/corner/0", steps: &[caught(QUARTER), undetectable(-QUARTER, Reason::Generous)] },
    Kind { path: "units/*/center/0", steps: BY_HALF },
    Kind { path: "units/*/logs/*", steps: &[caught(-QUARTER), caught(QUARTER)] },
    Kind { path: "units/*/makes/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "units/*/makes/*/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "blocks/*/finished/*", steps: FINISHED },
    Kind { path: "blocks/*/unfinished/*", steps: MEASURED },
    Kind { path: "blocks/*/makes/*/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/rows/*", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/times/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/sashing/0", steps: &[caught(-QUARTER), caught(QUARTER)] },
    Kind { path: "layout/*/measures/*", steps: MEASURED },
    Kind { path: "layout/*/borders/width/0", steps: BY_HALF },
    Kind { path: "layout/*/borders/width/*/0", steps: BY_HALF },
    Kind { path: "layout/*/borders/measures/*", steps: MEASURED },
    Kind { path: "fabrics/*/requires/*/0", steps: AMOUNT },
    Kind { path: "fabrics/*/cut/size/*", steps: CUT },
    Kind { path: "fabrics/*/cut/strip_width/0", steps: &[caught(-EIGHTH), caught(-HALF)] },
    Kind { path: "fabrics/*/cut/strip_width/*/0", steps: &[caught(-EIGHTH), caught(-HALF)] },
    Kind { path: "fabrics/*/cut/strips/*/0", steps: COUNT },
    Kind { path: "fabrics/*/cut/pieces/*/0", steps: COUNT },
    Kind { path: "binding/strip_width/0", steps: &[caught(-ONE), undetectable(-QUARTER, Reason::WithinRounding)] },
    // The tails are 24 in together and 12 1/2 in are needed.
    Kind { path: "binding/tails/*/0", steps: &[caught(-10 * ONE), undetectable(-ONE, Reason::WithinRounding)] },
    Kind { path: "binding/requires/*/strips/0", steps: COUNT },
];
