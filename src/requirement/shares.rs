//! What a fabric needs that stands for several: an amount of each, an amount of all together, or small fabrics of which
//! each gives the same pieces.

use std::sync::Arc;

use super::fabric::Shop;
use super::fabric_size::{FabricSize, Tight, planned};
pub use super::fabric_size::{How, Sharing};
use crate::manuscript::Field;
use crate::manuscript::model::{Bought, BoughtAs, Fabric, YesNo};
use crate::quantity::{Count, Length};
use crate::quilt_math::cutting::{Cloth, Cut, Shape};
use crate::quilt_math::each_share::{least_shares, share};
use crate::quilt_math::planner::{DecidedSmall, Verdict};
use crate::quilt_math::shares::{comes_of_one, fewest_alike, least_of_each};
use crate::quilt_math::small_fabrics::fewest;
use crate::quilt_math::taken::Taken;

impl Sharing {
    /// Whether what is stated is of all fabrics together.
    pub fn is_of_all(self) -> bool {
        self.how != How::Each
    }
}

/// How the fabrics share the list of a size; `None` where one fabric gives all of it, or that could not be read.
pub(super) fn sharing(stated: &Fabric, size: usize, required: Option<&Bought>) -> Option<Sharing> {
    let different = || stated.different.get(size).and_then(Field::value);
    let sharing = |among: Count, how: How| Some(Sharing { among, different: among, how });
    match required? {
        Bought::Amount(_) => match stated.bought_as(size)? {
            BoughtAs::Each => sharing(different()?, How::Each),
            BoughtAs::InAll => sharing(different()?, How::InAll),
            BoughtAs::Packs => None,
        },
        Bought::Count(count) if stated.from_each.value() == Some(YesNo::Yes) => {
            let different = different().unwrap_or(Count(1));
            (count.value.0 > 0).then_some(Sharing { among: count.value, different, how: How::AlikeSmall })
        }
        Bought::Count(_) => sharing(different()?, How::Small),
    }
}

/// Whether something that says how the fabrics share the list could not be read.
pub(super) fn is_unread(stated: &Fabric, size: usize) -> bool {
    stated.from_each.is_unread()
        || stated.different.get(size).is_some_and(Field::is_unread)
        || stated.sold_as.is_unread()
}

/// What the text states of the pieces from each fabric, entry by entry.
pub(super) fn from_each(stated: &Fabric, size: usize) -> Vec<Option<Count>> {
    stated.cut.iter().map(|cut| cut.pieces_from_each.get(size).and_then(Field::value)).collect()
}

/// What one fabric of several is called: `of each of 12 prints`.
pub fn each_words(sharing: Option<Sharing>, name: &str) -> String {
    match sharing {
        Some(Sharing { among, how: How::Each, .. }) => format!(" of each of {among} fabrics ({name})"),
        Some(Sharing { among, how: How::InAll, .. }) => format!(" of {name}, {among} fabrics in all,"),
        _ => format!(" of {name}"),
    }
}

