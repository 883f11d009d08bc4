//! Units of length, and the measure that a manuscript is written in.

use super::Length;

/// What a bare number in a manuscript means, and how lengths are printed back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Measure {
    /// Inches, and yards for fabric.
    #[default]
    Inch,
    /// Centimetres, and metres for fabric.
    Cm,
}

impl Measure {
    /// The unit that a number without a mark is in.
    pub const fn bare_unit(self) -> Unit {
        match self {
            Measure::Inch => Unit::Inch,
            Measure::Cm => Unit::Cm,
        }
    }
}

/// A unit of length that a quantity may be marked with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// 25.4 mm exactly.
    Inch,
    /// 12 in.
    Foot,
    /// 36 in, 0.9144 m exactly (UK Weights and Measures Act 1985, s.1(1)(a)).
    Yard,
    /// A thousandth of a metre.
    Mm,
    /// A hundredth of a metre.
    Cm,
    /// 1000 mm.
    Metre,
}

impl Unit {
    /// One of this unit.
    pub const fn one(self) -> Length {
        match self {
            Unit::Inch => Length::inches(1),
            Unit::Foot => Length::inches(12),
            Unit::Yard => Length::inches(36),
            Unit::Mm => Length::millimetres(1),
            Unit::Cm => Length::millimetres(10),
            Unit::Metre => Length::millimetres(1000),
        }
    }

    /// The mark that is printed after a number in this unit.
    pub const fn mark(self) -> &'static str {
        match self {
            Unit::Inch => "in",
            Unit::Foot => "ft",
            Unit::Yard => "yd",
            Unit::Mm => "mm",
            Unit::Cm => "cm",
            Unit::Metre => "m",
        }
    }

    /// Whether the unit is one of the metric ones.
    pub const fn is_metric(self) -> bool {
        matches!(self, Unit::Mm | Unit::Cm | Unit::Metre)
    }

    /// The unit that a written word or sign stands for, in any case.
    pub fn from_word(word: &str) -> Option<Unit> {
        Unit::from_lower_case(word).or_else(|| Unit::from_lower_case(&word.to_lowercase()))
    }

    fn from_lower_case(word: &str) -> Option<Unit> {
        Some(match word {
            "in" | "ins" | "inch" | "inches" | "\"" | "″" | "”" => Unit::Inch,
            "ft" | "foot" | "feet" => Unit::Foot,
            "y" | "yd" | "yds" | "yard" | "yards" => Unit::Yard,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Unit::Mm,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Unit::Cm,
            "m" | "metre" | "metres" | "meter" | "meters" => Unit::Metre,
            _ => return None,
        })
    }
}
