//! The names that are known while a manuscript is read, section after section.

use super::read_blocks::Blocks;
use super::read_fabrics::Fabrics;
use super::read_sizes::Sizes;
use super::read_units::{Pieces, Units};

/// What was read before, by whose names something may be mentioned.
#[derive(Clone, Copy)]
pub(crate) struct DeclaredNames<'m> {
    /// The sizes.
    pub(super) sizes: &'m Sizes,
    /// The fabrics.
    pub(super) fabrics: &'m Fabrics,
    /// The pieces of their cutting lists.
    pub(super) pieces: &'m Pieces<'m>,
    /// The units.
    pub(super) units: &'m Units,
    /// The blocks.
    pub(super) blocks: &'m Blocks,
}

static NO_SIZES: Sizes = Sizes { list: Vec::new(), whole: false };
static NO_FABRICS: Fabrics = Fabrics { list: Vec::new(), whole: false, stated: false };
static NO_PIECES: Pieces<'static> = Pieces { list: Vec::new(), whole: false };
static NO_UNITS: Units = Units { list: Vec::new(), whole: false, stated: false };
static NO_BLOCKS: Blocks = Blocks { list: Vec::new(), whole: false, stated: false };

impl Default for DeclaredNames<'_> {
    /// No names.
    fn default() -> Self {
        DeclaredNames {
            sizes: &NO_SIZES,
            fabrics: &NO_FABRICS,
            pieces: &NO_PIECES,
            units: &NO_UNITS,
            blocks: &NO_BLOCKS,
        }
    }
}
