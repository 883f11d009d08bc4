//! The numbers of the fabrics.

use super::design::{Design, FromDesign};
use super::{Lines, Margin, Status, amount_needed, margin};
use crate::manuscript::design::PieceRef;
use crate::manuscript::model::{Bought, Cut, Size, SoldAs};
use crate::manuscript::{Field, Manuscript, Spanned};
use crate::quantity::Count;
use crate::quilt_math::beside::Beside;
use crate::quilt_math::cutting::Shape;
use crate::quilt_math::planner::Verdict;
use crate::quilt_math::taken::Taken;
use crate::requirement::beside::BesideNeeds;
use crate::requirement::fabrics::{FabricNeeds, FabricSize, FabricsNeeds};
use crate::rules::sentence;
use crate::rules::words::{
    fabric_buying, from_each_words, gives_words, group_words, joined_working, left_over_words, left_words,
    plan_to_follow, shape_name, shape_strip_width, share_words, small_plan_words, sum,
};

const UNREAD: &str = super::UNREAD_OR_TOO_LARGE;

/// How a shape is cut from strips: `Its finished measure. With the seams it is cut from strips 4 7/32 in wide.`
fn slanted_words(needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, place: usize) -> String {
    match fabric.slanted(place) {
        Some((_, Some(shape))) => format!(
            "The finished measure of a {}: with the seams it is cut from strips {} wide.",
            shape_name(shape.shape),
            needs.up(shape_strip_width(&shape)),
        ),
        _ => "The finished measure, as given.".to_string(),
    }
}

fn piece_name(cut: &Cut) -> &str {
    cut.piece.stated().map_or("piece", |piece| piece.value.as_str())
}

