//! What bias binding of each size needs.

use super::assumed::JOIN_SEAM;
use super::edge::edge;
use crate::manuscript::Field;
use crate::manuscript::model::{Binding, BindingRequires, Manuscript, PerSize, Size};
use crate::quantity::{Count, Length, Percent, Written, Yardage};
use crate::quilt_math::bias::{BiasStrips, join_loss, rectangle_gives, square_for, strips_from};
use crate::quilt_math::binding::{Lengths, Method, joined, lengths, strips_for};
use crate::quilt_math::outline::Edge;
use crate::rule_book::Settings;

/// Where no number of strips is enough.
pub const NO_NUMBER: Count = Count(u64::MAX);

/// What the bias binding of one size needs.
#[derive(Debug)]
pub struct BiasNeeds<'m> {
    /// The size.
    pub size: &'m Size,
    /// What is stated for it.
    pub stated: &'m BindingRequires,
    /// The quilt's edge.
    pub edge: Edge,
    /// The lengths that the binding must have.
    pub lengths: Lengths,
    /// How wide the strips are.
    pub strip_width: Length,
    /// The usable width of the fabric.
    pub usable_width: Length,
    /// How long each strip is cut, where it is stated for the size or for all sizes.
    pub strip_length: Field<Written>,
    /// The seam that joins strips, or the square's two halves.
    pub seam: Length,
    /// How much shorter the fabric is after washing, where it is bought for the binding alone.
    pub shrinks: Percent,
}

