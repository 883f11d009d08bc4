//! What each stated number depends on: the entries that the number needed at its place is computed from.
//!
//! One function a section, in the order of the computation: layout, counts, pieces, strips, amounts; finished size,
//! binding, backing, batting. An entry too many is harmless, for what follows from a mistake is always tried.

use std::collections::BTreeSet;

use crate::manuscript::design::{Block, CutFrom, Entries as AllEntries, Make, PieceRef, Sewn, Unit};
use crate::manuscript::model::{Binding, Border, Cut, Fabric, Manuscript, PerSize, Size, SizeLayout};
use crate::manuscript::{BySize, Field, Span, SpanIndex};
use crate::quantity::{Count, Written};

/// The entries that some numbers of a manuscript are computed from.
#[derive(Debug)]
pub struct Dependencies {
    /// The places of the numbers.
    numbers: SpanIndex,
    /// The places of the entries of each.
    entries: Vec<Vec<Span>>,
    /// What is asked the other way round, where it is.
    readers: Option<Readers>,
}

/// The numbers that are computed from some entries.
#[derive(Debug)]
struct Readers {
    /// The places of the entries.
    asked: SpanIndex,
    /// The places of the numbers that read each.
    numbers: Vec<BTreeSet<Span>>,
}

impl Dependencies {
    /// What the numbers at some places depend on.
    pub fn of(manuscript: &Manuscript, numbers: impl IntoIterator<Item = Span>) -> Dependencies {
        let numbers: Vec<Span> = numbers.into_iter().collect();
        let entries = vec![Vec::new(); numbers.len()];
        let mut dependencies = Dependencies { numbers: SpanIndex::new(numbers), entries, readers: None };
        dependencies.gather(manuscript);
        dependencies
    }

    /// The places of all numbers that are computed from what stands at each of some places.
    pub fn readers(manuscript: &Manuscript, places: &[Span]) -> Vec<BTreeSet<Span>> {
        let numbers = vec![BTreeSet::new(); places.len()];
        let readers = Readers { asked: SpanIndex::new(places.iter().copied()), numbers };
        let mut dependencies =
            Dependencies { numbers: SpanIndex::new([]), entries: Vec::new(), readers: Some(readers) };
        dependencies.gather(manuscript);
        dependencies.readers.map(|readers| readers.numbers).unwrap_or_default()
    }

    fn gather(&mut self, manuscript: &Manuscript) {
        for (index, size) in manuscript.sizes.iter().enumerate() {
            self.finished_size(manuscript, index, size);
            self.binding_of(manuscript, index, size);
            self.backing_of(manuscript, index, size);
            self.batting_of(manuscript, index, size);
            self.extras_of(manuscript, index, size);
        }
        self.method(manuscript);
        self.fabrics(manuscript);
        self.units(manuscript);
        self.blocks(manuscript);
        for layout in (0..manuscript.sizes.len()).filter_map(|index| layout(manuscript, index)) {
            self.layout(manuscript, layout);
        }
    }

    /// The entries that a number is computed from, by its place among those that were given.
    pub fn entries(&self, number: usize) -> &[Span] {
        self.entries.get(number).map_or(&[], Vec::as_slice)
    }

    /// Whether any of some numbers was asked about, so that nothing is gathered for the others.
    fn asks<const N: usize>(&self, numbers: [Option<Span>; N]) -> bool {
        let is_asked = |number| self.readers.is_some() || self.numbers.overlapping(number).next().is_some();
        numbers.into_iter().flatten().any(is_asked)
    }

    fn add(&mut self, number: Option<Span>, entries: &Entries) {
        let Some(number) = number else { return };
        for index in self.numbers.overlapping(number) {
            self.entries[index].extend(&entries.0);
        }
        if let Some(Readers { asked, numbers }) = &mut self.readers {
            for read in entries.0.iter().flat_map(|entry| asked.overlapping(*entry)) {
                numbers[read].insert(number);
            }
        }
    }

