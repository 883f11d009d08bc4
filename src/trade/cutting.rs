//! Fabric by cutting list: how many pieces a strip yields, how many strips that takes, and how much fabric.
//!
//! A strip yields floor(U / length) pieces, and strips = ceil(count / yield); the bolt gives strips x width (common
//! practice; Quilting Board posts work it so in print). Whole strips decide, never area.

use super::plan::{Piece, Plan, Told, plan, plan_on_small};
use crate::quantity::{Count, Length};

/// What strips are cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
}

/// One entry of a cutting list, for one size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// What is cut.
    pub shape: Shape,
    /// The strips that the text tells to cut.
    pub strips: Option<Count>,
    /// How many are needed.
    pub pieces: Option<Count>,
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
    /// How many come out of a strip.
    pub per_strip: Count,
}

impl FromStrips {
    /// How many strips so many pieces take.
    pub fn strips_for(&self, pieces: Count) -> Count {
        pieces.in_groups_of(self.per_strip).unwrap_or_default()
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
    const fn the_other_way(self) -> Option<Cloth> {
        match self {
            Cloth::Small { across, along, turns: true } => {
                Some(Cloth::Small { across: along, along: across, turns: true })
            }
            Cloth::Small { .. } | Cloth::Bolt { .. } => None,
        }
    }
}

impl Shape {
    /// The shape seen from the other side of the fabric.
    const fn the_other_way(self) -> Shape {
        match self {
            Shape::Piece { width, height, turns, strip_width } => {
                Shape::Piece { width: height, height: width, turns, strip_width }
            }
            Shape::Lengthwise { width, length } => Shape::Lengthwise { width: length, length: width },
            Shape::WholeStrip { .. } => self,
        }
    }

    /// The ways in which it comes out of strips of a fabric, narrowest strip first.
    pub fn ways(self, cloth: Cloth) -> Vec<FromStrips> {
        let run = cloth.strip_length();
        let way = |across: Length, along: Length, strip_width: Length| {
            let fits = cloth.widest().is_none_or(|widest| strip_width <= widest) && along <= strip_width;
            let per_strip = run.pieces_of(across) * strip_width.pieces_of(along);
            (fits && per_strip.0 > 0).then_some(FromStrips { strip_width, across, along, per_strip })
        };
        let mut ways: Vec<FromStrips> = match self {
            Shape::WholeStrip { width } => way(run, width, width).into_iter().collect(),
            // Each strip along the bolt is as long as the piece that it is.
            Shape::Lengthwise { width, length } => {
                way(width, length, length).map(|way| FromStrips { per_strip: Count(1), ..way }).into_iter().collect()
            }
            Shape::Piece { width, height, turns, strip_width } => {
                let given = way(width, height, strip_width.unwrap_or(height));
                let turned = way(height, width, strip_width.unwrap_or(width)).filter(|_| turns && width != height);
                given.into_iter().chain(turned).collect()
            }
        };
        ways.sort_by_key(|way| (way.strip_width, std::cmp::Reverse(way.per_strip)));
        ways
    }

    /// Whether it comes out of the fabric some way round.
    pub fn fits(self, cloth: Cloth) -> bool {
        let other = cloth.the_other_way().is_some_and(|cloth| !self.the_other_way().ways(cloth).is_empty());
        other || !self.ways(cloth).is_empty()
    }
}

impl Cut {
    /// Of the ways in which it comes out of strips, the one that needs as many strips as are told, or the most nearly:
    /// one strip too few must not be taken for a few wide strips and many left over. The narrowest where none are told;
    /// `None` where there is no way.
    pub fn way(&self, cloth: Cloth) -> Option<FromStrips> {
        let ways = self.shape.ways(cloth);
        let Some((strips, pieces)) = self.strips.zip(self.pieces) else { return ways.first().copied() };
        let off = |way: &&FromStrips| {
            let needed = way.strips_for(pieces);
            (strips.0.abs_diff(needed.0), strips < needed)
        };
        ways.iter().min_by_key(off).copied()
    }

