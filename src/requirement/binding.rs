//! What the binding of each size needs.
//!
//! What is needed is never less than the bare minimum that goes round and closes, even where `extra_length` says less:
//! such a binding could not be closed.

use super::assumed::{JOIN_SEAM, PIECING_SEAM, USABLE_WIDTH};
use super::bias::BiasNeeds;
use super::cloth::cloth;
use super::edge::edge;
use super::fabric::Shop;
use crate::manuscript::Spanned;
use crate::manuscript::model::{
    Binding, BindingRequires, Closing, Finish, Fold, Grain, Join, Loft, LoftWord, Manuscript, PerSize, Side, Size,
};
use crate::quantity::{Count, Length, Measure, Percent, Round, Written};
use crate::quilt_math::binding::{
    CutPlan, Ends, Lengths, Method, cut_plan, join_loss, joined, lengths, reach, strips_for, with_flange,
};
use crate::quilt_math::cutting::Cloth;
use crate::quilt_math::outline::Edge;
use crate::rule_book::{CountValue, LengthValue, Settings};

/// What a mitred corner takes up.
pub const TAKE_UP: LengthValue = LengthValue::named("take_up_per_corner");
/// Each tail where the pattern states none.
pub const TAIL: LengthValue = LengthValue::named("tail");
/// The opening where the pattern states none.
pub const OPENING: LengthValue = LengthValue::named("opening");
/// The seam that attaches the binding where the pattern states none.
pub const SEAM: LengthValue = LengthValue::named("binding_seam");
/// How far one end reaches into the other, and the fold of that, where they are tucked.
const TUCK: LengthValue = LengthValue::named("tuck");
/// How much longer than its side a facing's strip is cut at each of its ends.
const FACING_END: LengthValue = LengthValue::named("facing_end");
/// How many strips are to spare.
pub const SPARE_STRIPS: CountValue = CountValue::named("spare_strips");
/// The rule that asks for them: a house that does without it counts none.
const SPARE_STRIP: &str = "spare-strip";
const LOFT_LOW: LengthValue = LengthValue::named("loft_low");
const LOFT_MEDIUM: LengthValue = LengthValue::named("loft_medium");
const LOFT_HIGH: LengthValue = LengthValue::named("loft_high");

/// The binding of a manuscript: the method resolved, and what each size needs.
///
/// A part that could not be read is `None`, and so is what depends on it; the rest stands.
#[derive(Debug)]
pub struct BindingNeeds<'m> {
    /// What is stated.
    pub stated: &'m Binding,
    /// The measure to print in.
    pub measure: Measure,
    /// How fabric is sold.
    pub shop: Shop,
    /// How many strips are to spare; none where the house does without the rule that asks for them.
    pub spares: Count,
    /// How the strip is folded.
    pub fold: Option<Fold>,
    /// Which way strips are cut.
    pub grain: Option<Grain>,
    /// How strips are joined.
    pub join: Option<Join>,
    /// How the two ends meet.
    pub closing: Option<Closing>,
    /// How the fold is fastened.
    pub finish: Option<Finish>,
    /// The side that the binding is sewn to first.
    pub sewn_first_to: Option<Side>,
    /// The seam that attaches it.
    pub seam: Option<Length>,
    /// The thickness of the sandwich at the edge.
    pub loft: Option<Length>,
    /// The usable width of the fabric.
    pub usable_width: Option<Length>,
    /// How much shorter the fabric is after washing, where it is bought for the binding alone.
    pub shrinks: Option<Percent>,
    /// The opening; `None` too where a plain extra length is stated and no opening.
    pub opening: Option<Length>,
    /// The two tails; `None` too where a plain extra length is stated.
    pub tails: Option<(Length, Length)>,
    /// The method for the widest strips, where all of it was read.
    pub method: Option<Method>,
    /// The method for each size, in the order of the sizes.
    pub methods: Vec<Option<Method>>,
    /// The flange, where there is one.
    pub flange: Option<Flange>,
    /// Each strip width that is stated.
    pub widths: Vec<StripWidth<'m>>,
    /// What each size needs, for the sizes of which enough was read.
    pub sizes: Vec<SizeNeeds<'m>>,
    /// What each size needs where the binding is cut on the bias.
    pub bias: Vec<BiasNeeds<'m>>,
}

