//! Buying fabric in words: an amount beside what is cut from it, and the plan of a cutting list.
//!
//! The rules share a `Purchase`: what is stated, what is cut, and the words for both. Binding, backing and fabrics
//! differ in what is cut, and not in what a pair of amounts or a step of the shop is.

use super::backing;
use super::binding::{buying_of, cut_working};
use super::pair::purchase;
use super::subject;
use crate::finding::{Correction, Finding, Subject};
use crate::manuscript::model::SoldAs;
use crate::manuscript::{Span, Spanned};
use crate::quantity::{Amount, Count, Length, Round, Scale, Yardage};
use crate::quilt_math::backing::Panels;
use crate::quilt_math::binding::CutPlan;
use crate::quilt_math::cutting::{Cloth, Taken};
use crate::quilt_math::plan::{StripCut, Strips};
use crate::quilt_math::planner::{CutGrid, CutStrips, Cutting};
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::fabric::Shop;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds, FromBolt};

/// How many different strips are told one by one.
const MAX_TOLD: usize = 8;

/// How many sizes are named one by one.
const MAX_NAMED: usize = 8;

/// An amount of fabric from the bolt, and what it is to be enough for. Binding and fabrics are alike here.
pub(in crate::rules) struct Purchase<'a> {
    pub(in crate::rules) shop: Shop,
    /// Which size it is for.
    pub(in crate::rules) size: &'a str,
    /// What is stated.
    pub(in crate::rules) stated: &'a Spanned<Amount>,
    /// What is cut from it.
    pub(in crate::rules) cut: Yardage,
    /// What is cut from it once all strips are there that are needed.
    pub(in crate::rules) to_print: Yardage,
    of: PurchaseOf<'a>,
}

