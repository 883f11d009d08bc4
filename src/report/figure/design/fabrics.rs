//! The numbers and the tints of fabrics, and the legend that names them.

use super::{AIR, NARROW};
use crate::drawing::Drawings;
use crate::report::figure::label_placement::foot;
use crate::report::figure::scene::{Anchor, At, LINE, Scene, Shape, UNIT};
use crate::report::figure::words::{clean, wide, wrapped};

/// How many tints there are; further fabrics have the same ones again, and numbers of their own.
const TINTS: usize = 7;

/// What stands for a fabric that is not stated.
const UNKNOWN: &str = "?";

/// The fabrics of a design in the order of their numbers.
pub(super) struct FabricNumbers(Vec<String>);

impl FabricNumbers {
    /// Those of the units, then those of the tops.
    pub(super) fn of(drawings: &Drawings) -> FabricNumbers {
        let units = drawings.design.iter().flat_map(|design| &design.fabrics);
        let tops = drawings.sizes.iter().filter_map(|size| size.top.as_ref());
        let parts = tops.flat_map(|top| &top.parts).filter_map(|part| part.fabric.as_ref());
        let mut names: Vec<String> = Vec::new();
        for name in units.chain(parts) {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
        FabricNumbers(names)
    }

    fn place(&self, fabric: Option<&str>) -> Option<usize> {
        self.0.iter().position(|known| Some(known.as_str()) == fabric)
    }

    /// What is written on a piece of it.
    pub(super) fn label(&self, fabric: Option<&str>) -> String {
        self.place(fabric).map_or_else(|| UNKNOWN.to_string(), |place| (place + 1).to_string())
    }

    /// Fills a shape with its tint.
    pub(super) fn tint(&self, shape: &mut Shape, id: &str, fabric: Option<&str>) {
        let Some(place) = self.place(fabric) else { return };
        let pattern = match place % TINTS {
            0 => return,
            1 => "gray",
            2 => "specks",
            3 => "slant",
            4 => "dark",
            5 => "level",
            _ => "mesh",
        };
        shape.patterned("fill", id, pattern);
    }

    /// The legend of the fabrics that a figure uses, beneath the drawing. Where it ends.
    pub(super) fn legend(&self, scene: &mut Scene, used: &[Option<String>], from: i64) -> i64 {
        let (swatch_wide, swatch_high) = (52 * UNIT, 40 * UNIT);
        let (mut x, mut y) = (AIR, from);
        let mut used: Vec<Option<&str>> = used.iter().map(Option::as_deref).collect();
        used.sort_by_key(|fabric| self.place(*fabric).unwrap_or(usize::MAX));
        used.dedup();
        for fabric in used {
            let text = fabric.map_or_else(|| "fabric not stated".to_string(), clean);
            let room = NARROW - 2 * AIR - swatch_wide - 14 * UNIT;
            let lines = wrapped(&text, room);
            let long = lines.iter().map(|line| wide(line)).max().unwrap_or_default() + swatch_wide + 14 * UNIT;
            if x > AIR && x + long > NARROW - AIR {
                (x, y) = (AIR, y + swatch_high + 12 * UNIT);
            }
            let id = scene.id.clone();
            let shape = scene.rectangle("fig-piece", At { x, y }, swatch_wide, swatch_high);
            self.tint(shape, &id, fabric);
            let middle = At { x: x + swatch_wide / 2, y: y + swatch_high / 2 };
            scene.text("fig-text fig-bold fig-halo", foot(middle), Anchor::Middle, &self.label(fabric));
            for (number, line) in (0..).zip(&lines) {
                let at = At { x: x + swatch_wide + 14 * UNIT, y: middle.y + LINE * number };
                scene.text("fig-text", foot(at), Anchor::Start, line);
            }
            x += long + 40 * UNIT;
            if lines.len() > 1 {
                let more = LINE * i64::try_from(lines.len() - 1).unwrap_or_default();
                (x, y) = (AIR, y + more + swatch_high + 12 * UNIT);
            }
        }
        if x > AIR { y + swatch_high + 16 * UNIT } else { y }
    }
}

/// Remarks beneath the legend, each in as many lines as it takes. Where they end.
pub(super) fn remarks(scene: &mut Scene, remarks: &[String], from: i64) -> i64 {
    let mut y = from;
    for line in remarks.iter().flat_map(|remark| wrapped(&clean(remark), NARROW - 2 * AIR)) {
        scene.text("fig-text", foot(At { x: AIR, y: y + LINE / 2 }), Anchor::Start, &line);
        y += LINE;
    }
    if y > from { y + 8 * UNIT } else { y }
}