    /// The finished size: what the layout makes, and the bed that it is for.
    fn finished_size(&mut self, manuscript: &Manuscript, index: usize, size: &Size) {
        let layout = layout(manuscript, index);
        let measures = layout.into_iter().flat_map(SizeLayout::steps_measured).map(|(_, measures)| measures.at());
        let numbers = measures.chain([size.finished.at(), layout.and_then(|layout| layout.blocks.at())]);
        if !numbers.into_iter().any(|number| self.asks([number])) {
            return;
        }
        let mut entries = Entries::default();
        entries.field(&size.bed).field(&size.drop).field(&size.tuck).field(&size.outline);
        if let Some(layout) = layout {
            entries.layout(manuscript, layout);
            let mut counted = Entries::default();
            counted.field(&layout.across).field(&layout.down).field(&layout.set);
            counted.field(&layout.rows).field(&layout.columns).field(&layout.times);
            self.add(layout.blocks.at(), &counted);
            for (_, measures) in layout.steps_measured() {
                self.add(measures.at(), &entries);
            }
        }
        self.add(size.finished.at(), &entries);
    }

    /// Whether rows fit one another, and what borders are sewn from their sides.
    fn layout(&mut self, manuscript: &Manuscript, layout: &SizeLayout) {
        let rows =
            || [&layout.rows, &layout.columns].into_iter().filter_map(Field::stated).flat_map(|rows| &rows.value);
        let rows = rows().flat_map(|row| row.blocks.iter().map(|blocks| blocks.at).chain([row.at]));
        let sewn = layout.borders.iter().flat_map(|border| {
            [(border.of.at(), border.of.value()), (border.corner_of.at(), border.corner_of.value())]
        });
        let sewn: Vec<(Span, Sewn)> = sewn.filter_map(|(at, sewn)| at.zip(sewn)).collect();
        let triangles = [&layout.sash_of, &layout.side_triangles, &layout.corner_triangles];
        let numbers: Vec<Span> = rows.chain(triangles.iter().filter_map(|unit| unit.at())).collect();
        if !numbers.iter().chain(sewn.iter().map(|(at, _)| at)).any(|at| self.asks([Some(*at)])) {
            return;
        }
        let mut entries = Entries::default();
        entries.layout(manuscript, layout);
        for unit in triangles.into_iter().filter_map(|unit| manuscript.units.get(unit.value()?)) {
            entries.field(&unit.finished);
        }
        for at in numbers {
            self.add(Some(at), &entries);
        }
        for (at, sewn) in sewn {
            let mut own = Entries(entries.0.clone());
            if let Some(finished) = finished(manuscript, sewn) {
                own.field(finished);
            }
            self.add(Some(at), &own);
        }
    }

    fn binding_of(&mut self, manuscript: &Manuscript, index: usize, size: &Size) {
        let Some(binding) = &manuscript.binding else { return };
        let Some(stated) = binding.requires.get(index).and_then(PerSize::stated) else { return };
        let fabric = [stated.strips.at(), stated.fabric.at()];
        if !self.asks(fabric) && !self.asks([stated.square.at(), stated.length.at(), stated.flange.at()]) {
            return;
        }
        let mut entries = Entries::default();
        entries.binding(manuscript, binding).edge(size).field(&stated.strip_length);
        self.add(stated.square.at(), &entries);
        self.add(stated.length.at(), &entries);
        let mut flange = Entries(entries.0.clone());
        flange.field(&stated.strips).field(&manuscript.assumes.seam);
        self.add(stated.flange.at(), &flange);
        entries.field(&stated.strips).field(&stated.square);
        self.add(stated.fabric.at(), &entries);
        // Bias strips are as long as the fabric allows.
        entries.field(&stated.fabric);
        self.add(stated.strips.at(), &entries);
    }

