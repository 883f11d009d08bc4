//! Reading the shape of a piece that is no rectangle: one cut from strips, by its finished side or height, or a template
//! by the box that holds it.

use super::by_size::{BySize, OneOrSome, report_left_out};
use super::declared_names::DeclaredNames;
use super::kinds::{OneOf, Positive, Whole};
use super::model::Cut;
use super::model::{CutAngle, CutGrain, CutShape, Tips, YesNo};
use super::reader::Reader;
use super::table::Table;
use super::tree::{Kind, Node};
use super::{Field, Keyword, MistakeKind, Span};
use crate::quantity::{Count, Length, Written, has_times};
use crate::quilt_math::shapes::StripShape;

/// The shapes that have one finished side.
pub(super) const WITH_ONE_SIDE: &[&str] =
    &["triangle_60", "half_triangle_60", "hexagon", "half_hexagon", "diamond_60", "diamond_45"];

/// The shapes with a base, a height and an angle.
pub(super) const WITH_A_BASE: &[&str] = &["parallelogram", "trapezoid"];

/// The shapes with tips.
pub(super) const WITH_TIPS: &[&str] = &["triangle_60", "half_triangle_60"];

/// What few pieces have: a shape that is no rectangle, a place on the print.
#[derive(Debug, Default)]
pub struct Shaped {
    /// Which shape.
    pub shape: Field<CutShape>,
    /// Its finished side twice, or its finished base and height. That of a template is the cut size of its box.
    pub size: BySize<(Written, Written)>,
    /// How high it finishes, where that is stated instead of its side.
    pub height: BySize<Written>,
    /// The angle at its base.
    pub angle: Field<CutAngle>,
    /// Whether its tips are cut off.
    pub tips: Field<Tips>,
    /// Whether each is centered on the print.
    pub centered: Field<YesNo>,
    /// How many come of each repeat of the print.
    pub per_repeat: Field<Count>,
}

impl Shaped {
    /// Whether it is a template, known by the box that holds it.
    pub fn is_template(&self) -> bool {
        self.shape.value() == Some(CutShape::Template)
    }

    /// Whether it is cut from strips by its finished measures.
    pub fn is_slanted(&self) -> bool {
        !self.shape.is_absent() && !self.is_template()
    }

    /// Whether it differs from size to size.
    pub const fn is_by_size(&self) -> bool {
        self.size.is_by_size() || self.height.is_by_size()
    }

    /// Whether two pieces are the same shape for each size, as far as that was read.
    pub(super) fn is_alike(&self, other: &Shaped, sizes: usize) -> bool {
        let length = |written: &Written| written.length;
        let side =
            |of: &Shaped, size: usize| of.size.of(size).value().map(|(one, other)| (length(&one), length(&other)));
        let height = |of: &Shaped, size: usize| of.height.of(size).value().map(|height| height.length);
        let same = |size| side(self, size) == side(other, size) && height(self, size) == height(other, size);
        let kinds = (self.shape.value(), self.angle.value(), self.tips.or(Tips::Sharp));
        let kinds_of_other = (other.shape.value(), other.angle.value(), other.tips.or(Tips::Sharp));
        kinds == kinds_of_other && (0..sizes).all(same)
    }
}

/// Reads the shape of a piece where one is stated; what it states besides has been read. Without one, a side by itself is
/// no size.
pub(super) fn read_shape(reader: &mut Reader, known: &DeclaredNames<'_>, table: &mut Table<'_, '_>, cut: &mut Cut) {
    let centered = table.read::<OneOf<YesNo>>(reader, known, Cut::CENTERED);
    read_outline(reader, known, table, cut);
    if !centered.is_absent() {
        let per_repeat = table.read::<Whole>(reader, known, Cut::PER_REPEAT);
        let shaped = cut.shaped.get_or_insert_default();
        (shaped.centered, shaped.per_repeat) = (centered, per_repeat);
        let nought = shaped.per_repeat.at().filter(|_| shaped.per_repeat.value() == Some(Count(0)));
        if let Some(at) = nought {
            let why = "it must be at least 1".to_string();
            reader.report(at, MistakeKind::OutOfRange { why, help: "" });
            shaped.per_repeat = Field::Unread;
        }
    }
}

