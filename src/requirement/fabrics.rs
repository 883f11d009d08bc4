//! What each fabric of each size needs, by its cutting list.
//!
//! A fabric that the binding is cut `from` is bought once: its strips join the fabric's cutting list. An amount beside
//! them would be a second answer to the same question; it is refused.

use std::sync::OnceLock;

use super::assumed::PIECING_SEAM;
use super::backing::BackingNeeds;
use super::beside::{beside, stated_plan};
use super::binding::{BindingNeeds, SizeNeeds};
use super::cloth::{cloth, cloth_sold_as};
use super::fabric::Shop;
pub use super::fabric_size::{FabricNeeds, FabricSize, FromBolt, FromEach, SmallFabrics, Tight};
use super::fabric_size::{planned, sold_as_word};
use super::instead::instead;
use super::shares::{How, from_each, is_unread, sharing};
use super::strip_width_choice::{StatedSizeStrips, choose_strip_widths};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{
    Bought, BoughtAs, Cut as StatedCut, CutAngle, CutGrain, CutShape, Fabric, Grain, Join, Manuscript, PerSize, Shaped,
    Size, SoldAs, Tips, YesNo,
};
use crate::manuscript::{Field, Spanned};
use crate::quantity::{Amount, Count, Length, Measure, Percent, Round, Written, Yardage};
use crate::quilt_math::cutting::{Cloth, Cut, FromStrips, Joins, Shape};
use crate::quilt_math::each_share::share;
use crate::quilt_math::planner::Verdict;
use crate::quilt_math::shapes::StripShape;
use crate::quilt_math::small_fabrics::fewest;
use crate::quilt_math::strip_group::{StripGroup, strip_groups};
use crate::quilt_math::taken::Taken;
use crate::rule_book::Settings;

/// Why a fabric is not checked of which more pieces are stated to come of a repeat than it holds.
pub const TOO_MANY_OF_A_REPEAT: &str = "more pieces are stated to come of a repeat of its print than it holds";

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

impl FromEach {
    /// How many strips of all fabrics together.
    pub fn in_all(self) -> Count {
        self.strips * self.among
    }
}

