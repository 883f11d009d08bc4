//! The drawings of a worksheet as figures: SVG to scale, with a caption and a text that says all that is drawn.
//!
//! A figure is laid out in whole numbers, thousandths of a tenth of a millimetre at the width that it is printed. Its
//! words are those of [`crate::drawing`], and its elements carry them as data too, so that a program can compare.

mod backing;
mod bias;
mod bolt;
mod bolt_words;
mod callouts;
mod design;
mod edge;
mod edge_frame;
mod edge_labels;
mod edge_words;
mod grid;
mod label_placement;
mod precut;
mod scale;
mod scene;
mod words;

use crate::drawing::strips::{FabricCut, FabricDrawing};
use crate::drawing::{Drawings, SizeDrawings};

/// One figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it is called within the page: letters, digits and hyphens, and no other figure has it.
    pub id: String,
    /// The size that it is for, as the file has it; nothing where it is for all.
    pub size: Option<String>,
    /// The section of the manuscript that it is of: a word at the top, or a fabric's name.
    pub section: String,
    /// Whether it is so narrow that three stand beside one another.
    pub narrow: bool,
    /// What is drawn, with its main numbers: plain text, to be escaped.
    pub caption: String,
    /// All that the drawing says, in words: plain text, to be escaped.
    pub alternative: String,
    /// The drawing, one whole `svg` element that may stand in HTML as it is.
    pub svg: String,
}

/// The style of the figures, once a page. Each name in it begins with `fig-`.
pub const FIGURE_STYLE: &str = include_str!("figure.css");

/// All figures of a worksheet: the blocks, then size by size the top, the edge, the fabrics, the backing.
pub fn figures(drawings: &Drawings) -> Vec<Figure> {
    figures_within(drawings, "")
}

/// The same on a page of several worksheets, where each worksheet has letters of its own in the ids.
pub(super) fn figures_within(drawings: &Drawings, page: &str) -> Vec<Figure> {
    let (blocks, tops) = design::figures(drawings, page);
    let sizes = (1..).zip(drawings.sizes.iter().zip(tops));
    let number = |number: usize| format!("{page}{number}");
    blocks.into_iter().chain(sizes.flat_map(|(place, (size, top))| of_size(&number(place), size, top))).collect()
}

fn of_size(number: &str, drawings: &SizeDrawings, top: Option<Figure>) -> Vec<Figure> {
    let size = drawings.size.as_str();
    let mut figures: Vec<Figure> = top.into_iter().collect();
    if let Some(edge) = &drawings.edge {
        figures.push(edge::figure(format!("fig-{number}-edge"), size, edge));
    }
    for (place, fabric) in (1..).zip(&drawings.fabrics) {
        figures.push(fabric_figure(format!("fig-{number}-fabric-{place}"), size, fabric));
    }
    if let Some(backing) = &drawings.backing {
        figures.push(backing::figure(format!("fig-{number}-backing"), size, backing));
    }
    figures
}

fn fabric_figure(id: String, size: &str, fabric: &FabricDrawing) -> Figure {
    let name = fabric.fabric.as_str();
    match &fabric.cut {
        FabricCut::Bolt(bolt) => bolt::figure(id, size, name, bolt),
        FabricCut::Square(square) => bias::square_figure(id, size, name, square),
        FabricCut::Bias(strips) => bias::strips_figure(id, size, name, strips),
        FabricCut::Precut(precut) => precut::figure(id, size, name, precut),
    }
}
