//! What a reader of the printed tables should be warned of.

use crate::manuscript::Manuscript;
use crate::manuscript::model::{Bed, Size};

/// Words in the name of a size that say that it is for a small child.
const FOR_A_CHILD: [&str; 7] = ["crib", "cot", "baby", "cradle", "infant", "newborn", "nursery"];

const COT: &str = "A crib-size quilt is a play mat or a wall hanging. Loose bedding in a cot is a danger to a child under \
     one year: follow your national safe-sleep advice.";

const BLADE: &str = "Cut away from yourself, close the blade of a rotary cutter after every cut, and keep it away from \
     children and pets.";

/// The cautions for what the pattern lists.
pub(super) fn cautions(manuscript: &Manuscript) -> Vec<&'static str> {
    let for_a_cot = manuscript.sizes.iter().any(is_for_a_cot);
    let something_is_cut =
        manuscript.binding.is_some() || manuscript.fabrics.iter().any(|fabric| !fabric.cut.is_empty());
    let cautions = [for_a_cot.then_some(COT), something_is_cut.then_some(BLADE)];
    cautions.into_iter().flatten().collect()
}

fn is_for_a_cot(size: &Size) -> bool {
    let name = size.name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    size.bed.value() == Some(Bed::Crib) || words.any(|word| FOR_A_CHILD.contains(&word))
}
