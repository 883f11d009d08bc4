//! Why no way of cutting takes less fabric, in words that name the pieces.

use super::super::sentence;
use crate::quantity::{Length, Measure};
use crate::quilt_math::planner::{Reason, Share};
use crate::quilt_math::proof::Least;
use crate::requirement::fabrics::{FabricNeeds, FabricsNeeds};

/// How many pieces are named one by one.
const MAX_NAMED: usize = 4;

/// `No way of cutting takes less than 62 in: the pieces alone cover 62 in of the usable WOF (40 in).`
pub(in crate::rules) fn bound_words(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    width: Length,
    least: &Least,
) -> String {
    let beyond = least.length - least.stated;
    let because = because(needs, fabric, (width, beyond), &least.reason);
    let why = match (&least.reason, least.stated.is_positive()) {
        (Reason::Nothing, _) => "the strips that are stated take as much".to_string(),
        (_, true) => {
            format!("the strips that are stated take {}, and for the rest {because}", needs.down(least.stated))
        }
        (_, false) => because,
    };
    sentence(&format!("no way of cutting takes less than {}: {why}.", needs.down(least.length)))
}

fn because(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    (width, least): (Length, Length),
    reason: &Reason,
) -> String {
    let across = needs.down(width);
    match reason {
        Reason::Nothing => "nothing is cut from it".to_string(),
        Reason::Area { covers, across: used } => {
            let covers = down(needs, *covers);
            let next = next(needs, covers, least);
            let covers = needs.down(covers);
            if *used == width {
                format!("the pieces alone cover {covers} of the usable WOF ({across}){next}")
            } else {
                let used = needs.down(*used);
                format!(
                    "side by side, the pieces fill at most {used} of the {across} across, so they take at least {covers} of length{next}"
                )
            }
        }
        Reason::Strips(item, strips) => {
            format!("{} alone takes {}, cut edge to edge", fabric.name(*item), strips.of("strip"))
        }
        Reason::Repeats(item, repeats) => {
            format!(
                "{} alone takes {}, and only one piece's length of the last",
                fabric.name(*item),
                repeats.of("repeat")
            )
        }
        Reason::LongestPiece(item) => format!("1 {} alone is {} long", fabric.name(*item), needs.down(least)),
        Reason::SideBySide(shares) => {
            let (taken, together) = taken(needs, fabric, shares);
            format!("however they lie side by side across {across}, {taken}{}", next(needs, together, least))
        }
        Reason::OneBehindAnother(long, shares) if !shares.is_empty() => {
            let (taken, together) = taken(needs, fabric, shares);
            // The shares are told rounded down, so that what they make together may be no more than the width.
            let more = if together > width { "" } else { " and a little more" };
            let long = needs.down(*long);
            format!(
                "however they lie one behind another in a length of {long}, {taken} of the width{more}, and {across} \
                 are usable"
            )
        }
        Reason::OneBehindAnother(long, _) => format!("a piece does not fit {} of it", needs.down(*long)),
    }
}

/// Rounded down to a step that a reader can add up.
fn down(needs: &FabricsNeeds<'_>, length: Length) -> Length {
    length.down_to(if needs.measure == Measure::Cm { Length::millimetres(1) } else { Length::inch_fraction(1, 8) })
}

/// The next length that sides of pieces make, where that is more than what was told.
fn next(needs: &FabricsNeeds<'_>, told: Length, least: Length) -> String {
    if needs.down(told) == needs.down(least) {
        return String::new();
    }
    format!("; in whole strips that is {}", needs.down(least))
}

/// `42 in is taken by A and 25 1/2 in by B, together 67 1/2 in`, with what they take together as it is told.
fn taken(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, shares: &[Share]) -> (String, Length) {
    let shown = |takes: Length| down(needs, takes);
    let mut shares: Vec<(Length, &str)> =
        shares.iter().map(|share| (shown(share.takes), fabric.name(share.item))).collect();
    shares.sort_by_key(|(takes, _)| std::cmp::Reverse(*takes));
    let together: Length = shares.iter().map(|(takes, _)| *takes).sum();
    let rest = shares.split_off(shares.len().min(MAX_NAMED));
    let words = |(takes, name): &(Length, &str)| format!("{name} takes at least {}", needs.down(*takes));
    let mut words: Vec<String> = shares.iter().map(words).collect();
    if !rest.is_empty() {
        let takes: Length = rest.iter().map(|(takes, _)| *takes).sum();
        words.push(format!("the others take at least {}", needs.down(takes)));
    }
    let told = match words.as_slice() {
        [one] => one.clone(),
        [most @ .., last] => {
            format!("{} and {last}, together {}", most.join(", "), needs.down(together))
        }
        [] => String::new(),
    };
    (told, together)
}
