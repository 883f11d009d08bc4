//! Fabric by cutting list: how many pieces a strip yields, how many strips that takes, and how much fabric.
//!
//! A strip yields floor(U / length) pieces, and strips = ceil(count / yield); the bolt gives strips x width (common
//! practice; Quilting Board posts work it so in print). Whole strips decide, never area.
//!
//! Of the ways in which a piece comes out of strips (`Cut::way`), the one is taken that needs about as many strips as
//! are stated: the narrowest that is not short would turn one sash strip too few into ten strips as wide as the sash is
//! long. A piece longer than a strip is then cut from strips joined end to end, each as wide as the piece, straight
//! unless its border says otherwise. One strip as wide as the piece is long is meant only where the text states just as
//! many of those.

use super::binding::join_loss;
use super::joined::Joining;
use super::plan::{Piece, StatedStrips};
use super::shapes::{ShapeWay, StripShape};
use crate::choices::Join;
use crate::quantity::{Count, Length};

/// What strips are cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cloth {
    /// Fabric from the bolt, as wide as it can be used.
    Bolt {
        /// The usable width.
        width: Length,
    },
    /// Small fabrics, each of one size: fat quarters, fat eighths, precut strips and squares.
    Small {
        /// How long a strip across it is.
        across: Length,
        /// How much there is to lay strips one after another.
        along: Length,
        /// Whether strips may be cut along the other side as well.
        turns: bool,
    },
}

/// What is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// A strip right across the fabric, left whole.
    WholeStrip {
        /// How wide.
        width: Length,
    },
    /// A piece cut from a strip.
    Piece {
        /// How wide: across the fabric, where it keeps its way.
        width: Length,
        /// How high: along the bolt, where it keeps its way.
        height: Length,
        /// Whether it may be turned.
        turns: bool,
        /// How wide the strip is that it is cut from, where the text says so.
        strip_width: Option<Length>,
    },
    /// A piece cut along the bolt, such as a border without joins.
    Lengthwise {
        /// How wide: across the fabric.
        width: Length,
        /// How long: along the bolt.
        length: Length,
    },
    /// A strip of a length, cut across the fabric from nothing but strips of its width: the binding's.
    Strip {
        /// How long: across the fabric.
        length: Length,
        /// How wide: along the bolt.
        width: Length,
    },
    /// A shape with slanted sides, edge to edge in strips as wide as it is high.
    Slanted(StripShape),
    /// A piece that is centered on the print, so many from each repeat of it.
    Centered {
        /// How wide.
        width: Length,
        /// How high.
        height: Length,
        /// Whether it may lie on its side.
        turns: bool,
        /// How far apart the print repeats along the bolt.
        repeat: Length,
        /// How many come of a repeat.
        per_repeat: Count,
    },
    /// Any shape, cut as though it were the box that holds it.
    Template {
        /// How wide the box is.
        width: Length,
        /// How high the box is.
        height: Length,
        /// Whether it may be turned.
        turns: bool,
        /// How wide the strip is that it is cut from, where the text says so.
        strip_width: Option<Length>,
    },
}

/// How strips are joined from which pieces are cut that are longer than a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Joins {
    /// Diagonal or straight.
    pub join: Join,
    /// The seam.
    pub seam: Length,
    /// Whether the text says that they are joined, so that also pieces are cut from them that a strip would hold.
    pub told: bool,
}

/// One entry of a cutting list, for one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cut {
    /// What is cut.
    pub shape: Shape,
    /// The strips that the text tells to cut.
    pub strips: Option<Count>,
    /// How many are needed.
    pub pieces: Option<Count>,
    /// How the stated strips are joined where a piece is longer than a strip; `None` where that could not be read.
    pub joins: Option<Joins>,
    /// The entry of the list that states the strips which it is cut from with other pieces; it takes no fabric itself.
    pub within: Option<usize>,
}

/// One way of cutting a shape from strips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FromStrips {
    /// How wide each strip is.
    pub strip_width: Length,
    /// How long each piece is along the strip.
    pub across: Length,
    /// How much of the strip's width each takes.
    pub along: Length,
    /// How many come out of a strip, or lie side by side in the width of joined strips.
    pub per_strip: Count,
    /// How the strips are joined, where each piece is longer than one.
    pub joined: Option<Joining>,
}

