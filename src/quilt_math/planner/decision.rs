//! What is decided about one list, each part worked out when it is first asked for.

use std::sync::OnceLock;

use super::bound::{self, Reason};
use super::clever;
use super::cutting::Cutting;
use super::items::{Item, List, Remnant};
use super::layout::{Strip, length};
use super::{plain, quick};
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
    /// The least length that is known without tables.
    quick: (Length, Reason),
    plain: OnceLock<Option<Vec<Strip>>>,
    shorter_plain: OnceLock<Option<Vec<Strip>>>,
    least: OnceLock<(Length, Reason)>,
    clever: OnceLock<Option<Vec<Strip>>>,
}

impl Decision {
    /// Nothing is worked out yet.
    pub fn new(items: &[Item], width: Length, remnants: &[Remnant]) -> Decision {
        Decision {
            list: List::new(items, width, remnants),
            width,
            quick: quick::least(items, width, remnants),
            plain: OnceLock::new(),
            shorter_plain: OnceLock::new(),
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
        self.plain_strips().map(|strips| Cutting::new(list, strips))
    }

    /// A plain plan that is shorter than the first, where one was found with more work.
    pub fn shorter_plain(&self) -> Option<Cutting> {
        let list = self.list.as_ref()?;
        let shorter = self.shorter_plain.get_or_init(|| {
            let least = i64::try_from(self.quick.0.ticks() / list.unit.ticks()).ok()?;
            plain::plan_with_one_more(list, self.plain_strips()?, least)
        });
        shorter.as_deref().map(|strips| Cutting::new(list, strips))
    }

    /// How much of the fabric's length the plain plan takes; `None` where none was made.
    pub fn plain_length(&self) -> Option<Length> {
        let list = self.list.as_ref()?;
        self.plain_strips().map(|strips| list.length(length(strips)))
    }

    /// No way of cutting takes less than this: found at once, and often less than what is found with tables.
    pub fn quick_least(&self) -> Length {
        self.quick.0
    }

    /// No way of cutting takes less than this, and why.
    pub fn least(&self) -> (Length, Reason) {
        let least = self.least.get_or_init(|| {
            let Some((list, plain)) = self.list.as_ref().zip(self.plain_strips()) else {
                return self.quick.clone();
            };
            let (least, reason) = bound::bound(list, length(plain));
            // Both are proved. What is found with tables is nearly always more.
            if self.quick.0 > list.length(least) { self.quick.clone() } else { (list.length(least), reason) }
        });
        least.clone()
    }

    /// A plan that is shorter than the plain one and is cut in more steps, where one was found.
    pub fn clever(&self) -> Option<Cutting> {
        let list = self.list.as_ref()?;
        let clever = self.clever.get_or_init(|| {
            let plain = self.plain_strips()?;
            let least = i64::try_from(self.least().0.ticks() / list.unit.ticks()).ok()?;
            if least < length(plain) { clever::plan(list, plain, least) } else { None }
        });
        clever.as_deref().map(|strips| Cutting::new(list, strips))
    }

    /// The shortest plan that was found without more work.
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
