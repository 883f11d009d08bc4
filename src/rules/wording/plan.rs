//! The plan of a cutting list in words, as a reader cuts it: strips across the fabric, what is subcut from each, and the
//! sections that are cut once more.

use super::shape::{finished_words, shapes};
use crate::manuscript::model::SoldAs;
use crate::quantity::{Count, Length, Measure, Percent, Scale};
use crate::quilt_math::cutting::{Cloth, Shape};
use crate::quilt_math::plan::{StripCut, Strips};
use crate::quilt_math::planner::{CutStrips, Made, Part, parts};
use crate::quilt_math::taken::Taken;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};

/// How many different strips are told one by one, where the plan is not what decides.
const MAX_TOLD: usize = 8;

/// How many are told of a plan that is to be followed.
const MAX_FOLLOWED: usize = 60;

/// How many sizes of what is left over are named.
const MAX_LEFT: usize = 4;

const LENGTH: &str = "length";

/// How much of the bolt all strips take: `5 strips x 3 1/2 in + 2 strips x 2 in = 21 1/2 in`.
pub(crate) fn sum(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken) -> String {
    let mut widths: Vec<(Length, &str, Count)> = Vec::new();
    for strips in &taken.plan.strips {
        let kind = kind(fabric, strips);
        match widths.iter_mut().find(|(width, of, _)| (*width, *of) == (strips.width, kind)) {
            Some((_, _, count)) => *count = *count + strips.count,
            None => widths.push((strips.width, kind, strips.count)),
        }
    }
    let mut shown: Vec<Length> = widths.iter().map(|(width, ..)| *width).collect();
    shown.push(taken.plan.length());
    let scale = Scale::of(needs.measure, &shown);
    let total = scale.up(taken.plan.length());
    let washed = before_washing(needs.measure, fabric.shrinks, fabric.shrinks.before(taken.plan.length()));
    let terms: Vec<String> =
        widths.iter().map(|(width, kind, count)| format!("{} x {}", count.of(kind), scale.up(*width))).collect();
    match terms.len() {
        0 => "nothing is cut from it".to_string(),
        1..=MAX_TOLD => format!("{} = {total}{washed}", terms.join(" + ")),
        _ => format!("strips of {} widths, together {total}{washed}", terms.len()),
    }
}

/// How much that is before washing, where the fabric shrinks, to a thousandth of an inch, so that a reader who divides finds
/// the same: `; before washing, / (1 - 3 %), 20.62 in`.
pub(in crate::rules) fn before_washing(measure: Measure, shrinks: Percent, before: Length) -> String {
    if shrinks.is_nothing() {
        return String::new();
    }
    let before = Scale::fine(measure).up(before);
    format!("; before washing, / (1 - {shrinks}), {before}")
}

/// The first few strips of a plan in one paragraph: `Cut 5 strips 3 1/2 in x WOF (40 in usable); subcut 48 squares 3 1/2 x 3 1/2 in (A), up to 11
/// from each.` Nothing where nothing is cut.
pub(crate) fn plan_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken) -> String {
    precut_words(fabric, taken).unwrap_or_else(|| lines(needs, fabric, taken, MAX_TOLD).join(" "))
}

/// The whole plan, a line for each kind of strip, in the order in which they are cut.
pub(crate) fn plan_to_follow(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken) -> Vec<String> {
    match precut_words(fabric, taken) {
        Some(words) => vec![words],
        None => lines(needs, fabric, taken, MAX_FOLLOWED),
    }
}

