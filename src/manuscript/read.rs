//! Reading a whole manuscript.

use crate::quantity::{Measure, Percent, Written};
use crate::subject::SubjectKind;

use super::declared_names::DeclaredNames;
use super::design::{Block, Unit};
use super::kinds::{OneOf, Percentage, Positive, SizeName, Step, Text};
use super::model::{Backing, Batting, Binding, Fabric, Layout, MeasureWord, Measured, Size, SizeLayout};
use super::read_backing::{read_backing, read_batting};
use super::read_binding::read_binding;
use super::read_blocks::{Blocks, read_blocks};
use super::read_extras::{PillowBack, PrairiePoints, Sleeve, read_pillow_back, read_prairie_points, read_sleeve};
use super::read_fabrics::{Fabrics, read_fabrics};
use super::read_layout::read_layout;
use super::read_notions::{Colorway, MAX_NOTIONS, Notion, read_colorways, read_notions};
use super::read_sizes::read_sizes;
use super::read_texts::{MAX_TEXTS, read_texts};
use super::read_units::{Units, read_units};
use super::reader::{Reader, StatedPair};
use super::recovery::Recovered;
use super::replacements::Replacements;
use super::section::LeftOut::{BookValue, Required, Said, Standard};
use super::section::Shape;
use super::section_words::{SectionWords, section};
use super::source::{Flaw, LARGEST_FILE};
use super::table::Table;
use super::tree::{Arena, Break, Built, Entry, Kind, Node, build};
use super::{Field, Keyword, Mistake, MistakeKind, Mistakes, Source, Span, Spanned};

/// How many findings a manuscript may accept.
const MAX_ACCEPTED: usize = 1000;

