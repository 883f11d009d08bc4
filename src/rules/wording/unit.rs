//! The cut sizes of units, judged once for the rules that tell what is short, what is left out and what is generous.

use super::super::Context;
use super::fold::ruler_step;
use super::subject;
use crate::finding::{Correction, Finding, Subject, SubjectKind};
use crate::manuscript::design::CutFrom;
use crate::manuscript::{Keyword, Span};
use crate::quantity::{Length, Measure, Round, Scale, Written, rewrite_square_or_sides};
use crate::quilt_math::rectangle::Rectangle;
use crate::quilt_math::units::{Exact, Share, Side, plain};
use crate::requirement::units::{PartNeeds, UnitNeeds, UnitsNeeds};
use crate::rule_book::{LengthValue, Settings};

const CUT_TOLERANCE: LengthValue = LengthValue::named("cut_tolerance");
/// How much more than is needed a piece may be cut of which the unit is trimmed.
const TRIMMING_ROOM: LengthValue = LengthValue::named("trimming_room");

/// By how much a cut size may differ from the exact one.
pub(crate) fn tolerance(settings: &Settings) -> Length {
    settings.length(CUT_TOLERANCE)
}

/// Whether the size that the text says to trim a unit to is right; `None` where it states none, or too little was read.
pub(in crate::rules) fn trim_is_right(unit: &UnitNeeds<'_>, settings: &Settings) -> Option<bool> {
    let (stated, needed) = (unit.stated.trim.stated()?, unit.unfinished()?);
    let (width, height) = (stated.value.0.length, stated.value.1.length);
    let about = |one: Length, other: Length| (one - other).abs() <= tolerance(settings);
    let is = |needed: Rectangle| about(width, needed.width) && about(height, needed.length);
    // The text may name either side first.
    Some(is(needed) || is(needed.turned()))
}

/// How much more than is needed the pieces of a unit may be cut: some where the text says to trim it to its size.
fn room(unit: &UnitNeeds<'_>, settings: &Settings) -> Length {
    let trimmed = trim_is_right(unit, settings) == Some(true);
    if trimmed { settings.length(TRIMMING_ROOM) } else { Length::ZERO }
}

/// How a stated side stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// It is right.
    Right,
    /// It is more than is needed.
    Generous,
    /// It is less than is needed.
    Short,
    /// It is less than is needed, and by what is plain.
    LeftOut(LeftOut),
}

/// What was left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LeftOut {
    /// All of it: what is stated is the finished size.
    AllSeams,
    /// One seam.
    OneSeam,
    /// The seam across the piece: what is stated is the cut size of a patch.
    SeamAcross,
}

/// One stated side of a piece.
#[derive(Clone, Copy, Debug)]
pub(crate) struct StatedSide {
    pub(crate) stated: Written,
    pub(crate) side: Side,
    pub(crate) step: Length,
    pub(crate) verdict: Verdict,
}

impl StatedSide {
    /// What to cut.
    pub(crate) fn needed(&self) -> Length {
        self.side.on_ruler(self.step)
    }

    /// What to print: what is stated, where that is enough.
    fn to_print(self) -> Length {
        if self.is_short() { self.needed() } else { self.stated.length }
    }

    pub(crate) const fn is_short(&self) -> bool {
        matches!(self.verdict, Verdict::Short | Verdict::LeftOut(_))
    }
}

/// A stated cut size of a unit, one side or two.
pub(crate) struct StatedCut<'a> {
    pub(crate) needs: &'a UnitsNeeds<'a>,
    pub(crate) unit: &'a UnitNeeds<'a>,
    /// `first of unit corner`.
    pub(crate) what: String,
    /// `first`.
    pub(crate) part: String,
    /// The name of the piece in the cutting list.
    pub(crate) piece: Option<String>,
    /// Where it is stated.
    pub(crate) at: Span,
    /// Where the unit says that the part is cut from it, where that is another place.
    pub(crate) named_at: Option<Span>,
    pub(crate) sides: Vec<StatedSide>,
    pub(crate) share: Share,
}

