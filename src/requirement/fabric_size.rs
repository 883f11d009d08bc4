//! What one fabric of one size needs, and the plan of its cutting list.

use std::sync::{Arc, OnceLock};

use super::fabric::Shop;
use crate::manuscript::model::{Bought, Fabric, Instead, Size, SoldAs};
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Count, Length, Percent, Yardage};
use crate::quilt_math::beside::{Beside, Rows};
use crate::quilt_math::cutting::{Cloth, Cut, FromStrips, Shape};
use crate::quilt_math::known_list::known_list;
use crate::quilt_math::planner::{DecidedSmall, Item, Verdict};
use crate::quilt_math::proof::Proof;
use crate::quilt_math::strip_group::StripGroup;
use crate::quilt_math::taken::Taken;

/// What one fabric needs.
#[derive(Debug)]
pub struct FabricNeeds<'m> {
    /// What is stated.
    pub stated: &'m Fabric,
    /// What its strips are cut from; `None` where that could not be read.
    pub cloth: Option<Cloth>,
    /// What its cutting list says, in the list's order, once where it is the same for all sizes; `None` for what could not
    /// be read.
    pub(super) shapes: Vec<Vec<Option<Shape>>>,
    /// What each entry of the list is called, made where one is told: strips that give several kinds of pieces, by the names
    /// of these.
    pub(super) names: OnceLock<Vec<String>>,
    /// Where the binding says that it is cut from this fabric.
    pub binding_from: Option<Span>,
    /// Where the backing says that it is cut from this fabric.
    pub backing_from: Option<Span>,
    /// How much shorter it is after washing.
    pub shrinks: Percent,
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
    /// How much shorter the fabric is after washing.
    pub shrinks: Percent,
    /// How many are in a pack, where packs are stated.
    pub pack: Option<Count>,
    /// How several fabrics share the list, where this stands for several.
    pub sharing: Option<Sharing>,
    /// The cutting list for this size; `None` for an entry that could not be read.
    pub cuts: Vec<Option<Cut>>,
    /// The strips from which pieces of several kinds are cut.
    pub groups: Vec<StripGroup>,
    /// The pieces that are cut from what is left beside others.
    pub beside: Vec<BesideNeeds>,
    /// What may be bought instead.
    pub instead: Option<InsteadNeeds<'m>>,
    /// The other strip widths that may be meant, by which a strip is missing.
    pub other_widths: Vec<OtherWidth>,
    /// What the pieces take, the last of them the binding's where that is cut from this fabric.
    pub taken: Option<Taken>,
    /// What they take with as many strips as are needed, where fewer are told.
    pub to_print: Option<Taken>,
    /// Where the stated amount is less than a first plan takes, or generous if another takes less: what is decided.
    pub proof: Option<Arc<Proof>>,
    /// Where the stated amount is less than a plain plan takes and is not proved to be too little.
    pub tight: Option<Tight>,
    /// Where fewer small fabrics are stated than the plan takes: what was decided about them.
    pub small_proof: Option<DecidedSmall>,
    /// What is stated from the bolt beside what the pieces take, where both are known: many rules ask for it.
    pub(super) from_bolt: Option<FromBolt<'m>>,
    /// Why the stated amount cannot be checked, where it cannot.
    pub unchecked: Option<&'static str>,
}

/// What each of several fabrics gives of an entry of the list.
#[derive(Clone, Copy, Debug)]
pub struct FromEach {
    /// How many pieces.
    pub pieces: Count,
    /// How they come out of strips.
    pub way: FromStrips,
    /// How many strips of each fabric they take.
    pub strips: Count,
    /// How many fabrics there are.
    pub among: Count,
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

impl FromBolt<'_> {
    /// Whether it is enough for the strips that are stated, and these are too few.
    pub fn is_for_too_few_strips(self) -> bool {
        let stated = self.stated.value.least();
        self.cut <= stated && stated < self.to_print
    }
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
    /// How many are in a pack, where packs are stated.
    pub pack: Option<Count>,
}