section!(
    /// A pattern manuscript.
    pub struct Manuscript, "file", "The file", "";
    words {
        pattern: Field<String> = Text, Required, "the pattern's name", "Harbor Lights";
        edition: Field<String> = Text, Said("not printed"), "the edition, in any form", "1";
        designer: Field<String> = Text, Said("not printed"), "who designed it, in your words", "the studio";
        skill: Field<String> = Text, Said("not printed"), "how much skill it takes, in your words", "confident beginner";
        notes: Field<String> = Text, Said("not printed"), "what else to print, in your words", "read all steps first";
    }
    by_hand {
        measure: Measure = Shape::Choice(MeasureWord::NAMES), Required,
            "what a number without a unit is in: `inch` or `cm`", "inch",
            hint("or cm: it says what a number without a unit means");
        assumes: Assumes = Shape::Table(Assumes::SECTION), Said("the standard values below"),
            "what the printed pattern tells its reader", "{ usable_width: 40 }";
        sizes: Vec<Size> = Shape::BySize(&Shape::Table(Size::SECTION)), Required,
            "the sizes the pattern is published in; you choose their names", "{ crib: { finished: 36 x 48 } }";
        binding: Option<Binding> = Shape::Table(Binding::SECTION), Said("nothing is checked"),
            "how the binding is made, and what the pattern prints for each size",
            "{ strip_width: 2 1/2, requires: { crib: { strips: 6 } } }";
        backing: Option<Backing> = Shape::Table(Backing::SECTION), Said("nothing is checked"),
            "how the backing is made, and what the pattern prints for each size",
            "{ requires: { crib: 2 1/2 yd } }";
        batting: Option<Batting> = Shape::Table(Batting::SECTION), Said("nothing is checked"),
            "how large a batting the pattern prints for each size", "{ requires: { crib: 44 x 56 } }";
        sleeve: Option<Sleeve> = Shape::Table(Sleeve::SECTION), Said("nothing is checked"),
            "a hanging sleeve on the back, and how it is cut for each size", "{ depth: 4, requires: { crib: 8 1/2 x 36 } }";
        prairie_points: Option<PrairiePoints> = Shape::Table(PrairiePoints::SECTION), Said("nothing is checked"),
            "folded squares along the edge, and how many for each size", "{ square: 4, requires: { crib: 60 } }";
        pillow_back: Option<PillowBack> = Shape::Table(PillowBack::SECTION), Said("nothing is checked"),
            "the two pieces of a pillow's back, for each size that is a pillow",
            "{ requires: { crib: { first: 36 1/2 x 26, second: 36 1/2 x 29 } } }";
        units: Vec<Unit> = Shape::Named(&Shape::Table(Unit::SECTION)), Said("nothing is checked"),
            "pieces sewn together, and how large each piece is cut; you choose their names",
            "{ corner: { make: patch, finished: 3, cut: { patch: A } } }";
        blocks: Vec<Block> = Shape::Named(&Shape::Table(Block::SECTION)), Said("nothing is checked"),
            "blocks sewn from units, row by row; you choose their names",
            "{ star: { finished: 6, rows: [[corner, corner], [corner, corner]] } }";
        layout: Option<Layout> = Shape::BySize(&Shape::Table(SizeLayout::SECTION)),
            Said("finished sizes and counts of pieces are taken as given"),
            "for each size how blocks, sashing and borders make the quilt",
            "{ crib: { across: 3, down: 4, blocks: star } }";
        fabrics: Vec<Fabric> = Shape::Named(&Shape::Table(Fabric::SECTION)), Said("nothing is checked"),
            "each fabric, what the pattern tells its reader to buy of it, and what is cut from it; you choose their names",
            "{ ink: { requires: { crib: 5/8 yd }, cut: [{ piece: A, size: 3 1/2 x 3 1/2, pieces: { crib: 48 } }] } }";
        notions: Vec<Notion> = Shape::List(&Shape::Either(&[Shape::Text, Shape::Table(Notion::SECTION)]), 0, MAX_NOTIONS),
            Said("none"), "what to have at hand besides fabric, each after a dash", "[60-degree ruler, 4 buttons]";
        colorways: Vec<Colorway> = Shape::Named(&Shape::Named(&Shape::Text)), Said("the one that is shown"),
            "what each fabric is in other color schemes; you choose their names", "{ dusk: { ink: midnight } }";
        texts: Vec<Spanned<String>> = Shape::List(&Shape::Text, 0, MAX_TEXTS), Said("none"),
            "the printed texts to check against it, each a file in its folder or below: Markdown, plain text, HTML, Word, \
             OpenDocument or PDF", "[harbor-lights.md]";
        accepted: Vec<Accepted> = Shape::List(&Shape::Table(Accepted::SECTION), 0, MAX_ACCEPTED), Said("none"),
            "findings that an editor has accepted, each after a dash",
            "[{ rule: spare-strip, size: crib, stated: 5, because: the kit packs an extra strip }]";
    }
    besides {
        /// Whether the measure was read; otherwise it is a guess.
        measure_read: bool,
        /// Whether all units were read, or there are none.
        units_whole: bool,
        /// Whether all blocks were read, or there are none.
        blocks_whole: bool,
        /// Whether all of it was read but for what is accepted, so that nothing that it states was missed.
        whole: bool,
        /// What is stated in both measures.
        pairs: Vec<StatedPair>,
        /// What is wrong with the way it is written down.
        mistakes: Vec<Mistake>,
    }
);

section!(
    /// What the printed pattern tells its reader to go by.
    pub struct Assumes, "assumes", "In `assumes`", "";
    words {
        usable_width: Field<Written> = Positive, BookValue("usable_width"),
            "the width of fabric between the selvedges, after washing and trimming", "40";
        seam: Field<Written> = Positive, BookValue("piecing_seam"),
            "the piecing seam, for units, sashing and borders", "1/4";
        sold_by: Field<Written> = Step, Said("{sold_by}; for metric amounts {sold_by_metric}"),
            "the smallest step in which a shop cuts fabric; in both measures, each for its own", "1/8 yd";
        shrinks: Field<Percent> = Percentage, Said("not at all"),
            "how much shorter fabric from the bolt is after washing, where all of it is washed before it is cut; the usable \
             width is that after washing", "3 %";
        measured: Field<Measured> = OneOf<Measured>, Standard("sewn"),
            "what finished sizes are of: the quilt as it is `sewn`, or the top before binding with the seam allowances at \
             its edges, `raw_edges`", "raw_edges";
    }
    by_hand {}
    besides {}
);