/// Which fabric a purchase is of. Words are put together only where there is something to tell: most amounts are right.
enum PurchaseOf<'a> {
    Binding { needs: &'a BindingNeeds<'a>, size: &'a SizeNeeds<'a>, plan: CutPlan },
    Backing { needs: &'a BackingNeeds<'a>, panels: &'a Panels },
    Fabric { needs: &'a FabricsNeeds<'a>, fabric: &'a FabricNeeds<'a>, taken: &'a Taken },
}

/// What is told of a purchase.
pub(in crate::rules) struct PurchaseWording {
    /// The fabric by name: ` of ink`, or nothing where it is plain.
    pub(in crate::rules) of: String,
    /// `9 strips x 2 1/2 in = 22 1/2 in`.
    pub(in crate::rules) working: String,
    /// Where the needed amount comes from.
    see: Vec<(Option<Span>, String)>,
    /// More lines of working.
    help: Vec<String>,
}

impl<'a> Purchase<'a> {
    /// The fabric that the pattern prints for a size's binding.
    pub(in crate::rules) fn of_binding(needs: &'a BindingNeeds<'a>, size: &'a SizeNeeds<'a>) -> Option<Purchase<'a>> {
        Purchase::of_binding_plan(needs, size, size.cut?)
    }

    /// The same for the strips that are stated or, where fabric alone is, those to print with the spare.
    pub(in crate::rules) fn of_printed_binding(
        needs: &'a BindingNeeds<'a>,
        size: &'a SizeNeeds<'a>,
    ) -> Option<Purchase<'a>> {
        let plan = if size.stated.strips.is_absent() { size.cut_to_print(needs) } else { size.cut };
        Purchase::of_binding_plan(needs, size, plan?)
    }

    fn of_binding_plan(needs: &'a BindingNeeds<'a>, size: &'a SizeNeeds<'a>, plan: CutPlan) -> Option<Purchase<'a>> {
        let stated = size.stated.fabric.stated()?;
        Some(Purchase {
            shop: needs.shop,
            size: &size.size.name,
            stated,
            cut: plan.fabric,
            to_print: size.cut_to_print(needs).map_or(plan.fabric, |print| print.fabric),
            of: PurchaseOf::Binding { needs, size, plan },
        })
    }

    /// The amount that the pattern prints of a fabric for a size.
    pub(in crate::rules) fn of_fabric(
        needs: &'a FabricsNeeds<'a>,
        fabric: &'a FabricNeeds<'a>,
        size: &'a FabricSize<'a>,
    ) -> Option<Purchase<'a>> {
        let (bolt, taken) = (size.from_bolt()?, size.taken.as_ref()?);
        Some(Purchase::of_taken(needs, fabric, size, bolt, taken))
    }

    /// The same with the working of all strips that must be printed, where the pattern tells too few of them.
    pub(in crate::rules) fn of_printed_fabric(
        needs: &'a FabricsNeeds<'a>,
        fabric: &'a FabricNeeds<'a>,
        size: &'a FabricSize<'a>,
    ) -> Option<Purchase<'a>> {
        let (bolt, print) = (size.from_bolt()?, size.printed()?);
        let bolt = FromBolt { cut: bolt.to_print, ..bolt };
        Some(Purchase::of_taken(needs, fabric, size, bolt, print))
    }

    fn of_taken(
        needs: &'a FabricsNeeds<'a>,
        fabric: &'a FabricNeeds<'a>,
        size: &'a FabricSize<'a>,
        bolt: FromBolt<'a>,
        taken: &'a Taken,
    ) -> Purchase<'a> {
        Purchase {
            shop: needs.shop,
            size: &size.size.name,
            stated: bolt.stated,
            cut: bolt.cut,
            to_print: bolt.to_print,
            of: PurchaseOf::Fabric { needs, fabric, taken },
        }
    }

    /// The fabric that the pattern prints for a size's backing.
    pub(in crate::rules) fn of_backing(needs: &'a BackingNeeds<'a>, size: &'a SizeBacking<'a>) -> Option<Purchase<'a>> {
        let stated = size.stated.fabric.stated()?;
        Some(Purchase {
            shop: needs.shop,
            size: &size.size.name,
            stated,
            cut: size.panels.fabric,
            to_print: size.print.fabric,
            of: PurchaseOf::Backing { needs, panels: &size.panels },
        })
    }

    /// What is told of it.
    pub(in crate::rules) fn words(&self) -> PurchaseWording {
        let buy = || purchase(&self.shop, &self.stated.value, self.cut);
        match self.of {
            PurchaseOf::Binding { needs, size, ref plan } => {
                let working = cut_working(needs, size, plan);
                let help = vec![format!("{working}; {}.", buying_of(&needs.shop, buy()))];
                let see = vec![
                    (size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip"))),
                    (needs.stated.strip_width.at(), "how wide each is cut".into()),
                ];
                PurchaseWording { of: String::new(), working, see, help }
            }
            PurchaseOf::Backing { needs, panels } => {
                let working = backing::fabric_working(needs, panels);
                let help = vec![format!("{working}; buy {}.", buy())];
                PurchaseWording { of: String::new(), working, see: Vec::new(), help }
            }
            PurchaseOf::Fabric { needs, fabric, taken } => {
                let working = sum(needs, fabric, taken);
                let buying = format!("{}; {}.", sentence_of(&working), buying_of(&needs.shop, buy()));
                let see = vec![(fabric.binding_from, "the binding is cut from it too".into())];
                let help = vec![plan_words(needs, fabric, taken), buying];
                PurchaseWording { of: format!(" of {}", fabric.stated.name), working, see, help }
            }
        }
    }

    /// Which fabric it is.
    pub(in crate::rules) fn subject(&self) -> Subject {
        match self.of {
            PurchaseOf::Binding { .. } => Subject::number("binding fabric"),
            PurchaseOf::Backing { .. } => Subject::number("backing fabric"),
            PurchaseOf::Fabric { fabric, .. } => subject::fabric(fabric.stated),
        }
    }

    /// The finding with its size, the places it comes from and the working.
    pub(in crate::rules) fn explain(&self, words: PurchaseWording, finding: Finding) -> Finding {
        let mut finding = finding.for_size(self.size).about(self.subject());
        for (at, words) in words.see {
            finding = finding.see(at, words);
        }
        words.help.iter().fold(finding, Finding::help).corrected(self.correction())
    }

    /// The amount to print, where it is no more than a manuscript may state.
    fn correction(&self) -> Option<Correction> {
        let sold = |half: &crate::quantity::Written| self.shop.to_buy(self.to_print, half.unit).0 <= Length::LONGEST;
        let may_be_stated = self.stated.value.halves().all(sold);
        let correction = || Correction::new(self.stated.at, self.shop.rewrite(&self.stated.value, self.to_print));
        may_be_stated.then(correction)
    }
}