impl Lines<'_> {
    /// What each fabric states for all sizes.
    pub(super) fn fabric_methods(&mut self, needs: &FabricsNeeds<'_>, manuscript: &Manuscript) {
        for fabric in &needs.fabrics {
            let name = &fabric.stated.name;
            let stated = fabric.stated;
            let width = "Strips of this fabric are cut across this width.";
            self.given(&format!("{name} usable_width"), &stated.usable_width, width);
            self.given(&format!("{name} precut"), &stated.precut, "It is bought cut to this.");
            self.given(&format!("{name} pack"), &stated.pack, "This many are in a pack.");
            self.given(&format!("{name} repeat"), &stated.repeat, "The print repeats this far apart.");
            let panel = "Not checked: pieces of a panel are cut as its pictures lie.";
            if let Some(size) = stated.panel_size.stated() {
                self.add(
                    None,
                    &format!("{name} panel_size"),
                    size.at,
                    String::new(),
                    Status::NotChecked,
                    panel.to_string(),
                );
            }
            self.given(&format!("{name} shrinks"), &stated.shrinks, "It is this much shorter after washing.");
            if let Some(sold_as) = stated.sold_as.stated().filter(|sold_as| sold_as.value == SoldAs::Scraps) {
                let why = "Nobody says how many scraps there are, or how large.".to_string();
                self.add(None, &format!("{name} sold_as"), sold_as.at, String::new(), Status::NotChecked, why);
            }
            for (place, cut) in stated.cut.iter().enumerate() {
                let piece = if cut.is_group { fabric.name(place) } else { piece_name(cut) };
                let size =
                    if cut.is_template() { "The box that holds the shape, as given." } else { "Cut size, as given." };
                self.given_for_each(manuscript, &format!("{name} {piece} size"), &cut.size, size);
                self.given(&format!("{name} {piece} per_repeat"), cut.each_repeat(), "Each repeat gives this many.");
                if let Some(shaped) = cut.slanted() {
                    let words = slanted_words(needs, fabric, place);
                    self.given_for_each(manuscript, &format!("{name} {piece} size"), &shaped.size, &words);
                    self.given_for_each(manuscript, &format!("{name} {piece} height"), &shaped.height, &words);
                }
                let width = "Each strip is cut this wide.";
                self.given_for_each(manuscript, &format!("{name} {piece} strip_width"), &cut.strip_width, width);
            }
        }
    }

    /// What each fabric states for one size.
    pub(super) fn fabrics(&mut self, of: &Size, needs: &FabricsNeeds<'_>, design: &Design<'_, '_>, index: usize) {
        let heading = of.name.as_str();
        for (fabric_place, fabric) in needs.fabrics.iter().enumerate() {
            let Some(size) = fabric.sizes.get(index) else { continue };
            self.required(heading, needs, fabric, size);
            self.instead(heading, needs, fabric, size);
            for (place, cut) in fabric.stated.cut.iter().enumerate() {
                let piece = PieceRef::entry(fabric_place, place);
                let used = design.piece(index, of, piece, fabric.name(place));
                self.cut(heading, (needs, fabric), size, (place, cut), used);
            }
        }
    }

    fn required(&mut self, heading: &str, needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) {
        if let Some(different) = fabric.stated.different.get(size.index).and_then(Field::stated) {
            let (number, why) =
                (format!("{} different", fabric.stated.name), "This many fabrics share the cutting list.");
            self.add(Some(heading), &number, different.at, String::new(), Status::AsGiven, why.to_string());
        }
        let Some(required) = size.required else { return };
        let number = format!("{} requires", fabric.stated.name);
        if let Some((needed, status, working)) = undecided(needs, fabric, size) {
            self.add(Some(heading), &number, required.at(), needed, status, working);
            return;
        }
        // What the strips as told take, where that is all that the amount is enough for: the strips are blamed then.
        let print = size.to_print.as_ref().or(size.taken.as_ref());
        let basis = match (required, print, &size.taken) {
            (Bought::Amount(amount), Some(print), Some(taken)) => {
                let is_enough = |taken| margin::is_enough(&needs.shop, &amount.value, size.unwashed(taken));
                Some(if required.is_nothing() || !is_enough(print) && is_enough(taken) { taken } else { print })
            }
            (Bought::Count(count), Some(print), Some(taken)) => {
                let is_enough = |taken: &Taken| count.value >= taken.small.unwrap_or_default();
                Some(if required.is_nothing() || !is_enough(print) && is_enough(taken) { taken } else { print })
            }
            (_, print, _) => print,
        };
        let (needed, status, working) = match (required, basis) {
            (Bought::Amount(_), Some(taken)) if !taken.plan.length().is_positive() => {
                ("nothing".to_string(), Status::Ok, "Nothing is cut from it.".to_string())
            }
            (Bought::Amount(amount), Some(taken)) => {
                let cut = size.unwashed(taken);
                let working = format!("{}; {}.", sum(needs, fabric, taken), fabric_buying(needs, cut));
                let (plan, left) = (plan_to_follow(needs, fabric, taken).join(" "), left_over_words(needs, taken));
                let plan = [share_words(fabric, size), plan, left, working];
                let plan: Vec<String> = plan.into_iter().filter(|words| !words.is_empty()).collect();
                (amount_needed(&needs.shop, &amount.value, cut), Status::Ok, plan.join(" "))
            }
            (Bought::Count(_), Some(taken)) => {
                let share = share_words(fabric, size);
                let words = [fabric.small_words(needs), share, small_plan_words(needs, fabric, size, taken)];
                let words: Vec<String> = words.into_iter().filter(|words| !words.is_empty()).collect();
                let needed = taken.small.unwrap_or_default();
                let needed = size.small().map_or_else(|| needed.to_string(), |small| small.written(needed));
                (needed, Status::Ok, words.join(" "))
            }
            (required, None) if required.is_nothing() && fabric.has_no_list() => {
                (String::new(), Status::AsGiven, "None of it is bought for this size.".to_string())
            }
            (_, None) => {
                let why = size.unchecked.map_or_else(|| UNREAD.to_string(), |why| format!("Not checked: {why}."));
                (String::new(), Status::NotChecked, why)
            }
        };
        self.add(Some(heading), &number, required.at(), needed, status, working);
        let margin = match (required, basis) {
            (Bought::Amount(amount), Some(taken)) => {
                margin::of_purchase(&needs.shop, &amount.value, size.unwashed(taken))
            }
            (Bought::Count(count), Some(taken)) => {
                let needed = taken.small.unwrap_or_default();
                margin::of_counts(count.value, size.small().map_or(needed, |small| small.sold(needed)))
            }
            _ => Margin::default(),
        };
        self.margin(margin);
    }

    /// What may be bought instead.
    fn instead(&mut self, heading: &str, needs: &FabricsNeeds<'_>, fabric: &FabricNeeds<'_>, size: &FabricSize<'_>) {
        let Some(stated) = fabric.stated.instead(size.index) else { return };
        let number = format!("{} requires, or instead", fabric.stated.name);
        let at = stated.bought.at();
        let Some(other) = &size.instead else {
            self.add(Some(heading), &number, at, String::new(), Status::NotChecked, UNREAD.to_string());
            return;
        };
        if matches!(other.verdict, Verdict::OnlyClever | Verdict::Undecided) {
            let why = "Not checked: no plain plan was found that fits, and none was proved impossible.";
            self.add(Some(heading), &number, at, String::new(), Status::NotChecked, why.to_string());
            return;
        }
        if let Some(entry) = other.misfit {
            let why = format!("{} does not come out of one either way.", fabric.name(entry));
            self.add(Some(heading), &number, at, String::new(), Status::Ok, why);
            return;
        }
        let (_, needed) = other.words(size, &needs.shop);
        let words = "The same pieces come out of it.".to_string();
        self.add(Some(heading), &number, at, needed, Status::Ok, words);
        let margin = match &stated.bought {
            Bought::Count(count) => margin::of_counts(count.value, other.taken.small.unwrap_or_default()),
            Bought::Amount(amount) => margin::of_purchase(&needs.shop, &amount.value, size.unwashed(&other.taken)),
        };
        self.margin(margin);
    }

    /// A piece of the cutting list: how many the design uses, and the strips that they are cut from.
    fn cut(
        &mut self,
        heading: &str,
        (needs, fabric): (&FabricsNeeds<'_>, &FabricNeeds<'_>),
        size: &FabricSize<'_>,
        (place, cut): (usize, &Cut),
        used: FromDesign<Count>,
    ) {
        let used = for_something_else(cut, used);
        if cut.is_group {
            self.group_strips(heading, (needs, fabric), size, (place, cut));
            return;
        }
        let number = format!("{} {}", fabric.stated.name, fabric.name(place));
        let pieces = cut.pieces.get(size.index).and_then(Field::stated);
        if let Some(each) = cut.pieces_from_each.get(size.index).and_then(Field::stated) {
            let among = fabric.stated.gives_from_each(size.index).filter(|among| among.0 > 0);
            self.each_gives(heading, &number, (each, among), pieces, &used);
        }
        let is_of_each = |pieces: &Spanned<Count>| cut.pieces_from_each.iter().any(|each| each.at() == Some(pieces.at));
        let each = fabric.cloth.and_then(|cloth| fabric.from_each(size, place, cloth));
        let strips = match each {
            Some(each) => Some((each.way, each.in_all())),
            None => fabric.cloth.and_then(|cloth| size.needed(place, cloth)),
        };
        if let Some(pieces) = pieces.filter(|pieces| !is_of_each(pieces)) {
            let slanted = match fabric.shape(place, size.index) {
                Some(Shape::Slanted(shape)) => fabric.cloth.map(|cloth| (shape, cloth)),
                _ => None,
            };
            let from_strips = strips.map_or_else(String::new, |(way, strips)| match (way.joined, slanted) {
                (None, Some((shape, cloth))) => {
                    format!(" {}: {}.", sentence(&gives_words(needs, cloth, &shape, &way)), strips.of("strip"))
                }
                (None, None) => {
                    let come = if way.per_strip == Count(1) { "comes" } else { "come" };
                    format!(" {} {come} out of each strip: {}.", way.per_strip, strips.of("strip"))
                }
                (Some(_), _) => format!(" {} joined end to end make them.", strips.of("strip")),
            });
            let (from_strips, open) = match left_over(needs, fabric, size, place) {
                Some((words, decided)) => (words, !decided),
                None => (from_strips, false),
            };
            let (needed, status, working) = match &used {
                _ if open => (String::new(), Status::NotChecked, from_strips.trim_start().to_string()),
                FromDesign::Needed(count, chain) => (count.to_string(), Status::Ok, format!("{chain}{from_strips}")),
                FromDesign::Together(count, stated, chain) => (
                    format!("{count} in all"),
                    Status::Ok,
                    format!("{chain} All entries of this name give {stated} together.{from_strips}"),
                ),
                FromDesign::AtLeast(count, chain) => (String::new(), Status::NotChecked, at_least(*count, chain)),
                FromDesign::NotChecked(why) => (String::new(), Status::NotChecked, why.clone()),
                FromDesign::AsGiven => (
                    String::new(),
                    Status::AsGiven,
                    format!("The pieces are cut from the fabric.{}", from_left(cut, &from_strips)),
                ),
            };
            self.add(Some(heading), &format!("{number} pieces"), pieces.at, needed, status, working);
            match &used {
                FromDesign::Needed(count, _) => self.margin(margin::of_counts(pieces.value, *count)),
                FromDesign::Together(count, stated, _) => self.margin(margin::of_counts(*stated, *count)),
                _ => {}
            }
        }
        let Some(stated) = cut.strips.get(size.index).and_then(Field::stated) else { return };
        let (needed, status, working): (Option<Count>, _, _) = match (pieces, strips, used) {
            (None, _, FromDesign::Needed(count, chain)) => {
                // Strips left whole are the pieces themselves.
                let whole = cut.is_whole_strips(size.index).then_some(count);
                (whole, Status::Ok, chain)
            }
            (None, _, FromDesign::Together(count, together, chain)) => {
                let margin = margin::of_counts(together, count);
                self.add(
                    Some(heading),
                    &format!("{number} strips"),
                    stated.at,
                    format!("{count} pieces in all"),
                    Status::Ok,
                    format!("{chain} All entries of this name give {together} together."),
                );
                self.margin(margin);
                return;
            }
            (None, _, FromDesign::AtLeast(count, chain)) => (None, Status::NotChecked, at_least(count, &chain)),
            (None, _, FromDesign::NotChecked(why)) => (None, Status::NotChecked, why),
            (None, _, FromDesign::AsGiven) => {
                (None, Status::AsGiven, "The strips are taken as they are: no pieces are stated.".to_string())
            }
            (Some(pieces), Some((way, needed)), _) => {
                let working = match (each, way.joined) {
                    (Some(each), _) => from_each_words(each),
                    (None, None) => format!("Each strip gives {}.", way.per_strip.of("piece")),
                    (None, Some(_)) => joined_working(needs, &way, pieces.value, needed),
                };
                (Some(needed), Status::Ok, working)
            }
            (Some(_), None, _) => (None, Status::NotChecked, UNREAD.to_string()),
        };
        let margin = needed.map(|needed| margin::of_counts(stated.value, needed)).unwrap_or_default();
        let needed = needed.map(|needed| needed.to_string()).unwrap_or_default();
        self.add(Some(heading), &format!("{number} strips"), stated.at, needed, status, working);
        self.margin(margin);
    }
}

