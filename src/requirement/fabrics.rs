//! What each fabric of each size needs, by its cutting list.
//!
//! A fabric that the binding is cut `from` is bought once: its strips join the fabric's cutting list. An amount beside
//! them would be a second answer to the same question; it is refused.

use super::assumed::PIECING_SEAM;
use super::backing::BackingNeeds;
use super::binding::{BindingNeeds, SizeNeeds};
use super::cloth::cloth;
use super::fabric::Shop;
use super::strip_width_choice::{OtherWidth, StatedSizeStrips, choose_strip_widths};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{
    Bought, Cut as StatedCut, CutGrain, Fabric, Grain, Join, Manuscript, PerSize, Size, SoldAs, YesNo,
};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Count, Length, Measure, Round, Yardage};
use crate::quilt_math::cutting::{Cloth, Cut, FromStrips, Joins, Shape, Taken, taken};
use crate::quilt_math::planner::{DecidedSmall, Verdict};
use crate::quilt_math::proof::Proof;
use crate::quilt_math::small_fabrics::fewest;
use crate::rule_book::Settings;

/// What all fabrics of a manuscript need.
#[derive(Debug)]
pub struct FabricsNeeds<'m> {
    /// The measure to print in.
    pub measure: Measure,
    /// How fabric is sold.
    pub shop: Shop,
    /// Each fabric.
    pub fabrics: Vec<FabricNeeds<'m>>,
}

/// What one fabric needs.
#[derive(Debug)]
pub struct FabricNeeds<'m> {
    /// What is stated.
    pub stated: &'m Fabric,
    /// What its strips are cut from; `None` where that could not be read.
    pub cloth: Option<Cloth>,
    /// What its cutting list says, in the list's order, once where it is the same for all sizes; `None` for what could not
    /// be read.
    shapes: Vec<Vec<Option<Shape>>>,
    /// Where the binding says that it is cut from this fabric.
    pub binding_from: Option<Span>,
    /// Where the backing says that it is cut from this fabric.
    pub backing_from: Option<Span>,
    /// What each size needs.
    pub sizes: Vec<FabricSize<'m>>,
}

/// What one fabric of one size needs.
#[derive(Debug)]
pub struct FabricSize<'m> {
    /// The size.
    pub size: &'m Size,
    /// Its place among the sizes.
    pub index: usize,
    /// What the pattern tells to buy.
    pub required: Option<&'m Bought>,
    /// The cutting list for this size; `None` for an entry that could not be read.
    pub cuts: Vec<Option<Cut>>,
    /// The other strip widths that may be meant, by which a strip is missing.
    pub other_widths: Vec<OtherWidth>,
    /// What the pieces take, the last of them the binding's where that is cut from this fabric.
    pub taken: Option<Taken>,
    /// What they take with as many strips as are needed, where fewer are told.
    pub to_print: Option<Taken>,
    /// Where the stated amount is less than a first plan takes, or generous if another takes less: what is decided.
    pub proof: Option<Proof>,
    /// Where the stated amount is less than a plain plan takes and is not proved to be too little.
    pub tight: Option<Tight>,
    /// Where fewer small fabrics are stated than the plan takes: what was decided about them.
    pub small_proof: Option<DecidedSmall>,
    /// Why the stated amount cannot be checked, where it cannot.
    pub unchecked: Option<&'static str>,
}

/// An amount that is less than a plain plan takes, with no proof that it is too little.
#[derive(Debug)]
pub struct Tight {
    /// Whether a plan that is cut in more steps fits, or none was found.
    pub verdict: Verdict,
    /// The shortest plan that was found.
    pub plan: Taken,
    /// No way of cutting takes less.
    pub least: Length,
}

/// An amount from the bolt, with what is cut from it.
#[derive(Clone, Copy, Debug)]
pub struct FromBolt<'m> {
    /// What is stated.
    pub stated: &'m Spanned<Amount>,
    /// What the pieces take.
    pub cut: Yardage,
    /// What they take with as many strips as are needed.
    pub to_print: Yardage,
}

/// A number of small fabrics, with how many the pieces take.
#[derive(Clone, Copy, Debug)]
pub struct SmallFabrics<'m> {
    /// What is stated.
    pub stated: &'m Spanned<Count>,
    /// How many the pieces take.
    pub taken: Count,
    /// How many they take with as many strips as are needed.
    pub to_print: Count,
}