section!(
    /// A finding that the editor has accepted.
    pub struct Accepted, "accepted", "In each item of `accepted`",
        "An editor may accept a finding, with the reason. It is then counted in the summary (\"1 accepted\") and no \
         longer an error. An acceptance holds for one thing and one number: for what the head of the finding has in \
         parentheses, and for the number that the finding says is stated. Where that number changes later, or what is needed is \
         no longer what the acceptance says after `needed`, the finding stands again, and says that another was accepted. An acceptance that does not say all of it accepts nothing, \
         and is a query that says what to write; so is one that nothing needs any more. What cannot be read is \
         corrected, and cannot be accepted.";
    words {
        rule: Field<String> = Text, Required, "the rule, as the finding's head names it", "spare-strip", names_item();
        size: Field<String> = SizeName, Said("a finding for no one size"),
            "the size, where the head of the finding has one in parentheses", "crib", names_item();
        number: Field<String> = Text, Said("the one that the rule is about"),
            "which number it is, where the head names one without a word before it", "binding fabric", names_item();
        fabric: Field<String> = Text, Said("a finding for no fabric"),
            "the fabric, where the head names one; also where it names a piece that other fabrics have", "ink",
            names_item();
        piece: Field<String> = Text, Said("a finding for no piece"), "the piece, where the head names one", "A",
            names_item();
        unit: Field<String> = Text, Said("a finding for no unit"), "the unit, where the head names one", "geese",
            names_item();
        part: Field<String> = Text, Said("a finding for no part of a unit"),
            "the part of the unit, where the head names one", "sky", names_item();
        block: Field<String> = Text, Said("a finding for no block"), "the block, where the head names one", "star",
            names_item();
        row: Field<String> = Text, Said("a finding for no row"), "the row of the block, where the head names one", "2",
            names_item();
        border: Field<String> = Text, Said("a finding for no border"), "the border, where the head names one", "1",
            names_item();
        quote: Field<String> = Text, Said("a finding that is not in a printed text"),
            "the words of the printed text, where the head quotes some", "Cut 6 strips";
        stated: Field<String> = Text, Said("a finding without a number"),
            "the number that is accepted, as the pattern states it", "5";
        needed: Field<String> = Text, Said("whatever is needed"),
            "what is needed where that is accepted: where that changes later, the finding stands again", "6";
        because: Field<String> = Text, Required, "the reason", "the kit packs an extra strip";
    }
    by_hand {}
    besides {
        /// The whole entry.
        at: Span,
    }
);

impl Accepted {
    /// What it names besides the rule and the size.
    pub fn subject(&self) -> [(SubjectKind, &Field<String>); 9] {
        [
            (SubjectKind::Number, &self.number),
            (SubjectKind::Fabric, &self.fabric),
            (SubjectKind::Piece, &self.piece),
            (SubjectKind::Unit, &self.unit),
            (SubjectKind::Part, &self.part),
            (SubjectKind::Block, &self.block),
            (SubjectKind::Row, &self.row),
            (SubjectKind::Border, &self.border),
            (SubjectKind::Quote, &self.quote),
        ]
    }
}

/// Reads a manuscript, whatever state it is in. Its mistakes are in [`Manuscript::mistakes`], by place.
pub fn read(source: &Source) -> Manuscript {
    with_tree(source, read_tree)
}

/// A manuscript with the tree that it was read from, so that it can be read again with another value.
pub(crate) struct ReadText<'s> {
    /// What it states.
    pub(crate) manuscript: Manuscript,
    /// The tree of the whole text; `None` where YAML had a fault.
    tree: Option<Node<'s>>,
}

impl<'s> ReadText<'s> {
    /// Reads a manuscript as [`read`] does, with the tree of it in an arena.
    pub(crate) fn of(source: &'s Source, arena: &'s Arena) -> ReadText<'s> {
        let mut mistakes = mistakes_of_bytes(source);
        match build(&source.text, arena, &[], &mut mistakes) {
            Ok(built) => {
                let is_sound = built.whole && mistakes.count() == 0;
                let manuscript = read_built(source, &built, mistakes, read_tree);
                ReadText { manuscript, tree: is_sound.then_some(built.tree) }
            }
            Err(broken) => ReadText { manuscript: read_mended(source, broken, read_tree), tree: None },
        }
    }

    /// The manuscript that the text would be with numbers in the places of others; `None` where that takes parsing.
    pub(crate) fn with_numbers(&self, numbers: &Replacements<'_>) -> Option<Manuscript> {
        let arena = Arena::new();
        let tree = self.tree.as_ref()?.with_numbers(numbers, &arena)?;
        Some(read_tree(Reader::default(), Some(&tree), true))
    }
}

