//! The makes of units: for each its methods, its parts with their counts, how they are cut, what one set gives, and an
//! example. The reader of manuscripts, the requirements, the reference and the schema all go by these rows.

use super::log_cabin::Log;
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
    /// How its pieces lie in it.
    pub laid: Laid,
    /// What it is, as a clause.
    pub says: &'static str,
    /// What its finished size must be.
    pub finished: Finished,
    /// The ways in which it is made, the usual one first.
    pub ways: &'static [Way],
    /// A unit of this make, as a manuscript states it.
    pub example: &'static str,
}

/// How the pieces of a make lie in it, as it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laid {
    /// One piece.
    Whole,
    /// Two triangles.
    Halves,
    /// Four triangles that meet in the middle.
    Quarters,
    /// One triangle of half, and two of a quarter.
    PlainHalf,
    /// A large triangle between two small ones.
    Goose,
    /// A square on its point, and four corners.
    SquareOnPoint,
    /// Corners that are flipped over a base.
    Flipped,
    /// Logs around a center.
    Logs,
    /// Strips side by side.
    Strips,
    /// A triangle at the side of a quilt on point.
    SideTriangle,
    /// A triangle at its corner.
    CornerTriangle,
    /// That is not known.
    Unknown,
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
    pub fn cut_parts(&self, unit: &UnitMeasures) -> Vec<Part> {
        self.parts_of(unit).map(|row| unit.part(row)).collect()
    }

    /// Whether all its pieces are cut into triangles before any of them is sewn.
    pub fn cuts_first(&self) -> bool {
        !self.parts.is_empty() && self.parts.iter().all(|part| part.cut != Diagonally::Whole)
    }

    /// The parts that a unit has: all, but that it says how many corners or logs there are.
    pub fn parts_of(&self, unit: &UnitMeasures) -> impl Iterator<Item = &'static PartRow> {
        let has = |row: &&'static PartRow| match row.of {
            PartOf::Make => true,
            PartOf::AlikeCorners => unit.corners.len() <= 1,
            PartOf::Corner(number) => unit.corners.len() > 1 && number <= unit.corners.len(),
            PartOf::Log(number) => number <= unit.logs.len(),
        };
        self.parts.iter().filter(has)
    }
}

/// What a unit says of itself, by which its parts are cut. All lengths are finished.
#[derive(Clone, Debug)]
pub struct UnitMeasures {
    /// Its finished size.
    pub finished: Rectangle,
    /// The seam that it is pieced with.
    pub seam: Length,
    /// How large its flipped corners are: one length where all are alike.
    pub corners: Vec<Length>,
    /// How many flipped corners there are, where all are alike.
    pub alike_corners: Count,
    /// The center that its logs go round.
    pub center: Option<Rectangle>,
    /// Its logs in the order of sewing.
    pub logs: Vec<Log>,
    /// How large they make the center.
    pub logs_make: Option<Rectangle>,
}

impl UnitMeasures {
    /// A unit that says no more than its finished size.
    pub fn new(finished: Rectangle, seam: Length) -> UnitMeasures {
        let (corners, logs) = (Vec::new(), Vec::new());
        UnitMeasures { finished, seam, corners, alike_corners: Count(4), center: None, logs, logs_make: None }
    }