impl<'m> FabricsNeeds<'m> {
    /// What the fabrics need; the binding and the backing count in the fabric that they are cut from.
    pub fn new(
        manuscript: &'m Manuscript,
        (binding, backing): (Option<&BindingNeeds<'m>>, Option<&BackingNeeds<'m>>),
        settings: &Settings,
    ) -> FabricsNeeds<'m> {
        let shop = Shop::new(manuscript, settings);
        let fabrics = manuscript.fabrics.iter().enumerate();
        let needs = |(index, fabric): (usize, &'m Fabric)| {
            let from_here = binding.filter(|binding| binding.stated.from.value() == Some(index));
            let backing = backing.filter(|backing| backing.stated.from.value() == Some(index));
            FabricNeeds::new((index, fabric), (from_here, backing), manuscript, settings, shop)
        };
        FabricsNeeds { measure: manuscript.measure, shop, fabrics: fabrics.map(needs).collect() }
    }

    /// A length as the manuscript prints it, rounded up.
    pub fn up(&self, length: Length) -> String {
        length.show(self.measure, Round::Up)
    }

    /// A length as the manuscript prints it, rounded down.
    pub fn down(&self, length: Length) -> String {
        length.show(self.measure, Round::Down)
    }

    /// Every fabric with every size.
    pub fn each(&self) -> impl Iterator<Item = (&FabricNeeds<'m>, &FabricSize<'m>)> {
        self.fabrics.iter().flat_map(|fabric| fabric.sizes.iter().map(move |size| (fabric, size)))
    }
}

impl<'m> FabricNeeds<'m> {
    fn new(
        (place, stated): (usize, &'m Fabric),
        (binding, backing): (Option<&BindingNeeds<'m>>, Option<&BackingNeeds<'m>>),
        manuscript: &'m Manuscript,
        settings: &Settings,
        shop: Shop,
    ) -> FabricNeeds<'m> {
        let cloth = cloth(stated, manuscript, settings);
        let shapes_of = |cut: &StatedCut| {
            let by_size = [cut.size.is_by_size(), cut.strip_width.is_by_size()].into_iter().any(|by_size| by_size);
            let sizes = if by_size { manuscript.sizes.len() } else { 1 };
            let of = |size| shape(cut, stated.directional.or(YesNo::No)?, size);
            (0..sizes).map(of).collect::<Vec<_>>()
        };
        let shapes = stated.cut.iter().map(shapes_of).collect();
        let binding_from = binding.and_then(|binding| binding.stated.from.at());
        let backing_from = backing.and_then(|backing| backing.stated.from.at());
        let mut needs = FabricNeeds { stated, cloth, shapes, binding_from, backing_from, sizes: Vec::new() };
        let joins = |cut, size| joins(manuscript, settings, PieceRef { fabric: place, cut }, size);
        let mut told: Vec<StatedSizeStrips> = (manuscript.sizes.iter().enumerate())
            .map(|(index, size)| StatedSizeStrips {
                required: stated.requires.get(index).and_then(PerSize::stated),
                cuts: needs.cuts(index, &joins),
                binding: binding.and_then(|binding| {
                    let size = binding.sizes.iter().find(|needs| needs.size.name == size.name)?;
                    binding_cuts(binding, size)
                }),
                other_widths: Vec::new(),
            })
            .collect();
        if let Some(cloth) = cloth {
            choose_strip_widths(&mut told, cloth, shop);
        }
        let sizes = manuscript.sizes.iter().enumerate().zip(told);
        needs.sizes =
            sizes.map(|((index, size), told)| needs.size((index, size), (binding, backing), told, shop)).collect();
        needs
    }

    /// The cutting list for one size.
    fn cuts(&self, index: usize, joins: &impl Fn(usize, usize) -> Option<Joins>) -> Vec<Option<Cut>> {
        let entries = self.stated.cut.iter().enumerate();
        let cut = |(place, cut): (usize, &StatedCut)| {
            let cut = cut_of(cut, self.shape(place, index), index)?;
            let longer = self.cloth.is_some_and(|cloth| cut.is_joined_from(cloth));
            Some(Cut { joins: if longer { joins(place, index) } else { None }, ..cut })
        };
        entries.map(cut).collect()
    }

