//! What is done to each number of the example, and what cannot be found out by anybody who has the manuscript alone.

/// A kind of number: where it stands, with `*` for any one word, and the steps by which it is changed.
pub(crate) struct Kind {
    pub(crate) path: &'static str,
    pub(crate) steps: &'static [Step],
}

/// The kinds whose numbers follow from others, so that a smaller one has a correction, and this restores it.
pub(crate) const MENDED: &[&str] = &[
    "sizes/*/finished/*",
    "units/*/trim/0",
    "units/*/segment/0",
    "blocks/*/finished/0",
    "fabrics/*/requires/*/*",
    "fabrics/*/cut/size/*",
    "fabrics/*/cut/strips/*/0",
    "fabrics/*/cut/pieces/*/0",
    "binding/requires/*/strips/0",
    "backing/requires/*/*/0",
    "batting/requires/*/*",
];

/// A change of one number, in sixty-fourths of what it is written in, or hundredths of a decimal.
pub(crate) struct Step {
    pub(crate) by: i64,
    pub(crate) outcome: Outcome,
}

/// What must come of a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// A query or an error, which shows the number.
    Caught,
    /// A query or an error at another number, which it contradicts: what this one says is assumed for all of those.
    CaughtAt(&'static str),
    /// Nothing need be found, for this reason; of each kind one at least passes, which a test proves.
    Undetectable(Reason),
}

/// Why a change cannot be found out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Reason {
    /// No number of the pattern depends on it, or none in this direction.
    NothingDependsOnIt,
    /// It is what the reader is told to assume; every other number is still enough under it.
    Assumed,
    /// More than is needed is a choice, and a note at most.
    Generous,
    /// It stays within the room that other numbers leave, or within what whole strips and steps of the shop round up.
    WithinRounding,
}

pub(crate) const ONE: i64 = 64;
pub(crate) const HALF: i64 = 32;
pub(crate) const QUARTER: i64 = 16;
pub(crate) const EIGHTH: i64 = 8;

pub(crate) const fn caught(by: i64) -> Step {
    Step { by, outcome: Outcome::Caught }
}

pub(crate) const fn caught_at(by: i64, path: &'static str) -> Step {
    Step { by, outcome: Outcome::CaughtAt(path) }
}

pub(crate) const fn undetectable(by: i64, reason: Reason) -> Step {
    Step { by, outcome: Outcome::Undetectable(reason) }
}

pub(crate) const UP_OR_DOWN_ONE: &[Step] = &[caught(-ONE), caught(ONE)];
pub(crate) const FINISHED: &[Step] = &[caught(-ONE), caught(ONE), caught(-HALF), caught(HALF)];
pub(crate) const AMOUNT: &[Step] = &[caught(-EIGHTH), undetectable(EIGHTH, Reason::Generous)];
pub(crate) const CUT: &[Step] = &[caught(-EIGHTH), caught(-HALF), undetectable(EIGHTH, Reason::Generous)];
pub(crate) const COUNT: &[Step] = &[caught(-ONE), undetectable(ONE, Reason::Generous)];