    /// What is stated of the binding for all sizes.
    fn method(&mut self, manuscript: &Manuscript) {
        let Some(binding) = &manuscript.binding else { return };
        let tails = [binding.tails.start.at(), binding.tails.end.at()];
        let widths = binding.strip_width.stated().map(|(_, width)| Some(width.at));
        let numbers = [binding.opening.at(), binding.grain.at(), binding.flange.at()];
        let numbers: Vec<Option<Span>> = numbers.into_iter().chain(tails).chain(widths).collect();
        if !numbers.iter().any(|number| self.asks([*number])) {
            return;
        }
        let mut entries = Entries::default();
        entries.binding(manuscript, binding);
        for size in &manuscript.sizes {
            entries.edge(size);
        }
        for number in numbers {
            self.add(number, &entries);
        }
    }

    fn backing_of(&mut self, manuscript: &Manuscript, index: usize, size: &Size) {
        let Some(backing) = &manuscript.backing else { return };
        let Some(stated) = backing.requires.get(index).and_then(PerSize::stated) else { return };
        if !self.asks([stated.size.at(), stated.panels.at(), stated.fabric.at()]) {
            return;
        }
        let mut entries = Entries::default();
        entries.field(&size.finished).by_size(&backing.overhang).field(&backing.seam).field(&backing.usable_width);
        entries.field(&backing.shrinks);
        entries.field(&backing.directional).field(&stated.panels_run).by_size(&backing.insert).shop(manuscript);
        if let Some(fabric) = backing.from.value().and_then(|from| manuscript.fabrics.get(from)) {
            entries.cloth(fabric);
        }
        self.add(stated.size.at(), &entries);
        entries.field(&stated.size);
        if let Some(batting) = batting(manuscript, index) {
            entries.place(batting);
        }
        self.add(stated.panels.at(), &entries);
        entries.field(&stated.panels);
        self.add(stated.fabric.at(), &entries);
    }

    fn batting_of(&mut self, manuscript: &Manuscript, index: usize, size: &Size) {
        let Some(stated) = batting(manuscript, index).filter(|stated| self.asks([Some(*stated)])) else { return };
        let mut entries = Entries::default();
        entries.field(&size.finished);
        if let Some(batting) = &manuscript.batting {
            entries.by_size(&batting.overhang).field(&batting.shrinks);
        }
        if let Some(backing) = &manuscript.backing {
            entries.by_size(&backing.overhang);
            if let Some(backing) = backing.requires.get(index).and_then(PerSize::stated) {
                entries.field(&backing.size).field(&backing.fabric).field(&backing.panels);
            }
        }
        self.add(Some(stated), &entries);
    }

    fn extras_of(&mut self, manuscript: &Manuscript, index: usize, size: &Size) {
        if manuscript.sleeve.is_none() && manuscript.prairie_points.is_none() && manuscript.pillow_back.is_none() {
            return;
        }
        let mut entries = Entries::default();
        entries.field(&size.finished).field(&manuscript.assumes.seam);
        if let Some(sleeve) = &manuscript.sleeve {
            let mut own = Entries(entries.0.clone());
            own.field(&sleeve.depth).field(&sleeve.seam).field(&sleeve.hem);
            self.add(sleeve.requires.get(index).and_then(PerSize::stated).map(|cut| cut.at), &own);
        }
        if let Some(points) = &manuscript.prairie_points {
            let mut own = Entries(entries.0.clone());
            own.field(&points.square).field(&points.seam).field(&points.overlap);
            self.add(points.requires.get(index).and_then(PerSize::stated).map(|count| count.at), &own);
        }
        if let Some(back) = &manuscript.pillow_back {
            let Some(pieces) = back.requires.get(index).and_then(PerSize::stated) else { return };
            entries.field(&back.seam).field(&back.hem).field(&back.overlap);
            entries.field(&pieces.first).field(&pieces.second);
            self.add(pieces.first.at(), &entries);
            self.add(pieces.second.at(), &entries);
        }
    }