    fn size(
        &self,
        (index, size): (usize, &'m Size),
        (binding, backing): (Option<&BindingNeeds<'m>>, Option<&BackingNeeds<'m>>),
        told: StatedSizeStrips<'_>,
        shop: Shop,
    ) -> FabricSize<'m> {
        let required = self.stated.requires.get(index).and_then(PerSize::stated);
        let mut needs = FabricSize {
            size,
            index,
            required,
            cuts: told.cuts,
            other_widths: told.other_widths,
            taken: None,
            to_print: None,
            proof: None,
            tight: None,
            small_proof: None,
            unchecked: None,
        };
        if self.has_no_list() {
            let bought = required.filter(|required| !required.is_nothing());
            needs.unchecked = bought.map(|_| "no cutting list says what is cut from it");
            return needs;
        }
        let Some(cloth) = self.cloth.filter(|_| self.stated.cut_whole) else { return needs };
        let Some(mut cuts) = needs.cuts.iter().copied().collect::<Option<Vec<Cut>>>() else { return needs };
        let mut enough: Vec<Cut> = cuts.iter().map(|cut| cut.with_enough_strips(cloth)).collect();
        if let Some(binding) = binding {
            if binding.grain == Some(Grain::Bias) {
                needs.unchecked = Some("the binding is cut from it on the bias, which no plan of strips holds");
                return needs;
            }
            let Some((told, print)) = told.binding else { return needs };
            cuts.push(told);
            enough.push(print);
        }
        if let Some(backing) = backing {
            let Some(size) = backing.sizes.iter().find(|known| known.index == index) else { return needs };
            let panels = size.panel_cuts();
            cuts.extend(&panels);
            enough.extend(&panels);
        }
        (needs.taken, needs.proof) = planned(&cuts, cloth, required, shop);
        needs.tight = needs.decide_tight();
        needs.decide_small(&cuts, cloth);
        needs.to_print = if enough == cuts { None } else { planned(&enough, cloth, required, shop).0 };
        needs
    }

    /// Whether nothing says what is cut from it.
    pub fn has_no_list(&self) -> bool {
        self.stated.cut.is_empty() && self.stated.cut_whole && self.binding_from.or(self.backing_from).is_none()
    }

    /// What one of the small fabrics is called: `fat quarter`, `square`.
    pub fn sold_as_words(&self) -> String {
        let word = match self.stated.sold_as.value() {
            Some(SoldAs::FatQuarters) => "fat quarter",
            Some(SoldAs::FatEighths) => "fat eighth",
            Some(SoldAs::Strips) => "precut strip",
            Some(SoldAs::Squares) => "precut square",
            Some(SoldAs::Yardage) | None => "length",
        };
        word.to_string()
    }

    /// How large a small fabric is: `A fat quarter is taken as 18 in x 20 in.`
    pub fn small_words(&self, needs: &FabricsNeeds<'_>) -> String {
        let Some(Cloth::Small { across, along, .. }) = self.cloth else { return String::new() };
        format!("A {} is taken as {} x {}.", self.sold_as_words(), needs.down(along), needs.down(across))
    }

    /// What a piece of the plan is called.
    pub fn name(&self, piece: usize) -> &str {
        match self.stated.cut.get(piece) {
            Some(cut) => cut.piece.stated().map_or("pieces", |name| name.value.as_str()),
            None if piece == self.stated.cut.len() && self.binding_from.is_some() => "binding",
            None => "backing",
        }
    }

    /// Whether a piece of the plan is cut along the bolt.
    pub fn is_lengthwise(&self, piece: usize) -> bool {
        let of_each = self.shapes.get(piece).into_iter().flatten();
        of_each.flatten().any(|shape| matches!(shape, Shape::Lengthwise { .. }))
    }

    /// What an entry of the cutting list is, once where that is the same for all sizes.
    pub fn shapes_of(&self, piece: usize) -> &[Option<Shape>] {
        self.shapes.get(piece).map_or(&[], Vec::as_slice)
    }

