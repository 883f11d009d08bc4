//! Reading what the pattern tells its reader to buy of a fabric: amounts of each of several fabrics or of all together,
//! counts of precut fabrics, and packs of them.

use super::declared_names::DeclaredNames;
use super::model::Fabric;
use super::model::{Bought, PerSize, SoldAs, YesNo};
use super::read_per_size::read_some_sizes;
use super::reader::Reader;
use super::table::Table;
use super::tree::{Entry, Kind, Node};
use super::{Field, MistakeKind, Span, Spanned};
use crate::quantity::Count;

const DIFFERENT_EXAMPLE: &str = "different: 12";

/// What stands after an amount or a count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoughtAs {
    /// So much of each of several fabrics.
    Each,
    /// So much of all of them together.
    InAll,
    /// So many packs.
    Packs,
}

/// The words that may stand after an amount or a count.
pub(crate) const AFTER: [(&str, BoughtAs); 4] =
    [("each", BoughtAs::Each), ("in all", BoughtAs::InAll), ("packs", BoughtAs::Packs), ("pack", BoughtAs::Packs)];

/// An amount or a count without the words after it, and what these say.
fn split<'n>(node: &Node<'n>) -> (Node<'n>, Option<BoughtAs>) {
    let whole = |kind| Node { at: node.at, kind };
    let Kind::Scalar { value, verbatim } = node.kind else { return (whole(kept(node.kind)), None) };
    let trimmed = value.trim_end();
    let after = AFTER.into_iter().find_map(|(word, says)| {
        let rest = trimmed.strip_suffix(word)?;
        let number = rest.trim_end();
        (number.len() < rest.len() && !number.is_empty()).then_some((number, says))
    });
    let Some((number, says)) = after else { return (whole(node.kind), None) };
    // Packs are corrected with their word, so that 1 pack becomes 2 packs.
    let at = match verbatim {
        Some(start) if says != BoughtAs::Packs => Span::new(start, start + number.len()),
        _ => node.at,
    };
    (Node { at, kind: Kind::Scalar { value: number, verbatim } }, Some(says))
}

/// What may be bought instead: `1/4 yd or 1 fat quarter`, or `20 cm each or 6 fat quarters`.
#[derive(Debug)]
pub struct Instead {
    /// What stands after it.
    pub says: Option<BoughtAs>,
    /// How it is sold.
    pub sold_as: SoldAs,
    /// How much of it.
    pub bought: Bought,
}

/// How small fabrics are called after a count, with how they are sold.
const SMALL: [(&str, SoldAs); 8] = [
    ("fat quarters", SoldAs::FatQuarters),
    ("fat quarter", SoldAs::FatQuarters),
    ("fat eighths", SoldAs::FatEighths),
    ("fat eighth", SoldAs::FatEighths),
    ("squares", SoldAs::Squares),
    ("square", SoldAs::Squares),
    ("strips", SoldAs::Strips),
    ("strip", SoldAs::Strips),
];

/// What stands before and after `or`.
fn split_choice<'n>(node: &Node<'n>) -> (Node<'n>, Option<Node<'n>>) {
    const OR: &str = " or ";
    let Kind::Scalar { value, verbatim } = node.kind else {
        return (Node { at: node.at, kind: kept(node.kind) }, None);
    };
    // A search for one letter is quick, and most amounts have no o.
    let or = if value.contains('o') { value.find(OR) } else { None };
    let Some(or) = or else { return (*node, None) };
    let part = |from: usize, to: usize| {
        let text = &value[from..to];
        let from = from + text.len() - text.trim_start().len();
        let text = text.trim();
        let start = verbatim.map(|start| start + from);
        let at = start.map_or(node.at, |start| Span::new(start, start + text.len()));
        Node { at, kind: Kind::Scalar { value: text, verbatim: start } }
    };
    (part(0, or), Some(part(or + OR.len(), value.len())))
}

/// The number of small fabrics that a text names, with how they are sold.
fn counted(text: &str) -> Option<(&str, SoldAs)> {
    let of = |(word, sold_as): (&str, SoldAs)| {
        let number = text.strip_suffix(word)?;
        number.ends_with(' ').then(|| (number.trim_end(), sold_as))
    };
    SMALL.into_iter().find_map(of)
}