fn lines(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, taken: &Taken, most: usize) -> Vec<String> {
    let mut plan = PlanWords::new(needs, fabric, taken);
    let strips = alike_as_one(fabric, taken);
    let mut lines: Vec<String> = strips.iter().take(most).map(|strips| plan.strips(strips)).collect();
    let more = strips.iter().skip(most).fold(Count(0), |sum, strips| sum + strips.strips.count);
    if more.0 > 0 {
        lines.push(format!("And {}.", more.of("more strip")));
    }
    if let Some((small, first)) = taken.small.zip(lines.first_mut()) {
        // What is bought instead of fabric from the bolt has another name than the fabric.
        let is_instead = matches!(fabric.cloth, Some(Cloth::Bolt { .. }));
        let word = if is_instead { "small fabric".to_string() } else { fabric.sold_as_words() };
        *first = format!("From {}: {}", small.of(&word), lower(first));
    }
    lines
}

/// What is cut from each small fabric.
pub(crate) fn small_plan_words(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    taken: &Taken,
) -> String {
    let decided = size.small_proof.as_ref().filter(|decided| !decided.fabrics.is_empty());
    let (Some(decided), Some(Cloth::Small { across, along, .. })) = (decided, fabric.cloth) else {
        return plan_words(needs, fabric, taken);
    };
    let mut plan = PlanWords::new(needs, fabric, taken);
    let sides = if decided.across == across { (across, along) } else { (along, across) };
    let mut lines: Vec<String> =
        decided.fabrics.iter().take(MAX_TOLD).map(|fabrics| plan.small(fabrics, sides)).collect();
    let more = decided.fabrics.iter().skip(MAX_TOLD).fold(Count(0), |sum, fabrics| sum + fabrics.count);
    if more.0 > 0 {
        lines.push(format!("And {} more.", more.of(&fabric.sold_as_words())));
    }
    lines.join(" ")
}

/// What is left over of the strips of a plan: `Left over: 2 of 19 x 10 1/2 in.` Nothing where it is all used.
pub(crate) fn left_over_words(needs: &FabricsNeeds<'_>, taken: &Taken) -> String {
    let mut sizes: Vec<((Length, Length), Count)> = Vec::new();
    for strips in &taken.plan.strips {
        for left in strips.left_over(taken.strip_length) {
            let size = (left.across.max(left.along), left.across.min(left.along));
            match sizes.iter_mut().find(|(known, _)| *known == size) {
                Some((_, count)) => *count = *count + strips.count,
                None => sizes.push((size, strips.count)),
            }
        }
    }
    sizes.sort_by_key(|((longer, shorter), _)| std::cmp::Reverse((*shorter, *longer)));
    let size = |((longer, shorter), count): &((Length, Length), Count)| {
        let size = both(&needs.down(*longer), &needs.down(*shorter));
        if count.0 == 1 { size } else { format!("{count} of {size}") }
    };
    let told: Vec<String> = sizes.iter().take(MAX_LEFT).map(size).collect();
    let narrower = if sizes.len() > MAX_LEFT { "; and narrower ones" } else { "" };
    if told.is_empty() { String::new() } else { format!("Left over: {}{narrower}.", told.join("; ")) }
}

