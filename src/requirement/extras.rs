//! What a hanging sleeve, prairie points and the back of a pillow need.

use super::assumed::PIECING_SEAM;
use super::batting::finished;
use super::edge::edge;
use crate::manuscript::model::{Manuscript, Measured, PerSize, PillowPieces, PrairiePoints, Size, Sleeve};
use crate::manuscript::{Field, Spanned};
use crate::quantity::{Count, Length, Measure, Written};
use crate::quilt_math::extras::{pillow_overlap, point_base, points_around, points_for, sleeve_depth, sleeve_width};
use crate::quilt_math::outline::Edge;
use crate::quilt_math::rectangle::Rectangle;
use crate::rule_book::{LengthValue, Settings};

const SLEEVE_HEM: LengthValue = LengthValue::named("sleeve_hem");
const PILLOW_HEM: LengthValue = LengthValue::named("pillow_hem");
const PILLOW_OVERLAP: LengthValue = LengthValue::named("pillow_overlap");

/// The extras of a manuscript.
#[derive(Debug)]
pub struct ExtrasNeeds<'m> {
    /// The measure to print in.
    pub measure: Measure,
    /// The sleeve of each size that has one.
    pub sleeves: Vec<SleeveNeeds<'m>>,
    /// The prairie points of each size that has them.
    pub points: Vec<PointsNeeds<'m>>,
    /// The back of each size that is a pillow.
    pub pillows: Vec<PillowNeeds<'m>>,
}

/// The sleeve of one size.
#[derive(Debug)]
pub struct SleeveNeeds<'m> {
    /// The section.
    pub stated: &'m Sleeve,
    /// The size.
    pub size: &'m Size,
    /// How the strip is cut.
    pub cut: &'m Spanned<(Written, Written)>,
    /// How wide the quilt is.
    pub quilt: Length,
    /// The seam of the tube.
    pub seam: Length,
    /// What the hem at each end takes.
    pub hem: Length,
    /// How deep it is to be.
    pub depth: Length,
    /// How wide the strip is cut for that.
    pub width: Length,
    /// How deep it is as it is cut.
    pub deep: Length,
    /// How long it is when it is hemmed.
    pub long: Length,
}

/// The prairie points of one size.
#[derive(Debug)]
pub struct PointsNeeds<'m> {
    /// The section.
    pub stated: &'m PrairiePoints,
    /// The size.
    pub size: &'m Size,
    /// How many are stated.
    pub count: &'m Spanned<Count>,
    /// The quilt.
    pub quilt: Rectangle,
    /// How wide each is at the seam.
    pub base: Length,
    /// How much of it lies in the next.
    pub overlap: Length,
    /// The fewest on each side of its edge, in turn; all of them together on a round edge. `None` where a point adds
    /// nothing, or the outline could not be read.
    pub sides: Option<Vec<Count>>,
    /// The edge, where the quilt is no rectangle.
    pub outline: Option<Edge>,
}

impl PointsNeeds<'_> {
    /// The fewest that go around without a gap.
    pub fn needed(&self) -> Option<Count> {
        Some(self.sides.as_ref()?.iter().fold(Count(0), |sum, side| sum + *side))
    }
}

/// The back of one pillow.
#[derive(Debug)]
pub struct PillowNeeds<'m> {
    /// The size.
    pub size: &'m Size,
    /// What is stated.
    pub pieces: &'m PillowPieces,
    /// The front with its seams: along the opening, and across it.
    pub front: Rectangle,
    /// What each hem takes.
    pub hem: Length,
    /// How far the pieces should overlap.
    pub overlap: Length,
    /// How far they do.
    pub overlaps: Length,
    /// The two pieces as they are cut.
    pub cut: [Rectangle; 2],
}

impl<'m> ExtrasNeeds<'m> {
    /// What the extras of a manuscript need.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> ExtrasNeeds<'m> {
        let values = Values { manuscript, settings };
        ExtrasNeeds {
            measure: manuscript.measure,
            sleeves: manuscript.sleeve.iter().flat_map(|sleeve| values.sleeves(sleeve)).collect(),
            points: manuscript.prairie_points.iter().flat_map(|points| values.points(points)).collect(),
            pillows: values.pillows(),
        }
    }
}

/// Where stated values are looked up.
struct Values<'a, 'm> {
    manuscript: &'m Manuscript,
    settings: &'a Settings,
}

