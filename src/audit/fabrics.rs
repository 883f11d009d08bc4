//! The numbers of the fabrics.

use super::design::{Design, FromDesign};
use super::{Lines, Margin, Status, amount_needed, margin};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Bought, Cut, Size};
use crate::manuscript::{Field, Manuscript};
use crate::quantity::{Count, Yardage};
use crate::quilt_math::planner::Verdict;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};
use crate::rules::words::{fabric_buying, joined_working, left_over_words, plan_to_follow, small_plan_words, sum};

const UNREAD: &str = super::UNREAD_OR_TOO_LARGE;

impl Lines<'_> {
    /// What each fabric states for all sizes.
    pub(super) fn fabric_methods(&mut self, needs: &FabricsNeeds<'_>, manuscript: &Manuscript) {
        for fabric in &needs.fabrics {
            let name = &fabric.stated.name;
            let stated = fabric.stated;
            let width = "Strips of this fabric are cut across this width.";
            self.given(&format!("{name} usable_width"), &stated.usable_width, width);
            self.given(&format!("{name} precut"), &stated.precut, "It is bought cut to this.");
            for cut in &stated.cut {
                let piece = cut.piece.stated().map_or("piece", |piece| piece.value.as_str());
                self.given_for_each(manuscript, &format!("{name} {piece} size"), &cut.size, "Cut size, as given.");
                let width = "Each strip is cut this wide.";
                self.given_for_each(manuscript, &format!("{name} {piece} strip_width"), &cut.strip_width, width);
            }
        }
    }

    /// What each fabric states for one size.
    pub(super) fn fabrics(&mut self, of: &Size, needs: &FabricsNeeds<'_>, design: &Design<'_, '_>, index: usize) {
        let heading = of.name.as_str();
        for (fabric_place, fabric) in needs.fabrics.iter().enumerate() {
            let Some(size) = fabric.sizes.get(index) else { continue };
            self.required(heading, needs, fabric, size);
            for (place, cut) in fabric.stated.cut.iter().enumerate() {
                let piece = PieceRef { fabric: fabric_place, cut: place };
                let used = design.piece(index, of, piece, fabric.name(place));
                self.cut(heading, (needs, fabric), size, (place, cut), used);
            }
        }
    }

    fn required(&mut self, heading: &str, needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) {
        let Some(required) = size.required else { return };
        let number = format!("{} requires", fabric.stated.name);
        if let Some((needed, status, working)) = undecided(needs, fabric, size) {
            self.add(Some(heading), &number, required.at(), needed, status, working);
            return;
        }
        // What the strips as told take, where that is all that the amount is enough for: the strips are blamed then.
        let print = size.to_print.as_ref().or(size.taken.as_ref());
        let basis = match (required, print, &size.taken) {
            (Bought::Amount(amount), Some(print), Some(taken)) => {
                let enough = margin::is_enough(&needs.shop, &amount.value, Yardage(print.plan.length()));
                Some(if enough { print } else { taken })
            }
            (Bought::Count(count), Some(print), Some(taken)) => {
                Some(if count.value >= print.small.unwrap_or_default() { print } else { taken })
            }
            (_, print, _) => print,
        };
        let (needed, status, working) = match (required, basis) {
            (Bought::Amount(_), Some(taken)) if !taken.plan.length().is_positive() => {
                ("nothing".to_string(), Status::Ok, "Nothing is cut from it.".to_string())
            }
            (Bought::Amount(amount), Some(taken)) => {
                let cut = Yardage(taken.plan.length());
                let working = format!("{}; {}.", sum(needs, fabric, taken), fabric_buying(needs, cut));
                let plan = [plan_to_follow(needs, fabric, taken).join(" "), left_over_words(needs, taken), working];
                let plan: Vec<String> = plan.into_iter().filter(|words| !words.is_empty()).collect();
                (amount_needed(&needs.shop, &amount.value, cut), Status::Ok, plan.join(" "))
            }
            (Bought::Count(_), Some(taken)) => {
                let words = [fabric.small_words(needs), small_plan_words(needs, fabric, size, taken)];
                let working = words.join(" ").trim_end().to_string();
                (taken.small.unwrap_or_default().to_string(), Status::Ok, working)
            }
            (required, None) if required.is_nothing() && fabric.has_no_list() => {
                (String::new(), Status::AsGiven, "None of it is bought for this size.".to_string())
            }
            (_, None) => {
                let why = size.unchecked.map_or_else(|| UNREAD.to_string(), |why| format!("Not checked: {why}."));
                (String::new(), Status::NotChecked, why)
            }
        };
        self.add(Some(heading), &number, required.at(), needed, status, working);
        let margin = match (required, basis) {
            (Bought::Amount(amount), Some(taken)) => {
                margin::of_purchase(&needs.shop, &amount.value, Yardage(taken.plan.length()))
            }
            (Bought::Count(count), Some(taken)) => margin::of_counts(count.value, taken.small.unwrap_or_default()),
            _ => Margin::default(),
        };
        self.margin(margin);
    }

    /// A piece of the cutting list: how many the design uses, and the strips that they are cut from.
    fn cut(
        &mut self,
        heading: &str,
        (needs, fabric): (&FabricsNeeds<'_>, &FabricNeeds<'_>),
        size: &FabricSize<'_>,
        (place, cut): (usize, &Cut),
        used: FromDesign<Count>,
    ) {
        let number = format!("{} {}", fabric.stated.name, fabric.name(place));
        let pieces = cut.pieces.get(size.index).and_then(Field::stated);
        let strips = fabric.cloth.and_then(|cloth| size.needed(place, cloth));
        if let Some(pieces) = pieces {
            let from_strips = strips.map_or_else(String::new, |(way, strips)| match way.joined {
                None => format!(" {} come out of each strip: {}.", way.per_strip, strips.of("strip")),
                Some(_) => format!(" {} joined end to end make them.", strips.of("strip")),
            });
            let (needed, status, working) = match &used {
                FromDesign::Needed(count, chain) => (count.to_string(), Status::Ok, format!("{chain}{from_strips}")),
                FromDesign::AtLeast(count, chain) => (String::new(), Status::NotChecked, at_least(*count, chain)),
                FromDesign::NotChecked(why) => (String::new(), Status::NotChecked, why.clone()),
                FromDesign::AsGiven => {
                    (String::new(), Status::AsGiven, "The pieces are cut from the fabric.".to_string())
                }
            };
            self.add(Some(heading), &format!("{number} pieces"), pieces.at, needed, status, working);
            if let FromDesign::Needed(count, _) = &used {
                self.margin(margin::of_counts(pieces.value, *count));
            }
        }
        let Some(stated) = cut.strips.get(size.index).and_then(Field::stated) else { return };
        let (needed, status, working): (Option<Count>, _, _) = match (pieces, strips, used) {
            (None, _, FromDesign::Needed(count, chain)) => {
                // Strips left whole are the pieces themselves.
                let whole = cut.size.of(size.index).is_absent().then_some(count);
                (whole, Status::Ok, chain)
            }
            (None, _, FromDesign::AtLeast(count, chain)) => (None, Status::NotChecked, at_least(count, &chain)),
            (None, _, FromDesign::NotChecked(why)) => (None, Status::NotChecked, why),
            (None, _, FromDesign::AsGiven) => {
                (None, Status::AsGiven, "The strips are taken as they are: no pieces are stated.".to_string())
            }
            (Some(pieces), Some((way, needed)), _) => {
                let working = match way.joined {
                    None => format!("Each strip gives {}.", way.per_strip.of("piece")),
                    Some(_) => joined_working(needs, &way, pieces.value, needed),
                };
                (Some(needed), Status::Ok, working)
            }
            (Some(_), None, _) => (None, Status::NotChecked, UNREAD.to_string()),
        };
        let margin = needed.map(|needed| margin::of_counts(stated.value, needed)).unwrap_or_default();
        let needed = needed.map(|needed| needed.to_string()).unwrap_or_default();
        self.add(Some(heading), &format!("{number} strips"), stated.at, needed, status, working);
        self.margin(margin);
    }
}

/// What is needed, the status and the working of an amount that a plain plan calls short and no proof does: a verdict
/// "short" would be a guess.
fn undecided(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
) -> Option<(String, Status, String)> {
    let not_checked = |why: &str| (String::new(), Status::NotChecked, format!("Not checked: {why}."));
    if size.small_is_undecided() {
        return Some(not_checked("no plan was found for so few, and no proof that there is none"));
    }
    let tight = size.tight.as_ref()?;
    if tight.verdict != Verdict::OnlyClever {
        return Some(not_checked("no plan was found for so little, and no proof that there is none"));
    }
    let needed = format!("{} by one plan", needs.up(tight.plan.plan.length()));
    let plan = plan_to_follow(needs, fabric, &tight.plan).join(" ");
    let left = left_over_words(needs, &tight.plan);
    let working = format!("It is enough only if the pieces are cut by one plan. {plan} {left}");
    Some((needed, Status::Ok, working.trim_end().to_string()))
}

/// What is said of a count of which at least so many are used. Fewer are short, which is a finding; as many may not be
/// enough.
fn at_least(count: Count, chain: &str) -> String {
    format!("Not checked: at least {count} are used, and not all that the layout uses is known. {chain}")
}
