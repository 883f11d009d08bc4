//! What each unit needs: how large its pieces are cut, and how many units come of them.

use super::assumed::{PIECING_SEAM, USABLE_WIDTH};
use super::fabrics::FabricsNeeds;
use crate::manuscript::Span;
use crate::manuscript::design::{CutFrom, PartCut, PieceRef, Unit};
use crate::manuscript::model::Manuscript;
use crate::quantity::{Count, Length, Measure, Round, Written, common_divisor};
use crate::quilt_math::rectangle::Rectangle;
use crate::quilt_math::units::{Part, segments};
use crate::rule_book::Settings;

/// The units of a manuscript.
#[derive(Debug)]
pub struct UnitsNeeds<'m> {
    /// The measure to print in.
    pub measure: Measure,
    /// What each unit needs, in the manuscript's order; where its pieces are cut by size, for the first of the sizes.
    pub units: Vec<UnitNeeds<'m>>,
    /// What the units need whose pieces are cut by size, for the other sizes.
    others: Vec<UnitNeeds<'m>>,
}

/// What one unit needs.
#[derive(Debug)]
pub struct UnitNeeds<'m> {
    /// What is stated.
    pub stated: &'m Unit,
    /// The seam that it is pieced with, and where that is stated.
    pub seam: Option<(Length, Option<Span>)>,
    /// Its finished width and height.
    pub finished: Option<Rectangle>,
    /// Its parts with what is stated for each; none for a strip set.
    pub parts: Vec<PartNeeds<'m>>,
    /// The strips of a strip set, with what is stated for each.
    pub strips: Vec<StripNeeds<'m>>,
    /// How wide the segments of a strip set are cut: as stated, or as they must be.
    pub segment: Option<Length>,
    /// How many units one set of pieces gives.
    pub gives: Option<Count>,
    /// How large its center and its logs make it, where it is a log cabin.
    pub logs_make: Option<Rectangle>,
}

/// What one part of a unit needs.
#[derive(Debug)]
pub struct PartNeeds<'m> {
    /// How it is cut.
    pub part: Part,
    /// What is stated.
    pub stated: &'m PartCut,
    /// The cut size that is stated, where one is.
    pub size: Option<StatedSize>,
    /// How wide the strips are, and where that is stated, where it is a log that is cut from strips left whole.
    pub strip: Option<(Written, Span)>,
}

/// The uses of pieces that are cut into triangles before anything is sewn: a piece that serves for several parts is
/// counted once, and no whole sets need be cut.
fn counted_by_triangles(uses: Vec<PieceUse<'_>>) -> Vec<PieceUse<'_>> {
    let mut counted: Vec<PieceUse<'_>> = Vec::new();
    for used in uses {
        match counted.iter_mut().find(|known| known.piece == used.piece && known.units == used.units) {
            Some(known) => known.pieces = known.pieces + used.pieces,
            None => counted.push(used),
        }
    }
    for used in &mut counted {
        let common = common_divisor(i128::from(used.pieces.0), i128::from(used.units.0)).max(1);
        let by = |count: Count| Count(count.0 / u64::try_from(common).unwrap_or(1));
        (used.pieces, used.units) = (by(used.pieces), by(used.units));
    }
    counted
}

impl PartNeeds<'_> {
    /// Whether another part is cut from the same piece to the same size.
    fn is_of_piece(&self, other: &PartNeeds<'_>) -> bool {
        let piece = |part: &PartNeeds<'_>| match part.stated.from.value()? {
            CutFrom::Piece(piece) => Some(piece),
            CutFrom::Size(..) => None,
        };
        piece(self).is_some_and(|own| piece(other) == Some(own))
    }

    /// Whether another part is cut from the same piece, and as this one is.
    pub fn is_cut_as(&self, other: &PartNeeds<'_>) -> bool {
        // Logs from strips left whole are as long as they need be.
        let by_width = self.strip.is_some() && other.strip.is_some();
        let is_as_high = by_width || self.part.height == other.part.height;
        self.is_of_piece(other) && self.part.width == other.part.width && is_as_high
    }
}

/// One strip of a strip set.
#[derive(Clone, Copy, Debug)]
pub struct StripNeeds<'m> {
    /// What is stated.
    pub stated: &'m PartCut,
    /// How wide it is cut, and where that is stated.
    pub width: Option<(Written, Span)>,
    /// How long it is.
    pub length: Option<Length>,
}

/// A stated cut size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StatedSize {
    /// Its width.
    pub width: Written,
    /// Its height.
    pub height: Written,
    /// Where it is stated.
    pub at: Span,
}