impl StatedCut<'_> {
    /// How it stands: short of something that is plain only where that holds of every short side.
    pub(crate) fn verdict(&self) -> Verdict {
        let mut short = self.sides.iter().filter(|side| side.is_short()).map(|side| side.verdict);
        match short.next() {
            Some(first) if short.all(|other| other == first) => first,
            Some(_) => Verdict::Short,
            None if self.sides.iter().any(|side| side.verdict == Verdict::Generous) => Verdict::Generous,
            None => Verdict::Right,
        }
    }

    /// What is stated: `3 3/4 in square`, `2 1/2 in x 4 1/2 in`, `2 1/2 in`.
    pub(crate) fn stated(&self) -> String {
        self.size(|side| self.needs.down(side.stated.length))
    }

    /// What is needed, the same way.
    pub(crate) fn needed(&self) -> String {
        self.size(|side| self.needs.up(side.needed()))
    }

    /// What is needed where that is no mark of a ruler, so that what is short can be worked out: ` (exactly 3.854 in)`.
    pub(crate) fn exactly(&self) -> String {
        let fine = self.size(|side| side.side.cut.above.show_fine(self.needs.measure, Round::Up));
        let fine = fine.trim_end_matches(" square");
        let marked = self.sides.iter().all(|side| side.needed() == side.side.cut.above);
        if marked { String::new() } else { format!(" (exactly {fine})") }
    }

    fn size(&self, show: impl Fn(&StatedSide) -> String) -> String {
        let shown: Vec<String> = self.sides.iter().map(show).collect();
        match &shown[..] {
            [width, height] if width == height => format!("{width} square"),
            _ => shown.join(" x "),
        }
    }

    /// The most that a side is short.
    pub(crate) fn short_by(&self) -> Length {
        let by = self.sides.iter().map(|side| side.side.cut.above - side.stated.length);
        by.max().unwrap_or_default()
    }

    /// The most that a side is too large.
    pub(crate) fn excess(&self) -> Length {
        let by = self.sides.iter().map(|side| side.stated.length - side.side.cut.below);
        by.max().unwrap_or_default()
    }

    /// `piece A (the first of unit corner)`.
    pub(crate) fn subject(&self) -> String {
        match &self.piece {
            Some(piece) => format!("piece {piece} (the {})", self.what),
            None => format!("the {}", self.what),
        }
    }

    /// The unit and its part, for the finding.
    pub(in crate::rules) fn about(&self) -> Subject {
        subject::unit(self.unit.stated).and(SubjectKind::Part, &self.part)
    }

    /// The finding with the places it comes from, the working and the correction.
    pub(crate) fn explain(&self, source: &str, finding: Finding) -> Finding {
        let stated = self.unit.stated;
        let seam = self.unit.seam.map(|(seam, _)| self.needs.up(seam)).unwrap_or_default();
        finding
            .about(self.about())
            .see(self.named_at, "cut from this piece")
            .see(stated.finished.at(), "the finished size")
            .see(stated.corner.at(), "how large its corners finish")
            .see(stated.logs.at(), "how wide its logs finish")
            .see(self.unit.seam.and_then(|(_, at)| at), format!("the seam is {seam}"))
            .help(self.working())
            .numbers(self.stated(), self.needed())
            .corrected(Some(Correction::new(self.at, self.rewritten(source))))
    }

    /// `3 in finished + 0.854 in for its seams = 3.854 in`, for each side that differs.
    pub(crate) fn working(&self) -> String {
        let mut told: Vec<String> = Vec::new();
        for StatedSide { side, .. } in &self.sides {
            let sum = side_sum(self.needs.measure, side);
            if !told.contains(&sum) {
                told.push(sum);
            }
        }
        let of = of_make(self.unit);
        format!("{}{of}: {}.", super::super::sentence(&self.what), told.join("; "))
    }

    /// The size written again, as it was written, large enough.
    fn rewritten(&self, source: &str) -> String {
        match &self.sides[..] {
            [width, height] => {
                let to = (width.to_print(), height.to_print());
                rewrite_square_or_sides(self.at.text(source), (&width.stated, &height.stated), to)
            }
            sides => sides.first().map(|side| side.stated.rewrite(side.to_print())).unwrap_or_default(),
        }
    }
}