impl SmallFabrics<'_> {
    /// So many of them in words, in packs where packs are stated: `2 packs of 42 (84 precut squares)`.
    pub fn words(&self, count: Count, word: &str) -> String {
        match self.pack.and_then(|pack| Some((count.in_groups_of(pack)?, pack))) {
            Some((packs, pack)) => format!("{} of {pack} ({})", packs.of("pack"), count.of(word)),
            None => count.of(word),
        }
    }

    /// What to write for so many of them.
    pub fn written(&self, count: Count) -> String {
        match self.pack.and_then(|pack| count.in_groups_of(pack)) {
            Some(packs) => packs.of("pack"),
            None => count.to_string(),
        }
    }

    /// So many of them as they are sold.
    pub fn sold(&self, count: Count) -> Count {
        match self.pack.and_then(|pack| Some(count.in_groups_of(pack)? * pack)) {
            Some(sold) => sold,
            None => count,
        }
    }
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
            let group = cut.within.and_then(|group| stated.cut.get(group)).unwrap_or(cut);
            let by_size = cut.is_by_size() || group.strip_width.is_by_size();
            let sizes = if by_size { manuscript.sizes.len() } else { 1 };
            let of = |size: usize| match cut.slanted() {
                Some(shaped) => slanted((stated, cut), shaped, size, manuscript, settings),
                None => {
                    let centered = cut.is_centered().then(|| centered(stated, cut, size)).flatten();
                    centered.or_else(|| shape(stated, cut, size))
                }
            };
            (0..sizes).map(of).collect::<Vec<_>>()
        };
        let shapes = stated.cut.iter().map(shapes_of).collect();
        let binding_from = binding.and_then(|binding| binding.stated.from.at());
        let backing_from = backing.and_then(|backing| backing.stated.from.at());
        let shrinks = shrinks(stated, manuscript).unwrap_or_default();
        let mut needs = FabricNeeds {
            stated,
            cloth,
            shapes,
            names: OnceLock::new(),
            binding_from,
            backing_from,
            shrinks,
            sizes: Vec::new(),
        };
        let joins = |cut, size| joins(manuscript, settings, PieceRef::entry(place, cut), size);
        let mut told: Vec<StatedSizeStrips> = (manuscript.sizes.iter().enumerate())
            .map(|(index, _)| StatedSizeStrips {
                required: stated.requires.get(index).and_then(PerSize::stated),
                cuts: needs.cuts(index, &joins),
                sharing: sharing(stated, index, stated.requires.get(index).and_then(PerSize::stated)),
                shrinks,
                instead_of: (stated.instead(index))
                    .and_then(|instead| cloth_sold_as(instead.sold_as, stated, manuscript, settings)),
                binding: binding.and_then(|binding| {
                    let size = binding.sizes.iter().find(|needs| needs.index == index)?;
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
        let cut = |(place, stated): (usize, &StatedCut)| {
            let cut = cut_of(stated, self.shape(place, index), index)?;
            let longer = self.cloth.is_some_and(|cloth| cut.is_joined_from(cloth));
            Some(Cut { joins: if longer || !stated.joined.is_absent() { joins(place, index) } else { None }, ..cut })
        };
        let mut cuts: Vec<Option<Cut>> = entries.map(cut).collect();
        self.count_group_strips(&mut cuts);
        cuts
    }

    /// Strips that give several kinds of pieces, and of which nothing says how many, are as many as are needed.
    fn count_group_strips(&self, cuts: &mut [Option<Cut>]) {
        if cuts.iter().flatten().all(|cut| cut.within.is_none()) {
            return;
        }
        let all: Option<Vec<Cut>> = cuts.iter().copied().collect();
        let Some((all, cloth)) = all.zip(self.cloth) else { return };
        for group in strip_groups(&all, cloth) {
            if let Some(Some(strips)) = cuts.get_mut(group.entry).filter(|_| all[group.entry].strips.is_none()) {
                strips.strips = Some(group.needed);
            }
        }
    }

    fn size(
        &self,
        size: (usize, &'m Size),
        parts: (Option<&BindingNeeds<'m>>, Option<&BackingNeeds<'m>>),
        told: StatedSizeStrips<'_>,
        shop: Shop,
    ) -> FabricSize<'m> {
        let mut planned = self.of_size(size, parts, told, shop);
        planned.from_bolt = planned.amount_from_bolt();
        planned
    }

    fn of_size(
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
            shrinks: self.shrinks,
            pack: self.stated.pack.value().filter(|_| self.stated.bought_as(index) == Some(BoughtAs::Packs)),
            sharing: sharing(self.stated, index, required),
            cuts: told.cuts,
            groups: Vec::new(),
            beside: Vec::new(),
            instead: None,
            other_widths: told.other_widths,
            taken: None,
            to_print: None,
            proof: None,
            tight: None,
            small_proof: None,
            from_bolt: None,
            unchecked: None,
        };
        if self.has_no_list() {
            let bought = required.filter(|required| !required.is_nothing());
            needs.unchecked = bought.map(|_| "no cutting list says what is cut from it");
            return needs;
        }
        let unchecked = self.unchecked(size_counts(&needs.cuts)).or_else(|| self.too_many_for_a_repeat(&needs.cuts));
        needs.unchecked = unchecked.filter(|_| required.is_some());
        let Some(cloth) = self.cloth.filter(|_| self.stated.cut_whole && needs.unchecked.is_none()) else {
            return needs;
        };
        let Some(mut cuts) = needs.cuts.iter().copied().collect::<Option<Vec<Cut>>>() else { return needs };
        let mut enough: Vec<Cut> = cuts.iter().map(|cut| cut.with_enough_strips(cloth)).collect();
        needs.groups = self.groups(&needs, &cuts, cloth);
        needs.beside = beside(self, &needs);
        for group in &needs.groups {
            let told = &mut enough[group.entry].strips;
            *told = told.map(|told| told.max(group.needed));
        }
        if let Some(binding) = binding {
            if binding.grain == Some(Grain::Bias) {
                needs.unchecked = Some("the binding is cut from it on the bias, which no plan of strips holds");
                return needs;
            }
            let Some((told, print)) = told.binding else {
                let is_open = binding.stated.strip_width.is_absent();
                needs.unchecked = is_open.then_some("the binding is cut from it, and no strip width of that is stated");
                return needs;
            };
            cuts.push(told);
            enough.push(print);
        }
        if let Some(backing) = backing {
            let Some(size) = backing.sizes.iter().find(|known| known.index == index) else { return needs };
            // Of several fabrics each gives whole panels.
            let is_of_each = needs.sharing.is_some_and(|sharing| sharing.how == How::Each);
            let panels = if is_of_each { size.whole_panel_cuts() } else { size.panel_cuts() };
            cuts.extend(&panels);
            enough.extend(&panels);
        }
        if is_unread(self.stated, index) || shop.is_shrinkage_unread || self.stated.shrinks.is_unread() {
            return needs;
        }
        needs.instead = instead(self, &needs, &cuts, told.instead_of, shop);
        let washed = required.map(|required| needs.washed(required));
        let required = washed.as_ref();
        if let Some(sharing) = needs.sharing {
            if sharing.how == How::Small {
                (needs.taken, needs.proof) = planned(&cuts, cloth, required, shop);
                needs.decide_small(&cuts, cloth);
            }
            needs.plan_shared(sharing, (&cuts, &from_each(self.stated, index)), cloth, shop);
            return needs;
        }
        (needs.taken, needs.proof) = planned(&cuts, cloth, required, shop);
        needs.tight = needs.decide_tight();
        needs.decide_small(&cuts, cloth);
        needs.follow_beside(&cuts, cloth);
        needs.to_print = if enough == cuts { None } else { planned(&enough, cloth, required, shop).0 };
        needs
    }

    /// The strips from which several kinds of pieces are cut; of several fabrics each by itself, where the text says what
    /// each gives.
    fn groups(&self, size: &FabricSize<'_>, cuts: &[Cut], cloth: Cloth) -> Vec<StripGroup> {
        let groups = strip_groups(cuts, cloth);
        let Some(among) = self.stated.gives_from_each(size.index).filter(|among| among.0 > 1 && !groups.is_empty())
        else {
            return groups;
        };
        let stated = from_each(self.stated, size.index);
        let of_each = strip_groups(&share(cuts, among, &stated), cloth);
        let is_stated =
            |group: &StripGroup| group.pieces.iter().all(|(entry, _)| stated.get(*entry).is_some_and(Option::is_some));
        let of_fabrics = |group: StripGroup| match of_each
            .iter()
            .find(|each| each.entry == group.entry)
            .filter(|_| is_stated(&group))
        {
            Some(each) => each.clone().of_each(among),
            None => group,
        };
        groups.into_iter().map(of_fabrics).collect()
    }

    /// What each of several fabrics gives of an entry of the list, where the text says so.
    pub fn from_each(&self, size: &FabricSize<'_>, place: usize, cloth: Cloth) -> Option<FromEach> {
        let pieces = self.stated.cut.get(place)?.pieces_from_each.get(size.index)?.value()?;
        let among = self.stated.gives_from_each(size.index).filter(|among| among.0 > 0)?;
        let cut = size.cuts.get(place).copied().flatten()?;
        let strips = cut.strips.and_then(|strips| strips.in_groups_of(among));
        let (way, strips) = Cut { strips, pieces: Some(pieces), ..cut }.needed(cloth)?;
        Some(FromEach { pieces, way, strips, among })
    }

    /// Why its amount cannot be checked whatever it is, where it cannot; by how many of each entry a size takes.
    fn unchecked(&self, counts: impl Iterator<Item = Count>) -> Option<&'static str> {
        if self.stated.sold_as.value() == Some(SoldAs::Panel) {
            return Some("pieces of a panel are cut as its pictures lie");
        }
        let mut centered = self.stated.cut.iter().zip(counts).filter(|(cut, count)| cut.is_centered() && count.0 > 0);
        centered.find_map(|(cut, _)| self.why_not_centered(cut))
    }

    /// What is said where a repeat of the print does not hold as many centered pieces as are stated to come of it.
    fn too_many_for_a_repeat(&self, cuts: &[Option<Cut>]) -> Option<&'static str> {
        let cloth = self.cloth?;
        let usable = cloth.strip_length();
        let is_more = |cut: &Cut| match cut.shape {
            Shape::Centered { width, height, turns, repeat, per_repeat } if cut.shape.fits(cloth) => {
                per_repeat > most_of_a_repeat((width, height), turns, (usable, repeat))
            }
            _ => false,
        };
        let is_any = cuts.iter().flatten().any(is_more);
        is_any.then_some(TOO_MANY_OF_A_REPEAT)
    }

    /// Why it is not known how many centered pieces come of the fabric.
    fn why_not_centered(&self, cut: &StatedCut) -> Option<&'static str> {
        if self.stated.repeat.is_absent() {
            return Some("pieces are centered on its print, and nothing says how far apart that repeats (repeat)");
        }
        if cut.each_repeat().is_absent() {
            return Some("pieces are centered on its print, and nothing says how many come of a repeat (per_repeat)");
        }
        let is_plain = cut.strips.iter().all(Field::is_absent)
            && cut.slanted().is_none()
            && !cut.is_template()
            && cut.within.is_none()
            && cut.grain.or(CutGrain::Crosswise) == Some(CutGrain::Crosswise);
        if !is_plain || !matches!(self.cloth, Some(Cloth::Bolt { .. })) {
            return Some(
                "pieces centered on a print are counted only where rectangles are cut from the bolt, by their number",
            );
        }
        None
    }

    /// Whether nothing says what is cut from it.
    pub fn has_no_list(&self) -> bool {
        self.stated.cut.is_empty() && self.stated.cut_whole && self.binding_from.or(self.backing_from).is_none()
    }

    /// What one of the small fabrics is called: `fat quarter`, `square`.
    pub fn sold_as_words(&self) -> String {
        sold_as_word(self.stated.sold_as.value()).to_string()
    }

    /// How large a small fabric is: `A fat quarter is taken as 18 in x 20 in.`
    pub fn small_words(&self, needs: &FabricsNeeds<'_>) -> String {
        let Some(Cloth::Small { across, along, .. }) = self.cloth else { return String::new() };
        format!("A {} is taken as {} x {}.", self.sold_as_words(), needs.down(along), needs.down(across))
    }

    /// What a piece of the plan is called.
    pub fn name(&self, piece: usize) -> &str {
        let entries = self.stated.cut.len();
        let names = self.names.get_or_init(|| (0..entries).map(|place| name(self.stated, place)).collect());
        match (names.get(piece), piece.checked_sub(entries)) {
            (Some(name), _) => name,
            (None, Some(0)) if self.binding_from.is_some() => "binding",
            (None, _) if self.backing_from.is_some() => "backing",
            (None, _) => "one from each of the other fabrics",
        }
    }

    /// Whether a piece of the plan is cut along the bolt.
    pub fn is_lengthwise(&self, piece: usize) -> bool {
        let of_each = self.shapes.get(piece).into_iter().flatten();
        of_each.flatten().any(|shape| matches!(shape, Shape::Lengthwise { .. }))
    }

    /// Whether a piece of the plan is centered on the print.
    pub fn is_centered(&self, piece: usize) -> bool {
        self.shapes_of(piece).iter().flatten().any(|shape| matches!(shape, Shape::Centered { .. }))
    }

    /// How many of a piece come of a repeat of the print.
    pub fn per_repeat(&self, piece: usize) -> Option<Count> {
        self.stated.cut.get(piece)?.each_repeat().value()
    }

    /// Whether a piece of the plan is a shape with slanted sides: which, and its measures where they are the same for all
    /// sizes.
    pub fn slanted(&self, piece: usize) -> Option<(CutShape, Option<StripShape>)> {
        let mut slanted = self.shapes_of(piece).iter().flatten().filter_map(|shape| match shape {
            Shape::Slanted(shape) => Some(*shape),
            _ => None,
        });
        let first = slanted.next()?;
        Some((first.shape, Some(first).filter(|first| slanted.all(|other| other == *first))))
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

    /// Goes by what the text tells to cut beside other pieces, where that takes no more than another plan.
    fn follow_beside(&mut self, cuts: &[Cut], cloth: Cloth) {
        let stated = stated_plan(&self.beside, cuts, cloth);
        let Some((stated, taken)) = stated.zip(self.taken.as_mut()) else { return };
        if stated.plan.length() <= taken.plan.length() {
            *taken = stated;
            self.tight = self.tight.take().filter(|_| match self.required {
                Some(Bought::Amount(amount)) => self.shrinks.left_of(amount.value.most().0) < taken.plan.length(),
                _ => true,
            });
        }
    }

    pub(super) fn decide_tight(&self) -> Option<Tight> {
        let (Some(Bought::Amount(stated)), Some(proof), Some(taken)) = (self.required, &self.proof, &self.taken) else {
            return None;
        };
        let verdict = proof.verdict(self.shrinks.left_of(stated.value.most().0));
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

    /// How much fabric a plan takes before it is washed.
    pub fn unwashed(&self, taken: &Taken) -> Yardage {
        Yardage(self.shrinks.before(taken.plan.length()))
    }

    /// What is left of what is bought when it is washed.
    pub(super) fn washed(&self, bought: &Bought) -> Bought {
        let half = |written: &Written| Written { length: self.shrinks.left_of(written.length), ..*written };
        match bought {
            Bought::Count(count) => Bought::Count(count.clone()),
            Bought::Amount(amount) => {
                let Amount { first, second } = &amount.value;
                let second = second.as_ref().map(|(second, at)| (half(second), at.clone()));
                Bought::Amount(Spanned { value: Amount { first: half(first), second }, at: amount.at })
            }
        }
    }

    /// What is stated from the bolt beside what the pieces take, where both are known.
    pub const fn from_bolt(&self) -> Option<FromBolt<'m>> {
        self.from_bolt
    }

    fn amount_from_bolt(&self) -> Option<FromBolt<'m>> {
        let Some(Bought::Amount(stated)) = self.required else { return None };
        let cut = self.unwashed(self.taken.as_ref().filter(|taken| taken.small.is_none())?);
        let print = self.to_print.as_ref().map_or(cut, |taken| self.unwashed(taken));
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
        Some(SmallFabrics { stated, taken, to_print: print.max(taken), pack: self.pack })
    }

    /// The way of cutting an entry of the list from strips, and how many strips are needed.
    pub fn needed(&self, cut: usize, cloth: Cloth) -> Option<(FromStrips, Count)> {
        self.cuts.get(cut).copied().flatten()?.needed(cloth)
    }
}