impl FromStrips {
    /// How many strips so many pieces take.
    pub fn strips_for(&self, pieces: Count) -> Count {
        let runs = pieces.in_groups_of(self.per_strip).unwrap_or_default();
        match self.joined {
            None => runs,
            Some(joining) => joining.fewest(&[(runs, self.across)]).map_or(Count(u64::MAX), |joined| joined.strips),
        }
    }

    /// How many pieces so many strips give.
    pub fn gives(&self, strips: Count) -> Count {
        let runs = self.joined.map_or(strips, |joining| joining.pieces(strips, self.across));
        runs * self.per_strip
    }
}

impl Cloth {
    /// How long a strip is.
    pub const fn strip_length(self) -> Length {
        match self {
            Cloth::Bolt { width } => width,
            Cloth::Small { across, .. } => across,
        }
    }

    /// How wide a strip can be.
    const fn widest(self) -> Option<Length> {
        match self {
            Cloth::Bolt { .. } => None,
            Cloth::Small { along, .. } => Some(along),
        }
    }

    /// The same fabric with strips cut along its other side.
    pub(super) const fn the_other_way(self) -> Option<Cloth> {
        match self {
            Cloth::Small { across, along, turns: true } => {
                Some(Cloth::Small { across: along, along: across, turns: true })
            }
            Cloth::Small { .. } | Cloth::Bolt { .. } => None,
        }
    }
}

/// The ways in which a slanted shape comes out of strips of a fabric. Strips that the text leaves open are rounded up to
/// what no ruler shows finer, and no wider than a small fabric is.
pub fn slanted_ways(shape: StripShape, cloth: Cloth) -> impl Iterator<Item = (ShapeWay, FromStrips)> {
    let run = cloth.strip_length();
    let way = move |lies: ShapeWay| {
        let open = lies.width().up_to(shape.mark());
        let open = cloth.widest().map_or(open, |widest| open.min(widest));
        let strip_width = if shape.strip_width.is_positive() { shape.strip_width } else { open };
        let (rows, in_row) = (lies.rows(strip_width), lies.in_row(run));
        let fits = cloth.widest().is_none_or(|widest| strip_width <= widest) && rows.0 > 0 && in_row.0 > 0;
        // A fabric whose print has a way up is cut from one side.
        if !fits || shape.is_sideways && !shape.turns {
            return None;
        }
        // What is left of a strip that is rounded up is nothing to cut from.
        let along = lies.width().up_to(shape.mark());
        let along = along.min(Length::from_ticks(strip_width.ticks() / i128::from(rows.0)));
        let across = mean_length(lies.reach(in_row), in_row, run);
        Some((lies, FromStrips { strip_width, across, along, per_strip: rows * in_row, joined: None }))
    };
    shape.ways().filter_map(way)
}

/// How long each of so many shapes is that reach so far along a strip, where they lie as rectangles do: as many come of
/// the strip, and no more.
fn mean_length(reach: Length, count: Count, run: Length) -> Length {
    let count = i128::from(count.0.max(1));
    let least = run.ticks() / (count + 1) + 1;
    let mean = (reach.ticks() + count - 1) / count;
    Length::from_ticks(mean.max(least).min(run.ticks() / count))
}

impl Shape {
    /// The shape seen from the other side of the fabric.
    pub(super) const fn the_other_way(self) -> Shape {
        match self {
            Shape::Piece { width, height, turns, strip_width } => {
                Shape::Piece { width: height, height: width, turns, strip_width }
            }
            Shape::Lengthwise { width, length } => Shape::Lengthwise { width: length, length: width },
            Shape::Strip { width, length } => Shape::Strip { width: length, length: width },
            Shape::Slanted(shape) => Shape::Slanted(StripShape { is_sideways: !shape.is_sideways, ..shape }),
            Shape::Template { width, height, turns, strip_width } => {
                Shape::Template { width: height, height: width, turns, strip_width }
            }
            Shape::WholeStrip { .. } | Shape::Centered { .. } => self,
        }
    }