/// How many of a piece units take: so many pieces for so many units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceUse<'m> {
    /// The piece.
    pub piece: PieceRef,
    /// The part that is cut from it.
    pub part: &'m str,
    /// How many pieces one set takes.
    pub pieces: Count,
    /// How many units the set gives.
    pub units: Count,
}

impl PieceUse<'_> {
    /// How many pieces so many units take, where only whole sets are cut.
    pub fn for_units(&self, units: Count) -> Count {
        units.in_groups_of(self.units).unwrap_or_default() * self.pieces
    }
}

impl<'m> UnitsNeeds<'m> {
    /// What the units of a manuscript need.
    pub fn new(manuscript: &'m Manuscript, fabrics: &FabricsNeeds<'m>, settings: &Settings) -> UnitsNeeds<'m> {
        let of_size = |size| {
            let sources = Sources { manuscript, fabrics, settings, size };
            move |unit| UnitNeeds::new(unit, &sources)
        };
        let by_size = |unit: &&Unit| unit.cut.iter().any(|part| is_by_size(manuscript, part));
        let other =
            |size| manuscript.units.iter().filter(by_size).map(of_size(size)).map(move |unit| unit.by_size(manuscript));
        UnitsNeeds {
            measure: manuscript.measure,
            units: manuscript.units.iter().map(of_size(0)).collect(),
            others: (1..manuscript.sizes.len()).flat_map(other).collect(),
        }
    }

    /// Every unit for every cut size that is stated of its pieces.
    pub fn each(&self) -> impl Iterator<Item = &UnitNeeds<'m>> {
        self.units.iter().chain(&self.others)
    }

    /// How many of each piece a unit takes, in the order of its parts: pieces of one set over the units that it gives.
    /// `None` where the unit does not say what it is cut from, or that could not be read. A part whose size stands in
    /// the unit itself is no piece of a cutting list and is left out.
    pub fn pieces_per_unit(&self, unit: usize) -> Option<Vec<PieceUse<'m>>> {
        self.units.get(unit)?.pieces_per_unit()
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }

    /// A length as the manuscript prints it, rounded down.
    pub fn down(&self, length: Length) -> String {
        length.show(self.measure, Round::Down)
    }
}

/// Where stated values are looked up.
struct Sources<'a, 'm> {
    manuscript: &'m Manuscript,
    fabrics: &'a FabricsNeeds<'m>,
    settings: &'a Settings,
    /// The size whose cut sizes count.
    size: usize,
}

/// Whether the cut size of a part differs from size to size.
fn is_by_size(manuscript: &Manuscript, part: &PartCut) -> bool {
    let Some(CutFrom::Piece(piece)) = part.from.value() else { return false };
    let cut = manuscript.fabrics.get(piece.fabric).and_then(|fabric| fabric.cut.get(piece.cut));
    cut.is_some_and(crate::manuscript::model::Cut::is_by_size)
}

impl<'m> Sources<'_, 'm> {
    /// The seam of a unit: its own, the pattern's, or the rule book's.
    fn seam(&self, unit: &Unit) -> Option<(Length, Option<Span>)> {
        let stated = if unit.seam.is_absent() { &self.manuscript.assumes.seam } else { &unit.seam };
        Some((stated.or_length(|| self.settings.length(PIECING_SEAM))?, stated.at()))
    }

    /// The size that a part is cut to; nothing where the piece is strips left whole.
    fn size(&self, part: &PartCut) -> Option<StatedSize> {
        match part.from.stated()?.value {
            CutFrom::Size(width, height) => Some(StatedSize { width, height, at: part.from.at()? }),
            CutFrom::Piece(piece) => {
                // A template's box is not the size that a unit takes.
                let cut = self.piece(piece).filter(|cut| !cut.is_template())?;
                let size = cut.size.of(self.size).stated()?;
                Some(StatedSize { width: size.value.0, height: size.value.1, at: size.at })
            }
        }
    }

    fn piece(&self, piece: PieceRef) -> Option<&'m crate::manuscript::model::Cut> {
        self.manuscript.fabrics.get(piece.fabric)?.cut.get(piece.cut)
    }

    /// A strip of a strip set: a piece of a size, or a strip right across the fabric.
    fn strip(&self, stated: &'m PartCut) -> StripNeeds<'m> {
        if let Some(size) = self.size(stated) {
            let upright = size.width.length <= size.height.length;
            let (short, long) = if upright { (size.width, size.height) } else { (size.height, size.width) };
            return StripNeeds { stated, width: Some((short, size.at)), length: Some(long.length) };
        }
        let piece = stated.from.value().and_then(|from| match from {
            CutFrom::Piece(piece) => Some(piece),
            CutFrom::Size(..) => None,
        });
        let whole = piece.filter(|piece| self.piece(*piece).is_some_and(|cut| cut.is_whole_strips(self.size)));
        let width = whole.and_then(|piece| self.piece(piece)?.strip_width.of(self.size).stated());
        let cloth = whole.and_then(|piece| self.fabrics.fabrics.get(piece.fabric)?.cloth);
        StripNeeds {
            stated,
            width: width.map(|width| (width.value, width.at)),
            length: cloth.map(crate::quilt_math::cutting::Cloth::strip_length),
        }
    }

    /// The strips that a set is sewn from where their lengths are not stated.
    fn usable_width(&self) -> Option<Length> {
        self.manuscript.assumes.usable_width.or_length(|| self.settings.length(USABLE_WIDTH))
    }
}

