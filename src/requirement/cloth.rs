//! What strips are cut from: fabric from the bolt, fat quarters and eighths, precut strips and squares.

use super::assumed::USABLE_WIDTH;
use crate::manuscript::Field;
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
    cloth_sold_as(fabric.sold_as.or(SoldAs::Yardage)?, fabric, manuscript, settings)
}

/// The same where it is bought otherwise than the pattern says of it first: its usable width is not that of the other.
pub fn cloth_sold_as(sold_as: SoldAs, fabric: &Fabric, manuscript: &Manuscript, settings: &Settings) -> Option<Cloth> {
    let own_width =
        if fabric.sold_as.or(SoldAs::Yardage) == Some(sold_as) { &fabric.usable_width } else { &Field::Absent };
    let bolt = |_: &Fabric| {
        let assumed = manuscript.assumes.usable_width.or_length(|| settings.length(USABLE_WIDTH));
        if own_width.is_absent() { assumed } else { own_width.length() }
    };
    let metric = manuscript.measure == Measure::Cm;
    let fat = |along: LengthValue, metric_along: LengthValue| {
        let across = if metric { FAT_QUARTER_ACROSS_METRIC } else { FAT_QUARTER_ACROSS };
        let across = own_width.or_length(|| settings.length(across))?;
        Some(Cloth::Small { across, along: settings.length(if metric { metric_along } else { along }), turns: true })
    };
    match sold_as {
        SoldAs::Yardage => Some(Cloth::Bolt { width: bolt(fabric)? }),
        SoldAs::FatQuarters => fat(FAT_QUARTER_ALONG, FAT_QUARTER_ALONG_METRIC),
        SoldAs::FatEighths => fat(FAT_EIGHTH_ALONG, FAT_EIGHTH_ALONG_METRIC),
        SoldAs::Strips => Some(Cloth::Small { across: bolt(fabric)?, along: fabric.precut.length()?, turns: false }),
        // Of scraps nobody knows how large they are, and of a panel what is printed where.
        SoldAs::Scraps | SoldAs::Panel => None,
        SoldAs::Squares => {
            let side = fabric.precut.length()?;
            Some(Cloth::Small { across: side, along: side, turns: true })
        }
    }
}
