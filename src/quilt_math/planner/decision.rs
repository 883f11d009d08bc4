//! What is decided about one list, each part worked out when it is first asked for.

use std::sync::OnceLock;

use super::bound::{self, Reason};
use super::clever;
use super::items::{Item, List, Remnant};
use super::layout::{Cutting, Strip, length};
use super::plain;
use crate::quantity::Length;

/// Whether an amount of fabric is enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// A plain plan fits.
    Enough,
    /// Only a plan that is cut in more steps fits.
    OnlyClever,
    /// No plan that was found fits, and none is proved not to exist.
    Undecided,
    /// No way of cutting fits.
    Short,
}

/// The decision about a list of pieces.
#[derive(Debug)]
pub struct Decision {
    /// `None` where a piece fits no way round, or the measures are too fine for tables.
    list: Option<List>,
    width: Length,
    /// The least length by area and by the longest piece, for lists without tables.
    rough: Length,
    plain: OnceLock<Option<Vec<Strip>>>,
    least: OnceLock<(Length, Reason)>,
    clever: OnceLock<Option<Vec<Strip>>>,
}

impl Decision {
    /// Nothing is worked out yet.
    pub fn new(items: &[Item], width: Length, remnants: &[Remnant]) -> Decision {
        Decision {
            list: List::new(items, width, remnants),
            width,
            rough: rough(items, width, remnants),
            plain: OnceLock::new(),
            least: OnceLock::new(),
            clever: OnceLock::new(),
        }
    }

    /// The usable width of the fabric.
    pub fn width(&self) -> Length {
        self.width
    }

    /// The plain plan: strips from selvedge to selvedge; `None` where none was made.
    pub fn plain(&self) -> Option<Cutting> {
        let list = self.list.as_ref()?;
        self.plain_strips().map(|strips| Cutting::new(list, strips.to_vec()))
    }

    /// No way of cutting takes less than this, and why.
    pub fn least(&self) -> (Length, Reason) {
        *self.least.get_or_init(|| {
            let Some((list, plain)) = self.list.as_ref().zip(self.plain_strips()) else {
                return (self.rough, Reason::Area);
            };
            let (least, reason) = bound::bound(list, length(plain));
            (list.length(least), reason)
        })
    }

    /// A plan that is shorter than the plain one and is cut in more steps, where one was found.
    pub fn clever(&self) -> Option<Cutting> {
        let list = self.list.as_ref()?;
        let clever = self.clever.get_or_init(|| {
            let plain = self.plain_strips()?;
            let least = i64::try_from(self.least().0.ticks() / list.unit.ticks()).ok()?;
            if least < length(plain) { clever::plan(list, plain, least) } else { None }
        });
        clever.clone().map(|strips| Cutting::new(list, strips))
    }

    /// The shortest plan of any kind that was found.
    pub fn best(&self) -> Option<Cutting> {
        self.clever().or_else(|| self.plain())
    }

    /// Whether so much length of fabric is enough. No more is worked out than it takes to say so.
    pub fn verdict(&self, there: Length) -> Verdict {
        if self.plain().is_some_and(|plain| plain.length() <= there) {
            Verdict::Enough
        } else if self.least().0 > there {
            Verdict::Short
        } else if self.clever().is_some_and(|clever| clever.length() <= there) {
            Verdict::OnlyClever
        } else {
            Verdict::Undecided
        }
    }

    fn plain_strips(&self) -> Option<&[Strip]> {
        let plain = self.plain.get_or_init(|| plain::plan(self.list.as_ref()?, 0));
        plain.as_deref()
    }
}

/// The area of all pieces over the width, less what is there anyway.
fn rough(items: &[Item], width: Length, remnants: &[Remnant]) -> Length {
    let area = |across: Length, along: Length, count: u64| {
        across.ticks().checked_mul(along.ticks()).and_then(|area| area.checked_mul(i128::from(count)))
    };
    let all: Option<i128> = items.iter().map(|item| area(item.across, item.along, item.count.0)).sum();
    let there: Option<i128> = remnants.iter().map(|remnant| area(remnant.across, remnant.along, remnant.count.0)).sum();
    match all.zip(there) {
        Some((all, there)) if width.is_positive() => Length::from_ticks((all - there).max(0) / width.ticks()),
        _ => Length::ZERO,
    }
}
