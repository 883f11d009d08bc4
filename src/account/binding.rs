//! The numbers of the binding: how it is made, and what each size takes.

use super::{Lines, Standing, amount_needed, margin};
use crate::manuscript::model::{PerSize, Size};
use crate::quantity::{Amount, Round, Written, Yardage};
use crate::requirement::bias::BiasNeeds;
use crate::requirement::binding::{BindingNeeds, SizeNeeds};
use crate::rule_book::Settings;
use crate::rules::words::{buying, cover, cut_working, edge_working, fold_working, strips_working, width_for};

impl Lines<'_> {
    /// How the binding is made.
    pub(super) fn method(&mut self, needs: &BindingNeeds<'_>, settings: &Settings) {
        let stated = needs.stated;
        if let Some(width) = stated.strip_width.stated() {
            let working = fold_working(needs).unwrap_or_default();
            let narrowest = cover(settings, needs).and_then(|cover| width_for(settings, needs, cover));
            let needed = narrowest.map(|width| format!("{} or more", needs.up(width))).unwrap_or_default();
            self.add(None, "binding strip_width", width.at, needed, Standing::Held, working);
            if let Some(narrowest) = narrowest {
                self.margin(margin::of_lengths(width.value.length, narrowest, needs.measure));
            }
        }
        self.given("binding seam", &stated.seam, "The fold is measured against it.");
        self.given("binding loft", &stated.loft, "The fold goes round it.");
        self.given("binding usable_width", &stated.usable_width, "Binding strips are cut across this width.");
        self.given("binding strip_length", &stated.strip_length, "Each strip is cut this long.");
        self.given("binding extra_length", &stated.extra_length, "Taken at its word, instead of tails.");
        self.tails(needs);
    }

    fn tails(&mut self, needs: &BindingNeeds<'_>) {
        let stated = needs.stated;
        let together = needs.method.as_ref().zip(needs.opening).map(|(method, opening)| opening + method.join_loss);
        let needed = together.map(|together| format!("{} together", needs.up(together))).unwrap_or_default();
        if let Some(at) = stated.tails.at {
            let working = "The tails bridge the opening and overlap for the join.".to_string();
            self.add(None, "binding tails", at, needed, Standing::Held, working);
            if let Some(((start, end), together)) = needs.tails.zip(together) {
                self.margin(margin::of_lengths(start + end, together, needs.measure));
            }
        }
        if let Some(opening) = stated.opening.stated() {
            let working = "It fits on the longest side of each size, clear of the corners.".to_string();
            self.add(None, "binding opening", opening.at, String::new(), Standing::Held, working);
        }
    }

    /// The binding of one size.
    pub(super) fn binding_of(&mut self, index: usize, size: &Size, needs: Option<&BindingNeeds<'_>>) {
        let Some(needs) = needs else { return };
        match needs.sizes.iter().find(|needed| needed.size.name == size.name) {
            Some(needed) => self.binding(&size.name, needs, needed),
            None => match needs.bias.iter().find(|needed| needed.size.name == size.name) {
                Some(needed) => self.bias(&size.name, needs, needed),
                None => self.binding_unchecked(&size.name, needs, index),
            },
        }
    }

    fn binding(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &SizeNeeds<'_>) {
        if let Some((strips, enough)) = size.stated.strips.stated().zip(size.strips) {
            let print = enough + needs.spares;
            let working =
                [edge_working(needs, size.size, &size.lengths), strips_working(needs, size, enough)].join(" ");
            self.add(Some(heading), "binding strips", strips.at, print.to_string(), Standing::Held, working);
            self.margin(margin::of_counts(strips.value, print));
        }
        if let Some(length) = size.stated.strip_length.stated() {
            self.add(
                Some(heading),
                "binding strip_length",
                length.at,
                String::new(),
                Standing::Given,
                "Each strip is cut this long.".into(),
            );
        }
        if let Some((fabric, plan)) = size.stated.fabric.stated().zip(size.cut_to_print(needs)) {
            let needed = amount_needed(&needs.shop, &fabric.value, plan.fabric);
            let working = format!("{}; {}.", cut_working(needs, &plan), buying(needs, plan.fabric));
            self.add(Some(heading), "binding fabric", fabric.at, needed, Standing::Held, working);
            self.margin(margin::of_purchase(&needs.shop, &fabric.value, plan.fabric));
        }
    }

    fn bias(&mut self, heading: &str, needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) {
        let heading = Some(heading);
        let length = edge_working(needs, size.size, &size.lengths);
        if let Some(square) = size.stated.square.stated() {
            self.add(heading, "binding square", square.at, needs.up(size.square()), Standing::Held, length.clone());
            self.margin(margin::of_lengths(square.value.length, size.square(), needs.measure));
        }
        if let Some(strips) = size.stated.strips.stated() {
            let needed = size.strip_run().and_then(|run| size.strips_of(run));
            // Strips of no known length are compared with nothing.
            let standing = if needed.is_some() { Standing::Held } else { Standing::NotChecked };
            let margin = needed.map_or_else(String::new, |needed| margin::of_counts(strips.value, needed));
            let needed = needed.map_or_else(String::new, |needed| needed.to_string());
            let working = if size.no_run_stated() { "Nothing says how long each strip is.".into() } else { length };
            self.add(heading, "binding strips", strips.at, needed, standing, working);
            self.margin(margin);
        }
        if let Some(length) = size.stated.strip_length.stated() {
            let working = "Each strip is cut this long.".to_string();
            self.add(heading, "binding strip_length", length.at, String::new(), Standing::Given, working);
        }
        if let Some(fabric) = size.stated.fabric.stated() {
            let least = |written: &Written| {
                let step = needs.shop.sold_by(written.unit);
                match size.stated.square.stated() {
                    Some(square) => Some(Yardage(square.value.length).up_to(step)),
                    // The stated strips are as long as this fabric makes them: less of it would take more of them.
                    None if size.strip_length.is_absent() && size.gives_strips(fabric.value.least()) => None,
                    None => size.fabric(step),
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
            self.add(heading, "binding fabric", fabric.at, needed, Standing::Held, working.to_string());
            self.margin(margin);
        }
    }

    fn binding_unchecked(&mut self, heading: &str, needs: &BindingNeeds<'_>, index: usize) {
        let Some(stated) = needs.stated.requires.get(index).and_then(PerSize::stated) else { return };
        let why = "Something that it depends on could not be read.";
        let numbers = [
            ("binding square", stated.square.at()),
            ("binding strips", stated.strips.at()),
            ("binding fabric", stated.fabric.at()),
        ];
        for (number, at) in numbers {
            if let Some(at) = at {
                self.add(Some(heading), number, at, String::new(), Standing::NotChecked, why.to_string());
            }
        }
    }
}