/// What is said of a piece that is cut from what others leave, and whether that is decided.
fn left_over(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
    place: usize,
) -> Option<(String, bool)> {
    let cut = fabric.stated.cut.get(place)?;
    if !cut.from.is_absent() {
        let words = " They come from what other pieces leave: the amount is checked for all pieces together.";
        return Some((words.to_string(), true));
    }
    cut.beside_entry?;
    let of = |beside: &&BesideNeeds| beside.entries.iter().any(|(entry, _)| *entry == place);
    match size.beside.iter().find(of) {
        Some(beside) if beside.decided == Beside::Undecided => {
            let left = left_words(needs, fabric, beside);
            Some((format!(" Not checked: {left}, and neither a plan nor a proof was found."), false))
        }
        Some(beside) => Some((format!(" {}.", left_words(needs, fabric, beside)), true)),
        None => {
            Some((" Not checked: what is left beside it is known of fabric from the bolt alone.".to_string(), false))
        }
    }
}

/// What is cut for something else than the top is no number of the design's, where the design takes none of it.
fn for_something_else(cut: &Cut, used: FromDesign<Count>) -> FromDesign<Count> {
    match used {
        FromDesign::Needed(Count(0), _) if !cut.used_for.is_absent() => FromDesign::AsGiven,
        used => used,
    }
}

