//! What each size needs: the manuscript's own numbers, the rule book's where it states none, and the trade's
//! computation on both.

pub mod about;
pub mod assumed;
pub mod backing;
pub mod batting;
pub mod bed;
pub mod beside;
pub mod bias;
pub mod binding;
pub mod binding_course;
pub mod blocks;
pub mod cloth;
pub mod counts;
pub mod dependencies;
pub mod design_gaps;
pub mod edge;
pub mod extras;
pub mod fabric;
pub mod fabric_size;
pub mod fabrics;
pub mod instead;
pub mod layout;
pub mod made;
pub mod measured;
pub mod rounded_size;
pub mod rows;
pub mod scale;
pub mod series;
pub mod shares;
pub mod strip_width_choice;
pub mod unit_borders;
pub mod units;

use backing::BackingNeeds;
use batting::BattingNeeds;
use binding::BindingNeeds;
use blocks::BlocksNeeds;
use counts::CountsNeeds;
use design_gaps::DesignGaps;
use extras::ExtrasNeeds;
use fabrics::FabricsNeeds;
use layout::LayoutsNeeds;
use made::{Made, made};
use measured::{Measured, measured};
use series::AllSeries;
use units::UnitsNeeds;

use crate::manuscript::Manuscript;
use crate::rule_book::Settings;

/// What all sections of a manuscript need, each computed once.
#[derive(Debug)]
pub struct Needs<'m> {
    /// The binding, where one is stated.
    pub binding: Option<BindingNeeds<'m>>,
    /// The backing, where one is stated.
    pub backing: Option<BackingNeeds<'m>>,
    /// The batting, where one is stated.
    pub batting: Option<BattingNeeds<'m>>,
    /// The sleeve, prairie points and pillow backs.
    pub extras: ExtrasNeeds<'m>,
    /// The fabrics by their cutting lists.
    pub fabrics: FabricsNeeds<'m>,
    /// The pieced units.
    pub units: UnitsNeeds<'m>,
    /// The blocks.
    pub blocks: BlocksNeeds<'m>,
    /// The layout of each size that has one.
    pub layouts: LayoutsNeeds<'m>,
    /// How many pieces the layouts, blocks and units use.
    pub counts: CountsNeeds<'m>,
    /// How many units and blocks the text says to make.
    pub made: Vec<Made<'m>>,
    /// How large the text says that blocks and tops measure.
    pub measured: Vec<Measured<'m>>,
    /// What the design leaves open.
    pub gaps: DesignGaps<'m>,
    /// The numbers that are stated size by size, to be compared across the sizes.
    pub series: AllSeries<'m>,
}

impl<'m> Needs<'m> {
    /// What a manuscript needs under the settings in force.
    pub fn new(manuscript: &'m Manuscript, settings: &Settings) -> Needs<'m> {
        let binding = BindingNeeds::new(manuscript, settings);
        let batting = BattingNeeds::new(manuscript, settings);
        let backing = BackingNeeds::new(manuscript, settings, batting.as_ref());
        let fabrics = FabricsNeeds::new(manuscript, (binding.as_ref(), backing.as_ref()), settings);
        let units = UnitsNeeds::new(manuscript, &fabrics, settings);
        let layouts = LayoutsNeeds::new(manuscript, settings);
        let counts = CountsNeeds::new(&layouts, &fabrics, &units);
        let series = AllSeries::new(binding.as_ref(), backing.as_ref(), batting.as_ref(), &fabrics);
        Needs {
            series,
            binding,
            backing,
            batting,
            extras: ExtrasNeeds::new(manuscript, settings),
            fabrics,
            blocks: BlocksNeeds::new(manuscript),
            made: made(manuscript, &layouts, &counts, &units),
            measured: measured(manuscript, &layouts),
            units,
            layouts,
            counts,
            gaps: DesignGaps::new(manuscript),
        }
    }
}