    /// A template as the box that holds it, and every other shape as it is.
    const fn boxed(self) -> Shape {
        match self {
            Shape::Template { width, height, turns, strip_width } => Shape::Piece { width, height, turns, strip_width },
            _ => self,
        }
    }

    /// Whether less fabric than is planned for pieces of it may do: it has slanted sides, or any, or lies where the print
    /// has it.
    pub const fn nests(self) -> bool {
        matches!(self, Shape::Slanted(_) | Shape::Template { .. } | Shape::Centered { .. })
    }

    /// The ways in which it comes out of strips of a fabric, narrowest strip first.
    pub fn ways(self, cloth: Cloth) -> Vec<FromStrips> {
        let run = cloth.strip_length();
        let way = |across: Length, along: Length, strip_width: Length| {
            let fits = cloth.widest().is_none_or(|widest| strip_width <= widest) && along <= strip_width;
            let per_strip = run.pieces_of(across) * strip_width.pieces_of(along);
            let way = FromStrips { strip_width, across, along, per_strip, joined: None };
            (fits && per_strip.0 > 0).then_some(way)
        };
        let mut ways: Vec<FromStrips> = match self.boxed() {
            Shape::Slanted(shape) => slanted_ways(shape, cloth).map(|(_, way)| way).collect(),
            Shape::Centered { width, height, turns, .. } if !(width <= run || turns && height <= run) => Vec::new(),
            Shape::Centered { repeat, per_repeat, .. } => {
                way(run, repeat, repeat).map(|way| FromStrips { per_strip: per_repeat, ..way }).into_iter().collect()
            }
            Shape::WholeStrip { width } => way(run, width, width).into_iter().collect(),
            Shape::Strip { length, width } => way(length, width, width).into_iter().collect(),
            // Each strip along the bolt is as long as the piece that it is.
            Shape::Lengthwise { width, length } => {
                way(width, length, length).map(|way| FromStrips { per_strip: Count(1), ..way }).into_iter().collect()
            }
            Shape::Piece { width, height, turns, strip_width } => {
                let given = way(width, height, strip_width.unwrap_or(height));
                let turned = way(height, width, strip_width.unwrap_or(width)).filter(|_| turns && width != height);
                let mut ways = Vec::with_capacity(2);
                ways.extend(given);
                ways.extend(turned);
                ways
            }
            Shape::Template { .. } => Vec::new(),
        };
        ways.sort_by_key(|way| (way.strip_width, std::cmp::Reverse(way.per_strip)));
        ways
    }

    /// The ways in which a piece that is longer than a strip comes out of strips joined end to end.
    fn ways_joined(self, cloth: Cloth, joins: Joins) -> Vec<FromStrips> {
        let Shape::Piece { width, height, turns, strip_width } = self else { return Vec::new() };
        let strip_length = cloth.strip_length();
        let way = |across: Length, along: Length| {
            let strip_width = strip_width.unwrap_or(along);
            let joining = Joining { strip_length, loss: join_loss(joins.join, strip_width, joins.seam) };
            let fits = cloth.widest().is_none_or(|widest| strip_width <= widest) && along <= strip_width;
            let per_strip = strip_width.pieces_of(along);
            let is_joined = across > strip_length || joins.told && across >= along;
            let can_be = fits && is_joined && per_strip.0 > 0 && joining.loss < strip_length;
            can_be.then_some(FromStrips { strip_width, across, along, per_strip, joined: Some(joining) })
        };
        let turned = || way(height, width).filter(|_| turns && width != height);
        way(width, height).into_iter().chain(turned()).collect()
    }

    /// Whether it comes out of the fabric some way round.
    pub fn fits(self, cloth: Cloth) -> bool {
        let other = cloth.the_other_way().is_some_and(|cloth| !self.the_other_way().ways(cloth).is_empty());
        other || !self.ways(cloth).is_empty()
    }
}