/// What an entry of a list is called.
fn name(stated: &Fabric, place: usize) -> String {
    let own = |cut: &StatedCut| cut.piece.stated().map_or_else(|| "pieces".to_string(), |name| name.value.clone());
    let Some(cut) = stated.cut.get(place).filter(|cut| cut.is_group) else {
        return stated.cut.get(place).map(own).unwrap_or_default();
    };
    let members: Vec<String> = stated.cut.iter().filter(|member| member.within == Some(place)).map(own).collect();
    if members.is_empty() { own(cut) } else { members.join(" + ") }
}

/// What an entry of the list is; `None` where something of it could not be read.
fn shape(stated: &Fabric, cut: &StatedCut, of: usize) -> Option<Shape> {
    let directional = stated.directional.or(YesNo::No)?;
    if let Some(group) = cut.within {
        let (width, height) = cut.size.of(of).value()?;
        let strip_width = Some(stated.cut.get(group)?.strip_width.of(of).length()?);
        let (width, height) = (width.length, height.length);
        return Some(Shape::Piece { width, height, turns: directional == YesNo::No, strip_width });
    }
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
            let turns = directional == YesNo::No;
            if cut.is_template() {
                return Some(Shape::Template { width, height, turns, strip_width });
            }
            Some(Shape::Piece { width, height, turns, strip_width })
        }
    }
}