/// A working that stands at the start of a line.
fn sentence_of(working: &str) -> String {
    super::super::sentence(working)
}

/// `with 1/2 in for squaring up, buy 3/4 yd`.
pub(crate) fn fabric_buying(needs: &FabricsNeeds<'_>, cut: Yardage) -> String {
    let buy = needs.shop.to_buy(cut, needs.measure.bare_unit()).show_both(needs.measure, Round::Up);
    buying_of(&needs.shop, buy)
}

/// How much of the bolt all strips take: `5 strips x 3 1/2 in + 2 strips x 2 in = 21 1/2 in`.
pub(crate) fn sum(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken) -> String {
    let mut widths: Vec<(Length, &str, Count)> = Vec::new();
    for strips in &taken.plan.strips {
        let kind = kind(fabric, strips);
        match widths.iter_mut().find(|(width, of, _)| (*width, *of) == (strips.width, kind)) {
            Some((_, _, count)) => *count = *count + strips.count,
            None => widths.push((strips.width, kind, strips.count)),
        }
    }
    let mut shown: Vec<Length> = widths.iter().map(|(width, ..)| *width).collect();
    shown.push(taken.plan.length());
    let scale = Scale::of(needs.measure, &shown);
    let total = scale.up(taken.plan.length());
    let terms: Vec<String> =
        widths.iter().map(|(width, kind, count)| format!("{} x {}", count.of(kind), scale.up(*width))).collect();
    match terms.len() {
        0 => "nothing is cut from it".to_string(),
        1..=MAX_TOLD => format!("{} = {total}", terms.join(" + ")),
        _ => format!("strips of {} widths, together {total}", terms.len()),
    }
}

/// The plan in words: `Cut, in strips 40 in long: 4 strips 3 1/2 in: A, 11 from each; 1 strip 3 1/2 in: A, 4 pieces.`
/// Nothing where nothing is cut.
pub(crate) fn plan_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken) -> String {
    if let Some(words) = precut_words(fabric, taken) {
        return words;
    }
    let is_row = |strips: &&Strips| taken.small.is_none() && kind(fabric, strips) == ROW;
    let strips = with_joined_as_one(taken);
    let (rows, across): (Vec<&Strips>, Vec<&Strips>) = strips.iter().partition(is_row);
    let from = taken.small.map(|small| format!(" from {}", small.of(&fabric.sold_as_words()))).unwrap_or_default();
    let across = listed_strips(&across, "strip", |strips| strips_words(needs, fabric, taken, strips));
    let rows = listed_strips(&rows, ROW, |strips| row_words(needs, fabric, taken, strips));
    let across = across.map(|told| format!("Cut{from}, in strips {} long: {told}.", needs.down(taken.strip_length)));
    let rows = rows.map(|told| format!("Cut along the fabric: {told}."));
    across.into_iter().chain(rows).collect::<Vec<_>>().join(" ")
}

/// What is cut from each small fabric.
pub(crate) fn small_plan_words(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    taken: &Taken,
) -> String {
    let decided = size.small_proof.as_ref().filter(|decided| !decided.fabrics.is_empty());
    let Some(decided) = decided else { return plan_words(needs, fabric, taken) };
    cutting_words(needs, fabric, &decided.fabrics, |fabrics| fabrics.count.of(&fabric.sold_as_words()))
}

