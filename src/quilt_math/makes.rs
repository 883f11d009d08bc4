//! The makes of units: for each its methods, its parts with their counts, how they are cut, what one set gives, and an
//! example. The reader of manuscripts, the requirements, the reference and the schema all go by these rows.

use super::rectangle::Rectangle;
use super::units::{
    Part, Share, Side, corner_triangle, half_rectangle, half_square_eight, half_square_four, half_square_two, patch,
    plain, quarter_square, side_triangle, square_on_point,
};
use crate::keywords::Keyword;
use crate::keywords::keywords;
use crate::quantity::{Count, Length};

/// What is known of a make.
#[derive(Debug)]
pub struct MakeRow {
    /// The make.
    pub make: Make,
    /// What it is, as a clause.
    pub says: &'static str,
    /// What its finished size must be.
    pub finished: Finished,
    /// The ways in which it is made, the usual one first.
    pub ways: &'static [Way],
    /// A unit of this make, as a manuscript states it.
    pub example: &'static str,
}

/// What the finished size of a make must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finished {
    /// Any width and height.
    Any,
    /// Square.
    Square,
    /// Twice as wide as it is high.
    TwiceAsWide,
    /// That of the square block which the triangle sets on point.
    OfBlock,
}

/// One way in which a unit is made.
#[derive(Debug)]
pub struct Way {
    /// The word for it, where there is more than one.
    pub method: Option<Method>,
    /// Its parts; none for a strip set, whose strips the writer names.
    pub parts: &'static [PartRow],
    /// How many units one set of pieces gives; `None` where that depends on how long the strips are.
    pub gives: Option<Count>,
    /// How it is cut or sewn, where the parts alone do not say it.
    pub note: &'static str,
}

impl Way {
    /// How a unit that is made this way is cut, part by part; none for a strip set, whose strips the writer chooses.
    ///
    /// The finished size of a triangle that sets blocks is that of the block.
    pub fn cut_parts(&self, finished: Rectangle, seam: Length) -> Vec<Part> {
        let part = |row: &PartRow| {
            let (width, height) = (row.sides)(finished, seam);
            Part { name: row.name, pieces: row.pieces, width, height, share: row.share }
        };
        self.parts.iter().map(part).collect()
    }
}

/// A part of a unit.
#[derive(Debug)]
pub struct PartRow {
    /// What the format calls it.
    pub name: &'static str,
    /// How many pieces one set takes.
    pub pieces: Count,
    /// Which way each is cut into triangles before it is sewn.
    pub cut: Diagonally,
    /// How wide and how high each is cut, by the finished size and the seam.
    pub sides: fn(Rectangle, Length) -> (Side, Side),
    /// The same in letters: f for the finished side, s for the seam.
    pub formula: &'static str,
    /// The cut size of the part in the example of the make, for a seam of 1/4 in.
    pub example: &'static str,
    /// What a larger piece does to the unit.
    pub share: Share,
}

/// How often a piece is cut from corner to corner before it is sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Diagonally {
    /// Not at all.
    Whole,
    /// Once, into two triangles.
    Once,
    /// Twice, into four triangles.
    Twice,
}

keywords!(
    /// What a unit is.
    Make {
    /// One piece.
    Patch = "patch",
    /// Two triangles of half a square each.
    HalfSquareTriangle = "half_square_triangle",
    /// Four triangles of a quarter of a square each.
    QuarterSquareTriangle = "quarter_square_triangle",
    /// One large triangle, the goose, between two small ones.
    FlyingGeese = "flying_geese",
    /// A square on its point in a square.
    SquareInASquare = "square_in_a_square",
    /// Two triangles of half a rectangle each.
    HalfRectangleTriangle = "half_rectangle_triangle",
    /// Strips sewn side by side and cut across into segments.
    StripSet = "strip_set",
    /// The triangle that fills the side of a quilt set on point.
    SideTriangle = "side_triangle",
    /// The triangle that fills the corner of a quilt set on point.
    CornerTriangle = "corner_triangle",
});
keywords!(
    /// How a unit is made.
    Method {
    /// Two squares give two units.
    TwoAtATime = "two_at_a_time",
    /// One set of squares gives four units.
    FourAtATime = "four_at_a_time",
    /// Two squares give eight units.
    EightAtATime = "eight_at_a_time",
    /// Squares are sewn across the corners and flipped over.
    StitchAndFlip = "stitch_and_flip",
    /// Triangles are cut and sewn on.
    Pieced = "pieced",
});

