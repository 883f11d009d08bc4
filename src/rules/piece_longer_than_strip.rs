//! A piece that does not come out of its fabric any way round.

use super::Context;
use super::wording::fabric::listed;
use super::wording::shape::does_not_fit;
use super::wording::subject::piece;
use crate::finding::{Finding, Label, Level};
use crate::manuscript::model::{Cut as StatedCut, SoldAs, YesNo};
use crate::quantity::{Length, Round, Scale};
use crate::quilt_math::cutting::{Cloth, Shape};
use crate::requirement::fabrics::{FabricNeeds, FabricsNeeds};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for fabric in &context.needs.fabrics.fabrics {
        let Some(cloth) = fabric.cloth else { continue };
        for (index, cut) in fabric.stated.cut.iter().enumerate() {
            // What is stated for all sizes is told once.
            let by_size = cut.is_by_size();
            let sizes = if by_size { fabric.sizes.len() } else { 1 };
            for size in 0..sizes {
                let of = by_size.then_some(size);
                let shape = fabric.shape(index, size);
                let shape = shape.filter(|shape| !shape.fits(cloth) && !is_joined(fabric, index, of, cloth));
                let found = shape.and_then(|shape| finding(&context.needs.fabrics, fabric, cloth, (cut, size), shape));
                let name = of.and_then(|of| Some(fabric.sizes.get(of)?.size.name.as_str()));
                findings.extend(found.map(|found| found.about(piece(fabric.stated, index)).for_some_size(name)));
            }
        }
    }
}

/// Whether the text tells strips for it for every size that takes it, or for the one that it is asked of, so that it is cut
/// from joined strips.
fn is_joined(fabric: &FabricNeeds<'_>, cut: usize, of: Option<usize>, cloth: Cloth) -> bool {
    let sizes = fabric.sizes.iter().filter(|size| of.is_none_or(|of| of == size.index));
    let mut cuts = sizes.filter_map(|size| size.cuts.get(cut).copied().flatten()).peekable();
    cuts.peek().is_some() && cuts.all(|cut| cut.fits(cloth))
}

fn finding(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    cloth: Cloth,
    (cut, size): (&StatedCut, usize),
    shape: Shape,
) -> Option<Finding> {
    if let Shape::Slanted(slanted) = shape {
        let name = cut.piece.stated().map_or("The piece".to_string(), |name| format!("Piece {}", name.value));
        let finding = does_not_fit(needs, cloth, (&name, cut, size), &slanted)?;
        return Some(finding.see(fabric.stated.usable_width.at(), "the usable width").help(unchecked(fabric)));
    }
    let at = cut.cut_at(size)?;
    let fit = Fit::best(shape, cloth);
    let lengths = fit.sides.iter().flat_map(|side| [side.piece, side.room]);
    let scale = Scale::of(needs.measure, &lengths.collect::<Vec<_>>());
    let up = |length| needs.up(length);
    let name = cut.piece.stated().map_or("The piece".to_string(), |name| format!("Piece {}", name.value));
    let measures = match shape {
        Shape::WholeStrip { width } => format!("{} wide", up(width)),
        Shape::Piece { width, height, strip_width: Some(strip), .. }
        | Shape::Template { width, height, strip_width: Some(strip), .. } => {
            format!("{} x {} from a strip {} wide", up(width), up(height), up(strip))
        }
        Shape::Piece { width, height, .. }
        | Shape::Template { width, height, .. }
        | Shape::Centered { width, height, .. } => {
            format!("{} x {}", up(width), up(height))
        }
        Shape::Slanted(_) => String::new(),
        Shape::Strip { length, width } => format!("{} x {}", up(length), up(width)),
        Shape::Lengthwise { width, length } => format!("{} wide and {} along the fabric", up(width), up(length)),
    };
    let room = match cloth {
        Cloth::Bolt { width } => format!("a strip is {} long", needs.down(width)),
        Cloth::Small { across, along, .. } => {
            format!("each of these fabrics is {} x {}", needs.down(along), needs.down(across))
        }
    };
    let keeps = fabric.stated.directional.value() == Some(YesNo::Yes);
    let way = if keeps { "it does not fit the way that the print runs" } else { "it does not fit either way" };
    let is_template = matches!(shape, Shape::Template { .. });
    let boxed = if is_template { " The shape in that box may fit on the slant." } else { "" };
    let message = format!("{name} is {measures}, and {room}: {way}.{boxed}");
    let level = if is_template { Level::Query } else { Level::Error };
    let help = match (keeps, fabric.stated.sold_as.or(SoldAs::Yardage)) {
        (true, _) => {
            "If the piece may be turned, take `directional: yes` out. If strips are joined end to end for it, state how many (such as strips: 2)."
        }
        (false, Some(SoldAs::Yardage)) => {
            "A long piece can be cut along the fabric (grain: lengthwise), or from strips joined end to end: state how many (such as strips: 2)."
        }
        (false, _) => "Cut it from yardage, or from strips joined end to end: state how many (such as strips: 2).",
    };
    Some(
        Finding::new(Label::new(at, "does not fit"), message)
            .see(fabric.stated.usable_width.at(), "the usable width")
            .see(fabric.stated.precut.at(), "how large each is")
            .help(fit.working(scale))
            .help(help)
            .help(unchecked(fabric))
            .numbers(
                fit.shown(scale, Round::Up, |side| side.piece),
                format!("at most {}", fit.shown(scale, Round::Down, |side| side.room)),
            )
            .at_most(level),
    )
}