impl FabricSize<'_> {
    /// The list as it is planned: of an amount of each fabric, what each gives.
    pub(super) fn plan_shared(
        &mut self,
        sharing: Sharing,
        (cuts, from_each): (&[Cut], &[Option<Count>]),
        cloth: Cloth,
        shop: Shop,
    ) {
        match sharing.how {
            How::Each => self.plan_each(sharing.among, cuts, from_each, cloth, shop),
            How::InAll if says_each_share(cuts, from_each) => {
                self.plan_stated_shares(sharing.among, &share(cuts, sharing.among, from_each), cloth);
            }
            How::InAll => self.plan_in_all(sharing.among, cuts, cloth, shop),
            How::AlikeSmall => {
                self.plan_alike(sharing.among, cuts, from_each, cloth);
                self.at_least_one_of_each(sharing.different);
            }
            How::Small => {
                if says_each_share(cuts, from_each) {
                    self.plan_small_shares(sharing.among, &share(cuts, sharing.among, from_each), cloth);
                }
                self.at_least_one_of_each(sharing.among);
            }
        }
    }

    fn plan_each(&mut self, among: Count, cuts: &[Cut], from_each: &[Option<Count>], cloth: Cloth, shop: Shop) {
        let each = share(cuts, among, from_each);
        let required = self.required.map(|required| self.washed(required));
        (self.taken, self.proof) = planned(&each, cloth, required.as_ref(), shop);
        self.tight = self.decide_tight();
        let (Some(Bought::Amount(stated)), Some(taken)) = (self.required, &self.taken) else { return };
        let there = self.shrinks.left_of(stated.value.most().0);
        if self.tight.is_some() || taken.plan.length() <= there {
            return;
        }
        // Not all fabrics need give a share that was rounded up.
        let least = least_of_each(&least_shares(cuts, among, from_each), cloth);
        if let Some(least) = least.filter(|least| *least <= there) {
            let plan = self.proof.as_ref().map_or_else(|| taken.clone(), |proof| proof.best(taken));
            self.tight = Some(Tight { verdict: Verdict::Undecided, plan, least });
        }
    }

    /// All fabrics together, of which the text says what each gives: what one takes, times their number.
    fn plan_stated_shares(&mut self, among: Count, each: &[Cut], cloth: Cloth) {
        let Some(mut taken) = crate::quilt_math::cutting_list::taken(each, cloth) else { return };
        let least = least_of_each(&[each.to_vec()], cloth).unwrap_or_default() * among;
        for strips in &mut Arc::make_mut(&mut taken.plan).strips {
            strips.count = strips.count * among;
        }
        if let Some(Bought::Amount(stated)) = self.required {
            let there = self.shrinks.left_of(stated.value.most().0);
            if there < taken.plan.length() && there >= least {
                self.tight = Some(Tight { verdict: Verdict::Undecided, plan: taken.clone(), least });
            }
        }
        self.taken = Some(taken);
    }

    /// All fabrics together give the list, and a strip at least comes from each.
    fn plan_in_all(&mut self, among: Count, cuts: &[Cut], cloth: Cloth, shop: Shop) {
        let required = self.required.map(|required| self.washed(required));
        (self.taken, self.proof) = planned(cuts, cloth, required.as_ref(), shop);
        self.tight = self.decide_tight();
        let Some(taken) = &self.taken else { return };
        let strips = taken.plan.strips.iter().fold(Count(0), |sum, strips| sum + strips.count);
        let narrowest = cuts.iter().filter_map(narrowest).min();
        let Some(width) = narrowest.filter(|_| strips < among && strips.0 > 0) else { return };
        let more = among.less(strips);
        let one_each =
            Cut { shape: Shape::WholeStrip { width }, strips: Some(more), pieces: None, joins: None, within: None };
        let with_one_each: Vec<Cut> = cuts.iter().copied().chain([one_each]).collect();
        let least = self.proof.as_ref().map_or_else(|| taken.plan.length(), |proof| proof.least().length);
        let least = least.max(width * among);
        let (taken, _) = planned(&with_one_each, cloth, None, shop);
        (self.taken, self.proof, self.tight) = (taken, None, None);
        let (Some(Bought::Amount(stated)), Some(taken)) = (self.required, &self.taken) else { return };
        let there = self.shrinks.left_of(stated.value.most().0);
        if there < taken.plan.length() && there >= least {
            self.tight = Some(Tight { verdict: Verdict::Undecided, plan: taken.clone(), least });
        }
    }

    /// Small fabrics of which each gives the same pieces: as many as it takes for a share to come out of one.
    fn plan_alike(&mut self, among: Count, cuts: &[Cut], from_each: &[Option<Count>], cloth: Cloth) {
        let needed = fewest_alike(cuts, cloth, from_each);
        // Stated shares that come of one, and of so many are too few in all, are for `share-short`.
        let is_told = |needed: &Count| {
            let given = |(cut, each): (&Cut, &Option<Count>)| cut.pieces.zip(*each);
            let mut stated = cuts.iter().zip(from_each).filter_map(given);
            *needed > among
                && stated.any(|(pieces, each)| each * among < pieces)
                && comes_of_one(&share(cuts, among, from_each), cloth) == Some(true)
        };
        let needed = needed.map(|needed| if is_told(&needed) { among } else { needed });
        let each = share(cuts, needed.unwrap_or(among), from_each);
        let taken = crate::quilt_math::cutting_list::taken(&each, cloth);
        let Some((needed, taken)) = needed.zip(taken) else {
            self.unchecked = Some("no number of them is known of which each gives its share");
            return;
        };
        let one = taken.small.unwrap_or_default();
        let decided = if one.0 > 1 { fewest(&each, cloth, one) } else { None };
        let is_too_few =
            || least_shares(cuts, among, from_each).iter().any(|list| comes_of_one(list, cloth) == Some(false));
        let least = if among >= needed || !is_too_few() { needed.min(among) } else { among + Count(1) };
        self.taken = Some(Taken { small: Some(needed), ..taken });
        let fabrics = decided.into_iter().flat_map(|decided| decided.fabrics).map(|mut fabrics| {
            fabrics.count = needed;
            fabrics
        });
        let across = cloth.strip_length();
        self.small_proof = Some(DecidedSmall { fabrics: fabrics.collect(), across, count: needed, least });
    }

    /// Small fabrics of which the text says what each of the different ones gives: as many as one share takes, of each.
    fn plan_small_shares(&mut self, among: Count, each: &[Cut], cloth: Cloth) {
        let Some(taken) = crate::quilt_math::cutting_list::taken(each, cloth) else { return };
        let Some(one) = taken.small.filter(|one| one.0 > 1) else { return };
        let decided = fewest(each, cloth, one);
        let (count, least) = decided.map_or((one, Count(1)), |decided| (decided.count, decided.least));
        if count.0 <= 1 {
            return;
        }
        let (count, least) = (count * among, least * among);
        self.taken = Some(Taken { small: Some(count), ..taken });
        self.small_proof = Some(DecidedSmall { fabrics: Vec::new(), across: cloth.strip_length(), count, least });
    }

    /// Small fabrics of which so many are different: no fewer than that.
    fn at_least_one_of_each(&mut self, among: Count) {
        if let Some(taken) = self.taken.as_mut().filter(|taken| taken.small.is_some_and(|small| small < among)) {
            taken.small = Some(among);
            if let Some(decided) = self.small_proof.as_mut() {
                (decided.count, decided.least) = (among, among);
                decided.fabrics.clear();
            }
        }
    }
}

/// Whether the text says of all pieces how many come from each fabric, and tells no strips.
fn says_each_share(cuts: &[Cut], from_each: &[Option<Count>]) -> bool {
    let is_said = |(cut, each): (&Cut, &Option<Count>)| {
        cut.strips.is_none() && (each.is_some() || cut.pieces.is_none_or(|pieces| pieces.0 == 0))
    };
    cuts.len() == from_each.len() && from_each.iter().any(Option::is_some) && cuts.iter().zip(from_each).all(is_said)
}

/// The narrowest strip from which a piece comes.
fn narrowest(cut: &Cut) -> Option<Length> {
    if cut.pieces.or(cut.strips).is_none_or(|count| count.0 == 0) {
        return None;
    }
    match cut.shape {
        Shape::WholeStrip { width } | Shape::Strip { width, .. } | Shape::Lengthwise { width, .. } => Some(width),
        Shape::Piece { width, height, turns, .. } => Some(if turns { width.min(height) } else { height }),
        Shape::Slanted(shape) => shape.ways().map(|way| way.width_below()).min(),
        Shape::Centered { repeat, .. } => Some(repeat),
        // Of a template nothing is known but the box.
        Shape::Template { .. } => None,
    }
}
