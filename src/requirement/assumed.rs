//! The values of the rule book that several sections assume where the pattern states none.

use crate::rule_book::LengthValue;

/// The usable width of fabric.
pub const USABLE_WIDTH: LengthValue = LengthValue::named("usable_width");
/// The seam of a straight join.
pub const JOIN_SEAM: LengthValue = LengthValue::named("join_seam");
/// The seam that units are pieced with.
pub const PIECING_SEAM: LengthValue = LengthValue::named("piecing_seam");