/// Builds the tree of a text, mended where it is broken, and hands it to `read` with whether it is whole.
/// The mistakes found on the way are in the reader.
pub(crate) fn with_tree<T>(source: &Source, read: impl FnOnce(Reader, Option<&Node<'_>>, bool) -> T) -> T {
    let (mut mistakes, arena) = (mistakes_of_bytes(source), Arena::new());
    match build(&source.text, &arena, &[], &mut mistakes) {
        Ok(built) => read_built(source, &built, mistakes, read),
        Err(broken) => read_mended(source, broken, read),
    }
}

fn read_built<T>(
    source: &Source,
    built: &Built<'_>,
    mistakes: Mistakes,
    read: impl FnOnce(Reader, Option<&Node<'_>>, bool) -> T,
) -> T {
    let readable = source.flaw.is_none_or(|flaw| matches!(flaw, Flaw::NotText(_)));
    read(Reader::after(mistakes, Vec::new()), readable.then_some(&built.tree), readable && built.whole)
}

fn read_mended<T>(source: &Source, broken: Box<Break>, read: impl FnOnce(Reader, Option<&Node<'_>>, bool) -> T) -> T {
    // What was found before the break is found again when the text is read anew.
    let (mut mistakes, arena) = (mistakes_of_bytes(source), Arena::new());
    let mended = Recovered::new(&source.text, broken);
    let (tree, whole) = mended.tree(&arena, &mut mistakes);
    // Spaces stand where a character of several bytes was, and a block of text may begin among them.
    let tree = tree.map(|tree| tree.between_characters_of(&source.text, &arena));
    mistakes.place_between_characters_of(&source.text);
    read(Reader::after(mistakes, mended.holes()), tree.as_ref(), whole)
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
            (start, MistakeKind::TooMany { why })
        }
        Flaw::Utf16 => {
            let why = "the file is saved as UTF-16".to_string();
            (start, MistakeKind::NotYaml { why, mend: "save it as UTF-8: most editors offer that under Save As" })
        }
        Flaw::NotText(at) => {
            let why = "this byte is not part of any UTF-8 character".to_string();
            (at, MistakeKind::NotYaml { why, mend: "save the file as UTF-8 and type the character again" })
        }
    };
    Mistake { at, what, related: None }
}

fn read_tree(mut reader: Reader, tree: Option<&Node<'_>>, whole: bool) -> Manuscript {
    let mut manuscript = Manuscript::default();
    match tree {
        Some(tree) if matches!(tree.kind, Kind::Empty) && whole => {
            let (word, example) = (Manuscript::pattern.word, Manuscript::pattern.entry());
            reader.report(tree.at, MistakeKind::MissingEntry { word, example, place: "the file".into() });
        }
        Some(tree) => {
            // An empty place at the first entry: what the file lacks is not the fault of any word in it.
            let start = match &tree.kind {
                Kind::Table(entries) => entries.first().map_or(tree.at, |entry| entry.key_at),
                _ => tree.at,
            };
            if let Some(table) = Table::new(&mut reader, "the file", start, tree, "pattern: Harbor Lights") {
                read_file(&mut reader, table, whole, &mut manuscript);
            }
        }
        None => {}
    }
    manuscript.pairs = reader.take_pairs();
    manuscript.mistakes = reader.into_mistakes();
    manuscript
}

fn read_file(reader: &mut Reader, mut table: Table<'_, '_>, whole: bool, manuscript: &mut Manuscript) {
    let known = DeclaredNames::default();
    *manuscript = Manuscript::read_words(&mut table, reader, &known);
    let measure = table.expected(Manuscript::measure);
    let measure = measure.map_or(Field::Absent, |entry| reader.word::<MeasureWord>(&entry.value, "measure"));
    manuscript.measure = match measure.value() {
        Some(MeasureWord::Cm) => Measure::Cm,
        Some(MeasureWord::Inch) | None => Measure::Inch,
    };
    manuscript.measure_read = measure.stated().is_some();
    reader.measure = manuscript.measure;
    manuscript.assumes = table.entry(Manuscript::assumes).map(|entry| read_assumes(reader, entry)).unwrap_or_default();
    let sizes = table.expected(Manuscript::sizes).map(|entry| read_sizes(reader, entry)).unwrap_or_default();
    let size_names = sizes.names();
    let known = DeclaredNames { sizes: &size_names, ..known };
    let fabrics = table.entry(Manuscript::fabrics);
    let fabrics = fabrics.map_or_else(Fabrics::default, |entry| read_fabrics(reader, &known, entry));
    let (fabric_names, pieces) = (fabrics.names(), fabrics.piece_names());
    let known = DeclaredNames { fabrics: &fabric_names, pieces: &pieces, ..known };
    if let Some(entry) = table.entry(Manuscript::notions) {
        manuscript.notions = read_notions(reader, &known, entry);
    }
    if let Some(entry) = table.entry(Manuscript::colorways) {
        manuscript.colorways = read_colorways(reader, &fabric_names, entry);
    }
    manuscript.binding = table.entry(Manuscript::binding).and_then(|entry| read_binding(reader, &known, entry));
    manuscript.backing = table.entry(Manuscript::backing).and_then(|entry| read_backing(reader, &known, entry));
    manuscript.batting = table.entry(Manuscript::batting).and_then(|entry| read_batting(reader, &known, entry));
    manuscript.sleeve = table.entry(Manuscript::sleeve).and_then(|entry| read_sleeve(reader, &known, entry));
    let points = table.entry(Manuscript::prairie_points);
    manuscript.prairie_points = points.and_then(|entry| read_prairie_points(reader, &known, entry));
    let pillow = table.entry(Manuscript::pillow_back);
    manuscript.pillow_back = pillow.and_then(|entry| read_pillow_back(reader, &known, entry));
    let units = table.entry(Manuscript::units);
    let units = units.map_or_else(Units::default, |entry| read_units(reader, &known, entry));
    let unit_names = units.names();
    let known = DeclaredNames { units: &unit_names, ..known };
    let blocks = table.entry(Manuscript::blocks);
    let blocks = blocks.map_or_else(Blocks::default, |entry| read_blocks(reader, &known, &units, entry));
    let block_names = blocks.names();
    let known = DeclaredNames { blocks: &block_names, ..known };
    manuscript.layout = table.entry(Manuscript::layout).map(|entry| read_layout(reader, &known, entry));
    if let Some(entry) = table.entry(Manuscript::texts) {
        manuscript.texts = read_texts(reader, entry);
    }
    let before = reader.mistakes();
    if let Some(entry) = table.entry(Manuscript::accepted) {
        manuscript.accepted = read_accepted(reader, &known, entry);
    }
    let in_accepted = reader.mistakes() - before;
    table.finish(reader, whole);
    manuscript.whole = whole && reader.mistakes() == in_accepted;
    (manuscript.units_whole, manuscript.blocks_whole) = (units.whole || !units.stated, blocks.whole || !blocks.stated);
    (manuscript.units, manuscript.blocks) = (units.list, blocks.list);
    (manuscript.sizes, manuscript.fabrics) = (sizes.list, fabrics.list);
}

fn read_assumes(reader: &mut Reader, entry: &Entry<'_>) -> Assumes {
    let Some(mut table) = Table::new(reader, "assumes", entry.key_at, &entry.value, "usable_width: 40") else {
        return Assumes::unread();
    };
    let assumes = Assumes::read_words(&mut table, reader, &DeclaredNames::default());
    table.finish(reader, true);
    assumes
}

fn read_accepted(reader: &mut Reader, known: &DeclaredNames<'_>, entry: &Entry<'_>) -> Vec<Accepted> {
    let items = match &entry.value.kind {
        Kind::List(items) => items,
        Kind::Empty | Kind::Unread => return Vec::new(),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list, each item after a dash";
            let example = "- { rule: spare-strip, size: crib, stated: 5, because: the kit packs an extra strip }";
            reader.report(entry.key_at, MistakeKind::WrongShape { word: "accepted".into(), expected, example });
            return Vec::new();
        }
    };
    if let Some(beyond) = items.get(MAX_ACCEPTED) {
        let why =
            format!("a manuscript may accept {MAX_ACCEPTED} findings at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
    }
    items.iter().take(MAX_ACCEPTED).filter_map(|item| read_acceptance(reader, known, item)).collect()
}

fn read_acceptance(reader: &mut Reader, known: &DeclaredNames<'_>, node: &Node<'_>) -> Option<Accepted> {
    let example = "{ rule: spare-strip, size: crib, stated: 5, because: the kit packs an extra strip }";
    let mut table = Table::new(reader, "accepted", node.start(), node, example)?;
    let accepted = Accepted { at: node.at, ..Accepted::read_words(&mut table, reader, known) };
    table.finish(reader, true);
    Some(accepted)
}