/// A shape that is cut from strips; `None` where something of it could not be read.
fn slanted(
    (stated, cut): (&Fabric, &StatedCut),
    shaped: &Shaped,
    of: usize,
    manuscript: &Manuscript,
    settings: &Settings,
) -> Option<Shape> {
    let (size, height, strip_width) = (shaped.size.of(of), shaped.height.of(of), cut.strip_width.of(of));
    let seam = manuscript.assumes.seam.or_length(|| settings.length(PIECING_SEAM))?;
    let by_height = size.is_absent();
    let (first, second) = match size.value() {
        Some((first, second)) => (first.length, second.length),
        None if by_height => (height.length()?, Length::ZERO),
        None => return None,
    };
    let strip_width = if strip_width.is_absent() { Length::ZERO } else { strip_width.length()? };
    Some(Shape::Slanted(StripShape {
        strip_width,
        angle: if shaped.angle.is_absent() { CutAngle::Sixty } else { shaped.angle.value()? },
        tips: shaped.tips.or(Tips::Sharp)?,
        by_height,
        turns: stated.directional.or(YesNo::No)? == YesNo::No,
        measure: manuscript.measure,
        ..StripShape::new(shaped.shape.value()?, (first, second), seam)
    }))
}

/// How much shorter a fabric is after washing: fabric from the bolt as the pattern assumes of all, where it states nothing of
/// its own.
fn shrinks(stated: &Fabric, manuscript: &Manuscript) -> Option<Percent> {
    let from_bolt = stated.sold_as.or(SoldAs::Yardage) == Some(SoldAs::Yardage);
    if stated.shrinks.is_absent() && from_bolt {
        return manuscript.assumes.shrinks.or(Percent::default());
    }
    stated.shrinks.or(Percent::default())
}