/// Pieces along the fabric are cut from lengths of it, not from strips.
fn kind(fabric: &FabricNeeds<'_>, strips: &Strips) -> &'static str {
    if matches!(&strips.cuts[..], [laid] if fabric.is_centered(laid.piece)) {
        return "repeat";
    }
    if strips.cuts.iter().any(|laid| fabric.is_lengthwise(laid.piece)) { LENGTH } else { "strip" }
}

/// Strips that are told together.
struct Alike {
    strips: Strips,
    /// How many pieces all of them give, where they hold pieces of one kind and not as many in each.
    in_all: Option<Count>,
}

/// Strips of one width for one kind of piece as one, and joined strips that are alike: what is left of the last is used
/// otherwise or not at all.
fn alike_as_one(fabric: &FabricNeeds<'_>, taken: &Taken) -> Vec<Alike> {
    let differ = |piece: usize| taken.joined.contains(&piece) || fabric.slanted(piece).is_some();
    let mut told: Vec<Alike> = Vec::new();
    for strips in &taken.plan.strips {
        let only = |strips: &Strips| match strips.cuts.as_slice() {
            [laid] if laid.stacked == Count(1) => Some((laid.piece, laid.across, laid.along)),
            _ => None,
        };
        let same = |last: &&mut Alike| {
            last.strips.width == strips.width
                && match (only(&last.strips), only(strips)) {
                    (Some(one), Some(other)) => one == other || one.0 == other.0 && differ(one.0),
                    _ => false,
                }
        };
        match told.last_mut().filter(same) {
            Some(last) => {
                let pieces = |strips: &Strips| strips.cuts[0].count;
                let in_all = last.in_all.unwrap_or(pieces(&last.strips) * last.strips.count);
                last.in_all = Some(in_all + pieces(strips) * strips.count);
                last.strips.cuts[0].count = pieces(&last.strips).max(pieces(strips));
                last.strips.count = last.strips.count + strips.count;
            }
            None => told.push(Alike { strips: strips.clone(), in_all: None }),
        }
    }
    told
}

/// The words of one plan.
struct PlanWords<'a> {
    needs: &'a FabricsNeeds<'a>,
    fabric: &'a FabricNeeds<'a>,
    taken: &'a Taken,
    /// Whether the usable width was told.
    width_is_told: bool,
    /// How many sections have numbers.
    sections: u64,
}

/// Which way parts are cut, and how much of the other way there is.
#[derive(Clone, Copy)]
struct Room {
    word: &'static str,
    /// Whether the parts lie side by side across the fabric.
    is_across: bool,
    /// How wide the room is the other way.
    other: Length,
}

/// A section that is told by its number, with what is cut from it.
struct Numbered<'p> {
    number: u64,
    part: &'p Part,
    /// How much of the strip's length and width it takes.
    across: Length,
    along: Length,
}

