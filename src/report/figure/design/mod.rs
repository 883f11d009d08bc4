//! The figures of the design: each block large, with its pieces by fabric, and the quilt top of each size.
//!
//! A figure of the design is narrower than the others, so that all of it is seen on the screen of a telephone. Fabrics
//! have numbers of our own, from 1 in the order in which the design names them, and plain tints; neither stands for a
//! color.

mod block;
mod fabrics;
mod pieces;
mod top;

use super::Figure;
use super::scene::UNIT;
use crate::drawing::Drawings;
use fabrics::FabricNumbers;

/// How wide these figures are.
const NARROW: i64 = 800 * UNIT;

/// Around the drawing.
const AIR: i64 = 20 * UNIT;

/// The figures of the blocks, and those of the tops, in the order of the sizes.
pub(super) fn figures(drawings: &Drawings, page: &str) -> (Vec<Figure>, Vec<Option<Figure>>) {
    let Some(design) = &drawings.design else {
        let fabrics = FabricNumbers::of(drawings);
        return (Vec::new(), tops(drawings, &fabrics, page));
    };
    let fabrics = FabricNumbers::of(drawings);
    let blocks = block::figures(design, &fabrics, page);
    (blocks, tops(drawings, &fabrics, page))
}

fn tops(drawings: &Drawings, fabrics: &FabricNumbers, page: &str) -> Vec<Option<Figure>> {
    let sizes = (1..).zip(&drawings.sizes);
    let figure = |(number, size): (usize, &crate::drawing::SizeDrawings)| {
        let top = size.top.as_ref()?;
        Some(top::figure(format!("fig-{page}{number}-top"), &size.size, top, drawings.design.as_ref(), fabrics))
    };
    sizes.map(figure).collect()
}