/// No more pieces than this come of a repeat, wherever they lie in it. Pieces that all lie one way: as many as lie side by
/// side, times as many as lie one above another, since every line along the fabric meets no more of them than that, and
/// so many lines meet all of them (plain geometry).
fn most_of_a_repeat((width, height): (Length, Length), turns: bool, (usable, repeat): (Length, Length)) -> Count {
    if !turns || width == height {
        return usable.pieces_of(width) * repeat.pieces_of(height);
    }
    let area = (width.ticks() * height.ticks()).max(1);
    let by_area = (usable.ticks() * repeat.ticks()).checked_div(area).and_then(|most| u64::try_from(most).ok());
    let fits = width.min(height) <= repeat;
    if fits { Count(by_area.unwrap_or(0)) } else { Count(0) }
}

/// How many strips or pieces there are of each entry.
fn size_counts(cuts: &[Option<Cut>]) -> impl Iterator<Item = Count> {
    cuts.iter().map(|cut| cut.and_then(|cut| cut.pieces.max(cut.strips)).unwrap_or_default())
}

/// A piece that is centered on the print; `None` where something of it is not stated, or could not be read.
fn centered(stated: &Fabric, cut: &StatedCut, of: usize) -> Option<Shape> {
    let (width, height) = cut.size.of(of).value()?;
    let per_repeat = cut.each_repeat().value().filter(|count| count.0 > 0)?;
    let repeat = stated.repeat.length()?;
    let turns = stated.directional.or(YesNo::No)? == YesNo::No;
    Some(Shape::Centered { width: width.length, height: height.length, turns, repeat, per_repeat })
}

