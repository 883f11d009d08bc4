//! A cutting plan: how the pieces of one fabric lie in strips across it.
//!
//! Strips are cut right across and pieces are cut from strips, every cut from edge to edge, as a rotary cutter
//! cuts (guillotine cutting; common practice). The widest strips come first, the longest pieces first in each; what
//! is narrower and shorter goes into strip ends. That is first fit by decreasing height, known from the packing of
//! shelves. Pieces that are alike are placed together, so that a hundred thousand take no longer than one.
//!
//! A plan is one that can be cut, and not always the shortest there is.
//!
//! A stronger planner can take its place: nothing else knows how it works. Where the text states the strips, they are
//! taken at its word: each takes its own width, the binding's too, and nothing else that is stated lies in them. Strips
//! along the bolt lie beside one another.

use std::cmp::Reverse;

use super::planner::{CutGrid, CutStrips, LeftOver, Part, parts};
use crate::quantity::{Count, Length};

/// Pieces that are cut alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// How long it is across the fabric, along the strip.
    pub across: Length,
    /// How much of the strip's width it takes, along the bolt.
    pub along: Length,
    /// How many.
    pub count: Count,
    /// Whether it may be turned.
    pub turns: bool,
    /// The strips that the text tells to cut for it: they take their own width, and nothing else that is stated lies in
    /// them.
    pub stated: Option<StatedStrips>,
}

/// Strips that the text tells the reader to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StatedStrips {
    /// How many.
    pub strips: Count,
    /// How wide.
    pub width: Length,
    /// Whether they are cut along the bolt. Such strips lie beside others along it, and in none of the stated strips across.
    pub along: bool,
}

/// Pieces of one kind in one strip, the first of them so far from the strip's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StripCut {
    /// Which of the pieces.
    pub piece: usize,
    /// How many in each of the strips.
    pub count: Count,
    /// How far from the strip's end the first lies.
    pub from: Length,
    /// How far from the strip's edge the first lies.
    pub above: Length,
    /// How long each is along the strip.
    pub across: Length,
    /// How much of the strip's width each takes.
    pub along: Length,
    /// How many lie beside one another in the strip's width, before the next are further along the strip.
    pub stacked: Count,
}

impl StripCut {
    /// A grid of a cutting as pieces of a plan.
    pub fn of_grid(piece: usize, grid: &CutGrid) -> StripCut {
        let CutGrid { item: _, from, above, across, along, stacked, count } = *grid;
        StripCut { piece, count, from, above, across, along, stacked }
    }
}

/// Strips that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strips {
    /// How many.
    pub count: Count,
    /// How wide.
    pub width: Length,
    /// What is cut from each.
    pub cuts: Vec<StripCut>,
    /// What is left at the end of each.
    pub rest: Length,
}

impl Strips {
    /// The pieces of one of them as it is cut in turn; `None` where nothing is cut from it.
    pub fn parts(&self) -> Option<Part> {
        let grid = |cut: &StripCut| {
            let StripCut { piece, count, from, above, across, along, stacked } = *cut;
            CutGrid { item: piece, from, above, across, along, stacked, count }
        };
        parts(&self.cuts.iter().map(grid).collect::<Vec<CutGrid>>())
    }

    /// What is left over of one of them, where they are so long.
    pub fn left_over(&self, strip_length: Length) -> Vec<LeftOver> {
        match self.parts() {
            Some(part) => part.left_over(strip_length, self.width),
            None => {
                vec![LeftOver { from: Length::ZERO, above: Length::ZERO, across: strip_length, along: self.width }]
            }
        }
    }
}

/// How pieces lie in strips.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// The strips, in the order in which they are cut.
    pub strips: Vec<Strips>,
    /// The pieces that fit no way round.
    pub left_over: Vec<usize>,
}

impl Plan {
    /// How much of the bolt all strips take.
    pub fn length(&self) -> Length {
        self.strips.iter().map(|strips| strips.width * strips.count).sum()
    }
}

/// Strips of a planner's cutting as those of a plan, where each is so long.
pub(super) fn plan_strips(strips: &CutStrips, run: Length) -> Strips {
    let laid = |grid: &CutGrid| StripCut::of_grid(grid.item, grid);
    let columns = |grid: &CutGrid| grid.count.in_groups_of(grid.stacked).unwrap_or_default();
    let end = strips.grids.iter().map(|grid| grid.from + grid.across * columns(grid)).max().unwrap_or_default();
    Strips { count: strips.count, width: strips.width, cuts: strips.grids.iter().map(laid).collect(), rest: run - end }
}

/// Plans pieces on fabric of a usable width.
pub fn plan(pieces: &[Piece], width: Length) -> Plan {
    best(pieces, width, None, Plan::length)
}

