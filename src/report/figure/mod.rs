//! The drawings of a worksheet.

/// One drawing, ready for a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// A name for it that no other drawing of the page has.
    pub id: String,
    /// The size that it is for.
    pub size: String,
    /// What stands under it.
    pub caption: String,
    /// What it shows, for those who do not see it.
    pub alternative: String,
    /// The drawing itself: a whole `<svg>` in which everything is escaped.
    pub svg: String,
}

/// How drawings look, for the page's style.
pub const FIGURE_STYLE: &str = "";