    fn fabrics(&mut self, manuscript: &Manuscript) {
        for (fabric, stated) in manuscript.fabrics.iter().enumerate() {
            for (index, size) in manuscript.sizes.iter().enumerate() {
                self.bought(manuscript, fabric, stated, index, size);
            }
            for cut in 0..stated.cut.len() {
                self.piece(manuscript, PieceRef::entry(fabric, cut), &stated.cut[cut]);
            }
        }
    }

    /// What is bought of a fabric for one size: what is cut from it.
    fn bought(&mut self, manuscript: &Manuscript, fabric: usize, stated: &Fabric, index: usize, size: &Size) {
        let Some(bought) = stated.requires.get(index).and_then(PerSize::stated) else { return };
        if !self.asks([Some(bought.at()), stated.instead(index).map(|instead| instead.bought.at())]) {
            return;
        }
        let mut entries = Entries::default();
        entries.shop(manuscript).cloth(stated);
        for cut in &stated.cut {
            entries.cut(cut).counts(cut, index);
        }
        if let Some(binding) = manuscript.binding.as_ref().filter(|binding| binding.from.value() == Some(fabric)) {
            entries.binding(manuscript, binding).edge(size);
            if let Some(stated) = binding.requires.get(index).and_then(PerSize::stated) {
                entries.field(&stated.strips).field(&stated.strip_length);
            }
        }
        if let Some(backing) = manuscript.backing.as_ref().filter(|backing| backing.from.value() == Some(fabric)) {
            entries.field(&size.finished).by_size(&backing.overhang).by_size(&backing.insert).field(&backing.seam);
            entries.field(&backing.usable_width).field(&backing.directional);
            if let Some(stated) = backing.requires.get(index).and_then(PerSize::stated) {
                entries.field(&stated.size).field(&stated.panels).field(&stated.panels_run);
            }
        }
        self.add(Some(bought.at()), &entries);
        self.add(stated.instead(index).map(|instead| instead.bought.at()), &entries);
    }

    /// A piece: its cut size, and how many of it are cut for each size.
    fn piece(&mut self, manuscript: &Manuscript, piece: PieceRef, cut: &Cut) {
        let users = || manuscript.units.iter().filter(|unit| takes(manuscript, unit, piece));
        let sizes = cut.size.stated().map(|(_, size)| size.at);
        let slanted = cut.slanted().into_iter().flat_map(|shaped| {
            let heights = shaped.height.stated().map(|(_, height)| height.at);
            shaped.size.stated().map(|(_, size)| size.at).chain(heights)
        });
        let widths = cut.strip_width.stated().map(|(_, width)| width.at);
        let stated: Vec<Span> = sizes.chain(slanted).chain(widths).collect();
        if stated.iter().any(|at| self.asks([Some(*at)])) {
            let mut entries = Entries::default();
            entries.field(&manuscript.assumes.seam);
            if let Some(fabric) = manuscript.fabrics.get(piece.fabric) {
                entries.shop(manuscript).cloth(fabric);
                if let Some(strips) = cut.within.and_then(|strips| fabric.cut.get(strips)) {
                    entries.cut(strips);
                }
            }
            for unit in users() {
                entries.unit(unit);
            }
            for layout in (0..manuscript.sizes.len()).filter_map(|index| layout(manuscript, index)) {
                entries.layout(manuscript, layout);
            }
            // What takes the place of another piece is cut as that is.
            let recolored = manuscript.blocks.iter().flat_map(|block| &block.recolored);
            for one in recolored.filter(|one| one.to.means(piece, manuscript.fabrics.iter())) {
                entries.cut(&manuscript.fabrics[one.from.fabric].cut[one.from.cut]);
            }
            for at in stated {
                self.add(Some(at), &entries);
            }
        }
        for (index, (strips, pieces)) in cut.strips.iter().zip(&cut.pieces).enumerate() {
            let each = cut.pieces_from_each.get(index).and_then(Field::at);
            if !self.asks([strips.at(), pieces.at(), each]) {
                continue;
            }
            let mut entries = Entries::default();
            entries.shop(manuscript).cut(cut).cloth(&manuscript.fabrics[piece.fabric]);
            let list = &manuscript.fabrics[piece.fabric].cut;
            if let Some(along) = cut.beside_entry.and_then(|along| list.get(along)) {
                entries.cut(along).counts(along, index);
            }
            for member in list.iter().filter(|member| member.within == Some(piece.cut)) {
                entries.cut(member).counts(member, index);
            }
            for unit in users() {
                entries.unit(unit);
            }
            if let Some(layout) = layout(manuscript, index) {
                entries.layout(manuscript, layout);
            }
            // Pieces of one name are counted together.
            for other in (PieceRef { of: AllEntries::OfAll, ..piece }).entries(manuscript.fabrics.iter()) {
                let other = &manuscript.fabrics[other.fabric].cut[other.cut];
                if other.at != cut.at {
                    entries.counts(other, index);
                }
            }
            // What each gives is the share of all, and where each small fabric gives the same, of so many as are bought.
            let bought = manuscript.fabrics[piece.fabric].requires.get(index).and_then(PerSize::stated);
            entries.optional(bought.map(crate::manuscript::model::Bought::at)).optional(each);
            self.add(pieces.at(), &entries);
            entries.field(pieces);
            self.add(each, &entries);
            self.add(strips.at(), &entries);
        }
    }