impl<'a> PlanWords<'a> {
    fn new(needs: &'a FabricsNeeds<'a>, fabric: &'a FabricNeeds<'a>, taken: &'a Taken) -> PlanWords<'a> {
        PlanWords { needs, fabric, taken, width_is_told: false, sections: 0 }
    }

    /// `Cut 2 strips 10 1/2 in x WOF; from each subcut 2 squares 10 1/2 x 10 1/2 in (B), then ...`
    fn strips(&mut self, alike: &Alike) -> String {
        let strips = &alike.strips;
        let head = self.head(strips);
        let is_whole = |laid: &StripCut| laid.across == self.taken.strip_length && laid.count == Count(1);
        match strips.cuts.as_slice() {
            [] => format!("{head}; left over."),
            [laid] if self.taken.joined.contains(&laid.piece) => {
                format!("{head}, joined end to end ({}).", self.fabric.name(laid.piece))
            }
            [laid] if self.fabric.is_centered(laid.piece) => {
                let each = self.fabric.per_repeat(laid.piece).map_or_else(String::new, |count| format!("{count} "));
                format!("{head}; from each {each}{}, centered on the print.", self.fabric.name(laid.piece))
            }
            [laid] if is_whole(laid) && laid.along == strips.width => {
                format!("{head}, left whole ({}).", self.fabric.name(laid.piece))
            }
            [laid] if laid.stacked == Count(1) && (strips.count.0 > 1 || alike.in_all.is_some()) => {
                let count = alike.in_all.unwrap_or(laid.count);
                let trimmed = Some(strips.width).filter(|width| *width > laid.along);
                let pieces = self.pieces(laid.piece, (laid.across, laid.along), count, trimmed);
                let each = alike.in_all.map_or("from each".into(), |_| format!("up to {} from each", laid.count));
                let comma = if alike.in_all.is_some() || pieces.contains(", trimmed") { "," } else { "" };
                format!("{head}; subcut {pieces}{comma} {each}.")
            }
            _ => {
                let each = if strips.count.0 > 1 { "from each " } else { "" };
                let subcut = self.subcut(strips.parts().as_ref(), (self.taken.strip_length, strips.width));
                format!("{head}; {each}subcut {subcut}")
            }
        }
    }

    /// `Cut 4 strips 3 1/2 in x WOF (40 in usable)`.
    fn head(&mut self, strips: &Strips) -> String {
        let (wide, long) = (self.needs.up(strips.width), self.needs.down(self.taken.strip_length));
        let count = strips.count.of(kind(self.fabric, strips));
        if self.taken.small.is_some() {
            return format!("Cut {count} {}", both(&wide, &long));
        }
        let usable = if self.width_is_told { String::new() } else { format!(" ({long} usable)") };
        self.width_is_told = true;
        format!("Cut {count} {wide} x WOF{usable}")
    }

    /// `From each of 2 fat quarters cut ...`
    fn small(&mut self, fabrics: &CutStrips, (across, along): (Length, Length)) -> String {
        let words = self.fabric.sold_as_words();
        let from = match fabrics.count {
            Count(1) => format!("From 1 {words}"),
            many => format!("From each of {}", many.of(&words)),
        };
        format!("{from} cut {}", self.subcut(parts(&fabrics.grids).as_ref(), (across, along)))
    }

    /// What is cut from a strip, and then from its sections, as sentences.
    fn subcut(&mut self, part: Option<&Part>, (across, along): (Length, Length)) -> String {
        let Some(part) = part else { return "nothing.".to_string() };
        let mut queue = Vec::new();
        let mut told = format!("{}.", self.parts(part, (across, along), &mut queue));
        let mut next = 0;
        while next < queue.len() {
            let Numbered { number, part, across, along } = queue[next];
            next += 1;
            let mut inner = Vec::new();
            let each = if part.count.0 > 1 { "each section" } else { "section" };
            let words = self.parts(part, (across, along), &mut inner);
            told.push_str(&format!(" From {each} {number} cut {words}."));
            queue.extend(inner);
        }
        told
    }

    /// The parts of a part, one after another.
    fn parts<'p>(
        &mut self,
        part: &'p Part,
        (across, along): (Length, Length),
        queue: &mut Vec<Numbered<'p>>,
    ) -> String {
        let (parts, room): (&[Part], Room) = match &part.made {
            Made::Piece(_) => (std::slice::from_ref(part), Room { word: "section", is_across: true, other: along }),
            Made::Sections(parts) => (parts, Room { word: "section", is_across: true, other: along }),
            Made::Rows(parts) => (parts, Room { word: "row", is_across: false, other: across }),
        };
        let words: Vec<String> = parts.iter().map(|part| self.part(part, room, queue)).collect();
        words.join(", then ")
    }