/// Pieces that are cut from what is left beside others.
#[derive(Clone, Debug)]
pub struct BesideNeeds {
    /// The entry of the pieces along the bolt.
    pub of: usize,
    /// The entries that are cut beside them, each with its pieces.
    pub entries: Vec<(usize, Item)>,
    /// The pieces along the bolt.
    pub rows: Rows,
    /// Whether they come out of what is left.
    pub decided: Beside,
}

/// What may be bought instead, with what it is to be enough for.
#[derive(Debug)]
pub struct InsteadNeeds<'m> {
    /// What is stated.
    pub stated: &'m Instead,
    /// What the pieces take of it.
    pub taken: Taken,
    /// How many fabrics take that, where what is stated is of all of them together.
    pub fabrics: Count,
    /// Whether it is enough.
    pub verdict: Verdict,
    /// The entry of the list that does not come out of it either way, where one does not.
    pub misfit: Option<usize>,
}

/// How several fabrics share a cutting list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sharing {
    /// How many fabrics there are.
    pub among: Count,
    /// How many of them are different.
    pub different: Count,
    /// What is stated of them.
    pub how: How,
}

/// What is stated of several fabrics.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// An amount of each.
    Each,
    /// An amount of all together.
    InAll,
    /// A number of small fabrics, of which each gives the same pieces.
    AlikeSmall,
    /// A number of small fabrics, of which so many are different.
    Small,
}

/// Another strip width for an entry of a cutting list, by which all that is stated would be right but for one strip of
/// one size: it may be the width that is meant, with the count one too low.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherWidth {
    /// The entry, by its place in the list.
    pub entry: usize,
    /// How the piece comes out of strips of that width.
    pub way: FromStrips,
    /// How many of those strips are needed.
    pub needed: Count,
}

/// The shorter of a first plan and a plain one, with what is decided, where that is asked for: a first plan proves that
/// an amount is enough, and most amounts are right, so no other is made where it could not change what is said.
pub(super) fn planned(
    cuts: &[Cut],
    cloth: Cloth,
    required: Option<&Bought>,
    shop: Shop,
) -> (Option<Taken>, Option<Arc<Proof>>) {
    let list = known_list(cuts, cloth);
    let Some(first) = list.first() else { return (None, None) };
    let Some(Bought::Amount(stated)) = required else { return (Some(first.clone()), None) };
    let stated = &stated.value;
    // Another plan may leave what squaring up takes.
    let may_be_short = stated.least().0 < first.plan.length() + shop.squaring;
    let may_be_generous = |least: Length| {
        stated.halves().all(|half| Yardage(half.length) >= shop.generous_from(Yardage(least), half.unit))
    };
    // What the pieces cover says most often that no plan makes the amount generous.
    if !may_be_short && !may_be_generous(first.covered()) {
        return (Some(first.clone()), None);
    }
    let proof = list.proof().filter(|proof| may_be_short || may_be_generous(proof.quick_least()));
    let plain = proof.and_then(|_| list.plain()).unwrap_or(first);
    // An amount that is enough but for squaring up is worth another look.
    let least = stated.least().0;
    let lacks_squaring = plain.plan.length() <= least && least < plain.plan.length() + shop.squaring;
    let shorter = proof.filter(|_| lacks_squaring).and_then(|_| list.shorter_plain());
    (Some(shorter.unwrap_or(plain).clone()), proof.map(Arc::clone))
}

/// What one of the fabrics is called that are sold so: `fat quarter`, `precut square`.
pub(super) const fn sold_as_word(sold_as: Option<SoldAs>) -> &'static str {
    match sold_as {
        Some(SoldAs::FatQuarters) => "fat quarter",
        Some(SoldAs::FatEighths) => "fat eighth",
        Some(SoldAs::Strips) => "precut strip",
        Some(SoldAs::Squares) => "precut square",
        Some(SoldAs::Scraps) => "scrap",
        Some(SoldAs::Panel) => "panel",
        Some(SoldAs::Yardage) | None => "length",
    }
}