    /// The strips that are needed, where pieces are stated; `None` where the shape does not come out of the fabric.
    pub fn needed(&self, cloth: Cloth) -> Option<(FromStrips, Count)> {
        let way = self.way(cloth)?;
        Some((way, way.strips_for(self.pieces?)))
    }

    /// The same with as many strips as are needed, where fewer are told.
    #[must_use]
    pub fn with_enough_strips(self, cloth: Cloth) -> Cut {
        let needed = self.needed(cloth).map(|(_, needed)| needed);
        Cut { strips: self.strips.map(|strips| needed.map_or(strips, |needed| needed.max(strips))), ..self }
    }

    /// The pieces as the plan takes them; `None` where they fit no way, or nothing says how many.
    fn piece(&self, cloth: Cloth) -> Option<Piece> {
        let count = self.strips.or(self.pieces)?;
        let alike = |across, along, count| Piece { across, along, count, turns: false, told: None };
        let whole = |width| {
            let told = Some(Told { strips: count, width });
            Piece { told, ..alike(cloth.strip_length(), width, count) }
        };
        match self.shape {
            Shape::WholeStrip { width } => Some(whole(width)),
            Shape::Lengthwise { width, length } => Some(alike(width, length, count)),
            Shape::Piece { width, height, turns, strip_width } => {
                if self.strips.is_none() && strip_width.is_none() {
                    return Some(Piece { turns, ..alike(width, height, count) });
                }
                let way = self.way(cloth)?;
                let Some(pieces) = self.pieces else {
                    // Nothing says what comes of these strips: they are taken whole.
                    return Some(whole(way.strip_width));
                };
                let strips = self.strips.unwrap_or_else(|| way.strips_for(pieces));
                let told = Some(Told { strips, width: way.strip_width });
                Some(Piece { told, ..alike(way.across, way.along, pieces.min(strips * way.per_strip)) })
            }
        }
    }
}

/// What a cutting list takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// How the pieces lie; their numbers are those of the cutting list.
    pub plan: Plan,
    /// How long each strip is.
    pub strip_length: Length,
    /// How many small fabrics it takes; `None` on the bolt.
    pub small: Option<Count>,
}

/// Plans a cutting list on a fabric; `None` where a piece fits no way round, or nothing says how many.
pub fn taken(cuts: &[Cut], cloth: Cloth) -> Option<Taken> {
    match cloth {
        Cloth::Bolt { width } => {
            let pieces = pieces(cuts, cloth)?;
            let plan = plan(&pieces, width);
            plan.left_over.is_empty().then_some(Taken { plan, strip_length: width, small: None })
        }
        Cloth::Small { .. } => {
            let turned: Vec<Cut> = cuts.iter().map(|cut| Cut { shape: cut.shape.the_other_way(), ..*cut }).collect();
            let ways = [Some((cloth, cuts)), cloth.the_other_way().map(|cloth| (cloth, turned.as_slice()))];
            let plans = ways.into_iter().flatten().filter_map(|(cloth, cuts)| {
                // Strips that the text tells must be enough this way round too.
                let serves =
                    |cut: &Cut| cut.strips.zip(cut.needed(cloth)).is_none_or(|(strips, (_, needed))| strips >= needed);
                Some((!cuts.iter().all(serves), on_small(cuts, cloth)?))
            });
            plans.min_by_key(|(short, taken)| (*short, taken.small)).map(|(_, taken)| taken)
        }
    }
}

fn pieces(cuts: &[Cut], cloth: Cloth) -> Option<Vec<Piece>> {
    cuts.iter().map(|cut| cut.piece(cloth)).collect()
}

fn on_small(cuts: &[Cut], cloth: Cloth) -> Option<Taken> {
    let Cloth::Small { across, along, .. } = cloth else { return None };
    let (plan, small) = plan_on_small(&pieces(cuts, cloth)?, across, along);
    plan.left_over.is_empty().then_some(Taken { plan, strip_length: across, small: Some(small) })
}
