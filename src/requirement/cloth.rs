//! What strips are cut from: fabric from the bolt, fat quarters and eighths, precut strips and squares.

use super::assumed::USABLE_WIDTH;
use crate::manuscript::model::{Fabric, Manuscript, SoldAs};
use crate::quantity::Measure;
use crate::quilt_math::cutting::Cloth;
use crate::rule_book::{LengthValue, Settings};

const FAT_QUARTER_ACROSS: LengthValue = LengthValue::named("fat_quarter_across");
const FAT_QUARTER_ALONG: LengthValue = LengthValue::named("fat_quarter_along");
const FAT_EIGHTH_ALONG: LengthValue = LengthValue::named("fat_eighth_along");
const FAT_QUARTER_ACROSS_METRIC: LengthValue = LengthValue::named("fat_quarter_across_metric");
const FAT_QUARTER_ALONG_METRIC: LengthValue = LengthValue::named("fat_quarter_along_metric");
const FAT_EIGHTH_ALONG_METRIC: LengthValue = LengthValue::named("fat_eighth_along_metric");

/// What a fabric's strips are cut from.
pub fn cloth(fabric: &Fabric, manuscript: &Manuscript, settings: &Settings) -> Option<Cloth> {
    let bolt = |fabric: &Fabric| {
        let assumed = manuscript.assumes.usable_width.or_length(|| settings.length(USABLE_WIDTH));
        if fabric.usable_width.is_absent() { assumed } else { fabric.usable_width.length() }
    };
    let metric = manuscript.measure == Measure::Cm;
    let fat = |along: LengthValue, metric_along: LengthValue| {
        let across = if metric { FAT_QUARTER_ACROSS_METRIC } else { FAT_QUARTER_ACROSS };
        let across = fabric.usable_width.or_length(|| settings.length(across))?;
        Some(Cloth::Small { across, along: settings.length(if metric { metric_along } else { along }), turns: true })
    };
    match fabric.sold_as.or(SoldAs::Yardage)? {
        SoldAs::Yardage => Some(Cloth::Bolt { width: bolt(fabric)? }),
        SoldAs::FatQuarters => fat(FAT_QUARTER_ALONG, FAT_QUARTER_ALONG_METRIC),
        SoldAs::FatEighths => fat(FAT_EIGHTH_ALONG, FAT_EIGHTH_ALONG_METRIC),
        SoldAs::Strips => Some(Cloth::Small { across: bolt(fabric)?, along: fabric.precut.length()?, turns: false }),
        SoldAs::Squares => {
            let side = fabric.precut.length()?;
            Some(Cloth::Small { across: side, along: side, turns: true })
        }
    }
}