    /// What an entry of the cutting list is for a size; `None` where it could not be read.
    pub fn shape(&self, piece: usize, size: usize) -> Option<Shape> {
        match self.shapes.get(piece)?.as_slice() {
            [of_all] => *of_all,
            of_each => of_each.get(size).copied().flatten(),
        }
    }
}

impl<'m> FabricSize<'m> {
    /// Goes by the fewest small fabrics that are found, where fewer are stated than the plan takes.
    fn decide_small(&mut self, cuts: &[Cut], cloth: Cloth) {
        let Some(taken) = self.small().filter(|small| small.stated.value < small.taken).map(|small| small.taken) else {
            return;
        };
        self.small_proof = fewest(cuts, cloth, taken);
        if let Some((decided, taken)) = self.small_proof.as_ref().zip(self.taken.as_mut()) {
            taken.small = Some(decided.count);
        }
        // The plan of strips is easier to follow where it takes no more.
        if let Some(decided) = self.small_proof.as_mut().filter(|decided| decided.count == taken) {
            decided.fabrics.clear();
        }
    }

    fn decide_tight(&self) -> Option<Tight> {
        let (Some(Bought::Amount(stated)), Some(proof), Some(taken)) = (self.required, &self.proof, &self.taken) else {
            return None;
        };
        let verdict = proof.verdict(stated.value.most().0);
        let is_tight = matches!(verdict, Verdict::OnlyClever | Verdict::Undecided);
        is_tight.then(|| Tight { verdict, plan: proof.best(taken), least: proof.least().length })
    }

    /// The plan to follow with the stated amount: the one that fits it where a plain plan does not.
    pub fn to_follow(&self) -> Option<&Taken> {
        self.tight.as_ref().map(|tight| &tight.plan).or(self.taken.as_ref())
    }

    /// Whether fewer small fabrics are stated than the best plan takes, and no proof says that they are too few.
    pub fn small_is_undecided(&self) -> bool {
        let decided = self.small().zip(self.small_proof.as_ref());
        decided
            .is_some_and(|(small, decided)| small.stated.value < decided.count && small.stated.value >= decided.least)
    }

    /// What is stated from the bolt beside what the pieces take, where both are known.
    pub fn from_bolt(&self) -> Option<FromBolt<'m>> {
        let Some(Bought::Amount(stated)) = self.required else { return None };
        let cut = Yardage(self.taken.as_ref().filter(|taken| taken.small.is_none())?.plan.length());
        let print = self.to_print.as_ref().map_or(cut, |taken| Yardage(taken.plan.length()));
        Some(FromBolt { stated, cut, to_print: print.max(cut) })
    }

    /// What the pieces take with as many strips as are needed: never less than what they take as it is told.
    pub fn printed(&self) -> Option<&Taken> {
        let taken = self.taken.as_ref()?;
        let extent = |taken: &Taken| (taken.small, taken.plan.length());
        Some(self.to_print.as_ref().filter(|print| extent(print) >= extent(taken)).unwrap_or(taken))
    }

    /// What is stated in small fabrics beside what the pieces take, where both are known.
    pub fn small(&self) -> Option<SmallFabrics<'m>> {
        let Some(Bought::Count(stated)) = self.required else { return None };
        let taken = self.taken.as_ref()?.small?;
        let print = self.to_print.as_ref().and_then(|taken| taken.small).unwrap_or(taken);
        Some(SmallFabrics { stated, taken, to_print: print.max(taken) })
    }

    /// The way of cutting an entry of the list from strips, and how many strips are needed.
    pub fn needed(&self, cut: usize, cloth: Cloth) -> Option<(FromStrips, Count)> {
        self.cuts.get(cut).copied().flatten()?.needed(cloth)
    }
}

/// The shorter of a first plan and a plain one, with what is decided, where that is asked for: a first plan proves that
/// an amount is enough, and most amounts are right, so no other is made where it could not change what is said.
fn planned(cuts: &[Cut], cloth: Cloth, required: Option<&Bought>, shop: Shop) -> (Option<Taken>, Option<Proof>) {
    let Some(first) = taken(cuts, cloth) else { return (None, None) };
    let Some(Bought::Amount(stated)) = required else { return (Some(first), None) };
    let stated = &stated.value;
    let proof = Proof::new(cuts, cloth, &first).filter(|proof| {
        let may_be_generous = || {
            let least = Yardage(proof.quick_least());
            stated.halves().all(|half| Yardage(half.length) >= shop.generous_from(least, half.unit))
        };
        // Another plan may leave what squaring up takes.
        stated.least().0 < first.plan.length() + shop.squaring || may_be_generous()
    });
    let plain = proof.as_ref().and_then(|proof| proof.plain(&first));
    (Some(plain.unwrap_or(first)), proof)
}

