//! Reading a whole manuscript.

use crate::quantity::Measure;

use super::mending::Mended;
use super::model::{Accepted, Assumes, Manuscript, MeasureWord};
use super::read_backing::{read_backing, read_batting};
use super::read_binding::read_binding;
use super::read_blocks::{Blocks, read_blocks};
use super::read_fabrics::{Fabrics, read_fabrics};
use super::read_layout::{Names, read_layout};
use super::read_sizes::{Sizes, positive, read_size_name, read_sizes};
use super::read_units::{Pieces, Units, read_units};
use super::reader::Reader;
use super::source::{Flaw, LARGEST_FILE};
use super::table::Table;
use super::tree::{Built, Entry, Kind, Node, build};
use super::{Field, Mistake, Mistakes, Source, Span, What};

/// How many findings a manuscript may accept.
const MOST_ACCEPTED: usize = 1000;

/// Reads a manuscript, whatever state it is in. Its mistakes are in [`Manuscript::mistakes`], by place.
pub fn read(source: &Source) -> Manuscript {
    with_tree(source, read_tree)
}

/// Builds the tree of a text, mended where it is broken, and hands it to `read` with whether it is whole.
/// The mistakes found on the way are in the reader.
pub(crate) fn with_tree<T>(source: &Source, read: impl FnOnce(Reader, Option<&Node<'_>>, bool) -> T) -> T {
    let readable = source.flaw.is_none_or(|flaw| matches!(flaw, Flaw::NotText(_)));
    let mut mistakes = mistakes_of_bytes(source);
    match build(&source.text, &[], &mut mistakes) {
        Ok(Built { tree, whole }) => {
            read(Reader::after(mistakes, Vec::new()), readable.then_some(&tree), readable && whole)
        }
        Err(broken) => {
            // What was found before the break is found again when the text is read anew.
            let mut mistakes = mistakes_of_bytes(source);
            let mended = Mended::new(&source.text, broken);
            let (tree, whole) = mended.tree(&mut mistakes);
            read(Reader::after(mistakes, mended.holes()), tree.as_ref(), whole)
        }
    }
}

fn mistakes_of_bytes(source: &Source) -> Mistakes {
    let mut mistakes = Mistakes::default();
    if let Some(flaw) = source.flaw {
        mistakes.add(in_words(source, flaw));
    }
    mistakes
}

fn in_words(source: &Source, flaw: Flaw) -> Mistake {
    let start = Span::new(0, source.text.chars().next().map_or(0, char::len_utf8));
    let (at, what) = match flaw {
        Flaw::TooLarge => {
            let why = format!("the file is larger than {} MiB, the most that a manuscript may be", LARGEST_FILE >> 20);
            (start, What::OutOfRange { why })
        }
        Flaw::Utf16 => {
            let why = "the file is saved as UTF-16".to_string();
            (start, What::NotYaml { why, mend: "save it as UTF-8: most editors offer that under Save As" })
        }
        Flaw::NotText(at) => {
            let why = "this byte is not part of any UTF-8 character".to_string();
            (at, What::NotYaml { why, mend: "save the file as UTF-8 and type the character again" })
        }
    };
    Mistake { at, what, related: None }
}

fn read_tree(mut reader: Reader, tree: Option<&Node<'_>>, whole: bool) -> Manuscript {
    let mut manuscript = Manuscript::default();
    match tree {
        Some(tree) if matches!(tree.kind, Kind::Empty) && whole => {
            reader.report(tree.at, What::MissingEntry { word: "pattern", place: "the file".into() });
        }
        Some(tree) => {
            // An empty place at the first entry: what the file lacks is not the fault of any word in it.
            let start = match &tree.kind {
                Kind::Table(entries) => entries.first().map_or(tree.at, |entry| entry.key_at),
                _ => tree.at,
            };
            if let Some(table) = Table::new(&mut reader, "the file", start, tree, "pattern: Harbour Lights") {
                read_file(&mut reader, table, whole, &mut manuscript);
            }
        }
        None => {}
    }
    manuscript.mistakes = reader.into_mistakes();
    manuscript
}

fn read_file(reader: &mut Reader, mut table: Table<'_, '_>, whole: bool, manuscript: &mut Manuscript) {
    manuscript.pattern = table.required("pattern", |node| reader.text(node));
    manuscript.edition = table.optional("edition", |node| reader.text(node));
    let measure = table.required("measure", |node| reader.word::<MeasureWord>(node, "measure"));
    manuscript.measure = match measure.value() {
        Some(MeasureWord::Cm) => Measure::Cm,
        Some(MeasureWord::Inch) | None => Measure::Inch,
    };
    manuscript.measure_read = measure.stated().is_some();
    reader.measure = manuscript.measure;
    if let Some(entry) = table.entry("assumes") {
        manuscript.assumes = read_assumes(reader, entry);
    }
    let sizes = match table.entry("sizes") {
        Some(entry) => read_sizes(reader, entry),
        None => {
            table.lacks("sizes");
            Sizes::default()
        }
    };
    let fabrics = table.entry("fabrics").map_or_else(Fabrics::default, |entry| read_fabrics(reader, &sizes, entry));
    if let Some(entry) = table.entry("binding") {
        manuscript.binding = read_binding(reader, &sizes, &fabrics, entry);
    }
    if let Some(entry) = table.entry("backing") {
        manuscript.backing = read_backing(reader, &sizes, entry);
    }
    if let Some(entry) = table.entry("batting") {
        manuscript.batting = read_batting(reader, &sizes, entry);
    }
    let units = table.entry("units").map_or_else(Units::default, |entry| read_units(reader, &fabrics, entry));
    let blocks = table.entry("blocks").map_or_else(Blocks::default, |entry| read_blocks(reader, &units, entry));
    if let Some(entry) = table.entry("layout") {
        let names = Names { pieces: Pieces::of(&fabrics), units: &units, blocks: &blocks };
        manuscript.layout = Some(read_layout(reader, &sizes, &names, entry));
    }
    (manuscript.units, manuscript.units_whole) = (units.list, units.whole || !units.stated);
    (manuscript.blocks, manuscript.blocks_whole) = (blocks.list, blocks.whole || !blocks.stated);
    manuscript.fabrics = fabrics.list;
    if let Some(entry) = table.entry("accepted") {
        manuscript.accepted = read_accepted(reader, &sizes, entry);
    }
    manuscript.sizes = sizes.list;
    table.finish(reader, whole);
}

fn read_assumes(reader: &mut Reader, entry: &Entry<'_>) -> Assumes {
    let Some(mut table) = Table::new(reader, "assumes", entry.key_at, &entry.value, "usable_width: 40") else {
        return Assumes { usable_width: Field::Unread, seam: Field::Unread, sold_by: Field::Unread };
    };
    let assumes = Assumes {
        usable_width: table.optional("usable_width", |node| positive(reader, node)),
        seam: table.optional("seam", |node| positive(reader, node)),
        sold_by: table.optional("sold_by", |node| positive(reader, node)),
    };
    table.finish(reader, true);
    assumes
}

fn read_accepted(reader: &mut Reader, sizes: &Sizes, entry: &Entry<'_>) -> Vec<Accepted> {
    let items = match &entry.value.kind {
        Kind::List(items) => items,
        Kind::Empty | Kind::Unread => return Vec::new(),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each item after a dash";
            let example = "- { rule: spare-strip, size: crib, because: the kit packs an extra strip }";
            reader.report(entry.key_at, What::WrongShape { word: "accepted".into(), expected, example });
            return Vec::new();
        }
    };
    if let Some(beyond) = items.get(MOST_ACCEPTED) {
        let why =
            format!("a manuscript may accept {MOST_ACCEPTED} findings at most; this one and what follows are not read");
        reader.report(beyond.start(), What::OutOfRange { why });
    }
    items.iter().take(MOST_ACCEPTED).filter_map(|item| read_acceptance(reader, sizes, item)).collect()
}

fn read_acceptance(reader: &mut Reader, sizes: &Sizes, node: &Node<'_>) -> Option<Accepted> {
    let example = "{ rule: spare-strip, size: crib, because: the kit packs an extra strip }";
    let mut table = Table::new(reader, "accepted", node.start(), node, example)?;
    let accepted = Accepted {
        at: node.at,
        rule: table.required("rule", |node| reader.text(node)),
        size: table.optional("size", |node| read_size_name(reader, sizes, node)),
        because: table.required("because", |node| reader.text(node)),
    };
    table.finish(reader, true);
    Some(accepted)
}