/// A plan that is cut in more steps, strip by strip: `1 strip 64 1/2 in wide: border, 4 of 4 1/2 in x 64 1/2 in; ...`
/// Where pieces begin is told from the strip's end and, for those above others, from its edge.
pub(in crate::rules) fn fabric_cutting_words(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    cutting: &Cutting,
) -> String {
    let head = |strips: &CutStrips| format!("{} {} wide", strips.count.of("strip"), needs.up(strips.width));
    cutting_words(needs, fabric, &cutting.strips, head)
}

fn cutting_words(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    all: &[CutStrips],
    head: impl Fn(&CutStrips) -> String,
) -> String {
    let grid = |grid: &CutGrid| {
        let place = match (grid.from.is_positive(), grid.above.is_positive()) {
            (false, false) => String::new(),
            (true, false) => format!(", starting {} across", needs.up(grid.from)),
            (false, true) => format!(", starting {} up", needs.up(grid.above)),
            (true, true) => format!(", starting {} across and {} up", needs.up(grid.from), needs.up(grid.above)),
        };
        let size = format!("{} x {}", needs.up(grid.across), needs.up(grid.along));
        format!("{}, {} of {size}{place}", fabric.name(grid.item), grid.count)
    };
    let strip = |strips: &CutStrips| {
        let pieces: Vec<String> = strips.grids.iter().take(MAX_TOLD).map(grid).collect();
        let more = strips.grids.iter().skip(MAX_TOLD).fold(Count(0), |sum, grid| sum + grid.count);
        let more = if more.0 > 0 { format!("; {}", more.of("more piece")) } else { String::new() };
        format!("{}: {}{more}", head(strips), pieces.join("; "))
    };
    let told: Vec<String> = all.iter().take(MAX_TOLD).map(strip).collect();
    let more = all.iter().skip(MAX_TOLD).fold(Count(0), |sum, strips| sum + strips.count);
    let more = if more.0 > 0 { format!(". {}", more.of("more strip")) } else { String::new() };
    format!("The best plan, each piece as it is across x along the fabric: {}{more}.", told.join(". "))
}

/// Strips one by one, and beyond a few of them how many more there are.
fn listed_strips(strips: &[&Strips], word: &str, words: impl Fn(&Strips) -> String) -> Option<String> {
    let mut told: Vec<String> = strips.iter().take(MAX_TOLD).map(|strips| words(strips)).collect();
    let more = strips.iter().skip(MAX_TOLD).fold(Count(0), |sum, strips| sum + strips.count);
    if more.0 > 0 {
        told.push(more.of(&format!("more {word}")));
    }
    (!told.is_empty()).then(|| told.join("; "))
}

/// One kind of piece from precut strips or squares: `Cut from 48 precut squares: patch, 1 from each.`
fn precut_words(fabric: &FabricNeeds<'_>, taken: &Taken) -> Option<String> {
    let (small, Cloth::Small { across, along, .. }) = (taken.small?, fabric.cloth?) else { return None };
    if !matches!(fabric.stated.sold_as.value(), Some(SoldAs::Strips | SoldAs::Squares)) {
        return None;
    }
    let strips = &taken.plan.strips;
    let (width, piece) = (strips.first()?.width, strips.first()?.cuts.first()?.piece);
    let alike = |strips: &Strips| strips.width == width && matches!(&strips.cuts[..], [laid] if laid.piece == piece);
    if !strips.iter().all(alike) {
        return None;
    }
    let in_strip = strips.iter().filter_map(|strips| strips.cuts.first()).map(|laid| laid.count).max()?;
    let side = if taken.strip_length == across { along } else { across };
    let each = side.pieces_of(width) * in_strip;
    let total = strips.iter().fold(Count(0), |sum, strips| sum + strips.count * strips.cuts[0].count);
    let (from, name) = (small.of(&fabric.sold_as_words()), fabric.name(piece));
    Some(match small {
        Count(1) => format!("Cut from {from}: {name}, {}.", total.of("piece")),
        small if small * each == total => format!("Cut from {from}: {name}, {each} from each."),
        _ => format!("Cut from {from}: {name}, up to {each} from each, {total} in all."),
    })
}

