//! Where everything of a design lies, by plain geometry and floating point, and whether polygons tile a rectangle, by
//! `geo`.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss)] // Places on a drawing, and this is not the program.

use geo::orient::Direction;
use geo::{Area, BoundingRect, Coord, LineString, MultiPolygon, Orient, Polygon, unary_union};

use super::design::{Beside, Block, Border, Corners, Design, Edge, INCH, Make, Part, Rows, Sewn, Unit};

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

/// What lies along rows and across them, or along columns, from a place on.
fn lying(rows: &Rows, at: (i64, i64), size: (i64, i64)) -> Shape {
    let ((x, y), (wide, high)) = if rows.are_columns { ((at.1, at.0), (size.1, size.0)) } else { (at, size) };
    rectangle(inch(x), inch(y), inch(wide), inch(high))
}

/// A square on point about a place, by half of its diagonal.
fn diamond((x, y): Corner, half: f64) -> Shape {
    vec![(x, y - half), (x + half, y), (x, y + half), (x - half, y)]
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
    fn size(&self, sewn: Sewn) -> (i64, i64) {
        match sewn {
            Sewn::Unit(unit) => (self.units[unit].width, self.units[unit].height),
            Sewn::Block(block) => (self.blocks[block].width, self.blocks[block].height),
        }
    }

    fn size_of(&self, part: Part) -> (i64, i64) {
        let (width, height) = self.size(part.sewn);
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
            let centers = self.centers(false).into_iter().chain(self.centers(true));
            return centers.map(|(x, y)| diamond((x, y), half)).collect();
        }
        if let Some(rows) = &top.rows {
            return self.in_rows(rows).into_iter().map(|(_, shape)| shape).collect();
        }
        let sash = inch(top.sashing);
        let from = if top.round { sash } else { 0.0 };
        let place = |row: i64, column: i64| {
            rectangle(from + (wide + sash) * column as f64, from + (high + sash) * row as f64, wide, high)
        };
        (0..top.down).flat_map(|row| (0..top.across).map(move |column| place(row, column))).collect()
    }

    /// How far it is on point from the middle of a block to the corner of the next, and half of the diagonal of a sash.
    fn steps(&self) -> (f64, f64) {
        let (block, sash) = (inch(self.blocks[self.top.block].width), inch(self.top.sashing));
        ((block + sash) / 2.0_f64.sqrt(), sash / 2.0_f64.sqrt())
    }

    /// How far the edge on point lies outside of the corners of the lattice.
    fn edge(&self) -> f64 {
        if self.top.edge == Edge::Whole { self.steps().1 } else { 0.0 }
    }

    /// The middles of blocks on point, of those in the gaps or of the others.
    fn centers(&self, in_gaps: bool) -> Vec<Corner> {
        let (step, _) = self.steps();
        let (less, from) = if in_gaps { (1, 2.0 * step) } else { (0, step) };
        let at = |number: i64| self.edge() + from + 2.0 * step * number as f64;
        let rows = 0..self.top.down - less;
        rows.flat_map(|row| (0..self.top.across - less).map(move |column| (at(column), at(row)))).collect()
    }

    /// The sashes around blocks on point, and the squares where they cross, by the lattice of their corners.
    fn sashes_on_point(&self) -> Vec<Shape> {
        let ((step, tip), half) = (self.steps(), inch(self.blocks[self.top.block].width) / 2.0_f64.sqrt());
        let mut laid = Vec::new();
        for (x, y) in self.centers(false) {
            for (a, b) in [(1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0)] {
                let (from, to) = ((x, y + b * half), (x + a * half, y));
                let out = |(x, y): Corner| (x + a * tip, y + b * tip);
                laid.push(vec![from, to, out(to), out(from)]);
            }
        }
        let (right, bottom) = (2 * self.top.across, 2 * self.top.down);
        for (i, j) in (0..=right).flat_map(|i| (0..=bottom).map(move |j| (i, j))).filter(|(i, j)| (i + j) % 2 == 1) {
            let at = (self.edge() + step * i as f64, self.edge() + step * j as f64);
            let mut square = diamond(at, tip);
            if self.top.edge == Edge::Halves {
                let outside = [j == 0, i == right, j == bottom, i == 0];
                let mut outside = outside.iter();
                square.retain(|_| !outside.next().unwrap());
            }
            laid.push(square);
        }
        laid
    }

    /// The triangles at the sides and the corners, up to the sashes, or the blocks where there are none.
    fn triangles(&self) -> Vec<Shape> {
        let ((step, tip), edge) = (self.steps(), self.edge());
        let (wide, high) = self.inner();
        let mut laid = Vec::new();
        // A triangle's point lies on the corner of the squares inside; its sides run at 45 degrees to the edge.
        let deep = edge + step - tip;
        for side in 1..self.top.across {
            let x = edge + 2.0 * step * side as f64;
            laid.push(vec![(x - deep, 0.0), (x + deep, 0.0), (x, deep)]);
            laid.push(vec![(x - deep, high), (x + deep, high), (x, high - deep)]);
        }
        for side in 1..self.top.down {
            let y = edge + 2.0 * step * side as f64;
            laid.push(vec![(0.0, y - deep), (0.0, y + deep), (deep, y)]);
            laid.push(vec![(wide, y - deep), (wide, y + deep), (wide - deep, y)]);
        }
        let leg = 2.0 * edge + step - tip;
        for (x, toward) in [(0.0, leg), (wide, -leg)] {
            laid.push(vec![(x, 0.0), (x + toward, 0.0), (x, leg)]);
            laid.push(vec![(x, high), (x + toward, high), (x, high - leg)]);
        }
        laid
    }

    /// How long the rows are, the longest of them, and how wide all are together with what lies between them.
    fn rows_come_to(&self, rows: &Rows) -> (i64, i64) {
        let top = &self.top;
        let sashes = |count: i64| if top.round { count + 1 } else { count - 1 } * top.sashing;
        let along = |row: &Vec<Beside>| {
            let blocks: i64 = row.iter().map(|beside| beside.count).sum();
            row.iter().map(|beside| beside.count * self.lies(rows, *beside).0).sum::<i64>() + sashes(blocks)
        };
        let across: i64 = rows.each.iter().map(|row| self.across(rows, row)).sum();
        let many = i64::try_from(rows.each.len()).unwrap() * rows.times;
        (rows.each.iter().map(along).max().unwrap(), across * rows.times + sashes(many))
    }

    /// How wide a row is: the widest of its blocks.
    fn across(&self, rows: &Rows, row: &[Beside]) -> i64 {
        row.iter().map(|beside| self.lies(rows, *beside).1).max().unwrap()
    }

    /// The blocks that are sewn in rows as they lie, each with which it is and whether it is turned.
    fn in_rows(&self, rows: &Rows) -> Vec<(Beside, Shape)> {
        let (mut laid, sash) = (Vec::new(), self.top.sashing);
        let before = if self.top.round { sash } else { 0 };
        let mut down = before;
        for row in (0..rows.times).flat_map(|_| &rows.each) {
            let mut along = before;
            for beside in row.iter().flat_map(|beside| (0..beside.count).map(move |_| *beside)) {
                let (long, wide) = self.lies(rows, beside);
                laid.push((beside, lying(rows, (along, down), (long, wide))));
                along += long + sash;
            }
            down += self.across(rows, row) + sash;
        }
        laid
    }

    /// The sashes of a top that is sewn in rows, and the squares where they cross.
    fn sashes_in_rows(&self, rows: &Rows) -> Vec<Shape> {
        let (top, sash) = (&self.top, self.top.sashing);
        let (longest, wide) = self.rows_come_to(rows);
        let mut laid = Vec::new();
        if sash == 0 {
            return laid;
        }
        let skip = usize::from(!top.round);
        // Where sashes stand in a row: before each block, and after the last.
        let places = |row: &Vec<Beside>| {
            let mut along = if top.round { 0 } else { -sash };
            let mut places = Vec::new();
            for beside in row.iter().flat_map(|beside| (0..beside.count).map(move |_| *beside)) {
                places.push((along, self.lies(rows, beside).0));
                along += sash + self.lies(rows, beside).0;
            }
            places.push((along, 0));
            let all = places.len();
            (places, all)
        };
        let mut lines = Vec::new();
        let mut down = if top.round { 0 } else { -sash };
        for row in (0..rows.times).flat_map(|_| &rows.each) {
            lines.push(down);
            let (stand, all) = places(row);
            for (along, _) in stand.into_iter().skip(skip).take(all - 2 * skip) {
                laid.push(lying(rows, (along, down + sash), (sash, self.across(rows, row))));
            }
            down += sash + self.across(rows, row);
        }
        lines.push(down);
        assert_eq!(down, if top.round { wide - sash } else { wide });
        let all = lines.len();
        for down in lines.into_iter().skip(skip).take(all - 2 * skip) {
            if !top.cornerstones {
                laid.push(lying(rows, (0, down), (longest, sash)));
                continue;
            }
            let (stand, all) = places(&rows.each[0]);
            for (number, (along, block)) in stand.into_iter().enumerate() {
                if number >= skip && number < all - skip {
                    laid.push(lying(rows, (along, down), (sash, sash)));
                }
                if block > 0 {
                    laid.push(lying(rows, (along + sash, down), (block, sash)));
                }
            }
        }
        laid
    }

    /// What lies between the blocks, or sets them.
    fn between(&self) -> Vec<Shape> {
        let (top, block) = (&self.top, &self.blocks[self.top.block]);
        let (wide, high, sash) = (inch(block.width), inch(block.height), inch(top.sashing));
        let mut laid = Vec::new();
        if top.on_point {
            laid = if top.sashing > 0 { self.sashes_on_point() } else { Vec::new() };
            laid.extend(self.triangles());
            return laid;
        }
        if let Some(rows) = &top.rows {
            return self.sashes_in_rows(rows);
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
        if let Some(rows) = &top.rows {
            let (along, across) = self.rows_come_to(rows);
            return if rows.are_columns { (inch(across), inch(along)) } else { (inch(along), inch(across)) };
        }
        let side = |count: i64, block: i64| {
            if top.on_point {
                let (step, _) = self.steps();
                return 2.0 * step * count as f64 + 2.0 * self.edge();
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
            let (sides, top, bottom) = (inch(border.sides), inch(border.top), inch(border.bottom));
            let moved = |shape: Shape| shape.into_iter().map(|(x, y)| (x + sides, y + top)).collect();
            parts = parts.into_iter().map(moved).collect();
            parts.extend(self.border(border, wide, high));
            (wide, high) = (wide + 2.0 * sides, high + top + bottom);
        }
        parts
    }

    /// A border around so much, from its own corner.
    fn border(&self, border: &Border, wide: f64, high: f64) -> Vec<Shape> {
        let (w, top, low) = (inch(border.sides), inch(border.top), inch(border.bottom));
        let (right, bottom) = (w + wide, top + high);
        let (out_right, out_bottom) = (right + w, bottom + low);
        if border.corners == Corners::Mitered {
            return vec![
                vec![(0.0, 0.0), (out_right, 0.0), (right, top), (w, top)],
                vec![(out_right, 0.0), (out_right, out_bottom), (right, bottom), (right, top)],
                vec![(out_right, out_bottom), (0.0, out_bottom), (w, bottom), (right, bottom)],
                vec![(0.0, out_bottom), (0.0, 0.0), (w, top), (w, bottom)],
            ];
        }
        let (from, long) = if border.corners == Corners::Butted { (0.0, out_right) } else { (w, wide) };
        let mut laid = Vec::new();
        for x in [0.0, right] {
            laid.extend(self.along(border, (top, high)).map(|(y, each)| rectangle(x, y, w, each)));
        }
        for (y, deep) in [(0.0, top), (bottom, low)] {
            laid.extend(self.along(border, (from, long)).map(|(x, each)| rectangle(x, y, each, deep)));
        }
        if border.corners == Corners::Cornerstones {
            let corners = [(0.0, 0.0, top), (right, 0.0, top), (right, bottom, low), (0.0, bottom, low)];
            laid.extend(corners.map(|(x, y, deep)| rectangle(x, y, w, deep)));
        }
        laid
    }

    /// The parts of a side: one strip, or as many units as fit.
    fn along(&self, border: &Border, (from, long): (f64, f64)) -> impl Iterator<Item = (f64, f64)> {
        let each = border.of.map(|sewn| {
            let (width, height) = self.size(sewn);
            if height == border.sides { inch(width) } else { inch(height) }
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

    /// Whether a side of what each border is sewn from is as wide as the border, its corners are as large as what stands
    /// in them, and sashes as large as the unit that they are sewn from.
    fn units_fit(&self) -> bool {
        let fits = |border: &Border| {
            let corner = [(border.sides, border.top), (border.top, border.sides)];
            let is_wide = |sewn: Sewn| self.size(sewn).0 == border.sides || self.size(sewn).1 == border.sides;
            border.of.is_none_or(is_wide) && border.corner_of.is_none_or(|sewn| corner.contains(&self.size(sewn)))
        };
        let (top, block) = (&self.top, &self.blocks[self.top.block]);
        let sash = |unit: usize| {
            let (width, height) = self.size(Sewn::Unit(unit));
            let long = [
                (top.round || top.across > 1, block.height),
                (top.cornerstones && (top.round || top.down > 1), block.width),
            ];
            long.iter().all(|(any, long)| {
                !any || (width.min(height), width.max(height)) == (top.sashing.min(*long), top.sashing.max(*long))
            })
        };
        top.borders.iter().all(fits) && top.sash_of.is_none_or(sash)
    }

    /// Whether everything tiles the finished size that is stated; on point to the sixteenth that print rounds to.
    pub(super) fn top_tiles(&self) -> bool {
        let (mut wide, mut high) = self.inner();
        for border in &self.top.borders {
            (wide, high) = (wide + 2.0 * inch(border.sides), high + inch(border.top + border.bottom));
        }
        let slack = if self.top.on_point { 1.0 / 16.0 + 1e-9 } else { 1e-9 };
        let stated = (inch(self.top.width), inch(self.top.height));
        let is_stated = (wide - stated.0).abs() <= slack && (high - stated.1).abs() <= slack;
        is_stated && self.units_fit() && tile(&self.top_parts(), wide, high)
    }

    /// Every piece of the top, down to the last.
    pub(super) fn top_pieces(&self) -> (Vec<Shape>, f64, f64) {
        let (mut wide, mut high) = self.inner();
        for border in &self.top.borders {
            (wide, high) = (wide + 2.0 * inch(border.sides), high + inch(border.top + border.bottom));
        }
        let count = self.blocks_laid().len();
        let mut parts = self.top_parts();
        let rest = parts.split_off(count);
        let turn = if self.top.on_point { 0.5_f64.sqrt() } else { 0.0 };
        let in_rows = self.top.rows.as_ref().map(|rows| self.in_rows(rows));
        let mut all = rest;
        for (number, part) in parts.into_iter().enumerate() {
            let (x, y) = part[0];
            let beside = in_rows.as_ref().map(|laid| laid[number].0);
            let own = self.all_pieces(&self.blocks[beside.map_or(self.top.block, |beside| beside.block)]);
            let wide = part[1].0 - x;
            let lie = |&(across, down): &Corner| {
                if self.top.on_point {
                    (x + turn * (across - down), y + turn * (across + down))
                } else if beside.is_some_and(|beside| beside.turned) {
                    (x + wide - down, y + across)
                } else {
                    (x + across, y + down)
                }
            };
            all.extend(own.iter().map(|shape| shape.iter().map(lie).collect::<Shape>()));
        }
        (all, wide, high)
    }
}