/// A strip width that is stated, for one size or for all.
#[derive(Clone, Copy, Debug)]
pub struct StripWidth<'m> {
    /// The size, where it is for one.
    pub size: Option<&'m Size>,
    /// What is stated.
    pub stated: &'m Spanned<Written>,
    /// How wide it is when it is folded: with the flange that is sewn to it, where there is one.
    pub folded: Length,
    /// How far the fold reaches past the stitching, where all of it was read.
    pub reach: Option<Length>,
}

/// The flange of a binding in two fabrics.
#[derive(Clone, Copy, Debug)]
pub struct Flange {
    /// How wide its strips are cut.
    pub width: Length,
    /// The seam that sews them to the binding's.
    pub seam: Length,
}

/// What the binding of one size needs.
#[derive(Debug)]
pub struct SizeNeeds<'m> {
    /// The size.
    pub size: &'m Size,
    /// Its place among the sizes.
    pub index: usize,
    /// The method for its strips.
    pub method: Method,
    /// What is stated for it.
    pub stated: &'m BindingRequires,
    /// The quilt's edge.
    pub edge: Edge,
    /// How long each strip is.
    pub strip_length: Length,
    /// The lengths that the binding must have.
    pub lengths: Lengths,
    /// How many strips reach that, without a spare; `None` where a strip is no longer than a join takes.
    pub strips: Option<Count>,
    /// Whether they are fewer because each side of a facing is cut from strips of its own, and none goes around a corner.
    pub is_by_side: bool,
    /// How the strips lie on the fabric: those stated, or those that go round where none are stated.
    pub cut: Option<CutPlan>,
    /// How the strips that the pattern should print lie on the fabric: never fewer than are needed with the spare.
    pub print: Option<CutPlan>,
}