impl<'m> UnitNeeds<'m> {
    fn new(stated: &'m Unit, sources: &Sources<'_, 'm>) -> UnitNeeds<'m> {
        let seam = sources.seam(stated);
        let finished = stated.finished.value().map(|(width, height)| Rectangle::new(width.length, height.length));
        let mut needs = UnitNeeds {
            stated,
            seam,
            finished,
            parts: Vec::new(),
            strips: Vec::new(),
            segment: None,
            gives: None,
            logs_make: None,
        };
        let (Some(make), Some(way)) = (stated.make.value(), stated.way()) else { return needs };
        needs.gives = way.gives;
        if make.is_strip_set() {
            needs.strip_set(sources);
        } else if let Some(measures) = seam.and_then(|(seam, _)| stated.measures(seam)) {
            let stated_part = |part: &Part| stated.cut.iter().find(|cut| cut.part == part.name);
            let of = |part: Part| {
                let stated = stated_part(&part)?;
                let size = sources.size(stated);
                let strip = if size.is_none() && make.row().has_logs() { sources.strip(stated).width } else { None };
                Some(PartNeeds { part, stated, size, strip })
            };
            needs.logs_make = measures.logs_make;
            needs.parts = way.cut_parts(&measures).into_iter().filter_map(of).collect();
        }
        needs
    }

    fn strip_set(&mut self, sources: &Sources<'_, 'm>) {
        self.strips = self.stated.cut.iter().map(|part| sources.strip(part)).collect();
        let needed = self.finished.zip(self.seam).map(|(finished, (seam, _))| finished.length + seam * 2);
        self.segment = if self.stated.segment.is_absent() { needed } else { self.stated.segment.length() };
        let shortest = if self.strips.is_empty() {
            sources.usable_width()
        } else {
            let lengths: Option<Vec<Length>> = self.strips.iter().map(|strip| strip.length).collect();
            lengths.and_then(|lengths| lengths.into_iter().min())
        };
        self.gives = shortest.zip(self.segment).map(|(length, segment)| segments(length, segment));
    }

    /// The same without what is stated for all sizes, which is told once.
    fn by_size(mut self, manuscript: &Manuscript) -> UnitNeeds<'m> {
        self.parts.retain(|part| is_by_size(manuscript, part.stated));
        self
    }

    /// How wide and high it is before it is sewn into a block: finished and a seam at each side.
    pub fn unfinished(&self) -> Option<Rectangle> {
        let ((seam, _), finished) = (self.seam?, self.finished?);
        Some(finished.with_overhang(seam))
    }

    /// How many units a set is counted to give: what the text says, and never more than the pieces give.
    pub fn counted(&self) -> Option<Count> {
        let gives = self.gives?;
        Some(self.stated.yields.or(gives)?.min(gives))
    }

    fn pieces_per_unit(&self) -> Option<Vec<PieceUse<'m>>> {
        let unit = self.stated;
        let way = unit.way()?;
        if !unit.cut_whole || (unit.cut.is_empty() && unit.takes.is_empty()) {
            return None;
        }
        let units = self.counted().filter(|units| units.0 > 0)?;
        let mut uses = Vec::new();
        for taken in &unit.takes {
            let (piece, pieces) = (taken.piece.value()?, taken.count.value()?);
            if pieces.0 > 0 {
                uses.push(PieceUse { piece, part: &taken.name, pieces, units });
            }
        }
        let parts = unit.measures(Length::ZERO).map(|measures| way.cut_parts(&measures)).unwrap_or_default();
        for part in &unit.cut {
            // A strip set takes one strip of each.
            let pieces = parts.iter().find(|row| row.name == part.part).map_or(Count(1), |row| row.pieces);
            match part.from.value()? {
                CutFrom::Piece(piece) => uses.push(PieceUse { piece, part: &part.part, pieces, units }),
                CutFrom::Size(..) => {}
            }
        }
        if way.cuts_first() { Some(counted_by_triangles(uses)) } else { Some(uses) }
    }
}