impl Cut {
    /// The ways in which it comes out of strips of a fabric, narrowest strip first. Where the text tells strips for a
    /// piece that is longer than a strip, they are joined end to end.
    pub fn ways(&self, cloth: Cloth) -> Vec<FromStrips> {
        let mut ways = self.shape.ways(cloth);
        // Strips that the text tells for a shape are as wide as the shape is high.
        if let (Shape::Slanted(shape), Some(_)) = (self.shape, self.strips) {
            ways = slanted_ways(shape, cloth).take(1).map(|(_, way)| way).collect();
        }
        if let Some(joins) = self.joins.filter(|joins| joins.told || self.strips.is_some()) {
            let joined = self.shape.ways_joined(cloth, joins);
            if joins.told && !joined.is_empty() {
                ways.clear();
            }
            ways.extend(joined);
            ways.sort_by_key(|way| way.strip_width);
        }
        ways
    }

    /// Of the ways in which it comes out of strips, the one that needs as many strips as are stated, or the most nearly.
    /// Of two that need as nearly as many, joined strips are meant: nobody tells two strips as wide as a piece is long to
    /// cut one from. Where a strip's width is known the way that gives most counts, since more strips are not needed. The
    /// narrowest where none are stated; `None` where there is no way. One size cannot tell a strip too few from the other
    /// way round: which width is meant is chosen for a whole pattern before.
    pub fn way(&self, cloth: Cloth) -> Option<FromStrips> {
        let ways = self.ways(cloth);
        let Some((strips, pieces)) = self.strips.zip(self.pieces) else { return ways.first().copied() };
        // Narrowest first, and of one width those that give most.
        let first = |way: &&FromStrips| ways.iter().find(|first| first.strip_width == way.strip_width) == Some(*way);
        let off = |way: &&FromStrips| {
            let needed = way.strips_for(pieces);
            (strips.0.abs_diff(needed.0), way.joined.is_none(), strips < needed)
        };
        ways.iter().filter(|way| way.joined.is_some() || first(way)).min_by_key(off).copied()
    }

    /// Whether the text says that strips are joined for it, or tells strips for it and it is longer than one some way
    /// round.
    pub fn is_joined_from(&self, cloth: Cloth) -> bool {
        if self.joins.is_some_and(|joins| joins.told) {
            return true;
        }
        let Shape::Piece { width, height, .. } = self.shape else { return false };
        let longest = |cloth: Cloth| width.max(height) > cloth.strip_length();
        self.strips.is_some() && (longest(cloth) || cloth.the_other_way().is_some_and(longest))
    }

    /// Whether it comes out of the fabric some way round, joined where the text tells strips for it.
    pub fn fits(&self, cloth: Cloth) -> bool {
        let turned = Cut { shape: self.shape.the_other_way(), ..*self };
        let other = cloth.the_other_way().is_some_and(|cloth| !turned.ways(cloth).is_empty());
        other || !self.ways(cloth).is_empty()
    }

    /// The strips that are needed, where pieces are stated; `None` where the shape does not come out of the fabric.
    pub fn needed(&self, cloth: Cloth) -> Option<(FromStrips, Count)> {
        if self.within.is_some() {
            return None;
        }
        let way = self.way(cloth)?;
        Some((way, way.strips_for(self.pieces?)))
    }

    /// The same with as many strips as are needed, where fewer are stated.
    #[must_use]
    pub fn with_enough_strips(self, cloth: Cloth) -> Cut {
        let enough = |strips: Count| self.needed(cloth).map_or(strips, |(_, needed)| needed.max(strips));
        Cut { strips: self.strips.map(enough), ..self }
    }

