//! A number of small fabrics that no way of cutting falls below, by measuring the sides of pieces on other scales.
//!
//! A scale gives lengths that never sum to more than 1 where the lengths themselves do not sum to more than the side of
//! the fabric: so the areas by two such scales do not either (dual feasible functions; Fekete and Schepers, "New classes
//! of fast lower bounds for bin packing problems", 2001, from memory). Whole numbers decide.

use super::items::Item;
use crate::quantity::{Count, Length};

/// How many parts a side is divided into at most. More parts see smaller pieces.
const MAX_PARTS: i128 = 40;

/// A length on a scale: so many parts of so many.
type Scaled = (i128, i128);

/// No way of cutting gives these pieces from fewer fabrics of a size.
pub fn fewest_by_scales(items: &[Item], across: Length, along: Length) -> Count {
    let (across, along) = (across.ticks(), along.ticks());
    if across <= 0 || along <= 0 {
        return Count(0);
    }
    let mut fewest = 0;
    for one in 0..=MAX_PARTS {
        for other in 0..=MAX_PARTS {
            fewest = fewest.max(fabrics(items, (across, one), (along, other)));
        }
    }
    Count(u64::try_from(fewest).unwrap_or(0))
}

/// The areas of all pieces by two scales, rounded up to whole fabrics.
fn fabrics(items: &[Item], (across, one): (i128, i128), (along, other): (i128, i128)) -> i128 {
    // Both scales have one denominator for all pieces.
    let (parts_across, parts_along) = (denominator(across, one), denominator(along, other));
    let mut sum: i128 = 0;
    for item in items.iter().filter(|item| item.count.0 > 0) {
        let sides = (item.across.ticks(), item.along.ticks());
        let area = |(width, height): (i128, i128)| {
            let fits = width <= across && height <= along;
            fits.then(|| on_scale(width, across, one) * on_scale(height, along, other))
        };
        let turned = item.turns.then(|| area((sides.1, sides.0))).flatten();
        // Whichever way round it lies, it takes no less than this.
        let least = area(sides).into_iter().chain(turned).min().unwrap_or(0);
        sum = sum.saturating_add(least.saturating_mul(i128::from(item.count.0)));
    }
    let one_fabric = parts_across.saturating_mul(parts_along);
    (sum + one_fabric - 1) / one_fabric
}

/// In how many parts lengths are counted on a scale; 0 is the scale of the lengths themselves.
const fn denominator(side: i128, scale: i128) -> i128 {
    if scale == 0 { side } else { scale * side }
}

/// A length in parts: with k, as many (k + 1)ths of the side as it holds, each counted as a kth; a length that is a whole
/// number of them counts as itself.
fn on_scale(length: i128, side: i128, scale: i128) -> i128 {
    if scale == 0 {
        return length;
    }
    let (whole, rest): Scaled = ((scale + 1) * length / side, (scale + 1) * length % side);
    if rest == 0 { length * scale } else { whole * side }
}

#[cfg(test)]
mod tests {
    use super::fewest_by_scales;
    use crate::quantity::{Count, Length};
    use crate::quilt_math::planner::Item;

    fn item(eighths: i64, count: u64) -> Item {
        let (across, along) = (Length::inches(1) * eighths, Length::inches(8));
        Item { across, along, count: Count(count), turns: false }
    }

    /// Six pieces of 13 lie in 80, and 2 are left: thirty pieces and one of 8 take a sixth strip.
    #[test]
    fn ends_of_strips_that_hold_nothing_are_counted() {
        let items = [item(13, 30), item(8, 1)];
        assert_eq!(fewest_by_scales(&items, Length::inches(80), Length::inches(8)), Count(6));
        assert_eq!(fewest_by_scales(&items[..1], Length::inches(80), Length::inches(8)), Count(5));
    }
}