/// One side of a piece beside the room that there is for it.
#[derive(Clone, Copy, Debug)]
struct FitSide {
    /// Where it lies: `across the fabric`.
    lies: &'static str,
    piece: Length,
    room: Length,
}

impl FitSide {
    fn lacks(&self) -> Length {
        (self.piece - self.room).max(Length::ZERO)
    }
}

/// A piece laid on its fabric the way in which it lacks least. Along the bolt there is room for any length.
struct Fit {
    sides: Vec<FitSide>,
}

impl Fit {
    fn best(shape: Shape, cloth: Cloth) -> Fit {
        let (run, depth) = match cloth {
            Cloth::Bolt { width } => (width, None),
            Cloth::Small { across, along, .. } => (across, Some(along)),
        };
        let side = |lies, piece, room| FitSide { lies, piece, room };
        let laid = |across: Length, along: Length, strip: Option<Length>| {
            let strip_side = strip.map(|strip| side("in the strip's width", along, strip));
            let depth_side = depth.map(|depth| side("along the fabric", strip.unwrap_or(along), depth));
            let sides = [Some(side("across the fabric", across, run)), strip_side, depth_side];
            Fit { sides: sides.into_iter().flatten().collect() }
        };
        let mut ways = match shape {
            Shape::WholeStrip { width } => vec![laid(run, width, None)],
            Shape::Strip { length, width } => vec![laid(length, width, None)],
            Shape::Lengthwise { width, length } => vec![laid(width, length, None)],
            // What is slanted is told otherwise.
            Shape::Slanted(shape) => vec![laid(shape.side, shape.height, None)],
            Shape::Centered { width, height, .. } => vec![laid(width, height, None)],
            Shape::Piece { width, height, turns, strip_width }
            | Shape::Template { width, height, turns, strip_width } => {
                let turned = turns.then(|| laid(height, width, strip_width));
                std::iter::once(laid(width, height, strip_width)).chain(turned).collect()
            }
        };
        ways.sort_by_key(|fit| fit.sides.iter().map(FitSide::lacks).sum::<Length>());
        ways.swap_remove(0)
    }

    /// `Across the fabric: 48 1/2 in - 40 in = 8 1/2 in too long.`
    fn working(&self, scale: Scale) -> String {
        let lacking = self.sides.iter().filter(|side| side.lacks().is_positive());
        let words = lacking.map(|side| {
            let (piece, room, lacks) = (scale.up(side.piece), scale.up(side.room), scale.up(side.lacks()));
            super::sentence(&format!("{}: {piece} - {room} = {lacks} too long.", side.lies))
        });
        words.collect::<Vec<_>>().join(" ")
    }

    /// The sides that lack something: `48 1/2 in across the fabric`.
    fn shown(&self, scale: Scale, round: Round, of: impl Fn(&FitSide) -> Length) -> String {
        let lacking = self.sides.iter().filter(|side| side.lacks().is_positive());
        lacking.map(|side| format!("{} {}", scale.show(of(side), round), side.lies)).collect::<Vec<_>>().join(", ")
    }
}

/// The amounts that cannot be checked while something does not come out of the fabric.
fn unchecked(fabric: &FabricNeeds<'_>) -> String {
    let left = fabric.sizes.iter().filter(|size| size.required.is_some() && size.taken.is_none());
    let sizes: Vec<&str> = left.map(|size| size.size.name.as_str()).collect();
    match sizes.as_slice() {
        [] => String::new(),
        sizes => {
            let amounts = if sizes.len() == 1 { "amount" } else { "amounts" };
            let are = if sizes.len() == 1 { "is" } else { "are" };
            format!("Until it fits, the {amounts} of {} for {} {are} not checked.", fabric.stated.name, listed(sizes))
        }
    }
}
