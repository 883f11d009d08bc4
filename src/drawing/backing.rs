//! The panels of a backing, with the quilt on them.

use serde::Serialize;

use super::{MAX_SHOWN, ShownLength};
use crate::manuscript::model::{PanelsRun, Size};
use crate::quantity::{Count, Length, Measure};
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::Needs;
use crate::requirement::backing::{BackingNeeds, SizeBacking};
use crate::requirement::batting::BattingNeeds;

/// The backing of one size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BackingDrawing {
    /// The quilt.
    pub top: Sheet,
    /// How far the backing reaches beyond it at each side.
    pub overhang: ShownLength,
    /// How far it reaches at top and bottom, where that is not the same.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub overhang_down: Option<ShownLength>,
    /// How large the backing must be.
    pub sheet: Sheet,
    /// The batting, where it is stated, as it lies.
    pub batting: Option<Sheet>,
    /// The way that the panels run: `along` the length of the quilt, or `across` it.
    pub run: &'static str,
    /// How many there are: those stated, or the fewest that do.
    pub count: u64,
    /// Whether the pattern states them.
    pub stated: bool,
    /// How wide the fabric of each is.
    pub usable_width: ShownLength,
    /// The seam that joins them; two panels lose two of it.
    pub seam: ShownLength,
    /// How long each panel is cut.
    pub each: ShownLength,
    /// How much of the bolt they take.
    pub fabric: ShownLength,
    /// What the pattern tells to buy.
    pub fabric_stated: Option<ShownLength>,
    /// How wide they are when sewn together.
    pub sewn: ShownLength,
    /// How wide they must be.
    pub across: ShownLength,
    /// What is trimmed off them.
    pub trimmed: Option<ShownLength>,
    /// What is missing.
    pub short: Option<ShownLength>,
    /// The panels in turn.
    pub panels: Vec<Panel>,
    /// How many more are not shown.
    pub more: u64,
}

/// A width and a length.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sheet {
    /// The width.
    pub width: ShownLength,
    /// The length.
    pub length: ShownLength,
}

/// One panel, from seam to seam.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Panel {
    /// Its number, the first being 1.
    pub panel: u64,
    /// Where it begins, measured across the panels.
    pub begins: ShownLength,
    /// Where it ends.
    pub ends: ShownLength,
}

/// The backing of a size; `None` where it is not stated or not all of it was read.
pub(super) fn backing_of(needs: &Needs<'_>, size: &Size) -> Option<BackingDrawing> {
    let backing = needs.backing.as_ref()?;
    let known = backing.sizes.iter().find(|known| known.size.name == size.name)?;
    Some(drawing(backing, known, batting_of(needs.batting.as_ref(), known)))
}

fn batting_of(needs: Option<&BattingNeeds<'_>>, backing: &SizeBacking<'_>) -> Option<Rectangle> {
    let known = needs?.sizes.iter().find(|known| known.size.name == backing.size.name)?;
    Some(known.sheet.lying_as(backing.sheet))
}

fn drawing(needs: &BackingNeeds<'_>, size: &SizeBacking<'_>, batting: Option<Rectangle>) -> BackingDrawing {
    let measure = needs.measure;
    let stated = size.stated.panels.value();
    // Too few are drawn as they are stated, so that the gap is seen.
    let count = size.too_few().unwrap_or(size.panels.count);
    let panels = size.panels.with_count(count);
    let (sewn, across) = (size.sewn(count), size.panels.across);
    let (up, down) = (|length| ShownLength::up(length, measure), |length| ShownLength::down(length, measure));
    let beyond = sewn - across;
    let fabric_stated = size.stated.fabric.stated().map(|fabric| ShownLength::stated(&fabric.value, measure));
    BackingDrawing {
        top: sheet(size.top, down),
        overhang: up(size.overhang.across),
        overhang_down: (size.overhang.down != size.overhang.across).then(|| up(size.overhang.down)),
        sheet: sheet(size.sheet, up),
        batting: batting.map(|batting| sheet(batting, down)),
        run: match panels.run {
            PanelsRun::Along => "along",
            PanelsRun::Across => "across",
        },
        count: count.0,
        stated: stated.is_some(),
        usable_width: down(size.cloth.usable_width),
        seam: up(size.cloth.seam),
        each: up(panels.each),
        fabric: ShownLength::amount_needed(panels.fabric, measure),
        fabric_stated,
        sewn: down(sewn),
        across: up(across),
        trimmed: beyond.is_positive().then(|| down(beyond)),
        short: beyond.is_negative().then(|| up(-beyond)),
        panels: placed_panels(size, count, measure),
        more: count.0.saturating_sub(MAX_SHOWN as u64),
    }
}

fn sheet(sheet: Rectangle, told: impl Fn(Length) -> ShownLength) -> Sheet {
    Sheet { width: told(sheet.width), length: told(sheet.length) }
}

/// The panels side by side: the first and the last lose one seam, those between them two.
fn placed_panels(size: &SizeBacking<'_>, count: Count, measure: Measure) -> Vec<Panel> {
    let sewn = |count: u64| if count == 0 { Length::ZERO } else { size.sewn(Count(count)) };
    let seam = size.cloth.seam;
    let shown = count.0.min(MAX_SHOWN as u64);
    let edge = |panels: u64| if panels == count.0 { sewn(panels) } else { sewn(panels) - seam };
    let mut begins = Length::ZERO;
    (1..=shown)
        .map(|panel| {
            let ends = edge(panel);
            let laid =
                Panel { panel, begins: ShownLength::down(begins, measure), ends: ShownLength::down(ends, measure) };
            begins = ends;
            laid
        })
        .collect()
}
