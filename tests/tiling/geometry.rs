//! Where everything of a design lies, by plain geometry and floating point, and whether polygons tile a rectangle, by
//! `geo`.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss)] // Places on a drawing, and this is not the program.

use geo::orient::Direction;
use geo::{Area, BoundingRect, Coord, LineString, MultiPolygon, Orient, Polygon, unary_union};

use super::design::{Block, Border, Corners, Design, INCH, Make, Part, Sewn, Unit};

/// A polygon's corners, in inches.
pub(super) type Corner = (f64, f64);
pub(super) type Shape = Vec<Corner>;

/// What two areas may differ by, in square inches: the least that a number is changed by makes a tenth of one.
const NEARLY: f64 = 0.02;

fn inch(eighths: i64) -> f64 {
    eighths as f64 / INCH as f64
}

pub(super) fn rectangle(x: f64, y: f64, wide: f64, high: f64) -> Shape {
    vec![(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
}

/// Whether shapes cover a rectangle from the corner at the top left without gap and overlap.
pub(super) fn tile(shapes: &[Shape], wide: f64, high: f64) -> bool {
    // A union takes a polygon that goes around the other way for a hole.
    let polygon = |shape: &Shape| Polygon::new(LineString::from(shape.clone()), Vec::new()).orient(Direction::Default);
    let polygons: Vec<Polygon> = shapes.iter().map(polygon).filter(|one| one.unsigned_area() > 1e-9).collect();
    let sum: f64 = polygons.iter().map(Area::unsigned_area).sum();
    let union: MultiPolygon = unary_union(&polygons);
    let near = |one: f64, other: f64| (one - other).abs() < NEARLY;
    let bounds = union.bounding_rect().map(|bounds| (bounds.min(), bounds.max()));
    let at = |at: Coord, (x, y): Corner| (at.x - x).abs() < 1e-3 && (at.y - y).abs() < 1e-3;
    let lies = bounds.is_some_and(|(from, to)| at(from, (0.0, 0.0)) && at(to, (wide, high)));
    lies && near(sum, wide * high) && near(union.unsigned_area(), wide * high)
}

/// The pieces of a unit.
pub(super) fn pieces(unit: &Unit) -> Vec<Shape> {
    let (wide, high) = (inch(unit.width), inch(unit.height));
    let middle = (wide / 2.0, high / 2.0);
    let [a, b, c, d] = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
    let [top, right, bottom, left] = [(wide / 2.0, 0.0), (wide, high / 2.0), (wide / 2.0, high), (0.0, high / 2.0)];
    match &unit.make {
        Make::Patch => vec![vec![a, b, c, d]],
        Make::Other => Vec::new(),
        Make::HalfSquare | Make::HalfRectangle => vec![vec![a, b, d], vec![b, c, d]],
        Make::QuarterSquare { .. } => [(a, b), (b, c), (c, d), (d, a)].map(|(p, q)| vec![p, q, middle]).to_vec(),
        Make::Split => vec![vec![a, b, d], vec![b, c, middle], vec![c, d, middle]],
        Make::Geese => vec![vec![top, c, d], vec![a, top, d], vec![top, b, c]],
        Make::SquareInSquare => vec![
            vec![top, right, bottom, left],
            vec![a, top, left],
            vec![top, b, right],
            vec![right, c, bottom],
            vec![bottom, d, left],
        ],
        Make::Snowball { corners, alike } => snowball((wide, high), corners, *alike),
        Make::LogCabin { center, logs, order } => log_cabin(*center, logs, order),
        Make::Strips(strips) => {
            let mut at = 0.0;
            let strip = |width: &i64| {
                at += inch(*width);
                rectangle(at - inch(*width), 0.0, inch(*width), high)
            };
            strips.iter().map(strip).collect()
        }
    }
}

/// Each corner in turn from the top left clockwise covers what lies beneath it.
fn snowball((w, h): (f64, f64), corners: &[i64], alike: Option<i64>) -> Vec<Shape> {
    use geo::BooleanOps;
    let legs: Vec<f64> = match corners {
        [one] => vec![inch(*one); usize::try_from(alike.unwrap_or(4)).unwrap()],
        each => each.iter().map(|leg| inch(*leg)).collect(),
    };
    let polygon = |shape: Shape| Polygon::new(LineString::from(shape), Vec::new());
    let mut laid = vec![MultiPolygon::from(polygon(rectangle(0.0, 0.0, w, h)))];
    for (number, leg) in legs.into_iter().enumerate() {
        let corner = match number {
            0 => vec![(0.0, 0.0), (leg, 0.0), (0.0, leg)],
            1 => vec![(w, 0.0), (w, leg), (w - leg, 0.0)],
            2 => vec![(w, h), (w - leg, h), (w, h - leg)],
            _ => vec![(0.0, h), (0.0, h - leg), (leg, h)],
        };
        let corner = MultiPolygon::from(polygon(corner));
        for below in &mut laid {
            *below = below.difference(&corner);
        }
        laid.push(corner);
    }
    let shape = |polygon: &Polygon| polygon.exterior().points().skip(1).map(|point| (point.x(), point.y())).collect();
    laid.iter().flat_map(|part| &part.0).filter(|polygon| polygon.unsigned_area() > 1e-6).map(shape).collect()
}

fn log_cabin(center: (i64, i64), logs: &[i64], order: &str) -> Vec<Shape> {
    let (mut left, mut top, mut right, mut bottom) = (0, 0, center.0, center.1);
    let mut boxes = vec![(left, top, right, bottom)];
    for (number, log) in logs.iter().enumerate() {
        let side = match (order, number % 4) {
            ("round", side) => ["right", "bottom", "left", "top"][side],
            ("opposite", side) => ["left", "right", "top", "bottom"][side],
            (_, side) => ["right", "bottom"][side % 2],
        };
        match side {
            "right" => (boxes.push((right, top, right + log, bottom)), right += log),
            "left" => (boxes.push((left - log, top, left, bottom)), left -= log),
            "bottom" => (boxes.push((left, bottom, right, bottom + log)), bottom += log),
            _ => (boxes.push((left, top - log, right, top)), top -= log),
        };
    }
    let shape = |&(from, high, to, low): &(i64, i64, i64, i64)| {
        rectangle(inch(from - left), inch(high - top), inch(to - from), inch(low - high))
    };
    boxes.iter().map(shape).collect()
}

impl Design {
    fn size_of(&self, part: Part) -> (i64, i64) {
        let (width, height) = match part.sewn {
            Sewn::Unit(unit) => (self.units[unit].width, self.units[unit].height),
            Sewn::Block(block) => (self.blocks[block].width, self.blocks[block].height),
        };
        if part.turned { (height, width) } else { (width, height) }
    }

    /// The parts of a block as they lie: each with its place.
    pub(super) fn placed(&self, block: &Block) -> Vec<(Part, f64, f64)> {
        let mut placed = Vec::new();
        let mut down = 0;
        for row in &block.rows {
            let mut across = 0;
            for part in row {
                placed.push((*part, inch(across), inch(down)));
                across += self.size_of(*part).0;
            }
            down += row.iter().map(|part| self.size_of(*part).1).min().unwrap_or(0);
        }
        placed
    }

    /// The outlines of the parts of a block.
    pub(super) fn boxes(&self, block: &Block) -> Vec<Shape> {
        let outline = |(part, x, y): (Part, f64, f64)| {
            let (wide, high) = self.size_of(part);
            rectangle(x, y, inch(wide), inch(high))
        };
        self.placed(block).into_iter().map(outline).collect()
    }

    /// All pieces of a block, down to the last; a unit of which nothing is known is one.
    pub(super) fn all_pieces(&self, block: &Block) -> Vec<Shape> {
        let mut all = Vec::new();
        for (part, x, y) in self.placed(block) {
            let shapes = match part.sewn {
                Sewn::Unit(unit) => {
                    let unit = &self.units[unit];
                    let shapes = pieces(unit);
                    let whole = rectangle(0.0, 0.0, inch(unit.width), inch(unit.height));
                    if shapes.is_empty() { vec![whole] } else { shapes }
                }
                Sewn::Block(block) => self.all_pieces(&self.blocks[block]),
            };
            let wide = inch(self.size_of(part).0);
            let lie = |(across, down): Corner| {
                if part.turned { (x + wide - down, y + across) } else { (x + across, y + down) }
            };
            all.extend(shapes.into_iter().map(|shape| shape.into_iter().map(lie).collect::<Shape>()));
        }
        all
    }

    /// Whether a unit's pieces make it what it is said to be.
    pub(super) fn unit_tiles(&self, unit: usize) -> bool {
        let unit = &self.units[unit];
        let shapes = pieces(unit);
        shapes.is_empty() || tile(&shapes, inch(unit.width), inch(unit.height))
    }

    pub(super) fn block_tiles(&self, block: usize) -> bool {
        let block = &self.blocks[block];
        tile(&self.boxes(block), inch(block.width), inch(block.height))
    }

    /// The blocks of the top from its own corner, before borders: their outlines.
    fn blocks_laid(&self) -> Vec<Shape> {
        let (top, block) = (&self.top, &self.blocks[self.top.block]);
        let (wide, high) = (inch(block.width), inch(block.height));
        if top.on_point {
            let half = wide / 2.0_f64.sqrt();
            let diamond = |x: f64, y: f64| vec![(x, y - half), (x + half, y), (x, y + half), (x - half, y)];
            let grid = |across: i64, down: i64, from: f64| {
                (0..down).flat_map(move |row| {
                    (0..across).map(move |column| (from + 2.0 * half * column as f64, from + 2.0 * half * row as f64))
                })
            };
            let rows = grid(top.across, top.down, half);
            let gaps = grid(top.across - 1, top.down - 1, 2.0 * half);
            return rows.chain(gaps).map(|(x, y)| diamond(x, y)).collect();
        }
        let sash = inch(top.sashing);
        let from = if top.round { sash } else { 0.0 };
        let place = |row: i64, column: i64| {
            rectangle(from + (wide + sash) * column as f64, from + (high + sash) * row as f64, wide, high)
        };
        (0..top.down).flat_map(|row| (0..top.across).map(move |column| place(row, column))).collect()
    }

    /// What lies between the blocks, or sets them.
    fn between(&self) -> Vec<Shape> {
        let (top, block) = (&self.top, &self.blocks[self.top.block]);
        let (wide, high, sash) = (inch(block.width), inch(block.height), inch(top.sashing));
        let mut laid = Vec::new();
        if top.on_point {
            let half = wide / 2.0_f64.sqrt();
            let (right, bottom) = (2.0 * half * top.across as f64, 2.0 * half * top.down as f64);
            for side in 1..top.across {
                let x = 2.0 * half * side as f64;
                laid.push(vec![(x - half, 0.0), (x + half, 0.0), (x, half)]);
                laid.push(vec![(x - half, bottom), (x + half, bottom), (x, bottom - half)]);
            }
            for side in 1..top.down {
                let y = 2.0 * half * side as f64;
                laid.push(vec![(0.0, y - half), (0.0, y + half), (half, y)]);
                laid.push(vec![(right, y - half), (right, y + half), (right - half, y)]);
            }
            for (x, toward) in [(0.0, half), (right, -half)] {
                laid.push(vec![(x, 0.0), (x + toward, 0.0), (x, half)]);
                laid.push(vec![(x, bottom), (x + toward, bottom), (x, bottom - half)]);
            }
            return laid;
        }
        if top.sashing == 0 {
            return laid;
        }
        let places = |count: i64, side: f64| -> Vec<f64> {
            let first = if top.round { 0.0 } else { side };
            let many = if top.round { count + 1 } else { count - 1 };
            (0..many).map(|number| first + (side + sash) * number as f64).collect()
        };
        let begins = |number: i64, side: f64| (if top.round { sash } else { 0.0 }) + (side + sash) * number as f64;
        let (columns, rows) = (places(top.across, wide), places(top.down, high));
        for x in &columns {
            laid.extend((0..top.down).map(|row| rectangle(*x, begins(row, high), sash, high)));
        }
        for y in &rows {
            if top.cornerstones {
                laid.extend((0..top.across).map(|column| rectangle(begins(column, wide), *y, wide, sash)));
                laid.extend(columns.iter().map(|x| rectangle(*x, *y, sash, sash)));
            } else {
                laid.push(rectangle(0.0, *y, self.inner().0, sash));
            }
        }
        laid
    }

    fn inner(&self) -> (f64, f64) {
        let (top, block) = (&self.top, &self.blocks[self.top.block]);
        let side = |count: i64, block: i64| {
            if top.on_point {
                return inch(count * block) * 2.0_f64.sqrt();
            }
            inch(count * block + (if top.round { count + 1 } else { count - 1 }) * top.sashing)
        };
        (side(top.across, block.width), side(top.down, block.height))
    }

    /// Every part of the top from its own corner: blocks, sashes, triangles, borders.
    pub(super) fn top_parts(&self) -> Vec<Shape> {
        let (mut wide, mut high) = self.inner();
        let mut parts: Vec<Shape> = self.blocks_laid();
        parts.extend(self.between());
        for border in &self.top.borders {
            let width = inch(border.width);
            let moved = |shape: Shape| shape.into_iter().map(|(x, y)| (x + width, y + width)).collect();
            parts = parts.into_iter().map(moved).collect();
            parts.extend(self.border(border, wide, high));
            (wide, high) = (wide + 2.0 * width, high + 2.0 * width);
        }
        parts
    }

    /// A border around so much, from its own corner.
    fn border(&self, border: &Border, wide: f64, high: f64) -> Vec<Shape> {
        let w = inch(border.width);
        let (right, bottom) = (w + wide, w + high);
        let (out_right, out_bottom) = (right + w, bottom + w);
        if border.corners == Corners::Mitered {
            return vec![
                vec![(0.0, 0.0), (out_right, 0.0), (right, w), (w, w)],
                vec![(out_right, 0.0), (out_right, out_bottom), (right, bottom), (right, w)],
                vec![(out_right, out_bottom), (0.0, out_bottom), (w, bottom), (right, bottom)],
                vec![(0.0, out_bottom), (0.0, 0.0), (w, w), (w, bottom)],
            ];
        }
        let (from, long) = if border.corners == Corners::Butted { (0.0, out_right) } else { (w, wide) };
        let mut laid = Vec::new();
        for x in [0.0, right] {
            laid.extend(self.along(border, (w, high)).map(|(y, each)| rectangle(x, y, w, each)));
        }
        for y in [0.0, bottom] {
            laid.extend(self.along(border, (from, long)).map(|(x, each)| rectangle(x, y, each, w)));
        }
        if border.corners == Corners::Cornerstones {
            let corners = [(0.0, 0.0), (right, 0.0), (right, bottom), (0.0, bottom)];
            laid.extend(corners.map(|(x, y)| rectangle(x, y, w, w)));
        }
        laid
    }

    /// The parts of a side: one strip, or as many units as fit.
    fn along(&self, border: &Border, (from, long): (f64, f64)) -> impl Iterator<Item = (f64, f64)> {
        let each = border.of.map(|unit| {
            let unit = &self.units[unit];
            if unit.height == border.width { inch(unit.width) } else { inch(unit.height) }
        });
        let count = each.map_or(1, |each| {
            let mut count = 0;
            while f64::from(count + 1) * each <= long + 1e-6 {
                count += 1;
            }
            count
        });
        let each = each.unwrap_or(long);
        (0..count).map(move |number| (from + each * f64::from(number), each))
    }

    /// Whether a side of the unit of each border is as wide as the border.
    pub(super) fn border_units_are_as_wide(&self) -> bool {
        let fits = |border: &Border| {
            border.of.is_none_or(|unit| [self.units[unit].width, self.units[unit].height].contains(&border.width))
        };
        self.top.borders.iter().all(fits)
    }

    /// Whether everything tiles the finished size that is stated; on point to the sixteenth that print rounds to.
    pub(super) fn top_tiles(&self) -> bool {
        let (mut wide, mut high) = self.inner();
        for border in &self.top.borders {
            (wide, high) = (wide + 2.0 * inch(border.width), high + 2.0 * inch(border.width));
        }
        let slack = if self.top.on_point { 1.0 / 16.0 + 1e-9 } else { 1e-9 };
        let stated = (inch(self.top.width), inch(self.top.height));
        let is_stated = (wide - stated.0).abs() <= slack && (high - stated.1).abs() <= slack;
        is_stated && self.border_units_are_as_wide() && tile(&self.top_parts(), wide, high)
    }

    /// Every piece of the top, down to the last.
    pub(super) fn top_pieces(&self) -> (Vec<Shape>, f64, f64) {
        let (mut wide, mut high) = self.inner();
        let offset: f64 = self.top.borders.iter().map(|border| inch(border.width)).sum();
        (wide, high) = (wide + 2.0 * offset, high + 2.0 * offset);
        let count = self.blocks_laid().len();
        let mut parts = self.top_parts();
        let rest = parts.split_off(count);
        let own = self.all_pieces(&self.blocks[self.top.block]);
        let turn = if self.top.on_point { 0.5_f64.sqrt() } else { 0.0 };
        let mut all = rest;
        for part in parts {
            let (x, y) = part[0];
            let lie = |&(across, down): &Corner| {
                if self.top.on_point {
                    (x + turn * (across - down), y + turn * (across + down))
                } else {
                    (x + across, y + down)
                }
            };
            all.extend(own.iter().map(|shape| shape.iter().map(lie).collect::<Shape>()));
        }
        (all, wide, high)
    }
}
