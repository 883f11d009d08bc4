//! Reading the binding section.

use super::by_size::{BySize, OneOrEach};
use super::declared_names::DeclaredNames;
use super::kinds::{Fabric, FabricName, NonNegative, OneOf, Positive, SquareOrSides, Whole};
use super::model::{Closing, Finish, Fold, Grain, Join, Loft, LoftWord, PerSize, Side};
use super::read_per_size::read_per_size;
use super::reader::{Bound, Reader};
use super::section::LeftOut::{BookValue, Required, Said, Standard, Unless};
use super::section::{Row, Shape, ValueKind};
use super::section_words::{SectionWords, section};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, Keyword, MistakeKind, Span};
use crate::quantity::{Amount, Count, Written};

const SIZE_EXAMPLE: &str = "{ strips: 6, fabric: 1/2 yd }";
const REQUIRES_EXAMPLE: &str = "crib: { strips: 6, fabric: 1/2 yd }";

section!(
    /// The binding: the method once, and what is stated for each size.
    pub struct Binding, "binding", "In `binding`", "";
    words {
        from: Field<usize> = FabricName, Said("a fabric by itself"),
            "the fabric that it is cut from, by its name in `fabrics`; its strips then count in what is bought of that",
            "ink";
        strip_width: BySize<Written> = OneOrEach<Positive>, Said("the binding is not checked"),
            "how wide each strip is cut", "2 1/2";
        flange: Field<Written> = Positive, Said("none"),
            "how wide strips of a second fabric are cut that are sewn along the binding's, to show as a flange", "1 3/4";
        fold: Field<Fold> = OneOf<Fold>, Standard("double"),
            "`double`: folded in half along its length; `single`: one layer, its second edge turned under; or `facing`: \
             one layer that is turned to the back whole, a strip of its own for each side", "double";
        seam: Field<Written> = Positive, BookValue("binding_seam"), "the seam that sews the binding on", "1/4";
        loft: Field<Loft> = LoftKind, Said("`low`: {loft_low}"),
            "how thick the quilt is at its edge, pressed flat: `low`, `medium`, `high`, or a length you measured", "low";
        join: Field<Join> = OneOf<Join>, Standard("diagonal"),
            "how strips are joined end to end: `diagonal` or `straight`", "diagonal";
        grain: Field<Grain> = OneOf<Grain>, Standard("crosswise"),
            "how strips are cut: `crosswise`, selvedge to selvedge; `lengthwise`; or `bias`, at 45 degrees, which a \
             curved edge needs", "crosswise";
        finish: Field<Finish> = OneOf<Finish>, Standard("machine"),
            "how the fold is stitched down: by `machine`, by `hand`, or in the `ditch` of the first seam", "machine";
        sewn_first_to: Field<Side> = OneOf<Side>, Said("`back` for machine, `front` for the others"),
            "the side the binding is sewn to first: `back` or `front`", "back";
        ends: Field<Closing> = OneOf<Closing>, Standard("joined"),
            "how the two ends meet: `joined` by a seam, or `tucked`, one inside the other, which is folded under",
            "joined";
        tails: Tails = TailsKind, Said("{tail} in each"),
            "what is left loose at both ends: one length, or `{ start: 10, end: 8 }`", "10";
        opening: Field<Written> = Positive, BookValue("opening"),
            "what stays unsewn between the first and the last stitch", "12";
        extra_length: Field<Written> = NonNegative, Said("the tails decide"),
            "how much longer than the edge the binding is, for patterns that say this instead of `tails`", "12",
            not_beside(&["tails"]);
        strip_length: Field<Written> = Positive,
            Said("the usable width; for `bias`, as long as the fabric lets it be; must be there for `lengthwise` strips"),
            "how long each strip is cut", "65",
            hint("strips cut along the fabric can have any length, so it must be stated");
        usable_width: Field<Written> = Positive, Said("that of `assumes`"),
            "the usable width of the binding fabric alone", "42";
    }
    by_hand {
        requires: Vec<PerSize<BindingRequires>> = Shape::BySize(&Shape::Table(BindingRequires::SECTION)), Required,
            "what the pattern prints for each size", "{ crib: { strips: 6, fabric: 1/2 yd } }";
    }
    besides {
        /// Where the word `binding` stands.
        at: Span,
    }
);