/// What is said of pieces that come from what others leave.
fn from_left(cut: &Cut, words: &str) -> String {
    let is_told = !cut.beside.is_absent() || !cut.from.is_absent() || cut.slanted().is_some();
    if is_told { words.to_string() } else { String::new() }
}

impl Lines<'_> {
    /// How many pieces each fabric gives: the share of what is stated in all, or of what the design uses.
    fn each_gives(
        &mut self,
        heading: &str,
        number: &str,
        (each, among): (&Spanned<Count>, Option<Count>),
        pieces: Option<&Spanned<Count>>,
        used: &FromDesign<Count>,
    ) {
        let number = format!("{number} pieces_from_each");
        let in_all = match (pieces.filter(|pieces| pieces.at != each.at), used) {
            (Some(pieces), _) => Some((pieces.value, format!("{} in all.", pieces.value.of("piece")))),
            (None, FromDesign::Needed(count, chain)) => Some((*count, chain.clone())),
            (None, _) => None,
        };
        let share =
            in_all.zip(among).and_then(|((count, chain), among)| Some((count.in_groups_of(among)?, chain, among)));
        match share {
            Some((share, chain, among)) => {
                let working = format!("{chain} From {among} fabrics, whole pieces from each: {share}.");
                self.add(Some(heading), &number, each.at, share.to_string(), Status::Ok, working);
                self.margin(margin::of_counts(each.value, share));
            }
            None => {
                let why = "This many are cut from each fabric.".to_string();
                self.add(Some(heading), &number, each.at, String::new(), Status::AsGiven, why);
            }
        }
    }

    /// Strips from which pieces of several kinds are cut: how many hold them.
    fn group_strips(
        &mut self,
        heading: &str,
        (needs, fabric): (&FabricsNeeds<'_>, &FabricNeeds<'_>),
        size: &FabricSize<'_>,
        (place, cut): (usize, &Cut),
    ) {
        let Some(stated) = cut.strips.get(size.index).and_then(Field::stated) else { return };
        let number = format!("{} {} strips", fabric.stated.name, fabric.name(place));
        let Some(group) = size.groups.iter().find(|group| group.entry == place) else {
            self.add(Some(heading), &number, stated.at, String::new(), Status::NotChecked, UNREAD.to_string());
            return;
        };
        if stated.value < group.needed && stated.value >= group.least {
            let why = "Not checked: no plan was found with these strips, and none was proved impossible.";
            self.add(Some(heading), &number, stated.at, String::new(), Status::NotChecked, why.to_string());
            return;
        }
        let working = group_words(needs, fabric, group);
        self.add(Some(heading), &number, stated.at, group.needed.to_string(), Status::Ok, working);
        self.margin(margin::of_counts(stated.value, group.needed));
    }
}