impl Make {
    /// All makes, in the order of the format.
    pub fn all() -> impl Iterator<Item = &'static MakeRow> {
        Make::WORDS.iter().map(|(_, make)| make.row())
    }

    /// What is known of it.
    pub const fn row(self) -> &'static MakeRow {
        match self {
            Make::Patch => &PATCH,
            Make::HalfSquareTriangle => &HALF_SQUARE_TRIANGLE,
            Make::QuarterSquareTriangle => &QUARTER_SQUARE_TRIANGLE,
            Make::FlyingGeese => &FLYING_GEESE,
            Make::SquareInASquare => &SQUARE_IN_A_SQUARE,
            Make::HalfRectangleTriangle => &HALF_RECTANGLE_TRIANGLE,
            Make::StripSet => &STRIP_SET,
            Make::SideTriangle => &SIDE_TRIANGLE,
            Make::CornerTriangle => &CORNER_TRIANGLE,
        }
    }

    /// The way of a method, or the usual one.
    pub fn way(self, method: Option<Method>) -> &'static Way {
        let ways = self.row().ways;
        ways.iter().find(|way| method.is_some() && way.method == method).unwrap_or(&ways[0])
    }

    /// Whether it is sewn from strips that the writer names.
    pub fn is_strip_set(self) -> bool {
        self.row().is_strip_set()
    }

    /// Whether it is a triangle that sets blocks on point.
    pub fn sets_blocks(self) -> bool {
        self.row().finished == Finished::OfBlock
    }
}

impl MakeRow {
    /// Whether a word says how it is made.
    pub const fn has_methods(&self) -> bool {
        self.ways.len() > 1
    }

    /// Whether the writer names its parts.
    pub const fn is_strip_set(&self) -> bool {
        self.ways[0].parts.is_empty()
    }
}

impl Way {
    /// The part of a name.
    pub fn part(&self, name: &str) -> Option<&'static PartRow> {
        self.parts.iter().find(|part| part.name == name)
    }
}

fn both(side: Side) -> (Side, Side) {
    (side, side)
}

/// A part of which one piece makes a set, cut as `sides` says and sewn whole.
const fn part(
    name: &'static str,
    sides: fn(Rectangle, Length) -> (Side, Side),
    formula: &'static str,
    example: &'static str,
) -> PartRow {
    PartRow { name, pieces: Count(1), cut: Diagonally::Whole, sides, formula, example, share: Share::Whole }
}

impl PartRow {
    const fn times(mut self, pieces: u64) -> PartRow {
        self.pieces = Count(pieces);
        self
    }

    const fn cut(mut self, cut: Diagonally) -> PartRow {
        self.cut = cut;
        self
    }

    const fn share(mut self, share: Share) -> PartRow {
        self.share = share;
        self
    }
}

static PATCH: MakeRow = MakeRow {
    make: Make::Patch,
    says: "one piece",
    finished: Finished::Any,
    ways: &[Way { method: None, parts: &[part("patch", patch, "f + 2s", "3 1/2")], gives: Some(Count(1)), note: "" }],
    example: "{ make: patch, finished: 3, cut: { patch: 3 1/2 } }",
};

/// Squares in pairs, one of each fabric, that are sewn together and then cut apart.
macro_rules! pair {
    ($side:expr, $formula:literal, $example:literal, $share:expr) => {
        &[
            part("first", |finished, s| both($side(finished.width, s)), $formula, $example).share($share),
            part("second", |finished, s| both($side(finished.width, s)), $formula, $example).share($share),
        ]
    };
}

static HALF_SQUARE_TRIANGLE: MakeRow = MakeRow {
    make: Make::HalfSquareTriangle,
    says: "two triangles of half a square each",
    finished: Finished::Square,
    ways: &[
        Way {
            method: Some(Method::TwoAtATime),
            parts: pair!(half_square_two, "f + s (2 + √2), which is f + 7/8 with s = 1/4", "3 7/8", Share::Whole),
            gives: Some(Count(2)),
            note: "",
        },
        Way {
            method: Some(Method::FourAtATime),
            parts: pair!(half_square_four, "c with (c - 2s) / √2 = f + 2s", "5 1/2", Share::OverRootOfTwo),
            gives: Some(Count(4)),
            note: "sewn around the edge",
        },
        Way {
            method: Some(Method::EightAtATime),
            parts: pair!(half_square_eight, "twice that of two at a time", "7 3/4", Share::Half),
            gives: Some(Count(8)),
            note: "",
        },
    ],
    example: "{ make: half_square_triangle, finished: 3, cut: { first: 3 7/8, second: 3 7/8 } }",
};

static QUARTER_SQUARE_TRIANGLE: MakeRow = MakeRow {
    make: Make::QuarterSquareTriangle,
    says: "four triangles of a quarter of a square each",
    finished: Finished::Square,
    ways: &[Way {
        method: None,
        parts: pair!(quarter_square, "f + s (2 + 2√2), which is f + 1 1/4 with s = 1/4", "4 1/4", Share::Whole),
        gives: Some(Count(2)),
        note: "",
    }],
    example: "{ make: quarter_square_triangle, finished: 3, cut: { first: 4 1/4, second: 4 1/4 } }",
};