const ROW: &str = "row";

/// Pieces along the fabric lie in rows, not in strips.
fn kind(fabric: &FabricNeeds<'_>, strips: &Strips) -> &'static str {
    if strips.cuts.first().is_some_and(|laid| fabric.is_lengthwise(laid.piece)) { ROW } else { "strip" }
}

fn strips_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken, strips: &Strips) -> String {
    let wide = format!("{} {}", strips.count.of("strip"), needs.up(strips.width));
    let is_whole = |laid: &StripCut| laid.across == taken.strip_length && laid.count == Count(1);
    match strips.cuts.as_slice() {
        [] => format!("{wide}, left over"),
        [laid] if taken.joined.contains(&laid.piece) => {
            format!("{wide}, joined end to end: {}", fabric.name(laid.piece))
        }
        [laid] if is_whole(laid) => format!("{wide}, whole: {}", fabric.name(laid.piece)),
        cuts => format!("{wide}: {}", pieces_words(fabric, taken, strips.count, cuts)),
    }
}

/// The strips of a plan with joined strips that are alike told as one: what is left of the last is used otherwise or not
/// at all.
fn with_joined_as_one(taken: &Taken) -> Vec<Strips> {
    let mut told: Vec<Strips> = Vec::new();
    for strips in &taken.plan.strips {
        let joined = match strips.cuts.as_slice() {
            [laid] if taken.joined.contains(&laid.piece) => Some(laid.piece),
            _ => None,
        };
        let same = |last: &&mut Strips| {
            let last_joined = if last.cuts.len() == 1 { last.cuts.first().map(|laid| laid.piece) } else { None };
            joined.is_some() && last_joined == joined && last.width == strips.width
        };
        match told.last_mut().filter(same) {
            Some(last) => last.count = last.count + strips.count,
            None => told.push(strips.clone()),
        }
    }
    told
}

/// Pieces that lie along the fabric: `1 row 65 in long: border, 4 side by side`.
fn row_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken, strips: &Strips) -> String {
    let long = needs.up(strips.width);
    let row = match strips.count {
        Count(1) => format!("1 row {long} long"),
        many => format!("{}, each {long} long", many.of(ROW)),
    };
    match strips.cuts.as_slice() {
        [laid] if laid.count.0 > 1 && laid.stacked == Count(1) => {
            let each = if strips.count.0 > 1 { " in each" } else { "" };
            format!("{row}: {}, {} side by side{each}", fabric.name(laid.piece), laid.count)
        }
        cuts => format!("{row}: {}", pieces_words(fabric, taken, strips.count, cuts)),
    }
}

/// `A, 2 from each, and B, 3 from each`. The writer's own names stand first and as they are, since a plural cannot be
/// made of them in every language.
fn pieces_words(fabric: &FabricNeeds<'_>, taken: &Taken, strips: Count, cuts: &[StripCut]) -> String {
    let words = |laid: &StripCut| {
        let name = fabric.name(laid.piece);
        if taken.joined.contains(&laid.piece) {
            format!("{name}, joined end to end")
        } else if strips.0 > 1 {
            format!("{name}, {} from each", laid.count)
        } else {
            format!("{name}, {}", laid.count.of("piece"))
        }
    };
    cuts.iter().map(words).collect::<Vec<_>>().join(", and ")
}

/// `crib, lap and throw`.
pub(in crate::rules) fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_string(),
        [most @ .., last] if names.len() <= MAX_NAMED => format!("{} and {last}", most.join(", ")),
        _ => format!("{} and {} more sizes", names[..MAX_NAMED - 1].join(", "), names.len() - MAX_NAMED + 1),
    }
}
