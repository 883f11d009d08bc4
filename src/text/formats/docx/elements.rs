//! Elements of Word texts: signs that stand by their numbers, and what is not read.

use crate::text::formats::xml::Element;

/// The sign that stands by its number in a font of signs; of other fonts, only the font says.
pub(super) fn sign_of(element: &Element) -> &'static str {
    if element.attribute("font").as_deref() != Some("Symbol") {
        return "\u{fffd}";
    }
    match element.attribute("char").as_deref().map(|code| code.trim_start_matches("F0")) {
        Some("A2") => "\u{2032}",
        Some("A4") => "\u{2044}",
        Some("B0") => "°",
        Some("B2") => "\u{2033}",
        Some("B4") => "×",
        Some("B7") => "•",
        _ => "\u{fffd}",
    }
}

/// Elements whose text is not the text that readers get: what is deleted, instructions, what was before a change.
pub(super) fn is_unread(name: &str) -> bool {
    matches!(
        name,
        "del"
            | "moveFrom"
            | "delText"
            | "instrText"
            | "delInstrText"
            | "Fallback"
            | "pPrChange"
            | "rPrChange"
            | "tblPrChange"
            | "tblGridChange"
            | "trPrChange"
            | "tcPrChange"
            | "sectPrChange"
            | "numberingChange"
            | "rt"
            | "sectPr"
    )
}