section!(
    /// What the pattern prints about the binding of one size.
    pub struct BindingRequires, "binding requires", "For each size in the `requires` of `binding`", "";
    words {
        strips: Field<Count> = Whole, Unless(&["fabric", "square", "length"], ""),
            "how many strips the pattern tells its reader to cut", "6", hint("or fabric: 1/2 yd, or both");
        fabric: Field<Amount> = Fabric, Unless(&["strips", "square", "length"], "left out with `from`"),
            "how much fabric it tells its reader to buy", "1/2 yd";
        flange: Field<Amount> = Fabric, Said("not checked"),
            "how much of the flange's fabric it tells its reader to buy; goes with the `flange` of `binding`", "3/8 yd";
        strip_length: Field<Written> = Positive, Said("that of `binding`"),
            "how long each strip is cut for this size", "65",
            hint("strips cut along the fabric can have any length, so it must be stated");
    }
    by_hand {
        square: Field<(Written, Written)> = SquareOrSides::SHAPE, Said("single strips"),
            "for `grain: bias`: the side of the square, or the two of a rectangle, that one long strip, continuous bias, \
             is cut from", "30";
        length: Field<Written> = Positive::SHAPE, Said("as long as it must be"),
            "for `grain: bias`: how much bias the pattern tells its reader to make or to buy", "8 yd";
    }
    besides {
        /// Where the size's name stands.
        at: Span,
    }
);

section!(
    /// The free tails at both ends of the binding.
    pub struct Tails, "tails", "In `tails`, where the two differ", "";
    words {
        start: Field<Written> = NonNegative, Required, "what is left loose before the first stitch", "10";
        end: Field<Written> = NonNegative, Required, "what is left loose after the last stitch", "8";
    }
    by_hand {}
    besides {
        /// Where the tails are stated.
        at: Option<Span>,
    }
);

