//! One number of a design changed.

use super::design::{Design, Edge, Make, Sewn};
use crate::support::rng::Rng;

/// The design with one number changed, and what was changed; `None` where the one that was picked cannot be.
pub(super) fn one_number(rng: &mut Rng, design: &Design) -> Option<(Design, String)> {
    let mut changed = design.clone();
    let by = rng.pick(&[-8, -4, 1, 4, 8]);
    let what = match rng.below(13) {
        0 | 1 => unit_size(rng, &mut changed, by)?,
        2 | 3 => inside_of_unit(rng, &mut changed, by)?,
        4 => {
            let block = rng.below(i64::try_from(changed.blocks.len()).unwrap());
            let block = &mut changed.blocks[usize::try_from(block).unwrap()];
            let side = if rng.one_in(2) { &mut block.width } else { &mut block.height };
            *side += by;
            "the finished size of a block".to_string()
        }
        5 => {
            let top = &mut changed.top;
            let side = if rng.one_in(2) { &mut top.width } else { &mut top.height };
            *side += by;
            "the finished size".to_string()
        }
        6 => {
            let top = &mut changed.top;
            top.rows.is_none().then_some(())?;
            let side = if rng.one_in(2) { &mut top.across } else { &mut top.down };
            *side += 1;
            "blocks across or down".to_string()
        }
        7 => {
            let border = changed.top.borders.last_mut()?;
            let is_even = (border.top, border.bottom) == (border.sides, border.sides);
            let by = by.max(2 - border.sides.min(border.top).min(border.bottom));
            border.sides += by;
            if is_even {
                border.top += by;
                border.bottom += by;
            }
            "the width of a border".to_string()
        }
        8 => {
            let top = &mut changed.top;
            (top.sashing > 8).then(|| top.sashing += by.max(-7))?;
            "the sashing".to_string()
        }
        9 => in_rows(rng, &mut changed)?,
        10 => {
            let border = changed.top.borders.iter_mut().find(|border| border.top != border.bottom)?;
            let side = if rng.one_in(2) { &mut border.top } else { &mut border.bottom };
            *side = (*side + by).max(2);
            "the top or the bottom of a border".to_string()
        }
        11 => {
            let top = &mut changed.top;
            let other = if top.edge == Edge::Whole { Edge::Halves } else { Edge::Whole };
            (top.on_point && top.sashing > 0).then(|| top.edge = other)?;
            "whether squares stay whole at the edge".to_string()
        }
        _ => turn_or_drop(rng, &mut changed)?,
    };
    is_read(&changed).then_some((changed, what))
}

fn unit_size(rng: &mut Rng, design: &mut Design, by: i64) -> Option<String> {
    let number = usize::try_from(rng.below(i64::try_from(design.units.len()).ok()?)).ok()?;
    let unit = design.units.get_mut(number)?;
    match unit.make {
        // What must be square stays so, and geese twice as wide as high.
        Make::HalfSquare | Make::QuarterSquare { .. } | Make::Split | Make::SquareInSquare => {
            unit.width += by;
            unit.height += by;
        }
        Make::Geese => {
            unit.width += 2 * by;
            unit.height += by;
        }
        _ if rng.one_in(2) => unit.width += by,
        _ => unit.height += by,
    }
    Some(format!("the finished size of unit {number}"))
}

fn inside_of_unit(rng: &mut Rng, design: &mut Design, by: i64) -> Option<String> {
    let with_numbers = |make: &Make| matches!(make, Make::Snowball { .. } | Make::LogCabin { .. } | Make::Strips(_));
    let units: Vec<usize> = (0..design.units.len()).filter(|unit| with_numbers(&design.units[*unit].make)).collect();
    let number = (!units.is_empty()).then(|| rng.pick(&units))?;
    let any = |rng: &mut Rng, list: &[i64]| usize::try_from(rng.below(i64::try_from(list.len()).unwrap())).unwrap();
    match &mut design.units[number].make {
        Make::Snowball { corners, .. } => {
            let corner = any(rng, corners);
            corners[corner] += by;
        }
        Make::LogCabin { center, logs, .. } => {
            if rng.one_in(3) {
                center.0 += by;
            } else {
                let log = any(rng, logs);
                logs[log] += by;
            }
        }
        // A strip set that comes out wider is trimmed.
        Make::Strips(strips) => {
            let strip = any(rng, strips);
            strips[strip] -= by.abs();
        }
        _ => return None,
    }
    Some(format!("a number within unit {number}"))
}

/// A block more in a row of the top, one turned, or the rows sewn once more.
fn in_rows(rng: &mut Rng, design: &mut Design) -> Option<String> {
    let rows = design.top.rows.as_mut()?;
    let row = usize::try_from(rng.below(i64::try_from(rows.each.len()).ok()?)).ok()?;
    let beside = rows.each[row].first_mut()?;
    Some(
        match rng.below(3) {
            0 => {
                beside.count += 1;
                "a block more in a row"
            }
            1 => {
                beside.turned = !beside.turned;
                "blocks of a row turned"
            }
            _ => {
                rows.times += 1;
                "how many times over the rows are sewn"
            }
        }
        .to_string(),
    )
}

/// A unit turned, or one more in a row.
fn turn_or_drop(rng: &mut Rng, design: &mut Design) -> Option<String> {
    let block = design.blocks.last_mut()?;
    let row = usize::try_from(rng.below(i64::try_from(block.rows.len()).ok()?)).ok()?;
    let row = &mut block.rows[row];
    if rng.one_in(2) {
        let part = row.first_mut()?;
        part.turned = !part.turned;
        Some("a unit turned".to_string())
    } else {
        let part = *row.first()?;
        row.push(part);
        Some("a unit more in a row".to_string())
    }
}

/// Whether every number is one that the format takes.
fn is_read(design: &Design) -> bool {
    let unit = |unit: &super::design::Unit| {
        let own = match &unit.make {
            Make::Snowball { corners, .. } => {
                corners.iter().all(|corner| (1..=unit.width.min(unit.height)).contains(corner))
            }
            Make::LogCabin { center, logs, .. } => center.0 > 0 && logs.iter().all(|log| *log > 0),
            Make::Strips(strips) => strips.iter().all(|strip| *strip > 0),
            _ => true,
        };
        own && unit.width > 0 && unit.height > 0
    };
    let square = |block: usize| design.blocks[block].width == design.blocks[block].height;
    let on_point = !design.top.on_point || square(design.top.block);
    let inner = design.blocks.iter().flat_map(|block| block.rows.iter().flatten());
    let known = inner.clone().all(|part| !matches!(part.sewn, Sewn::Unit(unit) if unit >= design.units.len()));
    design.units.iter().all(unit) && on_point && known && design.top.width > 0 && design.top.height > 0
}