static FLYING_GEESE: MakeRow = MakeRow {
    make: Make::FlyingGeese,
    says: "one large triangle, the goose, between two small ones, the sky",
    finished: Finished::TwiceAsWide,
    ways: &[
        // The goose is a quarter of a square over its long side, the sky half of a square. 4 x 2 takes 5 1/4 and 2 7/8
        // (Sylvia's Quilt Depot).
        Way {
            method: Some(Method::FourAtATime),
            parts: &[
                part("goose", |finished, s| both(quarter_square(finished.width, s)), "width + s (2 + 2√2)", "5 1/4"),
                part(
                    "sky",
                    |finished, s| both(half_square_two(finished.width.half(), s)),
                    "height + s (2 + √2)",
                    "2 7/8",
                )
                .times(4),
            ],
            gives: Some(Count(4)),
            note: "",
        },
        // The seam is the square's diagonal and reaches from the finished corner to the middle of the finished side.
        Way {
            method: Some(Method::StitchAndFlip),
            parts: &[
                part("goose", patch, "width + 2s x height + 2s", "4 1/2 x 2 1/2"),
                part("sky", |finished, s| both(plain(finished.length, s)), "height + 2s", "2 1/2")
                    .times(2)
                    .share(Share::SeamMoves),
            ],
            gives: Some(Count(1)),
            note: "",
        },
    ],
    example: "{ make: flying_geese, finished: 4 x 2, cut: { goose: 5 1/4, sky: 2 7/8 } }",
};

static SQUARE_IN_A_SQUARE: MakeRow = MakeRow {
    make: Make::SquareInASquare,
    says: "a square on its point in a square",
    finished: Finished::Square,
    ways: &[
        Way {
            method: Some(Method::StitchAndFlip),
            parts: &[
                part("center", |finished, s| both(plain(finished.width, s)), "f + 2s", "4 1/2"),
                part("corner", |finished, s| both(plain(finished.width.half(), s)), "f/2 + 2s", "2 1/2")
                    .times(4)
                    .share(Share::SeamMoves),
            ],
            gives: Some(Count(1)),
            note: "",
        },
        Way {
            method: Some(Method::Pieced),
            parts: &[
                part("center", |finished, s| both(square_on_point(finished.width, s)), "f/√2 + 2s", "3 3/8"),
                part(
                    "corner",
                    |finished, s| both(half_square_two(finished.width.half(), s)),
                    "f/2 + s (2 + √2)",
                    "2 7/8",
                )
                .times(2)
                .cut(Diagonally::Once),
            ],
            gives: Some(Count(1)),
            note: "",
        },
    ],
    example: "{ make: square_in_a_square, finished: 4, cut: { center: 4 1/2, corner: 2 1/2 } }",
};

static HALF_RECTANGLE_TRIANGLE: MakeRow = MakeRow {
    make: Make::HalfRectangleTriangle,
    says: "two triangles of half a rectangle each",
    finished: Finished::Any,
    ways: &[Way {
        method: None,
        parts: &[
            part("first", half_rectangle, "the finished triangle with a seam all around", "3 3/4 x 7 3/8")
                .cut(Diagonally::Once),
            part("second", half_rectangle, "the finished triangle with a seam all around", "3 3/4 x 7 3/8")
                .cut(Diagonally::Once),
        ],
        gives: Some(Count(2)),
        note: "",
    }],
    example: "{ make: half_rectangle_triangle, finished: 3 x 6, cut: { first: 3 3/4 x 7 3/8, second: 3 3/4 x 7 3/8 } }",
};

static STRIP_SET: MakeRow = MakeRow {
    make: Make::StripSet,
    says: "strips sewn side by side and cut across into segments",
    finished: Finished::Any,
    ways: &[Way {
        method: None,
        parts: &[],
        gives: None,
        note: "strips by names of your own, each its finished width + 2s; segments of height + 2s; one strip of each gives \
         strip length / segment",
    }],
    example: "{ make: strip_set, finished: 4, cut: { dark: 2 1/2 x 40, light: 2 1/2 x 40 } }",
};

static SIDE_TRIANGLE: MakeRow = MakeRow {
    make: Make::SideTriangle,
    says: "the triangle that fills the side of a quilt set on point",
    finished: Finished::OfBlock,
    ways: &[Way {
        method: None,
        parts: &[part("square", |finished, s| both(side_triangle(finished.width, s)), "f√2 + s (2 + 2√2)", "18 1/4")
            .cut(Diagonally::Twice)
            .share(Share::Half)],
        gives: Some(Count(4)),
        note: "",
    }],
    example: "{ make: side_triangle, finished: 12, cut: { square: 18 1/4 } }",
};

static CORNER_TRIANGLE: MakeRow = MakeRow {
    make: Make::CornerTriangle,
    says: "the triangle that fills the corner of a quilt set on point",
    finished: Finished::OfBlock,
    ways: &[Way {
        method: None,
        parts: &[part("square", |finished, s| both(corner_triangle(finished.width, s)), "f/√2 + s (2 + √2)", "9 3/8")
            .cut(Diagonally::Once)
            .share(Share::OverRootOfTwo)],
        gives: Some(Count(2)),
        note: "",
    }],
    example: "{ make: corner_triangle, finished: 12, cut: { square: 9 3/8 } }",
};