pub(super) fn read_binding(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Option<Binding> {
    let mut table = Table::new(reader, "binding", entry.key_at, &entry.value, "strip_width: 2 1/2")?;
    let mut binding = Binding { at: entry.key_at, ..Binding::read_words(&mut table, reader, known) };
    let way = binding.grain.value();
    let each_length = way == Some(Grain::Lengthwise) && binding.strip_length.is_absent();
    if let Some(requires) = table.expected(Binding::requires) {
        binding.requires =
            read_per_size(reader, known.sizes, "binding", requires, REQUIRES_EXAMPLE, |reader, entry| {
                read_requires(reader, known, entry, way, each_length)
            });
    }
    report_fabric_twice(reader, &binding);
    let states_flange =
        |requires: &PerSize<BindingRequires>| requires.stated().is_some_and(|requires| !requires.flange.is_absent());
    if binding.flange.is_absent() && binding.requires.iter().any(states_flange) {
        table.lacks(Binding::flange);
    }
    if let (Some(tails), Some(extra)) = (binding.tails.at, binding.extra_length.at()) {
        let mend = Some("keep the tails, or keep the extra length, but not both");
        let what = MistakeKind::RepeatedKey { word: Binding::extra_length.word.into(), mend };
        reader.report_with(extra, what, tails, "the tails already say how much longer than the edge it must be");
    }
    report_closing_of_a_facing(reader, &binding);
    if binding.strip_width.is_absent() && table.may_state_more() {
        binding.strip_width = BySize::All(Field::Unread);
    }
    table.finish(reader, true);
    Some(binding)
}

/// A facing is cut for each side by itself: it has no two ends that meet.
fn report_closing_of_a_facing(reader: &mut Reader, binding: &Binding) {
    let Some(facing) = binding.fold.stated().filter(|fold| fold.value == Fold::Facing) else { return };
    let closing = [
        (Binding::ends.word, binding.ends.at()),
        (Binding::tails.word, binding.tails.at),
        (Binding::opening.word, binding.opening.at()),
        (Binding::flange.word, binding.flange.at()),
    ];
    for (word, at) in closing {
        if let Some(at) = at {
            let why =
                format!("`{word}` is of a binding that goes around in one, and a facing has a strip for each side");
            let mend = "Take it out, or the facing; extra_length says how much longer all four strips are together";
            let see = "the facing is stated here".to_string();
            reader.report_with(at, MistakeKind::CannotBe { why, mend }, facing.at, see);
        }
    }
}

/// The fabric that the binding is cut from says already how much there is of it.
fn report_fabric_twice(reader: &mut Reader, binding: &Binding) {
    let Some(from) = binding.from.at() else { return };
    for fabric in binding.requires.iter().filter_map(|requires| requires.stated()?.fabric.at()) {
        let mend = Some("take the binding's own amount out, or take `from` out, if it is a fabric by itself");
        let what = MistakeKind::RepeatedKey { word: "fabric".into(), mend };
        reader.report_with(fabric, what, from, "the binding counts in the sum of this fabric");
    }
}

fn read_requires(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    entry: &Entry<'_>,
    way: Option<Grain>,
    each_length: bool,
) -> Option<BindingRequires> {
    let name = ["binding", "requires", entry.key];
    let mut table = Table::new(reader, name, entry.key_at, &entry.value, SIZE_EXAMPLE)?;
    let mut requires = BindingRequires { at: entry.key_at, ..BindingRequires::read_words(&mut table, reader, known) };
    if way == Some(Grain::Bias) {
        requires.square = table.read::<SquareOrSides>(reader, known, BindingRequires::square);
        requires.length = table.read::<Positive>(reader, known, BindingRequires::length);
    }
    let others = requires.square.is_absent() && requires.length.is_absent();
    if others && requires.strips.is_absent() && requires.fabric.is_absent() {
        table.lacks(BindingRequires::strips);
    }
    if each_length && requires.strip_length.is_absent() {
        table.lacks(BindingRequires::strip_length);
    }
    table.finish(reader, true);
    Some(requires)
}

/// One length for both tails, or one for each.
struct TailsKind;

impl ValueKind for TailsKind {
    type Field = Tails;
    const SHAPE: Shape = Shape::Either(&[NonNegative::SHAPE, Shape::Table(Tails::SECTION)]);

    fn read(reader: &mut Reader, known: &DeclaredNames<'_>, _: &'static Row, entry: &Entry<'_>) -> Tails {
        let node = &entry.value;
        if !matches!(node.kind, Kind::Table(_)) {
            let both = reader.length(node, Bound::NonNegative);
            let at = both.at();
            return Tails { at, start: both.clone(), end: both };
        }
        let Some(mut table) = Table::new(reader, "tails", entry.key_at, node, "{ start: 10, end: 8 }") else {
            return Tails::unread();
        };
        let tails = Tails { at: Some(node.at), ..Tails::read_words(&mut table, reader, known) };
        table.finish(reader, true);
        let read = |field: Field<_>| if field.is_absent() { Field::Unread } else { field };
        Tails { start: read(tails.start), end: read(tails.end), ..tails }
    }

    fn unread() -> Tails {
        Tails::unread()
    }
}

/// A word, or a measured thickness.
struct LoftKind;

impl ValueKind for LoftKind {
    type Field = Field<Loft>;
    const SHAPE: Shape = Shape::Either(&[Shape::Choice(LoftWord::NAMES), NonNegative::SHAPE]);

    fn read(reader: &mut Reader, _: &DeclaredNames<'_>, row: &'static Row, entry: &Entry<'_>) -> Field<Loft> {
        read_loft(reader, row, &entry.value)
    }

    fn unread() -> Field<Loft> {
        Field::Unread
    }
}

fn read_loft(reader: &mut Reader, row: &'static Row, node: &Node<'_>) -> Field<Loft> {
    let measured = match &node.kind {
        Kind::Scalar { value, .. } => value.starts_with(|c: char| !c.is_alphabetic()),
        _ => false,
    };
    if measured {
        reader.length(node, Bound::NonNegative).map(Loft::Measured)
    } else {
        reader.word(node, row.word).map(Loft::Keyword)
    }
}
