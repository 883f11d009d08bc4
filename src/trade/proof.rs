//! A cutting list that leaves the cutting to the reader, decided by proof where a first plan is longer than the fabric.

use std::sync::Arc;

use super::cutting::{Cloth, Cut, Shape, Taken};
use super::plan::{Laid, Plan, Strips};
use super::planner::{
    CutGrid, CutStrips, Cutting, DecidedSmall, Decision, Item, Reason, Verdict, decide_small, decision,
};
use crate::quantity::{Count, Length};

/// The decision about a cutting list on the bolt.
#[derive(Debug)]
pub struct Proof {
    decision: Arc<Decision>,
    /// The entry of each item.
    entries: Vec<usize>,
    /// Strips right across the fabric that are left whole: the entry, how many and how wide.
    whole: Vec<(usize, Count, Length)>,
}

impl Proof {
    /// The decision about a list; `None` where the text tells strips for pieces, or the fabric is not from the bolt.
    pub fn new(cuts: &[Cut], cloth: Cloth) -> Option<Proof> {
        let Cloth::Bolt { width: usable } = cloth else { return None };
        let (mut items, mut entries, mut whole) = (Vec::new(), Vec::new(), Vec::new());
        for (entry, cut) in cuts.iter().enumerate() {
            let item = |across, along, count, turns| Item { across, along, count, turns };
            let item = match cut.shape {
                Shape::WholeStrip { width } => {
                    whole.push((entry, cut.strips.or(cut.pieces)?, width));
                    continue;
                }
                Shape::Strip { length, width } if length == usable => {
                    whole.push((entry, cut.pieces?, width));
                    continue;
                }
                Shape::Strip { .. } => return None,
                _ if cut.strips.is_some() || cut.joins.is_some() => return None,
                Shape::Lengthwise { width, length } => item(width, length, cut.pieces?, false),
                Shape::Piece { strip_width: Some(_), .. } => return None,
                Shape::Piece { width, height, turns, .. } => item(width, height, cut.pieces?, turns),
            };
            items.push(item);
            entries.push(entry);
        }
        Some(Proof { decision: decision(&items, usable, &[]), entries, whole })
    }

    fn whole_length(&self) -> Length {
        self.whole.iter().map(|(_, count, width)| *width * *count).sum()
    }

    /// Whether so much of the fabric's length is enough.
    pub fn verdict(&self, there: Length) -> Verdict {
        self.decision.verdict(there - self.whole_length())
    }

    /// No way of cutting takes less than this, and why.
    pub fn least(&self) -> (Length, Reason) {
        let (least, reason) = self.decision.least();
        (least + self.whole_length(), reason)
    }

    /// The shortest plan of any kind, by the numbers of the cutting list.
    pub fn best(&self) -> Option<Cutting> {
        self.decision.best().map(|cutting| self.numbered(cutting))
    }

    /// The plain plan, where it is shorter than what was planned before.
    pub fn plain(&self, before: &Taken) -> Option<Taken> {
        let cutting = self.numbered(self.decision.plain()?);
        if cutting.length() >= before.plan.length() {
            return None;
        }
        let run = before.strip_length;
        let strips = cutting.strips.iter().map(|strips| plan_strips(strips, run)).collect();
        Some(Taken { plan: Plan { strips, left_over: Vec::new() }, ..before.clone() })
    }

    /// A plan with the numbers of the cutting list, the whole strips first.
    fn numbered(&self, mut cutting: Cutting) -> Cutting {
        for grid in cutting.strips.iter_mut().flat_map(|strips| &mut strips.grids) {
            grid.item = self.entries[grid.item];
        }
        let strip = |(entry, count, width): &(usize, Count, Length)| CutStrips {
            count: *count,
            width: *width,
            remnant: None,
            grids: vec![CutGrid {
                item: *entry,
                from: Length::ZERO,
                above: Length::ZERO,
                across: self.decision.width(),
                along: *width,
                stacked: Count(1),
                count: Count(1),
            }],
        };
        let whole = self.whole.iter().filter(|(_, count, _)| count.0 > 0).map(strip);
        cutting.strips = whole.chain(cutting.strips).collect();
        cutting
    }
}

fn plan_strips(strips: &CutStrips, run: Length) -> Strips {
    let laid = |grid: &CutGrid| Laid {
        piece: grid.item,
        count: grid.count,
        from: grid.from,
        across: grid.across,
        along: grid.along,
        stacked: grid.stacked,
    };
    let columns = |grid: &CutGrid| grid.count.in_groups_of(grid.stacked).unwrap_or_default();
    let end = strips.grids.iter().map(|grid| grid.from + grid.across * columns(grid)).max().unwrap_or_default();
    Strips { count: strips.count, width: strips.width, cuts: strips.grids.iter().map(laid).collect(), rest: run - end }
}

/// The fewest small fabrics for a list that leaves the cutting to the reader, by the numbers of the cutting list;
/// `None` for other lists and for fabric from the bolt.
pub fn small(cuts: &[Cut], cloth: Cloth) -> Option<DecidedSmall> {
    let Cloth::Small { across, along, .. } = cloth else { return None };
    let item = |cut: &Cut| match cut.shape {
        Shape::Piece { width, height, turns, strip_width: None } if cut.strips.is_none() && cut.joins.is_none() => {
            Some(Item { across: width, along: height, count: cut.pieces?, turns })
        }
        _ => None,
    };
    let items = cuts.iter().map(item).collect::<Option<Vec<Item>>>()?;
    decide_small(&items, across, along)
}
