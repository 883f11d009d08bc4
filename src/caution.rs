//! The cautions that stand wherever cutting and pressing are described, or a quilt is listed that would fit a crib.

use std::cell::OnceCell;

use crate::manuscript::model::{BattingSize, Bed, Packaged, PerSize, Size};
use crate::manuscript::{Manuscript, Place, Source};
use crate::plain_words::PlainName;
use crate::quilt_math::rectangle::Rectangle;
use crate::requirement::batting::finished;
use crate::rule_book::{DimensionsValue, LengthValue, Settings, WordsValue};

const MATTRESS: DimensionsValue = DimensionsValue::named("mattress_crib");
const DROP: LengthValue = LengthValue::named("crib_drop");
const WORDS: WordsValue = WordsValue::named("crib_words");
const OTHER_USES: WordsValue = WordsValue::named("other_use_words");

/// For whoever makes a quilt that would fit a crib.
pub const CRIB: &str = "For an infant, a quilt of crib (cot) size is a play mat or a wall hanging, and not bedding. Loose \
     bedding in a crib is a hazard to a child under one year: follow your national safe-sleep guidance and the \
     makers' instructions.";

/// For whoever cuts, presses and sews.
pub const WORK: &str = "Rotary blades, irons and sewing needles hurt people. Cut away from yourself, close the blade \
     after every cut, keep children and pets clear, and follow the makers' instructions and the safety codes of the \
     place where you work.";

/// The sizes of a manuscript that would fit a crib, or are called or used as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CribQuilts {
    /// Their names; at least one.
    pub sizes: Vec<String>,
    /// Where the first of them stands.
    pub place: Place,
}

/// The cautions for what a manuscript lists.
pub(crate) fn cautions(manuscript: &Manuscript, settings: &Settings) -> Vec<&'static str> {
    let for_a_crib = crib_sizes(manuscript, settings).next().is_some();
    let something_is_cut =
        manuscript.binding.is_some() || manuscript.fabrics.iter().any(|fabric| !fabric.cut.is_empty());
    let cautions = [for_a_crib.then_some(CRIB), something_is_cut.then_some(WORK)];
    cautions.into_iter().flatten().collect()
}

/// The sizes of a manuscript that are for a crib; `None` where there are none.
pub(crate) fn crib_quilts(source: &Source, manuscript: &Manuscript, settings: &Settings) -> Option<CribQuilts> {
    let sizes: Vec<&Size> = crib_sizes(manuscript, settings).collect();
    let place = source.only_place(sizes.first()?.at.start);
    Some(CribQuilts { sizes: sizes.iter().map(|size| size.name.clone()).collect(), place })
}

/// The sizes that would fit a crib by their measurements, or are for one by their bed, their batting, their name or the
/// pattern's. What is for another bed, or is called a cushion or the like, is not judged by its measurements. No number
/// goes by this, so what it asks of the rule book is not kept for a sign-off.
fn crib_sizes<'m>(manuscript: &'m Manuscript, settings: &Settings) -> impl Iterator<Item = &'m Size> {
    let mattress = settings.unrecorded_dimensions(MATTRESS);
    let drop = settings.unrecorded_length(DROP);
    let largest = Rectangle::new(mattress.width + drop * 2, mattress.length + drop);
    let (words, other_uses) = (settings.unrecorded_words(WORDS), settings.unrecorded_words(OTHER_USES));
    let is_called_so = |name: &PlainName<'_>| words.begin_in(name);
    let is_something_else = move |index: usize, size: &Size, name: &PlainName<'_>| {
        is_pillow(manuscript, index) || size.bed.value().is_some() || other_uses.are_whole_in(name)
    };
    let pattern = manuscript.pattern.stated().map_or("", |name| name.value.as_str());
    // Asked for only where the measurements do not say it already.
    let pattern_is_called_so = OnceCell::new();
    let is_for_a_crib = move |&(index, size): &(usize, &Size)| {
        let name = PlainName::new(&size.name);
        size.bed.value() == Some(Bed::Crib)
            || (finished(size).is_some_and(|quilt| largest.holds(quilt)) && !is_something_else(index, size, &name))
            || has_crib_batting(manuscript, index)
            || *pattern_is_called_so.get_or_init(|| is_called_so(&PlainName::new(pattern)))
            || is_called_so(&name)
    };
    manuscript.sizes.iter().enumerate().filter(is_for_a_crib).map(|(_, size)| size)
}

/// Whether the back of a pillow is stated for a size.
fn is_pillow(manuscript: &Manuscript, size: usize) -> bool {
    let back = manuscript.pillow_back.as_ref();
    back.and_then(|back| back.requires.get(size)).and_then(PerSize::stated).is_some()
}

/// Whether a batting that is packaged for a crib is stated for a size.
fn has_crib_batting(manuscript: &Manuscript, size: usize) -> bool {
    let stated = manuscript.batting.as_ref().and_then(|batting| batting.requires.get(size)).and_then(PerSize::stated);
    stated.is_some_and(|stated| stated.value == BattingSize::Packaged(Packaged::Crib))
}