impl<'m> BindingNeeds<'m> {
    /// What a manuscript's binding needs; `None` where it states no binding.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> Option<BindingNeeds<'m>> {
        let stated = manuscript.binding.as_ref()?;
        let extra = stated.extra_length.stated().is_some();
        let tail = || settings.length(TAIL);
        let tails = (stated.tails.start.or_length(tail), stated.tails.end.or_length(tail));
        let usable_width = usable_width(stated, manuscript, settings);
        let fold = stated.fold.or(Fold::Double);
        let is_closed = fold != Some(Fold::Facing);
        let opening = if !is_closed || extra && stated.opening.is_absent() {
            None
        } else {
            stated.opening.or_length(|| settings.length(OPENING))
        };
        let mut needs = BindingNeeds {
            stated,
            measure: manuscript.measure,
            shop: Shop::new(manuscript, settings),
            spares: if settings.does_without(SPARE_STRIP) { Count(0) } else { settings.count(SPARE_STRIPS) },
            fold,
            grain: stated.grain.or(Grain::Crosswise),
            join: stated.join.or(Join::Diagonal),
            closing: stated.ends.or(Closing::Joined),
            finish: stated.finish.or(Finish::Machine),
            sewn_first_to: None,
            seam: stated.seam.or_length(|| settings.length(SEAM)),
            loft: stated.loft.or(Loft::Keyword(LoftWord::Low)).map(|loft| thickness(loft, settings)),
            usable_width,
            shrinks: if stated.from.is_absent() {
                manuscript.assumes.shrinks.or(Percent::default())
            } else {
                Some(Percent::default())
            },
            opening,
            tails: if extra || !is_closed { None } else { tails.0.zip(tails.1) },
            method: None,
            methods: Vec::new(),
            flange: flange(stated, manuscript, settings),
            widths: Vec::new(),
            sizes: Vec::new(),
            bias: Vec::new(),
        };
        needs.sewn_first_to = needs.first_side();
        let each = (0..manuscript.sizes.len()).map(|size| needs.method(size, settings));
        needs.methods = each.collect();
        needs.method = needs.methods.iter().copied().flatten().max_by_key(|method| method.strip_width);
        needs.widths = needs.widths(manuscript);
        needs.sizes = needs.sizes(manuscript);
        if needs.grain == Some(Grain::Bias) {
            let method = (needs.methods.as_slice(), needs.usable_width);
            needs.bias = BiasNeeds::of_each(manuscript, needs.stated, method, needs.shrinks, settings);
        }
        Some(needs)
    }

    /// Hand-finished binding is sewn to the front first, machine-finished to the back (common practice).
    fn first_side(&self) -> Option<Side> {
        if self.fold? == Fold::Facing {
            return self.stated.sewn_first_to.or(Side::Front);
        }
        let usual = match self.finish? {
            Finish::Machine => Side::Back,
            Finish::Hand | Finish::Ditch => Side::Front,
        };
        self.stated.sewn_first_to.or(usual)
    }

    fn widths(&self, manuscript: &'m Manuscript) -> Vec<StripWidth<'m>> {
        let reach = |width: Length| reach(self.fold?, width, self.seam?, self.loft?);
        // A flange that could not be read leaves open how wide the fold is.
        let is_known = !self.stated.flange.is_unread();
        let of = |(size, stated): (Option<usize>, &'m Spanned<Written>)| {
            let width = stated.value.length;
            let folded = self.flange.map_or(width, |flange| with_flange(width, flange.width, flange.seam));
            let size = size.and_then(|size| manuscript.sizes.get(size));
            StripWidth { size, stated, folded, reach: reach(folded).filter(|_| is_known) }
        };
        self.stated.strip_width.stated().map(of).collect()
    }

    fn method(&self, size: usize, settings: &Settings) -> Option<Method> {
        let strip_width = self.stated.strip_width.of(size).length()?;
        let extra = &self.stated.extra_length;
        let is_facing = self.fold? == Fold::Facing;
        let ends = if !extra.is_absent() {
            Ends::Extra(extra.length()?)
        } else if is_facing {
            Ends::Sides
        } else {
            let (start, end) = self.tails?;
            Ends::Tails { start, end, opening: self.opening? }
        };
        let join_loss = join_loss(self.join?, strip_width, settings.length(JOIN_SEAM));
        let closing = match self.closing? {
            _ if is_facing => Length::ZERO,
            Closing::Joined => join_loss,
            Closing::Tucked => settings.length(TUCK),
        };
        // Two strips of a facing end at each corner.
        let take_up = if is_facing { settings.length(FACING_END) * 2 } else { settings.length(TAKE_UP) };
        Some(Method { strip_width, join_loss, closing, take_up, ends })
    }

    fn sizes(&self, manuscript: &'m Manuscript) -> Vec<SizeNeeds<'m>> {
        // Bias strips are cut at an angle: their count and fabric are another computation.
        if self.grain == Some(Grain::Bias) {
            return Vec::new();
        }
        let stated = manuscript.sizes.iter().zip(self.stated.requires.iter().map(PerSize::stated));
        let mut sizes = Vec::with_capacity(stated.len());
        sizes.extend(stated.enumerate().filter_map(|(index, (size, stated))| self.size(index, size, stated?)));
        sizes
    }

    fn size(&self, index: usize, size: &'m Size, stated: &'m BindingRequires) -> Option<SizeNeeds<'m>> {
        let (method, grain) = ((*self.methods.get(index)?)?, self.grain?);
        let edge = edge(size)?;
        let strip_length = self.strip_length(stated)?;
        let lengths = lengths(&edge, &method);
        let joined = strips_for(lengths.asked, strip_length, method.join_loss);
        let by_side = side_by_side(&edge, &method, strip_length);
        let is_by_side = by_side.is_some_and(|by_side| joined.is_none_or(|joined| by_side < joined));
        let strips = if is_by_side { by_side } else { joined };
        let to_cut = if stated.strips.is_absent() { strips } else { stated.strips.value() };
        let cut = to_cut.zip(self.usable_width).zip(self.shrinks);
        let cut = cut.and_then(|((strips, usable), shrinks)| {
            Some(cut_plan(strips, grain, method.strip_width, strip_length, usable)?.shrinking(shrinks))
        });
        let mut needs = SizeNeeds {
            size,
            index,
            method,
            stated,
            edge,
            strip_length,
            lengths,
            strips,
            is_by_side,
            cut,
            print: None,
        };
        needs.print = needs.cut_to_print(self);
        Some(needs)
    }

    /// The size's own strip length, the pattern's, or for crosswise strips the usable width.
    fn strip_length(&self, stated: &BindingRequires) -> Option<Length> {
        for field in [&stated.strip_length, &self.stated.strip_length] {
            if !field.is_absent() {
                return field.length();
            }
        }
        if self.grain? == Grain::Crosswise { self.usable_width } else { None }
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }

    /// A length as the manuscript prints it, rounded down.
    pub fn down(&self, length: Length) -> String {
        length.show(self.measure, Round::Down)
    }

    /// How much is short by the lengths that are told: each is rounded once, and the reader takes one from the other.
    pub fn short(&self, needed: Length, given: Length) -> String {
        self.up(needed.as_shown(self.measure, Round::Up) - given.as_shown(self.measure, Round::Down))
    }
}