/// Plans pieces on small fabrics, such as fat quarters, precut strips and squares: strips as long as one side, laid
/// one after another along the other. The plan, and how many of the small fabrics it takes.
pub fn plan_on_small(pieces: &[Piece], strip_length: Length, side: Length) -> (Plan, Count) {
    let plan = best(pieces, strip_length, Some(side), |plan| small_fabrics(plan, side));
    let count = small_fabrics(&plan, side);
    (plan, count)
}

/// How many small fabrics hold the strips of a plan: each strip into the first with room, the widest strips first.
fn small_fabrics(plan: &Plan, side: Length) -> Count {
    // Strips laid one after another are pieces in a strip, seen from the side.
    let alike = |strips: &Strips| Piece {
        across: strips.width,
        along: Length::inches(1),
        count: strips.count,
        turns: false,
        stated: None,
    };
    let strips: Vec<Piece> = plan.strips.iter().map(alike).collect();
    let laid = place_pieces(turned(&strips, side, None, Way::AsGiven), side);
    laid.strips.iter().fold(Count(0), |sum, strips| sum + strips.count)
}

/// Which side of a piece that may be turned becomes the strip's width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    AsGiven,
    LeastFabric,
    ShortSide,
    LongSide,
}

/// The best of a few plans; the first of those that are as good, so that the same list always makes the same plan.
fn best<K: Ord>(pieces: &[Piece], width: Length, widest: Option<Length>, cost: impl Fn(&Plan) -> K) -> Plan {
    let turned = |way| turned(pieces, width, widest, way);
    let first = turned(Way::LeastFabric);
    if pieces.iter().all(|piece| !piece.turns || piece.across == piece.along) {
        return place_pieces(first, width);
    }
    let (short, long) = (turned(Way::ShortSide), turned(Way::LongSide));
    // Pieces that lie the same way round make the same plan, and need not be laid again.
    let short = (short != first).then_some(short);
    let long = (long != first && Some(&long) != short.as_ref()).then_some(long);
    let first = place_pieces(first, width);
    let mut best = (cost(&first), first);
    for other in [short, long].into_iter().flatten() {
        let other = place_pieces(other, width);
        let cost = cost(&other);
        if cost < best.0 {
            best = (cost, other);
        }
    }
    best.1
}

/// All pieces with the way round in which they make strips of their own.
#[derive(PartialEq, Eq)]
struct AllTurned {
    pieces: Vec<Turned>,
    /// Those that fit neither way.
    left_over: Vec<usize>,
}

/// A piece with the way round in which it makes strips of its own.
#[derive(PartialEq, Eq)]
struct Turned {
    index: usize,
    across: Length,
    along: Length,
    count: Count,
    turns: bool,
    stated: Option<StatedStrips>,
}

/// Turns each piece the way in which it makes strips of its own.
fn turned(pieces: &[Piece], length: Length, widest: Option<Length>, way: Way) -> AllTurned {
    let mut all = AllTurned { pieces: Vec::with_capacity(pieces.len()), left_over: Vec::new() };
    for (index, piece) in pieces.iter().enumerate().filter(|(_, piece)| piece.count.0 > 0 || piece.stated.is_some()) {
        match turn(piece, length, widest, way) {
            Some((across, along)) => {
                let Piece { count, turns, stated, .. } = *piece;
                all.pieces.push(Turned { index, across, along, count, turns, stated });
            }
            None => all.left_over.push(index),
        }
    }
    all
}

/// Lays pieces in strips: first those whose strips the text tells, then the rest by the width of their strips.
fn place_pieces(all: AllTurned, length: Length) -> Plan {
    let AllTurned { pieces: mut turned, left_over } = all;
    let mut bench = Bench { length, strips: Vec::new(), stated: 0, open: 0 };
    let strip_width = |piece: &Turned| piece.stated.map_or(piece.along, |stated| stated.width);
    let stated_across = |piece: &Turned| piece.stated.filter(|stated| !stated.along);
    turned.sort_by_key(|piece| (stated_across(piece).is_none(), Reverse(strip_width(piece)), Reverse(piece.across)));
    for piece in &turned {
        match stated_across(piece) {
            Some(stated) => bench.stated_strips(piece, stated),
            None => bench.place(piece),
        }
    }
    Plan { strips: bench.strips, left_over }
}

/// The way round in which a piece makes strips of its own, across and along; `None` where it fits neither way.
fn turn(piece: &Piece, length: Length, widest: Option<Length>, way: Way) -> Option<(Length, Length)> {
    let fits = |&(across, along): &(Length, Length)| {
        across <= length && across.is_positive() && along.is_positive() && widest.is_none_or(|widest| along <= widest)
    };
    if let Some(stated) = piece.stated {
        let fits_stated = |_: &(Length, Length)| widest.is_none_or(|widest| stated.width <= widest);
        return Some((piece.across, piece.along)).filter(fits).filter(fits_stated);
    }
    let given = (piece.across, piece.along);
    let other = (piece.along, piece.across);
    let ways = [Some(given), Some(other).filter(|_| piece.turns)];
    let ways = ways.into_iter().flatten().filter(fits);
    let fabric = |&(across, along): &(Length, Length)| {
        let strips = piece.count.in_groups_of(length.pieces_of(across)).unwrap_or(Count(u64::MAX));
        (along * strips, along)
    };
    match way {
        Way::AsGiven => ways.into_iter().next(),
        Way::LeastFabric => ways.min_by_key(fabric),
        Way::ShortSide => ways.min_by_key(|(_, along)| *along),
        Way::LongSide => ways.max_by_key(|(_, along)| *along),
    }
}