/// A count of small fabrics that says which, or of the kind that the fabric is sold as; or an amount from the bolt.
fn read_instead(reader: &mut Reader, own: Option<SoldAs>, node: &Node<'_>, says: Option<BoughtAs>) -> Option<Instead> {
    if let Kind::Scalar { value, verbatim } = node.kind {
        let bare = || {
            let own = own.filter(|own| *own != SoldAs::Yardage)?;
            value.bytes().all(|byte| byte.is_ascii_digit()).then_some((value, own))
        };
        if let Some((number, sold_as)) = counted(value).or_else(bare) {
            let count = Node { at: node.at, kind: Kind::Scalar { value: number, verbatim } };
            let bought = reader.count(&count).stated().cloned().map(Bought::Count)?;
            return Some(Instead { says, sold_as, bought });
        }
    }
    let bought = reader.amount(node).stated().cloned().map(Bought::Amount)?;
    Some(Instead { says, sold_as: SoldAs::Yardage, bought })
}

/// A count without the name of what is counted, where that is what the fabric is sold as.
fn without_name<'n>(node: &Node<'n>, own: Option<SoldAs>) -> Node<'n> {
    let Kind::Scalar { value, verbatim } = node.kind else { return Node { at: node.at, kind: kept(node.kind) } };
    let named = SMALL.into_iter().filter(|(_, sold_as)| Some(*sold_as) == own);
    let number = named.filter_map(|(word, _)| value.strip_suffix(word)).map(str::trim_end).next().unwrap_or(value);
    let at = verbatim.map_or(node.at, |start| Span::new(start, start + number.len()));
    Node { at, kind: Kind::Scalar { value: number, verbatim } }
}