/// What is needed, the status and the working of an amount that a plain plan calls short and no proof does: a verdict
/// "short" would be a guess.
fn undecided(
    needs: &FabricsNeeds<'_>,
    fabric: &FabricNeeds<'_>,
    size: &FabricSize<'_>,
) -> Option<(String, Status, String)> {
    let not_checked = |why: &str| (String::new(), Status::NotChecked, format!("Not checked: {why}."));
    if size.small_is_undecided() {
        return Some(not_checked("no plan was found that fits, and none was proved impossible"));
    }
    let tight = size.tight.as_ref()?;
    if tight.verdict != Verdict::OnlyClever {
        return Some(not_checked("no plan was found for so little, and no proof that there is none"));
    }
    let needed = format!("{} by one plan", needs.up(tight.plan.plan.length()));
    let plan = plan_to_follow(needs, fabric, &tight.plan).join(" ");
    let left = left_over_words(needs, &tight.plan);
    let working = format!("It is enough only if the pieces are cut by one plan. {plan} {left}");
    Some((needed, Status::Ok, working.trim_end().to_string()))
}

/// What is said of a count of which at least so many are used. Fewer are short, which is a finding; as many may not be
/// enough.
fn at_least(count: Count, chain: &str) -> String {
    format!("Not checked: at least {count} are used, and not all that the layout uses is known. {chain}")
}