    /// The pieces as the plan takes them; `None` where they fit no way, or nothing says how many.
    pub(super) fn in_plan(&self, cloth: Cloth) -> Option<Vec<Piece>> {
        if self.within.is_some() {
            return self.pieces.map(|_| Vec::new());
        }
        let count = self.strips.or(self.pieces)?;
        let alike = |across, along, count| Piece { across, along, count, turns: false, stated: None };
        let whole = |width, count| {
            let stated = Some(StatedStrips { strips: count, width, along: false });
            Piece { stated, ..alike(cloth.strip_length(), width, count) }
        };
        let piece = match self.shape.boxed() {
            Shape::WholeStrip { width } => whole(width, count),
            Shape::Lengthwise { width, length } => {
                let stated = self.strips.map(|strips| StatedStrips { strips, width: length, along: true });
                Piece { stated, ..alike(width, length, count) }
            }
            Shape::Strip { .. } => {
                let way = self.way(cloth)?;
                let stated = Some(StatedStrips { strips: way.strips_for(count), width: way.strip_width, along: false });
                Piece { stated, ..alike(way.across, way.along, count) }
            }
            Shape::Slanted(shape) => return self.slanted_in_plan(shape, cloth, whole),
            Shape::Template { .. } => return None,
            Shape::Centered { .. } => {
                let way = self.way(cloth)?;
                whole(way.strip_width, way.strips_for(self.pieces?))
            }
            Shape::Piece { width, height, turns, strip_width } => {
                if self.strips.is_none() && strip_width.is_none() && !self.joins.is_some_and(|joins| joins.told) {
                    return Some(vec![Piece { turns, ..alike(width, height, count) }]);
                }
                let way = self.way(cloth)?;
                let strips = self.strips.or_else(|| Some(way.strips_for(self.pieces?)))?;
                // Nothing says what comes of strips without pieces: they are taken whole.
                let Some(pieces) = self.pieces else { return Some(vec![whole(way.strip_width, strips)]) };
                if let Some(joining) = way.joined {
                    return Some(joined_in_plan(way, joining, strips, pieces, whole));
                }
                let stated = Some(StatedStrips { strips, width: way.strip_width, along: false });
                Piece { stated, ..alike(way.across, way.along, pieces.min(way.gives(strips))) }
            }
        };
        Some(vec![piece])
    }

    /// Slanted shapes as the plan takes them: as strips, of which all but the last are full.
    fn slanted_in_plan(
        &self,
        shape: StripShape,
        cloth: Cloth,
        whole: impl Fn(Length, Count) -> Piece,
    ) -> Option<Vec<Piece>> {
        let way = self.way(cloth)?;
        let (lies, _) = slanted_ways(shape, cloth).find(|(_, other)| *other == way)?;
        let strips = self.strips.or_else(|| Some(way.strips_for(self.pieces?)))?;
        let Some(pieces) = self.pieces else { return Some(vec![whole(way.strip_width, strips)]) };
        let pieces = pieces.min(way.gives(strips));
        let full = Count(pieces.0 / way.per_strip.0.max(1));
        let rest = pieces.less(full * way.per_strip);
        let in_strips = |across, count, strips| {
            let stated = Some(StatedStrips { strips, width: way.strip_width, along: false });
            Piece { across, along: way.along, count, turns: false, stated }
        };
        let rows = Count(way.per_strip.0 / lies.in_row(cloth.strip_length()).0.max(1));
        let in_row = rest.in_groups_of(rows).unwrap_or_default();
        let last = (rest.0 > 0).then(|| {
            // Rounded up as they reach, but for what is no tick of the strip.
            let (reach, each) = (lies.reach(in_row).ticks(), i128::from(in_row.0.max(1)));
            let across = Length::from_ticks((reach + each - 1) / each);
            in_strips(across.min(way.across), rest, strips.less(full))
        });
        let strips = if last.is_some() { full } else { strips };
        let full = (strips.0 > 0).then(|| in_strips(way.across, full * way.per_strip, strips));
        Some(full.into_iter().chain(last).collect())
    }
}

/// Strips that are joined as the plan takes them: whole, but for what is left of the last one.
fn joined_in_plan(
    way: FromStrips,
    joining: Joining,
    strips: Count,
    pieces: Count,
    whole: impl Fn(Length, Count) -> Piece,
) -> Vec<Piece> {
    let joined = joining.fewest(&[(pieces, way.across)]).filter(|joined| joined.strips <= strips);
    let Some(joined) = joined.filter(|_| way.per_strip == Count(1)) else {
        return vec![whole(way.strip_width, strips)];
    };
    let full = joined.strips.less(Count(1));
    let last = whole(way.strip_width, strips.less(full));
    let last = Piece { across: last.across - joined.rest, count: joined.strips.less(full), ..last };
    let full = (full.0 > 0).then(|| whole(way.strip_width, full));
    full.into_iter().chain([last]).collect()
}