/// `3 in finished + 0.854 in for its seams = 3.854 in`, the sum that of what is shown.
fn side_sum(measure: Measure, side: &Side) -> String {
    let (finished, allowance, cut) = (side.finished.above, side.allowance.above, side.cut.above);
    let whole = [side.finished, side.allowance, side.cut].iter().all(|exact| exact.below == exact.above);
    let scale = if whole { Scale::of(measure, &[finished, allowance, cut]) } else { Scale::fine(measure) };
    let rounded = |length| scale.rounded(length, Round::Up);
    let cut = if whole { cut } else { rounded(finished) + rounded(allowance) };
    format!("{} finished + {} for its seams = {}", scale.up(finished), scale.up(allowance), scale.up(cut))
}

/// `, a half-square triangle four at a time`: what the formula goes by.
pub(crate) fn of_make(unit: &UnitNeeds<'_>) -> String {
    // The trade writes these with a hyphen.
    let hyphened = |word: &str| {
        ["half", "quarter"].iter().fold(word.to_string(), |text, part| {
            ["square", "rectangle"]
                .iter()
                .fold(text, |text, shape| text.replace(&format!("{part}_{shape}"), &format!("{part}-{shape}")))
        })
    };
    let make = hyphened(unit.stated.make.value().map(Keyword::word).unwrap_or_default());
    match unit.stated.way().and_then(|way| way.method) {
        None => format!(" ({make})").replace('_', " "),
        Some(method) => format!(" ({make}, {})", method.word()).replace('_', " "),
    }
}

/// Every stated cut size of every unit with how it stands, but for the sums of strip sets.
pub(crate) fn stated_cuts<'a>(context: &Context<'a>) -> Vec<StatedCut<'a>> {
    judge_units(&context.needs.units, context.manuscript, context.settings)
}

/// The same without a context.
pub(crate) fn judge_units<'a>(
    needs: &'a UnitsNeeds<'a>,
    manuscript: &crate::manuscript::Manuscript,
    settings: &Settings,
) -> Vec<StatedCut<'a>> {
    let mut cuts = Vec::new();
    for unit in needs.each() {
        for (place, part) in unit.parts.iter().enumerate() {
            // A piece that serves for two parts is judged once, where both are cut alike.
            if !unit.parts[..place].iter().any(|before| before.is_cut_as(part)) {
                cuts.extend(judge_part(needs, unit, part, manuscript, settings));
            }
        }
        cuts.extend(judge_segment(needs, unit, settings));
    }
    cuts
}

fn judge_part<'a>(
    needs: &'a UnitsNeeds<'a>,
    unit: &'a UnitNeeds<'a>,
    part: &PartNeeds<'_>,
    manuscript: &crate::manuscript::Manuscript,
    settings: &Settings,
) -> Option<StatedCut<'a>> {
    let (at, sides) = stated_sides(part)?;
    let judge = |(stated, side)| judge_side(unit, stated, side, part.part.share, settings);
    let piece = match part.stated.from.value()? {
        CutFrom::Piece(piece) => {
            let cut = manuscript.fabrics.get(piece.fabric).and_then(|fabric| fabric.cut.get(piece.cut));
            cut.and_then(|cut| cut.piece.stated()).map(|name| name.value.clone())
        }
        CutFrom::Size(..) => None,
    };
    Some(StatedCut {
        needs,
        unit,
        what: format!("{} of unit {}", part.part.name.replace('_', " "), unit.stated.name),
        part: part.part.name.to_string(),
        named_at: piece.is_some().then(|| part.stated.from.at()).flatten(),
        piece,
        at,
        sides: sides.into_iter().map(judge).collect(),
        share: part.part.share,
    })
}

