//! Units of length.
//!
//! L. V. Judson, Addendum to Circular 572, Calibration of Line Standards of Length (US National Bureau of Standards,
//! 22 January 1960): from 1 July 1959 the yard is 0.9144 m exactly, and so the inch 25.4 mm; the same in Australia,
//! Canada, New Zealand, South Africa and the United Kingdom. Weights and Measures Act 1985, s. 1(1)(a) (UK): the
//! yard shall be 0.9144 metre exactly.

use rstest::rstest;

use crate::against_handbooks::length;

#[rstest]
#[case("1 yd", "0.9144 m")]
#[case("1 in", "25.4 mm")]
#[case("1 yd", "36 in")]
#[case("1 in", "2.54 cm")]
#[case("10000 mm", "10 m")]
fn units_agree(#[case] one: &str, #[case] other: &str) {
    assert_eq!(length(one), length(other));
}

/// The yard table: Scissortail Quilting, "Convert fabric measurements"; Quilting Board t280955; Cheryl Almgren
/// Taylor, "Measurements"; Catbird Quilts (2014), "Fraction conversions". Decimals of sixths and thirds are rounded
/// there to three places, so they are not compared.
#[rstest]
#[case("1/8", "4.5", "11.43", Some("0.125"))]
#[case("1/6", "6", "15.24", None)]
#[case("1/4", "9", "22.86", Some("0.250"))]
#[case("1/3", "12", "30.48", None)]
#[case("3/8", "13.5", "34.29", Some("0.375"))]
#[case("1/2", "18", "45.72", Some("0.500"))]
#[case("5/8", "22.5", "57.15", Some("0.625"))]
#[case("2/3", "24", "60.96", None)]
#[case("3/4", "27", "68.58", Some("0.750"))]
#[case("7/8", "31.5", "80.01", Some("0.875"))]
#[case("1", "36", "91.44", Some("1.000"))]
fn yard_table(#[case] yards: &str, #[case] inches: &str, #[case] centimetres: &str, #[case] decimal: Option<&str>) {
    let yards = length(&format!("{yards} yd"));
    assert_eq!(yards, length(&format!("{inches} in")));
    assert_eq!(yards, length(&format!("{centimetres} cm")));
    if let Some(decimal) = decimal {
        assert_eq!(yards, length(&format!("{decimal} yd")));
    }
}
