//! Buying fabric in words: an amount beside what is cut from it.
//!
//! The rules share a `Purchase`: what is stated, what is cut, and the words for both. Binding, backing and fabrics
//! differ in what is cut, and not in what a pair of amounts or a step of the shop is.

use super::backing;
use super::binding::{buying_of, cut_working};
use super::pair::purchase;
use super::plan::{plan_words, sum};
use super::subject;
use crate::finding::{Correction, Finding, Subject};
use crate::manuscript::model::Cut as StatedCut;
use crate::manuscript::{Field, Span, Spanned};
use crate::quantity::{Amount, Count, Length, Yardage};
use crate::quilt_math::backing::Panels;
use crate::quilt_math::binding::CutPlan;
use crate::quilt_math::cutting::Cut;
use crate::quilt_math::each_share::share;
use crate::quilt_math::taken::Taken;
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::fabric::Shop;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds, FromBolt};
use crate::requirement::shares::{How, Sharing, each_words};

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
    Fabric { needs: &'a FabricsNeeds<'a>, fabric: &'a FabricNeeds<'a>, size: &'a FabricSize<'a>, taken: &'a Taken },
}

/// What is told of a purchase.
pub(in crate::rules) struct PurchaseWording {
    /// The fabric by name: ` of ink`, or nothing where it is plain.
    pub(in crate::rules) of: String,
    /// `9 strips x 2 1/2 in = 22 1/2 in`.
    pub(in crate::rules) working: String,
    /// Where the needed amount comes from.
    see: Vec<(Option<Span>, String)>,
    /// How it is cut, where that is planned.
    pub(in crate::rules) plan: Option<String>,
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
        let plan = if size.stated.strips.is_absent() { size.print } else { size.cut };
        Purchase::of_binding_plan(needs, size, plan?)
    }

    fn of_binding_plan(needs: &'a BindingNeeds<'a>, size: &'a SizeNeeds<'a>, plan: CutPlan) -> Option<Purchase<'a>> {
        let stated = size.stated.fabric.stated()?;
        Some(Purchase {
            shop: needs.shop,
            size: &size.size.name,
            stated,
            cut: plan.fabric,
            to_print: size.print.map_or(plan.fabric, |print| print.fabric),
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
            of: PurchaseOf::Fabric { needs, fabric, size, taken },
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

    /// What to buy, in the units of each half: for the strips that are still missing as well.
    pub(in crate::rules) fn needed(&self) -> String {
        purchase(&self.shop, &self.stated.value, self.to_print)
    }

    /// `3/4 yd; 7/8 yd needed`, without the needed amount where it is not for what is told to cut.
    pub(in crate::rules) fn stated_and_needed(&self, stated: &str, of: &str) -> String {
        if self.missing().is_empty() {
            format!("{stated}{of} stated; {} needed", self.needed())
        } else {
            format!("{stated}{of} stated")
        }
    }

    /// The amount for all strips, as a sentence, where the text tells fewer than are needed.
    pub(in crate::rules) fn missing(&self) -> String {
        if self.to_print <= self.cut {
            return String::new();
        }
        format!(" For all that is needed, {} must be bought.", self.needed())
    }

    /// What is told of it.
    pub(in crate::rules) fn words(&self) -> PurchaseWording {
        // What to buy is one amount, whichever rule tells it: for the strips that are still missing as well.
        let buying = |shop: &Shop| buying_of(shop, self.needed());
        match self.of {
            PurchaseOf::Binding { needs, size, ref plan } => {
                let working = cut_working(needs, size, plan);
                let print = size.print.unwrap_or(*plan);
                let help = vec![format!("{}; {}.", cut_working(needs, size, &print), buying(&needs.shop))];
                let see = vec![
                    (size.stated.strips.at(), format!("{} to cut", plan.strips.of("strip"))),
                    (needs.stated.strip_width.at(), "how wide each is cut".into()),
                ];
                PurchaseWording { of: String::new(), working, see, plan: None, help }
            }
            PurchaseOf::Backing { needs, panels } => {
                let working = backing::fabric_working(needs, panels);
                let help = vec![format!("{working}; buy {}.", purchase(&self.shop, &self.stated.value, self.cut))];
                PurchaseWording { of: String::new(), working, see: Vec::new(), plan: None, help }
            }
            PurchaseOf::Fabric { needs, fabric, size, taken } => {
                let working = sum(needs, fabric, taken);
                let print = size.printed().filter(|_| self.to_print > self.cut).unwrap_or(taken);
                let buying = format!("{}; {}.", sentence_of(&sum(needs, fabric, print)), buying(&needs.shop));
                let see = vec![
                    (fabric.binding_from, "the binding is cut from it too".into()),
                    (fabric.backing_from, "the backing is cut from it too".into()),
                ];
                let plan = Some(plan_words(needs, fabric, print));
                let of = each_words(size.sharing, &fabric.stated.name);
                let help = [share_words(fabric, size), buying].into_iter().filter(|words| !words.is_empty());
                PurchaseWording { of, working, see, plan, help: help.collect() }
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
        words.plan.iter().chain(&words.help).fold(finding, Finding::help).corrected(self.correction())
    }

    /// The amount to print, where it is no more than a manuscript may state.
    fn correction(&self) -> Option<Correction> {
        let sold = |half: &crate::quantity::Written| self.shop.to_buy(self.to_print, half.unit).0 <= Length::LONGEST;
        let may_be_stated = self.stated.value.halves().all(sold);
        let correction = || Correction::new(self.stated.at, self.shop.rewrite(&self.stated.value, self.to_print));
        may_be_stated.then(correction)
    }
}

/// What each of the fabrics gives that share a list: `Each of 12 gives 4 A and 2 B.` Nothing for a fabric by itself.
pub(crate) fn share_words(fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> String {
    let Some(Sharing { among, how: How::Each | How::AlikeSmall, .. }) = size.sharing else { return String::new() };
    let among = match size.sharing {
        Some(Sharing { how: How::AlikeSmall, .. }) => {
            size.taken.as_ref().and_then(|taken| taken.small).unwrap_or(among)
        }
        _ => among,
    };
    let Some(cuts) = size.cuts.iter().copied().collect::<Option<Vec<Cut>>>() else { return String::new() };
    let stated = |cut: &StatedCut| cut.pieces_from_each.get(size.index).and_then(Field::value);
    let from_each: Vec<Option<Count>> = fabric.stated.cut.iter().map(stated).collect();
    let given = share(&cuts, among, &from_each).into_iter().enumerate();
    let given = given.filter_map(|(entry, cut)| {
        let count = cut.pieces.filter(|count| count.0 > 0)?;
        Some(format!("{count} {}", fabric.name(entry)))
    });
    let given: Vec<String> = given.collect();
    if given.is_empty() {
        return String::new();
    }
    format!("Each of {among} gives {}.", listed(&given.iter().map(String::as_str).collect::<Vec<_>>()))
}

/// A working that stands at the start of a line.
fn sentence_of(working: &str) -> String {
    super::super::sentence(working)
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