/// A value that is read as it stands.
const fn kept(kind: Kind<'_>) -> Kind<'_> {
    match kind {
        // Neither is an amount or a count, which is all that is said of it.
        Kind::Table(_) => Kind::Table(&[]),
        Kind::List(_) => Kind::List(&[]),
        Kind::Scalar { .. } | Kind::Empty | Kind::Unread => kind,
    }
}

/// An amount from the bolt, or a number of fat quarters, strips or squares; what stands after it; and what may be bought
/// instead.
pub(super) fn read_bought(
    reader: &mut Reader,
    sold_as: Option<SoldAs>,
    node: &Node<'_>,
) -> Option<(Bought, Option<BoughtAs>, Option<Instead>)> {
    if let Some(at) = word_inside(node) {
        let why = "A word stands inside this amount".to_string();
        let mend = "Write each or in all after both halves: 1.2 m (1 3/8 yd) in all";
        reader.report(at, MistakeKind::CannotBe { why, mend });
        return None;
    }
    let (first, second) = split_choice(node);
    let (mut number, mut says) = split(&first);
    let mut other = second.as_ref().map(split);
    if let Some((second, second_says)) = &mut other
        && is_the_other(sold_as, (&number, says), *second_says)
    {
        std::mem::swap(&mut number, second);
        std::mem::swap(&mut says, second_says);
    }
    // After the last of the two it is said of both.
    if let Some((_, Some(BoughtAs::Each))) = &other {
        says = says.or(Some(BoughtAs::Each));
    }
    let instead = match other {
        Some((second, says)) => Some(read_instead(reader, sold_as, &second, says)?),
        None => None,
    };
    let named = instead.as_ref().map(|_| without_name(&number, sold_as));
    let number = named.as_ref().unwrap_or(&number);
    if sold_as == Some(SoldAs::Yardage)
        && let Kind::Scalar { value, .. } = &number.kind
        && let Some((count, small)) = counted(value)
    {
        let why = format!("{value} are small fabrics, and this fabric is sold from the bolt");
        let mend = match small {
            SoldAs::FatQuarters => "State sold_as: fat_quarters in the fabric, and the number alone here",
            SoldAs::FatEighths => "State sold_as: fat_eighths in the fabric, and the number alone here",
            SoldAs::Squares => "State sold_as: squares with precut in the fabric, and the number alone here",
            _ => "State sold_as: strips with precut in the fabric, and the number alone here",
        };
        if count.parse::<u64>().is_ok() {
            reader.report(number.at, MistakeKind::CannotBe { why, mend });
            return None;
        }
    }
    let bought = match sold_as? {
        SoldAs::Yardage => reader.amount_or_nothing(number).stated().cloned().map(Bought::Amount)?,
        SoldAs::FatQuarters
        | SoldAs::FatEighths
        | SoldAs::Strips
        | SoldAs::Squares
        | SoldAs::Panel
        | SoldAs::Scraps => reader.count(number).stated().cloned().map(Bought::Count)?,
    };
    Some((bought, says, instead))
}

/// Whether the first of two choices is what may be bought instead: small fabrics where the fabric is sold from the bolt,
/// or a number of fabrics that are sold in packs.
fn is_the_other(
    sold_as: Option<SoldAs>,
    (first, says): (&Node<'_>, Option<BoughtAs>),
    second: Option<BoughtAs>,
) -> bool {
    let Kind::Scalar { value, .. } = &first.kind else { return false };
    let small = sold_as == Some(SoldAs::Yardage) && counted(value).is_some();
    small || says != Some(BoughtAs::Packs) && second == Some(BoughtAs::Packs)
}

/// Where `each` or `in all` stands between the halves of a pair, and not after them.
fn word_inside(node: &Node<'_>) -> Option<Span> {
    let Kind::Scalar { value, verbatim } = &node.kind else { return None };
    let bracket = value.find('(')?.checked_sub(1).filter(|space| value.as_bytes()[*space] == b' ')?;
    let mut words = AFTER.into_iter().filter(|(_, says)| *says != BoughtAs::Packs);
    let ends_with = |word: &str| value[..bracket].strip_suffix(word).filter(|before| before.ends_with(' '));
    let (at, word) = words.find_map(|(word, _)| Some((ends_with(word)?.len(), word)))?;
    Some(verbatim.map_or(node.at, |start| Span::new(start + at, start + at + word.len())))
}

/// How many fabrics share a list: one number, or one for each size.
pub(super) fn read_different(
    reader: &mut Reader,
    known: &DeclaredNames<'_>,
    entry: Option<&Entry<'_>>,
) -> Vec<Field<Count>> {
    let sizes = &known.sizes.list;
    let mut counts = match entry.map(|entry| (entry, &entry.value.kind)) {
        None => return Vec::new(),
        Some((entry, Kind::Table(_))) => read_some_sizes(reader, known.sizes, "different", entry, DIFFERENT_EXAMPLE),
        Some((entry, _)) => {
            let count = reader.count(&entry.value);
            sizes.iter().map(|_| count.clone()).collect()
        }
    };
    let mut told = false;
    for count in &mut counts {
        if let Some(nought) = count.stated().filter(|count| count.value.0 == 0) {
            if !told {
                let why = "it must be at least 1".to_string();
                reader.report(nought.at, MistakeKind::OutOfRange { why, help: "" });
            }
            told = true;
            *count = Field::Unread;
        }
    }
    counts
}

/// Reports what of a fabric's purchase does not go together, and counts packs by what is in them.
pub(super) fn check_bought(reader: &mut Reader, table: &mut Table<'_, '_>, fabric: &mut Fabric) {
    let sold_as = fabric.sold_as.or(SoldAs::Yardage);
    let yardage = sold_as == Some(SoldAs::Yardage);
    let precut = matches!(sold_as, Some(SoldAs::Strips | SoldAs::Squares));
    if let Some(at) = fabric.pack.at().filter(|_| sold_as.is_some() && !precut) {
        let why = "Packs are of precut strips or squares".to_string();
        reader.report(
            at,
            MistakeKind::CannotBe { why, mend: "State sold_as: squares or sold_as: strips, or take pack out" },
        );
    }
    if let Some(at) = fabric.shrinks.at().filter(|_| sold_as.is_some() && !yardage) {
        let why = "How much smaller precut fabric is after washing is not computed".to_string();
        reader.report(
            at,
            MistakeKind::CannotBe { why, mend: "State the usable width after washing, or take shrinks out" },
        );
    }
    if let Some(from_each) = fabric.from_each.stated().filter(|from_each| yardage && from_each.value == YesNo::Yes) {
        let why = "Fabric from the bolt has no pieces to give the same".to_string();
        let mend = "State how many fabrics there are (different: 12), and write each after the amounts";
        reader.report(from_each.at, MistakeKind::CannotBe { why, mend });
    }
    for size in 0..fabric.requires.len() {
        let Some(bought) = fabric.requires[size].stated() else { continue };
        let (at, says) = (bought.at(), fabric.bought_as(size));
        let different = fabric.different.get(size).is_some_and(|different| !different.is_absent());
        match says {
            None if yardage && different && !bought.is_nothing() => {
                let why =
                    "Nothing says whether this is of each of the different fabrics or of all together".to_string();
                reader.report(at, MistakeKind::CannotBe { why, mend: "Write 1/4 yd each, or 3 yd in all" });
                fabric.requires[size] = PerSize::Unread;
            }
            Some(BoughtAs::Each | BoughtAs::InAll) if yardage && !different => {
                if fabric.different.is_empty() {
                    table.lacks(Fabric::DIFFERENT);
                } else {
                    let why = "Nothing says how many different fabrics this size has".to_string();
                    reader.report(at, MistakeKind::CannotBe { why, mend: "Add the size under different" });
                }
                fabric.requires[size] = PerSize::Unread;
            }
            Some(BoughtAs::Each) if !yardage => {
                let why = "A number of small fabrics is of all of them together".to_string();
                reader.report(at, MistakeKind::CannotBe { why, mend: "State how many are bought in all, such as 12" });
                fabric.requires[size] = PerSize::Unread;
            }
            Some(BoughtAs::Packs) => packs(reader, table, fabric, size, precut),
            _ => {}
        }
    }
}

/// Counts packs of one size by what is in them.
fn packs(reader: &mut Reader, table: &mut Table<'_, '_>, fabric: &mut Fabric, size: usize, precut: bool) {
    let Some(Bought::Count(packs)) = fabric.requires[size].stated() else {
        if let Some(bought) = fabric.requires[size].stated() {
            let why = "Fabric from the bolt is not sold in packs".to_string();
            let mend = "State sold_as: squares or sold_as: strips, with pack: 42";
            reader.report(bought.at(), MistakeKind::CannotBe { why, mend });
        }
        fabric.requires[size] = PerSize::Unread;
        return;
    };
    let (at, packs) = (packs.at, packs.value);
    if fabric.pack.is_absent() && precut {
        table.lacks(Fabric::PACK);
    }
    fabric.requires[size] = match fabric.pack.value().filter(|pack| precut && pack.0 > 0) {
        Some(pack) => PerSize::Stated(Bought::Count(Spanned { value: packs * pack, at })),
        None => PerSize::Unread,
    };
}

impl Fabric {
    /// What may be bought instead for a size.
    pub fn instead(&self, size: usize) -> Option<&Instead> {
        let at = self.requires.get(size)?.stated()?.at();
        self.choices.iter().find(|(of, _)| *of == at).map(|(_, instead)| instead)
    }

    /// What stands after the amount or the count of a size.
    pub fn bought_as(&self, size: usize) -> Option<BoughtAs> {
        self.bought_as_at(self.requires.get(size)?.stated()?.at())
    }

    /// What stands after the amount or the count at a place.
    pub fn bought_as_at(&self, at: Span) -> Option<BoughtAs> {
        self.after.iter().find(|(of, _)| *of == at).map(|(_, says)| *says)
    }

    /// How many fabrics give the same pieces for a size: each of several, or each of the small fabrics that are bought.
    pub fn gives_from_each(&self, size: usize) -> Option<Count> {
        if self.from_each.value() == Some(YesNo::Yes) {
            return match self.requires.get(size)?.stated()? {
                Bought::Count(count) => Some(count.value),
                Bought::Amount(_) => None,
            };
        }
        self.different.get(size)?.value()
    }
}

/// Counts the pieces of all fabrics where the list states those from each.
pub(super) fn count_from_each(reader: &mut Reader, fabric: &mut Fabric) {
    let sizes = fabric.requires.len().max(fabric.different.len());
    let among: Vec<Option<Count>> = (0..sizes).map(|size| fabric.gives_from_each(size)).collect();
    let is_shared = !fabric.different.is_empty() || !fabric.from_each.is_absent();
    for cut in &mut fabric.cut {
        if let Some(at) = cut.pieces_from_each.iter().find_map(Field::at).filter(|_| !is_shared) {
            let why = "Nothing says that several fabrics give these pieces".to_string();
            let mend =
                "State how many fabrics there are (different: 12), or from_each: yes for fat quarters and precuts";
            reader.report(at, MistakeKind::CannotBe { why, mend });
        }
        for (size, from_each) in cut.pieces_from_each.iter().enumerate() {
            if !cut.pieces[size].is_absent() || from_each.is_absent() {
                continue;
            }
            cut.pieces[size] = match from_each.stated().zip(among.get(size).copied().flatten()) {
                Some((each, among)) => Field::Stated(Spanned { value: each.value * among, at: each.at }),
                None => Field::Unread,
            };
        }
    }
}
