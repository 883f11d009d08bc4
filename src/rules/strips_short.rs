//! The strips that the text tells to cut give too few pieces.

use super::Context;
use super::wording::group::{Strips, group_words};
use super::wording::pair::purchase;
use super::wording::shape::gives_words;
use super::wording::subject::piece;
use crate::finding::{Correction, Finding, Label, Level};
use crate::manuscript::model::Cut as StatedCut;
use crate::manuscript::{Field, Spanned};
use crate::quantity::{Count, Scale};
use crate::quilt_math::cutting::{Cloth, FromStrips, Shape};
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds, FromEach};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (fabric, size) in context.needs.fabrics.each() {
        let Some(cloth) = fabric.cloth else { continue };
        let cuts = fabric.stated.cut.iter().enumerate();
        findings
            .extend(cuts.filter_map(|(index, cut)| finding(&context.needs.fabrics, fabric, size, cloth, (index, cut))));
        let groups = Strips::of_groups(fabric, size).filter(|strips| strips.stated.value < strips.group.least);
        findings.extend(groups.map(|strips| group(&context.needs.fabrics, fabric, size, &strips)));
    }
}

/// Strips from which pieces of several kinds are cut.
fn group(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>, strips: &Strips<'_>) -> Finding {
    let Strips { stated, group } = *strips;
    let (needed, short) = (group.needed, group.needed.less(stated.value));
    let message = format!(
        "{} stated for {}; {needed} needed: {short} short. No way of cutting gives these pieces from fewer than {}.",
        stated.value.of("strip"),
        strips.pieces(fabric),
        group.least.of("strip"),
    );
    let finding = Finding::new(Label::new(stated.at, format!("{short} short")), message);
    let finding = strips.explain(fabric, size, finding);
    finding
        .help(group_words(needs, fabric, group))
        .numbers(stated.value.of("strip"), needed.of("strip"))
        .corrected((needed <= Count::MAX).then(|| Correction::new(stated.at, needed.to_string())))
}

fn finding(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    cloth: Cloth,
    (index, cut): (usize, &StatedCut),
) -> Option<Finding> {
    let strips = cut.strips.get(size.index)?.stated()?;
    let pieces = cut.pieces.get(size.index)?.stated()?;
    if let Some(each) = fabric.from_each(size, index, cloth) {
        return (strips.value < each.in_all()).then(|| of_each(needs, fabric, size, (cloth, index, strips), each));
    }
    let (way, needed) = size.needed(index, cloth)?;
    if strips.value >= needed {
        return None;
    }
    let name = fabric.name(index);
    let gives = way.gives(strips.value);
    let how = match way.joined {
        None => format!(": each strip gives {}, so", way.per_strip),
        Some(joining) if way.across > joining.strip_length => {
            ", joined end to end, since each piece is longer than a strip:".to_string()
        }
        Some(_) => ", joined end to end:".to_string(),
    };
    let nests = if cut.is_template() { " That is by the boxes that hold them; they may nest closer." } else { "" };
    let message = format!(
        "{} stated for {} ({name}); {needed} needed{how} what is stated gives {gives}, {} short.{nests}",
        strips.value.of("strip"),
        pieces.value.of("piece"),
        pieces.value.less(gives),
    );
    let level = if cut.is_template() { Level::Query } else { Level::Error };
    let at = cut.cut_at(size.index);
    let correction = (needed <= Count::MAX).then(|| Correction::new(strips.at, needed.to_string()));
    Some(
        Finding::new(
            Label::new(strips.at, format!("{} {gives}", if strips.value == Count(1) { "gives" } else { "give" })),
            message,
        )
        .for_size(&size.size.name)
        .about(piece(fabric.stated, index))
        .see(
            Some(pieces.at),
            match pieces.value {
                Count(1) => "1 piece is needed".to_string(),
                many => format!("{} are needed", many.of("piece")),
            },
        )
        .see(at, "how it is cut")
        .help(working(needs, cloth, fabric.shape(index, size.index), &way, pieces.value, needed))
        .help(fabric_for_enough(needs, fabric, size))
        .numbers(strips.value.of("strip"), needed.of("strip"))
        .corrected(correction)
        .at_most(level),
    )
}

/// What must be bought for as many strips as are needed, where the amount is enough for those that are stated alone.
fn fabric_for_enough(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) -> String {
    let Some(bolt) = size.from_bolt() else { return String::new() };
    if !bolt.is_for_too_few_strips() {
        return String::new();
    }
    let buy = purchase(&needs.shop, &bolt.stated.value, bolt.to_print);
    format!(
        "The amount of {} is enough for the strips that are stated alone: for all of them, {buy}.",
        fabric.stated.name
    )
}