    fn units(&mut self, manuscript: &Manuscript) {
        for unit in &manuscript.units {
            let mut entries = Entries::default();
            entries.unit(unit).field(&manuscript.assumes.seam);
            for part in unit.cut.iter().filter_map(|part| piece(manuscript, part.from.value()?)) {
                entries.cut(part);
            }
            let mut logs = Entries::default();
            logs.field(&unit.center).field(&unit.logs).field(&unit.order);
            // What sets blocks on point is made for them, and their sashing.
            if unit.make.value().is_some_and(Make::sets_blocks) && self.asks([unit.finished.at()]) {
                for layout in (0..manuscript.sizes.len()).filter_map(|index| layout(manuscript, index)) {
                    logs.layout(manuscript, layout);
                }
            }
            self.add(unit.finished.at(), &logs);
            for number in [unit.trim.at(), unit.segment.at(), unit.yields.at(), unit.cut_at] {
                self.add(number, &entries);
            }
            self.made(manuscript, &unit.makes, Some(&unit.yields));
            for part in &unit.cut {
                self.add(part.from.at(), &entries);
            }
        }
    }

    fn blocks(&mut self, manuscript: &Manuscript) {
        for block in &manuscript.blocks {
            let mut entries = Entries::default();
            let places = block.rows.iter().flat_map(|row| &row.places);
            for finished in places.filter_map(|place| finished(manuscript, place.value()?.sewn)) {
                entries.field(finished);
            }
            entries.field(&block.finished);
            if block.like.is_absent() {
                for row in &block.rows {
                    self.add(Some(row.at), &entries);
                    entries.place(row.at);
                }
                self.add(block.finished.at(), &entries);
            }
            let mut finished = Entries::default();
            finished.field(&block.finished).field(&manuscript.assumes.seam);
            self.add(block.unfinished.at(), &finished);
            self.made(manuscript, &block.makes, None);
        }
    }

    /// How many the text says to make: what the layouts take.
    fn made(&mut self, manuscript: &Manuscript, makes: &BySize<Count>, yields: Option<&Field<Count>>) {
        for index in 0..manuscript.sizes.len() {
            let (number, layout) = (makes.of(index).at(), layout(manuscript, index));
            let Some(layout) = layout.filter(|_| self.asks([number])) else { continue };
            let mut entries = Entries::default();
            entries.layout(manuscript, layout).optional(yields.and_then(Field::at));
            self.add(number, &entries);
        }
    }
}

