//! Backing: panels of fabric, selvedge to selvedge, sewn side by side until they are as wide as the backing.
//!
//! All of it is geometry; the overhang, the seam and the usable width are the pattern's or the publisher's.

use super::rectangle::Rectangle;
use crate::choices::PanelsRun;
use crate::quantity::{Count, Length, Percent, Yardage};

/// The fabric that panels are cut from, and how they are sewn together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cloth {
    /// The width between the selvedges that can be used.
    pub usable_width: Length,
    /// The seam allowance at each panel's edge; two panels lose two of them.
    pub seam: Length,
    /// How wide a strip of other fabric is cut that is sewn in between them; nothing where there is none.
    pub insert: Length,
}

/// Panels that are laid one way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Panels {
    /// The way they run.
    pub run: PanelsRun,
    /// How many.
    pub count: Count,
    /// How much of the bolt each takes.
    pub each: Length,
    /// How much of the backing they must cover side by side.
    pub across: Length,
    /// How much of the bolt all of them take, before washing where it is washed first.
    pub fabric: Yardage,
    /// How much shorter the fabric is after washing.
    pub shrinks: Percent,
}

impl Panels {
    /// The same panels, so many of them.
    #[must_use]
    pub fn with_count(self, count: Count) -> Panels {
        Panels { count, fabric: Yardage(self.shrinks.before(self.each * count)), ..self }
    }

    /// The same panels of fabric that is so much shorter after washing.
    #[must_use]
    pub fn shrinking(self, shrinks: Percent) -> Panels {
        Panels { shrinks, ..self }.with_count(self.count)
    }
}

/// How wide so many panels are when sewn side by side: n U - 2 (n - 1) s. Three of 34 in with 1/2 in seams are 100 in
/// (American Patchwork & Quilting, August 2019 p. 96). A strip that is sewn in between adds its width less two seams.
pub fn sewn(count: Count, cloth: Cloth) -> Length {
    match count {
        Count(0) => Length::ZERO,
        count => cloth.usable_width * count - cloth.seam * 2 * count.less(Count(1)) + cloth.inserted(),
    }
}

impl Cloth {
    /// What a strip that is sewn in adds to the panels.
    pub fn inserted(self) -> Length {
        if self.insert.is_positive() { self.insert - self.seam * 2 } else { Length::ZERO }
    }
}

/// The fewest panels that cover so much; `None` where a seam takes as much as a panel adds.
pub fn panels_for(across: Length, cloth: Cloth) -> Option<Count> {
    let across = across - cloth.inserted();
    if across <= cloth.usable_width {
        return Some(Count(1));
    }
    let seam = cloth.seam * 2;
    (across - seam).covered_by(cloth.usable_width - seam)
}

/// The fewest panels that cover a backing when they run one way.
///
/// Along: side by side they cover the width, and each is as long as the backing. Across: side by side they cover the
/// length, and each is as long as the backing is wide.
pub fn panels(run: PanelsRun, backing: Rectangle, cloth: Cloth) -> Option<Panels> {
    let (across, each) = match run {
        PanelsRun::Along => (backing.width, backing.length),
        PanelsRun::Across => (backing.length, backing.width),
    };
    let count = panels_for(across, cloth)?;
    Some(Panels { run, count, each, across, fabric: Yardage(each * count), shrinks: Percent::default() })
}