impl<'m> Values<'_, 'm> {
    /// Its own seam, the pattern's, or the rule book's.
    fn seam(&self, own: &Field<Written>) -> Option<Length> {
        let stated = if own.is_absent() { &self.manuscript.assumes.seam } else { own };
        stated.or_length(|| self.settings.length(PIECING_SEAM))
    }

    /// A size without its seams: where the text measures raw edges, it is stated with them.
    fn sewn(&self, size: &Size, seam: Length) -> Option<Rectangle> {
        let stated = finished(size)?;
        match self.manuscript.assumes.measured.or(Measured::Sewn)? {
            Measured::Sewn => Some(stated),
            Measured::RawEdges => Some(stated.with_overhang(-seam)),
        }
    }

    /// The sizes for which something is stated.
    fn each<T>(&self, requires: &'m [PerSize<T>]) -> impl Iterator<Item = (&'m Size, &'m T)> {
        let sizes = self.manuscript.sizes.iter().zip(requires.iter().map(PerSize::stated));
        sizes.filter_map(|(size, stated)| Some((size, stated?)))
    }

    fn sleeves(&self, stated: &'m Sleeve) -> Vec<SleeveNeeds<'m>> {
        let hem = || stated.hem.or_length(|| self.settings.length(SLEEVE_HEM));
        let of = |(size, cut): (&'m Size, &'m Spanned<(Written, Written)>)| {
            let (seam, hem, depth) = (self.seam(&stated.seam)?, hem()?, stated.depth.length()?);
            let (width, long) = (cut.value.0.length, cut.value.1.length);
            Some(SleeveNeeds {
                stated,
                size,
                cut,
                quilt: finished(size)?.width,
                seam,
                hem,
                depth,
                width: sleeve_width(depth, seam),
                deep: sleeve_depth(width, seam),
                long: long - hem * 2,
            })
        };
        self.each(&stated.requires).filter_map(of).collect()
    }

    fn points(&self, stated: &'m PrairiePoints) -> Vec<PointsNeeds<'m>> {
        let of = |(size, count): (&'m Size, &'m Spanned<Count>)| {
            let (square, seam) = (stated.square.length()?, self.seam(&stated.seam)?);
            let overlap = stated.overlap.or_length(|| Length::ZERO)?;
            let (quilt, base) = (self.sewn(size, seam)?, point_base(square, seam));
            let outline = if size.outline.is_absent() { None } else { edge(size) };
            let is_round = outline.as_ref().is_some_and(|edge| !edge.cornered);
            let lengths = match &outline {
                Some(edge) => edge.sides.clone(),
                None => vec![quilt.width, quilt.length, quilt.width, quilt.length],
            };
            let of_side = |side: &Length| {
                if is_round { points_around(*side, base, overlap) } else { points_for(*side, base, overlap) }
            };
            let sides = lengths.iter().map(of_side).collect::<Option<_>>().filter(|_| !size.outline.is_unread());
            Some(PointsNeeds { stated, size, count, quilt, base, overlap, sides, outline })
        };
        self.each(&stated.requires).filter_map(of).collect()
    }

    fn pillows(&self) -> Vec<PillowNeeds<'m>> {
        let Some(stated) = &self.manuscript.pillow_back else { return Vec::new() };
        let of = |(size, pieces): (&'m Size, &'m PillowPieces)| {
            let seam = self.seam(&stated.seam)?;
            let hem = stated.hem.or_length(|| self.settings.length(PILLOW_HEM))?;
            let overlap = stated.overlap.or_length(|| self.settings.length(PILLOW_OVERLAP))?;
            let pillow = self.sewn(size, seam)?.with_overhang(seam);
            let cut = |field: &Field<(Written, Written)>| {
                field.value().map(|(width, length)| Rectangle::new(width.length, length.length))
            };
            let cut = [cut(&pieces.first)?, cut(&pieces.second)?];
            // The opening runs along whichever side the pieces are as long as, or more nearly.
            let off = |side: Length| cut.iter().map(|piece| (piece.width - side).abs()).sum::<Length>();
            let front = if off(pillow.width) <= off(pillow.length) { pillow } else { pillow.turned() };
            let overlaps = pillow_overlap((cut[0].length, cut[1].length), hem, front.length);
            Some(PillowNeeds { size, pieces, front, hem, overlap, overlaps, cut })
        };
        self.each(&stated.requires).filter_map(of).collect()
    }
}
