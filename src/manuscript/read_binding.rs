//! Reading the binding section.

use super::model::{Binding, BindingRequires, Grain, Loft, Tails};
use super::read_fabrics::{Fabrics, read_fabric_name};
use super::read_sizes::{Sizes, positive, read_per_size};
use super::reader::{Least, Reader};
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, What};

const SIZE_EXAMPLE: &str = "{ strips: 6, fabric: 1/2 yd }";
const REQUIRES_EXAMPLE: &str = "crib: { strips: 6, fabric: 1/2 yd }";

pub(super) fn read_binding(
    reader: &mut Reader,
    sizes: &Sizes,
    fabrics: &Fabrics,
    entry: &Entry<'_>,
) -> Option<Binding> {
    let mut table = Table::new(reader, "binding", entry.key_at, &entry.value, "strip_width: 2 1/2")?;
    let mut binding = Binding {
        at: entry.key_at,
        from: table.optional("from", |node| read_fabric_name(reader, fabrics, node)),
        strip_width: table.required("strip_width", |node| positive(reader, node)),
        fold: table.optional("fold", |node| reader.word(node, "fold")),
        seam: table.optional("seam", |node| positive(reader, node)),
        loft: table.optional("loft", |node| read_loft(reader, node)),
        join: table.optional("join", |node| reader.word(node, "join")),
        grain: table.optional("grain", |node| reader.word(node, "grain")),
        finish: table.optional("finish", |node| reader.word(node, "finish")),
        sewn_first_to: table.optional("sewn_first_to", |node| reader.word(node, "sewn_first_to")),
        tails: table.entry("tails").map_or_else(Tails::default, |entry| read_tails(reader, entry)),
        opening: table.optional("opening", |node| positive(reader, node)),
        extra_length: table.optional("extra_length", |node| reader.length(node, Least::Nothing)),
        strip_length: table.optional("strip_length", |node| positive(reader, node)),
        usable_width: table.optional("usable_width", |node| positive(reader, node)),
        requires: Vec::new(),
    };
    let way = binding.grain.value();
    let each_length = way == Some(Grain::Lengthwise) && binding.strip_length.is_absent();
    match table.entry("requires") {
        Some(requires) => {
            binding.requires = read_per_size(reader, sizes, "binding", requires, REQUIRES_EXAMPLE, |reader, entry| {
                read_requires(reader, entry, way, each_length)
            });
        }
        None => table.lacks("requires"),
    }
    report_fabric_twice(reader, &binding);
    if let (Some(tails), Some(extra)) = (binding.tails.at, binding.extra_length.at()) {
        let mend = Some("keep the tails, or keep the extra length, but not both");
        let what = What::RepeatedKey { word: "extra_length".into(), mend };
        reader.report_with(extra, what, tails, "the tails already say how much longer than the edge it must be");
    }
    table.finish(reader, true);
    Some(binding)
}

/// The fabric that the binding is cut from says already how much there is of it.
fn report_fabric_twice(reader: &mut Reader, binding: &Binding) {
    let Some(from) = binding.from.at() else { return };
    for fabric in binding.requires.iter().filter_map(|requires| requires.stated()?.fabric.at()) {
        let mend = Some("take the binding's own amount out, or take `from` out, if it is a fabric by itself");
        let what = What::RepeatedKey { word: "fabric".into(), mend };
        reader.report_with(fabric, what, from, "the binding counts in the sum of this fabric");
    }
}

fn read_requires(
    reader: &mut Reader,
    entry: &Entry<'_>,
    way: Option<Grain>,
    each_length: bool,
) -> Option<BindingRequires> {
    let name = format!("binding requires {}", entry.key);
    let mut table = Table::new(reader, &name, entry.key_at, &entry.value, SIZE_EXAMPLE)?;
    let requires = BindingRequires {
        at: entry.key_at,
        strips: table.optional("strips", |node| reader.count(node)),
        fabric: table.optional("fabric", |node| reader.amount(node)),
        strip_length: table.optional("strip_length", |node| positive(reader, node)),
        square: if way == Some(Grain::Bias) {
            table.optional("square", |node| positive(reader, node))
        } else {
            Field::Absent
        },
    };
    let stated = !(requires.strips.is_absent() && requires.fabric.is_absent() && requires.square.is_absent());
    if !stated {
        table.lacks("strips");
    }
    if each_length && requires.strip_length.is_absent() {
        table.lacks("strip_length");
    }
    table.finish(reader, true);
    Some(requires)
}

/// One length for both tails, or one for each.
fn read_tails(reader: &mut Reader, entry: &Entry<'_>) -> Tails {
    let node = &entry.value;
    if !matches!(node.kind, Kind::Table(_)) {
        let both = reader.length(node, Least::Nothing);
        let at = both.at();
        return Tails { at, start: both.clone(), end: both };
    }
    let Some(mut table) = Table::new(reader, "tails", entry.key_at, node, "{ start: 10, end: 8 }") else {
        return Tails { at: None, start: Field::Unread, end: Field::Unread };
    };
    let tails = Tails {
        at: Some(node.at),
        start: table.required("start", |node| reader.length(node, Least::Nothing)),
        end: table.required("end", |node| reader.length(node, Least::Nothing)),
    };
    table.finish(reader, true);
    let read = |field: Field<_>| if field.is_absent() { Field::Unread } else { field };
    Tails { start: read(tails.start), end: read(tails.end), ..tails }
}

/// A word, or a measured thickness.
fn read_loft(reader: &mut Reader, node: &Node<'_>) -> Field<Loft> {
    let measured = match &node.kind {
        Kind::Scalar { value, .. } => value.starts_with(|c: char| !c.is_alphabetic()),
        _ => false,
    };
    if measured {
        reader.length(node, Least::Nothing).map(Loft::Measured)
    } else {
        reader.word(node, "loft").map(Loft::Word)
    }
}