/// Where the size of a part is stated, and each stated side with the one that it serves for: of a log that is cut from
/// strips left whole, how wide those are.
fn stated_sides(part: &PartNeeds<'_>) -> Option<(Span, Vec<(Written, Side)>)> {
    let Some(size) = part.size else {
        let (width, at) = part.strip?;
        return Some((at, vec![(width, part.part.width)]));
    };
    // Pieces are turned as they fit: the longer side serves for the longer.
    let upright = |short: Length, long: Length| short <= long;
    let lies_as_needed = upright(part.part.width.cut.above, part.part.height.cut.above)
        == upright(size.width.length, size.height.length);
    let sides = if lies_as_needed { [part.part.width, part.part.height] } else { [part.part.height, part.part.width] };
    Some((size.at, [size.width, size.height].into_iter().zip(sides).collect()))
}

/// How wide the segments of a strip set are cut.
fn judge_segment<'a>(needs: &'a UnitsNeeds<'a>, unit: &'a UnitNeeds<'a>, settings: &Settings) -> Option<StatedCut<'a>> {
    let stated = unit.stated.segment.stated()?;
    let (finished, (seam, _)) = unit.finished.zip(unit.seam)?;
    let side = judge_side(unit, stated.value, plain(finished.length, seam), Share::Whole, settings);
    Some(StatedCut {
        needs,
        unit,
        what: format!("segment of unit {}", unit.stated.name),
        part: "segment".to_string(),
        piece: None,
        at: stated.at,
        named_at: None,
        sides: vec![side],
        share: Share::Whole,
    })
}

fn judge_side(unit: &UnitNeeds<'_>, stated: Written, side: Side, share: Share, settings: &Settings) -> StatedSide {
    let (step, tolerance) = (ruler_step(settings, &stated), tolerance(settings));
    let seam = unit.seam.map(|(seam, _)| seam).unwrap_or_default();
    let length = stated.length;
    // Where the extra moves a seam, trimming does not move it back.
    let room = if share == Share::SeamMoves { Length::ZERO } else { room(unit, settings) };
    let verdict = if !side.cut.is_met_by(length, tolerance) {
        left_out(length, side, share, seam, step, tolerance).map_or(Verdict::Short, Verdict::LeftOut)
    } else if side.cut.is_exceeded_by(length, tolerance) && length > side.by_handbook(step) + room {
        Verdict::Generous
    } else {
        Verdict::Right
    };
    StatedSide { stated, side, step, verdict }
}

/// What a short side lacks, where it is a size that a slip makes.
fn left_out(
    length: Length,
    side: Side,
    share: Share,
    seam: Length,
    step: Length,
    tolerance: Length,
) -> Option<LeftOut> {
    let less = |exact: Exact, by: Length| Exact { below: exact.below - by, above: exact.above - by };
    // A root was rounded up to the ruler, or not.
    let is = |exact: Exact| {
        let whole = exact.below == exact.above;
        exact.is_about(length, tolerance) || (!whole && exact.above.up_to(step) == length)
    };
    // The pieces of eight units hold the outer seams of two side by side.
    let outer = if share == Share::Half && side.finished.below == side.finished.above { seam * 4 } else { seam * 2 };
    if is(side.finished) {
        Some(LeftOut::AllSeams)
    } else if side.allowance.below > outer && is(less(side.finished, -outer)) {
        Some(LeftOut::SeamAcross)
    } else if is(less(side.cut, seam)) {
        Some(LeftOut::OneSeam)
    } else {
        None
    }
}

/// The strips of a strip set, added up.
pub(crate) struct StripSum<'a> {
    pub(crate) needs: &'a UnitsNeeds<'a>,
    pub(crate) unit: &'a UnitNeeds<'a>,
    /// Where it is stated: the one strip width, or the word `cut`.
    pub(crate) at: Span,
    /// What the strips come to when they are sewn.
    pub(crate) comes_to: Length,
    /// The finished width.
    pub(crate) finished: Length,
    pub(crate) seam: Length,
    pub(crate) verdict: Verdict,
}