    /// How a part is cut.
    fn part(&self, row: &PartRow) -> Part {
        let corner = |number: usize| self.corners.get(number).copied().unwrap_or_default();
        let ((width, height), pieces) = match row.of {
            PartOf::Make if row.is_center => {
                let center = self.center.unwrap_or(self.finished);
                (patch(center, self.seam), row.pieces)
            }
            PartOf::Make => ((row.sides)(self.finished, self.seam), row.pieces),
            PartOf::AlikeCorners => (both(plain(corner(0), self.seam)), self.alike_corners),
            PartOf::Corner(number) => (both(plain(corner(number - 1), self.seam)), row.pieces),
            PartOf::Log(number) => {
                let log = self.logs.get(number - 1).copied().unwrap_or_default();
                ((plain(log.width, self.seam), plain(log.length, self.seam)), row.pieces)
            }
        };
        Part { name: row.name, pieces, width, height, share: row.share }
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
    /// Which units have it.
    pub of: PartOf,
    /// Whether it is the center of a log cabin, whose size the unit states.
    pub is_center: bool,
}

/// Which units of a make have a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartOf {
    /// Every unit.
    Make,
    /// Those whose flipped corners are all alike.
    AlikeCorners,
    /// Those that state a size for each corner: the corner of this number, from 1.
    Corner(usize),
    /// Those with so many logs: the log of this number, from 1.
    Log(usize),
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
    /// One triangle of half a square and two of a quarter.
    SplitQuarterSquareTriangle = "split_quarter_square_triangle",
    /// A square or rectangle with corners that are sewn across and flipped over.
    Snowball = "snowball",
    /// Logs around a center, each as long as the side that it meets.
    LogCabin = "log_cabin",
    /// Strips sewn side by side and cut across into segments.
    StripSet = "strip_set",
    /// The triangle that fills the side of a quilt set on point.
    SideTriangle = "side_triangle",
    /// The triangle that fills the corner of a quilt set on point.
    CornerTriangle = "corner_triangle",
    /// Anything else: curves, foundation piecing, applique.
    Other = "other",
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
            Make::SplitQuarterSquareTriangle => &SPLIT_QUARTER_SQUARE_TRIANGLE,
            Make::Snowball => &SNOWBALL,
            Make::LogCabin => &LOG_CABIN,
            Make::StripSet => &STRIP_SET,
            Make::SideTriangle => &SIDE_TRIANGLE,
            Make::CornerTriangle => &CORNER_TRIANGLE,
            Make::Other => &OTHER,
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
        matches!(self.make, Make::StripSet)
    }

    /// Whether it has corners that are flipped over.
    pub const fn has_corners(&self) -> bool {
        matches!(self.make, Make::Snowball)
    }

    /// Whether it has logs around a center.
    pub const fn has_logs(&self) -> bool {
        matches!(self.make, Make::LogCabin)
    }

    /// Whether it is none of those whose cutting is known, so that the writer says which pieces it takes.
    pub const fn is_other(&self) -> bool {
        matches!(self.make, Make::Other)
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
    let (pieces, cut, share, of) = (Count(1), Diagonally::Whole, Share::Whole, PartOf::Make);
    PartRow { name, pieces, cut, sides, formula, example, share, of, is_center: false }
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

    const fn of(mut self, of: PartOf) -> PartRow {
        self.of = of;
        self
    }

    const fn center(mut self) -> PartRow {
        self.is_center = true;
        self
    }
}

static PATCH: MakeRow = MakeRow {
    make: Make::Patch,
    laid: Laid::Whole,
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
    laid: Laid::Halves,
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
    laid: Laid::Quarters,
    says: "four triangles of a quarter of a square each",
    finished: Finished::Square,
    ways: &[
        Way {
            method: Some(Method::TwoAtATime),
            parts: pair!(quarter_square, "f + s (2 + 2√2), which is f + 1 1/4 with s = 1/4", "4 1/4", Share::Whole),
            gives: Some(Count(2)),
            note: "",
        },
        // Four triangles of up to four fabrics in each unit: a square of each, cut twice, is enough for four.
        Way {
            method: Some(Method::Pieced),
            parts: &[quarter("first"), quarter("second"), quarter("third"), quarter("fourth")],
            gives: Some(Count(4)),
            note: "one triangle of each in a unit, in turn around it; two parts may be cut from one piece",
        },
    ],
    example: "{ make: quarter_square_triangle, finished: 3, cut: { first: 4 1/4, second: 4 1/4 } }",
};

/// A square that is cut twice into the triangles of quarter squares.
const fn quarter(name: &'static str) -> PartRow {
    part(name, |finished, s| both(quarter_square(finished.width, s)), "f + s (2 + 2√2)", "4 1/4").cut(Diagonally::Twice)
}

// The plain half is a half square, the pieced half two quarter squares (Ohio Star and Card Trick units are cut so; common
// practice).
static SPLIT_QUARTER_SQUARE_TRIANGLE: MakeRow = MakeRow {
    make: Make::SplitQuarterSquareTriangle,
    laid: Laid::PlainHalf,
    says: "one plain triangle of half a square, and two of a quarter of a square each",
    finished: Finished::Square,
    ways: &[Way {
        method: None,
        parts: &[
            part(
                "plain",
                |finished, s| both(half_square_two(finished.width, s)),
                "f + s (2 + √2), which is f + 7/8 with s = 1/4",
                "3 7/8",
            )
            .times(2)
            .cut(Diagonally::Once),
            quarter("first"),
            quarter("second"),
        ],
        gives: Some(Count(4)),
        note: "",
    }],
    example: "{ make: split_quarter_square_triangle, finished: 3, cut: { plain: 3 7/8, first: 4 1/4, second: 4 1/4 } }",
};