/// The strips so far.
struct Bench {
    /// How long each strip is.
    length: Length,
    strips: Vec<Strips>,
    /// The strips before this one are those that the text tells across the fabric.
    stated: usize,
    /// The strips before this one have no room left at all.
    open: usize,
}

impl Bench {
    /// The strips that the text tells, filled one after another; those beyond the need stay empty.
    fn stated_strips(&mut self, piece: &Turned, stated: StatedStrips) {
        let first = self.strips.len();
        self.strips.push(Strips { count: stated.strips, width: stated.width, cuts: Vec::new(), rest: self.length });
        // Too few strips are another rule's: what does not come out of them is not laid.
        self.fill(first, piece, piece.count);
        self.strips.retain(|strips| strips.count.0 > 0);
        self.stated = self.strips.len();
    }

    /// Into the ends of strips where the pieces fit, and the others into strips of their own.
    fn place(&mut self, piece: &Turned) {
        let from = if piece.stated.is_some() { self.stated.max(self.open) } else { self.open };
        let mut left = self.fill(from, piece, piece.count);
        let per_strip = self.length.pieces_of(piece.across);
        if left.0 == 0 || per_strip.0 == 0 {
            return;
        }
        let strips = left.in_groups_of(per_strip).unwrap_or_default();
        let first = self.strips.len();
        self.strips.push(Strips { count: strips, width: piece.along, cuts: Vec::new(), rest: self.length });
        left = self.fill(first, piece, left);
        debug_assert_eq!(left, Count(0));
        self.close();
    }

    fn close(&mut self) {
        while self.strips.get(self.open).is_some_and(|strips| !strips.rest.is_positive()) {
            self.open += 1;
        }
    }

    /// Places as many pieces as fit into the strips from the given one on. How many are left.
    fn fill(&mut self, first: usize, piece: &Turned, mut left: Count) -> Count {
        let mut index = first;
        while index < self.strips.len() && left.0 > 0 {
            let Some(fit) = Fit::of(piece, &self.strips[index]) else {
                index += 1;
                continue;
            };
            let full = Count(left.0 / fit.per_strip.0).min(self.strips[index].count);
            if full.0 > 0 {
                index = self.split(index, full, fit.strip_cut(piece.index, fit.per_strip));
                left = left.less(full * fit.per_strip);
            } else {
                self.split(index, Count(1), fit.strip_cut(piece.index, left));
                left = Count(0);
            }
        }
        left
    }

    /// Lays the same into the first so many of the strips that are alike. The place of those after them.
    fn split(&mut self, index: usize, count: Count, laid: StripCut) -> usize {
        let alike = &self.strips[index];
        let others = alike.count.less(count);
        if others.0 > 0 {
            let others = Strips { count: others, ..alike.clone() };
            self.strips.insert(index + 1, others);
            self.stated += usize::from(index < self.stated);
        }
        let some = &mut self.strips[index];
        let columns = laid.count.in_groups_of(laid.stacked).unwrap_or_default();
        some.cuts.push(StripCut { from: self.length - some.rest, ..laid });
        some.rest = some.rest - laid.across * columns;
        some.count = count;
        index + 1
    }
}

/// How a piece fits into what is left of a strip.
#[derive(Clone, Copy)]
struct Fit {
    across: Length,
    along: Length,
    stacked: Count,
    per_strip: Count,
}

impl Fit {
    /// The way round of which more come out; `None` where neither fits.
    fn of(piece: &Turned, strips: &Strips) -> Option<Fit> {
        let fit = |across: Length, along: Length| {
            // Most strips have no room: comparing is much quicker than dividing.
            if strips.rest < across || strips.width < along {
                return Fit { across, along, stacked: Count(0), per_strip: Count(0) };
            }
            let stacked = strips.width.pieces_of(along);
            Fit { across, along, stacked, per_strip: strips.rest.pieces_of(across) * stacked }
        };
        let given = fit(piece.across, piece.along);
        let other = piece.turns.then(|| fit(piece.along, piece.across));
        let best = other.filter(|other| other.per_strip > given.per_strip).unwrap_or(given);
        (best.per_strip.0 > 0).then_some(best)
    }

    fn strip_cut(self, piece: usize, count: Count) -> StripCut {
        let Fit { across, along, stacked, .. } = self;
        StripCut { piece, count, from: Length::ZERO, above: Length::ZERO, across, along, stacked }
    }
}