/// An entry of the list for one size; `None` where a count could not be read, or neither is stated. Of what a size takes
/// none of, the cut size for it may be left out.
fn cut_of(cut: &StatedCut, shape: Option<Shape>, index: usize) -> Option<Cut> {
    let count = |field: &Field<Count>| (!field.is_unread()).then(|| field.value());
    let (strips, pieces) = (count(cut.strips.get(index)?)?, count(cut.pieces.get(index)?)?);
    let takes_none = || {
        let is_left_out = cut.cut_at(index).is_none() || cut.slanted().is_some();
        let none = strips.unwrap_or_default() + pieces.unwrap_or_default() == Count(0);
        (is_left_out && none).then_some(Shape::Piece {
            width: Length::inches(1),
            height: Length::inches(1),
            turns: true,
            strip_width: None,
        })
    };
    let shape = shape.or_else(takes_none)?;
    let is_counted = strips.is_some() || pieces.is_some() || cut.is_group;
    is_counted.then_some(Cut { shape, strips, pieces, joins: None, within: cut.within })
}

/// How the strips of a piece are joined that is longer than a strip: as the border is that it is cut for, and straight
/// where nothing says so. `None` where something of it could not be read.
fn joins(manuscript: &Manuscript, settings: &Settings, piece: PieceRef, size: usize) -> Option<Joins> {
    let told = &manuscript.fabrics.get(piece.fabric)?.cut.get(piece.cut)?.joined;
    let seam = manuscript.assumes.seam.or_length(|| settings.length(PIECING_SEAM))?;
    if !told.is_absent() {
        return Some(Joins { join: told.value()?, seam, told: true });
    }
    let layout = manuscript.layout.as_ref().and_then(|layout| layout.sizes.get(size)?.stated());
    let borders = layout.map(|layout| layout.borders.as_slice()).unwrap_or_default();
    let means = |of: PieceRef| of.means(piece, manuscript.fabrics.iter());
    let border = borders
        .iter()
        .find(|border| [&border.piece, &border.piece_across].iter().any(|of| of.value().is_some_and(means)));
    let join = border.map_or(Some(Join::Straight), |border| border.join.or(Join::Straight))?;
    Some(Joins { join, seam, told: false })
}

/// The binding's strips as an entry of the list: those stated, and those that should be printed. They are told strips,
/// and take their own width.
fn binding_cuts(binding: &BindingNeeds<'_>, size: &SizeNeeds<'_>) -> Option<(Cut, Cut)> {
    let (told, print) = (size.cut?.strips, size.print?.strips);
    let (length, width) = (size.strip_length, size.method.strip_width);
    let grain = binding.grain?;
    let cut = |count| match grain {
        Grain::Lengthwise => Cut {
            shape: Shape::Lengthwise { width, length },
            strips: Some(count),
            pieces: Some(count),
            joins: None,
            within: None,
        },
        Grain::Crosswise | Grain::Bias => {
            Cut { shape: Shape::Strip { length, width }, strips: None, pieces: Some(count), joins: None, within: None }
        }
    };
    Some((cut(told), cut(print)))
}