/// What an entry of the list is; `None` where something of it could not be read.
fn shape(cut: &StatedCut, directional: YesNo, of: usize) -> Option<Shape> {
    let grain = cut.grain.or(CutGrain::Crosswise)?;
    let (size, strip_width) = (cut.size.of(of), cut.strip_width.of(of));
    if size.is_absent() {
        let width = strip_width.length()?;
        return (grain == CutGrain::Crosswise).then_some(Shape::WholeStrip { width });
    }
    let (width, height) = size.value()?;
    let (width, height) = (width.length, height.length);
    match (grain, directional) {
        (CutGrain::Lengthwise, YesNo::Yes) => Some(Shape::Lengthwise { width, length: height }),
        (CutGrain::Lengthwise, YesNo::No) => {
            Some(Shape::Lengthwise { width: width.min(height), length: width.max(height) })
        }
        (CutGrain::Crosswise, directional) => {
            let strip_width = if strip_width.is_absent() { None } else { Some(strip_width.length()?) };
            Some(Shape::Piece { width, height, turns: directional == YesNo::No, strip_width })
        }
    }
}

/// An entry of the list for one size; `None` where a count could not be read, or neither is stated. Of what a size takes
/// none of, the cut size for it may be left out.
fn cut_of(cut: &StatedCut, shape: Option<Shape>, index: usize) -> Option<Cut> {
    let count = |field: &crate::manuscript::Field<Count>| (!field.is_unread()).then(|| field.value());
    let (strips, pieces) = (count(cut.strips.get(index)?)?, count(cut.pieces.get(index)?)?);
    let takes_none = || {
        let is_left_out = cut.size.of(index).is_absent() && cut.strip_width.of(index).is_absent();
        let none = strips.unwrap_or_default() + pieces.unwrap_or_default() == Count(0);
        (is_left_out && none).then_some(Shape::Piece {
            width: Length::inches(1),
            height: Length::inches(1),
            turns: true,
            strip_width: None,
        })
    };
    let shape = shape.or_else(takes_none)?;
    (strips.is_some() || pieces.is_some()).then_some(Cut { shape, strips, pieces, joins: None })
}

/// How the strips of a piece are joined that is longer than a strip: as the border is that it is cut for, and straight
/// where nothing says so. `None` where something of it could not be read.
fn joins(manuscript: &Manuscript, settings: &Settings, piece: PieceRef, size: usize) -> Option<Joins> {
    let layout = manuscript.layout.as_ref().and_then(|layout| layout.sizes.get(size)?.stated());
    let borders = layout.map(|layout| layout.borders.as_slice()).unwrap_or_default();
    let border =
        borders.iter().find(|border| [&border.piece, &border.piece_across].iter().any(|of| of.value() == Some(piece)));
    let join = border.map_or(Some(Join::Straight), |border| border.join.or(Join::Straight))?;
    Some(Joins { join, seam: manuscript.assumes.seam.or_length(|| settings.length(PIECING_SEAM))? })
}

/// The binding's strips as an entry of the list: those stated, and those that should be printed. They are told strips,
/// and take their own width.
fn binding_cuts(binding: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<(Cut, Cut)> {
    let (told, print) = (size.cut?.strips, size.cut_to_print(binding)?.strips);
    let (length, width) = (size.strip_length, size.method.strip_width);
    let grain = binding.grain?;
    let cut = |count| match grain {
        Grain::Lengthwise => {
            Cut { shape: Shape::Lengthwise { width, length }, strips: Some(count), pieces: Some(count), joins: None }
        }
        Grain::Crosswise | Grain::Bias => {
            Cut { shape: Shape::Strip { length, width }, strips: None, pieces: Some(count), joins: None }
        }
    };
    Some((cut(told), cut(print)))
}