/// The entries that one number is computed from.
#[derive(Debug, Default)]
struct Entries(Vec<Span>);

impl Entries {
    fn place(&mut self, at: Span) -> &mut Entries {
        self.0.push(at);
        self
    }

    fn optional(&mut self, at: Option<Span>) -> &mut Entries {
        self.0.extend(at);
        self
    }

    fn field<T>(&mut self, field: &Field<T>) -> &mut Entries {
        self.optional(field.at())
    }

    /// What is stated once, or for each size.
    fn by_size<T>(&mut self, stated: &BySize<T>) -> &mut Entries {
        self.0.extend(stated.stated().map(|(_, stated)| stated.at));
        self
    }

    /// What the shop sells by, and the width of what it sells.
    fn shop(&mut self, manuscript: &Manuscript) -> &mut Entries {
        let assumes = &manuscript.assumes;
        self.field(&assumes.usable_width).field(&assumes.sold_by).field(&assumes.shrinks)
    }

    fn edge(&mut self, size: &Size) -> &mut Entries {
        self.field(&size.finished).field(&size.outline)
    }

    fn binding(&mut self, manuscript: &Manuscript, binding: &Binding) -> &mut Entries {
        self.shop(manuscript)
            .field(&binding.from)
            .by_size(&binding.strip_width)
            .field(&binding.flange)
            .field(&binding.fold);
        self.field(&binding.seam).field(&binding.loft).field(&binding.join).field(&binding.grain);
        self.field(&binding.finish)
            .field(&binding.ends)
            .field(&binding.tails.start)
            .field(&binding.tails.end)
            .field(&binding.opening);
        self.field(&binding.extra_length).field(&binding.strip_length).field(&binding.usable_width);
        if let Some(fabric) = binding.from.value().and_then(|from| manuscript.fabrics.get(from)) {
            self.cloth(fabric);
        }
        self
    }

    fn cloth(&mut self, fabric: &Fabric) -> &mut Entries {
        self.field(&fabric.usable_width).field(&fabric.directional).field(&fabric.sold_as).field(&fabric.precut);
        self.field(&fabric.pack).field(&fabric.from_each).field(&fabric.shrinks).field(&fabric.repeat);
        for different in &fabric.different {
            self.field(different);
        }
        self
    }

    fn cut(&mut self, cut: &Cut) -> &mut Entries {
        self.by_size(&cut.size).by_size(&cut.strip_width).field(&cut.grain).field(&cut.joined);
        self.field(&cut.beside).field(&cut.from).field(&cut.cut_again);
        if let Some(shaped) = &cut.shaped {
            self.by_size(&shaped.size).by_size(&shaped.height);
            self.field(&shaped.shape).field(&shaped.angle).field(&shaped.tips);
            self.field(&shaped.centered).field(&shaped.per_repeat);
        }
        self
    }

    fn counts(&mut self, cut: &Cut, index: usize) -> &mut Entries {
        let counts = [cut.strips.get(index), cut.pieces.get(index), cut.pieces_from_each.get(index)];
        for count in counts.into_iter().flatten() {
            self.field(count);
        }
        self
    }

    fn unit(&mut self, unit: &Unit) -> &mut Entries {
        self.field(&unit.make).field(&unit.method).field(&unit.finished).field(&unit.seam).field(&unit.yields);
        self.field(&unit.segment).field(&unit.corner).field(&unit.corners).field(&unit.center).field(&unit.logs);
        self.field(&unit.order);
        for part in &unit.cut {
            self.field(&part.from);
        }
        for taken in &unit.takes {
            self.field(&taken.count);
        }
        self
    }