impl<'m> BiasNeeds<'m> {
    /// What each size needs, where the binding is cut on the bias and enough of it was read.
    pub fn of_each(
        manuscript: &'m Manuscript,
        binding: &'m Binding,
        (methods, usable_width): (&[Option<Method>], Option<Length>),
        shrinks: Option<Percent>,
        settings: &Settings,
    ) -> Vec<BiasNeeds<'m>> {
        let stated = manuscript.sizes.iter().zip(binding.requires.iter().map(PerSize::stated));
        let seam = settings.length(JOIN_SEAM);
        let each = |(index, (size, stated)): (usize, (&'m Size, Option<&'m BindingRequires>))| {
            let method: Method = (*methods.get(index)?)?;
            let edge = edge(size)?;
            let lengths = lengths(&edge, &method);
            let (strip_width, usable_width) = (method.strip_width, usable_width?);
            let stated = stated?;
            let own = &stated.strip_length;
            let strip_length = if own.is_absent() { &binding.strip_length } else { own }.clone();
            let shrinks = shrinks?;
            Some(BiasNeeds { size, stated, edge, lengths, strip_width, usable_width, strip_length, seam, shrinks })
        };
        stated.enumerate().filter_map(each).collect()
    }

    /// How long each strip is: as stated, or as the stated fabric allows; `None` where nothing says it.
    pub fn strip_run(&self) -> Option<Length> {
        if !self.strip_length.is_absent() {
            return self.strip_length.length();
        }
        self.stated.fabric.stated().map(|fabric| self.strips_from(fabric.value.least()).run)
    }

    /// Whether neither a length nor the fabric is stated, and so nothing says how long a strip is.
    pub fn no_run_stated(&self) -> bool {
        self.strip_length.is_absent() && self.stated.fabric.is_absent()
    }

    /// The side of the square that is needed, before it is brought onto a mark of the ruler.
    pub fn square(&self) -> Length {
        square_for(self.lengths.asked, self.strip_width, self.seam)
    }

    /// How much strip a square or a rectangle gives.
    pub fn given_by(&self, sides: (Length, Length)) -> Length {
        rectangle_gives(sides, self.strip_width, self.seam)
    }

    /// The sides of the stated square or rectangle.
    pub fn sides(&self) -> Option<(Length, Length)> {
        self.stated.square.value().map(|(width, length)| (width.length, length.length))
    }

    /// Whether the stated square or rectangle gives enough, compared with the side that is needed where it is a square.
    pub fn sides_reach(&self, sides: (Length, Length)) -> bool {
        if sides.0 == sides.1 { sides.0 >= self.square() } else { self.given_by(sides) >= self.lengths.asked }
    }

    /// How much of the fabric's length the square or the rectangle takes, laid so that it takes least, before it is washed;
    /// `None` where it does not fit across the fabric.
    pub fn along(&self, (width, length): (Length, Length)) -> Option<Length> {
        let (short, long) = (width.min(length), width.max(length));
        let along = match self.usable_width {
            usable if long <= usable => short,
            usable if short <= usable => long,
            _ => return None,
        };
        Some(self.shrinks.before(along))
    }

    /// How much of the other side a rectangle needs, of which one side is given.
    pub fn other_side(&self, side: Length) -> Option<Length> {
        let inside = (side - self.seam * 2).ticks();
        if inside <= 0 {
            return None;
        }
        let area = self.lengths.asked.ticks() * self.strip_width.ticks();
        Some(Length::from_ticks((area + inside - 1) / inside) + self.seam * 2)
    }

    /// What a join between two strips takes.
    pub fn join_loss(&self) -> Length {
        join_loss(self.seam)
    }

    /// The strips that come out of an amount of fabric, once it is washed where it is washed first.
    pub fn strips_from(&self, fabric: Yardage) -> BiasStrips {
        strips_from(self.usable_width, self.shrinks.left_of(fabric.0), self.strip_width, self.seam)
    }

    /// How long so many strips are when joined.
    pub fn joined(&self, strips: Count, run: Length) -> Length {
        joined(strips, run, self.join_loss())
    }

    /// How many strips of a length are needed.
    pub fn strips_of(&self, run: Length) -> Option<Count> {
        strips_for(self.lengths.asked, run, self.join_loss())
    }

    /// How many strips of the stated length come out of an amount of fabric; of its own length, where none is stated.
    /// Short strips are cut several from one that runs from edge to edge.
    pub fn available(&self, fabric: Yardage) -> Option<Count> {
        let strips = self.strips_from(fabric);
        match &self.strip_length {
            Field::Absent => Some(strips.available),
            length => Some(strips.available * strips.run.pieces_of(length.length()?)),
        }
    }

    /// How many strips an amount of fabric must give: those stated, or as many as reach. More than there can be where
    /// no number of them reaches, for a join takes as much as a strip adds.
    pub fn strips_wanted(&self, fabric: Yardage) -> Option<Count> {
        match &self.stated.strips {
            Field::Absent => {
                let run = self.strip_length.or_length(|| self.strips_from(fabric).run)?;
                Some(self.strips_of(run).unwrap_or(NO_NUMBER))
            }
            strips => strips.value(),
        }
    }

    /// Whether strips are stated and an amount of fabric gives them.
    pub fn gives_strips(&self, fabric: Yardage) -> bool {
        self.stated.strips.value().zip(self.available(fabric)).is_some_and(|(stated, available)| stated <= available)
    }

    /// Whether an amount of fabric gives the stated strips, and enough of them to reach.
    pub fn is_enough(&self, fabric: Yardage) -> bool {
        let run = self.strip_length.or_length(|| self.strips_from(fabric).run);
        let reach = run.and_then(|run| self.strips_of(run));
        let wanted = reach.map(|reach| self.stated.strips.value().map_or(reach, |stated| stated.max(reach)));
        wanted.zip(self.available(fabric)).is_some_and(|(wanted, available)| wanted <= available)
    }

    /// The same once its edge is squared up.
    pub fn is_enough_squared(&self, fabric: Yardage, squaring: Length) -> bool {
        self.is_enough(Yardage((fabric.0 - squaring).max(Length::ZERO)))
    }

    /// The least fabric, in steps of what the shop sells, that gives the stated strips and enough of them once its edge is
    /// squared up; `None` beyond 2000 in.
    pub fn fabric(&self, step: Yardage, squaring: Length) -> Option<Yardage> {
        if !step.0.is_positive() {
            return None;
        }
        let most = Length::LONGEST.pieces_of(step.0).0;
        // More fabric never gives less strip, so the first amount that is enough can be found by halving.
        let enough = |steps: u64| self.is_enough_squared(Yardage(step.0 * Count(steps)), squaring);
        let (mut short, mut long) = (0, most);
        if !enough(long) {
            return None;
        }
        while long - short > 1 {
            let middle = u64::midpoint(short, long);
            if enough(middle) { long = middle } else { short = middle }
        }
        Some(Yardage(step.0 * Count(long)))
    }
}