/// Too few strips for what each of several fabrics gives.
fn of_each(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    (cloth, index, strips): (Cloth, usize, &Spanned<Count>),
    each: FromEach,
) -> Finding {
    let (stated, needed) = (strips.value, each.in_all());
    let short = needed.less(stated);
    let message = format!(
        "{} stated for {}; {needed} needed, {} from each of {} fabrics: {short} short.",
        stated.of("strip"),
        fabric.name(index),
        each.strips,
        each.among,
    );
    let from_each =
        fabric.stated.cut.get(index).and_then(|cut| cut.pieces_from_each.get(size.index)).and_then(Field::at);
    Finding::new(Label::new(strips.at, format!("{short} short")), message)
        .for_size(&size.size.name)
        .about(piece(fabric.stated, index))
        .see(from_each, format!("{} from each fabric", each.pieces.of("piece")))
        .help(format!(
            "{} {}",
            working(needs, cloth, fabric.shape(index, size.index), &each.way, each.pieces, each.strips),
            from_each_words(each)
        ))
        .numbers(stated.of("strip"), needed.of("strip"))
        .corrected((needed <= Count::MAX).then(|| Correction::new(strips.at, needed.to_string())))
}

/// How many strips all fabrics give: `From each of 12 fabrics: 12 x 1 = 12 strips.`
pub(crate) fn from_each_words(each: FromEach) -> String {
    format!("From each of {} fabrics: {} x {} = {}.", each.among, each.among, each.strips, each.in_all().of("strip"))
}

/// `Strips: a strip 40 in long gives 11 pieces 3 1/2 in long; 48 pieces / 11 = 5 strips.`
pub(super) fn working(
    needs: &FabricsNeeds<'_>,
    cloth: Cloth,
    shape: Option<Shape>,
    way: &FromStrips,
    pieces: Count,
    needed: Count,
) -> String {
    if way.joined.is_some() {
        return joined_working(needs, way, pieces, needed);
    }
    let gives = match shape {
        Some(Shape::WholeStrip { .. }) => "a whole strip is one piece".to_string(),
        Some(Shape::Lengthwise { .. }) => {
            format!("along the fabric, each strip is one piece {} long", needs.up(way.strip_width))
        }
        Some(Shape::Slanted(shape)) => gives_words(needs, cloth, &shape, way),
        Some(Shape::Centered { .. }) => {
            let repeat = needs.up(way.strip_width);
            format!("a strip as wide as a repeat of the print, {repeat}, gives {}", way.per_strip.of("piece"))
        }
        Some(Shape::Piece { .. } | Shape::Strip { .. } | Shape::Template { .. }) | None => {
            format!(
                "a strip {} long and {} wide gives {} {} long",
                needs.down(cloth.strip_length()),
                needs.up(way.strip_width),
                way.per_strip.of("piece"),
                needs.up(way.across),
            )
        }
    };
    format!("Strips: {gives}; {} / {}, rounded up: {}.", pieces.of("piece"), way.per_strip, needed.of("strip"))
}

/// `Strips: 3 x 40 in - 2 joins x 1/2 in = 119 in, for 2 x 48 1/2 in = 97 in.`
pub(crate) fn joined_working(needs: &FabricsNeeds<'_>, way: &FromStrips, pieces: Count, strips: Count) -> String {
    let Some(joining) = way.joined else { return String::new() };
    let runs = pieces.in_groups_of(way.per_strip).unwrap_or_default();
    let (made, wanted) = (joining.length(strips), way.across * runs);
    let scale = Scale::of(needs.measure, &[made, wanted, way.across, joining.strip_length, joining.loss]);
    let beside = match way.per_strip.0 {
        0 | 1 => String::new(),
        many => format!(", {many} side by side"),
    };
    let wanted = match runs.0 {
        0 | 1 => scale.up(wanted),
        many => format!("{many} x {} = {}", scale.up(way.across), scale.up(wanted)),
    };
    let made_words = match strips.less(Count(1)) {
        Count(0) => format!("{strips} x {}", scale.down(joining.strip_length)),
        joins => format!(
            "{strips} x {} - {} x {} = {}",
            scale.down(joining.strip_length),
            joins.of("join"),
            scale.up(joining.loss),
            scale.down(made),
        ),
    };
    if made < way.across * runs {
        // Where one piece ends at the end of a strip, the next is not joined to it.
        return format!("Strips: {strips}, joined end to end piece by piece{beside}, make {wanted}.");
    }
    format!("Strips: {made_words}, for {wanted}{beside}.")
}
