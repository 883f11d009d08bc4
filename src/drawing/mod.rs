//! What a worksheet draws, as numbers: the units and blocks and the quilt top, the binding round the edge, what is cut
//! from each fabric, and the panels of the backing. Exact lengths with the words that they are told in, and no lines, pages or letters.
//!
//! The JSON of the worksheet is made of these very structures, and the figures take their words from them, so a drawing
//! and its numbers cannot differ. A part of a size that could not be read has no drawing.

mod arrangement;
pub mod backing;
pub mod bias;
pub mod binding_fabric;
pub mod binding_layout;
pub mod design;
pub mod edge;
mod fabrics_of_size;
pub mod outline;
pub mod places;
mod rotation;
mod shown_length;
pub mod strips;
pub mod top;
mod top_borders;
mod top_center;
pub mod top_parts;
mod top_rows;

use serde::Serialize;

use crate::manuscript::Manuscript;
use crate::manuscript::model::Size;
use crate::requirement::Needs;
use crate::rule_book::Settings;
use backing::BackingDrawing;
use design::DesignDrawing;
use edge::EdgeDrawing;
use strips::FabricDrawing;
use top_parts::TopDrawing;

pub use shown_length::ShownLength;

/// The drawings of a manuscript.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Drawings {
    /// The units and the blocks, which are the same for all sizes.
    pub design: Option<DesignDrawing>,
    /// Those of each size, in the manuscript's order.
    pub sizes: Vec<SizeDrawings>,
    /// How many sizes more are not drawn.
    pub more_sizes: usize,
}

/// The drawings of one size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SizeDrawings {
    /// The size's name.
    pub size: String,
    /// The quilt top.
    pub top: Option<TopDrawing>,
    /// The binding round its edge.
    pub edge: Option<EdgeDrawing>,
    /// What is cut from each fabric.
    pub fabrics: Vec<FabricDrawing>,
    /// How many fabrics more are not drawn.
    pub more_fabrics: usize,
    /// The panels of its backing.
    pub backing: Option<BackingDrawing>,
}

/// How many sizes are drawn: no pattern has more, and a file that means harm could.
const MAX_SIZES: usize = 20;

/// How many rows of strips all drawings of a manuscript show together, or a few each where there are very many.
const MAX_ROWS: usize = 5_000;

/// How many strips, joins, panels or rows one drawing shows, and the rest are counted.
pub const MAX_SHOWN: usize = 200;

impl Drawings {
    /// The drawings of a manuscript whose needs were computed.
    pub fn new(manuscript: &Manuscript, needs: &Needs<'_>, settings: &Settings) -> Drawings {
        let shown = manuscript.sizes.iter().enumerate().take(MAX_SIZES);
        let drawings = manuscript.sizes.len().min(MAX_SIZES) * (needs.fabrics.fabrics.len() + 1);
        let rows = (MAX_ROWS / drawings.max(1)).clamp(5, MAX_SHOWN);
        let of = |(index, size): (usize, &Size)| {
            let (fabrics, more_fabrics) = fabrics_of_size::fabrics_of(needs, index, size, rows);
            SizeDrawings {
                size: size.name.clone(),
                top: top::top_of(manuscript, needs, index),
                edge: edge::edge_of(needs, index, size, settings),
                fabrics,
                more_fabrics,
                backing: backing::backing_of(needs, size),
            }
        };
        Drawings {
            design: DesignDrawing::of(manuscript, needs),
            sizes: shown.map(of).collect(),
            more_sizes: manuscript.sizes.len().saturating_sub(MAX_SIZES),
        }
    }
}
