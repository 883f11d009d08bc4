//! Cutting a plan again, piece by piece: every piece is there once, none lies on another, and all come apart by cuts
//! from edge to edge.

use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::{CutStrips, Cutting, Item};

/// From and to across the fabric, from and to along it.
#[derive(Clone, Copy, Debug)]
struct Place {
    from: [i128; 2],
    to: [i128; 2],
}

/// Panics where a plan cannot be cut as it says.
pub(crate) fn cut_again(items: &[Item], width: Length, plan: &Cutting) {
    let mut counts = vec![0; items.len()];
    for strips in &plan.strips {
        for (item, place) in places(strips) {
            counts[item] += strips.count.0;
            let size = [0, 1].map(|side| Length::from_ticks(place.to[side] - place.from[side]));
            let given = [items[item].across, items[item].along];
            assert!(size == given || items[item].turns && size == [given[1], given[0]], "{item} is cut as {size:?}");
        }
        let all: Vec<Place> = places(strips).into_iter().map(|(_, place)| place).collect();
        let inside = |place: &Place| {
            place.from.iter().all(|from| *from >= 0)
                && place.to[0] <= width.ticks()
                && place.to[1] <= strips.width.ticks()
        };
        assert!(all.iter().all(inside), "a piece is cut beyond the strip: {strips:?}");
        assert!(comes_apart(&all), "no cuts from edge to edge make {strips:?}");
    }
    for (item, count) in items.iter().zip(counts) {
        assert_eq!(item.count, Count(count), "{item:?} in {plan:?}");
    }
}

fn places(strips: &CutStrips) -> Vec<(usize, Place)> {
    let mut places = Vec::new();
    for grid in &strips.grids {
        for nth in 0..grid.count.0 {
            let (column, row) = (nth / grid.stacked.0, nth % grid.stacked.0);
            let from = [grid.from + grid.across * Count(column), grid.above + grid.along * Count(row)];
            let to = [from[0] + grid.across, from[1] + grid.along];
            places.push((grid.item, Place { from: from.map(Length::ticks), to: to.map(Length::ticks) }));
        }
    }
    places
}

/// Whether a cut from edge to edge parts the pieces, and the parts come apart in turn.
fn comes_apart(places: &[Place]) -> bool {
    if places.len() <= 1 {
        return true;
    }
    for side in [0, 1] {
        let mut sorted = places.to_vec();
        sorted.sort_by_key(|place| place.from[side]);
        let mut reach = sorted[0].to[side];
        for number in 1..sorted.len() {
            if sorted[number].from[side] >= reach {
                let (before, after) = sorted.split_at(number);
                return comes_apart(before) && comes_apart(after);
            }
            reach = reach.max(sorted[number].to[side]);
        }
    }
    false
}