fn read_outline(reader: &mut Reader, known: &DeclaredNames<'_>, table: &mut Table<'_, '_>, cut: &mut Cut) {
    let Some(entry) = table.entry(Cut::SHAPE) else {
        let dimensions = |reader: &mut Reader, node: &Node<'_>| _ = reader.dimensions(node);
        refuse_sizes(reader, table, cut, |text| !has_times(text), dimensions);
        return;
    };
    let shape: Field<CutShape> = reader.word(&entry.value, Cut::SHAPE.word);
    let mut shaped = Shaped { shape, ..Shaped::default() };
    let Some(kind) = shaped.shape.value() else {
        // What goes with which shape is not known.
        for row in [Cut::HEIGHT, Cut::ANGLE, Cut::TIPS] {
            table.entry(row);
        }
        cut.shaped = Some(Box::new(shaped));
        return;
    };
    let name = kind.word();
    refuse_words(reader, cut, kind);
    if kind == CutShape::Template {
        let dimensions = |reader: &mut Reader, node: &Node<'_>| _ = reader.dimensions(node);
        refuse_sizes(reader, table, cut, |text| !has_times(text), dimensions);
        cut.shaped = Some(Box::new(shaped));
        return;
    }
    let has_base = WITH_A_BASE.contains(&name);
    let refuse = |reader: &mut Reader, node: &Node<'_>| {
        let (why, mend) = if has_base {
            (format!("A {name} is stated by its finished base and its height"), "Write both, such as size: 6 x 3")
        } else {
            (format!("All finished sides of a {name} are as long"), "Write one side, such as size: 3")
        };
        reader.report(node.at, MistakeKind::CannotBe { why, mend });
    };
    refuse_sizes(reader, table, cut, |text| has_times(text) != has_base, refuse);
    shaped.size = std::mem::take(&mut cut.size);
    if has_base {
        shaped.angle = table.read::<OneOf<CutAngle>>(reader, known, Cut::ANGLE);
        if shaped.angle.is_absent() {
            table.lacks(Cut::ANGLE);
        }
    } else {
        shaped.height = table.read::<OneOrSome<Positive>>(reader, known, Cut::HEIGHT);
    }
    if WITH_TIPS.contains(&name) {
        shaped.tips = table.read::<OneOf<Tips>>(reader, known, Cut::TIPS);
    }
    match (shaped.size.at(), shaped.height.at()) {
        (None, None) if shaped.size.is_absent() && shaped.height.is_absent() => table.lacks(Cut::SIZE),
        (Some(_), Some(height)) => {
            let why = "Its finished side and its finished height say the same twice".to_string();
            reader.report(height, MistakeKind::CannotBe { why, mend: "Take one of size and height out" });
        }
        (None, Some(_)) => table.does_not_lack(Cut::SIZE),
        (_, None) => {}
    }
    refuse_impossible(reader, &mut shaped);
    cut.shaped = Some(Box::new(shaped));
}

/// Reports the sizes that a slanted shape leaves out, of those that it is wanted for.
pub(super) fn report_sizes_left_out(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    shaped: &Shaped,
    is_wanted: impl Fn(usize) -> bool,
) {
    report_left_out(reader, known.sizes, &shaped.size, Cut::SIZE.word, &is_wanted);
    report_left_out(reader, known.sizes, &shaped.height, Cut::HEIGHT.word, &is_wanted);
}

/// Reports what says how rectangles are cut, beside a shape.
fn refuse_words(reader: &mut Reader, cut: &Cut, kind: CutShape) {
    let lengthwise = cut.grain.at().filter(|_| cut.grain.value() == Some(CutGrain::Lengthwise));
    let stated: [(&str, Option<Span>); 4] = [
        ("grain: lengthwise", lengthwise),
        ("joined", cut.joined.at()),
        ("beside", cut.beside.at()),
        ("cut_again", cut.cut_again.at()),
    ];
    for (words, at) in stated.into_iter().filter_map(|(words, at)| Some((words, at?))) {
        let why = match kind {
            CutShape::Template => format!("`{words}` says how a rectangle is cut, and this is cut with a template"),
            _ => format!("`{words}` says how a rectangle is cut, and this shape is cut from strips across the fabric"),
        };
        reader.report(at, MistakeKind::CannotBe { why, mend: "Take it out, or shape where the piece is a rectangle" });
    }
}

/// Reports the values of `size` whose text is none, and takes it for unread.
fn refuse_sizes(
    reader: &mut Reader,
    table: &Table<'_, '_>,
    cut: &mut Cut,
    is_none: impl Fn(&str) -> bool,
    refuse: impl Fn(&mut Reader, &Node<'_>),
) {
    let Some(entry) = table.entries().iter().find(|entry| entry.key == Cut::SIZE.word) else { return };
    let one = std::slice::from_ref(&entry.value).iter();
    let nodes: Vec<&Node<'_>> = match &entry.value.kind {
        Kind::Table(entries) => entries.iter().map(|entry| &entry.value).collect(),
        // Most sizes are as they should be.
        Kind::Scalar { value, .. } if !is_none(value) => return,
        _ => one.collect(),
    };
    for node in nodes {
        if matches!(&node.kind, Kind::Scalar { value, .. } if is_none(value)) {
            refuse(reader, node);
            cut.size = BySize::All(Field::Unread);
        }
    }
}

/// Reports a trapezoid whose sides meet below its height.
fn refuse_impossible(reader: &mut Reader, shaped: &mut Shaped) {
    let (Some(CutShape::Trapezoid), Some(angle)) = (shaped.shape.value(), shaped.angle.value()) else { return };
    let is_impossible = |(base, height): (Written, Written)| {
        StripShape { angle, ..StripShape::new(CutShape::Trapezoid, (base.length, height.length), Length::ZERO) }
            .is_impossible()
    };
    let found = shaped.size.stated().find(|(_, size)| is_impossible(size.value)).map(|(_, size)| size.at);
    if let Some(at) = found {
        let why = "its sides meet below its height, so that nothing is left of the shorter edge".to_string();
        reader
            .report(at, MistakeKind::OutOfRange { why, help: "State the longer finished base x the finished height." });
        shaped.size = BySize::All(Field::Unread);
    }
}