    fn layout(&mut self, manuscript: &Manuscript, layout: &SizeLayout) -> &mut Entries {
        self.field(&layout.set).field(&layout.across).field(&layout.down).field(&layout.blocks);
        self.field(&layout.rows).field(&layout.columns).field(&layout.times).field(&layout.edge_squares);
        for row in [&layout.rows, &layout.columns].into_iter().filter_map(Field::stated).flat_map(|rows| &rows.value) {
            self.0.extend(row.blocks.iter().map(|blocks| blocks.at));
        }
        self.field(&layout.sashing).field(&layout.sashing_round).field(&layout.cornerstones).field(&layout.sash);
        self.field(&layout.long_sash).field(&layout.cornerstone);
        self.field(&layout.side_triangles).field(&layout.corner_triangles).field(&layout.sash_of);
        for border in &layout.borders {
            self.border(border);
        }
        let blocks: Vec<usize> = layout.named_blocks().collect();
        for block in with_blocks_within(manuscript, blocks) {
            self.field(&block.finished).field(&block.like);
            for other in &block.with {
                self.place(other.at).field(&other.to);
            }
            if let (Some(first), Some(last)) = (block.rows.first(), block.rows.last()) {
                self.place(first.at.to(last.at));
            }
        }
        self.field(&manuscript.assumes.seam)
    }

    fn border(&mut self, border: &Border) -> &mut Entries {
        self.field(&border.width).field(&border.corners).field(&border.piece).field(&border.piece_across);
        self.field(&border.piece_bottom);
        self.field(&border.cornerstone).field(&border.pieced).field(&border.join).field(&border.ease).field(&border.of);
        self.field(&border.corner_of)
    }
}

fn layout(manuscript: &Manuscript, index: usize) -> Option<&SizeLayout> {
    manuscript.layout.as_ref()?.sizes.get(index)?.stated()
}

/// Where the batting of a size is stated.
fn batting(manuscript: &Manuscript, index: usize) -> Option<Span> {
    Some(manuscript.batting.as_ref()?.requires.get(index)?.stated()?.at)
}

/// Blocks, and those that they are sewn from.
fn with_blocks_within(manuscript: &Manuscript, blocks: Vec<usize>) -> Vec<&Block> {
    let (mut left, mut seen) = (blocks, BTreeSet::new());
    while let Some(block) = left.pop() {
        if let Some(stated) = manuscript.blocks.get(block).filter(|_| seen.insert(block)) {
            left.extend(stated.parts().filter_map(|part| match part.sewn {
                Sewn::Block(inner) => Some(inner),
                Sewn::Unit(_) => None,
            }));
        }
    }
    seen.into_iter().filter_map(|block| manuscript.blocks.get(block)).collect()
}

/// The finished size of what a block is sewn from.
fn finished(manuscript: &Manuscript, sewn: Sewn) -> Option<&Field<(Written, Written)>> {
    match sewn {
        Sewn::Unit(unit) => Some(&manuscript.units.get(unit)?.finished),
        Sewn::Block(block) => Some(&manuscript.blocks.get(block)?.finished),
    }
}

fn takes(manuscript: &Manuscript, unit: &Unit, piece: PieceRef) -> bool {
    let means = |of: PieceRef| of.means(piece, manuscript.fabrics.iter());
    let is_cut = |from: CutFrom| matches!(from, CutFrom::Piece(of) if means(of));
    let mut recolored = manuscript.blocks.iter().flat_map(|block| &block.recolored);
    unit.cut.iter().any(|part| part.from.value().is_some_and(is_cut))
        || unit.takes.iter().any(|taken| taken.piece.value().is_some_and(means))
        // Any of the units of such a block.
        || recolored.any(|one| means(one.to))
}

fn piece(manuscript: &Manuscript, from: CutFrom) -> Option<&Cut> {
    match from {
        CutFrom::Piece(piece) => manuscript.fabrics.get(piece.fabric)?.cut.get(piece.cut),
        CutFrom::Size(..) => None,
    }
}