    /// `2 squares 9 x 9 in (A), trimmed from 10 1/2 in`, `3 sections 3 1/2 x 10 1/2 in, each into 3 squares ...`
    fn part<'p>(&mut self, part: &'p Part, room: Room, queue: &mut Vec<Numbered<'p>>) -> String {
        let inner = match &part.made {
            Made::Piece(item) => {
                let fills = if room.is_across { part.along } else { part.across };
                let trimmed = Some(room.other).filter(|other| *other > fills);
                return self.pieces(*item, (part.across, part.along), part.count, trimmed);
            }
            Made::Sections(parts) | Made::Rows(parts) => parts,
        };
        let (across, along) = if room.is_across { (part.across, room.other) } else { (room.other, part.along) };
        let size = both(&self.needs.up(across), &self.needs.up(along));
        let sections = format!("{} {size}", part.count.of(room.word));
        let pieces = |part: &Part| match part.made {
            Made::Piece(item) => Some(self.pieces(item, (part.across, part.along), part.count, None)),
            Made::Sections(_) | Made::Rows(_) => None,
        };
        match inner.iter().map(pieces).collect::<Option<Vec<String>>>() {
            Some(pieces) => {
                let each = if part.count.0 > 1 { ", each" } else { "" };
                format!("{sections}{each} into {}", pieces.join(" and "))
            }
            None => {
                self.sections += 1;
                queue.push(Numbered { number: self.sections, part, across, along });
                format!("{sections} (section {})", self.sections)
            }
        }
    }

    /// `2 squares 9 x 9 in (A), trimmed from 10 1/2 in`.
    fn pieces(&self, item: usize, (across, along): (Length, Length), count: Count, trimmed: Option<Length>) -> String {
        if let Some((shape, measures)) = self.fabric.slanted(item) {
            let finished =
                measures.map_or_else(String::new, |shape| format!(" {}", finished_words(self.needs, &shape)));
            return format!("{}{finished} ({})", shapes(count, shape), self.fabric.name(item));
        }
        let word = match (across == along, self.fabric.is_lengthwise(item)) {
            (true, _) => "square",
            (false, true) => "strip",
            (false, false) => "rectangle",
        };
        let (width, height) = self.as_listed(item, (across, along));
        let size = both(&self.needs.up(width), &self.needs.up(height));
        let trimmed = trimmed.map(|from| format!(", trimmed from {}", self.needs.up(from))).unwrap_or_default();
        let joined = if self.taken.joined.contains(&item) { ", joined end to end" } else { "" };
        format!("{} {size} ({}){joined}{trimmed}", count.of(word), self.fabric.name(item))
    }

    /// The sides in the order in which the cutting list has them.
    fn as_listed(&self, item: usize, (across, along): (Length, Length)) -> (Length, Length) {
        let mut listed = self.fabric.shapes_of(item).iter().flatten().filter_map(|shape| match shape {
            Shape::Piece { width, height, .. } | Shape::Template { width, height, .. } => Some((*width, *height)),
            _ => None,
        });
        let is_turned = listed.any(|listed| listed == (along, across));
        if is_turned { (along, across) } else { (across, along) }
    }
}

/// Two sides: `3 1/2 x 8 1/2 in`, with both units where they differ.
fn both(one: &str, other: &str) -> String {
    let unit = |words: &str| words.rsplit(' ').next().map(|unit| format!(" {unit}")).unwrap_or_default();
    let short = one.strip_suffix(&unit(one)).filter(|_| unit(one) == unit(other));
    format!("{} x {other}", short.unwrap_or(one))
}

fn lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// One kind of piece from precut strips or squares: `Cut from 48 precut squares: patch, 1 from each.`
fn precut_words(fabric: &FabricNeeds<'_>, taken: &Taken) -> Option<String> {
    let (small, Cloth::Small { across, along, .. }) = (taken.small?, fabric.cloth?) else { return None };
    if !matches!(fabric.stated.sold_as.value(), Some(SoldAs::Strips | SoldAs::Squares)) {
        return None;
    }
    let strips = &taken.plan.strips;
    let (width, piece) = (strips.first()?.width, strips.first()?.cuts.first()?.piece);
    let alike = |strips: &Strips| strips.width == width && matches!(&strips.cuts[..], [laid] if laid.piece == piece);
    if !strips.iter().all(alike) {
        return None;
    }
    let in_strip = strips.iter().filter_map(|strips| strips.cuts.first()).map(|laid| laid.count).max()?;
    let side = if taken.strip_length == across { along } else { across };
    let each = side.pieces_of(width) * in_strip;
    let total = strips.iter().fold(Count(0), |sum, strips| sum + strips.count * strips.cuts[0].count);
    let (from, name) = (small.of(&fabric.sold_as_words()), fabric.name(piece));
    Some(match small {
        Count(1) => format!("Cut from {from}: {name}, {}.", total.of("piece")),
        small if small * each == total => format!("Cut from {from}: {name}, {each} from each."),
        _ => format!("Cut from {from}: {name}, up to {each} from each, {total} in all."),
    })
}
