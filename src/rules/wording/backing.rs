//! The working of a backing in words, and the corrections that several rules share.

use super::pair::purchase;
use super::plan::before_washing;
use crate::finding::{Correction, Finding};
use crate::manuscript::model::PanelsRun;
use crate::quantity::{Amount, Count, Length, Measure, Round, Scale, Yardage};
use crate::quilt_math::backing::Panels;
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::batting::{larger_words, sheet_sum, show};
use crate::requirement::fabric::Shop;

/// How large the backing must be: `Backing: 54 x 72 in and 4 in more at each side = 62 x 80 in.`
pub(crate) fn sheet_working(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> String {
    if size.sheet == size.needed {
        return needed_working(needs, size);
    }
    format!("Backing: {}, as stated.", show(size.sheet, needs.measure, Round::Up))
}

/// How large the backing must be by its overhang, whatever is stated.
pub(crate) fn needed_working(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> String {
    format!("Backing: {}.", sheet_sum(size.top, size.overhang, size.needed, needs.measure))
}

/// Where how large the backing must be comes from.
pub(in crate::rules) fn see_size(finding: Finding, needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Finding {
    let larger = format!("the backing must be {}", larger_words(size.overhang, needs.measure));
    if size.sheet == size.needed {
        finding.see(size.size.finished.at(), larger)
    } else {
        finding.see(size.stated.size.at(), "how large it is made")
    }
}

/// What is short on which side, the sheet turned as the quilt lies.
pub(in crate::rules) fn short_words(sheet: Rectangle, needed: Rectangle, measure: Measure) -> String {
    let sheet = sheet.lying_as(needed);
    let (width, length) = (needed.width - sheet.width, needed.length - sheet.length);
    let short = |by: Length, side| format!("{} short in the {side}", by.show(measure, Round::Up));
    match (width.is_positive(), length.is_positive()) {
        (true, true) => format!("{} and {}", short(width, "width"), short(length, "length")),
        (true, false) => short(width, "width"),
        _ => short(length, "length"),
    }
}

/// Which panels: `2 panels along the length`, `1 panel across the width`.
pub(in crate::rules) fn panels_words(count: Count, run: PanelsRun) -> String {
    format!("{} {}", count.of("panel"), run_words(run))
}

/// The way that panels run.
pub(in crate::rules) fn run_words(run: PanelsRun) -> &'static str {
    match run {
        PanelsRun::Along => "along the length",
        PanelsRun::Across => "across the width",
    }
}

/// What panels take of the bolt: `2 panels along the length, each 80 in long = 160 in`.
pub(crate) fn fabric_working(needs: &BackingNeeds<'_>, panels: &Panels) -> String {
    let taken = panels.each * panels.count;
    let scale = Scale::of(needs.measure, &[panels.each, taken]);
    let (each, total) = (scale.up(panels.each), scale.up(taken));
    let words = panels_words(panels.count, panels.run);
    let washed = before_washing(needs.measure, panels.shrinks, panels.fabric.0);
    match panels.count.0 {
        1 => format!("{words}, {total} long{washed}"),
        _ => format!("{words}, each {each} long = {total}{washed}"),
    }
}

/// How wide panels are: `2 x 40 in - 1 seam x 1 in = 79 in side by side, for 62 in`.
pub(crate) fn seams_working(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, panels: &Panels) -> String {
    let (one, seam, sewn) = (size.cloth.usable_width, size.cloth.seam * 2, size.sewn(panels.count));
    let scale = Scale::of(needs.measure, &[one, seam, sewn, panels.across, size.cloth.insert]);
    let (one, sewn, across) = (scale.down(one), scale.down(sewn), scale.up(panels.across));
    if size.cloth.insert.is_positive() {
        return format!(
            "Panels: {} x {one} + {} sewn in - {} x {} = {sewn} side by side, for {across}.",
            panels.count,
            scale.down(size.cloth.insert),
            panels.count.of("seam"),
            scale.up(seam)
        );
    }
    match panels.count.less(Count(1)) {
        Count(0) => format!("Panels: 1 of {one}, for {across}."),
        seams => format!(
            "Panels: {} x {one} - {} x {} = {sewn} side by side, for {across}.",
            panels.count,
            seams.of("seam"),
            scale.up(seam)
        ),
    }
}

/// What to buy for the panels to print, in the units of what is stated.
pub(in crate::rules) fn buy(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> String {
    let (stated, panels) = (size.stated.fabric.stated(), &size.print);
    match stated {
        Some(stated) => purchase(&needs.shop, &stated.value, panels.fabric),
        None => needs.shop.to_buy(panels.fabric, needs.measure.bare_unit()).show_both(needs.measure, Round::Up),
    }
}

/// What to buy, and why it is more than the backing alone takes where it is: `Buy 4 1/2 yd (162 in).`
pub(in crate::rules) fn advice(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> String {
    let buying = buy(needs, size);
    match size.larger_batting() {
        None => format!("Buy {buying}."),
        Some(batting) => {
            let batting = show(batting, needs.measure, Round::Up);
            format!(
                "Buy {buying}: {}, for the batting of {batting} lies on it too.",
                fabric_working(needs, &size.print)
            )
        }
    }
}

/// A width and a length in the manuscript's measure.
pub(in crate::rules) fn sheet_words(needs: &BackingNeeds<'_>, sheet: Rectangle, round: Round) -> String {
    show(sheet, needs.measure, round)
}

/// The fabric to print, where fabric is stated.
pub(in crate::rules) fn fabric_correction(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>) -> Option<Correction> {
    let fabric = size.stated.fabric.stated()?;
    let replacement = rewritten(&needs.shop, &fabric.value, size.print.fabric)?;
    Some(Correction::new(fabric.at, replacement))
}

/// The amount written again, where it is no more than a manuscript may state.
fn rewritten(shop: &Shop, amount: &Amount, cut: Yardage) -> Option<String> {
    let sold = amount.halves().all(|half| shop.to_buy(cut, half.unit).0 <= Length::LONGEST);
    sold.then(|| shop.rewrite(amount, cut))
}
