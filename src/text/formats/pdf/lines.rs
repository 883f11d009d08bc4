//! The lines that a page draws: those of tables, and the dots before items.

use super::fixed::ONE;

/// What is thinner is a line and no box.
const MAX_THICKNESS: i64 = 3 * ONE;
/// What is shorter is no line of a table.
const MIN_LENGTH: i64 = 6 * ONE;
/// How large a dot is at least, and at most.
const DOT: (i64, i64) = (ONE, 7 * ONE);
/// How many lines are kept of a page, and pieces of a path.
const MAX_LINES: usize = 4000;
/// How many lines of a page are heeded once those that continue each other are joined.
const MAX_JOINED: usize = 400;

/// A level line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rule {
    pub(super) x0: i64,
    pub(super) x1: i64,
    pub(super) y: i64,
}

/// An upright line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Upright {
    pub(super) x: i64,
    pub(super) y0: i64,
    pub(super) y1: i64,
}

/// A small dot, as browsers draw one before an item.
#[derive(Clone, Copy, Debug)]
pub(super) struct Dot {
    pub(super) x0: i64,
    pub(super) x1: i64,
    pub(super) middle: i64,
}

/// The lines of a page.
#[derive(Debug, Default)]
pub(super) struct Lines {
    pub(super) rules: Vec<Rule>,
    pub(super) walls: Vec<Upright>,
    pub(super) dots: Vec<Dot>,
}

impl Upright {
    /// Whether it stands between two places.
    pub(super) const fn is_between(&self, from: i64, to: i64) -> bool {
        from - ONE <= self.x && self.x <= to + ONE
    }

    /// Whether it goes through this height.
    pub(super) const fn reaches(&self, y: i64) -> bool {
        self.y0 <= y && y <= self.y1
    }
}

/// Whether two stretches overlap, or end where the other begins.
const fn meet(one: (i64, i64), other: (i64, i64)) -> bool {
    other.0 <= one.1 + MAX_THICKNESS && one.0 <= other.1 + MAX_THICKNESS
}

impl Lines {
    /// The lines with those that continue each other as one.
    pub(super) fn joined(mut self) -> Lines {
        self.walls.sort_by_key(|wall| (wall.x / ONE, wall.y0));
        let mut walls: Vec<Upright> = Vec::new();
        for wall in self.walls {
            match walls.last_mut() {
                Some(last) if (last.x - wall.x).abs() <= ONE && meet((last.y0, last.y1), (wall.y0, wall.y1)) => {
                    (last.y0, last.y1) = (last.y0.min(wall.y0), last.y1.max(wall.y1));
                }
                _ => walls.push(wall),
            }
        }
        self.rules.sort_by_key(|rule| (rule.y / ONE, rule.x0));
        let mut rules: Vec<Rule> = Vec::new();
        for rule in self.rules {
            match rules.last_mut() {
                Some(last) if (last.y - rule.y).abs() <= ONE && meet((last.x0, last.x1), (rule.x0, rule.x1)) => {
                    (last.x0, last.x1) = (last.x0.min(rule.x0), last.x1.max(rule.x1));
                }
                _ => rules.push(rule),
            }
        }
        walls.truncate(MAX_JOINED);
        rules.truncate(MAX_JOINED);
        Lines { rules, walls, dots: self.dots }
    }

    fn add(&mut self, bounds: Bounds) {
        let Bounds { x0, y0, x1, y1 } = bounds;
        let (width, height) = (x1 - x0, y1 - y0);
        if height <= MAX_THICKNESS && width >= MIN_LENGTH && self.rules.len() < MAX_LINES {
            self.rules.push(Rule { x0, x1, y: y0.midpoint(y1) });
        } else if width <= MAX_THICKNESS && height >= MIN_LENGTH && self.walls.len() < MAX_LINES {
            self.walls.push(Upright { x: x0.midpoint(x1), y0, y1 });
        }
    }

    fn add_dot(&mut self, bounds: Bounds) {
        let Bounds { x0, y0, x1, y1 } = bounds;
        let is_small = |size: i64| (DOT.0..=DOT.1).contains(&size);
        let (width, height) = (x1 - x0, y1 - y0);
        let is_round = width * 10 >= height * 7 && height * 10 >= width * 7;
        if is_small(width) && is_small(height) && is_round && self.dots.len() < MAX_LINES {
            self.dots.push(Dot { x0, x1, middle: y0.midpoint(y1) });
        }
    }
}

#[derive(Clone, Copy)]
struct Bounds {
    x0: i64,
    y0: i64,
    x1: i64,
    y1: i64,
}

impl Bounds {
    const fn at(point: (i64, i64)) -> Bounds {
        Bounds { x0: point.0, y0: point.1, x1: point.0, y1: point.1 }
    }

    fn with(self, point: (i64, i64)) -> Bounds {
        Bounds {
            x0: self.x0.min(point.0),
            y0: self.y0.min(point.1),
            x1: self.x1.max(point.0),
            y1: self.y1.max(point.1),
        }
    }
}

/// A path that is being drawn.
#[derive(Default)]
pub(super) struct Path {
    pieces: Vec<Piece>,
    at: (i64, i64),
}

/// A stretch of a path that hangs together.
struct Piece {
    bounds: Bounds,
    /// Its straight edges.
    edges: Vec<Bounds>,
    has_curves: bool,
}

impl Path {
    pub(super) fn start(&mut self, point: (i64, i64)) {
        self.at = point;
        if self.pieces.len() < MAX_LINES {
            self.pieces.push(Piece { bounds: Bounds::at(point), edges: Vec::new(), has_curves: false });
        }
    }

    pub(super) fn line_to(&mut self, point: (i64, i64)) {
        let edge = Bounds::at(self.at).with(point);
        self.at = point;
        if let Some(piece) = self.pieces.last_mut() {
            piece.bounds = piece.bounds.with(point);
            if piece.edges.len() < 64 {
                piece.edges.push(edge);
            }
        }
    }

    pub(super) fn curve_to(&mut self, points: &[(i64, i64)]) {
        for point in points {
            self.at = *point;
            if let Some(piece) = self.pieces.last_mut() {
                piece.bounds = piece.bounds.with(*point);
                piece.has_curves = true;
            }
        }
    }

    pub(super) fn add_box(&mut self, from: (i64, i64), to: (i64, i64)) {
        self.start(from);
        for corner in [(to.0, from.1), to, (from.0, to.1), from] {
            self.line_to(corner);
        }
    }

    pub(super) fn clear(&mut self) {
        self.pieces.clear();
    }

    /// Keeps what is a line of it once it is stroked, or filled.
    pub(super) fn paint(&mut self, is_stroked: bool, lines: &mut Lines) {
        for piece in std::mem::take(&mut self.pieces) {
            if piece.has_curves || !is_stroked {
                lines.add_dot(piece.bounds);
            }
            if !is_stroked
                || piece.bounds.x1 - piece.bounds.x0 <= MAX_THICKNESS
                || piece.bounds.y1 - piece.bounds.y0 <= MAX_THICKNESS
            {
                lines.add(piece.bounds);
            } else {
                piece.edges.into_iter().for_each(|edge| lines.add(edge));
            }
        }
    }
}
