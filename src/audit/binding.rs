//! The numbers of the binding: how it is made, and what each size takes.

use super::{Lines, Status, UNREAD, amount_needed, margin};
use crate::manuscript::model::{Closing, Fold, PerSize, Size};
use crate::quantity::{Amount, Length, Round, Written, Yardage};
use crate::quilt_math::binding::flange_shows;
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::requirement::edge::edge;
use crate::rule_book::Settings;
use crate::rules::words::{buying, cover, cut_working, edge_working, fold_working, strips_working, width_for};

/// The status and the working of a number that is compared with something, or of one that cannot be.
fn compared(is_compared: bool, working: String) -> (Status, String) {
    if is_compared { (Status::Ok, working) } else { (Status::NotChecked, UNREAD.to_string()) }
}

impl Lines<'_> {
    /// How the binding is made.
    pub(super) fn method(&mut self, needs: &BindingNeeds<'_>, sizes: &[Size], settings: &Settings) {
        let stated = needs.stated;
        let is_facing = needs.fold == Some(Fold::Facing);
        if is_facing {
            let working = "A facing lies flat on the back: how wide it is, is a choice.";
            for strip in &needs.widths {
                let size = strip.size.map(|size| size.name.as_str());
                let (at, as_given) = (strip.stated.at, Status::AsGiven);
                self.add(size, "binding strip_width", at, String::new(), as_given, working.to_string());
            }
        }
        for strip in needs.widths.iter().filter(|_| !is_facing) {
            let width = strip.stated;
            let working = fold_working(needs, strip).unwrap_or_default();
            let cover = cover(settings, needs);
            // A width that covers is enough, though it is not on the ruler.
            let covers = strip.reach.zip(cover).is_some_and(|(reach, cover)| reach >= cover);
            let narrowest = cover.filter(|_| strip.reach.is_some());
            let narrowest = narrowest.and_then(|cover| width_for(settings, needs, strip, cover));
            let narrowest =
                narrowest.map(|width_for| if covers { width_for.min(width.value.length) } else { width_for });
            // Beside a wide flange any width will do.
            let told = narrowest.filter(|width| width.is_positive());
            let needed = told.map(|width| format!("{} or more", needs.up(width))).unwrap_or_default();
            let (status, working) = compared(narrowest.is_some(), working);
            let size = strip.size.map(|size| size.name.as_str());
            self.add(size, "binding strip_width", width.at, needed, status, working);
            if let Some(narrowest) = narrowest {
                self.margin(margin::of_lengths(width.value.length, narrowest, needs.measure));
            }
        }
        if let Some((stated, flange)) = stated.flange.stated().zip(needs.flange) {
            let shows = needs.widths.iter().map(|strip| flange_shows(strip.stated.value.length, flange.width)).min();
            let working = shows.map(|shows| format!("{} of it shows.", needs.down(shows.max(Length::ZERO))));
            let (status, working) = compared(shows.is_some(), working.unwrap_or_default());
            self.add(None, "binding flange", stated.at, String::new(), status, working);
        }
        let (seam, loft) = if is_facing {
            ("It sews the facing on; its length does not depend on it.", "A facing does not fold around it.")
        } else {
            ("The fold is measured against it.", "The fold goes around it.")
        };
        self.given("binding seam", &stated.seam, seam);
        self.given("binding loft", &stated.loft, loft);
        self.given("binding usable_width", &stated.usable_width, "Binding strips are cut across this width.");
        self.given("binding strip_length", &stated.strip_length, "Each strip is cut this long.");
        self.given("binding extra_length", &stated.extra_length, "Taken at its word, instead of tails.");
        self.tails(needs, sizes);
    }

    fn tails(&mut self, needs: &BindingNeeds<'_>, sizes: &[Size]) {
        let stated = needs.stated;
        let together = needs.method.as_ref().zip(needs.opening).map(|(method, opening)| opening + method.closing);
        let needed = together.map(|together| format!("{} together", needs.up(together))).unwrap_or_default();
        if let Some(at) = stated.tails.at {
            let working = match needs.closing {
                Some(Closing::Tucked) => "The tails bridge the opening and overlap where one is tucked into the other.",
                _ => "The tails bridge the opening and overlap for the join.",
            }
            .to_string();
            let (status, working) = compared(needs.tails.zip(together).is_some(), working);
            self.add(None, "binding tails", at, needed, status, working);
            if let Some(((start, end), together)) = needs.tails.zip(together) {
                self.margin(margin::of_lengths(start + end, together, needs.measure));
            }
        }
        if let Some(opening) = stated.opening.stated() {
            let working = "It fits on the longest side of each size, clear of the corners.".to_string();
            let (status, working) = compared(sizes.iter().any(|size| edge(size).is_some()), working);
            self.add(None, "binding opening", opening.at, String::new(), status, working);
        }
    }

    /// The binding of one size.
    pub(super) fn binding_of(
        &mut self,
        index: usize,
        size: &Size,
        needs: Option<&BindingNeeds<'_>>,
        settings: &Settings,
    ) {
        let Some(needs) = needs else { return };
        self.flange_of(index, size, needs, settings);
        match needs.sizes.iter().find(|needed| needed.size.name == size.name) {
            Some(needed) => self.binding(&size.name, needs, needed),
            None => match needs.bias.iter().find(|needed| needed.size.name == size.name) {
                Some(needed) => self.bias(&size.name, needs, needed),
                None => self.binding_unchecked(&size.name, needs, index),
            },
        }
    }

    /// The flange's fabric for one size.
    fn flange_of(&mut self, index: usize, size: &Size, needs: &BindingNeeds<'_>, settings: &Settings) {
        let stated = needs.stated.requires.get(index).and_then(PerSize::stated);
        let Some(flange) = stated.and_then(|stated| stated.flange.stated()) else { return };
        let known = needs.sizes.iter().find(|known| known.index == index);
        let name = Some(size.name.as_str());
        let Some(plan) = known.and_then(|known| known.flange_plan(needs, settings)) else {
            let why = if needs.bias.is_empty() { UNREAD } else { "How bias strips of a flange lie is not worked out." };
            self.add(name, "flange fabric", flange.at, String::new(), Status::NotChecked, why.to_string());
            return;
        };
        let is_enough = flange.value.least() >= plan.fabric;
        let needed =
            if is_enough { needs.up(plan.fabric.0) } else { amount_needed(&needs.shop, &flange.value, plan.fabric) };
        let working =
            format!("{} {} wide take {}.", plan.strips.of("strip"), needs.up(plan.row), needs.up(plan.fabric.0));
        self.add(name, "flange fabric", flange.at, needed, Status::Ok, working);
        if !is_enough {
            self.margin(margin::of_purchase(&needs.shop, &flange.value, plan.fabric));
        }
    }

    fn binding(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) {
        if let Some((strips, enough)) = size.stated.strips.stated().zip(size.strips) {
            let print = enough + needs.spares;
            let working =
                [edge_working(needs, size.size, &size.lengths), strips_working(needs, size, enough)].join(" ");
            self.add(Some(heading), "binding strips", strips.at, print.to_string(), Status::Ok, working);
            self.margin(margin::of_counts(strips.value, print));
        }
        if let Some(length) = size.stated.strip_length.stated() {
            self.add(
                Some(heading),
                "binding strip_length",
                length.at,
                String::new(),
                Status::AsGiven,
                "Each strip is cut this long.".into(),
            );
        }
        if let Some((fabric, print)) = size.stated.fabric.stated().zip(size.print) {
            let enough = margin::is_enough(&needs.shop, &fabric.value, print.fabric);
            // Where fabric alone is stated, what should be printed counts, with the spare.
            let told = size.cut.filter(|_| !enough && !size.stated.strips.is_absent());
            let plan = told.unwrap_or(print);
            let needed = amount_needed(&needs.shop, &fabric.value, plan.fabric);
            let working = format!("{}; {}.", cut_working(needs, size, &plan), buying(needs, plan.fabric));
            self.add(Some(heading), "binding fabric", fabric.at, needed, Status::Ok, working);
            self.margin(margin::of_purchase(&needs.shop, &fabric.value, plan.fabric));
        }
    }

    fn bias(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) {
        let heading = Some(heading);
        let length = edge_working(needs, size.size, &size.lengths);
        if let Some(square) = size.stated.square.stated() {
            let (across, along) = (square.value.0.length, square.value.1.length);
            if across == along {
                self.add(heading, "binding square", square.at, needs.up(size.square()), Status::Ok, length.clone());
                self.margin(margin::of_lengths(across, size.square(), needs.measure));
            } else {
                let needed = format!("{} of strip", needs.up(size.lengths.asked));
                self.add(heading, "binding square", square.at, needed, Status::Ok, length.clone());
                self.margin(margin::of_lengths(size.given_by((across, along)), size.lengths.asked, needs.measure));
            }
        }
        if let Some(stated) = size.stated.length.stated() {
            let needed = needs.up(size.lengths.asked);
            self.add(heading, "binding length", stated.at, needed, Status::Ok, length.clone());
            self.margin(margin::of_lengths(stated.value.length, size.lengths.asked, needs.measure));
        }
        if let Some(strips) = size.stated.strips.stated() {
            let needed = size.strip_run().and_then(|run| size.strips_of(run));
            // Strips of no known length are compared with nothing.
            let status = if needed.is_some() { Status::Ok } else { Status::NotChecked };
            let margin = needed.map(|needed| margin::of_counts(strips.value, needed)).unwrap_or_default();
            let needed = needed.map_or_else(String::new, |needed| needed.to_string());
            let working = if size.no_run_stated() { "Nothing says how long each strip is.".into() } else { length };
            self.add(heading, "binding strips", strips.at, needed, status, working);
            self.margin(margin);
        }
        if let Some(length) = size.stated.strip_length.stated() {
            let working = "Each strip is cut this long.".to_string();
            self.add(heading, "binding strip_length", length.at, String::new(), Status::AsGiven, working);
        }
        if let Some(fabric) = size.stated.fabric.stated() {
            let least = |written: &Written| {
                let (step, squaring) = (needs.shop.sold_by(written.unit), needs.shop.squaring);
                let (stated, least) = (Yardage(written.length), fabric.value.least());
                // A writer need not print a step in which a shop sells.
                let up_to = |buy: Yardage, is_enough: bool| if is_enough { buy.min(stated) } else { buy };
                match size.sides().map(|sides| size.along(sides)) {
                    // It comes out of no length of this fabric, which is said of the square.
                    Some(None) => None,
                    Some(Some(along)) => {
                        let is_enough = written.length >= along + squaring;
                        Some(up_to(needs.shop.to_buy(Yardage(along), written.unit), is_enough))
                    }
                    // The stated strips are as long as this fabric makes them: less of it would take more of them.
                    None if size.strip_length.is_absent() && size.gives_strips(least) => None,
                    // It gives the strips that are stated; that they are too few is said of the strips.
                    None if size.gives_strips(least) && !size.is_enough(least) => None,
                    None => {
                        let is_enough = size.is_enough_squared(stated, squaring);
                        size.fabric(step, squaring).map(|buy| up_to(buy, is_enough))
                    }
                }
            };
            let first = &fabric.value.first;
            let buy = least(first);
            let needed = buy.map(|buy| buy.show(needs.measure, Round::Up)).unwrap_or_default();
            let alone = Amount { first: *first, second: None };
            let margin = buy.map(|buy| margin::of_amounts(&alone, |_| buy)).unwrap_or_default();
            let working = match size.stated.square.stated() {
                Some(_) => "The square is cut from it.",
                None => "The bias strips are cut from it, from edge to edge of its shorter way.",
            };
            self.add(heading, "binding fabric", fabric.at, needed, Status::Ok, working.to_string());
            self.margin(margin);
        }
    }

    fn binding_unchecked(&mut self, heading: &str, needs: &BindingNeeds<'_>, index: usize) {
        let Some(stated) = needs.stated.requires.get(index).and_then(PerSize::stated) else { return };
        let numbers = [
            ("binding square", stated.square.at()),
            ("binding length", stated.length.at()),
            ("binding strips", stated.strips.at()),
            ("binding fabric", stated.fabric.at()),
        ];
        let is_open = needs.stated.strip_width.is_absent();
        let why = if is_open { "Not checked: no strip width of the binding is stated." } else { UNREAD };
        for (number, at) in numbers {
            if let Some(at) = at {
                self.add(Some(heading), number, at, String::new(), Status::NotChecked, why.to_string());
            }
        }
    }
}