/// Every kind of number that the example of blocks in a grid states.
pub(crate) const KINDS: &[Kind] = &[
    Kind { path: "edition/0", steps: &[undetectable(ONE, Reason::NothingDependsOnIt)] },
    Kind {
        path: "assumes/usable_width/0",
        // A bolt that is wider than the pattern says is what careful patterns leave room for.
        steps: &[
            caught_at(-ONE, "fabrics/*/cut/strips/*/0"),
            caught_at(-2 * ONE, "fabrics/*/cut/strips/*/0"),
            undetectable(ONE, Reason::Assumed),
        ],
    },
    Kind { path: "assumes/seam/0", steps: &[caught(-EIGHTH), caught(EIGHTH)] },
    Kind { path: "assumes/sold_by/0", steps: &[undetectable(EIGHTH, Reason::Assumed)] },
    Kind { path: "sizes/*/finished/*", steps: FINISHED },
    // A quilt that hangs lower than it must still covers the bed.
    Kind { path: "sizes/*/drop/0", steps: &[caught(ONE), undetectable(-ONE, Reason::Generous)] },
    Kind { path: "units/*/finished/*", steps: FINISHED },
    Kind { path: "units/*/yields/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "units/*/trim/0", steps: &[caught(-EIGHTH), caught(EIGHTH), caught(-HALF)] },
    Kind { path: "units/*/segment/0", steps: CUT },
    Kind { path: "blocks/*/finished/0", steps: FINISHED },
    Kind { path: "layout/*/across/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/down/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/blocks/*/0", steps: UP_OR_DOWN_ONE },
    Kind { path: "layout/*/sashing/0", steps: &[caught(-QUARTER), caught(QUARTER)] },
    Kind { path: "layout/*/borders/width/0", steps: &[caught(-HALF), caught(HALF)] },
    // In yards by the eighth that shops sell; in metres by the tenth, which is ten hundredths.
    Kind { path: "fabrics/*/requires/*/0", steps: AMOUNT },
    Kind { path: "fabrics/*/requires/*/1", steps: &[caught(-10), undetectable(10, Reason::WithinRounding)] },
    Kind { path: "fabrics/*/cut/size/*", steps: CUT },
    // Wider strips take more fabric than is stated.
    Kind {
        path: "fabrics/*/cut/strip_width/0",
        steps: &[caught_at(EIGHTH, "fabrics/*/requires/*/*"), caught(-EIGHTH), caught(-HALF)],
    },
    Kind { path: "fabrics/*/cut/strips/*/0", steps: COUNT },
    Kind { path: "fabrics/*/cut/pieces/*/0", steps: COUNT },
    Kind {
        path: "binding/strip_width/0",
        // A strip of 2 or 2 1/4 in folds over this edge as well: which of them is a choice.
        steps: &[caught(-ONE), undetectable(-QUARTER, Reason::WithinRounding)],
    },
    // The tails are 14 in together and 12 1/2 in are needed.
    Kind { path: "binding/tails/*/0", steps: &[caught(-2 * ONE), undetectable(-ONE, Reason::WithinRounding)] },
    Kind { path: "binding/opening/0", steps: &[caught(2 * ONE), undetectable(-ONE, Reason::WithinRounding)] },
    Kind { path: "binding/requires/*/strips/0", steps: COUNT },
    // The backing is then too small. The other way the stated fabric still carries the batting.
    Kind {
        path: "backing/overhang/0",
        steps: &[caught_at(ONE, "backing/requires/*/fabric/0"), undetectable(-ONE, Reason::Generous)],
    },
    // The seam is taken from panels that are wider than they must be.
    Kind { path: "backing/seam/0", steps: &[undetectable(QUARTER, Reason::WithinRounding)] },
    Kind { path: "backing/requires/*/fabric/0", steps: AMOUNT },
    Kind { path: "backing/requires/*/panels/0", steps: UP_OR_DOWN_ONE },
    Kind {
        path: "batting/overhang/0",
        steps: &[caught_at(ONE, "batting/requires/*/0"), undetectable(-ONE, Reason::Assumed)],
    },
    // The stated fabric makes a backing that is up to a step of the shop longer than it must be, and up to a panel wider.
    // On that a larger batting lies, and not on one more.
    Kind {
        path: "batting/requires/*/*",
        steps: &[caught(-ONE), undetectable(ONE, Reason::WithinRounding), caught(40 * ONE)],
    },
];

/// Whether a path is one that a pattern means.
pub(crate) fn is_of(pattern: &str, path: &str) -> bool {
    let (mut pattern, mut words) = (pattern.split('/'), path.split('/'));
    loop {
        match (pattern.next(), words.next()) {
            (None, None) => return true,
            (Some(known), Some(word)) if known == "*" || known == word => {}
            _ => return false,
        }
    }
}