impl SizeNeeds<'_> {
    /// How long the given number of strips is when joined.
    pub fn joined(&self, strips: Count) -> Length {
        joined(strips, self.strip_length, self.method.join_loss)
    }

    /// How many strips the pattern should print: those needed and the spares.
    pub fn strips_to_print(&self, needs: &BindingNeeds<'_>) -> Option<Count> {
        self.strips.map(|strips| strips + needs.spares)
    }

    fn cut_to_print(&self, needs: &BindingNeeds<'_>) -> Option<CutPlan> {
        if self.stated.strips.is_unread() {
            return None;
        }
        let print = self.strips_to_print(needs)?;
        let strips = self.stated.strips.value().map_or(print, |stated| stated.max(print));
        self.cut.filter(|cut| cut.strips == strips).or_else(|| self.plan_for(strips, needs))
    }

    /// How the strips to print lie on the fabric, where fabric alone is stated and gives those that go round, but not the
    /// spare.
    pub fn lacks_spare(&self) -> Option<CutPlan> {
        let stated = self.stated.fabric.stated().filter(|_| self.stated.strips.is_absent())?.value.least();
        let (round, print) = (self.cut?, self.print?);
        (round.fabric <= stated && stated < print.fabric).then_some(print)
    }

    /// How the flange's strips lie on their fabric: as many as are stated of the binding, or as go around where that is
    /// more, joined as the binding's are.
    pub fn flange_plan(&self, needs: &BindingNeeds<'_>, settings: &Settings) -> Option<CutPlan> {
        let flange = needs.flange?;
        let loss = join_loss(needs.join?, flange.width, settings.length(JOIN_SEAM));
        let around = strips_for(self.lengths.asked, self.strip_length, loss)?;
        let strips = self.stated.strips.value().map_or(around, |stated| stated.max(around));
        let plan = cut_plan(strips, needs.grain?, flange.width, self.strip_length, needs.usable_width?)?;
        Some(plan.shrinking(needs.shrinks?))
    }

    /// How the given number of strips lies on the fabric.
    pub fn plan_for(&self, strips: Count, needs: &BindingNeeds<'_>) -> Option<CutPlan> {
        let plan = cut_plan(strips, needs.grain?, self.method.strip_width, self.strip_length, needs.usable_width?)?;
        Some(plan.shrinking(needs.shrinks?))
    }
}

/// How many strips a facing takes where each side is cut from strips of its own; `None` for a binding that goes around.
fn side_by_side(edge: &Edge, method: &Method, strip_length: Length) -> Option<Count> {
    if method.ends != Ends::Sides || !edge.cornered {
        return None;
    }
    let of_side = |side: &Length| strips_for(*side + method.take_up, strip_length, method.join_loss);
    edge.sides.iter().map(of_side).try_fold(Count(0), |sum, side| Some(sum + side?))
}

/// The flange with the seam that sews it to the binding.
fn flange(stated: &Binding, manuscript: &Manuscript, settings: &Settings) -> Option<Flange> {
    let width = stated.flange.length()?;
    Some(Flange { width, seam: manuscript.assumes.seam.or_length(|| settings.length(PIECING_SEAM))? })
}

/// The binding's own usable width, that of the fabric it is cut from, the pattern's, or the rule book's.
fn usable_width(stated: &Binding, manuscript: &Manuscript, settings: &Settings) -> Option<Length> {
    if !stated.usable_width.is_absent() {
        return stated.usable_width.length();
    }
    if stated.from.is_absent() {
        return manuscript.assumes.usable_width.or_length(|| settings.length(USABLE_WIDTH));
    }
    let fabric = manuscript.fabrics.get(stated.from.value()?)?;
    cloth(fabric, manuscript, settings).map(Cloth::strip_length)
}

fn thickness(loft: Loft, settings: &Settings) -> Length {
    match loft {
        Loft::Measured(written) => written.length,
        Loft::Keyword(LoftWord::Low) => settings.length(LOFT_LOW),
        Loft::Keyword(LoftWord::Medium) => settings.length(LOFT_MEDIUM),
        Loft::Keyword(LoftWord::High) => settings.length(LOFT_HIGH),
    }
}