/// Every strip set whose strips' widths are known.
pub(crate) fn strip_sums<'a>(needs: &'a UnitsNeeds<'a>, settings: &Settings) -> Vec<StripSum<'a>> {
    needs.each().filter_map(|unit| strip_sum(needs, unit, settings)).collect()
}

fn strip_sum<'a>(needs: &'a UnitsNeeds<'a>, unit: &'a UnitNeeds<'a>, settings: &Settings) -> Option<StripSum<'a>> {
    let cut_at = unit.stated.cut_at.filter(|_| unit.stated.cut_whole && !unit.strips.is_empty())?;
    let (finished, (seam, _)) = (unit.finished?.width, unit.seam?);
    let widths: Option<Vec<(Written, Span)>> = unit.strips.iter().map(|strip| strip.width).collect();
    let widths = widths?;
    let cut: Length = widths.iter().map(|(width, _)| width.length).sum();
    let seams = i64::try_from(widths.len()).unwrap_or(i64::MAX);
    let comes_to = cut - seam * 2 * seams;
    let short = finished - comes_to;
    let about = |length: Length| (short - length).abs() <= tolerance(settings);
    let is_room = short.is_negative() && -short <= room(unit, settings);
    let verdict = if about(Length::ZERO) || is_room {
        Verdict::Right
    } else if short.is_negative() {
        Verdict::Generous
    } else if about(seam * 2 * seams) {
        Verdict::LeftOut(LeftOut::AllSeams)
    } else if about(seam) || about(seam * 2) {
        Verdict::LeftOut(LeftOut::OneSeam)
    } else {
        Verdict::Short
    };
    let (_, first) = widths[0];
    let at = if widths.iter().all(|(_, at)| *at == first) { first } else { cut_at };
    Some(StripSum { needs, unit, at, comes_to, finished, seam, verdict })
}

impl StripSum<'_> {
    /// `strips 2 1/2 in + 2 1/2 in wide, less 2 seams each, come to 4 in`.
    pub(crate) const fn is_short(&self) -> bool {
        matches!(self.verdict, Verdict::Short | Verdict::LeftOut(_))
    }

    pub(crate) fn working(&self) -> String {
        const MAX_TOLD: usize = 8;
        let strips = &self.unit.strips;
        let widths = strips.iter().filter_map(|strip| strip.width).map(|(width, _)| width.length);
        let shown: Vec<Length> = widths.clone().chain([self.seam, self.comes_to]).collect();
        let scale = Scale::of(self.needs.measure, &shown);
        let told: Vec<String> = widths.take(MAX_TOLD).map(|width| scale.down(width)).collect();
        let more = if strips.len() > MAX_TOLD { " + ..." } else { "" };
        format!(
            "Strips: {}{more}, less two seams of {} from each of {}, come to {}.",
            told.join(" + "),
            scale.up(self.seam),
            strips.len(),
            scale.down(self.comes_to)
        )
    }

    /// The finding with the places it comes from and the working.
    pub(crate) fn explain(&self, mut finding: Finding) -> Finding {
        const MAX_SEEN: usize = 8;
        let mut seen: Vec<Span> = vec![self.at];
        for strip in self.unit.strips.iter().take(MAX_SEEN) {
            if let Some((_, at)) = strip.width.filter(|(_, at)| !seen.contains(at)) {
                seen.push(at);
                finding = finding.see(Some(at), format!("the strip {}", strip.stated.part));
            }
        }
        finding
            .about(subject::unit(self.unit.stated).and(SubjectKind::Part, "strips"))
            .see(self.unit.stated.finished.at(), "the finished size")
            .help(self.working())
            .numbers(self.needs.down(self.comes_to), self.needs.up(self.finished))
    }
}

/// The size of a unit with its seams, in words: `3 1/2 in square`.
pub(crate) fn unfinished_words(needs: &UnitsNeeds<'_>, unit: &UnitNeeds<'_>) -> Option<String> {
    let size = unit.unfinished()?;
    let (width, height) = (needs.up(size.width), needs.up(size.length));
    Some(if width == height { format!("{width} square") } else { format!("{width} x {height}") })
}