/// A corner that is sewn across and flipped over: its finished leg and a seam at each side.
const fn corner(name: &'static str, of: PartOf) -> PartRow {
    part(name, patch, "the corner + 2s", "2 1/2").share(Share::SeamMoves).of(of)
}

static SNOWBALL: MakeRow = MakeRow {
    make: Make::Snowball,
    laid: Laid::Flipped,
    says: "a square or a rectangle, with corners that are sewn across and flipped over",
    finished: Finished::Any,
    ways: &[Way {
        method: None,
        parts: &[
            part("base", patch, "f + 2s", "6 1/2"),
            corner("corner", PartOf::AlikeCorners),
            corner("corner_1", PartOf::Corner(1)),
            corner("corner_2", PartOf::Corner(2)),
            corner("corner_3", PartOf::Corner(3)),
            corner("corner_4", PartOf::Corner(4)),
        ],
        gives: Some(Count(1)),
        note: "corner_1 and the next where corner states a size for each",
    }],
    example: "{ make: snowball, finished: 6, corner: 2, cut: { base: 6 1/2, corner: 2 1/2 } }",
};

macro_rules! logs {
    ($($name:literal $number:literal),+ $(,)?) => {
        &[
            part("center", patch, "the center + 2s", "3 1/2").center(),
            $(part($name, patch, "its width + 2s x the side that it meets + 2s", "1 1/2 x 3 1/2").of(PartOf::Log($number)),)+
        ]
    };
}

/// The most logs that a unit may have.
pub const MAX_LOGS: usize = 40;

static LOG_CABIN: MakeRow = MakeRow {
    make: Make::LogCabin,
    laid: Laid::Logs,
    says: "logs around a center, each as long as the side that it meets",
    finished: Finished::Any,
    ways: &[Way {
        method: None,
        parts: logs!(
            "log_1" 1, "log_2" 2, "log_3" 3, "log_4" 4, "log_5" 5, "log_6" 6, "log_7" 7, "log_8" 8, "log_9" 9,
            "log_10" 10, "log_11" 11, "log_12" 12, "log_13" 13, "log_14" 14, "log_15" 15, "log_16" 16, "log_17" 17,
            "log_18" 18, "log_19" 19, "log_20" 20, "log_21" 21, "log_22" 22, "log_23" 23, "log_24" 24, "log_25" 25,
            "log_26" 26, "log_27" 27, "log_28" 28, "log_29" 29, "log_30" 30, "log_31" 31, "log_32" 32, "log_33" 33,
            "log_34" 34, "log_35" 35, "log_36" 36, "log_37" 37, "log_38" 38, "log_39" 39, "log_40" 40,
        ),
        gives: Some(Count(1)),
        note: "log_1 and the next in the order of sewing, as many as logs has widths",
    }],
    example: "{ make: log_cabin, finished: 5, center: 3, logs: [1, 1, 1, 1], cut: { center: 3 1/2, log_1: 1 1/2 x 3 1/2, \
              log_2: 1 1/2 x 4 1/2, log_3: 1 1/2 x 4 1/2, log_4: 1 1/2 x 5 1/2 } }",
};

static OTHER: MakeRow = MakeRow {
    make: Make::Other,
    laid: Laid::Unknown,
    says: "anything else: curves, foundation piecing, appliqué",
    finished: Finished::Any,
    ways: &[Way {
        method: None,
        parts: &[],
        gives: Some(Count(1)),
        note: "the pieces that it takes, under takes; how they are cut and sewn is not checked",
    }],
    example: "{ make: other, finished: 6, takes: { A: 1, B: 2 } }",
};

static FLYING_GEESE: MakeRow = MakeRow {
    make: Make::FlyingGeese,
    laid: Laid::Goose,
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
    laid: Laid::SquareOnPoint,
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
    laid: Laid::Halves,
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
    laid: Laid::Strips,
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
    laid: Laid::SideTriangle,
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
    laid: Laid::CornerTriangle,
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
